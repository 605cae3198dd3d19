"""Templates of what answers print: places, conditions, lists, and what is left out where a figure lacks."""

from dataclasses import dataclass
from typing import ClassVar

import pytest

from halfnut.core.record import Part, filled


@dataclass(frozen=True)
class Way(Part):
    ANSWER: ClassVar[str] = "{bend_mm} {name}[ ({unit})]"
    name: str
    bend_mm: float


@dataclass(frozen=True)
class Told:
    unit: str = "mm"
    bore_mm: float = 25.4
    high_mm: float = 50.8
    torque_nm: float | None = None
    left_mm: float = -0.5
    none: str = ""
    hand: str = "left"
    limited_by: str = "tool_life"
    limits: tuple[str, ...] = ("power", "torque")
    starts: int = 2
    by_form: bool = True
    loose: bool = False
    nought: float = 0.0
    ways: tuple[Way, ...] = (Way("between centres", 0.01), Way("with a centre", 0.02))
    levers: tuple[tuple[str, str], ...] = (("belt", "fast"), ("lever", "2"))


@pytest.mark.parametrize(
    ("template", "text"),
    [
        ("{bore_mm}", "25.400 mm"),
        ("{bore_mm:fine}", "25.4000 mm"),
        ("{bore_mm:both}", "25.400 mm (1.0000 in)"),
        ("{bore_mm:fine both}", "25.4000 mm (1.00000 in)"),
        ("{bore_mm:fine other}", "1.00000 in"),
        ("{bore_mm..high_mm}", "25.400 to 50.800 mm"),
        ("{bore_mm..high_mm/2:both}", "12.700 to 25.400 mm (0.5000 to 1.0000 in)"),
        ("{bore_mm/25.4:.2f} in", "1.00 in"),
        ("{100*bore_mm:+.1f}", "+2540.0"),
        ("{-1*left_mm}", "0.500 mm"),
        ("{limited_by:limit}, {said/geometry_alone}", "tool life, geometry alone: the least"),
        ("{limits:limit}", "power at the spindle, torque at the spindle"),
        ("{limits:limit and}", "power at the spindle and torque at the spindle"),
        ("{limits.first} {limits.last} {limits.count}", "power torque 2"),
        ("{ways}", "0.010 mm between centres (mm), 0.020 mm with a centre (mm)"),
        ("{ways.last}", "0.020 mm with a centre (mm)"),
        ("set{levers}", "setbelt fast, lever 2"),
        ("{torque_nm}", None),
        ("{none}", None),
        ("a[, {torque_nm}][, {none}]", "a"),
        ("[{hand=left}left][{hand=right}right][{hand!=right}!]", "left!"),
        ("[{starts=2}=][{starts!=2}≠][{starts>1}>][{starts<1}<][{starts>=2}≥][{starts<=1}≤]", "=>≥"),
        ("[{left_mm<nought}less][{bore_mm=high_mm}same][{bore_mm<high_mm}smaller]", "lesssmaller"),
        ("[{torque_nm=0}0][{torque_nm!=0}1][{torque_nm!}none][{torque_nm?}some]", "none"),
        ("[{by_form?}form][{by_form!}no form][{loose?}loose][{loose!}tight]", "formtight"),
        ("[{nought?}there][{nought=0} and nought][{none?}text][{limits?}, list]", "there and nought, list"),
        ("{loose?}never", None),
    ],
)
def test_a_template_is_filled(template, text):
    assert filled(Told(), template, "mm") == text


def test_a_record_within_is_told_in_the_unit_of_its_answer():
    assert filled(Told(), "{ways.first}", "in") == "0.0004 in between centres (in)"
    assert filled(Way("held", 1.0), "{}", "in") == "0.0394 in held (in)"
    assert str(Way("held", 1.0)) == "1.000 mm held (mm)"
