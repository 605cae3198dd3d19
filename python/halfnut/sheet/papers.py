"""The papers of a job, a page each: what to saw, what to lay out, what to measure, and in which order it is done."""

from __future__ import annotations

import math
from collections import Counter
from typing import TYPE_CHECKING, NamedTuple

from halfnut.planning.job import KINDS
from halfnut.planning.timing import lot
from halfnut.sheet import figures
from halfnut.sheet.cards import sawn, setups, stock_size
from halfnut.sheet.paper import text_width
from halfnut.sheet.rows import drill_name, measured
from halfnut.sheet.telling import counted, title_of, worded

if TYPE_CHECKING:
    from halfnut.planning.plans import Plan, PlannedOperation, PlannedPart

__all__ = ["PaperTable", "papers_of"]

_BOXES = 3
"""Pieces that an inspection list has a box for."""
_LINES = 36.5
"""Lines of a page, and what a row needs of them beside its own."""
_ROW = 0.45
_WIDE = 41.0
"""Of a page, in sizes of its words."""
_BOX = 1.0
"""Width of a cell to write in, beside what every cell takes."""
_FLOWS = 17
"""Letters from which a cell goes on on another line."""


class PaperTable(NamedTuple):
    """A paper of a job: a table, whose empty cells are there to write in."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def papers_of(plan: Plan) -> tuple[PaperTable, ...]:
    """The papers of a job in the order they are used, each a page; a list that is longer goes on on another.

    Parameters
    ----------
    plan : Plan
        A part without stock cut up has the reason in its row.

    Returns
    -------
    tuple of PaperTable
        Those that would have no rows are left out.
    """
    lists = (_cut_list(plan), _bars(plan), *_tool_lists(plan), _order(plan), _inspection(plan))
    return tuple(page for each in lists if each.rows for page in _pages(each))


def _pages(paper: PaperTable) -> list[PaperTable]:
    """A list in pages, by how many lines its rows take at most."""
    pages: list[list[tuple[str, ...]]] = [[]]
    left = _LINES
    for row in paper.rows:
        longest = max(row, key=text_width)
        flows = sum(text_width(cell) for cell in row if cell is longest or len(cell) >= _FLOWS)
        others = sum(text_width(cell) or _BOX for cell in row) - flows
        lines = _ROW + math.ceil(flows / max(_WIDE - others - 1.2 * len(row), 8.0))
        if lines > left:
            pages.append([])
            left = _LINES
        pages[-1].append(row)
        left -= lines
    if len(pages) == 1:
        return [paper]
    return [
        PaperTable(f"{paper.title}, {n} of {len(pages)}", paper.heads, tuple(rows)) for n, rows in enumerate(pages, 1)
    ]


def _cut_list(plan: Plan) -> PaperTable:
    """Blanks by their stock, so that parts from one bar stand together; one piece more is worth its stock."""
    rows: list[tuple[str, ...]] = []
    groups: dict[str, list[PlannedPart]] = {}
    for part in plan.parts:
        groups.setdefault(f"{part.part.alloy} {_stock(part)}", []).append(part)
    for stock, part in ((stock, part) for stock, parts in groups.items() for part in parts):
        cut = part.stock
        if cut is None:
            rows.append((stock, title_of(part), part.stock_error, "", "", ""))
            continue
        pieces = f"{part.part.quantity}" + (f", {cut.pieces_a_blank} a blank" if cut.pieces_a_blank > 1 else "")
        saw = f"{cut.blanks} × {sawn(part)} {part.unit}"
        rows.append((stock, title_of(part), pieces, saw, str(part.lot.spares), ""))
    return PaperTable("Cut list", ("stock", "for", "pieces", "saw", "spare pieces", "done"), tuple(rows))


def _bars(plan: Plan) -> PaperTable:
    """What is sawn from which bar; bars that are sawn alike stand in one row."""
    by_name = {part.part.name: part for part in plan.parts}
    rows = []
    for found in plan.bars.values():
        for alike, times in Counter(found).items():
            names = Counter(name for name, _ in alike.blanks)
            of_bar = "; ".join(f"{count} × {title_of(by_name[name])}" for name, count in names.items())
            first = by_name[alike.blanks[0][0]]
            stock = f"{first.part.alloy} {_stock(first)}, {first.part.stock.bar_length} long"
            rows.append((stock, f"{times}", of_bar, figures.length(alike.left_mm, first.unit), ""))
    return PaperTable("Bars, spares not counted", ("stock", "bars", "saw for", "leaves", "done"), tuple(rows))


def _stock(part: PlannedPart) -> str:
    return f"{part.part.stock.form} {stock_size(part)}"


def _tool_lists(plan: Plan) -> list[PaperTable]:
    """What to lay out at each machine, and for which operations."""
    used: dict[str, dict[str, dict[str, list[str]]]] = {}
    for part, op in plan.operations:
        for tool in _tools(part, op):
            of_tool = used.setdefault(op.machine.name, {}).setdefault(tool, {})
            of_tool.setdefault(title_of(part), []).extend([] if tool == op.step.holding else [str(op.number)])
    heads = ("tool", "for part and row", "laid out")
    return [
        PaperTable(
            f"Tool list, {machine}",
            heads,
            tuple(
                (tool, "; ".join(f"{part} {', '.join(numbers)}".strip() for part, numbers in where.items()), "")
                for tool, where in sorted(tools.items())
            ),
        )
        for machine, tools in sorted(used.items())
    ]


def _tools(part: PlannedPart, op: PlannedOperation) -> list[str]:
    """What an operation needs besides the machine, in the words of a tool cabinet."""
    found, unit = op.answer, part.unit
    if found is None:
        return []
    step, sizes = op.step, found.sizes
    called = drill_name(step.base("diameter"), unit) if step.do == "drill" else ""
    made_of = None if found.cut is None else found.cut.tool_name
    out = [step.holding] if step.holding else []
    out.append(worded(step, KINDS[step.do]["tool"], unit, tool=made_of, called=called, thread=sizes.get("thread")))
    if step.do == "thread" and found.wires is not None:
        kind = "balls" if sizes["side"] == "internal" else "wires"
        out.append(f"{kind}, {figures.size(found.wires.wire_mm, unit)} {unit}")
    return out


def _inspection(plan: Plan) -> PaperTable:
    """Every size that is inspected, with boxes for what is read on the pieces that are measured wholly."""
    pieces = lot(0.0, max((part.part.quantity for part in plan.parts), default=1)).measured[:_BOXES]
    rows = tuple(
        (
            *(title_of(part), str(op.number)),
            *(each.what, each.tool, each.least, each.greatest, each.coated),
            *("" if piece <= part.part.quantity else "–" for piece in pieces),
        )
        for part, op in plan.operations
        for each in measured(part, op, plan.job.coatings.get(part.part.coating or ""))
    )
    heads = ("part", "row", "what", "with", "least", "greatest", "once coated", *map(str, pieces))
    return PaperTable("Inspection list", heads, rows)


def _order(plan: Plan) -> PaperTable:
    """The setups one after another, with the time for the lot."""
    rows = []
    for part in plan.parts:
        found = setups(part)
        for setup in found:
            numbers = [op.number for op in setup.operations]
            span = f"{numbers[0]} to {numbers[-1]}" if len(numbers) > 1 else f"{numbers[0]}"
            time = lot(sum(op.time_s for op in setup.operations), part.part.quantity).whole.minutes
            where = f"{setup.number} of {len(found)}"
            pieces = counted(part.part.quantity, "piece")
            held = setup.holding or "as the card says"
            rows.append((title_of(part), where, setup.machine, held, span, pieces, time, ""))
    heads = ("part", "setup", "machine", "held in", "rows", "lot", "time", "done")
    return PaperTable("Order of work", heads, tuple(rows))
