"""A shop's own tables laid over the built-in ones: from a file, a folder, or an installed package.

A shop folder holds any of

- table files laid out as Halfnut's own, ``<folder>/material/alloys.csv`` for the table "material/alloys";
- TOML files with rows of tables, ``[[material.alloys]]`` followed by ``key = value`` lines, ``source`` being a
  sentence that says where the numbers come from;
- machine files under ``machines/``.

Folders come from installed packages through the entry-point group ``halfnut.tables`` (each entry point is a folder's
path, or a function that gives one), from the ``HALFNUT_SHOP`` environment variable, and from an argument.
`halfnut.catalogue` says which of them answers. A row with the key of a built-in row replaces it; evidence then shows
the source as the shop's.
"""

from __future__ import annotations

import csv
import io
import os
import sys
import warnings
from functools import lru_cache
from importlib.metadata import entry_points
from pathlib import Path
from typing import Any

from halfnut._core import Catalogue, Error, TableError

if sys.version_info >= (3, 11):
    import tomllib
else:
    import tomli as tomllib

ENTRY_POINT_GROUP = "halfnut.tables"
FOLDER_VARIABLE = "HALFNUT_SHOP"


class ShopWarning(UserWarning):
    """An installed package offers a shop that cannot be used; the message names it."""


def _folder(given: str | os.PathLike[str]) -> Path:
    if not isinstance(given, (str, os.PathLike)):
        raise TableError(f"folder must be a path, got {given!r}")
    path = Path(given)
    if not path.is_dir():
        raise TableError(f"{path}: no such shop folder")
    return path


@lru_cache(maxsize=1)
def package_folders() -> tuple[tuple[str, Path], ...]:
    """Shop folders of installed packages by entry point, looked for once a process.

    A package that cannot be used is left out, with a `ShopWarning` that names it.
    """
    found = []
    for point in sorted(entry_points(group=ENTRY_POINT_GROUP), key=lambda point: point.name):
        try:
            loaded = point.load()
            path = _folder(loaded() if callable(loaded) else loaded)
        except Exception as error:  # a stranger's code: anything may come
            _warn(point.name, error)
        else:
            found.append((point.name, path))
    return tuple(found)


def _warn(package: str, error: Exception) -> None:
    reason = str(error) or type(error).__name__
    message = f"tables of the installed package '{package}' are left out: {reason}"
    warnings.warn(message, ShopWarning, stacklevel=2)


def process_shop() -> tuple[Catalogue, tuple[Path, ...]]:
    """The shop of the process: tables and folders of installed packages, then of the folder in the environment.

    A package whose tables cannot be read is left out, with a `ShopWarning` that names it.
    """
    catalogue = Catalogue()
    folders = []
    for package, path in package_folders():
        try:
            catalogue = lay_folder(catalogue, path)
        except (Error, OSError, UnicodeError) as error:
            _warn(package, error)
        else:
            folders.append(path)
    named = os.environ.get(FOLDER_VARIABLE)
    if named:
        path = _folder(named)
        catalogue = lay_folder(catalogue, path)
        folders.append(path)
    return catalogue, tuple(folders)


def folder_shop(folder: str | os.PathLike[str]) -> tuple[Catalogue, tuple[Path, ...]]:
    """The built-in tables with one folder's over them."""
    path = _folder(folder)
    return lay_folder(Catalogue(), path), (path,)


def load(folder: str | os.PathLike[str] | None = None) -> Catalogue:
    """The built-in tables with every shop folder's tables over them.

    Parameters
    ----------
    folder : path, optional
        A shop folder besides those of the environment and of installed packages.

    Returns
    -------
    Catalogue
        The tables of the process, see `halfnut.catalogue`, with this folder's over them.

    Raises
    ------
    TableError
        A bad cell, naming file and line.
    NotTabulatedError
        A table that Halfnut does not have; the message lists those it has.
    """
    catalogue, _ = process_shop()
    return catalogue if folder is None else lay_folder(catalogue, _folder(folder))


def lay_folder(catalogue: Catalogue, folder: Path) -> Catalogue:
    """Lay a folder's table files, then its TOML files, over a catalogue."""
    for path in sorted(folder.glob("*/*.csv")):
        name = f"{path.parent.name}/{path.stem}"
        catalogue = catalogue.with_table(name, path.read_text(encoding="utf-8"), str(path))
    for path in sorted(folder.glob("*.toml")):
        catalogue = lay_toml(catalogue, path)
    return catalogue


def lay_toml(catalogue: Catalogue, path: Path) -> Catalogue:
    """Lay the rows of a TOML file over a catalogue; a file without rows of tables is left alone."""
    try:
        data = tomllib.loads(path.read_text(encoding="utf-8"))
    except tomllib.TOMLDecodeError as error:
        raise TableError(f"{path}: {error}") from error
    for domain, tables in data.items():
        if not isinstance(tables, dict):
            continue
        for table, rows in tables.items():
            if isinstance(rows, list) and all(isinstance(row, dict) for row in rows):
                name = f"{domain}/{table}"
                catalogue = catalogue.with_table(name, _table_text(name, rows, path), f"{path} [[{domain}.{table}]]")
    return catalogue


def _table_text(name: str, rows: list[dict[str, Any]], path: Path) -> str:
    """Rows as the text of a table file, their sources declared in its head."""
    columns = list(dict.fromkeys(key for row in rows for key in row))
    citations: dict[str, str] = {}

    def cell(column: str, value: Any) -> Any:
        if column == "source" or column.endswith("_source"):
            return citations.setdefault(" ".join(str(value).split()), f"S{len(citations) + 1}")
        return {True: "yes", False: "no"}.get(value, value) if isinstance(value, bool) else value

    body = io.StringIO()
    writer = csv.writer(body, lineterminator="\n")
    writer.writerow(columns)
    for row in rows:
        writer.writerow([cell(column, row.get(column, "")) for column in columns])
    head = [f"# table: {name} of {path.name}"]
    head += [f"# {key}: shop | {citation or 'no source given'}" for citation, key in citations.items()]
    return "\n".join(head) + "\n" + body.getvalue()
