"""Will it screw together: fits of two threads, bare or coated, by limits or as measured."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from halfnut import _core
from halfnut._core import axial_play_mm, spell, spell_span, thread_tilt_deg
from halfnut.core.arrays import ArrayLike, NDArray, np
from halfnut.core.carriers import numbers
from halfnut.core.catalogue import active
from halfnut.core.questions import placed, read
from halfnut.core.sizes import both, both_systems, film, one, span, spans
from halfnut.core.words import words
from halfnut.threads.figures import SuitedFigures, ThreadFitFigures
from halfnut.threads.standard import PartLike

if TYPE_CHECKING:
    from halfnut.core.given import LengthLike
    from halfnut.material.coatings import BuildUpLike

__all__ = [
    "Suited",
    "ThreadFit",
    "axial_play_mm",
    "clearance_chances",
    "thread_tilt_deg",
]

_RARE = 1e-4
"""Chance of a pair that binds below which only the rarest pairs do."""


class ThreadFit(ThreadFitFigures):
    """Fit of two threads. Clearances are differences of diameters, below 0 where the parts interfere."""

    def to_dict(self) -> dict[str, Any]:
        """The answer as a flat dictionary, each figure in both systems of units."""
        return both_systems(super().to_dict())

    @property
    def goes_together(self) -> bool:
        """Whether every pair within the limits screws together."""
        return self.verdict == "free"

    @property
    def answer(self) -> str:
        """The verdict."""
        low, high = self._deciding_clearance()
        room = f"{one(low, self.unit)} or more" if high is None else span(low, high, self.unit)
        tight = one(abs(low), self.unit)
        rare = self.chance_of_interference < _RARE and self.deciding.startswith("pitch")
        at_limits = f"up to {tight} of interference at the {self.deciding}"
        said = {
            "free": f"screws together, {room} of clearance at the {self.deciding}",
            "may bind": f"screws together, save the rarest pairs: {at_limits}, chance "
            f"{_percent(self.chance_of_interference)}"
            if rare
            else f"may bind: {at_limits}",
            "interferes": f"does not go together: {tight} of interference at the {self.deciding} at worst, some always",
            "mismatch": self._mismatch(),
        }
        return f"{self.external} in {self.internal}: {said[self.verdict]}"

    def lines(self) -> list[str]:
        """The verdict, the play, and who answers for a load."""
        return [*super().lines(), f"  {words('said', 'load')}"]

    def report(self) -> list[tuple[str, str]]:
        """Clearances, play, chance, remedies."""
        unit = self.unit
        bare = f"external {self._over('external')}, internal {self._over('internal')} {unit}, pitch diameters"
        out = [("bare", bare), *self._coats(), *self._clearances()]
        out.append(("radial", f"{spans(self.radial_play_min_mm, self.radial_play_max_mm, unit)} side to side"))
        out.append(("axial", f"{spans(self.axial_play_min_mm, self.axial_play_max_mm, unit)} end play"))
        assumed = " (assumed)" if self.engagement_assumed else ""
        over = one(self.engagement_mm, unit)
        out.append(("tilt", f"up to {self.tilt_max_deg:.2f} deg either way over {over}{assumed}"))
        if self.verdict != "mismatch":
            three = 3.0 * self.clearance_sigma_mm
            likely = span(
                max(self.pitch_clearance_min_mm, self.clearance_mean_mm - three),
                min(self.pitch_clearance_max_mm, self.clearance_mean_mm + three),
                unit,
            )
            chance = _percent(self.chance_of_interference)
            out.append(("likely", f"{likely} at the pitch diameter; chance of interference {chance}"))
        return [*out, *(("or", remedy) for remedy in self.remedies), ("load", words("said", "load"))]

    def _coats(self) -> list[tuple[str, str]]:
        coats = (
            ("external", self.build_up_external_min_um, self.build_up_external_max_um),
            ("internal", self.build_up_internal_min_um, self.build_up_internal_max_um),
        )
        return [
            ("coated", f"{film(least, most, self.unit)} a surface on the {side} part")
            for side, least, most in coats
            if least or most
        ]

    def _clearances(self) -> list[tuple[str, str]]:
        out = []
        for name in ("pitch", "major", "minor"):
            least, most = (getattr(self, f"{name}_clearance_{end}_mm") for end in ("min", "max"))
            if least is not None:
                zone = f"{both(least, self.unit)} or more" if most is None else spans(least, most, self.unit)
                out.append(("clearance" if name == "pitch" else "", f"{zone} at the {name} diameter"))
        return out

    def _over(self, side: str) -> str:
        """Upper over lower limit, or the one size that was measured."""
        high, low = (one(getattr(self, f"{side}_pitch_{end}_mm"), self.unit).split(" ")[0] for end in ("max", "min"))
        return high if high == low else f"{high}/{low}"

    def _deciding_clearance(self) -> tuple[float, float | None]:
        name = self.deciding.split(" ", 1)[0]
        name = name if name in {"pitch", "major", "minor"} else "pitch"
        return getattr(self, f"{name}_clearance_min_mm"), getattr(self, f"{name}_clearance_max_mm")

    def _mismatch(self) -> str:
        if self.deciding == "hand":
            return "one is right-hand, the other left-hand: they do not go together"
        if self.deciding == "thread angle":
            return "not one thread: the thread angles differ"
        if self.turns_to_bind is None:
            return "not one thread: the starts differ"
        if self.turns_to_bind == 0.0:
            return "not one thread: the leads differ, and it does not start"
        gain = one(self.lead_mismatch_mm, self.unit)
        return f"not one thread: the leads differ by {gain} a turn, bound after {self.turns_to_bind:.1f} turns at most"


def _percent(chance: float) -> str:
    if chance <= 0.0:
        return "none"
    return "certain" if chance >= 1.0 else "under 0.01 %" if chance < _RARE else f"{100 * chance:.2g} %"


class Suited(SuitedFigures):
    """A part cut to suit one that is there: pitch diameter to cut, and what to read.

    An external part is read over wires, an internal one is tried with `plug`; None where one does not apply.
    """

    @property
    def answer(self) -> str:
        """The pitch diameter to cut."""
        own, other = (self._limits(unit) for unit in (("in", "mm") if self.unit == "in" else ("mm", "in")))
        return f"{self.thread}: cut the pitch diameter to {own} ({other})"

    def report(self) -> list[tuple[str, str]]:
        """The readings, and what is left on the dial."""
        unit, out = self.unit, []
        if self.wire_mm is not None and self.over_min_mm is not None and self.over_max_mm is not None:
            reading = spell_span(self.over_min_mm, self.over_max_mm, "fine", unit)
            out.append(("read", f"{reading} over {spell(self.wire_mm, 'fine', unit)} wires"))
        if self.plug is not None:
            out += [("plug", self.plug.answer.partition(": ")[2]), *self.plug.report()]
        if self.left_least_mm is not None and self.left_most_mm is not None:
            out.append(("left", self._left(self.left_least_mm, self.left_most_mm)))
        clearance = span(self.clearance_min_mm, self.clearance_max_mm, unit)
        suits = f"{one(self.measured_pitch_mm, unit)} measured, with a clearance of {clearance} once coated"
        return [*out, ("suits", suits)]

    def _limits(self, unit: str) -> str:
        return f"{one(self.pitch_max_mm, unit).rsplit(' ', 1)[0]}/{one(self.pitch_min_mm, unit)}"

    def _left(self, least: float, most: float) -> str:
        unit = self.unit
        if most < 0:
            return f"nothing: it is {one(-most, unit)} past the size"
        if least <= 0:
            return f"nothing has to come off; {one(most, unit)} on a diameter dial may"
        halves = span(least / 2, most / 2, unit)
        return f"{span(least, most, unit)} to come off on a diameter dial, {halves} on a radius dial"


def clearance_chances(
    external: PartLike,
    internal: PartLike,
    clearances_mm: ArrayLike,
    *,
    build_up_external: BuildUpLike | None = None,
    build_up_internal: BuildUpLike | None = None,
    external_pitch: LengthLike | None = None,
    internal_pitch: LengthLike | None = None,
    tolerance_over_sigma: float = 6.0,
    mean_shift: float = 0.0,
) -> NDArray[np.float64]:
    """Chance that a pair has less clearance at the pitch diameter than each of some values: its distribution.

    Parameters
    ----------
    external, internal, build_up_external, build_up_internal, external_pitch, internal_pitch : optional
        As for `fit`.
    clearances_mm : array_like
        Clearances asked about, mm; below 0 an interference.
    tolerance_over_sigma, mean_shift : float
        As for `fit`.

    Returns
    -------
    ndarray
        From 0 to 1, for each clearance.

    Raises
    ------
    DomainError
        A clearance that is not finite, or a size out of its range.

    >>> clearance_chances("M10-6g", "M10-6H", [0.0, 0.188, 0.4]).round(3).tolist()
    [0.0, 0.5, 1.0]
    """
    given = placed(
        "fit",
        external=external,
        internal=internal,
        build_up_external=build_up_external,
        build_up_internal=build_up_internal,
        external_pitch=external_pitch,
        internal_pitch=internal_pitch,
        tolerance_over_sigma=tolerance_over_sigma,
        mean_shift=mean_shift,
    )
    asked = numbers(clearances_mm, "mm", "clearances_mm")
    chances = _core.fit_chances(read("fit", given), asked.ravel(), active())
    return chances.reshape(asked.shape)
