"""The fastest passes for a job on one machine's own levers and dials, within every limit."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import groupby
from typing import TYPE_CHECKING, Any, ClassVar

from halfnut import _core
from halfnut._core import DomainError, Evidence, Length, spell, spell_number
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.units import as_asked, asked, in_unit, unit_of
from halfnut.core.units import length as read_length
from halfnut.core.words import caution, words, wrapped
from halfnut.cutting.asking import bar_note, cut_record, formed, held_numbers, holder_place
from halfnut.cutting.cuts import Cut, Limit
from halfnut.cutting.tools import Tool, find_tool
from halfnut.machine.dials import Reading, reading
from halfnut.machine.machines import machine as find_machine
from halfnut.material.alloys import Alloy
from halfnut.material.questions import alloy as find_alloy

if TYPE_CHECKING:
    from halfnut.core.given import LengthLike, StockLike
    from halfnut.machine.machines import MachineName

__all__ = ["JOBS", "Gain", "PassPlanned", "Passes", "choose"]


JOBS = ("turn", "face", "bore", "mill slot", "mill side", "mill pocket", "mill face")


@dataclass(frozen=True)
class PassPlanned:
    """One pass: its cut, what it leaves, and where the dial stands.

    Attributes
    ----------
    cut : Cut
        The pass as a cut of its own, at these levers and this depth.
    depth_mm : float
        On the radius, along the axis, or down.
    before_mm, after_mm : float
        Diameters in turning and boring, else what is off already.
    reading : Reading or None
        Of the dial that sets the depth, zero where the tool touches; None where the measurement before sets it.
    measure : str
        What to measure before this pass and what to take then; empty where nothing is measured.
    slower_holds, faster_holds : bool
        Whether the next slower or faster speed of the machine keeps every limit of this pass too.
    limits : tuple of Limit
        Every limit of the pass; chip thickness and tool life have a least value.
    """

    number: int
    cut: Cut
    depth_mm: float
    before_mm: float
    after_mm: float
    reading: Reading | None
    finish: bool
    measure_before: bool
    measure: str
    slower_holds: bool
    faster_holds: bool
    cut_s: float
    return_s: float
    dial_s: float
    change_s: float
    measure_s: float
    levers_moved: int
    limits: tuple[Limit, ...]


@dataclass(frozen=True)
class Gain:
    """One more thing, in words, and the seconds that it would save; infinite where only it makes an answer."""

    code: str
    saved_s: float

    @property
    def words(self) -> str:
        """The thing in words."""
        return words("gain", self.code)


@dataclass(frozen=True)
class Passes(Record):
    """The fastest passes, or what stands in their way.

    Attributes
    ----------
    closing : str
        How the size is closed on: "one_unmeasured", "one_measured", "halves", or "free".
    instrument : str
        What the size is measured with; "none" where that is not said.
    reach_mm : float or None
        Half a line of the dial and the instrument's error together, either way on the size.
    lines_apart : int
        Rough readings are whole multiples of so many lines.
    passes : tuple of PassPlanned
        Empty where nothing keeps every limit.
    time_s : float or None
        Cutting, return strokes, dial, levers and measuring.
    limited_by : str
        The limit without which the answer would be quickest, "none" where no single one holds it back.
    prices : dict
        Seconds that each limit costs, the dearest first.
    slack : dict
        Least share that is left of each limit over the passes.
    gains : tuple of Gain
        What one more thing would buy, most first.
    next_s : float or None
        Time of the best answer that leaves the first pass's levers alone.
    relaxations : dict
        Without passes: how many times as wide each limit would have to be, all others kept.
    together : bool
        Whether no single one would do, but all of `relaxations` together.
    """

    AT_MACHINE: ClassVar[bool] = True
    SHORT: ClassVar[tuple[str, ...]] = ("limit", "why")
    do: str
    alloy: Alloy
    tool_material: str
    machine_name: str
    unit: str
    diameter_mm: float
    to_mm: float | None
    off_mm: float | None
    depth_mm: float
    closing: str
    instrument: str
    reach_mm: float | None
    lines_apart: int
    passes: tuple[PassPlanned, ...]
    time_s: float | None
    levers_moved: int
    final_measure_s: float
    line_mm: float
    remainder_mm: float
    readout: bool
    hand_fed: bool
    across: int
    dial: str
    limited_by: str
    prices: dict[str, float]
    slack: dict[str, float]
    gains: tuple[Gain, ...]
    next_s: float | None
    next_words: str
    relaxations: dict[str, float]
    together: bool
    assumed: tuple[str, ...]
    notes: tuple[Caution, ...] = field(repr=False)
    cautions: tuple[Caution, ...] = field(repr=False)
    evidence: tuple[Evidence, ...] = field(repr=False)

    @property
    def found(self) -> bool:
        """Whether there is an answer."""
        return bool(self.passes)

    @property
    def tightest(self) -> str:
        """The limit that least is left of in any pass, "none" without passes."""
        return min(self.slack, key=lambda name: self.slack[name], default="none")

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
    def edge_share(self) -> float | None:
        """Share of the edge's computed life that the passes take; None where no life is tabulated."""
        return _edge_share(self.passes)

    def to_dict(self) -> dict[str, Any]:
        """The answer as a flat dictionary with unit-suffixed keys; lists have one value a pass."""
        each = self.passes
        return {
            "do": self.do,
            "alloy": self.alloy.id,
            "machine": self.machine_name,
            "tool_material": self.tool_material,
            "found": self.found,
            "diameter_mm": self.diameter_mm,
            "to_mm": self.to_mm,
            "off_mm": self.off_mm,
            "depth_mm": self.depth_mm,
            "closing": self.closing,
            "instrument": self.instrument,
            "reach_mm": self.reach_mm,
            "lines_apart": self.lines_apart,
            "passes": len(each),
            "across": self.across,
            "time_s": self.time_s,
            **{f"{name}_s": seconds for name, seconds in self.shares_s.items()},
            "edge_share": self.edge_share,
            "levers_moved": self.levers_moved,
            "depths_mm": [one.depth_mm for one in each],
            "sizes_mm": [one.after_mm for one in each],
            "spindle_rpm": [one.cut.spindle_rpm for one in each],
            "feed_mm_rev": [one.cut.feed_mm_rev for one in each],
            "spindle_steps": [one.cut.spindle_step for one in each],
            "feed_steps": [one.cut.feed_step for one in each],
            "slower_holds": [one.slower_holds for one in each],
            "faster_holds": [one.faster_holds for one in each],
            "remainder_mm": self.remainder_mm,
            "limited_by": self.limited_by,
            "prices_s": dict(self.prices),
            "slack": dict(self.slack),
            "gains_s": {gain.code: gain.saved_s for gain in self.gains},
            "next_s": self.next_s,
            "relaxations": dict(self.relaxations),
            "together": self.together,
            "assumed": list(self.assumed),
            "notes": [item.code for item in self.notes],
            "cautions": [item.code for item in self.cautions],
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
        """The next best answer in one line, or an empty text."""
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
        costs = {name: f", costs {self._time(price)}" for name, price in self.prices.items()}
        out.append(("limit", words("limit", self.limited_by) + costs.get(self.limited_by, "")))
        out += [
            ("left", f"{words('limit', name)} {slack:.0%}{'' if name == self.limited_by else costs.get(name, '')}")
            for name, slack in sorted(self.slack.items(), key=lambda item: item[1])
        ]
        out.append(("speed", self._neighbours()))
        last = self.passes[-1].cut.roughness_ra_um
        if last is not None:
            out.append(("finish", f"Ra {spell(last, 'roughness', self.unit)}, {words('said', 'geometry_alone')}"))
        if self.next_s is not None:
            out.append(("next", f"with other levers: {self.next_answer()}"))
        return out + [("gain", f"{gain.words}: {self._time(gain.saved_s)} less") for gain in self.gains]

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
        out += [("", f"{words('limit', name)}: {relaxed_text(name, by)}") for name, by in self.relaxations.items()]
        return out + [("gain", f"{gain.words}: would make an answer") for gain in self.gains]


def relaxed_text(name: str, factor: float) -> str:
    """How far a limit would have to give.

    >>> relaxed_text("power", 1.5)
    '1.5 times the power'
    """
    return words("relaxed", name, factor=f"{factor:.3g}" if factor < 1000 else f"{factor:,.0f}")


def _more(seconds: float) -> str:
    return f"{spell(seconds, 'time', 'mm')} more" if seconds >= 0.05 else "no slower"


def _mm(value: Any, name: str) -> float | None:
    return None if value is None else read_length(value, name).mm


@checked
def choose(
    do: str,
    alloy: str | Alloy,
    diameter: LengthLike | None,
    to: LengthLike | None = None,
    *,
    machine: MachineName,
    off: LengthLike | None = None,
    length: LengthLike | None = None,
    end_diameter: LengthLike | None = None,
    width: LengthLike | None = None,
    flutes: int | None = None,
    tool: str | None = None,
    tolerance: LengthLike | None = None,
    tolerance_share: float | None = None,
    roughness_um: float | None = None,
    life_min: float | None = None,
    force_n: float | None = None,
    jaw_force_n: float | None = None,
    grip_diameter: LengthLike | None = None,
    friction: float | None = None,
    grip_safety: float | None = None,
    jaw_mass_kg: float | None = None,
    jaw_radius: LengthLike | None = None,
    deflection: LengthLike | None = None,
    deepest: LengthLike | None = None,
    step_over: LengthLike | None = None,
    hold: str = "chuck",
    chuck: str | int | None = None,
    stick_out: LengthLike | None = None,
    steadies: Sequence[LengthLike] = (),
    stock: StockLike | None = None,
    bar_length: LengthLike | None = None,
    bar_behind: LengthLike | None = None,
    bar_diameter: LengthLike | None = None,
    bore: LengthLike | None = None,
    nose_radius: LengthLike | None = None,
    entering_deg: float | None = None,
    rake_deg: float | None = None,
    wear_factor: float | None = None,
    hardness_hb: float | None = None,
    approach: LengthLike | None = None,
    overrun: LengthLike | None = None,
    dial_set_s: float | None = None,
    hand_turns_per_min: float | None = None,
    single: bool = False,
    free: bool = False,
    now: tuple[int, int] = (-1, -1),
    explain: bool = True,
) -> Passes:
    """Choose the fastest passes over the machine's real steps and dial lines that keep every limit.

    The time counts cutting, return strokes, setting the dial, changing levers and measuring. Passes are divided as
    shops do: rough ones with one setting on whole tens of lines; then, without a tolerance, one cut; from 0.1 mm
    on, one cut by a measurement; closer, two equal cuts, each by a measurement. The answer is the fastest of all
    such passes. Forces are taken at the upper edge of their band. What exactly is made least, and how ties fall,
    stands in the header ``halfnut/cutting/choose.hpp``.

    Parameters
    ----------
    do : str
        "turn", "face", "bore", "mill slot", "mill side", "mill pocket" or "mill face".
    alloy : str or Alloy
        The work's material.
    diameter : str or Length
        Before turning or boring; of the face; of the cutter.
    to : str or Length, optional
        Diameter to reach, in turning and boring.
    machine : str, Path or Machine
        Whose levers and dials to choose from.
    off : str or Length, optional
        Depth to take off along the axis in facing, down in milling.
    length, width : str or Length, optional
        Of the cut along the feed, and across it in milling.
    end_diameter, bore, hold, chuck, stick_out, bar_diameter, tool, nose_radius, entering_deg, rake_deg, wear_factor
        As for `turn`, `face` and `bore`; `stick_out` is the bar's overhang in boring, the cutter's in milling.
    steadies, stock, bar_length, bar_behind, hardness_hb, approach, overrun
        As for `turn`; with steadies the deflection is not computed.
    flutes, step_over
        As for `mill`.
    tolerance : str or Length, optional
        Of the diameter, a faced length, or a milled side: says how the size is closed on.
    tolerance_share : float, optional
        Of it, by which finishing cuts may deflect: 0.5 when not given.
    roughness_um, life_min, force_n : float, optional
        Ra of the last pass; life of the edge at least; force that tool and work bear.
    jaw_force_n, grip_diameter, friction, grip_safety, jaw_mass_kg, jaw_radius : optional
        Of each jaw at rest, where it grips, and what it loses at speed; without the force the grip is not computed.
    deflection, deepest : str or Length, optional
        Most bend of any pass, 0.1 mm; deepest that the edge cuts, 2.5 mm, or a cutter's usual step down.
    dial_set_s, hand_turns_per_min : float, optional
        To set the dial, 5 s; turns of the handle a minute when a slide is wound back, 60.
    single : bool
        All in one finishing pass.
    free : bool
        Any depths with any levers in every pass, the last two equal to within a line and measured between.
    now : (int, int), optional
        Spindle and feed step that are set now; -1 for not known.
    explain : bool
        Whether to compute prices, gains and the next best answer too.

    Returns
    -------
    Passes
        `found` says whether there is an answer; else `relaxations` say what stands in the way.

    Raises
    ------
    DomainError
        A number out of its range, or one that contradicts another.
    NotTabulatedError
        No such alloy or machine, or no speed for this material and tool.

    >>> chosen = choose("turn", "6061-T6", "32 mm", "28 mm", length="40 mm", machine="metric-lathe")
    >>> [round(one.after_mm, 2) for one in chosen.passes][-1]
    28.0
    """
    if do not in JOBS:
        raise DomainError(f"do must be one of {', '.join(map(repr, JOBS))}, got {do!r}")
    found = find_alloy(alloy.id if isinstance(alloy, Alloy) else alloy)
    shop = find_machine(machine)
    core = shop.core
    size = read_length(diameter, "diameter")
    edge = find_tool(tool)
    milling = do.startswith("mill")
    numbers = {
        "diameter_mm": size.mm,
        "to_mm": _mm(to, "to"),
        "off_mm": _mm(off, "off"),
        "end_diameter_mm": _mm(end_diameter, "end_diameter"),
        "length_mm": _mm(length, "length"),
        "width_mm": _mm(width, "width"),
        "teeth": None if flutes is None else float(flutes),
        "bore_mm": _mm(bore, "bore"),
        "stick_out_mm": _mm(stick_out, "stick_out"),
        "bar_diameter_mm": _mm(bar_diameter, "bar_diameter"),
        "nose_radius_mm": _mm(nose_radius, "nose_radius"),
        "entering_deg": entering_deg,
        "rake_deg": rake_deg,
        "wear_factor": wear_factor,
        "approach_mm": _mm(approach, "approach"),
        "overrun_mm": _mm(overrun, "overrun"),
        "step_over_mm": _mm(step_over, "step_over"),
        "tolerance_mm": _mm(tolerance, "tolerance"),
        "tolerance_share": tolerance_share,
        "deflection_mm": _mm(deflection, "deflection"),
        "roughness_um": roughness_um,
        "life_min": life_min,
        "force_n": force_n,
        "jaw_force_n": jaw_force_n,
        "grip_diameter_mm": _mm(grip_diameter, "grip_diameter"),
        "friction": friction,
        "grip_safety": grip_safety,
        "jaw_mass_kg": jaw_mass_kg,
        "jaw_radius_mm": _mm(jaw_radius, "jaw_radius"),
        "deepest_mm": _mm(deepest, "deepest"),
        "dial_set_s": dial_set_s,
        "hand_turns_per_min": hand_turns_per_min,
        **held_numbers(stock, bar_length, bar_behind),
    }
    if len(steadies):
        whole_mm = numbers["stick_out_mm"] or numbers["length_mm"] or 0.0
        numbers["span_mm"] = _core.whirl_span_mm(
            hold, whole_mm, [read_length(each, "steadies").mm for each in steadies]
        )
    usual = {"teeth": f"{_core.usual_teeth(size.mm):g} flutes"} if milling else {}
    usual |= {"nose_radius_mm": "nose radius 0.8 mm"} if not milling or do == "mill face" else {}
    given, assumed = formed(
        numbers, edge, _OF_TOOL[milling] | ({"stick_out_mm": "stick_out_mm"} if do == "bore" else {}), usual
    )
    held = -1 if milling else holder_place(core, chuck, hold, assumed)
    if not milling and jaw_force_n is None and hold != "between centres":
        assumed.append("a grip that holds, for no jaw force is given")
    inches, unit = size.system == "inch", unit_of(size)
    at_work = (edge.material, given, single, free, hold, held, hardness_hb)
    with asked(inches):
        result = _core.choose_passes(do, found.index, *at_work, now[0], now[1], core, active(), explain)
    ladder = core.table if milling else core.carriage
    slide = _dial_slide(core, do)
    if result.dial_assumed:
        assumed.append(f"{spell(result.line_mm, 'length', unit)} a line, for the machine gives no dial")
    if result.return_assumed:
        assumed.append(f"return at {spell(1000.0, 'feed_rate', unit)}, for the machine gives no dial")
    passes = _passes(do, found, result, core, ladder, slide, size, edge, assumed, given, hold)
    depth = numbers["off_mm"] or abs(size.mm - (numbers["to_mm"] or size.mm)) / 2
    warned = [item for one in passes for item in one.cut.cautions] or list(found.cautions)
    noted = [item for one in passes for item in one.cut.notes if item.code not in _AS_CHOSEN]
    time_s = None if math.isnan(result.time_s) else result.time_s
    spent = (_edge_share(passes) or 0.0) > 1
    closing = result.closing
    shops = bool(passes) and not free and not single and numbers["tolerance_mm"] is not None
    measured = shops and any(one.measure_before for one in passes)
    told = {
        "no_passes": not passes,
        "edge_spent": spent,
        "dial_coarse": measured and closing.coarse,
        "close_grade": measured and closing.third,
        "compound_over": measured and closing.compound,
        "little_left": shops and not measured,
    }
    warned += [caution(code) for code, holds in told.items() if holds]
    other = result.next
    next_words = ""
    if other is not None:
        feed_text = spell(other[3], "feed", "in" if core.inch else "mm")
        next_words = f"{other[1]} passes, first {other[2]:.0f} rev/min, {feed_text}"
    return Passes(
        do=do,
        alloy=found,
        tool_material=edge.material,
        machine_name=shop.name,
        unit=unit,
        diameter_mm=size.mm,
        to_mm=numbers["to_mm"],
        off_mm=numbers["off_mm"],
        depth_mm=depth,
        closing=closing.way,
        instrument=closing.instrument,
        reach_mm=None if math.isnan(closing.reach_mm) else closing.reach_mm,
        lines_apart=result.lines_apart,
        passes=passes,
        time_s=time_s,
        levers_moved=result.levers_moved,
        final_measure_s=result.final_measure_s,
        line_mm=result.line_mm,
        remainder_mm=result.remainder_mm,
        readout=result.readout,
        hand_fed=result.hand_fed,
        across=result.across,
        dial="" if slide is None else slide.name,
        limited_by=result.limited_by,
        prices=dict(result.prices),
        slack=_least_slack(passes),
        gains=tuple(Gain(name, saved) for name, saved in result.gains),
        next_s=None if other is None else other[0],
        next_words=next_words,
        relaxations=dict(result.relaxations),
        together=result.together,
        assumed=tuple(as_asked(each, inches) for each in assumed),
        notes=tuple(dict.fromkeys(noted)),
        cautions=tuple(dict.fromkeys(warned)),
        evidence=_evidence(passes),
    )


# Figures that a tool of the shop gives where nobody does, in turning and in milling.
_OF_TOOL = (
    {name: name for name in ("nose_radius_mm", "entering_deg", "rake_deg", "bar_diameter_mm")},
    {name: name for name in ("teeth", "entering_deg", "nose_radius_mm", "stick_out_mm")},
)

# Notes of a single cut that say nothing where the levers were chosen.
_AS_CHOSEN = frozenset({"asked_feed_moved", "asked_speed_moved"})


def _dial_slide(core: _core.Machine, do: str) -> _core.Slide | None:
    names = {"turn": ("cross",), "bore": ("cross",), "face": ("compound", "carriage")}.get(do, ("z", "quill"))
    return next((slide for slide in map(core.slide, names) if slide is not None), None)


def _passes(
    do: str,
    found: Alloy,
    result: _core.Passes,
    core: _core.Machine,
    ladder: _core.FeedLadder,
    slide: _core.Slide | None,
    size: Length,
    tool: Tool,
    assumed: list[str],
    given: Mapping[str, float | None],
    hold: str,
) -> tuple[PassPlanned, ...]:
    out = []
    gone = 0.0
    for number, one in enumerate(result.passes, 1):
        gone += one.depth_mm
        shown = None if slide is None or one.by_measurement else reading(slide, travel_mm=gone)
        at_mm = one.before_mm if do == "turn" else one.after_mm if do == "bore" else size.mm
        at = in_unit(at_mm, unit_of(size))
        cut = cut_record(do.replace(" ", "_"), found, one.cut, core, ladder, at, tool, assumed)
        cut = bar_note(cut, core, given, hold)
        limits = tuple(Limit(name, *rest) for name, *rest in one.limits)
        out.append(
            PassPlanned(
                number,
                cut,
                one.depth_mm,
                one.before_mm,
                one.after_mm,
                shown,
                one.finish,
                one.measure_before,
                _measure(result, number),
                one.slower_holds,
                one.faster_holds,
                one.cut_s,
                one.return_s,
                one.dial_s,
                one.change_s,
                one.measure_s,
                one.levers_moved,
                limits,
            )
        )
    return tuple(out)


def _measure(result: _core.Passes, number: int) -> str:
    """What to measure before a pass, and what to take then."""
    one, closing = result.passes[number - 1], result.closing
    if not one.measure_before:
        return ""
    ahead = any(each.measure_before for each in result.passes[number:])
    after = result.passes[number - 2].finish
    share = "free" if closing.way == "free" else "half" if ahead else "rest" if after else "whole"
    how = "" if closing.instrument == "none" else words("instrument", closing.instrument)
    return words("measure", share, how=f"{how}, cold" if closing.cold else how)


def _edge_share(passes: tuple[PassPlanned, ...]) -> float | None:
    lives = [one.cut.tool_life_min for one in passes]
    if not passes or any(life is None for life in lives):
        return None
    return sum(one.cut_s / 60 / life for one, life in zip(passes, lives, strict=True) if life)


def _least_slack(passes: tuple[PassPlanned, ...]) -> dict[str, float]:
    out: dict[str, float] = {}
    for one in passes:
        for limit in one.limits:
            if not math.isnan(limit.slack):
                out[limit.name] = min(limit.slack, out.get(limit.name, math.inf))
    return out


_RULES = (
    ("time_s", "choose_time"),
    ("time_s", "choose_search"),
    ("depth_mm", "choose_closing"),
    ("depth_mm", "choose_least"),
    ("depth_mm", "choose_deepest"),
    ("deflection_mm", "choose_bend"),
)


def _evidence(passes: tuple[PassPlanned, ...]) -> tuple[Evidence, ...]:
    """What the choice itself rests on, then what its cuts rest on, each once."""
    own = _core.rule_evidence(_RULES, active())
    seen: dict[tuple[str, str, str], Evidence] = {}
    for one in passes:
        for item in one.cut.evidence:
            if item.rule_id not in {"feed_asked", "spindle_asked"}:
                seen.setdefault((item.figure, item.rule_id, item.row), item)
    return (*own, *seen.values())
