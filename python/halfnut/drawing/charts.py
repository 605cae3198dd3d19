"""Charts for one machine: which speed for which diameter and alloy, what force and power allow, passes drawn.

Black and white: alloys and limits are told apart by the type of their lines, what is allowed by hatching.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from halfnut._core import DomainError, Error, Evidence, Length, spell_number
from halfnut.core.arguments import checked
from halfnut.core.extras import optional
from halfnut.core.pages import drawn
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import MM_PER_INCH, N_PER_LBF
from halfnut.core.units import length as read_length
from halfnut.core.words import caution_lines
from halfnut.cutting import milling, questions
from halfnut.cutting.asking import holder_place
from halfnut.cutting.cuts import Cut
from halfnut.machine.machines import Machine
from halfnut.machine.machines import machine as find_machine
from halfnut.material.questions import alloy as find_alloy

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from halfnut.cutting.choosing import Passes

__all__ = ["SpeedCell", "SpeedChart", "force_map", "pass_plan", "short_size", "speed_chart"]


ALLOYS = ("6061-T6", "C36000", "1018", "4130 normalised", "304", "grey iron", "titanium grade 2", "acetal")
"""Alloys of a chart where none are named: one of each kind that a small shop meets."""

_TURNED_IN = ("1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "4", "6", "8")
_TURNED_MM = (3, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50, 63, 80, 100, 160)
_CUTTERS_IN = ("1/16", "1/8", "3/16", "1/4", "5/16", "3/8", "1/2", "5/8", "3/4", "1", "1-1/4", "1-1/2", "2")
_CUTTERS_MM = (1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50, 63)

_LINES: tuple[Any, ...] = (
    "-",
    "--",
    "-.",
    ":",
    (0, (8, 2)),
    (0, (8, 2, 1, 2, 1, 2)),
    (0, (3, 1)),
    (0, (1, 3)),
    (0, (12, 3, 3, 3)),
    (0, (5, 5)),
)


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
    tool: str
    alloys: tuple[str, ...]
    diameters: tuple[Length, ...]
    cells: dict[tuple[str, int], SpeedCell]
    cautions: tuple[Caution, ...] = field(repr=False)
    evidence: tuple[Evidence, ...] = field(repr=False)

    @property
    def milling(self) -> bool:
        """Whether the diameters are those of cutters."""
        return self.machine.kind != "lathe"

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
        return {"machine": self.machine.name, "tool": self.tool, "diameters_mm": sizes, "spindle_rpm": speeds}

    def lines(self) -> list[str]:
        """All of it: it is looked through."""
        return self.whole()

    def whole(self) -> list[str]:
        """The table for a terminal: spindle speeds by diameter and alloy."""
        width = max(len(name) for name in self.alloys) + 2
        what = "cutter" if self.milling else "work"
        out = [f"{self.machine.title}: spindle speed, rev/min, by diameter of the {what}; {self.tool} tool"]
        out.append("  " + " " * width + "".join(f"{short_size(size):>9}" for size in self.diameters))
        for name in self.alloys:
            row = [self.cells.get((name, i)) for i in range(len(self.diameters))]
            out.append("  " + f"{name:<{width}}" + "".join(f"{'–' if cell is None else cell.rpm:>9}" for cell in row))
        out += ["  ↓ slower than the window, which does no harm; ↑ even the slowest step is above it"]
        return [*out, *caution_lines(self.cautions, defer=True)]

    def window_top(self, name: str) -> float | None:
        """Highest cutting speed of an alloy, m/min."""
        found = [cell.cut.window_high_m_min for (alloy, _), cell in self.cells.items() if alloy == name]
        return found[0] if found else None

    def plot(self, axes: Axes | None = None) -> Axes:
        """Diameter against speed, both logarithmic: the machine's steps as thin lines, the alloys over them."""
        axes = _axes(axes, figsize=(7.0, 4.6))
        inch = self.diameters[0].system == "inch"
        sizes = np.array([size.mm for size in self.diameters])
        span = np.geomspace(sizes[0], sizes[-1], 60)
        shown = span / MM_PER_INCH if inch else span
        steps = self.machine.core.spindle
        low = min(step.rpm_low if step.variable else step.rpm for step in steps)
        high = max(step.rpm for step in steps)
        for step in steps:
            for rpm in (step.rpm_low, step.rpm) if step.variable else (step.rpm,):
                axes.axhline(rpm, color="black", linewidth=0.4, zorder=1)
        for name, line in zip(self.alloys, _LINES, strict=False):
            top = self.window_top(name)
            if top is not None:
                axes.plot(shown, 1000 * top / (np.pi * span), color="black", linestyle=line, linewidth=1.3, label=name)
        axes.set_xscale("log")
        axes.set_yscale("log")
        axes.set_ylim(0.8 * low, 1.35 * high)
        axes.set_xlim(shown[0], shown[-1])
        axes.set_xlabel(f"diameter of the {'cutter' if self.milling else 'work'}, {'in' if inch else 'mm'}")
        axes.set_ylabel("spindle speed, rev/min")
        axes.set_xticks([size.mm / (MM_PER_INCH if inch else 1) for size in self.diameters])
        axes.set_xticklabels([short_size(size, unit=False) for size in self.diameters], rotation=45, ha="right")
        # a label is 8 points high, and axes take about half of the figure's height
        share = 8.0 / (0.55 * 72 * axes.figure.get_figheight())  # type: ignore[union-attr]
        marks, labels = _spread(self._marks(), (1.35 * high / (0.8 * low)) ** share)
        axes.set_yticks([rpm for rpm, _ in self._marks()])
        axes.set_yticklabels([])
        axes.minorticks_off()
        for at, (rpm, words) in zip(marks, labels, strict=True):
            axes.annotate(
                f"{rpm:.0f}", (0, at), xycoords=("axes fraction", "data"), xytext=(-4, 0), ha="right", va="center",
                textcoords="offset points", fontsize=7,
            )  # fmt: skip
            axes.annotate(
                words, (1, at), xycoords=("axes fraction", "data"), xytext=(4, 0), ha="left", va="center",
                textcoords="offset points", fontsize=7,
            )  # fmt: skip
        axes.yaxis.labelpad = 26
        axes.legend(ncol=4, loc="lower left", bbox_to_anchor=(0, 1.0), handlelength=3.6, fontsize=8, borderaxespad=0.2)
        return axes

    def _marks(self) -> list[tuple[float, str]]:
        out = []
        for step in self.machine.core.spindle:
            words = " ".join(each.setting for each in step.positions)
            if step.variable:
                out.append((step.rpm_low, f"{words}, slowest"))
            out.append((step.rpm, words))
        return sorted(out)

    def page(self, **block: str) -> str:
        """The chart as a page to print on A4 or Letter: a table of speeds and lever positions.

        Parameters
        ----------
        **block : str
            Of the title block: ``title``, ``identification``, ``revision``, ``date``, ``owner``, ``created_by``.
        """
        page: str = drawn("chart_page", self, **block)
        return page


def _axes(axes: Axes | None, **size: Any) -> Axes:
    if axes is not None:
        return axes
    plt = optional("matplotlib.pyplot", "plot")
    made: Axes = plt.subplots(**size)[1]
    return made


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


def _spread(marks: list[tuple[float, str]], apart: float) -> tuple[list[float], list[tuple[float, str]]]:
    """Heights for labels, each at least a factor above the one below."""
    places: list[float] = []
    for rpm, _ in marks:
        places.append(rpm if not places else max(rpm, places[-1] * apart))
    return places, marks


@checked
def speed_chart(
    machine: Any,
    alloys: Sequence[str] = ALLOYS,
    *,
    tool: str = "HSS",
    diameters: Sequence[Any] | None = None,
    chuck: str | int | None = None,
) -> SpeedChart:
    """The speeds of one machine by diameter and alloy: a lathe's for turning, a mill's for end mills.

    Parameters
    ----------
    machine : str, Path or Machine
        Whose steps.
    alloys : sequence of str
        At most ten, for as many types of line.
    tool : str
        Of the tool material.
    diameters : sequence of str or Length, optional
        Of the work, of the cutter on a mill; usual ones up to what swings when not given.
    chuck : str or int, optional
        Whose limit holds; the first of the machine when not given.

    Returns
    -------
    SpeedChart
        Every cell is the cut that `turn`, or `mill`, answers.

    Raises
    ------
    DomainError
        No alloys, or more than there are types of line.
    NotTabulatedError
        No such machine or alloy.

    >>> speed_chart("gap-bed", ["6061-T6"], diameters=["1 in"]).to_dict()["spindle_rpm"]["6061-T6"]
    [860.0]
    """
    shop = find_machine(machine)
    if not 1 <= len(alloys) <= len(_LINES):
        raise DomainError(f"alloys: 1 to {len(_LINES)} of them, got {len(alloys)}")
    sizes = tuple(read_length(each, "diameters") for each in diameters or _usual(shop, chuck))
    cells: dict[tuple[str, int], SpeedCell] = {}
    for name in alloys:
        find_alloy(name)  # a wrong name is refused; a size that cannot be turned leaves its cell empty
        for place, size in enumerate(sizes):
            try:
                cells[name, place] = SpeedCell(name, size, _cut_at(shop, name, size, tool, chuck))
            except Error:
                continue
    warned = dict.fromkeys(item for cell in cells.values() for item in cell.cut.cautions if item.code in _SAID)
    rows = {(item.rule_id, item.row): item for cell in cells.values() for item in cell.cut.evidence if item.row}
    speeds = tuple(item for item in rows.values() if item.figure == "window_high_m_min")
    return SpeedChart(shop, tool, tuple(alloys), sizes, cells, tuple(warned), speeds)


# Cautions of a cut that belong on a chart.
_SAID = frozenset({"chuck_unmarked", "above_chuck_limit"})


def _cut_at(machine: Machine, alloy: str, size: Length, tool: str, chuck: str | int | None) -> Cut:
    if machine.kind == "lathe":
        return questions.turn(alloy, size, machine=machine, tool=tool, chuck=chuck)
    return milling.mill(alloy, size, depth=Length(size.mm / 2, "mm"), shape="slot", machine=machine, tool=tool)


def _usual(machine: Machine, chuck: str | int | None = None) -> list[str]:
    """Usual sizes, on a lathe as far as its swing and what holds the work."""
    inch = machine.unit == "in"
    lathe = machine.kind == "lathe"
    table: tuple[Any, ...] = (_TURNED_IN if inch else _TURNED_MM) if lathe else (_CUTTERS_IN if inch else _CUTTERS_MM)
    core = machine.core
    sizes = [core.swing_mm, core.swing_over_cross_slide_mm]
    if lathe and core.chucks:
        sizes.append(core.chucks[holder_place(core, chuck, "chuck", [])].opening_greatest_mm)
    known = [each for each in sizes if each > 0]
    most = min(known) if lathe and known else 32.0
    texts = [f"{each} {machine.unit}" for each in table]
    return [each for each in texts if read_length(each, "diameter").mm <= most] or texts[:1]


@checked
def force_map(
    alloy: str,
    diameter: Any,
    *,
    machine: Any,
    spindle_rpm: float | None = None,
    deepest: Any = "2.5 mm",
    axes: Axes | None = None,
    **how: Any,
) -> Axes:
    """Force over depth and feed for turning, with the limits that close it in.

    Thin lines are the cutting force. Thick ones are limits, at the upper edge of the force's band: what lies beyond one
    is hatched. The machine's feeds are ticks.

    Parameters
    ----------
    alloy, diameter, machine, spindle_rpm
        As for `turn`; the speed is the one that `turn` chooses when not given.
    deepest : str or Length
        Top of the chart.
    axes : matplotlib Axes, optional
        Where to draw; new ones where none are given.
    **how
        Further arguments of `turn`: tool, nose radius, hold, stick-out, deflection.

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
    first = questions.turn(alloy, size, machine=shop, spindle_rpm=spindle_rpm, **how)
    feeds = np.array([step.feed_mm for step in steps])
    top = read_length(deepest, "deepest").mm
    depths = np.linspace(top / 24, min(top, 0.49 * size.mm), 24)
    force = np.zeros((depths.size, feeds.size))
    used: dict[str, Any] = {}
    for i, depth in enumerate(depths):
        for k, feed in enumerate(feeds):
            cut = questions.turn(
                alloy,
                size,
                machine=shop,
                depth=Length(float(depth), "mm"),
                feed=f"{float(feed)!r} mm/rev",
                spindle_rpm=first.spindle_rpm,
                **how,
            )
            force[i, k] = cut.cutting_force_n or np.nan
            for limit in cut.limits:
                if limit.name in {"power", "torque", "deflection"}:
                    used.setdefault(limit.name, np.zeros_like(force))[i, k] = limit.value / limit.bound
    axes = _axes(axes)
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
    axes = _axes(axes, figsize=(6.3, 2.6))
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
