"""What the command remembers for a person: machines, tool, units and shop folder, in a file to read and alter."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any, Literal, TypeAlias

from halfnut._core import Error, TableError, job_kinds, nearest_name

__all__ = ["Defaults", "place"]

_BESIDE = {
    "lathe": frozenset({"gear-train", "hold", "knurl", "tool-life"}),
    "mill": frozenset({"divide", "helix", "polygon", "positions", "ramp", "screw-hole"}),
    "either": frozenset({"thread-speed", "translating-pairs"}),
}
"""Machines of the questions that are no operation of a job: of those the core tells."""
_NONE = frozenset({"batch"})
_TURNING = frozenset({"turn", "face", "bore", "taper", "tool-life"})
_KINDS: dict[str, Literal["lathe", "mill"]] = {"lathe": "lathe", "mill": "mill", "drill press": "mill"}


_NAMED = ("lathe", "mill", "tool", "units", "shop")

Defaults: TypeAlias = dict[str, str]
"""What is remembered, in the order of the file: machines by name or by an absolute path; a tool for turning, facing,
boring and tapers; "inch" or "metric" for what is asked without a size; a shop's folder."""


def options(kept: Defaults, words: list[str]) -> dict[str, dict[str, Any]]:
    """Options that a command takes of what is remembered, nested as the command's names are.

    >>> options({"lathe": "gap-bed", "mill": "bench-mill"}, ["mill", "7075", "10mm"])
    {'mill': {'machine': 'bench-mill'}}
    """
    command = words[0]
    if command == "machine":
        return {command: {"new": {"system": kept["units"]}}} if "units" in kept else {}
    found = {"machine": _machine(kept, words), "tool": kept.get("tool") if command in _TURNING else None}
    return {command: {name: value for name, value in found.items() if value is not None}}


def _machine(kept: Defaults, words: list[str]) -> str | None:
    """The machine that a command is asked of; of lathe and mill the one named first drills and taps."""
    if words[0] in _NONE or "--leadscrew" in words:
        return None
    on = asked_on(words)
    return next(
        (name for kind, name in kept.items() if kind in {"lathe", "mill"} and on in {kind, "either", None}), None
    )


def asked_on(words: list[str]) -> str | None:
    """What a command is asked of: "lathe", "mill" or "either"; None where that is not known.

    >>> asked_on(["chase", "M10-6g"]), asked_on(["tap", "5083", "M6"])
    ('lathe', 'either')
    """
    command = words[0]
    if command == "choose":
        return "mill" if any(word.startswith("mill") for word in words) else "lathe"
    on = {kind["question"].replace("_", "-"): kind["on"] for kind in job_kinds()}
    return on.get(command) or next((kind for kind, names in _BESIDE.items() if command in names), None)


def text_of(kept: Defaults) -> str:
    """The file."""
    from halfnut.core.text import toml_text

    return "\n".join([*_HEAD, *(f"{key} = {toml_text(value)}" for key, value in kept.items()), ""])


_HEAD = (
    "# What `halfnut` takes where a question does not say; an option on the command line wins.",
    "# Of lathe and mill the one that stands first drills and taps. `halfnut use --help` says how it is altered.",
)


def place() -> Path:
    """Where the file is: in XDG_CONFIG_HOME, else in ~/.config.

    Returns
    -------
    Path
        ``halfnut/defaults.toml`` there, whether or not there is such a file.
    """
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
        return {}
    from halfnut.core.plain_files import read_plain, toml_data

    try:
        given = toml_data(read_plain(path))
        return _checked(given)
    except (Error, OSError) as error:
        why = error.strerror if isinstance(error, OSError) else error
        raise TableError(f"{path}: {why}; mend it, or `halfnut use --forget`") from None


def _checked(given: dict[str, Any]) -> Defaults:
    for key, value in given.items():
        if key not in _NAMED:
            near = nearest_name(key, list(_NAMED))
            raise TableError(f"no key '{key}'; {f'nearest: {near}' if near else 'known: ' + ', '.join(_NAMED)}")
        if not isinstance(value, str) or not value:
            raise TableError(f"{key} must be a text in quotes, got {value!r}")
    if given.get("units") not in {None, "inch", "metric"}:
        raise TableError(f'units must be "inch" or "metric", got "{given["units"]}"')
    if "shop" in given and not Path(given["shop"]).is_dir():
        raise TableError(f"shop: no folder {given['shop']}")
    return given


def kind_of(machine: str) -> Literal["lathe", "mill"]:
    """What a machine is to questions: a lathe or a mill; its own error where there is none such.

    >>> kind_of("bench-mill")
    'mill'
    """
    from halfnut.machine.machines import machine as find

    return _KINDS[find(machine).kind]
