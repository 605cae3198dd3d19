"""Buckling of a stepped column by beam elements.

Written from the textbook method alone: cubic elements with bending and geometric stiffness, the least generalised
eigenvalue by a general solver. The mesh's own error falls with the fourth power of its elements.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from scipy.linalg import eigh

_HELD = {"pinned": (True, False), "fixed": (True, True), "guided": (False, True), "free": (False, False)}


def buckling_load(
    lengths: Sequence[float], stiffnesses: Sequence[float], first: str, second: str, elements: int = 24
) -> float:
    """Return the least load at which the column bows out; `elements` to each segment."""
    sizes = np.repeat(np.asarray(lengths, float) / elements, elements)
    bending = np.repeat(np.asarray(stiffnesses, float), elements)
    count = 2 * (len(sizes) + 1)
    elastic, geometric = np.zeros((count, count)), np.zeros((count, count))
    for place, (h, ei) in enumerate(zip(sizes, bending, strict=True)):
        at = slice(2 * place, 2 * place + 4)
        elastic[at, at] += (
            ei
            / h**3
            * np.array(
                [
                    [12, 6 * h, -12, 6 * h],
                    [6 * h, 4 * h * h, -6 * h, 2 * h * h],
                    [-12, -6 * h, 12, -6 * h],
                    [6 * h, 2 * h * h, -6 * h, 4 * h * h],
                ]
            )
        )
        geometric[at, at] += (
            1
            / (30 * h)
            * np.array(
                [
                    [36, 3 * h, -36, 3 * h],
                    [3 * h, 4 * h * h, -3 * h, -h * h],
                    [-36, -3 * h, 36, -3 * h],
                    [3 * h, -h * h, -3 * h, 4 * h * h],
                ]
            )
        )
    held = [*_HELD[first], *[False] * (count - 4), *_HELD[second]]
    free = np.flatnonzero(~np.array(held))
    pick = np.ix_(free, free)
    # The geometric stiffness is the definite one of the pair as soon as no end slides away without bending.
    shares = eigh(geometric[pick], elastic[pick], eigvals_only=True)
    return float(1.0 / shares[-1])
