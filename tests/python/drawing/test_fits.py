"""Fits drawn: lines are limits and cross where the coat has used the allowance up; nothing is in colour."""

import matplotlib as mpl
import numpy as np
import pytest
from matplotlib.colors import to_rgb

import halfnut as hn
from halfnut.drawing import fits

mpl.use("Agg")


@pytest.fixture(autouse=True)
def _closed():
    import matplotlib.pyplot as plt

    yield
    plt.close("all")


def test_zones_are_the_limits_and_cross_where_the_allowance_is_used_up():
    axes = fits.zones_plot("M10-6g", "M10-6H", build_up_external="12 um", build_up_internal="12 um")
    screw_full, screw_least, nut_full, nut_least, coat = axes.get_lines()
    basic = 9.026
    assert screw_full.get_ydata()[0] == pytest.approx(8.994 - basic)
    assert screw_least.get_ydata()[0] == pytest.approx(8.862 - basic)
    assert nut_full.get_ydata()[0] == pytest.approx(0.0)
    assert nut_least.get_ydata()[0] == pytest.approx(9.206 - basic)
    gap = nut_full.get_ydata() - screw_full.get_ydata()
    crossing = np.interp(0.0, -gap, screw_full.get_xdata())
    assert crossing == pytest.approx(4.0)  # 32 um of allowance over twice 4
    assert list(coat.get_xdata()) == [12.0, 12.0]
    assert [each.get_hatch() for each in axes.collections] == ["////", "\\\\\\\\"]
    assert axes.get_xlabel().endswith(", µm")


def test_zones_in_inches_and_of_a_bare_part():
    axes = fits.zones_plot("7/8-14 UNF-2A", "7/8-14 UNF-2B", build_up_external="0.0002 in")
    screw, _, nut, _, coat = axes.get_lines()
    assert screw.get_ydata()[0] == pytest.approx(-0.0016)
    assert np.ptp(nut.get_ydata()) == 0.0  # the bare part keeps its zone
    assert coat.get_xdata()[0] == pytest.approx(0.0002)
    assert axes.get_ylabel().endswith(", in")
    with pytest.raises(hn.DomainError, match="two systems"):
        fits.zones_plot("M10-6g", "3/8-16 UNC-2B")


def test_clearances_run_from_the_worst_to_the_best_pair_each_in_its_own_line_type():
    axes = fits.clearance_plot("M10-6g", "M10-6H", label="bare")
    fits.clearance_plot("M10-6g", "M10-6H", build_up_external="10 um", axes=axes, label="coated")
    _, bare, coated = axes.get_lines()
    assert (bare.get_xdata()[0], bare.get_xdata()[-1]) == pytest.approx((0.032, 0.344))
    assert (coated.get_xdata()[0], coated.get_xdata()[-1]) == pytest.approx((-0.008, 0.304))
    assert (bare.get_ydata()[0], bare.get_ydata()[-1]) == pytest.approx((0.0, 100.0))
    assert bare.get_linestyle() != coated.get_linestyle()
    for line in axes.get_lines():
        assert len(set(to_rgb(line.get_color()))) == 1
