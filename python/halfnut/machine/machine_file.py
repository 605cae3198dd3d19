"""Machine files: one machine of the shop in its own terms, as TOML.

The dataclasses below are the format; their fields are the keys. A regular file is read by a small strict reader
that needs no other package. When anything is irregular, pydantic reads the same dataclasses again and reports
every mistake at once.
"""

from collections.abc import Mapping
from dataclasses import field
from pathlib import Path
from typing import Annotated, Any, Literal

from halfnut._core import Quantity
from halfnut.core.fixed import made
from halfnut.core.mistakes import InputError, from_pydantic
from halfnut.core.shapes import (
    AtLeast,
    Count,
    Irregular,
    Length,
    Mass,
    Positions,
    Positive,
    Power,
    Text,
    Time,
    Torque,
    YesNo,
    load_toml,
    refuse_large,
    strict,
)

__all__ = [
    "Change",
    "ChartRow",
    "Chuck",
    "Dividing",
    "FeedLadder",
    "FeedStep",
    "Gearbox",
    "Hands",
    "MachineFile",
    "RateLadder",
    "RateStep",
    "Slide",
    "Spindle",
    "SpindleStep",
    "Thread",
    "ThreadDial",
    "Threading",
    "from_dict",
    "read",
]


_CLOSED = {"extra": "forbid"}
System = Literal["inch", "metric"]
Kind = Literal["lathe", "mill", "drill press"]


@made(frozen=True)
class SpindleStep:
    """A speed of the spindle; with `rpm_low`, a drive that is set to any speed from there to `rpm`."""

    __pydantic_config__ = _CLOSED
    rpm: Positive
    rpm_low: Positive | None = None
    power: Power | None = None
    power_low: Power | None = None
    back_gear: YesNo = False
    stop_to_change: YesNo | None = None
    positions: Positions = field(default_factory=dict)

    def __post_init__(self) -> None:
        if self.rpm_low is not None and self.rpm_low >= self.rpm:
            raise ValueError(f"rpm_low must be less than rpm, {self.rpm:g}; got {self.rpm_low:g}")
        if self.power_low is not None and self.rpm_low is None:
            raise ValueError("power_low is the power at rpm_low, which is missing")


@made(frozen=True)
class Spindle:
    """The ladder of spindle speeds."""

    __pydantic_config__ = _CLOSED
    steps: list[SpindleStep]
    stop_to_change: YesNo = False

    def __post_init__(self) -> None:
        if not self.steps:
            raise ValueError("needs at least one step")


@made(frozen=True)
class FeedStep:
    """A power feed, as the machine's chart has it."""

    __pydantic_config__ = _CLOSED
    feed: Annotated[Quantity, Text("feed")]
    stop_to_change: YesNo | None = None
    positions: Positions = field(default_factory=dict)


@made(frozen=True)
class FeedLadder:
    """Power feeds a revolution: a lathe's carriage, a quill."""

    __pydantic_config__ = _CLOSED
    steps: list[FeedStep] = field(default_factory=list)
    stop_to_change: YesNo = False
    cross_ratio: Positive | None = None


@made(frozen=True)
class RateStep:
    """A power feed of a table, travel a minute."""

    __pydantic_config__ = _CLOSED
    feed: Annotated[Quantity, Text("feed rate")]
    stop_to_change: YesNo | None = None
    positions: Positions = field(default_factory=dict)


@made(frozen=True)
class RateLadder:
    """Power feeds a minute: a mill's table."""

    __pydantic_config__ = _CLOSED
    steps: list[RateStep] = field(default_factory=list)
    stop_to_change: YesNo = False


@made(frozen=True)
class Slide:
    """A slide and its dial."""

    __pydantic_config__ = _CLOSED
    per_turn: Length
    graduation: Length
    reads: Literal["travel", "radius", "diameter"] = "travel"
    travel: Length | None = None
    readout: Length | None = None
    power_feed: YesNo = False
    backlash: Annotated[Quantity, Text("length", zero=True)] | None = None
    approach: Literal["plus", "minus"] = "plus"


@made(frozen=True)
class Chuck:
    """What holds the work, and how fast it may turn; `jaws = 0` is a collet, a faceplate or a driving plate."""

    __pydantic_config__ = _CLOSED
    name: str
    jaws: Annotated[int, AtLeast(0, included=True)]
    diameter: Length
    max_rpm: Positive | None = None
    body: Literal["steel", "cast iron", "unknown"] = "unknown"
    through: Length | None = None
    jaw_depth: Length | None = None
    opening_least: Length | None = None
    opening_greatest: Length | None = None
    jaw_weight: Mass | None = None
    run_out: Length | None = None


@made(frozen=True)
class Thread:
    """A thread on the gearbox chart, as threads an inch or as a pitch."""

    __pydantic_config__ = _CLOSED
    threads_per_inch: Positive | None = None
    pitch: Length | None = None
    positions: Positions = field(default_factory=dict)

    def __post_init__(self) -> None:
        if (self.threads_per_inch is None) == (self.pitch is None):
            raise ValueError("needs threads_per_inch or pitch, one of the two")


@made(frozen=True)
class Gearbox:
    """The threads that the gearbox gives on its standard train."""

    __pydantic_config__ = _CLOSED
    driver: Count
    driven: Count
    steps: list[Thread] = field(default_factory=list)


@made(frozen=True)
class ThreadDial:
    """The dial that says when to close the half nut."""

    __pydantic_config__ = _CLOSED
    teeth: Count
    marks: Count


@made(frozen=True)
class ChartRow:
    """A row of the threading chart that hangs at the lathe: a lead, and gears or levers for it. It is checked only."""

    __pydantic_config__ = _CLOSED
    threads_per_inch: Positive | None = None
    pitch: Length | None = None
    drivers: list[Count] = field(default_factory=list)
    driven: list[Count] = field(default_factory=list)
    positions: Positions = field(default_factory=dict)

    def __post_init__(self) -> None:
        if (self.threads_per_inch is None) == (self.pitch is None):
            raise ValueError("needs threads_per_inch or pitch, one of the two")


@made(frozen=True)
class Threading:
    """The leadscrew and what drives it."""

    __pydantic_config__ = _CLOSED
    threads_per_inch: Positive | None = None
    lead: Length | None = None
    spindle_to_stud: Positive = 1.0
    gears: list[Count] = field(default_factory=list)
    module: Length | None = None
    diametral_pitch: Positive | None = None
    stud_to_screw: Length | None = None
    banjo_nearest: Length | None = None
    banjo_farthest: Length | None = None
    stud_clearance: Length | None = None
    collar: Length | None = None
    gearbox: Gearbox | None = None
    dial: ThreadDial | None = None
    chart: list[ChartRow] = field(default_factory=list)

    def __post_init__(self) -> None:
        if (self.threads_per_inch is None) == (self.lead is None):
            raise ValueError("needs threads_per_inch or lead, one of the two")
        if self.module is not None and self.diametral_pitch is not None:
            raise ValueError("module and diametral_pitch say the same; give one")


@made(frozen=True)
class Change:
    """What changes cost, counted in the time of a job; the core has typical ones."""

    __pydantic_config__ = _CLOSED
    lever: Time | None = None
    stop: Time | None = None
    tool: Time | None = None
    measure: Time | None = None


@made(frozen=True)
class Hands:
    """What hands do at it: turns a minute of a handle, time to open the half nut, fastest spindles, slides at once."""

    __pydantic_config__ = _CLOSED
    tailstock_turns: Positive | None = None
    table_turns: Positive | None = None
    half_nut: Time | None = None
    ream_rpm: Positive | None = None
    knurl_rpm: Positive | None = None
    axes: Count | None = None


@made(frozen=True)
class Dividing:
    """A dividing head: turns of the crank for one of the work, plates as "15 16 17, 21 23 27", the direct plate."""

    __pydantic_config__ = _CLOSED
    ratio: Count = 40
    plates: str = ""
    direct: Count | None = None


@made(frozen=True)
class MachineFile:
    """A machine file."""

    __pydantic_config__ = _CLOSED
    name: str
    kind: Kind
    system: System
    motor: Power
    spindle: Spindle
    title: str = ""
    efficiency: Annotated[float, AtLeast(0)] | None = None
    torque_limit: Torque | None = None
    centre_height: Length | None = None
    swing_over_bed: Length | None = None
    swing_over_cross_slide: Length | None = None
    swing_in_gap: Length | None = None
    between_centres: Length | None = None
    spindle_bore: Length | None = None
    spindle_length: Length | None = None
    compound_zero: Literal["none", "along the spindle axis", "across the spindle axis"] = "none"
    carriage: FeedLadder | None = None
    quill: FeedLadder | None = None
    table: RateLadder | None = None
    slides: dict[str, Slide] = field(default_factory=dict)
    chucks: list[Chuck] = field(default_factory=list)
    threading: Threading | None = None
    seconds: Change = field(default_factory=Change)
    hands: Hands = field(default_factory=Hands)
    tool_clearance: Length | None = None
    dividing: Dividing | None = None

    def __post_init__(self) -> None:
        if self.efficiency is not None and self.efficiency > 1:
            raise ValueError(f"efficiency must be at most 1, got {self.efficiency:g}")


def read(path: Path) -> MachineFile:
    """Read a machine file.

    Raises
    ------
    InputError
        Every mistake in the file at once.
    """
    return from_dict(load_toml(path), str(path))


def from_dict(data: Mapping[str, Any], name: str) -> MachineFile:
    """A machine from a dictionary shaped as a machine file."""
    refuse_large(data, name)
    try:
        machine = strict(MachineFile)(data)
    except (Irregular, ValueError):
        machine = _read_with_report(data, name)
    assert isinstance(machine, MachineFile)
    return machine


def _read_with_report(data: Any, name: str) -> MachineFile:
    from pydantic import TypeAdapter, ValidationError

    try:
        return TypeAdapter(MachineFile).validate_python(data)
    except ValidationError as error:
        raise InputError(name, from_pydantic(error, MachineFile, data)) from None
