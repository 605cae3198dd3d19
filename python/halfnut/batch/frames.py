"""Tables of every common kind as columns and back: mappings of arrays, pandas, Arrow, polars.

Columns are seen in place where the table holds them as plain numbers; what is copied is said beside each reader. The
libraries themselves, and narwhals, which knows them all, are imported only where a table of theirs is given.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sized
from functools import wraps
from typing import TYPE_CHECKING, Any, Concatenate, ParamSpec, Protocol, TypeAlias, TypeVar, cast, overload

import numpy as np
from numpy.typing import ArrayLike, NDArray

from halfnut._core import DomainError, code_texts
from halfnut.core.arguments import checked
from halfnut.core.carriers import carried_units, numbers_column
from halfnut.core.extras import optional

if TYPE_CHECKING:
    import narwhals.stable.v2 as nw

__all__ = [
    "ArrowStream",
    "FrameLike",
    "SameFrame",
    "TableLike",
]

Codes = tuple[NDArray[np.int32], list[str]]
P = ParamSpec("P")


class TableLike(Protocol):
    """A table of pandas, Arrow or polars."""

    @property
    def columns(self) -> Any:
        """Its columns."""


class ArrowStream(Protocol):
    """What exports itself as an Arrow stream."""

    def __arrow_c_stream__(self, requested_schema: object = None) -> Any:
        """The stream."""


FrameLike: TypeAlias = Mapping[str, ArrayLike] | TableLike | ArrowStream
SameFrame = TypeVar("SameFrame", bound=TableLike)


class BatchOf(Protocol[P]):
    """A function of a table: a mapping of columns gives arrays by their names, a frame gives a frame of its kind."""

    @overload
    def __call__(
        self, frame: Mapping[str, ArrayLike], /, *args: P.args, **kwargs: P.kwargs
    ) -> dict[str, NDArray[Any]]: ...
    @overload
    def __call__(self, frame: SameFrame, /, *args: P.args, **kwargs: P.kwargs) -> SameFrame: ...
    @overload
    def __call__(self, frame: ArrowStream, /, *args: P.args, **kwargs: P.kwargs) -> TableLike: ...


def batch_of(function: Callable[Concatenate[FrameLike, P], Any]) -> BatchOf[P]:
    """A batch whose arguments are `checked`, with the types that callers see; `frame` may be given by its name."""
    asked: Callable[..., Any] = checked(function)

    @wraps(function)
    def call(*given: object, **named: object) -> Any:
        return asked(*([named.pop("frame")] if "frame" in named else []), *given, **named)

    return cast("BatchOf[P]", call)


def open_frame(frame: FrameLike) -> Frame:
    """See a table as columns.

    Parameters
    ----------
    frame : mapping of arrays, pandas.DataFrame, pyarrow.Table or RecordBatch, polars.DataFrame
        Or anything else that exports itself as an Arrow stream; that is answered with an Arrow table.

    Returns
    -------
    Frame
        Its columns.

    Raises
    ------
    DomainError
        Something else, or columns of different lengths.
    """
    if hasattr(frame, "collect") or hasattr(frame, "compute"):
        raise DomainError("a lazy frame has no rows yet: collect() it, or map its batches")
    if isinstance(frame, Mapping):
        return Frame(frame)
    home = type(frame).__module__.partition(".")[0]
    if hasattr(frame, "columns") and hasattr(frame, "shape") and home in ("pandas", "pyarrow", "polars"):
        return _Table(frame)
    if hasattr(frame, "__arrow_c_stream__"):
        return _Table(optional("pyarrow", "arrow").table(frame))
    raise DomainError(
        "a batch is a mapping of columns, a pandas, Arrow or polars table, or an Arrow stream; "
        f"got {type(frame).__name__}"
    )


def spelled_out(text: str) -> str:
    r"""A text that can be written anywhere: half of a surrogate pair by its escape.

    >>> spelled_out("M10"), spelled_out("M10" + chr(0xDCFF))
    ('M10', 'M10\\udcff')
    """
    return text.encode("utf-8", "backslashreplace").decode("utf-8")


def _coded(values: object, name: str) -> Codes:
    """Texts by their distinct ones, in the order in which they come."""
    if isinstance(values, np.ndarray):
        if values.ndim != 1:
            raise DomainError(f"column {name!r} must have one dimension, has {values.ndim}")
        if values.dtype.kind == "U":
            return code_texts(np.ascontiguousarray(values, values.dtype.newbyteorder("=")))
        values = values.tolist()
    return code_texts(values)


def _rows_of(column: object, name: str) -> int:
    try:
        return 0 if isinstance(column, str) else len(cast("Sized", column))
    except TypeError:
        raise DomainError(f"column {name!r} must be an array or a sequence, got {column!r}") from None


class Frame:
    """Columns of a table, and a table of the same kind made of other columns; here of a mapping of arrays or sequences.

    Contiguous arrays of doubles are seen in place.
    """

    def __init__(self, frame: Mapping[str, ArrayLike]):
        self._frame: Any = {str(name): column for name, column in frame.items()}
        lengths = {name: _rows_of(column, name) for name, column in self._frame.items()}
        if len(set(lengths.values())) > 1:
            raise DomainError(f"columns have different lengths: {lengths}")
        self.rows: int = next(iter(lengths.values()), 0)

    def names(self) -> list[str]:
        """Names of the columns."""
        return list(self._frame)

    def column(self, name: str) -> Any:
        """A column as the table holds it."""
        return self._frame[name]

    def numbers(self, name: str, unit: str = "") -> NDArray[np.float64]:
        """A column of numbers, contiguous; NaN where there is none. A unit that it carries is converted to this one."""
        return numbers_column(self._frame[name], unit, f"column {name!r}")

    def texts(self, name: str) -> Codes:
        """A column of texts as places in a list of the distinct ones; -1 where there is none."""
        values = self._frame[name]
        if type(values).__module__.partition(".")[0] == "pyarrow":
            return _texts_of(optional("narwhals.stable.v2", "arrow").from_native(values, series_only=True))
        return _coded(values, name)

    def give(self, columns: Mapping[str, NDArray[Any]]) -> Any:
        """A table of the same kind."""
        return dict(columns)


def _texts_of(column: nw.Series[Any]) -> Codes:
    """Texts of a library's column by their distinct ones, in the order in which they come."""
    if column.implementation.is_pandas():
        codes, found = column.to_native().factorize()
        return codes.astype(np.int32), [spelled_out(str(text)) for text in found]
    texts = column.cast(optional("narwhals.stable.v2", "arrow").String)
    known = texts.drop_nulls().unique(maintain_order=True).to_list()
    if not known:
        return np.full(len(texts), -1, np.int32), []
    places = texts.replace_strict(known, range(len(known)), default=None).fill_null(-1)
    return np.ascontiguousarray(places.to_numpy(), np.int32), known


class _Table(Frame):
    """A table of pandas, Arrow or polars. A column of doubles in one piece without gaps is seen in place."""

    def __init__(self, frame: TableLike | ArrowStream):
        self._native = cast("Any", frame)
        self._home = type(frame).__module__.partition(".")[0]
        self._library = optional("narwhals.stable.v2", self._home.replace("pyarrow", "arrow"))
        whole = type(frame).__name__ == "RecordBatch"
        names = list(map(str, self._native.schema.names if self._home == "pyarrow" else self._native.columns))
        for name in names:
            if names.count(name) > 1:
                raise DomainError(f"column {name!r} is there twice")
        table = optional("pyarrow", "arrow").Table.from_batches([frame]) if whole else frame
        self._frame = self._library.from_native(table, eager_only=True)
        self.rows = len(self._frame)

    def names(self) -> list[str]:
        return list(map(str, self._frame.columns))

    def column(self, name: str) -> Any:
        return self._frame[name].to_native()

    def numbers(self, name: str, unit: str = "") -> NDArray[np.float64]:
        column = self._frame[name]
        if column.dtype != self._library.Float64:
            if carried_units(column.to_native()):
                return numbers_column(column.to_native(), unit, f"column {name!r}")
            try:
                column = column.cast(self._library.Float64)
            except Exception as error:  # each library has its own
                raise DomainError(f"column {name!r} must hold numbers: {error}") from None
        if self._home != "pandas" and column.null_count():
            column = column.fill_null(float("nan"))
        return np.ascontiguousarray(column.to_numpy(), np.float64)

    def texts(self, name: str) -> Codes:
        return _texts_of(self._frame[name])

    def give(self, columns: Mapping[str, NDArray[Any]]) -> Any:
        kind: Any = type(self._native)
        if self._home == "pandas":
            return kind(dict(columns), index=self._native.index, copy=False)
        if self._home == "polars":
            return kind(
                {name: column.tolist() if column.dtype.hasobject else column for name, column in columns.items()}
            )
        array = optional("pyarrow", "arrow").array
        return kind.from_pydict({name: array(column) for name, column in columns.items()})
