"""Columns: beam elements as the second way, the switch, recalled textbook rows, arrays, refusals."""

import csv
import io
import math
import sys
from collections import Counter
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import halfnut as hn
from halfnut.threads import columns, formulas

TESTS = Path(__file__).parents[2]
sys.path.insert(0, str(TESTS / "oracles"))
from column_beams import buckling_load  # noqa: E402

ENDS = [
    ("pinned", "pinned"),
    ("fixed", "fixed"),
    ("fixed", "pinned"),
    ("fixed", "free"),
    ("fixed", "guided"),
    ("guided", "pinned"),
]


def rows():
    text = (TESTS / "reference" / "threads" / "columns.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(io.StringIO("".join(x for x in text.splitlines(True) if not x.startswith("#")))))


def answer(row):
    if row["quantity"] == "diameter_mm":
        loads = np.linspace(5.0, 60.0, 55001)
        slenderness = float(row["length_mm"]) / formulas.gyration_radius_mm(loads, 0.0)
        carried = formulas.column_load_n(formulas.tube_area_mm2(loads, 0.0), slenderness, 207.0, 500.0)
        return loads[np.searchsorted(carried, float(row["load_n"]))]
    a, outer = float(row["a_over_l"]), float(row["i1_over_i2"])
    side = (1 - a) / 2
    lengths, stiffnesses = ([1.0], [1.0]) if a == 1.0 else ([side, a, side], [outer, 1.0, outer])
    return columns.stepped_column_load_n(lengths, stiffnesses, row["first_end"], row["second_end"])


def test_recalled_textbook_rows():
    counted = Counter()
    for row in rows():
        counted[row["role"]] += 1
        place = 10.0 ** -len(row["printed"].partition(".")[2])
        within = place if row["role"] == "excepted" else 0.5 * place * (1 + 1e-9)
        assert answer(row) == pytest.approx(float(row["printed"]), abs=within), row
    assert counted == {"memory": 29, "excepted": 1}


@pytest.mark.parametrize("ends", ENDS, ids="-".join)
def test_beam_elements_give_the_same_load(ends):
    """An eigenvalue by beam elements, a second way to the same loads, far inside the half per cent asked for."""
    random = np.random.default_rng(6)
    for _ in range(12):
        pieces = random.integers(1, 6)
        lengths = random.uniform(10.0, 300.0, pieces)
        stiffnesses = 10.0 ** random.uniform(7.0, 10.0, pieces)
        ours = columns.stepped_column_load_n(lengths, stiffnesses, *ends)
        assert ours == pytest.approx(buckling_load(lengths, stiffnesses, *ends), rel=5e-5)


@pytest.mark.parametrize("bore", [0.0, 12.7, 15.85, 20.0])
def test_a_uniform_tube_is_eulers_where_euler_holds(bore):
    e, s_y = 68.9, 240.0
    area, gyration = formulas.tube_area_mm2(25.4, bore), formulas.gyration_radius_mm(25.4, bore)
    for ratio in (1.0, 1.2, 2.0, 5.0):
        length = ratio * formulas.transition_slenderness(e, s_y) * gyration
        stiffness = 1000 * e * area * gyration**2
        independent = buckling_load([length], [stiffness], "pinned", "pinned")
        assert formulas.column_load_n(area, length / gyration, e, s_y) == pytest.approx(independent, rel=1e-5)


def test_the_switch_is_where_the_text_says():
    """At the transition both formulas give half the yield load; below it Johnson's governs."""
    at = math.sqrt(2 * math.pi**2 * 207e3 / 500)
    assert formulas.transition_slenderness(207.0, 500.0) == pytest.approx(at, rel=1e-14)
    assert formulas.euler_load_n(100.0, at, 207.0) == pytest.approx(25e3, rel=1e-12)
    assert formulas.johnson_load_n(100.0, at * (1 - 1e-12), 207.0, 500.0) == pytest.approx(25e3, rel=1e-9)
    slenderness = np.array([0.0, 30.0, 60.0, 90.0, 91.0, 120.0, 200.0])
    by_hand = np.where(
        slenderness < at,
        500 * 100 * (1 - 500 * slenderness**2 / (4 * math.pi**2 * 207e3)),
        math.pi**2 * 207e3 * 100 / np.maximum(slenderness, 1.0) ** 2,
    )
    np.testing.assert_allclose(formulas.column_load_n(100.0, slenderness, 207.0, 500.0), by_hand, rtol=1e-13)
    with pytest.raises(hn.DomainError, match=r"slenderness must be from 0 to 90\.4"):
        formulas.johnson_load_n(100.0, 95.0, 207.0, 500.0)


@given(
    st.lists(st.floats(1.0, 400.0), min_size=1, max_size=5),
    st.lists(st.floats(1e7, 1e10), min_size=5, max_size=5),
    st.sampled_from(ENDS),
    st.floats(1.01, 3.0),
)
@settings(max_examples=60, deadline=None)
def test_longer_or_softer_is_weaker(lengths, stiffnesses, ends, more):
    stiffnesses = stiffnesses[: len(lengths)]
    load = columns.stepped_column_load_n(lengths, stiffnesses, *ends)
    assert columns.stepped_column_load_n(np.array(lengths) * more, stiffnesses, *ends) < load
    assert columns.stepped_column_load_n(lengths, np.array(stiffnesses) * more, *ends) > load
    turned = columns.stepped_column_load_n(lengths[::-1], stiffnesses[::-1], *reversed(ends))
    # a stiff stub at an end that sways costs digits; the bound asked for is half a per cent
    assert turned == pytest.approx(load, rel=1e-3)


def test_arrays_and_status():
    lengths = np.array([[25.0, 450.0], [50.0, 900.0], [np.nan, 1.0]])
    values, status = columns.stepped_column_load_n(lengths, [4e8, 9e8], on_error="status")
    assert status.tolist() == [0, 0, 1]
    assert np.isnan(values[2])
    assert values[0] == columns.stepped_column_load_n([25.0, 450.0], [4e8, 9e8])
    assert values[1] == pytest.approx(values[0] / 4, rel=1e-9)
    with pytest.raises(hn.DomainError, match=r"length_mm must be finite and > 0 mm, got nan at index 2 \(1 of 3"):
        columns.stepped_column_load_n(lengths, [4e8, 9e8])
    assert columns.stepped_column_load_n(np.empty((0, 2)), [1.0, 2.0]).shape == (0,)


def test_refusals_say_what_is_wrong():
    with pytest.raises(hn.DomainError, match="pinned and free do not hold a column"):
        columns.stepped_column_load_n([1.0], [1.0], "pinned", "free")
    with pytest.raises(
        hn.DomainError, match="first_end must be one of 'pinned', 'fixed', 'guided', 'free', got 'hinged'"
    ):
        columns.stepped_column_load_n([1.0], [1.0], "hinged", "free")
    with pytest.raises(hn.DomainError, match="at least one segment"):
        columns.stepped_column_load_n([], [])
    with pytest.raises(hn.DomainError, match="bore_mm must be below diameter_mm, 20 mm, got 25"):
        formulas.tube_area_mm2(20.0, 25.0)
    with pytest.raises(hn.DomainError, match="guided and guided do not hold a column"):
        columns.column_end_factors("guided", "guided")
