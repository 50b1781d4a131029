"""What the tests of a process make once, because it comes out the same each time: nothing here knows a log."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from tracker.strength.estimator import LiftModel
from tracker.strength.parameters import DEFAULT, Parameters
from tracker.strength.records import SetRecord

if TYPE_CHECKING:
    from alembic.config import Config
    from alembic.script import ScriptDirectory

MOST = 64  # models, of some megabytes each after years of training

_made = LiftModel.of


@lru_cache(MOST)
def _model(records: tuple[SetRecord, ...], parameters: Parameters) -> LiftModel:
    return _made(records, parameters)


def keep_models(monkeypatch: pytest.MonkeyPatch) -> None:
    """Make the model of one history once: a model never changes and depends on nothing else.

    Most logs of the tests are copies of the same few, and estimating their years anew is what a page of them takes.
    """

    def of(records: Sequence[SetRecord], parameters: Parameters = DEFAULT) -> LiftModel:
        return _model(tuple(records), parameters)

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


class _Scripts:
    """Stands where opening a log asks Alembic which revisions there are; tests of migrations do without it."""

    @staticmethod
    @cache
    def _of(location: str) -> ScriptDirectory:
        from alembic.config import Config
        from alembic.script import ScriptDirectory

        config = Config()
        config.set_main_option("script_location", location.replace("%", "%%"))
        return ScriptDirectory.from_config(config)

    @classmethod
    def from_config(cls, config: Config) -> ScriptDirectory:
        return cls._of(str(config.get_main_option("script_location")))


def keep_scripts(monkeypatch: pytest.MonkeyPatch) -> None:
    """Read the migrations' files once: they are compiled anew each time a log is opened, and most tests open one."""
    from tracker.log import migrate

    monkeypatch.setattr(migrate, "ScriptDirectory", _Scripts)


def keep_compiled(monkeypatch: pytest.MonkeyPatch) -> None:
    """Compile a page's file once, as a server does: AppTest does it anew for each run, a quarter of what that takes."""
    from streamlit import config
    from streamlit.runtime.scriptrunner.script_cache import ScriptCache
    from streamlit.testing.v1 import local_script_runner

    class Compiled(ScriptCache):
        """Knows a file again by its path, size and moment."""

        def get_bytecode(self, script_path: str) -> Any:
            path = Path(script_path).absolute()
            found = path.stat()
            key = (path, found.st_mtime_ns, found.st_size, config.get_option("runner.magicEnabled"))
            if key not in _compiled:
                _compiled[key] = super().get_bytecode(script_path)
            return _compiled[key]

    monkeypatch.setattr(local_script_runner, "ScriptCache", Compiled)


_compiled: dict[tuple[Path, int, int, bool], Any] = {}
