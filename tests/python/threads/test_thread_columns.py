"""Batches of threads of every form: each row is the scalar's answer to the bit; bad rows say why."""

import math
from collections import Counter

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import halfnut as hn
from halfnut import batch
from halfnut.threads import standard

LIMITS = ("major_max", "major_min", "pitch_max", "pitch_min", "minor_max", "minor_min")
FITS = (
    *("pitch_clearance_min_mm", "pitch_clearance_max_mm", "major_clearance_min_mm", "minor_clearance_min_mm"),
    *("axial_play_min_mm", "axial_play_max_mm", "radial_play_max_mm", "tilt_max_deg", "engagement_mm"),
    *("clearance_mean_mm", "clearance_sigma_mm", "chance_of_interference", "lead_mismatch_mm", "turns_to_bind"),
)
WIRES = (
    *("wire_mm", "best_wire_mm", "smallest_wire_mm", "largest_wire_mm", "over_max_mm", "over_min_mm"),
    *("over_max_plain_mm", "over_max_lead_mm", "over_max_held_mm", "lead_angle_deg", "wire_error_factor"),
    *("pitch_max_mm", "pitch_min_mm", "skew_add_mm", "wire_tilt_deg", "micrometer_max_mm"),
)
# status codes of the core
NOT_TABULATED, NOT_UNDERSTOOD, INCONSISTENT = 5, 6, 8


def sizes(form):
    """Every size of a form, as it is designated."""
    for row in standard.thread_series(form):
        if form == "Tr":
            yield f"Tr{row['size']}x{row['pitch_mm']:g}"
        elif form == "G":
            yield f"G{row['size']}"
        else:
            yield f"{row['size']}-{row['tpi']:g} {form}"


GOOD = [
    *("M10-6g", "M10-6H", "1/4-20 UNC-2A", "7/8-14 UNF-2B", "M20x2-7g6g-40", "#10-32 UNF-3A"),
    *("Tr40x7-7e", "Tr40x14(P7)LH-8H", "Tr12x3-9c", "G1/2 A", "G1/2", "G2 B", "Rp1/2"),
]
# One part is named by neither of these: limits refuse them, the others take the external part.
OPEN = [
    "1-5 Acme-2G",
    "1 1/2-4 Acme-3C",
    "1-0.2P-0.4L Acme",
    "1-5 Stub Acme",
    "1/4-20 BSW-close",
    "1/4-26 BSF",
    "Tr20x4",
]
BAD = {
    "1/2-14 NPT": NOT_TABULATED,
    "Rc1/2": NOT_TABULATED,
    "Tr40x7-5e": NOT_UNDERSTOOD,
    "Tr13x1.1-7e": NOT_TABULATED,
    "G9": NOT_TABULATED,
    "1-5 Acme-9G": NOT_UNDERSTOOD,
    "M10-6z": NOT_UNDERSTOOD,
    "": NOT_UNDERSTOOD,
    "loud": NOT_UNDERSTOOD,
}
MIXED = [*GOOD, *OPEN, *BAD]


def same(column_value, scalar_value):
    """Equal bits; None and not a number are one."""
    a = np.float64(column_value)
    b = np.float64(math.nan if scalar_value is None else scalar_value)
    return (np.isnan(a) and np.isnan(b)) or a.tobytes() == b.tobytes()


def asked(call, *args, **given):
    """An answer, or the error."""
    try:
        return call(*args, **given)
    except hn.Error as error:
        return error


def check_limits(done, texts, engagement=None):
    answered = 0
    for row, text in enumerate(texts):
        one = asked(hn.limits, text, engagement=engagement)
        if isinstance(one, hn.Error):
            assert done["status"][row], text
            assert all(np.isnan(done[f"{name}_{unit}"][row]) for name in LIMITS for unit in ("mm", "in"))
            assert done["unit"][row] == ""
            continue
        assert done["status"][row] == 0, text
        assert done["unit"][row] == one.unit
        for name in LIMITS:
            assert same(done[f"{name}_{one.unit}"][row], getattr(one, name)), (text, name)
            for unit in ("mm", "in"):
                assert same(done[f"{name}_{unit}"][row], getattr(one, f"{name}_{unit}")), (text, name)
        answered += 1
    return answered


def test_limits_of_every_form_in_one_column():
    texts = [f"{size}{end}" for size in sizes("Tr") for end in ("-7e", "-8H")]
    texts += [f"{size}{end}" for size in sizes("G") for end in (" A", " B", "")]
    texts += MIXED
    random = np.random.default_rng(5)
    random.shuffle(texts)
    texts += texts[:100]
    done = batch.limits({"thread": texts}, workers=2)
    assert check_limits(done, texts) == sum(not isinstance(asked(hn.limits, text), hn.Error) for text in texts)
    done = batch.limits({"engagement_mm": [5.0, 50.0]}, thread="Tr40x7-7e")
    assert done["pitch_max_mm"].tolist() == [36.375, 36.375]


def test_engagement_counts_row_by_row():
    lengths = [5.0, 25.0, math.nan, -1.0, 5.0, math.inf]
    thread = "1-8 UNC-2A"
    done = batch.limits({"engagement_mm": lengths}, thread=thread)
    for row, length in enumerate(lengths):
        if length <= 0 or math.isinf(length):
            assert done["status"][row]
            continue
        one = hn.limits(thread, engagement=None if math.isnan(length) else hn.mm(length))
        assert same(done["pitch_min_in"][row], one.pitch_min)
    # Whitworth tolerances depend on it, too
    short, long = (hn.limits("1/2-12 BSW", side="external", engagement=e) for e in ("5 mm", "30 mm"))
    judged = batch.judge({"engagement_mm": [5.0, 30.0]}, thread="1/2-12 BSW", pitch="11 mm")
    assert [same(judged["pitch_min_mm"][k], one.pitch_min_mm) for k, one in enumerate((short, long))] == [True, True]
    assert short.pitch_min_mm != long.pitch_min_mm


@pytest.mark.parametrize("text", BAD)
def test_a_row_without_an_answer_says_why(text):
    frame = {"thread": [text, "M10-6g"]}
    shared = {"judge": {"pitch": "9 mm"}, "precoat": {"build_up": "bare"}}
    for kind in ("limits", "wires", "judge", "precoat"):
        done = getattr(batch, kind)(frame, **shared.get(kind, {}))
        assert done["status"].tolist() == [BAD[text], 0]
        assert batch.reasons(done, kind) == {0: str(asked(getattr(hn, kind), text, **shared.get(kind, {})))}
    done = batch.fit({"external": [text, "M10-6g"]}, internal="M10-6H")
    assert done["status"].tolist() == [BAD[text], 0]
    assert str(asked(hn.fit, text, "M10-6H")) == batch.reasons(done, "fit")[0]


def test_a_thread_of_no_or_two_parts_is_its_external_one():
    texts = ["Tr40x7", "1-5 Acme-2G", "M10", "10-32", "M10-6H/6g"]
    done = batch.limits({"thread": texts})
    for row, text in enumerate(texts):
        both = hn.limits(text)
        assert (both.side, both.other.side) == ("external", "internal")
        assert done["pitch_max_mm"][row] == both.pitch_max_mm
    # the other part's class is not taken for one's own
    done = batch.fit({"external": ["M10-6H", "Tr40x7-7e"], "internal": ["M10-6H", "Tr40x7-8e"]})
    assert done["status"].tolist() == [INCONSISTENT] * 2
    assert "does not name an external thread; the usual one is M10x1.5-6g" in done["reason"][0]


def test_sizes_over_wires_of_every_form():
    texts = [*sizes("Tr"), *sizes("Acme"), *sizes("Stub Acme"), *sizes("BSW"), *sizes("BSF"), *sizes("G"), *MIXED]
    seen = Counter()
    for call in ({"wire": "best"}, {"set": "metric"}, {}):
        columns = batch.wires({"thread": texts}, **call)
        for row, text in enumerate(texts):
            one = asked(hn.wires, text, **call)
            assert isinstance(one, hn.Error) == bool(columns["status"][row]), text
            seen[isinstance(one, hn.Error)] += 1
            if isinstance(one, hn.Error):
                assert np.isnan(columns["over_max_mm"][row]) and columns["side"][row] == ""
                continue
            assert columns["side"][row] == one.side
            assert all(same(columns[name][row], getattr(one, name)) for name in WIRES), text
    assert seen[False] > 700 and seen[True] > 3 * len(BAD) - 1


PAIRS = [
    *(("Tr40x7-7e", "Tr40x7-7H"), ("Tr40x14(P7)-8e", "Tr40x14(P7)-8H"), ("Tr40x7", "Tr40x7"), ("Tr40x7LH", "Tr40x7")),
    *(("1-5 Acme-2G", "1-5 Acme-2G"), ("1-5 Acme-3C", "1-5 Acme-3C"), ("1-5 Stub Acme", "1-5 Stub Acme")),
    *(("G1/2 A", "G1/2"), ("G1/2 B", "G1/2"), ("1/4-20 BSW", "1/4-20 BSW"), ("1/4-20 UNC", "1/4-20 BSW")),
    *(("M60x3-6g", "Tr60x3"), ("M20x2-7g6g-40", "M20x2-6H"), ("7/8-14 UNF-2A", "7/8-14 UNF-2B")),
    *(("1/2-14 NPT", "1/2-14 NPT"), ("R1/2", "G1/2"), ("Tr40x7-7H", "Tr40x7"), ("Tr40x7", "M10-6H"), ("", "M10-6H")),
]


def test_fits_of_every_form():
    rows = [(*pair, film, length) for pair in PAIRS for film in (0.0, 6.0) for length in (math.nan, 12.0)]
    frame = {
        "external": [row[0] for row in rows],
        "internal": [row[1] for row in rows],
        "build_up_external": [f"0-{row[2]:g} um" for row in rows],
        "engagement_mm": [row[3] for row in rows],
    }
    columns = batch.fit(frame)
    verdicts = Counter()
    for row, (external, internal, film, length) in enumerate(rows):
        given = {"build_up_external": hn._core.BuildUp(0.0, film)}
        if not math.isnan(length):
            given["engagement"] = hn.mm(length)
        one = asked(hn.fit, external, internal, **given)
        assert isinstance(one, hn.Error) == bool(columns["status"][row]), (external, internal, one)
        verdicts[columns["verdict"][row]] += 1
        if not isinstance(one, hn.Error):
            assert columns["verdict"][row] == one.verdict
            for name in FITS:
                assert same(columns[name][row], getattr(one, name)), (external, internal, name)
    assert verdicts[""] == 4 * 4
    assert set(verdicts) == {"", "free", "may bind", "mismatch"}


@settings(max_examples=60, deadline=None)
@given(
    text=st.sampled_from([*GOOD, *OPEN, "1/2-14 NPT"]),
    off=st.floats(-0.4, 0.4),
    lead=st.sampled_from([0.0, 0.01, -0.02]),
    angles=st.sampled_from([(0.0, 0.0), (0.5, -0.3), (-2.0, 1.0), (-19.0, 0.0)]),
    crest=st.sampled_from([None, -0.05, 0.1]),
    over=st.booleans(),
)
def test_verdicts_on_parts_of_every_form(text, off, lead, angles, crest, over):
    base = asked(hn.wires, text)
    pitch = (9.0 if isinstance(base, hn.Error) else base.pitch_max_mm) + off
    scalar = {"lead_error": hn.mm(lead), "leading_error_deg": angles[0], "following_error_deg": angles[1]}
    if over and not isinstance(base, hn.Error):
        reading = base.over_max_mm + off
        scalar |= {"over_wires": hn.mm(reading), "wire": hn.mm(base.wire_mm)}
    else:
        scalar |= {"pitch": hn.mm(pitch)}
    if crest is not None:
        name = "minor" if not isinstance(base, hn.Error) and base.side == "internal" else "major"
        scalar |= {name: hn.mm(pitch + crest)}
    one = asked(hn.judge, text, **scalar)
    done = batch.judge({"thread": [text, "M10-6g"]}, columns="all", **scalar)
    if isinstance(one, hn.Error):
        assert done["status"][0], (text, one)
        assert done["place"][0] == "" and np.isnan(done["functional_pitch_mm"][0])
        return
    assert done["status"][0] == 0
    assert done["place"][0] == one.place
    assert done["classes_met"][0] == "; ".join(one.classes_met)
    assert same(done["functional_pitch_mm"][0], one.functional_pitch_mm)
    for name, judged in (("major", one.major), ("pitch", one.pitch), ("minor", one.minor)):
        assert done[f"{name}_place"][0] == judged.place
        for figure in ("measured_mm", "min_mm", "max_mm", "to_enter_mm", "to_middle_mm", "to_last_mm"):
            assert same(done[f"{name}_{figure}"][0], getattr(judged, figure))


def test_limits_before_coating_of_every_form():
    texts = [*GOOD, *OPEN, *BAD] * 3
    least = np.repeat([0.0, 3.0, 2.0], len(texts) // 3)
    most = np.repeat([0.0, 5.0, 400.0], len(texts) // 3)
    films = [f"{a:g}-{b:g} um" if b else "bare" for a, b in zip(least, most, strict=True)]
    done = batch.precoat({"thread": texts, "build_up": films}, columns="all")
    ways = Counter()
    for row, text in enumerate(texts):
        one = asked(hn.precoat, text, hn._core.BuildUp(least[row], most[row]) if most[row] else "bare")
        assert isinstance(one, hn.Error) == bool(done["status"][row]), (text, one)
        ways[done["way"][row]] += 1
        if isinstance(one, hn.Error):
            assert np.isnan(done["pitch_max_mm"][row])
            continue
        assert done["way"][row] == one.way
        for name in LIMITS:
            assert same(done[f"{name}_mm"][row], getattr(one, f"{name}_mm")), (text, name)
        for name in ("pitch_change_um", "greatest_build_up_um", "go_after_pitch_mm", "go_after_crest_mm"):
            assert same(done[name][row], getattr(one, name)), (text, name)
        if not one.by_form:
            continue
        bare = hn.limits(text, side=one.side)
        # once coated it gauges at its own limits: what the coat adds is what was taken off
        outer = one.side == "external"
        assert done["go_after_pitch_mm"][row] == (bare.pitch_max_mm if outer else bare.pitch_min_mm)
        change = most[row] / math.sin(math.radians(one.half_angle_deg)) * 2
        assert done["pitch_change_um"][row] == pytest.approx(change)
        cut = done["pitch_max_mm" if outer else "pitch_min_mm"][row]
        assert cut + (change if outer else -change) / 1000 == pytest.approx(done["go_after_pitch_mm"][row])
        assert done["allowance_um"][row] == pytest.approx(1000 * one.allowance_mm)
    assert ways["bare"] == len(GOOD) + len(OPEN)
    assert ways[""] > 3 * len(BAD) and ways["deducted"] > 10 and ways["held"] > 0


def test_what_a_standard_gives_in_inches_stays_in_its_places():
    acme = hn.limits("1-5 Acme-2G", side="external")
    assert acme.pitch_max == 0.892 and acme.major_max == 1.0
    done = batch.wires({"thread": ["1-5 Acme-2G"]})
    assert same(done["pitch_max_mm"][0], acme.pitch_max_mm)


def test_taper_pipe_threads_are_the_scalars():
    texts = [f"{row['size']}-{row['tpi']:g} NPT" for row in standard.thread_series("NPT")]
    texts += [f"{prefix}{row['size']}" for row in standard.thread_series("R") for prefix in ("R", "Rc")]
    texts += ["M10-6g", "G1/2", "R9", "loud", ""]
    columns = batch.taper_pipe({"thread": texts * 3})
    answered = 0
    for row, text in enumerate(texts):
        one = asked(hn.taper_pipe, text)
        assert isinstance(one, hn.Error) == bool(columns["status"][row]), text
        if not isinstance(one, hn.Error):
            answered += 1
            assert columns["unit"][row] == one.unit
            for name in set(columns) - {"status", "unit", "case_id", "reason"}:
                assert same(columns[name][row], getattr(one, name)), (text, name)
    assert answered == 24 + 2 * 15
    for name, column in columns.items():
        thrice = np.concatenate([column[: len(texts)]] * 3)
        assert np.array_equal(column, thrice, equal_nan=column.dtype.kind == "f"), name
    why = batch.reasons(columns, "taper_pipe")
    assert len(why) == 3 * 5 and "is no taper pipe thread" in why[texts.index("G1/2")]


ODD = [0.0, -0.0, -1.0, 5e-324, 1e-310, 1e-9, 0.5, 12.5, 1e5, 1e12, 1e300, math.inf, -math.inf, math.nan]


@pytest.mark.parametrize("text", ["M10-6g", "1/4-20 UNC-2A", "Tr40x7-7e", "1-8 BSW", "1-5 Acme-2G", "G1/2 A", "R1/2"])
def test_odd_numbers_are_the_scalars(text):
    """Zero, subnormal, huge, infinite and lacking numbers: the scalar's answer, or a reason where it refuses."""

    def mm(value):
        return None if math.isnan(value) else hn.mm(value)

    part = hn.thread(text).part("external")
    limits = batch.limits({"thread": [text] * len(ODD), "engagement_mm": ODD})
    fits = batch.fit({"external": [text] * len(ODD), "engagement_mm": ODD}, internal=str(hn.thread(text).internal))
    wires = batch.wires({"thread": [text] * len(ODD), "wire_mm": ODD})
    for row, value in enumerate(ODD):
        size = asked(lambda value=value: hn.limits(text, engagement=mm(value)))
        pair = asked(lambda value=value: hn.fit(text, str(hn.thread(text).internal), engagement=mm(value)))
        read = asked(lambda value=value: hn.wires(part, wire=mm(value)))
        for done, one, name in (
            (limits, size, "pitch_min_mm"),
            (fits, pair, "tilt_max_deg"),
            (wires, read, "over_max_mm"),
        ):
            assert (done["status"][row] != 0) == isinstance(one, hn.Error), (name, value, one)
            wanted = math.nan if isinstance(one, hn.Error) else getattr(one, name, None)
            if wanted is None and name == "pitch_min_mm":
                wanted = one.pitch_min * (25.4 if one.unit == "in" else 1.0)
                assert done[name][row] == pytest.approx(wanted, rel=1e-15)
                continue
            assert same(done[name][row], wanted), (name, value)


def test_edges_of_shape_and_kind():
    assert all(len(column) == 0 for column in batch.limits({"thread": []}).values())
    assert all(len(column) == 0 for column in batch.fit({"external": [], "internal": []}).values())
    assert batch.wires({"thread": ["Tr40x7"]})["status"].tolist() == [0]
    wide = np.linspace(5.0, 50.0, 40)
    texts = ["1-8 BSW", "Tr40x7-7e", "1/2-13 UNC-2A", "M10-6g"] * 5

    def judged(lengths):
        return batch.fit({"external": texts, "engagement_mm": lengths}, internal="1/2-13 UNC-2B")

    want = judged(wide[::2].copy())
    fixed = wide[::2].copy()
    fixed.flags.writeable = False
    for given_lengths in (wide[::2], fixed, wide[::2].astype(">f8"), list(wide[::2]), np.ma.array(wide[::2])):
        got = judged(given_lengths)
        for name, column in want.items():
            assert column.tobytes() == got[name].tobytes(), name
    whole = np.arange(5, 25)
    wanted = judged(whole.astype(float))
    for dtype in (np.int32, np.uint8, np.float32, object):
        assert judged(whole.astype(dtype))["tilt_max_deg"].tobytes() == wanted["tilt_max_deg"].tobytes()


def test_a_hundred_thousand_mixed_threads_with_one_in_a_hundred_broken():
    random = np.random.default_rng(12)
    rows = 100_000
    names = np.array([*GOOD, "1/2-12 BSW", "Tr20x4", "1-5 Acme-2G"], object)
    broken = np.zeros(rows, bool)
    broken[random.choice(rows, rows // 100, replace=False)] = True
    texts = names[random.integers(0, len(names), rows)]
    texts[broken] = random.choice(np.array([*BAD, None], object), broken.sum())
    done = batch.wires({"thread": texts}, wire="best")
    assert ((done["status"] != 0) == broken).all()
    assert np.isnan(done["over_max_mm"]).sum() == np.isnan(done["wire_mm"]).sum() == 1000
    why = batch.reasons(done, "wires")
    assert len(why) == 1000 and all(why.values())
    mates = {"M10-6g": "M10", "Tr40x7-7e": "Tr40x7", "G1/2 A": "G1/2", "1-5 Acme-2G": "1-5 Acme-2G"}
    screws = np.array(list(mates), object)[random.integers(0, len(mates), rows)]
    nuts = np.array([mates[text] for text in screws], object)
    screws[broken] = "loud"
    fits = batch.fit({"external": screws, "internal": nuts, "engagement_mm": random.uniform(5.0, 40.0, rows).round(1)})
    assert ((fits["status"] != 0) == broken).all()
    assert (fits["verdict"][~broken] == "free").all()
