"""The outline of turned work as it is held: half in section, with balloons that carry the numbers of the rows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from markupsafe import Markup, escape

from halfnut.core.text import shown
from halfnut.sheet import figures
from halfnut.threads.standard import ThreadLimits

if TYPE_CHECKING:
    from halfnut.planning.plans import PlannedOperation

__all__ = ["Balloon", "Held", "drawn", "walked"]

_WIDE, _FACE, _BAR = 133.0, 98.0, 3.0
"""Of the picture, of the place of the work's face, and of the end of what is gripped."""
_JAWS, _JAW_DEEP = (7.0, 20.0), 6.5
_FREE = _FACE - _JAWS[1]
_TALL, _BALL = 15.0, 3.4
_ARROW = "l{0} -.7v1.4z"
_HATCH = (
    '<defs><pattern id="h" width="1.7" height="1.7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    '<path d="M0 0V1.7" stroke="#000" stroke-width=".5"/></pattern>'
    '<pattern id="k" width="1.7" height="1.7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    '<path d="M0 0V1.7M0 0H1.7" stroke="#000" stroke-width=".4" fill="none"/></pattern></defs>'
)

Steps = tuple[tuple[float, float], ...]
"""How far from the face each diameter reaches, mm, the nearest to the face first."""


@dataclass(frozen=True)
class Balloon:
    """A row's number at a place of the work: from its face and from its axis, mm."""

    number: int
    from_face_mm: float
    radius_mm: float


@dataclass(frozen=True)
class Held:
    """Turned work as it stands in the jaws when the setup is done; lengths in mm from its face.

    Attributes
    ----------
    outside, inside : tuple
        Steps of the outside and of the hole; the outside's last reaches into the jaws.
    pointed : bool
        Whether the hole ends at a drill's point.
    out_mm : float
        How far the work stands out of the jaws.
    marks : tuple
        Bands by their kind, "knurl", "thread" or "thread inside": from, to, and for a thread its lesser diameter.
    lengths : tuple
        Lengths that are dimensioned, with their texts.
    parted_mm : float or None
        Where the piece is parted off.
    """

    outside: Steps
    inside: Steps
    out_mm: float
    pointed: bool = False
    marks: tuple[tuple[str, float, float, float], ...] = ()
    lengths: tuple[tuple[float, str], ...] = ()
    parted_mm: float | None = None
    balloons: tuple[Balloon, ...] = ()


def walked(
    operations: Sequence[PlannedOperation],
    stock_mm: float,
    bore_mm: float | None,
    out_mm: float,
    long_mm: float,
    unit: str,
) -> Held:
    """The work after the operations of a setup, from what each leaves."""
    outside: list[tuple[float, float]] = [(max(out_mm, 0.0) + long_mm, stock_mm)]
    inside: list[tuple[float, float]] = [] if bore_mm is None else [(out_mm + long_mm, bore_mm)]
    marks: list[tuple[str, float, float, float]] = []
    lengths: dict[float, str] = {}
    balloons = []
    pointed, parted = False, None
    for op in operations:
        step: Any = op.step
        if op.answer is None:
            continue
        if step.do in {"turn", "taper"}:
            at, size = step.length.base, op.answer.sizes["to_diameter_mm"]
            outside = _over(outside, at, size)
            lengths[at] = figures.length(at, unit)
            balloons.append(Balloon(op.number, 0.85 * at, size / 2))
        elif step.do == "groove":
            outside_there = _at(outside, 0.0)
            balloons.append(Balloon(op.number, op.answer.sizes["length_mm"], outside_there / 2))
        elif step.do == "knurl":
            at = step.width.base
            marks.append(("knurl", 0.0, at, 0.0))
            balloons.append(Balloon(op.number, 0.5 * at, _at(outside, 0.5 * at) / 2))
        elif step.do in {"bore", "drill", "ream", "counterbore"}:
            deep = op.answer.sizes.get("length_mm", op.answer.sizes.get("depth_mm", 0.0))
            size = op.answer.sizes.get("to_diameter_mm", op.answer.sizes.get("diameter_mm", 0.0))
            inside = _over(inside, deep, size, inner=True)
            pointed = pointed or step.do == "drill"
            balloons.append(Balloon(op.number, 0.35 * deep, 0.0))
        elif step.do in {"thread", "tap"}:
            at = op.answer.sizes["length_mm"]
            inner = op.answer.sizes["side"] == "internal"
            limits = op.answer.record
            bottom = 0.0
            if isinstance(limits, ThreadLimits):
                sizes = (
                    (limits.major_max_mm, limits.major_min_mm) if inner else (limits.minor_max_mm, limits.minor_min_mm)
                )
                bottom = next((each for each in sizes if each is not None), 0.0)
            marks.append(("thread inside" if inner else "thread", 0.0, at, bottom))
            balloons.append(Balloon(op.number, 0.6 * at, 0.0 if inner else _at(outside, 0.6 * at) / 2))
        elif step.do == "part off":
            parted = long_mm
            lengths[long_mm] = figures.length(long_mm, unit)
            balloons.append(Balloon(op.number, long_mm, _at(outside, long_mm) / 2))
        elif step.do == "face":
            balloons.append(Balloon(op.number, 0.0, 0.8 * _at(outside, 0.0) / 2))
    return Held(
        tuple(outside),
        tuple(inside),
        out_mm,
        pointed,
        tuple(marks),
        tuple(sorted(lengths.items())),
        parted,
        tuple(balloons),
    )


def _over(
    steps: list[tuple[float, float]], to: float, size: float, *, inner: bool = False
) -> list[tuple[float, float]]:
    """Steps after a length from the face is cut to a size."""
    before = [(end, max(size, each) if inner else min(size, each)) for end, each in steps if end < to]
    beyond = [(end, each) for end, each in steps if end > to]
    there = [(to, size)]
    merged = [*before, *there, *beyond]
    return [each for place, each in enumerate(merged) if place + 1 == len(merged) or merged[place + 1][1] != each[1]]


def _at(steps: Sequence[tuple[float, float]], place: float) -> float:
    return next((size for end, size in steps if end > place - 1e-9), steps[-1][1])


# ---- drawing -----------------------------------------------------------------------------------------------


def drawn(held: Held, words: str) -> tuple[Markup, float]:
    """The picture, and how tall it is when it is 133 wide.

    To scale along the axis and across it, unless the work is so slender or so short that nothing would be seen.
    """
    largest = max(size for _, size in held.outside)
    free = max(held.out_mm, 1e-9)
    along = _FREE / free
    across = min((_TALL - 2.0) / largest, 2.2 * along)
    along = min(along, 3.0 * across)
    draw = _Drawing(held, along, across, largest)
    return draw.svg(words), draw.tall


class _Drawing:
    def __init__(self, held: Held, along: float, across: float, largest_mm: float):
        self.held, self.along, self.across = held, along, across
        self.half = largest_mm * across / 2
        self.jaw_right = _FACE - held.out_mm * along
        self.middle = max(self.half, 4.0) + _BALL * 2 + 1.4
        self.bottom = self.middle + self.half
        lanes = len(held.lengths)
        self.tall = self.bottom + (4.6 + 5.2 * lanes if lanes else 3.0)
        self.tall = max(self.tall, self.middle + self.half + _JAW_DEEP + 0.6)

    def x(self, from_face_mm: float) -> float:
        return max(_BAR, _FACE - from_face_mm * self.along)

    def up(self, diameter_mm: float) -> float:
        return self.middle - diameter_mm * self.across / 2

    def down(self, diameter_mm: float) -> float:
        return self.middle + diameter_mm * self.across / 2

    def svg(self, words: str) -> Markup:
        body = [_HATCH, self._section(), *map(self._mark, self.held.marks), self._outer(), self._jaws()]
        body.append(f'<path class="t" stroke-dasharray="6 1 1 1" d="M{_BAR - 2} {self.middle:.2f}H{_FACE + 5}"/>')
        body += [self._dimension(lane, *each) for lane, each in enumerate(self.held.lengths)]
        body += self._balloons()
        label = escape(shown(words))
        return Markup(
            f'<svg viewBox="0 0 {_WIDE:g} {self.tall:.2f}" role="img" aria-label="{label}">{"".join(body)}</svg>'
        )

    def _section(self) -> str:
        """The upper half: hatched between outside and hole."""
        path = f"M{_FACE} {self.up(self._hole_at_face()):.2f}V{self.up(self.held.outside[0][1]):.2f}"
        for (end, _), (_, size) in zip(self.held.outside, [*self.held.outside[1:], (0.0, 0.0)], strict=True):
            path += f"H{self.x(end):.2f}" + (f"V{self.up(size):.2f}" if self.x(end) > _BAR and size else "")
        back = self._hole_path()
        return f'<path fill="url(#h)" d="{path}V{self.middle:.2f}{back}z"/>'

    def _hole_at_face(self) -> float:
        return self.held.inside[0][1] if self.held.inside else 0.0

    def _hole_path(self) -> str:
        """From the axis at the far end of what is solid along the hole's wall to the face."""
        inside = self.held.inside
        if not inside:
            return f"H{_FACE}"
        end, size = inside[-1]
        x = self.x(end)
        point = size * self.across / 2 * 0.6 if self.held.pointed and x > _BAR + 2 else 0.0
        path = f"H{x - point:.2f}L{x:.2f} {self.up(size):.2f}"
        for place in range(len(inside) - 1, -1, -1):
            end, size = inside[place]
            path += f"V{self.up(size):.2f}"
            nearer = self.x(inside[place - 1][0]) if place else _FACE
            path += f"H{nearer:.2f}"
        return path

    def _outer(self) -> str:
        """The visible outline of both halves, and the edges of the steps."""
        upper = f"M{_FACE} {self.middle:.2f}V{self.up(self.held.outside[0][1]):.2f}"
        lower = f"M{_FACE} {self.middle:.2f}V{self.down(self.held.outside[0][1]):.2f}"
        edges = ""
        for place, (end, size) in enumerate(self.held.outside):
            x = self.x(end)
            upper += f"H{x:.2f}"
            lower += f"H{x:.2f}"
            if place + 1 < len(self.held.outside):
                larger = self.held.outside[place + 1][1]
                upper += f"V{self.up(larger):.2f}"
                lower += f"V{self.down(larger):.2f}"
                edges += f"M{x:.2f} {self.middle:.2f}V{self.down(max(size, larger)):.2f}"
        if self.held.parted_mm is not None:
            x = self.x(self.held.parted_mm)
            size = _at(self.held.outside, self.held.parted_mm)
            edges += "".join(f"M{at:.2f} {self.up(size):.2f}V{self.down(size):.2f}" for at in (x, x - 2))
        return f'<path class="o" d="{upper}{lower}"/><path class="t" d="{edges}"/>'

    def _jaws(self) -> str:
        right, left = self.jaw_right, max(self.jaw_right - 13.0, 0.4)
        gripped = _at(self.held.outside, self.held.out_mm + 1e-6)
        out = ""
        for sign, edge in ((-1, self.up(gripped)), (1, self.down(gripped))):
            out += (
                f'<path class="o" fill="#fff" style="fill:#fff" d="M{left:.2f} {edge:.2f}H{right:.2f}'
                f"v{sign * 3.0}H{(left + right) / 2:.2f}v{sign * 2.4}H{left:.2f}"
                '"/>'
            )
        return out

    def _mark(self, mark: tuple[str, float, float, float]) -> str:
        kind, start, end, bottom = mark
        x, near = self.x(end), self.x(start)
        if kind == "knurl":
            size = _at(self.held.outside, end)
            return (
                f'<path fill="#fff" d="M{x:.2f} {self.middle:.2f}H{near:.2f}V{self.down(size):.2f}H{x:.2f}z"/>'
                f'<path fill="url(#k)" d="M{x:.2f} {self.middle:.2f}H{near:.2f}V{self.down(size):.2f}H{x:.2f}z"/>'
            )
        above = f"M{x:.2f} {self.up(bottom):.2f}H{near:.2f}"
        below = f"M{x:.2f} {self.down(bottom):.2f}H{near:.2f}" if kind == "thread" else ""
        return f'<path class="t" d="{above}{below}"/>'

    def _dimension(self, lane: int, at_mm: float, text: str) -> str:
        x, y = self.x(at_mm), self.bottom + 4.4 + 5.2 * lane
        wide = 2.4 + 2.4 * len(text)
        middle = (x + _FACE) / 2
        edge = self.down(_at(self.held.outside, at_mm))
        lines = f"M{x:.2f} {edge:.2f}V{y + 1.2:.2f}M{_FACE} {self.bottom:.2f}V{y + 1.2:.2f}"
        if _FACE - x < wide + 6.0:  # too short for its figure: that stands outside, and the arrows point inwards
            return (
                f'<path class="t" d="{lines}M{x - 5:.2f} {y:.2f}H{_FACE + 5}"/>'
                f'<path d="M{x:.2f} {y:.2f}l-2.6 -.7v1.4zM{_FACE} {y:.2f}l2.6 -.7v1.4z"/>'
                f'<text x="{_FACE + 6 + wide / 2:.2f}" y="{y + 1.5:.2f}">{text}</text>'
            )
        return (
            f'<path class="t" d="{lines}M{x:.2f} {y:.2f}H{_FACE}"/>'
            f'<path d="M{x:.2f} {y:.2f}l2.6 -.7v1.4zM{_FACE} {y:.2f}l-2.6 -.7v1.4z"/>'
            f'<rect x="{middle - wide / 2:.2f}" y="{y - 2.2:.2f}" width="{wide:.2f}" height="4.4" fill="#fff"/>'
            f'<text x="{middle:.2f}" y="{y + 1.5:.2f}">{text}</text>'
        )

    def _balloons(self) -> list[str]:
        """Numbers above the work and to its right, none upon another, each with a line to its place."""
        out = []
        above = sorted(
            (each for each in self.held.balloons if each.radius_mm and each.from_face_mm),
            key=lambda each: -each.from_face_mm,
        )
        beside = [each for each in self.held.balloons if not (each.radius_mm and each.from_face_mm)]
        last = 0.0
        room = [self.x(each.from_face_mm) for each in above]
        spread = []
        for x in room:
            left = max(x, last + 2 * _BALL + 1.0)
            spread.append(left)
            last = left
        for each, x in zip(above, spread, strict=True):
            out.append(self._balloon(each, min(x, _WIDE - _BALL - 1), _BALL + 0.4))
        first = self.middle - (len(beside) - 1) * (_BALL + 0.5)
        for place, each in enumerate(beside):
            right = _FACE + 14.0 + (8.0 if place % 2 else 0.0)
            y = max(_BALL + 0.4, first + place * (2 * _BALL + 1.0))
            out.append(self._balloon(each, right, y))
        return out

    def _balloon(self, balloon: Balloon, x: float, y: float) -> str:
        to_x, to_y = self.x(balloon.from_face_mm), self.middle - balloon.radius_mm * self.across
        return (
            f'<path class="t" d="M{x:.2f} {y:.2f}L{to_x:.2f} {to_y:.2f}"/>'
            f'<circle class="ball" cx="{x:.2f}" cy="{y:.2f}" r="{_BALL}"/>'
            f'<text x="{x:.2f}" y="{y + 1.5:.2f}">{balloon.number}</text>'
        )
