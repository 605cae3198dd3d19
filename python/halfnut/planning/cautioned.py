"""Cautions that a plan tells: those of its answers, less what the rows of its cards say already."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from halfnut.core.words import words

if TYPE_CHECKING:
    from halfnut.core.record import Caution
    from halfnut.planning.answers import Answer
    from halfnut.threads.figures import ThreadStrength

_MINUTE_S = 60.0


def needed(answer: Answer, *, walked: Iterable[str] = (), pieces: int = 1) -> Iterator[Caution]:
    """Cautions of an operation that neither its row nor its lot makes needless: the list `covers` of core/words.

    `walked` has the states that the walk finds.
    """
    cut, told = answer.cut, answer.cautions
    states = dict.fromkeys(walked, True) | {"part_centre": any(each.code == "part_centre" for each in told)}
    if cut is not None:
        states |= {
            "pecks": bool(cut.peck_depths_mm),
            "by_hand": bool(cut.by_hand),
            "hand_fed": cut.operation == "drill" and cut.feed_source == "hand",
            "outlasts_lot": (cut.tool_life_low_min or 0.0) * _MINUTE_S > pieces * answer.time_s,
        }
    covered = {words("covers", state) for state, holds in states.items() if holds}
    return (each for each in told if each.code not in covered)


def needed_of_joint(found: ThreadStrength) -> Iterator[Caution]:
    """Cautions of a joint; one that bears its load with the factor that was asked is long enough for it."""
    reached, asked = found.factor_reached, found.factor_of_safety
    bears = reached is not None and asked is not None and reached >= asked
    return (each for each in found.cautions if not (bears and each.code == words("covers", "joint_bears")))
