"""halfnut chase: a thread with a single point, pass by pass."""

from __future__ import annotations

from typing import Any

import click

from halfnut.cli.output import show, with_evidence, with_json

__all__ = ["chase"]


@click.command(
    epilog="\b\nExample:\n"
    '  halfnut chase "7/8-14 UNF-2A" --machine gap-bed --alloy 6061-T6\n'
    "  halfnut chase M24x1.5-6g --machine metric-lathe --infeed straight --run-out 4mm\n"
    "\nA length is written with its unit: 0.75in, 3/4in, 19mm."
)
@click.argument("thread")
@click.option("--machine", help="The lathe: a file, or a name of the shop or of the demonstration.")
@click.option("--alloy", help="For the spindle step and the force.")
@click.option(
    "--infeed",
    type=click.Choice(["flank", "straight", "alternating"]),
    default="flank",
    show_default=True,
    help="By the compound set over, by the cross slide, or by both in turn.",
)
@click.option("--compound-deg", type=float, help="From square to the work; else half a degree less than the flank.")
@click.option("--blank", help="Turned or bored diameter.")
@click.option("--pitch-diameter", help="To aim at; the middle of its limits when not given.")
@click.option("--nose-radius", help="Of the tool, round.")
@click.option("--nose-flat", help="Of the tool, flat.")
@click.option("--first", help="Greatest first pass, along the slide.")
@click.option("--least", help="Least pass, along the slide.")
@click.option("--equal-depths", is_flag=True, help="Passes of one depth, not of one chip area.")
@click.option("--force-limit", help="That no pass goes above, such as 300N; needs an alloy.")
@click.option("--run-out", help="Free way to the shoulder; 0mm for none.")
@click.option("--reaction-s", type=float, help="Time to open the half nut; the machine file's, else 1.")
@click.option("--wire", help="The wires at hand.")
@click.option("--tool", help="Its material, such as HSS or carbide.")
@with_evidence
@with_json
def chase(thread: str, as_json: bool, evidence: bool, **options: Any) -> None:
    """How to chase THREAD on a lathe: blank, settings, passes on the dial, readings."""
    from halfnut.cutting.chasing import chase as answer

    show(answer(thread, **options), as_json, evidence=evidence)
