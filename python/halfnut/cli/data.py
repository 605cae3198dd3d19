"""halfnut data: what the figures rest on, every table and the speeds that are answered, by kind of source."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

import click

from halfnut import cutting
from halfnut._core import Error
from halfnut.cli.output import tell, with_json
from halfnut.core.catalogue import rows, tables
from halfnut.cutting.figures import Cut

KINDS = (
    "shop",
    "standard",
    "government",
    "handbook",
    "textbook",
    "paper",
    "transcription",
    "common practice",
    "memory",
)
_HEADS = ("shop", "stand.", "gov.", "handb.", "textb.", "paper", "transc.", "pract.", "memory")

_WEIGHT = 5
_WEEKLY = ("6061", "7075", "5083", "C36000", "1018", "4130", "4140", "304", "Ti-6Al-4V", "titanium grade 2", "acetal")
_WINDOW, _SPEEDS = "window_high_m_min", "cutting/speeds"

ASKED: dict[str, Callable[[str, str], Cut]] = {
    "turn": lambda alloy, tool: cutting.turn(alloy, "30 mm", tool=tool),
    "finish": lambda alloy, tool: cutting.turn(alloy, "30 mm", tool=tool, finish=True),
    "bore": lambda alloy, tool: cutting.bore(alloy, "30 mm", tool=tool),
    "part off": lambda alloy, tool: cutting.part_off(alloy, "30 mm", tool=tool),
    "drill": lambda alloy, tool: cutting.drill(alloy, "10 mm", tool=tool),
    "ream": lambda alloy, tool: cutting.ream(alloy, "10 mm", tool=tool),
    "tap": lambda alloy, tool: cutting.tap(alloy, "M10", tool=tool),
    "slot": lambda alloy, tool: cutting.mill(alloy, "12 mm", shape="slot", depth="3 mm", tool=tool),
    "face mill": lambda alloy, tool: cutting.mill(alloy, "50 mm", shape="face", depth="1 mm", width="40 mm", tool=tool),
    "knurl": lambda alloy, _: cutting.knurl(alloy, "30 mm"),
}
HIGH_SPEED_ONLY = ("tap", "knurl")


def of_tables() -> dict[str, Counter[str]]:
    """Cells that name a source, by table and kind of source."""
    out: dict[str, Counter[str]] = {}
    for table in tables():
        kinds = out[table] = Counter()
        for row in rows(table):
            for name, cell in row.items():
                if name.endswith("source") and isinstance(cell, dict):
                    kinds[cell["kind"]] += 1
    return out


def of_answers() -> dict[str, Counter[str]]:
    """Speed windows of every alloy, operation and tool, by operation and kind of the row that each rests on.

    An alloy that a shop meets weekly counts five times. What is refused is no answer.
    """
    out: dict[str, Counter[str]] = {name: Counter() for name in ASKED}
    for row in rows("material/alloys"):
        weight = _WEIGHT if row["name"] in _WEEKLY or row["id"] in _WEEKLY else 1
        for name, ask in ASKED.items():
            for tool in ("HSS",) if name in HIGH_SPEED_ONLY else ("HSS", "carbide"):
                try:
                    cut = ask(row["id"], tool)
                except Error:
                    continue
                out[name][_kind(cut)] += weight
    return out


def _kind(cut: Cut) -> str:
    rests = [item for item in cut.evidence if item.figure == _WINDOW]
    return next((item.kind for item in rests if item.row.startswith(_SPEEDS)), rests[0].kind)


@click.command(epilog="\b\nExample:\n  halfnut data")
@with_json
def data(as_json: bool) -> None:
    """Every table by kind of source, then the speeds that are answered by the kind of the row they rest on.

    An alloy that a shop meets weekly counts five times in the answers.
    """
    held, answered = of_tables(), of_answers()
    whole = sum(answered.values(), Counter[str]())
    lines = [f"{'cells with a source':<34}" + "".join(f"{head:>8}" for head in _HEADS)]
    lines += [_line(name, kinds) for name, kinds in held.items() if kinds]
    lines += ["answers, by operation", *(_line(name, kinds) for name, kinds in answered.items()), _line("all", whole)]
    lines.append(f"from memory: {whole['memory'] / whole.total():.0%} of the answers")
    tell(as_json, {"tables": held, "answers": answered}, lines)


def _line(name: str, kinds: Counter[str]) -> str:
    return f"  {name:<32}" + "".join(f"{kinds[kind] or '-':>8}" for kind in KINDS)
