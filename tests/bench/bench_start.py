"""How soon the package is there, and the first answer at the lathe."""

from __future__ import annotations

import compileall
import subprocess
import sys
from pathlib import Path

from marks import Mark, alternated, ratio

import halfnut as hn

ANSWER = "from halfnut.cli import main; main(['turn', '6061-T6', '1.25in', '--machine', 'gap-bed'])"


def _run(code: str) -> None:
    subprocess.run([sys.executable, "-c", code], check=True, stdout=subprocess.DEVNULL)


def heavy() -> set[str]:
    """Which of the heavy libraries an answer loads."""
    code = f"""
import sys
try:
    exec({ANSWER!r})
except SystemExit:
    pass
print(*sys.modules, file=sys.stderr)
"""
    loaded = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True).stderr.split()
    known = {"numpy", "rich", "pandas", "pyarrow", "matplotlib"}
    return {name.partition(".")[0] for name in loaded} & known


def marks() -> list[Mark]:
    """Import and cold answer over importing NumPy."""
    command = Path(sys.executable).with_name("halfnut")
    compileall.compile_dir(Path(hn.__file__).parent, quiet=1)  # as pip installs it

    def turn() -> None:
        subprocess.run(
            [command, "turn", "6061-T6", "1.25in", "--machine", "gap-bed"], check=True, stdout=subprocess.DEVNULL
        )

    numpy, halfnut, cold = alternated([lambda: _run("import numpy"), lambda: _run("import halfnut"), turn])
    return [
        Mark("import halfnut over import numpy", ratio(halfnut, numpy), 1.0, at_least=False),
        Mark("halfnut turn, cold, over import numpy", ratio(cold, numpy), 1.0, at_least=False),
        Mark("heavy libraries that it loads", len(heavy()), 0, at_least=False, unit="", note=" ".join(sorted(heavy()))),
    ]
