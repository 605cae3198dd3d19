"""A job planned: running sizes, passes and dials, failures that stay alone, files that replace nothing unasked."""

import copy
import csv
import html
import json
import math
import re
from pathlib import Path

import pytest

import halfnut as hn
from halfnut import _core
from halfnut.core.catalogue import active
from halfnut.core.questions import placed
from halfnut.core.record import Caution
from halfnut.machine import machines
from halfnut.planning import job, plans
from halfnut.planning.answers import Answer, feed_ladder

DEMO = Path(hn.__file__).parent / "demo"
JOBS = sorted(DEMO.glob("job*.toml"))

PIN = {
    "title": "one pin",
    "machine": "gap-bed",
    "parts": [
        {
            "name": "pin",
            "quantity": 3,
            "alloy": "6061-T6",
            "length": "2 in",
            "stock": {"form": "bar", "diameter": "1 in"},
            "operations": [
                {"do": "turn", "to": "0.9 in", "length": "1 in"},
                {"do": "turn", "to": "0.7505 in", "length": "0.5 in"},
                {"do": "thread", "thread": "3/4-16 UNF-2A", "length": "0.4 in"},
            ],
        }
    ],
}


@pytest.fixture
def data():
    return copy.deepcopy(PIN)


@pytest.fixture(scope="module", params=JOBS, ids=lambda path: path.stem)
def demo(request):
    return hn.plan(request.param)


def test_there_is_a_demonstration_in_inch_and_in_metric():
    assert {part.unit for path in JOBS for part in hn.plan(path).parts} == {"in", "mm"}


def test_the_demonstration_is_planned_whole(demo):
    assert demo.failed == 0
    assert all(op.record is not None for _, op in demo.operations)
    assert demo.time_s > 0


def test_sizes_run_from_operation_to_operation(data):
    first, second, thread = hn.plan(data).parts[0].operations
    assert first.answer.sizes["start_diameter_mm"] == pytest.approx(25.4)
    assert first.answer.sizes["to_diameter_mm"] == pytest.approx(0.9 * 25.4)
    assert second.answer.sizes["start_diameter_mm"] == pytest.approx(0.9 * 25.4)
    assert thread.record.pitch_max == 0.7079  # ASME B1.1-2003 table 2, 3/4-16 UNF-2A


def test_the_second_end_begins_from_the_stock_again(data):
    steps = data["parts"][0]["operations"]
    steps.append({"do": "turn", "end": "second", "to": "0.95 in", "length": "0.5 in"})
    assert hn.plan(data).parts[0].operations[-1].answer.sizes["start_diameter_mm"] == pytest.approx(25.4)
    steps[0]["length"] = "2 in"  # turned from end to end, the other end is as thin
    assert "is not less than what is there" in hn.plan(data).parts[0].operations[-1].error


def test_a_bad_operation_marks_itself_and_the_rest_is_planned(data):
    steps = data["parts"][0]["operations"]
    steps.insert(1, {"do": "turn", "to": "1.2 in", "length": "1 in"})
    steps.append({"do": "thread", "thread": "3/4-16 UNF-2B", "length": "0.4 in"})
    steps.append({"do": "thread", "thread": "M7x3.3", "length": "0.4 in"})
    steps.append({"do": "face", "off": "0.01 in", "machine": "bench-mill"})
    plan = hn.plan(data)
    status = [op.status for op in plan.parts[0].operations]
    assert status == ["planned", "failed", "planned", "planned", "failed", "failed", "failed"]
    assert plan.failed == 4
    bad = plan.parts[0].operations[1]
    assert bad.record is None
    assert "0.9000 in" in bad.error
    assert "needs a lathe" in plan.parts[0].operations[6].error
    assert plan.to_dict()["parts"][0]["operations"][1]["figures"] is None


def test_stock_that_a_bar_cannot_give_is_told(data):
    data["parts"][0]["stock"]["bar_length"] = "1 in"
    plan = hn.plan(data)
    assert "longer than the bar" in plan.parts[0].stock_error
    assert plan.failed == 1


def test_rough_passes_end_on_a_line_and_finishing_ones_are_set_by_the_measurement(demo):
    ways: dict[str, int] = {}
    for _, op in demo.operations:
        passes, chosen = op.answer.passes, op.answer.chosen
        if chosen is None or op.step.do not in {"turn", "bore"}:
            continue
        ways[chosen.closing] = ways.get(chosen.closing, 0) + 1
        assert [each.reading is None for each in passes] == [each.measure for each in passes]
        finishing = sum(one.finish for one in chosen.passes)
        assert all(each.reading.remainder_mm == 0 for each in passes[:-finishing])
        if chosen.closing == "halves":
            assert passes[-1].depth_mm == pytest.approx(passes[-2].depth_mm, abs=1.01 * chosen.line_mm)
        total = abs(op.answer.sizes["start_diameter_mm"] - op.answer.sizes["to_diameter_mm"]) / 2
        assert sum(each.depth_mm for each in passes) == pytest.approx(total)
    assert len(ways) >= 2, ways


def test_no_pass_is_deeper_than_asked(data):
    data["parts"][0]["operations"] = [{"do": "turn", "to": "0.7 in", "length": "1 in", "depth": "0.020 in"}]
    (op,) = hn.plan(data).parts[0].operations
    assert len(op.answer.passes) == 8
    assert max(each.depth_mm for each in op.answer.passes) <= 0.0205 * 25.4
    assert op.record.depth_mm == pytest.approx(max(each.depth_mm for each in op.answer.passes))


def test_levers_changed_less_take_less_time(data):
    data["parts"][0]["operations"] = [{"do": "turn", "to": size, "length": "1 in"} for size in ("0.95 in", "0.90 in")]
    first, second = hn.plan(data).parts[0].operations
    assert second.answer.levers == first.answer.levers
    core = machines.machine("gap-bed").core
    saved = core.stop_change_s + core.lever_change_s
    passes = len(second.answer.passes) * second.record.time_s - len(first.answer.passes) * first.record.time_s
    measured = sum(p.measure for p in second.answer.passes) - sum(p.measure for p in first.answer.passes)
    assert second.time_s - first.time_s == pytest.approx(passes + measured * core.measure_s - saved)


def test_an_operation_done_three_times_takes_three_times_as_long(data):
    data["parts"][0]["operations"] = [{"do": "face", "off": "0.01 in"}]
    once = hn.plan(data).parts[0].time_each_s
    data["parts"][0]["operations"][0]["times"] = 3
    assert hn.plan(data).parts[0].time_each_s == pytest.approx(3 * once)
    assert hn.plan(data).time_s == pytest.approx(9 * once)


def test_a_thread_off_the_gearboxs_chart_asks_for_change_gears(data):
    steps = data["parts"][0]["operations"]
    on_chart = hn.plan(data).parts[0].operations[2]
    assert [group.group for group in on_chart.answer.levers] == ["spindle", "gearbox"]
    steps[1]["to"] = "17.85 mm"
    steps[2]["thread"] = "M18x1.5-6g"
    off_chart = hn.plan(data).parts[0].operations[2]
    assert [group.group for group in off_chart.answer.levers] == ["spindle", "gears", "gearbox"]
    train = off_chart.answer.chasing.train
    assert off_chart.answer.levers[1].positions == train.shafts
    assert f"change gears {train.gears}, exact" in " ".join(off_chart.answer.remarks)
    assert "closes with the banjo's stud" in " ".join(off_chart.answer.remarks)


def test_threading_leaves_time_for_the_half_nut(demo):
    slowed = 0
    for _, op in demo.operations:
        if op.step.do != "thread":
            continue
        slowest = op.machine.core.spindle[0]
        assert op.answer.cut.spindle_rpm <= max(op.answer.chasing.stopping_rpm, slowest.rpm)
        slowed += any("half nut" in remark for remark in op.answer.remarks)
    assert slowed >= 1


def test_a_coating_is_told_beside_the_thread(data):
    data["coatings"] = {"black": {"title": "black anodise", "build_up": "0.0002 in"}}
    data["parts"][0]["coating"] = "black"
    found = hn.plan(data).parts[0].operations[2].answer
    assert "the allowance, 0.00150 in, holds 0.00020 in a surface" in " ".join(found.remarks)
    assert found.record.way == "held"
    assert found.record.to_dict()["pitch_max"] == hn.limits(found.record.thread).pitch_max


def test_an_allowance_that_cannot_hold_the_coat_moves_the_limits_and_names_what_would(data):
    data["coatings"] = {"hard": {"title": "hard anodise", "finish": "hard anodise 0.002 in"}}
    data["parts"][0]["coating"] = "hard"
    op = hn.plan(data).parts[0].operations[2]
    assert op.error == ""
    before = op.answer.record
    plain = hn.limits(before.thread)
    # Half of 0.002 in grows outward, less up to 5 um of etch; 4 x 0.001 in on the pitch diameter, from the basic size.
    assert before.pitch_max == pytest.approx(plain.pitch_max + plain.allowance - 0.004, abs=1e-9)
    assert "coat_allowance_short" in [caution.code for caution in op.answer.cautions]
    assert any(remark.startswith("Or: a coating that builds up at most 0.0003") for remark in op.answer.remarks)
    assert any("mask the thread" in remark for remark in op.answer.remarks)
    # over wires before and after: the part grows by what the coating adds, four times the build-up
    wires = op.answer.wires
    assert wires.coated_max_mm - wires.over_max_mm == pytest.approx(0.004 * 25.4, abs=2e-4)
    row = op.answer.to_dict()
    assert {"wire_mm", "over_max_mm", "over_min_mm", "coated_max_mm", "coated_min_mm", "way"} <= set(row)


def test_a_tapped_hole_that_gets_coated_is_cut_larger(data):
    data["coatings"] = {"black": {"title": "black anodise", "build_up": "5 um", "build_up_most": "7 um"}}
    data["parts"][0]["coating"] = "black"
    data["parts"][0]["operations"] += [
        {"do": "drill", "diameter": "#7", "depth": "1 in"},
        {"do": "tap", "thread": "1/4-20 UNC-2B", "depth": "0.75 in"},
    ]
    op = hn.plan(data).parts[0].operations[-1]
    assert op.error == ""
    before, plain = op.answer.record, hn.limits("1/4-20 UNC-2B")
    assert before.way == "deducted"
    assert before.pitch_min == pytest.approx(plain.pitch_min + 0.0012)  # 28 um, up to the next 0.0001 in
    assert before.minor_min > plain.minor_min
    assert any("moved by" in remark for remark in op.answer.remarks)
    assert any(f"{before.minor_min:.4f} in" in remark for remark in op.answer.remarks)  # the hole to tap


def test_a_coat_that_no_limits_can_hold_or_the_metal_does_not_take_fails_the_operation(data):
    data["coatings"] = {"thick": {"title": "plate", "build_up": "5 um", "build_up_most": "200 um"}}
    data["parts"][0]["coating"] = "thick"
    assert "no part can be cut that gauges" in hn.plan(data).parts[0].operations[2].error
    data["coatings"]["thick"] = {"title": "black anodise", "finish": "anodise II black 15 um"}
    data["parts"][0]["alloy"] = "C36000"
    assert "does not go on" in hn.plan(data).parts[0].operations[2].error


def test_the_demo_tubes_bases_and_nuts_gauge_after_their_black_coat(demo):
    seen = {"held": 0, "deducted": 0}
    for part, op in demo.operations:
        if op.step.do != "thread" or part.part.coating is None:
            continue
        before = op.answer.record
        seen[before.way] += 1
        assert before.build_up_max_um == pytest.approx(7.5)
        sense = 1 if before.side == "external" else -1
        scale = 25.4 if before.unit == "in" else 1.0
        fullest = scale * (before.pitch_max if sense > 0 else before.pitch_min)
        assert sense * (fullest + sense * 0.030) <= sense * before.go_after_pitch_mm + 1e-9
        assert op.answer.wires.before_coating
    assert seen == {"held": 2, "deducted": 3}


def test_the_dictionary_and_the_frame_hold_no_nan_and_say_the_same(demo):
    text = json.dumps(demo.to_dict(), allow_nan=False)
    assert json.loads(text)["failed"] == 0
    frame = demo.to_frame()
    assert len(frame) == sum(1 for _ in demo.operations)
    flat = [op.answer.to_dict() for _, op in demo.operations]
    assert frame["spindle_rpm"].notna().all()
    assert frame["spindle_rpm"].tolist() == [row["spindle_rpm"] for row in flat]


def test_written_files_read_back(demo, tmp_path):
    written = demo.write(tmp_path / "out")
    assert written[0].name == "index.html"
    assert {path.name for path in written} >= {"plan.csv", "plan.json", *(part.file for part in demo.parts)}
    with (tmp_path / "out" / "plan.csv").open(newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    assert len(rows) == sum(1 for _ in demo.operations)
    cells = {cell for row in rows for cell in row.values()}
    assert not cells & {"nan", "NaN", "None", "inf"}
    for row, (_, op) in zip(rows, demo.operations, strict=True):
        assert math.isclose(float(row["spindle_rpm"]), op.answer.to_dict()["spindle_rpm"])
    loaded = json.loads((tmp_path / "out" / "plan.json").read_text(encoding="utf-8"))
    assert sorted(loaded["files"]) == sorted(path.name for path in written)


def test_nothing_is_overwritten_unnamed(data, tmp_path):
    plan, out = hn.plan(data), tmp_path / "out"
    plan.write(out)
    with pytest.raises(hn.DomainError, match=r"not empty and stays as it is; --replace \(in Python replace=True\)"):
        plan.write(out)
    data["parts"][0]["name"] = "other pin"
    other = hn.plan(data)
    (out / "notes.txt").write_text("ours")
    with pytest.raises(hn.DomainError, match=r"not as Halfnut wrote it: notes\.txt; move that away"):
        other.write(out, replace=True)
    assert (out / "notes.txt").read_text() == "ours"
    (out / "notes.txt").unlink()
    other.write(out, replace=True)
    assert (out / "other-pin.html").is_file()
    assert not (out / "pin.html").exists()
    other = tmp_path / "other"
    other.mkdir()
    (other / "index.html").write_text("ours")
    with pytest.raises(hn.DomainError, match="no earlier plan"):
        plan.write(other, replace=True)
    assert (other / "index.html").read_text() == "ours"


def test_a_file_in_the_way_that_no_plan_wrote_stays(data, tmp_path):
    plan = hn.plan(data)
    plan.write(tmp_path)
    (tmp_path / "new-pin.html").write_text("ours")
    data["parts"][0]["name"] = "new pin"
    with pytest.raises(hn.DomainError, match=r"new-pin\.html"):
        hn.plan(data).write(tmp_path, replace=True)
    assert (tmp_path / "new-pin.html").read_text() == "ours"


def test_an_earlier_plan_cannot_name_a_file_outside_its_folder(data, tmp_path):
    outside = tmp_path / "ours.txt"
    outside.write_text("ours")
    folder = tmp_path / "out"
    folder.mkdir()
    for named in (["../ours.txt", "plan.json"], {"../ours.txt": "", "plan.json": "0" * 64}, None, {"plan.json": "ff"}):
        (folder / "plan.json").write_text(json.dumps({"files": named}))
        with pytest.raises(hn.DomainError, match=r"no earlier plan|not as Halfnut wrote it: plan\.json"):
            hn.plan(data).write(folder, replace=True)
    assert outside.read_text() == "ours"


def test_cautions_that_differ_in_their_figures_alone_are_one_line_with_those_of_the_gravest():
    long, short, other = (
        Caution("bar_behind", "bar over 40 in behind the spindle whips", "caution", 1 / 40),
        Caution("bar_behind", "bar over 34 in behind the spindle whips", "caution", 1 / 34),
        Caution("lead", "contains lead", "caution"),
    )
    found = plans._once_a_code([long, other, short, long])
    assert [each.text for each in found] == [f"{short.text}; other figures on other sheets", other.text]
    assert plans._once_a_code([long, long]) == [long]


def test_the_summary_fits_one_screen(demo):
    lines = str(demo).splitlines()
    assert lines[0].startswith("Portable truss telescope: ")
    assert len(lines) <= 32
    assert demo._repr_html_().startswith("<p>")


def test_two_hundred_parts_are_scripted_in_one_go(data):
    part = data["parts"][0]
    data["parts"] = [
        {**copy.deepcopy(part), "name": f"pin {n}", "quantity": n % 7 + 1, "length": f"{2 + n / 100} in"}
        for n in range(200)
    ]
    plan = hn.plan(data)
    assert (len(plan.parts), plan.failed) == (200, 0)
    files = plan.files()
    assert len(files) == 200 + 5
    assert len(plan.to_frame()) == 600


# ---- each sheet replayed on its machine's file ------------------------------------------------------


def test_an_operation_without_a_spindle_has_no_cut():
    seat = _core.ask("screw_seat", placed("screw_seat", thread="M6", head="flat"), active())
    found = {"answers": {"record": ("ScrewSeat", seat)}, "time_s": 60.0, "dial": "", "feeds": ""}
    answer = Answer.of(found | dict.fromkeys(("levers", "passes", "sizes", "remarks", "told"), ()))
    assert answer.cut is None
    assert answer.records == (answer.record,) == (hn.screw_seat("M6", head="flat"),)


def reached(op, each):
    """How far the dial of a pass has moved its slide, and how far it had to."""
    slide = op.machine.core.slide(op.answer.dial)
    lines = each.reading.turns * slide.lines_a_turn + each.reading.line
    moved = lines * slide.graduation_mm / (2 if slide.reads_diameter else 1)
    sizes = op.answer.sizes
    if "off_mm" in sizes:
        return slide, moved, sizes["off_mm"] - each.size_mm
    if op.step.do in {"spot", "drill", "countersink", "counterbore", "ream", "mill"}:
        return slide, moved, each.size_mm
    return slide, moved, abs(sizes["start_diameter_mm"] - each.size_mm) / 2


def test_every_lever_speed_feed_and_line_can_be_set_on_the_machine(demo):
    checked = {"levers": 0, "lines": 0, "feeds": 0}
    for _, op in demo.operations:
        core, cut = op.machine.core, op.answer.cut
        step = core.spindle[cut.spindle_step]
        low = step.rpm_low if step.variable else step.rpm
        assert low - 1e-9 <= cut.spindle_rpm <= step.rpm + 1e-9
        feeds = feed_ladder(op.answer, op.machine).steps
        ladders = {"spindle": core.spindle, "feed": feeds, "gearbox": core.threading.gearbox}
        for group in op.answer.levers:
            known = [tuple((p.control, p.setting) for p in each.positions) for each in ladders[group.group]]
            set_to = tuple(position for position in group.positions if position[0] != "speed, rev/min")
            assert set_to in known
            checked["levers"] += len(group.positions)
            if group.group == "feed":
                assert feeds[known.index(set_to)].marked == cut.feed_marked
                checked["feeds"] += 1
        if cut.feed_source == "hand":
            assert cut.hand_turns_per_min <= 60 + 1e-9
        for each in op.answer.passes:
            if each.reading is None:
                assert each.measure
                continue
            slide, moved, wanted = reached(op, each)
            assert abs(moved - wanted) <= slide.graduation_mm / 2 * (1 + 1e-9)
            if each.reading.remainder_mm == 0:
                assert moved == pytest.approx(wanted, abs=1e-5 * slide.graduation_mm)
            checked["lines"] += 1
    assert min(checked.values()) >= 20


def test_the_demonstration_uses_every_operation(demo):
    assert {op.step.do for _, op in demo.operations} == {
        "turn", "taper", "face", "bore", "groove", "part off", "spot", "drill", "countersink", "counterbore", "ream",
        "tap", "mill", "saw", "thread", "knurl",
    }  # fmt: skip
    assert len(demo.parts) == 10


def test_a_hole_runs_from_drill_to_bore_and_ream(data):
    data["parts"][0]["operations"] = [
        {"do": "drill", "diameter": "1/2 in"},
        {"do": "ream", "diameter": "0.4 in"},
        {"do": "bore", "to": "0.6 in", "length": "1 in"},
        {"do": "tap", "thread": "1/2-13 UNC-2B"},
        {"do": "mill", "shape": "slot", "cutter": "1/4 in", "length": "1 in", "width": "0.25 in", "depth": "0.1 in"},
    ]
    drill, ream, bore, tap, mill = hn.plan(data).parts[0].operations
    assert drill.answer.sizes["depth_mm"] == pytest.approx(2 * 25.4)  # through the piece
    assert "0.5000 in, is not smaller than the reamer, 0.4000 in" in ream.error
    assert bore.answer.sizes["start_diameter_mm"] == pytest.approx(12.7)
    assert "the hole is 0.6000 in" in tap.error
    assert "needs a milling machine" in mill.error


def test_the_hole_for_a_tap_is_told(data):
    data["parts"][0]["operations"] = [
        {"do": "drill", "diameter": "#7", "depth": "0.7 in"},
        {"do": "tap", "thread": "1/4-20 UNC-2B", "depth": "0.5 in"},
    ]
    _, tap = hn.plan(data).parts[0].operations
    assert "0.1960 in to 0.2070 in" in tap.answer.remarks[0]  # ASME B1.1-2003 table 2, minor diameter of 1/4-20 UNC-2B
    assert "0.2010 in, is within" in tap.answer.remarks[0]
    assert "drill #7, 0.2010 in, for 75 % of thread" in tap.answer.remarks[0]
    # 0.5 in of full thread, five threads of chamfer, two pitches of room: 0.85 in
    assert "Blind: drill 0.8500 in deep" in tap.answer.remarks[1]


def test_ones_own_lathe_is_used_once_its_file_is_filled_in(tmp_path, data):
    from click.testing import CliRunner

    from halfnut import cli

    path = tmp_path / "ours.toml"
    made = CliRunner().invoke(cli.command, ["machine", "new", "ours", "--system", "metric", "--out", str(path)])
    assert made.exit_code == 0
    data["machine"] = "ours.toml"
    (tmp_path / "job.toml").write_text(_toml(data))
    plan = hn.plan(tmp_path / "job.toml")
    assert plan.failed == 0
    own = machines.machine(path).core
    assert {op.answer.cut.spindle_rpm for _, op in plan.operations} <= {step.rpm for step in own.spindle}
    assert job.load(tmp_path / "job.toml")[0].machine == str(path)


def _toml(data):
    part = data["parts"][0]
    head = {key: value for key, value in part.items() if key not in {"operations", "stock"}}
    lines = [f"{key} = {json.dumps(value)}" for key, value in data.items() if key != "parts"]
    lines += ["[[parts]]", *(f"{key} = {json.dumps(value)}" for key, value in head.items())]
    lines += [f"stock = {_inline(part['stock'])}"]
    lines += [f"operations = [{', '.join(_inline(step) for step in part['operations'])}]"]
    return "\n".join(lines)


def _inline(table):
    return "{ " + ", ".join(f"{key} = {json.dumps(value)}" for key, value in table.items()) + " }"


def test_every_sheet_defers_to_manual_codes_and_licensed_practice():
    from halfnut.core.words import words

    card, first, load = (words("said", code) for code in ("card", "first", "load"))
    planned = hn.plan(DEMO / "job.toml")
    pages = {name: html.unescape(text) for name, text in planned.files().items() if name.endswith(".html")}
    assert len(pages) == len(planned.parts) + 3 + sum(part.adjuster is not None for part in planned.parts)
    cards = {part.file for part in planned.parts}
    for name, text in pages.items():
        papers = len(re.findall('class="(?:card|paper)"', text))
        assert text.count(card if name in cards else first) == max(1, papers), name
    threaded = [any(op.step.do in {"thread", "tap"} for op in part.operations) for part in planned.parts]
    assert pages["details.html"].count(load) == sum(threaded)
    assert str(planned).splitlines()[-1].strip() == first


def test_a_joint_of_a_part_says_what_it_holds(data):
    joint = {
        "external": "7/8-14 UNF-2A",
        "internal": "7/8-14 UNF-2B",
        "engagement": "1 in",
        "factor_of_safety": 4.0,
        "load": "300 lbf",
        "external_alloy": "6061-T6",
        "external_form": "drawn tube",
        "internal_alloy": "6061-T6",
        "internal_form": "bar",
        "external_chamfer": "0.06 in",
    }
    data["parts"][0]["joints"] = [joint, {**joint, "internal_form": "casting"}]
    planned = hn.plan(data).parts[0]
    held, refused = planned.joints
    assert held.error == ""
    assert held.record.allowable_n == pytest.approx(held.record.bears_n / 4.0)
    assert held.record.full_form_engagement_mm == pytest.approx(0.94 * 25.4)
    assert "licensed" in [each.code for each in planned.cautions]
    assert refused.record is None and "its forms are bar, drawn tube" in refused.error
    assert [each.code for each in planned.mistakes] == ["joint_own", "joint_own"]  # the pin has another thread
    assert planned.failed == 3
    figures = planned.to_dict()["joints"][0]["figures"]
    assert figures["load_lbf"] == pytest.approx(300.0)


@pytest.mark.parametrize("factor", [None, 0.5])
def test_a_joint_without_a_factor_of_safety_is_not_read(data, factor):
    joint = {"external": "M10", "internal": "M10", "engagement": "1 in", "external_grade": "8.8"}
    joint |= {"internal_alloy": "6061-T6", "internal_form": "bar"} | (
        {} if factor is None else {"factor_of_safety": factor}
    )
    data["parts"][0]["joints"] = [joint]
    with pytest.raises(hn.InputError, match="factor"):
        hn.plan(data)


def test_a_turned_diameter_with_a_fit_aims_at_the_middle_of_its_limits(data):
    data["parts"][0]["operations"][1] = {"do": "turn", "to": "19 mm", "fit": "h6", "length": "0.5 in"}
    data["parts"][0]["operations"] = data["parts"][0]["operations"][:2]
    (_, first), (_, fitted) = hn.plan(data).operations
    assert fitted.answer.sizes["to_diameter_mm"] == pytest.approx(19 - 0.0065)
    assert any("Limits of h6: 19.000/18.987 mm" in remark for remark in fitted.answer.remarks)
    assert fitted.answer.plain is not None and first.answer.plain is None


def test_a_bore_with_a_fit_leaves_room_for_the_coating(data):
    data["coatings"] = {"black": {"title": "black anodise", "build_up": "0.005 mm"}}
    part = data["parts"][0]
    part["coating"] = "black"
    part["operations"] = [
        {"do": "drill", "diameter": "0.5 in"},
        {"do": "bore", "to": "16 mm", "fit": "H7", "length": "0.5 in"},
    ]
    fitted = list(hn.plan(data).operations)[1][1]
    assert fitted.answer.sizes["to_diameter_mm"] == pytest.approx(16 + 0.009 + 0.010)


@pytest.mark.parametrize(
    ("step", "words"),
    [
        ({"do": "turn", "to": "19 mm", "fit": "H7", "length": "0.5 in"}, "needs a shaft"),
        ({"do": "turn", "to": "19 mm", "fit": "q6", "length": "0.5 in"}, "no letter"),
    ],
)
def test_a_fit_that_does_not_suit_the_operation_is_refused(data, step, words):
    data["parts"][0]["operations"] = [step]
    ((_, failed),) = hn.plan(data).operations
    assert words in failed.error


def test_a_leadscrew_and_a_pipe_thread_have_their_sheets(data, tmp_path):
    part = data["parts"][0]
    part["operations"] = [
        {"do": "turn", "to": "16 mm", "fit": "h9", "length": "1.2 in"},
        {"do": "thread", "thread": "Tr16x4-7e", "length": "1 in", "infeed": "straight"},
        {"do": "thread", "thread": "1/4-18 NPT", "length": "0.5 in"},
    ]
    plan = hn.plan(data)
    _, (_, screw), (_, pipe) = plan.operations
    assert screw.answer is not None, screw.error
    assert screw.answer.mate.side == "internal" and screw.answer.chasing is not None
    assert pipe.answer is not None and pipe.answer.mate is None, pipe.error
    plan.write(tmp_path / "out")
    details = (tmp_path / "out" / "details.html").read_text(encoding="utf-8")
    assert "Tr16x4-7e" in details and "Limits of h9: 16.000/15.957 mm" in details
    card = next((tmp_path / "out").glob("*pin*.html")).read_text(encoding="utf-8")
    assert ".6299 / .6283" in re.sub(r"<[^>]+>", "", card)
