"""Fixtures that all tests share: a fresh log in a temporary folder, and quiet hypothesis."""

from __future__ import annotations

import os
import shutil
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, settings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser

    from tracker.log.keeper import Log

settings.register_profile(
    "steady",
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
)
settings.load_profile("steady")


@pytest.fixture(autouse=True)
def _no_log_of_the_user(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """No test may ever open the log of the person who runs it."""
    monkeypatch.setenv("TIDEMARK_DATABASE", str(tmp_path / "unasked.db"))


@pytest.fixture(scope="session")
def empty_log(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The file of a log with nothing in it, made once: a copy is a fresh log without the time that migrations take."""
    from tracker.log.engine import database_url
    from tracker.log.keeper import Log

    path = tmp_path_factory.mktemp("empty") / "log.db"
    Log(database_url(str(path))).close()
    return path


@pytest.fixture
def log(tmp_path: Path, empty_log: Path) -> Iterator[Log]:
    """A fresh, empty log."""
    from tracker.log.engine import database_url
    from tracker.log.keeper import Log

    shutil.copyfile(empty_log, tmp_path / "log.db")
    opened = Log(database_url(str(tmp_path / "log.db")))
    yield opened
    opened.close()


def must_not_skip() -> bool:
    """In CI a browser or server test that finds nothing to run on fails."""
    return bool(os.environ.get("CI"))


@pytest.fixture(scope="session")
def demo_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo's log, made once for all tests of a process; copy it before writing to it."""
    from tracker.desk import demo
    from tracker.desk.opening import open_log

    path = tmp_path_factory.mktemp("demo") / "demo.db"
    opened = open_log(str(path))
    demo.fill(opened)
    opened.close()
    return path


@pytest.fixture
def demo_log(demo_file: Path, tmp_path: Path) -> Iterator[Log]:
    """A copy of the demo's log, to be written to."""
    import shutil

    from tracker.desk.opening import open_log

    opened = open_log(str(shutil.copy(demo_file, tmp_path / "demo.db")))
    yield opened
    opened.close()


FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """Chromium of the system, one for all tests of a process; skips with the reason where there is none, but never in CI."""
    where = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    try:
        from playwright.sync_api import sync_playwright
    except ImportError:
        where = None
    if where is None:
        if must_not_skip():
            pytest.fail("There is no Chromium or Playwright, and this run may not skip.")
        pytest.skip("No Chromium or Playwright on this machine: apt-get install chromium, pip install playwright.")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=where, args=FLAGS)
        yield browser
        browser.close()
