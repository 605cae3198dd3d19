"""Faults while the command writes: kills, full disks, two writers at once; each in a child process of its own.

Run by `test_faults.py` as a script, so that children are forked from a process without threads: one JSON object of
what to do in, one JSON object of what came of it out.
"""

import contextlib
import io
import json
import os
import random
import resource
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

from halfnut import cli
from halfnut.core import files

SEED = 20
WRITING = ("open", "os.mkdir", "os.rename", "os.remove", "os.rmdir", "os.chmod", "ctypes.dlsym")


def job(*names, off="0.02 in"):
    """A job of parts that differ by name, as TOML."""
    out = ['title = "Portable truss telescope"', 'machine = "gap-bed"']
    for name in names:
        out += [
            "[[parts]]",
            f'name = "{name}"',
            'quantity = 2\nalloy = "6061-T6"\nlength = "2 in"\nstock = { form = "bar", diameter = "1 in" }',
            f'operations = [{{ do = "face", off = "{off}" }}, {{ do = "turn", to = "0.9 in", length = "1 in" }}]',
        ]
    return "\n".join(out) + "\n"


def rows(count, diameter):
    """A file of turning, as CSV."""
    lines = [["part", "alloy", "diameter_mm"]]
    lines += [[f"knob {place}", "6061-T6", f"{diameter + place / 100:.2f}"] for place in range(count)]
    return "\n".join(",".join(line) for line in lines) + "\n"


class Bench:
    """A folder with an earlier and a later question, and the bytes of both answers."""

    def __init__(self, what):
        self.what = what
        if what == "plan":
            Path("earlier.toml").write_text(job("truss tube", "rocker link"), "utf-8")
            Path("later.toml").write_text(job("truss tube", "focus knob", "clamp screw", off="0.01 in"), "utf-8")
            self.place = Path("room/sheets")
        else:
            Path("earlier.csv").write_text(rows(400, 20.0), "utf-8")
            Path("later.csv").write_text(rows(600, 30.0), "utf-8")
            self.place = Path("room/answers.csv")
        Path("room").mkdir()
        self.bytes = {}
        for when in ("later", "earlier"):
            assert self.run(when) == 0
            self.bytes[when] = snapshot(self.place)
        assert self.bytes["earlier"] != self.bytes["later"]
        shutil.copytree("room", "kept")

    def arguments(self, when, replace=True, out=None):
        out = str(out or self.place)
        what = ["plan", f"{when}.toml"] if self.what == "plan" else ["batch", "turn", f"{when}.csv"]
        return [*what, "--out", out, *(["--replace"] if replace else [])]

    def run(self, when, *, fault=None, after_s=None, **how):
        return wait(begin(self.arguments(when, **how), fault), after_s)

    def reset(self):
        shutil.rmtree("room")
        shutil.copytree("kept", "room")

    def state(self):
        """Which answer is in its place: earlier, later, aside (whole, under another name), or half."""
        found = snapshot(self.place)
        for when, data in self.bytes.items():
            if found == data:
                return when
        others = [snapshot(path) for path in Path("room").iterdir()]
        return "aside" if found is None and self.bytes["earlier"] in others else "half"


def snapshot(place):
    """The bytes of a file, or of all files of a folder; None where nothing is."""
    if not place.exists():
        return None
    return {path.name: path.read_bytes() for path in place.iterdir()} if place.is_dir() else place.read_bytes()


def begin(arguments, fault=None):
    """Start the command in a child."""
    child = os.fork()
    if child:
        return child
    status = 70
    try:
        for stream, name in ((1, os.devnull), (2, "told")):
            os.dup2(os.open(name, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o666), stream)
        if fault is not None:
            fault()
        cli.main(arguments)
    except SystemExit as end:
        status = end.code
    finally:
        os._exit(status)


def wait(child, after_s=None):
    """The exit status of a child, -9 where it was killed, which it is after a time where one is given."""
    if after_s is not None:
        time.sleep(after_s)
        os.kill(child, signal.SIGKILL)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def kill_at(step):
    """A fault: killed before a step that changes or opens something in the room; it counts them where step is None."""

    def fault():
        seen = 0

        def hook(event, arguments):
            nonlocal seen
            if event not in WRITING or not (event.startswith("ctypes") or "room" in str(arguments[0])):
                return
            seen += 1
            if step is None:
                Path("steps").write_text(str(seen))
            elif seen == step:
                os.kill(os.getpid(), signal.SIGKILL)

        sys.addaudithook(hook)

    return fault


def limit(size):
    """A fault: no file may grow beyond a size."""
    return lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))


def killed_at_steps(bench, count):
    assert bench.run("later", fault=kill_at(None)) == 0
    steps = int(Path("steps").read_text())
    for place in range(count):
        step = 1 + place * (steps - 1) // max(1, count - 1)
        yield lambda step=step: bench.run("later", fault=kill_at(step))


def killed_at_random(bench, count):
    start = time.monotonic()
    assert bench.run("later") == 0
    took_s = time.monotonic() - start
    moments = random.Random(SEED)
    for _ in range(count):
        yield lambda: bench.run("later", after_s=moments.uniform(0.0, took_s))


def limited(bench, count):
    data = bench.bytes["later"]
    largest = max(map(len, data.values())) if isinstance(data, dict) else len(data)
    for place in range(count):
        yield lambda place=place: bench.run("later", fault=limit(place * largest // count))


def full(bench, count):
    """A disk with less free than the answer needs; the room is a file system of its own."""
    data = bench.bytes["later"]
    needed = sum(map(len, data.values())) if isinstance(data, dict) else len(data)
    for place in range(count):

        def one(place=place):
            with Path("room/filler").open("wb") as filler, contextlib.suppress(OSError):
                os.posix_fallocate(filler.fileno(), 0, free() - place * needed // count)
            try:
                return bench.run("later")
            finally:
                Path("room/filler").unlink()

        yield one


def free():
    found = os.statvfs("room")
    return found.f_bavail * found.f_frsize


def tried(bench, faults):
    """Every fault from the same start: what is there after it, and whether the next run answers."""
    out = {"tried": 0, "states": {}, "statuses": {}, "locked_out": 0, "left": 0}
    for fault in faults:
        bench.reset()
        status = fault()
        state = bench.state()
        next_status = bench.run("later")
        out["tried"] += 1
        out["states"][state] = out["states"].get(state, 0) + 1
        out["statuses"][str(status)] = out["statuses"].get(str(status), 0) + 1
        if next_status != 0 or bench.state() != "later":
            out["locked_out"] += 1
            print(f"after {state}: {next_status} {bench.state()}: {Path('told').read_text()}", file=sys.stderr)
        out["left"] += len(list(Path("room").iterdir())) - 1
    return out


def race(bench, count):
    """Two writers at once, to a new place and over an earlier answer."""
    out = {"new": [], "replaced": []}
    for replace in (False, True):
        for place in range(count):
            bench.reset()
            if not replace:
                shutil.rmtree("room")
                Path("room").mkdir()
            children = []
            for when in ("earlier", "later") if place % 2 else ("later", "earlier"):
                children.append(begin(bench.arguments(when, replace)))
            statuses = sorted(map(wait, children))
            left = len(list(Path("room").iterdir())) - 1
            out["replaced" if replace else "new"].append([*statuses, bench.state(), left])
    return out


def main():
    asked = json.loads(sys.argv[1])
    os.chdir(asked["folder"])
    if asked["fault"] == "full":
        Path("disk").mkdir()
        subprocess.run(["mount", "-t", "tmpfs", "-o", "size=4m", "tmpfs", "disk"], check=True)
        os.chdir("disk")
    if asked.get("plain_rename"):
        files._rename = lambda *_: False
    Path("warm.toml").write_text(job("pin"), "utf-8")
    Path("warm.csv").write_text(rows(2, 20.0), "utf-8")
    for arguments in (["plan", "warm.toml", "--out", "warm"], ["batch", "turn", "warm.csv", "--out", "warm-too.csv"]):
        with contextlib.redirect_stdout(io.StringIO()), contextlib.suppress(SystemExit):
            cli.main(arguments)  # so that no child has to import and compile it again
    bench = Bench(asked["what"])
    count = asked["count"]
    if asked["fault"] == "race":
        print(json.dumps(race(bench, count)))
    else:
        how = {"steps": killed_at_steps, "random": killed_at_random, "size": limited, "full": full}[asked["fault"]]
        print(json.dumps(tried(bench, how(bench, count))))


if __name__ == "__main__":
    main()
