"""Holes: published figures, the nearest drill by trying all, the records and the command a person reads."""

import csv
import io
import json
import math
import sys
from collections import Counter
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

import halfnut as hn
from halfnut import cli, cutting, threads
from halfnut._core import parse_length
from halfnut.core import catalogue, shop_tables

TESTS = Path(__file__).parents[2]
sys.path.insert(0, str(TESTS / "oracles"))
import tapped_holes  # noqa: E402

THREADS = ["M3", "M6", "M6x0.75", "M10", "M24x2", "#4-40 UNC", "1/4-20 UNC", "3/8-24 UNF", "1-8 UNC"]


def rows(name):
    text = (TESTS / "reference" / "threads" / f"{name}.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(io.StringIO("".join(x for x in text.splitlines(True) if not x.startswith("# ")))))


def drill_in(text):
    """A drill as the tables write it, in."""
    name = f"letter {text}" if text.isalpha() else text if text.startswith("#") else f"{text} in"
    return parse_length(name, catalogue.active()).inch


def test_worked_figures():
    counted = 0
    for row in rows("hole_formulas"):
        unit = 25.4 if row["unit"] == "in" else 1.0
        match row["quantity"]:
            case "tapping_hole":
                sizes = (float(row["diameter"]) * unit, float(row["pitch"]) * unit, float(row["percent"]))
                ours = threads.tapping_hole_mm(*sizes) / unit
            case "percent":
                ours = threads.thread_percent(float(row["diameter"]), float(row["pitch"]), float(row["hole"]))
            case "point_share":
                ours = cutting.point_length_mm(1.0, float(row["angle_deg"]))
            case "countersink_share":
                ours = cutting.countersink_depth_mm(2.0, 1.0, float(row["angle_deg"]))
        places = len(row["printed"].partition(".")[2])
        assert abs(ours - float(row["printed"])) <= 0.5 * 10**-places + 1e-9, row
        counted += 1
    assert counted == 8


def test_limits_by_engagement_and_their_oracle():
    counted = 0
    for row in rows("hole_limits"):
        thread = hn.thread(row["thread"])
        diameters = float(row["engagement_diameters"])
        hole = hn.tapping_hole(thread, engagement=hn.inch(diameters * thread.diameter_in))
        limits = hn.limits(thread)
        band = tapped_holes.band(str(limits.minor_min), str(limits.minor_max), diameters)
        for column, ours, other in zip(
            ("hole_min_in", "hole_max_in"), (hole.hole_min_mm, hole.hole_max_mm), band, strict=True
        ):
            assert ours / 25.4 == pytest.approx(float(other), abs=1e-9)
            if row[column]:
                off = ours / 25.4 - float(row[column])
                cut_off = row["thread"].endswith("3B")  # printed without rounding
                assert (-1e-6 if cut_off else -0.0005 - 1e-9) <= off <= (0.001 if cut_off else 0.0005) + 1e-9, row
                counted += 1
    assert counted == 15


def test_clearance_holes():
    counted = Counter()
    for row in rows("clearance_holes"):
        if row["excepted"] == "row":
            counted["excepted"] += 1
            continue
        size = row["size"]
        series = {"#0": "80 UNF", "#1": "64 UNC"}
        for fit in ("close", "normal", "loose"):
            if fit in row["excepted"]:
                counted["excepted"] += 1
                continue
            if row["unit"] == "mm":
                thread = f"{size}x{0.2 if float(size[1:]) < 3 else 0.5}-6H"
                assert hn.clearance_hole(thread, fit).hole_mm == float(row[fit]), row
            else:
                hole = hn.clearance_hole(f"{size}-{series.get(size, '32 UN')}", fit)
                assert abs(hole.hole_mm / 25.4 - drill_in(row[fit])) <= 0.0005 + 1e-9, row
                assert drill_in(hole.drill) == drill_in(row[fit]), row
            counted[row["unit"]] += 1
    assert counted == {"mm": 144, "in": 66, "excepted": 24}


@pytest.mark.parametrize("text", THREADS)
@given(st.floats(min_value=40, max_value=83), st.sampled_from(["metric", "fractional", "number", "inch"]))
def test_the_drill_is_the_nearest_and_its_percent_honest(text, percent, drills):
    thread = hn.thread(text)
    held = threads.drill_set(drills)
    if held.diameters_mm[0] >= thread.diameter_mm:
        return
    if held.diameters_mm[-1] < tapped_holes.hole(thread.diameter_mm, thread.pitch_mm, 100):
        with pytest.raises(hn.NotTabulatedError, match="bore or ream"):
            hn.tapping_hole(thread, percent=percent, drills=drills)
        return
    hole = hn.tapping_hole(thread, percent=percent, drills=drills)
    place = tapped_holes.nearest(
        held.diameters_mm, hole.wanted_mm, hole.hole_min_mm, hole.hole_max_mm, thread.diameter_mm
    )
    assert hole.drill == held.names[place]
    wanted = tapped_holes.hole(thread.diameter_mm, thread.pitch_mm, percent)
    assert hole.wanted_mm == pytest.approx(float(wanted), abs=1e-12)
    reached = tapped_holes.percent(thread.diameter_mm, thread.pitch_mm, held.diameters_mm[place])
    assert hole.percent == pytest.approx(float(reached), abs=1e-9)


@given(
    st.floats(min_value=1, max_value=100),
    st.floats(min_value=0.2, max_value=0.5),
    st.floats(min_value=1, max_value=99),
)
def test_more_percent_is_a_smaller_hole(diameter, share, percent):
    pitch = share * diameter / 2
    small, large = (threads.tapping_hole_mm(diameter, pitch, p) for p in (percent + 1, percent))
    assert small < large
    assert threads.thread_percent(diameter, pitch, small) == pytest.approx(percent + 1, rel=1e-9)
    formed = threads.forming_hole_mm(diameter, pitch, percent)
    assert formed > large
    assert threads.forming_percent(diameter, pitch, formed) == pytest.approx(percent, rel=1e-9)


@given(
    st.floats(min_value=0.5, max_value=100),
    st.floats(min_value=0.2, max_value=6),
    st.floats(min_value=0, max_value=9),
    st.just(0.0) | st.floats(min_value=1e-6, max_value=10),
)
def test_blind_depth_grows_with_the_chamfer_and_inverts(full, pitch, chamfer, room):
    depth = threads.blind_drill_depth_mm(full, pitch, chamfer, room)
    assert threads.blind_drill_depth_mm(full, pitch, chamfer + 1, room) == pytest.approx(depth + pitch)
    assert threads.full_thread_mm(depth, pitch, chamfer, room) == pytest.approx(full, abs=1e-9)


def test_leads_in_order_of_depth():
    depths = [
        hn.blind_hole("M6", full_thread="12 mm", lead=lead).drill_depth_mm for lead in ("bottoming", "plug", "taper")
    ]
    assert depths == [16.0, 19.0, 24.0]
    back = hn.blind_hole("M6", drilled="19 mm")
    assert back.full_thread_mm == 12.0
    assert back.total_depth_mm == pytest.approx(19 + 2.5 / math.tan(math.radians(59)))


@pytest.mark.parametrize(
    ("name", "columns"),
    [
        ("tapping_hole_mm", (6.0, 1.0, 75.0)),
        ("thread_percent", (6.0, 1.0, 5.0)),
        ("forming_hole_mm", (6.0, 1.0, 65.0)),
        ("forming_percent", (6.0, 1.0, 5.5)),
        ("blind_drill_depth_mm", (12.0, 1.0, 5.0, 2.0)),
        ("full_thread_mm", (40.0, 1.0, 5.0, 2.0)),
        ("countersink_diameter_mm", (3.0, 6.0, 90.0)),
        ("strip_ratio", (5.0, 4.9, 1.0, 5.2)),
        ("hole_for_strip_ratio_mm", (0.9, 4.9, 1.0, 5.2)),
    ],
)
def test_arrays_are_their_scalars(name, columns):
    function = getattr(threads, name)
    spread = [np.linspace(0.97, 1.0, 7) * value for value in columns]
    values, codes = function(*spread, on_error="status")
    assert not codes.any()
    assert [function(*(float(x) for x in each)) for each in zip(*spread, strict=True)] == values.tolist()
    spread[0][3] = np.nan
    values, codes = function(*spread, on_error="status")
    assert codes.tolist() == [0, 0, 0, 1, 0, 0, 0]
    assert np.isnan(values[3])
    with pytest.raises(hn.DomainError, match="index 3"):
        function(*spread)


TAPER_ONLY = ("ream_drill_mm", "hole_at_face_mm", "hole_at_end_mm", "taper_on_diameter", "hand_turns")


def test_columns_are_the_scalar_answers_and_failures_carry_a_status():
    texts = [*THREADS, "M99x", "M6"]
    percent = np.full(len(texts), 70.0)
    percent[-1] = 120.0
    columns = hn.batch.ask("tapping_hole", {"thread": texts, "percent": percent})
    for row, text in enumerate(THREADS):
        hole = hn.tapping_hole(text, percent=70)
        assert columns["drill"][row] == hole.drill
        for name in ("wanted_mm", "hole_mm", "percent", "strength_ratio", "minor_max_mm", "usual_oversize_mm"):
            assert columns[name][row] == getattr(hole, name), (text, name)
    assert columns["status"][: len(THREADS)].tolist() == [0] * len(THREADS)
    assert columns["status"][-2:].tolist() == [6, 2]
    for name, column in columns.items():
        if column.dtype == np.float64 and name not in {"status", *TAPER_ONLY}:
            assert np.isnan(column[-2:]).all(), name
            assert np.isfinite(column[:-2]).all() or name.startswith(("below", "above")), name


def test_a_shop_s_own_drills_come_first(tmp_path):
    (tmp_path / "shop.toml").write_text(
        """[[threads.drill_sets]]
set_name = "shop"
first = 5.0
unit = "mm"
name = "the 5 mm"
source = "drill rack"

[[threads.drill_sets]]
set_name = "shop"
first = 5.2
unit = "mm"
source = "drill rack"
""",
        encoding="utf-8",
    )
    before = catalogue.active()
    catalogue.activate(shop_tables.folder_shop(tmp_path)[0])
    try:
        hole = hn.tapping_hole("M6")
        assert hole.drill == "the 5 mm"
        assert any(item.kind == "shop" for item in hole.evidence if item.figure == "drill_mm")
        assert hn.tapping_hole("M6", percent=60).drill == "5.2 mm"
    finally:
        catalogue.activate(before)
    assert hn.tapping_hole("M6", drills=["#8", "13/64 in"]).drill == "#8"


def test_strength_oversize_and_forming():
    kept = hn.tapping_hole("M10", strength=0.85)
    assert 0.8 < kept.strength_ratio < 0.9
    assert kept.hole_mm > hn.tapping_hole("M10", strength=1.0).hole_mm
    usual = hn.tapping_hole("1/4-20 UNC", oversize="usual")
    assert usual.hole_mm > usual.drill_mm
    assert usual.oversize_mm == usual.usual_oversize_mm
    formed = hn.tapping_hole("M6", tap="form")
    assert 5.5 <= formed.drill_mm <= 5.6
    assert "hole_forming" in {each.code for each in formed.told}
    assert "hole_by_analogy" in {each.code for each in hn.tapping_hole("M6", engagement="3 mm").notes}


def test_seats():
    assert hn.screw_seat("1/4-20 UNC").seat_diameter_mm == pytest.approx(0.4375 * 25.4)
    sink = hn.screw_seat("1/4-20 UNC", head="flat 100")
    assert sink.angle_deg == 100
    assert sink.depth_mm == pytest.approx((0.507 - 0.281) * 25.4 / 2 / math.tan(math.radians(50)))
    deep = hn.screw_seat("M6", head="flat", recess="0.2 mm")
    assert (deep.seat_diameter_mm, deep.depth_mm) == (pytest.approx(13.0), pytest.approx(3.2))


@pytest.mark.parametrize(
    ("ask", "match"),
    [
        (lambda: hn.tapping_hole("M6", percent=120), "percent must be above 0 and at most 100 %, got 120"),
        (lambda: hn.tapping_hole("M6", percent=75, strength=0.9), "give one of them"),
        (lambda: hn.tapping_hole("M6", engagement="20 mm"), "at most 3 diameters, 18 mm for M6"),
        (lambda: hn.tapping_hole("M6", drills="metrik"), "did you mean 'metric'"),
        (lambda: hn.tapping_hole("M6", drills=["10 mm"]), "its smallest is 10 mm"),
        (lambda: hn.tapping_hole("M6", engagement=6), "bare number"),
        (lambda: hn.blind_hole("M6"), "either the length of full thread or the depth"),
        (lambda: hn.blind_hole("M6", full_thread="12 mm", lead="plugs"), "did you mean 'plug'"),
        (lambda: hn.blind_hole("M6", full_thread="12 mm", thickness="20 mm"), "full thread must be below 11.5 mm"),
        (lambda: hn.clearance_hole("M6.5x1"), "nearest 6 and 7 mm"),
        (lambda: hn.clearance_hole("M6", "snug"), "fine, medium or coarse"),
        (lambda: hn.screw_seat("M6", head="oval"), "there are flat, flat socket, socket"),
        (lambda: hn.screw_seat("M7"), "nearest 6 and 8 mm"),
    ],
)
def test_errors_name_the_nearest_valid_choice(ask, match):
    with pytest.raises(hn.Error, match=match):
        ask()


def test_every_figure_that_is_computed_has_its_evidence():
    hole = hn.tapping_hole("1/4-20 UNC", engagement="0.25 in")
    named = {item.figure for item in hole.evidence}
    assert named >= {"wanted_mm", "drill_mm", "percent", "strength_ratio", "hole_max_mm", "minor_min_mm"}
    assert all(item.source and item.kind for item in hole.evidence)
    for record in (hn.blind_hole("M6", full_thread="12 mm"), hn.clearance_hole("M6"), hn.screw_seat("M6", head="flat")):
        assert record.evidence
        assert str(record)
        assert record._repr_html_()


def test_the_commands():
    def run(*args):
        return CliRunner().invoke(cli.command, list(args))

    assert run("tapping-hole", "M6").output.startswith("M6x1-6H: drill 5 mm: 77 % of thread")
    assert "19.000 mm" in run("blind-hole", "M6", "--full-thread", "12mm").output
    assert json.loads(run("clearance-hole", "1/4-20 UNC", "close", "--json").output)["drill"] == "17/64"
    assert "countersink 90 deg" in run("screw-seat", "M6", "--head", "flat").output
    assert "counterbore" in run("screw-seat", "M6").output
