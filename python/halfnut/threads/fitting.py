"""Will it screw together: fits of two threads, bare or coated, by limits or as measured.

`fit` answers the clearances, the play and the chance of interference of any two threads; `cut_to_suit` the pitch
diameter of a part that is cut to suit one that is there.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any, ClassVar, Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from halfnut import _core
from halfnut._core import (
    BuildUp,
    Evidence,
    axial_play_mm,
    coated_pitch_change_um,
    greatest_build_up_um,
    thread_tilt_deg,
)
from halfnut.core.arguments import checked
from halfnut.core.carriers import columns, numbers
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import at_most, both, both_systems, film, one, span, spans
from halfnut.core.units import measured_mm
from halfnut.core.words import caution, caution_lines, words
from halfnut.material.alloys import expansion_at
from halfnut.material.coatings import build_up as read_build_up
from halfnut.material.coatings import process_cautions
from halfnut.threads.precoating import PrecoatLimits, precoat
from halfnut.threads.standard import PartLike, Thread, ThreadLimits, limits, limits_of

__all__ = [
    "ThreadFit",
    "axial_play_mm",
    "clearance_chances",
    "coat_of",
    "fit",
    "fit_columns",
    "one_thread",
    "thread_tilt_deg",
]


@dataclass(frozen=True, repr=False)
class ThreadFit(Record):
    """Fit of two threads. Clearances are differences of diameters, below 0 where the parts interfere.

    Lengths in mm; None where the standards set no limit.
    """

    SHORT: ClassVar[tuple[str, ...]] = ("axial", "tilt", "or")
    external: str
    internal: str
    unit: str
    verdict: str
    """"free", "may bind", "interferes" or "mismatch"."""
    deciding: str
    pitch_clearance_min_mm: float
    pitch_clearance_max_mm: float
    major_clearance_min_mm: float | None
    major_clearance_max_mm: float | None
    minor_clearance_min_mm: float | None
    minor_clearance_max_mm: float | None
    radial_play_min_mm: float
    radial_play_max_mm: float
    axial_play_min_mm: float
    axial_play_max_mm: float
    tilt_min_deg: float
    tilt_max_deg: float
    clearance_mean_mm: float
    clearance_sigma_mm: float
    chance_of_interference: float
    engagement_mm: float
    engagement_assumed: bool
    lead_mismatch_mm: float
    turns_to_bind: float | None
    build_up_external_min_um: float
    build_up_external_max_um: float
    build_up_internal_min_um: float
    build_up_internal_max_um: float
    external_pitch_max_mm: float
    """Bare, by limits or as measured; so the three that follow."""
    external_pitch_min_mm: float
    internal_pitch_max_mm: float
    internal_pitch_min_mm: float
    remedies: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Evidence, ...] = field(default=(), compare=False)

    @property
    def goes_together(self) -> bool:
        """Whether every pair within the limits screws together."""
        return self.verdict == "free"

    def to_dict(self) -> dict[str, Any]:
        """The fit as a flat dictionary with unit-suffixed keys, each length in both systems."""
        return both_systems(self._fields() | {"remedies": list(self.remedies)})

    def lines(self) -> list[str]:
        """The verdict, the play, and who answers for a load."""
        return [*super().lines(), f"  {words('said', 'load')}"]

    def whole(self) -> list[str]:
        """The verdict in the first line, then clearances, play, chance, remedies, cautions."""
        unit = self.unit
        low, high = self._deciding_clearance()
        pair = f"{self.external} in {self.internal}"
        room = f"{one(low, unit)} or more" if high is None else span(low, high, unit)
        tight = one(abs(low), unit)
        rare = self.chance_of_interference < _RARE and self.deciding.startswith("pitch")
        at_limits = f"up to {tight} of interference at the {self.deciding}"
        said = {
            "free": f"screws together, {room} of clearance at the {self.deciding}",
            "may bind": f"screws together, save the rarest pairs: {at_limits}, chance "
            f"{_percent(self.chance_of_interference)}"
            if rare
            else f"may bind: {at_limits}",
            "interferes": f"does not go together: {tight} of interference at the {self.deciding} at worst, some always",
            "mismatch": self._mismatch(),
        }
        out = [f"{pair}: {said[self.verdict]}"]
        sizes = f"external {self._over('external')}, internal {self._over('internal')} {unit}"
        out.append(f"  bare      {sizes}, pitch diameters")
        coats = [
            ("external", self.build_up_external_min_um, self.build_up_external_max_um),
            ("internal", self.build_up_internal_min_um, self.build_up_internal_max_um),
        ]
        for side, least, most in coats:
            if least or most:
                out.append(f"  coated    {film(least, most, unit)} a surface on the {side} part")
        for name in ("pitch", "major", "minor"):
            least_mm = getattr(self, f"{name}_clearance_min_mm")
            most_mm = getattr(self, f"{name}_clearance_max_mm")
            if least_mm is not None:
                zone = f"{both(least_mm, unit)} or more" if most_mm is None else spans(least_mm, most_mm, unit)
                out.append(f"  {'clearance' if name == 'pitch' else '':<9} {zone} at the {name} diameter")
        out.append(f"  radial    {spans(self.radial_play_min_mm, self.radial_play_max_mm, unit)} side to side")
        out.append(f"  axial     {spans(self.axial_play_min_mm, self.axial_play_max_mm, unit)} end play")
        assumed = " (assumed)" if self.engagement_assumed else ""
        out.append(
            f"  tilt      up to {self.tilt_max_deg:.2f} deg either way over {one(self.engagement_mm, unit)}{assumed}"
        )
        if self.verdict != "mismatch":
            three = 3.0 * self.clearance_sigma_mm
            likely = span(
                max(self.pitch_clearance_min_mm, self.clearance_mean_mm - three),
                min(self.pitch_clearance_max_mm, self.clearance_mean_mm + three),
                unit,
            )
            chance = _percent(self.chance_of_interference)
            out.append(f"  likely    {likely} at the pitch diameter; chance of interference {chance}")
        out += [f"  or: {remedy}" for remedy in self.remedies]
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines(self.cautions)
        return [*out, f"  {words('said', 'load')}"]

    def _over(self, side: str) -> str:
        """Upper over lower limit, or the one size that was measured."""
        high, low = (one(getattr(self, f"{side}_pitch_{end}_mm"), self.unit).split(" ")[0] for end in ("max", "min"))
        return high if high == low else f"{high}/{low}"

    def _deciding_clearance(self) -> tuple[float, float | None]:
        name = self.deciding.split(" ", 1)[0]
        name = name if name in {"pitch", "major", "minor"} else "pitch"
        return getattr(self, f"{name}_clearance_min_mm"), getattr(self, f"{name}_clearance_max_mm")

    def _mismatch(self) -> str:
        if self.deciding == "hand":
            return "one is right-hand, the other left-hand: they do not go together"
        if self.deciding == "thread angle":
            return "not one thread: the thread angles differ"
        if self.turns_to_bind is None:
            return "not one thread: the starts differ"
        if self.turns_to_bind == 0.0:
            return "not one thread: the leads differ, and it does not start"
        gain = one(self.lead_mismatch_mm, self.unit)
        return f"not one thread: the leads differ by {gain} a turn, bound after {self.turns_to_bind:.1f} turns at most"


_RARE = 1e-4
"""Chance of a pair that binds below which only the rarest pairs do."""

_LEAST_ROOM_UM = 0.001
"""Less room than this is rounding, and no coating is so thin."""


def _percent(chance: float) -> str:
    if chance <= 0.0:
        return "none"
    return "certain" if chance >= 1.0 else "under 0.01 %" if chance < _RARE else f"{100 * chance:.2g} %"


def one_thread(external: Thread, internal: Thread) -> bool:
    """Whether two parts are of one thread: form, diameter, pitch, starts and hand.

    >>> from halfnut.threads.standard import thread
    >>> one_thread(thread("M10-6g"), thread("M10-6H")), one_thread(thread("M10-6g"), thread("M10x1-6H"))
    (True, False)
    >>> one_thread(thread("M60x3"), thread("Tr60x3"))
    False
    """
    return external.form == internal.form and all(
        getattr(external, what) == getattr(internal, what) for what in ("diameter_mm", "pitch_mm", "starts", "hand")
    )


def coat_of(found: ThreadLimits, given: Any, name: str) -> BuildUp:
    """The build-up of a part: what is given, or what its limits before coating are made for.

    Raises
    ------
    DomainError
        Both, and they differ.

    >>> coat_of(precoat("M10-6h", "8 um"), None, "build_up_external").max_um
    8.0
    """
    asked = read_build_up(given, name)
    carried = found.build_up
    if carried is None or carried.bare:
        return asked
    if given is None:
        return carried
    if (asked.min_um, asked.max_um) != (carried.min_um, carried.max_um):
        has, wants = (film(each.min_um, each.max_um, found.unit) for each in (carried, asked))
        raise _core.DomainError(
            f"{name}: {found.title} has limits for a coating of {has} a surface, got {wants}: leave {name} out, or "
            "give the limits of the class"
        )
    return asked


def _size(value: Any, name: str) -> float | None:
    return None if value is None else measured_mm(value, name)


@dataclass(frozen=True)
class _Side:
    """One part of a fit: its limits, its coating, and what was measured in their place."""

    found: ThreadLimits
    coat: BuildUp
    sizes: Mapping[str, float | None]
    lead_error_mm: float = 0.0
    temperature_c: float = 20.0
    expansion_um_m_k: float = 0.0

    def met(self) -> _core.FitPart:
        measured: dict[str, Any] = {f"{name}_mm": value for name, value in self.sizes.items()}
        return self.found.figures.part(
            self.coat,
            **measured,
            lead_error_mm=self.lead_error_mm,
            temperature_c=self.temperature_c,
            expansion_um_m_k=self.expansion_um_m_k,
        )

    @property
    def cut(self) -> bool:
        """Whether it is there already, so that its limits cannot be moved."""
        return any(value is not None for value in self.sizes.values())

    def pitch_mm(self, end: str) -> float:
        """A limit of the bare pitch diameter, or what was measured."""
        measured = self.sizes.get("pitch")
        if measured is not None:
            return measured
        return self.found.pitch_max_mm if end == "max" else self.found.pitch_min_mm

    @property
    def bare(self) -> _Side:
        return replace(self, coat=_core.BuildUp(0.0, 0.0))


@checked
def fit(
    external: PartLike,
    internal: PartLike,
    *,
    build_up_external: Any = None,
    build_up_internal: Any = None,
    engagement: Any = None,
    external_pitch: Any = None,
    external_major: Any = None,
    internal_pitch: Any = None,
    internal_minor: Any = None,
    external_lead_error: Any = None,
    internal_lead_error: Any = None,
    external_alloy: str | None = None,
    internal_alloy: str | None = None,
    temperature_c: float = 20.0,
    tolerance_over_sigma: float = 6.0,
    mean_shift: float = 0.0,
) -> ThreadFit:
    """Whether an external and an internal thread screw together, and with how much play.

    Parameters
    ----------
    external, internal : str, Thread or ThreadLimits
        Designations (a class that is not given is the usual one), or limits, or sizes alone (`plain_thread`). Limits
        before coating (`precoat`) bring their build-up with them.
    build_up_external, build_up_internal : optional
        What a coating adds to each surface: ``"8 um"``, ``"0.0002 in to 0.0003 in"``, ``"anodise II 12 um"``. One that
        differs from what limits before coating are made for is refused.
    engagement : str, Length or pint quantity, optional
        Full-form length of engagement, without chamfers and run-outs; the nominal diameter when not given.
    external_pitch, external_major, internal_pitch, internal_minor : str, Length or pint quantity, optional
        Measured sizes of bare parts, in place of their limits.
    external_lead_error, internal_lead_error : str, Length or pint quantity, optional
        Between any two flanks within the engagement.
    external_alloy, internal_alloy : str, optional
        Of each part; needed for a temperature other than 20 C.
    temperature_c : float
        Of both parts, degrees Celsius.
    tolerance_over_sigma : float
        Tolerance over the standard deviation of the shop's cutting, 2 to 100; 6 fills the zone.
    mean_shift : float
        Where the shop's mean lies in the zone: 0 the middle, 1 the maximum-material limit, -1 the other.

    Returns
    -------
    ThreadFit
        Immutable; prints itself, the verdict in its first line.

    Raises
    ------
    DesignationError, NotTabulatedError
        A thread or coating that is not understood or not tabulated.
    DomainError
        A size or length out of its range.

    >>> answer = fit("M10-6g", "M10-6H")
    >>> answer.verdict, round(answer.pitch_clearance_min_mm, 3), round(answer.pitch_clearance_max_mm, 3)
    ('free', 0.032, 0.344)
    >>> fit("M10-6g", "M10-6H", build_up_external="10 um").verdict
    'may bind'
    """
    catalogue = active()

    male, female = limits_of(external, "external"), limits_of(internal, "internal")
    coat_male = coat_of(male, build_up_external, "build_up_external")
    coat_female = coat_of(female, build_up_internal, "build_up_internal")
    engagement_mm = _size(engagement, "engagement")
    if engagement_mm is None and male.thread is not None:
        engagement_mm = male.thread.engagement_mm
    sides = (
        _Side(
            male,
            coat_male,
            {"pitch": _size(external_pitch, "external_pitch"), "major": _size(external_major, "external_major")},
            lead_error_mm=_size(external_lead_error, "external_lead_error") or 0.0,
            temperature_c=temperature_c,
            expansion_um_m_k=expansion_at(external_alloy, temperature_c),
        ),
        _Side(
            female,
            coat_female,
            {"pitch": _size(internal_pitch, "internal_pitch"), "minor": _size(internal_minor, "internal_minor")},
            lead_error_mm=_size(internal_lead_error, "internal_lead_error") or 0.0,
            temperature_c=temperature_c,
            expansion_um_m_k=expansion_at(internal_alloy, temperature_c),
        ),
    )

    def ask(first: _Side, second: _Side) -> _core.FitAnswer:
        return _core.fit_answer(
            first.met(),
            second.met(),
            engagement_mm=engagement_mm,
            assumed_engagement_mm=male.diameter_mm,
            tolerance_over_sigma=tolerance_over_sigma,
            mean_shift=mean_shift,
        )

    answer = ask(*sides)
    figures: dict[str, Any] = answer.figures
    cautions = []
    if answer.engagement_assumed:
        cautions.append(caution("fit_engagement_assumed", length=one(figures["engagement_mm"], male.unit)))
    cautions += [each for side in (male, female) for each in side.cautions if each.code == "class_assumed"]
    cautions += process_cautions(coat_male)
    cautions += [each for each in process_cautions(coat_female, internal=True) if each not in cautions]
    return ThreadFit(
        external=male.title,
        internal=female.title,
        unit=male.unit,
        verdict=answer.verdict,
        deciding=answer.deciding,
        engagement_assumed=answer.engagement_assumed,
        build_up_external_min_um=coat_male.min_um,
        build_up_external_max_um=coat_male.max_um,
        build_up_internal_min_um=coat_female.min_um,
        build_up_internal_max_um=coat_female.max_um,
        **{f"{side.found.side}_pitch_{end}_mm": side.pitch_mm(end) for side in sides for end in ("max", "min")},
        remedies=_remedies(answer, sides, ask),
        cautions=tuple(cautions),
        evidence=(
            *answer.evidence(catalogue),
            *coat_male.evidence(catalogue),
            *(item for item in coat_female.evidence(catalogue) if coat_female.coating != coat_male.coating),
            *(item for side in sides for item in side.found.evidence),
        ),
        **figures,
    )


def clearance_chances(
    external: PartLike,
    internal: PartLike,
    clearances_mm: ArrayLike,
    *,
    build_up_external: Any = None,
    build_up_internal: Any = None,
    external_pitch: Any = None,
    internal_pitch: Any = None,
    tolerance_over_sigma: float = 6.0,
    mean_shift: float = 0.0,
) -> NDArray[np.float64]:
    """Chance that a pair has less clearance at the pitch diameter than each of some values: its distribution.

    Parameters
    ----------
    external, internal, build_up_external, build_up_internal, external_pitch, internal_pitch : optional
        As for `fit`.
    clearances_mm : array_like
        Clearances asked about, mm; below 0 an interference.
    tolerance_over_sigma, mean_shift : float
        As for `fit`.

    Returns
    -------
    ndarray
        From 0 to 1, for each clearance.

    Raises
    ------
    DomainError
        A clearance that is not finite, or a size out of its range.

    >>> clearance_chances("M10-6g", "M10-6H", [0.0, 0.188, 0.4]).round(3).tolist()
    [0.0, 0.5, 1.0]
    """
    male, female = limits_of(external, "external"), limits_of(internal, "internal")
    coats = (
        coat_of(male, build_up_external, "build_up_external"),
        coat_of(female, build_up_internal, "build_up_internal"),
    )
    asked = numbers(clearances_mm, "mm", "clearances_mm")
    chances = _core.fit_chances(
        _Side(male, coats[0], {"pitch": _size(external_pitch, "external_pitch")}).met(),
        _Side(female, coats[1], {"pitch": _size(internal_pitch, "internal_pitch")}).met(),
        asked.ravel(),
        tolerance_over_sigma=tolerance_over_sigma,
        mean_shift=mean_shift,
    )
    return chances.reshape(asked.shape)


def _remedies(
    answer: _core.FitAnswer, sides: tuple[_Side, _Side], ask: Callable[[_Side, _Side], _core.FitAnswer]
) -> tuple[str, ...]:
    """What makes coated parts go together, each tried before it is offered."""
    coated = [side for side in sides if not side.coat.bare]
    if answer.verdict not in {"may bind", "interferes"} or not coated:
        return ()

    def mends(*changed: _Side) -> bool:
        return ask(changed[0], changed[1]).verdict == "free"

    out, refused = [], []
    moved: dict[int, PrecoatLimits] = {}
    for place, side in enumerate(sides):
        if side.coat.bare or side.cut or side.found.thread is None:
            continue
        if side.found.build_up is not None:  # cut for its coating already
            continue
        try:
            before = precoat(side.found, side.coat)
        except _core.DomainError as error:
            refused.append(str(error))
            continue
        if before.way == "deducted":
            moved[place] = before
    if moved and mends(*(replace(side, found=moved.get(place, side.found)) for place, side in enumerate(sides))):
        cuts = [
            f"{sides[place].found.title} to pitch {_drawn(before.pitch_max, before.unit, math.floor)}/"
            f"{_drawn(before.pitch_min, before.unit, math.ceil)} {before.unit}"
            for place, before in moved.items()
        ]
        own = any(before.by_form for before in moved.values())
        size = "its own limits" if own else "the basic size"
        out.append(f"cut {' and '.join(cuts)} before coating (all limits: precoat), gauge at {size} after")
    roomier = {place: found for place, before in moved.items() if (found := _roomier(before)) is not None}
    if roomier and mends(*(replace(side, found=roomier.get(place, side.found)) for place, side in enumerate(sides))):
        out.append(f"cut {' and '.join(found.title for found in roomier.values())}, whose allowance is larger")
    alone = [side for side in coated if mends(*(each.bare if each is side else each for each in sides))]
    together = [] if alone or not mends(*(side.bare for side in sides)) else [coated]
    for masked in [*([side] for side in alone), *together]:
        names = " and of ".join(side.found.title for side in masked)
        out.append(f"mask the thread of {names}, and leave it bare")
    out += _thinner(answer, sides, coated, mends)
    return (*out, *refused)


def _drawn(value: float, unit: str, into: Callable[[float], int]) -> str:
    """A limit as a drawing has it, rounded into the zone."""
    places = 3 if unit == "mm" else 4
    whole = into(round(value * 10**places, 6))
    return f"{whole / 10**places:.{places}f}"


def _roomier(before: PrecoatLimits) -> ThreadLimits | None:
    """Limits of the class whose allowance holds the coat, where there is one."""
    wanted = before.roomier_class
    if wanted is None:
        return None
    return limits(before.title.replace(f"-{before.tolerance_class}", f"-{wanted}", 1))


def _thinner(
    answer: _core.FitAnswer, sides: tuple[_Side, _Side], coated: list[_Side], mends: Callable[..., bool]
) -> list[str]:
    """The greatest build-up that the bare parts' clearance holds, rounded down."""
    own = sides[0].found
    half_angle_deg = own.half_angle_deg
    room_um = 1000.0 * float(answer.figures["pitch_clearance_min_mm"] or 0.0)
    room_um += sum(coated_pitch_change_um(side.coat.max_um, half_angle_deg) for side in coated)
    share_um = room_um / len(coated)
    if share_um < _LEAST_ROOM_UM:
        return []
    most_um, shown = at_most(greatest_build_up_um(share_um, half_angle_deg), own.unit)
    thin = _core.BuildUp(0.0, most_um)
    if most_um <= 0.0 or not mends(*(replace(side, coat=thin) if side in coated else side for side in sides)):
        return []
    where = "each of the parts" if len(coated) == 2 else "the coated part"
    return [f"a coating that builds up at most {shown} a surface on {where}"]


def fit_columns(
    external: Sequence[str] | str,
    internal: Sequence[str] | str,
    *,
    build_up_external_min_um: ArrayLike = 0.0,
    build_up_external_max_um: ArrayLike = 0.0,
    build_up_internal_min_um: ArrayLike = 0.0,
    build_up_internal_max_um: ArrayLike = 0.0,
    engagement_mm: ArrayLike = np.nan,
    tolerance_over_sigma: ArrayLike = 6.0,
    on_error: Literal["raise", "status"] = "raise",
) -> dict[str, NDArray[Any]]:
    """Fits of many pairs as columns.

    Parameters
    ----------
    external, internal : str or sequence of str
        Designations of any form that is known; one serves all rows.
    build_up_external_min_um, build_up_external_max_um, build_up_internal_min_um, build_up_internal_max_um : array_like
        Build-up of a surface, um: one value, or one a row.
    engagement_mm : array_like
        Full-form length, mm; NaN: as the external designation states, or the nominal diameter.
    tolerance_over_sigma : array_like
        As for `fit`.
    on_error : {"raise", "status"}
        Raise at the first row that fails, or give NaN and a status other than 0 there.

    Returns
    -------
    dict of ndarray
        The figures of `ThreadFit`, ``verdict`` and ``status``.

    Raises
    ------
    DomainError
        With the first bad row, why, and how many failed.

    >>> fit_columns(["M10-6g", "M10-6h"], "M10-6H")["pitch_clearance_min_mm"].round(3).tolist()
    [0.032, 0.0]
    """
    pairs = [[text] if isinstance(text, str) else list(text) for text in (external, internal)]
    numbers = columns(
        build_up_external_min_um=build_up_external_min_um,
        build_up_external_max_um=build_up_external_max_um,
        build_up_internal_min_um=build_up_internal_min_um,
        build_up_internal_max_um=build_up_internal_max_um,
        engagement_mm=engagement_mm,
        tolerance_over_sigma=tolerance_over_sigma,
    )
    out = _core.fit_columns(pairs[0], pairs[1], active(), numbers, on_error)
    names = np.array(["free", "may bind", "interferes", "mismatch"])
    codes = out.pop("verdict_code")
    out["verdict"] = np.where(out["status"] == 0, names[codes], "")
    return out
