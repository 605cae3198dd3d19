"""Pairs of threads drawn at random: what a shop's cutting and coating make of the clearance at the pitch diameter.

Sizes are normal about a mean and drawn again until they are within their limits; a build-up is drawn evenly from
its range and counts four times on a 60 degree flank. Written from that description alone.
"""

from __future__ import annotations

import numpy as np


def _cut(rng, low, high, tolerance_over_sigma, shift, count):
    if high == low:
        return np.full(count, low)
    mean = (low + high) / 2 + shift * (high - low) / 2
    sizes = rng.normal(mean, (high - low) / tolerance_over_sigma, count)
    while True:
        outside = (sizes < low) | (sizes > high)
        if not outside.any():
            return sizes
        sizes[outside] = rng.normal(mean, (high - low) / tolerance_over_sigma, int(outside.sum()))


def clearances(external, internal, coat_external_um, coat_internal_um, tolerance_over_sigma, shift, count, seed):
    """Clearances of `count` pairs, mm; limits as (low, high) in mm, build-ups as (least, most) in um."""
    rng = np.random.default_rng(seed)
    male = _cut(rng, *external, tolerance_over_sigma, shift, count)
    female = _cut(rng, *internal, tolerance_over_sigma, -shift, count)
    male = male + 4 * rng.uniform(*coat_external_um, count) / 1000
    female = female - 4 * rng.uniform(*coat_internal_um, count) / 1000
    return female - male
