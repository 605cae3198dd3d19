"""The choice of passes for a common shaft against a brute force in plain Python.

The brute force tries every depth with every lever from every line of the dial, remembering the best way on; it leaves
nothing else out. Both must give the same objective. `python tests/bench/bench_choose.py`
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

MARK = 1000
ROUNDS = 21


def main() -> int:
    """Print both times and their ratio; 1 where the objectives differ."""
    tests = Path(__file__).parents[1]
    sys.path[:0] = [str(tests / "oracles"), str(tests / "python")]
    import choose_brute
    from choose_cases import ask, oracle_case, places

    import halfnut as hn

    machine = hn.lathe("gap-bed").core
    alloy = hn.alloy("6061-T6")
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

    question = (machine, "turn", alloy, "hss", numbers, "chuck")
    found = ask(*question)
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        ask(*question)
        times.append(time.perf_counter() - start)
    ours = sorted(times)[ROUNDS // 2]
    case = oracle_case(*question, 0.0127)
    start = time.perf_counter()
    expected = choose_brute.fastest_with_memory(case)
    brute = time.perf_counter() - start
    got = (round(1000 * (found.time_s - 2 * machine.measure_s)), found.levers_moved, places(machine, found))
    print(f"choose, 1 in to 0.9 in of 6061-T6 on gap-bed, {len(found.passes)} passes: {1000 * ours:.2f} ms")
    print(f"plain Python, every depth and lever from every line: {brute:.2f} s, {brute / ours:.0f} times as long")
    print(f"mark: at least {MARK}; objectives {'equal' if got == expected else f'differ: {got}, {expected}'}")
    return 0 if got == expected else 1


if __name__ == "__main__":
    sys.exit(main())
