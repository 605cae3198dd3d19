"""Rules of the core's C++ sources that no compiler holds: which way includes run, and whose sines are used.

That each header compiles alone is held by the build of the C++ tests, but for the standard library's headers,
which are compiled once for all of them: whether each names what it uses is held here.
"""

from __future__ import annotations

import posixpath
import re
from functools import cache
from pathlib import Path

import pytest

CPP = Path(__file__).resolve().parents[2] / "cpp"
ROOMS = ("core", "material", "machine", "fits", "threads", "knurls", "cutting", "job", "batch")
SEES_EVERY_ROOM = ("src/core/table_info.cpp", "src/core/overlay.cpp")
ELEMENTARY = "a?(?:sin|cos|tan)h?|atan2|exp2?|expm1|log(?:2|10|1p)?|pow|cbrt|hypot|erfc?|[lt]gamma"
OF_THE_C_LIBRARY = re.compile(
    rf"(?<![\w:.>])(?<!double )(?:std::)?(?:{ELEMENTARY})[fl]?\(|\busing std::(?:{ELEMENTARY})\b"
)

STANDARD = {
    "algorithm": {
        "min",
        "max",
        "clamp",
        "sort",
        "stable_sort",
        "find",
        "find_if",
        "any_of",
        "all_of",
        "none_of",
        "partition_point",
        "lower_bound",
    },
    "array": {"array"},
    "bit": {"bit_cast"},
    "cmath": {"isnan", "isfinite", "sqrt", "floor", "ceil", "round", "fmax", "fmin", "copysign", "nearbyint"},
    "cstdint": {"int8_t", "int16_t", "int32_t", "int64_t", "uint8_t", "uint16_t", "uint32_t", "uint64_t"},
    "functional": {"function"},
    "limits": {"numeric_limits"},
    "map": {"map"},
    "memory": {"unique_ptr", "shared_ptr"},
    "numbers": {"numbers"},
    "optional": {"optional", "nullopt"},
    "span": {"span"},
    "string": {"string", "to_string"},
    "string_view": {"string_view"},
    "tuple": {"tuple", "tie"},
    "utility": {"pair", "move", "forward", "exchange", "swap"},
    "variant": {"variant", "visit"},
    "vector": {"vector"},
}


@cache
def core() -> dict[str, str]:
    """Return the core's sources without comments, by their paths below ``cpp``."""
    files = sorted(path for room in ("include", "src") for path in (CPP / room).rglob("*.[ch]pp"))
    return {path.relative_to(CPP).as_posix(): uncommented(path.read_text("utf-8")) for path in files}


def uncommented(text: str) -> str:
    return re.sub(r"//[^\n]*", "", text)


def included(name: str, text: str) -> list[str]:
    """Return the project's own files that one includes, generated ones too."""
    near = posixpath.dirname(name)
    return [
        f"include/{path}" if path.startswith("halfnut/") else posixpath.normpath(posixpath.join(near, path))
        for path in re.findall(r'^#include "([^"]+)"', text, re.MULTILINE)
    ]


def room(name: str) -> str:
    inside = re.fullmatch(r"(?:include/halfnut|src)/(\w+)/.*", name)
    return inside[1] if inside else "core"


def running_back(files: dict[str, str]) -> list[str]:
    """Return the includes of a room that stands further on; tables and overlay are of every room."""
    return [
        f"{name} includes {other}"
        for name, text in files.items()
        for other in included(name, text)
        if ROOMS.index(room(other)) > ROOMS.index(room(name)) and name not in SEES_EVERY_ROOM
    ]


def circle(files: dict[str, str]) -> list[str]:
    """Return a chain of files that include each other in a ring, if there is one."""
    done: set[str] = set()

    def search(name: str, chain: list[str]) -> list[str]:
        if name in chain:
            return [*chain[chain.index(name) :], name]
        if name in done or name not in files:
            return []
        for other in included(name, files[name]):
            if found := search(other, [*chain, name]):
                return found
        done.add(name)
        return []

    return next((found for name in files if (found := search(name, []))), [])


def foreign_elementary(files: dict[str, str]) -> list[str]:
    """Return the calls of elementary functions that differ from one C library to another."""
    return [f"{name}: {call}" for name, text in files.items() for call in OF_THE_C_LIBRARY.findall(text)]


def unnamed_standard_headers(files: dict[str, str]) -> list[str]:
    """Return the standard library's headers that a header uses, but that neither it nor what it includes names."""
    named = {name: set(re.findall(r"^#include <(\w+)>", text, re.MULTILINE)) for name, text in files.items()}
    others = {name: included(name, text) for name, text in files.items()}

    def reached(name: str, seen: set[str]) -> set[str]:
        if name in seen or name not in files:
            return set()
        seen.add(name)
        return named[name].union(*(reached(other, seen) for other in others[name]))

    found = []
    for name in (name for name in files if name.endswith(".hpp")):
        used = set(re.findall(r"\bstd::(\w+)", files[name]))
        missing = {header for header, words in STANDARD.items() if used & words} - reached(name, set())
        found += [f"{name} uses <{header}>" for header in sorted(missing)]
    return found


def planted(name: str, line: str) -> dict[str, str]:
    """Return the core with a line before all others of one file."""
    assert name in core()
    return {**core(), name: f"{line}\n{core()[name]}"}


def test_includes_run_one_way_between_rooms() -> None:
    assert len(core()) > 100
    assert {room(name) for name in core()} <= set(ROOMS)
    assert running_back(core()) == []


@pytest.mark.parametrize(
    ("name", "header"),
    [
        ("include/halfnut/core/quantity.hpp", "halfnut/material/alloy.hpp"),
        ("include/halfnut/threads/profile.hpp", "halfnut/cutting/chip.hpp"),
        ("src/cutting/turning.cpp", "halfnut/batch/cuts.hpp"),
        ("src/threads/limits.cpp", "../knurls/any.hpp"),
        ("include/halfnut/core/catalogue.hpp", "halfnut/threads/tables.hpp"),
    ],
)
def test_an_include_that_runs_back_is_seen(name: str, header: str) -> None:
    assert len(running_back(planted(name, f'#include "{header}"'))) == 1


def test_no_files_include_each_other_in_a_ring() -> None:
    assert circle(core()) == []


def test_a_ring_of_includes_is_seen() -> None:
    found = circle(planted("include/halfnut/core/level1.hpp", '#include "halfnut/threads/gauging.hpp"'))
    assert found[0] == found[-1]
    assert "include/halfnut/core/level1.hpp" in found


def test_headers_name_what_they_use_of_the_standard_library() -> None:
    assert unnamed_standard_headers(core()) == []


def test_a_standard_header_that_is_not_named_is_seen() -> None:
    found = unnamed_standard_headers(planted("include/halfnut/core/spread.hpp", "std::vector<double> sizes();"))
    assert found == ["include/halfnut/core/spread.hpp uses <vector>"]


def test_elementary_functions_are_the_projects_own() -> None:
    """Sine, logarithm and their like give other bits in another C library; elementary.hpp gives the same ones."""
    assert foreign_elementary(core()) == []


@pytest.mark.parametrize(
    "line",
    [
        "double x = std::sin(1.0);",
        "return 2.0 * pow(a, b);",
        "using std::cbrt;",
        "f(std::hypot(1.0, a, b))",
        "{logf(x)}",
    ],
)
def test_a_call_of_the_c_library_is_seen(line: str) -> None:
    assert len(foreign_elementary(planted("src/threads/wires.cpp", line))) == 1


@pytest.mark.parametrize(
    "line", ["/// x = sin(a)", "Numbers::log2(h)", "power_of(x, y)", "static double exp2(double x)"]
)
def test_the_projects_own_functions_and_comments_are_not(line: str) -> None:
    assert foreign_elementary({"src/any.cpp": uncommented(line)}) == []
