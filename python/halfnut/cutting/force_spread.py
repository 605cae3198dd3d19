"""How far a force may lie from the one computed, by alloy, process and edge."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from halfnut import _core
from halfnut._core import DomainError, Evidence
from halfnut.core.arrays import NDArray, np
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.words import words
from halfnut.material.alloys import Alloy
from halfnut.material.questions import alloy as find_alloy

__all__ = ["ForceBand", "force_band", "force_bands"]


@dataclass(frozen=True)
class ForceBand(Record):
    """Where a measured force lies, as shares of the computed one; power and torque follow the force.

    Attributes
    ----------
    verified : bool
        Whether measured cuts of the alloy's group bear the band out.
    papers, rows : int
        Of measured cuts of the group.
    median : float or None
        Of computed over measured force in them.
    """

    alloy: Alloy
    process: str
    low: float
    high: float
    verified: bool
    papers: int
    rows: int
    median: float | None
    cautions: tuple[Caution, ...] = field(repr=False)
    evidence: tuple[Evidence, ...] = field(repr=False)

    def to_dict(self) -> dict[str, Any]:
        """The band as a flat dictionary."""
        names = ("process", "low", "high", "verified", "papers", "rows", "median")
        return {"alloy": self.alloy.id} | {name: getattr(self, name) for name in names}

    @property
    def answer(self) -> str:
        """The band in one line."""
        return f"{self.low:.2f} to {self.high:.2f} of the computed force  ({self.process} {self.alloy.title})"

    def report(self) -> list[tuple[str, str]]:
        """What the band rests on."""
        out = [("", words("band", "verified" if self.verified else "unverified"))]
        if self.rows:
            middle = "" if self.median is None else f", computed over measured {self.median:.2f} in the middle"
            out.append(("", f"{self.rows} measured cuts of the group, {self.papers} paper{middle}"))
        return out


def force_band(alloy: str | Alloy, process: str = "turn") -> ForceBand:
    """Band of an alloy's forces.

    Parameters
    ----------
    alloy : str or Alloy
        The work's material.
    process : str
        "turn" (facing, boring and parting too), "mill", "drill" or "tap".

    Returns
    -------
    ForceBand
        Its edges as shares of the computed force, and whether measured cuts bear it out.

    Raises
    ------
    DomainError
        No such process.
    NotTabulatedError
        No such alloy.

    >>> force_band("6061-T6").verified, force_band("304").verified
    (True, False)
    """
    found = find_alloy(alloy.id if isinstance(alloy, Alloy) else alloy)
    band = _core.force_band(found.index, process, active())
    median = None if math.isnan(band.median) else band.median
    evidence = tuple(band.evidence(active()))
    return ForceBand(
        found, process, band.low, band.high, band.verified, int(band.papers), int(band.rows), median, (), evidence
    )


@dataclass(frozen=True)
class ForceBands:
    """Bands of several alloys as columns.

    Attributes
    ----------
    low, high : ndarray of float
        Edges as shares of the computed force, in the shape of what was asked for.
    verified : ndarray of bool
        Whether measured cuts bear each out.
    """

    low: NDArray[np.float64]
    high: NDArray[np.float64]
    verified: NDArray[np.bool_]

    def edges(self, computed: Any) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Lower and upper edge of computed figures that follow the force: force, power, torque, deflection."""
        values = np.asarray(computed, dtype=np.float64)
        return self.low * values, self.high * values


def force_bands(alloys: Sequence[str | Alloy], processes: str | Sequence[str] = "turn") -> ForceBands:
    """Bands of several alloys' forces, as columns.

    Parameters
    ----------
    alloys : sequence of str or Alloy
        The work's materials, n of them.
    processes : str or sequence of str
        As for `force_band`: one for all, or n of them.

    Returns
    -------
    ForceBands
        Columns of length n.

    Raises
    ------
    DomainError
        No such process, or another number of them.
    NotTabulatedError
        No such alloy.

    >>> low, high = force_bands(["6061-T6", "304"]).edges([100.0, 200.0])
    >>> bool((low < high).all())
    True
    """
    each = [processes] * len(alloys) if isinstance(processes, str) else list(processes)
    if len(each) != len(alloys):
        raise DomainError(f"processes must be one, or as many as alloys, {len(alloys)}, got {len(each)}")
    known: dict[tuple[str, str], ForceBand] = {}
    bands = []
    for alloy, process in zip(alloys, each, strict=True):
        key = (alloy.id if isinstance(alloy, Alloy) else alloy, process)
        if key not in known:
            known[key] = force_band(*key)
        bands.append(known[key])
    return ForceBands(
        np.array([band.low for band in bands]),
        np.array([band.high for band in bands]),
        np.array([band.verified for band in bands], dtype=np.bool_),
    )
