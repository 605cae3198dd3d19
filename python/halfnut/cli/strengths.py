"""halfnut strength, halfnut tighten."""

from __future__ import annotations

from typing import Any

import click

from halfnut.cli.output import show, with_evidence, with_json
from halfnut.threads.joints import strength as joint_strength
from halfnut.threads.tightening import tighten as tighten_thread

_STRENGTH_EXAMPLE = """\b
Example:
  halfnut strength M10-6g M10-6H --engagement 15mm --external-grade 8.8 \\
      --internal-alloy 6061-T6 --internal-form bar --factor-of-safety 4 --load 5kN"""


@click.command(epilog=_STRENGTH_EXAMPLE)
@click.argument("external")
@click.argument("internal")
@click.option("--engagement", required=True, help="Length over which one part is inside the other.")
@click.option("--external-grade", help="Grade of a bolt: 8.8, SAE 5, A4-80.")
@click.option("--external-alloy", help="Alloy of the external thread's part.")
@click.option("--external-form", help="Its form: bar, drawn tube, extrusion, plate, sheet, casting.")
@click.option("--external-thickness", help="Its diameter, thickness or wall.")
@click.option("--external-tensile", help="Its tensile strength, such as 45ksi.")
@click.option("--external-yield", help="Its yield strength.")
@click.option("--external-shear", help="Its shear strength.")
@click.option("--internal-alloy", help="Alloy of the internal thread's part.")
@click.option("--internal-form", help="Its form.")
@click.option("--internal-thickness", help="Its diameter, thickness or wall.")
@click.option("--internal-tensile", help="Its tensile strength.")
@click.option("--internal-yield", help="Its yield strength.")
@click.option("--internal-shear", help="Its shear strength.")
@click.option("--external-chamfer", help="Of the external thread, within the engagement.")
@click.option("--external-run-out", help="Of the external thread, within the engagement.")
@click.option("--internal-countersink", help="Depth of the internal thread's countersinks together.")
@click.option("--internal-run-out", help="Of the internal thread, within the engagement.")
@click.option("--external-bore", help="Of a threaded tube.")
@click.option("--internal-outside", help="Outside diameter of the internal part, or its width across flats.")
@click.option("--load", help="Axial load, such as 5kN or 1200lbf.")
@click.option("--factor-of-safety", type=float, help="Factor of safety; without one nothing is allowed.")
@click.option("--shock", is_flag=True, help="For the length of engagement by practice.")
@click.option("--rotating", is_flag=True, help="The joint turns, or its load comes and goes.")
@with_evidence
@with_json
def strength(external: str, internal: str, as_json: bool, evidence: bool, shock: bool, **given: Any) -> None:
    """What the thread EXTERNAL holds in the thread INTERNAL, and what fails first."""
    found = joint_strength(external, internal, loading="shock" if shock else "steady", **given)
    show(found, as_json, evidence=evidence)


@click.command(epilog="\b\nExample:\n  halfnut tighten M10 --external-grade 8.8 --share 0.75 --friction 0.10 0.16\n")
@click.argument("designation")
@click.option("--preload", help="Wanted, such as 12kN.")
@click.option("--torque", help="At hand, such as 40 N m.")
@click.option("--share", type=float, help="Preload as a share of proof or yield strength, such as 0.75.")
@click.option("--external-grade", help="Grade of the bolt.")
@click.option("--external-alloy", help="Alloy of the external thread's part.")
@click.option("--external-form", help="Its form.")
@click.option("--external-yield", help="Its yield strength.")
@click.option("--internal-alloy", help="Alloy of the internal thread's part.")
@click.option("--lubricant", help="dry, oil, anti-seize paste, ...")
@click.option("--friction", nargs=2, type=float, help="Least and greatest friction in the thread.")
@click.option("--bearing-friction", nargs=2, type=float, help="The same under nut or head.")
@click.option("--bearing-diameter", help="Mean diameter of the seat of nut or head.")
@click.option("--bore", help="Of a threaded tube.")
@click.option("--prevailing", help="Torque of a locking element.")
@click.option("--condition", default="unknown", help="Of the nut factor of practice: lubricated, zinc plated, ...")
@with_evidence
@with_json
def tighten(designation: str, as_json: bool, evidence: bool, **given: Any) -> None:
    """Torque for a preload in the thread DESIGNATION, or the preload that a torque brings."""
    show(tighten_thread(designation, **given), as_json, evidence=evidence)
