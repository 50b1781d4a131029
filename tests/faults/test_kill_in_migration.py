"""Killed at each step of a migration: the old schema or the new one, nothing between, and the next start succeeds."""

import re
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from alembic.script import ScriptDirectory

from tests.faults.children import just_open, open_and_die_at, open_and_keep_each_step
from tests.faults.whole import faults_of
from tracker.log import migrate
from tracker.log.engine import database_url
from tracker.log.unit_of_work import Log

FROZEN = Path(__file__).parents[1] / "log" / "schema_0001.db"
HEAD = ScriptDirectory.from_config(migrate.alembic_config()).get_current_head()


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


FROM = pytest.mark.parametrize("frozen", [FROZEN, None], ids=["from the first schema", "from nothing"])


def is_well(path, frozen, head):
    """Whether the log is at the newest schema, in order, and has what it had."""
    same = not frozen or rows_of_old_tables(path) == rows_of_old_tables(frozen)
    return schema(path) == head and faults_of(path) == [] and same


@FROM
def test_killed_at_any_step_of_a_migration_the_log_is_old_or_new(quick_folder, child, frozen):
    """What each step leaves is opened again; the next test kills indeed, and holds that it leaves the same."""
    path, kept = copy_of(frozen, quick_folder / "whole"), quick_folder / "kept"
    kept.mkdir()
    process = child(open_and_keep_each_step, str(path), str(kept))
    process.join()
    assert process.exitcode == 0
    head, old = schema(path), schema(frozen) if frozen else (None, {})
    assert head[0] == HEAD
    steps = (kept / "steps.txt").read_text().split()
    assert len(steps) >= 50  # else the statements were not seen
    for step in sorted(set(steps), key=int):
        left = kept / step / "log.db"
        assert schema(left) in (old, head), f"killed at step {step}"
        Log(database_url(str(left))).close()
        assert is_well(left, frozen, head), f"after step {step}"
    print(f"{len(steps)} steps leave {len(set(steps))} different folders")


@FROM
def test_a_process_that_is_killed_in_a_migration_leaves_what_stood_there(quick_folder, child, frozen):
    whole, kept = copy_of(frozen, quick_folder / "whole"), quick_folder / "kept"
    kept.mkdir()
    child(open_and_keep_each_step, str(whole), str(kept)).join()
    steps = (kept / "steps.txt").read_text().split()
    for step in (*range(0, len(steps) - 1, len(steps) // 5), len(steps) - 1):
        path = copy_of(frozen, quick_folder / f"step-{step}")
        process = child(open_and_die_at, str(path), step)
        process.join()
        assert process.exitcode == -9
        assert files_in(path.parent) == files_in(kept / steps[step]), f"killed at step {step}"
        again = child(just_open, str(path))
        again.join()
        assert again.exitcode == 0, f"after step {step}"
        assert is_well(path, frozen, schema(whole)), f"after step {step}"


def files_in(folder):
    """Name and size of each file: the rows themselves have moments and numbers that are drawn, so have some names.

    Of a journal only whether it holds anything: which pages it kept from before depends on where drawn values fell.
    """
    files = (each for each in folder.rglob("*") if each.is_file())
    return sorted((plain_name(each.relative_to(folder).as_posix()), size_of(each)) for each in files)


def plain_name(path):
    return re.sub(r"\d{4,}", "n", path)


def size_of(file):
    size = file.stat().st_size
    return min(size, 1) if file.name.endswith("-journal") else size
