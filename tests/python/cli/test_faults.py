"""Killed, out of disk, or two at once: what stands in the place is the earlier answer or the later one, whole."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

COUNT = int(os.environ.get("HALFNUT_FAULTS", "12"))
"""Faults of each kind; HALFNUT_FAULTS=100 for a long run."""

SCRIPT = Path(__file__).with_name("faults.py")


def faults(folder, what, fault, *before, **how):
    asked = {"folder": str(folder), "what": what, "fault": fault, "count": COUNT, **how}
    done = subprocess.run([*before, sys.executable, str(SCRIPT), json.dumps(asked)], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    found = json.loads(done.stdout.splitlines()[-1])
    print(what, fault, found, done.stderr)
    return found


def check(found, *, states=("earlier", "later")):
    assert found["tried"] == COUNT
    assert set(found["states"]) <= set(states)
    assert found["locked_out"] == 0
    assert found["left"] == 0


@pytest.mark.parametrize("what", ["plan", "batch"])
def test_a_kill_at_any_step_leaves_a_whole_answer(tmp_path, what):
    found = faults(tmp_path, what, "steps")
    check(found)
    assert found["statuses"] == {"-9": COUNT}
    assert set(found["states"]) == {"earlier", "later"}  # some kills came before the exchange, some after


@pytest.mark.parametrize("what", ["plan", "batch"])
def test_a_kill_at_any_moment_leaves_a_whole_answer(tmp_path, what):
    found = faults(tmp_path, what, "random")
    check(found)
    assert set(found["statuses"]) <= {"-9", "0"}


def test_where_folders_cannot_be_exchanged_the_next_run_puts_the_earlier_one_back(tmp_path):
    found = faults(tmp_path, "plan", "steps", plain_rename=True)
    check(found, states=("earlier", "later", "aside"))


@pytest.mark.parametrize("what", ["plan", "batch"])
def test_where_no_file_may_grow_the_earlier_answer_stays(tmp_path, what):
    found = faults(tmp_path, what, "size")
    check(found, states=("earlier",))
    assert found["statuses"] == {"3": COUNT}


@pytest.mark.skipif(os.geteuid() != 0 or shutil.which("unshare") is None, reason="a small disk takes root to mount")
@pytest.mark.parametrize("what", ["plan", "batch"])
def test_a_full_disk_leaves_the_earlier_answer(tmp_path, what):
    if subprocess.run(["unshare", "--mount", "true"], capture_output=True).returncode != 0:
        pytest.skip("no mounts of one's own here")
    found = faults(tmp_path, what, "full", "unshare", "--mount")
    check(found, states=("earlier",))
    assert found["statuses"] == {"3": COUNT}


@pytest.mark.parametrize("what", ["plan", "batch"])
def test_of_two_writers_at_once_one_answer_stands_whole(tmp_path, what):
    found = faults(tmp_path, what, "race")
    for first, second, state, left in found["new"]:
        assert (first, second) == (0, 2)  # the other was told that something is there
        assert state in ("earlier", "later")
        assert left == 0
    for first, second, state, left in found["replaced"]:
        assert (first, second) == (0, 0)  # one after the other, as both were asked to replace
        assert state in ("earlier", "later")
        assert left == 0
    assert len(found["new"]) == len(found["replaced"]) == COUNT
