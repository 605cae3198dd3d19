"""Knurls drawn in black and white: how far each blank is from whole teeth, and the pattern unrolled."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from halfnut._core import DomainError
from halfnut.core.sizes import MM_PER_INCH
from halfnut.core.units import length
from halfnut.drawing.axes import on_axes
from halfnut.knurls.figures import KnurlBlank
from halfnut.knurls.formulas import mismatch_teeth, tracking_blank_mm

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from halfnut.core.given import LengthLike

__all__ = ["pattern_plot", "tracking_plot"]


_MOST_TEETH = 200  # that can be told apart on a page


def tracking_plot(
    blank: KnurlBlank, *, low: LengthLike | None = None, high: LengthLike | None = None, axes: Axes | None = None
) -> Axes:
    """How far blanks are from whole teeth, over their diameter.

    Parameters
    ----------
    blank : KnurlBlank
        Of the knurl; its pitch around the work is the one drawn.
    low, high : length, optional
        Ends of the diameters drawn, at most 200 teeth apart; three teeth below and above the blank when not given.
    axes : matplotlib Axes, optional
        Where to draw; new ones where none are given.

    Returns
    -------
    Axes
        Dots with their teeth where the knurl tracks; between the broken lines it still does; a cross at the diameter
        that was given.
    """
    unit, scale = blank.unit, MM_PER_INCH if blank.unit == "in" else 1.0
    tooth = blank.transverse_pitch_mm / np.pi
    start = blank.blank_diameter_mm - 3.3 * tooth if low is None else length(low, "low").mm
    end = blank.blank_diameter_mm + 3.3 * tooth if high is None else length(high, "high").mm
    if not 0 < start < end:
        raise DomainError(f"low must be > 0 and below high, got {start:g} and {end:g} mm")
    if end - start > _MOST_TEETH * tooth:
        raise DomainError(
            f"high must be at most {_MOST_TEETH} teeth of {tooth:g} mm above low, got {start:g} and {end:g} mm"
        )
    across = np.linspace(start, end, 1601)
    off = np.asarray(mismatch_teeth(across, blank.transverse_pitch_mm), dtype=float).copy()
    off[1:][np.abs(np.diff(off)) > 0.5] = np.nan  # lift the pen at each jump
    drawn = on_axes(axes)
    drawn.plot(across / scale, off, "-", color="black")
    for limit in (-blank.mismatch_limit_teeth, blank.mismatch_limit_teeth):
        drawn.axhline(limit, linestyle="--", linewidth=0.71, color="black")
    first = int(np.ceil(start / tooth - 1e-9))
    for teeth in range(first, int(np.floor(end / tooth + 1e-9)) + 1):
        whole = tracking_blank_mm(teeth, blank.transverse_pitch_mm) / scale
        drawn.plot(whole, 0.0, "o", color="black")
        drawn.annotate(f"{teeth}", (whole, 0.0), xytext=(6, -12), textcoords="offset points")
    if start <= blank.given_diameter_mm <= end:
        drawn.plot(blank.given_diameter_mm / scale, blank.given_mismatch_teeth, "x", color="black", markersize=9)
    drawn.set_xlabel(f"blank diameter, {unit}")
    drawn.set_ylabel("mismatch, teeth")
    return drawn


def pattern_plot(
    blank: KnurlBlank, diameter: LengthLike | None = None, *, turns: int = 2, teeth: int = 8, axes: Axes | None = None
) -> Axes:
    """The knurl on the surface unrolled, near where it closes on itself, turn by turn.

    Parameters
    ----------
    blank : KnurlBlank
        Of the knurl.
    diameter : length, optional
        Of the work to draw; the blank that tracks when not given.
    turns : int
        Turns of the work to draw, 1 to 4: the first in full lines, the others in broken ones.
    teeth : int
        How many teeth to show, 3 to 200.
    axes : matplotlib Axes, optional
        Where to draw; new ones where none are given.

    Returns
    -------
    Axes
        Equal scales. Ridges of both hands for diamonds; rings besides ridges for a cross.
    """
    if not 1 <= turns <= 4 or not 3 <= teeth <= _MOST_TEETH:
        raise DomainError(f"turns must be 1 to 4 and teeth 3 to {_MOST_TEETH}, got {turns} and {teeth}")
    unit, scale = blank.unit, MM_PER_INCH if blank.unit == "in" else 1.0
    across = blank.blank_diameter_mm if diameter is None else length(diameter, "diameter").mm
    around = blank.transverse_pitch_mm
    wide = teeth * around
    high = 0.6 * wide
    behind = float(mismatch_teeth(across, around)) * around
    lean = high * np.tan(np.radians(blank.helix_deg))
    hands = {"left": (-1,), "diamond raised": (1, -1), "diamond indented": (1, -1)}.get(blank.pattern, (1,))
    drawn = on_axes(axes)
    styles = ("-", "--", "-.", ":")
    reach = int(np.ceil(lean / around)) + turns
    for turn in range(turns):
        for hand in hands:
            for place in np.arange(-reach, teeth + reach + 1) * around:
                ends = np.array([place, place + hand * lean]) - turn * behind
                weight = 1.4 if turn == 0 else 0.71
                drawn.plot(ends / scale, [0.0, high / scale], styles[turn], color="black", linewidth=weight)
    if blank.pattern.startswith("cross"):
        for ring in np.arange(blank.normal_pitch_mm / 2, high, blank.normal_pitch_mm):
            drawn.axhline(ring / scale, color="black", linewidth=1.4)
    drawn.set_xlim(0.0, wide / scale)
    drawn.set_ylim(0.0, high / scale)
    drawn.set_aspect("equal")
    drawn.set_xlabel(f"around the work, {unit}")
    drawn.set_ylabel(f"along the work, {unit}")
    return drawn
