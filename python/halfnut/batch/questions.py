"""Batches of the questions.

Written by `./shop stubs` from the core's declarations: change those.
"""

from __future__ import annotations

from collections.abc import Iterable, MutableMapping
from typing import TYPE_CHECKING, Any, Literal, TypedDict

from numpy.typing import NDArray

from halfnut.batch.cuts import cuts
from halfnut.batch.frames import FrameLike, batch_of
from halfnut.batch.knurls import blanks
from halfnut.batch.running import Cancel, Progress, Run
from halfnut.core.given import HolderLike, LengthLike, NumberLike, ToleranceClassLike, WheelLike

if TYPE_CHECKING:
    from typing_extensions import Unpack

    from halfnut.machine.of_name import MachineLike

__all__ = ["DrillNumbers", "MillNumbers", "TurnNumbers", "drill", "knurl_blank", "mill", "turn"]


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
def knurl_blank(
    frame: FrameLike,
    /,
    *,
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
    """Blanks of many knurls; each row is what `halfnut.knurl_blank` computes for the same numbers.

    Parameters
    ----------
    frame : table
        Columns ``diameter_mm`` (or ``_in``) and, where they are not given for all rows, ``pitch``.
    pitch : str, optional
        For all rows.
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
        The figures of `halfnut.knurl_blank` that apply to the pitches and options, ``cautions``, ``status``,
        ``case_id`` (see `row_cases`), ``reason``.

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
    return blanks(
        frame,
        Run(columns, out, workers, progress, cancel),
        pitch,
        {
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
