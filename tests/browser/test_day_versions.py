"""An update of the day page: the old version goes on whole until it is let go, and modules of two versions never mix."""

from __future__ import annotations

import re
import threading
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import TYPE_CHECKING, Any

import pytest

from tests.browser.day_phone import WORKING, phone_of
from tracker.door.front import ICON
from tracker.pocket.routes import ROOT, served, version

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser

MODULES = """performance.getEntriesByType('resource').map(each => each.name)
  .concat([...document.querySelectorAll('script[src], link[href]')].map(each => each.src || each.href))"""
NEWER = "f" * 16


class Server(ThreadingHTTPServer):
    """The files of the page, of this version or of a later one that differs in its name alone; broken: a module is missing."""

    daemon_threads = True
    later = broken = False


class Files(BaseHTTPRequestHandler):
    server: Any

    def do_GET(self) -> None:
        files = served(ICON)
        name = self.path.partition("?")[0].removeprefix(ROOT)
        if self.server.later:  # the former version is gone from there, as after an update
            files = {each.replace(version(), NEWER): (kind, body.replace(version().encode(), NEWER.encode()), kept) for each, (kind, body, kept) in files.items()}  # fmt: skip
            if self.server.broken:
                files = {each: file for each, file in files.items() if not each.endswith("view.js")}
        kind, body, _ = files.get(name, ("application/json", b'{"nobody": true}', False))
        self.send_response(200 if name in files or name.startswith("api/plan") else 404)
        self.send_header("content-type", kind)
        self.send_header("content-length", str(len(body)))
        self.send_header("cache-control", "no-cache")
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002
        pass


@pytest.fixture
def server() -> Iterator[Server]:
    made = Server(("127.0.0.1", 0), Files)
    threading.Thread(target=made.serve_forever, daemon=True).start()
    yield made
    made.shutdown()
    made.server_close()


def versions(page: Any) -> set[str]:
    found = {match[1] for each in page.evaluate(MODULES) if (match := re.search(r"/day/v/([0-9a-f]+)/", each))}
    return found | {page.evaluate("document.body.dataset.version")}


def test_two_versions_never_mix_and_half_an_update_is_none(server: Server, chromium: Browser):
    with phone_of(chromium) as context:
        page = context.new_page()
        page.goto(f"http://127.0.0.1:{server.server_port}/day/")
        page.wait_for_selector("[data-next]")
        page.evaluate(WORKING)
        page.reload()
        page.wait_for_selector("[data-next]")
        assert versions(page) == {version()}
        server.later = server.broken = True
        page.evaluate("navigator.serviceWorker.getRegistration('/day/').then(each => each.update()).catch(() => {})")
        page.reload()
        page.wait_for_selector("[data-next]")
        assert versions(page) == {version()}  # whole, from its own store: the new one did not come whole
        assert page.locator("#fresh").count() == 0
        server.broken = False
        page.evaluate("navigator.serviceWorker.getRegistration('/day/').then(each => each.update())")
        page.locator("#fresh").wait_for()
        assert versions(page) == {version()}
        page.reload()
        page.locator("#fresh").wait_for()
        assert versions(page) == {version()}  # until somebody lets it go
        with page.expect_navigation():
            page.locator("#fresh").tap()
        page.wait_for_selector("[data-next]")
        page.wait_for_function(f"document.body.dataset.version === '{NEWER}'")
        assert versions(page) == {NEWER}
        assert page.evaluate("caches.keys()") == [f"day-{NEWER}"]
