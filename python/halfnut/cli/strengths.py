"""halfnut strength, halfnut tighten."""

from __future__ import annotations

from typing import Any

import click

from halfnut.cli.output import show, with_evidence, with_json
from halfnut.threads.joints import strength as joint_strength
from halfnut.threads.tightening import tighten as tighten_thread

_STRENGTH_EXAMPLE = """\b
Example:
  halfnut strength M10-6g M10-6H --engagement 15mm --grade 8.8 \\
      --inside-alloy 6061-T6 --inside-form bar --factor 4 --load 5kN"""


@click.command(epilog=_STRENGTH_EXAMPLE)
@click.argument("outside")
@click.argument("inside")
@click.option("--engagement", required=True, help="Length over which one part is inside the other.")
@click.option("--grade", "external_grade", help="Grade of a bolt outside: 8.8, SAE 5, A4-80.")
@click.option("--outside-alloy", "external_alloy", help="Alloy of the outside thread's part.")
@click.option("--outside-form", "external_form", help="Its form: bar, drawn tube, extrusion, plate, sheet, casting.")
@click.option("--outside-thickness", "external_thickness", help="Its diameter, thickness or wall.")
@click.option("--outside-tensile", "external_tensile", help="Its tensile strength, such as 45ksi.")
@click.option("--outside-yield", "external_yield", help="Its yield strength.")
@click.option("--outside-shear", "external_shear", help="Its shear strength.")
@click.option("--inside-alloy", "internal_alloy", help="Alloy of the inside thread's part.")
@click.option("--inside-form", "internal_form", help="Its form.")
@click.option("--inside-thickness", "internal_thickness", help="Its diameter, thickness or wall.")
@click.option("--inside-tensile", "internal_tensile", help="Its tensile strength.")
@click.option("--inside-yield", "internal_yield", help="Its yield strength.")
@click.option("--inside-shear", "internal_shear", help="Its shear strength.")
@click.option("--chamfer", "external_chamfer", help="Of the outside thread, within the engagement.")
@click.option("--run-out", "external_run_out", help="Of the outside thread, within the engagement.")
@click.option("--countersink", "internal_countersink", help="Depth of the inside thread's countersinks together.")
@click.option("--tap-lead", "internal_run_out", help="Of the inside thread, within the engagement.")
@click.option("--bore", "external_bore", help="Of a threaded tube.")
@click.option("--across", "internal_outside", help="Outside diameter of the inside part, or its width across flats.")
@click.option("--load", help="Axial load, such as 5kN or 1200lbf.")
@click.option("--factor", "factor_of_safety", type=float, help="Factor of safety; without one nothing is allowed.")
@click.option("--shock", is_flag=True, help="For the length of engagement by practice.")
@click.option("--rotating", is_flag=True, help="The joint turns, or its load comes and goes.")
@with_evidence
@with_json
def strength(outside: str, inside: str, as_json: bool, evidence: bool, shock: bool, **given: Any) -> None:
    """What the thread OUTSIDE holds in the thread INSIDE, and what fails first."""
    found = joint_strength(outside, inside, loading="shock" if shock else "steady", **given)
    show(found, as_json, evidence=evidence)


@click.command(epilog="\b\nExample:\n  halfnut tighten M10 --grade 8.8 --share 0.75 --friction 0.10 0.16\n")
@click.argument("designation")
@click.option("--preload", help="Wanted, such as 12kN.")
@click.option("--torque", help="At hand, such as 40 N m.")
@click.option("--share", type=float, help="Preload as a share of proof or yield strength, such as 0.75.")
@click.option("--grade", "external_grade", help="Grade of the bolt.")
@click.option("--outside-alloy", "external_alloy", help="Alloy of the outside thread's part.")
@click.option("--outside-form", "external_form", help="Its form.")
@click.option("--outside-yield", "external_yield", help="Its yield strength.")
@click.option("--inside-alloy", "internal_alloy", help="Alloy of the inside thread's part.")
@click.option("--lubricant", help="dry, oil, anti-seize paste, ...")
@click.option("--friction", nargs=2, type=float, help="Least and greatest friction in the thread.")
@click.option("--seat-friction", "bearing_friction", nargs=2, type=float, help="The same under nut or head.")
@click.option("--seat", "bearing_diameter", help="Mean diameter of the seat of nut or head.")
@click.option("--bore", help="Of a threaded tube.")
@click.option("--prevailing", help="Torque of a locking element.")
@click.option("--condition", default="unknown", help="Of the nut factor of practice: lubricated, zinc plated, ...")
@with_evidence
@with_json
def tighten(designation: str, as_json: bool, evidence: bool, **given: Any) -> None:
    """Torque for a preload in the thread DESIGNATION, or the preload that a torque brings."""
    show(tighten_thread(designation, **given), as_json, evidence=evidence)
