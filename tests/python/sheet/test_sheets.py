"""Setup sheets in a real browser: nothing overflows, levers are large, greyscale loses nothing, all can read them."""

import io
import os
import re
import shutil
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import quote, unquote

import pypdf
import pytest

import halfnut as hn

CHROMIUM = shutil.which("chromium")
DEMO = Path(hn.__file__).parent / "demo"
PAPERS_MM = {"A4": (210, 297), "Letter": (215.9, 279.4)}
MARGINS_MM = 30  # left and right together, as the style sheet has them
PX_A_MM = 96 / 25.4
VIEWS = {
    **{name: ((width - MARGINS_MM) * PX_A_MM, "print") for name, (width, _) in PAPERS_MM.items()},
    "phone": (390, "screen"),
    "desk": (1200, "screen"),
}

if CHROMIUM is None and not os.environ.get("CI"):
    pytest.skip("chromium is not here", allow_module_level=True)


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


@dataclass
class Seen:
    """A page as the browser saw it: what was measured in every view, its prints, what hinders people."""

    path: Path
    title: str = ""
    views: dict = field(default_factory=dict)
    prints: dict = field(default_factory=dict)
    hindrances: str = ""


MEASURE = """
() => {
    const all = [...document.querySelectorAll('main *, footer *')];
    const size = each => parseFloat(getComputedStyle(each).fontSize);
    const wide = document.documentElement.clientWidth;
    const told = [...document.querySelectorAll('.caution, .failed')];
    const overflows = each => {
        if (each.closest('.hidden')) return false;
        const box = each.getBoundingClientRect();
        const block = getComputedStyle(each).display !== 'inline';
        return box.left < -0.5 || box.right > wide + 0.5 ||
            (block && each.clientWidth > 0 && each.scrollWidth > each.clientWidth + 1);
    };
    return {
        scrolls: document.documentElement.scrollWidth > wide,
        overflowing: all.filter(overflows).map(each => each.tagName + ' ' + each.textContent.trim().slice(0, 40)),
        operations: [...document.querySelectorAll('.op')].map(each => each.offsetHeight),
        levers: all.filter(each => each.matches('.lever')).map(size),
        largest: Math.max(...all.filter(each => !each.matches('.lever')).map(size)),
        colours: [...new Set([...document.querySelectorAll('body, body *')].map(each => getComputedStyle(each).color))],
        told: told.map(each => each.textContent),
        hatched: told.every(each =>
            getComputedStyle(each, '::before').backgroundImage.includes('repeating-linear-gradient')),
    };
}
"""


@pytest.fixture(scope="module")
def pages(tmp_path_factory):
    """The pages of the demonstration in inch, some of it in metric, and those of a job with failures."""
    inch = hn.plan(DEMO / "job.toml").write(tmp_path_factory.mktemp("inch"))
    metric = hn.plan(DEMO / "job-metric.toml").write(tmp_path_factory.mktemp("metric"))
    few = {"index.html", "truss-tube.html", "focus-knob.html", "rocker-link.html"}
    bad = hn.plan(BAD).write(tmp_path_factory.mktemp("bad"))
    return [path for path in (*inch, *(path for path in metric if path.name in few), *bad) if path.suffix == ".html"]


@pytest.fixture(scope="module")
def seen(pages):
    from axe_playwright_python.sync_playwright import Axe
    from playwright.sync_api import sync_playwright

    found = []
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM)
        page = browser.new_page()
        for path in pages:
            page.goto(path.as_uri())
            one = Seen(path, page.title())
            for name, (width_px, media) in VIEWS.items():
                page.set_viewport_size({"width": round(width_px), "height": 900})
                page.emulate_media(media=media)
                one.views[name] = page.evaluate(MEASURE)
            axe = Axe().run(page)
            one.hindrances = axe.generate_report() if axe.violations_count else ""
            page.emulate_media(media="print")
            for paper in PAPERS_MM:
                one.prints[paper] = pypdf.PdfReader(io.BytesIO(page.pdf(format=paper)))
            found.append(one)
        browser.close()
    return found


@pytest.mark.parametrize("view", VIEWS)
def test_nothing_overflows(seen, view):
    for each in seen:
        assert not each.views[view]["scrolls"], each.path
        assert each.views[view]["overflowing"] == [], each.path


@pytest.mark.parametrize("paper", PAPERS_MM)
def test_no_operation_is_cut_by_the_end_of_a_page_or_hidden_by_the_title_block(seen, paper):
    free_px = (PAPERS_MM[paper][1] - 22 - 23) * PX_A_MM  # margins above and below, the title block
    heights = [height for each in seen for height in each.views[paper]["operations"]]
    assert len(heights) >= 50
    assert max(heights) <= free_px
    # a block that a page's end could cut is kept whole, so that its label and its figure stay together
    for each in seen:
        texts = [page.extract_text() for page in each.prints[paper].pages]
        if each.path.stem.endswith("-adjuster"):
            first, sources = ("".join(text.split()) for text in texts)
            for words in ("Sizestocut", "Leastfull-form", "Locknut:tight", "CAUTION:"):
                assert words in first, words
            assert "Whatthefiguresreston" in sources
        elif each.path.name != "index.html":
            (closing,) = [text for text in texts if "Piece and lot" in text]
            assert re.search(r"One piece.*\d+ (?:s|min|h)\b.*Made by", closing.replace("\n", " ")), each.path


@pytest.mark.parametrize("paper", PAPERS_MM)
def test_it_prints_with_the_title_block_at_the_foot_of_every_page(seen, paper):
    width, height = PAPERS_MM[paper]
    for each in seen:
        pdf = each.prints[paper]
        box = pdf.pages[0].mediabox
        assert (float(box.width), float(box.height)) == pytest.approx((width * 72 / 25.4, height * 72 / 25.4), abs=1)
        texts = [page.extract_text() for page in pdf.pages]
        assert each.title.split(":")[0].split()[0] in "".join(texts)
        assert all("Document type" in text for text in texts), each.path


@pytest.mark.parametrize("view", VIEWS)
def test_lever_figures_are_the_largest_thing_on_the_page(seen, view):
    levers = 0
    for each in seen:
        measured = each.views[view]
        levers += len(measured["levers"])
        assert all(size >= 24 * 96 / 72 for size in measured["levers"])
        assert not measured["levers"] or min(measured["levers"]) > measured["largest"]
    assert levers >= 100


def luminance(colour):
    channels = [int(each) / 255 for each in re.findall(r"\d+", colour)[:3]]
    linear = [each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_black_on_white_one_accent_and_greyscale_loses_nothing(seen):
    told = [text for each in seen for text in each.views["desk"]["told"]]
    assert len(told) >= 8
    # a caution is told by its word and its hatching, not by its colour alone
    assert all(text.startswith(("DANGER:", "CAUTION:", "Not planned", "Stock")) for text in told)
    assert all(each.views[view]["hatched"] for each in seen for view in VIEWS)
    colours = {colour for each in seen for view in VIEWS for colour in each.views[view]["colours"]}
    assert len(colours) == 2
    for colour in colours:
        assert 1.05 / (luminance(colour) + 0.05) >= 7  # contrast to white by WCAG 2, level AAA


def test_everyone_can_read_them(seen):
    assert {str(each.path): each.hindrances for each in seen if each.hindrances} == {}


def test_a_page_stands_alone(pages):
    for path in pages:
        text = path.read_text(encoding="utf-8")
        assert not re.search(r"(?:src|href)=[\"'](?!#|data:|[\w-]+\.html[\"'])", text), path
        named = text.replace("http-equiv", "").replace(quote("http://www.w3.org/2000/svg"), "")  # a name, not a link
        assert "http" not in named, path
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


def test_a_turned_thread_is_drawn_with_the_part_that_goes_on_it(tmp_path):
    plan = hn.plan(DEMO / "job.toml")
    plan.write(tmp_path)
    turned = 0
    for part in plan.parts:
        page = (tmp_path / part.file).read_text(encoding="utf-8")
        pictures = [
            unquote(found)
            for found in re.findall(r'<img class="drawing profile" src="data:image/svg\+xml,([^"]+)"', page)
        ]
        wanted = [op.answer for op in part.operations if op.answer is not None and op.answer.mate is not None]
        assert len(pictures) == len(wanted)
        for picture, answer in zip(pictures, wanted, strict=True):
            assert f"{answer.record.thread} and {answer.mate.thread}" in picture or (
                f"{answer.mate.thread} and {answer.record.thread}" in picture
            )
            assert answer.record.side != answer.mate.side
        turned += len(wanted)
    assert turned == sum(op.step.do == "thread" for part in plan.parts for op in part.operations) > 0


def test_a_coated_thread_shows_sizes_before_coating_beside_the_coated_ones(tmp_path):
    def rows(name, caption):
        text = (tmp_path / name).read_text(encoding="utf-8")
        table = text[text.index(caption) :]
        table = table[: table.index("</table>")]
        return {
            found[0]: found[1:]
            for line in table.splitlines()
            if (found := re.findall(r"<t[hd](?: scope=\"(?:row|col)\")?>(.*?)</t[hd]>", line))
        }, text

    hn.plan(DEMO / "job.toml").write(tmp_path, replace=True)
    tube, text = rows("truss-tube.html", "7/8-14 UNF-2A before coating, in")
    assert tube["diameter"] == ["cut to: max", "min", "coated: max", "min"]
    assert tube["pitch"] == ["0.8270", "0.8216", "0.8286", "0.8216"]
    assert tube["major"] == ["0.8734", "0.8631", "0.8750", "0.8631"]
    assert tube["over ⌀0.04000 wires"] == ["0.88516", "0.87976", "0.88676", "0.87976"]
    assert text.count("half of the film: measure a coupon") == 1  # of the piece, not of each thread
    base, text = rows("tube-base.html", "7/8-14 UNF-2B before coating, in")
    assert base["pitch"] == ["0.8356", "0.8298", "0.8356", "0.8286"]
    assert "Or: mask the thread, and leave it bare." in text
    assert "across ⌀" in text


def test_a_lead_off_the_gearboxs_chart_shows_its_change_gears(tmp_path):
    text = (DEMO / "job.toml").read_text(encoding="utf-8")
    assert text.count('"1/2-20 UNF-2A"') == 1
    path = tmp_path / "metric_pin.toml"
    path.write_text(text.replace('"1/2-20 UNF-2A"', '"M12x1.5-6g"'), encoding="utf-8")
    plan = hn.plan(path)
    plan.write(tmp_path / "sheets")
    part = next(each for each in plan.parts if each.part.name == "altitude pin")
    page = (tmp_path / "sheets" / part.file).read_text(encoding="utf-8")
    train = next(op.answer.chasing.train for op in part.operations if op.step.do == "thread")
    (picture,) = (
        unquote(each) for each in re.findall(r'class="drawing gears" src="data:image/svg\+xml,([^"]+)"', page)
    )
    assert f"Change gears {train.gears}" in picture
    assert "Change gears <b>1.5 mm</b>" in page
    for shaft, gears in train.shafts():
        assert f'<dt>{shaft}</dt><dd class="lever">{gears}</dd>' in page
