"""The core's own logarithm, power, sine and cosine, seen through level 1, against arbitrary precision."""

import mpmath
import numpy as np
import pytest

from halfnut import cutting

mpmath.mp.dps = 40
STATED = 1e-14


@pytest.fixture
def random():
    return np.random.default_rng(17)


def worst(got, exact):
    return max(abs((mpmath.mpf(float(a)) - b) / b) for a, b in zip(got, exact, strict=True))


def test_power_of_the_chip_thickness(random):
    h = np.exp2(random.uniform(-18, 4, 5000))
    m = random.uniform(0.0, 0.999, 5000)
    got = cutting.specific_cutting_force_n_mm2(1.0, m, h)
    assert worst(got, [mpmath.mpf(float(a)) ** -mpmath.mpf(float(b)) for a, b in zip(h, m, strict=True)]) <= STATED


def test_sine_of_the_entering_angle(random):
    kappa = np.concatenate([random.uniform(0.001, 120.0, 5000), [30.0, 45.0, 60.0, 90.0, 120.0, 1e-6]])
    got = cutting.chip_thickness_mm(1.0, kappa)
    assert worst(got, [mpmath.sin(mpmath.mpf(float(a)) * mpmath.pi / 180) for a in kappa]) <= STATED
    assert cutting.chip_thickness_mm(1.0, 90.0) == 1.0


def test_correction_for_the_speed(random):
    def at(v):
        v = mpmath.mpf(v)
        low = mpmath.mpf(2.023) * max(v, mpmath.mpf(20)) ** mpmath.mpf(-0.153)
        return low if v < 100 else mpmath.mpf(1.380) * v ** mpmath.mpf(-0.07)

    speeds = np.concatenate([np.exp2(random.uniform(-3, 12, 3000)), [20.0, 99.99999, 100.0]])
    got = cutting.speed_correction(speeds, 50.0)
    assert worst(got, [at(float(v)) / at(50.0) for v in speeds]) <= STATED


def test_mean_entering_angle(random):
    def exact(depth, nose, kappa):
        a, r, k = (mpmath.mpf(float(x)) for x in (depth, nose, kappa))
        k *= mpmath.pi / 180
        bend = r * (1 - mpmath.cos(k))
        if a <= bend:
            return mpmath.acos(1 - a / r) / 2 * 180 / mpmath.pi
        return mpmath.atan2(a, r * mpmath.sin(k) + (a - bend) / mpmath.tan(k)) * 180 / mpmath.pi

    depth, nose, kappa = random.uniform(0.05, 4, 2000), random.uniform(0, 1.6, 2000), random.uniform(15, 120, 2000)
    got = cutting.mean_entering_deg(depth, nose, kappa)
    assert worst(got, [exact(*row) for row in zip(depth, nose, kappa, strict=True)]) <= STATED
