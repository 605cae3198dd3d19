"""The questions of this room.

Written by `./shop stubs` from the core's declarations: change those.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Literal

from halfnut.core.questions import answer_to
from halfnut.machine.of_name import core_machine

if TYPE_CHECKING:
    from halfnut.core.given import (
        FeedLike,
        ForceLike,
        HolderLike,
        LengthLike,
        NumberLike,
        PlaceLike,
        SectionLike,
        SineLike,
        StockLike,
        TeethLike,
        ThreadLike,
        TurnLike,
    )
    from halfnut.cutting.chasing import Chasing
    from halfnut.cutting.choosing import Passes
    from halfnut.cutting.figures import (
        Cut,
        Data,
        Division,
        Entry,
        ForceBand,
        GearTrains,
        Groove,
        Holding,
        JawSqueeze,
        Polygon,
        Positions,
        ScrewHole,
        SineBar,
        Speeds,
        Taper,
        ToolLife,
        TranslatingPairs,
        WorkBend,
    )
    from halfnut.machine.of_name import MachineLike
    from halfnut.material.alloys import AlloyLike
    from halfnut.threads.standard import LeadLike, PartLike

__all__ = [
    "bore",
    "chase",
    "choose",
    "counterbore",
    "countersink",
    "data",
    "divide",
    "drill",
    "face",
    "force_band",
    "gear_train",
    "groove",
    "helix",
    "hold",
    "jaw_squeeze",
    "knurl",
    "mill",
    "part_off",
    "polygon",
    "positions",
    "ramp",
    "ream",
    "saw",
    "screw_hole",
    "sine_bar",
    "speeds",
    "spot",
    "tap",
    "taper",
    "thread_speed",
    "tool_life",
    "translating_pairs",
    "turn",
    "work_bend",
]


def gear_train(
    lead: LeadLike,
    *,
    machine: MachineLike | None = None,
    gears: Sequence[TeethLike] = (),
    leadscrew: LeadLike | None = None,
    spindle_to_stud: float | None = None,
    engagement: LengthLike | None = None,
    error_percent: float | None = None,
    most: int | None = None,
    simple: bool = False,
    no_gearbox: bool = False,
) -> GearTrains:
    """Every train of change gears for a thread, a lead or a feed, best first.

    Parameters
    ----------
    lead : LeadLike
        Thread, such as M24x1.5-6g, which also gives a tolerance; a lead, such as 1.5 mm or 11.5 TPI; or a feed for
        turning or knurling, such as 0.12 mm/rev.
    machine : MachineLike, optional
        The lathe with its gears, gearbox and distances.
    gears : Sequence[TeethLike], default ()
        Teeth of the gears at hand, equal ones repeated, in place of a machine.
    leadscrew : LeadLike, optional
        Leadscrew that bare gears drive, such as 8 TPI or 3 mm.
    spindle_to_stud : float, optional
        Turns of the stud for one of the spindle, with bare gears. Above 0. When not given: 1.
    engagement : LengthLike, optional
        Length of thread over which the error is judged. Above 0 mm. When not given: the thread's own, else its
        diameter.
    error_percent : float, optional
        Error of the lead in percent beyond which trains are left out. From 0 to 100. When not given: 0.1.
    most : int, optional
        How many trains to answer. From 1 to 1000000. When not given: 10.
    simple : bool, default False
        Simple trains only.
    no_gearbox : bool, default False
        Leave the gearbox out.

    Returns
    -------
    GearTrains
        Trains, best first, and how the search went.

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
    F. D. Jones, Turning and Boring (1914), change gears; the rules that the evidence names.
    """
    answer: GearTrains = answer_to(
        "gear_train",
        "halfnut.cutting.figures:GearTrains",
        (
            lead,
            core_machine(machine),
            gears,
            leadscrew,
            spindle_to_stud,
            engagement,
            error_percent,
            most,
            simple,
            no_gearbox,
        ),
    )
    return answer


def translating_pairs(
    gears: Sequence[TeethLike] = (),
    *,
    machine: MachineLike | None = None,
    cut: Literal["inches", "millimetres"] = "inches",
    simplest: int | None = None,
    error_percent: float | None = None,
) -> TranslatingPairs:
    """Pairs of gears that turn inches to millimetres once a simple ratio is added.

    Parameters
    ----------
    gears : Sequence[TeethLike], default ()
        Teeth of the gears at hand. When not given: 20 to 127.
    machine : MachineLike, optional
        Lathe whose gears are at hand, in place of their teeth.
    cut : {"inches", "millimetres"}, default "inches"
        What is to be cut: inches on a metric leadscrew, 127/100, or millimetres on an inch one, 100/127.
    simplest : int, optional
        Greatest whole number of the ratio that is added. From 1 to 60. When not given: 6.
    error_percent : float, optional
        Error of the ratio in percent beyond which pairs are left out. From 0 to 100. When not given: 0.1.

    Returns
    -------
    TranslatingPairs
        Pairs of gears that turn inches to millimetres, or back.

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
    1 in = 25.4 mm exactly; arithmetic.
    """
    answer: TranslatingPairs = answer_to(
        "translating_pairs",
        "halfnut.cutting.figures:TranslatingPairs",
        (
            gears,
            core_machine(machine),
            cut,
            simplest,
            error_percent,
        ),
    )
    return answer


def chase(
    thread: PartLike,
    *,
    machine: MachineLike | None = None,
    alloy: AlloyLike | None = None,
    infeed: Literal["straight", "flank", "alternating"] = "flank",
    compound_deg: NumberLike | None = None,
    blank: LengthLike | None = None,
    pitch_diameter: LengthLike | None = None,
    nose_radius: LengthLike | None = None,
    nose_flat: LengthLike | None = None,
    first: LengthLike | None = None,
    least: LengthLike | None = None,
    equal_depths: bool = False,
    force_limit: ForceLike | None = None,
    run_out: LengthLike | None = None,
    reaction_s: NumberLike | None = None,
    wire: LengthLike | None = None,
    tool: str | None = None,
    length: LengthLike | None = None,
    chuck: HolderLike | None = None,
    stock: StockLike | None = None,
    bar_length: LengthLike | None = None,
    bar_behind: LengthLike | None = None,
    stick_out: LengthLike | None = None,
    sections: Sequence[SectionLike] = (),
    cut_at: LengthLike | None = None,
    hold: Literal["chuck", "chuck and centre", "between centres"] = "chuck",
) -> Chasing:
    """How to cut a thread with a single point on a lathe: blank, settings, passes on the dial, readings.

    Parameters
    ----------
    thread : PartLike
        Thread by its designation, the external part where it has no class; or limits, such as those before coating.
    machine : MachineLike, optional
        The lathe, whose dials, scale, leadscrew, change gears, thread dial and spindle steps are used.
    alloy : AlloyLike, optional
        The work's material: gives the force of each pass, a shallower first pass where it resists more than mild
        steel, and with a machine the spindle step.
    infeed : {"straight", "flank", "alternating"}, default "flank"
        How the tool goes in: by the compound set over, by the cross slide, or by the cross slide with the compound
        shifting the tool.
    compound_deg : NumberLike, optional
        Angle of the compound from square to the work, at most the flank's. From 0 to 75 deg. When not given: half a
        degree less than the flank's.
    blank : LengthLike, optional
        Turned or bored diameter. Above 0 mm. When not given: the middle of its limits.
    pitch_diameter : LengthLike, optional
        Pitch diameter to aim at. Above 0 mm. When not given: the middle of its limits.
    nose_radius : LengthLike, optional
        Radius of the tool's round nose. At least 0 mm. When not given: an eighth of the pitch outside at 60
        degrees; of other forms the root's own.
    nose_flat : LengthLike, optional
        Width of the tool's flat nose. At least 0 mm. When not given: an eighth of the pitch inside at 60 degrees;
        of other forms what leaves the root's diameter.
    first : LengthLike, optional
        Greatest first pass along the slide. Above 0 mm. When not given: 0.010 in or 0.25 mm, less in a tough alloy.
    least : LengthLike, optional
        Least later pass along the slide. Above 0 mm. When not given: 0.0015 in or 0.04 mm.
    equal_depths : bool, default False
        Passes of one depth, not of one chip area.
    force_limit : ForceLike, optional
        Force that no pass may go above, such as 300 N; needs an alloy. Above 0 N.
    run_out : LengthLike, optional
        Free way between the end of the thread and a shoulder; none where it is nothing. At least 0 mm. When not
        given: 2.5 pitches.
    reaction_s : NumberLike, optional
        Time for opening the half nut: 0.5 s is brisk, 1 s safe. Above 0 s. When not given: the machine file's, else
        1 s.
    wire : LengthLike, optional
        Wires at hand, or of an internal thread the balls. Above 0 mm. When not given: the nearest of the set.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    length : LengthLike, optional
        Length of the thread; without it there is no time. Above 0 mm.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first.
    stock : StockLike, optional
        Bar or blank that is held: its diameter, or "30 mm hex" across the flats.
    bar_length : LengthLike, optional
        Length of a whole bar that goes through the spindle. Above 0 mm.
    bar_behind : LengthLike, optional
        Length of a bar that is free behind the spindle. At least 0 mm.
    stick_out : LengthLike, optional
        Overhang of the work from the jaws. Above 0 mm.
    sections : Sequence[SectionLike], default ()
        Stepped work from the chuck or the first centre on, in place of the overhang: length, diameter and, of a
        tube, bore of each section.
    cut_at : LengthLike, optional
        Where on the sections the thread begins, from the end that is free. At least 0 mm. When not given: the end.
    hold : {"chuck", "chuck and centre", "between centres"}, default "chuck"
        How the work is held.

    Returns
    -------
    Chasing
        How to chase a thread: sizes, settings, passes, readings; None where a figure does not apply.

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
    Geometry of the thread form; the rules of the trade that the evidence names.
    """
    answer: Chasing = answer_to(
        "chase",
        "halfnut.cutting.chasing:Chasing",
        (
            thread,
            core_machine(machine),
            alloy,
            infeed,
            compound_deg,
            blank,
            pitch_diameter,
            nose_radius,
            nose_flat,
            first,
            least,
            equal_depths,
            force_limit,
            run_out,
            reaction_s,
            wire,
            tool,
            length,
            chuck,
            stock,
            bar_length,
            bar_behind,
            stick_out,
            sections,
            cut_at,
            hold,
        ),
    )
    return answer


def positions(
    pattern: Literal["circle", "row", "grid", "list"],
    *,
    holes: int | None = None,
    diameter: LengthLike | None = None,
    step: LengthLike | None = None,
    rows: int | None = None,
    row_step: LengthLike | None = None,
    angle_deg: NumberLike | None = None,
    over_deg: NumberLike | None = None,
    clockwise: bool = False,
    x: LengthLike | None = None,
    y: LengthLike | None = None,
    at: Sequence[PlaceLike] = (),
    edge_finder: LengthLike | None = None,
    machine: MachineLike | None = None,
) -> Positions:
    """Places of holes from a zero: bolt circle, row, grid or list, in dial turns and lines or readout figures.

    Parameters
    ----------
    pattern : {"circle", "row", "grid", "list"}
        How the holes lie: circle, row, grid, or a list of places.
    holes : int, optional
        Holes of a circle, or of each row. From 1 to 1000.
    diameter : LengthLike, optional
        Diameter of the circle through the holes. Above 0 mm.
    step : LengthLike, optional
        Distance between the holes of a row. Above 0 mm.
    rows : int, optional
        Rows of a grid. From 1 to 1000.
    row_step : LengthLike, optional
        Distance between the rows of a grid. Above 0 mm. When not given: the step within a row.
    angle_deg : NumberLike, optional
        Direction of the first hole of a circle from its centre, or of a row; from +X, towards +Y. From -360 to 360
        deg. When not given: 0, along +X.
    over_deg : NumberLike, optional
        Angle over which the holes of a circle lie, the first and the last at its ends. From 0 to 360 deg. When not
        given: the whole circle.
    clockwise : bool, default False
        The holes of a circle are counted from +Y towards +X.
    x : LengthLike, optional
        Centre of the circle, or the first hole, from the zero of the dials; below 0 on its other side. When not
        given: 0.
    y : LengthLike, optional
        The same along Y. When not given: 0.
    at : Sequence[PlaceLike], default ()
        Places of a list, each as x and y from the zero, such as "1 in, 2 in".
    edge_finder : LengthLike, optional
        Diameter of the edge finder's tip, for the way from the edge to the zero. Above 0 mm.
    machine : MachineLike, optional
        Mill whose dials or readout are read; without one there are coordinates alone.

    Returns
    -------
    Positions
        Places of holes from a zero, in the order in which they are gone to.

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
    Plane geometry and the practice of setting out, as the rules of the evidence state them.
    """
    answer: Positions = answer_to(
        "positions",
        "halfnut.cutting.figures:Positions",
        (
            pattern,
            holes,
            diameter,
            step,
            rows,
            row_step,
            angle_deg,
            over_deg,
            clockwise,
            x,
            y,
            at,
            edge_finder,
            core_machine(machine),
        ),
    )
    return answer


def divide(
    part: TurnLike,
    *,
    ratio: int | None = None,
    plates: str | None = None,
    direct: int | None = None,
    diameter: LengthLike | None = None,
    machine: MachineLike | None = None,
) -> Division:
    """Turns and holes of a dividing head for a number of divisions or an angle.

    Parameters
    ----------
    part : TurnLike
        Divisions of a turn, or the angle to turn the work by, such as 13.5 deg.
    ratio : int, optional
        Turns of the crank for one turn of the work. From 1 to 4000. When not given: the machine's, or 40.
    plates : str, optional
        Circles of holes, with commas between plates: "15 16 17 18 19 20, 21 23 27". When not given: the machine's,
        or a usual set of three.
    direct : int, optional
        Holes of the plate on the spindle itself. From 2 to 400.
    diameter : LengthLike, optional
        Diameter of the work, to tell an error as a length at its rim. Above 0 mm.
    machine : MachineLike, optional
        Machine whose dividing head it is: its ratio and plates.

    Returns
    -------
    Division
        A part of a turn by the dividing head.

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
    Plane geometry and the practice of setting out, as the rules of the evidence state them.
    """
    answer: Division = answer_to(
        "divide",
        "halfnut.cutting.figures:Division",
        (
            part,
            ratio,
            plates,
            direct,
            diameter,
            core_machine(machine),
        ),
    )
    return answer


def polygon(
    flats: int,
    *,
    across_flats: LengthLike | None = None,
    across_corners: LengthLike | None = None,
    bar: LengthLike | None = None,
    machine: MachineLike | None = None,
) -> Polygon:
    """Flats on a round: depth of each, what to measure, and how to divide.

    Parameters
    ----------
    flats : int
        Flats around the work. From 2 to 100.
    across_flats : LengthLike, optional
        Distance of a flat from the one opposite; twice its distance from the axis. Above 0 mm.
    across_corners : LengthLike, optional
        Diameter of the circle through the corners, instead. Above 0 mm.
    bar : LengthLike, optional
        Diameter of the round that they are milled on. Above 0 mm. When not given: that of the corners.
    machine : MachineLike, optional
        Mill with its dividing head and the dial of its vertical slide.

    Returns
    -------
    Polygon
        Flats on a round.

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
    Plane geometry and the practice of setting out, as the rules of the evidence state them.
    """
    answer: Polygon = answer_to(
        "polygon",
        "halfnut.cutting.figures:Polygon",
        (
            flats,
            across_flats,
            across_corners,
            bar,
            core_machine(machine),
        ),
    )
    return answer


def sine_bar(
    angle: SineLike,
    *,
    bar: LengthLike | None = None,
) -> SineBar:
    """The stack under a sine bar for an angle, its gauge blocks and its error.

    Parameters
    ----------
    angle : SineLike
        Angle wanted, such as 27 deg; or the stack that is there, whose angle is the answer.
    bar : LengthLike, optional
        Length of the bar between its rollers. Above 0 mm. When not given: 100 mm, or 5 in with a stack in inches.

    Returns
    -------
    SineBar
        A sine bar on its stack.

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
    Plane geometry and the practice of setting out, as the rules of the evidence state them.
    """
    answer: SineBar = answer_to(
        "sine_bar",
        "halfnut.cutting.figures:SineBar",
        (
            angle,
            bar,
        ),
    )
    return answer


def screw_hole(
    alloy: AlloyLike,
    thread: ThreadLike,
    *,
    head: str | None = None,
    fit: str | None = None,
    thickness: LengthLike | None = None,
    recess: LengthLike | None = None,
    tool: str | None = None,
    machine: MachineLike | None = None,
) -> ScrewHole:
    """A hole for a screw in one answer: clearance, seat of the head, spot, drills in steps, tapping drill.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    thread : ThreadLike
        Thread of the screw.
    head : str, optional
        Head of the screw: socket, flat, flat socket or flat 100 (inch), or none for a hole without a seat. When not
        given: socket.
    fit : str, optional
        Fit of the hole: close, normal or loose; fine, medium or coarse. When not given: normal.
    thickness : LengthLike, optional
        Thickness of the work, through which it is drilled; without it there is no time. Above 0 mm.
    recess : LengthLike, optional
        How far the top of the head lies below the surface. At least 0 mm. When not given: flush.
    tool : str, optional
        HSS, carbide, or a tool of the shop's tables. When not given: HSS.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.

    Returns
    -------
    ScrewHole
        A hole for a screw: sizes, and the cuts in their order.

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
    ISO 273, ASME B18.2.8 and the heads' standards as the rows of the evidence name them.
    """
    answer: ScrewHole = answer_to(
        "screw_hole",
        "halfnut.cutting.figures:ScrewHole",
        (
            alloy,
            thread,
            head,
            fit,
            thickness,
            recess,
            tool,
            core_machine(machine),
        ),
    )
    return answer


def choose(
    do: Literal["turn", "face", "bore", "mill slot", "mill side", "mill pocket", "mill face"],
    alloy: AlloyLike,
    diameter: LengthLike,
    to: LengthLike | None = None,
    *,
    machine: MachineLike,
    off: LengthLike | None = None,
    length: LengthLike | None = None,
    width: LengthLike | None = None,
    end_diameter: LengthLike | None = None,
    flutes: int | None = None,
    tool: str | None = None,
    tolerance: LengthLike | None = None,
    tolerance_share: float | None = None,
    roughness_um: float | None = None,
    life_min: NumberLike | None = None,
    force_n: NumberLike | None = None,
    jaw_force_n: NumberLike | None = None,
    grip_diameter: LengthLike | None = None,
    friction: float | None = None,
    grip_safety: float | None = None,
    jaw_mass_kg: NumberLike | None = None,
    jaw_radius: LengthLike | None = None,
    deflection: LengthLike | None = None,
    deepest: LengthLike | None = None,
    step_over: LengthLike | None = None,
    hold: Literal["chuck", "chuck and centre", "between centres"] = "chuck",
    chuck: HolderLike | None = None,
    stick_out: LengthLike | None = None,
    sections: Sequence[SectionLike] = (),
    cut_at: LengthLike | None = None,
    steadies: Sequence[LengthLike] = (),
    stock: StockLike | None = None,
    bar_length: LengthLike | None = None,
    bar_behind: LengthLike | None = None,
    bar_diameter: LengthLike | None = None,
    bar_material: Literal["steel", "heavy metal", "carbide", "damped steel", "damped carbide"] = "steel",
    bore: LengthLike | None = None,
    nose_radius: LengthLike | None = None,
    entering_deg: NumberLike | None = None,
    rake_deg: NumberLike | None = None,
    wear_factor: float | None = None,
    hardness_hb: NumberLike | None = None,
    approach: LengthLike | None = None,
    overrun: LengthLike | None = None,
    dial_set_s: NumberLike | None = None,
    hand_turns_per_min: float | None = None,
    single: bool = False,
    free: bool = False,
    now_spindle_rpm: NumberLike | None = None,
    now_feed: FeedLike | None = None,
    only_spindle: int | None = None,
    brief: bool = False,
) -> Passes:
    """The fastest passes over the machine's real steps and dial lines that keep every limit.

    Parameters
    ----------
    do : {"turn", "face", "bore", "mill slot", "mill side", "mill pocket", "mill face"}
        What is done.
    alloy : AlloyLike
        The work's material, by any of its names.
    diameter : LengthLike
        Diameter before turning or boring; of the face; of the cutter. Above 0 mm.
    to : LengthLike, optional
        Diameter to reach, in turning and boring. Above 0 mm.
    machine : MachineLike
        Machine whose levers and dials to choose from.
    off : LengthLike, optional
        Depth to take off: along the axis in facing, down in milling. Above 0 mm.
    length : LengthLike, optional
        Length of the cut along the feed. Above 0 mm.
    width : LengthLike, optional
        Width to mill away. Above 0 mm.
    end_diameter : LengthLike, optional
        Diameter where facing ends. At least 0 mm. When not given: the centre, or the bore.
    flutes : int, optional
        Teeth of the cutter. From 1 to 60. When not given: four, two below 5 mm.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    tolerance : LengthLike, optional
        Tolerance of the diameter, of a faced length or of a milled side: says how the size is closed on. Above 0
        mm.
    tolerance_share : float, optional
        Share of the tolerance by which finishing cuts may deflect. From 0.01 to 1. When not given: 0.5.
    roughness_um : float, optional
        Ra that is asked of the last pass; the feed aims finer, since a real surface is rougher than its geometry.
        Above 0 um.
    life_min : NumberLike, optional
        Life of the edge at least, in every pass. Above 0 min. When not given: 10 minutes, and as long as the pass.
    force_n : NumberLike, optional
        Force that tool and work bear. Above 0 N.
    jaw_force_n : NumberLike, optional
        Force of each jaw at rest; without it the grip is not computed. Above 0 N.
    grip_diameter : LengthLike, optional
        Diameter where the jaws grip. Above 0 mm. When not given: the diameter before the cut.
    friction : float, optional
        Friction between jaws and work. From 0.01 to 1. When not given: 0.15.
    grip_safety : float, optional
        How many times the grip that the cut needs. From 1 to 20. When not given: 2.
    jaw_mass_kg : NumberLike, optional
        Mass of each jaw, which costs grip at speed. Above 0 kg.
    jaw_radius : LengthLike, optional
        Radius on which a jaw's mass turns. Above 0 mm. When not given: the rim of the chuck.
    deflection : LengthLike, optional
        Most deflection of any pass. Above 0 mm. When not given: 0.1 mm.
    deepest : LengthLike, optional
        Deepest that the edge cuts. Above 0 mm. When not given: 2.5 mm, or a cutter's usual step down.
    step_over : LengthLike, optional
        Most across in one pass of milling. Above 0 mm.
    hold : {"chuck", "chuck and centre", "between centres"}, default "chuck"
        How the work is held.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first.
    stick_out : LengthLike, optional
        Overhang of the work from the jaws, of a boring bar, of a cutter. Above 0 mm.
    sections : Sequence[SectionLike], default ()
        Stepped work that is turned, from the chuck or the first centre on, in place of the overhang: length,
        diameter and, of a tube, bore of each section.
    cut_at : LengthLike, optional
        Where on the sections the cut begins, from the end that is free or on the last centre. At least 0 mm. When
        not given: the end.
    steadies : Sequence[LengthLike], default ()
        Place of each fixed steady; without sections the deflection is then not computed.
    stock : StockLike, optional
        Bar or blank that is held: its diameter, or "30 mm hex" across the flats. When not given: the diameter
        before the cut.
    bar_length : LengthLike, optional
        Length of a whole bar that goes through the spindle. Above 0 mm.
    bar_behind : LengthLike, optional
        Length of a bar that is free behind the spindle. At least 0 mm.
    bar_diameter : LengthLike, optional
        Diameter of the boring bar. Above 0 mm.
    bar_material : {"steel", "heavy metal", "carbide", "damped steel", "damped carbide"}, default "steel"
        What the boring bar is made of.
    bore : LengthLike, optional
        Bore of a tube. At least 0 mm.
    nose_radius : LengthLike, optional
        Nose radius of the tool. At least 0 mm. When not given: 0.8 mm.
    entering_deg : NumberLike, optional
        Entering angle of the edge. From 10 to 120 deg. When not given: 90 degrees.
    rake_deg : NumberLike, optional
        Rake of the tool. From -30 to 40 deg. When not given: as the force constants were measured.
    wear_factor : float, optional
        Factor on the force, 1 of a sharp tool, 1.4 of a blunt one. Where it is not given the force is that of a
        sharp edge, while limits and upper edges of force and power are those of an edge in use. From 1 to 3.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    approach : LengthLike, optional
        Travel of the tool before the cut. At least 0 mm. When not given: 2 mm.
    overrun : LengthLike, optional
        Travel of the tool past the cut. At least 0 mm. When not given: none, with a face mill half its diameter.
    dial_set_s : NumberLike, optional
        Time to set the dial. At least 0 s. When not given: 5 s.
    hand_turns_per_min : float, optional
        Turns of the handle a minute when a slide is wound back. Above 0 1/min. When not given: 60.
    single : bool, default False
        All in one finishing pass.
    free : bool, default False
        Any depths and levers in every pass, instead of a shop's way.
    now_spindle_rpm : NumberLike, optional
        Spindle speed that is set now, one of the machine's: leaving it costs no time. Above 0 rev/min.
    now_feed : FeedLike, optional
        Power feed that is set now, as the machine's chart has it.
    only_spindle : int, optional
        Place of the one spindle step to choose, from 0. At least 0.
    brief : bool, default False
        The passes alone, without what limits cost and what would help.

    Returns
    -------
    Passes
        The fastest passes, or what stands in their way.

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
    Kienzle's force with the rows that the evidence names; ISO 3685 for the edge's life.
    """
    answer: Passes = answer_to(
        "choose",
        "halfnut.cutting.choosing:Passes",
        (
            do,
            alloy,
            diameter,
            to,
            core_machine(machine),
            off,
            length,
            width,
            end_diameter,
            flutes,
            tool,
            tolerance,
            tolerance_share,
            roughness_um,
            life_min,
            force_n,
            jaw_force_n,
            grip_diameter,
            friction,
            grip_safety,
            jaw_mass_kg,
            jaw_radius,
            deflection,
            deepest,
            step_over,
            hold,
            chuck,
            stick_out,
            sections,
            cut_at,
            steadies,
            stock,
            bar_length,
            bar_behind,
            bar_diameter,
            bar_material,
            bore,
            nose_radius,
            entering_deg,
            rake_deg,
            wear_factor,
            hardness_hb,
            approach,
            overrun,
            dial_set_s,
            hand_turns_per_min,
            single,
            free,
            now_spindle_rpm,
            now_feed,
            only_spindle,
            brief,
        ),
    )
    return answer


def force_band(
    alloy: AlloyLike,
    process: Literal["drill", "mill", "tap", "turn"] = "turn",
) -> ForceBand:
    """How far a measured force may lie from the one computed, by alloy and process.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    process : {"drill", "mill", "tap", "turn"}, default "turn"
        What is done: turn counts for facing, boring and parting too.

    Returns
    -------
    ForceBand
        Where a measured force lies, as shares of the computed one.

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
    The table cutting/force_bands with the measured cuts that its rows name.
    """
    answer: ForceBand = answer_to(
        "force_band",
        "halfnut.cutting.figures:ForceBand",
        (
            alloy,
            process,
        ),
    )
    return answer


def turn(
    alloy: AlloyLike,
    diameter: LengthLike,
    *,
    depth: LengthLike | None = None,
    length: LengthLike | None = None,
    machine: MachineLike | None = None,
    tool: str | None = None,
    finish: bool = False,
    feed: FeedLike | None = None,
    spindle_rpm: NumberLike | None = None,
    hardness_hb: NumberLike | None = None,
    nose_radius: LengthLike | None = None,
    entering_deg: NumberLike | None = None,
    rake_deg: NumberLike | None = None,
    wear_factor: float | None = None,
    hold: Literal["chuck", "chuck and centre", "between centres"] = "chuck",
    chuck: HolderLike | None = None,
    stock: StockLike | None = None,
    bar_length: LengthLike | None = None,
    bar_behind: LengthLike | None = None,
    stick_out: LengthLike | None = None,
    sections: Sequence[SectionLike] = (),
    cut_at: LengthLike | None = None,
    steadies: Sequence[LengthLike] = (),
    bore: LengthLike | None = None,
    roughness_um: float | None = None,
    deflection: LengthLike | None = None,
    approach: LengthLike | None = None,
    overrun: LengthLike | None = None,
    skin: Literal["clean", "scale", "cast skin", "drawn tube", "interrupted"] = "clean",
    stiffness_n_um: float | None = None,
    damping: float | None = None,
) -> Cut:
    """Turn a diameter: spindle step, feed, force, power, finish, deflection and time of one cut.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    diameter : LengthLike
        Diameter before the cut. Above 0 mm.
    depth : LengthLike, optional
        Depth of the cut on the radius. Above 0 mm. When not given: 1 mm, or 0.25 mm when finishing, in an inch
        question 0.040 in and 0.010 in, at most a quarter of the radius.
    length : LengthLike, optional
        Length of the cut along the work; without it there is no time. Above 0 mm.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    finish : bool, default False
        A finishing cut, whatever its depth.
    feed : FeedLike, optional
        Feed wanted, such as 0.1 mm/rev; the next finer of the machine is taken. Above 0 mm/rev.
    spindle_rpm : NumberLike, optional
        Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    nose_radius : LengthLike, optional
        Nose radius of the tool. At least 0 mm. When not given: 0.8 mm.
    entering_deg : NumberLike, optional
        Entering angle of the tool. From 10 to 120 deg. When not given: 90 degrees.
    rake_deg : NumberLike, optional
        Rake of the tool. From -30 to 40 deg. When not given: as the force constants were measured.
    wear_factor : float, optional
        Factor on the force, 1 of a sharp tool, 1.4 of a blunt one. Where it is not given the force is that of a
        sharp edge, while limits, upper edges of force and power, and the force across the edge with the deflection
        that it makes are those of an edge in use. From 1 to 3.
    hold : {"chuck", "chuck and centre", "between centres"}, default "chuck"
        How the work is held.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first.
    stock : StockLike, optional
        Bar or blank that is held: its diameter, or "30 mm hex" across the flats. When not given: the diameter that
        is cut.
    bar_length : LengthLike, optional
        Length of a whole bar that goes through the spindle. Above 0 mm.
    bar_behind : LengthLike, optional
        Length of a bar that is free behind the spindle. At least 0 mm.
    stick_out : LengthLike, optional
        Overhang of the work from the jaws, or the distance between centres. Above 0 mm. When not given: the length
        of the cut, which it is at least; without either there is no deflection.
    sections : Sequence[SectionLike], default ()
        Stepped work from the chuck or the first centre on, in place of the overhang: length, diameter and, of a
        tube, bore of each section. The deflection is that of the beam at its worst place.
    cut_at : LengthLike, optional
        Where on the sections the cut begins, from the end that is free or on the last centre: what is turned there
        has the diameter of the cut, and the deflection is the worst along the cut. At least 0 mm. When not given:
        it is not known: the worst along the work.
    steadies : Sequence[LengthLike], default ()
        Place of each fixed steady, from the chuck or the first centre.
    bore : LengthLike, optional
        Bore of a tube. At least 0 mm.
    roughness_um : float, optional
        Ra that is asked for; the feed aims finer, since a real surface is rougher than its geometry. Above 0 um.
    deflection : LengthLike, optional
        Deflection that is allowed. Above 0 mm.
    approach : LengthLike, optional
        Travel of the tool before the cut. At least 0 mm. When not given: 2 mm.
    overrun : LengthLike, optional
        Travel of the tool past the cut. At least 0 mm. When not given: none.
    skin : {"clean", "scale", "cast skin", "drawn tube", "interrupted"}, default "clean"
        Skin or form of the stock where the cut goes: scale of rolling or forging, the skin of a casting, drawn
        tube, a cut that is interrupted.
    stiffness_n_um : float, optional
        Measured stiffness at the edge: a load beside the deflection that it makes. Tells the width of cut without
        chatter. Above 0 N/um.
    damping : float, optional
        Damping ratio of it. Above 0 and at most 1. When not given: 0.03.

    Returns
    -------
    Cut
        One cut: the levers to set and what it comes to.

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
    Kienzle's force with the rows that the evidence names; ISO 3685 for the edge's life.
    """
    answer: Cut = answer_to(
        "turn",
        "halfnut.cutting.figures:Cut",
        (
            alloy,
            diameter,
            depth,
            length,
            core_machine(machine),
            tool,
            finish,
            feed,
            spindle_rpm,
            hardness_hb,
            nose_radius,
            entering_deg,
            rake_deg,
            wear_factor,
            hold,
            chuck,
            stock,
            bar_length,
            bar_behind,
            stick_out,
            sections,
            cut_at,
            steadies,
            bore,
            roughness_um,
            deflection,
            approach,
            overrun,
            skin,
            stiffness_n_um,
            damping,
        ),
    )
    return answer


def face(
    alloy: AlloyLike,
    diameter: LengthLike,
    *,
    end_diameter: LengthLike | None = None,
    depth: LengthLike | None = None,
    machine: MachineLike | None = None,
    tool: str | None = None,
    finish: bool = False,
    feed: FeedLike | None = None,
    spindle_rpm: NumberLike | None = None,
    hardness_hb: NumberLike | None = None,
    nose_radius: LengthLike | None = None,
    rake_deg: NumberLike | None = None,
    wear_factor: float | None = None,
    chuck: HolderLike | None = None,
    stock: StockLike | None = None,
    bar_length: LengthLike | None = None,
    bar_behind: LengthLike | None = None,
    stick_out: LengthLike | None = None,
    bore: LengthLike | None = None,
    roughness_um: float | None = None,
    approach: LengthLike | None = None,
    overrun: LengthLike | None = None,
    skin: Literal["clean", "scale", "cast skin", "drawn tube", "interrupted"] = "clean",
) -> Cut:
    """Face an end: the spindle keeps the speed of the outer diameter, the cross slide feeds.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    diameter : LengthLike
        Diameter where the cut starts. Above 0 mm.
    end_diameter : LengthLike, optional
        Diameter where the cut ends. At least 0 mm. When not given: the centre, or the bore.
    depth : LengthLike, optional
        Depth of the cut along the axis. Above 0 mm. When not given: 1 mm, or 0.25 mm when finishing, in an inch
        question 0.040 in and 0.010 in, at most a quarter of the radius.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    finish : bool, default False
        A finishing cut, whatever its depth.
    feed : FeedLike, optional
        Feed of the cross slide wanted; the next finer of the machine is taken. Above 0 mm/rev.
    spindle_rpm : NumberLike, optional
        Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    nose_radius : LengthLike, optional
        Nose radius of the tool. At least 0 mm. When not given: 0.8 mm.
    rake_deg : NumberLike, optional
        Rake of the tool. From -30 to 40 deg. When not given: as the force constants were measured.
    wear_factor : float, optional
        Factor on the force, 1 of a sharp tool, 1.4 of a blunt one. Where it is not given the force is that of a
        sharp edge, while limits, upper edges of force and power, and the force across the edge with the deflection
        that it makes are those of an edge in use. From 1 to 3.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first.
    stock : StockLike, optional
        Bar or blank that is held: its diameter, or "30 mm hex" across the flats. When not given: the diameter that
        is cut.
    bar_length : LengthLike, optional
        Length of a whole bar that goes through the spindle. Above 0 mm.
    bar_behind : LengthLike, optional
        Length of a bar that is free behind the spindle. At least 0 mm.
    stick_out : LengthLike, optional
        Overhang of the work from the jaws. Above 0 mm.
    bore : LengthLike, optional
        Bore of a tube. At least 0 mm.
    roughness_um : float, optional
        Ra that is asked for; the feed aims finer, since a real surface is rougher than its geometry. Above 0 um.
    approach : LengthLike, optional
        Travel of the tool before the cut. At least 0 mm. When not given: 2 mm.
    overrun : LengthLike, optional
        Travel of the tool past the cut. At least 0 mm. When not given: none.
    skin : {"clean", "scale", "cast skin", "drawn tube", "interrupted"}, default "clean"
        Skin or form of the stock where the cut goes: scale of rolling or forging, the skin of a casting, drawn
        tube, a cut that is interrupted.

    Returns
    -------
    Cut
        One cut: the levers to set and what it comes to.

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
    Kienzle's force with the rows that the evidence names; ISO 3685 for the edge's life.
    """
    answer: Cut = answer_to(
        "face",
        "halfnut.cutting.figures:Cut",
        (
            alloy,
            diameter,
            end_diameter,
            depth,
            core_machine(machine),
            tool,
            finish,
            feed,
            spindle_rpm,
            hardness_hb,
            nose_radius,
            rake_deg,
            wear_factor,
            chuck,
            stock,
            bar_length,
            bar_behind,
            stick_out,
            bore,
            roughness_um,
            approach,
            overrun,
            skin,
        ),
    )
    return answer


def bore(
    alloy: AlloyLike,
    diameter: LengthLike,
    *,
    depth: LengthLike | None = None,
    length: LengthLike | None = None,
    machine: MachineLike | None = None,
    tool: str | None = None,
    finish: bool = False,
    feed: FeedLike | None = None,
    spindle_rpm: NumberLike | None = None,
    hardness_hb: NumberLike | None = None,
    nose_radius: LengthLike | None = None,
    entering_deg: NumberLike | None = None,
    rake_deg: NumberLike | None = None,
    wear_factor: float | None = None,
    chuck: HolderLike | None = None,
    stock: StockLike | None = None,
    bar_length: LengthLike | None = None,
    bar_behind: LengthLike | None = None,
    bar_diameter: LengthLike | None = None,
    bar_material: Literal["steel", "heavy metal", "carbide", "damped steel", "damped carbide"] = "steel",
    overhang: LengthLike | None = None,
    roughness_um: float | None = None,
    deflection: LengthLike | None = None,
    approach: LengthLike | None = None,
    overrun: LengthLike | None = None,
    skin: Literal["clean", "scale", "cast skin", "drawn tube", "interrupted"] = "clean",
    stiffness_n_um: float | None = None,
    damping: float | None = None,
) -> Cut:
    """Bore a hole with a single-point bar: spindle step, feed and what comes of them.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    diameter : LengthLike
        Diameter after the cut. Above 0 mm.
    depth : LengthLike, optional
        Depth of the cut on the radius. Above 0 mm. When not given: 1 mm, or 0.25 mm when finishing, in an inch
        question 0.040 in and 0.010 in, at most a quarter of the radius.
    length : LengthLike, optional
        Length of the cut along the work; without it there is no time. Above 0 mm.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    finish : bool, default False
        A finishing cut, whatever its depth.
    feed : FeedLike, optional
        Feed wanted, such as 0.1 mm/rev; the next finer of the machine is taken. Above 0 mm/rev.
    spindle_rpm : NumberLike, optional
        Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    nose_radius : LengthLike, optional
        Nose radius of the tool. At least 0 mm. When not given: 0.8 mm.
    entering_deg : NumberLike, optional
        Entering angle of the tool. From 10 to 120 deg. When not given: 90 degrees.
    rake_deg : NumberLike, optional
        Rake of the tool. From -30 to 40 deg. When not given: as the force constants were measured.
    wear_factor : float, optional
        Factor on the force, 1 of a sharp tool, 1.4 of a blunt one. Where it is not given the force is that of a
        sharp edge, while limits, upper edges of force and power, and the force across the edge with the deflection
        that it makes are those of an edge in use. From 1 to 3.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first.
    stock : StockLike, optional
        Bar or blank that is held: its diameter, or "30 mm hex" across the flats. When not given: the diameter that
        is cut.
    bar_length : LengthLike, optional
        Length of a whole bar that goes through the spindle. Above 0 mm.
    bar_behind : LengthLike, optional
        Length of a bar that is free behind the spindle. At least 0 mm.
    bar_diameter : LengthLike, optional
        Diameter of the boring bar; with its overhang it gives the deflection. Above 0 mm.
    bar_material : {"steel", "heavy metal", "carbide", "damped steel", "damped carbide"}, default "steel"
        What the boring bar is made of.
    overhang : LengthLike, optional
        Overhang of the boring bar from its holder. Above 0 mm.
    roughness_um : float, optional
        Ra that is asked for; the feed aims finer, since a real surface is rougher than its geometry. Above 0 um.
    deflection : LengthLike, optional
        Deflection that is allowed. Above 0 mm.
    approach : LengthLike, optional
        Travel of the tool before the cut. At least 0 mm. When not given: 2 mm.
    overrun : LengthLike, optional
        Travel of the tool past the cut. At least 0 mm. When not given: none.
    skin : {"clean", "scale", "cast skin", "drawn tube", "interrupted"}, default "clean"
        Skin or form of the stock where the cut goes: scale of rolling or forging, the skin of a casting, drawn
        tube, a cut that is interrupted.
    stiffness_n_um : float, optional
        Measured stiffness at the edge: a load beside the deflection that it makes. Tells the width of cut without
        chatter. Above 0 N/um.
    damping : float, optional
        Damping ratio of it. Above 0 and at most 1. When not given: 0.03.

    Returns
    -------
    Cut
        One cut: the levers to set and what it comes to.

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
    Kienzle's force with the rows that the evidence names; ISO 3685 for the edge's life.
    """
    answer: Cut = answer_to(
        "bore",
        "halfnut.cutting.figures:Cut",
        (
            alloy,
            diameter,
            depth,
            length,
            core_machine(machine),
            tool,
            finish,
            feed,
            spindle_rpm,
            hardness_hb,
            nose_radius,
            entering_deg,
            rake_deg,
            wear_factor,
            chuck,
            stock,
            bar_length,
            bar_behind,
            bar_diameter,
            bar_material,
            overhang,
            roughness_um,
            deflection,
            approach,
            overrun,
            skin,
            stiffness_n_um,
            damping,
        ),
    )
    return answer


def part_off(
    alloy: AlloyLike,
    diameter: LengthLike,
    *,
    blade: LengthLike | None = None,
    end_diameter: LengthLike | None = None,
    machine: MachineLike | None = None,
    tool: str | None = None,
    feed: FeedLike | None = None,
    spindle_rpm: NumberLike | None = None,
    hardness_hb: NumberLike | None = None,
    rake_deg: NumberLike | None = None,
    wear_factor: float | None = None,
    chuck: HolderLike | None = None,
    stock: StockLike | None = None,
    bar_length: LengthLike | None = None,
    bar_behind: LengthLike | None = None,
    bore: LengthLike | None = None,
    stick_out: LengthLike | None = None,
    approach: LengthLike | None = None,
    overrun: LengthLike | None = None,
) -> Cut:
    """Part off, or cut a groove that ends at a diameter.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    diameter : LengthLike
        Diameter where the cut starts. Above 0 mm.
    blade : LengthLike, optional
        Width of the blade. Above 0 mm. When not given: 3 mm, in an inch question 1/8 in.
    end_diameter : LengthLike, optional
        Diameter where the cut ends. At least 0 mm. When not given: the centre, or the bore.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    feed : FeedLike, optional
        Feed wanted, such as 0.1 mm/rev; the next finer of the machine is taken. Above 0 mm/rev.
    spindle_rpm : NumberLike, optional
        Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    rake_deg : NumberLike, optional
        Rake of the tool. From -30 to 40 deg. When not given: as the force constants were measured.
    wear_factor : float, optional
        Factor on the force, 1 of a sharp tool, 1.4 of a blunt one. Where it is not given the force is that of a
        sharp edge, while limits, upper edges of force and power, and the force across the edge with the deflection
        that it makes are those of an edge in use. From 1 to 3.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first.
    stock : StockLike, optional
        Bar or blank that is held: its diameter, or "30 mm hex" across the flats. When not given: the diameter that
        is cut.
    bar_length : LengthLike, optional
        Length of a whole bar that goes through the spindle. Above 0 mm.
    bar_behind : LengthLike, optional
        Length of a bar that is free behind the spindle. At least 0 mm.
    bore : LengthLike, optional
        Bore of a tube. At least 0 mm.
    stick_out : LengthLike, optional
        How far from the jaws the cut is; beyond a diameter there is a caution. Above 0 mm.
    approach : LengthLike, optional
        Travel of the tool before the cut. At least 0 mm. When not given: 2 mm.
    overrun : LengthLike, optional
        Travel of the tool past the cut. At least 0 mm. When not given: none.

    Returns
    -------
    Cut
        One cut: the levers to set and what it comes to.

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
    Kienzle's force with the rows that the evidence names; ISO 3685 for the edge's life.
    """
    answer: Cut = answer_to(
        "part_off",
        "halfnut.cutting.figures:Cut",
        (
            alloy,
            diameter,
            blade,
            end_diameter,
            core_machine(machine),
            tool,
            feed,
            spindle_rpm,
            hardness_hb,
            rake_deg,
            wear_factor,
            chuck,
            stock,
            bar_length,
            bar_behind,
            bore,
            stick_out,
            approach,
            overrun,
        ),
    )
    return answer


def knurl(
    alloy: AlloyLike,
    diameter: LengthLike,
    *,
    length: LengthLike | None = None,
    machine: MachineLike | None = None,
    feed: FeedLike | None = None,
    spindle_rpm: NumberLike | None = None,
    hardness_hb: NumberLike | None = None,
    chuck: HolderLike | None = None,
    hold: Literal["chuck", "chuck and centre", "between centres"] = "chuck",
    stock: StockLike | None = None,
    bar_length: LengthLike | None = None,
    bar_behind: LengthLike | None = None,
    stick_out: LengthLike | None = None,
    approach: LengthLike | None = None,
    overrun: LengthLike | None = None,
) -> Cut:
    """Speed and feed for knurling with form wheels; the blank is another question.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    diameter : LengthLike
        Diameter of the blank. Above 0 mm.
    length : LengthLike, optional
        Width of the knurled band; without it there is no time. Above 0 mm.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.
    feed : FeedLike, optional
        Feed wanted, such as 0.1 mm/rev; the next finer of the machine is taken. Above 0 mm/rev.
    spindle_rpm : NumberLike, optional
        Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first.
    hold : {"chuck", "chuck and centre", "between centres"}, default "chuck"
        How the work is held.
    stock : StockLike, optional
        Bar or blank that is held: its diameter, or "30 mm hex" across the flats. When not given: the diameter that
        is cut.
    bar_length : LengthLike, optional
        Length of a whole bar that goes through the spindle. Above 0 mm.
    bar_behind : LengthLike, optional
        Length of a bar that is free behind the spindle. At least 0 mm.
    stick_out : LengthLike, optional
        Overhang of the work from the jaws. Above 0 mm.
    approach : LengthLike, optional
        Travel of the tool before the cut. At least 0 mm. When not given: 2 mm.
    overrun : LengthLike, optional
        Travel of the tool past the cut. At least 0 mm. When not given: none.

    Returns
    -------
    Cut
        One cut: the levers to set and what it comes to.

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
    Kienzle's force with the rows that the evidence names; ISO 3685 for the edge's life.
    """
    answer: Cut = answer_to(
        "knurl",
        "halfnut.cutting.figures:Cut",
        (
            alloy,
            diameter,
            length,
            core_machine(machine),
            feed,
            spindle_rpm,
            hardness_hb,
            chuck,
            hold,
            stock,
            bar_length,
            bar_behind,
            stick_out,
            approach,
            overrun,
        ),
    )
    return answer


def thread_speed(
    alloy: AlloyLike,
    diameter: LengthLike,
    pitch: LengthLike,
    *,
    length: LengthLike | None = None,
    machine: MachineLike | None = None,
    tool: str | None = None,
    spindle_rpm: NumberLike | None = None,
    hardness_hb: NumberLike | None = None,
    chuck: HolderLike | None = None,
    stock: StockLike | None = None,
    bar_length: LengthLike | None = None,
    bar_behind: LengthLike | None = None,
    stick_out: LengthLike | None = None,
    sections: Sequence[SectionLike] = (),
    cut_at: LengthLike | None = None,
    hold: Literal["chuck", "chuck and centre", "between centres"] = "chuck",
) -> Cut:
    """Spindle step for single-point threading, and the time of one pass.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    diameter : LengthLike
        Major diameter of the thread. Above 0 mm.
    pitch : LengthLike
        Pitch of the thread, its lead where it has several starts. Above 0 mm.
    length : LengthLike, optional
        Length of the thread; without it there is no time. Above 0 mm.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    spindle_rpm : NumberLike, optional
        Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first.
    stock : StockLike, optional
        Bar or blank that is held: its diameter, or "30 mm hex" across the flats. When not given: the diameter that
        is cut.
    bar_length : LengthLike, optional
        Length of a whole bar that goes through the spindle. Above 0 mm.
    bar_behind : LengthLike, optional
        Length of a bar that is free behind the spindle. At least 0 mm.
    stick_out : LengthLike, optional
        Overhang of the work from the jaws. Above 0 mm.
    sections : Sequence[SectionLike], default ()
        Stepped work from the chuck or the first centre on, in place of the overhang: length, diameter and, of a
        tube, bore of each section.
    cut_at : LengthLike, optional
        Where on the sections the thread begins, from the end that is free. At least 0 mm. When not given: the end.
    hold : {"chuck", "chuck and centre", "between centres"}, default "chuck"
        How the work is held.

    Returns
    -------
    Cut
        One cut: the levers to set and what it comes to.

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
    Kienzle's force with the rows that the evidence names; ISO 3685 for the edge's life.
    """
    answer: Cut = answer_to(
        "thread_speed",
        "halfnut.cutting.figures:Cut",
        (
            alloy,
            diameter,
            pitch,
            length,
            core_machine(machine),
            tool,
            spindle_rpm,
            hardness_hb,
            chuck,
            stock,
            bar_length,
            bar_behind,
            stick_out,
            sections,
            cut_at,
            hold,
        ),
    )
    return answer


def drill(
    alloy: AlloyLike,
    diameter: LengthLike,
    *,
    depth: LengthLike | None = None,
    machine: MachineLike | None = None,
    tool: str | None = None,
    feed: FeedLike | None = None,
    spindle_rpm: NumberLike | None = None,
    hardness_hb: NumberLike | None = None,
    pilot: LengthLike | None = None,
    point_deg: NumberLike | None = None,
    wear_factor: float | None = None,
    chuck: HolderLike | None = None,
    stock: StockLike | None = None,
    bar_length: LengthLike | None = None,
    bar_behind: LengthLike | None = None,
    stick_out: LengthLike | None = None,
    approach: LengthLike | None = None,
    overrun: LengthLike | None = None,
) -> Cut:
    """Drill a hole, from a lathe's tailstock or a mill's quill: spindle step, feed, thrust, torque, time.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    diameter : LengthLike
        Diameter of the drill; a number or letter drill by its name, such as #7. Above 0 mm.
    depth : LengthLike, optional
        Depth of the full diameter, the point beyond it; without it there is no time. Above 0 mm.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    feed : FeedLike, optional
        Feed wanted, such as 0.1 mm/rev; the next finer of the machine is taken. Above 0 mm/rev.
    spindle_rpm : NumberLike, optional
        Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    pilot : LengthLike, optional
        Hole that is there already. At least 0 mm.
    point_deg : NumberLike, optional
        Angle of the point, both sides together. From 60 to 180 deg. When not given: 118 degrees.
    wear_factor : float, optional
        Factor on the force, 1 of a sharp tool, 1.4 of a blunt one. Where it is not given the force is that of a
        sharp edge, while limits and upper edges of force and power are those of an edge in use. From 1 to 3.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first.
    stock : StockLike, optional
        Bar or blank that is held: its diameter, or "30 mm hex" across the flats.
    bar_length : LengthLike, optional
        Length of a whole bar that goes through the spindle. Above 0 mm.
    bar_behind : LengthLike, optional
        Length of a bar that is free behind the spindle. At least 0 mm.
    stick_out : LengthLike, optional
        Overhang of the work from the jaws. Above 0 mm.
    approach : LengthLike, optional
        Travel of the tool before the cut. At least 0 mm. When not given: 2 mm.
    overrun : LengthLike, optional
        Travel of the tool past the cut. At least 0 mm. When not given: none.

    Returns
    -------
    Cut
        One cut: the levers to set and what it comes to.

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
    Thrust and torque of drilling after Machinery's Handbook, Kienzle's force of other tools, with the rows that the
    evidence names.
    """
    answer: Cut = answer_to(
        "drill",
        "halfnut.cutting.figures:Cut",
        (
            alloy,
            diameter,
            depth,
            core_machine(machine),
            tool,
            feed,
            spindle_rpm,
            hardness_hb,
            pilot,
            point_deg,
            wear_factor,
            chuck,
            stock,
            bar_length,
            bar_behind,
            stick_out,
            approach,
            overrun,
        ),
    )
    return answer


def spot(
    alloy: AlloyLike,
    diameter: LengthLike,
    *,
    machine: MachineLike | None = None,
    tool: str | None = None,
    feed: FeedLike | None = None,
    spindle_rpm: NumberLike | None = None,
    hardness_hb: NumberLike | None = None,
    point_deg: NumberLike | None = None,
    chuck: HolderLike | None = None,
    stock: StockLike | None = None,
    bar_length: LengthLike | None = None,
    bar_behind: LengthLike | None = None,
    stick_out: LengthLike | None = None,
    approach: LengthLike | None = None,
) -> Cut:
    """Spot a hole's place before it is drilled; the forces are those of a drill as wide.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    diameter : LengthLike
        Diameter of the spot at the surface; a little more than the hole leaves its chamfer. Above 0 mm.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    feed : FeedLike, optional
        Feed wanted, such as 0.1 mm/rev; the next finer of the machine is taken. Above 0 mm/rev.
    spindle_rpm : NumberLike, optional
        Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    point_deg : NumberLike, optional
        Angle of the point, both sides together. From 60 to 180 deg. When not given: 90 degrees.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first.
    stock : StockLike, optional
        Bar or blank that is held: its diameter, or "30 mm hex" across the flats.
    bar_length : LengthLike, optional
        Length of a whole bar that goes through the spindle. Above 0 mm.
    bar_behind : LengthLike, optional
        Length of a bar that is free behind the spindle. At least 0 mm.
    stick_out : LengthLike, optional
        Overhang of the work from the jaws. Above 0 mm.
    approach : LengthLike, optional
        Travel of the tool before the cut. At least 0 mm. When not given: 2 mm.

    Returns
    -------
    Cut
        One cut: the levers to set and what it comes to.

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
    Thrust and torque of drilling after Machinery's Handbook, Kienzle's force of other tools, with the rows that the
    evidence names.
    """
    answer: Cut = answer_to(
        "spot",
        "halfnut.cutting.figures:Cut",
        (
            alloy,
            diameter,
            core_machine(machine),
            tool,
            feed,
            spindle_rpm,
            hardness_hb,
            point_deg,
            chuck,
            stock,
            bar_length,
            bar_behind,
            stick_out,
            approach,
        ),
    )
    return answer


def countersink(
    alloy: AlloyLike,
    diameter: LengthLike,
    hole: LengthLike,
    *,
    machine: MachineLike | None = None,
    tool: str | None = None,
    flutes: int | None = None,
    feed: FeedLike | None = None,
    spindle_rpm: NumberLike | None = None,
    hardness_hb: NumberLike | None = None,
    included_deg: NumberLike | None = None,
    chuck: HolderLike | None = None,
    stock: StockLike | None = None,
    bar_length: LengthLike | None = None,
    bar_behind: LengthLike | None = None,
    stick_out: LengthLike | None = None,
    approach: LengthLike | None = None,
) -> Cut:
    """Countersink a hole: spindle step, feed, and the torque at the widest place.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    diameter : LengthLike
        Diameter of the cone at the surface. Above 0 mm.
    hole : LengthLike
        Diameter of the hole. At least 0 mm.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    flutes : int, optional
        Cutting edges of the tool. From 1 to 20. When not given: 3.
    feed : FeedLike, optional
        Feed wanted, such as 0.1 mm/rev; the next finer of the machine is taken. Above 0 mm/rev.
    spindle_rpm : NumberLike, optional
        Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    included_deg : NumberLike, optional
        Angle of the cone, both sides together; 82 and 100 degrees are usual in inch work. From 60 to 180 deg. When
        not given: 90 degrees.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first.
    stock : StockLike, optional
        Bar or blank that is held: its diameter, or "30 mm hex" across the flats.
    bar_length : LengthLike, optional
        Length of a whole bar that goes through the spindle. Above 0 mm.
    bar_behind : LengthLike, optional
        Length of a bar that is free behind the spindle. At least 0 mm.
    stick_out : LengthLike, optional
        Overhang of the work from the jaws. Above 0 mm.
    approach : LengthLike, optional
        Travel of the tool before the cut. At least 0 mm. When not given: 2 mm.

    Returns
    -------
    Cut
        One cut: the levers to set and what it comes to.

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
    Thrust and torque of drilling after Machinery's Handbook, Kienzle's force of other tools, with the rows that the
    evidence names.
    """
    answer: Cut = answer_to(
        "countersink",
        "halfnut.cutting.figures:Cut",
        (
            alloy,
            diameter,
            hole,
            core_machine(machine),
            tool,
            flutes,
            feed,
            spindle_rpm,
            hardness_hb,
            included_deg,
            chuck,
            stock,
            bar_length,
            bar_behind,
            stick_out,
            approach,
        ),
    )
    return answer


def counterbore(
    alloy: AlloyLike,
    diameter: LengthLike,
    hole: LengthLike,
    *,
    depth: LengthLike | None = None,
    machine: MachineLike | None = None,
    tool: str | None = None,
    flutes: int | None = None,
    feed: FeedLike | None = None,
    spindle_rpm: NumberLike | None = None,
    hardness_hb: NumberLike | None = None,
    chuck: HolderLike | None = None,
    stock: StockLike | None = None,
    bar_length: LengthLike | None = None,
    bar_behind: LengthLike | None = None,
    stick_out: LengthLike | None = None,
    approach: LengthLike | None = None,
) -> Cut:
    """Counterbore a hole, flat at the bottom: spindle step, feed and torque.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    diameter : LengthLike
        Diameter of the counterbore. Above 0 mm.
    hole : LengthLike
        Diameter of the hole, which guides the tool. At least 0 mm.
    depth : LengthLike, optional
        Depth of the counterbore; without it there is no time. Above 0 mm.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    flutes : int, optional
        Cutting edges of the tool. From 1 to 20. When not given: 3.
    feed : FeedLike, optional
        Feed wanted, such as 0.1 mm/rev; the next finer of the machine is taken. Above 0 mm/rev.
    spindle_rpm : NumberLike, optional
        Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first.
    stock : StockLike, optional
        Bar or blank that is held: its diameter, or "30 mm hex" across the flats.
    bar_length : LengthLike, optional
        Length of a whole bar that goes through the spindle. Above 0 mm.
    bar_behind : LengthLike, optional
        Length of a bar that is free behind the spindle. At least 0 mm.
    stick_out : LengthLike, optional
        Overhang of the work from the jaws. Above 0 mm.
    approach : LengthLike, optional
        Travel of the tool before the cut. At least 0 mm. When not given: 2 mm.

    Returns
    -------
    Cut
        One cut: the levers to set and what it comes to.

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
    Thrust and torque of drilling after Machinery's Handbook, Kienzle's force of other tools, with the rows that the
    evidence names.
    """
    answer: Cut = answer_to(
        "counterbore",
        "halfnut.cutting.figures:Cut",
        (
            alloy,
            diameter,
            hole,
            depth,
            core_machine(machine),
            tool,
            flutes,
            feed,
            spindle_rpm,
            hardness_hb,
            chuck,
            stock,
            bar_length,
            bar_behind,
            stick_out,
            approach,
        ),
    )
    return answer


def ream(
    alloy: AlloyLike,
    diameter: LengthLike,
    *,
    depth: LengthLike | None = None,
    machine: MachineLike | None = None,
    tool: str | None = None,
    feed: FeedLike | None = None,
    spindle_rpm: NumberLike | None = None,
    hardness_hb: NumberLike | None = None,
    hole: LengthLike | None = None,
    flutes: int | None = None,
    chuck: HolderLike | None = None,
    stock: StockLike | None = None,
    bar_length: LengthLike | None = None,
    bar_behind: LengthLike | None = None,
    stick_out: LengthLike | None = None,
    approach: LengthLike | None = None,
    overrun: LengthLike | None = None,
) -> Cut:
    """Ream a drilled hole: spindle step, feed, time and, where the hole is known, torque and thrust.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    diameter : LengthLike
        Diameter of the reamer. Above 0 mm.
    depth : LengthLike, optional
        Depth of the full diameter; without it there is no time. Above 0 mm.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    feed : FeedLike, optional
        Feed wanted, such as 0.1 mm/rev; the next finer of the machine is taken. Above 0 mm/rev.
    spindle_rpm : NumberLike, optional
        Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    hole : LengthLike, optional
        Hole as drilled or bored; without it there is no force. At least 0 mm.
    flutes : int, optional
        Cutting edges of the tool. From 1 to 20. When not given: 6.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first.
    stock : StockLike, optional
        Bar or blank that is held: its diameter, or "30 mm hex" across the flats.
    bar_length : LengthLike, optional
        Length of a whole bar that goes through the spindle. Above 0 mm.
    bar_behind : LengthLike, optional
        Length of a bar that is free behind the spindle. At least 0 mm.
    stick_out : LengthLike, optional
        Overhang of the work from the jaws. Above 0 mm.
    approach : LengthLike, optional
        Travel of the tool before the cut. At least 0 mm. When not given: 2 mm.
    overrun : LengthLike, optional
        Travel of the tool past the cut. At least 0 mm. When not given: none.

    Returns
    -------
    Cut
        One cut: the levers to set and what it comes to.

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
    Thrust and torque of drilling after Machinery's Handbook, Kienzle's force of other tools, with the rows that the
    evidence names.
    """
    answer: Cut = answer_to(
        "ream",
        "halfnut.cutting.figures:Cut",
        (
            alloy,
            diameter,
            depth,
            core_machine(machine),
            tool,
            feed,
            spindle_rpm,
            hardness_hb,
            hole,
            flutes,
            chuck,
            stock,
            bar_length,
            bar_behind,
            stick_out,
            approach,
            overrun,
        ),
    )
    return answer


def tap(
    alloy: AlloyLike,
    thread: ThreadLike,
    *,
    depth: LengthLike | None = None,
    machine: MachineLike | None = None,
    tool: str | None = None,
    spindle_rpm: NumberLike | None = None,
    hardness_hb: NumberLike | None = None,
    wear_factor: float | None = None,
    form: bool = False,
    chuck: HolderLike | None = None,
    stock: StockLike | None = None,
    bar_length: LengthLike | None = None,
    bar_behind: LengthLike | None = None,
    stick_out: LengthLike | None = None,
    approach: LengthLike | None = None,
    overrun: LengthLike | None = None,
) -> Cut:
    """Tap a drilled hole with a machine tap, in and out again: spindle step, torque, time.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    thread : ThreadLike
        Thread by its designation, such as M6, 1/4-20 UNC, G1/4 or 1/8-27 NPT; of one start.
    depth : LengthLike, optional
        Depth of the thread; without it there is no time. Above 0 mm.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    spindle_rpm : NumberLike, optional
        Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    wear_factor : float, optional
        Factor on the force, 1 of a sharp tool, 1.4 of a blunt one. Where it is not given the force is that of a
        sharp edge, while limits and upper edges of force and power are those of an edge in use. From 1 to 3.
    form : bool, default False
        A tap that forms the thread without a chip; its torque is rough.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first.
    stock : StockLike, optional
        Bar or blank that is held: its diameter, or "30 mm hex" across the flats.
    bar_length : LengthLike, optional
        Length of a whole bar that goes through the spindle. Above 0 mm.
    bar_behind : LengthLike, optional
        Length of a bar that is free behind the spindle. At least 0 mm.
    stick_out : LengthLike, optional
        Overhang of the work from the jaws. Above 0 mm.
    approach : LengthLike, optional
        Travel of the tool before the cut. At least 0 mm. When not given: 2 mm.
    overrun : LengthLike, optional
        Travel of the tool past the cut. At least 0 mm. When not given: none.

    Returns
    -------
    Cut
        One cut: the levers to set and what it comes to.

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
    Thrust and torque of drilling after Machinery's Handbook, Kienzle's force of other tools, with the rows that the
    evidence names.
    """
    answer: Cut = answer_to(
        "tap",
        "halfnut.cutting.figures:Cut",
        (
            alloy,
            thread,
            depth,
            core_machine(machine),
            tool,
            spindle_rpm,
            hardness_hb,
            wear_factor,
            form,
            chuck,
            stock,
            bar_length,
            bar_behind,
            stick_out,
            approach,
            overrun,
        ),
    )
    return answer


def hold(
    alloy: AlloyLike,
    diameter: LengthLike,
    *,
    depth: LengthLike | None = None,
    length: LengthLike | None = None,
    machine: MachineLike | None = None,
    tool: str | None = None,
    finish: bool = False,
    feed: FeedLike | None = None,
    spindle_rpm: NumberLike | None = None,
    hardness_hb: NumberLike | None = None,
    nose_radius: LengthLike | None = None,
    entering_deg: NumberLike | None = None,
    rake_deg: NumberLike | None = None,
    wear_factor: float | None = None,
    hold: Literal["chuck", "chuck and centre", "between centres"] = "chuck",
    chuck: HolderLike | None = None,
    stock: StockLike | None = None,
    bar_length: LengthLike | None = None,
    bar_behind: LengthLike | None = None,
    stick_out: LengthLike | None = None,
    sections: Sequence[SectionLike] = (),
    cut_at: LengthLike | None = None,
    steadies: Sequence[LengthLike] = (),
    bore: LengthLike | None = None,
    roughness_um: float | None = None,
    deflection: LengthLike | None = None,
    approach: LengthLike | None = None,
    overrun: LengthLike | None = None,
    skin: Literal["clean", "scale", "cast skin", "drawn tube", "interrupted"] = "clean",
    jaws: int | None = None,
    grip_diameter: LengthLike | None = None,
    grip_width: LengthLike | None = None,
    friction: float | None = None,
    safety: float | None = None,
    tolerance: LengthLike | None = None,
    out_of_round: LengthLike | None = None,
) -> Holding:
    """How far work deflects, is squeezed and warms where it is held, under the cut that turning would make.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    diameter : LengthLike
        Diameter before the cut. Above 0 mm.
    depth : LengthLike, optional
        Depth of the cut on the radius. Above 0 mm. When not given: 1 mm, or 0.25 mm when finishing, in an inch
        question 0.040 in and 0.010 in, at most a quarter of the radius.
    length : LengthLike, optional
        Length of the cut along the work; without it there is no time. Above 0 mm.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    finish : bool, default False
        A finishing cut, whatever its depth.
    feed : FeedLike, optional
        Feed wanted, such as 0.1 mm/rev; the next finer of the machine is taken. Above 0 mm/rev.
    spindle_rpm : NumberLike, optional
        Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    nose_radius : LengthLike, optional
        Nose radius of the tool. At least 0 mm. When not given: 0.8 mm.
    entering_deg : NumberLike, optional
        Entering angle of the tool. From 10 to 120 deg. When not given: 90 degrees.
    rake_deg : NumberLike, optional
        Rake of the tool. From -30 to 40 deg. When not given: as the force constants were measured.
    wear_factor : float, optional
        Factor on the force, 1 of a sharp tool, 1.4 of a blunt one. Where it is not given the force is that of a
        sharp edge, while limits, upper edges of force and power, and the force across the edge with the deflection
        that it makes are those of an edge in use. From 1 to 3.
    hold : {"chuck", "chuck and centre", "between centres"}, default "chuck"
        How the work is held.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first.
    stock : StockLike, optional
        Bar or blank that is held: its diameter, or "30 mm hex" across the flats. When not given: the diameter that
        is cut.
    bar_length : LengthLike, optional
        Length of a whole bar that goes through the spindle. Above 0 mm.
    bar_behind : LengthLike, optional
        Length of a bar that is free behind the spindle. At least 0 mm.
    stick_out : LengthLike, optional
        Overhang of the work from the jaws, or the distance between centres. Above 0 mm. When not given: the length
        of the cut, which it is at least; without either there is no deflection.
    sections : Sequence[SectionLike], default ()
        Stepped work from the chuck or the first centre on, in place of the overhang: length, diameter and, of a
        tube, bore of each section. The deflection is that of the beam at its worst place.
    cut_at : LengthLike, optional
        Where on the sections the cut begins, from the end that is free or on the last centre: what is turned there
        has the diameter of the cut, and the deflection is the worst along the cut. At least 0 mm. When not given:
        it is not known: the worst along the work.
    steadies : Sequence[LengthLike], default ()
        Place of each fixed steady, from the chuck or the first centre.
    bore : LengthLike, optional
        Bore of a tube. At least 0 mm.
    roughness_um : float, optional
        Ra that is asked for; the feed aims finer, since a real surface is rougher than its geometry. Above 0 um.
    deflection : LengthLike, optional
        Deflection that is allowed. Above 0 mm.
    approach : LengthLike, optional
        Travel of the tool before the cut. At least 0 mm. When not given: 2 mm.
    overrun : LengthLike, optional
        Travel of the tool past the cut. At least 0 mm. When not given: none.
    skin : {"clean", "scale", "cast skin", "drawn tube", "interrupted"}, default "clean"
        Skin or form of the stock where the cut goes: scale of rolling or forging, the skin of a casting, drawn
        tube, a cut that is interrupted.
    jaws : int, optional
        Jaws of the chuck; each contact of a pie jaw or a collet counts. From 2 to 100. When not given: 3.
    grip_diameter : LengthLike, optional
        Diameter where the jaws grip. Above 0 mm. When not given: that before the cut.
    grip_width : LengthLike, optional
        Width that the jaws bear on. Above 0 mm. When not given: a quarter of the diameter.
    friction : float, optional
        Friction of the jaws on the work: smooth jaws 0.1 to 0.2, serrated ones on raw stock 0.3 to 0.5. Above 0 and
        at most 1.
    safety : float, optional
        Safety against slipping; asked for with the friction, never assumed. From 1 to 1000.
    tolerance : LengthLike, optional
        Tolerance of the diameter. Above 0 mm.
    out_of_round : LengthLike, optional
        Out-of-round that may remain on the radius of a tube. Above 0 mm.

    Returns
    -------
    Holding
        Work where it is held, under one cut.

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
    Beams by the unit-load theorem; thin rings after Timoshenko, Strength of Materials; the rules that the evidence
    names.
    """
    answer: Holding = answer_to(
        "hold",
        "halfnut.cutting.figures:Holding",
        (
            alloy,
            diameter,
            depth,
            length,
            core_machine(machine),
            tool,
            finish,
            feed,
            spindle_rpm,
            hardness_hb,
            nose_radius,
            entering_deg,
            rake_deg,
            wear_factor,
            hold,
            chuck,
            stock,
            bar_length,
            bar_behind,
            stick_out,
            sections,
            cut_at,
            steadies,
            bore,
            roughness_um,
            deflection,
            approach,
            overrun,
            skin,
            jaws,
            grip_diameter,
            grip_width,
            friction,
            safety,
            tolerance,
            out_of_round,
        ),
    )
    return answer


def work_bend(
    sections: Sequence[SectionLike],
    *,
    force: ForceLike,
    hold: Literal["chuck", "chuck and centre", "between centres"] = "chuck",
    alloy: AlloyLike | None = None,
    youngs_modulus_gpa: float | None = None,
    steadies: Sequence[LengthLike] = (),
    centre_n_um: float | None = None,
    chuck_n_um: float | None = None,
    tolerance: LengthLike | None = None,
    places: int | None = None,
) -> WorkBend:
    """How far stepped work deflects at the tool, and the diameters it leaves.

    Parameters
    ----------
    sections : Sequence[SectionLike]
        Length, diameter and, of a tube, bore of each section, from the chuck or the first centre on.
    force : ForceLike
        Force across the work, such as 120 N or 27 lbf.
    hold : {"chuck", "chuck and centre", "between centres"}, default "chuck"
        How the work is held.
    alloy : AlloyLike, optional
        The work's material, whose Young's modulus is taken.
    youngs_modulus_gpa : float, optional
        Young's modulus, in place of an alloy's. Above 0 GPa.
    steadies : Sequence[LengthLike], default ()
        Place of each fixed steady, from the chuck or the first centre.
    centre_n_um : float, optional
        Stiffness of a centre. Above 0 N/um. When not given: one that does not give.
    chuck_n_um : float, optional
        Stiffness of the work's seat in the chuck. Above 0 N/um. When not given: one that does not give.
    tolerance : LengthLike, optional
        Tolerance of the diameter; a bend that takes over half of it is a caution. Above 0 mm.
    places : int, optional
        Places along the work to answer. From 2 to 10000. When not given: 101.

    Returns
    -------
    WorkBend
        How far work deflects at the tool as the tool travels along it.

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
    Beams by the unit-load theorem; thin rings after Timoshenko, Strength of Materials; the rules that the evidence
    names.
    """
    answer: WorkBend = answer_to(
        "work_bend",
        "halfnut.cutting.figures:WorkBend",
        (
            sections,
            force,
            hold,
            alloy,
            youngs_modulus_gpa,
            steadies,
            centre_n_um,
            chuck_n_um,
            tolerance,
            places,
        ),
    )
    return answer


def jaw_squeeze(
    outside: LengthLike,
    bore: LengthLike,
    *,
    width: LengthLike,
    cutting_force: ForceLike,
    friction: float,
    safety: float,
    jaws: int | None = None,
    cut_diameter: LengthLike | None = None,
    alloy: AlloyLike | None = None,
    youngs_modulus_gpa: float | None = None,
    spindle_rpm: NumberLike | None = None,
    jaw_mass_kg: NumberLike | None = None,
    mass_radius: LengthLike | None = None,
    allowed: LengthLike | None = None,
) -> JawSqueeze:
    """The jaw force that a ring or tube needs, and how far out of round that leaves it.

    Parameters
    ----------
    outside : LengthLike
        Diameter of the ring where the jaws grip it. Above 0 mm.
    bore : LengthLike
        Bore of the ring, which is turned in the jaws. Above 0 mm.
    width : LengthLike
        Width of the ring that the jaws bear on. Above 0 mm.
    cutting_force : ForceLike
        Force that turns the work in the jaws, such as 300 N. At least 0 N.
    friction : float
        Friction of the jaws on the work: smooth jaws 0.1 to 0.2, serrated ones on raw stock 0.3 to 0.5. Above 0 and
        at most 1.
    safety : float
        Safety against slipping; asked for with the friction, never assumed. From 1 to 1000.
    jaws : int, optional
        Jaws of the chuck; each contact of a pie jaw or a collet counts. From 2 to 100. When not given: 3.
    cut_diameter : LengthLike, optional
        Diameter where the tool cuts. Above 0 mm. When not given: the bore.
    alloy : AlloyLike, optional
        The work's material, whose Young's modulus is taken.
    youngs_modulus_gpa : float, optional
        Young's modulus, in place of an alloy's. Above 0 GPa.
    spindle_rpm : NumberLike, optional
        Spindle speed at which the grip must hold. At least 0 rev/min.
    jaw_mass_kg : NumberLike, optional
        Mass of one jaw with its top jaw; with it and a spindle speed the force to set is told. Above 0 kg.
    mass_radius : LengthLike, optional
        Distance of the jaw's centre of mass from the axis. Above 0 mm.
    allowed : LengthLike, optional
        Out-of-round that may remain on the radius. Above 0 mm.

    Returns
    -------
    JawSqueeze
        A ring or tube in jaws: the force that holds it, and how far out of round it comes when bored there.

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
    Beams by the unit-load theorem; thin rings after Timoshenko, Strength of Materials; the rules that the evidence
    names.
    """
    answer: JawSqueeze = answer_to(
        "jaw_squeeze",
        "halfnut.cutting.figures:JawSqueeze",
        (
            outside,
            bore,
            width,
            cutting_force,
            friction,
            safety,
            jaws,
            cut_diameter,
            alloy,
            youngs_modulus_gpa,
            spindle_rpm,
            jaw_mass_kg,
            mass_radius,
            allowed,
        ),
    )
    return answer


def taper(
    alloy: AlloyLike,
    large: LengthLike,
    small: LengthLike | None = None,
    length: LengthLike | None = None,
    *,
    between_centres: LengthLike | None = None,
    depth: LengthLike | None = None,
    machine: MachineLike | None = None,
    tool: str | None = None,
    finish: bool = False,
    feed: FeedLike | None = None,
    spindle_rpm: NumberLike | None = None,
    hardness_hb: NumberLike | None = None,
    nose_radius: LengthLike | None = None,
    entering_deg: NumberLike | None = None,
    rake_deg: NumberLike | None = None,
    wear_factor: float | None = None,
    hold: Literal["chuck", "chuck and centre", "between centres"] = "chuck",
    chuck: HolderLike | None = None,
    stock: StockLike | None = None,
    bar_length: LengthLike | None = None,
    bar_behind: LengthLike | None = None,
    stick_out: LengthLike | None = None,
    sections: Sequence[SectionLike] = (),
    cut_at: LengthLike | None = None,
    steadies: Sequence[LengthLike] = (),
    bore: LengthLike | None = None,
    roughness_um: float | None = None,
    deflection: LengthLike | None = None,
    approach: LengthLike | None = None,
    overrun: LengthLike | None = None,
    skin: Literal["clean", "scale", "cast skin", "drawn tube", "interrupted"] = "clean",
) -> Taper:
    """Turn a taper: the setting of compound or tailstock, and the cut at the large end.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    large : LengthLike
        Diameter at the large end, or a self-holding taper by its name, such as morse 3, which has its own ends and
        length.
    small : LengthLike, optional
        Diameter at the small end. Above 0 mm.
    length : LengthLike, optional
        Distance between the ends along the axis. Above 0 mm.
    between_centres : LengthLike, optional
        Length of the whole work, for setting over the tailstock. Above 0 mm.
    depth : LengthLike, optional
        Depth of the cut on the radius. Above 0 mm. When not given: 1 mm, or 0.25 mm when finishing, in an inch
        question 0.040 in and 0.010 in, at most a quarter of the radius.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    finish : bool, default False
        A finishing cut, whatever its depth.
    feed : FeedLike, optional
        Feed wanted, such as 0.1 mm/rev; the next finer of the machine is taken. Above 0 mm/rev.
    spindle_rpm : NumberLike, optional
        Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    nose_radius : LengthLike, optional
        Nose radius of the tool. At least 0 mm. When not given: 0.8 mm.
    entering_deg : NumberLike, optional
        Entering angle of the tool. From 10 to 120 deg. When not given: 90 degrees.
    rake_deg : NumberLike, optional
        Rake of the tool. From -30 to 40 deg. When not given: as the force constants were measured.
    wear_factor : float, optional
        Factor on the force, 1 of a sharp tool, 1.4 of a blunt one. Where it is not given the force is that of a
        sharp edge, while limits, upper edges of force and power, and the force across the edge with the deflection
        that it makes are those of an edge in use. From 1 to 3.
    hold : {"chuck", "chuck and centre", "between centres"}, default "chuck"
        How the work is held.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first.
    stock : StockLike, optional
        Bar or blank that is held: its diameter, or "30 mm hex" across the flats. When not given: the diameter that
        is cut.
    bar_length : LengthLike, optional
        Length of a whole bar that goes through the spindle. Above 0 mm.
    bar_behind : LengthLike, optional
        Length of a bar that is free behind the spindle. At least 0 mm.
    stick_out : LengthLike, optional
        Overhang of the work from the jaws, or the distance between centres. Above 0 mm. When not given: the length
        of the cut, which it is at least; without either there is no deflection.
    sections : Sequence[SectionLike], default ()
        Stepped work from the chuck or the first centre on, in place of the overhang: length, diameter and, of a
        tube, bore of each section. The deflection is that of the beam at its worst place.
    cut_at : LengthLike, optional
        Where on the sections the cut begins, from the end that is free or on the last centre: what is turned there
        has the diameter of the cut, and the deflection is the worst along the cut. At least 0 mm. When not given:
        it is not known: the worst along the work.
    steadies : Sequence[LengthLike], default ()
        Place of each fixed steady, from the chuck or the first centre.
    bore : LengthLike, optional
        Bore of a tube. At least 0 mm.
    roughness_um : float, optional
        Ra that is asked for; the feed aims finer, since a real surface is rougher than its geometry. Above 0 um.
    deflection : LengthLike, optional
        Deflection that is allowed. Above 0 mm.
    approach : LengthLike, optional
        Travel of the tool before the cut. At least 0 mm. When not given: 2 mm.
    overrun : LengthLike, optional
        Travel of the tool past the cut. At least 0 mm. When not given: none.
    skin : {"clean", "scale", "cast skin", "drawn tube", "interrupted"}, default "clean"
        Skin or form of the stock where the cut goes: scale of rolling or forging, the skin of a casting, drawn
        tube, a cut that is interrupted.

    Returns
    -------
    Taper
        A taper: how to set the machine, and the cut at its large end.

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
    Kienzle's force with the rows that the evidence names; ISO 3685 for the edge's life.
    """
    answer: Taper = answer_to(
        "taper",
        "halfnut.cutting.figures:Taper",
        (
            alloy,
            large,
            small,
            length,
            between_centres,
            depth,
            core_machine(machine),
            tool,
            finish,
            feed,
            spindle_rpm,
            hardness_hb,
            nose_radius,
            entering_deg,
            rake_deg,
            wear_factor,
            hold,
            chuck,
            stock,
            bar_length,
            bar_behind,
            stick_out,
            sections,
            cut_at,
            steadies,
            bore,
            roughness_um,
            deflection,
            approach,
            overrun,
            skin,
        ),
    )
    return answer


def groove(
    alloy: AlloyLike,
    diameter: LengthLike,
    end_diameter: LengthLike,
    *,
    width: LengthLike | None = None,
    blade: LengthLike | None = None,
    machine: MachineLike | None = None,
    tool: str | None = None,
    feed: FeedLike | None = None,
    spindle_rpm: NumberLike | None = None,
    hardness_hb: NumberLike | None = None,
    rake_deg: NumberLike | None = None,
    wear_factor: float | None = None,
    chuck: HolderLike | None = None,
    stock: StockLike | None = None,
    bar_length: LengthLike | None = None,
    bar_behind: LengthLike | None = None,
    bore: LengthLike | None = None,
    stick_out: LengthLike | None = None,
    approach: LengthLike | None = None,
    overrun: LengthLike | None = None,
) -> Groove:
    """Cut a groove with a blade, in as many plunges as its width takes.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    diameter : LengthLike
        Diameter of the work. Above 0 mm.
    end_diameter : LengthLike
        Diameter at the bottom of the groove. At least 0 mm.
    width : LengthLike, optional
        Width of the groove. Above 0 mm. When not given: the blade's.
    blade : LengthLike, optional
        Width of the blade. Above 0 mm. When not given: 3 mm, in an inch question 1/8 in.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    feed : FeedLike, optional
        Feed wanted, such as 0.1 mm/rev; the next finer of the machine is taken. Above 0 mm/rev.
    spindle_rpm : NumberLike, optional
        Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    rake_deg : NumberLike, optional
        Rake of the tool. From -30 to 40 deg. When not given: as the force constants were measured.
    wear_factor : float, optional
        Factor on the force, 1 of a sharp tool, 1.4 of a blunt one. Where it is not given the force is that of a
        sharp edge, while limits, upper edges of force and power, and the force across the edge with the deflection
        that it makes are those of an edge in use. From 1 to 3.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first.
    stock : StockLike, optional
        Bar or blank that is held: its diameter, or "30 mm hex" across the flats. When not given: the diameter that
        is cut.
    bar_length : LengthLike, optional
        Length of a whole bar that goes through the spindle. Above 0 mm.
    bar_behind : LengthLike, optional
        Length of a bar that is free behind the spindle. At least 0 mm.
    bore : LengthLike, optional
        Bore of a tube. At least 0 mm.
    stick_out : LengthLike, optional
        How far from the jaws the cut is; beyond a diameter there is a caution. Above 0 mm.
    approach : LengthLike, optional
        Travel of the tool before the cut. At least 0 mm. When not given: 2 mm.
    overrun : LengthLike, optional
        Travel of the tool past the cut. At least 0 mm. When not given: none.

    Returns
    -------
    Groove
        A groove: plunges side by side, each a cut of the blade.

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
    Kienzle's force with the rows that the evidence names; ISO 3685 for the edge's life.
    """
    answer: Groove = answer_to(
        "groove",
        "halfnut.cutting.figures:Groove",
        (
            alloy,
            diameter,
            end_diameter,
            width,
            blade,
            core_machine(machine),
            tool,
            feed,
            spindle_rpm,
            hardness_hb,
            rake_deg,
            wear_factor,
            chuck,
            stock,
            bar_length,
            bar_behind,
            bore,
            stick_out,
            approach,
            overrun,
        ),
    )
    return answer


def mill(
    alloy: AlloyLike,
    cutter: LengthLike,
    *,
    depth: LengthLike,
    flutes: int | None = None,
    shape: Literal["slot", "side", "pocket", "face"] = "side",
    width: LengthLike | None = None,
    length: LengthLike | None = None,
    step_over: LengthLike | None = None,
    step_down: LengthLike | None = None,
    machine: MachineLike | None = None,
    tool: str | None = None,
    feed_per_tooth: LengthLike | None = None,
    spindle_rpm: NumberLike | None = None,
    hardness_hb: NumberLike | None = None,
    entering_deg: NumberLike | None = None,
    nose_radius: LengthLike | None = None,
    roughness_um: float | None = None,
    stick_out: LengthLike | None = None,
    deflection: LengthLike | None = None,
    wear_factor: float | None = None,
    approach: LengthLike | None = None,
    overrun: LengthLike | None = None,
    skin: Literal["clean", "scale", "cast skin", "drawn tube", "interrupted"] = "clean",
) -> Cut:
    """Mill a slot, a side or a pocket with an end mill, or a face with a face mill.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    cutter : LengthLike
        Diameter of the cutter. Above 0 mm.
    depth : LengthLike
        Depth to be cut away along the cutter's axis, in all passes. Above 0 mm.
    flutes : int, optional
        Teeth of the cutter. From 1 to 400. When not given: four, two below 5 mm.
    shape : {"slot", "side", "pocket", "face"}, default "side"
        What is milled: a slot, a side or a pocket with an end mill, or a face with a face mill.
    width : LengthLike, optional
        Width to be cut away across the feed, in all passes. Above 0 mm. When not given: a slot's its cutter's.
    length : LengthLike, optional
        Length along the feed; without it there is no time. Above 0 mm.
    step_over : LengthLike, optional
        Most across in one pass; the passes come out equal. Above 0 mm.
    step_down : LengthLike, optional
        Most down in one pass; the passes come out equal. Above 0 mm.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    feed_per_tooth : LengthLike, optional
        Feed a tooth wanted; the next slower feed of the table is taken. Above 0 mm.
    spindle_rpm : NumberLike, optional
        Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    entering_deg : NumberLike, optional
        Entering angle of a face mill's edge. From 10 to 90 deg. When not given: 90 degrees.
    nose_radius : LengthLike, optional
        Nose radius of a face mill's teeth. Above 0 mm. When not given: 0.8 mm.
    roughness_um : float, optional
        Ra that the feed may leave on a wall or a face, one tooth leading the others. Above 0 um.
    stick_out : LengthLike, optional
        Overhang of the cutter from its holder; without it there is no deflection. Above 0 mm.
    deflection : LengthLike, optional
        Deflection of the cutter that is allowed. Above 0 mm.
    wear_factor : float, optional
        Factor on the force, 1 of a sharp tool, 1.4 of a blunt one. Where it is not given the force is that of a
        sharp edge, while limits and upper edges of force and power are those of an edge in use. From 1 to 3.
    approach : LengthLike, optional
        Travel of the tool before the cut. At least 0 mm. When not given: 2 mm.
    overrun : LengthLike, optional
        Travel of the tool past the cut. At least 0 mm. When not given: none, with a face mill half its diameter.
    skin : {"clean", "scale", "cast skin", "drawn tube", "interrupted"}, default "clean"
        Skin or form of the stock where the cut goes: scale of rolling or forging, the skin of a casting, drawn
        tube, a cut that is interrupted.

    Returns
    -------
    Cut
        One cut: the levers to set and what it comes to.

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
    Kienzle's force with the rows that the evidence names; ISO 3685 for the edge's life.
    """
    answer: Cut = answer_to(
        "mill",
        "halfnut.cutting.figures:Cut",
        (
            alloy,
            cutter,
            depth,
            flutes,
            shape,
            width,
            length,
            step_over,
            step_down,
            core_machine(machine),
            tool,
            feed_per_tooth,
            spindle_rpm,
            hardness_hb,
            entering_deg,
            nose_radius,
            roughness_um,
            stick_out,
            deflection,
            wear_factor,
            approach,
            overrun,
            skin,
        ),
    )
    return answer


def ramp(
    alloy: AlloyLike,
    cutter: LengthLike,
    depth: LengthLike,
    *,
    angle_deg: NumberLike | None = None,
    flutes: int | None = None,
    length: LengthLike | None = None,
    machine: MachineLike | None = None,
    tool: str | None = None,
    feed_per_tooth: LengthLike | None = None,
    spindle_rpm: NumberLike | None = None,
    hardness_hb: NumberLike | None = None,
    entering_deg: NumberLike | None = None,
    nose_radius: LengthLike | None = None,
    roughness_um: float | None = None,
    stick_out: LengthLike | None = None,
    deflection: LengthLike | None = None,
    wear_factor: float | None = None,
    approach: LengthLike | None = None,
    overrun: LengthLike | None = None,
    skin: Literal["clean", "scale", "cast skin", "drawn tube", "interrupted"] = "clean",
) -> Entry:
    """Ramp an end mill down a slope into a slot or pocket.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    cutter : LengthLike
        Diameter of the cutter. Above 0 mm.
    depth : LengthLike
        Depth to reach. Above 0 mm.
    angle_deg : NumberLike, optional
        Angle of the slope. Above 0 and at most 30 deg. When not given: 3 degrees.
    flutes : int, optional
        Teeth of the cutter. From 1 to 400. When not given: four, two below 5 mm.
    length : LengthLike, optional
        Length along the feed; without it there is no time. Above 0 mm.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    feed_per_tooth : LengthLike, optional
        Feed a tooth wanted; the next slower feed of the table is taken. Above 0 mm.
    spindle_rpm : NumberLike, optional
        Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    entering_deg : NumberLike, optional
        Entering angle of a face mill's edge. From 10 to 90 deg. When not given: 90 degrees.
    nose_radius : LengthLike, optional
        Nose radius of a face mill's teeth. Above 0 mm. When not given: 0.8 mm.
    roughness_um : float, optional
        Ra that the feed may leave on a wall or a face, one tooth leading the others. Above 0 um.
    stick_out : LengthLike, optional
        Overhang of the cutter from its holder; without it there is no deflection. Above 0 mm.
    deflection : LengthLike, optional
        Deflection of the cutter that is allowed. Above 0 mm.
    wear_factor : float, optional
        Factor on the force, 1 of a sharp tool, 1.4 of a blunt one. Where it is not given the force is that of a
        sharp edge, while limits and upper edges of force and power are those of an edge in use. From 1 to 3.
    approach : LengthLike, optional
        Travel of the tool before the cut. At least 0 mm. When not given: 2 mm.
    overrun : LengthLike, optional
        Travel of the tool past the cut. At least 0 mm. When not given: none, with a face mill half its diameter.
    skin : {"clean", "scale", "cast skin", "drawn tube", "interrupted"}, default "clean"
        Skin or form of the stock where the cut goes: scale of rolling or forging, the skin of a casting, drawn
        tube, a cut that is interrupted.

    Returns
    -------
    Entry
        How an end mill goes down into the work: a slope or a helix, and the cut at full depth.

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
    Kienzle's force with the rows that the evidence names; ISO 3685 for the edge's life.
    """
    answer: Entry = answer_to(
        "ramp",
        "halfnut.cutting.figures:Entry",
        (
            alloy,
            cutter,
            depth,
            angle_deg,
            flutes,
            length,
            core_machine(machine),
            tool,
            feed_per_tooth,
            spindle_rpm,
            hardness_hb,
            entering_deg,
            nose_radius,
            roughness_um,
            stick_out,
            deflection,
            wear_factor,
            approach,
            overrun,
            skin,
        ),
    )
    return answer


def helix(
    alloy: AlloyLike,
    cutter: LengthLike,
    hole: LengthLike,
    depth: LengthLike,
    *,
    angle_deg: NumberLike | None = None,
    flutes: int | None = None,
    length: LengthLike | None = None,
    machine: MachineLike | None = None,
    tool: str | None = None,
    feed_per_tooth: LengthLike | None = None,
    spindle_rpm: NumberLike | None = None,
    hardness_hb: NumberLike | None = None,
    entering_deg: NumberLike | None = None,
    nose_radius: LengthLike | None = None,
    roughness_um: float | None = None,
    stick_out: LengthLike | None = None,
    deflection: LengthLike | None = None,
    wear_factor: float | None = None,
    approach: LengthLike | None = None,
    overrun: LengthLike | None = None,
    skin: Literal["clean", "scale", "cast skin", "drawn tube", "interrupted"] = "clean",
) -> Entry:
    """Wind an end mill down a helix into solid work; wants a machine that moves three axes at once.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    cutter : LengthLike
        Diameter of the cutter. Above 0 mm.
    hole : LengthLike
        Diameter of the hole that is left: 1.2 to 1.9 cutters, so that no post is left standing. Above 0 mm.
    depth : LengthLike
        Depth to reach. Above 0 mm.
    angle_deg : NumberLike, optional
        Angle of the helix at the cutter's centre. Above 0 and at most 10 deg. When not given: 3 degrees.
    flutes : int, optional
        Teeth of the cutter. From 1 to 400. When not given: four, two below 5 mm.
    length : LengthLike, optional
        Length along the feed; without it there is no time. Above 0 mm.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    feed_per_tooth : LengthLike, optional
        Feed a tooth wanted; the next slower feed of the table is taken. Above 0 mm.
    spindle_rpm : NumberLike, optional
        Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    entering_deg : NumberLike, optional
        Entering angle of a face mill's edge. From 10 to 90 deg. When not given: 90 degrees.
    nose_radius : LengthLike, optional
        Nose radius of a face mill's teeth. Above 0 mm. When not given: 0.8 mm.
    roughness_um : float, optional
        Ra that the feed may leave on a wall or a face, one tooth leading the others. Above 0 um.
    stick_out : LengthLike, optional
        Overhang of the cutter from its holder; without it there is no deflection. Above 0 mm.
    deflection : LengthLike, optional
        Deflection of the cutter that is allowed. Above 0 mm.
    wear_factor : float, optional
        Factor on the force, 1 of a sharp tool, 1.4 of a blunt one. Where it is not given the force is that of a
        sharp edge, while limits and upper edges of force and power are those of an edge in use. From 1 to 3.
    approach : LengthLike, optional
        Travel of the tool before the cut. At least 0 mm. When not given: 2 mm.
    overrun : LengthLike, optional
        Travel of the tool past the cut. At least 0 mm. When not given: none, with a face mill half its diameter.
    skin : {"clean", "scale", "cast skin", "drawn tube", "interrupted"}, default "clean"
        Skin or form of the stock where the cut goes: scale of rolling or forging, the skin of a casting, drawn
        tube, a cut that is interrupted.

    Returns
    -------
    Entry
        How an end mill goes down into the work: a slope or a helix, and the cut at full depth.

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
    Kienzle's force with the rows that the evidence names; ISO 3685 for the edge's life.
    """
    answer: Entry = answer_to(
        "helix",
        "halfnut.cutting.figures:Entry",
        (
            alloy,
            cutter,
            hole,
            depth,
            angle_deg,
            flutes,
            length,
            core_machine(machine),
            tool,
            feed_per_tooth,
            spindle_rpm,
            hardness_hb,
            entering_deg,
            nose_radius,
            roughness_um,
            stick_out,
            deflection,
            wear_factor,
            approach,
            overrun,
            skin,
        ),
    )
    return answer


def saw(
    alloy: AlloyLike,
    blade: LengthLike,
    thickness: LengthLike,
    depth: LengthLike,
    *,
    teeth: int,
    length: LengthLike | None = None,
    machine: MachineLike | None = None,
    tool: str | None = None,
    feed_per_tooth: LengthLike | None = None,
    spindle_rpm: NumberLike | None = None,
    hardness_hb: NumberLike | None = None,
    wear_factor: float | None = None,
    approach: LengthLike | None = None,
    overrun: LengthLike | None = None,
) -> Cut:
    """Slit with a saw on an arbor, in one pass to depth; the speed is that of an end mill.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    blade : LengthLike
        Diameter of the saw. Above 0 mm.
    thickness : LengthLike
        Width that the saw cuts. Above 0 mm.
    depth : LengthLike
        Depth of the slit, below the radius of the saw. Above 0 mm.
    teeth : int
        Teeth of the saw. From 1 to 400.
    length : LengthLike, optional
        Length along the feed; without it there is no time. Above 0 mm.
    machine : MachineLike, optional
        Machine whose levers to choose from; without one speed and feed are exact.
    tool : str, optional
        HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables. When not given: HSS.
    feed_per_tooth : LengthLike, optional
        Feed a tooth wanted; the next slower feed of the table is taken. Above 0 mm. When not given: 0.02 mm.
    spindle_rpm : NumberLike, optional
        Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    wear_factor : float, optional
        Factor on the force, 1 of a sharp tool, 1.4 of a blunt one. Where it is not given the force is that of a
        sharp edge, while limits and upper edges of force and power are those of an edge in use. From 1 to 3.
    approach : LengthLike, optional
        Travel of the tool before the cut. At least 0 mm. When not given: 2 mm.
    overrun : LengthLike, optional
        Travel of the tool past the cut. At least 0 mm. When not given: none.

    Returns
    -------
    Cut
        One cut: the levers to set and what it comes to.

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
    Kienzle's force with the rows that the evidence names; ISO 3685 for the edge's life.
    """
    answer: Cut = answer_to(
        "saw",
        "halfnut.cutting.figures:Cut",
        (
            alloy,
            blade,
            thickness,
            depth,
            teeth,
            length,
            core_machine(machine),
            tool,
            feed_per_tooth,
            spindle_rpm,
            hardness_hb,
            wear_factor,
            approach,
            overrun,
        ),
    )
    return answer


def tool_life(
    alloy: AlloyLike,
    *,
    tool: str | None = None,
    feed: FeedLike | None = None,
    depth: LengthLike | None = None,
    speed: FeedLike | None = None,
    life_min: NumberLike | None = None,
    change_min: NumberLike | None = None,
    edge_cost: float | None = None,
    cost_per_min: float | None = None,
    hardness_hb: NumberLike | None = None,
    machine: MachineLike | None = None,
    diameter: LengthLike | None = None,
) -> ToolLife:
    """How long an edge lasts in turning, the speed for a life, the lives for most and for cheapest parts.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    tool : str, optional
        HSS, carbide or coated carbide, or a tool of the shop's tables. When not given: HSS.
    feed : FeedLike, optional
        Feed a revolution. Above 0 mm/rev. When not given: 0.25 mm/rev, as in the trials.
    depth : LengthLike, optional
        Depth of the cut on the radius. Above 0 mm. When not given: 2.5 mm, as in the trials.
    speed : FeedLike, optional
        Cutting speed to tell the life at, such as 100 m/min. Above 0 m/min.
    life_min : NumberLike, optional
        Life in minutes to tell the speed for. Above 0 min.
    change_min : NumberLike, optional
        Minutes to change the edge: tells the life for most parts an hour. Above 0 min. When not given: the
        machine's time for a tool.
    edge_cost : float, optional
        Cost of one edge; with the cost of a minute tells the cheapest life. Above 0.
    cost_per_min : float, optional
        Cost of a minute of machine and person, in the same currency. Above 0 1/min.
    hardness_hb : NumberLike, optional
        The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy.
    machine : MachineLike, optional
        Lathe whose time to change a tool is taken, and whose steps the speeds are turned into.
    diameter : LengthLike, optional
        Diameter of the work: turns cutting speeds into spindle speeds. Above 0 mm.

    Returns
    -------
    ToolLife
        Life of an edge in turning. A figure that was not asked for is None.

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
    Taylor's equation with the rows that the evidence names; Groover, Fundamentals of Modern Manufacturing, chapters
    23 and 24.
    """
    answer: ToolLife = answer_to(
        "tool_life",
        "halfnut.cutting.figures:ToolLife",
        (
            alloy,
            tool,
            feed,
            depth,
            speed,
            life_min,
            change_min,
            edge_cost,
            cost_per_min,
            hardness_hb,
            core_machine(machine),
            diameter,
        ),
    )
    return answer


def speeds(
    alloy: AlloyLike,
    *,
    inch: bool = False,
) -> Speeds:
    """Speeds and feeds that suit an alloy, tool by tool and cut by cut.

    Parameters
    ----------
    alloy : AlloyLike
        The work's material, by any of its names.
    inch : bool, default False
        Speeds in ft/min and feeds in inches.

    Returns
    -------
    Speeds
        Speeds and feeds that suit an alloy, by tool and usual cut.

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
    As its evidence names them.
    """
    answer: Speeds = answer_to(
        "speeds",
        "halfnut.cutting.figures:Speeds",
        (
            alloy,
            inch,
        ),
    )
    return answer


def data() -> Data:
    """What the figures rest on, by kind of source: every table, and the speeds of the usual cuts.

    Returns
    -------
    Data
        What the figures rest on.

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
    As each row names its own.
    """
    answer: Data = answer_to("data", "halfnut.cutting.figures:Data", ())
    return answer
