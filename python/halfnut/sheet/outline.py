"""The outline of turned work as it is held: half in section, with balloons that carry the numbers of the rows."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from markupsafe import Markup, escape

from halfnut.core.text import shown
from halfnut.sheet import figures

if TYPE_CHECKING:
    from halfnut.planning.plans import PlannedOperation

__all__ = ["WIDE", "Balloon", "Held", "Zone", "drawn", "held_work"]

WIDE = 78.0
"""Of the picture, in units that are millimetres on A5."""
_FACE, _BAR = 55.0, 3.0
"""Places of the work's face, and of the end of what is gripped."""
_JAW_LONG, _JAW_STEPS = 9.0, (2.6, 1.8)
_FREE = _FACE - _BAR - _JAW_LONG
_TALL, _BALL, _FIGURE = 9.0, 3.4, 2.45
"""Height of the work as it is drawn, radius of a balloon, width of a figure in it."""
_LANE = 4.1
_HATCH = (
    '<defs><pattern id="h" width="1.7" height="1.7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    '<path d="M0 0V1.7" stroke="#000" stroke-width=".5"/></pattern>'
    '<pattern id="k" width="1.7" height="1.7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    '<path d="M0 0V1.7M0 0H1.7" stroke="#000" stroke-width=".4" fill="none"/></pattern></defs>'
)


@dataclass(frozen=True)
class Balloon:
    """A row's number at a place of the work: from its face and from its axis, mm."""

    number: int
    from_face_mm: float
    radius_mm: float


@dataclass(frozen=True)
class Zone:
    """A length of the outside or of the hole: from and to, in mm from the face, and its diameters there."""

    near_mm: float
    far_mm: float
    near_size_mm: float
    far_size_mm: float
    surface: str
    depth_mm: float = 0.0
    """Of a thread or a knurl, on the radius."""


@dataclass(frozen=True)
class Held:
    """Turned work as it stands in the jaws when the setup is done; lengths in mm from the face that is worked on.

    Attributes
    ----------
    outside, inside : tuple of Zone
        The outside, which reaches into the jaws, and the hole on the axis; the nearest to the face first.
    out_mm : float
        How far the work stands out of the jaws.
    gripped_mm : float
        Diameter of the surface that the jaws are on.
    lengths : tuple
        Lengths that are dimensioned, with their texts.
    parted_mm : float or None
        Where the piece is parted off.
    """

    outside: tuple[Zone, ...]
    inside: tuple[Zone, ...]
    out_mm: float
    gripped_mm: float
    lengths: tuple[tuple[float, str], ...] = ()
    parted_mm: float | None = None
    balloons: tuple[Balloon, ...] = ()


def held_work(operations: Sequence[PlannedOperation], out_mm: float, unit: str) -> Held | None:
    """The work after the operations of a setup, as the walk left it; None of work that has no outside."""
    first = operations[0].walked["after"]
    end = first["held"]["end"]
    parting = next((op for op in operations if op.step.do == "part off"), None)
    left = [op.walked["after"] for op in operations if op is not parting] or [first]
    work = left[-1]
    if not work["outside"]:
        return None
    # of both ends the finished face is where the setup leaves it
    face = 0.0 if end == "first" else min(each["to_mm"] for each in left)

    def from_face(place: float) -> float:
        return max(0.0, place if end == "first" else face - place)

    def zones(found: Iterable[Mapping[str, Any]]) -> tuple[Zone, ...]:
        out = []
        for each in found:
            sides = [(from_face(each[f"{side}_mm"]), each[f"{side}_diameter_mm"]) for side in ("from", "to")]
            (near, near_size), (far, far_size) = sides if end == "first" else sides[::-1]
            if far > near:
                out.append(Zone(near, far, near_size, far_size, each["surface"], each["depth_mm"]))
        return tuple(sorted(out, key=lambda zone: zone.near_mm))

    outside, inside = zones(work["outside"]), zones(work["bore"])
    lengths: dict[float, str] = {}
    balloons = []
    for op in operations:
        walked, do = op.walked, op.step.do
        if op.answer is None or walked["from_mm"] is None:
            continue
        places = sorted(from_face(walked[key]) for key in ("from_mm", "to_mm"))
        far = places[1]
        if do in {"turn", "taper"} or op is parting:
            at = places[0] if op is parting else far
            lengths[at] = figures.length(at, unit)
        share = {"turn": 0.85, "taper": 0.85, "thread": 0.6, "tap": 0.6}.get(do, 0.5)
        at = 0.0 if do == "face" else places[0] + share * (far - places[0])
        inner = do == "thread" and walked["start_mm"] is None
        if inner or do in {"bore", "drill", "ream", "counterbore", "tap"}:
            balloons.append(Balloon(op.number, 0.35 * far, 0.0))
        else:
            balloons.append(Balloon(op.number, at, (0.8 if do == "face" else 1.0) * _at(outside, at) / 2))
    return Held(
        outside,
        inside,
        out_mm,
        first["held"]["diameter_mm"] or _at(outside, out_mm),
        tuple(sorted(lengths.items())),
        None if parting is None else from_face(parting.walked["from_mm"]),
        tuple(balloons),
    )


def _at(zones: Sequence[Zone], place: float) -> float:
    """Diameter at a distance from the face; that of the last zone beyond all of them."""
    zone = next((each for each in zones if each.far_mm > place - 1e-9), zones[-1])
    return zone.near_size_mm if place <= zone.near_mm else zone.far_size_mm


# ---- drawing -----------------------------------------------------------------------------------------------


def drawn(held: Held, words: str) -> tuple[Markup, float]:
    """The picture, and how tall it is when it is `WIDE` wide.

    To scale along the axis and across it, unless the work is so slender or so short that nothing would be seen.

    Parameters
    ----------
    held : Held
        What is drawn.
    words : str
        For who cannot see it.
    """
    largest = max(max(each.near_size_mm, each.far_size_mm) for each in held.outside)
    along = _FREE / max(held.out_mm, 1e-9)
    across = min(_TALL / largest, 2.2 * along)
    along = min(along, 3.0 * across)
    draw = _Drawing(held, along, across, largest)
    return draw.svg(words), draw.tall


class _Drawing:
    def __init__(self, held: Held, along: float, across: float, largest_mm: float):
        self.held, self.along, self.across = held, along, across
        self.half = largest_mm * across / 2
        self.jaw_right = _FACE - held.out_mm * along
        self.middle = self.half + _BALL * 2 + 1.4
        self.bottom = self.middle + self.half
        self.lanes = {each: lane for lane, each in enumerate(self.held.lengths)}
        jaws = self.middle + held.gripped_mm * across / 2 + sum(_JAW_STEPS) + 0.6
        last = self.bottom + 3.4 + _LANE * (len(self.lanes) - 1) + 2.4 if self.lanes else self.bottom + 1.0
        self.tall = max(jaws, last)

    def x(self, from_face_mm: float) -> float:
        return max(_BAR, _FACE - from_face_mm * self.along)

    def up(self, diameter_mm: float) -> float:
        return self.middle - diameter_mm * self.across / 2

    def down(self, diameter_mm: float) -> float:
        return self.middle + diameter_mm * self.across / 2

    def svg(self, words: str) -> Markup:
        outside, inside = self.held.outside, self.held.inside
        body = [_HATCH, *map(self._solid, outside), *map(self._hollow, inside)]
        body += [*map(self._mark, outside), *map(self._mark_inside, inside), self._outer(), self._jaws()]
        body.append(f'<path class="t" stroke-dasharray="6 1 1 1" d="M{_BAR - 2} {self.middle:.2f}H{_FACE + 5}"/>')
        body += [self._dimension(lane, *each) for each, lane in self.lanes.items()]
        body += self._balloons()
        label = escape(shown(words))
        return Markup(
            f'<svg viewBox="0 0 {WIDE:g} {self.tall:.2f}" role="img" aria-label="{label}">{"".join(body)}</svg>'
        )

    def _above(self, zone: Zone) -> str:
        """A zone from the axis up."""
        x, near = self.x(zone.far_mm), self.x(zone.near_mm)
        return (
            f"M{near:.2f} {self.middle:.2f}V{self.up(zone.near_size_mm):.2f}"
            f"L{x:.2f} {self.up(zone.far_size_mm):.2f}V{self.middle:.2f}z"
        )

    def _solid(self, zone: Zone) -> str:
        return f'<path fill="url(#h)" d="{self._above(zone)}"/>'

    def _hollow(self, zone: Zone) -> str:
        """A hole in the upper half, with its wall; a drilled one that ends in the work has a point."""
        path = self._above(zone)
        x = self.x(zone.far_mm)
        blind = zone.far_mm < self.held.outside[-1].far_mm - 1e-6 and zone is self.held.inside[-1]
        if zone.surface == "drilled" and blind and x > _BAR + 2:
            point = zone.far_size_mm * self.across / 2 * 0.6
            path += f"M{x:.2f} {self.up(zone.far_size_mm):.2f}L{x - point:.2f} {self.middle:.2f}H{x:.2f}z"
        return f'<path class="t" style="fill:#fff" d="{path}"/>'

    def _outer(self) -> str:
        """The visible outline of both halves, and the edges of the steps."""
        outside = self.held.outside
        upper = f"M{_FACE} {self.middle:.2f}"
        lower, edges = upper, ""
        for place, zone in enumerate(outside):
            x, near = self.x(zone.far_mm), self.x(zone.near_mm)
            upper += f"V{self.up(zone.near_size_mm):.2f}L{x:.2f} {self.up(zone.far_size_mm):.2f}"
            lower += f"V{self.down(zone.near_size_mm):.2f}L{x:.2f} {self.down(zone.far_size_mm):.2f}"
            before = outside[place - 1].far_size_mm if place else zone.near_size_mm
            if abs(before - zone.near_size_mm) > 1e-6:
                edges += f"M{near:.2f} {self.middle:.2f}V{self.down(max(before, zone.near_size_mm)):.2f}"
        if self.held.parted_mm is not None:
            x = self.x(self.held.parted_mm)
            size = _at(outside, self.held.parted_mm)
            edges += "".join(f"M{at:.2f} {self.up(size):.2f}V{self.down(size):.2f}" for at in (x, x - 2))
        return f'<path class="o" d="{upper}{lower}"/><path class="t" d="{edges}"/>'

    def _jaws(self) -> str:
        right, left = self.jaw_right, max(self.jaw_right - _JAW_LONG, 0.4)
        low, high = _JAW_STEPS
        out = ""
        for sign, edge in ((-1, self.up(self.held.gripped_mm)), (1, self.down(self.held.gripped_mm))):
            out += (
                f'<path class="o" fill="#fff" style="fill:#fff" d="M{left:.2f} {edge:.2f}H{right:.2f}'
                f"v{sign * low}H{(left + right) / 2:.2f}v{sign * high}H{left:.2f}"
                '"/>'
            )
        return out

    def _mark(self, zone: Zone) -> str:
        """A knurl's lines on the lower half; the root of a thread in both."""
        x, near = self.x(zone.far_mm), self.x(zone.near_mm)
        if zone.surface == "knurl":
            path = f"M{x:.2f} {self.middle:.2f}H{near:.2f}V{self.down(zone.near_size_mm):.2f}H{x:.2f}z"
            return f'<path fill="#fff" d="{path}"/><path fill="url(#k)" d="{path}"/>'
        if zone.surface != "thread":
            return ""
        root = zone.near_size_mm - 2.0 * zone.depth_mm
        return f'<path class="t" d="M{x:.2f} {self.up(root):.2f}H{near:.2f}M{x:.2f} {self.down(root):.2f}H{near:.2f}"/>'

    def _mark_inside(self, zone: Zone) -> str:
        """The root of a thread in the hole's wall."""
        if zone.surface not in {"thread", "tapped"} or not zone.depth_mm:
            return ""
        x, near, root = self.x(zone.far_mm), self.x(zone.near_mm), zone.near_size_mm + 2.0 * zone.depth_mm
        return f'<path class="t" d="M{x:.2f} {self.up(root):.2f}H{near:.2f}"/>'

    def _dimension(self, lane: int, at_mm: float, text: str) -> str:
        x, y = self.x(at_mm), self.bottom + 3.4 + _LANE * lane
        wide = 2.4 + _FIGURE * len(text)
        middle = (x + _FACE) / 2
        edge = self.down(_at(self.held.outside, at_mm))
        lines = f"M{x:.2f} {edge:.2f}V{y + 1.2:.2f}M{_FACE} {self.bottom:.2f}V{y + 1.2:.2f}"
        if _FACE - x < wide + 6.0:  # too short for its figure: that stands outside, and the arrows point inwards
            at = _FACE + 6 + wide / 2 if y - 2.2 > self.middle + _BALL else x - 5 - wide / 2
            return (
                f'<path class="t" d="{lines}M{x - 5:.2f} {y:.2f}H{_FACE + 5}"/>'
                f'<path d="M{x:.2f} {y:.2f}l-2.6 -.7v1.4zM{_FACE} {y:.2f}l2.6 -.7v1.4z"/>'
                f'<rect x="{at - wide / 2:.2f}" y="{y - 2.2:.2f}" width="{wide:.2f}" height="4.4" fill="#fff"/>'
                f'<text x="{at:.2f}" y="{y + 1.5:.2f}">{text}</text>'
            )
        return (
            f'<path class="t" d="{lines}M{x:.2f} {y:.2f}H{_FACE}"/>'
            f'<path d="M{x:.2f} {y:.2f}l2.6 -.7v1.4zM{_FACE} {y:.2f}l-2.6 -.7v1.4z"/>'
            f'<rect x="{middle - wide / 2:.2f}" y="{y - 2.2:.2f}" width="{wide:.2f}" height="4.4" fill="#fff"/>'
            f'<text x="{middle:.2f}" y="{y + 1.5:.2f}">{text}</text>'
        )

    def _balloons(self) -> list[str]:
        """Numbers above the work and to its right, none upon another, each with a line to its place."""
        of_face = [each for each in self.held.balloons if each.radius_mm and not each.from_face_mm]
        of_hole = [each for each in self.held.balloons if not each.radius_mm]
        above = sorted(
            (each for each in self.held.balloons if each.radius_mm and each.from_face_mm),
            key=lambda each: -each.from_face_mm,
        )
        out, last = [], -_BALL
        for each in above:
            last = max(self.x(each.from_face_mm), last + 2 * _BALL + 1.0)
            out.append(self._balloon([each], last - _BALL, _BALL + 0.4))
        if of_face:
            out.append(self._balloon(of_face, max(_FACE + 4.0, last + _BALL + 1.0), _BALL + 0.4))
        if of_hole:
            out.append(self._balloon(of_hole, _FACE + 4.0, self.middle))
        return [line for line, _ in out] + [ball for _, ball in out]

    def _balloon(self, group: Sequence[Balloon], left: float, y: float) -> tuple[str, str]:
        """A line to the work, and its balloon, of several rows one: no line crosses another's number."""
        text = self._numbers([each.number for each in group])
        wide = max(2 * _BALL, _FIGURE * len(text) + 1.9)
        x, first = left + wide / 2, group[0]
        to_x, to_y = self.x(first.from_face_mm), self.middle - first.radius_mm * self.across
        return (
            f'<path class="t" d="M{x:.2f} {y:.2f}L{to_x:.2f} {to_y:.2f}"/>',
            f'<rect class="ball" x="{left:.2f}" y="{y - _BALL:.2f}" width="{wide:.2f}" height="{2 * _BALL}"'
            f' rx="{_BALL}"/>'
            f'<text x="{x:.2f}" y="{y + 1.5:.2f}">{text}</text>',
        )

    def _numbers(self, numbers: Sequence[int]) -> str:
        """Numbers of rows, those that follow each other as a range."""
        order = [each.number for each in self.held.balloons]
        runs: list[list[int]] = []
        for each in numbers:
            if runs and order.index(each) == order.index(runs[-1][-1]) + 1:
                runs[-1].append(each)
            else:
                runs.append([each])
        return ", ".join(f"{run[0]}\N{EN DASH}{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs)
