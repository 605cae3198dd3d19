"""An operation as the details show it: forces and limits as a row, then what the card leaves out."""

from __future__ import annotations

from typing import TYPE_CHECKING
from urllib.parse import quote

from halfnut._core import spell, spell_number, spell_span
from halfnut.core.words import words
from halfnut.cutting.figures import Cut
from halfnut.drawing.gears import train_svg
from halfnut.drawing.threads import profile_svg
from halfnut.knurls.figures import KnurlBlank
from halfnut.planning.answers import Answer
from halfnut.planning.job import KINDS, Step
from halfnut.sheet import texts
from halfnut.sheet.tables import TELLING_MM, gives_way, holding_table, tables_of
from halfnut.sheet.telling import sentence, worded
from halfnut.sheet.view import Drawing, Table
from halfnut.threads.standard import ThreadLimits

__all__ = ["CUT_HEADS", "cut_row", "remarks_of", "shown_of"]

if TYPE_CHECKING:
    from halfnut.planning.plans import PlannedOperation, PlannedPart

CUT_HEADS = (
    "operation",
    "speed",
    "force, likely",
    "power, most",
    "deflects, most",
    "tool life",
    "held back by",
    "time",
)


def cut_row(part: PlannedPart, op: PlannedOperation) -> tuple[str, ...]:
    """An operation as a row: its forces with their bands, what holds it back and what would help."""
    found = op.answer
    if found is None:
        return (f"{op.number} {_heading(op, part.unit)}", "", "", "", "", "", "not planned", "")
    name = f"{op.number} {_heading(op, part.unit)} {_size(found, part.unit, op.step)}"
    return (name, *_cut_cells(found, part.unit), spell(found.time_s, "time", "mm"))


def remarks_of(part: PlannedPart, op: PlannedOperation) -> list[str]:
    """What there is to say of an operation beyond its figures."""
    found, note = op.answer, ([op.step.note] if op.step.note else [])
    if found is None:
        return [*note, op.error]
    said = (*note, _tool(found), *found.remarks, *_holding_remarks(found, part.unit), *_at_the_lathe(found))
    return [sentence(each) for each in said if each]


def shown_of(part: PlannedPart, op: PlannedOperation) -> tuple[tuple[Table, ...], tuple[Drawing, ...]]:
    """Tables and drawings of an operation: threads and knurls before and after, how far the work deflects, gears."""
    found = op.answer
    if found is None:
        return (), ()
    tables = (*tables_of(found, part.unit), *holding_table(found, part.unit))
    return tables, tuple(each for each in (_drawing(found), _gears(found)) if each is not None)


def _at_the_lathe(found: Answer) -> list[str]:
    """How to cut a thread or a knurl, in order; the figures of its passes stand on the card."""
    way = found.chasing or found.knurling
    return [] if way is None else list(way.steps)


def _heading(op: PlannedOperation, unit: str) -> str:
    title = sentence(worded(op.step, KINDS[op.step.do]["title"], unit))
    finish = " to finish" if op.step.finishes else ""
    times = f", {op.step.times} times" if op.step.times > 1 else ""
    return f"{title}{finish}{times}"


def _size(found: Answer, unit: str, step: Step) -> str:
    if size := KINDS[step.do]["size"]:
        return worded(step, size, unit)
    sizes = found.sizes
    long = f" × {spell(sizes['length_mm'], 'travel', unit)}" if "length_mm" in sizes else ""
    if "thread" in sizes:
        return f"{sizes['thread']}{long}"
    if "to_diameter_mm" in sizes:
        return (
            f"{texts.diameter(sizes['start_diameter_mm'], unit)} → "
            f"{texts.diameter(sizes['to_diameter_mm'], unit)}{long}"
        )
    if "shape" in sizes:
        across, down = spell(sizes["cut_width_mm"], "travel", unit), spell(sizes["cut_depth_mm"], "travel", unit)
        along = spell_number(sizes["length_mm"], "travel", unit)
        return f"{along} × {across}, {down} deep, cutter {texts.diameter(sizes['cutter_mm'], unit)}"
    if "depth_mm" in sizes:
        return f"{texts.diameter(sizes['diameter_mm'], unit)}, {spell(sizes['depth_mm'], 'travel', unit)} deep"
    if "off_mm" in sizes:
        return f"{texts.diameter(sizes['start_diameter_mm'], unit)}, {spell(sizes['off_mm'], 'travel', unit)} off"
    if isinstance(found.record, KnurlBlank):
        blank = found.record
        return f"{blank.pitch} {blank.pattern}, {spell(sizes['width_mm'], 'travel', unit)} wide"
    return texts.diameter(sizes["start_diameter_mm"], unit)


def _tool(found: Answer) -> str:
    cut = found.cut
    if cut is None or cut.operation == "knurl":
        return ""
    name = cut.tool_name
    assumed = ", ".join(cut.assumed)
    if name.lower() in assumed.lower():
        return f"assumed: {assumed}"
    return f"{name}; assumed: {assumed}" if assumed else name


def _holding_remarks(found: Answer, unit: str) -> list[str]:
    held = gives_way(found)
    if held is None:
        return []
    out = list(held.ways)
    others = ", ".join(f"{way.name} {spell_number(way.bend_mm, 'length', unit)}" for way in held.other_ways)
    out.append(f"deflects {spell_number(held.bend.worst_mm, 'length', unit)} {unit} as held; {others}")
    if held.jaw_force_n is not None:
        out.append(f"grip {spell(held.jaw_force_n, 'force', unit)} a jaw, so that the cut does not turn the work")
    if held.squeeze is not None:
        spring = spell_number(held.squeeze.out_of_round_mm, "length", unit)
        out.append(f"so gripped it is {spring} {unit} out of round on the radius when {held.squeeze.jaws} jaws let go")
    elif held.rings:
        rings = ", ".join(f"{spell_number(each.out_of_round_mm, 'length', unit)} in {each.jaws}" for each in held.rings)
        out.append(f"out of round on the radius for {spell(1000.0, 'force', unit)} a jaw, {unit}: {rings} jaws")
    if held.growth_mm is not None and held.growth_mm >= TELLING_MM / 2:
        out.append(
            f"warm from the cut it measures up to {spell_number(held.growth_mm, 'length', unit)} {unit} too large"
        )
    return out


def _drawing(found: Answer) -> Drawing | None:
    """The profile of a thread that a tool is ground for, with the part that goes on it."""
    if found.mate is None or not isinstance(found.record, ThreadLimits):
        return None
    picture = profile_svg(found.record, found.mate, width_mm=130)
    words = f"Profile of {found.record.thread} and {found.mate.thread} with their tolerance zones; sizes in the table"
    sides = sorted((str(found.record.thread), str(found.mate.thread)))
    return Drawing(f"data:image/svg+xml,{quote(picture)}", words, "; ".join(sides).replace("-LH", ""))


def _gears(found: Answer) -> Drawing | None:
    """The change gears as they stand at the lathe, where they are changed."""
    if found.chasing is None or found.chasing.train is None or not any(each.group == "gears" for each in found.levers):
        return None
    train = found.chasing.train
    return Drawing(
        f"data:image/svg+xml,{quote(train_svg(train, width_mm=54))}",
        f"Change gears {train.gears}",
        f"gears {train.gears}",
        True,
    )


def _cut_cells(found: Answer, unit: str) -> tuple[str, ...]:
    """Speed, force, power, deflection, tool life, and what holds the cut back, as cells."""
    cut = found.cut
    if cut is None:
        return ("", "", "", "", "", "")
    force, low, high = cut.cutting_force_n, cut.cutting_force_low_n, cut.cutting_force_high_n
    if force is None:
        force, low, high = cut.feed_force_n, cut.feed_force_low_n, cut.feed_force_high_n
    shown = "" if force is None else spell(force, "cut_force", unit)
    if low is not None and high is not None:
        band = spell_span(low, high, "cut_force", unit)
        shown += f" ({band}{'' if cut.force_verified else ', unverified'})"
    power = ""
    if cut.spindle_power_kw is not None:
        most = cut.spindle_power_kw if cut.spindle_power_high_kw is None else cut.spindle_power_high_kw
        power = spell(most, "cut_power", unit)
        if cut.available_power_kw is not None:
            power += f" of {spell(cut.available_power_kw, 'power', unit)}"
    bent = cut.deflection_mm if cut.deflection_high_mm is None else cut.deflection_high_mm
    life = cut.filled("{tool_life_low_min..tool_life_high_min}") if cut.tool_life_min is not None else ""
    return (
        spell(cut.cutting_speed_m_min, "speed", unit),
        shown,
        power,
        "" if bent is None else texts.small(bent, unit),
        life or "",
        _held_back(found, cut),
    )


def _held_back(found: Answer, cut: Cut) -> str:
    """The limit that binds, what is left of it, and what would let it give."""
    if cut.operation in {"thread", "knurl"}:
        return ""
    if found.chosen is not None:
        name = found.chosen.tightest
        left = next(f", {each.share:.0%} left" for each in found.chosen.slack if each.name == name)
        held, cure = words("limit", name), words("help", name)
    else:
        helps = (cut.limited_by, cut.feed_limit)
        held, left, cure = words("limit", cut.limited_by), "", "; ".join(words("help", each) for each in helps if each)
    edge = " and ".join(words("limit", each) for each in cut.edge_limits)
    over = "" if cut.holds_at_edge is not False else f"; at the most force not held: {edge}"
    return f"{held}{left}{over}" + (f". {sentence(cure)}" if cure else "")
