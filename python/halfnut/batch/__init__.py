"""Thousands to millions of setups at once: columns in, columns out.

Every function takes a table (a mapping of arrays, a pandas, Arrow or polars table) and answers with one of the same
kind, a row for each row. A row that has no answer holds NaN in every figure, a `status` other than 0 and a `reason`;
it never stops the others. Each row is what the scalar function gives for the same numbers, bit for bit, for any
number of workers.

Columns of lengths carry their unit in their name, ``diameter_mm`` or ``diameter_in``, or in their values, as pint's
and astropy's do: those are converted, and may be called ``diameter``. Columns that name nothing here are left alone.

A cell without a number (NaN, null) is not given: it takes what the scalar function takes when the argument is left
out, in the system of the question. That is inch where all diameters are in inches, else metric. NaN for a whole
batch (``hardness_hb=nan``) is refused.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut.core.rooms import furnish

if TYPE_CHECKING:
    from halfnut.batch.asking import *
    from halfnut.batch.columns import *
    from halfnut.batch.evidence import *
    from halfnut.batch.frames import *
    from halfnut.batch.questions import *
    from halfnut.batch.running import *
    from halfnut.batch.telling import *

furnish(__name__)
