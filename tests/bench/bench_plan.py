"""A job of a hundred parts of three operations planned, in processor time, and written as cards."""

from __future__ import annotations

import plan_jobs
from marks import Mark, processor_s

import halfnut as hn
from halfnut.planning.plans import Plan

PARTS_A_SECOND = 100.0


def marks() -> list[Mark]:
    """Parts a second where no question is asked twice, and where twelve come again and again."""
    out = []
    for told, job in (("all another", plan_jobs.distinct()), ("twelve repeated", plan_jobs.repeated())):
        planned: Plan = hn.plan(job)
        assert planned.failed == 0, planned
        rate = plan_jobs.PARTS / processor_s(lambda job=job: hn.plan(job))
        cards = plan_jobs.PARTS / processor_s(planned.files)
        out.append(Mark(f"planning, {told}", rate, PARTS_A_SECOND, unit="parts/s", note=f"cards {cards:.0f} parts/s"))
    return out
