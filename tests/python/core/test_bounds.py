"""Bounds on sizes, counts, texts and files: what is beyond them is refused at once, with figures."""

from __future__ import annotations

import math
import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

import halfnut as hn
from halfnut import _core
from halfnut.core import shapes, shop_tables
from halfnut.core.mistakes import InputError
from halfnut.planning import job

# Generous on a loaded machine: what these refuse took from fifteen seconds to for ever.
CPU_SECONDS = 10.0


@contextmanager
def at_once() -> Iterator[None]:
    start = sum(os.times()[:4])  # of this process and those that it started
    yield
    assert sum(os.times()[:4]) - start < CPU_SECONDS


def command(*arguments: str) -> tuple[int, str]:
    with at_once():
        done = subprocess.run(
            [sys.executable, "-m", "halfnut", *arguments], capture_output=True, text=True, check=False
        )
    assert "Traceback" not in done.stderr
    return done.returncode, done.stdout + done.stderr


def refused(ask: Callable[[], Any], kind: type[BaseException] = hn.Error) -> str:
    with at_once(), pytest.raises(kind) as caught:
        ask()
    assert len(str(caught.value)) < 2000
    return str(caught.value)


def marked(folder: Path) -> str:
    """What is said of the one table of a shop folder that cannot be used; warned of at once where it is used."""
    (problem,) = shop_tables.lay_folders(_core.Catalogue(), [folder]).problems
    assert refused(lambda: shop_tables.folder_shop(folder)[0], shop_tables.ShopWarning) == problem.short
    return problem.short


def a_job(**turn: str) -> dict[str, Any]:
    step = {"do": "turn", "to": "20 mm", "length": "30 mm", **turn}
    stock = {"form": "bar", "diameter": "25 mm"}
    part = {"name": "stub", "quantity": 1, "alloy": "6061-T6", "length": "60 mm", "stock": stock, "operations": [step]}
    return {"title": "Truss stubs", "machine": "gap-bed", "parts": [part]}


@pytest.mark.parametrize("size", ["1e11mm", "1e12mm", "1e300 mm", "100.001 m", "1e-7 mm"])
def test_a_size_out_of_bounds_is_refused_before_any_pass_is_counted(size: str) -> None:
    said = refused(lambda: hn.choose("turn", "6061-T6", size, to="25mm", length="2in", machine="gap-bed"))
    assert "0, or from 1e-06 to 100000 mm" in said
    for cut, numbers in (("face", {"diameter": "25 mm"}), ("mill slot", {"diameter": "10 mm"})):
        machine = "gap-bed" if cut == "face" else "bench-mill"
        assert "1e-06 to 100000" in refused(
            lambda cut=cut, numbers=numbers, machine=machine: hn.choose(  # type: ignore[misc]
                cut, "6061-T6", numbers["diameter"], off=size, length="40 mm", machine=machine
            )
        )


def test_the_greatest_size_is_answered_or_refused_for_a_reason_of_its_own() -> None:
    with at_once():
        found = hn.choose("face", "6061-T6", "25 mm", off="100 m", machine="gap-bed")
    assert not found.passes or found.time_s is None or math.isfinite(found.time_s)


@pytest.mark.parametrize(("value", "takes"), [(1e5, True), (math.nextafter(1e5, math.inf), False), (0.0, True)])
def test_a_length_made_of_a_number_keeps_the_same_bounds(value: float, takes: bool) -> None:
    if takes:
        assert hn.mm(value).mm == value
    else:
        assert "from 1e-06 to 100000 mm, got" in refused(lambda: hn.mm(value))
    for bad in (math.nan, math.inf, -math.inf):
        refused(lambda bad=bad: hn.mm(bad))  # type: ignore[misc]


def test_formulas_and_their_arrays_keep_the_bounds_of_the_unit() -> None:
    greatest = 1e5
    assert math.isfinite(hn.cutting.spindle_speed_rpm(100.0, greatest))
    said = refused(lambda: hn.cutting.spindle_speed_rpm([100.0, 100.0], [10.0, 1.001e5]))
    assert "diameter_mm must be from 1e-06 to 100000 mm, got 100100 mm at index 1" in said


def test_a_batch_marks_the_row_that_a_scalar_refuses() -> None:
    rows = {"alloy": ["6061-T6"] * 4, "diameter_mm": [20.0, 1e5, 1.001e5, 1e-7], "depth_mm": [1.0] * 4}
    done = hn.batch.turn(rows, machine="gap-bed")
    why = hn.batch.reasons(done, "turn", rows)
    assert why == {
        1: "the work is over the swing of the machine",  # within bounds
        2: "diameter_mm must be from 1e-06 to 100000 mm, got 100100 mm",
        3: "diameter_mm must be from 1e-06 to 100000 mm, got 1e-07 mm",
    }
    assert [bool(code) for code in done["status"]] == [False, True, True, True]


@pytest.mark.parametrize("bytes_", [100_000, 1_000_000])
def test_a_name_of_a_hundred_thousand_letters_is_refused_at_once(bytes_: int) -> None:
    name = "x" * bytes_
    assert f"alloy must be at most 200 bytes, got {bytes_}" in refused(lambda: hn.turn(name, "20 mm"))
    assert "at most" in refused(lambda: hn.limits(name))
    assert "at most" in refused(lambda: hn.turn("6061-T6", name))
    assert "at most" in refused(lambda: hn.turn("6061-T6", "20 mm", machine=name))
    data = a_job()
    data["parts"][0]["alloy"] = name
    assert "parts[0].alloy: must be at most 1000 bytes" in refused(lambda: job.load(data), InputError)


def test_a_depth_that_makes_millions_of_passes_is_refused_with_figures() -> None:
    # 2.5 mm on the radius in steps of a millionth: 2.5 million passes; at most ten thousand, so 0.00025 mm
    data = a_job(depth="1e-6 mm", finish="no")
    del data["parts"][0]["operations"][0]["finish"]
    with at_once():
        plan = hn.plan(data)
    said = str(plan)
    assert "2500000 passes; at most 10000" in said, said


@pytest.mark.parametrize(
    "text",
    [
        ".".join(["a"] * 100_000) + " = 1\n",
        "a = " + "[" * 500 + "]" * 500 + "\n",
        "a = " + "{b=" * 500 + "1" + "}" * 500 + "\n",
        "[" + ".".join(["a"] * 5000) + "]\n",
        "quantity = " + "9" * 5000 + "\n",
        'title = "' + "x" * 2_000_000 + '"\n',
    ],
    ids=["dotted key", "lists", "tables", "header", "digits", "large"],
)
def test_a_file_no_person_writes_is_refused_at_once(text: str, tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    file.write_text(text)
    assert str(file) in refused(lambda: shapes.load_toml(file), InputError)
    assert command("plan", str(file))[0] == 2
    (tmp_path / "shop").mkdir()
    (tmp_path / "shop" / "own.toml").write_text(text)
    assert "own.toml: the table cannot be used: " in marked(tmp_path / "shop")


def test_dots_and_brackets_in_texts_mean_nothing(tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    file.write_text('note = "' + "see. " * 100 + "[" * 60 + '"\nmore = """\n' + "x.y = [" * 60 + '"""\n# ' + "[." * 90)
    assert set(shapes.load_toml(file)) == {"note", "more"}


@pytest.mark.parametrize(("value", "takes"), [(1_000_000, True), (1_000_001, False), (10**400, False), (0, False)])
def test_a_count_in_a_job_has_its_bounds(value: int, takes: bool) -> None:
    data = a_job()
    data["parts"][0]["quantity"] = value
    if takes:
        assert job.load(data)[0].parts[0].quantity == value
    else:
        said = refused(lambda: job.load(data), InputError)
        assert "stub: quantity" in said or "parts[0].quantity" in said  # beyond what the reader of shapes takes
        assert "at most" in said or "more than 0" in said


def test_lists_and_texts_in_a_job_have_their_bounds() -> None:
    most = _core.bounds()
    data = a_job()
    step = data["parts"][0]["operations"][0]
    data["parts"][0]["operations"] = [step] * most["items"]
    assert len(job.load(data)[0].parts[0].operations) == most["items"]
    data["parts"][0]["operations"] = [step] * (most["items"] + 1)
    assert "parts[0].operations: must have at most 1000 entries" in refused(lambda: job.load(data), InputError)
    data = a_job()
    data["title"] = "x" * most["text_bytes"]
    job.load(data)
    data["title"] += "x"
    assert "title: must be at most 1000 bytes, got 1001" in refused(lambda: job.load(data), InputError)


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no /dev/zero")
def test_a_device_is_no_job_file() -> None:
    assert "not a plain file" in refused(lambda: shapes.load_toml(Path("/dev/zero")), InputError)
    assert command("plan", "/dev/zero")[0] == 2


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names")
@pytest.mark.parametrize("name", ["own.toml", "material/alloys.csv"])
def test_a_pipe_in_a_shop_folder_is_refused(name: str, tmp_path: Path) -> None:
    (tmp_path / name).parent.mkdir(exist_ok=True)
    os.mkfifo(tmp_path / name)
    assert "not a plain file" in marked(tmp_path)


def test_a_table_larger_than_its_bound_is_refused(tmp_path: Path) -> None:
    (tmp_path / "material").mkdir()
    (tmp_path / "material" / "alloys.csv").write_text("# note: x\n" * 100_001)
    assert "larger than 1000000 bytes" in marked(tmp_path)


@pytest.mark.parametrize(
    "arguments",
    [
        ("gear-train", "1.5 mm", "--gears", "²", "--leadscrew", "8 TPI"),
        ("gear-train", "1.5 mm", "--gears", "20,99999999999", "--leadscrew", "8 TPI"),
        ("gear-train", "1.5 mm", "--gears", ",".join(["40"] * 2_000), "--leadscrew", "8 TPI"),
        ("gear-train", "1.5 mm", "--machine", "gap-bed", "--most", "99999999999999999999"),
        ("identify-thread", "14mm", "1.5mm", "--count", "99999999999999999999"),
        ("identify-thread", "14mm", "1.5mm", "--count", "0"),
        ("choose", "mill slot", "6061-T6", "10mm", "--flutes", "99999999999999999999"),
        ("turn", "6061-T6", "20mm", "--machine", "x" * 300),
        ("groove", "6061-T6", "30 mm", "24 mm", "--width", "1e308mm"),
        ("tool-life", "1045", "--life", "1e-320"),
    ],
    ids=lambda arguments: " ".join(arguments)[:40],
)
def test_absurd_counts_end_with_a_sentence(arguments: tuple[str, ...]) -> None:
    code, output = command(*arguments)
    assert code == 2, output
    assert output.strip()
