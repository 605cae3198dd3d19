"""What standard threads there are near a diameter, and what a part found on the bench may be."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any, ClassVar

from halfnut import _core
from halfnut._core import DomainError, Thread
from halfnut.core.arguments import checked, number
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Evidence, Record
from halfnut.core.sizes import both, one
from halfnut.core.units import length, measured_mm, quantity
from halfnut.core.words import caution, caution_lines
from halfnut.threads.standard import Side, limits
from halfnut.threads.taper_pipes import taper_pipe

__all__ = ["Identification", "ThreadMatch", "identify_thread", "threads_near"]

_LEAST_FLANK_DEG, _MOST_FLANK_DEG = 20.0, 120.0
_MOST_CANDIDATES = 1000
_CLOSE_MM = 0.05


@checked
def threads_near(diameter: Any, *, within: Any = None) -> list[Thread]:
    """Standard threads of every form near a diameter, preferred ones first.

    Parameters
    ----------
    diameter : length
        Basic major diameter, of a taper thread in its gauge plane: text with a unit, or a `Length`.
    within : length, optional
        Largest difference; 5 % of the diameter where none is given.

    Returns
    -------
    list of Thread
        Metric ones by ISO 261's order of choice, coarse before fine; Unified ones UNC, UNF, UNEF, UN, UNS; then
        trapezoidal, Acme, parallel pipe and Whitworth threads; taper pipe threads last.

    Raises
    ------
    UnitError, DomainError
        A bare number, or a length out of its range.

    >>> [str(found) for found in threads_near("1/4 in", within="0.2 mm")][:2]
    ['1/4-20 UNC', '1/4-28 UNF']
    >>> [str(found) for found in threads_near("32 mm", within="0 mm")][-1]
    'Tr32x10'
    """
    size = length(diameter, "diameter").mm
    reach = 0.05 * size if within is None else measured_mm(within, "within")
    return [found for found, _ in _core.threads_near(size, reach, active())]


@dataclass(frozen=True)
class ThreadMatch:
    """A standard thread beside a measured part."""

    thread: Thread
    title: str
    """Its designation, with the side where that leaves it open."""
    preference: int
    taper: bool
    """The diameter changes along it: its sizes are those of the gauge plane."""
    basic_diameter_mm: float
    outside_mm: float
    pitch_difference_mm: float
    mismatch_mm: float
    pitch_diameter_equivalent_mm: float
    flank_angle_deg: float
    """Between the two flanks of a groove."""
    flank_difference_deg: float | None
    """Measured less standard; None where none was measured."""
    flank_equivalent_mm: float
    like_the_first: bool
    """These measurements do not tell it from the nearest thread."""

    def __str__(self) -> str:
        return self.said("mm")

    def said(self, unit: str) -> str:
        """How it compares with the part, in mm or in inches."""
        outside = "inside its limits" if self.outside_mm == 0 else f"{one(self.outside_mm, unit)} outside its limits"
        pitch = f"{self.pitch_difference_mm:+.4f} mm" if unit == "mm" else f"{self.pitch_difference_mm / 25.4:+.5f} in"
        flanks = f"flanks {self.flank_angle_deg:g} deg"
        if self.flank_difference_deg:
            flanks += f" ({self.flank_difference_deg:+.2g} deg measured)"
        return (
            f"{self.title}: diameter {outside}, pitch {pitch}, {one(self.mismatch_mm, unit)} over the engagement, "
            f"{flanks}"
        )


@dataclass(frozen=True)
class Identification(Record):
    """Standard threads nearest to a measured part, nearest first."""

    SHORT: ClassVar[tuple[str, ...]] = ("is", "nearest", "or")
    verdict: str
    """"standard" (the first is inside the limits of its usual class), "near" (a little outside them) or "none"."""
    unit: str
    """Of the measured diameter, "mm" or "in": what the lines are written in."""
    side: str
    diameter_mm: float
    pitch_mm: float
    engagement_mm: float
    flank_angle_deg: float | None
    matches: tuple[ThreadMatch, ...]
    cautions: tuple[Caution, ...]
    evidence: tuple[Evidence, ...] = field(compare=False)

    @property
    def alike(self) -> tuple[ThreadMatch, ...]:
        """The matches that these measurements do not tell from the first."""
        return tuple(match for match in self.matches if match.like_the_first)

    def to_dict(self) -> dict[str, Any]:
        """The verdict, the thread (None where no standard one is close) and the nearest; what was measured."""
        best = self.matches[0]
        return {
            "verdict": self.verdict,
            "thread": None if self.verdict == "none" else str(best.thread),
            "nearest": str(best.thread),
            "outside_mm": best.outside_mm,
            "pitch_difference_mm": best.pitch_difference_mm,
            "mismatch_mm": best.mismatch_mm,
            "flank_difference_deg": best.flank_difference_deg,
            "alike": [str(match.thread) for match in self.alike],
            "diameter_mm": self.diameter_mm,
            "pitch_mm": self.pitch_mm,
            "engagement_mm": self.engagement_mm,
            "flank_angle_deg": self.flank_angle_deg,
        }

    def whole(self) -> list[str]:
        """The verdict, what was measured, then the nearest threads."""
        unit = self.unit
        crest = "major" if self.side == "external" else "minor"
        pitches = [f"{self.pitch_mm:.4f} mm", f"{25.4 / self.pitch_mm:.4g} tpi"]
        first, second = pitches if unit == "mm" else reversed(pitches)
        measured = f"  measured: {crest} diameter {both(self.diameter_mm, unit)}, pitch {first} ({second})"
        if self.flank_angle_deg is not None:
            measured += f", flanks {self.flank_angle_deg:g} deg"
        best = self.matches[0]
        others = [f"  {'like' if match.like_the_first else 'or'} {match.said(unit)}" for match in self.matches[1:]]
        if self.verdict == "none":
            head = f"no standard thread is close to {both(self.diameter_mm, unit)}, {first}"
            others = [f"  nearest {best.said(unit)}", *others]
        elif self.verdict == "near":
            head = f"{best.title}, though not to its usual class"
            others = [f"  is {best.said(unit)}", *others]
        else:
            head = best.said(unit)
        return [
            head,
            f"{measured}; engagement {one(self.engagement_mm, unit)}",
            *others,
            *caution_lines(self.cautions),
        ]


@checked
def identify_thread(
    diameter: Any,
    pitch: Any,
    *,
    side: Side = "external",
    engagement: Any = None,
    flank_angle: Any = None,
    count: int = 6,
) -> Identification:
    """Standard threads nearest to a part found on the bench, of every form at once.

    Parameters
    ----------
    diameter : length
        The crest as measured: major diameter of an external part, minor diameter of an internal one; of a taper thread
        in its gauge plane.
    pitch : length or str
        Measured pitch, not the lead of several starts, or threads per inch as ``"20 tpi"``.
    side : {"external", "internal"}
        Which part was measured.
    engagement : length, optional
        Length over which it would engage; one diameter where none is given.
    flank_angle : float or str, optional
        Between the two flanks of a groove, as a thread gauge shows it: 60 ISO metric and Unified, 55 Whitworth and
        pipe, 30 trapezoidal, 29 Acme. Degrees, a plain number or text such as ``"55 deg"``.
    count : int
        How many candidates.

    Returns
    -------
    Identification
        Each candidate with the amount it is outside the limits of the usual class of its form, what the difference of
        pitch adds up to over the engagement, and the difference of the flank angle. `verdict` says first whether there
        is such a thread: outside by no more than 0.05 mm or a twentieth of the pitch a part is taken as "near", worn,
        coated or of another class. Ranked by what these take from the
        clearance at the pitch diameter, plus the amount outside. Candidates that the measurements do not tell from the
        first are marked `like_the_first`; the cautions say what would tell them.

    Raises
    ------
    UnitError, DomainError
        A bare number for a length, or a measurement out of its range.

    >>> str(identify_thread("0.248 in", "20 tpi").matches[0].thread)
    '1/4-20 UNC-2A'
    >>> str(identify_thread("0.248 in", "20 tpi", flank_angle=55).matches[0].thread)
    '1/4-20 BSW-medium'
    """
    if not 1 <= count <= _MOST_CANDIDATES:
        raise DomainError(f"count must be from 1 to {_MOST_CANDIDATES}, got {count}")
    given = length(diameter, "diameter")
    size = given.mm
    turns = (
        re.fullmatch(r"\s*((?!0\d)\d+(?:\.\d+)?)\s*tpi\s*", pitch, re.IGNORECASE) if isinstance(pitch, str) else None
    )
    axial = length(pitch, "pitch").mm if turns is None else _from_tpi(float(turns[1]))
    engaged = size if engagement is None else length(engagement, "engagement").mm
    angle = None if flank_angle is None else _flank_angle(flank_angle)
    rows = _core.identify_thread(side, size, axial, max(count, 2), active(), engaged, angle)
    found = tuple(ThreadMatch(**row) for row in rows)
    best = found[0]
    verdict = _verdict(best, axial)
    unit = "in" if given.system == "inch" else "mm"
    made = _cautions(found, angle, verdict)
    evidence = tuple(_evidence(best, side))
    return Identification(verdict, unit, side, size, axial, engaged, angle, found[:count], tuple(made), evidence)


def _verdict(best: ThreadMatch, pitch_mm: float) -> str:
    """Whether the nearest thread is the part's: 0.05 mm of pitch or flank, or a twentieth of the pitch outside."""
    if best.mismatch_mm > _CLOSE_MM or best.flank_equivalent_mm > _CLOSE_MM:
        return "none"
    if best.outside_mm == 0.0:
        return "standard"
    return "near" if best.outside_mm <= max(_CLOSE_MM, pitch_mm / 20.0) else "none"


def _from_tpi(tpi: float) -> float:
    if tpi <= 0:
        raise DomainError(f"threads per inch must be > 0, got {tpi:g}")
    return 25.4 / tpi


def _flank_angle(value: Any) -> float:
    """Degrees between two flanks, from a plain number or a text."""
    if isinstance(value, str):
        bare = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*", value)
        angle = float(bare[1]) if bare is not None else quantity(value, "angle", "flank_angle").base
    elif isinstance(value, (int, float)) and not isinstance(value, bool):
        angle = number(value, "flank_angle")
    else:
        angle = quantity(value, "angle", "flank_angle").base
    if not _LEAST_FLANK_DEG <= angle <= _MOST_FLANK_DEG:
        raise DomainError(
            f"flank_angle is the whole angle between two flanks, {_LEAST_FLANK_DEG:g} to {_MOST_FLANK_DEG:g} deg, such "
            f"as 60, 55, 30 or 29; got {angle:g}"
        )
    return angle


def _cautions(found: tuple[ThreadMatch, ...], angle: float | None, verdict: str) -> list[Caution]:
    best = found[0]
    alike = [match for match in found if match.like_the_first]
    made = []
    if verdict != "standard":
        made.append(caution("no_close_match" if verdict == "none" else "near_match"))
    if angle is None and any(match.flank_angle_deg != best.flank_angle_deg for match in alike):
        made.append(caution("flank_angle_tells"))
    if any(match.taper != best.taper for match in alike):
        made.append(caution("taper_tells"))
    shaped = [match for match in alike if match.flank_angle_deg == best.flank_angle_deg and match.taper == best.taper]
    pipes = all(match.thread.pipe for match in (best, *shaped))
    if shaped:
        made.append(caution("nothing_tells" if pipes else "depth_tells"))
    if (
        not alike
        and len(found) > 1
        and found[1].outside_mm == 0
        and found[1].mismatch_mm <= best.mismatch_mm + 0.02
        and found[1].flank_equivalent_mm <= best.flank_equivalent_mm + 0.02
    ):
        made.append(caution("close_matches"))
    if best.taper or any(match.taper for match in alike):
        made.append(caution("taper_diameter"))
    return made


def _evidence(best: ThreadMatch, side: Side) -> tuple[Evidence, ...]:
    return taper_pipe(best.thread).evidence if best.taper else limits(best.thread, side=side).evidence
