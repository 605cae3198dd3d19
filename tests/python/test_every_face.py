"""One question at random on every face: function, table, JSON and the C face give the same figures, bit for bit."""

import copy
import json
import math
import pickle
import sys
from functools import cache
from importlib import import_module
from pathlib import Path

import jsonschema
import numpy as np
import pytest
from hypothesis import example as always
from hypothesis import given, settings
from hypothesis import strategies as st

import halfnut as hn
from halfnut import batch
from halfnut.core import schemas
from halfnut.core.questions import declared
from halfnut.core.schemas import answer

sys.path.insert(0, str(Path(__file__).parent))
from random_questions import SENSIBLE, example

IN_INCHES = {"mm": "in", "mm/rev": "in/rev"}
IN_A_COLUMN = {"number", "count", "choice", "text"}
TEXTS = {
    "alloy": ["6061-T6", "4130-N", "Ti-2", "brass", "304", "acetal", "unobtainium"],
    "thread": ["M10-6g", "1/4-20 UNC-2A", "Tr16x4-7e", "1/2 BSW", "G1/2 A", "M24x1.5-6H", "nothing"],
    "pitch": ["96 DP", "1 mm", "21 TPI", "nothing"],
}


@cache
def validators(name):
    """What a question's JSON Schema says of it and of its answer."""
    schema = schemas.schema(name)
    of_answer = {**schema["$defs"]["answer"], "$schema": schema["$schema"]}
    return jsonschema.Draft202012Validator(schema), jsonschema.Draft202012Validator(of_answer)


def function(question):
    return getattr(import_module(f"halfnut.{question['room']}.questions"), question["name"])


def cells(row):
    """What a cell of an argument's column may hold, most of it sensible."""
    if row["kind"] == "choice":
        return st.sampled_from(row["choices"])
    if row["kind"] == "text":
        return st.sampled_from(TEXTS[row["name"]])
    low, high = SENSIBLE.get(row["unit"], (0.1, 2.0))
    if row["kind"] == "count":
        return st.integers(1, 12).map(float)
    return st.floats(low, high)


@st.composite
def tables(draw):
    """A question, what all its rows share, and rows of what is in columns, each with some cells left out."""
    question = declared()[draw(st.sampled_from(list(declared())))]
    shared = example(question)
    columns = []
    for row in question["arguments"]:
        name, kind = row["name"], row["kind"]
        if kind == "machine" and draw(st.booleans()):
            shared[name] = draw(st.sampled_from(["gap-bed", "metric-lathe", "bench-mill"]))
        elif kind == "flag" and draw(st.integers(0, 3)) == 0:
            shared[name] = draw(st.booleans())
        elif kind in IN_A_COLUMN and (kind != "text" or name in TEXTS) and draw(st.integers(0, 3)) == 0:
            columns.append(row)
            shared.pop(name, None)
    rows = []
    for _ in range(draw(st.integers(1, 3))):
        rows.append({row["name"]: draw(cells(row)) for row in columns if draw(st.integers(0, 4))})
    return question["name"], shared, [row["name"] for row in columns], rows, draw(st.booleans())


def spelled(row, inch):
    """The name of an argument's column, in inches where it has such a unit."""
    if row["kind"] in {"choice", "text"}:
        return row["name"]
    other = IN_INCHES.get(row["unit"]) if inch else None
    return row["key"].removesuffix(row["unit"].replace("/", "_")) + other.replace("/", "_") if other else row["key"]


def written(row, value, inch):
    """A cell as the function takes it."""
    unit = IN_INCHES.get(row["unit"], row["unit"]) if inch else row["unit"]
    if row["kind"] == "count":
        return int(value)
    return f"{value!r} {unit}" if row["kind"] == "number" and row["written"] else value


def same(found, wanted):
    """Whether a cell of an answer is the figure of an answer."""
    if isinstance(found, str):
        return found == (wanted or "")
    return math.isnan(found) if wanted is None else found == wanted


BEYOND_TWO_SLIDES = {"teeth": 48, "machine": "bench-mill", "alloy": "6061-T6", "blade": "80mm", "depth": "6mm"}


@settings(max_examples=300, deadline=None)
@given(tables())
@always(("saw", BEYOND_TWO_SLIDES, ["thickness", "length"], [{"thickness": 13.0, "length": 17.0}], True))
def test_a_function_a_table_and_json_answer_alike(asked):
    question, shared, columns, rows, inch = declared()[asked[0]], *asked[1:]
    columns = [row for row in question["arguments"] if row["name"] in columns]
    frame = {
        spelled(row, inch): [
            each.get(row["name"], None if row["kind"] in {"choice", "text"} else np.nan) for each in rows
        ]
        for row in columns
    }
    frame = frame or {"a column of something else": [0.0] * len(rows)}
    listed = (row for row in question["answer"]["figures"] if not row["aside"])
    keys = [row["key"] for row in listed if row["kind"] in {"number", "count", "flag", "text"}]
    try:
        done = batch.ask(question["name"], frame, **shared)
    except hn.Error:
        done = None  # what all rows share is refused at once
    for place, each in enumerate(rows):
        values = {row["name"]: written(row, each[row["name"]], inch) for row in columns if row["name"] in each}
        by_json = {"question": question["name"], "values": shared | values}
        try:
            told = answer(json.loads(json.dumps(by_json)))
        except hn.Error as error:
            told = str(error)
        try:
            answered = function(question)(**shared, **values)
        except (hn.Error, TypeError) as error:
            if isinstance(error, hn.Error):
                assert told == str(error)
            assert done is None or done["status"][place] != 0
            if done is not None and isinstance(error, hn.Error):
                assert done["reason"][place] == str(error)
            continue
        of_question, of_answer = validators(question["name"])
        of_question.validate(by_json)
        of_answer.validate(told)
        flat = schemas.flat(answered)
        assert [key for key in {*flat, *told} if flat.get(key) != told.get(key)] == []
        limits = [each.name for each in getattr(answered, "limits", ())]
        assert len(limits) == len(set(limits))
        if done is None:
            continue
        assert done["status"][place] == 0, done["reason"][place]
        for key in keys:
            assert same(done[key][place], told[key]), (key, done[key][place], told[key])


@pytest.mark.parametrize("name", list(declared()))
def test_an_answer_is_a_value(name):
    question = declared()[name]
    given = example(question)
    found, again = function(question)(**given), function(question)(**given)
    assert found == again
    assert hash(found) == hash(again)
    assert found != name
    for made in (pickle.loads(pickle.dumps(found)), copy.deepcopy(found), copy.copy(found)):
        assert type(made) is type(found)
        assert made == found
        assert hash(made) == hash(found)
        assert (str(made), repr(made), made.to_dict()) == (str(found), repr(found), found.to_dict())
        assert made.evidence == found.evidence
