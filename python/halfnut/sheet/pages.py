"""The pages of a plan: cards, papers, details and a page that opens them, each an HTML file that stands alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.planning.job import DETAILS_PAGE, OPENING_PAGE, PAPERS_PAGE, PHONE_PAGE, adjuster_file
from halfnut.sheet.cards import cards_of
from halfnut.sheet.details import details_of, sources_of
from halfnut.sheet.layout import environment
from halfnut.sheet.paper import paper_named
from halfnut.sheet.papers import papers_of
from halfnut.sheet.phone import with_cards
from halfnut.sheet.telling import title_of

if TYPE_CHECKING:
    from halfnut.planning.plans import Plan

__all__ = ["sheets"]


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

    Returns
    -------
    dict
        Besides cards: papers, details, the phone page if any, and a page for each adjuster.

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
