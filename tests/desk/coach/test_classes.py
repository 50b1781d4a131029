"""A session handed to a class in one act, also to who keeps their log to themselves; and who did it."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from tests.day import this_day
from tests.loads import kg
from tracker.desk.coach import classes, hand_out, who_did
from tracker.desk.day import log_set, today
from tracker.desk.files.check import check_log
from tracker.desk.history import journal
from tracker.desk.people import accounts, groups, people, roster
from tracker.errors import BadInputError
from tracker.exchange.roster import read_roster
from tracker.log.sets import NewSet
from tracker.log.who import Who, acting

SHEET = "Title: Tide\nFront squat\n2 x 3 @ 60 kg\n"
OTHER = "Title: Tide\nFront squat, dumbbells\n2 x 8 @ 15 kg\n"
COACH = Who("coach", None, "Jo", "c" * 32)


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("Mon 18:00, Thu 18:00", ((0, "18:00"), (3, "18:00"))),
        ("mon thu 6.30pm; sat 9am", ((0, "18:30"), (3, "18:30"), (5, "09:00"))),
        ("Tuesdays and Fridays 7:15 17:15", ((1, "07:15"), (1, "17:15"), (4, "07:15"), (4, "17:15"))),
        ("", ()),
    ],
)
def test_times_as_people_type_them(text, read):
    assert classes.read_times(text) == read
    assert classes.read_times(classes.times_words(read)) == read


@pytest.mark.parametrize("text", ["18:00", "Mon", "Mon 25:00", "Mon 18:60", "someday 18:00", "T 18:00"])
def test_what_is_no_time_is_refused_with_an_example(text):
    with pytest.raises(BadInputError, match="Mon 18:00, Thu 18:00"):
        classes.read_times(text)


@pytest.fixture
def gym(log):
    """Six members of two groups in one class; Ana, Bo and Cy share, the others keep theirs."""
    roster.take(log, read_roster("name,group\nAna,Early\nBo,Early\nCy,Late\nDee,Early\nEli,Late\nFlo,Late"))
    known = {each.name: each for each in people.members(log)}
    for name in ("Ana", "Bo", "Cy"):
        accounts.share(log, known[name].id, shared=True)
    of = {each.name: each.id for each in groups.groups(log)}
    groups.put_in_group(log, groups.add_group(log, "All"), [each.id for each in known.values()])
    whole = next(each.id for each in groups.groups(log) if each.name == "All")
    return log, known, of, classes.add_class(log, "Evening", "Mon 18:00", group_id=whole)


def planned(log, member):
    return [(each.wave, each.due) for each in today.steps(log, member.id)]


def test_the_class_that_is_next_is_the_one_that_is_taken(gym):
    log, _, of, evening = gym
    dawn = classes.add_class(log, "Dawn", "Tue 6:30", group_id=of["Early"])
    known = classes.classes(log)
    monday = datetime(2026, 11, 23, 17)  # noqa: DTZ001 - the gym's clock
    picked = [classes.class_now(known, monday + timedelta(hours=each)).id for each in (0, 2, 4, 13, 16)]
    assert picked == [evening, evening, dawn, dawn, evening]


def test_a_coach_hands_a_session_to_all_and_sees_of_the_private_ones_nothing(gym):
    log, known, _, evening = gym
    with acting(COACH):
        done = hand_out.hand_out(log, evening, SHEET, this_day())
        assert (done.given, done.had) == (6, 0)
        assert [each.name for each in people.members(log)] == ["Ana", "Bo", "Cy"]
    assert all(planned(log, each) == [("Tide", this_day())] for each in known.values())
    told = journal.acts(log, known["Dee"].id)[0].words
    assert told == "was given a session by the coach, with the class Evening"
    _do(log, known["Ana"])
    _do(log, known["Dee"])
    with acting(COACH):
        found = who_did.who_did_it(log, evening, this_day(), today=this_day())
        (given,) = hand_out.handed(log, evening)
    assert [(each.member.name, each.how) for each in found.rows] == [("Ana", "did"), ("Bo", "silent"), ("Cy", "silent")]
    assert found.words == "1 of 6 did it, 5 silent or private"
    assert "Dee" not in found.text(names=True)
    assert "Ana, did it: front squat 3 × 60 kg" in found.text(names=True)
    assert "Ana" not in found.text(names=False)
    assert (given.wave, given.handed_by, given.started) == ("Tide", "Jo", this_day())
    assert check_log(log.url.render_as_string(hide_password=False)).problems == ()


def test_a_second_touch_adds_nothing_and_a_newcomer_gets_it_too(gym):
    log, known, _of, evening = gym
    hand_out.hand_out(log, evening, SHEET, this_day(), by=known["Ana"].id)
    with pytest.raises(BadInputError, match="All of Evening have Tide already"):
        hand_out.hand_out(log, evening, SHEET, this_day(), by=known["Ana"].id)
    new = people.add_member(log, "Gus")
    whole = next(each for each in groups.groups(log) if each.name == "All")
    groups.put_in_group(log, whole.id, [*whole.member_ids, new.id])
    done = hand_out.hand_out(log, evening, SHEET, this_day(), by=known["Ana"].id)
    assert (done.given, done.had) == (1, 6)
    assert len(hand_out.handed(log, evening)) == 1


def test_one_group_does_something_else_and_is_counted_with_the_class(gym):
    log, known, of, evening = gym
    done = hand_out.hand_out(log, evening, SHEET, this_day(), local={of["Late"]: OTHER})
    assert (done.given, done.local) == (6, (("Late", 3),))
    assert planned(log, known["Ana"]) == [("Tide", this_day())]
    assert planned(log, known["Flo"]) == [("Late: Tide", this_day())]
    with pytest.raises(BadInputError, match="already"):
        hand_out.hand_out(log, evening, SHEET, this_day())
    _do(log, known["Ana"])
    found = who_did.who_did_it(log, evening, this_day(), today=this_day())
    assert found.words == "1 of 6 did it, 5 silent"
    assert [each.title for each in who_did.class_days(log, evening)] == ["Tide"]


def test_a_change_for_one_group_takes_the_place_of_what_they_had_unless_begun(gym):
    log, known, of, evening = gym
    hand_out.hand_out(log, evening, SHEET, this_day())
    step = today.steps(log, known["Eli"].id)[0]
    log_set.log_set(log, known["Eli"].id, this_day(), _set(step))
    done = hand_out.hand_out(log, evening, SHEET, this_day(), local={of["Late"]: OTHER})
    assert done.local == (("Late", 2),)
    assert planned(log, known["Eli"]) == [("Tide", this_day())]
    assert planned(log, known["Cy"]) == [("Late: Tide", this_day())]


def test_how_each_did_it_is_told_apart(gym):
    log, known, _, evening = gym
    hand_out.hand_out(log, evening, SHEET, this_day())
    _do(log, known["Ana"])
    step = today.steps(log, known["Bo"].id)[0]
    other = people.add_lift(log, "front squat", "dumbbells")
    for _ in range(2):
        log_set.log_set(log, known["Bo"].id, this_day(), NewSet(other.id, kg(15), 3, member_step_id=step.id))
    step = today.steps(log, known["Cy"].id)[0]
    log_set.log_set(log, known["Cy"].id, this_day(), _set(step))
    today.skip(log, known["Dee"].id, today.steps(log, known["Dee"].id)[0])
    found = who_did.who_did_it(log, evening, this_day(), today=this_day())
    assert found.words == "1 of 6 did it, 1 with another option, 1 began it, 1 left it out, 2 silent"


def test_an_empty_class_and_a_sheet_that_says_otherwise_are_refused(gym):
    log, _known, _of, evening = gym
    empty = classes.add_class(log, "Empty")
    with pytest.raises(BadInputError, match="Nobody is in the class Empty"):
        hand_out.hand_out(log, empty, SHEET, this_day())
    hand_out.hand_out(log, evening, SHEET, this_day(), today=this_day())
    with pytest.raises(BadInputError, match="says otherwise"):
        hand_out.hand_out(log, evening, SHEET.replace("60", "65"), this_day(), today=this_day())


def _set(step, number=1):
    asked = step.sets[0]
    return NewSet(asked.lift.id, kg(60), 3, planned_set_id=asked.id, planned_round=number, member_step_id=step.id)


def _do(log, member):
    step = today.steps(log, member.id)[0]
    for number in (1, 2):
        log_set.log_set(log, member.id, this_day(), _set(step, number))
