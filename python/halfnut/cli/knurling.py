"""halfnut knurl."""

from __future__ import annotations

from typing import Any, Literal, cast

import click

from halfnut.cli.output import show, with_evidence, with_json
from halfnut.knurls.blanks import knurl_blank

_SETUP = ("wheels", "wheel_width", "bore", "stick_out", "hole", "machine")


@click.command(
    epilog='\b\nExample:\n  halfnut knurl 0.75in "96 DP" --pattern "diamond raised"\n'
    '  halfnut knurl 20mm "RGE 0.8" --alloy brass --width 12mm --wheels 2\n'
    "  halfnut knurl 0.5in --pattern straight\n"
    "\nWithout PITCH: which of the shop's wheels tracks on DIAMETER, and what suits each."
)
@click.argument("diameter")
@click.argument("pitch", required=False)
@click.option(
    "--pattern", help="straight, left, right, diamond raised, diamond indented, cross raised, cross indented."
)
@click.option("--wheel", help='The wheel at hand, such as "0.750 in, 47 teeth".')
@click.option("--finished", is_flag=True, help="DIAMETER is wanted after knurling.")
@click.option("--process", type=click.Choice(["form", "cut"]), default="form", help="Pressed in, or cut.")
@click.option("--prefer", type=click.Choice(["nearest", "below", "above"]), default="nearest", help="Which blank.")
@click.option("--width", help="Of the knurled band.")
@click.option("--class", "tolerance_class", type=click.Choice(["I", "II", "III"]), help="Of a diametral pitch.")
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
    blank = knurl_blank(diameter, pitch, **given)
    if alloy is None:
        show(blank, as_json, evidence=evidence)
        return
    if given["width"] is None:
        raise click.UsageError("--alloy needs --width of the band")
    from halfnut.knurls.setups import knurl_setup

    wheels = cast("Literal[1, 2, 3]", int(setup.pop("wheels")))
    show(knurl_setup(blank, alloy, width=given["width"], wheels=wheels, **setup), as_json, evidence=evidence)
