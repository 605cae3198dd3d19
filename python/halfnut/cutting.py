"""Cuts at the lathe and the mill: levers, forces, power, finish and time for one operation at a time.

Lengths are text with a unit, or `Length`; figures whose names end in a unit are plain numbers.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, fields, replace
from types import MappingProxyType
from typing import Any

import numpy as np
from numpy.typing import NDArray

from halfnut import _core, standing
from halfnut._core import (
    DomainError,
    Evidence,
    Length,
    cantilever_deflection_mm,
    centre_feed_mm_min,
    centres_deflection_mm,
    chip_ratio,
    chip_speed_m_min,
    chip_thickness_mm,
    chip_thinning_factor,
    chuck_centre_deflection_mm,
    countersink_depth_mm,
    cutting_power_kw,
    cutting_speed_m_min,
    drilling_removal_cm3_min,
    drilling_thrust_n,
    drilling_torque_nm,
    economic_life_min,
    engagement_deg,
    face_milling_approach_mm,
    fastest_life_min,
    feed_factor,
    feed_rate_mm_min,
    feed_time_s,
    first_whirl_rpm,
    heat_to_work_share,
    helix_length_mm,
    mean_entering_deg,
    merchant_friction_deg,
    milling_approach_mm,
    milling_chip_thickness_max_mm,
    milling_chip_thickness_mean_mm,
    milling_cross_force_ratio,
    milling_feed_force_ratio,
    milling_removal_cm3_min,
    milling_roughness_rt_um,
    motor_power_kw,
    point_length_mm,
    rake_correction,
    ramp_length_mm,
    roughness_ra_um,
    roughness_rt_um,
    second_moment_mm4,
    shear_angle_deg,
    shear_area_mm2,
    shear_force_n,
    shear_strain,
    specific_cutting_force_n_mm2,
    speed_correction,
    spindle_speed_rpm,
    spindle_torque_nm,
    table_feed_mm_min,
    tailstock_setover_mm,
    taper_angle_deg,
    tapping_torque_nm,
    taylor_exponent,
    taylor_life_min,
    taylor_life_ratio,
    taylor_speed_m_min,
    temperature_rise_k,
    torque_power_kw,
    turning_force_n,
    turning_removal_cm3_min,
    unit_power_force_n_mm2,
    unit_power_kw,
    work_warming_k,
)
from halfnut.arguments import checked
from halfnut.catalogue import active
from halfnut.material import Alloy, lacking, modulus_gpa
from halfnut.material import alloy as find_alloy
from halfnut.record import Caution, Record
from halfnut.sizes import (
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
from halfnut.tools import Tool, find_tool
from halfnut.units import as_asked, asked, quantity
from halfnut.units import length as read_length
from halfnut.words import AT_EDGE, BANDS, CAUTIONS, GEOMETRY_ALONE, LIMITS, caution, caution_lines

__all__ = [
    "Cut",
    "ForceBand",
    "Limit",
    "bore",
    "cantilever_deflection_mm",
    "centre_feed_mm_min",
    "centres_deflection_mm",
    "chip_ratio",
    "chip_speed_m_min",
    "chip_thickness_mm",
    "chip_thinning_factor",
    "chuck_centre_deflection_mm",
    "counterbore",
    "countersink",
    "countersink_depth_mm",
    "cutting_power_kw",
    "cutting_speed_m_min",
    "drill",
    "drilling_removal_cm3_min",
    "drilling_thrust_n",
    "drilling_torque_nm",
    "economic_life_min",
    "engagement_deg",
    "face",
    "face_milling_approach_mm",
    "fastest_life_min",
    "feed_factor",
    "feed_rate_mm_min",
    "feed_time_s",
    "first_whirl_rpm",
    "force_band",
    "force_bands",
    "heat_to_work_share",
    "helix_length_mm",
    "knurl",
    "mean_entering_deg",
    "merchant_friction_deg",
    "mill",
    "milling_approach_mm",
    "milling_chip_thickness_max_mm",
    "milling_chip_thickness_mean_mm",
    "milling_cross_force_ratio",
    "milling_feed_force_ratio",
    "milling_removal_cm3_min",
    "milling_roughness_rt_um",
    "motor_power_kw",
    "part_off",
    "point_length_mm",
    "rake_correction",
    "ramp_length_mm",
    "ream",
    "roughness_ra_um",
    "roughness_rt_um",
    "second_moment_mm4",
    "shear_angle_deg",
    "shear_area_mm2",
    "shear_force_n",
    "shear_strain",
    "specific_cutting_force_n_mm2",
    "speed_correction",
    "spindle_speed_rpm",
    "spindle_torque_nm",
    "spot",
    "table_feed_mm_min",
    "tailstock_setover_mm",
    "tap",
    "taper_angle_deg",
    "tapping_torque_nm",
    "taylor_exponent",
    "taylor_life_min",
    "taylor_life_ratio",
    "taylor_speed_m_min",
    "temperature_rise_k",
    "thread_speed",
    "torque_power_kw",
    "turn",
    "turning_force_n",
    "turning_removal_cm3_min",
    "unit_power_force_n_mm2",
    "unit_power_kw",
    "work_warming_k",
]

_PART_OUT = 1.0  # diameters from the jaws, beyond which parting is worth a caution


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
class ForceBand(Record):
    """Where a measured force lies, as shares of the reckoned one; power and torque follow the force.

    Attributes
    ----------
    verified : bool
        Whether measured cuts of the alloy's group bear the band out.
    papers, rows : int
        Of measured cuts of the group.
    median : float or None
        Of reckoned over measured force in them.
    """

    alloy: Alloy
    process: str
    low: float
    high: float
    verified: bool
    papers: int
    rows: int
    median: float | None
    cautions: tuple[Caution, ...] = field(repr=False)
    evidence: tuple[Evidence, ...] = field(repr=False)

    def to_dict(self) -> dict[str, Any]:
        """The band as a flat dictionary."""
        names = ("process", "low", "high", "verified", "papers", "rows", "median")
        return {"alloy": self.alloy.id} | {name: getattr(self, name) for name in names}

    def lines(self) -> list[str]:
        """The band as lines for a terminal."""
        out = [f"{self.low:.2f} to {self.high:.2f} of the reckoned force  ({self.process} {self.alloy.title})"]
        out.append(f"  {BANDS[self.verified]}")
        if self.rows:
            middle = "" if self.median is None else f", reckoned over measured {self.median:.2f} in the middle"
            out.append(f"  {self.rows} measured cuts of the group, {self.papers} paper{middle}")
        return out


def force_band(alloy: str | Alloy, process: str = "turn") -> ForceBand:
    """Band of an alloy's forces.

    Parameters
    ----------
    alloy : str or Alloy
        The work's material.
    process : str
        "turn" (facing, boring and parting too), "mill", "drill" or "tap".

    Returns
    -------
    ForceBand
        Its edges as shares of the reckoned force, and whether measured cuts bear it out.

    Raises
    ------
    DomainError
        No such process.
    NotTabulatedError
        No such alloy.

    >>> force_band("6061-T6").verified, force_band("304").verified
    (True, False)
    """
    found = find_alloy(alloy.id if isinstance(alloy, Alloy) else alloy)
    band = _core.force_band(found.index, process, active())
    median = None if math.isnan(band.median) else band.median
    evidence = tuple(band.evidence(active()))
    return ForceBand(
        found, process, band.low, band.high, band.verified, int(band.papers), int(band.rows), median, (), evidence
    )


@dataclass(frozen=True)
class ForceBands:
    """Bands of several alloys as columns.

    Attributes
    ----------
    low, high : ndarray of float
        Edges as shares of the reckoned force, in the shape of what was asked for.
    verified : ndarray of bool
        Whether measured cuts bear each out.
    """

    low: NDArray[np.float64]
    high: NDArray[np.float64]
    verified: NDArray[np.bool_]

    def edges(self, reckoned: Any) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Lower and upper edge of reckoned figures that follow the force: force, power, torque, deflection."""
        values = np.asarray(reckoned, dtype=np.float64)
        return self.low * values, self.high * values


def force_bands(alloys: Sequence[str | Alloy], processes: str | Sequence[str] = "turn") -> ForceBands:
    """Bands of several alloys' forces, as columns.

    Parameters
    ----------
    alloys : sequence of str or Alloy
        The work's materials, n of them.
    processes : str or sequence of str
        As for `force_band`: one for all, or n of them.

    Returns
    -------
    ForceBands
        Columns of length n.

    Raises
    ------
    DomainError
        No such process, or another number of them.
    NotTabulatedError
        No such alloy.

    >>> low, high = force_bands(["6061-T6", "304"]).edges([100.0, 200.0])
    >>> bool((low < high).all())
    True
    """
    each = [processes] * len(alloys) if isinstance(processes, str) else list(processes)
    if len(each) != len(alloys):
        raise DomainError(f"processes must be one, or as many as alloys, {len(alloys)}, got {len(each)}")
    known: dict[tuple[str, str], ForceBand] = {}
    bands = []
    for alloy, process in zip(alloys, each, strict=True):
        key = (alloy.id if isinstance(alloy, Alloy) else alloy, process)
        if key not in known:
            known[key] = force_band(*key)
        bands.append(known[key])
    return ForceBands(
        np.array([band.low for band in bands]),
        np.array([band.high for band in bands]),
        np.array([band.verified for band in bands], dtype=np.bool_),
    )


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


def core_machine(machine: Any) -> _core.Machine | None:
    """The core's record of a machine by name, file or record; None for none."""
    if machine is None or isinstance(machine, _core.Machine):
        return machine
    from halfnut import machines

    return machines.machine(machine).core


def _mm(value: Any, name: str) -> float | None:
    return None if value is None else read_length(value, name).mm


def _feed(value: Any) -> float | None:
    return None if value is None else float(quantity(value, "feed", "feed").base)


_HEX = re.compile(r"\s*hex(agon)?\s*$", re.IGNORECASE)


def held_numbers(stock: Any, bar_length: Any, bar_behind: Any, stick_out: Any = None) -> dict[str, float | None]:
    """What is said of the stock and of a bar through the spindle, by the core's names."""
    flats = isinstance(stock, str) and _HEX.search(stock) is not None
    size = _mm(_HEX.sub("", stock) if flats else stock, "stock")
    given = {
        "stock_flats_mm" if flats else "stock_diameter_mm": size,
        "bar_length_mm": _mm(bar_length, "bar_length"),
        "bar_behind_mm": _mm(bar_behind, "bar_behind"),
    }
    return given if stick_out is None else given | {"stick_out_mm": _mm(stick_out, "stick_out")}


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
    free = f"{math.floor(free_mm / MM_PER_INCH)} in" if cut.inch else f"{10 * math.floor(free_mm / 10)} mm"
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


def _usual_depth(operation: str, depth_mm: float, inch: bool) -> str:
    """How to say the depth, or the width of the blade, that was taken where none was given."""
    shown = f"{depth_mm / MM_PER_INCH:.3f} in" if inch else f"{depth_mm:.3g} mm"
    return f"{'blade' if operation == 'part_off' else 'depth'} {shown}"


def _of_material(found: Alloy, forces: bool) -> list[str]:
    """Codes of the notes that a material brings to every cut with a force."""
    if not forces:
        return []
    plastic = any(name.startswith("plastic") for name in _core.group_chain(found.group, active()))
    traits = [f"trait_{word}" for word in found.traits if not (plastic and word == "low_conductivity")]
    return [*(code for code in traits if code in CAUTIONS), *(["plastic_melts"] if plastic else [])]


# Cautions that show the machine's or the work's own limit: the less it is, the graver.
_LIMIT_OF = {"work_whips": "whirl of the work", "bar_whips": "whirl of the bar", "over_travel": "travel"}


def _bounds(result: _core.CutResult, size: Length) -> dict[str, str]:
    """The bounds of a cut as its cautions name them."""
    out = {}
    for name, _, bound, _ in result.limits:
        length = f"{bound / MM_PER_INCH:.4g} in" if size.system == "inch" else f"{bound:.4g} mm"
        out[name.replace(" ", "_")] = f"{bound:.0f}" if name.startswith("whirl") else length
    return out


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
    if figures["cutting_speed_m_min"] >= (figures["window_low_m_min"] + figures["window_high_m_min"]) / 2:
        codes = [code for code in codes if code != "trait_built_up_edge"]  # it forms at low speed
    words = figures | {"tool": tool.name} | _bounds(result, size)
    least = {name: bound for name, _, bound, _ in result.limits}
    made = (caution(code, gravity=-least.get(_LIMIT_OF.get(code, ""), 0.0), **words) for code in codes)
    told = list(dict.fromkeys([*made, *found.cautions]))
    pecks: tuple[float, ...] = ()
    if operation == "drill" and result.passes > 1 and figures["depth_mm"] is not None:
        pecks = tuple(_core.drill_pecks(found.index, size.mm, figures["depth_mm"], active()))
    thinning = None
    if operation.startswith("mill") and figures["width_mm"] is not None:
        thinning = float(chip_thinning_factor(min(figures["width_mm"], size.mm), size.mm))
    return Cut(
        operation=operation,
        alloy=found,
        tool_material=tool.material,
        tool_name=tool.name,
        machine_name=None if machine is None else machine.name,
        inch=size.system == "inch",
        machine_inch=machine is not None and machine.inch,
        diameter_mm=size.mm,
        **figures,
        **follow,
        **heat,
        chip_thinning=thinning,
        peck_depths_mm=pecks,
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
        feed_source=result.feed_source,
        limited_by=result.limited_by.replace(" ", "_"),
        feed_limited_by=result.feed_limited_by.replace(" ", "_"),
        limits=tuple(
            Limit(name.replace(" ", "_"), value, *rest) for name, value, *rest in result.limits if math.isfinite(value)
        ),
        assumed=tuple(as_asked(each, size.system == "inch") for each in assumed),
        notes=tuple(item for item in told if item.rank == "note"),
        cautions=tuple(item for item in told if item.rank != "note"),
        evidence=(
            *tool.evidence,
            *result.evidence(active()),
            *(_core.rule_evidence(heat_rules, active()) if heat["chip_rise_k"] is not None else ()),
        ),
    )


_LATHE_TOOL = {
    "nose_radius_mm": "nose_radius_mm",
    "entering_deg": "entering_deg",
    "rake_deg": "rake_deg",
    "bar_diameter_mm": "bar_diameter_mm",
}
_NOSE = {"nose_radius_mm": "nose radius 0.8 mm"}
# Names of the core's arguments as a person gives them, where they differ.
_ASKED = {"cutter_diameter": "cutter", "deflection_limit": "deflection"}
_ASKED_OF = {"bore": {"stick_out": "overhang"}, "part_off": {"depth": "blade"}, "thread": {"feed": "pitch"}}


def _lathe(
    operation: str,
    alloy: str | Alloy,
    diameter: Any,
    numbers: Mapping[str, float | None],
    *,
    tool: str | None,
    machine: Any,
    chuck: Any = None,
    hold: str = "chuck",
    finish: bool = False,
    hardness_hb: float | None = None,
    usual: Mapping[str, str] = MappingProxyType({}),
) -> Cut:
    found = find_alloy(alloy.id if isinstance(alloy, Alloy) else alloy)
    size = read_length(diameter, "diameter")
    core = core_machine(machine)
    edge = find_tool(tool)
    keys = _LATHE_TOOL | ({"stick_out_mm": "stick_out_mm"} if operation == "bore" else {})
    keys |= {"depth_mm": "width_mm"} if operation == "part_off" else {}
    given, assumed = formed(numbers, edge, keys, usual)
    holder = holder_place(core, chuck, hold, assumed)
    given["diameter_mm"] = size.mm
    inch = size.system == "inch"
    name = operation.replace("_", " ")
    with asked(inch, _ASKED | _ASKED_OF.get(operation, {})):
        result = _core.lathe_cut(
            name, found.index, edge.material, given, finish, inch, hold, holder, hardness_hb, core, active()
        )
    depth_mm = result.figures["depth_mm"]
    if "depth_mm" in given and given["depth_mm"] is None and depth_mm is not None:
        assumed.insert(1 if tool is None else 0, _usual_depth(operation, depth_mm, inch))
    extra = ["emery_by_hand"] if operation == "turn" and finish else []
    extra += ["faceplate_balance"] if standing.is_faceplate(core, holder) else []
    ladder = None if core is None else core.carriage
    cut = cut_record(operation, found, result, core, ladder, size, edge, assumed, extra)
    return bar_note(cut, core, given, hold)


@checked
def turn(
    alloy: str | Alloy,
    diameter: Any,
    *,
    depth: Any = None,
    length: Any = None,
    machine: Any = None,
    tool: str | None = None,
    finish: bool = False,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    nose_radius: Any = None,
    entering_deg: float | None = None,
    rake_deg: float | None = None,
    wear_factor: float | None = None,
    hold: str = "chuck",
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
    sections: Sequence[Any] = (),
    steadies: Sequence[Any] = (),
    bore: Any = None,
    roughness_um: float | None = None,
    deflection: Any = None,
    approach: Any = None,
    overrun: Any = None,
) -> Cut:
    """Turn a diameter: spindle step, feed, force, power, finish, deflection and time of one cut.

    Parameters
    ----------
    alloy : str or Alloy
        The work's material, by any name that `alloy` understands.
    diameter : str or Length
        Before the cut.
    depth : str or Length, optional
        On the radius; when it is not given 1 mm, or 0.25 mm when finishing, in an inch question 0.040 in and 0.010 in,
        and at most a quarter of the radius.
    length : str or Length, optional
        Of the cut along the axis; without it there is no time.
    machine : str, Path or Machine, optional
        Whose steps to choose from; without one, speed and feed are exact.
    tool : str, optional
        "HSS", "cobalt HSS", "cast cobalt", "carbide" or "coated carbide"; HSS when not given.
    finish : bool
        A finishing cut, whatever its depth.
    feed : str, optional
        Wanted, such as "0.1 mm/rev"; the next finer step of the machine is taken.
    spindle_rpm : float, optional
        Wanted; the nearest step of the machine is taken.
    hardness_hb : float, optional
        The work's own Brinell hardness.
    nose_radius : str or Length, optional
        0.8 mm when not given.
    entering_deg, rake_deg : float, optional
        Of the tool: 90 degrees, and as the force constants were measured, when not given.
    wear_factor : float, optional
        On the force, 1 to 3; 1 is a sharp tool, 1.4 a blunt one. Not given: the force is that of a sharp edge,
        while limits, the upper edges of force and power, and the force across the edge with the deflection that it
        makes are those of an edge in use.
    hold : str
        "chuck", "chuck and centre" or "between centres".
    chuck : str or int, optional
        Which of the machine's; the first when not given.
    stick_out : str or Length, optional
        From the jaws, or between the centres: at least `length`, which stands for it when it is not given. Without
        either there is no deflection.
    sections : sequence of (length, diameter) or (length, diameter, bore), optional
        Stepped work from the chuck or the first centre on, in place of `stick_out`; the deflection is then that of
        the beam at its worst place, with the tool anywhere along it.
    steadies : sequence of str or Length, optional
        Places of fixed steadies, from the chuck or the first centre.
    bore : str or Length, optional
        Of a tube.
    roughness_um : float, optional
        Ra that the feed may leave.
    deflection : str or Length, optional
        That the work may bend.
    approach, overrun : str or Length, optional
        2 mm and nothing when not given.
    stock : str or Length, optional
        Of the bar or blank that is held: its diameter, or "30 mm hex" across the flats; `diameter` when not given.
    bar_length, bar_behind : str or Length, optional
        Of a bar through the spindle: its whole length, or what is free behind the spindle.

    Returns
    -------
    Cut
        The levers and what the cut comes to.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> turn("6061-T6", "32 mm", depth="1 mm").limited_by
    'speed_window'
    """
    numbers = {
        **held_numbers(stock, bar_length, bar_behind),
        "depth_mm": _mm(depth, "depth"),
        "length_mm": _mm(length, "length"),
        "feed_mm_rev": _feed(feed),
        "spindle_rpm": spindle_rpm,
        "bore_mm": _mm(bore, "bore"),
        "stick_out_mm": _mm(stick_out, "stick_out"),
        "nose_radius_mm": _mm(nose_radius, "nose_radius"),
        "entering_deg": entering_deg,
        "rake_deg": rake_deg,
        "wear_factor": wear_factor,
        "roughness_limit_um": roughness_um,
        "deflection_limit_mm": _mm(deflection, "deflection"),
        "approach_mm": _mm(approach, "approach"),
        "overrun_mm": _mm(overrun, "overrun"),
    }
    sections, steadies = tuple(sections), tuple(steadies)
    if sections and stick_out is not None:
        raise DomainError("sections say how far the work stands out: leave stick_out away")
    if steadies and not sections and stick_out is None:
        raise DomainError("steadies need stick_out or sections")

    def ask(numbers: Mapping[str, float | None]) -> Cut:
        return _lathe(
            "turn",
            alloy,
            diameter,
            numbers,
            tool=tool,
            machine=machine,
            chuck=chuck,
            hold=hold,
            finish=finish,
            hardness_hb=hardness_hb,
            usual=_NOSE,
        )

    if deflection is not None:
        modulus_gpa(find_alloy(alloy.id if isinstance(alloy, Alloy) else alloy), "limit of deflection")
    if not sections and not steadies:
        return ask(numbers)
    from halfnut.bending import turned_on_beam

    modulus_gpa(find_alloy(alloy.id if isinstance(alloy, Alloy) else alloy), "deflection of stepped or steadied work")
    return turned_on_beam(ask, numbers, core_machine(machine), hold, sections, steadies)


@checked
def face(
    alloy: str | Alloy,
    diameter: Any,
    *,
    end_diameter: Any = None,
    depth: Any = None,
    machine: Any = None,
    tool: str | None = None,
    finish: bool = False,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    nose_radius: Any = None,
    rake_deg: float | None = None,
    wear_factor: float | None = None,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
    bore: Any = None,
    roughness_um: float | None = None,
    approach: Any = None,
    overrun: Any = None,
) -> Cut:
    """Face an end: the spindle keeps the speed of the outer diameter, the cross slide feeds.

    Parameters
    ----------
    alloy, machine, tool, finish, feed, spindle_rpm, hardness_hb, nose_radius, rake_deg, wear_factor, chuck
        As for `turn`; the feed is that of the cross slide.
    diameter : str or Length
        Where the cut starts.
    end_diameter : str or Length, optional
        Where it ends; the centre, or the bore, when not given.
    depth : str or Length, optional
        Along the axis.
    bore, roughness_um, approach, overrun
        As for `turn`.
    stick_out : str or Length, optional
        Of the work from the jaws.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers and what the cut comes to.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> face("brass", "40 mm").travel_mm
    22.0
    """
    numbers = {
        **held_numbers(stock, bar_length, bar_behind, stick_out),
        "end_diameter_mm": _mm(end_diameter, "end_diameter"),
        "depth_mm": _mm(depth, "depth"),
        "feed_mm_rev": _feed(feed),
        "spindle_rpm": spindle_rpm,
        "bore_mm": _mm(bore, "bore"),
        "nose_radius_mm": _mm(nose_radius, "nose_radius"),
        "rake_deg": rake_deg,
        "wear_factor": wear_factor,
        "roughness_limit_um": roughness_um,
        "approach_mm": _mm(approach, "approach"),
        "overrun_mm": _mm(overrun, "overrun"),
    }
    return _lathe(
        "face",
        alloy,
        diameter,
        numbers,
        tool=tool,
        machine=machine,
        chuck=chuck,
        finish=finish,
        hardness_hb=hardness_hb,
        usual=_NOSE,
    )


@checked
def bore(
    alloy: str | Alloy,
    diameter: Any,
    *,
    depth: Any = None,
    length: Any = None,
    machine: Any = None,
    tool: str | None = None,
    finish: bool = False,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    nose_radius: Any = None,
    entering_deg: float | None = None,
    rake_deg: float | None = None,
    wear_factor: float | None = None,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    bar_diameter: Any = None,
    overhang: Any = None,
    roughness_um: float | None = None,
    deflection: Any = None,
    approach: Any = None,
    overrun: Any = None,
) -> Cut:
    """Bore a hole with a single-point bar.

    Parameters
    ----------
    alloy, depth, length, machine, tool, finish, feed, spindle_rpm, hardness_hb, nose_radius
        As for `turn`.
    diameter : str or Length
        Of the bore after the cut.
    bar_diameter, overhang : str or Length, optional
        Of the bar and from its holder; a steel bar. Without them there is no deflection.
    entering_deg, rake_deg, wear_factor, chuck, roughness_um, deflection, approach, overrun
        As for `turn`; the deflection is the bar's.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers and what the cut comes to.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> bore("6061-T6", "25 mm", bar_diameter="16 mm", overhang="60 mm").deflection_mm is not None
    True
    """
    numbers = {
        **held_numbers(stock, bar_length, bar_behind),
        "depth_mm": _mm(depth, "depth"),
        "length_mm": _mm(length, "length"),
        "feed_mm_rev": _feed(feed),
        "spindle_rpm": spindle_rpm,
        "stick_out_mm": _mm(overhang, "overhang"),
        "bar_diameter_mm": _mm(bar_diameter, "bar_diameter"),
        "nose_radius_mm": _mm(nose_radius, "nose_radius"),
        "entering_deg": entering_deg,
        "rake_deg": rake_deg,
        "wear_factor": wear_factor,
        "roughness_limit_um": roughness_um,
        "deflection_limit_mm": _mm(deflection, "deflection"),
        "approach_mm": _mm(approach, "approach"),
        "overrun_mm": _mm(overrun, "overrun"),
    }
    return _lathe(
        "bore",
        alloy,
        diameter,
        numbers,
        tool=tool,
        machine=machine,
        chuck=chuck,
        finish=finish,
        hardness_hb=hardness_hb,
        usual=_NOSE,
    )


@checked
def part_off(
    alloy: str | Alloy,
    diameter: Any,
    *,
    blade: Any = None,
    end_diameter: Any = None,
    machine: Any = None,
    tool: str | None = None,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    rake_deg: float | None = None,
    wear_factor: float | None = None,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    bore: Any = None,
    stick_out: Any = None,
    approach: Any = None,
    overrun: Any = None,
) -> Cut:
    """Part off, or cut a groove that ends at `end_diameter`.

    Parameters
    ----------
    alloy, machine, tool, feed, spindle_rpm, hardness_hb, rake_deg, wear_factor, chuck, bore, approach, overrun
        As for `face`.
    diameter : str or Length
        Where the cut starts.
    blade : str or Length, optional
        Width of the blade; 3 mm, in an inch question 0.125 in, when not given.
    end_diameter : str or Length, optional
        Where it ends; the centre, or the bore, when not given.
    stick_out : str or Length, optional
        From the jaws to the blade; more than the diameter is a caution.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers and what the cut comes to.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> part_off("6061-T6", "1 in", blade="0.125 in").feed_source
    'exact'
    """
    numbers = {
        **held_numbers(stock, bar_length, bar_behind),
        "end_diameter_mm": _mm(end_diameter, "end_diameter"),
        "depth_mm": _mm(blade, "blade"),
        "feed_mm_rev": _feed(feed),
        "spindle_rpm": spindle_rpm,
        "bore_mm": _mm(bore, "bore"),
        "stick_out_mm": _mm(stick_out, "stick_out"),
        "rake_deg": rake_deg,
        "wear_factor": wear_factor,
        "approach_mm": _mm(approach, "approach"),
        "overrun_mm": _mm(overrun, "overrun"),
    }
    cut = _lathe(
        "part_off",
        alloy,
        diameter,
        numbers,
        tool=tool,
        machine=machine,
        chuck=chuck,
        hardness_hb=hardness_hb,
    )
    out_mm = numbers["stick_out_mm"]
    if out_mm is not None and out_mm > _PART_OUT * cut.diameter_mm:
        return replace(cut, cautions=(*cut.cautions, caution("part_slender")))
    return cut


@checked
def knurl(
    alloy: str | Alloy,
    diameter: Any,
    *,
    length: Any = None,
    machine: Any = None,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    chuck: str | int | None = None,
    hold: str = "chuck",
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
    approach: Any = None,
    overrun: Any = None,
) -> Cut:
    """Speed and feed for knurling with form wheels; the blank is `knurl_blank`'s business.

    Parameters
    ----------
    alloy, length, machine, feed, spindle_rpm, hardness_hb, chuck, hold, approach, overrun
        As for `turn`.
    diameter : str or Length
        Of the blank.
    stick_out : str or Length, optional
        Of the work from the jaws.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers and the time; knurling has no chip, so no force is reckoned.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material.

    >>> knurl("brass", "20 mm").cutting_force_n is None
    True
    """
    numbers = {
        **held_numbers(stock, bar_length, bar_behind, stick_out),
        "length_mm": _mm(length, "length"),
        "feed_mm_rev": _feed(feed),
        "spindle_rpm": spindle_rpm,
        "approach_mm": _mm(approach, "approach"),
        "overrun_mm": _mm(overrun, "overrun"),
    }
    return _lathe(
        "knurl",
        alloy,
        diameter,
        numbers,
        tool="HSS",
        machine=machine,
        chuck=chuck,
        hold=hold,
        hardness_hb=hardness_hb,
    )


@checked
def thread_speed(
    alloy: str | Alloy,
    diameter: Any,
    pitch: Any,
    *,
    length: Any = None,
    machine: Any = None,
    tool: str | None = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
) -> Cut:
    """Spindle step for single-point threading; one pass takes `time_s`.

    Parameters
    ----------
    alloy, length, machine, tool, spindle_rpm, hardness_hb, chuck
        As for `turn`.
    diameter : str or Length
        Major diameter.
    pitch : str or Length
        Lead of the thread.
    stick_out : str or Length, optional
        Of the work from the jaws.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers and the time of one pass.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> thread_speed("6061-T6", "24 mm", "1.5 mm").feed_mm_rev
    1.5
    """
    numbers = {
        **held_numbers(stock, bar_length, bar_behind, stick_out),
        "length_mm": _mm(length, "length"),
        "feed_mm_rev": _mm(pitch, "pitch"),
        "spindle_rpm": spindle_rpm,
    }
    return _lathe("thread", alloy, diameter, numbers, tool=tool, machine=machine, chuck=chuck, hardness_hb=hardness_hb)


def _hole(
    operation: str,
    alloy: str | Alloy,
    size: Length,
    numbers: Mapping[str, float | None],
    *,
    tool: str | None,
    machine: Any,
    chuck: Any,
    hardness_hb: float | None,
    usual: Mapping[str, str] = MappingProxyType({}),
) -> Cut:
    found = find_alloy(alloy.id if isinstance(alloy, Alloy) else alloy)
    core = core_machine(machine)
    edge = find_tool(tool)
    given, assumed = formed(numbers, edge, {"point_deg": "point_deg", "teeth": "teeth"}, usual)
    turns = core is not None and core.kind == "lathe"
    holder = holder_place(core, chuck, "chuck", assumed) if turns else -1
    given["diameter_mm"] = size.mm
    name = operation.replace("_", " ")
    with asked(size.system == "inch", _ASKED):
        result = _core.hole_cut(name, found.index, edge.material, given, holder, hardness_hb, core, active())
    return cut_record(operation, found, result, core, None if core is None else core.quill, size, edge, assumed)


@checked
def drill(
    alloy: str | Alloy,
    diameter: Any,
    *,
    depth: Any = None,
    machine: Any = None,
    tool: str | None = None,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    pilot: Any = None,
    point_deg: float | None = None,
    wear_factor: float | None = None,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
    approach: Any = None,
    overrun: Any = None,
) -> Cut:
    """Drill a hole, from a lathe's tailstock or a mill's quill.

    Parameters
    ----------
    alloy, machine, tool, spindle_rpm, hardness_hb, wear_factor, chuck
        As for `turn`.
    diameter : str or Length
        Of the drill; a number or letter drill by its name ("#7", "letter F").
    depth : str or Length, optional
        Of the full diameter; the point is added. Without it there is no time.
    feed : str, optional
        Wanted, a revolution; by the table for the diameter when not given.
    pilot : str or Length, optional
        Hole that is there already.
    point_deg : float, optional
        118 when not given.
    approach, overrun : str or Length, optional
        2 mm, and nothing beyond the depth, when not given.
    stick_out : str or Length, optional
        Of the work from the jaws.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers and what the hole takes; the thrust is `feed_force_n`.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> round(drill("1018", "10 mm", depth="20 mm").travel_mm, 3)
    25.004
    """
    size = read_length(diameter, "diameter")
    numbers = {
        **held_numbers(stock, bar_length, bar_behind, stick_out),
        "depth_mm": _mm(depth, "depth"),
        "pilot_mm": _mm(pilot, "pilot"),
        "point_deg": point_deg,
        "feed_mm_rev": _feed(feed),
        "spindle_rpm": spindle_rpm,
        "wear_factor": wear_factor,
        "approach_mm": _mm(approach, "approach"),
        "overrun_mm": _mm(overrun, "overrun"),
    }
    return _hole("drill", alloy, size, numbers, tool=tool, machine=machine, chuck=chuck, hardness_hb=hardness_hb)


@checked
def spot(
    alloy: str | Alloy,
    diameter: Any,
    *,
    machine: Any = None,
    tool: str | None = None,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    point_deg: float | None = None,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
    approach: Any = None,
) -> Cut:
    """Spot a hole's place before it is drilled.

    Parameters
    ----------
    alloy, machine, tool, feed, spindle_rpm, hardness_hb, chuck, approach
        As for `drill`; the forces are those of a drill of the spot's diameter.
    diameter : str or Length
        Of the spot at the surface; a little more than the hole leaves its chamfer.
    point_deg : float, optional
        90 when not given.
    stick_out : str or Length, optional
        Of the work from the jaws.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers and what the spot takes.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> spot("6061-T6", "6 mm").travel_mm
    5.0
    """
    numbers = {
        **held_numbers(stock, bar_length, bar_behind, stick_out),
        "point_deg": point_deg,
        "feed_mm_rev": _feed(feed),
        "spindle_rpm": spindle_rpm,
        "approach_mm": _mm(approach, "approach"),
    }
    size = read_length(diameter, "diameter")
    return _hole("spot", alloy, size, numbers, tool=tool, machine=machine, chuck=chuck, hardness_hb=hardness_hb)


def countersink(
    alloy: str | Alloy,
    diameter: Any,
    hole: Any,
    *,
    machine: Any = None,
    tool: str | None = None,
    flutes: int | None = None,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    included_deg: float | None = None,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
    approach: Any = None,
) -> Cut:
    """Countersink a hole.

    Parameters
    ----------
    alloy, machine, tool, feed, spindle_rpm, hardness_hb, chuck, approach
        As for `drill`.
    diameter, hole : str or Length
        Of the cone at the surface, and of the hole.
    flutes : int, optional
        Three when not given.
    included_deg : float, optional
        Of the cone: 90 when not given; 82 and 100 are usual in inch work.
    stick_out : str or Length, optional
        Of the work from the jaws.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers, and the torque at the widest place.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> round(countersink("6061-T6", "12 mm", "6 mm").travel_mm, 6)
    5.0
    """
    numbers = {
        **held_numbers(stock, bar_length, bar_behind, stick_out),
        "point_deg": included_deg,
        "pilot_mm": _mm(hole, "hole"),
        "feed_mm_rev": _feed(feed),
    }
    return _ring(
        "countersink", alloy, diameter, numbers, flutes, spindle_rpm, approach, tool, machine, chuck, hardness_hb
    )


def counterbore(
    alloy: str | Alloy,
    diameter: Any,
    hole: Any,
    *,
    depth: Any = None,
    machine: Any = None,
    tool: str | None = None,
    flutes: int | None = None,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
    approach: Any = None,
) -> Cut:
    """Counterbore a hole, flat at the bottom.

    Parameters
    ----------
    alloy, machine, tool, feed, spindle_rpm, hardness_hb, chuck, approach
        As for `drill`.
    diameter, hole : str or Length
        Of the counterbore and of the hole that guides it.
    depth : str or Length, optional
        Without it there is no time.
    flutes : int, optional
        Three when not given.
    stick_out : str or Length, optional
        Of the work from the jaws.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers and the torque.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> counterbore("1018", "11 mm", "6.6 mm", depth="6 mm").travel_mm
    8.0
    """
    numbers = {
        **held_numbers(stock, bar_length, bar_behind, stick_out),
        "pilot_mm": _mm(hole, "hole"),
        "depth_mm": _mm(depth, "depth"),
        "feed_mm_rev": _feed(feed),
    }
    return _ring(
        "counterbore", alloy, diameter, numbers, flutes, spindle_rpm, approach, tool, machine, chuck, hardness_hb
    )


def _ring(
    operation: str,
    alloy: str | Alloy,
    diameter: Any,
    numbers: Mapping[str, float | None],
    flutes: int | None,
    spindle_rpm: float | None,
    approach: Any,
    tool: str | None,
    machine: Any,
    chuck: Any,
    hardness_hb: float | None,
) -> Cut:
    given = {
        **numbers,
        "teeth": None if flutes is None else float(flutes),
        "spindle_rpm": spindle_rpm,
        "approach_mm": _mm(approach, "approach"),
    }
    return _hole(
        operation,
        alloy,
        read_length(diameter, "diameter"),
        given,
        tool=tool,
        machine=machine,
        chuck=chuck,
        hardness_hb=hardness_hb,
        usual={"teeth": "3 flutes"},
    )


@checked
def ream(
    alloy: str | Alloy,
    diameter: Any,
    *,
    depth: Any = None,
    machine: Any = None,
    tool: str | None = None,
    feed: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    hole: Any = None,
    flutes: int | None = None,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
    approach: Any = None,
    overrun: Any = None,
) -> Cut:
    """Ream a drilled hole.

    Parameters
    ----------
    alloy, diameter, depth, machine, tool, feed, spindle_rpm, hardness_hb, chuck, approach, overrun
        As for `drill`.
    hole : str or Length, optional
        As drilled or bored; without it no force is reckoned.
    flutes : int, optional
        Six when not given.
    stick_out : str or Length, optional
        Of the work from the jaws.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers, the time and, where the hole is known, torque and thrust.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> ream("6061-T6", "10 mm", depth="20 mm").torque_nm is None
    True
    >>> ream("6061-T6", "10 mm", depth="20 mm", hole="9.8 mm").torque_nm > 0
    True
    """
    size = read_length(diameter, "diameter")
    numbers = {
        **held_numbers(stock, bar_length, bar_behind, stick_out),
        "depth_mm": _mm(depth, "depth"),
        "pilot_mm": _mm(hole, "hole"),
        "teeth": None if flutes is None else float(flutes),
        "feed_mm_rev": _feed(feed),
        "spindle_rpm": spindle_rpm,
        "approach_mm": _mm(approach, "approach"),
        "overrun_mm": _mm(overrun, "overrun"),
    }
    usual = {} if hole is None else {"teeth": "6 flutes"}
    return _hole(
        "ream", alloy, size, numbers, tool=tool, machine=machine, chuck=chuck, hardness_hb=hardness_hb, usual=usual
    )


@checked
def tap(
    alloy: str | Alloy,
    thread: Any,
    *,
    depth: Any = None,
    machine: Any = None,
    tool: str | None = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    wear_factor: float | None = None,
    form: bool = False,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
    stick_out: Any = None,
    approach: Any = None,
    overrun: Any = None,
) -> Cut:
    """Tap a drilled hole with a machine tap, in and out again.

    Parameters
    ----------
    alloy, machine, tool, spindle_rpm, hardness_hb, wear_factor, chuck
        As for `turn`.
    thread : str, Thread or FormThread
        By its designation, such as "M6", "1/4-20 UNC", "G1/4" or "1/8-27 NPT"; of one start.
    depth : str or Length, optional
        Of the thread. Without it there is no time.
    form : bool
        A tap that forms the thread without a chip; its torque is rough.
    approach, overrun : str or Length, optional
        2 mm, and nothing beyond the depth, when not given.
    stick_out : str or Length, optional
        Of the work from the jaws.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    Cut
        The levers, the torque and the time.

    Raises
    ------
    DesignationError
        A thread that is not understood.
    DomainError
        Several starts of a thread beside ISO metric and Unified, or a forming tap for one.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> tap("6061-T6", "M6", depth="12 mm").feed_mm_rev
    1.0
    """
    from halfnut.form_threads import FormThread, tapers
    from halfnut.form_threads import thread as read_thread

    found = read_thread(thread)
    size = Length(found.diameter_mm / MM_PER_INCH, "in") if found.unit == "in" else Length(found.diameter_mm, "mm")
    said = []
    if isinstance(found, FormThread):
        if found.starts > 1:
            raise _core.DomainError(f"{found} has {found.starts} starts: cut it with a single point, not with a tap")
        if form:
            raise _core.DomainError(f"form: there is no rule for forming taps in {found}")
        said = [caution("taper_tap" if tapers(found) else "form_tap_torque")]
    numbers = {
        **held_numbers(stock, bar_length, bar_behind, stick_out),
        "depth_mm": _mm(depth, "depth"),
        "pitch_mm": found.pitch_mm,
        "spindle_rpm": spindle_rpm,
        "wear_factor": wear_factor,
        "approach_mm": _mm(approach, "approach"),
        "overrun_mm": _mm(overrun, "overrun"),
    }
    operation = "form_tap" if form else "tap"
    cut = _hole(operation, alloy, size, numbers, tool=tool, machine=machine, chuck=chuck, hardness_hb=hardness_hb)
    return replace(cut, cautions=(*cut.cautions, *said)) if said else cut


@checked
def mill(
    alloy: str | Alloy,
    cutter: Any,
    *,
    depth: Any,
    flutes: int | None = None,
    shape: str = "side",
    width: Any = None,
    length: Any = None,
    step_over: Any = None,
    step_down: Any = None,
    machine: Any = None,
    tool: str | None = None,
    feed_per_tooth: Any = None,
    spindle_rpm: float | None = None,
    hardness_hb: float | None = None,
    entering_deg: float | None = None,
    nose_radius: Any = None,
    roughness_um: float | None = None,
    stick_out: Any = None,
    deflection: Any = None,
    wear_factor: float | None = None,
    approach: Any = None,
    overrun: Any = None,
) -> Cut:
    """Mill a slot, a side or a pocket with an end mill, or a face with a face mill.

    Parameters
    ----------
    alloy, machine, tool, spindle_rpm, hardness_hb, wear_factor
        As for `turn`.
    cutter : str or Length
        Diameter of the cutter.
    depth : str or Length
        To be cut away along the cutter's axis, in all passes.
    flutes : int, optional
        Teeth of the cutter; four when not given, two below 5 mm.
    shape : str
        "slot", "side", "pocket" or "face".
    width : str or Length, optional
        To be cut away across the feed, in all passes; a slot is as wide as its cutter when not given.
    length : str or Length, optional
        Along the feed. Without it there is no time.
    step_over, step_down : str or Length, optional
        Most in one pass; the passes come out equal.
    feed_per_tooth : str or Length, optional
        Wanted; the next slower table feed is taken.
    entering_deg : float, optional
        Of a face mill's edge; 90 when not given.
    nose_radius : str or Length, optional
        Of a face mill's teeth; 0.8 mm when not given.
    roughness_um : float, optional
        Ra that the feed may leave on a wall or a face, one tooth leading the others.
    stick_out : str or Length, optional
        Of the cutter from its holder; without it there is no deflection.
    deflection : str or Length, optional
        That the cutter may bend.
    approach, overrun : str or Length, optional
        2 mm, and half a face mill's diameter, when not given.

    Returns
    -------
    Cut
        The levers and what one pass comes to; the time is that of all passes.

    Raises
    ------
    DomainError
        A number out of its range.
    NotTabulatedError
        No such alloy, or no speed for this material and tool.

    >>> mill("6061-T6", "10 mm", shape="slot", depth="8 mm", flutes=2).passes_down
    2
    """
    found = find_alloy(alloy.id if isinstance(alloy, Alloy) else alloy)
    size = read_length(cutter, "cutter")
    core = core_machine(machine)
    edge = find_tool(tool)
    numbers = {
        "cutter_diameter_mm": size.mm,
        "teeth": None if flutes is None else float(flutes),
        "length_mm": _mm(length, "length"),
        "width_mm": _mm(width, "width"),
        "depth_mm": _mm(depth, "depth"),
        "step_over_mm": _mm(step_over, "step_over"),
        "step_down_mm": _mm(step_down, "step_down"),
        "feed_per_tooth_mm": _mm(feed_per_tooth, "feed_per_tooth"),
        "spindle_rpm": spindle_rpm,
        "entering_deg": entering_deg,
        "nose_radius_mm": _mm(nose_radius, "nose_radius"),
        "roughness_limit_um": roughness_um,
        "stick_out_mm": _mm(stick_out, "stick_out"),
        "deflection_limit_mm": _mm(deflection, "deflection"),
        "wear_factor": wear_factor,
        "approach_mm": _mm(approach, "approach"),
        "overrun_mm": _mm(overrun, "overrun"),
    }
    keys = {name: name for name in ("teeth", "entering_deg", "nose_radius_mm", "stick_out_mm")}
    usual = {"teeth": f"{_core.usual_teeth(size.mm):g} flutes"} | (_NOSE if shape == "face" else {})
    given, assumed = formed(numbers, edge, keys, usual)
    with asked(size.system == "inch", _ASKED):
        result = _core.mill_cut(shape, found.index, edge.material, given, hardness_hb, core, active())
    ladder = None if core is None else core.table
    return cut_record(f"mill_{shape}", found, result, core, ladder, size, edge, assumed)
