"""What type checkers must accept; nobody runs it."""

from __future__ import annotations

import threading
from pathlib import Path
from typing import Any, assert_type

import numpy as np
import polars as pl
from numpy.typing import NDArray

import halfnut as hn
from halfnut import batch
from halfnut.cutting import spindle_speed_rpm
from halfnut.cutting.chasing import Chasing
from halfnut.cutting.figures import Cut, GearTrains
from halfnut.knurls.figures import KnurlBlank
from halfnut.machine.machines import Machine
from halfnut.material.alloys import Alloy

lathe = hn.lathe("gap-bed")
assert_type(lathe, Machine)
assert_type(hn.lathe(Path("lathe.toml")), Machine)
assert_type(lathe.replace(motor="3 hp"), Machine)

cut = hn.turn("6061-T6", "1.25 in", machine=lathe, hold="chuck and centre", steadies=["3 in"])
assert_type(cut, Cut)
assert_type(cut.spindle_rpm, float)
assert_type(cut.depth_mm, float | None)
assert_type(cut.assumed, tuple[str, ...])
assert_type(cut.alloy, Alloy)
assert_type(hn.turn(hn.alloy("6061-T6"), hn.inch(1.25), machine="gap-bed", spindle_rpm=600), Cut)
assert_type(hn.drill("1018", hn.mm(8), machine=None), Cut)
assert_type(hn.knurl_blank("1 in", "96 DP"), KnurlBlank)
assert_type(hn.chase("M24x1.5-6g", machine=lathe, infeed="straight"), Chasing)
assert_type(hn.gear_train("1.5 mm", gears=(20, 40, 60), leadscrew="8 TPI"), GearTrains)

assert_type(spindle_speed_rpm(100.0, 50.0), float)

columns = {"diameter_mm": np.array([20.0, 30.0])}
assert_type(batch.turn(columns, alloy="6061-T6", machine=lathe), dict[str, NDArray[Any]])
assert_type(batch.ask("turn", columns, alloy="6061-T6"), dict[str, NDArray[Any]])
assert_type(batch.turn(columns, alloy="6061-T6", depth_mm=1.0, hold="chuck and centre"), dict[str, NDArray[Any]])
frame = pl.DataFrame(columns)
assert_type(batch.turn(frame, alloy="6061-T6", cancel=threading.Event()), pl.DataFrame)
assert_type(batch.knurl_blank(frame, pitch="96 DP"), pl.DataFrame)
assert_type(batch.ask("drill", frame, alloy="6061-T6"), pl.DataFrame)
