"""A knurl wheel rolled round a blank, tooth by tooth, counting the imprints it leaves.

Nothing here knows the closed form N = pi D cos(beta) / p.  A wheel is a set of straight tooth
lines on its developed surface, spaced by a pitch measured across the teeth and leaning by the
helix angle; its circumference is found by walking along it until the lines close on themselves.
The blank is a ring that turns against it without slip.  Each time a tooth line passes the
contact, the place on the ring is marked; marks that fall together are one imprint.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise


@dataclass(frozen=True)
class Wheel:
    """A wheel of whole teeth; `circumference` in the same length unit as the pitch."""

    teeth: int
    circumference: float

    @property
    def diameter(self) -> float:
        return self.circumference / math.pi


def distance_across(along: float, helix_deg: float) -> float:
    """Distance between two parallel tooth lines that cut the circumference `along` apart.

    Computed from the foot of a perpendicular in the developed plane: the line through the
    origin leans by the helix angle from the axis; the other passes through (along, 0).
    """
    lean = math.radians(helix_deg)
    direction = (math.sin(lean), math.cos(lean))
    foot = along * direction[0]
    return math.hypot(along - foot * direction[0], -foot * direction[1])


def wheel_from_pitch(teeth: int, pitch_across: float, helix_deg: float) -> Wheel:
    """Wheel whose neighbouring tooth lines are `pitch_across` apart, found by bisection."""
    low, high = pitch_across, pitch_across
    while distance_across(high, helix_deg) < pitch_across:
        high *= 2.0
    for _ in range(200):
        middle = 0.5 * (low + high)
        if distance_across(middle, helix_deg) < pitch_across:
            low = middle
        else:
            high = middle
    return Wheel(teeth, teeth * 0.5 * (low + high))


def roll(wheel: Wheel, blank_circumference: float, turns: int) -> list[list[float]]:
    """Places on the blank, 0 to its circumference, where teeth met it, one list a turn.

    The blank is turned in steps of about a third of a tooth; the wheel follows without slip,
    and a tooth that passed the contact within a step is placed by proportion.
    """
    steps = 3 * math.ceil(blank_circumference / wheel.circumference * wheel.teeth) + 1
    blank_step = math.tau / steps
    wheel_step = blank_step * blank_circumference / wheel.circumference
    tooth_angle = math.tau / wheel.teeth
    slack = 1e-9
    marks: list[list[float]] = []
    wheel_angle = 0.0  # of the tooth last at the contact, 0 to one tooth
    for turn in range(turns):
        placed = [0.0] if turn == 0 else []
        for step in range(steps):
            wheel_angle += wheel_step
            if wheel_angle >= tooth_angle * (1.0 + slack):
                wheel_angle -= tooth_angle
                share = 1.0 - wheel_angle / wheel_step
                placed.append((step + share) * blank_step / math.tau * blank_circumference)
        marks.append(placed)
    return marks


def imprints(marks: list[list[float]], blank_circumference: float, together: float) -> int:
    """Number of distinct imprints: marks closer than `together` round the ring are one."""
    ordered = sorted(place % blank_circumference for turn in marks for place in turn)
    gaps = [after - before for before, after in pairwise(ordered)]
    gaps.append(ordered[0] + blank_circumference - ordered[-1])
    return max(1, sum(gap > together for gap in gaps))


def drift_per_turn(marks: list[list[float]], spacing: float) -> float:
    """Share of a tooth by which the first mark of each turn falls behind that of the turn before.

    The mean over the turns of the shortest step, -0.5 to 0.5; a step of half a tooth has no sign.
    """
    steps = [(before[0] - after[0]) / spacing for before, after in pairwise(marks)]
    return sum(step - round(step) for step in steps) / len(steps)


def volume_growth_share(pattern: str, samples: int = 400) -> float:
    """Growth in radius over the height of a full sharp tooth, by keeping the volume.

    The knurled surface is sampled over one tile: two families of V grooves (or one), unit
    height.  Forming moves metal but loses none, so the blank stood at the mean height.
    """

    def ridge(u: float) -> float:
        return 1.0 - abs(2.0 * (u - math.floor(u)) - 1.0)

    total = 0.0
    for i in range(samples):
        for j in range(samples):
            one = ridge((i + 0.5) / samples)
            two = ridge((j + 0.5) / samples)
            if pattern == "ridges":
                total += one
            elif pattern == "raised":
                total += min(one, two)
            elif pattern == "indented":
                total += max(one, two)
            else:
                raise ValueError(pattern)
    mean = total / samples**2
    return 1.0 - mean


def growth_on_round(pattern: str, height: float, blank_radius: float, samples: int = 200) -> float:
    """Rise of the points, in length, on a round blank: the root circle that keeps the area, by bisection.

    The mean over the sampled surface of the squared radius is twice the area over 2 pi.
    """

    def ridge(u: float) -> float:
        return 1.0 - abs(2.0 * u - 1.0)

    heights: list[float] = []
    for i in range(samples):
        for j in range(samples):
            one, two = ridge((i + 0.5) / samples), ridge((j + 0.5) / samples)
            heights.append({"ridges": one, "raised": min(one, two), "indented": max(one, two)}[pattern])
    mean = sum(heights) / len(heights)
    mean_square = sum(value * value for value in heights) / len(heights)
    low, high = blank_radius - height, blank_radius
    for _ in range(100):
        root = 0.5 * (low + high)
        if root * root + 2.0 * root * height * mean + height * height * mean_square < blank_radius**2:
            low = root
        else:
            high = root
    return low + height - blank_radius
