"""From a plan to what its details show: what the cards leave out."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from halfnut._core import NotTabulatedError
from halfnut.core.record import Caution
from halfnut.core.words import words
from halfnut.sheet.telling import Told, at_operations, gives_way, of_the_whole, sentence, told

if TYPE_CHECKING:
    from halfnut.planning.answers import Answer
    from halfnut.planning.plans import Plan, PlannedOperation, PlannedPart

__all__ = ["PartDetails", "details_of"]
_KINDS = ("standard", "handbook", "textbook", "measured", "common practice", "memory")
"""Kinds of evidence, the firmest first."""
_UNIT = re.compile("_(?:m_min|mm_rev|mm_min|cm3_min|mm2|mpa|mm|in|um|kw|nm|n|s|rpm|k|w)$")
_HELD = (
    "deflects {bend.worst_mm} as held; {other_ways}",
    "grip {jaw_force_n} a jaw, so that the cut does not turn the work",
    "so gripped it is {squeeze.out_of_round_mm} out of round on the radius when {squeeze.jaws} jaws let go",
    "{squeeze!}{rings?}out of round on the radius for {ring_force_n} a jaw: {rings} jaws",
    "{growth_mm>=0.0025}warm from the cut it measures up to {growth_mm} too large",
)
"""Of held work; growth is told from half the error of the diameter that deflection is told from."""


class PartDetails(NamedTuple):
    """What the details say of a part as a whole, each fact once."""

    part: PlannedPart
    remarks: tuple[tuple[str, str], ...]
    """Numbers of the operations, and what is said of them."""
    cautions: tuple[Told, ...]
    said: frozenset[Caution]
    """What its joints need not say again."""


def details_of(plan: Plan) -> list[PartDetails]:
    """What there is to say of each part beside the figures of its operations.

    Parameters
    ----------
    plan : Plan
        Operations without an answer have the reason among the remarks.

    Returns
    -------
    list of PartDetails
        In the order of the job's parts.
    """
    return [_part(part) for part in plan.parts]


def _part(part: PlannedPart) -> PartDetails:
    heading = of_the_whole(part)
    at = at_operations(part, heading)
    remarks: dict[str, list[str]] = {}
    for op in part.operations:
        for remark in _remarks(op):
            remarks.setdefault(remark, []).append(str(op.number))
    return PartDetails(
        part,
        tuple((", ".join(numbers), remark) for remark, numbers in remarks.items()),
        (*map(told, heading), *(each for op in part.operations for each in at.get(op.number, ()))),
        frozenset([*heading, *(each for op in part.operations for each in op.told)]),
    )


def _remarks(op: PlannedOperation) -> list[str]:
    """What there is to say of an operation beyond its figures; those of its passes stand on the card."""
    found = op.answer
    if found is None:
        return [each for each in (op.step.note, op.error) if each]
    way = found.chasing or found.knurling
    said = (op.step.note, _tool(found), *found.remarks, *_holding(found), *(way.steps if way else ()))
    return [sentence(each) for each in said if each]


def _tool(found: Answer) -> str:
    cut = found.cut
    if cut is None or cut.operation == "knurl":
        return ""
    name, assumed = cut.tool_name, ", ".join(cut.assumed)
    if name.lower() in assumed.lower():
        return f"assumed: {assumed}"
    return f"{name}; assumed: {assumed}" if assumed else name


def _holding(found: Answer) -> list[str]:
    held = gives_way(found)
    return [] if held is None else [*held.ways, *(held.filled(each) or "" for each in _HELD)]


def sources_of(plan: Plan) -> list[tuple[str, list[tuple[str, str]]]]:
    """What the figures rest on, by kind, the figures of one source together; what the person gave is no source."""
    items = [item for part in plan.parts for op in part.operations for item in op.evidence]
    items += [item for part in plan.parts for each in part.joints if each.record for item in each.record.evidence]
    names = {figure: _name_of(figure) for figure in {item.figure for item in items}}
    found: dict[str, dict[str, dict[str, None]]] = {}
    for item in items:
        if item.rule_id != "given":
            found.setdefault(item.kind, {}).setdefault(item.source, {})[names[item.figure]] = None
    kinds = sorted(found, key=lambda kind: (_KINDS.index(kind) if kind in _KINDS else len(_KINDS), kind))
    return [(kind, [(source, ", ".join(of)) for source, of in found[kind].items()]) for kind in kinds]


def _name_of(figure: str) -> str:
    """A figure's name: of its own, else its key without the unit."""
    try:
        return words("figure", figure)
    except NotTabulatedError:
        return _UNIT.sub("", figure).replace("_", " ")
