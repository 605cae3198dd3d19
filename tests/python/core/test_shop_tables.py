"""A shop's own rows over the built-in tables."""

import os
import subprocess
import sys

import pytest

import halfnut as hn
from halfnut import _core, cutting
from halfnut.core import catalogue, shop_tables


def drill(catalogue: _core.Catalogue, name: str) -> dict:
    return next(row for row in catalogue.rows("quantity/drills") if row["name"] == name)


def test_rows_from_toml_replace_and_join(tmp_path):
    (tmp_path / "ours.toml").write_text(
        '[[quantity.drills]]\nname = "ZZ"\ndiameter_in = 0.5\nsource = "measured, 3 drills"\n'
        '[[quantity.drills]]\nname = "F"\ndiameter_in = 0.2565\nsource = "reground"\n'
    )
    catalogue = shop_tables.folder_shop(tmp_path)[0]
    assert drill(catalogue, "ZZ")["source"] == {
        "table": str(tmp_path / "ours.toml"),
        "key": "S1",
        "kind": "shop",
        "citation": "measured, 3 drills",
    }
    assert drill(catalogue, "F")["diameter_in"] == 0.2565
    assert drill(catalogue, "G")["source"]["kind"] == "memory"
    assert drill(_core.Catalogue(), "F")["diameter_in"] == 0.257
    assert _core.parse_length("drill F", catalogue).inch == 0.2565


def test_table_files_in_the_built_in_layout(tmp_path):
    (tmp_path / "quantity").mkdir()
    path = tmp_path / "quantity" / "drills.csv"
    path.write_text("# table: ours\n# S1: shop | measured\nname,diameter_in,source\nF,.2565,S1\n")
    assert drill(shop_tables.folder_shop(tmp_path)[0], "F")["diameter_in"] == 0.2565
    path.write_text("# table: ours\n# S1: shop | measured\nname,diameter_in,source\nF,wide,S1\nZZ,.5,S1\n")
    found = shop_tables.lay_folders(_core.Catalogue(), [tmp_path])
    assert [problem.lines() for problem in found.problems] == [
        [f"{path}:4: quantity/drills 'F' cannot be used", "  diameter_in must be a number, got 'wide'"]
    ]
    assert drill(found.catalogue, "ZZ")["diameter_in"] == 0.5
    with pytest.warns(UserWarning, match=r"drills\.csv:4: quantity/drills 'F' cannot be used: diameter_in must be a n"):
        shop_tables.folder_shop(tmp_path)[0]
    assert not [row for row in found.catalogue.rows("quantity/drills") if row["name"] == "F"]  # no silent stand-in


GOOD = '[[quantity.drills]]\nname = "ZZ"\ndiameter_in = 0.5\nsource = "measured"\n'


@pytest.mark.parametrize(
    ("text", "line", "mistakes"),
    [
        ('\n[[quantity.drills]]\nname = "F"\n', 2, ["diameter_in must be a value", "source must be a value"]),
        (
            '[[quantity.drills]]\nname = "F"\ndiametre_in = 1\nsource = "x"\n',
            1,
            ["diameter_in must be a value", "unknown column 'diametre_in'; did you mean 'diameter_in'?"],
        ),
        (
            GOOD + '[[ quantity . "drills" ]]\nname = "ZZ"\ndiameter_in = 1\nsource = "x"\n',
            5,
            ["the row of line 1 has"],
        ),
        ('[[quantity.drills]]\nname = "F"\ndiameter_in = "6 mm"\nsource = "x"\n', 1, ["must be a number, got '6 mm'"]),
        ('[[quantity.drills]]\nname = "F"\ndiameter_in = 1\nsource = " "\n', 1, ["source must be a value"]),
    ],
)
def test_a_bad_row_marks_itself_with_every_mistake(tmp_path, text, line, mistakes):
    (tmp_path / "ours.toml").write_text(text)
    (tmp_path / "quantity").mkdir()
    (tmp_path / "quantity" / "drills.csv").write_text(
        "# table: ours\n# S1: shop | measured\nname,diameter_in,source\nYY,.4,S1\nXX,.3\n"
    )
    found = shop_tables.lay_folders(_core.Catalogue(), [tmp_path])
    assert drill(found.catalogue, "YY")["diameter_in"] == 0.4
    toml, csv = found.problems  # by the names of their files
    assert csv.mistakes == ("2 cells, but the header has 3 columns",)
    assert toml.where == f"{tmp_path / 'ours.toml'}:{line}"
    assert len(toml.mistakes) == len(mistakes)
    for told, wanted in zip(toml.mistakes, mistakes, strict=True):
        assert wanted in told


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ('[[quantity.drill]]\nname = "F"\n', "no table 'quantity/drill'"),
        ("[[quantity.drills\n", "not TOML"),
        ('\ufeff[[quantity.drills]]\nname = "Ø"\n'.encode("utf-16"), "UTF-16 text, by byte 1 of the file"),
        (b'\n[[quantity.drills]]\nname = "\xd8"\n', "not UTF-8 text: byte 0xd8 in line 3, byte 30 of the file"),
    ],
)
def test_a_bad_file_stops_itself_only(tmp_path, text, message):
    (tmp_path / "bad.toml").write_bytes(text if isinstance(text, bytes) else text.encode())
    (tmp_path / "ours.toml").write_bytes(b"\xef\xbb\xbf" + GOOD.encode())
    found = shop_tables.lay_folders(_core.Catalogue(), [tmp_path])
    assert drill(found.catalogue, "ZZ")["diameter_in"] == 0.5
    (problem,) = found.problems
    assert problem.where == str(tmp_path / "bad.toml")
    assert message in problem.mistakes[0]


def test_a_later_folder_puts_a_row_right(tmp_path):
    for name, diameter in (("first", '"wide"'), ("second", "0.25")):
        (tmp_path / name).mkdir()
        (tmp_path / name / "ours.toml").write_text(
            f'[[quantity.drills]]\nname = "F"\ndiameter_in = {diameter}\nsource = "x"\n'
        )
    found = shop_tables.lay_folders(_core.Catalogue(), [tmp_path / "first", tmp_path / "second"])
    assert found.problems == ()
    assert drill(found.catalogue, "F")["diameter_in"] == 0.25


GUNMETAL = {
    "id": "LG2", "name": "gunmetal", "condition": "as cast", "iso513": "N", "group": "bronze-bearing",
    "hardness_hb": 65, "density_kg_m3": 8800, "youngs_modulus_gpa": 90, "tensile_mpa": 220, "source": "data sheet",
}  # fmt: skip


def alloys(folder, *rows):
    lines = []
    for row in rows:
        lines.append("[[material.alloys]]")
        lines += [f"{key} = {value!r}" for key, value in row.items() if value is not None]
    (folder / "alloys.toml").write_text("\n".join(lines) + "\n")


@pytest.fixture
def shop(tmp_path):
    """Makes tables of rows of alloys the active ones, and gives the mistakes in them."""
    before = hn.core.catalogue.active()

    def activate(*rows):
        alloys(tmp_path, *rows)
        found = shop_tables.lay_folders(_core.Catalogue(), [tmp_path])
        hn.core.catalogue.activate(found.catalogue)
        return found.problems

    yield activate
    hn.core.catalogue.activate(before)


def test_a_bad_alloy_is_refused_by_any_of_its_names_and_the_others_answer(shop):
    bad = GUNMETAL | {
        "group": "bronze-bering", "density_kg_m3": 8.8, "iso513": "X", "hazards": "dusty", "hardness_hb": "60 HRB",
        "source": None, "tensile_ksi": 32,
    }  # fmt: skip
    (problem,) = shop(bad, GUNMETAL | {"id": "LG4", "name": "leaded gunmetal"})
    assert problem.where.endswith("alloys.toml:1")
    wanted = (
        "iso513 must be one of H K M N P S, got 'X'", "hardness_hb must be a number, got '60 HRB'",
        "source must be a value", "unknown column 'tensile_ksi'; did you mean 'tensile_mpa'?",
        "density_kg_m3 must be 100 to 25000 kg/m3, got '8.8'",
        "no group 'bronze-bering'; did you mean 'bronze-bearing'?; the groups are aluminium, ",
        "hazards must be of the words beryllium_dust",
    )  # fmt: skip
    assert len(problem.mistakes) == len(wanted)
    for told, text in zip(problem.mistakes, wanted, strict=True):
        assert told.startswith(text)
    for name in ("LG2", "gunmetal", "Gunmetal as-cast"):
        with pytest.raises(hn.TableError) as refused:
            hn.turn(name, "1 in")
        assert all(mistake in str(refused.value) for mistake in problem.mistakes)
        assert str(refused.value).startswith(problem.where)
    assert hn.alloy("leaded gunmetal").hardness_hb == 65
    assert hn.alloy("6061-T6").id == "A96061"


def test_a_bad_row_for_a_built_in_alloy_is_not_answered_from_the_built_in_one(shop):
    (problem,) = shop(GUNMETAL | {"id": "A96061", "name": "6061", "condition": "T6", "tensile_mpa": -1})
    assert problem.mistakes == ("tensile_mpa must be 1 to 5000 MPa, got '-1'",)
    with pytest.raises(hn.TableError, match="tensile_mpa must be 1 to 5000 MPa"):
        hn.turn("6061-T6", "1 in")
    done = hn.batch.turn({"alloy": ["6061-T6", "1018"], "diameter_mm": [25.0, 25.0], "depth_mm": [1.0, 1.0]})
    assert (done["status"] != 0).tolist() == [True, False]


def test_every_built_in_alloy_passes_as_a_row_of_a_shop(shop):
    rows = hn.core.catalogue.rows("material/alloys")
    texts = [
        {key: value for key, value in row.items() if value is not None and not isinstance(value, dict) and value != ""}
        | {"source": "as built in"}
        for row in rows
    ]
    assert len(texts) >= 50
    assert shop(*texts) == ()


def test_columns_that_a_machinist_does_not_know_may_be_left_out(shop):
    bare = {key: GUNMETAL[key] for key in ("id", "name", "condition", "iso513", "group", "density_kg_m3", "source")}
    assert shop(bare) == ()
    cut = hn.turn("gunmetal", "1 in", machine="gap-bed", stick_out="4 in", depth="0.04 in")
    assert cut.spindle_rpm > 0
    assert (cut.cutting_force_n, cut.deflection_mm, cut.holds_at_edge) == (None, None, None)
    text = " ".join(cut.why().split())
    assert "nan" not in text
    assert "no force, power or torque: the row of gunmetal as cast gives none of kc11_n_mm2 with mc" in text
    assert "no deflection or whirl of the work: the row of gunmetal as cast gives no youngs_modulus_gpa" in text
    assert "nan" not in str(hn.alloy("gunmetal"))
    for ask in (
        lambda: hn.turn("gunmetal", "1 in", stick_out="4 in", deflection="0.1 mm"),
        lambda: hn.hold("gunmetal", "1 in", stick_out="4 in"),
        lambda: cutting.work_bend([("6 in", "1 in")], force="100 N", alloy="gunmetal"),
    ):
        with pytest.raises(hn.NotTabulatedError, match=r"the row of gunmetal as cast gives no"):
            ask()


def test_without_youngs_modulus_only_the_deflection_is_not_answered(shop):
    assert shop(GUNMETAL, GUNMETAL | {"id": "LG3", "name": "soft gunmetal", "youngs_modulus_gpa": None}) == ()
    for how in ({}, {"stick_out": "4 in"}):
        whole, less = (
            hn.turn(name, "1 in", machine="gap-bed", depth="0.04 in", **how) for name in ("gunmetal", "soft gunmetal")
        )
        assert less.cutting_force_n == whole.cutting_force_n
        assert less.spindle_rpm == whole.spindle_rpm
        assert less.deflection_mm is None
        assert (whole.deflection_mm is None) == (not how)
    asked = {"machine": "gap-bed", "length": "1 in", "brief": True}
    assert hn.choose("turn", "soft gunmetal", "1 in", "0.9 in", stick_out="2 in", **asked).found


def test_without_youngs_modulus_nothing_is_silently_free_of_whirl(shop):
    """One cut, a batch and a choice caution slender work alike; what cannot do without the modulus is refused."""
    soft = "soft gunmetal"
    assert shop(GUNMETAL, GUNMETAL | {"id": "LG3", "name": soft, "youngs_modulus_gpa": None}) == ()
    lengths = {20.0: False, 75.0: False, 100.0: True, 300.0: True}
    how = {"alloy": soft, "machine": "metric-lathe", "hold": "chuck"}
    jobs = {"diameter_mm": [20.0] * 4, "depth_mm": [0.5] * 4, "length_mm": list(lengths)}
    done = hn.batch.turn(jobs, columns=["cautions", "status", "spindle_rpm"], **how)
    assert done["status"].tolist() == [0] * 4
    for row, (length, unknown) in enumerate(lengths.items()):
        cut = hn.turn(soft, "20 mm", depth="0.5 mm", length=f"{length} mm", machine="metric-lathe", hold="chuck")
        assert ("whirl_unknown" in {item.code for item in cut.cautions}) == unknown
        assert ("whirl_unknown" in hn.batch.cautions(int(done["cautions"][row]))) == unknown
        assert done["spindle_rpm"][row] == cut.spindle_rpm
    slender = {"length": "100 mm", "machine": "metric-lathe", "hold": "chuck", "brief": True}
    assert "whirl_unknown" in {item.code for item in hn.choose("turn", soft, "20 mm", "19 mm", **slender).cautions}
    needs = r"{} needs the alloy's youngs_modulus_gpa, which its row does not give"
    for name in ("bar_behind", "bar_length"):
        told = {name: "900 mm", "machine": "metric-lathe"}
        for ask in (
            lambda told=told: hn.turn(soft, "20 mm", length="20 mm", **told),
            lambda told=told: hn.drill(soft, "5 mm", stock="20 mm", **told),
            lambda told=told: hn.choose("turn", soft, "20 mm", "19 mm", length="20 mm", **told),
        ):
            with pytest.raises(hn.NotTabulatedError, match=needs.format(name)):
                ask()
        jobs = {"diameter_mm": [20.0], "length_mm": [20.0], f"{name}_mm": [900.0]}
        done = hn.batch.turn(jobs, alloy=soft, machine="metric-lathe", columns=["reason", "status"])
        assert needs.format(f"{name}_mm").removesuffix(" give") in hn.batch.reasons(done, "turn", jobs)[0]


def test_one_bad_alloy_for_every_row_of_a_batch_is_refused_with_its_mistakes(shop):
    shop(GUNMETAL | {"iso513": "X"})
    for alloy, words in (("gunmetal", "iso513 must be one of H K M N P S, got 'X'"), ("4130", "say which of")):
        with pytest.raises(hn.Error, match=words):
            hn.batch.turn({"diameter_mm": [20.0]}, alloy=alloy)
    jobs = {"alloy": ["gunmetal"], "diameter_mm": [20.0]}
    assert "iso513 must be one of" in hn.batch.reasons(hn.batch.turn(jobs), "turn", jobs)[0]


def test_a_row_that_is_like_another_gives_only_what_differs(shop):
    assert shop({"id": "LG2", "name": "gunmetal", "like": "C93200", "tensile_mpa": 222, "source": "data sheet"}) == ()
    own, base = hn.alloy("gunmetal"), hn.alloy("C93200")
    assert (own.id, own.name, own.condition, own.tensile_mpa) == ("LG2", "gunmetal", base.condition, 222)
    assert (own.group, own.density_kg_m3, own.kc11_n_mm2) == (base.group, base.density_kg_m3, base.kc11_n_mm2)
    cited = {item.figure: (item.row, item.kind, item.source) for item in own.evidence}
    assert cited["tensile_mpa"] == (
        "material/alloys LG2", "shop", f"data sheet; what the row leaves out is that of {base.title}"
    )  # fmt: skip
    assert cited["density_kg_m3"][:2] == ("material/alloys C93200", "memory")
    # the specific cutting force is the other's; printed speeds of an alloy's own number are of that alloy alone
    asked = {"depth": "0.04 in", "feed": "0.005 in/rev", "spindle_rpm": 500}
    assert hn.turn("gunmetal", "1 in", **asked).cutting_force_n == pytest.approx(
        hn.turn("C93200", "1 in", **asked).cutting_force_n
    )


@pytest.mark.parametrize(
    ("row", "wanted"),
    [
        (
            {"id": "LG2", "name": "gunmetal", "like": "bearing bronz", "source": "x"},
            "like: no alloy 'bearing bronz'; did",
        ),
        ({"id": "LG2", "like": "C93200", "source": "x"}, "name must be a value, got ''"),
        ({"id": "LG2", "name": "gunmetal", "like": "C93200"}, "source must be a value, got ''"),
        ({"name": "gunmetal", "like": "C93200", "source": "x"}, "id must be a value, got ''"),
    ],
)
def test_what_a_row_that_is_like_another_must_say(shop, row, wanted):
    (problem,) = shop(row)
    assert problem.mistakes[0].startswith(wanted)


def halfnut(*words, cwd, **variables):
    return subprocess.run(
        [sys.executable, "-m", "halfnut", *words], cwd=cwd, env=os.environ | variables, capture_output=True,
        encoding="utf-8",
    )  # fmt: skip


def test_at_the_command_a_bad_row_is_one_note_and_stops_only_what_needs_it(tmp_path):
    alloys(tmp_path, GUNMETAL | {"density_kg_m3": None, "group": "bronz"}, GUNMETAL | {"id": "X", "iso513": "x"})
    (tmp_path / "machines").mkdir()
    (tmp_path / "machines" / "old.toml").write_text("name = 'old'\n")
    bare = halfnut("knurl", "--help", cwd=tmp_path, HALFNUT_SHOP=str(tmp_path))
    assert (bare.returncode, bare.stderr) == (0, "")  # no table is asked
    for words in (("machine", "list"), ("cylindrical-fit", "17 k5"), ("turn", "1018", "1in")):
        out = halfnut(*words, cwd=tmp_path, HALFNUT_SHOP=str(tmp_path))
        assert out.returncode == 0, (words, out.stderr)
        (note,) = out.stderr.splitlines()
        assert note.startswith(f"halfnut: note: {tmp_path / 'alloys.toml'}:1: material/alloys 'LG2' cannot be used")
        assert note.endswith("; and 1 more: `halfnut shop check FOLDER` names all")
        assert ("old" in out.stdout and "unreadable" in out.stdout) == (words == ("machine", "list"))
    out = halfnut("turn", "gunmetal", "1in", cwd=tmp_path, HALFNUT_SHOP=str(tmp_path))
    assert out.returncode == 2
    assert "density_kg_m3 must be a value" in out.stderr.splitlines()[1]
    assert "no group 'bronz'" in out.stderr.splitlines()[1]
    out = halfnut("shop", "check", str(tmp_path), cwd=tmp_path)
    assert out.returncode == 1
    assert out.stderr == ""
    assert len([line for line in out.stdout.splitlines() if "cannot be used" in line]) == 2
    alloys(tmp_path, GUNMETAL)
    out = halfnut("shop", "check", str(tmp_path), cwd=tmp_path)
    assert (out.returncode, out.stdout) == (0, f"{tmp_path}: every row can be used\n")
    assert halfnut("shop", "check", str(tmp_path / "gone"), cwd=tmp_path).returncode == 2


def test_a_bad_row_of_a_tool_is_said_where_the_tool_is_asked_for(tmp_path):
    (tmp_path / "tools.toml").write_text(
        '[[cutting.tools]]\nid = "finisher"\nname = "finisher"\ntool_material = "carbid"\nsource = "box"\n'
    )
    out = halfnut("turn", "1018", "1in", "--tool", "finisher", cwd=tmp_path, HALFNUT_SHOP=str(tmp_path))
    assert out.returncode == 2
    assert "tool_material must be one of" in out.stderr.splitlines()[-1]


def test_folder_from_the_environment_and_one_that_is_not_there(tmp_path, monkeypatch):
    monkeypatch.setenv(catalogue.FOLDER_VARIABLE, str(tmp_path))
    assert catalogue.active_folders() == (tmp_path,)
    monkeypatch.setenv(catalogue.FOLDER_VARIABLE, str(tmp_path / "gone"))
    with pytest.raises(hn.TableError, match="no such shop folder"):
        catalogue.active()


def package(site, name, body):
    """An installed package whose entry point is a function `folder`."""
    info = site / f"{name}-1.dist-info"
    info.mkdir(parents=True)
    (info / "METADATA").write_text(f"Name: {name.replace('_', '-')}\nVersion: 1\n")
    (info / "entry_points.txt").write_text(f"[halfnut.tables]\n{name} = {name}:folder\n")
    (site / f"{name}.py").write_text(body)


def test_an_installed_package_brings_a_folder(tmp_path, monkeypatch):
    package(tmp_path / "site", "club_tables", f"def folder():\n    return {str(tmp_path)!r}\n")
    (tmp_path / "ours.toml").write_text('[[quantity.drills]]\nname = "F"\ndiameter_in = 0.2565\nsource = "club"\n')
    monkeypatch.syspath_prepend(str(tmp_path / "site"))
    assert drill(shop_tables.process_shop()[0], "F")["source"]["citation"] == "club"


@pytest.mark.parametrize(
    ("body", "told"),
    [
        ("raise RuntimeError('no licence')\n", "RuntimeError: no licence"),
        ("import sys\nsys.exit(7)\n", "SystemExit: 7"),
        ("def folder():\n    return 5\n", "TableError: folder must be a path, got 5"),
        ("folder = '/no/such/folder'\n", "/no/such/folder: no such shop folder"),
        ("", "AttributeError: "),
    ],
)
def test_a_package_that_fails_is_named_and_the_rest_works(tmp_path, monkeypatch, body, told):
    site = tmp_path / "site"
    package(site, "bad_tables", body)
    package(site, "club_tables", f"def folder():\n    return {str(tmp_path)!r}\n")
    (tmp_path / "ours.toml").write_text('[[quantity.drills]]\nname = "F"\ndiameter_in = 0.2565\nsource = "club"\n')
    monkeypatch.syspath_prepend(str(site))
    monkeypatch.delitem(sys.modules, "bad_tables", raising=False)
    monkeypatch.delitem(sys.modules, "club_tables", raising=False)
    with pytest.warns(UserWarning, match=r"^package bad-tables \(bad_tables\): its tables cannot be used: ") as warned:
        catalogue, _ = shop_tables.process_shop()
    assert told in str(warned[0].message)
    assert drill(catalogue, "F")["source"]["citation"] == "club"
    out = halfnut("cylindrical-fit", "17 k5", cwd=tmp_path, PYTHONPATH=str(site))
    assert out.returncode == 0
    assert len(out.stderr.splitlines()) == 1
    assert out.stderr.startswith("halfnut: note: package bad-tables")
