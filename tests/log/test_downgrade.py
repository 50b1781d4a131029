"""A log goes back to an earlier layout and forward again: with every row, or not at all.

Going back from 0006 makes each lift the gym's, since before that none was anybody's own.
"""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from alembic import command
from alembic.util import CommandError

from tests.log.test_older_logs import FROZEN, rows
from tracker.desk.coach import classes
from tracker.desk.files.check import check_log
from tracker.desk.people import groups
from tracker.log.engine import database_url, open_engine
from tracker.log.migrate import alembic_config
from tracker.log.unit_of_work import Log

pytestmark = pytest.mark.sqlite("are about SQLite's file; tests/server/test_older_logs.py has the same on a server")


@pytest.fixture
def path(tmp_path, request):
    path = Path(shutil.copy(FROZEN[getattr(request, "param", "0006")], tmp_path / "log.db"))
    Log(database_url(str(path))).close()
    return path


def back(path, revision):
    engine = open_engine(database_url(str(path)), foreign_keys=False)
    try:
        with engine.begin() as connection:
            config = alembic_config()
            config.attributes["connection"] = connection
            command.downgrade(config, revision)
    finally:
        engine.dispose()


def layout(path):
    with closing(sqlite3.connect(path)) as connection:
        return sorted(map(str, connection.execute("SELECT type, name, replace(sql, '\"', '') FROM sqlite_master")))


WITHOUT_MACHINES = sorted(each for each in FROZEN if each < "0008")


@pytest.mark.parametrize("path", WITHOUT_MACHINES, indirect=True)
@pytest.mark.parametrize("revision", ["0006", "0005"])
def test_back_and_forward_again_keeps_every_row(path, revision):
    before, as_it_was = rows(path), layout(path)
    back(path, revision)
    assert layout(path) != as_it_was
    Log(database_url(str(path))).close()
    assert layout(path) == as_it_was
    after = rows(path)
    lost = [lift["name"] for lift, now in zip(before["lifts"], after["lifts"], strict=True) if lift != now]
    for lift in before["lifts"] if revision == "0005" else ():
        lift["private_to"] = None
    for lift in after["lifts"] if revision == "0005" else ():
        lift["private_to"] = None
    for table, found in before.items():
        assert after[table][: len(found)] == found, table
        assert len(after[table]) == len(found) or table == "changes"
    assert set(lost) <= {"pin press"}
    assert check_log(str(path)).problems == ()


@pytest.mark.parametrize("table", ["lifts", "places", "waves"])
def test_a_log_in_which_two_members_gave_one_name_does_not_go_back(path, table):
    with closing(sqlite3.connect(path)) as connection:
        connection.row_factory = sqlite3.Row
        row = dict(connection.execute(f"SELECT * FROM {table}").fetchone())
        for owner in "ab":
            new = row | {"id": owner * 32, "name": "zercher", "private_to": owner * 32}
            connection.execute(
                f"INSERT INTO {table} ({', '.join(new)}) VALUES ({', '.join('?' * len(new))})", list(new.values())
            )
        connection.commit()
    before = (rows(path), layout(path))
    with pytest.raises(CommandError, match=rf"{table}: 2 of the name zercher"):
        back(path, "0005")
    assert (rows(path), layout(path)) == before


@pytest.mark.parametrize(
    ("path", "revision", "said"),
    [
        ("0008", "0007", "holds no machines, and 1 stand"),
        ("0006", "0008", "holds no groups and classes, and there are 1 and 1"),
    ],
    indirect=["path"],
)
def test_a_log_that_holds_what_the_earlier_layout_can_t_does_not_go_back(path, revision, said):
    log = Log(database_url(str(path)))
    classes.add_class(log, "Evening", "Mon 18:00", group_id=groups.add_group(log, "Early"))
    log.close()
    before = (rows(path), layout(path))
    if revision < "0008":  # the newest layout is left first
        with closing(sqlite3.connect(path)) as connection:
            connection.execute("DELETE FROM classes")
            connection.execute("DELETE FROM gym_groups")
            connection.commit()
        before = (rows(path), layout(path))
    with pytest.raises(CommandError, match=said):
        back(path, revision)
    assert (rows(path), layout(path)) == before


def test_without_groups_and_classes_a_log_goes_back_to_before_them(path):
    as_it_was = layout(path)
    back(path, "0008")
    Log(database_url(str(path))).close()
    assert layout(path) == as_it_was
