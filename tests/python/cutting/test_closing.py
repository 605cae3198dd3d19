"""Closing on a size: what rows the passes have, and whether pieces come out within limits with every error there is.

The replay follows the rows as a person does. Errors, each drawn evenly: touching off ±0.05 mm; the force anywhere in
its band, the same for all cuts of a piece, and what gives way gives way by it; the dial that sets the cut ± half a
line; the named instrument's error; warmth of 0 to 10 K when measured, of 0 to 1 K where the row says cold. The size is
that at the free end, where it is measured.
"""

from __future__ import annotations

import random

import numpy as np
import pytest

import halfnut as hn

JOBS = 200
DRAWS = 1000
TOUCH_MM = 0.05
TOLD = {"dial_coarse", "close_grade", "little_left"}
ERROR_MM = {
    "caliper": 0.03,
    "micrometer_on_gauge": 0.002,
    "telescopic_gauge": 0.01,
}
ALLOYS = ("6061-T6", "7075", "1018", "4130 normalised", "304", "grey iron", "C36000", "titanium grade 2")


def instrument_error(name: str, size_mm: float) -> float:
    """Limit of error, mm: micrometers and bore gauges 0.004 to 50 mm, 0.001 more each further 50 mm."""
    return ERROR_MM.get(name, 0.004 + 0.001 * max(0, -(-size_mm // 50) - 1))


def random_job(seed: int):
    """A turned or bored diameter with limits, as a question to `choose`."""
    chance = random.Random(seed)
    machine = chance.choice(["gap-bed", "metric-lathe"])
    to = round(chance.uniform(10, 70), 2)
    grade = chance.choice([7, 8, 9, 10, 11, 12])
    limits = hn.cylindrical_fit(f"{to} mm h{grade}").shaft
    band = chance.choice([limits.max_mm - limits.min_mm, limits.max_mm - limits.min_mm, chance.uniform(0.02, 0.4)])
    off = chance.uniform(0.3, 6)
    length = chance.uniform(0.3, 2.0) * to
    how = {"length": f"{length} mm", "tolerance": f"{band} mm", "tool": chance.choice(["HSS", "carbide"])}
    if chance.random() < 0.3 and to > 20:
        how |= {"stick_out": f"{length + 15} mm", "bar_diameter": f"{0.55 * to} mm"}
        return "bore", chance.choice(ALLOYS), to - min(off, 0.3 * to), to, band, machine, how
    how["stick_out"] = f"{length * chance.uniform(1.0, 1.5)} mm"
    return "turn", chance.choice(ALLOYS), to + off, to, band, machine, how


def replay(found: hn.Passes, band: float, chance: np.random.Generator, *, measured: bool = True) -> np.ndarray:
    """Errors of the finished diameter, mm, of so many pieces made as the rows say."""

    def even(low: float, high: float) -> np.ndarray:
        return chance.uniform(low, high, DRAWS)

    core = hn.lathe(found.machine_name).core
    name = "compound" if any(item.code == "compound_over" for item in found.told) else "cross"
    slide = core.slide(name)
    fine = slide.graduation_mm / (2 if slide.reads_diameter else 1) * (0.1 if name == "compound" else 1.0)
    error = instrument_error(found.instrument, found.to_mm)
    expansion = found.alloy.expansion_um_m_k * 1e-6
    sign = 1.0 if found.do == "turn" else -1.0  # away from the axis in turning
    first = found.passes[0].cut
    force = even(first.cutting_force_low_n, first.cutting_force_high_n) / first.cutting_force_high_n
    touch = even(-TOUCH_MM, TOUCH_MM)
    # distances from the finished surface, on the radius, outwards into the stock
    surface = np.full(DRAWS, found.depth_mm)
    tool = surface + touch
    gone = 0.0
    for one in found.passes:
        bend = next((limit.value for limit in one.limits if limit.name == "deflection"), 0.0)
        if one.measure and measured:
            warm = even(0.0, 1.0 if "cold" in one.measure else 10.0)
            read = 2 * surface + sign * expansion * warm * found.to_mm + even(-error, error)
            left = read / 2
            tool -= (left / 2 if "half" in one.measure else left) + even(-fine / 2, fine / 2)
        elif one.measure:
            tool -= one.depth_mm + even(-fine / 2, fine / 2)
        else:
            gone += one.depth_mm
            tool = found.depth_mm - gone + touch + even(-found.line_mm / 2, found.line_mm / 2)
        spring = bend * force / one.depth_mm
        surface = np.minimum(surface, (tool + spring * surface) / (1 + spring))
    return 2 * surface


@pytest.fixture(scope="module")
def jobs():
    out = []
    seed = 0
    while len(out) < JOBS:
        do, alloy, start, to, band, machine, how = random_job(seed)
        found = hn.choose(do, alloy, f"{start} mm", f"{to} mm", machine=machine, brief=True, **how)
        if found.found:
            out.append((found, band))
        seed += 1
    assert seed < 2 * JOBS
    return out


def inside(jobs, *, measured: bool) -> list[float]:
    """Shares of pieces within limits, of each job that is not told to be beyond dial and instrument."""
    out = []
    for place, (found, band) in enumerate(jobs):
        if TOLD & {item.code for item in found.told}:
            continue
        errors = replay(found, band, np.random.default_rng(place), measured=measured)
        out.append(float(np.mean(np.abs(errors) <= band / 2)))
    return out


def test_of_a_thousand_pieces_990_are_within_limits(jobs):
    shares = inside(jobs, measured=True)
    assert len(shares) >= 0.8 * JOBS
    assert min(shares) >= 0.99, sorted(shares)[:20]


def test_without_the_measurements_they_are_not(jobs):
    shares = inside(jobs, measured=False)
    assert min(shares) < 0.5
    assert sum(share < 0.99 for share in shares) > 0.75 * len(shares)


def test_rows_are_those_of_the_tolerance(jobs):
    ways: dict[tuple[str, int], int] = {}
    for found, band in jobs:
        cuts = [one for one in found.passes if one.finish]
        roughs = [one for one in found.passes if not one.finish]
        assert all(one.dial is None for one in found.passes if one.measure)
        gone = np.cumsum([one.depth_mm for one in roughs]) / found.line_mm / found.lines_apart
        assert np.abs(gone - np.round(gone)).max(initial=0.0) < 1e-6
        assert len({one.cut.answer for one in roughs}) <= 1
        assert len({one.cut.answer for one in cuts}) == 1
        assert found.closing == ("one_measured" if band >= 0.1 else "halves")
        ways[found.closing, len(roughs)] = ways.get((found.closing, len(roughs)), 0) + 1
        if not roughs:
            assert "little_left" in {item.code for item in found.told} or len(cuts) == 2
            assert [bool(one.measure) for one in cuts][1:] == [True] * (len(cuts) - 1)
        elif band >= 0.1:
            assert [bool(one.measure) for one in cuts] == [True]
            assert cuts[0].depth_mm >= 0.125 - 1e-9
        else:
            assert [bool(one.measure) for one in cuts] == [True, True]
            assert cuts[0].depth_mm == pytest.approx(cuts[1].depth_mm)
            assert 0.1 - 1e-9 <= cuts[0].depth_mm <= 0.4 + 1e-9
    assert len(ways) >= 6, ways
