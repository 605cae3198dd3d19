"""Types of the compiled core, by hand; a test compares them with the built module."""

from collections.abc import Iterable
from typing import Any, Literal, TypeAlias, overload

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
    def with_table(self, table: str, text: str, name: str) -> Catalogue: ...
    def tables(self) -> list[str]: ...
    def rows(self, table: str) -> list[dict[str, Any]]: ...
    def row(self, table: str, index: int) -> dict[str, Any]: ...

def status_name(code: int) -> str: ...
def nearest_name(name: str, candidates: list[str]) -> str: ...

# quantities

class Quantity:
    def __init__(self, value: float, unit: str, dimension: str) -> None: ...
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

class Length(Quantity):
    def __init__(self, value: float, unit: str) -> None: ...
    @property
    def mm(self) -> float: ...
    @property
    def inches(self) -> float: ...

def parse_quantity(text: str, dimension: str, catalogue: Catalogue) -> Quantity: ...
def parse_length(text: str, catalogue: Catalogue) -> Length: ...

# material

def find_alloy(name: str, catalogue: Catalogue) -> int: ...
def group_chain(group: str, catalogue: Catalogue) -> list[str]: ...

# machine

class Position:
    def __init__(self, control: str, setting: str) -> None: ...
    control: str
    setting: str

class SpindleStep:
    def __init__(self) -> None: ...
    rpm: float
    rpm_low: float
    power_kw: float
    power_low_kw: float
    back_gear: bool
    stop_to_change: bool
    positions: list[Position]
    @property
    def variable(self) -> bool: ...

class FeedStep:
    def __init__(self) -> None: ...
    feed_mm: float
    marked: float
    stop_to_change: bool
    positions: list[Position]

class FeedLadder:
    def __init__(self) -> None: ...
    kind: str
    marked_in_inch: bool
    steps: list[FeedStep]
    cross_ratio: float

class Slide:
    def __init__(self) -> None: ...
    name: str
    travel_per_turn_mm: float
    graduation_mm: float
    marked_graduation: float
    marked_in_inch: bool
    reads_diameter: bool
    travel_mm: float
    readout_mm: float
    power_feed: bool
    backlash_mm: float

class Chuck:
    def __init__(self) -> None: ...
    name: str
    jaws: int
    diameter_mm: float
    rpm_limit: float
    cast_iron: bool
    through_mm: float
    jaw_depth_mm: float
    @property
    def limit_rpm(self) -> float: ...

class GearboxStep:
    def __init__(self) -> None: ...
    ratio: float
    positions: list[Position]

class Threading:
    def __init__(self) -> None: ...
    lead_mm: float
    threads_per_inch: float
    metric: bool
    spindle_to_stud: float
    gears: list[int]
    module_mm: float
    stud_to_screw_mm: float
    banjo_low_mm: float
    banjo_high_mm: float
    stud_clearance_mm: float
    standard_driver: int
    standard_driven: int
    gearbox: list[GearboxStep]
    dial_threads_per_turn: float
    dial_marks: int

class Machine:
    def __init__(self) -> None: ...
    kind: str
    compound_zero: str
    name: str
    inch: bool
    motor_kw: float
    efficiency: float
    spindle: list[SpindleStep]
    carriage: FeedLadder
    quill: FeedLadder
    table: FeedLadder
    slides: list[Slide]
    chucks: list[Chuck]
    threading: Threading
    centre_height_mm: float
    between_centres_mm: float
    spindle_bore_mm: float
    torque_limit_nm: float
    lever_change_s: float
    stop_change_s: float
    measure_s: float
    tool_change_s: float
    def problems(self) -> list[tuple[str, str, bool]]: ...
    def slide(self, name: str) -> Slide | None: ...

# gauging

@overload
def best_wire_mm(pitch_mm: float, half_angle_deg: float) -> float: ...
@overload
def best_wire_mm(
    pitch_mm: ArrayLike, half_angle_deg: ArrayLike, on_error: Literal["raise"] = "raise"
) -> FloatOrArray: ...
@overload
def best_wire_mm(
    pitch_mm: ArrayLike, half_angle_deg: ArrayLike, on_error: Literal["status"]
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
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
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def smallest_wire_mm(
    major_diameter_mm: ArrayLike,
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    on_error: Literal["status"],
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
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
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def largest_wire_mm(
    major_diameter_mm: ArrayLike,
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    on_error: Literal["status"],
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
@overload
def over_wires_plain_mm(pitch_diameter_mm: float, pitch_mm: float, half_angle_deg: float, wire_mm: float) -> float: ...
@overload
def over_wires_plain_mm(
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def over_wires_plain_mm(
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: Literal["status"],
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
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
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def over_wires_lead_mm(
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: Literal["status"],
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
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
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def over_wires_normal_mm(
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: Literal["status"],
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
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
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def over_wires_involute_mm(
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: Literal["status"],
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
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
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def over_wires_exact_mm(
    pitch_diameter_mm: ArrayLike,
    major_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: Literal["status"],
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
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
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def over_wires_held_mm(
    pitch_diameter_mm: ArrayLike,
    major_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: Literal["status"],
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
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
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def wire_tilt_deg(
    pitch_diameter_mm: ArrayLike,
    major_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: Literal["status"],
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
@overload
def best_wire_exact_mm(pitch_diameter_mm: float, pitch_mm: float, lead_mm: float, half_angle_deg: float) -> float: ...
@overload
def best_wire_exact_mm(
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def best_wire_exact_mm(
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    on_error: Literal["status"],
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
@overload
def pitch_diameter_from_wires_plain_mm(
    over_wires_mm: float, pitch_mm: float, half_angle_deg: float, wire_mm: float
) -> float: ...
@overload
def pitch_diameter_from_wires_plain_mm(
    over_wires_mm: ArrayLike,
    pitch_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def pitch_diameter_from_wires_plain_mm(
    over_wires_mm: ArrayLike,
    pitch_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: Literal["status"],
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
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
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def pitch_diameter_from_wires_lead_mm(
    over_wires_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: Literal["status"],
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
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
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def pitch_diameter_from_wires_exact_mm(
    over_wires_mm: ArrayLike,
    major_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    wire_mm: ArrayLike,
    on_error: Literal["status"],
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
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
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def smallest_ball_mm(
    major_diameter_mm: ArrayLike,
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    on_error: Literal["status"],
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
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
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def largest_ball_mm(
    pitch_diameter_mm: ArrayLike,
    minor_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    on_error: Literal["status"],
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
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
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def across_balls_plain_mm(
    pitch_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    ball_mm: ArrayLike,
    on_error: Literal["status"],
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
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
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def across_balls_exact_mm(
    pitch_diameter_mm: ArrayLike,
    minor_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    ball_mm: ArrayLike,
    on_error: Literal["status"],
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
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
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def pitch_diameter_from_balls_exact_mm(
    across_balls_mm: ArrayLike,
    minor_diameter_mm: ArrayLike,
    pitch_mm: ArrayLike,
    lead_mm: ArrayLike,
    half_angle_deg: ArrayLike,
    ball_mm: ArrayLike,
    on_error: Literal["status"],
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
@overload
def across_balls_skew_mm(across_balls_mm: float, pitch_mm: float, ball_mm: float) -> float: ...
@overload
def across_balls_skew_mm(
    across_balls_mm: ArrayLike, pitch_mm: ArrayLike, ball_mm: ArrayLike, on_error: Literal["raise"] = "raise"
) -> FloatOrArray: ...
@overload
def across_balls_skew_mm(
    across_balls_mm: ArrayLike, pitch_mm: ArrayLike, ball_mm: ArrayLike, on_error: Literal["status"]
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
@overload
def pitch_error_equivalent_mm(lead_error_mm: float, half_angle_deg: float) -> float: ...
@overload
def pitch_error_equivalent_mm(
    lead_error_mm: ArrayLike, half_angle_deg: ArrayLike, on_error: Literal["raise"] = "raise"
) -> FloatOrArray: ...
@overload
def pitch_error_equivalent_mm(
    lead_error_mm: ArrayLike, half_angle_deg: ArrayLike, on_error: Literal["status"]
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
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
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def flank_error_equivalent_mm(
    leading_error_deg: ArrayLike,
    following_error_deg: ArrayLike,
    half_angle_deg: ArrayLike,
    depth_above_mm: ArrayLike,
    depth_below_mm: ArrayLike,
    on_error: Literal["status"],
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...

# knurls

@overload
def pitch_from_teeth_per_inch_mm(teeth_per_inch: float) -> float: ...
@overload
def pitch_from_teeth_per_inch_mm(teeth_per_inch: ArrayLike, on_error: Literal["raise"] = "raise") -> FloatOrArray: ...
@overload
def pitch_from_teeth_per_inch_mm(
    teeth_per_inch: ArrayLike, on_error: Literal["status"]
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
@overload
def pitch_from_diametral_mm(diametral_pitch: float) -> float: ...
@overload
def pitch_from_diametral_mm(diametral_pitch: ArrayLike, on_error: Literal["raise"] = "raise") -> FloatOrArray: ...
@overload
def pitch_from_diametral_mm(
    diametral_pitch: ArrayLike, on_error: Literal["status"]
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
@overload
def transverse_pitch_mm(normal_pitch_mm: float, helix_deg: float) -> float: ...
@overload
def transverse_pitch_mm(
    normal_pitch_mm: ArrayLike, helix_deg: ArrayLike, on_error: Literal["raise"] = "raise"
) -> FloatOrArray: ...
@overload
def transverse_pitch_mm(
    normal_pitch_mm: ArrayLike, helix_deg: ArrayLike, on_error: Literal["status"]
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
@overload
def normal_pitch_mm(transverse_pitch_mm: float, helix_deg: float) -> float: ...
@overload
def normal_pitch_mm(
    transverse_pitch_mm: ArrayLike, helix_deg: ArrayLike, on_error: Literal["raise"] = "raise"
) -> FloatOrArray: ...
@overload
def normal_pitch_mm(
    transverse_pitch_mm: ArrayLike, helix_deg: ArrayLike, on_error: Literal["status"]
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
@overload
def wheel_pitch_mm(wheel_diameter_mm: float, wheel_teeth: float, tracking_allowance_mm: float) -> float: ...
@overload
def wheel_pitch_mm(
    wheel_diameter_mm: ArrayLike,
    wheel_teeth: ArrayLike,
    tracking_allowance_mm: ArrayLike,
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def wheel_pitch_mm(
    wheel_diameter_mm: ArrayLike, wheel_teeth: ArrayLike, tracking_allowance_mm: ArrayLike, on_error: Literal["status"]
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
@overload
def diametral_wheel_outside_in(nominal_diameter_in: float, wheel_teeth: float, tracking_factor_in: float) -> float: ...
@overload
def diametral_wheel_outside_in(
    nominal_diameter_in: ArrayLike,
    wheel_teeth: ArrayLike,
    tracking_factor_in: ArrayLike,
    on_error: Literal["raise"] = "raise",
) -> FloatOrArray: ...
@overload
def diametral_wheel_outside_in(
    nominal_diameter_in: ArrayLike, wheel_teeth: ArrayLike, tracking_factor_in: ArrayLike, on_error: Literal["status"]
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
@overload
def teeth_around(blank_diameter_mm: float, transverse_pitch_mm: float) -> float: ...
@overload
def teeth_around(
    blank_diameter_mm: ArrayLike, transverse_pitch_mm: ArrayLike, on_error: Literal["raise"] = "raise"
) -> FloatOrArray: ...
@overload
def teeth_around(
    blank_diameter_mm: ArrayLike, transverse_pitch_mm: ArrayLike, on_error: Literal["status"]
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
@overload
def mismatch_teeth(blank_diameter_mm: float, transverse_pitch_mm: float) -> float: ...
@overload
def mismatch_teeth(
    blank_diameter_mm: ArrayLike, transverse_pitch_mm: ArrayLike, on_error: Literal["raise"] = "raise"
) -> FloatOrArray: ...
@overload
def mismatch_teeth(
    blank_diameter_mm: ArrayLike, transverse_pitch_mm: ArrayLike, on_error: Literal["status"]
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
@overload
def tracking_blank_mm(teeth: float, transverse_pitch_mm: float) -> float: ...
@overload
def tracking_blank_mm(
    teeth: ArrayLike, transverse_pitch_mm: ArrayLike, on_error: Literal["raise"] = "raise"
) -> FloatOrArray: ...
@overload
def tracking_blank_mm(
    teeth: ArrayLike, transverse_pitch_mm: ArrayLike, on_error: Literal["status"]
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
@overload
def blank_below_mm(blank_diameter_mm: float, transverse_pitch_mm: float) -> float: ...
@overload
def blank_below_mm(
    blank_diameter_mm: ArrayLike, transverse_pitch_mm: ArrayLike, on_error: Literal["raise"] = "raise"
) -> FloatOrArray: ...
@overload
def blank_below_mm(
    blank_diameter_mm: ArrayLike, transverse_pitch_mm: ArrayLike, on_error: Literal["status"]
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
@overload
def blank_above_mm(blank_diameter_mm: float, transverse_pitch_mm: float) -> float: ...
@overload
def blank_above_mm(
    blank_diameter_mm: ArrayLike, transverse_pitch_mm: ArrayLike, on_error: Literal["raise"] = "raise"
) -> FloatOrArray: ...
@overload
def blank_above_mm(
    blank_diameter_mm: ArrayLike, transverse_pitch_mm: ArrayLike, on_error: Literal["status"]
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
@overload
def tracking_helix_deg(teeth: float, normal_pitch_mm: float, blank_diameter_mm: float) -> float: ...
@overload
def tracking_helix_deg(
    teeth: ArrayLike, normal_pitch_mm: ArrayLike, blank_diameter_mm: ArrayLike, on_error: Literal["raise"] = "raise"
) -> FloatOrArray: ...
@overload
def tracking_helix_deg(
    teeth: ArrayLike, normal_pitch_mm: ArrayLike, blank_diameter_mm: ArrayLike, on_error: Literal["status"]
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
@overload
def sharp_tooth_depth_mm(normal_pitch_mm: float, profile_deg: float) -> float: ...
@overload
def sharp_tooth_depth_mm(
    normal_pitch_mm: ArrayLike, profile_deg: ArrayLike, on_error: Literal["raise"] = "raise"
) -> FloatOrArray: ...
@overload
def sharp_tooth_depth_mm(
    normal_pitch_mm: ArrayLike, profile_deg: ArrayLike, on_error: Literal["status"]
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
@overload
def form_growth_mm(tooth_depth_mm: float, growth_share: float) -> float: ...
@overload
def form_growth_mm(
    tooth_depth_mm: ArrayLike, growth_share: ArrayLike, on_error: Literal["raise"] = "raise"
) -> FloatOrArray: ...
@overload
def form_growth_mm(
    tooth_depth_mm: ArrayLike, growth_share: ArrayLike, on_error: Literal["status"]
) -> tuple[FloatOrArray, NDArray[np.uint8]]: ...
def parse_knurl_pitch(text: str, catalogue: Catalogue) -> tuple[str, float, str | None, float | None]: ...
def parse_knurl_pattern(text: str, catalogue: Catalogue) -> str: ...

class KnurlAnswer:
    @property
    def figures(self) -> dict[str, float | None]: ...
    @property
    def cautions(self) -> list[str]: ...
    @property
    def evidence(self) -> list[Evidence]: ...

class KnurlRequest:
    def __init__(
        self,
        catalogue: Catalogue,
        *,
        system: str,
        pitch: float,
        pattern: str,
        process: str = "form",
        prefer: str = "nearest",
        finished: bool = False,
        set_over: bool = False,
        helix_deg: float | None = None,
        profile_deg: float | None = None,
        wheel_diameter_mm: float | None = None,
        wheel_teeth: float | None = None,
        tracking_allowance_mm: float | None = None,
        tolerance_class: int = 0,
        width_mm: float | None = None,
    ) -> None: ...

def knurl_answer(request: KnurlRequest, diameter_mm: float, catalogue: Catalogue) -> KnurlAnswer: ...
def knurl_columns(
    request: KnurlRequest, diameter_mm: ArrayLike, catalogue: Catalogue, on_error: str = "raise"
) -> dict[str, NDArray[Any]]: ...

# threads

@overload
def triangle_height_mm(pitch_mm: float) -> float: ...
@overload
def triangle_height_mm(pitch_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def basic_pitch_diameter_mm(diameter_mm: float, pitch_mm: float) -> float: ...
@overload
def basic_pitch_diameter_mm(diameter_mm: ArrayLike, pitch_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def basic_minor_diameter_mm(diameter_mm: float, pitch_mm: float) -> float: ...
@overload
def basic_minor_diameter_mm(diameter_mm: ArrayLike, pitch_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def root_diameter_mm(diameter_mm: float, pitch_mm: float) -> float: ...
@overload
def root_diameter_mm(diameter_mm: ArrayLike, pitch_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def stress_diameter_mm(diameter_mm: float, pitch_mm: float) -> float: ...
@overload
def stress_diameter_mm(diameter_mm: ArrayLike, pitch_mm: ArrayLike, on_error: str = ...) -> Any: ...
@overload
def lead_angle_deg(lead_mm: float, pitch_diameter_mm: float) -> float: ...
@overload
def lead_angle_deg(lead_mm: ArrayLike, pitch_diameter_mm: ArrayLike, on_error: str = ...) -> Any: ...

class Thread:
    @property
    def system(self) -> str: ...
    @property
    def unit(self) -> str: ...
    @property
    def series(self) -> str: ...
    @property
    def size(self) -> str: ...
    @property
    def tolerance_class(self) -> str: ...
    @property
    def form(self) -> str: ...
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
    def has_external(self) -> bool: ...
    @property
    def has_internal(self) -> bool: ...
    @property
    def external(self) -> Thread: ...
    @property
    def internal(self) -> Thread: ...
    def part(self, side: str) -> Thread: ...
    def __eq__(self, other: object, /) -> bool: ...
    def __hash__(self) -> int: ...
    def __getstate__(self) -> str: ...
    def __setstate__(self, state: str, /) -> None: ...

class LimitFigures:
    @property
    def major_max(self) -> float | None: ...
    @property
    def major_min(self) -> float | None: ...
    @property
    def pitch_max(self) -> float | None: ...
    @property
    def pitch_min(self) -> float | None: ...
    @property
    def minor_max(self) -> float | None: ...
    @property
    def minor_min(self) -> float | None: ...
    @property
    def major_min_unfinished(self) -> float | None: ...
    @property
    def unr_minor_max(self) -> float | None: ...
    @property
    def unit(self) -> str: ...
    @property
    def side(self) -> str: ...
    @property
    def deviation(self) -> float: ...
    @property
    def pitch_tolerance(self) -> float: ...
    @property
    def crest_tolerance(self) -> float: ...
    @property
    def root_radius_min(self) -> float | None: ...
    @property
    def engagement_group(self) -> str: ...
    @property
    def engagement_over(self) -> float | None: ...
    @property
    def engagement_up_to(self) -> float | None: ...
    @property
    def cautions(self) -> list[str]: ...
    def evidence(self, catalogue: Catalogue) -> list[Evidence]: ...

def parse_thread(text: str, catalogue: Catalogue) -> Thread: ...
def thread_limits(
    thread: Thread, catalogue: Catalogue, rule: str = ..., engagement_mm: float | None = ...
) -> LimitFigures: ...
def thread_limit_columns(
    designations: Iterable[str],
    catalogue: Catalogue,
    rule: str = ...,
    engagement_mm: NDArray[np.float64] = ...,
    on_error: str = ...,
) -> dict[str, NDArray[Any]]: ...
