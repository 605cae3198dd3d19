"""Columns: at what push a straight tube bows out, uniform or stepped.

Slenderness is the effective length over the radius of gyration. All loads are without a factor of safety, for a
central push on a straight column: an eccentric push or a bent tube fails below them.
"""

from __future__ import annotations

from typing import Any, Literal

from halfnut import _core
from halfnut._core import (
    column_capacity_n,
    column_load_n,
    euler_load_n,
    gyration_radius_mm,
    johnson_load_n,
    transition_slenderness,
    tube_area_mm2,
)
from halfnut.core.arrays import ArrayLike
from halfnut.core.catalogue import active

__all__ = [
    "ColumnEnd",
    "column_capacity_n",
    "column_end_factors",
    "column_load_n",
    "euler_load_n",
    "gyration_radius_mm",
    "johnson_load_n",
    "stepped_column_load_n",
    "transition_slenderness",
    "tube_area_mm2",
]

ColumnEnd = Literal["pinned", "fixed", "guided", "free"]


def stepped_column_load_n(
    lengths_mm: ArrayLike,
    stiffnesses_n_mm2: ArrayLike,
    first_end: ColumnEnd = "pinned",
    second_end: ColumnEnd = "pinned",
    *,
    on_error: Literal["raise", "status"] = "raise",
) -> Any:
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
    call: Any = _core.stepped_column_load_n
    return call(lengths_mm, stiffnesses_n_mm2, first_end, second_end, on_error)


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
