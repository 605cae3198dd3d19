"""Joints, lock nuts, tapped holes and adjusters of trapezoidal, Acme, pipe and Whitworth threads."""

import math
import re
import sys
from collections import Counter
from pathlib import Path

import pytest
from click.testing import CliRunner

import halfnut as hn
from halfnut import cli, cutting, threads
from halfnut.core import catalogue
from halfnut.threads import formulas, standard

sys.path[:0] = [str(Path(__file__).parents[1]), str(Path(__file__).parents[2] / "oracles")]

import screw_contact as contact  # noqa: E402
from thread_reference import REFERENCE, rows  # noqa: E402

SCREWS = [(4.0, 18.0, 15.0, 0.15), (10.0, 20.0, 14.5, 0.12), (1.814, 14.6, 27.5, 0.2), (20.0, 18.0, 15.0, 0.1)]

CAUTIONS = {row["code"]: (row["rank"], row["text"]) for row in catalogue.rows("core/cautions")}


@pytest.mark.parametrize(("lead", "d2", "half", "f"), SCREWS)
def test_screws_agree_with_the_forces_on_their_flank(lead: float, d2: float, half: float, f: float) -> None:
    assert formulas.screw_efficiency(lead, d2, half, f) == pytest.approx(contact.efficiency(lead, d2, half, f))
    assert formulas.holding_friction(lead, d2, half) == pytest.approx(contact.holding_friction(lead, d2, half))
    # the textbook's torque has the flank angle in the axial plane, not across the thread: that counts where it is steep
    for sense, function in ((1, threads.tightening_torque_nm), (-1, threads.loosening_torque_nm)):
        wanted = contact.torque(1e4, lead, d2, half, f, sense) / 1000
        if sense < 0:
            wanted = -wanted
        got = function(1e4, d2, lead, half, f, 0.0, 0.0)
        assert abs(got) == pytest.approx(abs(wanted), rel=2e-3, abs=0.06), (sense, got, wanted)


def test_recalled_power_screws_agree() -> None:
    read: Counter[str] = Counter()
    for row in rows(REFERENCE / "power_screws.csv"):
        lead, d2, half, f, load, collar, across = (
            float(row[name])
            for name in (
                "lead",
                "pitch_diameter",
                "half_angle_deg",
                "friction",
                "load",
                "collar_friction",
                "collar_diameter",
            )
        )
        scale = 1000 if row["unit"] == "mm" else 1
        seat = load * collar * across / 2
        screw = load * lead / (2 * math.pi * formulas.screw_efficiency(lead, d2, half, f))
        up, down = (screw + seat) / scale, (seat - contact.torque(load, lead, d2, half, f, -1)) / scale
        assert up == pytest.approx(float(row["raise"]), rel=2e-3), row["id"]
        assert abs(down) == pytest.approx(float(row["lower"]), rel=2e-3), row["id"]
        assert round(load * lead / (2 * math.pi * up * scale), len(row["efficiency"]) - 2) == float(row["efficiency"])
        read[row["role"]] += 1
    assert read == {"memory": 2}


PAIRS = ["Tr16x4", "Tr40x14(P7)", "1-5 Acme-2G", "3/4-6 Stub Acme-2G", "G1/2", "1/2 BSW", "1/4 BSF"]


@pytest.mark.parametrize("text", PAIRS)
def test_strength_is_ridges_times_strengths_times_bounds(text: str) -> None:
    outer, inner = (hn.limits(text, side=side) for side in ("external", "internal"))
    across = 1.6 * outer.diameter_mm
    joint = hn.strength(
        text,
        text,
        engagement="12 mm",
        external_chamfer="1 mm",
        external_tensile="600 MPa",
        external_yield="400 MPa",
        internal_tensile="250 MPa",
        internal_shear="160 MPa",
        internal_outside=hn.mm(across),
        load="2 kN",
        factor_of_safety=4,
    )
    p, half, turns = outer.pitch_mm, outer.half_angle_deg, 11 / outer.pitch_mm
    factors = 0.897 * (-(1.6**2) + 3.8 * 1.6 - 2.61)
    ridge = contact.ridge_mm(p, half, outer.pitch_min_mm, inner.minor_max_mm, True)
    strips = math.pi * inner.minor_max_mm * ridge * turns * 0.577 * 600 * factors
    assert joint.external_stripping_n == pytest.approx(strips)
    ridge = contact.ridge_mm(p, half, inner.pitch_max_mm, outer.major_min_mm, False)
    assert joint.internal_stripping_n == pytest.approx(math.pi * outer.major_min_mm * ridge * turns * 160 * factors)
    root = outer.minor_min_mm or outer.minor_max_mm - outer.pitch_tolerance_mm
    assert joint.external_tension_n == pytest.approx(math.pi / 4 * root**2 * 600)
    assert joint.external_yield_n == pytest.approx(math.pi / 4 * root**2 * 400)
    deep = inner.major_max_mm or inner.major_min_mm + inner.pitch_max_mm - inner.pitch_min_mm
    assert joint.internal_tension_n == pytest.approx(math.pi / 4 * (across**2 - deep**2) * 250)
    weakest = min(
        joint.external_tension_n,
        joint.internal_tension_n,
        *(getattr(joint, f"{side}_stripping_n") for side in ("external", "internal")),
    )
    assert joint.weakest_n == weakest
    assert joint.allowable_n == pytest.approx(min(weakest, joint.external_yield_n) / 4)
    assert CAUTIONS["form_strength_rules"][1] in joint.why()
    low, high = joint.raising_torque_min_nm, joint.raising_torque_max_nm
    d2 = outer.basic_pitch_mm
    for got, f in ((low, 0.10), (high, 0.16)):
        assert got == pytest.approx(contact.torque(2000, outer.lead_mm, d2, half, f, 1) / 1000)


def test_sixty_degree_threads_keep_their_published_factors() -> None:
    joint = hn.strength("M16-6g", "M16-6H", engagement="24 mm", external_tensile="600 MPa", internal_tensile="250 MPa")
    assert joint.internal_bending_factor != 0.897
    assert joint.stress_area_mm2 == pytest.approx(math.pi / 4 * (16 - 0.9382 * 2) ** 2, rel=1e-4)


def test_a_joint_of_a_job_file_takes_such_threads() -> None:
    joint = hn.strength(
        "Tr16x4-7e",
        "Tr16x4-7H",
        engagement="10 mm",
        external_alloy="6061-T6",
        external_form="bar",
        internal_alloy="6061-T6",
        internal_form="bar",
        loading="shock",
        rotating=True,
    )
    assert joint.engagement_practice_mm > joint.full_form_engagement_mm
    assert joint.galling == "high"
    assert {"strength_under_practice", "strength_rotating", "galling"} <= {each.code for each in joint.cautions}


@pytest.mark.parametrize("text", PAIRS)
def test_tightening_goes_by_the_forms_own_wedge(text: str) -> None:
    found = hn.tighten(text, preload="5 kN", friction=(0.1, 0.16), bearing_diameter="20 mm", external_yield="300 MPa")
    screw = hn.limits(text, side="external")
    args = (screw.lead_mm, screw.basic_pitch_mm, screw.half_angle_deg)
    for got, f in ((found.torque_min_nm, 0.10), (found.torque_max_nm, 0.16)):
        wanted = contact.torque(5000, *args, f, 1) / 1000 + 5000 * f * 0.010
        assert got == pytest.approx(wanted, rel=2e-3)
    assert found.practice_torque_nm is None
    assert "none published for these flanks" in found.why()
    back = hn.tighten(text, torque=f"{found.torque_max_nm} N m", friction=(0.1, 0.16), bearing_diameter="20 mm")
    assert back.preload_min_n == pytest.approx(5000)


@pytest.mark.parametrize("text", ["1/2-14 NPT", "R1/2", "Rp1/2"])
def test_taper_pipe_is_made_up_by_turns(text: str) -> None:
    with pytest.raises(hn.NotTabulatedError, match=r"by turns, not to a torque: 4\.\d by hand"):
        hn.tighten(text, preload="5 kN", friction=(0.1, 0.16))


RECALLED_DRILLS = [
    ("G1/8", "8.8 mm"),
    ("G1/4", "11.8 mm"),
    ("G3/8", "15.25 mm"),
    ("G1/2", "19 mm"),
    ("G3/4", "24.5 mm"),
    ("G1", "30.75 mm"),
    ("1/4 BSW", "5.1 mm"),
    ("3/8 BSW", "7.9 mm"),
    ("1/2 BSW", "10.5 mm"),
    ("1/4 BSF", "5.3 mm"),
    ("3/8 BSF", "8.3 mm"),
]
"""Tap makers' tables, recalled."""


@pytest.mark.parametrize(("text", "drill"), RECALLED_DRILLS)
def test_recalled_drills_lie_within_the_limits(text: str, drill: str) -> None:
    hole = hn.tapping_hole(text, drills=[drill])
    assert hole.in_limits, (hole.hole_min_mm, hole.hole_max_mm)
    assert 65 < hole.percent < 90


NPT_DRILLS = {"1/8": "11/32", "1/4": "7/16", "3/8": "37/64", "1/2": "23/32", "3/4": "59/64", "1": "1-5/32"}
NPT_DRILLS |= {"1 1/4": "1-1/2", "1 1/2": "1-47/64", "2": "2-7/32"}
"""Straight holes, without a reamer, of handbook tables, recalled."""


def test_straight_npt_holes_are_those_of_recalled_tables() -> None:
    for size, drill in NPT_DRILLS.items():
        hole = hn.tapping_hole(f"{size} NPT", drills="fractional")
        near = hn.tapping_hole(f"{size} NPT", drills=["1/64 in", f"{drill} in"])
        assert hole.drill_mm - near.drill_mm == pytest.approx(0, abs=25.4 / 64 + 1e-6), (size, hole.drill)
        assert near.drill_mm <= hole.hole_at_face_mm
        assert hole.ream_drill_mm <= hole.hole_at_end_mm < hole.hole_at_face_mm
        d, tpi, l1 = next(
            (row["diameter"], row["tpi"], row["hand_engagement"])
            for row in standard.thread_series("NPT")
            if row["size"] == size
        )
        e1 = d - (0.05 * d + 1.1) / tpi + l1 / 16
        assert hole.hole_at_face_mm / 25.4 == pytest.approx(e1 - 0.8 / tpi)


def test_every_parallel_size_has_a_hole() -> None:
    seen: Counter[bool] = Counter()
    for form in ("Tr", "Acme", "Stub Acme", "G", "BSW", "BSF"):
        for row in standard.thread_series(form):
            if form == "Tr":
                name = f"Tr{row['diameter']:g}x{row['pitch_mm']:g}"
            else:
                name = f"G{row['size']}" if form == "G" else f"{row['size']}-{row['tpi']:g} {form}"
            hole = hn.tapping_hole(name, drills="metric+inch")
            assert hole.basic_percent is None and hole.ream_drill is None
            inner = hn.limits(name, side="internal")
            assert (hole.hole_min_mm, hole.hole_max_mm) == (inner.minor_min_mm, inner.minor_max_mm)
            assert hole.in_limits != any(each.code == "hole_no_drill" for each in hole.cautions)
            assert hole.in_limits or hole.drill_mm <= hole.hole_min_mm
            seen[hole.in_limits] += 1
    assert sum(seen.values()) == HOLES
    assert seen[True] > seen[False]


HOLES = 298


def test_holes_that_no_rule_gives_are_refused() -> None:
    with pytest.raises(hn.DomainError, match="strength: there is no rule"):
        hn.tapping_hole("G1/2", strength=0.8)
    with pytest.raises(hn.DomainError, match="taper thread"):
        hn.tapping_hole("1/2 NPT", percent=70)
    with pytest.raises(hn.DomainError, match="percent must be above 0"):
        hn.tapping_hole("G1/2", percent=0)
    with pytest.raises(hn.DomainError, match="drill past its"):
        hn.blind_hole("1/2 NPT", full_thread="10 mm")
    with pytest.raises(hn.DomainError, match="forming taps"):
        cutting.tap("6061-T6", "G1/2", form=True)
    with pytest.raises(hn.DomainError, match="2 starts"):
        cutting.tap("6061-T6", "Tr16x8(P4)")
    assert hn.tapping_hole("G1/2", percent=75).cautions
    blind = hn.blind_hole("1/4 BSW", full_thread="10 mm")
    p = 25.4 / 20
    assert blind.drill_depth_mm == pytest.approx(10 + 5 * p + 2 * p)


def test_taps_of_other_forms_say_what_their_torque_leaves_out() -> None:
    parallel, tapering = cutting.tap("6061-T6", "G1/4", depth="12 mm"), cutting.tap("6061-T6", "1/4 NPT")
    assert parallel.feed_mm_rev == pytest.approx(25.4 / 19)
    assert "form_tap_torque" in {each.code for each in parallel.notes}
    assert "taper_tap" in {each.code for each in tapering.cautions}


TUBE = {
    "thread_length": "60 mm",
    "chamfer": "2 mm",
    "run_out": "3 mm",
    "base_thread": "32 mm",
    "countersink": "1 mm",
    "base_run_out": "2 mm",
    "bore": "5 mm",
    "length_of_tube": "400 mm",
    "tube_diameter": "24 mm",
    "alloy": "6061-T6",
    "form": "bar",
    "base_outside": "34 mm",
    "base_reach": "40 mm",
    "lock_nut": "10 mm",
    "nut_outside": "30 mm",
    "push": "400 N",
    "pull": "300 N",
    "factor_of_safety": 4,
    "rule_diameters": 1.0,
    "friction": (0.12, 0.2),
}
FORMS = ["Tr16x4", "Tr16x8(P4)", "3/4-6 Acme-2G", "5/8 BSF", "5/8 BSW", "G1/2"]


@pytest.mark.parametrize("text", FORMS)
def test_an_adjuster_of_any_form_by_hand(text: str) -> None:
    found = hn.adjuster(text, text, **TUBE)
    outer, inner = (hn.limits(text, side=side) for side in ("external", "internal"))
    end = found.ends[0]
    half = math.radians(outer.half_angle_deg)
    d, p, lead = outer.diameter_mm, outer.pitch_mm, outer.lead_mm
    # one millimetre of full form, with the bounds of the factors
    ratio = 34 / d
    dilation = 1.0 if ratio >= 1.9 else -(ratio**2) + 3.8 * ratio - 2.61
    metal = hn.strength(text, text, engagement="1 mm", external_alloy="6061-T6", external_form="bar",
                        internal_alloy="6061-T6", internal_form="bar")  # fmt: skip
    for side, cut, at, outside in (
        ("external", outer.pitch_min_mm, inner.minor_max_mm, True),
        ("internal", inner.pitch_max_mm, outer.major_min_mm, False),
    ):
        ridge = contact.ridge_mm(p, outer.half_angle_deg, cut, at, outside)
        shear = getattr(end, f"{side}_shear_mpa")
        strip = math.pi * at * ridge / p * shear * dilation * 0.897
        assert getattr(end, f"{side}_strip_n_mm") == pytest.approx(strip)
        assert getattr(metal, f"{side}_stripping_n") * dilation == pytest.approx(strip)
    # the lock nut: friction on the form's own flanks
    preload = 4 * 400
    arm = (d + 30) / 2 / 2
    d2 = outer.pitch_max_mm
    torque = (contact.torque(preload, lead, d2, outer.half_angle_deg, 0.2, 1) + preload * 0.2 * arm) / 1000
    assert end.torque_nm == pytest.approx(torque, rel=3e-3)
    # the range: engagement by rule, from both ends of the insertion
    least = d + 2 + 1
    most = min(60 - 3 - 10, 32 - 2 + 2)
    assert end.insertion_min_mm == pytest.approx(least)
    assert end.insertion_max_mm == pytest.approx(most)
    assert found.turns == pytest.approx((most - least) / lead)
    assert found.travel_per_turn_mm == pytest.approx(lead)
    assert found.shortest_mm == pytest.approx(400 + 40 - most)
    # play and lean by the flank angle
    clearance = inner.pitch_max_mm - outer.pitch_min_mm
    assert found.rows[-1].axial_play_max_mm == pytest.approx(clearance * math.tan(half), rel=1e-6)
    lean = math.degrees(clearance / (d + d2 / math.tan(half)))
    assert found.rows[-1].first_tilt_deg <= lean + 1e-9
    assert CAUTIONS["adjuster_form_practice"][1] in found.why()
    assert found.unit == outer.unit
    assert found.page(title="Screw").count(str(outer.thread)) >= 1
    assert end.external == outer.title


def test_leads_and_hands_of_mixed_ends() -> None:
    mixed = hn.adjuster("Tr16x4-7e", "Tr16x4-7H", second={"external": "M20x1.5-6g-LH", "internal": "M20x1.5-6H-LH"},
                        **TUBE)  # fmt: skip
    assert mixed.form == "turnbuckle, opposite hands"
    assert mixed.travel_per_turn_mm == pytest.approx(5.5)
    assert [end.half_angle_deg for end in mixed.ends] == [15.0, 30.0]
    plain = hn.adjuster("M20x1.5-6g-LH", "M20x1.5-6H-LH", **TUBE)
    for name in ("torque_nm", "external_strip_n_mm", "insertion_min_mm"):
        assert getattr(mixed.ends[1], name) == pytest.approx(getattr(plain.ends[0], name))
    # several starts count by their lead: 8 left and 4 right
    steep = hn.adjuster("Tr16x8(P4)LH-7e", "Tr16x8(P4)LH-7H", second={"external": "Tr16x4-7e", "internal": "Tr16x4-7H"},
                        **{**TUBE, "friction": (0.08, 0.12)})  # fmt: skip
    assert steep.travel_per_turn_mm == pytest.approx(12.0)
    assert "adjuster_runs" in {each.code for each in steep.cautions}
    differential = hn.adjuster("Tr16x8(P4)-7e", "Tr16x8(P4)-7H", second={"external": "Tr16x4-7e",
                               "internal": "Tr16x4-7H"}, **TUBE)  # fmt: skip
    assert differential.form == "turnbuckle, equal hands"
    assert differential.travel_per_turn_mm == pytest.approx(4.0)
    inch = hn.adjuster("3/4-6 Acme-2G", "3/4-6 Acme-2G", second={"external": "Tr16x4LH-7e", "internal": "Tr16x4LH-7H"},
                       **TUBE)  # fmt: skip
    assert "Tr16x4LH-7e, mm" in inch.page()


@pytest.mark.parametrize(
    ("outer", "inner", "words"),
    [
        ("Tr16x4-7e", "M16x1.5-6H", "form differs"),
        ("Tr16x4-7e", "3/4-6 Acme-2G", "form differs"),
        ("Tr16x4-7e", "Tr18x4-7H", "diameter differs"),
        ("Tr16x4-7e", "Tr16x4LH-7H", r"mismatch \(hand\)"),
        ("1/2-14 NPT", "1/2-14 NPT", "gauge it by a taper ring"),
        ("R1/2", "Rp1/2", "gauge it by a taper ring"),
    ],
)
def test_pairs_that_are_not_one_parallel_thread_are_refused(outer: str, inner: str, words: str) -> None:
    with pytest.raises(hn.Error, match=words):
        hn.adjuster(outer, inner, **TUBE)


def test_equal_leads_and_hands_of_any_form_move_nothing() -> None:
    with pytest.raises(hn.DomainError, match="turning the middle moves nothing"):
        hn.adjuster("Tr16x4-7e", "Tr16x4-7H", second={}, **TUBE)


def test_a_coated_pair_is_cut_smaller_by_its_own_flank_angle() -> None:
    bare, coated = (hn.adjuster("Tr16x4-7e", "Tr16x4-7H", **TUBE, **more) for more in ({}, {"coating": "5 um"}))
    moved = bare.ends[0].external_cut.pitch_max_mm - coated.ends[0].external_cut.pitch_max_mm
    assert moved == pytest.approx(2 * 0.005 / math.sin(math.radians(15)))
    assert coated.rows[-1].axial_play_max_mm == pytest.approx(bare.rows[-1].axial_play_max_mm, abs=1e-9)


JOB = {
    "title": "Mount",
    "machine": "gap-bed",
    "parts": [
        {
            "name": "focuser screw",
            "quantity": 1,
            "alloy": "6061-T6",
            "length": "400 mm",
            "stock": {"form": "bar", "diameter": "24 mm"},
            "adjuster": {
                key: value for key, value in TUBE.items() if key not in {"length_of_tube", "alloy", "friction"}
            }
            | {"external": "Tr16x4-7e", "internal": "Tr16x4-7H", "lubricant": "oil"},
            "joints": [
                {
                    "external": "Tr16x4-7e",
                    "internal": "Tr16x4-7H",
                    "engagement": "24 mm",
                    "factor_of_safety": 4,
                    "load": "2 kN",
                    "external_alloy": "6061-T6",
                    "external_form": "bar",
                    "internal_alloy": "6061-T6",
                    "internal_form": "bar",
                    "internal_outside": "30 mm",
                }
            ],
            "operations": [
                {"do": "turn", "to": "15.85 mm", "length": "70 mm"},
                {"do": "thread", "thread": "Tr16x4-7e", "length": "60 mm"},
            ],
        },
        {
            "name": "manifold",
            "quantity": 1,
            "alloy": "6061-T6",
            "length": "40 mm",
            "machine": "bench-mill",
            "stock": {"form": "plate", "thickness": "40 mm", "width": "60 mm"},
            "operations": [
                {"do": "drill", "diameter": "11.8 mm"},
                {"do": "tap", "thread": "G1/4", "depth": "14 mm"},
                {"do": "drill", "diameter": "7/16 in"},
                {"do": "tap", "thread": "1/4-18 NPT"},
                {"do": "drill", "diameter": "7/16 in"},
                {"do": "tap", "thread": "Rc1/4", "depth": "4 mm"},
                {"do": "drill", "diameter": "11.6 mm"},
                {"do": "tap", "thread": "Rp1/4"},
                {"do": "drill", "diameter": "12.2 mm"},
                {"do": "tap", "thread": "Tr16x4"},
                {"do": "drill", "diameter": "13/32 in"},
                {"do": "tap", "thread": "1/2-10 Acme-2G"},
                {"do": "drill", "diameter": "12.2 mm"},
                {"do": "tap", "thread": "Tr16x8(P4)"},
            ],
        },
    ],
}


def test_a_job_file_takes_them_and_its_sheets_show_them(tmp_path: Path) -> None:
    plan = hn.plan(JOB)
    assert plan.failed == 1  # the tap of two starts
    screw, block = plan.parts
    assert screw.adjuster is not None and not screw.adjuster_error
    assert screw.joints[0].record is not None
    said = ["; ".join(each.answer.remarks) if each.answer else each.error for each in block.operations]
    assert "drill 11.8 mm, for 79 %" in said[1] and "11.800 mm, is within" in said[1]
    assert "drill 7/16 in" in said[3] and "27/64 in" in said[3] and "is small enough" in said[3]
    assert "goes in 3.1 to 5.1 turns" in said[3]
    assert "Depth is less than hand engagement" in said[5]
    assert "is outside" in said[7]
    assert "2 starts" in said[13]
    plan.write(tmp_path / "sheets")
    pages = {each.name: each.read_text(encoding="utf-8") for each in (tmp_path / "sheets").glob("*.html")}
    assert "Tr16x4-7H" in pages["focuser-screw-adjuster.html"]
    assert "drill 12.3 mm" in pages["focuser-screw-adjuster.html"]
    assert "taper 1:16; gauge goes in 3.1 to 5.1 turns by hand" in pages["details.html"]


def test_a_coating_moves_the_hole_of_a_form() -> None:
    job = {**JOB, "coatings": {"anodise": {"build_up": "10 um", "title": "anodise"}}, "parts": [dict(JOB["parts"][1])]}
    job["parts"][0]["operations"] = JOB["parts"][1]["operations"][:2]
    bare = hn.plan({**job, "coatings": {}}).parts[0].operations[1].answer.record
    job["parts"][0]["coating"] = "anodise"
    coated = hn.plan(job).parts[0].operations[1].answer
    assert coated.record.minor_min_mm == pytest.approx(bare.minor_min_mm + 0.02)
    assert "11.465 mm to 11.910 mm" in coated.remarks[0]


def test_parallel_threads_for_taper_ones() -> None:
    compared = 0
    for row in standard.thread_series("R"):
        found = hn.limits(f"Rp{row['size']}")
        p = 25.4 / row["tpi"]
        turns = 1.25 if row["diameter"] < 60 else 1.5
        t = turns * p / 16
        middle = row["diameter"] - 0.640327 * p
        assert found.pitch_max_mm == pytest.approx(middle + t, abs=6e-4)
        assert found.pitch_min_mm == pytest.approx(middle - t, abs=6e-4)
        assert found.minor_max_mm == pytest.approx(middle - 0.640327 * p + t, abs=6e-4)
        assert found.major_min_mm == pytest.approx(row["diameter"] - t, abs=6e-4)
        assert found.major_max_mm is None
        compared += 1
    assert compared == 15
    for diameter, recalled_um in (("1/8", 71), ("1/4", 104), ("1/2", 142), ("1", 180), ("3", 216)):
        found = hn.limits(f"Rp{diameter}")
        assert (found.pitch_max_mm - found.pitch_min_mm) / 2 == pytest.approx(recalled_um / 1000, abs=1.1e-3)
    assert hn.wires("Rp1/2").over_max_mm > 0
    assert hn.judge("Rp1/2", pitch="19.8 mm").place == "within"
    asked = CliRunner().invoke(cli.command, ["limits", "Rp1/2"])
    assert asked.output.startswith("Rp1/2: minor 18.773/18.490"), asked.output
    assert hn.chase("Rp1/2", infeed="straight", nose_radius="0.2 mm").passes
    with pytest.raises(hn.NotTabulatedError, match=r"internal thread; the taper thread R1/2 goes into it"):
        hn.limits("Rp1/2", side="external")
    with pytest.raises(hn.NotTabulatedError, match=r"gauge it by a taper plug .* within 1\.25 turns, 2\.268 mm"):
        hn.limits("Rc1/2")
    with pytest.raises(hn.NotTabulatedError, match="no taper pipe thread"):
        hn.taper_pipe("Rp1/2")
    assert hn.taper_pipe("Rc1/2").tolerance_turns == 1.25
    assert hn.taper_pipe("R1/2").tolerance_turns == 1


def test_an_inch_joint_speaks_in_pounds() -> None:
    """An Acme joint is written as a Unified one is: lbf and psi; the dictionary has both systems."""
    joint = hn.strength(
        "1-5 Acme-2G", "1-5 Acme-2G", engagement="1.5 in", external_tensile="60 ksi", internal_tensile="40 ksi",
        load="500 lbf", factor_of_safety=4,
    )  # fmt: skip
    text = joint.why()
    assert re.search(r"bears [\d,]+ lbf;", text.splitlines()[0]), text.splitlines()[0]
    assert re.search(r"load {6}500 lbf: factor [\d.]+, [\d,]+ psi on the flanks", text)
    assert re.search(r"raise {5}[\d.]+ to [\d.]+ lbf (?:ft|in)", text)
    figures = joint.to_dict()
    assert figures["bears_lbf"] == pytest.approx(figures["bears_n"] / 4.4482216152605)
    assert figures["flank_pressure_psi"] == pytest.approx(figures["flank_pressure_mpa"] / 6.894757293168361e-3)
    assert figures["full_form_engagement_in"] == pytest.approx(1.5)
    metric = hn.strength("Tr16x4-7e", "Tr16x4-7H", engagement="24 mm", external_tensile="600 MPa",
                         internal_tensile="250 MPa")  # fmt: skip
    assert re.search(r"bears [\d.]+ kN;", str(metric).splitlines()[0])
