"""halfnut turn, face, bore, part-off: one cut, answered on one screen."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

import click

from halfnut import cutting
from halfnut.cli.output import show, with_evidence, with_json

_Command = TypeVar("_Command", bound=Callable[..., Any])

_ABOUT = {
    "machine": "Machine to choose levers from, by name or file; without one speed and feed are exact.",
    "tool": "HSS, cobalt HSS, cast cobalt, carbide or coated carbide; HSS when not given.",
    "chuck": "What holds the work, by the name the machine file gives it; the first one when not given.",
    "depth": "Depth of cut on the radius, such as 0.04in; a usual one when not given.",
    "length": "Length of the cut along the work, such as 2in; without it there is no time.",
    "feed": "Feed wanted, such as 0.1mm/rev; the next finer one of the machine is taken.",
    "spindle_rpm": "Spindle speed wanted, rev/min; the nearest one of the machine is taken.",
    "hardness_hb": "The work's own Brinell hardness.",
    "nose_radius": "Nose radius of the tool.",
    "stick_out": "How far the work stands out of the jaws, or the distance between centres.",
    "hold": "How the work is held.",
    "bore": "Bore of a tube.",
    "roughness_um": "Ra that the feed may leave, in micrometres.",
    "end_diameter": "Where the cut ends; the centre, or the bore, when not given.",
    "bar_diameter": "Diameter of the boring bar.",
    "overhang": "How far the bar stands out of its holder.",
    "blade": "Width of the blade; 3 mm when not given.",
    "finish": "A finishing cut, whatever its depth.",
}
_NUMBERS = {"spindle_rpm", "hardness_hb", "roughness_um"}
_COMMON = ("machine", "tool", "chuck", "feed", "spindle_rpm", "hardness_hb")
_EPILOG = "\b\nExample:\n  halfnut {example}\n\nA length is written with its unit: 1.25in, 1-1/4in, 32mm."


def _with(*names: str) -> Callable[[_Command], _Command]:
    def decorate(command: _Command) -> _Command:
        command = with_evidence(with_json(command))
        for name in reversed(names):
            flag = "--" + name.replace("_", "-").removesuffix("-um").removesuffix("-hb")
            if name == "finish":
                command = click.option(flag, name, is_flag=True, help=_ABOUT[name])(command)
            elif name == "hold":
                choice = click.Choice(["chuck", "chuck and centre", "between centres"])
                command = click.option(flag, name, type=choice, default="chuck", help=_ABOUT[name])(command)
            else:
                kind = click.FLOAT if name in _NUMBERS else click.STRING
                command = click.option(flag, name, type=kind, help=_ABOUT[name])(command)
        command = click.argument("diameter")(command)
        return click.argument("alloy")(command)

    return decorate


def _answer(function: Callable[..., cutting.Cut], given: dict[str, Any]) -> None:
    as_json, evidence = given.pop("as_json"), given.pop("evidence")
    show(function(given.pop("alloy"), given.pop("diameter"), **given), as_json, evidence=evidence)


@click.command(epilog=_EPILOG.format(example="turn 6061-T6 1.25in --machine gap-bed --length 2in"))
@_with("depth", "length", *_COMMON, "nose_radius", "hold", "stick_out", "bore", "roughness_um", "finish")
def turn(**given: Any) -> None:
    """Spindle step, feed and what comes of them for turning ALLOY at DIAMETER, the one before the cut."""
    _answer(cutting.turn, given)


@click.command(epilog=_EPILOG.format(example="face 6061-T6 1.25in --machine gap-bed"))
@_with("depth", "end_diameter", *_COMMON, "nose_radius", "bore", "roughness_um", "finish")
def face(**given: Any) -> None:
    """Spindle step, feed and what comes of them for facing ALLOY of a DIAMETER."""
    _answer(cutting.face, given)


@click.command(epilog=_EPILOG.format(example="bore 6061-T6 25mm --bar-diameter 16mm --overhang 60mm"))
@_with("depth", "length", *_COMMON, "nose_radius", "bar_diameter", "overhang", "roughness_um", "finish")
def bore(**given: Any) -> None:
    """Spindle step, feed and what comes of them for boring ALLOY to DIAMETER, the one after the cut."""
    _answer(cutting.bore, given)


@click.command("part-off", epilog=_EPILOG.format(example="part-off brass 20mm --machine metric-lathe --blade 2mm"))
@_with("blade", "end_diameter", *_COMMON, "bore")
def part_off(**given: Any) -> None:
    """Spindle step, feed and what comes of them for parting ALLOY off at DIAMETER."""
    _answer(cutting.part_off, given)
