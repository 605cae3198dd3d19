"""Tapped holes a second way: in whole fractions and by trying every drill.

Written from the rules alone: a hundred per cent of thread is a double depth of 3/4 sqrt 3 P; limits by length of
engagement lie in quarters of the minor tolerance; of the drills whose hole keeps its limits the nearest is taken, and
the nearest of all where the wanted hole itself is outside or none keeps them.
"""

from __future__ import annotations

from decimal import Decimal, getcontext

getcontext().prec = 40
FULL = Decimal(3).sqrt() * 3 / 4


def hole(diameter, pitch, percent):
    """Hole for a per cent of thread, in the unit of its arguments."""
    return Decimal(diameter) - FULL * Decimal(pitch) * Decimal(percent) / 100


def percent(diameter, pitch, size):
    """Per cent of thread in a hole."""
    return 100 * (Decimal(diameter) - Decimal(size)) / (FULL * Decimal(pitch))


def band(minor_min, minor_max, diameters):
    """Hole limits for an engagement of so many diameters, without the floor of its width."""
    low, high = Decimal(minor_min), Decimal(minor_max)
    quarter = (high - low) / 4
    start = 0 if diameters * 3 <= 1 else 1 if diameters * 3 <= 2 else 2 if diameters * 2 <= 3 else 3
    return low + start * quarter, low + (start + 2) * quarter


def nearest(drills, wanted, low, high, major):
    """Place of the drill to take; of two as near the smaller."""
    edge = 1e-9
    usable = [place for place, size in enumerate(drills) if size < major]
    good = [place for place in usable if low - edge <= drills[place] <= high + edge]
    pick = good if good and low - edge <= wanted <= high + edge else usable
    return min(pick, key=lambda place: (round(abs(drills[place] - wanted), 9), drills[place]))
