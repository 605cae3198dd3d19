"""How templates are read: what stands in them beside what a page gives them."""

from __future__ import annotations

from functools import cache
from urllib.parse import quote

import jinja2
from markupsafe import Markup

from halfnut._core import spell, spell_number, spell_span
from halfnut.core.text import shown
from halfnut.core.words import by_rank, words
from halfnut.drawing.gears import train_svg
from halfnut.drawing.threads import profile_svg
from halfnut.planning.job import KINDS, adjuster_file
from halfnut.sheet import figures
from halfnut.sheet.card import firm, ticks, unparted
from halfnut.sheet.telling import counted, filled, gives_way, sentence, title_of, told, worded

__all__ = ["environment"]


def _written(value: object) -> object:
    """What stands on a page: text from outside with its control characters written out."""
    return shown(value) if isinstance(value, str) and not isinstance(value, Markup) else value


def _number(value: float | None, kind: str, unit: str) -> str | None:
    return None if value is None else spell_number(value, kind, unit)


@cache
def environment() -> jinja2.Environment:
    """What templates are read with."""
    out = jinja2.Environment(
        loader=jinja2.PackageLoader("halfnut.sheet"),
        autoescape=jinja2.select_autoescape(["html", "svg"]),
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=jinja2.StrictUndefined,
        finalize=_written,
    )
    out.globals.update(words=words, filled=filled, worded=worded, kinds=KINDS, gives_way=gives_way, ticks=ticks)
    out.globals.update(spell_span=spell_span, adjuster_file=adjuster_file, profile_svg=profile_svg, train_svg=train_svg)
    out.filters.update(firm=firm, number=_number, spelled=spell, quoted=quote, counted=counted, sentence=sentence)
    out.filters.update(title_of=title_of, by_rank=by_rank, told=told, size=figures.size, by_rule=figures.length)
    out.filters.update(limits=figures.limits, unparted=unparted)
    return out


def said(what: str, *of: object) -> Markup:
    """Words of a card: a macro of their template, with what it tells of."""
    macro = getattr(environment().get_template("said.html").module, what)
    return Markup(" ".join(macro(*of).split()))
