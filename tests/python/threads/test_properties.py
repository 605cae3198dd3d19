"""What holds of threads whatever the size: properties over the whole series, and over text that people mistype."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import halfnut as hn
from halfnut import _core, batch
from halfnut.core import catalogue

METRIC = [(row["diameter_mm"], row["pitch_mm"]) for row in catalogue.rows("threads/iso_261_series")]
UNIFIED = [
    (row["diameter_in"], row["tpi"], row["series"])
    for row in catalogue.rows("threads/unified_series")
    if "designated" not in row["note"]
]


def _columns(texts, **options):
    got = batch.limits({"thread": texts}, **options)
    assert not got["status"].any()
    return got


def _metric(cls):
    return [f"M{d:g}x{p:g}-{cls}" for d, p in METRIC]


def _unified(cls, rule="printed"):
    return _columns([f"{d:.4f}-{tpi:g} {series}-{cls}" for d, tpi, series in UNIFIED], rule=rule)


@pytest.mark.parametrize("external", ["6e", "6f", "6g", "6h", "4h", "8g", "3h4h", "9g8g"])
@pytest.mark.parametrize("internal", ["4H", "5H", "6H", "7H", "8H", "6G", "7G"])
def test_metric_parts_never_interfere_at_the_pitch_diameter(external, internal):
    bolt, nut = _columns(_metric(external)), _columns(_metric(internal))
    assert (bolt["pitch_max_mm"] <= nut["pitch_min_mm"]).all()


@pytest.mark.parametrize("rule", ["printed", "formula"])
@pytest.mark.parametrize("external", ["1A", "2A", "3A"])
@pytest.mark.parametrize("internal", ["1B", "2B", "3B"])
def test_unified_parts_never_interfere_at_the_pitch_diameter(external, internal, rule):
    assert (_unified(external, rule)["pitch_max_in"] <= _unified(internal, rule)["pitch_min_in"]).all()


@pytest.mark.parametrize("grades", [(3, 4, 5, 6, 7, 8, 9), (4, 5, 6, 7, 8)], ids=["external", "internal"])
def test_metric_pitch_tolerance_grows_with_the_grade(grades):
    template = "{}h6h" if len(grades) == 7 else "{}H6H"
    widths = []
    for grade in grades:
        got = _columns(_metric(template.format(grade)))
        widths.append(got["pitch_max_mm"] - got["pitch_min_mm"])
    assert (np.diff(np.array(widths), axis=0) > 0).all()


@pytest.mark.parametrize("cls", ["6h", "6H"])
def test_metric_pitch_tolerance_grows_with_diameter_and_with_pitch(cls):
    got = _columns(_metric(cls))
    width = np.rint(1000 * (got["pitch_max_mm"] - got["pitch_min_mm"]))
    by = dict(zip(METRIC, width, strict=True))
    pairs = 0
    for (d, p), here in by.items():
        for (e, q), there in by.items():
            if (p == q and d < e) or (d == e and p < q):
                assert here <= there, ((d, p), (e, q))
                pairs += 1
    assert pairs > 5_000


@pytest.mark.parametrize("cls", ["2A", "3B"])
def test_unified_pitch_tolerance_grows_with_diameter_pitch_and_length(cls):
    def tolerance(d, tpi, length):
        return hn.limits(f"{d:.4f}-{tpi:g} UNS-{cls}, LE={length:.4f}").pitch_tolerance

    for d in (0.5312, 1.0312, 3.0312):
        for tpi in (10.0, 18.0, 24.0):
            base = tolerance(d, tpi, 2.0)
            assert tolerance(d + 0.5, tpi, 2.0) > base
            assert tolerance(d, tpi - 2, 2.0) > base
            assert tolerance(d, tpi, 2.5) > base


@pytest.mark.parametrize("texts", [_metric("6g"), _metric("6H")])
def test_every_limit_is_in_order(texts):
    got = _columns(texts)
    for name in ("major", "pitch", "minor"):
        high, low = got[f"{name}_max_mm"], got[f"{name}_min_mm"]
        both = ~np.isnan(high) & ~np.isnan(low)
        assert (high[both] > low[both]).all()


# a class, an engagement and a hand in every combination that the standard's notation allows
_position = st.sampled_from(["e", "f", "g", "h", "az", "G", "H", "AZ", "AX"])


@st.composite
def designations(draw):
    if draw(st.booleans()):
        d, p = draw(st.sampled_from(METRIC))
        starts = draw(st.sampled_from([1, 1, 1, 2, 3]))
        text = f"M{d:g}xPh{p * starts:g}P{p:g}" if starts > 1 else f"M{d:g}x{p:g}"
        position = draw(_position)
        external = position[0].islower()
        grade = draw(st.integers(3, 9) if external else st.integers(4, 8))
        crest = draw(st.sampled_from([4, 6, 8]) if external else st.integers(4, 8))
        text += draw(st.sampled_from(["", f"-{grade}{position}{crest}{position}"]))
        text += draw(st.sampled_from(["", "-S", "-N", "-L", "-12.5 mm"]))
    else:
        d, tpi, series = draw(st.sampled_from(UNIFIED))
        text = f"{d:.4f}-{tpi:g} {series}"
        text += draw(st.sampled_from(["", "-1A", "-2A", "-3A", "-1B", "-2B", "-3B", "-2A/2B"]))
        text += draw(st.sampled_from(["", ", LE=0.75"]))
    return text + draw(st.sampled_from(["", "-LH"]))


@settings(max_examples=300, deadline=None)
@given(designations())
def test_format_after_parse_is_the_identity(text):
    first = hn.thread(text)
    again = hn.thread(str(first))
    assert again == first
    assert str(again) == str(first)
    assert hash(again) == hash(first)


@settings(max_examples=500, deadline=None)
@given(
    st.one_of(
        st.text(max_size=40),
        st.text(alphabet="M0123456789./-x×–gHhGLSPphUNCFEAB#() ", max_size=30),
        designations().map(lambda text: text[:-1]),
        designations().map(lambda text: text.replace("-", "–")),
    )
)
def test_no_text_crashes_or_lets_a_nan_through(text):
    got = batch.limits({"thread": [text]})
    ok = got["status"][0] == 0
    assert ok == (not math.isnan(got["pitch_max_mm"][0]))
    assert ok == (not math.isnan(got["pitch_min_in"][0]))
    if not ok:
        with pytest.raises(hn.Error):
            hn.limits(text)


@settings(max_examples=200, deadline=None)
@given(st.floats(0.1, 400), st.floats(0.05, 8))
def test_basic_sizes_are_one_triangle(d, p):
    height = _core.triangle_height_mm(p)
    assert _core.basic_pitch_diameter_mm(d, p) == pytest.approx(d - 0.75 * height, abs=1e-12)
    assert _core.basic_minor_diameter_mm(d, p) == pytest.approx(d - 1.25 * height, abs=1e-12)
    mean = (_core.basic_pitch_diameter_mm(d, p) + _core.root_diameter_mm(d, p)) / 2
    assert _core.stress_diameter_mm(d, p) == pytest.approx(mean, abs=1e-12)
