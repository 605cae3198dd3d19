"""Measuring threads: what to read over wires, and what a measured part is.

`wires` answers the sizes over wires (or across balls) of a thread's limits, `judge` what a measured part is and what
is left to take off, `shop_plug` the sizes of a plug gauge to cut. The functions of numbers take the half angle in the
axial plane (30 for a 60 degree thread) and the lead (starts times the pitch); ``over_wires_exact_mm`` is the contact
itself, the formulas beside it are those of the shop and of the standards.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

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
from halfnut.core.sizes import MM_PER_INCH, both, one, span
from halfnut.core.units import length, measured_mm
from halfnut.core.words import caution, caution_lines
from halfnut.threads import form_threads
from halfnut.threads.plain_threads import PlainThread
from halfnut.threads.precoating import PrecoatLimits, one_part
from halfnut.threads.standard import ThreadLimits, limits

__all__ = [
    "Judged",
    "OverWires",
    "ShopPlug",
    "Verdict",
    "across_balls_exact_mm",
    "across_balls_plain_mm",
    "across_balls_skew_mm",
    "best_wire_exact_mm",
    "best_wire_mm",
    "flank_error_equivalent_mm",
    "judge",
    "judge_columns",
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
    "shop_plug",
    "smallest_ball_mm",
    "smallest_wire_mm",
    "wire_columns",
    "wire_tilt_deg",
    "wires",
]

_HALF_ANGLE_DEG = 30.0


@dataclass(frozen=True, repr=False)
class OverWires(Record):
    """Sizes over wires of an external thread, or across two balls of an internal one (then wire is the ball).

    Lengths in mm; None where one does not apply.
    """

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

    def lines(self) -> list[str]:
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
def wires(thread: Any, *, wire: Any = None, set: str = "") -> OverWires:
    """What to read over wires for the limits of a thread.

    Parameters
    ----------
    thread : str, Thread, ThreadLimits or PlainThread
        A designation (without a class the usual external one is meant), or limits, such as those before coating, or
        sizes of another form (`plain_thread`). An internal thread is answered across two balls.
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
    if isinstance(thread, PlainThread):
        return _plain_wires(thread, wire, set)
    if form_threads.is_form(thread):
        return _plain_wires(form_threads.form_limits(thread, usual=True), wire, set)
    found = thread if isinstance(thread, ThreadLimits) else limits(one_part(thread))
    best = isinstance(wire, str) and wire.strip().lower() == "best"
    wire_mm = None if wire is None or best else length(wire, "wire").mm
    answer = _core.wires_answer(found.thread, found.figures, catalogue, wire_mm, best, set)
    scale = 25.4 if found.unit == "in" else 1.0
    figures: dict[str, Any] = answer.figures
    coated = False
    if isinstance(found, PrecoatLimits) and found.way != "bare":
        coated = True
        figures.update(_coated_readings(found, figures["wire_mm"]))
    return OverWires(
        thread=str(found.thread),
        side=found.side,
        unit=found.unit,
        wire_choice=answer.choice,
        pitch_max_mm=found.pitch_max * scale,
        pitch_min_mm=found.pitch_min * scale,
        before_coating=coated,
        cautions=tuple(caution(code) for code in answer.cautions),
        evidence=tuple(answer.evidence(catalogue)),
        **figures,
    )


def _plain_wires(thread: PlainThread, wire: Any, set: str) -> OverWires:
    catalogue = active()
    crest = thread.major_max_mm if thread.side == "external" else thread.minor_min_mm
    if crest is None:
        name = "major" if thread.side == "external" else "minor"
        raise _core.DomainError(
            f"{thread.title}: give its {name} diameter, which the wires or balls have to stand above"
        )
    best = isinstance(wire, str) and wire.strip().lower() == "best"
    wire_mm = None if wire is None or best else length(wire, "wire").mm
    bare = thread.part(_core.BuildUp(0.0, 0.0))
    answer = _core.sized_wires_answer(bare, thread.side, thread.unit, thread.title, catalogue, wire_mm, best, set)
    figures: dict[str, Any] = answer.figures
    return OverWires(
        thread=thread.title,
        side=thread.side,
        unit=thread.unit,
        wire_choice=answer.choice,
        pitch_max_mm=thread.pitch_max_mm,
        pitch_min_mm=thread.pitch_min_mm,
        cautions=tuple(caution(code) for code in answer.cautions),
        evidence=tuple(answer.evidence(catalogue)),
        **figures,
    )


def _coated_readings(before: PrecoatLimits, wire_mm: float) -> dict[str, float]:
    """Readings of the coated part at its gauges' sizes; none where the wire does not measure it any more."""
    external = before.side == "external"
    own = before.thread
    size = over_wires_exact_mm if external else across_balls_exact_mm
    pitches = np.array([before.go_after_pitch_mm, before.not_go_after_pitch_mm])
    readings, codes = size(
        pitches, before.go_after_crest_mm, own.pitch_mm, own.lead_mm, _HALF_ANGLE_DEG, wire_mm, on_error="status"
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
    out = _core.wire_columns(_texts(designations), active(), columns(wire_mm=wire_mm), best, set, on_error)
    out["side"] = _named(out.pop("side_code"), ("external", "internal"), out["status"])
    return out


def _texts(designations: Sequence[str] | str) -> list[str]:
    return [designations] if isinstance(designations, str) else list(designations)


def _named(codes: NDArray[Any], names: tuple[str, ...], status: NDArray[Any]) -> NDArray[Any]:
    """Names for codes; "" in a failed row."""
    return np.where(status == 0, np.array(names)[codes], "")


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
        """The verdict as a flat dictionary with unit-suffixed keys; what comes off also for a radius dial."""
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
        return out

    def lines(self) -> list[str]:
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
    thread: Any,
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
    thread : str, Thread, FormThread, ThreadLimits or FormLimits
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
    cautions = []
    evidence: tuple[Evidence, ...] = ()
    if isinstance(thread, ThreadLimits):
        part = thread.thread
        core = _core.FitPart(part, thread.figures, _core.BuildUp(0.0, 0.0))
        basic_mm = _core.basic_pitch_diameter_mm(part.diameter_mm, part.pitch_mm)
        before = isinstance(thread, PrecoatLimits) and thread.way != "bare"
        title = f"{part} before coating" if before else str(part)
        answer = _core.sized_judge_answer(core, thread.side, basic_mm, part.tolerance_class, **given)
        side, unit, evidence = thread.side, str(thread.unit), tuple(thread.evidence)
        cautions = [caution("judge_these_limits"), *thread.cautions]
    elif isinstance(thread, form_threads.FormLimits):
        bare = thread
        core = bare.part(_core.BuildUp(0.0, 0.0))
        name = bare.tolerance_class or bare.title
        answer = _core.sized_judge_answer(core, bare.side, bare.basic_pitch_mm, name, **given)
        title, side, unit, evidence = bare.title, bare.side, bare.unit, bare.evidence
        cautions = [caution("form_no_classes"), *bare.cautions]
    elif form_threads.is_form(thread):
        bare = form_threads.form_limits(thread, engagement=engagement, usual=True)
        answer = _core.form_judge_answer(
            bare.thread, bare.side, catalogue, **given, engagement_mm=mm(engagement, "engagement")
        )
        title, side, unit, evidence = bare.title, bare.side, bare.unit, bare.evidence
        cautions = list(bare.cautions)
    else:
        part = one_part(thread)
        answer = _core.judge_answer(part, catalogue, **given, engagement_mm=mm(engagement, "engagement"))
        title, side, unit = str(part), answer.limits.side, answer.limits.unit
        evidence = tuple(answer.evidence(catalogue))
    if answer.crest_assumed:
        cautions.append(caution("judge_major_assumed" if side == "external" else "judge_minor_assumed"))
    if error_mm == 0.0 and leading_error_deg == 0.0 and following_error_deg == 0.0:
        cautions.append(caution("judge_form_assumed"))
    return Verdict(
        thread=title,
        side=side,
        unit=unit,
        place=answer.place,
        diameters={name: Judged(**values) for name, values in answer.diameters.items()},
        functional_pitch_mm=answer.functional_pitch_mm,
        classes=tuple(answer.classes),
        over_wires_mm=given["over_wires_mm"],
        wire_mm=given["wire_mm"],
        cautions=tuple(cautions),
        evidence=evidence,
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
    out = _core.judge_columns(_texts(designations), active(), numbers, on_error)
    for name in ("place", "major_place", "pitch_place", "minor_place"):
        out[name] = _named(out.pop(f"{name}_code"), _PLACES, out["status"])
    return out


_PLACES = ("not measured", "within", "metal left", "overcut")


@dataclass(frozen=True, repr=False)
class ShopPlug(Record):
    """Sizes of a plug that a shop cuts for itself to try an internal thread with. Lengths in mm."""

    thread: str
    unit: str
    go_pitch_mm: float
    go_major_mm: float
    go_over_wires_mm: float
    not_go_pitch_mm: float
    not_go_major_mm: float
    not_go_over_wires_mm: float
    wire_mm: float
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Evidence, ...] = field(default=(), compare=False)

    def lines(self) -> list[str]:
        """The go end in the first line, then the not-go end."""
        unit = self.unit
        return [
            f"plug for {self.thread}: go end {one(self.go_pitch_mm, unit)} pitch, {one(self.go_major_mm, unit)} major, "
            f"{one(self.go_over_wires_mm, unit, 1)} over {one(self.wire_mm, unit, 1)} wires",
            f"  not-go end {one(self.not_go_pitch_mm, unit)} pitch, {one(self.not_go_major_mm, unit)} major, "
            f"{one(self.not_go_over_wires_mm, unit, 1)} over the same wires; three turns are enough",
            f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}",
        ]


@checked
def shop_plug(thread: Any, *, pitch: tuple[Any, Any] | None = None, wire: Any = None) -> ShopPlug:
    """Sizes of a go and not-go plug for an internal thread, with the readings over wires to cut them by.

    Parameters
    ----------
    thread : str, Thread, FormThread, ThreadLimits or FormLimits
        An internal thread of any form, ``"M10-6H"``, ``"Tr16x4-7H"``; or its limits, such as those before coating.
    pitch : pair of lengths, optional
        Least and greatest pitch diameter to try for, in place of the limits: of a nut cut to suit a screw.
    wire : str, Length or pint quantity, optional
        The wire at hand; otherwise the nearest of a set.

    Returns
    -------
    ShopPlug
        The go end has the form of the largest screw of the smallest nut; the not-go end touches on the flanks about the
        pitch line only, so its crest is kept two thirds of the depth above it (of a 60 degree thread a quarter of the
        triangle's height).

    Raises
    ------
    DomainError
        The thread is external, the pair is not in order, or the wire does not measure the plug.

    >>> round(shop_plug("M10-6H").go_pitch_mm, 3), round(shop_plug("Tr16x4-7H").go_major_mm, 3)
    (9.026, 16.0)
    """
    nut = _nut(thread)
    go_pitch, not_go_pitch = nut.pitch_min_mm, nut.pitch_max_mm
    if pitch is not None:
        go_pitch, not_go_pitch = (length(each, "pitch").mm for each in pitch)
        if not 0.0 < go_pitch <= not_go_pitch:
            least, greatest = one(go_pitch, nut.unit), one(not_go_pitch, nut.unit)
            raise _core.DomainError(f"pitch must be > 0, the least before the greatest, got {least} to {greatest}")
    not_go_major = not_go_pitch + 2.0 * nut.land_mm
    wire_mm = wires(nut.screw, wire=wire).wire_mm
    sizes = (nut.pitch_mm, nut.lead_mm, nut.half_angle_deg, wire_mm)
    return ShopPlug(
        thread=nut.title,
        unit=nut.unit,
        go_pitch_mm=go_pitch,
        go_major_mm=nut.go_major_mm,
        go_over_wires_mm=over_wires_exact_mm(go_pitch, nut.go_major_mm, *sizes),
        not_go_pitch_mm=not_go_pitch,
        not_go_major_mm=not_go_major,
        not_go_over_wires_mm=over_wires_exact_mm(not_go_pitch, not_go_major, *sizes),
        wire_mm=wire_mm,
        evidence=nut.evidence,
    )


@dataclass(frozen=True)
class _Nut:
    """What a plug is made to try, mm."""

    title: str
    unit: str
    screw: Any
    pitch_mm: float
    lead_mm: float
    half_angle_deg: float
    pitch_min_mm: float
    pitch_max_mm: float
    go_major_mm: float
    land_mm: float
    """What the crest of the not-go end stands above the pitch line."""
    evidence: tuple[Evidence, ...]


def _nut(thread: Any) -> _Nut:
    if form_threads.is_form(thread):
        form = thread if isinstance(thread, form_threads.FormLimits) else form_threads.form_limits(thread, "internal")
        _refuse_external(form.side, form.title)
        own: Any = form.thread
        # a root with a clearance touches no screw, so that the plug has the screw's crest; a centralizing one does
        crest = form.major_min_mm if form.tolerance_class.endswith("C") else None
        return _Nut(
            form.title, form.unit, own.external, form.pitch_mm, form.lead_mm, form.half_angle_deg, form.pitch_min_mm,
            form.pitch_max_mm, own.diameter_mm if crest is None else crest,
            (own.diameter_mm - form.basic_pitch_mm) / 3.0, form.evidence,
        )  # fmt: skip
    found = thread if isinstance(thread, ThreadLimits) else limits(one_part(thread, "internal"))
    _refuse_external(found.side, str(found.thread))
    scale = MM_PER_INCH if found.unit == "in" else 1.0
    own = found.thread
    return _Nut(
        str(own), found.unit, own.external, own.pitch_mm, own.lead_mm, _HALF_ANGLE_DEG, found.pitch_min * scale,
        found.pitch_max * scale, float(found.major_min or 0.0) * scale, 0.25 * _core.triangle_height_mm(own.pitch_mm),
        found.evidence,
    )  # fmt: skip


def _refuse_external(side: str, title: str) -> None:
    if side != "internal":
        raise _core.DomainError(f"a plug tries an internal thread, got {title}")
