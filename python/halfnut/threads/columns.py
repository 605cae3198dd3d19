"""Columns: at what push a straight tube bows out, uniform or stepped.

Slenderness is the effective length over the radius of gyration. All loads are without a factor of safety, for a
central push on a straight column: an eccentric push or a bent tube fails below them.
"""

from __future__ import annotations

from typing import Literal, overload

from halfnut import _core
from halfnut.core.arrays import ArrayLike, NDArray, np, raise_first
from halfnut.core.carriers import numbers
from halfnut.core.catalogue import active

__all__ = ["ColumnEnd", "column_end_factors", "stepped_column_load_n"]

ColumnEnd = Literal["pinned", "fixed", "guided", "free"]


@overload
def stepped_column_load_n(
    lengths_mm: ArrayLike,
    stiffnesses_n_mm2: ArrayLike,
    first_end: ColumnEnd = ...,
    second_end: ColumnEnd = ...,
    *,
    on_error: Literal["raise"] = ...,
) -> float | NDArray[np.float64]: ...
@overload
def stepped_column_load_n(
    lengths_mm: ArrayLike,
    stiffnesses_n_mm2: ArrayLike,
    first_end: ColumnEnd = ...,
    second_end: ColumnEnd = ...,
    *,
    on_error: Literal["status"],
) -> tuple[NDArray[np.float64], NDArray[np.uint8]]: ...
def stepped_column_load_n(
    lengths_mm: ArrayLike,
    stiffnesses_n_mm2: ArrayLike,
    first_end: ColumnEnd = "pinned",
    second_end: ColumnEnd = "pinned",
    *,
    on_error: Literal["raise", "status"] = "raise",
) -> float | NDArray[np.float64] | tuple[NDArray[np.float64], NDArray[np.uint8]]:
    """Elastic buckling load of a column of several sections, one after another.

    Parameters
    ----------
    lengths_mm : array_like
        Lengths of the segments along the last axis, mm; finite and > 0.
    stiffnesses_n_mm2 : array_like
        E I of each segment, N mm2; finite and > 0. Broadcasts with the lengths.
    first_end, second_end : {"pinned", "fixed", "guided", "free"}
        How the ends are held.
    on_error : {"raise", "status"}
        Raise at the first bad column, or return values and status codes.

    Returns
    -------
    float or ndarray
        Load, N, one a column; compare it with the yield load by `column_capacity_n`. With ``on_error="status"`` a
        pair of loads and status codes.

    Raises
    ------
    DomainError
        A number out of its range, or ends that do not hold a column.

    References
    ----------
    Beam-column theory: stability functions, and the count of negative pivots of the assembled stiffness.

    >>> round(stepped_column_load_n([25.0, 450.0, 25.0], [4.0e8, 9.0e8, 4.0e8]))
    35457
    """
    lengths, stiffnesses = np.broadcast_arrays(
        np.atleast_1d(numbers(lengths_mm, "mm", "lengths_mm")),
        np.atleast_1d(numbers(stiffnesses_n_mm2, "N mm2", "stiffnesses_n_mm2")),
    )
    *shape, segments = lengths.shape
    if segments == 0:
        raise _core.DomainError("lengths_mm must have at least one segment along its last axis")
    columns = zip(lengths.reshape(-1, segments).tolist(), stiffnesses.reshape(-1, segments).tolist(), strict=True)
    found = [_core.stepped_column_load_n(*column, first_end, second_end) for column in columns]
    loads = np.array([load for load, _, _ in found]).reshape(shape)
    if on_error == "status":
        return loads, np.array([status for _, status, _ in found], dtype=np.uint8).reshape(shape)
    if not shape and found[0][2]:
        raise _core.DomainError(found[0][2])
    raise_first([why for _, _, why in found], "elements")
    return loads if shape else float(loads)


def column_end_factors(first_end: ColumnEnd, second_end: ColumnEnd) -> tuple[float, float]:
    """Effective length factors K of a pair of ends: the theoretical one, and the one recommended for design.

    Parameters
    ----------
    first_end, second_end : {"pinned", "fixed", "guided", "free"}
        How the ends are held.

    Returns
    -------
    tuple of float
        Theoretical and recommended K.

    Raises
    ------
    DomainError
        Ends that do not hold a column.

    >>> column_end_factors("fixed", "pinned")
    (0.7, 0.8)
    """
    return _core.column_end_factors(first_end, second_end, active())
