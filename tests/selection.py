"""Which tests run on which database, and that none is forgotten.

Without a word all tests run on SQLite, but for those about a server. With TIDEMARK_TEST_SERVER=1 every test that opens
a log runs on PostgreSQL: those that have the fixture `store` by any way. What is about SQLite alone carries
`pytest.mark.sqlite(reason)`. A test that opens a log by another way than the fixtures fails, with the word of it.
"""

from __future__ import annotations

import os
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from tests.server.cluster import SWITCH

HERE = Path(__file__).parent
ON_SERVER = bool(os.environ.get(SWITCH))
_FILE, _BROWSER = "are about SQLite's file", "drive a browser; browser/test_main_job.py does it on a server as well"
OF_FILES = {  # folders and files of tests, the longest name first
    "cli/test_custody.py": _FILE,
    "desk/files/test_custody.py": _FILE,
    "desk/files/test_files_faults.py": _FILE,
    "faults": "kill, fill, shut and damage SQLite's file; tests/server does what can be done to a server",
    "log/test_migrate.py": _FILE,
    "log/test_older_logs.py": _FILE,
}
NO_LOG = "open no log"


def choose(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Keep the tests that concern the database of this run, and count the others by reason."""
    kept: list[pytest.Item] = []
    left: list[pytest.Item] = []
    counted: Counter[str] = Counter()
    for item in items:
        name = item.path.relative_to(HERE).as_posix()
        if name.startswith("server/"):
            item.add_marker(pytest.mark.server)
        if reason := next((why for start, why in OF_FILES.items() if name.startswith(start)), ""):
            item.add_marker(pytest.mark.sqlite(reason))
        reason = _left_out(item)
        (left if reason else kept).append(item)
        counted.update([reason] if reason else [])
    if left:
        config.hook.pytest_deselected(items=left)
    items[:] = kept
    config.stash[LEFT] = counted


LEFT: pytest.StashKey[Counter[str]] = pytest.StashKey()


def _left_out(item: pytest.Item) -> str:
    of_server = item.get_closest_marker("server") is not None
    if not ON_SERVER:
        return f"are about a server: {SWITCH}=1" if of_server else ""
    if only := item.get_closest_marker("sqlite"):
        return str(only.args[0])
    if item.get_closest_marker("browser") and not item.path.match("browser/test_main_job.py"):
        return _BROWSER
    touches = of_server or "store" in getattr(item, "fixturenames", ())
    return "" if touches else NO_LOG


class Watch:
    """Notes each log that a test opens."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        from tracker.log.unit_of_work import Log

        self.opened: list[str] = []
        begin = Log.__init__

        def noted(log: Any, url: Any, *more: Any, **named: Any) -> None:
            self.opened.append(url.get_backend_name())
            begin(log, url, *more, **named)

        monkeypatch.setattr(Log, "__init__", noted)

    def hold(self, item: pytest.Item) -> None:
        """Fail where a log was opened and the test is not chosen for both databases."""
        if not self.opened or item.get_closest_marker("sqlite") or item.get_closest_marker("server"):
            return
        if "store" not in getattr(item, "fixturenames", ()):
            pytest.fail("This test opens a log and would not run on PostgreSQL: use `fresh`, or mark it sqlite.")
        if ON_SERVER and "sqlite" in self.opened:
            pytest.fail("This test opened an SQLite file in a run on PostgreSQL: use `fresh`, or mark it sqlite.")


def told(why: Counter[str]) -> list[str]:
    """Say how many tests were left out of this run, by reason."""
    return [f"{number} tests not run here: {reason}" for reason, number in why.most_common()]
