"""Chasing: a thread cut with a single point, pass by pass: what is asked of its passes."""

from __future__ import annotations

from halfnut._core import DomainError
from halfnut.cutting.figures import ChasePass, ChasingFigures

__all__ = ["Chasing"]


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
