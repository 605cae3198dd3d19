"""Write what Python has of the core's questions: a function each, and a record for each kind of answer.

`./shop stubs` runs this; a test compares what stands in the tree with what this would write.
"""

from __future__ import annotations

import re
import subprocess
import sys
import textwrap
from functools import cache
from pathlib import Path
from typing import Any

from halfnut import _core

sys.path.insert(0, str(Path(__file__).parent))
import batches

PACKAGE = Path(__file__).parents[2] / "python/halfnut"
WIDTH = 120
MADE = "Written by `./shop stubs` from the core's declarations: change those."
_WRITTEN = {"length": "LengthLike", "feed": "FeedLike", "feed rate": "FeedLike", "speed": "FeedLike"} | dict.fromkeys(
    ("force", "torque"), "ForceLike"
)
_FIGURE = {
    "number": "float",
    "count": "int",
    "flag": "bool",
    "text": "str",
    "pairs": "tuple[tuple[str, str], ...]",
    "numbers": "tuple[float, ...]",
    "counts": "tuple[int, ...]",
    "texts": "tuple[str, ...]",
}
# What is found in files, and by which function.
_FINDERS = {
    "machine": ("halfnut.machine.of_name", "core_machine"),
    "KnurlWheels": ("halfnut.knurls.wheels", "wheels_at_hand"),
}
_LIKES = {
    "AlloyLike": "halfnut.material.alloys",
    "BuildUpLike": "halfnut.material.coatings",
    "LeadLike": "halfnut.threads.standard",
    "DrillLike": "halfnut.threads.holes",
    "MachineLike": "halfnut.machine.of_name",
    "PartLike": "halfnut.threads.standard",
}
# A function of numbers that answers several, and so is bound by hand.
_BESIDE = {"cutting": ("work_bend_mm",)}
_WORDS = {"number": "float", "count": "int", "flag": "bool", "text": "str"}


def _item(row: dict[str, Any]) -> str:
    if row["kin"]:
        return f"{row['kin']}Like"
    if row["written"]:
        return _WRITTEN.get(row["dimension"], "QuantityLike")
    return "NumberLike" if row["dimension"] else _WORDS.get(row["kind"], "float")


def _choices(row: dict[str, Any]) -> str:
    return f"Literal[{', '.join(map(repr, row['choices']))}]".replace("'", '"')


def asked_type(row: dict[str, Any]) -> str:
    """The type of an argument in a signature."""
    if row["kind"] == "choice":
        return _choices(row)
    if row["kind"] == "machine":
        return "MachineLike"
    if row["kind"] == "list" and row["kin"] not in _FINDERS:
        return f"Sequence[{_choices(row) if row['choices'] else _item(row)}]"
    return _item(row)


def default(row: dict[str, Any]) -> str:
    """What stands for an argument that is not given."""
    if row["kind"] == "choice":
        return f'"{row["usual"]}"' if row["usual"] else "None"
    return "None" if row["kin"] in _FINDERS else {"flag": "False", "list": "()"}.get(row["kind"], "None")


def sentence(row: dict[str, Any]) -> str:
    """What an argument is, its range and its usual."""
    out = row["about"]
    if row["range"]:
        said = row["range"].replace(">= ", "at least ").replace("> ", "above ")
        out += f" {said[0].upper()}{said[1:]}."
    if row["usual"] and row["kind"] != "choice":
        out += f" When not given: {row['usual']}."
    return out


def docstring(question: dict[str, Any]) -> str:
    """A function's docstring in the numpydoc layout."""
    out = textwrap.wrap(question["about"], WIDTH - 8)
    out += ["", "Parameters", "----------"] if question["arguments"] else []
    for row in question["arguments"]:
        kind = asked_type(row)
        optional = "" if row["required"] else ", optional" if default(row) == "None" else f", default {default(row)}"
        if row["kind"] == "choice":
            kind = "{" + ", ".join(f'"{choice}"' for choice in row["choices"]) + "}"
        out += [f"{row['name']} : {kind}{optional}"]
        out += textwrap.wrap(sentence(row), WIDTH - 8, initial_indent="    ", subsequent_indent="    ")
    out += ["", "Returns", "-------", question["answer"]["name"], f"    {question['answer']['about']}"]
    out += ["", "Raises", "------", "DomainError", "    A number out of its range, or two that contradict each other."]
    out += ["UnitError", "    A length or a feed without its unit."]
    out += ["NotTabulatedError", "    No such name, or no row for it."]
    out += ["TableError", "    A shop's row that cannot be used."]
    out += ["", "References", "----------", *textwrap.wrap(question["sources"], WIDTH - 8)]
    return "\n".join(out)


def _parameter(row: dict[str, Any]) -> str:
    """An argument in a signature."""
    value = default(row)
    usual = "" if row["required"] else f"{' | None' if value == 'None' else ''} = {value}"
    return f"{row['name']}: {asked_type(row)}{usual}"


def function(question: dict[str, Any], where: str) -> str:
    """A question as a function, whose answer's class is in the module `where`: it is loaded when first asked."""
    rows = question["arguments"]
    placed = [_parameter(row) for row in rows if row["placed"]]
    named = [_parameter(row) for row in rows if not row["placed"]]
    head = "".join(f"\n    {each}," for each in placed + (["*"] if named else []) + named)
    doc = textwrap.indent(docstring(question), "    ").strip()
    answer, name = question["answer"]["name"], question["name"]
    finders = [_FINDERS.get(row["kin"] or row["kind"]) for row in rows]
    given = "".join(
        f"{find[1]}({row['name']})," if find else f"{row['name']}," for row, find in zip(rows, finders, strict=True)
    )
    return (
        f'def {name}({head}\n) -> {answer}:\n    """{doc}\n    """\n'
        f'    answer: {answer} = answer_to("{name}", "{where}:{answer}", ({given}))\n    return answer\n'
    )


def answers_itself(figure: dict[str, Any]) -> bool:
    """Whether a figure is a record, or are records, that could each be the answer to a question of its own."""
    return figure["kind"] in {"record", "records"} and any(each["kind"] == "told" for each in figure["of"]["figures"])


def with_answers_within(answer: dict[str, Any]) -> list[tuple[str, dict[str, Any]]]:
    """An answer by its name, after the answers within it."""
    within = [figure["of"] for figure in answer["figures"] if answers_itself(figure)]
    return [*(pair for each in within for pair in with_answers_within(each)), (answer["name"], answer)]


def figure_type(row: dict[str, Any]) -> str:
    """The type of a figure in a record."""
    if row["kind"] in {"record", "records"}:
        made = row["of"]["name"] if answers_itself(row) else row["class"]
        if row["kind"] == "records":
            return f"tuple[{made}, ...]"
        return made + ("" if row["always"] else " | None")
    return (row["kin"] or _FIGURE[row["kind"]]) + ("" if row["always"] else " | None")


def says(row: dict[str, Any]) -> list[str]:
    """How an answer is told, as members of its class."""
    brief = "".join(f"{label!r}," for label in row["brief"].split(", ") if label)
    kept = (
        ("SHORT", "tuple[str, ...]", f"({brief})" if brief else ""),
        ("AT_MACHINE", "bool", "True" if row["at_machine"] else ""),
        ("ITEMS", "str", repr(row["items"]) if row["items"] else ""),
        ("IN_BOTH", "bool", "True" if row["in_both"] else ""),
    )
    return [f"    {name}: ClassVar[{kind}] = {value}" for name, kind, value in kept if value]


def record(row: dict[str, Any], base: str, name: str, room: str) -> list[str]:
    """A record of figures, after the records within it."""
    out: list[str] = []
    lines = []
    nested: dict[str, str] = {}
    for figure in row["figures"]:
        if (of := figure["of"]) and not answers_itself(figure):
            figure["class"] = nested[figure["key"]] = of["name"] + ("Figures" if home(room, of["name"]) else "")
            out += record(of, "", figure["class"], room)
    items = next((figure_type(each)[6:-6] for each in row["figures"] if row["items"] == each["key"]), "")
    own = base or ("Part" if row["answer"] else "")
    bases = f"({', '.join(filter(None, (own, items and f'Listed[{items}]')))})" if own else ""
    lines.append(f'@made(frozen=True)\nclass {name}{bases}:\n    """{row["about"]}"""\n')
    for figure in row["figures"]:
        if figure["kind"] in {"told", "evidence"}:
            continue
        unit = f" In {figure['unit']}." if figure["unit"] else ""
        about = textwrap.wrap(f'"""{figure["about"]}{unit}"""', WIDTH - 4)
        aside = " = field(repr=False, compare=False)" if figure["aside"] else ""
        lines.append(f"    {figure['key']}: {figure_type(figure)}{aside}\n    " + "\n    ".join(about))
    if own == "Part":
        lines.append('    said: str = field(repr=False, compare=False)\n    """It in one line."""')
    made_of = dict(nested)
    for figure in row["figures"]:
        if figure["kin"] or answers_itself(figure):
            made = figure["kin"] or figure["of"]["name"]
            made_of[figure["key"]] = f'"{place(made)}:{made}"'
    if made_of:
        pairs = ", ".join(f'"{key}": {of}' for key, of in made_of.items())
        lines.append(f"\n    _made: ClassVar[Mapping[str, type | str]] = {{{pairs}}}")
    paired = [f'"{figure["key"]}"' for figure in row["figures"] if figure["kind"] == "pairs"]
    if paired:
        lines.append(f"\n    _paired: ClassVar[frozenset[str] | set[str]] = {{{', '.join(paired)}}}")
    lines += says(row)
    return [*out, "\n".join(lines)]


@cache
def rooms() -> dict[str, list[dict[str, Any]]]:
    """The declared questions by their rooms."""
    out: dict[str, list[dict[str, Any]]] = {}
    for question in map(_core.question, _core.question_names()):
        out.setdefault(question["room"], []).append(question)
    return out


@cache
def answers(room: str) -> dict[str, dict[str, Any]]:
    """The answers to a room's questions, and those within them that no other room's question asks for."""
    asked = {question["answer"]["name"]: question["answer"] for question in rooms()[room]}
    within = dict(pair for each in asked.values() for pair in with_answers_within(each))
    others = {each["answer"]["name"] for other in rooms() if other != room for each in rooms()[other]}
    return {name: asked.get(name, answer) for name, answer in within.items() if name in asked or name not in others}


def place(answer: str) -> str:
    """The module of an answer's class: the one that adds to its figures, else that of the figures."""
    return home("", answer) or next(f"halfnut.{room}.figures" for room in rooms() if answer in answers(room))


def loaded(names: dict[str, str]) -> str:
    """Imports for the type checkers only, of names by their modules."""
    lines = "".join(f"    from {where} import {name}\n" for name, where in sorted(names.items()))
    return f"if TYPE_CHECKING:\n{lines}\n" if lines else ""


def likes_of(functions: str) -> str:
    """What functions take, imported for the type checkers."""
    likes = sorted(set(re.findall(r"\w+Like", functions)) - {"FrameLike"})
    return "".join(f"    from {_LIKES.get(name, 'halfnut.core.given')} import {name}\n" for name in likes)


def modules() -> dict[Path, str]:
    """Every file that is written, with its text."""
    out = {}
    for room, questions in rooms().items():
        names = ", ".join(sorted(f'"{question["name"]}"' for question in questions))
        functions = "\n\n".join(function(each, place(each["answer"]["name"])) for each in questions)
        types = {each["answer"]["name"]: place(each["answer"]["name"]) for each in questions}
        likes = sorted(set(re.findall(r"\w+Like", functions)))
        types |= {name: _LIKES.get(name, "halfnut.core.given") for name in likes}
        finders = "".join(
            f"from {where} import {name}\n" for where, name in _FINDERS.values() if f"{name}(" in functions
        )
        sequence = "from collections.abc import Sequence\n" if "Sequence[" in functions else ""
        out[PACKAGE / room / "questions.py"] = (
            f'"""The questions of this room.\n\n{MADE}\n"""\n\nfrom __future__ import annotations\n\n{sequence}'
            f"from typing import TYPE_CHECKING, Literal\n\nfrom halfnut.core.questions import answer_to\n{finders}\n"
            f"{loaded(types)}"
            f"__all__ = [{names}]\n\n\n{functions}"
        )
        rows = answers(room)
        whole = {name for name in rows if not home("", name)}
        classes = {name: name if name in whole else f"{name}Figures" for name in rows}
        made_records = [record(row, "Answered", classes[name], room) for name, row in rows.items()]
        records = "\n\n".join(dict.fromkeys(each for some in made_records for each in some))
        figures = [figure for answer in rows.values() for figure in answer["figures"]]
        inner = {figure["of"]["name"] for figure in figures if answers_itself(figure)} - whole
        kins = {figure["kin"] for figure in figures if figure["kin"]}
        kin_imports = "".join(f"from {place(each)} import {each}\n" for each in sorted(kins))
        public = sorted({name for name in re.findall(r"^class (\w+)", records, re.M) if not name.endswith("Figures")})
        out[PACKAGE / room / "figures.py"] = (
            f'"""Figures of the answers of this room.\n\n{MADE}\n"""\n\nfrom __future__ import annotations\n\n'
            f"from collections.abc import Mapping\nfrom dataclasses import field\n"
            f"from typing import TYPE_CHECKING, ClassVar\n\nfrom halfnut.core.fixed import made\n"
            f"from halfnut.core.questions import Answered, Listed\n"
            f"from halfnut.core.record import Part\n{kin_imports}\n"
            f"{loaded({name: place(name) for name in inner})}\n__all__ = {public}\n\n\n{records}"
        )
    out |= {PACKAGE / room / "formulas.py": formulas(room, names) for room, names in _core.formulas().items()}
    out[PACKAGE / "batch" / "questions.py"] = batches.module(MADE, likes_of, (asked_type, _parameter, sentence))
    out[PACKAGE / "_core.pyi"] = stub()
    return {path: _laid_out(text, path.suffix) for path, text in out.items()}


def formulas(room: str, names: list[str]) -> str:
    """The formulas of a room, as a module."""
    names = [*names, *_BESIDE.get(room, ())]
    public = ", ".join(f'"{name}"' for name in sorted(names))
    return (
        f'"""The formulas of numbers of this room.\n\n{MADE}\n"""\n\nfrom __future__ import annotations\n\n'
        f"from halfnut._core import {', '.join(sorted(names))}\n\n__all__ = [{public}]\n"
    )


HAND = Path(__file__).with_name("core.pyi")


def stub() -> str:
    """The stub of the compiled core: its classes and functions by hand, and every level-1 formula by its docstring."""
    by_hand = HAND.read_text(encoding="utf-8").replace("import NDArray", "import ArrayLike, NDArray", 1)
    out = [by_hand.rstrip(), "", "# formulas of numbers, from their own signatures", ""]
    for name in sorted(dir(_core)):
        doc = getattr(_core, name).__doc__ or ""
        if "float or array_like" in doc and "on_error" in doc:
            arguments = re.findall(r"^(\w+) : float or array_like$", doc, re.MULTILINE)
            numbers, arrays = (", ".join(f"{each}: {kind}" for each in arguments) for kind in ("float", "ArrayLike"))
            out += ["@overload", f"def {name}({numbers}) -> float: ...", "@overload"]
            out += [f"def {name}({arrays}, on_error: str = ...) -> Any: ..."]
    return "\n".join(out) + "\n"


def home(room: str, record_name: str) -> str:
    """The module of a room, or of any, that adds words to the figures of a record; nothing where none does."""
    for path in sorted(PACKAGE.glob(f"{room or '*'}/*.py")):
        if f"class {record_name}({record_name}Figures)" in path.read_text(encoding="utf-8"):
            return f"halfnut.{path.parent.name}.{path.stem}"
    return ""


def _laid_out(text: str, suffix: str) -> str:
    for command in (["check", "--fix", "--quiet", "--select", "I,F401"], ["format", "--quiet"]):
        run = [sys.executable, "-m", "ruff", *command, "--stdin-filename", str(PACKAGE / f"made{suffix}"), "-"]
        text = subprocess.run(run, input=text, capture_output=True, text=True, check=True).stdout
    return text


if __name__ == "__main__":
    for path, text in modules().items():
        path.write_text(text, encoding="utf-8")
        print(path.relative_to(PACKAGE.parent))
