"""A threaded tube in its base, or a turnbuckle: how far it may be wound out, its play, and what it bears there.

The question `adjuster` answers the whole of it.
"""

from __future__ import annotations

from typing import Any, Literal

from halfnut import _core
from halfnut.core.arrays import ArrayLike, NDArray, np, raise_first
from halfnut.core.pages import drawn
from halfnut.threads.figures import AdjusterEnd, AdjusterFigures, AdjusterState

__all__ = ["Adjuster"]


class Adjuster(AdjusterFigures):
    """An adjuster or turnbuckle. Lengths in mm, loads in N."""

    @property
    def ends(self) -> tuple[AdjusterEnd, ...]:
        """The one threaded end, or both."""
        return (self.first,) if self.second is None else (self.first, self.second)

    @property
    def rows(self) -> tuple[AdjusterState, AdjusterState, AdjusterState]:
        """The shortest, the middle and the longest safe length, each with its play and loads."""
        return self.shortest, self.half, self.longest

    def at(self, turns: ArrayLike, *, on_error: Literal["raise", "status"] = "raise") -> dict[str, NDArray[Any]]:
        """Columns of length, engagement, play and loads at some turns from the shortest safe length.

        Parameters
        ----------
        turns : array_like
            From 0 to `turns` of the figures.
        on_error : {"raise", "status"}
            Raise at the first turn outside the safe range, or give NaN and a status other than 0 there.

        Returns
        -------
        dict of ndarray
            A column a figure, the weakest elements by name, and ``status``.
        """
        values = np.asarray(turns, dtype=np.float64).ravel()
        rows = [_core.adjuster_at(self._held, each) for each in values.tolist()]
        if on_error == "raise":
            raise_first([why if status else "" for _, status, why in rows], "elements")
        names = _core.adjuster_at(self._held, 0.0)[0]
        out: dict[str, NDArray[Any]] = {name: np.array([figures[name] for figures, *_ in rows]) for name in names}
        return out | {"status": np.array([status for _, status, _ in rows], dtype=np.uint8)}

    def to_dict(self) -> dict[str, Any]:
        """The adjuster as a flat dictionary with unit-suffixed keys.

        An end's keys begin with first_ or second_, those of a length with shortest_, half_ or longest_.
        """
        out = {key: value for key, value in super().to_dict().items() if not isinstance(value, dict)}
        out.pop("second", None)
        for name, end in zip(("first", "second"), self.ends, strict=False):
            figures = {key: value for key, value in end.to_dict().items() if not isinstance(value, (dict, list))}
            out |= {f"{name}_{key}": value for key, value in figures.items()}
        for name, row in zip(("shortest", "half", "longest"), self.rows, strict=True):
            figures = {key: value for key, value in row.to_dict().items() if not isinstance(value, list)}
            out |= {f"at_{name}_length_mm": figures.pop("length_mm")}
            out |= {f"{name}_{key}": value for key, value in figures.items()}
        return out

    def page(self, title: str = "Adjuster", heading: str = "") -> str:
        """The bench page: one sheet of HTML that prints on A4 and Letter.

        Parameters
        ----------
        title, heading : str
            What it is called, and a line below that: number, revision, date.

        Returns
        -------
        str
            HTML.
        """
        page: str = drawn("adjuster_page", self, title=title, heading=heading)
        return page
