"""After three weeks or more without any entry loads start lower, by steps, unless somebody says that they trained meanwhile."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.loads import kg
from tests.undoing import undo_newest
from tracker.desk.day import back, log_set, today, weights
from tracker.desk.maxes import rep_maxes
from tracker.log import waves as log_waves
from tracker.log.sets import NewSet
from tracker.log.waves import NewPlannedSet, NewStep


@pytest.fixture
def squatting(log, ana, squat):
    """Five at 70 % of a tested 5RM of 100 kg every other day, for some days from today on."""
    rep_maxes.add_rep_max(log, ana.id, squat.id, this_day() - timedelta(days=60), 5, kg(100), tested=True)
    with log.act("a wave") as act:
        steps = [NewStep(f"day {n}", n, [NewPlannedSet(squat.id, 1, 5, Decimal(70), 5)]) for n in range(3)]
        log_waves.start_wave(act, ana.id, log_waves.add_wave(act, "Back", steps), this_day())
    return ana


def trained(log, member, lift, ago):
    log_set.log_set(log, member.id, this_day() - timedelta(days=ago), NewSet(lift.id, kg(60), 5))


def first(log, member):
    return today.day_plan(log, member.id, this_day())


def test_three_weeks_without_an_entry_take_ten_per_cent_off(log, squatting, squat):
    trained(log, squatting, squat, 22)
    day = first(log, squatting)
    # By hand: 100 x 0.70 x 0.90 = 63 kg, rounded down after a break: 62.5.
    assert str(day.lines[0].made.load) == "62.5 kg"
    assert day.back.days_off == 21
    assert "10 % lower than asked, after 21 days without an entry." in day.lines[0].notes
    (line,) = weights.weights(log, squatting, squat, weights.typed_reference("100", 5, "kg", this_day()), "1x5@70", this_day())  # fmt: skip
    assert (str(line.made.load), "10 % lower" in line.note) == ("62.5 kg", True)


def test_a_shorter_break_takes_nothing_off(log, squatting, squat):
    trained(log, squatting, squat, 21)  # twenty whole days between
    assert first(log, squatting).back is None
    assert str(first(log, squatting).lines[0].made.load) == "70 kg"


def test_after_two_sessions_loads_are_as_asked(log, squatting, squat):
    trained(log, squatting, squat, 40)
    trained(log, squatting, squat, 4)
    assert first(log, squatting).back.sessions == 1
    assert "1 of 2 made" in first(log, squatting).back.words
    trained(log, squatting, squat, 2)
    assert first(log, squatting).back is None


def test_a_session_of_today_does_not_lift_it_in_its_middle(log, squatting, squat):
    trained(log, squatting, squat, 40)
    trained(log, squatting, squat, 4)
    trained(log, squatting, squat, 0)
    assert first(log, squatting).back.sessions == 1


def test_whoever_trained_meanwhile_says_so_once_and_takes_it_back(log, squatting, squat):
    trained(log, squatting, squat, 30)
    day = first(log, squatting)
    back.trained_meanwhile(log, squatting.id, day.break_began, day.day)
    assert first(log, squatting).back is None
    assert str(first(log, squatting).lines[0].made.load) == "70 kg"
    undo_newest(log, squatting.id)
    assert first(log, squatting).back is not None


def test_it_holds_for_that_break_and_not_for_the_next(log, squatting, squat):
    trained(log, squatting, squat, 90)
    back.trained_meanwhile(log, squatting.id, this_day() - timedelta(days=90), this_day() - timedelta(days=40))
    trained(log, squatting, squat, 40)
    trained(log, squatting, squat, 39)
    assert first(log, squatting).back.days_off == 38


def test_after_nine_months_two_sessions_are_one_step_and_no_more(log, squatting, squat):
    trained(log, squatting, squat, 280)
    assert first(log, squatting).back.percent == 40
    trained(log, squatting, squat, 6)
    trained(log, squatting, squat, 3)
    day = first(log, squatting)
    # By hand: 100 x 0.70 x 0.60 = 42 kg, rounded down after a break: 40.
    assert (day.back.percent, day.back.at, str(day.lines[0].made.load)) == (40, 0, "40 kg")
    assert "step 1 of 4" in " ".join(day.lines[0].notes)
    assert "40, 30, 20, 10 %" in day.back.words


def test_a_max_that_was_tested_since_the_break_needs_no_way_back(log, squatting, squat):
    trained(log, squatting, squat, 280)
    trained(log, squatting, squat, 6)
    rep_maxes.add_rep_max(log, squatting.id, squat.id, this_day() - timedelta(days=5), 5, kg(80), tested=True)
    day = first(log, squatting)
    assert (day.back.percent, str(day.lines[0].made.load)) == (40, "55 kg")  # 80 x 0.70 = 56
    assert day.lines[0].of.percent == 70


def test_whoever_trained_lighter_meanwhile_starts_as_after_three_weeks(log, squatting, squat):
    trained(log, squatting, squat, 280)
    day = first(log, squatting)
    back.trained_meanwhile(log, squatting.id, day.break_began, day.day, "lighter")
    day = first(log, squatting)
    assert (day.back.percent, str(day.lines[0].made.load)) == (10, "62.5 kg")


def test_that_loads_start_lower_is_asked_and_the_answer_kept(log, squatting, squat):
    trained(log, squatting, squat, 30)
    day = first(log, squatting)
    assert day.asks_back
    back.start(log, squatting.id, day.break_began, day.day, "lower")
    assert (first(log, squatting).asks_back, str(first(log, squatting).lines[0].made.load)) == (False, "62.5 kg")
    undo_newest(log, squatting.id)
    assert first(log, squatting).asks_back
    back.start(log, squatting.id, day.break_began, day.day, "as asked")
    assert (first(log, squatting).asks_back, str(first(log, squatting).lines[0].made.load)) == (False, "70 kg")


def test_maxes_from_before_a_break_are_asked_about_until_somebody_answers(log, squatting, squat):
    assert first(log, squatting).old_maxes == ()
    trained(log, squatting, squat, 30)
    day = first(log, squatting)
    (old,) = day.old_maxes
    assert old.words == "tested 5RM of back squat, barbell, 100 kg"
    back.still_holds(log, squatting.id, old.lift.id, 5, day.break_began, day.day)
    assert first(log, squatting).old_maxes == ()
    undo_newest(log, squatting.id)
    assert first(log, squatting).old_maxes


def test_somebody_new_does_not_come_back(log, squatting):
    assert first(log, squatting).back is None
