"""The questions of this room.

Written by `./shop stubs` from the core's declarations: change those.
"""

from __future__ import annotations

from halfnut.core.questions import ask
from halfnut.material.alloys import Alloy

__all__ = ["alloy"]


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
    return Alloy.of(ask("alloy", (name,)))
