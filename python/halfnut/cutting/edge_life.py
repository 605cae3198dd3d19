"""How long an edge lasts in turning, after Taylor: what stands beside the figures."""

from __future__ import annotations

from halfnut.cutting.figures import ToolLifeFigures

__all__ = ["ToolLife"]


class ToolLife(ToolLifeFigures):
    """Tool life in turning. A figure that was not asked for is None."""

    @property
    def answer(self) -> str:
        """The life at a speed, the speed for a life, or what else was asked."""
        own = next((text for _, template in _ANSWERS if (text := self.filled(template)) is not None), "")
        return f"{own}  (turn {self.alloy.title}, {self.tool_material.replace('_', ' ')})"

    def report(self) -> list[tuple[str, str]]:
        """What was assumed, the bands, the other answers, Taylor's constants."""
        given = [(label, template) for label, template in _ANSWERS[:-1] if self.filled(template) is not None]
        templates = [("assumed", "{assumed}"), *_BANDS, *given[1:], ("Taylor", _TAYLOR)]
        return [(label, text) for label, template in templates if (text := self.filled(template))]

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
