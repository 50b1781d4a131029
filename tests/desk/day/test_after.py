"""After a wave: offers with reasons, nothing by itself, and each taken with one act that can be undone."""

from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.loads import kg
from tests.undoing import undo_newest
from tracker.desk.day import after, log_set, today
from tracker.desk.maxes import rep_maxes
from tracker.errors import BadInputError
from tracker.log import waves as log_waves
from tracker.log.sets import NewSet
from tracker.log.waves import NewPlannedSet, NewStep


def do_wave(log, member, lift, *, rir=None, reps=3, outcome="done", sets=2, steps=2, tested=True):
    """A wave of two weeks of two sets of three at 85 % of the 3RM; the first was left out, the second is done today."""
    if tested:
        log_set.log_set(log, member.id, this_day() - timedelta(days=40), NewSet(lift.id, kg("100"), 3, kind="test"))
    log_set.log_set(log, member.id, this_day() - timedelta(days=4), NewSet(lift.id, kg("80"), 3))
    with log.act("wave") as act:
        planned = [NewPlannedSet(lift.id, 2, 3, Decimal(85), 3)]
        wave = log_waves.add_wave(act, "Tide", [NewStep("day 1", 0, planned), NewStep("day 8", 7, planned)][-steps:])
        log_waves.start_wave(act, member.id, wave, this_day() - timedelta(days=7))
    for first in today.steps(log, member.id)[:-1]:
        today.skip(log, member.id, first)
    for line in today.day_plan(log, member.id, this_day()).lines[:sets]:
        new = NewSet(
            lift.id, line.made.load, reps, rir, outcome, planned_set_id=line.planned.id, planned_round=line.number,
            member_step_id=line.step_id,
        )  # fmt: skip
        log_set.log_set(log, member.id, this_day(), new)
    return wave


def offered(log, member):
    (end,) = after.wave_ends(log, member, this_day())
    ((_, offers),) = end.offers
    return {offer.step: offer for offer in offers}


def test_a_raise_is_offered_only_where_every_set_was_done(log, ana, squat):
    do_wave(log, ana, squat, rir=Decimal(2), sets=1)
    assert after.wave_ends(log, ana, this_day()) == ()
    today.finish(log, ana.id, today.steps(log, ana.id)[1], this_day())
    offers = offered(log, ana)
    assert "raise" not in offers
    assert offers["repeat"].reason == "1 of 2 sets was not done, so nothing is known of all: once more as they are."


def test_a_max_that_was_tested_elsewhere_is_a_test(log, ana, squat):
    rep_maxes.add_rep_max(log, ana.id, squat.id, this_day() - timedelta(days=20), 3, kg("100"), tested=True)
    do_wave(log, ana, squat, rir=Decimal(2), tested=False)
    assert "test" not in offered(log, ana)


def test_a_single_session_is_no_wave_and_asks_nothing_when_it_is_over(log, ana, squat):
    do_wave(log, ana, squat, steps=1)
    assert after.wave_ends(log, ana, this_day()) == ()


def test_nothing_is_offered_before_the_last_step_is_done(log, ana, squat):
    with log.act("wave") as act:
        wave = log_waves.add_wave(act, "Tide", [NewStep("day 1", 0, [NewPlannedSet(squat.id, 2, 3, Decimal(85), 3)])])
        log_waves.start_wave(act, ana.id, wave, this_day())
    assert after.wave_ends(log, ana, this_day()) == ()


def test_with_repetitions_to_spare_a_raise_comes_first_with_its_source(log, ana, squat):
    do_wave(log, ana, squat, rir=Decimal(2))
    offers = offered(log, ana)
    assert next(iter(offers)) == "raise"
    # ACSM 2009 (Ratamess et al., abstract): 2 to 10 % when 1 or 2 repetitions over the target can be done.
    assert offers["raise"].percent == (Decimal(2), Decimal(10))
    assert (offers["raise"].status, "2009" in offers["raise"].source) == ("published", True)


def test_after_misses_the_easier_week_comes_first_and_no_raise_is_offered(log, ana, squat):
    do_wave(log, ana, squat, reps=2, outcome="missed")
    offers = offered(log, ana)
    assert next(iter(offers)) == "ease off"
    assert "raise" not in offers


def test_a_wave_that_was_over_long_ago_asks_nothing(log, ana, squat):
    do_wave(log, ana, squat)
    assert after.wave_ends(log, ana, this_day() + timedelta(days=22)) == ()


def test_going_again_raises_every_load_by_what_was_said_and_one_undo_takes_it_back(log, ana, squat):
    wave = do_wave(log, ana, squat, rir=Decimal(2))
    after.go_again(log, ana, wave, this_day() + timedelta(days=7), Decimal(5))
    line = today.day_plan(log, ana.id, this_day() + timedelta(days=7)).lines[0]
    assert line.made.load == kg("90")  # by hand: 100 x 0.85 x 1.05 = 89.25; 90 is nearer than 87.5
    assert after.wave_ends(log, ana, this_day()) == ()
    undo_newest(log, ana.id)
    assert len(after.wave_ends(log, ana, this_day())) == 1
    assert [step.state for step in today.steps(log, ana.id)] == ["skipped", "done"]


@pytest.mark.parametrize("percent", ["10.5", "-51", "NaN", "Infinity"])
def test_a_change_that_can_not_be_is_refused_and_the_wave_stays(log, ana, squat, percent):
    wave = do_wave(log, ana, squat)
    with pytest.raises(BadInputError, match="change"):
        after.go_again(log, ana, wave, this_day(), Decimal(percent))
    assert len(after.wave_ends(log, ana, this_day())) == 1


def test_a_test_of_the_same_rep_max_can_be_planned(log, ana, squat):
    wave = do_wave(log, ana, squat)
    assert after.tested_reps(log, wave, squat) == 3
    after.go_test(log, ana, wave, squat, 3, this_day() + timedelta(days=7))
    day = today.day_plan(log, ana.id, this_day() + timedelta(days=7))
    assert day.step.title == "Find a 3RM: back squat"
    assert day.lines[0].planned.test
    assert "test" in {caution.key for caution in day.lines[0].cautions}


def test_a_wave_can_end_with_nothing_to_follow(log, ana, squat):
    wave = do_wave(log, ana, squat)
    after.go_home(log, ana, wave, this_day())
    assert after.wave_ends(log, ana, this_day()) == ()
