"""A backup is a whole log or refused; restoring keeps what was there; the checker finds what was damaged on purpose."""

from __future__ import annotations

import hashlib
import random
import shutil
import sqlite3
from contextlib import closing
from datetime import date
from decimal import Decimal

import pytest

from tracker.desk.base.opening import open_log
from tracker.desk.day import log_set
from tracker.desk.files.check import check_log
from tracker.desk.files.custody import backup, restore
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people, places
from tracker.errors import TidemarkError
from tracker.log.seal import state
from tracker.log.sets import NewSet
from tracker.units import Mass

DAY = date(2026, 3, 2)
TODAY = date(2026, 11, 20)


def log_sets(path, loads, name="Ana"):
    log = open_log(str(path))
    known = {member.name: member for member in people.members(log)}
    member = known.get(name) or people.add_member(log, name)
    squat = people.add_lift(log, "front squat", "barbell")
    for load in loads:
        log_set.log_set(log, member.id, DAY, NewSet(squat.id, Mass(Decimal(load), "kg"), 5), sure=True)
    log.close()


def loads_in(path):
    with closing(sqlite3.connect(path)) as connection:
        return [row[0] for row in connection.execute("SELECT load FROM sets ORDER BY position")]


def digest(path):
    return hashlib.sha256(path.read_bytes()).hexdigest()


def change(path, statement, *values):
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("PRAGMA ignore_check_constraints=ON")
        connection.execute(statement, values)


@pytest.fixture
def path(tmp_path, empty_log):
    made = shutil.copyfile(empty_log, tmp_path / "log.db")
    log_sets(made, ["80", "82.50", "85"])
    return made


@pytest.fixture
def kept(path, tmp_path):
    """A backup of that log."""
    return backup(str(path), tmp_path / "kept" / "backup.db").file


# Backup


def test_a_backup_is_the_log_as_it_was(path, tmp_path):
    done = backup(str(path), tmp_path / "new" / "backup.db")
    assert done.sets == 3
    assert done.sha256 == digest(done.file)
    assert state(done.file) == "whole"
    assert loads_in(done.file) == loads_in(path)
    assert [each.name for each in done.file.parent.iterdir()] == ["backup.db"]


def test_a_backup_while_somebody_has_the_log_open_and_writes_on(path, tmp_path):
    log = open_log(str(path))
    with log.reading() as session:
        session.connection()
        done = backup(str(path), tmp_path / "backup.db")
    log.close()
    log_sets(path, ["90"])
    assert done.sets == 3
    assert len(loads_in(path)) == 4


def test_a_file_that_is_there_is_not_replaced_unasked(path, kept, tmp_path):
    before = digest(kept)
    log_sets(path, ["90"])
    with pytest.raises(TidemarkError, match="already"):
        backup(str(path), kept)
    assert digest(kept) == before
    assert backup(str(path), kept, force=True).sets == 4
    with pytest.raises(TidemarkError, match="folder"):
        backup(str(path), tmp_path, force=True)
    with pytest.raises(TidemarkError, match="the log itself"):
        backup(str(path), path, force=True)
    assert len(loads_in(path)) == 4


def test_a_backup_that_fails_leaves_the_former_one(path, kept, monkeypatch):
    before = digest(kept)

    def fail(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("tracker.log.copies.os.fsync", fail)
    with pytest.raises(TidemarkError, match="No space left"):
        backup(str(path), kept, force=True)
    assert digest(kept) == before
    assert [each.name for each in kept.parent.iterdir()] == ["backup.db"]


def test_there_is_nothing_to_back_up(tmp_path):
    with pytest.raises(TidemarkError, match="no log yet"):
        backup(str(tmp_path / "none.db"), tmp_path / "backup.db")
    with pytest.raises(TidemarkError, match="no file"):
        backup("postgresql+psycopg://gym@127.0.0.1/log", tmp_path / "backup.db")


# Restore


def test_restoring_brings_the_backup_back_and_keeps_what_was_there(path, kept):
    log_sets(path, ["90"])
    done = restore(str(path), kept)
    assert (done.sets, done.warning) == (3, "")
    assert loads_in(path) == ["80", "82.50", "85"]
    assert done.former is not None
    assert loads_in(done.former) == ["80", "82.50", "85", "90"]
    assert state(path) == "unsealed"  # it is a log again, to be written to
    assert state(kept) == "whole"
    log_sets(path, ["95"])
    assert check_log(str(path)).ok


def test_restoring_where_nothing_was(kept, tmp_path):
    target = tmp_path / "fresh" / "log.db"
    assert restore(str(target), kept).former is None
    assert loads_in(target) == ["80", "82.50", "85"]


def test_two_restores_in_one_second_keep_both_former_logs(path, kept):
    assert restore(str(path), kept).former != restore(str(path), kept).former


def test_one_byte_changed_anywhere_is_never_restored_as_good(path, kept, tmp_path):
    whole = kept.read_bytes()
    before, bad, chance = digest(path), tmp_path / "bad.db", random.Random(20261120)
    for number in range(1000):
        at = chance.randrange(len(whole)) if number else 60  # the first time the seal itself
        content = bytearray(whole)
        content[at] ^= 1 << chance.randrange(8)
        bad.write_bytes(content)
        assert state(bad) != "whole", f"byte {at}"
        if number % 50 == 0:
            with pytest.raises(TidemarkError):
                restore(str(path), bad)
    assert digest(path) == before


@pytest.mark.parametrize("cut", [-1, -4096, 100, 50, 0])
def test_a_backup_that_was_cut_short_or_grew_is_refused(path, kept, tmp_path, cut):
    for content in (kept.read_bytes()[:cut], kept.read_bytes() + b"\0" * 4096):
        (tmp_path / "bad.db").write_bytes(content)
        with pytest.raises(TidemarkError, match=r"damaged|no backup"):
            restore(str(path), tmp_path / "bad.db")
    assert len(loads_in(path)) == 3


def test_other_files_are_refused(path, tmp_path):
    before = digest(path)
    other = tmp_path / "other"
    with pytest.raises(TidemarkError, match="can't be read"):
        restore(str(path), other)
    with pytest.raises(TidemarkError, match="can't be read"):
        restore(str(path), tmp_path)
    other.write_text("date,lift,load,unit,reps\n" * 20)
    with pytest.raises(TidemarkError, match="no backup"):
        restore(str(path), other)
    other.unlink()
    with closing(sqlite3.connect(other)) as connection, connection:
        connection.execute("CREATE TABLE recipes (name TEXT)")
    with pytest.raises(TidemarkError, match="not a Tidemark log"):
        restore(str(path), other)
    with pytest.raises(TidemarkError, match="the log itself"):
        restore(str(path), path)
    assert digest(path) == before


def test_a_log_from_a_newer_version_is_refused(path, tmp_path):
    newer = shutil.copyfile(path, tmp_path / "newer.db")
    change(newer, "UPDATE alembic_version SET version_num = '9999'")
    before = digest(path)
    with pytest.raises(TidemarkError, match="newer version"):
        restore(str(path), newer)
    assert digest(path) == before


def test_a_plain_copy_is_taken_after_checks_and_with_a_word(path, tmp_path):
    copy = shutil.copyfile(path, tmp_path / "copy.db")
    log_sets(path, ["90"])
    assert "no seal" in restore(str(path), copy).warning
    assert len(loads_in(path)) == 3


def test_a_plain_copy_that_breaks_the_rules_is_refused(path, tmp_path):
    copy = shutil.copyfile(path, tmp_path / "copy.db")
    change(copy, "UPDATE sets SET load = 'heavy' WHERE load = '85'")
    with pytest.raises(TidemarkError, match="not in order"):
        restore(str(path), copy)


def test_an_old_journal_beside_the_log_does_not_bring_the_old_log_back(path, kept):
    # A write-ahead log of the former file, as a crash leaves it, would be played into whatever lies there next.
    with closing(sqlite3.connect(path, isolation_level=None)) as writer:
        writer.execute("PRAGMA journal_mode=WAL")
        writer.execute("UPDATE sets SET load = '999' WHERE load = '80'")
        shutil.copyfile(f"{path}-wal", f"{path}.saved")
    shutil.copyfile(f"{path}.saved", f"{path}-wal")
    restore(str(path), kept)
    assert not path.with_name("log.db-wal").exists()
    assert loads_in(path) == ["80", "82.50", "85"]


def test_a_damaged_log_is_kept_as_it_lies(path, kept):
    path.write_bytes(b"no log at all, but somebody's last hope" * 100)
    before = path.read_bytes()
    path.with_name("log.db-journal").write_bytes(b"and its journal")
    done = restore(str(path), kept)
    assert done.former is not None
    assert done.former.read_bytes() == before
    assert done.former.with_name(f"{done.former.name}-journal").read_bytes() == b"and its journal"
    assert loads_in(path) == ["80", "82.50", "85"]


def test_a_log_that_somebody_holds_is_not_swapped(path, kept, monkeypatch):
    monkeypatch.setattr("tracker.log.copies.BUSY_S", 0.1)
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(TidemarkError, match="held by another program"):
            restore(str(path), kept)
        other.execute("ROLLBACK")
    assert [each.name for each in path.parent.rglob("*restore*")] == []


def test_whoever_had_the_former_log_open_writes_into_the_restored_one(path, kept):
    log = open_log(str(path))
    assert len(people.members(log)) == 1
    former = restore(str(path), kept).former
    people.add_member(log, "Late")
    log.close()
    with closing(sqlite3.connect(path)) as now, closing(sqlite3.connect(former)) as before:
        count = "SELECT count(*) FROM members"
        assert (now.execute(count).fetchone(), before.execute(count).fetchone()) == ((2,), (1,))
    assert loads_in(path) == ["80", "82.50", "85"]


# Check


def test_a_log_in_order(path):
    report = check_log(str(path), today=TODAY)
    assert report.problems == ()
    assert (report.counts["sets"], report.counts["members"]) == (3, 1)


def test_the_whole_demo_is_in_order(demo_log):
    assert check_log(demo_log.name).problems == ()


DAMAGE = [
    ("UPDATE sets SET load = 'nan' WHERE position = 0", "not a number"),
    ("UPDATE sets SET load = 'inf' WHERE position = 0", "not a number"),
    ("UPDATE sets SET load = '-5' WHERE position = 0", "can't be"),
    ("UPDATE sets SET load = '1000.5' WHERE position = 0", "more than anyone"),
    ("UPDATE sets SET unit = 'stone' WHERE position = 0", "stone"),
    ("UPDATE sets SET reps = 5000 WHERE position = 0", "5,000 repetitions"),
    ("UPDATE sets SET reps = -1 WHERE position = 0", "not a whole number"),
    ("UPDATE sets SET reps = 0 WHERE position = 0", "at least one"),
    ("UPDATE sets SET reps = 2.5 WHERE position = 0", "not a whole number"),
    ("UPDATE sets SET rir = '1.3' WHERE position = 0", "in reserve"),
    ("UPDATE sets SET outcome = 'won' WHERE position = 0", "not an outcome"),
    ("UPDATE sets SET kind = 'max' WHERE position = 0", "not a kind"),
    ("UPDATE sets SET body_mass = '1' WHERE position = 0", "body mass"),
    ("UPDATE sets SET origin = '' WHERE position = 0", "lost what it was"),
    ("UPDATE lifts SET body = 1", "no body mass"),
    ("UPDATE sessions SET day = '2026-02-30'", "not in the calendar"),
    ("UPDATE sessions SET day = '2030-01-01'", "still to come"),
    ("UPDATE members SET name = ''", "is empty"),
    ("UPDATE lifts SET name = char(27)", "can't be shown"),
    ("UPDATE kit_items SET mass = 'heavy' WHERE position = 0", "not a number"),
    ("UPDATE kit_items SET mass = '-20' WHERE position = 0", "below zero"),
    ("UPDATE body_masses SET mass = '8000'", "can't be"),
    ("UPDATE rep_maxes SET load = '0'", "can't be"),
    ("UPDATE changes SET after = '[1]' WHERE number = 1", "should be a record"),
    ("UPDATE changes SET after = '{' WHERE number = 1", "can't be read"),
    ("UPDATE changes SET record = 'recipes' WHERE number = 1", "no kind of record"),
    ("UPDATE sets SET session_id = 'gone' WHERE position = 0", "not there"),
    ("DELETE FROM members", "not there"),
    ("DROP INDEX ix_sets_lift_id", "tables"),
    ("DROP TABLE rest_days", "tables"),
    ("ALTER TABLE sets ADD COLUMN colour TEXT", "colour"),
    ("CREATE TRIGGER sly AFTER INSERT ON sets BEGIN DELETE FROM sets; END", "trigger sly"),
    ("CREATE VIEW heavy AS SELECT * FROM sets", "view heavy"),
]


@pytest.fixture(scope="module")
def in_order(tmp_path_factory, empty_log):
    """A log with a record of each kind that is damaged below, and in order until then."""
    path = shutil.copyfile(empty_log, tmp_path_factory.mktemp("in-order") / "log.db")
    log_sets(path, ["80", "82.50", "85"])
    log = open_log(str(path))
    ana = people.members(log)[0]
    places.add_place(log, "garage", "kg")
    people.weigh(log, ana.id, DAY, Mass(Decimal(80), "kg"))
    rep_maxes.add_rep_max(log, ana.id, people.lifts(log)[0].id, DAY, 3, Mass(Decimal(90), "kg"), tested=True)
    log.close()
    assert check_log(str(path), today=TODAY).ok
    return path


@pytest.mark.parametrize(("damage", "words"), DAMAGE)
def test_the_checker_finds_what_was_damaged(in_order, tmp_path, damage, words):
    path = shutil.copyfile(in_order, tmp_path / "log.db")
    change(path, damage)
    report = check_log(str(path), today=TODAY)
    assert not report.ok, "no error found: the checker is broken"
    assert any(words in problem for problem in report.problems), report.problems


@pytest.mark.parametrize(
    ("damage", "words"),
    [
        ("UPDATE scores SET result = '{}'", "no record of a score"),
        ("UPDATE scores SET result = '[]'", "should be a record"),
        ("UPDATE scores SET day = 'soon'", "not a date"),
        ('UPDATE pieces SET definition = \'{"kind": "race"}\'', "pieces"),
    ],
)
def test_the_checker_finds_scores_that_were_damaged(demo_log, damage, words):
    change(demo_log.name, damage)
    assert any(words in problem for problem in check_log(demo_log.name).problems)


def test_the_checker_finds_pages_of_noise(path):
    content = bytearray(path.read_bytes())
    content[4096 * 3 : 4096 * 20] = random.Random(1).randbytes(4096 * 17)
    path.write_bytes(content)
    report = check_log(str(path), today=TODAY)
    assert not report.ok
    assert any("file" in problem for problem in report.problems)


def test_what_is_no_log_at_all_is_said_in_words(tmp_path):
    (tmp_path / "log.db").write_text("recipes" * 100)
    with pytest.raises(TidemarkError, match="not a Tidemark log"):
        check_log(str(tmp_path / "log.db"))
