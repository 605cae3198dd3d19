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


@pytest.mark.parametrize("text", ["08 mm", "00 mm", "007in", "01/4 in", "1/08 in", "1-01/4 in", "08.5 mm"])
def test_a_nought_in_front_of_a_digit_may_be_a_lost_point(text):
    """08 is as likely 0.8 as 8, as 1/04 is as likely 1/4 as 1/04: neither is guessed."""
    with pytest.raises(hn.DesignationError, match="a number with a nought in front: leave the nought out"):
        length(text, "diameter")
    with pytest.raises(hn.DesignationError, match="diameter"):
        hn.turn("1018", text)


@pytest.mark.parametrize(
    "ask",
    [
        lambda: hn.knurl_blank("20 mm", "RGE 00.8"),
        lambda: hn.knurl_blank("20 mm", "01 mm"),
        lambda: hn.knurl_blank("20 mm", "096 DP"),
        lambda: hn.identify_thread("25 mm", "08 tpi"),
        lambda: hn.gear_train("08 TPI", "gap-bed"),
        lambda: hn.gear_train("024 mm", "gap-bed"),
        lambda: hn.holding_taper("morse 03"),
        lambda: hn.holding_taper("1:010", large="20 mm", length="20 mm"),
    ],
)
def test_no_reader_drops_a_nought(ask):
    with pytest.raises(hn.Error, match=r"with a nought in front|no self-holding taper"):
        ask()


@pytest.mark.parametrize(
    "ask",
    [
        lambda: hn.gear_train("0 TPI", "gap-bed"),
        lambda: hn.gear_train("8/0 TPI", "gap-bed"),
        lambda: hn.identify_thread("25 mm", "0 tpi"),
        lambda: hn.identify_thread("25 mm", "9" * 400 + " tpi"),
        lambda: hn.holding_taper("1:" + "9" * 400, large="20 mm", length="20 mm"),
        lambda: hn.holding_taper("1:0", large="20 mm", length="20 mm"),
    ],
)
def test_no_reader_divides_by_nothing(ask):
    with pytest.raises(hn.Error):
        ask()


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
