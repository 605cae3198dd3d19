"""Taper pipe threads: what they are cut and gauged to."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Literal

from halfnut import _core
from halfnut.core.arrays import NDArray, np
from halfnut.core.catalogue import active
from halfnut.threads.figures import TaperPipeFigures

__all__ = ["TaperPipe", "taper_pipe_columns"]


class TaperPipe(TaperPipeFigures):
    """What a taper pipe thread is cut and gauged to; figures are None where the standard gives none."""

    @property
    def depth_mm(self) -> float:
        """Depth of the thread in an internal part: hand engagement and wrench turns."""
        return self.hand_engagement_mm + (self.wrench_length_mm or 0.0)

    @property
    def fewest_turns(self) -> float:
        """Fewest turns of hand engagement."""
        return self.hand_turns - self.tolerance_turns

    @property
    def most_turns(self) -> float:
        """Most turns of hand engagement."""
        return self.hand_turns + self.tolerance_turns

    @property
    def inches_per_foot(self) -> float:
        """What an attachment is set to."""
        return 12 * self.taper_on_diameter


def taper_pipe_columns(
    designations: Iterable[str] | str, *, on_error: Literal["raise", "status"] = "raise"
) -> dict[str, NDArray[Any]]:
    """Taper pipe threads of many designations as columns.

    Parameters
    ----------
    designations : str or iterable of str
        ``"1/2-14 NPT"``, ``"R1/2"``, ``"Rc1/2"`` and so on.
    on_error : {"raise", "status"}
        Raise at the first row that fails, or give NaN and a status other than 0 there.

    Returns
    -------
    dict of ndarray
        The figures of `TaperPipe` (NaN where the standard gives none), ``native_unit`` ("mm", "in", or "" in a failed
        row) and ``status``.

    Raises
    ------
    DomainError
        With the first bad row, why, and how many failed.

    >>> taper_pipe_columns(["1/2-14 NPT", "R1/2"])["hand_turns"].round(2).tolist()
    [4.48, 4.52]
    """
    names = [designations] if isinstance(designations, str) else list(designations)
    out = _core.taper_pipe_columns(names, active(), on_error)
    out["native_unit"] = np.where(out["status"] == 0, np.array(["mm", "in"])[out.pop("unit_code")], "")
    return out
