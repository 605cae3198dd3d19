"""Cuts at the lathe and the mill: levers, forces, power, finish and time for one operation at a time.

Lengths are text with a unit, or `Length`; figures whose names end in a unit are plain numbers.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field, fields
from typing import Any

from halfnut._core import Evidence
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import (
    CM3_PER_IN3,
    KW_PER_HP,
    M_PER_FOOT,
    MM_PER_INCH,
    N_PER_LBF,
    NM_PER_LBF_IN,
    duration,
    life,
    life_span,
)
from halfnut.core.words import AT_EDGE, BANDS, GEOMETRY_ALONE, LIMITS, caution_lines
from halfnut.material.alloys import Alloy, lacking

__all__ = ["Cut", "Limit"]


@dataclass(frozen=True)
class Limit:
    """A limit of a cut: what is used of it and what is left, as a share of the bound; below zero it is passed."""

    name: str
    value: float
    bound: float
    slack: float

    @property
    def words(self) -> str:
        """The limit in words."""
        return LIMITS.get(self.name, self.name)


@dataclass(frozen=True)
class Cut(Record):
    """One cut: the levers to set and what it comes to. A figure that does not apply is None.

    Attributes
    ----------
    spindle_positions, feed_positions : tuple of (control, setting)
        Where levers and belts stand, in the machine's own words.
    feed_source : str
        "step": a power feed of the machine; "hand": the handle is turned; "exact": no machine, or a thread.
    cutting_force_low_n, cutting_force_high_n, ... : float
        Band of what a measurement would find, its upper edge with an edge in use; power, torque and deflection are
        judged there.
    feed_force_n, passive_force_n, deflection_mm : float
        Turning: of an edge half worn, or as worn as `wear_factor` says.
    roughness_ra_um : float
        By geometry alone: the least. Measured values lie 1.05 to 3.4 times higher.
    torque_low_nm, torque_high_nm, deflection_low_mm, deflection_high_mm : float
        The band carried on to what follows the force.
    force_verified : bool
        Whether measured cuts of the alloy bear the band out; None where there is no force.
    chip_thinning : float
        Milling: how much more feed a tooth bears for the same greatest chip than in a cut half as wide as the cutter.
    chip_rise_k : float
        Mean rise of temperature where the chip leaves the edge, an estimate.
    heat_to_work_share, heat_to_work_w, heat_to_work_high_w : float
        What of the cutting power goes into the work, an estimate.
    peck_depths_mm : tuple of float
        Drilling: depths at which the drill is withdrawn to clear its chips, the whole depth last; empty when none.
    limited_by : str
        What keeps the cut from being faster.
    assumed : tuple of str
        What was not said and therefore taken, the tool first.
    notes : tuple of Caution
        What is worth knowing and harmless.
    """

    operation: str
    alloy: Alloy
    tool_material: str
    tool_name: str
    machine_name: str | None
    inch: bool
    machine_inch: bool
    diameter_mm: float
    spindle_rpm: float
    cutting_speed_m_min: float
    window_low_m_min: float
    window_high_m_min: float
    feed_mm_rev: float | None
    feed_per_tooth_mm: float | None
    feed_mm_min: float | None
    depth_mm: float | None
    width_mm: float | None
    chip_thickness_mm: float | None
    chip_thickness_max_mm: float | None
    mrr_cm3_min: float | None
    cutting_force_n: float | None
    feed_force_n: float | None
    passive_force_n: float | None
    cutting_force_low_n: float | None
    cutting_force_high_n: float | None
    feed_force_low_n: float | None
    feed_force_high_n: float | None
    spindle_power_kw: float | None
    spindle_power_low_kw: float | None
    spindle_power_high_kw: float | None
    motor_power_kw: float | None
    available_power_kw: float | None
    torque_nm: float | None
    travel_mm: float | None
    time_s: float | None
    tool_life_min: float | None
    tool_life_low_min: float | None
    tool_life_high_min: float | None
    roughness_ra_um: float | None
    deflection_mm: float | None
    hand_turns_per_min: float | None
    hand_turns: float | None
    torque_low_nm: float | None
    torque_high_nm: float | None
    deflection_low_mm: float | None
    deflection_high_mm: float | None
    chip_thinning: float | None
    chip_rise_k: float | None
    heat_to_work_share: float | None
    heat_to_work_w: float | None
    heat_to_work_high_w: float | None
    peck_depths_mm: tuple[float, ...]
    force_verified: bool | None
    passes: int
    passes_across: int
    passes_down: int
    spindle_step: int | None
    spindle_positions: tuple[tuple[str, str], ...]
    spindle_fit: str
    feed_step: int | None
    feed_positions: tuple[tuple[str, str], ...]
    feed_marked: float | None
    feed_source: str
    limited_by: str
    feed_limited_by: str
    limits: tuple[Limit, ...]
    assumed: tuple[str, ...]
    notes: tuple[Caution, ...] = field(repr=False)
    cautions: tuple[Caution, ...] = field(repr=False)
    evidence: tuple[Evidence, ...] = field(repr=False)

    def to_dict(self) -> dict[str, Any]:
        """The cut as a flat dictionary with unit-suffixed keys."""
        out: dict[str, Any] = {"operation": self.operation, "alloy": self.alloy.id, "machine": self.machine_name}
        out["tool"], out["tool_material"] = self.tool_name, self.tool_material
        out |= {item.name: getattr(self, item.name) for item in fields(self) if item.name in _FIGURES}
        out["peck_depths_mm"] = list(self.peck_depths_mm)
        out["force_verified"] = self.force_verified
        out["holds_at_edge"] = self.holds_at_edge
        out["passes"] = self.passes
        out["spindle_positions"] = dict(self.spindle_positions)
        out["feed_positions"] = dict(self.feed_positions)
        out["feed_source"] = self.feed_source
        out["spindle_fit"] = self.spindle_fit
        out["limited_by"] = self.limited_by
        out["slack"] = {limit.name: limit.slack for limit in self.limits}
        out["assumed"] = list(self.assumed)
        out["notes"] = [item.code for item in self.notes]
        out["cautions"] = [item.code for item in self.cautions]
        return out

    def lines(self) -> list[str]:
        """The cut as lines for a terminal: the answer, what it rests on, what limits it, cautions."""
        out = [
            f"{self.answer}  ({self.operation.replace('_', ' ')} {self.alloy.title}, {self._size(self.diameter_mm)})"
        ]
        if self.assumed:
            out[0] += f"  assumed: {', '.join(self.assumed)}"
        out += [f"  {line}" for line in self._figures()]
        out.append(f"  limited by: {LIMITS.get(self.limited_by, self.limited_by)}")
        out += [
            f"    {limit.words}: {abs(limit.slack):.0%} {'left' if limit.slack >= 0 else 'over'}"
            for limit in self.limits
            if limit.name != self.limited_by and not math.isnan(limit.slack)
        ]
        if self.edge_text:
            out.append(f"    {self.edge_text}")
        return [*out, *caution_lines((*self.notes, *self.cautions), defer=True)]

    @property
    def holds_at_edge(self) -> bool | None:
        """Whether power, torque and deflection hold at the upper edge of the force; None without such a limit."""
        known = [limit for limit in self.limits if not math.isnan(limit.slack)]
        judged = [limit.slack >= 0 for limit in known if limit.name in _FOLLOW_FORCE]
        return all(judged) if judged else None

    @property
    def edge_text(self) -> str:
        """What `holds_at_edge` says, in words; nothing without such a limit."""
        return "" if self.holds_at_edge is None else AT_EDGE[self.holds_at_edge].format(limits=self.edge_limits)

    @property
    def edge_limits(self) -> str:
        """The limits that `holds_at_edge` speaks of: those passed, else all that follow the force."""
        judged = [limit for limit in self.limits if limit.name in _FOLLOW_FORCE and not math.isnan(limit.slack)]
        passed = [limit for limit in judged if limit.slack < 0]
        return " and ".join(limit.words for limit in passed or judged)

    @property
    def answer(self) -> str:
        """The levers to set, in one line: spindle speed and feed, with their positions."""
        speed = f"{self.spindle_rpm:.0f} rev/min{_positions(self.spindle_positions)}"
        if self.by_hand:
            speed = f"tap by hand, or at the slowest step: {speed}"
        return f"{speed}, {self.feed_text}"

    @property
    def by_hand(self) -> bool:
        """Whether a tap is better turned by hand: the machine is not known to have a reversing holder."""
        return any(item.code == "tap_by_hand" for item in self.cautions)

    @property
    def feed_text(self) -> str:
        """The feed to set, in the machine's unit where it is a step of the machine."""
        by_hand = self.feed_source == "hand"
        inch = self.machine_inch if self.feed_source == "step" else self.inch
        if self.feed_per_tooth_mm is not None or self.feed_mm_rev is None:
            shown = _rate(self.feed_mm_min, inch)
        else:
            value = self.feed_mm_rev / MM_PER_INCH if inch else self.feed_mm_rev
            shown = f"{value:.4f} in/rev" if inch else f"{value:.3f} mm/rev"
        if by_hand and self.hand_turns_per_min is not None:
            turns = f"{self.hand_turns_per_min:.2g} turns of the handle a minute"
            return f"fed by hand, {turns}" + (f" ({shown})" if self.finer_by_hand else "")
        return f"feed {shown}{_positions(self.feed_positions)}{' by hand' if by_hand else ''}"

    @property
    def finer_by_hand(self) -> bool:
        """Whether the machine has power feeds and every one of them is coarser than suits."""
        return self.feed_source == "hand" and any(
            item.code == "below_smallest_feed" for item in (*self.notes, *self.cautions)
        )

    def _size(self, value_mm: float) -> str:
        return f"{value_mm / MM_PER_INCH:.4g} in" if self.inch else f"{value_mm:.4g} mm"

    def _small(self, value_mm: float) -> str:
        return f"{value_mm / MM_PER_INCH:.4f} in" if self.inch else f"{value_mm:.3f} mm"

    def _speed(self, value: float) -> str:
        return f"{value / M_PER_FOOT:.0f} ft/min ({value:.0f} m/min)" if self.inch else f"{value:.0f} m/min"

    def _force(self, value: float) -> str:
        return f"{value / N_PER_LBF:.0f} lbf" if self.inch else f"{value:.0f} N"

    def _band(self, low: float | None, high: float | None) -> str:
        if low is None or high is None:
            return "no band for this force"
        shown = f"{low / N_PER_LBF:.0f} to {high / N_PER_LBF:.0f} lbf" if self.inch else f"{low:.0f} to {high:.0f} N"
        return f"  likely {shown}, the most with an edge in use: {BANDS[self.force_verified is True]}"

    def _figures(self) -> list[str]:
        inch = self.inch
        row = next((item for item in self.evidence if item.rule_id == "window_row"), None)
        window = f"{self._speed(self.window_low_m_min)} to {self._speed(self.window_high_m_min)}"
        out = [f"cutting speed {self._speed(self.cutting_speed_m_min)}; window {window}"]
        if row is not None:
            out[0] += f"  [{row.source}; {row.kind}]"
        if self.cutting_force_n is not None:
            force = self.cutting_force_n
            shown = f"{force / N_PER_LBF:.0f} lbf ({force:.0f} N)" if inch else f"{force:.0f} N"
            depth = "" if self.depth_mm is None else f", depth {self._size(self.depth_mm)}"
            out.append(f"cutting force {shown}{depth}, chip {self._small(self.chip_thickness_mm or 0.0)} thick")
            out.append(self._band(self.cutting_force_low_n, self.cutting_force_high_n))
        if self.feed_force_n is not None and self.cutting_force_n is not None:
            beside = "" if self.passive_force_n is None else f", across it {self._force(self.passive_force_n)}"
            out.append(f"force along the feed {self._force(self.feed_force_n)}{beside}")
        if self.feed_force_n is not None and self.cutting_force_n is None:
            force = self.feed_force_n
            out.append(f"thrust {force / N_PER_LBF:.0f} lbf ({force:.0f} N)" if inch else f"thrust {force:.0f} N")
            out.append(self._band(self.feed_force_low_n, self.feed_force_high_n))
        if self.peck_depths_mm:
            depths = ", ".join(self._size(each) for each in self.peck_depths_mm[:3])
            more = ", ..." if len(self.peck_depths_mm) > 3 else ""
            out.append(f"{len(self.peck_depths_mm)} pecks: clear the drill at {depths}{more}")
        elif self.passes > 1:
            across, down = self.passes_across, self.passes_down
            width = "" if self.width_mm is None else f", each {self._size(self.width_mm)} wide"
            out.append(f"{self.passes} passes: {across} across, {down} down{width}")
        if self.spindle_power_kw is not None:
            power = self.spindle_power_kw
            shown = f"{power / KW_PER_HP:.2f} hp ({power:.2f} kW)" if inch else f"{power:.2f} kW"
            motor = ""
            if self.motor_power_kw is not None:
                at_motor = self.motor_power_kw / KW_PER_HP if inch else self.motor_power_kw
                motor = f", {at_motor:.2f} {'hp' if inch else 'kW'} at the motor"
            low, high = self.spindle_power_low_kw, self.spindle_power_high_kw
            edges = ""
            if low is not None and high is not None:
                edges = f" ({low / KW_PER_HP:.2f} to {high / KW_PER_HP:.2f})" if inch else f" ({low:.2f} to {high:.2f})"
            out.append(f"power {shown} at the spindle{edges}{motor}")
        if self.torque_nm is not None:
            shown = f"{self.torque_nm / NM_PER_LBF_IN:.0f} lbf in" if inch else f"{self.torque_nm:.1f} N m"
            out.append(f"torque {shown}")
        if self.mrr_cm3_min is not None and self.torque_nm is not None:
            shown = f"{self.mrr_cm3_min / CM3_PER_IN3:.2f} in3/min" if inch else f"{self.mrr_cm3_min:.1f} cm3/min"
            out[-1] += f", removes {shown}"
        if self.tool_life_min is not None:
            span = life_span(self.tool_life_low_min or 0.0, self.tool_life_high_min or 0.0)
            out.append(f"tool life {life(self.tool_life_min)}{f'; likely {span}' if span else ''}: unverified")
        if self.roughness_ra_um is not None:
            shown = f"{self.roughness_ra_um / 0.0254:.0f} uin" if inch else f"{self.roughness_ra_um:.2f} um"
            lead = ", one tooth leading" if self.operation.startswith("mill") else ""
            out.append(f"finish Ra {shown}, {GEOMETRY_ALONE}{lead}")
        if self.deflection_mm is not None:
            shown = f"{self.deflection_mm / MM_PER_INCH:.5f} in" if inch else f"{self.deflection_mm:.4f} mm"
            what = "of the cutter" if self.operation.startswith("mill") else "twice that on the diameter"
            edges = ""
            if self.deflection_low_mm is not None and self.deflection_high_mm is not None:
                low, high = self.deflection_low_mm, self.deflection_high_mm
                edges = (
                    f" ({low / MM_PER_INCH:.5f} to {high / MM_PER_INCH:.5f})" if inch else f" ({low:.4f} to {high:.4f})"
                )
            out.append(f"deflection {shown}{edges}, {what}")
        out += lacking(self.alloy)
        if self.chip_rise_k is not None and self.heat_to_work_w is not None and self.heat_to_work_share is not None:
            rise = f"{1.8 * self.chip_rise_k:.0f} F" if inch else f"{self.chip_rise_k:.0f} K"
            share = f"{self.heat_to_work_share:.0%} of the heat, {self.heat_to_work_w:.0f} W, into the work"
            out.append(f"chip about {rise} hotter than the work; {share}: estimates")
        if self.time_s is not None:
            turns = "" if self.hand_turns is None else f", {self.hand_turns:.1f} turns of the handle"
            out.append(f"time {duration(self.time_s)} for {self._size(self.travel_mm or 0.0)} of travel{turns}")
        return out


_FIGURES = frozenset(
    item.name
    for item in fields(Cut)
    if item.name.endswith(("_rpm", "_min", "_rev", "_mm", "_n", "_kw", "_nm", "_s", "_um", "_k", "_w", "_share"))
    and item.name != "peck_depths_mm"
) | {"hand_turns", "chip_thinning"}

_FOLLOW_FORCE = ("power", "torque", "deflection")


def _positions(positions: tuple[tuple[str, str], ...]) -> str:
    return f" [{', '.join(f'{control} {setting}' for control, setting in positions)}]" if positions else ""


def _rate(value: float | None, inch: bool) -> str:
    if value is None:
        return "-"
    return f"{value / MM_PER_INCH:.3g} in/min" if inch else f"{value:.4g} mm/min"
