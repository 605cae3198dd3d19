"""Change gears: what stands beside the figures of trains; and pairs of gears that turn inches to millimetres."""

from __future__ import annotations

from collections.abc import Iterator
from typing import ClassVar

from halfnut._core import spell
from halfnut.core.sizes import MM_PER_INCH
from halfnut.cutting.figures import GearTrainFigures, GearTrainsFigures, TranslatingPair, TranslatingPairsFigures
from halfnut.machine.machines import positions_text

__all__ = ["GearTrain", "GearTrains", "TranslatingPairs"]


class GearTrain(GearTrainFigures):
    """A train of change gears. Lengths in mm; None where one does not apply."""

    SHORT: ClassVar[tuple[str, ...]] = ("1.", "2.")

    @property
    def compound(self) -> bool:
        """Whether two gears turn together in the banjo."""
        return len(self.drivers) == 2

    @property
    def gears(self) -> str:
        """Drivers over driven gears, as a chart writes them."""
        pairs = " × ".join(f"{up}/{down}" for up, down in zip(self.drivers, self.driven, strict=True))
        return pairs if self.idler is None else f"{pairs}, idler {self.idler}"

    @property
    def error_words(self) -> str:
        """How far the lead is off; the figures of a chart of feeds are rounded, so a feed is never called exact."""
        if self.exact:
            return "by the chart" if self.what == "feed" else "exact"
        share = f"{abs(self.error) * 100:.2g} %" if abs(self.error) < 0.1 else f"{abs(self.error) * 100:.0f} %"
        return f"{share} {'long' if self.error > 0 else 'short'}"

    def shafts(self) -> tuple[tuple[str, str], ...]:
        """What goes on each shaft, from the spindle on."""
        banjo = (
            f"{self.driven[0]} with {self.drivers[1]}"
            if self.compound
            else f"idler {self.idler}"
            if self.idler is not None
            else "an idler that meshes with both"
        )
        return (("stud", f"{self.drivers[0]}"), ("banjo", banjo), (self.ends_on, f"{self.driven[-1]}"))

    def steps(self) -> list[str]:
        """What to do at the lathe, in order."""
        shafts = dict(self.shafts())
        out = []
        if self.standard:
            out.append(f"The gears stay as the chart is for: {self.gears}.")
        else:
            meshes = f", {self.driven[0]} meshing with the stud's {self.drivers[0]}" if self.compound else ""
            out.append("Switch the lathe off at the mains before the gear guard is opened.")
            out.append(
                f"Stud {shafts['stud']}; banjo {shafts['banjo']}{meshes}; {self.ends_on}'s shaft "
                f"{shafts[self.ends_on]}. "
                "A strip of paper between the teeth of each mesh gives the play."
            )
        if self.positions:
            out.append(f"Gearbox: {positions_text(dict(self.positions))}.")
        out.append(
            "Turn the spindle by hand through a turn, then take a scratch cut and measure it over many threads."
            if self.what == "lead"
            else "Turn the spindle by hand through a turn, then measure the way of the carriage for ten turns."
        )
        if self.starts > 1:
            out.append(f"{self.starts} starts: {self.indexing}")
        return out

    @property
    def indexing(self) -> str:
        """How to come from one start to the next by the gears."""
        if self.index_teeth is None:
            return (
                f"the stud's {self.drivers[0]} teeth do not part into {self.starts}; move the "
                "compound, set along the work, by the pitch from start to start."
            )
        return (
            f"chalk the tooth of the stud's {self.drivers[0]} that is in mesh and the gap that it "
            f"lies in, swing the banjo clear, turn the spindle until {self.index_teeth} teeth have passed, mesh again."
        )

    @property
    def answer(self) -> str:
        """The gears and their error."""
        levers = f"; {positions_text(dict(self.positions))}" if self.positions else ""
        return f"{self.gears}{levers}: {_travel(self.gives_mm, self.unit)}, {self.error_words}"

    def report(self) -> list[tuple[str, str]]:
        """Shafts, the tolerance, what to do."""
        error = [("error", self.judgement)] if self.lead_error_mm is not None and not self.exact else []
        steps = [(f"{number}.", step) for number, step in enumerate(self.steps(), 1)]
        return [("mounting", self.mounting_words), *error, *steps]

    @property
    def mounting_words(self) -> str:
        """Whether the train can be put up, and the distances of its shafts."""
        if self.mounting == "unchecked":
            return "mounting unchecked: the machine's file lacks module, stud or banjo distances"
        if self.stud_to_banjo_mm is None or self.banjo_to_screw_mm is None:
            return "stands on the lathe as its chart has it"
        near, far = (spell(each, "length", self.lathe_unit) for each in (self.stud_to_banjo_mm, self.banjo_to_screw_mm))
        places = f"{near} from the stud, {far} from"
        return f"closes with the banjo's stud {places} the {self.ends_on}"

    @property
    def judgement(self) -> str:
        """What the error comes to over the engagement, against the tolerance of the pitch diameter."""
        if self.lead_error_mm is None or self.engagement_mm is None or self.on_pitch_diameter_mm is None:
            return "no length of engagement is known"
        over = spell(self.engagement_mm, "length", self.unit)
        text = f"{spell(self.lead_error_mm, 'fine', self.unit)} over {over} of engagement"
        if self.pitch_tolerance_mm is None or self.exact:
            return text
        taken = (
            f"{spell(self.on_pitch_diameter_mm, 'fine', self.unit)} of the pitch diameter's "
            f"{spell(self.pitch_tolerance_mm, 'length', self.unit)}"
        )
        verdict = "good enough" if self.good_enough else "too much"
        return f"{text} takes {taken}: {verdict}"


class GearTrains(GearTrainsFigures):
    """Trains, best first, and how the search went."""

    SHORT: ClassVar[tuple[str, ...]] = ("limit", *GearTrain.SHORT)
    trains: tuple[GearTrain, ...]

    def __iter__(self) -> Iterator[GearTrain]:
        return iter(self.trains)

    def __len__(self) -> int:
        return len(self.trains)

    def __getitem__(self, place: int) -> GearTrain:
        return self.trains[place]

    @property
    def answer(self) -> str:
        """The best train."""
        return f"{self.title}: {self[0].answer if self else 'no train of these gears'}"

    def report(self) -> list[tuple[str, str]]:
        """The best train in full, then the others, then how the search went."""
        wider = f"nothing is within {self.asked_percent:g} %; this is the nearest"
        out = [("limit", wider)] if self and self.error_percent > self.asked_percent else []
        out += self[0].report() if self else []
        for each in self.trains[1:]:
            levers = positions_text(dict(each.positions))
            judged = {True: ", good enough", False: ", too much", None: ""}[None if each.exact else each.good_enough]
            out.append(("or", f"{each.gears:<24}  {levers:<24}  {each.error_words}{judged}".rstrip()))
        unfit = f", {self.refused} more do not close on this lathe" if self.refused else ""
        return [*out, ("found", f"{self.found} trains within {self.error_percent:g} %{unfit}")]


class TranslatingPairs(TranslatingPairsFigures):
    """Pairs of gears that turn inches to millimetres, or back: exact ones first."""

    SHORT: ClassVar[tuple[str, ...]] = ("pair",)

    def __iter__(self) -> Iterator[TranslatingPair]:
        return iter(self.pairs)

    def __len__(self) -> int:
        return len(self.pairs)

    def __getitem__(self, place: int) -> TranslatingPair:
        return self.pairs[place]

    @property
    def answer(self) -> str:
        """What they cut, and how many there are."""
        ratio = {
            "inches": "inches on a metric leadscrew, 127/100",
            "millimetres": "millimetres on an inch one, 100/127",
        }
        return f"{ratio[self.cut]}: {len(self) or 'no'} pair{'' if len(self) == 1 else 's'}"

    def report(self) -> list[tuple[str, str]]:
        """The pairs, each with the ratio that is added and its error."""
        return [("pair" if place == 0 else "", _pair(each)) for place, each in enumerate(self)]


def _pair(pair: TranslatingPair) -> str:
    rest = "" if pair.num == pair.den == 1 else f" × {pair.num}/{pair.den}"
    return f"{pair.driver}/{pair.driven}{rest}: {'exact' if pair.exact else f'{pair.error * 100:+.4f} %'}"


def _travel(value_mm: float, unit: str) -> str:
    """A lead as a person says it: threads an inch where they are whole or nearly, else a length.

    >>> _travel(2.54, "in"), _travel(1.5, "mm")
    ('10 threads an inch', '1.5 mm')
    """
    return f"{MM_PER_INCH / value_mm:.6g} threads an inch" if unit == "in" else f"{value_mm:.6g} mm"
