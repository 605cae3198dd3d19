"""Drawings of answers, as files of the kind that a name ends in."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

from halfnut._core import DomainError
from halfnut.core.extras import optional

if TYPE_CHECKING:
    from halfnut.cutting.choosing import Passes
    from halfnut.cutting.figures import GearTrains
    from halfnut.threads.adjusters import Adjuster


def check(name: str, suffix: str) -> None:
    """Refuse what cannot be drawn, before the work for it begins."""
    if name == "choose":
        _kind(suffix)


def drawing(found: Adjuster | GearTrains | Passes, suffix: str) -> str | bytes | None:
    """The drawing of a question's answer; None where the answer is that there is nothing to draw."""
    from halfnut.cutting.figures import GearTrains
    from halfnut.threads.adjusters import Adjuster

    if isinstance(found, Adjuster):
        return found.page()
    if isinstance(found, GearTrains):
        from halfnut.drawing.gears import train_svg

        return train_svg(found[0]) if found else None
    from halfnut.drawing.charts import pass_plan

    kind = _kind(suffix)
    optional("matplotlib.pyplot", "plot").style.use("halfnut.drawing.style")
    out = io.BytesIO()
    pass_plan(found).figure.savefig(out, format=kind)  # type: ignore[union-attr]
    return out.getvalue()


def _kind(suffix: str) -> str:
    """The kind of picture; SVG where the file's name ends in none."""
    kind = suffix.removeprefix(".").lower() or "svg"
    known = optional("matplotlib.backend_bases", "plot").FigureCanvasBase.get_supported_filetypes()
    if kind not in known:
        raise DomainError(f"--out cannot draw {suffix} files; allowed: {', '.join(sorted(known))}")
    return kind
