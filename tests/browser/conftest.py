"""A real server over a log of its own, and a real Chromium as a phone with touch."""

from __future__ import annotations

import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.stores import Store
from tracker.desk import demo, people
from tracker.desk.opening import open_log
from tracker.log.keeper import Log

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

PHONE = {"viewport": {"width": 390, "height": 844}, "is_mobile": True, "has_touch": True, "reduced_motion": "reduce"}
PATIENCE = 20_000  # ms for something to appear: the machine may be busy with other tests
RESTING = '[data-testid="stApp"][data-test-script-state="notRunning"]'
Phone = Callable[..., "Page"]


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if Path(__file__).parent in item.path.parents:
            item.add_marker(pytest.mark.browser)


@dataclass(frozen=True)
class Served:
    """A server, the log that it serves (opened here as well), and who is in it."""

    url: str
    log: Log
    members: dict[str, str]


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def well(process: subprocess.Popen[bytes], url: str) -> str:
    """Wait until a server that was started is well, and return its address."""
    for _ in range(240):
        try:
            urllib.request.urlopen(f"{url}/_stcore/health", timeout=2).read()
            break
        except (urllib.error.URLError, OSError):
            assert process.poll() is None, "the server ended before it began"
            time.sleep(0.25)
    return url


def serve(database: str | Path) -> Iterator[str]:
    """Start a server in a process of its own, wait until it is well, and stop it at the end."""
    port = free_port()
    code = f"from tracker.app import run; run({str(database)!r}, port={port}, browser=False)"
    process = subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        yield well(process, f"http://127.0.0.1:{port}")
    finally:
        process.terminate()
        process.wait(timeout=20)


@pytest.fixture(scope="module")
def served(chromium: Browser, store: Store, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """The demo, served; one copy for each file of tests."""
    database = store.copy("demo", demo.fill, tmp_path_factory.mktemp("served"))
    log = open_log(database)
    members = {each.name: each.id for each in people.members(log)}
    for url in serve(database):
        yield Served(url, log, members)
    log.close()
    store.drop(database)


@pytest.fixture
def phone(chromium: Browser) -> Iterator[Phone]:
    """Open a page as a phone would: `phone(url)`; a second call is a second phone."""
    from playwright.sync_api import expect

    expect.set_options(timeout=PATIENCE)
    contexts = []

    def opened(url: str, **options: object) -> Page:
        context = chromium.new_context(**{**PHONE, **options})
        context.set_default_timeout(30_000)
        contexts.append(context)
        page = context.new_page()
        page.goto(url)
        at_rest(page)
        return page

    yield opened
    for context in contexts:
        context.close()


def at_rest(page: Page) -> None:
    """Wait until the script has run and nothing is stale."""
    page.wait_for_timeout(150)
    page.wait_for_selector(RESTING, timeout=60_000)
    page.wait_for_function("() => !document.querySelector('[data-stale=\"true\"]')", timeout=60_000)
