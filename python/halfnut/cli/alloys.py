"""halfnut alloy: what is known of an alloy, the speeds first; a list, a shop's own alloys begun and checked."""

from __future__ import annotations

from pathlib import Path

import click

from halfnut._core import Catalogue, Error, spell, spell_span
from halfnut.cli.data import ASKED, HIGH_SPEED_ONLY
from halfnut.cli.failures import ANSWERED, MARKED
from halfnut.cli.output import begin, echo, show, tell, with_evidence, with_file, with_json
from halfnut.core.catalogue import rows
from halfnut.core.text import toml_text

_TOOLS = ("HSS", "carbide", "coated carbide")
_EPILOG = """\b
Example:
  halfnut alloy 6061-T6
  halfnut alloy "4130 normalised" --json
  halfnut alloy list stainless
  halfnut alloy new "our bronze" --like C93200
  halfnut alloy check alloys.toml"""


class _Named(click.Group):
    """A group whose first word may be the name of an alloy."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        first = next((word for word in args if not word.startswith("-")), None)
        if first is not None and first not in self.commands:
            args = ["show", *args]
        return super().parse_args(ctx, args)


@click.group(cls=_Named, epilog=_EPILOG)
def alloy() -> None:
    r"""What is known of an alloy: speeds and feeds by tool first, then its strengths, then its constants.

    \b
      NAME  UNS number, a trade name with or without its condition
            ("6061-T6", "4130 normalised"), an EN or a Werkstoff number; case,
            spaces and punctuation do not count
    """


@alloy.command("show", epilog="\b\nExample:\n  halfnut alloy 6061-T6")
@click.argument("name")
@click.option("--inch", is_flag=True, help="Speeds in ft/min and feeds in inches.")
@with_evidence
@with_json
def show_alloy(name: str, inch: bool, as_json: bool, evidence: bool) -> None:
    """Show the alloy called NAME; `halfnut alloy NAME` is the same."""
    from halfnut.material.questions import alloy as ask

    found = ask(name)
    unit = "in" if inch else "mm"
    if as_json:
        show(found, as_json, question="alloy")
        return
    echo(found.answer)
    for line in _speeds(found.id, unit):
        echo(line)
    if found.fluids:
        echo(f"  fluid     {', '.join(found.fluids)}")
    for line in _strengths(found.id):
        echo(line)
    for line in found.lines()[1:]:
        echo(line)
    if evidence:
        for item in found.evidence:
            echo(f"  {item.figure}: {item.rule}; {item.row}; {item.source} ({item.kind})")
        for line in _out_of_order(found.id):
            echo(line)


def _speeds(alloy_id: str, unit: str) -> list[str]:
    """Speeds and feeds of usual cuts, a line a tool."""
    cells: dict[str, dict[str, tuple[str, str]]] = {}
    for tool in _TOOLS:
        for name, ask in ASKED.items():
            if tool != "HSS" and name in HIGH_SPEED_ONLY:
                continue
            try:
                cut = ask(alloy_id, tool)
            except Error:
                continue
            speed = spell_span(cut.window_low_m_min, cut.window_high_m_min, "speed", unit).rsplit(" ", 1)[0]
            feed = cut.feed_per_tooth_mm if cut.feed_per_tooth_mm is not None else cut.feed_mm_rev
            fed = "" if feed is None or name == "tap" else spell(feed, "feed", unit).split()[0]
            cells.setdefault(tool, {})[name] = (speed.replace(" to ", "-"), fed)
    if not cells:
        return ["  speeds    none is known"]
    heads = [name for name in ASKED if any(name in line for line in cells.values())]
    of_speed, of_feed = ("ft/min", "in") if unit == "in" else ("m/min", "mm")
    out = [f"  {of_speed:<15}" + "".join(f"{head:>10}" for head in heads)]
    for tool, line in cells.items():
        out.append(f"  {tool:<15}" + "".join(f"{line.get(head, ('-', ''))[0]:>10}" for head in heads))
        out.append(f"    {of_feed:<13}" + "".join(f"{line.get(head, ('', '-'))[1] or '-':>10}" for head in heads))
    out.append(
        "  feeds a revolution, in milling a tooth; work of 30 mm, drill and reamer 10, end mill 12, face mill 50"
    )
    return out


def _out_of_order(alloy_id: str) -> list[str]:
    """Printed speeds against the order of operations, which no answer takes."""
    parents = {row["group"]: row["parent"] for row in rows("material/groups")}
    kin = {alloy_id}
    group = next(row["group"] for row in rows("material/alloys") if row["id"] == alloy_id)
    while group:
        kin.add(group)
        group = parents[group]
    return [
        f"  printed, never taken: {row['operation']} {row['tool_material']} to {row['speed_high_m_min']:g} m/min; "
        f"{row['note']}; {row['source']['citation']} ({row['source']['kind']})"
        for row in rows("cutting/speeds")
        if row["doubt"] == "out_of_order" and kin & set(row["key"].split())
    ]


def _strengths(alloy_id: str) -> list[str]:
    """Minimum strengths by form and thickness, printed ones apart from recalled."""
    out = []
    for row in rows("material/strengths"):
        if row["alloy"] != alloy_id:
            continue
        unit = "ksi" if row["tensile_ksi"] or row["yield_ksi"] else "MPa"
        tensile, yields = row[f"tensile_{unit.lower()}"], row[f"yield_{unit.lower()}"]
        over, up_to = (row["over_in"], row["up_to_in"]) if unit == "ksi" else (row["over_mm"], row["up_to_mm"])
        length = "in" if unit == "ksi" else "mm"
        size = "" if up_to in (None, "") else f" {over or 0:g} to {up_to:g} {length}"
        what = [f"at least {tensile:g} {unit}" if tensile else "", f"yield {yields:g} {unit}" if yields else ""]
        said = ", ".join([*filter(None, what), row["source"]["kind"]])
        temper = f", {row['temper']}" if row["temper"] else ""
        out.append(f"  strength  {row['form']}{size}{temper}: {said}")
    return out


@alloy.command("list", epilog="\b\nExample:\n  halfnut alloy list stainless")
@click.argument("word", required=False, default="")
@with_json
def list_alloys(word: str, as_json: bool) -> None:
    """Alloys at hand, with their other names; WORD picks those that have it in a name, condition or group."""
    names: dict[str, list[str]] = {}
    for row in rows("material/aliases"):
        names.setdefault(row["alloy"], []).append(row["alias"])
    listed = []
    for row in rows("material/alloys"):
        others = names.get(row["id"], [])
        whole = " ".join((row["id"], row["name"], row["condition"] or "", row["group"], *others))
        if word.casefold() in whole.casefold():
            listed.append({"id": row["id"], "name": row["name"], "condition": row["condition"], "others": others})
    titles = [f"{each['name']} {each['condition'] or ''}".strip() for each in listed]
    lines = [
        f"{each['id']:16} {title:32} {', '.join(each['others'][:4])}".rstrip()
        for each, title in zip(listed, titles, strict=True)
    ]
    tell(as_json, listed, lines or [f"no alloy has '{word}' in a name, condition or group"])


@alloy.command(epilog='\b\nExample:\n  halfnut alloy new "our bronze" --like C93200')
@click.argument("name")
@click.option("--like", required=True, help="An alloy at hand that gives what is not said.")
@with_file("--out", "Where to write; NAME.toml when not given")
def new(name: str, like: str, out: Path | None, replace: bool) -> None:
    """Write a commented file to fill in, for an alloy of the shop's own called NAME."""
    from halfnut.material.questions import alloy as ask

    base = ask(like)
    safe = "-".join("".join(letter if letter.isalnum() else " " for letter in name).split())
    if not safe:
        raise click.UsageError(f"an alloy cannot well be called {toml_text(name)}")
    words = {"id": toml_text(f"SHOP-{safe.upper()}"), "name": toml_text(name), "like": toml_text(base.id)}
    begin(out or Path(f"{safe}.toml"), "alloy.toml", "alloy", replace=replace, **words)


@alloy.command(
    epilog="\b\nExample:\n  halfnut alloy check alloys.toml\n\n"
    "Exit status: 0 every row can be used, 1 some cannot, 2 the file cannot be read."
)
@click.argument("file", type=click.Path(path_type=Path))
@with_json
@click.pass_context
def check(ctx: click.Context, file: Path, as_json: bool) -> None:
    """Read a shop's alloys of FILE back: every mistake, and what each alloy still lacks."""
    from halfnut.core.catalogue import activate, active
    from halfnut.core.plain_files import read_plain
    from halfnut.core.shop_tables import lay_file
    from halfnut.material.alloys import of_name

    read_plain(file)  # one that cannot be read is no shop's mistake
    found = lay_file(Catalogue(), file)
    built_in = {row["id"] for row in Catalogue().rows("material/alloys")}
    before = active()
    activate(found.catalogue)
    try:
        own = [of_name(row["id"]) for row in rows("material/alloys") if row["id"] not in built_in]
    finally:
        activate(before)
    lacks = {each.title: missing for each in own if (missing := each.lacking)}
    lines = [
        f"{file}: {len(found.problems) or 'nothing'} to put right",
        *(f"  {line}" for each in found.problems for line in each.lines()),
    ]
    lines += [f"  missing  {title}: {text}" for title, missing in lacks.items() for text in missing]
    tell(as_json, {"file": str(file), "wrong": list(map(vars, found.problems)), "missing": lacks}, lines)
    ctx.exit(MARKED if found.problems else ANSWERED)
