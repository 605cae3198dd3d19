"""A row of a batch is the scalar answer, bit for bit, whatever is left out, through the public functions alone."""

import math
import random

import numpy as np
import pytest

import halfnut as hn
from halfnut import batch

ALLOYS = ("6061-T6", "1018", "304", "C36000", "Ti-6Al-4V", "grey iron", "AZ31B", "acetal")
TOOLS = ("HSS", "carbide", "coated carbide", None)

# Optional columns: how the scalar function calls them, and values between.
TURN = {
    "depth_mm": ("depth", 0.05, 3.0),
    "length_mm": ("length", 5.0, 80.0),
    "feed_mm_rev": ("feed", 0.03, 0.4),
    "nose_radius_mm": ("nose_radius", 0.1, 1.2),
    "entering_deg": ("entering_deg", 45.0, 100.0),
    "rake_deg": ("rake_deg", -5.0, 15.0),
    "wear_factor": ("wear_factor", 1.0, 2.0),
    "stick_out_mm": ("stick_out", 10.0, 200.0),
    "bore_mm": ("bore", 0.1, 0.9),
    "roughness_limit_um": ("roughness_um", 0.5, 6.0),
    "deflection_limit_mm": ("deflection", 0.005, 0.1),
    "spindle_rpm": ("spindle_rpm", 50.0, 2000.0),
    "hardness_hb": ("hardness_hb", 60.0, 300.0),
    "approach_mm": ("approach", 0.0, 5.0),
    "overrun_mm": ("overrun", 0.0, 5.0),
}
DRILL = {
    "depth_mm": ("depth", 2.0, 60.0),
    "pilot_mm": ("pilot", 0.5, 2.0),
    "point_deg": ("point_deg", 100.0, 140.0),
    "feed_mm_rev": ("feed", 0.03, 0.3),
    "spindle_rpm": ("spindle_rpm", 100.0, 2000.0),
    "wear_factor": ("wear_factor", 1.0, 2.0),
    "hardness_hb": ("hardness_hb", 60.0, 300.0),
    "approach_mm": ("approach", 0.0, 5.0),
    "overrun_mm": ("overrun", 0.0, 5.0),
}
MILL = {
    "flutes": ("flutes", 2, 6),
    "length_mm": ("length", 10.0, 80.0),
    "width_mm": ("width", 1.0, 30.0),
    "step_over_mm": ("step_over", 0.5, 2.0),
    "step_down_mm": ("step_down", 0.5, 4.0),
    "feed_per_tooth_mm": ("feed_per_tooth", 0.01, 0.1),
    "spindle_rpm": ("spindle_rpm", 100.0, 2500.0),
    "entering_deg": ("entering_deg", 45.0, 90.0),
    "nose_radius_mm": ("nose_radius", 0.2, 1.2),
    "roughness_limit_um": ("roughness_um", 0.5, 6.0),
    "stick_out_mm": ("stick_out", 10.0, 60.0),
    "deflection_limit_mm": ("deflection", 0.005, 0.1),
    "wear_factor": ("wear_factor", 1.0, 2.0),
    "hardness_hb": ("hardness_hb", 60.0, 300.0),
    "approach_mm": ("approach", 0.0, 5.0),
    "overrun_mm": ("overrun", 0.0, 5.0),
}
SPELLED_IN_INCHES = {"_mm_rev": "_in_rev", "_mm": "_in"}


def spelled(name, inch):
    """The name of a column in the system of the question."""
    for suffix, other in SPELLED_IN_INCHES.items():
        if inch and name.endswith(suffix):
            return name.removesuffix(suffix) + other
    return name


def as_given(name, value, inch):
    """A number of a column as the scalar function takes it."""
    if name.endswith("_mm"):
        return hn.inch(value) if inch else hn.mm(value)
    if name == "feed_mm_rev":
        return f"{value!r} {'in/rev' if inch else 'mm/rev'}"
    return int(value) if name == "flutes" else value


def random_rows(columns, needed, inch, seed, rows):
    """Columns with random gaps, some left out as a whole, and the same as keywords of the scalar function."""
    chance = random.Random(seed)
    kept = [name for name in columns if chance.random() < 0.6]
    scale = 25.4 if inch else 1.0
    frame = {spelled(name, inch): np.full(rows, np.nan) for name in [*needed, *kept]}
    frame |= {
        "alloy": [chance.choice(ALLOYS) for _ in range(rows)],
        "tool": [chance.choice(TOOLS) for _ in range(rows)],
    }
    asked = []
    for row in range(rows):
        one = {"tool": frame["tool"][row]}
        for name in [*needed, *kept]:
            argument, low, high = (needed | columns)[name]
            if name not in needed and chance.random() < 0.4:
                continue
            value = chance.uniform(low, high)
            if name.endswith("_mm_rev") or name.endswith("_mm"):
                value = round(value / scale, 4)
            if name == "flutes":
                value = float(chance.randint(low, high))
            if name == "bore_mm":
                value *= frame[spelled("diameter_mm", inch)][row]
            frame[spelled(name, inch)][row] = value
            one[argument] = as_given(name, value, inch)
        asked.append(one)
    return frame, asked


def expect_row_by_row(kind, frame, asked, scalar, options):
    """Compare every figure of every row, or that both have no answer."""
    answers = getattr(batch, kind)(frame, columns="all", **options)
    figures = [name for name, column in answers.items() if column.dtype == float]
    answered = 0
    for row, one in enumerate(asked):
        try:
            cut = scalar(frame["alloy"][row], one).to_dict()
        except hn.Error:
            assert answers["status"][row] != 0, (row, one)
            continue
        assert answers["status"][row] == 0, (row, one)
        answered += 1
        for name in figures:
            wanted = cut[name]
            found = answers[name][row]
            assert (math.isnan(found) and wanted is None) or found == wanted, (name, row, found, wanted, one)
        assert answers["passes"][row] == cut["passes"]
    return answered


@pytest.mark.parametrize("inch", [False, True], ids=["metric", "inch"])
@pytest.mark.parametrize("machine", [None, "gap-bed", "metric-lathe"])
@pytest.mark.parametrize("finish", [False, True], ids=["rough", "finish"])
def test_turning(inch, machine, finish):
    answered = 0
    for seed in range(6):
        frame, asked = random_rows(TURN, {"diameter_mm": ("diameter", 1.0, 90.0)}, inch, seed, 25)

        def scalar(alloy, one):
            given = dict(one)
            return hn.turn(alloy, given.pop("diameter"), machine=machine, finish=finish, **given)

        answered += expect_row_by_row("turn", frame, asked, scalar, {"machine": machine, "finish": finish})
    assert answered > 60


def test_turning_with_nothing_but_a_diameter_in_either_system():
    for spelling, size in (("diameter_mm", hn.mm), ("diameter_in", hn.inch)):
        sizes = [0.05, 0.16, 0.2, 0.5, 1.25, 3.0] if spelling == "diameter_in" else [1.0, 4.0, 4.1, 8.0, 32.0, 80.0]
        for finish in (False, True):
            found = batch.turn({spelling: sizes}, alloy="6061-T6", machine="gap-bed", finish=finish)
            for row, value in enumerate(sizes):
                cut = hn.turn("6061-T6", size(value), machine="gap-bed", finish=finish)
                for name in ("depth_mm", "cutting_force_n", "feed_mm_rev", "spindle_rpm", "torque_nm"):
                    assert found[name][row] == getattr(cut, name), (spelling, value, name)
    # 0.040 in and 0.010 in are 1.016 mm and 0.254 mm.
    assert hn.turn("6061-T6", "1.25 in").depth_mm == pytest.approx(1.016)
    assert hn.turn("6061-T6", "1.25 in", finish=True).depth_mm == pytest.approx(0.254)
    assert "depth 0.04 in" in hn.turn("6061-T6", "1.25 in").assumed


@pytest.mark.parametrize("inch", [False, True], ids=["metric", "inch"])
@pytest.mark.parametrize("machine", [None, "gap-bed", "bench-mill"])
def test_drilling(inch, machine):
    answered = 0
    for seed in range(8):
        frame, asked = random_rows(DRILL, {"diameter_mm": ("diameter", 1.0, 20.0)}, inch, seed, 25)

        def scalar(alloy, one):
            given = dict(one)
            return hn.drill(alloy, given.pop("diameter"), machine=machine, **given)

        answered += expect_row_by_row("drill", frame, asked, scalar, {"machine": machine})
    assert answered > 80


@pytest.mark.parametrize("inch", [False, True], ids=["metric", "inch"])
@pytest.mark.parametrize("shape", ["slot", "side", "pocket", "face"])
def test_milling(inch, shape):
    answered = 0
    for seed in range(8):
        needed = {"cutter_diameter_mm": ("cutter", 2.0, 20.0), "depth_mm": ("depth", 0.5, 8.0)}
        frame, asked = random_rows(MILL, needed, inch, seed, 25)

        def scalar(alloy, one):
            given = dict(one)
            return hn.mill(alloy, given.pop("cutter"), shape=shape, machine="bench-mill", **given)

        answered += expect_row_by_row("mill", frame, asked, scalar, {"machine": "bench-mill", "shape": shape})
    assert answered > 20


def test_a_cutter_without_teeth_has_the_usual_ones():
    # Two below 5 mm, four from there on.
    frame = {"cutter_diameter_mm": [4.9, 5.0], "depth_mm": [1.0, 1.0], "width_mm": [1.0, 1.0]}
    left_out = batch.mill(frame, alloy="7075-T6")
    given = batch.mill(frame | {"flutes": [2.0, 4.0]}, alloy="7075-T6")
    for name, column in given.items():
        np.testing.assert_array_equal(left_out[name], column, err_msg=name)
    assert (left_out["status"] == 0).all()


@pytest.mark.parametrize("name", ["M10-6g", "1/2-13 UNC-2A", "Tr40x7-7e", "M24x2-6H"])
def test_limits_with_and_without_an_engagement(name):
    frame = {"thread": [name] * 2, "engagement_mm": [np.nan, 15.0]}
    found = batch.limits(frame)
    for row, engagement in enumerate([None, "15 mm"]):
        one = hn.limits(name, engagement=engagement).to_dict()
        for key in ("major_max", "major_min", "pitch_max", "pitch_min", "minor_max", "minor_min"):
            native = key if key in one else f"{key}_{one['unit']}"
            value, wanted = found[f"{key}_{one['unit']}"][row], one[native]
            assert (math.isnan(value) and wanted is None) or value == wanted, (key, row)


def test_fits_and_wires_and_pipe_threads_with_what_is_left_out():
    fits = batch.fit({"external": ["M10-6g"] * 2, "internal": ["M10-6H"] * 2, "engagement_mm": [np.nan, 12.0]})
    for row, engagement in enumerate([None, "12 mm"]):
        one = hn.fit("M10-6g", "M10-6H", engagement=engagement).to_dict()
        shared = [name for name in fits if name in one and fits[name].dtype == float]
        assert len(shared) > 5
        for name in shared:
            value = fits[name][row]
            assert (math.isnan(value) and one[name] is None) or value == one[name], (name, row)
    wires = batch.wires({"thread": ["M10-6g"] * 2, "wire_mm": [np.nan, 0.9]})
    for row, wire in enumerate([None, "0.9 mm"]):
        one = hn.wires("M10-6g", wire=wire).to_dict()
        shared = [name for name in wires if name in one and wires[name].dtype == float]
        assert len(shared) > 3
        for name in shared:
            value = wires[name][row]
            assert (math.isnan(value) and one[name] is None) or value == one[name], (name, row)
    blanks = batch.knurl_blank({"diameter_mm": [12.7, 20.0]}, pitch="96 DP")
    for row, size in enumerate(["12.7 mm", "20 mm"]):
        one = hn.knurl_blank(size, "96 DP").to_dict()
        shared = [name for name in blanks if name in one and blanks[name].dtype == float]
        assert len(shared) > 3
        for name in shared:
            value = blanks[name][row]
            assert (math.isnan(value) and one[name] is None) or value == one[name], (name, row)


def test_a_shop_tool_brings_its_form_to_rows_as_to_scalars(tmp_path):
    (tmp_path / "ours.toml").write_text(
        '[[cutting.tools]]\nid = "rougher"\nname = "rougher"\ntool_material = "carbide"\nnose_radius_mm = 1.2\n'
        'entering_deg = 75.0\nsource = "our own rack"\n',
        encoding="utf-8",
    )
    frame = {
        "alloy": ["1018"] * 3,
        "tool": ["rougher", "carbide", "rougher"],
        "diameter_mm": [40.0] * 3,
        "nose_radius_mm": [np.nan, np.nan, 0.4],
    }
    with hn.shop(tmp_path):
        found = batch.turn(frame)
        for row in range(3):
            nose = frame["nose_radius_mm"][row]
            cut = hn.turn("1018", "40 mm", tool=frame["tool"][row], nose_radius=None if np.isnan(nose) else hn.mm(nose))
            for name in ("feed_mm_rev", "cutting_force_n", "roughness_ra_um"):
                assert found[name][row] == getattr(cut, name), (row, name)
        one_tool = batch.turn({"diameter_mm": [40.0]}, alloy="1018", tool="rougher")
        assert one_tool["cutting_force_n"][0] == found["cutting_force_n"][0]


def test_a_cell_without_a_number_is_not_given_and_nan_for_all_rows_is_refused():
    jobs = {"alloy": ["1018"] * 2, "diameter_mm": [40.0] * 2, "hardness_hb": [np.nan, 150.0]}
    found = batch.turn(jobs)
    assert found["cutting_force_n"][0] == hn.turn("1018", "40 mm").cutting_force_n
    assert found["cutting_force_n"][1] == hn.turn("1018", "40 mm", hardness_hb=150.0).cutting_force_n
    for nothing in (math.nan, math.inf):
        with pytest.raises(hn.DomainError, match="hardness_hb must be finite"):
            batch.turn({"diameter_mm": [40.0]}, alloy="1018", hardness_hb=nothing)


@pytest.mark.parametrize(
    "name", ["hardness_hb", "spindle_rpm", "entering_deg", "rake_deg", "wear_factor", "roughness_um"]
)
@pytest.mark.parametrize("nothing", [math.nan, math.inf, -math.inf])
def test_nan_that_is_given_is_refused_by_name(name, nothing):
    with pytest.raises(hn.DomainError, match=rf"{name} must be (a finite number|finite)"):
        hn.turn("1018", "40 mm", **{name: nothing})
