"""Knurls: blanks that track, and the size they come out at.

A knurl closes on itself only where the work takes a whole number of teeth. `knurl_blank` answers the blank to
turn; the functions of numbers below it are the formulas it is made of.
"""

from __future__ import annotations

from typing import Any, Literal

from halfnut import _core
from halfnut._core import (
    Length,
)
from halfnut.core.arrays import ArrayLike, NDArray
from halfnut.core.carriers import numbers
from halfnut.core.catalogue import active
from halfnut.core.questions import placed
from halfnut.knurls.figures import KnurlBlankFigures

__all__ = [
    "KnurlBlank",
    "blank_columns",
]


class KnurlBlank(KnurlBlankFigures):
    """The blank to turn before knurling, and what comes of it. Lengths in mm; None where one does not apply."""

    @property
    def answer(self) -> str:
        """The blank."""
        assumed = " (assumed)" if "pattern" in self.assumed else ""
        return f"{self.filled('blank {blank_diameter_mm}: {teeth} teeth, {pitch}, {pattern}')}{assumed}"

    @property
    def grows(self) -> str:
        """How the diameter grows."""
        return "cut, so it does not grow" if self.process == "cut" else str(self.filled("grows {growth_mm}"))

    @property
    def tracks(self) -> str:
        """Whether the diameter given tracks, and the nearest that do."""
        asked = "is left for that finished size" if self.finished_wanted else "was given"
        if self.below_teeth == self.above_teeth:
            return str(self.filled(f"{{given_diameter_mm}} {asked} and tracks as it is"))
        still = "still tracks" if self.given_tracks else "does not track"
        off = f"{self.given_teeth:.2f} teeth, {abs(self.given_mismatch_teeth):.2f} of a tooth off, {still}"
        near = "{below_diameter_mm} with {below_teeth} teeth, {above_diameter_mm} with {above_teeth}"
        return str(self.filled(f"{near}; {{given_diameter_mm}} {asked}: {off}"))


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
