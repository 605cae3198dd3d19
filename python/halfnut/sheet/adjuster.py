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
from halfnut.threads.standard import ThreadLimits

if TYPE_CHECKING:
    from halfnut.threads.adjusters import Adjuster, AdjusterEnd

__all__ = ["adjuster_page", "end_svg"]

_NAMES = ("First end", "Second end")


def adjuster_page(found: Adjuster, title: str, heading: str) -> str:
    """The page as HTML that stands alone."""
    page = environment().get_template("adjuster.html")
    return page.render(
        title=title,
        heading=heading,
        found=found,
        head=_head(found),
        drawing=Drawing(
            f"data:image/svg+xml,{quote(end_svg(found, 0, 95.0))}",
            "Section of the first end at its longest safe length: base, lock nut, tube and witness groove",
        ),
        tables=[_cut(found), _range(found), _engagement(found), *_nuts(found)],
        given=_given(found),
        sources=_sources(found),
        cautions=_cautions(found),
    )


def _cautions(found: Adjuster) -> list[Told]:
    """All of one rank in one paragraph, so that the page stays one."""
    every = [told(each) for each in by_rank(found.cautions)]
    ranks = dict.fromkeys((each.rank, each.label) for each in every)
    return [Told(rank, label, " ".join(each.text for each in every if each.rank == rank)) for rank, label in ranks]


def _mm(value: float | None) -> float:
    """A figure that every adjuster has."""
    assert value is not None
    return value


def _shown(value: float | None, kind: str, unit: str) -> str:
    """A figure that an adjuster may lack, then a dash."""
    return "–" if value is None else (spell_number if kind == "length" else spell)(value, kind, unit)


def _long(value: float | None, unit: str) -> str:
    return "" if value is None else spell(value, "travel", unit)


def _head(found: Adjuster) -> list[tuple[str, str]]:
    f, unit = found.figures, found.unit
    return [
        ("Shortest safe length", _long(f["shortest_mm"], unit)),
        ("Longest safe length", _long(f["longest_mm"], unit)),
        ("Turns between", f"{_mm(f['turns']):.2f}"),
        ("A turn", f"{spell_number(_mm(f['travel_per_turn_mm']), 'length', unit)} {unit}"),
        (f"A flat of {found.given['flats']:g}", f"{spell_number(_mm(f['travel_per_flat_mm']), 'length', unit)} {unit}"),
        ("Factor of safety", f"{found.given['factor_of_safety']:g}"),
        ("Push", spell(found.given["push_n"], "force", unit)),
        ("Pull", spell(found.given["pull_n"], "force", unit)),
    ]


def _zone(high: float | None, low: float | None, unit: str) -> str:
    places = 4 if unit == "in" else 3
    return "/".join("none" if value is None else f"{value:.{places}f}" for value in (high, low))


def _cut(found: Adjuster) -> Table:
    rows = []
    for place, end in enumerate(found.ends):
        for part, cut in (("outside", end.external_cut), ("inside", end.internal_cut)):
            unit = "" if cut.unit == found.unit else f", {cut.unit}"
            rows.append((f"{_name(found, place)}{cut.thread}{unit}", *_sizes(cut, end, part)))
    unit = found.unit
    heads = ("before any coating", "major ⌀", "pitch ⌀", "minor ⌀ (bore)", "over wires, or drill", "wire, or thread")
    return Table(f"Sizes to cut, {unit}, greatest/least", heads, tuple(rows), ("measured",))


def _sizes(cut: ThreadLimits, end: AdjusterEnd, part: str) -> tuple[str, ...]:
    unit = cut.unit
    scale = MM_PER_INCH if unit == "in" else 1.0
    share = "" if end.hole.percent is None else f"{end.hole.percent:.0f} %"
    off = end.hole.beside_limits
    read = (f"drill {end.hole.drill}{', ' if off else ''}{off}", share)
    if part == "outside":
        wire = end.wires
        read = (
            _zone(wire.over_max_mm / scale, wire.over_min_mm / scale, unit),
            f"{wire.wire_mm / scale:.{5 if unit == 'in' else 3}f}",
        )
    return (
        _zone(cut.major_max, cut.major_min, unit),
        _zone(cut.pitch_max, cut.pitch_min, unit),
        _zone(cut.minor_max, cut.minor_min, unit),
        *read,
    )


def _name(found: Adjuster, place: int) -> str:
    return "" if len(found.ends) == 1 else f"{_NAMES[place]}: "


def _each(values: list[float], unit: str) -> str:
    """The ends' values in order; once where they read alike."""
    return " · ".join(dict.fromkeys(spell_number(value, "length", unit) for value in values))


def _range(found: Adjuster) -> Table:
    unit = found.unit
    rows = []
    for name, row in zip(("shortest", "half", "longest"), found.rows, strict=True):
        inserted = [row["first_insertion_mm"], row["second_insertion_mm"]][: len(found.ends)]
        engaged = [row["first_engagement_mm"], row["second_engagement_mm"]][: len(found.ends)]
        tilts = [row["first_tilt_deg"], row["second_tilt_deg"]][: len(found.ends)]
        rows.append(
            (
                name,
                spell_number(row["length_mm"], "length", unit),
                _each(inserted, unit),
                _each(engaged, unit),
                spell_span(row["axial_play_min_mm"], row["axial_play_max_mm"], "length", unit),
                f"{max(tilts):.2f}",
                f"{spell(row['pull_n'], 'force', unit)}, {row['pull_element']}",
                f"{spell(row['push_n'], 'force', unit)}, {row['push_element']}",
            )
        )
    heads = (
        "wound to",
        "length",
        "past the mouth",
        "full form",
        "end play",
        "lean, deg",
        "pull that breaks it",
        "push that breaks it",
    )
    caption = f"Lengths in {unit}, ends in order; play with lock nuts slack (tight: none below the preload)"
    return Table(f"{caption}; loads before the factor of safety", heads, tuple(rows), ())


def _alike(rows: list[tuple[str, ...]]) -> tuple[tuple[str, ...], ...]:
    """Rows of two ends as one where they read alike."""
    if len(rows) == 2 and rows[0][1:] == rows[1][1:]:
        return (("Each end", *rows[0][1:]),)
    return tuple(rows)


def _engagement(found: Adjuster) -> Table:
    unit = found.unit
    rows: list[tuple[str, ...]] = []
    for place, end in enumerate(found.ends):
        f = end.figures
        rows.append(
            (
                _NAMES[place] if len(found.ends) > 1 else "End",
                *(
                    spell_number(_mm(f[key]), "length", unit)
                    for key in (
                        "engagement_for_load_mm",
                        "engagement_rule_mm",
                        "engagement_least_mm",
                        "engagement_full_strength_mm",
                        "insertion_min_mm",
                        "groove_mm",
                    )
                ),
            )
        )
    heads = (
        "engagement",
        "by strength",
        "by rule",
        "least",
        "section breaks first",
        "least in past the mouth",
        "groove from the end",
    )
    longest = (
        f"longest by strength {_long(found.figures['longest_strength_mm'], unit)}, "
        f"by rule {_long(found.figures['longest_rule_mm'], unit)}"
    )
    return Table(f"Least full-form engagement, {unit}; {longest}", heads, _alike(rows), ())


def _nuts(found: Adjuster) -> list[Table]:
    unit = found.unit
    rows: list[tuple[str, ...]] = []
    for place, end in enumerate(found.ends):
        f = end.figures
        if f["preload_least_n"] is None:
            continue
        rows.append(
            (
                _NAMES[place] if len(found.ends) > 1 else "Lock nut",
                _shown(f["torque_nm"], "torque", unit),
                _shown(f["preload_least_n"], "force", unit),
                _shown(f["preload_max_n"], "force", unit),
                _shown(f["nut_least_mm"], "length", unit),
                _shown(f["nut_rule_mm"], "length", unit),
                spell_number(end.given["nut_thickness_mm"], "length", unit),
            )
        )
    heads = (
        "lock nut",
        "tighten to",
        "holds at least",
        "at most",
        "thickness by strength",
        "by rule, D/2",
        "as drawn",
    )
    return [Table(f"Lock nut: tight under the stated push and pull; {unit}", heads, _alike(rows), ())] if rows else []


def _section(outside_mm: float, bore_mm: float, unit: str) -> str:
    """Outside and bore of a member; one without a bore is taken as solid, and says so."""
    bore = spell_number(bore_mm, "length", unit) if bore_mm > 0 else "solid"
    return f"{spell_number(outside_mm, 'length', unit)} × {bore}"


def _given(found: Adjuster) -> list[tuple[str, str]]:
    """What the sums began with, so that they can be done again by hand."""
    unit = found.unit
    out = [
        ("Tube" if found.middle == "tube" else "Body", _long(found.given["middle_length_mm"], unit)),
        (
            "⌀ outside × bore",
            _section(found.given["middle_outside_mm"], found.given["middle_bore_mm"], unit),
        ),
    ]
    if found.middle == "body":
        rods = [_section(end.given["outer_outside_mm"], end.given["outer_bore_mm"], unit) for end in found.ends]
        out.append(("Rod ⌀ outside × bore", " · ".join(dict.fromkeys(rods))))
    names = {
        "thread_length_mm": "thread T",
        "chamfer_mm": "chamfer a",
        "run_out_mm": "run-out r",
        "base_length_mm": "base thread B",
        "countersink_mm": "countersink c",
        "base_run_out_mm": "its run-out q",
        "outer_length_mm": "joint to mouth",
        "nut_thickness_mm": "lock nut",
    }
    end = found.ends[0]
    out += [(words, spell_number(end.given[key], "length", unit)) for key, words in names.items() if key in end.given]
    f = end.figures
    out += [
        ("friction", f"{end.given.get('thread_friction_low', 0):g} to {end.given.get('thread_friction_high', 0):g}"),
        ("strips, outside", _shown(f["external_strip_n_mm"], "strip", unit)),
        ("strips, inside", _shown(f["internal_strip_n_mm"], "strip", unit)),
        ("section yields", _shown(f["external_section_n"], "force", unit)),
    ]
    if found.figures["growth_um_k"] is not None:
        out.append(("grows", spell(found.figures["growth_um_k"], "growth", unit)))
    return out


def _sources(found: Adjuster) -> list[tuple[str, str, str]]:
    kept: dict[tuple[str, str], dict[str, None]] = {}
    for item in found.evidence:
        kept.setdefault((item.source, item.kind), {})[item.rule] = None
    return [("; ".join(rules), source, kind) for (source, kind), rules in kept.items()]


def end_svg(found: Adjuster, place: int = 0, width_mm: float = 170.0) -> str:
    """Section of an end at the longest safe length: base, lock nut, tube and groove; the shortest in thin dashes."""
    end = found.ends[place]
    g, f = end.given, end.figures
    unit = found.unit
    reach, outside = g["outer_length_mm"], g["internal_outside_mm"]
    thread, nut = g["thread_length_mm"], g["nut_thickness_mm"]
    diameter, root = _mm(f["diameter_mm"]), _mm(f["external_root_mm"])
    bore = g["external_bore_mm"]
    plain = g["outer_outside_mm"] if found.middle == "body" else found.given["middle_outside_mm"]
    least, most = _mm(f["insertion_min_mm"]), _mm(f["insertion_max_mm"])
    base = max(g["base_length_mm"], most)
    left, right = -max(base, min(reach, 1.3 * base)), thread - least + 0.5 * diameter
    wide = width_mm - 8.0
    scale = min(wide / (right - left), 34.0 / max(outside, g.get("nut_outside_mm", outside)))
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
        rect(left, 0, _mm(f["internal_root_mm"]) / 2, outside / 2, f'fill="url(#base)" {thick}'),
        rect(-least, thread - least, bore / 2, root / 2, f'fill="url(#tube)" {thick}'),
        rect(-least + g["chamfer_mm"], thread - least - g["run_out_mm"], root / 2, diameter / 2, f'fill="#fff" {thin}'),
        rect(thread - least, right, bore / 2, plain / 2, f'fill="url(#tube)" {thick}'),
    ]
    if nut:
        shapes.append(rect(0, nut, diameter / 2, g.get("nut_outside_mm", outside) / 2, f'fill="url(#base)" {thick}'))
    groove = _mm(f["groove_mm"]) - least
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

    to_groove = f"groove {spell_number(_mm(f['groove_mm']), 'length', unit)} from the end"
    shapes.append(dimension(-least, 0, high + 5, f"least in {spell_number(least, 'length', unit)}"))
    shapes.append(dimension(-most, 0, high + 10, f"most in {spell_number(most, 'length', unit)}"))
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
