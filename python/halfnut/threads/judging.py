"""What a measured thread is, and what is left to take off."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any, ClassVar, Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from halfnut import _core
from halfnut._core import Evidence
from halfnut.core.arguments import checked
from halfnut.core.carriers import columns
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import both_systems, one
from halfnut.core.units import measured_mm
from halfnut.core.words import caution, caution_lines
from halfnut.threads.gauging import named_codes, texts_of
from halfnut.threads.precoating import PrecoatLimits
from halfnut.threads.standard import PartLike, ThreadLimits, limits_of

__all__ = ["Judged", "Verdict", "judge", "judge_columns"]


@dataclass(frozen=True)
class Judged:
    """One diameter against its limits, mm; what comes off is on the diameter, below 0 when it is already past."""

    measured_mm: float | None
    min_mm: float | None
    max_mm: float | None
    place: str
    """"not measured", "within", "metal left" or "overcut"."""
    to_enter_mm: float
    to_middle_mm: float
    to_last_mm: float


@dataclass(frozen=True, repr=False)
class Verdict(Record):
    """What a measured part is: its place in each zone, the classes it meets, what is left to take off."""

    SHORT: ClassVar[tuple[str, ...]] = ("pitch", "meets")
    thread: str
    side: str
    unit: str
    place: str
    """The worst of the diameters': "within", "metal left" or "overcut"."""
    diameters: dict[str, Judged]
    functional_pitch_mm: float | None
    classes: tuple[tuple[str, bool, dict[str, str]], ...]
    over_wires_mm: float | None = None
    wire_mm: float | None = None
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Evidence, ...] = field(default=(), compare=False)

    @property
    def passes(self) -> bool:
        """Whether every diameter that was measured is within its limits."""
        return self.place == "within"

    @property
    def classes_met(self) -> tuple[str, ...]:
        """The classes that every measured diameter meets."""
        return tuple(name for name, met, _ in self.classes if met)

    def to_dict(self) -> dict[str, Any]:
        """The verdict as a flat dictionary, each length in both systems; what comes off also for a radius dial."""
        out: dict[str, Any] = {
            "thread": self.thread,
            "side": self.side,
            "unit": self.unit,
            "place": self.place,
            "passes": self.passes,
            "functional_pitch_mm": self.functional_pitch_mm,
            "over_wires_mm": self.over_wires_mm,
            "wire_mm": self.wire_mm,
            "classes_met": list(self.classes_met),
        }
        for name, judged in self.diameters.items():
            out[f"{name}_mm"] = judged.measured_mm
            out[f"{name}_place"] = judged.place
            for amount in ("to_enter", "to_middle", "to_last"):
                on_diameter = getattr(judged, f"{amount}_mm") if judged.measured_mm is not None else None
                out[f"{name}_{amount}_diameter_mm"] = on_diameter
                out[f"{name}_{amount}_radius_mm"] = None if on_diameter is None else on_diameter / 2
        return both_systems(out)

    def whole(self) -> list[str]:
        """The verdict in the first line, then each diameter, what is left on either dial, the classes."""
        unit = self.unit
        worst = [name for name, judged in self.diameters.items() if judged.place == self.place]
        left, past = self.diameters[worst[0]].to_enter_mm, -self.diameters[worst[0]].to_last_mm
        said = {
            "within": "within its limits",
            "metal left": f"not yet: {worst[0]} diameter has {one(left, unit)} to come off",
            "overcut": f"overcut: {worst[0]} diameter is {one(past, unit)} past its limit",
        }
        out = [f"{self.thread}: {said[self.place]}"]
        for name, judged in self.diameters.items():
            if judged.measured_mm is None:
                continue
            zone = " to ".join(
                "open" if value is None else one(value, unit).rsplit(" ", 1)[0]
                for value in (judged.min_mm, judged.max_mm)
            )
            out.append(f"  {name:<9} {one(judged.measured_mm, unit)}, limits {zone}: {judged.place}")
            if judged.place != "overcut" and judged.to_last_mm > 0:
                steps = [("to the middle", judged.to_middle_mm), ("at most", judged.to_last_mm)]
                if judged.place == "metal left":
                    steps.insert(0, ("at least", judged.to_enter_mm))
                for words, value in steps:
                    if value > 0:
                        out.append(
                            f"  {'':<9} {words} {one(value, unit)} on a diameter dial, "
                            f"{one(value / 2, unit)} on a radius dial"
                        )
        pitch = self.diameters["pitch"].measured_mm
        if self.functional_pitch_mm is not None and pitch is not None and self.functional_pitch_mm != pitch:
            out.append(f"  gauges as {one(self.functional_pitch_mm, unit)} pitch, for its errors of lead and angle")
        if self.over_wires_mm is not None and self.wire_mm is not None:
            out.append(f"  read      {one(self.over_wires_mm, unit)} over {one(self.wire_mm, unit)}")
        out.append(f"  meets     {', '.join(self.classes_met) or 'no class'}")
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines(self.cautions)
        return out


@checked
def judge(
    thread: PartLike,
    *,
    pitch: Any = None,
    over_wires: Any = None,
    wire: Any = None,
    major: Any = None,
    minor: Any = None,
    lead_error: Any = None,
    leading_error_deg: float = 0.0,
    following_error_deg: float = 0.0,
    engagement: Any = None,
) -> Verdict:
    """What a measured part is: which classes it meets, dimension by dimension, and what is left to take off.

    Parameters
    ----------
    thread : str, Thread or ThreadLimits
        The thread it is to be, of any form; without a class the usual external one is meant. Limits, such as those
        before coating, are judged by themselves.
    pitch : str, Length or pint quantity, optional
        Measured pitch diameter.
    over_wires, wire : str, Length or pint quantity, optional
        In its place the size over three wires (across two balls, square to the axis, of an internal thread) and the
        wire's or ball's diameter.
    major, minor : str, Length or pint quantity, optional
        Measured.
    lead_error : str, Length or pint quantity, optional
        Between any two flanks within the length of engagement.
    leading_error_deg, following_error_deg : float
        Measured half angles less the standard one.
    engagement : str, Length or pint quantity, optional
        Length of engagement, as for `limits`.

    Returns
    -------
    Verdict
        Immutable; prints itself, the verdict in its first line.

    Raises
    ------
    DomainError
        Nothing measured, both a pitch diameter and a size over wires, or a wire that does not measure this thread.

    >>> verdict = judge("M10-6g", pitch="9.050 mm")
    >>> verdict.place, round(verdict.diameters["pitch"].to_enter_mm, 3)
    ('metal left', 0.056)
    """
    catalogue = active()

    def mm(value: Any, name: str) -> float | None:
        return None if value is None else measured_mm(value, name)

    error_mm = mm(lead_error, "lead_error") or 0.0
    given: dict[str, Any] = {
        "pitch_mm": mm(pitch, "pitch"),
        "major_mm": mm(major, "major"),
        "minor_mm": mm(minor, "minor"),
        "lead_error_mm": error_mm,
        "leading_error_deg": leading_error_deg,
        "following_error_deg": following_error_deg,
        "over_wires_mm": mm(over_wires, "over_wires"),
        "wire_mm": mm(wire, "wire"),
    }
    alone = isinstance(thread, ThreadLimits)
    own = limits_of(thread, engagement=engagement)
    answer = _core.judge_answer(own.figures, catalogue, alone, **given)
    cautions = [caution("judge_these_limits")] if alone else []
    cautions += own.cautions
    if answer.crest_assumed:
        cautions.append(caution("judge_major_assumed" if own.side == "external" else "judge_minor_assumed"))
    if error_mm == 0.0 and leading_error_deg == 0.0 and following_error_deg == 0.0:
        cautions.append(caution("judge_form_assumed"))
    return Verdict(
        thread=f"{own.title} before coating" if isinstance(own, PrecoatLimits) and own.way != "bare" else own.title,
        side=own.side,
        unit=own.unit,
        place=answer.place,
        diameters={name: Judged(**values) for name, values in answer.diameters.items()},
        functional_pitch_mm=answer.functional_pitch_mm,
        classes=tuple(answer.classes),
        over_wires_mm=given["over_wires_mm"],
        wire_mm=given["wire_mm"],
        cautions=tuple(cautions),
        evidence=tuple(answer.evidence(catalogue)) or own.evidence,
    )


def judge_columns(
    designations: Sequence[str] | str,
    *,
    pitch_mm: ArrayLike = np.nan,
    major_mm: ArrayLike = np.nan,
    minor_mm: ArrayLike = np.nan,
    over_wires_mm: ArrayLike = np.nan,
    wire_mm: ArrayLike = np.nan,
    lead_error_mm: ArrayLike = 0.0,
    leading_error_deg: ArrayLike = 0.0,
    following_error_deg: ArrayLike = 0.0,
    engagement_mm: ArrayLike = np.nan,
    on_error: Literal["raise", "status"] = "raise",
) -> dict[str, NDArray[Any]]:
    """Verdicts on many measured parts as columns.

    Parameters
    ----------
    designations : str or sequence of str
        The thread each part is to be, of any form that is known; one serves all rows.
    pitch_mm, major_mm, minor_mm : array_like
        Measured, mm; NaN: not measured. One value, or one a row, as all that follow.
    over_wires_mm, wire_mm : array_like
        In place of ``pitch_mm``, mm.
    lead_error_mm, leading_error_deg, following_error_deg : array_like
        Errors of form, as for `judge`.
    engagement_mm : array_like
        Length of engagement, mm; NaN: normal.
    on_error : {"raise", "status"}
        Raise at the first row that fails, or give NaN and a status other than 0 there.

    Returns
    -------
    dict of ndarray
        ``place`` ("within", "metal left", "overcut"; "" in a failed row), ``functional_pitch_mm``, for each diameter
        ``pitch_place``, ``pitch_mm``, ``pitch_min_mm``, ``pitch_max_mm``, ``pitch_to_enter_mm``,
        ``pitch_to_middle_mm``, ``pitch_to_last_mm`` (on the diameter; NaN where it was not measured
        or has no limit), ``classes_met`` (names with blanks between) and ``status``.

    Raises
    ------
    DomainError
        With the first bad row, why, and how many failed.

    >>> judge_columns("M10-6g", pitch_mm=[9.05, 8.95, 8.85])["place"].tolist()
    ['metal left', 'within', 'overcut']
    """
    numbers = columns(
        pitch_mm=pitch_mm,
        major_mm=major_mm,
        minor_mm=minor_mm,
        lead_error_mm=lead_error_mm,
        leading_error_deg=leading_error_deg,
        following_error_deg=following_error_deg,
        over_wires_mm=over_wires_mm,
        wire_mm=wire_mm,
        engagement_mm=engagement_mm,
    )
    out = _core.judge_columns(texts_of(designations), active(), numbers, on_error)
    for name in ("place", "major_place", "pitch_place", "minor_place"):
        out[name] = named_codes(out.pop(f"{name}_code"), _PLACES, out["status"])
    return out


_PLACES = ("not measured", "within", "metal left", "overcut")
