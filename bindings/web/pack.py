"""One HTML file of the phone page: the core as WebAssembly, the shop's machines and wheels, style and script, in one.

    python bindings/web/pack.py BUILT OUT.html

BUILT is the folder with halfnut.wasm, core.js and page.js.
"""

from __future__ import annotations

import base64
import gzip
import hashlib
import json
import sys
from datetime import datetime, timezone
from pathlib import Path
from string import Template

import halfnut
from halfnut.core.catalogue import active
from halfnut.knurls.wheels import knurl_wheels
from halfnut.machine import machines

HERE = Path(__file__).parent
GREATEST = 2_000_000
"""Bytes that the page may have: a phone opens it from its own storage or over a shop's radio."""


def shop() -> str:
    """Version, day, every machine at hand, the shop's knurl wheels and tables, as JSON that ends no script."""
    known = [machines.machine(name) for name in machines.names()]
    known.sort(key=lambda each: each.kind != "lathe")
    listed = [{"title": each.title, "kind": each.kind, "machine": json.loads(each.core.json())} for each in known]
    made = datetime.now(tz=timezone.utc).date().isoformat()
    tables = [{"table": table, "text": text, "name": Path(name).name} for table, text, name, _ in active().layers]
    all_of_it = {"version": halfnut.__version__, "made": made, "machines": listed, "wheels": knurl_wheels()}
    text = json.dumps(all_of_it | {"tables": tables}, ensure_ascii=False, default=str)
    return text.replace("<", "\\u003c")


def policy(script: str, style: str) -> str:
    """What the browser lets the page do: run this script and this style, and send nothing anywhere."""
    digests = (base64.b64encode(hashlib.sha256(text.encode()).digest()).decode() for text in (script, style))
    own, look = (f"'sha256-{digest}'" for digest in digests)
    allowed = f"script-src {own} 'wasm-unsafe-eval'; style-src {look}"
    return f"default-src 'none'; {allowed}; base-uri 'none'; form-action 'none'"


def page(core: bytes, script: str) -> str:
    """The page's text."""
    style = (HERE / "page.css").read_text(encoding="utf-8")
    return Template((HERE / "page.html").read_text(encoding="utf-8")).substitute(
        policy=policy(script, style),
        style=style,
        shop=shop(),
        core=base64.b64encode(gzip.compress(core, mtime=0)).decode(),
        script=script,
    )


if __name__ == "__main__":
    built, out = map(Path, sys.argv[1:])
    script = "".join((built / name).read_text(encoding="utf-8") for name in ("core.js", "page.js"))
    text = page((built / "halfnut.wasm").read_bytes(), script)
    if len(text.encode()) > GREATEST:
        raise SystemExit(f"{out} would have {len(text.encode())} bytes, more than {GREATEST}")
    out.write_text(text, encoding="utf-8")
    print(f"{out}: {len(text.encode()):,} bytes")
