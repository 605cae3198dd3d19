"""Level 1 of cutting: published examples, scalars against arrays, physical sense, a second way where there is one."""

import csv
import math
import re
from collections import Counter
from pathlib import Path

import numpy as np
import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from halfnut import DomainError
from halfnut.cutting import formulas

REFERENCE = Path(__file__).parents[2] / "reference" / "cutting"
ureg = pint.UnitRegistry()
LBF = 4.4482216152605
HP = 0.7456998715822702
IN3 = 16.387064

FORMULAS = {
    "spindle_speed_rpm": (100.0, 50.0),
    "cutting_speed_m_min": (636.62, 50.0),
    "feed_rate_mm_min": (0.25, 400.0),
    "table_feed_mm_min": (0.05, 4.0, 500.0),
    "turning_removal_cm3_min": (108.0, 0.3, 2.6),
    "milling_removal_cm3_min": (5.0, 60.0, 1534.5),
    "drilling_removal_cm3_min": (10.0, 238.0),
    "feed_time_s": (200.0, 200.0),
    "point_length_mm": (10.0, 118.0),
    "countersink_depth_mm": (12.0, 6.0, 90.0),
    "milling_approach_mm": (80.0, 5.0),
    "face_milling_approach_mm": (50.0, 40.0),
    "chip_thickness_mm": (0.25, 45.0),
    "mean_entering_deg": (0.2, 0.8, 90.0),
    "engagement_deg": (10.0, 20.0),
    "milling_chip_thickness_max_mm": (0.1, 2.0, 20.0, 90.0),
    "milling_chip_thickness_mean_mm": (0.1, 10.0, 20.0, 90.0),
    "chip_thinning_factor": (2.0, 20.0),
    "specific_cutting_force_n_mm2": (1820.0, 0.22, 0.25),
    "turning_force_n": (2000.0, 0.25, 2.0, 0.25, 90.0, 1.0),
    "rake_correction": (0.0, 6.0),
    "speed_correction": (300.0, 100.0),
    "taper_angle_deg": (30.0, 15.0, 50.0),
    "tailstock_setover_mm": (30.0, 15.0, 100.0, 250.0),
    "ramp_length_mm": (3.0, 3.0),
    "helix_pitch_mm": (16.0, 9.0, 3.0),
    "helix_length_mm": (10.0, 1.0, 18.0, 10.0),
    "centre_feed_mm_min": (200.0, 20.0, 10.0),
    "economic_life_min": (0.25, 2.0, 4.0, 1.0),
    "unit_power_force_n_mm2": (0.62,),
    "feed_factor": (0.4064,),
    "unit_power_kw": (0.62, 0.94, 110.12, 1.3),
    "cutting_power_kw": (1557.0, 100.0),
    "motor_power_kw": (17.5, 0.9),
    "spindle_torque_nm": (1000.0, 50.0),
    "torque_power_kw": (63.16, 350.0),
    "roughness_rt_um": (0.2, 0.8),
    "roughness_ra_um": (0.25, 1.2),
    "milling_roughness_rt_um": (0.2, 10.0),
    "drilling_torque_nm": (24000.0, 0.2032, 22.225, 1.085, 1.3),
    "drilling_thrust_n": (24000.0, 0.2032, 22.225, 1.355, 0.03, 1.3),
    "tapping_torque_nm": (2500.0, 1.0, 6.0, 1.5),
    "second_moment_mm4": (25.4, 0.0),
    "cantilever_deflection_mm": (911.1, 101.6, 206.0, 20432.0),
    "centres_deflection_mm": (100.0, 150.0, 300.0, 205.0, 20432.0),
    "chuck_centre_deflection_mm": (100.0, 150.0, 300.0, 205.0, 20432.0),
    "pinned_buckling_n": (20.0, 210.0, 0.0030680),
    "twist_strength_nm": (1200.0, 2.0),
    "limiting_width_mm": (20.0, 0.03, 2000.0),
    "first_whirl_rpm": (25.0, 0.0, 914.0, 205.0, 7850.0, 1.8751),
    "chip_ratio": (0.3, 0.65),
    "shear_angle_deg": (15.0, 0.46154),
    "shear_strain": (15.0, 26.86),
    "shear_force_n": (950.0, 475.0, 18.435),
    "shear_area_mm2": (0.5, 3.0, 25.4),
    "merchant_friction_deg": (10.0, 25.4),
    "chip_speed_m_min": (35.0, 15.0, 45.0),
    "temperature_rise_k": (1.038, 0.003, 100.0, 0.5, 50.0),
    "heat_to_work_share": (100.0, 0.2, 13.5, 25.0),
    "work_warming_k": (200.0, 60.0, 50.0, 0.0, 100.0, 7850.0, 475.0),
    "milling_feed_force_ratio": (0.0, 180.0, 0.6),
    "milling_cross_force_ratio": (0.0, 180.0, 0.6),
    "taylor_exponent": (180.0, 4.25, 110.0, 35.0),
    "taylor_speed_m_min": (229.0, 0.223, 41.0),
    "taylor_life_min": (160.0, 0.25, 31.416),
    "fastest_life_min": (0.25, 2.0),
    "taylor_life_ratio": (0.13, 0.6, 0.3, 1.25, 1.0, 1.0),
}

# Printed answers by (example, quantity), through the Python functions.
PRINTED = {
    ("GR-15.3", "mrr_mm3_s"): lambda i: (
        formulas.turning_removal_cm3_min(i["speed_m_s"] * 60, i["feed_mm_rev"], i["doc_mm"]) * 1000 / 60
    ),
    ("QA-D10", "rpm"): lambda i: formulas.spindle_speed_rpm(i["speed_m_min"], i["dia_mm"]),
    ("QA-D10", "feed_rate_mm_min"): lambda i: formulas.feed_rate_mm_min(i["feed_mm_rev"], _rpm(i)),
    ("QA-D10", "approach_mm"): lambda i: formulas.point_length_mm(i["dia_mm"], i["point_deg"]),
    ("QA-D10", "time_min"): lambda i: (
        formulas.feed_time_s(
            i["depth_mm"] + formulas.point_length_mm(i["dia_mm"], i["point_deg"]),
            formulas.feed_rate_mm_min(i["feed_mm_rev"], _rpm(i)),
        )
        / 60
    ),
    ("QA-D10", "mrr_mm3_min"): lambda i: (
        formulas.drilling_removal_cm3_min(i["dia_mm"], formulas.feed_rate_mm_min(i["feed_mm_rev"], _rpm(i))) * 1000
    ),
    ("GP-22.13", "approach_mm"): lambda i: formulas.milling_approach_mm(i["cutter_mm"], i["doc_mm"]),
    ("GP-22.13", "mrr_mm3_min"): lambda i: (
        formulas.milling_removal_cm3_min(
            i["doc_mm"],
            i["width_mm"],
            formulas.table_feed_mm_min(
                i["feed_mm_tooth"], i["teeth"], formulas.spindle_speed_rpm(i["speed_m_min"], i["cutter_mm"])
            ),
        )
        * 1000
    ),
    ("TPE-3", "power_kW"): lambda i: formulas.cutting_power_kw(i["fc_N"], i["speed_m_s"] * 60),
    ("KS-TI", "speed_m_min"): lambda i: formulas.cutting_speed_m_min(i["rpm"], i["dia_mm"]),
    ("KS-TI", "time_min"): lambda i: (
        formulas.feed_time_s(i["length_mm"], formulas.feed_rate_mm_min(i["feed_mm_rev"], i["rpm"])) / 60
    ),
    ("ISAKOV-BAR-SI", "i_mm4"): lambda i: formulas.second_moment_mm4(i["dia_mm"], 0.0),
    ("ISAKOV-BAR-SI", "deflection_mm"): lambda i: formulas.cantilever_deflection_mm(
        i["force_N"], i["overhang_mm"], i["e_MPa"] / 1000, formulas.second_moment_mm4(i["dia_mm"], 0.0)
    ),
}


def _rpm(i):
    return formulas.spindle_speed_rpm(i["speed_m_min"], i["dia_mm"])


def rows(name):
    with (REFERENCE / name).open(encoding="utf-8") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def inputs(text):
    out = {}
    for pair in text.split(";"):
        key, value = pair.split("=")
        try:
            out[key] = float(value)
        except ValueError:
            continue
    return out


def test_printed_examples():
    strengths = Counter()
    for row in rows("machining_examples.csv"):
        answer = PRINTED.get((row["id"], row["quantity"]))
        if answer is not None:
            got = answer(inputs(row["inputs"]))
            assert got == pytest.approx(float(row["expected"]), rel=float(row["tolerance"])), row
            strengths[row["strength"]] += 1
    assert strengths == {"printed": len(PRINTED)}
    assert len(rows("machining_examples.csv")) == 135


def test_every_formula_is_here():
    public = {name for name in formulas.__all__ if "_core" in getattr(formulas, name).__class__.__module__}
    public |= {
        name for name in formulas.__all__ if type(getattr(formulas, name)).__name__ == "builtin_function_or_method"
    }
    assert set(FORMULAS) <= set(formulas.__all__)
    assert len(FORMULAS) + 8 >= len(public) - 1  # those of rigidity and of chasing have tests of their own


@pytest.mark.parametrize("name", sorted(FORMULAS))
def test_scalar_equals_array_bit_for_bit(name):
    function, base = getattr(formulas, name), FORMULAS[name]
    rng = np.random.default_rng(11)
    columns = [np.asarray(value * rng.uniform(0.6, 1.0, 500)) for value in base]
    values, codes = function(*columns, on_error="status")
    for k in range(500):
        if codes[k] == 0:
            assert function(*(float(column[k]) for column in columns)) == values[k]
        else:
            assert math.isnan(values[k])
            with pytest.raises(DomainError):
                function(*(float(column[k]) for column in columns))
    assert np.count_nonzero(codes == 0) > 250


@pytest.mark.parametrize("name", sorted(FORMULAS))
def test_bad_numbers_are_named(name):
    function, base = getattr(formulas, name), FORMULAS[name]
    for bad in (math.nan, math.inf, -1e9):
        with pytest.raises(DomainError, match="must be"):
            function(bad, *base[1:])


def test_broadcasts_and_takes_what_numpy_takes():
    speed = formulas.spindle_speed_rpm(np.array([[50], [100]], dtype=np.int32), np.arange(1, 31)[::3] * 2.0)
    assert speed.shape == (2, 10)
    assert speed[1, 0] == formulas.spindle_speed_rpm(100.0, 2.0)
    assert formulas.feed_time_s(np.empty(0), 100.0).shape == (0,)
    wrong = r"diameter_mm must be > 0 mm, got -1 mm at index 1 \(1 of 3 elements failed\)"
    with pytest.raises(DomainError, match=wrong):
        formulas.spindle_speed_rpm(100.0, np.array([1.0, -1.0, 2.0]))


def test_units_a_second_way():
    kp = 0.62 * ureg.horsepower / (ureg.inch**3 / ureg.minute)
    assert formulas.unit_power_force_n_mm2(0.62) == pytest.approx(kp.to("N/mm**2").magnitude, rel=1e-9)
    power = (1500 * ureg.newton * 100 * ureg.meter / ureg.minute).to("kW").magnitude
    assert formulas.cutting_power_kw(1500.0, 100.0) == pytest.approx(power, rel=1e-12)
    turn = (63.16 * ureg.newton * ureg.meter * 350 * 2 * math.pi / ureg.minute).to("kW").magnitude
    assert formulas.torque_power_kw(63.16, 350.0) == pytest.approx(turn, rel=1e-12)


def test_chip_thickness_is_the_mean_over_the_engagement():
    for width in (1.0, 5.0, 10.0, 19.0):
        phi = math.radians(formulas.engagement_deg(width, 20.0))
        mean = quad(lambda a: 0.1 * math.sin(a), 0.0, phi)[0] / phi
        assert formulas.milling_chip_thickness_mean_mm(0.1, width, 20.0, 90.0) == pytest.approx(mean, rel=1e-9)


def test_deflection_by_integrating_the_bending():
    """Castigliano: y = 1/(E I F) times the integral of the moment squared."""
    f, a, length, e, i = 200.0, 120.0, 300.0, 205.0, 15000.0
    b = length - a
    left = quad(lambda x: (f * b / length * x) ** 2, 0, a)[0]
    right = quad(lambda x: (f * a / length * x) ** 2, 0, b)[0]
    expected = (left + right) / (1000 * e * i * f)
    assert formulas.centres_deflection_mm(f, a, length, e, i) == pytest.approx(expected, rel=1e-9)
    # fixed at the chuck, propped at the centre: the prop's force by the closed beam tables
    prop = f * a**2 * (3 * length - a) / (2 * length**3)
    near = quad(lambda x: (f * (a - x) - prop * (length - x)) ** 2, 0, a)[0]
    far = quad(lambda x: (prop * (length - x)) ** 2, a, length)[0]
    assert formulas.chuck_centre_deflection_mm(f, a, length, e, i) == pytest.approx(
        (near + far) / (1000 * e * i * f), rel=1e-9
    )


def test_worst_place_with_a_centre():
    at = np.linspace(1.0, 299.0, 2000)
    bent = formulas.chuck_centre_deflection_mm(100.0, at, 300.0, 205.0, 15000.0)
    assert at[np.argmax(bent)] == pytest.approx(0.586 * 300, abs=0.3)
    assert bent.max() == pytest.approx(100 * 300**3 / (102 * 205e3 * 15000), rel=0.002)


SIZES = st.floats(0.05, 5.0)


@settings(max_examples=200, deadline=None)
@given(
    SIZES,
    st.floats(0.02, 1.0),
    st.floats(1.001, 3.0),
    st.floats(200.0, 4000.0),
    st.floats(0.0, 0.6),
    st.floats(30.0, 90.0),
)
def test_force_grows_with_depth_and_feed(depth, feed, more, kc11, mc, kappa):
    force = formulas.turning_force_n(kc11, mc, depth, feed, kappa, 1.0)
    assert formulas.turning_force_n(kc11, mc, depth * more, feed, kappa, 1.0) > force
    assert formulas.turning_force_n(kc11, mc, depth, feed * more, kappa, 1.0) > force
    assert formulas.turning_force_n(kc11, mc, depth, feed, kappa, formulas.rake_correction(12.0, 6.0)) < force


@settings(max_examples=100, deadline=None)
@given(st.floats(1.0, 5000.0), st.floats(1.0, 400.0), st.floats(1.001, 3.0))
def test_power_grows_with_speed(force, speed, more):
    assert formulas.cutting_power_kw(force, speed * more) > formulas.cutting_power_kw(force, speed)


@settings(max_examples=100, deadline=None)
@given(st.floats(10.0, 400.0), st.floats(5.0, 80.0))
def test_deflection_goes_with_length_cubed(length, diameter):
    i = formulas.second_moment_mm4(diameter, 0.0)
    one = formulas.cantilever_deflection_mm(100.0, length, 205.0, i)
    assert formulas.cantilever_deflection_mm(100.0, 2 * length, 205.0, i) == pytest.approx(8 * one, rel=1e-12)


@settings(max_examples=100, deadline=None)
@given(st.floats(0.01, 20.0), st.one_of(st.just(0.0), st.floats(1e-6, 2.0)), st.floats(20.0, 110.0))
def test_mean_entering_lies_between_nothing_and_the_edge(depth, nose, kappa):
    mean = formulas.mean_entering_deg(depth, nose, kappa)
    assert 0 < mean <= kappa * (1 + 1e-12)
    assert formulas.mean_entering_deg(depth, 0.0, kappa) == pytest.approx(kappa, rel=1e-12)


def test_examples_in_the_headers_are_true():
    headers = Path(__file__).parents[3] / "cpp" / "include" / "halfnut"
    files = [*sorted((headers / "cutting").glob("*.hpp")), headers / "threads" / "hole_formulas.hpp"]
    text = "\n".join(path.read_text(encoding="utf-8") for path in files)
    seen = 0
    for name, arguments, value in re.findall(r"///\s+(\w+)\(([\d., ]+)\) = ([\d.]+)$", text, re.M):
        if not hasattr(formulas, name):  # a hole's, held by its own test
            continue
        got = getattr(formulas, name)(*(float(each) for each in arguments.split(",")))
        places = len(value.split(".")[1]) if "." in value else 0
        assert got == pytest.approx(float(value), abs=0.51 * 10**-places), name
        seen += 1
    others = 3 + 4  # of rigidity, but for the one with an exponent, and of chasing
    assert seen == len(FORMULAS) + others
