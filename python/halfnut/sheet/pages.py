"""The pages of a plan: cards, papers, details and a page that opens them, each an HTML file that stands alone."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING
from urllib.parse import quote

import jinja2
from markupsafe import Markup

from halfnut._core import spell, spell_number
from halfnut.core.record import filled
from halfnut.core.text import shown
from halfnut.core.words import by_rank, words
from halfnut.drawing.gears import train_svg
from halfnut.drawing.threads import profile_svg
from halfnut.planning.job import DETAILS_PAGE, KINDS, OPENING_PAGE, PAPERS_PAGE, PHONE_PAGE, adjuster_file
from halfnut.sheet.card import firm
from halfnut.sheet.cards import cards_of, ticks, title_of
from halfnut.sheet.details import details_of, gives_way, sources_of
from halfnut.sheet.paper import paper_named
from halfnut.sheet.papers import papers_of
from halfnut.sheet.phone import with_cards
from halfnut.sheet.telling import counted, sentence, told, worded

if TYPE_CHECKING:
    from halfnut.planning.plans import Plan

__all__ = ["environment", "sheets"]


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
    out.globals.update(adjuster_file=adjuster_file, profile_svg=profile_svg, train_svg=train_svg)
    out.filters.update(firm=firm, number=_number, spelled=spell, quoted=quote, counted=counted, sentence=sentence)
    out.filters.update(title_of=title_of, by_rank=by_rank, told=told)
    return out


def sheets(plan: Plan, paper: str = "A5", phone_page: str | None = None) -> dict[str, str]:
    """File names and texts of a plan's pages, the opening page first.

    Parameters
    ----------
    plan : Plan
        The job.
    paper : str
        Of the cards: A5, half-letter, A4 or letter.
    phone_page : str, optional
        Text of the phone page, to lie beside the cards.

    Raises
    ------
    DomainError
        No such paper, or no such phone page.
    """
    job, on = plan.job, paper_named(paper)
    by = [f"{how} by {who}" for how, who in (("prepared", job.prepared_by), ("approved", job.approved_by)) if who]
    named = " ".join(filter(None, (job.number, job.revision, job.date)))
    heading = ", ".join(filter(None, (named, job.owner, *by)))

    def page(name: str, title: str, **more: object) -> str:
        return environment().get_template(name).render({"heading": heading, **more}, title=title, plan=plan)

    links = {"details": DETAILS_PAGE, "papers": PAPERS_PAGE, "phone": None if phone_page is None else PHONE_PAGE}
    out = {OPENING_PAGE: page("index.html", job.title, **links)}
    if phone_page is not None:
        out[PHONE_PAGE] = with_cards(phone_page, OPENING_PAGE, ((title_of(part), part.file) for part in plan.parts))
    for part in plan.parts:
        out[part.file] = page(
            "cards.html", title_of(part), cards=cards_of(job, part, on), paper=on, opening=OPENING_PAGE
        )
    out[DETAILS_PAGE] = page("details.html", job.title, details=details_of(plan), sources=sources_of(plan))
    whole = f"{job.title} {heading}".strip()
    out[PAPERS_PAGE] = page("papers.html", f"{job.title}: papers", heading=whole, papers=papers_of(plan))
    for planned in plan.parts:
        if planned.adjuster is not None:
            out[adjuster_file(planned.file)] = planned.adjuster.page(
                f"{title_of(planned)}: how far to wind it",
                " ".join(filter(None, (job.title, planned.part.number, job.revision, job.date))),
            )
    return out
