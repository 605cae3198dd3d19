"""What details and papers show: every text already formatted, so that the templates only lay it out."""

from __future__ import annotations

from dataclasses import dataclass

from halfnut.core.record import Rank

__all__ = [
    "Details",
    "Drawing",
    "JointView",
    "PaperTable",
    "PartDetails",
    "PlanRow",
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
    kind: str = ""
    """What it is a picture of, the same for pictures that show the same."""
    narrow: bool = False


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
    pairs: tuple[tuple[str, str], ...]
    """How the stock is cut up, how long a piece and the lot take."""
    cuts: Table
    tables: tuple[Table, ...]
    drawings: tuple[Drawing, ...]
    remarks: tuple[tuple[str, str], ...]
    """Numbers of the operations, and what is said of them."""
    cautions: tuple[Told, ...]
    stock_error: str = ""
    threaded: bool = False
    joints: tuple[JointView, ...] = ()


@dataclass(frozen=True)
class Details:
    """The details of a job: its coatings, a section a part, and once what all figures rest on."""

    coatings: tuple[tuple[str, str], ...]
    parts: tuple[PartDetails, ...]
    sources: tuple[tuple[str, tuple[tuple[str, str], ...]], ...]
    """By their kind: citations, each with the figures that rest on it."""


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
