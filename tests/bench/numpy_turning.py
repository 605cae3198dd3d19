"""The same batch of turning in NumPy, as a programmer would write it who knows NumPy well.

The rules are those of the core: window and force constants of the alloy, rough or finishing; the spindle's step and
the feed's step not above what is wanted; mean entering angle with the nose; force corrected for the speed; deflection
in a chuck; cautions as bits. Rows are worked in blocks that stay near the processor, into arrays that are there
already, with one power for each power of the formulas. What is looked up by alloy is looked up once a call.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

BLOCK = 8192
INPUTS = ("diameter_mm", "depth_mm", "feed_mm_rev", "length_mm", "stick_out_mm", "nose_radius_mm", "entering_deg")
FIGURES = (
    "spindle_rpm",
    "cutting_speed_m_min",
    "feed_mm_rev",
    "cutting_force_n",
    "spindle_power_kw",
    "torque_nm",
    "mrr_cm3_min",
    "deflection_mm",
    "roughness_ra_um",
    "time_s",
)
FINISH_DEPTH_MM = 0.51
APPROACH_MM = 2.0
SAME = 1.0 + 1e-9

# Bits of the cautions, as the core has them.
ABOVE_WINDOW, ABOVE_CHUCK, POWER, DEFLECTION, FEED_ABOVE_NOSE, CHIP_THIN, SLENDER, BELOW_WINDOW, FEED_MOVED, FINEST = (
    np.uint64(1 << bit) for bit in (0, 1, 3, 5, 7, 8, 9, 12, 14, 24)
)


class Turning:
    """One machine and one table of cases, two an alloy: rough and finishing."""

    def __init__(
        self,
        cases: dict[str, NDArray[np.float64]],
        fixed: NDArray[np.uint64],
        speeds: NDArray[np.float64],
        power_kw: NDArray[np.float64],
        feeds: NDArray[np.float64],
        chuck_rpm: float,
        deflection_limit_mm: float,
    ):
        self.cases = cases
        self.fixed = fixed
        self.speeds = speeds
        self.power_kw = power_kw
        self.feeds = feeds
        self.chuck_rpm = chuck_rpm
        self.limit = deflection_limit_mm
        self.at_reference = _speed_factor(cases["kc_speed_m_min"])

    def run(self, alloy: NDArray[np.int32], given: dict[str, NDArray[np.float64]], out: dict[str, NDArray]) -> None:
        """Answer every row."""
        for first in range(0, len(alloy), BLOCK):
            rows = slice(first, first + BLOCK)
            self._block(
                alloy[rows],
                *(given[name][rows] for name in INPUTS),
                {name: column[rows] for name, column in out.items()},
            )

    def _block(self, alloy, d, depth, wanted, length, stick_out, nose, entering, out):
        case = 2 * alloy + (depth <= FINISH_DEPTH_MM)
        take = {name: column[case] for name, column in self.cases.items()}

        # levers
        around = np.pi * d
        low = 1000.0 * take["window_low_m_min"] / around
        high = 1000.0 * take["window_high_m_min"] / around
        limit = np.minimum(high, self.chuck_rpm)
        step = np.searchsorted(self.speeds, limit * (1.0 + 1e-12), side="right") - 1
        np.maximum(step, 0, out=step)
        n = np.take(self.speeds, step, out=out["spindle_rpm"])
        feed_step = np.searchsorted(self.feeds, wanted * SAME, side="right") - 1
        np.maximum(feed_step, 0, out=feed_step)
        f = np.take(self.feeds, feed_step, out=out["feed_mm_rev"])
        v = np.multiply(around, n, out=out["cutting_speed_m_min"])
        v /= 1000.0

        # the chord of the nose, or of nose and edge
        angle = np.radians(entering)
        sine, cosine = np.sin(angle), np.cos(angle)
        deep = nose * (1.0 - cosine)
        curved = depth <= deep
        ratio = np.where(curved, 2.0 * nose - depth, nose * sine + (depth - deep) * cosine / sine)
        ratio /= depth
        square = np.where(curved, ratio, ratio * ratio)
        chord = np.sqrt(1.0 + square)
        chip = f / chord

        # force and what follows from it
        by_speed = _speed_factor(v)
        by_speed /= self.at_reference[case]
        np.copyto(by_speed, 1.0, where=np.isnan(take["kc_speed_m_min"]))
        force = np.power(chip, -take["mc"], out=out["cutting_force_n"])
        force *= take["kc11_n_mm2"]
        force *= depth
        force *= f
        force *= by_speed
        power = np.multiply(force, v, out=out["spindle_power_kw"])
        power /= 60000.0
        torque = np.multiply(force, d, out=out["torque_nm"])
        torque /= 2000.0
        removed = np.multiply(v, f, out=out["mrr_cm3_min"])
        removed *= depth

        # work, finish, time
        passive = 0.6 * force
        passive *= np.sqrt(square)
        passive /= chord
        left = d - 2.0 * depth
        second = left * left
        second *= second
        second *= np.pi / 64.0 * 3000.0
        second *= take["youngs_modulus_gpa"]
        bent = np.multiply(stick_out, stick_out, out=out["deflection_mm"])
        bent *= stick_out
        bent *= passive
        bent /= second
        np.copyto(bent, np.nan, where=left <= 0.0)
        finish = np.multiply(f, f, out=out["roughness_ra_um"])
        finish *= 1000.0 / 32.0
        finish /= nose
        np.copyto(finish, np.nan, where=f > 2.0 * nose)
        rate = f * n
        time = np.add(length, APPROACH_MM, out=out["time_s"])
        time *= 60.0
        time /= rate

        # cautions
        edge = take["band_high"]
        bits = self.fixed[case]
        for condition, bit in (
            (n > high * SAME, ABOVE_WINDOW),
            (n > self.chuck_rpm * SAME, ABOVE_CHUCK),
            (n * SAME < low, BELOW_WINDOW),
            (np.abs(f - wanted) > 1e-9 * wanted, FEED_MOVED),
            (f > wanted * SAME, FINEST),
            (chip < 0.01, CHIP_THIN),
            (f > 0.6 * nose * SAME, FEED_ABOVE_NOSE),
            (power * edge > self.power_kw[step], POWER),
            (bent * edge > self.limit, DEFLECTION),
            (stick_out > 4.0 * d, SLENDER),
        ):
            bits |= condition * bit
        out["cautions"][:] = bits
        bad = (d <= 0.0) | (depth <= 0.0) | (2.0 * depth > d) | (wanted <= 0.0) | (entering < 10.0) | (entering > 120.0)
        out["status"][:] = bad
        if bad.any():
            for name in FIGURES:
                np.copyto(out[name], np.nan, where=bad)


def _speed_factor(v: NDArray[np.float64]) -> NDArray[np.float64]:
    slow = v < 100.0
    out = np.power(np.maximum(v, 20.0), np.where(slow, -0.153, -0.07))
    out *= np.where(slow, 2.023, 1.380)
    return out
