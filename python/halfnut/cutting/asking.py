"""What the questions of all cuts have in common: the machine, the tool, the stock and the answer as a record."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from halfnut import _core
from halfnut._core import DomainError, Length, chip_thinning_factor, spell
from halfnut.core.catalogue import active
from halfnut.core.sizes import MM_PER_INCH
from halfnut.core.units import as_asked, unit_of
from halfnut.core.units import length as read_length
from halfnut.core.words import caution
from halfnut.cutting import standing
from halfnut.cutting.cuts import Cut, Limit
from halfnut.cutting.tools import Tool
from halfnut.material.alloys import Alloy, lacking


def formed(
    numbers: Mapping[str, float | None], tool: Tool, keys: Mapping[str, str], usual: Mapping[str, str]
) -> tuple[dict[str, float | None], list[str]]:
    """Numbers with what was not given taken from the tool, and what is assumed: the tool, then the usual."""
    given = dict(numbers)
    for key, column in keys.items():
        if key in given and given[key] is None:
            given[key] = tool.form.get(column)
    assumed = [tool.assumed] if tool.assumed else []
    return given, assumed + [words for key, words in usual.items() if given.get(key) is None]


def optional_mm(value: Any, name: str) -> float | None:
    """A length in mm, where one is given."""
    return None if value is None else read_length(value, name).mm


_HEX = re.compile(r"\s*hex(agon)?\s*$", re.IGNORECASE)


def held_numbers(stock: Any, bar_length: Any, bar_behind: Any, stick_out: Any = None) -> dict[str, float | None]:
    """What is said of the stock and of a bar through the spindle, by the core's names."""
    flats = isinstance(stock, str) and _HEX.search(stock) is not None
    size = optional_mm(_HEX.sub("", stock) if flats else stock, "stock")
    given = {
        "stock_flats_mm" if flats else "stock_diameter_mm": size,
        "bar_length_mm": optional_mm(bar_length, "bar_length"),
        "bar_behind_mm": optional_mm(bar_behind, "bar_behind"),
    }
    return given if stick_out is None else given | {"stick_out_mm": optional_mm(stick_out, "stick_out")}


_NOTICED_BAR_MM = 1000.0  # bars are sold longer than this: a shorter one that whips is worth a word
_OUTSIDE = ("turn", "face", "part_off", "knurl")


def bar_note(cut: Cut, machine: _core.Machine | None, given: Mapping[str, float | None], hold: str) -> Cut:
    """The cut with a word on how much of a bar may stand out behind the spindle, where nobody said."""
    told = any(given.get(name) is not None for name in ("bar_length_mm", "bar_behind_mm"))
    if machine is None or machine.kind != "lathe" or told or hold == "between centres":
        return cut
    across = given.get("stock_flats_mm")
    size_mm = given.get("stock_diameter_mm") or across or cut.diameter_mm
    if cut.operation not in _OUTSIDE or size_mm > machine.spindle_bore_mm:
        return cut
    alloy, bore_mm = cut.alloy, given.get("bore_mm") or 0.0
    root = _core.WHIRL_ROOT_CHUCK
    free_mm = 0.0  # without a modulus no length behind the spindle is known to be safe
    if alloy.youngs_modulus_gpa is not None:
        whirl = _core.first_whirl_rpm(size_mm, bore_mm, 1.0, alloy.youngs_modulus_gpa, alloy.density_kg_m3, root)
        free_mm = math.sqrt(_core.WHIRL_SHARE * whirl / cut.spindle_rpm)
    if free_mm >= _NOTICED_BAR_MM:
        return cut
    free = f"{math.floor(free_mm / MM_PER_INCH)} in" if cut.unit == "in" else f"{10 * math.floor(free_mm / 10)} mm"
    return replace(cut, cautions=(*cut.cautions, caution("bar_behind", gravity=-free_mm, bar_free=free)))


def holder_place(machine: _core.Machine | None, chuck: Any, hold: str, assumed: list[str]) -> int:
    """Place of the chuck that is meant; -1 when there is none."""
    if machine is None or not machine.chucks or hold == "between centres":
        return -1
    names = [item.name for item in machine.chucks]
    if chuck is None:
        assumed.append(names[0])
        return 0
    if isinstance(chuck, int) and 0 <= chuck < len(names):
        return chuck
    if chuck in names:
        return names.index(chuck)
    raise DomainError(f"chuck must be one of {', '.join(map(repr, names))}, got {chuck!r}")


def _of_material(found: Alloy, forces: bool) -> list[str]:
    """Codes of the notes that a material brings to every cut with a force."""
    if not forces:
        return []
    plastic = any(name.startswith("plastic") for name in _core.group_chain(found.group, active()))
    traits = [f"trait_{word}" for word in found.traits if not (plastic and word == "low_conductivity")]
    return [*filter(active().has_caution, traits), *(["plastic_melts"] if plastic else [])]


def _slow_harms(operation: str, found: Alloy) -> bool:
    """Whether a speed below the window tears the surface or hardens it; drills, reamers and taps may."""
    cuts = operation.startswith("mill") or operation in ("turn", "face", "bore")
    return cuts and not {"built_up_edge", "work_hardening"}.isdisjoint(found.traits)


def _carbide_bears(found: Alloy, tool: Tool, figures: dict[str, Any]) -> bool:
    """Whether carbide, twice as fast in metals (NAVEDTRA 14345, p. 93), bears what is too fast for the tool."""
    heat = found.group.startswith(("plastic", "composite")) or "magnesium_chips" in found.hazards
    fast = figures["cutting_speed_m_min"] > 2.0 * figures["window_high_m_min"]
    return tool.material in ("hss", "hss_cobalt") and not heat and not fast


# Cautions that show the machine's or the work's own limit: the less it is, the graver.
_LIMIT_OF = {"work_whips": "work_whirl", "bar_whips": "bar_whirl", "over_travel": "travel"}


def _bounds(result: _core.CutResult, size: Length) -> dict[str, str]:
    """The bounds of a cut as its cautions name them."""
    unit = unit_of(size)
    return {
        name: f"{bound:.0f}" if name.endswith("_whirl") else spell(bound, "size", unit)
        for name, _, bound, _ in result.limits
        if math.isfinite(bound)
    }


def cut_record(
    operation: str,
    found: Alloy,
    result: _core.CutResult,
    machine: _core.Machine | None,
    ladder: _core.FeedLadder | None,
    size: Length,
    tool: Tool,
    assumed: list[str],
    extra: Sequence[str] = (),
) -> Cut:
    """The core's result as a record; `extra` are codes of cautions that only the question tells of."""
    figures: dict[str, Any] = dict(result.figures)
    heat: dict[str, Any] = dict(_core.cut_heat(result, found.index, active()))
    heat_rules = [("chip_rise_k", "heat_chip"), ("heat_to_work_w", "heat_to_work")]
    low, high = result.band.low, result.band.high * result.ordinary_wear
    follow: dict[str, Any] = {
        f"{name}_{edge}_{unit}": None
        if figures[f"{name}_{unit}"] is None or math.isnan(by)
        else figures[f"{name}_{unit}"] * by
        for name, unit in (("torque", "nm"), ("deflection", "mm"))
        for edge, by in (("low", low), ("high", high))
    }
    step = machine.spindle[result.spindle_step] if machine is not None else None
    feed = ladder.steps[result.feed_step] if ladder is not None and result.feed_source == "step" else None
    own = standing.of_cut(operation, found, machine, figures, size.mm)
    codes = [*own, *extra, *result.cautions, *_of_material(found, result.band.low > 0.0)]
    codes = ["slow_harms" if code == "speed_below_window" and _slow_harms(operation, found) else code for code in codes]
    if "above_window" in codes and _carbide_bears(found, tool, figures):
        codes.append("carbide_bears")
    if figures["cutting_speed_m_min"] >= (figures["window_low_m_min"] + figures["window_high_m_min"]) / 2:
        codes = [code for code in codes if code != "trait_built_up_edge"]  # it forms at low speed
    words = figures | {"tool": tool.name} | _bounds(result, size)
    least = {name: bound for name, _, bound, _ in result.limits}
    made = (caution(code, gravity=-least.get(_LIMIT_OF.get(code, ""), 0.0), **words) for code in codes)
    told = list(dict.fromkeys([*made, *found.told]))
    judged = [
        slack >= 0
        for name, value, _, slack in result.limits
        if name in ("power", "torque", "deflection") and math.isfinite(value) and not math.isnan(slack)
    ]
    thinning = None
    if operation.startswith("mill") and figures["width_mm"] is not None:
        thinning = float(chip_thinning_factor(min(figures["width_mm"], size.mm), size.mm))
    return Cut(
        operation=operation,
        alloy=found,
        tool_material=tool.material,
        tool_name=tool.name,
        machine_name=None if machine is None else machine.name,
        unit=unit_of(size),
        machine_unit="in" if machine is not None and machine.inch else "mm",
        diameter_mm=size.mm,
        **figures,
        **follow,
        **heat,
        chip_thinning=thinning,
        peck_depths_mm=(),
        force_verified=None if math.isnan(result.band.low) else result.band.verified,
        passes=result.passes,
        passes_across=result.passes_across,
        passes_down=result.passes_down,
        spindle_step=None if machine is None else result.spindle_step,
        spindle_positions=() if step is None else tuple((item.control, item.setting) for item in step.positions),
        spindle_fit=result.spindle_fit,
        feed_step=None if feed is None else result.feed_step,
        feed_positions=() if feed is None else tuple((item.control, item.setting) for item in feed.positions),
        feed_marked=None if feed is None else feed.marked,
        dial_slide=None,
        dial_turns=None,
        dial_line=None,
        feed_said=None,
        feed_source=result.feed_source,
        limited_by=result.limited_by,
        feed_limited_by=result.feed_limited_by,
        limits=tuple(Limit(name, value, *rest) for name, value, *rest in result.limits if math.isfinite(value)),
        holds_at_edge=all(judged) if judged else None,
        roughness_low_um=None,
        roughness_high_um=None,
        fluid=None,
        lacking=tuple(lacking(found)),
        assumed=tuple(as_asked(each, size.system == "inch") for each in assumed),
        notes=tuple(item for item in told if item.rank == "note"),
        cautions=tuple(item for item in told if item.rank != "note"),
        evidence=(
            *tool.evidence,
            *result.evidence(active()),
            *(_core.rule_evidence(heat_rules, active()) if heat["chip_rise_k"] is not None else ()),
        ),
    )
