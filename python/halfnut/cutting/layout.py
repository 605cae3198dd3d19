"""Setting out at the mill: what stands beside the figures."""

from __future__ import annotations

from typing import ClassVar

from halfnut._core import spell
from halfnut.cutting.cuts import Cut
from halfnut.cutting.figures import (
    DivisionFigures,
    PolygonFigures,
    PositionsFigures,
    ScrewHoleFigures,
    SineBarFigures,
)

__all__ = ["Division", "Polygon", "Positions", "ScrewHole", "SineBar"]


class Positions(PositionsFigures):
    """Places of holes from a zero, in the order in which they are gone to."""

    ANSWER: ClassVar[str] = "{said}"
    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("zero", "{zero_said}"),
        ("*", "places_said"),
        ("check", "{check_said}"),
        ("neighbours", "{chord_mm} apart"),
        ("within", "{within_mm} of its place"),
    )

    def lines(self) -> list[str]:
        """Every place: none of them can be left out."""
        return self.whole()


class Division(DivisionFigures):
    """A part of a turn by the dividing head."""

    ANSWER: ClassVar[str] = "{said}"
    SHORT: ClassVar[tuple[str, ...]] = ("or", "direct", "two", "error")
    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("arms", "{arms_said}"),
        ("or", "{also_said}"),
        ("direct", "{direct_said}"),
        ("*two", "two_said"),
        ("*count", "count_said"),
        ("error", "{error_mm:fine} at the rim at most"),
        ("assumed", "{assumed}"),
    )


class Polygon(PolygonFigures):
    """Flats on a round."""

    SHORT: ClassVar[tuple[str, ...]] = ("first", "finished", "divide", "corners")
    ANSWER: ClassVar[str] = "{flats} flats {depth_mm} deep[ ({depth_reading})] on {bar_mm}"
    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("first", "measures {over_first_mm} from the first flat to the round opposite"),
        ("finished", "{measure_mm} {measured}"),
        ("divide", "{dividing}"),
        ("corners", "{across_corners_mm} across"),
        ("flat", "{flat_mm} wide"),
    )

    division: Division | None


class SineBar(SineBarFigures):
    """A sine bar on its stack."""

    ANSWER: ClassVar[str] = "{said}"
    SHORT: ClassVar[tuple[str, ...]] = ("blocks", "error")
    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("blocks", "{blocks_mm:length}"),
        ("error", "{error_said}"),
        ("assumed", "{assumed}"),
    )


class ScrewHole(ScrewHoleFigures):
    """A hole for a screw: sizes, and the cuts in their order."""

    AT_MACHINE: ClassVar[bool] = True
    SHORT: ClassVar[tuple[str, ...]] = ("seat", "drill", "tapped")
    spot: Cut
    drills: tuple[Cut, ...]
    seat: Cut | None

    @property
    def answer(self) -> str:
        """The hole and its drill."""
        return f"{self.size} {self.fit}: hole {self._length(self.hole_mm)}, drill {self.drill}  ({self.alloy.title})"

    def report(self) -> list[tuple[str, str]]:
        """The seat, the cuts in their order, the tapped part."""
        out = []
        if self.seat_mm is not None and self.seat_depth_mm is not None:
            what = "counterbore" if self.seat_deg is None else f"countersink {self.seat_deg:g}° to"
            out.append(("seat", f"{what} {self._length(self.seat_mm)}, {self._length(self.seat_depth_mm)} deep"))
        out.append(("spot", f"to {self._length(self.spot_mm)}: {self.spot.answer}"))
        for each in self.drills:
            pecks = "" if not each.peck_depths_mm else f"; clear at {self._pecks(each)}"
            out.append(("drill", f"{self._length(each.diameter_mm)}: {each.answer}{pecks}"))
        out.append(("point", f"goes {self._length(self.point_mm)} on past the far face"))
        if self.seat is not None:
            out.append((self.seat.operation, self.seat.answer))
        out.append(("tapped", f"the other part: drill {self.tapping_drill}"))
        return out

    def _pecks(self, cut: Cut) -> str:
        return ", ".join(spell(each, "travel", self.unit) for each in cut.peck_depths_mm[:-1]) or "the end"

    def _length(self, value_mm: float) -> str:
        return spell(value_mm, "length", self.unit)
