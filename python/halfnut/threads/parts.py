"""One part of a thread as the lathe sees it: pitch, lead, flank angle and limits, whatever system they come from."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any, TypeAlias

from halfnut import _core
from halfnut._core import Evidence, FormThread
from halfnut.core.catalogue import active
from halfnut.core.sizes import MM_PER_INCH
from halfnut.threads.form_threads import TaperPipe, form_limits, form_thread, is_form, taper_pipe, tapers
from halfnut.threads.plain_threads import PlainThread
from halfnut.threads.precoating import PrecoatLimits, one_part
from halfnut.threads.standard import ThreadLimits, limits

__all__ = ["ThreadGiven", "ThreadPart", "exact_ratio", "thread_part"]

ThreadGiven: TypeAlias = str | FormThread | ThreadLimits | PrecoatLimits | PlainThread

_HALF_ANGLE_DEG = 30.0


@dataclass(frozen=True)
class ThreadPart:
    """One part of a thread. Lengths in mm; a size without a limit is None."""

    title: str
    side: str
    unit: str
    hand: str
    starts: int
    pitch_mm: float
    lead: Fraction
    """Of the carriage for a turn of the spindle, mm, exact."""
    half_angle_deg: float
    root_radius_mm: float
    """Of a form whose root is round; 0 where it is flat, or free."""
    diameter_mm: float
    sizes_mm: dict[str, float | None]
    """Limits by "major_max", "pitch_min" and so on."""
    engagement_mm: float | None
    """As stated; None where none is."""
    given: Any
    """What it was made from."""
    evidence: tuple[Evidence, ...]
    taper: TaperPipe | None = None
    """Of a taper thread, whose diameters are those in its gauge plane."""

    @property
    def lead_mm(self) -> float:
        """The lead as a number."""
        return self.starts * self.pitch_mm

    def size(self, name: str) -> float:
        """A limit that is needed; DomainError says which is missing."""
        value = self.sizes_mm[name]
        if value is None:
            raise _core.DomainError(f"{self.title}: {name.replace('_', ' ')} has no limit; give the size to cut")
        return value


def thread_part(thread: ThreadGiven) -> ThreadPart:
    """One part of a thread from a designation, limits, or sizes of a form that has no designation.

    A designation without a class means the usual external part.

    >>> part = thread_part("M24xPh3P1.5-6g")
    >>> part.side, part.starts, part.lead
    ('external', 2, Fraction(3, 1))
    """
    if isinstance(thread, PlainThread):
        return _plain(thread)
    if isinstance(thread, FormThread) or (isinstance(thread, str) and is_form(thread)):
        found = form_thread(thread)
        return _taper(found) if tapers(found) else _plain(form_limits(found, usual=True))
    part = thread if isinstance(thread, ThreadLimits | PrecoatLimits) else limits(one_part(thread))
    named = part.thread
    scale = MM_PER_INCH if part.unit == "in" else 1.0
    sizes = {name: getattr(part, name) for name in _NAMES}
    return ThreadPart(
        title=str(named),
        side=part.side,
        unit=str(part.unit),
        hand=named.hand,
        starts=named.starts,
        pitch_mm=named.pitch_mm,
        lead=Fraction(*_core.thread_lead_fraction(named)),
        half_angle_deg=_HALF_ANGLE_DEG,
        root_radius_mm=0.0,
        diameter_mm=named.diameter_mm,
        sizes_mm={name: None if value is None else float(value) * scale for name, value in sizes.items()},
        engagement_mm=named.engagement_mm,
        given=part,
        evidence=tuple(part.evidence),
    )


_NAMES = ("major_max", "major_min", "pitch_max", "pitch_min", "minor_max", "minor_min")


def _plain(thread: PlainThread) -> ThreadPart:
    return ThreadPart(
        title=thread.title,
        side=thread.side,
        unit=thread.unit,
        hand=thread.hand,
        starts=thread.starts,
        pitch_mm=thread.pitch_mm,
        lead=exact_ratio(thread.lead_mm, "lead"),
        half_angle_deg=thread.half_angle_deg,
        root_radius_mm=getattr(thread, "root_radius_mm", 0.0),
        diameter_mm=thread.diameter_mm,
        sizes_mm={name: getattr(thread, f"{name}_mm") for name in _NAMES},
        engagement_mm=None,
        given=thread,
        evidence=tuple(getattr(thread, "evidence", ())),
    )


def _taper(found: FormThread) -> ThreadPart:
    """A taper thread in its gauge plane: its pitch diameter moves with the gauge, and has the gauge's tolerance."""
    pipe = taper_pipe(found)
    inner = found.prefix == "Rc"
    aim, height = pipe.pitch_gauge_plane_mm, pipe.thread_height_mm
    slack = pipe.tolerance_turns * found.pitch_mm * pipe.taper_on_diameter
    crest = aim - height if inner else aim + height
    sizes: dict[str, float | None] = dict.fromkeys(_NAMES)
    sizes |= {"pitch_max": aim + slack, "pitch_min": aim - slack}
    sizes |= dict.fromkeys(("minor_max", "minor_min") if inner else ("major_max", "major_min"), crest)
    shape = _core.form_geometry(found, active())
    return ThreadPart(
        title=str(found),
        side="internal" if inner else "external",
        unit=found.unit,
        hand=found.hand,
        starts=found.starts,
        pitch_mm=found.pitch_mm,
        lead=exact_ratio(found.lead_mm, "lead"),
        half_angle_deg=shape["half_angle_deg"],
        root_radius_mm=shape["root_radius_mm"],
        diameter_mm=found.diameter_mm,
        sizes_mm=sizes,
        engagement_mm=None,
        given=found,
        evidence=pipe.evidence,
        taper=pipe,
    )


def exact_ratio(value_mm: float, name: str) -> Fraction:
    """A length in mm as the simplest ratio that it stands for.

    >>> exact_ratio(25.4 / 8, "lead")
    Fraction(127, 40)
    """
    num, den = _core.simplest_ratio(value_mm)
    if num == 0:
        raise _core.DomainError(f"{name} must be > 0 mm and a ratio of terms up to ten million, got {value_mm!r} mm")
    return Fraction(num, den)
