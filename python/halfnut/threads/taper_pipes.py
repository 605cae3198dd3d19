"""Taper pipe threads: what they are cut and gauged to."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, ClassVar, Literal

from halfnut import _core
from halfnut.core.arrays import NDArray, np
from halfnut.core.catalogue import active
from halfnut.core.sizes import both, one
from halfnut.threads.figures import TaperPipeFigures

__all__ = ["TaperPipe", "taper_pipe_columns"]


class TaperPipe(TaperPipeFigures):
    """What a taper pipe thread is cut and gauged to; figures are None where the standard gives none."""

    SHORT: ClassVar[tuple[str, ...]] = ("hole", "set")

    @property
    def depth_mm(self) -> float:
        """Depth of the thread in an internal part: hand engagement and wrench turns."""
        return self.hand_engagement_mm + (self.wrench_length_mm or 0.0)

    @property
    def answer(self) -> str:
        """Turns of hand engagement, and the gauge plane."""
        low, high = self.hand_turns - self.tolerance_turns, self.hand_turns + self.tolerance_turns
        turns = f"{self.hand_turns:.2f} turns by hand, {low:.1f} to {high:.1f}"
        return f"{self.thread}: {turns}; gauge plane {one(self.hand_engagement_mm, self.unit)} from the end"

    def report(self) -> list[tuple[str, str]]:
        """Gauge plane, lengths, holes, how to set the lathe."""

        def size(value_mm: float) -> str:
            return both(value_mm, self.unit)

        end, plane = size(self.pitch_small_end_mm), size(self.pitch_gauge_plane_mm)
        out = [("pitch", f"{end} at the end, {plane} at the plane")]
        if self.effective_length_mm is not None and self.pitch_effective_mm is not None:
            out.append(("thread", f"{size(self.effective_length_mm)} effective, {size(self.pitch_effective_mm)} there"))
        if self.overall_length_mm is not None:
            out.append(("overall", f"{size(self.overall_length_mm)} with the vanishing threads"))
        attachment = f"attachment {12 * self.taper_on_diameter:g} in per foot"
        return [
            *out,
            ("height", size(self.thread_height_mm)),
            ("hole", f"drill at most {size(self.hole_at_end_mm)}, ream to {size(self.hole_at_face_mm)} at the mouth"),
            (
                "set",
                f"compound or attachment at {self.compound_setting_deg:.4f} deg; {attachment}; tool square to the "
                "axis, not to the taper",
            ),
        ]


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
