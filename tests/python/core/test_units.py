"""Lengths and other quantities from text, from Halfnut's own types and from pint."""

import pint
import pytest

import halfnut as hn
from halfnut import _core
from halfnut.core.questions import function_of
from halfnut.core.schemas import flat
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
        lambda: hn.gear_train("08 TPI", machine="gap-bed"),
        lambda: hn.gear_train("024 mm", machine="gap-bed"),
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
        lambda: hn.gear_train("0 TPI", machine="gap-bed"),
        lambda: hn.gear_train("8/0 TPI", machine="gap-bed"),
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


def test_lengths_compare_by_what_they_are():
    assert hn.inch(1) == hn.mm(25.4) == length("1000 thou", "diameter")
    assert hash(hn.inch(0.7)) == hash(hn.mm(17.78))
    assert {hn.inch(n / 1000) for n in range(1, 2000)} == {hn.mm(round(n * 0.0254, 4)) for n in range(1, 2000)}
    assert sorted([hn.inch(1), hn.mm(3), hn.mm(30)]) == [hn.mm(3), hn.inch(1), hn.mm(30)]
    assert hn.inch(1) <= hn.mm(25.4) >= hn.inch(1)
    assert hn.mm(25.3) < hn.inch(1) < hn.mm(25.5)
    assert hn.inch(1) != 25.4
    assert hn.inch(1) != quantity("1 in/rev", "feed")


def test_arithmetic_keeps_the_unit_of_the_left():
    both = hn.inch(1) + hn.mm(12.7)
    assert (str(both), both.system, type(both)) == ("1.5 in", "inch", hn.Length)
    assert str(hn.mm(30) - hn.inch(1)) == "4.6 mm"
    assert (hn.inch(0.7) - hn.mm(17.78)).mm == 0.0
    assert str(hn.inch(0.5) * 3) == str(3 * hn.inch(0.5)) == "1.5 in"
    assert str(hn.inch(3) / 2) == "1.5 in"
    assert hn.inch(2) / hn.mm(25.4) == 2.0
    assert str(sum([hn.inch(1), hn.mm(25.4)])) == "2 in"
    assert str(-hn.mm(3)) == "-3 mm"
    assert abs(-hn.mm(3)) == +hn.mm(3)
    assert str(quantity("300 ft/min", "speed") / 2) == "150 ft/min"


@pytest.mark.parametrize(
    "ask",
    [
        lambda: hn.inch(1) + 1,
        lambda: 1 + hn.inch(1),
        lambda: hn.inch(1) - 0.5,
        lambda: 2 - hn.inch(1),
        lambda: hn.inch(1) < 2,
        lambda: hn.inch(1) <= 2,
    ],
)
def test_a_bare_number_beside_a_length_is_refused(ask):
    with pytest.raises(hn.UnitError, match=r"1 in cannot be .* has no unit; a bare number is never a length"):
        ask()


def test_what_makes_no_quantity_is_refused():
    with pytest.raises(hn.DomainError, match="one is a length, the other a speed"):
        hn.inch(1) + quantity("30 m/min", "speed")
    for ask in (
        lambda: hn.inch(1) * hn.inch(1),
        lambda: hn.inch(1) + "1 in",
        lambda: 1 / hn.inch(1),
        lambda: float(hn.inch(1)),
        lambda: hn.inch(1) * True,
    ):
        with pytest.raises(TypeError):
            ask()
    with pytest.raises(hn.DomainError, match="cannot be divided by zero"):
        hn.inch(1) / 0
    with pytest.raises(hn.DomainError, match="length must be 0, or from"):
        hn.inch(1) * float("nan")


def test_a_length_is_written_in_any_unit():
    size = hn.inch(0.7)
    assert f"{size}" == "0.7 in"
    assert f"{size:mm}" == "17.78 mm"
    assert f"{size:.4f}" == "0.7000 in"
    assert f"{size:.3f mm}" == "17.780 mm"
    assert f"{hn.mm(0.0016002):.0f uin}" == "63 µin"
    assert f"{quantity('30 N m', 'torque'):.1f lbf ft}" == "22.1 lbf ft"
    assert size.to("thou").value == pytest.approx(700.0, rel=1e-15)
    assert (size.to("mm").mm, size.mm, size.inch) == (size.mm, pytest.approx(17.78, rel=1e-15), 0.7)
    with pytest.raises(hn.DomainError, match="'kg' is no unit of length; there are mm, cm"):
        f"{size:.3f kg}"
    with pytest.raises(hn.DomainError, match="'N' is no unit of length"):
        size.to("N")


TURN = {"alloy": "6061-T6", "diameter": "25 mm", "depth": "0.5 mm", "length": "20 mm"}
GRIPPED = {"do": "turn", "alloy": "1018", "diameter": "32 mm", "to": "28 mm", "length": "40 mm", "machine": "gap-bed"}
STEEL = {"external": "M10-6g", "internal": "M10-6H", "external_grade": "8.8", "engagement": "15 mm"}
ALLOYS = {"external_alloy": "1018", "internal_alloy": "6061-T6"}
FIT = {"text": "25 mm H7/g6", "hole_alloy": "1018", "shaft_alloy": "6061-T6"}


# pint and the definitions judge: 63 uin is 1.6002 um, 100 lbf 444.822 N, 212 F 100 C.
@pytest.mark.parametrize(
    ("name", "given", "named", "text", "value"),
    [
        ("turn", TURN, "spindle_rpm", "500 rev/min", 500.0),
        ("turn", TURN, "spindle_rpm", "500rpm", 500.0),
        ("turn", TURN, "entering_deg", "95 deg", 95.0),
        ("turn", TURN, "rake_deg", "-6°", -6.0),
        ("turn", TURN, "roughness_um", "63 uin", 1.6002),
        ("turn", TURN, "hardness_hb", "95 HB", 95.0),
        ("choose", GRIPPED, "force_n", "100 lbf", 444.82216152605),
        ("strength", STEEL, "internal_tensile", "30 ksi", "206.842718795 MPa"),
        ("tighten", {"thread": "M10", "friction": 0.1}, "torque", "10 lbf ft", "13.5581794833 N m"),
        ("choose", GRIPPED | {"jaw_force_n": 5000, "now_spindle_rpm": 535}, "jaw_mass_kg", "1.2 lb", 0.544310844),
        ("tool_life", {"alloy": "1045", "tool": "coated carbide"}, "life_min", "1 h", 60.0),
        ("choose", GRIPPED, "dial_set_s", "0.5 min", 30.0),
        ("fit", {"external": "M10-6g", "internal": "M10-6H"} | ALLOYS, "temperature_c", "212 F", 100.0),
        ("cylindrical_fit", FIT, "hole_temperature_c", "40 °c", 40.0),
    ],
)
def test_a_number_may_be_written_with_its_unit(name, given, named, text, value):
    written, plain = (function_of(name)(**given, **{named: each}) for each in (text, value))
    for key, figure in flat(plain).items():
        if isinstance(figure, float):
            assert getattr(written, key) == pytest.approx(figure, rel=1e-8), key


def test_a_written_number_is_taken_by_the_questions():
    ureg = pint.UnitRegistry()
    asked = hn.turn("6061-T6", "1 in", spindle_rpm=500, roughness_um=1.6002, entering_deg=95, hardness_hb=95)
    written = hn.turn(
        "6061-T6", "1 in", spindle_rpm="500 rev/min", roughness_um="63 uin", entering_deg="95 deg", hardness_hb="95 HB"
    )
    carried = hn.turn(
        "6061-T6",
        "1 in",
        spindle_rpm=500 * ureg.rpm,
        roughness_um=63e-6 * ureg.inch,
        entering_deg=quantity("95 deg", "angle"),
        hardness_hb=quantity("95 HB", "hardness"),
    )
    assert asked == written
    assert str(asked) == str(carried)
    fit = hn.cylindrical_fit("25 mm H7/g6", hole_alloy="1018", shaft_alloy="6061-T6", shaft_temperature_c="104 F")
    assert fit.shaft_temperature_c == pytest.approx(40.0)


@pytest.mark.parametrize(
    ("name", "given", "named", "text", "why"),
    [
        ("turn", TURN, "spindle_rpm", "500 mm", "spindle_rpm: .*'mm' is a unit of length, but a spindle speed is"),
        ("choose", GRIPPED, "force_n", "-6 N", "force_n: .*cannot be negative"),
        ("cylindrical_fit", FIT, "hole_temperature_c", "40", "hole_temperature_c: '40' has no scale"),
        ("turn", TURN, "wear_factor", "sharp", "wear_factor must be a number, got 'sharp'"),
        ("choose", GRIPPED, "hand_turns_per_min", "30 min", "hand_turns_per_min must be a number"),
    ],
)
def test_a_written_number_that_cannot_be_read(name, given, named, text, why):
    with pytest.raises(hn.Error, match=why):
        function_of(name)(**given, **{named: text})


@pytest.mark.parametrize(
    ("text", "dimension"),
    [("1-1/4 in", "length"), ("#7", "length"), ("12.5 mm", "length"), ("300 ft/min", "speed"), ("3 hp", "power")],
)
def test_a_repr_makes_its_quantity_again(text, dimension):
    made = quantity(text, dimension)
    assert eval(repr(made), {"Length": _core.Length, "Quantity": _core.Quantity}) == made


def test_a_length_is_made_of_text_and_never_of_a_bare_number():
    assert hn.Length("1-1/4 in") == hn.inch(1.25)
    with pytest.raises(hn.UnitError, match="unit"):
        hn.Length("1.25")
