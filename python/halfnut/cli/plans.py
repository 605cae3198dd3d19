"""halfnut plan."""

from __future__ import annotations

from pathlib import Path

import click

from halfnut.cli.failures import ANSWERED, MARKED
from halfnut.cli.output import STREAM, echo, put, ready, tell
from halfnut.core import files
from halfnut.demo import FOLDER

_DEMO = FOLDER / "job.toml"
_OUT = Path("halfnut-sheets")

_EPILOG = """\b
Example:
  halfnut plan                              the demonstration job, into halfnut-sheets
  halfnut plan --begin telescope.toml       that job's file, to alter
  halfnut plan telescope.toml --out sheets
  halfnut plan telescope.toml --out sheets --paper letter --replace

Exit status: 0 every operation planned, 1 some operation has no answer, 2 the job is wrong, 3 it cannot be read or the
sheets cannot be written."""


@click.command(epilog=_EPILOG)
@click.argument("job", required=False, type=click.Path(path_type=Path))
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    help=f"Folder to write to; {_OUT} when not given.",
)
@click.option(
    "--paper",
    type=click.Choice(["A5", "half-letter", "A4", "letter"], case_sensitive=False),
    default="A5",
    show_default=True,
    help="Paper of the cards.",
)
@click.option(
    "--phone-page",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    help="The page that ./shop page built, to lie beside the cards.",
)
@click.option(
    "--replace", is_flag=True, help="Replace an earlier plan in the folder, where it stayed as it was written."
)
@click.option(
    "--begin",
    type=click.Path(path_type=Path),
    help="Write the demonstration job's file there, and end; - is standard output.",
)
@click.option(
    "--json", "as_json", is_flag=True, help="Print the plan as JSON; sheets are written where --out is given."
)
@click.pass_context
def plan(
    ctx: click.Context,
    job: Path | None,
    out: Path | None,
    paper: str,
    phone_page: Path | None,
    replace: bool,
    begin: Path | None,
    as_json: bool,
) -> None:
    """Plan the job file JOB: cards for the machine, details, plan.csv, plan.json and a page that opens them."""
    if begin is not None:
        if job is not None or out is not None or as_json:
            raise click.UsageError("--begin writes a file and ends; it goes with --replace only")
        ready(begin, replace=replace)
        put(begin, _DEMO.read_text(encoding="utf-8"), replace=replace)
        if begin != STREAM:
            echo(f"{begin}: alter it, then `halfnut plan {begin} --out sheets`")
        return
    from halfnut.planning.job import MANIFEST
    from halfnut.planning.plans import plan as plan_job

    folder = _OUT if out is None and not as_json else out
    if folder == STREAM:
        raise click.UsageError("--out names a folder; --json prints the plan to standard output")
    if folder is not None:
        files.check_folder(folder, MANIFEST, replace=replace)
    elif replace:
        raise click.UsageError("--replace goes with --out")
    planned = plan_job(job or _DEMO)
    written = [] if folder is None else planned.write(folder, paper=paper, phone_page=phone_page, replace=replace)
    tell(as_json, planned.to_dict() if as_json else None, [str(planned), "", "\n".join(map(str, written))])
    ctx.exit(MARKED if planned.failed else ANSWERED)
