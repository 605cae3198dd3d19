"""halfnut plan."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from halfnut.cli.output import json_text

_DEMO = Path(__file__).parents[1] / "demo" / "job.toml"

_EPILOG = """\b
Example:
  halfnut plan                              the demonstration job, into halfnut-sheets
  halfnut plan --begin telescope.toml       that job's file, to alter
  halfnut plan telescope.toml --out sheets
  halfnut plan telescope.toml --out sheets --replace

Exit status: 0 every operation planned, 1 some operation has no answer, 2 the job cannot be read."""


@click.command(epilog=_EPILOG)
@click.argument("job", required=False, type=click.Path(path_type=Path))
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    default=Path("halfnut-sheets"),
    show_default=True,
    help="Folder to write to.",
)
@click.option("--replace", is_flag=True, help="Replace an earlier plan in the folder; other files there stay.")
@click.option("--begin", type=click.Path(path_type=Path), help="Write the demonstration job's file there, and end.")
@click.option("--json", "as_json", is_flag=True, help="Print the plan as JSON and write nothing.")
def plan(job: Path | None, out: Path, replace: bool, begin: Path | None, as_json: bool) -> None:
    """Plan the job file JOB: a setup sheet for every part, plan.csv, plan.json and a page that opens them."""
    if begin is not None:
        if begin.exists():
            raise click.UsageError(f"{begin} is there already and stays as it is")
        begin.write_text(_DEMO.read_text(encoding="utf-8"), encoding="utf-8")
        click.echo(f"{begin}: alter it, then `halfnut plan {begin} --out sheets`")
        return
    from halfnut.planning import plan as plan_job

    planned = plan_job(job or _DEMO)
    if as_json:
        click.echo(json_text(planned.to_dict()))
    else:
        written = planned.write(out, replace=replace)
        click.echo(str(planned))
        click.echo()
        click.echo("\n".join(str(path) for path in written))
    sys.exit(1 if planned.failed else 0)
