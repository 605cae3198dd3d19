"""The command: answers first, JSON on request, mistakes in one clear message."""

import json
import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from halfnut import cli
from halfnut.core.questions import declared


def run(*args, env=None, cwd=None):
    """The command in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "halfnut", *args],
        capture_output=True,
        text=True,
        cwd=cwd,
        env={**os.environ, "PYTHONIOENCODING": "utf-8", **(env or {})},
    )


def test_help_names_every_command_and_shows_an_example():
    out = run("--help")
    assert out.returncode == 0
    for name in cli.commands():
        assert f"\n  {name}" in out.stdout
    assert "Example:" in out.stdout
    assert "Exit status:" in out.stdout


@pytest.mark.parametrize("name", cli.commands())
def test_every_command_explains_itself_with_an_example(name):
    out = CliRunner().invoke(cli.command, [name, "--help"])
    assert out.exit_code == 0
    assert "Example:" in out.output
    assert f"halfnut {name}" in out.output


EXAMPLES = [line for name in declared() for line in declared()[name]["example"].splitlines()]


@pytest.mark.parametrize("line", EXAMPLES)
def test_every_example_of_a_question_is_answered(line):
    out = CliRunner().invoke(cli.command, shlex.split(line))
    assert out.exit_code == 0, out.exception or out.output


def test_a_mistyped_command_gets_the_nearest():
    out = run("alooy")
    assert out.returncode == 2
    assert "did you mean 'alloy'?" in out.stderr
    assert "Traceback" not in out.stderr


def test_alloy():
    out = run("alloy", "6061-T6")
    assert out.returncode == 0
    assert out.stdout.splitlines()[0].startswith("6061 T6")
    figures = json.loads(run("alloy", "6061-T6", "--json").stdout)
    assert figures["id"] == "A96061"
    assert figures["evidence"]
    out = run("alloy", "6061-T66")
    assert out.returncode == 2
    assert out.stderr.startswith("halfnut: ")
    assert "6061-T6" in out.stderr


def test_machine_list_and_show():
    assert "gap-bed" in run("machine", "list").stdout
    assert json.loads(run("machine", "list", "--json").stdout)[0].keys() == {"name", "kind", "title"}
    assert run("machine", "show", "gap-bed").stdout.startswith("13 × 36 in gap-bed lathe")
    assert json.loads(run("machine", "show", "gap-bed", "--json").stdout)["spindle"][0]["rpm"] == 43


@pytest.mark.parametrize("system", ["inch", "metric"])
@pytest.mark.parametrize("kind", ["lathe", "mill"])
def test_a_new_machine_file_is_sound_as_written_and_with_everything_filled_in(tmp_path, kind, system):
    out = run("machine", "new", "ours", "--kind", kind, "--system", system, cwd=tmp_path)
    assert out.returncode == 0
    assert "halfnut machine check ours.toml" in out.stdout
    path = tmp_path / "ours.toml"
    checked = run("machine", "check", "ours.toml", cwd=tmp_path)
    assert checked.returncode == 0
    assert "wrong" not in checked.stdout
    path.write_text(path.read_text().replace("#= ", ""))
    filled = run("machine", "check", "ours.toml", "--json", cwd=tmp_path)
    assert filled.returncode == 0
    assert json.loads(filled.stdout)["wrong"] == []
    refused = run("machine", "new", "ours", "--system", system, cwd=tmp_path)
    assert refused.returncode == 2
    assert "stays as it is" in refused.stderr


def test_the_templates_name_every_key_of_a_machine_file():
    from halfnut._core import machine_file_keys
    from halfnut.demo import FOLDER

    text = "".join(path.read_text() for path in sorted((FOLDER / "templates").glob("*.toml")))
    keys = machine_file_keys()
    assert len(keys) >= 70
    assert not [key for key in keys if not re.search(rf"\b{key}\b", text)]


def test_machine_check_tells_wrong_from_unreadable(tmp_path):
    text = 'name = "x"\nkind = "lathe"\nsystem = "inch"\nmotor = "1 hp"\n'
    (tmp_path / "x.toml").write_text(text + "spindle = { steps = [{ rpm = 200 }, { rpm = 100 }] }\n")
    wrong = run("machine", "check", "x.toml", cwd=tmp_path)
    assert wrong.returncode == 1
    assert "spindle[1].rpm" in wrong.stdout
    (tmp_path / "x.toml").write_text(text + "spindel = {}\n")
    unreadable = run("machine", "check", "x.toml", cwd=tmp_path)
    assert unreadable.returncode == 2
    assert "nearest: spindle" in unreadable.stderr


def test_a_shops_tables_and_machines_are_used(tmp_path):
    (tmp_path / "ours.toml").write_text(
        '[[material.aliases]]\nalias = "tube stock"\nalloy = "A96061"\nsource = "our rack"\n'
    )
    out = run("alloy", "tube stock", env={"HALFNUT_SHOP": str(tmp_path)})
    assert out.returncode == 0, out.stderr
    assert "A96061" in out.stdout


def test_turn_answers_as_the_settings_are_made():
    asked = ("turn", "6061-T6", "1.25in", "--machine", "gap-bed", "--length", "2in")
    out = run(*asked)
    assert out.returncode == 0
    spindle, feed, *rest = out.stdout.splitlines()
    assert re.fullmatch(r"\d+ rev/min: back gear out, belt \w+, lever \d", spindle)
    assert re.fullmatch(r"  feed      0\.\d{4} in/rev: range \w, tumbler \d", feed)
    assert [line.split()[0] for line in rest[:2]] == ["depth", "limit"]
    assert not any("window" in line for line in rest)
    why = run(*asked, "--why").stdout
    assert "window" in why and "  left  " in why
    assert "Groover" in run(*asked, "--evidence").stdout


@pytest.mark.parametrize(
    "args",
    [
        ("turn", "6061-T6", "1.25in", "--machine", "gap-bed"),
        ("face", "C36000", "20 mm", "--machine", "metric-lathe"),
        ("bore", "6061-T6", "25mm", "--bar-diameter", "16mm", "--overhang", "60mm"),
        ("part-off", "brass", "20mm", "--blade", "2mm"),
        ("drill", "5083", "#7", "--machine", "bench-mill", "--depth", "12mm"),
        ("ream", "5083", "8mm", "--machine", "bench-mill", "--depth", "12mm"),
        ("tap", "5083", "M6", "--machine", "bench-mill", "--depth", "12mm"),
        ("mill", "7075", "10mm", "--shape", "pocket", "--width", "30mm", "--depth", "8mm"),
        ("knurl-blank", "0.75in", "96 DP"),
        ("limits", "1/4-20 UNC", "--side", "internal", "--engagement", "0.5in"),
        ("fit", "7/8-14 UNF-2A", "7/8-14 UNF-2B", "--coating", "anodise II black 15 um"),
        ("fit", "M10-6g", "M10-6H", "--internal-pitch", "9.1mm", "--engagement", "12mm"),
        ("cut-to-suit", "M10", "--internal-pitch", "9.1mm", "--clearance", "0.02-0.06mm", "--coating", "3-5 um"),
        ("cut-to-suit", "7/8-14 UNF", "--external-pitch", "0.8250in", "--clearance", "0.001in"),
        ("wires", "M10-6g"),
        ("wires", "7/8-14 UNF-2A", "--wire", "0.045in", "--coating", "anodise II black 15 um"),
        ("shop-plug", "M10-6H"),
        ("blind-hole", "M6", "--full-thread", "12mm"),
        ("clearance-hole", "1/4-20 UNC", "close"),
        ("screw-seat", "M6", "--head", "flat"),
        ("tighten", "M10", "--external-grade", "8.8", "--share", "0.75", "--friction", "0.10-0.16"),
        ("judge", "M10-6g", "--pitch", "9.05mm", "--major", "9.9mm"),
        ("judge", "7/8-14 UNF-2A", "--over-wires", "0.8830in", "--wire", "0.040in"),
        ("identify-thread", "0.248in", "20tpi", "--flank-angle", "55"),
        ("identify-thread", "14mm", "2mm", "--side", "internal"),
        ("limits", "M10-6g"),
        ("precoat", "7/8-14 UNF-2B", "anodise II black 15 um", "--on", "6061-T6"),
        ("alloy", "6061-T6"),
    ],
    ids=lambda args: args[0],
)
def test_every_question_answers_in_text_and_in_json(args):
    runner = CliRunner()
    text = runner.invoke(cli.command, list(args))
    assert text.exit_code == 0, text.output
    assert len(text.output.splitlines()) <= 40
    figures = json.loads(runner.invoke(cli.command, [*args, "--json"]).output)
    assert figures["evidence"]
    assert "NaN" not in json.dumps(figures)
    told = runner.invoke(cli.command, [*args, "--evidence"]).output
    assert len(told.splitlines()) > len(text.output.splitlines())


def _said(*args):
    return CliRunner().invoke(cli.command, list(args)).output.splitlines()


def test_fit_answers_in_its_first_line_then_what_mends_it():
    lines = _said("fit", "7/8-14 UNF-2A", "7/8-14 UNF-2B", "--coating", "anodise II black 15 um", "--why")
    assert lines[0] == (
        "7/8-14 UNF-2A in 7/8-14 UNF-2B: screws together, save the rarest pairs: "
        "up to 0.0008 in of interference at the pitch diameter, chance under 0.01 %"
    )
    assert any(line.startswith("  or        cut 7/8-14 UNF-2B to pitch 0.8356/0.8298 in") for line in lines)
    one = json.loads(_run_json("fit", "M10-6g", "M10-6H", "--coating-external", "8 um", "--engagement", "10mm"))
    assert (one["build_up_external_max_um"], one["build_up_internal_max_um"]) == (8.0, 0.0)
    warm = json.loads(
        _run_json(
            *("fit", "M10-6h", "M10-6H", "--temperature", "104F"),
            *("--external-alloy", "6061-T6", "--internal-alloy", "4130 normalised"),
        )
    )
    assert warm["verdict"] == "may bind"


def _run_json(*args):
    out = CliRunner().invoke(cli.command, [*args, "--json"])
    assert out.exit_code == 0, out.output
    return out.output


def test_fit_cuts_to_suit_and_says_what_is_left():
    lines = _said(
        *("cut-to-suit", "M10", "--internal-pitch", "9.1mm", "--clearance", "0.02-0.06mm", "--coating", "3-5 um"),
        *("--over-wires", "10.6mm", "--wire", "0.895mm", "--why"),
    )
    assert lines[0] == "M10x1.5-6g: cut the pitch diameter to 9.060/9.028 mm (0.3567/0.3554 in)"
    assert "  read      10.4157 to 10.4477 mm over 0.8950 mm wires" in lines
    assert any("0.152 to 0.184 mm to come off on a diameter dial" in line for line in lines)
    nut = json.loads(_run_json("cut-to-suit", "7/8-14 UNF", "--external-pitch", "0.8250in", "--clearance", "0.001in"))
    assert nut["side"] == "internal"
    assert nut["plug"]["go_pitch_mm"] == pytest.approx(0.8260 * 25.4)


def test_wires_and_limits_before_coating():
    inch = _said("wires", "7/8-14 UNF-3A", "--coating", "0.0002 in to 0.0003 in")
    assert inch[0].startswith("before coating 7/8-14 UNF-3A: ")
    cut = json.loads(_run_json("precoat", "7/8-14 UNF-3A", "0.0002 in to 0.0003 in"))
    plain = json.loads(_run_json("limits", "7/8-14 UNF-3A"))
    assert plain["pitch_max"] - cut["pitch_max"] == pytest.approx(0.0012)
    kept = _said("precoat", "M10-6g", "8 um", "--gauged-at", "class")
    assert kept[0].startswith("before coating M10x1.5-6g: major 9.952/9.716, pitch 8.962/8.830")
    best = json.loads(_run_json("wires", "M10-6g", "--wire", "best"))
    assert best["wire_mm"] == best["best_wire_mm"]
    old = json.loads(_run_json("limits", "1/4-20 UNC-2A", "--rule", "formula"))
    assert old["pitch_max"] == 0.2164


def test_what_is_near_a_diameter_and_the_nearest_to_a_pitch():
    assert "Tr32x6" in " ".join(_said("threads-near", "32mm"))
    assert "M32x2" in json.loads(_run_json("threads-near", "32mm"))["threads"]
    assert _said("identify-thread", "33mm", "3mm", "--count", "1")[0].startswith("M33x3-6g")


def test_judge_says_what_is_left_on_either_dial():
    lines = _said("judge", "7/8-14 UNF-2A", "--over-wires", "0.8880in", "--wire", "0.040in")
    assert lines[0] == "7/8-14 UNF-2A: not yet: pitch diameter has 0.0028 in to come off"
    assert "0.0028 in on a diameter dial, 0.0014 in on a radius dial" in " ".join(" ".join(lines).split())
    error = json.loads(_run_json("judge", "M10-6g", "--pitch", "8.99mm", "--lead-error", "0.01mm"))
    assert error["functional_pitch_mm"] == pytest.approx(8.99 + 0.01 * 3**0.5)


def test_turn_loads_no_heavy_package():
    code = (
        "import sys; from halfnut.cli import command;"
        "command(['turn', '6061-T6', '1.25in', '--machine', 'gap-bed'], standalone_mode=False);"
        "heavy = {'numpy', 'rich', 'jinja2', 'pandas'};"
        "print(sorted(heavy & {name.split('.')[0] for name in sys.modules}))"
    )
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert out.stdout.splitlines()[-1] == "[]"


@pytest.mark.parametrize(
    ("args", "told"),
    [
        (("turn", "6061-T6", "1.25"), "bare number is never a length"),
        (("turn", "6061-T6", "0in"), "diameter must be > 0 in"),
        (("turn", "6061-T6", "1in", "--machine", "gap-bad"), "did you mean 'gap-bed'"),
        (("turn", "6061-T6", "1in", "--tool", "carbid"), "carbide"),
        (("limits", "M10x1.5-6q"), "6q"),
        (("limits", "M10-6g", "--side", "internal"), "does not name an internal thread"),
        (("fit", "M10-6g", "M10-6H", "--engagement", "10"), "engagement"),
        (("fit", "M10-6g", "M10-6H", "--coating", "anodize two"), "no coating"),
        (("fit", "M10-6h", "M10-6H", "--temperature", "40"), "'40' has no scale"),
        (("fit", "M10-6h", "M10-6H", "--temperature", "warm"), "'warm' is no temperature"),
        (("fit", "M10-6h", "M10-6H", "--temperature", "40C"), "alloy of each part is needed"),
        (("cut-to-suit", "M10", "--clearance", "0.1mm"), "pitch diameter of one part"),
        (("clearance-hole", "M6", "snug"), "fine, medium or coarse"),
        (("wires", "M10-6g", "--wire", "0.5mm"), "best 0.8646 mm"),
        (("wires", "M10-6g", "--set", "ours"), "known: inch, metric"),
        (("shop-plug", "M10-6g"), "does not name an internal thread; the usual one is M10x1.5-6H"),
        (("fit", "M10-6H", "M10-6g"), "M10x1.5-6H does not name an external thread"),
        (("judge", "M10-6g"), "nothing measured"),
        (("judge", "M10-6g", "--pitch", "9.05"), "bare number"),
        (("judge", "M10-6g", "--over-wires", "10.3mm"), "go together"),
        (("limits", "1/4-21"), "the series is wanted"),
        (("precoat", "M10-6g", "anodise II", "--on", "C36000"), "does not go on"),
        (("precoat", "M3-4h", "5-30 um"), "no part can be cut that gauges"),
        (("knurl-blank", "20mm", "0.8"), "mm"),
        (("plan", "nothing.toml"), "No such file"),
    ],
    ids=lambda args: " ".join(args) if isinstance(args, tuple) else "",
)
def test_what_cannot_be_read_ends_with_status_2_and_one_message(args, told, tmp_path):
    out = run(*args, cwd=tmp_path)
    assert out.returncode == 2
    assert told in out.stderr
    assert "Traceback" not in out.stderr
    assert out.stdout == ""


def test_plan_writes_the_demonstration_and_tells_what(tmp_path):
    out = run("plan", "--out", "sheets", cwd=tmp_path)
    assert out.returncode == 0, out.stderr
    lines = out.stdout.splitlines()
    assert lines[0].startswith("Portable truss telescope: ")
    for name in ("index.html", "plan.csv", "plan.json", "truss-tube.html"):
        assert str(Path("sheets") / name) in lines
        assert (tmp_path / "sheets" / name).is_file()
    again = run("plan", "--out", "sheets", cwd=tmp_path)
    assert again.returncode == 2
    assert "stays as it is" in again.stderr
    assert run("plan", "--out", "sheets", "--replace", cwd=tmp_path).returncode == 0


def test_plan_tells_failed_from_unreadable_by_its_status(tmp_path):
    assert run("plan", "--begin", "mine.toml", cwd=tmp_path).returncode == 0
    assert run("plan", "--begin", "mine.toml", cwd=tmp_path).returncode == 2
    path = tmp_path / "mine.toml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace('to = "0.870 in" ', 'to = "1.870 in" ', 1), encoding="utf-8")
    failed = run("plan", "mine.toml", "--out", "sheets", cwd=tmp_path)
    assert failed.returncode == 1
    assert "truss tube, operation 20, line 75: 1.8700 in is not less than what is there, 1.0000 in" in failed.stdout
    assert json.loads(run("plan", "mine.toml", "--json", cwd=tmp_path).stdout)["failed"] == 2  # its thread, too
    path.write_text(text.replace("quantity = 8", "quantty = 8").replace('"6061-T6"', '"6061-T66"'), encoding="utf-8")
    unreadable = run("plan", "mine.toml", "--out", "other", cwd=tmp_path)
    assert unreadable.returncode == 2
    assert "nearest: quantity" in unreadable.stderr
    assert unreadable.stderr.count("6061-T66") >= 2
    assert not (tmp_path / "other").exists()


def test_colour_is_for_terminals_that_want_it(tmp_path):
    import pty

    def on_a_terminal(env):
        leader, follower = pty.openpty()
        command = [sys.executable, "-m", "halfnut", "alloy", "C36000"]
        subprocess.run(command, stdout=follower, check=True, env={**os.environ, "TERM": "xterm", **env})
        os.close(follower)
        text = b""
        while True:
            try:
                text += os.read(leader, 65536)
            except OSError:
                break
            if text.rstrip().endswith(b"keep the dust down") or b"keep the dust down\x1b" in text:
                break
        os.close(leader)
        return text

    assert b"\x1b[" in on_a_terminal({"NO_COLOR": ""})
    assert b"\x1b[" not in on_a_terminal({"NO_COLOR": "1"})


def test_shell_completion_names_the_commands():
    out = run("--help", env={"_HALFNUT_COMPLETE": "bash_source"})
    assert "_halfnut_completion" in out.stdout


def test_choose_says_its_passes_or_what_stands_in_the_way(tmp_path):
    plot = tmp_path / "passes.svg"
    out = run(
        "choose", "turn", "6061-T6", "1.5in", "1.25in", "--length", "2in", "--machine", "gap-bed", "--out", str(plot)
    )
    assert out.returncode == 0, out.stderr
    first, *rest = out.stdout.splitlines()
    assert re.match(r"\d+ passes of 0\.\d{4}", first)
    assert [line.split()[0] for line in rest[:3]] == ["spindle", "feed", "dial"]
    assert "<svg" in plot.read_text()
    slender = ("turn", "1018", "6mm", "5mm", "--length", "200mm", "--stick-out", "220mm", "--machine", "metric-lathe")
    refused = run("choose", *slender, "--tolerance", "0.01mm")
    assert refused.returncode == 1
    assert refused.stdout.startswith("no passes keep every limit")
    assert "times the deflection" in run("choose", *slender, "--tolerance", "0.01mm", "--why").stdout
    figures = json.loads(run("choose", *slender, "--tolerance", "0.01mm", "--json").stdout)
    assert figures["passes"] == []
    factors = {each["name"]: each["factor"] for each in figures["relaxations"]}
    assert factors["deflection"] > 1


def test_chart_prints_a_table_and_writes_a_page(tmp_path):
    page = tmp_path / "chart.html"
    out = run("speed-chart", "--machine", "bench-mill", "--alloy", "5083", "--alloy", "7075", "--out", str(page))
    assert out.returncode == 0, out.stderr
    assert out.stdout.startswith("700 × 180 mm bench mill: spindle speed, rev/min")
    assert "<title>700 × 180 mm bench mill: spindle" in page.read_text()
    speeds = json.loads(run("speed-chart", "--machine", "gap-bed", "--alloy", "6061-T6", "--json").stdout)
    assert set(speeds["spindle_rpm"]) == {"6061-T6"}


@pytest.mark.parametrize("option", ["--hardness", "--spindle-rpm"])
@pytest.mark.parametrize("nothing", ["nan", "inf"])
def test_a_number_that_is_none_is_refused_by_name(option, nothing):
    out = run("turn", "6061-T6", "25mm", option, nothing)
    assert out.returncode == 2
    assert "must be" in out.stderr or f"cannot read '{nothing}'" in out.stderr
    assert option.removeprefix("--").replace("-", "_") in out.stderr
    assert "Traceback" not in out.stderr


@pytest.mark.parametrize("text", ["1_50", "\N{ARABIC-INDIC DIGIT THREE}00", "0150", "\N{FULLWIDTH DIGIT ONE}50"])
@pytest.mark.parametrize(
    "option", [("turn", "1018", "20mm", "--hardness"), ("saw", "1018", "80mm", "1mm", "6mm", "--teeth")]
)
def test_a_number_is_read_as_it_is_written(option, text):
    """Python takes 1_50 for 150 and digits of any script; 0150 may have lost its point."""
    out = run(*option, text)
    assert out.returncode == 2
    assert "is not a valid" in out.stderr or f"cannot read '{text}'" in out.stderr
