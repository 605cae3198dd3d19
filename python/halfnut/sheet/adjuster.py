"""The bench page of an adjuster: what to cut, how far to wind, what it bears, on one sheet."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING
from urllib.parse import quote

from halfnut._core import spell, spell_number, spell_span
from halfnut.core.sizes import MM_PER_INCH
from halfnut.core.words import by_rank
from halfnut.sheet.pages import environment
from halfnut.sheet.telling import told
from halfnut.sheet.view import Drawing, Table, Told

if TYPE_CHECKING:
    from collections.abc import Iterable

    from halfnut.threads.adjusters import Adjuster
    from halfnut.threads.figures import AdjusterEnd, ThreadLimitsFigures

__all__ = ["adjuster_page", "end_svg"]

_NAMES = ("First end", "Second end")
_LENGTHS = ("shortest", "half", "longest")
_ENGAGED = {
    "engagement_for_load_mm": "by strength",
    "engagement_rule_mm": "by rule",
    "engagement_least_mm": "least",
    "engagement_full_strength_mm": "section breaks first",
    "insertion_min_mm": "least in past the mouth",
    "groove_mm": "groove from the end",
}
_NUT = {
    "torque_nm": "tighten to",
    "preload_least_n": "holds at least",
    "preload_max_n": "at most",
    "nut_least_mm": "thickness by strength",
    "nut_rule_mm": "by rule, D/2",
    "nut_thickness_mm": "as drawn",
}
_GIVEN = {
    "thread_length_mm": "thread T",
    "chamfer_mm": "chamfer a",
    "run_out_mm": "run-out r",
    "base_length_mm": "base thread B",
    "countersink_mm": "countersink c",
    "base_run_out_mm": "its run-out q",
    "outer_length_mm": "joint to mouth",
    "nut_thickness_mm": "lock nut",
}


def adjuster_page(found: Adjuster, title: str, heading: str) -> str:
    """The page as HTML that stands alone."""
    page = environment().get_template("adjuster.html")
    longest = f"longest by strength {_long(found.longest_strength_mm, found.unit)}, by rule "
    longest += _long(found.longest_rule_mm, found.unit)
    engaged = f"Least full-form engagement, {found.unit}; {longest}"
    nuts = [end for end in found.ends if end.preload_least_n is not None]
    tight = f"Lock nut: tight under the stated push and pull; {found.unit}"
    tables = [
        _cut(found),
        _range(found),
        _of_ends(found, found.ends, ("engagement", "End"), engaged, _ENGAGED),
        _of_ends(found, nuts, ("lock nut", "Lock nut"), tight, _NUT),
    ]
    return page.render(
        title=title,
        heading=heading,
        found=found,
        head=_head(found),
        drawing=Drawing(
            f"data:image/svg+xml,{quote(end_svg(found, 0, 95.0))}",
            "Section of the first end at its longest safe length: base, lock nut, tube and witness groove",
        ),
        tables=[table for table in tables if table.rows],
        given=_given(found),
        sources=_sources(found),
        cautions=_cautions(found),
    )


def _cautions(found: Adjuster) -> list[Told]:
    """All of one rank in one paragraph, so that the page stays one."""
    every = [told(each) for each in by_rank(found.told)]
    ranks = dict.fromkeys((each.rank, each.label) for each in every)
    return [Told(rank, label, " ".join(each.text for each in every if each.rank == rank)) for rank, label in ranks]


def _size(value_mm: float, unit: str) -> str:
    return spell_number(value_mm, "length", unit)


def _long(value_mm: float, unit: str) -> str:
    return spell(value_mm, "travel", unit)


def _each(values: Iterable[float | None], unit: str) -> str:
    """The ends' values in order; once where they read alike."""
    return " · ".join(dict.fromkeys(_size(value, unit) for value in values if value is not None))


def _cell(end: AdjusterEnd, key: str, unit: str) -> str:
    """A figure of an end, a size without its unit; a dash where there is none."""
    value = getattr(end, key)
    return "–" if value is None else (spell_number if key.endswith("_mm") else spell)(value, key, unit)


def _head(found: Adjuster) -> list[tuple[str, str]]:
    unit = found.unit
    return [
        ("Shortest safe length", _long(found.shortest_mm, unit)),
        ("Longest safe length", _long(found.longest_mm, unit)),
        ("Turns between", f"{found.turns:.2f}"),
        ("A turn", spell(found.travel_per_turn_mm, "length", unit)),
        (f"A flat of {found.flats:g}", spell(found.travel_per_flat_mm, "length", unit)),
        ("Factor of safety", f"{found.factor_of_safety:g}"),
        ("Push", spell(found.push_n, "force", unit)),
        ("Pull", spell(found.pull_n, "force", unit)),
    ]


def _zone(high: float | None, low: float | None, unit: str) -> str:
    places = 4 if unit == "in" else 3
    return "/".join("none" if value is None else f"{value:.{places}f}" for value in (high, low))


def _cut(found: Adjuster) -> Table:
    unit = found.unit
    rows = []
    for name, end in zip(_NAMES, found.ends, strict=False):
        scale, fine = (MM_PER_INCH, 5) if end.unit == "in" else (1.0, 3)
        off = end.hole.beside_limits
        over = _zone(end.wires.over_max_mm / scale, end.wires.over_min_mm / scale, end.unit)
        drill = f"drill {end.hole.drill}{', ' if off else ''}{off}"
        share = "" if end.hole.percent is None else f"{end.hole.percent:.0f} %"
        for cut, read in (
            (end.external_cut, (over, f"{end.wires.wire_mm / scale:.{fine}f}")),
            (end.internal_cut, (drill, share)),
        ):
            head = f"{name}: " if len(found.ends) > 1 else ""
            rows.append((f"{head}{cut.thread}{'' if cut.unit == unit else f', {cut.unit}'}", *_sizes(cut), *read))
    heads = ("before any coating", "major ⌀", "pitch ⌀", "minor ⌀ (bore)", "over wires, or drill", "wire, or thread")
    return Table(f"Sizes to cut, {unit}, greatest/least", heads, tuple(rows), ("measured",))


def _sizes(cut: ThreadLimitsFigures) -> tuple[str, ...]:
    sizes = ((cut.major_max, cut.major_min), (cut.pitch_max, cut.pitch_min), (cut.minor_max, cut.minor_min))
    return tuple(_zone(high, low, cut.unit) for high, low in sizes)


def _range(found: Adjuster) -> Table:
    unit = found.unit
    rows = [
        (
            name,
            _size(row.length_mm, unit),
            _each((row.first_insertion_mm, row.second_insertion_mm), unit),
            _each((row.first_engagement_mm, row.second_engagement_mm), unit),
            spell_span(row.axial_play_min_mm, row.axial_play_max_mm, "length", unit),
            f"{row.tilt_max_deg:.2f}",
            f"{spell(row.pull_n, 'force', unit)}, {row.pull_element}",
            f"{spell(row.push_n, 'force', unit)}, {row.push_element}",
        )
        for name, row in zip(_LENGTHS, found.rows, strict=True)
    ]
    heads = (
        *("wound to", "length", "past the mouth", "full form", "end play", "lean, deg"),
        *("pull that breaks it", "push that breaks it"),
    )
    caption = f"Lengths in {unit}, ends in order; play with lock nuts slack (tight: none below the preload)"
    return Table(f"{caption}; loads before the factor of safety", heads, tuple(rows), ())


def _of_ends(
    found: Adjuster, ends: Iterable[AdjusterEnd], called: tuple[str, str], caption: str, keys: dict[str, str]
) -> Table:
    """Figures of each end; two ends as one row where they read alike. `called`: all of them, and one alone."""
    what, alone = called
    rows = [
        (alone if len(found.ends) == 1 else name, *(_cell(end, key, found.unit) for key in keys))
        for name, end in zip(_NAMES, found.ends, strict=False)
        if end in ends
    ]
    if len(rows) == 2 and rows[0][1:] == rows[1][1:]:
        rows = [("Each end", *rows[0][1:])]
    return Table(caption, (what, *keys.values()), tuple(rows), ())


def _section(outside_mm: float, bore_mm: float, unit: str) -> str:
    """Outside and bore of a member; one without a bore is taken as solid, and says so."""
    return f"{_size(outside_mm, unit)} × {_size(bore_mm, unit) if bore_mm > 0 else 'solid'}"


def _given(found: Adjuster) -> list[tuple[str, str]]:
    """What the sums began with, so that they can be done again by hand."""
    unit, end = found.unit, found.ends[0]
    out = [
        (found.middle.capitalize(), _long(found.middle_length_mm, unit)),
        ("⌀ outside × bore", _section(found.middle_outside_mm, found.middle_bore_mm, unit)),
    ]
    if found.middle == "body":
        rods = [_section(each.outer_outside_mm, each.outer_bore_mm, unit) for each in found.ends]
        out.append(("Rod ⌀ outside × bore", " · ".join(dict.fromkeys(rods))))
    out += [(words, _cell(end, key, unit)) for key, words in _GIVEN.items()]
    out += [
        ("friction", f"{end.thread_friction_low:g} to {end.thread_friction_high:g}"),
        ("strips, outside", spell(end.external_strip_n_mm, "strip", unit)),
        ("strips, inside", spell(end.internal_strip_n_mm, "strip", unit)),
        ("section yields", spell(end.external_section_n, "force", unit)),
    ]
    if found.growth_um_k is not None:
        out.append(("grows", spell(found.growth_um_k, "growth", unit)))
    return out


def _sources(found: Adjuster) -> list[tuple[str, str, str]]:
    kept: dict[tuple[str, str], dict[str, None]] = {}
    for item in found.evidence:
        kept.setdefault((item.source, item.kind), {})[item.rule] = None
    return [("; ".join(rules), source, kind) for (source, kind), rules in kept.items()]


def end_svg(found: Adjuster, place: int = 0, width_mm: float = 170.0) -> str:
    """Section of an end at the longest safe length: base, lock nut, tube and groove; the shortest in thin dashes."""
    end, unit = found.ends[place], found.unit
    thread, nut, bore = end.thread_length_mm, end.nut_thickness_mm, end.external_bore_mm
    diameter, root, outside = end.diameter_mm, end.external_root_mm, end.internal_outside_mm
    across = outside if end.nut_outside_mm is None else end.nut_outside_mm
    plain = end.outer_outside_mm if found.middle == "body" else found.middle_outside_mm
    least, most = end.insertion_min_mm, end.insertion_max_mm
    base = max(end.base_length_mm, most)
    left, right = -max(base, min(end.outer_length_mm, 1.3 * base)), thread - least + 0.5 * diameter
    wide = width_mm - 8.0
    scale = min(wide / (right - left), 34.0 / max(outside, across))
    middle = 27.0
    tall = 64.0
    x0 = 4.0 + (wide - scale * (right - left)) / 2

    def x(z: float) -> float:
        return x0 + (z - left) * scale

    def rect(z1: float, z2: float, r1: float, r2: float, style: str) -> str:
        out = ""
        for sign in (-1, 1):
            top, bottom = sorted((middle + sign * r1 * scale, middle + sign * r2 * scale))
            size = f'width="{(z2 - z1) * scale:.2f}" height="{bottom - top:.2f}"'
            out += f'<rect x="{x(z1):.2f}" y="{top:.2f}" {size} {style}/>'
        return out

    thick, thin = 'stroke="#000" stroke-width="0.5"', 'stroke="#000" stroke-width="0.2"'
    shapes = [
        rect(left, 0, end.internal_root_mm / 2, outside / 2, f'fill="url(#base)" {thick}'),
        rect(-least, thread - least, bore / 2, root / 2, f'fill="url(#tube)" {thick}'),
        rect(-least + end.chamfer_mm, thread - least - end.run_out_mm, root / 2, diameter / 2, f'fill="#fff" {thin}'),
        rect(thread - least, right, bore / 2, plain / 2, f'fill="url(#tube)" {thick}'),
    ]
    if nut:
        shapes.append(rect(0, nut, diameter / 2, across / 2, f'fill="url(#base)" {thick}'))
    groove = end.groove_mm - least
    dash = f'fill="none" {thin} stroke-dasharray="3 0.8 0.6 0.8 0.6 0.8"'
    shapes.append(rect(-most, -least, bore / 2, diameter / 2, dash))
    low, high = middle - outside / 2 * scale, middle + outside / 2 * scale
    shapes.append(f'<path d="M{x(groove):.2f},{low - 2:.2f} V{high + 2:.2f}" fill="none" {thick}/>')
    shapes.append(f'<path d="M{x(left) - 2:.2f},{middle} H{x(right) + 2:.2f}" {thin} stroke-dasharray="6 1 1 1"/>')

    def dimension(z1: float, z2: float, y: float, words: str) -> str:
        a, b = x(z1), x(z2)
        marks = "".join(
            f'<path d="M{at - 0.8:.2f},{y + 0.8:.2f} L{at + 0.8:.2f},{y - 0.8:.2f}" {thin}/>' for at in (a, b)
        )
        start, over = (high, 1.0) if y > middle else (low, -1.0)
        ends = "".join(f'<path d="M{at:.2f},{start:.2f} V{y + over:.2f}" {thin}/>' for at in (a, b))
        return (
            f'<path d="M{a:.2f},{y:.2f} H{b:.2f}" {thin}/>{marks}{ends}'
            f'<text x="{(a + b) / 2:.2f}" y="{y - 1:.2f}" text-anchor="middle">{escape(words)}</text>'
        )

    to_groove = f"groove {_size(end.groove_mm, unit)} from the end"
    shapes.append(dimension(-least, 0, high + 5, f"least in {_size(least, unit)}"))
    shapes.append(dimension(-most, 0, high + 10, f"most in {_size(most, unit)}"))
    shapes.append(dimension(-least, groove, max(low - 4, 5), to_groove))
    pattern = "".join(
        f'<pattern id="{name}" width="1.8" height="1.8" patternUnits="userSpaceOnUse" '
        f'patternTransform="rotate({turn})">'
        f'<rect width="1.8" height="1.8" fill="#fff"/><line x1="0" y1="0" x2="0" y2="1.8" {thin}/></pattern>'
        for name, turn in (("base", 45), ("tube", -45))
    )
    words = f"Section of the {_NAMES[place].lower()} at the longest safe length, {unit}"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{width_mm:g}mm" height="{tall:g}mm" '
        f'viewBox="0 0 {width_mm:g} {tall:g}" font-size="3.2" font-family="Liberation Sans, Arial, sans-serif" '
        f'style="max-width:100%;height:auto">'
        f"<title>{escape(words)}</title><defs>{pattern}</defs>{''.join(shapes)}"
        f'<text x="1" y="{tall - 5.5:.1f}">{escape(words)};</text>'
        f'<text x="1" y="{tall - 1.5:.1f}">scale {scale:.3g}:1; dashes: wound right in; '
        f"cross line: witness groove</text></svg>"
    )
