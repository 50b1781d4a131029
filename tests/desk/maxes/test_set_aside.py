"""A max that its member sets aside: it stays in the history and on the trend, and no load is a part of it."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.desk.doing import did, lift_named, squats_and_presses
from tests.loads import kg
from tests.undoing import undo_newest
from tracker.desk.coach import send_result
from tracker.desk.day import falls, today
from tracker.desk.history import journal
from tracker.desk.maxes import estimates, marks, references, rep_maxes, trend
from tracker.log.unit_of_work import Log


@pytest.fixture
def tova(log: Log):
    return squats_and_presses(log, "Tova")


def known(log, member, lift):
    history = estimates.history(log, member.id, lift)
    return [(each.source, str(each.shown)) for each in references.references(history, 5, this_day(), "kg")]


def test_it_is_used_for_nothing_and_one_touch_brings_it_back(log, tova):
    squat = lift_named(log, "back squat")
    (row,) = [each for each in rep_maxes.rep_maxes(log, tova.id) if each.lift == squat]
    assert known(log, tova, squat)[0] == ("tested", "100 kg")
    rep_maxes.set_aside(log, tova.id, row.id, this_day())
    assert known(log, tova, squat) == []
    assert estimates.history(log, tova.id, squat).model is None
    assert today.day_plan(log, tova.id, this_day()).lines[0].made is None
    assert not [each for each in send_result.maxes_of(log, tova.id) if each.lift == "back squat"]
    assert marks.best_marks(log, tova, squat)[4].done is None
    undo_newest(log, tova.id)
    assert known(log, tova, squat)[0] == ("tested", "100 kg")
    rep_maxes.set_aside(log, tova.id, row.id, this_day())
    rep_maxes.set_aside(log, tova.id, row.id, this_day(), aside=False)
    assert known(log, tova, squat)[0] == ("tested", "100 kg")


def test_an_older_one_counts_again_in_its_place(log, tova):
    squat = lift_named(log, "back squat")
    rep_maxes.add_rep_max(log, tova.id, squat.id, this_day() - timedelta(days=30), 5, kg(90), tested=True)
    newest = next(each for each in rep_maxes.rep_maxes(log, tova.id) if each.load == kg(100))
    rep_maxes.set_aside(log, tova.id, newest.id, this_day())
    assert known(log, tova, squat)[0] == ("tested", "90 kg")


def test_it_stays_in_the_list_and_is_drawn_as_set_aside(log, tova):
    squat = lift_named(log, "back squat")
    (row,) = [each for each in rep_maxes.rep_maxes(log, tova.id) if each.lift == squat]
    did(log, tova, squat, 3, 80, 5, rir=Decimal(2))
    rep_maxes.set_aside(log, tova.id, row.id, this_day())
    assert [each.aside for each in rep_maxes.rep_maxes(log, tova.id) if each.lift == squat] == [True]
    view = trend.trend(log, tova, squat, day=this_day(), reps=5)
    assert [(each.load, each.source) for each in view.facts] == [(100, "set aside")]
    done = did(log, tova, squat, 0, 85, 5)
    fallen = falls.fallen_mark(log, done)
    assert str(fallen.before) == "80 kg"  # it beats what stands, not what was set aside


def test_a_test_that_was_a_set_is_drawn_so_as_well(log, tova):
    squat = lift_named(log, "back squat")
    row = did(log, tova, squat, 2, 105, 5, kind="test")
    assert ("tested", "105 kg") in known(log, tova, squat)
    journal.leave_out(log, row.id, "not what I lift now")
    assert ("tested", "100 kg") in known(log, tova, squat)
    assert (105, "set aside") in [
        (each.load, each.source) for each in trend.trend(log, tova, squat, day=this_day(), reps=5).facts
    ]
