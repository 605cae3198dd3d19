"""Change gears: the core against a plain search in Python, 20 gears, simple and compound, same question and answer."""

from __future__ import annotations

from itertools import combinations

from marks import Mark, ratio, seconds

import halfnut as hn
from halfnut import _core
from halfnut.cutting.figures import GearTrains

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


def lathe(threading: _core.Threading) -> _core.Machine:
    """A lathe of which nothing but its threading is known."""
    return _core.Machine(kind="lathe", name="lathe", threading=threading)


def core(lead: tuple[int, int], machine: _core.Machine, most: int = 1) -> GearTrains:
    """The same question to the core: all trains are found and ranked, the best are told."""
    return hn.gear_train(hn.mm(lead[0] / lead[1]), machine=machine, error_percent=100 * LIMIT, most=most)


def boxed() -> _core.Threading:
    """30 gears and a gearbox of 28 steps."""
    return _core.Threading(
        lead_mm=SCREW[0] / SCREW[1],
        gears=[*range(20, 77, 2), 127],
        standard_driver=40,
        standard_driven=40,
        gearbox=[
            _core.GearboxStep(ratio=20 / (tenths * span))
            for span in (1, 2, 4, 8)
            for tenths in (20, 22, 24, 26, 28, 32, 36)
        ],
    )


def marks() -> list[Mark]:
    """The two searches over some leads, once their answers are the same; then the largest question of a shop."""
    own = lathe(_core.Threading(lead_mm=SCREW[0] / SCREW[1], gears=GEARS))
    for lead in LEADS:
        assert len(plain(lead)) == core(lead, own).found, lead
    slow, fast = [], []
    for _ in range(7):  # one search in the core is too short to time alone, the first finds its memory cold
        slow.append(seconds(lambda: [plain(lead) for lead in LEADS]))
        fast.append(seconds(lambda: [core(lead, own) for lead in LEADS], 100))
    largest = lathe(boxed())
    taken = min(seconds(lambda: core((3, 2), largest, 20), 10) for _ in range(5))
    return [
        Mark("change gears, 20 of them, simple and compound, over plain Python", ratio(slow, fast), 200.0),
        Mark("change gears, 30 of them and a gearbox of 28 steps, one lead", 1e3 * taken, unit="ms"),
    ]
