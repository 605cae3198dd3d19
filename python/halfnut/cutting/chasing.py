"""Chasing: a thread cut with a single point, pass by pass: what stands beside the figures."""

from __future__ import annotations

from halfnut._core import DomainError
from halfnut.core.words import words
from halfnut.cutting.figures import ChasePass, ChasingFigures

__all__ = ["ChasePass", "Chasing"]


class Chasing(ChasingFigures):
    """How to chase a thread: sizes, settings, passes, readings. Lengths in mm; None where one does not apply."""

    @property
    def stop(self) -> ChasePass:
        """The pass after which the thread is measured for the first time."""
        return next(each for each in self.passes if each.measure)

    def gauge_turns(self, on_diameter_mm: float) -> float:
        """Turns by which a change of the pitch diameter moves the gauge of a taper thread.

        Parameters
        ----------
        on_diameter_mm : float
            The change of the pitch diameter, mm.

        Returns
        -------
        float
            Turns of the gauge.

        Raises
        ------
        DomainError
            The thread does not taper.
        """
        if self.taper is None:
            raise DomainError(f"{self.thread} does not taper: its gauge has no turns")
        return on_diameter_mm / (self.taper.taper_on_diameter * self.lead_mm)

    @property
    def first_line(self) -> str:
        """The spindle speed to set, where it is known; else the passes."""
        return self.spindle_said or self.answer

    @property
    def passes_said(self) -> str | None:
        """The passes, where the first line has the spindle speed in their place."""
        return self.answer if self.spindle_said else None

    @property
    def where(self) -> str | None:
        """Where the diameters of a taper thread are."""
        return None if self.taper is None else "in the gauge plane"

    @property
    def left_mm(self) -> float:
        """On the pitch diameter, after the last line."""
        return self.passes[-1].left_mm

    @property
    def load(self) -> str:
        """What the lathe has to bear."""
        return words("said", "load")
