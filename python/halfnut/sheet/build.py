"""From a plan to what its sheets show."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut._core import spell, spell_span
from halfnut.core.record import Caution
from halfnut.core.words import by_rank
from halfnut.planning.job import adjuster_file
from halfnut.sheet import texts
from halfnut.sheet.operation import setups
from halfnut.sheet.telling import at_operations, of_the_whole, sentence, told
from halfnut.sheet.view import JointView, PartView, PlanView, SheetRow, TitleBlock

if TYPE_CHECKING:
    from halfnut.planning.job import Job
    from halfnut.planning.plans import Plan, PlannedJoint, PlannedPart

__all__ = ["plan_view"]
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


def plan_view(plan: Plan) -> PlanView:
    """Everything that the sheets of a plan show."""
    job = plan.job
    total = len(plan.parts) + 1
    parts = tuple(_part(job, part, f"{place + 2} / {total}") for place, part in enumerate(plan.parts))
    rows = tuple(row for part in plan.parts for row in (_row(part), *_adjuster_row(part)))
    pieces = sum(part.part.quantity for part in plan.parts)
    totals = (
        ("Parts", f"{len(plan.parts)}"),
        ("Pieces", f"{pieces}"),
        ("Time", spell(plan.time_s, "time", "mm")),
        *((("Not planned", texts.count(plan.failed, "operation")),) if plan.failed else ()),
    )
    return PlanView(_block(job, job.title, "", "Job sheet", job.number, f"1 / {total}"), parts, rows, totals)


def _block(job: Job, title: str, supplementary: str, kind: str, number: str, sheet: str) -> TitleBlock:
    return TitleBlock(
        title=title,
        supplementary=supplementary,
        document_type=kind,
        identification=number,
        revision=job.revision,
        date=job.date,
        owner=job.owner,
        created_by=job.prepared_by,
        approved_by=job.approved_by,
        sheet=sheet,
    )


def _row(part: PlannedPart) -> SheetRow:
    notes = [f"{texts.count(part.failed, 'operation')} not planned"] if part.failed else []
    found = [each for each in by_rank(part.cautions) if each.rank != "note"]
    notes += [texts.count(len(found), "caution")] if found else []
    return SheetRow(
        file=part.file,
        title=_title(part),
        number=part.part.number,
        quantity=str(part.part.quantity),
        material=part.part.alloy,
        time=spell(part.time_lot_s, "time", "mm"),
        note=", ".join(notes),
    )


def _adjuster_row(part: PlannedPart) -> list[SheetRow]:
    if part.part.adjuster is None:
        return []
    found = part.adjuster
    return [
        SheetRow(
            file=part.file if found is None else adjuster_file(part.file),
            title=f"{_title(part)}: how far to wind it",
            number=part.part.number,
            quantity="",
            material=part.part.alloy,
            time="",
            note=part.adjuster_error
            if found is None
            else texts.count(sum(each.rank != "note" for each in found.cautions), "caution"),
        )
    ]


def _title(part: PlannedPart) -> str:
    return part.part.title or part.part.name


def _part(job: Job, part: PlannedPart, sheet: str) -> PartView:
    heading = of_the_whole(part)
    at = at_operations(part, heading)
    said = {*heading, *(each for op in part.operations for each in op.told)}
    return PartView(
        block=_block(job, _title(part), job.title, "Setup sheet", part.part.number, sheet),
        file=part.file,
        stock=tuple(_stock(job, part)),
        setups=tuple(setups(part, at)),
        totals=(
            ("One piece", spell(part.time_each_s, "time", "mm")),
            (f"Lot of {part.part.quantity}", spell(part.time_lot_s, "time", "mm")),
        ),
        sources=_sources(part),
        failed=part.failed,
        remarks=(part.part.note,) if part.part.note else (),
        hazards=tuple(map(told, heading)),
        stock_error=part.stock_error,
        threaded=any(op.step.do in {"thread", "tap"} for op in part.operations),
        joints=tuple(_joint(each, said) for each in part.joints),
    )


def _sources(part: PlannedPart) -> tuple[tuple[str, str, str], ...]:
    """What the figures rest on, the figures of one source together; what the person gave is no source."""
    found: dict[tuple[str, str], dict[str, None]] = {}
    items = [item for op in part.operations for item in op.evidence]
    items += [item for each in part.joints if each.record is not None for item in each.record.evidence]
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
    given, unit, cut = part.part.stock, part.unit, part.stock
    sizes = {
        "bar": lambda: f"bar ⌀{given.diameter}",
        "tube": lambda: f"tube ⌀{given.diameter} × ⌀{given.bore}",
        "hexagon": lambda: f"hexagon {given.across_flats} across flats",
        "plate": lambda: f"plate {given.thickness} × {given.width}",
    }
    out = [("Material", part.part.alloy), ("Stock", sizes[given.form]())]
    if cut is not None:
        pieces = f" for {cut.pieces_a_blank} pieces" if cut.pieces_a_blank > 1 else ""
        out.append(("Saw to", f"{spell(cut.blank_mm, 'travel', unit)}{pieces}"))
        extras = (("Kerf", cut.kerf_mm), ("To face off an end", cut.facing_mm), ("Stub in the chuck", cut.grip_mm))
        out += [(name, spell(value, "travel", unit)) for name, value in extras if value]
        if cut.bars is not None and cut.left_mm is not None:
            of = spell(given.bar_length.base, "travel", unit) if given.bar_length is not None else ""
            bars = texts.count(cut.bars, "bar")
            out.append(("Bars", f"{bars} of {of}, the last leaves {spell(cut.left_mm, 'travel', unit)}"))
    out += [("Finished length", str(part.part.length)), ("Pieces", str(part.part.quantity))]
    if part.part.coating is not None:
        coating = job.coatings[part.part.coating]
        grows = spell_span(coating.surface.min_um, coating.surface.max_um, "film", unit)
        finish = f", {coating.finish}" if coating.finish is not None else ""
        out.append(("Coating", f"{coating.title}{finish}: {grows} a surface"))
    return out
