"""Cuts at the lathe and the mill: levers, forces, power, finish and time for one operation at a time.

Lengths are text with a unit, or `Length`; figures whose names end in a unit are plain numbers.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

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
from halfnut.cutting.figures import CutFigures, Limit
from halfnut.material.alloys import lacking

if TYPE_CHECKING:
    from typing_extensions import Self

__all__ = ["Cut", "Limit"]


class Cut(CutFigures):
    """One cut: the levers to set and what it comes to. A figure that does not apply is None."""

    @classmethod
    def of(cls, figures: dict[str, Any]) -> Self:
        """The record of the core's figures."""
        for key in ("limited_by", "feed_limited_by"):
            figures[key] = figures[key].replace(" ", "_")
        return super().of(figures)

    @classmethod
    def _words(cls, figures: dict[str, Any]) -> dict[str, Any]:
        inch = figures["inch"]
        bounds = {
            limit.name: f"{limit.bound:.0f}"
            if limit.name.startswith("whirl")
            else f"{limit.bound / MM_PER_INCH:.4g} in"
            if inch
            else f"{limit.bound:.4g} mm"
            for limit in figures["limits"]
        }
        return figures | {"tool": figures["tool_name"]} | bounds

    def to_dict(self) -> dict[str, Any]:
        """The cut as a flat dictionary with unit-suffixed keys."""
        return super().to_dict() | {"holds_at_edge": self.holds_at_edge}

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
            f"    {LIMITS.get(limit.name, limit.name)}: {abs(limit.slack):.0%} {'left' if limit.slack >= 0 else 'over'}"
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
        return " and ".join(LIMITS.get(limit.name, limit.name) for limit in passed or judged)

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


_FOLLOW_FORCE = ("power", "torque", "deflection")


def _positions(positions: tuple[tuple[str, str], ...]) -> str:
    return f" [{', '.join(f'{control} {setting}' for control, setting in positions)}]" if positions else ""


def _rate(value: float | None, inch: bool) -> str:
    if value is None:
        return "-"
    return f"{value / MM_PER_INCH:.3g} in/min" if inch else f"{value:.4g} mm/min"
