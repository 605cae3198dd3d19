"""Alloys of the shop, by any of their names."""

from __future__ import annotations

from typing import TypeAlias

from halfnut.material.figures import Alloy as Alloy

AlloyLike: TypeAlias = str | Alloy
