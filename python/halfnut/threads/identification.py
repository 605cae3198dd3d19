"""What standard threads there are near a diameter, and what a part found on the bench may be."""

from __future__ import annotations

from typing import ClassVar

from halfnut.core.sizes import both, one
from halfnut.threads.figures import IdentificationFigures, ThreadMatchFigures, ThreadsNearFigures

__all__ = ["Identification", "ThreadMatch", "ThreadsNear"]


class ThreadsNear(ThreadsNearFigures):
    """Standard threads near a diameter, preferred ones first."""

    @property
    def answer(self) -> str:
        """The threads."""
        none = f"no standard thread within {one(self.within_mm, self.unit)} of {one(self.diameter_mm, self.unit)}"
        return ", ".join(self.threads) or none


class ThreadMatch(ThreadMatchFigures):
    """A standard thread beside a measured part."""

    def __str__(self) -> str:
        return self.said("mm")

    def said(self, unit: str) -> str:
        """How it compares with the part.

        Parameters
        ----------
        unit : {"mm", "in"}
            In which unit.

        Returns
        -------
        str
            One line.
        """
        outside = "inside its limits" if self.outside_mm == 0 else f"{one(self.outside_mm, unit)} outside its limits"
        pitch = f"{self.pitch_difference_mm:+.4f} mm" if unit == "mm" else f"{self.pitch_difference_mm / 25.4:+.5f} in"
        flanks = f"flanks {self.flank_angle_deg:g} deg"
        if self.flank_difference_deg:
            flanks += f" ({self.flank_difference_deg:+.2g} deg measured)"
        over = f"{one(self.mismatch_mm, unit)} over the engagement"
        return f"{self.title}: diameter {outside}, pitch {pitch}, {over}, {flanks}"


class Identification(IdentificationFigures):
    """Standard threads nearest to a measured part, nearest first."""

    matches: tuple[ThreadMatch, ...]
    _nested: ClassVar = {"matches": ThreadMatch}

    @property
    def answer(self) -> str:
        """The verdict."""
        best = self.matches[0]
        if self.verdict == "none":
            return f"no standard thread is close to {both(self.diameter_mm, self.unit)}, {self._pitches()[0]}"
        return f"{best.title}, though not to its usual class" if self.verdict == "near" else best.said(self.unit)

    def report(self) -> list[tuple[str, str]]:
        """What was measured, then the nearest threads."""
        crest = "major" if self.side == "external" else "minor"
        first, second = self._pitches()
        measured = f"{crest} diameter {both(self.diameter_mm, self.unit)}, pitch {first} ({second})"
        if self.flank_angle_deg is not None:
            measured += f", flanks {self.flank_angle_deg:g} deg"
        out = [("measured", f"{measured}; engagement {one(self.engagement_mm, self.unit)}")]
        if self.verdict != "standard":
            out.append(("nearest" if self.verdict == "none" else "is", self.matches[0].said(self.unit)))
        return out + [("like" if each.like_the_first else "or", each.said(self.unit)) for each in self.matches[1:]]

    def _pitches(self) -> tuple[str, str]:
        """The pitch in the question's own terms, and in the other."""
        metric, inch = f"{self.pitch_mm:.4f} mm", f"{25.4 / self.pitch_mm:.4g} tpi"
        return (metric, inch) if self.unit == "mm" else (inch, metric)
