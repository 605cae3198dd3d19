"""Knurls: blanks that track, and the size they come out at.

A knurl closes on itself only where the work takes a whole number of teeth. `knurl_blank` answers the blank to
turn; the functions of numbers below it are the formulas it is made of.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Mapping
from dataclasses import dataclass, fields
from typing import Any, Literal

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
from halfnut.core.sizes import MM_PER_INCH
from halfnut.core.units import length
from halfnut.core.words import caution, caution_lines

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

_WIDTH = 88
_CLASSES = {None: 0, 1: 1, 2: 2, 3: 3, "I": 1, "II": 2, "III": 3}


@dataclass(frozen=True, repr=False)
class KnurlBlank(Record):
    """The blank to turn before knurling, and what comes of it. Lengths in mm; None where one does not apply."""

    pitch: str
    pattern: str
    process: str
    finished_wanted: bool
    unit: str
    """The unit that the answer is shown in first: that of the diameter given."""
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

    def lines(self) -> list[str]:
        """The blank in the first line, then the knurled size, limits, what they rest on, cautions."""
        assumed = " (assumed)" if "pattern" in self.assumed else ""
        first = f"blank {self._both(self.blank_diameter_mm)}: {self.teeth} teeth, {self.pitch}, {self.pattern}{assumed}"
        out = [first]

        def row(label: str, text: str) -> None:
            out.extend(textwrap.wrap(text, _WIDTH, initial_indent=f"  {label:<9} ", subsequent_indent=" " * 12))

        growth = "cut, so it does not grow" if self.process == "cut" else f"grows {self._one(self.growth_mm)}"
        row(
            "knurled", f"{self._both(self.finished_diameter_mm)}, {growth}; teeth {self._one(self.tooth_depth_mm)} deep"
        )
        if self.wheel_diameter_mm is not None and self.tracking_allowance_mm is not None:
            row(
                "wheel",
                f"{self.wheel_teeth} teeth on {self._one(self.wheel_diameter_mm)}, "
                f"tracks as if {self._one(self.tracking_allowance_mm)} larger",
            )
        row("limits", f"blank ± {self._one(self.blank_plus_minus_mm)}")
        if self.finished_max_mm is not None and self.finished_min_mm is not None:
            row("", f"knurled {self._one(self.finished_max_mm)} to {self._one(self.finished_min_mm)}")
        asked = "is left for that finished size" if self.finished_wanted else "was given"
        if self.below_teeth == self.above_teeth:
            row("tracks", f"{self._one(self.given_diameter_mm)} {asked} and tracks as it is")
        else:
            row(
                "tracks",
                f"{self._one(self.below_diameter_mm)} with {self.below_teeth} teeth, "
                f"{self._one(self.above_diameter_mm)} with {self.above_teeth}",
            )
            row(
                "",
                f"{self._one(self.given_diameter_mm)} {asked}: {self.given_teeth:.2f} teeth, "
                f"{abs(self.given_mismatch_teeth):.2f} of a tooth off, "
                f"{'still tracks' if self.given_tracks else 'does not track'}",
            )
        weak = {"common practice", "memory"}
        for source in dict.fromkeys(item.source for item in self.evidence if item.kind not in weak):
            row("rests on", source)
        for kind in sorted(weak & {item.kind for item in self.evidence}):
            named = dict.fromkeys(_spoken(item.figure) for item in self.evidence if item.kind == kind)
            row("rests on", f"{kind}: {', '.join(named)}")
        out += caution_lines(self.cautions)
        return out

    def _one(self, value_mm: float) -> str:
        return _length_text(value_mm, self.unit)

    def _both(self, value_mm: float) -> str:
        other = "mm" if self.unit == "in" else "in"
        return f"{_length_text(value_mm, self.unit)} ({_length_text(value_mm, other)})"


def _length_text(value_mm: float, unit: str) -> str:
    return f"{value_mm / MM_PER_INCH:.4f} in" if unit == "in" else f"{value_mm:.3f} mm"


def _spoken(figure: str) -> str:
    return figure.removesuffix("_mm").removesuffix("_teeth").replace("_", " ")


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
        unit="in" if given.system == "inch" else "mm",
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
