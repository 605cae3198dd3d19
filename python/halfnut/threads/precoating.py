"""Threads that are to be coated: the limits to cut them to. The functions of numbers take micrometres."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, Literal

from halfnut import _core
from halfnut._core import coated_pitch_change_um, greatest_build_up_um, needed_deviation_um
from halfnut.core.arrays import ArrayLike, NDArray, np
from halfnut.core.carriers import columns
from halfnut.core.catalogue import active
from halfnut.threads.standard import Rule

if TYPE_CHECKING:
    pass

__all__ = [
    "coated_pitch_change_um",
    "greatest_build_up_um",
    "needed_deviation_um",
    "precoat_columns",
]


def precoat_columns(
    designations: Sequence[str] | str,
    *,
    build_up_min_um: ArrayLike = 0.0,
    build_up_max_um: ArrayLike = 0.0,
    engagement_mm: ArrayLike = math.nan,
    gauged_at: Literal["basic", "class"] = "basic",
    rule: Rule = "printed",
    on_error: Literal["raise", "status"] = "raise",
) -> dict[str, NDArray[Any]]:
    """Limits before coating of many threads as columns.

    Parameters
    ----------
    designations : str or sequence of str
        One designation a row, of any form that is known; one serves all rows.
    build_up_min_um, build_up_max_um : array_like
        Least and greatest build-up of a surface, um: one value, or one a row.
    engagement_mm : array_like
        Length of engagement, mm; NaN: normal.
    gauged_at, rule
        As for `precoat`; of ISO metric and Unified threads alone: those of other forms gauge at their own limits.
    on_error : {"raise", "status"}
        Raise at the first row that fails, or give NaN and a status other than 0 there.

    Returns
    -------
    dict of ndarray
        ``major_max_mm`` ... ``minor_min_mm``, ``major_max_in`` ... ``minor_min_in`` to cut to (NaN where there is no
        limit), ``way`` ("bare", "held", "deducted"; "" in a failed row), its figures of the coating, ``status``.

    Raises
    ------
    DomainError
        With the first bad row, why, and how many failed.

    >>> precoat_columns("M10-6h", build_up_min_um=8.0, build_up_max_um=[8.0, 10.0])["pitch_max_mm"].round(3).tolist()
    [8.994, 8.986]
    """
    numbers = columns(
        build_up_min_um=build_up_min_um,
        build_up_max_um=build_up_max_um,
        engagement_mm=engagement_mm,
    )
    names = [designations] if isinstance(designations, str) else list(designations)
    out = _core.precoat_columns(names, active(), numbers, gauged_at, rule, on_error)
    codes = out.pop("way_code")
    out["way"] = np.where(out["status"] == 0, np.array(["bare", "held", "deducted"])[codes], "")
    return out
