"""Change gears: what stands beside the figures of trains; and pairs of gears that turn inches to millimetres."""

from __future__ import annotations

from collections.abc import Iterator
from typing import ClassVar

from halfnut.cutting.figures import GearTrainFigures, GearTrainsFigures, TranslatingPair, TranslatingPairsFigures

__all__ = ["GearTrain", "GearTrains", "TranslatingPairs"]


class GearTrain(GearTrainFigures):
    """A train of change gears. Lengths in mm; None where one does not apply."""

    @property
    def compound(self) -> bool:
        """Whether two gears turn together in the banjo."""
        return len(self.drivers) == 2


class GearTrains(GearTrainsFigures):
    """Trains, best first, and how the search went."""

    SHORT: ClassVar[tuple[str, ...]] = ("limit", *GearTrain.SHORT)

    def __iter__(self) -> Iterator[GearTrain]:
        return iter(self.trains)

    def __len__(self) -> int:
        return len(self.trains)

    def __getitem__(self, place: int) -> GearTrain:
        return self.trains[place]

    def report(self) -> list[tuple[str, str]]:
        """The best train in full, then the others, then how the search went."""
        out = [("limit", self.wider)] if self.wider else []
        return [*out, *(self[0].report() if self else []), *super().report()]


class TranslatingPairs(TranslatingPairsFigures):
    """Pairs of gears that turn inches to millimetres, or back: exact ones first."""

    def __iter__(self) -> Iterator[TranslatingPair]:
        return iter(self.pairs)

    def __len__(self) -> int:
        return len(self.pairs)

    def __getitem__(self, place: int) -> TranslatingPair:
        return self.pairs[place]
