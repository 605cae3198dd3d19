"""Plain holes and shafts: printed limits, the whole grid of ISO 286 a second time, fits, job key, command."""

import json
import sys
from collections import Counter
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

import halfnut as hn
from halfnut import _core, batch
from halfnut.cli import command
from halfnut.core import catalogue

sys.path[:0] = [str(Path(__file__).parents[1]), str(Path(__file__).parents[2] / "oracles")]

import fit_chance  # noqa: E402
import iso286_oracle as oracle  # noqa: E402
from thread_reference import rows  # noqa: E402

TESTS = Path(__file__).parents[2]


REFERENCE = TESTS / "reference" / "fits" / "cylindrical_limits.csv"
# One size in every range of the standard's tables, and one below 1 mm.
SIZES = [0.8, *oracle.SUB[1:]]
GRADES = range(-1, 19)


def class_text(letter: str, grade: int) -> str:
    return f"{letter}{'01' if grade == -1 else grade}"


def published() -> list[dict[str, str]]:
    return rows(REFERENCE)


def test_every_published_row_agrees() -> None:
    read = Counter()
    for row in published():
        answer = hn.cylindrical_fit(row["size"])
        part = answer.hole if row["part"] == "hole" else answer.shaft
        assert part is not None
        units = 1000
        got = {"upper": part.upper_units / units, "lower": part.lower_units / units}
        if row["part"] == "pair":
            assert answer.hole is not None and part is not None
            got["hole_upper"] = answer.hole.upper_units / units
            got["clearance_min"] = (answer.hole.lower_units - part.upper_units) / units
            got["clearance_max"] = (answer.hole.upper_units - part.lower_units) / units
        for name, value in got.items():
            if row[name]:
                assert value == float(row[name]), (row["id"], row["size"], name, row[name], value)
        read[row["role"]] += 1
    assert read == {"independent": 49, "table-cell": 32, "derived": 7, "memory": 2}


def test_the_whole_grid_agrees_with_the_formulas_and_shows_its_kinds() -> None:
    kinds: Counter[str] = Counter()
    wrong = []
    for letter in [*oracle.LETTERS, *(name.upper() for name in oracle.LETTERS)]:
        for grade in GRADES:
            for size in SIZES:
                expected = oracle.limits(letter, grade, size)
                text = f"{size:g} {class_text(letter, grade)}"
                try:
                    answer = _core.ask("cylindrical_fit", (text,), catalogue.active())
                except hn.NotTabulatedError:
                    kinds["refused"] += 1
                    if expected is not None:
                        wrong.append((text, "refused", expected))
                    continue
                zone = answer.figure("hole") or answer.figure("shaft")
                kinds[zone["kind"]] += 1
                got = (zone["upper_units"] / 1000, zone["lower_units"] / 1000)
                if expected != got:
                    wrong.append((text, got, expected))
    assert wrong == []
    print(dict(kinds))
    assert kinds == KINDS


KINDS = {"printed": 3839, "derived": 3518, "memory": 24208, "refused": 15475}


def test_the_listed_departures_of_the_tables_are_departures() -> None:
    """A listed cell that the formula gives anyway would hide a mistake of the list."""
    assert (len(oracle.TOLERANCES), len(oracle.DEVIATIONS)) == (68, 126)
    tolerances = oracle.TOLERANCES.copy()
    for key, printed in tolerances.items():
        del oracle.TOLERANCES[key]
        oracle.tolerance.cache_clear()
        size = oracle.MAIN[oracle.MAIN.index(key[1]) + 1]
        assert oracle.tolerance(key[0], size) != printed, key
        oracle.TOLERANCES[key] = printed
    oracle.tolerance.cache_clear()
    deviations = oracle.DEVIATIONS.copy()
    for name, printed in deviations.items():
        del oracle.DEVIATIONS[name]
        oracle.deviation.cache_clear()
        assert oracle.deviation(name[0], name[2]) != printed, name
        oracle.DEVIATIONS[name] = printed
    oracle.deviation.cache_clear()


def test_no_formula_stands_for_a_printed_cell() -> None:
    """A printed answer rests on cells of a print alone: no rule, no memory."""
    for text in ("25 H7", "25 g6", "100 n6", "25 u6"):
        answer = hn.cylindrical_fit(text)
        assert answer.kind == "printed"
        assert {item.kind for item in answer.evidence} <= {"textbook", "handbook"}
        assert all(item.row for item in answer.evidence)
    for text in ("25 P7", "25 JS7", "25 G7"):
        assert hn.cylindrical_fit(text).kind == "derived"
    for text in ("25 zc7", "600 H7", "25 IT".replace("IT", "H3"), "1 RC4"):
        assert hn.cylindrical_fit(text).kind == "memory"


def test_ansi_shafts_are_as_wide_as_their_grade() -> None:
    """Each class is of one grade; the widths of holes are grades themselves. Where print has another, it is listed."""
    widths = {4: "0.15 0.15 0.15 0.2 0.25 0.3 0.3 0.4 0.5 0.6 0.6 0.7 0.8"}
    widths |= {5: "0.15 0.2 0.25 0.3 0.4 0.4 0.5 0.6 0.7 0.8 0.9 1 1"}
    edges = [0.12, 0.24, 0.4, 0.71, 1.19, 1.97, 3.15, 4.73, 7.09, 9.85, 12.41, 15.75, 19.69]
    table = catalogue.rows("fits/ansi_b4_1")
    assert len(table) == 492
    grades = {4: [float(x) for x in widths[4].split()], 5: [float(x) for x in widths[5].split()]}
    for grade, name in (
        (6, "RC2"),
        (7, "RC3"),
        (8, "RC4"),
        (9, "RC6"),
        (10, "RC8"),
        (11, "RC9"),
        (12, "LC10"),
        (13, "LC11"),
    ):
        grades[grade] = [row["hole_upper_thou"] for row in table if row["fit"] == name]
    shaft = {"RC1": 4, "RC2": 5, "RC3": 6, "RC4": 7, "RC5": 7, "RC6": 8, "RC7": 8, "RC8": 9, "RC9": 10}
    shaft |= {"LC1": 5, "LC2": 6, "LC3": 7, "LC4": 9, "LC5": 6, "LC6": 8, "LC7": 9, "LC8": 9, "LC9": 10}
    shaft |= {"LC10": 12, "LC11": 13, "LT3": 6, "LT4": 7, "LT5": 6, "LT6": 7, "LN1": 5, "LN2": 6, "LN3": 6}
    shaft |= {"FN1": 5, "FN2": 6, "FN3": 6, "FN4": 6, "FN5": 7}
    odd = set()
    for row in table:
        place = next(i for i, edge in enumerate(edges) if row["to_in"] <= edge)
        if row["fit"] in shaft:
            width = row["shaft_upper_thou"] - row["shaft_lower_thou"]
            if abs(width - grades[shaft[row["fit"]]][place]) > 1e-9:
                odd.add((row["fit"], row["to_in"]))
        elif row["shaft_upper_thou"] != -row["shaft_lower_thou"]:
            odd.add((row["fit"], row["to_in"]))
    assert odd == {
        ("RC2", 0.12),
        ("LC1", 0.12),
        ("RC9", 0.24),
        ("LN1", 0.12),
        ("LN1", 0.71),
        ("LN1", 1.19),
        ("LN1", 1.97),
        ("FN1", 0.12),
        ("FN1", 15.75),
    }


def test_limits_are_whole_last_places() -> None:
    answer = hn.cylindrical_fit("25 JS7")
    assert answer.hole is not None
    assert (answer.hole.upper_units, answer.hole.lower_units) == (10_500, -10_500)
    assert answer.hole.sizes_said == "25.0105/24.9895 mm (0.98466/0.98384 in)"
    inch = hn.cylindrical_fit("1 RC1")
    assert inch.shaft is not None
    assert inch.shaft.sizes_said == "0.99970/0.99945 in (25.3923/25.3861 mm)"


def test_the_other_unit_is_inside_the_limits() -> None:
    part = hn.cylindrical_fit("25 g6").shaft
    assert part is not None
    most, least = (float(text) for text in part.sizes_said.split("(")[1].split(" ")[0].split("/"))
    assert least * 25.4 >= part.min_mm and most * 25.4 <= part.max_mm


def test_character_of_preferred_fits() -> None:
    seen = {
        row.fit: hn.cylindrical_fit(f"{'1.5' if row.fit[:2].isupper() and '/' not in row.fit else '25'} {row.fit}")
        for row in hn.preferred_fits()
    }
    assert len(seen) == 53
    assert {row.basis for row in hn.preferred_fits(basis="shaft")} == {"shaft"}
    assert [row.fit for row in hn.preferred_fits() if row.name == "sliding"] == ["G7/h6", "H7/g6", "RC2"]
    for text, answer in seen.items():
        wanted = {"RC": "clearance", "LC": "clearance", "LN": "interference", "FN": "interference"}.get(text[:2])
        if wanted:
            assert answer.character == wanted, text
        if "clearance" in answer.name or "running" in answer.name or "sliding" in answer.name:
            assert answer.character == "clearance", text
        if "transition" in answer.name:
            assert answer.character == "transition", text
        if "interference" in answer.name or "drive" in answer.name or answer.name == "force":
            assert answer.character == "interference", text


def test_to_3_mm_h7_p6_is_a_transition() -> None:
    assert hn.cylindrical_fit("2.5 H7/p6").character == "transition"


def test_coating_takes_twice_its_build_up() -> None:
    bare, coated = hn.cylindrical_fit("12 H7/g6"), hn.cylindrical_fit("12 H7/g6", shaft_build_up="5 um")
    assert coated.clearance_min_mm == pytest.approx(bare.clearance_min_mm - 0.010)
    assert coated.character == "transition"
    low, high = coated.cut_to_mm("shaft")
    assert (low, high) == pytest.approx((12 - 0.017 - 0.010, 12 - 0.006 - 0.010))
    assert hn.cylindrical_fit("12 H7/g6", shaft_build_up="0 um to 8 um").cut_to_mm("shaft") is None


def test_warm_hub_on_a_cold_shaft() -> None:
    cold = hn.cylindrical_fit("25 H7/p6")
    warm = hn.cylindrical_fit("25 H7/p6", hole_alloy="6061-T6", hole_temperature_c=120.0)
    grown = 25.0 * 23.6e-6 * 100
    assert warm.clearance_min_mm == pytest.approx(cold.clearance_min_mm + grown, abs=1e-4)
    assert warm.character == "clearance" and cold.character == "interference"
    with pytest.raises(hn.DomainError, match="alloy"):
        hn.cylindrical_fit("25 H7/p6", hole_temperature_c=120.0)


def test_measured_parts_replace_their_limits() -> None:
    answer = hn.cylindrical_fit("25 H7/g6", hole="25.010 mm", shaft="24.990 mm")
    assert answer.clearance_min_mm == pytest.approx(0.020) == answer.clearance_max_mm
    assert answer.chance_of_interference == 0.0


@pytest.mark.parametrize("text", ["25 H7/k6", "25 H7/js6", "60 H7/n6", "1 LT3"])
@pytest.mark.parametrize("shift", [0.0, 0.5])
def test_chance_of_interference_is_that_of_drawn_pairs(text: str, shift: float) -> None:
    answer = hn.cylindrical_fit(text, mean_shift=shift)
    hole, shaft = answer.hole, answer.shaft
    assert hole is not None and shaft is not None
    pairs = fit_chance.clearances(
        (shaft.min_mm, shaft.max_mm), (hole.min_mm, hole.max_mm), (0, 0), (0, 0), 6.0, shift, 400_000, 7
    )
    share = float((pairs < 0).mean())
    assert answer.chance_of_interference == pytest.approx(share, abs=4 * (share * (1 - share) / 400_000) ** 0.5 + 1e-5)
    assert answer.clearance_mean_mm == pytest.approx(pairs.mean(), abs=5e-5)
    assert answer.clearance_sigma_mm == pytest.approx(pairs.std(), rel=0.01)


@pytest.mark.parametrize(
    ("text", "canonical"),
    [
        ("25H7/g6", "25 H7/g6"),
        ("ø25 H7", "25 H7"),
        ("25 mm H7-g6", "25 H7/g6"),
        ("1in H7/g6", "25.4 H7/g6"),
        ("1/2 in H7", "12.7 H7"),
        ("1 1/4 RC4", "1.25 RC4"),
        ("1-1/4 rc 4", "1.25 RC4"),
        ("25.4 mm RC4", "1 RC4"),
        ("25 js01", "25 js01"),
    ],
)
def test_spellings(text: str, canonical: str) -> None:
    assert hn.cylindrical_fit(text).text == canonical
    assert hn.cylindrical_fit(canonical).text == canonical


@pytest.mark.parametrize(
    ("text", "error", "words"),
    [
        ("25 g6/H7", hn.DesignationError, "H7/g6"),
        ("25 H7/G6", hn.DesignationError, "one hole"),
        ("25 q6", hn.DesignationError, "no letter 'q'"),
        ("25 H19", hn.DesignationError, "grades"),
        ("25 H", hn.DesignationError, "needs a grade"),
        ("1/2 H7", hn.DesignationError, "inches"),
        ("25,5 H7", hn.DesignationError, "comma"),
        ("0 H7", hn.DesignationError, "> 0"),
        ("H7", hn.DesignationError, "no size"),
        ("25", hn.DesignationError, "class is missing"),
        ("25 Js6", hn.DesignationError, "mixes"),
        ("1 RC10", hn.DesignationError, "RC1"),
        ("25 H7/g6 x", hn.DesignationError, "left over"),
        ("20 t6", hn.NotTabulatedError, "over 24"),
        ("25 j9", hn.NotTabulatedError, "it has"),
        ("25 K9", hn.NotTabulatedError, "IT8"),
        ("600 c11", hn.NotTabulatedError, "to 500 mm"),
        ("4000 H7", hn.DomainError, "3150"),
        ("25 RC4", hn.DomainError, "19.69"),
        ("0.2 FN3", hn.NotTabulatedError, "over 0.95"),
    ],
)
def test_refusals_name_the_way_out(text: str, error: type[Exception], words: str) -> None:
    with pytest.raises(error, match=words):
        hn.cylindrical_fit(text)


@given(st.text(max_size=24))
def test_no_text_crashes_the_reader(text: str) -> None:
    try:
        answer = hn.cylindrical_fit(text)
    except hn.Error:
        return
    assert hn.cylindrical_fit(answer.text).text == answer.text


def test_columns_mark_bad_rows() -> None:
    texts = ["25 H7/g6", "25 q6", "1 RC4", "600 c11"]
    columns = batch.cylindrical_fit({"text": texts})
    assert columns["status"].tolist() == [0, 6, 0, 5]
    assert columns["hole_max_mm"][0] == hn.cylindrical_fit("25 H7/g6").hole.max_mm
    assert np.isnan(columns["hole_max_mm"][1]) and columns["shaft_max_mm"][2] == pytest.approx(0.9992 * 25.4)


def test_command() -> None:
    run = CliRunner().invoke(command, ["cylindrical-fit", "25 H7/g6"])
    assert run.exit_code == 0 and run.output.startswith("25 mm H7/g6: clearance (sliding), 0.007 to 0.041 mm")
    found = json.loads(CliRunner().invoke(command, ["cylindrical-fit", "1 RC4", "--json"]).output)
    assert found["shaft"]["max_mm"] == pytest.approx(0.9992 * 25.4)
    assert found["shaft"]["kind"] == "memory"
    listed = CliRunner().invoke(command, ["preferred-fits", "--why"]).output
    assert listed.count("\n") == 54


def test_a_coating_may_take_away() -> None:
    """A thin anodise after its etch: 12.000 to 11.989 mm grows by -2 to 12 um; 12.000 to 12.018 mm stays."""
    found = hn.cylindrical_fit("12 H7/h6", shaft_build_up="anodise II 12 um")
    assert (found.shaft_build_up_min_um, found.shaft_build_up_max_um) == (-1.0, 6.0)
    assert found.clearance_min_mm == pytest.approx(-0.012)
    assert found.clearance_max_mm == pytest.approx(0.018 + 0.011 + 0.002)


def test_zones_are_drawn() -> None:
    from halfnut.drawing.cylinders import cylinder_zones_plot

    axes = cylinder_zones_plot("25 H7/g6", "25 H7/p6")
    assert len(axes.patches) == 4
    assert axes.patches[0].get_height() == 21
    with pytest.raises(hn.DomainError, match="one unit"):
        cylinder_zones_plot("25 H7", "1 RC4")


def test_what_speaks_of_a_pair_is_refused_for_one_part():
    with pytest.raises(hn.DomainError, match="shaft_temperature_c says nothing about 12 m6"):
        hn.cylindrical_fit("12 m6", shaft_temperature_c=60.0)
    with pytest.raises(hn.DomainError, match="hole, measured, says nothing about 25 H7"):
        hn.cylindrical_fit("25 H7", hole="25.010 mm")
    with pytest.raises(hn.DomainError, match="hole must be at most 10000 mm, got 20000 mm"):
        hn.cylindrical_fit("25 H7/g6", hole="20 m")
    with pytest.raises(hn.DesignationError, match=r"hole: .* must be 0, or from 1e-06 to 100000 mm"):
        hn.cylindrical_fit("25 H7/g6", hole="1e308 mm")
