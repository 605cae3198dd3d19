"""The questions of this room.

Written by `./shop stubs` from the core's declarations: change those.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from halfnut.core.questions import ask
from halfnut.knurls.blanks import KnurlBlank

if TYPE_CHECKING:
    from halfnut.core.given import LengthLike, NumberLike, ToleranceClassLike, WheelLike

__all__ = ["knurl_blank"]


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
    return KnurlBlank.of(
        ask(
            "knurl_blank",
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
    )
