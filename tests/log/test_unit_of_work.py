"""One act is one transaction; its former state is kept and can be taken back."""

from datetime import date
from decimal import Decimal

import pytest
from sqlalchemy import select, text

from tests.day import this_day
from tests.loads import kg
from tests.readings import newest as newest_entry
from tests.undoing import undo_newest
from tracker.desk.day import log_set
from tracker.desk.people import people
from tracker.errors import TidemarkError
from tracker.log import members as log_members
from tracker.log.engine import database_url, wal_is_safe
from tracker.log.faults import ThereAlreadyError
from tracker.log.models import Change
from tracker.log.sets import NewSet, add_set, one_set, sets_of
from tracker.log.undo import NothingToUndoError, undo
from tracker.log.unit_of_work import ChangedSinceError, Log
from tracker.units import Mass

DAY = date(2026, 3, 2)


def test_a_touch_that_came_twice_is_told_by_an_error_of_the_log_and_saved_once(log, ana, squat, monkeypatch):
    one = NewSet(squat.id, kg("60"), 5)
    first = log_set.log_set(log, ana.id, DAY, one, sure=True, token="touch")
    with pytest.raises(ThereAlreadyError, match=r"same at the same moment.*Nothing was saved"), log.act("again") as act:
        add_set(act, ana.id, DAY, one, token="touch", place_id=None)
    looks = iter([None, first])  # both touches looked for the set before either had written it
    monkeypatch.setattr("tracker.desk.day.log_set.log_sets.set_with_token", lambda *_: next(looks))
    assert log_set.log_set(log, ana.id, DAY, one, sure=True, token="touch") == first
    with log.reading() as session:
        assert [row.id for row in sets_of(session, ana.id)] == [first.id]


LONG = "press of the seventh mill wheel from the left, " * 4 + "with a pause"  # 200 letters


def test_a_lift_of_the_longest_name_is_logged_mended_and_taken_back(log, ana):
    """The words of such acts were longer than their column, which PostgreSQL refuses."""
    assert len(LONG) == 200
    lift = people.add_lift(log, LONG, "barbell")
    row = log_set.log_set(log, ana.id, DAY, NewSet(lift.id, kg("60"), 5), sure=True)
    log_set.mend_set(log, row.id, NewSet(lift.id, kg("62.5"), 5), sure=True)
    words = undo(log, newest(log).act_id)
    assert 180 < len(words) <= 200
    assert newest(log).act.startswith("undid: ")
    with log.reading() as session:
        assert str(one_set(session, row.id).load) == "60 kg"


def test_words_of_an_act_that_are_too_long_are_cut_at_a_word_and_it_is_seen(log):
    with log.act("moved " + "a wheel and " * 30) as act:
        log_members.add_member(act, "Bo", "kg")
    words = newest(log).act
    assert len(words) <= 200
    assert words.endswith(" wheel and…")
    with log.act("y" * 300) as act:
        log_members.add_member(act, "Cem", "kg")
    assert newest(log).act == "y" * 199 + "…"


def test_words_that_another_is_told_are_cut_at_a_word_too(log):
    with log.act("added two") as act:
        members = [log_members.add_member(act, name, "kg") for name in ("Bo", "Cem")]
    with log.act("changed both", members[0].id) as act:
        log_members.change_member(act, members[0].id, alone=True)
        act.tell(members[1].id, "was given " + "a wheel and " * 30)
    with log.reading() as session:
        words = session.scalars(select(Change.act).where(Change.member_id == members[1].id)).one()
    assert len(words) <= 200
    assert words.endswith(" a wheel…")


def newest(log):
    with log.reading() as session:
        return session.execute(select(Change.act_id, Change.act).order_by(Change.number.desc())).first()


@pytest.mark.sqlite("are about SQLite's file")
def test_settings_of_every_connection(log):
    with log.reading() as session:
        assert session.execute(text("PRAGMA foreign_keys")).scalar() == 1
        assert (
            session.execute(text("PRAGMA synchronous")).scalar() == 3
        )  # EXTRA: the commit itself survives a loss of power
        assert session.execute(text("PRAGMA busy_timeout")).scalar() == 10_000
        assert session.execute(text("PRAGMA journal_mode")).scalar() == ("wal" if wal_is_safe() else "delete")


@pytest.mark.parametrize(
    ("version", "safe"),
    [
        ((3, 40, 1), False),
        ((3, 44, 5), False),
        ((3, 44, 6), True),
        ((3, 50, 7), True),
        ((3, 51, 2), False),
        ((3, 51, 3), True),
        ((3, 52, 0), False),
        ((3, 53, 0), True),
    ],
)
def test_wal_only_where_its_fault_is_mended(version, safe):
    # SQLite's release notes: the WAL-reset fault is mended in 3.51.3 and 3.53.0, back-ported to 3.44.6 and 3.50.7; 3.52.0 was withdrawn.
    assert wal_is_safe(version) is safe


def _break_half_way(log, member, lift):
    from tracker.log.sets import add_set

    with log.act("breaks", member.id) as act:
        add_set(act, member.id, DAY, NewSet(lift.id, kg("80"), 5))
        raise RuntimeError


def test_an_act_that_fails_leaves_nothing(log, ana, squat):
    before = newest_entry(log)
    with pytest.raises(RuntimeError):
        _break_half_way(log, ana, squat)
    with log.reading() as session:
        assert sets_of(session, ana.id) == ()
    assert newest_entry(log) == before


def test_undo_of_a_logged_set_takes_set_and_session_away(log, ana, squat):
    log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("80"), 5))
    assert undo_newest(log, ana.id) == "logged back squat, barbell: 5 x 80 kg"
    with log.reading() as session:
        assert sets_of(session, ana.id, removed=True) == ()
        assert session.execute(text("SELECT count(*) FROM sessions")).scalar() == 0


def test_undo_of_a_mend_brings_every_value_back(log, ana, squat):
    row = log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("82.50"), 5, rir=Decimal("1.5"), note="felt light"))
    log_set.mend_set(log, row.id, NewSet(squat.id, Mass(Decimal("185"), "lb"), 3, outcome="missed"))
    undo_newest(log, ana.id)
    with log.reading() as session:
        assert one_set(session, row.id) == row


def test_undo_of_a_removal_brings_the_set_back(log, ana, squat):
    row = log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("80"), 5))
    log_set.remove_set(log, row.id, today=this_day())
    with log.reading() as session:
        assert sets_of(session, ana.id) == ()
    undo_newest(log, ana.id)
    with log.reading() as session:
        assert sets_of(session, ana.id) == (row,)


def test_undo_walks_back_act_by_act_and_then_says_so(log, ana, squat):
    for load in ("60", "70"):
        log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg(load), 5))
    assert "70 kg" in undo_newest(log, ana.id)
    assert "60 kg" in undo_newest(log, ana.id)
    assert undo_newest(log, ana.id) == "added the member Ana"
    with pytest.raises(NothingToUndoError):
        undo_newest(log, ana.id)


def test_an_act_that_was_built_upon_is_not_taken_back(log, ana, squat):
    row = log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("80"), 5))
    with log.reading() as session:
        first = session.query(Change).order_by(Change.number.desc()).first().act_id
    log_set.mend_set(log, row.id, NewSet(squat.id, kg("85"), 5))
    with pytest.raises(ChangedSinceError):
        undo(log, first)
    with log.reading() as session:
        assert one_set(session, row.id).load == kg("85")


def test_undoing_the_set_that_began_the_day_leaves_the_sets_after_it(log, ana, squat):
    first = log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("80"), 5))
    second = log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("85"), 5))
    with log.reading() as session:
        act = session.query(Change).filter(Change.record_id == first.id).one().act_id
    assert undo(log, act) == "logged back squat, barbell: 5 x 80 kg"
    with log.reading() as session:
        assert sets_of(session, ana.id) == (second,)


def test_undoing_what_later_records_hang_on_is_refused(log, squat):
    bo = people.add_member(log, "Bo")
    log_set.log_set(log, bo.id, DAY, NewSet(squat.id, kg("80"), 5))
    with log.reading() as session:
        act = session.query(Change).filter(Change.record_id == bo.id).one().act_id
    with pytest.raises(ChangedSinceError, match="member"):
        undo(log, act)
    with log.reading() as session:
        assert len(sets_of(session, bo.id)) == 1


def test_an_act_of_an_older_version_is_taken_back_although_its_table_has_grown(log, ana, squat):
    row = log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("80"), 5))
    log_set.mend_set(log, row.id, NewSet(squat.id, kg("85"), 5))
    with log.act("as if written before there were notes") as act:
        for change in act.session.query(Change).filter(Change.record == "sets"):
            change.before, change.after = (
                each and {k: v for k, v in each.items() if k != "note"} for each in (change.before, change.after)
            )
    undo_newest(log, ana.id)
    with log.reading() as session:
        assert one_set(session, row.id) == row


def test_the_same_tap_twice_is_one_set(log, ana, squat):
    new = NewSet(squat.id, kg("80"), 5)
    first = log_set.log_set(log, ana.id, DAY, new, token="tap-1")
    assert log_set.log_set(log, ana.id, DAY, new, token="tap-1") == first
    with log.reading() as session:
        assert len(sets_of(session, ana.id)) == 1


def test_the_newest_entry_is_a_later_one_after_each_act(log, ana, squat):
    before = newest_entry(log)
    log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("80"), 5))
    assert newest_entry(log) > before


def test_loads_stay_as_typed(log, ana, squat):
    row = log_set.log_set(log, ana.id, DAY, NewSet(squat.id, Mass(Decimal("187.50"), "lb"), 5))
    assert str(row.load.amount) == "187.50"
    assert row.load.unit == "lb"
    assert row.load.kg == Decimal("187.50") * Decimal("0.45359237")


@pytest.mark.sqlite("are about SQLite's file")
def test_a_held_lock_is_told_in_words(tmp_path, monkeypatch):
    import sqlite3

    monkeypatch.setattr("tracker.log.engine.BUSY_TIMEOUT_MS", 50)
    log = Log(database_url(str(tmp_path / "held.db")))
    other = sqlite3.connect(tmp_path / "held.db", isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    with pytest.raises(TidemarkError, match="busy"):
        people.add_member(log, "Ana")
    other.execute("ROLLBACK")
    assert people.add_member(log, "Ana").name == "Ana"
    other.close()
    log.close()
