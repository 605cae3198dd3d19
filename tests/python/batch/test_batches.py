"""Batches: each row is the scalar's answer, bit for bit; bad rows are marked; stopping leaves nothing half-written."""

import math
import threading
from functools import partial

import numpy as np
import pytest

import halfnut as hn
from halfnut import _core, batch, cutting
from halfnut.batch import asking, running
from halfnut.core.schemas import answer

MACHINE = "gap-bed"
ALLOYS = ["6061-T6", "7075-T6", "4130 normalised", "1018", "304", "AZ31B", "C36000", "nylon"]
ODD = [0.0, -1.0, math.nan, math.inf, -math.inf, 5e-324, 1e-310, 1e12, 1e300]
FIGURES = [name for name in _core.cut_figures() if not name.startswith(("tool_life", "hand_turns"))]
NUMBERS = {
    "diameter_mm": (3.0, 120.0, 0.0),
    "depth_mm": (0.1, 2.5, 0.1),
    "length_mm": (5.0, 200.0, 0.1),
    "feed_mm_rev": (0.02, 0.5, 0.3),
    "stick_out_mm": (10.0, 300.0, 0.1),
    "nose_radius_mm": (0.1, 1.2, 0.2),
    "entering_deg": (30.0, 110.0, 0.2),
    "rake_deg": (-10.0, 25.0, 0.5),
    "wear_factor": (1.0, 1.6, 0.5),
    "roughness_limit_um": (0.4, 6.0, 0.5),
    "deflection_limit_mm": (0.01, 0.2, 0.5),
    "bore_mm": (0.5, 15.0, 0.7),
    "hardness_hb": (60.0, 350.0, 0.98),
    "spindle_rpm": (60.0, 2000.0, 0.98),
}


def jobs(rows, seed=1, odd=0.01):
    random = np.random.default_rng(seed)
    frame = {"alloy": random.choice(ALLOYS, rows)}
    for name, (low, high, lacking) in NUMBERS.items():
        column = random.uniform(low, high, rows)
        column[random.random(rows) < lacking] = math.nan
        if odd:
            where = random.random(rows) < odd
            column[where] = random.choice(ODD, where.sum())
        frame[name] = column
    # work stands out as far as the cut is long and more
    known = np.isfinite(frame["length_mm"]) & (frame["length_mm"] > 0)
    frame["stick_out_mm"] = frame["stick_out_mm"] + np.where(known, frame["length_mm"], 0.0)
    return frame


def same(a, b):
    """Equal bits, or both not a number."""
    a, b = np.float64(a), np.float64(b)
    return (np.isnan(a) and np.isnan(b)) or a.tobytes() == b.tobytes()


def scalar(row, alloy, machine):
    """Answer one row by itself: figures by their keys, or the error."""
    numbers = {name: float(value) for name, value in row.items() if not math.isnan(value)}
    try:
        return answer({"question": "turn", "values": {"alloy": alloy, "machine": machine, **numbers}})
    except hn.Error as error:
        return error


def test_turning_is_the_scalar_row_by_row():
    frame = jobs(1500)
    answers = batch.turn(frame, machine=MACHINE, columns=[*FIGURES, "cautions", "spindle_step", "status"])
    codes = _core.caution_codes()
    failed = 0
    for row in range(1500):
        one = scalar({name: frame[name][row] for name in NUMBERS}, frame["alloy"][row], MACHINE)
        if isinstance(one, hn.Error):
            failed += 1
            assert answers["status"][row] != 0, one
            assert all(math.isnan(answers[name][row]) for name in FIGURES)
            continue
        assert answers["status"][row] == 0
        told = {
            {"slow_harms": "speed_below_window", "asked_too_fast": "above_window"}.get(each["code"], each["code"])
            for each in one["cautions"]
        }
        for name in FIGURES:
            value = one[name]
            assert same(answers[name][row], math.nan if value is None else value), (row, name)
        assert batch.cautions(answers["cautions"][row]) == [code for code in codes if code in told]
        assert answers["spindle_step"][row] == one["spindle_step"]
    assert 30 < failed < 300


def test_turning_is_level_2():
    chosen = {"alloy": ["6061-T6"], "diameter_mm": [32.0], "depth_mm": [1.0], "length_mm": [50.0]}
    one = hn.turn("6061-T6", "32 mm", depth="1 mm", length="50 mm", machine=MACHINE)
    done = batch.turn(chosen, machine=MACHINE)
    for name in ("spindle_rpm", "feed_mm_rev", "cutting_force_n", "spindle_power_kw", "torque_nm", "time_s"):
        assert same(done[name][0], getattr(one, name)), name
    assert done["spindle_step"][0] == one.spindle_step


def test_scalar_array_and_batch_share_their_formulas():
    """The figures of a batch are those of level 1, as a scalar and as an array, to the bit."""
    frame = {k: v for k, v in jobs(400, seed=3, odd=0.0).items() if k in ("alloy", "diameter_mm", "length_mm")}
    answers = batch.turn(frame, machine=MACHINE, depth_mm=1.0, nose_radius_mm=0.8)
    n, d = answers["spindle_rpm"], frame["diameter_mm"]
    force, speed = answers["cutting_force_n"], answers["cutting_speed_m_min"]
    for column, formula, given in [
        (speed, cutting.cutting_speed_m_min, (n, d)),
        (answers["spindle_power_kw"], cutting.cutting_power_kw, (force, speed)),
        (answers["torque_nm"], cutting.spindle_torque_nm, (force, d)),
        (answers["mrr_cm3_min"], cutting.turning_removal_cm3_min, (speed, answers["feed_mm_rev"], 1.0)),
        (answers["roughness_ra_um"], cutting.roughness_ra_um, (answers["feed_mm_rev"], 0.8)),
    ]:
        ok = answers["status"] == 0
        ok &= ~np.isnan(column)
        given = tuple(x[ok] if isinstance(x, np.ndarray) else x for x in given)
        whole = formula(*given)
        assert ok.sum() > 300
        assert whole.tobytes() == column[ok].tobytes(), formula
        for k in range(0, ok.sum(), 37):
            one = formula(*(float(x[k]) if isinstance(x, np.ndarray) else x for x in given))
            assert same(one, column[ok][k])


@pytest.mark.parametrize("workers", [1, 2, 5])
def test_the_number_of_workers_changes_nothing(workers):
    frame = jobs(40_000, seed=2)
    first = batch.turn(frame, machine=MACHINE, workers=1, clone="portable", columns=FIGURES)
    other = batch.turn(frame, machine=MACHINE, workers=workers, columns=FIGURES)
    for name in FIGURES:
        assert np.array_equal(first[name], other[name], equal_nan=True), name
    assert np.array_equal(first["status"], other["status"])


def test_a_hundred_thousand_mixed_jobs_with_one_in_a_hundred_broken():
    random = np.random.default_rng(9)
    rows = 100_000
    names = np.array(ALLOYS[:7], object)
    kind = random.choice(["turn", "drill", "mill"], rows, p=[0.9, 0.05, 0.05])
    frame = {
        "alloy": names[random.integers(0, 7, rows)],
        "diameter_mm": random.uniform(4.0, 20.0, rows),
        "depth_mm": random.uniform(0.3, 1.5, rows),
        "flutes": random.integers(2, 6, rows).astype(float),
        "length_mm": random.uniform(5.0, 100.0, rows),
        "width_mm": random.uniform(0.5, 3.0, rows),
    }
    broken = np.zeros(rows, bool)
    broken[random.choice(rows, rows // 100, replace=False)] = True
    how = random.integers(0, 4, rows)
    frame["diameter_mm"][broken & (how == 0)] = -3.0
    frame["depth_mm"][broken & (how == 1)] = math.inf
    frame["alloy"][broken & (how == 2)] = "unobtainium"
    frame["diameter_mm"][broken & (how == 3)] = math.nan
    answered = reasoned = 0
    for name in ("turn", "drill", "mill"):
        at = kind == name
        part = {key: column[at] for key, column in frame.items()}
        if name == "mill":
            part["cutter_diameter_mm"] = part.pop("diameter_mm")
        else:
            del part["flutes"]
        done = getattr(batch, name)(part, machine="bench-mill" if name == "mill" else MACHINE)
        ok = done["status"] == 0
        assert np.array_equal(ok, ~broken[at]), name
        assert np.isfinite(done["spindle_rpm"][ok]).all()
        assert np.isnan(done["spindle_rpm"][~ok]).all()
        why = batch.reasons(done, name)
        assert sorted(why) == np.flatnonzero(~ok).tolist()
        assert all(why.values())
        answered += ok.sum()
        reasoned += len(why)
    assert (answered, reasoned) == (99_000, 1_000)


def test_edges_of_shape_and_kind():
    empty = batch.turn({"alloy": [], "diameter_mm": []}, machine=MACHINE)
    assert len(empty["status"]) == 0
    assert batch.turn({"diameter_mm": [20.0]}, alloy="1018")["status"].tolist() == [0]
    wide = np.linspace(5.0, 50.0, 40)
    want = batch.turn({"diameter_mm": wide[::2].copy()}, alloy="1018", machine=MACHINE)
    fixed = wide[::2].copy()
    fixed.flags.writeable = False
    for given in (wide[::2], fixed, wide[::2].astype(">f8"), list(wide[::2]), np.ma.array(wide[::2])):
        got = batch.turn({"diameter_mm": given}, alloy="1018", machine=MACHINE)
        assert got["spindle_power_kw"].tobytes() == want["spindle_power_kw"].tobytes()
    whole = np.arange(5, 25)
    for dtype in (np.int32, np.uint8, np.float32, object):
        got = batch.turn({"diameter_mm": whole.astype(dtype)}, alloy="1018", machine=MACHINE)
        wanted = batch.turn({"diameter_mm": whole.astype(float)}, alloy="1018", machine=MACHINE)
        assert got["torque_nm"].tobytes() == wanted["torque_nm"].tobytes()
    masked = np.ma.array([10.0, 20.0], mask=[True, False])
    assert batch.turn({"diameter_mm": masked}, alloy="1018")["status"].tolist() == [1, 0]


def test_inches_are_the_same_lengths():
    inch = batch.turn(
        {"diameter_in": [1.25], "depth_in": [0.04], "feed_in_rev": [0.004]}, alloy="1018", machine=MACHINE
    )
    mm = batch.turn(
        {"diameter_mm": [1.25 * 25.4], "depth_mm": [0.04 * 25.4], "feed_mm_rev": [0.004 * 25.4]},
        alloy="1018",
        machine=MACHINE,
    )
    assert all(np.array_equal(inch[name], mm[name], equal_nan=True) for name in mm)
    assert same(inch["spindle_rpm"][0], hn.turn("1018", "1.25 in", depth="0.04 in", machine=MACHINE).spindle_rpm)


@pytest.mark.parametrize(
    ("frame", "words"),
    [
        ({"diameter": [20.0]}, "has no unit; call it 'diameter_mm' or 'diameter_in'"),
        ({"diameter_cm": [2.0]}, "has another unit; call it 'diameter_mm' or 'diameter_in'"),
        ({"diameter_mm": [20.0], "nose_raduis_mm": [0.4]}, "the nearest is 'nose_radius_mm'"),
        ({"diameter_mm": [20.0], "feed": [0.1]}, "call it 'feed_mm_rev' or 'feed_in_rev'"),
        ({"diameter_mm": [20.0], "diameter_in": [1.0]}, "both give diameter"),
        ({"depth_mm": [1.0]}, "a column 'diameter_mm' or 'diameter_in' is needed"),
        ({"diameter_mm": ["wide"]}, "column 'diameter_mm' must hold numbers"),
        ({"diameter_mm": [[1.0], [2.0]]}, "one dimension"),
        ({"diameter_mm": [20.0, 21.0], "depth_mm": [1.0]}, "different lengths"),
        ("a path.csv", "a batch is a mapping of columns"),
    ],
)
def test_a_table_that_is_not_understood_says_what_would_be(frame, words):
    with pytest.raises(hn.DomainError, match=words):
        batch.turn(frame, alloy="1018")


def test_keywords_that_are_not_understood():
    table = {"diameter_mm": [20.0]}
    for keywords, words in [
        ({"columns": ["spindle_rmp"]}, "the nearest is 'spindle_rpm'"),
        ({"columns": "most"}, "a list of names or 'all'"),
        ({"workers": 0}, "from 1 to 1000"),
        ({"workers": 1001}, "from 1 to 1000"),
        ({"progress": 3}, "a function of"),
        ({"tool": "carbde"}, "did you mean 'carbide'"),
        ({"depth_mm": math.nan}, "must be finite"),
        ({"clone": "wide"}, "clone must be one of"),
        ({"hold": "magnet"}, "hold must be one of"),
        ({"dept_mm": 1.0}, "the nearest is 'depth_mm'"),
    ]:
        with pytest.raises(hn.DomainError, match=words):
            batch.turn(table, alloy="1018", **keywords)
    with pytest.raises(hn.DomainError, match="alloy"):
        batch.turn(table)


def test_other_columns_are_left_alone():
    done = batch.turn({"diameter_mm": [20.0], "customer": ["club"], "part": ["knob"]}, alloy="1018")
    assert done["status"].tolist() == [0]


def test_unknown_names_mark_their_rows():
    frame = {"alloy": ["1018", "mithril", None], "tool": ["HSS", "carbide", "carbide"], "diameter_mm": [20.0] * 3}
    done = batch.turn(frame)
    assert done["status"].tolist() == [0, 4, 4]
    frame = {"tool": ["HSS", "stone", "coated carbide", None], "diameter_mm": [20.0] * 4}
    assert batch.turn(frame, alloy="1018")["status"].tolist() == [0, 4, 0, 0]
    assert batch.drill(frame, alloy="1018")["status"].tolist() == [0, 4, 0, 0]


@pytest.mark.parametrize("value", [math.nan, math.inf, -1.0, 1e300, 3.7, 70_000.0])
def test_answers_that_came_back_with_something_else_in_them_are_refused(value):
    answers = {"reason": [0.0, value], "case_id": [0.0, 1e300 if value == 70_000.0 else value]}
    for ask, name in (
        (lambda: batch.reasons(answers, "turn"), "reason"),
        (lambda: batch.cases(answers), "case_id"),
        (lambda: batch.row_cases(answers, "limits", {"thread": ["M10-6g", "M8-6g"]}), "case_id"),
    ):
        if value == -1.0 and name == "case_id":
            continue  # a row without an answer
        with pytest.raises(hn.DomainError, match=rf"column '{name}' must hold whole numbers from .* in row 1"):
            ask()
    with pytest.raises(hn.DomainError, match="a column 'reason' is needed"):
        batch.reasons({"status": [0]}, "turn")
    with pytest.raises(hn.DomainError, match="no batch 'trun'; known: adjuster, alloy, "):
        batch.reasons({"reason": [0]}, "trun")
    with pytest.raises(hn.DomainError, match="frame must have the 1 rows of answers, got 2"):
        batch.reasons({"reason": [0]}, "turn", {"diameter_mm": [1.0, 2.0]})


@pytest.mark.parametrize("kind", ["turn", "drill", "mill"])
def test_a_column_of_hardness_has_the_bounds_of_a_single_one(kind):
    values = [math.nan, 1.0, 200.0, 1e4, 0.0, -5.0, 0.5, 10_001.0, math.inf]
    ask, size = getattr(batch, kind), "cutter_diameter_mm" if kind == "mill" else "diameter_mm"
    jobs = {size: [20.0] * len(values), "width_mm": [5.0] * len(values), "hardness_hb": values}
    jobs |= {"depth_mm": [1.0] * len(values), "length_mm": [20.0] * len(values)}
    jobs = {name: column for name, column in jobs.items() if kind == "mill" or name != "width_mm"}
    jobs = {name: column for name, column in jobs.items() if kind != "drill" or name != "length_mm"}
    done = ask(jobs, alloy="1018", columns=["status", "reason"], **({"shape": "side"} if kind == "mill" else {}))
    assert (np.array(done["status"]) == 0).tolist() == [True, True, True, True, False, False, False, False, False]
    why = batch.reasons(done, kind, jobs)
    assert why[7] == "hardness_hb must be from 1 to 10000 HB, got 10001 HB"
    with pytest.raises(hn.DomainError, match="hardness_hb must be from 1 to 10000 HB"):
        hn.turn("1018", "20 mm", hardness_hb=10_001)


def test_reasons_say_what_was_given_and_what_is_near():
    frame = {
        "alloy": ["1018", "4130", "6061-T66", "1018", "1018"],
        "tool": ["HSS", "HSS", "HSS", "carbid", "HSS"],
        "diameter_in": [1.0, 1.0, 1.0, 1.0, 0.5],
        "depth_in": [0.0, 0.01, 0.01, 0.01, 0.4],
    }
    why = batch.reasons(batch.turn(frame), "turn", frame)
    assert why[0] == "depth_mm must be from 1e-06 to 100000 mm, got 0 in"
    assert "annealed" in why[1] and "normalised" in why[1]
    assert why[2].startswith("no alloy '6061-T66'") and "6061-T6" in why[2]
    assert "got 'carbid'" in why[3] and "did you mean 'carbide'?" in why[3]
    assert why[4] == "depth_mm must be at most half of diameter_mm, got 0.4 in"
    frame = {"thread": ["M10-6z", "M10-6g"]}
    assert "6z" in batch.reasons(batch.limits(frame), "limits")[0]
    assert batch.reasons(batch.wires(frame, wire="best"), "wires").keys() == {0}


ROWS = 5000
NAMES = ["M10-6g", "1/4-20 UNC-2A", "M10-6z", "Tr40x7-7e", "", "G1/2 A", "1/2-14 NPT", "1-8 BSW", "1-5 Acme-2G"]


def threads_of(names, seed, rows=ROWS):
    return np.random.default_rng(seed).choice(np.array(names, object), rows)


def asked(kind, rows=ROWS):
    """A function that answers so many rows of one kind, its good and bad ones mixed."""
    some = np.random.default_rng(14)
    if kind in ("turn", "drill", "mill"):
        frame = {key: value for key, value in jobs(rows, seed=4).items() if key in ("alloy", "diameter_mm", "depth_mm")}
        if kind == "mill":
            frame["cutter_diameter_mm"] = frame.pop("diameter_mm")
            frame |= {"flutes": np.full(rows, 4.0), "width_mm": np.full(rows, 1.0)}
        machine = "gap-bed" if kind == "turn" else "bench-mill"
        return partial(getattr(batch, kind), frame, machine=machine)
    lengths = some.choice([5.0, 12.5, 20.0, math.nan, -1.0], rows)
    if kind == "limits":
        return partial(batch.limits, {"thread": threads_of(NAMES, 1, rows), "engagement_mm": lengths})
    if kind == "wires":
        return partial(
            batch.wires, {"thread": threads_of(NAMES, 1, rows), "wire_mm": some.choice([math.nan, 0.9], rows)}
        )
    if kind == "taper_pipe":
        return partial(
            batch.taper_pipe, {"thread": threads_of(["1/2-14 NPT", "R1/2", "Rc2", "M10", "", "G1/2"], 1, rows)}
        )
    if kind == "fit":
        frame = {"external": threads_of(NAMES, 1, rows), "internal": threads_of(["M10", "Tr40x7", "G1/2", ""], 2, rows)}
        return partial(batch.fit, frame | {"engagement_mm": lengths})
    frame = {"diameter_mm": some.uniform(-2.0, 40.0, rows), "pitch": threads_of(["96 DP", "21 TPI", "loud"], 3, rows)}
    return partial(batch.knurl_blank, frame, pattern="straight")


KINDS = ["turn", "drill", "mill", "limits", "fit", "wires", "taper_pipe", "knurl_blank"]


def equal(a, b):
    return np.array_equal(a, b, equal_nan=np.asarray(a).dtype.kind == "f")


@pytest.mark.parametrize("kind", KINDS)
def test_out_is_written_in_place(kind):
    call = asked(kind)
    want = call()
    out = {name: np.empty(ROWS, column.dtype) for name, column in want.items()}
    assert call(out=out) is out
    for name, column in want.items():
        assert equal(out[name], column), name
    assert 0 < (want["status"] != 0).sum() < ROWS
    some = {name: np.empty(ROWS, want[name].dtype) for name in [*list(want)[:1], "status"]}
    call(out=some)
    assert all(equal(some[name], want[name]) for name in some)
    few = call(columns=list(want)[1:2])
    assert set(few) == {list(want)[1], "status"} and equal(few["status"], want["status"])
    with pytest.raises(hn.DomainError, match="no column 'loudness'"):
        call(columns=["loudness"])
    with pytest.raises(hn.DomainError, match="list of names or 'all'"):
        call(columns="some")


@pytest.mark.parametrize("kind", KINDS)
def test_types_of_columns_are_what_comes(kind):
    want = asked(kind)()
    types = batch.column_types(kind)
    assert {name: column.dtype for name, column in want.items()} == types
    with pytest.raises(hn.DomainError, match="the nearest is 'turn'"):
        batch.column_types("turns")


@pytest.mark.parametrize("kind", ["limits", "fit", "wires", "taper_pipe", "knurl_blank"])
def test_distinct_rows_are_answered_once_and_as_any_number_of_workers_does(monkeypatch, kind):
    want = asked(kind)(workers=1)
    monkeypatch.setitem(running.CHUNKS, kind, 700)
    for workers in (1, 2, 5):
        got = asked(kind)(workers=workers)
        assert all(equal(got[name], want[name]) for name in want), workers
    if kind == "limits":
        answered = []
        plain = asking._core.ask_rows

        def counted(name, values, columns, rows, *how):
            answered.append(rows)
            return plain(name, values, columns, rows, *how)

        monkeypatch.setattr(asking._core, "ask_rows", counted)
        asked(kind)(workers=2)
        assert sum(answered) == len(NAMES) * 5  # each name with each length, once in 5000 rows


def test_out_that_does_not_fit_is_refused_before_anything_is_written():
    frame = {"diameter_mm": np.full(10, 20.0)}
    status = np.full(10, 77, np.uint8)
    good = np.empty(10)
    fixed = np.empty(10)
    fixed.flags.writeable = False
    for force, words in [
        (np.empty(9), "10 rows"),
        (np.empty(10, np.float32), "float64"),
        (np.empty(20)[::2], "contiguous"),
        (fixed, "writable"),
        (frame["diameter_mm"], "shares memory"),
        ([0.0] * 10, "must be a writable"),
    ]:
        with pytest.raises(hn.DomainError, match=words):
            batch.turn(frame, alloy="1018", out={"cutting_force_n": force, "status": status})
    with pytest.raises(hn.DomainError, match="column 'status'"):
        batch.turn(frame, alloy="1018", out={"cutting_force_n": good})
    assert (status == 77).all()


def small_chunks(monkeypatch):
    for kind in KINDS:
        monkeypatch.setitem(running.CHUNKS, kind, 1000)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("way", ["event", "function", "keyboard", "progress fails"])
def test_stopping_leaves_each_row_whole_or_marked(monkeypatch, way, kind):
    small_chunks(monkeypatch)
    call = asked(kind)
    want = call()
    out = {name: np.full(ROWS, 7).astype(column.dtype) for name, column in want.items()}
    event = threading.Event()
    seen = []

    def progress(done, rows):
        seen.append((done, rows))
        if done == 2000:
            if way == "keyboard":
                raise KeyboardInterrupt
            if way == "progress fails":
                raise ZeroDivisionError
            event.set()

    cancel = {"event": event, "function": event.is_set}.get(way)
    with pytest.raises((batch.Stopped, KeyboardInterrupt, ZeroDivisionError)):
        call(out=out, progress=progress, cancel=cancel)
    assert seen == [(1000, ROWS), (2000, ROWS)]
    for name, column in want.items():
        assert equal(out[name][:2000], column[:2000]), name
        rest = out[name][2000:]
        if name == "status":
            assert (rest == batch.NOT_REACHED).all()
        elif column.dtype.kind == "f":
            assert np.isnan(rest).all()
        elif column.dtype.kind == "U":
            assert (rest == "").all()
        elif column.dtype == object:
            assert (rest == "the run was stopped before this row").all()
    assert batch.reasons(out, kind)[4999] == "the run was stopped before this row"


KILLED = {
    "turn": ("cutting_force_n", 'batch.turn({"diameter_mm": np.full(4000, 20.0)}, alloy="1018", '),
    "limits": ("pitch_max_mm", 'batch.limits({"thread": ["Tr40x7-7e", "M10-6g"] * 2000}, '),
    "fit": ("axial_play_max_mm", 'batch.fit({"external": ["Tr40x7", "Tr40x7-8e"] * 2000}, internal="Tr40x7", '),
    "wires": ("over_max_mm", 'batch.wires({"thread": ["1-5 Acme", "M10-6g"] * 2000}, '),
    "taper_pipe": ("hand_turns", 'batch.taper_pipe({"thread": ["1/2-14 NPT", "R1"] * 2000}, '),
    "knurl_blank": ("teeth", 'batch.knurl_blank({"diameter_mm": np.full(4000, 20.0)}, pitch="96 DP", '),
}


@pytest.mark.parametrize("kind", KILLED)
def test_a_killed_run_leaves_marked_rows(tmp_path, kind):
    """Status is written last and begins as not reached, so that a file in memory says what is whole."""
    import subprocess
    import sys

    figure, call = KILLED[kind]
    path = tmp_path / "status.bin"
    code = f"""
import numpy as np, os
from halfnut import batch
from halfnut.batch import running
running.CHUNKS[{kind!r}] = 1000
status = np.memmap({str(path)!r}, np.uint8, "w+", shape=(4000,))
figure = np.memmap({str(tmp_path / "figure.bin")!r}, float, "w+", shape=(4000,))
def progress(done, rows):
    if done == 2000:
        os.kill(os.getpid(), 9)
out = {{"status": status, {figure!r}: figure}}
{call}out=out, progress=progress)
"""
    ended = subprocess.run([sys.executable, "-c", code], capture_output=True)
    assert ended.returncode == -9, ended.stderr
    status = np.fromfile(path, np.uint8)
    figures = np.fromfile(tmp_path / "figure.bin")
    assert (status[:2000] == 0).all() and (figures[:2000] > 0).all()
    assert (status[2000:] == batch.NOT_REACHED).all()


def test_progress_as_a_bar(monkeypatch, capsys):
    small_chunks(monkeypatch)
    batch.turn({"diameter_mm": np.full(3000, 20.0)}, alloy="1018", progress="bar")
    assert "rows" in capsys.readouterr().out
    batch.limits({"thread": ["M10-6g"] * 3000}, progress="bar")
    assert "rows" in capsys.readouterr().out


def test_two_batches_at_once_do_not_mix():
    frames = [jobs(20_000, seed=seed) for seed in (21, 22)]
    want = [batch.turn(frame, machine=MACHINE) for frame in frames]
    got = [None, None]

    def work(k):
        got[k] = batch.turn(frames[k], machine=MACHINE)

    threads = [threading.Thread(target=work, args=(k,)) for k in (0, 1)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    for a, b in zip(want, got, strict=True):
        assert all(np.array_equal(a[n], b[n], equal_nan=a[n].dtype.kind == "f") for n in a)


def test_cases_hold_the_evidence():
    frame = jobs(2000, seed=6, odd=0.0)
    done = batch.turn(frame, machine=MACHINE)
    found = batch.cases(done)
    ids = done["case_id"][(done["status"] == 0) & np.isnan(frame["hardness_hb"])]
    assert (ids >= 0).all()
    assert set(ids.tolist()) <= set(found)
    for row in range(0, 2000, 97):
        case = found.get(int(done["case_id"][row]))
        if case is None or done["status"][row]:
            continue
        one = hn.turn(
            frame["alloy"][row],
            hn.mm(float(frame["diameter_mm"][row])),
            depth=None if np.isnan(frame["depth_mm"][row]) else hn.mm(float(frame["depth_mm"][row])),
            feed=None if np.isnan(frame["feed_mm_rev"][row]) else f"{float(frame['feed_mm_rev'][row])!r} mm/rev",
            machine=MACHINE,
        )
        if np.isnan(frame["depth_mm"][row]):
            continue

        def window(evidence):
            return [(e.row, e.source) for e in evidence if e.rule_id == "window_row"]

        assert window(case.evidence) == window(one.evidence)
        assert {e.rule_id for e in case.evidence if e.figure == "spindle_power_kw"} == {"power"}


@pytest.mark.parametrize("kind", ["limits", "fit", "wires", "taper_pipe", "knurl_blank"])
def test_cases_of_threads_and_knurls_hold_the_evidence(kind):
    call = asked(kind, 600)
    frame, how = call.args[0], call.keywords
    done = call()
    found = batch.row_cases(done, kind, frame, **how)
    answered = set(done["case_id"][done["status"] == 0].tolist())
    assert set(found) == answered
    assert all(case.evidence for case in found.values())
    for row in np.flatnonzero(done["status"] == 0)[::37].tolist():
        case = found[int(done["case_id"][row])]
        assert case.case_id <= row
        for name, value in case.given.items():
            assert frame[name if name in frame else f"{name}_mm"][row] == value, name
        text = case.given.get("thread")
        one = {"limits": hn.limits, "wires": hn.wires, "taper_pipe": hn.taper_pipe}.get(kind)
        if one is not None and set(case.given) == {"thread"}:
            assert list(map(repr, case.evidence)) == list(map(repr, one(text).evidence))
    with pytest.raises(hn.NotTabulatedError, match="did you mean 'limits'"):
        batch.row_cases(done, "limit", frame)


def test_cases_of_threads_are_asked_as_the_batch_was():
    frame = {"thread": ["1/4-20 UNC-2A", "1/4-20 UNC-2A"]}
    done = batch.limits(frame, rule="formula", engagement="0.25 in")
    case = batch.row_cases(done, "limits", frame, rule="formula", engagement="0.25 in")[0]
    assert case.given == {"thread": "1/4-20 UNC-2A"}
    one = hn.limits("1/4-20 UNC-2A", rule="formula", engagement="0.25 in")
    assert list(map(repr, case.evidence)) == list(map(repr, one.evidence))
    done = batch.wires(frame, wire="best")
    case = batch.row_cases(done, "wires", frame, wire="best")[0]
    assert list(map(repr, case.evidence)) == list(map(repr, hn.wires("1/4-20 UNC-2A", wire="best").evidence))


def test_drilling_and_milling_are_the_scalars():
    diameters = [3.0, 6.5, 12.0, -1.0]
    drilled = batch.drill({"diameter_mm": diameters}, alloy="6061-T6", machine="bench-mill", depth_mm=15.0)
    milled = batch.mill(
        {"cutter_diameter_mm": diameters}, alloy="6061-T6", machine="bench-mill", flutes=4.0, depth_mm=2.0, width_mm=1.0
    )
    for row, diameter in enumerate(diameters[:3]):
        hole = hn.drill("6061-T6", hn.mm(diameter), depth="15 mm", machine="bench-mill")
        side = hn.mill("6061-T6", hn.mm(diameter), flutes=4, depth="2 mm", width="1 mm", machine="bench-mill")
        for name in ("spindle_rpm", "feed_mm_rev", "feed_force_n", "torque_nm", "time_s"):
            assert same(drilled[name][row], getattr(hole, name)), name
        for name in ("spindle_rpm", "feed_mm_min", "cutting_force_n", "torque_nm"):
            assert same(milled[name][row], getattr(side, name)), name
    assert drilled["status"].tolist() == milled["status"].tolist() == [0, 0, 0, 2]
    assert batch.reasons(drilled, "drill") == {3: "diameter_mm must be from 1e-06 to 100000 mm"}


THREADS = ["M10-6g", "1/4-20 UNC-2A", "M10-6z", "M6-6g", "M10-6g", "", "7/8-14 UNF-2A"] * 50


def test_limits_fit_and_wires_are_the_scalars():
    done = batch.limits({"thread": THREADS}, workers=2)
    wired = batch.wires({"thread": THREADS}, wire="best")
    fitted = batch.fit({"external": THREADS, "engagement_mm": np.linspace(5.0, 20.0, len(THREADS))}, internal="M10-6H")
    for row in range(7):
        text = THREADS[row]
        if text in ("M10-6z", ""):
            assert done["status"][row] and wired["status"][row] and fitted["status"][row]
            assert math.isnan(done["pitch_max_mm"][row])
            continue
        one = hn.limits(text)
        scale = "in" if one.unit == "in" else "mm"
        for name in ("major_max", "pitch_max", "pitch_min", "minor_max"):
            value = getattr(one, name)
            assert same(done[f"{name}_{scale}"][row], math.nan if value is None else value)
        assert done["unit"][row] == one.unit
        assert same(wired["over_max_mm"][row], hn.wires(text, wire="best").over_max_mm)
        length = hn.mm(np.linspace(5.0, 20.0, len(THREADS))[row])
        pair = hn.fit(text, "M10-6H", engagement=length)
        assert fitted["verdict"][row] == pair.verdict
        assert same(fitted["axial_play_max_mm"][row], pair.axial_play_max_mm)
    assert (done["status"] == np.tile(done["status"][:7], 50)).all()
    assert all(why.startswith("cannot read '") for why in batch.reasons(done, "limits").values())
    assert len(batch.reasons(done, "limits")) == 100


def test_knurl_blanks_are_the_scalars():
    frame = {"diameter_in": [0.5, 0.75, 1.0, -1.0], "pitch": ["96 DP", "21 TPI", "loud", "96 DP"]}
    done = batch.knurl_blank(frame, pattern="straight")
    assert done["status"].tolist() == [0, 0, 5, 2]
    for row in (0, 1):
        one = hn.knurl_blank(hn.inch(frame["diameter_in"][row]), frame["pitch"][row], pattern="straight")
        assert same(done["blank_diameter_mm"][row], one.blank_diameter_mm)
        assert done["teeth"][row] == one.teeth
    assert math.isnan(done["teeth"][2])
    assert 'called "loud"' in batch.reasons(done, "knurl_blank")[2]


def test_the_package_finds_it_when_it_is_asked_for():
    import subprocess
    import sys

    code = "import halfnut as hn; print(hn.batch.turn({'diameter_mm': [20.0]}, alloy='1018')['status'])"
    ended = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ended.stdout.strip() == "[0]"


def test_half_of_a_surrogate_pair_marks_its_row_and_stops_no_other():
    odd = "M10\udcff"
    assert batch.limits({"thread": ["M10-6g", odd]})["status"].tolist() == [0, 6]
    assert batch.limits({"thread": np.array(["M10-6g", odd])})["status"].tolist() == [0, 6]
    assert batch.fit({"external": ["M10-6g", odd], "internal": ["M10-6H"] * 2})["status"].tolist() == [0, 6]
    assert batch.wires({"thread": ["M10-6g", odd]}, wire="best")["status"].tolist() == [0, 6]
    assert batch.taper_pipe({"thread": ["1/2-14 NPT", odd]})["status"].tolist() == [0, 6]
    assert batch.knurl_blank({"diameter_mm": [20.0] * 2, "pitch": ["96 DP", odd]})["status"].tolist() == [0, 6]
    jobs = {"alloy": ["6061-T6", odd], "diameter_mm": [20.0] * 2}
    for kind in (batch.turn, batch.drill):
        assert kind(jobs)["status"].tolist() == [0, 4]
    why = batch.reasons(batch.turn(jobs), "turn", jobs)
    assert list(why) == [1]
    assert "M10" in why[1]
    assert batch.turn({**jobs, "tool": ["HSS", odd], "alloy": ["6061-T6"] * 2})["status"].tolist() == [0, 4]


@pytest.mark.parametrize(
    ("table", "read"),
    [("mapping", "alloy"), ("mapping", "diameter_mm"), ("mapping", "finish"), ("arrow", "diameter_mm")],
)
def test_out_over_the_memory_of_a_column_that_is_read_is_refused(table, read):
    rows = 64
    columns = {
        "alloy": np.array(["6061-T6"] * rows),
        "diameter_mm": np.full(rows, 25.0),
        "finish": np.zeros(rows),
    }
    frame = columns
    if table == "arrow":
        pyarrow = pytest.importorskip("pyarrow")
        frame = pyarrow.table({name: pyarrow.array(column) for name, column in columns.items()})
    kept = {name: column.copy() for name, column in columns.items()}
    out = {"status": columns[read].view(np.uint8)[:rows]}
    with pytest.raises(hn.DomainError, match="shares memory"):
        batch.turn(frame, out=out)
    for name, column in kept.items():
        np.testing.assert_array_equal(columns[name], column)


def test_a_column_that_is_there_twice_is_refused():
    pd = pytest.importorskip("pandas")
    frame = pd.DataFrame([["6061-T6", 20.0, 30.0]], columns=["alloy", "diameter_mm", "diameter_mm"])
    with pytest.raises(hn.DomainError, match="column 'diameter_mm' is there twice"):
        batch.turn(frame)


def test_a_row_never_holds_an_infinite_figure():
    sizes = [20.0, 1e300, 1e308, 1e150]
    found = batch.knurl_blank({"diameter_mm": sizes}, pitch="96 DP")
    assert found["status"][0] == 0
    for name, column in found.items():
        if column.dtype.kind == "f":
            assert not np.isinf(column).any(), name
            assert np.isnan(column[found["status"] != 0]).all(), name


def test_an_exception_while_a_batch_runs_reaches_the_caller():
    def breaks(done, rows):
        raise KeyError("stop here")

    for workers in (1, 4):
        with pytest.raises(KeyError, match="stop here"):
            batch.turn({"diameter_mm": np.full(1000, 20.0)}, alloy="6061-T6", workers=workers, progress=breaks)
