"""What a person may give for an argument, by the names that signatures use.

A length, a feed or a feed rate is never a bare number; of speeds, angles, forces, ... a bare number is in the unit
that ends the argument's name.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from os import PathLike
from typing import Any, Literal, Protocol, TypeAlias

from halfnut._core import Length, Quantity, Thread


class PintLike(Protocol):
    """An object with pint's interface."""

    @property
    def magnitude(self) -> Any:
        """The number."""

    @property
    def units(self) -> Any:
        """Its unit."""

    def to(self, unit: str, /) -> Any:
        """The same in another unit."""


class AstropyLike(Protocol):
    """An object with astropy's interface."""

    @property
    def value(self) -> Any:
        """The number."""

    @property
    def unit(self) -> Any:
        """Its unit."""

    def to(self, unit: str, /) -> Any:
        """The same in another unit."""


UnitCarrier: TypeAlias = PintLike | AstropyLike
LengthLike: TypeAlias = str | Length | UnitCarrier
FeedLike: TypeAlias = str | Quantity | UnitCarrier
ForceLike: TypeAlias = str | Quantity | UnitCarrier
NumberLike: TypeAlias = float | str | Quantity | UnitCarrier
HoleLike: TypeAlias = LengthLike | tuple[LengthLike, LengthLike]
TeethLike: TypeAlias = int
QuantityLike: TypeAlias = str | Quantity | UnitCarrier
FrictionLike: TypeAlias = float | str | tuple[float, float]
HolderLike: TypeAlias = str | int
ThreadLike: TypeAlias = str | Thread
StockLike: TypeAlias = LengthLike
SizesLike: TypeAlias = LengthLike | tuple[LengthLike, LengthLike]
DrillsLike: TypeAlias = str | Sequence[LengthLike]
SectionLike: TypeAlias = Sequence[LengthLike]
TurnLike: TypeAlias = int | str | Quantity | UnitCarrier
SineLike: TypeAlias = float | str | Quantity | UnitCarrier
PlaceLike: TypeAlias = str | Sequence[LengthLike]
KnurlWheelsLike: TypeAlias = str | PathLike[str] | Sequence[Mapping[str, object]]
WheelLike: TypeAlias = LengthLike | tuple[LengthLike, float]
EndLike: TypeAlias = Mapping[str, object] | tuple[str, str]
ToleranceClassLike: TypeAlias = Literal[1, 2, 3, "I", "II", "III"]
