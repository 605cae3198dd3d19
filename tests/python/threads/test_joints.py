"""What threaded joints hold: against the oracle and the tables, properties, advice, refusals, the command."""

import json
import math
import sys
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

import halfnut as hn
from halfnut.cli import command
from halfnut.core.catalogue import rows as table_rows

TESTS = Path(__file__).parents[2]
sys.path.insert(0, str(TESTS / "oracles"))
import joint_statics as oracle  # noqa: E402

M10 = {"external_grade": "8.8", "internal_alloy": "6061-T6", "internal_form": "bar"}


def sizes_of(external: str, internal: str) -> tuple[float, ...]:
    """What weakens a pair, mm, from its limits."""
    male, female = hn.limits(external), hn.limits(internal)
    scale = 25.4 if male.unit == "in" else 1.0
    pitch = male.pitch_mm
    root = scale * female.pitch_max + 0.793857 * pitch
    return (
        male.diameter_mm,
        pitch,
        scale * female.minor_max,
        scale * male.pitch_min,
        scale * male.major_min,
        scale * female.pitch_max,
        root,
    )


PAIRS = [
    ("M10-6g", "M10-6H"),
    ("M30x1.5-6g", "M30x1.5-6H"),
    ("7/8-14 UNF-2A", "7/8-14 UNF-2B"),
    ("1/4-20 UNC-2A", "1/4-20 UNC-2B"),
]


@pytest.mark.parametrize(("external", "internal"), PAIRS)
@given(
    length=st.floats(0.3, 3.0),
    own=st.tuples(st.floats(100.0, 1500.0), st.floats(0.4, 0.95), st.one_of(st.none(), st.floats(0.5, 0.7))),
    mate=st.tuples(st.floats(100.0, 1500.0), st.floats(0.4, 0.95), st.one_of(st.none(), st.floats(0.5, 0.7))),
    bore=st.one_of(st.just(0.0), st.floats(1e-6, 0.6)),
    outside=st.one_of(st.none(), st.floats(1.2, 3.0)),
)
@settings(max_examples=40, deadline=None)
def test_a_whole_joint_against_the_oracle(external, internal, length, own, mate, bore, outside) -> None:
    sizes = sizes_of(external, internal)
    diameter = sizes[0]
    strengths = [(t, t * y, None if s is None else t * s) for t, y, s in (own, mate)]
    unified = "U" in external
    wanted, bears = oracle.joint(
        sizes, length * diameter, strengths, bore * diameter, None if outside is None else outside * diameter, unified
    )
    given_strengths = {
        f"{side}_{what}": f"{value!r} MPa"
        for side, values in zip(("external", "internal"), strengths, strict=True)
        for what, value in zip(("tensile", "yield", "shear"), values, strict=True)
        if value is not None
    }
    joint = hn.strength(
        external,
        internal,
        engagement=hn.mm(length * diameter),
        external_bore=hn.mm(bore * diameter),
        internal_outside=None if outside is None else hn.mm(outside * diameter),
        **given_strengths,
    )
    got = {
        "external part in tension": joint.external_tension_n,
        "internal part in tension": joint.internal_tension_n,
        "external thread strips": joint.external_stripping_n,
        "internal thread strips": joint.internal_stripping_n,
    }
    for element, load in wanted.items():
        assert got[element] == pytest.approx(float(load), rel=1e-9), element
    assert joint.bears_n == pytest.approx(float(bears), rel=1e-9)
    assert joint.weakest_n == pytest.approx(float(min(wanted.values())), rel=1e-9)
    assert got[joint.weakest] == joint.weakest_n


@given(st.floats(0.05, 40.0), st.floats(1.01, 3.0), st.one_of(st.just(0.0), st.floats(1e-4, 0.9)))
@settings(max_examples=60, deadline=None)
def test_load_grows_with_engagement_and_never_past_the_section(engagement, share, chamfer) -> None:
    def joint(length: float, lost: float = 0.0):
        return hn.strength("M10-6g", "M10-6H", engagement=hn.mm(length), external_chamfer=hn.mm(lost), **M10)

    short, long = joint(engagement), joint(engagement * share)
    assert long.internal_stripping_n > short.internal_stripping_n
    assert long.external_stripping_n > short.external_stripping_n
    assert long.bears_n >= short.bears_n
    assert long.weakest_n <= long.external_tension_n == short.external_tension_n
    chamfered = joint(engagement, chamfer * engagement)
    assert chamfered.full_form_engagement_mm <= engagement
    assert chamfered.internal_stripping_n <= short.internal_stripping_n
    assert chamfered.engagement_required_mm == pytest.approx(short.engagement_required_mm, rel=1e-12)
    for each in (short, long, chamfered):
        assert not any(isinstance(value, float) and not math.isfinite(value) for value in each.to_dict().values())


def test_at_the_required_engagement_thread_and_section_break_together() -> None:
    first = hn.strength("M10-6g", "M10-6H", engagement="10 mm", **M10)
    assert first.weakest == "internal thread strips"
    again = hn.strength("M10-6g", "M10-6H", engagement=hn.mm(first.engagement_required_mm), **M10)
    assert again.internal_stripping_n == pytest.approx(again.external_tension_n, rel=1e-12)
    longer = hn.strength("M10-6g", "M10-6H", engagement=hn.mm(first.engagement_required_mm * 1.001), **M10)
    assert longer.weakest == "external part in tension"


def test_the_handbook_rule_by_its_own_text() -> None:
    joint = hn.strength(
        "1/2-13 UNC-2A",
        "1/2-13 UNC-2B",
        engagement="0.5 in",
        external_tensile="60 ksi",
        external_yield="36 ksi",
        internal_tensile="60 ksi",
    )
    assert joint.stripping_ratio < 1.0
    assert joint.engagement_handbook_mm / 25.4 == pytest.approx(0.36434, abs=6e-5)
    weaker = hn.strength(
        "1/2-13 UNC-2A",
        "1/2-13 UNC-2B",
        engagement="0.5 in",
        external_tensile="60 ksi",
        external_yield="36 ksi",
        internal_tensile="30 ksi",
    )
    assert weaker.stripping_ratio == pytest.approx(2.0 * joint.stripping_ratio)
    assert weaker.engagement_handbook_mm == pytest.approx(joint.engagement_handbook_mm * weaker.stripping_ratio)


def test_the_truss_tube_in_its_base_in_both_systems() -> None:
    joint = hn.strength(
        "7/8-14 UNF-2A",
        "7/8-14 UNF-2B",
        engagement="1 in",
        external_alloy="6061-T6",
        external_form="drawn tube",
        internal_alloy="6061-T6",
        internal_form="bar",
        external_chamfer="0.06 in",
        internal_countersink="0.05 in",
        external_bore="0.62 in",
        internal_outside="1.5 in",
        load="300 lbf",
        factor_of_safety=4.0,
    )
    assert joint.unit == "in"
    assert joint.full_form_engagement_mm == pytest.approx(0.89 * 25.4)
    assert joint.external_material == "6061 T6 drawn tube, minimum"
    figures = joint.to_dict()
    assert figures["load_lbf"] == pytest.approx(300.0)
    assert figures["allowable_lbf"] == pytest.approx(joint.allowable_n / 4.4482216152605)
    assert figures["stress_area_in2"] == pytest.approx(0.509, abs=0.0005)
    assert figures["external_tensile_psi"] == pytest.approx(42000.0)
    assert joint.allowable_n == pytest.approx(joint.bears_n / 4.0)
    assert joint.galling == "high"
    codes = {each.code for each in joint.cautions}
    assert {"galling", "licensed", "strength_weakest_row"} & codes >= {"galling", "licensed"}
    assert "strength_no_factor" not in codes
    assert any("full form" in item.rule for item in joint.evidence if item.figure == "full_form_engagement_mm")
    text = joint.why()
    assert " lbf" in text and "kN" not in text and "factor of safety 4" in text
    assert joint.engagement_for_load_mm < joint.full_form_engagement_mm


def test_no_factor_of_safety_is_hidden() -> None:
    joint = hn.strength("M10-6g", "M10-6H", engagement="15 mm", **M10)
    assert joint.allowable_n is None
    assert "no factor of safety" in joint.whole()[1]
    assert "strength_no_factor" in {each.code for each in joint.cautions}
    rotating = hn.strength("M10-6g", "M10-6H", engagement="15 mm", rotating=True, **M10)
    assert "strength_rotating" in {each.code for each in rotating.cautions}


def test_walls_and_their_refusals() -> None:
    own = {**M10, "external_grade": None, "external_tensile": "290 MPa", "external_yield": "241 MPa"}
    joint = hn.strength(
        "M10-6g", "M10-6H", engagement="12 mm", external_bore="6 mm", internal_outside="13 mm", load="2 kN", **own
    )
    assert joint.external_wall_mm == pytest.approx((hn.limits("M10-6g").minor_min - 6.0) / 2)
    assert joint.dilation_factor < 0.75
    assert "dilation_beyond" in {each.code for each in joint.cautions}
    pressure = 2000.0 * math.tan(math.radians(30)) / (math.pi * hn.limits("M10-6g").pitch_min * 12.0)
    assert joint.internal_hoop_mpa == pytest.approx(
        float(oracle.ring_stress(pressure, sizes_of("M10-6g", "M10-6H")[6], 13.0)), rel=1e-9
    )
    with pytest.raises(hn.DomainError, match="external_bore: no wall is left"):
        hn.strength("M10-6g", "M10-6H", engagement="12 mm", external_bore="8.2 mm", **own)
    with pytest.raises(hn.DomainError, match="internal_outside: no wall is left"):
        hn.strength("M10-6g", "M10-6H", engagement="12 mm", internal_outside="10.2 mm", **own)


@pytest.mark.parametrize(
    ("change", "error", "words"),
    [
        ({"internal_form": None}, hn.NotTabulatedError, "say the form of 6061 T6: bar, drawn tube, extrusion"),
        ({"internal_form": "drawn tub"}, hn.NotTabulatedError, "did you mean 'drawn tube'"),
        ({"internal_alloy": None}, hn.DomainError, "the strength of the internal part is needed"),
        ({"external_grade": "8.9"}, hn.NotTabulatedError, "did you mean '[89].8'"),
        ({"engagement": 15}, hn.UnitError, "bare number"),
        ({"engagement": "1 mm", "external_chamfer": "2 mm"}, hn.DomainError, "no thread of full form"),
        ({"factor_of_safety": 0.5}, hn.DomainError, "factor_of_safety must be from 1 to 100, got 0.5"),
        ({"factor_of_safety": math.nan}, hn.DomainError, "factor_of_safety must be a finite number, got nan"),
        ({"internal": "M10x1.25-6H"}, hn.DomainError, "not one thread"),
        ({"internal": "M10-6H-LH"}, hn.DomainError, "hand differs"),
        ({"external": "M10-6H"}, hn.DomainError, "does not name an external thread"),
        ({"load": "-5 kN"}, hn.DesignationError, "a force cannot be negative"),
    ],
)
def test_refusals_say_what_would_do(change, error, words) -> None:
    arguments = {"external": "M10-6g", "internal": "M10-6H", "engagement": "15 mm", **M10, **change}
    with pytest.raises(error, match=words):
        hn.strength(arguments.pop("external"), arguments.pop("internal"), **arguments)


def test_columns_equal_the_scalar_answers_and_keep_a_status() -> None:
    strengths = {
        "external_tensile": "800 MPa",
        "external_yield": "640 MPa",
        "internal_tensile": "290 MPa",
        "internal_shear": "186 MPa",
        "internal_countersink": "1 mm",
    }
    columns = hn.batch.ask(
        "strength",
        {
            "external": ["M10-6g", "M10-6g", "no thread", "1/2-13 UNC-2A"],
            "internal": ["M10-6H", "M10-6H", "M10-6H", "1/2-13 UNC-2B"],
            "engagement_mm": [15.0, -1.0, 15.0, 15.0],
        },
        **strengths,
    )
    assert columns["status"].tolist() == [0, 2, 6, 0]
    for name, column in columns.items():
        if column.dtype == np.float64:
            assert np.isnan(column[[1, 2]]).all(), name
    for row, pair in ((0, ("M10-6g", "M10-6H")), (3, ("1/2-13 UNC-2A", "1/2-13 UNC-2B"))):
        joint = hn.strength(*pair, engagement="15 mm", **strengths)
        assert columns["bears_n"][row] == joint.bears_n
        assert columns["internal_stripping_n"][row] == joint.internal_stripping_n
        assert columns["weakest"][row] == joint.weakest
    assert "engagement must be > 0 mm, got -1 mm" in columns["reason"][1]


def test_minimum_strengths_in_both_systems_and_by_thickness() -> None:
    tube, pressed = hn.minimum_strength("6061-T6", "drawn tube"), hn.minimum_strength("6061-T6", "extrusion")
    assert tube.to_dict()["tensile_psi"] == pytest.approx(42000.0)
    assert pressed.tensile_mpa < tube.tensile_mpa
    assert hn.minimum_strength("S355", "plate", thickness="3/4 in").yield_mpa == 345.0
    thin, any_wall = (hn.minimum_strength("4130 normalised", "drawn tube", thickness=t) for t in ("0.065 in", None))
    assert thin.tensile_mpa > any_wall.tensile_mpa and any_wall.weakest_of_several
    assert all(item.kind == "memory" for item in tube.evidence)
    # minimum ones lie at or below the typical ones of the alloy table, but for the rounding of a unit
    for row in table_rows("material/strengths"):
        if row["tensile_ksi"] and row["alloy"] in {"A96061", "A97075", "R56400", "R50400"}:
            typical = hn.alloy(row["alloy"]).tensile_mpa
            assert row["tensile_ksi"] * 6.894757 <= typical * 1.02, row
    with pytest.raises(hn.NotTabulatedError, match=r"tabulated: over 6\.325 mm"):
        hn.minimum_strength("6061-T6", "plate", thickness="10 in")
    with pytest.raises(hn.NotTabulatedError, match="of its group there are 4130 normalised"):
        hn.minimum_strength("4130 annealed", "bar")
    with pytest.raises(hn.NotTabulatedError, match=r"give its tensile and yield strength$"):
        hn.minimum_strength("POM", "bar")


def test_a_minimum_says_how_the_load_lies_to_the_grain_and_whether_it_was_read_or_recalled() -> None:
    least = hn.minimum_strength("6061-T6", "extrusion", thickness="10 mm")
    along, across = (
        hn.minimum_strength("6061-T6", "extrusion", thickness="10 mm", grain=g) for g in ("along", "across")
    )
    assert (least.tensile_mpa, least.yield_mpa) == (across.tensile_mpa, across.yield_mpa)
    assert along.to_dict()["tensile_psi"] == pytest.approx(38000.0)
    assert least.least_of_grain and not along.least_of_grain
    assert "the least of along and across" in least.why() and "across" in across.why()
    assert {item.kind for item in least.evidence} == {"transcription"}
    # 5083 plate: shear is recalled, tensile and yield are read in a transcription
    plate = hn.minimum_strength("5083", "plate", thickness="12 mm")
    assert {item.figure: item.kind for item in plate.evidence} == {
        "tensile_mpa": "transcription",
        "shear_mpa": "memory",
    }
    assert plate.to_dict()["yield_psi"] == pytest.approx(28000.0)
    with pytest.raises(hn.NotTabulatedError, match="leave grain out"):
        hn.minimum_strength("6061-T6", "drawn tube", grain="across")
    with pytest.raises(hn.DomainError, match="grain"):
        hn.minimum_strength("6061-T6", "drawn tube", grain="up")


def test_galling_pairs_carry_advice_and_friction() -> None:
    pair = hn.galling("6061-T6", "7075-T6")
    assert pair.severity == "high"
    assert any("allowance" in each for each in pair.advice) and any("anti-seize" in each for each in pair.advice)
    assert ("dry", 0.3, 0.5) in {(each.lubricant, each.low, each.high) for each in pair.friction}
    assert {each.code for each in pair.cautions} == {"galling"}
    assert hn.galling("304", "316").severity == "severe"
    assert hn.galling("C36000", "304").severity == "low" and not hn.galling("C36000", "304").cautions
    assert hn.galling("titanium grade 2", "6061-T6").severity == "moderate"


@given(
    st.floats(100.0, 5e4),
    st.floats(0.02, 0.2),
    st.floats(0.0, 0.2),
    st.one_of(st.just(0.0), st.floats(1e-9, 5.0)),
)
@settings(max_examples=60, deadline=None)
def test_torque_and_preload_are_each_others_inverse(preload, low, more, prevailing) -> None:
    given_ = {"friction": (low, low + more), "prevailing": f"{prevailing!r} N m"}
    torque = hn.tighten("M10", preload=f"{preload!r} N", **given_)
    back = hn.tighten("M10", torque=f"{torque.torque_max_nm!r} N m", **given_)
    assert back.preload_min_n == pytest.approx(preload, rel=1e-9)
    assert back.preload_max_n >= back.preload_min_n
    wanted = float(oracle.screw_torque(preload, 9.025721, 1.5, 30, low)) / 1000 + low * 12.5 / 2 * preload / 1000
    assert torque.torque_min_nm == pytest.approx(wanted + prevailing, rel=1e-6)


def test_tightening_by_share_grade_lubricant_and_practice() -> None:
    by_share = hn.tighten("1/2-13 UNC", share=0.75, external_grade="SAE 8", friction=(0.10, 0.15))
    assert by_share.preload_min_n / 4.4482216 == pytest.approx(0.75 * 120e3 * 0.1419, rel=1e-4)
    assert by_share.nut_factor_min < 0.2 < 0.25
    assert by_share.practice_nut_factor == 0.2
    oiled = hn.tighten("M10", preload="10 kN", external_alloy="6061-T6", internal_alloy="6061-T6", lubricant="oil")
    pasted = hn.tighten(
        "M10", preload="10 kN", external_alloy="6061-T6", internal_alloy="6061-T6", lubricant="anti-seize paste"
    )
    assert pasted.torque_max_nm < oiled.torque_max_nm
    assert hn.tighten("M10", preload="10 kN", friction=0.14, condition="lubricated").practice_nut_factor == 0.18
    over = hn.tighten("M10", torque="200 N m", external_grade="8.8", friction=(0.1, 0.16))
    assert "torque_over_yield" in {each.code for each in over.cautions}
    for arguments, words in (
        ({"preload": "10 kN"}, "friction is needed"),
        ({"friction": 0.1}, "give the preload or the torque"),
        ({"friction": (0.2, 0.1), "preload": "10 kN"}, "friction must rise from 0 to 1"),
        ({"friction": 0.1, "share": 0.75}, "a share needs a strength"),
        ({"friction": 0.1, "torque": "1 N m", "prevailing": "2 N m"}, "above the prevailing torque"),
    ):
        with pytest.raises(hn.DomainError, match=words):
            hn.tighten("M10", **arguments)


def run(*arguments: str):
    return CliRunner().invoke(command, list(arguments))


def test_the_commands() -> None:
    asked = [
        "strength",
        "M10-6g",
        "M10-6H",
        "--engagement",
        "15mm",
        "--external-grade",
        "8.8",
        "--internal-alloy",
        "6061-T6",
    ]
    shown = run(*asked, "--internal-form", "bar", "--factor-of-safety", "4", "--load", "5kN")
    assert shown.exit_code == 0, shown.output
    assert shown.output.startswith("M10x1.5-6g in M10x1.5-6H: bears 37.1 kN")
    assert "CAUTION: static figures" in shown.output
    found = json.loads(run(*asked, "--internal-form", "bar", "--json").stdout)
    assert found["allowable_n"] is None and found["bears_n"] == pytest.approx(37100, rel=0.01)
    tight = run("tighten", "M10", "--preload", "20kN", "--friction", "0.10-0.16")
    assert tight.exit_code == 0, tight.output
    assert tight.output.startswith("M10x1.5: 27.8 to 41.7 N m")
    assert str(run(*asked).exception).startswith("say the form of 6061 T6")
