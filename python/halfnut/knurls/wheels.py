"""The shop's knurl wheels, as a file ``knurl_wheels.toml`` of a shop folder has them; the core reads its rows."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from halfnut import _core
from halfnut.core.arguments import sound
from halfnut.core.catalogue import active, active_folders
from halfnut.core.mistakes import InputError, of_core
from halfnut.core.questions import found_by
from halfnut.core.shapes import load_toml
from halfnut.demo import FOLDER

if TYPE_CHECKING:
    from halfnut.core.given import KnurlWheelsLike

__all__ = ["knurl_wheels"]


def knurl_wheels(path: str | os.PathLike[str] | None = None) -> tuple[Mapping[str, Any], ...]:
    """The wheels of a file; else of the shop folders, else of the demonstration.

    Parameters
    ----------
    path : path, optional
        The file.

    Returns
    -------
    tuple of mapping
        A wheel each, or a pair that goes together, as it stands there; `suitable_wheels` marks one with mistakes.

    Raises
    ------
    InputError
        The file is no list of wheels.

    >>> knurl_wheels()[0]["pitch"]
    '21 TPI'
    """
    if path == "":
        raise _core.DomainError("a file of wheels must have a name, got ''")
    places = [folder / "knurl_wheels.toml" for folder in (*reversed(active_folders()), FOLDER)]
    file = next(filter(Path.is_file, places)) if path is None else Path(path)
    data = load_toml(file)
    mistakes = of_core(_core.wheel_file_mistakes(data, active()), data)
    if any(not each.key.startswith("wheels[") for each in mistakes):
        raise InputError(str(file), mistakes)
    return tuple(data.get("wheels", ()))


def wheels_at_hand(wheels: KnurlWheelsLike | None) -> object:
    """What a question takes of a file, of wheels by the keys of one, or, where none are given, of the shop's."""
    return knurl_wheels(sound(wheels, "wheels")) if wheels is None or isinstance(wheels, (str, os.PathLike)) else wheels


found_by("KnurlWheels", wheels_at_hand)
