"""Chasing: published infeeds, and an operator who follows the printed steps."""

import csv
import math
from collections import Counter
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest

import halfnut as hn
from halfnut import _core

REFERENCE = Path(__file__).parents[2] / "reference" / "cutting" / "chasing.csv"


def rows():
    with REFERENCE.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def agrees(got, printed):
    return abs(got - float(printed)) <= 0.5000001 * 10.0 ** -len(printed.split(".")[1])


def test_published_infeeds():
    counted = Counter()
    for row in rows():
        if row["what"] == "compound":
            depth = 0.649519053 * float(row["pitch"])
            assert agrees(hn.cutting.compound_travel_mm(depth, float(row["angle_deg"])), row["figure"]), row
        elif row["what"] == "infeed":
            pitch = float(row["pitch"])
            height = pitch * math.sqrt(3) / 2
            outer = row["side"] == "external"
            # a basic thread: the depth 17H/24 is a round nose of H/6, 5H/8 a flat one of P/8
            depth = hn.cutting.chasing_depth_mm(
                10.0 if outer else 10.0 - 1.25 * height,
                10.0 - 0.75 * height,
                pitch,
                30.0,
                height / 6 if outer else 0.0,
                0.0 if outer else pitch / 8,
                0.0 if outer else 1.0,
            )
            assert agrees(hn.cutting.compound_travel_mm(depth, float(row["angle_deg"])), row["figure"]), row
        else:
            continue  # dials: tests/cpp/cutting/chase_test.cpp
        counted[row["what"], row["kind"]] += 1
    assert counted == {("compound", "printed"): 2, ("infeed", "derived"): 64}


def test_leads_are_exact():
    for text, lead in (("M24xPh3P1.5-6g", 3.0), ("1/4-20 UNC-2A", 1.27), ("2-4.5 UNC-2A", 25.4 / 4.5)):
        assert hn.chase(text).lead_mm == pytest.approx(lead, rel=1e-15)


def operator(found, random, nose_error):
    """Follow the printed steps with a springy tool, a worn nose and readings that err; the pitch diameter left, mm."""
    sign = -1.0 if found.side == "internal" else 1.0
    lean = math.cos(math.radians(found.compound_deg)) if found.compound_deg is not None else 1.0
    touch = random.uniform(-0.015, 0.015)  # how far the dial's zero lies off the blank
    spring = random.uniform(0.05, 0.4)  # share of a pass that the tool gives way by

    def reading_error():
        return random.uniform(-0.0002, 0.0002) * 25.4

    def cut(depth, line, spring_passes):
        wanted = line * found.line_mm * lean + touch - nose_error
        for _ in range(1 + spring_passes):
            depth = max(depth, depth + (wanted - depth) * (1.0 - spring))
        return depth

    def pitch_diameter(depth):
        return found.pitch_diameter_mm + sign * 2.0 * (found.depth_mm - depth)

    depth, line = 0.0, 0
    for each in found.passes:
        line = each.line
        depth = cut(depth, line, 8 if each.measure else 0)
        if each.measure:
            break
    stopped = pitch_diameter(depth)
    for share in (0.5, 1.0, 1.0):
        left = sign * (pitch_diameter(depth) + reading_error() - found.pitch_diameter_mm)
        lines = math.floor(left / found.line_on_pitch_diameter_mm * share)
        if lines > 0:
            line += lines
            depth = cut(depth, line, 8)
    return stopped, pitch_diameter(depth)


ACME = {
    "pitch": "5 tpi",
    "half_angle_deg": 14.5,
    "pitch_diameter": ("0.8806 in", "0.8920 in"),
    "major": ("0.9900 in", "1.0000 in"),
    "minor": ("0.7509 in", "0.7800 in"),
}


@pytest.mark.parametrize(
    ("text", "machine"),
    [
        ("7/8-14 UNF-2A", "gap-bed"),
        ("1/4-20 UNC-2A", "gap-bed"),
        ("M24x1.5-6g", "metric-lathe"),
        ("M24x1.5-6H", None),
        ("Acme", "gap-bed"),
    ],
)
def test_an_operator_who_follows_the_steps_ends_inside_the_limits(text, machine):
    found = hn.chase(hn.plain_thread("external", **ACME) if text == "Acme" else text, machine=machine)
    random = np.random.default_rng(20)
    inside = 0
    runs = 10_000
    for _ in range(runs):
        nose_error = random.uniform(-0.02, 0.02)
        stopped, ended = operator(found, random, nose_error)
        inside += found.pitch_min_mm <= ended <= found.pitch_max_mm
        if found.side == "external":
            assert stopped > found.pitch_max_mm and ended >= found.pitch_min_mm
        else:
            assert stopped < found.pitch_min_mm and ended <= found.pitch_max_mm
    assert inside >= 0.99 * runs


def test_settings_are_told_on_the_lathes_own_scale():
    inch = hn.chase("7/8-14 UNF-2A", machine="gap-bed", alloy="6061-T6")
    assert inch.compound_marked_deg == 29.5
    assert inch.spindle_rpm <= inch.stopping_rpm
    assert inch.dial_every == 1
    assert "Close the half nut at any mark" in inch.why()
    metric = hn.chase("M24x1.5-6g", machine="gap-bed")
    assert metric.dial_every == 0
    assert "keep the half nut closed" in metric.why()
    assert inch.unit == metric.unit == "in"  # the dial's
    along = hn.chase("M24x1.5-6g", machine="metric-lathe")
    assert along.compound_marked_deg in {29.5, 60.5}
    assert inch.stop.over_wires_mm is not None
    assert inch.passes[-1].over_wires_mm == pytest.approx(
        hn.wires("7/8-14 UNF-2A").over_max_mm - (inch.pitch_max_mm - inch.passes[-1].pitch_diameter_mm), abs=5e-4
    )


def test_a_lathe_that_cannot_run_slowly_enough_says_so():
    found = hn.chase("7/8-14 UNF-2A", machine="gap-bed", alloy="6061-T6", run_out="0.3 mm")
    assert "chase_cannot_stop" in {item.code for item in found.cautions}
    assert "upside down" in found.why()
    # a left-hand thread starts in the groove: nothing to stop for
    left = hn.chase("7/8-14 UNF-2A-LH", machine="gap-bed", alloy="6061-T6", run_out="0.3 mm")
    assert "chase_cannot_stop" not in {item.code for item in left.cautions}
    assert left.stop_run_out_mm is None


def test_without_an_alloy_no_spindle_step_is_named():
    for run_out in ("0 mm", "3 mm"):
        assert hn.chase("7/8-14 UNF-2A", machine="gap-bed", run_out=run_out).spindle_rpm is None
    told = hn.chase("7/8-14 UNF-2A", machine="gap-bed").why()
    assert "to stop by hand" in told
    assert "licensed practice" in told


def test_left_hand_and_several_starts_have_their_own_steps():
    assert "Left-hand" in hn.chase("7/8-14 UNF-2A-LH").why()
    assert "2 starts" in hn.chase("M24xPh3P1.5-6g").why()
    assert hn.chase("M24xPh3P1.5-6g").start_shift_mm == 1.5


def test_noses_that_do_not_suit_are_refused_or_told():
    with pytest.raises(hn.DomainError, match="the nose is too wide"):
        hn.chase("M10-6g", nose_radius="0.8 mm")
    with pytest.raises(hn.DomainError, match="round or flat"):
        hn.chase("M10-6g", nose_radius="0.1 mm", nose_flat="0.1 mm")
    with pytest.raises(hn.DomainError, match="leaves nothing to cut"):
        hn.chase("M10-6g", blank="7 mm")
    with pytest.raises(hn.DomainError, match="above the flank's 30"):
        hn.chase("M10-6g", compound_deg=31.0)
    assert "chase_root_binds" in {item.code for item in hn.chase("M10-6g", nose_radius="0.45 mm").cautions}
    assert "chase_root_deep" in {item.code for item in hn.chase("M10-6g", nose_radius="0.01 mm").told}


@pytest.mark.parametrize(
    ("half_angle", "infeed"), [(14.5, "flank"), (15.0, "straight"), (20.0, "flank"), (14.5, "alternating")]
)
def test_other_forms_are_chased_by_their_flank_angle(half_angle, infeed):
    given_thread = hn.plain_thread("external", **{**ACME, "half_angle_deg": half_angle})
    found = hn.chase(given_thread, infeed=infeed, machine="gap-bed")
    assert found.half_angle_deg == half_angle
    # the nose that is assumed leaves the root that the sizes ask for
    assert found.root_mm == pytest.approx(0.7800 * 25.4, abs=1e-6)
    if infeed == "flank":
        assert found.compound_deg == half_angle - 0.5
        assert found.travel_mm == pytest.approx(found.depth_mm / math.cos(math.radians(half_angle - 0.5)))
    assert found.train is not None and found.train.exact
    assert 0.8806 * 25.4 <= found.passes[-1].pitch_diameter_mm <= 0.8920 * 25.4
    # the groove at the pitch line is half a pitch wide
    from_root = (found.pitch_diameter_mm - found.root_mm) / 2
    wide = found.nose_flat_mm + 2 * from_root * math.tan(math.radians(half_angle))
    assert wide == pytest.approx(found.lead_mm / 2)
    with pytest.raises(hn.DomainError, match="give nose_radius or nose_flat"):
        hn.chase(hn.plain_thread("external", **{**ACME, "minor": None}))


def test_an_internal_thread_is_read_across_balls():
    found = hn.chase("M24x1.5-6H", machine="metric-lathe")
    balls = hn.wires("M24x1.5-6H")
    assert found.wire_mm == balls.wire_mm
    assert found.stop.over_wires_mm is not None
    # the readings go with the pitch diameter, and the steps say how
    last = found.passes[-1]
    assert last.over_wires_mm == pytest.approx(
        balls.over_max_mm - (found.pitch_max_mm - last.pitch_diameter_mm), abs=5e-3
    )
    assert "Across balls of" in found.why() and "subtract the reading from" in found.why()


def test_the_dials_turns_and_lines_add_up_to_the_lines_from_touching():
    for infeed, around in (("flank", 100), ("straight", 200)):
        found = hn.chase("7/8-14 UNF-2A", machine="gap-bed", infeed=infeed)
        for each in found.passes:
            assert each.turns * around + each.dial == each.line
            assert 0 <= each.dial < around
        assert found.cross_travel_mm == found.depth_mm
        assert f"the dial at {found.passes[-1].at}" in " ".join(found.why().split())


def test_change_gears_come_with_a_lead_that_the_gearbox_lacks():
    found = hn.chase("M24x1.5-6g", machine="gap-bed")
    assert found.train is not None and not found.train.standard
    assert f"Change gears {found.train.gears}: exact, closes." in found.steps
    standard = hn.chase("7/8-14 UNF-2A", machine="gap-bed")
    assert standard.train is not None and standard.train.standard
    assert not any(step.startswith("Change gears") for step in standard.steps)
    double = hn.chase("M24xPh3P1.5-6g", machine="gap-bed")
    assert double.train is not None
    assert (double.train.index_teeth is None) != ("Or by the gears" in " ".join(double.why().split()))


def test_wheels_are_named_that_would_make_a_mark_fit():
    found = hn.chase("M12x1.75-6g", machine="metric-lathe")
    assert found.dial_every == 0 and found.dial_wheels
    for wheel in found.dial_wheels:
        # a turn of the dial is then a whole number of leads
        assert (Fraction(wheel) * 3 / Fraction("1.75")).denominator == 1
    assert "would let it open" in found.why()
    assert hn.chase("7/8-14 UNF-2A", machine="gap-bed").dial_wheels == ()


def test_the_run_out_that_the_slowest_step_needs_is_told():
    found = hn.chase("7/8-14 UNF-2A", machine="gap-bed", alloy="6061-T6", run_out="0.3 mm")
    slowest = hn.lathe("gap-bed").core.spindle[0].rpm
    assert found.stop_run_out_mm == pytest.approx(slowest / 60.0 * 25.4 / 14)
    assert hn.cutting.stopping_rpm(found.stop_run_out_mm, found.lead_mm, 1.0) == pytest.approx(slowest)
    assert "cutting from the groove away from the shoulder" in " ".join(found.why().split())
    assert hn.chase("7/8-14 UNF-2A", machine="gap-bed").stop_run_out_mm is None


def test_the_infeed_is_drawn_pass_by_pass():
    import matplotlib.pyplot as plt

    from halfnut.drawing.chasing import infeed_plot

    for infeed in ("flank", "straight", "alternating"):
        for text in ("M24x1.5-6g", "M24x1.5-6H"):
            found = hn.chase(text, infeed=infeed)
            axes = infeed_plot(found)
            assert axes.get_ylabel() == "below the blank, mm"
            deepest = max(max(line.get_ydata()) for line in axes.lines)
            assert deepest == pytest.approx(found.passes[-1].depth_mm, abs=1e-9)
            plt.close("all")


def test_a_tough_alloy_gets_shallower_first_passes():
    found = {alloy: hn.chase("1/2-13 UNC-2A", alloy=alloy) for alloy in ("6061-T6", "1018", "316")}

    def resists(alloy):
        constants = hn.force_band(alloy)
        return constants.kc11_n_mm2 * 0.1**-constants.mc

    assert resists("6061-T6") < resists("1018") < resists("316")
    first = {alloy: each.passes[0].line for alloy, each in found.items()}
    assert first["6061-T6"] == first["1018"] == 10  # lines of 0.001 in
    assert first["316"] == math.floor(10 * resists("1018") / resists("316")) < 10
    assert len(found["316"].passes) > len(found["1018"].passes)
    assert "chase_alloy" in {item.rule_id for item in found["316"].evidence}
    assert "chase_alloy" not in {item.rule_id for item in found["1018"].evidence}
    # what was asked for stands
    assert hn.chase("1/2-13 UNC-2A", alloy="316", first="0.010 in").passes[0].line == 10


@pytest.mark.parametrize(
    ("text", "angle", "round_nose"),
    [("Tr 20x4-7e", 15.0, False), ("1-5 ACME-2G", 14.5, False), ("1/2-12 BSW", 27.5, True), ("G 1/2 A", 27.5, True)],
)
def test_threads_of_other_forms_are_chased_by_their_designation(text, angle, round_nose):
    found = hn.chase(text, machine="gap-bed", alloy="brass")
    assert found.half_angle_deg == angle and found.compound_deg == angle - 0.5
    assert (found.nose_radius_mm > 0) == round_nose and (found.nose_flat_mm > 0) != round_nose
    assert found.pitch_min_mm <= found.passes[-1].pitch_diameter_mm <= found.pitch_max_mm
    assert found.train is not None
    trains = hn.gear_train(text, machine="gap-bed")
    assert trains[0].wanted_mm == pytest.approx(found.lead_mm)
    if not trains[0].exact:
        counts = abs(trains[0].error) * trains[0].engagement_mm / math.tan(math.radians(angle))
        assert trains[0].on_pitch_diameter_mm == pytest.approx(counts)


# ASME B1.20.1: outside diameter of the pipe and threads per inch; its formulas, by which the check is made.
NPT = {
    "1/8": (0.405, 27),
    "1/4": (0.540, 18),
    "1/2": (0.840, 14),
    "1": (1.315, 11.5),
    "2": (2.375, 11.5),
    "3": (3.5, 8),
}


@pytest.mark.parametrize("size", NPT)
@pytest.mark.parametrize("machine", [None, "gap-bed", "metric-lathe"])
def test_a_taper_thread_is_cut_on_its_cone_to_its_gauge(size, machine):
    diameter, tpi = NPT[size]
    pitch = 25.4 / tpi
    at_end = 25.4 * (diameter - (0.05 * diameter + 1.1) / tpi)
    height = 0.8 * pitch
    found = hn.chase(f"{size}-{tpi:g} NPT", machine=machine)
    pipe = found.taper
    in_plane = at_end + pipe.hand_engagement_mm / 16
    assert found.pitch_diameter_mm == pytest.approx(in_plane, abs=0.003)
    assert found.blank_mm == pytest.approx(in_plane + height, abs=0.005)
    # a turn of the gauge is a pitch along the cone
    assert found.pitch_max_mm - found.pitch_min_mm == pytest.approx(2 * pitch / 16)
    assert found.depth_mm == pytest.approx(height, abs=found.line_on_pitch_diameter_mm)
    assert found.pitch_min_mm <= found.passes[-1].pitch_diameter_mm <= found.pitch_max_mm
    assert math.tan(math.radians(pipe.compound_setting_deg)) == pytest.approx(1 / 32)
    steps = " ".join(found.steps)
    small = _core.spell(found.blank_mm - pipe.hand_engagement_mm / 16, "length", found.unit)
    assert f"Turn to {small} at the end" in steps
    turns = found.line_on_pitch_diameter_mm * 16 / pitch
    assert f"A line brings it {turns:.2f} turns further" in steps
    assert "not to the taper" in steps and "groove" not in steps.split("without a groove")[1]
    assert found.wire_mm is None
    assert any("seals only with sealant" in str(item) for item in found.cautions)


def test_an_internal_taper_thread_is_bored_wide_at_the_mouth():
    found = hn.chase("Rc1/2")
    assert found.side == "internal" and found.half_angle_deg == 27.5
    pipe = hn.taper_pipe("Rc1/2")
    assert found.blank_mm == pytest.approx(pipe.hole_at_face_mm, abs=0.002)
    assert "large end at the mouth" in found.steps[0]
    with pytest.raises(hn.Error, match="not over wires"):
        hn.chase("R1/2", wire="1 mm")


def fitting(*threads):
    return {
        "title": "Dew heater's air line",
        "machine": "gap-bed",
        "parts": [
            {
                "name": "nipple",
                "quantity": 2,
                "alloy": "6061-T6",
                "length": "2 in",
                "stock": {"form": "bar", "diameter": "1 in", "bar_length": "36 in"},
                "operations": [{"do": "turn", "to": "0.840 in", "length": "1 in"}, *threads],
            }
        ],
    }


def test_a_job_cuts_a_taper_thread_and_its_sheet_says_when_to_stop(tmp_path):
    long = {"do": "thread", "thread": "1/2-14 NPT", "length": "0.8 in"}
    hole = {"do": "drill", "diameter": "23/32 in", "depth": "1.5 in"}
    inner = long | {"side": "internal"}
    plan = hn.plan(fitting(long, long | {"length": "0.4 in"}, hole, inner, long | {"thread": "Rc1/2"}))
    _, good, short, _, inside, outside = plan.parts[0].operations
    assert good.answer.record.thread == "1/2-14 NPT" and good.answer.cut.spindle_rpm <= good.answer.chasing.stopping_rpm
    assert not any("length" in each for each in good.answer.remarks)
    assert any("less than the 0.5337 in of full thread" in each for each in short.answer.remarks)
    assert "is tapped" in inside.error and "R or NPT" in outside.error
    plan.write(tmp_path)
    page = (tmp_path / "details.html").read_text("utf-8")
    # E0, E1 of ASME B1.20.1, with 0.8 of a pitch of height about them
    for figure in ("0.8156", "0.7584", "0.7013", "0.8356", "0.7784", "0.7213"):
        assert f">{figure}<" in page, figure
    card = (tmp_path / plan.parts[0].file).read_text("utf-8")
    assert "turns to come" in card and "Try the gauge" in card and "over wires" not in page + card
