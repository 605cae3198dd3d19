"""Lengths with limits, holes that go through, and features that must run true over another holding."""

import csv
import re
from pathlib import Path

import pytest

import halfnut as hn
from halfnut.sheet.papers import papers_of

ROOT = Path(__file__).resolve().parents[3]
RUN_OUTS = ROOT / "cpp" / "data" / "job" / "run_outs.csv"


def spacer(first, second, **part):
    operations = [{"do": "face", "off": "1.5 mm"} | first, {"do": "face", "end": "second", "off": "1.5 mm"} | second]
    return {
        "title": "a spacer",
        "machine": "metric-lathe",
        "parts": [
            {
                "name": "spacer",
                "quantity": 3,
                "alloy": "1018",
                "length": "50 mm",
                "stock": {"form": "bar", "diameter": "25 mm", "facing": "1.5 mm"},
                "operations": operations,
            }
            | part
        ],
    }


def inspected(plan):
    return [row[2:6] for paper in papers_of(plan) if paper.title == "Inspection list" for row in paper.rows]


@pytest.mark.parametrize(
    ("band", "measured", "tool", "least", "greatest", "coarse"),
    [
        ("0.2 mm", 1, "caliper", "49.90", "50.10", False),
        ("0.06 mm", 2, "micrometer", "49.97", "50.03", False),
        ("0.004 mm", 2, None, "49.998", "50.002", True),
    ],
)
def test_a_length_with_limits_is_closed_on_as_a_diameter_is(band, measured, tool, least, greatest, coarse):
    """A wide band: rough, measure, the rest; a narrow one halves what is left first."""
    planned = hn.plan(spacer({}, {"tolerance": band}))
    assert planned.failed == 0
    last = planned.parts[0].operations[1]
    passes = last.answer.passes
    assert sum(each.measure for each in passes) == measured
    if measured == 2:
        assert passes[-1].depth_mm == pytest.approx(passes[-2].depth_mm, abs=1e-9)
    ((what, with_, low, high),) = inspected(planned)
    assert (what, low, high) == ("length 50.00", least, greatest)
    assert tool is None or with_ == tool
    assert ("dial_coarse" in {each.code for each in last.cautions}) == coarse


def test_a_length_without_limits_is_not_inspected_and_one_that_no_face_comes_to_is_refused():
    assert inspected(hn.plan(spacer({}, {}))) == []
    early = hn.plan(spacer({"tolerance": "0.1 mm"}, {})).parts[0].operations[0]
    assert early.error.startswith("tolerance of a face is that of the length")


def test_the_card_says_how_the_length_is_closed_on(tmp_path):
    hn.plan(spacer({}, {"tolerance": "0.06 mm"})).write(tmp_path)
    card = (tmp_path / "spacer.html").read_text("utf-8")
    assert "Measure the length, take half of what is left, measure, take the rest" in card
    assert re.search(r"50\.03 */ *49\.97", re.sub("<[^>]+>", "", card))


HELD = {
    "collet": {"holding": "collets to 1-1/8 in"},
    "split ring": {"grips": "split ring"},
    "soft jaws": {"grips": "soft jaws"},
    "indicated": {"holding": "8 in four-jaw", "grips": "strip", "indicated": True},
}


@pytest.mark.parametrize("grip", HELD)
def test_what_runs_true_is_what_holding_it_anew_gives(grip):
    """Either side of the greatest run-out of the table; a chuck's own in its machine file stands before it."""
    rows = csv.DictReader(line for line in RUN_OUTS.read_text("utf-8").splitlines() if not line.startswith("#"))
    most = next(float(row["high_mm"]) for row in rows if row["grip"] == grip)
    start = {"holding": HELD[grip].get("holding", "6 in three-jaw")}

    def planned(within_mm):
        operations = [
            {"do": "face", "off": "0.5 mm", **start},
            {"do": "turn", "to": "22 mm", "length": "20 mm", "name": "seat", **start},
            {"do": "face", "end": "second", "off": "0.5 mm", **start, **HELD[grip]},
            {"do": "turn", "end": "second", "to": "20 mm", "length": "12 mm", "name": "tail", **start, **HELD[grip]},
        ]
        part = {"stock": {"form": "bar", "diameter": "25 mm", "facing": "0.5 mm"}, "machine": "gap-bed"}
        truth = [{"feature": "tail", "to": "seat", "within": f"{within_mm} mm"}]
        return hn.plan(spacer({}, {}, operations=operations, true_to=truth, **part))

    assert planned(most + 0.001).mistakes == ()
    (wrong,) = planned(most - 0.001).mistakes
    assert (wrong.code, wrong.operation, wrong.found_mm) == ("runs_out", 40, pytest.approx(most))


@pytest.mark.parametrize(("depth", "beyond"), [({}, True), ({"depth": "12 mm"}, True), ({"depth": "8 mm"}, False)])
def test_through_a_plate_reamer_and_tap_go_on_until_their_lead_is_clear(depth, beyond):
    """By 0.15 D of a reamer, five threads of a plug tap; a blind hole is only as deep as it is said."""
    places = {"places": {"pattern": "row", "holes": 2, "step": "20 mm"}}
    drilled = {"depth": "12 mm" if beyond else "11.5 mm"}
    spot = {"do": "spot", "diameter": "4 mm", **places}

    def last(*operations):
        stock = {"form": "plate", "thickness": "12 mm", "width": "40 mm"}
        job = spacer({}, {}, operations=[spot, *operations], stock=stock, machine="bench-mill")
        return hn.plan(job).parts[0].operations[-1]

    drill = {"do": "drill", "diameter": "5.8 mm", **places, **drilled}
    reamed = last(drill, {"do": "ream", "diameter": "6 mm", **places, **depth})
    deep = depth.get("depth", "12 mm")
    assert reamed.walked["beyond_mm"] == pytest.approx(0.9 if beyond else 0.0)
    assert sum(each.depth_mm for each in reamed.answer.passes) == pytest.approx(float(deep[:-3]) + 0.9 * beyond)
    drill = {"do": "drill", "diameter": "5 mm", **places}
    if not beyond:
        drill["depth"] = "11.9 mm"
    tapped = last(drill, {"do": "tap", "thread": "M6-6H", **places, **({"depth": "2 mm"} if not beyond else depth)})
    assert tapped.answer.sizes["turns"] == pytest.approx(12 + 5 if beyond else 2)


def test_a_slit_is_sawn_no_faster_than_hands_wind(tmp_path):
    """Without a power feed the spindle is slowed until the tooth load takes at most 60 turns of the handle a minute."""
    text = (Path(hn.__file__).parent / "demo" / "machines" / "bench-mill.toml").read_text("utf-8")
    text = re.sub(r"(?s)\[table\].*?(?=\[quill\])", "", text.replace("power_feed = true", "power_feed = false"))
    file = tmp_path / "hand-mill.toml"
    file.write_text(text.replace('"bench-mill"', '"hand-mill"'), "utf-8")
    asked = {"length": "50 mm"}
    by_power = hn.saw("C36000", "60 mm", "1.5 mm", "6 mm", teeth=40, machine="bench-mill", **asked)
    by_hand = hn.saw("C36000", "60 mm", "1.5 mm", "6 mm", teeth=40, machine=str(file), **asked)
    assert by_hand.hand_turns_per_min <= 60 < by_power.feed_mm_min / 4
    assert by_hand.feed_per_tooth_mm == pytest.approx(0.02)
    assert by_hand.limited_by == "hand_speed"
