"""Change gears: trains for a lead or a feed, whether they are good enough, and whether they can be put up."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields
from fractions import Fraction
from typing import Any, ClassVar, NoReturn

from halfnut import _core
from halfnut._core import Evidence, Thread, gear_centres_mm, spell, train_lead_mm
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.fixed import token
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import MM_PER_INCH
from halfnut.core.units import length as read_length
from halfnut.core.units import quantity
from halfnut.core.words import caution
from halfnut.machine.machines import Machine, lathe, positions_text
from halfnut.threads.gauging import pitch_error_equivalent_mm
from halfnut.threads.parts import ThreadPart, exact_ratio, thread_part
from halfnut.threads.standard import ThreadLimits

__all__ = [
    "GearTrain",
    "GearTrains",
    "TranslatingPair",
    "gear_centres_mm",
    "gear_train",
    "train_lead_mm",
    "translating_pairs",
]

_INCH = Fraction(127, 5)
_PER_INCH = re.compile(
    r"\s*(?P<count>(?!0\d)\d+(?:\.\d+)?(?:\s*/\s*[1-9]\d*)?)\s*(?:TPI|threads? (?:an|per) inch)\s*", re.IGNORECASE
)
_HALF = 0.5
"""Share of the pitch diameter's tolerance that a wrong lead may take: half lies on either side of its middle."""
_WIDEST = 1.0


@dataclass(frozen=True, repr=False)
class GearTrain(Record):
    """A train of change gears. Lengths in mm; None where one does not apply."""

    SHORT: ClassVar[tuple[str, ...]] = ("1.", "2.")
    what: str
    """"lead" or "feed"."""
    unit: str
    """Of the lead that is wanted."""
    wanted_mm: float
    """For a turn of the spindle."""
    gives_mm: float
    error: float
    """Relative; positive: long."""
    exact: bool
    drivers: tuple[int, ...]
    """On the stud; of a compound train then the one in the banjo."""
    driven: tuple[int, ...]
    """Of a compound train the one in the banjo first; last the one on the leadscrew or the gearbox."""
    idler: int | None
    """Between the two of a simple train; None: any that meshes with both."""
    ends_on: str
    """What the last gear turns: "leadscrew" or "gearbox"."""
    positions: tuple[tuple[str, str], ...]
    """Levers of the gearbox."""
    chart_mm: float | None
    """What the gearbox's chart says beside those levers."""
    standard: bool
    """Whether these are the gears that the chart is for."""
    mounting: str
    """"closes" or "unchecked"."""
    stud_to_banjo_mm: float | None
    banjo_to_screw_mm: float | None
    stud_to_screw_mm: float | None
    lathe_unit: str
    """That the lathe's own distances are told in."""
    engagement_mm: float | None
    lead_error_mm: float | None
    """Over the engagement."""
    on_pitch_diameter_mm: float | None
    """What that counts as on the pitch diameter."""
    pitch_tolerance_mm: float | None
    good_enough: bool | None
    """Whether it takes at most half of the pitch diameter's tolerance; None where no tolerance is known."""
    starts: int
    index_teeth: int | None
    """Teeth of the stud's gear to pass from one start to the next; None where they are not whole."""
    cautions: tuple[Caution, ...]
    evidence: tuple[Evidence, ...]

    def to_dict(self) -> dict[str, Any]:
        """The train as a flat dictionary with unit-suffixed keys."""
        out = {field.name: getattr(self, field.name) for field in fields(self) if field.name != "evidence"}
        out["cautions"] = [item.code for item in self.cautions]
        return out

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


class GearTrains(Record, tuple[GearTrain, ...]):
    """Trains, best first, and how the search went.

    Attributes
    ----------
    title : str
        What was asked.
    cautions, evidence : tuple
        Of the best train.
    found, refused : int
        Trains within the error limit that can be put up or may be, and those of the right ratio that do not close.
    error_limit : float
        Relative; wider than asked for where nothing else was found.
    asked_limit : float
        As asked for.
    """

    SHORT: ClassVar[tuple[str, ...]] = ("limit", *GearTrain.SHORT)
    title: str
    found: int
    refused: int
    asked_limit: float
    error_limit: float

    def __new__(
        cls, trains: Iterable[GearTrain], title: str, found: int, refused: int, limits: tuple[float, float]
    ) -> GearTrains:
        """Trains, best first, with what was asked and found."""
        out = super().__new__(cls, trains)
        best = out[0] if out else None
        out.__dict__.update(
            title=title,
            found=found,
            refused=refused,
            asked_limit=limits[0],
            error_limit=limits[1],
            cautions=best.cautions if best else (),
            evidence=best.evidence if best else (),
        )
        return out

    def __getnewargs__(self) -> tuple[Any, ...]:
        return tuple(self), self.title, self.found, self.refused, (self.asked_limit, self.error_limit)

    def __setattr__(self, name: str, value: object) -> NoReturn:
        raise AttributeError(f"trains cannot be changed: {name}")

    def __dask_tokenize__(self) -> tuple[Any, ...]:
        """What Dask knows the trains by."""
        return token(self, *self.__getnewargs__())

    def to_dict(self) -> dict[str, Any]:
        """How the search went, and each train's own dictionary."""
        return {
            "title": self.title,
            "found": self.found,
            "refused": self.refused,
            "asked_limit": self.asked_limit,
            "error_limit": self.error_limit,
            "trains": [each.to_dict() for each in self],
        }

    @property
    def answer(self) -> str:
        """The best train."""
        return f"{self.title}: {self[0].answer if self else 'no train of these gears'}"

    def report(self) -> list[tuple[str, str]]:
        """The best train in full, then the others, then how the search went."""
        wider = f"nothing is within {self.asked_limit * 100:g} %; this is the nearest"
        out = [("limit", wider)] if self and self.error_limit > self.asked_limit else []
        out += self[0].report() if self else []
        for each in self[1:]:
            levers = positions_text(dict(each.positions))
            judged = {True: ", good enough", False: ", too much", None: ""}[None if each.exact else each.good_enough]
            out.append(("or", f"{each.gears:<24}  {levers:<24}  {each.error_words}{judged}".rstrip()))
        unfit = f", {self.refused} more do not close on this lathe" if self.refused else ""
        return [*out, ("found", f"{self.found} trains within {self.error_limit * 100:g} %{unfit}")]


@dataclass(frozen=True)
class TranslatingPair:
    """Two gears that turn inches to millimetres: driver/driven × num/den is near 127/100, or 100/127."""

    driver: int
    driven: int
    num: int
    den: int
    error: float
    exact: bool

    def __str__(self) -> str:
        rest = "" if self.num == self.den == 1 else f" × {self.num}/{self.den}"
        error = "exact" if self.exact else f"{self.error * 100:+.4f} %"
        return f"{self.driver}/{self.driven}{rest}: {error}"


@checked
def translating_pairs(
    gears: Sequence[int] | None = None, *, simplest: int = 6, error_limit: float = 0.001, inverse: bool = False
) -> list[TranslatingPair]:
    """Pairs of gears that turn inches to millimetres once a simple ratio is added, found by trying every pair.

    Parameters
    ----------
    gears : sequence of int, optional
        Teeth; 20 to 127 when not given.
    simplest : int
        Greatest whole number of the ratio that is added, 1 to 60.
    error_limit : float
        Relative, 0 to 1.
    inverse : bool
        Pairs for millimetres on an inch leadscrew, 100/127, in place of inches on a metric one, 127/100.

    Returns
    -------
    list of TranslatingPair
        Exact ones first, then those of the simplest ratio, then by error.

    Raises
    ------
    DomainError
        Teeth, ratio or limit out of range.

    >>> [str(pair) for pair in translating_pairs([100, 120, 127])]
    ['127/100: exact', '127/120 × 6/5: exact']
    """
    found = _core.translating_pairs(
        list(range(20, 128)) if gears is None else list(gears), simplest, error_limit, inverse
    )
    return [TranslatingPair(**each) for each in found]


@checked
def gear_train(
    lead: Any,
    machine_or_gears: str | Machine | Sequence[int],
    *,
    leadscrew: str | None = None,
    spindle_to_stud: float = 1.0,
    engagement: Any = None,
    error_limit: float = 0.001,
    most: int = 10,
    compound: bool = True,
    gearbox: bool = True,
) -> GearTrains:
    """Every train of change gears for a lead or a feed, best first.

    Parameters
    ----------
    lead : str, length, Thread or ThreadLimits
        A thread ("M24x1.5-6g", which also gives a tolerance), a lead ("1.5 mm", "11.5 TPI"), or a feed for turning or
        knurling ("0.12 mm/rev").
    machine_or_gears : str, Machine or sequence of int
        The lathe with its gears, gearbox and distances; or the teeth of the gears at hand, equal ones repeated.
    leadscrew : str, optional
        Lead ("3 mm") or threads an inch ("8 TPI") of the leadscrew; needed with bare gears.
    spindle_to_stud : float
        Turns of the stud for one of the spindle; with bare gears.
    engagement : length, optional
        Over which the error is judged; the thread's nominal diameter when not given.
    error_limit : float
        Relative; trains beyond it are left out. Where there is none within it, the nearest are answered.
    most : int
        How many to answer.
    compound : bool
        Whether compound trains are tried as well as simple ones.
    gearbox : bool
        Whether the gearbox's steps are used, where the lathe has one.

    Returns
    -------
    GearTrains
        A list of `GearTrain`; prints itself, the best in its first line. Empty where the gears give nothing at all.

    Raises
    ------
    DomainError
        No leadscrew or no gears to work with, teeth out of range, a feed without a chart of feeds.
    UnitError
        A bare number as a lead.

    >>> found = gear_train("1.5 mm", [20, 30, 40, 50, 60, 120, 127], leadscrew="8 TPI")
    >>> found[0].gears, found[0].exact
    ('60/127', True)
    """
    wanted = _wanted(lead)
    if isinstance(machine_or_gears, (str, Machine)):
        shop = lathe(machine_or_gears)
        threading = shop.core.threading
        if leadscrew is not None or spindle_to_stud != 1.0:
            raise _core.DomainError(f"leadscrew and spindle_to_stud are those of {shop.name}'s file; leave them out")
        if not threading.gears:
            raise _core.DomainError(f"{shop.name}'s file names no change gears: threading.gears")
        where = f" on {shop.name}"
    else:
        shop, where = None, ""
        threading = _bare(machine_or_gears, leadscrew, spindle_to_stud)
    if wanted.feed:
        threading = _feeds(threading, shop)
    if math.isnan(threading.lead_mm):
        raise _core.DomainError("no leadscrew is known: say leadscrew='8 TPI' or leadscrew='3 mm'")
    if not isinstance(most, int) or most < 1:
        raise _core.DomainError(f"most must be a whole number from 1 up, got {most!r}")
    ratio = (wanted.lead.numerator, wanted.lead.denominator)
    limit = error_limit
    found = _core.gear_trains(threading, ratio, limit, most, compound, gearbox)
    while not found["trains"] and limit < _WIDEST:
        limit = min(max(4 * limit, 1e-4), _WIDEST)
        found = _core.gear_trains(threading, ratio, limit, 1, compound, gearbox)
    over = wanted.engagement if engagement is None else read_length(engagement, "engagement").mm
    unit = wanted.unit if shop is None else shop.unit
    trains = [_train(each, wanted, threading, over, unit) for each in found["trains"]]
    title = f"{wanted.title}{where}"
    return GearTrains(trains, title, found["found"], found["refused"], (error_limit, limit))


@dataclass(frozen=True)
class _Wanted:
    title: str
    lead: Fraction
    """Of the carriage for a turn of the spindle, mm."""
    unit: str
    feed: bool = False
    starts: int = 1
    engagement: float | None = None
    tolerance_mm: float | None = None
    half_angle_deg: float = 30.0


def _wanted(lead: Any) -> _Wanted:
    if isinstance(lead, Thread | ThreadLimits):
        return _of_thread(thread_part(lead))
    if isinstance(lead, str):
        if (counted := _PER_INCH.fullmatch(lead)) is not None:
            count = Fraction(counted["count"].replace(" ", ""))
            if not count > 0:
                raise _core.DomainError(f"lead must be of more than 0 threads an inch, got {lead!r}")
            return _Wanted(lead.strip(), _INCH / count, "in")
        if re.search(r"/\s*(rev|turn)", lead):
            given = quantity(lead, "feed", "lead")
            unit = "in" if given.system == "inch" else "mm"
            return _Wanted(str(given), exact_ratio(given.base, "lead"), unit, feed=True)
        try:
            return _of_length(lead)
        except _core.Error:
            return _of_thread(thread_part(lead))
    return _of_length(lead)


def _of_length(lead: Any) -> _Wanted:
    given = read_length(lead, "lead")
    return _Wanted(str(given), exact_ratio(given.mm, "lead"), "in" if given.system == "inch" else "mm")


def _of_thread(part: ThreadPart) -> _Wanted:
    """A thread's lead, over its engagement; a taper one by hand, without limits of a pitch diameter."""
    if part.taper is not None:
        over: float | None = part.taper.hand_engagement_mm
        return _Wanted(part.title, part.lead, part.unit, engagement=over, half_angle_deg=part.half_angle_deg)
    return _Wanted(
        part.title,
        part.lead,
        part.unit,
        starts=part.starts,
        engagement=part.diameter_mm if part.engagement_mm is None else part.engagement_mm,
        tolerance_mm=part.size("pitch_max") - part.size("pitch_min"),
        half_angle_deg=part.half_angle_deg,
    )


def _bare(gears: Sequence[int], leadscrew: str | None, spindle_to_stud: float) -> _core.Threading:
    wrong = [each for each in gears if not isinstance(each, int) or isinstance(each, bool)]
    if wrong or not gears:
        raise _core.DomainError(f"gears must be whole numbers of teeth, got {wrong or 'none'}")
    lead: dict[str, Any] = {} if leadscrew is None else {"lead_mm": float(_wanted(leadscrew).lead)}
    return _core.Threading(gears=list(gears), spindle_to_stud=spindle_to_stud, **lead)


def _feeds(threading: _core.Threading, shop: Machine | None) -> _core.Threading:
    """The threading with the feeds of the carriage in place of the gearbox's leads."""
    if shop is None or not shop.core.carriage.steps or not threading.standard_driver:
        raise _core.DomainError(
            "a feed is computed from a lathe's chart of feeds and the gears it is for: carriage.steps and "
            "threading.gearbox of its file; say a lead where the leadscrew feeds"
        )
    return _core.Threading(
        lead_mm=1.0,
        gears=threading.gears,
        module_mm=threading.module_mm,
        stud_to_screw_mm=threading.stud_to_screw_mm,
        banjo_low_mm=threading.banjo_low_mm,
        banjo_high_mm=threading.banjo_high_mm,
        stud_clearance_mm=threading.stud_clearance_mm,
        collar_mm=threading.collar_mm,
        standard_driver=threading.standard_driver,
        standard_driven=threading.standard_driven,
        gearbox=[_core.GearboxStep(ratio=each.feed_mm, positions=each.positions) for each in shop.core.carriage.steps],
    )


def _train(
    found: _core.GearTrain, wanted: _Wanted, threading: _core.Threading, over: float | None, lathe_unit: str
) -> GearTrain:
    box = None if found.box is None else threading.gearbox[found.box]
    error_mm = None if over is None or wanted.feed else abs(found.error) * over
    counts = None if error_mm is None else pitch_error_equivalent_mm(error_mm, wanted.half_angle_deg)
    good = None if counts is None or wanted.tolerance_mm is None else counts <= _HALF * wanted.tolerance_mm
    stud = Fraction(*_core.simplest_ratio(threading.spindle_to_stud)) * found.drivers[0] / wanted.starts
    codes = [
        *(["gears_lead_too_far_off"] if good is False else []),
        *(["gears_steep"] if found.steep else []),
        *(["gears_short_idler"] if found.mounting == "unchecked" and len(found.drivers) == 1 else []),
    ]
    rules = [
        ("gives_mm", "gear_ratio"),
        ("error", "gear_exact"),
        ("mounting", "gear_closes" if found.mounting == "closes" else "gear_fifteen"),
        *([("on_pitch_diameter_mm", "lead_as_pitch_diameter")] if counts is not None else []),
        *([("good_enough", "lead_half_tolerance")] if good is not None else []),
        *([("index_teeth", "gear_index")] if wanted.starts > 1 else []),
    ]
    return GearTrain(
        what="feed" if wanted.feed else "lead",
        unit=wanted.unit,
        wanted_mm=float(wanted.lead),
        gives_mm=float(wanted.lead) * (1.0 + found.error),
        error=found.error,
        exact=found.exact,
        drivers=found.drivers,
        driven=found.driven,
        idler=found.idler,
        ends_on="leadscrew" if box is None else "gearbox",
        positions=() if box is None else tuple((each.control, each.setting) for each in box.positions),
        chart_mm=None if box is None else box.ratio * threading.lead_mm,
        standard=found.standard,
        mounting=found.mounting,
        stud_to_banjo_mm=found.stud_to_banjo_mm,
        banjo_to_screw_mm=found.banjo_to_screw_mm,
        stud_to_screw_mm=None if math.isnan(threading.stud_to_screw_mm) else threading.stud_to_screw_mm,
        lathe_unit=lathe_unit,
        engagement_mm=None if wanted.feed else over,
        lead_error_mm=error_mm,
        on_pitch_diameter_mm=counts,
        pitch_tolerance_mm=wanted.tolerance_mm,
        good_enough=good,
        starts=wanted.starts,
        index_teeth=stud.numerator if wanted.starts > 1 and stud.denominator == 1 else None,
        cautions=tuple(caution(code) for code in codes),
        evidence=tuple(_core.rule_evidence(rules, active())),
    )


def _travel(value_mm: float, unit: str) -> str:
    """A lead as a person says it: threads an inch where they are whole or nearly, else a length.

    >>> _travel(2.54, "in"), _travel(1.5, "mm")
    ('10 threads an inch', '1.5 mm')
    """
    return f"{MM_PER_INCH / value_mm:.6g} threads an inch" if unit == "in" else f"{value_mm:.6g} mm"
