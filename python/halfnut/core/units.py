"""Quantities with their units: a bare number is never a length."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut import _core
from halfnut._core import Length, Quantity, UnitError
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active

if TYPE_CHECKING:
    from halfnut.core.given import UnitCarrier

_BASE_UNITS = _core.base_units()


@checked
def inch(value: float) -> Length:
    """A length in inches.

    Parameters
    ----------
    value : float
        The number.

    Returns
    -------
    Length
        With its unit.

    Examples
    --------
    >>> inch(1.25).mm
    31.75
    """
    return Length(value, "in")


@checked
def mm(value: float) -> Length:
    """A length in millimetres.

    Parameters
    ----------
    value : float
        The number.

    Returns
    -------
    Length
        With its unit.

    Examples
    --------
    >>> mm(25.4).inch
    1.0
    """
    return Length(value, "mm")


def length(value: object, name: str) -> Length:
    """A length from text, a `Length`, or an object with pint's or astropy's interface.

    Parameters
    ----------
    value : str, Length or object that carries its unit
        What the person gave.
    name : str
        The argument's name, for messages.

    Returns
    -------
    Length
        The length, in the unit it was given in where Halfnut knows that unit.

    Raises
    ------
    UnitError
        A bare number, or a text without a unit.
    DesignationError
        A text that is not a length.

    >>> length("1-1/4 in", "diameter").mm
    31.75
    """
    if isinstance(value, Length):
        return value
    found = quantity(value, "length", name)
    return found if isinstance(found, Length) else Length(found.value, found.unit)


def in_unit(value_mm: float, unit: str) -> Length:
    """A length in mm, kept in "in" or "mm".

    >>> str(in_unit(25.4, "in"))
    '1 in'
    """
    return Length(value_mm / 25.4, "in") if unit == "in" else Length(value_mm, "mm")


@checked
def quantity(value: object, dimension: str, name: str = "value") -> Quantity:
    """A quantity of a given dimension from text, a `Quantity`, or an object with pint's or astropy's interface.

    Parameters
    ----------
    value : str, Quantity or object that carries its unit
        What the person gave.
    dimension : str
        "length", "speed", "feed", "feed rate", "angle", "power", "force", "torque", "time",
        "spindle speed", "stress", "hardness" or "mass".
    name : str
        The argument's name, for messages.

    Returns
    -------
    Quantity
        In the unit that it was given in where Halfnut knows that unit.

    Raises
    ------
    UnitError
        A bare number, or a text without a unit.
    DesignationError
        A text that is not a quantity of that dimension.

    >>> quantity("300 ft/min", "speed").base
    91.44
    """
    if dimension not in _BASE_UNITS:
        raise _core.DomainError(f"dimension must be one of {', '.join(map(repr, _BASE_UNITS))}, got {dimension!r}")
    if isinstance(value, Quantity):
        if value.dimension != dimension:
            raise _core.DomainError(f"{name}: {value} is a {value.dimension}, not a {dimension}")
        return value
    if isinstance(value, str):
        try:
            if dimension == "length":
                return _core.parse_length(value, active())
            return _core.parse_quantity(value, dimension, active())
        except _core.Error as error:
            error.args = (f"{name}: {error}",)
            raise
    if not isinstance(value, (bool, int, float)):
        from halfnut.core import carriers

        carrier = carriers.unit_carrier(value)
        if carrier is not None:
            return _carried(carrier, dimension, name)
    raise UnitError(
        f"{name}: {value!r} has no unit; a bare number is never a {dimension}: "
        f"write text such as '{_example(value)} {_BASE_UNITS[dimension]}'"
    )


def _example(value: object) -> str:
    usual = isinstance(value, (int, float)) and not isinstance(value, bool) and 0 < abs(value) < 1e9
    return f"{value:g}" if usual else "1"


def _carried(value: UnitCarrier, dimension: str, name: str) -> Quantity:
    """What carries a unit, as a quantity; a length in inches stays one."""
    from halfnut.core import carriers

    try:
        if dimension == "length" and carriers.in_inches(value):
            return Length(float(carriers.bare(value)), "in")
        number = float(carriers.numbers(value, _BASE_UNITS[dimension], name))
        return Quantity(number, _BASE_UNITS[dimension], dimension)
    except TypeError:
        raise UnitError(f"{name} must be one {dimension}, got several") from None
    except _core.DomainError as error:
        raise _core.DomainError(f"{name}: {error}") from None
