"""A shop's own rows over the built-in tables."""

import pytest

import halfnut as hn
from halfnut import _core, catalogue, shop_tables


def drill(tables: _core.Catalogue, name: str) -> dict:
    return next(row for row in tables.rows("quantity/drills") if row["name"] == name)


def test_rows_from_toml_replace_and_join(tmp_path):
    (tmp_path / "ours.toml").write_text(
        '[[quantity.drills]]\nname = "ZZ"\ndiameter_in = 0.5\nsource = "measured, 3 drills"\n'
        '[[quantity.drills]]\nname = "F"\ndiameter_in = 0.2565\nsource = "reground"\n'
    )
    ours = shop_tables.load(tmp_path)
    assert drill(ours, "ZZ")["source"] == {
        "table": f"{tmp_path / 'ours.toml'} [[quantity.drills]]",
        "key": "S1",
        "kind": "shop",
        "citation": "measured, 3 drills",
    }
    assert drill(ours, "F")["diameter_in"] == 0.2565
    assert drill(ours, "G")["source"]["kind"] == "memory"
    assert drill(_core.Catalogue(), "F")["diameter_in"] == 0.257
    assert _core.parse_length("drill F", ours).inches == 0.2565


def test_table_files_in_the_built_in_layout(tmp_path):
    (tmp_path / "quantity").mkdir()
    path = tmp_path / "quantity" / "drills.csv"
    path.write_text("# table: ours\n# S1: shop | measured\nname,diameter_in,source\nF,.2565,S1\n")
    assert drill(shop_tables.load(tmp_path), "F")["diameter_in"] == 0.2565
    path.write_text("# table: ours\n# S1: shop | measured\nname,diameter_in,source\nF,wide,S1\n")
    with pytest.raises(hn.TableError, match=r"drills\.csv:4: diameter_in must be a number, got 'wide'"):
        shop_tables.load(tmp_path)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ('[[quantity.drill]]\nname = "F"\n', "no table 'quantity/drill'"),
        ('[[quantity.drills]]\nname = "F"\nsource = "x"\n', "no column 'diameter_in'"),
        ('[[quantity.drills]]\nname = "F"\ndiametre_in = 1\n', "diameter_in"),
        ("[[quantity.drills\n", "ours.toml"),
        ('[[quantity.drills]]\nname = "F"\ndiameter_in = 1\nsource = "x"\n' * 2, "unique by key"),
    ],
)
def test_mistakes_are_named(tmp_path, text, message):
    (tmp_path / "ours.toml").write_text(text)
    with pytest.raises(hn.Error, match=message):
        shop_tables.load(tmp_path)


def test_folder_from_the_environment_and_one_that_is_not_there(tmp_path, monkeypatch):
    monkeypatch.setenv(shop_tables.FOLDER_VARIABLE, str(tmp_path))
    assert catalogue.active_folders() == (tmp_path,)
    monkeypatch.setenv(shop_tables.FOLDER_VARIABLE, str(tmp_path / "gone"))
    with pytest.raises(hn.TableError, match="no such shop folder"):
        shop_tables.load()


def test_an_installed_package_brings_a_folder(tmp_path, monkeypatch):
    (tmp_path / "site" / "club_tables-1.dist-info").mkdir(parents=True)
    (tmp_path / "site" / "club_tables-1.dist-info" / "METADATA").write_text("Name: club-tables\nVersion: 1\n")
    (tmp_path / "site" / "club_tables-1.dist-info" / "entry_points.txt").write_text(
        "[halfnut.tables]\nclub = club_tables:folder\n"
    )
    (tmp_path / "site" / "club_tables.py").write_text(f"def folder():\n    return {str(tmp_path)!r}\n")
    (tmp_path / "ours.toml").write_text('[[quantity.drills]]\nname = "F"\ndiameter_in = 0.2565\nsource = "club"\n')
    monkeypatch.syspath_prepend(str(tmp_path / "site"))
    monkeypatch.setattr(catalogue, "_of_process", {})
    shop_tables.package_folders.cache_clear()
    try:
        assert drill(shop_tables.load(), "F")["source"]["citation"] == "club"
        assert hn.quantity("drill F", "length").value == 0.2565
    finally:
        shop_tables.package_folders.cache_clear()
