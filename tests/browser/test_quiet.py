"""The pages speak to their own server and to nobody else."""

from __future__ import annotations

from urllib.parse import urlparse

from tests.browser.conftest import PHONE, Served, at_rest
from tracker import app, asset_folder


def test_no_page_asks_anything_of_another_machine(served: Served, chromium):
    context = chromium.new_context(**PHONE)
    page = context.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    for name, _ in app.PAGES:
        if (asset_folder("pages") / f"{name}.py").is_file():
            page.goto(f"{served.url}/{'' if name == app.PAGES[0][0] else name}?member={served.members['Wren']}")
            at_rest(page)
    context.close()
    assert len(asked) > len(app.PAGES)
    assert {
        url for url in asked if urlparse(url).scheme not in ("data", "blob") and urlparse(url).hostname != "127.0.0.1"
    } == set()
