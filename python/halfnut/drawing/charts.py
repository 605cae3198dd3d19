"""Charts for one machine: which speed for which diameter and alloy, what force and power allow, passes drawn.

Black and white: limits are told apart by the type of their lines, what is allowed by hatching.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property, partial
from typing import TYPE_CHECKING, Any, Literal

import numpy as np

from halfnut._core import DomainError, Error, Evidence, Length, spell_number
from halfnut.core.arguments import checked
from halfnut.core.pages import drawn
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import MM_PER_INCH, N_PER_LBF
from halfnut.core.units import length as read_length
from halfnut.core.words import caution_lines
from halfnut.cutting import questions
from halfnut.cutting.figures import Cut
from halfnut.drawing.axes import on_axes
from halfnut.machine.machines import Machine
from halfnut.machine.machines import machine as find_machine
from halfnut.material.questions import alloy as find_alloy

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from halfnut.core.given import LengthLike, NumberLike
    from halfnut.cutting.choosing import Passes
    from halfnut.machine.machines import MachineName

__all__ = ["SpeedCell", "SpeedChart", "force_map", "pass_plan", "speed_chart"]


ALLOYS = ("6061-T6", "7075", "5083", "C36000", "1018", "4130 normalised", "titanium grade 2")
"""Alloys of a chart where none are named: those of the demonstration, and mild steel."""

_TURNED_IN = ("1/4", "3/8", "1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "3", "4", "6", "8", "12")
_TURNED_MM = (6, 10, 12, 16, 20, 25, 32, 40, 50, 80, 100, 160, 250)
_TRIED_MM = (12.7, 25.4, 50.8)
_TOOLS_IN = ("1/16", "1/8", "3/16", "1/4", "5/16", "3/8", "1/2", "5/8", "3/4", "1", "1-1/4", "1-1/2", "2")
_TOOLS_MM = (1.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 50)


@dataclass(frozen=True)
class SpeedCell:
    """One cell of a speed chart: the cut whose spindle step it shows."""

    alloy: str
    diameter: Length
    cut: Cut

    @property
    def rpm(self) -> str:
        """The speed, with a mark where the step lies outside the window."""
        mark = {"above_window": "↑", "below_window": "↓"}.get(self.cut.spindle_fit.replace(" ", "_"), "")
        return f"{self.cut.spindle_rpm:.0f}{mark}"

    @property
    def settings(self) -> str:
        """Where the levers stand, in the order of the chart's head."""
        return " ".join(setting for _, setting in self.cut.spindle_positions)


@dataclass(frozen=True)
class SpeedChart(Record):
    """Diameter against spindle speed on one machine, a line for each alloy; and the levers as a table.

    Attributes
    ----------
    cells : dict
        By (alloy, place of the diameter); an alloy without a tabulated speed has none.
    """

    machine: Machine
    operation: str
    tool: str
    alloys: tuple[str, ...]
    diameters: tuple[Length, ...]
    cells: dict[tuple[str, int], SpeedCell]
    cautions: tuple[Caution, ...] = field(repr=False)
    evidence: tuple[Evidence, ...] = field(repr=False)

    @property
    def milling(self) -> bool:
        """Whether the diameters are those of end mills."""
        return self.operation == "mill"

    @property
    def of(self) -> str:
        """What the diameters are those of."""
        return {"turn": "work", "drill": "drill", "mill": "cutter"}[self.operation]

    @cached_property
    def controls(self) -> tuple[str, ...]:
        """The levers, belts and switches that set the spindle, in the machine's own words."""
        steps = self.machine.core.spindle
        return tuple(dict.fromkeys(each.control for step in steps for each in step.positions))

    def to_dict(self) -> dict[str, Any]:
        """The speeds as a dictionary of lists, one list an alloy."""
        sizes = [size.mm for size in self.diameters]
        speeds = {
            name: [
                None if (cell := self.cells.get((name, i))) is None else cell.cut.spindle_rpm for i in range(len(sizes))
            ]
            for name in self.alloys
        }
        return {
            "machine": self.machine.name,
            "operation": self.operation,
            "tool": self.tool,
            "diameters_mm": sizes,
            "spindle_rpm": speeds,
        }

    def lines(self) -> list[str]:
        """All of it: it is looked through."""
        return self.whole()

    def whole(self) -> list[str]:
        """The table for a terminal: spindle speeds by diameter and alloy."""
        width = max(len(name) for name in self.alloys) + 2
        out = [f"{self.machine.title}: spindle speed, rev/min, by diameter of the {self.of}; {self.tool} tool"]
        out.append("  " + " " * width + "".join(f"{short_size(size):>9}" for size in self.diameters))
        for name in self.alloys:
            row = [self.cells.get((name, i)) for i in range(len(self.diameters))]
            out.append("  " + f"{name:<{width}}" + "".join(f"{'–' if cell is None else cell.rpm:>9}" for cell in row))
        out += ["  ↓ slower than the window, which does no harm; ↑ even the slowest step is above it"]
        return [*out, *caution_lines(self.cautions, defer=True)]

    @cached_property
    def same_lines(self) -> dict[str, float]:
        """Operations that a chart of turning serves, each with the share of its diameter whose line is read.

        Only those whose spindle step is at most one from that line's, for every alloy of the chart at each of three
        diameters.
        """
        if self.operation != "turn":
            return {}
        asked: dict[str, Callable[..., Cut]] = {
            "face": questions.face,
            "bore": questions.bore,
            "part off": questions.part_off,
        }
        out = {}
        for name, ask in asked.items():
            for share in (1.0, 2.0):
                if all(self._within_a_step(ask, share, alloy, mm) for alloy in self.alloys for mm in _TRIED_MM):
                    out[name] = share
                    break
        return out

    def _within_a_step(self, ask: Callable[..., Cut], share: float, alloy: str, diameter_mm: float) -> bool:
        try:
            own = ask(alloy, Length(diameter_mm, "mm"), machine=self.machine, tool=self.tool).spindle_step
            read = _cut_at(self.machine, "turn", alloy, Length(share * diameter_mm, "mm"), self.tool, None).spindle_step
        except Error:
            return False
        return own is not None and read is not None and abs(own - read) <= 1

    def page(self, paper: str = "A4") -> str:
        """The chart as pages for the wall, landscape, read from 1.5 m; on a lathe those of carbide and drills follow.

        Parameters
        ----------
        paper : str
            A4 or letter.

        Returns
        -------
        str
            HTML.

        Raises
        ------
        DomainError
            Another paper.
        """
        page: str = drawn("chart_page", self, paper=paper)
        return page


def short_size(size: Length, *, unit: bool = True) -> str:
    """A size as a shop says it: inches in 64ths where they are such.

    >>> from halfnut import inch, mm
    >>> short_size(inch(1.25)), short_size(inch(0.3)), short_size(mm(12), unit=False)
    ('1-1/4 in', '0.3 in', '12')
    """
    if size.system != "inch":
        return f"{size.mm:g}" + (" mm" if unit else "")
    parts = Fraction(size.inch).limit_denominator(64)
    text = f"{size.inch:g}"
    if abs(float(parts) - size.inch) < 1e-9 and parts.denominator in (2, 4, 8, 16, 32, 64):
        whole, over = divmod(parts.numerator, parts.denominator)
        text = f"{whole}-{over}/{parts.denominator}" if whole else f"{over}/{parts.denominator}"
    return text + (" in" if unit else "")


@checked
def speed_chart(
    machine: MachineName,
    alloys: Sequence[str] = ALLOYS,
    *,
    tool: str = "HSS",
    diameters: Sequence[LengthLike] | None = None,
    chuck: str | int | None = None,
    operation: Literal["turn", "drill", "mill"] | None = None,
) -> SpeedChart:
    """The speeds of one machine by diameter and alloy: a lathe's for turning, a mill's for end mills, or for drills.

    Parameters
    ----------
    machine : str, Path or Machine
        Whose steps.
    alloys : sequence of str
        At least one.
    tool : str
        Of the tool material.
    diameters : sequence of str or Length, optional
        Of the work, drill or cutter; usual ones up to what swings when not given.
    chuck : str or int, optional
        Whose limit holds; the first of the machine that holds the work when not given.
    operation : {"turn", "drill", "mill"}, optional
        Turning on a lathe and slots with an end mill on a mill when not given.

    Returns
    -------
    SpeedChart
        Every cell is the cut that `turn`, `drill` or `mill` answers.

    Raises
    ------
    DomainError
        No alloys, or an operation that the machine does not do.
    NotTabulatedError
        No such machine or alloy.

    >>> speed_chart("gap-bed", ["6061-T6"], diameters=["1 in"]).to_dict()["spindle_rpm"]["6061-T6"]
    [860.0]
    """
    shop = find_machine(machine)
    if not alloys:
        raise DomainError("alloys: at least one, got none")
    do = operation or ("turn" if shop.kind == "lathe" else "mill")
    if (do == "turn") != (shop.kind == "lathe") and do != "drill":
        raise DomainError(f"operation: {shop.title} does not {do}")
    sizes = tuple(read_length(each, "diameters") for each in diameters or _usual(shop, do))
    cells: dict[tuple[str, int], SpeedCell] = {}
    for name in alloys:
        find_alloy(name)  # a wrong name is refused; a size that cannot be turned leaves its cell empty
        for place, size in enumerate(sizes):
            try:
                cells[name, place] = SpeedCell(name, size, _cut_at(shop, do, name, size, tool, chuck))
            except Error:
                continue
    warned = dict.fromkeys(item for cell in cells.values() for item in cell.cut.cautions if item.code in _SAID)
    rows = {(item.rule_id, item.row): item for cell in cells.values() for item in cell.cut.evidence if item.row}
    speeds = tuple(item for item in rows.values() if item.figure == "window_high_m_min")
    return SpeedChart(shop, do, tool, tuple(alloys), sizes, cells, tuple(warned), speeds)


# Cautions of a cut that belong on a chart.
_SAID = frozenset({"chuck_unmarked", "above_chuck_limit"})


def _cut_at(machine: Machine, do: str, alloy: str, size: Length, tool: str, chuck: str | int | None) -> Cut:
    if do == "mill":
        return questions.mill(alloy, size, depth=Length(size.mm / 2, "mm"), shape="slot", machine=machine, tool=tool)
    if do == "drill":
        return questions.drill(alloy, size, machine=machine, tool=tool, chuck=chuck)
    holders = [chuck] if chuck is not None or not machine.core.chucks else [each.name for each in machine.core.chucks]
    *smaller, last = holders
    for holder in smaller:
        try:
            return questions.turn(alloy, size, machine=machine, tool=tool, chuck=holder)
        except Error:  # it does not open as far: the next one does
            continue
    return questions.turn(alloy, size, machine=machine, tool=tool, chuck=last)


def _usual(machine: Machine, do: str) -> list[str]:
    """Usual sizes, of turned work as far as it swings."""
    inch = machine.unit == "in"
    table: tuple[Any, ...] = (
        (_TURNED_IN if inch else _TURNED_MM) if do == "turn" else (_TOOLS_IN if inch else _TOOLS_MM)
    )
    swing_mm = machine.core.swing_mm
    texts = [f"{each} {machine.unit}" for each in table]
    if do == "turn" and swing_mm > 0.0:
        texts = [each for each in texts if read_length(each, "diameter").mm <= swing_mm] or texts[:1]
    return texts


@checked
def force_map(
    alloy: str,
    diameter: LengthLike,
    *,
    machine: MachineName,
    spindle_rpm: NumberLike | None = None,
    deepest: LengthLike = "2.5 mm",
    tool: str | None = None,
    nose_radius: LengthLike | None = None,
    hold: Literal["chuck", "chuck and centre", "between centres"] = "chuck",
    stick_out: LengthLike | None = None,
    deflection: LengthLike | None = None,
    axes: Axes | None = None,
) -> Axes:
    """Force over depth and feed for turning, with the limits that close it in.

    Thin lines are the cutting force. Thick ones are limits, at the upper edge of the force's band: what lies beyond one
    is hatched. The machine's feeds are ticks.

    Parameters
    ----------
    alloy, diameter, machine, spindle_rpm, tool, nose_radius, hold, stick_out, deflection
        As for `turn`; the speed is the one that `turn` chooses when not given.
    deepest : str or Length
        Top of the chart.
    axes : matplotlib Axes, optional
        Where to draw; new ones where none are given.

    Returns
    -------
    Axes
        Feed along, depth up, in the machine's unit.

    Raises
    ------
    DomainError
        The machine has no power feed, or a number is out of its range.
    """
    shop = find_machine(machine)
    steps = shop.core.carriage.steps
    if not steps:
        raise DomainError(f"{shop.name} has no power feed to chart")
    inch = shop.unit == "in"
    scale = MM_PER_INCH if inch else 1.0
    size = read_length(diameter, "diameter")
    turn = partial(
        questions.turn,
        alloy,
        size,
        machine=shop,
        tool=tool,
        nose_radius=nose_radius,
        hold=hold,
        stick_out=stick_out,
        deflection=deflection,
    )
    first = turn(spindle_rpm=spindle_rpm)
    feeds = np.array([step.feed_mm for step in steps])
    top = read_length(deepest, "deepest").mm
    depths = np.linspace(top / 24, min(top, 0.49 * size.mm), 24)
    force = np.zeros((depths.size, feeds.size))
    used: dict[str, Any] = {}
    for i, depth in enumerate(depths):
        for k, feed in enumerate(feeds):
            thick, fine = Length(float(depth), "mm"), f"{float(feed)!r} mm/rev"
            cut = turn(spindle_rpm=first.spindle_rpm, depth=thick, feed=fine)
            force[i, k] = cut.cutting_force_n or np.nan
            for limit in cut.limits:
                if limit.name in {"power", "torque", "deflection"}:
                    used.setdefault(limit.name, np.zeros_like(force))[i, k] = limit.value / limit.bound
    axes = on_axes(axes)
    x, y = feeds / scale, depths / scale
    unit = N_PER_LBF if inch else 1.0
    contours = axes.contour(x, y, force / unit, levels=8, colors="black", linewidths=0.5)
    axes.clabel(contours, fmt="%d", fontsize=8)
    handles = []
    for (name, share), line, hatch in zip(used.items(), ("-", "--", "-."), ("///", "\\\\\\", "..."), strict=False):
        if share.max() > 1:
            axes.contourf(x, y, share, levels=[1, 1e9], colors="none", hatches=[hatch])
            axes.contour(x, y, share, levels=[1], colors="black", linewidths=1.6, linestyles=[line])
            handles.append(axes.plot([], [], color="black", linewidth=1.6, linestyle=line, label=name)[0])
    axes.set_xlabel(f"feed, {'in/rev' if inch else 'mm/rev'}")
    axes.set_ylabel(f"depth, {'in' if inch else 'mm'}")
    axes.set_title(f"cutting force, {'lbf' if inch else 'N'}; {first.spindle_rpm:.0f} rev/min", fontsize=9)
    if handles:
        axes.legend(handles=handles, loc="upper right", frameon=True, facecolor="white", framealpha=1.0)
    return axes


@checked
def pass_plan(passes: Passes, axes: Axes | None = None) -> Axes:
    """The passes drawn: what each takes off, with its number; the finished work is left white.

    Parameters
    ----------
    passes : Passes
        With an answer.
    axes : matplotlib Axes, optional
        Where to draw; new ones where none are given.

    Returns
    -------
    Axes
        Pass along, depth off down, in the unit of the job.

    Raises
    ------
    DomainError
        There are no passes to draw.
    """
    if not passes.passes:
        raise DomainError("there are no passes to draw")
    axes = on_axes(axes, (6.3, 2.6))
    unit = passes.unit
    scale = MM_PER_INCH if unit == "in" else 1.0
    gone = 0.0
    for one in passes.passes:
        deep = one.depth_mm / scale
        hatch = "\\\\\\" if one.finish else "///"
        axes.bar(
            one.number, deep, bottom=gone, width=0.8, color="white", edgecolor="black", hatch=hatch, linewidth=1.42
        )
        axes.annotate(
            spell_number(one.depth_mm, "length", unit),
            (one.number, gone + deep / 2), ha="center", va="center", fontsize=8,
            bbox={"facecolor": "white", "edgecolor": "none", "pad": 1.0},
        )  # fmt: skip
        gone += deep
    axes.set_ylim(gone * 1.02, 0)
    axes.set_xlim(0.4, len(passes.passes) + 0.6)
    axes.set_xticks(range(1, len(passes.passes) + 1))
    axes.set_xlabel("pass, number")
    axes.set_ylabel(f"depth off, {unit}")
    return axes
