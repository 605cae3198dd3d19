"""What the command remembers for a person: machines, tool, units and shop folder, in a file to read and alter."""

from __future__ import annotations

import os
from dataclasses import fields
from pathlib import Path
from typing import Any, Literal

from halfnut._core import Error, TableError, nearest_name
from halfnut.core.fixed import made

__all__ = ["Defaults", "kind_of", "place", "remembered"]

_LATHE = frozenset(
    {"turn", "face", "bore", "part-off", "groove", "taper", "knurl", "knurl-setup", "chase", "gear-train", "hold"}
    | {"tool-life"}
)
_MILL = frozenset({"mill", "ramp", "helix", "saw", "positions", "divide", "polygon", "screw-hole"})
_NONE = frozenset({"batch"})
_TURNING = frozenset({"turn", "face", "bore", "taper", "tool-life"})
_KINDS: dict[str, Literal["lathe", "mill"]] = {"lathe": "lathe", "mill": "mill", "drill press": "mill"}


@made(frozen=True)
class Defaults:
    """What is remembered, in the order in which it stands in the file.

    Attributes
    ----------
    lathe, mill : str or None
        Machines, by name or by an absolute path.
    tool : str or None
        For turning, facing, boring and tapers.
    units : str or None
        "inch" or "metric": of what is asked without a size.
    shop : str or None
        A shop's folder.
    """

    lathe: str | None = None
    mill: str | None = None
    tool: str | None = None
    units: str | None = None
    shop: str | None = None
    mill_first: bool = False
    """Whether a question of either machine, such as drilling, is the mill's."""

    def to_dict(self) -> dict[str, str]:
        """What is remembered, by its key, in the order of the file."""
        keys = [each.name for each in fields(self) if each.name != "mill_first"]
        if self.mill_first:
            keys[:2] = ["mill", "lathe"]
        return {key: value for key in keys if (value := getattr(self, key)) is not None}

    def options(self, words: list[str]) -> dict[str, dict[str, Any]]:
        """Options that a command takes of it, nested as the command's names are.

        >>> Defaults(lathe="gap-bed", mill="bench-mill").options(["mill", "7075", "10mm"])
        {'mill': {'machine': 'bench-mill'}}
        """
        command = words[0]
        if command == "machine":
            return {} if self.units is None else {command: {"new": {"system": self.units}}}
        machine = self._machine(command, words)
        found = {"machine": machine, "tool": self.tool if command in _TURNING else None}
        return {command: {name: value for name, value in found.items() if value is not None}}

    def _machine(self, command: str, words: list[str]) -> str | None:
        if command in _NONE or "--leadscrew" in words:
            return None
        if command in _LATHE or (command == "choose" and not any(word.startswith("mill") for word in words)):
            return self.lathe
        if command in _MILL or command == "choose":
            return self.mill
        first, second = (self.mill, self.lathe) if self.mill_first else (self.lathe, self.mill)
        return first or second

    def text(self) -> str:
        """The file."""
        from halfnut.core.text import toml_text

        lines = [f"{key} = {toml_text(value)}" for key, value in self.to_dict().items()]
        return "\n".join([*_HEAD, *lines, ""])


_HEAD = (
    "# What `halfnut` takes where a question does not say; an option on the command line wins.",
    "# Of lathe and mill the one that stands first drills and taps. `halfnut use --help` says how it is altered.",
)


def place() -> Path:
    """Where the file is: in XDG_CONFIG_HOME, else in ~/.config."""
    named = Path(os.environ.get("XDG_CONFIG_HOME", ""))
    home = named if named.is_absolute() else Path.home() / ".config"
    return home / "halfnut" / "defaults.toml"


def remembered() -> Defaults:
    """What is remembered; nothing where there is no file.

    Raises
    ------
    TableError
        The file cannot be read, or holds what it should not; it names the file, the key and what is allowed.
    """
    path = place()
    if not path.exists():
        return Defaults()
    from halfnut.core.plain_files import read_plain, toml_data

    try:
        given = toml_data(read_plain(path))
        return _checked(given)
    except (Error, OSError) as error:
        why = error.strerror if isinstance(error, OSError) else error
        raise TableError(f"{path}: {why}; mend it, or `halfnut use --forget`") from None


def _checked(given: dict[str, Any]) -> Defaults:
    known = [each.name for each in fields(Defaults) if each.name != "mill_first"]
    for key, value in given.items():
        if key not in known:
            near = nearest_name(key, known)
            raise TableError(f"no key '{key}'; {f'nearest: {near}' if near else 'known: ' + ', '.join(known)}")
        if not isinstance(value, str) or not value:
            raise TableError(f"{key} must be a text in quotes, got {value!r}")
    if given.get("units") not in {None, "inch", "metric"}:
        raise TableError(f'units must be "inch" or "metric", got "{given["units"]}"')
    if "shop" in given and not Path(given["shop"]).is_dir():
        raise TableError(f"shop: no folder {given['shop']}")
    order = [key for key in given if key in {"lathe", "mill"}]
    return Defaults(**given, mill_first=order[:1] == ["mill"])


def kind_of(machine: str) -> Literal["lathe", "mill"]:
    """What a machine is to questions: a lathe or a mill; its own error where there is none such.

    >>> kind_of("bench-mill")
    'mill'
    """
    from halfnut.machine.machines import machine as find

    return _KINDS[find(machine).kind]
