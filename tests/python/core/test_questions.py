"""Questions that the core declares: what is made of them is what stands in the tree, and every face asks the same."""

import importlib.util
import inspect
import json
import sys
from importlib import import_module
from pathlib import Path

import jsonschema
import pytest

import halfnut as hn
from halfnut import _core, batch
from halfnut.cli.output import json_text
from halfnut.core import schemas
from halfnut.core.catalogue import active
from halfnut.core.questions import ask, declared
from halfnut.core.schemas import answer

sys.path.insert(0, str(Path(__file__).parents[2] / "text"))
from kept import example

_spec = importlib.util.spec_from_file_location("stubs", Path(__file__).parents[2] / "stubs/questions.py")
stubs = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(stubs)
QUESTIONS = list(declared().values())
by_name = pytest.mark.parametrize("question", QUESTIONS, ids=[question["name"] for question in QUESTIONS])


def test_what_is_written_of_the_declarations_stands_in_the_tree():
    for path, text in stubs.modules().items():
        assert path.read_text(encoding="utf-8") == text, f"./shop stubs writes {path.name} of {path.parent.name} anew"


OF_NOTHING = {"data", "preferred_fits", "translating_pairs"}  # lists: nothing has to be said


@by_name
def test_a_declaration_is_whole(question):
    rows = question["arguments"]
    names, keys = [row["name"] for row in rows], [row["key"] for row in rows]
    assert len(set(names)) == len(names)
    assert len(set(keys)) == len(keys)
    ranks = sorted(row["leads"] for row in rows if row["leads"])
    assert ranks == list(range(1, len(ranks) + 1))
    required = [row["required"] for row in rows]
    for row in rows:
        assert row["about"].endswith(".") and row["about"][0].isupper(), row["name"]
        assert not row["usual"].endswith("."), row["name"]
        assert row["required"] or row["kind"] != "choice" or row["usual"] in ("", *row["choices"]), row["name"]
    assert any(required) or question["name"] in OF_NOTHING
    assert question["sources"] and question["example"]
    figures = [figure["key"] for figure in question["answer"]["figures"]]
    assert len(set(figures)) == len(figures)


@by_name
def test_its_function_has_its_arguments(question):
    signature = inspect.signature(getattr(import_module(f"halfnut.{question['room']}.questions"), question["name"]))
    assert set(signature.parameters) == {row["name"] for row in question["arguments"]}
    for row in question["arguments"]:
        assert (signature.parameters[row["name"]].default is inspect.Parameter.empty) == row["required"], row["name"]


@by_name
def test_what_is_required_and_not_given_is_named(question):
    if question["name"] in OF_NOTHING:
        return
    first = next(row for row in question["arguments"] if row["required"])
    with pytest.raises(hn.DomainError, match=f"{question['name']} needs {first['name']}: "):
        ask(question["name"], ())


def test_an_unknown_question_is_refused_with_the_nearest():
    with pytest.raises(hn.NotTabulatedError, match="no question 'turm'; did you mean 'turn'"):
        _core.ask("turm", (), active())


def test_an_error_speaks_of_what_a_person_gave_in_his_units():
    with pytest.raises(hn.DomainError, match=r"blade must be > 0 in, got 0"):
        hn.part_off("brass", "1 in", blade="0 in")
    with pytest.raises(hn.DomainError, match=r"depth must be at most half of diameter, got 2 in"):
        hn.turn("brass", "1 in", depth="2 in")
    with pytest.raises(hn.DomainError, match="overhang must be > 0 mm, got 0"):
        hn.bore("brass", "25 mm", overhang="0 mm")


def test_a_table_is_asked_by_its_own_names_or_told_what_they_are():
    with pytest.raises(hn.NotTabulatedError, match="did you mean 'turn'"):
        batch.ask("turm", {"diameter_mm": [3.0]})
    with pytest.raises(hn.DomainError, match="no argument 'tol'; the nearest is 'tool'"):
        batch.ask("turn", {"diameter_mm": [3.0]}, alloy="brass", tol="HSS")
    with pytest.raises(hn.DomainError, match="both give the alloy"):
        batch.ask("turn", {"diameter_mm": [3.0], "alloy": ["brass"]}, alloy="brass")
    inch = batch.ask("turn", {"diameter_in": [1.0]}, alloy="brass", columns=["unit", "depth_mm"])
    assert inch["unit"][0] == "in"
    assert inch["depth_mm"][0] == hn.turn("brass", "1 in").depth_mm


@by_name
def test_its_schema_is_one_and_its_example_keeps_it(question):
    schema = schemas.schema(question["name"])
    jsonschema.Draft202012Validator.check_schema(schema)
    asked = {"question": question["name"], "values": example(question)}
    jsonschema.validate(asked, schema)
    found = json.loads(json_text(answer(asked)))
    jsonschema.validate(found, {**schema["$defs"]["answer"], "$schema": schema["$schema"]})
    assert found["halfnut"] == 1
    assert found["question"] == question["name"]


@pytest.mark.parametrize(
    ("asked", "why"),
    [
        ([], "a question is an object"),
        ({"question": "turn", "value": {}}, "has no 'value'"),
        ({"question": "turm", "values": {}}, "did you mean 'turn'"),
        ({"halfnut": 2, "question": "turn", "values": {}}, "halfnut must be 1"),
        ({"question": "turn", "values": {"alloy": "brass"}}, "turn needs diameter"),
        ({"question": "turn", "values": {"aloy": "brass"}}, "turn has no 'aloy'; did you mean 'alloy'"),
        ({"question": "turn", "values": {"alloy": "brass", "diameter": "1 in", "diameter_mm": 3}}, "given twice"),
        ({"question": "turn", "values": {"alloy": "brass", "diameter_mm": "3"}}, "diameter_mm must be a number in mm"),
        ({"question": "turn", "values": {"alloy": "brass", "diameter": 3}}, "has no unit"),
    ],
)
def test_json_that_is_no_question_is_told_so(asked, why):
    with pytest.raises(hn.Error, match=why):
        answer(asked)
