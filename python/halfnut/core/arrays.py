"""NumPy, loaded when an array is first made or read: answers about one part need none."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from halfnut._core import DomainError

__all__ = ["ArrayLike", "NDArray", "np", "raise_first"]

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import ArrayLike, NDArray
else:
    ArrayLike = NDArray = None  # names in annotations only

    class _Numpy:
        def __getattr__(self, name: str) -> Any:
            import numpy

            value = self.__dict__[name] = getattr(numpy, name)
            return value

    np = _Numpy()


def raise_first(failures: list[str], what: str) -> None:
    """Raise the first of some failures, told with its index and their count.

    Parameters
    ----------
    failures : list of str
        Why a row has no answer, empty where it has one.
    what : str
        What the rows are.

    Raises
    ------
    DomainError
        There is a failure.
    """
    if failed := [row for row, why in enumerate(failures) if why]:
        where = f"at index {failed[0]} ({len(failed)} of {len(failures)} {what} failed)"
        raise DomainError(f"{failures[failed[0]]} {where}")
