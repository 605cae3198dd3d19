"""The shop's machines: `lathe` and `milling_machine` find a machine file by path or by name."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeAlias

from halfnut import _core
from halfnut._core import DomainError, NotTabulatedError, Quantity, nearest_name
from halfnut.core.arguments import checked
from halfnut.core.catalogue import active, active_folders
from halfnut.core.fixed import fixed, token
from halfnut.core.mistakes import InputError, of_core
from halfnut.core.shapes import load_toml, refuse_large
from halfnut.core.text import shown
from halfnut.demo import FOLDER

if TYPE_CHECKING:
    MachineName: TypeAlias = "str | os.PathLike[str] | Machine"

__all__ = ["Machine", "lathe", "machine", "milling_machine", "names"]


class Machine:
    """A machine of the shop: what its file says, and the core's form of it.

    Parameters
    ----------
    file : mapping
        Tables of a machine file, quantities as text; `halfnut machine new` writes one to fill in.
    path : path, optional
        Where they were read from.
    called : str
        What a message calls them.

    Attributes
    ----------
    file : mapping
        The file's own words and units.
    core : halfnut._core.Machine
        The same in base units, as the core computes with it.
    path : Path or None
        Where it was read from.

    Raises
    ------
    InputError
        Every mistake in the tables at once.
    """

    __slots__ = ("_told", "core", "file", "path")
    core: _core.Machine
    file: Mapping[str, Any]
    path: Path | None
    _told: tuple[str, ...]

    def __init__(self, file: Mapping[str, Any], path: Path | None = None, *, called: str = "the machine"):
        refuse_large(file, called)
        kept = fixed(file)
        core, mistakes, told = _core.machine_of_file(kept, active())
        if core is None:
            raise InputError(called, of_core(mistakes, kept))
        for name, value in {"core": core, "file": kept, "path": path, "_told": told}.items():
            object.__setattr__(self, name, value)

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"a machine is not changed in place: replace({name}=...) makes another")

    def replace(self, **changes: object) -> Machine:
        """Another machine, like this one but for some keys of its file.

        Parameters
        ----------
        **changes
            Keys of a machine file with new values, quantities as text; None leaves a key out.

        Returns
        -------
        Machine
            Without a path. Give it to any function that takes a machine.

        Raises
        ------
        InputError
            A key that there is not, or a value that cannot be read.

        >>> lathe("gap-bed").replace(motor="3 hp").core.motor_kw > lathe("gap-bed").core.motor_kw
        True
        """
        plain = self.to_dict() | changes
        given = {key: str(value) if isinstance(value, Quantity) else value for key, value in plain.items()}
        return Machine({key: value for key, value in given.items() if value is not None}, called=self.name)

    @property
    def name(self) -> str:
        """The name it is called by."""
        return self.core.name

    @property
    def title(self) -> str:
        """What a sheet calls it."""
        return self.file.get("title") or self.name

    @property
    def kind(self) -> str:
        """Its kind: lathe, mill or drill press."""
        return self.core.kind

    @property
    def unit(self) -> str:
        """Unit of its dials: "in" or "mm"."""
        return "in" if self.core.inch else "mm"

    def lines(self) -> list[str]:
        """The machine on a terminal: what it is, its spindle, its feeds, its dials, in the words of its file.

        Returns
        -------
        list of str
            A line each.
        """
        return list(self._told)

    def to_dict(self) -> dict[str, Any]:
        """The file as plain dictionaries and lists, quantities as text; what is not given is left out.

        Returns
        -------
        dict
            `Machine` makes the same machine of it.
        """
        plain: dict[str, Any] = _plain(self.file)
        return plain

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Machine) and self.file == other.file

    def __hash__(self) -> int:
        return hash(self.file)

    def __reduce__(self) -> tuple[Any, ...]:
        return Machine, (self.file, self.path)

    def __dask_tokenize__(self) -> tuple[Any, ...]:
        """What Dask knows the machine by: what its file says."""
        return token(self, self.to_dict())

    def __str__(self) -> str:
        return "\n".join(self.lines())

    def __repr__(self) -> str:
        return f"<Machine {self.name}: {self.title}>"

    def _repr_html_(self) -> str:
        import html

        return f'<pre style="background:none;color:inherit">{html.escape(shown(str(self)))}</pre>'


def _plain(value: object) -> Any:
    if isinstance(value, Mapping):
        return {key: _plain(each) for key, each in value.items()}
    if isinstance(value, tuple):
        return [_plain(each) for each in value]
    return str(value) if isinstance(value, Quantity) else value


@checked
def lathe(machine_or_name: MachineName) -> Machine:
    """A lathe of the shop.

    Parameters
    ----------
    machine_or_name : str, Path or Machine
        A machine file's path, or a name: of a file in a shop folder's ``machines``, in a package that offers one
        through the entry-point group ``halfnut.tables``, or of a demonstration machine.

    Returns
    -------
    Machine
        With its levers, feeds, dials and sizes.

    Raises
    ------
    NotTabulatedError
        No machine of that name; the message lists those there are.
    DomainError
        The machine is not a lathe.
    InputError
        The file has mistakes: every one of them is in the message.

    >>> lathe("gap-bed").unit
    'in'
    """
    return _of_kind(machine(machine_or_name), ("lathe",))


@checked
def milling_machine(machine_or_name: MachineName) -> Machine:
    """A milling machine or drill press of the shop; see `lathe`.

    Parameters
    ----------
    machine_or_name : str, Path or Machine
        As for `lathe`.

    Returns
    -------
    Machine
        With its levers, feeds, dials and travels.

    Examples
    --------
    >>> milling_machine("bench-mill").kind
    'mill'
    """
    return _of_kind(machine(machine_or_name), ("mill", "drill press"))


def _of_kind(found: Machine, kinds: tuple[str, ...]) -> Machine:
    if found.kind not in kinds:
        others = [name for name in names() if machine(name).kind in kinds]
        raise DomainError(f"{found.name} is a {found.kind}, not a {kinds[0]}; of that kind: {', '.join(others)}")
    return found


def machine(machine_or_name: MachineName | None) -> Machine:
    """A machine of any kind; see `lathe`.

    Parameters
    ----------
    machine_or_name : str, Path or Machine
        As for `lathe`.

    Returns
    -------
    Machine
        With its levers, feeds, dials and sizes.
    """
    if isinstance(machine_or_name, Machine):
        return machine_or_name
    if not isinstance(machine_or_name, (str, os.PathLike)):
        raise DomainError(f"machine must be a name, a path or a Machine, got {machine_or_name!r}")
    if str(machine_or_name).strip() == "":
        raise NotTabulatedError(f"machine must have a name, got ''. At hand: {', '.join(names())}")
    path = _find(machine_or_name)
    return _load(path, path.stat().st_mtime_ns)


@lru_cache(maxsize=64)
def _load(path: Path, changed_ns: int) -> Machine:
    return Machine(load_toml(path), path, called=str(path))


def names() -> list[str]:
    """Names of the machines at hand: the shop's, then the demonstration's.

    Returns
    -------
    list of str
        Each as `machine` takes it.
    """
    return sorted({path.stem for folder in _folders() for path in folder.glob("*.toml")})


def _find(path_or_name: str | os.PathLike[str]) -> Path:
    given = Path(path_or_name)
    if given.suffix == ".toml" or len(given.parts) > 1:
        if given.is_file():
            return given
        raise NotTabulatedError(f"no machine file {given}")
    most = _core.bounds()["designation_bytes"]
    if len(os.fsencode(given)) > most:
        raise NotTabulatedError(f"no machine '{str(given)[:60]}...'; a name has at most {most} bytes")
    for folder in _folders():
        path = folder / f"{given}.toml"
        if path.is_file():
            return path
    known = names()
    nearest = nearest_name(str(given), known)
    hint = f"; did you mean '{nearest}'?" if nearest else "."
    raise NotTabulatedError(f"no machine '{given}'{hint} At hand: {', '.join(known)}")


def _folders() -> Iterator[Path]:
    """Folders of machine files: the shop's, those of installed packages, the demonstration's."""
    for folder in reversed(active_folders()):
        yield folder / "machines"
    yield FOLDER / "machines"
