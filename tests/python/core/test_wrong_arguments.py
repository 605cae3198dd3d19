"""Whatever is given to a public function, it answers, or says which argument is wrong: no other exception, no NaN."""

import inspect
import math
import re
import shlex

import numpy as np
import pytest

import halfnut as hn
from halfnut import batch
from halfnut.core.questions import declared

WRONG = [
    True,
    "",
    "300",
    "nonsense",
    "12 parsecs",
    "1\udcff mm",
    b"1 mm",
    (),
    [],
    {},
    object(),
    math.nan,
    math.inf,
    -math.inf,
    -1,
    0,
    1e308,
    10**400,
    3 + 4j,
    np.array([1.0, 2.0]),
    [1, "a"],
    len,
]

# A right question to each public function: its arguments by name.
RIGHT = {
    "adjuster": {
        "external": "M20x1.5-6g", "internal": "M20x1.5-6H", "thread_length": "50 mm", "base_thread": "32 mm",
        "length_of_tube": "400 mm", "tube_diameter": "20 mm", "bore": "14 mm", "alloy": "6061-T6", "form": "drawn tube",
        "push": "500 N", "pull": "500 N", "factor_of_safety": 4.0, "base_outside": "30 mm", "base_reach": "32 mm",
        "rule_diameters": 1.0,
    },
    "alloy": {"name": "6061-T6"},
    "blind_hole": {"thread": "M6", "full_thread": "15 mm"},
    "bore": {"alloy": "6061-T6", "diameter": "25 mm"},
    "chase": {"thread": "M24x1.5-6g"},
    "choose": {
        "do": "turn", "alloy": "6061-T6", "diameter": "32 mm", "to": "28 mm", "length": "40 mm",
        "machine": "metric-lathe",
    },
    "clearance_hole": {"thread": "M6"},
    "coating": {"text": "anodise II 12 um"},
    "counterbore": {"alloy": "6061-T6", "diameter": "11 mm", "hole": "6.6 mm"},
    "countersink": {"alloy": "6061-T6", "diameter": "12 mm", "hole": "6.6 mm"},
    "cut_to_suit": {
        "thread": "M10", "clearance": "0.02-0.06 mm", "internal_pitch": "9.100 mm", "build_up": "3-5 um",
    },
    "cylindrical_fit": {"text": "25 H7/g6"},
    "divide": {"part": 7},
    "drill": {"alloy": "6061-T6", "diameter": "6 mm"},
    "face": {"alloy": "6061-T6", "diameter": "25 mm"},
    "fit": {"external": "M10-6g", "internal": "M10-6H"},
    "galling": {"external_alloy": "6061-T6", "internal_alloy": "6061-T6"},
    "gear_train": {"lead": "1.5 mm", "gears": [20, 30, 40, 60, 127], "leadscrew": "8 TPI"},
    "groove": {"alloy": "6061-T6", "diameter": "30 mm", "end_diameter": "24 mm", "width": "8 mm"},
    "helix": {"alloy": "6061-T6", "cutter": "10 mm", "hole": "16 mm", "depth": "5 mm"},
    "hold": {
        "alloy": "6061-T6", "diameter": "20 mm", "stick_out": "120 mm", "depth": "0.5 mm", "feed": "0.1 mm/rev",
    },
    "holding_taper": {"name": "morse 3"},
    "identify_thread": {"diameter": "0.248 in", "pitch": "20 tpi"},
    "inch": {"value": 1.0},
    "judge": {"thread": "M10-6g", "pitch": "9.050 mm"},
    "knurl": {"alloy": "6061-T6", "diameter": "25 mm"},
    "knurl_blank": {"diameter": "20 mm", "pitch": "96 DP"},
    "knurl_setup": {"diameter": "20 mm", "pitch": "RGE 0.8", "alloy": "brass", "width": "12 mm"},
    "lathe": {"machine_or_name": "gap-bed"},
    "limits": {"thread": "M10-6g"},
    "mill": {"alloy": "6061-T6", "cutter": "10 mm", "depth": "2 mm", "width": "3 mm"},
    "milling_machine": {"machine_or_name": "bench-mill"},
    "minimum_strength": {"alloy": "6061-T6", "form": "drawn tube"},
    "mm": {"value": 1.0},
    "part_off": {"alloy": "6061-T6", "diameter": "25 mm"},
    "polygon": {"flats": 6, "across_flats": "17 mm"},
    "positions": {"pattern": "circle", "holes": 5, "diameter": "60 mm"},
    "precoat": {"thread": "M10-6g", "build_up": "8 um"},
    "quantity": {"value": "3 mm", "dimension": "length"},
    "ramp": {"alloy": "6061-T6", "cutter": "10 mm", "depth": "3 mm"},
    "ream": {"alloy": "6061-T6", "diameter": "6 mm"},
    "plain_thread": {"side": "external", "pitch": "4 mm", "half_angle_deg": 15, "pitch_diameter": "17.9 mm"},
    "preferred_fits": {"basis": "hole"},
    "saw": {
        "alloy": "6061-T6", "blade": "80 mm", "thickness": "1 mm", "depth": "6 mm", "teeth": 48, "length": "50 mm",
    },
    "screw_hole": {"alloy": "6061-T6", "thread": "M6"},
    "screw_seat": {"thread": "M6"},
    "shop_plug": {"thread": "M10-6H"},
    "sine_bar": {"angle": "27 deg"},
    "spot": {"alloy": "6061-T6", "diameter": "6 mm"},
    "strength": {
        "external": "M10-6g", "internal": "M10-6H", "engagement": "15 mm", "external_grade": "8.8",
        "internal_tensile": "310 MPa",
    },
    "suitable_wheels": {"diameter": "1/2 in", "pattern": "straight"},
    "tap": {"alloy": "6061-T6", "thread": "M6"},
    "taper": {"alloy": "1018", "large": "30 mm", "small": "20 mm", "length": "50 mm"},
    "taper_pipe": {"thread": "1/2-14 NPT"},
    "tapping_hole": {"thread": "M6"},
    "thread": {"text": "M10-6g"},
    "thread_speed": {"alloy": "6061-T6", "diameter": "24 mm", "pitch": "1.5 mm"},
    "threads_near": {"diameter": "1/4 in"},
    "tighten": {"thread": "M10", "preload": "20 kN", "friction": (0.10, 0.16)},
    "force_band": {"alloy": "1045", "process": "mill"},
    "tool_life": {"alloy": "1045", "tool": "coated carbide", "life_min": 15.0},
    "translating_pairs": {"gears": [100, 120, 127]},
    "turn": {"alloy": "6061-T6", "diameter": "32 mm"},
    "wires": {"thread": "M10-6g"},
}  # fmt: skip


def of_example(question):
    """The arguments of a question's first example, by their names."""
    rows = {row["option"] or row["name"].replace("_", "-"): row for row in question["arguments"]}
    placed = [row for row in question["arguments"] if row["placed"]]
    words, out = shlex.split(question["example"].splitlines()[0])[1:], {}
    while words:
        word = words.pop(0)
        row = rows[word.removeprefix("--")] if word.startswith("--") else placed.pop(0)
        text = True if row["kind"] == "flag" else words.pop(0) if word.startswith("--") else word
        plain = {"count": int, "number": float}.get(row["kind"], str)
        found = text if row["written"] or text is True else plain(text)
        out[row["name"]] = (found,) if row["kind"] == "list" else found
    return out


RIGHT |= {name: of_example(question) for name, question in declared().items() if name not in RIGHT}

# Functions that take a record or a file, or draw.
LEFT = {"force_map", "pass_plan", "plan", "shop", "speed_chart"}

BATCHES = {
    "turn": {"frame": {"alloy": ["6061-T6"], "diameter_mm": [25.0]}},
    "drill": {"frame": {"alloy": ["6061-T6"], "diameter_mm": [6.0]}},
    "mill": {
        "frame": {"alloy": ["6061-T6"], "cutter_diameter_mm": [10.0], "depth_mm": [2.0], "width_mm": [3.0]},
    },
    "limits": {"frame": {"thread": ["M10-6g"]}},
    "fit": {"frame": {"external": ["M10-6g"], "internal": ["M10-6H"]}},
    "wires": {"frame": {"thread": ["M10-6g"]}},
    "taper_pipe": {"frame": {"thread": ["1/2-14 NPT"]}},
    "knurl_blank": {"frame": {"diameter_mm": [20.0]}, "pitch": "96 DP"},
}


# Values that say nothing, or too much, and whose refusal says why the question then has no answer.
EXPLAINED = [
    ("adjuster", "second", {}),
    ("adjuster", "lubricant", ""),
    ("coating", "text", ""),
    ("tool_life", "change_min", 1e308),
]


def questions():
    """Each function, each of its arguments, and a right question."""
    for name, right in RIGHT.items():
        yield from ((getattr(hn, name), argument, right) for argument in _arguments(getattr(hn, name), right))
    for name, right in BATCHES.items():
        function = getattr(batch, name)
        for argument in _arguments(function, right):
            if argument not in {"progress", "cancel"}:
                yield function, argument, right


def _arguments(function, right):
    named = [
        name
        for name, parameter in inspect.signature(function).parameters.items()
        if parameter.kind not in (parameter.VAR_KEYWORD, parameter.VAR_POSITIONAL)
    ]
    return list(dict.fromkeys([*named, *right]))


def test_every_public_function_is_asked():
    functions = {name for name in hn.__all__ if inspect.isfunction(getattr(hn, name))}
    assert functions - {"batch"} == {*RIGHT} | LEFT
    for name, right in RIGHT.items():
        getattr(hn, name)(**right)


@pytest.mark.parametrize(
    ("function", "argument", "right"), list(questions()), ids=lambda value: getattr(value, "__name__", "")
)
def test_a_wrong_value_is_refused_by_name_or_answered(function, argument, right):
    for wrong in WRONG:
        try:
            answer = function(**{**right, argument: wrong})
        except (hn.Error, TypeError, ValueError) as error:
            told = (function.__name__, argument, wrong) in EXPLAINED if isinstance(wrong, (str, dict, float)) else False
            assert told or names(str(error), argument, wrong), (wrong, type(error), str(error))
            assert "incompatible function arguments" not in str(error), (wrong, str(error))
            continue
        assert not list(not_finite(answer)), (wrong, list(not_finite(answer))[:5])


def names(message, argument, wrong):
    """Whether a message names the argument, or quotes a text that was given for it."""
    if argument == "machine_or_name":
        return "machine" in message or "gears" in message
    stem = re.sub(r"_(mm|deg|rpm|hb|um|min|n|name)$", "", argument)
    spoken = stem.replace("_", " ")
    # What is held in a table is named by its column.
    own = "column" if argument == "frame" else stem
    shown = wrong[:4] if isinstance(wrong, str) and wrong else repr(wrong)[:40]
    return own in message or spoken in message or shown in message or spoken.split()[-1] in message


def not_finite(answer):
    """Figures of an answer that are NaN or infinite, but for the rows of a batch that are marked as failed."""
    if isinstance(answer, dict):
        for name, column in answer.items():
            if isinstance(column, np.ndarray) and column.dtype.kind == "f":
                yield from ((name, float(each)) for each in column[np.isinf(column)])
            elif isinstance(column, float) and not math.isfinite(column):
                yield name, column
    elif hasattr(answer, "to_dict"):
        yield from not_finite(answer.to_dict())
