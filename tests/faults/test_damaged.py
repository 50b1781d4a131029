"""A file with wrong bytes: flipped, cut off, emptied, or no log at all. Refused or read, in words, and left as it is."""

import random
import sqlite3
from contextlib import closing
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from tests.undoing import undo_newest
from tracker.desk.day import log_set
from tracker.desk.history import journal
from tracker.desk.people import people
from tracker.errors import TidemarkError
from tracker.log.engine import database_url
from tracker.log.faults import DamagedLogError, NotALogError
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.units import Mass

SEED = 20261125


@pytest.fixture(scope="module")
def filled(tmp_path_factory):
    """A log of some sets, as bytes."""
    path = tmp_path_factory.mktemp("whole") / "log.db"
    log = Log(database_url(str(path)))
    ana, squat = people.add_member(log, "Ana"), people.add_lift(log, "back squat", "barbell")
    for number in range(40):
        new = NewSet(squat.id, Mass(Decimal(60 + number % 9), "kg"), 5, note=f"note {number}")
        log_set.log_set(log, ana.id, date(2026, 3, 1 + number % 20), new)
    log.close()
    return path.read_bytes()


def use(path):
    """Open a log, read all of it and write a set, as the pages would; return the refusal, if any."""
    try:
        log = Log(database_url(str(path)))
        try:
            for member in people.members(log):
                journal.sessions(log, member.id, limit=500)
                journal.acts(log, member.id)
                people.body_masses(log, member.id)
                for lift in people.lifts(log):
                    log_set.log_set(
                        log, member.id, date(2026, 3, 2), NewSet(lift.id, Mass(Decimal(60), "kg"), 5), sure=True
                    )
                    undo_newest(log, member.id)
        finally:
            log.close()
    except TidemarkError as err:
        return err
    return None


@pytest.mark.parametrize("part", range(3))
def test_flipped_bits_never_end_in_a_trace(filled, tmp_path, part):
    chance = random.Random(SEED + part)
    told = 0
    for number in range(15):
        content = bytearray(filled)
        for _ in range(chance.choice((1, 1, 8, 64))):
            content[chance.randrange(len(content))] ^= 1 << chance.randrange(8)
        path = tmp_path / f"{number}.db"
        path.write_bytes(content)
        refusal = use(path)
        told += refusal is not None
        if isinstance(refusal, NotALogError):
            assert path.read_bytes() == content  # nothing was "repaired"
    assert told  # else the damage was too small to show anything


@pytest.mark.parametrize("seed", range(12))
def test_a_log_that_was_cut_off_is_told_as_damaged_and_left_as_it_is(filled, tmp_path, seed):
    path = tmp_path / "log.db"
    content = filled[: random.Random(seed).randrange(1, len(filled) - 1)]
    path.write_bytes(content)
    refusal = use(path)
    assert isinstance(refusal, DamagedLogError | NotALogError)
    assert refusal.mend
    assert path.read_bytes() == content


@pytest.mark.parametrize(
    "content",
    [b"date,lift,load\n" * 500, b"x", b"\x00" * 100_000, b"PK\x03\x04" + b"\x00" * 5000, "naïve\n".encode("utf-16")],
)
def test_another_file_is_refused_and_left_as_it_is(tmp_path, content):
    path = tmp_path / "log.db"
    path.write_bytes(content)
    refusal = use(path)
    assert isinstance(refusal, NotALogError)
    assert "restore a backup" in refusal.mend
    assert path.read_bytes() == content


def test_an_emptied_log_is_not_begun_anew_where_a_copy_lies_beside_it(filled, tmp_path):
    path = tmp_path / "log.db"
    path.write_bytes(b"")
    (tmp_path / "log-before-0001-20260301-101500.db").write_bytes(filled)
    with pytest.raises(DamagedLogError, match="empty") as refused:
        Log(database_url(str(path)))
    assert "log-before-0001-20260301-101500.db" in str(refused.value)
    assert path.read_bytes() == b""


def test_an_empty_file_without_any_copy_is_a_new_log(tmp_path):
    path = tmp_path / "log.db"
    path.touch()
    Log(database_url(str(path))).close()
    assert path.stat().st_size


@pytest.mark.parametrize(
    ("table", "column", "value"),
    [
        ("sets", "load", "6x.5"),
        ("sets", "logged_at", "some day"),
        ("sessions", "day", "2026-13-45"),
        ("changes", "at", ""),
        ("sets", "rir", "sNaN"),
        ("sets", "note", b"\xff\xfe\xfa"),
    ],
)
def test_a_value_that_can_not_be_read_is_told_as_damage(filled, tmp_path, table, column, value):
    path = tmp_path / "log.db"
    path.write_bytes(filled)
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(f"UPDATE {table} SET {column} = CAST(? AS TEXT)", (value,))
        connection.commit()
    refusal = use(path)
    assert isinstance(refusal, DamagedLogError), refusal
    assert "Nothing was saved" in refusal.what


def test_a_history_that_can_not_be_read_is_told_when_an_act_is_taken_back(filled, tmp_path):
    path = tmp_path / "log.db"
    path.write_bytes(filled)
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("UPDATE changes SET before = '{half'")
        connection.commit()
    with closing(Log(database_url(str(path)))) as log:
        newest = journal.acts(log, people.members(log)[0].id)[0]
        with pytest.raises(DamagedLogError, match="Nothing was saved"):
            journal.undo_act(log, newest.act_id)


def test_a_journal_of_another_file_does_not_upset_a_log(filled, tmp_path):
    path = Path(tmp_path / "log.db")
    path.write_bytes(filled)
    Path(f"{path}-journal").write_bytes(b"not a journal" * 50)
    assert use(path) is None
