"""The jobs that batch and peer are compared on, and both of them set up."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from numpy_turning import FIGURES, INPUTS, Turning

from halfnut import _core, batch
from halfnut.batch import cuts
from halfnut.core.catalogue import rows

SPEEDS_RPM = (70, 115, 190, 300, 460, 600, 755, 920, 1255, 1600, 2000)
FEEDS_MM = np.geomspace(0.03, 0.6, 36)
POWER_KW = 1.2
CHUCK_RPM = 1800.0
DEFLECTION_LIMIT_MM = 0.02
COLUMNS = [*FIGURES, "cautions", "status"]


def lathe() -> _core.Machine:
    """A lathe of eleven speeds and thirty-six feeds."""
    feeds = [_core.FeedStep(feed_mm=float(feed), marked=float(feed)) for feed in FEEDS_MM]
    return _core.Machine(
        spindle=[_core.SpindleStep(rpm=rpm, power_kw=POWER_KW) for rpm in SPEEDS_RPM],
        carriage=_core.FeedLadder(steps=feeds),
        chucks=[_core.Chuck(name="three-jaw", jaws=3, diameter_mm=160.0, rpm_limit=CHUCK_RPM)],
    )


def alloys_of_one_case() -> dict[int, tuple[batch.Case, batch.Case]]:
    """Alloys whose window does not depend on depth and feed: the peer's tables need one row each, rough and finish."""
    count = len(rows("material/alloys"))
    feeds = np.arange(0.03, 0.45, 0.0025)  # a printed row may hold for a few hundredths only
    each = 5 * len(feeds)
    frame = {
        "diameter_mm": np.full(each * count, 50.0),
        "depth_mm": np.tile(np.repeat([0.2, 0.45, 0.6, 1.2, 2.4], len(feeds)), count),
        "feed_mm_rev": np.tile(feeds, 5 * count),
    }
    ids = np.empty(each * count, np.int32)
    status = np.empty(each * count, np.uint8)
    _core.batch_cuts(
        "turn", cuts.turn_cases(), None, each * count, list(range(count)),
        np.repeat(np.arange(count, dtype=np.int32), each), ["HSS"], 0, None, frame, False, "chuck", False, -1,
        {"case_id": ids, "status": status},
    )  # fmt: skip
    found = batch.cases({"case_id": ids})
    out = {}
    for alloy, seen in enumerate(ids.reshape(count, each)):
        rough, finish = set(seen[2 * len(feeds) :].tolist()), set(seen[: 2 * len(feeds)].tolist())
        if len(rough) == len(finish) == 1 and min(rough | finish) >= 0:
            one = found[rough.pop()], found[finish.pop()]
            if not np.isnan(one[0].kc11_n_mm2):
                out[alloy] = one
    return out


class Jobs:
    """Rows for both, and both ready to answer them into arrays that are there already."""

    def __init__(self, count: int, seed: int = 7):
        random = np.random.default_rng(seed)
        known = alloys_of_one_case()
        # softer work whips at these overhangs, of which the peer knows nothing
        known = {alloy: pair for alloy, pair in known.items() if pair[0].youngs_modulus_gpa >= 1.0}
        self.alloys = list(known)
        self.alloy = random.integers(0, len(known), count).astype(np.int32)
        self.given: dict[str, NDArray[np.float64]] = {
            "diameter_mm": random.uniform(12.0, 120.0, count),
            "depth_mm": random.uniform(0.2, 2.4, count),
            "feed_mm_rev": random.uniform(0.04, 0.4, count),
            "length_mm": random.uniform(0.5, 2.4, count),
            "stick_out_mm": random.uniform(0.0, 2.0, count),
            "nose_radius_mm": random.choice([0.2, 0.4, 0.8], count),
            "entering_deg": random.uniform(45.0, 95.0, count),
        }
        assert tuple(self.given) == INPUTS
        # in diameters: work that stands out as far as the cut is long and more, and does not whip
        self.given["length_mm"] *= self.given["diameter_mm"]
        self.given["stick_out_mm"] *= self.given["diameter_mm"]
        self.given["stick_out_mm"] += self.given["length_mm"]
        self.machine = lathe()
        self.cases = cuts.turn_cases()
        self.peer = self._peer(known)

    def _peer(self, known: dict[int, tuple[batch.Case, batch.Case]]) -> Turning:
        flat = [case for pair in known.values() for case in pair]
        names = [
            "window_low_m_min",
            "window_high_m_min",
            "kc11_n_mm2",
            "mc",
            "kc_speed_m_min",
            "band_high",
            "youngs_modulus_gpa",
        ]
        tables = {name: np.array([getattr(case, name) for case in flat]) for name in names}
        probe = batch.turn(
            {
                "alloy": [case.alloy for case in flat],
                "diameter_mm": np.full(len(flat), 1000.0),
                "depth_mm": np.where([case.finish for case in flat], 0.2, 0.6),
            },
            feed_mm_rev=0.1,
            columns=["cautions"],
        )
        lasting = sum(
            1 << bit
            for bit, name in enumerate(_core.caution_codes())
            if name in ("window_stand_in", "window_doubtful", "window_far", "force_rough")
        )
        return Turning(
            tables,
            probe["cautions"] & np.uint64(lasting),
            np.array(SPEEDS_RPM, float),
            np.full(len(SPEEDS_RPM), POWER_KW),
            FEEDS_MM,
            CHUCK_RPM,
            DEFLECTION_LIMIT_MM,
        )

    def places(self) -> dict[str, NDArray]:
        """Arrays for the answers, touched."""
        kinds = {"cautions": np.uint64, "status": np.uint8}
        return {name: np.full(len(self.alloy), 1, kinds.get(name, np.float64)) for name in COLUMNS}

    def halfnut(self, out: dict[str, NDArray], workers: int = 0, clone: str = "") -> None:
        """Answer by the core."""
        _core.batch_cuts(
            "turn", self.cases, self.machine, len(self.alloy), self.alloys, self.alloy, ["HSS"], 0, None,
            {**self.given, "deflection_limit_mm": DEFLECTION_LIMIT_MM}, False, "chuck", False, 0, out, workers, clone,
        )  # fmt: skip

    def numpy(self, out: dict[str, NDArray]) -> None:
        """Answer by NumPy."""
        self.peer.run(self.alloy, self.given, out)
