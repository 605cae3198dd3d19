"""Questions at random, for what must answer as Python does: their own examples, changed and mistaken."""

from __future__ import annotations

import json
import sys
from pathlib import Path

from hypothesis import strategies as st

import halfnut as hn
from halfnut.core.questions import declared
from halfnut.knurls.wheels import knurl_wheels

sys.path.insert(0, str(Path(__file__).parents[1] / "text"))
from kept import example

QUESTIONS = list(declared().values())


def machine(name):
    return json.loads(hn.lathe(name).core.json() if name != "bench-mill" else hn.milling_machine(name).core.json())


def inline(asked):
    """The question with machines in place of their names, and the wheels at hand."""
    rows = {row["name"]: row for row in declared()[asked["question"]]["arguments"]}
    values = {
        key: machine(value) if key in rows and rows[key]["kind"] == "machine" and isinstance(value, str) else value
        for key, value in asked["values"].items()
    }
    at_hand = {name: list(knurl_wheels()) for name, row in rows.items() if row["kin"] == "KnurlWheels"}
    return {**asked, "values": at_hand | values}


# What is sensible in a unit, and what is not: at the edge of a range, without a unit, of another kind.
SENSIBLE = {
    "mm": (0.2, 20.0),
    "mm/rev": (0.02, 0.4),
    "deg": (5.0, 60.0),
    "rev/min": (50.0, 2000.0),
    "HB": (50.0, 300.0),
}
_ODD = st.sampled_from([
    0.0, -1.0, 1e-9, 1e300, 3, True, None, "", "é", "unobtainium", "1.25", "32 kg", '3/8"', "0.1 mm/rev", "M10", "chuk",
    "96 DP", "0x10 mm", "1e999 mm", "08 mm", "1-1/4 in", "#7", "letter F", "30 deg", "300 rpm",
])  # fmt: skip


@st.composite
def questions(draw):
    """A question with some of its arguments, most of them sensible."""
    question = draw(st.sampled_from(QUESTIONS))
    values = example(question)
    if "alloy" in values:
        values["alloy"] = draw(st.sampled_from(["6061-T6", "4130-N", "Ti-2", "brass", "304", "acetal", "7075"]))
    for row in question["arguments"]:
        name = row["name"]
        if draw(st.integers(0, 19)) == 19 and row["kind"] != "machine" and row["kin"] != "KnurlWheels":
            values[name] = draw(_ODD)
        elif draw(st.integers(0, 7)) < 7:
            continue
        elif row["kind"] == "machine":
            values[name] = draw(st.sampled_from(["gap-bed", "metric-lathe", "bench-mill"]))
        elif row["kind"] == "choice":
            values[name] = draw(st.sampled_from(row["choices"]))
        elif row["kind"] == "flag":
            values[name] = draw(st.booleans())
        elif row["kind"] == "number":
            values.pop(name, None)
            values[row["key"]] = draw(st.floats(*SENSIBLE.get(row["unit"], (0.1, 2.0))))
    return {"question": question["name"], "values": values}
