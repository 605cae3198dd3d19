"""The fastest passes within every limit: the short answer with the dial of each pass."""

from __future__ import annotations

from itertools import groupby

from halfnut._core import spell
from halfnut.core.words import wrapped
from halfnut.cutting.figures import PassesFigures, PassPlanned

__all__ = ["Passes"]


class Passes(PassesFigures):
    """The fastest passes, or what stands in their way."""

    def lines(self) -> list[str]:
        """The levers, then the dial of each pass that they hold for; then what limits it."""
        first, *rest = super().lines()
        out = wrapped(first)
        for _, held in groupby(self.passes, lambda one: one.cut.answer):
            passes = list(held)
            out += wrapped(passes[0].cut.spindle_text, "  spindle   ", " " * 12)
            out += wrapped(passes[0].cut.feed_text, "  feed      ", " " * 12)
            dials = ", ".join(self._stop(one) for one in passes)
            out += wrapped(f"{self.dial}, touch = 0: {dials}", "  dial      ", " " * 12)
        return [*out, *rest]

    def _stop(self, one: PassPlanned) -> str:
        """Where a pass stops: on the dial, and what is then measured or off."""
        size = spell(one.after_mm, "length", self.unit) + (" off" if self.to_mm is None else "")
        measure = f"{one.measure.partition(';')[0]}: " if one.measure else ""
        return f"{measure}{size}" if one.dial is None else f"{measure}{one.dial.said} ({size})"
