"""Papers of a job, and the cards on a phone."""

import os
import re
import shutil
from pathlib import Path

import pytest

import halfnut as hn
from halfnut.sheet.papers import papers_of

DEMO = Path(hn.__file__).parent / "demo"
CHROMIUM = shutil.which("chromium")
NEEDS_BROWSER = pytest.mark.skipif(CHROMIUM is None and not os.environ.get("CI"), reason="chromium is not here")
THUMB_PX = 12 * 96 / 25.4  # a field for a thumb, 12 mm
SCREEN_PX = 844


@pytest.fixture(scope="module")
def plan():
    return hn.plan(DEMO / "job.toml")


def table(plan, title):
    return next(each for each in papers_of(plan) if each.title == title)


def test_the_cut_list_saws_enough_of_each_stock(plan):
    rows = table(plan, "Cut list").rows
    for part in plan.parts:
        (row,) = (row for row in rows if row[1] == part.part.title)
        blanks, _, length = row[3].removesuffix(" in").partition(" \N{MULTIPLICATION SIGN} ")
        whole, _, over = length.rpartition("-") if "/" in length else (length, "", "")
        top, bottom = over.split("/") if over else (0, 1)
        sawn_mm = (float(whole or 0) + float(top) / float(bottom)) * 25.4
        assert int(blanks) * part.stock.pieces_a_blank >= part.part.quantity
        # never short, and not a sixteenth too long
        assert part.stock.blank_mm - 1e-6 <= sawn_mm < part.stock.blank_mm + 25.4 / 16
    assert any(row[1].startswith("together") for row in rows)  # three parts come from one bar


def test_the_tool_list_has_every_drill_reamer_tap_and_cutter(plan):
    tools = [row[1] for row in table(plan, "Tool list").rows]
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
    rows = table(plan, "Inspection list").rows
    threads = [op for _, op in plan.operations if op.step.do == "thread"]
    assert sum(("over wires" in row[2] or "across balls" in row[2]) for row in rows) == len(threads)
    assert all(float(low) < float(high) for *_, low, high in (row[:6] for row in rows))


def test_the_order_of_work_has_each_operation_once(plan):
    rows = table(plan, "Order of work").rows
    spans = [re.findall(r"\d+", row[4]) for row in rows]
    count = sum((int(span[-1]) - int(span[0])) // 10 + 1 for span in spans)
    assert count == sum(len(part.operations) for part in plan.parts)


MEASURE = """
() => {
    const shown = each => each.offsetHeight > 0 && getComputedStyle(each).display !== 'none';
    const box = each => each.getBoundingClientRect();
    const fields = [...document.querySelectorAll('input.box, .no label, .count label, button')].filter(shown);
    const first = document.querySelector('.bar');
    window.scrollTo(0, box(first).top + 40);
    return {
        wide: document.documentElement.scrollWidth,
        over: [...document.querySelectorAll('main *')].filter(each => box(each).right > innerWidth + 1)
            .map(each => each.textContent.slice(0, 40)),
        cards: [...document.querySelectorAll('.card')].map(each => each.offsetHeight),
        lever: first.offsetTop,
        fields: fields.map(each => box(each).height),
        broken: [...document.querySelectorAll('.size, .dial b, .all b, td, .lv b, .n')]
            .filter(each => each.getClientRects().length > 1 && !each.querySelector('input'))
            .map(each => each.textContent),
        stuck: Math.abs(box(first).top) < 1.5,
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
        page.goto((tmp_path / "altitude-pin.html").as_uri())
        sum_ = page.locator("[data-less]").first
        sum_.locator("input").first.fill("0.6735")
        page.locator(".tick").first.check()
        assert sum_.locator("input").nth(1).input_value() == "0.0212"  # .6735 less .6523
        page.reload()
        assert page.locator("[data-less]").first.locator("input").first.input_value() == "0.6735"
        assert page.locator(".tick").first.is_checked()
        with page.expect_download() as saved:
            page.get_by_role("button").click()
        text = Path(saved.value.path()).read_text(encoding="utf-8")
        assert "Altitude pin, PTT-0" in text and "0.6735, 0.0212" in text and "done 10" in text
        browser.close()
