"""Measuring threads: what to read over wires, and what a measured part is.

`wires` answers the sizes over wires (or across balls) of a thread's limits, `judge` what a measured part is and what
is left to take off, `shop_plug` the sizes of a plug gauge to cut. The functions of numbers take the half angle in the
axial plane (30 for a 60 degree thread) and the lead (starts times the pitch); ``over_wires_exact_mm`` is the contact
itself, the formulas beside it are those of the shop and of the standards.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, ClassVar, Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from halfnut import _core
from halfnut._core import (
    Evidence,
    across_balls_exact_mm,
    across_balls_plain_mm,
    across_balls_skew_mm,
    best_wire_exact_mm,
    best_wire_mm,
    flank_error_equivalent_mm,
    largest_ball_mm,
    largest_wire_mm,
    over_wires_exact_mm,
    over_wires_held_mm,
    over_wires_involute_mm,
    over_wires_involute_working,
    over_wires_lead_mm,
    over_wires_normal_mm,
    over_wires_plain_mm,
    pitch_diameter_from_balls_exact_mm,
    pitch_diameter_from_wires_exact_mm,
    pitch_diameter_from_wires_lead_mm,
    pitch_diameter_from_wires_plain_mm,
    pitch_error_equivalent_mm,
    smallest_ball_mm,
    smallest_wire_mm,
    wire_tilt_deg,
)
from halfnut.core.arguments import checked
from halfnut.core.carriers import columns
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import both, one, span
from halfnut.core.units import length
from halfnut.core.words import caution, caution_lines
from halfnut.threads.precoating import PrecoatLimits
from halfnut.threads.standard import PartLike, limits_of

__all__ = [
    "OverWires",
    "across_balls_exact_mm",
    "across_balls_plain_mm",
    "across_balls_skew_mm",
    "best_wire_exact_mm",
    "best_wire_mm",
    "flank_error_equivalent_mm",
    "largest_ball_mm",
    "largest_wire_mm",
    "over_wires_exact_mm",
    "over_wires_held_mm",
    "over_wires_involute_mm",
    "over_wires_involute_working",
    "over_wires_lead_mm",
    "over_wires_normal_mm",
    "over_wires_plain_mm",
    "pitch_diameter_from_balls_exact_mm",
    "pitch_diameter_from_wires_exact_mm",
    "pitch_diameter_from_wires_lead_mm",
    "pitch_diameter_from_wires_plain_mm",
    "pitch_error_equivalent_mm",
    "smallest_ball_mm",
    "smallest_wire_mm",
    "wire_columns",
    "wire_tilt_deg",
    "wires",
]


@dataclass(frozen=True, repr=False)
class OverWires(Record):
    """Sizes over wires of an external thread, or across two balls of an internal one (then wire is the ball).

    Lengths in mm; None where one does not apply.
    """

    SHORT: ClassVar[tuple[str, ...]] = ("pitch",)
    thread: str
    side: str
    unit: str
    wire_mm: float
    wire_choice: str
    best_wire_mm: float
    smallest_wire_mm: float
    largest_wire_mm: float
    over_max_mm: float
    over_min_mm: float
    over_max_plain_mm: float
    over_min_plain_mm: float
    over_max_lead_mm: float | None
    over_min_lead_mm: float | None
    over_max_held_mm: float | None
    over_min_held_mm: float | None
    pitch_max_mm: float
    pitch_min_mm: float
    lead_angle_deg: float
    wire_tilt_deg: float | None
    wire_error_factor: float
    measuring_force_n: float | None
    skew_add_mm: float
    wire_known_to_mm: float
    micrometer_max_mm: float | None
    micrometer_min_mm: float | None
    before_coating: bool = False
    coated_max_mm: float | None = None
    """What the coated part may read over the same wires; the gauges of the coated part decide."""
    coated_min_mm: float | None = None
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Evidence, ...] = ()

    def whole(self) -> list[str]:
        """The two readings and the wire in the first line, then the wires that do, then what it rests on."""
        external = self.side == "external"
        how, what = ("over", "wires") if external else ("across", "balls")
        unit = self.unit
        low, high = self.over_min_mm, self.over_max_mm
        when = "before coating " if self.before_coating else ""
        out = [f"{when}{self.thread}: {span(low, high, unit, 1)} {how} {one(self.wire_mm, unit, 1)} {what}"]
        other = "mm" if unit == "in" else "in"
        out.append(f"  {'':<9} {span(low, high, other, 1)} {how} {one(self.wire_mm, other, 1)} {what}")
        if self.coated_min_mm is not None and self.coated_max_mm is not None:
            out.append(f"  coated    {span(self.coated_min_mm, self.coated_max_mm, unit, 1)} over the same {what}")
        out.append(f"  pitch     {span(self.pitch_min_mm, self.pitch_max_mm, unit)}")
        best = both(self.best_wire_mm, unit, 1)
        chosen = f"the best, {best}" if self.wire_choice == "best" else f"{self.wire_choice}; best {best}"
        out.append(f"  {what:<9} {chosen}; usable {span(self.smallest_wire_mm, self.largest_wire_mm, unit, 1)}")
        short = one(self.over_max_plain_mm - high, unit, 1)
        out.append(f"  plain     {span(self.over_min_plain_mm, self.over_max_plain_mm, unit, 1)}, off by {short}")
        if self.over_min_lead_mm is not None and self.over_max_lead_mm is not None:
            out.append(
                f"  standard  {span(self.over_min_lead_mm, self.over_max_lead_mm, unit, 1)}, lead angle by formula"
            )
        if not external and self.skew_add_mm > 0:
            out.append(f"  offset    {one(self.skew_add_mm, unit, 1)} more where the balls stand half a pitch apart")
        if self.micrometer_min_mm is not None and self.micrometer_max_mm is not None:
            reading = span(self.micrometer_min_mm, self.micrometer_max_mm, unit)
            out.append(f"  or        {reading} by thread micrometer, set on a plug gauge of this pitch")
        known = one(self.wire_known_to_mm, unit, 1)
        left = one(self.wire_known_to_mm * self.wire_error_factor, unit, 1)
        out.append(f"  accuracy  {what} known to {known}, which leaves {left} on the pitch diameter")
        if self.measuring_force_n is not None:
            out.append(f"  force     {self.measuring_force_n:.1f} N ({self.measuring_force_n / 4.4482216:.2g} lbf)")
        out.append(f"  angle     lead {self.lead_angle_deg:.2f} deg")
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines(self.cautions)
        return out


@checked
def wires(thread: PartLike, *, wire: Any = None, set: str = "") -> OverWires:
    """What to read over wires for the limits of a thread.

    Parameters
    ----------
    thread : str, Thread or ThreadLimits
        A designation (without a class the usual external one is meant), or limits, such as those before coating, or
        of sizes alone (`plain_thread`). An internal thread is answered across two balls.
    wire : str, Length or pint quantity, optional
        The wire at hand; ``"best"`` for the one that touches at the pitch line. Otherwise the nearest of a set.
    set : str
        The set of wires: ``"inch"``, ``"metric"`` or one of the shop's own; by the thread's unit when not named.

    Returns
    -------
    OverWires
        Immutable; prints itself, the readings in its first line.

    Raises
    ------
    DomainError
        The wire is out of the usable range, or no wire measures so steep a thread.
    NotTabulatedError
        No such set.

    >>> answer = wires("M10-6g")
    >>> answer.wire_mm, round(answer.over_max_mm, 4)
    (0.895, 10.3817)
    """
    catalogue = active()
    found = limits_of(thread)
    external = found.side == "external"
    if (found.major_max if external else found.minor_min) is None:
        name = "major" if external else "minor"
        raise _core.DomainError(
            f"{found.title}: give its {name} diameter, which the wires or balls have to stand above"
        )
    best = isinstance(wire, str) and wire.strip().lower() == "best"
    wire_mm = None if wire is None or best else length(wire, "wire").mm
    answer = _core.wires_answer(found.figures, catalogue, wire_mm, best, set)
    figures: dict[str, Any] = answer.figures
    coated = isinstance(found, PrecoatLimits) and found.way != "bare"
    if isinstance(found, PrecoatLimits) and found.go_after_crest_mm is not None and coated:
        figures.update(_coated_readings(found, found.go_after_crest_mm, figures["wire_mm"]))
    assumed = [each for each in found.cautions if each.code == "class_assumed"]
    return OverWires(
        thread=found.title,
        side=found.side,
        unit=found.unit,
        wire_choice=answer.choice,
        pitch_max_mm=found.pitch_max_mm,
        pitch_min_mm=found.pitch_min_mm,
        before_coating=coated,
        cautions=(*(caution(code) for code in answer.cautions), *assumed),
        evidence=tuple(answer.evidence(catalogue)),
        **figures,
    )


def _coated_readings(before: PrecoatLimits, crest_mm: float, wire_mm: float) -> dict[str, float]:
    """Readings of the coated part at its gauges' sizes; none where the wire does not measure it any more."""
    external = before.side == "external"
    size = over_wires_exact_mm if external else across_balls_exact_mm
    pitches = np.array([before.go_after_pitch_mm, before.not_go_after_pitch_mm])
    readings, codes = size(
        pitches,
        crest_mm,
        before.pitch_mm,
        before.lead_mm,
        before.half_angle_deg,
        wire_mm,
        on_error="status",
    )
    if codes.any():
        return {}
    go, not_go = map(float, np.asarray(readings))
    return {"coated_max_mm": max(go, not_go), "coated_min_mm": min(go, not_go)}


def wire_columns(
    designations: Sequence[str] | str,
    *,
    wire_mm: ArrayLike = np.nan,
    best: bool = False,
    set: str = "",
    on_error: Literal["raise", "status"] = "raise",
) -> dict[str, NDArray[Any]]:
    """Sizes over wires (across balls) of many threads as columns.

    Parameters
    ----------
    designations : str or sequence of str
        One designation a row, of any form that is known; one serves all rows.
    wire_mm : array_like
        Wire or ball, mm; NaN: chosen, as `wires` does.
    best : bool
        Take the wire that touches at the pitch line, not the nearest of a set.
    set : str
        The set of wires, as for `wires`.
    on_error : {"raise", "status"}
        Raise at the first row that fails, or give NaN and a status other than 0 there.

    Returns
    -------
    dict of ndarray
        The figures of `OverWires` (NaN where one does not apply), ``side`` and ``status``.

    Raises
    ------
    DomainError
        With the first bad row, why, and how many failed.

    >>> wire_columns(["M10-6g", "M12-6g"], best=True)["over_max_mm"].round(3).tolist()
    [10.29, 12.342]
    """
    out = _core.wire_columns(texts_of(designations), active(), columns(wire_mm=wire_mm), best, set, on_error)
    out["side"] = named_codes(out.pop("side_code"), ("external", "internal"), out["status"])
    return out


def texts_of(designations: Sequence[str] | str) -> list[str]:
    return [designations] if isinstance(designations, str) else list(designations)


def named_codes(codes: NDArray[Any], names: tuple[str, ...], status: NDArray[Any]) -> NDArray[Any]:
    """Names for codes; "" in a failed row."""
    return np.where(status == 0, np.array(names)[codes], "")
