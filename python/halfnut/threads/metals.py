"""What a metal brings to a thread: its minimum strength in a form, and whether two of them gall."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, ClassVar

from halfnut import _core
from halfnut._core import spell
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import both, both_systems
from halfnut.core.units import length
from halfnut.core.words import caution, caution_lines, words
from halfnut.material.alloys import Alloy, PropertySource
from halfnut.material.questions import alloy

__all__ = ["Galling", "MinimumStrength", "galling", "minimum_strength"]


def row_evidence(table: str, row: int, key: str, figure: str, rule: str, source: str = "source") -> PropertySource:
    """What a figure rests on that is read from a row of a table."""
    cells = active().row(table, row)
    cited = cells[source] or cells["source"]
    return PropertySource(figure, rule, "", f"{table} {key}", cited["citation"], cited["kind"])


@dataclass(frozen=True, repr=False)
class MinimumStrength(Record):
    """Minimum strengths of an alloy in a form; None where the specification sets none or none is known."""

    SHORT: ClassVar[tuple[str, ...]] = ("shear", "bearing")
    alloy: str
    form: str
    temper: str
    tensile_mpa: float
    yield_mpa: float | None
    shear_mpa: float | None
    bearing_mpa: float | None
    over_mm: float | None
    up_to_mm: float | None
    grain: str
    """How the load lies to the grain: "along", "across", "" where the least is taken or the row does not say."""
    least_of_grain: bool
    weakest_of_several: bool
    note: str
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Any, ...] = field(default=(), compare=False)

    def to_dict(self) -> dict[str, Any]:
        """The strengths as a flat dictionary, in both systems of units."""
        own = self._fields()
        return both_systems(own)

    def whole(self) -> list[str]:
        """The strengths in the first line, then range, source, cautions."""

        def said(name: str, value: float | None) -> str:
            return f"{name} {spell(value, 'stress', 'mm')}" if value is not None else f"{name} not set"

        first = f"{self.alloy} {self.form}, at least: {said('tensile', self.tensile_mpa)}"
        out = [f"{first}, {said('yield', self.yield_mpa)}"]
        for name, value in (("shear", self.shear_mpa), ("bearing", self.bearing_mpa)):
            if value is not None:
                out.append(f"  {name:<9} {spell(value, 'stress', 'mm')}")
        out.append(f"  temper    {self.temper}")
        if self.over_mm or self.up_to_mm:
            low = f"over {both(self.over_mm, 'mm')}" if self.over_mm else ""
            high = f"up to {both(self.up_to_mm, 'mm')}" if self.up_to_mm else ""
            out.append(f"  serves    {' '.join(each for each in (low, high) if each)}")
        if self.grain or self.least_of_grain:
            out.append(f"  grain     {self.grain or 'the least of along and across'}")
        if self.note:
            out.append(f"  note      {self.note}")
        cited = dict.fromkeys(f"{item.source} [{item.kind}]" for item in self.evidence)
        out += [f"  rests on  {each}" for each in cited]
        out += caution_lines(self.cautions)
        return out


@checked
def minimum_strength(
    alloy_name: str | Alloy, form: str = "", *, thickness: Any = None, grain: str = ""
) -> MinimumStrength:
    """Minimum strengths of an alloy in a form: what a load is to rest on.

    Parameters
    ----------
    alloy_name : str or Alloy
        As for `alloy`.
    form : str
        "bar", "casting", "drawn tube", "extrusion", "plate" or "sheet"; when it is not said, the error lists the
        forms of the alloy.
    thickness : str, Length or pint quantity, optional
        Diameter of a bar, thickness of plate, sheet or extrusion, wall of a tube; otherwise the least of the form.
    grain : str
        "along" or "across" the grain, as the load lies to it; otherwise the least of the two.

    Returns
    -------
    MinimumStrength
        Immutable; prints itself, the strengths in its first line.

    Raises
    ------
    NotTabulatedError
        No minimum for this alloy, form, thickness or grain; the message names those there are.
    DomainError
        A thickness or grain that cannot be.

    >>> found = minimum_strength("6061-T6", "drawn tube")
    >>> round(found.tensile_mpa), round(found.yield_mpa)
    (290, 241)
    """
    found = alloy_name if isinstance(alloy_name, Alloy) else alloy(alloy_name)
    thickness_mm = None if thickness is None else length(thickness, "thickness").mm
    answer = _core.minimum_strength(found.index, form, thickness_mm, grain, active())
    place, shear_place = answer.pop("row"), answer.pop("shear_row")
    row = active().row("material/strengths", place)
    key = f"{row['alloy']} {row['form']} {row['step']}"
    evidence = [row_evidence("material/strengths", place, key, "tensile_mpa", "minimum, as tabulated")]
    if shear_place is not None:
        shear = active().row("material/strengths", shear_place)
        key = f"{shear['alloy']} {shear['form']} {shear['step']}"
        evidence.append(
            row_evidence("material/strengths", shear_place, key, "shear_mpa", "minimum, as tabulated", "shear_source")
        )
    cautions = [caution("strength_weakest_row")] if answer["weakest_of_several"] else []
    return MinimumStrength(
        alloy=found.title,
        form=row["form"],
        temper=row["temper"],
        grain=grain,
        note=row["note"],
        cautions=tuple(cautions),
        evidence=tuple(evidence),
        **answer,
    )


@dataclass(frozen=True, repr=False)
class Galling(Record):
    """How two metals go together in a thread, what to do about it, and the friction that goes with it."""

    SHORT: ClassVar[tuple[str, ...]] = ("friction",)
    alloy: str
    other: str
    severity: str
    """"unknown", "low", "moderate", "high" or "severe"."""
    advice: tuple[str, ...]
    friction: tuple[tuple[str, float, float], ...]
    """Lubricant, least and greatest friction; the metal that slides worse decides."""
    note: str
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Any, ...] = field(default=(), compare=False)

    def to_dict(self) -> dict[str, Any]:
        """The pair as a flat dictionary."""
        out = self._fields()
        out["advice"] = list(self.advice)
        out["friction"] = [list(each) for each in self.friction]
        return out

    def whole(self) -> list[str]:
        """The severity in the first line, then advice, friction, cautions."""
        known = "galling not known" if self.severity == "unknown" else f"galling {self.severity}"
        out = [f"{self.alloy} in {self.other}: {known}"]
        out += [f"  {each}" for each in self.advice]
        out += [f"  friction  {low:.2f} to {high:.2f} {name}" for name, low, high in self.friction]
        if self.note:
            out.append(f"  note      {self.note}")
        out.append(f"  rests on  {', '.join(sorted({item.kind for item in self.evidence}))}")
        out += caution_lines(self.cautions)
        return out


@checked
def galling(external_alloy: str | Alloy, internal_alloy: str | Alloy) -> Galling:
    """Whether two metals gall in a thread, and what is done about it.

    Parameters
    ----------
    external_alloy, internal_alloy : str or Alloy
        As for `alloy`.

    Returns
    -------
    Galling
        Severity, advice on class, lubricant and handling, friction with each lubricant.

    Raises
    ------
    NotTabulatedError
        An alloy of no such name.

    >>> galling("6061-T6", "6061-T6").severity
    'high'
    """
    catalogue = active()
    pair = [each if isinstance(each, Alloy) else alloy(each) for each in (external_alloy, internal_alloy)]
    place = _core.galling_row(pair[0].index, pair[1].index, catalogue)
    row = catalogue.row("threads/galling", place)
    evidence = [
        row_evidence("threads/galling", place, f"{row['group']} {row['other_group']}", "severity", "as tabulated")
    ]
    friction = []
    for lubricant in sorted({each["lubricant"] for each in catalogue.rows("threads/thread_friction")}):
        try:
            at = _core.thread_friction_row(pair[0].index, pair[1].index, lubricant, catalogue)
        except _core.NotTabulatedError:
            continue
        found = catalogue.row("threads/thread_friction", at)
        friction.append((lubricant, found["friction_low"], found["friction_high"]))
        key = f"{found['group']} {lubricant}"
        evidence.append(row_evidence("threads/thread_friction", at, key, "friction", "as tabulated"))
    return Galling(
        alloy=pair[0].title,
        other=pair[1].title,
        severity=row["severity"],
        advice=tuple(words("galling", word) for word in row["advice"].split()),
        friction=tuple(friction),
        note=row["note"],
        cautions=(caution("galling"),) if row["severity"] in {"high", "severe"} else (),
        evidence=tuple(evidence),
    )
