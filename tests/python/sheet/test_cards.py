"""Cards as they come out of a printer: a page each, figures large enough, edges free; and each replayed from its text.

Least heights: characters of 16 arcminutes at the longest distance they are read from (NUREG-0700 rev. 3, 1.3.1-4),
2.8 mm at 0.6 m; what is read most is larger. Contrast 7:1 is level AAA of WCAG 2.2.
"""

import io
import itertools
import os
import re
import shutil
import subprocess
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import pypdf
import pytest

import halfnut as hn
from halfnut.sheet.paper import PAPERS

CHROMIUM, RASTER = shutil.which("chromium"), shutil.which("pdftoppm")
DEMO = Path(hn.__file__).parent / "demo"
SIZES_MM = {"A5": (148, 210), "half-letter": (139.7, 215.9), "A4": (210, 297), "letter": (215.9, 279.4)}
POINT_MM = 25.4 / 72
DIGIT = 0.688
"""Height of the lowest digits of Liberation Sans, 1, 4 and 7, as a share of the body: 1409 of 2048 in its outlines."""
WORDS_MM, READ_MM, READ_PT = 2.8, 3.6, 20.0

if (CHROMIUM is None or RASTER is None) and not os.environ.get("CI"):
    pytest.skip("chromium or poppler is not here", allow_module_level=True)

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
class Printed:
    """A part's cards as printed: pages of text, what each character is set in, and what the browser measured."""

    job: str
    paper: str
    file: str
    path: Path
    pdf: pypdf.PdfReader
    seen: dict
    texts: list = field(default_factory=list)


MEASURE = """
() => {
    const large = new Set([...document.querySelectorAll('.lv b, .size, .dial b, td:not(.at td), .rpm')]);
    return {
        cards: document.querySelectorAll('.card').length,
        colours: [...new Set([...document.querySelectorAll('body, body *')].map(each => getComputedStyle(each).color))],
        levers: [...document.querySelectorAll('.card')].map(card => {
            const bar = card.querySelector('.bar');
            return (bar.getBoundingClientRect().top - card.getBoundingClientRect().top) / card.offsetHeight;
        }),
        before: [...document.querySelectorAll('.card')].map(card => {
            const texts = [...card.querySelectorAll('header, .hold')].map(each => each.textContent);
            return texts.join(' ').trim().split(/\\s+/).length;
        }),
        words: [...document.querySelectorAll('.card')].map(card => card.textContent.trim().split(/\\s+/).length),
        operations: [...document.querySelectorAll('.card')].map(card =>
            [...card.querySelectorAll('.no')].filter(each => each.textContent.trim()).length),
        thin: [...document.querySelectorAll('.card *')].filter(each => getComputedStyle(each).fontWeight < 700)
            .flatMap(each => [...each.childNodes]).filter(each => each.nodeType === 3 && /\\d*\\.\\d/.test(each.data))
            .map(each => each.data),
        read: [...large].flatMap(each => each.textContent.trim().split(/\\s+/)),
    };
}
"""


@pytest.fixture(scope="module")
def plans():
    return {"inch": hn.plan(DEMO / "job.toml"), "metric": hn.plan(DEMO / "job-metric.toml"), "bad": hn.plan(BAD)}


@pytest.fixture(scope="module")
def printed(plans, tmp_path_factory):
    """Every card of the demonstration, in inches and in millimetres, and of a job that fails, on every paper."""
    from playwright.sync_api import sync_playwright

    out = []
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        page = browser.new_page()
        page.emulate_media(media="print")
        for name, plan in plans.items():
            for paper in PAPERS:
                folder = tmp_path_factory.mktemp(f"{name}-{paper}")
                files = plan.files(paper)
                for part in plan.parts:
                    path = folder / part.file
                    path.write_text(files[part.file], encoding="utf-8")
                    page.goto(path.as_uri())
                    seen = page.evaluate(MEASURE)
                    pdf = path.with_suffix(".pdf")
                    page.pdf(path=pdf, prefer_css_page_size=True)
                    reader = pypdf.PdfReader(io.BytesIO(pdf.read_bytes()))
                    texts = [each.extract_text() for each in reader.pages]
                    out.append(Printed(name, paper, part.file, pdf, reader, seen, texts))
        browser.close()
    return out


def characters(page):
    """Text of every run of a page, and the size in mm that it is printed in."""
    runs = []

    def note(text, cm, tm, font, size):
        if text.strip():
            runs.append((text.strip(), size * abs(cm[3] * tm[3]) * POINT_MM))

    page.extract_text(visitor_text=note)
    return runs


def test_each_card_is_one_page_of_its_paper(printed):
    cards = 0
    for each in printed:
        assert len(each.pdf.pages) == each.seen["cards"], (each.file, each.paper)
        for page in each.pdf.pages:
            size = (float(page.mediabox.width) * POINT_MM, float(page.mediabox.height) * POINT_MM)
            assert size == pytest.approx(SIZES_MM[each.paper], abs=0.4), each.paper
        cards += each.seen["cards"]
    assert cards >= 80


def test_a_setup_takes_one_card(printed):
    """Each of the thirteen setups of the demonstration in inches, of up to eight operations."""
    long = {}
    for paper in PAPERS:
        cards = {each.file: each.texts for each in printed if each.job == "inch" and each.paper == paper}
        assert not any("card 1 of" in text for found in cards.values() for text in found), paper
        assert sum(map(len, cards.values())) <= 13, paper
        assert len(cards["truss-tube.html"]) == 2, paper  # an end each, with its thread
        metric = [text for each in printed if (each.job, each.paper) == ("metric", paper) for text in each.texts]
        long[paper] = sum("card 1 of 2" in text for text in metric)
    # a lathe of any speed changes it more often; Letter is short
    assert long == {"A5": 2, "half-letter": 1, "A4": 1, "letter": 3}


def test_figures_are_as_large_as_the_rules_say_in_the_print_itself(printed):
    """Sizes are those of the printed file: a browser that shrinks a page that is too wide is found out here."""
    plain = read = 0
    for each in printed:
        runs = [run for page in each.pdf.pages for run in characters(page)]
        wanted = Counter(word for word in each.seen["read"] if re.search(r"\d", word))
        least_mm = READ_MM / DIGIT if each.paper in {"A5", "half-letter"} else (READ_PT - 0.05) * POINT_MM
        large = Counter(word for text, size in runs if size >= least_mm for word in text.split())
        assert wanted - large == Counter(), (each.file, each.paper)
        for text, size in runs:
            if re.search(r"\d", text):
                assert size * DIGIT >= WORDS_MM, (each.file, each.paper, text, size * DIGIT)
                plain += 1
        read += wanted.total()
    assert min(plain, read) >= 1000


def test_the_edges_are_free_for_a_clip_and_for_a_printer(printed):
    """9 mm at the left, 3 mm all round, in the page's own ink at 100 dots an inch."""
    dot_mm = 25.4 / 100
    for each in (one for one in printed if one.job != "metric"):
        root = each.path.with_suffix("")
        subprocess.run([RASTER, "-gray", "-r", "100", each.path, root], capture_output=True, check=True)
        maps = sorted(root.parent.glob(f"{root.name}-*.pgm"))
        assert len(maps) == len(each.pdf.pages)
        for path in maps:
            ink = grey(path.read_bytes())
            rows, columns = np.nonzero(ink < 200)
            width, height = ink.shape[1] * dot_mm, ink.shape[0] * dot_mm
            assert columns.min() * dot_mm >= 9.0 - dot_mm, (each.file, each.paper)
            assert rows.min() * dot_mm >= 3.0
            assert width - columns.max() * dot_mm >= 3.0
            assert height - rows.max() * dot_mm >= 3.0


def grey(data):
    """A portable grey map, a number from 0, black, to 255 a dot."""
    head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", data)
    return np.frombuffer(data[head.end() :], np.uint8).reshape(int(head[2]), int(head[1]))


def luminance(colour):
    channels = [int(each) / 255 for each in re.findall(r"\d+", colour)[:3]]
    linear = [each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_black_one_dark_red_and_both_seven_to_one(printed):
    colours = {colour for each in printed for colour in each.seen["colours"]}
    assert len(colours) == 2
    for colour in colours:
        assert 1.05 / (luminance(colour) + 0.05) >= 7


def test_a_decimal_point_is_never_thin(printed):
    """Set in the plain weight it is what two photocopies lose; 873 is then read for .873."""
    assert [each.seen["thin"] for each in printed if each.seen["thin"]] == []


def test_the_first_lever_is_near_the_top_and_a_card_is_short(printed):
    for each in printed:
        if each.job == "bad":
            continue
        assert max(each.seen["levers"]) <= 0.4, (each.file, each.paper)
        assert max(each.seen["before"]) <= 40, (each.file, each.paper, each.seen["before"])
        for words, operations in zip(each.seen["words"], each.seen["operations"], strict=True):
            assert words <= 250, (each.file, each.paper, words, operations)


# ---- each card replayed on its machine, from what is printed on it ------------------------------------------

INCH = 25.4


def number(text):
    """A size as a card writes it: 1-1/2, 3/4, .868, 22.05."""
    whole, _, over = text.rpartition("-") if "/" in text else (text, "", "")
    if over or "/" in text:
        top, bottom = (over or text).split("/")
        return (float(whole) if whole and over else 0.0) + float(top) / float(bottom)
    return float(text)


def shown_mm(slide, text):
    """What a dial has counted when it reads this: turns, and thousandths of an inch or millimetres beyond them."""
    turns, _, beyond = text.rpartition("\N{MIDDLE DOT}")
    half = 0.5 if beyond.endswith("\N{VULGAR FRACTION ONE HALF}") else 0.0
    rest = float(beyond.rstrip("\N{VULGAR FRACTION ONE HALF}") or 0) + half
    a_turn = slide.travel_per_turn_mm * (2 if slide.reads_diameter else 1)
    return int(turns or 0) * a_turn + rest * (INCH / 1000 if slide.marked_in_inch else 1.0)


def cut_mm(slide, text):
    """By how much a diameter changes until the dial reads this."""
    return shown_mm(slide, text) * (1 if slide.reads_diameter else 2)


@pytest.fixture(scope="module")
def replayed(plans, printed):
    """Each part of the demonstrations with the text of its cards on A5."""
    texts = {(each.job, each.file): each.texts for each in printed if each.paper == "A5"}
    return [
        (plan, part, texts[name, part.file]) for name, plan in plans.items() if name != "bad" for part in plan.parts
    ]


def test_every_spindle_bar_and_feed_cell_is_a_step_of_the_machine(replayed):
    bars = cells = 0
    for _, part, pages in replayed:
        lines = [line for page in pages for line in page.splitlines()]
        flat = " ".join(" ".join(pages).split())
        for machine in {op.machine.name: op.machine for op in part.operations}.values():
            core = machine.core
            speeds = {
                " ".join(f"{each.control} {each.setting}" for each in step.positions): (
                    step.rpm_low if step.variable else step.rpm,
                    step.rpm,
                )
                for step in core.spindle
            }
            for line in lines:
                rpm, _, levers = line.partition(" ")
                if levers in speeds and rpm.isdigit():
                    low, high = speeds[levers]
                    assert low - 0.5 <= int(rpm) <= high + 0.5, line
                    bars += 1
        for op in part.operations:
            for group in op.answer.levers:
                # a taper is fed by the compound's handle
                if group.group in {"feed", "gearbox"} and op.step.do != "taper":
                    assert " ".join(f"{control} {setting}" for control, setting in group.positions) in flat
                    cells += 1
    assert bars >= 80 and cells >= 60


VERBS = r"(?:Rough|Turn|Bore|Groove|Taper|Face|Part|Knurl|Measure|Thread|Tap|Spot|Drill|Ream|Counter|Mill|Slit)"


def rows_of(part, pages):
    """What is printed for each operation, by its number."""
    text = "\n".join(pages)
    starts = [(op, re.search(rf"{op.number} (?={VERBS})", text).start()) for op in part.operations]
    ends = [start for _, start in starts[1:]] + [len(text)]
    return text, [(op, text[start:end]) for (op, start), end in zip(starts, ends, strict=True)]


DIALS = r"[\d.\u00b7\u00bd]+(?: [\d.\u00b7\u00bd]+)*(?:\n[\d.\u00b7\u00bd ]+(?=\n))*"
CUT = r"(?:Rough|Turn|Bore|left:|less|Blank|Taper|Groove to)\s"
ROW = re.compile(
    rf"(?P<verb>{CUT})[^\u00d8\n]*\u00d8 (?:(?P<large>\S+) to )?(?P<size>[\d./-]+)"
    r"(?:\s[\d.]+ / [\d.]+| within \S+)*"
    r"(?:\s\u00d7\s(?P<long>[\d./-]+))?(?:\sat (?P<at>[\d./-]+))?"
    rf"(?: (?P<on>{DIALS}))?(?P<rest>(?:(?!\b{CUT})[^\u00d8])*)"
)


class Outside:
    """The outside of turned work by what is printed: diameters by their reach from the face."""

    def __init__(self, stock):
        self.stock, self.zones = stock, []

    def cut(self, start, end, size):
        self.zones.append((start, end, size))

    def greatest(self, start, end):
        """Where a tool that comes down over a length touches first."""
        edges = sorted({start, end, *(edge for zone in self.zones for edge in zone[:2] if start < edge < end)})
        middles = [(a + b) / 2 for a, b in itertools.pairwise(edges)]
        return max(self.at(each) for each in middles)

    def at(self, place):
        return next((size for a, b, size in reversed(self.zones) if a < place < b), self.stock)


def stock_of(text):
    return number(re.search(r"off, .*? (?:bar|tube|hexagon)\s+(\S+?)[.\s]", text, re.S)[1])


def test_each_dial_leaves_the_size_that_is_printed_beside_it(replayed):
    """From the text alone: touched at the stock or at what earlier rows left, the slide is where the size beside its
    dial is; a row without a touch goes on from the one before; a measured row's sum names its size."""
    dials = went_on = measured = 0
    for _, part, pages in replayed:
        text, rows = rows_of(part, pages)
        if rows[0][0].machine.kind != "lathe" or part.part.stock.form == "hexagon":
            continue
        scale = INCH if part.unit == "in" else 1.0
        turned = (again := re.search(r"urned\s+round", text)) and again.start()
        outside, hole = Outside(stock_of(text) * scale), None
        for op, said in rows:
            if turned and turned < text.find(said):
                outside, hole, turned = Outside(stock_of(text) * scale), None, None
            if re.match(r"\d+ Drill", said):
                hole = number(re.search(r"\u00d8 ([^\s,]+)", said)[1]) * scale
            inner, touched, sums = said.startswith(f"{op.number} Bore"), None, 0
            slide = op.machine.core.slide("cross")
            for row in ROW.finditer(said):
                size, at = number(row["size"]) * scale, number(row["at"] or "0") * scale
                if row["long"] or row["verb"].strip() not in {"left:", "less"}:  # what is measured is as long as before
                    end = at + number(row["long"] or "0") * scale
                to = re.search(rf"touch = 0, to ({DIALS})", row["rest"])
                if to:
                    touched = hole if inner else outside.greatest(at, end)
                if row["large"]:
                    assert number(row["large"]) * scale == pytest.approx(touched, abs=0.001 * scale)
                dial = to[1] if to else row["on"]
                if dial and row["verb"].strip() != "Blank":
                    assert touched is not None, (part.file, said)
                    reached = touched + (1 if inner else -1) * cut_mm(slide, dial.split()[-1])
                    assert reached == pytest.approx(size, abs=slide.graduation_mm / 2 + 6e-5 * scale), said
                    dials += 1
                    went_on += not to
                else:
                    asked = [each.size_mm for each in op.answer.passes if each.measure]
                    assert row["verb"].strip() in {"left:", "less"} and size == pytest.approx(asked[sums], abs=0.01), (
                        said
                    )
                    sums += 1
                if inner:
                    hole = size
                elif row["verb"].strip() != "Taper":
                    outside.cut(at, end, size)
            measured += sums
            assert sums == sum(each.measure for each in op.answer.passes)
    assert measured >= 4
    assert dials >= 34 and went_on >= 9, (dials, went_on)


def test_a_hole_is_as_deep_as_its_row_says(replayed):
    checked = 0
    row = re.compile(
        r"(Drill|Ream|Counterbore|Spot|Countersink)(?: \S+,)? \u00d8 (\S+),\s+(\S+) deep[^\u00d8]*?"
        r"(?:point|touch) = 0, (\S+)\s*\n"
    )
    for _, part, pages in replayed:
        machine = (
            part.operations[-1].machine if part.operations[0].machine.kind != "lathe" else part.operations[0].machine
        )
        slide = machine.core.slide("tailstock" if machine.kind == "lathe" else "quill")
        scale = INCH if part.unit == "in" else 1.0
        for do, size, deep, dial in row.findall("\n".join(pages)):
            moved, wanted = shown_mm(slide, dial), number(deep) * scale
            # 0.30 diameters, of a point of 118 degrees; a reamer's lead goes through
            point = number(size) * scale * {"Drill": 0.31, "Ream": 0.15}.get(do, 0.0)
            assert wanted - slide.graduation_mm <= moved <= wanted + point + slide.graduation_mm, (do, size, deep, dial)
            checked += 1
    assert checked >= 15


def test_a_threads_readings_and_dial_go_together(replayed):
    """A line of the compound takes twice its cosine off the pitch diameter: what is to go never passes the limits."""
    checked = 0
    for _, part, pages in replayed:
        for op in (op for op in part.operations if op.step.do == "thread" and op.answer.wires is not None):
            chasing, wires = op.answer.chasing, op.answer.wires
            scale = INCH if part.unit == "in" else 1.0
            text = "\n".join(pages)
            head = re.search(
                rf"\n{op.number} Thread {re.escape(chasing.thread)}.*?Good (\S+) to (\S+)\.\s+Try", text, re.S
            )
            low, high = number(head[1]) * scale, number(head[2]) * scale
            assert wires.over_min_mm - 1e-6 <= low < high <= wires.over_max_mm + 1e-6
            read = [
                number(each) * scale
                for each in re.search(r"\n(?:over wires|across balls) ([^\n]+)", head[0])[1].split()
            ]
            to_go = re.search(r"\nto go ([^\n]+)", head[0])[1].split()
            slide = op.machine.core.slide(chasing.slide)
            per_mm = 2.0 * np.cos(np.radians(chasing.compound_deg or 0.0))
            sign = 1 if "across balls" in head[0] else -1
            for reading, go in zip(read, to_go, strict=True):
                after = reading + sign * per_mm * shown_mm(slide, go)
                assert low - 1e-3 <= after <= high + 1e-3 if go != "0" else True, (op.number, reading, go)
                checked += 1
            dials = re.search(rf"touch = 0, to ({DIALS})", head[0])[1].split()
            steps = [shown_mm(slide, each) for each in dials]
            assert steps == sorted(steps) and (steps[-1] == steps[-2]) == chasing.repeats
    assert checked >= 30


def test_every_size_with_limits_is_rounded_inwards(replayed):
    checked = 0
    for _, _, pages in replayed:
        for size, high, low in re.findall(r"\u00d8 (\S+) (\S+) / (\S+)", " ".join(" ".join(pages).split())):
            assert number(low) <= number(size) <= number(high)
            checked += 1
    assert checked >= 10


# ---- what a card is asked at the machine ---------------------------------------------------------------------


def card_of(printed, file):
    """The text of a part's cards on A5."""
    pages = next(each.texts for each in printed if (each.job, each.paper, each.file) == ("inch", "A5", file))
    return "\n".join(pages)


def row(text, number):
    """A row by its number, with the spindle bar above it: rev/min and levers."""
    start = re.search(rf"(?:^|\s){number} (?={VERBS})", text).start()
    bars = [found for found in re.finditer(r"^(\d+) ((?:back gear|belt|gear|lever).*)$", text, re.M)]
    bar = [found for found in bars if found.start() < start][-1]
    after = [found.start() for found in bars if found.start() > start]
    return bar[1], bar[2], text[start : min(after, default=len(text))]


def operation(plans, file, number):
    part = next(part for part in plans["inch"].parts if part.file == file)
    return part, next(op for op in part.operations if op.number == number)


def test_ten_questions_that_the_truss_tubes_card_answers(plans, printed):
    text = card_of(printed, "truss-tube.html")
    part, turn = operation(plans, "truss-tube.html", 20)
    _, thread = operation(plans, "truss-tube.html", 30)
    chasing, wires = thread.answer.chasing, thread.answer.wires
    rpm, levers, said = row(text, 30)
    # How many, and out of what?
    assert re.search(r"8 off, 6061-T6 tube 1 \u00d7 \.624", text)
    # How long do I saw it? Never short of the blank.
    assert 0 <= number(re.search(r"Saw (\S+),", text)[1]) * INCH - part.stock.blank_mm < INCH / 16
    # How far out of the jaws, and on what?
    assert re.search(r"three-jaw on the\s+tube, 2-3/4 out", text)
    # What speed for the thread, and where do the levers stand?
    (spindle,) = (group for group in thread.answer.levers if group.group == "spindle")
    assert levers == " ".join(f"{control} {setting}" for control, setting in spindle.positions)
    assert float(rpm) == pytest.approx(thread.answer.cut.spindle_rpm, abs=0.5)
    # Gearbox and half nut?
    (box,) = (group for group in thread.answer.levers if group.group == "gearbox")
    for control, setting in box.positions:
        assert f"{control} {setting}" in text[text.index(levers, text.index("Turn \u00d8")) :]
    assert re.search(r"half nut:\s+any mark", text) and chasing.dial_every == 1
    # What size do I turn to, within what?
    _, _, turning = row(text, 20)
    size, high, low = re.search(r"Turn \u00d8 (\S+) (\S+) / (\S+)", turning).groups()
    assert turn.step.to.base == pytest.approx(number(size) * INCH)
    limits = hn.limits("7/8-14 UNF-2A")
    assert limits.major_min_mm <= number(low) * INCH < number(high) * INCH <= limits.major_max_mm
    # Where do I set the compound?
    assert f"compound {chasing.compound_marked_deg:g}".replace(".5", "\u00bd") + "\u00b0" in said
    # What does the dial read at the third pass?
    dials = re.search(rf"touch = 0, to ({DIALS})", said)[1].split()
    assert number(dials[2]) == pytest.approx(chasing.passes[2].dial * chasing.line_mm / INCH * 1000, abs=0.5)
    # The wires read .890: how much to go? Half of it, measure, then the rest leaves the thread within its limits.
    read = re.search(r"over wires ([^\n]+)", said)[1].split()
    to_go = dict(zip(read, re.search(r"to go ([^\n]+)", said)[1].split(), strict=True))
    left = shown_mm(thread.machine.core.slide(chasing.slide), to_go[".890"])
    off = 2 * left * np.cos(np.radians(chasing.compound_deg))
    assert wires.over_min_mm <= 0.890 * INCH - off <= wires.over_max_mm
    # When is it good?
    low, high = re.search(r"Good (\S+) to (\S+)\.\s+Try", said).groups()
    assert wires.over_min_mm <= number(low) * INCH < number(high) * INCH <= wires.over_max_mm


def test_ten_questions_that_the_focus_knobs_card_answers(plans, printed):
    text = card_of(printed, "focus-knob.html")
    part, turn = operation(plans, "focus-knob.html", 40)
    # What speed for 40?
    rpm, _, turning = row(text, 40)
    assert float(rpm) == pytest.approx(turn.answer.cut.spindle_rpm, abs=0.5)
    # Which roughing passes does its dial show, and where do I begin to count?
    shown = re.search(rf"touch = 0, to ({DIALS})", turning)[1].split()
    assert len(shown) == sum(not each.levers for each in turn.answer.passes)
    # Which diameter do I come to, how far along?
    size, long = re.search(r"Turn \u00d8 (\S+) \u00d7 (\S+)", turning).groups()
    assert (number(size) * INCH, number(long) * INCH) == pytest.approx((turn.step.to.base, turn.step.length.base))
    # How wide is the knurl, where does it begin, how large is it then?
    _, knurl = operation(plans, "focus-knob.html", 30)
    _, _, said = row(text, 30)
    wide, at, grown = re.search(r"(\S+) wide at (\S+),.*Comes to \u00d8 (\S+)", " ".join(said.split())).groups()
    assert number(wide) * INCH == pytest.approx(knurl.step.width.base)
    assert number(at) * INCH == pytest.approx(knurl.walked["from_mm"])
    assert number(grown) * INCH == pytest.approx(knurl.answer.record.finished_diameter_mm, abs=0.002)
    # How deep do I drill, where do I clear the chips, with which drill?
    _, drill = operation(plans, "focus-knob.html", 60)
    _, _, said = row(text, 60)
    name, size, deep = re.search(r"Drill (\S+), \u00d8 (\S+), (\S+) deep", said).groups()
    assert name == "C"
    assert number(deep) * INCH == pytest.approx(drill.step.depth.base)
    assert number(size) * INCH == pytest.approx(drill.step.diameter.base, abs=0.02)
    clear = re.search(r"clear at\s+([^\n]+)", said)[1].split(", ")
    assert len(clear) == len(drill.answer.passes) - 1
    slide = drill.machine.core.slide("tailstock")
    reached = [shown_mm(slide, each) for each in [*clear, re.search(r"point = 0, (\S+)", said)[1]]]
    assert reached == sorted(reached) and reached[-1] >= drill.step.depth.base
    # How fast, and fed by what, do I ream?
    _, ream = operation(plans, "focus-knob.html", 70)
    rpm, _, said = row(text, 70)
    assert float(rpm) == pytest.approx(ream.answer.cut.spindle_rpm, abs=0.5)
    assert "by hand" in text[: text.index(said)].splitlines()[-1] + said
    # How long is it parted off, with which blade, and what can hurt me?
    rpm, _, said = row(text, 80)
    assert re.search(r"Part off to 7/8 long, 1/8 blade", said)
    warned = text[: text.index(said)].rsplit("back gear", 1)[1]
    assert "DANGER" in warned and "flung" in warned and "hot" in warned
    # How many pieces are to be done?
    assert part.part.quantity == 2 and "Done 1 2\n" in text


def test_texts_from_the_job_file_are_never_markup():
    job = {**BAD, "parts": [{**BAD["parts"][0], "title": "<script>alert(1)</script>", "note": "a & b"}]}
    files = hn.plan(job).files()
    sheet = files["counterweight-adjusting-spindle-with-a-very-long-name.html"]
    assert "<script>alert" not in "".join(text for name, text in files.items() if name.endswith(".html"))
    assert "a &amp; b" in sheet


def test_a_paper_that_there_is_not_is_refused(plans):
    with pytest.raises(hn.DomainError, match="paper: one of A5, half-letter, A4, letter, got 'A3'"):
        plans["inch"].files("A3")
