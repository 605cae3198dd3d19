"""The C face as Python's ctypes calls it: its answers are those of every other face, its mistakes too."""

from __future__ import annotations

import ctypes
import importlib.util
import json
import os
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import jsonschema
import pytest
from hypothesis import given, settings

import halfnut as hn
from halfnut.cli import failures
from halfnut.core import schemas
from halfnut.core.schemas import answer

sys.path.insert(0, str(Path(__file__).parent))
from random_questions import QUESTIONS, example, inline, machine, questions

ROOT = Path(__file__).parents[2]
LIBRARY = Path(os.environ.get("HALFNUT_LIBRARY", ROOT / "build/dev/bindings/c/libhalfnut.so"))
pytestmark = pytest.mark.skipif(not LIBRARY.exists(), reason="libhalfnut.so is not built (-DHALFNUT_C=ON)")


@pytest.fixture(scope="module")
def ask():
    library = ctypes.CDLL(str(LIBRARY))
    library.halfnut_ask.restype = ctypes.c_void_p
    library.halfnut_free.argtypes = [ctypes.c_void_p]

    def asked(question):
        answer = library.halfnut_ask(json.dumps(question).encode())
        try:
            return json.loads(ctypes.string_at(answer))
        finally:
            library.halfnut_free(answer)

    return asked


def text_of(name):
    library = ctypes.CDLL(str(LIBRARY))
    getattr(library, name).restype = ctypes.c_char_p
    return getattr(library, name)().decode()


def python(question):
    """What Python answers, a failure as the command tells it."""
    try:
        return answer(question)
    except hn.Error as error:
        found = failures.failure_of(error)
        return {"error": {"code": found.code, "message": found.message}}


def same(found, wanted):
    """Whether two answers are one; of a failure the code and the words."""
    if "error" not in found or "error" not in wanted:
        return found == wanted
    return {key: found["error"][key] for key in ("code", "message")} == wanted["error"]


@pytest.mark.parametrize("question", QUESTIONS, ids=[question["name"] for question in QUESTIONS])
def test_every_example_is_answered_as_python_does(ask, question):
    asked = inline({"question": question["name"], "values": example(question)})
    found = ask(asked)
    assert "error" not in found
    assert found == python(asked)


@settings(max_examples=200, deadline=None)
@given(questions())
def test_answers_and_mistakes_are_those_of_python(ask, asked):
    wanted = python(asked)
    assert same(ask(inline(asked)), wanted), wanted


def test_what_was_wrong_is_told_to_a_program(ask):
    asked = {"question": "turn", "values": {"alloy": "brass", "diameter_mm": 30, "hold": "chuk"}}
    error = ask(asked)["error"]
    assert error["code"] == "domain"
    assert (error["argument"], error["value"], error["nearest"]) == ("hold", "chuk", "chuck")
    assert error["allowed"] == ["chuck", "chuck and centre", "between centres"]


def test_a_machine_is_the_same_machine_as_json():
    for name in ("gap-bed", "metric-lathe", "bench-mill"):
        given = machine(name)
        by_name = {"question": "drill", "values": {"alloy": "brass", "diameter_mm": 6.0, "machine": name}}
        inline = {"question": "drill", "values": {"alloy": "brass", "diameter_mm": 6.0, "machine": given}}
        assert answer(by_name) == answer(inline)


def test_the_questions_are_one_schema_that_their_answers_keep(ask):
    schema = json.loads(text_of("halfnut_questions"))
    jsonschema.Draft202012Validator.check_schema(schema)
    assert [each["title"] for each in schema["oneOf"]] == [question["name"] for question in QUESTIONS]
    for each, question in zip(schema["oneOf"], QUESTIONS, strict=True):
        assert each == schemas.schema(question["name"])
    asked = {"question": "turn", "values": {"alloy": "brass", "diameter_mm": 30}}
    jsonschema.validate(asked, schema)
    turn = next(each for each in schema["oneOf"] if each["title"] == "turn")
    jsonschema.validate(ask(asked), turn["$defs"]["answer"])
    names = turn["properties"]["values"]["properties"]["alloy"]["examples"]
    assert all(hn.alloy(name) for name in names)


ROWS = """# table: material/alloys of the rack
# S1: shop | label of the bar
id,name,like,tensile_mpa,source
LG2,gunmetal of the rack,bearing bronze,220,S1
"""
TABLES = [{"table": "material/alloys", "text": ROWS, "name": "rack.csv"}]


def test_a_shops_tables_stand_over_the_built_in_ones_of_one_question(ask):
    asked = {"question": "turn", "values": {"alloy": "gunmetal of the rack", "diameter": "32 mm"}}
    found = ask({**asked, "tables": TABLES})
    assert found == python({**asked, "tables": TABLES})
    own = ask({**asked, "values": {"alloy": "bearing bronze", "diameter": "32 mm"}})
    assert found["spindle_rpm"] == own["spindle_rpm"]
    assert ask(asked)["error"]["code"] == "not_tabulated"  # what one question had, the next has not
    schemas_with = ask({"question": "questions", "tables": TABLES})["oneOf"]
    turn = next(each for each in schemas_with if each["title"] == "turn")
    assert "gunmetal of the rack as cast" in turn["properties"]["values"]["properties"]["alloy"]["examples"]
    jsonschema.validate({**asked, "tables": TABLES}, turn)
    assert ask({"question": "questions"}) == json.loads(text_of("halfnut_questions"))


@pytest.mark.parametrize(
    ("tables", "code", "says"),
    [
        ("rack", "domain", "tables must be a list, got 'rack'"),
        ([{"table": "material/alloys"}], "domain", "the texts 'table' and 'text'"),
        ([{"table": "material/alloy", "text": ROWS}], "not_tabulated", "material/alloys"),
        ([{"table": "material/alloys", "text": "no table"}], "table", "material/alloys"),
    ],
)
def test_what_is_no_table_is_told(ask, tables, code, says):
    asked = {"question": "turn", "values": {"alloy": "brass", "diameter": "32 mm"}, "tables": tables}
    found = ask(asked)["error"]
    assert found["code"] == code
    assert says in found["message"]
    assert same(ask(asked), python(asked))


def test_a_row_with_a_mistake_stops_only_what_needs_it(ask):
    bad = [{**TABLES[0], "text": ROWS.replace("220", "-220")}]
    assert "error" not in ask({"question": "turn", "values": {"alloy": "brass", "diameter": "32 mm"}, "tables": bad})
    asked = {"question": "turn", "values": {"alloy": "gunmetal of the rack", "diameter": "32 mm"}, "tables": bad}
    assert "tensile_mpa" in ask(asked)["error"]["message"]


def test_it_is_of_the_package_s_own_version():
    assert text_of("halfnut_version") == hn.__version__


def test_threads_of_an_interpreter_get_the_same_answers(ask):
    asked = {"question": "turn", "values": {"alloy": "6061-T6", "diameter": "1.25 in", "machine": machine("gap-bed")}}
    wanted = ask(asked)
    with ThreadPoolExecutor(8) as pool:
        assert all(found == wanted for found in pool.map(lambda _: ask(asked), range(80)))


def test_a_spreadsheet_shows_figures_and_what_is_wrong(monkeypatch):
    monkeypatch.setenv("HALFNUT_LIBRARY", str(LIBRARY))
    spec = importlib.util.spec_from_file_location("spreadsheet", ROOT / "bindings/c/examples/spreadsheet.py")
    sheet = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(sheet)
    cut = hn.turn("6061-T6", "1.25 in")
    assert sheet.HALFNUT("spindle_rpm", "turn", "alloy", "6061-T6", "diameter", "1.25 in") == cut.spindle_rpm
    assert sheet.HALFNUT("spindle_rpm", "turn", "alloy", "6061-T6", "diameter", "").startswith("#turn needs diameter")
    assert sheet.HALFNUT("spindle", "turn", "alloy", "brass", "diameter", "1 in") == "#turn has no spindle"
    assert sheet.HALFNUT("spindle_rpm", "turn", "alloy") == "#no value for alloy"
