"""Knurls: blanks that track, and the size they come out at.

A knurl closes on itself only where the work takes a whole number of teeth. `knurl_blank` answers the blank to
turn; the functions of numbers below it are the formulas it is made of.
"""

from __future__ import annotations

import textwrap
from typing import Any, Literal

from numpy.typing import ArrayLike, NDArray

from halfnut import _core
from halfnut._core import (
    Length,
    blank_above_mm,
    blank_below_mm,
    diametral_wheel_outside_in,
    form_growth_mm,
    mismatch_teeth,
    normal_pitch_mm,
    pitch_from_diametral_mm,
    pitch_from_teeth_per_inch_mm,
    sharp_tooth_depth_mm,
    teeth_around,
    tracking_blank_mm,
    tracking_helix_deg,
    transverse_pitch_mm,
    wheel_pitch_mm,
)
from halfnut.core.carriers import numbers
from halfnut.core.catalogue import active
from halfnut.core.questions import placed
from halfnut.core.sizes import both, one
from halfnut.core.words import caution_lines
from halfnut.knurls.figures import KnurlBlankFigures

__all__ = [
    "KnurlBlank",
    "blank_above_mm",
    "blank_below_mm",
    "blank_columns",
    "diametral_wheel_outside_in",
    "form_growth_mm",
    "mismatch_teeth",
    "normal_pitch_mm",
    "pitch_from_diametral_mm",
    "pitch_from_teeth_per_inch_mm",
    "sharp_tooth_depth_mm",
    "teeth_around",
    "tracking_blank_mm",
    "tracking_helix_deg",
    "transverse_pitch_mm",
    "wheel_pitch_mm",
]

_WIDTH = 88


class KnurlBlank(KnurlBlankFigures):
    """The blank to turn before knurling, and what comes of it. Lengths in mm; None where one does not apply."""

    @property
    def given_tracks(self) -> bool:
        """Whether the diameter that was given is near enough to whole teeth as it is."""
        return abs(self.given_mismatch_teeth) <= self.mismatch_limit_teeth

    def to_dict(self) -> dict[str, Any]:
        """The result as a flat dictionary with unit-suffixed keys; cautions as their codes."""
        return super().to_dict() | {"given_tracks": self.given_tracks}

    def lines(self) -> list[str]:
        """The blank in the first line, then the knurled size, limits, what they rest on, cautions."""
        assumed = " (assumed)" if "pattern" in self.assumed else ""
        first = f"blank {self._both(self.blank_diameter_mm)}: {self.teeth} teeth, {self.pitch}, {self.pattern}{assumed}"
        out = [first]

        def row(label: str, text: str) -> None:
            out.extend(textwrap.wrap(text, _WIDTH, initial_indent=f"  {label:<9} ", subsequent_indent=" " * 12))

        growth = "cut, so it does not grow" if self.process == "cut" else f"grows {self._one(self.growth_mm)}"
        row(
            "knurled", f"{self._both(self.finished_diameter_mm)}, {growth}; teeth {self._one(self.tooth_depth_mm)} deep"
        )
        if self.wheel_diameter_mm is not None and self.tracking_allowance_mm is not None:
            row(
                "wheel",
                f"{self.wheel_teeth} teeth on {self._one(self.wheel_diameter_mm)}, "
                f"tracks as if {self._one(self.tracking_allowance_mm)} larger",
            )
        row("limits", f"blank ± {self._one(self.blank_plus_minus_mm)}")
        if self.finished_max_mm is not None and self.finished_min_mm is not None:
            row("", f"knurled {self._one(self.finished_max_mm)} to {self._one(self.finished_min_mm)}")
        asked = "is left for that finished size" if self.finished_wanted else "was given"
        if self.below_teeth == self.above_teeth:
            row("tracks", f"{self._one(self.given_diameter_mm)} {asked} and tracks as it is")
        else:
            row(
                "tracks",
                f"{self._one(self.below_diameter_mm)} with {self.below_teeth} teeth, "
                f"{self._one(self.above_diameter_mm)} with {self.above_teeth}",
            )
            row(
                "",
                f"{self._one(self.given_diameter_mm)} {asked}: {self.given_teeth:.2f} teeth, "
                f"{abs(self.given_mismatch_teeth):.2f} of a tooth off, "
                f"{'still tracks' if self.given_tracks else 'does not track'}",
            )
        weak = {"common practice", "memory"}
        for source in dict.fromkeys(item.source for item in self.evidence if item.kind not in weak):
            row("rests on", source)
        for kind in sorted(weak & {item.kind for item in self.evidence}):
            named = dict.fromkeys(_spoken(item.figure) for item in self.evidence if item.kind == kind)
            row("rests on", f"{kind}: {', '.join(named)}")
        out += caution_lines(self.told)
        return out

    def _one(self, value_mm: float) -> str:
        return one(value_mm, self.unit)

    def _both(self, value_mm: float) -> str:
        return both(value_mm, self.unit)


def _spoken(figure: str) -> str:
    return figure.removesuffix("_mm").removesuffix("_teeth").replace("_", " ")


def blank_columns(
    diameter_mm: ArrayLike, pitch: str, *, on_error: Literal["raise", "status"] = "raise", **options: Any
) -> dict[str, NDArray[Any]]:
    """Blanks of one knurl on many diameters, as columns.

    Parameters
    ----------
    diameter_mm : array_like
        Diameters, mm, of any shape: before knurling, or after it with ``finished=True``.
    pitch : str
        As for `knurl_blank`.
    on_error : {"raise", "status"}
        Raise at the first row that fails, or give NaN and a status other than 0 there.
    **options
        As for `knurl_blank`: ``pattern``, ``wheel``, ``finished`` and so on.

    Returns
    -------
    dict of ndarray
        The figures of `KnurlBlank` by name, ``cautions`` (a bit for each) and ``status`` (0: answered). Columns
        that do not apply (limits without a class, a wheel where none was given) are left out.

    Raises
    ------
    DomainError
        With the first bad row, why, and how many failed.

    >>> blank_columns([12.6, 12.7, 12.8], "96 DP", pattern="straight")["teeth"].tolist()
    [48.0, 48.0, 48.0]
    """
    asked = placed("knurl_blank", diameter=Length(1.0, "mm"), pitch=pitch, **options)  # the columns bring their own
    return _core.knurl_columns(asked, numbers(diameter_mm, "mm", "diameter_mm"), active(), on_error)
