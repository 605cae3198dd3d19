"""The questions of this room.

Written by `./shop stubs` from the core's declarations: change those.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Literal

from halfnut.core.questions import answer_to

if TYPE_CHECKING:
    from halfnut.core.given import (
        DrillsLike,
        EndLike,
        ForceLike,
        FrictionLike,
        LengthLike,
        NumberLike,
        QuantityLike,
        SizesLike,
        ThreadLike,
    )
    from halfnut.material.alloys import AlloyLike
    from halfnut.material.coatings import BuildUpLike
    from halfnut.threads.adjusters import Adjuster
    from halfnut.threads.figures import (
        BlindHole,
        ClearanceHole,
        DrillSet,
        Galling,
        Identification,
        MinimumStrength,
        OverWires,
        ScrewSeat,
        ShopPlug,
        Suited,
        TaperPipe,
        ThreadFit,
        ThreadsNear,
        ThreadStrength,
        Tightening,
        Verdict,
    )
    from halfnut.threads.holes import DrillLike, TappingHole
    from halfnut.threads.standard import PartLike, ThreadLimits

__all__ = [
    "adjuster",
    "blind_hole",
    "clearance_hole",
    "cut_to_suit",
    "drill_set",
    "fit",
    "galling",
    "identify_thread",
    "judge",
    "limits",
    "minimum_strength",
    "plain_thread",
    "precoat",
    "screw_seat",
    "shop_plug",
    "strength",
    "taper_pipe",
    "tapping_hole",
    "threads_near",
    "tighten",
    "wires",
]


def limits(
    thread: PartLike,
    *,
    side: Literal["external", "internal"] | None = None,
    engagement: LengthLike | None = None,
    rule: Literal["printed", "formula"] = "printed",
) -> ThreadLimits:
    """Limits of size of a thread, of any form that is known.

    Parameters
    ----------
    thread : PartLike
        Thread by its designation: M10x1.5-6g, 1/4-20 UNC-2B, Tr40x7-7e, G1/2 A; one that names no class means both
        parts in their usual ones.
    side : {"external", "internal"}, optional
        One part alone, of a designation that means both.
    engagement : LengthLike, optional
        Length of engagement: it chooses the group of a metric thread, and outside the usual lengths the tolerance
        of a Unified one; Whitworth tolerances depend on it. Above 0 mm. When not given: normal.
    rule : {"printed", "formula"}, default "printed"
        Decimal rule of Unified threads: what printed tables and go gauges carry, or the standard's own since 2003.

    Returns
    -------
    ThreadLimits
        Limits of size of one part of a thread of any form, or of a part by its sizes alone.

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
    ISO 965-1 on ISO 724 basic sizes; ASME B1.1; the standards of the other forms, as the rules of the evidence
    name.
    """
    answer: ThreadLimits = answer_to(
        "limits",
        "halfnut.threads.standard:ThreadLimits",
        (
            thread,
            side,
            engagement,
            rule,
        ),
    )
    return answer


def precoat(
    thread: PartLike,
    build_up: BuildUpLike,
    *,
    gauged_at: Literal["basic", "class"] = "basic",
    engagement: LengthLike | None = None,
    rule: Literal["printed", "formula"] = "printed",
    on: AlloyLike | None = None,
) -> ThreadLimits:
    """Limits to cut a thread to so that it gauges once it is coated.

    Parameters
    ----------
    thread : PartLike
        Thread by its designation, or limits of one part; without a class the usual one is meant. Limits are those
        of the coated part.
    build_up : BuildUpLike
        Coating: its name, or what it adds to each surface: "8 um", "0.0002 in to 0.0003 in", "anodise II black 15
        um".
    gauged_at : {"basic", "class"}, default "basic"
        Where the coated part is to gauge: at the basic size, as the standards say, or at its own class, so that the
        allowance is there after coating, too. Of ISO metric and Unified threads.
    engagement : LengthLike, optional
        Length of engagement. Above 0 mm. When not given: normal.
    rule : {"printed", "formula"}, default "printed"
        Decimal rule of Unified threads: as tables and gauges are printed, or by formula.
    on : AlloyLike, optional
        Alloy; one that does not take the coating is refused.

    Returns
    -------
    ThreadLimits
        Limits of size of one part of a thread of any form, or of a part by its sizes alone.

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
    ASME B1.1-2003, 7.4.2 and 7.5.2; the rows of coatings that the evidence names.
    """
    answer: ThreadLimits = answer_to(
        "precoat",
        "halfnut.threads.standard:ThreadLimits",
        (
            thread,
            build_up,
            gauged_at,
            engagement,
            rule,
            on,
        ),
    )
    return answer


def plain_thread(
    side: Literal["external", "internal"],
    *,
    pitch: LengthLike,
    half_angle_deg: NumberLike,
    pitch_diameter: SizesLike,
    major: SizesLike | None = None,
    minor: SizesLike | None = None,
    starts: int | None = None,
    hand: Literal["right", "left"] = "right",
    title: str | None = None,
) -> ThreadLimits:
    """One part of a thread by its sizes, for forms that have no designation here.

    Parameters
    ----------
    side : {"external", "internal"}
        Which part.
    pitch : LengthLike
        Axial pitch, not the lead: a length, or threads per inch as "5 tpi".
    half_angle_deg : NumberLike
        Half of the thread angle: 27.5 for 55 degrees, 15 for 30, 14.5 for 29. From 3 to 60 deg.
    pitch_diameter : SizesLike
        Pitch diameter: smallest and largest, or one size that was measured.
    major : SizesLike, optional
        Major diameter, likewise; of an external part what a wire has to stand above.
    minor : SizesLike, optional
        Minor diameter, likewise; of an internal part what a ball has to stand above.
    starts : int, optional
        Number of starts. From 1 to 100. When not given: 1.
    hand : {"right", "left"}, default "right"
        Hand of the helix.
    title : str, optional
        How answers call it. When not given: made up of the sizes.

    Returns
    -------
    ThreadLimits
        Limits of size of one part of a thread of any form, or of a part by its sizes alone.

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
    The sizes that were given; geometry.
    """
    answer: ThreadLimits = answer_to(
        "plain_thread",
        "halfnut.threads.standard:ThreadLimits",
        (
            side,
            pitch,
            half_angle_deg,
            pitch_diameter,
            major,
            minor,
            starts,
            hand,
            title,
        ),
    )
    return answer


def wires(
    thread: PartLike,
    *,
    wire: LengthLike | None = None,
    set: str | None = None,
    build_up: BuildUpLike | None = None,
) -> OverWires:
    """What to read over wires for the limits of a thread; across two balls of a nut.

    Parameters
    ----------
    thread : PartLike
        Thread by its designation, or limits of one part; an internal thread is answered across two balls.
    wire : LengthLike, optional
        Wire at hand; "best" for the one that touches at the pitch line. When not given: the nearest of the set.
    set : str, optional
        Set of wires to choose from: inch, metric, or one of the shop's own. When not given: that of the thread's
        unit.
    build_up : BuildUpLike, optional
        Coating still to come, which the part is cut for: its name, or what it adds to a surface. When not given:
        none.

    Returns
    -------
    OverWires
        Sizes over wires of an external thread, or across two balls.

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
    Contact of a wire with the helicoid; Machinery's Handbook, as the rules of the evidence name.
    """
    answer: OverWires = answer_to(
        "wires",
        "halfnut.threads.figures:OverWires",
        (
            thread,
            wire,
            set,
            build_up,
        ),
    )
    return answer


def shop_plug(
    thread: PartLike,
    *,
    pitch: Sequence[LengthLike] = (),
    wire: LengthLike | None = None,
    build_up: BuildUpLike | None = None,
) -> ShopPlug:
    """Plug to cut for trying an internal thread, with its readings over wires.

    Parameters
    ----------
    thread : PartLike
        Internal thread by its designation, or its limits.
    pitch : Sequence[LengthLike], default ()
        Least and greatest pitch diameter to try for, of a nut cut to suit a screw. When not given: the limits.
    wire : LengthLike, optional
        Wire at hand. When not given: the nearest of the set.
    build_up : BuildUpLike, optional
        Coating still to come, which the thread is cut for. When not given: none.

    Returns
    -------
    ShopPlug
        Sizes of a plug that a shop cuts to try an internal thread with.

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
    Limits of the thread's standard; common practice for the crest of the not-go end.
    """
    answer: ShopPlug = answer_to(
        "shop_plug",
        "halfnut.threads.figures:ShopPlug",
        (
            thread,
            pitch,
            wire,
            build_up,
        ),
    )
    return answer


def judge(
    thread: PartLike,
    *,
    pitch: LengthLike | None = None,
    over_wires: LengthLike | None = None,
    wire: LengthLike | None = None,
    major: LengthLike | None = None,
    minor: LengthLike | None = None,
    lead_error: LengthLike | None = None,
    leading_error_deg: NumberLike | None = None,
    following_error_deg: NumberLike | None = None,
    engagement: LengthLike | None = None,
) -> Verdict:
    """What a measured part is: its classes, and what is left to take off.

    Parameters
    ----------
    thread : PartLike
        Thread that the part is to be; limits, such as those before coating, are judged alone.
    pitch : LengthLike, optional
        Pitch diameter as measured. Above 0 and at most 10000 mm.
    over_wires : LengthLike, optional
        Size over three wires, or across two balls square to the axis of a nut, in its place. Above 0 and at most
        10000 mm.
    wire : LengthLike, optional
        Diameter of those wires or balls. Above 0 and at most 10000 mm.
    major : LengthLike, optional
        Major diameter as measured. Above 0 and at most 10000 mm.
    minor : LengthLike, optional
        Minor diameter as measured. Above 0 and at most 10000 mm.
    lead_error : LengthLike, optional
        Error of lead between any two flanks engaged. From -10000 to 10000 mm. When not given: none.
    leading_error_deg : NumberLike, optional
        Half angle of the leading flank less the standard one. Above -20 and below 20 deg. When not given: none.
    following_error_deg : NumberLike, optional
        Half angle of the following flank less the standard one. Above -20 and below 20 deg. When not given: none.
    engagement : LengthLike, optional
        Length of engagement. Above 0 and at most 10000 mm. When not given: normal.

    Returns
    -------
    Verdict
        What a measured part is: its place in each zone, its classes, what is left to take off.

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
    Limits of the thread's standard; NBS Handbook H28 for errors of lead and angle.
    """
    answer: Verdict = answer_to(
        "judge",
        "halfnut.threads.figures:Verdict",
        (
            thread,
            pitch,
            over_wires,
            wire,
            major,
            minor,
            lead_error,
            leading_error_deg,
            following_error_deg,
            engagement,
        ),
    )
    return answer


def tapping_hole(
    thread: PartLike,
    *,
    percent: float | None = None,
    engagement: LengthLike | None = None,
    strength: float | None = None,
    drills: DrillsLike | None = None,
    oversize: LengthLike | None = None,
    tap: Literal["cut", "form"] = "cut",
) -> TappingHole:
    """The drill for a tapped hole, and what it leaves of the thread.

    Parameters
    ----------
    thread : PartLike
        Thread by its designation, or limits of an internal part.
    percent : float, optional
        Per cent of thread wanted, of tap-drill tables; of other forms of their basic height. Above 0 and at most
        100 %. When not given: 75, or 65 under a forming tap.
    engagement : LengthLike, optional
        Full-form length of engagement: small holes for short ones. Above 0 mm.
    strength : float, optional
        Share of the external thread's shear area to keep. Above 0 and at most 1.
    drills : DrillsLike, optional
        Drills to choose from: sets joined by "+" (metric, fractional, number, letter, inch, or the shop's own), or
        the drills at hand. When not given: the shop's own, or those of the thread's unit.
    oversize : LengthLike, optional
        What the drill cuts over its own size: "usual", or a length. When not given: nothing.
    tap : {"cut", "form"}, default "cut"
        How the tap makes the thread; a forming tap wants a larger hole.

    Returns
    -------
    TappingHole
        The drill for a tapped hole, and what it leaves of the thread; a taper pipe thread has two, and no limits.

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
    Tap-drill tables of Machinery's Handbook, and the rows that the evidence names.
    """
    answer: TappingHole = answer_to(
        "tapping_hole",
        "halfnut.threads.holes:TappingHole",
        (
            thread,
            percent,
            engagement,
            strength,
            drills,
            oversize,
            tap,
        ),
    )
    return answer


def blind_hole(
    thread: ThreadLike,
    *,
    full_thread: LengthLike | None = None,
    drilled: LengthLike | None = None,
    lead: str | None = None,
    drill: DrillLike | None = None,
    point: NumberLike | None = None,
    chip_room: LengthLike | None = None,
    thickness: LengthLike | None = None,
    tap: Literal["cut", "form"] = "cut",
) -> BlindHole:
    """How deep to drill a blind hole for a length of full thread, or what a drilled one takes.

    Parameters
    ----------
    thread : ThreadLike
        Thread by its designation.
    full_thread : LengthLike, optional
        Length that is to have every thread full. Above 0 mm.
    drilled : LengthLike, optional
        Depth at full diameter that is there already. Above 0 mm.
    lead : str, optional
        Lead of the tap: taper, plug, bottoming, or a form letter A to E. When not given: plug.
    drill : DrillLike, optional
        Drill that is used. When not given: that of the tapping hole.
    point : NumberLike, optional
        Angle of the drill's point. Above 0 and below 180 deg. When not given: 118 deg.
    chip_room : LengthLike, optional
        Room for chips under the tap. At least 0 mm. When not given: two pitches, one under a forming tap.
    thickness : LengthLike, optional
        Thickness of the metal: a point that comes through is refused. Above 0 mm.
    tap : {"cut", "form"}, default "cut"
        How the tap makes the thread.

    Returns
    -------
    BlindHole
        Depths of a blind tapped hole.

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
    Chamfers of taps as the rows of the evidence name them; geometry.
    """
    answer: BlindHole = answer_to(
        "blind_hole",
        "halfnut.threads.figures:BlindHole",
        (
            thread,
            full_thread,
            drilled,
            lead,
            drill,
            point,
            chip_room,
            thickness,
            tap,
        ),
    )
    return answer


def clearance_hole(
    thread: ThreadLike,
    fit: str | None = None,
) -> ClearanceHole:
    """A hole that a screw passes through.

    Parameters
    ----------
    thread : ThreadLike
        Thread of the screw; its diameter and system count.
    fit : str, optional
        Fit of the clearance hole: fine, medium or coarse (ISO 273); close, normal or loose (ASME B18.2.8). When not
        given: normal.

    Returns
    -------
    ClearanceHole
        A hole that a screw passes through.

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
    ISO 273 and ASME B18.2.8 as the rows of the evidence name them.
    """
    answer: ClearanceHole = answer_to(
        "clearance_hole",
        "halfnut.threads.figures:ClearanceHole",
        (
            thread,
            fit,
        ),
    )
    return answer


def screw_seat(
    thread: ThreadLike,
    *,
    head: str | None = None,
    fit: str | None = None,
    hole: LengthLike | None = None,
    recess: LengthLike | None = None,
) -> ScrewSeat:
    """Counterbore or countersink for the head of a screw.

    Parameters
    ----------
    thread : ThreadLike
        Thread of the screw.
    head : str, optional
        Head of the screw: socket, in a counterbore; flat (90 degrees metric, 82 inch), flat socket (the same
        angles) or flat 100 (inch, 100 degrees), in a countersink. When not given: socket.
    fit : str, optional
        Fit of the clearance hole: fine, medium or coarse (ISO 273); close, normal or loose (ASME B18.2.8). When not
        given: normal.
    hole : LengthLike, optional
        Hole that is there already, in place of the clearance hole. Above 0 mm.
    recess : LengthLike, optional
        How far the top of the head lies below the surface. At least 0 mm. When not given: flush.

    Returns
    -------
    ScrewSeat
        A counterbore or countersink over a clearance hole.

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
    Heads of the standards that the rows of the evidence name.
    """
    answer: ScrewSeat = answer_to(
        "screw_seat",
        "halfnut.threads.figures:ScrewSeat",
        (
            thread,
            head,
            fit,
            hole,
            recess,
        ),
    )
    return answer


def taper_pipe(
    thread: ThreadLike,
) -> TaperPipe:
    """What a taper pipe thread is cut and gauged to: turns by hand, gauge plane, holes, setting.

    Parameters
    ----------
    thread : ThreadLike
        Taper pipe thread by its designation: 1/2-14 NPT, R1/2, Rc1/2.

    Returns
    -------
    TaperPipe
        What a taper pipe thread is cut and gauged to.

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
    ASME B1.20.1 and ISO 7-1 as the rows of the evidence name them.
    """
    answer: TaperPipe = answer_to("taper_pipe", "halfnut.threads.figures:TaperPipe", (thread,))
    return answer


def drill_set(
    drills: DrillsLike,
) -> DrillSet:
    """The drills of one or more sets, smallest first.

    Parameters
    ----------
    drills : DrillsLike
        Drills to choose from: sets joined by "+" (metric, fractional, number, letter, inch, or the shop's own), or
        the drills at hand.

    Returns
    -------
    DrillSet
        Drills, smallest first.

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
    The rows that the evidence names.
    """
    answer: DrillSet = answer_to("drill_set", "halfnut.threads.figures:DrillSet", (drills,))
    return answer


def fit(
    external: PartLike,
    internal: PartLike,
    *,
    build_up: BuildUpLike | None = None,
    build_up_external: BuildUpLike | None = None,
    build_up_internal: BuildUpLike | None = None,
    engagement: LengthLike | None = None,
    external_pitch: LengthLike | None = None,
    external_major: LengthLike | None = None,
    internal_pitch: LengthLike | None = None,
    internal_minor: LengthLike | None = None,
    external_lead_error: LengthLike | None = None,
    internal_lead_error: LengthLike | None = None,
    external_alloy: AlloyLike | None = None,
    internal_alloy: AlloyLike | None = None,
    temperature_c: float | None = None,
    tolerance_over_sigma: float | None = None,
    mean_shift: float | None = None,
) -> ThreadFit:
    """Whether two threads screw together, bare or coated, and with how much play.

    Parameters
    ----------
    external : PartLike
        External thread by its designation, or its limits, before coating or by sizes alone.
    internal : PartLike
        Internal thread, likewise.
    build_up : BuildUpLike, optional
        Coating of both parts: its name, or what it adds to each surface: "8 um", "0.0002 in to 0.0003 in", "anodise
        II black 15 um". When not given: none.
    build_up_external : BuildUpLike, optional
        Coating of the external part alone.
    build_up_internal : BuildUpLike, optional
        Coating of the internal part alone.
    engagement : LengthLike, optional
        Full-form length of engagement, without chamfers and run-outs. Above 0 and at most 10000 mm. When not given:
        the nominal diameter.
    external_pitch : LengthLike, optional
        Pitch diameter of the external part as measured, bare, in place of its limits. Above 0 and at most 10000 mm.
    external_major : LengthLike, optional
        Major diameter of the external part as measured. Above 0 and at most 10000 mm.
    internal_pitch : LengthLike, optional
        Pitch diameter of the internal part as measured, bare, in place of its limits. Above 0 and at most 10000 mm.
    internal_minor : LengthLike, optional
        Minor diameter of the internal part as measured. Above 0 and at most 10000 mm.
    external_lead_error : LengthLike, optional
        Error of lead of the external part, between any two flanks engaged. From 0 to 10000 mm. When not given:
        none.
    internal_lead_error : LengthLike, optional
        Error of lead of the internal part. From 0 to 10000 mm. When not given: none.
    external_alloy : AlloyLike, optional
        Alloy of the external part; needed for a temperature other than 20 C.
    internal_alloy : AlloyLike, optional
        Alloy of the internal part; needed for a temperature other than 20 C.
    temperature_c : float, optional
        Temperature of both parts, degrees Celsius. From -200 to 1000 C. When not given: 20 C.
    tolerance_over_sigma : float, optional
        Tolerance over the standard deviation of the shop's cutting. From 2 to 100. When not given: 6, which fills
        the zone.
    mean_shift : float, optional
        Where the shop's mean lies in the zone: 0 the middle, 1 the maximum-material limit, -1 the other. From -1 to
        1. When not given: 0.

    Returns
    -------
    ThreadFit
        Fit of two threads; clearances are differences of diameters, below 0 where the parts interfere.

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
    Limits of the threads' standards; geometry; the rows of coatings that the evidence names.
    """
    answer: ThreadFit = answer_to(
        "fit",
        "halfnut.threads.figures:ThreadFit",
        (
            external,
            internal,
            build_up,
            build_up_external,
            build_up_internal,
            engagement,
            external_pitch,
            external_major,
            internal_pitch,
            internal_minor,
            external_lead_error,
            internal_lead_error,
            external_alloy,
            internal_alloy,
            temperature_c,
            tolerance_over_sigma,
            mean_shift,
        ),
    )
    return answer


def cut_to_suit(
    thread: PartLike,
    *,
    clearance: BuildUpLike,
    internal_pitch: LengthLike | None = None,
    external_pitch: LengthLike | None = None,
    build_up: BuildUpLike | None = None,
    measured_build_up: BuildUpLike | None = None,
    wire: LengthLike | None = None,
    over_wires: LengthLike | None = None,
) -> Suited:
    """Pitch diameter to cut so that a part suits one that is there.

    Parameters
    ----------
    thread : PartLike
        Thread of the pair, by its designation or limits of the part to cut.
    clearance : BuildUpLike
        Clearance wanted at the pitch diameter once both are coated: "0.02-0.06 mm"; a single value is the least,
        and the greatest is that and the tolerance of the part's class.
    internal_pitch : LengthLike, optional
        Pitch diameter of the nut that is there; the screw is the one to cut. Above 0 and at most 10000 mm.
    external_pitch : LengthLike, optional
        Pitch diameter of the screw that is there; the nut is the one to cut. Above 0 and at most 10000 mm.
    build_up : BuildUpLike, optional
        Coating still to go on the part to cut. When not given: none.
    measured_build_up : BuildUpLike, optional
        Coating still to go on the measured part. When not given: none, it is finished.
    wire : LengthLike, optional
        Wire at hand. When not given: the nearest of a set.
    over_wires : LengthLike, optional
        What the screw to cut reads over these wires now: then what is left is answered. Above 0 and at most 10000
        mm.

    Returns
    -------
    Suited
        A part cut to suit one that is there: an external one is read over wires, an internal one tried with a plug.

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
    Geometry; common practice for what is left on the dial.
    """
    answer: Suited = answer_to(
        "cut_to_suit",
        "halfnut.threads.figures:Suited",
        (
            thread,
            clearance,
            internal_pitch,
            external_pitch,
            build_up,
            measured_build_up,
            wire,
            over_wires,
        ),
    )
    return answer


def minimum_strength(
    alloy: AlloyLike,
    form: str | None = None,
    *,
    thickness: LengthLike | None = None,
    grain: Literal["", "along", "across"] | None = None,
) -> MinimumStrength:
    """Minimum strengths of an alloy in a form: what a load is to rest on.

    Parameters
    ----------
    alloy : AlloyLike
        Alloy in its condition.
    form : str, optional
        Form it comes in: bar, casting, drawn tube, extrusion, plate or sheet; else the error lists those there are.
    thickness : LengthLike, optional
        Diameter of a bar, thickness of plate, sheet or extrusion, wall of a tube. Above 0 mm. When not given: the
        least of the form is taken.
    grain : {"", "along", "across"}, optional
        How the load lies to the grain; else the least of the two is taken.

    Returns
    -------
    MinimumStrength
        Minimum strengths of an alloy in a form.

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
    Specifications of the alloys, as the rows of the evidence name them.
    """
    answer: MinimumStrength = answer_to(
        "minimum_strength",
        "halfnut.threads.figures:MinimumStrength",
        (
            alloy,
            form,
            thickness,
            grain,
        ),
    )
    return answer


def galling(
    external_alloy: AlloyLike,
    internal_alloy: AlloyLike,
) -> Galling:
    """Whether two metals gall in a thread, and what is done about it.

    Parameters
    ----------
    external_alloy : AlloyLike
        Alloy of the external part.
    internal_alloy : AlloyLike
        Alloy of the internal part.

    Returns
    -------
    Galling
        How two metals go together in a thread, what to do about it, and the friction that goes with it.

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
    Common practice, as the rows of the evidence name it.
    """
    answer: Galling = answer_to(
        "galling",
        "halfnut.threads.figures:Galling",
        (
            external_alloy,
            internal_alloy,
        ),
    )
    return answer


def strength(
    external: PartLike,
    internal: PartLike,
    *,
    engagement: LengthLike,
    external_alloy: AlloyLike | None = None,
    external_form: str | None = None,
    external_thickness: LengthLike | None = None,
    external_grade: str | None = None,
    external_tensile: QuantityLike | None = None,
    external_yield: QuantityLike | None = None,
    external_shear: QuantityLike | None = None,
    internal_alloy: AlloyLike | None = None,
    internal_form: str | None = None,
    internal_thickness: LengthLike | None = None,
    internal_tensile: QuantityLike | None = None,
    internal_yield: QuantityLike | None = None,
    internal_shear: QuantityLike | None = None,
    external_chamfer: LengthLike | None = None,
    external_run_out: LengthLike | None = None,
    internal_countersink: LengthLike | None = None,
    internal_run_out: LengthLike | None = None,
    external_bore: LengthLike | None = None,
    internal_outside: LengthLike | None = None,
    load: ForceLike | None = None,
    factor_of_safety: float | None = None,
    friction: FrictionLike | None = None,
    loading: Literal["shock", "steady"] = "steady",
    rotating: bool = False,
) -> ThreadStrength:
    """What a threaded joint holds, what fails first, how far it is to be engaged.

    Parameters
    ----------
    external : PartLike
        External thread by its designation, or its limits.
    internal : PartLike
        Internal thread, likewise.
    engagement : LengthLike
        Length over which one part is inside the other; only its full form counts. Above 0 mm.
    external_alloy : AlloyLike, optional
        Alloy of the external part.
    external_form : str, optional
        Form that the external part is made of: bar, casting, drawn tube, extrusion, plate or sheet.
    external_thickness : LengthLike, optional
        Diameter, thickness or wall that the external part is made of. Above 0 mm. When not given: the weakest of
        the form.
    external_grade : str, optional
        Grade or property class of a bolt: 8.8, SAE 5, A4-80.
    external_tensile : QuantityLike, optional
        Tensile strength of the external part; it comes before any table. Above 0 MPa.
    external_yield : QuantityLike, optional
        Yield strength of the external part. Above 0 MPa.
    external_shear : QuantityLike, optional
        Shear strength of the external part. Above 0 MPa. When not given: 0.577 of the tensile strength.
    internal_alloy : AlloyLike, optional
        Alloy of the internal part.
    internal_form : str, optional
        Form that the internal part is made of: bar, casting, drawn tube, extrusion, plate or sheet.
    internal_thickness : LengthLike, optional
        Diameter, thickness or wall that the internal part is made of. Above 0 mm. When not given: the weakest of
        the form.
    internal_tensile : QuantityLike, optional
        Tensile strength of the internal part; it comes before any table. Above 0 MPa.
    internal_yield : QuantityLike, optional
        Yield strength of the internal part. Above 0 MPa.
    internal_shear : QuantityLike, optional
        Shear strength of the internal part. Above 0 MPa. When not given: 0.577 of the tensile strength.
    external_chamfer : LengthLike, optional
        Chamfer of the external thread within the engagement. At least 0 mm. When not given: none.
    external_run_out : LengthLike, optional
        Run-out of the external thread within the engagement. At least 0 mm. When not given: none.
    internal_countersink : LengthLike, optional
        Countersinks of the internal thread within it, all together. At least 0 mm. When not given: none.
    internal_run_out : LengthLike, optional
        Run-out of the internal thread within the engagement. At least 0 mm. When not given: none.
    external_bore : LengthLike, optional
        Bore of a threaded tube. At least 0 mm. When not given: solid.
    internal_outside : LengthLike, optional
        Outside diameter of the internal part, or width across flats; without it no dilation and no wall counts.
        Above 0 mm.
    load : ForceLike, optional
        Axial load on the joint. At least 0 N.
    factor_of_safety : float, optional
        Factor of safety; without one no allowable load is answered. From 1 to 100.
    friction : FrictionLike, optional
        Friction in the thread, its least and greatest: 0.10-0.16. When not given: none; of lead screws 0.10 to
        0.16, lubricated steel in bronze or iron.
    loading : {"shock", "steady"}, default "steady"
        How the load comes, for the length of engagement by practice.
    rotating : bool, default False
        The joint turns, or its load comes and goes.

    Returns
    -------
    ThreadStrength
        What a threaded joint holds; a factor of safety is in the allowable load and its engagement only.

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
    Handbook and textbook rules for stripping and for screws that raise a load, and the rows that the evidence
    names.
    """
    answer: ThreadStrength = answer_to(
        "strength",
        "halfnut.threads.figures:ThreadStrength",
        (
            external,
            internal,
            engagement,
            external_alloy,
            external_form,
            external_thickness,
            external_grade,
            external_tensile,
            external_yield,
            external_shear,
            internal_alloy,
            internal_form,
            internal_thickness,
            internal_tensile,
            internal_yield,
            internal_shear,
            external_chamfer,
            external_run_out,
            internal_countersink,
            internal_run_out,
            external_bore,
            internal_outside,
            load,
            factor_of_safety,
            friction,
            loading,
            rotating,
        ),
    )
    return answer


def tighten(
    thread: ThreadLike,
    *,
    preload: ForceLike | None = None,
    torque: ForceLike | None = None,
    share: float | None = None,
    external_alloy: AlloyLike | None = None,
    external_form: str | None = None,
    external_grade: str | None = None,
    external_yield: QuantityLike | None = None,
    internal_alloy: AlloyLike | None = None,
    lubricant: str | None = None,
    friction: FrictionLike | None = None,
    bearing_friction: FrictionLike | None = None,
    bearing_diameter: LengthLike | None = None,
    bore: LengthLike | None = None,
    prevailing: ForceLike | None = None,
    condition: str | None = None,
) -> Tightening:
    """Torque for a preload, or preload from a torque, over the range of friction.

    Parameters
    ----------
    thread : ThreadLike
        Thread by its designation; sizes are basic ones.
    preload : ForceLike, optional
        Preload wanted. At least 0 N.
    torque : ForceLike, optional
        Torque that is applied, in place of a preload. At least 0 N m.
    share : float, optional
        Preload as a share of the proof strength of the grade, or of the yield strength: 0.75 is usual for a joint
        that is taken apart, 0.9 for one that stays. Above 0 and at most 1.
    external_alloy : AlloyLike, optional
        Alloy of the external part.
    external_form : str, optional
        Form that the external part is made of.
    external_grade : str, optional
        Grade or property class of the bolt: 8.8, SAE 5, A4-80.
    external_yield : QuantityLike, optional
        Yield strength of the external part. Above 0 MPa.
    internal_alloy : AlloyLike, optional
        Alloy of the internal part, for the friction. When not given: that of the external part.
    lubricant : str, optional
        Lubricant, for the friction of the pair: dry, oil, anti-seize paste.
    friction : FrictionLike, optional
        Friction in the thread, its least and greatest: 0.10-0.16.
    bearing_friction : FrictionLike, optional
        Friction under the nut or head. When not given: that of the thread.
    bearing_diameter : LengthLike, optional
        Mean diameter of the seat of nut or head; for a jam nut its own. At least 0 mm. When not given: 1.25
        diameters.
    bore : LengthLike, optional
        Bore of a threaded tube. At least 0 mm. When not given: solid.
    prevailing : ForceLike, optional
        Torque of a locking element or a coated thread before any preload. At least 0 N m. When not given: none.
    condition : str, optional
        Condition of the nut factor of common practice: dry, lubricated, ... When not given: unknown.

    Returns
    -------
    Tightening
        Torque and preload over the range of friction.

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
    Forces on the thread and the seat; nut factors of common practice; rows that the evidence names.
    """
    answer: Tightening = answer_to(
        "tighten",
        "halfnut.threads.figures:Tightening",
        (
            thread,
            preload,
            torque,
            share,
            external_alloy,
            external_form,
            external_grade,
            external_yield,
            internal_alloy,
            lubricant,
            friction,
            bearing_friction,
            bearing_diameter,
            bore,
            prevailing,
            condition,
        ),
    )
    return answer


def adjuster(
    external: PartLike,
    internal: PartLike,
    *,
    length_of_tube: LengthLike,
    tube_diameter: LengthLike,
    alloy: AlloyLike,
    form: str,
    push: ForceLike,
    pull: ForceLike,
    factor_of_safety: float,
    thread_length: LengthLike,
    base_thread: LengthLike,
    base_outside: LengthLike,
    base_reach: LengthLike,
    bore: LengthLike | None = None,
    rod_bore: LengthLike | None = None,
    chamfer: LengthLike | None = None,
    run_out: LengthLike | None = None,
    countersink: LengthLike | None = None,
    base_run_out: LengthLike | None = None,
    room: LengthLike | None = None,
    base_alloy: AlloyLike | None = None,
    base_form: str | None = None,
    lock_nut: LengthLike | None = None,
    nut_outside: LengthLike | None = None,
    nut_countersink: LengthLike | None = None,
    rule_diameters: float | None = None,
    second: EndLike | None = None,
    nut_alloy: AlloyLike | None = None,
    nut_form: str | None = None,
    coating: BuildUpLike | None = None,
    base_coating: BuildUpLike | None = None,
    friction: FrictionLike | None = None,
    lubricant: str | None = None,
    flats: int | None = None,
    groove_width: LengthLike | None = None,
    ends: Sequence[Literal["pinned", "fixed", "guided", "free"]] = (),
    middle: Literal["tube", "body"] = "tube",
) -> Adjuster:
    """How far a threaded tube or a turnbuckle may be wound out, its play, and what it bears.

    Parameters
    ----------
    external : PartLike
        External thread by its designation, or its limits: of the tube, or of the rod in a body. Any parallel form;
        the two ends may be of unlike ones.
    internal : PartLike
        Internal thread, likewise: of the base, or of the body.
    length_of_tube : LengthLike
        Overall length of the middle member; of an adjuster to its far joint. Above 0 mm.
    tube_diameter : LengthLike
        Plain outside diameter of the middle member. Above 0 mm.
    alloy : AlloyLike
        Alloy of the middle member.
    form : str
        Form that the middle member is made of: drawn tube, extrusion, bar.
    push : ForceLike
        Largest push along the axis; 0 N where there is none. At least 0 N.
    pull : ForceLike
        Largest pull along the axis; 0 N where there is none. At least 0 N.
    factor_of_safety : float
        Factor of safety. There is no usual one: it is asked for. From 1 to 100.
    thread_length : LengthLike
        External thread from its end, run-out included. Above 0 mm.
    base_thread : LengthLike
        Internal thread from its mouth, run-out included. Above 0 mm.
    base_outside : LengthLike
        Outside of the base; of the body where that is the middle member. Above 0 mm.
    base_reach : LengthLike
        From the base's joint to its mouth; of a rod to its end. At least 0 mm.
    bore : LengthLike, optional
        Bore of the middle member: of a tube also under its external threads, of a body its plain part alone. At
        least 0 mm. When not given: solid, and the answer says so.
    rod_bore : LengthLike, optional
        Bore of the rods of a body. At least 0 mm. When not given: solid, and the answer says so.
    chamfer : LengthLike, optional
        Chamfer at the end of the external thread, along the axis. At least 0 mm. When not given: none.
    run_out : LengthLike, optional
        Run-out of the external thread. At least 0 mm. When not given: none.
    countersink : LengthLike, optional
        Countersink at the mouth of the internal thread, along the axis. At least 0 mm. When not given: none.
    base_run_out : LengthLike, optional
        Run-out at the far end of the internal thread. At least 0 mm. When not given: none.
    room : LengthLike, optional
        How far the external end may go in past the mouth. Above 0 mm. When not given: to the run-out of the
        internal thread.
    base_alloy : AlloyLike, optional
        Alloy of the base, or of the rod in a body. When not given: that of the middle member.
    base_form : str, optional
        Form that the base or the rod is made of. When not given: bar.
    lock_nut : LengthLike, optional
        Thickness of the lock nut. At least 0 mm. When not given: none.
    nut_outside : LengthLike, optional
        Width of the lock nut across flats. Above 0 mm.
    nut_countersink : LengthLike, optional
        Countersink of each face of the lock nut. At least 0 mm. When not given: none.
    rule_diameters : float, optional
        Least engagement by rule, in nominal diameters. From 0 to 10. When not given: by practice for the internal
        part's metal.
    second : EndLike, optional
        Second end of a turnbuckle: what differs from the first, by the names of these arguments; two texts are its
        external and its internal thread.
    nut_alloy : AlloyLike, optional
        Alloy of the lock nut. When not given: that of the middle member.
    nut_form : str, optional
        Form that the lock nut is made of. When not given: bar.
    coating : BuildUpLike, optional
        Coating of all parts: its name, or what it adds to each surface: "0.0002 in", "anodise II black 15 um". When
        not given: none.
    base_coating : BuildUpLike, optional
        Coating of the internal parts, where it is another.
    friction : FrictionLike, optional
        Friction in thread and nut, its least and greatest: 0.10-0.16. When not given: that of the lubricant.
    lubricant : str, optional
        Lubricant to take the friction from. When not given: dry.
    flats : int, optional
        Flats of the wrench that turns the middle member. From 2 to 24. When not given: 6.
    groove_width : LengthLike, optional
        Width of the witness groove; its full form is lost where it is engaged. At least 0 mm. When not given: none.
    ends : Sequence[Literal["pinned", "fixed", "guided", "free"]], default ()
        How the joints hold the column, the first and the second one. When not given: both pinned.
    middle : {"tube", "body"}, default "tube"
        Middle member: a tube with external threads, or a body with internal ones.

    Returns
    -------
    Adjuster
        How far an adjuster or a turnbuckle may be wound out, and what it bears there.

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
    Handbook and textbook rules for stripping, columns and lock nuts; practice; rows that the evidence names.
    """
    answer: Adjuster = answer_to(
        "adjuster",
        "halfnut.threads.adjusters:Adjuster",
        (
            external,
            internal,
            length_of_tube,
            tube_diameter,
            alloy,
            form,
            push,
            pull,
            factor_of_safety,
            thread_length,
            base_thread,
            base_outside,
            base_reach,
            bore,
            rod_bore,
            chamfer,
            run_out,
            countersink,
            base_run_out,
            room,
            base_alloy,
            base_form,
            lock_nut,
            nut_outside,
            nut_countersink,
            rule_diameters,
            second,
            nut_alloy,
            nut_form,
            coating,
            base_coating,
            friction,
            lubricant,
            flats,
            groove_width,
            ends,
            middle,
        ),
    )
    return answer


def threads_near(
    diameter: LengthLike,
    *,
    within: LengthLike | None = None,
) -> ThreadsNear:
    """Standard threads of every form near a diameter, preferred ones first.

    Parameters
    ----------
    diameter : LengthLike
        Basic major diameter; of a taper thread in its gauge plane. Above 0 mm.
    within : LengthLike, optional
        Largest difference. At least 0 mm. When not given: 5 % of the diameter.

    Returns
    -------
    ThreadsNear
        Standard threads near a diameter.

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
    Series of the threads' standards.
    """
    answer: ThreadsNear = answer_to(
        "threads_near",
        "halfnut.threads.figures:ThreadsNear",
        (
            diameter,
            within,
        ),
    )
    return answer


def identify_thread(
    diameter: LengthLike,
    pitch: LengthLike,
    *,
    side: Literal["external", "internal"] = "external",
    engagement: LengthLike | None = None,
    flank_angle: NumberLike | None = None,
    count: int | None = None,
) -> Identification:
    """What a thread found on the bench may be, of every form at once.

    Parameters
    ----------
    diameter : LengthLike
        Crest as measured: major diameter of an external part, minor diameter of an internal one; of a taper thread
        in its gauge plane. Above 0 mm.
    pitch : LengthLike
        Pitch as measured, not the lead of several starts, or threads per inch: "20 tpi".
    side : {"external", "internal"}, default "external"
        Which part was measured.
    engagement : LengthLike, optional
        Length over which it would engage. Above 0 mm. When not given: one diameter.
    flank_angle : NumberLike, optional
        Angle between the two flanks of a groove: 60 ISO metric and Unified, 55 Whitworth and pipe, 30 trapezoidal,
        29 Acme. From 20 to 120 deg.
    count : int, optional
        How many candidates. From 1 to 1000. When not given: 6.

    Returns
    -------
    Identification
        Standard threads nearest to a measured part.

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
    Series and limits of the threads' standards.
    """
    answer: Identification = answer_to(
        "identify_thread",
        "halfnut.threads.figures:Identification",
        (
            diameter,
            pitch,
            side,
            engagement,
            flank_angle,
            count,
        ),
    )
    return answer
