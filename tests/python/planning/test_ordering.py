"""What a plan says beside its operations: places, divisions, times as ranges, bars, cautions, another order."""

import copy
import re
from pathlib import Path

import pytest

import halfnut as hn
from halfnut.core.mistakes import InputError
from halfnut.planning import timing
from halfnut.planning.job import Job
from halfnut.planning.stock import bars as stock_bars

DEMO = Path(hn.__file__).parent / "demo"
REFERENCE = Path(__file__).resolve().parents[2] / "reference" / "job"
JOBS = [*sorted(DEMO.glob("job*.toml")), *sorted(REFERENCE.glob("sound*.toml"))]


@pytest.fixture(scope="module", params=JOBS, ids=lambda path: path.stem)
def planned(request):
    return hn.plan(request.param)


def test_at_most_one_line_of_caution_for_five_operations(planned):
    lines = [line for line in planned.lines() if line.startswith("  CAUTION")]
    assert 0 < len(lines) <= len(list(planned.operations)) / 5, lines


def test_no_danger_of_an_answer_is_left_out(planned):
    dangers = {
        each.code
        for _, op in planned.operations
        if op.answer is not None
        for each in op.answer.cautions
        if each.rank == "danger"
    }
    assert dangers
    assert dangers <= {each.code for each in planned.cautions}


def plate(**operation):
    return {
        "title": "one plate",
        "machine": "bench-mill",
        "parts": [
            {
                "name": "cell",
                "quantity": 1,
                "alloy": "5083",
                "length": "8 in",
                "stock": {"form": "plate", "thickness": "3/8 in", "width": "6 in"},
                "operations": [{"do": "drill", "diameter": "#7", **operation}],
            }
        ],
    }


def test_places_of_holes_stand_with_their_operation():
    places = {
        "pattern": "circle",
        "holes": 6,
        "diameter": "4 in",
        "x": "4 in",
        "y": "3 in",
        "zero": "left front corner",
    }
    op = hn.plan(plate(places=places)).parts[0].operations[0]
    asked = hn.positions("circle", holes=6, diameter="4 in", x="4 in", y="3 in", machine="bench-mill")
    assert op.answer.placed == asked
    assert op.step.times == 6
    once = hn.plan(plate()).parts[0].operations[0]
    assert op.answer.time_s > once.answer.time_s + 5 * 30
    said = " ".join(op.answer.remarks)
    for place in asked.places:
        assert f"Hole {place.hole} from left front corner" in said
        assert place.x_reading in said
    assert len(op.to_dict()["figures"]["places"]) == 6


def test_a_card_has_places_as_its_dials_show_them(tmp_path):
    places = {"pattern": "circle", "holes": 6, "diameter": "4 in", "x": "4 in", "y": "3 in"}
    planned = hn.plan(plate(places=places))
    planned.write(tmp_path / "dials")
    text = re.sub(r"<[^>]*>|\s", "", (tmp_path / "dials/cell.html").read_text("utf-8"))
    at = [
        text.index(
            f"{place.hole}X{'*' if place.back_x else ''}{place.x_mm / 25.4:.3f}="
            f"{place.x_turns}\N{MIDDLE DOT}{place.x_line * 0.02:.2f}Y"
        )
        for place in planned.parts[0].operations[0].answer.placed.places
    ]
    assert at == sorted(at)
    divided = hn.plan(plate(divisions=6))
    divided.write(tmp_path / "divided")
    said = divided.parts[0].operations[0].answer.divided
    assert f"Divide: {said.move_said}" in re.sub("<[^>]*>", "", (tmp_path / "divided/cell.html").read_text("utf-8"))


def test_places_and_times_agree():
    with pytest.raises(InputError, match="leave it out"):
        hn.plan(plate(times=5, places={"pattern": "row", "holes": 6, "step": "1 in"}))
    with pytest.raises(InputError, match="give one"):
        hn.plan(plate(divisions=4, places={"pattern": "row", "holes": 6, "step": "1 in"}))
    listed = hn.plan(plate(places={"pattern": "list", "at": ["1 in, 1 in", "2 in, 1 in", "2 in, 3 in"]}))
    assert listed.parts[0].operations[0].step.times == 3
    wrong = hn.plan(plate(places={"pattern": "row", "holes": 6})).parts[0].operations[0]
    assert wrong.error == "a row needs holes and step"


def test_divisions_are_told_with_their_operation():
    op = hn.plan(plate(divisions=6)).parts[0].operations[0]
    assert op.step.times == 6
    assert any("6 turns" in remark for remark in op.answer.remarks)


# ---- times, bars ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("least", "most", "text"),
    [
        (20, 90, "under 5 min"),
        (700, 1300, "10 to 20 min"),
        (1500, 1510, "25 min"),
        (3300, 7300, "55 min to 2 h"),
        (3900, 7800, "1 h 5 min to 2 h 10 min"),
    ],
)
def test_times_are_ranges_of_five_minutes(least, most, text):
    assert str(timing.Span(least, most)) == text


def test_a_first_piece_stands_apart_and_a_lot_is_their_sum(planned):
    for part in planned.parts:
        first, each, whole = part.lot.first, part.lot.further, part.lot.whole
        assert 2 * part.time_each_s == pytest.approx(first.least_s)
        more = part.part.quantity - 1
        assert whole.most_s == pytest.approx(first.most_s + more * each.most_s)
    assert planned.to_dict()["time_least_s"] > planned.time_s
    for line in planned.lines()[1 : len(planned.parts) + 1]:
        assert "min" in line and " s " not in line


def test_bars_hold_every_blank_with_its_cut(planned):
    blanks = {part.part.name: part.stock for part in planned.parts if part.part.stock.bar_length is not None}
    through = {part.part.name for part in planned.parts if part.part.stock.through_spindle}
    found: dict[str, int] = {}
    for bars in planned.bars.values():
        for bar in bars:
            for name, length in bar.blanks:
                found[name] = found.get(name, 0) + 1
                assert length == blanks[name].blank_mm
    assert found == {name: cut.blanks for name, cut in blanks.items() if name not in through}
    for name, bars in planned.bars.items():
        whole = next(p.part.stock.bar_length.base for p in planned.parts if f", {p.part.stock.bar_length} long" in name)
        for bar in bars:
            kerfs = [blanks[part].kerf_mm for part, _ in bar.blanks]
            used = sum(length for _, length in bar.blanks) + sum(kerfs)
            assert used - kerfs[-1] <= whole + 1e-6
            assert bar.left_mm == pytest.approx(max(0.0, whole - used))


def test_first_fit_fills_what_an_earlier_bar_has_left():
    of_bar = {"form": "bar", "diameter": hn.mm(20), "bar_length": hn.mm(100), "kerf": hn.mm(2), "pieces": 1}
    parts = [
        {"name": name, "alloy": "1018", "quantity": 2, "length": hn.mm(length), "stock": of_bar}
        for name, length in (("short", 26), ("long", 70))
    ]
    ((stock, bars),) = stock_bars({"parts": parts}).items()
    assert stock == "1018 bar 20 mm, 100 mm long"
    assert [[name for name, _ in bar.blanks] for bar in bars] == [["long", "short"], ["long", "short"]]
    assert [bar.left_mm for bar in bars] == [0.0, 0.0]


# ---- another order ----------------------------------------------------------------------------------------


def pin(*operations):
    return {
        "title": "pins",
        "machine": "gap-bed",
        "parts": [
            {
                "name": "pin",
                "quantity": 4,
                "alloy": "1018",
                "length": "4 in",
                "stock": {"form": "bar", "diameter": "1 in"},
                "operations": [{"holding": "6 in three-jaw", **each} for each in operations],
            }
        ],
    }


def standing(*operations, **stock):
    job = pin(*operations)
    job["parts"][0]["stock"] |= stock
    return {each.code: each for each in hn.plan(job).parts[0].standing}


def test_cautions_that_go_with_a_part_as_a_whole():
    turned = {"do": "turn", "to": "0.9 in", "length": "1 in"}
    assert set(standing(turned)) == {"chuck_key"}
    assert set(standing(turned | {"finish": True})) == {"chuck_key", "emery_by_hand"}
    assert set(standing(turned | {"hold": "between centres"})) == set()
    assert set(standing({"do": "spot", "diameter": "3/8 in", "machine": "bench-mill"})) == set()
    # a stub of at least 0.75 diameters does not tip, nor does what a centre holds
    assert "jaws_tip" in standing(turned, grip="0.74 in")
    assert "jaws_tip" not in standing(turned, grip="0.76 in")
    assert "jaws_tip" not in standing(turned | {"hold": "chuck and centre"}, grip="0.74 in")
    # 201 in3 of steel, 0.284 lb each: 57 lb, which is 26 kg; a quarter less of a tube, 19.4 kg
    heavy = standing(turned, diameter="8 in")["heavy_work"]
    assert abs(heavy.gravity - 25.9) < 0.3 and "57 lb" in heavy.text
    assert "heavy_work" not in standing(turned, form="tube", diameter="8 in", bore="4 in")


def test_an_order_that_saves_a_stop_is_offered_and_leaves_every_cut_as_it_is():
    job = pin(
        {"do": "face", "off": "0.02 in"},
        {"do": "groove", "to": "0.85 in", "blade": "0.125 in", "at": "0.3 in"},
        {"do": "spot", "diameter": "3/8 in"},
        {"do": "drill", "diameter": "5/16 in", "depth": "0.7 in"},
        {"do": "groove", "to": "0.85 in", "blade": "0.125 in", "at": "0.7 in"},
    )
    planned = hn.plan(job)
    assert planned.failed == 0, planned.lines()
    order = planned.better_orders["pin"]
    assert sorted(order.numbers) == [10, 20, 30, 40, 50]
    assert order.saves_stops >= 1 and order.saves_s > 0
    assert "saves" in str(planned)
    again = copy.deepcopy(job)
    again["parts"][0]["operations"] = [again["parts"][0]["operations"][n // 10 - 1] for n in order.numbers]
    other = hn.plan(again)
    assert other.failed == 0 and not other.mistakes
    assert other.better_orders == {}
    assert other.parts[0].time_each_s < planned.parts[0].time_each_s


def test_no_order_is_offered_that_would_cut_otherwise(planned):
    for part in planned.parts:
        order = part.order
        if order is None:
            continue
        by_number = {op.number: op for op in part.operations}
        steps = tuple(by_number[n].step for n in order.numbers)
        changed = {**part.part, "operations": steps}
        again = hn.plan(Job({**planned.job, "parts": (changed,)}))
        for number, op in zip(order.numbers, again.parts[0].operations, strict=True):
            assert op.answer is not None
            for key in ("start_mm", "hole_mm", "from_mm", "to_mm"):
                assert op.walked[key] == by_number[number].walked[key]


def test_the_trades_order_is_left_alone():
    job = pin(
        {"do": "face", "off": "0.02 in"},
        {"do": "turn", "to": "0.9 in", "length": "0.8 in"},
        {"do": "knurl", "pitch": "21 TPI", "diameter": "0.97 in", "width": "0.3 in", "at": "0.9 in"},
        {"do": "turn", "to": "0.9 in", "length": "0.3 in", "at": "1.4 in"},
    )
    planned = hn.plan(job)
    order = planned.better_orders.get("pin")
    assert order is None or order.numbers.index(30) == 2


def test_a_speed_on_a_dial_is_left_where_its_neighbour_has_it_at_most_a_tenth_slower():
    """The ream runs at 400 rev/min; the blade could run at 422, on another belt."""
    knob = next(part for part in hn.plan(DEMO / "job-metric.toml").parts if part.part.name == "focus knob")
    ream, part_off = (op.answer for op in knob.operations if op.step.do in {"ream", "part off"})
    assert part_off.cut.spindle_rpm == ream.cut.spindle_rpm
    assert part_off.levers[0] == ream.levers[0]
    turned = next(op.answer for op in knob.operations if op.step.do == "turn")
    assert turned.cut.spindle_rpm > ream.cut.spindle_rpm / 0.9  # and no further than that
