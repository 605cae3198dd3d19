"""The core's own elementary functions, seen through level 1, against arbitrary precision."""

import mpmath
import numpy as np
import pytest

from halfnut import _core, cutting

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


def degrees(x):
    return x * 180 / mpmath.pi


def test_arcs(random):
    lead, pitch_diameter = np.exp2(random.uniform(-3, 3, 2000)), np.exp2(random.uniform(-3, 8, 2000))
    got = _core.lead_angle_deg(lead, pitch_diameter)
    tangents = [mpmath.mpf(float(a)) / (mpmath.pi * float(b)) for a, b in zip(lead, pitch_diameter, strict=True)]
    assert worst(got, [degrees(mpmath.atan(x)) for x in tangents]) <= 1e-15
    width = random.uniform(0.1, 20.0, 2000)
    got = cutting.engagement_deg(width, 20.0)
    assert worst(got, [degrees(mpmath.acos(1 - mpmath.mpf(float(a)) / 10)) for a in width]) <= STATED


def test_tangent_of_half_a_point(random):
    point = np.concatenate([random.uniform(1.0, 179.9, 2000), [90.0, 118.0, 135.0]])
    got = cutting.point_length_mm(10.0, point)
    assert worst(got, [5 / mpmath.tan(mpmath.mpf(float(a)) * mpmath.pi / 360) for a in point]) <= 1e-15
    assert cutting.point_length_mm(10.0, 90.0) == 5.0


def test_cube_root_of_a_diameter(random):
    diameter = np.exp2(random.uniform(-9, 8, 2000))
    got = _core.tolerance_unit_um(diameter)
    exact = [mpmath.mpf("0.45") * mpmath.cbrt(float(a)) + mpmath.mpf(float(a)) / 1000 for a in diameter]
    assert worst(got, exact) <= 1e-15


def test_life_of_an_edge(random):
    ratio, exponent = np.exp2(random.uniform(-2, 2, 2000)), random.uniform(0.1, 1.0, 2000)
    got = cutting.taylor_life_min(ratio, exponent, 1.0)
    pairs = zip(ratio, exponent, strict=True)
    assert worst(got, [mpmath.mpf(float(a)) ** mpmath.mpf(1 / float(b)) for a, b in pairs]) <= 5e-16 * 21
