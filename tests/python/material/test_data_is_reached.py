"""What is tabulated is met: alloys of a shop's week by name, rows of speeds by some alloy, hints by family."""

from __future__ import annotations

import re

import pytest

import halfnut as hn
from halfnut.core.catalogue import rows

WEEKLY = (
    "6063, 2011, 7050, cast tool plate, A36, 1020, DOM, 1117, 1144, 4150, 52100, H13, S7, W1, M2, P20, "
    "410, 420, 2205, 15-5, 544 bronze, 510 bronze, 655, 630 bronze, ABS, polycarbonate, PVC, phenolic, "
    "Z33520, EN8, S275, 1.4301, 12L14, 1045, 4340, 8620, 303, 316, 6082, C36000, C93200, 5083, POM, "
    "Ti-6Al-4V"
)


@pytest.mark.parametrize("name", WEEKLY.split(", "))
def test_what_a_shop_meets_weekly_is_there(name):
    """Held, or one of several conditions to choose from."""
    try:
        assert hn.turn(name, "30 mm").window_high_m_min > 0
    except hn.NotTabulatedError as error:
        assert "say which of" in str(error), name


def test_every_row_of_speeds_is_kin_to_some_alloy():
    parents = {row["group"]: row["parent"] for row in rows("material/groups")}
    kin: set[str] = set()
    for alloy in rows("material/alloys"):
        kin.add(alloy["id"])
        group = alloy["group"]
        while group:
            kin.add(group)
            group = parents[group]
    apart = [row["key"] for row in rows("cutting/speeds") if not kin & set(row["key"].split())]
    assert apart == []


@pytest.mark.parametrize(
    ("name", "family"),
    [("6066", "6"), ("7057", "7"), ("4145", "41"), ("318", "3"), ("2025", "20"), ("5084", "50"), ("1043", "10")],
)
def test_a_hint_stays_in_the_family(name, family):
    with pytest.raises(hn.NotTabulatedError) as error:
        hn.turn(name, "30 mm")
    offered = re.findall(r"'([^']+)'", str(error.value))[1:]
    assert all(each.startswith(family) for each in offered), str(error.value)
