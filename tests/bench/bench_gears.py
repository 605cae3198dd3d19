"""Change gears: the core against a plain search in Python, 20 gears, simple and compound, same question and answer."""

from __future__ import annotations

import time
from itertools import combinations

from halfnut import _core

GEARS = [20, 24, 25, 28, 30, 32, 35, 36, 40, 45, 48, 50, 55, 60, 63, 65, 72, 75, 80, 127]
LEADS = [(1, 1), (3, 2), (7, 4), (127, 90), (127, 95), (127, 135)]
SCREW = (127, 40)
LIMIT = 0.001


def plain(lead: tuple[int, int]) -> list[tuple[float, tuple[int, ...], tuple[int, ...]]]:
    """Every simple and compound train within the limit, best first: combinations and whole numbers."""
    num, den = lead[0] * SCREW[1], lead[1] * SCREW[0]
    found = []
    places = range(len(GEARS))
    for count in (1, 2):
        for above in combinations(places, count):
            up = den
            for place in above:
                up *= GEARS[place]
            for below in combinations([place for place in places if place not in above], count):
                down = num
                for place in below:
                    down *= GEARS[place]
                error = abs(up - down) / down
                if error <= LIMIT:
                    found.append(
                        (error, tuple(GEARS[place] for place in above), tuple(GEARS[place] for place in below))
                    )
    return sorted(found)


def core(lead: tuple[int, int]) -> list[_core.GearTrain]:
    """The same question to the core."""
    threading = _core.Threading()
    threading.lead_mm = SCREW[0] / SCREW[1]
    threading.gears = GEARS
    trains: list[_core.GearTrain] = _core.gear_trains(threading, lead, LIMIT, 10_000)["trains"]
    return trains


def best_of(function: object, rounds: int) -> float:
    """Seconds for all leads, the best round."""
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        for lead in LEADS:
            function(lead)  # type: ignore[operator]
        times.append(time.perf_counter() - start)
    return min(times)


def boxed() -> float:
    """Seconds for one lead with 30 gears and 28 steps of a gearbox, the best of 20."""
    threading = _core.Threading()
    threading.lead_mm = SCREW[0] / SCREW[1]
    threading.gears = [*range(20, 77, 2), 127]
    threading.standard_driver = threading.standard_driven = 40
    steps = []
    for span in (1, 2, 4, 8):
        for tenths in (20, 22, 24, 26, 28, 32, 36):
            step = _core.GearboxStep()
            step.ratio = 20 / (tenths * span)
            steps.append(step)
    threading.gearbox = steps
    times = []
    for _ in range(20):
        start = time.perf_counter()
        _core.gear_trains(threading, (3, 2), LIMIT, 20)
        times.append(time.perf_counter() - start)
    return min(times)


def main() -> None:
    """Print the ratio of the rates, once the answers are the same."""
    for lead in LEADS:
        assert len(plain(lead)) == len(core(lead)), lead
    slow, fast = best_of(plain, 3), best_of(core, 50)
    print(f"20 gears, simple and compound, {len(LEADS)} leads: {slow * 1e3:.1f} ms plain, {fast * 1e3:.3f} ms core")
    print(f"ratio {slow / fast:.0f}, mark 200")
    print(f"30 gears and a gearbox of 28 steps, one lead: {boxed() * 1e3:.3f} ms")


if __name__ == "__main__":
    main()
