"""Change gears by trying every order of every choice, with fractions; slow and plain.

Nothing here knows the search of the core. A train is a choice of two or four gears out of those that lie on the
bench, each at its own place; its lead is worked out as a fraction. Mounting is worked out with coordinates: the
banjo's stud is placed by intersecting two circles, and every gear's rim is compared with every other shaft.
"""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import permutations


def trains(gears, wanted, error_limit, steps=((None, Fraction(1)),), compound=True):
    """Sets of (drivers, driven, step) within a relative error, with the error; each set once.

    `wanted` is the ratio of drivers over driven gears that is asked for, before a gearbox step's own ratio.
    """
    found = {}
    for count in (2, 4) if compound else (2,):
        for chosen in permutations(range(len(gears)), count):
            teeth = [gears[place] for place in chosen]
            drivers, driven = sorted(teeth[0::2]), sorted(teeth[1::2])
            ratio = Fraction(math.prod(drivers), math.prod(driven))
            for name, step in steps:
                error = ratio * step / wanted - 1
                if abs(error) <= error_limit:
                    found[tuple(drivers), tuple(driven), name] = error
    return found


def best(gears, wanted, steps=((None, Fraction(1)),), compound=True):
    """The least error that any train has, as a fraction."""
    least = None
    for count in (2, 4) if compound else (2,):
        for chosen in permutations(gears, count):
            ratio = Fraction(math.prod(chosen[0::2]), math.prod(chosen[1::2]))
            for _, step in steps:
                error = abs(ratio * step / wanted - 1)
                if least is None or error < least:
                    least = error
    return least


def circles_meet(first, first_radius, second, second_radius, slack):
    """A point that lies on both circles, or None."""
    (x0, y0), (x1, y1) = first, second
    between = math.hypot(x1 - x0, y1 - y0)
    if between > first_radius + second_radius - slack or between < abs(first_radius - second_radius) + slack:
        return None
    along = (first_radius**2 - second_radius**2 + between**2) / (2 * between)
    across = math.sqrt(max(first_radius**2 - along**2, 0.0))
    ux, uy = (x1 - x0) / between, (y1 - y0) / between
    return x0 + along * ux - across * uy, y0 + along * uy + across * ux


def closes(on_stud, in_banjo, on_screw, slack=0.0, *, module, span, low, high, around_stud, collar):
    """Whether a train can be put up: `in_banjo` is one gear (an idler) or two (meshing with the stud's, driving).

    `slack` is taken from every distance that must be kept, so that the edge can be told from either side.
    """
    stud, screw = (0.0, 0.0), (span, 0.0)
    meshing, driving = in_banjo[0], in_banjo[-1]
    place = circles_meet(stud, module * (on_stud + meshing) / 2, screw, module * (driving + on_screw) / 2, slack)
    if place is None or not low + slack <= math.dist(place, screw) <= high - slack:
        return False

    def rim(teeth):
        return module * (teeth + 2) / 2

    if rim(on_stud) > around_stud - slack:
        return False
    if len(in_banjo) == 1:
        return math.dist(stud, screw) >= rim(on_stud) + rim(on_screw) + slack
    # each gear passes the one shaft that is neither its own nor that of the gear it meshes with
    passes = ((on_stud, stud, screw), (meshing, place, screw), (driving, place, stud), (on_screw, screw, stud))
    return all(math.dist(own, other) >= rim(teeth) + collar / 2 + slack for teeth, own, other in passes)
