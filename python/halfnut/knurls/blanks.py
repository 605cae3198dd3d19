"""Knurls: blanks that track, and the size they come out at.

A knurl closes on itself only where the work takes a whole number of teeth. `knurl_blank` answers the blank to
turn; the functions of numbers below it are the formulas it is made of.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, fields
from typing import Any, ClassVar, Literal

from numpy.typing import ArrayLike, NDArray

from halfnut import _core
from halfnut._core import (
    Evidence,
    Length,
    blank_above_mm,
    blank_below_mm,
    diametral_wheel_outside_in,
    form_growth_mm,
    mismatch_teeth,
    normal_pitch_mm,
    pitch_from_diametral_mm,
    pitch_from_teeth_per_inch_mm,
    sharp_tooth_depth_mm,
    teeth_around,
    tracking_blank_mm,
    tracking_helix_deg,
    transverse_pitch_mm,
    wheel_pitch_mm,
)
from halfnut.core.arguments import checked, number
from halfnut.core.carriers import numbers
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.units import length, unit_of
from halfnut.core.words import caution

__all__ = [
    "KnurlBlank",
    "blank_above_mm",
    "blank_below_mm",
    "blank_columns",
    "diametral_wheel_outside_in",
    "form_growth_mm",
    "knurl_blank",
    "mismatch_teeth",
    "normal_pitch_mm",
    "pitch_from_diametral_mm",
    "pitch_from_teeth_per_inch_mm",
    "sharp_tooth_depth_mm",
    "teeth_around",
    "tracking_blank_mm",
    "tracking_helix_deg",
    "transverse_pitch_mm",
    "wheel_pitch_mm",
]

_CLASSES = {None: 0, 1: 1, 2: 2, 3: 3, "I": 1, "II": 2, "III": 3}


@dataclass(frozen=True, repr=False)
class KnurlBlank(Record):
    """The blank to turn before knurling, and what comes of it. Lengths in mm; None where one does not apply."""

    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("knurled", "{finished_diameter_mm}, {grows}; teeth {tooth_depth_mm} deep"),
        ("wheel", "{wheel_teeth} teeth on {wheel_diameter_mm}, tracks as if {tracking_allowance_mm} larger"),
        ("limits", "blank ± {blank_plus_minus_mm}[; knurled {finished_min_mm..finished_max_mm}]"),
        ("tracks", "{tracks}"),
    )
    pitch: str
    pattern: str
    process: str
    finished_wanted: bool
    unit: str
    """That of the diameter given."""
    assumed: tuple[str, ...]
    blank_diameter_mm: float
    teeth: int
    blank_plus_minus_mm: float
    finished_diameter_mm: float
    finished_max_mm: float | None
    finished_min_mm: float | None
    growth_mm: float
    tooth_depth_mm: float
    given_diameter_mm: float
    given_teeth: float
    given_mismatch_teeth: float
    given_mismatch_mm: float
    mismatch_limit_teeth: float
    below_diameter_mm: float
    below_teeth: int
    above_diameter_mm: float
    above_teeth: int
    normal_pitch_mm: float
    transverse_pitch_mm: float
    helix_deg: float
    wheel_diameter_mm: float | None
    wheel_teeth: int | None
    tracking_allowance_mm: float | None
    cautions: tuple[Caution, ...]
    evidence: tuple[Evidence, ...]

    @property
    def given_tracks(self) -> bool:
        """Whether the diameter that was given is near enough to whole teeth as it is."""
        return abs(self.given_mismatch_teeth) <= self.mismatch_limit_teeth

    def to_dict(self) -> dict[str, Any]:
        """The result as a flat dictionary with unit-suffixed keys; cautions as their codes."""
        out = {field.name: getattr(self, field.name) for field in fields(self) if field.name != "evidence"}
        out["assumed"] = list(self.assumed)
        out["given_tracks"] = self.given_tracks
        out["cautions"] = [item.code for item in self.cautions]
        return out

    @property
    def answer(self) -> str:
        """The blank."""
        assumed = " (assumed)" if "pattern" in self.assumed else ""
        return f"{self.filled('blank {blank_diameter_mm}: {teeth} teeth, {pitch}, {pattern}')}{assumed}"

    @property
    def grows(self) -> str:
        """How the diameter grows."""
        return "cut, so it does not grow" if self.process == "cut" else str(self.filled("grows {growth_mm}"))

    @property
    def tracks(self) -> str:
        """Whether the diameter given tracks, and the nearest that do."""
        asked = "is left for that finished size" if self.finished_wanted else "was given"
        if self.below_teeth == self.above_teeth:
            return str(self.filled(f"{{given_diameter_mm}} {asked} and tracks as it is"))
        still = "still tracks" if self.given_tracks else "does not track"
        off = f"{self.given_teeth:.2f} teeth, {abs(self.given_mismatch_teeth):.2f} of a tooth off, {still}"
        near = "{below_diameter_mm} with {below_teeth} teeth, {above_diameter_mm} with {above_teeth}"
        return str(self.filled(f"{near}; {{given_diameter_mm}} {asked}: {off}"))


@checked
def knurl_blank(
    diameter: Any,
    pitch: Any,
    *,
    pattern: str | None = None,
    wheel: Any = None,
    finished: bool = False,
    process: str = "form",
    prefer: str = "nearest",
    helix_deg: float | None = None,
    profile_deg: float | None = None,
    set_over: bool = False,
    tracking_allowance: Any = None,
    tolerance_class: int | str | None = None,
    width: Any = None,
) -> KnurlBlank:
    """The blank to turn so that a knurl closes on itself, and the diameter it comes out at.

    Parameters
    ----------
    diameter : str, Length or pint quantity
        Of the work before knurling; after it when `finished`.
    pitch : str
        "96 DP" (teeth per inch of diameter), "21 TPI" (teeth per inch across the teeth), "0.8 mm" (the same),
        a name ("coarse", "medium", "fine"), or a metric designation ("RGE 0.8", "RGE 08 - 105 DIN 82").
    pattern : str, optional
        "straight", "left", "right", "diamond raised", "diamond indented", "cross raised", "cross indented", or a
        metric form such as "RGV". Standing diamonds when neither this nor the designation says.
    wheel : str or tuple of diameter and teeth, optional
        The wheel at hand: "0.750 in, 47 teeth" as measured over the points, or "20 mm" for a standard wheel.
    finished : bool
        Whether `diameter` is wanted after knurling; then growth and whole teeth are solved together.
    process : {"form", "cut"}
        Pressed in, or cut with cutting wheels.
    prefer : {"nearest", "below", "above"}
        Which of the blanks that track is answered. "below" when the bar is already to size.
    helix_deg : float, optional
        Angle of leaning teeth from the axis, degrees, above 0 and below 75; 30 when not given.
    profile_deg : float, optional
        Angle between the flanks of the wheel's teeth, degrees, 40 to 140; the system's own depth when not given.
    set_over : bool
        Straight wheels turned to the helix angle, in place of wheels with leaning teeth.
    tracking_allowance : str, Length or pint quantity, optional
        How much larger than measured the wheel tracks; by rule when not given.
    tolerance_class : {1, 2, 3, "I", "II", "III"}, optional
        Of the diametral system.
    width : str, Length or pint quantity, optional
        Of the knurled band.

    Returns
    -------
    KnurlBlank
        Immutable; prints itself, the answer in its first line.

    Raises
    ------
    UnitError
        A length or a pitch without its unit.
    DesignationError
        A text that is not understood.
    DomainError
        A value outside its range, or two that contradict each other.
    NotTabulatedError
        No such standard wheel or tolerance class.

    >>> blank = knurl_blank("1/2 in", "96 DP", pattern="straight")
    >>> blank.teeth, round(blank.blank_diameter_mm, 3)
    (48, 12.7)
    """
    given = length(diameter, "diameter")
    question = _question(
        pitch,
        pattern=pattern,
        wheel=wheel,
        finished=finished,
        process=process,
        prefer=prefer,
        helix_deg=helix_deg,
        profile_deg=profile_deg,
        set_over=set_over,
        tracking_allowance=tracking_allowance,
        tolerance_class=tolerance_class,
        width=width,
    )
    answer = _core.knurl_answer(question.request, given.mm, active())
    return KnurlBlank(
        pitch=pitch.strip(),
        pattern=question.pattern,
        process=process,
        finished_wanted=finished,
        unit=unit_of(given),
        assumed=question.assumed,
        cautions=tuple(caution(code) for code in answer.cautions),
        evidence=tuple(answer.evidence),
        **_typed(answer.figures),
    )


def blank_columns(
    diameter_mm: ArrayLike, pitch: str, *, on_error: Literal["raise", "status"] = "raise", **options: Any
) -> dict[str, NDArray[Any]]:
    """Blanks of one knurl on many diameters, as columns.

    Parameters
    ----------
    diameter_mm : array_like
        Diameters, mm, of any shape: before knurling, or after it with ``finished=True``.
    pitch : str
        As for `knurl_blank`.
    on_error : {"raise", "status"}
        Raise at the first row that fails, or give NaN and a status other than 0 there.
    **options
        As for `knurl_blank`: ``pattern``, ``wheel``, ``finished`` and so on.

    Returns
    -------
    dict of ndarray
        The figures of `KnurlBlank` by name, ``cautions`` (a bit for each) and ``status`` (0: answered). Columns
        that do not apply (limits without a class, a wheel where none was given) are left out.

    Raises
    ------
    DomainError
        With the first bad row, why, and how many failed.

    >>> blank_columns([12.6, 12.7, 12.8], "96 DP", pattern="straight")["teeth"].tolist()
    [48.0, 48.0, 48.0]
    """
    return _core.knurl_columns(
        _question(pitch, **options).request, numbers(diameter_mm, "mm", "diameter_mm"), active(), on_error
    )


@dataclass(frozen=True)
class _Question:
    request: _core.KnurlRequest
    pattern: str
    assumed: tuple[str, ...]


def _question(
    pitch: Any,
    *,
    pattern: str | None = None,
    wheel: Any = None,
    finished: bool = False,
    process: str = "form",
    prefer: str = "nearest",
    helix_deg: float | None = None,
    profile_deg: float | None = None,
    set_over: bool = False,
    tracking_allowance: Any = None,
    tolerance_class: int | str | None = None,
    width: Any = None,
) -> _Question:
    catalogue = active()
    system, value, named_pattern, named_profile = _pitch(pitch)
    wanted_pattern = _core.parse_knurl_pattern(pattern, catalogue) if pattern is not None else None
    if wanted_pattern is not None and named_pattern is not None and wanted_pattern != named_pattern:
        raise _core.DomainError(f"pattern {pattern!r} contradicts pitch {pitch!r}, which names {named_pattern}")
    if profile_deg is not None and named_profile is not None and profile_deg != named_profile:
        raise _core.DomainError(
            f"profile_deg {profile_deg:g} contradicts pitch {pitch!r}, which names {named_profile:g}"
        )
    if tolerance_class not in _CLASSES:
        raise _core.DomainError(f"tolerance_class must be 1, 2 or 3 (or I, II, III), got {tolerance_class!r}")
    shown_pattern = wanted_pattern or named_pattern or "diamond raised"
    wheel_diameter, wheel_teeth = _wheel(wheel)
    request = _core.KnurlRequest(
        catalogue,
        system=system,
        pitch=value,
        pattern=shown_pattern,
        process=process,
        prefer=prefer,
        finished=finished,
        set_over=set_over,
        helix_deg=helix_deg,
        profile_deg=profile_deg if profile_deg is not None else named_profile,
        wheel_diameter_mm=None if wheel_diameter is None else wheel_diameter.mm,
        wheel_teeth=wheel_teeth,
        tracking_allowance_mm=_optional_mm(tracking_allowance, "tracking_allowance"),
        tolerance_class=_CLASSES[tolerance_class],
        width_mm=_optional_mm(width, "width"),
    )
    assumed = ("pattern",) if wanted_pattern is None and named_pattern is None else ()
    return _Question(request, shown_pattern, assumed)


def _typed(figures: Mapping[str, float | None]) -> dict[str, Any]:
    counts = {"teeth", "below_teeth", "above_teeth", "wheel_teeth"}
    return {
        name: round(value) if name in counts and value is not None and value == round(value) else value
        for name, value in figures.items()
    }


def _pitch(pitch: Any) -> tuple[str, float, str | None, float | None]:
    if not isinstance(pitch, str):
        raise _core.UnitError(f'pitch: {pitch!r} has no unit; write "96 DP", "21 TPI" or "0.8 mm"')
    return _core.parse_knurl_pitch(pitch, active())


def _optional_mm(value: Any, name: str) -> float | None:
    return None if value is None else length(value, name).mm


def _wheel(wheel: Any) -> tuple[Length | None, float | None]:
    if wheel is None:
        return None, None
    if isinstance(wheel, tuple):
        if len(wheel) != 2:
            raise _core.DomainError(f"wheel must be a diameter and a number of teeth, got {wheel!r}")
        return length(wheel[0], "wheel"), number(wheel[1], "wheel")
    if isinstance(wheel, str):
        counted = re.fullmatch(r"\s*(?P<diameter>.+?)[\s,]+(?P<teeth>\d+)\s*(?:teeth|tooth|T)\s*", wheel, re.IGNORECASE)
        if counted is not None:
            return length(counted["diameter"], "wheel"), float(counted["teeth"])
    return length(wheel, "wheel"), None
