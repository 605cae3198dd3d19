"""halfnut suitable-wheels."""

from __future__ import annotations

from pathlib import Path

import click

from halfnut.cli.output import show, with_evidence, with_json

__all__ = ["suitable_wheels"]


@click.command(
    epilog="\b\nExample:\n  halfnut suitable-wheels 0.5in --pattern straight\n"
    "\nA length is written with its unit: 1.25in, 1-1/4in, 32mm."
)
@click.argument("diameter")
@click.option("--pattern", help="Only wheels that print it.")
@click.option("--finished", is_flag=True, help="DIAMETER is the one wanted after knurling.")
@click.option(
    "--wheels",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    help="A file of wheels, in place of the shop's.",
)
@with_evidence
@with_json
def suitable_wheels(
    diameter: str, pattern: str | None, finished: bool, wheels: Path | None, as_json: bool, evidence: bool
) -> None:
    """Which of the shop's knurl wheels tracks on DIAMETER, and what diameter suits each."""
    from halfnut.knurls.wheels import suitable_wheels as ask

    show(ask(diameter, pattern=pattern, finished=finished, wheels=wheels), as_json, evidence=evidence)
