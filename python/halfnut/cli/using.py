"""halfnut use: what the command remembers."""

from __future__ import annotations

from contextlib import nullcontext
from pathlib import Path

import click

from halfnut import _core
from halfnut._core import TableError
from halfnut.cli.defaults import Defaults, kind_of, place, remembered, text_of
from halfnut.cli.output import tell, with_json

_EPILOG = """\b
Example:
  halfnut use gap-bed bench-mill     these machines, where a question names none
  halfnut use --tool carbide         for turning, facing, boring and tapers
  halfnut use                        what is remembered, and in which file
  halfnut use --forget

An option of a question wins; --machine none asks without a machine. Of lathe and mill the one named first drills and
taps. The file is read by the command alone: Python, job files and batches say what they mean."""


@click.command(epilog=_EPILOG)
@click.argument("machines", metavar="[MACHINE]...", nargs=-1)
@click.option("--tool", help="Tool material, or a tool of the shop's tables.")
@click.option("--units", type=click.Choice(["inch", "metric"]), help="Of a machine file that `machine new` begins.")
@click.option("--shop", type=click.Path(path_type=Path), help="Folder of the shop's own tables and machines.")
@click.option("--forget", is_flag=True, help="Remember nothing any more.")
@with_json
def use(
    machines: tuple[str, ...], tool: str | None, units: str | None, shop: Path | None, forget: bool, as_json: bool
) -> None:
    """Remember MACHINEs, a tool, units and a shop's folder for questions that name none."""
    path = place()
    asked = bool(machines or tool or units or shop)
    if forget:
        if asked:
            raise click.UsageError("--forget forgets everything; it goes with nothing else")
        path.unlink(missing_ok=True)
    found = remembered()
    if asked:
        from halfnut.core import files

        found = _changed(found, machines, tool, units, shop)
        path.parent.mkdir(parents=True, exist_ok=True)
        files.write(path, text_of(found), replace=True)
    lines = [*(f"{key:<6} {value}" for key, value in found.items()), f"in {path}"]
    nothing = ["nothing is remembered; `halfnut use MACHINE` remembers a machine"]
    tell(as_json, {"file": str(path), "remembered": found}, lines if found else nothing)


def _changed(
    found: Defaults, machines: tuple[str, ...], tool: str | None, units: str | None, shop: Path | None
) -> Defaults:
    """What is remembered with what was said, each thing looked up before it is kept."""
    from halfnut.core.catalogue import active
    from halfnut.core.catalogue import shop as shops

    new: Defaults = {name: value for name, value in (("tool", tool), ("units", units)) if value}
    if shop is not None:
        if not shop.is_dir():
            raise TableError(f"{shop}: no such shop folder")
        new["shop"] = str(shop.resolve())
    with nullcontext() if shop is None else shops(shop):
        if tool is not None:
            _core.tool(tool, active())
        kinds = [kind_of(each) for each in machines]
    for kind, each in zip(kinds, machines, strict=True):
        if kind in new:
            raise click.UsageError(f"{new[kind]} and {each} are both {kind}s: name one of them")
        new[kind] = str(Path(each).resolve()) if Path(each).is_file() else each
    kept = found | new
    return {key: kept[key] for key in dict.fromkeys((*kinds, *found, *new))}
