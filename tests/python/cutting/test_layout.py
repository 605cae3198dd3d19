"""Setting out: printed rows of bolt circles, chords, sine bars, dividing and tapers, and what is asked of dials."""

import csv
import math
import re
from pathlib import Path

import pytest

import halfnut as hn

ROWS = {
    row["id"]: row
    for row in csv.DictReader(
        (Path(__file__).resolve().parents[2] / "reference" / "job" / "layout_check.csv").read_text("utf-8").splitlines()
    )
}
USUAL = "15 16 17 18 19 20, 21 23 27 29 31 33, 37 39 41 43 47 49"
ONE_PLATE = "24 25 28 30 34 37 38 39 41 42 43, 46 47 49 51 53 54 57 58 59 62 66"


def of(area):
    found = [row for row in ROWS.values() if row["area"] == area]
    assert found
    return [pytest.param(row, id=row["id"]) for row in found]


def given(row):
    return dict(each.strip().split("=", 1) for each in row["given"].split(";"))


def printed_holes(row):
    return {
        int(number): (float(x), float(y))
        for number, x, y in re.findall(r"h(\d+)=\(([-\d.]+),([-\d.]+)\)", row["expected"])
    }


@pytest.mark.parametrize("row", of("hole circle"))
def test_bolt_circles_as_printed(row):
    asked = given(row)
    unit = "in"
    count = int(asked["holes"])
    # the print of the handbook has y downwards and counts anticlockwise as seen: our +Y up, then y is turned round
    down = "y=down" in row["given"]
    first = 90.0 + (180.0 / count if "straddling" in asked["first"] else 0.0)
    corner = float(asked["dia"]) / 2 if "corner" in asked.get("origin", "") else 0.0
    found = hn.positions(
        "circle",
        holes=count,
        diameter=f"{asked['dia']} {unit}",
        angle_deg=first,
        clockwise="clockwise" in asked["first"],
        x=f"{corner} in",
        y=f"-{corner} in",
    )
    wanted = printed_holes(row)
    assert len(wanted) == found.holes == count
    digits = len(row["expected"].split(",")[0].split(".")[1])
    for place in found.places:
        x, y = place.x_mm / 25.4, place.y_mm / 25.4
        shown = (round(x, digits), round(-y if down else y, digits))
        assert shown == pytest.approx(wanted[place.hole], abs=1.01 * 10**-digits if corner else 1e-9), place


@pytest.mark.parametrize("row", of("chord"))
def test_chords_as_printed(row):
    asked = given(row)
    found = hn.positions("circle", holes=int(asked["holes"]), diameter=f"{asked['dia']} in")
    wanted = float(re.search(r"chord=([\d.]+)", row["expected"])[1])
    if "PRINT ERROR" in row["note"]:
        assert found.chord_mm / 25.4 == pytest.approx(math.sin(math.pi / int(asked["holes"])), abs=5e-5)
        assert round(found.chord_mm / 25.4, 4) != wanted
    else:
        assert round(found.chord_mm / 25.4, 4) == wanted


@pytest.mark.parametrize("row", of("sine bar"))
def test_sine_bar_stacks_as_printed(row):
    asked = given(row)
    unit = row["unit"]
    bar = asked.get("length", asked.get("length_in"))
    found = hn.sine_bar(asked["angle_deg"], bar=f"{bar} {unit}")
    scale = 25.4 if unit == "in" else 1.0
    wanted = row["expected"].removeprefix("height=")
    assert f"{found.stack_mm / scale:.{len(wanted.split('.')[1])}f}" == wanted
    back = hn.sine_bar(f"{found.stack_mm / scale!r} {unit}", bar=f"{bar} {unit}")
    assert back.angle_deg == pytest.approx(float(asked["angle_deg"]), abs=1e-9)


def moves(found):
    return [(each.turns, each.holes, each.circle) for each in (found.move, *found.also)]


def printed_moves(text):
    """Of "1 turns + 9 of 21, 21 of 49" each with its turns."""
    turns = 0
    out = []
    for part in re.split(r", (?:or )?", text):
        if (whole := re.match(r"(\d+) turns?", part)) is not None:
            turns = int(whole[1])
        holes, circle = re.search(r"(\d+) of (\d+)", part).groups()
        out.append((turns, int(holes), int(circle)))
    return out


@pytest.mark.parametrize("row", of("indexing 40:1"))
def test_plain_indexing_as_printed(row):
    text, asked = row["given"], given(row)
    if "divisions" in asked:
        found = hn.divide(int(asked["divisions"]), plates=USUAL, ratio=40)
        if "not by plain" in row["expected"] or "no plate" in row["expected"]:
            assert not found.exact
            assert found.crank_turns == pytest.approx(40 / int(asked["divisions"]))
            assert "divide_inexact" in {each.code for each in found.cautions}
            return
    else:
        number = re.search(r"angle(?:_deg)?=([\d.]+)(?: deg (\d+) min)?", text)
        degrees = float(re.search(r"angle_min=(\d+)", text)[1]) / 60 if number is None else float(number[1])
        degrees += 0 if number is None or number[2] is None else int(number[2]) / 60
        plates = asked.get("circle", "27")
        found = hn.divide(f"{degrees!r} deg", plates=plates, ratio=40)
    assert found.exact
    assert found.move.error_deg == 0.0
    # a print may name some of the circles only
    assert set(printed_moves(row["expected"])) <= set(moves(found))


@pytest.mark.parametrize("row", of("two-circle indexing"))
def test_two_circle_movements_are_at_least_as_near_as_those_printed(row):
    fraction = float(row["given"].split("=")[1])
    for text, plates in zip(row["expected"].split(" or "), (USUAL, ONE_PLATE), strict=True):
        a, b, sign, c, d = re.fullmatch(r"(\d+)/(\d+) ([+-]) (\d+)/(\d+)", text).groups()
        printed = int(a) / int(b) + (1 if sign == "+" else -1) * int(c) / int(d)
        assert abs(printed - fraction) <= 0.00005
        found = hn.divide(f"{fraction * 360 / 40!r} deg", plates=plates, ratio=40)
        assert not found.exact
        best = found.two_circles[0]
        # the printed one lies among those that are tried: none before it is farther off
        assert abs(best.error_deg) * 40 / 360 <= abs(printed - fraction) + 1e-9
        alone = hn.divide(f"{fraction * 360 / 40!r} deg", plates=f"{b} {d}", ratio=40)
        tried = {(m.holes, m.circle, m.other_holes, m.other_circle) for m in alone.two_circles}
        step = int(c) if sign == "+" else -int(c)
        assert {(int(a), int(b), step, int(d)), (step, int(d), int(a), int(b))} & tried


@pytest.mark.parametrize("row", of("tailstock offset"))
def test_tailstock_offsets_as_printed(row):
    asked = given(row)
    whole = float(asked["total_length"])
    if "taper_per_ft" in asked:
        large, length = 2.0 * whole / 12.0 * float(asked["taper_per_ft"]) + 1.0, whole
        small = large - float(asked["taper_per_ft"]) * length / 12.0
    else:
        large, small, length = float(asked["D"]), float(asked["d"]), float(asked["taper_length"])
    found = hn.taper("1018", f"{large!r} in", f"{small!r} in", f"{length!r} in", between_centres=f"{whole!r} in")
    wanted = row["expected"].removeprefix("offset=")
    assert f"{found.setover_mm / 25.4:.{len(wanted.split('.')[1])}f}" == wanted


@pytest.mark.parametrize("row", of("taper from angle"))
def test_tapers_of_angles_as_printed(row):
    # a print of 1902, to the last place but one: it lays its five places out from a table of four
    angle = float(given(row)["included_deg"])
    wanted = float(re.search(r"per_inch=([\d.]+)", row["expected"])[1])
    rise = 2 * math.tan(math.radians(angle / 2))
    found = hn.taper("1018", f"{1 + rise!r} in", "1 in", "1 in")
    assert found.taper_per_foot_in / 12 == pytest.approx(wanted, abs=2e-5)
    assert 2 * found.angle_deg == pytest.approx(angle, abs=1e-9)


def test_every_row_is_asked_that_is_a_question():
    asked = {
        "hole circle",
        "chord",
        "sine bar",
        "indexing 40:1",
        "two-circle indexing",
        "tailstock offset",
        "taper from angle",
    }
    # plates are data; rolls and discs are measured, and no question of setting out
    assert {row["area"] for row in ROWS.values()} - asked == {
        "plates",
        "dovetail over rolls",
        "taper over two discs",
        "taper plug over rolls",
    }


# ---- dials ------------------------------------------------------------------------------------------------


def shown_mm(slide, turns, line):
    return turns * slide.travel_per_turn_mm + line * slide.graduation_mm


@pytest.mark.parametrize("approach", [("plus", "plus"), ("minus", "plus"), ("minus", "minus")])
def test_readings_are_places_and_every_one_is_come_to_from_its_side(approach):
    mill = hn.milling_machine("bench-mill").to_dict()
    for name, side in zip("xy", approach, strict=True):
        mill["slides"][name]["approach"] = side
    machine = hn.milling_machine("bench-mill").replace(slides=mill["slides"])
    found = hn.positions("circle", holes=7, diameter="81.3 mm", x="10 mm", y="-20 mm", angle_deg=11, machine=machine)
    assert sorted(place.hole for place in found.places) == list(range(1, 8))
    sign = {"plus": 1, "minus": -1}
    before = None
    for place in found.places:
        for axis, side in zip("xy", approach, strict=True):
            slide = machine.core.slide(axis)
            value = getattr(place, f"{axis}_mm")
            read = shown_mm(slide, getattr(place, f"{axis}_turns"), getattr(place, f"{axis}_line"))
            assert abs(read - value) <= slide.graduation_mm / 2 + 1e-9
            assert 0 <= getattr(place, f"{axis}_line") < slide.lines_a_turn
            if before is not None:
                gone = sign[side] * (value - getattr(before, f"{axis}_mm"))
                assert getattr(place, f"back_{axis}") == (gone < -1e-6)
        before = place


def test_no_order_goes_back_less_along_one_slide():
    found = hn.positions("grid", holes=5, step="10 mm", rows=2, row_step="25 mm")
    assert sum(place.back_x + place.back_y for place in found.places) == 1
    tall = hn.positions("grid", holes=2, step="10 mm", rows=5, row_step="25 mm")
    assert sum(place.back_x + place.back_y for place in tall.places) == 1


def test_a_readout_shows_the_place_itself():
    slides = hn.milling_machine("bench-mill").to_dict()["slides"]
    for name in "xy":
        slides[name]["readout"] = "0.005 mm"
    machine = hn.milling_machine("bench-mill").replace(slides=slides)
    place = hn.positions("list", at=[("33.3333 mm", "-1.2344 mm")], machine=machine).places[0]
    assert (place.x_reading, place.y_reading) == ("33.335 mm", "-1.235 mm")
    assert place.x_turns is None


def test_divisions_from_the_start_do_not_add_up():
    found = hn.divide(127, diameter="100 mm")
    assert [step.division for step in found.steps] == list(range(1, 127))
    half_a_hole = 360 / 40 / 49 / 2
    for step in found.steps:
        turned = (step.turns + step.holes / 49) * 9
        assert turned - step.division * 360 / 127 == pytest.approx(step.error_deg, abs=1e-9)
        assert abs(step.error_deg) <= half_a_hole + 1e-12
    assert found.error_mm <= math.pi * 100 * half_a_hole / 360
    exact = hn.divide(51).two_circles[0]
    assert exact.error_deg == 0.0
    part = exact.holes / exact.circle + exact.other_holes / exact.other_circle
    assert part == pytest.approx(40 / 51, abs=1e-12)


def test_the_machine_says_its_head():
    machine = hn.milling_machine("bench-mill").replace(dividing={"ratio": 60, "plates": "21 27", "direct": 24})
    found = hn.divide(8, machine=machine)
    assert (found.ratio, found.direct_step, found.direct_holes) == (60, 3, 24)
    assert not found.exact
    assert hn.divide(9, machine=machine).move.turns == 6
    odd = hn.milling_machine("bench-mill").replace(dividing={"plates": "15; 16"})
    assert any("15 16 17" in text for _, text, _ in odd.core.problems())


def test_polygons():
    hexagon = hn.polygon(6, across_flats="19 mm", bar="25 mm")
    assert hexagon.across_corners_mm == pytest.approx(19 / math.cos(math.pi / 6))
    assert (hexagon.depth_mm, hexagon.over_first_mm, hexagon.measure_mm) == pytest.approx((3.0, 22.0, 19.0))
    assert hexagon.flat_mm == pytest.approx(19 * math.tan(math.pi / 6))
    square = hn.polygon(4, bar="20 mm")
    assert square.across_flats_mm == pytest.approx(20 / math.sqrt(2))
    triangle = hn.polygon(3, across_flats="12 mm", bar="20 mm")
    assert triangle.measure_mm == pytest.approx(6 + 10)
    assert "corners_round" in {each.code for each in triangle.notes}
    two = hn.polygon(2, across_flats="10 mm", bar="12 mm")
    assert two.across_corners_mm is None
    assert two.flat_mm == pytest.approx(math.sqrt(44))
    assert (two.division.move.turns, two.division.move.holes) == (20, 0)


def test_gauge_blocks_make_the_stack():
    for angle in (1.0, 5.5, 12.5, 27.0, 33.33, 45.0, 59.9):
        for unit, place in (("in", 25.4e-4), ("mm", 1e-3)):
            found = hn.sine_bar(angle, bar="5 in" if unit == "in" else "100 mm")
            assert abs(found.set_mm - found.stack_mm) <= place / 2 + 1e-12
            if found.stack_mm < 0.3 * 25.4:  # fewer blocks make so little
                assert found.blocks_mm or "sine_low" in {each.code for each in found.notes}
                continue
            assert sum(found.blocks_mm) == pytest.approx(found.set_mm, abs=1e-9)
            assert len(set(found.blocks_mm)) == len(found.blocks_mm) <= 5


# ---- a hole for a screw -----------------------------------------------------------------------------------


def test_a_screw_hole_is_the_answers_of_its_parts():
    found = hn.screw_hole("6061-T6", "M6", thickness="12 mm", machine="bench-mill")
    clear, seat, tapped = hn.clearance_hole("M6"), hn.screw_seat("M6"), hn.tapping_hole("M6")
    assert (found.hole_mm, found.drill, found.tapping_drill) == (clear.hole_mm, clear.drill, tapped.drill)
    assert (found.seat_mm, found.seat_depth_mm) == (seat.seat_diameter_mm, seat.depth_mm)
    assert found.seat.operation == "counterbore"
    assert found.drills == (hn.drill("6061-T6", "6.6 mm", depth="12 mm", machine="bench-mill"),)
    assert found.spot == hn.spot("6061-T6", "7 mm", machine="bench-mill")
    flat = hn.screw_hole("5083", "1/4-20 UNC", head="flat", thickness="3/8 in")
    assert (flat.seat.operation, flat.seat_deg) == ("countersink", 82.0)
    assert hn.screw_hole("5083", "M6", head="none").seat is None


def test_a_wide_hole_has_a_pilot_but_not_in_brass():
    steel = hn.screw_hole("1018", "M20", head="none", thickness="30 mm")
    assert [each.diameter_mm for each in steel.drills] == [5.5, 22.0]
    assert steel.spot_mm == pytest.approx(5.9)
    assert all(each.peck_depths_mm for each in steel.drills[:1])
    assert len(hn.screw_hole("C36000", "M20", head="none").drills) == 1
    assert len(hn.screw_hole("1018", "M10", head="none").drills) == 1


@pytest.mark.parametrize(
    ("ask", "words"),
    [
        (lambda: hn.screw_hole("1018", "M6", thickness="3 mm"), "above 6 mm"),
        (lambda: hn.screw_hole("1018", "M6", head="button"), "socket"),
        (lambda: hn.positions("circle", holes=6), "circle needs holes and diameter"),
        (lambda: hn.positions("row", holes=6, step="1 in", diameter="2 in"), "a row has no diameter"),
        (lambda: hn.positions("list", at=["1 in"]), "x and y"),
        (
            lambda: hn.positions("list", at=["1 in, 1 in", "25.4 mm, 25.4 mm"]),
            "at puts holes 1 and 2 in the same place",
        ),
        (lambda: hn.positions("circel", holes=6), "circle"),
        (lambda: hn.positions("circle", holes=0, diameter="1 in"), "holes"),
        (lambda: hn.divide(1), "from 2 to 1000 divisions"),
        (lambda: hn.divide(6.5), "such as '13.5 deg', got 6.5"),
        (lambda: hn.divide(6, plates="15 16; 17"), "commas between plates"),
        (lambda: hn.divide(6, plates="015"), "commas between plates"),
        (lambda: hn.divide("400 deg"), "360"),
        (lambda: hn.polygon(6), "across_flats"),
        (lambda: hn.polygon(6, across_flats="20 mm", bar="18 mm"), "below bar, 18 mm, got 20 mm"),
        (lambda: hn.polygon(2, bar="18 mm"), "two flats"),
        (lambda: hn.sine_bar(91), "90"),
        (lambda: hn.sine_bar("100 mm", bar="100 mm"), "below bar"),
        (lambda: hn.sine_bar("27 lb"), "27 lb"),
    ],
)
def test_what_cannot_be_is_refused_in_words(ask, words):
    with pytest.raises(hn._core.Error, match=words):
        ask()
