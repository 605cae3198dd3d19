"""Alloys by name, with where each property comes from."""

import pytest

import halfnut as hn


def test_alloy_says_where_each_property_comes_from() -> None:
    alloy = hn.alloy("4130 normalised")
    assert alloy.id == "G41300-N"
    assert alloy.kc11_n_mm2 is None
    kinds = {item.figure: item.kind for item in alloy.evidence}
    assert kinds["unit_power_hp_in3_min"] == "handbook"
    assert kinds["hardness_hb"] == "memory"
    assert "kc11_n_mm2" not in kinds


def test_open_condition_is_refused_with_the_choice() -> None:
    with pytest.raises(LookupError, match="'4130 annealed', '4130 normalised'"):
        hn.alloy("4130")


def test_hazards_are_cautions() -> None:
    assert [item.code for item in hn.alloy("Ti grade 2").cautions] == ["hazard_titanium_chips"]
    for row in hn.core.catalogue.rows("material/alloys"):
        assert len(hn.alloy(row["id"]).told) == len(row["hazards"].split())


def test_prints_its_name_first() -> None:
    assert str(hn.alloy("6061")).startswith("6061 T6: wrought aluminium")
