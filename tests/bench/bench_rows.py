"""Tables of threads, plain fits and knurls whose rows are all distinct, in processor time."""

from __future__ import annotations

from marks import Mark, processor_s

from halfnut import batch

ROWS = 20_000
PITCHES = (0.5, 0.75, 1.0, 1.25, 1.5)


def marks() -> list[Mark]:
    """Rows a second of each question."""
    sizes = [round(8.0 + 0.002 * row, 3) for row in range(ROWS)]
    threads = [f"M{size:g}x{PITCHES[row % len(PITCHES)]:g}" for row, size in enumerate(sizes)]
    external, internal = [f"{name}-6g" for name in threads], [f"{name}-6H" for name in threads]
    asked = {
        "limits": lambda: batch.limits({"thread": external}),
        "fit": lambda: batch.fit({"external": external, "internal": internal}),
        "knurl_blank": lambda: batch.knurl_blank({"diameter_mm": sizes}, pitch="1 mm"),
        "cylindrical_fit": lambda: batch.cylindrical_fit({"text": [f"{size:g} H7/g6" for size in sizes]}),
    }
    for name, ask in asked.items():
        assert not ask()["status"].any(), name
    return [Mark(f"rows of {name}", ROWS / processor_s(ask) / 1e3, unit="krows/s") for name, ask in asked.items()]
