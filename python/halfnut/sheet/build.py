"""From a plan to what its sheets show."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from halfnut.core.record import Caution
from halfnut.core.sizes import film, life_span, one
from halfnut.core.words import CAUTIONS, EDGE_SHORT, GEOMETRY_ALONE, LIMITS, by_rank, of_the_piece
from halfnut.cutting.chasing import ChasePass, Chasing
from halfnut.cutting.cuts import Cut
from halfnut.cutting.holding import Holding
from halfnut.drawing.gears import train_svg
from halfnut.drawing.threads import profile_svg
from halfnut.knurls.blanks import KnurlBlank
from halfnut.machine.machines import positions_text
from halfnut.planning.answers import Answer, Pass
from halfnut.planning.cut_answers import feed_ladder
from halfnut.planning.job import adjuster_file
from halfnut.sheet import texts
from halfnut.sheet.view import (
    Drawing,
    JointView,
    Levers,
    OperationView,
    PartView,
    PlanView,
    SetupView,
    SheetRow,
    Table,
    TitleBlock,
    Told,
)
from halfnut.threads.form_threads import FormLimits, TaperPipe
from halfnut.threads.gauging import OverWires
from halfnut.threads.precoating import PrecoatLimits
from halfnut.threads.standard import ThreadLimits

if TYPE_CHECKING:
    from halfnut.planning.job import Job
    from halfnut.planning.plans import Plan, PlannedJoint, PlannedOperation, PlannedPart

__all__ = ["plan_view", "told"]

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
# What heads a sheet rather than stands at an operation.
_SAID_ONCE = frozenset(
    {"backlash", "conventional", "plastic_melts", *(code for code in CAUTIONS if code.startswith("trait_"))}
)
_TELLING_MM = 0.005
"""Error of the diameter from which a sheet tells how work gives way."""
_GROUPS = {"spindle": "Spindle", "feed": "Feed", "gearbox": "Threads", "gears": "Change gears"}
_ENDS = {"first": "First end", "second": "Turned round, second end"}


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
        ("Time", texts.duration(plan.time_s)),
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
        time=texts.duration(part.time_lot_s),
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
    heading = _of_the_whole(part)
    at = _at_operations(part, heading)
    said = {*heading, *(each for op in part.operations for each in op.told)}
    return PartView(
        block=_block(job, _title(part), job.title, "Setup sheet", part.part.number, sheet),
        file=part.file,
        stock=tuple(_stock(job, part)),
        setups=tuple(_setups(part, at)),
        totals=(
            ("One piece", texts.duration(part.time_each_s)),
            (f"Lot of {part.part.quantity}", texts.duration(part.time_lot_s)),
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
    heading = f"{planned.joint.outside} in {planned.joint.inside}"
    found = planned.record
    if found is None:
        return JointView(heading, error=planned.error)
    unit = found.unit

    def force(value_n: float | None) -> str:
        return "–" if value_n is None else texts.force(value_n, unit)

    full = one(found.full_form_engagement_mm, unit)
    pairs = [
        ("Allowed", f"{force(found.allowable_n)}, factor of safety {found.factor_of_safety:g}"),
        ("Bears", force(found.bears_n)),
        ("Breaks first", f"{found.weakest}, {force(found.weakest_n)}"),
        ("Full form", f"{full} of {one(found.overlap_mm, unit)} overlap, {found.engaged_turns:.1f} turns"),
        ("Outside", f"{found.external_material}: thread strips at {force(found.external_stripping_n)}"),
        ("Inside", f"{found.internal_material}: thread strips at {force(found.internal_stripping_n)}"),
    ]
    if found.load_n is not None and found.factor_reached is not None:
        pairs.insert(1, ("Load", f"{force(found.load_n)}, factor {found.factor_reached:.1f}"))
    if found.external_wall_mm is not None:
        pairs.append(("Wall under the thread", one(found.external_wall_mm, unit)))
    if found.internal_wall_mm is not None:
        pairs.append(("Wall over the thread", one(found.internal_wall_mm, unit)))
    if found.engagement_practice_mm is not None:
        pairs.append(("Engaged by practice", one(found.engagement_practice_mm, unit)))
    return JointView(
        heading,
        pairs=tuple(pairs),
        remarks=tuple(map(_sentence, found.advice)),
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


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]


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
        out.append(("Saw to", f"{texts.length(cut.blank_mm, unit)}{pieces}"))
        extras = (("Kerf", cut.kerf_mm), ("To face off an end", cut.facing_mm), ("Stub in the chuck", cut.grip_mm))
        out += [(name, texts.length(value, unit)) for name, value in extras if value]
        if cut.bars is not None and cut.left_mm is not None:
            of = texts.length(given.bar_length.base, unit) if given.bar_length is not None else ""
            bars = texts.count(cut.bars, "bar")
            out.append(("Bars", f"{bars} of {of}, the last leaves {texts.length(cut.left_mm, unit)}"))
    out += [("Finished length", str(part.part.length)), ("Pieces", str(part.part.quantity))]
    if part.part.coating is not None:
        coating = job.coatings[part.part.coating]
        grows = film(coating.surface.min_um, coating.surface.max_um, unit)
        finish = f", {coating.finish}" if coating.finish is not None else ""
        out.append(("Coating", f"{coating.title}{finish}: {grows} a surface"))
    return out


def _setups(part: PlannedPart, at: Mapping[int, Sequence[Told]]) -> list[SetupView]:
    groups: list[tuple[tuple[str, str, str], list[PlannedOperation]]] = []
    for op in part.operations:
        key = (op.machine.title, op.step.end, op.step.holding or "")
        if not groups or groups[-1][0] != key:
            groups.append((key, []))
        groups[-1][1].append(op)
    out = []
    both = any(op.step.end == "second" for op in part.operations)
    for (machine, end, holding), operations in groups:
        heading = _ENDS[end] if both else "At the machine"
        where = " · ".join(filter(None, (machine, holding)))
        out.append(SetupView(heading, where, tuple(_operation(part, op, at.get(op.number, ())) for op in operations)))
    return out


def _operation(part: PlannedPart, op: PlannedOperation, cautions: Sequence[Told]) -> OperationView:
    found = op.answer
    head: dict[str, Any] = {
        "number": op.number,
        "anchor": f"op-{op.number}",
        "heading": _heading(op),
    }
    note = (op.step.note,) if op.step.note else ()
    if found is None:
        return OperationView(**head, size="", error=op.error, remarks=note)
    return OperationView(
        **head,
        size=_size(found, part.unit, op.step.do),
        with_what=_tool(found),
        levers=tuple(_levers(found, op)),
        tables=(*_tables(found, part.unit), *_holding_table(found, part.unit)),
        drawing=_drawing(found),
        gears=_gears(found),
        steps=_steps(found),
        figures=tuple(_figures(found, part.unit)),
        remarks=tuple(
            map(
                _sentence,
                (*note, *_resets(found), *found.remarks, *_holding_remarks(found, part.unit)),
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


def told(item: Caution, also: Sequence[int] = ()) -> Told:
    """A caution as a sheet tells it; `also` are the numbers of other operations that it goes with."""
    where = f" Also at {', '.join(map(str, also))}." if also else ""
    return Told(item.rank, item.label, f"{_sentence(item.text)}.{where}")


def _of_the_whole(part: PlannedPart) -> list[Caution]:
    """What is told once at a part's head: its metal, its finish, and what goes with most of its operations."""
    at_once = [each for op in part.operations for each in op.told if _heads(each)]
    return by_rank([*part.standing, *at_once])


def _heads(item: Caution) -> bool:
    return of_the_piece(item.code) or item.code in _SAID_ONCE


def _at_operations(part: PlannedPart, heading: Sequence[Caution]) -> dict[int, list[Told]]:
    """By its number, what each operation is the first to tell."""
    places: dict[Caution, list[int]] = {}
    for op in part.operations:
        for each in op.told:
            if each not in heading:
                places.setdefault(each, []).append(op.number)
    out: dict[int, list[Told]] = {}
    for each in by_rank(places):
        first, *others = places[each]
        out.setdefault(first, []).append(told(each, () if each.rank == "note" else others))
    return out


def _size(found: Answer, unit: str, do: str) -> str:
    sizes = found.sizes
    long = f" × {texts.length(sizes['length_mm'], unit)}" if "length_mm" in sizes else ""
    if "thread" in sizes:
        return f"{sizes['thread']}{long}"
    if "to_diameter_mm" in sizes:
        return (
            f"{texts.diameter(sizes['start_diameter_mm'], unit)} → "
            f"{texts.diameter(sizes['to_diameter_mm'], unit)}{long}"
        )
    if "shape" in sizes:
        across, down = texts.length(sizes["cut_width_mm"], unit), texts.length(sizes["cut_depth_mm"], unit)
        along = texts.length(sizes["length_mm"], unit, with_unit=False)
        return f"{along} × {across}, {down} deep, cutter {texts.diameter(sizes['cutter_mm'], unit)}"
    if "depth_mm" in sizes:
        return f"{texts.diameter(sizes['diameter_mm'], unit)}, {texts.length(sizes['depth_mm'], unit)} deep"
    if "off_mm" in sizes:
        return f"{texts.diameter(sizes['start_diameter_mm'], unit)}, {texts.length(sizes['off_mm'], unit)} off"
    if isinstance(found.record, KnurlBlank):
        blank = found.record
        return f"{blank.pitch} {blank.pattern}, {texts.length(sizes['width_mm'], unit)} wide"
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


def _levers(found: Answer, op: PlannedOperation) -> list[Levers]:
    cut = found.cut
    gives = {"gearbox": _lead(found, op), "gears": _lead(found, op)}
    if any(each.group == "gears" for each in found.levers):
        gives["gearbox"] = ""
    if cut is not None:
        speed = f"{cut.spindle_rpm:.0f} rev/min"
        gives["spindle"] = f"by hand, or at most {speed}" if cut.by_hand else speed
        gives["feed"] = _feed(cut, op)
    out = [Levers(_GROUPS[each.group], gives[each.group], each.positions, each.stop) for each in found.levers]
    if cut is not None and cut.feed_source == "hand" and cut.hand_turns_per_min is not None:
        turns = f"{cut.hand_turns_per_min:.{0 if cut.hand_turns_per_min >= 10 else 1}f}"
        out.append(Levers("Feed by hand", "", (("turns of the handle a minute", turns),)))
    return out


def _lead(found: Answer, op: PlannedOperation) -> str:
    lead_mm = found.sizes.get("lead_mm")
    if lead_mm is None:
        return ""
    per_inch = 25.4 / lead_mm
    if abs(per_inch * 4 - round(per_inch * 4)) < 1e-9:
        return f"{per_inch:g} an inch"
    return f"{lead_mm:g} mm"


def _feed(cut: Cut, op: PlannedOperation) -> str:
    if cut.feed_marked is None:
        return ""
    ladder = feed_ladder(cut, op.machine)
    unit = "in" if ladder.marked_in_inch else "mm"
    if ladder.kind == "per minute":
        return f"{cut.feed_marked:g} {unit}/min"
    marked_mm = cut.feed_marked * (25.4 if unit == "in" else 1.0)
    shown = texts.feed(marked_mm, unit)
    if cut.feed_mm_rev is not None and abs(marked_mm - cut.feed_mm_rev) > 1e-9:
        shown += f", across {texts.feed(cut.feed_mm_rev, unit)}"
    return shown


def _tables(found: Answer, unit: str) -> list[Table]:
    out = []
    if found.passes:
        out.append(_pass_table(found, unit))
    record = found.record
    if isinstance(record, (ThreadLimits, FormLimits)):
        out.append(_thread_table(record, found.wires))
    if isinstance(record, TaperPipe):
        out.append(_taper_table(record))
    if found.chasing is not None:
        out.append(_chase_table(found.chasing))
    if isinstance(record, KnurlBlank):
        out.append(_knurl_table(record, unit))
    return out


def _gives_way(found: Answer) -> Holding | None:
    """How turned work gives way, where it does so enough to tell."""
    held = found.holding
    if held is None:
        return None
    codes = {each.code for each in held.cautions}
    tells = 2 * held.bend.worst_mm >= _TELLING_MM or codes & {"slender", "thin_wall", "warm_size"}
    return held if tells else None


def _holding_table(found: Answer, unit: str) -> list[Table]:
    held = _gives_way(found)
    if held is None:
        return []
    end = "the first centre" if held.bend.hold == "between centres" else "the jaws"
    heads = (f"from {end}", *(texts.length(at, unit, with_unit=False) for at, _ in held.places[1:]))
    row = ("⌀ larger by", *(texts.depth(larger, unit) for _, larger in held.places[1:]))
    force = texts.force(held.bend.force_n, unit)
    caption = f"Left larger than set as the work bends, {unit}; at most {force} across it"
    return [Table(caption, heads, (row,))]


def _holding_remarks(found: Answer, unit: str) -> list[str]:
    held = _gives_way(found)
    if held is None:
        return []
    out = list(held.ways)
    others = ", ".join(f"{name} {texts.depth(value, unit)}" for name, value in held.other_ways.items())
    out.append(f"bends {texts.depth(held.bend.worst_mm, unit)} {unit} as held; {others}")
    if held.jaw_force_n is not None:
        out.append(f"grip {texts.force(held.jaw_force_n, unit)} a jaw, so that the cut does not turn the work")
    if held.squeeze is not None:
        spring = texts.depth(held.squeeze.out_of_round_mm, unit)
        out.append(f"so gripped it is {spring} {unit} out of round on the radius when {held.squeeze.jaws} jaws let go")
    elif held.out_of_round_per_kn_mm:
        rings = ", ".join(f"{texts.depth(v, unit)} in {n}" for n, v in held.out_of_round_per_kn_mm.items())
        out.append(f"out of round on the radius for {texts.force(1000.0, unit)} a jaw, {unit}: {rings} jaws")
    if held.growth_mm is not None and held.growth_mm >= _TELLING_MM / 2:
        out.append(f"warm from the cut it measures up to {texts.depth(held.growth_mm, unit)} {unit} too large")
    return out


def _pass_table(found: Answer, unit: str) -> Table:
    left_on = "off_mm" in found.sizes
    deep = "depth_mm" in found.sizes or "shape" in found.sizes
    first = found.passes[0].reading
    dial = f"{found.dial} dial" if found.dial else "dial"
    heads: tuple[str, ...]
    heads = (
        "pass",
        "depth",
        "still on" if left_on else "reached" if deep else "⌀ after",
        f"{dial}: turns",
        "line",
        "from the line",
    )
    rows: list[tuple[str, ...]] = []
    for each in found.passes:
        size = texts.depth(each.size_mm, unit) if left_on or deep else texts.diameter(each.size_mm, unit)
        rows.append((_pass_name(each), texts.depth(each.depth_mm, unit), size, *_dial(each)))
    shown = 3 if first is None else 6 if any(row[5] for row in rows) else 5
    heads, rows = heads[:shown], [row[:shown] for row in rows]
    what = "Depth, the point counted" if "depth_mm" in found.sizes else "Passes"
    caption = f"{what}, {unit}; the {dial} at 0 where the tool touches"
    return Table(caption, heads, tuple(rows), ("measured",))


def _pass_name(each: Pass) -> str:
    return f"{each.number}, measure first" if each.measure else f"{each.number}"


def _resets(found: Answer) -> list[str]:
    """Levers to set between passes, where they stand elsewhere."""
    out = []
    standing = found.levers
    for each in found.passes:
        moved = [group for group in each.levers if group not in standing]
        if moved:
            to = "; ".join(f"{group.group} {positions_text(dict(group.positions))}" for group in moved)
            out.append(f"Before pass {each.number} set the {to}")
        standing = each.levers or standing
    return out


def _dial(each: Pass) -> tuple[str, str, str]:
    if each.reading is None:
        return ("", "", "")
    return (str(each.reading.turns), str(each.reading.line), each.reading.remainder)


def _thread_table(record: ThreadLimits | FormLimits, wires: OverWires | None) -> Table:
    """The sizes to cut, what to read over wires, and beside them what the coated part is gauged at."""
    coated = _coated(record)
    scale = 25.4 if record.unit == "in" else 1.0
    rows = [
        (name, (getattr(record, f"{name}_max"), getattr(record, f"{name}_min")), coated.get(name, (None, None)))
        for name in ("major", "pitch", "minor")
    ]
    shown = [(name, *_pair(cut, record.unit, 0), *_pair(after, record.unit, 0)) for name, cut, after in rows]
    if wires is not None:
        reads = (wires.over_max_mm / scale, wires.over_min_mm / scale)
        later = tuple(None if each is None else each / scale for each in (wires.coated_max_mm, wires.coated_min_mm))
        how, what = ("over", "wires") if record.side == "external" else ("across", "balls")
        tool = _pair((wires.wire_mm / scale,), record.unit, 1)[0]
        shown.append((f"{how} ⌀{tool} {what}", *_pair(reads, record.unit, 1), *_pair(later, record.unit, 1)))
    if not coated:
        heads: tuple[str, ...] = ("diameter", "max", "min")
        name = record.title if isinstance(record, FormLimits) else record.thread
        return Table(f"{name}, {record.unit}", heads, tuple(row[:3] for row in shown), ("measured",))
    heads = ("diameter", "cut to: max", "min", "coated: max", "min")
    return Table(f"{record.thread} before coating, {record.unit}", heads, tuple(shown), ("measured",))


def _taper_table(record: TaperPipe) -> Table:
    """Where the gauge stands, and the sizes there: a taper thread has no limits."""
    unit = record.unit
    scale = 25.4 if unit == "in" else 1.0
    planes = (
        ("at the small end", record.pitch_small_end_mm),
        (f"{record.hand_engagement_mm / scale:.3f} {unit} from it", record.pitch_gauge_plane_mm),
    )
    height = record.thread_height_mm
    rows = tuple(
        (name, *_pair(((pitch + sign * height) / scale for sign in (1, 0, -1)), unit, 0)) for name, pitch in planes
    )
    low, high = (record.hand_turns + sign * record.tolerance_turns for sign in (-1, 1))
    caption = f"{record.thread}, {unit}, taper 1:16; gauge goes in {low:.1f} to {high:.1f} turns by hand"
    return Table(caption, ("", "major ⌀", "pitch ⌀", "minor ⌀"), rows, ("measured",))


def _coated(record: ThreadLimits | FormLimits) -> dict[str, tuple[float | None, float | None]]:
    """Largest and smallest sizes of the coated part, where its gauges set them; nothing for a bare one."""
    if not isinstance(record, PrecoatLimits) or record.way == "bare":
        return {}
    scale = 25.4 if record.unit == "in" else 1.0
    go, not_go, crest = (
        each / scale for each in (record.go_after_pitch_mm, record.not_go_after_pitch_mm, record.go_after_crest_mm)
    )
    if record.side == "external":
        return {"major": (crest, record.uncoated.major_min), "pitch": (go, not_go)}
    return {"minor": (record.uncoated.minor_max, crest), "pitch": (not_go, go)}


def _pair(values: Iterable[float | None], unit: str, extra: int) -> tuple[str, ...]:
    places = extra + (4 if unit == "in" else 3)
    return tuple("–" if value is None else f"{value:.{places}f}" for value in values)


def _drawing(found: Answer) -> Drawing | None:
    """The profile of a thread that a tool is ground for, with the part that goes on it."""
    if found.mate is None or not isinstance(found.record, (ThreadLimits, FormLimits)):
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


def _chase_table(found: Chasing) -> Table:
    """The passes from the stop to measure on; those before it are in the caption, as lines of the dial."""
    before = [str(each.line) for each in found.passes if each.number < found.stop.number]
    word = ", measure" if found.taper is None else ", try the gauge"

    def read(each: ChasePass) -> str:
        if found.taper is not None:
            return f"{found.gauge_turns(each.left_mm):.1f}"
        return "–" if each.over_wires_mm is None else texts.depth(each.over_wires_mm, found.unit)

    rows = tuple(
        (
            f"{each.line}{word if each.measure else ''}",
            read(each),
            texts.depth(each.left_mm, found.unit),
            f"{each.left_lines:.1f}",
        )
        for each in found.passes[found.stop.number - 1 :]
    )
    reading = "across balls" if found.side == "internal" else "over wires"
    if found.taper is not None:
        reading = "turns of the gauge left"
    caption = f"Lines of the {found.slide} from touching, {found.unit}: {', '.join([*before, 'then'])}"
    return Table(caption, ("line", reading, "left on the pitch ⌀", "lines left"), rows, ("measured",))


def _knurl_table(record: KnurlBlank, unit: str) -> Table:
    blank = texts.diameter(record.blank_diameter_mm, unit)
    limits = ""
    if record.finished_max_mm is not None and record.finished_min_mm is not None:
        low, high = texts.depth(record.finished_min_mm, unit), texts.depth(record.finished_max_mm, unit)
        limits = f"{high} / {low}"
    rows = (
        ("blank", blank, f"± {texts.depth(record.blank_plus_minus_mm, unit)}", f"{record.teeth} teeth"),
        ("knurled", texts.diameter(record.finished_diameter_mm, unit), limits, ""),
    )
    return Table(f"Knurl, {unit}", ("the work", "size", "limits", "around"), rows, ("measured",))


def _force_band(low: float | None, high: float | None, cut: Cut, unit: str) -> list[tuple[str, str]]:
    if low is None or high is None:
        return []
    state = "checked on measured cuts" if cut.force_verified else "unverified"
    return [("likely", f"{texts.force_span(low, high, unit)}, {state}")]


def _figures(found: Answer, unit: str) -> list[tuple[str, str]]:
    cut = found.cut
    out: list[tuple[str, str]] = []
    if cut is not None:
        out.append(("cutting speed", texts.speed(cut.cutting_speed_m_min, unit)))
        if cut.cutting_force_n is not None:
            out.append(("force", texts.force(cut.cutting_force_n, unit)))
            out += _force_band(cut.cutting_force_low_n, cut.cutting_force_high_n, cut, unit)
        elif cut.feed_force_n is not None:
            out.append(("thrust", texts.force(cut.feed_force_n, unit)))
            out += _force_band(cut.feed_force_low_n, cut.feed_force_high_n, cut, unit)
        if cut.spindle_power_kw is not None:
            available, high = "", cut.spindle_power_high_kw
            if cut.available_power_kw is not None:
                available = f" of {texts.power(cut.available_power_kw, unit)}"
            most = "" if high is None else f", up to {texts.power(high, unit)}"
            out.append(("spindle power", texts.power(cut.spindle_power_kw, unit) + most + available))
        if cut.torque_nm is not None:
            out.append(("torque", texts.torque(cut.torque_nm, unit)))
        if cut.deflection_mm is not None:
            bent = texts.small(cut.deflection_mm, unit)
            if cut.deflection_high_mm is not None:
                bent += f", up to {texts.small(cut.deflection_high_mm, unit)}"
            out.append(("deflection", bent))
        if cut.holds_at_edge is not None:
            out.append(("at the most force", EDGE_SHORT[cut.holds_at_edge].format(limits=cut.edge_limits)))
        if cut.tool_life_min is not None:
            likely = life_span(cut.tool_life_low_min or 0.0, cut.tool_life_high_min or 0.0)
            out += [("tool life", f"{likely}, unverified")] if likely else []
        if cut.roughness_ra_um is not None:
            out.append(("Ra", f"{texts.roughness(cut.roughness_ra_um, unit)}, {GEOMETRY_ALONE}"))
        if found.chasing is not None and cut.time_s is not None:
            out.append(("one pass", texts.duration(cut.time_s)))
    out.append(("time", texts.duration(found.time_s)))
    if found.chosen is not None:
        name = found.chosen.tightest
        out.append(("of which cutting", texts.duration(found.chosen.shares_s["cutting"])))
        out.append(("least is left of", f"{LIMITS.get(name, name)}, {found.chosen.slack[name]:.0%}"))
    elif cut is not None and cut.operation not in {"thread", "knurl"}:
        out.append(("limited by", LIMITS.get(cut.limited_by, cut.limited_by)))
    return out
