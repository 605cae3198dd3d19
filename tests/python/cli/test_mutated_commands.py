"""No command line, however wrong, ends in a traceback, a status of its own, or an answer that is not a number."""

import json
import os
import subprocess
import sys
from collections import Counter
from pathlib import Path

SEED = 7
COUNT = int(os.environ.get("HALFNUT_MUTATIONS", "500"))
"""Lines in all; HALFNUT_MUTATIONS=20000 for a long run."""
CHUNK = 250
SCRIPT = Path(__file__).with_name("mutated.py")


def test_mutated_command_lines_end_as_they_should(tmp_path):
    ended, wrong = Counter(), []
    for chunk in range(-(-COUNT // CHUNK)):
        log = tmp_path / "log"
        log.unlink(missing_ok=True)
        arguments = [str(tmp_path / "lines"), str(SEED + chunk), str(min(CHUNK, COUNT - chunk * CHUNK)), str(log)]
        done = subprocess.run([sys.executable, str(SCRIPT), *arguments], capture_output=True, text=True)
        told = [json.loads(line) for line in log.read_text("utf-8").splitlines()]
        for asked, found in zip(told[::2], told[1::2], strict=False):
            ended[found["status"]] += 1
            if found["wrong"]:
                wrong.append((asked["line"], found["wrong"]))
        if done.returncode != 0:
            wrong.append((told[-1:], f"the process ended with {done.returncode}: {done.stderr[-500:]}"))
    for line, what in wrong:
        print(f"{what}\n    {line}")
    print(f"ended with status: {dict(ended)}")
    assert not wrong, f"{len(wrong)} of {ended.total()} lines"
    assert ended.total() == COUNT
    assert min(ended[status] for status in (0, 2)) > COUNT / 10  # lines of both kinds were tried
