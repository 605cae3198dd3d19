"""Self-holding tapers: each row's ends against its taper, ISO 296 against the inch rows, settings by trigonometry."""

import math

import pytest

import halfnut as hn
from halfnut.core import catalogue

ISO_296 = {0: (9.045, 19.212), 1: (12.065, 20.047), 2: (17.780, 20.020), 3: (23.825, 19.922)}
ISO_296 |= {4: (31.267, 19.254), 5: (44.399, 19.002), 6: (63.348, 19.180)}
"""Gauge diameter in mm and 1:x, recalled: a memory beside a memory, in another unit."""
ISO_296_ENDS = {0: (50, 6.4), 1: (53.5, 9.4), 2: (64, 14.6), 3: (81, 19.8), 4: (102.5, 25.9), 5: (129.5, 37.6)}
ISO_296_ENDS |= {6: (182, 53.9)}
"""Length and small end of shanks with a tapped hole, recalled."""


def test_every_row_keeps_its_taper() -> None:
    rows = catalogue.rows("fits/self_holding_tapers")
    for row in rows:
        places = 0.0501 if row["unit"] == "mm" else 0.000501
        by_taper = row["large"] - row["per_foot"] / 12 * row["length"]
        assert row["small"] == pytest.approx(by_taper, abs=places), (row["series"], row["size"])
        found = hn.holding_taper(f"{row['series']} {row['size']:g}")
        scale = 25.4 if row["unit"] == "in" else 1.0
        assert found.small_mm == pytest.approx(by_taper * scale)
    assert len(rows) == 16


def test_iso_296_has_the_same_tapers() -> None:
    for size, (large, ratio) in ISO_296.items():
        found = hn.holding_taper(f"Morse {size}")
        assert found.large_mm == pytest.approx(large, abs=6e-4), size
        assert 1 / found.taper_on_diameter == pytest.approx(ratio, abs=6e-4), size
        length, small = ISO_296_ENDS[size]
        assert hn.holding_taper(f"morse no. {size}", length=hn.mm(length)).small_mm == pytest.approx(small, abs=0.051)


def test_jarno_tapers_are_their_number() -> None:
    for n in range(2, 21):
        found = hn.holding_taper(f"jarno {n}")
        assert found.large_mm == pytest.approx(n / 8 * 25.4)
        assert found.small_mm == pytest.approx(n / 10 * 25.4)
        assert found.length_mm == pytest.approx(n / 2 * 25.4)
        assert found.taper_on_diameter == pytest.approx(1 / 20)


def test_settings_by_trigonometry() -> None:
    found = hn.holding_taper("morse 3", between_centres="8 in")
    assert found.per_foot_in == pytest.approx(0.60235)
    assert found.angle_deg == pytest.approx(math.degrees(math.atan2((0.938 - found.small_mm / 25.4) / 2, 3.1875)))
    assert found.setover_mm == pytest.approx(25.4 * 8 * 0.60235 / 12 / 2)
    assert found.sine_stack_mm == pytest.approx(25.4 * 5 * math.sin(math.radians(2 * found.angle_deg)))
    assert found.diameter_mm("1 in") / 25.4 == pytest.approx(0.938 - 0.60235 / 12)
    cone = hn.holding_taper("1:10", large="20 mm", length="40 mm")
    assert (cone.small_mm, cone.taper_on_diameter) == (16.0, 0.1)
    said = str(found)
    assert "1:19.922" in said and "1.4377°" in said and "0.0251 in" in said
    cut = hn.taper("1018", "morse 3")
    assert cut.angle_deg == pytest.approx(found.angle_deg)
    assert hn.taper("1018", "morse 3", length="2 in").taper_per_foot_in == pytest.approx(0.60235)


def test_steep_tapers_do_not_hold_by_themselves() -> None:
    steep, slight = (hn.holding_taper(name, large="40 mm", length="40 mm") for name in ("1:4", "1:10"))
    assert [each.code for each in steep.told] == ["holding_taper_steep", "holding_taper_blue"]
    assert [each.code for each in slight.told] == ["holding_taper_blue"]
    # a taper holds while its half angle is below that of the friction
    assert math.tan(math.radians(slight.angle_deg)) == pytest.approx(0.05)
    with pytest.raises(hn.DomainError, match="name must be text such as 'morse 3', got 3; there is morse 0, 1, 2, 3"):
        hn.holding_taper(3)


@pytest.mark.parametrize(
    ("name", "given", "error", "words"),
    [
        ("morse 8", {}, hn.NotTabulatedError, "morse 0, 1, 2, 3, 4, 4.5, 5, 6, 7"),
        ("jarno 21", {}, hn.NotTabulatedError, "jarno 2 to 20"),
        ("cone", {}, hn.NotTabulatedError, "there is morse"),
        ("1:10", {}, hn.DomainError, "give large and length"),
        ("morse 3", {"large": "1 in"}, hn.DomainError, "has its own"),
        ("morse 3", {"length": "30 in"}, hn.DomainError, "ends in a point"),
        ("morse 3", {"length": "0 in"}, hn.DomainError, "> 0"),
        ("morse 3", {"between_centres": "1 in"}, hn.DomainError, "at least length"),
        ("morse 3", {"sine_bar": "0 in"}, hn.DomainError, "sine_bar"),
    ],
)
def test_refusals_say_what_there_is(name: str, given: dict[str, str], error: type[Exception], words: str) -> None:
    with pytest.raises(error, match=words):
        hn.holding_taper(name, **given)
