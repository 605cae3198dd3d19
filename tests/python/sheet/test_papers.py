"""Papers of a job, and the cards on a phone."""

import io
import json
import os
import re
import shutil
import sys
from pathlib import Path

import pypdf
import pytest

import halfnut as hn
from halfnut.sheet.details import details_of
from halfnut.sheet.papers import papers_of

if sys.version_info >= (3, 11):
    import tomllib
else:
    import tomli as tomllib

DEMO = Path(hn.__file__).parent / "demo"
CHROMIUM = shutil.which("chromium")
NEEDS_BROWSER = pytest.mark.skipif(CHROMIUM is None and not os.environ.get("CI"), reason="chromium is not here")
BAR = {"form": "bar", "diameter": "1 in"}
THUMB_PX = 12 * 96 / 25.4  # a field for a thumb, 12 mm
SCREEN_PX = 844


@pytest.fixture(scope="module")
def plan():
    return hn.plan(DEMO / "job.toml")


def rows_of(plan, title):
    return [row for each in papers_of(plan) if each.title.partition(",")[0] == title for row in each.rows]


def test_the_cut_list_saws_enough_of_each_stock(plan):
    rows = rows_of(plan, "Cut list")
    for part in plan.parts:
        (row,) = (row for row in rows if row[1] == part.part.title)
        blanks, _, length = row[3].removesuffix(" in").partition(" \N{MULTIPLICATION SIGN} ")
        whole, _, over = length.rpartition("-") if "/" in length else (length, "", "")
        top, bottom = over.split("/") if over else (0, 1)
        sawn_mm = (float(whole or 0) + float(top) / float(bottom)) * 25.4
        assert int(blanks) * part.stock.pieces_a_blank >= part.part.quantity
        # never short, and not a sixteenth too long
        assert part.stock.blank_mm - 1e-6 <= sawn_mm < part.stock.blank_mm + 25.4 / 16
    of_bars = rows_of(plan, "Bars")
    sawn = sum(int(row[1]) * sum(int(each.split(" ")[0]) for each in row[2].split("; ")) for row in of_bars)
    assert sawn == sum(part.stock.blanks for part in plan.parts if part.part.stock.bar_length is not None)
    assert any("Tube base" in row[2] and "Focus knob" in row[2] for row in of_bars)  # three parts from two bars


def test_the_tool_list_has_every_drill_reamer_tap_and_cutter(plan):
    tools = [row[0] for row in rows_of(plan, "Tool list")]
    assert len(set(tools)) >= 20
    for word in (
        "drill",
        "reamer",
        "tap",
        "cutter",
        "boring bar",
        "blade",
        "wires",
        "balls",
        "knurl",
        "saw",
        "collets",
    ):
        assert any(word in tool for tool in tools), word


def test_the_inspection_list_has_each_thread_and_fit_with_limits(plan):
    rows = rows_of(plan, "Inspection list")
    threads = [op for _, op in plan.operations if op.step.do == "thread"]
    assert sum(("over wires" in row[2] or "across balls" in row[2]) for row in rows) == len(threads)
    assert all(float(row[4]) < float(row[5]) for row in rows if "tapped" not in row[2])


def test_the_inspection_list_names_instruments_and_what_is_bare_and_coated(plan):
    """A band of 0.010 in to a caliper, of 0.001 in to a micrometer; reamed and tapped holes are there."""
    rows = rows_of(plan, "Inspection list")
    done = [op for _, op in plan.operations if op.step.do in {"ream", "tap"}]
    assert sum(row[2].split()[0] in {"reamed", "tapped"} for row in rows) == len(done)
    assert all(row[3] for row in rows)
    tube = next(row for row in rows if row[:3] == ("Truss tube", "20", "Ø .870"))
    assert tube[3] == "caliper"
    # crests of 7/8-14 UNF-2A, 0.8631 in at least, and 0.0004 in of black on the diameter: 0.8635 in
    assert tube[6] == ".864 to .873"
    pin = next(row for row in rows if row[:3] == ("Altitude pin", "30", "Ø .6245"))
    assert pin[3:7] == ("micrometer", ".624", ".625", "")


def test_pieces_that_are_measured_are_the_first_and_then_every_fifth(plan):
    heads = next(paper.heads for paper in papers_of(plan) if paper.title.startswith("Inspection list"))
    assert heads[7:] == ("1", "6", "11")
    rows = rows_of(plan, "Inspection list")
    assert next(row[7:] for row in rows if row[0] == "Altitude pin") == ("", "–", "–")
    assert next(row[7:] for row in rows if row[0] == "Lock nut") == ("", "", "")


def test_the_order_of_work_has_each_operation_once(plan):
    rows = rows_of(plan, "Order of work")
    spans = [re.findall(r"\d+", row[4]) for row in rows]
    count = sum((int(span[-1]) - int(span[0])) // 10 + 1 for span in spans)
    assert count == sum(len(part.operations) for part in plan.parts)


@NEEDS_BROWSER
def test_each_paper_is_a_page_and_the_details_are_few(plan, tmp_path):
    """On A4 and on Letter; in the details nothing is said twice of a part."""
    from playwright.sync_api import sync_playwright

    twice = json.loads(json.dumps(tomllib.loads((DEMO / "job.toml").read_text(encoding="utf-8")), default=str))
    more = [
        part | {"name": f"{part['name']} {n}", "title": f"{part['title']} {n}"}
        for n in (1, 2)
        for part in twice["parts"]
    ]
    plans = {"demo": plan, "long": hn.plan(twice | {"parts": [part for part in more if "adjuster" not in part]})}
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        page = browser.new_page()
        pages = {}
        for name, found in plans.items():
            for kind in ("papers", "details"):
                path = tmp_path / f"{name}-{kind}.html"
                path.write_text(found.files()[f"{kind}.html"], encoding="utf-8")
                page.goto(path.as_uri())
                for paper in ("A4", "Letter"):
                    printed = pypdf.PdfReader(io.BytesIO(page.pdf(format=paper)))
                    pages[name, kind, paper] = [each.extract_text() for each in printed.pages]
        browser.close()
    for name, found in plans.items():
        for paper in ("A4", "Letter"):
            assert len(pages[name, "papers", paper]) == len(papers_of(found)), (name, paper)
    assert len(papers_of(plans["long"])) > len(papers_of(plan)) == 7
    assert max(len(pages["demo", "details", paper]) for paper in ("A4", "Letter")) <= 16
    for part in details_of(plan):
        said = [text for _, text in part.remarks]
        assert len(said) == len(set(said))
        assert len({each.text for each in part.cautions}) == len(part.cautions)


MEASURE = """
() => {
    const shown = each => each.offsetHeight > 0 && getComputedStyle(each).display !== 'none';
    const box = each => each.getBoundingClientRect();
    const fields = [...document.querySelectorAll('input.box, .no label, .count label, button')].filter(shown);
    const first = document.querySelector('.bar'), start = box(first).top + scrollY;
    window.scrollTo(0, box(first).top + 40);
    return {
        wide: document.documentElement.scrollWidth,
        over: [...document.querySelectorAll('main *')].filter(each => box(each).right > innerWidth + 1)
            .map(each => each.textContent.slice(0, 40)),
        cards: [...document.querySelectorAll('.card')].map(each => each.offsetHeight),
        lever: first.offsetTop,
        fields: fields.map(each => box(each).height),
        broken: [...document.querySelectorAll('.size, .dial b, td, .lv b, .n')]
            .filter(each => new Set([...each.getClientRects()].map(each => Math.round(each.top))).size > 1
                && !each.querySelector('input'))
            .map(each => each.textContent),
        stuck: Math.abs(box(first).top) < 1.5 || scrollY < start,  // a short page does not go so far
    };
}
"""


@NEEDS_BROWSER
def test_a_phone_shows_each_card_in_one_column_and_keeps_what_is_written(plan, tmp_path):
    from playwright.sync_api import sync_playwright

    files = plan.files()
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": 390, "height": SCREEN_PX})
        for part in plan.parts:
            path = tmp_path / part.file
            path.write_text(files[part.file], encoding="utf-8")
            page.goto(path.as_uri())
            seen = page.evaluate(MEASURE)
            assert seen["wide"] <= 390 and seen["over"] == [], part.file
            assert seen["broken"] == [], part.file
            assert seen["stuck"], part.file
            assert seen["lever"] < SCREEN_PX, part.file
            assert max(seen["cards"]) <= 3 * SCREEN_PX, part.file
            assert min(seen["fields"]) >= THUMB_PX - 1, part.file
        browser.close()


@NEEDS_BROWSER
def test_every_page_is_read_at_any_width_by_keys_and_by_a_screen_reader(plan):
    """At the widths of phones and of a tablet, and at a width of 195 px: 390 px made twice as large."""
    from axe_playwright_python.sync_playwright import Axe
    from playwright.sync_api import sync_playwright

    files = plan.files()
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        page = browser.new_page()
        for name in ("altitude-pin.html", "index.html", "details.html", "papers.html", "truss-tube-adjuster.html"):
            page.set_content(files[name])
            for width in (195, 360, 390, 768):
                page.set_viewport_size({"width": width, "height": SCREEN_PX})
                assert page.evaluate("document.documentElement.scrollWidth") <= width, (name, width)
                found = Axe().run(page)
                assert found.violations_count == 0, (name, width, found.generate_report())
        browser.close()


@pytest.fixture
def phone(plan, tmp_path):
    """The altitude pin's cards on a phone; a function opens them, in a context as it is asked for."""
    from playwright.sync_api import sync_playwright

    path = tmp_path / "altitude-pin.html"
    path.write_text(plan.files()[path.name], encoding="utf-8")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        context = browser.new_context(viewport={"width": 390, "height": SCREEN_PX}, has_touch=True, offline=True)

        def opened(script=""):
            page = context.new_page()
            page.add_init_script(script)
            page.goto(path.as_uri())
            return page

        yield opened
        browser.close()


@NEEDS_BROWSER
def test_a_reading_is_kept_by_a_touch_with_the_unit_it_was_taken_in(phone):
    page = phone()
    sums = page.locator("[data-less]")
    assert sums.nth(0).get_by_role("button").count() == 0  # nothing to keep
    sums.nth(0).locator("input").first.fill("0.6735")
    assert sums.nth(0).locator("input").nth(1).input_value() == "0.0212"  # .6735 less .6523
    sums.nth(0).get_by_role("button", name="keep").tap()
    assert sums.nth(0).locator("input").first.input_value() == "0.6735 in"
    assert not sums.nth(0).locator("input").first.is_editable()
    # typed in the other system it is not converted, what is left of it is
    sums.nth(1).locator("input").first.fill("16,0 mm")
    sums.nth(1).get_by_role("button", name="keep").tap()
    assert sums.nth(1).locator("input").first.input_value() == "16,0 mm"
    assert sums.nth(1).locator("input").nth(1).input_value() == "0.0054"  # .62992 less .6245
    later = phone()
    assert later.locator("[data-less] input").first.input_value() == "0.6735 in"
    later.locator("[data-less]").first.get_by_role("button", name="change").tap()
    assert later.locator("[data-less] input").first.is_editable()
    with later.expect_download() as saved:
        later.get_by_role("button", name="Save as text").tap()
    text = Path(saved.value.path()).read_text(encoding="utf-8")
    assert "Altitude pin, PTT-0" in text
    assert re.search(r"less Ø \.6523 =: 0\.6735 in \(\d{4}-\d\d-\d\d \d\d:\d\d\), 0\.0212\n", text), text
    assert re.search(r"16,0 mm \(", text)


@NEEDS_BROWSER
def test_a_tick_is_taken_back_by_a_second_touch_only(phone):
    page = phone()
    tick = page.locator(".tick").nth(1)
    tick.tap()
    assert tick.is_checked()
    tick.tap()
    assert tick.is_checked() and page.locator("label[data-back]").count() == 1
    tick.tap()
    assert not tick.is_checked()
    tick.tap()
    assert phone().locator(".tick").nth(1).is_checked()
    page.get_by_label("1", exact=True).first.tap()
    assert phone().locator(".count input").first.is_checked()


@NEEDS_BROWSER
def test_the_row_of_before_is_on_the_screen_when_one_comes_back(phone):
    page = phone()
    page.locator(".tick").last.tap()
    later = phone()
    later.wait_for_function("scrollY > 0")
    box = later.locator(".row", has=later.locator(".tick")).last.bounding_box()
    assert 0 <= box["y"] <= SCREEN_PX - box["height"]
    assert later.locator("[data-last]").count() == 1


@NEEDS_BROWSER
def test_lost_storage_is_said_and_the_screen_is_kept_on(phone):
    asked = """
    window.asked = 0;
    Object.defineProperty(navigator, "wakeLock", { value: { request: () => { ++asked; return Promise.resolve(); } } });
    """
    page = phone(asked)
    assert page.evaluate("asked") == 1
    assert not page.locator(".lost").is_visible()
    page = phone("Object.defineProperty(window, 'localStorage', { get() { throw new Error('none'); } })")
    assert page.locator(".lost").is_visible()
    page.locator(".tick").first.tap()
    assert page.locator(".tick").first.is_checked()


def test_a_taper_of_several_passes_is_one_row_and_measures_no_length():
    taper = {"do": "taper", "to": "0.8 in", "length": "1 in"}
    part = {"name": "pin", "quantity": 1, "alloy": "1018", "length": "3 in", "operations": [taper]}
    planned = hn.plan({"title": "pin", "machine": "gap-bed", "parts": [part | {"stock": BAR}]})
    assert any(each.measure for each in planned.parts[0].operations[0].answer.passes)
    (card,) = (text for name, text in planned.files().items() if name == "pin.html")
    assert len(re.findall('class="row[ "]', card)) == 1 and "Measure the length" not in card
