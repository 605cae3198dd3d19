"""Job files: every mistake at once, with its key, value, choices and the nearest one."""

import copy
import pickle
from pathlib import Path

import jsonschema
import pytest
from dask.base import tokenize

import halfnut as hn
from halfnut.core.mistakes import InputError
from halfnut.core.shapes import load_toml
from halfnut.planning import job

JOBS = sorted((Path(hn.__file__).parent / "demo").glob("job*.toml"))

PIN = {
    "title": "Portable truss telescope",
    "machine": "gap-bed",
    "coatings": {"black": {"title": "black anodise", "build_up": "0.0002 in"}},
    "parts": [
        {
            "name": "truss tube",
            "quantity": 8,
            "alloy": "6061-T6",
            "coating": "black",
            "length": "22 in",
            "stock": {"form": "tube", "diameter": "1 in", "bore": "0.62 in"},
            "operations": [
                {"do": "face", "off": "0.03 in"},
                {"do": "turn", "to": "0.875 in", "length": "1.5 in"},
                {"do": "thread", "thread": "7/8-14 UNF-2A", "length": "1.2 in"},
            ],
        },
        {
            "name": "collimation knob",
            "quantity": 3,
            "alloy": "C36000",
            "machine": "metric-lathe",
            "length": "18 mm",
            "stock": {"form": "bar", "diameter": "20 mm"},
            "operations": [{"do": "knurl", "pitch": "0.8 mm", "width": "12 mm", "diameter": "19 mm"}],
        },
    ],
}

SPOT = {"do": "spot", "diameter": "3 mm"}
AT = "parts[0].operations[0].places.at[0]"


@pytest.fixture
def data():
    return copy.deepcopy(PIN)


def mistakes(data):
    with pytest.raises(InputError) as caught:
        job.load(data)
    return {mistake.key: mistake for mistake in caught.value.mistakes}


def test_a_sound_job_is_read(data):
    found, name = job.load(data)
    assert name == "job"
    assert [part.name for part in found.parts] == ["truss tube", "collimation knob"]
    assert str(found.parts[0].operations[1].to) == "0.875 in"
    assert data == PIN


def test_every_mistake_is_reported_at_once(data):
    first, second = data["parts"]
    first["alloy"] = "6061-T66"
    first["coating"] = "blck"
    first["quantity"] = 0
    first["operatons"] = []
    first["operations"][1]["to"] = 0.875
    first["operations"][1]["lenght"] = "1 in"
    first["operations"][2]["do"] = "tread"
    second["machine"] = "metric-lath"
    second["stock"]["form"] = "rod"
    second["operations"][0]["width"] = "12"
    del second["length"]
    found = mistakes(data)
    assert found.keys() == {
        "parts[0].alloy",
        "parts[0].coating",
        "parts[0].quantity",
        "parts[0].operatons",
        "parts[0].operations[1].to",
        "parts[0].operations[1].lenght",
        "parts[0].operations[2].do",
        "parts[1].machine",
        "parts[1].stock.form",
        "parts[1].operations[0].width",
        "parts[1].length",
    }
    assert "6061-T6" in found["parts[0].alloy"].problem
    assert found["parts[0].coating"].allowed == ("black",)
    assert found["parts[0].operatons"].nearest == "operations"
    assert found["parts[0].operations[1].lenght"].nearest == "length"
    assert "nose_radius" in found["parts[0].operations[1].lenght"].allowed
    assert found["parts[0].operations[2].do"].nearest == "thread"
    assert "turn" in found["parts[0].operations[2].do"].allowed
    assert found["parts[1].machine"].nearest == "metric-lathe"
    assert found["parts[1].stock.form"].allowed == ("bar", "tube", "hexagon", "plate")
    assert "bare number is never a length" in found["parts[1].operations[0].width"].problem


@pytest.mark.parametrize(
    ("place", "value", "key", "problem"),
    [
        (("parts",), [], "parts", "must not be empty"),
        (("parts",), "truss tube", "parts", "must be a list"),
        (("parts", 0, "operations"), [], "parts[0].operations", "must not be empty"),
        (("parts", 0, "operations", 0), {"off": "1 mm"}, "parts[0].operations[0].do", "is missing"),
        (("parts", 0, "operations", 0), "face", "parts[0].operations[0]", "must be a table"),
        (("parts", 1, "name"), "Truss  Tube", "", "names must differ"),
        (("parts", 0, "stock", "bore"), "1 in", "parts[0].stock", "must be less than"),
        (("parts", 0, "stock"), {"form": "plate", "thickness": "6 mm"}, "parts[0].stock", "needs width"),
        (("parts", 0, "stock", "across_flats"), "1 in", "parts[0].stock", "has no across_flats"),
        (("parts", 0, "quantity"), 2.5, "parts[0].quantity", "whole number"),
        (("coatings", "black", "build_up"), "-1 um", "coatings.black.build_up", "negative"),
        (("coatings", "black", "finish"), "8 um", "coatings.black", "needs build_up"),
        (("coatings", "black"), {"title": "x"}, "coatings.black", "needs build_up"),
        (("coatings", "black"), {"title": "x", "finish": "anodize two"}, "coatings.black.finish", "no coating"),
        (("coatings", "black", "build_up_most"), "1 um", "coatings.black", "is less than build_up"),
        (
            ("coatings", "black"),
            {"title": "x", "finish": "8 um", "build_up_most": "9 um"},
            "coatings.black",
            "without build_up",
        ),
        (("title",), "", "title", "must not be empty"),
        (("title",), None, "title", "is missing"),
        (("title",), 3, "title", "must be text"),
        (("parts", 0, "operations", 1, "to"), "0 in", "parts[0].operations[1].to", "more than zero"),
        (("parts", 0, "operations", 1, "steadies"), ["2 in", 3], "parts[0].operations[1].steadies[1]", "has no unit"),
        (("parts", 0, "operations", 1, "grips"), "centres", "parts[0].operations[1].grips", "not one of the choices"),
        (("parts", 0, "operations", 0), SPOT | {"point": 400}, "parts[0].operations[0].point", "from 60 to 180 deg"),
        (("parts", 0, "operations", 0), SPOT | {"times": 4, "divisions": 3}, "parts[0].operations[0]", "must be the 3"),
        (("parts", 0, "operations", 0), SPOT | {"places": {"pattern": "list", "at": [3]}}, AT, "must be text"),
        (("parts", 0, "name"), "x" * 201, "parts[0].name", "must be at most 200 bytes, got 201"),
        (("parts", 0, "operations", 0, "holding"), "x" * 300, "parts[0].operations[0].holding", "at most 200 bytes"),
        (("coatings", ""), 3, "coatings.", "must be a table"),
        (("coatings", "black", 1), 3, "coatings.black.1", "no such key"),
        (("coatings", 1), 3, "coatings.1", "must be a table"),
        (("parts", 0, "safety"), 2.0, "parts[0]", "given together"),
        (("parts", 0, "stock", "through_spindle"), True, "parts[0].stock", "needs bar_length"),
    ],
)
def test_what_is_refused(data, place, value, key, problem):
    *outer, last = place
    target = data
    for step in outer:
        target = target[step]
    target[last] = value
    (mistake,) = mistakes(data).values()
    assert mistake.key == key
    assert problem in mistake.problem


def test_an_operation_without_a_machine_is_named(data):
    del data["machine"]
    (mistake,) = mistakes(data).values()
    assert "parts[0].operations[0]" in mistake.problem
    assert "parts[1]" not in mistake.problem


def test_a_machine_file_beside_the_job_file_is_found(tmp_path, data):
    from halfnut.machine import machines

    (tmp_path / "ours.toml").write_text(machines.machine("gap-bed").path.read_text())
    path = tmp_path / "job.toml"
    path.write_text(
        'title = "one"\n[[parts]]\nname = "a"\nquantity = 1\nalloy = "6061-T6"\n'
        'machine = "ours.toml"\nlength = "1 in"\n'
        'stock = { form = "bar", diameter = "1 in" }\noperations = [{ do = "face", off = "0.01 in" }]\n'
    )
    found, name = job.load(path)
    assert name == str(path)
    assert machines.machine(found.parts[0].machine).path == tmp_path / "ours.toml"
    (tmp_path / "ours.toml").write_text('kind = "lathe"')
    with pytest.raises(InputError, match=r"(?s)a, line 2: machine.*file has mistakes.*motor"):
        job.load(path)


def test_a_mistake_names_part_operation_and_line(tmp_path):
    file = tmp_path / "job.toml"
    file.write_text(
        """title = "one pin"
machine = "gap-bed"

[[parts]]
name = "boom plug"
quantity = 1
alloy = "6061-T6"
length = "2 in"
stock = { form = "bar", diameter = "1 in", dia = "2 in" }
operations = [
    { do = "face", off = "0.02 in" },
    { do = "partoff", blade = "0.1 in" },
]
""",
        encoding="utf-8",
    )
    with pytest.raises(InputError) as caught:
        job.load(file)
    told = [str(mistake) for mistake in caught.value.mistakes]
    assert any(text.startswith('boom plug, operation 20, line 12: do = "partoff"') for text in told)
    assert any(text.startswith("boom plug, line 4: stock.dia: no such key") for text in told)


def test_a_job_is_a_value(data):
    one, two = job.load(data)[0], job.load(copy.deepcopy(data))[0]
    assert one == two and hash(one) == hash(two)
    again = pickle.loads(pickle.dumps(one))
    assert again == one and type(again.parts[0].operations[0]) is job.Step
    assert tokenize(one) == tokenize(again) != tokenize(job.load(data | {"title": "another"})[0])
    with pytest.raises(TypeError):
        one["title"] = "another"
    data["parts"][0]["operations"].clear()
    assert len(one.parts[0].operations) == 3


def test_every_key_that_a_table_may_have_is_there(data):
    read = job.load(data)[0]
    tube, (knob,) = read.parts[0], read.parts[1].operations
    assert (tube.jaws, tube.stock.pieces, tube.operations[0].end, tube.operations[0].times) == (3, 1, "first", 1)
    assert tube.friction is tube.operations[0].to is None and read.revision == "" and tube.joints == ()
    assert (knob.finished, knob.size("width"), knob.base("at"), knob.text("process")) == (False, hn.mm(12), 0.0, "")
    with pytest.raises(AttributeError, match="Step has no 'lenght'"):
        _ = knob.lenght


def test_holes_at_places_or_divisions_are_as_many_as_they_are(data):
    places = {"pattern": "grid", "holes": 3, "rows": 2, "step": "1 in"}
    data["parts"][0]["operations"] = [SPOT | {"places": places}, SPOT | {"divisions": 5}, SPOT | {"times": 4}]
    assert [step.times for step in job.load(data)[0].parts[0].operations] == [6, 5, 4]


@pytest.mark.parametrize("file", JOBS, ids=lambda file: file.stem)
def test_the_schema_takes_what_the_core_reads(file, data):
    schema = job.schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    own = jsonschema.Draft202012Validator(schema)
    own.validate(load_toml(file))
    data["parts"][0]["operations"][1]["lenght"] = "1 in"
    assert not own.is_valid(data)


def test_the_schema_knows_every_kind_of_operation():
    operations = job.schema()["properties"]["parts"]["items"]["properties"]["operations"]["items"]["oneOf"]
    assert [each["properties"]["do"]["const"] for each in operations] == list(job.KINDS)
    drill = next(each for each in operations if each["properties"]["do"]["const"] == "drill")
    assert drill["required"] == ["do", "diameter"]
    assert drill["properties"]["places"]["properties"]["pattern"]["enum"] == ["circle", "row", "grid", "list"]
