"""A shop's own tables laid over the built-in ones: from a file, a folder, or an installed package.

A shop folder holds any of

- table files laid out as Halfnut's own, ``<folder>/material/alloys.csv`` for the table "material/alloys";
- TOML files with rows of tables, ``[[material.alloys]]`` followed by ``key = value`` lines, ``source`` being a
  sentence that says where the numbers come from;
- machine files under ``machines/``, and the shop's knurl wheels in ``knurl_wheels.toml``.

Folders come from installed packages through the entry-point group ``halfnut.tables`` (each entry point is a folder's
path, or a function that gives one), from the ``HALFNUT_SHOP`` environment variable, and from `halfnut.shop`.
`halfnut.core.catalogue` says which of them answers.
A row with the key of a built-in row replaces it; evidence then shows the source as the shop's.

A row, a file or a package with a mistake stops only what needs it. `lay_folders` lists every mistake; a question that
needs a bad row is refused with the mistakes of that row.
"""

from __future__ import annotations

import contextlib
import io
import os
import re
import sys
import warnings
from collections.abc import Iterable, Iterator
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from halfnut._core import Catalogue, Error, TableError
from halfnut.core.fixed import made
from halfnut.core.plain_files import read_plain, toml_data

if TYPE_CHECKING:
    from importlib.metadata import EntryPoint

__all__ = [
    "ENTRY_POINT_GROUP",
    "ShopProblem",
    "ShopTables",
    "ShopWarning",
    "folder_shop",
    "lay_file",
    "lay_folders",
    "process_shop",
]

ENTRY_POINT_GROUP = "halfnut.tables"

# Tables that others refer to come first.
_FIRST = ("material/groups", "material/alloys")


@made(frozen=True)
class ShopProblem:
    """What of a shop's tables cannot be used.

    Attributes
    ----------
    where : str
        File and line, or a package's name.
    what : str
        The row, the file or the package.
    mistakes : tuple of str
        All of them.
    """

    where: str
    what: str
    mistakes: tuple[str, ...]

    @property
    def short(self) -> str:
        """In one line."""
        more = len(self.mistakes) - 1
        first = self.mistakes[0] if len(self.mistakes[0]) <= 120 else self.mistakes[0][:117] + "..."
        return f"{self.where}: {self.what} cannot be used: {first}" + (f"; and {more} more" if more else "")

    def lines(self) -> list[str]:
        """Each mistake on a line of its own."""
        return [f"{self.where}: {self.what} cannot be used", *(f"  {mistake}" for mistake in self.mistakes)]


@made(frozen=True)
class ShopTables:
    """The built-in tables with the shop's over them, and what of the shop's cannot be used."""

    catalogue: Catalogue
    problems: tuple[ShopProblem, ...]
    folders: tuple[Path, ...]


class ShopWarning(UserWarning):
    """Something of a shop's tables cannot be used; the message names it."""


def _folder(given: str | os.PathLike[str]) -> Path:
    if not isinstance(given, (str, os.PathLike)):
        raise TableError(f"folder must be a path, got {given!r}")
    path = Path(given)
    if not path.is_dir():
        raise TableError(f"{path}: no such shop folder")
    return path


@lru_cache(maxsize=4)
def _packages(_path: tuple[str, ...]) -> tuple[tuple[Path, ...], tuple[ShopProblem, ...]]:
    """Folders of the packages that can be found, and the packages that cannot be used; looked for once a process."""
    folders: list[Path] = []
    problems: list[ShopProblem] = []
    for point in sorted(_points(), key=lambda point: point.name):
        try:
            loaded = point.load()
            folders.append(_folder(loaded() if callable(loaded) else loaded))
        except (Exception, SystemExit) as error:  # whatever another's package does, Halfnut answers
            what = " ".join(f"{type(error).__name__}: {error}".split())
            problems.append(ShopProblem(f"package {_package_name(point)}", "its tables", (what,)))
    return tuple(folders), tuple(problems)


def _points() -> Iterable[Any]:
    """Entry points of the group; the library that reads them is slow to load, and most shops have none."""
    if not any(ENTRY_POINT_GROUP in text for place in sys.path for text in _entry_points(place or ".")):
        return ()
    from importlib.metadata import entry_points

    return entry_points(group=ENTRY_POINT_GROUP)


def _entry_points(place: str) -> Iterator[str]:
    for folder in Path(place).iterdir() if Path(place).is_dir() else ():
        if folder.name.endswith("-info"):
            with contextlib.suppress(OSError):
                yield (folder / "entry_points.txt").read_text(encoding="utf-8", errors="replace")


def _package_name(point: EntryPoint) -> str:
    dist = getattr(point, "dist", None)
    name = None if dist is None else dist.metadata["Name"]
    return f"{name} ({point.name})" if name else str(point.name)


def process_shop(named: str | None = None) -> tuple[Catalogue, tuple[Path, ...]]:
    """The shop of the process: tables and folders of installed packages, then of the folder that is named, if any.

    What cannot be used is left out, with a `ShopWarning`: one a package, one for all rows and files.

    Parameters
    ----------
    named : str, optional
        The folder of HALFNUT_SHOP; without one packages alone are laid.

    Returns
    -------
    tuple
        The catalogue; and the folders that are laid over the built-in tables, in order.

    Raises
    ------
    TableError
        There is no such folder.
    """
    folders, problems = _packages(tuple(sys.path))
    found = lay_folders(Catalogue(), [*folders, *([_folder(named)] if named else [])])
    return _warned(ShopTables(found.catalogue, (*problems, *found.problems), found.folders))


def folder_shop(folder: str | os.PathLike[str]) -> tuple[Catalogue, tuple[Path, ...]]:
    """The built-in tables with one folder's over them; what cannot be used is warned of.

    Parameters
    ----------
    folder : path
        A shop folder; the module says what it holds.

    Returns
    -------
    tuple
        The catalogue; and the folders that are laid over the built-in tables, in order.

    Raises
    ------
    TableError
        There is no such folder.
    """
    return _warned(lay_folders(Catalogue(), [_folder(folder)]))


def _warned(found: ShopTables) -> tuple[Catalogue, tuple[Path, ...]]:
    packages = [problem for problem in found.problems if problem.where.startswith("package ")]
    for problem in packages:
        warnings.warn(problem.short, ShopWarning, stacklevel=3)
    rows = [problem for problem in found.problems if problem not in packages]
    if rows:
        more = f"; and {len(rows) - 1} more: `halfnut shop check FOLDER` names all" if len(rows) > 1 else ""
        warnings.warn(rows[0].short + more, ShopWarning, stacklevel=3)
    return found.catalogue, found.folders


def lay_folders(catalogue: Catalogue, folders: list[Path]) -> ShopTables:
    """Lay the tables of folders over a catalogue, one folder after the other.

    Parameters
    ----------
    catalogue : Catalogue
        What is laid over; it is not changed itself.
    folders : list of Path
        A later one's rows replace those of one before.

    Returns
    -------
    ShopTables
        One catalogue, with the problems of all folders.
    """
    problems: list[ShopProblem] = []
    for folder in folders:
        catalogue = _laid(catalogue, sorted([*folder.glob("*/*.csv"), *folder.glob("*.toml")]), problems)
    return _with_refused(catalogue, problems, folders)


def lay_file(catalogue: Catalogue, path: Path) -> ShopTables:
    """Lay the tables of one file over a catalogue.

    Parameters
    ----------
    catalogue : Catalogue
        What is laid over; it is not changed itself.
    path : Path
        A table as CSV, named after it in a folder named after its domain; or tables as TOML.

    Returns
    -------
    ShopTables
        Of no folders; rows that `catalogue` refused before are problems, too.
    """
    problems: list[ShopProblem] = []
    return _with_refused(_laid(catalogue, [path], problems), problems, [])


def _laid(catalogue: Catalogue, paths: list[Path], problems: list[ShopProblem]) -> Catalogue:
    layers: list[_Layer] = []
    for path in paths:
        try:
            layers += _layers(path)
        except (Error, OSError) as error:
            problems.append(_of_file(path, error))
    places = {name: place for place, name in enumerate(_FIRST)}
    for layer in sorted(layers, key=lambda layer: places.get(layer.table, len(_FIRST))):
        try:
            catalogue = catalogue.with_table(layer.table, layer.text, layer.name, layer.lines)
        except Error as error:
            problems.append(_of_file(Path(layer.name), error))
    return catalogue


def _with_refused(catalogue: Catalogue, problems: list[ShopProblem], folders: list[Path]) -> ShopTables:
    problems += [
        ShopProblem(where, f"{table} '{names[0]}'" if names and names[0] else f"the row of {table}", tuple(mistakes))
        for table, where, names, mistakes, _ in catalogue.refused()
    ]
    return ShopTables(catalogue, tuple(problems), tuple(folders))


def _of_file(path: Path, error: Exception) -> ShopProblem:
    text = (error.strerror or str(error)) if isinstance(error, OSError) else str(error)
    return ShopProblem(str(path), "the table", (text.removeprefix(f"{path}: ").removeprefix(f"{path}:"),))


@made(frozen=True)
class _Layer:
    """Text of a table, and where each of its rows stands in its file, as far as that is known."""

    table: str
    text: str
    name: str
    lines: list[int]


def _layers(path: Path) -> Iterator[_Layer]:
    """The tables of a file; a TOML file without rows of tables has none."""
    text = read_plain(path)
    if path.suffix == ".csv":
        yield _Layer(f"{path.parent.name}/{path.stem}", text, str(path), [])
        return
    data = toml_data(text)
    for domain, tables in data.items():
        if not isinstance(tables, dict):
            continue
        for table, rows in tables.items():
            if isinstance(rows, list) and all(isinstance(row, dict) for row in rows):
                name = f"{domain}/{table}"
                yield _Layer(name, _table_text(name, rows, path), str(path), _lines(text, domain, table, len(rows)))


def _lines(text: str, domain: str, table: str, rows: int) -> list[int]:
    """Lines at which rows begin; none where they are not written one below the other."""
    head = re.compile(rf"""\s*\[\[\s*["']?{re.escape(domain)}["']?\s*\.\s*["']?{re.escape(table)}["']?\s*\]\]""")
    found = [number for number, line in enumerate(text.splitlines(), 1) if head.match(line)]
    return found if len(found) == rows else []


def _table_text(name: str, rows: list[dict[str, Any]], path: Path) -> str:
    """Rows as the text of a table file, their sources declared in its head."""
    columns = list(dict.fromkeys(key for row in rows for key in row))
    citations: dict[str, str] = {}

    def cell(column: str, value: object) -> Any:
        if column == "source" or column.endswith("_source"):
            citation = " ".join(str(value).split())
            return citations.setdefault(citation, f"S{len(citations) + 1}") if citation else ""
        return {True: "yes", False: "no"}.get(value, value) if isinstance(value, bool) else value

    body = io.StringIO()
    import csv

    writer = csv.writer(body, lineterminator="\n", quoting=csv.QUOTE_ALL)
    writer.writerow(columns)
    for row in rows:
        writer.writerow([cell(column, row.get(column, "")) for column in columns])
    head = [f"# table: {name} of {path.name}"]
    head += [f"# {key}: shop | {citation}" for citation, key in citations.items()]
    return "\n".join(head) + "\n" + body.getvalue()
