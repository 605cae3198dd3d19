"""Knurling at the lathe: what stands beside the figures of its setup."""

from __future__ import annotations

from typing import ClassVar

from halfnut._core import spell
from halfnut.core.words import words
from halfnut.cutting.cuts import Cut
from halfnut.knurls.blanks import KnurlBlank
from halfnut.knurls.figures import KnurlSetupFigures
from halfnut.machine.dials import Reading

__all__ = ["KnurlSetup"]

_HOLDERS = {
    1: "one wheel, pushed in from the side",
    2: "two wheels, above and below the work",
    3: "three wheels around the work",
}


class KnurlSetup(KnurlSetupFigures):
    """How to knurl a band. Lengths in mm, forces in N; None where one does not apply."""

    AT_MACHINE: ClassVar[bool] = True
    SHORT: ClassVar[tuple[str, ...]] = ("infeed", "over", "feed", "force")
    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("infeed", "{infeed_words}"),
        ("feed", "{feed_mm_rev}"),
        ("over", "{finished_diameter_mm} over the points"),
        ("force", "about {force_n} a wheel, within a factor of two or three; {across}[, deflects it {bend_mm}]"),
        ("wall", "{wall_mm}, at least {least_wall_mm}"),
        ("press fit", "interference {interference_min_mm..interference_max_mm}, buries {buries} of the teeth"),
    )
    blank: KnurlBlank
    cut: Cut

    def steps(self) -> list[str]:
        """What to do at the lathe, in order."""
        blank, cut = self.blank, self.blank.process == "cut"
        size = self._length(blank.blank_diameter_mm)
        slack = self._length(blank.blank_plus_minus_mm)
        first = f"Turn the blank to {size} ± {slack}, running true within {self._length(0.03)}"
        out = [
            f"{first}; chamfer its ends 45 degrees by {self._length(self.chamfer_mm)}. Knurl before slender ends are "
            "turned down and before the work is parted off.",
        ]
        if self.groove_depth_mm is not None:
            out.append(
                f"Turn a groove {self._length(self.groove_depth_mm)} deep where the knurl ends, or run it off the "
                "end: a cut knurl does not go to a shoulder."
            )
        out.append(f"Holder: {_HOLDERS[self.wheels]}: {self.wheel_kind}, axes true to the work, faces clean of chips.")
        speed = f"{self.spindle_rpm:.0f} rev/min, flood oil"
        if cut:
            out.append(f"Set the full depth of {self._length(self.infeed_mm)} at the end of the work, {speed}.")
        else:
            dial = f", the cross slide's dial at {Reading(**vars(self.dial))}" if self.dial is not None else ""
            out.append(
                f"At {speed}: the first bite firmly, {self._length(self.first_bite_mm)} on the radius at once, so "
                f"that the count is set; look that it shows {blank.teeth} teeth around and single lines. Then "
                f"{self._length(self.infeed_mm_rev)} a turn to {self._length(self.infeed_mm)}{dial}, in "
                f"{self.turns} turns; dwell for {self.dwell_turns} more."
            )
        if self.feed_mm_rev is not None:
            start = "" if cut else " with half of the wheels' face on the end of the work"
            out.append(
                f"Start{start} and feed along at {self._length(self.feed_mm_rev)} a turn, {self.passes} "
                f"pass{'' if self.passes == 1 else 'es'}; do not lift the wheels before the end."
            )
        out.append(
            f"It should measure {self._length(blank.finished_diameter_mm)} over the points. A double pattern: stop, "
            "turn the band off and take the blank that tracks."
        )
        if self.interference_max_mm is not None and self.interference_min_mm is not None:
            within = self.filled("{interference_min_mm..interference_max_mm}")
            out.append(f"Press in by {within} of interference; try one pair, the points shear rather than spring.")
        return out

    @property
    def answer(self) -> str:
        """Blank, wheels and speed."""
        blank = self.blank
        on = f"{blank.pitch} {blank.pattern} on {self._length(blank.blank_diameter_mm)}, {blank.teeth} teeth"
        return f"{on}: {self.filled('{wheel_kind}, {spindle_rpm}')}"

    @property
    def infeed_words(self) -> str:
        """The first bite and the way to full depth, on the radius."""
        if self.blank.process == "cut":
            return str(self.filled("{infeed_mm} at once, at the end of the work"))
        turns = f"in {self.turns} turns; dwell for {self.dwell_turns}"
        return f"{self.filled('{first_bite_mm} at once: single lines?')} {self.filled('Then to {infeed_mm}')} {turns}"

    @property
    def finished_diameter_mm(self) -> float:
        """What the knurl comes out at."""
        return self.blank.finished_diameter_mm

    @property
    def across(self) -> str:
        """The force across the work."""
        return str(self.filled("{side_force_n} across the work")) if self.side_force_n else "balanced across the work"

    @property
    def buries(self) -> str:
        """Share of the teeth that a press fit buries."""
        return f"{100 * (self.bite_share or 0.0):.0f} %"

    def report(self) -> list[tuple[str, str]]:
        """Force, support and wall, steps."""
        steps = [(f"{number}.", step) for number, step in enumerate(self.steps(), 1)]
        assumed = [("assumed", ", ".join(self.assumed))] if self.assumed else []
        return [*super().report(), *steps, ("never", words("said", "no_knurl")), *assumed]

    def _length(self, value_mm: float) -> str:
        return spell(value_mm, "length", self.unit)
