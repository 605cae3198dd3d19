"""Answers and what they are made of are values: nobody changes them, they compare, and go to other processes."""

import concurrent.futures
import copy
import importlib
import importlib.util
import inspect
import multiprocessing
import os
import pickle
import pkgutil
import subprocess
import sys
from dataclasses import FrozenInstanceError, fields, is_dataclass
from pathlib import Path

import pytest

import halfnut as hn
from halfnut import _core
from halfnut.core import catalogue
from halfnut.core.fixed import Fixed, Value
from halfnut.core.record import Record
from halfnut.threads.adjusters import Adjuster

KEPT = Path(__file__).resolve().parents[2] / "text" / "kept.py"
_spec = importlib.util.spec_from_file_location("kept", KEPT)
kept = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(kept)

# Kinds of answers that tests/text does not print: the whole of a list, or part of an answer.
MORE = [
    "hn.data()",
    'hn.gear_train("11 TPI", machine="gap-bed")[0]',
    'hn.choose("turn", "1018", "32 mm", "30 mm", length="40 mm", machine="metric-lathe").passes[0]',
]
_BOUND = {value for value in vars(_core).values() if isinstance(value, type) and not issubclass(value, Exception)}


def asked(question):
    """The answer to a question, or None where it is an error."""
    try:
        return eval(question, {"hn": hn, "demo": kept.demo})
    except hn.Error:
        return None


def questions():
    return [question for several in kept.record_questions().values() for question in several] + MORE


def parts(value, found):
    """Every value of Halfnut's own that is reached from one, by its class."""
    kind = type(value)
    if isinstance(value, dict):
        for each in value.values():
            parts(each, found)
    elif isinstance(value, (list, tuple)) and not isinstance(value, Record):
        for each in value:
            parts(each, found)
    elif kind.__module__.partition(".")[0] == "halfnut":
        if kind in _BOUND and kind in found:  # a part of a thread is a thread
            return
        found.setdefault(kind, value)
        names = [each.name for each in fields(value)] if is_dataclass(value) else [*getattr(value, "__dict__", {})]
        if kind in _BOUND:
            names = [name for name in dir(kind) if isinstance(getattr(kind, name, None), property)]
        for name in (*names, *(getattr(kind, "__slots__", ()) if not is_dataclass(value) else ())):
            parts(getattr(value, name), found)
        if isinstance(value, tuple):
            parts(tuple(value), found)


@pytest.fixture(scope="module")
def answers():
    """One answer of each kind, by its class, with the question."""
    found = {}
    for question in questions():
        answer = asked(question)
        for each in answer if type(answer) is list else [answer]:
            if each is not None:
                found.setdefault(type(each), (question, each))
    question, adjuster = found[Adjuster]
    for part in ("first", "shortest"):
        found[type(getattr(adjuster, part))] = (f"{question}.{part}", getattr(adjuster, part))
    return found


@pytest.fixture(scope="module")
def values(answers):
    """One value of each class that the answers are made of."""
    found = {}
    for _, answer in answers.values():
        parts(answer, found)
    return found


def every(kind):
    for each in kind.__subclasses__():
        yield each
        yield from every(each)


def test_each_kind_of_answer_is_asked_for(answers):
    for module in pkgutil.walk_packages(hn.__path__, "halfnut."):
        if "__main__" not in module.name:
            importlib.import_module(module.name)
    kinds = {kind for kind in every(Record) if kind.__module__.startswith("halfnut") and not kind.__subclasses__()}
    assert len(kinds) >= 38
    assert {kind.__qualname__ for kind in kinds - set(answers)} == set()


def test_two_answers_to_one_question_are_equal_and_hash_alike(answers):
    for question, answer in answers.values():
        other = asked(question)
        other = other[0] if type(other) is list else other
        assert other == answer, question
        assert hash(other) == hash(answer), question
        assert answer != question


def test_each_value_is_pickled_and_copied(answers, values):
    named = {kind.__name__ for kind in values}
    assert {"Length", "Quantity", "Evidence", "Machine", "Caution"} <= named
    more = (hn.thread("1/2 BSW"), hn.material.build_up("8 um min"), catalogue.active())
    for value in (*(answer for _, answer in answers.values()), *values.values(), *more):
        for made in (pickle.loads(pickle.dumps(value)), copy.deepcopy(value), copy.copy(value)):
            assert type(made) is type(value)
            assert made == value, type(value)
            if type(value).__hash__ is not None:
                assert hash(made) == hash(value), type(value)
    unhashed = {kind.__name__ for kind in values if kind.__hash__ is None}
    assert unhashed <= {"AdjusterAnswer"}  # it goes by the question, which is a dictionary


def test_limits_are_given_to_questions_after_they_were_pickled():
    for limits in (
        hn.limits("1/4-20 UNC-3A", engagement="0.5 in"),
        hn.precoat("M10-6h", "8 um"),
        hn.limits("1/2 BSW").other,
        hn.plain_thread("external", pitch="4 mm", half_angle_deg=15, pitch_diameter="17.9 mm", major="20 mm"),
    ):
        for made in (pickle.loads(pickle.dumps(limits)), copy.deepcopy(limits)):
            assert hn.wires(made) == hn.wires(limits)
            assert made.evidence == limits.evidence


def test_what_is_pickled_answers_as_before(answers):
    for question, answer in answers.values():
        made = pickle.loads(pickle.dumps(answer))
        assert str(made) == str(answer), question
        if isinstance(answer, Record):
            assert made.to_dict() == answer.to_dict(), question
            assert made.told == answer.told
            assert [repr(each) for each in made.evidence] == [repr(each) for each in answer.evidence]


def test_an_answer_cannot_be_changed(values):
    tried = 0
    for kind, value in values.items():
        for name in [each.name for each in fields(value)] if is_dataclass(value) else []:
            with pytest.raises(FrozenInstanceError):
                setattr(value, name, None)
            tried += 1
        for name, each in vars(value).items() if isinstance(value, Value) and hasattr(value, "__dict__") else ():
            assert not isinstance(each, list), (kind, name)
            assert not isinstance(each, dict) or isinstance(each, Fixed), (kind, name)
    assert tried > 500


def test_a_table_of_an_answer_cannot_be_changed():
    table = Fixed({"a": 1})
    for change in (
        lambda: table.__setitem__("a", 2),
        lambda: table.__delitem__("a"),
        lambda: table.update(a=2),
        lambda: table.setdefault("b", 2),
        lambda: table.__ior__({"b": 2}),
        table.clear,
        table.popitem,
        lambda: table.pop("a"),
    ):
        with pytest.raises(TypeError, match="not changed in place"):
            change()
    assert table == {"a": 1} == dict(table)
    assert pickle.loads(pickle.dumps(table)) == table


def test_a_repr_is_one_line_that_says_the_answer(answers, values):
    for value in (*(answer for _, answer in answers.values()), *values.values()):
        text = repr(value)
        if type(value).__name__ not in {"Evidence", "AdjusterAnswer", "Catalogue", "PartLimits"} and (
            isinstance(value, Value) or type(value) in _BOUND
        ):
            assert "\n" not in text
            assert len(text) <= 120, (type(value), len(text))
            assert " at 0x" not in text, type(value)
    for _, answer in answers.values():
        if isinstance(answer, Record):
            first = " ".join(answer.lines()[0].split())
            assert repr(answer).startswith(f"<{type(answer).__name__} {first[:40]}")


def test_machines_and_answers_go_to_eight_processes():
    machine = hn.lathe("gap-bed").replace(motor="3 hp")
    diameters = [hn.inch(0.25 * n) for n in range(1, 9)]
    jobs = [("6061-T6", diameter, machine) for diameter in diameters]
    with concurrent.futures.ProcessPoolExecutor(8, mp_context=multiprocessing.get_context("spawn")) as pool:
        found = list(pool.map(_turned, jobs))
        again = list(pool.map(_told, found))
    assert found == [_turned(job) for job in jobs]
    assert again == [str(each) for each in found]


def _turned(job):
    alloy, diameter, machine = job
    return hn.turn(alloy, diameter, machine=machine)


def _told(answer):
    return str(answer)


def test_dask_takes_machines_lengths_and_answers(answers, values):
    dask = pytest.importorskip("dask", reason="the extra 'dask' is not installed")
    machine = hn.lathe("gap-bed")
    lazy = dask.delayed(hn.turn, pure=True)("6061-T6", hn.inch(1.25), machine=machine)
    same = dask.delayed(hn.turn, pure=True)("6061-T6", hn.inch(1.25), machine=hn.lathe("gap-bed").replace())
    other = dask.delayed(hn.turn, pure=True)("6061-T6", hn.inch(1.25), machine=machine.replace(motor="3 hp"))
    assert lazy.key == same.key != other.key
    assert lazy.compute(scheduler="processes", num_workers=2) == hn.turn("6061-T6", "1.25 in", machine=machine)
    tokens = {}
    for value in (*(answer for _, answer in answers.values()), *values.values()):
        token = dask.tokenize.tokenize(value, ensure_deterministic=True)
        assert token == dask.tokenize.tokenize(copy.deepcopy(value), ensure_deterministic=True), type(value)
        tokens[token] = value
    assert len(tokens) >= len(answers)


def test_a_token_of_dask_is_the_same_in_every_process():
    pytest.importorskip("dask", reason="the extra 'dask' is not installed")
    code = (
        "import halfnut as hn; from dask.tokenize import tokenize; m = hn.lathe('gap-bed');"
        "print(tokenize(m, hn.inch(1), hn.turn('1018', '1 in', machine=m), hn.limits('M8x1.25-6g')))"
    )
    found = {
        subprocess.run(
            [sys.executable, "-c", code],
            env=os.environ | {"PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(found) == 1


def test_each_bound_record_of_a_machine_is_a_value():
    core = hn.lathe("gap-bed").core
    made = _core.Machine(**{name: getattr(core, name) for name in vars(type(core)) if _settable(type(core), name)})
    assert made == core == pickle.loads(pickle.dumps(core))
    assert hash(made) == hash(core)
    assert hn.lathe("gap-bed").replace(motor="3 hp").core != core


def _settable(kind, name):
    return isinstance(inspect.getattr_static(kind, name), property) and name not in {"swing_mm"}
