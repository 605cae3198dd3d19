"""What the answers rest on: at most three in ten of them on memory, the weekly alloys counted five times."""

from __future__ import annotations

from collections import Counter

from halfnut.cli.data import KINDS, of_answers, of_tables
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
    whole: Counter[str] = Counter()
    for operation, kinds in of_answers().items():
        print(f"{operation:10} {dict(kinds)}")
        whole += kinds
    print(f"all {dict(whole)}: {whole['memory'] / whole.total():.1%} from memory")
    assert whole.total() > 2000
    assert whole["memory"] <= MOST_MEMORY * whole.total()


def test_the_weekly_alloys_are_there() -> None:
    assert set(WEEKLY) <= {row["id"] for row in rows("material/alloys")}


def test_every_cell_with_a_source_names_its_kind() -> None:
    known = set(KINDS)
    held = of_tables()
    assert set().union(*held.values()) <= known
    assert held["cutting/speeds"].total() == len(rows("cutting/speeds"))
