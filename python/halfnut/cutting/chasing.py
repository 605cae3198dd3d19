"""Chasing: a thread cut with a single point, pass by pass: what stands beside the figures."""

from __future__ import annotations

from typing import ClassVar

from halfnut._core import (
    DomainError,
    spell,
    spell_span,
)
from halfnut.core.words import words
from halfnut.cutting.cuts import Cut, setting
from halfnut.cutting.figures import ChasePass, ChasingFigures, GaugePlane
from halfnut.cutting.gears import GearTrain

__all__ = ["ChasePass", "Chasing"]


class Chasing(ChasingFigures):
    """How to chase a thread: sizes, settings, passes, readings. Lengths in mm; None where one does not apply."""

    AT_MACHINE: ClassVar[bool] = True
    SHORT: ClassVar[tuple[str, ...]] = ("feed", "dial", "good", "blank")
    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("good", "{good}"),
        ("blank", "{blank_mm}[ {where}]; tip goes {depth_mm} deep, root {root_mm}"),
        ("pitch", "aim {pitch_diameter_mm}, limits {pitch_min_mm..pitch_max_mm}; last line leaves {left_mm}"),
        ("spindle", "{spindle_text}"),
        ("feed", "{feed_text}"),
        ("stop", "at most {stopping_rpm} to stop by hand"),
        ("force", "at most {most_force_n} in a pass"),
    )
    train: GearTrain | None
    cut: Cut | None

    @property
    def stop(self) -> ChasePass:
        """The pass after which the thread is measured for the first time."""
        return next(each for each in self.passes if each.measure)

    def gauge_turns(self, on_diameter_mm: float) -> float:
        """Turns by which a change of the pitch diameter moves the gauge of a taper thread."""
        if self.taper is None:
            raise DomainError(f"{self.thread} does not taper: its gauge has no turns")
        return on_diameter_mm / (self.taper.taper_on_diameter * self.lead_mm)

    def steps(self) -> list[str]:
        """What to do at the lathe, in order."""
        inner = self.side == "internal"
        out = self._blank_words()
        square = "Set the tool square by a centre gauge."
        if self.taper is not None:
            square = "Set the tool square to the axis by a centre gauge, not to the taper."
        if self.compound_deg is not None:
            out.append(
                f"Set the compound to {self.compound_marked_deg:g} on its scale, {self.compound_deg:g} degrees from "
                f"square to the work. {square}"
            )
        elif self.infeed == "alternating":
            out.append(f"Set the compound along the work; it shifts the tool. {square}")
        else:
            out.append(square)
        ground = (
            f"round {self._long(self.nose_radius_mm)}"
            if self.nose_radius_mm
            else f"flat {self._long(self.nose_flat_mm)}"
        )
        if self.train is not None and not self.train.standard:
            out.append(f"Change gears {self.train.gears}: {self.train.error_words}, {self.train.mounting}.")
        out.append(
            f"Tool: nose {ground}; side clearance {self.leading_clearance_deg:.0f} degrees on the leading side, "
            f"{self.trailing_clearance_deg:.0f} on the other."
        )
        out.append(self._half_nut_words())
        if self.hand == "left":
            out.append(
                "Left-hand: groove first, leadscrew reversed; start in the groove and cut towards the tailstock. The "
                "clearances change sides."
            )
        if self._cannot_stop:
            out.append(
                "Too fast to stop here by hand: the tool upside down, the spindle reversed, cutting from the groove "
                f"away from the shoulder; or a groove {self._long(self.stop_run_out_mm or 0.0)} wide; or a crank on "
                "the spindle."
            )
        stop = self.stop
        out.append(
            f"Touch the {'bore' if inner else 'blank'}, set the dial to 0, and cut to line {stop.line} by the table. "
            f"Repeat the last pass without feeding in until nothing more comes off, and {self._try}."
        )
        taken = self._long(self.line_on_pitch_diameter_mm)
        if self.wire_mm is not None and stop.over_wires_mm is not None:
            target = stop.over_wires_mm + (stop.left_mm if inner else -stop.left_mm)
            how = f"Across balls of {self._long(self.wire_mm)}: subtract the reading from {self._long(target)}"
            if not inner:
                how = f"Over wires of {self._long(self.wire_mm)}: subtract {self._long(target)} from the reading"
            out.append(
                f"{how}; a line takes off {taken}. Go half of the lines left, repeat without feeding in, measure, "
                "go the rest. Never round up."
            )
        elif self.taper is not None:
            out.append(self._gauge_words(self.taper))
        else:
            out.append(
                f"A line takes {taken} off the pitch diameter. Go half of the lines that are left, repeat without "
                "feeding in, measure or try the gauge, go the rest. Never round up."
            )
        if self.start_shift_mm is not None:
            out.append(
                f"Next start: with the same dial readings, after moving the compound {self._long(self.start_shift_mm)} "
                f"along the work; {self.starts} starts."
            )
            if self.train is not None and self.train.index_teeth is not None:
                out.append(f"Or by the gears: {self.train.indexing}")
        return out

    def _blank_words(self) -> list[str]:
        inner = self.side == "internal"
        chamfer = f"chamfer {self._long(self.chamfer_mm)} at 45 degrees"
        if self.taper is None:
            return [f"{'Bore' if inner else 'Turn'} to {self._long(self.blank_mm)}, {chamfer}{self._groove_words()}."]
        pipe = self.taper
        shrink = pipe.taper_on_diameter * pipe.hand_engagement_mm
        setting = (
            f"Set the taper attachment to {pipe.compound_setting_deg:.4f} degrees, "
            f"{12 * pipe.taper_on_diameter:g} in per foot on the diameter"
        )
        if inner:
            return [
                f"{setting}, the large end at the mouth. Bore to {self._long(self.blank_mm)} at the mouth, "
                f"{self._long(self.blank_mm - shrink)} at a depth of {self._long(pipe.hand_engagement_mm)}, {chamfer}."
            ]
        return [
            f"{setting}, the small end at the end of the pipe. Turn to {self._long(self.blank_mm - shrink)} at the "
            f"end, {self._long(self.blank_mm)} at {self._long(pipe.hand_engagement_mm)} from it, {chamfer}; the thread "
            "runs out on the taper, without a groove."
        ]

    def _gauge_words(self, pipe: GaugePlane) -> str:
        turns = self.gauge_turns(self.line_on_pitch_diameter_mm)
        gauge = "plug" if self.side == "internal" else "ring"
        end = "the mouth" if self.side == "internal" else "the end of the pipe"
        return (
            f"Screw the taper {gauge} on by hand: right where its step is flush with {end}, within "
            f"{pipe.tolerance_turns:g} turn{'' if pipe.tolerance_turns == 1 else 's'}. A line brings it {turns:.2f} "
            "turns further. Go half of the lines that are left, repeat without feeding in, try it, go the rest. Never "
            "round up."
        )

    @property
    def answer(self) -> str:
        """Passes and lines."""
        angle = f" at {self.compound_deg:g}°, marked {self.compound_marked_deg:g}" if self.compound_deg else ""
        return (
            f"{self.thread}: {len(self.passes)} passes on the {self.slide}{angle}, {self.passes[-1].line} lines; "
            f"{self._try} at line {self.stop.line}"
        )

    @property
    def where(self) -> str | None:
        """Where the diameters of a taper thread are."""
        return None if self.taper is None else "in the gauge plane"

    @property
    def left_mm(self) -> float:
        """On the pitch diameter, after the last line."""
        return self.passes[-1].left_mm

    @property
    def first_line(self) -> str:
        """The spindle speed to set, where it is known; else the passes."""
        return self.spindle_text or self.answer

    @property
    def spindle_text(self) -> str | None:
        """The spindle speed to set, with its levers."""
        return None if self.spindle_rpm is None else f"{self.spindle_rpm:.0f} rev/min{setting(self.spindle_positions)}"

    @property
    def feed_text(self) -> str | None:
        """Levers of the gearbox, and gears to change."""
        if self.train is None:
            return None
        gears = () if self.train.standard else (f"change gears {self.train.gears}",)
        return ", ".join([*gears, *(" ".join(each) for each in self.train.positions)])

    @property
    def good(self) -> str | None:
        """Where the thread is within its limits, as its last reading tells it."""
        last = self.passes[-1]
        if last.over_wires_mm is None or self.wire_mm is None:
            return None
        over = last.over_wires_mm - last.pitch_diameter_mm
        limits = spell_span(self.pitch_min_mm + over, self.pitch_max_mm + over, "length", self.unit)
        return f"{limits} {'across balls' if self.side == 'internal' else 'over wires'} of {self._long(self.wire_mm)}"

    def report(self) -> list[tuple[str, str]]:
        """Settings, passes, steps."""
        lines = " ".join(f"{each.line}{f' ({self._try})' if each.measure else ''}" for each in self.passes)
        angle = f" at {self.compound_marked_deg:g}" if self.compound_marked_deg else ""
        out = [*super().report(), ("dial", f"{self.slide}{angle}, touch = 0, then lines {lines}")]
        if self.spindle_text:
            out.append(("passes", self.answer))
        what = "across balls" if self.side == "internal" else "over wires"
        for each in self.passes[self.stop.number - 1 :]:
            read = "" if each.over_wires_mm is None else f"{what} {self._long(each.over_wires_mm)}, "
            if self.taper is not None:
                read = f"{self.gauge_turns(each.left_mm):.1f} turns of the gauge, "
            left = f"{self._long(each.left_mm)} left on the pitch diameter, {each.left_lines:.1f} lines"
            out.append(("stage", f"line {each.line}, the dial at {_turns_words(each)}: {read}{left}"))
        out += [(f"{number}.", step) for number, step in enumerate(self.steps(), 1)]
        assumed = [("assumed", ", ".join(self.assumed))] if self.assumed else []
        return [*out, *assumed, ("load", words("said", "load"))]

    def _long(self, value_mm: float) -> str:
        return spell(value_mm, "length", self.unit)

    @property
    def _try(self) -> str:
        return "measure" if self.taper is None else "try the gauge"

    @property
    def _cannot_stop(self) -> bool:
        return self.stop_run_out_mm is not None

    def _groove_words(self) -> str:
        if self.run_out_mm <= 0:
            return ""
        return (
            f"; before a shoulder a groove {self._long(self.groove_width_mm)} wide at "
            f"{self._long(self.groove_diameter_mm)}, corners rounded {self._long(self.groove_radius_mm)}"
        )

    def _half_nut_words(self) -> str:
        if self.dial_every is None:
            return "Keep the half nut closed and reverse the spindle, unless the lathe's own chart says where it fits."
        if self.dial_every == 0:
            fits = ", ".join(str(each) for each in self.dial_wheels)
            other = f" A wheel of {fits} teeth on the dial would let it open." if fits else ""
            return (
                "No mark of the thread dial fits: keep the half nut closed, draw the tool out as the spindle stops, "
                f"and run back with the spindle reversed.{other}"
            )
        if self.dial_every == 1:
            return "Close the half nut at any mark of the thread dial."
        if self.dial_every == self.dial_marks:
            return "Close the half nut at one mark of the thread dial, always the same."
        return (
            f"Close the half nut at every {_ordinal(self.dial_every)} mark of the thread dial, counted from the first."
        )


def _turns_words(each: ChasePass) -> str:
    turns = f"{each.turns} turn{'' if each.turns == 1 else 's'} and " if each.turns else ""
    return f"{turns}{each.dial}"


def _ordinal(number: int) -> str:
    return {2: "second", 3: "third"}.get(number, f"{number}th")
