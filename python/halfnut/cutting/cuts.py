"""Cuts at the lathe and the mill: levers, forces, power, finish and time for one operation at a time.

Lengths are text with a unit, or `Length`; figures whose names end in a unit are plain numbers.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from halfnut._core import spell
from halfnut.core.words import words
from halfnut.cutting.figures import CutFigures, Limit

__all__ = ["Cut", "Limit"]


class Cut(CutFigures):
    """One cut: the levers to set and what it comes to. A figure that does not apply is None."""

    @property
    def title(self) -> str:
        """Operation and alloy."""
        return f"{self.operation.replace('_', ' ')} {self.alloy.title}"

    @property
    def taken_words(self) -> str:
        """The same, but for what the answer shows beside it: tool and holding."""
        return ", ".join(each for each in self.assumed if not each.startswith(("depth", "nose radius")))

    @property
    def pecks_words(self) -> str:
        """Depths at which the drill is drawn clear, but the last."""
        return ", ".join(spell(each, "travel", self.unit) for each in self.peck_depths_mm[:-1])

    @property
    def dial_text(self) -> str | None:
        """The dial that sets the depth, from where the tool touches; None where the machine has none."""
        if self.dial_slide is None:
            return None
        counted = ((self.dial_turns, "turn"), (self.dial_line, "line"))
        parts = [f"{count} {what}{'' if count == 1 else 's'}" for count, what in counted if count]
        return f"{self.dial_slide} dial {' + '.join(parts)}" if parts else None

    @property
    def band(self) -> str:
        """What the band of the force rests on."""
        return words("band", "verified" if self.force_verified else "unverified")

    @property
    def along_n(self) -> float | None:
        """Force along the feed, beside a cutting force."""
        return None if self.cutting_force_n is None else self.feed_force_n

    @property
    def thrust_n(self) -> float | None:
        """Force along the feed, where it is the only one."""
        return self.feed_force_n if self.cutting_force_n is None else None

    @property
    def passes_words(self) -> str:
        """How many passes, or where a drill is withdrawn; nothing for one."""
        if self.peck_depths_mm:
            depths = ", ".join(spell(each, "size", self.unit) for each in self.peck_depths_mm[:3])
            more = ", ..." if len(self.peck_depths_mm) > 3 else ""
            return f"{len(self.peck_depths_mm)} pecks: clear the drill at {depths}{more}"
        if self.passes < 2:
            return ""
        width = "" if self.width_mm is None else f", each {spell(self.width_mm, 'size', self.unit)} wide"
        return f"{self.passes}: {self.passes_across} across, {self.passes_down} down{width}"

    @property
    def finish_words(self) -> str:
        """What the roughness leaves out."""
        lead = ", one tooth leading" if self.operation.startswith("mill") else ""
        return words("said", "geometry_alone") + lead

    @property
    def deflects_words(self) -> str:
        """What deflects, or how it shows."""
        return "of the cutter" if self.operation.startswith("mill") else "twice that on the diameter"

    @property
    def heat_words(self) -> str | None:
        """Where the heat goes."""
        if self.heat_to_work_w is None or self.heat_to_work_share is None:
            return None
        return f"{self.heat_to_work_share:.0%} of the heat, {self.heat_to_work_w:.0f} W, into the work: estimates"

    @property
    def turns_words(self) -> str | None:
        """Turns of the handle for the whole travel."""
        return None if self.hand_turns is None else f"{self.hand_turns:.1f} turns of the handle"

    @property
    def limit_words(self) -> str:
        """What keeps the cut from being faster."""
        return words("limit", self.limited_by)

    @property
    def feed_limit_words(self) -> str | None:
        """What keeps the feed from being coarser, where it is something else."""
        held = self._feed_limit
        return None if held is None else words("limit", held)

    @property
    def _feed_limit(self) -> str | None:
        exact = self.feed_source == "exact" or self.feed_limited_by in {self.limited_by, "none"}
        return None if exact else self.feed_limited_by

    @property
    def help_words(self) -> str:
        """What would let the limits give."""
        return "; ".join(words("help", code) for code in (self.limited_by, self._feed_limit) if code is not None)

    @property
    def left_words(self) -> str:
        """What is left of the other limits."""
        return self._shares(lambda slack: slack >= -_SAME)

    @property
    def over_words(self) -> str:
        """How far other limits are passed."""
        return self._shares(lambda slack: slack < -_SAME)

    def _shares(self, wanted: Callable[[float], bool]) -> str:
        return ", ".join(
            f"{words('limit', limit.name)} {abs(limit.slack):.0%}"
            for limit in self.limits
            if limit.name != self.limited_by and wanted(limit.slack)
        )

    @property
    def edge_text(self) -> str:
        """What `holds_at_edge` says, in words; nothing without such a limit."""
        if self.holds_at_edge is None:
            return ""
        return words("likely", "held" if self.holds_at_edge else "not_held", limits=self.edge_limits)

    @property
    def edge_limits(self) -> str:
        """The limits that `holds_at_edge` speaks of: those passed, else all that follow the force."""
        judged = [limit for limit in self.limits if limit.name in _FOLLOW_FORCE and not math.isnan(limit.slack)]
        passed = [limit for limit in judged if limit.slack < 0]
        return " and ".join(words("limit", limit.name) for limit in passed or judged)

    @property
    def answer(self) -> str:
        """The levers to set, in one line: spindle speed and feed, with their positions."""
        return f"{self.spindle_text}; {self.feed_said or 'feed -'}{_setting(self.feed_positions)}"

    @property
    def spindle_text(self) -> str:
        """The spindle speed to set, with its levers in the order of the plate."""
        speed = f"{self.spindle_rpm:.0f} rev/min{_setting(self.spindle_positions)}"
        return f"tap by hand, or at the slowest step: {speed}" if self.by_hand else speed

    @property
    def first_line(self) -> str:
        """The spindle speed to set; the feed stands below it."""
        return self.spindle_text

    @property
    def by_hand(self) -> bool:
        """Whether a tap is better turned by hand: the machine is not known to have a reversing holder."""
        return any(item.code == "tap_by_hand" for item in self.cautions)

    @property
    def feed_text(self) -> str:
        """The feed to set, with its levers."""
        return (self.feed_said or "-").removeprefix("feed ") + _setting(self.feed_positions)


_FOLLOW_FORCE = ("power", "torque", "deflection")
_SAME = 1e-9  # a bound that is met is not passed


def _setting(positions: tuple[tuple[str, str], ...]) -> str:
    """Lever positions behind the figure that they set."""
    return f": {', '.join(f'{control} {setting}' for control, setting in positions)}" if positions else ""
