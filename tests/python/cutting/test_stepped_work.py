"""Stepped work that is turned: its deflection is that of its sections, each by itself, and so is its whirl."""

import pytest

import halfnut as hn
from halfnut import cutting

HOLDS = ("chuck", "chuck and centre", "between centres")
CUT = {"depth": "0.5 mm", "length": "60 mm", "feed": "0.1 mm/rev", "machine": "metric-lathe"}
GPA = hn.alloy("1018").youngs_modulus_gpa


def slender(cut):
    return "slender" in {each.code for each in cut.cautions}


@pytest.mark.parametrize("hold", HOLDS)
def test_a_plain_bar_in_sections_is_a_plain_bar(hold):
    """Held at its end the worst place is the end, between centres the middle: both are looked at."""
    plain = hn.turn("1018", "20 mm", **CUT | {"length": "120 mm"}, stick_out="120 mm", hold=hold)
    parts = [("70 mm", "20 mm"), ("50 mm", "20 mm")]
    cut = hn.turn("1018", "20 mm", **CUT | {"length": "120 mm"}, sections=parts, cut_at="0 mm", hold=hold)
    # the worst place of work steadied by a centre lies a little beside those that are looked at
    assert cut.deflection_mm == pytest.approx(plain.deflection_mm, rel=3e-3 if hold == "chuck and centre" else 1e-9)
    assert slender(cut) == slender(plain)


@pytest.mark.parametrize("hold", HOLDS)
def test_the_deflection_is_that_of_the_beam_with_what_the_cut_leaves(hold):
    cut = hn.turn(
        "1018", "20 mm", **CUT, sections=[("80 mm", "36 mm", "10 mm"), ("90 mm", "20 mm")], cut_at="10 mm", hold=hold
    )
    left = [(80.0, 36.0, 10.0), (20.0, 20.0, 0.0), (60.0, 19.0, 0.0), (10.0, 20.0, 0.0)]
    places = [100.0 + 3.0 * i for i in range(21)]
    bends = cutting.work_bend_mm(left, hold, cut.passive_force_n, places, GPA)
    assert cut.deflection_mm == pytest.approx(max(bends), rel=1e-9)


def test_what_is_thinner_than_the_cut_stays_as_it_is():
    neck = [("20 mm", "20 mm"), ("5 mm", "8 mm"), ("35 mm", "20 mm")]
    cut = hn.turn("1018", "20 mm", **CUT, sections=neck, cut_at="0 mm")
    left = [(20.0, 19.0, 0.0), (5.0, 8.0, 0.0), (35.0, 19.0, 0.0)]
    (bend,) = cutting.work_bend_mm(left, "chuck", cut.passive_force_n, [60.0], GPA)
    assert cut.deflection_mm == pytest.approx(bend, rel=1e-9)


def test_a_short_journal_on_stout_work_is_not_slender_and_a_neck_before_the_tool_is():
    short = {"depth": "0.2 mm", "machine": "metric-lathe"}
    journal = hn.turn(
        "1018", "8 mm", **short, length="12 mm", sections=[("60 mm", "50 mm"), ("12 mm", "8 mm")], cut_at="0 mm"
    )
    assert not slender(journal)
    assert slender(hn.turn("1018", "8 mm", **short, length="12 mm", stick_out="72 mm"))
    head = hn.turn(
        "1018", "30 mm", **short, length="12 mm", sections=[("60 mm", "8 mm"), ("12 mm", "30 mm")], cut_at="0 mm"
    )
    assert slender(head)


@pytest.mark.parametrize(("hold", "root"), [*zip(HOLDS, (1.8751, 3.9266, 3.14159), strict=True)])
def test_the_whirl_of_a_plain_bar_in_sections_lies_a_little_below_its_own(hold, root):
    """Dunkerley's sum is a lower bound: 12, 210 and 90 in place of 12.36, 237.7 and 97.4 under the root."""
    row = hn.alloy("1018")
    own = cutting.first_whirl_rpm(6.0, 0.0, 150.0, row.youngs_modulus_gpa, row.density_kg_m3, root) / 2
    sums = {"chuck": 12.0, "chuck and centre": 210.0, "between centres": 90.0}
    asked = {"length": "150 mm", "machine": "metric-lathe", "hold": hold, "deflection": "5 mm", "brief": True}
    sections = [("150 mm", "7 mm")]
    found = hn.choose("turn", "1018", "7 mm", "6 mm", sections=sections, **asked)
    (bound,) = {limit.bound for each in found.passes for limit in each.limits if limit.name == "work_whirl"}
    assert bound == pytest.approx(own * sums[hold] ** 0.5 / root**2, rel=2e-3)
    assert bound < own


def test_passes_of_a_stepped_shaft_keep_the_deflection_of_its_sections():
    asked = {"length": "25 mm", "machine": "metric-lathe", "hold": "chuck and centre", "tolerance": "0.018 mm"}
    sections = [("135 mm", "36 mm"), ("25 mm", "14 mm")]
    found = hn.choose("turn", "1018", "14 mm", "12 mm", sections=sections, **asked)
    last = found.passes[-1].cut
    places = [135.0 + 1.25 * i for i in range(21)]
    bends = cutting.work_bend_mm(
        [(135.0, 36.0, 0.0), (25.0, 12.0, 0.0)], "chuck and centre", last.passive_force_n, places, GPA
    )
    assert last.deflection_mm == pytest.approx(max(bends), rel=1e-9)


def test_what_is_asked_wrongly_is_named():
    with pytest.raises(hn.DomainError, match="cut_at needs sections"):
        hn.turn("1018", "20 mm", cut_at="10 mm", machine="metric-lathe")
    with pytest.raises(hn.DomainError, match=r"sections must be at least as long .* 70 mm, got 50 mm"):
        hn.turn("1018", "20 mm", **CUT, sections=[("50 mm", "20 mm")], cut_at="10 mm")


def test_held_work_is_looked_at_where_it_is_cut():
    """A thin end in front of the cut bends under no tool."""
    parts = [("60 mm", "30 mm"), ("40 mm", "4 mm")]
    held = hn.hold("1018", "30 mm", depth="0.5 mm", length="50 mm", sections=parts, cut_at="40 mm")
    left = [(10.0, 30.0, 0.0), (50.0, 29.0, 0.0), (40.0, 4.0, 0.0)]
    (bend,) = cutting.work_bend_mm(left, "chuck", held.bend.force_n, [60.0], GPA)
    assert held.bend.worst_mm == pytest.approx(bend, rel=1e-9)
    assert held.bend.places_mm[-1] == pytest.approx(60.0)
    assert not slender(held)
