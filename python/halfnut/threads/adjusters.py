"""A threaded tube in its base, or a turnbuckle: how far it may be wound out, its play, and what it bears there.

`adjuster` answers the whole of it. The functions of numbers take leads with their sign: above 0 right-hand, below 0
left-hand.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, ClassVar, Literal

from halfnut import _core
from halfnut._core import (
    engaged_length_mm,
    lock_preload_change_n_k,
    lock_preload_n,
    spell,
    turnbuckle_travel_mm,
)
from halfnut.core.arguments import checked
from halfnut.core.arrays import ArrayLike, NDArray, np
from halfnut.core.catalogue import active
from halfnut.core.pages import drawn
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import both, film, one, span
from halfnut.core.units import asked as as_question
from halfnut.core.units import length, quantity
from halfnut.core.words import caution, caution_lines
from halfnut.material.alloys import Alloy, modulus_gpa
from halfnut.material.coatings import BuildUp, build_up
from halfnut.material.questions import alloy as find_alloy
from halfnut.threads.gauging import OverWires
from halfnut.threads.holes import TappingHole
from halfnut.threads.questions import galling, limits, minimum_strength, precoat, tapping_hole, wires
from halfnut.threads.standard import PartLike, ThreadLimits

if TYPE_CHECKING:
    from halfnut.core.given import ForceLike, LengthLike
    from halfnut.material.coatings import BuildUpLike

__all__ = [
    "Adjuster",
    "AdjusterEnd",
    "adjuster",
    "engaged_length_mm",
    "lock_preload_change_n_k",
    "lock_preload_n",
    "turnbuckle_travel_mm",
]


# What an end of the adjuster may say, and whether it is a length.
_END_LENGTHS = {
    "thread_length": "thread_length_mm",
    "chamfer": "chamfer_mm",
    "run_out": "run_out_mm",
    "base_thread": "base_length_mm",
    "countersink": "countersink_mm",
    "base_run_out": "base_run_out_mm",
    "room": "room_mm",
    "base_outside": "internal_outside_mm",
    "base_reach": "outer_length_mm",
    "lock_nut": "nut_thickness_mm",
    "nut_countersink": "nut_countersink_mm",
    "nut_outside": "nut_outside_mm",
}
_END_OTHERS = ("external", "internal", "rule_diameters", "base_alloy", "base_form")
_BORES = {"tube": "bore", "body": "rod_bore"}
"""What the bore under the external threads is called, by the middle member."""


@dataclass(frozen=True, repr=False)
class AdjusterEnd:
    """One threaded end: what it is cut to, and what holds there. Lengths in mm."""

    external: str
    internal: str
    unit: str
    given: dict[str, float]
    """The sizes that were given, mm, and the strengths taken, MPa."""
    figures: dict[str, float | None]
    external_cut: ThreadLimits
    """Limits to cut to, before any coating."""
    internal_cut: ThreadLimits
    wires: OverWires
    hole: TappingHole
    """The drill before tapping the internal thread."""

    def __getattr__(self, name: str) -> float | None:
        figures: dict[str, float | None] = self.__dict__.get("figures", {})
        if name in figures:
            return figures[name]
        raise AttributeError(name)

    def __repr__(self) -> str:
        return f"<AdjusterEnd {self.external} in {self.internal}>"


@dataclass(frozen=True, repr=False)
class Adjuster(Record):
    """An adjuster or turnbuckle. Lengths in mm, loads in N."""

    SHORT: ClassVar[tuple[str, ...]] = ("travel", "play")
    form: str
    """"adjuster", "turnbuckle, opposite hands" or "turnbuckle, equal hands"."""
    middle: str
    unit: str
    given: dict[str, Any]
    figures: dict[str, float | None]
    ends: tuple[AdjusterEnd, ...]
    rows: tuple[dict[str, Any], ...]
    """The shortest, the middle and the longest safe length, each with its play and loads."""
    computed: Any = field(repr=False, compare=False)
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Any, ...] = field(default=(), compare=False)

    def __getattr__(self, name: str) -> float | None:
        figures: dict[str, float | None] = self.__dict__.get("figures", {})
        if name in figures:
            return figures[name]
        raise AttributeError(name)

    def at(self, turns: ArrayLike, *, on_error: Literal["raise", "status"] = "raise") -> dict[str, NDArray[Any]]:
        """Columns of length, engagement, play and loads at some turns from the shortest safe length.

        Parameters
        ----------
        turns : array_like
            From 0 to `turns` of the figures.
        on_error : {"raise", "status"}
            Raise at the first turn outside the safe range, or give NaN and a status other than 0 there.

        Returns
        -------
        dict of ndarray
            A column a figure, the weakest elements by name, and ``status``.
        """
        values = np.atleast_1d(np.asarray(turns, dtype=np.float64)).ravel()
        out: dict[str, NDArray[Any]] = self.computed.states(values, on_error)
        for name in ("pull_element", "push_element"):
            out[name] = np.array(out[name])
        return out

    def to_dict(self) -> dict[str, Any]:
        """The adjuster as a flat dictionary with unit-suffixed keys; an end's keys begin with first_ or second_."""
        out: dict[str, Any] = {"form": self.form, "middle": self.middle, **self.given, **self.figures}
        for name, end in zip(("first", "second"), self.ends, strict=False):
            out[f"{name}_external"], out[f"{name}_internal"] = end.external, end.internal
            out |= {f"{name}_{key}": value for key, value in (*end.given.items(), *end.figures.items())}
        for name, row in zip(("shortest", "half", "longest"), self.rows, strict=True):
            out |= {f"{name}_{key}" if key != "length_mm" else f"at_{name}_{key}": value for key, value in row.items()}
        return out

    def whole(self) -> list[str]:
        """The safe range in the first line, then travel, engagement, play, lock nut, loads, cautions."""
        unit, f = self.unit, self.figures
        number = _number
        shortest, longest = number(f["shortest_mm"]), number(f["longest_mm"])
        out = [
            f"{self.ends[0].external}: wind {span(shortest, longest, unit)}, "
            f"{number(f['turns']):.2f} turns of {one(number(f['travel_per_turn_mm']), unit)}; "
            f"factor of safety {self.given['factor_of_safety']:g}"
        ]
        out.append(
            f"  travel    {both(number(f['travel_per_flat_mm']), unit)} a flat of {self.given['flats']:g}; {self.form}"
        )
        by_strength, by_rule = number(f["longest_strength_mm"]), number(f["longest_rule_mm"])
        out.append(f"  longest   {one(by_strength, unit)} by strength, {one(by_rule, unit)} by rule: the lesser holds")
        for place, end in enumerate(self.ends):
            name = "" if len(self.ends) == 1 else ("first end, " if place == 0 else "second end, ")
            e = end.figures
            out.append(
                f"  engage    {name}{one(number(e['engagement_least_mm']), unit)} of full form or more: "
                f"{one(number(e['engagement_for_load_mm']), unit)} by strength, "
                f"{one(number(e['engagement_rule_mm']), unit)} by rule, "
                f"{one(number(e['engagement_full_strength_mm']), unit)} for a section to break first"
            )
            hidden = "lock nut" if e["preload_least_n"] is not None else "mouth"
            out.append(
                f"  groove    {name}{one(number(e['groove_mm']), unit)} from the end: "
                f"past the {hidden} it is out too far"
            )
            if e["preload_least_n"] is not None:
                out.append(
                    f"  lock nut  {name}{_torque(number(e['torque_nm']), unit)} holds at least "
                    f"{spell(number(e['preload_least_n']), 'force', unit)}, "
                    f"at most {spell(number(e['preload_max_n']), 'force', unit)}"
                )
                out.append(
                    f"            thickness {one(number(e['nut_least_mm']), unit)} or more by strength, "
                    f"{one(number(e['nut_rule_mm']), unit)} by rule"
                )
        row = self.rows[-1]
        tilts = max(number(row["first_tilt_deg"]), row["second_tilt_deg"] or 0.0)
        out.append(
            f"  play      nuts slack: {span(row['axial_play_min_mm'], row['axial_play_max_mm'], unit)}, "
            f"up to {tilts:.2f} deg; tight: none under preload"
        )
        for name, row in zip(("shortest", "half", "longest"), self.rows, strict=True):
            out.append(
                f"  {name:<9} {one(row['length_mm'], unit)}: "
                f"pull {spell(row['pull_n'], 'force', unit)} ({row['pull_element']}), "
                f"push {spell(row['push_n'], 'force', unit)} ({row['push_element']}), before the factor"
            )
        if f["growth_um_k"] is not None:
            out.append(f"  warmth    grows {spell(f['growth_um_k'], 'growth', unit)}")
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines(self.cautions)
        return out

    def page(self, title: str = "Adjuster", heading: str = "") -> str:
        """The bench page: one sheet of HTML that prints on A4 and Letter.

        Parameters
        ----------
        title, heading : str
            What it is called, and a line below that: number, revision, date.
        """
        page: str = drawn("adjuster_page", self, title=title, heading=heading)
        return page


def _number(value: float | None) -> float:
    assert value is not None
    return value


def _torque(value_nm: float, unit: str) -> str:
    return spell(value_nm, "torque", unit)


def _material(alloy: Alloy, form: str, evidence: list[Any]) -> dict[str, Any]:
    least = minimum_strength(alloy, form)
    evidence += [item for item in least.evidence if item not in evidence]
    return {
        "tensile_mpa": least.tensile_mpa,
        "yield_mpa": least.yield_mpa,
        "shear_mpa": least.shear_mpa,
        "youngs_modulus_gpa": modulus_gpa(alloy, "stiffness of the tube"),
        "expansion_um_m_k": alloy.expansion_um_m_k,
    }


@checked
def adjuster(
    external: PartLike,
    internal: PartLike,
    *,
    thread_length: LengthLike,
    base_thread: LengthLike,
    length_of_tube: LengthLike,
    tube_diameter: LengthLike,
    alloy: str,
    form: str,
    push: ForceLike,
    pull: ForceLike,
    factor_of_safety: float,
    bore: LengthLike | None = None,
    rod_bore: LengthLike | None = None,
    chamfer: LengthLike = "0 mm",
    run_out: LengthLike = "0 mm",
    countersink: LengthLike = "0 mm",
    base_run_out: LengthLike = "0 mm",
    room: LengthLike | None = None,
    base_outside: LengthLike,
    base_reach: LengthLike,
    base_alloy: str | None = None,
    base_form: str = "bar",
    lock_nut: LengthLike | None = None,
    nut_outside: LengthLike | None = None,
    nut_countersink: LengthLike = "0 mm",
    nut_alloy: str | None = None,
    nut_form: str = "bar",
    second: Mapping[str, Any] | None = None,
    coating: BuildUpLike | None = None,
    base_coating: BuildUpLike | None = None,
    rule_diameters: float | None = None,
    friction: tuple[float, float] | None = None,
    lubricant: str | None = None,
    flats: int = 6,
    groove_width: LengthLike = "0 mm",
    ends: tuple[str, str] = ("pinned", "pinned"),
    middle: Literal["tube", "body"] = "tube",
) -> Adjuster:
    """How far a threaded tube or a turnbuckle may be wound out, with what play, and what it bears there.

    Parameters
    ----------
    external, internal : str, Thread or ThreadLimits
        The thread on the tube and the one in the base; with ``middle="body"`` on the rod and in the body. Any parallel
        form that is known; the two ends may be of unlike forms.
    thread_length, base_thread : str, Length or pint quantity
        External thread from its end, and internal thread from its mouth, each with its run-out.
    length_of_tube, tube_diameter : str, Length or pint quantity
        The middle member: overall length (of an adjuster to its far joint), and plain outside diameter.
    alloy, form : str
        Of the middle member: minimum strengths by form ("drawn tube", "extrusion", "bar") are taken.
    push, pull : str or pint quantity
        Largest loads along the axis: ``"90 lbf"``, ``"400 N"``; a load that there is not is ``"0 N"``.
    factor_of_safety : float
        1 to 100. There is no usual one: it is asked for.
    bore : optional
        Of the middle member: of a tube also under its external threads, of a body its plain part alone, whose ends
        have the internal threads instead. Solid where none is given, and the answer says so.
    rod_bore : optional
        With ``middle="body"``: of the rods, which are solid where none is given.
    chamfer, run_out, countersink, base_run_out : optional
        Lengths along the axis without full form: end and run-out of the external thread, mouth and far end of the
        internal one.
    room : optional
        How far the external end may go in past the mouth; otherwise to the run-out of the internal thread.
    base_outside, base_reach : str, Length or pint quantity
        Outside of the base (of the body where that is the middle), and its joint to its mouth (a rod: to its end).
    base_alloy, base_form, nut_alloy, nut_form : optional
        Otherwise of the middle member's alloy, as bar.
    lock_nut, nut_outside, nut_countersink : optional
        Thickness of the lock nut, its width across flats, and the countersink of each face.
    second : mapping, optional
        A turnbuckle's second end: what differs from the first, by the names of these arguments.
    coating, base_coating : optional
        Of the external parts, and of the internal ones (the same when not given); `build_up` reads it.
    rule_diameters : float, optional
        Least engagement by rule, in nominal diameters; otherwise practice for the internal part's metal.
    friction, lubricant : optional
        Low and high friction of thread and nut, or the lubricant to take it from; otherwise dry.
    flats : int
        Of the wrench that turns the middle.
    groove_width : optional
        Of the witness groove; its full form is taken off where it is engaged.
    ends : pair of str
        How the joints hold the column: "pinned", "fixed", "guided", "free".
    middle : {"tube", "body"}
        A tube with external threads, or a body with internal ones.

    Returns
    -------
    Adjuster
        Immutable; prints itself, the safe range in its first line; `page` makes the bench page.

    Raises
    ------
    DomainError
        Equal hands and equal leads, no safe range, threads that are not one pair, a number out of its range.
    NotTabulatedError
        A thread, alloy or form that is not tabulated.

    >>> tube = adjuster("M20x1.5-6g", "M20x1.5-6H", thread_length="50 mm", base_thread="32 mm", bore="14 mm",
    ...     length_of_tube="400 mm", tube_diameter="22 mm", alloy="6061-T6", form="drawn tube", base_outside="34 mm",
    ...     base_reach="40 mm", lock_nut="10 mm", nut_outside="30 mm", push="400 N", pull="300 N",
    ...     factor_of_safety=4, rule_diameters=1.0, second={"external": "M20x1.5-6g-LH", "internal": "M20x1.5-6H-LH"})
    >>> tube.travel_per_turn_mm, round(tube.turns, 2)
    (3.0, 8.0)
    """
    catalogue = active()
    own = find_alloy(alloy)
    evidence: list[Any] = []
    first: dict[str, Any] = {
        "external": external,
        "internal": internal,
        "thread_length": thread_length,
        "chamfer": chamfer,
        "run_out": run_out,
        _BORES.get(middle, "bore"): bore if middle == "tube" else rod_bore,
        "base_thread": base_thread,
        "countersink": countersink,
        "base_run_out": base_run_out,
        "room": room,
        "base_outside": base_outside,
        "base_reach": base_reach,
        "lock_nut": "0 mm" if lock_nut is None else lock_nut,
        "nut_countersink": nut_countersink,
        "nut_outside": nut_outside,
        "rule_diameters": rule_diameters,
        "base_alloy": base_alloy,
        "base_form": base_form,
    }
    descriptions = [first]
    own_bore = _BORES.get(middle, "bore")
    if middle == "tube" and rod_bore is not None:
        raise _core.DomainError("rod_bore goes with middle='body': a tube's bore is bore")
    if second is not None:
        if own_bore != "bore" and "bore" in second:
            raise _core.DomainError("second: bore is the body's and the same for both ends; a rod's own is rod_bore")
        known = sorted({*_END_LENGTHS, *_END_OTHERS, own_bore})
        unknown = sorted(set(second) - set(known))
        if unknown:
            near = _core.nearest_name(unknown[0], known)
            raise _core.DomainError(
                f"second has no '{unknown[0]}'" + (f"; did you mean '{near}'?" if near else f"; known: {known}")
            )
        descriptions.append({**first, **second})

    def zero(value: Any, name: str) -> float | None:
        return None if value is None else length(value, name).mm

    material = _material(own, form, evidence)
    nut_metal = own if nut_alloy is None else find_alloy(nut_alloy)
    nut_material = _material(nut_metal, nut_form, evidence)
    asked, cautions = [], []
    for text in descriptions:
        (male, female), (film, base_film) = _pair(text["external"], text["internal"], coating, base_coating)
        base_metal = own if text["base_alloy"] is None else find_alloy(text["base_alloy"])
        end: dict[str, Any] = {key: zero(text[name], name) for name, key in _END_LENGTHS.items()}
        end["external_bore_mm"] = zero(text[own_bore], own_bore) or 0.0
        end |= {"external_cut": male, "internal_cut": female, "external": male.given, "internal": female.given}
        end |= {"external_build_up": film, "internal_build_up": base_film}
        if male.by_form:
            evidence += [item for item in (*male.evidence, *female.evidence) if item not in evidence]
            cautions += [each for each in (*male.cautions, *female.cautions) if each not in cautions]
            cautions.append(caution("adjuster_form_practice"))
        end["outer"] = _material(base_metal, text["base_form"], evidence)
        end["nut"] = nut_material
        tube = middle == "tube"
        end["outer_outside_mm"] = end["internal_outside_mm"] if tube else male.diameter_mm
        end["outer_bore_mm"] = 0.0 if tube else end["external_bore_mm"]
        inner = base_metal if tube else own
        if text["rule_diameters"] is None:
            row, practice_mm = _core.engagement_practice(inner.index, "steady", male.diameter_mm, catalogue)
            end["rule_diameters"] = practice_mm / male.diameter_mm
            evidence.append(_practice(catalogue, row))
        else:
            end["rule_diameters"] = float(text["rule_diameters"])
        outer_metal = own if tube else base_metal
        low, high = _friction(outer_metal, nut_metal, friction, lubricant, evidence)
        if male.by_form and male.holding_friction > low:
            cautions.append(caution("adjuster_runs", friction=f"{male.holding_friction:.2f}"))
        for name in ("thread_friction", "bearing_friction"):
            end[f"{name}_low"], end[f"{name}_high"] = low, high
        cautions += [each for each in galling(outer_metal, inner).cautions if each not in cautions]
        asked.append(end)
    given: dict[str, Any] = {
        "middle": middle,
        "middle_length_mm": length(length_of_tube, "length_of_tube").mm,
        "middle_outside_mm": length(tube_diameter, "tube_diameter").mm,
        "middle_bore_mm": zero(bore, "bore") or 0.0,
        "material": material,
        "push_n": quantity(push, "force", "push").base,
        "pull_n": quantity(pull, "force", "pull").base,
        "factor_of_safety": float(factor_of_safety),
        "flats": float(flats),
        "groove_width_mm": zero(groove_width, "groove_width"),
        "first_end": ends[0],
        "second_end": ends[1],
    }
    unit = asked[0]["external_cut"].unit
    with as_question(unit == "in"):
        question = [{key: value for key, value in end.items() if not key.endswith("_cut")} for end in asked]
        answer = _core.adjuster_answer(given, question, catalogue)
    figures: dict[str, float | None] = answer.figures
    turns = _number(figures["turns"])
    columns = answer.states(np.array([0.0, turns / 2, turns]), "raise")
    rows = tuple(
        {
            key: None if isinstance(column[k], float) and np.isnan(column[k]) else _plain(column[k])
            for key, column in columns.items()
            if key != "status"
        }
        for k in range(3)
    )
    answered = tuple(_end(answer, place, end, material, middle) for place, end in enumerate(asked))
    codes: dict[str, dict[str, Any]] = {"adjuster_factor_short": {"reached": f"{figures['factor_reached'] or 0.0:.2g}"}}
    cautions = [caution(code, **codes.get(code, {})) for code in answer.cautions] + cautions
    solid = _solid(middle, given["middle_bore_mm"], [end["external_bore_mm"] for end in asked])
    if solid:
        cautions.append(caution("adjuster_solid", members=solid))
    cautions += [caution("adjuster_rotating"), caution("licensed")]
    hands = "opposite hands" if answer.opposite_hands else "equal hands"
    return Adjuster(
        form="adjuster" if second is None else f"turnbuckle, {hands}",
        middle=middle,
        unit=unit,
        given={
            **{key: value for key, value in given.items() if key != "material"},
            **{f"middle_{key}": value for key, value in material.items()},
        },
        figures=figures,
        ends=answered,
        rows=rows,
        computed=answer,
        cautions=tuple(dict.fromkeys(cautions)),
        evidence=(*answer.evidence(catalogue), *evidence),
    )


def _solid(middle: str, middle_bore_mm: float, bores_mm: list[float]) -> str:
    """Which members are taken as solid; empty where each has a bore."""
    names = [middle] if middle_bore_mm == 0.0 else []
    if middle == "body" and not all(bores_mm):
        names.append("rods" if len(bores_mm) > 1 and not any(bores_mm) else "rod")
    return " and ".join(names)


def _plain(value: Any) -> Any:
    return value.item() if isinstance(value, np.generic) else value


def _practice(catalogue: _core.Catalogue, row: int) -> Any:
    from halfnut.material.alloys import PropertySource

    cells = catalogue.row("threads/engagement_practice", row)
    return PropertySource(
        "engagement_rule_mm",
        "rule of practice",
        "",
        f"threads/engagement_practice {cells['group']} {cells['loading']}",
        cells["source"]["citation"],
        cells["source"]["kind"],
    )


def _friction(
    external: Alloy, nut: Alloy, friction: tuple[float, float] | None, lubricant: str | None, evidence: list[Any]
) -> tuple[float, float]:
    """Friction as it is given, else of a lubricant on these metals, else of dry ones."""
    if friction is not None:
        low, high = friction
        return float(low), float(high)
    pair = galling(external, nut)
    wanted = lubricant or "dry"
    for each in pair.friction:
        if each.lubricant == wanted:
            evidence += [item for item in pair.evidence if item not in evidence and item.row.endswith(f" {wanted}")]
            return each.low, each.high
    names = ", ".join(each.lubricant for each in pair.friction)
    raise _core.NotTabulatedError(
        f"no friction is tabulated for {external.title} with '{wanted}'; give friction, or one of: {names}"
    )


def _limits(part: PartLike, side: Literal["external", "internal"]) -> ThreadLimits:
    try:
        return limits(part, side=side)
    except _core.DesignationError as error:
        raise _core.DesignationError(str(error).replace("thread:", f"{side}:", 1)) from error


def _pair(
    external: PartLike, internal: PartLike, coating: Any, base_coating: Any
) -> tuple[tuple[ThreadLimits, ThreadLimits], tuple[_core.BuildUp, _core.BuildUp]]:
    """The limits of an end's two parts, of a form of its own those before coating; and the coatings."""
    outer, inner = _limits(external, "external"), _limits(internal, "internal")
    unlike = [what for what in ("form", "diameter_mm") if getattr(outer, what) != getattr(inner, what)]
    if outer.by_form != inner.by_form or (outer.by_form and unlike):
        words = "form differs" if "form" in unlike else "diameter differs"
        raise _core.DomainError(f"{outer.title} and {inner.title} are not one thread: {words}")
    outer_coat = _coat(outer, coating, "coating")
    inner_coat = _coat(inner, coating if base_coating is None else base_coating, "base_coating")
    cut = [
        part if coat.bare or part.way is not None else precoat(part, coat)
        for part, coat in ((outer, outer_coat), (inner, inner_coat))
    ]
    return (cut[0], cut[1]), (outer_coat, inner_coat)


def _coat(found: ThreadLimits, given: Any, name: str) -> BuildUp:
    """The build-up of a part: what is given, or what its limits before coating are made for."""
    asked = build_up(given, name)
    if found.way in {None, "bare"}:
        return asked
    carried = BuildUp(found.build_up_min_um or 0.0, found.build_up_max_um or 0.0)
    if given is None:
        return carried
    if (asked.min_um, asked.max_um) != (carried.min_um, carried.max_um):
        has, wants = (film(each.min_um, each.max_um, found.unit) for each in (carried, asked))
        raise _core.DomainError(
            f"{name}: {found.title} has limits for a coating of {has} a surface, got {wants}: leave {name} out, or "
            "give the limits of the class"
        )
    return asked


def _end(answer: Any, place: int, asked: dict[str, Any], material: dict[str, Any], middle: str) -> AdjusterEnd:
    cut = [asked["external_cut"], asked["internal_cut"]]
    own = material if middle == "tube" else asked["outer"]
    mate = asked["outer"] if middle == "tube" else material
    numbers = {key: value for key, value in asked.items() if isinstance(value, float)}
    for side, metal in (("external", own), ("internal", mate), ("nut", asked["nut"])):
        numbers |= {f"{side}_{key}": value for key, value in metal.items() if value is not None}
    return AdjusterEnd(
        external=cut[0].title,
        internal=cut[1].title,
        unit=cut[0].unit,
        given=numbers,
        figures=answer.ends[place],
        external_cut=cut[0],
        internal_cut=cut[1],
        wires=wires(cut[0]),
        hole=tapping_hole(cut[1]),
    )
