"""A migration that fails half way, of an older log with good and ugly rows: nothing changed, and said so."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from tests.faults.whole import faults_of
from tracker.errors import TidemarkError
from tracker.log import migrate
from tracker.log.engine import database_url
from tracker.log.unit_of_work import Log

FROZEN = Path(__file__).parents[1] / "log" / "schema_0001.db"


@pytest.fixture
def old(tmp_path):
    return Path(shutil.copy(FROZEN, tmp_path / "log.db"))


@pytest.mark.parametrize("fault", [RuntimeError("half way"), KeyError("half way")])
@pytest.mark.parametrize("after", [1, 4, 9])
def test_a_migration_that_fails_half_way_changes_nothing(old, monkeypatch, fault, after):
    from alembic.ddl.impl import DefaultImpl

    before, made = old.read_bytes(), []
    whole = DefaultImpl._exec

    def failing(self, *arguments, **more):
        made.append(1)
        if len(made) == after:
            raise fault
        return whole(self, *arguments, **more)

    with monkeypatch.context() as patched:
        patched.setattr(DefaultImpl, "_exec", failing)
        with pytest.raises(TidemarkError, match="could not be updated") as refused:
            Log(database_url(str(old)))
    assert "Nothing was changed" in str(refused.value)
    assert len(made) == after
    assert old.read_bytes() == before
    assert not list(old.parent.rglob("*before*"))  # a copy of what is still there would pile up with every start
    Log(database_url(str(old))).close()
    assert faults_of(old) == []


def test_rows_that_would_belong_to_nothing_stop_the_migration(old):
    with closing(sqlite3.connect(old)) as connection:
        connection.execute("UPDATE sets SET session_id = 'nowhere' WHERE rowid = 1")
        connection.commit()
    before = old.read_bytes()
    with pytest.raises(TidemarkError, match="without what they belong to"):
        Log(database_url(str(old)))
    assert old.read_bytes() == before


def test_a_damaged_older_log_is_not_brought_up_to_date(old):
    content = bytearray(old.read_bytes())
    page = 512  # the frozen file's page size
    for start in range(page * 20, page * 30):
        content[start] ^= 0x55
    old.write_bytes(content)
    with pytest.raises(TidemarkError, match="damaged") as refused:
        Log(database_url(str(old)))
    assert "check" in refused.value.mend
    assert old.read_bytes() == content
    assert not list(old.parent.rglob("*before*"))


def test_a_copy_is_never_written_over_even_where_the_clock_was_set_back(old, tmp_path):
    import time_machine

    with time_machine.travel("2026-03-02T10:00:00Z", tick=False):
        Log(database_url(str(old))).close()
        (first,) = tmp_path.rglob("*before*")
        kept = first.read_bytes()
        shutil.copy(FROZEN, old)
        with closing(sqlite3.connect(old)) as connection:
            connection.execute("UPDATE members SET name = 'Another' WHERE rowid = 1")
            connection.commit()
        Log(database_url(str(old))).close()
    assert first.read_bytes() == kept
    assert len(list(tmp_path.rglob("*before*"))) == 2


def test_the_copy_that_was_made_before_is_whole(old, tmp_path):
    Log(database_url(str(old))).close()
    (copy,) = tmp_path.rglob("*before*")
    assert faults_of(copy) == []
    assert migrate.alembic_config() is not None
