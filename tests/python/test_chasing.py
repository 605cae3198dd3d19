"""Chasing: published infeeds and dials, schedules as properties, and an operator who follows the printed steps."""

import csv
import math
from collections import Counter
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import halfnut as hn
from halfnut import _core, chasing

REFERENCE = Path(__file__).parents[1] / "reference" / "cutting" / "chasing.csv"


def rows():
    with REFERENCE.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def agrees(got, printed):
    return abs(got - float(printed)) <= 0.5000001 * 10.0 ** -len(printed.split(".")[1])


def test_published_infeeds_and_dials():
    counted = Counter()
    for row in rows():
        if row["what"] == "compound":
            depth = 0.649519053 * float(row["pitch"])
            assert agrees(chasing.compound_travel_mm(depth, float(row["angle_deg"])), row["figure"]), row
        elif row["what"] == "infeed":
            pitch = float(row["pitch"])
            height = pitch * math.sqrt(3) / 2
            outer = row["side"] == "external"
            # a basic thread: the depth 17H/24 is a round nose of H/6, 5H/8 a flat one of P/8
            depth = chasing.chasing_depth_mm(
                10.0 if outer else 10.0 - 1.25 * height,
                10.0 - 0.75 * height,
                pitch,
                30.0,
                height / 6 if outer else 0.0,
                0.0 if outer else pitch / 8,
                0.0 if outer else 1.0,
            )
            assert agrees(chasing.compound_travel_mm(depth, float(row["angle_deg"])), row["figure"]), row
        else:
            wheel, screw = (int(part) for part in row["dial"].split("/"))
            lead, leadscrew = Fraction("25.4") / Fraction(row["pitch"]), Fraction("25.4") / screw
            found = _core.thread_dial(lead.as_integer_ratio(), leadscrew.as_integer_ratio(), wheel, 8)
            assert found["every"] == int(row["every"]), row
        counted[row["what"], row["kind"]] += 1
    assert counted == {("compound", "printed"): 2, ("infeed", "derived"): 64, ("dial", "printed"): 14}


@given(st.integers(1, 60), st.integers(1, 16), st.integers(1, 64), st.integers(1, 16))
def test_the_thread_dial_against_counting_turns(threads, screw, wheel, marks):
    lead, leadscrew = Fraction("25.4") / threads, Fraction("25.4") / screw
    found = _core.thread_dial(lead.as_integer_ratio(), leadscrew.as_integer_ratio(), wheel, marks)
    travels = [k * wheel * leadscrew / marks / lead for k in range(1, marks + 1)]
    fits = [k for k, travel in enumerate(travels, 1) if travel.denominator == 1]
    # a turn that is no whole number of leads makes one mark mean two things
    assert found["every"] == (fits[0] if marks in fits else 0)


def test_leads_are_exact_fractions():
    for text, lead in (("M24xPh3P1.5-6g", Fraction(3)), ("1/4-20 UNC-2A", Fraction("1.27")), ("2-4.5 UNC-2A", None)):
        num, den = _core.thread_lead_fraction(hn.thread(text))
        assert Fraction(num, den) == (lead or Fraction("25.4") / Fraction("4.5"))


NUMBERS = st.fixed_dictionaries(
    {
        "pitch_mm": st.floats(0.4, 6.0),
        "share": st.floats(0.0, 0.95),
        "graduation_mm": st.floats(0.005, 0.05),
        "first_mm": st.floats(0.1, 0.5),
        "least_mm": st.floats(0.01, 0.1),
        "kc11_n_mm2": st.floats(300, 3000),
        "mc": st.floats(0.1, 0.4),
    }
)


@given(NUMBERS, st.sampled_from(["flank", "straight", "alternating"]), st.booleans(), st.booleans())
@settings(max_examples=300, deadline=None)
def test_properties_of_the_schedule(numbers, infeed, internal, equal_depths):
    numbers = dict(numbers)
    height = numbers["pitch_mm"] * math.sqrt(3) / 2
    wide = 4 * numbers["pitch_mm"]
    numbers["nose_radius_mm"] = numbers.pop("share") * height / 2
    numbers |= {"pitch_diameter_mm": wide - 0.75 * height, "blank_mm": wide - (1.25 * height if internal else 0.0)}
    numbers["first_mm"] = max(numbers["first_mm"], numbers["least_mm"], numbers["graduation_mm"])
    numbers["least_mm"] = min(numbers["least_mm"], numbers["first_mm"])
    plan = _core.chase_schedule(internal, infeed, equal_depths, numbers)
    lines = [0, *(each["line"] for each in plan["passes"])]
    steps = np.diff(lines)
    lean = math.cos(math.radians(29.5)) if infeed == "flank" else 1.0
    assert (steps >= 1).all()
    # the dial adds up: whole lines, the remainder said, never past the pitch diameter
    assert lines[-1] * numbers["graduation_mm"] - plan["remainder_mm"] == pytest.approx(plan["travel_mm"], rel=1e-9)
    assert -numbers["graduation_mm"] < plan["remainder_mm"] <= 0.0
    assert plan["travel_mm"] * lean == pytest.approx(plan["depth_mm"], rel=1e-12)
    # no pass takes more than the limit unless it is the least that a pass may be
    least = max(1, round(numbers["least_mm"] / numbers["graduation_mm"]))
    for step, each in zip(steps, plan["passes"], strict=True):
        if step > least:
            assert step * numbers["graduation_mm"] <= numbers["first_mm"] * (1 + 1e-9)
            assert equal_depths or each["area_mm2"] <= plan["area_limit_mm2"] * (1 + 1e-9)
        assert each["force_n"] > 0
    assert sum(each["measure"] for each in plan["passes"]) in (1, 2)
    assert sum(each["shift_mm"] != 0 for each in plan["passes"]) == 0 or infeed == "alternating"


def test_a_force_limit_is_kept_or_refused():
    numbers = {
        "pitch_mm": 2.0,
        "blank_mm": 20.0,
        "pitch_diameter_mm": 18.7,
        "nose_radius_mm": 0.25,
        "graduation_mm": 0.01,
        "kc11_n_mm2": 1500.0,
        "mc": 0.25,
    }
    free = _core.chase_schedule(False, "flank", False, numbers)
    most = max(each["force_n"] for each in free["passes"])
    held = _core.chase_schedule(False, "flank", False, {**numbers, "force_limit_n": most / 2})
    assert max(each["force_n"] for each in held["passes"]) <= most / 2
    assert len(held["passes"]) > len(free["passes"])
    assert held["passes"][-1]["line"] == free["passes"][-1]["line"]
    with pytest.raises(hn.DomainError, match="force_limit_n 5 is not kept by even one line"):
        _core.chase_schedule(False, "flank", False, {**numbers, "force_limit_n": 5.0})


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


@pytest.mark.parametrize(
    ("text", "machine"),
    [("7/8-14 UNF-2A", "gap-bed"), ("1/4-20 UNC-2A", "gap-bed"), ("M24x1.5-6g", "metric-lathe"), ("M24x1.5-6H", None)],
)
def test_an_operator_who_follows_the_steps_ends_inside_the_limits(text, machine):
    found = chasing.chase(text, machine=machine)
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
    inch = chasing.chase("7/8-14 UNF-2A", machine="gap-bed", alloy="6061-T6")
    assert inch.compound_marked_deg == 29.5
    assert inch.spindle_rpm <= inch.stopping_rpm
    assert inch.dial_every == 1
    assert "Close the half nut at any mark" in str(inch)
    metric = chasing.chase("M24x1.5-6g", machine="gap-bed")
    assert metric.dial_every == 0
    assert "keep the half nut closed" in str(metric)
    assert inch.unit == metric.unit == "in"  # the dial's
    along = chasing.chase("M24x1.5-6g", machine="metric-lathe")
    assert along.compound_marked_deg in {29.5, 60.5}
    assert inch.stop.over_wires_mm is not None
    assert inch.passes[-1].over_wires_mm == pytest.approx(
        hn.wires("7/8-14 UNF-2A").over_max_mm - (inch.pitch_max_mm - inch.passes[-1].pitch_diameter_mm), abs=5e-4
    )


def test_a_lathe_that_cannot_run_slowly_enough_says_so():
    found = chasing.chase("7/8-14 UNF-2A", machine="gap-bed", alloy="6061-T6", run_out="0.3 mm")
    assert "chase_cannot_stop" in {item.code for item in found.cautions}
    assert "upside down" in str(found)


def test_without_an_alloy_no_spindle_step_is_named():
    for run_out in ("0 mm", "3 mm"):
        assert chasing.chase("7/8-14 UNF-2A", machine="gap-bed", run_out=run_out).spindle_rpm is None
    told = str(chasing.chase("7/8-14 UNF-2A", machine="gap-bed"))
    assert "to stop by hand" in told
    assert "machine's manual" in told


def test_left_hand_and_several_starts_have_their_own_steps():
    assert "Left-hand" in str(chasing.chase("7/8-14 UNF-2A-LH"))
    assert "2 starts" in str(chasing.chase("M24xPh3P1.5-6g"))
    assert chasing.chase("M24xPh3P1.5-6g").start_shift_mm == 1.5


def test_noses_that_do_not_suit_are_refused_or_told():
    with pytest.raises(hn.DomainError, match="the nose is too wide"):
        chasing.chase("M10-6g", nose_radius="0.8 mm")
    with pytest.raises(hn.DomainError, match="round or flat"):
        chasing.chase("M10-6g", nose_radius="0.1 mm", nose_flat="0.1 mm")
    with pytest.raises(hn.DomainError, match="leaves nothing to cut"):
        chasing.chase("M10-6g", blank="7 mm")
    with pytest.raises(hn.DomainError, match="above the flank's 30"):
        chasing.chase("M10-6g", compound_deg=31.0)
    assert "chase_root_binds" in {item.code for item in chasing.chase("M10-6g", nose_radius="0.45 mm").cautions}
    assert "chase_root_deep" in {item.code for item in chasing.chase("M10-6g", nose_radius="0.01 mm").cautions}
