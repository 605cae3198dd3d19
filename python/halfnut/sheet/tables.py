"""The tables of an operation on a sheet: passes, threads, chasing, knurls, holding."""

from __future__ import annotations

from collections.abc import Iterable

from halfnut._core import spell, spell_number
from halfnut.core.words import words
from halfnut.cutting.chasing import ChasePass, Chasing
from halfnut.cutting.holding import Holding
from halfnut.knurls.blanks import KnurlBlank
from halfnut.planning.answers import Answer, Pass
from halfnut.sheet import texts
from halfnut.sheet.view import Table
from halfnut.threads.gauging import OverWires
from halfnut.threads.precoating import PrecoatLimits
from halfnut.threads.standard import ThreadLimits
from halfnut.threads.taper_pipes import TaperPipe

TELLING_MM = 0.005
"""Error of the diameter from which a sheet tells that work deflects."""


def tables_of(found: Answer, unit: str) -> list[Table]:
    """The tables of an operation."""
    out = []
    if found.passes:
        out.append(_pass_table(found, unit))
    record = found.record
    if isinstance(record, ThreadLimits):
        out.append(_thread_table(record, found.wires))
    if isinstance(record, TaperPipe):
        out.append(_taper_table(record))
    if found.chasing is not None:
        out.append(_chase_table(found.chasing))
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


def _pass_table(found: Answer, unit: str) -> Table:
    left_on = "off_mm" in found.sizes
    deep = "depth_mm" in found.sizes or "shape" in found.sizes
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
        size = spell_number(each.size_mm, "length", unit) if left_on or deep else texts.diameter(each.size_mm, unit)
        rows.append((_pass_name(each), spell_number(each.depth_mm, "length", unit), size, *_dial(each)))
    shown = 3 if all(each.reading is None for each in found.passes) else 6 if any(row[5] for row in rows) else 5
    heads, rows = heads[:shown], [row[:shown] for row in rows]
    what = "Depth, the point counted" if "depth_mm" in found.sizes else "Passes"
    caption = f"{what}, {unit}; the {dial} at 0 where the tool touches"
    chosen = found.chosen
    if chosen is not None and chosen.instrument != "none" and any(each.measure for each in found.passes):
        caption += f"; measure with {words('instrument', chosen.instrument)}"
    return Table(caption, heads, tuple(rows), ("measured",))


def _pass_name(each: Pass) -> str:
    return f"{each.number}, measure first" if each.measure else f"{each.number}"


def _dial(each: Pass) -> tuple[str, str, str]:
    if each.reading is None:
        return (words("said", "as_measured") if each.measure else "", "", "")
    return (str(each.reading.turns), str(each.reading.line), each.reading.remainder)


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
    if not isinstance(record, PrecoatLimits) or record.way == "bare":
        return {}
    scale = 25.4 if record.unit == "in" else 1.0
    go, not_go = record.go_after_pitch_mm / scale, record.not_go_after_pitch_mm / scale
    crest = None if record.go_after_crest_mm is None else record.go_after_crest_mm / scale
    if record.side == "external":
        return {"major": (crest, record.uncoated.major_min), "pitch": (go, not_go)}
    return {"minor": (record.uncoated.minor_max, crest), "pitch": (not_go, go)}


def _pair(values: Iterable[float | None], unit: str, extra: int) -> tuple[str, ...]:
    places = extra + (4 if unit == "in" else 3)
    return tuple("–" if value is None else f"{value:.{places}f}" for value in values)


def _chase_table(found: Chasing) -> Table:
    """The passes from the stop to measure on; those before it are in the caption, as lines of the dial."""
    before = [str(each.line) for each in found.passes if each.number < found.stop.number]
    word = ", measure" if found.taper is None else ", try the gauge"

    def read(each: ChasePass) -> str:
        if found.taper is not None:
            return f"{found.gauge_turns(each.left_mm):.1f}"
        return "–" if each.over_wires_mm is None else spell_number(each.over_wires_mm, "length", found.unit)

    rows = tuple(
        (
            f"{each.line}{word if each.measure else ''}",
            read(each),
            spell_number(each.left_mm, "length", found.unit),
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
