"""The free choice of passes for a common shaft against a brute force in plain Python.

The brute force tries every depth with every lever from every line of the dial, remembering the best way on; it leaves
nothing else out. Both must give the same objective.
"""

from __future__ import annotations

import statistics
import sys
import time
from pathlib import Path

from marks import Mark

MARK = 1000.0
ROUNDS = 21
TESTS = Path(__file__).resolve().parents[1]


def measure() -> tuple[float, float, int]:
    """Seconds of the core's choice and of the brute force, and passes, once the objectives are the same."""
    sys.path[:0] = [str(TESTS / "oracles"), str(TESTS / "python")]
    import choose_brute
    from choose_cases import ask, oracle_case, places

    import halfnut as hn

    machine = hn.lathe("gap-bed").core
    numbers = {
        "diameter_mm": 25.4,
        "to_mm": 22.86,
        "off_mm": None,
        "length_mm": 50.8,
        "nose_radius_mm": 0.8,
        "entering_deg": 90.0,
        "deepest_mm": 2.5,
        "dial_set_s": 5.0,
    }
    question = (machine, "turn", hn.alloy("6061-T6"), "hss", numbers, "chuck")
    found = ask(*question, free=True)
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        ask(*question, free=True)
        times.append(time.perf_counter() - start)
    start = time.perf_counter()
    expected = choose_brute.fastest_with_memory(oracle_case(*question, 0.0127))
    brute = time.perf_counter() - start
    got = (round(1000 * (found.time_s - 2 * machine.measure_s)), found.levers_moved, places(machine, found))
    assert got == expected, (got, expected)
    return statistics.median(times), brute, len(found.passes)


def marks() -> list[Mark]:
    """The ratio."""
    core, brute, passes = measure()
    told = f"{passes} passes, same objective; {1000 * core:.2f} ms against {brute:.2f} s"
    return [Mark("choose, a common shaft, over plain Python", brute / core, MARK, note=told)]
