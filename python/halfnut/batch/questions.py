"""Batches of the questions.

Written by `./shop stubs` from the core's declarations: change those.
"""

from __future__ import annotations

from collections.abc import Iterable, MutableMapping
from typing import TYPE_CHECKING, Any, Literal, TypedDict

from numpy.typing import NDArray

from halfnut.batch.asking import answered
from halfnut.batch.cuts import cuts
from halfnut.batch.frames import FrameLike, batch_of
from halfnut.batch.running import Cancel, Progress, Run

if TYPE_CHECKING:
    from typing_extensions import Unpack

    from halfnut.core.given import HolderLike, LengthLike, NumberLike, ThreadLike, ToleranceClassLike, WheelLike
    from halfnut.machine.of_name import MachineLike
    from halfnut.material.alloys import AlloyLike
    from halfnut.material.coatings import BuildUpLike
    from halfnut.threads.standard import PartLike


__all__ = [
    "DrillNumbers",
    "MillNumbers",
    "TurnNumbers",
    "cylindrical_fit",
    "drill",
    "fit",
    "judge",
    "knurl_blank",
    "limits",
    "mill",
    "precoat",
    "taper_pipe",
    "turn",
    "wires",
]


class TurnNumbers(TypedDict, total=False):
    """Numbers of `turn` that all rows share; a column gives one a row."""

    diameter_mm: NumberLike
    """Diameter before the cut. Above 0 mm."""
    diameter_in: NumberLike
    """`diameter_mm` in inches."""
    depth_mm: NumberLike
    """Depth of the cut on the radius. Above 0 mm. When not given: 1 mm, or 0.25 mm when finishing, in an inch question
    0.040 in and 0.010 in, at most a quarter of the radius."""
    depth_in: NumberLike
    """`depth_mm` in inches."""
    length_mm: NumberLike
    """Length of the cut along the work; without it there is no time. Above 0 mm."""
    length_in: NumberLike
    """`length_mm` in inches."""
    feed_mm_rev: NumberLike
    """Feed wanted, such as 0.1 mm/rev; the next finer of the machine is taken. Above 0 mm/rev."""
    feed_in_rev: NumberLike
    """`feed_mm_rev` in inches."""
    spindle_rpm: NumberLike
    """Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min."""
    bore_mm: NumberLike
    """Bore of a tube. At least 0 mm."""
    bore_in: NumberLike
    """`bore_mm` in inches."""
    stick_out_mm: NumberLike
    """Overhang of the work from the jaws, or the distance between centres. Above 0 mm. When not given: the length of
    the cut, which it is at least; without either there is no deflection."""
    stick_out_in: NumberLike
    """`stick_out_mm` in inches."""
    nose_radius_mm: NumberLike
    """Nose radius of the tool. At least 0 mm. When not given: 0.8 mm."""
    nose_radius_in: NumberLike
    """`nose_radius_mm` in inches."""
    entering_deg: NumberLike
    """Entering angle of the tool. From 10 to 120 deg. When not given: 90 degrees."""
    rake_deg: NumberLike
    """Rake of the tool. From -30 to 40 deg. When not given: as the force constants were measured."""
    wear_factor: NumberLike
    """Factor on the force, 1 of a sharp tool, 1.4 of a blunt one. Where it is not given the force is that of a sharp
    edge, while limits, upper edges of force and power, and the force across the edge with the deflection that it
    makes are those of an edge in use. From 1 to 3."""
    roughness_limit_um: NumberLike
    """Ra that is asked for; the feed aims finer, since a real surface is rougher than its geometry. Above 0 um."""
    roughness_limit_uin: NumberLike
    """`roughness_limit_um` in microinches."""
    deflection_limit_mm: NumberLike
    """Deflection that is allowed. Above 0 mm."""
    deflection_limit_in: NumberLike
    """`deflection_limit_mm` in inches."""
    approach_mm: NumberLike
    """Travel of the tool before the cut. At least 0 mm. When not given: 2 mm."""
    approach_in: NumberLike
    """`approach_mm` in inches."""
    overrun_mm: NumberLike
    """Travel of the tool past the cut. At least 0 mm. When not given: none."""
    overrun_in: NumberLike
    """`overrun_mm` in inches."""
    bar_length_mm: NumberLike
    """Length of a whole bar that goes through the spindle. Above 0 mm."""
    bar_length_in: NumberLike
    """`bar_length_mm` in inches."""
    bar_behind_mm: NumberLike
    """Length of a bar that is free behind the spindle. At least 0 mm."""
    bar_behind_in: NumberLike
    """`bar_behind_mm` in inches."""
    hardness_hb: NumberLike
    """The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy."""


@batch_of
def turn(
    frame: FrameLike,
    /,
    *,
    machine: MachineLike | None = None,
    alloy: str | None = None,
    tool: str | None = None,
    finish: bool = False,
    hold: Literal["chuck", "chuck and centre", "between centres"] = "chuck",
    chuck: HolderLike | None = None,
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Cancel | None = None,
    clone: str = "",
    **numbers: Unpack[TurnNumbers],
) -> Any:
    """Turn many diameters; each row is what `halfnut.turn` computes for the same numbers.

    Parameters
    ----------
    frame : table
        Columns ``diameter_mm`` (or ``_in``) and, where they are not given for all rows, ``alloy``, ``tool``, ``finish``
        (0 or 1); and any of the numbers that may be given for all rows: ``diameter_mm``, ``depth_mm``, ``length_mm``,
        ``feed_mm_rev``, ``spindle_rpm``, ``bore_mm``, ``stick_out_mm``, ``nose_radius_mm``, ``entering_deg``,
        ``rake_deg``, ``wear_factor``, ``roughness_limit_um``, ``deflection_limit_mm``, ``approach_mm``, ``overrun_mm``,
        ``bar_length_mm``, ``bar_behind_mm``, ``hardness_hb``. NaN is not given.
    machine : str, Path or Machine, optional
        One for all rows; without one, speed and feed are exact.
    alloy, tool : str, optional
        For all rows.
    finish : bool, optional
        A finishing cut, whatever its depth. For all rows.
    hold : {"chuck", "chuck and centre", "between centres"}, optional
        How the work is held. For all rows.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first. For all
        rows.
    columns : list of str or "all", optional
        Which columns to answer; the usual ones when not given. ``status`` is always among them.
    out : mapping of arrays, optional
        Where to write the answers, ``status`` among them: contiguous arrays of the types in `column_types`.
    workers : int, optional
        Threads; one a core when not given. The answers are the same for any number.
    progress : callable or "bar", optional
        Called with (rows done, rows) now and then, or a bar on the terminal.
    cancel : object with is_set(), or callable
        Looked at now and then; true stops the run.
    clone : str
        Instruction set, "portable", "avx2" or "avx512"; the widest here when not given.
    **numbers : TurnNumbers
        For all rows, by the names of the columns.

    Returns
    -------
    table of the same kind
        Figures, NaN in failed rows; ``spindle_step`` and ``feed_step``, places in the machine's lists from 0;
        ``limited_by``, a place in `halfnut._core.limit_codes`; ``cautions``, a bit for each (`cautions` reads them);
        ``case_id``, see `cases`; ``status``, 0 for an answer; ``reason``, see `reasons`. ``out`` when it was given.

    Raises
    ------
    DomainError
        A table that is not understood: a column without its unit, one that is missing, an ``out`` that does not fit.
    Stopped
        It was cancelled. Rows that were not reached have the status `NOT_REACHED` in ``out``; without ``out`` nothing
        is left.

    >>> from halfnut import batch
    >>> jobs = {"alloy": ["6061-T6", "4140"], "diameter_mm": [32.0, -1.0], "depth_mm": [1.0, 1.0]}
    >>> done = turn(jobs, machine="gap-bed")
    >>> done["status"].tolist(), batch.reasons(done, "turn")
    ([0, 2], {1: 'diameter_mm must be from 1e-06 to 100000 mm'})
    """
    return cuts(
        "turn",
        frame,
        Run(columns, out, workers, progress, cancel),
        machine,
        alloy,
        tool,
        numbers,
        finish=finish,
        way=hold,
        chuck=chuck,
        clone=clone,
    )


class DrillNumbers(TypedDict, total=False):
    """Numbers of `drill` that all rows share; a column gives one a row."""

    diameter_mm: NumberLike
    """Diameter of the drill; a number or letter drill by its name, such as #7. Above 0 mm."""
    diameter_in: NumberLike
    """`diameter_mm` in inches."""
    depth_mm: NumberLike
    """Depth of the full diameter, the point beyond it; without it there is no time. Above 0 mm."""
    depth_in: NumberLike
    """`depth_mm` in inches."""
    pilot_mm: NumberLike
    """Hole that is there already. At least 0 mm."""
    pilot_in: NumberLike
    """`pilot_mm` in inches."""
    point_deg: NumberLike
    """Angle of the point, both sides together. From 60 to 180 deg. When not given: 118 degrees."""
    feed_mm_rev: NumberLike
    """Feed wanted, such as 0.1 mm/rev; the next finer of the machine is taken. Above 0 mm/rev."""
    feed_in_rev: NumberLike
    """`feed_mm_rev` in inches."""
    spindle_rpm: NumberLike
    """Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min."""
    wear_factor: NumberLike
    """Factor on the force, 1 of a sharp tool, 1.4 of a blunt one. Where it is not given the force is that of a sharp
    edge, while limits and upper edges of force and power are those of an edge in use. From 1 to 3."""
    approach_mm: NumberLike
    """Travel of the tool before the cut. At least 0 mm. When not given: 2 mm."""
    approach_in: NumberLike
    """`approach_mm` in inches."""
    overrun_mm: NumberLike
    """Travel of the tool past the cut. At least 0 mm. When not given: none."""
    overrun_in: NumberLike
    """`overrun_mm` in inches."""
    stick_out_mm: NumberLike
    """Overhang of the work from the jaws. Above 0 mm."""
    stick_out_in: NumberLike
    """`stick_out_mm` in inches."""
    bar_length_mm: NumberLike
    """Length of a whole bar that goes through the spindle. Above 0 mm."""
    bar_length_in: NumberLike
    """`bar_length_mm` in inches."""
    bar_behind_mm: NumberLike
    """Length of a bar that is free behind the spindle. At least 0 mm."""
    bar_behind_in: NumberLike
    """`bar_behind_mm` in inches."""
    hardness_hb: NumberLike
    """The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy."""


@batch_of
def drill(
    frame: FrameLike,
    /,
    *,
    machine: MachineLike | None = None,
    alloy: str | None = None,
    tool: str | None = None,
    chuck: HolderLike | None = None,
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Cancel | None = None,
    **numbers: Unpack[DrillNumbers],
) -> Any:
    """Drill many holes; each row is what `halfnut.drill` computes for the same numbers.

    Parameters
    ----------
    frame : table
        Columns ``diameter_mm`` (or ``_in``) and, where they are not given for all rows, ``alloy``, ``tool``; and any of
        the numbers that may be given for all rows: ``diameter_mm``, ``depth_mm``, ``pilot_mm``, ``point_deg``,
        ``feed_mm_rev``, ``spindle_rpm``, ``wear_factor``, ``approach_mm``, ``overrun_mm``, ``stick_out_mm``,
        ``bar_length_mm``, ``bar_behind_mm``, ``hardness_hb``. NaN is not given.
    machine : str, Path or Machine, optional
        One for all rows; without one, speed and feed are exact.
    alloy, tool : str, optional
        For all rows.
    chuck : HolderLike, optional
        What holds the work, by the name or the place that the machine file gives it. When not given: the first. For all
        rows.
    columns : list of str or "all", optional
        Which columns to answer; the usual ones when not given. ``status`` is always among them.
    out : mapping of arrays, optional
        Where to write the answers, ``status`` among them: contiguous arrays of the types in `column_types`.
    workers : int, optional
        Threads; one a core when not given. The answers are the same for any number.
    progress : callable or "bar", optional
        Called with (rows done, rows) now and then, or a bar on the terminal.
    cancel : object with is_set(), or callable
        Looked at now and then; true stops the run.
    **numbers : DrillNumbers
        For all rows, by the names of the columns.

    Returns
    -------
    table of the same kind
        Figures, NaN in failed rows; ``spindle_step`` and ``feed_step``, places in the machine's lists from 0;
        ``limited_by``, a place in `halfnut._core.limit_codes`; ``cautions``, a bit for each (`cautions` reads them);
        ``status``, 0 for an answer; ``reason``, see `reasons`. ``out`` when it was given.

    Raises
    ------
    DomainError
        A table that is not understood: a column without its unit, one that is missing, an ``out`` that does not fit.
    Stopped
        It was cancelled. Rows that were not reached have the status `NOT_REACHED` in ``out``; without ``out`` nothing
        is left.

    >>> drill({"diameter_mm": [6.0], "depth_mm": [20.0]}, alloy="6061-T6", machine="bench-mill")["status"].tolist()
    [0]
    """
    return cuts(
        "drill", frame, Run(columns, out, workers, progress, cancel), machine, alloy, tool, numbers, chuck=chuck
    )


class MillNumbers(TypedDict, total=False):
    """Numbers of `mill` that all rows share; a column gives one a row."""

    cutter_diameter_mm: NumberLike
    """Diameter of the cutter. Above 0 mm."""
    cutter_diameter_in: NumberLike
    """`cutter_diameter_mm` in inches."""
    flutes: NumberLike
    """Teeth of the cutter. From 1 to 400. When not given: four, two below 5 mm."""
    length_mm: NumberLike
    """Length along the feed; without it there is no time. Above 0 mm."""
    length_in: NumberLike
    """`length_mm` in inches."""
    width_mm: NumberLike
    """Width to be cut away across the feed, in all passes. Above 0 mm. When not given: a slot's its cutter's."""
    width_in: NumberLike
    """`width_mm` in inches."""
    depth_mm: NumberLike
    """Depth to be cut away along the cutter's axis, in all passes. Above 0 mm."""
    depth_in: NumberLike
    """`depth_mm` in inches."""
    step_over_mm: NumberLike
    """Most across in one pass; the passes come out equal. Above 0 mm."""
    step_over_in: NumberLike
    """`step_over_mm` in inches."""
    step_down_mm: NumberLike
    """Most down in one pass; the passes come out equal. Above 0 mm."""
    step_down_in: NumberLike
    """`step_down_mm` in inches."""
    feed_per_tooth_mm: NumberLike
    """Feed a tooth wanted; the next slower feed of the table is taken. Above 0 mm."""
    feed_per_tooth_in: NumberLike
    """`feed_per_tooth_mm` in inches."""
    spindle_rpm: NumberLike
    """Spindle speed wanted; the nearest of the machine is taken. Above 0 rev/min."""
    entering_deg: NumberLike
    """Entering angle of a face mill's edge. From 10 to 90 deg. When not given: 90 degrees."""
    stick_out_mm: NumberLike
    """Overhang of the cutter from its holder; without it there is no deflection. Above 0 mm."""
    stick_out_in: NumberLike
    """`stick_out_mm` in inches."""
    nose_radius_mm: NumberLike
    """Nose radius of a face mill's teeth. Above 0 mm. When not given: 0.8 mm."""
    nose_radius_in: NumberLike
    """`nose_radius_mm` in inches."""
    roughness_limit_um: NumberLike
    """Ra that the feed may leave on a wall or a face, one tooth leading the others. Above 0 um."""
    roughness_limit_uin: NumberLike
    """`roughness_limit_um` in microinches."""
    wear_factor: NumberLike
    """Factor on the force, 1 of a sharp tool, 1.4 of a blunt one. Where it is not given the force is that of a sharp
    edge, while limits and upper edges of force and power are those of an edge in use. From 1 to 3."""
    deflection_limit_mm: NumberLike
    """Deflection of the cutter that is allowed. Above 0 mm."""
    deflection_limit_in: NumberLike
    """`deflection_limit_mm` in inches."""
    approach_mm: NumberLike
    """Travel of the tool before the cut. At least 0 mm. When not given: 2 mm."""
    approach_in: NumberLike
    """`approach_mm` in inches."""
    overrun_mm: NumberLike
    """Travel of the tool past the cut. At least 0 mm. When not given: none, with a face mill half its diameter."""
    overrun_in: NumberLike
    """`overrun_mm` in inches."""
    hardness_hb: NumberLike
    """The work's own Brinell hardness. Above 0 HB. When not given: as tabulated for the alloy."""


@batch_of
def mill(
    frame: FrameLike,
    /,
    *,
    machine: MachineLike | None = None,
    alloy: str | None = None,
    tool: str | None = None,
    shape: Literal["slot", "side", "pocket", "face"] = "side",
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Cancel | None = None,
    **numbers: Unpack[MillNumbers],
) -> Any:
    """Mill many cuts; each row is what `halfnut.mill` computes for the same numbers.

    Parameters
    ----------
    frame : table
        Columns ``cutter_diameter_mm``, ``depth_mm`` (or ``_in``) and, where they are not given for all rows, ``alloy``,
        ``tool``; and any of the numbers that may be given for all rows: ``cutter_diameter_mm``, ``flutes``,
        ``length_mm``, ``width_mm``, ``depth_mm``, ``step_over_mm``, ``step_down_mm``, ``feed_per_tooth_mm``,
        ``spindle_rpm``, ``entering_deg``, ``stick_out_mm``, ``nose_radius_mm``, ``roughness_limit_um``,
        ``wear_factor``, ``deflection_limit_mm``, ``approach_mm``, ``overrun_mm``, ``hardness_hb``. NaN is not given.
    machine : str, Path or Machine, optional
        One for all rows; without one, speed and feed are exact.
    alloy, tool : str, optional
        For all rows.
    shape : {"slot", "side", "pocket", "face"}, optional
        What is milled: a slot, a side or a pocket with an end mill, or a face with a face mill. For all rows.
    columns : list of str or "all", optional
        Which columns to answer; the usual ones when not given. ``status`` is always among them.
    out : mapping of arrays, optional
        Where to write the answers, ``status`` among them: contiguous arrays of the types in `column_types`.
    workers : int, optional
        Threads; one a core when not given. The answers are the same for any number.
    progress : callable or "bar", optional
        Called with (rows done, rows) now and then, or a bar on the terminal.
    cancel : object with is_set(), or callable
        Looked at now and then; true stops the run.
    **numbers : MillNumbers
        For all rows, by the names of the columns.

    Returns
    -------
    table of the same kind
        Figures, NaN in failed rows; ``spindle_step`` and ``feed_step``, places in the machine's lists from 0;
        ``limited_by``, a place in `halfnut._core.limit_codes`; ``cautions``, a bit for each (`cautions` reads them);
        ``status``, 0 for an answer; ``reason``, see `reasons`. ``out`` when it was given.

    Raises
    ------
    DomainError
        A table that is not understood: a column without its unit, one that is missing, an ``out`` that does not fit.
    Stopped
        It was cancelled. Rows that were not reached have the status `NOT_REACHED` in ``out``; without ``out`` nothing
        is left.

    >>> jobs = {"cutter_diameter_mm": [10.0], "flutes": [4.0], "depth_mm": [5.0], "width_mm": [2.0]}
    >>> mill(jobs, alloy="7075-T6", machine="bench-mill")["status"].tolist()
    [0]
    """
    return cuts("mill", frame, Run(columns, out, workers, progress, cancel), machine, alloy, tool, numbers, way=shape)


@batch_of
def cylindrical_fit(
    frame: FrameLike,
    /,
    *,
    text: str | None = None,
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
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Cancel | None = None,
) -> Any:
    """Limits of a plain hole or shaft, and how the two go together.

    Of every row of a table; each answer is what `halfnut.cylindrical_fit` gives for the same.

    Parameters
    ----------
    frame : table
        Columns ``text``, ``hole_build_up``, ``shaft_build_up``, ``hole_mm``, ``shaft_mm``, ``hole_alloy``,
        ``shaft_alloy``, ``hole_temperature_c``, ``shaft_temperature_c``, ``tolerance_over_sigma``, ``mean_shift``,
        where they are not given for all rows; a length may be in inches, ``_in`` for ``_mm``. What is empty or NaN is
        not given.
    text : str, optional
        Size with its class: "25 H7/g6", "25 H7", "25 g6" (ISO 286, in mm where no unit is said; "1 in H7/g6"), or "1.25
        RC4" (ANSI B4.1, in inches where no unit is said). For all rows.
    hole_build_up : BuildUpLike, optional
        What a coating adds to each surface of the hole: "8 um", "0.0002 in to 0.0003 in", "anodise II 12 um". When not
        given: none. For all rows.
    shaft_build_up : BuildUpLike, optional
        What a coating adds to each surface of the shaft. When not given: none. For all rows.
    hole : LengthLike, optional
        Hole as measured, bare, in place of its limits. For all rows.
    shaft : LengthLike, optional
        Shaft as measured, bare, in place of its limits. For all rows.
    hole_alloy : AlloyLike, optional
        Alloy around the hole, for a temperature other than 20 C. For all rows.
    shaft_alloy : AlloyLike, optional
        Alloy of the shaft, for a temperature other than 20 C. For all rows.
    hole_temperature_c : float, optional
        Temperature of the part with the hole, degrees Celsius. From -200 to 1000 C. When not given: 20 C. For all rows.
    shaft_temperature_c : float, optional
        Temperature of the shaft, degrees Celsius. From -200 to 1000 C. When not given: 20 C. For all rows.
    tolerance_over_sigma : float, optional
        Tolerance over the standard deviation of the shop's cutting. From 2 to 100. When not given: 6, which fills the
        zone. For all rows.
    mean_shift : float, optional
        Where the shop's mean lies in the zone: 0 the middle, 1 the maximum-material limit, -1 the other. From -1 to 1.
        When not given: 0. For all rows.
    columns : list of str or "all", optional
        Which columns to answer; the usual ones when not given. ``status`` is always among them.
    out : mapping of arrays, optional
        Where to write the answers, ``status`` among them: contiguous arrays of the types in `column_types`.
    workers : int, optional
        Threads; one a core when not given. The answers are the same for any number.
    progress : callable or "bar", optional
        Called with (rows done, rows) now and then, or a bar on the terminal.
    cancel : object with is_set(), or callable
        Looked at now and then; true stops the run.

    Returns
    -------
    table of the same kind
        The figures of `halfnut.cylindrical_fit`, NaN or empty in failed rows, those of a record within the answer after
        its name; the usual ones are all but texts that may be any. ``status``, 0 for an answer; ``case_id``, see
        `row_cases`; ``reason``, why there is no answer. ``out`` when it was given.

    Raises
    ------
    DomainError
        A table that is not understood: a column without its unit, one that is missing, an ``out`` that does not fit.
    Stopped
        It was cancelled. Rows that were not reached have the status `NOT_REACHED` in ``out``; without ``out`` nothing
        is left.

    >>> cylindrical_fit({"text": ["25 H7/g6", "40 H7"]})["hole_max_mm"].tolist()
    [25.021, 40.025]
    """
    return answered(
        "cylindrical_fit",
        frame,
        Run(columns, out, workers, progress, cancel),
        {
            "text": text,
            "hole_build_up": hole_build_up,
            "shaft_build_up": shaft_build_up,
            "hole": hole,
            "shaft": shaft,
            "hole_alloy": hole_alloy,
            "shaft_alloy": shaft_alloy,
            "hole_temperature_c": hole_temperature_c,
            "shaft_temperature_c": shaft_temperature_c,
            "tolerance_over_sigma": tolerance_over_sigma,
            "mean_shift": mean_shift,
        },
    )


@batch_of
def fit(
    frame: FrameLike,
    /,
    *,
    external: PartLike | None = None,
    internal: PartLike | None = None,
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
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Cancel | None = None,
) -> Any:
    """Whether two threads screw together, bare or coated, and with how much play.

    Of every row of a table; each answer is what `halfnut.fit` gives for the same.

    Parameters
    ----------
    frame : table
        Columns ``external``, ``internal``, ``build_up``, ``build_up_external``, ``build_up_internal``,
        ``engagement_mm``, ``external_pitch_mm``, ``external_major_mm``, ``internal_pitch_mm``, ``internal_minor_mm``,
        ``external_lead_error_mm``, ``internal_lead_error_mm``, ``external_alloy``, ``internal_alloy``,
        ``temperature_c``, ``tolerance_over_sigma``, ``mean_shift``, where they are not given for all rows; a length may
        be in inches, ``_in`` for ``_mm``. What is empty or NaN is not given.
    external : PartLike, optional
        External thread by its designation, or its limits, before coating or by sizes alone. For all rows.
    internal : PartLike, optional
        Internal thread, likewise. For all rows.
    build_up : BuildUpLike, optional
        Coating of both parts: its name, or what it adds to each surface: "8 um", "0.0002 in to 0.0003 in", "anodise II
        black 15 um". When not given: none. For all rows.
    build_up_external : BuildUpLike, optional
        Coating of the external part alone. For all rows.
    build_up_internal : BuildUpLike, optional
        Coating of the internal part alone. For all rows.
    engagement : LengthLike, optional
        Full-form length of engagement, without chamfers and run-outs. Above 0 and at most 10000 mm. When not given: the
        nominal diameter. For all rows.
    external_pitch : LengthLike, optional
        Pitch diameter of the external part as measured, bare, in place of its limits. Above 0 and at most 10000 mm. For
        all rows.
    external_major : LengthLike, optional
        Major diameter of the external part as measured. Above 0 and at most 10000 mm. For all rows.
    internal_pitch : LengthLike, optional
        Pitch diameter of the internal part as measured, bare, in place of its limits. Above 0 and at most 10000 mm. For
        all rows.
    internal_minor : LengthLike, optional
        Minor diameter of the internal part as measured. Above 0 and at most 10000 mm. For all rows.
    external_lead_error : LengthLike, optional
        Error of lead of the external part, between any two flanks engaged. From 0 to 10000 mm. When not given: none.
        For all rows.
    internal_lead_error : LengthLike, optional
        Error of lead of the internal part. From 0 to 10000 mm. When not given: none. For all rows.
    external_alloy : AlloyLike, optional
        Alloy of the external part; needed for a temperature other than 20 C. For all rows.
    internal_alloy : AlloyLike, optional
        Alloy of the internal part; needed for a temperature other than 20 C. For all rows.
    temperature_c : float, optional
        Temperature of both parts, degrees Celsius. From -200 to 1000 C. When not given: 20 C. For all rows.
    tolerance_over_sigma : float, optional
        Tolerance over the standard deviation of the shop's cutting. From 2 to 100. When not given: 6, which fills the
        zone. For all rows.
    mean_shift : float, optional
        Where the shop's mean lies in the zone: 0 the middle, 1 the maximum-material limit, -1 the other. From -1 to 1.
        When not given: 0. For all rows.
    columns : list of str or "all", optional
        Which columns to answer; the usual ones when not given. ``status`` is always among them.
    out : mapping of arrays, optional
        Where to write the answers, ``status`` among them: contiguous arrays of the types in `column_types`.
    workers : int, optional
        Threads; one a core when not given. The answers are the same for any number.
    progress : callable or "bar", optional
        Called with (rows done, rows) now and then, or a bar on the terminal.
    cancel : object with is_set(), or callable
        Looked at now and then; true stops the run.

    Returns
    -------
    table of the same kind
        The figures of `halfnut.fit`, NaN or empty in failed rows, those of a record within the answer after its name;
        the usual ones are all but texts that may be any. ``status``, 0 for an answer; ``case_id``, see `row_cases`;
        ``reason``, why there is no answer. ``out`` when it was given.

    Raises
    ------
    DomainError
        A table that is not understood: a column without its unit, one that is missing, an ``out`` that does not fit.
    Stopped
        It was cancelled. Rows that were not reached have the status `NOT_REACHED` in ``out``; without ``out`` nothing
        is left.

    >>> fit({"external": ["M10-6g", "M10-6h"]}, internal="M10-6H")["verdict"].tolist()
    ['free', 'free']
    """
    return answered(
        "fit",
        frame,
        Run(columns, out, workers, progress, cancel),
        {
            "external": external,
            "internal": internal,
            "build_up": build_up,
            "build_up_external": build_up_external,
            "build_up_internal": build_up_internal,
            "engagement": engagement,
            "external_pitch": external_pitch,
            "external_major": external_major,
            "internal_pitch": internal_pitch,
            "internal_minor": internal_minor,
            "external_lead_error": external_lead_error,
            "internal_lead_error": internal_lead_error,
            "external_alloy": external_alloy,
            "internal_alloy": internal_alloy,
            "temperature_c": temperature_c,
            "tolerance_over_sigma": tolerance_over_sigma,
            "mean_shift": mean_shift,
        },
    )


@batch_of
def judge(
    frame: FrameLike,
    /,
    *,
    thread: PartLike | None = None,
    pitch: LengthLike | None = None,
    over_wires: LengthLike | None = None,
    wire: LengthLike | None = None,
    major: LengthLike | None = None,
    minor: LengthLike | None = None,
    lead_error: LengthLike | None = None,
    leading_error_deg: NumberLike | None = None,
    following_error_deg: NumberLike | None = None,
    engagement: LengthLike | None = None,
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Cancel | None = None,
) -> Any:
    """What a measured part is: its classes, and what is left to take off.

    Of every row of a table; each answer is what `halfnut.judge` gives for the same.

    Parameters
    ----------
    frame : table
        Columns ``thread``, ``pitch_mm``, ``over_wires_mm``, ``wire_mm``, ``major_mm``, ``minor_mm``, ``lead_error_mm``,
        ``leading_error_deg``, ``following_error_deg``, ``engagement_mm``, where they are not given for all rows; a
        length may be in inches, ``_in`` for ``_mm``. What is empty or NaN is not given.
    thread : PartLike, optional
        Thread that the part is to be; limits, such as those before coating, are judged alone. For all rows.
    pitch : LengthLike, optional
        Pitch diameter as measured. Above 0 and at most 10000 mm. For all rows.
    over_wires : LengthLike, optional
        Size over three wires, or across two balls square to the axis of a nut, in its place. Above 0 and at most 10000
        mm. For all rows.
    wire : LengthLike, optional
        Diameter of those wires or balls. Above 0 and at most 10000 mm. For all rows.
    major : LengthLike, optional
        Major diameter as measured. Above 0 and at most 10000 mm. For all rows.
    minor : LengthLike, optional
        Minor diameter as measured. Above 0 and at most 10000 mm. For all rows.
    lead_error : LengthLike, optional
        Error of lead between any two flanks engaged. From -10000 to 10000 mm. When not given: none. For all rows.
    leading_error_deg : NumberLike, optional
        Half angle of the leading flank less the standard one. Above -20 and below 20 deg. When not given: none. For all
        rows.
    following_error_deg : NumberLike, optional
        Half angle of the following flank less the standard one. Above -20 and below 20 deg. When not given: none. For
        all rows.
    engagement : LengthLike, optional
        Length of engagement. Above 0 and at most 10000 mm. When not given: normal. For all rows.
    columns : list of str or "all", optional
        Which columns to answer; the usual ones when not given. ``status`` is always among them.
    out : mapping of arrays, optional
        Where to write the answers, ``status`` among them: contiguous arrays of the types in `column_types`.
    workers : int, optional
        Threads; one a core when not given. The answers are the same for any number.
    progress : callable or "bar", optional
        Called with (rows done, rows) now and then, or a bar on the terminal.
    cancel : object with is_set(), or callable
        Looked at now and then; true stops the run.

    Returns
    -------
    table of the same kind
        The figures of `halfnut.judge`, NaN or empty in failed rows, those of a record within the answer after its name;
        the usual ones are all but texts that may be any. ``status``, 0 for an answer; ``case_id``, see `row_cases`;
        ``reason``, why there is no answer. ``out`` when it was given.

    Raises
    ------
    DomainError
        A table that is not understood: a column without its unit, one that is missing, an ``out`` that does not fit.
    Stopped
        It was cancelled. Rows that were not reached have the status `NOT_REACHED` in ``out``; without ``out`` nothing
        is left.

    >>> judge({"pitch_mm": [9.05, 8.95, 8.85]}, thread="M10-6g")["place"].tolist()
    ['metal left', 'within', 'overcut']
    """
    return answered(
        "judge",
        frame,
        Run(columns, out, workers, progress, cancel),
        {
            "thread": thread,
            "pitch": pitch,
            "over_wires": over_wires,
            "wire": wire,
            "major": major,
            "minor": minor,
            "lead_error": lead_error,
            "leading_error_deg": leading_error_deg,
            "following_error_deg": following_error_deg,
            "engagement": engagement,
        },
    )


@batch_of
def knurl_blank(
    frame: FrameLike,
    /,
    *,
    diameter: LengthLike | None = None,
    pitch: str | None = None,
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
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Cancel | None = None,
) -> Any:
    """The blank to turn so that a knurl closes on itself, and the diameter it comes out at.

    Of every row of a table; each answer is what `halfnut.knurl_blank` gives for the same.

    Parameters
    ----------
    frame : table
        Columns ``diameter_mm``, ``pitch``, ``pattern``, ``wheel_mm``, ``finished``, ``process``, ``prefer``,
        ``helix_deg``, ``profile_deg``, ``set_over``, ``tracking_allowance_mm``, ``tolerance_class``, ``width_mm``,
        where they are not given for all rows; a length may be in inches, ``_in`` for ``_mm``. What is empty or NaN is
        not given.
    diameter : LengthLike, optional
        Diameter of the work before knurling; after it when finished. Above 0 mm. For all rows.
    pitch : str, optional
        Pitch: "96 DP" (teeth per inch of diameter), "21 TPI" (teeth per inch across the teeth), "0.8 mm" (the same), a
        name ("coarse", "medium", "fine"), or a metric designation ("RGE 0.8", "RGE 08 - 105 DIN 82"). For all rows.
    pattern : str, optional
        Pattern: straight, left, right, diamond raised, diamond indented, cross raised, cross indented, or a metric form
        such as RGV. When not given: as the pitch names it, else diamond raised. For all rows.
    wheel : WheelLike, optional
        Wheel at hand: "0.750 in, 47 teeth" as measured over the points, or "20 mm" for a standard wheel. For all rows.
    finished : bool, optional
        The diameter is wanted after knurling; growth and whole teeth are solved together. For all rows.
    process : {"form", "cut"}, optional
        How the teeth are made: pressed in, or cut with cutting wheels. For all rows.
    prefer : {"nearest", "below", "above"}, optional
        Which of the blanks that track is answered; the one below when the bar is already to size. For all rows.
    helix_deg : NumberLike, optional
        Angle of leaning teeth from the axis. Above 0 and below 75 deg. When not given: 30 degrees. For all rows.
    profile_deg : NumberLike, optional
        Angle between the flanks of the wheel's teeth. From 40 to 140 deg. When not given: the system's own depth. For
        all rows.
    set_over : bool, optional
        Straight wheels are turned to the helix angle, in place of wheels with leaning teeth. For all rows.
    tracking_allowance : LengthLike, optional
        How much larger than measured the wheel tracks. At least 0 mm. When not given: by rule. For all rows.
    tolerance_class : ToleranceClassLike, optional
        Class of a diametral pitch: I, II or III. For all rows.
    width : LengthLike, optional
        Width of the knurled band. Above 0 mm. For all rows.
    columns : list of str or "all", optional
        Which columns to answer; the usual ones when not given. ``status`` is always among them.
    out : mapping of arrays, optional
        Where to write the answers, ``status`` among them: contiguous arrays of the types in `column_types`.
    workers : int, optional
        Threads; one a core when not given. The answers are the same for any number.
    progress : callable or "bar", optional
        Called with (rows done, rows) now and then, or a bar on the terminal.
    cancel : object with is_set(), or callable
        Looked at now and then; true stops the run.

    Returns
    -------
    table of the same kind
        The figures of `halfnut.knurl_blank`, NaN or empty in failed rows, those of a record within the answer after its
        name; the usual ones are all but texts that may be any. ``status``, 0 for an answer; ``case_id``, see
        `row_cases`; ``reason``, why there is no answer. ``out`` when it was given.

    Raises
    ------
    DomainError
        A table that is not understood: a column without its unit, one that is missing, an ``out`` that does not fit.
    Stopped
        It was cancelled. Rows that were not reached have the status `NOT_REACHED` in ``out``; without ``out`` nothing
        is left.

    >>> knurl_blank({"diameter_mm": [12.7, -1.0]}, pitch="96 DP", pattern="straight")["teeth"].tolist()
    [48.0, nan]
    """
    return answered(
        "knurl_blank",
        frame,
        Run(columns, out, workers, progress, cancel),
        {
            "diameter": diameter,
            "pitch": pitch,
            "pattern": pattern,
            "wheel": wheel,
            "finished": finished,
            "process": process,
            "prefer": prefer,
            "helix_deg": helix_deg,
            "profile_deg": profile_deg,
            "set_over": set_over,
            "tracking_allowance": tracking_allowance,
            "tolerance_class": tolerance_class,
            "width": width,
        },
    )


@batch_of
def limits(
    frame: FrameLike,
    /,
    *,
    thread: PartLike | None = None,
    side: Literal["external", "internal"] | None = None,
    engagement: LengthLike | None = None,
    rule: Literal["printed", "formula"] = "printed",
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Cancel | None = None,
) -> Any:
    """Limits of size of a thread, of any form that is known.

    Of every row of a table; each answer is what `halfnut.limits` gives for the same.

    Parameters
    ----------
    frame : table
        Columns ``thread``, ``side``, ``engagement_mm``, ``rule``, where they are not given for all rows; a length may
        be in inches, ``_in`` for ``_mm``. What is empty or NaN is not given.
    thread : PartLike, optional
        Thread by its designation: M10x1.5-6g, 1/4-20 UNC-2B, Tr40x7-7e, G1/2 A; one that names no class means both
        parts in their usual ones. For all rows.
    side : {"external", "internal"}, optional
        One part alone, of a designation that means both. For all rows.
    engagement : LengthLike, optional
        Length of engagement: it chooses the group of a metric thread, and outside the usual lengths the tolerance of a
        Unified one; Whitworth tolerances depend on it. Above 0 mm. When not given: normal. For all rows.
    rule : {"printed", "formula"}, optional
        Decimal rule of Unified threads: what printed tables and go gauges carry, or the standard's own since 2003. For
        all rows.
    columns : list of str or "all", optional
        Which columns to answer; the usual ones when not given. ``status`` is always among them.
    out : mapping of arrays, optional
        Where to write the answers, ``status`` among them: contiguous arrays of the types in `column_types`.
    workers : int, optional
        Threads; one a core when not given. The answers are the same for any number.
    progress : callable or "bar", optional
        Called with (rows done, rows) now and then, or a bar on the terminal.
    cancel : object with is_set(), or callable
        Looked at now and then; true stops the run.

    Returns
    -------
    table of the same kind
        The figures of `halfnut.limits`, NaN or empty in failed rows, those of a record within the answer after its
        name; the usual ones are all but texts that may be any. ``status``, 0 for an answer; ``case_id``, see
        `row_cases`; ``reason``, why there is no answer. ``out`` when it was given.

    Raises
    ------
    DomainError
        A table that is not understood: a column without its unit, one that is missing, an ``out`` that does not fit.
    Stopped
        It was cancelled. Rows that were not reached have the status `NOT_REACHED` in ``out``; without ``out`` nothing
        is left.

    >>> limits({"thread": ["M10-6g", "M10-6z", "Tr40x7-7e", "1/2-14 NPT"]})["status"].tolist()
    [0, 6, 0, 5]
    """
    return answered(
        "limits",
        frame,
        Run(columns, out, workers, progress, cancel),
        {"thread": thread, "side": side, "engagement": engagement, "rule": rule},
    )


@batch_of
def precoat(
    frame: FrameLike,
    /,
    *,
    thread: PartLike | None = None,
    build_up: BuildUpLike | None = None,
    gauged_at: Literal["basic", "class"] = "basic",
    engagement: LengthLike | None = None,
    rule: Literal["printed", "formula"] = "printed",
    on: AlloyLike | None = None,
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Cancel | None = None,
) -> Any:
    """Limits to cut a thread to so that it gauges once it is coated.

    Of every row of a table; each answer is what `halfnut.precoat` gives for the same.

    Parameters
    ----------
    frame : table
        Columns ``thread``, ``build_up``, ``gauged_at``, ``engagement_mm``, ``rule``, ``on``, where they are not given
        for all rows; a length may be in inches, ``_in`` for ``_mm``. What is empty or NaN is not given.
    thread : PartLike, optional
        Thread by its designation, or limits of one part; without a class the usual one is meant. Limits are those of
        the coated part. For all rows.
    build_up : BuildUpLike, optional
        Coating: its name, or what it adds to each surface: "8 um", "0.0002 in to 0.0003 in", "anodise II black 15 um".
        For all rows.
    gauged_at : {"basic", "class"}, optional
        Where the coated part is to gauge: at the basic size, as the standards say, or at its own class, so that the
        allowance is there after coating, too. Of ISO metric and Unified threads. For all rows.
    engagement : LengthLike, optional
        Length of engagement. Above 0 mm. When not given: normal. For all rows.
    rule : {"printed", "formula"}, optional
        Decimal rule of Unified threads: as tables and gauges are printed, or by formula. For all rows.
    on : AlloyLike, optional
        Alloy; one that does not take the coating is refused. For all rows.
    columns : list of str or "all", optional
        Which columns to answer; the usual ones when not given. ``status`` is always among them.
    out : mapping of arrays, optional
        Where to write the answers, ``status`` among them: contiguous arrays of the types in `column_types`.
    workers : int, optional
        Threads; one a core when not given. The answers are the same for any number.
    progress : callable or "bar", optional
        Called with (rows done, rows) now and then, or a bar on the terminal.
    cancel : object with is_set(), or callable
        Looked at now and then; true stops the run.

    Returns
    -------
    table of the same kind
        The figures of `halfnut.precoat`, NaN or empty in failed rows, those of a record within the answer after its
        name; the usual ones are all but texts that may be any. ``status``, 0 for an answer; ``case_id``, see
        `row_cases`; ``reason``, why there is no answer. ``out`` when it was given.

    Raises
    ------
    DomainError
        A table that is not understood: a column without its unit, one that is missing, an ``out`` that does not fit.
    Stopped
        It was cancelled. Rows that were not reached have the status `NOT_REACHED` in ``out``; without ``out`` nothing
        is left.

    >>> precoat({"build_up": ["8 um", "8-10 um"]}, thread="M10-6h")["pitch_max_mm"].round(3).tolist()
    [8.994, 8.986]
    """
    return answered(
        "precoat",
        frame,
        Run(columns, out, workers, progress, cancel),
        {
            "thread": thread,
            "build_up": build_up,
            "gauged_at": gauged_at,
            "engagement": engagement,
            "rule": rule,
            "on": on,
        },
    )


@batch_of
def taper_pipe(
    frame: FrameLike,
    /,
    *,
    thread: ThreadLike | None = None,
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Cancel | None = None,
) -> Any:
    """What a taper pipe thread is cut and gauged to: turns by hand, gauge plane, holes, setting.

    Of every row of a table; each answer is what `halfnut.taper_pipe` gives for the same.

    Parameters
    ----------
    frame : table
        Columns ``thread``, where they are not given for all rows; a length may be in inches, ``_in`` for ``_mm``. What
        is empty or NaN is not given.
    thread : ThreadLike, optional
        Taper pipe thread by its designation: 1/2-14 NPT, R1/2, Rc1/2. For all rows.
    columns : list of str or "all", optional
        Which columns to answer; the usual ones when not given. ``status`` is always among them.
    out : mapping of arrays, optional
        Where to write the answers, ``status`` among them: contiguous arrays of the types in `column_types`.
    workers : int, optional
        Threads; one a core when not given. The answers are the same for any number.
    progress : callable or "bar", optional
        Called with (rows done, rows) now and then, or a bar on the terminal.
    cancel : object with is_set(), or callable
        Looked at now and then; true stops the run.

    Returns
    -------
    table of the same kind
        The figures of `halfnut.taper_pipe`, NaN or empty in failed rows, those of a record within the answer after its
        name; the usual ones are all but texts that may be any. ``status``, 0 for an answer; ``case_id``, see
        `row_cases`; ``reason``, why there is no answer. ``out`` when it was given.

    Raises
    ------
    DomainError
        A table that is not understood: a column without its unit, one that is missing, an ``out`` that does not fit.
    Stopped
        It was cancelled. Rows that were not reached have the status `NOT_REACHED` in ``out``; without ``out`` nothing
        is left.

    >>> taper_pipe({"thread": ["1/2-14 NPT", "M10-6g"]})["hand_turns"].round(2).tolist()
    [4.48, nan]
    """
    return answered("taper_pipe", frame, Run(columns, out, workers, progress, cancel), {"thread": thread})


@batch_of
def wires(
    frame: FrameLike,
    /,
    *,
    thread: PartLike | None = None,
    wire: LengthLike | None = None,
    set: str | None = None,
    build_up: BuildUpLike | None = None,
    columns: Iterable[str] | str | None = None,
    out: MutableMapping[str, NDArray[Any]] | None = None,
    workers: int | None = None,
    progress: Progress | Literal["bar"] | None = None,
    cancel: Cancel | None = None,
) -> Any:
    """What to read over wires for the limits of a thread; across two balls of a nut.

    Of every row of a table; each answer is what `halfnut.wires` gives for the same.

    Parameters
    ----------
    frame : table
        Columns ``thread``, ``wire_mm``, ``set``, ``build_up``, where they are not given for all rows; a length may be
        in inches, ``_in`` for ``_mm``. What is empty or NaN is not given.
    thread : PartLike, optional
        Thread by its designation, or limits of one part; an internal thread is answered across two balls. For all rows.
    wire : LengthLike, optional
        Wire at hand; "best" for the one that touches at the pitch line. When not given: the nearest of the set. For all
        rows.
    set : str, optional
        Set of wires to choose from: inch, metric, or one of the shop's own. When not given: that of the thread's unit.
        For all rows.
    build_up : BuildUpLike, optional
        Coating still to come, which the part is cut for: its name, or what it adds to a surface. When not given: none.
        For all rows.
    columns : list of str or "all", optional
        Which columns to answer; the usual ones when not given. ``status`` is always among them.
    out : mapping of arrays, optional
        Where to write the answers, ``status`` among them: contiguous arrays of the types in `column_types`.
    workers : int, optional
        Threads; one a core when not given. The answers are the same for any number.
    progress : callable or "bar", optional
        Called with (rows done, rows) now and then, or a bar on the terminal.
    cancel : object with is_set(), or callable
        Looked at now and then; true stops the run.

    Returns
    -------
    table of the same kind
        The figures of `halfnut.wires`, NaN or empty in failed rows, those of a record within the answer after its name;
        the usual ones are all but texts that may be any. ``status``, 0 for an answer; ``case_id``, see `row_cases`;
        ``reason``, why there is no answer. ``out`` when it was given.

    Raises
    ------
    DomainError
        A table that is not understood: a column without its unit, one that is missing, an ``out`` that does not fit.
    Stopped
        It was cancelled. Rows that were not reached have the status `NOT_REACHED` in ``out``; without ``out`` nothing
        is left.

    >>> wires({"thread": ["M10-6g", "nothing"]}, wire="best")["over_max_mm"].round(3).tolist()
    [10.29, nan]
    """
    return answered(
        "wires",
        frame,
        Run(columns, out, workers, progress, cancel),
        {"thread": thread, "wire": wire, "set": set, "build_up": build_up},
    )
