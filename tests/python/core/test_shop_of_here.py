"""Which shop answers: one rule for Python and the command, and no thread changes another's answers."""

import asyncio
import contextvars
import json
import subprocess
import sys
import threading
import warnings

import numpy as np
import pytest

import halfnut as hn
from halfnut import _core, batch
from halfnut.core import catalogue, shop_tables
from halfnut.core.questions import placed


def alloy_row():
    return next(row for row in catalogue.rows("material/alloys") if row["id"] == hn.alloy("6061-T6").id)


def shop_folder(path, forces_n_mm2):
    """A shop whose 6061-T6 cuts with its own force."""
    path.mkdir(exist_ok=True)
    own = alloy_row()
    keys = {key: value for key, value in own.items() if value is not None and not key.endswith("source")}
    lines = [f"{key} = {json.dumps(value)}" for key, value in keys.items() if key != "kc11_n_mm2"]
    sources = [f'{key} = "our own trials"' for key in own if key.endswith("source")]
    text = "\n".join(["[[material.alloys]]", *lines, f"kc11_n_mm2 = {forces_n_mm2}", *sources])
    (path / "ours.toml").write_text(text + "\n", encoding="utf-8")
    return path


def heavier(folder):
    """The force by the folder's tables, handed to the core themselves."""
    tables, _ = shop_tables.folder_shop(folder)
    asked = placed("turn", alloy="6061-T6", diameter="32 mm", depth="1 mm", feed="0.2 mm/rev")
    return _core.ask("turn", asked, tables).figure("cutting_force_n")


def force():
    return hn.turn("6061-T6", "32 mm", depth="1 mm", feed="0.2 mm/rev").cutting_force_n


@pytest.fixture
def heavy(tmp_path):
    """A shop folder with twice the force."""
    return shop_folder(tmp_path / "heavy", 2 * alloy_row()["kc11_n_mm2"])


def test_the_environment_counts_in_python_as_for_the_command(heavy, monkeypatch):
    bare = force()
    monkeypatch.setenv(catalogue.FOLDER_VARIABLE, str(heavy))
    assert force() == heavier(heavy)
    question = ["turn", "6061-T6", "32mm", "--depth", "1mm", "--feed", "0.2mm/rev", "--json"]
    done = subprocess.run([sys.executable, "-m", "halfnut", *question], capture_output=True, text=True, check=True)
    assert json.loads(done.stdout)["cutting_force_n"] == force()
    with hn.shop(None):
        assert force() == bare
    assert force() == heavier(heavy)


def test_a_folder_that_is_not_there_is_said_at_the_first_question(tmp_path, monkeypatch):
    monkeypatch.setenv(catalogue.FOLDER_VARIABLE, str(tmp_path / "gone"))
    with pytest.raises(hn.TableError, match="gone: no such shop folder"):
        force()
    with hn.shop(None):
        assert force() > 0
    with pytest.raises(hn.TableError, match="none: no such shop folder"), hn.shop(tmp_path / "none"):
        pass


def test_a_shop_holds_inside_its_block_only(heavy):
    bare = force()
    with hn.shop(heavy) as tables:
        assert tables is catalogue.active()
        assert force() == heavier(heavy)
        with hn.shop(None):
            assert force() == bare
        assert force() == heavier(heavy)
    assert force() == bare
    with pytest.raises(ZeroDivisionError), hn.shop(heavy):
        raise ZeroDivisionError
    assert force() == bare


def test_machines_of_the_shop_are_found_inside(tmp_path):
    folder = tmp_path / "ours"
    (folder / "machines").mkdir(parents=True)
    text = (hn.lathe("gap-bed").path).read_text(encoding="utf-8").replace('name = "gap-bed"', 'name = "bigger"')
    (folder / "machines" / "bigger.toml").write_text(text, encoding="utf-8")
    with hn.shop(folder):
        assert hn.lathe("bigger").name == "bigger"
    with pytest.raises(hn.NotTabulatedError, match="no machine 'bigger'"):
        hn.lathe("bigger")


def test_a_thread_never_sees_what_another_switches(heavy):
    bare = force()
    begin = threading.Barrier(2)
    wrong = []

    def switches():
        begin.wait()
        for _ in range(1000):
            with hn.shop(None):
                pass
            with hn.shop(heavy):
                pass

    def asks():
        begin.wait()
        wrong.extend(found for found in (force() for _ in range(1000)) if found != bare)

    threads = [threading.Thread(target=each) for each in (switches, asks)]
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    assert wrong == []


def test_a_thread_begins_with_the_shop_of_the_process_and_may_take_its_starters(heavy):
    bare = force()
    found = {}

    def ask(name):
        found[name] = force()

    with hn.shop(heavy):
        here = contextvars.copy_context()
        own = threading.Thread(target=contextvars.Context().run, args=(ask, "own"))
        taken = threading.Thread(target=here.run, args=(ask, "taken"))
        for each in (own, taken):
            each.start()
            each.join()
    assert found == {"own": bare, "taken": heavier(heavy)}


def test_tasks_keep_their_own_shop(heavy):
    bare = force()

    async def ask(folder):
        found = set()
        with hn.shop(folder):
            for _ in range(20):
                await asyncio.sleep(0)
                found.add(force())
                found.add(await asyncio.to_thread(force))
        return found

    async def both():
        return await asyncio.gather(ask(None), ask(heavy))

    without, with_it = asyncio.run(both())
    assert without == {bare}
    assert len(with_it) == 1
    assert with_it.pop() == heavier(heavy)


def test_workers_of_a_batch_answer_with_the_shop_of_the_caller(tmp_path):
    # Rows of threads are answered by a pool, whose threads must know of the shop's own limits as the caller does.
    names = ["M10-6g", "M12-6g", "M8-6g", "M16-6g"] * 40
    sizes = np.linspace(5.0, 40.0, len(names))
    frame = {"thread": names, "engagement_mm": sizes}
    rows = [row for row in catalogue.rows("threads/iso_965_1_external_pitch") if row["pitch_mm"] == 1.5]
    columns = [key for key in rows[0] if key not in {"source", "note"}]
    text = "# table: ours\n# S1: shop | measured\n" + ",".join([*columns, "source"]) + "\n"
    for row in rows:
        text += ",".join(str(row[key] * 2 if key == "tolerance_um" else row[key]) for key in columns) + ",S1\n"
    (tmp_path / "threads").mkdir()
    (tmp_path / "threads" / "iso_965_1_external_pitch.csv").write_text(text, encoding="utf-8")
    plain = batch.limits(frame, workers=4)["pitch_min_mm"]
    with hn.shop(tmp_path):
        one = batch.limits(frame, workers=1)["pitch_min_mm"]
        many = batch.limits(frame, workers=4)["pitch_min_mm"]
        scalar = [
            hn.limits(name, engagement=hn.mm(size)).to_dict()["pitch_min"]
            for name, size in zip(names, sizes, strict=True)
        ]
    np.testing.assert_array_equal(one, many)
    np.testing.assert_array_equal(one, scalar)
    assert (one != plain).any()


def test_entry_points_are_looked_for_once(monkeypatch):
    calls = []
    monkeypatch.setattr(shop_tables, "_points", lambda: calls.append(1) or [])
    monkeypatch.setattr(catalogue, "_of_process", {})
    shop_tables._packages.cache_clear()
    try:
        for _ in range(20):
            force()
            hn.lathe("gap-bed")
        assert len(calls) == 1
    finally:
        shop_tables._packages.cache_clear()


class Point:
    """An entry point that gives a folder, or fails."""

    def __init__(self, name, given):
        self.name = name
        self.given = given

    def load(self):
        if isinstance(self.given, BaseException):
            raise self.given
        return self.given


def test_one_bad_package_is_a_warning_that_names_it(heavy, tmp_path, monkeypatch):
    unreadable = tmp_path / "unreadable"
    unreadable.mkdir()
    (unreadable / "ours.toml").write_text("[[material.alloys\n", encoding="utf-8")
    points = [
        Point("broken", ImportError("no module of theirs")),
        Point("gone", str(tmp_path / "gone")),
        Point("good", lambda: str(heavy)),
        Point("odd", 42),
        Point("unreadable", str(unreadable)),
    ]
    monkeypatch.setattr(shop_tables, "_points", lambda: points)
    monkeypatch.setattr(catalogue, "_of_process", {})
    shop_tables._packages.cache_clear()
    try:
        with warnings.catch_warnings(record=True) as said:
            warnings.simplefilter("always")
            assert force() == heavier(heavy)
            assert force() == heavier(heavy)
        named = [str(each.message) for each in said if each.category is shop_tables.ShopWarning]
        assert len(named) == 4
        for name in ("broken", "gone", "odd", "unreadable"):
            assert sum(name in each for each in named) == 1, named
    finally:
        shop_tables._packages.cache_clear()


def test_a_package_that_brings_tables_is_found_by_its_entry_point(tmp_path, monkeypatch):
    for name, text in (
        ("brings", "[halfnut.tables]\nours = brings:folder\n"),
        ("other", "[console_scripts]\nx = y:z\n"),
    ):
        (tmp_path / f"{name}-1.dist-info").mkdir()
        (tmp_path / f"{name}-1.dist-info/entry_points.txt").write_text(text)
        (tmp_path / f"{name}-1.dist-info/METADATA").write_text(f"Metadata-Version: 2.1\nName: {name}\nVersion: 1\n")
    known = {point.name for point in shop_tables._points()}
    monkeypatch.syspath_prepend(str(tmp_path))
    assert {point.name for point in shop_tables._points()} == known | {"ours"}
