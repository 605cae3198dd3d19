"""Plain holes and shafts: limits of size by ISO 286 and ANSI B4.1, and how a pair goes together.

`cylindrical_fit` answers one size or a pair, bare or coated, at its temperatures; `preferred_fits` names the fits to
choose first.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any, ClassVar, Literal

from halfnut import _core
from halfnut._core import spell, spell_span
from halfnut.core.catalogue import active
from halfnut.fits.figures import CylinderPartFigures, CylindricalFitFigures, PreferredFit, PreferredFitsFigures

if TYPE_CHECKING:
    from numpy.typing import NDArray

__all__ = ["CylinderPart", "CylindricalFit", "PreferredFits", "cylindrical_fit_columns"]

_UNITS = 1_000_000
"""The core counts sizes in millionths of the standard's unit."""


class CylinderPart(CylinderPartFigures):
    """Limits of one part: whole millionths of the standard's unit, and millimetres."""

    def sizes(self) -> str:
        """The limits in the standard's unit, the other unit beside them rounded inward: the greater one first."""
        places = _places((self.max_units, self.min_units), self.unit)
        own = "/".join(f"{units / _UNITS:.{places}f}" for units in (self.max_units, self.min_units))
        other = "in" if self.unit == "mm" else "mm"
        step = 1e-5 if other == "in" else 1e-4
        scale = 1 / 25.4 if other == "in" else 25.4
        most = math.floor(self.max_units / _UNITS * scale / step + 1e-6) * step
        least = math.ceil(self.min_units / _UNITS * scale / step - 1e-6) * step
        digits = 5 if other == "in" else 4
        return f"{own} {self.unit} ({most:.{digits}f}/{least:.{digits}f} {other})"

    def deviations(self) -> str:
        """The deviations as a table prints them: "+21/0 um", "-0.3/-0.7 thou"."""
        name = "um" if self.unit == "mm" else "thou"
        texts = [f"{units / 1000:+g}" if units else "0" for units in (self.upper_units, self.lower_units)]
        return f"{'/'.join(texts)} {name}"


def _places(sizes: Iterable[int], unit: str) -> int:
    """Decimals that show each size whole, the unit's usual ones at least."""
    least = 3 if unit == "mm" else 4
    return next(
        (places for places in range(least, 6) if all(size % 10 ** (6 - places) == 0 for size in sizes)),
        6,
    )


class CylindricalFit(CylindricalFitFigures):
    """A size, or a hole and a shaft together. Clearances are below 0 where the parts interfere; lengths in mm."""

    hole: CylinderPart | None
    shaft: CylinderPart | None
    _nested: ClassVar = {"hole": CylinderPart, "shaft": CylinderPart}

    @property
    def parts(self) -> tuple[CylinderPart, ...]:
        """The parts that are given, the hole first."""
        return tuple(part for part in (self.hole, self.shaft) if part is not None)

    def cut_to_mm(self, side: str) -> tuple[float, float] | None:
        """Least and greatest size to cut a part to, so that it is within its class once it is coated.

        None where the part has no coating, or where the coating's own range is wider than the tolerance.
        """
        hole = (self.hole_cut_min_mm, self.hole_cut_max_mm)
        low, high = hole if side == "hole" else (self.shaft_cut_min_mm, self.shaft_cut_max_mm)
        return None if low is None or high is None else (low, high)

    def to_dict(self) -> dict[str, Any]:
        """The fit as a flat dictionary with unit-suffixed keys."""
        out = {key: value for key, value in super().to_dict().items() if key not in {"hole", "shaft"}}
        for part in self.parts:
            out[f"{part.side}_class"] = part.tolerance_class
            out[f"{part.side}_max_mm"] = part.max_mm
            out[f"{part.side}_min_mm"] = part.min_mm
            out[f"{part.side}_kind"] = part.kind
        return out

    SHORT: ClassVar[tuple[str, ...]] = ("hole", "shaft", "cut", "likely")

    @property
    def answer(self) -> str:
        """The fit or the limits."""
        return f"{self._title()}: {self._answer()}"

    def report(self) -> list[tuple[str, str]]:
        """The parts, and how they meet."""
        out: list[tuple[str, str]] = [
            (part.side, f"{part.sizes()}, {part.deviations()}, {part.kind}") for part in self.parts
        ]
        for part in self.parts:
            out += self._coated(part)
        warm = {"hole": self.hole_temperature_c, "shaft": self.shaft_temperature_c}
        out += [(part.side, f"at {warm[part.side]:g} °C") for part in self.parts if warm[part.side] != 20.0]
        if self.clearance_mean_mm is not None and self.clearance_sigma_mm is not None:
            out.append(("likely", self._likely()))
        return out

    def _title(self) -> str:
        size, rest = self.text.split(" ", 1)
        return f"{size} {self.unit} {rest}"

    def _answer(self) -> str:
        if self.clearance_min_mm is None or self.clearance_max_mm is None:
            return self.parts[0].sizes()
        low, high = self.clearance_min_mm, self.clearance_max_mm
        named = f" ({self.name})" if self.name else ""
        if self.character == "interference":
            return f"interference{named}, {spell_span(-high, -low, 'length', self.unit)}"
        if self.character == "clearance":
            return f"clearance{named}, {spell_span(low, high, 'length', self.unit)}"
        tight, free = (spell(each, "length", self.unit) for each in (-low, high))
        return f"transition{named}, up to {tight} of interference or {free} of clearance"

    def _coated(self, part: CylinderPart) -> list[tuple[str, str]]:
        hole = part.side == "hole"
        least = self.hole_build_up_min_um if hole else self.shaft_build_up_min_um
        most = self.hole_build_up_max_um if hole else self.shaft_build_up_max_um
        if most == 0.0:
            return []
        thick = spell_span(least, most, "film", self.unit)
        cut = self.cut_to_mm(part.side)
        to = "no size keeps the class once coated: the coating varies by more than the tolerance"
        if cut is not None:
            size = spell_span(*cut, "length", self.unit)
            to = f"to be {part.tolerance_class} once coated: cut the {part.side} {size}"
        return [("coated", f"{thick} a surface on the {part.side}, twice that on its diameter"), ("cut", to)]

    def _likely(self) -> str:
        low, high = self.clearance_min_mm or 0.0, self.clearance_max_mm or 0.0
        mean, three = self.clearance_mean_mm or 0.0, 3 * (self.clearance_sigma_mm or 0.0)
        text = spell_span(max(low, mean - three), min(high, mean + three), "length", self.unit)
        chance = self.chance_of_interference or 0.0
        share = (
            "none"
            if chance <= 0.0
            else "certain"
            if chance >= 1.0
            else "under 0.01 %"
            if chance < 1e-4
            else f"{100 * chance:.2g} %"
        )
        return f"{text} of clearance; chance of interference {share}"


class PreferredFits(PreferredFitsFigures):
    """Fits to choose first."""

    def __iter__(self) -> Iterator[PreferredFit]:
        return iter(self.fits)

    def __len__(self) -> int:
        return len(self.fits)

    @property
    def answer(self) -> str:
        """Their names."""
        return f"{len(self)} fits to choose first: {', '.join(each.fit for each in self)}"

    def report(self) -> list[tuple[str, str]]:
        """Each fit with its basis, use and kind of source."""
        return [(each.fit, f"{each.basis} basis, {each.name} [{each.kind}]") for each in self]


def cylindrical_fit_columns(
    texts: Iterable[str], *, on_error: Literal["raise", "status"] = "raise"
) -> dict[str, NDArray[Any]]:
    """Limits of many sizes as columns.

    Parameters
    ----------
    texts : iterable of str
        One a row, as for `cylindrical_fit`.
    on_error : {"raise", "status"}
        "raise" stops at the first bad row and counts the others; "status" marks bad rows in ``status``.

    Returns
    -------
    dict of ndarray
        ``hole_max_mm`` and its fellows, ``clearance_min_mm`` and ``clearance_max_mm`` (NaN where a row has no such
        part), and ``status`` (0: ok).

    Raises
    ------
    DomainError
        With ``on_error="raise"``, at a bad row.

    >>> cylindrical_fit_columns(["25 H7/g6", "40 H7"])["hole_max_mm"].tolist()
    [25.021, 40.025]
    """
    columns: dict[str, NDArray[Any]] = _core.cylinder_columns(list(texts), active(), on_error)
    return columns
