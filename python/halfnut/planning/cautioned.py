"""Cautions that a plan tells: those of its answers, less what the rows of its cards say already."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from halfnut.core.record import Caution
    from halfnut.planning.answers import Answer
    from halfnut.threads.joints import ThreadStrength

_MINUTE_S = 60.0
__all__ = ["needed", "needed_of_joint"]


def needed(answer: Answer, *, through: bool, pieces: int = 1) -> Iterator[Caution]:
    """Cautions of an operation that its row does not make needless, and that its lot comes to.

    A row with pecks says when to withdraw, a row by hand that it is by hand; a hand that feeds a drill feels the power
    that it takes; what is told of parting off against a centre says where the piece goes; a hole that the walk finds
    through holds no acid; an edge that outlasts the lot is not changed.
    """
    cut = answer.cut
    told = answer.cautions
    said = {"coat_blind_hole"} if through else set()
    if cut is not None and cut.peck_depths_mm:
        said.add("deep_hole")
    if cut is not None and cut.by_hand:
        said.add("tap_by_hand")
    if cut is not None and cut.operation == "drill" and cut.feed_source == "hand":
        said.add("power_exceeded")
    if cut is not None and (cut.tool_life_low_min or 0.0) * _MINUTE_S > pieces * answer.time_s:
        said.add("short_life")
    if any(each.code == "part_centre" for each in told):
        said.add("piece_falls")
    return (each for each in told if each.code not in said)


def needed_of_joint(found: ThreadStrength) -> Iterator[Caution]:
    """Cautions of a joint; one that bears its load with the factor that was asked is long enough for it."""
    reached, asked = found.factor_reached, found.factor_of_safety
    bears = reached is not None and asked is not None and reached >= asked
    return (each for each in found.cautions if not (bears and each.code == "strength_under_practice"))
