"""How work gives way: against closed forms, against other methods, and as properties."""

import importlib.util
import math
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import halfnut as hn
from halfnut import cutting
from halfnut.cutting import formulas

_SPEC = importlib.util.spec_from_file_location("work_beam", Path(__file__).parents[2] / "oracles" / "work_beam.py")
oracle = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(oracle)

HOLDS = ("chuck", "chuck and centre", "between centres")


@pytest.mark.parametrize("hold", HOLDS)
@pytest.mark.parametrize(
    "sections",
    [
        [(300.0, 25.4, 0.0)],
        [(120.0, 30.0, 0.0), (80.0, 18.0, 6.0), (60.0, 12.0, 0.0)],
        [(40.0, 20.0, 17.0), (200.0, 60.0, 55.0), (10.0, 8.0, 0.0)],
    ],
    ids=["plain", "stepped", "tubes"],
)
@pytest.mark.parametrize("steadies", [(), (90.0,), (50.0, 150.0)], ids=["free", "one steady", "two steadies"])
def test_stepped_work_against_finite_elements(hold, sections, steadies):
    total = sum(section[0] for section in sections)
    places = [total * share for share in (0.1, 0.37, 0.5, 0.81, 1.0)]
    got = formulas.work_bend_mm(sections, hold, 150.0, places, 205.0, steadies)
    for place, bend in zip(places, got, strict=True):
        want = oracle.bend(sections, hold, 150.0, place, 205.0, steadies)
        assert bend == pytest.approx(want, rel=1e-8, abs=1e-12)


def test_the_beam_meets_the_closed_forms_of_the_beam_tables():
    i_mm4 = cutting.second_moment_mm4(25.4, 0.0)
    for hold, closed in (
        ("chuck", lambda x: cutting.cantilever_deflection_mm(100.0, x, 205.0, i_mm4)),
        ("between centres", lambda x: cutting.centres_deflection_mm(100.0, x, 300.0, 205.0, i_mm4)),
        ("chuck and centre", lambda x: cutting.chuck_centre_deflection_mm(100.0, x, 300.0, 205.0, i_mm4)),
    ):
        places = np.linspace(0.0, 300.0, 31)
        got = formulas.work_bend_mm([(300.0, 25.4, 0.0)], hold, 100.0, places.tolist(), 205.0)
        assert np.allclose(got, [closed(x) for x in places], rtol=1e-10, atol=1e-15)


@given(
    st.lists(
        st.tuples(st.floats(1, 300), st.floats(3, 100), st.floats(0, 0.9).map(lambda share: round(share, 6))),
        min_size=1,
        max_size=6,
    ),
    st.sampled_from(HOLDS),
    st.floats(0, 1),
)
@settings(max_examples=200, deadline=None)
def test_properties_of_the_beam(shapes, hold, share):
    sections = [(length, diameter, diameter * hollow) for length, diameter, hollow in shapes]
    total = sum(section[0] for section in sections)
    place = total * share
    (bend,) = formulas.work_bend_mm(sections, hold, 100.0, [place], 70.0)
    (double,) = formulas.work_bend_mm(sections, hold, 200.0, [place], 70.0)
    (stiffer,) = formulas.work_bend_mm(sections, hold, 100.0, [place], 140.0)
    (free,) = formulas.work_bend_mm(sections, "chuck", 100.0, [total], 70.0)
    rounding = 1e-12 + 1e-14 * free  # beside a support the bend is a small difference of large ones
    assert math.isfinite(bend) and bend >= 0.0
    assert double == pytest.approx(2 * bend, rel=1e-9, abs=rounding)
    assert stiffer == pytest.approx(bend / 2, rel=1e-9, abs=rounding)
    (steadied,) = formulas.work_bend_mm(sections, hold, 100.0, [place], 70.0, [total / 2])
    assert steadied <= bend * (1 + 1e-9) + rounding
    (soft,) = formulas.work_bend_mm(sections, hold, 100.0, [place], 70.0, [], 20.0, 50.0)
    assert soft >= bend * (1 - 1e-9)


def test_slender_work_bends_by_the_cube_of_its_length():
    bends = [
        formulas.work_bend_mm([(length, 20.0, 0.0)], "chuck", 100.0, [length], 205.0)[0] for length in (100.0, 200.0)
    ]
    assert bends[1] == pytest.approx(8 * bends[0], rel=1e-10)


@pytest.mark.parametrize("jaws", [2, 3, 4, 6, 12])
def test_a_ring_in_jaws_against_a_fourier_series(jaws):
    got = hn.cutting.ring_out_of_round_mm(1000.0, jaws, 60.0, 3.0, 20.0, 70.0)
    assert got == pytest.approx(oracle.ring_out_of_round(1000.0, jaws, 60.0, 3.0, 20.0, 70.0), rel=1e-7)


def test_a_ring_between_two_forces_as_the_textbooks_print_it():
    # Timoshenko, Strength of Materials: the diameters change by 0.149 and 0.137 P R^3 / E I
    ei = 70_000 * 20.0 * 27.0 / 12
    want = (0.149 + 0.137) / 2 * 1000.0 * 30.0**3 / ei
    assert hn.cutting.ring_out_of_round_mm(1000.0, 2, 60.0, 3.0, 20.0, 70.0) == pytest.approx(want, rel=3e-3)


def test_more_jaws_leave_a_ring_rounder():
    squeeze = cutting.jaw_squeeze(
        "60 mm", "54 mm", width="20 mm", cutting_force="150 N", friction=0.15, safety=2.0, alloy="6061"
    )
    every = {3: squeeze.out_of_round_mm} | {each.jaws: each.out_of_round_mm for each in squeeze.by_jaws}
    ordered = [every[count] for count in sorted(every)]
    assert ordered == sorted(ordered, reverse=True)
    assert squeeze.jaw_force_n == pytest.approx(2.0 * 150.0 * 54.0 / (0.15 * 3 * 60.0))
    assert squeeze.lines()[0].startswith("out of round by")
    assert {item.kind for item in squeeze.evidence} == {"memory", "common practice"}


def test_jaws_that_fly_outward_are_set_tighter():
    still = {"width": "20 mm", "cutting_force": "150 N", "friction": 0.15, "safety": 2.0, "alloy": "6061"}
    turning = {"spindle_rpm": 1500.0, "jaw_mass_kg": 0.8, "mass_radius": "60 mm"}
    squeeze = cutting.jaw_squeeze("60 mm", "54 mm", **still, **turning)
    assert squeeze.jaw_force_at_rest_n == pytest.approx(
        squeeze.jaw_force_n + 0.8 * 0.060 * (2 * math.pi * 1500 / 60) ** 2, rel=1e-6
    )
    assert squeeze.out_of_round_mm > cutting.jaw_squeeze("60 mm", "54 mm", **still).out_of_round_mm
    with pytest.raises(hn.DomainError, match="together or not at all"):
        cutting.jaw_squeeze("60 mm", "54 mm", **still, spindle_rpm=1500.0)


def test_work_in_inch_and_in_metric_is_the_same():
    inch = cutting.work_bend([("6 in", "1 in")], force="100 N", alloy="1018")
    metric = cutting.work_bend([("152.4 mm", "25.4 mm")], force="100 N", alloy="1018")
    assert inch.worst_mm == metric.worst_mm
    assert " in at " in inch.lines()[0] and " mm at " in metric.lines()[0]
    assert metric.taper_mm == pytest.approx(2 * metric.worst_mm)
    assert {caution.code for caution in inch.cautions} == {"slender"}
    near = cutting.work_bend([("3 in", "1 in")], force="100 N", alloy="1018", tolerance="0.0001 in")
    assert {caution.code for caution in near.cautions} == {"bend_takes_tolerance"}
    assert len(inch.to_dict()["places_mm"]) == 101
    for places in (1, 10_001, 10**9):
        with pytest.raises(hn.DomainError, match="places must be from 2 to 10000"):
            cutting.work_bend([("6 in", "1 in")], force="100 N", alloy="1018", places=places)


def test_warm_work_measures_large():
    # 6061, 23.6e-6 per K: 50 mm at 60 degrees is 0.047 mm smaller when cold
    assert hn.cutting.size_at_20_mm(50.0, 60.0, 23.6e-6) == pytest.approx(50.0 / (1 + 23.6e-6 * 40))
    assert hn.cutting.size_at_20_mm(50.0, 20.0, 23.6e-6) == 50.0


def test_refusals_name_what_is_wrong():
    with pytest.raises(hn.DomainError, match="section 2: bore_mm 30 must be below diameter_mm 20"):
        formulas.work_bend_mm([(10, 20, 0), (10, 20, 30)], "chuck", 1.0, [5.0], 70.0)
    with pytest.raises(hn.DomainError, match="places_mm must be from 0 to 20 mm, got 25 mm"):
        formulas.work_bend_mm([(20, 20, 0)], "chuck", 1.0, [25.0], 70.0)
    with pytest.raises(hn.DomainError, match="hold must be one of 'chuck'"):
        formulas.work_bend_mm([(20, 20, 0)], "vice", 1.0, [5.0], 70.0)
    with pytest.raises(hn.DomainError, match="sections: 1 to 100"):
        formulas.work_bend_mm([], "chuck", 1.0, [0.0], 70.0)
    with pytest.raises(hn.DomainError, match="jaws must be a whole number"):
        hn.cutting.ring_out_of_round_mm(1.0, 2.5, 60.0, 3.0, 20.0, 70.0)
    with pytest.raises(hn.DomainError, match="wall_mm 40 must be below half"):
        hn.cutting.ring_out_of_round_mm(1.0, 3, 60.0, 40.0, 20.0, 70.0)
    with pytest.raises(hn.UnitError, match="force"):
        cutting.work_bend([("6 in", "1 in")], force=100, alloy="1018")
    with pytest.raises(hn.DomainError, match="one of the two"):
        cutting.work_bend([("6 in", "1 in")], force="100 N")
    for bad in (math.nan, math.inf):
        with pytest.raises(hn.DomainError):
            formulas.work_bend_mm([(bad, 20, 0)], "chuck", 1.0, [5.0], 70.0)
        with pytest.raises(hn.DomainError):
            formulas.work_bend_mm([(20, 20, 0)], "chuck", bad, [5.0], 70.0)
