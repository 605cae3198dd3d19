"""Measure every mark and print them in one table. Usage: python tests/bench/run.py [core.json] [name ...]."""

from __future__ import annotations

import importlib
import json
import os
import sys
import time
from pathlib import Path

from marks import Mark

from halfnut import _core

HERE = Path(__file__).parent
FLAGS = ("sse2", "avx", "avx2", "fma", "avx512f", "avx512dq", "avx512bw", "avx512vl")


def processor() -> str:
    """Name and vector instructions of the processor, and how many there are."""
    text = Path("/proc/cpuinfo").read_text("utf-8") if Path("/proc/cpuinfo").exists() else ""
    fields = dict(line.split(":", 1) for line in text.splitlines() if ":" in line)
    fields = {key.strip(): value.strip() for key, value in fields.items()}
    has = fields.get("flags", "").split()
    flags = " ".join(flag for flag in FLAGS if flag in has)
    return f"{fields.get('model name', 'processor unknown')}, {os.cpu_count()} cores; {flags or 'flags unknown'}"


def core(path: Path) -> list[Mark]:
    """What Google Benchmark measured of the core alone."""
    runs = json.loads(path.read_text("utf-8"))["benchmarks"]
    return [
        Mark(f"core: {run['name']}", run["items_per_second"] / 1e6, unit="M/s")
        for run in runs
        if "items_per_second" in run and run.get("run_type") == "iteration"
    ]


def main(arguments: list[str]) -> int:
    """Measure, print, and say whether every mark is met."""
    files = [Path(name) for name in arguments if name.endswith(".json")]
    only = [name for name in arguments if not name.endswith(".json")]
    print(processor())
    print(f"batches of turning run as: {_core.batch_clone()}\n")
    found: list[Mark] = [mark for path in files for mark in core(path)]
    for path in sorted(HERE.glob("bench_*.py")):
        if not only or path.stem.removeprefix("bench_") in only:
            began = time.perf_counter()
            found += importlib.import_module(path.stem).marks()
            print(f"{path.stem}: {time.perf_counter() - began:.0f} s", file=sys.stderr)
    width = max(len(mark.name) for mark in found)
    for mark in found:
        value = f"{mark.value:10.4g} {mark.unit}"
        told = {True: "met", False: "NOT MET", None: ""}[mark.met]
        bound = "" if mark.bound is None else f"{'>=' if mark.at_least else '<='} {mark.bound:g}"
        print(f"{mark.name:{width}}  {value:20}  {bound:10}  {told:8}  {mark.note}".rstrip())
    missed = [mark for mark in found if mark.met is False]
    print(f"\n{sum(mark.met is True for mark in found)} marks met, {len(missed)} not")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
