"""A member that is deleted is gone from the file: no name, no set, no note, no line of history."""

import csv
import io
import zipfile
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from sqlalchemy import update

from tests.day import this_day
from tests.readings import newest
from tests.stores import address_of, content
from tests.undoing import undo_newest
from tracker.desk.day import log_set
from tracker.desk.files import deletion, take_away
from tracker.desk.files.check import check_log
from tracker.desk.history import journal
from tracker.desk.people import people
from tracker.errors import BadInputError, TidemarkError
from tracker.log import chain
from tracker.log.columns import Base
from tracker.log.engine import database_url
from tracker.log.faults import ReadOnlyLogError
from tracker.log.models import Change
from tracker.log.sets import NewSet, add_set, sets_of
from tracker.log.undo import undo
from tracker.log.unit_of_work import Log
from tracker.units import Mass

DAY = date(2026, 3, 2)
NAME, NOTE = "Quillon Vantreight", "knee hurt under the rack"


def of(lift, load, note=""):
    return NewSet(lift.id, Mass(Decimal(load), "kg"), 5, note=note)


@pytest.fixture
def two(log):
    """A member who will go, with sets moved to and from another who stays."""
    squat = people.add_lift(log, "back squat", "barbell")
    gone, stays = people.add_member(log, NAME), people.add_member(log, "Bo")
    for load in range(40, 46):
        log_set.log_set(log, gone.id, DAY, of(squat, load, f"{NOTE} {load}"), sure=True)
    mended = log_set.log_set(log, gone.id, DAY, of(squat, "77.125", NOTE), sure=True)
    log_set.mend_set(log, mended.id, of(squat, "77.375", NOTE), sure=True)
    log_set.remove_set(log, mended.id, today=this_day())
    given = log_set.log_set(log, stays.id, DAY, of(squat, "61.25"), sure=True)
    log_set.move_set(log, given.id, gone.id, today=this_day())
    taken = log_set.log_set(log, gone.id, DAY, of(squat, "62.75"), sure=True)
    log_set.move_set(log, taken.id, stays.id, today=this_day())
    log_set.log_set(log, stays.id, DAY, of(squat, 63), sure=True)
    return gone, stays


def traces(log, *texts):
    held = content(address_of(log))
    return [text for text in texts if text.encode() in held]


def test_nothing_of_a_deleted_member_stays_in_the_file(log, two):
    gone, stays = two
    assert traces(log, NAME, NOTE, "77.125", "61.25", gone.id) == [NAME, NOTE, "77.125", "61.25", gone.id]
    done = deletion.delete_member(log, gone.id, NAME)
    assert done.sets == 8
    assert traces(log, NAME, NAME.lower(), "Quillon", NOTE, "77.125", "77.375", "61.25", gone.id) == []
    assert [each.name for each in people.members(log)] == ["Bo"]
    with log.reading() as session:
        assert [float(row.load.amount) for row in sets_of(session, stays.id)] == [62.75, 63]
    assert check_log(address_of(log)).ok
    left = Path(str(log.url.database)).parent.glob("*")  # of a server none of its files is ours
    assert not [each for each in left if each.name.endswith(("-journal", "-wal"))]


@pytest.mark.sqlite("are about SQLite's file")
def test_nothing_stays_in_a_write_ahead_log_either(tmp_path, monkeypatch):
    monkeypatch.setattr("tracker.log.engine.wal_is_safe", lambda: True)  # as with a newer SQLite
    log = Log(database_url(str(tmp_path / "wal.db")))
    squat, gone = people.add_lift(log, "back squat", "barbell"), people.add_member(log, NAME)
    log_set.log_set(log, gone.id, DAY, of(squat, "77.125", NOTE))
    assert Path(f"{log.url.database}-wal").exists()
    assert deletion.delete_member(log, gone.id, NAME).compact
    for path in tmp_path.iterdir():
        content = path.read_bytes()
        assert not [text for text in (NAME, NOTE, "77.125", gone.id) if text.encode() in content], path
    log.close()


@pytest.mark.sqlite("are about SQLite's file")
def test_zeros_have_to_do_where_the_file_can_not_be_written_anew(log, two, monkeypatch):
    gone, _ = two
    monkeypatch.setattr("tracker.log.erase._write_anew", lambda _connection: False)
    assert not deletion.delete_member(log, gone.id, NAME).compact
    assert traces(log, NAME, NOTE, "77.125", gone.id) == []


def test_the_history_of_others_goes_on_without_the_name(log, two):
    gone, stays = two
    deletion.delete_member(log, gone.id, NAME)
    words = [each.words for each in journal.acts(log, stays.id)]
    assert words[0] == "logged back squat, barbell: 5 x 63 kg"
    assert not any(NAME in each for each in words)
    assert undo_newest(log, stays.id) == "logged back squat, barbell: 5 x 63 kg"


def test_a_name_that_was_cut_short_in_the_history_of_others_goes_too(log):
    squat, stays = people.add_lift(log, "back squat", "barbell"), people.add_member(log, "Bo")
    gone = people.add_member(log, f"{NAME} the third")
    for ahead in range(150, 200):  # wherever the cut falls within the name
        with log.act(f"{'x' * ahead} {gone.name} and more", stays.id) as act:
            add_set(act, stays.id, DAY, of(squat, ahead))
    deletion.delete_member(log, gone.id, gone.name)
    said = [each.words for each in journal.acts(log, stays.id, limit=100)]
    assert not [each for each in said if "Quill" in each]
    assert traces(log, "Quillon", "Vantreight") == []
    with log.reading() as session:
        assert chain.broken(session.connection()) == frozenset()


def test_a_name_that_an_earlier_version_cut_within_goes_too(log):
    squat, stays = people.add_lift(log, "back squat", "barbell"), people.add_member(log, "Bo")
    gone = people.add_member(log, f"{NAME} the third")
    with log.act("as it was", stays.id) as act:
        add_set(act, stays.id, DAY, of(squat, 60))
    with log.engine.begin() as connection:  # words of 200 letters, wherever the name ended, and no sign that they go on
        words = f"{'x' * 188} {gone.name}"[:200]
        connection.execute(update(Change).where(Change.act == "as it was").values(act=words))
        chain.seal_anew(connection)
    deletion.delete_member(log, gone.id, gone.name)
    assert journal.acts(log, stays.id)[0].words == f"{'x' * 188} a former…"
    assert traces(log, "Quillon") == []


def test_a_deletion_can_not_be_taken_back(log, two):
    gone, _ = two
    with log.reading() as session:
        acts = session.connection().exec_driver_sql("SELECT DISTINCT act_id FROM changes").scalars().all()
    deletion.delete_member(log, gone.id, NAME)
    for act in acts:
        try:
            undo(log, act)
        except TidemarkError:
            continue
    assert NAME not in [each.name for each in people.members(log)]
    assert traces(log, NAME, NOTE) == []


def test_what_is_kept_in_memory_is_never_taken_for_the_log_after_a_deletion(log, two):
    gone, _ = two
    before = newest(log)
    deletion.delete_member(log, gone.id, NAME)
    assert newest(log) > before


@pytest.mark.parametrize("typed", ["", "Bo", "quillon vantreight", "Quillon"])
def test_another_name_deletes_nobody(log, two, typed):
    gone, _ = two
    with pytest.raises(BadInputError, match="name"):
        deletion.delete_member(log, gone.id, typed)
    assert len(people.members(log)) == 2


@pytest.mark.sqlite("are about SQLite's file")
def test_a_deletion_that_is_refused_deletes_nothing(log, two):
    gone, _ = two
    before = Path(log.url.database).read_bytes()
    shut = Log(database_url(f"sqlite:///file:{log.url.database}?mode=ro&uri=true"))
    with pytest.raises(ReadOnlyLogError):
        deletion.delete_member(shut, gone.id, NAME)
    shut.close()
    assert Path(log.url.database).read_bytes() == before


@pytest.mark.sqlite("are about SQLite's file")
def test_what_belongs_to_all_and_holds_the_name_is_named_and_so_are_the_copies(log, two):
    from tracker.desk.people import places

    gone, _ = two
    places.add_place(log, f"Garage of {NAME}", "kg")
    copy = Path(log.url.database).with_name("log-before-0001-20260301-101500.db")
    copy.write_bytes(Path(log.url.database).read_bytes())
    done = deletion.delete_member(log, gone.id, NAME)
    assert done.named == (f"places: Garage of {NAME}",)
    assert done.copies == (copy,)


def test_a_member_of_the_demo_is_deleted_with_waves_scores_and_clocks(demo_log):
    gone = people.members(demo_log)[0]
    counts = deletion.what_goes(demo_log, gone.id)
    assert {"sets", "sessions", "member_waves", "member_steps", "scores"} <= set(counts)
    done = deletion.delete_member(demo_log, gone.id, gone.name)
    assert done.sets == counts["sets"] > 100
    assert traces(demo_log, gone.id) == []
    assert check_log(address_of(demo_log)).ok


def test_a_last_export_holds_the_member_and_nobody_else(log, two):
    gone, stays = two
    with zipfile.ZipFile(io.BytesIO(take_away.of_member(log, gone))) as box:
        files = {name: list(csv.DictReader(io.StringIO(box.read(name).decode()))) for name in box.namelist()}
        text = "".join(box.read(name).decode() for name in box.namelist())
    assert len(files["sets.csv"]) == 7
    assert {row["member"] for row in files["sets.csv"]} == {NAME}
    assert [row["name"] for row in files["members.csv"]] == [NAME]
    assert stays.id not in text


def test_every_table_that_names_a_member_goes_with_the_member():
    for table in Base.metadata.sorted_tables:
        if table.name not in ("changes", "members") and "member_id" in table.columns:
            (key,) = table.columns["member_id"].foreign_keys
            assert key.ondelete == "CASCADE", table.name
