"""halfnut adjuster: how far a threaded tube or a turnbuckle may be wound out."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from halfnut.cli.output import STREAM, put, ready, show, with_evidence, with_file, with_json

__all__ = ["adjuster"]


@click.command(
    epilog="\b\nExample:\n"
    '  halfnut adjuster "7/8-14 UNF-2A" "7/8-14 UNF-2B" --second "7/8-14 UNF-2A-LH" "7/8-14 UNF-2B-LH"\n'
    "    --thread-length 2in --base-thread 1.25in --bore 0.624in --length-of-tube 20in --tube-diameter 1in\n"
    '    --alloy 6061-T6 --form "drawn tube" --base-outside 1.5in --base-reach 1.5in --lock-nut 0.375in\n'
    "    --nut-outside 1.25in --push 90lbf --pull 60lbf --factor-of-safety 4 --rule-diameters 1\n"
    "\n\nA length or a load is written with its unit: 0.75in, 19mm, 90lbf, 400N."
)
@click.argument("external")
@click.argument("internal")
@click.option("--second", nargs=2, help="The two threads of a turnbuckle's second end.")
@click.option("--thread-length", required=True, help="External thread from its end, run-out included.")
@click.option("--base-thread", required=True, help="Internal thread from its mouth, run-out included.")
@click.option("--length-of-tube", required=True, help="Overall length of the middle member.")
@click.option("--tube-diameter", required=True, help="Its plain outside diameter.")
@click.option("--bore", help="Its bore, of a tube also under the external threads; solid when not given.")
@click.option("--rod-bore", help="With --middle body: of the rods, solid when not given.")
@click.option("--alloy", required=True, help="Of the middle member.")
@click.option("--form", required=True, help='Its form: "drawn tube", "extrusion", "bar".')
@click.option("--base-outside", required=True, help="Outside of the base.")
@click.option("--base-reach", required=True, help="From the base's joint to its mouth.")
@click.option("--base-alloy", help="Of the bases, where it is another.")
@click.option("--lock-nut", help="Thickness of the lock nut.")
@click.option("--nut-outside", help="Its width across flats.")
@click.option("--nut-alloy", help="Its alloy, where it is another.")
@click.option("--chamfer", default="0 mm", help="At the end of the external thread, along the axis.")
@click.option("--run-out", default="0 mm", help="Of the external thread.")
@click.option("--countersink", default="0 mm", help="At the mouth, along the axis.")
@click.option("--base-run-out", default="0 mm", help="At the far end of the internal thread.")
@click.option("--push", required=True, help="Largest push, such as 90lbf; 0N where there is none.")
@click.option("--pull", required=True, help="Largest pull.")
@click.option("--factor-of-safety", type=float, required=True, help="There is no usual one.")
@click.option("--rule-diameters", type=float, help="Least engagement by rule, in diameters; otherwise by practice.")
@click.option("--coating", help='Of all parts, such as "0.0002 in" or "anodise II black 15 um".')
@click.option("--lubricant", help="To take the friction from; dry when not given.")
@click.option("--middle", type=click.Choice(["tube", "body"]), default="tube", help="What is turned.")
@with_file("--page", "Write the bench page to this file")
@with_json
@with_evidence
def adjuster(
    page: Path | None,
    replace: bool,
    as_json: bool,
    evidence: bool,
    second: tuple[str, str] | None,
    **given: Any,
) -> None:
    """How far a threaded tube or a turnbuckle may be wound out, its play, and what it bears."""
    from halfnut.threads.adjusters import adjuster as answer

    ready(page, replace=replace, as_json=as_json)
    other = {"external": second[0], "internal": second[1]} if second else None
    found = answer(given.pop("external"), given.pop("internal"), second=other, **given)
    if page is not None:
        put(page, found.page(), replace=replace)
    if page != STREAM:
        show(found, as_json, evidence=evidence)
