"""Work where it is held: bend, other ways to hold it, grip, roundness, warmth; and turning on a beam of sections."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import halfnut as hn
from halfnut import cutting


def test_the_bend_is_that_of_the_upper_force_on_what_the_cut_leaves():
    found = hn.hold("1018", "20 mm", stick_out="90 mm", depth="1 mm", feed="0.1 mm/rev")
    cut = hn.turn("1018", "20 mm", depth="1 mm", feed="0.1 mm/rev")
    force = cut.passive_force_n * cut.cutting_force_high_n / cut.cutting_force_n
    inertia = cutting.second_moment_mm4(18.0, 0.0)
    assert found.bend.worst_mm == pytest.approx(cutting.cantilever_deflection_mm(force, 90.0, 205.0, inertia))
    assert (found.places[0].at_mm, found.places[0].larger_mm) == (0.0, 0.0)
    assert (found.places[-1].at_mm, found.places[-1].larger_mm) == pytest.approx((90.0, 2 * found.bend.worst_mm))
    errors = [each.larger_mm for each in found.places]
    assert errors == sorted(errors)


def test_each_support_more_bends_it_less():
    free = hn.hold("6061-T6", "0.75 in", stick_out="8 in", depth="0.02 in")
    ways = {way.name: way.bend_mm for way in free.other_ways}
    assert ways["with a centre and a steady half-way"] < ways["with a centre"] < ways["between centres"]
    assert ways["between centres with a steady half-way"] < ways["between centres"]
    held = hn.hold("6061-T6", "0.75 in", stick_out="8 in", depth="0.02 in", hold="chuck and centre")
    assert "with a centre" not in {way.name for way in held.other_ways}
    assert held.bend.worst_mm == pytest.approx(ways["with a centre"])


@settings(deadline=None, max_examples=25)
@given(st.floats(60.0, 300.0), st.floats(1.2, 2.5))
def test_slender_work_bends_by_the_cube_of_what_stands_out(out_mm, more):
    def bend(length_mm):
        return hn.hold("1018", "15 mm", stick_out=f"{length_mm} mm", depth="0.5 mm").bend.worst_mm

    assert bend(more * out_mm) / bend(out_mm) == pytest.approx(more**3, rel=1e-6)


def test_steadies_are_counted_by_twelve_diameters_of_free_span():
    long = hn.hold("1018", "20 mm", stick_out="600 mm", hold="between centres", depth="0.5 mm")
    assert long.steadies_for_span == math.ceil(600 / 19 / 12) - 1
    assert any("steady rest" in way for way in long.ways)
    short = hn.hold("1018", "20 mm", stick_out="150 mm", hold="between centres", depth="0.5 mm")
    assert short.steadies_for_span == 0


def test_grip_and_roundness_of_a_tube():
    args = {"bore": "50 mm", "stick_out": "40 mm", "depth": "0.5 mm", "grip_width": "20 mm"}
    free = hn.hold("6061-T6", "60 mm", **args)
    assert free.jaw_force_n is None
    assert [each.jaws for each in free.rings] == [2, 3, 4, 6]
    values = [each.out_of_round_mm for each in free.rings]
    assert values == sorted(values, reverse=True)
    assert values[1] == pytest.approx(hn.cutting.ring_out_of_round_mm(1000.0, 3, 55.0, 5.0, 20.0, 68.9))
    held = hn.hold("6061-T6", "60 mm", friction=0.15, safety=2.0, out_of_round="0.001 mm", **args)
    pull = held.cut.cutting_force_high_n
    assert held.jaw_force_n == pytest.approx(2.0 * pull * 60 / (0.15 * 3 * 60))
    assert held.squeeze.jaw_force_n == pytest.approx(held.jaw_force_n)
    assert "ring_out_of_round" in {item.code for item in held.cautions}
    assert "out when 3 jaws let go" in held.why()


def test_warmth_is_a_heat_balance_at_the_upper_edge():
    found = hn.hold("6061-T6", "1 in", stick_out="4 in", depth="0.05 in", length="3.5 in", feed="0.004 in/rev")
    cut, left = found.cut, 25.4 - 2 * 0.05 * 25.4
    mass = 2700 * math.pi / 4 * left**2 * 4 * 25.4 * 1e-9
    assert found.warming_k == pytest.approx(cut.heat_to_work_high_w * cut.time_s / (mass * 896))
    assert found.growth_mm == pytest.approx(found.warming_k * 23.6e-6 * left)
    assert "warmer after the cut" in found.why()
    tight = hn.hold("6061-T6", "1 in", stick_out="4 in", depth="0.05 in", length="3.5 in", tolerance="0.0002 in")
    assert "warm_size" in {item.code for item in tight.cautions}


def test_refusals_name_what_is_wrong():
    with pytest.raises(hn.DomainError, match="give stick_out or sections"):
        hn.hold("1018", "20 mm")
    with pytest.raises(hn.DomainError, match="friction and safety"):
        hn.hold("1018", "20 mm", stick_out="40 mm", friction=0.2)
    with pytest.raises(hn.DomainError, match="leave stick_out away"):
        hn.turn("1018", "20 mm", stick_out="40 mm", sections=[("40 mm", "20 mm")])
    with pytest.raises(hn.DomainError, match="steadies need"):
        hn.turn("1018", "20 mm", steadies=["40 mm"])


def test_turning_stepped_work_takes_the_beam():
    steps = [("100 mm", "20 mm"), ("50 mm", "12 mm")]
    cut = hn.turn("1018", "12 mm", depth="0.5 mm", sections=steps)
    beam = cutting.work_bend(steps, force=f"{cut.passive_force_n} N", alloy="1018")
    assert cut.deflection_mm == pytest.approx(beam.worst_mm)
    assert cut.deflection_high_mm == pytest.approx(hn.cutting.force_band("1018", "turn").high * 1.3 * beam.worst_mm)
    assert "slender" in {item.code for item in cut.cautions}
    plain = hn.turn("1018", "20 mm", depth="1 mm", stick_out="90 mm")
    same = hn.turn("1018", "20 mm", depth="1 mm", sections=[("90 mm", "18 mm")])
    assert same.deflection_mm == pytest.approx(plain.deflection_mm)
    steadied = hn.turn("1018", "20 mm", depth="1 mm", stick_out="90 mm", steadies=["80 mm"])
    assert steadied.deflection_mm < plain.deflection_mm


def test_a_feed_left_to_us_is_made_finer_until_the_beam_holds():
    steps = [("60 mm", "20 mm"), ("60 mm", "12 mm")]
    asked = {"depth": "0.5 mm", "machine": "metric-lathe", "sections": steps}
    free = hn.turn("1018", "12 mm", **asked)
    allowed = 0.8 * free.deflection_high_mm
    held = hn.turn("1018", "12 mm", deflection=f"{allowed} mm", **asked)
    assert held.deflection_high_mm <= allowed
    assert held.feed_mm_rev < free.feed_mm_rev
    assert held.limited_by == "deflection"
    assert held.holds_at_edge is True
    fixed = hn.turn("1018", "12 mm", deflection=f"{allowed} mm", feed=f"{free.feed_mm_rev} mm/rev", **asked)
    assert fixed.holds_at_edge is False
    assert "deflection_exceeded" in {item.code for item in fixed.cautions}
