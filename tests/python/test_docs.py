"""Docstrings in the numpydoc layout, checked by numpydoc's own rules."""

import importlib
import inspect
import operator

import pytest

import halfnut as hn
from halfnut import _core

validate = pytest.importorskip("numpydoc.validate", reason="the extra 'test' is not installed").validate

# Left to the writer: sections See Also and Examples, a longer summary, and a verb's mood, which nouns are taken for;
# arguments in groups, which share a description ("As for `turn`.") and stand in the order of what they say.
LEFT = {"SA01", "EX01", "ES01", "SS05", "PR03", "PR04"}
GENERATED = "Written by `./shop stubs`"


def functions(module):
    names = getattr(module, "__all__", ())
    return [f"{module.__name__}.{name}" for name in names if inspect.isroutine(getattr(module, name))]


def mistakes(name):
    return [f"{name}: {code} {words}" for code, words in validate(name)["errors"] if code not in LEFT]


def test_every_function_of_level_2_is_documented():
    names = functions(hn)
    for module in ("questions", "asking"):
        names += functions(importlib.import_module(f"halfnut.batch.{module}"))
    assert len(names) >= 60
    assert [each for name in names for each in mistakes(name)] == []


@pytest.mark.parametrize("module", ["machine.answering", "machine.dials", "machine.machines", "knurls.wheels"])
def test_what_stands_beside_the_questions_is_documented(module):
    """Classes with their methods too."""
    found = importlib.import_module(f"halfnut.{module}")
    names = [f"{found.__name__}.{name}" for name in found.__all__]
    for name in found.__all__:
        if isinstance(made := getattr(found, name), type):
            names += [f"{found.__name__}.{name}.{each}" for each in vars(made) if not each.startswith("_")]
    asked = [name for name in names if callable(operator.attrgetter(name.removeprefix(f"{found.__name__}."))(found))]
    assert [each for name in asked for each in mistakes(name)] == []


def test_every_question_is_documented_with_its_sources():
    names = []
    for room in ("material", "fits", "threads", "knurls", "cutting"):
        module = importlib.import_module(f"halfnut.{room}.questions")
        assert GENERATED in module.__doc__
        names += functions(module)
    assert {name.rpartition(".")[2] for name in names} <= set(_core.question_names())
    assert len(names) == len(_core.question_names())
    assert [each for name in names for each in mistakes(name)] == []
    for name in names:
        found = validate(name)["docstring"]
        assert "References\n----------\n" in found, name
        assert "Raises\n------\n" in found, name


def test_every_formula_is_documented():
    names = [name for name in dir(_core) if "on_error : {" in (getattr(_core, name).__doc__ or "")]
    assert len(names) > 190
    assert [each for name in names for each in mistakes(f"halfnut._core.{name}")] == []
