"""Knurling at the lathe: forces, infeed, support, press fits, the shop's wheels, drawings and the command."""

import math
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner

import halfnut as hn
from halfnut import knurls
from halfnut.cli import command
from halfnut.core.catalogue import rows
from halfnut.core.questions import ask
from halfnut.knurls import wheels

CAUTIONS = {row["code"]: (row["rank"], row["text"]) for row in rows("core/cautions")}


def codes(found):
    return {item.code for item in found.told}


def test_contact_against_two_circles_that_overlap():
    for infeed, wheel, blank in ((0.05, 20.0, 20.0), (0.1, 15.0, 8.0), (0.3, 20.0, 40.0)):
        # half the chord that two circles share, whose centres are nearer by the infeed than when they touch
        one, two = wheel / 2, blank / 2
        apart = one + two - infeed
        along = (one**2 - two**2 + apart**2) / (2 * apart)
        chord = math.sqrt(one**2 - along**2)
        # the work turns into the wheel on one side only, from the edge of the chord to the line of centres
        assert hn.knurls.knurl_contact_mm(infeed, wheel, blank) == pytest.approx(chord, rel=0.02)


def test_level_1_scalars_equal_arrays_and_mark_bad_elements():
    for function, arguments in (
        (hn.knurls.knurl_contact_mm, (0.05, 20.0, 20.0)),
        (hn.knurls.knurl_force_n, (250.0, 6.0, 0.7, 1.0)),
    ):
        assert (function(np.full(3, arguments[0]), *arguments[1:]) == function(*arguments)).all()
        values, status = function(np.array([arguments[0], -1.0, math.nan]), *arguments[1:], on_error="status")
        assert list(np.isnan(values)) == [False, True, True] and list(status != 0) == [False, True, True]
    with pytest.raises(hn.DomainError, match="contact_share must be above 0 and at most 1"):
        hn.knurls.knurl_force_n(250.0, 6.0, 0.7, 1.5)


def test_infeed_turns_and_dial_add_up():
    for pitch in ("0.5 mm", "0.8 mm", "1.6 mm", "14 TPI", "96 DP"):
        blank = hn.knurl_blank("25 mm", pitch, pattern="straight")
        found = hn.knurl_setup("25 mm", pitch, "1018", pattern="straight", width="6 mm", machine="metric-lathe")
        assert found.infeed_mm == pytest.approx(blank.tooth_depth_mm - blank.growth_mm / 2)
        assert found.first_bite_mm == pytest.approx(found.infeed_mm / 3)
        assert 0.05 <= found.infeed_mm_rev <= 0.1
        rest = (found.turns - 1) * found.infeed_mm_rev
        assert found.first_bite_mm + rest >= found.infeed_mm - 1e-9
        assert found.first_bite_mm + rest - found.infeed_mm_rev < found.infeed_mm
        assert found.feed_mm_rev is None  # the band is no wider than the wheel
        slide = hn.lathe("metric-lathe").core.slide("cross")
        shown = (found.dial.turns * round(slide.travel_per_turn_mm * 2 / slide.graduation_mm) + found.dial.line) * (
            slide.graduation_mm
        ) + found.dial.remainder_mm
        if slide.reads_diameter:
            assert shown == pytest.approx(2 * found.infeed_mm)
    cut = hn.knurl_setup("25 mm", "1 mm", "1018", process="cut", width="12 mm")
    assert cut.infeed_mm == cut.blank.tooth_depth_mm and cut.force_n is None
    assert cut.groove_depth_mm == pytest.approx(0.8)
    assert "does not go to a shoulder" in cut.why()


def test_a_bar_that_tracks_is_knurled_as_it_is():
    """The nearest blank may be larger than the bar by less than the knurl tells apart."""
    found = hn.knurl_setup("28.62mm", "1.2 mm", "6061-T6", pattern="straight", width="10mm", stock="28.62mm")
    assert found.blank.given_tracks and found.blank.blank_diameter_mm > 28.62
    assert found.cut.diameter_mm == 28.62
    with pytest.raises(hn.DomainError, match="stock"):
        hn.knurl_setup("29.5mm", "1.2 mm", "6061-T6", pattern="straight", width="10mm", stock="28.62mm")


def test_a_wide_band_is_fed_within_the_published_feeds():
    for pitch, quarter in (("0.5 mm", 0.125), ("0.8 mm", 0.15), ("1.6 mm", 0.15)):
        found = hn.knurl_setup("25 mm", pitch, "brass", width="20 mm")
        assert found.feed_mm_rev == pytest.approx(quarter)
    (rule,) = (item for item in found.evidence if item.figure == "feed_mm_rev" and item.kind == "textbook")
    assert "0.02 to 0.15" in rule.rule


def test_force_support_and_holders():
    blank = hn.knurl_blank("20 mm", "RGE 0.8")
    one = hn.knurl_setup("20 mm", "RGE 0.8", "1018", width="12 mm", wheels=1, stick_out="60 mm")
    two = hn.knurl_setup("20 mm", "RGE 0.8", "1018", width="12 mm", wheels=2, stick_out="60 mm")
    assert one.side_force_n == one.force_n > 500
    assert two.side_force_n == 0.0 and two.bend_mm == 0.0
    assert {"knurling_bends", "knurling_support"} <= codes(one)
    assert not {"knurling_bends", "knurling_support"} & codes(two)
    centred = hn.knurl_setup(
        "20 mm", "RGE 0.8", "1018", width="12 mm", wheels=1, stick_out="60 mm", hold="chuck and centre"
    )
    assert centred.bend_mm < one.bend_mm / 4
    assert one.wheel_kind == "a wheel with sunk diamonds"
    assert two.wheel_kind == "a left-hand and a right-hand wheel"
    three = hn.knurl_setup("20 mm", "RGE 0.8", "1018", width="12 mm", wheels=3)
    assert "knurling_three" in codes(three)
    # twice the face of the wheel takes twice the force
    wide = hn.knurl_setup("20 mm", "RGE 0.8", "1018", width="12 mm", wheel_width="12 mm", stick_out="60 mm")
    assert wide.force_n == pytest.approx(2 * one.force_n)
    inertia = math.pi * blank.blank_diameter_mm**4 / 64
    bend = one.side_force_n * 60**3 / (3 * 1e3 * hn.alloy("1018").youngs_modulus_gpa * inertia)
    assert one.bend_mm == pytest.approx(bend, rel=1e-6)


def test_thin_walls_hard_work_and_iron():
    blank = hn.knurl_blank("20 mm", "RAA 0.8")
    least = 4.5 * blank.tooth_depth_mm
    for wall, thin in ((least - 0.05, True), (least + 0.05, False)):
        bore = f"{blank.blank_diameter_mm - 2 * wall} mm"
        found = hn.knurl_setup("20 mm", "RAA 0.8", "6061-T6", width="12 mm", bore=bore)
        assert ("knurling_thin_wall" in codes(found)) == thin
        assert found.wall_mm == pytest.approx(wall) and found.least_wall_mm == pytest.approx(least)
    assert "knurling_hard" in codes(hn.knurl_setup("20 mm", "RAA 0.8", "1018", width="12 mm", hardness_hb=340))
    assert "knurling_hard" not in codes(hn.knurl_setup("20 mm", "RAA 0.8", "1018", width="12 mm", hardness_hb=320))
    assert "knurling_crumbles" in codes(hn.knurl_setup("20 mm", "RAA 0.8", "grey iron", width="12 mm"))
    assert "never" in found.why()


def test_a_press_fit_is_the_raised_diameter_less_the_hole():
    blank = hn.knurl_blank("1/2 in", "96 DP", pattern="straight", tolerance_class="I")
    found = hn.knurl_setup(
        "1/2 in",
        "96 DP",
        "brass",
        pattern="straight",
        tolerance_class="I",
        width="0.25 in",
        hole=("0.505 in", "0.507 in"),
    )
    assert found.interference_max_mm == pytest.approx(blank.finished_max_mm - 0.505 * 25.4)
    assert found.interference_min_mm == pytest.approx(blank.finished_min_mm - 0.507 * 25.4)
    assert found.bite_share == pytest.approx(found.interference_max_mm / 2 / blank.tooth_depth_mm)
    assert "knurling_loose" in codes(
        hn.knurl_setup(
            "1/2 in", "96 DP", "brass", pattern="straight", tolerance_class="I", width="0.25 in", hole="0.53 in"
        )
    )
    assert "knurling_buried" in codes(
        hn.knurl_setup(
            "1/2 in", "96 DP", "brass", pattern="straight", tolerance_class="I", width="0.25 in", hole="0.47 in"
        )
    )
    with pytest.raises(hn.DomainError, match="from its least to its greatest"):
        hn.knurl_setup(
            "1/2 in",
            "96 DP",
            "brass",
            pattern="straight",
            tolerance_class="I",
            width="0.25 in",
            hole=("0.51 in", "0.50 in"),
        )


def test_every_caution_has_been_met():
    met = {"knurling_hard", "knurling_crumbles", "knurling_thin_wall", "knurling_bends", "knurling_support"}
    met |= {"knurling_three", "knurling_loose", "knurling_buried"}
    assert met == {name for name in CAUTIONS if name.startswith("knurling_")}


@pytest.mark.parametrize(
    ("options", "words"),
    [
        ({"wheels": 4}, "wheels must be from 1 to 3, got 4"),
        ({"hold": "vice"}, "hold must be one of 'chuck', 'chuck and centre', got 'vice'"),
        ({"bore": "30 mm"}, "bore must be less than the blank's"),
        ({"width": "-1 mm"}, "width"),
    ],
)
def test_errors_name_what_is_wrong(options, words):
    with pytest.raises(hn.Error, match=words):
        hn.knurl_setup("20 mm", "RGE 0.8", "brass", **{"width": "12 mm", **options})


def test_the_shops_wheels_on_a_diameter():
    found = hn.suitable_wheels("1/2 in")
    assert found.wheels[0].wheel == "96 DP straight, 5/8 in" and found.wheels[0].tracks
    assert str(found).startswith("0.5000 in: ")
    for each in found.wheels:
        assert each.below_diameter_mm <= 12.7 + 1e-6 and each.above_diameter_mm >= 12.7 - 1e-6
        assert each.tracks == (abs(each.mismatch_teeth) <= each.mismatch_limit_teeth)
        # what is named as suiting does suit
        again = hn.suitable_wheels(hn.mm(each.below_diameter_mm), wheels=wheels.knurl_wheels())
        assert next(other for other in again.wheels if other.wheel == each.wheel).tracks
    off = [abs(each.mismatch_teeth) for each in found.wheels]
    assert off == sorted(off)
    assert {each.pattern for each in hn.suitable_wheels("20 mm", pattern="straight").wheels} == {"straight"}
    tiny = hn.suitable_wheels("0.5 mm")
    assert "none of the shop's wheels" in tiny.why() and all(each.blank_diameter_mm is None for each in tiny.wheels)
    assert tiny.wheels[0].mismatch_teeth is None and tiny.wheels[0].refusal


def test_a_shops_own_wheels_and_their_mistakes(tmp_path, monkeypatch):
    file = tmp_path / "knurl_wheels.toml"
    file.write_text('[[wheels]]\nname = "mine"\npitch = "1 mm"\npattern = "straight"\n', encoding="utf-8")
    monkeypatch.setenv("HALFNUT_SHOP", str(tmp_path))
    assert [each["name"] for each in wheels.knurl_wheels()] == ["mine"]
    assert hn.suitable_wheels("20 mm").wheels[0].wheel == "mine"
    blank = hn.knurl_blank("20 mm", "1 mm", pattern="straight")
    told = hn.suitable_wheels("20 mm", wheels=str(file)).wheels[0].__dict__
    assert {key: value for key, value in told.items() if key.endswith("_mm")} == {
        key: getattr(blank, key) for key in told if key.endswith("_mm")
    }
    file.write_text('[[wheel]]\nname = "mine"\n', encoding="utf-8")
    with pytest.raises(hn.InputError, match=r"1 mistake\s+wheel: no such key; nearest: wheels"):
        hn.suitable_wheels("20 mm")
    with pytest.raises(hn.DomainError, match="suitable_wheels needs wheels: "):
        ask("suitable_wheels", ("20 mm",))
    with pytest.raises(hn.DomainError, match=r"wheels must be a file of wheels or a list of them, got \(3,\)"):
        hn.suitable_wheels("20 mm", wheels=[3])


def test_a_wheel_with_mistakes_stands_last_with_all_of_them_and_the_others_answer(tmp_path, monkeypatch):
    (tmp_path / "knurl_wheels.toml").write_text(
        '[[wheels]]\nname = "worn"\npitch = "1 mm"\nteeth = 40\ncolour = "red"\n'
        '[[wheels]]\nname = "mine"\npitch = "1 mm"\npattern = "straight"\n'
        '[[wheels]]\nname = "odd"\npitch = "1 mm"\npattern = "wavy"\n',
        encoding="utf-8",
    )
    monkeypatch.setenv("HALFNUT_SHOP", str(tmp_path))
    for asked in ({}, {"pattern": "straight"}):
        found = hn.suitable_wheels("20 mm", **asked).wheels
        assert [each.wheel for each in found] == ["mine", "odd", "worn"]
        assert found[0].blank_diameter_mm is not None
        assert "wavy" in found[1].refusal
        assert found[2].refusal == (
            "cannot be used: wheels[0].pattern: is missing; wheels[0]: teeth need the diameter over the points; "
            "wheels[0].colour: no such key; allowed: name, pitch, pattern, diameter, teeth, width, cuts"
        )


def test_the_rule_of_circumference_as_printed():
    text = (Path(__file__).parents[2] / "reference" / "knurls" / "circumference_rule.csv").read_text(encoding="utf-8")
    rows = [line.split(",", 4) for line in text.splitlines() if not line.startswith(("#", "id"))]
    assert len(rows) == 1
    constant = float(rows[0][1])
    for diameter in (6.35, 12.7, 25.4):
        for pitch in (0.5, 1.27, 1.6):
            assert knurls.teeth_around(diameter, pitch) == pytest.approx(constant * diameter / pitch, rel=3e-6)
            assert knurls.tracking_blank_mm(40, pitch) == pytest.approx(pitch * 40 / constant, rel=3e-6)


def test_drawings_are_labelled_and_without_colour():
    import matplotlib.pyplot as plt

    from halfnut.drawing.knurls import pattern_plot, tracking_plot

    for pattern in ("straight", "left", "right", "diamond raised", "cross raised"):
        blank = hn.knurl_blank("20 mm", "1 mm", pattern=pattern)
        axes = tracking_plot(blank)
        assert axes.get_xlabel() == "blank diameter, mm" and axes.get_ylabel() == "mismatch, teeth"
        dots = [line for line in axes.lines if line.get_marker() == "o"]
        assert any(line.get_xdata()[0] == pytest.approx(blank.blank_diameter_mm) for line in dots)
        spread = pattern_plot(blank, hn.mm(blank.blank_diameter_mm + blank.transverse_pitch_mm / 2 / math.pi))
        assert spread.get_xlabel() == "around the work, mm"
        plt.close("all")
    with pytest.raises(hn.DomainError, match="turns must be 1 to 4"):
        pattern_plot(blank, turns=9)
    with pytest.raises(hn.DomainError, match="below high"):
        tracking_plot(blank, low="30 mm", high="20 mm")
    with pytest.raises(hn.DomainError, match="teeth 3 to 200, got 2 and 1000000000"):
        pattern_plot(blank, teeth=10**9)
    with pytest.raises(hn.DomainError, match="high must be at most 200 teeth of"):
        tracking_plot(blank, high="100 m")


def test_the_command_tells_wheels_blank_and_setup():
    run = CliRunner().invoke
    assert run(command, ["suitable-wheels", "0.5in"]).output.startswith("0.5000 in: ")
    told = run(command, ["knurl-setup", "20mm", "RGE 0.8", "brass", "--width", "12mm", "--wheels", "2"])
    assert told.exit_code == 0 and "a left-hand and a right-hand wheel" in told.output
    assert run(command, ["knurl-setup", "20mm", "RGE 0.8", "brass"]).exit_code == 2
    assert (
        '"wheel_kind"' in run(command, ["knurl-setup", "20mm", "RGE 0.8", "brass", "--width", "12mm", "--json"]).output
    )
