"""Docstrings in the numpydoc layout, checked by numpydoc's own rules."""

import importlib
import inspect
from pkgutil import iter_modules

import pytest

import halfnut as hn
from halfnut import _core
from halfnut.core.questions import Answered

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


ROOMS = (
    "batch",
    "cli",
    "core",
    "cutting",
    "drawing",
    "fits",
    "knurls",
    "machine",
    "material",
    "planning",
    "sheet",
    "threads",
)


def offered(room):
    """Every name of a room's modules that is theirs, methods of classes too, with what it is."""
    for found in iter_modules(importlib.import_module(f"halfnut.{room}").__path__):
        module = importlib.import_module(f"halfnut.{room}.{found.name}")
        if GENERATED in (module.__doc__ or ""):
            continue
        for name in getattr(module, "__all__", ()):
            made = getattr(module, name)
            if not callable(made) or getattr(made, "__module__", "") != module.__name__:
                continue
            yield f"{module.__name__}.{name}", made
            for each, method in vars(made).items() if isinstance(made, type) else ():
                if callable(method) and not each.startswith("_"):
                    yield f"{module.__name__}.{name}.{each}", method


def described_above(name, made):
    """Whether a class's figures are its attributes, or a method is one that every record has and describes."""
    *_, of, last = name.split(".")
    return isinstance(made, type) or (of[0].isupper() and hasattr(Answered, last))


@pytest.mark.parametrize("room", ROOMS)
def test_what_stands_beside_the_questions_is_documented(room):
    told = []
    for name, made in offered(room):
        left = {"PR01", "RT01", "YD01"} if described_above(name, made) else set()
        told += [each for each in mistakes(name) if each.split()[1] not in left]
    assert told == []


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
