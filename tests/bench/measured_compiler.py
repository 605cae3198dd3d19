"""Run a compiler and note what it took: `measured_compiler.py NOTES COMPILER ARGUMENT...`, a launcher for CMake."""

from __future__ import annotations

import os
import resource
import subprocess
import sys


def main() -> int:
    """Append unit, processor seconds and megabytes at most to the notes; the status is the compiler's."""
    notes, *command = sys.argv[1:]
    status = subprocess.run(command, check=False).returncode
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    unit = command[command.index("-o") + 1] if "-o" in command else command[-1]
    line = f"{unit}\t{used.ru_utime + used.ru_stime:.2f}\t{used.ru_maxrss / 1024:.0f}\n"
    with open(notes, "a", encoding="utf-8", opener=lambda path, flags: os.open(path, flags, 0o644)) as file:  # noqa: PTH123
        file.write(line)
    return status


if __name__ == "__main__":
    sys.exit(main())
