"""How a room shows what is in it: its modules and their public names, each loaded when it is first touched."""

from __future__ import annotations

import sys
from importlib import import_module
from typing import Any

__all__ = ["furnish"]


def furnish(room: str, *, flat: bool = True) -> None:
    """Show in a room its modules and, if `flat`, what the ``__all__`` of each names.

    Parameters
    ----------
    room : str
        The package's ``__name__``.
    flat : bool
        Whether names of the modules are the room's own, too.

    Examples
    --------
    >>> import halfnut.fits
    >>> halfnut.fits.cylindrical_fit.__module__, "tapers" in dir(halfnut.fits)
    ('halfnut.fits.questions', True)
    """
    place = sys.modules[room]

    def modules() -> list[str]:
        from pkgutil import iter_modules  # costs more than all else that the package loads at first

        return sorted(found.name for found in iter_modules(place.__path__))

    def get(name: str) -> Any:
        if name == "__all__":
            return names()
        if not name.startswith("_"):
            known = modules()
            if name in known:
                return import_module(f"{room}.{name}")
            for each in known if flat else ():
                module = import_module(f"{room}.{each}")
                if name in getattr(module, "__all__", ()):
                    value = getattr(module, name)
                    setattr(place, name, value)
                    return value
        raise AttributeError(f"module {room!r} has no attribute {name!r}")

    def names() -> list[str]:
        known = modules()
        public = (getattr(import_module(f"{room}.{each}"), "__all__", ()) for each in known if flat)
        return sorted({*known, *(name for each in public for name in each)})

    vars(place).update(__getattr__=get, __dir__=names)
