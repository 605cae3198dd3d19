"""Reading of the published thread limits, shared by the thread tests."""

import csv
from collections import defaultdict
from dataclasses import dataclass, field
from decimal import Decimal
from pathlib import Path

REFERENCE = Path(__file__).parents[1] / "reference" / "threads"
DATA = Path(__file__).parents[2] / "cpp" / "data" / "threads"

ISO_EXTERNAL = {"d_max": "major_max", "d_min": "major_min", "d2_max": "pitch_max", "d2_min": "pitch_min"}
ISO_EXTERNAL |= {"d1_max": "minor_max", "d3_min": "minor_min"}
ISO_INTERNAL = {"D_min": "major_min", "D2_max": "pitch_max", "D2_min": "pitch_min"}
ISO_INTERNAL |= {"D1_max": "minor_max", "D1_min": "minor_min"}
UNIFIED_EXTERNAL = {"major_max": "major_max", "major_min": "major_min", "major_min_2": "major_min_unfinished"}
UNIFIED_EXTERNAL |= {"pd_max": "pitch_max", "pd_min": "pitch_min"}
UNIFIED_EXTERNAL |= {"unr_minor_max": "unr_minor_max", "un_minor_max": "minor_max"}
UNIFIED_INTERNAL = {"int_major_min": "major_min", "pd_max": "pitch_max", "pd_min": "pitch_min"}
UNIFIED_INTERNAL |= {"minor_max": "minor_max", "minor_min": "minor_min"}


def rows(path: Path) -> list[dict[str, str]]:
    """Rows of a table file, comment lines left out."""
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def columns(row: dict[str, str]) -> dict[str, str]:
    """Printed column to the name of our figure."""
    internal = row["class"][-1] in "BGHXZ"
    if "tpi" in row:
        return UNIFIED_INTERNAL if internal else UNIFIED_EXTERNAL
    return ISO_INTERNAL if internal else ISO_EXTERNAL


@dataclass
class Rate:
    """Rows and cells of one source that agree, of those it has; excepted ones are neither."""

    rows: int = 0
    rows_agree: int = 0
    excepted: int = 0
    wrong: list[str] = field(default_factory=list)


def compare(reference: list[dict[str, str]], figure) -> dict[tuple[str, str], Rate]:
    """Compare every printed cell; ``figure(row, name)`` is our figure as a float or None."""
    rates: dict[tuple[str, str], Rate] = defaultdict(Rate)
    for row in reference:
        rate = rates[row["role"], row["source"]]
        rate.rows += 1
        rate.rows_agree += not row["excepted"]
        rate.excepted += bool(row["excepted"])
        for column, name in columns(row).items():
            printed = row[column]
            if not printed:
                continue
            got = figure(row, name)
            agrees = got is not None and Decimal(repr(got)) == Decimal(printed)
            if agrees == (column in row["excepted"].split()):
                rate.wrong.append(f"{row['designation']} {column}: printed {printed}, got {got}")
    return rates


def report(title: str, rates: dict[tuple[str, str], Rate]) -> None:
    """Print the rates, one line a source, roles apart."""
    print(f"\n{title}")
    for (role, source), rate in sorted(rates.items()):
        print(f"  {rate.rows_agree:>4}/{rate.rows:<4} rows  {role:<12} {source}")
    wrong = [line for rate in rates.values() for line in rate.wrong]
    assert not wrong, "\n".join(wrong)
