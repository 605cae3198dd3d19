"""Threads by their sizes alone: any straight-sided form, such as 55, 30 or 29 degrees, without a standard behind it."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Any, Literal

from halfnut import _core
from halfnut._core import BuildUp, FitPart, Length
from halfnut.core.arguments import checked
from halfnut.core.fixed import Value
from halfnut.core.units import length

__all__ = ["PlainThread", "plain_thread"]


@dataclass(frozen=True)
class PlainThread(Value):
    """One part of a thread by its sizes, mm; None where none is given. `wires` and `fit` take it."""

    title: str
    side: str
    unit: str
    pitch_mm: float
    starts: int
    half_angle_deg: float
    hand: str
    pitch_min_mm: float
    pitch_max_mm: float
    major_min_mm: float | None
    major_max_mm: float | None
    minor_min_mm: float | None
    minor_max_mm: float | None

    def __str__(self) -> str:
        return self.title

    @property
    def lead_mm(self) -> float:
        """Starts times the pitch."""
        return self.starts * self.pitch_mm

    @property
    def diameter_mm(self) -> float:
        """Its largest known diameter."""
        known = (self.major_max_mm, self.major_min_mm, self.pitch_max_mm)
        return next(size for size in known if size is not None)

    def part(self, build_up: BuildUp, measured: dict[str, float | None] | None = None, **given: float) -> FitPart:
        """The part of a fit: `measured` sizes (major, pitch, minor) in place of limits."""
        sizes = []
        for name in ("major", "pitch", "minor"):
            found = (measured or {}).get(name)
            ends = [getattr(self, f"{name}_{end}_mm") if found is None else found for end in ("min", "max")]
            sizes += [math.nan if each is None else each for each in ends]
        return _core.sized_part(
            sizes, self.pitch_mm, self.starts, self.half_angle_deg, self.hand == "left", build_up, **given
        )


@checked
def plain_thread(
    side: Literal["external", "internal"],
    *,
    pitch: Any,
    half_angle_deg: float,
    pitch_diameter: Any,
    major: Any = None,
    minor: Any = None,
    starts: int = 1,
    hand: Literal["right", "left"] = "right",
    title: str = "",
) -> PlainThread:
    """One part of a thread by its sizes, for forms that have no designation here.

    Parameters
    ----------
    side : {"external", "internal"}
        Which part.
    pitch : str, Length or pint quantity
        Axial pitch (not the lead), or threads per inch as ``"5 tpi"``.
    half_angle_deg : float
        Half of the thread angle, from 3 to 60: 27.5 for 55 degrees, 15 for 30, 14.5 for 29.
    pitch_diameter, major, minor : length or pair of lengths
        Smallest and largest, or one size that was measured. The crest (major of an external part, minor of an internal
        one) is what a wire has to stand above.
    starts : int
        1 to 100.
    hand : {"right", "left"}
        Of the helix.
    title : str
        How answers call it; made up of the sizes when not given.

    Returns
    -------
    PlainThread
        For `wires` and `fit`.

    Raises
    ------
    DomainError
        A pair that is not in order, or a size, angle or number of starts out of its range.

    >>> screw = plain_thread("external", pitch="4 mm", half_angle_deg=15, pitch_diameter=("17.6 mm", "17.9 mm"),
    ...                      major=("19.7 mm", "20 mm"))
    >>> str(screw)
    '30 degree external thread, pitch 4 mm, pitch diameter 17.9 mm'
    """
    if not 3.0 <= half_angle_deg <= 60.0:
        raise _core.DomainError(f"half_angle_deg must be from 3 to 60 deg, got {half_angle_deg:g}")
    if not (isinstance(starts, int) and 1 <= starts <= 100):
        raise _core.DomainError(f"starts must be a whole number from 1 to 100, got {starts!r}")
    axial = _pitch(pitch)
    (low, high), unit = _range(pitch_diameter, "pitch_diameter")
    crests = {name: (None, None) if each is None else _range(each, name)[0] for name, each in _named(major, minor)}
    mouth = "major" if side == "external" else "minor"
    outside = crests[mouth][0 if side == "external" else 1]
    if outside is not None and (outside - high if side == "external" else low - outside) <= 0.0:
        raise _core.DomainError(f"the {mouth} diameter must lie on the other side of the pitch diameter")
    shown = f"{axial.mm:g} mm" if unit == "mm" else f"{axial.inch:.4g} in"
    across = f"{high:g} mm" if unit == "mm" else f"{high / 25.4:.5g} in"
    words = f"{2 * half_angle_deg:g} degree {side} thread, pitch {shown}, pitch diameter {across}"
    return PlainThread(
        title or words,
        side,
        unit,
        axial.mm,
        starts,
        half_angle_deg,
        hand,
        low,
        high,
        *crests["major"],
        *crests["minor"],
    )


def _named(major: Any, minor: Any) -> tuple[tuple[str, Any], tuple[str, Any]]:
    return ("major", major), ("minor", minor)


def _pitch(value: Any) -> Length:
    turns = (
        re.fullmatch(r"\s*((?!0\d)\d+(?:\.\d+)?)\s*tpi\s*", value, re.IGNORECASE) if isinstance(value, str) else None
    )
    if turns is not None and float(turns[1]) > 0:
        return Length(1.0 / float(turns[1]), "in")
    found = length(value, "pitch")
    if not found.mm > 0:
        raise _core.DomainError(f"pitch must be > 0, got {found}")
    return found


def _range(value: Any, name: str) -> tuple[tuple[float, float], str]:
    pair = value if isinstance(value, (tuple, list)) else (value, value)
    if len(pair) != 2:
        raise _core.DomainError(f"{name} takes one length, or the smallest and the largest; got {len(pair)}")
    low, high = (length(each, name) for each in pair)
    if not 0.0 < low.mm <= high.mm:
        raise _core.DomainError(f"{name} must be > 0, the smallest before the largest, got {low} and {high}")
    return (low.mm, high.mm), "in" if low.unit == "in" else "mm"
