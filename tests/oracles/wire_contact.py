"""Size over wires by brute contact: a round wire pressed into the groove of a straight-sided helicoid.

Written from the geometry alone. A flank is the surface that a straight line, inclined by the half angle in the
axial plane, sweeps as it screws along the axis. The wire is a cylinder whose axis lies square to the radius
through its middle and is tilted by some angle. For one tilt, the axis comes to rest at the largest height at
which any point of the flank still reaches the cylinder; pressed between flat anvils, a free wire takes the tilt
at which that height is least. So the size over wires is a least greatest height, found here by general
optimisers. The other flank is the first one turned half a turn about the radius, and gives the same height.
"""

from __future__ import annotations

import math

import numpy as np
from scipy.optimize import minimize, minimize_scalar


class Thread:
    """A thread: diameters, axial pitch, starts and half angle, lengths in mm, the angle in degrees."""

    def __init__(self, pitch_diameter: float, crest_diameter: float, pitch: float, starts: int, half_angle_deg: float):
        self.pitch_diameter = pitch_diameter
        self.crest_diameter = crest_diameter
        self.pitch = pitch
        self.lead = starts * pitch
        self.slope = math.tan(math.radians(half_angle_deg))
        self.lead_angle = math.atan(self.lead / (math.pi * pitch_diameter))


def _point(thread: Thread, r, turn, sense: float):
    """A point of the flank: the groove is a quarter pitch to either side at the pitch line."""
    z = thread.pitch / 4 + sense * (r - thread.pitch_diameter / 2) * thread.slope + thread.lead * turn / (2 * math.pi)
    return r * np.cos(turn), r * np.sin(turn), z


def _height(thread: Thread, wire: float, tilt: float, r, turn):
    """Height at which a tilted wire over this point of the flank would have its axis."""
    x, y, z = _point(thread, r, turn, 1.0)
    across = z * math.cos(tilt) - y * math.sin(tilt)
    inside = (wire / 2) ** 2 - across**2
    return np.where(inside >= 0, x + np.sqrt(np.maximum(inside, 0.0)), -np.inf)


def _net(thread: Thread, r_count: int, turn_count: int, reach: float):
    """Radii and turns of a net over the whole flank, from where the groove would end sharp up to the crest."""
    sharp = thread.pitch_diameter / 2 - thread.pitch / 4 / thread.slope
    r = np.linspace(max(sharp, 0.05 * thread.pitch_diameter), thread.crest_diameter / 2, r_count)[:, None]
    return r, np.linspace(-reach, reach, turn_count)[None, :]


def rest_height(thread: Thread, wire: float, tilt: float):
    """Height of the axis of a wire held at a tilt, and the flank point (radius, turn) it rests on.

    The flank ends at the crest: a wire that finds no rest below comes out resting on that edge.
    """
    r_net, turn_net = _net(thread, 81, 121, 0.8)
    heights = _height(thread, wire, tilt, r_net, turn_net)
    i, j = np.unravel_index(np.argmax(heights), heights.shape)
    near = float(r_net[i, 0]), float(turn_net[0, j])
    radius = wire / 2
    edge = thread.crest_diameter / 2
    rise = thread.lead / (2 * math.pi)
    cos_t, sin_t = math.cos(tilt), math.sin(tilt)

    def negative(p):
        r, turn = p
        z = thread.pitch / 4 + (r - thread.pitch_diameter / 2) * thread.slope + rise * turn
        across = z * cos_t - r * math.sin(turn) * sin_t
        inside = radius * radius - across * across
        return -(r * math.cos(turn) + math.sqrt(inside)) if inside > 0 and 0 < r <= edge else 1e3

    step = 0.02 * radius
    simplex = [near, (near[0] - step, near[1]), (near[0], near[1] + step / near[0])]
    options = {"xatol": 1e-10, "fatol": 1e-15, "maxiter": 2000, "initial_simplex": simplex}
    found = minimize(negative, near, method="Nelder-Mead", options=options)
    return -float(found.fun), (float(found.x[0]), float(found.x[1]))


def over_wires_held(thread: Thread, wire: float) -> tuple[float, float]:
    """Size over wires held at the lead angle of the pitch line, and the radius they rest at."""
    height, (r, _) = rest_height(thread, wire, thread.lead_angle)
    return 2 * height + wire, r


def over_wires_free(thread: Thread, wire: float) -> tuple[float, float, float]:
    """Size over free wires, the radius they rest at, and their tilt in radians."""
    spread = 0.02 + 0.3 * thread.lead_angle
    found = minimize_scalar(
        lambda tilt: rest_height(thread, wire, tilt)[0],
        bounds=(thread.lead_angle - spread, thread.lead_angle + spread),
        method="bounded",
        options={"xatol": 1e-10},
    )
    tilt = float(found.x)
    height, (r, _) = rest_height(thread, wire, tilt)
    return 2 * height + wire, r, tilt


def highest_elsewhere(thread: Thread, wire: float, tilt: float) -> float:
    """Greatest height over a net of the whole flank up to the crest, none of it taken on trust."""
    r, turn = _net(thread, 201, 1201, math.pi / 2)
    return float(np.max(_height(thread, wire, tilt, r, turn)))


def across_balls(thread: Thread, ball: float) -> tuple[float, float]:
    """Size across two balls in opposite grooves of an internal thread, and the radius they touch at."""
    radius = ball / 2

    def height(p):
        x, y, z = _point(thread, thread.pitch_diameter / 2 + p[0] * radius, p[1], -1.0)
        inside = radius * radius - y * y - z * z
        return float(x - np.sqrt(inside)) if inside > 0 else 1e3

    best = None
    for r in np.linspace(-1, 1, 41):
        for turn in np.linspace(-0.3, 0.3, 31):
            value = height((r, turn))
            if best is None or value < best[0]:
                best = (value, (r, turn))
    assert best is not None
    found = minimize(
        height, np.array(best[1]), method="Nelder-Mead", options={"xatol": 1e-11, "fatol": 1e-15, "maxiter": 2000}
    )
    return 2 * float(found.fun) + ball, thread.pitch_diameter / 2 + float(found.x[0]) * radius
