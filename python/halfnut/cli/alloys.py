"""halfnut alloy: what is known of an alloy, the speeds first; a list, a shop's own alloys begun and checked."""

from __future__ import annotations

from pathlib import Path

import click

from halfnut._core import Catalogue
from halfnut.cli.failures import ANSWERED, MARKED
from halfnut.cli.output import begin, echo, show, tell, tell_evidence, with_evidence, with_file, with_json
from halfnut.core.catalogue import rows, using
from halfnut.core.text import toml_text

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
    from halfnut.cutting.questions import speeds
    from halfnut.material.questions import alloy as ask

    found = ask(name)
    if as_json:
        show(found, as_json)
        return
    cuts = speeds(found, inch=inch)
    first, *rest = found.lines()
    for line in (first, *cuts.lines()[1:], *rest):
        echo(line)
    if evidence:
        tell_evidence((*found.evidence, *cuts.evidence))
        for text in cuts.never_taken:
            echo(f"  printed, never taken: {text}")


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
    from halfnut.core.plain_files import read_plain
    from halfnut.core.shop_tables import lay_file
    from halfnut.material.questions import alloy

    read_plain(file)  # one that cannot be read is no shop's mistake
    found = lay_file(Catalogue(), file)
    built_in = {row["id"] for row in Catalogue().rows("material/alloys")}
    with using(found.catalogue):
        own = [alloy(row["id"]) for row in rows("material/alloys") if row["id"] not in built_in]
    lacks = {each.title: missing for each in own if (missing := each.lacking)}
    lines = [
        f"{file}: {len(found.problems) or 'nothing'} to put right",
        *(f"  {line}" for each in found.problems for line in each.lines()),
    ]
    lines += [f"  missing  {title}: {text}" for title, missing in lacks.items() for text in missing]
    tell(as_json, {"file": str(file), "wrong": list(map(vars, found.problems)), "missing": lacks}, lines)
    ctx.exit(MARKED if found.problems else ANSWERED)
