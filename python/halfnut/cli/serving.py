"""halfnut serve: the sheets of a plan for a browser beside the machine."""

from __future__ import annotations

import base64
import hashlib
import ipaddress
import re
import socket
from functools import partial
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import unquote, urlsplit

import click

from halfnut._core import DomainError
from halfnut.cli.output import echo
from halfnut.planning.job import OPENING_PAGE

__all__ = ["pages", "policy", "serve", "server"]

_HERE, _EVERYWHERE = "127.0.0.1", "0.0.0.0"
_PORT = 8027
_KINDS = {
    ".html": "text/html; charset=utf-8",
    ".csv": "text/csv; charset=utf-8",
    ".json": "application/json; charset=utf-8",
}
_SCRIPT = re.compile(rb"<script>(.*?)</script>", re.DOTALL)

_EPILOG = """\b
Example:
  halfnut serve sheets                     for a browser on this computer
  halfnut serve sheets --shop-network      for a phone in the shop's own network too

Only the pages, tables and figures of the folder are shown, and only read. What is ticked and measured stays in the
browser it was entered in. Ctrl-C ends it."""


def policy(page: bytes) -> str:
    """What a browser lets a page do: run the scripts that stand in it and its style, send nothing, be in no frame.

    Parameters
    ----------
    page : bytes
        HTML; scripts in elements with attributes are not run.

    Returns
    -------
    str
        Value of the header ``Content-Security-Policy``.
    """
    digests = (base64.b64encode(hashlib.sha256(script).digest()).decode() for script in _SCRIPT.findall(page))
    scripts = " ".join([*(f"'sha256-{digest}'" for digest in digests), "'wasm-unsafe-eval'"])
    return (
        f"default-src 'none'; script-src {scripts}; style-src 'unsafe-inline'; img-src data:; "
        "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
    )


def pages(folder: Path) -> dict[str, Path]:
    """What is served, by its path: the files that lie in the folder, and the page that opens them.

    Parameters
    ----------
    folder : Path
        Of a plan. Only .html, .csv and .json are served, no links or hidden files.

    Returns
    -------
    dict
        Files by paths such as "/plan.csv"; the opening page by "/" too.

    Raises
    ------
    DomainError
        There is nothing to show.
    """
    found = {
        f"/{path.name}": path
        for path in sorted(folder.iterdir())
        if path.suffix in _KINDS and path.is_file() and not path.is_symlink() and not path.name.startswith(".")
    }
    first = f"/{OPENING_PAGE}"
    if first not in found:
        raise DomainError(f"{folder}: no {OPENING_PAGE} in it; halfnut plan JOB --out {folder} writes one")
    return {"/": found[first], **found}


class _Handler(BaseHTTPRequestHandler):
    """Answers with a file that was there when serving began, or with nothing."""

    server_version, sys_version = "halfnut", ""

    def __init__(self, found: dict[str, Path], *args: object, **named: object):
        self.found = found
        super().__init__(*args, **named)  # type: ignore[arg-type]

    def do_GET(self) -> None:
        """A page."""
        self.wfile.write(self._answer())

    def do_HEAD(self) -> None:
        """What a page is."""
        self._answer()

    def _answer(self) -> bytes:
        """Answer but for the page, which is given back; nothing where there is none."""
        path = self.found.get(unquote(urlsplit(self.path).path))
        if not _is_ours(self.headers.get("Host", "")):
            self.send_error(HTTPStatus.FORBIDDEN, "Asked by a name that is not this computer's")
            return b""
        try:
            page = None if path is None else path.read_bytes()
        except OSError:
            page = None
        if page is None or path is None:
            self.send_error(HTTPStatus.NOT_FOUND, "No such page")
            return b""
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", _KINDS[path.suffix])
        self.send_header("Content-Length", str(len(page)))
        self.send_header("Content-Security-Policy", policy(page))
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Referrer-Policy", "no-referrer")
        self.send_header("Cache-Control", "no-cache")
        self.end_headers()
        return page

    def log_message(self, *_: object) -> None:
        """The terminal stays as it is."""


def _is_ours(host: str) -> bool:
    """Whether a request names this computer: by its address, or by a name of its own.

    A page from elsewhere whose name is turned to this address would read the sheets otherwise.
    """
    try:
        name = urlsplit(f"//{host}").hostname or ""
    except ValueError:
        return False
    if name in {"localhost", socket.gethostname().lower(), f"{socket.gethostname().lower()}.local"}:
        return True
    try:
        ipaddress.ip_address(name)
    except ValueError:
        return False
    return True


def server(found: dict[str, Path], port: int, *, shop_network: bool) -> ThreadingHTTPServer:
    """A server of pages, not begun: on this computer alone, or for the network too.

    Parameters
    ----------
    found : dict
        What `pages` gives.
    port : int
        TCP port; 0 for any that is free.
    shop_network : bool
        Whether every device in the network is answered.

    Returns
    -------
    ThreadingHTTPServer
        Bound to its port; ``serve_forever`` answers.
    """
    return ThreadingHTTPServer((_EVERYWHERE if shop_network else _HERE, port), partial(_Handler, found))


@click.command(epilog=_EPILOG)
@click.argument("folder", type=click.Path(exists=True, file_okay=False, path_type=Path), default="halfnut-sheets")
@click.option("--port", type=click.IntRange(1024, 65535), default=_PORT, show_default=True)
@click.option("--shop-network", is_flag=True, help="For every device in this computer's network, not this one alone.")
def serve(folder: Path, port: int, shop_network: bool) -> None:
    """Show the sheets in FOLDER, halfnut-sheets when not given, to a browser until Ctrl-C."""
    found = pages(folder)
    with server(found, port, shop_network=shop_network) as serving:
        echo(f"http://{_HERE}:{port}/ shows {folder}; Ctrl-C ends")
        if shop_network:
            echo(f"http://{socket.gethostname()}:{port}/ or this computer's address, from the network")
            echo("  CAUTION: whoever is in this network reads the sheets: no password, not encrypted")
        serving.serve_forever()
