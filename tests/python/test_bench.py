"""The peer of the bench computes the same columns by the same rules; marks know when they are met."""

import sys
from pathlib import Path

import numpy as np
import pytest

from halfnut import _core

BENCH = Path(__file__).parents[1] / "bench"


@pytest.fixture(scope="module")
def jobs():
    sys.path.insert(0, str(BENCH))
    try:
        import marks  # noqa: F401
        import turning_jobs
    finally:
        sys.path.remove(str(BENCH))
    return turning_jobs


def test_the_peer_agrees_with_the_batch(jobs):
    made = jobs.Jobs(30_000, seed=11)
    assert len(made.alloys) >= 20
    made.given["diameter_mm"][5] = -1.0
    made.given["depth_mm"][77] = 400.0
    ours, theirs = made.places(), made.places()
    made.halfnut(ours)
    made.numpy(theirs)
    worst = 0.0
    for name in jobs.COLUMNS:
        if name == "status":
            assert np.array_equal(ours[name] != 0, theirs[name] != 0)
            continue
        ok = ours["status"] == 0
        a, b = ours[name][ok], theirs[name][ok]
        if name == "cautions":  # of work that climbs the tool, and of chips that burn, the peer knows nothing
            unknown = np.uint64(sum(1 << _core.caution_codes().index(code) for code in ("climbs", "fine_feed_fire")))
            assert np.array_equal(a & ~unknown, b)
            continue
        assert np.array_equal(np.isnan(a), np.isnan(b)), name
        there = ~np.isnan(a)
        assert there.sum() > 20_000
        worst = max(worst, np.max(np.abs(a[there] - b[there]) / np.abs(b[there])))
    assert worst <= 1e-12
    assert (ours["status"] != 0).sum() == 2


def test_marks_know_when_they_are_met(jobs):
    from marks import Mark, ratio

    assert Mark("rate", 8.0, 7.0).met is True
    assert Mark("rate", 6.0, 7.0).met is False
    assert Mark("time", 6.0, 7.0, at_least=False).met is True
    assert Mark("told", 1.0).met is None
    assert ratio([2.0, 9.0, 4.0], [1.0, 1.0, 2.0]) == 2.0
