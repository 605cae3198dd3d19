"""What a threaded joint holds and what fails first; the torque for a preload, or the preload from a torque."""

from __future__ import annotations

from typing import Any

from halfnut._core import spell, spell_span
from halfnut.core.sizes import both, both_systems, one
from halfnut.threads.figures import ThreadStrengthFigures, TighteningFigures

__all__ = ["ThreadStrength", "Tightening"]


class ThreadStrength(ThreadStrengthFigures):
    """What a threaded joint holds.

    No factor of safety is in any figure but `allowable_n` and `engagement_for_load_mm`.
    """

    def to_dict(self) -> dict[str, Any]:
        """The answer as a flat dictionary, each figure in both systems of units."""
        return both_systems(super().to_dict())

    @property
    def friction(self) -> tuple[float, float] | None:
        """Friction in the thread, least and greatest."""
        return (
            None if self.friction_low is None or self.friction_high is None else (self.friction_low, self.friction_high)
        )

    @property
    def raising_torque_nm(self) -> tuple[float, float] | None:
        """Torque of the screw alone under the load, for the least and the greatest friction."""
        low, high = self.raising_torque_min_nm, self.raising_torque_max_nm
        return None if low is None or high is None else (low, high)

    @property
    def answer(self) -> str:
        """What it bears."""
        bears, breaks = self._force(self.bears_n), self._force(self.weakest_n)
        return f"{self.external} in {self.internal}: bears {bears}; first to break: {self.weakest} at {breaks}"

    def report(self) -> list[tuple[str, str]]:
        """Engagement, loads, walls, what they rest on."""
        return [*self._loads(), *self._engaged(), *self._parts(), *self._screw(), *self._galls()]

    def _force(self, value_n: float) -> str:
        return spell(value_n, "force", self.unit)

    def _stress(self, value_mpa: float) -> str:
        return spell(value_mpa, "stress", self.unit)

    def _loads(self) -> list[tuple[str, str]]:
        allowed = "not answered: no factor of safety is given"
        if self.allowable_n is not None:
            allowed = f"{self._force(self.allowable_n)}, factor of safety {self.factor_of_safety:g}"
        out = [("allow", allowed)]
        if self.load_n is not None:
            reached = "" if self.factor_reached is None else f": factor {self.factor_reached:.2f}"
            if self.flank_pressure_mpa is not None and self.by_form:
                reached += f"{',' if reached else ':'} {self._stress(self.flank_pressure_mpa)} on the flanks"
            out.append(("load", f"{self._force(self.load_n)}{reached}"))
        return out

    def _engaged(self) -> list[tuple[str, str]]:
        unit, full = self.unit, self.full_form_engagement_mm
        lost = "" if self.overlap_mm == full else f" of {one(self.overlap_mm, unit)} overlap"
        out = [("engaged", f"{both(full, unit)} full form{lost}, {self.engaged_turns:.1f} turns")]
        need = f"{both(self.engagement_required_mm, unit)} for a section to break before a thread strips"
        rule = f"{one(self.engagement_handbook_mm, unit)} by the handbook's rule, solid parts"
        out.append(("engage", f"{need}; {rule}"))
        if self.engagement_practice_mm is not None:
            share = self.engagement_practice_mm / self.diameter_mm
            out.append(("practice", f"{both(self.engagement_practice_mm, unit)}, {share:.2g} diameters"))
        if self.engagement_for_load_mm is not None:
            factor = "" if self.factor_of_safety is None else f" with factor {self.factor_of_safety:g}"
            least_mm = 3.0 * full / self.engaged_turns
            short = self.engagement_for_load_mm < least_mm
            least = f"; never under three turns, {one(least_mm, unit)}" if short else ""
            out.append(("for load", f"{both(self.engagement_for_load_mm, unit)} full form{factor}{least}"))
        return out

    def _parts(self) -> list[tuple[str, str]]:
        out = []
        for side in ("external", "internal"):
            breaks, yields = getattr(self, f"{side}_tension_n"), getattr(self, f"{side}_yield_n")
            parts = [f"thread strips {self._force(getattr(self, f'{side}_stripping_n'))}"]
            if breaks is not None:
                known = "yield not known" if yields is None else f"yields {self._force(yields)}"
                parts = [f"section breaks {self._force(breaks)}", known, *parts]
            out.append((side, ", ".join(parts)))
        bounds = ", bounds from 60 degree threads" if self.by_form else ""
        bending = f"{self.external_bending_factor:.3f} external, {self.internal_bending_factor:.3f} internal"
        out.append(("factors", f"dilation {self.dilation_factor:.3f}, bending {bending}{bounds}"))
        for side, where in (("external", "under"), ("internal", "over")):
            wall = getattr(self, f"{side}_wall_mm")
            if wall is not None:
                out.append(("wall", f"{both(wall, self.unit)} left {where} the {side} thread"))
            tensile, shear = getattr(self, f"{side}_tensile_mpa"), getattr(self, f"{side}_shear_strength_mpa")
            strengths = f"tensile {self._stress(tensile)}, shear {self._stress(shear)}"
            out.append(("made of", f"{side} {getattr(self, f'{side}_material')}: {strengths}"))
        if self.internal_hoop_mpa is not None:
            out.append(("hoop", f"{self._stress(self.internal_hoop_mpa)} in the internal wall under the load"))
        return out

    def _screw(self) -> list[tuple[str, str]]:
        if self.friction is None:
            return []
        slick, rough = self.friction
        out = []
        if self.raising_torque_nm is not None:
            torque = spell_span(*self.raising_torque_nm, "torque", self.unit)
            out.append(("raise", f"{torque} in the screw, friction {slick:g} to {rough:g}"))
        holds = "holds" if self.holding_friction <= slick else "does not hold for certain"
        return [*out, ("holds", f"{holds}: it needs a friction of {self.holding_friction:.3f}; shaking lowers it")]

    def _galls(self) -> list[tuple[str, str]]:
        if self.galling is None:
            return []
        return [("galling", self.galling), *(("advice", each) for each in self.advice)]


class Tightening(TighteningFigures):
    """Torque and preload over the range of friction."""

    def to_dict(self) -> dict[str, Any]:
        """The answer as a flat dictionary, each figure in both systems of units."""
        return both_systems(super().to_dict())

    @property
    def answer(self) -> str:
        """Torque, or preload."""
        torque = spell_span(self.torque_min_nm, self.torque_max_nm, "torque", self.unit)
        low, high = (spell(each, "force", self.unit) for each in (self.preload_min_n, self.preload_max_n))
        if self.asked == "preload":
            return f"{self.thread}: {torque} for a preload of {low}"
        return f"{self.thread}: {torque} brings a preload of {low} to {high}"

    def report(self) -> list[tuple[str, str]]:
        """Friction, seat, what loosens it, what it strains."""
        unit = self.unit
        thread = f"thread {self.thread_friction_low:.2f} to {self.thread_friction_high:.2f}"
        seat = f"seat {self.bearing_friction_low:.2f} to {self.bearing_friction_high:.2f}"
        out = [
            ("friction", f"{thread}, {seat}, {self.lubricant}"),
            ("seat", f"mean diameter {both(self.bearing_diameter_mm, unit)}"),
        ]
        if self.prevailing_nm:
            out.append(("prevails", f"{spell(self.prevailing_nm, 'torque', unit)}, included"))
        out.append(("loosens", spell_span(self.loosen_min_nm, self.loosen_max_nm, "torque", unit)))
        practice = "none published for these flanks"
        if self.practice_nut_factor is not None and self.practice_torque_nm is not None:
            practice = f"by practice {self.practice_nut_factor:g}, {spell(self.practice_torque_nm, 'torque', unit)}"
        out.append(("K", f"{self.nut_factor_min:.3f} to {self.nut_factor_max:.3f}; {practice}"))
        bears = "" if self.yield_mpa is None else f", {100 * self.stress_max_mpa / self.yield_mpa:.0f} % of yield"
        return [*out, ("stress", f"{spell(self.stress_max_mpa, 'stress', unit)} while tightening at most{bears}")]
