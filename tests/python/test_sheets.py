"""Setup sheets in a real browser: nothing overflows, levers are large, greyscale loses nothing, all can read them."""

import io
import os
import re
import shutil
from pathlib import Path

import pypdf
import pytest

import halfnut as hn

CHROMIUM = shutil.which("chromium")
DEMO = Path(hn.__file__).parent / "demo"
JOBS = sorted(DEMO.glob("job*.toml"))
PAPERS_MM = {"A4": (210, 297), "Letter": (215.9, 279.4)}
MARGINS_MM = 30  # left and right together, as the style sheet has them
PX_A_MM = 96 / 25.4

if CHROMIUM is None and not os.environ.get("CI"):
    pytest.skip("chromium is not here", allow_module_level=True)


@pytest.fixture(scope="module")
def pages(tmp_path_factory):
    """Every page of every demonstration job, and of one with a failed operation, by path."""
    found = []
    for path in JOBS:
        found += [each for each in hn.plan(path).write(tmp_path_factory.mktemp(path.stem)) if each.suffix == ".html"]
    found += [each for each in hn.plan(BAD).write(tmp_path_factory.mktemp("bad")) if each.suffix == ".html"]
    return found


BAD = {
    "title": "A job of which one operation cannot be done and whose names are long",
    "machine": "gap-bed",
    "owner": "The shop at the end of the lane",
    "parts": [
        {
            "name": "counterweight adjusting spindle with a very long name",
            "quantity": 1250,
            "alloy": "4130 normalised",
            "length": "12 in",
            "note": "A remark that goes on for longer than one line of the sheet, so that it is broken somewhere.",
            "stock": {"form": "bar", "diameter": "2-1/2 in", "bar_length": "6 in"},
            "operations": [
                {"do": "turn", "to": "1.2345 in", "length": "11 in", "stick_out": "12 in"},
                {"do": "turn", "to": "2 in", "length": "1 in"},
                {"do": "bore", "to": "0.5 in", "length": "1 in"},
            ],
        }
    ],
}


@pytest.fixture(scope="module")
def browser():
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM)
        yield browser
        browser.close()


OVERFLOWING = """
() => [...document.querySelectorAll('main *, footer *')].filter(each => {
    if (each.closest('.hidden')) return false;
    const box = each.getBoundingClientRect();
    const inside = box.left >= -0.5 && box.right <= document.documentElement.clientWidth + 0.5;
    const block = getComputedStyle(each).display !== 'inline';
    return !inside || (block && each.scrollWidth > each.clientWidth + 1 && each.clientWidth > 0);
}).map(each => each.tagName + '.' + each.className + ' ' + each.textContent.trim().slice(0, 40))
"""


def open_page(browser, path, width_px, media):
    page = browser.new_page(viewport={"width": round(width_px), "height": 900})
    page.emulate_media(media=media)
    page.goto(path.as_uri())
    return page


@pytest.mark.parametrize(
    ("width_px", "media"),
    [
        *(((width - MARGINS_MM) * PX_A_MM, "print") for width, _ in PAPERS_MM.values()),
        (390, "screen"),
        (1200, "screen"),
    ],
    ids=["A4", "Letter", "phone", "desk"],
)
def test_nothing_overflows(browser, pages, width_px, media):
    for path in pages:
        page = open_page(browser, path, width_px, media)
        assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth"), path
        assert page.evaluate(OVERFLOWING) == [], path
        page.close()


@pytest.mark.parametrize("paper", PAPERS_MM)
def test_no_operation_is_cut_by_the_end_of_a_page_or_hidden_by_the_title_block(browser, pages, paper):
    width, height = PAPERS_MM[paper]
    free_px = (height - 22 - 23) * PX_A_MM  # margins above and below, the title block
    for path in pages:
        page = open_page(browser, path, (width - MARGINS_MM) * PX_A_MM, "print")
        heights = page.evaluate("[...document.querySelectorAll('.op')].map(each => each.offsetHeight)")
        assert all(each <= free_px for each in heights), path
        page.close()


def test_it_prints_on_both_papers(browser, pages):
    for path in pages:
        page = open_page(browser, path, 800, "print")
        for paper, (width, height) in PAPERS_MM.items():
            pdf = pypdf.PdfReader(io.BytesIO(page.pdf(format=paper)))
            box = pdf.pages[0].mediabox
            assert (float(box.width), float(box.height)) == pytest.approx(
                (width * 72 / 25.4, height * 72 / 25.4), abs=1
            )
            text = "".join(each.extract_text() for each in pdf.pages)
            assert page.title().split(":")[0].split()[0] in text
            # the title block is at the foot of every page
            assert all("Document type" in each.extract_text() for each in pdf.pages), path
        page.close()


@pytest.mark.parametrize(("width_px", "media"), [(680, "print"), (390, "screen")])
def test_lever_figures_are_the_largest_thing_on_the_page(browser, pages, width_px, media):
    seen = 0
    for path in pages:
        page = open_page(browser, path, width_px, media)
        sizes = page.evaluate(
            "[...document.querySelectorAll('.lever')].map(e => parseFloat(getComputedStyle(e).fontSize))"
        )
        others = page.evaluate(
            "Math.max(...[...document.querySelectorAll('main *:not(.lever), footer *')]"
            ".map(e => parseFloat(getComputedStyle(e).fontSize)))"
        )
        seen += len(sizes)
        assert all(size >= 24 * 96 / 72 for size in sizes)
        assert not sizes or min(sizes) > others
        page.close()
    assert seen >= 50


def luminance(colour):
    channels = [int(each) / 255 for each in re.findall(r"\d+", colour)[:3]]
    linear = [each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_black_on_white_one_accent_and_greyscale_loses_nothing(browser, pages):
    colours, cautions = set(), 0
    for path in pages:
        page = open_page(browser, path, 800, "screen")
        colours |= set(
            page.evaluate("[...document.querySelectorAll('body, body *')].map(e => getComputedStyle(e).color)")
        )
        # a caution is told by its word and its hatching, not by its colour alone
        for text in page.evaluate("[...document.querySelectorAll('.caution, .failed')].map(e => e.textContent)"):
            assert text.startswith(("Caution", "Not planned", "Stock"))
            cautions += 1
        hatched = page.evaluate(
            "[...document.querySelectorAll('.caution, .failed')]"
            ".every(e => getComputedStyle(e, '::before').backgroundImage.includes('repeating-linear-gradient'))"
        )
        assert hatched
        page.close()
    assert cautions >= 4
    assert len(colours) == 2
    for colour in colours:
        assert 1.05 / (luminance(colour) + 0.05) >= 7  # contrast to white by WCAG 2, level AAA


def test_everyone_can_read_them(browser, pages):
    from axe_playwright_python.sync_playwright import Axe

    for path in pages:
        page = open_page(browser, path, 800, "screen")
        found = Axe().run(page)
        assert found.violations_count == 0, f"{path}\n{found.generate_report()}"
        page.close()


def test_a_page_stands_alone(pages):
    for path in pages:
        text = path.read_text(encoding="utf-8")
        assert not re.search(r"(?:src|href)=[\"'](?!#|[\w-]+\.html[\"'])", text), path
        assert "http" not in text.replace("http-equiv", ""), path
        assert text.startswith('<!doctype html>\n<html lang="en-GB">')


def test_the_opening_page_leads_to_every_sheet(pages):
    for path in pages:
        if path.name == "index.html":
            links = re.findall(r'href="([\w-]+\.html)"', path.read_text(encoding="utf-8"))
            assert sorted(links) == sorted(
                each.name for each in path.parent.glob("*.html") if each.name != "index.html"
            )


def test_texts_from_the_job_file_are_never_markup(tmp_path):
    job = {**BAD, "parts": [{**BAD["parts"][0], "title": "<script>alert(1)</script>", "note": "a & b"}]}
    sheet = hn.plan(job).files()["counterweight-adjusting-spindle-with-a-very-long-name.html"]
    assert "<script>" not in sheet
    assert "a &amp; b" in sheet
