"""A thread's profile with its tolerance zones, at true scale, in black and white.

Line work by ISO 128: outlines thick, everything else thin; external and internal zones are told apart by the
direction of their hatching.
"""

from __future__ import annotations

import html
import math
from statistics import fmean
from typing import TYPE_CHECKING

from halfnut import _core
from halfnut.core.sizes import MM_PER_INCH
from halfnut.drawing.axes import on_axes
from halfnut.threads.standard import ThreadLimits

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["profile_plot", "profile_svg"]

Point = tuple[float, float]

_THICK_MM, _THIN_MM, _TEXT_MM = 0.5, 0.25, 3.0
_LABELS_MM = 38.0
"""Room for the words beside the profile."""


def _outline(corners: tuple[float, ...], pitch: float, turns: int) -> list[Point]:
    """Corners over some turns, from groove to groove of the external part: place along the axis, and radius."""
    turn = list(zip(corners[::2], corners[1::2], strict=True))
    return [(x + k * pitch, r) for k in range(turns) for x, r in (turn[1:] if k else turn)]


def _labels(limits: ThreadLimits) -> list[tuple[float, str]]:
    """Radius and words of each limit, the greatest first."""
    names = "d d2 d1" if limits.side == "external" else "D D2 D1"
    places = 3 if limits.unit == "mm" else 4
    found = [
        (getattr(limits, f"{of}_{end}"), f"{name} {end}")
        for name, of in zip(names.split(), ("major", "pitch", "minor"), strict=True)
        for end in ("max", "min")
    ]
    return sorted(((size / 2, f"{words} {size:.{places}f}") for size, words in found if size is not None), reverse=True)


def _pitch(limits: ThreadLimits) -> float:
    return limits.pitch_mm if limits.unit == "mm" else limits.pitch_mm / MM_PER_INCH


def _parts(limits: tuple[ThreadLimits, ...]) -> list[ThreadLimits]:
    if not limits or len(limits) > 2:
        raise _core.DomainError(f"a profile is drawn of one part or two, got {len(limits)}")
    if not all(each.profile_most and each.profile_least for each in limits):
        raise _core.DomainError("these limits lack a size that the profile needs")
    if len(limits) == 2:
        first, second = limits
        if first.side == second.side:
            raise _core.DomainError(f"two {first.side} parts do not go together: {first.title}, {second.title}")
        if first.half_angle_deg != second.half_angle_deg:
            raise _core.DomainError(f"threads of different angle do not go together: {first.title}, {second.title}")
        if first.unit != second.unit or not math.isclose(first.pitch_mm, second.pitch_mm, rel_tol=1e-9):
            raise _core.DomainError(f"threads of different pitch do not go together: {first.title}, {second.title}")
    return sorted(limits, key=lambda part: part.side)


def _require_turns(turns: int) -> None:
    if not 1 <= turns <= 100:
        raise _core.DomainError(f"turns must be 1 to 100, got {turns}")


def profile_svg(*limits: ThreadLimits, turns: int = 2, width_mm: float = 180.0) -> str:
    """The profile of one part, or of both, with tolerance zones, as a stand-alone SVG.

    Parameters
    ----------
    *limits : ThreadLimits
        One part, or an external and an internal part of one pitch.
    turns : int
        How many turns to draw, 1 to 100.
    width_mm : float
        Width of the picture, mm, 100 to 2000; heights and lengths have one scale, which is written below.

    Returns
    -------
    str
        SVG, black on white, sized in millimetres.

    Examples
    --------
    >>> from halfnut.threads.questions import limits
    >>> profile_svg(limits("M10-6g"), limits("M10-6H")).startswith("<svg")
    True
    """
    _require_turns(turns)
    if not 100 <= width_mm <= 2000:
        raise _core.DomainError(f"width_mm must be 100 to 2000 mm, got {width_mm:g}")
    parts = _parts(limits)
    pitch = _pitch(parts[0])
    left = _LABELS_MM if len(parts) == 2 else 1.0  # an internal part beside an external one is lettered on the left
    wide = width_mm - left - _LABELS_MM
    scale = wide / (turns * pitch)
    top = max(radius for part in parts for radius in (*part.profile_most[1::2], *part.profile_least[1::2]))

    def height(radius: float) -> float:
        return (top - radius) * scale

    def path(points: list[Point], style: str) -> str:
        corners = " L".join(f"{left + x * scale:.3f},{height(r):.3f}" for x, r in points)
        return f'<path d="M{corners}" {style}/>'

    thick = f'fill="none" stroke="#000" stroke-width="{_THICK_MM}" stroke-linejoin="round"'
    thin = f'fill="none" stroke="#000" stroke-width="{_THIN_MM}"'
    shapes: list[str] = []
    lowest = highest = 0.0
    for part in parts:
        full, least = (_outline(corners, pitch, turns) for corners in (part.profile_most, part.profile_least))
        shapes.append(path([*full, *reversed(least)], f'fill="url(#{part.side})" stroke="none"'))
        shapes.append(path(full, thick))
        shapes.append(path(least, thin))
        labels = _labels(part)
        places = _spread([height(radius) for radius, _ in labels])
        outward = -1 if part is not parts[0] else 1
        edge = left if outward < 0 else left + wide
        shapes += _leaders([(height(radius), words) for radius, words in labels], places, edge, outward, thin)
        lowest = max(lowest, *places, *(height(r) for _, r in least), *(height(r) for _, r in full))
        highest = min(highest, *places)
    enlargement = scale if parts[0].unit == "mm" else scale / MM_PER_INCH
    names = " and ".join(part.title for part in parts)
    words = f"{names}, {parts[0].unit}, scale {enlargement:.3g}:1; thick: most material, thin: least"
    highest -= _TEXT_MM
    lowest += 2.5 * _TEXT_MM
    shapes.append(f'<text x="1" y="{lowest - 0.3 * _TEXT_MM:.2f}">{html.escape(words)}</text>')
    hatch = "".join(
        f'<pattern id="{side}" width="1.6" height="1.6" patternUnits="userSpaceOnUse" '
        f'patternTransform="rotate({turn})">'
        f'<line x1="0" y1="0" x2="0" y2="1.6" stroke="#000" stroke-width="{_THIN_MM}"/></pattern>'
        for side, turn in (("external", 45), ("internal", -45))
    )
    tall = lowest - highest
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{width_mm:g}mm" height="{tall:.2f}mm" '
        f'viewBox="0 {highest:.2f} {width_mm:g} {tall:.2f}" font-size="{_TEXT_MM}" '
        'font-family="Liberation Sans, Arial, sans-serif">'
        f"<title>Profile of {html.escape(names)} with tolerance zones</title><defs>{hatch}</defs>"
        f'<rect y="{highest:.2f}" width="100%" height="100%" fill="#fff"/>{"".join(shapes)}</svg>'
    )


def _spread(wanted: list[float]) -> list[float]:
    """Heights as near as may be to those wanted, from the top down, with room for a line of text between."""
    step = _TEXT_MM * 1.25
    heaps: list[list[float]] = []  # of labels that touch: each one's own wish, the room above it taken off
    for place, height in enumerate(wanted):
        heaps.append([height - place * step])
        while len(heaps) > 1 and fmean(heaps[-2]) > fmean(heaps[-1]):
            heaps[-2:] = [heaps[-2] + heaps[-1]]
    return [middle + place * step for place, middle in enumerate(fmean(heap) for heap in heaps for _ in heap)]


def _leaders(labels: list[tuple[float, str]], places: list[float], edge: float, outward: int, thin: str) -> list[str]:
    """Words for each limit beside the drawing, with a thin line to its height."""
    anchor = "start" if outward > 0 else "end"
    out = []
    for (height, words), place in zip(labels, places, strict=True):
        corners = ((-4, height), (2, height), (8, place), (9, place))
        line = " L".join(f"{edge + outward * x:.3f},{y:.3f}" for x, y in corners)
        out.append(f'<path d="M{line}" {thin}/>')
        x, y = edge + outward * 10, place + _TEXT_MM * 0.35
        out.append(f'<text x="{x:.2f}" y="{y:.2f}" text-anchor="{anchor}">{html.escape(words)}</text>')
    return out


def profile_plot(*limits: ThreadLimits, turns: int = 2, axes: Axes | None = None) -> Axes:
    """The same profile on matplotlib axes, radii over the length along the axis.

    Parameters
    ----------
    *limits : ThreadLimits
        One part, or an external and an internal part of one pitch.
    turns : int
        How many turns to draw, 1 to 100.
    axes : matplotlib Axes, optional
        Where to draw; new ones where none are given.

    Returns
    -------
    Axes
        With equal scales in both directions.
    """
    _require_turns(turns)
    parts = _parts(limits)
    axes = on_axes(axes, (8, 5))
    for part in parts:
        full, least = (_outline(corners, _pitch(part), turns) for corners in (part.profile_most, part.profile_least))
        zone = [*full, *reversed(least)]
        hatch = "////" if part.side == "external" else "\\\\\\\\"
        axes.fill(*zip(*zone, strict=True), facecolor="none", edgecolor="black", linewidth=0, hatch=hatch)
        axes.plot(*zip(*full, strict=True), color="black", linewidth=2, label=f"{part.title}, most material")
        axes.plot(*zip(*least, strict=True), color="black", linewidth=0.8, label=f"{part.title}, least")
    axes.set_aspect("equal")
    axes.set_xlabel(f"along the axis, {parts[0].unit}")
    axes.set_ylabel(f"radius, {parts[0].unit}")
    axes.legend(loc="upper center", bbox_to_anchor=(0.5, -0.15), frameon=False)
    return axes
