"""Files into the log: nothing twice, nothing back unasked, all or nothing, and taken back in one act."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from sqlalchemy import text
from sqlalchemy.exc import IntegrityError

from tests.day import this_day
from tests.readings import newest
from tests.taking_in import HEADING, TODAY, TWO, bring, counts
from tests.undoing import undo_newest
from tracker.desk.day import log_set
from tracker.desk.day.log_set import as_new
from tracker.desk.files.export import export
from tracker.desk.maxes.maxes import answer, histories_of_file, histories_of_log
from tracker.desk.people import people
from tracker.errors import BadInputError
from tracker.exchange.sets_csv import read_sets
from tracker.log import members as log_members
from tracker.log.models import Change
from tracker.log.sets import NewSet, sets_of
from tracker.log.undo import undo
from tracker.log.unit_of_work import ChangedSinceError
from tracker.units import Mass

OWN_FORM = f"""{HEADING}
Ana,2026-03-02,"push press, barbell",40,kg,5,2,done,work
Ana,2026-03-03,Push press (barbell),40,kg,5,2,done,work
Ana,2026-03-04,"push press, barbell",42.5,kg,3,,done,test
"""


def rows(log, name="Ana"):
    found = next(each for each in people.members(log) if each.name == name)
    with log.reading() as session:
        return sets_of(session, found.id)


def newest_act(log):
    with log.reading() as session:
        return session.query(Change).order_by(Change.number.desc()).first().act_id


@pytest.mark.parametrize("there", [True, False])
def test_a_lift_in_our_own_words_comes_back_as_that_lift(log, file, there):
    """ "push press, barbell" became a second lift of that name whose implement was asked for."""
    known = people.add_lift(log, "push press", "barbell") if there else None
    path = file(OWN_FORM)
    bring(log, path)
    (lift,) = people.lifts(log)
    assert (lift.name.lower(), lift.implement, lift.title.lower()) == ("push press", "barbell", "push press, barbell")
    assert known is None or lift.id == known.id
    assert bring(log, path).added == 0
    assert {row.lift.id for row in rows(log)} == {lift.id}


def test_sets_that_came_under_the_former_reading_do_not_come_twice(log, file):
    """A log that kept such a name as it stood has the sets there, whatever has been added since."""
    member = people.add_member(log, "Ana")
    with log.act("as it was read before") as act:
        former = log_members.add_lift(act, "push press, barbell", "unasked")
    done = NewSet(former.id, Mass(Decimal(40), "kg"), 5, rir=Decimal(2))
    log_set.log_set(log, member.id, date(2026, 3, 2), done, sure=True)
    one = file("\n".join(OWN_FORM.splitlines()[:2]) + "\n")
    assert bring(log, one).added == 0
    proper = people.add_lift(log, "push press", "barbell")
    assert bring(log, one).added == 0
    bring(log, file(OWN_FORM.replace("2026-03-0", "2026-04-0")))
    assert {row.lift.id for row in rows(log) if row.day.month == 4} == {proper.id}


@pytest.mark.parametrize("implement", ["body", "other"])
def test_a_lift_that_is_written_without_its_implement_comes_back_as_it(log, file, implement):
    known = people.add_lift(log, "rope climb", implement)
    people.add_lift(log, "rope climb", "machine")  # is written with it
    member = people.add_member(log, "Ana")
    people.weigh(log, member.id, date(2026, 3, 1), Mass(Decimal(70), "kg"))
    bring(log, file(f"{HEADING}\nAna,2026-03-02,rope climb,5,kg,3,,done,work\n"))
    assert {row.lift.id for row in rows(log)} == {known.id}
    bring(log, file(f"{HEADING}\nBo,2026-03-02,rope climb,5,kg,3,,done,work\n"))  # whose body mass nobody knows
    assert {row.lift.implement for row in rows(log, "Bo")} == {"other" if implement == "other" else "unasked"}


def test_rows_become_sets_in_their_order(log, file):
    done = bring(log, file())
    assert (done.rows, done.added, done.known, done.members, done.lifts) == (2, 2, 0, ("Ana",), ("front squat",))
    first, second = rows(log)
    assert (first.day, str(first.load), first.reps, first.rir, first.outcome, first.kind) == (
        date(2026, 3, 2),
        "80 kg",
        5,
        2,
        "done",
        "work",
    )
    assert (str(second.load.amount), second.rir, second.outcome, second.kind) == ("82.50", None, "missed", "test")
    assert (first.position, second.position, first.session_id) == (0, 1, second.session_id)
    assert first.lift.implement == "unasked"


def test_the_order_column_decides_where_it_is_given(log, file):
    content = (
        "date,lift,load,unit,reps,order\n2026-03-02,row,60,kg,5,2\n2026-03-02,row,50,kg,5,1\n2026-03-02,row,70,kg,5,3\n"
    )
    bring(log, file(content), member="Ana")
    assert [int(row.load.amount) for row in rows(log)] == [50, 60, 70]


def test_new_sets_go_after_those_of_the_day(log, file):
    ana = people.add_member(log, "Ana")
    row = people.add_lift(log, "row", "barbell")
    log_set.log_set(log, ana.id, date(2026, 3, 2), NewSet(row.id, Mass(Decimal(40), "kg"), 5))
    bring(log, file())
    assert [each.position for each in rows(log)] == [0, 1, 2]
    assert counts(log)["sessions"] == 1


def test_a_file_imported_twice_adds_nothing_and_changes_nothing(log, file):
    bring(log, file())
    before = newest(log)
    assert bring(log, file()).added == 0
    assert newest(log) == before


def test_equal_rows_are_so_many_sets_and_only_what_is_more_is_added(log, file):
    line = "Ana,2026-03-02,front squat,80,kg,5,2,done,work\n"
    assert bring(log, file(f"{HEADING}\n{line * 3}")).added == 3
    assert bring(log, file(f"{HEADING}\n{line * 2}")).added == 0
    assert bring(log, file(f"{HEADING}\n{line * 5}")).added == 2
    assert len(rows(log)) == 5


def test_written_otherwise_it_is_the_same_set(log, file):
    bring(log, file())
    same = (
        TWO.replace("80,kg", "80.0,KG")
        .replace("82.50", "82.5")
        .replace("Ana", " ana ")
        .replace("front squat", "Front  Squat")
    )
    assert bring(log, file(same)).added == 0
    assert bring(log, file(TWO.replace("80,kg", "176.37,lb"))).added == 1  # another number is another set


def test_what_was_mended_removed_or_moved_by_hand_does_not_come_back(log, file):
    third = "Ana,2026-03-03,front squat,84,kg,3,1,done,work\n"
    bring(log, file(TWO + third))
    ben = people.add_member(log, "Ben")
    first, second, moved = rows(log)
    log_set.mend_set(log, first.id, NewSet(first.lift.id, Mass(Decimal(85), "kg"), 5), sure=True)
    log_set.remove_set(log, second.id, today=this_day())
    log_set.move_set(log, moved.id, ben.id, today=this_day())
    assert bring(log, file(TWO + third)).added == 0
    assert [str(row.load) for row in rows(log)] == ["85 kg"]


def test_the_mended_set_is_known_from_an_export_too(log, file, tmp_path):
    bring(log, file())
    first, second = rows(log)
    log_set.mend_set(log, first.id, NewSet(first.lift.id, Mass(Decimal(85), "kg"), 5), sure=True)
    log_set.remove_set(log, second.id, today=this_day())
    export(log, tmp_path / "out")
    assert bring(log, tmp_path / "out" / "sets.csv").added == 0


def test_rows_that_name_nobody_are_mine_or_the_named_members(log, file):
    nameless = TWO.replace("member,", "", 1).replace("Ana,", "")
    assert bring(log, file(nameless)).members == ("me",)
    assert bring(log, file(nameless), member="Cem").members == ("Cem",)
    assert bring(log, file(TWO + ",2026-03-04,row,50,kg,5,,,\n"), member="Cem").added == 3
    assert {member.name for member in people.members(log)} == {"me", "Cem", "Ana"}
    assert len(rows(log, "Cem")) == 3
    with pytest.raises(BadInputError, match="empty"):
        bring(log, file(nameless), member=" ")


def test_with_nobody_to_take_them_every_row_must_name_its_member(log, file):
    assert bring(log, file(TWO), member="").added == 2
    nameless = "date,lift,load,unit,reps\n2026-03-02,row,60,kg,5\n"
    with pytest.raises(BadInputError, match="rows that name no member"):
        bring(log, file(nameless), member="")


def test_a_new_member_prefers_the_unit_of_the_file(log, file):
    bring(log, file(TWO.replace("kg", "lb")))
    assert people.members(log)[0].unit == "lb"


def test_the_implement_column_tells_two_histories_apart(log, file):
    content = "date,lift,load,unit,reps,implement,per side\n2026-03-02,press,20,kg,5,dumbbells,yes\n2026-03-02,press,50,kg,5,Barbell,\n2026-03-02,press,45,kg,5,,\n"
    bring(log, file(content), member="Ana")
    found = {lift.implement: lift for lift in people.lifts(log)}
    assert set(found) == {"dumbbells", "barbell", "unasked"}
    assert (found["dumbbells"].implements, found["dumbbells"].per_side) == (2, True)
    assert found["barbell"].spotted


def test_a_lift_that_was_told_its_implement_since_is_still_known(log, file):
    bring(log, file())
    people.say_implement(log, people.lifts(log)[0].id, "barbell")
    assert bring(log, file()).added == 0
    more = TWO + "Ana,2026-03-09,front squat,85,kg,5,1,done,work\n"
    assert bring(log, file(more)).added == 1
    assert [lift.implement for lift in people.lifts(log)] == ["barbell"]


def test_session_place_and_note_come_along(log, file):
    content = (
        f'{HEADING},session,place,note,left out\nAna,2026-03-02,row,50,kg,5,,,,evening,garage,"one\ntwo",wrong plates\n'
    )
    assert bring(log, file(content)).places == ("garage",)
    row = rows(log)[0]
    assert (row.note, row.left_out) == ("one\ntwo", "wrong plates")
    with log.reading() as session:
        assert session.execute(text("SELECT label, name FROM sessions JOIN places ON place_id = places.id")).one() == (
            "evening",
            "garage",
        )


def test_dated_body_mass_is_kept_where_it_is_news(log, file):
    head = "member,date,lift,load,unit,reps,rir,body_mass\n"
    days = [("2026-03-02", 80), ("2026-03-09", 80), ("2026-03-16", 81.5)]
    bring(log, file(head + "".join(f"Ana,{day},pull-up,10,kg,5,1,{mass}\n" for day, mass in days)))
    ana = people.members(log)[0]
    assert [(day.isoformat(), str(mass)) for day, mass in people.body_masses(log, ana.id)] == [
        ("2026-03-02", "80 kg"),
        ("2026-03-16", "81.5 kg"),
    ]
    assert people.lifts(log)[0].body
    without = head + "Ana,2026-03-20,pull-up,12,kg,5,1,\n"
    bring(log, file(without))
    assert rows(log)[-1].body_mass == Mass(Decimal("81.5"), "kg")
    assert bring(log, file(without)).added == 0


def test_a_lift_of_the_body_without_any_body_mass_is_refused(log, file):
    people.add_lift(log, "dip", "body")
    with pytest.raises(BadInputError, match=r"sets\.csv, line 2, body mass"):
        bring(log, file("date,lift,load,unit,reps,implement\n2026-03-02,dip,5,kg,5,body\n"))
    assert counts(log)["members"] == 0


def test_a_member_who_was_removed_does_not_come_back(log, file):
    bring(log, file())
    with log.act("removes") as act:
        act.session.execute(text("UPDATE members SET removed_at = '2026-03-03 00:00:00.000000'"))
    with pytest.raises(BadInputError, match=r"sets\.csv, line 2, member: Ana was removed"):
        bring(log, file(TWO + "Ben,2026-03-02,row,50,kg,5,,,\n"))
    assert counts(log)["sets"] == 2


def test_file_and_log_give_the_same_estimate(log, file):
    content = (
        f"{HEADING},body_mass\n"
        + "".join(
            f"Ana,2026-0{month}-05,front squat,{70 + 2 * month},kg,5,{month % 3},done,work,\n" for month in range(1, 9)
        )
        + "".join(f"Ben,2026-0{month}-05,pull-up,{month},kg,5,1,done,work,{80 + month}\n" for month in range(1, 9))
    )
    path = file(content)
    bring(log, path)
    of_file = [answer(each, trend=True) for each in histories_of_file(read_sets(path, today=TODAY).rows)]
    of_log = [answer(each, trend=True) for each in histories_of_log(log, people.members(log))]
    assert of_file == of_log


# Taking an import back


def test_one_undo_takes_the_whole_import_back(log, file):
    empty = counts(log)
    bring(
        log,
        file(f"{HEADING},body_mass,place\nAna,2026-03-02,dip,5,kg,5,2,,,80,gym\nBen,2026-03-02,row,50,kg,5,2,,,,\n"),
    )
    assert undo_newest(log, people.members(log)[0].id) == "imported sets from sets.csv"
    assert counts(log) == empty
    assert bring(log, file()).added == 2


def test_undo_of_an_import_leaves_what_was_there(log, file):
    bring(log, file())
    before = counts(log)
    bring(log, file(TWO + "Ana,2026-03-09,front squat,85,kg,5,1,done,work\nAna,2026-03-02,row,50,kg,5,,,\n"))
    undo(log, newest_act(log))
    assert counts(log) == before


def test_undo_of_an_import_keeps_the_member_who_has_logged_since(log, file):
    bring(log, file())
    ana, lift = people.members(log)[0], people.lifts(log)[0]
    act = newest_act(log)
    log_set.log_set(log, ana.id, date(2026, 3, 2), NewSet(lift.id, Mass(Decimal(80), "kg"), 5), sure=True)
    undo(log, act)
    assert [row.position for row in rows(log)] == [2]
    assert counts(log) | {"sets": 1, "sessions": 1, "members": 1, "lifts": 1} == counts(log)


def test_an_import_of_which_a_set_was_changed_is_not_taken_back(log, file):
    bring(log, file())
    act = newest_act(log)
    log_set.remove_set(log, rows(log)[0].id, today=this_day())
    with pytest.raises(ChangedSinceError):
        undo(log, act)
    assert len(rows(log)) == 1
    undo_newest(log, people.members(log)[0].id)
    undo(log, act)
    assert counts(log)["sets"] == 0


def test_the_checks_of_the_tables_hold_again_after_an_import(log, file):
    bring(log, file())
    with pytest.raises(IntegrityError, match=r"(?i)check"), log.act("breaks") as act:
        act.session.execute(text("UPDATE sets SET unit = 'st'"))


def test_as_new_keeps_what_an_import_brought(log, file):
    bring(log, file())
    row = rows(log)[0]
    assert log_set.mend_set(log, row.id, as_new(row)) == row
