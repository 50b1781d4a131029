"""A heavy single or a test that beats the max in use: asked at once and once, answered in a touch, undone as any act."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.desk.doing import did, somebody
from tests.loads import kg
from tests.undoing import undo_newest
from tracker.desk.day import attempts, log_set, new_max, today
from tracker.desk.maxes import estimates, rep_maxes
from tracker.desk.maxes.references import references
from tracker.desk.people import people
from tracker.log import waves as log_waves
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewPlannedSet, NewStep

SPRING = timedelta(days=200)


@pytest.fixture
def squat(log: Log):
    return people.add_lift(log, "front squat", "barbell")


@pytest.fixture
def jarmo(log: Log, squat):
    member = somebody(log, "Jarmo")
    rep_maxes.add_rep_max(log, member.id, squat.id, this_day() - SPRING, 3, kg("97.5"), tested=True)
    return member


def asked(log, member):
    return today.day_plan(log, member.id, this_day()).new_max


def in_use(log, member, lift, reps=3):
    history = estimates.history(log, member.id, lift)
    return next(str(each.load) for each in references(history, reps, this_day(), "kg") if each.source == "tested")


def test_a_set_that_beats_the_max_is_asked_about_and_becomes_it_by_a_yes(log, jarmo, squat):
    did(log, jarmo, squat, 0, 95, 3)
    assert asked(log, jarmo) is None
    did(log, jarmo, squat, 0, 105, 2, outcome="missed")
    assert asked(log, jarmo) is None  # two of three are no three
    row = did(log, jarmo, squat, 0, "102.5", 3)
    found = asked(log, jarmo)
    assert (found.row.id, found.reps, str(found.before.load)) == (row.id, 3, "97.5 kg")
    assert "Is 102.5 kg your 3RM from now on?" in found.words
    assert (found.yes, found.no) == ("Yes: 3RM 102.5 kg", "No: it stays 97.5 kg")
    assert in_use(log, jarmo, squat) == "97.5 kg"
    new_max.answer(log, jarmo.id, row.id, 3, yes=True)
    assert in_use(log, jarmo, squat) == "102.5 kg"
    assert asked(log, jarmo) is None
    undo_newest(log, jarmo.id)
    assert in_use(log, jarmo, squat) == "97.5 kg"
    assert asked(log, jarmo) is not None


def test_a_no_is_kept_and_not_asked_again(log, jarmo, squat):
    row = did(log, jarmo, squat, 0, 100, 3)
    new_max.answer(log, jarmo.id, row.id, 3, yes=False)
    assert (asked(log, jarmo), in_use(log, jarmo, squat)) == (None, "97.5 kg")


def test_a_heavy_single_is_asked_about_as_a_max_of_one_only_where_one_is_in_use(log, jarmo, squat):
    did(log, jarmo, squat, 0, 115, 1)
    assert asked(log, jarmo) is None
    rep_maxes.add_rep_max(log, jarmo.id, squat.id, this_day() - SPRING, 1, kg(110), tested=True)
    assert asked(log, jarmo).reps == 1


def test_a_test_is_asked_about_when_it_is_ended_and_a_no_leaves_the_former_in_use(log, jarmo, squat):
    with log.act("a wave", jarmo.id) as act:
        rows = [NewPlannedSet(squat.id, 1, 3, test=True)]
        wave = log_waves.add_wave(act, "Test", [NewStep("Friday", 0, rows)])
        log_waves.start_wave(act, jarmo.id, wave, this_day())
    line = today.day_plan(log, jarmo.id, this_day()).lines[0]
    row = log_set.log_set(log, jarmo.id, this_day(), attempts.as_attempt(line, jarmo, None, kg("102.5")), sure=True)
    assert asked(log, jarmo) is None  # more attempts may come
    attempts.end_test(log, jarmo.id, line.step_id, line.planned.id, this_day())
    found = asked(log, jarmo)
    assert (found.tested, str(found.before.load)) == (True, "97.5 kg")
    new_max.answer(log, jarmo.id, row.id, 3, yes=False)
    assert in_use(log, jarmo, squat) == "97.5 kg"
    undo_newest(log, jarmo.id)
    new_max.answer(log, jarmo.id, row.id, 3, yes=True)
    assert in_use(log, jarmo, squat) == "102.5 kg"
    assert Decimal("102.5") in {each.load.amount for each in today.day_plan(log, jarmo.id, this_day()).sets}


def took_a_test(log, member, squat, load, *, reps=3):
    """Test today as a coach plans it, and end the test."""
    with log.act("a wave", member.id) as act:
        rows = [NewPlannedSet(squat.id, 1, reps, test=True)]
        wave = log_waves.add_wave(act, "Test", [NewStep("Friday", 0, rows)])
        log_waves.start_wave(act, member.id, wave, this_day())
    for each in (load - 5, load):
        line = today.day_plan(log, member.id, this_day()).lines[0]
        new = replace(attempts.as_attempt(line, member, None, None), load=kg(each))
        row = log_set.log_set(log, member.id, this_day(), new, sure=True)
    assert asked(log, member) is None  # more attempts may come
    attempts.end_test(log, member.id, line.step_id, line.planned.id, this_day())
    return row


def test_a_test_below_the_max_in_use_is_asked_about_and_a_no_lets_the_former_stay(log, jarmo, squat):
    row = took_a_test(log, jarmo, squat, 90)
    found = asked(log, jarmo)
    assert (found.row.id, found.reps, found.tested, str(found.before.load)) == (row.id, 3, True, "97.5 kg")
    assert "lower than your 3RM so far" in found.words
    assert found.words.endswith("Is 90 kg your 3RM from now on?")
    assert (found.yes, found.no) == ("Yes: 3RM 90 kg", "No: it stays 97.5 kg")
    assert in_use(log, jarmo, squat) == "90 kg"
    new_max.answer(log, jarmo.id, row.id, 3, yes=False)
    assert (asked(log, jarmo), in_use(log, jarmo, squat)) == (None, "97.5 kg")
    undo_newest(log, jarmo.id)
    assert asked(log, jarmo) is not None


def test_a_test_below_the_max_in_use_is_it_by_a_yes_and_is_not_asked_about_again(log, jarmo, squat):
    row = took_a_test(log, jarmo, squat, 90)
    new_max.answer(log, jarmo.id, row.id, 3, yes=True)
    assert (asked(log, jarmo), in_use(log, jarmo, squat)) == (None, "90 kg")


def test_as_much_as_before_or_for_other_repetitions_is_not_asked_about(log, jarmo, squat):
    took_a_test(log, jarmo, squat, 90, reps=5)
    assert asked(log, jarmo) is None
    did(log, jarmo, squat, 0, "97.5", 3, kind="test")
    assert asked(log, jarmo) is None


def test_a_lower_test_beside_a_better_one_of_the_day_is_not_asked_about(log, jarmo, squat):
    did(log, jarmo, squat, 0, 100, 3, kind="test")
    did(log, jarmo, squat, 0, 95, 3, kind="test")
    assert str(asked(log, jarmo).row.load) == "100 kg"  # which is in use


def test_a_heavy_single_far_above_an_estimate_is_asked_about_too(log):
    member = somebody(log, "Jarmo")
    bench = people.add_lift(log, "bench press", "barbell")
    for days in (21, 18, 14, 11, 7, 4):
        for load, reps in ((80, 5), (80, 5), (85, 3)):
            did(log, member, bench, days, load, reps, rir=Decimal(1))
    assert today.day_plan(log, member.id, this_day()).new_max is None
    did(log, member, bench, 0, 90, 1)  # within what the estimate holds likely
    assert today.day_plan(log, member.id, this_day()).new_max is None
    row = did(log, member, bench, 0, 130, 1)
    found = today.day_plan(log, member.id, this_day()).new_max
    assert found is not None
    assert (found.row.id, found.reps, found.before.source) == (row.id, 1, "estimated")
    assert "an estimate. Is 130 kg your 1RM from now on?" in found.words
    new_max.answer(log, member.id, row.id, 1, yes=True)
    assert today.day_plan(log, member.id, this_day()).new_max is None


def test_the_first_set_of_a_lift_is_asked_nothing(log):
    member = somebody(log, "Jarmo")
    bench = people.add_lift(log, "bench press", "barbell")
    did(log, member, bench, 0, 130, 1)
    assert today.day_plan(log, member.id, this_day()).new_max is None


def test_a_slip_of_the_fingers_is_no_max_and_nobody_is_asked_whether_it_is(log, jarmo, squat):
    did(log, jarmo, squat, 0, 975, 3)  # 97.5 was meant
    assert asked(log, jarmo) is None
    did(log, jarmo, squat, 0, 140, 3)  # much, but somebody may have come on
    assert str(asked(log, jarmo).row.load) == "140 kg"
