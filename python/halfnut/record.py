"""The common face of level-2 results: immutable, printable, and able to say what they rest on."""

from __future__ import annotations

import html
from dataclasses import dataclass
from typing import Any

from halfnut._core import Evidence
from halfnut.text import shown

__all__ = ["Caution", "Evidence", "Record"]


@dataclass(frozen=True)
class Caution:
    """A warning that goes with a result: its code, and the words a person reads."""

    code: str
    text: str

    def __str__(self) -> str:
        return self.text


class Record:
    """A level-2 result. Subclasses are frozen dataclasses without a repr; they set `cautions` and `evidence`."""

    cautions: tuple[Caution, ...]
    evidence: tuple[Evidence, ...]

    def to_dict(self) -> dict[str, Any]:
        """The result as a flat dictionary with unit-suffixed keys."""
        return self._fields()

    def _fields(self, *left_out: str) -> dict[str, Any]:
        """The fields by name, without cautions, evidence and those that are left out."""
        return {key: value for key, value in self.__dict__.items() if key not in {"cautions", "evidence", *left_out}}

    def lines(self) -> list[str]:
        """The result as lines for a terminal: the answer first, then what it rests on, limits, cautions."""
        raise NotImplementedError

    def __str__(self) -> str:
        return "\n".join(self.lines())

    def __repr__(self) -> str:
        return f"<{type(self).__name__} {self.lines()[0]}>"

    def _repr_html_(self) -> str:
        first, *rest = map(shown, self.lines())
        body = "\n".join(html.escape(line) for line in rest)
        return (
            '<div style="font-family:inherit;color:inherit">'
            f"<p><strong>{html.escape(first)}</strong></p>"
            f'<pre style="background:none;color:inherit">{body}</pre></div>'
        )
