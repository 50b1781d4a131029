"""A log that an older version wrote opens here and comes back from its backup, with every row intact, and its acts can be taken back.

Each schema_NNNN.db was written by the program as it stood at that revision, through its own desk, with rows in every table
that it had (0001: pieces came later), and made small with VACUUM at a page size of 512; log_0004.json is the same log's export.
"""

import json
import shutil
import sqlite3
from contextlib import closing
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from alembic.script import ScriptDirectory

from tests.undoing import undo_newest
from tracker.desk.files import custody, files_json
from tracker.desk.files.check import check_log
from tracker.desk.people import people
from tracker.errors import TidemarkError
from tracker.log import chain, copies, open_format, seal
from tracker.log.engine import database_url
from tracker.log.migrate import alembic_config
from tracker.log.sets import sets_of
from tracker.log.unit_of_work import Log

HERE = Path(__file__).parent
REVISIONS = [script.revision for script in ScriptDirectory.from_config(alembic_config()).walk_revisions()]
FROZEN = {path.stem.removeprefix("schema_"): path for path in sorted(HERE.glob("schema_*.db"))}
COUNTS = {
    "0001": {
        "members": 2, "lifts": 2, "places": 1, "kit_items": 8, "waves": 1, "wave_steps": 2, "planned_sets": 2,
        "member_waves": 1, "member_steps": 2, "body_masses": 1, "rep_maxes": 1, "sessions": 3, "sets": 4, "changes": 34,
    },
    "0002": {
        "members": 2, "lifts": 3, "places": 1, "kit_items": 8, "waves": 1, "wave_steps": 2, "planned_sets": 2,
        "member_waves": 1, "member_steps": 2, "body_masses": 1, "rep_maxes": 1, "sessions": 2, "sets": 4, "changes": 41,
        "log_facts": 1, "pieces": 1, "step_pieces": 1, "piece_clocks": 1, "piece_options": 1, "rest_days": 1, "scores": 1,
    },
}  # fmt: skip
COUNTS["0003"] = COUNTS["0002"] | {
    "lifts": 5, "waves": 2, "wave_steps": 3, "planned_sets": 6, "member_waves": 2, "member_steps": 3, "changes": 51,
}  # fmt: skip
COUNTS["0004"] = COUNTS["0003"] | {"changes": 54, "accounts": 2}
COUNTS["0005"] = {
    "members": 3, "lifts": 6, "places": 2, "kit_items": 7, "waves": 1, "wave_steps": 1, "planned_sets": 2,
    "member_waves": 1, "member_steps": 1, "body_masses": 2, "rep_maxes": 1, "sessions": 17, "sets": 30, "changes": 67,
    "log_facts": 1, "pieces": 1, "step_pieces": 1, "piece_clocks": 1, "piece_options": 1, "rest_days": 1, "scores": 1,
    "accounts": 2,
}  # fmt: skip
COUNTS["0006"] = COUNTS["0005"] | {"lifts": 7, "sessions": 18, "sets": 31, "changes": 70}
COUNTS["0007"] = COUNTS["0006"] | {"kit_items": 8, "sets": 32, "log_facts": 2, "changes": 81}
COUNTS["0008"] = COUNTS["0007"] | {"kit_items": 9, "sessions": 19, "sets": 33, "changes": 84}


def rows(path: Path) -> dict[str, list[dict[str, object]]]:
    """All rows of all tables but Alembic's own, by the columns that they have."""
    connection = sqlite3.connect(path)
    connection.row_factory = sqlite3.Row
    tables = [name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
    found = {table: [dict(row) for row in connection.execute(f"SELECT * FROM {table}")] for table in tables}
    connection.close()
    found.pop("alembic_version")
    return found


def kept(before: dict[str, list[dict[str, object]]], path: Path) -> None:
    """Hold the rows that were there against those that are: by the columns that they had."""
    after = rows(path)
    for table, there in before.items():
        now = after[table][: len(there)] if table == "changes" else after[table]  # the history grows: see below
        now = [row for row in now if row.get("key") != chain.HEAD]  # and where it ends is kept from the next act on
        found = [row for row in there if row.get("key") != chain.HEAD]
        same = [{column: row[column] for column in found[0]} for row in now] if found else now
        assert same == found, table
    with closing(sqlite3.connect(path)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
    assert check_log(str(path)).problems == ()


@pytest.fixture(params=FROZEN)
def revision(request):
    return request.param


@pytest.fixture
def old(tmp_path, revision):
    return Path(shutil.copy(FROZEN[revision], tmp_path / "old.db"))


def test_each_schema_but_the_newest_is_kept_as_a_file():
    assert set(REVISIONS[1:]) <= set(FROZEN)
    assert set(FROZEN) == set(COUNTS)


def test_every_row_is_kept(old, revision):
    before = rows(old)
    assert {table: len(found) for table, found in before.items() if found} == COUNTS[revision]
    if revision != "0001":
        assert all(before.values()), "a table without rows shows nothing"
    Log(database_url(str(old))).close()
    kept(before, old)


def test_a_sealed_copy_of_the_older_log_is_kept(old, revision):
    before = rows(old)
    Log(database_url(str(old))).close()
    found = list(old.parent.glob(f"old-backups/old-*-before-{revision}.db"))
    if revision == REVISIONS[0]:
        assert found == []
        return
    (copy,) = found
    assert rows(copy) == before
    assert seal.state(copy) == "whole"


def test_a_backup_of_each_older_version_is_restored_with_every_row(old, tmp_path):
    before, log = rows(old), tmp_path / "log.db"
    copies.make_backup(old, tmp_path / "backup.db")  # as that version made it: sealed, and in its own layout
    Log(database_url(str(log))).close()
    done = custody.restore(str(log), tmp_path / "backup.db")
    assert (done.sets, done.warning) == (len([row for row in before["sets"] if row["removed_at"] is None]), "")
    kept(before, log)


def test_an_older_backup_with_one_wrong_byte_is_refused(old, tmp_path):
    copies.make_backup(old, tmp_path / "backup.db")
    content = bytearray((tmp_path / "backup.db").read_bytes())
    content[len(content) // 2] ^= 1
    (tmp_path / "backup.db").write_bytes(content)
    with pytest.raises(TidemarkError, match="damaged"):
        custody.restore(str(tmp_path / "log.db"), tmp_path / "backup.db")


def test_an_export_of_an_older_version_is_taken_with_every_record(tmp_path):
    document = json.loads((HERE / "log_0004.json").read_text(encoding="utf-8"))
    log = Log(database_url(str(tmp_path / "log.db")))
    files_json.take_log(log, HERE / "log_0004.json")
    with log.reading() as session:
        for table in open_format.tables():
            after = list(open_format.records(session, table))
            if table.name == "changes":  # it grows by what sealing it says
                after = after[: len(document["records"][table.name])]
            for now, then in zip(after, document["records"].get(table.name, []), strict=True):  # of later tables none
                assert now.items() >= then.items(), table.name
    log.close()


@pytest.mark.parametrize("revision", ["0001"], indirect=True)
def test_what_an_older_log_holds_is_read_and_its_last_acts_are_taken_back(old):
    log = Log(database_url(str(old)))
    ana = next(each for each in people.members(log) if each.name == "Ana")
    assert undo_newest(log, ana.id) == "rated a session"
    assert undo_newest(log, ana.id) == "edited back squat, barbell: 5 x 62.5 kg"  # "mended" where it is kept
    assert undo_newest(log, ana.id) == "removed back squat, barbell: 5 x 70 kg"
    with log.reading() as session:
        loads = [(row.day, row.load.amount, row.reps, row.rir) for row in sets_of(session, ana.id)]
    log.close()
    assert loads == [
        (date(2026, 3, 2), Decimal("62.50"), 5, Decimal("2.5")),
        (date(2026, 3, 2), Decimal("-10"), 6, None),
        (date(2026, 3, 4), Decimal("70"), 5, None),
    ]
