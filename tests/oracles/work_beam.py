"""Bending of stepped work and of a ring in jaws a second time, by other methods than the core's.

The beam by finite elements with cubic shapes, solved by a general library; the core uses the force method. The ring
by a Fourier series of its energy; the core uses the closed form. It imports nothing of the package under test.
"""

import math
from itertools import pairwise

import numpy as np
from scipy.linalg import solve


def bend(sections, hold, force, at, modulus_gpa, steadies=()):
    """Deflection at the force, mm."""
    total = sum(section[0] for section in sections)
    nodes = sorted({0.0, at, total, *np.cumsum([section[0] for section in sections]).tolist(), *steadies})
    size = 2 * len(nodes)
    matrix = np.zeros((size, size))
    for i, (a, b) in enumerate(pairwise(nodes)):
        length, ei = b - a, _stiffness(sections, modulus_gpa, (a + b) / 2)
        bar = np.array(
            [
                [12, 6 * length, -12, 6 * length],
                [6 * length, 4 * length**2, -6 * length, 2 * length**2],
                [-12, -6 * length, 12, -6 * length],
                [6 * length, 2 * length**2, -6 * length, 4 * length**2],
            ]
        )
        matrix[2 * i : 2 * i + 4, 2 * i : 2 * i + 4] += ei / length**3 * bar
    held = {2 * nodes.index(place) for place in steadies} | {0}
    held |= {1} if hold != "between centres" else set()
    held |= {size - 2} if hold != "chuck" else set()
    free = [i for i in range(size) if i not in held]
    if 2 * nodes.index(at) in held:
        return 0.0
    load = np.zeros(size)
    load[2 * nodes.index(at)] = force
    moved = np.zeros(size)
    moved[free] = solve(matrix[np.ix_(free, free)], load[free], assume_a="pos")
    return moved[2 * nodes.index(at)]


def _stiffness(sections, modulus_gpa, x):
    """E I at a place, N mm2."""
    end = 0.0
    for length, diameter, bore in sections:
        end += length
        if x <= end:
            return 1000 * modulus_gpa * math.pi * (diameter**4 - bore**4) / 64
    raise ValueError(x)


def ring_out_of_round(force, jaws, mean_diameter, wall, width, modulus_gpa, terms=20_000):
    """Radius midway less radius at a jaw of an inextensible ring under equal inward forces, mm, by a Fourier series.

    A radial displacement w = sum a_k cos k t bends with the energy (pi E I / 2 R^3) sum (k^2 - 1)^2 a_k^2; only
    multiples of the number of jaws are stirred, each by all forces alike.
    """
    radius = mean_diameter / 2
    ei = 1000 * modulus_gpa * width * wall**3 / 12
    k = jaws * np.arange(1, terms + 1, dtype=float)
    size = force * jaws * radius**3 / (math.pi * ei * (k**2 - 1) ** 2)
    midway = (-1.0) ** np.arange(1, terms + 1)
    return float(np.sum(size * (1 - midway)))
