"""What a machine takes: its own size, the overhang of the work, and what whips."""

import csv
import math
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner

import halfnut as hn
from halfnut import _core, batch, cutting
from halfnut.cli import command
from halfnut.core.shapes import load_toml
from halfnut.cutting.questions import choose, hold
from halfnut.drawing.charts import speed_chart
from halfnut.machine.machines import Machine
from halfnut.planning.plans import plan

DEMO = Path(hn.__file__).parent / "demo" / "machines"
WHIRLS = Path(__file__).parents[2] / "reference" / "cutting" / "first_whirl.csv"


def codes(record):
    return {item.code for item in record.cautions}


def beam_whirl_rpm(diameter_mm, bore_mm, length_mm, e_gpa, density, held, elements=24):
    """First whirl of a beam from the eigenvalues of its stiffness and mass, by cubic elements; SI inside."""
    area = math.pi / 4 * (diameter_mm**2 - bore_mm**2) * 1e-6
    inertia = math.pi / 64 * (diameter_mm**4 - bore_mm**4) * 1e-12
    h = length_mm * 1e-3 / elements
    bend = e_gpa * 1e9 * inertia / h**3
    k = bend * np.array(
        [[12, 6 * h, -12, 6 * h], [6 * h, 4 * h**2, -6 * h, 2 * h**2],
         [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h**2, -6 * h, 4 * h**2]]
    )  # fmt: skip
    m = density * area * h / 420 * np.array(
        [[156, 22 * h, 54, -13 * h], [22 * h, 4 * h**2, 13 * h, -3 * h**2],
         [54, 13 * h, 156, -22 * h], [-13 * h, -3 * h**2, -22 * h, 4 * h**2]]
    )  # fmt: skip
    stiff, mass = np.zeros((2 * elements + 2,) * 2), np.zeros((2 * elements + 2,) * 2)
    for i in range(elements):
        at = slice(2 * i, 2 * i + 4)
        stiff[at, at] += k
        mass[at, at] += m
    last = 2 * elements
    fixed = {"chuck": [0, 1], "chuck and centre": [0, 1, last], "between centres": [0, last]}[held]
    free = [i for i in range(2 * elements + 2) if i not in fixed]
    values = np.linalg.eigvals(np.linalg.solve(mass[np.ix_(free, free)], stiff[np.ix_(free, free)]))
    return 60 * math.sqrt(min(values.real)) / (2 * math.pi)


ROOTS = {"chuck": 1.8751040687, "chuck and centre": 3.9266023120, "between centres": math.pi}


@pytest.mark.parametrize("held", ROOTS)
@pytest.mark.parametrize(("diameter", "bore", "length"), [(12.0, 0.0, 600.0), (25.4, 22.1, 1200.0), (6.0, 0.0, 300.0)])
def test_first_whirl_against_the_eigenvalues_of_a_beam(held, diameter, bore, length):
    want = beam_whirl_rpm(diameter, bore, length, 205.0, 7850.0, held)
    got = cutting.first_whirl_rpm(diameter, bore, length, 205.0, 7850.0, ROOTS[held])
    assert got == pytest.approx(want, rel=1e-4)


def test_first_whirl_against_worked_cases():
    rows = list(csv.DictReader(line for line in WHIRLS.read_text().splitlines() if not line.startswith("#")))
    for row in rows:
        got = beam_whirl_rpm(
            *(float(row[name]) for name in ("diameter_mm", "bore_mm", "length_mm", "e_gpa", "density_kg_m3")), "chuck"
        )
        assert round(got) == int(row["rpm"]), row["case"]
    assert len(rows) == 7


@pytest.mark.parametrize(
    ("ask", "found", "bound"),
    [
        (lambda: cutting.turn("6061-T6", "99 in", machine="gap-bed"), "99 in", "17.75 in"),
        (lambda: cutting.face("6061-T6", "18 in", machine="gap-bed"), "18 in", "17.75 in"),
        (lambda: cutting.part_off("6061-T6", "18 in", machine="gap-bed"), "18 in", "17.75 in"),
        (lambda: cutting.bore("6061-T6", "18 in", machine="gap-bed"), "18 in", "17.75 in"),
        (lambda: cutting.knurl("6061-T6", "300 mm", machine="metric-lathe"), "300 mm", "280 mm"),
        (lambda: cutting.thread_speed("1018", "300 mm", "2 mm", machine="metric-lathe"), "300 mm", "280 mm"),
        (lambda: cutting.groove("1018", "300 mm", "290 mm", machine="metric-lathe"), "300 mm", "280 mm"),
        (
            lambda: cutting.taper("1018", "300 mm", "290 mm", "50 mm", machine="metric-lathe"),
            "300 mm",
            "280 mm",
        ),
        (lambda: cutting.drill("1018", "10 mm", stock="300 mm", machine="metric-lathe"), "300 mm", "280 mm"),
        (lambda: cutting.ream("1018", "10 mm", stock="300 mm", machine="metric-lathe"), "300 mm", "280 mm"),
        (lambda: cutting.tap("1018", "M8", stock="300 mm", machine="metric-lathe"), "300 mm", "280 mm"),
        (lambda: choose("face", "1018", "300 mm", off="1 mm", machine="metric-lathe"), "300 mm", "280 mm"),
        (lambda: hold("1018", "300 mm", stick_out="100 mm", machine="metric-lathe"), "300 mm", "280 mm"),
        (lambda: cutting.turn("1018", "8 in", length="1 in", chuck="8 in four-jaw", machine="gap-bed"), "8 in", "7.75"),
        (lambda: cutting.turn("1018", "6.5 in", machine="gap-bed"), "6.5 in", "6 in"),
        (lambda: cutting.drill("1018", "10 mm", stock="2 mm hex", machine="metric-lathe"), "", ""),
        (lambda: cutting.turn("1018", "2 mm", stock="2 mm", machine="metric-lathe"), "2 mm", "3 mm"),
        (lambda: cutting.turn("1018", "45 mm", bar_length="1 m", machine="metric-lathe"), "45 mm", "38 mm"),
        (
            lambda: cutting.turn(
                "1018", "2 in", length="10 in", stick_out="60 in", hold="between centres", machine="gap-bed"
            ),
            "60 in",
            "36 in",
        ),
        (lambda: cutting.turn("1018", "2 in", length="5 in", stick_out="1 in", machine="gap-bed"), "1 in", "5 in"),
    ],
)
def test_work_that_does_not_go_in_is_refused_with_the_figures(ask, found, bound):
    with pytest.raises(hn.DomainError) as caught:
        ask()
    assert found in str(caught.value)
    assert bound in str(caught.value)


@pytest.mark.parametrize(
    ("ask", "words"),
    [
        (lambda: cutting.turn("1018", "12 in", machine="metric-lathe"), "diameter 12 in (304.8 mm) is over the swing"),
        (lambda: cutting.turn("1018", "300 mm", machine="gap-bed"), "work 11.81 in (300 mm) is over what"),
        (
            lambda: cutting.turn("1018", "2 in", length="5 in", stick_out="1 in", machine="metric-lathe"),
            "stick_out must be at least the length of the cut, 5 in (127 mm), got 1 in (25.4 mm)",
        ),
        (
            lambda: choose(
                "mill pocket", "1018", "0.5 in", off="0.1 in", width="0.2 in", length="2 in", machine="bench-mill"
            ),
            "slot or pocket, got 0.2 in",
        ),
    ],
)  # fmt: skip
def test_a_question_in_inches_to_a_metric_machine_is_refused_in_inches(ask, words):
    with pytest.raises(hn.DomainError) as caught:
        ask()
    assert words in str(caught.value)


def test_another_chuck_that_takes_it_is_named():
    with pytest.raises(hn.DomainError, match="take the 8 in four-jaw"):
        cutting.turn("1018", "6.5 in", machine="gap-bed")


def test_work_that_swings_in_the_gap_only_is_answered_with_the_figures():
    found = cutting.face("1018", "15 in", chuck="12 in faceplate", machine="gap-bed")
    texts = {item.code: item.text for item in found.cautions}
    assert "13 in" in texts["in_gap"]
    assert "7.75 in" in texts["over_cross_slide"]


def test_a_bar_that_stands_out_far_is_slowed_and_cautioned():
    """6 x 300 mm in a chuck: half the first whirl of the 5 mm that a depth of 0.5 mm leaves."""
    found = cutting.turn("6061-T6", "6 mm", depth="0.5 mm", length="300 mm")
    alloy = found.alloy
    whirl = beam_whirl_rpm(5.0, 0.0, 300.0, alloy.youngs_modulus_gpa, alloy.density_kg_m3, "chuck")
    assert found.spindle_rpm == pytest.approx(whirl / 2, rel=1e-4)
    assert codes(found) >= {"slender", "work_whips", "climbs"}
    assert found.limited_by == "work_whirl"
    on_machine = cutting.turn("6061-T6", "6 mm", depth="0.5 mm", length="300 mm", machine="metric-lathe")
    assert on_machine.spindle_rpm <= whirl / 2


@pytest.mark.parametrize(
    ("alloy", "diameter", "free_mm", "whirl"),
    [("C36000", 20, 1000, 567), ("4130 annealed", 20, 1000, 858), ("titanium grade 2", 12, 1000, 481)],
)
def test_a_bar_behind_the_spindle_keeps_to_half_its_first_whirl(alloy, diameter, free_mm, whirl):
    found = cutting.turn(alloy, f"{diameter} mm", bar_behind=f"{free_mm} mm", length="20 mm", tool="carbide")
    if found.limited_by == "bar_whirl":
        assert found.spindle_rpm == pytest.approx(whirl / 2, rel=0.01)
        assert "bar_whips" in codes(found)
    else:
        assert found.spindle_rpm <= whirl / 2


def test_the_whole_bar_counts_less_what_stands_out_and_what_the_spindle_guides():
    how = {"length": "20 mm", "stick_out": "30 mm", "machine": "metric-lathe"}
    whole = cutting.turn("C36000", "20 mm", bar_length="1410 mm", **how)  # 1410 - 30 - 380 of the headstock
    behind = cutting.turn("C36000", "20 mm", bar_behind="1000 mm", **how)
    assert whole.spindle_rpm == behind.spindle_rpm == pytest.approx(567 / 2, rel=1e-3)
    assert "bar_whips" in codes(whole)


def test_a_word_on_the_bar_only_where_one_could_be_and_nobody_said():
    free = cutting.turn("C36000", "12 mm", machine="metric-lathe")
    note = next(item.text for item in free.told if item.code == "bar_behind")
    alloy = free.alloy
    whirl = beam_whirl_rpm(12.0, 0.0, 1000.0, alloy.youngs_modulus_gpa, alloy.density_kg_m3, "chuck")
    longest = 1000.0 * math.sqrt(whirl / 2 / free.spindle_rpm)
    assert f"{10 * math.floor(longest / 10)} mm" in note
    for how in ({"bar_behind": "10 mm"}, {"hold": "between centres"}, {"stock": "60 mm"}):
        assert "bar_behind" not in {
            item.code for item in cutting.turn("C36000", "12 mm", machine="metric-lathe", **how).told
        }


def test_steadies_let_long_work_turn_faster():
    bare = cutting.turn("1018", "12 mm", length="500 mm", machine="metric-lathe", tool="carbide", hold="chuck")
    steadied = cutting.turn(
        "1018", "12 mm", length="500 mm", stick_out="500 mm", machine="metric-lathe", tool="carbide",
        steadies=("250 mm", "480 mm"),
    )  # fmt: skip
    assert steadied.spindle_rpm > bare.spindle_rpm


def test_a_batch_marks_the_rows_that_the_machine_has_no_room_for():
    diameters = [25.0, 300.0, 170.0, 25.0, 6.0, 2.0]
    jobs = {
        "diameter_mm": diameters,
        "length_mm": [50.0, 50.0, 50.0, 60.0, 300.0, 10.0],
        "stick_out_mm": [math.nan, math.nan, math.nan, 20.0, math.nan, math.nan],
        "depth_mm": [0.5] * 6,
    }
    done = batch.turn(jobs, alloy="6061-T6", machine="metric-lathe", columns=["spindle_rpm", "cautions", "reason"])
    assert done["status"].tolist() == [0, 7, 7, 8, 0, 0]
    why = batch.reasons(done, "turn", jobs)
    assert why[1] == "the work is over the swing of the machine"
    assert why[2] == "the work is over the swing over the cross slide"
    assert "stick_out_mm must be at least length_mm" in why[3]
    for row in (0, 4, 5):
        one = cutting.turn(
            "6061-T6",
            f"{diameters[row]} mm",
            depth="0.5 mm",
            length=f"{jobs['length_mm'][row]} mm",
            machine="metric-lathe",
        )
        assert one.spindle_rpm == done["spindle_rpm"][row]
        told = set(batch.cautions(int(done["cautions"][row])))
        own = {"work_whips", "climbs", "below_jaws"}
        assert codes(one) & own == told & own


def job(**part):
    part = {
        "name": "plate", "quantity": 1, "alloy": "6061-T6", "length": "3 in",
        "stock": {"form": "bar", "diameter": "2 in"}, **part,
    }  # fmt: skip
    return {"title": "telescope", "machine": "gap-bed", "parts": [part]}


@pytest.mark.parametrize(
    ("part", "words"),
    [
        (
            {"stock": {"form": "bar", "diameter": "18 in"}, "operations": [{"do": "face", "off": "0.03 in"}]},
            ("18.0000 in", "17.7500 in", "larger machine"),
        ),
        (
            {"stock": {"form": "bar", "diameter": "7 in"}, "operations": [{"do": "drill", "diameter": "1/2 in"}]},
            ("7.0000 in", "6.0000 in", "8 in four-jaw"),
        ),
        (
            {"operations": [{"do": "turn", "to": "1.9 in", "length": "5 in", "stick_out": "1 in"}]},
            ("5.0000 in", "1.0000 in"),
        ),
        (
            {
                "length": "40 in",
                "operations": [{"do": "turn", "to": "1.9 in", "length": "5 in", "hold": "between centres"}],
            },
            ("40.0000 in", "36.0000 in", "longer machine"),
        ),
        (
            {
                "stock": {"form": "bar", "diameter": "2 in", "bar_length": "36 in", "through_spindle": True},
                "operations": [{"do": "turn", "to": "1.9 in", "length": "1 in"}],
            },
            ("2 in", "1.44 in", "blank"),
        ),
    ],
)
def test_a_plan_marks_the_operation_with_figures_and_cure(part, words):
    found = plan(job(**part))
    assert found.failed == 1
    error = found.rows()[0]["error"]
    assert found.rows()[0]["part"] == "plate"
    assert all(each in error for each in words), error


def test_a_plan_slows_a_bar_that_whips_behind_the_spindle():
    stock = {"form": "bar", "diameter": "0.5 in", "bar_length": "72 in", "through_spindle": True}
    found = plan(job(stock=stock, length="1 in", operations=[{"do": "turn", "to": "0.4 in", "length": "0.5 in"}]))
    cut = found.parts[0].operations[0].answer.cut
    # 72 in less 0.5 in that stand out and 16 in of the spindle
    alloy = cut.alloy
    free_mm = (72 - 0.5 - 16) * 25.4
    whirl = beam_whirl_rpm(12.7, 0.0, free_mm, alloy.youngs_modulus_gpa, alloy.density_kg_m3, "chuck")
    assert cut.spindle_rpm <= whirl / 2


def test_a_bar_through_the_spindle_needs_its_length():
    with pytest.raises(hn.core.mistakes.InputError, match="bar_length"):
        plan(
            job(
                stock={"form": "bar", "diameter": "1 in", "through_spindle": True},
                operations=[{"do": "face", "off": "1 mm"}],
            )
        )


def test_rows_of_a_chart_stop_at_what_the_lathe_takes():
    data = load_toml(DEMO / "gap-bed.toml")
    for key in ("swing_over_bed", "swing_over_cross_slide", "swing_in_gap"):
        data.pop(key)
    data["centre_height"] = "2.5 in"
    small = Machine(data)
    assert max(size.inch for size in speed_chart(small, ["6061-T6"]).diameters) <= 5.0
    assert max(size.inch for size in speed_chart("gap-bed", ["6061-T6"]).diameters) == 12.0


def test_a_machine_file_holds_the_sizes_and_gives_them_back():
    lathe = hn.lathe("gap-bed")
    core = lathe.core
    assert core.swing_mm == pytest.approx(13 * 25.4)
    assert core.swing_over_cross_slide_mm == pytest.approx(7.75 * 25.4)
    assert core.spindle_length_mm == pytest.approx(16 * 25.4)
    chuck = core.chucks[0]
    assert (chuck.opening_least_mm, chuck.opening_greatest_mm) == (pytest.approx(0.12 * 25.4), pytest.approx(152.4))
    assert chuck.jaw_mass_kg == pytest.approx(1.2 * 0.45359237)
    assert Machine(lathe.to_dict()) == lathe
    assert lathe.to_dict()["chucks"][0]["jaw_weight"] == "1.2 lb"


def test_a_weight_without_its_unit_is_refused():
    data = load_toml(DEMO / "gap-bed.toml")
    data["chucks"][0]["jaw_weight"] = "1.2"
    with pytest.raises(hn.core.mistakes.InputError, match="jaw_weight"):
        Machine(data)


def test_what_a_machine_file_leaves_out_is_told(tmp_path):
    for name in ("gap-bed", "metric-lathe", "bench-mill"):
        told = {where for where, _ in hn.machine.machines.machine(name).core.missing()}
        assert not told & {
            "swing_over_bed",
            "swing_over_cross_slide",
            "between_centres",
            "spindle_bore",
            "spindle_length",
        }
    CliRunner().invoke(command, ["machine", "new", "bare", "--system", "metric", "--out", str(tmp_path / "bare.toml")])
    out = CliRunner().invoke(command, ["machine", "check", str(tmp_path / "bare.toml")]).output
    for key in (
        "swing_over_bed",
        "swing_over_cross_slide",
        "between_centres",
        "spindle_bore",
        "opening_greatest",
        "jaw_weight",
    ):
        assert key in out


def test_every_optional_size_of_the_template_is_read(tmp_path):
    for system in ("inch", "metric"):
        path = tmp_path / f"{system}.toml"
        CliRunner().invoke(command, ["machine", "new", "full", "--system", system, "--out", str(path)])
        path.write_text(path.read_text().replace("#= ", ""))
        core = hn.lathe(path).core
        assert core.swing_over_cross_slide_mm < core.swing_mm < core.swing_in_gap_mm
        assert core.chucks[0].jaw_mass_kg > 0
        assert not [each for each in core.problems() if "swing" in each[0] or "opening" in each[0]]


def test_the_jaws_lose_grip_at_speed():
    how = {"stick_out": "50 mm", "friction": 0.15, "safety": 2.0, "depth": "1 mm", "feed": "0.2 mm/rev"}
    found = hold("6061-T6", "40 mm", machine="metric-lathe", **how)
    still = hold("6061-T6", "40 mm", spindle_rpm=found.cut.spindle_rpm, **how)
    jaw_kg, rim_m, turns_s = 0.5, 0.080, found.cut.spindle_rpm / 60
    lost = jaw_kg * rim_m * (2 * math.pi * turns_s) ** 2
    assert found.jaw_force_n - still.jaw_force_n == pytest.approx(lost, rel=1e-9)


def test_the_grip_that_is_not_computed_is_among_what_is_assumed():
    how = {"length": "40 mm", "machine": "metric-lathe"}
    assert any("grip" in item for item in choose("turn", "6061-T6", "32 mm", "28 mm", **how).assumed)
    told = choose("turn", "6061-T6", "32 mm", "28 mm", jaw_force_n=8000.0, **how)
    assert not any("grip" in item for item in told.assumed)


def test_cuts_longer_than_the_slide_goes_are_cautioned():
    deep = cutting.drill("6061-T6", "20 mm", depth="120 mm", machine="metric-lathe")
    assert "90 mm" in next(item.text for item in deep.cautions if item.code == "over_travel")
    assert "over_travel" in codes(cutting.drill("6061-T6", "20 mm", depth="95 mm", machine="bench-mill"))
    side = {"shape": "side", "depth": "5 mm", "width": "2 mm", "machine": "bench-mill"}
    assert "over_travel" in codes(cutting.mill("6061-T6", "10 mm", length="500 mm", **side))
    assert "over_travel" not in codes(cutting.mill("6061-T6", "10 mm", length="400 mm", **side))


@pytest.mark.parametrize(
    ("cut", "travel"),
    [
        # across, all but the first bite, a pocket's all but the cutter; down, the whole depth
        ({"shape": "face", "width": "220 mm", "depth": "1 mm"}, 170),
        ({"shape": "pocket", "width": "185 mm", "depth": "1 mm"}, 170),
        ({"shape": "side", "width": "2 mm", "depth": "330 mm", "step_down": "10 mm"}, 320),
        ({"shape": "face", "width": "170 mm", "depth": "1 mm"}, None),
        ({"shape": "pocket", "width": "175 mm", "depth": "1 mm"}, None),
        ({"shape": "side", "width": "2 mm", "depth": "310 mm", "step_down": "10 mm"}, None),
    ],
)
def test_cuts_wider_or_deeper_than_the_table_goes_are_cautioned(cut, travel):
    """The bench mill goes 450 by 170 by 320 mm."""
    found = cutting.mill("6061-T6", "10 mm", length="200 mm", machine="bench-mill", **cut)
    said = [item.text for item in found.cautions if item.code == "over_travel"]
    assert [f"{travel} mm" in text for text in said] == ([] if travel is None else [True])
    jobs = {
        name: [float(text.split()[0])]
        for name, text in {"width_mm": cut["width"], "depth_mm": cut["depth"]}.items()
    } | {"cutter_diameter_mm": [10.0], "length_mm": [200.0]}  # fmt: skip
    if "step_down" in cut:
        jobs["step_down_mm"] = [float(cut["step_down"].split()[0])]
    done = batch.mill(jobs, alloy="6061-T6", shape=cut["shape"], machine="bench-mill", columns=["cautions", "status"])
    assert ("over_travel" in batch.cautions(int(done["cautions"][0]))) == (travel is not None)


def test_work_over_the_cross_slide_is_cautioned_only_while_it_may_be_short():
    """A disc may stand beside the slide with the tool reaching out over its edge, so without a length, or faced, it is
    cautioned. Along a length the carriage goes under it: how far a tool reaches is no figure of the machine."""
    disc = {"machine": "gap-bed", "chuck": "12 in faceplate"}
    assert "over_cross_slide" in codes(cutting.turn("1018", "10 in", **disc))
    assert "over_cross_slide" in codes(cutting.face("1018", "10 in", **disc))
    for length in ("0.1 in", "5 in"):
        with pytest.raises(hn.DomainError, match=r"10 in .* over the swing over the cross slide .* 7\.75 in"):
            cutting.turn("1018", "10 in", length=length, **disc)
    with pytest.raises(hn.DomainError, match="over the swing over the cross slide"):
        choose("turn", "1018", "10 in", "9.8 in", length="1 in", **disc)


def test_every_size_of_the_core_is_read_from_the_file():
    given = {name for name in dir(_core.Machine) if name.startswith(("swing_", "spindle_l", "spindle_b", "between"))}
    assert given == {
        "swing_mm", "swing_over_bed_mm", "swing_over_cross_slide_mm", "swing_in_gap_mm", "between_centres_mm",
        "spindle_bore_mm", "spindle_length_mm",
    }  # fmt: skip
