"""What every room uses: quantities, records, words, tables, files and how a mistake is told."""

from __future__ import annotations

from halfnut.core.rooms import furnish

furnish(__name__, flat=False)
