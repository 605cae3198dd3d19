"""Setup sheets: one HTML page a part, and a page that opens them. Each stands alone and prints on A4 and Letter."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import jinja2
from markupsafe import Markup

from halfnut.core.text import shown
from halfnut.core.words import words
from halfnut.planning.job import OPENING_PAGE, adjuster_file
from halfnut.sheet.build import plan_view

if TYPE_CHECKING:
    from halfnut.planning.plans import Plan

__all__ = ["environment", "sheets"]


def _written(value: object) -> object:
    """What stands on a page: text from outside with its control characters written out."""
    return shown(value) if isinstance(value, str) and not isinstance(value, Markup) else value


@cache
def environment() -> jinja2.Environment:
    """What templates are read with."""
    out = jinja2.Environment(
        loader=jinja2.PackageLoader("halfnut.sheet"),
        autoescape=jinja2.select_autoescape(["html"]),
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=jinja2.StrictUndefined,
        finalize=_written,
    )
    out.globals.update(words=words)
    return out


def sheets(plan: Plan) -> dict[str, str]:
    """File names and texts of a plan's pages, the opening page first."""
    view = plan_view(plan)
    page = environment().get_template("part.html")
    out = {OPENING_PAGE: environment().get_template("index.html").render(plan=view, block=view.block)}
    for part in view.parts:
        out[part.file] = page.render(part=part, block=part.block)
    for planned in plan.parts:
        if planned.adjuster is not None:
            out[adjuster_file(planned.file)] = planned.adjuster.page(
                title=f"{planned.part.title or planned.part.name}: how far to wind it",
                supplementary=plan.job.title,
                identification=planned.part.number,
                revision=plan.job.revision,
                date=plan.job.date,
                owner=plan.job.owner,
                created_by=plan.job.prepared_by,
                approved_by=plan.job.approved_by,
            )
    return out
