"""What only an extra brings: imported where it is used, and named in one line where it is not installed."""

from __future__ import annotations

from importlib import import_module
from typing import Any

from halfnut._core import Error

__all__ = ["EXTRAS", "MissingExtraError", "optional"]

EXTRAS = ("pandas", "arrow", "polars", "dask", "pint", "plot", "notebooks")
"""The extras that there are, as ``pip install 'halfnut[...]'`` takes them."""


class MissingExtraError(Error, ImportError):
    """An extra that is not installed; the message says how to install it."""

    def __init__(self, extra: str, library: str):
        super().__init__(f"this needs {library}: pip install 'halfnut[{extra}]'")
        self.extra = extra
        self.library = library

    def __reduce__(self) -> tuple[Any, ...]:
        return type(self), (self.extra, self.library)


def optional(module: str, extra: str) -> Any:
    """The module of an extra.

    Parameters
    ----------
    module : str
        Such as "matplotlib.pyplot".
    extra : str
        Which one brings it, of `EXTRAS`.

    Returns
    -------
    module
        As ``import`` gives it.

    Raises
    ------
    MissingExtraError
        The extra is not installed.

    >>> optional("math", "plot").pi
    3.141592653589793
    """
    library = module.partition(".")[0]
    try:
        return import_module(module)
    except ModuleNotFoundError as error:
        if error.name is None or error.name.partition(".")[0] != library:
            raise  # it is there; what it needs itself is not
        raise MissingExtraError(extra, library) from None
