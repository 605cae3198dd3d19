"""What standard threads there are near a diameter, and what a part found on the bench may be."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any, Literal

from halfnut import _core
from halfnut._core import DomainError, FormThread
from halfnut.arguments import checked, number
from halfnut.catalogue import active
from halfnut.form_threads import form_limits, taper_pipe
from halfnut.record import Caution, Evidence, Record
from halfnut.sizes import both
from halfnut.threads import Thread, limits
from halfnut.units import length, quantity
from halfnut.words import caution

__all__ = ["Identification", "ThreadMatch", "identify_thread", "threads_near"]

_LEAST_FLANK_DEG, _MOST_FLANK_DEG = 20.0, 120.0


@checked
def threads_near(diameter: Any, *, within: Any = None) -> list[Thread | FormThread]:
    """Standard threads of every form near a diameter, preferred ones first.

    Parameters
    ----------
    diameter : length
        Basic major diameter, of a taper thread in its gauge plane: text with a unit, or a `Length`.
    within : length, optional
        Largest difference; 5 % of the diameter where none is given.

    Returns
    -------
    list of Thread or FormThread
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
    reach = 0.05 * size if within is None else length(within, "within").mm
    return [found for found, _ in _core.threads_near(size, reach, active())]


@dataclass(frozen=True)
class ThreadMatch:
    """A standard thread beside a measured part."""

    thread: Thread | FormThread
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
        outside = "inside its limits" if self.outside_mm == 0 else f"{self.outside_mm:.3f} mm outside its limits"
        flanks = f"flanks {self.flank_angle_deg:g} deg"
        if self.flank_difference_deg:
            flanks += f" ({self.flank_difference_deg:+.2g} deg measured)"
        return (
            f"{self.title}: diameter {outside}, pitch {self.pitch_difference_mm:+.4f} mm, "
            f"{self.mismatch_mm:.3f} mm over the engagement, {flanks}"
        )


@dataclass(frozen=True)
class Identification(Record):
    """Standard threads nearest to a measured part, nearest first."""

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
        """What was measured, and the best match."""
        best = self.matches[0]
        return {
            "thread": str(best.thread),
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

    def lines(self) -> list[str]:
        """The best match, then the others."""
        crest = "major" if self.side == "external" else "minor"
        measured = f"  measured: {crest} diameter {both(self.diameter_mm, 'mm')}, pitch {self.pitch_mm:.4f} mm"
        measured += f" ({25.4 / self.pitch_mm:.4g} tpi)"
        if self.flank_angle_deg is not None:
            measured += f", flanks {self.flank_angle_deg:g} deg"
        others = [f"  {'like' if match.like_the_first else 'or'} {match}" for match in self.matches[1:]]
        return [
            str(self.matches[0]),
            f"{measured}; engagement {self.engagement_mm:.1f} mm",
            *others,
            *(f"  ! {c}" for c in self.cautions),
        ]


@checked
def identify_thread(
    diameter: Any,
    pitch: Any,
    *,
    side: Literal["external", "internal"] = "external",
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
        pitch adds up to over the engagement, and the difference of the flank angle. Ranked by what these take from the
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
    if count < 1:
        raise DomainError(f"count must be at least 1, got {count}")
    size = length(diameter, "diameter").mm
    turns = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*tpi\s*", pitch, re.IGNORECASE) if isinstance(pitch, str) else None
    axial = length(pitch, "pitch").mm if turns is None else _from_tpi(float(turns[1]))
    engaged = size if engagement is None else length(engagement, "engagement").mm
    angle = None if flank_angle is None else _flank_angle(flank_angle)
    rows = _core.identify_thread(side, size, axial, max(count, 2), active(), engaged, angle)
    found = tuple(ThreadMatch(**row) for row in rows)
    best = found[0]
    return Identification(
        side, size, axial, engaged, angle, found[:count], tuple(_cautions(found, angle)), tuple(_evidence(best, side))
    )


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


def _cautions(found: tuple[ThreadMatch, ...], angle: float | None) -> list[Caution]:
    best = found[0]
    alike = [match for match in found if match.like_the_first]
    made = []
    if best.outside_mm > 0 or best.mismatch_mm > 0.05 or best.flank_equivalent_mm > 0.05:
        made.append(caution("no_close_match"))
    if angle is None and any(match.flank_angle_deg != best.flank_angle_deg for match in alike):
        made.append(caution("flank_angle_tells"))
    if any(match.taper != best.taper for match in alike):
        made.append(caution("taper_tells"))
    shaped = [match for match in alike if match.flank_angle_deg == best.flank_angle_deg and match.taper == best.taper]
    pipes = all(isinstance(match.thread, FormThread) and match.thread.form in {"G", "R"} for match in (best, *shaped))
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


def _evidence(best: ThreadMatch, side: str) -> tuple[Evidence, ...]:
    if isinstance(best.thread, Thread):
        return limits(best.thread).evidence
    return taper_pipe(best.thread).evidence if best.taper else form_limits(best.thread, side).evidence
