"""What a screw asks of its handle, from vectors: the flank's normal and the way it slides, with Coulomb friction.

Nothing of the package under test is imported. The flank is a helicoid; its normal is a cross product of its tangents,
and the friction lies along the motion of a point that turns and advances together.
"""

from __future__ import annotations

import math

import numpy as np
from scipy.optimize import brentq


def torque(
    load: float, lead: float, pitch_diameter: float, half_angle_deg: float, friction: float, sense: int
) -> float:
    """Torque that raises (sense 1) or lowers (-1) a load on the screw, load x length."""
    r, rise = pitch_diameter / 2, lead / (2 * math.pi)
    along = np.array([0.0, r, rise])  # of a point at angle 0 that turns and advances
    across = np.array([1.0, 0.0, -math.tan(math.radians(half_angle_deg))])  # up the flank, outwards
    normal = np.cross(across, along)
    normal *= math.copysign(1.0, normal[2]) / np.linalg.norm(normal)
    sliding = along / np.linalg.norm(along)
    on_nut = normal - sense * friction * sliding
    return float(-load * r * on_nut[1] / on_nut[2])


def efficiency(lead: float, pitch_diameter: float, half_angle_deg: float, friction: float) -> float:
    """Work on the load over work at the handle."""
    return lead / (2 * math.pi * torque(1.0, lead, pitch_diameter, half_angle_deg, friction, 1))


def holding_friction(lead: float, pitch_diameter: float, half_angle_deg: float) -> float:
    """Friction at which lowering asks for no torque."""
    found, _ = brentq(lambda f: torque(1.0, lead, pitch_diameter, half_angle_deg, f, -1), 0.0, 5.0, full_output=True)
    return float(found)


def ridge_mm(pitch_mm: float, half_angle_deg: float, pitch_diameter: float, at_diameter: float, outer: bool) -> float:
    """Width along the axis of a ridge that is half a pitch wide at its pitch diameter, at another diameter."""
    flank = math.tan(math.radians(half_angle_deg))
    lines = np.array([[1.0, flank], [1.0, -flank]])  # z +- tan A r = const
    at = pitch_diameter / 2
    sign = 1.0 if outer else -1.0
    ends = np.array([pitch_mm / 4 + sign * flank * at, -pitch_mm / 4 - sign * flank * at])
    lines[:, 1] *= sign
    z = ends - lines[:, 1] * at_diameter / 2
    return float(z[0] - z[1])
