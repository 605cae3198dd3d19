"""Threads by their sizes: other flank angles through wires and fits, by hand and against the functions of numbers."""

import math

import pytest

import halfnut as hn
from halfnut.material.coatings import BuildUp
from halfnut.threads import formulas

# half angle, pitch diameters and major diameters of the external part, pitch, starts; roughly of each form's kind
FORMS = {
    "55": (27.5, (24.0, 24.117), (25.2, 25.4), 2.0, 1),
    "30": (15.0, (17.6, 17.9), (19.7, 20.0), 4.0, 1),
    "30, four starts": (15.0, (17.6, 17.9), (19.7, 20.0), 4.0, 4),
    "29": (14.5, (22.6, 22.86), (25.1, 25.4), 5.08, 2),
}


def pair(low, high):
    return hn.mm(low), hn.mm(high)


def screw(name):
    half_angle, pitch_diameter, major, pitch, starts = FORMS[name]
    return hn.plain_thread(
        "external",
        pitch=hn.mm(pitch),
        half_angle_deg=half_angle,
        pitch_diameter=pair(*pitch_diameter),
        major=pair(*major),
        starts=starts,
    )


@pytest.mark.parametrize("name", FORMS)
def test_wires_of_other_forms_are_those_of_the_functions_of_numbers(name):
    half_angle, (low, high), (_, crest), pitch, starts = FORMS[name]
    answer = hn.wires(screw(name), wire="best")
    sizes = (crest, pitch, starts * pitch, half_angle, answer.wire_mm)
    assert answer.over_max_mm == formulas.over_wires_exact_mm(high, *sizes)
    assert answer.over_min_mm == formulas.over_wires_exact_mm(low, *sizes)
    assert answer.wire_error_factor == pytest.approx(1 + 1 / math.sin(math.radians(half_angle)))
    assert answer.measuring_force_n is None  # the table is for 60 degrees
    assert (answer.micrometer_max_mm is None) == (starts % 2 == 0)
    assert answer.lines()[0].startswith(f"{2 * half_angle:g} degree external thread, pitch {pitch:g} mm")
    back = formulas.pitch_diameter_from_wires_exact_mm(answer.over_max_mm, *sizes)
    assert back == pytest.approx(high, rel=1e-12)
    with pytest.raises(hn.DomainError, match=r"must be from .* best"):
        hn.wires(screw(name), wire="0.1 mm")


def test_a_sixty_degree_thread_by_its_sizes_is_the_designated_one():
    limits = hn.limits("M10-6g")
    plain = hn.plain_thread(
        "external",
        pitch="1.5 mm",
        half_angle_deg=30,
        pitch_diameter=pair(limits.pitch_min, limits.pitch_max),
        major=pair(limits.major_min, limits.major_max),
        minor=pair(limits.minor_min, limits.minor_max),
    )
    named = hn.wires("M10-6g").to_dict()
    assert {**hn.wires(plain).to_dict(), "thread": named["thread"]} == named
    same = hn.fit("M10-6g", "M10-6H", engagement="10 mm", build_up_external="10 um").to_dict()
    mine = hn.fit(plain, "M10-6H", engagement="10 mm", build_up_external="10 um").to_dict()
    differ = {key for key in same if same[key] != mine[key]}
    assert differ == {"external", "remedies"}


# A 30 degree pair by hand: 17.9 in 18.1 leaves 0.2; play 0.2 x tan 15; 10 um takes 2 x 10 / sin 15 um.
def test_fits_of_other_forms_by_hand():
    nut = hn.plain_thread(
        "internal",
        pitch="4 mm",
        half_angle_deg=15,
        pitch_diameter=("18.1 mm", "18.3 mm"),
        minor=("16 mm", "16.3 mm"),
        major="20.5 mm",
    )
    answer = hn.fit(screw("30"), nut, engagement="30 mm")
    assert answer.verdict == "free"
    assert answer.pitch_clearance_min_mm == pytest.approx(0.2)
    assert answer.axial_play_min_mm == pytest.approx(0.2 * math.tan(math.radians(15)))
    assert answer.major_clearance_min_mm == pytest.approx(0.5)
    coated = hn.fit(screw("30"), nut, engagement="30 mm", build_up_external=BuildUp(0.0, 10.0))
    taken = 0.020 / math.sin(math.radians(15))
    assert coated.pitch_clearance_min_mm == pytest.approx(0.2 - taken)
    thick = hn.fit(screw("30"), nut, engagement="30 mm", build_up_external=BuildUp(0.0, 40.0))
    assert thick.verdict == "may bind"
    assert "a coating that builds up at most 25.8 µm a surface on the coated part" in thick.remedies
    assert hn.fit(screw("30"), nut, build_up_external=BuildUp(0.0, 25.8)).verdict == "free"
    measured = hn.fit(screw("30"), nut, external_pitch="17.8 mm", internal_pitch="18.2 mm", engagement="30 mm")
    assert measured.pitch_clearance_min_mm == pytest.approx(0.4)
    angle = hn.fit(
        screw("30"), hn.plain_thread("internal", pitch="4 mm", half_angle_deg=14.5, pitch_diameter="18.2 mm")
    )
    assert (angle.verdict, angle.deciding) == ("mismatch", "thread angle")
    assert hn.fit(screw("30, four starts"), nut).verdict == "mismatch"


def test_balls_of_other_forms_and_inches():
    nut = hn.plain_thread(
        "internal", pitch="5 tpi", half_angle_deg=14.5, pitch_diameter="0.9050 in", minor="0.8000 in", title="our nut"
    )
    answer = hn.wires(nut)
    assert (answer.thread, answer.unit, answer.over_max_lead_mm) == ("our nut", "in", None)
    ball = (0.8 * 25.4, 5.08, 5.08, 14.5, answer.wire_mm)
    assert answer.over_max_mm == pytest.approx(formulas.across_balls_exact_mm(0.9050 * 25.4, *ball), rel=1e-14)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"half_angle_deg": 2}, "half_angle_deg must be from 3 to 60 deg, got 2"),
        ({"starts": 0}, "starts must be from 1 to 100, got 0"),
        ({"pitch": "0 tpi"}, "pitch"),
        ({"pitch": "-1 mm"}, "pitch"),
        ({"pitch_diameter": ("18 mm", "17 mm")}, "the smallest before the largest, got '18 mm' and '17 mm'"),
        ({"pitch_diameter": ("17 mm", "18 mm", "19 mm")}, "takes one length, or the smallest and the largest; got 3"),
        ({"major": "16 mm"}, "major diameter must lie on the other side of the pitch diameter"),
        ({"hand": "wrong"}, "hand must be one of 'right', 'left', got 'wrong'"),
        ({"side": "top"}, "side must be one of 'external', 'internal', got 'top'"),
    ],
)
def test_what_is_refused(change, message):
    given = {"side": "external", "pitch": "4 mm", "half_angle_deg": 15, "pitch_diameter": "17.9 mm", **change}
    with pytest.raises(hn.Error, match=message):
        hn.plain_thread(given.pop("side"), **given)


def test_wires_need_the_crest_and_a_side_must_fit():
    bare = hn.plain_thread("external", pitch="4 mm", half_angle_deg=15, pitch_diameter="17.9 mm")
    with pytest.raises(hn.DomainError, match="give its major diameter"):
        hn.wires(bare)
    with pytest.raises(hn.DomainError, match="the internal part must be internal"):
        hn.fit("M10-6g", bare)
    with pytest.raises(hn.UnitError, match="pitch_diameter"):
        hn.plain_thread("external", pitch="4 mm", half_angle_deg=15, pitch_diameter=17.9)
