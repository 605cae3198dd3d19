"""Fits drawn: tolerance zones as a coating grows, and how the clearance of pairs is spread.

Black and white: the external part's zone is hatched to the right, the internal one's to the left; full lines are
maximum-material limits, broken lines the other ones.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

import numpy as np

from halfnut._core import DomainError, coated_pitch_change_um
from halfnut.drawing.axes import on_axes
from halfnut.threads.fitting import clearance_chances
from halfnut.threads.questions import fit, limits

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from halfnut.core.given import LengthLike
    from halfnut.material.coatings import BuildUpLike
    from halfnut.threads.standard import PartLike

__all__ = ["clearance_plot", "zones_plot"]


def zones_plot(
    external: PartLike,
    internal: PartLike,
    *,
    build_up_external: BuildUpLike | None = None,
    build_up_internal: BuildUpLike | None = None,
    axes: Axes | None = None,
) -> Axes:
    """Zones of both pitch diameters over the build-up of a surface, from bare to beyond the coating.

    Parameters
    ----------
    external, internal : str, Thread or ThreadLimits
        The pair.
    build_up_external, build_up_internal : optional
        Coating of each part; a part without one keeps its zone. A vertical line stands at the greatest build-up.
    axes : matplotlib Axes, optional
        Where to draw; new ones where none are given.

    Returns
    -------
    Axes
        Heights above the basic pitch diameter, in the thread's own unit.
    """
    parts = [limits(external, side="external"), limits(internal, side="internal")]
    if parts[0].unit != parts[1].unit:
        raise DomainError(f"{parts[0].title} and {parts[1].title} are of two systems: their zones have no common unit")
    found = fit(external, internal, build_up_external=build_up_external, build_up_internal=build_up_internal)
    coats_um = (found.build_up_external_max_um, found.build_up_internal_max_um)
    most_um = max(coats_um)
    unit = parts[0].unit
    basic = parts[1].pitch_min - (parts[1].allowance or 0.0)
    reach_um = 1.5 * most_um if most_um > 0 else 10.0
    grown_um = np.linspace(0.0, reach_um, 61)
    per_um = 1 / 25400 if unit == "in" else 0.001
    drawn = on_axes(axes)
    for part, coat_um, sense, hatch in zip(parts, coats_um, (1, -1), ("////", "\\\\\\\\"), strict=True):
        moved = coated_pitch_change_um(grown_um, part.half_angle_deg) * per_um if coat_um > 0 else 0.0 * grown_um
        low, high = (size - basic + sense * moved for size in (part.pitch_min, part.pitch_max))
        full, least = (high, low) if sense > 0 else (low, high)
        shown = grown_um * (per_um if unit == "in" else 1.0)
        words = part.title
        drawn.fill_between(shown, low, high, facecolor="none", edgecolor="black", linewidth=0, hatch=hatch, label=words)
        most_line = drawn.plot(shown, full, "-", color="black")[0]
        least_line = drawn.plot(shown, least, "--", color="black", linewidth=0.71)[0]
    most_line.set_label("most material")
    least_line.set_label("least")
    if most_um > 0:
        drawn.axvline(most_um * (per_um if unit == "in" else 1.0), color="black", linestyle=":", linewidth=0.71)
    drawn.set_xlabel(f"build-up of a surface, {'in' if unit == 'in' else 'µm'}")
    drawn.set_ylabel(f"above the basic pitch diameter, {unit}")
    drawn.legend(loc="upper center", bbox_to_anchor=(0.5, -0.2), ncols=2)
    return drawn


def clearance_plot(
    external: PartLike,
    internal: PartLike,
    *,
    build_up_external: BuildUpLike | None = None,
    build_up_internal: BuildUpLike | None = None,
    external_pitch: LengthLike | None = None,
    internal_pitch: LengthLike | None = None,
    tolerance_over_sigma: float = 6.0,
    mean_shift: float = 0.0,
    axes: Axes | None = None,
    label: str = "",
) -> Axes:
    """How the clearance at the pitch diameter is spread over pairs: the share of pairs with less than each clearance.

    Parameters
    ----------
    external, internal : str, Thread or ThreadLimits
        The pair.
    build_up_external, build_up_internal, external_pitch, internal_pitch, tolerance_over_sigma, mean_shift : optional
        As for `clearance_chances`.
    axes : matplotlib Axes, optional
        Where to draw; new ones where none are given. Pairs drawn on the same axes get the next line type.
    label : str
        For the legend.

    Returns
    -------
    Axes
        Shares in parts of a hundred pairs; a thin line stands where the parts would just touch.
    """
    pair = partial(
        clearance_chances,
        external,
        internal,
        build_up_external=build_up_external,
        build_up_internal=build_up_internal,
        external_pitch=external_pitch,
        internal_pitch=internal_pitch,
        tolerance_over_sigma=tolerance_over_sigma,
        mean_shift=mean_shift,
    )
    answer = fit(external, internal, **pair.keywords)
    low, high = answer.pitch_clearance_min_mm, answer.pitch_clearance_max_mm
    clearance_mm = np.linspace(low, high, 401)
    share = 100.0 * pair(clearance_mm)
    drawn = on_axes(axes)
    scale = 25.4 if answer.unit == "in" else 1.0
    if not drawn.lines:
        drawn.axvline(0.0, color="black", linestyle="-", linewidth=0.71)
    style = ("-", "--", "-.", ":")[(len(drawn.lines) - 1) % 4]
    drawn.plot(clearance_mm / scale, share, color="black", linestyle=style, label=label)
    drawn.set_xlabel(f"clearance at the pitch diameter, {answer.unit}")
    drawn.set_ylabel("pairs with less, %")
    return drawn
