"""The job walked: every blunder is named at its operation, and a sound job is left alone."""

from pathlib import Path

import pytest

import halfnut as hn
from halfnut.core.shapes import load_toml

REFERENCE = Path(__file__).resolve().parents[2] / "reference" / "job"
DEMO = Path(hn.__file__).parent / "demo"
BLUNDERS = REFERENCE / "blunders.toml"
MORE = [REFERENCE / "blunders_more.toml", REFERENCE / "blunders_unseen.toml", REFERENCE / "blunders_fourth.toml"]
SOUND = [*sorted(REFERENCE.glob("sound*.toml")), *sorted(DEMO.glob("job*.toml"))]


@pytest.fixture(scope="module")
def blunders():
    return {part.part.name: part for part in hn.plan(BLUNDERS).parts}


def found(part):
    return [(each.operation, each.code) for op in part.operations for each in op.mistakes] + [
        (0, each.code) for each in part.mistakes
    ]


NAMES = [part["name"] for part in load_toml(BLUNDERS)["parts"]]


@pytest.mark.parametrize("name", NAMES)
def test_the_blunder_is_named_at_its_operation_and_nothing_else(blunders, name):
    part = blunders[name]
    assert [f"{operation} {code}" for operation, code in found(part)] == part.part.number.split(", ")


@pytest.fixture(scope="module")
def more():
    return {part.part.name: part for path in MORE for part in hn.plan(path).parts}


@pytest.mark.parametrize("name", [part["name"] for path in MORE for part in load_toml(path)["parts"]])
def test_the_walk_or_the_answer_names_it(more, name):
    """A mistake of the walk alone; else a caution of the answer, or that there is none."""
    part = more[name]
    answered = [(op.number, each.code) for op in part.operations for each in op.cautions]
    refused = [(op.number, "error") for op in part.operations if op.error] + [(0, "error")] * bool(part.stock_error)
    first, *also = part.part.number.split(", ")
    assert first in [f"{operation} {code}" for operation, code in (*found(part), *answered, *refused)]
    assert {f"{operation} {code}" for operation, code in found(part)} <= {first, *also}


@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.stem)
def test_a_sound_job_has_no_danger_but_those_of_its_work(path):
    """Chips that burn, a key in the chuck, a piece that falls: these go with the work whatever its figures."""
    planned = hn.plan(path)
    standing = {"chuck_key", "part_centre", "emery_by_hand", "hazard_titanium_chips"}
    assert {each.code for each in planned.cautions if each.rank == "danger"} <= standing


def test_a_refused_operation_fails_the_plan_and_is_told_with_its_line():
    planned = hn.plan(BLUNDERS)
    refused = [each for each in planned.mistakes if each.refused]
    assert planned.failed >= len(refused) > 0
    text = str(planned)
    for each in refused:
        assert f"{each.place}: {each.text}" in text
        assert each.cure in text
        assert f", line {each.line}" in str(each)
    lines = BLUNDERS.read_text("utf-8").splitlines()
    thread = next(each for each in refused if each.code == "thread_blank")
    assert 'do = "thread"' in lines[thread.line - 1]
    assert thread.found_mm == pytest.approx(25.4 * 0.600)
    # ASME B1.1: 1/2-20 UNF-2A, major diameter 0.4987 to 0.4906 in
    assert (thread.needed_mm, thread.needed_most_mm) == pytest.approx((25.4 * 0.4906, 25.4 * 0.4987))


@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.stem)
def test_a_sound_job_is_left_alone(path):
    planned = hn.plan(path)
    assert [str(each) for each in planned.mistakes] == []
    assert planned.failed == 0
