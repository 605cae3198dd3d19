"""A job of a hundred parts of three operations planned, in processor time, and written as cards."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Any

import plan_jobs
from marks import Mark

import halfnut as hn
from halfnut.planning.plans import Plan

ROUNDS = 3
PARTS_A_SECOND = 100.0


def seconds(function: Callable[[], Any]) -> float:
    """The least processor time of some rounds; others on the machine only add."""
    taken = []
    for _ in range(ROUNDS):
        began = time.process_time()
        function()
        taken.append(time.process_time() - began)
    return min(taken)


def marks() -> list[Mark]:
    """Parts a second where no question is asked twice, and where twelve come again and again."""
    out = []
    for told, job in (("all another", plan_jobs.distinct()), ("twelve repeated", plan_jobs.repeated())):
        planned: Plan = hn.plan(job)
        assert planned.failed == 0, planned
        rate = plan_jobs.PARTS / seconds(lambda job=job: hn.plan(job))
        cards = plan_jobs.PARTS / seconds(planned.files)
        out.append(Mark(f"planning, {told}", rate, PARTS_A_SECOND, unit="parts/s", note=f"cards {cards:.0f} parts/s"))
    return out
