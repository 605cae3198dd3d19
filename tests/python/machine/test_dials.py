"""Dial readings: whole turns, lines, and what is left over."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

import halfnut as hn
from halfnut.cutting.figures import DialReading

CROSS_IN = hn.lathe("gap-bed").core.slide("cross")
CROSS_MM = hn.lathe("metric-lathe").core.slide("cross")
COMPOUND = hn.lathe("gap-bed").core.slide("compound")


def reading(slide, travel_mm):
    return DialReading(*slide.reading(travel_mm))


def test_lines_on_the_dials():
    assert [slide.lines_a_turn for slide in (CROSS_IN, CROSS_MM, COMPOUND)] == [200, 100, 100]


@pytest.mark.parametrize(
    ("slide", "diameter_mm", "turns", "line", "text"),
    [
        (CROSS_IN, 0.125 * 25.4, 0, 125, "125 lines"),
        (CROSS_IN, 0.225 * 25.4, 1, 25, "1 turn + 25 lines"),
        (CROSS_IN, 0.0504 * 25.4, 0, 50, "50 lines +0.00040 in"),
        (CROSS_IN, 0.0506 * 25.4, 0, 51, "51 lines −0.00040 in"),
        (CROSS_MM, 10.05, 2, 1, "2 turns + 1 line"),
        (CROSS_MM, 0.31, 0, 6, "6 lines +0.0100 mm"),
        (COMPOUND, 0.010 * 25.4, 0, 5, "5 lines"),  # it reads its own travel: half of the diameter
    ],
)
def test_readings(slide, diameter_mm, turns, line, text):
    found = reading(slide, diameter_mm / 2)
    assert (found.turns, found.line, found.said) == (turns, line, text)


@given(st.floats(0, 200), st.sampled_from([CROSS_IN, CROSS_MM, COMPOUND]))
def test_a_reading_set_by_hand_reaches_the_size_within_half_a_line(travel, slide):
    found = reading(slide, travel)
    lines = found.turns * slide.lines_a_turn + found.line
    reached = lines * slide.graduation_mm / (2 if slide.reads_diameter else 1)
    assert abs(reached - travel) <= slide.graduation_mm / 2 * (1 + 1e-9)
    missed = found.remainder_mm / (2 if slide.reads_diameter else 1)
    assert reached + missed == pytest.approx(travel, abs=1e-5 * slide.graduation_mm)
    assert 0 <= found.line < slide.lines_a_turn


@pytest.mark.parametrize("bad", [-1.0, float("nan"), float("inf")])
def test_what_is_refused(bad):
    with pytest.raises(hn.DomainError, match="must be >= 0 mm"):
        reading(CROSS_IN, bad)
