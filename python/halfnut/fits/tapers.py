"""Self-holding tapers of spindles and tailstocks: ends, taper, settings of the lathe."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field
from typing import Any, ClassVar

from halfnut import _core
from halfnut._core import DomainError, NotTabulatedError, spell, tailstock_setover_mm, taper_angle_deg
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active
from halfnut.core.record import Caution, Record
from halfnut.core.sizes import MM_PER_INCH
from halfnut.core.units import length as read_length
from halfnut.core.words import caution

__all__ = ["HoldingTaper", "holding_taper"]

_JARNO = range(2, 21)
_STEEPEST = 0.1 + 1e-9
_SLIGHTEST = 1000.0
"""On the diameter: its half angle is that of a friction of 0.05."""
_INCHES_PER_FOOT = 12.0


@dataclass(frozen=True, repr=False)
class HoldingTaper(Record):
    """A self-holding taper. Lengths in mm."""

    ANSWER: ClassVar[str] = "{name}: {large_mm} at the gauge plane, {small_mm} at {length_mm} from it"
    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("taper", "{ratio} on the diameter, {foot} in per foot"),
        ("set", "compound or attachment at {set_to} from the axis"),
        ("set over", "the tailstock by {setover_mm}"),
        ("prove", "a dial on the side moves {rise_mm} in {carriage_mm:size} of carriage"),
        ("sine bar", "{sine_stack_mm} under a bar of {sine_bar_mm:size}"),
        ("gauge", "{small_step_mm} on the diameter moves the gauge plane {moves_mm} along"),
    )

    name: str
    unit: str
    large_mm: float
    """At the gauge plane, the mouth of the socket."""
    small_mm: float
    """At the length from it, by the taper."""
    length_mm: float
    taper_on_diameter: float
    per_foot_in: float
    angle_deg: float
    """Between side and axis: what compound or attachment is set to."""
    setover_mm: float | None
    """Of the tailstock, where a length between centres is given."""
    sine_stack_mm: float
    """Under one roller of a sine bar, that levels the top side of the taper."""
    sine_bar_mm: float
    cautions: tuple[Caution, ...] = ()
    evidence: tuple[Any, ...] = field(default=(), compare=False)

    def diameter_mm(self, from_gauge_plane: Any) -> float:
        """Diameter at a distance from the gauge plane, towards the small end."""
        return self.large_mm - self.taper_on_diameter * read_length(from_gauge_plane, "from_gauge_plane").mm

    @property
    def ratio(self) -> str:
        """The taper on the diameter, as one in so much."""
        return f"1:{1.0 / self.taper_on_diameter:.3f}"

    @property
    def foot(self) -> str:
        """Inches a foot on the diameter."""
        return f"{self.per_foot_in:.5f}"

    @property
    def set_to(self) -> str:
        """The setting, to a ten-thousandth of a degree."""
        return f"{self.angle_deg:.4f}°"

    @property
    def carriage_mm(self) -> float:
        """Travel of the carriage over which the taper is proved."""
        return 25.0 if self.unit == "mm" else MM_PER_INCH

    @property
    def rise_mm(self) -> float:
        """What a dial on the side then moves."""
        return self.carriage_mm * self.taper_on_diameter / 2

    @property
    def small_step_mm(self) -> float:
        """A small step on the diameter."""
        return 0.01 if self.unit == "mm" else 0.001 * MM_PER_INCH

    @property
    def moves_mm(self) -> float:
        """How far that step moves the gauge plane."""
        return self.small_step_mm / self.taper_on_diameter


@checked
def holding_taper(
    name: Any, *, length: Any = None, large: Any = None, between_centres: Any = None, sine_bar: Any = None
) -> HoldingTaper:
    """Ends, taper and settings of a self-holding taper.

    Parameters
    ----------
    name : str
        ``"morse 3"``, ``"jarno 6"``, ``"metric 80"``, or a taper on the diameter such as ``"1:10"``.
    length : length, optional
        From the gauge plane; that of the table where none is given.
    large : length, optional
        Diameter at the gauge plane of a taper such as ``"1:10"``, which has none of its own.
    between_centres : length, optional
        Of the whole work, for setting over the tailstock.
    sine_bar : length, optional
        Between its rollers; 5 in, or 100 mm for a metric taper.

    Returns
    -------
    HoldingTaper
        Immutable; prints itself, ends and length in its first line.

    Raises
    ------
    NotTabulatedError
        No such taper; the message names those there are.
    DomainError
        A length missing, out of its range, or so long that nothing is left.

    >>> found = holding_taper("morse 3")
    >>> round(found.large_mm, 3), round(found.angle_deg, 4)
    (23.825, 1.4377)
    """
    if not isinstance(name, str):
        raise DomainError(f"name must be text such as 'morse 3', got {name!r}; {_choice()}")
    title, unit, large_mm, length_mm, ratio, evidence = _found(name)
    if large is not None:
        if large_mm is not None:
            raise DomainError(f"large: {title} has its own, {spell(large_mm, 'length', unit)}")
        given = read_length(large, "large")
        large_mm, unit = given.mm, "in" if given.unit == "in" else "mm"
    if length is not None:
        length_mm = read_length(length, "length").mm
    if large_mm is None or length_mm is None:
        raise DomainError(f"{title} has no sizes of its own: give large and length")
    if not large_mm > 0 or not length_mm > 0:
        raise DomainError("large and length must be > 0")
    small_mm = large_mm - ratio * length_mm
    if not small_mm > 0:
        raise DomainError(
            f"length must be below {spell(large_mm / ratio, 'length', unit)}, where the taper ends in a point"
        )
    setover = None
    if between_centres is not None:
        whole_mm = read_length(between_centres, "between_centres").mm
        if whole_mm < length_mm:
            raise DomainError(f"between_centres must be at least length, {spell(length_mm, 'length', unit)}")
        setover = float(tailstock_setover_mm(large_mm, small_mm, length_mm, whole_mm))
    usual_mm = 5 * MM_PER_INCH if unit == "in" else 100.0
    bar_mm = usual_mm if sine_bar is None else read_length(sine_bar, "sine_bar").mm
    if not bar_mm > 0:
        raise DomainError(f"sine_bar must be > 0, got {sine_bar}")
    steep = [caution("holding_taper_steep")] if ratio > _STEEPEST else []
    return HoldingTaper(
        name=title,
        unit=unit,
        large_mm=large_mm,
        small_mm=small_mm,
        length_mm=length_mm,
        taper_on_diameter=ratio,
        per_foot_in=_INCHES_PER_FOOT * ratio,
        angle_deg=taper_angle_deg(large_mm, small_mm, length_mm),
        setover_mm=setover,
        sine_stack_mm=bar_mm * ratio / (1 + ratio * ratio / 4),  # sin 2a = 2 tan a / (1 + tan^2 a)
        sine_bar_mm=bar_mm,
        cautions=(*steep, caution("holding_taper_blue")),
        evidence=(*evidence, *_core.rule_evidence([("angle_deg", "taper_angle")], active())),
    )


def _found(name: str) -> tuple[str, str, float | None, float | None, float, list[Any]]:
    """Title, unit, large end and length in mm where it has them, taper on the diameter, evidence."""
    words = re.fullmatch(r"\s*([a-z]+)\s*(?:taper|no\.?|#)?\s*((?!0\d)\d+(?:\.\d+)?)\s*", name, re.IGNORECASE)
    ratio = re.fullmatch(r"\s*1\s*:\s*((?!0\d)\d+(?:\.\d+)?)\s*", name)
    if ratio is not None and 0 < float(ratio[1]) <= _SLIGHTEST:
        return f"1:{float(ratio[1]):g}", "mm", None, None, 1.0 / float(ratio[1]), []
    table = active().rows("fits/self_holding_tapers")
    series = words[1].lower() if words is not None else ""
    size = float(words[2]) if words is not None else math.nan
    if series == "jarno" and size in _JARNO:
        large = size / 8 * MM_PER_INCH
        rule = _core.rule_evidence([("large_mm", "taper_jarno")], active())
        return f"Jarno {size:g}", "in", large, size / 2 * MM_PER_INCH, 0.6 / _INCHES_PER_FOOT, rule
    for place, row in enumerate(table):
        if row["series"] == series and row["size"] == size:
            scale = MM_PER_INCH if row["unit"] == "in" else 1.0
            return (
                f"{series.capitalize()} {size:g}",
                row["unit"],
                row["large"] * scale,
                row["length"] * scale,
                row["per_foot"] / _INCHES_PER_FOOT,
                [_row_source(place, row)],
            )
    raise NotTabulatedError(f"no self-holding taper '{name}'; {_choice()}")


def _choice() -> str:
    """Every name that there is."""
    known: dict[str, list[str]] = {"morse": [], "metric": []}
    for row in active().rows("fits/self_holding_tapers"):
        known[row["series"]].append(f"{row['size']:g}")
    listed = "; ".join(f"{series} {', '.join(sizes)}" for series, sizes in known.items())
    return f"there is {listed}; jarno 2 to 20; and 1:10 or its like"


def _row_source(place: int, row: dict[str, Any]) -> Any:
    from halfnut.material.alloys import PropertySource

    cited = active().row("fits/self_holding_tapers", place)["source"]
    key = f"fits/self_holding_tapers {row['series']} {row['size']:g}"
    return PropertySource("large_mm", "as tabulated", "", key, cited["citation"], cited["kind"])
