"""Turning stepped or steadied work: the cut with the beam's deflection in place of the plain bar's."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from halfnut import _core
from halfnut._core import DomainError
from halfnut.core.units import length as read_length
from halfnut.core.words import caution
from halfnut.cutting.cuts import Cut, Limit
from halfnut.cutting.rigidity import WorkBend, work_bend

__all__ = ["turned_on_beam"]


def turned_on_beam(
    ask: Callable[[Mapping[str, float | None]], Cut],
    numbers: Mapping[str, float | None],
    machine: _core.Machine | None,
    hold: Any,
    sections: Sequence[Any],
    steadies: Sequence[Any],
) -> Cut:
    """Ask for a cut, finer in feed until the beam holds where the feed was left to us."""
    allowed = numbers["deflection_limit_mm"]
    odd = next((each for each in sections if not isinstance(each, (list, tuple)) or len(each) not in (2, 3)), None)
    if odd is not None:
        raise DomainError(f"sections must each be a length and a diameter, or these and a bore, got {odd!r}")
    whole_mm = sum(read_length(each[0], "sections").mm for each in sections) or numbers["stick_out_mm"] or 0.0
    if whole_mm * (1 + 1e-9) < (numbers["length_mm"] or 0.0):
        raise DomainError(
            f"sections must be at least as long as the cut, {numbers['length_mm']:g} mm, got {whole_mm:g} mm"
        )
    span_mm = _core.whirl_span_mm(hold, whole_mm, [read_length(each, "steadies").mm for each in steadies])
    plain = {**numbers, "deflection_limit_mm": None, "stick_out_mm": whole_mm, "span_mm": span_mm}
    cut = ask(plain)
    bent = _bend(cut, numbers, hold, sections, steadies)
    free = numbers["feed_mm_rev"] is None and machine is not None and cut.feed_step is not None
    step = cut.feed_step
    bound = cut.feed_limited_by
    while allowed is not None and free and step and _high(cut, bent) > allowed:
        assert machine is not None
        step -= 1
        finer = machine.carriage.steps[step].feed_mm
        cut = replace(ask({**plain, "feed_mm_rev": finer}), feed_limited_by="deflection", limited_by="deflection")
        bent = _bend(cut, numbers, hold, sections, steadies)
        bound = "deflection"
    return _with_bend(replace(cut, feed_limited_by=bound), bent, allowed)


def _bend(cut: Cut, numbers: Mapping[str, float | None], hold: Any, sections: Sequence[Any], steadies: Any) -> WorkBend:
    whole = list(sections)
    if not whole:
        left_mm = cut.diameter_mm - 2 * (cut.depth_mm or 0.0)
        bar = (f"{numbers['stick_out_mm']} mm", f"{left_mm} mm", f"{numbers['bore_mm'] or 0.0} mm")
        whole = [bar if numbers["bore_mm"] else bar[:2]]
    force = f"{cut.passive_force_n} N"
    return work_bend(
        whole, force=force, hold=hold, alloy=cut.alloy.id, steadies=[read_length(s, "steadies") for s in steadies]
    )


def _high(cut: Cut, bent: WorkBend) -> float:
    """The bend at the upper edge of the force's band."""
    assert cut.cutting_force_n is not None
    assert cut.cutting_force_high_n is not None
    return bent.worst_mm * cut.cutting_force_high_n / cut.cutting_force_n


def _with_bend(cut: Cut, bent: WorkBend, allowed_mm: float | None) -> Cut:
    assert cut.cutting_force_n is not None
    assert cut.cutting_force_low_n is not None
    high = _high(cut, bent)
    limits, cautions = list(cut.limits), [item for item in cut.cautions if item.code != "slender"]
    cautions += [item for item in bent.cautions if item not in cautions]
    if allowed_mm is not None:
        limits.append(Limit("deflection", high, allowed_mm, 1 - high / allowed_mm))
        cautions += [caution("deflection_exceeded")] if high > allowed_mm else []
    cautions += [caution("climbs")] if high > (cut.depth_mm or 0.0) else []
    return replace(
        cut,
        deflection_mm=bent.worst_mm,
        deflection_low_mm=bent.worst_mm * cut.cutting_force_low_n / cut.cutting_force_n,
        deflection_high_mm=high,
        limits=tuple(limits),
        cautions=tuple(cautions),
        evidence=(*cut.evidence, *(item for item in bent.evidence if item.rule_id == "work_beam")),
    )
