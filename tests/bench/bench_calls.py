"""What single calls cost from Python, over a bound function that does nothing."""

from __future__ import annotations

from marks import Mark, alternated, ratio

import halfnut as hn
from halfnut import _core, cutting
from halfnut.catalogue import active

TIMES = 20_000


def marks() -> list[Mark]:
    """Level 1 and limits of one designation."""
    nothing, speed = _core.nothing, cutting.spindle_speed_rpm
    catalogue = active()

    def empty() -> None:
        nothing(100.0, 50.0)

    def level_1() -> None:
        speed(100.0, 50.0)

    def limits_in_the_core() -> None:
        _core.thread_limits(_core.parse_thread("M10x1.5-6g", catalogue), catalogue)

    def limits() -> None:
        hn.limits("M10x1.5-6g")

    def bare() -> None:
        pass

    calls = alternated([bare, empty, level_1, limits_in_the_core, limits], times=TIMES)
    # What calling the little function around it costs is no part of either.
    net = [[whole - own for whole, own in zip(taken, calls[0], strict=True)] for taken in calls]
    return [
        Mark("empty bound function", 1e9 * min(net[1]), unit="ns"),
        Mark("level-1 call over an empty one", ratio(net[2], net[1]), 2.5, at_least=False),
        Mark("limits from text in the core over an empty call", ratio(net[3], net[1]), 40.0, at_least=False),
        Mark("hn.limits(text), with its Python record, over an empty call", ratio(net[4], net[1]), unit="x"),
    ]
