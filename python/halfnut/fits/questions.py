"""The questions of this room.

Written by `./shop stubs` from the core's declarations: change those.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from halfnut.core.questions import answer_to

if TYPE_CHECKING:
    from halfnut.core.given import LengthLike
    from halfnut.fits.cylindrical import CylindricalFit
    from halfnut.fits.figures import PreferredFits
    from halfnut.fits.tapers import HoldingTaper
    from halfnut.material.alloys import AlloyLike
    from halfnut.material.coatings import BuildUpLike

__all__ = ["cylindrical_fit", "holding_taper", "preferred_fits"]


def cylindrical_fit(
    text: str,
    *,
    hole_build_up: BuildUpLike | None = None,
    shaft_build_up: BuildUpLike | None = None,
    hole: LengthLike | None = None,
    shaft: LengthLike | None = None,
    hole_alloy: AlloyLike | None = None,
    shaft_alloy: AlloyLike | None = None,
    hole_temperature_c: float | None = None,
    shaft_temperature_c: float | None = None,
    tolerance_over_sigma: float | None = None,
    mean_shift: float | None = None,
) -> CylindricalFit:
    """Limits of a plain hole or shaft, and how the two go together.

    Parameters
    ----------
    text : str
        Size with its class: "25 H7/g6", "25 H7", "25 g6" (ISO 286, in mm where no unit is said; "1 in H7/g6"), or
        "1.25 RC4" (ANSI B4.1, in inches where no unit is said).
    hole_build_up : BuildUpLike, optional
        What a coating adds to each surface of the hole: "8 um", "0.0002 in to 0.0003 in", "anodise II 12 um". When
        not given: none.
    shaft_build_up : BuildUpLike, optional
        What a coating adds to each surface of the shaft. When not given: none.
    hole : LengthLike, optional
        Hole as measured, bare, in place of its limits.
    shaft : LengthLike, optional
        Shaft as measured, bare, in place of its limits.
    hole_alloy : AlloyLike, optional
        Alloy around the hole, for a temperature other than 20 C.
    shaft_alloy : AlloyLike, optional
        Alloy of the shaft, for a temperature other than 20 C.
    hole_temperature_c : float, optional
        Temperature of the part with the hole, degrees Celsius. From -200 to 1000 C. When not given: 20 C.
    shaft_temperature_c : float, optional
        Temperature of the shaft, degrees Celsius. From -200 to 1000 C. When not given: 20 C.
    tolerance_over_sigma : float, optional
        Tolerance over the standard deviation of the shop's cutting. From 2 to 100. When not given: 6, which fills
        the zone.
    mean_shift : float, optional
        Where the shop's mean lies in the zone: 0 the middle, 1 the maximum-material limit, -1 the other. From -1 to
        1. When not given: 0.

    Returns
    -------
    CylindricalFit
        A size, or a hole and a shaft together; clearances are below 0 where they interfere.

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
    ISO 286 and ANSI B4.1 as the rows of the evidence name them.
    """
    answer: CylindricalFit = answer_to(
        "cylindrical_fit",
        "halfnut.fits.cylindrical:CylindricalFit",
        (
            text,
            hole_build_up,
            shaft_build_up,
            hole,
            shaft,
            hole_alloy,
            shaft_alloy,
            hole_temperature_c,
            shaft_temperature_c,
            tolerance_over_sigma,
            mean_shift,
        ),
    )
    return answer


def preferred_fits(
    *,
    basis: Literal["hole", "shaft"] | None = None,
) -> PreferredFits:
    """The fits to choose first, with their basis, use and source.

    Parameters
    ----------
    basis : {"hole", "shaft"}, optional
        Fits of this basis alone: which part keeps its zone.

    Returns
    -------
    PreferredFits
        Fits to choose first.

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
    ANSI B4.2 and B4.1, as each row names them.
    """
    answer: PreferredFits = answer_to("preferred_fits", "halfnut.fits.figures:PreferredFits", (basis,))
    return answer


def holding_taper(
    name: str,
    *,
    length: LengthLike | None = None,
    large: LengthLike | None = None,
    between_centres: LengthLike | None = None,
    sine_bar: LengthLike | None = None,
) -> HoldingTaper:
    """Ends, taper and settings of a self-holding taper.

    Parameters
    ----------
    name : str
        Name of the taper: morse 3, jarno 6, metric 80; or a taper on the diameter such as 1:10.
    length : LengthLike, optional
        Length from the gauge plane. Above 0 mm. When not given: that of the table.
    large : LengthLike, optional
        Diameter at the gauge plane of a taper such as 1:10, which has none of its own. Above 0 mm.
    between_centres : LengthLike, optional
        Length of the whole work, for setting over the tailstock. Above 0 mm.
    sine_bar : LengthLike, optional
        Length of the sine bar between its rollers. Above 0 mm. When not given: 5 in, or 100 mm for a metric taper.

    Returns
    -------
    HoldingTaper
        A self-holding taper.

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
    ISO 296 and ASME B5.10 as the rows of the evidence name them; Jarno's rule.
    """
    answer: HoldingTaper = answer_to(
        "holding_taper",
        "halfnut.fits.tapers:HoldingTaper",
        (
            name,
            length,
            large,
            between_centres,
            sine_bar,
        ),
    )
    return answer
