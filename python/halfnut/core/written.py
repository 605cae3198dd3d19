"""Numbers as a person writes them beside their units, and the units that names of arguments end in."""

from __future__ import annotations

import re

from halfnut._core import DesignationError, Error, UnitError, parse_number
from halfnut.core.catalogue import active

__all__ = ["temperature_c", "unit_of", "written"]

# Units of numbers by the end of their names.
_UNITS = {
    "_mm_rev": "mm/rev",
    "_mm_min": "mm/min",
    "_m_min": "m/min",
    "_rpm": "rev/min",
    "_deg": "deg",
    "_um": "um",
    "_mm": "mm",
    "_hb": "HB",
    "_mpa": "MPa",
    "_gpa": "GPa",
    "_nm": "N m",
    "_kw": "kW",
    "_kg": "kg",
    "_n": "N",
    "_s": "s",
    "_min": "min",
}


def unit_of(name: str) -> str:
    """The unit that ends an argument's name, or nothing.

    >>> unit_of("spindle_rpm"), unit_of("wear_factor"), unit_of("hand_turns_per_min")
    ('rev/min', '', '')
    """
    return "" if "_per_" in name else next((unit for end, unit in _UNITS.items() if f"_{name}".endswith(end)), "")


def written(text: str, unit: str, name: str) -> float:
    """The number in a unit of a text that has its own."""
    if not unit:
        return temperature_c(text, name)
    try:
        return parse_number(text, unit, active())
    except Error as error:
        error.args = (f"{name}: {error}",)
        raise


def temperature_c(text: str, name: str) -> float:
    """A temperature in degrees Celsius, from text with its scale.

    >>> temperature_c("104 F", "temperature"), temperature_c("-5C", "temperature")
    (40.0, -5.0)
    """
    found = re.fullmatch(r"\s*([-+]?\d+(?:\.\d+)?)\s*(?:°|deg\s*)?([CF])?\s*", text, re.IGNORECASE)
    if found is None:
        raise DesignationError(f"{name}: '{text}' is no temperature; write text such as '40 C' or '104 F'")
    if found[2] is None:
        raise UnitError(f"{name}: '{text}' has no scale: write text such as '{found[1]} C' or '{found[1]} F'")
    value = float(found[1])
    return (value - 32.0) / 1.8 if found[2].upper() == "F" else value
