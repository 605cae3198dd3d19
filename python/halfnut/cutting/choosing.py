"""The fastest passes within every limit: what stands beside their figures."""

from __future__ import annotations

from dataclasses import fields
from itertools import groupby

from halfnut._core import spell, spell_number
from halfnut.core.words import words, wrapped
from halfnut.cutting.figures import Gain, PassesFigures, PassPlannedFigures
from halfnut.machine.dials import Reading

__all__ = ["Gain", "PassPlanned", "Passes"]


class PassPlanned(PassPlannedFigures):
    """One pass: its cut, what it leaves, and where the dial stands."""

    @property
    def answer(self) -> str:
        """Its number and its levers."""
        return f"pass {self.number}: {self.cut.answer}"

    @property
    def reading(self) -> Reading | None:
        """The dial that sets the depth, zero where the tool touches; None where a measurement sets it."""
        return None if self.dial is None else Reading(*(getattr(self.dial, each.name) for each in fields(Reading)))


class Passes(PassesFigures):
    """The fastest passes, or what stands in their way."""

    @property
    def found(self) -> bool:
        """Whether there is an answer."""
        return bool(self.passes)

    @property
    def tightest(self) -> str:
        """The limit that least is left of in any pass, "none" without passes."""
        return min(((each.share, each.name) for each in self.slack), default=(0.0, "none"))[1]

    def left_of(self, limit: str) -> float:
        """What is left of a limit.

        Parameters
        ----------
        limit : str
            Its name, as `slack` has it.

        Returns
        -------
        float
            Share of its bound, the least over the passes.
        """
        return next(each.share for each in self.slack if each.name == limit)

    @property
    def shares_s(self) -> dict[str, float]:
        """What the time is made of: cutting, return, dial, levers, measuring."""
        each = self.passes
        return {
            "cutting": sum(one.cut_s for one in each),
            "return": sum(one.return_s for one in each),
            "dial": sum(one.dial_s for one in each),
            "levers": sum(one.change_s for one in each),
            "measuring": sum(one.measure_s for one in each) + (self.final_measure_s if each else 0.0),
        }

    @property
    def answer(self) -> str:
        """The passes in one line."""
        if not self.found:
            return "no passes keep every limit"
        depths = ", ".join(self._number(one.depth_mm) for one in self.passes)
        count = len(self.passes)
        return f"{count} pass{'' if count == 1 else 'es'} of {depths} {self.unit}, {self._time(self.time_s)}"

    def report(self) -> list[tuple[str, str]]:
        """The passes, their time, what limits them, what would help."""
        told = [
            ("job", self._job()),
            ("closing", words("closing", self.closing)),
            *([("assumed", ", ".join(self.assumed))] if self.assumed else []),
        ]
        return told + (self._found() if self.found else self._not_found())

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
        return f"{measure}{size}" if one.reading is None else f"{measure}{one.reading} ({size})"

    def next_answer(self) -> str:
        """The next best answer.

        Returns
        -------
        str
            One line; empty where there is none.
        """
        if self.next_s is None or self.time_s is None:
            return ""
        return f"{self.next_words}: {_more(self.next_s - self.time_s)}"

    def _number(self, value_mm: float) -> str:
        return spell_number(value_mm, "length", self.unit)

    def _time(self, seconds: float | None) -> str:
        return spell(seconds or 0.0, "time", self.unit)

    def _job(self) -> str:
        size = spell(self.diameter_mm, "length", self.unit)
        to = "" if self.to_mm is None else f" to {spell(self.to_mm, 'length', self.unit)}"
        off = f", {spell(self.off_mm or 0.0, 'length', self.unit)} off" if self.to_mm is None else ""
        return f"{self.do} {self.alloy.title}, {size}{to}{off}, {self.machine_name}"

    def _found(self) -> list[tuple[str, str]]:
        after = "off" if self.to_mm is None else "diameter"
        readings = [
            str(one.reading) if one.reading is not None else words("said", "as_measured") if one.measure else ""
            for one in self.passes
        ]
        wide = 2 + max(len(text) for text in (f"{self.dial} dial", *readings))
        out = [("pass", f"{'depth':>8}{after:>10}  {self.dial + ' dial':<{wide}}levers")]
        for one, dial in zip(self.passes, readings, strict=True):
            if one.measure_before:
                out.append(("", one.measure))
            same = one.number > 1 and self.passes[one.number - 2].cut.answer == one.cut.answer
            levers = "as before" if same else one.cut.answer
            sizes = f"{self._number(one.depth_mm):>8}{self._number(one.after_mm):>10}"
            out.append((str(one.number), f"{sizes}  {dial:<{wide}}{levers}"))
        if self.across > 1:
            out.append(("", f"each depth in {self.across} passes side by side"))
        spent = ", ".join(f"{name} {self._time(seconds)}" for name, seconds in self.shares_s.items())
        out.append(("time", f"{self._time(self.time_s)}: {spent}"))
        if self.remainder_mm:
            how = "set by the readout" if self.readout else "between two lines"
            off = spell(abs(self.remainder_mm), "fine", self.unit)
            out.append(("dial", f"the last pass ends {off} off a line, {how}"))
        turns = [one.cut.hand_turns_per_min for one in self.passes if one.cut.hand_turns_per_min is not None]
        if self.hand_fed and turns:
            out.append(
                ("feed", f"by hand, {min(turns):.3g} to {max(turns):.3g} turns of the handle a minute, steadily")
            )
        if self.edge_share is not None:
            out.append(("tool", f"{self.edge_share:.0%} of its computed life, unverified"))
        costs = {each.name: f", costs {self._time(each.saved_s)}" for each in self.prices}
        out.append(("limit", words("limit", self.limited_by) + costs.get(self.limited_by, "")))
        costs.pop(self.limited_by, None)
        for each in sorted(self.slack, key=lambda each: each.share):
            out.append(("left", f"{words('limit', each.name)} {each.share:.0%}{costs.get(each.name, '')}"))
        out.append(("speed", self._neighbours()))
        last = self.passes[-1].cut.roughness_ra_um
        if last is not None:
            out.append(("finish", f"Ra {spell(last, 'roughness', self.unit)}, {words('said', 'geometry_alone')}"))
        if self.next_s is not None:
            out.append(("next", f"with other levers: {self.next_answer()}"))
        return out + [("gain", f"{words('gain', gain.code)}: {self._time(gain.saved_s)} less") for gain in self.gains]

    def _neighbours(self) -> str:
        """What one step up or down does in each pass; of all of them only where it holds in all of them."""
        held = {
            "slower": [one.number for one in self.passes if one.slower_holds],
            "faster": [one.number for one in self.passes if one.faster_holds],
        }
        whole = [name for name, passes in held.items() if len(passes) == len(self.passes)]
        parts = [f"one step {' or '.join(whole)} keeps every limit in every pass"] if whole else []
        for name, passes in held.items():
            if passes and name not in whole:
                which = f"pass{'' if len(passes) == 1 else 'es'} {', '.join(map(str, passes))}"
                parts.append(f"one step {name} keeps every limit in {which} alone")
        return "; ".join(parts) or "one step up or down breaks a limit in every pass"

    def _not_found(self) -> list[tuple[str, str]]:
        if not self.relaxations:
            head = "no limit alone stands in the way: the depth is less than the dial and the edge can cut"
        elif self.together:
            head = "all of these together stand in the way"
        else:
            head = "any one of these would do, the least first"
        out = [("why", head)]
        for each in self.relaxations:
            out.append(("", f"{words('limit', each.name)}: {relaxed_text(each.name, each.factor)}"))
        return out + [("gain", f"{words('gain', gain.code)}: would make an answer") for gain in self.gains]


def relaxed_text(name: str, factor: float) -> str:
    """How far a limit would have to give.

    >>> relaxed_text("power", 1.5)
    '1.5 times the power'
    """
    return words("relaxed", name, factor=f"{factor:.3g}" if factor < 1000 else f"{factor:,.0f}")


def _more(seconds: float) -> str:
    return f"{spell(seconds, 'time', 'mm')} more" if seconds >= 0.05 else "no slower"
