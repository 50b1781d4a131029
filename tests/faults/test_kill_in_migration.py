"""Killed at each step of a migration: the old schema or the new one, nothing between, and the next start succeeds."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from alembic.script import ScriptDirectory

from tests.faults.children import just_open, open_and_die_at
from tests.faults.whole import faults_of
from tracker.log import migrate
from tracker.log.engine import database_url
from tracker.log.keeper import Log

FROZEN = Path(__file__).parents[1] / "log" / "schema_0001.db"
HEAD = ScriptDirectory.from_config(migrate.alembic_config()).get_current_head()
MOST_STEPS = 400


def schema(path):
    with closing(sqlite3.connect(path)) as connection:
        made = dict(connection.execute("SELECT name, sql FROM sqlite_master"))
        revision = connection.execute("SELECT version_num FROM alembic_version").fetchone()[0] if made else None
    return revision, made


def rows_of_old_tables(path):
    with closing(sqlite3.connect(path)) as connection:
        return {
            table: connection.execute(f"SELECT count(*), min(id), max(id) FROM {table}").fetchone()
            for table in ("members", "lifts", "sessions", "sets", "member_steps", "planned_sets", "kit_items")
        }


def copy_of(frozen, folder):
    folder.mkdir()
    return Path(shutil.copy(frozen, folder / "log.db")) if frozen else folder / "log.db"


@pytest.mark.parametrize(
    ("frozen", "stride"),
    [(FROZEN, 1), (None, 7)],
    ids=["from the first schema, every step", "from nothing, every seventh"],
)
def test_killed_at_any_step_of_a_migration_the_log_is_old_or_new(quick_folder, child, frozen, stride):
    Log(database_url(str(copy_of(frozen, quick_folder / "whole")))).close()
    head = schema(quick_folder / "whole" / "log.db")
    assert head[0] == HEAD
    old = schema(frozen) if frozen else (None, {})
    killed, path = 0, quick_folder
    for step in range(0, MOST_STEPS, stride):
        path = copy_of(frozen, quick_folder / f"step-{step}")
        process = child(open_and_die_at, str(path), step)
        process.join()
        if process.exitcode == 0:
            break
        assert process.exitcode == -9
        killed += 1
        assert schema(path) in (old, head), f"killed at step {step}"
        again = child(just_open, str(path))
        again.join()
        assert again.exitcode == 0, f"after step {step}"
        assert schema(path) == head
        assert faults_of(path) == []
        if frozen:
            assert rows_of_old_tables(path) == rows_of_old_tables(frozen)
        shutil.rmtree(path.parent)
    assert schema(path) == head
    assert killed >= 7  # else the statements were not seen
