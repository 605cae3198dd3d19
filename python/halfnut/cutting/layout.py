"""Setting out at the mill: what stands beside the figures."""

from __future__ import annotations

from typing import ClassVar

from halfnut._core import spell
from halfnut.cutting.cuts import Cut
from halfnut.cutting.figures import (
    DivideMove,
    DivisionFigures,
    PlaceToGo,
    PolygonFigures,
    PositionsFigures,
    ScrewHoleFigures,
    SineBarFigures,
)

__all__ = ["Division", "Polygon", "Positions", "ScrewHole", "SineBar"]

_SECONDS = 3600.0  # of arc in a degree
_SHOWN = 12  # divisions of a long count that are printed


def _plural(count: int, word: str) -> str:
    return f"{count} {word}{'' if count == 1 else 's'}"


class Positions(PositionsFigures):
    """Places of holes from a zero, in the order in which they are gone to."""

    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("neighbours", "{chord_mm} apart"),
        ("within", "{within_mm} of its place"),
    )

    @property
    def answer(self) -> str:
        """How many, how, and the sides to come from."""
        come = f", each come to from one side ({self.approach})" if self.approach else ""
        return f"{_plural(self.holes, 'hole')}, {self.pattern}{come}"

    @property
    def rows_of_places(self) -> list[tuple[str, str]]:
        """Each place: its hole, coordinates, and what dial or readout shows."""
        return [(f"hole {place.hole}", self._place(place)) for place in self.places]

    def report(self) -> list[tuple[str, str]]:
        """The edge, the places, what to check."""
        out = []
        if self.edge_mm is not None:
            dial = f", {self.edge_reading}" if self.edge_reading else ""
            out.append(("zero", f"{self._length(self.edge_mm)} on from where the finder touches{dial}"))
        out += self.rows_of_places
        if self.check_mm is not None:
            which = f"hole {self.check_from} to {self.check_to}"
            out.append(("check", f"{self._length(self.check_mm)} from {which}, before drilling"))
        return [*out, *super().report()]

    def lines(self) -> list[str]:
        """Every place: none of them can be left out."""
        return self.whole()

    def _place(self, place: PlaceToGo) -> str:
        axes = []
        sides = (("X", place.x_mm, place.x_reading, place.back_x), ("Y", place.y_mm, place.y_reading, place.back_y))
        for name, value, reading, back in sides:
            dial = "" if reading is None or reading == self._length(value) else f" = {reading}"
            axes.append(f"{name} {self._length(value)}{dial}{' (back past it first)' if back else ''}")
        return ", ".join(axes)

    def _length(self, value_mm: float) -> str:
        return spell(value_mm + 0.0, "length", self.unit)


class Division(DivisionFigures):
    """A part of a turn by the dividing head."""

    SHORT: ClassVar[tuple[str, ...]] = ("or", "direct", "two", "error")

    @property
    def answer(self) -> str:
        """How to turn the crank."""
        what = f"{self.divisions} divisions" if self.divisions else f"{self.angle_deg:.6g}°"
        near = "" if self.exact else f", the nearest: {self._error(self.move)}"
        return f"{what}: {self.said(self.move)}{near}"

    @staticmethod
    def said(move: DivideMove) -> str:
        """A movement in words."""
        parts = [_plural(move.turns, "turn")] if move.turns else []
        if move.holes:
            parts.append(f"{_plural(move.holes, 'hole')} of {move.circle}")
        text = " + ".join(parts) or "0 turns"
        if move.other_circle:
            way = "+" if move.other_holes > 0 else "−"
            text += f" {way} {_plural(abs(move.other_holes), 'hole')} of {move.other_circle}"
        return text

    def report(self) -> list[tuple[str, str]]:
        """Arms, other circles, the direct plate, two circles, the count from the start."""
        out = []
        if self.move.holes:
            out.append(
                ("arms", f"over {_plural(self.move.holes, 'space')}, {self.move.holes + 1} holes with the pin's")
            )
        if self.also:
            out.append(("or", "; ".join(self.said(each) for each in self.also)))
        if self.direct_step is not None:
            out.append(("direct", f"every {self.direct_step} holes of the plate of {self.direct_holes}"))
        for each in self.two_circles:
            out.append(("two", f"{self.said(each)}, one plate: {self._error(each)}"))
        for step in self.steps[:_SHOWN]:
            text = f"division {step.division}: {_plural(step.turns, 'turn')} + {_plural(step.holes, 'hole')}"
            out.append(("count", f"{text} from the start"))
        if len(self.steps) > _SHOWN:
            out.append(("count", f"and so on to {self.steps[-1].division}; all with --json"))
        if self.error_mm is not None:
            out.append(("error", f"{spell(self.error_mm, 'fine', self.unit)} at the rim at most"))
        if self.assumed:
            out.append(("assumed", "; ".join(self.assumed)))
        return out

    @staticmethod
    def _error(move: DivideMove) -> str:
        seconds = move.error_deg * _SECONDS
        return "exact" if move.error_deg == 0.0 else f"{seconds:+.1f} seconds of arc"


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

    @property
    def dividing(self) -> str | None:
        """How to turn from flat to flat."""
        if self.division is None:
            return None
        direct = self.division.direct_step
        more = f"; or every {direct} holes of {self.division.direct_holes}, direct" if direct else ""
        return self.division.said(self.division.move) + more


class SineBar(SineBarFigures):
    """A sine bar on its stack."""

    SHORT: ClassVar[tuple[str, ...]] = ("blocks", "error")
    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("blocks", "{blocks_mm:length}"),
        ("error", "{error_words}"),
        ("assumed", "{assumed_words}"),
    )

    @property
    def answer(self) -> str:
        """The stack and its angle."""
        return str(self.filled("stack {set_mm:length} under a bar of {bar_mm:size}")) + f": {self.angle_deg:.6g}°"

    @property
    def error_words(self) -> str:
        """How far the stack is off, and what its last place does."""
        place = "0.0001 in" if self.unit == "in" else "0.001 mm"
        each = f"{self.error_each_deg * _SECONDS:.2g} for each {place}"
        return f"{self.error_deg * _SECONDS:+.1f} seconds of arc; {each}"

    @property
    def assumed_words(self) -> str | None:
        """What was taken."""
        return "; ".join(self.assumed) or None


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
