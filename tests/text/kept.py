"""What Halfnut prints, kept: every command of README, the help of every command, and answers to every question.

A question is asked as records.toml says, else by its own example. `./shop text` writes the files anew; a test compares
them. They hold form only: numbers are checked elsewhere.
"""

from __future__ import annotations

import json
import os
import re
import shlex
import subprocess
import sys
import tempfile
from importlib import resources
from pathlib import Path
from typing import Any

import click

import halfnut as hn
from halfnut import cli
from halfnut.cli import asking
from halfnut.core.questions import declared

if sys.version_info >= (3, 11):
    import tomllib
else:
    import tomli as tomllib

HERE = Path(__file__).resolve().parent
README = (HERE.parents[1] / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```(\w*)\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)


def readme_commands() -> list[tuple[dict[str, str], list[str]]]:
    """Every command of README but those that build: the variables before it, its words."""
    found = []
    for line in (line for language, block in BLOCKS if language == "sh" for line in block.splitlines()):
        words = shlex.split(line, comments=True)
        variables = dict(word.split("=", 1) for word in words if re.fullmatch(r"HALFNUT_\w+=.*", word))
        if words[len(variables) :][:1] == ["halfnut"]:
            found.append((variables, words[len(variables) + 1 :]))
    return found


def run(words: list[str], folder: str, variables: dict[str, str] | None = None) -> str:
    """What a command prints, its errors marked, and its exit status."""
    environment = os.environ | {"XDG_CONFIG_HOME": f"{folder}/.config"} | (variables or {})
    command = [sys.executable, "-m", "halfnut", *words]
    done = subprocess.run(command, cwd=folder, env=environment, capture_output=True, encoding="utf-8")
    errors = "".join(f"! {line}\n" for line in done.stderr.splitlines())
    told = f"{done.stdout}{errors}".replace(f"{folder}/", "~/")
    return f"$ {shlex.join(['halfnut', *words])}\n{told}exit status {done.returncode}\n"


def slug(words: list[str]) -> str:
    """A file's name for a command."""
    return re.sub(r"[^a-z0-9]+", "-", " ".join(words).lower()).strip("-")[:60].strip("-")


def readme_pages() -> dict[str, str]:
    """A page for each command of README, in the order in which they stand: some need what an earlier one wrote."""
    with tempfile.TemporaryDirectory() as folder:
        for language, block in BLOCKS:
            if language == "toml":  # its first line names the file
                path = Path(folder, block.splitlines()[0].removeprefix("# "))
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_text(block, encoding="utf-8")
        return {f"readme/{slug(words)}.txt": run(words, folder, variables) for variables, words in readme_commands()}


def help_pages() -> dict[str, str]:
    """A page for the help of each command, those within `machine` and its like included."""
    pages = {}

    def add(command: click.Command, words: list[str]) -> None:
        context = click.Context(
            command, info_name=" ".join(["halfnut", *words]), max_content_width=100, help_option_names=["-h", "--help"]
        )
        pages[f"help/{slug(words) or 'halfnut'}.txt"] = command.get_help(context) + "\n"
        if isinstance(command, click.Group):
            for name in command.list_commands(context):
                inner = command.get_command(context, name)
                assert inner is not None
                add(inner, [*words, name])

    add(cli.command, [])
    return pages


def demo(name: str) -> str:
    """A file of the demo."""
    return str(resources.files("halfnut") / "demo" / name)


def answer(question: str) -> str:
    """What a question's answer prints, or the error that it gets."""
    try:
        found = eval(question, {"hn": hn, "demo": demo})
    except hn.Error as error:
        return f"{type(error).__name__}: {error}"
    return "\n".join(str(each) for each in found) if isinstance(found, list) else str(found)


def example(question: dict[str, Any]) -> dict[str, Any]:
    """The values of a question's own example."""
    words = shlex.split(question["example"].splitlines()[0])
    names = {row["name"] for row in question["arguments"]}
    command = cli.command.get_command(click.Context(cli.command), words[0])
    if command is None or not names <= {parameter.name for parameter in command.params}:
        command = asking.command(question["name"])
    given = command.make_context(words[0], words[1:], help_option_names=["-h", "--help"]).params
    values = {key: value for key, value in given.items() if key in names and value not in (None, (), False)}
    return {key: list(value) if isinstance(value, tuple) else value for key, value in values.items()}


def asked_as(question: dict[str, Any]) -> str:
    """A question's own example as Python asks it; what a person gives by its place stands without its name."""
    values, function = example(question), question["name"]
    rows = sorted(question["arguments"], key=lambda row: not row["placed"])
    given = [
        f"{'' if row['placed'] else row['name'] + '='}{_spelled(values[row['name']])}"
        for row in rows
        if values.get(row["name"], row["usual"]) != row["usual"]
    ]
    room = "" if hasattr(hn, function) else f"{question['room']}."
    return f"hn.{room}{function}({', '.join(given)})"


def _spelled(value: object) -> str:
    return str(value) if isinstance(value, bool) else json.dumps(value, ensure_ascii=False)


def record_questions() -> dict[str, list[str]]:
    """What is asked, by the file that keeps it."""
    kinds: dict[str, list[str]] = tomllib.loads((HERE / "records.toml").read_text(encoding="utf-8"))
    named = " ".join(question for questions in kinds.values() for question in questions)
    for name, question in declared().items():
        if name not in kinds and not re.search(rf"\b{name}\(", named):
            kinds[name] = [asked_as(question)]
    return kinds


def record_pages() -> dict[str, str]:
    """A page for each kind of record."""
    return {
        f"records/{kind}.txt": "\n".join(f">>> {question}\n{answer(question)}\n" for question in questions)
        for kind, questions in record_questions().items()
        if questions
    }


def pages() -> dict[str, str]:
    """Every kept page by its file's name."""
    return readme_pages() | help_pages() | record_pages()


def main() -> None:
    """Write every page anew; pages of questions that are gone go too."""
    made = pages()
    for path in HERE.rglob("*.txt"):
        if path.relative_to(HERE).as_posix() not in made:
            path.unlink()
    for name, text in made.items():
        path = HERE / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    print(f"{len(made)} pages in {HERE.relative_to(Path.cwd()) if HERE.is_relative_to(Path.cwd()) else HERE}")


if __name__ == "__main__":
    sys.exit(main())
