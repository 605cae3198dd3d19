"""halfnut alloy: speeds first, then strengths, then constants; a list; a shop's own alloys begun and checked."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

import halfnut as hn
from halfnut import cli


def run(*args, code=0):
    out = CliRunner().invoke(cli.command, ["alloy", *args])
    assert out.exit_code == code, out.output
    return out.output


def test_speeds_come_before_strengths_and_these_before_constants():
    text = run("6061-T6")
    places = [
        text.index(each) for each in ("m/min", "HSS", "coated carbide", "fluid", "strength", "hardness", "unit power")
    ]
    assert places == sorted(places)
    window = hn.turn("6061-T6", "30 mm")
    assert f"{window.window_low_m_min:.0f}-{window.window_high_m_min:.0f}" in text
    assert "ft/min" in run("6061-T6", "--inch")
    assert json.loads(run("6061-T6", "--json"))["fluids"][0] == "turning soluble"
    assert run("--json", "6061-T6") == run("6061-T6", "--json")


def test_a_printed_speed_against_the_order_is_shown_when_asked_for():
    assert "printed, never taken: ream hss to 121.9 m/min" in run("6061-T6", "--evidence")
    assert "never taken" not in run("6061-T6")
    assert "never taken" not in run("304", "--evidence")


def test_every_alloy_is_shown():
    for row in hn.core.catalogue.rows("material/alloys"):
        assert "HSS" in run(row["id"])


@pytest.mark.parametrize("word", ["stainless", "12L14", "bronze", "A36"])
def test_the_list_finds_by_name_group_and_alias(word):
    found = json.loads(run("list", word, "--json"))
    assert found
    assert len(found) < len(json.loads(run("list", "--json")))
    assert run("list", word).splitlines()[0].startswith(found[0]["id"])
    assert "no alloy" in run("list", "unobtainium")


def test_an_alloy_of_the_shop_is_begun_checked_and_answers(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert "halfnut alloy check" in run("new", "our bronze", "--like", "C93200")
    assert "nothing to put right" in run("check", "our-bronze.toml")
    with hn.core.catalogue.shop(tmp_path):
        ours, base = hn.turn("our bronze", "30 mm"), hn.turn("C93200", "30 mm")
    assert ours.window_high_m_min == base.window_high_m_min
    file = Path("our-bronze.toml")
    file.write_text(file.read_text().replace('"C93200"', '"C99999x"'))
    assert "like" in run("check", "our-bronze.toml", code=1)
    assert json.loads(run("check", "our-bronze.toml", "--json", code=1))["wrong"]
    assert run("new", "our bronze", "--like", "no such", code=1) is not None


def test_what_a_shop_s_alloy_lacks_is_told(tmp_path):
    file = tmp_path / "alloys.toml"
    file.write_text(
        '[[material.alloys]]\nid = "SHOP-X"\nname = "mystery"\ncondition = "bar"\niso513 = "P"\n'
        'group = "steel-low-carbon"\ndensity_kg_m3 = 7850\nsource = "none"\n'
    )
    text = run("check", str(file))
    assert "missing  mystery bar: no force" in text
    assert "youngs_modulus_gpa" in text
