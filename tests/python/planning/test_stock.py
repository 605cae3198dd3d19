"""Stock cut up: against cutting a bar piece by piece."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

import halfnut as hn
from halfnut.planning import stock, timing


def cut_list(length, quantity, *, pieces=1, **sizes_mm):
    sizes = {key.removesuffix("_mm"): hn.mm(size) for key, size in sizes_mm.items()}
    return stock.cut_list({"length": hn.mm(length), "quantity": quantity, "stock": {"pieces": pieces, **sizes}})


def sawn_from(bar, blank, kerf):
    """Blanks that a bar gives, sawn off one by one; the last needs no cut if nothing is left."""
    count = 0
    while bar >= blank - 1e-9:
        bar -= blank
        count += 1
        bar -= min(kerf, bar)
    return count, bar


@given(
    length=st.integers(5, 400),
    quantity=st.integers(1, 300),
    kerf=st.integers(0, 4),
    facing=st.integers(0, 3),
    grip=st.integers(0, 40),
    pieces=st.integers(1, 6),
    bar=st.integers(50, 4000),
)
def test_counts_are_those_of_sawing_one_by_one(length, quantity, kerf, facing, grip, pieces, bar):
    parted = kerf * (pieces if grip else pieces - 1)
    blank = pieces * (length + 2 * facing) + parted + grip
    sizes = {"kerf_mm": kerf, "facing_mm": facing, "grip_mm": grip, "pieces": pieces}
    if blank > bar:
        with pytest.raises(hn.DomainError, match="longer than the bar"):
            cut_list(length, quantity, bar_length_mm=bar, **sizes)
        return
    found = cut_list(length, quantity, bar_length_mm=bar, **sizes)
    assert found.blank_mm == blank
    a_bar, _ = sawn_from(bar, blank, kerf)
    assert found.blanks_a_bar == a_bar
    assert (found.blanks - 1) * pieces < quantity <= found.blanks * pieces
    assert (found.bars - 1) * a_bar < found.blanks <= found.bars * a_bar
    last = found.blanks - (found.bars - 1) * a_bar
    left = bar
    for _ in range(last):
        left -= blank
        left -= min(kerf, left)
    assert found.left_mm == pytest.approx(left)


def test_without_a_bars_length_only_the_total_is_told():
    found = cut_list(100, 3, kerf_mm=2, facing_mm=0.5)
    assert found.blank_mm == 101
    assert found.total_mm == 3 * 103
    assert found.bars is None
    assert found.to_dict()["left_mm"] is None


@pytest.mark.parametrize(
    ("part", "said"),
    [
        ({}, "length_mm must be finite"),
        ({"length": hn.mm(50), "quantity": 0, "stock": {"pieces": 1}}, "quantity must be >= 1"),
        ({"length": hn.mm(50), "quantity": 3, "stock": {"pieces": 0}}, "pieces must be >= 1"),
        ({"length": hn.mm(50), "quantity": 3, "stock": {"pieces": 1, "kerf": hn.mm(-1)}}, "kerf_mm must be >= 0"),
    ],
)
def test_what_cannot_be_sawn_is_refused(part, said):
    with pytest.raises(hn.DomainError, match=said):
        stock.cut_list(part)


@pytest.mark.parametrize(("time_s", "quantity"), [(math.nan, 3), (-1.0, 3), (600.0, 0)])
def test_a_lot_has_a_time_and_pieces(time_s, quantity):
    with pytest.raises(hn.DomainError, match="time_s must be" if quantity else "quantity must be"):
        timing.lot(time_s, quantity)
