"""A value that carries its unit is converted or refused, never stripped: in formulas, answers, arrays and tables."""

import math

import numpy as np
import pytest

import halfnut as hn
from halfnut import batch, cutting
from halfnut.core import carriers

pint = pytest.importorskip("pint")
pd = pytest.importorskip("pandas")

pytestmark = pytest.mark.filterwarnings("error")
ureg = pint.UnitRegistry()

# 100 m/min on 25.4 mm: 1000 * 100 / (pi * 25.4).
INCH_RPM = 1000.0 * 100.0 / (math.pi * 25.4)


IN_MM = {"mm": 1.0, "inch": 25.4, "cm": 10.0}


class StandIn(np.ndarray):
    """Numbers with a unit, by the interface that astropy has: `unit`, `value`, `to_value`."""

    def __new__(cls, values, unit):
        out = np.asarray(values, float).view(cls)
        out.unit = unit
        return out

    @property
    def value(self):
        return np.asarray(self)

    def to_value(self, unit):
        if unit not in IN_MM or self.unit not in IN_MM:
            raise ValueError(f"{self.unit} and {unit} are not convertible")
        return np.asarray(self) * (IN_MM[self.unit] / IN_MM[unit])


@pytest.mark.parametrize(
    "inch",
    [
        1 * ureg.inch,
        25.4 * ureg.mm,
        (1 / 12) * ureg.foot,
        hn.inch(1),
        hn.mm(25.4),
        StandIn(1.0, "inch"),
        StandIn(2.54, "cm"),
    ],
    ids=str,
)
def test_a_formula_converts_what_carries_a_unit(inch):
    assert cutting.spindle_speed_rpm(100.0, inch) == pytest.approx(INCH_RPM, rel=1e-12)
    both = cutting.spindle_speed_rpm(np.array([100.0, 200.0]), inch)
    assert both == pytest.approx([INCH_RPM, 2 * INCH_RPM], rel=1e-12)


def test_both_arguments_of_a_formula_may_carry_units():
    # 300 ft/min = 91.44 m/min.
    found = cutting.spindle_speed_rpm(300 * ureg.foot / ureg.minute, 1 * ureg.inch)
    assert found == pytest.approx(1000.0 * 91.44 / (math.pi * 25.4), rel=1e-12)


@pytest.mark.parametrize(
    "inches",
    [
        np.array([1.0, 2.0]) * ureg.inch,
        [1 * ureg.inch, 50.8 * ureg.mm],
        [hn.inch(1), hn.mm(50.8)],
        pd.Series([1 * ureg.inch, 2 * ureg.inch]),
        np.array([1 * ureg.inch, 2 * ureg.inch], dtype=object),
        StandIn([1.0, 2.0], "inch"),
    ],
    ids=["array", "list", "lengths", "series of quantities", "objects", "stand-in"],
)
def test_arrays_with_units_are_converted(inches):
    assert cutting.spindle_speed_rpm(100.0, inches) == pytest.approx([INCH_RPM, INCH_RPM / 2], rel=1e-12)


@pytest.mark.parametrize(
    ("value", "said"),
    [
        (1 * ureg.kilogram, "kilogram"),
        (StandIn(1.0, "s"), "not convertible"),
        ([1 * ureg.inch, 2.0], "2.0 has no unit"),
        (hn.quantity("3 m/min", "speed"), "speed"),
        (np.array([1.0]) * ureg.second, "second"),
    ],
    ids=["mass", "stand-in", "mixed", "own", "array"],
)
def test_a_unit_that_does_not_fit_is_refused_by_argument_and_unit(value, said):
    with pytest.raises(hn.UnitError, match=r"diameter_mm.*") as found:
        cutting.spindle_speed_rpm(100.0, value)
    assert said in str(found.value)
    assert "mm" in str(found.value)


def test_a_revolution_is_no_bare_number():
    # One revolution a second is 60 rev/min; 1 Hz says nothing of revolutions.
    assert cutting.cutting_speed_m_min(1 * ureg.turn / ureg.second, 50.0) == cutting.cutting_speed_m_min(60.0, 50.0)
    with pytest.raises(hn.UnitError, match="spindle"):
        cutting.cutting_speed_m_min(1 * ureg.hertz, 50.0)
    assert hn.turn("6061-T6", "25 mm", feed=0.1 * ureg.mm / ureg.turn).feed_mm_rev == pytest.approx(0.1)
    with pytest.raises(hn.UnitError, match="feed"):
        hn.turn("6061-T6", "25 mm", feed=0.1 * ureg.mm)


def test_answers_take_both_interfaces_and_keep_the_system():
    text = hn.turn("6061-T6", "1 in").to_dict()
    assert hn.turn("6061-T6", 1 * ureg.inch).to_dict() == text
    assert hn.turn("6061-T6", StandIn(1.0, "inch")).to_dict() == text
    assert hn.turn("6061-T6", "25 mm", spindle_rpm=5 * ureg.turn / ureg.second).spindle_rpm == 300.0
    with pytest.raises(hn.UnitError, match="hardness_hb"):
        hn.turn("6061-T6", "25 mm", hardness_hb=95 * ureg.MPa)


def columns(diameter, name="diameter_mm", table=dict):
    return table({"alloy": ["6061-T6", "4140"], name: diameter})


PLAIN = [1.0, 2.0]


@pytest.mark.parametrize("name", ["diameter_mm", "diameter_in", "diameter"])
@pytest.mark.parametrize(
    "diameter",
    [
        np.array(PLAIN) * ureg.inch,
        [1 * ureg.inch, 2 * ureg.inch],
        pd.Series([1 * ureg.inch, 2 * ureg.inch]),
        StandIn(PLAIN, "inch"),
        [hn.inch(1), hn.inch(2)],
    ],
    ids=["pint", "list", "series", "stand-in", "lengths"],
)
def test_columns_with_units_are_converted_whatever_they_are_called(diameter, name):
    wanted = batch.turn(columns(np.array(PLAIN), "diameter_in"))
    found = batch.turn(columns(diameter, name))
    for column, values in wanted.items():
        np.testing.assert_array_equal(found[column], values, err_msg=column)


def test_a_column_of_an_extension_of_pandas_is_converted():
    extension = pytest.importorskip("pint_pandas")
    extension.PintType.ureg = ureg
    frame = pd.DataFrame({"alloy": ["6061-T6", "4140"]})
    wanted = batch.turn(frame.assign(diameter_in=PLAIN))
    for name in ("diameter_mm", "diameter"):
        found = batch.turn(frame.assign(**{name: pd.Series(PLAIN, dtype="pint[inch]")}))
        pd.testing.assert_frame_equal(found, wanted)


def test_a_pandas_frame_of_quantities_is_converted():
    frame = pd.DataFrame({"alloy": ["6061-T6", "4140"]})
    wanted = batch.turn(frame.assign(diameter_in=PLAIN))
    found = batch.turn(frame.assign(diameter=[1 * ureg.inch, 2 * ureg.inch]))
    pd.testing.assert_frame_equal(found, wanted)


@pytest.mark.parametrize(
    ("column", "said"),
    [(np.array(PLAIN) * ureg.second, "second"), ([1 * ureg.inch, 2.0], "no unit"), (StandIn(PLAIN, "s"), "mm")],
    ids=["time", "mixed", "stand-in"],
)
def test_columns_that_cannot_be_converted_are_refused(column, said):
    with pytest.raises(hn.UnitError, match="diameter") as found:
        batch.turn(columns(column))
    assert said in str(found.value)


def test_constants_of_a_batch_carry_units_too():
    jobs = columns([25.4, 50.8])
    wanted = batch.turn(jobs, depth_mm=2.54)
    found = batch.turn(jobs, depth_mm=0.1 * ureg.inch)
    np.testing.assert_array_equal(found["cutting_force_n"], wanted["cutting_force_n"])


def test_columns_of_threads_and_knurls_are_converted():
    found = batch.limits({"thread": ["M10-6g"], "engagement": np.array([1.0]) * ureg.inch})
    np.testing.assert_array_equal(
        found["pitch_min_mm"], batch.limits({"thread": ["M10-6g"], "engagement_mm": [25.4]})["pitch_min_mm"]
    )
    found = batch.knurl_blank({"diameter": np.array([0.5]) * ureg.inch}, pitch="96 DP", pattern="straight")
    assert found["teeth"].tolist() == [48.0]


def test_a_bare_number_is_still_no_length():
    with pytest.raises(hn.UnitError, match="diameter"):
        hn.turn("6061-T6", 25.0)
    with pytest.raises(hn.DomainError, match="'diameter' has no unit"):
        batch.turn(columns(PLAIN, "diameter"))


def test_masked_elements_and_texts_are_no_numbers():
    masked = np.ma.array([25.0, 50.0], mask=[False, True])
    with pytest.raises(hn.DomainError, match="diameter_mm"):
        cutting.spindle_speed_rpm(100.0, masked)
    with pytest.raises(hn.DomainError, match="diameter_mm must hold numbers"):
        cutting.spindle_speed_rpm(100.0, "50")


def test_plain_numbers_are_seen_in_place():
    values = np.array([1.0, 2.0])
    assert np.shares_memory(carriers.numbers_column(values, "mm", "diameter_mm"), values)
