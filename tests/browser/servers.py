"""Servers for the pages' tests, each in a process of its own that has everything imported from the start.

One process a run of tests (`python -m tests.browser.servers ADDRESS`) imports the program once and serves nothing; for each
log it forks a server. Threads, loops and Streamlit's settings come only after the fork. What is about how the program
starts is tested with the command itself.
"""

from __future__ import annotations

import gc
import importlib
import json
import os
import pkgutil
import select
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, TextIO

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
    """The process that has imported everything, as tests see it: one alone for who asks, or one for all of a run.

    It ends once nobody is connected to it any more, with every server that it still has.
    """

    def __init__(self) -> None:
        self.address = str(Path(tempfile.mkdtemp(prefix="mother-")) / "asked")
        process = subprocess.Popen(
            [sys.executable, "-m", "tests.browser.servers", self.address], cwd=HERE, stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE, text=True, start_new_session=True,
        )  # fmt: skip
        assert process.stdout
        with process.stdout as said:
            assert said.readline(), "the process that starts servers has ended"
        self.told = _connected(self.address)

    @classmethod
    def of_all(cls, folder: Path) -> Mother:
        """Return the one that the processes of a run share, by what stands in their folder; who comes first makes it."""
        where = folder / "mother"
        found = cls.__new__(cls)
        try:
            found.address = where.read_text()
            found.told = _connected(found.address)
            found.ask(do="is warm")
        except (OSError, AssertionError):  # there is none yet, or it has just ended
            found = cls()
            where.write_text(found.address)
        return found

    def ask(self, **what: object) -> Any:
        self.told.write(json.dumps(what) + "\n")
        self.told.flush()
        answer = self.told.readline()
        assert answer, "the process that starts servers has ended"
        return json.loads(answer)

    def close(self) -> None:
        """Leave it; whoever leaves last ends it."""
        self.told.close()


def _connected(address: str) -> TextIO:
    """Return a line to a mother, to write to and to read from."""
    asked = socket.socket(socket.AF_UNIX)
    asked.connect(address)
    told = asked.makefile("rw")
    asked.close()  # the file holds it open
    return told


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


def _serve(what: Mapping[str, Any], mothers: Iterable[socket.socket]) -> None:
    """Be a server; never returns."""
    for each in mothers:  # whoever is connected to the mother hears from her alone
        each.close()
    for number in (0, 1, 2):  # the mother's are not for its servers
        os.dup2(os.open(os.devnull, os.O_RDWR), number)
    try:
        from tracker.app import run

        run(what["database"], port=what["port"], browser=False)
    finally:
        os._exit(1)


@dataclass
class Child:
    """A server that was forked: who asked for it, its exit code once it has ended, and when it has to have ended."""

    asked_by: socket.socket
    code: int | None = None
    latest: float | None = None


class Nursery:
    """Forks, looks after and ends servers as the lines of whoever is connected say; each line gets one answer."""

    def __init__(self, address: str) -> None:
        self.door = socket.socket(socket.AF_UNIX)
        self.door.bind(address)
        self.door.listen()
        self.callers: dict[socket.socket, bytes] = {}  # and what they have said of a line
        self.children: dict[int, Child] = {}
        self.warm = False

    def stand_by(self) -> None:
        """Answer until the last caller has left."""
        came = False
        while self.callers or not came:
            ending = any(each.latest for each in self.children.values())
            for each in select.select([self.door, *self.callers], [], [], 0.01 if ending else None)[0]:
                if each is self.door:
                    self.callers[self.door.accept()[0]] = b""
                    came = True
                else:
                    self._hear(each)
            self._look_after()

    def _hear(self, caller: socket.socket) -> None:
        try:
            said = caller.recv(65_536)
        except ConnectionError:
            said = b""
        if not said:
            del self.callers[caller]
            caller.close()
            for pid in [pid for pid, each in self.children.items() if each.asked_by is caller]:
                _end(pid, self.children.pop(pid))
            return
        *lines, self.callers[caller] = (self.callers[caller] + said).split(b"\n")
        for line in lines:
            self._do(caller, json.loads(line))

    def _do(self, caller: socket.socket, what: Mapping[str, Any]) -> None:
        child = self.children.get(what.get("pid", 0))
        answer: int | None = None
        if what["do"] == "warm":
            _warm(what["database"])
            gc.collect()
            gc.freeze()
            self.warm, answer = True, threading.active_count()
        elif what["do"] == "is warm":
            answer = int(self.warm)
        elif what["do"] == "serve":
            answer = os.fork()
            if answer == 0:
                _serve(what, (self.door, *self.callers))
            self.children[answer] = Child(caller)
        elif child and what["do"] == "poll":
            answer = child.code = child.code if child.code is not None else _ended(what["pid"])
        elif child and child.code is None:  # it is asked to end, and answered for when it has
            os.kill(what["pid"], signal.SIGTERM)
            child.latest = time.monotonic() + MOST_SECONDS
            return
        elif child:
            answer = self.children.pop(what["pid"]).code
        self._answer(caller, answer)

    def _look_after(self) -> None:
        """Answer for those that were asked to end, and have."""
        for pid, each in list(self.children.items()):
            if each.latest is None:
                continue
            code = _ended(pid)
            if code is None and time.monotonic() < each.latest:
                continue
            del self.children[pid]
            if code is None:
                os.kill(pid, signal.SIGKILL)
                os.waitpid(pid, 0)
            self._answer(each.asked_by, code)

    def _answer(self, caller: socket.socket, answer: int | None) -> None:
        with suppress(OSError):  # who has left hears nothing more
            caller.sendall(f"{json.dumps(answer)}\n".encode())


def _ended(pid: int) -> int | None:
    """Return the exit code of a server, None where it goes on."""
    found, status = os.waitpid(pid, os.WNOHANG)
    return os.waitstatus_to_exitcode(status) if found else None


def _end(pid: int, child: Child) -> None:
    """End a server whose test is gone."""
    if child.code is not None:
        return
    os.kill(pid, signal.SIGTERM)
    latest = time.monotonic() + MOST_SECONDS
    while _ended(pid) is None:
        if time.monotonic() > latest:
            os.kill(pid, signal.SIGKILL)
            os.waitpid(pid, 0)
            return
        time.sleep(0.01)


def stand_by(address: str) -> None:
    """Import everything, and be there for whoever connects, until the last one has left."""
    import_all()
    _look_through_packages()
    gc.freeze()  # else the first search for garbage in each server goes through all of it, and copies it
    nursery = Nursery(address)
    print("listening", flush=True)
    nursery.stand_by()
    shutil.rmtree(Path(address).parent, ignore_errors=True)


if __name__ == "__main__":
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # of the terminal: whoever is connected ends it by leaving
    stand_by(sys.argv[1])
