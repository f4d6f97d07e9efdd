"""The watch over a page: it lets a harmless page pass, and tells each thing that no page of ours may do."""

import threading
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

import pytest
from browser.watched_page import Watch
from playwright.sync_api import Browser

FINE = "<!doctype html><link rel=icon href=data:,><h1>Lanterns</h1><img alt='' src='data:image/svg+xml,<svg/>'>"
FAULTS = {
    "asked elsewhere: http://lanterns.example/": "<img alt='' src=http://lanterns.example/>",
    "asked elsewhere: ws://127.0.0.1:1/": "<script>new WebSocket('ws://127.0.0.1:1/')</script>",
    "asked elsewhere: http://localhost:1/": "<script>fetch('http://localhost:1/').catch(() => 0)</script>",
    "error on the console: no lantern": "<script>console.error('no lantern')</script>",
    "error on the page: no wick": "<script>throw new Error('no wick')</script>",
}


class Pages(BaseHTTPRequestHandler):
    """Serves whatever page the server holds."""

    def do_GET(self) -> None:
        body = self.server.page.encode()  # type: ignore[attr-defined]
        self.send_response(200)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *_: object) -> None:
        """Says nothing."""


@pytest.fixture
def server() -> Iterator[ThreadingHTTPServer]:
    with ThreadingHTTPServer(("127.0.0.1", 0), Pages) as serving:
        thread = threading.Thread(target=serving.serve_forever)
        thread.start()
        yield serving
        serving.shutdown()
        thread.join()


def complaints(browser: Browser, server: ThreadingHTTPServer, page: str) -> list[str]:
    server.page = page  # type: ignore[attr-defined]
    address = f"http://127.0.0.1:{server.server_port}"
    with browser.new_context() as context:
        watch = Watch(context.new_page(), address)
        watch.page.goto(address, wait_until="networkidle")
        return watch.complaints


def test_a_harmless_page_passes(browser: Browser, server: ThreadingHTTPServer) -> None:
    assert complaints(browser, server, FINE) == []


@pytest.mark.parametrize("told", FAULTS)
def test_each_fault_is_told(browser: Browser, server: ThreadingHTTPServer, told: str) -> None:
    assert any(complaint.startswith(told) for complaint in complaints(browser, server, FINE + FAULTS[told]))


def test_what_is_forgiven_passes(browser: Browser, server: ThreadingHTTPServer) -> None:
    with browser.new_context() as context:
        watch = Watch(context.new_page(), f"http://127.0.0.1:{server.server_port}")
        watch.forgive("no lantern")
        watch.page.evaluate("console.error('no lantern'); console.error('no wick')")
        assert [complaint.split(" (")[0] for complaint in watch.complaints] == ["error on the console: no wick"]
