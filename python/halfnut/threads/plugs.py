"""Plug gauges for the shop, and the nuts they are made for."""

from __future__ import annotations

from typing import ClassVar

from halfnut.threads.figures import ShopPlugFigures

__all__ = ["ShopPlug"]


class ShopPlug(ShopPlugFigures):
    """Sizes of a plug that a shop cuts for itself to try an internal thread with."""

    SHORT: ClassVar[tuple[str, ...]] = ("not-go",)
    ANSWER: ClassVar[str] = (
        "plug for {thread}: go end {go_pitch_mm:length} pitch, {go_major_mm:length} major, "
        "{go_over_wires_mm:fine} over {wire_mm:fine} wires"
    )
    ROWS: ClassVar[tuple[tuple[str, str], ...]] = (
        (
            "not-go",
            "{not_go_pitch_mm:length} pitch, {not_go_major_mm:length} major, {not_go_over_wires_mm:fine} over the "
            "same wires; three turns are enough",
        ),
    )
