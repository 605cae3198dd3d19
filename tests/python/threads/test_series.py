"""The series, found parts, gauges and drawings."""

import csv
import xml.etree.ElementTree as ElementTree
from collections import Counter, defaultdict
from pathlib import Path

import pytest

import halfnut as hn
from halfnut.core import catalogue
from halfnut.drawing.threads import profile_plot, profile_svg
from halfnut.threads import standard

REFERENCE = Path(__file__).parents[2] / "reference" / "threads"


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
    near = list(hn.threads_near("10 mm", within="0.6 mm").threads)
    assert near[0] == "M10x1.5"
    assert near.index("M10x1.5") < near.index("M10x1.25")
    assert any("UN" in name for name in near)
    assert hn.threads_near("900 mm").threads == ()
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
    assert "no_close_match" in {caution.code for caution in found.told}
    with pytest.raises(hn.DomainError, match="count"):
        hn.identify_thread("10 mm", "1 mm", count=0)
    with pytest.raises(hn.DomainError, match="threads per inch"):
        hn.identify_thread("10 mm", "0 tpi")


def test_threads_of_every_form_are_near():
    near = list(hn.threads_near("12 mm", within="0.4 mm").threads)
    assert {"M12x1.75", "Tr12x3", "Tr12x2"} <= set(near)
    assert near.index("M12x1") < near.index("Tr12x3") < near.index("Tr12x2")
    inches = list(hn.threads_near("1 in", within="0 mm").threads)
    assert {"1-8 UNC", "1-5 Acme", "1-5 Stub Acme", "1-8 BSW", "1-10 BSF"} <= set(inches)
    pipes = list(hn.threads_near("20.955 mm", within="0.4 mm").threads)
    assert {"G1/2", "R1/2", "1/2-14 NPT"} <= set(pipes)


def _standard():
    """Each size of each form, of either side: designation, crest, pitch and flank angle in its own unit."""
    for row in catalogue.rows("threads/iso_261_series"):
        yield hn.thread(f"M{row['diameter_mm']:g}x{row['pitch_mm']:g}"), 60
    seen = set()
    for row in catalogue.rows("threads/unified_series"):
        if (row["diameter_in"], row["tpi"]) not in seen:
            seen.add((row["diameter_in"], row["tpi"]))
            sign = "#" if row["diameter_in"] < 0.25 and "/" not in row["size"] else ""
            yield hn.thread(f"{sign}{row['size']}-{row['tpi']:g} {row['series']}"), 60
    for form, angle in {"Tr": 30, "Acme": 29, "Stub Acme": 29, "G": 55, "BSW": 55, "BSF": 55}.items():
        for row in standard.thread_series(form):
            text = f"Tr{row['size']}x{row['pitch_mm']:g}" if form == "Tr" else f"{row['size']}-{row['tpi']} {form}"
            yield hn.thread(f"G{row['size']}" if form == "G" else text), angle


def test_every_standard_size_is_found_from_the_middle_of_its_limits():
    """First, or like the first: with the flank angle, and without it, where forms of one size are alike."""
    asked = Counter()
    behind = defaultdict(set)
    for thread, angle in _standard():
        for side in ("external", "internal"):
            part = thread.part(side)
            size = hn.limits(part, side=side)
            crest = "major" if side == "external" else "minor"
            middle = (getattr(size, f"{crest}_max") + getattr(size, f"{crest}_min")) / 2
            measured = hn.Length(middle, size.unit)
            pitch = f"{thread.pitch_mm!r} mm"
            for flank in (angle, None):
                found = hn.identify_thread(measured, pitch, side=side, flank_angle=flank, count=12)
                place = next((k for k, match in enumerate(found.matches) if match.thread == str(part)), None)
                assert place is not None, (str(part), side, flank)
                match = found.matches[place]
                assert match.outside_mm == 0 and match.mismatch_mm < 1e-6, str(part)
                assert place == 0 or match.like_the_first, (str(part), str(found))
                asked[flank is not None] += 1
                if place:
                    behind[flank is not None].add((str(thread), side, str(found.matches[0].thread)))
    assert asked == {True: 2054, False: 2054}
    # of one crest, pitch and angle: an external stub Acme thread, which is told from Acme by its depth
    assert {(_form(a), side, _form(b)) for a, side, b in behind[True]} == {("Stub Acme", "external", "Acme")}
    assert len(behind[True]) == 23
    # of one crest and pitch, told by the flank angle alone (regression: how many sizes of our own tables)
    told = Counter((_form(a), side, _form(b)) for a, side, b in behind[False] - behind[True])
    assert told == {
        ("BSF", "external", "UN"): 10,
        ("BSF", "internal", "UN"): 1,
        ("BSW", "external", "UN"): 17,
        ("G", "internal", "UN"): 1,
        ("Tr", "external", "M"): 44,
        ("Tr", "internal", "M"): 44,
    }


def _form(text):
    return next(name for name in ("Stub Acme", "Acme", "BSW", "BSF", "UN", "Tr", "M", "G") if name in text)


def test_the_flank_angle_tells_whitworth_from_unified():
    bare = hn.identify_thread("0.248 in", "20 tpi")
    assert bare.alike == ("1/4-20 BSW-medium",)
    assert {c.code for c in bare.told} == {"flank_angle_tells"}
    for angle, first in [(60, "1/4-20 UNC-2A"), ("55 deg", "1/4-20 BSW-medium"), ("56", "1/4-20 BSW-medium")]:
        found = hn.identify_thread("0.248 in", "20 tpi", flank_angle=angle)
        assert str(found.matches[0].thread) == first
        assert not found.alike
        assert found.evidence
    assert "flanks 60 deg (-5 deg measured)" in hn.identify_thread("0.248 in", "20 tpi", flank_angle=55).why()
    for bad in (0, 14.5, 180, "300 deg"):
        with pytest.raises(hn.DomainError, match="from 20 to 120 deg"):
            hn.identify_thread("0.248 in", "20 tpi", flank_angle=bad)
    with pytest.raises(hn.DesignationError):
        hn.identify_thread("0.248 in", "20 tpi", flank_angle="steep")


def test_a_taper_thread_is_found_in_its_gauge_plane():
    sizes = hn.taper_pipe("1/2-14 NPT")
    major = sizes.pitch_gauge_plane_mm + sizes.thread_height_mm
    found = hn.identify_thread(hn.mm(major), "14 tpi", flank_angle=60)
    assert str(found.matches[0].thread) == "1/2-14 NPT"
    assert found.matches[0].taper
    assert {"taper_diameter"} <= {c.code for c in found.told}
    assert {item.rule_id for item in found.evidence} >= {"npt_basic"}
    hole = hn.identify_thread(hn.mm(sizes.hole_at_face_mm), "14 tpi", side="internal", flank_angle=60)
    assert str(hole.matches[0].thread) == "1/2-14 NPT"
    pipe = hn.identify_thread("20.9 mm", "14 tpi", flank_angle=55)
    assert [str(match.thread) for match in pipe.matches[:2]] == ["G1/2 A", "R1/2"]
    assert {"taper_tells", "taper_diameter"} <= {c.code for c in pipe.told}
    inside = hn.identify_thread("18.7 mm", "14 tpi", side="internal", flank_angle=55, count=3)
    assert [str(match.thread) for match in inside.matches] == ["G1/2", "Rc1/2", "Rp1/2"]
    assert "nothing_tells" in {c.code for c in inside.told}


def test_acme_and_stub_acme_are_told_by_their_depth():
    found = hn.identify_thread("0.995 in", "5 tpi", flank_angle=29)
    assert {str(found.matches[0].thread), *found.alike} == {"1-5 Acme-2G", "1-5 Stub Acme-2G"}
    assert "depth_tells" in {c.code for c in found.told}


def test_gauges_are_the_limits():
    ring = hn.limits("M10-6g").gauges
    assert vars(ring) == {
        "go_pitch": 8.994,
        "go_crest": 8.344,
        "not_go_pitch": 8.862,
        "plain_go": 9.968,
        "plain_not_go": 9.732,
    }
    plug = hn.limits("1/4-20 UNC-2B").gauges
    assert plug.go_crest == 0.25
    assert plug.not_go_pitch == 0.2224
    assert hn.limits("Tr40x7-7e").gauges is None


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
        scale = (corners[-1][0] - corners[0][0]) / (2 * limits.pitch_mm)
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
    for draw in (profile_svg, profile_plot):
        with pytest.raises(hn.DomainError, match="turns must be 1 to 100, got 1000000000"):
            draw(bolt, turns=10**9)
    for width in (99.0, 2001.0, float("inf"), float("nan")):
        with pytest.raises(hn.DomainError, match="width_mm must be 100 to 2000 mm"):
            profile_svg(bolt, width_mm=width)


@pytest.mark.parametrize("text", ["1/4-20 UNC-2A", "1/4-20 UNC-2B", "M64-6e", "M1-5H", "3/8-24 UNRF-2A"])
def test_every_kind_of_thread_can_be_drawn(text):
    assert profile_svg(hn.limits(text)).count("<path") > 3


def test_the_profile_on_axes():
    axes = profile_plot(hn.limits("M10-6g"), hn.limits("M10-6H"))
    assert axes.get_aspect() == 1.0
    assert len(axes.lines) == 4
    axes.figure.clear()


@pytest.mark.parametrize(
    ("diameter", "pitch", "unit"),
    [
        ("4.68 mm", "0.81 mm", "mm"),  # 2 BA
        ("0.797 in", "36 tpi", "in"),  # of a microscope
        ("34.7 mm", "24 tpi", "mm"),  # of a bicycle
        ("28.5 mm", "0.6 mm", "mm"),  # eyepiece filter
        ("48 mm", "0.75 mm", "mm"),
        ("2 in", "24 tpi", "in"),
    ],
)
def test_a_thread_that_is_not_held_leads_with_the_verdict(diameter, pitch, unit):
    found = hn.identify_thread(diameter, pitch)
    lines = found.whole()
    assert (found.verdict, found.unit) == ("none", unit)
    assert lines[0].startswith("no standard thread is close to ")
    assert f" {unit} (" in lines[0]
    assert any(line.startswith("  nearest ") for line in lines)
    got = found.to_dict()
    assert (next(iter(got)), got["verdict"], got["thread"]) == ("verdict", "none", None)
    assert got["nearest"]


@pytest.mark.parametrize(
    ("diameter", "pitch", "expected"),
    # 2A of 5/16-18 ends at 0.3113: 0.0007 over; G1/4 B at 12.907: 0.007 under
    [("0.312 in", "18 tpi", "5/16-18 UNC-2A"), ("12.900 mm", "1.337 mm", "G1/4 A")],
)
def test_a_part_a_little_off_its_class_is_still_that_thread(diameter, pitch, expected):
    found = hn.identify_thread(diameter, pitch)
    assert found.verdict == "near"
    assert found.to_dict()["thread"] == expected
    codes = {each.code for each in found.told}
    assert "near_match" in codes
    assert "no_close_match" not in codes
    assert str(found).splitlines()[0] == f"{expected}, though not to its usual class"


@pytest.mark.parametrize(
    ("diameter", "pitch", "words"),
    [
        ("14 mm", "1e-320 mm", "pitch"),
        ("1e308 mm", "1 mm", "diameter"),
        ("14 mm", "1e300 mm", "pitch"),
        ("14 mm", "999999999999 tpi", "pitch"),
    ],
)
def test_measurements_have_a_range(diameter, pitch, words):
    with pytest.raises(hn.Error, match=words):
        hn.identify_thread(diameter, pitch)
    with pytest.raises(hn.Error, match="engagement"):
        hn.identify_thread("14 mm", "2 mm", engagement="1e308 mm")
    with pytest.raises(hn.DomainError, match="count must be from 1 to 1000"):
        hn.identify_thread("14 mm", "2 mm", count=10**20)
