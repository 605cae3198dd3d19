"""halfnut turn, face, bore, part-off, drill, spot, ream, tap, mill and the cuts made of them, on one screen each."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

import click

from halfnut.cli.asking import command
from halfnut.cli.output import show, with_evidence, with_json
from halfnut.core.record import Record
from halfnut.cutting import milling, tapers_and_grooves

_Command = TypeVar("_Command", bound=Callable[..., Any])

_ABOUT = {
    "machine": "Machine to choose levers from, by name or file; without one speed and feed are exact.",
    "tool": "HSS, cobalt HSS, cast cobalt, carbide, coated carbide or a tool of the shop's tables; HSS when not given.",
    "chuck": "What holds the work, by the name the machine file gives it; the first one when not given.",
    "depth": "Depth of cut on the radius, such as 0.04in; a usual one when not given.",
    "length": "Length of the cut along the work, such as 2in; without it there is no time.",
    "feed": "Feed wanted, such as 0.1mm/rev; the next finer one of the machine is taken.",
    "spindle_rpm": "Spindle speed wanted, rev/min; the nearest one of the machine is taken.",
    "hardness_hb": "The work's own Brinell hardness.",
    "nose_radius": "Nose radius of the tool.",
    "stick_out": "Overhang of the work from the jaws, or the distance between centres; at least the length of the cut.",
    "stock": 'Bar or blank that is held: its diameter, or "30 mm hex"; the diameter cut when not given.',
    "bar_length": "Length of a whole bar that goes through the spindle.",
    "bar_behind": "Length of a bar that is free behind the spindle.",
    "hold": "How the work is held.",
    "bore": "Bore of a tube.",
    "roughness_um": "Ra that the feed may leave, in micrometres.",
    "end_diameter": "Where the cut ends; the centre, or the bore, when not given.",
    "bar_diameter": "Diameter of the boring bar.",
    "overhang": "How far the bar stands out of its holder.",
    "blade": "Width of the blade; 3 mm when not given.",
    "finish": "A finishing cut, whatever its depth.",
    "hole_depth": "Depth of the full diameter, or of the thread; without it there is no time.",
    "pilot": "Hole that is there already.",
    "point_deg": "Angle of the drill's point, degrees; 118 when not given.",
    "cut_depth": "Depth to be cut away, in all passes.",
    "width": "Width to be cut away, in all passes; a slot is as wide as its cutter.",
    "shape": "What is milled.",
    "flutes": "Teeth of the cutter.",
    "step_over": "Most across in one pass.",
    "step_down": "Most down in one pass.",
    "feed_per_tooth": "Feed a tooth wanted; the next slower table feed is taken.",
    "steadies": "Place of a fixed steady, from the chuck or the first centre; as often as there are steadies.",
    "between_centres": "Length of the whole work, for setting over the tailstock.",
    "groove_width": "Width of the groove; the blade's when not given.",
    "hole": "Hole as drilled or bored; without it no force is computed.",
    "form": "A tap that forms the thread without a chip.",
    "included_deg": "Included angle of the cone, degrees; 90 when not given.",
    "seat_depth": "Depth of the counterbore; without it there is no time.",
    "angle_deg": "Angle of the slope, degrees; 3 when not given.",
    "teeth": "Teeth of the saw.",
}
_PARAMETERS = {"hole_depth": "depth", "cut_depth": "depth", "groove_width": "width", "seat_depth": "depth"}
_NUMBERS = {"spindle_rpm", "hardness_hb", "roughness_um", "point_deg", "included_deg", "angle_deg"}
_COMMON = ("machine", "tool", "chuck", "feed", "spindle_rpm", "hardness_hb")
_HELD = ("stock", "bar_length", "bar_behind")
_MILLING = ("feed_per_tooth", "machine", "tool", "spindle_rpm", "hardness_hb")
_TAPER = ("small", "length")
_EPILOG = "\b\nExample:\n  halfnut {example}\n\nA length is written with its unit: 1.25in, 1-1/4in, 32mm."


def _with(*names: str, size: str = "diameter", sizes: tuple[str, ...] = ()) -> Callable[[_Command], _Command]:
    """Give a command its alloy, the size it is asked about, further sizes, and options by their names."""

    def decorate(command: _Command) -> _Command:
        command = with_evidence(with_json(command))
        for name in reversed(names):
            command = _option(name)(command)
        for name in reversed(sizes):
            command = click.argument(name)(command)
        command = click.argument("size", metavar=size.upper())(command)
        return click.argument("alloy")(command)

    return decorate


def _option(name: str) -> Callable[[_Command], _Command]:
    parameter = _PARAMETERS.get(name, name)
    flag = "--" + parameter.replace("_", "-").removesuffix("-um").removesuffix("-hb").removesuffix("-deg")
    about = _ABOUT[name]
    if name in {"finish", "form"}:
        return click.option(flag, parameter, is_flag=True, help=about)
    if name == "steadies":
        return click.option("--steady", parameter, multiple=True, help=about)
    if name == "teeth":
        return click.option(flag, parameter, type=click.INT, required=True, help=about)
    if name == "angle_deg":
        return click.option(flag, parameter, type=click.FLOAT, default=3.0, help=about)
    if name == "hold":
        choice = click.Choice(["chuck", "chuck and centre", "between centres"])
        return click.option(flag, parameter, type=choice, default="chuck", help=about)
    if name == "shape":
        shapes = click.Choice(["slot", "side", "pocket", "face"])
        return click.option(flag, parameter, type=shapes, default="side", show_default=True, help=about)
    if name == "flutes":
        return click.option(flag, parameter, type=click.INT, help=about)
    kind = click.FLOAT if name in _NUMBERS else click.STRING
    return click.option(flag, parameter, type=kind, required=name == "cut_depth", help=about)


turn, face, bore, part_off = map(command, ("turn", "face", "bore", "part_off"))
drill, spot, ream, tap = map(command, ("drill", "spot", "ream", "tap"))
countersink, counterbore = map(command, ("countersink", "counterbore"))


def _answer(function: Callable[..., Record], given: dict[str, Any], *sizes: str) -> None:
    as_json, evidence = given.pop("as_json"), given.pop("evidence")
    asked = [given.pop(name) for name in ("alloy", "size", *sizes)]
    show(function(*asked, **given), as_json, evidence=evidence)


@click.command(
    epilog=_EPILOG.format(example="mill 7075 10mm --shape pocket --width 30mm --depth 8mm --machine bench-mill")
)
@_with(
    "cut_depth",
    "shape",
    "width",
    "length",
    "flutes",
    "step_over",
    "step_down",
    "feed_per_tooth",
    *("machine", "tool", "spindle_rpm", "hardness_hb"),
    *("stick_out", "nose_radius", "roughness_um"),
    size="cutter",
)
def mill(**given: Any) -> None:
    """Spindle step, table feed and passes for milling ALLOY with a CUTTER of that diameter."""
    _answer(milling.mill, given)


@click.command(epilog=_EPILOG.format(example="taper 1018 1in 0.84375in 3in --machine gap-bed --between-centres 8in"))
@_with(
    "between_centres", "depth", *_COMMON, *_HELD, "nose_radius", "hold", "stick_out", "bore", size="large", sizes=_TAPER
)
def taper(**given: Any) -> None:
    """Setting of compound or tailstock, and the cut, for a taper in ALLOY from LARGE to SMALL over LENGTH."""
    _answer(tapers_and_grooves.taper, given, *_TAPER)


@click.command(epilog=_EPILOG.format(example="groove 6061-T6 1.25in 1in --width 0.3in --blade 0.125in"))
@_with("groove_width", "blade", *_COMMON, *_HELD, sizes=("end_diameter",))
def groove(**given: Any) -> None:
    """Plunges, spindle step and feed for a groove in ALLOY from DIAMETER down to END_DIAMETER."""
    _answer(tapers_and_grooves.groove, given, "end_diameter")


@click.command(epilog=_EPILOG.format(example="ramp 7075 10mm 3mm --machine bench-mill"))
@_with("angle_deg", "flutes", *_MILLING, size="cutter", sizes=("depth",))
def ramp(**given: Any) -> None:
    """Length, feed and time of a slope that takes an end mill, CUTTER wide, into ALLOY to DEPTH."""
    _answer(milling.ramp, given, "depth")


@click.command(epilog=_EPILOG.format(example="helix 7075 10mm 16mm 8mm"))
@_with("angle_deg", "flutes", *_MILLING, size="cutter", sizes=("hole", "depth"))
def helix(**given: Any) -> None:
    """Turns, feed and time of a helix that takes an end mill, CUTTER wide, into ALLOY to DEPTH, leaving a HOLE."""
    _answer(milling.helix, given, "hole", "depth")


@click.command(epilog=_EPILOG.format(example="saw 6061-T6 80mm 1mm 6mm --teeth 48 --length 50mm --machine bench-mill"))
@_with("teeth", "length", *_MILLING, size="blade", sizes=("thickness", "depth"))
def saw(**given: Any) -> None:
    """Spindle step and table feed for slitting ALLOY with a saw, BLADE across and THICKNESS wide, to DEPTH."""
    _answer(milling.saw, given, "thickness", "depth")
