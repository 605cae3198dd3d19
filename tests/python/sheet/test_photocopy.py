"""Cards after a photocopy: what is read of the print by machine is read of a blurred copy in black and white."""

import os
import re
import shutil
import subprocess
from collections import Counter
from pathlib import Path

import numpy as np
import pytest

import halfnut as hn

TOOLS = ("chromium", "pdftoppm", "tesseract")
MISSING = [tool for tool in TOOLS if shutil.which(tool) is None]
if MISSING:
    pytest.skip(f"{' and '.join(MISSING)} not here", allow_module_level=True)

DEMO = Path(hn.__file__).parent / "demo"
BLUR = np.array([1, 4, 6, 4, 1]) / 16
"""Of a copier out of focus: a standard deviation of one dot, 0.13 mm."""
BLACK = 140
ONE = {**os.environ, "OMP_THREAD_LIMIT": "1"}
KEPT, READ = 0.95, 0.8
"""Least share of the figures read of the print that the copy leaves; of all figures that are read of the print, which
says that the recogniser can be asked: numbers in circles and halves it does not know."""


def figures(text):
    """Figures with how often each stands there; the dot between turns and lines is in no recogniser's alphabet."""
    return Counter(re.findall(r"[\d./]*\d[\d./]*", re.sub(r"[\N{MIDDLE DOT}\N{BULLET}-]+", ".", text)))


def read(picture, path):
    """Figures that are read in a picture, by two ways of looking for lines."""
    path.write_bytes(b"P5 %d %d 255\n" % picture.shape[::-1] + picture.astype(np.uint8).tobytes())
    out = Counter()
    for layout in ("6", "11"):
        command = ["tesseract", path, "-", "--psm", layout, "--dpi", "200"]
        out |= figures(subprocess.run(command, capture_output=True, text=True, check=True, env=ONE).stdout)
    return out


def copied(picture):
    """Blurred both ways, then black or white."""
    for axis in (0, 1):
        picture = sum(share * np.roll(picture, place - 2, axis) for place, share in enumerate(BLUR))
    return np.where(picture < BLACK, 0, 255)


@pytest.mark.parametrize("file", ["altitude-pin.html", "mirror-plate.html"])
def test_a_photocopy_is_read_as_the_print_is(file, tmp_path):
    from playwright.sync_api import sync_playwright

    card, pdf = tmp_path / file, tmp_path / "card.pdf"
    card.write_text(hn.plan(DEMO / "job.toml").files("A5")[file], encoding="utf-8")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        page = browser.new_page()
        page.goto(card.as_uri())
        page.pdf(path=pdf, prefer_css_page_size=True)
        browser.close()
    printed = figures(subprocess.run(["pdftotext", pdf, "-"], capture_output=True, text=True, check=True).stdout)
    subprocess.run(["pdftoppm", "-gray", "-r", "200", pdf, tmp_path / "page"], check=True)
    clean, copy = Counter(), Counter()
    for path in sorted(tmp_path.glob("page-*.pgm")):
        head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", data := path.read_bytes())
        picture = np.frombuffer(data[head.end() :], np.uint8).reshape(int(head[2]), int(head[1])).astype(float)
        clean += read(picture, tmp_path / "clean.pgm")
        copy += read(copied(picture), tmp_path / "copy.pgm")
    seen = printed & clean
    assert seen.total() >= READ * printed.total(), printed - clean
    assert (seen & copy).total() >= KEPT * seen.total(), seen - copy
