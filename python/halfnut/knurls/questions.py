"""The questions of this room.

Written by `./shop stubs` from the core's declarations: change those.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from halfnut.core.questions import answer_to
from halfnut.knurls.wheels import wheels_at_hand
from halfnut.machine.of_name import core_machine

if TYPE_CHECKING:
    from halfnut.core.given import (
        HolderLike,
        HoleLike,
        KnurlWheelsLike,
        LengthLike,
        NumberLike,
        StockLike,
        ToleranceClassLike,
        WheelLike,
    )
    from halfnut.knurls.figures import KnurlBlank, KnurlSetup, WheelChoice
    from halfnut.machine.of_name import MachineLike
    from halfnut.material.alloys import AlloyLike

__all__ = ["knurl_blank", "knurl_setup", "suitable_wheels"]


def knurl_blank(
    diameter: LengthLike,
    pitch: str,
    *,
    pattern: str | None = None,
    wheel: WheelLike | None = None,
    finished: bool = False,
    process: Literal["form", "cut"] = "form",
    prefer: Literal["nearest", "below", "above"] = "nearest",
    helix_deg: NumberLike | None = None,
    profile_deg: NumberLike | None = None,
    set_over: bool = False,
    tracking_allowance: LengthLike | None = None,
    tolerance_class: ToleranceClassLike | None = None,
    width: LengthLike | None = None,
) -> KnurlBlank:
    """The blank to turn so that a knurl closes on itself, and the diameter it comes out at.

    Parameters
    ----------
    diameter : LengthLike
        Diameter of the work before knurling; after it when finished. Above 0 mm.
    pitch : str
        Pitch: "96 DP" (teeth per inch of diameter), "21 TPI" (teeth per inch across the teeth), "0.8 mm" (the
        same), a name ("coarse", "medium", "fine"), or a metric designation ("RGE 0.8", "RGE 08 - 105 DIN 82").
    pattern : str, optional
        Pattern: straight, left, right, diamond raised, diamond indented, cross raised, cross indented, or a metric
        form such as RGV. When not given: as the pitch names it, else diamond raised.
    wheel : WheelLike, optional
        Wheel at hand: "0.750 in, 47 teeth" as measured over the points, or "20 mm" for a standard wheel.
    finished : bool, default False
        The diameter is wanted after knurling; growth and whole teeth are solved together.
    process : {"form", "cut"}, default "form"
        How the teeth are made: pressed in, or cut with cutting wheels.
    prefer : {"nearest", "below", "above"}, default "nearest"
        Which of the blanks that track is answered; the one below when the bar is already to size.
    helix_deg : NumberLike, optional
        Angle of leaning teeth from the axis. Above 0 and below 75 deg. When not given: 30 degrees.
    profile_deg : NumberLike, optional
        Angle between the flanks of the wheel's teeth. From 40 to 140 deg. When not given: the system's own depth.
    set_over : bool, default False
        Straight wheels are turned to the helix angle, in place of wheels with leaning teeth.
    tracking_allowance : LengthLike, optional
        How much larger than measured the wheel tracks. At least 0 mm. When not given: by rule.
    tolerance_class : ToleranceClassLike, optional
        Class of a diametral pitch: I, II or III.
    width : LengthLike, optional
        Width of the knurled band. Above 0 mm.

    Returns
    -------
    KnurlBlank
        The blank to turn before knurling, and what comes of it; None where a figure does not apply.

    Raises
    ------
    DomainError
        A number out of its range, or two that contradict each other.
    UnitError
        A length or a feed without its unit.
    NotTabulatedError
        No such name, or no row for it.
    TableError
        A shop's row that cannot be used.

    References
    ----------
    ANSI/ASME B94.6, DIN 82 and rules of the trade, as the evidence names them.
    """
    answer: KnurlBlank = answer_to(
        "knurl_blank",
        "halfnut.knurls.figures:KnurlBlank",
        (
            diameter,
            pitch,
            pattern,
            wheel,
            finished,
            process,
            prefer,
            helix_deg,
            profile_deg,
            set_over,
            tracking_allowance,
            tolerance_class,
            width,
        ),
    )
    return answer


def suitable_wheels(
    diameter: LengthLike,
    *,
    pattern: str | None = None,
    finished: bool = False,
    wheels: KnurlWheelsLike | None = None,
) -> WheelChoice:
    """Which of the shop's knurl wheels tracks on a diameter, and what diameter suits each.

    Parameters
    ----------
    diameter : LengthLike
        Diameter of the blank; of the knurl when finished. Above 0 mm.
    pattern : str, optional
        Only wheels that print this pattern, as for a knurl's blank.
    finished : bool, default False
        The diameter is the one wanted after knurling.
    wheels : KnurlWheelsLike, optional
        File of wheels, or wheels each by the keys of one. When not given: those of the shop.

    Returns
    -------
    WheelChoice
        The shop's wheels on one diameter, best first.

    Raises
    ------
    DomainError
        A number out of its range, or two that contradict each other.
    UnitError
        A length or a feed without its unit.
    NotTabulatedError
        No such name, or no row for it.
    TableError
        A shop's row that cannot be used.

    References
    ----------
    ANSI/ASME B94.6, DIN 82 and rules of the trade, as the evidence names them.
    """
    answer: WheelChoice = answer_to(
        "suitable_wheels",
        "halfnut.knurls.figures:WheelChoice",
        (
            diameter,
            pattern,
            finished,
            wheels_at_hand(wheels),
        ),
    )
    return answer


def knurl_setup(
    diameter: LengthLike,
    pitch: str,
    alloy: AlloyLike,
    *,
    width: LengthLike,
    wheels: int | None = None,
    wheel_width: LengthLike | None = None,
    bore: LengthLike | None = None,
    stick_out: LengthLike | None = None,
    hold: Literal["chuck", "chuck and centre"] = "chuck",
    hole: HoleLike | None = None,
    hardness_hb: NumberLike | None = None,
    machine: MachineLike | None = None,
    chuck: HolderLike | None = None,
    stock: StockLike | None = None,
    bar_length: LengthLike | None = None,
    bar_behind: LengthLike | None = None,
    pattern: str | None = None,
    wheel: WheelLike | None = None,
    finished: bool = False,
    process: Literal["form", "cut"] = "form",
    prefer: Literal["nearest", "below", "above"] = "nearest",
    helix_deg: NumberLike | None = None,
    profile_deg: NumberLike | None = None,
    set_over: bool = False,
    tracking_allowance: LengthLike | None = None,
    tolerance_class: ToleranceClassLike | None = None,
) -> KnurlSetup:
    """How to knurl a blank: wheels, infeed, feed, speed, passes, force and support, what to turn first.

    Parameters
    ----------
    diameter : LengthLike
        Diameter of the work before knurling; after it when finished. Above 0 mm.
    pitch : str
        Pitch: "96 DP" (teeth per inch of diameter), "21 TPI" (teeth per inch across the teeth), "0.8 mm" (the
        same), a name ("coarse", "medium", "fine"), or a metric designation ("RGE 0.8", "RGE 08 - 105 DIN 82").
    alloy : AlloyLike
        The work's material, by any of its names.
    width : LengthLike
        Width of the knurled band. Above 0 mm.
    wheels : int, optional
        Wheels of the holder: pushed in from one side, clamped above and below, or around the work. From 1 to 3.
        When not given: 1.
    wheel_width : LengthLike, optional
        Face of a wheel. Above 0 mm. When not given: 6 mm.
    bore : LengthLike, optional
        Bore of a tube. Above 0 mm.
    stick_out : LengthLike, optional
        Distance from the chuck to the middle of the band. Above 0 mm.
    hold : {"chuck", "chuck and centre"}, default "chuck"
        How the work is held.
    hole : HoleLike, optional
        Hole that the knurl is pressed into; two sizes are its least and its greatest.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    machine : MachineLike, optional
        The lathe.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first.
    stock : StockLike, optional
        Bar or blank that is held: its diameter, or "30 mm hex" across the flats. When not given: the blank.
    bar_length : LengthLike, optional
        Length of a whole bar that goes through the spindle. Above 0 mm.
    bar_behind : LengthLike, optional
        Length of a bar that is free behind the spindle. At least 0 mm.
    pattern : str, optional
        Pattern: straight, left, right, diamond raised, diamond indented, cross raised, cross indented, or a metric
        form such as RGV. When not given: as the pitch names it, else diamond raised.
    wheel : WheelLike, optional
        Wheel at hand: "0.750 in, 47 teeth" as measured over the points, or "20 mm" for a standard wheel.
    finished : bool, default False
        The diameter is wanted after knurling; growth and whole teeth are solved together.
    process : {"form", "cut"}, default "form"
        How the teeth are made: pressed in, or cut with cutting wheels.
    prefer : {"nearest", "below", "above"}, default "nearest"
        Which of the blanks that track is answered; the one below when the bar is already to size.
    helix_deg : NumberLike, optional
        Angle of leaning teeth from the axis. Above 0 and below 75 deg. When not given: 30 degrees.
    profile_deg : NumberLike, optional
        Angle between the flanks of the wheel's teeth. From 40 to 140 deg. When not given: the system's own depth.
    set_over : bool, default False
        Straight wheels are turned to the helix angle, in place of wheels with leaning teeth.
    tracking_allowance : LengthLike, optional
        How much larger than measured the wheel tracks. At least 0 mm. When not given: by rule.
    tolerance_class : ToleranceClassLike, optional
        Class of a diametral pitch: I, II or III.

    Returns
    -------
    KnurlSetup
        How to knurl a band; None where a figure does not apply.

    Raises
    ------
    DomainError
        A number out of its range, or two that contradict each other.
    UnitError
        A length or a feed without its unit.
    NotTabulatedError
        No such name, or no row for it.
    TableError
        A shop's row that cannot be used.

    References
    ----------
    ANSI/ASME B94.6, DIN 82 and rules of the trade, as the evidence names them.
    """
    answer: KnurlSetup = answer_to(
        "knurl_setup",
        "halfnut.knurls.figures:KnurlSetup",
        (
            diameter,
            pitch,
            alloy,
            width,
            wheels,
            wheel_width,
            bore,
            stick_out,
            hold,
            hole,
            hardness_hb,
            core_machine(machine),
            chuck,
            stock,
            bar_length,
            bar_behind,
            pattern,
            wheel,
            finished,
            process,
            prefer,
            helix_deg,
            profile_deg,
            set_over,
            tracking_allowance,
            tolerance_class,
        ),
    )
    return answer
