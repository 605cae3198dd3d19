"""halfnut batch: a file of jobs in, a file of answers out."""

import csv

import numpy as np
import pytest
from click.testing import CliRunner

import halfnut as hn
from halfnut import cli

JOBS = """part,alloy,diameter_in,depth_in,feed_in_rev
knob,6061-T6,1.25,0.040,0.004
pin,4130 normalised,0.5,0.02,
"bad, one",6061-T6,-1,0.04,0.004
unread,6061-T6,wide,0.04,0.004
unheard,unobtainium,1,0.04,0.004
"""


def run(*arguments):
    return CliRunner().invoke(cli.command, [str(each) for each in arguments])


@pytest.fixture
def jobs(tmp_path):
    path = tmp_path / "jobs.csv"
    path.write_text(JOBS, "utf-8")
    return path


def test_a_file_is_answered_row_by_row(jobs, tmp_path):
    out = tmp_path / "answers.csv"
    ended = run("batch", "turn", jobs, "--machine", "gap-bed", "--out", out)
    assert ended.exit_code == 1, ended.output
    assert "2 of 5 rows answered" in ended.output
    with out.open(newline="", encoding="utf-8") as stream:
        rows = list(csv.DictReader(stream))
    assert [row["part"] for row in rows] == ["knob", "pin", "bad, one", "unread", "unheard"]
    assert [row["status"] for row in rows] == ["0", "0", "2", "1", "4"]
    one = hn.turn("6061-T6", "1.25 in", depth="0.040 in", feed="0.004 in/rev", machine="gap-bed")
    assert float(rows[0]["spindle_rpm"]) == one.spindle_rpm
    assert float(rows[0]["cutting_force_n"]) == one.cutting_force_n
    assert rows[0]["cautions"].split() == [item.code for item in one.cautions if item.code in rows[0]["cautions"]]
    assert rows[2]["cutting_force_n"] == ""
    assert rows[2]["reason"] == "diameter_mm must be from 1e-06 to 100000 mm, got -1 in"
    assert rows[3]["reason"] == "diameter_mm must be from 1e-06 to 100000 mm, got inf in"
    assert rows[4]["reason"].startswith("no alloy 'unobtainium'")
    assert sorted(tmp_path.iterdir()) == sorted([jobs, out])


def test_an_earlier_file_is_kept(jobs, tmp_path):
    out = tmp_path / "answers.csv"
    out.write_text("mine", "utf-8")
    ended = run("batch", "turn", jobs, "--out", out)
    assert isinstance(ended.exception, hn.DomainError)
    assert "--replace" in str(ended.exception)
    assert out.read_text("utf-8") == "mine"
    assert run("batch", "turn", jobs, "--out", out, "--replace").exit_code == 1
    assert out.read_text("utf-8") != "mine"


def test_a_run_that_fails_leaves_no_file(jobs, tmp_path, monkeypatch):
    from halfnut.cli import batches

    def stop(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr(batches, "_write", stop)
    run("batch", "turn", jobs, "--out", tmp_path / "answers.csv")
    assert sorted(tmp_path.iterdir()) == [jobs]


def test_parquet(jobs, tmp_path):
    import pyarrow as pa
    import pyarrow.parquet

    table = {"alloy": ["6061-T6", "304"], "diameter_mm": [32.0, 20.0], "part": ["a", "b"]}
    pyarrow.parquet.write_table(pa.table(table), tmp_path / "jobs.parquet")
    ended = run("batch", "turn", tmp_path / "jobs.parquet", "--machine", "gap-bed", "--out", tmp_path / "out.parquet")
    assert ended.exit_code == 0, ended.output
    done = pyarrow.parquet.read_table(tmp_path / "out.parquet").to_pydict()
    want = hn.batch.turn(table, machine="gap-bed")
    assert done["cutting_force_n"] == want["cutting_force_n"].tolist()
    assert done["part"] == ["a", "b"]


def test_threads_and_knurls(tmp_path):
    (tmp_path / "threads.csv").write_text("thread\nM10-6g\nnonsense\n", "utf-8")
    assert run("batch", "limits", tmp_path / "threads.csv", "--out", tmp_path / "limits.csv").exit_code == 1
    with (tmp_path / "limits.csv").open(newline="", encoding="utf-8") as stream:
        rows = list(csv.DictReader(stream))
    assert float(rows[0]["pitch_max_mm"]) == hn.limits("M10-6g").pitch_max
    assert rows[1]["reason"].startswith("cannot read 'nonsense' at position")
    (tmp_path / "knobs.csv").write_text("diameter_mm\n12.7\n", "utf-8")
    ended = run(
        "batch", "knurl-blank", tmp_path / "knobs.csv", "--pitch", "96 DP", "--pattern", "straight", "--out",
        tmp_path / "knurls.csv",
    )  # fmt: skip
    assert ended.exit_code == 0, ended.output
    with (tmp_path / "knurls.csv").open(newline="", encoding="utf-8") as stream:
        assert float(next(csv.DictReader(stream))["teeth"]) == 48.0


def test_any_question_is_asked_of_a_file(tmp_path):
    (tmp_path / "bores.csv").write_text("diameter_in,note\n1,a\n-1,b\n", "utf-8")
    ended = run("batch", "bore", tmp_path / "bores.csv", "--alloy", "brass", "--out", tmp_path / "out.csv")
    assert ended.exit_code == 1, ended.output
    with (tmp_path / "out.csv").open(newline="", encoding="utf-8") as stream:
        first, second = csv.DictReader(stream)
    assert float(first["cutting_force_n"]) == hn.bore("brass", "1 in").cutting_force_n
    assert (first["note"], first["reason"], second["note"]) == ("a", "", "b")
    assert second["reason"].startswith("diameter must be > 0")
    wrong = run("batch", "bor", tmp_path / "bores.csv", "--out", tmp_path / "new.csv")
    assert "did you mean 'bore'" in str(wrong.exception)


@pytest.mark.parametrize(
    ("text", "arguments", "words"),
    [
        ("diameter\n20\n", (), "has no unit"),
        ("diameter_mm,diameter_mm\n20,20\n", (), "name each column once"),
        ("diameter_mm\n20,30\n", (), ":2: 2 cells for 1 columns"),
        ("", (), "name each column once"),
        ("diameter_mm\n20\n", ("--pitch", "96 DP"), "does not go with turn"),
    ],
)
def test_files_that_are_not_understood(tmp_path, text, arguments, words):
    (tmp_path / "jobs.csv").write_text(text, "utf-8")
    ended = run("batch", "turn", tmp_path / "jobs.csv", "--alloy", "1018", "--out", tmp_path / "out.csv", *arguments)
    assert isinstance(ended.exception, hn.DomainError)
    assert words in str(ended.exception)
    assert not (tmp_path / "out.csv").exists()


def test_numbers_come_through_whole(tmp_path):
    values = np.random.default_rng(1).uniform(5.0, 50.0, 50)
    (tmp_path / "jobs.csv").write_text("diameter_mm\n" + "\n".join(map(repr, values.tolist())), "utf-8")
    run(
        "batch", "turn", tmp_path / "jobs.csv", "--alloy", "1018", "--machine", "gap-bed", "--out", tmp_path / "out.csv"
    )
    want = hn.batch.turn({"diameter_mm": values}, alloy="1018", machine="gap-bed")
    with (tmp_path / "out.csv").open(newline="", encoding="utf-8") as stream:
        got = [float(row["spindle_power_kw"]) for row in csv.DictReader(stream)]
    assert got == want["spindle_power_kw"].tolist()


@pytest.mark.parametrize(
    "cell", ["1_5", "08", "\N{FULLWIDTH DIGIT ONE}5", "\N{ARABIC-INDIC DIGIT THREE}", "nan", "0x1f", "1e", "."]
)
def test_a_cell_that_only_python_takes_for_a_number_marks_its_row(cell, tmp_path):
    """1_5 would be 15, 08 may be .8: neither is guessed."""
    (tmp_path / "jobs.csv").write_text(f"alloy,diameter_mm\n1018,{cell}\n1018,20\n", "utf-8")
    out = tmp_path / "answers.csv"
    assert run("batch", "turn", tmp_path / "jobs.csv", "--out", out).exit_code == 1
    with out.open(newline="", encoding="utf-8") as stream:
        assert [row["status"] == "0" for row in csv.DictReader(stream)] == [False, True]
