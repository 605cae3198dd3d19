"""A machine's speed chart as a page for the wall."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.words import by_rank
from halfnut.drawing.charts import short_size
from halfnut.sheet.pages import environment
from halfnut.sheet.telling import told
from halfnut.sheet.view import TitleBlock

if TYPE_CHECKING:
    from halfnut.drawing.charts import SpeedChart

__all__ = ["chart_page"]


def chart_page(chart: SpeedChart, **block: str) -> str:
    """The page as HTML that stands alone."""
    title = TitleBlock.of(block, title="Spindle speeds", document_type="Wall chart", supplementary=chart.machine.title)
    what = "cutter" if chart.milling else "work"
    rows = [
        (
            short_size(size),
            [chart.cells.get((name, place)) for name in chart.alloys],
        )
        for place, size in enumerate(chart.diameters)
    ]
    sources = dict.fromkeys(f"{item.source} ({item.kind})" for item in chart.evidence)
    return (
        environment()
        .get_template("chart.html")
        .render(
            block=title,
            chart=chart,
            what=what,
            controls=", ".join(chart.controls),
            rows=rows,
            sources=list(sources),
            cautions=[told(each) for each in by_rank(chart.cautions)],
        )
    )
