"""Every record is what the history says it is, the history is sealed entry by entry, and what is not so is told."""

from datetime import date

import pytest
from sqlalchemy import select, text, update

from tests.day import this_day
from tests.loads import kg
from tests.stores import address_of
from tests.taking_in import import_sets
from tests.undoing import undo_newest
from tracker.desk.base import backups
from tracker.desk.day import log_set
from tracker.desk.files import deletion
from tracker.desk.files.check import check_log
from tracker.desk.history import journal
from tracker.desk.people import people, places
from tracker.errors import TidemarkError
from tracker.log import chain, kit
from tracker.log.models import Change, LiftedSet, Member
from tracker.log.sets import NewSet, sets_of
from tracker.log.undo import undo
from tracker.log.unit_of_work import Log, OverwrittenError

DAY = date(2026, 3, 2)


@pytest.fixture
def bo(log):
    return people.add_member(log, "Bo")


def problems(log: Log) -> tuple[str, ...]:
    return check_log(address_of(log)).problems


def history(log: Log) -> list:
    with log.reading() as session:
        return list(session.connection().execute(select(chain.CHANGES).order_by(chain.CHANGES.c.number)))


def behind(log: Log, words: str, **values: object) -> None:
    """Change the database as nothing of ours would."""
    with log.engine.begin() as connection:
        connection.execute(text(words), values)


def bring(log: Log, tmp_path, rows: str) -> None:
    (tmp_path / "sets.csv").write_text(f"member,date,lift,load,unit,reps,place,body_mass\n{rows}")
    import_sets(log, tmp_path / "sets.csv", today=date(2026, 3, 30))


ROWS = "".join(
    f"{'Ana' if n % 2 else 'Cy'},2026-02-{1 + n // 4:02d},row,{60 + n},kg,{3 + n % 4},shed,\n" for n in range(12)
)


def test_each_entry_is_sealed_over_itself_and_the_one_before_it_of_the_same_member(log, ana, bo, squat):
    log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("80"), 5))
    log_set.log_set(log, bo.id, DAY, NewSet(squat.id, kg("60"), 5))
    log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("82.5"), 5))
    entries = history(log)
    heads: dict[str | None, str] = {}
    for entry in entries:
        assert entry.seal == chain.seal_of(heads.get(entry.member_id, ""), entry)
        heads[entry.member_id] = entry.seal or ""
    assert {ana.id, bo.id} <= heads.keys()
    assert [entry.number for entry in entries] == list(range(1, len(entries) + 1))
    assert problems(log) == ()


@pytest.mark.parametrize(
    "words",
    [
        "UPDATE sets SET load = '122.1'",
        "UPDATE sets SET reps = 4",
        "UPDATE sets SET note = 'felt heavy'",
        "UPDATE sets SET removed_at = logged_at",
        "UPDATE sessions SET day = '2026-03-03'",
        "UPDATE members SET unit = 'lb'",
        "DELETE FROM sets",
        "UPDATE changes SET act = 'logged something else' WHERE number = 3",
        "UPDATE changes SET at = '2026-01-01 00:00:00.000000' WHERE number = 3",
        "UPDATE changes SET member_id = NULL WHERE number = 3",
        "UPDATE changes SET undone_by = act_id WHERE number = 3",
        "UPDATE changes SET undoes = 'none' WHERE number = 4",
        "UPDATE changes SET seal = NULL WHERE number = 2",
        "UPDATE changes SET number = 99 WHERE number = 3",
        "DELETE FROM changes WHERE number = 2",
        "DELETE FROM changes",
    ],
)
def test_what_was_changed_past_the_program_is_told(log, ana, squat, words):
    log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("122.5"), 5))
    assert problems(log) == ()
    behind(log, words)
    assert problems(log) != ()


def test_a_change_past_the_program_is_not_hidden_by_a_later_mend(log, ana, squat):
    row = log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("122.5"), 5))
    behind(log, "UPDATE sets SET load = '122.1'")
    log_set.mend_set(log, row.id, NewSet(squat.id, kg("122.1"), 4))
    (told,) = problems(log)
    assert row.id in told
    assert "had changed before" in told


def newest_act_cut_out(log, member):
    """Take a member's newest act out with the set that it logged, and say nothing of it, as a slip in SQL would."""
    with log.engine.begin() as connection:
        query = select(chain.CHANGES).where(chain.CHANGES.c.member_id == member.id).order_by(chain.CHANGES.c.number)
        newest = connection.execute(query).all()[-1]
        of_act = [each for each in connection.execute(query) if each.act_id == newest.act_id]
        for each in of_act:
            connection.execute(text("DELETE FROM changes WHERE number = :which"), {"which": each.number})
            if each.before is None:
                connection.execute(text(f"DELETE FROM {each.record} WHERE id = :which"), {"which": each.record_id})
    return len(of_act)


def cut_and_told(log, member):
    before = problems(log)
    cut = newest_act_cut_out(log, member)
    told = set(problems(log)) - set(before)
    assert told == {f"changes: {cut} that the log held {'is' if cut == 1 else 'are'} missing"}


def test_an_act_that_was_cut_out_with_its_record_is_told(log, ana, bo, squat):
    log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("80"), 5))
    log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("82.5"), 5))
    log_set.log_set(log, bo.id, DAY, NewSet(squat.id, kg("60"), 5))
    assert problems(log) == ()
    cut_and_told(log, ana)


@pytest.mark.parametrize("later", [False, True])
def test_the_newest_act_of_all_that_was_cut_out_with_its_record_is_told(log, ana, bo, squat, later):
    log_set.log_set(log, bo.id, DAY, NewSet(squat.id, kg("60"), 5))
    log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("80"), 5))
    log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("82.5"), 5))
    cut_and_told(log, ana)
    if later:  # what is written next does not hide it
        told, again = problems(log), Log(log.url)
        log_set.log_set(again, bo.id, DAY, NewSet(squat.id, kg("61"), 5))
        deletion.delete_member(again, ana.id, "Ana")
        log_set.log_set(again, bo.id, DAY, NewSet(squat.id, kg("62"), 5))
        again.close()
        assert problems(log) == told


def test_numbers_that_went_with_a_deleted_member_are_not_missed(log, ana, bo, squat):
    for load in ("80", "82.5"):
        log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg(load), 5))
        log_set.log_set(log, bo.id, DAY, NewSet(squat.id, kg(load), 5))
    deletion.delete_member(log, ana.id, "Ana")
    assert problems(log) == ()
    log_set.log_set(log, bo.id, DAY, NewSet(squat.id, kg("60"), 5))
    undo_newest(log, bo.id)
    log_set.log_set(log, bo.id, DAY, NewSet(squat.id, kg("61"), 5))
    assert problems(log) == ()
    cut_and_told(log, bo)


def test_a_head_of_before_a_deletion_by_an_earlier_program_counts_for_nothing(log, ana, bo, squat):
    log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("80"), 5))
    with log.reading() as session:
        (kept,) = session.connection().execute(text("SELECT value FROM log_facts WHERE key = 'history'")).one()
    deletion.delete_member(log, ana.id, "Ana")
    behind(log, "UPDATE log_facts SET value = :kept WHERE key = 'history'", kept=kept)
    assert problems(log) == ()
    log_set.log_set(log, bo.id, DAY, NewSet(squat.id, kg("61"), 5))
    assert problems(log) == ()
    cut_and_told(log, bo)


def test_a_head_that_can_not_be_read_is_told(log, ana):
    behind(log, "UPDATE log_facts SET value = 'nonsense' WHERE key = 'history'")
    assert problems(log) == ("log_facts, history: a value that can't be read",)
    people.add_member(log, "Cy")
    assert problems(log) == ()


def test_undo_is_sealed_and_names_what_it_took_back(log, ana, squat):
    log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("80"), 5))
    with log.reading() as session:
        act = session.scalars(select(Change).where(Change.record == "sets")).one().act_id
    undo_newest(log, ana.id)
    taken = [entry for entry in history(log) if entry.act_id == act]
    undoing = [entry for entry in history(log) if entry.undoes == act]
    assert {entry.undone_by for entry in taken} == {entry.act_id for entry in undoing}
    assert problems(log) == ()
    behind(log, "UPDATE changes SET undone_by = NULL")
    assert problems(log) != ()


def test_an_undoing_that_finds_nothing_to_write_leaves_an_entry_all_the_same(log, ana, squat):
    row = log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("80"), 5))
    with log.act("began a day", ana.id) as act:
        from tracker.log.sessions import session_on

        session_on(act, ana.id, date(2026, 3, 4))
    with log.reading() as session:
        began = session.scalars(select(Change).order_by(Change.number.desc())).first().act_id
    log_set.log_set(log, ana.id, date(2026, 3, 4), NewSet(squat.id, kg("60"), 5))
    undo(log, began)  # the day has a set by now, so it stays
    assert problems(log) == ()
    assert undo_newest(log, ana.id).endswith("5 x 60 kg")
    with log.reading() as session:
        assert [each.id for each in sets_of(session, ana.id)] == [row.id]


@pytest.mark.parametrize(
    "words",
    [
        "UPDATE sets SET load = '61.5' WHERE load = '61'",
        "UPDATE sets SET reps = reps + 1 WHERE load = '64'",
        "UPDATE sets SET note = 'x' WHERE load = '65'",
        "UPDATE sessions SET label = 'x' WHERE day = '2026-02-01'",
        "UPDATE members SET name = 'Cyr' WHERE name = 'Cy'",
        "UPDATE lifts SET name = 'rows' WHERE name = 'row'",
        "UPDATE places SET name = 'barn'",
        "DELETE FROM sets WHERE load = '67'",
        "UPDATE body_masses SET mass = '81'",
    ],
)
def test_what_an_import_brought_is_held_to_its_digests(log, ana, tmp_path, words):
    bring(log, tmp_path, f"{ROWS}Cy,2026-02-20,pull-up,5,kg,5,shed,80\n")
    people.weigh(log, ana.id, DAY, kg("70"))
    assert problems(log) == ()
    behind(log, words)
    assert problems(log) != ()


def test_what_an_import_brought_may_be_mended_moved_removed_and_taken_back(log, ana, bo, tmp_path):
    bring(log, tmp_path, ROWS)
    with log.reading() as session:
        rows = {str(row.load.amount): row for row in sets_of(session, ana.id)}
    log_set.mend_set(log, rows["61"].id, NewSet(rows["61"].lift.id, kg("61"), 9))
    log_set.remove_set(log, rows["63"].id, today=this_day())
    journal.move_session(log, rows["69"].session_id, bo.id, date(2026, 2, 3), today=this_day())
    assert problems(log) == ()
    for _ in range(2):
        undo_newest(log, ana.id)
    assert problems(log) == ()
    undo_newest(log, ana.id)
    assert problems(log) == ()
    log_set.log_set(log, ana.id, date(2026, 2, 1), NewSet(rows["61"].lift.id, kg("90"), 5))  # in a day that it brought
    with log.reading() as session:
        brought = session.scalars(select(Change).where(Change.record == "imports")).first().act_id
    undo(log, brought)
    assert problems(log) == ()
    with log.reading() as session:
        assert [str(row.load.amount) for row in sets_of(session, ana.id)] == ["90"]


def _bar_of(log: Log, member_id: str) -> str | None:
    found = people.member(log, member_id)
    assert found is not None
    return found.bar_id


def test_what_the_database_itself_empties_stands_in_the_history_and_comes_back(log, ana):
    hall = places.add_place(log, "hall", "kg")
    bar = next(item for item in hall.items if item.kind == "bar")
    with log.act("chose a bar", ana.id) as act:
        act.session.get_one(Member, ana.id).bar_id = bar.id
    with log.act("changed the kit") as act:
        kit.change_place(
            act, hall.id, name="hall", unit="kg", pins=True, items=[item for item in hall.items if item.id != bar.id]
        )
    assert _bar_of(log, ana.id) is None
    assert problems(log) == ()
    with log.reading() as session:
        changed = session.scalars(select(Change).order_by(Change.number.desc())).first().act_id
    undo(log, changed)
    assert _bar_of(log, ana.id) == bar.id
    assert problems(log) == ()


@pytest.fixture
def shared(log, ana, bo, squat, tmp_path):
    """A log in which two members' histories hang together."""
    bring(log, tmp_path, f"{ROWS}Cy,2026-02-20,pull-up,5,kg,5,shed,80\n")
    log_set.log_set(log, bo.id, DAY, NewSet(squat.id, kg("60"), 5, note="with Ana"))
    mine = log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("80"), 5))
    journal.move_session(log, mine.session_id, bo.id, date(2026, 3, 5), today=this_day())
    log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("82.5"), 5))
    places.add_place(log, "Ana's garage", "kg")
    log_set.log_set(log, bo.id, DAY, NewSet(squat.id, kg("70"), 5))
    undo_newest(log, bo.id)
    return log


def test_a_deleted_member_takes_the_chain_along_and_the_others_hold(shared, ana, bo):
    assert problems(shared) == ()
    deletion.delete_member(shared, ana.id, "Ana")
    assert problems(shared) == ()
    entries = history(shared)
    assert not any(ana.id in repr((entry.member_id, entry.record_id, entry.before, entry.after)) for entry in entries)
    told = next(entry for entry in entries if entry.act == "deleted a member")
    assert bo.id in told.after["sealed_anew"]
    cy = next(each for each in people.members(shared) if each.name == "Cy")
    deletion.delete_member(shared, cy.id, "Cy")
    assert problems(shared) == ()
    behind(shared, "UPDATE sets SET load = '60.5' WHERE load = '60'")
    assert problems(shared) != ()


@pytest.mark.parametrize(
    "words",
    [
        "UPDATE sets SET load = '60.5' WHERE load = '60'",
        "UPDATE sets SET load = '80.5' WHERE load = '80'",
        "UPDATE changes SET act = 'logged nothing' WHERE act LIKE 'logged back squat, barbell: 5 x 60 kg'",
    ],
)
def test_damage_that_was_there_is_not_hidden_by_deleting_a_member(shared, ana, words):
    behind(shared, words)
    before = problems(shared)
    assert before
    deletion.delete_member(shared, ana.id, "Ana")
    assert problems(shared)


@pytest.mark.sqlite("are about SQLite's file")
def test_a_changed_set_is_not_sealed_into_a_copy(log, ana, squat):
    log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("122.5"), 5))
    backups.make(log)
    behind(log, "UPDATE sets SET load = '122.1'")
    with pytest.raises(TidemarkError, match="not as the history says"):
        backups.make(log)
    assert len(backups.kept(log)) == 1


def test_a_set_that_vanished_under_an_open_log_is_told_at_the_next_touch(log, ana, squat):
    log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("80"), 5))
    with log.engine.begin() as connection:  # as a file of before would look that was put in place
        number = connection.scalar(select(chain.func.max(Change.number)))
        connection.execute(text("DELETE FROM changes WHERE number = :number"), {"number": number})
        connection.execute(text("DELETE FROM sets"))
    for _ in range(2):
        with pytest.raises(OverwrittenError, match="Nothing was saved"):
            log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("85"), 5))
    with log.reading() as session:
        assert sets_of(session, ana.id) == ()
    again = Log(log.url)
    log_set.log_set(again, ana.id, DAY, NewSet(squat.id, kg("85"), 5))
    again.close()


def test_another_entry_of_the_same_number_is_told(log, ana, squat):
    log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("80"), 5))
    with log.engine.begin() as connection:
        newest = chain.newest(connection)
        assert newest is not None
        connection.execute(update(Change).where(Change.number == newest.number).values(seal="0" * 64))
    with pytest.raises(OverwrittenError):
        log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("85"), 5))


def test_a_member_who_was_deleted_elsewhere_is_no_overwriting(log, ana, bo, squat):
    log_set.log_set(log, ana.id, DAY, NewSet(squat.id, kg("80"), 5))
    other = Log(log.url)
    deletion.delete_member(other, ana.id, "Ana")
    other.close()
    log_set.log_set(log, bo.id, DAY, NewSet(squat.id, kg("85"), 5))
    with log.reading() as session:
        assert session.query(LiftedSet).count() == 1
