"""Threads beside ISO metric and Unified at the bench: plugs, parts cut to suit, remedies, gears of taper threads."""

import json
import math
import re

import pytest
from click.testing import CliRunner

import halfnut as hn
from halfnut import _core, cli
from halfnut.threads.formulas import pitch_diameter_from_wires_exact_mm
from halfnut.threads.questions import shop_plug

NUTS = ["Tr16x4-7H", "Tr40x14(P7)-8H", "1-5 Acme-2G", "1-5 Acme-3C", "1-5 Stub Acme-2G", "G1/2", "1/4-20 BSW", "M10-6H"]


@pytest.mark.parametrize("text", NUTS)
def test_a_plug_is_read_as_its_sizes(text):
    plug = shop_plug(text)
    nut = hn.limits(text, side="internal")
    angle = nut.half_angle_deg
    pitch = nut.pitch_mm
    for end, size in (("go", nut.pitch_min), ("not_go", nut.pitch_max)):
        wanted = size * (25.4 if nut.unit == "in" else 1.0)
        cut = getattr(plug, f"{end}_pitch_mm")
        assert cut == pytest.approx(wanted, abs=1e-9)
        reading = getattr(plug, f"{end}_over_wires_mm")
        crest = getattr(plug, f"{end}_major_mm")
        again = pitch_diameter_from_wires_exact_mm(reading, crest, pitch, nut.lead_mm, angle, plug.wire_mm)
        assert again == pytest.approx(cut, abs=1e-9)
        # the plain formula, lead angle left aside, is near where the lead is small
        plain = cut + plug.wire_mm * (1 + 1 / math.sin(math.radians(angle))) - pitch / 2 / math.tan(math.radians(angle))
        assert reading == pytest.approx(plain, abs=0.4 if nut.starts > 1 else 0.04)
    assert plug.go_pitch_mm < plug.go_major_mm and plug.not_go_pitch_mm < plug.not_go_major_mm


def test_the_crest_of_a_plug():
    # the screw's crest, not the nut's root with its clearance: 16, not 16.5; centralizing threads touch there
    assert shop_plug("Tr16x4-7H").go_major_mm == 16.0
    assert shop_plug("1-5 Acme-2G").go_major_mm == 25.4
    assert shop_plug("1-5 Acme-2C").go_major_mm == hn.limits("1-5 Acme-2C", side="internal").major_min_mm
    # two thirds of the depth over the pitch line: of 4 mm pitch 2/3 of 1 mm to a side; of 60 degrees H/4
    tr = shop_plug("Tr16x4-7H")
    assert tr.not_go_major_mm - tr.not_go_pitch_mm == pytest.approx(2 * 2 / 3 * 1.0)
    m10 = shop_plug("M10-6H")
    assert m10.not_go_major_mm - m10.not_go_pitch_mm == pytest.approx(0.5 * 1.5 * math.sqrt(3) / 2)
    with pytest.raises(hn.DomainError, match="does not name an internal thread"):
        shop_plug("Tr16x4-7e")
    with pytest.raises(hn.DomainError, match="a plug tries an internal thread that has a designation, got Tr16x4-7e"):
        shop_plug(hn.limits("Tr16x4-7e"))
    with pytest.raises(hn.NotTabulatedError, match="taper"):
        shop_plug("Rc1/2")


def test_a_lead_screw_is_cut_to_suit_its_nut():
    suited = hn.cut_to_suit("Tr16x4", internal_pitch="14.2 mm", clearance="0.05-0.15 mm", build_up="2-3 um")
    change = 2 / math.sin(math.radians(15)) / 1000
    # coated by 3 um it keeps 0.05 of clearance, coated by 2 um at most 0.15
    assert suited.pitch_max_mm == pytest.approx(14.2 - 0.05 - 3 * change)
    assert suited.pitch_min_mm == pytest.approx(14.2 - 0.15 - 2 * change)
    again = pitch_diameter_from_wires_exact_mm(suited.over_max_mm, 16.0, 4.0, 4.0, 15.0, suited.wire_mm)
    assert again == pytest.approx(suited.pitch_max_mm, abs=1e-9)
    assert suited.thread == "Tr16x4-7e"
    # a single clearance is the least; the greatest adds the tolerance of the class
    single = hn.cut_to_suit("Tr16x4", internal_pitch="14.2 mm", clearance="0.05 mm")
    bare = hn.limits("Tr16x4-7e")
    assert single.clearance_max_mm == pytest.approx(0.05 + bare.pitch_max_mm - bare.pitch_min_mm)
    nut = hn.cut_to_suit("1-5 Acme-2G", external_pitch="0.885 in", clearance="0.002-0.008 in")
    assert nut.side == "internal" and nut.plug is not None
    assert nut.plug.go_pitch_mm == pytest.approx(0.887 * 25.4)
    assert nut.plug.go_major_mm == 25.4


@pytest.mark.parametrize("pair", [("Tr40x7-7e", "Tr40x7-7H"), ("1-5 Acme-2G", "1-5 Acme-2G"), ("G1/2 A", "G1/2")])
@pytest.mark.parametrize("where", ["external", "internal", "both"])
def test_a_remedy_for_a_coated_form_gauges_when_worked_by_hand(pair, where):
    """Cut as the page says and coated by the least and the most, each part is within its own limits."""
    film = {"Tr40x7-7e": (20.0, 24.0), "1-5 Acme-2G": (25.0, 30.0), "G1/2 A": (6.0, 8.0)}[pair[0]]
    coats = {f"build_up_{side}": _core.BuildUp(*film) for side in ("external", "internal") if where in (side, "both")}
    answer = hn.fit(*pair, **coats)
    assert answer.verdict == "may bind"
    remedy = answer.remedies[0]
    assert remedy.startswith("cut ") and "gauge at its own limits after" in remedy
    numbers = re.findall(r"to pitch ([\d.]+)/([\d.]+) (mm|in)", remedy)
    sides = [side for side in ("external", "internal") if where in (side, "both")]
    assert len(numbers) == len(sides)
    for side, (high, low, unit) in zip(sides, numbers, strict=True):
        own = hn.limits(pair[0 if side == "external" else 1], side=side)
        scale = 25.4 if unit == "in" else 1.0
        sense = 1 if side == "external" else -1
        for size in (float(high) * scale, float(low) * scale):
            for um in film:
                coated = size + sense * 2 * um / math.sin(math.radians(own.half_angle_deg)) / 1000
                assert own.pitch_min_mm - 1e-9 <= coated <= own.pitch_max_mm + 1e-9, (side, size, um)


@pytest.mark.parametrize(
    ("text", "lead"), [("1/2-14 NPT", 25.4 / 14), ("1-11.5 NPT", 25.4 / 11.5), ("R1/2", 25.4 / 14)]
)
def test_gears_of_a_taper_thread_are_those_of_its_lead(text, lead):
    found = hn.gear_train(text, gears=[20, 30, 40, 50, 60, 70, 80, 90, 92, 100, 120, 127], leadscrew="8 TPI")
    assert found[0].gives_mm == pytest.approx(lead, rel=1e-12)
    assert found[0].exact
    assert found[0].pitch_tolerance_mm is None
    over = hn.taper_pipe(text).hand_engagement_mm
    assert found[0].engagement_mm == pytest.approx(over)


def test_every_class_of_a_form_is_tried():
    """By hand: a measured size against the limits of each class."""
    for text, names, share in [
        ("Tr40x7-7e", ("7e", "8e", "9e", "7c", "8c", "9c"), (0.5, 1.5, -0.5)),
        ("Tr40x7-8H", ("7H", "8H", "9H"), (0.2, 0.9, 1.4)),
        ("1-5 Acme-2G", ("2C", "2G", "3C", "3G", "4C", "4G"), (0.1, 0.5, 1.2)),
        ("1/2-12 BSW", ("close", "free", "medium"), (0.5, 0.9, 1.4)),
        ("G1/2 A", ("A", "B"), (0.5, 1.5)),
        ("G1/2", ("G1/2",), (0.5, 1.5)),
    ]:
        own = hn.limits(text)
        for each in share:
            size = own.pitch_max_mm - each * (own.pitch_max_mm - own.pitch_min_mm)
            found = hn.judge(text, pitch=hn.mm(size))
            assert sorted(each.name for each in found.classes) == sorted(names), text
            met = []
            for name in names:
                spelt = own.title if name == text else re.sub(r"-?( ?[AB]|[0-9]\w|medium)?( external)?$", "", own.title)
                spelt += "" if name == text else f" {name}" if name in "AB" else f"-{name}"
                limits = hn.limits(spelt, side=own.side)
                if limits.pitch_min_mm - 1e-9 <= size <= limits.pitch_max_mm + 1e-9:
                    met.append(name)
            assert sorted(found.classes_met) == sorted(met), (text, each)
            assert found.passes == (0 <= each <= 1)
            assert "judge_these_limits" not in {c.code for c in found.told}
    limits = hn.precoat(hn.limits("Tr40x7-7e"), _core.BuildUp(2.0, 3.0))
    before = hn.judge(limits, pitch=hn.mm(limits.pitch_max_mm))
    assert before.passes and before.classes_met == ("7e",)
    assert "judge_these_limits" in {c.code for c in before.told}


@pytest.mark.parametrize(
    "args",
    [
        ("limits", "Tr16x4-7e"),
        ("limits", "Rp1/2"),
        ("taper-pipe", "Rc1/2"),
        ("gear-train", "Rp1/2", "--machine", "gap-bed"),
        ("precoat", "Tr16x4-7e", "8 um"),
        ("precoat", "G1/2 A", "anodise II 12 um", "--on", "6061-T6"),
        ("wires", "1-5 Acme-2G", "--coating", "8 um"),
        ("shop-plug", "Tr16x4-7H"),
        ("cut-to-suit", "Tr16x4", "--internal-pitch", "14.2mm", "--clearance", "0.05-0.15mm"),
        ("judge", "Tr16x4-7e", "--pitch", "13.8mm"),
    ],
    ids=" ".join,
)
def test_every_question_takes_every_form(args):
    runner = CliRunner()
    said = runner.invoke(cli.command, list(args))
    assert said.exit_code == 0, said.output
    figures = json.loads(runner.invoke(cli.command, [*args, "--json"]).output)
    assert figures["evidence"]


def test_what_such_threads_have_no_use_for_is_refused():
    runner = CliRunner()
    out = runner.invoke(cli.command, ["precoat", "Tr16x4-7e", "8 um", "--gauged-at", "class"])
    assert out.exit_code == 1 and "gauged_at: no standard of this form" in str(out.exception)
    with pytest.raises(hn.DomainError, match="anod"):
        hn.precoat("Tr16x4-7e", "anodise II 12 um", on="1018")
