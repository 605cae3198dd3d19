"""How long an edge lasts in turning, after Taylor: what stands beside the figures."""

from __future__ import annotations

from halfnut.core.sizes import M_PER_FOOT, life, life_span
from halfnut.core.words import caution_lines
from halfnut.cutting.figures import ToolLifeFigures

__all__ = ["ToolLife"]


class ToolLife(ToolLifeFigures):
    """Life of an edge in turning. A figure that was not asked for is None."""

    def _speed(self, value: float | None) -> str:
        if value is None:
            return "-"
        return f"{value / M_PER_FOOT:.0f} ft/min" if self.inch else f"{value:.0f} m/min"

    def lines(self) -> list[str]:
        """The life as lines for a terminal."""
        out = []
        if self.life_min is not None:
            out.append(f"tool life {life(self.life_min)} at {self._speed(self.at_speed_m_min)}")
            span = life_span(self.life_low_min or 0.0, self.life_high_min or 0.0)
            out += [f"  likely {span}: unverified"] if span else []
        if self.speed_m_min is not None:
            at = _rpm(self.spindle_rpm)
            out.append(f"{self._speed(self.speed_m_min)}{at} for a tool life of {life(self.for_life_min or 0.0)}")
            low_speed, high_speed = self._speed(self.speed_low_m_min), self._speed(self.speed_high_m_min)
            out.append(f"  likely {low_speed} to {high_speed}: unverified")
        if self.fastest_life_min is not None:
            speed = self._speed(self.fastest_speed_m_min) + _rpm(self.fastest_rpm)
            out.append(f"most parts an hour: {speed}, tool life {life(self.fastest_life_min)}")
        if self.economic_life_min is not None:
            speed = self._speed(self.economic_speed_m_min) + _rpm(self.economic_rpm)
            out.append(f"cheapest: {speed}, tool life {life(self.economic_life_min)}")
        out = out or [f"one minute of tool life at {self._speed(self.c_m_min)}"]
        out[0] += f"  (turn {self.alloy.title}, {self.tool_material.replace('_', ' ')})"
        if self.assumed:
            out[0] += f"  assumed: {', '.join(self.assumed)}"
        row = next(item for item in self.evidence if item.rule_id == "taylor")
        out.append(
            f"  V T^n = C with n {self.exponent:g} and C {self._speed(self.c_m_min)}  [{row.source}; {row.kind}]"
        )
        return [*out, *caution_lines(self.told)]


def _rpm(value: float | None) -> str:
    return "" if value is None else f", {value:.0f} rev/min"
