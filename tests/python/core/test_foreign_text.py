"""Text from outside: encodings of files, control characters, formulas in cells, names in files."""

from __future__ import annotations

import csv
import io
import os
import subprocess
import sys
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

import halfnut as hn
from halfnut.core import text
from halfnut.core.shapes import load_toml

ESCAPE = "\x1b]0;title\x07\x1b[2J\x9b31m\u202e"
SHOWN = r"\x1b]0;title\x07\x1b[2J\x9b31m\u202e"
TOML_ESCAPE = ESCAPE.encode("unicode_escape").decode().replace("\\x", "\\u00")


def job(**part):
    return {
        "title": "one pin", "machine": "gap-bed",
        "parts": [
            {
                "name": "pin", "quantity": 1, "alloy": "6061-T6", "length": "2 in",
                "stock": {"form": "bar", "diameter": "1 in"},
                "operations": [{"do": "turn", "to": "0.9 in", "length": "1 in"}],
            } | part
        ],
    }  # fmt: skip


JOB = """title = "pin TITLE"
machine = "gap-bed"
[[parts]]
name = "pin NAME"
quantity = 1
alloy = "6061-T6"
length = "2 in"
stock = { form = "bar", diameter = "1 in" }
operations = [{ do = "turn", to = "0.9 in", length = "1 in" }]
"""


def halfnut(*words, cwd, **variables):
    environment = os.environ | {"PYTHONUTF8": "0"} | variables
    return subprocess.run([sys.executable, "-m", "halfnut", *words], cwd=cwd, env=environment, capture_output=True)


def test_files_may_begin_with_a_byte_order_mark(tmp_path):
    mark = b"\xef\xbb\xbf"
    (tmp_path / "job.toml").write_bytes(mark + JOB.encode())
    assert hn.plan(tmp_path / "job.toml").failed == 0
    (tmp_path / "jobs.csv").write_bytes(mark + b"alloy,diameter_mm\r\n6061-T6,5\r\n")
    out = halfnut("batch", "drill", "jobs.csv", "--out", "answers.csv", cwd=tmp_path)
    assert out.returncode == 0, out.stderr
    assert halfnut("machine", "new", "ours", "--system", "inch", cwd=tmp_path).returncode == 0
    (tmp_path / "ours.toml").write_bytes(mark + (tmp_path / "ours.toml").read_bytes())
    assert hn.lathe(tmp_path / "ours.toml").name == "ours"


@pytest.mark.parametrize(
    ("data", "told"),
    [  # 20 bytes of title, 20 of machine, 10 of [[parts]], 12 before the letter; a mark is 3 more
        (JOB.replace("NAME", "Ø").encode("latin-1"), "not UTF-8 text: byte 0xd8 in line 4, byte 63 of the file"),
        (b"\xef\xbb\xbf" + JOB.replace("NAME", "Ø").encode("latin-1"), "byte 0xd8 in line 4, byte 66 of the file"),
        (JOB.encode("utf-16"), "UTF-16 text, by byte 1 of the file"),
        (JOB.encode("utf-16-be"), "not text: byte 0x00, byte 1 of the file"),
    ],
)
@pytest.mark.parametrize(
    "words", [("plan", "job.toml"), ("machine", "check", "job.toml"), ("batch", "drill", "job.toml")]
)
def test_another_encoding_is_refused_in_one_line(tmp_path, data, told, words):
    (tmp_path / "job.toml").write_bytes(data)
    out = halfnut(*words, *(["--out", "out"] if words[0] == "batch" else []), cwd=tmp_path)
    assert out.returncode == 2
    (line,) = out.stderr.decode().splitlines()
    assert line.startswith("halfnut: job.toml: ")
    assert told in line
    assert line.endswith("; save it as UTF-8")


def test_no_control_character_reaches_a_terminal_or_a_page(tmp_path):
    (tmp_path / "job.toml").write_text(JOB.replace("TITLE", TOML_ESCAPE).replace("NAME", TOML_ESCAPE))
    (tmp_path / "bad.toml").write_text(JOB.replace("6061-T6", TOML_ESCAPE))
    (tmp_path / "jobs.csv").write_text(f"thread,note\n{ESCAPE},x\n", encoding="utf-8")
    for words in (
        ("plan", "job.toml", "--out", "sheets"), ("plan", "bad.toml"), ("plan", "job.toml", "--json"),
        ("turn", ESCAPE, "1in"),
        ("turn", "6061-T6", "1in", "--hold", ESCAPE), (ESCAPE,), ("machine", "show", ESCAPE), ("limits", ESCAPE),
        ("batch", "limits", "jobs.csv", "--out", "answers.csv"),
    ):  # fmt: skip
        out = halfnut(*words, cwd=tmp_path, PYTHONIOENCODING="utf-8")
        said = (out.stdout + out.stderr).decode("utf-8")
        assert said
        raw = {each for each in said if (unicodedata.category(each) == "Cc" and each != "\n") or each == "\u202e"}
        assert raw == set(), words
    pages = list((tmp_path / "sheets").glob("*.html"))
    assert len(pages) == 4
    for page in pages:
        found = page.read_text(encoding="utf-8")
        assert not {each for each in found if unicodedata.category(each) == "Cc" and each != "\n"}
        assert SHOWN in found


@given(st.text())
def test_what_is_shown_is_printable_and_plain_text_stays(given_text):
    shown = text.shown(given_text)
    assert not [each for each in shown if unicodedata.category(each) in {"Cc", "Cs", "Zl", "Zp"} and each != "\n"]
    if given_text.isprintable():
        assert shown == given_text


def test_a_notebook_shows_control_characters_written_out():
    planned = hn.plan(job(name=f"pin {ESCAPE}"))
    assert "\x1b" not in planned._repr_html_()


@pytest.mark.parametrize("name", ["=1+1", "+cmd|' /C calc'!A0", "-2+3", "@SUM(A1)", "\t=1", "pin", "-0.5"])
def test_a_name_is_no_formula_in_plan_csv(tmp_path, name):
    planned = hn.plan(job(name=name, number=name))
    planned.write(tmp_path / "sheets")
    (row,) = csv.DictReader(io.StringIO((tmp_path / "sheets" / "plan.csv").read_text(encoding="utf-8")))
    kept = name in ("pin", "-0.5")
    assert row["part"] == (name if kept else f"'{name}")
    assert float(row["spindle_rpm"]) == planned.rows()[0]["spindle_rpm"]


def test_a_text_is_no_formula_in_the_answers_of_a_batch_and_numbers_stay(tmp_path):
    (tmp_path / "jobs.csv").write_text("alloy,diameter_mm,note,x_mm\n=1+1,5,=A1,-3\n6061-T6,5,-4,-3\n")
    assert halfnut("batch", "drill", "jobs.csv", "--out", "answers.csv", cwd=tmp_path).returncode == 1
    first, second = csv.DictReader(io.StringIO((tmp_path / "answers.csv").read_text(encoding="utf-8")))
    assert (first["alloy"], first["note"], float(first["x_mm"])) == ("'=1+1", "'=A1", -3.0)
    assert (second["alloy"], second["note"]) == ("6061-T6", "-4")


def test_an_argument_that_is_not_text_is_refused_in_one_line(tmp_path):
    out = halfnut(b"turn", b"6061\xff", b"1in", cwd=tmp_path)
    assert out.returncode == 2
    assert b"halfnut: word 2 is not UTF-8 text: '6061\\udcff'" in out.stderr


@given(name=st.text(alphabet=st.characters(exclude_categories=["Cs"])))
def test_a_name_in_a_toml_file_reads_back(name, tmp_path_factory):
    path = tmp_path_factory.mktemp("toml") / "file.toml"
    path.write_text(f"name = {text.toml_text(name)}\n", encoding="utf-8")
    assert load_toml(path) == {"name": name}


@pytest.mark.parametrize("name", ['a"b', "a\nmotor = 1", "a\\b", "🔧", "ours", "a\x1b[2J"])
def test_a_machine_file_begun_with_any_name_reads_back(tmp_path, name):
    out = halfnut("machine", "new", name, "--system", "metric", "--out", "file.toml", cwd=tmp_path)
    assert out.returncode == 0, out.stderr
    assert hn.lathe(tmp_path / "file.toml").name == name


@pytest.mark.parametrize("name", ["a\nb", "a/b", "a\x1b[2J"])
def test_a_file_is_not_called_what_no_file_should_be(tmp_path, name):
    out = halfnut("machine", "new", name, "--system", "metric", cwd=tmp_path)
    assert out.returncode == 2
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    "variables", [{"PYTHONIOENCODING": "latin-1"}, {"PYTHONIOENCODING": "ascii"}, {"LC_ALL": "C", "LANG": "C"}]
)
def test_a_terminal_without_the_characters_is_written_to_in_others(tmp_path, variables):
    for words, told in (
        (("speed-chart", "--machine", "gap-bed"), b"v slower than the window" if len(variables) == 1 else b"slower"),
        (("turn", "no alloy ⌀", "1in"), b""),
        (("alloy", "6061-T6"), b"aluminium"),
    ):
        out = halfnut(*words, cwd=tmp_path, **variables)
        assert b"Traceback" not in out.stderr
        assert out.returncode == (2 if words[1] == "no alloy ⌀" else 0)
        assert told in out.stdout
