"""What a measured thread is, and what is left to take off."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any, Literal

from halfnut import _core
from halfnut._core import spell
from halfnut.core.arrays import ArrayLike, NDArray
from halfnut.core.carriers import columns
from halfnut.core.catalogue import active
from halfnut.threads.figures import Judged, VerdictFigures
from halfnut.threads.gauging import named_codes, texts_of

__all__ = ["Judged", "Verdict", "judge_columns"]


class Verdict(VerdictFigures):
    """What a measured part is: its place in each zone, the classes it meets, what is left to take off."""

    @property
    def passes(self) -> bool:
        """Whether every diameter that was measured is within its limits."""
        return self.place == "within"

    @property
    def diameters(self) -> dict[str, Judged]:
        """Each diameter by its name."""
        return {"major": self.major, "pitch": self.pitch, "minor": self.minor}

    @property
    def answer(self) -> str:
        """The verdict."""
        name, worst = next((name, each) for name, each in self.diameters.items() if each.place == self.place)
        left, past = (spell(each, "length", self.unit) for each in (worst.to_enter_mm, -worst.to_last_mm))
        said = {
            "within": "within its limits",
            "metal left": f"not yet: {name} diameter has {left} to come off",
            "overcut": f"overcut: {name} diameter is {past} past its limit",
        }
        return f"{self.thread}: {said[self.place]}"

    def report(self) -> list[tuple[str, str]]:
        """Each diameter, what is left on either dial, the classes."""
        out = []
        for name, judged in self.diameters.items():
            if judged.measured_mm is not None:
                out += [(name, self._lies(judged)), *(("", text) for text in self._left(judged))]
        pitch, unit = self.pitch.measured_mm, self.unit
        if self.functional_pitch_mm is not None and self.functional_pitch_mm != pitch:
            feels = spell(self.functional_pitch_mm, "length", unit)
            out.append(("gauges", f"as {feels} pitch, for its errors of lead and angle"))
        if self.over_wires_mm is not None and self.wire_mm is not None:
            read, wire = (spell(each, "length", unit) for each in (self.over_wires_mm, self.wire_mm))
            out.append(("read", f"{read} over {wire}"))
        return [*out, ("meets", ", ".join(self.classes_met) or "no class")]

    def _lies(self, judged: Judged) -> str:
        limits = (judged.min_mm, judged.max_mm)
        zone = " to ".join("open" if each is None else spell(each, "length", self.unit).split()[0] for each in limits)
        return f"{spell(judged.measured_mm or 0.0, 'length', self.unit)}, limits {zone}: {judged.place}"

    def _left(self, judged: Judged) -> list[str]:
        if judged.place == "overcut":
            return []
        steps = [
            ("at least", judged.to_enter_mm),
            ("to the middle", judged.to_middle_mm),
            ("at most", judged.to_last_mm),
        ]
        return [
            f"{words} {spell(off, 'length', self.unit)} on a diameter dial, "
            f"{spell(off / 2, 'length', self.unit)} on a radius dial"
            for words, off in steps
            if off > 0
        ]


def judge_columns(
    designations: Sequence[str] | str,
    *,
    pitch_mm: ArrayLike = math.nan,
    major_mm: ArrayLike = math.nan,
    minor_mm: ArrayLike = math.nan,
    over_wires_mm: ArrayLike = math.nan,
    wire_mm: ArrayLike = math.nan,
    lead_error_mm: ArrayLike = 0.0,
    leading_error_deg: ArrayLike = 0.0,
    following_error_deg: ArrayLike = 0.0,
    engagement_mm: ArrayLike = math.nan,
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
