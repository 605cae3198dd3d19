"""Coatings: how much they build up on a surface, on what they go, and what to mind."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

from halfnut import _core
from halfnut._core import BuildUp
from halfnut.core.catalogue import active
from halfnut.core.units import length
from halfnut.material.figures import CoatingFigures

if TYPE_CHECKING:
    from halfnut.core.given import LengthLike

    BuildUpLike: TypeAlias = "LengthLike | tuple[LengthLike, LengthLike] | BuildUp | Coating"

__all__ = ["BuildUp", "Coating", "build_up"]


def build_up(value: BuildUpLike | None, name: str = "build_up") -> BuildUp:
    """What a coating adds to one surface, from what a person gives.

    Parameters
    ----------
    value : str, Length, pint quantity, pair of these, Coating, BuildUp or None
        ``"8 um"`` (exact), ``"0.0002 in to 0.0003 in"``, ``"8 um min"`` (maximum half as much again), a coating such
        as ``"anodise II 12 um"``, ``"hard anodise 0.002 in"``, ``"zinc SC2"``; ``None`` or ``"bare"`` for none.
    name : str
        The argument's name, for messages.

    Returns
    -------
    BuildUp
        Least and greatest build-up, um.

    Raises
    ------
    UnitError
        A bare number.
    DesignationError, NotTabulatedError
        Not understood, or no such coating.

    >>> build_up("anodise II black 15 um").max_um
    7.5
    """
    if value is None:
        return _core.parse_build_up("bare", active())
    if isinstance(value, BuildUp):
        return value
    if isinstance(value, Coating):
        return value.build_up
    try:
        if isinstance(value, str):
            return _core.parse_build_up(value, active())
        if isinstance(value, (tuple, list)) and len(value) == 2:
            least, most = (1000.0 * length(each, name).mm for each in value)
            return BuildUp(least, most)
    except _core.Error as error:
        error.args = (f"{name}: {error}",)
        raise
    exact = 1000.0 * length(value, name).mm
    return BuildUp(exact, exact)


class Coating(CoatingFigures):
    """A finish: its film, what it adds to a surface, and what to mind."""

    @property
    def build_up(self) -> BuildUp:
        """What it adds to one surface, from least to most."""
        found = _core.parse_build_up(self.text, active())
        return found.recoated(self.strips, active()) if self.strips else found

    @property
    def given(self) -> BuildUp:
        """What a question takes of it."""
        return self.build_up
