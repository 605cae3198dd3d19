"""Every block of code in README does what it says; its commands are run by test_text.py."""

import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```(\w*)\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)
# what builds and tests Halfnut itself cannot run within its own tests; each is run there by other means
BUILDING = {"./shop", "pip", "cmake"}


def commands():
    """The commands of all shell blocks, comments taken off."""
    lines = [line for language, block in BLOCKS if language == "sh" for line in block.splitlines()]
    return [words for words in (shlex.split(line, comments=True) for line in lines) if words]


def test_there_is_something_to_run():
    assert {language for language, _ in BLOCKS} == {"sh", "python", "toml"}
    assert len([words for words in commands() if words[0] == "halfnut"]) >= 9


def test_the_ordinary_ways_in_are_there():
    named = {tuple(words) for words in commands() if words[0] in BUILDING}
    shop = (ROOT / "shop").read_text(encoding="utf-8")
    presets = (ROOT / "CMakePresets.json").read_text(encoding="utf-8")
    for words in named:
        if words[0] == "./shop":
            assert re.search(rf"^    {words[1]}\) ", shop, re.MULTILINE), words
        elif words[0] == "cmake":
            assert f'"{words[-1]}"' in presets, words
        else:
            assert words == ("pip", "install", "."), words


@pytest.mark.parametrize("code", [block for language, block in BLOCKS if language == "python"])
def test_python_blocks_run(code, tmp_path):
    out = subprocess.run([sys.executable, "-c", code], cwd=tmp_path, capture_output=True, text=True)
    assert out.returncode == 0, out.stderr
    assert out.stdout.strip()
