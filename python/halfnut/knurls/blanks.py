"""Knurls: blanks that track, and the size they come out at.

A knurl closes on itself only where the work takes a whole number of teeth. `knurl_blank` answers the blank to
turn; the functions of numbers below it are the formulas it is made of.
"""

from __future__ import annotations

from halfnut.knurls.figures import KnurlBlankFigures

__all__ = [
    "KnurlBlank",
]


class KnurlBlank(KnurlBlankFigures):
    """The blank to turn before knurling, and what comes of it. Lengths in mm; None where one does not apply."""

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
