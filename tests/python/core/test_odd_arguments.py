"""No argument, however odd, kills the interpreter: what cannot be answered is an exception."""

import subprocess
import sys

# Called in a process of its own, which says of each function that it is at it.
CALLS = """
import random, re
import halfnut as hn
from halfnut import _core
from halfnut.core.catalogue import active

lathe = hn.lathe("gap-bed")
stock = {"form": "bar", "pieces": 0}
part = {"name": "a", "stock": stock, "alloy": "6061-T6", "quantity": 1, "operations": [{"do": "turn"}]}
odd = [
    None, True, 0, -1, 1, 2, float("nan"), float("inf"), 1e308, 10**30, "", "x", "M10", "6061-T6", b"x", {}, [], (),
    [1, 2], ["x"], {"a": {}}, part, {"parts": [part]}, {"quantity": -3}, lambda *given: None, active(), lathe,
    lathe.core, hn.mm(5),
]
for name in dir(_core):
    function = getattr(_core, name)
    if callable(function) and not isinstance(function, type):
        print(name, flush=True)
        chance = random.Random(name)
        signed = re.match(r"\\w+\\((.*)\\) ->", function.__doc__)
        for _ in range(60):
            try:
                count = signed[1].count(": ") if signed else chance.randrange(1, 8)
                function(*(chance.choice(odd) for _ in range(count)))
            except Exception:
                pass
"""


def test_no_function_of_the_core_dies_of_what_it_is_given(tmp_path):
    run = subprocess.run([sys.executable, "-c", CALLS], capture_output=True, text=True, cwd=tmp_path)
    called = run.stdout.split()
    assert run.returncode == 0, (called[-1:], run.stderr[-500:])
    assert len(called) > 250
