"""The core's machine of what a person gives: a name, a file, a machine; files are read where one is named."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, TypeAlias

from halfnut import _core
from halfnut.core.arguments import sound
from halfnut.core.questions import found_by

if TYPE_CHECKING:
    from halfnut.machine.machines import Machine

    MachineLike: TypeAlias = str | os.PathLike[str] | Machine | _core.Machine


def core_machine(machine: MachineLike | None) -> _core.Machine | None:
    """The core's record of a machine by name, file or record; None for none.

    >>> core_machine(None) is None
    True
    """
    if machine is None or isinstance(machine, _core.Machine):
        return machine
    from halfnut.machine.machines import machine as found

    return found(sound(machine, "machine")).core


found_by("machine", core_machine)
