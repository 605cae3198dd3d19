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
OTHER_NAMES = {
    "G10180": "CRS, cold rolled steel, bright mild steel, keystock",
    "K02600": "A36, HRS",
    "G10400": "EN8, 080M40",
    "G10260": "DOM, 1026",
    "S31600": "316L, 1.4404, 1.4571",
    "S30400": "304L, 1.4307, 1.4301",
    "EN-AW-6082": "HE30, 6082",
    "C36000": "CDA 360, CZ121, CW614N",
    "C51000": "CDA 510, PB102",
    "T31501": "gauge plate, 1.2510",
    "F12101": "EN-GJL-250, GG25",
    "F33800": "EN-GJS-500-7, GGG50",
    "T20813": "H13, 1.2344, X40CrMoV5-1",
    "G52986": "52100, 100Cr6, 1.3505",
    "A96063": "6063, A96063, HE9",
    "R54520": "Ti-5Al-2.5Sn, 3.7115",
}


@pytest.mark.parametrize("name", WEEKLY.split(", "))
def test_what_a_shop_meets_weekly_is_there(name):
    """Held, or one of several conditions to choose from."""
    try:
        assert hn.turn(name, "30 mm").window_high_m_min > 0
    except hn.NotTabulatedError as error:
        assert "say which of" in str(error), name


@pytest.mark.parametrize(("held", "names"), OTHER_NAMES.items())
def test_trade_and_standard_names_find_the_alloy(held, names):
    assert {hn.alloy(name).id for name in names.split(", ")} == {held}


def test_what_is_known_but_not_held_is_no_other_alloy():
    for name in ("gunmetal", "LG2", "EN36", "spring steel", "HDPE"):
        with pytest.raises(hn.NotTabulatedError, match="known but not held"):
            hn.alloy(name)


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
