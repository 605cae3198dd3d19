"""Where the figures of this room are drawn."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.extras import optional

if TYPE_CHECKING:
    from matplotlib.axes import Axes


def on_axes(axes: Axes | None, size: tuple[float, float] | None = None) -> Axes:
    """The axes that were given, else new ones, of a size in inches."""
    new: Axes = optional("matplotlib.pyplot", "plot").subplots(figsize=size)[1] if axes is None else axes
    return new
