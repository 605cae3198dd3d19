"""Charts of the demonstration machines: every cell is what the cut answers, and the page prints on one sheet."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys

import matplotlib as mpl
import pytest

import halfnut as hn
from halfnut.drawing.charts import ALLOYS

mpl.use("Agg")

MACHINES = ("gap-bed", "metric-lathe", "bench-mill")
CHROMIUM = shutil.which("chromium")


@pytest.fixture(scope="module", params=MACHINES)
def chart(request):
    return hn.speed_chart(request.param)


def test_every_cell_is_what_the_cut_answers(chart):
    page = chart.page()
    checked = 0
    for (name, place), cell in chart.cells.items():
        size = chart.diameters[place]
        if chart.milling:
            cut = hn.mill(name, size, shape="slot", depth=hn.mm(size.mm / 2), machine=chart.machine.name, tool="HSS")
        else:
            cut = hn.turn(name, size, machine=chart.machine.name, tool="HSS")
        assert cell.cut.spindle_rpm == cut.spindle_rpm
        assert cell.cut.spindle_positions == cut.spindle_positions
        assert f"<b>{cell.rpm}</b>" in page
        assert cell.settings in page
        above = "above_window" in {item.code for item in cut.cautions}
        assert cell.rpm.endswith("↑") == above
        checked += 1
    assert checked >= 0.9 * len(ALLOYS) * len(chart.diameters)


def test_the_plot_has_a_line_an_alloy_and_one_a_step_without_colour(chart):
    import matplotlib.pyplot as plt

    axes = chart.plot()
    lines = axes.get_lines()
    steps = sum(2 if step.variable else 1 for step in chart.machine.core.spindle)
    drawn = [name for name in chart.alloys if chart.window_top(name) is not None]
    assert len(lines) == steps + len(drawn)
    assert len({str(line.get_linestyle()) + str(line._unscaled_dash_pattern) for line in lines[steps:]}) == len(drawn)
    assert {line.get_color() for line in lines} == {"black"}
    assert axes.get_ylabel() == "spindle speed, rev/min"
    plt.close(axes.figure)


def test_the_page_is_the_same_every_time_and_needs_no_extra(chart):
    script = (
        "import sys; sys.modules['matplotlib'] = None\n"
        f"import halfnut as hn; sys.stdout.write(hn.speed_chart({chart.machine.name!r}).page())"
    )
    done = subprocess.run([sys.executable, "-X", "utf8", "-c", script], capture_output=True, encoding="utf-8")
    assert done.stdout == chart.page(), done.stderr
    assert done.stdout.count("<tr>") == 1 + len(chart.diameters)


@pytest.mark.skipif(CHROMIUM is None and not os.environ.get("CI"), reason="chromium is not here")
def test_the_page_prints_on_one_sheet_of_either_paper(chart, tmp_path):
    import pypdf
    from playwright.sync_api import sync_playwright

    path = tmp_path / "chart.html"
    path.write_text(chart.page(), encoding="utf-8")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM)
        page = browser.new_page()
        page.goto(path.as_uri())
        for paper in ("A4", "Letter"):
            out = tmp_path / f"{paper}.pdf"
            page.pdf(path=out, format=paper, prefer_css_page_size=False)
            assert len(pypdf.PdfReader(out).pages) == 1, paper
        browser.close()


def test_force_map_and_pass_plan_are_drawn_with_their_units():
    import matplotlib.pyplot as plt

    axes = hn.force_map("4130 normalised", "1.25 in", machine="gap-bed", deepest="0.1 in")
    assert (axes.get_xlabel(), axes.get_ylabel()) == ("feed, in/rev", "depth, in")
    plt.close(axes.figure)
    chosen = hn.choose("turn", "6061-T6", "32 mm", "28 mm", length="40 mm", machine="metric-lathe", explain=False)
    axes = hn.pass_plan(chosen)
    assert len(axes.patches) == len(chosen.passes)
    assert axes.get_ylabel() == "depth off, mm"
    plt.close(axes.figure)


def test_a_chart_of_nothing_or_too_much_is_refused():
    with pytest.raises(hn.DomainError, match="alloys: 1 to 10"):
        hn.speed_chart("gap-bed", [])
    with pytest.raises(hn.NotTabulatedError):
        hn.speed_chart("gap-bed", ["no such metal"])
