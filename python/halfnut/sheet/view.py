"""What a sheet shows: every text already formatted, so that the templates only lay it out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from halfnut.core.record import Rank

__all__ = [
    "Drawing",
    "JointView",
    "Levers",
    "OperationView",
    "PartView",
    "PlanView",
    "SetupView",
    "SheetRow",
    "Table",
    "TitleBlock",
    "Told",
]


@dataclass(frozen=True)
class Told:
    """A danger, caution or note as a sheet tells it."""

    rank: Rank
    label: str
    text: str


@dataclass(frozen=True)
class TitleBlock:
    """The data fields of a title block by ISO 7200."""

    title: str
    supplementary: str
    document_type: str
    identification: str = ""
    revision: str = ""
    date: str = ""
    owner: str = ""
    created_by: str = ""
    approved_by: str = ""
    sheet: str = "1 / 1"
    language: str = "en"

    @classmethod
    def of(cls, given: Mapping[str, str], *, title: str, document_type: str, supplementary: str = "") -> TitleBlock:
        """The block of a page that stands alone: what is given, else what is usual for the page."""
        usual = {"title": title, "document_type": document_type, "supplementary": supplementary}
        return cls(**usual | {name: text for name, text in given.items() if text})


@dataclass(frozen=True)
class Levers:
    """A group of levers, knobs or belts: what they give, and where each stands."""

    label: str
    gives: str
    positions: tuple[tuple[str, str], ...]
    stop: bool = False
    """Whether the spindle must stand still to set them."""


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
    """One operation as the sheet shows it."""

    number: int
    anchor: str
    heading: str
    size: str
    with_what: str = ""
    levers: tuple[Levers, ...] = ()
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
    machine: str
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
class PartView:
    """A part's sheet."""

    block: TitleBlock
    file: str
    stock: tuple[tuple[str, str], ...]
    setups: tuple[SetupView, ...]
    totals: tuple[tuple[str, str], ...]
    sources: tuple[tuple[str, str, str], ...] = ()
    """What figures rest on: the figures, the citation, and of what kind it is."""
    failed: int = 0
    remarks: tuple[str, ...] = ()
    stock_error: str = ""
    hazards: tuple[Told, ...] = ()
    threaded: bool = False
    joints: tuple[JointView, ...] = ()


@dataclass(frozen=True)
class SheetRow:
    """A part in the list that a bundle opens with."""

    file: str
    title: str
    number: str
    quantity: str
    material: str
    time: str
    note: str


@dataclass(frozen=True)
class PlanView:
    """The page that a bundle opens with."""

    block: TitleBlock
    parts: tuple[PartView, ...]
    rows: tuple[SheetRow, ...]
    totals: tuple[tuple[str, str], ...] = ()
