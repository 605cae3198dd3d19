"""Plain holes and shafts: limits of size by ISO 286 and ANSI B4.1, and how a pair goes together.

`cylindrical_fit` answers one size or a pair, bare or coated, at its temperatures; `preferred_fits` names the fits to
choose first.
"""

from __future__ import annotations

from typing import Any

from halfnut.fits.figures import CylinderPart, CylindricalFitFigures

__all__ = ["CylindricalFit"]


class CylindricalFit(CylindricalFitFigures):
    """A size, or a hole and a shaft together. Clearances are below 0 where the parts interfere; lengths in mm."""

    @property
    def parts(self) -> tuple[CylinderPart, ...]:
        """The parts that are given, the hole first."""
        return tuple(part for part in (self.hole, self.shaft) if part is not None)

    def cut_to_mm(self, side: str) -> tuple[float, float] | None:
        """Sizes to cut a part to, so that it is within its class once it is coated.

        Parameters
        ----------
        side : {"hole", "shaft"}
            Which part.

        Returns
        -------
        tuple of float or None
            Least and greatest, mm; None where the part has no coating, or where the coating's own range is wider than
            the tolerance.
        """
        hole = (self.hole_cut_min_mm, self.hole_cut_max_mm)
        low, high = hole if side == "hole" else (self.shaft_cut_min_mm, self.shaft_cut_max_mm)
        return None if low is None or high is None else (low, high)

    def to_dict(self) -> dict[str, Any]:
        """The fit as a flat dictionary with unit-suffixed keys."""
        out = {key: value for key, value in super().to_dict().items() if key not in {"hole", "shaft"}}
        for part in self.parts:
            out[f"{part.side}_class"] = part.tolerance_class
            out[f"{part.side}_max_mm"] = part.max_mm
            out[f"{part.side}_min_mm"] = part.min_mm
            out[f"{part.side}_kind"] = part.kind
        return out
