"""Load by week: rating x minutes, what is missing said, rest only where somebody says so."""

from datetime import date, timedelta
from decimal import Decimal

import pytest
from sqlalchemy import text

from tests.day import this_day
from tests.undoing import undo_newest
from tracker.desk.day import training
from tracker.desk.history.training_load import load_report, say_rested_on_all
from tracker.desk.people import people
from tracker.errors import BadInputError
from tracker.log.sessions import sessions_of
from tracker.log.sets import NewSet
from tracker.units import Mass

MONDAY = date(2026, 3, 2)
# The worked week of the notes on conditioning, their own example: rating and minutes of each day; Tuesday and Sunday rest.
WEEK = {0: (6, 60), 2: (8, 50), 3: (3, 40), 4: (7, 60), 5: (9, 30)}


def trained(log, member, lift, day, rating=None, minutes=None, load="80", **more):
    training.log_set(log, member.id, day, NewSet(lift.id, Mass(Decimal(load), "kg"), 5, **more), sure=True)
    with log.reading() as session:
        row = next(each for each in sessions_of(session, member.id) if each.day == day)
    training.rate_session(log, row.id, member.id, rating=rating, minutes=minutes, note="")


def test_the_worked_week_needs_its_days_of_rest(log, ana, squat):
    for day, (rating, minutes) in WEEK.items():
        trained(log, ana, squat, MONDAY + timedelta(days=day), rating, minutes)
    sunday = MONDAY + timedelta(days=6)
    week = load_report(log, ana.id, sunday, count=1).weeks[0]
    assert week.words == "at least 1,570 so far; 1 day not known"
    assert (week.week.load, week.week.monotony()) == (None, None)
    say_rested_on_all(log, ana.id, [MONDAY + timedelta(days=1), sunday])
    week = load_report(log, ana.id, sunday, count=1).weeks[0].week
    assert week.load == 1570
    assert week.monotony() == pytest.approx(1.22, abs=0.005)
    assert week.monotony("population") == pytest.approx(1.32, abs=0.005)
    assert week.load_x_monotony() == pytest.approx(1923, abs=0.5)
    assert week.load_x_monotony("population") == pytest.approx(2077, abs=0.5)


def test_a_day_with_a_session_is_no_rest_day_however_many_are_said_at_once(log, ana, squat):
    trained(log, ana, squat, MONDAY + timedelta(days=1), 6, 60)
    days = [MONDAY + timedelta(days=each) for each in range(3)]
    with pytest.raises(BadInputError, match="2026-03-03 has a session"):
        say_rested_on_all(log, ana.id, days)
    assert load_report(log, ana.id, days[-1]).rested == frozenset()  # none of them, and not the first one alone


def test_a_missing_rating_is_said_and_offered_to_be_given(log, ana, squat):
    trained(log, ana, squat, MONDAY, 6, 60)
    trained(log, ana, squat, MONDAY + timedelta(days=1))
    report = load_report(log, ana.id, MONDAY + timedelta(days=1), count=1)
    assert report.weeks[0].words == "at least 360 so far; 1 session without a rating"
    assert [row.day for row in report.unrated] == [MONDAY + timedelta(days=1)]


def test_a_session_whose_sets_are_all_removed_is_no_session(log, ana, squat):
    row = training.log_set(log, ana.id, MONDAY, NewSet(squat.id, Mass(Decimal(80), "kg"), 5))
    training.remove_set(log, row.id, today=this_day())
    report = load_report(log, ana.id, MONDAY, count=1)
    assert (report.weeks[0].week.sessions, report.unrated) == (0, ())


def test_rest_is_said_taken_back_and_gives_way_to_a_session(log, ana, squat):
    trained(log, ana, squat, MONDAY - timedelta(days=7), 6, 60)
    say_rested_on_all(log, ana.id, [MONDAY])
    say_rested_on_all(log, ana.id, [MONDAY])  # twice is once
    assert load_report(log, ana.id, MONDAY).rested == {MONDAY}
    undo_newest(log, ana.id)
    assert load_report(log, ana.id, MONDAY).rested == frozenset()
    say_rested_on_all(log, ana.id, [MONDAY])
    trained(log, ana, squat, MONDAY, 5, 30)
    assert load_report(log, ana.id, MONDAY).weeks[-1].week.days[0] == 150
    with pytest.raises(BadInputError, match="has a session"):
        say_rested_on_all(log, ana.id, [MONDAY])
    with pytest.raises(BadInputError, match="still to come"):
        say_rested_on_all(log, ana.id, [this_day() + timedelta(days=9)])
    with log.reading() as session:
        assert session.execute(text("SELECT count(*) FROM rest_days")).scalar() == 1


def test_days_of_which_nothing_is_known_are_asked_from_the_first_session_on(log, ana, squat):
    assert load_report(log, ana.id, MONDAY).open_days == ()
    trained(log, ana, squat, MONDAY - timedelta(days=3), 6, 60)
    assert load_report(log, ana.id, MONDAY).open_days == (MONDAY - timedelta(days=1), MONDAY - timedelta(days=2))


def test_a_whole_week_is_set_against_the_four_before_it(log, ana, squat):
    for week in range(5):
        for day in range(7):
            when = MONDAY + timedelta(weeks=week, days=day)
            if day < 2:
                trained(log, ana, squat, when, 5, 60 + 10 * (week == 4))
            else:
                say_rested_on_all(log, ana.id, [when])
    report = load_report(log, ana.id, MONDAY + timedelta(weeks=5))
    assert (report.against.load, report.against.minutes) == (100, 20)


def test_the_first_session_after_a_break_is_said_neutrally(log, ana, squat):
    trained(log, ana, squat, MONDAY - timedelta(days=21), 6, 60)
    trained(log, ana, squat, MONDAY, 4, 30)
    assert load_report(log, ana.id, MONDAY).back == "first session after 20 days without one"


def test_tonnage_hard_sets_and_repetitions_stand_beside(log, ana, squat):
    pull = people.add_lift(log, "pull-up", "body")
    people.weigh(log, ana.id, MONDAY, Mass(Decimal(60), "kg"))
    bells = people.add_lift(log, "press", "dumbbells")
    training.log_set(log, ana.id, MONDAY, NewSet(squat.id, Mass(Decimal(80), "kg"), 5, rir=Decimal(2)))
    training.log_set(log, ana.id, MONDAY, NewSet(squat.id, Mass(Decimal(80), "kg"), 5))
    training.log_set(log, ana.id, MONDAY, NewSet(pull.id, Mass(Decimal(-10), "kg"), 8, rir=Decimal(5)))
    training.log_set(log, ana.id, MONDAY, NewSet(bells.id, Mass(Decimal(15), "kg"), 10, rir=Decimal(1)))
    week = load_report(log, ana.id, MONDAY, count=1).weeks[0]
    assert week.tonnage_kg == 800 + 400 + 300  # (60 - 10) x 8; two dumbbells of 15 kg x 10
    assert (week.hard_sets.low, week.hard_sets.high) == (2, 3)
    assert {each.lift: each.reps for each in week.volume} == {
        "back squat, barbell": 10,
        "pull-up": 8,
        "press, dumbbells": 10,
    }
