"""Cuts made of others: spots, countersinks, counterbores, tapers, grooves, ways down, slits; in inch and metric."""

from __future__ import annotations

import math

import pytest

import halfnut as hn
from halfnut import cutting

KC_304 = 2350.0 / 1.24  # recalled, on the scale of the unit powers


def test_the_ring_of_a_countersink_and_counterbore_is_the_formula():
    """Torque of the ring between hole and tool, half-way out, from the constants the evidence names."""
    sunk = cutting.countersink("304", "12 mm", "6 mm", flutes=3, feed="0.15 mm/rev", spindle_rpm=300)
    bored = cutting.counterbore("304", "11 mm", "6.6 mm", flutes=3, feed="0.15 mm/rev", spindle_rpm=300, depth="6 mm")
    for cut, outer, hole, sine in ((sunk, 12.0, 6.0, math.sin(math.pi / 4)), (bored, 11.0, 6.6, 1.0)):
        chip = 0.15 / 3 * sine
        assert cut.chip_thickness_mm == pytest.approx(chip)
        kc = min(1.2 * cutting.specific_cutting_force_n_mm2(KC_304, 0.21, chip), 2.2 * KC_304)
        assert cut.torque_nm == pytest.approx(kc * 0.15 * (outer - hole) * (outer + hole) / 8000)
        assert cut.spindle_power_kw == pytest.approx(cutting.torque_power_kw(cut.torque_nm, 300.0))
        assert cut.spindle_power_low_kw < cut.spindle_power_kw < cut.spindle_power_high_kw
    assert sunk.travel_mm == pytest.approx(2 + 3)
    assert bored.travel_mm == pytest.approx(8)


def test_a_countersink_turns_slower_than_a_drill():
    for name in ("1018", "6061-T6", "brass", "304"):
        drilled = hn.drill(name, "10 mm")
        assert cutting.countersink(name, "10 mm", "5 mm").spindle_rpm == pytest.approx(
            drilled.spindle_rpm / 3, rel=0.35
        )
        assert cutting.counterbore(name, "10 mm", "5 mm").spindle_rpm < drilled.spindle_rpm
        assert hn.spot(name, "10 mm").spindle_rpm <= drilled.spindle_rpm * 1.34


def test_cones_in_inch_and_their_refusals():
    cut = cutting.countersink("6061-T6", "0.5 in", "0.25 in", included_deg=82, machine="bench-mill")
    assert cut.travel_mm == pytest.approx(2 + 0.575 * 6.35, abs=0.01), "the shop rule 0.575 (D - d) for 82 degrees"
    assert "rev/min" in cut.why()
    with pytest.raises(hn.DomainError, match=r"^hole must"):
        cutting.countersink("1018", "10 mm", "10 mm")
    with pytest.raises(hn.UnitError):
        cutting.counterbore("1018", 10, "5 mm")


def test_taper_by_compound_and_tailstock():
    """Five eighths in a foot: 1.4916 degrees from the axis; the set-over grows with the whole work."""
    found = hn.taper("1018", "1 in", "0.84375 in", "3 in", between_centres="8 in")
    assert found.taper_per_foot_in == pytest.approx(0.625)
    assert found.angle_deg == pytest.approx(math.degrees(math.atan(0.625 / 24)))
    assert found.setover_mm == pytest.approx(8 * 0.625 / 24 * 25.4)
    assert "set 1.492°" in found.why()
    steep = hn.taper("1018", "40 mm", "20 mm", "60 mm", between_centres="100 mm")
    assert "setover_steep" in {item.code for item in steep.cautions}
    long = {"machine": "metric-lathe", "hold": "chuck and centre"}  # whose compound goes 80 mm
    told = [hn.taper("1018", "20 mm", "18 mm", f"{length} mm", **long).cautions for length in (79, 81)]
    assert [[item.text for item in each if item.code == "compound_short"] != [] for each in told] == [False, True]
    assert any("80 mm" in item.text for item in told[1])
    over = hn.taper("1018", "20 mm", "18 mm", "81 mm", between_centres="100 mm", machine="metric-lathe")
    assert "compound_short" not in {item.code for item in over.cautions}
    with pytest.raises(hn.DomainError, match="small must be below large"):
        hn.taper("1018", "20 mm", "30 mm", "50 mm")


def test_groove_plunges_cover_its_width():
    wide = hn.groove("6061-T6", "1.25 in", "1 in", width="0.3 in", blade="0.125 in", machine="gap-bed")
    assert wide.plunges == 3
    assert 2 * wide.step_mm + 0.125 * 25.4 == pytest.approx(0.3 * 25.4)
    assert wide.step_mm <= 0.125 * 25.4
    assert wide.to_dict()["time_s"] == pytest.approx(3 * wide.cut.time_s)
    assert hn.groove("6061-T6", "30 mm", "24 mm").plunges == 1
    with pytest.raises(hn.DomainError, match="width must be at least"):
        hn.groove("6061-T6", "30 mm", "24 mm", width="1 mm")


def test_ways_down_end_at_the_depth():
    slope = hn.ramp("6061-T6", "0.5 in", "0.25 in", flutes=2, angle_deg=5)
    assert slope.length_mm * math.sin(math.radians(5)) == pytest.approx(6.35)
    assert slope.time_s == pytest.approx(60 * slope.length_mm / slope.feed_mm_min)
    assert "in/min" in slope.why()
    wound = hn.helix("1018", "10 mm", "16 mm", "8 mm", flutes=4)
    assert wound.turns * wound.pitch_mm == pytest.approx(8)
    around = wound.turns * math.hypot(math.pi * 6, wound.pitch_mm)
    assert wound.length_mm == pytest.approx(around)
    assert math.degrees(math.atan(wound.pitch_mm / (math.pi * 6))) == pytest.approx(3)
    assert wound.feed_mm_min == pytest.approx(0.5 * wound.cut.feed_mm_min * 6 / 16)
    with pytest.raises(hn.DomainError, match="hole must be from 12 mm to 19 mm"):
        hn.helix("1018", "10 mm", "25 mm", "8 mm")
    with pytest.raises(hn.DomainError, match="angle_deg"):
        hn.ramp("1018", "10 mm", "3 mm", angle_deg=45)


def test_a_saw_is_a_side_cut_of_its_own_width():
    slit = hn.saw("6061-T6", "80 mm", "1.5 mm", "6 mm", teeth=48, length="50 mm", machine="bench-mill")
    assert slit.mrr_cm3_min == pytest.approx(cutting.milling_removal_cm3_min(1.5, 6.0, slit.feed_mm_min))
    assert slit.travel_mm == pytest.approx(52 + cutting.milling_approach_mm(80.0, 6.0))
    assert slit.passes == 1
    assert "saw_clamped" in {item.code for item in slit.cautions}
    with pytest.raises(hn.DomainError, match="below half the saw"):
        hn.saw("6061-T6", "80 mm", "1.5 mm", "40 mm", teeth=48)


def test_what_an_alloy_does_at_the_edge_is_said():
    assert "trait_work_hardening" in {note.code for note in hn.turn("304", "40 mm").notes}
    assert "trait_built_up_edge" in {note.code for note in hn.turn("6061-T6", "40 mm", spindle_rpm=300).notes}
    assert "trait_built_up_edge" not in {note.code for note in hn.turn("6061-T6", "40 mm").notes}, "forms at low speed"
    assert not any(note.code.startswith("trait_") for note in hn.turn("brass", "40 mm").notes)
    assert not any(note.code.startswith("trait_") for note in hn.knurl("304", "20 mm").notes)
