"""The shop's knurl wheels: which of them tracks on a diameter, and what diameter suits each.

Wheels stand in a file ``knurl_wheels.toml`` of a shop folder, one ``[[wheels]]`` a wheel or a pair that goes together;
the core reads it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from halfnut import _core
from halfnut._core import DomainError, Error, Evidence, spell
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active, active_folders
from halfnut.core.mistakes import InputError, Mistake, of_core
from halfnut.core.record import Caution, Record
from halfnut.core.shapes import load_toml
from halfnut.core.units import length, unit_of
from halfnut.demo import FOLDER
from halfnut.knurls.figures import KnurlBlank
from halfnut.knurls.questions import knurl_blank

if TYPE_CHECKING:
    from halfnut.core.given import LengthLike

__all__ = ["KnurlWheel", "WheelChoice", "WheelOnDiameter", "knurl_wheels", "suitable_wheels"]

_FILE = "knurl_wheels.toml"


@dataclass(frozen=True, slots=True)
class KnurlWheel:
    """A wheel of the shop, or a pair that goes together.

    Parameters
    ----------
    name : str
        What the shop calls it.
    pitch : str
        As `knurl_blank` takes it.
    pattern : str
        As `knurl_blank` takes it.
    measured : str
        Diameter over the points and teeth, as `knurl_blank` takes its ``wheel``; empty where it is not measured.
    cuts : bool
        Whether it cuts the teeth and does not press them in.
    """

    name: str
    pitch: str
    pattern: str
    measured: str = ""
    cuts: bool = False


def knurl_wheels(path: str | Path | None = None) -> tuple[KnurlWheel, ...]:
    """The wheels of a file; else of the shop folders, else of the demonstration.

    Parameters
    ----------
    path : path, optional
        The file.

    Returns
    -------
    tuple of KnurlWheel
        In the file's order.

    Raises
    ------
    InputError
        Every mistake in the file at once.

    >>> len(knurl_wheels()) > 3
    True
    """
    file = _file(path)
    wheels, mistakes, _ = _load(file, file.stat().st_mtime_ns if file.is_file() else 0)
    if mistakes:
        raise InputError(str(file), mistakes)
    return wheels


def _file(path: str | Path | None) -> Path:
    places = [folder / _FILE for folder in (*reversed(active_folders()), FOLDER)]
    return next(filter(Path.is_file, places)) if path is None else Path(path)


@lru_cache(maxsize=16)
def _load(path: Path, changed_ns: int) -> tuple[tuple[KnurlWheel, ...], list[Mistake], dict[str, Any]]:
    data = load_toml(path)
    rows, mistakes = _core.wheels_of_file(data, active())
    return tuple(KnurlWheel(*row) for row in rows), of_core(mistakes, data), data


def _sound_and_refused(path: str | Path | None) -> tuple[tuple[KnurlWheel, ...], list[tuple[str, str]]]:
    """The wheels of a file that can be used, and of each of the others its name and its mistakes.

    Raises
    ------
    InputError
        A mistake outside the rows of wheels.
    """
    file = _file(path)
    wheels, mistakes, data = _load(file, file.stat().st_mtime_ns if file.is_file() else 0)
    refused: dict[int, list[str]] = {}
    for each in mistakes:
        place = re.match(r"wheels\[(\d+)\]", each.key)
        if place is None:
            raise InputError(str(file), mistakes)
        refused.setdefault(int(place[1]), []).append(str(each))
    rows = data.get("wheels", [])
    names = {place: rows[place].get("name") if isinstance(rows[place], Mapping) else None for place in refused}
    told = {place: f"cannot be used: {'; '.join(why)}" for place, why in refused.items()}
    return wheels, [(str(names[place] or f"wheels[{place}]"), why) for place, why in told.items()]


@dataclass(frozen=True)
class WheelOnDiameter:
    """One wheel on one diameter. Lengths in mm.

    Parameters
    ----------
    wheel : str
        Its name.
    pattern : str
        The pattern that it prints.
    pitch : str
        Its pitch.
    tracks : bool
        Whether the diameter takes nearly a whole number of its teeth.
    mismatch_teeth : float
        How far from a whole number of teeth the diameter is.
    blank : KnurlBlank or None
        The nearest blank, with those below and above; None where the wheel gives none.
    refusal : str
        Why there is none.
    """

    wheel: str
    pattern: str
    pitch: str
    tracks: bool
    mismatch_teeth: float
    blank: KnurlBlank | None
    refusal: str


@dataclass(frozen=True, repr=False)
class WheelChoice(Record):
    """The shop's wheels on one diameter, best first.

    Parameters
    ----------
    diameter_mm : float
        The diameter that was given.
    unit : str
        Of the answer, "in" or "mm".
    wheels : tuple of WheelOnDiameter
        Each wheel, those first that are nearest to whole teeth.
    cautions : tuple of Caution
        Those of the best wheel's blank.
    evidence : tuple of Evidence
        What the best wheel's blank rests on.
    """

    diameter_mm: float
    unit: str
    wheels: tuple[WheelOnDiameter, ...]
    cautions: tuple[Caution, ...]
    evidence: tuple[Evidence, ...]

    def to_dict(self) -> dict[str, Any]:
        """The diameter, and each wheel's verdict.

        Returns
        -------
        dict
            Keys that end in their unit.
        """
        return {
            "diameter_mm": self.diameter_mm,
            "unit": self.unit,
            "wheels": [
                {
                    "wheel": each.wheel,
                    "pattern": each.pattern,
                    "pitch": each.pitch,
                    "tracks": each.tracks,
                    "mismatch_teeth": each.mismatch_teeth,
                    "below_diameter_mm": None if each.blank is None else each.blank.below_diameter_mm,
                    "above_diameter_mm": None if each.blank is None else each.blank.above_diameter_mm,
                    "refusal": each.refusal,
                }
                for each in self.wheels
            ],
            "cautions": [item.code for item in self.cautions],
        }

    def lines(self) -> list[str]:
        """All of it: it is looked through.

        Returns
        -------
        list of str
            A line each.
        """
        return self.whole()

    @property
    def answer(self) -> str:
        """The wheels that track."""
        good = [each.wheel for each in self.wheels if each.tracks]
        tracks = f"{', '.join(good)} track" if good else "none of the shop's wheels tracks"
        return f"{spell(self.diameter_mm, 'length', self.unit)}: {tracks}"

    def report(self) -> list[tuple[str, str]]:
        """Each wheel with its nearest blanks.

        Returns
        -------
        list of pairs
            A label, which is empty, and what is said of a wheel.
        """
        out = []
        for each in self.wheels:
            text = each.refusal
            if each.blank is not None:
                low, high = (
                    spell(value, "length", self.unit)
                    for value in (each.blank.below_diameter_mm, each.blank.above_diameter_mm)
                )
                around = f"{each.blank.below_teeth} or {each.blank.above_teeth} teeth"
                suits = f"suits {low}" if low == high else f"suits {low} or {high}, {around}"
                off = f"{abs(each.mismatch_teeth):.2f} of a tooth off"
                text = f"{'tracks' if each.tracks else 'no'}, {off}; {suits}"
            out.append(("", f"{each.wheel:<28}  {text}"))
        return out


@checked
def suitable_wheels(
    diameter: LengthLike,
    *,
    pattern: str | None = None,
    finished: bool = False,
    wheels: str | Path | Iterable[KnurlWheel] | None = None,
) -> WheelChoice:
    """Which of the shop's wheels tracks on a diameter, and what diameter suits each.

    A wheel with mistakes in its row stands last, with all of them; the others answer.

    Parameters
    ----------
    diameter : str, Length or pint quantity
        Of the blank; of the knurl when `finished`.
    pattern : str, optional
        Only wheels that print it, as for `knurl_blank`.
    finished : bool
        Whether `diameter` is wanted after knurling.
    wheels : path or iterable of KnurlWheel, optional
        In place of the shop's file.

    Returns
    -------
    WheelChoice
        Wheels by how far they are from whole teeth; prints itself, those that track in its first line.

    Raises
    ------
    InputError
        The file is no list of wheels.
    UnitError
        A bare number as a diameter.

    >>> suitable_wheels("1/2 in", pattern="straight").wheels[0].tracks
    True
    """
    given = length(diameter, "diameter")
    if isinstance(wheels, str) and not wheels:
        raise InputError("wheels", [Mistake("", "must name a file, got ''", given=False)])
    held: Iterable[KnurlWheel] = ()
    refused: list[tuple[str, str]] = []
    if wheels is not None and not isinstance(wheels, (str, Path)):
        held = wheels
    else:
        held, refused = _sound_and_refused(wheels)
    held = tuple(held)
    odd = next((each for each in held if not isinstance(each, KnurlWheel)), None)
    if odd is not None:
        raise DomainError(f"wheels must be wheels of a wheel file, got {odd!r}")
    if pattern is not None:
        wanted = _core.parse_knurl_pattern(pattern, active())
        held = tuple(each for each in held if _prints(each, wanted, active()))
    found = sorted((_on(each, given, finished) for each in held), key=_rank)
    found += [WheelOnDiameter(name, "", "", False, 0.5, None, why) for name, why in refused]
    best = found[0].blank if found else None
    return WheelChoice(
        diameter_mm=given.mm,
        unit=unit_of(given),
        wheels=tuple(found),
        cautions=() if best is None else best.cautions,
        evidence=() if best is None else best.evidence,
    )


def _prints(wheel: KnurlWheel, wanted: object, catalogue: _core.Catalogue) -> bool:
    """Whether a wheel prints a pattern; one whose pattern is not understood stays, to say so."""
    try:
        return bool(_core.parse_knurl_pattern(wheel.pattern, catalogue) == wanted)
    except Error:
        return True


def _on(wheel: KnurlWheel, diameter: LengthLike, finished: bool) -> WheelOnDiameter:
    try:
        blank = knurl_blank(
            diameter,
            wheel.pitch,
            pattern=wheel.pattern,
            wheel=wheel.measured or None,
            finished=finished,
            process="cut" if wheel.cuts else "form",
        )
    except Error as error:
        return WheelOnDiameter(wheel.name, wheel.pattern, wheel.pitch, False, 0.5, None, str(error))
    return WheelOnDiameter(
        wheel.name, wheel.pattern, wheel.pitch, blank.given_tracks, blank.given_mismatch_teeth, blank, ""
    )


def _rank(each: WheelOnDiameter) -> tuple[bool, float, str]:
    return each.blank is None, abs(each.mismatch_teeth), each.wheel
