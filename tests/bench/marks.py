"""Marks of speed: ratios within one run, never timed tests.

A file ``bench_<name>.py`` beside this one has a function ``marks()`` that measures and returns its marks; `run.py`
finds it by its name. What two things take is compared round by round, so that a busy machine slows both.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Mark:
    """A figure against its bound; without a bound it is only told."""

    name: str
    value: float
    bound: float | None = None
    at_least: bool = True
    unit: str = "x"
    note: str = ""

    @property
    def met(self) -> bool | None:
        """Whether the mark is met; None where there is no bound."""
        if self.bound is None:
            return None
        return self.value >= self.bound if self.at_least else self.value <= self.bound


def seconds(function: Callable[[], object], times: int = 1) -> float:
    """Seconds that one call takes, over some calls."""
    began = time.perf_counter()
    for _ in range(times):
        function()
    return (time.perf_counter() - began) / times


def processor_s(function: Callable[[], object], rounds: int = 3) -> float:
    """The least processor time of some calls; others on the machine only add."""
    taken = []
    for _ in range(rounds):
        began = time.process_time()
        function()
        taken.append(time.process_time() - began)
    return min(taken)


def alternated(functions: Sequence[Callable[[], object]], rounds: int = 7, times: int = 1) -> list[list[float]]:
    """Seconds of each function in each round; every round calls them all, after one that does not count."""
    for function in functions:
        function()
    taken: list[list[float]] = [[] for _ in functions]
    for _ in range(rounds):
        for place, function in enumerate(functions):
            taken[place].append(seconds(function, times))
    return taken


def ratio(above: Sequence[float], below: Sequence[float]) -> float:
    """Median over the rounds of the one over the other."""
    return statistics.median(a / b for a, b in zip(above, below, strict=True))
