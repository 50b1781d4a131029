"""Servers for the pages' tests, each in a process of its own that has everything imported from the start.

One process a run of tests (`python -m tests.browser.servers`) imports the program once and serves nothing; for each log
it forks a server. Threads, loops and Streamlit's settings come only after the fork. What is about how the program
starts is tested with the command itself.
"""

from __future__ import annotations

import gc
import importlib
import json
import os
import pkgutil
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Mapping

HERE = Path(__file__).parents[2]
MOST_SECONDS = 20  # in which a server ends that is asked to
BESIDE = (  # what the program itself imports late, or Streamlit at the first page
    "plotly.io", "plotly.graph_objects", "pandas", "pyarrow", "numpy.random", "scipy.optimize", "scipy.stats", "uvicorn",
    "uvicorn.lifespan.on", "uvicorn.loops.auto", "uvicorn.protocols.http.auto", "uvicorn.protocols.websockets.auto",
    "streamlit.web.server.starlette", "streamlit.web.bootstrap", "streamlit.runtime.scriptrunner.script_runner",
    "streamlit.elements.plotly_chart", "streamlit.components.v2", "sqlalchemy.dialects.sqlite", "alembic.command",
    "anyio._backends._asyncio",
)  # fmt: skip


class Mother:
    """The process that has imported everything, as tests see it."""

    def __init__(self) -> None:
        self.process = subprocess.Popen(
            [sys.executable, "-m", "tests.browser.servers"], cwd=HERE, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
        )  # fmt: skip

    def ask(self, **what: object) -> Any:
        assert self.process.stdin
        assert self.process.stdout
        self.process.stdin.write(json.dumps(what) + "\n")
        self.process.stdin.flush()
        answer = self.process.stdout.readline()
        assert answer, "the process that starts servers has ended"
        return json.loads(answer)

    def close(self) -> None:
        """End it, and every server that it still has."""
        assert self.process.stdin
        self.process.stdin.close()
        self.process.wait(timeout=2 * MOST_SECONDS)


@dataclass(frozen=True)
class Forked:
    """One server: what tests ask of a process, as `subprocess.Popen` has it."""

    mother: Mother
    pid: int

    def poll(self) -> int | None:
        return self.mother.ask(do="poll", pid=self.pid)

    def end(self) -> None:
        assert self.mother.ask(do="end", pid=self.pid) is not None, "the server did not end when it was asked to"


@contextmanager
def forked(mother: Mother, database: str, port: int) -> Iterator[Forked]:
    """Fork a server that listens on the port, and stop it at the end."""
    server = Forked(mother, mother.ask(do="serve", database=database, port=port))
    try:
        yield server
    finally:
        server.end()


def import_all() -> None:
    """Import the program and what it uses."""
    import tracker

    for each in pkgutil.walk_packages(tracker.__path__, "tracker."):
        if not each.name.endswith("__main__"):
            importlib.import_module(each.name)
    for name in BESIDE:
        importlib.import_module(name)


def _look_through_packages() -> None:
    """Do once what Streamlit does at each start, and what takes most of the start of a server that is forked."""
    from streamlit.components.v2 import manifest_scanner

    found = tuple(manifest_scanner.scan_component_manifests())
    manifest_scanner.scan_component_manifests = lambda: list(found)


def _warm(database: str) -> None:
    """Show each page once, of a log that nobody is served: a server's first page takes twenty times what the next one takes.

    What stays is what no log has a part in: statements and pages as they were compiled, the estimate of a history, and what
    libraries make of themselves when they are first used. No thread, no connection and no setting of a log outlives it.
    """
    import pytest
    import streamlit as st
    from streamlit import config
    from streamlit.runtime import Runtime
    from streamlit.testing.v1 import AppTest

    from tests import kept
    from tracker import app, asset_folder
    from tracker.components.frame import opened
    from tracker.desk.base.opening import open_log
    from tracker.desk.people import people
    from tracker.log.engine import VARIABLE

    for keep in (kept.keep_statements, kept.keep_models, kept.keep_compiled):
        keep(pytest.MonkeyPatch())
    with pytest.MonkeyPatch.context() as for_now:
        kept.wait_asleep(for_now)
        for_now.setenv(VARIABLE, database)
        for setting in ("browser.gatherUsageStats", "runner.magicEnabled"):
            config.set_option(setting, app.SETTINGS[setting])
        log = open_log(database)
        members = [each.id for each in people.members(log)]
        log.close()
        pages = [page for page, _ in app.PAGES if page not in app.OF_OWNER]
        for member in members:
            shown = AppTest.from_file(str(Path(app.__file__)), default_timeout=60)
            shown.query_params["member"] = member
            for page in pages if member == members[0] else pages[:1]:
                shown.switch_page(str(asset_folder("pages") / f"{page}.py"))
                shown.run()
                assert not shown.exception, shown.exception
        opened.of_this_server().close()
        st.cache_resource.clear()
        Runtime._instance = None
    config._config_options = None  # as if nobody had asked for a setting


def _serve(what: Mapping[str, Any]) -> None:
    """Be a server; never returns."""
    for number in (0, 1, 2):  # the mother's are not for its servers
        os.dup2(os.open(os.devnull, os.O_RDWR), number)
    try:
        from tracker.app import run

        run(what["database"], port=what["port"], browser=False)
    finally:
        os._exit(1)


def _ended(pid: int, seconds: float) -> int | None:
    """Wait until a server has ended; None where it has not."""
    latest = time.monotonic() + seconds
    while True:
        found, status = os.waitpid(pid, os.WNOHANG)
        if found or time.monotonic() > latest:
            return os.waitstatus_to_exitcode(status) if found else None
        time.sleep(0.01)


def _end(pid: int) -> int | None:
    os.kill(pid, signal.SIGTERM)
    code = _ended(pid, MOST_SECONDS)
    if code is None:
        os.kill(pid, signal.SIGKILL)
        os.waitpid(pid, 0)
    return code


def stand_by() -> None:
    """Fork, look after and end servers as the lines on standard input say, until there are no more."""
    import_all()
    _look_through_packages()
    gc.freeze()  # else the first search for garbage in each server goes through all of it, and copies it
    running: dict[int, int | None] = {}  # server: its exit code, once it has ended
    for line in iter(sys.stdin.readline, ""):
        what = json.loads(line)
        if what["do"] == "warm":
            _warm(what["database"])
            gc.collect()
            gc.freeze()
            print(json.dumps(threading.active_count()), flush=True)
            continue
        if what["do"] == "serve":
            answer: int | None = os.fork()
            if answer == 0:
                _serve(what)
            running[answer] = None
        elif running[what["pid"]] is None:
            answer = running[what["pid"]] = _end(what["pid"]) if what["do"] == "end" else _ended(what["pid"], 0)
        else:
            answer = running[what["pid"]]
        if what["do"] == "end":
            del running[what["pid"]]
        print(json.dumps(answer), flush=True)
    for pid, code in running.items():
        if code is None:
            _end(pid)


if __name__ == "__main__":
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # of the terminal: the tests end it by closing its input
    stand_by()
