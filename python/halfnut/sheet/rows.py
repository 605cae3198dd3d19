"""Operations as rows of a card: what to cut, to which size, what the dial shows, and what to measure."""

from __future__ import annotations

import string
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING

from markupsafe import Markup

from halfnut import _core
from halfnut.core.catalogue import active
from halfnut.core.sizes import MM_PER_INCH
from halfnut.core.words import words as words_of
from halfnut.cutting.chasing import Chasing
from halfnut.cutting.figures import Cut, Groove, Taper
from halfnut.fits.questions import cylindrical_fit
from halfnut.knurls.figures import KnurlBlank
from halfnut.machine.dials import reading
from halfnut.planning.answers import Answer, Levers, Pass
from halfnut.planning.cut_answers import feed_ladder
from halfnut.planning.job import KINDS
from halfnut.sheet import figures
from halfnut.sheet.card import Feed, Go, Move, Row, Spindle, filled
from halfnut.sheet.telling import worded
from halfnut.threads.questions import drill_set
from halfnut.threads.standard import ThreadLimits

if TYPE_CHECKING:
    from halfnut.machine.machines import Machine
    from halfnut.planning.job import Coating, Pattern
    from halfnut.planning.plans import PlannedOperation, PlannedPart

__all__ = ["drill_name", "measured", "moves"]

_BY_HAND = Feed(gives=("by hand",))
BOX = Markup('<input class="box" inputmode="decimal" aria-label="reading">')
_LEFT = Markup('<input class="box" inputmode="decimal" aria-label="what is left">')


def moves(part: PlannedPart, op: PlannedOperation, told: Sequence[Row]) -> list[Move]:
    """The rows of an operation by the settings that they need; what is `told` stands above the first."""
    found = op.answer
    if found is None:
        row = Row("failed", filled("Not planned: {}", op.error), op.number)
        return [Move(Spindle("–"), Feed(), (*told, row))]
    rows = _Rows(part, op, found)
    made = list(rows.moves())
    first, *rest = made
    numbered = list(first.rows)
    numbered[0] = replace(numbered[0], number=op.number, what=words(numbered[0].what, op.step.note))
    made = [Move(first.spindle, first.feed, (*told, *numbered)), *rest]
    return [*made[:-1], replace(made[-1], rows=(*made[-1].rows, *rows.laid_out()))]


@dataclass(frozen=True)
class Measured:
    """A size to inspect: what, with which instrument, its limits as it is cut and once coated; "" where it has none."""

    what: str
    tool: str
    least: str = ""
    greatest: str = ""
    coated: str = ""


def measured(part: PlannedPart, op: PlannedOperation, coating: Coating | None) -> Iterator[Measured]:
    """What is inspected of an operation, with the limits that its card has, and under the part's coating."""
    found = op.answer
    coating = None if op.step.masked else coating
    if found is None:
        return
    rows = _Rows(part, op, found)
    if op.step.do in {"turn", "bore", "ream"}:
        pair = rows.limit_sizes()
        if pair is not None:
            what = {"turn": "Ø", "bore": "bore", "ream": "reamed"}[op.step.do]
            yield rows.inspected(what, rows.final_mm, pair, coating, inside=op.step.do != "turn")
    if op.step.do == "face" and (pair := rows.length_limits()) is not None:
        yield rows.inspected("length", op.walked["length_mm"], pair, coating, inside=False)
    if op.step.do == "tap":
        yield Measured(f"tapped {found.sizes['thread']}", words_of("instrument", "plug_go"))
    if op.step.do == "thread":
        coated = words_of("instrument", "gauge_go") if coating is not None else ""
        size = str(found.sizes["thread"])
        if found.wires is None:
            yield Measured(size, words_of("instrument", "gauge_go"))
            return
        wires, inner = found.wires, found.sizes["side"] == "internal"
        high, low = figures.limits(wires.over_min_mm, wires.over_max_mm, part.unit)
        what = f"{size} {'across balls' if inner else 'over wires'} {figures.size(wires.wire_mm, part.unit)}"
        tool = words_of("instrument", "micrometer_balls" if inner else "micrometer_wires")
        yield Measured(what, tool, low, high, coated)
    if isinstance(found.record, KnurlBlank) and found.record.finished_max_mm and found.record.finished_min_mm:
        pair = (found.record.finished_min_mm, found.record.finished_max_mm)
        yield rows.inspected("over the knurl", found.record.finished_diameter_mm, pair, coating, inside=False)


def sized(text: str) -> Markup:
    """A figure to hit, as large as a lever."""
    return filled('<span class="size">{}</span>', text)


def comma(text: Markup) -> Markup:
    """What a comma ends."""
    return filled("{},", text)


def whole(text: str) -> Markup:
    """Words that no line's end parts."""
    return filled('<span class="n">{}</span>', text)


def words(*parts: object) -> Markup:
    """Parts with a space between, those that say nothing left out."""
    return Markup(" ").join(filled("{}", each) for each in parts if each)


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
    """The rows of one answered operation."""

    def __init__(self, part: PlannedPart, op: PlannedOperation, found: Answer):
        self.part, self.op, self.found = part, op, found
        self.step = op.step
        self.unit = part.unit
        self.machine: Machine = op.machine

    def moves(self) -> Iterator[Move]:
        """Rows by the levers that they need."""
        by_do = {
            "turn": self._sized,
            "bore": self._sized,
            "taper": self._taper,
            "groove": self._groove,
            "face": self._face,
            "part off": self._part_off,
            "knurl": self._knurl,
            "thread": self._thread,
            "tap": self._tap,
            "mill": self._mill,
        } | dict.fromkeys(("spot", "drill", "countersink", "counterbore", "ream"), self._hole)
        return by_do.get(self.step.do, self._as_declared)()

    # ---- settings -----------------------------------------------------------------------------------------

    def laid_out(self) -> Iterator[Row]:
        """Where the holes of a pattern are, in the order of going there, and how work is divided."""
        placed, divided = self.found.placed, self.found.divided
        if divided is not None:
            yield Row("cut", words("Divide:", whole(divided.move_said)))
        if placed is None or self._same_places()[0] is not self.op:
            return
        zero = (self.step.laid_out and self.step.laid_out.zero) or "the zero of the dials"
        past = "; * back past it" if any(place.back_x or place.back_y for place in placed.places) else ""
        lines = tuple(
            (
                filled("{}", place.hole),
                *self._coordinate("X", place.x_mm, place.x_turns, place.x_line, place.back_x),
                *self._coordinate("Y", place.y_mm, place.y_turns, place.y_line, place.back_y),
            )
            for place in placed.places
        )
        yield Row("cut", words(f"{self._letter}:", f"from {zero}, in this order{past}"), places=lines)

    def _same_places(self) -> list[PlannedOperation]:
        """The operations of this machine whose holes lie where this one's do."""
        ops = (op for op in self.part.operations if op.machine is self.machine)
        return [op for op in ops if op.step.laid_out == self.step.laid_out]

    @property
    def _letter(self) -> str:
        """What the places of its holes go by."""
        layouts: list[Pattern] = []
        for op in self.part.operations:
            found = op.step.laid_out
            if found is not None and op.machine is self.machine and found not in layouts:
                layouts.append(found)
        place = next(place for place, each in enumerate(layouts) if each == self.step.laid_out)
        return string.ascii_uppercase[place] if place < 26 else f"A{place}"

    def _coordinate(
        self, axis: str, value_mm: float, turns: int | None, line: int | None, back: bool
    ) -> tuple[Markup, Markup]:
        """A coordinate, and what a readout or a dial shows there."""
        where, star = figures.size(value_mm, self.unit), "*" if back else ""
        slide = self.machine.core.slide(axis.lower())
        if turns is None or line is None or slide is None:
            return words(f"{axis}{star}"), sized(where)
        unit = "in" if slide.marked_in_inch else "mm"
        dial = figures.dial(turns, line * slide.graduation_mm, unit)
        return words(f"{axis}{star}", f"{where} ="), sized(dial)

    def _move(self, rows: list[Row], levers: Sequence[Levers] | None = None, feed: Feed | None = None) -> Move:
        cut = self.found.cut
        assert cut is not None
        standing = self.found.levers if levers is None else levers
        spindle = Spindle(f"{cut.spindle_rpm:.0f}")
        for group in standing:
            if group.group == "spindle":
                spindle = self._spindle(group, cut)
        if cut.by_hand:
            return Move(Spindle("by hand"), Feed(), tuple(rows))
        return Move(spindle, feed or self._feed(standing, cut), tuple(rows))

    def _spindle(self, group: Levers, cut: Cut) -> Spindle:
        """The bar of a group of levers, which may be those of a later pass."""
        core = self.machine.core.spindle
        positions = tuple(pair for pair in group.positions if pair[0] != "speed, rev/min")
        typed = [setting for control, setting in group.positions if control == "speed, rev/min"]
        if typed:
            return Spindle(typed[0], positions)
        steps = [step for step in core if tuple((each.control, each.setting) for each in step.positions) == positions]
        return Spindle(f"{steps[0].rpm if steps else cut.spindle_rpm:.0f}", positions)

    def _feed(self, levers: Sequence[Levers], cut: Cut) -> Feed:
        for group in levers:
            if group.group == "feed":
                return Feed(group.positions, self._feed_marked(group, cut))
        return _BY_HAND

    def _feed_marked(self, group: Levers, cut: Cut) -> tuple[str, ...]:
        """What the machine's chart gives for the levers of a pass."""
        ladder = feed_ladder(cut, self.machine)
        unit = "in" if ladder.marked_in_inch else "mm"
        scale = MM_PER_INCH if unit == "in" else 1.0
        for step in ladder.steps:
            if tuple((each.control, each.setting) for each in step.positions) == group.positions:
                marked = step.feed_mm / scale
                if ladder.kind == "per minute":
                    return (f"{marked:g} {unit}/min",)
                return (f"{_bare(f'{marked:.4f}' if unit == 'in' else f'{marked:g}')} {unit}",)
        return ()

    # ---- turning and boring to a size ---------------------------------------------------------------------

    def _sized(self) -> Iterator[Move]:
        """Roughing by the dial; what is measured is cut by what was read, for a dial shows where it stands only."""
        groups = _groups(self.found.passes, self.found.levers)
        verb = "Turn" if self.step.do == "turn" else "Bore"
        long = f"× {figures.length(self.found.sizes['length_mm'], self.unit)}"
        tool = self._tool()
        for place, (levers, passes) in enumerate(groups):
            last, rows = place == len(groups) - 1, []
            first, target = passes[0], sized(f"Ø {figures.size(passes[-1].size_mm, self.unit)}")
            if first.measure:
                if not (place and groups[place - 1][1][0].measure and groups[place - 1][0] == levers):
                    left = "what is left" if self._on_diameter else "half of what is left"
                    rows.append(Row("measure", words(f"Measure, set 0, go in by {left}:")))
                rows.append(Row("measure", words(self._measure(passes[-1].size_mm), self._limits() if last else "")))
            else:
                name = words(verb if last else "Rough", tool if not place else "", target)
                start = "touch = 0, to" if not place else ""
                what = words(name, self._limits() if last else "", long)
                rows.append(Row("cut", what, start=start, dial=self._dials(passes)))
            yield self._move(rows, levers)

    def _measure(self, target_mm: float) -> Markup:
        """A box for the reading, the sum, a box for what the dial gets."""
        aim = figures.size(target_mm, self.unit)
        size = sized(f"Ø {aim}")
        if self.step.do == "bore":
            return filled('<span class="n" data-from="{}">{} less {} = {}</span>', aim, size, BOX, _LEFT)
        return filled('<span class="n" data-less="{}">{} less {} = {}</span>', aim, BOX, size, _LEFT)

    @property
    def _on_diameter(self) -> bool:
        slide = self.machine.core.slide(self.found.dial or "cross")
        return slide is None or slide.reads_diameter

    def _limits(self) -> Markup | str:
        """Limits of a turned or bored diameter, above each other."""
        pair = self.limit_sizes()
        return "" if pair is None else filled("<small>{} / {}</small>", *figures.limits(*pair, self.unit))

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
        high, low = figures.limits(*pair, self.unit)
        coated = ""
        if coating is not None:
            most, least = figures.limits(*_core.once_coated(*pair, inside, coating.surface), self.unit)
            coated = f"{least} to {most}"
        return Measured(f"{what} {figures.size(size_mm, self.unit)}", tool, low, high, coated)

    def length_limits(self) -> tuple[float, float] | None:
        """Least and greatest of the length that facing comes to, mm, where it has limits."""
        half, length = 0.5 * self.step.base("tolerance"), float(self.op.walked["length_mm"])
        return (length - half, length + half) if half else None

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

    def _dials(self, passes: Sequence[Pass]) -> tuple[str, ...]:
        return tuple(
            figures.dial(each.reading.turns, each.reading.line * each.reading.graduation_mm, each.reading.unit)
            for each in passes
            if each.reading is not None
        )

    def _tool(self) -> str:
        cut = self.found.cut
        return "" if cut is None or cut.tool_name == "HSS" else f"with {cut.tool_name}"

    # ---- the other work of a lathe ------------------------------------------------------------------------

    def _face(self) -> Iterator[Move]:
        off = figures.length(self.found.sizes["off_mm"], self.unit)
        dials = self._dials(self.found.passes)
        if self.step.end == "second":
            pair = self.length_limits()
            long_mm = self.part.part.length.base
            target = sized((figures.length if pair is None else figures.size)(long_mm, self.unit))
            limits = "" if pair is None else filled("<small>{} / {}</small>", *figures.limits(*pair, self.unit))
            rows = [Row("cut", words("Face to", target, limits, "long,", whole(f"about {off}"), "off", BOX))]
        elif len(self.found.passes) < 2:
            rows = [Row("cut", words("Face clean, at most", whole(off), "off"))]
        else:
            rows = [Row("cut", words("Face", whole(off), "off"), start=f"{self._dial_name}touch = 0, to", dial=dials)]
        measured_cuts = sum(each.measure for each in self.found.passes)
        if rows[0].dial == () and (len(dials) > 1 or (dials and measured_cuts)):
            rows[0] = Row("cut", rows[0].what, start=f"{self._dial_name}touch = 0, to", dial=dials)
        if measured_cuts:
            share = "what is left" if measured_cuts == 1 else "half of what is left, measure, take the rest"
            rows.append(Row("measure", words("Measure the length, take", share, BOX)))
        yield self._move(rows)

    @property
    def _dial_name(self) -> str:
        return "" if self.found.dial in {"", "cross"} else f"{self.found.dial}: "

    def _taper(self) -> Iterator[Move]:
        sizes, record = self.found.sizes, self.found.record
        assert isinstance(record, Taper)
        large, small = (figures.size(sizes[key], self.unit) for key in ("start_diameter_mm", "to_diameter_mm"))
        long = figures.length(sizes["length_mm"], self.unit)
        angle = f"{record.angle_deg:.2f}".rstrip("0").rstrip(".")
        what = words(
            "Taper",
            self._tool(),
            sized(f"Ø {large} to {small}"),
            f"× {long}, compound",
            whole(f"{angle}° from the axis"),
        )
        yield self._move([Row("cut", what, start="touch = 0, to", dial=self._dials(self.found.passes))], feed=_BY_HAND)

    def _groove(self) -> Iterator[Move]:
        blade = figures.length(self.step.base("blade"), self.unit)
        to = sized(f"Ø {figures.size(self.found.sizes['to_diameter_mm'], self.unit)}")
        record, apart = self.found.record, ""
        assert isinstance(record, Groove)
        if record.plunges > 1:
            apart = f", {record.plunges} plunges {figures.length(record.step_mm, self.unit)} apart"
        long = figures.length(self.found.sizes["length_mm"], self.unit)
        what = words("Groove to", to, whole(f"× {long}{self._from_face()},"))
        what += filled(" {} blade{}", blade, apart)
        yield self._move([Row("cut", what, start="touch = 0, to", dial=self._dials(self.found.passes))])

    def _from_face(self) -> str:
        """How far from the face the nearer edge is of what is cut, where it is not the face itself."""
        walked = self.op.walked
        if walked["from_mm"] is None:
            return ""
        second = self.step.end == "second"
        at_mm = self.part.part.length.base - walked["to_mm"] if second else walked["from_mm"]
        return f" at {figures.length(at_mm, self.unit)}" if at_mm > 1e-6 else ""

    def _part_off(self) -> Iterator[Move]:
        blade = figures.length(self.step.base("blade"), self.unit)
        target = sized(figures.length(self.op.walked["length_mm"], self.unit))
        yield self._move([Row("cut", words("Part off to", target, whole("long,"), whole(f"{blade} blade, oil")))])

    def _knurl(self) -> Iterator[Move]:
        blank, setup = self.found.record, self.found.knurling
        assert isinstance(blank, KnurlBlank)
        wide = figures.length(self.found.sizes["width_mm"], self.unit)
        grown = whole(f"Ø {figures.size(blank.finished_diameter_mm, self.unit)}")
        where = self._from_face()
        what = words(f"Knurl {blank.pitch} {blank.pattern}, {wide} wide{where}, oil: lines single? Comes to", grown)
        dials: tuple[str, ...] = ()
        if setup is not None and setup.dial is not None:
            full = setup.dial
            dials = (figures.dial(full.turns, full.line * full.graduation_mm, full.unit),)
        yield self._move([Row("cut", what, start="touch = 0, to" if dials else "", dial=dials)])

    # ---- threads ------------------------------------------------------------------------------------------

    def _thread(self) -> Iterator[Move]:
        chasing = self._chasing
        long = f"× {figures.length(self.found.sizes['length_mm'], self.unit)}"
        head = words("Thread", sized(chasing.thread), long)
        if chasing.compound_deg:
            head += filled(", {}", whole(f"compound {_half(chasing.compound_marked_deg)}°"))
        stop = chasing.stop

        def shown(turns: int, lines: int) -> str:
            return figures.dial(turns, lines * self._line_mm, chasing.unit)

        dials = [shown(each.turns, each.dial) for each in chasing.passes if each.number <= stop.number]
        if chasing.hand == "left":
            head += Markup(". Left hand: leadscrew reversed, start in the groove, feed to the tailstock")
        rows = [Row("cut", head, start="touch = 0, to", dial=(*dials, *dials[-1:] * chasing.repeats))]
        rows += self._gauged()
        feed = Feed()
        for group in self.found.levers:
            if group.group == "gearbox":
                feed = Feed(group.positions, feed.gives)
            elif group.group == "gears":
                rows.insert(
                    0, Row("cut", words("Change gears:", *(f"{place} {gears}" for place, gears in group.positions)))
                )
        yield self._move(rows, feed=Feed(feed.levers, (self._lead(), *self._half_nut())))

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
        inner = chasing.side == "internal"
        again = "same dial again," if chasing.repeats else ""
        if chasing.taper is not None:
            turns = tuple(f"{chasing.gauge_turns(each.left_mm):.1f}" for each in later)
            return [
                Row("measure", words("Try the gauge,", BOX, "turns to come; go half of:")),
                Row("cut", Markup(), go=Go("turns to come", turns, to_go)),
                Row("measure", words(f"{again} try".strip().capitalize(), BOX, "go the rest.")),
            ]
        if wires is None or any(each.over_wires_mm is None for each in later):
            return [
                Row(
                    "measure",
                    words("Try the mate; go half of", whole(f"{to_go[0]},"), f"{again} go the rest.".strip()),
                )
            ]
        size = figures.size(wires.wire_mm, self.unit)
        how = f"across {size} balls" if inner else f"over {size} wires"
        low, high = figures.limits(wires.over_min_mm, wires.over_max_mm, self.unit)[::-1]
        read = "across balls" if inner else "over wires"
        # a reading as a micrometer shows it, and what is left from that very reading
        step_mm = 0.001 * MM_PER_INCH if self.unit == "in" else 0.01
        shown = [round((each.over_wires_mm or 0.0) / step_mm) * step_mm for each in later]
        stop, sign = later[0], -1.0 if inner else 1.0
        aim_mm = (stop.over_wires_mm or 0.0) - sign * stop.left_mm
        lines = [sign * (each - aim_mm) / chasing.line_on_pitch_diameter_mm for each in shown]
        readings = tuple(figures.size(each, self.unit) for each in shown)
        to_go = tuple(_to_go(each * self._line_mm, chasing.unit) for each in lines)
        good = filled('<span class="n">Good {}.</span>', sized(f"{low} to {high}"))
        return [
            Row("measure", words("Measure", how, BOX, "go half of:")),
            Row("cut", Markup(), go=Go(read, readings, to_go)),
            Row("measure", words(f"{again} measure".strip().capitalize(), BOX, "go the rest.", good, "Try the mate.")),
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

    def _tap(self) -> Iterator[Move]:
        deep = figures.length(self.found.sizes["length_mm"], self.unit)
        turns = self.found.sizes["turns"]
        what = words(
            "Tap",
            comma(sized(str(self.found.sizes["thread"]))),
            whole(f"{deep} deep,"),
            whole(f"{turns:.0f} turns, oil"),
        )
        yield self._move([Row("cut", self._times(what))])

    # ---- holes and milling --------------------------------------------------------------------------------

    def _hole(self) -> Iterator[Move]:
        value = self.found.sizes["diameter_mm"]
        short = figures.length(value, self.unit)
        size = f"Ø {short if '/' in short else figures.size(value, self.unit)}"
        named = drill_name(value, self.unit) if self.step.do == "drill" else ""
        deep = figures.length(self.found.sizes["depth_mm"], self.unit)
        said = (comma(sized(named)), f"{size},") if named else (comma(sized(size)),)
        what = words(self.step.do.capitalize(), *said, whole(f"{deep} deep"))
        *pecks, last = self._dials(self.found.passes)
        if pecks:
            what += filled(", clear at {}", Markup(", ").join(whole(each) for each in pecks))
        if self.step.do == "ream":
            what += Markup(", oil")
        start = "point = 0," if self.step.do in {"spot", "drill", "countersink"} else "touch = 0,"
        yield self._move([Row("cut", self._times(what), start=start, dial=(last,))])

    def _times(self, what: Markup) -> Markup:
        if self.step.times == 1:
            return what
        at = f"{self.step.times} at {self._letter}" if self.found.placed is not None else f"{self.step.times} times"
        return words(comma(what), whole(at))

    def _mill(self) -> Iterator[Move]:
        sizes = self.found.sizes
        across, along, down, cutter = (
            figures.length(sizes[key], self.unit) for key in ("cut_width_mm", "length_mm", "cut_depth_mm", "cutter_mm")
        )
        what = words(
            f"Mill {self.step.text('shape')}",
            comma(sized(f"{along} × {across}")),
            comma(sized(f"{down} deep")),
            whole(f"cutter {cutter}"),
        )
        what += self._across()
        groups = _groups(self.found.passes, self.found.levers, by_measure=False)
        for place, (levers, passes) in enumerate(groups):
            row = Row(
                "cut",
                self._times(what) if not place else Markup("go on"),
                start=f"{self._dial_name}touch = 0, to" if not place else "",
                dial=self._dials(passes),
            )
            yield self._move([row], levers)

    def _across(self) -> Markup:
        """Passes side by side, and the way down into the metal."""
        count = 1 if self.found.chosen is None else self.found.chosen.across
        slide, out = self.machine.core.slide("y"), Markup()
        if count > 1:
            over_mm = self.found.sizes["cut_width_mm"] / count
            out += filled(", {} across", count)
            if slide is not None:
                by = reading(slide, travel_mm=over_mm)
                out += filled(", {}", whole(f"y on by {figures.dial(by.turns, by.line * by.graduation_mm, by.unit)}"))
        if self.step.text("entry") == "ramp":
            out += Markup(", ramp in")
        return out

    def _as_declared(self) -> Iterator[Move]:
        """What has no rows of its own: its name and what it comes to."""
        kind = KINDS[self.step.do]
        title = worded(self.step, kind["title"], self.unit).capitalize()
        size, *more = worded(self.step, kind["size"], self.unit, bare=True).split(", ")
        *others, last = sized(size), *map(whole, more)
        what = words(title, *map(comma, others), last)
        row = Row("cut", self._times(what))
        yield Move(Spindle("by hand"), _BY_HAND, (row,)) if self.found.cut is None else self._move([row])


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


def _half(value: float | None) -> str:
    """An angle to half a degree, as a scale is read."""
    whole_deg, half = divmod(round((value or 0.0) * 2), 2)
    return f"{whole_deg}{'½' if half else ''}"


def _to_go(value_mm: float, unit: str) -> str:
    """What is left, rounded down to half a line: a thread is never cut too far by rounding."""
    step = MM_PER_INCH / 2000.0 if unit == "in" else 0.01
    return figures.in_dial_units(max(0.0, (value_mm / step + 1e-6) // 1 * step), unit)


def _bare(text: str) -> str:
    return text.removeprefix("0")
