"""An operation as the details show it: its passes and sizes, drawings, steps, forces and limits."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from halfnut._core import spell, spell_number, spell_span
from halfnut.core.words import words
from halfnut.cutting.cuts import Cut
from halfnut.drawing.gears import train_svg
from halfnut.drawing.threads import profile_svg
from halfnut.knurls.blanks import KnurlBlank
from halfnut.planning.answers import Answer
from halfnut.sheet import texts
from halfnut.sheet.tables import TELLING_MM, gives_way, holding_table, tables_of
from halfnut.sheet.telling import sentence
from halfnut.sheet.view import Drawing, OperationView, Told
from halfnut.threads.standard import ThreadLimits

__all__ = ["operation_view"]

if TYPE_CHECKING:
    from halfnut.planning.plans import PlannedOperation, PlannedPart

_DO = {
    "turn": "Turn",
    "taper": "Turn a taper",
    "groove": "Groove",
    "spot": "Spot",
    "countersink": "Countersink",
    "counterbore": "Counterbore",
    "saw": "Slit with a saw",
    "face": "Face",
    "bore": "Bore",
    "part off": "Part off",
    "drill": "Drill",
    "ream": "Ream",
    "tap": "Tap",
    "mill": "Mill",
    "thread": "Thread",
    "knurl": "Knurl",
}


def operation_view(part: PlannedPart, op: PlannedOperation, cautions: Sequence[Told]) -> OperationView:
    """An operation as the details show it, with what is told of it."""
    found = op.answer
    head: dict[str, Any] = {"number": op.number, "heading": _heading(op)}
    note = (op.step.note,) if op.step.note else ()
    if found is None:
        return OperationView(**head, size="", error=op.error, remarks=note)
    return OperationView(
        **head,
        size=_size(found, part.unit, op.step.do),
        with_what=_tool(found),
        tables=(*tables_of(found, part.unit), *holding_table(found, part.unit)),
        drawing=_drawing(found),
        gears=_gears(found),
        steps=_steps(found),
        figures=tuple(_figures(found, part.unit)),
        remarks=tuple(
            map(
                sentence,
                (*note, *found.remarks, *_holding_remarks(found, part.unit)),
            )
        ),
        cautions=tuple(cautions),
    )


def _steps(found: Answer) -> tuple[str, ...]:
    for way in (found.chasing, found.knurling):
        if way is not None:
            return tuple(way.steps())
    return ()


def _heading(op: PlannedOperation) -> str:
    shape = f" a {op.step.shape}" if op.step.do == "mill" else ""
    finish = " to finish" if getattr(op.step, "finish", False) else ""
    times = f", {op.step.times} times" if op.step.times > 1 else ""
    return f"{_DO[op.step.do]}{shape}{finish}{times}"


def _size(found: Answer, unit: str, do: str) -> str:
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
    return Drawing(f"data:image/svg+xml,{quote(picture)}", words)


def _gears(found: Answer) -> Drawing | None:
    """The change gears as they stand at the lathe, where they are changed."""
    if found.chasing is None or found.chasing.train is None or not any(each.group == "gears" for each in found.levers):
        return None
    train = found.chasing.train
    return Drawing(f"data:image/svg+xml,{quote(train_svg(train, width_mm=54))}", f"Change gears {train.gears}")


def _force_band(low: float | None, high: float | None, cut: Cut, unit: str) -> list[tuple[str, str]]:
    if low is None or high is None:
        return []
    state = "checked on measured cuts" if cut.force_verified else "unverified"
    return [("likely", f"{spell_span(low, high, 'force', unit)}, {state}")]


def _figures(found: Answer, unit: str) -> list[tuple[str, str]]:
    cut = found.cut
    out: list[tuple[str, str]] = []
    if cut is not None:
        out.append(("cutting speed", spell(cut.cutting_speed_m_min, "speed", unit)))
        if cut.cutting_force_n is not None:
            out.append(("force", spell(cut.cutting_force_n, "force", unit)))
            out += _force_band(cut.cutting_force_low_n, cut.cutting_force_high_n, cut, unit)
        elif cut.feed_force_n is not None:
            out.append(("thrust", spell(cut.feed_force_n, "force", unit)))
            out += _force_band(cut.feed_force_low_n, cut.feed_force_high_n, cut, unit)
        if cut.spindle_power_kw is not None:
            available, high = "", cut.spindle_power_high_kw
            if cut.available_power_kw is not None:
                available = f" of {spell(cut.available_power_kw, 'power', unit)}"
            most = "" if high is None else f", up to {spell(high, 'power', unit)}"
            out.append(("spindle power", spell(cut.spindle_power_kw, "power", unit) + most + available))
        if cut.torque_nm is not None:
            out.append(("torque", spell(cut.torque_nm, "torque", unit)))
        if cut.deflection_mm is not None:
            bent = texts.small(cut.deflection_mm, unit)
            if cut.deflection_high_mm is not None:
                bent += f", up to {texts.small(cut.deflection_high_mm, unit)}"
            out.append(("deflection", bent))
        if cut.edge_text:
            out.append(("at the most force", f"{cut.edge_limits} {'held' if cut.holds_at_edge else 'NOT held'}"))
        if cut.tool_life_min is not None:
            likely = cut.filled("{tool_life_low_min..tool_life_high_min}, unverified")
            out += [("tool life", likely)] if likely else []
        if cut.roughness_ra_um is not None:
            out.append(("Ra", f"{spell(cut.roughness_ra_um, 'roughness', unit)}, {words('said', 'geometry_alone')}"))
        if found.chasing is not None and cut.time_s is not None:
            out.append(("one pass", spell(cut.time_s, "time", "mm")))
    out.append(("time", spell(found.time_s, "time", "mm")))
    if found.chosen is not None:
        name = found.chosen.tightest
        out.append(("of which cutting", spell(found.chosen.shares_s["cutting"], "time", "mm")))
        out.append(("least is left of", f"{words('limit', name)}, {found.chosen.slack[name]:.0%}"))
    elif cut is not None and cut.operation not in {"thread", "knurl"}:
        out.append(("limited by", cut.limit_words))
    return out
