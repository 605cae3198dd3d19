"""What details and papers show: every text already formatted, so that the templates only lay it out."""

from __future__ import annotations

from dataclasses import dataclass

from halfnut.core.record import Rank

__all__ = [
    "Details",
    "Drawing",
    "JointView",
    "OperationView",
    "PaperTable",
    "PartDetails",
    "PlanRow",
    "SetupView",
    "Table",
    "Told",
]


@dataclass(frozen=True)
class Told:
    """A danger, caution or note as a sheet tells it."""

    rank: Rank
    label: str
    text: str


@dataclass(frozen=True)
class Table:
    """A small table: its heads, its rows, and which columns are left empty to write in."""

    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    write: tuple[str, ...] = ()


@dataclass(frozen=True)
class Drawing:
    """A picture as a data address, and the words for who cannot see it."""

    address: str
    words: str


@dataclass(frozen=True)
class OperationView:
    """One operation as the details show it."""

    number: int
    heading: str
    size: str
    with_what: str = ""
    tables: tuple[Table, ...] = ()
    drawing: Drawing | None = None
    gears: Drawing | None = None
    figures: tuple[tuple[str, str], ...] = ()
    steps: tuple[str, ...] = ()
    """What to do, in order."""
    remarks: tuple[str, ...] = ()
    cautions: tuple[Told, ...] = ()
    error: str = ""


@dataclass(frozen=True)
class SetupView:
    """Operations done at one machine in one holding of the work."""

    heading: str
    operations: tuple[OperationView, ...]


@dataclass(frozen=True)
class JointView:
    """What a threaded joint of the part holds."""

    heading: str
    pairs: tuple[tuple[str, str], ...] = ()
    remarks: tuple[str, ...] = ()
    cautions: tuple[Told, ...] = ()
    error: str = ""


@dataclass(frozen=True)
class PartDetails:
    """What the cards of a part leave out."""

    title: str
    number: str
    stock: tuple[tuple[str, str], ...]
    setups: tuple[SetupView, ...]
    totals: tuple[tuple[str, str], ...]
    stock_error: str = ""
    hazards: tuple[Told, ...] = ()
    threaded: bool = False
    joints: tuple[JointView, ...] = ()


@dataclass(frozen=True)
class Details:
    """The details of a job: a section a part, and once what all figures rest on: figures, citation, kind."""

    parts: tuple[PartDetails, ...]
    sources: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True)
class PlanRow:
    """A part in the list that a folder opens with."""

    file: str
    title: str
    number: str
    quantity: str
    material: str
    time: str
    note: str
    wound: str = ""
    """File of the page that says how far it may be wound out."""
    wound_error: str = ""


@dataclass(frozen=True)
class PaperTable:
    """A paper of a job: a table, whose empty cells are there to write in."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
