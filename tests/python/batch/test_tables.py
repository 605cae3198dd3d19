"""Batches over tables of every kind: the same answers, the same kind back, in place where that can be."""

import numpy as np
import pandas as pd
import polars as pl
import pyarrow as pa
import pytest
from hypothesis import given
from hypothesis import strategies as st

import halfnut as hn
from halfnut import _core, batch
from halfnut.batch.frames import open_frame

ROWS = 500


def plain():
    random = np.random.default_rng(3)
    return {
        "alloy": random.choice(["6061-T6", "4140", "304"], ROWS).astype(object),
        "diameter_mm": random.uniform(5.0, 100.0, ROWS),
        "depth_mm": random.uniform(0.2, 2.0, ROWS),
        "feed_mm_rev": random.uniform(0.05, 0.3, ROWS),
    }


WANT = batch.turn(plain(), machine="gap-bed")
MAKE = {
    "pandas": lambda frame: pd.DataFrame(frame),
    "pandas categories": lambda frame: pd.DataFrame(frame).astype({"alloy": "category"}),
    "pandas of arrow": lambda frame: pd.DataFrame(frame).convert_dtypes(dtype_backend="pyarrow"),
    "arrow": lambda frame: pa.table(frame),
    "arrow in pieces": lambda frame: pa.concat_tables([pa.table(frame).slice(0, 200), pa.table(frame).slice(200)]),
    "arrow dictionary": lambda frame: pa.table(frame | {"alloy": pa.array(frame["alloy"]).dictionary_encode()}),
    "record batch": lambda frame: pa.RecordBatch.from_pydict(frame),
    "polars": lambda frame: pl.DataFrame(frame),
    "polars categories": lambda frame: pl.DataFrame(frame).with_columns(pl.col("alloy").cast(pl.Categorical)),
}


@pytest.mark.parametrize("kind", MAKE)
def test_every_kind_gives_the_same_answers_in_its_kind(kind):
    frame = MAKE[kind](plain())
    done = batch.turn(frame, machine="gap-bed")
    assert type(done) is type(frame)
    found = open_frame(done)
    assert found.names() == list(WANT)
    for name, column in WANT.items():
        assert np.array_equal(found.numbers(name), column.astype(float), equal_nan=True), name


def test_pandas_keeps_its_index():
    frame = pd.DataFrame(plain(), index=[f"job {k}" for k in range(ROWS)])
    assert list(batch.turn(frame, machine="gap-bed").index) == list(frame.index)


@pytest.mark.parametrize("kind", ["pandas", "arrow", "record batch", "polars"])
def test_columns_of_doubles_are_seen_in_place(kind):
    frame = MAKE[kind](plain())
    column = {
        "pandas": lambda: frame["diameter_mm"].to_numpy(),
        "arrow": lambda: frame.column("diameter_mm").chunk(0).to_numpy(),
        "record batch": lambda: frame.column("diameter_mm").to_numpy(),
        "polars": lambda: frame.get_column("diameter_mm").to_numpy(),
    }[kind]()
    assert np.shares_memory(open_frame(frame).numbers("diameter_mm"), column)


def test_a_mapping_of_arrays_is_seen_in_place():
    frame = plain()
    assert np.shares_memory(open_frame(frame).numbers("depth_mm"), frame["depth_mm"])


@pytest.mark.parametrize("kind", ["arrow", "record batch", "pandas"])
def test_answers_are_not_copied_into_the_table(kind):
    columns = {"cutting_force_n": np.arange(5.0)}
    made = open_frame(MAKE[kind]({"diameter_mm": np.arange(5.0), "alloy": ["x"] * 5})).give(columns)
    assert np.shares_memory(open_frame(made).numbers("cutting_force_n"), columns["cutting_force_n"])


class Stream:
    """Only an Arrow stream, of no library known here."""

    def __init__(self, table):
        self._table = table

    def __arrow_c_stream__(self, requested_schema=None):
        return self._table.__arrow_c_stream__(requested_schema)


def test_any_arrow_stream_is_taken():
    done = batch.turn(Stream(pa.table(plain())), machine="gap-bed")
    assert isinstance(done, pa.Table)
    assert done.column("status").to_numpy().sum() == WANT["status"].sum()


def test_gaps_are_not_given():
    missing = [30.0, None, 20.0]
    for frame in (
        pa.table({"diameter_mm": missing}),
        pl.DataFrame({"diameter_mm": missing}),
        pd.DataFrame({"diameter_mm": missing}),
        pd.DataFrame({"diameter_mm": missing}).convert_dtypes(),
        {"diameter_mm": missing},
    ):
        assert open_frame(batch.turn(frame, alloy="1018")).numbers("status").tolist() == [0.0, 1.0, 0.0]
    names = ["1018", None, "304"]
    for frame in (
        pa.table({"alloy": names, "diameter_mm": [20.0] * 3}),
        pl.DataFrame({"alloy": names, "diameter_mm": [20.0] * 3}),
        pd.DataFrame({"alloy": names, "diameter_mm": [20.0] * 3}),
    ):
        assert open_frame(batch.turn(frame)).numbers("status").tolist() == [0.0, 4.0, 0.0]


def test_whole_numbers_and_empty_tables():
    for frame in (pa.table({"diameter_mm": pa.array([20, 30], pa.int16())}), pl.DataFrame({"diameter_mm": [20, 30]})):
        assert open_frame(batch.turn(frame, alloy="1018")).numbers("status").tolist() == [0.0, 0.0]
    for frame in (
        pa.table({"alloy": pa.array([], pa.string()), "diameter_mm": pa.array([], pa.float64())}),
        pl.DataFrame({"alloy": [], "diameter_mm": []}, schema={"alloy": pl.String, "diameter_mm": pl.Float64}),
        pd.DataFrame({"alloy": [], "diameter_mm": []}),
    ):
        assert open_frame(batch.turn(frame)).rows == 0


@pytest.mark.parametrize("kind", ["pandas", "arrow", "polars"])
def test_columns_that_are_no_numbers_are_named(kind):
    frame = MAKE[kind]({"diameter_mm": ["wide"], "alloy": ["1018"]})
    with pytest.raises(hn.DomainError, match="column 'diameter_mm' must hold numbers"):
        batch.turn(frame)


def test_a_lazy_frame_says_what_to_do():
    with pytest.raises(hn.DomainError, match="collect"):
        batch.turn(pl.DataFrame({"diameter_mm": [20.0]}).lazy(), alloy="1018")


def test_threads_of_every_kind():
    texts = ["M10-6g", "1/4-20 UNC-2A", "M10-6g", None]
    want = batch.limits({"thread": texts})
    for frame in (pd.DataFrame({"thread": texts}), pa.table({"thread": texts}), pl.DataFrame({"thread": texts})):
        done = batch.limits(frame)
        assert type(done) is type(frame)
        assert np.array_equal(open_frame(done).numbers("pitch_max_mm"), want["pitch_max_mm"], equal_nan=True)
        codes, names = open_frame(done).texts("unit")
        assert [names[code] for code in codes] == want["unit"].tolist()


def test_arrow_batches_one_after_the_other():
    """Any engine that hands out Arrow batches can hand them to the same function."""
    table = pa.table(plain())
    pieces = [batch.turn(piece, machine="gap-bed") for piece in table.to_batches(max_chunksize=128)]
    whole = pa.Table.from_batches(pieces)
    assert len(pieces) == 4
    for name, column in WANT.items():
        got = whole.column(name).to_numpy()
        assert np.array_equal(got, column, equal_nan=column.dtype.kind == "f"), name


def test_dask_on_a_local_cluster():
    from dask import dataframe
    from distributed import Client, LocalCluster

    frame = pd.DataFrame(plain())
    columns = ["spindle_rpm", "cutting_force_n", "case_id", "status", "reason"]
    with (
        LocalCluster(n_workers=2, threads_per_worker=1, processes=False, dashboard_address=None) as cluster,
        Client(cluster) as client,
    ):
        pieces = dataframe.from_pandas(frame, npartitions=4)
        declared = batch.meta("turn", columns=columns)
        done = pieces.map_partitions(batch.turn, machine="gap-bed", columns=columns, workers=1, meta=declared)
        assert list(done.columns) == columns
        assert done.dtypes.equals(declared.dtypes)
        answers = client.compute(done, sync=True)
    assert answers.dtypes.equals(declared.dtypes)
    for name in columns:
        assert np.array_equal(answers[name].to_numpy(), WANT[name], equal_nan=WANT[name].dtype.kind == "f"), name


@pytest.mark.parametrize("kind", ["turn", "drill", "mill", "limits", "fit", "wires", "taper_pipe", "knurl_blank"])
def test_meta_is_what_comes(kind):
    asked, options = {
        "turn": ({"diameter_mm": [10.0], "depth_mm": [1.0]}, {"alloy": "1018"}),
        "drill": ({"diameter_mm": [10.0], "depth_mm": [1.0]}, {"alloy": "1018"}),
        "mill": (
            {"cutter_diameter_mm": [10.0], "depth_mm": [1.0], "width_mm": [1.0], "flutes": [4.0]},
            {"alloy": "1018"},
        ),
        "limits": ({"thread": ["Tr40x7-7e"]}, {}),
        "fit": ({"external": ["Tr40x7"], "internal": ["Tr40x7"]}, {}),
        "wires": ({"thread": ["Tr40x7"]}, {}),
        "taper_pipe": ({"thread": ["R1/2"]}, {}),
        "knurl_blank": ({"diameter_mm": [10.0]}, {"pitch": "96 DP", "pattern": "straight"}),
    }[kind]
    done = getattr(batch, kind)(pd.DataFrame(asked), **options)
    declared = batch.meta(kind)
    assert done.dtypes.equals(declared.dtypes)
    assert list(done.columns) == list(declared.columns)
    assert len(declared) == 0


@given(
    st.lists(
        st.one_of(
            st.none(), st.floats(), st.sampled_from(["6061-T6", "4130", "", "Ti é", "\ud800", "a" * 40]), st.text()
        )
    )
)
def test_texts_are_coded_in_the_order_in_which_they_come(values: list) -> None:
    codes, found = _core.code_texts(values)
    known: dict[str, int] = {}
    wanted = [known.setdefault(value, len(known)) if isinstance(value, str) else -1 for value in values]
    assert codes.tolist() == wanted
    # half of a surrogate pair comes back spelled out
    assert found == [text.encode("utf-8", "backslashreplace").decode() for text in known]


@given(st.lists(st.sampled_from(["6061-T6", "4130", "", "Ti é", "a" * 40])))
def test_arrays_of_texts_are_coded_like_lists(values: list[str]) -> None:
    plain = open_frame({"alloy": values}).texts("alloy")
    array = np.array(values, "U40")
    spread = np.array([[value, "x"] for value in values], "U40").reshape(-1, 2)[:, 0]
    for column in (array, array.astype(">U40"), spread, array.astype(object), tuple(values)):
        codes, found = open_frame({"alloy": column}).texts("alloy")
        assert codes.tolist() == plain[0].tolist()
        assert found == plain[1]


def test_a_table_of_texts_is_no_column() -> None:
    with pytest.raises(hn.Error, match="'alloy' must have one dimension, has 2"):
        open_frame({"alloy": np.array([["4130"], ["4130"]])}).texts("alloy")
