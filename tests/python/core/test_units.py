"""Lengths and other quantities from text, from Halfnut's own types and from pint."""

import pint
import pytest

import halfnut as hn
from halfnut.core.units import length, quantity


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("1-1/4 in", 31.75),
        ('1 1/4"', 31.75),
        (".750in", 19.05),
        ("32 mm", 32.0),
        ("3/16 in", 4.7625),
        ("#7", 0.201 * 25.4),
    ],
)
def test_text(text, mm):
    assert length(text, "diameter").mm == pytest.approx(mm, rel=1e-15)


@pytest.mark.parametrize("bare", [32, 1.25, "32", None, [1]])
def test_a_bare_number_is_refused_and_the_message_shows_how(bare):
    with pytest.raises(hn.UnitError, match=r"diameter.*bare number is never a length"):
        length(bare, "diameter")


def test_pint_objects_are_lengths():
    ureg = pint.UnitRegistry()
    assert length(1.25 * ureg.inch, "diameter").mm == 31.75
    assert length(1.25 * ureg.inch, "diameter").system == "inch"
    assert length(3.2 * ureg.cm, "diameter").mm == pytest.approx(32.0)
    with pytest.raises(hn.UnitError, match="diameter"):
        length(3 * ureg.second, "diameter")


# pint is the outside judge of every conversion factor
@pytest.mark.parametrize(
    ("text", "dimension", "unit"),
    [
        ("1 hp", "power", "kW"),
        ("1 psi", "stress", "MPa"),
        ("1 lbf", "force", "N"),
        ("300 ft/min", "speed", "m/min"),
        ("1 ksi", "stress", "MPa"),
    ],
)
def test_factors_against_pint(text, dimension, unit):
    ureg = pint.UnitRegistry()
    expected = ureg.Quantity(text.replace("lbf", "force_pound")).to(unit).magnitude
    assert quantity(text, dimension).base == pytest.approx(expected, rel=1e-12)


def test_errors_are_also_the_usual_python_errors():
    with pytest.raises(ValueError, match="comma"):
        length("1,25 mm", "diameter")
    with pytest.raises(LookupError, match="no drill"):
        length("#98", "diameter")
