"""A household's own authority in a browser that trusts it: the machine comes in, and what lies beyond its bounds does not."""

from __future__ import annotations

import os
import ssl
import sys
import threading
from contextlib import contextmanager
from datetime import UTC, datetime
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import Error

from tests.browser.conftest import PHONE
from tests.browser.trusting import trust
from tests.conftest import FLAGS, where_chromium_is
from tracker.door import authority
from tracker.door.trust import walk

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser

ADDRESS = "192.168.7.5"


class Hello(BaseHTTPRequestHandler):
    def do_GET(self) -> None:
        self.send_response(200)
        self.end_headers()

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002
        pass


@contextmanager
def served(certificate: Path) -> Iterator[int]:
    server = ThreadingHTTPServer(("127.0.0.1", 0), Hello)
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(certificate)
    server.socket = context.wrap_socket(server.socket, server_side=True)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield server.server_port
    server.shutdown()
    server.server_close()


@pytest.mark.skipif(sys.platform != "linux", reason="Chromium keeps trust elsewhere there")
def test_a_browser_that_trusts_the_authority_refuses_what_it_signs_beyond_its_bounds(chromium: Browser, tmp_path: Path):
    keys = tmp_path / "log.db.devices"
    ours = authority.made(keys, ["laptop.home.arpa"], ADDRESS)
    root, key = authority._read(keys.with_name(f"{keys.name}.authority.pem"))
    stray = tmp_path / "stray.pem"
    made = authority._certificate(root, key, {"bank.example"}, "203.0.113.9", datetime.now(UTC))
    authority._write(stray, *made)
    home = tmp_path / "home"
    trust(home, ours.authority)
    with served(ours.certificate) as good, served(stray) as bad:
        browser = chromium.browser_type.launch(
            executable_path=where_chromium_is(),
            args=[*FLAGS, "--host-resolver-rules=MAP * 127.0.0.1"],
            env={**os.environ, "HOME": str(home)},
        )
        page = browser.new_page()

        def came(name: str, port: int) -> str:
            try:
                answer = page.goto(f"https://{name}:{port}/")
            except Error as err:
                return str(err).partition("net::")[2].split()[0]
            return str(answer and answer.status)

        assert [came(name, good) for name in ("laptop.home.arpa", "127.0.0.1")] == ["200", "200"]
        assert came("other.example", good) == "ERR_CERT_COMMON_NAME_INVALID"
        for name in ("bank.example", "203.0.113.9"):  # of the same authority, and yet
            assert came(name, bad) == "ERR_CERT_INVALID"
        browser.close()


@pytest.mark.parametrize("width", [320, 390])
def test_the_page_that_walks_a_phone_through_it_is_for_everybody(chromium: Browser, tmp_path: Path, width: int):
    from axe_playwright_python.sync_playwright import Axe

    ours = authority.made(tmp_path / "keys", ["laptop.home.arpa"], ADDRESS)
    for scheme in ("light", "dark"):
        context = chromium.new_context(**{**PHONE, "viewport": {"width": width, "height": 844}, "color_scheme": scheme})  # type: ignore[arg-type]
        page = context.new_page()
        page.set_content(walk(ours, f"https://{ADDRESS}:8501"))
        assert Axe().run(page).response["violations"] == []
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), "it scrolls sideways"
        shown = page.locator("code").inner_text().split()
        assert shown == ours.fingerprint.split()
        assert page.evaluate("document.querySelector('code').getClientRects()[0].width < innerWidth")
        for name in ("iPhone or iPad", "Android phone"):
            assert page.locator(page.get_by_role("link", name=name).get_attribute("href") or "").inner_text() == name
        context.close()
