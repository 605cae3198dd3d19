"""What type checkers must refuse: every line with `# refused` behind it, and no other; nobody runs it."""

from __future__ import annotations

import numpy as np

import halfnut as hn
from halfnut import batch

# a bare number is never a length
hn.turn("6061-T6", 1.25)  # refused
hn.turn("6061-T6", "1.25 in", depth=0.04)  # refused
hn.turn("6061-T6", "1.25 in", feed=0.2)  # refused
hn.turn("6061-T6", "1.25 in", steadies=[3.0])  # refused
hn.drill("6061-T6", 8)  # refused
hn.knurl_blank(25.4, "96 DP")  # refused
hn.gear_train(1.5)  # refused
hn.tapping_hole("M6", engagement=6)  # refused
hn.wires("M10-6g", wire=0.9)  # refused
hn.suitable_wheels(25.4)  # refused

# choices
hn.turn("6061-T6", "1.25 in", hold="vice")  # refused
hn.chase("M24x1.5-6g", infeed="zigzag")  # refused

# what there is not
hn.turn("6061-T6", "1.25 in", spindel_rpm=600)  # refused
hn.turn("6061-T6")  # refused
hn.turn(6061, "1.25 in")  # refused
hn.turn("6061-T6", "1.25 in", machine=3)  # refused
print(hn.turn("6061-T6", "1.25 in").spindel_rpm)  # refused
hn.lathe(5)  # refused

# values stay as they are made
hn.turn("6061-T6", "1.25 in").spindle_rpm = 600.0  # refused
hn.alloy("1018").name = "mild steel"  # refused

# tables
batch.turn(3.0)  # refused
batch.turn({"diameter_mm": np.array([20.0])}, machine=3)  # refused
batch.turn({"diameter_mm": np.array([20.0])}, cancel=True)  # refused
batch.turn({"diameter_mm": np.array([20.0])}, depht_mm=1.0)  # refused
batch.turn({"diameter_mm": np.array([20.0])}, hold="vice")  # refused
batch.knurl_blank({"diameter_mm": np.array([20.0])}, patern="straight")  # refused
