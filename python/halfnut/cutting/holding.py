"""Thin and slender work where it is held: what stands beside the figures."""

from __future__ import annotations

from halfnut._core import Evidence, spell
from halfnut.cutting.figures import HoldingFigures
from halfnut.cutting.rigidity import jaws_words

__all__ = ["Holding"]

_RING_FORCE_N = 1000.0


class Holding(HoldingFigures):
    """Work where it is held, under one cut."""

    @property
    def own_evidence(self) -> tuple[Evidence, ...]:
        """What the holding rests on, without what the cut does."""
        return tuple(item for item in self.evidence if item not in self.cut.evidence)

    @property
    def answer(self) -> str:
        """The deflection in one line."""
        held = f"{self.bend.slenderness:.1f} diameters unsupported  ({self.cut.alloy.title})"
        worst = self.bend.filled("deflects up to {worst_mm} at {worst_at_mm:travel}, {hold}")
        return f"{worst}, {held}"

    @property
    def along_words(self) -> str:
        """How much larger the diameter comes, by place."""
        return ", ".join(
            f"{self._length(each.larger_mm)} at {spell(each.at_mm, 'travel', self.unit)}" for each in self.places
        )

    @property
    def force_words(self) -> str:
        """The force across the work."""
        across = spell(self.cut.passive_force_n or 0.0, "force", self.unit)
        return f"{spell(self.bend.force_n, 'force', self.unit)} across the work at most, {across} computed"

    @property
    def others_words(self) -> str:
        """Deflection, held otherwise."""
        return ", ".join(f"{self._length(way.bend_mm)} {way.name}" for way in self.other_ways)

    @property
    def round_words(self) -> str | None:
        """Out-of-round of a tube."""
        if self.squeeze is not None:
            own = f"{self._length(self.squeeze.out_of_round_mm)} out when {self.squeeze.jaws} jaws let go"
            return f"{own}; the same grip in all: {self.squeeze.instead_words} jaws or contacts"
        if not self.rings:
            return None
        force = spell(_RING_FORCE_N, "force", self.unit)
        return f"for {force} a jaw: {jaws_words(self.rings, self.unit)} jaws"

    def report(self) -> list[tuple[str, str]]:
        """Diameters, other ways to hold it, grip, warmth, advice."""
        return [*super().report(), *(("do", each) for each in self.ways)]

    def _length(self, value_mm: float) -> str:
        return spell(value_mm, "length", self.unit)
