"""How the command ends when it does not answer: the statuses of README, one line, JSON where JSON was asked for."""

import json
import os
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from halfnut import cli
from halfnut.cli import failures
from halfnut.core.extras import MissingExtraError

ADJUSTER = [
    *("adjuster", "7/8-14 UNF-2A", "7/8-14 UNF-2B", "--thread-length", "2in", "--base-thread", "1.25in"),
    *("--length-of-tube", "20in", "--tube-diameter", "1in", "--alloy", "6061-T6", "--form", "drawn tube"),
    *("--base-outside", "1.5in", "--base-reach", "1.5in", "--push", "60lbf", "--pull", "40lbf"),
    *("--factor-of-safety", "4", "--bore", "0.624in", "--rule-diameters", "1"),
]
CHOOSE = ["choose", "turn", "6061-T6", "1.5in", "1.25in", "--length", "2in", "--machine", "gap-bed"]
WRITERS = {
    "adjuster": ([*ADJUSTER, "--out"], "page.html"),
    "batch": (["batch", "turn", "jobs.csv", "--alloy", "1018", "--out"], "answers.csv"),
    "chart": (["speed-chart", "--machine", "bench-mill", "--alloy", "5083", "--out"], "chart.html"),
    "choose": ([*CHOOSE, "--out"], "passes.svg"),
    "gears": (["gear-train", "M24x1.5-6g", "--machine", "gap-bed", "--out"], "train.svg"),
    "machine new": (["machine", "new", "ours", "--system", "metric", "--out"], "ours.toml"),
    "plan --begin": (["plan", "--begin"], "job.toml"),
}


@pytest.fixture
def room(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "jobs.csv").write_text("diameter_mm\n20\n", "utf-8")
    return tmp_path


@pytest.fixture
def run(capfd):
    def call(*arguments):
        with pytest.raises(SystemExit) as end:
            cli.main([str(each) for each in arguments])
        out, told = capfd.readouterr()
        return end.value.code, out, told

    return call


def in_process(*arguments, **how):
    return subprocess.run([sys.executable, "-m", "halfnut", *arguments], capture_output=True, text=True, **how)


@pytest.mark.parametrize("writer", WRITERS)
def test_every_writer_keeps_what_is_there(room, run, writer):
    """Not over a file without --replace, over nothing but a plain file with it, not into a folder that is not there."""
    arguments, name = WRITERS[writer]
    (room / name).write_text("mine", "utf-8")
    (room / "link").symlink_to(name)
    os.mkfifo(room / "pipe")
    for place, told in ((name, "stays as it is; --replace"), ("link", "is a link"), ("pipe", "is a pipe")):
        status, out, words = run(*arguments, place)
        assert (status, out) == (2, ""), words
        assert told in words
    for place, told in (
        ("link", "is a link"),
        (".", "is a folder"),
        ("no/x.svg", "there is no folder no; make it"),
    ):
        status, out, words = run(*arguments, place, "--replace")
        assert (status, out) == (2, ""), words
        assert told in words
    assert (room / name).read_text("utf-8") == "mine"
    assert not (room / "no").exists()
    before = os.umask(0o022)
    try:
        status, _, words = run(*arguments, name, "--replace")
    finally:
        os.umask(before)
    assert status == 0, words
    assert len((room / name).read_text("utf-8")) > 20
    assert sorted(path.name for path in room.iterdir()) == sorted(["jobs.csv", "link", "pipe", name])
    (room / name).unlink()
    assert run(*arguments, name)[0] == 0
    assert (room / name).stat().st_mode & 0o777 == 0o644


@pytest.mark.parametrize("writer", WRITERS)
def test_a_dash_is_standard_output_and_nothing_else_is_there(room, run, writer):
    arguments, name = WRITERS[writer]
    status, printed, words = run(*arguments, "-")
    assert status == 0, words
    assert run(*arguments, name)[0] == 0
    written = (room / name).read_bytes().decode("utf-8")
    if writer == "choose":  # matplotlib names what it clips anew each time
        printed, written = printed[:400], written[:400]
    assert printed == written
    assert not (room / "-").exists()
    status, out, words = run(*arguments, "-", "--replace")
    assert (status, out) == (2, "")
    assert "--replace goes with a file" in words


@pytest.mark.parametrize("writer", ["adjuster", "chart", "choose", "gears"])
def test_two_answers_do_not_share_standard_output(room, run, writer):
    status, out, words = run(*WRITERS[writer][0], "-", "--json")
    assert (status, out) == (2, "")
    assert "cannot both go to standard output" in json.loads(words)["error"]["message"]


def test_a_picture_is_of_a_kind_that_can_be_drawn(room, run):
    status, _, words = run(*CHOOSE, "--out", "passes.xyz")
    assert status == 2
    assert ".xyz" in words
    assert "svg" in words
    assert [path.name for path in room.iterdir()] == ["jobs.csv"]


def test_plan_writes_the_folder_that_is_named_also_with_json(room, run):
    status, out, words = run("plan", "--out", "sheets", "--json")
    assert status == 0, words
    printed = json.loads(out)
    assert printed["parts"]
    kept = json.loads((room / "sheets" / "plan.json").read_text("utf-8"))
    assert kept["parts"] == printed["parts"]
    assert run("plan", "--json")[0] == 0
    assert sorted(path.name for path in room.iterdir()) == ["jobs.csv", "sheets"]
    for wrong in (
        ["--out", "-"],
        ["--json", "--replace"],
        ["--begin", "x.toml", "--out", "y"],
        ["--begin", "-", "--json"],
    ):
        status, out, _ = run("plan", *wrong)
        assert (status, out) == (2, "")


JSON = [
    ["alloy", "6061-T6"],
    ["bore", "6061-T6", "25mm", "--bar-diameter", "16mm", "--overhang", "60mm"],
    ["chase", "M10x1.5-6g", "--machine", "gap-bed", "--alloy", "6061-T6"],
    ["tool-life", "1018", "--machine", "gap-bed", "--diameter", "2in", "--life", "60"],
    ["face", "C36000", "20 mm", "--machine", "metric-lathe"],
    ["fit", "M10-6g", "M10-6H"],
    ["gear-train", "M24x1.5-6g", "--machine", "gap-bed"],
    ["translating-pairs", "--machine", "gap-bed"],
    ["hold", "6061-T6", "1.25in", "--stick-out", "3in"],
    ["holding-taper", "morse 3"],
    ["blind-hole", "M6", "--full-thread", "12mm"],
    ["tapping-hole", "G1/4"],
    ["identify-thread", "14mm", "2mm"],
    ["threads-near", "32mm"],
    ["judge", "M10-6g", "--pitch", "8.99mm"],
    ["knurl-blank", "20mm", "RGE 0.8"],
    ["suitable-wheels", "0.5in"],
    ["limits", "M10-6g"],
    ["machine", "check", "gap-bed"],
    ["machine", "list"],
    ["machine", "show", "gap-bed"],
    ["plan"],
    ["saw", "6061-T6", "80mm", "1mm", "6mm", "--teeth", "48", "--length", "50mm", "--machine", "bench-mill"],
    ["preferred-fits"],
    ["cylindrical-fit", "25 H7/g6"],
    [
        "strength",
        "M10-6g",
        "M10-6H",
        "--engagement",
        "15mm",
        "--external-grade",
        "8.8",
        "--internal-alloy",
        "6061-T6",
        "--internal-form",
        "bar",
    ],
    ["taper", "1018", "1in", "0.84375in", "3in", "--machine", "gap-bed"],
    ["taper-pipe", "1/4-18 NPT"],
    ["tighten", "M10", "--preload", "20kN", "--friction", "0.10-0.16"],
    ["turn", "6061-T6", "1.25in", "--machine", "gap-bed"],
    ["wires", "M10-6g"],
    ADJUSTER,
    CHOOSE,
    WRITERS["chart"][0][:-1],
]


@pytest.mark.parametrize("arguments", JSON, ids=lambda words: " ".join(words[:2]))
def test_with_json_an_answer_is_json_and_a_failure_is_json_on_standard_error(room, run, arguments):
    status, out, told = run(*arguments, "--json")
    assert (status, told) == (0, "")
    json.loads(out, parse_constant=pytest.fail)
    status, out, told = run(*arguments, "--no-such-option", "--json")
    assert (status, out) == (2, "")
    assert json.loads(told)["error"]["code"] == "usage"


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (["turn", "6061-T6", "0in"], "domain"),
        (["turn", "6061-T6", "1.25"], "unit"),
        (["turn", "unobtainium", "1in"], "not_tabulated"),
        (["limits", "M10x1.5-6q"], None),
        (["limits", "?"], "designation"),
        (["plan", "empty.toml"], "input"),
        (["nothing"], "usage"),
        (["turn"], "usage"),
        (["alloy", "a\udcffb"], "usage"),
        (["alloy", "a\0b"], "usage"),
    ],
)
def test_a_wrong_question_ends_with_2(room, run, arguments, code):
    (room / "empty.toml").write_text("", "utf-8")
    status, out, told = run(*arguments)
    assert (status, out) == (2, "")
    assert told.startswith("halfnut: ")
    status, out, told = run(*arguments, "--json")
    assert (status, out) == (2, "")
    error = json.loads(told)["error"]
    assert set(error) == {"code", "message"}
    assert code in (error["code"], None)


FAULTS = [
    (OSError(28, "No space left on device"), "file", "standard output: No space left on device"),
    (PermissionError(13, "Permission denied", "jobs.csv"), "file", "jobs.csv: Permission denied"),
    (UnicodeDecodeError("utf-8", b"\xff", 0, 1, "invalid start byte"), "file", "is not utf-8 text"),
    (MemoryError(), "memory", "not enough memory"),
    (RecursionError("maximum recursion depth exceeded"), "too_deep", "nested too deeply"),
    (MissingExtraError("plot", "matplotlib"), "missing_package", "pip install 'halfnut[plot]'"),
    (ModuleNotFoundError("No module named 'x'", name="x"), "missing_package", "No module named 'x'"),
    (AssertionError(), "unforeseen", "unforeseen AssertionError; HALFNUT_TRACEBACK=1 shows where"),
    (TypeError("line\nline"), "unforeseen", "unforeseen TypeError: line line; HALFNUT_TRACEBACK=1"),
    (KeyError("x"), "unforeseen", "KeyError"),
]


@pytest.mark.parametrize(("fault", "code", "words"), FAULTS, ids=lambda each: type(each).__name__)
def test_what_halfnut_cannot_do_ends_with_3_and_one_line(monkeypatch, run, fault, code, words):
    def fail(*_, **__):
        raise fault

    monkeypatch.setattr(cli.command, "invoke", fail)
    status, out, told = run("turn", "6061-T6", "1in")
    assert (status, out) == (3, "")
    assert told.startswith("halfnut: ")
    assert told.count("\n") == 1
    assert words in told
    status, out, told = run("turn", "6061-T6", "1in", "--json")
    assert (status, out) == (3, "")
    assert json.loads(told)["error"]["code"] == code
    monkeypatch.setenv("HALFNUT_TRACEBACK", "1")
    status, out, told = run("turn", "6061-T6", "1in")
    assert (status, out) == (3, "")
    assert "Traceback" in told
    assert told.splitlines()[-1].startswith("halfnut: ")


def test_a_full_disk_behind_standard_output_is_told():
    if not Path("/dev/full").exists():
        pytest.skip("no device that is always full")
    with Path("/dev/full").open("w") as full:
        for arguments in (["turn", "6061-T6", "1in"], ["preferred-fits", "--json"], ["--help"]):
            done = subprocess.run(
                [sys.executable, "-m", "halfnut", *arguments], stdout=full, stderr=subprocess.PIPE, text=True
            )
            assert done.returncode == 3, done.stderr
            assert "standard output: No space left on device" in done.stderr
            assert "Traceback" not in done.stderr
            assert "Exception ignored" not in done.stderr


def test_a_reader_that_goes_is_let_go():
    reader, writer = os.pipe()
    os.close(reader)
    done = subprocess.run(
        [sys.executable, "-m", "halfnut", "turn", "6061-T6", "1in"], stdout=writer, stderr=subprocess.PIPE, text=True
    )
    os.close(writer)
    assert (done.returncode, done.stderr) == (3, "")


def test_ctrl_c_ends_with_130_and_one_line(tmp_path):
    code = (
        "import sys, time\nfrom halfnut import cli\n"
        "def wait(*_, **__):\n    print('now', flush=True)\n    time.sleep(60)\n"
        "cli.command.invoke = wait\ncli.main(['plan'])\n"
    )
    child = subprocess.Popen(
        [sys.executable, "-c", code], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, cwd=tmp_path
    )
    assert child.stdout.readline() == "now\n"
    time.sleep(0.1)
    child.send_signal(signal.SIGINT)
    _, told = child.communicate(timeout=60)
    assert child.returncode == 130
    assert told.strip() == "halfnut: stopped"


def test_the_help_of_every_command_ends_with_0(run):
    for words in (["--help"], ["machine", "--help"], *([name, "--help"] for name in cli.commands())):
        status, out, told = run(*words)
        assert (status, told) == (0, "")
        assert out.startswith("Usage: halfnut")
    for words in ([], ["machine"]):
        status, out, told = run(*words)
        assert (status, out) == (2, "")
        assert told.startswith("Usage: halfnut")


def test_readme_and_help_list_the_same_statuses(run):
    readme = (Path(__file__).resolve().parents[3] / "README.md").read_text("utf-8")
    listed = set(re.findall(r"^\| (\d+) \|", readme, re.MULTILINE))
    shown = set(re.findall(r"^\s+(\d+)  \w", run("--help")[1], re.MULTILINE))
    used = {failures.ANSWERED, failures.MARKED, failures.WRONG, failures.UNABLE, failures.INTERRUPTED}
    assert listed == shown == set(map(str, used))
