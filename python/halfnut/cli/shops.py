"""halfnut shop: check a shop's own tables."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from halfnut.cli.output import tell, with_json

_EPILOG = """\b
Example:
  halfnut shop check shop

Exit status: 0 every row can be used, 1 some cannot, 2 there is no such folder."""


@click.group(epilog="\b\nExample:\n  halfnut shop check shop")
def shop() -> None:
    """Check a shop's own tables."""


@shop.command(epilog=_EPILOG)
@click.argument("folder", type=click.Path(path_type=Path))
@with_json
def check(folder: Path, as_json: bool) -> None:
    """Read the tables of FOLDER and say every mistake in every row of them."""
    from halfnut._core import Catalogue, TableError
    from halfnut.core.shop_tables import lay_folders

    if not folder.is_dir():
        raise TableError(f"{folder}: no such shop folder")
    found = lay_folders(Catalogue(), [folder]).problems
    head = f"{folder}: {f'{len(found)} to put right' if found else 'every row can be used'}"
    lines = [head, *(f"  {line}" for each in found for line in each.lines())]
    tell(as_json, list(map(vars, found)), lines)
    sys.exit(1 if found else 0)
