"""The tables of an operation in the details: threads, knurls, holding."""

from __future__ import annotations

from collections.abc import Iterable

from halfnut._core import spell, spell_number
from halfnut.cutting.figures import Holding
from halfnut.knurls.figures import KnurlBlank
from halfnut.planning.answers import Answer
from halfnut.sheet import texts
from halfnut.sheet.view import Table
from halfnut.threads.figures import OverWires, TaperPipe
from halfnut.threads.standard import ThreadLimits

TELLING_MM = 0.005
"""Error of the diameter from which a sheet tells that work deflects."""


def tables_of(found: Answer, unit: str) -> list[Table]:
    """What a thread or a knurl measures before and after."""
    out = []
    record = found.record
    if isinstance(record, ThreadLimits):
        out.append(_thread_table(record, found.wires))
    if isinstance(record, TaperPipe):
        out.append(_taper_table(record))
    if isinstance(record, KnurlBlank):
        out.append(_knurl_table(record, unit))
    return out


def gives_way(found: Answer) -> Holding | None:
    """How turned work deflects, where it does so enough to tell."""
    held = found.holding
    if held is None:
        return None
    codes = {each.code for each in held.cautions}
    tells = 2 * held.bend.worst_mm >= TELLING_MM or codes & {"slender", "thin_wall", "warm_size"}
    return held if tells else None


def holding_table(found: Answer, unit: str) -> list[Table]:
    """How far the work deflects, where that is worth a table."""
    held = gives_way(found)
    if held is None:
        return []
    end = "the first centre" if held.bend.hold == "between centres" else "the jaws"
    heads = (f"from {end}", *(spell_number(each.at_mm, "travel", unit) for each in held.places[1:]))
    row = ("⌀ larger by", *(spell_number(each.larger_mm, "length", unit) for each in held.places[1:]))
    force = spell(held.bend.force_n, "force", unit)
    caption = f"Left larger than set as the work deflects, {unit}; at most {force} across it"
    return [Table(caption, heads, (row,))]


def _thread_table(record: ThreadLimits, wires: OverWires | None) -> Table:
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
        return Table(f"{record.title}, {record.unit}", heads, tuple(row[:3] for row in shown), ("measured",))
    heads = ("diameter", "cut to: max", "min", "coated: max", "min")
    return Table(f"{record.title} before coating, {record.unit}", heads, tuple(shown), ("measured",))


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


def _coated(record: ThreadLimits) -> dict[str, tuple[float | None, float | None]]:
    """Largest and smallest sizes of the coated part, where its gauges set them; nothing for a bare one."""
    if record.way in {None, "bare"}:
        return {}
    scale = 25.4 if record.unit == "in" else 1.0

    def sizes(go_mm: float | None, not_go_mm: float | None) -> tuple[float | None, float | None]:
        go, not_go = (None if each is None else each / scale for each in (go_mm, not_go_mm))
        return (go, not_go) if record.side == "external" else (not_go, go)

    crest = "major" if record.side == "external" else "minor"
    return {
        crest: sizes(record.go_after_crest_mm, record.not_go_after_crest_mm),
        "pitch": sizes(record.go_after_pitch_mm, record.not_go_after_pitch_mm),
    }


def _pair(values: Iterable[float | None], unit: str, extra: int) -> tuple[str, ...]:
    places = extra + (4 if unit == "in" else 3)
    return tuple("–" if value is None else f"{value:.{places}f}" for value in values)


def _knurl_table(record: KnurlBlank, unit: str) -> Table:
    blank = texts.diameter(record.blank_diameter_mm, unit)
    limits = ""
    if record.finished_max_mm is not None and record.finished_min_mm is not None:
        low, high = (
            spell_number(record.finished_min_mm, "length", unit),
            spell_number(record.finished_max_mm, "length", unit),
        )
        limits = f"{high} / {low}"
    rows = (
        ("blank", blank, f"± {spell_number(record.blank_plus_minus_mm, 'length', unit)}", f"{record.teeth} teeth"),
        ("knurled", texts.diameter(record.finished_diameter_mm, unit), limits, ""),
    )
    return Table(f"Knurl, {unit}", ("the work", "size", "limits", "around"), rows, ("measured",))
