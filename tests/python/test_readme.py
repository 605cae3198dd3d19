"""Every command and every block of code in README does what it says, where only Halfnut and what it must have is."""

import json
import os
import re
import shlex
import subprocess
import sys
import venv
from importlib.metadata import distribution
from pathlib import Path

import pytest
from packaging.requirements import Requirement

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```(\w*)\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)
# what builds and tests Halfnut itself cannot run within its own tests; each is run there by other means
BUILDING = {"./shop", "pip", "cmake"}


def commands():
    """The commands of all shell blocks, comments taken off."""
    lines = [line for language, block in BLOCKS if language == "sh" for line in block.splitlines()]
    return [words for words in (shlex.split(line, comments=True) for line in lines) if words]


def hard_requirements(name="halfnut"):
    """Distributions that come with one that is installed without extras, itself first."""
    found = {name: distribution(name)}
    for text in found[name].requires or ():
        wanted = Requirement(text)
        if wanted.marker is None or wanted.marker.evaluate({"extra": ""}):
            found |= hard_requirements(wanted.name)
    return found


@pytest.fixture(scope="module")
def python(tmp_path_factory):
    """The interpreter of a new environment: the files that the wheel installs, and those of its hard requirements."""
    home = tmp_path_factory.mktemp("first_install")
    venv.create(home, symlinks=True)
    (site,) = home.glob("lib/python*/site-packages")
    for each in hard_requirements().values():
        root = Path(each.locate_file(""))
        for top in {file.parts[0] for file in each.files if file.parts[0] != ".."}:
            (site / top).symlink_to(root / top)
    return home / "bin" / "python"


def run(python, *words, cwd, **variables):
    plain = {key: value for key, value in os.environ.items() if not key.startswith(("PYTHON", "HALFNUT"))}
    plain["XDG_CONFIG_HOME"] = str(cwd / ".config")
    return subprocess.run([python, *words], cwd=cwd, env=plain | variables, capture_output=True, encoding="utf-8")


def test_a_new_environment_holds_no_extra(python, tmp_path):
    assert set(hard_requirements()) >= {"halfnut", "numpy", "click", "jinja2"}
    for module in ("matplotlib", "pandas", "pyarrow", "polars", "dask", "pint", "ipywidgets", "pytest"):
        assert run(python, "-c", f"import {module}", cwd=tmp_path).returncode == 1, module
    assert run(python, "-c", "import halfnut; print(halfnut.__file__)", cwd=tmp_path).stdout.startswith(
        str(python.parents[1])
    )


@pytest.mark.parametrize(
    ("words", "extra"),
    [
        ("choose turn 6061-T6 1.5in 1.25in --length 2in --machine gap-bed --out passes.svg", "plot"),
        ("batch drill jobs.csv --out answers.parquet", "arrow"),
        ("batch drill jobs.parquet --out answers.csv", "arrow"),
    ],
)
def test_a_command_that_needs_an_extra_names_it_in_one_line(python, tmp_path, words, extra):
    (tmp_path / "jobs.csv").write_text("alloy,diameter_mm\n6061-T6,5\n", encoding="utf-8")
    (tmp_path / "jobs.parquet").write_text("PAR1", encoding="utf-8")
    out = run(python, "-m", "halfnut", *shlex.split(words), cwd=tmp_path)
    assert out.returncode == 3, out.stderr
    assert re.fullmatch(rf"halfnut: this needs \w+: pip install 'halfnut\[{extra}\]'\n", out.stderr)
    assert not list(tmp_path.glob("passes.*")) + list(tmp_path.glob("answers.*"))


DEMO_JOB = (
    "{'title': 't', 'machine': 'gap-bed', 'parts': [{'name': 'pin', 'quantity': 1, 'alloy': '6061-T6',"
    " 'length': '2 in', 'stock': {'form': 'bar', 'diameter': '1 in'},"
    " 'operations': [{'do': 'turn', 'to': '0.9 in', 'length': '1 in'}]}]}"
)


@pytest.mark.parametrize(
    ("code", "extra"),
    [
        (f"hn.plan({DEMO_JOB}).to_frame()", "pandas"),
        ("hn.batch.meta('drill')", "pandas"),
        ("hn.force_map('6061-T6', '1 in', machine='gap-bed')", "plot"),
        ("hn.pass_plan(hn.choose('turn', '6061-T6', '32 mm', '28 mm', length='9 mm', machine='metric-lathe'))", "plot"),
        ("hn.drawing.train_plot(hn.gear_train('1.5 mm', machine='gap-bed')[0])", "plot"),
    ],
)
def test_a_function_that_needs_an_extra_names_it(python, tmp_path, code, extra):
    script = (
        "import json, halfnut as hn\ntry:\n    " + code + "\nexcept ImportError as error:\n"
        "    print(json.dumps([str(error), isinstance(error, hn.Error)]))"
    )
    out = run(python, "-c", script, cwd=tmp_path)
    assert out.returncode == 0, out.stderr
    text, ours = json.loads(out.stdout)
    assert text.endswith(f": pip install 'halfnut[{extra}]'")
    assert ours


def test_lazy_imports_go_through_the_one_helper():
    """No module of the package imports an extra by itself, but for types."""
    lazy = re.compile(r"^ +(?:import|from) (?:matplotlib|pandas|pyarrow|polars|dask|pint|IPython|ipywidgets)\b", re.M)
    for path in (ROOT / "python" / "halfnut").rglob("*.py"):
        text = re.sub(r"^if TYPE_CHECKING:\n(?:(?: {4}.*)?\n)+", "", path.read_text(encoding="utf-8"), flags=re.M)
        assert not lazy.search(text), path


def test_the_extra_for_notebooks_brings_what_they_import():
    texts = (
        "".join(cell["source"])
        for path in (ROOT / "notebooks").glob("*.ipynb")
        for cell in json.loads(path.read_text(encoding="utf-8"))["cells"]
        if cell["cell_type"] == "code"
    )
    imported = {name.lower() for text in texts for name in re.findall(r"^\s*(?:import|from) (\w+)", text, re.M)}
    named = [Requirement(text) for text in distribution("halfnut").requires]
    extras, brought = {"notebooks"}, set()
    for _ in named:  # extras name extras
        for each in named:
            if each.marker is None or any(each.marker.evaluate({"extra": extra}) for extra in extras):
                brought.add(each.name.lower())
                extras |= each.extras if each.name == "halfnut" else set()
                brought |= {"distributed"} if "distributed" in each.extras else set()
    outside = imported - set(sys.stdlib_module_names) - {"halfnut"}
    assert {"matplotlib", "dask", "pyarrow"} <= outside
    assert outside <= brought, outside - brought


def test_there_is_something_to_run():
    assert {language for language, _ in BLOCKS} == {"sh", "python", "toml"}
    assert len([words for words in commands() if words[0] == "halfnut"]) >= 9


def test_commands_run_in_the_order_they_stand(python, tmp_path):
    for language, block in BLOCKS:
        if language == "toml":  # its first line names the file
            path = tmp_path / block.splitlines()[0].removeprefix("# ")
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(block, encoding="utf-8")
    for words in commands():
        if words[0] in BUILDING:
            continue
        variables = dict(word.split("=", 1) for word in words if re.fullmatch(r"HALFNUT_\w+=.*", word))
        words = words[len(variables) :]
        assert words[0] == "halfnut", words
        out = run(python, "-m", *words, cwd=tmp_path, **variables)
        assert out.returncode == 0, f"{shlex.join(words)}\n{out.stderr}"
        assert out.stdout.strip(), words


def test_the_ordinary_ways_in_are_there():
    named = {tuple(words) for words in commands() if words[0] in BUILDING}
    shop = (ROOT / "shop").read_text(encoding="utf-8")
    presets = (ROOT / "CMakePresets.json").read_text(encoding="utf-8")
    for words in named:
        if words[0] == "./shop":
            assert re.search(rf"^    {words[1]}\) ", shop, re.MULTILINE), words
        elif words[0] == "cmake":
            assert f'"{words[-1]}"' in presets, words
        else:
            assert words == ("pip", "install", "."), words


@pytest.mark.parametrize("code", [block for language, block in BLOCKS if language == "python"])
def test_python_blocks_run(code, python, tmp_path):
    out = run(python, "-c", code, cwd=tmp_path)
    assert out.returncode == 0, out.stderr
    assert out.stdout.strip()
