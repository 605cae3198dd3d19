"""Charts of the demonstration machines: every cell is what the cut answers, and can be read from the wall."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys

import matplotlib as mpl
import pytest

import halfnut as hn
from halfnut.drawing.charts import ALLOYS
from halfnut.knurls.wheels import knurl_wheels
from halfnut.sheet.wall import knurl_pages, tap_page, wall_pages

mpl.use("Agg")

MACHINES = ("gap-bed", "metric-lathe", "bench-mill")
CHROMIUM = shutil.which("chromium")
DIGIT_MM = 0.688 * 25.4 / 72
"""Height of the lowest digits of Liberation Sans for a point of its size; 7 mm is 16 arcminutes at 1.5 m."""


@pytest.fixture(scope="module", params=MACHINES)
def chart(request):
    return hn.speed_chart(request.param)


def test_every_cell_is_what_the_cut_answers(chart):
    checked = 0
    for (name, place), cell in chart.cells.items():
        size = chart.diameters[place]
        if chart.milling:
            cut = hn.mill(name, size, shape="slot", depth=hn.mm(size.mm / 2), machine=chart.machine.name, tool="HSS")
        else:  # in the first of the machine's chucks that opens so far
            chucks = [each.name for each in chart.machine.core.chucks]
            opens = [each.opening_greatest_mm for each in chart.machine.core.chucks]
            holds = [one for one, far in zip(chucks, opens, strict=True) if far <= 0.0 or far >= size.mm - 1e-6]
            cut = hn.turn(name, size, machine=chart.machine.name, tool="HSS", chuck=(holds or chucks[-1:])[0])
        assert cell.cut.spindle_rpm == cut.spindle_rpm
        assert cell.cut.spindle_positions == cut.spindle_positions
        checked += 1
    assert checked >= 0.9 * len(ALLOYS) * len(chart.diameters)


def test_the_wall_shows_each_cell_once_and_merges_those_of_one_lever_position(chart):
    shown = 0
    for page in wall_pages(chart):
        for column in page.columns:
            for name in column.alloys:
                standing, rows = None, 0
                for place, cell in enumerate(column.cells):
                    if cell is not None:
                        assert rows == 0
                        standing, rows = cell, cell.rows
                    rows -= 1
                    own = chart.cells.get((name, place))
                    if own is None:
                        assert standing.rpm == "\N{EN DASH}"
                    elif own.cut.spindle_fit == "above window":
                        assert standing.rpm == "carbide"
                    else:
                        assert standing.rpm == f"{own.cut.spindle_rpm:.0f}"
                        step = chart.machine.core.spindle[own.cut.spindle_step]
                        assert standing.back_gear == step.back_gear
                    shown += 1
                assert rows == 0
    assert shown == len(chart.alloys) * len(chart.diameters)


def test_short_names_of_levers_are_one_to_one(chart):
    """Two steps of a machine never have the same letters and the same shade."""
    seen = {}
    for page in wall_pages(chart):
        for column in page.columns:
            for cell in column.cells:
                if cell is not None and cell.levers:
                    seen.setdefault((cell.levers, cell.back_gear), set()).add(cell.rpm)
    fixed = not any(step.variable for step in chart.machine.core.spindle)
    assert len(seen) >= 3 and (not fixed or all(len(speeds) == 1 for speeds in seen.values()))


def test_what_is_read_from_another_line_is_within_a_step(chart):
    if chart.milling:
        assert chart.same_lines == {}
        return
    ask = {"face": hn.face, "bore": hn.bore, "part off": hn.part_off}
    for name, share in chart.same_lines.items():
        for alloy in chart.alloys:
            for size in (0.5, 1.0, 2.0):
                own = ask[name](alloy, hn.inch(size), machine=chart.machine, tool="HSS")
                read = hn.turn(alloy, hn.inch(size * share), machine=chart.machine, tool="HSS")
                assert abs(own.spindle_step - read.spindle_step) <= 1, (name, alloy, size)
    assert "face" in chart.same_lines


def test_the_page_is_the_same_every_time_and_needs_no_extra(chart):
    script = (
        "import sys; sys.modules['matplotlib'] = None\n"
        f"import halfnut as hn; sys.stdout.write(hn.speed_chart({chart.machine.name!r}).page())"
    )
    done = subprocess.run([sys.executable, "-X", "utf8", "-c", script], capture_output=True, encoding="utf-8")
    assert done.stdout == chart.page(), done.stderr


@pytest.mark.skipif(CHROMIUM is None and not os.environ.get("CI"), reason="chromium is not here")
@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_it_prints_landscape_a_page_each_with_digits_of_seven_millimetres(chart, paper, tmp_path):
    import pypdf
    from playwright.sync_api import sync_playwright

    path, out = tmp_path / "chart.html", tmp_path / "chart.pdf"
    text = chart.page(paper)
    path.write_text(text, encoding="utf-8")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        page = browser.new_page()
        page.goto(path.as_uri())
        page.pdf(path=out, prefer_css_page_size=True)
        page.set_viewport_size({"width": 390, "height": 844})
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        browser.close()
    pages = pypdf.PdfReader(out).pages
    assert len(pages) == text.count("<section")
    for each in pages:
        assert each.mediabox.width > each.mediabox.height
        runs = []
        each.extract_text(
            visitor_text=lambda said, cm, tm, _, size, runs=runs: runs.append((said, size * abs(cm[3] * tm[3])))
        )
        sizes = [
            size * DIGIT_MM
            for said, size in runs
            if re.fullmatch(r"\s*(?:\d{2,}|#\d+|\d*\.\d+)\s*", said) and size > 20
        ]
        assert sizes and min(sizes) >= 7.0


def test_force_map_and_pass_plan_are_drawn_with_their_units():
    import matplotlib.pyplot as plt

    axes = hn.force_map("4130 normalised", "1.25 in", machine="gap-bed", deepest="0.1 in")
    assert (axes.get_xlabel(), axes.get_ylabel()) == ("feed, in/rev", "depth, in")
    plt.close(axes.figure)
    chosen = hn.choose("turn", "6061-T6", "32 mm", "28 mm", length="40 mm", machine="metric-lathe", brief=True)
    axes = hn.pass_plan(chosen)
    assert len(axes.patches) == len(chosen.passes)
    assert axes.get_ylabel() == "depth off, mm"
    plt.close(axes.figure)


def test_a_chart_of_nothing_or_on_no_paper_is_refused():
    with pytest.raises(hn.DomainError, match="alloys: at least one"):
        hn.speed_chart("gap-bed", [])
    with pytest.raises(hn.NotTabulatedError):
        hn.speed_chart("gap-bed", ["no such metal"])
    with pytest.raises(hn.DomainError, match=r"operation: .* does not mill"):
        hn.speed_chart("gap-bed", operation="mill")
    with pytest.raises(hn.DomainError, match="paper: one of A4, letter, got 'A5'"):
        hn.speed_chart("gap-bed", ["6061-T6"]).page("A5")


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_taps_and_knurl_blanks_are_what_their_questions_answer(unit):
    page = tap_page(unit)
    for place, name in enumerate(page.sizes):
        tap, close, usual, percent = (column.cells[place].rpm for column in page.columns)
        hole = hn.tapping_hole(name)
        assert (tap, percent) == (hole.drill.removesuffix(f" {unit}").removeprefix("letter "), f"{hole.percent:.0f}")
        assert close == hn.clearance_hole(name, "close").drill.removesuffix(f" {unit}").removeprefix("letter ")
        assert usual == hn.clearance_hole(name).drill.removesuffix(f" {unit}").removeprefix("letter ")
    checked = 0
    for each in knurl_pages(unit):
        for column in each.columns:
            for size, cell in zip(each.sizes, column.cells, strict=True):
                wheel = next(one for one in knurl_wheels() if one["name"] == column.alloys[0])
                below_mm = hn.suitable_wheels(f"{size} {unit}", wheels=[wheel]).wheels[0].below_diameter_mm
                if below_mm is None:
                    assert cell.rpm == "\N{EN DASH}"
                    continue
                assert float(cell.rpm) == pytest.approx(below_mm / (25.4 if unit == "in" else 1), abs=0.005)
                checked += 1
    assert checked >= 20
