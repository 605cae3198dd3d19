"""The series, found parts, gauges and drawings."""

import csv
import xml.etree.ElementTree as ElementTree
from pathlib import Path

import pytest

import halfnut as hn
from halfnut import catalogue
from halfnut.thread_drawing import profile_plot, profile_svg

REFERENCE = Path(__file__).parents[1] / "reference" / "threads"


def _cad_rows():
    with (REFERENCE / "cad_part_sizes.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def test_sizes_that_a_cad_library_draws_are_in_the_series():
    """An outside list: every standard size of it is in ours, and its older sizes are not."""
    rows = _cad_rows()
    metric = {(row["diameter_mm"], row["pitch_mm"]) for row in catalogue.rows("threads/iso_261_series")}
    unified = {(row["size"], row["tpi"]) for row in catalogue.rows("threads/unified_series")}
    found = 0
    for row in rows:
        name = row["designation"]
        if name.startswith("M"):
            d, p = name[1:].split("x")
            listed = (float(d), float(p)) in metric
        else:
            size, tpi = name.rsplit("-", 1)
            listed = (size.removeprefix("#"), float(tpi)) in unified
        assert listed == (row["in_series"] == "yes"), name
        found += listed
    assert (found, len(rows)) == (108, 119)


def test_every_size_is_worth_what_its_name_says():
    rows = catalogue.rows("threads/unified_series")
    assert len(rows) == 414
    for row in rows:
        size = row["size"]
        if row["diameter_in"] < 0.25 and "/" not in size:
            expected = 0.060 + 0.013 * int(size)
        else:
            expected = sum(float(a) / float(b or 1) for a, _, b in (part.partition("/") for part in size.split()))
        assert row["diameter_in"] == pytest.approx(expected, abs=0.00005), row


def test_threads_near_a_diameter_come_preferred_first():
    near = [str(found) for found in hn.threads_near("10 mm", within="0.6 mm")]
    assert near[0] == "M10x1.5"
    assert near.index("M10x1.5") < near.index("M10x1.25")
    assert any("UN" in name for name in near)
    assert hn.threads_near("900 mm") == []
    with pytest.raises(hn.UnitError):
        hn.threads_near(10)


@pytest.mark.parametrize(
    ("diameter", "pitch", "side", "expected"),
    [
        ("0.248 in", "20 tpi", "external", "1/4-20 UNC-2A"),
        ("9.85 mm", "1.5 mm", "external", "M10x1.5-6g"),
        ("0.186 in", "32 tpi", "external", "#10-32 UNF-2A"),
        ("8.5 mm", "1.5 mm", "internal", "M10x1.5-6H"),
    ],
)
def test_a_found_part_is_named(diameter, pitch, side, expected):
    found = hn.identify_thread(diameter, pitch, side=side)
    assert str(found.matches[0].thread) == expected
    assert str(found).splitlines()[0].startswith(expected)
    assert found.to_dict()["thread"] == expected
    assert len(found.matches) == 6
    assert found.evidence


def test_a_part_of_no_standard_says_so():
    found = hn.identify_thread("10 mm", "1.13 mm", engagement="10 mm")
    assert "no_close_match" in {caution.code for caution in found.cautions}
    with pytest.raises(hn.DomainError, match="count"):
        hn.identify_thread("10 mm", "1 mm", count=0)
    with pytest.raises(hn.DomainError, match="threads per inch"):
        hn.identify_thread("10 mm", "0 tpi")


def test_gauges_are_the_limits():
    ring = hn.limits("M10-6g").gauges()
    assert ring == {
        "go_pitch": 8.994,
        "go_crest": 8.344,
        "not_go_pitch": 8.862,
        "plain_go": 9.968,
        "plain_not_go": 9.732,
    }
    plug = hn.limits("1/4-20 UNC-2B").gauges()
    assert plug["go_crest"] == 0.25
    assert plug["not_go_pitch"] == 0.2224


def test_the_profile_is_drawn_at_true_scale_in_black_and_white():
    bolt, nut = hn.limits("M10-6g"), hn.limits("M10-6H")
    svg = profile_svg(bolt, nut)
    root = ElementTree.fromstring(svg)
    names = "{http://www.w3.org/2000/svg}"
    paths = [path for path in root.iter(f"{names}path") if "stroke-linejoin" in path.attrib]
    assert len(paths) == 2  # the two outlines at most material
    for path, limits, sizes in zip(
        paths, (bolt, nut), ((bolt.major_max, bolt.minor_max), (nut.major_min, nut.minor_min)), strict=True
    ):
        corners = [tuple(map(float, point.lstrip("ML").split(","))) for point in path.attrib["d"].split()]
        scale = (corners[-1][0] - corners[0][0]) / (2 * limits.thread.pitch_mm)
        heights = [y for _, y in corners]
        assert (max(heights) - min(heights)) / scale == pytest.approx((sizes[0] - sizes[1]) / 2, abs=2e-4)
    colours = {element.attrib.get(key) for element in root.iter() for key in ("fill", "stroke")}
    assert colours - {None} <= {"none", "#000", "#fff", "url(#external)", "url(#internal)"}
    texts = [text.text for text in root.iter(f"{names}text")]
    assert "d2 max 8.994" in texts
    assert any("scale" in text for text in texts)
    with pytest.raises(hn.DomainError, match="do not go together"):
        profile_svg(bolt, hn.limits("M10x1-6H"))
    with pytest.raises(hn.DomainError, match="two external"):
        profile_svg(bolt, bolt)


@pytest.mark.parametrize("text", ["1/4-20 UNC-2A", "1/4-20 UNC-2B", "M64-6e", "M1-5H", "3/8-24 UNRF-2A"])
def test_every_kind_of_thread_can_be_drawn(text):
    assert profile_svg(hn.limits(text)).count("<path") > 3


def test_the_profile_on_axes():
    axes = profile_plot(hn.limits("M10-6g"), hn.limits("M10-6H"))
    assert axes.get_aspect() == 1.0
    assert len(axes.lines) == 4
    axes.figure.clear()
