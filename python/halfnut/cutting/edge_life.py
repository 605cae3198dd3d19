"""Tool life in turning, after Taylor: the life at a speed, the speed for a life, what is cheapest."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any

from halfnut import _core
from halfnut._core import DomainError, Evidence, Length, spell
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.units import length as read_length
from halfnut.core.units import quantity
from halfnut.core.words import caution
from halfnut.cutting.formulas import (
    economic_life_min,
    fastest_life_min,
    spindle_speed_rpm,
    taylor_life_min,
    taylor_speed_m_min,
)
from halfnut.cutting.tools import find_tool
from halfnut.machine import machines
from halfnut.material.alloys import Alloy
from halfnut.material.alloys import alloy as find_alloy

__all__ = ["ToolLife", "tool_life"]

_INCH_UNIT = re.compile(r"(?<![a-z])(in|ft|sfm)\b", re.IGNORECASE)


@dataclass(frozen=True)
class ToolLife(Record):
    """Tool life in turning. A figure that nothing was given for is None.

    Attributes
    ----------
    exponent, c_m_min : float
        n and C of V T^n = C, at this feed and depth; C is the speed for a life of one minute.
    life_min, life_low_min, life_high_min : float
        At the speed asked about, with its band; at most eight hours.
    speed_m_min, speed_low_m_min, speed_high_m_min : float
        For the life wanted, with its band.
    fastest_life_min, fastest_speed_m_min : float
        For the most parts an hour: from the time to change the edge.
    economic_life_min, economic_speed_m_min : float
        For the cheapest part: from that time, the edge's cost and the cost of a minute.
    spindle_rpm, fastest_rpm, economic_rpm : float
        At the diameter given, for the life wanted, the most parts and the cheapest part: the machine's fastest step
        that is not above the speed, or its slowest; without a machine exact.
    verified : bool
        Always False: measured lives scatter too widely about any computed one.
    """

    alloy: Alloy
    tool_material: str
    unit: str
    feed_mm_rev: float
    depth_mm: float
    exponent: float
    c_m_min: float
    at_speed_m_min: float | None
    life_min: float | None
    life_low_min: float | None
    life_high_min: float | None
    for_life_min: float | None
    speed_m_min: float | None
    speed_low_m_min: float | None
    speed_high_m_min: float | None
    fastest_life_min: float | None
    fastest_speed_m_min: float | None
    economic_life_min: float | None
    economic_speed_m_min: float | None
    spindle_rpm: float | None
    fastest_rpm: float | None
    economic_rpm: float | None
    verified: bool
    assumed: tuple[str, ...]
    cautions: tuple[Caution, ...] = field(repr=False)
    evidence: tuple[Evidence, ...] = field(repr=False)

    def to_dict(self) -> dict[str, Any]:
        """The life as a flat dictionary with unit-suffixed keys."""
        skip = {"alloy", "unit", "assumed", "cautions", "evidence"}
        out: dict[str, Any] = {"alloy": self.alloy.id}
        out |= {name: getattr(self, name) for name in self.__dataclass_fields__ if name not in skip}
        out["assumed"] = list(self.assumed)
        out["cautions"] = [item.code for item in self.cautions]
        return out

    @property
    def answer(self) -> str:
        """The life at a speed, the speed for a life, or what else was asked."""
        own = next((text for _, template in _ANSWERS if (text := self.filled(template)) is not None), "")
        return f"{own}  (turn {self.alloy.title}, {self.tool_material.replace('_', ' ')})"

    def report(self) -> list[tuple[str, str]]:
        """What was assumed, the bands, the other answers, Taylor's constants."""
        given = [(label, template) for label, template in _ANSWERS[:-1] if self.filled(template) is not None]
        templates = [("assumed", "{assumed_words}"), *_BANDS, *given[1:], ("Taylor", _TAYLOR)]
        return [(label, text) for label, template in templates if (text := self.filled(template))]

    @property
    def assumed_words(self) -> str:
        """What was not said, in one text."""
        return ", ".join(self.assumed)

    @property
    def n(self) -> str:
        """The exponent, as it is written."""
        return f"{self.exponent:g}"


# The answers, the first that was asked for ahead.
_ANSWERS = (
    ("life", "tool life {life_min} at {at_speed_m_min}"),
    ("speed", "{speed_m_min}[, {spindle_rpm:spindle}] for a tool life of {for_life_min}"),
    ("most", "parts an hour: {fastest_speed_m_min}[, {fastest_rpm:spindle}], tool life {fastest_life_min}"),
    ("cheapest", "part: {economic_speed_m_min}[, {economic_rpm:spindle}], tool life {economic_life_min}"),
    ("", "one minute of tool life at {c_m_min:speed}"),
)
_BANDS = (
    ("likely", "{life_low_min..life_high_min}: unverified"),
    ("likely", "{speed_low_m_min..speed_high_m_min}: unverified"),
)
_TAYLOR = "V T^n = C with n {n} and C {c_m_min:speed}"


@checked
def tool_life(
    alloy: str | Alloy,
    *,
    tool: str | None = None,
    feed: Any = None,
    depth: Any = None,
    speed: Any = None,
    life_min: float | None = None,
    change_min: float | None = None,
    edge_cost: float | None = None,
    cost_per_min: float | None = None,
    hardness_hb: float | None = None,
    machine: Any = None,
    diameter: Any = None,
) -> ToolLife:
    """Tool life in turning.

    Parameters
    ----------
    alloy : str or Alloy
        The work's material.
    tool : str, optional
        "HSS", "carbide" or "coated carbide"; HSS when not given.
    feed : str, optional
        A revolution; 0.25 mm/rev, as in the trials, when not given.
    depth : str or Length, optional
        2.5 mm when not given.
    speed : str, optional
        Cutting speed to tell the life at, such as "100 m/min".
    life_min : float, optional
        Life to tell the speed for.
    change_min : float, optional
        Minutes to change the edge; the machine's own time for a tool where a machine is given.
    edge_cost, cost_per_min : float, optional
        Of one edge, and of a minute of machine and person, in one currency.
    hardness_hb : float, optional
        The work's own Brinell hardness.
    machine : str, Path or Machine, optional
        Whose spindle steps the speeds are turned into at `diameter`.
    diameter : str or Length, optional
        Of the work.

    Returns
    -------
    ToolLife
        Lives and speeds with their bands, and the row they rest on.

    Raises
    ------
    DomainError
        A number out of its range, or a cost without the other.
    NotTabulatedError
        No such alloy, or no trials of this material and tool near this feed and depth.

    >>> life = tool_life("1045", tool="coated carbide", life_min=15)
    >>> round(life.speed_m_min)
    356
    """
    found = find_alloy(alloy.id if isinstance(alloy, Alloy) else alloy)
    edge_tool = find_tool(tool)
    assumed = [edge_tool.assumed] if edge_tool.assumed else []
    code = edge_tool.material
    read_feed = None if feed is None else quantity(feed, "feed", "feed")
    read_depth = None if depth is None else read_length(depth, "depth")
    feed_mm = 0.25 if read_feed is None else float(read_feed.base)
    depth_mm = 2.5 if read_depth is None else read_depth.mm
    if (edge_cost is None) != (cost_per_min is None):
        raise DomainError("edge_cost and cost_per_min go together: give both, in one currency")
    at_hand = None if machine is None else machines.machine(machine)
    work = None if diameter is None else read_length(diameter, "diameter")
    unit = "in" if _asked_in_inches(read_depth, work, (speed, feed), at_hand) else "mm"
    if read_feed is None:
        assumed.append(f"feed {spell(feed_mm, 'feed', unit)}")
    if read_depth is None:
        assumed.append(f"depth {spell(depth_mm, 'size', unit)}")
    if change_min is None and at_hand is not None and at_hand.core.tool_change_s > 0:
        change_min = at_hand.core.tool_change_s / 60
        assumed.append(f"edge change {change_min:.3g} min")
    edge = _core.edge_life(found.index, code, feed_mm, depth_mm, hardness_hb, active())
    n, c = edge.exponent, edge.c_m_min

    def life_at(v: float) -> float:
        return min(float(taylor_life_min(c, n, v)), _core.LONGEST_LIFE_MIN)

    at = None if speed is None else float(quantity(speed, "speed", "speed").base)
    wanted = None if life_min is None else float(taylor_speed_m_min(c, n, life_min))
    fastest = None if change_min is None else float(fastest_life_min(n, change_min))
    cheapest = None
    if edge_cost is not None and cost_per_min is not None:
        cheapest = float(economic_life_min(n, change_min or 0.0, edge_cost, cost_per_min))
    low, high = _core.LIFE_SPEED_LOW, _core.LIFE_SPEED_HIGH
    across = None if work is None else work.mm

    def speed_for(life: float | None) -> float | None:
        return None if life is None else float(taylor_speed_m_min(c, n, life))

    def rpm_for(speed: float | None) -> float | None:
        if speed is None or across is None:
            return None
        rpm = float(spindle_speed_rpm(speed, across))
        return rpm if at_hand is None else machines.fastest_step(at_hand, rpm)

    return ToolLife(
        alloy=found,
        tool_material=code,
        unit=unit,
        feed_mm_rev=feed_mm,
        depth_mm=depth_mm,
        exponent=n,
        c_m_min=c,
        at_speed_m_min=at,
        life_min=None if at is None else life_at(at),
        life_low_min=None if at is None else life_at(at / low),
        life_high_min=None if at is None else life_at(at / high),
        for_life_min=life_min,
        speed_m_min=wanted,
        speed_low_m_min=None if wanted is None else wanted * low,
        speed_high_m_min=None if wanted is None else wanted * high,
        fastest_life_min=fastest,
        fastest_speed_m_min=speed_for(fastest),
        economic_life_min=cheapest,
        economic_speed_m_min=speed_for(cheapest),
        spindle_rpm=rpm_for(wanted),
        fastest_rpm=rpm_for(speed_for(fastest)),
        economic_rpm=rpm_for(speed_for(cheapest)),
        verified=False,
        assumed=tuple(assumed),
        cautions=(caution("life_unverified"), *found.cautions),
        evidence=tuple(edge.evidence(active())),
    )


def _asked_in_inches(depth: Length | None, work: Length | None, texts: tuple[Any, ...], at_hand: Any) -> bool:
    """Whether the question is in inches: by its lengths, else by its speed or feed, else by its machine."""
    for each in (depth, work):
        if each is not None:
            return each.system == "inch"
    said = " ".join(str(each) for each in texts if each is not None)
    if said:
        return _INCH_UNIT.search(said) is not None
    return at_hand is not None and at_hand.core.inch
