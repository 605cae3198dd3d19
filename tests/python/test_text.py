"""What Halfnut prints is what tests/text keeps, so that a change of words is seen; `./shop text` writes it anew."""

import difflib
import importlib.util
from pathlib import Path

import pytest

KEPT = Path(__file__).resolve().parents[1] / "text"
_spec = importlib.util.spec_from_file_location("kept", KEPT / "kept.py")
kept = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(kept)


@pytest.fixture(scope="module")
def pages():
    return kept.pages()


def test_each_kept_page_is_of_a_question_and_each_question_kept(pages):
    assert len(pages) > 100
    assert {path.relative_to(KEPT).as_posix() for path in KEPT.rglob("*.txt")} == set(pages)


@pytest.mark.parametrize("room", ["readme", "help", "records"])
def test_what_is_printed_is_what_is_kept(room, pages):
    changed = []
    for name, text in pages.items():
        if name.startswith(room):
            before = (KEPT / name).read_text(encoding="utf-8").splitlines()
            changed += difflib.unified_diff(before, text.splitlines(), f"kept/{name}", f"now/{name}", lineterm="", n=1)
    assert not changed, "\n".join(["./shop text writes them anew", *changed[:200]])


def test_each_command_of_the_readme_answers(pages):
    answers = {name: text for name, text in pages.items() if name.startswith("readme/")}
    assert len(answers) == len(kept.readme_commands()) > 30
    for name, text in answers.items():
        _, *rest = text.splitlines()
        assert rest[-1] == "exit status 0", text
        assert len(rest) > 1, name
