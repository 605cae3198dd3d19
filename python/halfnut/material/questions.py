"""The questions of this room.

Written by `./shop stubs` from the core's declarations: change those.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.questions import answer_to

if TYPE_CHECKING:
    from halfnut.material.alloys import AlloyLike
    from halfnut.material.coatings import Coating
    from halfnut.material.figures import Alloy

__all__ = ["alloy", "coating"]


def alloy(
    name: str,
) -> Alloy:
    """What is known of an alloy in one condition, and where each figure comes from.

    Parameters
    ----------
    name : str
        UNS number, a trade name with or without its condition ("6061-T6", "4130 normalised"), an EN or a Werkstoff
        number; case, spaces and punctuation do not count.

    Returns
    -------
    Alloy
        An alloy in one condition. Properties that no source gives are None.

    Raises
    ------
    DomainError
        A number out of its range, or two that contradict each other.
    UnitError
        A length or a feed without its unit.
    NotTabulatedError
        No such name, or no row for it.
    TableError
        A shop's row that cannot be used.

    References
    ----------
    As its row and its evidence name them.
    """
    answer: Alloy = answer_to("alloy", "halfnut.material.figures:Alloy", (name,))
    return answer


def coating(
    text: str,
    *,
    on: AlloyLike | None = None,
    strips: int | None = None,
) -> Coating:
    """What is known of a finish, for a film of a given or its usual thickness.

    Parameters
    ----------
    text : str
        Finish by its name, with or without the thickness of its film: "anodise II", "anodise II black 15 um", "hard
        anodise 0.002 in", "electroless nickel B".
    on : AlloyLike, optional
        Alloy it is to go on; one that does not take it is refused.
    strips : int, optional
        How often the film was stripped and grown anew, which takes metal each time. From 0 to 10. When not given:
        never.

    Returns
    -------
    Coating
        A finish: its film, what it adds to a surface, and what to mind.

    Raises
    ------
    DomainError
        A number out of its range, or two that contradict each other.
    UnitError
        A length or a feed without its unit.
    NotTabulatedError
        No such name, or no row for it.
    TableError
        A shop's row that cannot be used.

    References
    ----------
    Machinery's Handbook, ISO 4042 and rows of the trade, as the evidence names them.
    """
    answer: Coating = answer_to(
        "coating",
        "halfnut.material.coatings:Coating",
        (
            text,
            on,
            strips,
        ),
    )
    return answer
