"""The outline of turned work as it is held: half in section, with balloons that carry the numbers of the rows."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, NamedTuple

from markupsafe import Markup

from halfnut.sheet import figures
from halfnut.sheet.layout import environment

if TYPE_CHECKING:
    from halfnut.planning.plans import PlannedOperation

__all__ = ["WIDE", "Balloon", "Held", "Zone"]

WIDE = 78.0
"""Of the picture, in units that are millimetres on A5."""
_FACE, _BAR = 55.0, 3.0
"""Places of the work's face, and of the end of what is gripped."""
_JAW_LONG, _JAW_STEPS = 9.0, (2.6, 1.8)
_FREE = _FACE - _BAR - _JAW_LONG
_TALL, _BALL, _FIGURE = 9.0, 3.4, 2.45
"""Height of the work as it is drawn, radius of a balloon, width of a figure in it."""
_LANE = 4.1
"""From one length to the next below it."""


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


class _Ball(NamedTuple):
    """A balloon as it is drawn: the line from its middle to the work, its left edge, its width, its numbers."""

    line: tuple[float, float, float, float]
    left: float
    wide: float
    text: str


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
    middle = largest * across / 2 + _BALL * 2 + 1.4

    def x(from_face_mm: float) -> float:
        return max(_BAR, _FACE - from_face_mm * along)

    def up(diameter_mm: float) -> float:
        return middle - diameter_mm * across / 2

    def down(diameter_mm: float) -> float:
        return middle + diameter_mm * across / 2

    bottom, jaw_right = down(largest), _FACE - held.out_mm * along
    lanes = [bottom + 3.4 + _LANE * lane for lane in range(len(held.lengths))]
    tall = max(down(held.gripped_mm) + sum(_JAW_STEPS) + 0.6, lanes[-1] + 2.4 if lanes else bottom + 1.0)
    picture = (
        environment()
        .get_template("outline.svg")
        .render(
            {"held": held, "words": words, "wide": WIDE, "tall": tall, "face": _FACE, "bar": _BAR, "ball": _BALL},
            figure=_FIGURE,
            middle=middle,
            bottom=bottom,
            lanes=lanes,
            steps=_JAW_STEPS,
            jaw_right=jaw_right,
            jaw_left=max(jaw_right - _JAW_LONG, 0.4),
            balloons=_balls(held.balloons, middle, x, up),
            x=x,
            up=up,
            down=down,
            at=_at,
        )
    )
    return Markup(picture), tall


def _balls(
    balloons: Sequence[Balloon], middle: float, x: Callable[[float], float], up: Callable[[float], float]
) -> list[_Ball]:
    """Numbers above the work and to its right, none upon another, those of the face and of the hole in one each."""
    order = [each.number for each in balloons]

    def ball(group: Sequence[Balloon], left: float, y: float) -> _Ball:
        text = _numbers([each.number for each in group], order)
        wide = max(2 * _BALL, _FIGURE * len(text) + 1.9)
        return _Ball((left + wide / 2, y, x(group[0].from_face_mm), up(2 * group[0].radius_mm)), left, wide, text)

    out, last, high = [], -_BALL, _BALL + 0.4
    above = (each for each in balloons if each.radius_mm and each.from_face_mm)
    for each in sorted(above, key=lambda each: -each.from_face_mm):
        last = max(x(each.from_face_mm), last + 2 * _BALL + 1.0)
        out.append(ball([each], last - _BALL, high))
    if of_face := [each for each in balloons if each.radius_mm and not each.from_face_mm]:
        out.append(ball(of_face, max(_FACE + 4.0, last + _BALL + 1.0), high))
    if of_hole := [each for each in balloons if not each.radius_mm]:
        out.append(ball(of_hole, _FACE + 4.0, middle))
    return out


def _numbers(numbers: Sequence[int], order: Sequence[int]) -> str:
    """Numbers of rows, those that follow each other as a range."""
    runs: list[list[int]] = []
    for each in numbers:
        if runs and order.index(each) == order.index(runs[-1][-1]) + 1:
            runs[-1].append(each)
        else:
            runs.append([each])
    return ", ".join(f"{run[0]}\N{EN DASH}{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs)
