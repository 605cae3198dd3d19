"""Knurling at the lathe: which wheels, how deep and how fast, what force the work must bear, what to turn first."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from typing import Any, ClassVar, Literal

from halfnut import _core
from halfnut._core import Evidence, knurl_contact_mm, knurl_force_n, spell
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.units import length, mm
from halfnut.core.words import caution, words
from halfnut.cutting.cuts import Cut
from halfnut.cutting.questions import knurl
from halfnut.knurls.blanks import KnurlBlank
from halfnut.machine.dials import Reading, reading
from halfnut.machine.machines import Machine, fastest_step, lathe
from halfnut.material.alloys import Alloy
from halfnut.material.questions import alloy

__all__ = ["KnurlSetup", "knurl_contact_mm", "knurl_force_n", "knurl_setup"]

Hold = Literal["chuck", "chuck and centre"]

_FEED_MM = (0.02, 0.15)
_INFEED_MM = (0.05, 0.10)
_FASTEST_M_MIN = 50.0
_TURNS, _DWELL = 15, 3
_BITE = 1 / 3
_WALL = 4.5
_HARDEST_HB = 327.0
_BEND_SHARE = 0.25
"""Share of the tooth's depth that the work may bend by."""
_WHEEL_MM, _FACE_MM = 20.0, 6.0
_SLENDER = 2.0

# Wheels by pattern and by how many the holder carries.
_WHEELS: dict[str, tuple[str, str, str]] = {
    "straight": ("a straight wheel", "two straight wheels", "three straight wheels"),
    "left": (
        "a wheel for left-hand teeth, or a straight one set over",
        "two equal wheels for left-hand teeth",
        "three equal wheels for left-hand teeth",
    ),
    "right": (
        "a wheel for right-hand teeth, or a straight one set over",
        "two equal wheels for right-hand teeth",
        "three equal wheels for right-hand teeth",
    ),
    "diamond raised": (
        "a wheel with sunk diamonds",
        "a left-hand and a right-hand wheel",
        "three wheels with sunk diamonds",
    ),
    "diamond indented": (
        "a wheel with standing diamonds",
        "two wheels with standing diamonds",
        "three wheels with standing diamonds",
    ),
    "cross raised": ("a wheel with sunk squares", "two wheels with sunk squares", "three wheels with sunk squares"),
    "cross indented": (
        "a wheel with standing squares",
        "two wheels with standing squares",
        "three wheels with standing squares",
    ),
}
_HOLDERS = {
    1: "one wheel, pushed in from the side",
    2: "two wheels, above and below the work",
    3: "three wheels around the work",
}


@dataclass(frozen=True, repr=False)
class KnurlSetup(Record):
    """How to knurl a band. Lengths in mm, forces in N; None where one does not apply."""

    AT_MACHINE: ClassVar[bool] = True
    SHORT: ClassVar[tuple[str, ...]] = ("infeed", "over", "feed", "force")
    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("infeed", "{infeed_words}"),
        ("feed", "{feed_mm_rev}"),
        ("over", "{finished_diameter_mm} over the points"),
        ("force", "about {force_n} a wheel, within a factor of two or three; {across}[, deflects it {bend_mm}]"),
        ("wall", "{wall_mm}, at least {least_wall_mm}"),
        ("press fit", "interference {interference_min_mm..interference_max_mm}, buries {buries} of the teeth"),
    )
    blank: KnurlBlank
    alloy: str
    unit: str
    width_mm: float
    wheels: int
    """That the holder carries."""
    wheel_kind: str
    chamfer_mm: float
    groove_depth_mm: float | None
    """Before a cut knurl."""
    infeed_mm: float
    """On the radius, from touching to full depth."""
    infeed_mm_rev: float
    first_bite_mm: float
    turns: int
    """Of the work from touching to full depth, the first bite counted as one."""
    dwell_turns: int
    passes: int
    feed_mm_rev: float | None
    """Along the work, where the band is wider than the wheels."""
    spindle_rpm: float
    dial: Reading | None
    """Of the cross slide, for one wheel pushed in."""
    force_n: float | None
    """Of one wheel, within a factor of two or three."""
    side_force_n: float | None
    """That the work must bear across its axis."""
    bend_mm: float | None
    wall_mm: float | None
    least_wall_mm: float | None
    interference_min_mm: float | None
    """Raised diameter less the hole, for a press fit."""
    interference_max_mm: float | None
    bite_share: float | None
    """Share of the tooth's depth that the greatest interference buries."""
    cut: Cut
    assumed: tuple[str, ...]
    cautions: tuple[Caution, ...]
    evidence: tuple[Evidence, ...]

    def to_dict(self) -> dict[str, Any]:
        """The result as a flat dictionary with unit-suffixed keys; the blank's own figures with it."""
        skip = {"evidence", "cut", "blank", "dial"}
        out = self.blank.to_dict()
        out |= {field.name: getattr(self, field.name) for field in fields(self) if field.name not in skip}
        out["dial"] = None if self.dial is None else str(self.dial)
        out["assumed"] = [*self.blank.assumed, *self.assumed]
        out["cautions"] = [item.code for item in self.cautions]
        return out

    def steps(self) -> list[str]:
        """What to do at the lathe, in order."""
        blank, cut = self.blank, self.blank.process == "cut"
        size = self._length(blank.blank_diameter_mm)
        slack = self._length(blank.blank_plus_minus_mm)
        first = f"Turn the blank to {size} ± {slack}, running true within {self._length(0.03)}"
        out = [
            f"{first}; chamfer its ends 45 degrees by {self._length(self.chamfer_mm)}. Knurl before slender ends are "
            "turned down and before the work is parted off.",
        ]
        if self.groove_depth_mm is not None:
            out.append(
                f"Turn a groove {self._length(self.groove_depth_mm)} deep where the knurl ends, or run it off the "
                "end: a cut knurl does not go to a shoulder."
            )
        out.append(f"Holder: {_HOLDERS[self.wheels]}: {self.wheel_kind}, axes true to the work, faces clean of chips.")
        speed = f"{self.spindle_rpm:.0f} rev/min, flood oil"
        if cut:
            out.append(f"Set the full depth of {self._length(self.infeed_mm)} at the end of the work, {speed}.")
        else:
            dial = f", the cross slide's dial at {self.dial}" if self.dial is not None else ""
            out.append(
                f"At {speed}: the first bite firmly, {self._length(self.first_bite_mm)} on the radius at once, so "
                f"that the count is set; look that it shows {blank.teeth} teeth around and single lines. Then "
                f"{self._length(self.infeed_mm_rev)} a turn to {self._length(self.infeed_mm)}{dial}, in "
                f"{self.turns} turns; dwell for {self.dwell_turns} more."
            )
        if self.feed_mm_rev is not None:
            start = "" if cut else " with half of the wheels' face on the end of the work"
            out.append(
                f"Start{start} and feed along at {self._length(self.feed_mm_rev)} a turn, {self.passes} "
                f"pass{'' if self.passes == 1 else 'es'}; do not lift the wheels before the end."
            )
        out.append(
            f"It should measure {self._length(blank.finished_diameter_mm)} over the points. A double pattern: stop, "
            "turn the band off and take the blank that tracks."
        )
        if self.interference_max_mm is not None and self.interference_min_mm is not None:
            within = self.filled("{interference_min_mm..interference_max_mm}")
            out.append(f"Press in by {within} of interference; try one pair, the points shear rather than spring.")
        return out

    @property
    def answer(self) -> str:
        """Blank, wheels and speed."""
        blank = self.blank
        on = f"{blank.pitch} {blank.pattern} on {self._length(blank.blank_diameter_mm)}, {blank.teeth} teeth"
        return f"{on}: {self.filled('{wheel_kind}, {spindle_rpm}')}"

    @property
    def infeed_words(self) -> str:
        """The first bite and the way to full depth, on the radius."""
        if self.blank.process == "cut":
            return str(self.filled("{infeed_mm} at once, at the end of the work"))
        turns = f"in {self.turns} turns; dwell for {self.dwell_turns}"
        return f"{self.filled('{first_bite_mm} at once: single lines?')} {self.filled('Then to {infeed_mm}')} {turns}"

    @property
    def finished_diameter_mm(self) -> float:
        """What the knurl comes out at."""
        return self.blank.finished_diameter_mm

    @property
    def across(self) -> str:
        """The force across the work."""
        return str(self.filled("{side_force_n} across the work")) if self.side_force_n else "balanced across the work"

    @property
    def buries(self) -> str:
        """Share of the teeth that a press fit buries."""
        return f"{100 * (self.bite_share or 0.0):.0f} %"

    def report(self) -> list[tuple[str, str]]:
        """Force, support and wall, steps."""
        steps = [(f"{number}.", step) for number, step in enumerate(self.steps(), 1)]
        assumed = [("assumed", ", ".join(self.assumed))] if self.assumed else []
        return [*super().report(), *steps, ("never", words("said", "no_knurl")), *assumed]

    def _length(self, value_mm: float) -> str:
        return spell(value_mm, "length", self.unit)


@checked
def knurl_setup(
    blank: KnurlBlank,
    material: str | Alloy,
    *,
    width: Any,
    wheels: Literal[1, 2, 3] = 1,
    wheel: Any = None,
    wheel_width: Any = None,
    bore: Any = None,
    stick_out: Any = None,
    hold: Hold = "chuck",
    hole: Any = None,
    hardness_hb: float | None = None,
    machine: str | Machine | None = None,
    chuck: str | int | None = None,
    stock: Any = None,
    bar_length: Any = None,
    bar_behind: Any = None,
) -> KnurlSetup:
    """How to knurl a blank: wheels, infeed, feed, speed, passes, force and support, what to turn first.

    Parameters
    ----------
    blank : KnurlBlank
        As `knurl_blank` answers it.
    material : str or Alloy
        Of the work.
    width : length
        Of the band.
    wheels : {1, 2, 3}
        That the holder carries: pushed in from one side, clamped above and below, or around the work.
    wheel, wheel_width : length, optional
        Diameter and face of a wheel; 20 mm and 6 mm when not given.
    bore : length, optional
        Of a tube.
    stick_out : length, optional
        From chuck to the middle of the band.
    hold : {"chuck", "chuck and centre"}
        How the work is held.
    hole : length or pair of lengths, optional
        That the knurl is pressed into; a pair is its least and greatest size.
    hardness_hb : float, optional
        Of the work.
    machine : str or Machine, optional
        The lathe.
    chuck : str or int, optional
        What holds the work.
    stock, bar_length, bar_behind
        As for `turn`.

    Returns
    -------
    KnurlSetup
        Immutable; prints itself.

    Raises
    ------
    DomainError
        A number out of its range, a bore as large as the blank, a holder that is none of the three.
    UnitError
        A bare number as a length.

    >>> from halfnut.knurls.questions import knurl_blank
    >>> found = knurl_setup(knurl_blank("20 mm", "RGE 0.8"), "brass", width="12 mm", wheels=2)
    >>> found.wheel_kind, found.side_force_n
    ('a left-hand and a right-hand wheel', 0.0)
    """
    metal = material if isinstance(material, Alloy) else alloy(material)
    shop = lathe(machine) if isinstance(machine, str) else machine
    assumed: list[str] = []
    band = length(width, "width").mm
    over = _or(wheel, "wheel", blank.wheel_diameter_mm or _WHEEL_MM, assumed, "a wheel of {}", blank.unit)
    face = _or(wheel_width, "wheel_width", _FACE_MM, assumed, "a face of {}", blank.unit)
    depth, formed = blank.tooth_depth_mm, blank.process != "cut"
    travel = depth - blank.growth_mm / 2 if formed else depth
    bite = travel * _BITE
    per_turn = min(max(travel / _TURNS, _INFEED_MM[0]), _INFEED_MM[1])
    turns = 1 + math.ceil((travel - bite) / per_turn - 1e-9)
    along = band > face * (1 + 1e-9)
    reach = None if stick_out is None else length(stick_out, "stick_out").mm
    held: dict[str, Any] = {
        "chuck": chuck,
        "hold": hold,
        "stock": stock,
        "bar_length": bar_length,
        "bar_behind": bar_behind,
        "stick_out": None if reach is None else mm(reach + band / 2),
    }
    feed = min(max(blank.normal_pitch_mm / 4, _FEED_MM[0]), _FEED_MM[1]) if along or not formed else None
    cut = knurl(
        metal,
        mm(blank.blank_diameter_mm),
        length=mm(band),
        feed=None if feed is None else f"{feed} mm/rev",
        machine=shop,
        hardness_hb=hardness_hb,
        **held,
    )
    fastest = _FASTEST_M_MIN * 1000.0 / (math.pi * blank.blank_diameter_mm)
    if formed and cut.spindle_rpm > fastest:
        cut = knurl(
            metal,
            mm(blank.blank_diameter_mm),
            length=mm(band),
            feed=None if feed is None else f"{feed} mm/rev",
            machine=shop,
            hardness_hb=hardness_hb,
            **held,
            spindle_rpm=fastest if shop is None else fastest_step(shop, fastest),
        )
    force = side = bend = None
    if formed and metal.yield_mpa is not None:
        pressed = min(face, band)
        forces = [
            knurl_force_n(
                metal.yield_mpa, pressed, knurl_contact_mm(infeed, over, blank.blank_diameter_mm), min(1.0, share)
            )
            for infeed, share in ((bite, _BITE), (per_turn, 1.0))
        ]
        force = max(forces)
        side = force if wheels == 1 else 0.0
    hollow = 0.0 if bore is None else length(bore, "bore").mm
    if hollow >= blank.blank_diameter_mm:
        raise _core.DomainError(f"bore must be less than the blank's {blank.blank_diameter_mm:g} mm, got {hollow:g} mm")
    if side is not None and reach is not None and metal.youngs_modulus_gpa is not None:
        inertia = _core.second_moment_mm4(blank.blank_diameter_mm, hollow)
        modulus = metal.youngs_modulus_gpa
        if hold == "chuck and centre":  # the centre stands half a band beyond the band
            bend = _core.chuck_centre_deflection_mm(side, reach, reach + band, modulus, inertia) if side else 0.0
        else:
            bend = _core.cantilever_deflection_mm(side, reach, modulus, inertia) if side else 0.0
    wall = None if bore is None else (blank.blank_diameter_mm - hollow) / 2
    least_wall = None if wall is None else _WALL * depth
    low, high = _interference(blank, hole)
    share = None if high is None else max(high, 0.0) / 2 / depth
    hard = metal.hardness_hb if hardness_hb is None else hardness_hb
    codes = [
        *(["knurling_hard"] if formed and hard is not None and hard > _HARDEST_HB else []),
        *(["knurling_crumbles"] if formed and _is_iron(metal) else []),
        *(
            ["knurling_thin_wall"]
            if formed and wall is not None and least_wall is not None and wall < least_wall
            else []
        ),
        *(["knurling_bends"] if bend is not None and bend > _BEND_SHARE * depth else []),
        *(["knurling_support"] if _unsupported(stick_out, hold, wheels, blank) else []),
        *(["knurling_three"] if wheels == 3 and blank.pattern in ("diamond raised", "cross raised") else []),
        *(["knurling_loose"] if low is not None and low <= 0 else []),
        *(["knurling_buried"] if share is not None and share > 1 else []),
    ]
    dial = None
    slide = None if shop is None else shop.core.slide("cross")
    if slide is not None and wheels == 1:
        dial = reading(slide, 2 * travel)
    rules = [
        ("infeed_mm", "infeed_travel"),
        ("infeed_mm_rev", "infeed_forming"),
        ("spindle_rpm", "feed_forming"),
        ("chamfer_mm", "lead_in"),
        *([("feed_mm_rev", "feed_forming")] if feed is not None else []),
        *([("force_n", "press_force")] if force is not None else []),
        *([("least_wall_mm", "thin_wall")] if wall is not None else []),
        *([("interference_max_mm", "press_bite")] if high is not None else []),
        ("cautions", "form_limit"),
    ]
    return KnurlSetup(
        blank=blank,
        alloy=metal.name,
        unit=blank.unit,
        width_mm=band,
        wheels=wheels,
        wheel_kind=_WHEELS[blank.pattern][wheels - 1],
        chamfer_mm=max(blank.normal_pitch_mm / 2, depth),
        groove_depth_mm=None if formed else blank.normal_pitch_mm / 2 + 0.3,
        infeed_mm=travel,
        infeed_mm_rev=per_turn,
        first_bite_mm=bite,
        turns=turns,
        dwell_turns=_DWELL,
        passes=1 if not formed or blank.normal_pitch_mm <= 0.8 else 2,
        feed_mm_rev=None if feed is None else cut.feed_mm_rev or feed,
        spindle_rpm=cut.spindle_rpm,
        dial=dial,
        force_n=force,
        side_force_n=side,
        bend_mm=bend,
        wall_mm=wall,
        least_wall_mm=least_wall,
        interference_min_mm=low,
        interference_max_mm=high,
        bite_share=share,
        cut=cut,
        assumed=tuple(assumed),
        cautions=(*blank.told, *(caution(code) for code in codes), *cut.cautions),
        evidence=(*blank.evidence, *_core.rule_evidence(rules, active()), *cut.evidence),
    )


def _or(value: Any, name: str, otherwise: float, assumed: list[str], text: str, unit: str) -> float:
    if value is not None:
        return length(value, name).mm
    assumed.append(text.format(spell(otherwise, "length", unit)))
    return otherwise


def _is_iron(metal: Alloy) -> bool:
    return metal.group.startswith("iron")


def _unsupported(stick_out: Any, hold: Hold, wheels: int, blank: KnurlBlank) -> bool:
    """One wheel pushes the work aside: beyond two diameters it wants a centre."""
    if wheels != 1 or hold != "chuck" or stick_out is None:
        return False
    return length(stick_out, "stick_out").mm > _SLENDER * blank.blank_diameter_mm


def _interference(blank: KnurlBlank, hole: Any) -> tuple[float | None, float | None]:
    """Least and greatest interference in a hole, from the limits of both."""
    if hole is None:
        return None, None
    ends = hole if isinstance(hole, tuple) else (hole, hole)
    small, large = (length(each, "hole").mm for each in ends)
    if small > large:
        raise _core.DomainError(f"hole must run from its least to its greatest size, got {small:g} to {large:g} mm")
    slack = blank.blank_plus_minus_mm
    least = blank.finished_min_mm if blank.finished_min_mm is not None else blank.finished_diameter_mm - slack
    most = blank.finished_max_mm if blank.finished_max_mm is not None else blank.finished_diameter_mm + slack
    return least - large, most - small
