"""Batch turning against the NumPy peer and against copying."""

from __future__ import annotations

import resource
import time

import numpy as np
from marks import Mark, alternated, ratio
from turning_jobs import COLUMNS, Jobs

from halfnut import _core

ROWS = 1_000_000
LONG = 100_000_000
CLONES = ("portable", "avx2", "avx512")
# Cautions that the peer does not have: work that climbs on the tool, magnesium at a fine feed.
NOT_OF_THE_PEER = np.uint64(1 << 27 | 1 << 32)


def marks() -> list[Mark]:
    """Rates and ratios at a million rows, and how they hold to a hundred million."""
    jobs = Jobs(ROWS)
    ours, theirs = jobs.places(), jobs.places()
    sources = {name: column.copy() for name, column in ours.items()}
    touched = {name: column.copy() for name, column in ours.items()}

    def copy() -> None:
        for name, column in touched.items():
            np.copyto(column, sources[name])

    known = [name for name in CLONES if CLONES.index(name) <= CLONES.index(_core.batch_clone())]
    runs = [lambda clone=clone: jobs.halfnut(ours, clone=clone) for clone in known]
    peer, copied, *clones = alternated([lambda: jobs.numpy(theirs), copy, *runs])
    for column in (ours, theirs):
        column["cautions"] &= ~NOT_OF_THE_PEER
    for name in COLUMNS:
        assert np.allclose(ours[name], theirs[name], rtol=1e-12, atol=0.0, equal_nan=True), name
    out = [
        Mark("NumPy peer, one core", ROWS / np.median(peer) / 1e6, unit="Mrows/s"),
        Mark("copying the answers' bytes, one core", ROWS / np.median(copied) / 1e6, unit="Mrows/s"),
    ]
    bounds = {"portable": 5.0, "avx2": 7.0, "avx512": 7.0}
    for clone, taken in zip(known, clones, strict=True):
        out.append(Mark(f"batch turning, {clone}", ROWS / np.median(taken) / 1e6, unit="Mrows/s"))
        out.append(Mark(f"batch turning, {clone}, over the peer", ratio(peer, taken), bounds[clone]))
    out.append(Mark("batch turning, share of the rate of copying", 100 * ratio(copied, clones[-1]), 40.0, unit="%"))
    return [*out, *long_run(jobs, ours)]


def long_run(jobs: Jobs, out: dict) -> list[Mark]:
    """A hundred million rows in chunks of a million: the rate, and what memory grows by."""
    began = time.perf_counter()
    for _ in range(10):
        jobs.halfnut(out)
    short = (time.perf_counter() - began) / 10
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    began = time.perf_counter()
    for _ in range(LONG // ROWS):
        jobs.halfnut(out)
    taken = (time.perf_counter() - began) / (LONG // ROWS)
    grown = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before
    return [
        Mark("seconds a row at 1e8 rows over those at 1e7", taken / short, 1.15, at_least=False),
        Mark("memory that 1e8 rows in chunks add", grown * 1024 / LONG, 1.0, at_least=False, unit="bytes/row"),
    ]
