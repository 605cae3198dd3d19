"""Types of the compiled core: classes and functions by hand in `tests/stubs/core.pyi`, formulas from the core.

`./shop stubs` writes it; a test compares it with the built module.
"""

from collections.abc import Mapping, Sequence
from typing import Any, Literal, Self, TypeAlias, overload

import numpy as np
from numpy.typing import ArrayLike, NDArray

FloatOrArray: TypeAlias = float | NDArray[np.float64]

__version__: str

# errors

class Error(Exception): ...
class DomainError(Error, ValueError): ...
class UnitError(Error, ValueError): ...
class NotTabulatedError(Error, LookupError): ...

class DesignationError(Error, ValueError):
    position: int

class TableError(Error, ValueError): ...

# catalogue

class Evidence:
    @property
    def figure(self) -> str: ...
    @property
    def rule(self) -> str: ...
    @property
    def rule_id(self) -> str: ...
    @property
    def row(self) -> str: ...
    @property
    def source(self) -> str: ...
    @property
    def kind(self) -> str: ...

class Catalogue:
    def __init__(self) -> None: ...
    def with_table(self, table: str, text: str, name: str, lines: list[int] = ...) -> Catalogue: ...
    def refused(self) -> list[tuple[str, str, list[str], list[str], str]]: ...
    @property
    def layers(self) -> tuple[tuple[str, str, str, tuple[int, ...]], ...]: ...
    def tables(self) -> list[str]: ...
    def rows(self, table: str) -> list[dict[str, Any]]: ...
    def row(self, table: str, index: int) -> dict[str, Any]: ...
    def caution(self, code: str, figures: dict[str, Any]) -> tuple[Literal["danger", "caution", "note"], str]: ...
    def of_the_piece(self, code: str) -> bool: ...
    def words(self, list: str, code: str, figures: dict[str, Any]) -> str: ...

def status_name(code: int) -> str: ...
def nearest_name(name: str, candidates: list[str]) -> str: ...

# quantities

class Quantity:
    @overload
    def __init__(self, value: float, unit: str, dimension: str) -> None: ...
    @overload
    def __init__(self, text: str, dimension: str) -> None: ...
    @property
    def value(self) -> float: ...
    @property
    def unit(self) -> str: ...
    @property
    def dimension(self) -> str: ...
    @property
    def system(self) -> str: ...
    @property
    def base(self) -> float: ...
    def __eq__(self, other: object, /) -> bool: ...
    def __hash__(self) -> int: ...
    def __lt__(self, other: Self) -> bool: ...
    def __le__(self, other: Self) -> bool: ...
    def __gt__(self, other: Self) -> bool: ...
    def __ge__(self, other: Self) -> bool: ...
    def __add__(self, other: Self) -> Self: ...
    def __radd__(self, other: Literal[0]) -> Self: ...
    def __sub__(self, other: Self) -> Self: ...
    def __mul__(self, factor: float) -> Self: ...
    def __rmul__(self, factor: float) -> Self: ...
    @overload
    def __truediv__(self, divisor: Self) -> float: ...
    @overload
    def __truediv__(self, divisor: float) -> Self: ...
    def __neg__(self) -> Self: ...
    def __pos__(self) -> Self: ...
    def __abs__(self) -> Self: ...
    def __format__(self, spec: str) -> str: ...
    def to(self, unit: str) -> Self: ...
    def __reduce__(self) -> tuple[type, tuple[Any, ...]]: ...
    def __rsub__(self, other: Self) -> Self: ...

class Length(Quantity):
    @overload
    def __init__(self, value: float, unit: str) -> None: ...
    @overload
    def __init__(self, text: str) -> None: ...
    @property
    def mm(self) -> float: ...
    @property
    def inch(self) -> float: ...

def bounds() -> dict[str, int]: ...
def spell(value: float, kind: str, unit: str) -> str: ...
def spell_number(value: float, kind: str, unit: str) -> str: ...
def spell_span(low: float, high: float, kind: str, unit: str) -> str: ...
def unit_bounds(unit: str) -> tuple[float, float]: ...
def parse_quantity(text: str, dimension: str, catalogue: Catalogue) -> Quantity: ...
def parse_length(text: str, catalogue: Catalogue) -> Length: ...
def parse_number(text: str, unit: str, catalogue: Catalogue) -> float: ...
def base_units() -> dict[str, str]: ...

# material

def find_alloy(name: str, catalogue: Catalogue) -> int: ...
def cutting_fluids(alloy: int, catalogue: Catalogue) -> int | None: ...

# machine

class Position:
    def __init__(self, control: str, setting: str) -> None: ...
    @property
    def control(self) -> str: ...
    @property
    def setting(self) -> str: ...

class SpindleStep:
    def __init__(
        self,
        *,
        rpm: float = ...,
        rpm_low: float = ...,
        power_kw: float = ...,
        power_low_kw: float = ...,
        back_gear: bool = ...,
        stop_to_change: bool = ...,
        positions: list[Position] = ...,
    ) -> None: ...
    @property
    def rpm(self) -> float: ...
    @property
    def rpm_low(self) -> float: ...
    @property
    def power_kw(self) -> float: ...
    @property
    def power_low_kw(self) -> float: ...
    @property
    def back_gear(self) -> bool: ...
    @property
    def stop_to_change(self) -> bool: ...
    @property
    def positions(self) -> list[Position]: ...
    @property
    def variable(self) -> bool: ...

class FeedStep:
    def __init__(
        self,
        *,
        feed_mm: float = ...,
        marked: float = ...,
        stop_to_change: bool = ...,
        positions: list[Position] = ...,
    ) -> None: ...
    @property
    def feed_mm(self) -> float: ...
    @property
    def marked(self) -> float: ...
    @property
    def stop_to_change(self) -> bool: ...
    @property
    def positions(self) -> list[Position]: ...

class FeedLadder:
    def __init__(
        self,
        *,
        kind: str = ...,
        marked_in_inch: bool = ...,
        steps: list[FeedStep] = ...,
        cross_ratio: float = ...,
    ) -> None: ...
    @property
    def kind(self) -> str: ...
    @property
    def marked_in_inch(self) -> bool: ...
    @property
    def steps(self) -> list[FeedStep]: ...
    @property
    def cross_ratio(self) -> float: ...

class Slide:
    def __init__(
        self,
        *,
        name: str = ...,
        travel_per_turn_mm: float = ...,
        graduation_mm: float = ...,
        marked_graduation: float = ...,
        marked_in_inch: bool = ...,
        reads_diameter: bool = ...,
        travel_mm: float = ...,
        readout_mm: float = ...,
        power_feed: bool = ...,
        backlash_mm: float = ...,
        approach_minus: bool = ...,
    ) -> None: ...
    @property
    def name(self) -> str: ...
    @property
    def travel_per_turn_mm(self) -> float: ...
    @property
    def graduation_mm(self) -> float: ...
    @property
    def marked_graduation(self) -> float: ...
    @property
    def marked_in_inch(self) -> bool: ...
    @property
    def reads_diameter(self) -> bool: ...
    @property
    def travel_mm(self) -> float: ...
    @property
    def readout_mm(self) -> float: ...
    @property
    def power_feed(self) -> bool: ...
    @property
    def backlash_mm(self) -> float: ...
    @property
    def approach_minus(self) -> bool: ...
    @property
    def lines_a_turn(self) -> int: ...
    def reading(self, travel_mm: float) -> tuple[int, int, float]: ...

class Chuck:
    def __init__(
        self,
        *,
        name: str = ...,
        jaws: int = ...,
        diameter_mm: float = ...,
        rpm_limit: float = ...,
        cast_iron: bool = ...,
        through_mm: float = ...,
        jaw_depth_mm: float = ...,
        opening_least_mm: float = ...,
        opening_greatest_mm: float = ...,
        jaw_mass_kg: float = ...,
        run_out_mm: float = ...,
    ) -> None: ...
    @property
    def name(self) -> str: ...
    @property
    def jaws(self) -> int: ...
    @property
    def diameter_mm(self) -> float: ...
    @property
    def rpm_limit(self) -> float: ...
    @property
    def cast_iron(self) -> bool: ...
    @property
    def through_mm(self) -> float: ...
    @property
    def jaw_depth_mm(self) -> float: ...
    @property
    def opening_least_mm(self) -> float: ...
    @property
    def opening_greatest_mm(self) -> float: ...
    @property
    def jaw_mass_kg(self) -> float: ...
    @property
    def run_out_mm(self) -> float: ...
    @property
    def limit_rpm(self) -> float: ...

class GearboxStep:
    def __init__(
        self,
        *,
        ratio: float = ...,
        positions: list[Position] = ...,
    ) -> None: ...
    @property
    def ratio(self) -> float: ...
    @property
    def positions(self) -> list[Position]: ...

class ChartRow:
    def __init__(
        self,
        *,
        lead_mm: float = ...,
        inch: bool = ...,
        drivers: list[int] = ...,
        driven: list[int] = ...,
        positions: list[Position] = ...,
    ) -> None: ...
    @property
    def lead_mm(self) -> float: ...
    @property
    def inch(self) -> bool: ...
    @property
    def drivers(self) -> list[int]: ...
    @property
    def driven(self) -> list[int]: ...
    @property
    def positions(self) -> list[Position]: ...

class Threading:
    def __init__(
        self,
        *,
        lead_mm: float = ...,
        threads_per_inch: float = ...,
        metric: bool = ...,
        spindle_to_stud: float = ...,
        gears: list[int] = ...,
        module_mm: float = ...,
        stud_to_screw_mm: float = ...,
        banjo_low_mm: float = ...,
        banjo_high_mm: float = ...,
        stud_clearance_mm: float = ...,
        collar_mm: float = ...,
        standard_driver: int = ...,
        standard_driven: int = ...,
        gearbox: list[GearboxStep] = ...,
        dial_threads_per_turn: float = ...,
        dial_marks: int = ...,
        chart: list[ChartRow] = ...,
    ) -> None: ...
    @property
    def lead_mm(self) -> float: ...
    @property
    def threads_per_inch(self) -> float: ...
    @property
    def metric(self) -> bool: ...
    @property
    def spindle_to_stud(self) -> float: ...
    @property
    def gears(self) -> list[int]: ...
    @property
    def module_mm(self) -> float: ...
    @property
    def stud_to_screw_mm(self) -> float: ...
    @property
    def banjo_low_mm(self) -> float: ...
    @property
    def banjo_high_mm(self) -> float: ...
    @property
    def stud_clearance_mm(self) -> float: ...
    @property
    def collar_mm(self) -> float: ...
    @property
    def standard_driver(self) -> int: ...
    @property
    def standard_driven(self) -> int: ...
    @property
    def gearbox(self) -> list[GearboxStep]: ...
    @property
    def dial_threads_per_turn(self) -> float: ...
    @property
    def dial_marks(self) -> int: ...
    @property
    def chart(self) -> list[ChartRow]: ...

class Machine:
    def __init__(
        self,
        *,
        kind: str = ...,
        compound_zero: str = ...,
        name: str = ...,
        inch: bool = ...,
        motor_kw: float = ...,
        efficiency: float = ...,
        spindle: list[SpindleStep] = ...,
        carriage: FeedLadder = ...,
        quill: FeedLadder = ...,
        table: FeedLadder = ...,
        slides: list[Slide] = ...,
        chucks: list[Chuck] = ...,
        threading: Threading = ...,
        centre_height_mm: float = ...,
        swing_over_bed_mm: float = ...,
        swing_over_cross_slide_mm: float = ...,
        swing_in_gap_mm: float = ...,
        between_centres_mm: float = ...,
        spindle_bore_mm: float = ...,
        spindle_length_mm: float = ...,
        torque_limit_nm: float = ...,
        lever_change_s: float = ...,
        stop_change_s: float = ...,
        measure_s: float = ...,
        tool_change_s: float = ...,
        tailstock_turns_per_min: float = ...,
        table_turns_per_min: float = ...,
        half_nut_s: float = ...,
        hand_ream_rpm: float = ...,
        hand_knurl_rpm: float = ...,
        hand_axes: int = ...,
        tool_clearance_mm: float = ...,
        dividing_ratio: int = ...,
        dividing_plates: str = ...,
        direct_holes: int = ...,
    ) -> None: ...
    @property
    def kind(self) -> str: ...
    @property
    def compound_zero(self) -> str: ...
    @property
    def name(self) -> str: ...
    @property
    def inch(self) -> bool: ...
    @property
    def motor_kw(self) -> float: ...
    @property
    def efficiency(self) -> float: ...
    @property
    def spindle(self) -> list[SpindleStep]: ...
    @property
    def carriage(self) -> FeedLadder: ...
    @property
    def quill(self) -> FeedLadder: ...
    @property
    def table(self) -> FeedLadder: ...
    @property
    def slides(self) -> list[Slide]: ...
    @property
    def chucks(self) -> list[Chuck]: ...
    @property
    def threading(self) -> Threading: ...
    @property
    def centre_height_mm(self) -> float: ...
    @property
    def swing_over_bed_mm(self) -> float: ...
    @property
    def swing_over_cross_slide_mm(self) -> float: ...
    @property
    def swing_in_gap_mm(self) -> float: ...
    @property
    def between_centres_mm(self) -> float: ...
    @property
    def spindle_bore_mm(self) -> float: ...
    @property
    def spindle_length_mm(self) -> float: ...
    @property
    def torque_limit_nm(self) -> float: ...
    @property
    def lever_change_s(self) -> float: ...
    @property
    def stop_change_s(self) -> float: ...
    @property
    def measure_s(self) -> float: ...
    @property
    def tool_change_s(self) -> float: ...
    @property
    def tailstock_turns_per_min(self) -> float: ...
    @property
    def table_turns_per_min(self) -> float: ...
    @property
    def half_nut_s(self) -> float: ...
    @property
    def hand_ream_rpm(self) -> float: ...
    @property
    def hand_knurl_rpm(self) -> float: ...
    @property
    def hand_axes(self) -> int: ...
    @property
    def tool_clearance_mm(self) -> float: ...
    @property
    def dividing_ratio(self) -> int: ...
    @property
    def dividing_plates(self) -> str: ...
    @property
    def direct_holes(self) -> int: ...
    @property
    def swing_mm(self) -> float: ...
    def json(self) -> str: ...
    def problems(self) -> list[tuple[str, str, bool]]: ...
    def slide(self, name: str) -> Slide | None: ...

# adjusters

class AdjusterAnswer:
    @property
    def figures(self) -> dict[str, float | None]: ...
    @property
    def opposite_hands(self) -> bool: ...
    @property
    def ends(self) -> list[dict[str, float | None]]: ...
    @property
    def cautions(self) -> list[str]: ...
    def states(self, turns: NDArray[np.float64], on_error: str = "raise") -> dict[str, Any]: ...
    def evidence(self, catalogue: Catalogue) -> list[Evidence]: ...

def adjuster_answer(given: dict[str, Any], ends: list[dict[str, Any]], catalogue: Catalogue) -> AdjusterAnswer: ...

# plain holes and shafts

def cylinder_columns(texts: list[str], catalogue: Catalogue, on_error: str = "raise") -> dict[str, NDArray[Any]]: ...

# columns

@overload
def stepped_column_load_n(
    lengths_mm: ArrayLike,
    stiffnesses_n_mm2: ArrayLike,
    first_end: str,
    second_end: str,
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def stepped_column_load_n(
    lengths_mm: ArrayLike,
    stiffnesses_n_mm2: ArrayLike,
    first_end: str,
    second_end: str,
    on_error: Literal["status"],
) -> tuple[NDArray[np.float64], NDArray[np.uint8]]: ...
def column_end_factors(first_end: str, second_end: str, catalogue: Catalogue) -> tuple[float, float]: ...

# gauging

class BuildUp:
    def __init__(self, min_um: float, max_um: float) -> None: ...
    @property
    def min_um(self) -> float: ...
    @property
    def max_um(self) -> float: ...
    @property
    def film_min_um(self) -> float | None: ...
    @property
    def film_max_um(self) -> float | None: ...
    @property
    def bare(self) -> bool: ...
    @property
    def maximum_by_rule(self) -> bool: ...
    @property
    def usual(self) -> bool: ...
    @property
    def coating(self) -> int | None: ...
    def recoated(self, strips: int, catalogue: Catalogue) -> BuildUp: ...
    def evidence(self, catalogue: Catalogue) -> list[Evidence]: ...

def parse_build_up(text: str, catalogue: Catalogue) -> BuildUp: ...
def precoat_columns(
    designations: list[str],
    catalogue: Catalogue,
    numbers: list[NDArray[np.float64]],
    gauged_at: str = "basic",
    rule: str = "printed",
    on_error: str = "raise",
) -> dict[str, NDArray[Any]]: ...
def fit_chances(
    asked: tuple[Any, ...], clearances_mm: NDArray[np.float64], catalogue: Catalogue
) -> NDArray[np.float64]: ...
def fit_columns(
    external: list[str],
    internal: list[str],
    catalogue: Catalogue,
    numbers: list[NDArray[np.float64]],
    on_error: str = "raise",
) -> dict[str, NDArray[Any]]: ...
def over_wires_involute_working(
    pitch_diameter_mm: float, pitch_mm: float, lead_mm: float, half_angle_deg: float, wire_mm: float
) -> dict[str, float]: ...
def wire_columns(
    designations: list[str],
    catalogue: Catalogue,
    numbers: list[NDArray[np.float64]],
    best: bool = False,
    set: str = "",
    on_error: str = "raise",
) -> dict[str, NDArray[Any]]: ...
def judge_columns(
    designations: list[str],
    catalogue: Catalogue,
    numbers: list[NDArray[np.float64]],
    on_error: str = "raise",
) -> dict[str, NDArray[Any]]: ...

# knurls

def parse_knurl_pattern(text: str, catalogue: Catalogue) -> str: ...
def knurl_columns(
    asked: tuple[Any, ...], diameter_mm: ArrayLike, catalogue: Catalogue, on_error: str = "raise"
) -> dict[str, NDArray[Any]]: ...

# threads

class Thread:
    @property
    def system(self) -> str: ...
    @property
    def form(self) -> str: ...
    @property
    def unit(self) -> str: ...
    @property
    def series(self) -> str: ...
    @property
    def size(self) -> str: ...
    @property
    def prefix(self) -> str: ...
    @property
    def tolerance_class(self) -> str: ...
    @property
    def external_class(self) -> str: ...
    @property
    def internal_class(self) -> str: ...
    @property
    def root(self) -> str: ...
    @property
    def hand(self) -> str: ...
    @property
    def starts(self) -> int: ...
    @property
    def engagement_group(self) -> str: ...
    @property
    def engagement_mm(self) -> float | None: ...
    @property
    def diameter_mm(self) -> float: ...
    @property
    def diameter_in(self) -> float: ...
    @property
    def pitch_mm(self) -> float: ...
    @property
    def pitch_in(self) -> float: ...
    @property
    def lead_mm(self) -> float: ...
    @property
    def lead_in(self) -> float: ...
    @property
    def tpi(self) -> float | None: ...
    @property
    def tapers(self) -> bool: ...
    @property
    def pipe(self) -> bool: ...
    @property
    def lead_screw(self) -> bool: ...
    @property
    def has_external(self) -> bool: ...
    @property
    def has_internal(self) -> bool: ...
    @property
    def external(self) -> Thread: ...
    @property
    def internal(self) -> Thread: ...
    def part(self, side: str) -> Thread: ...
    def mate(self, side: str) -> Thread: ...
    def __eq__(self, other: object, /) -> bool: ...
    def __hash__(self) -> int: ...
    def __getstate__(self) -> tuple[str, str, str]: ...
    def __setstate__(self, state: tuple[str, str, str], /) -> None: ...

def parse_thread(text: str, catalogue: Catalogue) -> Thread: ...
def thread_limit_columns(
    designations: Sequence[str],
    catalogue: Catalogue,
    numbers: Sequence[NDArray[np.float64]],
    rule: str = ...,
    on_error: str = ...,
) -> dict[str, NDArray[Any]]: ...
def taper_pipe_columns(
    designations: Sequence[str], catalogue: Catalogue, on_error: str = "raise"
) -> dict[str, NDArray[Any]]: ...

# cutting

def formulas() -> dict[str, list[str]]: ...
def chase_schedule(internal: bool, infeed: str, equal_depths: bool, numbers: Mapping[str, float]) -> dict[str, Any]: ...
def thread_dial(
    lead_mm: tuple[int, int], screw_lead_mm: tuple[int, int], wheel_threads: int, marks: int
) -> dict[str, Any]: ...
def work_bend_mm(
    sections: Sequence[tuple[float, ...]],
    hold: str,
    force_n: float,
    places_mm: Sequence[float],
    youngs_modulus_gpa: float,
    steadies_mm: Sequence[float] = ...,
    centre_n_um: float = ...,
    chuck_n_um: float = ...,
) -> list[float]: ...

HARDNESS_ARGUMENT: int

# cutting: one cut

def tool(name: str, catalogue: Catalogue) -> tuple[str, dict[str, float]]: ...
def holder_place(machine: Machine | None, chuck: str | int | None, hold: str) -> int: ...

class Answer:
    @property
    def catalogue(self) -> Catalogue: ...
    def figures(self) -> dict[str, Any]: ...
    def figure(self, key: str) -> Any: ...

def ask(name: str, values: tuple[Any, ...], catalogue: Catalogue) -> Answer: ...
def ask_rows(
    name: str,
    values: tuple[Any, ...],
    columns: list[tuple[Any, ...]],
    rows: int,
    wanted: list[str],
    catalogue: Catalogue,
) -> dict[str, NDArray[Any]]: ...
def answered_json(asked: Any, catalogue: Catalogue) -> str: ...
def schema_json(name: str, catalogue: Catalogue) -> str: ...
def walk_job(parts: list[dict[str, Any]], catalogue: Catalogue) -> dict[str, Any]: ...
def question_names() -> list[str]: ...
def question(name: str) -> dict[str, Any]: ...
def engagement_practice(internal: int, loading: str, diameter_mm: float, catalogue: Catalogue) -> tuple[int, float]: ...
def caution_codes() -> list[str]: ...
def limit_codes() -> list[str]: ...
def speed_window(
    alloy: int,
    operation: str,
    tool_material: str,
    depth_mm: float,
    feed_mm: float,
    hardness_hb: float | None,
    catalogue: Catalogue,
) -> tuple[float, float]: ...
def feed_window(
    alloy: int,
    operation: str,
    tool_material: str,
    depth_mm: float,
    feed_mm: float,
    hardness_hb: float | None,
    catalogue: Catalogue,
) -> tuple[float, float] | None: ...

# batch

class TurnCases:
    def __init__(self, catalogue: Catalogue) -> None: ...
    def describe(self, case_id: int) -> dict[str, Any] | None: ...

def batch_turn(
    cases: TurnCases,
    catalogue: Catalogue,
    machine: Machine | None,
    rows: int,
    alloys: Sequence[int],
    alloy: NDArray[np.int32] | int,
    tool: NDArray[np.int32] | int,
    hardness_hb: NDArray[np.float64] | float | None,
    numbers: dict[str, float | NDArray[np.float64]],
    finish: NDArray[np.uint8] | bool,
    inch: bool,
    hold: str,
    chuck: int,
    out: dict[str, NDArray[Any]],
    workers: int = 0,
    clone: str = "",
) -> None: ...
def batch_holes(
    catalogue: Catalogue,
    machine: Machine | None,
    rows: int,
    alloys: Sequence[int],
    alloy: NDArray[np.int32] | int,
    tool: NDArray[np.int32] | int,
    hardness_hb: NDArray[np.float64] | float | None,
    numbers: dict[str, float | NDArray[np.float64]],
    cut: str,
    chuck: int,
    out: dict[str, NDArray[Any]],
    workers: int = 0,
) -> None: ...
def batch_mill(
    catalogue: Catalogue,
    machine: Machine | None,
    rows: int,
    alloys: Sequence[int],
    alloy: NDArray[np.int32] | int,
    tool: NDArray[np.int32] | int,
    hardness_hb: NDArray[np.float64] | float | None,
    numbers: dict[str, float | NDArray[np.float64]],
    shape: str,
    out: dict[str, NDArray[Any]],
    workers: int = 0,
) -> None: ...
def batch_arguments(kind: str) -> list[tuple[str, str, bool]]: ...
def batch_reason(kind: str, code: int) -> str: ...
def match_alloys(names: Sequence[str], catalogue: Catalogue) -> list[int]: ...
def code_texts(values: Any) -> tuple[NDArray[np.int32], list[str]]: ...
def batch_clone() -> str: ...
def nothing(a: float, b: float) -> float: ...
def tool_materials() -> list[str]: ...
def cut_figures() -> list[str]: ...

# change gears

class GearTrain:
    @property
    def drivers(self) -> tuple[int, ...]: ...
    @property
    def driven(self) -> tuple[int, ...]: ...
    @property
    def idler(self) -> int | None: ...
    @property
    def box(self) -> int | None: ...
    @property
    def error(self) -> float: ...
    @property
    def exact(self) -> bool: ...
    @property
    def standard(self) -> bool: ...
    @property
    def steep(self) -> bool: ...
    @property
    def mounting(self) -> str: ...
    @property
    def stud_to_banjo_mm(self) -> float | None: ...
    @property
    def banjo_to_screw_mm(self) -> float | None: ...

def gear_trains(
    threading: Threading,
    lead_mm: tuple[int, int],
    error_limit: float = 0.001,
    most: int = 20,
    compound: bool = True,
    gearbox: bool = True,
    unmountable: bool = False,
) -> dict[str, Any]: ...

# pressing a knurl in

# formulas of numbers, from their own signatures

@overload
def across_balls_exact_mm(
    pitch_diameter_mm: float,
    minor_diameter_mm: float,
    pitch_mm: float,
    lead_mm: float,
    half_angle_deg: float,
    ball_mm: float,
) -> float: ...
@overload
def across_balls_exact_mm(
    pitch_diameter_mm: ArrayLike,
    minor_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    ball_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def across_balls_plain_mm(
    pitch_diameter_mm: float, pitch_mm: float, half_angle_deg: float, ball_mm: float
) -> float: ...
@overload
def across_balls_plain_mm(
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    ball_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def across_balls_skew_mm(across_balls_mm: float, pitch_mm: float, ball_mm: float) -> float: ...
@overload
def across_balls_skew_mm(
    across_balls_mm: ArrayLike, pitch_mm: ArrayLike, ball_mm: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def axial_play_mm(pitch_clearance_mm: float, half_angle_deg: float) -> float: ...
@overload
def axial_play_mm(pitch_clearance_mm: ArrayLike, half_angle_deg: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def basic_minor_diameter_mm(diameter_mm: float, pitch_mm: float) -> float: ...
@overload
def basic_minor_diameter_mm(diameter_mm: ArrayLike, pitch_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def basic_pitch_diameter_mm(diameter_mm: float, pitch_mm: float) -> float: ...
@overload
def basic_pitch_diameter_mm(diameter_mm: ArrayLike, pitch_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def best_wire_exact_mm(pitch_diameter_mm: float, pitch_mm: float, lead_mm: float, half_angle_deg: float) -> float: ...
@overload
def best_wire_exact_mm(
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def best_wire_mm(pitch_mm: float, half_angle_deg: float) -> float: ...
@overload
def best_wire_mm(pitch_mm: ArrayLike, half_angle_deg: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def blank_above_mm(blank_diameter_mm: float, transverse_pitch_mm: float) -> float: ...
@overload
def blank_above_mm(blank_diameter_mm: ArrayLike, transverse_pitch_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def blank_below_mm(blank_diameter_mm: float, transverse_pitch_mm: float) -> float: ...
@overload
def blank_below_mm(blank_diameter_mm: ArrayLike, transverse_pitch_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def blind_drill_depth_mm(
    full_thread_mm: float, pitch_mm: float, chamfer_threads: float, chip_room_mm: float
) -> float: ...
@overload
def blind_drill_depth_mm(
    full_thread_mm: ArrayLike,
    pitch_mm: ArrayLike,
    chamfer_threads: ArrayLike,
    chip_room_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def build_up_um(film_um: float, growth_ratio: float, etch_um: float) -> float: ...
@overload
def build_up_um(film_um: ArrayLike, growth_ratio: ArrayLike, etch_um: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def cantilever_deflection_mm(
    force_n: float, overhang_mm: float, youngs_modulus_gpa: float, second_moment_mm4: float
) -> float: ...
@overload
def cantilever_deflection_mm(
    force_n: ArrayLike,
    overhang_mm: ArrayLike,
    youngs_modulus_gpa: ArrayLike,
    second_moment_mm4: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def centre_feed_mm_min(table_feed_mm_min: float, hole_mm: float, cutter_diameter_mm: float) -> float: ...
@overload
def centre_feed_mm_min(
    table_feed_mm_min: ArrayLike, hole_mm: ArrayLike, cutter_diameter_mm: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def centres_deflection_mm(
    force_n: float, position_mm: float, length_mm: float, youngs_modulus_gpa: float, second_moment_mm4: float
) -> float: ...
@overload
def centres_deflection_mm(
    force_n: ArrayLike,
    position_mm: ArrayLike,
    length_mm: ArrayLike,
    youngs_modulus_gpa: ArrayLike,
    second_moment_mm4: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def chasing_depth_mm(
    blank_mm: float,
    pitch_diameter_mm: float,
    pitch_mm: float,
    half_angle_deg: float,
    nose_radius_mm: float,
    nose_flat_mm: float,
    internal: float,
) -> float: ...
@overload
def chasing_depth_mm(
    blank_mm: ArrayLike,
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    nose_radius_mm: ArrayLike,
    nose_flat_mm: ArrayLike,
    internal: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def chip_ratio(uncut_thickness_mm: float, chip_thickness_mm: float) -> float: ...
@overload
def chip_ratio(uncut_thickness_mm: ArrayLike, chip_thickness_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def chip_speed_m_min(cutting_speed_m_min: float, rake_deg: float, shear_angle_deg: float) -> float: ...
@overload
def chip_speed_m_min(
    cutting_speed_m_min: ArrayLike, rake_deg: ArrayLike, shear_angle_deg: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def chip_thickness_mm(feed_mm_rev: float, entering_deg: float) -> float: ...
@overload
def chip_thickness_mm(feed_mm_rev: ArrayLike, entering_deg: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def chip_thinning_factor(width_mm: float, cutter_diameter_mm: float) -> float: ...
@overload
def chip_thinning_factor(width_mm: ArrayLike, cutter_diameter_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def chuck_centre_deflection_mm(
    force_n: float, position_mm: float, length_mm: float, youngs_modulus_gpa: float, second_moment_mm4: float
) -> float: ...
@overload
def chuck_centre_deflection_mm(
    force_n: ArrayLike,
    position_mm: ArrayLike,
    length_mm: ArrayLike,
    youngs_modulus_gpa: ArrayLike,
    second_moment_mm4: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def coated_diameter_change_um(build_up_um: float) -> float: ...
@overload
def coated_diameter_change_um(build_up_um: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def coated_pitch_change_um(build_up_um: float, half_angle_deg: float) -> float: ...
@overload
def coated_pitch_change_um(build_up_um: ArrayLike, half_angle_deg: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def column_capacity_n(elastic_load_n: float, yield_load_n: float) -> float: ...
@overload
def column_capacity_n(elastic_load_n: ArrayLike, yield_load_n: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def column_load_n(area_mm2: float, slenderness: float, youngs_modulus_gpa: float, yield_mpa: float) -> float: ...
@overload
def column_load_n(
    area_mm2: ArrayLike,
    slenderness: ArrayLike,
    youngs_modulus_gpa: ArrayLike,
    yield_mpa: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def compound_travel_mm(depth_mm: float, angle_deg: float) -> float: ...
@overload
def compound_travel_mm(depth_mm: ArrayLike, angle_deg: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def countersink_depth_mm(countersink_diameter_mm: float, hole_diameter_mm: float, included_deg: float) -> float: ...
@overload
def countersink_depth_mm(
    countersink_diameter_mm: ArrayLike, hole_diameter_mm: ArrayLike, included_deg: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def countersink_diameter_mm(depth_mm: float, hole_diameter_mm: float, included_deg: float) -> float: ...
@overload
def countersink_diameter_mm(
    depth_mm: ArrayLike, hole_diameter_mm: ArrayLike, included_deg: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def cutting_power_kw(cutting_force_n: float, cutting_speed_m_min: float) -> float: ...
@overload
def cutting_power_kw(cutting_force_n: ArrayLike, cutting_speed_m_min: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def cutting_speed_m_min(spindle_rpm: float, diameter_mm: float) -> float: ...
@overload
def cutting_speed_m_min(spindle_rpm: ArrayLike, diameter_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def diametral_wheel_outside_in(nominal_diameter_in: float, wheel_teeth: float, tracking_factor_in: float) -> float: ...
@overload
def diametral_wheel_outside_in(
    nominal_diameter_in: ArrayLike, wheel_teeth: ArrayLike, tracking_factor_in: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def dilation_factor(outside_to_diameter: float) -> float: ...
@overload
def dilation_factor(outside_to_diameter: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def drilling_removal_cm3_min(diameter_mm: float, feed_rate_mm_min: float) -> float: ...
@overload
def drilling_removal_cm3_min(diameter_mm: ArrayLike, feed_rate_mm_min: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def drilling_thrust_n(
    kd: float, feed_mm_rev: float, diameter_mm: float, thrust_b: float, thrust_j: float, wear_factor: float
) -> float: ...
@overload
def drilling_thrust_n(
    kd: ArrayLike,
    feed_mm_rev: ArrayLike,
    diameter_mm: ArrayLike,
    thrust_b: ArrayLike,
    thrust_j: ArrayLike,
    wear_factor: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def drilling_torque_nm(
    kd: float, feed_mm_rev: float, diameter_mm: float, torque_a: float, wear_factor: float
) -> float: ...
@overload
def drilling_torque_nm(
    kd: ArrayLike,
    feed_mm_rev: ArrayLike,
    diameter_mm: ArrayLike,
    torque_a: ArrayLike,
    wear_factor: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def economic_life_min(exponent: float, change_min: float, edge_cost: float, cost_per_min: float) -> float: ...
@overload
def economic_life_min(
    exponent: ArrayLike, change_min: ArrayLike, edge_cost: ArrayLike, cost_per_min: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def engaged_length_mm(
    insertion_mm: float,
    thread_length_mm: float,
    chamfer_mm: float,
    run_out_mm: float,
    base_length_mm: float,
    countersink_mm: float,
    base_run_out_mm: float,
) -> float: ...
@overload
def engaged_length_mm(
    insertion_mm: ArrayLike,
    thread_length_mm: ArrayLike,
    chamfer_mm: ArrayLike,
    run_out_mm: ArrayLike,
    base_length_mm: ArrayLike,
    countersink_mm: ArrayLike,
    base_run_out_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def engagement_deg(width_mm: float, cutter_diameter_mm: float) -> float: ...
@overload
def engagement_deg(width_mm: ArrayLike, cutter_diameter_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def engagement_for_load_in(load_lbf: float, shear_strength_psi: float, shear_area_in2_in: float) -> float: ...
@overload
def engagement_for_load_in(
    load_lbf: ArrayLike, shear_strength_psi: ArrayLike, shear_area_in2_in: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def engagement_for_load_mm(load_n: float, shear_strength_mpa: float, shear_area_mm2_mm: float) -> float: ...
@overload
def engagement_for_load_mm(
    load_n: ArrayLike, shear_strength_mpa: ArrayLike, shear_area_mm2_mm: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def engagement_for_tension_in(
    stress_area_in2: float,
    internal_minor_max_in: float,
    external_pitch_min_in: float,
    pitch_in: float,
    half_angle_deg: float,
) -> float: ...
@overload
def engagement_for_tension_in(
    stress_area_in2: ArrayLike,
    internal_minor_max_in: ArrayLike,
    external_pitch_min_in: ArrayLike,
    pitch_in: ArrayLike,
    half_angle_deg: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def engagement_for_tension_mm(
    stress_area_mm2: float,
    internal_minor_max_mm: float,
    external_pitch_min_mm: float,
    pitch_mm: float,
    half_angle_deg: float,
) -> float: ...
@overload
def engagement_for_tension_mm(
    stress_area_mm2: ArrayLike,
    internal_minor_max_mm: ArrayLike,
    external_pitch_min_mm: ArrayLike,
    pitch_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def euler_load_n(area_mm2: float, slenderness: float, youngs_modulus_gpa: float) -> float: ...
@overload
def euler_load_n(
    area_mm2: ArrayLike, slenderness: ArrayLike, youngs_modulus_gpa: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def external_bending_factor(strength_ratio: float) -> float: ...
@overload
def external_bending_factor(strength_ratio: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def external_shear_area_in2(
    internal_minor_max_in: float,
    external_pitch_min_in: float,
    pitch_in: float,
    half_angle_deg: float,
    engagement_in: float,
) -> float: ...
@overload
def external_shear_area_in2(
    internal_minor_max_in: ArrayLike,
    external_pitch_min_in: ArrayLike,
    pitch_in: ArrayLike,
    half_angle_deg: ArrayLike,
    engagement_in: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def external_shear_area_mm2(
    internal_minor_max_mm: float,
    external_pitch_min_mm: float,
    pitch_mm: float,
    half_angle_deg: float,
    engagement_mm: float,
) -> float: ...
@overload
def external_shear_area_mm2(
    internal_minor_max_mm: ArrayLike,
    external_pitch_min_mm: ArrayLike,
    pitch_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    engagement_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def face_milling_approach_mm(cutter_diameter_mm: float, width_mm: float) -> float: ...
@overload
def face_milling_approach_mm(cutter_diameter_mm: ArrayLike, width_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def fastest_life_min(exponent: float, change_min: float) -> float: ...
@overload
def fastest_life_min(exponent: ArrayLike, change_min: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def feed_factor(feed_mm: float) -> float: ...
@overload
def feed_factor(feed_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def feed_rate_mm_min(feed_mm_rev: float, spindle_rpm: float) -> float: ...
@overload
def feed_rate_mm_min(feed_mm_rev: ArrayLike, spindle_rpm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def feed_time_s(travel_mm: float, feed_rate_mm_min: float) -> float: ...
@overload
def feed_time_s(travel_mm: ArrayLike, feed_rate_mm_min: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def first_whirl_rpm(
    diameter_mm: float, bore_mm: float, length_mm: float, youngs_modulus_gpa: float, density_kg_m3: float, root: float
) -> float: ...
@overload
def first_whirl_rpm(
    diameter_mm: ArrayLike,
    bore_mm: ArrayLike,
    length_mm: ArrayLike,
    youngs_modulus_gpa: ArrayLike,
    density_kg_m3: ArrayLike,
    root: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def flank_error_equivalent_mm(
    leading_error_deg: float,
    following_error_deg: float,
    half_angle_deg: float,
    depth_above_mm: float,
    depth_below_mm: float,
) -> float: ...
@overload
def flank_error_equivalent_mm(
    leading_error_deg: ArrayLike,
    following_error_deg: ArrayLike,
    half_angle_deg: ArrayLike,
    depth_above_mm: ArrayLike,
    depth_below_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def form_growth_mm(tooth_depth_mm: float, growth_share: float) -> float: ...
@overload
def form_growth_mm(tooth_depth_mm: ArrayLike, growth_share: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def forming_hole_mm(diameter_mm: float, pitch_mm: float, percent: float) -> float: ...
@overload
def forming_hole_mm(diameter_mm: ArrayLike, pitch_mm: ArrayLike, percent: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def forming_percent(diameter_mm: float, pitch_mm: float, hole_mm: float) -> float: ...
@overload
def forming_percent(diameter_mm: ArrayLike, pitch_mm: ArrayLike, hole_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def full_form_length_in(
    overlap_in: float,
    external_chamfer_in: float,
    external_run_out_in: float,
    internal_countersink_in: float,
    internal_run_out_in: float,
) -> float: ...
@overload
def full_form_length_in(
    overlap_in: ArrayLike,
    external_chamfer_in: ArrayLike,
    external_run_out_in: ArrayLike,
    internal_countersink_in: ArrayLike,
    internal_run_out_in: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def full_form_length_mm(
    overlap_mm: float,
    external_chamfer_mm: float,
    external_run_out_mm: float,
    internal_countersink_mm: float,
    internal_run_out_mm: float,
) -> float: ...
@overload
def full_form_length_mm(
    overlap_mm: ArrayLike,
    external_chamfer_mm: ArrayLike,
    external_run_out_mm: ArrayLike,
    internal_countersink_mm: ArrayLike,
    internal_run_out_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def full_thread_mm(drill_depth_mm: float, pitch_mm: float, chamfer_threads: float, chip_room_mm: float) -> float: ...
@overload
def full_thread_mm(
    drill_depth_mm: ArrayLike,
    pitch_mm: ArrayLike,
    chamfer_threads: ArrayLike,
    chip_room_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def gear_centres_mm(teeth_1: float, teeth_2: float, module_mm: float) -> float: ...
@overload
def gear_centres_mm(teeth_1: ArrayLike, teeth_2: ArrayLike, module_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def greatest_build_up_um(allowance_um: float, half_angle_deg: float) -> float: ...
@overload
def greatest_build_up_um(allowance_um: ArrayLike, half_angle_deg: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def gyration_radius_mm(diameter_mm: float, bore_mm: float) -> float: ...
@overload
def gyration_radius_mm(diameter_mm: ArrayLike, bore_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def handbook_torque_lbf_in(
    preload_lbf: float, diameter_in: float, lead_in: float, thread_friction: float, bearing_friction: float
) -> float: ...
@overload
def handbook_torque_lbf_in(
    preload_lbf: ArrayLike,
    diameter_in: ArrayLike,
    lead_in: ArrayLike,
    thread_friction: ArrayLike,
    bearing_friction: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def handbook_torque_nm(
    preload_n: float, diameter_mm: float, lead_mm: float, thread_friction: float, bearing_friction: float
) -> float: ...
@overload
def handbook_torque_nm(
    preload_n: ArrayLike,
    diameter_mm: ArrayLike,
    lead_mm: ArrayLike,
    thread_friction: ArrayLike,
    bearing_friction: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def heat_to_work_share(
    cutting_speed_m_min: float, chip_thickness_mm: float, diffusivity_mm2_s: float, shear_angle_deg: float
) -> float: ...
@overload
def heat_to_work_share(
    cutting_speed_m_min: ArrayLike,
    chip_thickness_mm: ArrayLike,
    diffusivity_mm2_s: ArrayLike,
    shear_angle_deg: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def helix_length_mm(depth_mm: float, pitch_mm: float, hole_mm: float, cutter_diameter_mm: float) -> float: ...
@overload
def helix_length_mm(
    depth_mm: ArrayLike, pitch_mm: ArrayLike, hole_mm: ArrayLike, cutter_diameter_mm: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def helix_pitch_mm(hole_mm: float, cutter_diameter_mm: float, ramp_deg: float) -> float: ...
@overload
def helix_pitch_mm(
    hole_mm: ArrayLike, cutter_diameter_mm: ArrayLike, ramp_deg: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def high_strength_stress_area_in2(external_pitch_min_in: float, pitch_in: float) -> float: ...
@overload
def high_strength_stress_area_in2(
    external_pitch_min_in: ArrayLike, pitch_in: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def high_strength_stress_area_mm2(external_pitch_min_mm: float, pitch_mm: float) -> float: ...
@overload
def high_strength_stress_area_mm2(
    external_pitch_min_mm: ArrayLike, pitch_mm: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def holding_friction(lead_mm: float, pitch_diameter_mm: float, half_angle_deg: float) -> float: ...
@overload
def holding_friction(
    lead_mm: ArrayLike, pitch_diameter_mm: ArrayLike, half_angle_deg: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def hole_for_strip_ratio_mm(ratio: float, full_hole_mm: float, pitch_mm: float, pitch_diameter_mm: float) -> float: ...
@overload
def hole_for_strip_ratio_mm(
    ratio: ArrayLike, full_hole_mm: ArrayLike, pitch_mm: ArrayLike, pitch_diameter_mm: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def hoop_compression_mpa(pressure_mpa: float, bore_mm: float, outside_diameter_mm: float) -> float: ...
@overload
def hoop_compression_mpa(
    pressure_mpa: ArrayLike, bore_mm: ArrayLike, outside_diameter_mm: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def hoop_compression_psi(pressure_psi: float, bore_in: float, outside_diameter_in: float) -> float: ...
@overload
def hoop_compression_psi(
    pressure_psi: ArrayLike, bore_in: ArrayLike, outside_diameter_in: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def hoop_tension_mpa(pressure_mpa: float, inside_diameter_mm: float, outside_diameter_mm: float) -> float: ...
@overload
def hoop_tension_mpa(
    pressure_mpa: ArrayLike, inside_diameter_mm: ArrayLike, outside_diameter_mm: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def hoop_tension_psi(pressure_psi: float, inside_diameter_in: float, outside_diameter_in: float) -> float: ...
@overload
def hoop_tension_psi(
    pressure_psi: ArrayLike, inside_diameter_in: ArrayLike, outside_diameter_in: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def internal_bending_factor(strength_ratio: float) -> float: ...
@overload
def internal_bending_factor(strength_ratio: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def internal_shear_area_in2(
    external_major_min_in: float,
    internal_pitch_max_in: float,
    pitch_in: float,
    half_angle_deg: float,
    engagement_in: float,
) -> float: ...
@overload
def internal_shear_area_in2(
    external_major_min_in: ArrayLike,
    internal_pitch_max_in: ArrayLike,
    pitch_in: ArrayLike,
    half_angle_deg: ArrayLike,
    engagement_in: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def internal_shear_area_mm2(
    external_major_min_mm: float,
    internal_pitch_max_mm: float,
    pitch_mm: float,
    half_angle_deg: float,
    engagement_mm: float,
) -> float: ...
@overload
def internal_shear_area_mm2(
    external_major_min_mm: ArrayLike,
    internal_pitch_max_mm: ArrayLike,
    pitch_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    engagement_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def jaw_force_at_speed_n(
    force_at_rest_n: float, jaw_mass_kg: float, mass_radius_mm: float, spindle_rpm: float
) -> float: ...
@overload
def jaw_force_at_speed_n(
    force_at_rest_n: ArrayLike,
    jaw_mass_kg: ArrayLike,
    mass_radius_mm: ArrayLike,
    spindle_rpm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def jaw_force_needed_n(
    cutting_force_n: float, cut_diameter_mm: float, grip_diameter_mm: float, jaws: float, friction: float, safety: float
) -> float: ...
@overload
def jaw_force_needed_n(
    cutting_force_n: ArrayLike,
    cut_diameter_mm: ArrayLike,
    grip_diameter_mm: ArrayLike,
    jaws: ArrayLike,
    friction: ArrayLike,
    safety: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def johnson_load_n(area_mm2: float, slenderness: float, youngs_modulus_gpa: float, yield_mpa: float) -> float: ...
@overload
def johnson_load_n(
    area_mm2: ArrayLike,
    slenderness: ArrayLike,
    youngs_modulus_gpa: ArrayLike,
    yield_mpa: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def knurl_contact_mm(infeed_mm: float, wheel_diameter_mm: float, blank_diameter_mm: float) -> float: ...
@overload
def knurl_contact_mm(
    infeed_mm: ArrayLike, wheel_diameter_mm: ArrayLike, blank_diameter_mm: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def knurl_force_n(yield_mpa: float, width_mm: float, contact_mm: float, contact_share: float) -> float: ...
@overload
def knurl_force_n(
    yield_mpa: ArrayLike, width_mm: ArrayLike, contact_mm: ArrayLike, contact_share: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def largest_ball_mm(
    pitch_diameter_mm: float, minor_diameter_mm: float, pitch_mm: float, half_angle_deg: float
) -> float: ...
@overload
def largest_ball_mm(
    pitch_diameter_mm: ArrayLike,
    minor_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def largest_wire_mm(
    major_diameter_mm: float, pitch_diameter_mm: float, pitch_mm: float, half_angle_deg: float
) -> float: ...
@overload
def largest_wire_mm(
    major_diameter_mm: ArrayLike,
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def lead_angle_deg(lead_mm: float, pitch_diameter_mm: float) -> float: ...
@overload
def lead_angle_deg(lead_mm: ArrayLike, pitch_diameter_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def limiting_width_mm(stiffness_n_um: float, damping: float, specific_force_n_mm2: float) -> float: ...
@overload
def limiting_width_mm(
    stiffness_n_um: ArrayLike, damping: ArrayLike, specific_force_n_mm2: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def lock_preload_change_n_k(
    youngs_modulus_gpa: float, area_mm2: float, clamped_expansion_um_m_k: float, external_expansion_um_m_k: float
) -> float: ...
@overload
def lock_preload_change_n_k(
    youngs_modulus_gpa: ArrayLike,
    area_mm2: ArrayLike,
    clamped_expansion_um_m_k: ArrayLike,
    external_expansion_um_m_k: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def lock_preload_n(push_n: float, pull_n: float, factor_of_safety: float) -> float: ...
@overload
def lock_preload_n(push_n: ArrayLike, pull_n: ArrayLike, factor_of_safety: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def loosening_torque_lbf_in(
    preload_lbf: float,
    pitch_diameter_in: float,
    lead_in: float,
    half_angle_deg: float,
    thread_friction: float,
    bearing_friction: float,
    bearing_diameter_in: float,
) -> float: ...
@overload
def loosening_torque_lbf_in(
    preload_lbf: ArrayLike,
    pitch_diameter_in: ArrayLike,
    lead_in: ArrayLike,
    half_angle_deg: ArrayLike,
    thread_friction: ArrayLike,
    bearing_friction: ArrayLike,
    bearing_diameter_in: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def loosening_torque_nm(
    preload_n: float,
    pitch_diameter_mm: float,
    lead_mm: float,
    half_angle_deg: float,
    thread_friction: float,
    bearing_friction: float,
    bearing_diameter_mm: float,
) -> float: ...
@overload
def loosening_torque_nm(
    preload_n: ArrayLike,
    pitch_diameter_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    thread_friction: ArrayLike,
    bearing_friction: ArrayLike,
    bearing_diameter_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def mean_entering_deg(depth_mm: float, nose_radius_mm: float, entering_deg: float) -> float: ...
@overload
def mean_entering_deg(
    depth_mm: ArrayLike, nose_radius_mm: ArrayLike, entering_deg: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def mean_stress_area_in2(pitch_diameter_in: float, minor_diameter_in: float) -> float: ...
@overload
def mean_stress_area_in2(pitch_diameter_in: ArrayLike, minor_diameter_in: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def mean_stress_area_mm2(pitch_diameter_mm: float, minor_diameter_mm: float) -> float: ...
@overload
def mean_stress_area_mm2(pitch_diameter_mm: ArrayLike, minor_diameter_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def merchant_friction_deg(rake_deg: float, shear_angle_deg: float) -> float: ...
@overload
def merchant_friction_deg(rake_deg: ArrayLike, shear_angle_deg: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def metal_consumed_um(film_um: float, growth_ratio: float) -> float: ...
@overload
def metal_consumed_um(film_um: ArrayLike, growth_ratio: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def metric_stress_area_mm2(diameter_mm: float, pitch_mm: float) -> float: ...
@overload
def metric_stress_area_mm2(diameter_mm: ArrayLike, pitch_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def milling_approach_mm(cutter_diameter_mm: float, width_mm: float) -> float: ...
@overload
def milling_approach_mm(cutter_diameter_mm: ArrayLike, width_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def milling_chip_thickness_max_mm(
    feed_per_tooth_mm: float, width_mm: float, cutter_diameter_mm: float, entering_deg: float
) -> float: ...
@overload
def milling_chip_thickness_max_mm(
    feed_per_tooth_mm: ArrayLike,
    width_mm: ArrayLike,
    cutter_diameter_mm: ArrayLike,
    entering_deg: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def milling_chip_thickness_mean_mm(
    feed_per_tooth_mm: float, width_mm: float, cutter_diameter_mm: float, entering_deg: float
) -> float: ...
@overload
def milling_chip_thickness_mean_mm(
    feed_per_tooth_mm: ArrayLike,
    width_mm: ArrayLike,
    cutter_diameter_mm: ArrayLike,
    entering_deg: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def milling_cross_force_ratio(entry_deg: float, exit_deg: float, radial_share: float) -> float: ...
@overload
def milling_cross_force_ratio(
    entry_deg: ArrayLike, exit_deg: ArrayLike, radial_share: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def milling_feed_force_ratio(entry_deg: float, exit_deg: float, radial_share: float) -> float: ...
@overload
def milling_feed_force_ratio(
    entry_deg: ArrayLike, exit_deg: ArrayLike, radial_share: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def milling_removal_cm3_min(depth_mm: float, width_mm: float, feed_rate_mm_min: float) -> float: ...
@overload
def milling_removal_cm3_min(
    depth_mm: ArrayLike, width_mm: ArrayLike, feed_rate_mm_min: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def milling_roughness_rt_um(feed_per_tooth_mm: float, cutter_diameter_mm: float) -> float: ...
@overload
def milling_roughness_rt_um(
    feed_per_tooth_mm: ArrayLike, cutter_diameter_mm: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def minor_diameter_area_in2(diameter_in: float, pitch_in: float) -> float: ...
@overload
def minor_diameter_area_in2(diameter_in: ArrayLike, pitch_in: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def minor_diameter_area_mm2(diameter_mm: float, pitch_mm: float) -> float: ...
@overload
def minor_diameter_area_mm2(diameter_mm: ArrayLike, pitch_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def mismatch_teeth(blank_diameter_mm: float, transverse_pitch_mm: float) -> float: ...
@overload
def mismatch_teeth(blank_diameter_mm: ArrayLike, transverse_pitch_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def motor_power_kw(cutting_power_kw: float, efficiency: float) -> float: ...
@overload
def motor_power_kw(cutting_power_kw: ArrayLike, efficiency: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def needed_deviation_um(coating_um: float, length_diameters: float) -> float: ...
@overload
def needed_deviation_um(coating_um: ArrayLike, length_diameters: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def net_area_in2(outside_diameter_in: float, bore_in: float) -> float: ...
@overload
def net_area_in2(outside_diameter_in: ArrayLike, bore_in: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def net_area_mm2(outside_diameter_mm: float, bore_mm: float) -> float: ...
@overload
def net_area_mm2(outside_diameter_mm: ArrayLike, bore_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def normal_pitch_mm(transverse_pitch_mm: float, helix_deg: float) -> float: ...
@overload
def normal_pitch_mm(transverse_pitch_mm: ArrayLike, helix_deg: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def nut_factor_torque_lbf_in(preload_lbf: float, diameter_in: float, nut_factor: float) -> float: ...
@overload
def nut_factor_torque_lbf_in(
    preload_lbf: ArrayLike, diameter_in: ArrayLike, nut_factor: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def nut_factor_torque_nm(preload_n: float, diameter_mm: float, nut_factor: float) -> float: ...
@overload
def nut_factor_torque_nm(
    preload_n: ArrayLike, diameter_mm: ArrayLike, nut_factor: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def over_wires_exact_mm(
    pitch_diameter_mm: float,
    major_diameter_mm: float,
    pitch_mm: float,
    lead_mm: float,
    half_angle_deg: float,
    wire_mm: float,
) -> float: ...
@overload
def over_wires_exact_mm(
    pitch_diameter_mm: ArrayLike,
    major_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def over_wires_held_mm(
    pitch_diameter_mm: float,
    major_diameter_mm: float,
    pitch_mm: float,
    lead_mm: float,
    half_angle_deg: float,
    wire_mm: float,
) -> float: ...
@overload
def over_wires_held_mm(
    pitch_diameter_mm: ArrayLike,
    major_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def over_wires_involute_mm(
    pitch_diameter_mm: float, pitch_mm: float, lead_mm: float, half_angle_deg: float, wire_mm: float
) -> float: ...
@overload
def over_wires_involute_mm(
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def over_wires_lead_mm(
    pitch_diameter_mm: float, pitch_mm: float, lead_mm: float, half_angle_deg: float, wire_mm: float
) -> float: ...
@overload
def over_wires_lead_mm(
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def over_wires_normal_mm(
    pitch_diameter_mm: float, pitch_mm: float, lead_mm: float, half_angle_deg: float, wire_mm: float
) -> float: ...
@overload
def over_wires_normal_mm(
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def over_wires_plain_mm(pitch_diameter_mm: float, pitch_mm: float, half_angle_deg: float, wire_mm: float) -> float: ...
@overload
def over_wires_plain_mm(
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def overload_factor(proof_load_n: float, preload_n: float, joint_share: float, load_n: float) -> float: ...
@overload
def overload_factor(
    proof_load_n: ArrayLike, preload_n: ArrayLike, joint_share: ArrayLike, load_n: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def pinned_buckling_n(length_mm: float, youngs_modulus_gpa: float, second_moment_mm4: float) -> float: ...
@overload
def pinned_buckling_n(
    length_mm: ArrayLike, youngs_modulus_gpa: ArrayLike, second_moment_mm4: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def pitch_diameter_from_balls_exact_mm(
    across_balls_mm: float,
    minor_diameter_mm: float,
    pitch_mm: float,
    lead_mm: float,
    half_angle_deg: float,
    ball_mm: float,
) -> float: ...
@overload
def pitch_diameter_from_balls_exact_mm(
    across_balls_mm: ArrayLike,
    minor_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    ball_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def pitch_diameter_from_wires_exact_mm(
    over_wires_mm: float,
    major_diameter_mm: float,
    pitch_mm: float,
    lead_mm: float,
    half_angle_deg: float,
    wire_mm: float,
) -> float: ...
@overload
def pitch_diameter_from_wires_exact_mm(
    over_wires_mm: ArrayLike,
    major_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def pitch_diameter_from_wires_lead_mm(
    over_wires_mm: float, pitch_mm: float, lead_mm: float, half_angle_deg: float, wire_mm: float
) -> float: ...
@overload
def pitch_diameter_from_wires_lead_mm(
    over_wires_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def pitch_diameter_from_wires_plain_mm(
    over_wires_mm: float, pitch_mm: float, half_angle_deg: float, wire_mm: float
) -> float: ...
@overload
def pitch_diameter_from_wires_plain_mm(
    over_wires_mm: ArrayLike, pitch_mm: ArrayLike, half_angle_deg: ArrayLike, wire_mm: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def pitch_error_equivalent_mm(lead_error_mm: float, half_angle_deg: float) -> float: ...
@overload
def pitch_error_equivalent_mm(lead_error_mm: ArrayLike, half_angle_deg: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def pitch_from_diametral_mm(diametral_pitch: float) -> float: ...
@overload
def pitch_from_diametral_mm(diametral_pitch: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def pitch_from_teeth_per_inch_mm(teeth_per_inch: float) -> float: ...
@overload
def pitch_from_teeth_per_inch_mm(teeth_per_inch: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def point_length_mm(diameter_mm: float, point_deg: float) -> float: ...
@overload
def point_length_mm(diameter_mm: ArrayLike, point_deg: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def preload_from_torque_lbf(
    torque_lbf_in: float,
    pitch_diameter_in: float,
    lead_in: float,
    half_angle_deg: float,
    thread_friction: float,
    bearing_friction: float,
    bearing_diameter_in: float,
) -> float: ...
@overload
def preload_from_torque_lbf(
    torque_lbf_in: ArrayLike,
    pitch_diameter_in: ArrayLike,
    lead_in: ArrayLike,
    half_angle_deg: ArrayLike,
    thread_friction: ArrayLike,
    bearing_friction: ArrayLike,
    bearing_diameter_in: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def preload_from_torque_n(
    torque_nm: float,
    pitch_diameter_mm: float,
    lead_mm: float,
    half_angle_deg: float,
    thread_friction: float,
    bearing_friction: float,
    bearing_diameter_mm: float,
) -> float: ...
@overload
def preload_from_torque_n(
    torque_nm: ArrayLike,
    pitch_diameter_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    thread_friction: ArrayLike,
    bearing_friction: ArrayLike,
    bearing_diameter_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def radial_pressure_mpa(
    load_n: float, pitch_diameter_mm: float, engagement_mm: float, half_angle_deg: float
) -> float: ...
@overload
def radial_pressure_mpa(
    load_n: ArrayLike,
    pitch_diameter_mm: ArrayLike,
    engagement_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def radial_pressure_psi(
    load_lbf: float, pitch_diameter_in: float, engagement_in: float, half_angle_deg: float
) -> float: ...
@overload
def radial_pressure_psi(
    load_lbf: ArrayLike,
    pitch_diameter_in: ArrayLike,
    engagement_in: ArrayLike,
    half_angle_deg: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def rake_correction(rake_deg: float, reference_rake_deg: float) -> float: ...
@overload
def rake_correction(rake_deg: ArrayLike, reference_rake_deg: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def ramp_length_mm(depth_mm: float, ramp_deg: float) -> float: ...
@overload
def ramp_length_mm(depth_mm: ArrayLike, ramp_deg: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def recoated_build_up_um(film_um: float, growth_ratio: float, etch_um: float, strips: float) -> float: ...
@overload
def recoated_build_up_um(
    film_um: ArrayLike, growth_ratio: ArrayLike, etch_um: ArrayLike, strips: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def ring_out_of_round_mm(
    jaw_force_n: float, jaws: float, mean_diameter_mm: float, wall_mm: float, width_mm: float, youngs_modulus_gpa: float
) -> float: ...
@overload
def ring_out_of_round_mm(
    jaw_force_n: ArrayLike,
    jaws: ArrayLike,
    mean_diameter_mm: ArrayLike,
    wall_mm: ArrayLike,
    width_mm: ArrayLike,
    youngs_modulus_gpa: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def root_diameter_mm(diameter_mm: float, pitch_mm: float) -> float: ...
@overload
def root_diameter_mm(diameter_mm: ArrayLike, pitch_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def root_flat_mm(
    pitch_mm: float, pitch_diameter_mm: float, root_diameter_mm: float, half_angle_deg: float
) -> float: ...
@overload
def root_flat_mm(
    pitch_mm: ArrayLike,
    pitch_diameter_mm: ArrayLike,
    root_diameter_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def roughness_ra_um(feed_mm_rev: float, nose_radius_mm: float) -> float: ...
@overload
def roughness_ra_um(feed_mm_rev: ArrayLike, nose_radius_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def roughness_rt_um(feed_mm_rev: float, nose_radius_mm: float) -> float: ...
@overload
def roughness_rt_um(feed_mm_rev: ArrayLike, nose_radius_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def screw_efficiency(lead_mm: float, pitch_diameter_mm: float, half_angle_deg: float, friction: float) -> float: ...
@overload
def screw_efficiency(
    lead_mm: ArrayLike,
    pitch_diameter_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    friction: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def second_moment_mm4(diameter_mm: float, bore_mm: float) -> float: ...
@overload
def second_moment_mm4(diameter_mm: ArrayLike, bore_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def section_load_lbf(area_in2: float, strength_psi: float) -> float: ...
@overload
def section_load_lbf(area_in2: ArrayLike, strength_psi: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def section_load_n(area_mm2: float, strength_mpa: float) -> float: ...
@overload
def section_load_n(area_mm2: ArrayLike, strength_mpa: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def share_of_strength(preload_n: float, stress_area_mm2: float, strength_mpa: float) -> float: ...
@overload
def share_of_strength(
    preload_n: ArrayLike, stress_area_mm2: ArrayLike, strength_mpa: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def sharp_tooth_depth_mm(normal_pitch_mm: float, profile_deg: float) -> float: ...
@overload
def sharp_tooth_depth_mm(normal_pitch_mm: ArrayLike, profile_deg: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def shear_angle_deg(rake_deg: float, chip_ratio: float) -> float: ...
@overload
def shear_angle_deg(rake_deg: ArrayLike, chip_ratio: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def shear_area_mm2(uncut_thickness_mm: float, width_mm: float, shear_angle_deg: float) -> float: ...
@overload
def shear_area_mm2(
    uncut_thickness_mm: ArrayLike, width_mm: ArrayLike, shear_angle_deg: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def shear_force_n(cutting_force_n: float, thrust_force_n: float, shear_angle_deg: float) -> float: ...
@overload
def shear_force_n(
    cutting_force_n: ArrayLike, thrust_force_n: ArrayLike, shear_angle_deg: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def shear_strain(rake_deg: float, shear_angle_deg: float) -> float: ...
@overload
def shear_strain(rake_deg: ArrayLike, shear_angle_deg: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def size_at_20_mm(warm_mm: float, temperature_c: float, expansion_per_k: float) -> float: ...
@overload
def size_at_20_mm(
    warm_mm: ArrayLike, temperature_c: ArrayLike, expansion_per_k: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def smallest_ball_mm(
    major_diameter_mm: float, pitch_diameter_mm: float, pitch_mm: float, half_angle_deg: float
) -> float: ...
@overload
def smallest_ball_mm(
    major_diameter_mm: ArrayLike,
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def smallest_wire_mm(
    major_diameter_mm: float, pitch_diameter_mm: float, pitch_mm: float, half_angle_deg: float
) -> float: ...
@overload
def smallest_wire_mm(
    major_diameter_mm: ArrayLike,
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def specific_cutting_force_n_mm2(kc11_n_mm2: float, mc: float, chip_thickness_mm: float) -> float: ...
@overload
def specific_cutting_force_n_mm2(
    kc11_n_mm2: ArrayLike, mc: ArrayLike, chip_thickness_mm: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def speed_correction(cutting_speed_m_min: float, reference_speed_m_min: float) -> float: ...
@overload
def speed_correction(cutting_speed_m_min: ArrayLike, reference_speed_m_min: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def spindle_speed_rpm(cutting_speed_m_min: float, diameter_mm: float) -> float: ...
@overload
def spindle_speed_rpm(cutting_speed_m_min: ArrayLike, diameter_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def spindle_torque_nm(cutting_force_n: float, diameter_mm: float) -> float: ...
@overload
def spindle_torque_nm(cutting_force_n: ArrayLike, diameter_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def stopping_rpm(run_out_mm: float, lead_mm: float, reaction_s: float) -> float: ...
@overload
def stopping_rpm(run_out_mm: ArrayLike, lead_mm: ArrayLike, reaction_s: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def stress_diameter_mm(diameter_mm: float, pitch_mm: float) -> float: ...
@overload
def stress_diameter_mm(diameter_mm: ArrayLike, pitch_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def strip_ratio(hole_mm: float, full_hole_mm: float, pitch_mm: float, pitch_diameter_mm: float) -> float: ...
@overload
def strip_ratio(
    hole_mm: ArrayLike, full_hole_mm: ArrayLike, pitch_mm: ArrayLike, pitch_diameter_mm: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def stripping_ratio(
    external_shear_area_mm2: float,
    external_strength_mpa: float,
    internal_shear_area_mm2: float,
    internal_strength_mpa: float,
) -> float: ...
@overload
def stripping_ratio(
    external_shear_area_mm2: ArrayLike,
    external_strength_mpa: ArrayLike,
    internal_shear_area_mm2: ArrayLike,
    internal_strength_mpa: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def table_feed_mm_min(feed_per_tooth_mm: float, teeth: float, spindle_rpm: float) -> float: ...
@overload
def table_feed_mm_min(
    feed_per_tooth_mm: ArrayLike, teeth: ArrayLike, spindle_rpm: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def tailstock_setover_mm(large_mm: float, small_mm: float, length_mm: float, work_mm: float) -> float: ...
@overload
def tailstock_setover_mm(
    large_mm: ArrayLike, small_mm: ArrayLike, length_mm: ArrayLike, work_mm: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def taper_angle_deg(large_mm: float, small_mm: float, length_mm: float) -> float: ...
@overload
def taper_angle_deg(large_mm: ArrayLike, small_mm: ArrayLike, length_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def tapping_hole_mm(diameter_mm: float, pitch_mm: float, percent: float) -> float: ...
@overload
def tapping_hole_mm(diameter_mm: ArrayLike, pitch_mm: ArrayLike, percent: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def tapping_torque_nm(
    specific_force_n_mm2: float, pitch_mm: float, diameter_mm: float, friction_factor: float
) -> float: ...
@overload
def tapping_torque_nm(
    specific_force_n_mm2: ArrayLike,
    pitch_mm: ArrayLike,
    diameter_mm: ArrayLike,
    friction_factor: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def taylor_exponent(speed_1_m_min: float, life_1_min: float, speed_2_m_min: float, life_2_min: float) -> float: ...
@overload
def taylor_exponent(
    speed_1_m_min: ArrayLike,
    life_1_min: ArrayLike,
    speed_2_m_min: ArrayLike,
    life_2_min: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def taylor_life_min(c_m_min: float, exponent: float, speed_m_min: float) -> float: ...
@overload
def taylor_life_min(c_m_min: ArrayLike, exponent: ArrayLike, speed_m_min: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def taylor_life_ratio(
    exponent: float,
    feed_exponent: float,
    depth_exponent: float,
    speed_factor: float,
    feed_factor: float,
    depth_factor: float,
) -> float: ...
@overload
def taylor_life_ratio(
    exponent: ArrayLike,
    feed_exponent: ArrayLike,
    depth_exponent: ArrayLike,
    speed_factor: ArrayLike,
    feed_factor: ArrayLike,
    depth_factor: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def taylor_speed_m_min(c_m_min: float, exponent: float, life_min: float) -> float: ...
@overload
def taylor_speed_m_min(c_m_min: ArrayLike, exponent: ArrayLike, life_min: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def teeth_around(blank_diameter_mm: float, transverse_pitch_mm: float) -> float: ...
@overload
def teeth_around(blank_diameter_mm: ArrayLike, transverse_pitch_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def temperature_rise_k(
    specific_energy_j_mm3: float,
    volumetric_heat_j_mm3_k: float,
    cutting_speed_m_min: float,
    uncut_thickness_mm: float,
    diffusivity_mm2_s: float,
) -> float: ...
@overload
def temperature_rise_k(
    specific_energy_j_mm3: ArrayLike,
    volumetric_heat_j_mm3_k: ArrayLike,
    cutting_speed_m_min: ArrayLike,
    uncut_thickness_mm: ArrayLike,
    diffusivity_mm2_s: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def thread_percent(diameter_mm: float, pitch_mm: float, hole_mm: float) -> float: ...
@overload
def thread_percent(diameter_mm: ArrayLike, pitch_mm: ArrayLike, hole_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def thread_tilt_deg(
    pitch_clearance_mm: float,
    crest_clearance_mm: float,
    engagement_mm: float,
    pitch_diameter_mm: float,
    half_angle_deg: float,
) -> float: ...
@overload
def thread_tilt_deg(
    pitch_clearance_mm: ArrayLike,
    crest_clearance_mm: ArrayLike,
    engagement_mm: ArrayLike,
    pitch_diameter_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def tightening_stress_mpa(
    preload_n: float, thread_torque_nm: float, section_diameter_mm: float, bore_mm: float
) -> float: ...
@overload
def tightening_stress_mpa(
    preload_n: ArrayLike,
    thread_torque_nm: ArrayLike,
    section_diameter_mm: ArrayLike,
    bore_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def tightening_stress_psi(
    preload_lbf: float, thread_torque_lbf_in: float, section_diameter_in: float, bore_in: float
) -> float: ...
@overload
def tightening_stress_psi(
    preload_lbf: ArrayLike,
    thread_torque_lbf_in: ArrayLike,
    section_diameter_in: ArrayLike,
    bore_in: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def tightening_torque_lbf_in(
    preload_lbf: float,
    pitch_diameter_in: float,
    lead_in: float,
    half_angle_deg: float,
    thread_friction: float,
    bearing_friction: float,
    bearing_diameter_in: float,
) -> float: ...
@overload
def tightening_torque_lbf_in(
    preload_lbf: ArrayLike,
    pitch_diameter_in: ArrayLike,
    lead_in: ArrayLike,
    half_angle_deg: ArrayLike,
    thread_friction: ArrayLike,
    bearing_friction: ArrayLike,
    bearing_diameter_in: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def tightening_torque_nm(
    preload_n: float,
    pitch_diameter_mm: float,
    lead_mm: float,
    half_angle_deg: float,
    thread_friction: float,
    bearing_friction: float,
    bearing_diameter_mm: float,
) -> float: ...
@overload
def tightening_torque_nm(
    preload_n: ArrayLike,
    pitch_diameter_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    thread_friction: ArrayLike,
    bearing_friction: ArrayLike,
    bearing_diameter_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def tolerance_unit_um(diameter_mm: float) -> float: ...
@overload
def tolerance_unit_um(diameter_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def torque_power_kw(torque_nm: float, spindle_rpm: float) -> float: ...
@overload
def torque_power_kw(torque_nm: ArrayLike, spindle_rpm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def tracking_blank_mm(teeth: float, transverse_pitch_mm: float) -> float: ...
@overload
def tracking_blank_mm(teeth: ArrayLike, transverse_pitch_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def tracking_helix_deg(teeth: float, normal_pitch_mm: float, blank_diameter_mm: float) -> float: ...
@overload
def tracking_helix_deg(
    teeth: ArrayLike, normal_pitch_mm: ArrayLike, blank_diameter_mm: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def train_lead_mm(screw_lead_mm: float, spindle_to_stud: float, drivers_teeth: float, driven_teeth: float) -> float: ...
@overload
def train_lead_mm(
    screw_lead_mm: ArrayLike,
    spindle_to_stud: ArrayLike,
    drivers_teeth: ArrayLike,
    driven_teeth: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def transition_slenderness(youngs_modulus_gpa: float, yield_mpa: float) -> float: ...
@overload
def transition_slenderness(youngs_modulus_gpa: ArrayLike, yield_mpa: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def transverse_pitch_mm(normal_pitch_mm: float, helix_deg: float) -> float: ...
@overload
def transverse_pitch_mm(normal_pitch_mm: ArrayLike, helix_deg: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def triangle_height_mm(pitch_mm: float) -> float: ...
@overload
def triangle_height_mm(pitch_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def tube_area_mm2(diameter_mm: float, bore_mm: float) -> float: ...
@overload
def tube_area_mm2(diameter_mm: ArrayLike, bore_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def turnbuckle_travel_mm(first_lead_mm: float, second_lead_mm: float) -> float: ...
@overload
def turnbuckle_travel_mm(first_lead_mm: ArrayLike, second_lead_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def turning_force_n(
    kc11_n_mm2: float, mc: float, depth_mm: float, feed_mm_rev: float, entering_deg: float, correction: float
) -> float: ...
@overload
def turning_force_n(
    kc11_n_mm2: ArrayLike,
    mc: ArrayLike,
    depth_mm: ArrayLike,
    feed_mm_rev: ArrayLike,
    entering_deg: ArrayLike,
    correction: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def turning_removal_cm3_min(cutting_speed_m_min: float, feed_mm_rev: float, depth_mm: float) -> float: ...
@overload
def turning_removal_cm3_min(
    cutting_speed_m_min: ArrayLike, feed_mm_rev: ArrayLike, depth_mm: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def twist_strength_nm(shear_mpa: float, diameter_mm: float) -> float: ...
@overload
def twist_strength_nm(shear_mpa: ArrayLike, diameter_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def unified_stress_area_in2(diameter_in: float, threads_per_inch: float) -> float: ...
@overload
def unified_stress_area_in2(diameter_in: ArrayLike, threads_per_inch: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def unit_power_force_n_mm2(unit_power_hp_in3_min: float) -> float: ...
@overload
def unit_power_force_n_mm2(unit_power_hp_in3_min: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def unit_power_kw(
    unit_power_hp_in3_min: float, feed_factor: float, removal_cm3_min: float, wear_factor: float
) -> float: ...
@overload
def unit_power_kw(
    unit_power_hp_in3_min: ArrayLike,
    feed_factor: ArrayLike,
    removal_cm3_min: ArrayLike,
    wear_factor: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def wheel_pitch_mm(wheel_diameter_mm: float, wheel_teeth: float, tracking_allowance_mm: float) -> float: ...
@overload
def wheel_pitch_mm(
    wheel_diameter_mm: ArrayLike, wheel_teeth: ArrayLike, tracking_allowance_mm: ArrayLike, on_error: str = ...
) -> Any: ...
@overload
def wire_tilt_deg(
    pitch_diameter_mm: float,
    major_diameter_mm: float,
    pitch_mm: float,
    lead_mm: float,
    half_angle_deg: float,
    wire_mm: float,
) -> float: ...
@overload
def wire_tilt_deg(
    pitch_diameter_mm: ArrayLike,
    major_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def work_warming_k(
    heat_w: float,
    time_s: float,
    diameter_mm: float,
    bore_mm: float,
    length_mm: float,
    density_kg_m3: float,
    specific_heat_j_kg_k: float,
) -> float: ...
@overload
def work_warming_k(
    heat_w: ArrayLike,
    time_s: ArrayLike,
    diameter_mm: ArrayLike,
    bore_mm: ArrayLike,
    length_mm: ArrayLike,
    density_kg_m3: ArrayLike,
    specific_heat_j_kg_k: ArrayLike,
    on_error: str = ...,
) -> Any: ...
@overload
def yielding_factor(proof_load_n: float, preload_n: float, joint_share: float, load_n: float) -> float: ...
@overload
def yielding_factor(
    proof_load_n: ArrayLike, preload_n: ArrayLike, joint_share: ArrayLike, load_n: ArrayLike, on_error: str = ...
) -> Any: ...
