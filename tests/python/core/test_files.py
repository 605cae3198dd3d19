"""Files and folders that Halfnut writes: names, modes, links, and what is left alone."""

import errno
import hashlib
import json
import os
import re
import stat

import pytest

import halfnut as hn
from halfnut.core import files

STEP = {"do": "turn", "to": "0.9 in", "length": "1 in"}


def job_of(*names):
    part = {
        "quantity": 1,
        "alloy": "6061-T6",
        "length": "2 in",
        "stock": {"form": "bar", "diameter": "1 in"},
        "operations": [STEP],
    }
    parts = [{**part, "name": name} if isinstance(name, str) else {**part, **name} for name in names]
    return {"title": "telescope", "machine": "gap-bed", "parts": parts}


def in_folder(folder):
    return {path.name: path.read_text("utf-8") for path in folder.iterdir()}


def test_a_plan_says_what_it_wrote(tmp_path):
    """Each sum is SHA-256 of the file; that of plan.json is taken with 64 zeros in its own place."""
    hn.plan(job_of("knob")).write(tmp_path / "sheets")
    texts = {path.name: path.read_bytes() for path in (tmp_path / "sheets").iterdir()}
    sums = json.loads(texts["plan.json"])["files"]
    assert (
        set(sums) == set(texts) == {"index.html", "details.html", "knob.html", "papers.html", "plan.csv", "plan.json"}
    )
    texts["plan.json"] = texts["plan.json"].replace(sums["plan.json"].encode(), b"0" * 64)
    assert {name: hashlib.sha256(data).hexdigest() for name, data in texts.items()} == sums


@pytest.mark.parametrize("name", ["index.html", "plan.csv", "plan.json", "knob.html"])
def test_a_file_that_was_changed_is_never_replaced(tmp_path, name):
    plan = hn.plan(job_of("knob"))
    plan.write(tmp_path / "sheets")
    path = tmp_path / "sheets" / name
    path.write_text(path.read_text("utf-8").replace("telescope", "telescope, mine"), "utf-8")
    if name in {"plan.csv", "knob.html"}:
        path.write_text(path.read_text("utf-8") + "mine", "utf-8")
    before = in_folder(tmp_path / "sheets")
    with pytest.raises(hn.DomainError, match=rf"not as Halfnut wrote it: {re.escape(name)}; move that away"):
        plan.write(tmp_path / "sheets", replace=True)
    assert in_folder(tmp_path / "sheets") == before
    assert [path.name for path in tmp_path.iterdir()] == ["sheets"]


def test_a_file_that_was_taken_away_does_not_matter(tmp_path):
    plan = hn.plan(job_of("knob"))
    plan.write(tmp_path / "sheets")
    before = in_folder(tmp_path / "sheets")
    (tmp_path / "sheets" / "knob.html").unlink()
    plan.write(tmp_path / "sheets", replace=True)
    assert in_folder(tmp_path / "sheets") == before


def test_many_strange_files_are_named_in_one_line(tmp_path):
    plan = hn.plan(job_of("knob"))
    plan.write(tmp_path / "sheets")
    for place in range(7):
        (tmp_path / "sheets" / f"x{place}").mkdir()
    with pytest.raises(hn.DomainError, match=r"x0, x1, x2, x3, x4 and 2 more; move"):
        plan.write(tmp_path / "sheets", replace=True)


def test_what_changes_while_a_plan_is_exchanged_stays(tmp_path, monkeypatch):
    plan = hn.plan(job_of("knob"))
    plan.write(tmp_path / "sheets")
    put = files._rename

    def edited(old, new, flags):
        (tmp_path / "sheets" / "mine.txt").write_text("mine")
        monkeypatch.setattr(files, "_rename", put)
        return put(old, new, flags)

    monkeypatch.setattr(files, "_rename", edited)
    with pytest.raises(hn.DomainError, match=r"mine\.txt"):
        hn.plan(job_of("pin")).write(tmp_path / "sheets", replace=True)
    assert (tmp_path / "sheets" / "mine.txt").read_text() == "mine"
    assert (tmp_path / "sheets" / "knob.html").is_file()
    assert [path.name for path in tmp_path.iterdir()] == ["sheets"]


def test_a_folder_that_was_moved_aside_comes_back(tmp_path):
    plan = hn.plan(job_of("knob"))
    place = tmp_path / "sheets"
    plan.write(place)
    place.rename(tmp_path / f"{files._stem(place)}0.old")
    with pytest.raises(hn.DomainError, match="is not empty"):
        plan.write(place)
    assert (place / "knob.html").is_file()


def test_leftovers_of_a_killed_run_go_and_those_of_a_living_one_stay(tmp_path):
    place = tmp_path / "sheets"
    dead, living = (tmp_path / f"{files._stem(place)}{number}" for number in range(2))
    for folder in (dead, living):
        folder.mkdir()
        (folder / "knob.html").write_text("half")
    handle = os.open(living, os.O_RDONLY)
    assert files._lock(handle)
    hn.plan(job_of("knob")).write(place)
    assert {path.name for path in tmp_path.iterdir()} == {"sheets", living.name}
    os.close(handle)
    hn.plan(job_of("knob")).write(place, replace=True)
    assert {path.name for path in tmp_path.iterdir()} == {"sheets"}


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("nowhere/sheets", "there is no folder .*nowhere; make it first"),
        ("file", "is a file, not a folder"),
        ("link", "is a link, not a folder"),
        ("pipe", "is a pipe, not a folder"),
        (".", "is the folder Halfnut runs in"),
        ("", "is the folder Halfnut runs in"),
        ("..", "no earlier plan"),
        ("a\0b", "NUL"),
    ],
)
def test_folders_that_are_refused(tmp_path, monkeypatch, name, told):
    room = tmp_path / "room"
    room.mkdir()
    (room / "file").write_text("mine")
    (room / "link").symlink_to(tmp_path)
    os.mkfifo(room / "pipe")
    monkeypatch.chdir(room)
    before = sorted(room.iterdir())
    for replace in (False, True):
        with pytest.raises(hn.DomainError, match=told):
            hn.plan(job_of("knob")).write(name, replace=replace)
    assert sorted(room.iterdir()) == before


def test_modes_are_the_umasks_or_those_of_what_is_replaced(tmp_path):
    before = os.umask(0o027)
    try:
        place = files.write(tmp_path / "chart.html", "one")
        hn.plan(job_of("knob")).write(tmp_path / "sheets")
    finally:
        os.umask(before)

    def mode(path):
        return oct(stat.S_IMODE(path.stat().st_mode))

    assert [mode(path) for path in (place, tmp_path / "sheets", tmp_path / "sheets" / "plan.csv")] == [
        *("0o640", "0o750", "0o640")
    ]
    place.chmod(0o604)
    (tmp_path / "sheets").chmod(0o705)
    (tmp_path / "sheets" / "plan.csv").chmod(0o604)
    files.write(place, "two", replace=True)
    hn.plan(job_of("knob", "pin")).write(tmp_path / "sheets", replace=True)
    assert [mode(path) for path in (place, tmp_path / "sheets", tmp_path / "sheets" / "plan.csv")] == [
        *("0o604", "0o705", "0o604")
    ]


@pytest.mark.parametrize("kind", ["link", "broken link", "folder", "pipe", "device"])
def test_only_plain_files_are_replaced(tmp_path, kind):
    target = tmp_path / "target"
    target.write_text("mine")
    place = tmp_path / "place"
    if kind.endswith("link"):
        place.symlink_to(target if kind == "link" else tmp_path / "nowhere")
    elif kind == "folder":
        place.mkdir()
    elif kind == "pipe":
        os.mkfifo(place)
    else:
        place = type(place)(os.devnull)
    before = place.lstat()
    for replace in (False, True):
        with pytest.raises(hn.DomainError, match=f"is a {kind.split()[-1]}, not a plain file, and stays as it is"):
            files.write(place, "ours", replace=replace)
    assert (place.lstat().st_ino, place.lstat().st_mode) == (before.st_ino, before.st_mode)
    assert target.read_text() == "mine"


def test_a_file_that_comes_in_the_meantime_stays(tmp_path):
    place = tmp_path / "chart.html"
    for plain in (False, True):
        with pytest.MonkeyPatch.context() as patch:
            if plain:
                patch.setattr(files, "_rename", lambda *_: False)
            with pytest.raises((hn.DomainError, FileExistsError)), files.writing(place) as stream:
                stream.write(b"ours")
                place.write_text("mine")
        assert place.read_text() == "mine"
        assert list(tmp_path.iterdir()) == [place]
        place.unlink()


def test_a_fault_names_the_file_and_leaves_nothing(tmp_path, monkeypatch):
    def full(handle):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(files.os, "fsync", full)
    for write in (lambda: files.write(tmp_path / "a.svg", "x"), lambda: hn.plan(job_of("a")).write(tmp_path / "a.svg")):
        with pytest.raises(OSError, match="No space left") as caught:
            write()
        assert caught.value.filename == str(tmp_path / "a.svg")
        assert list(tmp_path.iterdir()) == []


def test_parts_never_share_a_file(tmp_path):
    names = [
        "index",
        "details",
        "papers",
        "plan",
        "plan.csv",
        "PLAN json",
        "index-2",
        "\N{TELESCOPE}",
        "\N{WRENCH}",
        "part",
        "tube",
    ]
    plan = hn.plan(job_of(*names))
    written = plan.write(tmp_path / "sheets")
    assert len(written) == len(plan.parts) + 5
    assert len({path.name.lower() for path in written}) == len(written)
    opening = (tmp_path / "sheets" / "index.html").read_text("utf-8")
    for part in plan.parts:
        assert f'href="{part.file}"' in opening
        assert (tmp_path / "sheets" / part.file).is_file()
    assert plan.parts[0].file == "index-2.html"
    with pytest.raises(hn.Error, match="names must differ"):
        hn.plan(job_of("index", "Index"))


def test_a_part_does_not_take_the_page_of_anothers_adjuster():
    class Named:
        def __init__(self, name, adjuster=None):
            self.name, self.adjuster = name, adjuster

    from halfnut.planning.job import adjuster_file, file_names

    for parts in (
        [Named("tube", object()), Named("tube adjuster")],
        [Named("tube adjuster"), Named("tube", object())],
        [Named("tube", object()), Named("tube!", object()), Named("tube-2 adjuster")],
    ):
        sheets = file_names(parts)
        pages = [adjuster_file(sheet) for part, sheet in zip(parts, sheets, strict=True) if part.adjuster]
        assert len({*sheets, *pages}) == len(sheets) + len(pages)


@pytest.mark.parametrize("letter", ["a", "é", "望", "\N{MATHEMATICAL BOLD SMALL A}"])
def test_names_too_long_for_a_file_are_cut_and_stay_apart(tmp_path, letter):
    class Named:
        def __init__(self, name):
            self.name, self.adjuster = name, object()

    from halfnut.planning.job import adjuster_file, file_names

    names = [letter * 300 + end for end in ("x", "y", "")]
    sheets = file_names([Named(name) for name in (*names, letter * 20)])
    pages = {*sheets, *(adjuster_file(sheet) for sheet in sheets)}
    assert len(pages) == 8
    assert max(len(os.fsencode(page)) for page in pages) <= 255
    # the longest names that a job may hold
    most = 200 // len(letter.encode()) - 1
    plan = hn.plan(job_of(*(letter * most + end for end in ("x", "y", "")), letter * 20))
    for path in plan.write(tmp_path / "sheets"):
        assert len(os.fsencode(path.name)) <= 255
    assert len({part.file for part in plan.parts}) == 4


def test_thousands_of_parts_that_have_no_letters_are_numbered():
    class Named:
        def __init__(self, name):
            self.name, self.adjuster = name, None

    from halfnut.planning.job import file_names

    sheets = file_names([Named("!" * (place + 1)) for place in range(5000)])
    assert len(set(sheets)) == 5000
    assert (sheets[0], sheets[-1]) == ("part.html", "part-5000.html")
