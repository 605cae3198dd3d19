"""Write the batches of the core's questions: a function of a table each, of the question's declaration."""

from __future__ import annotations

import textwrap
from collections.abc import Callable
from typing import Any

from halfnut import _core
from halfnut.batch.asking import column_of
from halfnut.batch.given import arguments_of

WIDTH = 120
Row = dict[str, Any]
Spelled = Callable[[Row], str]
_RUN = (
    "columns: Iterable[str] | str | None = None",
    "out: MutableMapping[str, NDArray[Any]] | None = None",
    "workers: int | None = None",
    'progress: Progress | Literal["bar"] | None = None',
    "cancel: Cancel | None = None",
)
_RUN_GIVEN = "Run(columns, out, workers, progress, cancel)"
_OF_RUN = """
columns : list of str or "all", optional
    Which columns to answer; the usual ones when not given. ``status`` is always among them.
out : mapping of arrays, optional
    Where to write the answers, ``status`` among them: contiguous arrays of the types in `column_types`.
workers : int, optional
    Threads; one a core when not given. The answers are the same for any number.
progress : callable or "bar", optional
    Called with (rows done, rows) now and then, or a bar on the terminal.
cancel : object with is_set(), or callable
    Looked at now and then; true stops the run."""
_RAISES = """
Raises
------
DomainError
    A table that is not understood: a column without its unit, one that is missing, an ``out`` that does not fit.
Stopped
    It was cancelled. Rows that were not reached have the status `NOT_REACHED` in ``out``; without ``out`` nothing
    is left."""
_OF_CUT = (
    "Figures, NaN in failed rows; ``spindle_step`` and ``feed_step``, places in the machine's lists from 0; "
    "``limited_by``, a place in `halfnut._core.limit_codes`; ``cautions``, a bit for each (`cautions` reads them); "
    "{}``status``, 0 for an answer; ``reason``, see `reasons`. ``out`` when it was given."
)
_EXAMPLES = {
    "turn": """
>>> from halfnut import batch
>>> jobs = {"alloy": ["6061-T6", "4140"], "diameter_mm": [32.0, -1.0], "depth_mm": [1.0, 1.0]}
>>> done = turn(jobs, machine="gap-bed")
>>> done["status"].tolist(), batch.reasons(done, "turn")
([0, 2], {1: 'diameter_mm must be from 1e-06 to 100000 mm'})""",
    "drill": """
>>> drill({"diameter_mm": [6.0], "depth_mm": [20.0]}, alloy="6061-T6", machine="bench-mill")["status"].tolist()
[0]""",
    "mill": """
>>> jobs = {"cutter_diameter_mm": [10.0], "flutes": [4.0], "depth_mm": [5.0], "width_mm": [2.0]}
>>> mill(jobs, alloy="7075-T6", machine="bench-mill")["status"].tolist()
[0]""",
    "cylindrical_fit": """
>>> cylindrical_fit({"text": ["25 H7/g6", "40 H7"]})["hole_max_mm"].tolist()
[25.021, 40.025]""",
    "fit": """
>>> fit({"external": ["M10-6g", "M10-6h"]}, internal="M10-6H")["verdict"].tolist()
['free', 'free']""",
    "judge": """
>>> judge({"pitch_mm": [9.05, 8.95, 8.85]}, thread="M10-6g")["place"].tolist()
['metal left', 'within', 'overcut']""",
    "knurl_blank": """
>>> knurl_blank({"diameter_mm": [12.7, -1.0]}, pitch="96 DP", pattern="straight")["teeth"].tolist()
[48.0, nan]""",
    "limits": """
>>> limits({"thread": ["M10-6g", "M10-6z", "Tr40x7-7e", "1/2-14 NPT"]})["status"].tolist()
[0, 6, 0, 5]""",
    "precoat": """
>>> precoat({"build_up": ["8 um", "8-10 um"]}, thread="M10-6h")["pitch_max_mm"].round(3).tolist()
[8.994, 8.986]""",
    "taper_pipe": """
>>> taper_pipe({"thread": ["1/2-14 NPT", "M10-6g"]})["hand_turns"].round(2).tolist()
[4.48, nan]""",
    "wires": """
>>> wires({"thread": ["M10-6g", "nothing"]}, wire="best")["over_max_mm"].round(3).tolist()
[10.29, nan]""",
}
_ABOUT = {"turn": "Turn many diameters", "drill": "Drill many holes", "mill": "Mill many cuts"}
_QUESTIONS = ("cylindrical_fit", "fit", "judge", "knurl_blank", "limits", "precoat", "taper_pipe", "wires")
_OWN = {"turn": ("finish", "hold", "chuck"), "drill": ("chuck",), "mill": ("shape",)}


def _wrapped(text: str, indent: str = "    ") -> str:
    return textwrap.fill(text, WIDTH - 4, initial_indent=indent, subsequent_indent=indent)


def _numbers(kind: str, rows: dict[str, Row], sentence: Spelled) -> str:
    """The class of the numbers that a batch of cuts takes for all rows."""
    lines = [f"class {kind.capitalize()}Numbers(TypedDict, total=False):"]
    lines += [f'    """Numbers of `{kind}` that all rows share; a column gives one a row."""\n']
    for argument in (*arguments_of(kind), None):
        row = rows[argument.name if argument else "hardness_hb"]
        first, *inches = argument.spellings if argument else ("hardness_hb",)
        about = textwrap.fill(f'"""{sentence(row)}"""', WIDTH - 4, subsequent_indent="    ")
        lines += [f"    {first}: NumberLike", f"    {about}"]
        for other in inches:
            unit = "microinches" if other.endswith("_uin") else "inches"
            lines += [f"    {other}: NumberLike", f'    """`{first}` in {unit}."""']
    return "\n".join(lines)


def function(question: Row, asked_type: Spelled, parameter: Spelled, sentence: Spelled) -> str:
    """A batch, after the numbers that it takes."""
    kind, rows = question["name"], {row["key"]: row for row in question["arguments"]}
    named = {row["name"]: row for row in question["arguments"]}
    own = [named[name] for name in _OWN[kind]]
    texts = ["alloy", "tool"]
    head = ["machine: MachineLike | None = None"]
    head += [f"{name}: str | None = None" for name in texts] + [parameter(row) for row in own]
    head += [*_RUN, *(['clone: str = ""'] if kind == "turn" else [])]
    head += [f"**numbers: Unpack[{kind.capitalize()}Numbers]"]
    columns = [argument.name for argument in arguments_of(kind)]
    needed = [f"``{argument.name}``" for argument in arguments_of(kind) if argument.required]
    finish = ["``finish`` (0 or 1)"] if kind == "turn" else []
    marked = [*(f"``{name}``" for name in texts), *finish]
    least = ", ".join(needed)
    doc = [f"{_ABOUT[kind]}; each row is what `halfnut.{kind}` computes for the same numbers.\n"]
    doc += ["Parameters\n----------\nframe : table"]
    doc += [_wrapped(f"Columns {least} (or ``_in``) and, where they are not given for all rows, {', '.join(marked)}"
        f"; and any of the numbers that may be given for all rows: {', '.join(f'``{each}``' for each in columns)}, "
        "``hardness_hb``. NaN is not given.")]  # fmt: skip
    doc += ["machine : str, Path or Machine, optional"]
    doc += ["    One for all rows; without one, speed and feed are exact."]
    doc += [f"{', '.join(texts)} : str, optional\n    For all rows."]
    doc += _documented(own, asked_type, sentence)
    doc += [_OF_RUN.strip()]
    if kind == "turn":
        doc += ['clone : str\n    Instruction set, "portable", "avx2" or "avx512"; the widest here when not given.']
    doc += [f"**numbers : {kind.capitalize()}Numbers\n    For all rows, by the names of the columns."]
    doc += ["\nReturns\n-------\ntable of the same kind"]
    doc += [_wrapped(_OF_CUT.format("``case_id``, see `cases`; " if kind == "turn" else ""))]
    doc += [_RAISES, _EXAMPLES[kind]]
    how = {"turn": "finish=finish, way=hold, chuck=chuck, clone=clone", "drill": "chuck=chuck", "mill": "way=shape"}
    body = f'cuts("{kind}", frame, {_RUN_GIVEN}, machine, alloy, tool, numbers, {how[kind]})'
    return _numbers(kind, rows, sentence) + "\n\n\n" + _laid(kind, head, doc, body)


def _documented(rows: list[Row], asked_type: Spelled, sentence: Spelled) -> list[str]:
    """Arguments that all rows share."""
    out = []
    for row in rows:
        kind = "{" + ", ".join(f'"{each}"' for each in row["choices"]) + "}" if row["choices"] else asked_type(row)
        out += [f"{row['name']} : {kind}, optional", _wrapped(sentence(row) + " For all rows.")]
    return out


def _laid(kind: str, head: list[str], doc: list[str], body: str) -> str:
    text = textwrap.indent("\n".join(doc), "    ").strip()
    made = f"@batch_of\ndef {kind}(\n    frame: FrameLike,\n    /,\n    *,\n    " + ",\n    ".join(head)
    return made + f',\n) -> Any:\n    """{text}\n    """\n    return {body}\n'


def of_question(question: Row, asked_type: Spelled, parameter: Spelled, sentence: Spelled) -> str:
    """The batch of a question whose distinct rows are asked alone."""
    kind, rows = question["name"], question["arguments"]
    head = [parameter({**row, "required": False}) for row in rows] + list(_RUN)
    columns = [column.name if (column := column_of(row)) else row["name"] for row in rows]
    doc = [
        f"{question['about']}\n",
        f"Of every row of a table; each answer is what `halfnut.{kind}` gives for the same.\n",
    ]
    doc += ["Parameters\n----------\nframe : table"]
    doc += [_wrapped(f"Columns {', '.join(f'``{each}``' for each in columns)}, where they are not given for all rows; "
        "a length may be in inches, ``_in`` for ``_mm``. What is empty or NaN is not given.")]  # fmt: skip
    doc += [*_documented(rows, asked_type, sentence), _OF_RUN.strip(), "\nReturns\n-------\ntable of the same kind"]
    doc += [_wrapped(f"The figures of `halfnut.{kind}`, NaN or empty in failed rows, those of a record within the "
        "answer after its name; the usual ones are all but texts that may be any. ``status``, 0 for an answer; "
        "``case_id``, see `row_cases`; ``reason``, why there is no answer. ``out`` when it was given.")]  # fmt: skip
    given = ", ".join(f'"{row["name"]}": {row["name"]}' for row in rows)
    body = f'answered("{kind}", frame, {_RUN_GIVEN}, {{{given}}})'
    return _laid(kind, head, [*doc, _RAISES, _EXAMPLES[kind]], body)


def module(made: str, likes_of: Callable[[str], str], spelled: tuple[Spelled, Spelled, Spelled]) -> str:
    """The file of the batches."""
    functions = [function(_core.question(kind), *spelled) for kind in _ABOUT]
    functions += [of_question(_core.question(kind), *spelled) for kind in _QUESTIONS]
    classes = [f'"{kind.capitalize()}Numbers"' for kind in _OWN]
    names = ", ".join([*sorted(classes), *(f'"{kind}"' for kind in sorted((*_ABOUT, *_QUESTIONS)))])
    text = "\n\n".join(functions)
    return (
        f'"""Batches of the questions.\n\n{made}\n"""\n\nfrom __future__ import annotations\n\n'
        "from collections.abc import Iterable, MutableMapping\n"
        "from typing import TYPE_CHECKING, Any, Literal, TypedDict\n\nfrom numpy.typing import NDArray\n\n"
        "from halfnut.batch.asking import answered\nfrom halfnut.batch.cuts import cuts\n"
        "from halfnut.batch.frames import FrameLike, batch_of\n"
        "from halfnut.batch.running import Cancel, Progress, Run\n\n"
        f"if TYPE_CHECKING:\n    from typing_extensions import Unpack\n{likes_of(text)}\n\n"
        f"__all__ = [{names}]\n\n\n{text}"
    )
