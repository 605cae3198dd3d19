"""halfnut tapping-hole."""

from __future__ import annotations

from collections.abc import Mapping

import click

from halfnut.cli.output import show, with_evidence, with_json
from halfnut.threads import blind_holes, holes, seats

_EXAMPLES = """\b
Example:
  halfnut tapping-hole M6
  halfnut tapping-hole "1/4-20 UNC" --drills fractional --percent 65
  halfnut tapping-hole M6 --full-thread 12mm --lead bottoming
  halfnut tapping-hole M6 --clearance medium
  halfnut tapping-hole M6 --seat flat
  halfnut tapping-hole G1/2"""


@click.command(epilog=_EXAMPLES)
@click.argument("designation")
@click.option("--percent", type=float, help="Per cent of thread wanted; 75 when nothing is asked, 65 formed.")
@click.option("--engagement", help="Full-form length of engagement, such as 6mm.")
@click.option("--strength", type=float, help="Share of the screw thread's shear area to keep, such as 0.8.")
@click.option("--drills", help='Sets joined by "+": metric, fractional, number, letter, inch, or the shop\'s own.')
@click.option("--oversize", help='What the drill cuts over its size: "usual", or a length.')
@click.option("--form", "formed", is_flag=True, help="For a forming tap.")
@click.option("--full-thread", help="Depth of a blind hole for so much full thread.")
@click.option("--drilled", help="Full thread that a blind hole so deep takes.")
@click.option("--lead", help="Of the tap: taper, plug (when not said), bottoming, or A to E.")
@click.option("--thickness", help="Of the metal under a blind hole.")
@click.option("--clearance", help="The hole a screw passes through: fine, medium, coarse; close, normal, loose.")
@click.option("--seat", help='For a head: socket, flat, "flat socket", "flat 100".')
@with_evidence
@with_json
def tapping_hole(
    designation: str,
    percent: float | None,
    engagement: str | None,
    strength: float | None,
    drills: str | None,
    oversize: str | None,
    formed: bool,
    full_thread: str | None,
    drilled: str | None,
    lead: str | None,
    thickness: str | None,
    clearance: str | None,
    seat: str | None,
    as_json: bool,
    evidence: bool,
) -> None:
    """The drill for a tapped hole of thread DESIGNATION; its depth when blind, a clearance hole, or a head's seat."""
    tap: holes.Tap = "form" if formed else "cut"
    tapping = {"--percent": percent, "--engagement": engagement, "--strength": strength, "--oversize": oversize}
    blind = {"--full-thread": full_thread, "--drilled": drilled, "--lead": lead, "--thickness": thickness}
    if clearance is not None or seat is not None:
        _refuse(tapping | blind | {"--drills": drills, "--form": formed or None}, "a clearance hole or a seat")
        fit = clearance or "normal"
        if seat is None:
            show(seats.clearance_hole(designation, fit), as_json, evidence=evidence)
        else:
            ask = seats.countersink if seat.startswith("flat") else seats.counterbore
            show(ask(designation, head=seat, fit=fit), as_json, evidence=evidence)
        return
    found = holes.tapping_hole(
        designation,
        percent=percent,
        engagement=engagement,
        strength=strength,
        drills=drills,
        oversize=oversize,
        tap=tap,
    )
    if full_thread is None and drilled is None:
        _refuse({"--lead": lead, "--thickness": thickness}, "a hole without --full-thread or --drilled")
        show(found, as_json, evidence=evidence)
        return
    depths = blind_holes.blind_hole(
        designation,
        full_thread=full_thread,
        drilled=drilled,
        lead=lead or "plug",
        drill=found,
        thickness=thickness,
        tap=tap,
    )
    show(depths, as_json, evidence=evidence)


def _refuse(given: Mapping[str, object], what: str) -> None:
    """Refuse options that would be passed over in silence."""
    for name, value in given.items():
        if value is not None:
            raise click.UsageError(f"{name} says nothing about {what}")
