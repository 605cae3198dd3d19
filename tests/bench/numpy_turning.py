"""The same batch of turning in NumPy, as a programmer would write it who knows NumPy well.

The rules are those of the core: window and force constants of the alloy, rough or finishing; the spindle's step and
the feed's step not above what is wanted; mean entering angle with the nose; force corrected for the speed; deflection
in a chuck; cautions as bits. Rows are worked in blocks that stay near the processor, into arrays that are there
already, with one power for each power of the formulas. What is looked up by alloy is looked up once a call.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

BLOCK = 16384
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
WEAR = 1.3  # of an ordinary edge, at which limits are judged
NORMAL_SHARE = 0.983 + (1.618 - 0.983) / (0.3 - 0.1) * (0.15 - 0.1)  # of the force, across such an edge
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
        # What follows from a case alone is reckoned once.
        corrected = ~np.isnan(cases["kc_speed_m_min"])
        reference = np.where(corrected, cases["kc_speed_m_min"], 100.0)
        self.low = cases["window_low_m_min"] * (1000.0 / np.pi)
        self.high = cases["window_high_m_min"] * (1000.0 / np.pi)
        self.minus_mc = -cases["mc"]
        self.kc11 = cases["kc11_n_mm2"]
        self.corrected = corrected.astype(float)
        self.log_reference = self.corrected * _log2_speed_factor(reference)
        self.modulus = cases["youngs_modulus_gpa"] * (np.pi / 64.0 * 3000.0)
        self.band = cases["band_high"]
        self.fixed = fixed
        self.speeds = speeds
        self.power_kw = power_kw
        self.feeds = feeds
        self.chuck_rpm = chuck_rpm
        self.limit = deflection_limit_mm

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
        case = alloy.astype(np.intp)
        case *= 2
        case += depth <= FINISH_DEPTH_MM

        # levers
        inverse = 1.0 / d
        low = self.low[case]
        low *= inverse
        high = self.high[case]
        high *= inverse
        limit = np.minimum(high, self.chuck_rpm)
        limit *= 1.0 + 1e-12
        step = np.searchsorted(self.speeds, limit, side="right")
        step -= 1
        np.maximum(step, 0, out=step)
        n = np.take(self.speeds, step, out=out["spindle_rpm"], mode="clip")
        feed_step = np.searchsorted(self.feeds, wanted * SAME, side="right")
        feed_step -= 1
        np.maximum(feed_step, 0, out=feed_step)
        f = np.take(self.feeds, feed_step, out=out["feed_mm_rev"], mode="clip")
        v = np.multiply(d, n, out=out["cutting_speed_m_min"])
        v *= np.pi / 1000.0

        # Chord of the nose, or of nose and edge. Sine and cosine of the entering angle by the tangent of its half,
        # which NumPy has in vector instructions.
        half = np.tan(entering * (np.pi / 360.0))
        square = half * half
        secant = 1.0 + square
        deep = nose * 2.0
        deep *= square
        deep /= secant  # nose (1 - cosine)
        curved = depth <= deep
        half += half  # of the sine, over the secant
        along = depth - deep
        along *= 1.0 - square
        along /= half  # times the cotangent
        half /= secant
        half *= nose
        along += half
        deep = nose + nose
        deep -= depth
        np.copyto(along, deep, where=curved)
        along /= depth
        square = along * along
        np.copyto(square, along, where=curved)
        chord = np.sqrt(1.0 + square)
        chip = f / chord

        # force and what follows from it, one power of two for chip and speed
        exponent = _log2_speed_factor(v)
        exponent *= self.corrected[case]
        exponent -= self.log_reference[case]
        log_chip = np.log2(chip)
        log_chip *= self.minus_mc[case]
        exponent += log_chip
        force = np.exp2(exponent, out=out["cutting_force_n"])
        force *= self.kc11[case]
        force *= depth
        force *= f
        power = np.multiply(force, v, out=out["spindle_power_kw"])
        power *= 1.0 / 60000.0
        torque = np.multiply(force, d, out=out["torque_nm"])
        torque *= 1.0 / 2000.0
        removed = np.multiply(v, f, out=out["mrr_cm3_min"])
        removed *= depth

        # work, finish, time
        left = d - depth
        left -= depth
        second = left * left
        second *= second
        second *= self.modulus[case]
        second *= chord
        bent = np.multiply(stick_out, stick_out, out=out["deflection_mm"])
        bent *= stick_out
        bent *= force
        bent *= np.sqrt(square, out=square)
        bent *= NORMAL_SHARE
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
        edge = self.band[case]
        edge *= WEAR
        bits = np.take(self.fixed, case, out=out["cautions"], mode="clip")
        flag = np.empty_like(bits)
        for condition, bit in (
            (n > high * SAME, ABOVE_WINDOW),
            (n > self.chuck_rpm * SAME, ABOVE_CHUCK),
            (n * SAME < low, BELOW_WINDOW),
            (np.abs(f - wanted) > 1e-9 * wanted, FEED_MOVED),
            (f > wanted * SAME, FINEST),
            (chip < 0.01, CHIP_THIN),
            (f > nose * (0.6 * SAME), FEED_ABOVE_NOSE),
            (power * edge > self.power_kw[step], POWER),
            (bent * edge > self.limit, DEFLECTION),
            (stick_out > 4.0 * d, SLENDER),
        ):
            bits |= np.multiply(condition, bit, out=flag)
        bad = (d <= 0.0) | (depth <= 0.0) | (2.0 * depth > d) | (wanted <= 0.0) | (entering < 10.0) | (entering > 120.0)
        out["status"][:] = bad
        if bad.any():
            for name in FIGURES:
                np.copyto(out[name], np.nan, where=bad)


def _log2_speed_factor(v: NDArray[np.float64]) -> NDArray[np.float64]:
    slow = v < 100.0
    out = np.log2(np.maximum(v, 20.0))
    out *= np.where(slow, -0.153, -0.07)
    out += np.where(slow, np.log2(2.023), np.log2(1.380))
    return out
