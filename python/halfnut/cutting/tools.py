"""Tools of the shop, by name: what the edge is made of, and what of its form is known."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from halfnut import _core
from halfnut._core import DomainError, Evidence, TableError, nearest_name
from halfnut.core.catalogue import active, rows

__all__ = ["Tool", "find_tool", "tool_names"]

_TABLE = "cutting/tools"
_FORM = (
    "diameter_mm",
    "teeth",
    "width_mm",
    "nose_radius_mm",
    "entering_deg",
    "rake_deg",
    "point_deg",
    "bar_diameter_mm",
    "stick_out_mm",
)


_ALSO = {"high speed steel": "hss", "cobalt": "cobalt hss"}


@dataclass(frozen=True)
class Tool:
    """A tool: its material and what is known of its form; a figure that its row does not give is absent.

    Attributes
    ----------
    form : dict
        Figures of its row by their keys, such as ``nose_radius_mm``.
    assumed : str
        What to say where nobody named a tool; empty where somebody did.
    """

    id: str
    name: str
    material: str
    form: dict[str, float]
    assumed: str
    evidence: tuple[Evidence, ...] = field(repr=False)


def find_tool(name: str | None) -> Tool:
    """The tool of a name or an id in the table "cutting/tools"; plain high-speed steel where none is given.

    Raises
    ------
    TableError
        The shop's row of that tool cannot be used; the message gives every mistake in it.
    DomainError
        No such tool; the message offers the nearest and lists those there are.

    >>> find_tool("coated carbide").material
    'carbide_coated'
    """
    if name is not None and not isinstance(name, str):
        raise DomainError(f"tool must be text, got {name!r}")
    said = _plain("hss" if name is None else name)
    wanted = _ALSO.get(said, said)
    table = rows(_TABLE)
    for refused, _, names, _, why in active().refused():
        if refused == _TABLE and wanted in map(_plain, names):
            raise TableError(why)
    place = next((n for n, row in enumerate(table) if wanted in {_plain(row["id"]), _plain(row["name"])}), None)
    if place is None:
        known = tool_names()
        nearest = nearest_name(str(name), known)
        hint = f"; did you mean {nearest!r}?" if nearest else ""
        raise DomainError(f"tool must be one of {', '.join(map(repr, known))}, got {name!r}{hint}")
    row = table[place]
    form: dict[str, Any] = {key: float(row[key]) for key in _FORM if row[key] is not None}
    told = bool(form) or row["source"]["kind"] == "shop"
    return Tool(
        id=row["id"],
        name=row["name"],
        material=row["tool_material"],
        form=form,
        assumed=f"{row['name']} tool" if name is None else "",
        evidence=tuple(_core.tool_evidence(place, active())) if told else (),
    )


def tool_names() -> list[str]:
    """Names of the tools that there are."""
    return [row["name"] for row in rows(_TABLE)]


def _plain(name: str) -> str:
    return " ".join(name.strip().lower().replace("_", " ").replace("-", " ").split())
