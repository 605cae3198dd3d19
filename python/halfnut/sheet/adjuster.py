"""The bench page of an adjuster: what to cut, how far to wind, what it bears, on one sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.words import by_rank
from halfnut.sheet.layout import environment
from halfnut.sheet.telling import Told, told

if TYPE_CHECKING:
    from halfnut.threads.adjusters import Adjuster

__all__ = ["adjuster_page"]


def adjuster_page(found: Adjuster, title: str, heading: str) -> str:
    """The page as HTML that stands alone.

    Parameters
    ----------
    found : Adjuster
        The answer of `adjuster`, with its first end drawn.
    title, heading : str
        What it is called, and a line below that: number, revision, date.

    Returns
    -------
    str
        One sheet, A4 or letter.
    """
    page = environment().get_template("adjuster.html")
    drawing = end_svg(found, 0, 95.0)
    sources, cautions = _sources(found), _cautions(found)
    return page.render(title=title, heading=heading, found=found, drawing=drawing, sources=sources, cautions=cautions)


def _cautions(found: Adjuster) -> list[Told]:
    """All of one rank in one paragraph, so that the page stays one."""
    every = [told(each) for each in by_rank(found.told)]
    ranks = dict.fromkeys((each.rank, each.label) for each in every)
    return [Told(rank, label, " ".join(each.text for each in every if each.rank == rank)) for rank, label in ranks]


def _sources(found: Adjuster) -> list[tuple[str, str, str]]:
    kept: dict[tuple[str, str], dict[str, None]] = {}
    for item in found.evidence:
        kept.setdefault((item.source, item.kind), {})[item.rule] = None
    return [("; ".join(rules), source, kind) for (source, kind), rules in kept.items()]


def end_svg(found: Adjuster, place: int = 0, width_mm: float = 170.0) -> str:
    """Section of an end at the longest safe length: base, lock nut, tube and groove; the shortest in thin dashes."""
    end, wide = found.ends[place], width_mm - 8.0
    base = max(end.base_length_mm, end.insertion_max_mm)
    left = -max(base, min(end.outer_length_mm, 1.3 * base))
    right = end.thread_length_mm - end.insertion_min_mm + 0.5 * end.diameter_mm
    scale = min(wide / (right - left), 34.0 / max(end.internal_outside_mm, end.nut_outside_mm or 0.0))
    middle = 4.0 + (wide - scale * (right - left)) / 2

    def x(along_mm: float) -> float:
        return middle + (along_mm - left) * scale

    return (
        environment()
        .get_template("adjuster_end.svg")
        .render(found=found, end=end, place=place, width=width_mm, left=left, right=right, scale=scale, x=x)
    )
