"""Knurl blanks: the published rows, the rolling wheel, properties, and the face a person sees."""

import csv
import dataclasses
import io
import math
import sys
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import halfnut as hn
from halfnut import batch, knurls
from halfnut.core.catalogue import rows

TESTS = Path(__file__).parents[2]
sys.path.insert(0, str(TESTS / "oracles"))
import knurl_rolling as rolling  # noqa: E402

INCH = 25.4

CAUTIONS = {row["code"]: (row["rank"], row["text"]) for row in rows("core/cautions")}


def rows(name):
    text = (TESTS / "reference" / "knurls" / f"{name}.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(io.StringIO("".join(x for x in text.splitlines(True) if not x.startswith("#")))))


def test_blanks_by_diametral_pitch():
    found = rows("diametral_blanks")
    assert len(found) == 29
    for row in found:
        blank = hn.knurl_blank(f"{row['blank_in']} in", f"{row['diametral_pitch']} DP", pattern="straight")
        assert blank.teeth == int(row["teeth"]), row["id"]
        assert blank.blank_diameter_mm == pytest.approx(float(row["blank_in"]) * INCH, abs=1e-9), row["id"]


def test_metric_blanks_for_a_finished_diameter():
    found = rows("din_82_blanks")
    assert len(found) == 23
    for row in found:
        blank = hn.knurl_blank(f"{row['finished_mm']} mm", f"{row['form']} {row['pitch_mm']}", finished=True)
        assert blank.given_diameter_mm == pytest.approx(float(row["blank_mm"]), abs=0.0005), row["id"]
        assert blank.teeth == round(blank.given_teeth), row["id"]


def test_printed_blanks_from_a_measured_wheel():
    found = rows("wheel_ratio")
    assert len(found) == 2
    for row in found:
        blank = hn.knurl_blank(
            f"{row['near_in']} in",
            f"{int(row['wheel_teeth']) / (math.pi * float(row['wheel_in'])):.3f} TPI",
            pattern="straight",
            wheel=f"{row['wheel_in']} in, {row['wheel_teeth']} teeth",
            tracking_allowance=f"{row['allowance_in']} in",
        )
        assert blank.teeth == int(row["teeth"]), row["id"]
        limit = float(row["half_last_place_in"])
        assert blank.blank_diameter_mm / INCH == pytest.approx(float(row["blank_in"]), abs=limit), row["id"]


# Wheels of three sizes, straight and leaning, on blanks chosen by the closed form and off it.
GRID = [
    (pitch, helix, wheel_teeth, diameter)
    for pitch in (0.5, 0.8, 1.2, 1.27, 1.6)
    for helix in (0.0, 15.0, 30.0, 45.0)
    for wheel_teeth in (31, 60)
    for diameter in (6.0, 12.7, 25.0, 41.3)
]


def test_a_rolled_wheel_prints_the_teeth_that_the_closed_form_says():
    assert len(GRID) == 160
    for pitch, helix, wheel_teeth, diameter in GRID:
        wheel = rolling.wheel_from_pitch(wheel_teeth, pitch, helix)
        spacing = wheel.circumference / wheel.teeth
        around = knurls.transverse_pitch_mm(pitch, helix)
        for blank in (knurls.blank_below_mm(diameter, around), knurls.blank_above_mm(diameter, around)):
            marks = rolling.roll(wheel, math.pi * blank, 12)
            count = rolling.imprints(marks, math.pi * blank, 0.01 * spacing)
            assert count == round(knurls.teeth_around(blank, around)), (pitch, helix, wheel_teeth, diameter)


def test_a_rolled_wheel_drifts_by_the_mismatch():
    checked = 0
    for pitch, helix, wheel_teeth, diameter in GRID:
        wheel = rolling.wheel_from_pitch(wheel_teeth, pitch, helix)
        spacing = wheel.circumference / wheel.teeth
        around = knurls.transverse_pitch_mm(pitch, helix)
        mismatch = knurls.mismatch_teeth(diameter, around)
        if abs(mismatch) > 0.49:  # half a tooth has no sign
            continue
        marks = rolling.roll(wheel, math.pi * diameter, 9)
        assert rolling.drift_per_turn(marks, spacing) == pytest.approx(mismatch, abs=1e-6), (pitch, helix, diameter)
        checked += 1
    assert checked >= 150


@pytest.mark.parametrize(("share", "sets"), [(0.5, 2), (0.25, 4), (0.2, 5), (0.1, 10)])
def test_off_a_tracking_blank_the_wheel_prints_several_sets(share, sets):
    wheel = rolling.wheel_from_pitch(47, 1.27, 0.0)
    blank = knurls.tracking_blank_mm(31 + share, 1.27)
    marks = rolling.roll(wheel, math.pi * blank, 3 * sets)
    assert rolling.imprints(marks, math.pi * blank, 0.01 * 1.27) == round((31 + share) * sets)


def test_growth_against_the_volume_of_a_sampled_surface():
    for shape, pattern in (("ridges", "straight"), ("raised", "diamond"), ("indented", "diamond indented")):
        share = rolling.volume_growth_share(shape)
        blank = hn.knurl_blank("20 mm", "1 mm", pattern=pattern, profile_deg=105.0)
        height = 0.5 / math.tan(math.radians(52.5))
        assert blank.growth_mm == pytest.approx(2 * share * height, rel=1e-4)
    for shape, pattern in (("ridges", "straight"), ("raised", "RGE"), ("indented", "RGV")):
        factor = hn.knurl_blank("20 mm", "1 mm", pattern=pattern).growth_mm  # as DIN 82 prints it
        assert factor == pytest.approx(2 * rolling.volume_growth_share(shape) * 0.5, abs=0.005)


def test_a_round_blank_grows_less_by_no_more_than_the_header_says():
    for shape in ("ridges", "raised", "indented"):
        flat = rolling.volume_growth_share(shape)
        for height, radius in ((0.4, 5.0), (0.25, 3.0), (0.8, 20.0)):
            on_round = rolling.growth_on_round(shape, height, radius)
            assert 0.0 <= 1.0 - on_round / (flat * height) <= height / (6 * 2 * radius) * 1.01


PATTERNS = st.sampled_from(["straight", "left", "diamond raised", "diamond indented", "cross raised", "cross indented"])
PITCHES = st.sampled_from(
    ["64 DP", "96 DP", "128 DP", "160 DP", "14 TPI", "21 TPI", "33 TPI", "0.5 mm", "0.8 mm", "1.6 mm"]
)


@settings(max_examples=300, deadline=None)
@given(st.floats(5.0, 120.0), PITCHES, PATTERNS, st.booleans(), st.sampled_from(["nearest", "below", "above"]))
def test_every_answer_tracks_and_brackets_what_was_given(diameter, pitch, pattern, finished, prefer):
    blank = hn.knurl_blank(hn.mm(diameter), pitch, pattern=pattern, finished=finished, prefer=prefer)
    around = blank.transverse_pitch_mm
    assert math.pi * blank.blank_diameter_mm / around == pytest.approx(blank.teeth, rel=1e-12)
    assert blank.below_diameter_mm <= blank.given_diameter_mm + 1e-6
    assert blank.above_diameter_mm >= blank.given_diameter_mm - 1e-6
    assert blank.above_teeth - blank.below_teeth in (0, 1)
    assert blank.finished_diameter_mm == blank.blank_diameter_mm + blank.growth_mm
    wanted = blank.finished_diameter_mm if finished else blank.blank_diameter_mm
    tooth = around / math.pi
    assert abs(wanted - diameter) <= tooth * (0.5 if prefer == "nearest" else 1.0) + 1e-6
    assert all(value == value for value in blank.to_dict().values())
    # the answer, asked again, is itself
    again = hn.knurl_blank(hn.mm(wanted), pitch, pattern=pattern, finished=finished)
    assert again.teeth == blank.teeth
    assert again.below_teeth == again.above_teeth


@settings(max_examples=100, deadline=None)
@given(st.floats(8.0, 60.0), st.floats(0.4, 2.0))
def test_inch_and_metric_pitches_are_one(diameter, pitch):
    metric = hn.knurl_blank(hn.mm(diameter), f"{pitch:.6f} mm", pattern="straight", profile_deg=90.0)
    circular = hn.knurl_blank(
        hn.mm(diameter), f"{INCH / float(f'{pitch:.6f}'):.12f} TPI", pattern="straight", profile_deg=90.0
    )
    assert circular.given_teeth == pytest.approx(metric.given_teeth, rel=1e-9)
    assert circular.tooth_depth_mm == pytest.approx(metric.tooth_depth_mm, rel=1e-9)


LEVEL_1 = [
    (knurls.pitch_from_teeth_per_inch_mm, (20.0,)),
    (knurls.pitch_from_diametral_mm, (96.0,)),
    (knurls.transverse_pitch_mm, (1.0, 30.0)),
    (knurls.normal_pitch_mm, (1.0, 30.0)),
    (knurls.wheel_pitch_mm, (19.05, 47.0, 0.18)),
    (knurls.diametral_wheel_outside_in, (0.75, 72.0, 0.0002618)),
    (knurls.teeth_around, (25.4, 1.27)),
    (knurls.mismatch_teeth, (25.4, 1.27)),
    (knurls.tracking_blank_mm, (63.0, 1.27)),
    (knurls.blank_below_mm, (25.4, 1.27)),
    (knurls.blank_above_mm, (25.4, 1.27)),
    (knurls.tracking_helix_deg, (50.0, 1.27, 25.4)),
    (knurls.sharp_tooth_depth_mm, (1.0, 90.0)),
    (knurls.form_growth_mm, (0.4, 0.5)),
]


@pytest.mark.parametrize(("function", "arguments"), LEVEL_1)
def test_level_1_scalars_equal_arrays_bit_for_bit(function, arguments):
    scalar = function(*arguments)
    scaled = [np.array([value, value * 1.01, value * 0.9]) for value in arguments]
    array = function(*scaled)
    assert array.shape == (3,)
    assert array[0] == scalar
    for i in range(3):
        assert array[i] == function(*(float(column[i]) for column in scaled))
    grid = function(scaled[0][:, None], *[column[None, :] for column in scaled[1:]])
    assert grid.shape == ((3, 1) if len(arguments) == 1 else (3, 3))


@pytest.mark.parametrize(("function", "arguments"), LEVEL_1)
def test_level_1_refuses_bad_elements_and_leaves_no_nan_unmarked(function, arguments):
    first = np.array([arguments[0], -1.0, math.nan])
    with pytest.raises(hn.DomainError, match="2 of 3"):
        function(first, *arguments[1:])
    values, codes = function(first, *arguments[1:], on_error="status")
    assert not math.isnan(values[0])
    assert list(np.isnan(values)) == [False, True, True]
    assert list(codes != 0) == [False, True, True]
    with pytest.raises(hn.DomainError):
        function(-1.0, *arguments[1:])


@pytest.mark.parametrize(("function", "arguments"), LEVEL_1)
def test_level_1_docstrings_name_each_argument_with_its_range(function, arguments):
    doc = function.__doc__
    for section in ("Parameters\n----------\n", "Returns\n-------\n", "Raises\n------\n"):
        assert doc.count(section) == 1
    assert doc.count(" : float or array_like\n    Finite and ") == len(arguments)


def test_columns_equal_the_answers_one_by_one():
    diameters = np.linspace(9.0, 40.0, 60)
    options = {"pattern": "straight", "tolerance_class": "I", "wheel": "3/4 in", "width": "12 mm"}
    done = batch.knurl_blank({"diameter_mm": diameters}, pitch="96 DP", columns="all", **options)
    assert not done["status"].any()
    for row, diameter in enumerate(diameters):
        flat = hn.knurl_blank(hn.mm(diameter), "96 DP", **options).to_dict()
        for name, column in done.items():
            if column.dtype == float:
                assert column[row] == flat[name] or (np.isnan(column[row]) and flat[name] is None), name
        assert sorted(filter(None, done["told"][row].split("; "))) == sorted(flat["notes"] + flat["cautions"])


def test_a_failed_row_holds_nan_and_an_ok_row_none():
    done = batch.knurl_blank({"diameter_mm": [20.0, -1.0, math.nan, 0.1]}, pitch="RGE 0.8")
    assert done["status"].tolist() == [0, 2, 1, 2]  # there, out of range, not finite, out of range
    for name, column in done.items():
        if column.dtype == float:
            assert np.isnan(column[1:]).all(), name
    assert np.isfinite([done[name][0] for name in ("teeth", "blank_diameter_mm", "finished_diameter_mm")]).all()
    assert "diameter must be > 0" in done["reason"][1]


def test_the_answer_is_in_the_first_line_in_the_unit_given():
    blank = hn.knurl_blank("1 in", "21 TPI")
    first = str(blank).splitlines()[0]
    assert first == "blank 0.9976 in: 57 teeth, 21 TPI, diamond raised (assumed)"
    metric = hn.knurl_blank("20 mm", "RGE 08 - 105 DIN 82", finished=True)
    assert str(metric).startswith("blank 19.701 mm: 67 teeth, RGE 08 - 105 DIN 82, diamond raised\n")
    assert "<strong>blank 19.701 mm" in metric._repr_html_()


def test_the_record_is_immutable_flat_and_says_what_it_rests_on():
    blank = hn.knurl_blank("1/2 in", "96 DP", pattern="straight", wheel="3/4 in", tolerance_class="I", width="1 in")
    with pytest.raises(dataclasses.FrozenInstanceError):
        blank.teeth = 3
    flat = blank.to_dict()
    assert flat["cautions"] == ["knurl_wide_band"]
    assert flat["wheel_teeth"] == 72
    units = {name for name in flat if name.endswith(("_mm", "_deg", "teeth"))}
    plain = {"pitch", "pattern", "process", "finished_wanted", "unit", "assumed", "notes", "cautions", "given_tracks"}
    assert set(flat) == units | plain
    kinds = {item.kind for item in blank.evidence}
    assert {"handbook", "memory"} <= kinds
    # every figure that is not the question itself says what it rests on
    figures = {name for name in units if flat[name] is not None} - {"given_diameter_mm"}
    assert {item.figure for item in blank.evidence} == figures
    (lower,) = (item for item in blank.evidence if item.figure == "finished_min_mm")
    assert lower.kind == "handbook"
    third = hn.knurl_blank("1/2 in", "96 DP", pattern="straight", tolerance_class="III")
    (lower,) = (item for item in third.evidence if item.figure == "finished_min_mm")
    assert lower.kind == "memory"
    assert all(item.figure in flat for item in blank.evidence)
    assert str(blank.told[0]).startswith("the knurled band")


def test_every_caution_has_its_words():
    asked = [
        ("20 mm", "2 mm", {}, "knurl_stray_pitch"),
        ("3 mm", "1 mm", {}, "knurl_few_teeth"),
        ("20 mm", "1 mm", {"wheel": "20 mm, 59 teeth"}, "knurl_wheel_off_pitch"),
        ("1/2 in", "64 DP", {}, "knurl_coarse_diametral"),
        ("2 in", "96 DP", {}, "knurl_large_diametral"),
        ("20 mm", "1 mm", {"width": "21 mm"}, "knurl_wide_band"),
        (
            "0.5 in",
            "96 DP",
            {"finished": True, "tolerance_class": 3, "pattern": "straight", "prefer": "above"},
            "knurl_off_finished",
        ),
    ]
    of_jobs = {"knurl_late"}
    assert {code for *_, code in asked} == {name for name in CAUTIONS if name.startswith("knurl_")} - of_jobs
    for diameter, pitch, options, code in asked:
        blank = hn.knurl_blank(diameter, pitch, **options)
        assert code in [caution.code for caution in blank.told], code
        assert CAUTIONS[code][1] in blank.why()


@pytest.mark.parametrize(
    ("call", "error", "words"),
    [
        (lambda: hn.knurl_blank(25.4, "96 DP"), hn.UnitError, r"diameter: 25\.4 has no unit"),
        (lambda: hn.knurl_blank("1 in", 96), hn.UnitError, "96 DP"),
        (lambda: hn.knurl_blank("1 in", "96"), hn.UnitError, "21 TPI"),
        (lambda: hn.knurl_blank("1 in", "96 PD"), hn.DesignationError, "96 DP"),
        (lambda: hn.knurl_blank("1 in", "96 DP", pattern="diamnd"), hn.DesignationError, "diamond"),
        (lambda: hn.knurl_blank("1 in", "RGE 07"), hn.NotTabulatedError, "05, 06, 08"),
        (lambda: hn.knurl_blank("1 in", "RGE 08", pattern="straight"), hn.DomainError, "contradicts"),
        (lambda: hn.knurl_blank("1 in", "RGE 08 - 105", profile_deg=90.0), hn.DomainError, "contradicts"),
        (lambda: hn.knurl_blank("1 in", "96 DP", tolerance_class=4), hn.DomainError, "1, 2 or 3"),
        (lambda: hn.knurl_blank("1 in", "96 DP", tolerance_class=2), hn.DomainError, "straight"),
        (lambda: hn.knurl_blank("1 in", "1 mm", tolerance_class=1), hn.DomainError, "64, 96, 128, 160"),
        (lambda: hn.knurl_blank("1 in", "1 mm", wheel="15 mm"), hn.NotTabulatedError, "leaning wheel"),
        (lambda: hn.knurl_blank("1 in", "1 mm", pattern="straight", wheel="16 mm"), hn.NotTabulatedError, "15 mm, 20"),
        (lambda: hn.knurl_blank("1 in", "21 TPI", wheel="3/4 in"), hn.NotTabulatedError, "its teeth"),
        (lambda: hn.knurl_blank("1 in", "96 DP", process="roll"), hn.DomainError, "'form', 'cut'"),
        (lambda: hn.knurl_blank("1 in", "96 DP", prefer="up"), hn.DomainError, "'nearest', 'below', 'above'"),
        (lambda: hn.knurl_blank("1 in", "96 DP", process="cut", pattern="RGV"), hn.DomainError, "form"),
        (lambda: hn.knurl_blank("1 in", "96 DP", pattern="straight", helix_deg=30.0), hn.DomainError, "lean"),
        (lambda: hn.knurl_blank("0.5 mm", "96 DP"), hn.DomainError, "finer pitch"),
        (lambda: hn.knurl_blank("1 in", "96 DP", profile_deg=math.nan), hn.DomainError, "profile_deg"),
    ],
)
def test_errors_name_what_is_wrong_and_the_way_out(call, error, words):
    with pytest.raises(error, match=words):
        call()


def test_a_wheel_may_be_text_a_pair_or_a_standard_size():
    by_text = hn.knurl_blank("1/2 in", "20 TPI", pattern="straight", wheel="0.750 in, 47 teeth")
    by_pair = hn.knurl_blank("1/2 in", "20 TPI", pattern="straight", wheel=("0.750 in", 47))
    assert by_text.to_dict() == by_pair.to_dict()
    standard = hn.knurl_blank("20 mm", "1 mm", pattern="straight", wheel="15 mm")
    assert standard.wheel_teeth == 48


def test_a_shops_own_row_is_used_and_named():
    from halfnut.core import catalogue

    text = (
        "# table: wheels of this shop\n# S1: shop | counted\n"
        "diameter_mm,pitch_mm,teeth,bore_mm,source\n15,1.0,47,4,S1\n"
    )
    before = catalogue.active()
    catalogue.activate(before.with_table("knurls/metric_wheels", text, "own.csv"))
    try:
        blank = hn.knurl_blank("20 mm", "1 mm", pattern="straight", wheel="15 mm")
    finally:
        catalogue.activate(before)
    assert blank.wheel_teeth == 47
    assert "shop" in {item.kind for item in blank.evidence}
