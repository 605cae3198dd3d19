"""Tolerance zones of a plain hole and shaft, drawn above and below the nominal size.

Black and white: the hole's zone is hatched to the left, the shaft's to the right, as in the drawings of threads.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut._core import DomainError
from halfnut.drawing.axes import on_axes
from halfnut.fits.cylindrical import CylindricalFit
from halfnut.fits.questions import cylindrical_fit

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["cylinder_zones_plot"]

_HATCH = {"hole": "\\\\\\\\", "shaft": "////"}


def cylinder_zones_plot(*fits: str | CylindricalFit, axes: Axes | None = None) -> Axes:
    """Tolerance zones of one or more fits, side by side, about the line of the nominal size.

    Parameters
    ----------
    *fits : str or CylindricalFit
        ``"25 H7/g6"`` and its like, all in one unit.
    axes : matplotlib Axes, optional
        Where to draw; new ones where none are given.

    Returns
    -------
    Axes
        Deviations in um, or in inches.

    Raises
    ------
    DomainError
        No fit, or fits of two units.
    """
    found = [each if isinstance(each, CylindricalFit) else cylindrical_fit(each) for each in fits]
    units = {each.unit for each in found}
    if len(units) != 1:
        raise DomainError(f"zones need fits in one unit, got {sorted(units) or 'none'}")
    axes = on_axes(axes)
    bounds: list[float] = [0.0]
    ticks: list[float] = []
    labels: list[str] = []
    for place, each in enumerate(found):
        for part in each.parts:
            left = place + (-0.4 if part.side == "hole" else 0.02)
            scale = 1e-3 if part.unit == "mm" else 1e-6
            height = (part.upper_units - part.lower_units) * scale
            bounds += [part.upper_units * scale, part.lower_units * scale]
            axes.bar(
                left, height, 0.38, part.lower_units * scale, align="edge", linewidth=0.71, facecolor="white",
                edgecolor="black", hatch=_HATCH[part.side],
            )  # fmt: skip
        ticks.append(place)
        labels.append(each.text)
    axes.axhline(0.0, color="black", linewidth=1.42)
    axes.set_xlim(-0.6, len(found) - 0.4)
    room = 0.08 * (max(bounds) - min(bounds))
    axes.set_ylim(min(bounds) - room, max(bounds) + room)
    axes.set_xticks(ticks, labels)
    axes.set_xlabel("holes left and shafts right, parts")
    axes.set_ylabel(f"deviation from the nominal size, {'µm' if units == {'mm'} else 'in'}")
    return axes
