"""halfnut gear-train: trains of change gears for a lead or a feed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from halfnut._core import bounds
from halfnut.cli.output import COUNT, STREAM, echo, json_text, put, ready, show, with_evidence, with_file, with_json

__all__ = ["gear_train"]


@click.command(
    epilog="\b\nExample:\n"
    "  halfnut gear-train M24x1.5-6g --machine gap-bed\n"
    '  halfnut gear-train "1.5 mm" --gears 20,24,30,40,60,63,80,127 --leadscrew "8 TPI"\n'
    '  halfnut gear-train "0.08 mm/rev" --machine gap-bed\n'
    "  halfnut gear-train --pairs --machine gap-bed"
)
@click.argument("lead", required=False)
@click.option("--machine", help="The lathe: a file, or a name of the shop or of the demonstration.")
@click.option("--gears", "teeth", help="Teeth of the gears at hand, such as 20,24,30,127; in place of a machine.")
@click.option("--leadscrew", help='With --gears: "8 TPI" or "3 mm".')
@click.option("--spindle-to-stud", type=float, help="With --gears: turns of the stud for one of the spindle.")
@click.option("--engagement", help="Length of thread over which the error is judged.")
@click.option("--error-percent", type=float, default=0.1, show_default=True, help="Trains beyond it are left out.")
@click.option("--most", type=COUNT, default=10, show_default=True, help="How many to print.")
@click.option("--simple", is_flag=True, help="Simple trains only.")
@click.option("--no-gearbox", is_flag=True, help="Leave the gearbox out.")
@click.option("--pairs", is_flag=True, help="In place of trains: the pairs that turn inches to millimetres.")
@with_file("--draw", "Write the best train's drawing to this SVG file")
@with_evidence
@with_json
def gear_train(
    lead: str | None,
    machine: str | None,
    teeth: str | None,
    leadscrew: str | None,
    spindle_to_stud: float | None,
    engagement: str | None,
    error_percent: float,
    most: int,
    simple: bool,
    no_gearbox: bool,
    pairs: bool,
    draw: Path | None,
    replace: bool,
    evidence: bool,
    as_json: bool,
) -> None:
    """Change gears for LEAD: a thread, a lead such as "1.5 mm" or "11.5 TPI", or a feed such as "0.1 mm/rev"."""
    from halfnut.cutting.questions import gear_train

    if (machine is None) == (teeth is None):
        raise click.UsageError("say --machine or --gears, one of the two")
    if pairs and draw is not None:
        raise click.UsageError("--draw goes with trains, not with --pairs")
    ready(draw, replace=replace, as_json=as_json)
    at_hand: Any = machine if teeth is None else _teeth(teeth)
    if pairs:
        _pairs(at_hand, as_json)
        return
    if lead is None:
        raise click.UsageError("say which LEAD, or --pairs")
    found = gear_train(
        lead,
        machine=machine,
        gears=() if teeth is None else at_hand,
        leadscrew=leadscrew,
        spindle_to_stud=spindle_to_stud,
        engagement=engagement,
        error_percent=error_percent,
        most=most,
        simple=simple,
        no_gearbox=no_gearbox,
    )
    if draw is not None and found:
        from halfnut.drawing.gears import train_svg

        put(draw, train_svg(found[0]), replace=replace)
        if draw == STREAM:
            return
    show(found, as_json, evidence=evidence)


def _teeth(text: str) -> list[int]:
    parts = text.replace(",", " ").split()
    if not all(part.isascii() and part.isdigit() for part in parts):
        raise click.UsageError(f"--gears are whole numbers with commas between, got {text[:60]!r}")
    most = bounds()["items"]
    if len(parts) > most or any(len(part) > 6 for part in parts):
        raise click.UsageError(f"--gears are at most {most} gears of at most 999999 teeth")
    return [int(part) for part in parts]


def _pairs(at_hand: Any, as_json: bool) -> None:
    from halfnut.cutting.questions import translating_pairs

    of: Any = {"gears": at_hand} if isinstance(at_hand, list) else {"machine": at_hand}
    found = [translating_pairs(**of), translating_pairs(**of, cut="millimetres")]
    if as_json:
        echo(json_text([pair for each in found for pair in each.to_dict()["pairs"]]))
        return
    for each in found:
        echo(each.answer.partition(":")[0])
        for _, pair in each.report():
            echo(f"  {pair}")
