"""From a plan to what its details show: what the cards leave out."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from halfnut._core import Evidence, spell, spell_span
from halfnut.core.record import Caution
from halfnut.core.words import by_rank
from halfnut.planning.job import adjuster_file
from halfnut.sheet import texts
from halfnut.sheet.cards import setups, title_of
from halfnut.sheet.operation import operation_view
from halfnut.sheet.telling import at_operations, of_the_whole, sentence, told
from halfnut.sheet.view import Details, JointView, PartDetails, PlanRow, SetupView

if TYPE_CHECKING:
    from halfnut.planning.job import Job
    from halfnut.planning.plans import Plan, PlannedJoint, PlannedPart

__all__ = ["details_of", "plan_rows"]
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
        time=spell(part.time_lot_s, "time", "mm"),
        note=", ".join(notes),
        wound="" if part.adjuster is None else adjuster_file(part.file),
        wound_error=part.adjuster_error,
    )


def details_of(plan: Plan) -> Details:
    """What limits each cut, its forces, drawings of threads, joints, and what all figures rest on."""
    items = [item for part in plan.parts for op in part.operations for item in op.evidence]
    records = (each.record for part in plan.parts for each in part.joints)
    items += [item for record in records if record is not None for item in record.evidence]
    return Details(tuple(_part(plan.job, part) for part in plan.parts), _sources(items))


def _part(job: Job, part: PlannedPart) -> PartDetails:
    heading = of_the_whole(part)
    at = at_operations(part, heading)
    said = {*heading, *(each for op in part.operations for each in op.told)}
    return PartDetails(
        title=title_of(part),
        number=part.part.number,
        stock=tuple(_stock(job, part)),
        setups=tuple(
            SetupView(
                f"Setup {each.number}, {each.machine}",
                tuple(operation_view(part, op, at.get(op.number, ())) for op in each.operations),
            )
            for each in setups(part)
        ),
        totals=(
            ("One piece", spell(part.time_each_s, "time", "mm")),
            (f"Lot of {part.part.quantity}", spell(part.time_lot_s, "time", "mm")),
        ),
        hazards=tuple(map(told, heading)),
        stock_error=part.stock_error,
        threaded=any(op.step.do in {"thread", "tap"} for op in part.operations),
        joints=tuple(_joint(each, said) for each in part.joints),
    )


def _sources(items: Iterable[Evidence]) -> tuple[tuple[str, str, str], ...]:
    """What the figures rest on, the figures of one source together; what the person gave is no source."""
    found: dict[tuple[str, str], dict[str, None]] = {}
    for item in items:
        if item.rule_id != "given":
            found.setdefault((item.source, item.kind), {})[_spoken(item.figure)] = None
    return tuple((", ".join(figures), source, kind) for (source, kind), figures in found.items())


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


def _stock(job: Job, part: PlannedPart) -> list[tuple[str, str]]:
    """How the stock is cut up, and what the coating grows."""
    unit, cut = part.unit, part.stock
    out = []
    if cut is not None:
        extras = (("Kerf", cut.kerf_mm), ("To face off an end", cut.facing_mm), ("Stub in the chuck", cut.grip_mm))
        out += [(name, spell(value, "travel", unit)) for name, value in extras if value]
    if part.part.coating is not None:
        coating = job.coatings[part.part.coating]
        grows = spell_span(coating.surface.min_um, coating.surface.max_um, "film", unit)
        finish = f", {coating.finish}" if coating.finish is not None else ""
        out.append(("Coating", f"{coating.title}{finish}: {grows} a surface"))
    return out
