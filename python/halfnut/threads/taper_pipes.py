"""Taper pipe threads: what they are cut and gauged to."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any, ClassVar, Literal

import numpy as np
from numpy.typing import NDArray

from halfnut import _core
from halfnut._core import Evidence, Thread
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import both, one
from halfnut.core.words import caution, caution_lines
from halfnut.threads.standard import thread as read_thread

__all__ = ["TaperPipe", "taper_pipe", "taper_pipe_columns"]


@dataclass(frozen=True, repr=False)
class TaperPipe(Record):
    """What a taper pipe thread is cut and gauged to, mm; None where the standard gives none."""

    SHORT: ClassVar[tuple[str, ...]] = ("hole", "set")
    thread: str
    unit: str
    tpi: float
    pitch_small_end_mm: float
    """E0, at the end of the pipe."""
    pitch_gauge_plane_mm: float
    """E1, a hand engagement from the end."""
    pitch_effective_mm: float | None
    pitch_wrench_mm: float | None
    hand_engagement_mm: float
    effective_length_mm: float | None
    wrench_length_mm: float | None
    overall_length_mm: float | None
    full_crest_length_mm: float | None
    thread_height_mm: float
    hand_turns: float
    tolerance_turns: float
    hole_at_face_mm: float
    """Minor diameter at the mouth of the internal thread: a reamer's large end."""
    hole_at_end_mm: float
    """Minor diameter where the internal thread ends: the hole to drill before reaming."""
    compound_setting_deg: float
    """Half of the taper: to the axis."""
    taper_on_diameter: float
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Evidence, ...] = field(default=(), compare=False)

    def whole(self) -> list[str]:
        """Turns by hand in the first line, then gauge plane, lengths, holes, how to set the lathe, cautions."""
        unit = self.unit

        def size(value_mm: float) -> str:
            return both(value_mm, unit)

        out = [
            f"{self.thread}: {self.hand_turns:.2f} turns by hand, {self.hand_turns - self.tolerance_turns:.1f} to "
            f"{self.hand_turns + self.tolerance_turns:.1f}; gauge plane {one(self.hand_engagement_mm, unit)} "
            "from the end",
        ]
        out.append(
            f"  pitch     {size(self.pitch_small_end_mm)} at the end, {size(self.pitch_gauge_plane_mm)} at the plane"
        )
        if self.effective_length_mm is not None and self.pitch_effective_mm is not None:
            out.append(f"  thread    {size(self.effective_length_mm)} effective, {size(self.pitch_effective_mm)} there")
        if self.overall_length_mm is not None:
            out.append(f"  overall   {size(self.overall_length_mm)} with the vanishing threads")
        out.append(f"  height    {size(self.thread_height_mm)}")
        out.append(
            f"  hole      drill at most {size(self.hole_at_end_mm)}, ream to {size(self.hole_at_face_mm)} at the mouth"
        )
        out.append(
            f"  set       compound or attachment at {self.compound_setting_deg:.4f} deg; attachment "
            f"{12 * self.taper_on_diameter:g} in per foot; tool square to the axis, not to the taper"
        )
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        return [*out, *caution_lines(self.cautions)]


@checked
def taper_pipe(thread: str | Thread) -> TaperPipe:
    """What a taper pipe thread is cut and gauged to: turns by hand, gauge plane, holes, setting of the lathe.

    Parameters
    ----------
    thread : str or Thread
        ``"1/2-14 NPT"``, ``"R1/2"``, ``"Rc1/2"``.

    Returns
    -------
    TaperPipe
        Immutable; prints itself, turns of hand engagement in its first line.

    Raises
    ------
    NotTabulatedError
        Not a taper form, or no such size.

    >>> found = taper_pipe("1/2-14 NPT")
    >>> round(found.pitch_small_end_mm / 25.4, 5), round(found.hand_turns, 2)
    (0.75843, 4.48)
    """
    given = read_thread(thread)
    answer: dict[str, Any] = _core.taper_pipe_answer(given, active())
    evidence = tuple(answer.pop("evidence"))
    made = [caution("taper_pipe_seal")]
    if any(item.kind == "memory" for item in evidence):
        made.insert(0, caution("from_memory"))
    return TaperPipe(
        thread=str(given), unit=given.unit, tpi=given.tpi or 0.0, cautions=tuple(made), evidence=evidence, **answer
    )


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
