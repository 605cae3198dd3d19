"""Questions that the core declares: what is made of them is what stands in the tree, and every face asks the same."""

import importlib.util
import inspect
from pathlib import Path

import pytest

import halfnut as hn
from halfnut import _core
from halfnut.core.catalogue import active
from halfnut.core.questions import ask, declared

_spec = importlib.util.spec_from_file_location("stubs", Path(__file__).parents[2] / "stubs/questions.py")
stubs = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(stubs)
QUESTIONS = list(declared().values())
by_name = pytest.mark.parametrize("question", QUESTIONS, ids=[question["name"] for question in QUESTIONS])


def test_what_is_written_of_the_declarations_stands_in_the_tree():
    for path, text in stubs.modules().items():
        assert path.read_text(encoding="utf-8") == text, f"./shop stubs writes {path.name} of {path.parent.name} anew"


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
        assert row["required"] or row["kind"] != "choice" or row["usual"] in row["choices"], row["name"]
    assert any(required)
    assert question["sources"] and question["example"]
    figures = [figure["key"] for figure in question["answer"]["figures"]]
    assert len(set(figures)) == len(figures)


@by_name
def test_its_function_has_its_arguments(question):
    signature = inspect.signature(getattr(hn, question["name"]))
    assert set(signature.parameters) == {row["name"] for row in question["arguments"]}
    for row in question["arguments"]:
        assert (signature.parameters[row["name"]].default is inspect.Parameter.empty) == row["required"], row["name"]


@by_name
def test_what_is_required_and_not_given_is_named(question):
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
