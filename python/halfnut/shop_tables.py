"""A shop's own tables laid over the built-in ones: from a file, a folder, or an installed package.

A shop folder holds any of

- table files laid out as Halfnut's own, ``<folder>/material/alloys.csv`` for the table "material/alloys";
- TOML files with rows of tables, ``[[material.alloys]]`` followed by ``key = value`` lines, ``source`` being a
  sentence that says where the numbers come from;
- machine files under ``machines/``.

Folders come from the argument or the ``HALFNUT_SHOP`` environment variable, and from installed packages through
the entry-point group ``halfnut.tables`` (each entry point is a folder's path, or a function that gives one).
A row with the key of a built-in row replaces it; evidence then shows the source as the shop's.
"""

from __future__ import annotations

import csv
import io
import os
from collections.abc import Callable
from importlib.metadata import entry_points
from pathlib import Path
from typing import Any, TypeVar

from halfnut._core import Catalogue, DomainError, TableError
from halfnut.plain_files import read_plain, read_toml

_Read = TypeVar("_Read")

ENTRY_POINT_GROUP = "halfnut.tables"
FOLDER_VARIABLE = "HALFNUT_SHOP"


def shop_folders(folder: str | os.PathLike[str] | None = None) -> list[Path]:
    """Folders of the shop, in the order in which they are laid over: packages, then the environment, then the argument.

    Raises
    ------
    TableError
        A folder that is named but is not there.
    """
    folders = []
    for point in sorted(entry_points(group=ENTRY_POINT_GROUP), key=lambda point: point.name):
        loaded = point.load()
        folders.append(Path(loaded() if callable(loaded) else loaded))
    if os.environ.get(FOLDER_VARIABLE):
        folders.append(Path(os.environ[FOLDER_VARIABLE]))
    if folder is not None:
        folders.append(Path(folder))
    for path in folders:
        if not path.is_dir():
            raise TableError(f"{path}: no such shop folder")
    return folders


def load(folder: str | os.PathLike[str] | None = None) -> Catalogue:
    """The built-in tables with every shop folder's tables over them.

    Parameters
    ----------
    folder : path, optional
        A shop folder besides those of the environment and of installed packages.

    Returns
    -------
    Catalogue
        Give it to `halfnut.catalogue.activate` to make every level-2 function use it.

    Raises
    ------
    TableError
        A bad cell, naming file and line.
    NotTabulatedError
        A table that Halfnut does not have; the message lists those it has.
    """
    catalogue = Catalogue()
    for path in shop_folders(folder):
        catalogue = lay_folder(catalogue, path)
    return catalogue


def lay_folder(catalogue: Catalogue, folder: Path) -> Catalogue:
    """Lay a folder's table files, then its TOML files, over a catalogue."""
    for path in sorted(folder.glob("*/*.csv")):
        name = f"{path.parent.name}/{path.stem}"
        catalogue = catalogue.with_table(name, _read(read_plain, path), str(path))
    for path in sorted(folder.glob("*.toml")):
        catalogue = lay_toml(catalogue, path)
    return catalogue


def lay_toml(catalogue: Catalogue, path: Path) -> Catalogue:
    """Lay the rows of a TOML file over a catalogue; a file without rows of tables is left alone."""
    data = _read(read_toml, path)
    for domain, tables in data.items():
        if not isinstance(tables, dict):
            continue
        for table, rows in tables.items():
            if isinstance(rows, list) and all(isinstance(row, dict) for row in rows):
                name = f"{domain}/{table}"
                catalogue = catalogue.with_table(name, _table_text(name, rows, path), f"{path} [[{domain}.{table}]]")
    return catalogue


def _read(how: Callable[[Path], _Read], path: Path) -> _Read:
    try:
        return how(path)
    except DomainError as error:
        raise TableError(f"{path}: {error}") from None


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
