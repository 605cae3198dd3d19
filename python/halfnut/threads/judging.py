"""What a measured thread is, and what is left to take off."""

from __future__ import annotations

from halfnut._core import spell
from halfnut.threads.figures import Judged, VerdictFigures

__all__ = ["Judged", "Verdict"]


class Verdict(VerdictFigures):
    """What a measured part is: its place in each zone, the classes it meets, what is left to take off."""

    @property
    def passes(self) -> bool:
        """Whether every diameter that was measured is within its limits."""
        return self.place == "within"

    @property
    def diameters(self) -> dict[str, Judged]:
        """Each diameter by its name."""
        return {"major": self.major, "pitch": self.pitch, "minor": self.minor}

    @property
    def answer(self) -> str:
        """The verdict."""
        name, worst = next((name, each) for name, each in self.diameters.items() if each.place == self.place)
        left, past = (spell(each, "length", self.unit) for each in (worst.to_enter_mm, -worst.to_last_mm))
        said = {
            "within": "within its limits",
            "metal left": f"not yet: {name} diameter has {left} to come off",
            "overcut": f"overcut: {name} diameter is {past} past its limit",
        }
        return f"{self.thread}: {said[self.place]}"

    def report(self) -> list[tuple[str, str]]:
        """Each diameter, what is left on either dial, the classes."""
        out = []
        for name, judged in self.diameters.items():
            if judged.measured_mm is not None:
                out += [(name, self._lies(judged)), *(("", text) for text in self._left(judged))]
        pitch, unit = self.pitch.measured_mm, self.unit
        if self.functional_pitch_mm is not None and self.functional_pitch_mm != pitch:
            feels = spell(self.functional_pitch_mm, "length", unit)
            out.append(("gauges", f"as {feels} pitch, for its errors of lead and angle"))
        if self.over_wires_mm is not None and self.wire_mm is not None:
            read, wire = (spell(each, "length", unit) for each in (self.over_wires_mm, self.wire_mm))
            out.append(("read", f"{read} over {wire}"))
        return [*out, ("meets", ", ".join(self.classes_met) or "no class")]

    def _lies(self, judged: Judged) -> str:
        limits = (judged.min_mm, judged.max_mm)
        zone = " to ".join("open" if each is None else spell(each, "length", self.unit).split()[0] for each in limits)
        return f"{spell(judged.measured_mm or 0.0, 'length', self.unit)}, limits {zone}: {judged.place}"

    def _left(self, judged: Judged) -> list[str]:
        if judged.place == "overcut":
            return []
        steps = [
            ("at least", judged.to_enter_mm),
            ("to the middle", judged.to_middle_mm),
            ("at most", judged.to_last_mm),
        ]
        return [
            f"{words} {spell(off, 'length', self.unit)} on a diameter dial, "
            f"{spell(off / 2, 'length', self.unit)} on a radius dial"
            for words, off in steps
            if off > 0
        ]
