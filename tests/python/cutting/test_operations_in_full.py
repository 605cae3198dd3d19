"""Every operation in full: forces along and across, heat, finish, deep holes, tools of the shop, jobs and commands."""

from __future__ import annotations

import json
import math

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

import halfnut as hn
from halfnut import cutting
from halfnut.cli import command
from halfnut.core import catalogue, shop_tables

KC_304 = 2350.0 / 1.24  # recalled, on the scale of the unit powers


def angles():
    return st.tuples(st.floats(0.0, 170.0), st.floats(5.0, 180.0)).map(lambda at: (at[0], min(180.0, at[0] + at[1])))


@given(angles(), st.floats(0.0, 1.5))
def test_milling_forces_are_the_integrals_of_tooth_forces(span, share):
    """Against numerical integration: tangential force as the chip, radial a share of it, turned to feed and across."""
    entry, leave = span
    a, b = math.radians(entry), math.radians(leave)
    chip = quad(math.sin, a, b)[0]
    along = quad(lambda x: math.sin(x) * (math.cos(x) + share * math.sin(x)), a, b)[0] / chip
    across = quad(lambda x: math.sin(x) * (math.sin(x) - share * math.cos(x)), a, b)[0] / chip
    assert cutting.milling_feed_force_ratio(entry, leave, share) == pytest.approx(along, rel=1e-6, abs=1e-6)
    assert cutting.milling_cross_force_ratio(entry, leave, share) == pytest.approx(across, rel=1e-6, abs=1e-6)


def test_a_milling_cut_tells_forces_thinning_and_finish():
    side = hn.mill("1018", "12 mm", depth="10 mm", width="1.2 mm", step_over="1.2 mm", length="50 mm", flutes=4)
    arc = math.degrees(math.acos(1 - 2 * 1.2 / 12))
    ratio = cutting.milling_feed_force_ratio(0.0, arc, 0.6)
    assert side.feed_force_n == pytest.approx(side.cutting_force_n * ratio)
    assert side.chip_thinning == pytest.approx(12 / (2 * math.sqrt(1.2 * 10.8)))
    assert side.roughness_ra_um == pytest.approx(1000 * side.feed_mm_rev**2 / (16 * 12))
    face = hn.mill("1018", "50 mm", shape="face", depth="1 mm", width="30 mm", flutes=4, nose_radius="0.8 mm")
    assert face.roughness_ra_um == pytest.approx(cutting.roughness_ra_um(face.feed_mm_rev, 0.8))
    assert hn.mill("1018", "10 mm", shape="slot", depth="5 mm").roughness_ra_um is None


@pytest.mark.parametrize("shape", ["side", "face", "pocket"])
def test_a_roughness_holds_the_milling_feed_back(shape):
    cut = hn.mill("6061-T6", "20 mm", shape=shape, depth="2 mm", width="20 mm", roughness_um=0.4, flutes=4)
    assert cut.roughness_ra_um == pytest.approx(0.2), "half of it by geometry"
    assert cut.limited_by == "roughness"
    assert "roughness_exceeded" not in {item.code for item in cut.cautions}


def test_heat_follows_the_formulas_and_every_property_is_there():
    cut = hn.turn("4140 prehardened", "50 mm", depth="1 mm", feed="0.2 mm/rev", spindle_rpm=500, tool="carbide")
    row = hn.alloy("4140 prehardened")
    rho_c = row.density_kg_m3 * row.specific_heat_j_kg_k * 1e-9
    diffusivity = row.conductivity_w_m_k * 1e-3 / rho_c
    energy = 60 * cut.spindle_power_kw / cut.mrr_cm3_min
    rise = cutting.temperature_rise_k(energy, rho_c, cut.cutting_speed_m_min, cut.chip_thickness_mm, diffusivity)
    assert cut.chip_rise_k == pytest.approx(rise)
    share = cutting.heat_to_work_share(cut.cutting_speed_m_min, cut.chip_thickness_mm, diffusivity, 25.0)
    assert cut.heat_to_work_w == pytest.approx(1000 * cut.spindle_power_kw * share)
    assert "hotter than the work" in cut.why()
    missing = [
        (each["id"], key)
        for each in catalogue.rows("material/alloys")
        for key in ("specific_heat_j_kg_k", "conductivity_w_m_k", "expansion_um_m_k", "density_kg_m3")
        if each[key] is None
    ]
    assert missing == []


def test_thermal_properties_stand_in_physical_ranges():
    """Volumetric heat of metals lies near 2 to 4 MJ/(m3 K), of plastics 1 to 3: a wrong digit falls outside."""
    rows = catalogue.rows("material/alloys")
    assert len(rows) == 123
    for each in rows:
        volumetric = each["density_kg_m3"] * each["specific_heat_j_kg_k"] / 1e6
        low, high = (1.7, 4.2) if each["group"].split("-")[0] not in {"plastic", "composite"} else (1.2, 2.6)
        assert low < volumetric < high, each["id"]


@given(st.floats(1.0, 500.0), st.floats(1.01, 3.0))
def test_faster_cuts_leave_a_smaller_share_of_heat_in_the_work(speed, more):
    slow = cutting.heat_to_work_share(speed, 0.1, 13.5, 25.0)
    fast = cutting.heat_to_work_share(speed * more, 0.1, 13.5, 25.0)
    assert 0.0 < fast <= slow < 0.75


@given(st.floats(5.0, 100.0), st.floats(1.0, 600.0), st.floats(10.0, 500.0))
def test_warming_is_a_heat_balance(diameter, seconds, length):
    volume_m3 = math.pi / 4 * diameter**2 * length * 1e-9
    rise = cutting.work_warming_k(100.0, seconds, diameter, 0.0, length, 7850.0, 475.0)
    assert rise * volume_m3 * 7850 * 475 == pytest.approx(100 * seconds)


def test_deep_holes_run_slower_finer_and_in_pecks():
    plain = hn.drill("6061-T6", "10 mm", depth="29 mm")
    deep = hn.drill("6061-T6", "10 mm", depth="50 mm")
    assert deep.window_high_m_min == pytest.approx(0.7 * plain.window_high_m_min)
    assert deep.feed_mm_rev == pytest.approx(0.8 * plain.feed_mm_rev)
    assert plain.peck_depths_mm == ()
    assert deep.peck_depths_mm == (30.0, 40.0, 50.0)
    stringy = hn.drill("1018", "10 mm", depth="50 mm")
    assert stringy.peck_depths_mm[:2] == (15.0, 20.0)
    cutting_s = 60 * deep.travel_mm / deep.feed_mm_min
    assert deep.time_s == pytest.approx(cutting_s + 2 * 5)
    assert {"deep_hole", "pecks"} <= {item.rule_id for item in deep.evidence}
    assert "pecks" in deep.why()


def test_deep_holes_get_no_faster_with_depth():
    speeds = [hn.drill("6061-T6", "6 mm", depth=f"{ratio * 6} mm").spindle_rpm for ratio in (1, 3, 4, 5, 6, 8, 12)]
    assert speeds == sorted(speeds, reverse=True)


def test_a_reamer_in_a_known_hole_cuts_a_ring():
    cut = hn.ream("304", "10 mm", depth="20 mm", hole="9.7 mm", feed="0.3 mm/rev", spindle_rpm=200, flutes=6)
    chip = 0.3 / 6 * math.sin(math.pi / 4)
    kc = min(1.2 * cutting.specific_cutting_force_n_mm2(KC_304, 0.21, chip), 2.2 * KC_304)
    force = kc * 0.3 * 0.15
    assert cut.torque_nm == pytest.approx(force * (10 + 9.7) / 4 / 1000)
    assert cut.feed_force_n == pytest.approx(0.6 * force * math.sin(math.pi / 4))
    assert hn.ream("304", "10 mm", depth="20 mm").torque_nm is None


def test_forming_taps_take_twice_the_torque_and_no_chip():
    cut, form = hn.tap("6061-T6", "M6", depth="12 mm"), hn.tap("6061-T6", "M6", depth="12 mm", form=True)
    assert form.torque_nm == pytest.approx(2 * cut.torque_nm)
    assert form.chip_thickness_mm is None
    assert "form_tap_ductile" in {item.code for item in form.told}


def test_a_saw_may_have_many_teeth():
    assert hn.saw("6061-T6", "100 mm", "1 mm", "6 mm", teeth=160, length="50 mm").operation == "saw"
    with pytest.raises(hn.DomainError, match="teeth must be from 1 to 400"):
        hn.saw("6061-T6", "100 mm", "1 mm", "6 mm", teeth=500)


def test_limits_at_the_upper_edge_are_told_either_way():
    held = hn.turn("6061-T6", "1.25 in", machine="gap-bed", depth="0.04 in")
    assert held.holds_at_edge is True
    assert "enough even at the highest likely force" in held.why()
    passed = hn.turn("304", "4 in", machine="gap-bed", depth="0.3 in", feed="0.02 in/rev", tool="coated carbide")
    assert passed.holds_at_edge is False
    assert "NOT enough at the highest" in passed.why()
    assert passed.to_dict()["holds_at_edge"] is False
    assert hn.turn("6061-T6", "32 mm").holds_at_edge is None


def test_what_follows_the_force_follows_its_band():
    cut = hn.turn("1018", "20 mm", depth="1 mm", stick_out="60 mm")
    for name, unit in (("torque", "nm"), ("deflection", "mm"), ("spindle_power", "kw"), ("cutting_force", "n")):
        middle, low, high = (getattr(cut, f"{name}{edge}_{unit}") for edge in ("", "_low", "_high"))
        assert low / middle == pytest.approx(0.69)
        assert high / middle == pytest.approx(hn.cutting.force_band("1018", "turn").high * 1.3)  # ordinary wear


def test_bands_come_as_columns():
    names = ["6061-T6", "304", "7075", "6061-T6"]
    bands = hn.batch.ask("force_band", {"alloy": names})
    assert bands["verified"].tolist() == [True, False, False, True]
    for n, name in enumerate(names):
        one = hn.force_band(name)
        assert (bands["low"][n], bands["high"][n]) == (one.low, one.high)


def test_only_the_alloy_that_a_paper_names_is_verified():
    found = [
        row["id"]
        for row in catalogue.rows("material/alloys")
        for process in ("turn", "mill", "drill", "tap")
        if cutting.force_band(row["id"], process).verified
    ]
    assert found == ["A96061"]


@pytest.fixture
def shop(tmp_path):
    (tmp_path / "ours.toml").write_text(
        """[[cutting.tools]]
id = "our-ccmt"
name = "our finisher"
tool_material = "carbide_coated"
nose_radius_mm = 0.2
rake_deg = 15
source = "box label"

[[cutting.tools]]
id = "hss"
name = "HSS"
tool_material = "hss"
nose_radius_mm = 0.5
source = "ground here"

[[cutting.tools]]
id = "rougher"
name = "rougher"
tool_material = "carbide"
teeth = 3
stick_out_mm = 25
source = "measured"
"""
    )
    before = catalogue.active()
    catalogue.activate(shop_tables.folder_shop(tmp_path)[0])
    yield
    catalogue.activate(before)


def test_a_shop_adds_and_overrides_tools_and_the_evidence_says_so(shop):
    ours = hn.turn("6061-T6", "32 mm", depth="1 mm", tool="our finisher")
    told = hn.turn("6061-T6", "32 mm", depth="1 mm", tool="coated carbide", nose_radius="0.2 mm", rake_deg=15)
    assert (ours.tool_material, ours.tool_name) == ("carbide_coated", "our finisher")
    assert ours.cutting_force_n == told.cutting_force_n
    assert ours.roughness_ra_um == told.roughness_ra_um
    assert ours.assumed == ()
    of_tool = [item for item in ours.evidence if item.figure == "tool"]
    assert [(item.source, item.kind) for item in of_tool] == [("box label", "shop")]
    plain = hn.turn("6061-T6", "32 mm", depth="1 mm")
    assert plain.assumed == ("HSS tool",)
    assert plain.roughness_ra_um == pytest.approx(cutting.roughness_ra_um(plain.feed_mm_rev, 0.5))
    milled = hn.mill("7075", "10 mm", depth="3 mm", width="3 mm", tool="rougher")
    assert milled.deflection_mm is not None
    assert milled.feed_mm_rev == pytest.approx(3 * milled.feed_per_tooth_mm)
    assert hn.mill("7075", "10 mm", depth="3 mm", width="3 mm", tool="rougher", flutes=2).feed_mm_rev == pytest.approx(
        2 * milled.feed_per_tooth_mm
    )


def test_an_unknown_tool_is_refused_with_the_nearest():
    with pytest.raises(hn.DomainError, match="did you mean 'coated carbide'"):
        hn.turn("6061-T6", "32 mm", tool="coted carbide")


def test_a_shop_adds_an_alloy_that_cuts_at_once(tmp_path):
    (tmp_path / "ours.toml").write_text(
        """[[material.alloys]]
id = "OURS"
name = "our bar"
condition = "as bought"
iso513 = "P"
group = "steel-low-carbon"
hardness_hb = 140
density_kg_m3 = 7850
youngs_modulus_gpa = 205
kc11_n_mm2 = 1700
mc = 0.2
source = "certificate 12"
kc_source = "measured on the lathe"
"""
    )
    before = catalogue.active()
    catalogue.activate(shop_tables.folder_shop(tmp_path)[0])
    try:
        cut = hn.turn("our bar", "20 mm", depth="1 mm", feed="0.2 mm/rev")
        assert ("measured on the lathe", "shop") in {(item.source, item.kind) for item in cut.evidence}
        assert cut.chip_rise_k is None
    finally:
        catalogue.activate(before)


def part_with(*operations, **more):
    return {
        "title": "all kinds",
        "machine": "gap-bed",
        "parts": [
            {
                "name": "piece",
                "quantity": 1,
                "alloy": "6061-T6",
                "length": "6 in",
                "stock": {"form": "bar", "diameter": "1 in"},
                "operations": list(operations),
                **more,
            }
        ],
    }


MILL = {"machine": "bench-mill"}
STEPS = [
    {"do": "taper", "to": "0.9 in", "length": "1 in", "between_centres": "6 in"},
    {"do": "groove", "to": "0.8 in", "blade": "0.0625 in", "width": "0.15 in"},
    {"do": "spot", "diameter": "0.25 in"},
    {"do": "drill", "diameter": "0.29 in", "depth": "2 in"},
    {"do": "countersink", "diameter": "0.3 in", "included": 82},
    {"do": "counterbore", "diameter": "0.5 in", "depth": "0.2 in"},
    {"do": "saw", "blade": "3 in", "thickness": "0.05 in", "teeth": 60, "length": "1 in", "depth": "0.2 in", **MILL},
    {"do": "tap", "thread": "M8", "depth": "12 mm", "form": True, **MILL},
]


def test_every_operation_has_a_key_and_a_line_on_the_sheet(tmp_path):
    plan = hn.plan(part_with(*STEPS))
    assert [op.error for _, op in plan.operations] == [""] * len(STEPS)
    plan.write(tmp_path / "out")
    page = (tmp_path / "out" / "details.html").read_text()
    for words in ("Turn a taper", "Groove", "Spot", "Countersink", "Counterbore", "Slit with a saw", "tailstock over"):
        assert words in page
    rows = json.loads((tmp_path / "out" / "plan.json").read_text())["parts"][0]["operations"]
    pecked = next(row for row in rows if row["do"] == "drill")
    assert len(pecked["figures"]["peck_depths_mm"]) == pecked["figures"]["passes"] > 1
    assert all(row["time_s"] > 0 for row in rows)


def test_slender_work_has_its_bend_on_the_sheet(tmp_path):
    turn = {"do": "turn", "to": "0.95 in", "length": "5 in", "stick_out": "5.5 in"}
    plan = hn.plan(part_with(turn, jaws=3, friction=0.15, safety=2.0))
    _, op = next(plan.operations)
    held = op.answer.holding
    assert held.bend.slenderness > 5
    assert "slender" in {item.code for item in op.cautions}
    assert op.to_dict()["figures"]["bend_mm"] == held.bend.worst_mm
    plan.write(tmp_path / "out")
    page = (tmp_path / "out" / "details.html").read_text()
    assert "Left larger than set as the work deflects" in page
    assert "a jaw, so that the cut does not turn the work" in page
    stout = hn.plan(part_with(turn | {"stick_out": "1 in", "length": "0.9 in"}))
    stout.write(tmp_path / "stout")
    assert "Left larger than set" not in (tmp_path / "stout" / "details.html").read_text()


def test_a_grip_is_told_whole_or_not_at_all():
    with pytest.raises(hn.InputError, match="friction and safety"):
        hn.plan(part_with({"do": "turn", "to": "0.9 in", "length": "1 in"}, friction=0.2))


def test_a_pocket_may_be_entered_by_a_ramp():
    step = {"do": "mill", "shape": "pocket", "cutter": "10 mm", "length": "60 mm", "width": "20 mm", "depth": "6 mm"}
    plain, ramped = (
        next(hn.plan(part_with(step | more | MILL)).operations)[1] for more in ({}, {"entry": "ramp", "entry_angle": 2})
    )
    assert ramped.error == ""
    assert ramped.time_s > plain.time_s
    assert any("ramp down to each level at 2°" in line for line in ramped.answer.remarks)
    side = step | {"shape": "side", "width": "2 mm", "entry": "ramp"} | MILL
    assert "entry is for a slot or a pocket" in next(hn.plan(part_with(side)).operations)[1].error


@pytest.mark.parametrize(
    "words",
    [
        "taper 1018 1in 0.84375in 3in --machine gap-bed --between-centres 8in",
        "groove 6061-T6 1.25in 1in --width 0.3in --blade 0.125in",
        "spot 5083 6mm --machine bench-mill",
        "countersink 5083 12mm 6.6mm --included 82",
        "counterbore 5083 11mm 6.6mm --depth 6mm --machine bench-mill",
        "ramp 7075 10mm 3mm --angle 5",
        "helix 7075 10mm 16mm 8mm",
        "saw 6061-T6 80mm 1mm 6mm --teeth 128 --length 50mm",
        "hold 6061-T6 20mm --stick-out 120mm --depth 0.5mm --length 100mm",
        "hold 4130-N 1in --section 4in,1in --section 6in,0.625in --steady 6in",
        "tool-life 1018 --machine gap-bed --diameter 2in --edge-cost 2 --cost-per-min 1 --life 60",
        "turn 6061-T6 20mm --stick-out 200mm --steady 100mm",
        "ream 5083 8mm --hole 7.8mm",
        "tap 5083 M6 --form",
    ],
)
def test_every_question_has_a_command(words):
    said = CliRunner().invoke(command, words.replace("4130-N", "G41300-N").split())
    assert said.exit_code == 0, said.output
    assert len(said.output.splitlines()) > 3
    as_json = CliRunner().invoke(command, [*words.replace("4130-N", "G41300-N").split(), "--json", "--evidence"])
    assert json.loads(as_json.output)["evidence"]
