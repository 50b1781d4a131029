"""A log of each earlier layout on a server: brought up to date with every row, sealed, and put back from its dump.

The rows are those of tests/log/schema_NNNN.db, which the program of that layout wrote. They are copied into tables that
the migrations made as far as that layout, and what comes of them is held against what comes of the file itself.
"""

from __future__ import annotations

import itertools
import json
import os
import shutil
import sqlite3
import subprocess
from contextlib import closing
from datetime import date, datetime
from decimal import Decimal
from pathlib import Path

import pytest
import sqlalchemy as sa
from alembic import command

from tests.desk.people.test_private_lifts import lifts_of_an_old_log
from tests.server.cluster import binaries
from tests.undoing import undo_newest
from tracker.desk.base.opening import open_log
from tracker.desk.day import log_set
from tracker.desk.files.check import check_log
from tracker.desk.people import people
from tracker.errors import TidemarkError
from tracker.log import chain
from tracker.log.engine import database_url, open_engine
from tracker.log.migrate import alembic_config
from tracker.log.models import Lift
from tracker.log.sets import NewSet
from tracker.units import Mass

FILES = {
    path.stem.removeprefix("schema_"): path
    for path in sorted((Path(__file__).parents[1] / "log").glob("schema_*.db"))
}  # fmt: skip
DAY = date(2026, 3, 9)
_numbers = itertools.count()


@pytest.fixture
def bare(store):
    """Make databases without tables."""
    made = []

    def make():
        name = f"older_{os.getpid()}_{next(_numbers)}"
        store.create(name, "template0")
        made.append(store.cluster.address(name))
        return made[-1]

    yield make
    for each in made:
        store.drop(each)


def go_to(address, revision, way=command.upgrade):
    """Bring the tables to a layout as the program brings them to its own, but for the seals."""
    engine = open_engine(database_url(str(address)), foreign_keys=False)
    with engine.begin() as connection:
        config = alembic_config()
        config.attributes["connection"] = connection
        way(config, revision)
    engine.dispose()


def tables_of(connection):
    """The tables as the server has them, whatever the models say today."""
    found = sa.MetaData()
    found.reflect(connection)
    for table in found.sorted_tables:
        for column in table.columns:
            if isinstance(column.type, sa.JSON):
                column.type = sa.JSON(none_as_null=True)
    return [table for table in found.sorted_tables if table.name != "alembic_version"]


def as_kept(column, value):
    """Return what SQLite keeps as the server keeps it."""
    if value is None:
        return None
    if isinstance(column.type, sa.Boolean):
        assert value in (0, 1)
        return bool(value)
    if isinstance(column.type, sa.DateTime):
        return datetime.fromisoformat(value)
    if isinstance(column.type, sa.Date):
        return date.fromisoformat(value)
    return json.loads(value) if isinstance(column.type, sa.JSON) else value


def copied(path, revision, address):
    """Make the tables of a layout and copy a file's rows into them; return the rows by table, in the order of their keys."""
    go_to(address, revision)
    engine = open_engine(database_url(address))
    with closing(sqlite3.connect(path)) as file, engine.begin() as connection:
        file.row_factory = sqlite3.Row
        assert file.execute("SELECT version_num FROM alembic_version").fetchone()[0] == revision
        tables = tables_of(connection)
        names = {name for (name,) in file.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
        assert {table.name for table in tables} == names - {"alembic_version"}
        told = {}
        for table in tables:
            rows = [dict(row) for row in file.execute(f"SELECT * FROM {table.name}")]
            rows = [{name: as_kept(table.columns[name], value) for name, value in row.items()} for row in rows]
            if rows:
                assert set(rows[0]) == set(table.columns.keys())
                connection.execute(table.insert(), rows)
            told[table.name] = in_order(table, rows)
        numbers = "SELECT setval(pg_get_serial_sequence('changes', 'number'), max(number)) FROM changes"
        assert connection.scalar(sa.text(numbers)) == len(told["changes"])
    engine.dispose()
    assert rows_of(address) == told
    return told


def in_order(table, rows):
    (key,) = table.primary_key.columns
    return sorted(rows, key=lambda row: row[key.name])


def rows_of(address):
    engine = open_engine(database_url(address))
    with engine.connect() as connection:
        found = {
            table.name: in_order(table, [dict(row) for row in connection.execute(table.select()).mappings()])
            for table in tables_of(connection)
        }
    engine.dispose()
    return found


def layout(address):
    engine = open_engine(database_url(address))
    with engine.connect() as connection:
        found = connection.execute(sa.text("SELECT version_num FROM alembic_version")).scalar_one()
    engine.dispose()
    return found


def holds(address, before):
    """Hold the rows that were there against those that are, by the columns that they had; all seals are made and sound."""
    after = rows_of(address)
    for table, there in before.items():
        now = after[table][: len(there)] if table == "changes" else after[table]  # the history grows by what was found
        now = [row for row in now if row.get("key") != chain.HEAD]  # and where it ends is kept from the next act on
        found = [row for row in there if row.get("key") != chain.HEAD]
        assert [{name: row[name] for name in found[0]} for row in now] == found if found else now == [], table
    assert all(row["seal"] for row in after["changes"])
    assert check_log(address).problems == ()


def owners(log):
    with log.engine.connect() as connection:
        return {row.id: row.private_to for row in connection.execute(sa.select(Lift.__table__))}


def taken_back(log, member_id):
    """Take back the last acts of a member; return what was said of each."""
    told = []
    for _ in range(3):
        try:
            told.append(undo_newest(log, member_id))
        except TidemarkError as err:
            told.append(err.what)
    return told


def dumped(address, path):
    """Dump a database and put it into an empty one, as the README says."""
    tools = [shutil.which(name) or str(binaries() / name) for name in ("pg_dump", "pg_restore")]
    source = address.replace("+psycopg", "")
    subprocess.run([tools[0], "--format=custom", f"--file={path}", source], check=True)

    def put_back(target):
        where = target.replace("+psycopg", "")
        subprocess.run([tools[1], "--no-owner", "--exit-on-error", f"--dbname={where}", str(path)], check=True)
        return target

    return put_back


@pytest.fixture
def a_file(tmp_path):
    """Copy a file of an earlier layout."""
    return lambda revision: Path(shutil.copy(FILES[revision], tmp_path / "old.db"))


def test_there_is_a_file_of_each_earlier_layout():
    assert list(FILES) == [f"{number:04}" for number in range(1, len(FILES) + 1)]
    assert len(FILES) >= 6


@pytest.mark.parametrize("revision", FILES)
def test_every_row_is_kept_and_the_log_goes_on_as_the_file_does(bare, a_file, revision):
    address, path = bare(), a_file(revision)
    before = copied(path, revision, address)
    with closing(open_log(address)) as log, closing(open_log(str(path))) as file:
        holds(address, before)
        assert owners(log) == owners(file)
        ana = next(each for each in people.members(log) if each.name == "Ana")
        lift = next(each for each in people.lifts(log) if each.name == "back squat" and each.implement == "barbell")
        logged = log_set.log_set(log, ana.id, DAY, NewSet(lift.id, Mass(Decimal("62.5"), "kg"), 5))
        assert {each["id"] for each in rows_of(address)["sets"]} - {each["id"] for each in before["sets"]} == {
            logged.id
        }
        assert undo_newest(log, ana.id) == "logged back squat, barbell: 5 x 62.5 kg"
        holds(address, before)
        assert taken_back(log, ana.id) == taken_back(file, ana.id)  # what the older program wrote
    assert check_log(address).problems == ()


@pytest.mark.parametrize("revision", FILES)
def test_a_dump_of_the_older_log_is_put_back_and_comes_up_to_date_again(bare, a_file, tmp_path, revision):
    address, again = bare(), bare()
    before = copied(a_file(revision), revision, address)
    put_back = dumped(address, tmp_path / "old.dump")
    open_log(address).close()
    put_back(again)
    assert (layout(again), rows_of(again)) == (revision, before)
    with closing(open_log(again)) as log:
        assert layout(again) == layout(address) > revision
        holds(again, before)
        assert people.add_member(log, "Cyr") in people.members(log)  # its entry in the history has the next number
    assert check_log(again).problems == ()


def test_a_lift_is_given_back_to_who_made_it_and_alone_has_used_it(bare, a_file):
    address, path = bare(), a_file("0004")
    ana = lifts_of_an_old_log(path)
    before = copied(path, "0004", address)
    with closing(open_log(address)) as log, closing(open_log(str(path))) as file:
        assert owners(log) == owners(file)
        given = {name for name, owner in owners(log).items() if owner == ana}
        assert given >= {"made and used by Ana", "made by Ana and not used", "brought by Ana"}
    holds(address, before)


def test_a_log_that_goes_back_two_layouts_and_up_again_keeps_every_row(bare, a_file):
    address = bare()
    copied(a_file("0006"), "0006", address)
    open_log(address).close()
    before = rows_of(address)
    for revision in ("0006", "0005"):
        go_to(address, revision, command.downgrade)
        assert layout(address) == revision
    lost = {("changes", "seal"), ("changes", "undoes"), ("lifts", "private_to"), ("accounts", "of_groups")}
    there = rows_of(address)
    kept = {
        table: [{name: value for name, value in row.items() if (table, name) not in lost} for row in rows]
        for table, rows in before.items() if table in there
    }  # fmt: skip
    assert there == kept
    assert not any(before[table] for table in before.keys() - there.keys())  # tables of later layouts
    with closing(open_log(address)) as log:
        holds(address, kept)
        with log.engine.connect() as connection:
            assert chain.broken(connection) == frozenset()
