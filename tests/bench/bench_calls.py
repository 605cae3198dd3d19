"""What single calls cost from Python, over a bound function that does nothing."""

from __future__ import annotations

from marks import Mark, alternated

import halfnut as hn
from halfnut import _core, cutting
from halfnut.core.catalogue import active

ROUNDS, TIMES = 100, 500


def marks() -> list[Mark]:
    """Level 1 and limits of one designation."""
    nothing, speed = _core.nothing, cutting.spindle_speed_rpm
    catalogue = active()

    def empty() -> None:
        nothing(100.0, 50.0)

    def level_1() -> None:
        speed(100.0, 50.0)

    def limits_in_the_core() -> None:
        _core.ask("limits", ("M10x1.5-6g",), catalogue)

    def limits() -> None:
        hn.limits("M10x1.5-6g")

    def bare() -> None:
        pass

    # The least of many short rounds: a busy machine only adds. What the little functions cost is taken off.
    calls = alternated([bare, empty, level_1, limits_in_the_core, limits], rounds=ROUNDS, times=TIMES)
    own, *least = (min(taken) for taken in calls)
    nothing_s, level_1_s, core_s, limits_s = (taken - own for taken in least)
    return [
        Mark("empty bound function", 1e9 * nothing_s, unit="ns"),
        Mark("level-1 call over an empty one", level_1_s / nothing_s, 2.5, at_least=False),
        Mark("limits from text in the core over an empty call", core_s / nothing_s, 40.0, at_least=False),
        Mark("hn.limits(text), with its Python record, over an empty call", limits_s / nothing_s, 40.0, at_least=False),
    ]
