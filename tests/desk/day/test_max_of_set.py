"""The max that a set became by a yes goes with that set: mended, removed, moved or undone, and comes back by the same undo."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from tests.day import this_day
from tests.desk.doing import did, somebody
from tests.loads import kg
from tests.pocket.posts import act, post
from tests.undoing import newest_act, undo_newest
from tracker.desk.day import log_set, max_of_set, new_max, today
from tracker.desk.history import journal
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.log.unit_of_work import Log
from tracker.pocket import acts
from tracker.pocket.plan import plan_of

SPRING = timedelta(days=200)


@pytest.fixture
def squat(log: Log):
    return people.add_lift(log, "front squat", "barbell")


@pytest.fixture
def jarmo(log: Log, squat):
    member = somebody(log, "Jarmo")
    rep_maxes.add_rep_max(log, member.id, squat.id, this_day() - SPRING, 1, kg(100), tested=True)
    return member


@pytest.fixture
def slip(log: Log, jarmo, squat):
    """120 kg was typed for 102, and a stray yes made it the max."""
    row = did(log, jarmo, squat, 0, 120, 1)
    new_max.answer(log, jarmo.id, row.id, 1, yes=True)
    assert in_use(log, jarmo) == ["120 kg", "100 kg"]
    return row


def in_use(log, member):
    return [str(each.load) for each in rep_maxes.rep_maxes(log, member.id)]


def mend(log, row, load, **more):
    return log_set.mend_set(log, row.id, replace(log_set.as_new(row), load=kg(load)), sure=True, **more)


def test_a_mended_set_takes_its_max_back_and_is_asked_about_anew_where_it_still_beats_the_former(log, jarmo, slip):
    assert {k: max_of_set.words(m) for k, m in max_of_set.maxes_made(log, jarmo.id, [slip.id]).items()} == {
        slip.id: "1RM of 120 kg"
    }
    mend(log, slip, 102)
    assert in_use(log, jarmo) == ["100 kg"]
    assert "and the 1RM of 120 kg that it made is taken back" in newest_act(log, jarmo.id).words
    asked = today.day_plan(log, jarmo.id, this_day()).new_max
    assert (str(asked.row.load), str(asked.before.load)) == ("102 kg", "100 kg")
    new_max.answer(log, jarmo.id, slip.id, 1, yes=True)
    assert in_use(log, jarmo) == ["102 kg", "100 kg"]


def test_one_undo_brings_set_and_max_back_together(log, jarmo, slip):
    mend(log, slip, 90)
    undo_newest(log, jarmo.id)
    assert (in_use(log, jarmo), today.day_plan(log, jarmo.id, this_day()).new_max) == (["120 kg", "100 kg"], None)
    log_set.remove_set(log, slip.id, today=this_day())
    assert in_use(log, jarmo) == ["100 kg"]
    undo_newest(log, jarmo.id)
    assert in_use(log, jarmo) == ["120 kg", "100 kg"]


def test_an_undo_of_the_set_itself_takes_the_max_along_and_undoing_that_brings_both_back(log, jarmo, slip):
    logged = next(each for each in journal.acts(log, jarmo.id) if each.words.startswith("logged"))
    words = journal.undo_act(log, logged.act_id)
    assert words.endswith("and the 1RM of 120 kg that it made is taken back")
    assert in_use(log, jarmo) == ["100 kg"]
    journal.undo_act(log, journal.acts(log, jarmo.id)[0].act_id)
    assert in_use(log, jarmo) == ["120 kg", "100 kg"]


def test_undoing_a_mend_takes_back_the_max_that_the_mended_set_became(log, jarmo, squat):
    row = did(log, jarmo, squat, 0, 95, 1)
    mended = mend(log, row, 110)
    new_max.answer(log, jarmo.id, mended.id, 1, yes=True)
    edit = next(each for each in journal.acts(log, jarmo.id) if each.words.startswith("edited"))
    journal.undo_act(log, edit.act_id)
    assert in_use(log, jarmo) == ["100 kg"]


def test_what_the_set_still_bears_stays_and_so_does_what_the_member_keeps(log, jarmo, slip):
    log_set.mend_set(log, slip.id, replace(log_set.as_new(slip), note="belt"))
    assert in_use(log, jarmo) == ["120 kg", "100 kg"]
    mend(log, slip, 90, keep_max=True)
    assert in_use(log, jarmo) == ["120 kg", "100 kg"]
    log_set.remove_set(log, slip.id, today=this_day(), keep_max=True)
    assert in_use(log, jarmo) == ["120 kg", "100 kg"]


def test_a_set_left_out_of_the_estimate_leaves_no_max_behind(log, jarmo, slip):
    journal.leave_out(log, slip.id, "wrong bar")
    assert in_use(log, jarmo) == ["100 kg"]


def test_a_moved_set_takes_its_max_to_its_day_and_to_nobody_else(log, jarmo, slip):
    day = this_day() - timedelta(days=2)
    log_set.move_set(log, slip.id, jarmo.id, day, today=this_day())
    assert [each.day for each in rep_maxes.rep_maxes(log, jarmo.id)] == [day, this_day() - SPRING]
    other = people.add_member(log, "Ilse")
    log_set.move_set(log, slip.id, other.id, today=this_day())
    assert (in_use(log, jarmo), in_use(log, other)) == (["100 kg"], [])


def test_the_phone_brings_the_max_along_and_removes_or_keeps_it(log, jarmo, slip):
    (row,) = plan_of(log, jarmo.id, this_day())["sets"]
    assert row["max"] == "1RM of 120 kg"
    acts_of = [act("remove", {"set": slip.id, "keep_max": True}), act("undo", {"of": "x"}, 2)]
    acts_of[1]["body"]["of"] = acts_of[0]["id"]
    found = acts.take(log, jarmo.id, post(*acts_of), this_moment())
    assert [each.how for each in found] == ["done", "done"]
    assert in_use(log, jarmo) == ["120 kg", "100 kg"]
    (gone,) = acts.take(log, jarmo.id, post(act("remove", {"set": slip.id}, 3)), this_moment())
    assert (gone.how, in_use(log, jarmo)) == ("done", ["100 kg"])


def this_moment():
    from datetime import UTC, datetime

    return datetime.now(UTC)
