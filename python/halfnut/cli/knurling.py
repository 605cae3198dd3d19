"""halfnut knurl."""

from __future__ import annotations

from typing import Any

import click

from halfnut.cli.asking import options
from halfnut.cli.output import show, with_evidence, with_json
from halfnut.knurls.questions import knurl_blank

_SETUP = ("wheels", "wheel_width", "bore", "stick_out", "hole", "machine")


@click.command(
    epilog='\b\nExample:\n  halfnut knurl 0.75in "96 DP" --pattern "diamond raised"\n'
    '  halfnut knurl 20mm "RGE 0.8" --alloy brass --width 12mm --wheels 2\n'
    "  halfnut knurl 0.5in --pattern straight\n"
    "\nWithout PITCH: which of the shop's wheels tracks on DIAMETER, and what suits each."
)
@click.argument("diameter")
@click.argument("pitch", required=False)
@options("knurl_blank", tolerance_class="--class")
@click.option("--alloy", help="With --width: also how to knurl it, what force it takes, what to turn first.")
@click.option("--wheels", type=click.Choice(["1", "2", "3"]), default="1", help="With --alloy: wheels of the holder.")
@click.option("--wheel-width", help="With --alloy: face of a wheel.")
@click.option("--bore", help="With --alloy: of a tube.")
@click.option("--stick-out", help="With --alloy: from the chuck to the middle of the band.")
@click.option("--hole", help="With --alloy: that the knurl is pressed into.")
@click.option("--machine", help="With --alloy: the lathe.")
@with_evidence
@with_json
def knurl(diameter: str, pitch: str | None, alloy: str | None, as_json: bool, evidence: bool, **given: Any) -> None:
    """The blank near DIAMETER that a knurl of PITCH tracks on, and the size it comes out at."""
    setup = {name: given.pop(name) for name in _SETUP}
    if pitch is None:
        from halfnut.knurls.wheels import suitable_wheels

        show(
            suitable_wheels(diameter, pattern=given["pattern"], finished=given["finished"]), as_json, evidence=evidence
        )
        return
    if alloy is None:
        show(knurl_blank(diameter, pitch, **given), as_json, evidence=evidence)
        return
    if given["width"] is None:
        raise click.UsageError("--alloy needs --width of the band")
    from halfnut.knurls.questions import knurl_setup

    wheels = int(setup.pop("wheels"))
    show(knurl_setup(diameter, pitch, alloy, wheels=wheels, **setup, **given), as_json, evidence=evidence)
