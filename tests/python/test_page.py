"""The phone page in a browser, opened from its file with no network: its answers, its reach; it sends nothing."""

from __future__ import annotations

import ctypes
import json
import os
import random
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings

import halfnut as hn
from halfnut.core.questions import declared
from halfnut.machine import machines

sys.path.insert(0, str(Path(__file__).parent))
from random_questions import QUESTIONS, inline, questions

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "build/page/halfnut.html"
LIBRARY = ROOT / "build/dev/bindings/c/libhalfnut.so"
CHROMIUM = shutil.which("chromium")
NODE = shutil.which("node") or shutil.which("nodejs")
WIDTHS = (360, 390, 768)
THUMB_PX, APART_PX = 76, 19
"""12 mm and 3 mm on a phone, which counts 160 px to the inch."""

if not PAGE.exists():
    pytest.skip("the page is not built (./shop page)", allow_module_level=True)
if CHROMIUM is None:
    pytest.skip("chromium is not here", allow_module_level=True)

REACH = """() => [...document.querySelectorAll("input, select, button, summary, a")]
  .filter((each) => each.checkVisibility())
  .map((each) => [each.id || each.textContent, each.getBoundingClientRect().toJSON()])"""
IN_NODE = """
const fs = require("fs");
const [script, core] = process.argv.slice(1);
const Halfnut = new Function(fs.readFileSync(script, "utf8") + "; return Halfnut;")();
Halfnut.load(fs.readFileSync(core)).then((halfnut) => {
    const asked = JSON.parse(fs.readFileSync(0, "utf8"));
    process.stdout.write(JSON.stringify(asked.map((each) => halfnut.ask(each))));
});
"""


@pytest.fixture(scope="module")
def native():
    library = ctypes.CDLL(str(LIBRARY))
    library.halfnut_ask.restype = ctypes.c_void_p
    library.halfnut_free.argtypes = [ctypes.c_void_p]

    def ask(text):
        answer = library.halfnut_ask(text.encode())
        try:
            return ctypes.string_at(answer).decode()
        finally:
            library.halfnut_free(answer)

    return ask


@pytest.fixture(scope="module")
def asked():
    """A few hundred questions of every kind, right and wrong."""
    out = []

    @settings(max_examples=400, deadline=None, database=None, derandomize=True, phases=[Phase.generate],
              suppress_health_check=list(HealthCheck))  # fmt: skip
    @given(questions())
    def gather(question):
        out.append(json.dumps({**inline(question), "say": random.Random(len(out)).random() < 0.5}))

    gather()
    return out


@pytest.fixture(scope="module")
def browser():
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        found = playwright.chromium.launch(executable_path=CHROMIUM)
        yield found
        found.close()


@pytest.fixture
def page(browser):
    """The page as it is first opened, at a phone's width, offline."""
    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True, offline=True)
    opened = context.new_page()
    opened.sent = []
    opened.on("request", lambda request: opened.sent.append(request.url))
    open_page(opened)
    yield opened
    context.close()


def open_page(page, file=PAGE):
    page.goto(file.as_uri())
    page.wait_for_selector("body[data-ready]", timeout=60_000)


def test_it_is_one_file_that_a_phone_can_hold():
    assert PAGE.stat().st_size <= 2_000_000
    text = PAGE.read_text(encoding="utf-8")
    assert "http://" not in text.replace("http://www.w3.org", "")
    assert "src=" not in text.split('<script type="application/json"')[0]


@pytest.mark.skipif(not LIBRARY.exists(), reason="libhalfnut.so is not built (-DHALFNUT_C=ON)")
def test_text_and_bits_are_those_of_the_native_core(page, asked, native):
    found = page.evaluate("(asked) => asked.map((each) => window.halfnut.ask(each))", asked)
    assert found == [native(each) for each in asked]
    assert sum("error" in json.loads(each) for each in found) < 0.8 * len(found)


@pytest.mark.skipif(not LIBRARY.exists(), reason="libhalfnut.so is not built (-DHALFNUT_C=ON)")
@pytest.mark.skipif(NODE is None, reason="node is not here")
def test_node_answers_the_same(asked, native):
    built = ROOT / "build/page"
    run = [NODE, "-e", IN_NODE, str(built / "core.js"), str(built / "halfnut.wasm")]
    done = subprocess.run(run, input=json.dumps(asked), capture_output=True, text=True, check=True)
    assert json.loads(done.stdout) == [native(each) for each in asked]


def test_what_lever_takes_four_taps(page):
    box = page.locator("#asked-diameter")
    box.tap()
    page.keyboard.type("1.25")
    page.get_by_role("button", name="in", exact=True).tap()
    page.locator("#asked-alloy").tap()
    page.locator("#asked-alloy").select_option("6061 T6")
    shown = page.locator("#answer").inner_text()
    assert box.input_value() == "1.25 in"
    assert "rev/min" in shown and "in/rev" in shown
    assert "lever" in shown  # by name and setting, as the machine's plate has them
    assert "6061 T6" in shown and "gap-bed" in shown
    page.reload()
    page.wait_for_selector("body[data-ready]", timeout=60_000)
    assert page.locator("#answer").inner_text() == shown


def test_fractions_and_units_are_typed_with_the_size(page):
    box = page.locator("#asked-diameter")
    box.fill("1")
    for key in ("and a fraction", "1", "fraction bar", "4", "in"):
        if key.isdigit():
            page.keyboard.type(key)
        else:
            page.get_by_role("button", name=key, exact=True).tap()
    assert box.input_value() == "1-1/4 in"
    page.get_by_role("button", name="mm", exact=True).tap()
    assert box.input_value() == "1-1/4 mm"  # the last unit touched is the size's


def test_what_is_lacking_or_wrong_is_said(page):
    assert "needs" in page.locator("#answer").inner_text()
    page.locator("#asked-alloy").select_option("6061 T6")
    page.locator("#asked-diameter").fill("-3 mm")
    assert "a length cannot be negative" in page.locator("#answer").inner_text()
    page.locator("#asked-diameter").fill("<b>3</b>")
    assert "<b>3</b>" in page.locator("#answer").inner_text()


def test_the_verdict_of_a_measured_thread_is_a_touch_away(page):
    page.get_by_role("button", name="Measured thread").tap()
    page.locator("#asked-thread").fill("7/8-14 UNF-2A")
    page.locator("#asked-over_wires").fill(".890 in")
    page.locator("#asked-wire").fill(".040 in")
    shown = page.locator("#answer").inner_text()
    found = hn.judge("7/8-14 UNF-2A", over_wires="0.890 in", wire="0.040 in")
    assert shown.splitlines()[0] == "Metal left" and found.place == "metal left"
    assert "classes met: none" in shown
    for figure in (found.pitch.to_enter_mm, found.pitch.to_last_mm, found.pitch.to_middle_mm):
        assert f"{figure / 25.4:.4f} in" in shown
    page.locator("#asked-over_wires").fill(".8825 in")
    shown = page.locator("#answer").inner_text()
    assert shown.splitlines()[0] == "Within" and "classes met: 1A, 2A" in shown
    assert "Take" not in shown
    page.get_by_role("button", name="Spindle and feed").tap()
    assert page.locator("#asked-diameter").is_visible()


def test_a_machine_comes_from_a_file_and_a_bad_one_is_told(page, tmp_path):
    ours = json.loads(machines.machine("metric-lathe").core.json())
    good, bad, broken = (tmp_path / name for name in ("ours.json", "bad.json", "broken.json"))
    good.write_text(json.dumps(ours | {"name": "lathe by the door"}))
    bad.write_text(json.dumps(ours | {"name": "wrong", "motor_kw": -1}))
    broken.write_text("{")
    page.get_by_text("A machine from a file").tap()
    page.set_input_files("#machines", [good, bad, broken])
    page.locator("#machines-told span").nth(2).wait_for()
    told = page.locator("#machines-told").inner_text()
    assert "lathe by the door: read" in told and "motor: must be > 0 kW" in told and "broken.json: " in told
    page.locator("#asked-diameter").fill("32 mm")
    page.locator("#asked-alloy").select_option("6061 T6")
    assert "lathe by the door" in page.locator("#answer").inner_text()
    page.reload()
    page.wait_for_selector("body[data-ready]", timeout=60_000)
    assert page.locator("#asked-machine").input_value() == "lathe by the door"
    offered = page.locator("#asked-machine").inner_text()
    assert "wrong" not in offered


SHOP = """
[[material.alloys]]
id = "LG2"
name = "gunmetal of the rack"
like = "bearing bronze"
tensile_mpa = 220
source = "label of the bar"
"""


def test_the_shops_own_tables_are_laid_over_those_of_the_core(browser, tmp_path):
    (tmp_path / "shop").mkdir()
    (tmp_path / "shop" / "alloys.toml").write_text(SHOP)
    out = tmp_path / "page.html"
    pack = [sys.executable, ROOT / "bindings/web/pack.py", ROOT / "build/page", out]
    subprocess.run(pack, check=True, env={**os.environ, "HALFNUT_SHOP": str(tmp_path / "shop")})
    page = browser.new_context(viewport={"width": 390, "height": 844}, offline=True).new_page()
    open_page(page, out)
    page.locator("#asked-diameter").fill("32 mm")
    page.locator("#asked-alloy").select_option("gunmetal of the rack as cast")
    with hn.shop(tmp_path / "shop"):
        found = hn.turn("gunmetal of the rack", "32 mm", machine="gap-bed")
    assert f"{found.spindle_rpm:.0f} rev/min" in page.locator("#answer").inner_text()
    page.context.close()


def test_the_cards_of_a_plan_lie_beside_it(browser, tmp_path):
    job = Path(hn.__file__).parent / "demo/job-metric.toml"
    planned = hn.plan(job)
    planned.write(tmp_path / "sheets", phone_page=PAGE)
    page = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True, offline=True).new_page()
    page.goto((tmp_path / "sheets" / "index.html").as_uri())
    page.get_by_role("link", name="At the machine").tap()
    page.wait_for_selector("body[data-ready]", timeout=60_000)
    page.get_by_text("Cards of the plan").tap()
    assert [each.inner_text() for each in page.locator(".cards a").all()] == [
        *(part.part.title or part.part.name for part in planned.parts),
        "The whole plan",
    ]
    reachable(page)
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    page.locator(".cards a").first.tap()
    page.locator(".tick").first.wait_for()
    assert page.url.endswith(planned.parts[0].file)
    page.context.close()


def processor_s(session):
    """Processor time that the page's own thread has used; how busy the machine is does not count."""
    found = {each["name"]: each["value"] for each in session.send("Performance.getMetrics")["metrics"]}
    return found["TaskDuration"]


def test_it_starts_in_a_second_and_answers_in_a_quarter_of_one(browser, asked):
    context = browser.new_context(viewport={"width": 390, "height": 844}, offline=True)
    opened = context.new_page()
    session = context.new_cdp_session(opened)
    session.send("Performance.enable", {"timeDomain": "threadTicks"})
    open_page(opened)
    started = processor_s(session)
    longest = 0.0
    for name in ("turn", "drill", "wires", "judge", "knurl_blank", "gear_train", "cylindrical_fit"):
        opened.select_option("#work", name)  # a form, and its answer
    opened.select_option("#work", "turn")
    opened.locator("#asked-alloy").select_option("6061 T6")
    for size in ("1 in", "1.25 in", "32 mm"):
        before = processor_s(session)
        opened.locator("#asked-diameter").fill(size)
        longest = max(longest, processor_s(session) - before)
    before = processor_s(session)
    opened.evaluate("(asked) => asked.forEach((each) => window.halfnut.ask(each))", asked)
    mean = (processor_s(session) - before) / len(asked)
    context.close()
    print(
        f"processor time: started in {started:.2f} s, longest answer {longest:.3f} s, mean of {len(asked)} {mean:.4f} s"
    )
    assert started <= 1.0 and longest <= 0.25 and mean <= 0.25


def test_every_question_that_is_declared_has_its_form(page):
    offered = page.eval_on_selector_all("#work option", "(all) => all.map((each) => each.value)")
    assert sorted(offered) == sorted(declared())
    assert offered[0] == "turn"
    for question in QUESTIONS:
        page.select_option("#work", question["name"])
        for row in question["arguments"]:
            assert page.locator(f"#asked-{row['name']}").count() == 1, (question["name"], row["name"])
            assert page.locator(f"label[for=asked-{row['name']}]").count() == 1


def test_nothing_is_sent(page):
    page.locator("#asked-diameter").fill("1 in")
    page.locator("#asked-alloy").select_option("6061 T6")
    tried = "() => fetch('http://127.0.0.1:9/').then(() => 'sent', (error) => 'refused')"
    assert page.evaluate(tried) == "refused"
    assert [url for url in page.sent if not url.startswith("file:")] == []


def reachable(page):
    """Every visible control is a thumb wide and high; those beside each other are apart."""
    found = page.evaluate(REACH)
    assert found
    for name, box in found:
        assert box["width"] >= THUMB_PX - 0.5 and box["height"] >= THUMB_PX - 0.5, (name, box)
    for at, (name, a) in enumerate(found):
        for other, b in found[at + 1 :]:
            across = max(a["left"], b["left"]) - min(a["right"], b["right"])
            along = max(a["top"], b["top"]) - min(a["bottom"], b["bottom"])
            assert max(across, along) >= APART_PX - 0.5, (name, other)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", WIDTHS)
def test_it_fits_is_reached_and_read(page, width, scheme):
    from axe_playwright_python.sync_playwright import Axe

    page.set_viewport_size({"width": width, "height": 844})
    page.emulate_media(color_scheme=scheme)
    for name in ("turn", "judge", "cylindrical_fit", "knurl_blank"):
        page.select_option("#work", name)
        for each in page.locator("summary").all():
            if each.is_visible():
                each.click()
        assert page.evaluate("document.documentElement.scrollWidth") <= width, name
        reachable(page)
        found = Axe().run(page)
        assert found.violations_count == 0, found.generate_report()


def test_it_can_be_made_twice_as_large(page):
    page.set_viewport_size({"width": 195, "height": 422})
    assert page.evaluate("document.documentElement.scrollWidth") <= 195


def test_keys_alone_suffice(page):
    page.locator("#work").focus()
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.id") == "asked-diameter"
    page.keyboard.type("32 mm")
    page.locator("#asked-alloy").focus()
    page.keyboard.type("6061 T6")
    assert "rev/min" in page.locator("#answer").inner_text()


def test_storage_that_is_lost_is_said(browser):
    context = browser.new_context(offline=True)
    context.add_init_script("Object.defineProperty(window, 'localStorage', { get() { throw new Error('none'); } })")
    page = context.new_page()
    open_page(page)
    assert "keeps nothing" in page.locator("#answer").inner_text()
    context.close()
