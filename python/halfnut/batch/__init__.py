"""Many questions of a kind at once: arrays or frames in, columns out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.rooms import furnished

if TYPE_CHECKING:
    from halfnut.batch.batches import *
    from halfnut.batch.frames import *

__getattr__, __dir__ = furnished(__name__)
