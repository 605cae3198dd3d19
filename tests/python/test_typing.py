"""Types as callers see them: what mypy and pyright accept and refuse, and how much of the package they know."""

import ast
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import halfnut as hn

TYPING = Path(__file__).parents[1] / "typing"
PACKAGE = Path(hn.__file__).parent
PYRIGHT = shutil.which("pyright", path=os.pathsep.join([str(Path(sys.executable).parent), os.environ["PATH"]]))


def run(*command, where):
    environment = os.environ | {"MYPY_CACHE_DIR": str(where / "mypy"), "PYRIGHT_PYTHON_IGNORE_WARNINGS": "1"}
    return subprocess.run(command, cwd=where, env=environment, capture_output=True, text=True)


def marked(path):
    """Lines that are to be refused."""
    lines = path.read_text(encoding="utf-8").splitlines()
    return {number for number, line in enumerate(lines, 1) if line.endswith("# refused")}


@pytest.fixture(scope="module")
def of_mypy(tmp_path_factory):
    where = tmp_path_factory.mktemp("mypy")
    files = [shutil.copy(path, where) for path in sorted(TYPING.glob("*.py"))]
    done = run(sys.executable, "-m", "mypy", "--strict", "--output", "json", *files, where=where)
    return [json.loads(line) for line in done.stdout.splitlines() if line.startswith("{")]


@pytest.fixture(scope="module")
def of_pyright(tmp_path_factory):
    if PYRIGHT is None:
        pytest.skip("pyright is not installed")
    where = tmp_path_factory.mktemp("pyright")
    files = [shutil.copy(path, where) for path in sorted(TYPING.glob("*.py"))]
    done = run(PYRIGHT, "--outputjson", "--pythonpath", sys.executable, *files, where=where)
    return json.loads(done.stdout)["generalDiagnostics"]


def refused_by(found, file, line):
    return {line(each) for each in found if Path(each["file"]).name == file and each["severity"] == "error"}


def test_mypy_accepts_and_refuses(of_mypy):
    assert refused_by(of_mypy, "accepted.py", lambda each: (each["line"], each["message"])) == set()
    assert refused_by(of_mypy, "refused.py", lambda each: each["line"]) == marked(TYPING / "refused.py")


def test_pyright_accepts_and_refuses(of_pyright):
    accepted = refused_by(of_pyright, "accepted.py", lambda each: (each["range"]["start"]["line"] + 1, each["message"]))
    assert accepted == set()
    refused = refused_by(of_pyright, "refused.py", lambda each: each["range"]["start"]["line"] + 1)
    assert refused == marked(TYPING / "refused.py")


def test_pyright_knows_every_type(tmp_path):
    if PYRIGHT is None:
        pytest.skip("pyright is not installed")
    command = (PYRIGHT, "--verifytypes", "halfnut", "--ignoreexternal", "--outputjson", "--pythonpath", sys.executable)
    found = json.loads(run(*command, where=tmp_path).stdout)["typeCompleteness"]
    told = [
        f"{each['name']}: {item['message']}"
        for each in found["symbols"]
        if each["isExported"] and not each["isTypeKnown"]
        for item in each["diagnostics"] or [{"message": "unknown"}]
    ]
    assert sum(each["isExported"] for each in found["symbols"]) > 3000
    assert told == []


def test_no_argument_is_any():
    """Of every function, the machinery's and the core's too; and every argument has its type."""
    asked, loose = 0, []
    for path in sorted([*PACKAGE.rglob("*.py"), *PACKAGE.rglob("*.pyi")]):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.FunctionDef):
                continue
            asked += 1
            given = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs, node.args.vararg, node.args.kwarg]
            for each in filter(None, given):
                typed = each.annotation and ast.unparse(each.annotation)
                if typed in {None, "Any", "Any | None", "Sequence[Any]"} and each.arg not in {"self", "cls"}:
                    loose.append(f"{path.stem}.{node.name}: {each.arg}")
    assert asked > 700
    assert loose == []
