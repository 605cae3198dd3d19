"""What a value in a job's file may be: quantities as text with their unit, bounded numbers, plain flags.

pydantic understands these marks.
"""

from pathlib import Path
from typing import Annotated, Any

from halfnut._core import Error, Quantity
from halfnut.core.mistakes import InputError, Mistake, key_path
from halfnut.core.plain_files import BOUNDS, read_plain, require_small, toml_data
from halfnut.core.text import FileTextError
from halfnut.core.units import quantity

__all__ = ["AtLeast", "Flag", "Text", "load_toml", "refuse_large"]


class Text:
    """A quantity written as text with its unit, such as "0.100 in"; more than zero unless told otherwise."""

    def __init__(self, dimension: str, *, zero: bool = False):
        self.dimension = dimension
        self.zero = zero

    def read(self, value: object) -> Quantity:
        """The quantity; ValueError says what is wrong."""
        try:
            found = quantity(value, self.dimension, "")
        except Error as error:
            raise ValueError(str(error).removeprefix(": ")) from None
        if found.base < 0 or (found.base == 0 and not self.zero):
            raise ValueError(f"must be {'at least' if self.zero else 'more than'} zero")
        return found

    def __get_pydantic_core_schema__(self, source: object, handler: object) -> Any:
        from pydantic_core import core_schema

        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(self, source: object, handler: object) -> dict[str, str]:
        return {"type": "string"}


class AtLeast:
    """A number with a lower bound, the bound itself only where `included`, and at most a million."""

    def __init__(self, low: float, *, included: bool = False):
        self.low = low
        self.included = included
        self.high: int = BOUNDS["count"]

    def check(self, value: float) -> float:
        """The number; ValueError says what is wrong."""
        if not (value > self.low or (self.included and value == self.low)):
            raise ValueError(f"must be {'at least' if self.included else 'more than'} {self.low:g}")
        if value > self.high:
            raise ValueError(
                f"must be {'at least' if self.included else 'more than'} {self.low:g} and at most {self.high}"
            )
        return value

    def __get_pydantic_core_schema__(self, source: object, handler: object) -> Any:
        from pydantic_core import core_schema

        exact = core_schema.int_schema(strict=True) if source is int else core_schema.float_schema(strict=True)
        return core_schema.no_info_after_validator_function(self.check, exact)


class Flag:
    """True or false, and nothing that only looks like it."""

    def check(self, value: bool) -> bool:
        """The flag."""
        return value

    def __get_pydantic_core_schema__(self, source: object, handler: object) -> Any:
        from pydantic_core import core_schema

        return core_schema.bool_schema(strict=True)


Length = Annotated[Quantity, Text("length")]
Count = Annotated[int, AtLeast(0)]
YesNo = Annotated[bool, Flag()]


def load_toml(path: Path) -> dict[str, Any]:
    """A TOML file's tables.

    Raises
    ------
    FileTextError
        It is not UTF-8 text.
    InputError
        It is not TOML, with the place, passes a bound, or cannot be read, with the reason.
    """
    try:
        data = toml_data(read_plain(path))
    except FileTextError:
        raise
    except (OSError, Error) as error:
        reason = error.strerror if isinstance(error, OSError) else str(error)
        raise InputError(str(path), [Mistake("", str(reason), given=False)]) from None
    refuse_large(data, str(path))
    return data


def refuse_large(data: object, name: str) -> None:
    """Refuse data shaped as a file that passes a bound on texts, lists or numbers; `InputError` says where."""
    found = require_small(data)
    if found is not None:
        where, problem = found
        raise InputError(name, [Mistake(key_path(where), problem, given=False)])
