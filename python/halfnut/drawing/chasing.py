"""A schedule of passes drawn: the groove as each pass leaves it, in black and white."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from halfnut.core.sizes import MM_PER_INCH
from halfnut.cutting.chasing import Chasing
from halfnut.cutting.figures import ChasePass
from halfnut.drawing.axes import on_axes

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["infeed_plot"]

_ARC = 12


def infeed_plot(found: Chasing, *, axes: Axes | None = None) -> Axes:
    """The groove that each pass leaves, and where the dial stands for it.

    Parameters
    ----------
    found : Chasing
        As `chase` answers it.
    axes : matplotlib Axes, optional
        Where to draw; new ones where none are given.

    Returns
    -------
    Axes
        Equal scales; depths below the blank downwards. The pass before a measurement and the last are thick; the chain
        line is the pitch line.
    """
    drawn = on_axes(axes, (6, 5))
    scale = MM_PER_INCH if found.unit == "in" else 1.0
    lean = 0.0
    if found.compound_deg is not None:
        lean = math.tan(math.radians(found.compound_deg))
    top = _half_width(found, found.depth_mm) * 1.25
    for each in found.passes:
        # the tip goes in along the compound: it comes to the middle at the last pass
        side = each.shift_mm + (found.depth_mm - each.depth_mm) * lean
        points = _outline(found, each, side, top)
        weight = 1.6 if each.measure else 0.6
        drawn.plot([x / scale for x, _ in points], [y / scale for _, y in points], "-", color="black", linewidth=weight)
    width = top / scale
    drawn.plot([-width, width], [0.0, 0.0], "-", color="black", linewidth=1.6)
    pitch_line = abs(found.blank_mm - found.pitch_diameter_mm) / 2 / scale
    drawn.plot([-width, width], [pitch_line, pitch_line], "-.", color="black", linewidth=0.7)
    _letter(drawn, found, width, scale)
    drawn.set_xlim(-width * 1.05, width * 1.7)
    drawn.invert_yaxis()
    drawn.set_aspect("equal")
    drawn.set_xlabel(f"along the work, {found.unit}")
    drawn.set_ylabel(f"below the blank, {found.unit}")
    return drawn


def _letter(drawn: Axes, found: Chasing, width: float, scale: float) -> None:
    """The dial's line beside each depth, as many as there is room for."""
    room = found.depth_mm / scale / 14
    wanted = [each.depth_mm / scale for each in found.passes if each.measure]
    below = -math.inf
    for each in found.passes:
        depth = each.depth_mm / scale
        if not each.measure and (depth - below < room or any(0 < place - depth < room for place in wanted)):
            continue
        below = depth
        words = f"line {each.line}{', measure' if each.measure else ''}"
        drawn.annotate(words, (0.0, depth), (width * 1.08, depth), va="center", fontsize=8)
        drawn.plot([0.0, width * 1.05], [depth, depth], ":", color="black", linewidth=0.4)


def _nose(found: Chasing) -> tuple[float, float]:
    """Half the width and the height of the nose where the flanks begin."""
    angle = math.radians(found.half_angle_deg)
    if found.nose_radius_mm:
        return found.nose_radius_mm * math.cos(angle), found.nose_radius_mm * (1.0 - math.sin(angle))
    return found.nose_flat_mm / 2, 0.0


def _half_width(found: Chasing, depth: float) -> float:
    """Half the width of the groove at the blank's surface."""
    half, height = _nose(found)
    return half + max(depth - height, 0.0) * math.tan(math.radians(found.half_angle_deg))


def _outline(found: Chasing, each: ChasePass, side: float, top: float) -> list[tuple[float, float]]:
    """Tool's outline at a pass, from the surface down and up again, kept within the picture."""
    half, height = _nose(found)
    radius = found.nose_radius_mm
    bottom: list[tuple[float, float]]
    if radius:
        angle = math.radians(90.0 - found.half_angle_deg)
        turn = [angle * (2 * k / _ARC - 1) for k in range(_ARC + 1)]
        bottom = [(radius * math.sin(t), each.depth_mm - radius * (1 - math.cos(t))) for t in turn]
    else:
        bottom = [(-half, each.depth_mm), (half, each.depth_mm)]
    reach = _half_width(found, each.depth_mm)
    if each.depth_mm <= height:
        return [(side + x, y) for x, y in bottom if y >= 0]
    points = [(-reach, 0.0), *bottom, (reach, 0.0)]
    return [(min(max(side + x, -top), top), y) for x, y in points]
