"""halfnut fit, wires, judge, limits: will it screw together, what to read, what a measured part is."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

import click

from halfnut.cli.output import show, with_evidence, with_json
from halfnut.core.written import temperature_c
from halfnut.threads.form_threads import precoat

__all__ = ["fit", "judge", "limits", "wires"]

_Command = TypeVar("_Command", bound=Callable[..., Any])

_ABOUT = {
    "coating": 'Coating of both parts: "8 um", "0.0002 in to 0.0003 in", "anodise II black 15 um".',
    "coating_external": "Coating of the external part alone.",
    "coating_internal": "Coating of the internal part alone.",
    "engagement": "Full-form length of engagement, without chamfers and run-outs, such as 0.75in.",
    "external_pitch": "Measured pitch diameter of the external part, in place of its limits.",
    "external_major": "Measured major diameter of the external part.",
    "internal_pitch": "Measured pitch diameter of the internal part, in place of its limits.",
    "internal_minor": "Measured minor diameter of the internal part.",
    "external_lead_error": "Error of lead of the external part, between any two flanks engaged.",
    "internal_lead_error": "Error of lead of the internal part.",
    "external_alloy": "Alloy of the external part; needed away from 20 C.",
    "internal_alloy": "Alloy of the internal part; needed away from 20 C.",
    "temperature": "Of both parts, such as 40C or 104F.",
    "suit": "Cut the part that is not measured to suit the one that is, with this clearance: 0.02-0.06mm.",
    "over_wires": "Measured size over three wires, or across two balls of an internal thread; with --wire.",
    "wire": "Diameter of the wire or ball at hand.",
}
_LENGTH = "A length is written with its unit: 0.75in, 3/4in, 19mm."


def _option(name: str) -> Callable[[_Command], _Command]:
    return click.option(f"--{name.replace('_', '-')}", help=_ABOUT[name])


def _options(*names: str) -> Callable[[_Command], _Command]:
    def decorate(command: _Command) -> _Command:
        for name in reversed(names):
            command = _option(name)(command)
        return command

    return decorate


def _example(*lines: str) -> str:
    return "\b\nExample:\n" + "".join(f"  halfnut {line}\n" for line in lines) + f"\n{_LENGTH}"


@click.command(
    epilog=_example(
        'fit "7/8-14 UNF-2A" "7/8-14 UNF-2B" --coating "anodise II black 15 um"',
        "fit M10-6g M10-6H --internal-pitch 9.1mm --engagement 12mm",
        'fit M10 M10 --internal-pitch 9.1mm --suit 0.02-0.06mm --coating-external "3-5 um"',
    )
)
@click.argument("external")
@click.argument("internal")
@_options(
    "coating",
    "coating_external",
    "coating_internal",
    "engagement",
    "external_pitch",
    "external_major",
    "internal_pitch",
    "internal_minor",
    "external_lead_error",
    "internal_lead_error",
    "external_alloy",
    "internal_alloy",
    "temperature",
)
@click.option(
    "--tolerance-over-sigma",
    type=float,
    default=6.0,
    show_default=True,
    help="Tolerance over the standard deviation of the shop's cutting.",
)
@click.option(
    "--mean-shift",
    type=float,
    default=0.0,
    show_default=True,
    help="Where the shop's mean lies: 0 the middle of the zone, 1 the maximum-material limit, -1 the other.",
)
@_options("suit", "over_wires", "wire")
@with_evidence
@with_json
def fit(external: str, internal: str, as_json: bool, evidence: bool, **given: Any) -> None:
    """Whether the threads EXTERNAL and INTERNAL screw together, bare or coated, and with how much play.

    Without a class the usual one is meant. Measured sizes and limits may be mixed; with --suit the answer is the size
    to cut, and with --over-wires what is left on the dial.
    """
    from halfnut import _core
    from halfnut.threads import fitting, form_threads, suiting

    both = given.pop("coating")
    coats = {side: given.pop(f"coating_{side}") or both for side in ("external", "internal")}
    wanted, reading, wire = given.pop("suit"), given.pop("over_wires"), given.pop("wire")
    if wanted is None:
        if reading is not None or wire is not None:
            raise click.UsageError("--over-wires and --wire go with --suit; for a measured part ask halfnut judge")
        warm = given.pop("temperature")
        if warm is not None:
            given["temperature_c"] = temperature_c(warm, "temperature")
        answer = fitting.fit(
            external, internal, build_up_external=coats["external"], build_up_internal=coats["internal"], **given
        )
        show(answer, as_json, evidence=evidence)
        return
    _only_suited(given)
    cut = "external" if given["external_pitch"] is None else "internal"
    other = {"external": "internal", "internal": "external"}[cut]
    pair = {
        side: _core.one_part(form_threads.thread(text), side)[0]
        for side, text in (("external", external), ("internal", internal))
    }
    if not fitting.one_thread(pair["external"], pair["internal"]):
        raise click.UsageError(f"{external} and {internal} are not one thread, so neither can be cut to suit the other")
    suited = suiting.cut_to_suit(
        pair[cut],
        clearance=wanted,
        external_pitch=given["external_pitch"],
        internal_pitch=given["internal_pitch"],
        build_up=coats[cut],
        measured_build_up=coats[other],
        wire=wire,
        over_wires=reading,
    )
    show(suited, as_json, evidence=evidence)


def _only_suited(given: dict[str, Any]) -> None:
    """Refuse options that a part cut to suit makes nothing of."""
    used = {"external_pitch", "internal_pitch"}
    defaults = {"tolerance_over_sigma": 6.0, "mean_shift": 0.0}
    idle = [name for name, value in given.items() if name not in used and value != defaults.get(name)]
    if idle:
        named = ", ".join(f"--{name.replace('_', '-')}" for name in idle)
        raise click.UsageError(f"{named} makes no difference with --suit")


@click.command(
    epilog=_example(
        "wires M10-6g",
        'wires "7/8-14 UNF-2A" --wire 0.045in --coating "anodise II black 15 um"',
        "wires M10-6H --plug",
        "wires Tr16x4-7H --plug",
    )
)
@click.argument("designation")
@_options("wire")
@click.option("--best", is_flag=True, help="Take the wire that touches at the pitch line, not the nearest of a set.")
@click.option("--set", "set_name", default="", help="Set of wires: inch, metric, or one of the shop's own.")
@click.option("--coating", help="Read before this coating, so that the coated part gauges.")
@click.option("--plug", is_flag=True, help="Of an internal thread: the plug to try it with, and its sizes over wires.")
@with_evidence
@with_json
def wires(
    designation: str,
    wire: str | None,
    best: bool,
    set_name: str,
    coating: str | None,
    plug: bool,
    as_json: bool,
    evidence: bool,
) -> None:
    """What to read over wires for the thread DESIGNATION; across two balls where it is internal."""
    from halfnut.threads import gauging, plugs

    if best and wire is not None:
        raise click.UsageError("--wire and --best say different wires: give one of them")
    part: Any = designation if coating is None else precoat(designation, coating)
    if plug:
        if best or set_name:
            raise click.UsageError("a plug is read over the nearest wire of the usual set, or the one of --wire")
        show(plugs.shop_plug(part, wire=wire), as_json, evidence=evidence)
        return
    chosen = "best" if best else wire
    show(gauging.wires(part, wire=chosen, set=set_name), as_json, evidence=evidence)


@click.command(
    epilog=_example(
        "judge M10-6g --pitch 9.05mm --major 9.9mm",
        'judge "7/8-14 UNF-2A" --over-wires 0.8830in --wire 0.040in',
    )
)
@click.argument("designation")
@click.option("--pitch", help="Measured pitch diameter.")
@_options("over_wires", "wire")
@click.option("--major", help="Measured major diameter.")
@click.option("--minor", help="Measured minor diameter.")
@click.option("--lead-error", help="Error of lead, between any two flanks within the engagement.")
@click.option("--leading-error-deg", type=float, default=0.0, help="Leading flank's angle less the standard one.")
@click.option("--following-error-deg", type=float, default=0.0, help="Following flank's angle less the standard one.")
@_options("engagement")
@with_evidence
@with_json
def judge(designation: str, as_json: bool, evidence: bool, **given: Any) -> None:
    """What a measured part is that was to be the thread DESIGNATION: its classes, and what is left to take off."""
    from halfnut.threads import judging

    show(judging.judge(designation, **given), as_json, evidence=evidence)


@click.command(
    epilog=_example(
        "limits M10-6g",
        'limits "7/8-14 UNF-2B" --coating "anodise II black 15 um" --on 6061-T6',
        'limits Tr16x4-7e --coating "zinc SC2"',
    )
)
@click.argument("designation")
@click.option("--coating", help='Sizes before this coating: "8 um", "hard anodise 0.002 in", "zinc SC2".')
@click.option(
    "--gauged-at",
    type=click.Choice(["basic", "class"]),
    default="basic",
    help="Where the coated part is to gauge: at the basic size, as the standards say, or at its own class.",
)
@click.option("--on", help="The alloy; one that does not take the coating is refused.")
@_options("engagement")
@click.option(
    "--rule",
    type=click.Choice(["printed", "formula"]),
    default="printed",
    help="Decimal rule of Unified threads: as tables and gauges are printed, or by formula.",
)
@with_evidence
@with_json
def limits(
    designation: str,
    coating: str | None,
    gauged_at: Any,
    on: str | None,
    engagement: str | None,
    rule: Any,
    as_json: bool,
    evidence: bool,
) -> None:
    """Limits of size of the thread DESIGNATION; with --coating those to cut to before it is coated."""
    from halfnut.threads import form_threads

    if coating is None:
        if on is not None or gauged_at != "basic":
            raise click.UsageError("--on and --gauged-at go with --coating")
        show(form_threads.limits(designation, engagement=engagement, rule=rule), as_json, evidence=evidence)
        return
    given: dict[str, Any] = {"engagement": engagement, "on": on}
    if not form_threads.is_form(designation):
        given |= {"gauged_at": gauged_at, "rule": rule}
    elif gauged_at != "basic" or rule != "printed":
        raise click.UsageError("--gauged-at and --rule are for ISO metric and Unified threads")
    show(precoat(designation, coating, **given), as_json, evidence=evidence)
