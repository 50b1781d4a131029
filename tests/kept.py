"""What the tests of a process make once, because it comes out the same each time: nothing here knows a log.

With TIDEMARK_TEST_ANEW=1 nothing is kept between two tests: neither this, nor filled logs, nor what fixtures hold for
a file or the whole run. That takes long; it shows whether a test passes only because of what another one left.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Sequence
from datetime import date
from functools import cache, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from sqlalchemy import Engine

    from tracker.strength.estimator import LiftModel
    from tracker.strength.parameters import Parameters
    from tracker.strength.records import SetRecord

NOTHING = bool(os.environ.get("TIDEMARK_TEST_ANEW"))
MOST = 64  # models, of some megabytes each after years of training


@cache
def _remembering() -> Callable[..., LiftModel]:
    from tracker.strength.estimator import LiftModel

    return lru_cache(MOST)(LiftModel.of)


def keep_models(monkeypatch: pytest.MonkeyPatch) -> None:
    """Make the model of one history once: a model never changes and depends on nothing else.

    Most logs of the tests are copies of the same few, and estimating their years anew is what a page of them takes.
    """
    from tracker.strength.estimator import LiftModel
    from tracker.strength.parameters import DEFAULT

    made = _remembering()

    def of(records: Sequence[SetRecord], parameters: Parameters = DEFAULT, elsewhere: Iterable[date] = ()) -> LiftModel:
        return made(tuple(records), parameters, tuple(elsewhere))

    monkeypatch.setattr(LiftModel, "of", of)


@cache
def _components() -> tuple[object, ...]:
    from streamlit.components.v2 import manifest_scanner

    return tuple(manifest_scanner.scan_component_manifests())


def keep_components(monkeypatch: pytest.MonkeyPatch) -> None:
    """Look through the installed packages once: AppTest does it for each new page, reading every package's metadata."""
    from streamlit.components.v2 import manifest_scanner

    _components()
    monkeypatch.setattr(manifest_scanner, "scan_component_manifests", lambda: list(_components()))


def keep_runtime(monkeypatch: pytest.MonkeyPatch) -> None:
    """Make once what stands for a server: AppTest mocks it anew for each run, and each thing that is asked of it as well."""
    from streamlit.testing.v1 import app_test

    def mocked(**how: Any) -> Any:
        made = _runtime()
        assert how == {"spec": app_test.Runtime}
        made.reset_mock()
        return made

    monkeypatch.setattr(app_test, "MagicMock", mocked)


@cache
def _runtime() -> Any:
    from unittest.mock import MagicMock

    from streamlit.runtime import Runtime

    return MagicMock(spec=Runtime)


def wait_asleep(monkeypatch: pytest.MonkeyPatch) -> None:
    """Wait for a page's script without looking a thousand times a second whether it has ended, and holding it up so."""
    from streamlit.testing.v1 import local_script_runner

    look = local_script_runner.require_widgets_deltas

    def wait(runner: Any, timeout: float = 3) -> None:
        thread = runner._script_thread
        if thread is None:
            return look(runner, timeout)
        thread.join(timeout)
        return look(runner, 0.1)  # it has ended, or this says that it has not

    monkeypatch.setattr(local_script_runner, "require_widgets_deltas", wait)


def keep_compiled(monkeypatch: pytest.MonkeyPatch) -> None:
    """Compile a page's file once, as a server does: AppTest does it anew for each run, a quarter of what that takes."""
    from streamlit import config
    from streamlit.runtime import runtime
    from streamlit.runtime.scriptrunner.script_cache import ScriptCache
    from streamlit.testing.v1 import app_test, local_script_runner

    class Compiled(ScriptCache):
        """Knows a file again by its path, size and moment."""

        def get_bytecode(self, script_path: str) -> Any:
            path = Path(script_path).absolute()
            found = path.stat()
            key = (path, found.st_mtime_ns, found.st_size, config.get_option("runner.magicEnabled"))
            if key not in _compiled:
                _compiled[key] = super().get_bytecode(script_path)
            return _compiled[key]

    monkeypatch.setattr(local_script_runner, "ScriptCache", Compiled)  # the entry's
    monkeypatch.setattr(app_test, "ScriptCache", Compiled)  # the pages'
    monkeypatch.setattr(runtime, "ScriptCache", Compiled)  # a server's


_compiled: dict[tuple[Path, int, int, bool], Any] = {}


@cache
def _statements() -> tuple[type, Any]:
    from sqlalchemy.dialects.sqlite.pysqlite import SQLiteDialect_pysqlite
    from sqlalchemy.util import LRUCache

    class Alike(SQLiteDialect_pysqlite):
        """SQLite as every log here speaks it: what was compiled for one of them is the same for the next."""

        supports_statement_cache = True

        def __eq__(self, other: object) -> bool:
            return type(other) is type(self)

        def __hash__(self) -> int:
            return hash(type(self))

    return Alike, LRUCache(2_000)


def keep_statements(monkeypatch: pytest.MonkeyPatch) -> None:
    """Compile a statement once for all logs of a process, as a server does for all requests over its one log.

    Each test opens a log of its own, and SQLAlchemy keeps what it compiled by engine and dialect.
    """
    from tracker.log import engine

    create = engine.create_engine

    def created(*how: Any, **more: Any) -> Engine:
        made = create(*how, **more)
        if made.dialect.name == "sqlite":
            made.dialect.__class__, made._compiled_cache = _statements()
        return made

    monkeypatch.setattr(engine, "create_engine", created)


_schemas: dict[tuple[Any, ...], tuple[str, ...]] = {}


def keep_schemas(monkeypatch: pytest.MonkeyPatch) -> None:
    """Compare tables with the models once for each way they stand, word for word, in an SQLite file.

    It is the better part of a check of a small log, and most tests check a log whose tables are as this version makes them.
    A file that was damaged has either the same tables to the last word, root pages included, or is compared anew.
    """
    from sqlalchemy import text

    from tracker.log import look_over

    compare = look_over.schema_problems

    def compared(session: Any) -> Iterable[str]:
        connection = session.connection()
        if connection.dialect.name != "sqlite":
            return compare(session)
        key = tuple(map(tuple, connection.execute(text("SELECT * FROM sqlite_master"))))
        if key not in _schemas:
            _schemas[key] = tuple(compare(session))
        return _schemas[key]

    monkeypatch.setattr(look_over, "schema_problems", compared)
