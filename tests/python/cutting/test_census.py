"""What the answers rest on: at most three in ten of them on memory, the weekly alloys counted five times."""

from __future__ import annotations

from dataclasses import astuple

import halfnut as hn
from halfnut.core.catalogue import rows

MOST_MEMORY = 0.30
WEEKLY = (
    "A96061",
    "A97075",
    "A95083",
    "C36000",
    "G10180",
    "G41300-A",
    "G41400-PH",
    "S30400",
    "R56400",
    "R50400",
    "POM",
)


def test_three_in_ten_answers_at_most_rest_on_memory() -> None:
    """It was 55 in a hundred before every operation was a share of one that is printed."""
    found = hn.data()
    for operation in found.answers:
        print(operation)
    counted = sum(sum(astuple(each)[1:]) for each in found.answers)
    memory = sum(each.memory for each in found.answers)
    print(f"of {counted} answers {found.memory_share:.1%} from memory")
    assert counted > 2000
    assert found.memory_share == memory / counted <= MOST_MEMORY


def test_the_weekly_alloys_are_there() -> None:
    assert set(WEEKLY) <= {row["id"] for row in rows("material/alloys")}


def test_every_cell_with_a_source_is_counted() -> None:
    held = {each.name: sum(astuple(each)[1:]) for each in hn.data().tables}
    for table in hn.core.catalogue.tables():
        cells = [isinstance(cell, dict) for row in rows(table) for name, cell in row.items() if name.endswith("source")]
        assert held.get(table, 0) == sum(cells)


def test_a_strength_from_memory_says_so() -> None:
    """Whatever a load is to rest on names its recalled rows: alone, in a joint, by a bolt's grade."""
    said = {True: 0, False: 0}
    for row in rows("material/strengths"):
        found = hn.minimum_strength(row["alloy"], row["form"], grain="along" if row["tensile_across_ksi"] else None)
        recalled = "memory" in {each.kind for each in found.evidence}
        assert ("strength_from_memory" in {each.code for each in found.cautions}) == recalled, row
        said[recalled] += 1
    assert min(said.values()) > 15, said
    joint = {"engagement": "12 mm", "internal_alloy": "17-4 H1150", "internal_form": "bar"}
    for bolt, recalled in (
        ({"external_alloy": "304", "external_form": "bar"}, True),
        ({"external_alloy": "17-4 H900", "external_form": "bar"}, False),
        ({"external_grade": "8.8"}, "memory" in grade_kinds("8.8")),
        ({"external_grade": "A4-80"}, "memory" in grade_kinds("A4-80")),
    ):
        codes = {each.code for each in hn.strength("M12x1.75-6g", "M12x1.75-6H", **joint, **bolt).cautions}
        assert ("strength_from_memory" in codes) == recalled, bolt


def grade_kinds(grade: str) -> set[str]:
    """What the strength of a bolt's grade rests on."""
    found = hn.strength(
        "M12x1.75-6g", "M12x1.75-6H", engagement="12 mm", external_grade=grade, internal_tensile="600 MPa"
    )
    return {each.kind for each in found.evidence if each.figure.startswith("external_tensile")}


def test_a_recalled_speed_says_so() -> None:
    told = 0
    for row in rows("material/alloys"):
        for tool in ("HSS", "carbide"):
            cut = hn.turn(row["id"], "30 mm", tool=tool)
            kinds = {each.kind for each in cut.evidence if each.figure == "window_high_m_min" and "speeds" in each.row}
            if kinds == {"memory"}:
                assert "window_doubtful" in {each.code for each in cut.notes}, (row["id"], tool)
                told += 1
    assert told > 50
