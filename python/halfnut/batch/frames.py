"""Tables of every common kind as columns and back: mappings of arrays, pandas, Arrow, polars.

Columns are seen in place where the table holds them as plain numbers; what is copied is said beside each reader. The
libraries themselves are imported only where a table of theirs is given.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import wraps
from typing import Any, Concatenate, ParamSpec, Protocol, TypeAlias, TypeVar, cast, overload

import numpy as np
from numpy.typing import ArrayLike, NDArray

from halfnut._core import DomainError, code_texts
from halfnut.core.arguments import checked
from halfnut.core.carriers import carried_units, numbers_column
from halfnut.core.extras import optional

__all__ = [
    "ArrowStream",
    "BatchOf",
    "Frame",
    "FrameLike",
    "SameFrame",
    "TableLike",
    "batch_of",
    "open_frame",
    "spelled_out",
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

    def __arrow_c_stream__(self, requested_schema: Any = None) -> Any:
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
    def call(*given: Any, **named: Any) -> Any:
        return asked(*([named.pop("frame")] if "frame" in named else []), *given, **named)

    return cast("BatchOf[P]", call)


class Frame(Protocol):
    """Columns of a table, and a table of the same kind made of other columns."""

    rows: int

    def names(self) -> list[str]:
        """Names of the columns."""

    def column(self, name: str) -> Any:
        """A column as the table holds it."""

    def numbers(self, name: str, unit: str = "") -> NDArray[np.float64]:
        """A column of numbers, contiguous; NaN where there is none. A unit that it carries is converted to this one."""

    def texts(self, name: str) -> Codes:
        """A column of texts as places in a list of the distinct ones; -1 where there is none."""

    def give(self, columns: Mapping[str, NDArray[Any]]) -> Any:
        """A table of the same kind."""


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
    home = type(frame).__module__.partition(".")[0]
    name = type(frame).__name__
    if home == "pandas" and name == "DataFrame":
        return _Pandas(frame)
    if home == "pyarrow" and name in ("Table", "RecordBatch"):
        return _Arrow(frame)
    if home == "polars" and name == "DataFrame":
        return _Polars(frame)
    if home == "polars" and name == "LazyFrame":
        raise DomainError("a lazy frame has no rows yet: collect() it, or map its batches")
    if isinstance(frame, Mapping):
        return _Columns(frame)
    if hasattr(frame, "__arrow_c_stream__"):
        pyarrow = optional("pyarrow", "arrow")

        return _Arrow(pyarrow.table(frame))
    raise DomainError(
        f"a batch is a mapping of columns, a pandas, Arrow or polars table, or an Arrow stream; got {name}"
    )


def spelled_out(text: str) -> str:
    r"""A text that can be written anywhere: half of a surrogate pair by its escape.

    >>> spelled_out("M10"), spelled_out("M10" + chr(0xDCFF))
    ('M10', 'M10\\udcff')
    """
    return text.encode("utf-8", "backslashreplace").decode("utf-8")


def _coded(values: Any, name: str) -> Codes:
    """Texts by their distinct ones, in the order in which they come."""
    if isinstance(values, np.ndarray):
        if values.ndim != 1:
            raise DomainError(f"column {name!r} must have one dimension, has {values.ndim}")
        if values.dtype.kind == "U":
            return code_texts(np.ascontiguousarray(values, values.dtype.newbyteorder("=")))
        values = values.tolist()
    return code_texts(values)


def _rows_of(column: Any, name: str) -> int:
    try:
        return 0 if isinstance(column, str) else len(column)
    except TypeError:
        raise DomainError(f"column {name!r} must be an array or a sequence, got {column!r}") from None


class _Columns:
    """A mapping of arrays or sequences. Contiguous arrays of doubles are seen in place."""

    def __init__(self, frame: Mapping[str, Any]):
        self._frame = {str(name): column for name, column in frame.items()}
        lengths = {name: _rows_of(column, name) for name, column in self._frame.items()}
        if len(set(lengths.values())) > 1:
            raise DomainError(f"columns have different lengths: {lengths}")
        self.rows = next(iter(lengths.values()), 0)

    def names(self) -> list[str]:
        return list(self._frame)

    def column(self, name: str) -> Any:
        return self._frame[name]

    def numbers(self, name: str, unit: str = "") -> NDArray[np.float64]:
        return numbers_column(self._frame[name], unit, f"column {name!r}")

    def texts(self, name: str) -> Codes:
        values = self._frame[name]
        if type(values).__module__.partition(".")[0] == "pyarrow":
            return _arrow_texts(values)
        return _coded(values, name)

    def give(self, columns: Mapping[str, NDArray[Any]]) -> dict[str, NDArray[Any]]:
        return dict(columns)


class _Pandas:
    """A pandas frame. Columns of doubles are seen in place; others are converted, categories keep their codes."""

    def __init__(self, frame: Any):
        self._frame = frame
        self.rows = len(frame)
        twice = frame.columns[frame.columns.duplicated()]
        if len(twice) > 0:
            raise DomainError(f"column {str(twice[0])!r} is there twice")

    def names(self) -> list[str]:
        return [str(name) for name in self._frame.columns]

    def column(self, name: str) -> Any:
        return self._frame[name]

    def numbers(self, name: str, unit: str = "") -> NDArray[np.float64]:
        column = self._frame[name]
        if column.dtype == np.float64:
            return np.ascontiguousarray(column.to_numpy())
        if carried_units(column):
            return numbers_column(column, unit, f"column {name!r}")
        try:
            return np.ascontiguousarray(column.to_numpy(dtype=np.float64, na_value=np.nan))
        except (TypeError, ValueError) as error:
            raise DomainError(f"column {name!r} must hold numbers: {error}") from None

    def texts(self, name: str) -> Codes:
        column = self._frame[name]
        categories = getattr(column.dtype, "categories", None)
        if categories is not None:
            return column.cat.codes.to_numpy(dtype=np.int32), [spelled_out(str(text)) for text in categories]
        codes, found = column.factorize()
        return codes.astype(np.int32), [spelled_out(str(text)) for text in found]

    def give(self, columns: Mapping[str, NDArray[Any]]) -> Any:
        pandas = optional("pandas", "pandas")

        return pandas.DataFrame(dict(columns), index=self._frame.index, copy=False)


def _arrow_texts(column: Any) -> Codes:
    pyarrow = optional("pyarrow", "arrow")

    if not pyarrow.types.is_dictionary(column.type):
        column = column.cast(pyarrow.large_string()).dictionary_encode()
    if isinstance(column, pyarrow.ChunkedArray):
        column = column.unify_dictionaries().combine_chunks()
        if isinstance(column, pyarrow.ChunkedArray):
            column = column.chunk(0) if column.num_chunks else pyarrow.array([], column.type)
    codes = column.indices.cast(pyarrow.int32()).fill_null(-1).to_numpy(zero_copy_only=False)
    return np.ascontiguousarray(codes), [str(text) for text in column.dictionary.to_pylist()]


class _Arrow:
    """An Arrow table or batch. A column of doubles in one piece without gaps is seen in place."""

    def __init__(self, frame: Any):
        self._frame = frame
        self.rows = frame.num_rows

    def names(self) -> list[str]:
        return list(self._frame.schema.names)

    def column(self, name: str) -> Any:
        return self._frame.column(name)

    def numbers(self, name: str, unit: str = "") -> NDArray[np.float64]:
        pyarrow = optional("pyarrow", "arrow")

        column = self._frame.column(name)
        try:
            column = column.cast(pyarrow.float64())
        except pyarrow.ArrowInvalid as error:
            raise DomainError(f"column {name!r} must hold numbers: {error}") from None
        if isinstance(column, pyarrow.ChunkedArray):
            column = column.chunk(0) if column.num_chunks == 1 else column.combine_chunks()
            if isinstance(column, pyarrow.ChunkedArray):
                return np.concatenate([_arrow_numbers(piece) for piece in column.chunks] or [np.empty(0)])
        return _arrow_numbers(column)

    def texts(self, name: str) -> Codes:
        return _arrow_texts(self._frame.column(name))

    def give(self, columns: Mapping[str, NDArray[Any]]) -> Any:
        pyarrow = optional("pyarrow", "arrow")

        arrays = {name: pyarrow.array(column) for name, column in columns.items()}
        if isinstance(self._frame, pyarrow.RecordBatch):
            return pyarrow.RecordBatch.from_pydict(arrays)
        return pyarrow.table(arrays)


def _arrow_numbers(array: Any) -> NDArray[np.float64]:
    if array.null_count:
        array = array.fill_null(float("nan"))
    out: NDArray[np.float64] = array.to_numpy(zero_copy_only=True)
    return out


class _Polars:
    """A polars frame. A column of doubles in one piece without gaps is seen in place."""

    def __init__(self, frame: Any):
        self._frame = frame
        self.rows = frame.height

    def names(self) -> list[str]:
        return list(self._frame.columns)

    def column(self, name: str) -> Any:
        return self._frame.get_column(name)

    def numbers(self, name: str, unit: str = "") -> NDArray[np.float64]:
        polars = optional("polars", "polars")

        column = self._frame.get_column(name)
        try:
            column = column.cast(polars.Float64)
        except polars.exceptions.PolarsError as error:
            raise DomainError(f"column {name!r} must hold numbers: {error}") from None
        if column.null_count():
            column = column.fill_null(float("nan"))
        return np.ascontiguousarray(column.to_numpy())

    def texts(self, name: str) -> Codes:
        polars = optional("polars", "polars")

        column = self._frame.get_column(name).cast(polars.String)
        found = column.drop_nulls().unique(maintain_order=True)
        places = polars.int_range(len(found), dtype=polars.Int32, eager=True)
        codes = column.replace_strict(found, places, default=-1, return_dtype=polars.Int32)
        return np.ascontiguousarray(codes.fill_null(-1).to_numpy()), found.to_list()

    def give(self, columns: Mapping[str, NDArray[Any]]) -> Any:
        polars = optional("polars", "polars")

        return polars.DataFrame(dict(columns))
