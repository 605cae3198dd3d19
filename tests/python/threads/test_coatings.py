"""Coatings: published effects, limits before coating, what is refused, and the record a person reads."""

import csv
import io
from collections import Counter
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import halfnut as hn
from halfnut import batch
from halfnut.material import coatings
from halfnut.threads import formulas

TESTS = Path(__file__).parents[2]


def rows(name):
    text = (TESTS / "reference" / "threads" / f"{name}.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(io.StringIO("".join(x for x in text.splitlines(True) if not x.startswith("#")))))


def half_unit(printed):
    return 0.5 * 10.0 ** -len(printed.partition(".")[2])


def effect(row):
    """Our answer to a printed effect, or None for a row on limits of size."""
    unit_um = 25400.0 if row["unit"] == "in" else 1.0
    found = effect_um(row, float(row["film"] or 0) * unit_um)
    return None if found is None else found / unit_um


def effect_um(row, film):
    build_up = formulas.build_up_um(film, float(row["ratio"]), 0.0)
    half_angle = float(row["half_angle_deg"] or 30)
    match row["quantity"]:
        case "surface_change":
            return build_up
        case "diameter_change":
            return formulas.coated_diameter_change_um(build_up)
        case "hole_change":
            return -formulas.coated_diameter_change_um(build_up)
        case "pitch_change":
            return (-1 if "internal" in row["thread"] else 1) * formulas.coated_pitch_change_um(build_up, half_angle)
        case "metal_consumed":
            return formulas.metal_consumed_um(film, float(row["ratio"]))
        case "needed_deviation" if row["thread"] == "local":
            return formulas.coated_pitch_change_um(film, 30.0)
        case "needed_deviation":
            return formulas.needed_deviation_um(film, float(row["thread"].split()[0]))
        case "greatest_coating_of_nominal":
            return coatings.build_up("1 mm min").max_um / 1000
    return None


def limit(row):
    """Our answer to a printed limit of a thread that is to be coated."""
    rule = "printed" if "27th" in row["source"] else "formula"
    before = hn.precoat(row["thread"], "1 um", rule=rule)
    unit = 25.4 if before.unit == "in" else 1.0
    match row["quantity"]:
        case "allowance":
            return before.allowance_um / 25400
        case "greatest_coating":
            return before.greatest_build_up_um / 25400
        case "coated_pitch_max":
            return before.go_after_pitch_mm / unit
        case "coated_major_max":
            return before.go_after_crest_mm / unit
    return getattr(hn.limits(row["thread"], rule=rule), row["quantity"])


def test_published_rows():
    counted = Counter()
    for row in rows("coatings"):
        ours = effect(row)
        if ours is None:
            assert limit(row) == pytest.approx(float(row["printed"]), abs=1e-9), row
        else:
            assert abs(ours - float(row["printed"])) <= half_unit(row["printed"]) + 1e-9, row
        counted[row["role"]] += 1
    assert counted == {"independent": 74, "derived": 10, "table-cell": 11, "memory": 12}


def test_limits_before_coating_by_hand():
    held = hn.precoat("M10x1.5-6g", "8 um")
    assert (held.way, held.pitch_max, held.pitch_min) == ("held", 8.994, 8.862)
    assert held.to_dict()["pitch_max"] == 8.994
    moved = hn.precoat("1/4-20 UNC-3A", "0.0002 in to 0.0003 in")
    plain = hn.limits("1/4-20 UNC-3A")
    assert plain.pitch_max - moved.pitch_max == pytest.approx(0.0012)
    assert plain.pitch_min - moved.pitch_min == pytest.approx(0.0008)
    assert plain.major_max - moved.major_max == pytest.approx(0.0006)
    nut = hn.precoat("M6-6H", ("3.3 um", "3.4 um"))
    assert nut.pitch_min == 5.364  # 5.350 and 13.6 um, up to the next 0.001 mm
    assert nut.minor_min == 4.924


def test_an_allowance_too_small_names_what_would_do():
    short = hn.precoat("M10-6g", "10 um")
    assert short.way == "deducted"
    assert [caution.code for caution in short.cautions] == ["coat_allowance_short"]
    assert short.remedies == (
        "cut it to 6f: that allowance holds the coating",
        "a coating that builds up at most 8 µm",
        "mask the thread, and leave it bare",
    )
    # The first remedy keeps its word: position f holds the coating; so does the second.
    assert hn.precoat("M10-6f", "10 um").way == "held"
    assert hn.precoat("M10-6g", "8 um").way == "held"
    assert hn.precoat("M10-5g6g", "10 um").roomier_class == "5f6f"
    assert hn.precoat("1/4-20 UNC-3A", "0.0002 in").roomier_class == "2A"
    assert hn.precoat("1/4-20 UNC-2A", "hard anodise 0.002 in").roomier_class is None


def test_words_of_the_record():
    lines = hn.precoat("M10-6g", "10 um").whole()
    assert lines[0].startswith("before coating M10x1.5-6g: major 9.968/9.712, pitch 8.986/8.822")
    assert any("after coating: go 9.026 mm (0.3554 in) pitch, 10.000 mm major" in line for line in lines)
    assert hn.precoat("M10-6g", "bare").way == "bare"
    assert hn.precoat("M10-6g", "5 um", gauged_at="class").pitch_max == 8.974
    evidence = hn.precoat("M10-6g", "zinc SC2").evidence
    assert {item.kind for item in evidence} >= {"handbook", "common practice"}


def test_a_finish_and_its_process():
    black = hn.coating("anodise II black 15 um", on="6061-T6")
    assert (black.build_up_min_um, black.build_up_max_um) == (0.0, 7.5)
    codes = [caution.code for caution in black.told]
    assert sorted(codes) == ["coat_etch", "coat_growth_range", "coat_strip"]
    assert "coat_film_outside" in [caution.code for caution in hn.coating("anodise II 40 um").told]
    assert "coat_usual_film" in [caution.code for caution in hn.coating("hard anodise").told]
    assert "coat_blind_hole" in [caution.code for caution in hn.precoat("M6-6H", "anodise II 10 um").cautions]
    assert hn.coating("titanium colour").build_up_max_um == 0.0
    assert black.evidence[0].row == "threads/coatings anodise II black"


def test_a_stripped_part_has_lost_metal_for_good():
    fresh, again = hn.coating("anodise II 12 um"), hn.coating("anodise II 12 um", strips=1)
    assert (fresh.build_up_min_um, fresh.build_up_max_um) == pytest.approx((4 - 5, 6))
    assert (again.build_up_min_um, again.build_up_max_um) == pytest.approx((4 - 5 - 8 - 5, 6 - 6))
    # the tube grows smaller: what may bind after the first coat goes together after the second
    assert hn.fit("M10-6h", "M10-6H", build_up_external=fresh).verdict == "may bind"
    loose = hn.fit("M10-6h", "M10-6H", build_up_external=again)
    assert loose.verdict == "free"
    assert loose.pitch_clearance_max_mm == pytest.approx(9.206 - 8.894 + 4 * 0.014)
    assert again.evidence[0].row == fresh.evidence[0].row
    with pytest.raises(hn.DomainError, match="strips must be from 0 to 10, got 11"):
        hn.coating("anodise II 12 um", strips=11)


# FCB05: ISO 10684:2004 as its scope abstract states it, M8 and larger, P 1.25 and larger.
@pytest.mark.parametrize(("thread", "small"), [("M8x1.25-6az", False), ("M6-6az", True), ("M10x1-6az", True)])
def test_galvanizing_has_a_lower_size(thread, small):
    codes = [caution.code for caution in hn.precoat(thread, "hot dip zinc").told]
    assert ("coat_galvanize_small" in codes) == small


# CO037: 2A pitch maximum 0.4485 less 0.004 at a hard film of 0.002 in; CO038: M6 cut at least 13.3 um above 5.350.
def test_derived_limits_before_coating():
    hard = hn.precoat("1/2-13 UNC-2A", "0.001 in", gauged_at="class")
    assert hard.pitch_max == pytest.approx(0.4445)
    soft = hn.precoat("M6-6H", hn.mm(10 / 3 / 1000))
    assert soft.pitch_min == 5.364


@pytest.mark.parametrize(
    ("call", "error", "message"),
    [
        (lambda: hn.coating("anodise II", on="C36000"), hn.DomainError, "does not go on .*brass"),
        (lambda: hn.coating("anodise II", on="4130 normalised"), hn.DomainError, "needs aluminium"),
        (lambda: hn.coating("anodize two"), hn.NotTabulatedError, "no coating"),
        (lambda: hn.coating("8 um"), hn.NotTabulatedError, "is a build-up"),
        (lambda: hn.precoat("M10-6g", 8), hn.UnitError, "build_up.*bare number"),
        (lambda: hn.precoat("M10-6g", "8"), hn.UnitError, "build_up"),
        (lambda: hn.precoat("M10-6g", ("8 um", "5 um")), hn.DomainError, "least build-up"),
        (lambda: hn.precoat("M3-4h", "5-30 um"), hn.DomainError, "no part can be cut that gauges"),
        (
            lambda: hn.precoat("M10-6g", "8 um", gauged_at="nominal"),
            hn.DomainError,
            "gauged_at must be one of 'basic', 'class'",
        ),
    ],
)
def test_what_is_refused(call, error, message):
    with pytest.raises(error, match=message):
        call()


THREADS = ["M10-6g", "M10-6h", "M6-6H", "M6-6G", "M24x3-4h6h", "1/4-20 UNC-2A", "1/4-20 UNC-3A", "1/2-13 UNC-2B"]


@given(thread=st.sampled_from(THREADS), least=st.floats(0, 12), spread=st.floats(0, 4))
def test_every_part_cut_to_the_limits_gauges_once_coated(thread, least, spread):
    before = hn.precoat(thread, coatings.BuildUp(least, least + spread))
    scale = 25.4 if before.unit == "in" else 1.0
    sense = 1 if before.side == "external" else -1
    fullest, leanest = (before.pitch_max, before.pitch_min)[::sense]
    assert sense * scale * fullest + 0.004 * (least + spread) <= sense * before.go_after_pitch_mm + 1e-9
    if before.way == "deducted":
        assert sense * scale * leanest + 0.004 * least >= sense * before.not_go_after_pitch_mm - 1e-9
    else:
        assert before.to_dict()["pitch_max"] == hn.limits(thread).pitch_max


def test_arrays_and_status():
    values, codes = formulas.build_up_um(np.array([10.0, -1.0, np.nan]), 0.5, 0.0, on_error="status")
    assert values[0] == 5.0
    assert np.isnan(values[1:]).all()
    assert codes.tolist() == [0, 2, 1]


def test_columns_agree_with_single_answers():
    names = ["M10-6g", "M10-6g", "1/4-20 UNC-3A", "M6-6H", "M3-4h", "none", "M10-6h"]
    least = np.array([8.0, 8.0, 5.08, 3.3, 5.0, 0.0, 3.0])
    most = np.array([8.0, 10.0, 7.62, 3.4, 30.0, 0.0, 2.0])
    films = [f"{a}-{b} um" for a, b in zip(least, most, strict=True)]
    columns = batch.precoat({"thread": names, "build_up": films}, columns="all")
    assert columns["status"][:6].tolist() == [0, 0, 0, 0, 8, 6] and columns["status"][6]
    assert columns["way"].tolist() == ["held", "deducted", "deducted", "deducted", "", "", ""]
    for row in range(4):
        single = hn.precoat(names[row], coatings.BuildUp(least[row], most[row]))
        figures = single.to_dict()
        for size in ("major_max", "major_min", "pitch_max", "pitch_min", "minor_max", "minor_min"):
            expected = np.nan if figures[size] is None else figures[size]
            assert columns[f"{size}_{single.unit}"][row] == pytest.approx(expected, abs=1e-12, nan_ok=True)
        for key in ("allowance_um", "pitch_change_um", "go_after_pitch_mm", "go_after_crest_mm"):
            assert columns[key][row] == figures[key]
    np.testing.assert_allclose(columns["pitch_max_mm"], columns["pitch_max_in"] * 25.4, rtol=1e-12)
    for key, column in columns.items():
        if column.dtype == np.float64:
            assert np.isnan(column[4:]).all(), key
    assert "no part can be cut that gauges" in columns["reason"][4]
    with pytest.raises(hn.DomainError, match="rule must be one of 'printed', 'formula'"):
        batch.precoat({"thread": ["M10-6g"]}, build_up="bare", rule="old")
