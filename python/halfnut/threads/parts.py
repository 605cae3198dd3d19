"""One part of a thread as the lathe cuts it: its exact lead, its limits, and of a taper thread its gauge plane."""

from __future__ import annotations

from fractions import Fraction

from halfnut import _core
from halfnut.core.catalogue import active
from halfnut.threads.standard import ThreadGiven, ThreadLimits, limits_of
from halfnut.threads.standard import thread as read_thread
from halfnut.threads.taper_pipes import TaperPipe, taper_pipe

__all__ = ["ThreadPart", "exact_ratio", "thread_part"]


class ThreadPart(ThreadLimits):
    """One part of a thread as it is cut; of a taper thread its sizes are those in the gauge plane."""

    lead: Fraction
    """Of the carriage for a turn of the spindle, mm, exact."""
    taper: TaperPipe | None
    engagement_mm: float | None
    """As stated; None where none is."""
    given: ThreadLimits | None
    """The limits that it was made from; a taper thread has none."""

    def __init__(self, figures: _core.PartLimits, given: ThreadLimits | None, taper: TaperPipe | None) -> None:
        super().__init__(figures)
        named = self.thread
        ratio = None if named is None else Fraction(*_core.thread_lead_fraction(named))
        self.__dict__.update(
            lead=ratio or exact_ratio(self.lead_mm, "lead"),
            taper=taper,
            engagement_mm=None if named is None else named.engagement_mm,
            given=given,
            evidence=taper.evidence if given is None and taper is not None else () if given is None else given.evidence,
        )

    def size(self, name: str) -> float:
        """A limit that is needed, mm; DomainError says which is missing."""
        value: float | None = getattr(self, f"{name}_mm")
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
    if not isinstance(thread, ThreadLimits):
        named = read_thread(thread)
        if named.tapers:
            return ThreadPart(_core.gauge_plane_limits(named, active()), None, taper_pipe(named))
    found = limits_of(thread)
    return ThreadPart(found.figures, found, None)


def exact_ratio(value_mm: float, name: str) -> Fraction:
    """A length in mm as the simplest ratio that it stands for.

    >>> exact_ratio(25.4 / 8, "lead")
    Fraction(127, 40)
    """
    num, den = _core.simplest_ratio(value_mm)
    if num == 0:
        raise _core.DomainError(f"{name} must be > 0 mm and a ratio of terms up to ten million, got {value_mm!r} mm")
    return Fraction(num, den)
