"""Pages under test: the real entry, a log of its own, and no browser."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import streamlit as st
from streamlit.testing.v1 import AppTest

import tracker
from tracker.components import frame
from tracker.desk import demo
from tracker.desk.opening import open_log
from tracker.log.keeper import Log

ENTRY = Path(tracker.__file__).parent / "app.py"
Open = Callable[..., AppTest]


@pytest.fixture(autouse=True)
def _nothing_kept() -> Iterator[None]:
    """What Streamlit keeps in memory outlives a test otherwise."""
    yield
    st.cache_data.clear()
    st.cache_resource.clear()


@pytest.fixture(scope="session")
def demo_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo, written once; each test that changes it takes a copy."""
    path = tmp_path_factory.mktemp("demo") / "demo.db"
    log = open_log(str(path))
    demo.fill(log)
    log.close()
    return path


@pytest.fixture
def demo_log(demo_file: Path, tmp_path: Path) -> Iterator[Log]:
    """A copy of the demo's log, to be changed at will."""
    log = open_log(str(shutil.copy(demo_file, tmp_path / "demo.db")))
    yield log
    log.close()


@pytest.fixture
def show(monkeypatch: pytest.MonkeyPatch) -> Open:
    """Open a page of the app over a log, as `show(log, "trend", member_id)`."""

    def opened(log: Log | str, page: str = "", member: str = "") -> AppTest:
        monkeypatch.setenv("TIDEMARK_DATABASE", log if isinstance(log, str) else str(log.url.database))
        at = AppTest.from_file(str(ENTRY), default_timeout=30)
        if member:
            at.query_params[frame.MEMBER] = member
        at.run()
        if page:
            at.switch_page(str(tracker.asset_folder("pages") / f"{page}.py")).run()
        assert not at.exception, at.exception
        return at

    return opened


def words(at: AppTest) -> str:
    """All that stands on the page as text."""
    kinds = ("title", "header", "subheader", "markdown", "caption", "error", "warning", "info", "success", "html")
    return "\n".join(str(getattr(each, "value", "") or each.proto.body) for kind in kinds for each in at.get(kind))
