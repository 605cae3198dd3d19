"""The tables Halfnut computes with, sources included, and a shop's own rows over them.

Which shop answers is decided in one place, `active`, the same for Python and for the command: what `shop` or
`activate` chose for this thread or asynchronous task, else the shop of the process: the folder that HALFNUT_SHOP
names over the tables of installed packages over the built-in ones. The shop of the process is read at the first
question.

A thread starts with the shop of the process; an asynchronous task, and ``asyncio.to_thread``, with the shop of
whoever starts it. ``contextvars.copy_context().run`` gives a thread the shop of its starter.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from pathlib import Path
from threading import Lock
from typing import Any

from halfnut._core import Catalogue, environment

__all__ = ["FOLDER_VARIABLE", "activate", "active", "active_folders", "rows", "shop", "tables"]

Shop = tuple[Catalogue, tuple[Path, ...]]

FOLDER_VARIABLE = "HALFNUT_SHOP"
"""Names the folder of a shop's own tables."""

_chosen: ContextVar[Shop | None] = ContextVar("halfnut_shop", default=None)
_of_process: dict[str | None, Shop] = {}
_reading = Lock()


def active() -> Catalogue:
    """The catalogue that level-2 functions use here.

    Returns
    -------
    Catalogue
        It does not change: another shop is another catalogue.

    Raises
    ------
    TableError
        HALFNUT_SHOP names a folder that is not there, or one whose tables cannot be read.
    """
    chosen = _chosen.get() or _of_process.get(environment(FOLDER_VARIABLE)) or _process_shop()
    return chosen[0]


def active_folders() -> tuple[Path, ...]:
    """Folders of the shop that answers here, in the order in which they are laid over the built-in tables.

    Returns
    -------
    tuple of Path
        Empty where the built-in tables answer alone.

    Raises
    ------
    TableError
        As `active`.
    """
    return (_chosen.get() or _process_shop())[1]


def _process_shop() -> Shop:
    """The shop of the process, read once for each folder that HALFNUT_SHOP names."""
    named = environment(FOLDER_VARIABLE)
    if (found := _of_process.get(named)) is not None:
        return found
    from halfnut.core.shop_tables import process_shop

    with _reading:
        if named not in _of_process:
            _of_process[named] = process_shop(named)
        return _of_process[named]


@contextmanager
def shop(folder: str | os.PathLike[str] | None) -> Iterator[Catalogue]:
    """Answer with a shop's own tables, machines and knurl wheels inside a ``with`` block.

    Other threads and asynchronous tasks go on with their own shop. A thread that is started inside begins with the
    shop of the process; a task that is started inside begins with this one.

    Parameters
    ----------
    folder : path or None
        The shop's folder, laid over the built-in tables; neither HALFNUT_SHOP nor installed packages count inside.
        None: the built-in tables alone.

    Yields
    ------
    Catalogue
        The tables inside the block.

    Raises
    ------
    TableError
        A folder that is not there, or a bad cell in it.

    >>> with shop(None) as tables:
    ...     len(tables.rows("quantity/drills")) > 100
    True
    """
    from halfnut.core.shop_tables import folder_shop

    chosen = (Catalogue(), ()) if folder is None else folder_shop(folder)
    token = _chosen.set(chosen)
    try:
        yield chosen[0]
    finally:
        _chosen.reset(token)


@contextmanager
def using(catalogue: Catalogue) -> Iterator[None]:
    """Level-2 functions use this catalogue inside a ``with`` block; machines stay those of the shop."""
    token = _chosen.set((catalogue, active_folders()))
    try:
        yield
    finally:
        _chosen.reset(token)


def activate(catalogue: Catalogue) -> None:
    """Make a catalogue the one that level-2 functions use in this thread or asynchronous task from here on.

    Machines and knurl wheels stay those of the shop. `shop` does this for a ``with`` block. To activate the catalogue
    of the process again is to choose none: a HALFNUT_SHOP that is set later counts.

    Parameters
    ----------
    catalogue : Catalogue
        One that `active` gave, or one made of it by ``with_table``.
    """
    chosen = (catalogue, active_folders())
    of_process = _of_process.get(environment(FOLDER_VARIABLE))
    _chosen.set(None if chosen == of_process else chosen)


def tables() -> list[str]:
    """Names of the tables, such as "material/alloys".

    Returns
    -------
    list of str
        Built-in ones and the shop's, as `rows` takes them.
    """
    return active().tables()


def rows(table: str) -> list[dict[str, Any]]:
    """Rows of a table; each source is a dictionary with its kind and citation.

    Parameters
    ----------
    table : str
        One of `tables`.

    Returns
    -------
    list of dict
        Values by the names of the columns, the shop's rows in place of those that they replace.

    Raises
    ------
    NotTabulatedError
        No such table.

    >>> rows("quantity/drills")[0]["name"]
    '1'
    """
    return active().rows(table)
