"""Operations as rows of a card: what to cut, to which size, what the dial shows, and what to measure."""

from __future__ import annotations

import string
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from markupsafe import Markup

from halfnut import _core
from halfnut.core.catalogue import active
from halfnut.core.sizes import MM_PER_INCH
from halfnut.core.words import words as words_of
from halfnut.cutting.chasing import Chasing
from halfnut.cutting.figures import Cut, DialReading
from halfnut.fits.questions import cylindrical_fit
from halfnut.knurls.figures import DialReading as KnurlReading
from halfnut.knurls.figures import KnurlBlank
from halfnut.planning.answers import Answer, Levers, Pass, feed_ladder, reading
from halfnut.sheet import figures
from halfnut.sheet.card import Feed, Go, Move, Row, Setting, Spindle
from halfnut.sheet.layout import said
from halfnut.threads.questions import drill_set
from halfnut.threads.standard import ThreadLimits

if TYPE_CHECKING:
    from halfnut.machine.machines import Machine
    from halfnut.planning.job import Coating, Pattern
    from halfnut.planning.plans import PlannedOperation, PlannedPart

_BY_HAND = Feed(gives=("by hand",))


def moves(part: PlannedPart, op: PlannedOperation, told: Sequence[Row]) -> list[Move]:
    """The rows of an operation by the settings that they need; what is `told` stands above the first."""
    found = op.answer
    if found is None:
        return [Move(Spindle("–"), Feed(), (*told, Row("failed", said("failed", op.error), op.number)))]
    rows = _Rows(part, op, found)
    first, *rest = rows.moves()
    begun, *others = first.rows
    begun = replace(begun, number=op.number, what=said("noted", begun.what, op.step.note))
    made = [Move(first.spindle, first.feed, (*told, begun, *others)), *rest]
    return [*made[:-1], replace(made[-1], rows=(*made[-1].rows, *rows.laid_out()))]


class Measured(NamedTuple):
    """A size to inspect: what, with which instrument, its limits as it is cut and once coated; "" where it has none."""

    what: str
    tool: str
    least: str = ""
    greatest: str = ""
    coated: str = ""


def measured(part: PlannedPart, op: PlannedOperation, coating: Coating | None) -> Iterator[Measured]:
    """What is inspected of an operation, with the limits that its card has, and under the part's coating."""
    found, do = op.answer, op.step.do
    coating = None if op.step.masked else coating
    if found is None:
        return
    rows, record = _Rows(part, op, found), found.record
    if do in _SIZED and (pair := rows.limit_sizes) is not None:
        yield rows.inspected(_SIZED[do], rows.final_mm, pair, coating, inside=do != "turn")
    if do == "face" and (pair := rows.length_limits) is not None:
        yield rows.inspected("length", op.walked["length_mm"], pair, coating, inside=False)
    if do == "tap":
        yield Measured(f"tapped {found.sizes['thread']}", words_of("instrument", "plug_go"))
    if do == "thread":
        size, gauge = str(found.sizes["thread"]), words_of("instrument", "gauge_go")
        if found.wires is None:
            yield Measured(size, gauge)
            return
        wires, inner = found.wires, found.sizes["side"] == "internal"
        high, low = figures.limits((wires.over_min_mm, wires.over_max_mm), part.unit)
        what = f"{size} {'across balls' if inner else 'over wires'} {figures.size(wires.wire_mm, part.unit)}"
        tool = words_of("instrument", "micrometer_balls" if inner else "micrometer_wires")
        yield Measured(what, tool, low, high, gauge if coating is not None else "")
    if isinstance(record, KnurlBlank) and record.finished_max_mm and record.finished_min_mm:
        pair = (record.finished_min_mm, record.finished_max_mm)
        yield rows.inspected("over the knurl", record.finished_diameter_mm, pair, coating, inside=False)


_SIZED = {"turn": "Ø", "bore": "bore", "ream": "reamed"}
"""What the diameter that they come to is called where it is inspected."""


@cache
def _drills() -> dict[int, str]:
    """Drills that have a number or a letter, by their size in millionths of a millimetre."""
    found = drill_set("number+letter")
    return {
        round(1e6 * size): name.removeprefix("letter ")
        for name, size in zip(found.names, found.diameters_mm, strict=True)
    }


def drill_name(value_mm: float, unit: str) -> str:
    """The number or letter that an inch drill goes by; nothing where it has none, or is a fraction."""
    plain = unit == "in" and "/" not in figures.length(value_mm, unit)
    return _drills().get(round(1e6 * value_mm), "") if plain else ""


class _Rows:
    """The rows of one answered operation, and what their words ask of it."""

    def __init__(self, part: PlannedPart, op: PlannedOperation, found: Answer):
        self.part, self.op, self.found = part, op, found
        self.step = op.step
        self.unit = part.unit
        self.machine: Machine = op.machine

    def moves(self) -> Iterator[Move]:
        """Rows by the levers that they need."""
        own = {"turn": self._sized, "bore": self._sized, "mill": self._mill, "thread": self._thread}
        return own.get(self.step.do, self._one)()

    def _one(self) -> Iterator[Move]:
        """What has one setting: a row, and another where a length is measured."""
        start, dials = "touch = 0, to", self.dials
        cuts = 0
        if self.step.do == "face":
            cuts = sum(each.measure for each in self.found.passes)
            start, dials = f"{self._dial_name}{start}", dials if len(dials) > 1 or cuts else ()
        elif "depth_mm" in self.found.sizes:
            start = "point = 0," if self.step.do in {"spot", "drill", "countersink"} else "touch = 0,"
            dials = dials[-1:]
        elif self.found.knurling is not None and self.found.knurling.dial is not None:
            dials = (_shown(self.found.knurling.dial),)
        rows = [Row("cut", said("row", self), start=start, dial=dials)]
        rows += [Row("measure", said("read_length", cuts))] if cuts else []
        yield self._move(rows, feed=_BY_HAND if self.step.do == "taper" else None)

    # ---- settings -----------------------------------------------------------------------------------------

    def laid_out(self) -> Iterator[Row]:
        """Where the holes of a pattern are, in the order of going there, and how work is divided."""
        placed, divided = self.found.placed, self.found.divided
        if divided is not None:
            yield Row("cut", said("divided", divided))
        if placed is not None and self._same_places()[0] is self.op:
            places = tuple(said("place", self, each) for each in placed.places)
            yield Row("cut", said("laid_out", self), places=places)

    def _same_places(self) -> list[PlannedOperation]:
        """The operations of this machine whose holes lie where this one's do."""
        ops = (op for op in self.part.operations if op.machine is self.machine)
        return [op for op in ops if op.step.laid_out == self.step.laid_out]

    @property
    def letter(self) -> str:
        """What the places of its holes go by."""
        layouts: list[Pattern] = []
        for op in self.part.operations:
            found = op.step.laid_out
            if found is not None and op.machine is self.machine and found not in layouts:
                layouts.append(found)
        place = next(place for place, each in enumerate(layouts) if each == self.step.laid_out)
        return string.ascii_uppercase[place] if place < 26 else f"A{place}"

    def dial_at(self, axis: str, turns: int | None, line: int | None) -> str:
        """What the dial of an axis shows at a hole; nothing where a readout is read."""
        slide = self.machine.core.slide(axis.lower())
        if turns is None or line is None or slide is None:
            return ""
        return figures.dial(turns, line * slide.graduation_mm, "in" if slide.marked_in_inch else "mm")

    def _move(self, rows: list[Row], levers: Sequence[Levers] | None = None, feed: Feed | None = None) -> Move:
        cut = self.found.cut
        if cut is None:
            return Move(Spindle("by hand"), _BY_HAND, tuple(rows))
        standing = self.found.levers if levers is None else levers
        spindle = Spindle(f"{cut.spindle_rpm:.0f}")
        for group in standing:
            if group.group == "spindle":
                spindle = self._spindle(group, cut)
        if cut.by_hand:
            return Move(Spindle("by hand"), Feed(), tuple(rows))
        return Move(spindle, feed or self._feed(standing), tuple(rows))

    def _spindle(self, group: Levers, cut: Cut) -> Spindle:
        """The bar of a group of levers, which may be those of a later pass."""
        core = self.machine.core.spindle
        positions = tuple(pair for pair in group.positions if pair[0] != "speed, rev/min")
        typed = [setting for control, setting in group.positions if control == "speed, rev/min"]
        if typed:
            return Spindle(typed[0], positions)
        steps = [step for step in core if tuple((each.control, each.setting) for each in step.positions) == positions]
        return Spindle(f"{steps[0].rpm if steps else cut.spindle_rpm:.0f}", positions)

    def _feed(self, levers: Sequence[Levers]) -> Feed:
        for group in levers:
            if group.group == "feed":
                return Feed(group.positions, self._feed_marked(group))
        return _BY_HAND

    def _feed_marked(self, group: Levers) -> tuple[str, ...]:
        """What the machine's chart gives for the levers of a pass."""
        ladder = feed_ladder(self.found, self.machine)
        if ladder is None:
            return ()
        unit = "in" if ladder.marked_in_inch else "mm"
        scale = MM_PER_INCH if unit == "in" else 1.0
        for step in ladder.steps:
            if tuple((each.control, each.setting) for each in step.positions) == group.positions:
                marked = step.feed_mm / scale
                if ladder.kind == "per minute":
                    return (f"{marked:g} {unit}/min",)
                return (f"{figures.bare(f'{marked:.4f}' if unit == 'in' else f'{marked:g}')} {unit}",)
        return ()

    # ---- turning and boring to a size ---------------------------------------------------------------------

    def _sized(self) -> Iterator[Move]:
        """Roughing by the dial; what is measured is cut by what was read, for a dial shows where it stands only."""
        groups = _groups(self.found.passes, self.found.levers)
        slide = self.machine.core.slide(self.found.dial or "cross")
        for place, (levers, passes) in enumerate(groups):
            last, rows, size_mm = place == len(groups) - 1, [], passes[-1].size_mm
            if passes[0].measure:
                if not (place and groups[place - 1][1][0].measure and groups[place - 1][0] == levers):
                    rows.append(Row("measure", said("read_first", slide is None or slide.reads_diameter)))
                rows.append(Row("measure", said("read", self, size_mm, last)))
            else:
                verb = self.step.do.capitalize() if last else "Rough"
                what = said("turned", self, verb, "" if place else self.tool, size_mm, last)
                rows.append(Row("cut", what, start="" if place else "touch = 0, to", dial=_dials(passes)))
            yield self._move(rows, levers)

    @property
    def final_mm(self) -> float:
        """The diameter that is left."""
        return self.step.base("diameter") if self.step.do == "ream" else self.found.passes[-1].size_mm

    def inspected(
        self, what: str, size_mm: float, pair: tuple[float, float], coating: Coating | None, *, inside: bool
    ) -> Measured:
        """A diameter or a length with limits, and the instrument that reads it."""
        tool, _ = _core.measured_with(inside, False, size_mm, pair[1] - pair[0], active())
        if self.step.do == "ream":
            tool = words_of("instrument", "plug_gauge")
        high, low = figures.limits(pair, self.unit)
        coated = ""
        if coating is not None:
            most, least = figures.limits(_core.once_coated(*pair, inside, coating.surface), self.unit)
            coated = f"{least} to {most}"
        return Measured(f"{what} {figures.size(size_mm, self.unit)}", tool, low, high, coated)

    @property
    def length_limits(self) -> tuple[float, float] | None:
        """Least and greatest of the length that facing comes to, mm, where it has limits."""
        half, length = 0.5 * self.step.base("tolerance"), float(self.op.walked["length_mm"])
        return (length - half, length + half) if half else None

    @property
    def limit_sizes(self) -> tuple[float, float] | None:
        """Least and greatest of a diameter, mm: of its class, of a thread to come, as reamed, as it is said."""
        if self.step.do == "ream":
            hole = cylindrical_fit(f"{self.step.size('diameter')} H7").hole
            return None if hole is None else (hole.min_mm, hole.max_mm)
        plain, bore = self.found.plain, self.step.do == "bore"
        if plain is not None:
            side = "hole" if bore else "shaft"
            of = plain.hole if bore else plain.shaft
            cut = plain.cut_to_mm(side) if self.part.part.coating is not None else None
            return cut if cut is not None else None if of is None else (of.min_mm, of.max_mm)
        target = self.found.sizes["to_diameter_mm"]
        for later in self.part.operations:
            limits = None if later.answer is None else later.answer.record
            if later.number > self.op.number and later.step.do == "thread" and isinstance(limits, ThreadLimits):
                inner = limits.side == "internal"
                low, high = (
                    (limits.minor_min_mm, limits.minor_max_mm) if inner else (limits.major_min_mm, limits.major_max_mm)
                )
                same = later.step.end == self.step.end and inner == bore
                if same and low is not None and high is not None and low - 1e-6 <= target <= high + 1e-6:
                    return low, high
        half = 0.5 * self.step.base("tolerance")
        return (target - half, target + half) if half else None

    @property
    def dials(self) -> tuple[str, ...]:
        """What the dial shows at each pass."""
        return _dials(self.found.passes)

    @property
    def tool(self) -> str:
        """What it is turned with, where that is not plain high-speed steel."""
        cut = self.found.cut
        return "" if cut is None or cut.tool_name == "HSS" else f"with {cut.tool_name}"

    @property
    def called(self) -> str:
        """The number or letter of a drill."""
        return drill_name(self.found.sizes["diameter_mm"], self.unit) if self.step.do == "drill" else ""

    @property
    def _dial_name(self) -> str:
        return "" if self.found.dial in {"", "cross"} else f"{self.found.dial}: "

    @property
    def from_face(self) -> str:
        """How far from the face the nearer edge is of what is cut, where it is not the face itself."""
        walked = self.op.walked
        if walked["from_mm"] is None:
            return ""
        second = self.step.end == "second"
        at_mm = self.part.part.length.base - walked["to_mm"] if second else walked["from_mm"]
        return f" at {figures.length(at_mm, self.unit)}" if at_mm > 1e-6 else ""

    # ---- threads ------------------------------------------------------------------------------------------

    def _thread(self) -> Iterator[Move]:
        chasing = self._chasing
        stop = chasing.stop
        passes = [each for each in chasing.passes if each.number <= stop.number]
        dials = [figures.dial(each.turns, each.dial * self._line_mm, chasing.unit) for each in passes]
        dials += dials[-1:] * chasing.repeats
        rows = [Row("cut", said("row", self), start="touch = 0, to", dial=tuple(dials)), *self._gauged()]
        levers: Setting = ()
        for group in self.found.levers:
            if group.group == "gearbox":
                levers = group.positions
            elif group.group == "gears":
                rows.insert(0, Row("cut", said("gears", group.positions)))
        yield self._move(rows, feed=Feed(levers, (self._lead(), *self._half_nut())))

    @property
    def _chasing(self) -> Chasing:
        chasing = self.found.chasing
        assert chasing is not None
        return chasing

    @property
    def _line_mm(self) -> float:
        """What a line of the threading dial is marked as."""
        chasing = self._chasing
        slide = self.machine.core.slide(chasing.slide)
        return chasing.line_mm if slide is None else slide.graduation_mm

    def _gauged(self) -> list[Row]:
        """Measuring a thread: what it reads against how much is to go, and when it is good."""
        chasing, wires = self._chasing, self.found.wires
        later = [each for each in chasing.passes if each.number >= chasing.stop.number]
        to_go = tuple(_to_go(each.left_lines * self._line_mm, chasing.unit) for each in later)
        if chasing.taper is not None:
            turns = tuple(f"{chasing.gauge_turns(each.left_mm):.1f}" for each in later)
            return self._readings("", Go("turns to come", turns, to_go), None)
        if wires is None or any(each.over_wires_mm is None for each in later):
            return [Row("measure", said("mate", self, to_go[0]))]
        inner = chasing.side == "internal"
        size, high_low = figures.size(wires.wire_mm, self.unit), (wires.over_min_mm, wires.over_max_mm)
        # a reading as a micrometer shows it, and what is left from that very reading
        step_mm = 0.001 * MM_PER_INCH if self.unit == "in" else 0.01
        shown = [round((each.over_wires_mm or 0.0) / step_mm) * step_mm for each in later]
        stop, sign = later[0], -1.0 if inner else 1.0
        aim_mm = (stop.over_wires_mm or 0.0) - sign * stop.left_mm
        lines = [sign * (each - aim_mm) / chasing.line_on_pitch_diameter_mm for each in shown]
        readings = tuple(figures.size(each, self.unit) for each in shown)
        to_go = tuple(_to_go(each * self._line_mm, chasing.unit) for each in lines)
        go = Go("across balls" if inner else "over wires", readings, to_go)
        how = f"across {size} balls" if inner else f"over {size} wires"
        return self._readings(how, go, figures.limits(high_low, self.unit)[::-1])

    def _readings(self, how: str, go: Go, good: tuple[str, str] | None) -> list[Row]:
        return [
            Row("measure", said("gauge", how)),
            Row("cut", Markup(), go=go),
            Row("measure", said("gauge_again", self, good)),
        ]

    def _lead(self) -> str:
        lead_mm = self.found.sizes["lead_mm"]
        per_inch = MM_PER_INCH / lead_mm
        return f"{per_inch:g} tpi" if abs(per_inch * 4 - round(per_inch * 4)) < 1e-9 else f"{lead_mm:g} mm"

    def _half_nut(self) -> tuple[str, ...]:
        every, marks = self._chasing.dial_every, self._chasing.dial_marks
        if not every:
            return ("half nut:", "keep closed")
        fits = "any mark" if every == 1 else "one mark" if every == marks else f"mark {every}, {2 * every} …"
        return ("half nut:", fits)

    # ---- milling ------------------------------------------------------------------------------------------

    def _mill(self) -> Iterator[Move]:
        groups = _groups(self.found.passes, self.found.levers, by_measure=False)
        for place, (levers, passes) in enumerate(groups):
            what = Markup("go on") if place else said("row", self)
            start = "" if place else f"{self._dial_name}touch = 0, to"
            yield self._move([Row("cut", what, start=start, dial=_dials(passes))], levers)

    @property
    def across(self) -> int:
        """Passes side by side."""
        return 1 if self.found.chosen is None else self.found.chosen.across

    @property
    def over(self) -> str:
        """How far the dial goes on from one to the next."""
        at = reading(self.machine.core.slide("y"), self.found.sizes["cut_width_mm"] / self.across)
        return "" if at is None else _shown(at)


def _shown(at: DialReading | KnurlReading) -> str:
    return figures.dial(at.turns, at.line * at.graduation_mm, at.unit)


def _dials(passes: Sequence[Pass]) -> tuple[str, ...]:
    return tuple(_shown(each.reading) for each in passes if each.reading is not None)


def _groups(
    passes: Sequence[Pass], levers: tuple[Levers, ...], *, by_measure: bool = True
) -> list[tuple[tuple[Levers, ...], list[Pass]]]:
    """Passes in a row with the levers in one place and nothing measured between."""
    out: list[tuple[tuple[Levers, ...], list[Pass]]] = []
    standing = levers
    for each in passes:
        moved = bool(each.levers) and each.levers != standing
        standing = each.levers or standing
        if not out or moved or (by_measure and each.measure):
            out.append((standing, []))
        out[-1][1].append(each)
    return out


def _to_go(value_mm: float, unit: str) -> str:
    """What is left, rounded down to half a line: a thread is never cut too far by rounding."""
    step = MM_PER_INCH / 2000.0 if unit == "in" else 0.01
    return figures.in_dial_units(max(0.0, (value_mm / step + 1e-6) // 1 * step), unit)
