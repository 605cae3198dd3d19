"""A step that is too fast names the way out; a slow one is a caution only where it does harm."""

from __future__ import annotations

import pytest

import halfnut as hn


def codes(cut) -> dict[str, str]:
    return {item.code: item.rank for item in cut.told}


def test_too_fast_for_high_speed_steel_points_to_carbide():
    hss = hn.turn("Ti-6Al-4V", "130 mm", depth="1 mm", machine="gap-bed")
    assert hss.cutting_speed_m_min > hss.window_high_m_min, "the slowest step is no longer too fast: a larger diameter"
    assert {"above_window", "carbide_bears"} <= codes(hss).keys()
    carbide = hn.turn("Ti-6Al-4V", "130 mm", depth="1 mm", tool="carbide", machine="gap-bed")
    assert carbide.cutting_speed_m_min <= carbide.window_high_m_min
    assert not {"above_window", "carbide_bears"} & codes(carbide).keys()


def test_carbide_is_no_way_out_at_more_than_twice_the_speed():
    cut = hn.turn("718", "155 mm", depth="1 mm", machine="metric-lathe")
    assert cut.cutting_speed_m_min > 2 * cut.window_high_m_min
    assert "above_window" in codes(cut)
    assert "carbide_bears" not in codes(cut)


@pytest.mark.parametrize(("alloy", "harms"), [("1018", True), ("304", True), ("C36000", False), ("G10", False)])
def test_slower_than_the_window_is_a_caution_only_where_it_harms(alloy, harms):
    traits = set(hn.material.alloy(alloy).traits)
    assert bool(traits & {"built_up_edge", "work_hardening"}) == harms
    cut = hn.turn(alloy, "2 mm", depth="0.2 mm", machine="gap-bed")
    assert cut.cutting_speed_m_min < cut.window_low_m_min
    assert codes(cut).get("slow_harms") == ("caution" if harms else None)
    assert codes(cut).get("speed_below_window") == (None if harms else "note")
    assert "slow_harms" not in codes(hn.ream(alloy, "2 mm", machine="gap-bed"))
