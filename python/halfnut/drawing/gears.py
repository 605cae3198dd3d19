"""A train of change gears drawn from the end of the lathe, in black and white.

Gears as ISO 2203 shows them: the tip circle a thick full line, the pitch circle a thin chain line; shafts that the
machine's file places stand where they are, others where the gears just mesh.
"""

from __future__ import annotations

import html
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from halfnut._core import DomainError
from halfnut.core.extras import optional
from halfnut.cutting.figures import GearTrain
from halfnut.drawing.axes import on_axes

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["train_plot", "train_svg"]

_THICK_MM, _THIN_MM, _TEXT_MM = 0.5, 0.25, 3.0
_CHAIN = (4.0, 0.8, 0.6, 0.8)


@dataclass(frozen=True)
class _Gear:
    x: float
    y: float
    teeth: int
    module: float
    shaft: str
    real: bool = True

    @property
    def pitch_radius(self) -> float:
        return self.module * self.teeth / 2

    @property
    def tip_radius(self) -> float:
        return self.module * (self.teeth / 2 + 1)


def _gears(train: GearTrain) -> list[_Gear]:
    """Every gear with its centre: the stud at 0, 0, the last shaft to its right, the banjo's above."""
    first, last = train.drivers[0], train.driven[-1]
    real = train.compound or train.idler is not None
    if train.compound:
        meshing, driving = train.driven[0], train.drivers[1]
    else:
        meshing = driving = train.idler if train.idler is not None else max(20, round((first + last) * 0.4))
    if train.stud_to_screw_mm is not None and train.stud_to_banjo_mm is not None and train.mounting == "closes":
        module = 2 * train.stud_to_banjo_mm / (first + meshing)
        span = train.stud_to_screw_mm
    else:
        module = 1.0
        a, c = (first + meshing) / 2, (driving + last) / 2
        span = max(0.85 * (a + c), abs(a - c) * 1.02, 0.0 if train.compound else (first + last) / 2 + 4)
        span = min(span, a + c)
    a, c = module * (first + meshing) / 2, module * (driving + last) / 2
    along = (a * a - c * c + span * span) / (2 * span)
    up = math.sqrt(max(a * a - along * along, 0.0))
    out = [_Gear(0.0, 0.0, first, module, "stud"), _Gear(along, up, meshing, module, "banjo", real)]
    if train.compound:
        out.append(_Gear(along, up, driving, module, "banjo"))
    return [*out, _Gear(span, 0.0, last, module, train.ends_on)]


def _letters(train: GearTrain, gears: list[_Gear]) -> list[tuple[float, float, str]]:
    """Words under each shaft: its teeth and its name."""
    out = []
    for shaft in ("stud", "banjo", train.ends_on):
        there = [gear for gear in gears if gear.shaft == shaft]
        teeth = " + ".join(str(gear.teeth) for gear in there) if there[0].real else "idler to fit"
        name = "idler" if shaft == "banjo" and len(there) == 1 and there[0].real else shaft
        out.append((there[0].x, there[0].y, f"{teeth} {name}" if there[0].real else teeth))
    return out


def train_svg(train: GearTrain, *, width_mm: float = 110.0) -> str:
    """A train as a stand-alone SVG, black on white, sized in millimetres.

    Parameters
    ----------
    train : GearTrain
        As `gear_train` answers it.
    width_mm : float
        Of the picture, 40 to 2000.

    Returns
    -------
    str
        SVG; all gears to one scale.
    """
    if not 40 <= width_mm <= 2000:
        raise DomainError(f"width_mm must be 40 to 2000 mm, got {width_mm:g}")
    gears = _gears(train)
    left = min(gear.x - gear.tip_radius for gear in gears)
    right = max(gear.x + gear.tip_radius for gear in gears)
    top = max(gear.y + gear.tip_radius for gear in gears)
    bottom = min(gear.y - gear.tip_radius for gear in gears)
    scale = (width_mm - 2.0) / (right - left)
    high = (top - bottom) * scale + 2.0

    def at(x: float, y: float) -> tuple[float, float]:
        return 1.0 + (x - left) * scale, 1.0 + (top - y) * scale

    chain = " ".join(f"{length:g}" for length in _CHAIN)
    shapes = []
    for gear in gears:
        x, y = at(gear.x, gear.y)
        dash = "" if gear.real else ' stroke-dasharray="2 1"'
        shapes.append(
            f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{gear.tip_radius * scale:.2f}" stroke-width="{_THICK_MM}"{dash}/>'
            f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{gear.pitch_radius * scale:.2f}" stroke-width="{_THIN_MM}" '
            f'stroke-dasharray="{chain}"/>'
            f'<path d="M{x - 2.5:.2f},{y:.2f}h5M{x:.2f},{y - 2.5:.2f}v5" stroke-width="{_THIN_MM}"/>'
        )
    words = "".join(
        f'<text x="{at(x, y)[0]:.2f}" y="{at(x, y)[1] + 2.0 * _TEXT_MM:.2f}" text-anchor="middle" stroke="#fff" '
        f'stroke-width="1" paint-order="stroke" fill="#000">{html.escape(text)}</text>'
        for x, y, text in _letters(train, gears)
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{width_mm:g}mm" height="{high:.2f}mm" '
        f'viewBox="0 0 {width_mm:g} {high:.2f}" font-size="{_TEXT_MM}" '
        'font-family="Liberation Sans, Arial, sans-serif">'
        f"<title>Change gears {html.escape(train.gears)}</title>"
        f'<rect width="100%" height="100%" fill="#fff"/><g fill="none" stroke="#000">{"".join(shapes)}</g>{words}</svg>'
    )


def train_plot(train: GearTrain, *, axes: Axes | None = None) -> Axes:
    """The same on matplotlib axes.

    Parameters
    ----------
    train : GearTrain
        As `gear_train` answers it.
    axes : matplotlib Axes, optional
        Where to draw; new ones where none are given.

    Returns
    -------
    Axes
        Equal scales; mm where the machine's file gives the module, else half a tooth is one.
    """
    circle = optional("matplotlib.patches", "plot").Circle

    drawn = on_axes(axes, (6, 5))
    gears = _gears(train)
    for gear in gears:
        outline = "-" if gear.real else "--"
        drawn.add_patch(circle((gear.x, gear.y), gear.tip_radius, fill=False, linewidth=1.6, linestyle=outline))
        drawn.add_patch(circle((gear.x, gear.y), gear.pitch_radius, fill=False, linewidth=0.7, linestyle="-."))
        drawn.plot([gear.x], [gear.y], "+", color="black", markersize=9)
    for x, y, text in _letters(train, gears):
        drawn.annotate(
            text, (x, y), (0, -14), textcoords="offset points", ha="center", va="top", backgroundcolor="white"
        )
    drawn.set_aspect("equal")
    drawn.autoscale_view()
    unit = "mm" if train.mounting == "closes" else "module"
    drawn.set_xlabel(f"from the stud towards the {train.ends_on}, {unit}")
    drawn.set_ylabel(f"across, {unit}")
    return drawn
