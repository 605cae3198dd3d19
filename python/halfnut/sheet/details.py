"""From a plan to what its details show: what the cards leave out."""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from dataclasses import replace
from typing import TYPE_CHECKING

from halfnut._core import Evidence, spell, spell_span
from halfnut.core.record import Caution
from halfnut.core.words import by_rank
from halfnut.planning.job import adjuster_file
from halfnut.sheet import texts
from halfnut.sheet.cards import title_of
from halfnut.sheet.operation import CUT_HEADS, cut_row, remarks_of, shown_of
from halfnut.sheet.telling import at_operations, of_the_whole, sentence, told
from halfnut.sheet.view import Details, Drawing, JointView, PartDetails, PlanRow, Table

if TYPE_CHECKING:
    from halfnut.planning.plans import Plan, PlannedJoint, PlannedPart

__all__ = ["details_of", "plan_rows"]
_KINDS = ("standard", "handbook", "textbook", "measured", "common practice", "memory")
"""Kinds of evidence, the firmest first."""
_FIGURE_NAMES = {
    "window_low_m_min": "speed window",
    "window_high_m_min": "speed window",
    "mrr_cm3_min": "metal removed",
    "cutting_force_high_n": "band of the force",
    "spindle_power_high_kw": "band of the power",
    "tool_life_min": "tool life",
    "tool_life_high_min": "band of the tool life",
    "roughness_ra_um": "Ra, geometry alone",
    "spindle_rpm": "spindle speed",
    "chip_rise_k": "warmth of the chip",
    "heat_to_work_w": "heat into the work",
    "out_of_round_per_kn_mm": "out of round",
}


def plan_rows(plan: Plan) -> list[PlanRow]:
    """The parts as the opening page lists them."""
    return [_row(part) for part in plan.parts]


def _row(part: PlannedPart) -> PlanRow:
    notes = [f"{texts.count(part.failed, 'operation')} not planned"] if part.failed else []
    found = [each for each in by_rank(part.cautions) if each.rank != "note"]
    notes += [texts.count(len(found), "caution")] if found else []
    return PlanRow(
        file=part.file,
        title=title_of(part),
        number=part.part.number,
        quantity=str(part.part.quantity),
        material=part.part.alloy,
        time=str(part.span),
        note=", ".join(notes),
        wound="" if part.adjuster is None else adjuster_file(part.file),
        wound_error=part.adjuster_error,
    )


def details_of(plan: Plan) -> Details:
    """What limits each cut, its forces, drawings of threads, joints, and what all figures rest on; each fact once."""
    items = [item for part in plan.parts for op in part.operations for item in op.evidence]
    records = (each.record for part in plan.parts for each in part.joints)
    items += [item for record in records if record is not None for item in record.evidence]
    shown: set[Hashable] = set()
    parts = tuple(_part(part, shown) for part in plan.parts)
    return Details(_coatings(plan), parts, _sources(items))


def _part(part: PlannedPart, shown: set[Hashable]) -> PartDetails:
    """A part's section; a table or a drawing that is among those `shown` is not shown again."""
    heading = of_the_whole(part)
    at = at_operations(part, heading)
    said = {*heading, *(each for op in part.operations for each in op.told)}
    tables: list[Table] = []
    drawings: list[Drawing] = []
    remarks: dict[str, list[str]] = {}
    for op in part.operations:
        found_tables, found_drawings = shown_of(part, op)
        for each in found_tables:
            if (each.heads, each.rows) not in shown:
                shown.add((each.heads, each.rows))
                tables.append(replace(each, caption=f"{op.number} {each.caption}"))
        for drawing in found_drawings:
            if drawing.kind not in shown:
                shown.add(drawing.kind)
                drawings.append(drawing)
        for remark in remarks_of(part, op):
            remarks.setdefault(remark, []).append(str(op.number))
    cautions = [*map(told, heading), *(each for op in part.operations for each in at.get(op.number, ()))]
    return PartDetails(
        title=title_of(part),
        number=part.part.number,
        pairs=(
            *_stock(part),
            ("One piece", spell(part.time_each_s, "time", "mm")),
            (f"Lot of {part.part.quantity}", str(part.span)),
        ),
        cuts=Table("", CUT_HEADS, tuple(cut_row(part, op) for op in part.operations)),
        tables=tuple(tables),
        drawings=tuple(drawings),
        remarks=tuple((", ".join(numbers), remark) for remark, numbers in remarks.items()),
        cautions=tuple(cautions),
        stock_error=part.stock_error,
        threaded=any(op.step.do in {"thread", "tap"} for op in part.operations),
        joints=tuple(_joint(each, said) for each in part.joints),
    )


def _sources(items: Iterable[Evidence]) -> tuple[tuple[str, tuple[tuple[str, str], ...]], ...]:
    """What the figures rest on, by kind, the figures of one source together; what the person gave is no source."""
    found: dict[str, dict[str, dict[str, None]]] = {}
    for item in items:
        if item.rule_id != "given":
            found.setdefault(item.kind, {}).setdefault(item.source, {})[_spoken(item.figure)] = None
    kinds = sorted(found, key=lambda kind: (_KINDS.index(kind) if kind in _KINDS else len(_KINDS), kind))
    return tuple((kind, tuple((source, ", ".join(of)) for source, of in found[kind].items())) for kind in kinds)


def _coatings(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Every coating that a part bears, and what it grows, in the units of the first."""
    out: dict[str, str] = {}
    for part in plan.parts:
        if part.part.coating is not None:
            coating = plan.job.coatings[part.part.coating]
            grows = spell_span(coating.surface.min_um, coating.surface.max_um, "film", part.unit)
            finish = f"{coating.finish}: " if coating.finish is not None else ""
            out.setdefault(sentence(coating.title), f"{finish}grows {grows} a surface")
    return tuple(out.items())


def _joint(planned: PlannedJoint, said: set[Caution]) -> JointView:
    """What a joint holds, each load in the thread's own system; what was `said` before it is not said again."""
    heading = f"{planned.joint.external} in {planned.joint.internal}"
    found = planned.record
    if found is None:
        return JointView(heading, error=planned.error)
    unit = found.unit

    def force(value_n: float | None) -> str:
        return "–" if value_n is None else spell(value_n, "force", unit)

    full = spell(found.full_form_engagement_mm, "length", unit)
    pairs = [
        ("Allowed", f"{force(found.allowable_n)}, factor of safety {found.factor_of_safety:g}"),
        ("Bears", force(found.bears_n)),
        ("Breaks first", f"{found.weakest}, {force(found.weakest_n)}"),
        ("Full form", f"{full} of {spell(found.overlap_mm, 'length', unit)} overlap, {found.engaged_turns:.1f} turns"),
        ("Outside", f"{found.external_material}: thread strips at {force(found.external_stripping_n)}"),
        ("Inside", f"{found.internal_material}: thread strips at {force(found.internal_stripping_n)}"),
    ]
    if found.load_n is not None and found.factor_reached is not None:
        pairs.insert(1, ("Load", f"{force(found.load_n)}, factor {found.factor_reached:.1f}"))
    if found.external_wall_mm is not None:
        pairs.append(("Wall under the thread", spell(found.external_wall_mm, "length", unit)))
    if found.internal_wall_mm is not None:
        pairs.append(("Wall over the thread", spell(found.internal_wall_mm, "length", unit)))
    if found.engagement_practice_mm is not None:
        pairs.append(("Engaged by practice", spell(found.engagement_practice_mm, "length", unit)))
    return JointView(
        heading,
        pairs=tuple(pairs),
        remarks=tuple(map(sentence, found.advice)),
        cautions=tuple(told(each) for each in by_rank(found.cautions) if each not in said),
    )


def _spoken(figure: str) -> str:
    if figure in _FIGURE_NAMES:
        return _FIGURE_NAMES[figure]
    units = (
        "_m_min",
        "_mm_rev",
        "_mm_min",
        "_cm3_min",
        "_mm2",
        "_mpa",
        "_mm",
        "_in",
        "_um",
        "_kw",
        "_nm",
        "_n",
        "_s",
        "_rpm",
        "_k",
        "_w",
    )
    unit = next((unit for unit in units if figure.endswith(unit)), "")
    return figure.removesuffix(unit).replace("_", " ")


def _stock(part: PlannedPart) -> list[tuple[str, str]]:
    """How the stock is cut up."""
    cut = part.stock
    if cut is None:
        return []
    extras = (("Kerf", cut.kerf_mm), ("To face off an end", cut.facing_mm), ("Stub in the chuck", cut.grip_mm))
    return [(name, spell(value, "travel", part.unit)) for name, value in extras if value]
