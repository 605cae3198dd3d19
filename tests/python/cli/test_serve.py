"""The sheets served to a browser: only them, only read, only where it was asked for."""

import os
import shutil
import signal
import socket
import subprocess
import sys
import threading
import urllib.error
import urllib.request
from pathlib import Path

import pytest

import halfnut as hn
from halfnut.cli.serving import pages, policy, server

DEMO = Path(hn.__file__).parent / "demo"
CHROMIUM = shutil.which("chromium")


@pytest.fixture(scope="module")
def sheets(tmp_path_factory):
    folder = tmp_path_factory.mktemp("serve") / "sheets"
    hn.plan(DEMO / "job.toml").write(folder)
    (folder.parent / "secret.html").write_text("secret")
    (folder / "link.html").symlink_to(folder.parent / "secret.html")
    (folder / ".hidden.html").write_text("secret")
    (folder / "key.pem").write_text("secret")
    return folder


@pytest.fixture(scope="module")
def address(sheets):
    with server(pages(sheets), 0, shop_network=False) as serving:
        threading.Thread(target=serving.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{serving.server_address[1]}"
        serving.shutdown()


def asked(url, *, host=None, method="GET"):
    request = urllib.request.Request(url, method=method, headers={} if host is None else {"Host": host})
    try:
        with urllib.request.urlopen(request, timeout=10) as answer:
            return answer.status, answer.headers, answer.read()
    except urllib.error.HTTPError as error:
        return error.code, error.headers, error.read()


def test_every_sheet_is_shown_as_it_is(sheets, address):
    assert asked(f"{address}/")[2] == (sheets / "index.html").read_bytes()
    for path in sheets.glob("[a-z]*.*"):
        if path.suffix in {".html", ".csv", ".json"} and not path.is_symlink():
            status, headers, body = asked(f"{address}/{path.name}")
            assert (status, body) == (200, path.read_bytes())
            assert headers["X-Content-Type-Options"] == "nosniff"
            assert "default-src 'none'" in headers["Content-Security-Policy"]
            assert (
                "unsafe-inline" not in headers["Content-Security-Policy"].partition("script-src")[2].partition(";")[0]
            )
    status, headers, body = asked(f"{address}/plan.csv", method="HEAD")
    assert (status, body) == (200, b"") and int(headers["Content-Length"]) == (sheets / "plan.csv").stat().st_size


@pytest.mark.parametrize(
    "path",
    ["/../secret.html", "/%2e%2e/secret.html", "/..%2fsecret.html", "//etc/passwd", "/link.html", "/.hidden.html",
     "/key.pem", "/sub/", "/index.html/", "/%00", "/" + "x" * 5000],
)  # fmt: skip
def test_nothing_else_is(address, path):
    status, _, body = asked(address + path)
    assert status == 404 and b"secret" not in body and b"root:" not in body


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE"])
def test_it_is_only_read(address, method):
    assert asked(f"{address}/index.html", method=method)[0] == 501


@pytest.mark.parametrize(("host", "status"), [
    ("localhost:8027", 200), ("127.0.0.1", 200), ("192.168.1.20:8027", 200), ("[::1]:8027", 200),
    (socket.gethostname(), 200), ("evil.example", 403), ("localhost.evil.example", 403), ("", 403), ("[", 403),
])  # fmt: skip
def test_a_page_of_another_name_reads_nothing(address, host, status):
    assert asked(f"{address}/index.html", host=host)[0] == status


def test_it_is_this_computer_s_alone_unless_the_network_is_asked_for(sheets):
    for network, bound in ((False, "127.0.0.1"), (True, "0.0.0.0")):
        with server(pages(sheets), 0, shop_network=network) as serving:
            assert serving.server_address[0] == bound


def test_a_script_that_is_not_the_page_s_own_is_not_in_its_policy():
    own, other = policy(b"<script>a()</script>"), policy(b"<script>b()</script>")
    assert own != other and own.count("sha256-") == 1


@pytest.mark.parametrize("network", [False, True])
def test_the_command_says_where_and_warns_of_the_network(sheets, network):
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    words = ["serve", str(sheets), "--port", str(port), *(["--shop-network"] if network else [])]
    child = subprocess.Popen([sys.executable, "-m", "halfnut", *words], stdout=subprocess.PIPE, text=True,
                             env={**os.environ, "PYTHONUNBUFFERED": "1"})  # fmt: skip
    try:
        assert child.stdout.readline() == f"http://127.0.0.1:{port}/ shows {sheets}; Ctrl-C ends\n"
        if network:
            child.stdout.readline()
            assert child.stdout.readline().startswith("  CAUTION: whoever is in this network reads the sheets")
        assert asked(f"http://127.0.0.1:{port}/")[0] == 200
    finally:
        child.send_signal(signal.SIGINT)
        child.communicate(timeout=30)
    assert child.returncode == 130


def test_a_folder_without_sheets_is_refused(tmp_path):
    with pytest.raises(hn.DomainError, match=r"no index\.html in it; halfnut plan JOB --out"):
        pages(tmp_path)


@pytest.mark.skipif(CHROMIUM is None, reason="chromium is not here")
def test_cards_keep_their_ticks_under_the_policy(address):
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": 390, "height": 844})
        told = []
        page.on("console", lambda message: told.append(message.text))
        page.goto(f"{address}/altitude-pin.html")
        page.locator(".tick").first.check()
        page.reload()
        assert page.locator(".tick").first.is_checked()
        assert told == []
        sent = page.evaluate("() => fetch('/plan.json').then(() => 'sent', () => 'refused')")
        assert sent == "refused"
        browser.close()
