"""Values that carry their unit, read as plain numbers in the unit that an argument is in; never stripped of it.

A value carries its unit when it has `units` and `to`, as pint's quantities and columns have, or `unit` and `to_value`,
as astropy's have; so does a column, a sequence or an object array of such values. It is converted, or refused with a
`UnitError` that names the argument and the unit. No library of units is imported here.
"""

from __future__ import annotations

import re
from operator import methodcaller
from typing import TYPE_CHECKING, Any, cast

from halfnut._core import DomainError, Quantity, UnitError
from halfnut.core.arrays import NDArray, np

if TYPE_CHECKING:
    from collections.abc import Iterable

    from halfnut.core.given import UnitCarrier

__all__ = ["carried_units", "memory", "numbers", "numbers_column", "unit_carrier"]

# Names of units that the libraries spell otherwise.
_PINT = {"rev": "turn", "deg": "degree", "C": "degC", "": "dimensionless"}
_ASTROPY = {"rev": "cycle"}

_KINDS = "fiub"  # of plain numbers


def unit_carrier(value: object) -> Any:
    """The value that carries the unit: this one, or what a column or a labelled array holds; None where none does.

    Parameters
    ----------
    value : object
        What a person gave, or a column of it.

    Returns
    -------
    Any
        With `units` or `unit`; None also for a `Quantity` of Halfnut's own, a text and a column of Arrow.
    """
    if isinstance(value, (str, Quantity, type)) or type(value).__module__.startswith("pyarrow"):
        return None
    if hasattr(value, "units") or hasattr(value, "unit"):
        return getattr(value, "quantity", value)  # an array of pint's columns has its quantity
    for inner in ("array", "data"):  # of a column, of a labelled array
        held = getattr(value, inner, None)
        if hasattr(held, "units") or hasattr(held, "unit"):
            return getattr(held, "quantity", held)
    return None


def in_unit(value: UnitCarrier, unit: str, name: str) -> Any:
    """Plain numbers, or one, of a value that carries its unit.

    Raises
    ------
    UnitError
        It cannot be converted to this unit.
    """
    try:
        if unit == "mm" and in_inches(value):  # 25.4, rounded as a length in inches is
            return bare(value) * 127.0 / 5.0
        if hasattr(value, "to_value"):
            return value.to_value(_spelled(unit, _ASTROPY, " "))
        wanted = _spelled(unit, _PINT, "*")
        found = value.to(wanted)
        if hasattr(found, "to_root_units") and _roots(found) != _roots(value):
            # A revolution counts as a bare number there, so that 1/s would pass for rev/s times 2 pi.
            raise ValueError(f"only one of {_unit_of(value)} and {unit or 'a plain number'} counts turns or angles")
        return bare(found)
    except Exception as error:  # a stranger's code: anything may come
        reason = str(error) or type(error).__name__
        raise UnitError(f"{name}: {_shown(value)} cannot be read in {unit or 'plain numbers'}: {reason}") from None


def bare(value: UnitCarrier) -> Any:
    """The number of a value that carries its unit."""
    return getattr(value, "magnitude" if hasattr(value, "magnitude") else "value")


def _roots(value: UnitCarrier) -> str:
    return str(methodcaller("to_root_units")(value).units)


def _spelled(unit: str, names: dict[str, str], times: str) -> str:
    if unit in names:
        return names[unit]
    parts = re.split(r"([ /()])", unit)
    spelled = [names.get(part, re.sub(r"(?<=[a-zA-Z])(\d)$", r"**\1", part)) for part in parts]
    return "".join(times if part == " " else part for part in spelled)


def _unit_of(value: object) -> str:
    return str(getattr(value, "units", None) or getattr(value, "unit", ""))


def in_inches(value: object) -> bool:
    """Whether the value that carries a unit is in inches."""
    return _unit_of(value).lower() in {"in", "inch", "inches"}


def _shown(value: object) -> str:
    text = " ".join(str(value).split())
    return text if len(text) <= 40 else f"{text[:37]}..."


def numbers(value: object, unit: str, name: str) -> Any:
    """Plain numbers of any array_like: a float, or an array of doubles.

    Parameters
    ----------
    value : object
        A number, or numbers in any shape; masked ones and ones that are None become NaN.
    unit : str
        Unit of plain numbers, to which others are converted; "" for none.
    name : str
        The argument's name, for messages.

    Returns
    -------
    Any
        A float for a `Quantity`; else an array in the shape of `value`, of no dimension for one number.

    Raises
    ------
    UnitError
        A unit that cannot be converted, or some elements with a unit and others without.
    DomainError
        What is no number.

    >>> numbers([1, 2.5], "mm", "diameter_mm").tolist()
    [1.0, 2.5]
    """
    carrier = unit_carrier(value)
    if carrier is not None:
        value = in_unit(carrier, unit, name)
    elif isinstance(value, np.ma.MaskedArray):
        value = np.ma.filled(value.astype(np.float64), np.nan)
    elif isinstance(value, Quantity):
        return _of_quantity(value, unit, name)
    elif not isinstance(value, np.ndarray) or value.dtype.kind == "O":
        value = _elements(value, unit, name)
    return _plain(value, name)


def _plain(value: object, name: str) -> Any:
    try:
        out: NDArray[Any] = np.asarray(value)
        if out.dtype.kind == "O":
            out = out.astype(np.float64)
    except (TypeError, ValueError, OverflowError) as error:
        raise DomainError(f"{name} must hold numbers: {error}") from None
    if out.dtype.kind not in _KINDS:
        raise DomainError(f"{name} must hold numbers, got {_shown(value)}")
    return out.astype(np.float64, copy=False)


def _elements(value: object, unit: str, name: str) -> Any:
    """A sequence with those of its elements converted that carry a unit; anything else as it is."""
    if hasattr(value, "to_numpy") and getattr(getattr(value, "dtype", None), "kind", "") == "O":
        value = value.to_numpy()
    if isinstance(value, np.ndarray):
        items = value.ravel().tolist()
    elif isinstance(value, (list, tuple)):
        items = list(value)
    else:
        return value
    kinds = {type(item) for item in items} - {int, float, np.float64}
    if not kinds:
        return value
    out = [_element(item, unit, name) for item in items]
    carried = [carries for _, carries in out]
    bare = [item for item, (_, carries) in zip(items, out, strict=True) if not carries and not _missing(item)]
    if any(carried) and bare:
        raise UnitError(f"{name}: {_shown(bare[0])} has no unit, but others beside it have one")
    plain = [each for each, _ in out]
    return np.array(plain, dtype=object).reshape(value.shape) if isinstance(value, np.ndarray) else plain


def _element(item: object, unit: str, name: str) -> tuple[Any, bool]:
    if isinstance(item, Quantity):
        return _of_quantity(item, unit, name), True
    carrier = unit_carrier(item)
    if carrier is not None:
        return in_unit(carrier, unit, name), True
    return (_elements(item, unit, name) if isinstance(item, (list, tuple, np.ndarray)) else item), False


def _missing(item: object) -> bool:
    return item is None or item is np.ma.masked or type(item).__name__ == "NAType" or item != item


def _of_quantity(value: Quantity, unit: str, name: str) -> float:
    """A quantity of Halfnut's own in a unit."""
    try:
        return value.to(unit).value
    except DomainError:
        raise UnitError(f"{name}: {value} is a {value.dimension}, and {name} is in {unit or 'plain numbers'}") from None


def numbers_column(value: object, unit: str, name: str) -> NDArray[np.float64]:
    """A column of plain doubles, contiguous; an array that is so already is seen in place; NaN where there is none.

    Parameters
    ----------
    value : object
        An array, a sequence, or a column of any library.
    unit : str
        Unit of plain numbers, to which others are converted; "" for none.
    name : str
        The argument's name, for messages.

    Returns
    -------
    ndarray
        One dimension, float64.

    Raises
    ------
    UnitError, DomainError
        As from `numbers`, and a shape that is no column's.
    """
    out = np.ascontiguousarray(numbers(value, unit, name), dtype=np.float64)
    if out.ndim != 1:
        raise DomainError(f"{name} must have one dimension, has {out.ndim}")
    return out


def carried_units(value: object) -> set[str]:
    """Systems of the units that a column carries: "in" for inches, "other" for all else; empty where it has none.

    Parameters
    ----------
    value : object
        A column; of a list, a tuple or an array of objects each element is looked at.

    Returns
    -------
    set of str
        Both where the elements differ.

    Examples
    --------
    >>> carried_units([1.0, 2.0])
    set()
    """
    carrier = unit_carrier(value)
    if carrier is not None:
        return {"in" if in_inches(carrier) else "other"}
    found: set[str] = set()
    if isinstance(value, (list, tuple)) or getattr(getattr(value, "dtype", None), "kind", "") == "O":
        for item in cast("Iterable[object]", value):
            if isinstance(item, Quantity):
                found.add("in" if item.unit == "in" else "other")
            elif (held := unit_carrier(item)) is not None:
                found.add("in" if in_inches(held) else "other")
    return found


def memory(value: object) -> list[NDArray[Any]]:
    """The memory that a column stands in, as far as it is arrays: what must not be written over while it is read.

    Parameters
    ----------
    value : object
        A column: an array, one of pandas, polars or Arrow, or one that carries its unit.

    Returns
    -------
    list of ndarray
        Arrow's buffers as bytes; empty for a sequence, which is copied as it is read.
    """
    carrier = unit_carrier(value)
    if carrier is not None:
        value = getattr(carrier, "magnitude", getattr(carrier, "value", None))
    if hasattr(value, "to_arrow"):  # of polars
        value = value.to_arrow()
    if hasattr(value, "array") and hasattr(value, "to_numpy"):  # of pandas
        value = value.array
        value = getattr(value, "_pa_array", value)
        value = value.to_numpy() if hasattr(value, "dtype") and hasattr(value, "to_numpy") else value
    if hasattr(value, "buffers") or hasattr(value, "chunks"):  # of Arrow
        chunks = getattr(value, "chunks", None) or [value]
        return [np.frombuffer(each, np.uint8) for chunk in chunks for each in chunk.buffers() if each is not None]
    return [np.asarray(value)] if isinstance(value, np.ndarray) else []
