"""Load by week: rating x minutes, what is missing said, what silent days are, what is usual and what is planned."""

from datetime import date, timedelta
from decimal import Decimal

import pytest
from sqlalchemy import text

from tests.day import this_day
from tests.undoing import undo_newest
from tracker.desk.day import back, log_set, session_said
from tracker.desk.history import silent
from tracker.desk.history.silent import say_rested_on_all
from tracker.desk.history.training_load import load_report
from tracker.desk.people import people
from tracker.errors import BadInputError
from tracker.log import waves as log_waves
from tracker.log.sessions import sessions_of
from tracker.log.sets import NewSet
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.units import Mass

MONDAY = date(2026, 3, 2)
# The worked week of the notes on conditioning, their own example: rating and minutes of each day; Tuesday and Sunday rest.
WEEK = {0: (6, 60), 2: (8, 50), 3: (3, 40), 4: (7, 60), 5: (9, 30)}


def trained(log, member, lift, day, rating=None, minutes=None, load="80", **more):
    log_set.log_set(log, member.id, day, NewSet(lift.id, Mass(Decimal(load), "kg"), 5, **more), sure=True)
    with log.reading() as session:
        row = next(each for each in sessions_of(session, member.id) if each.day == day)
    session_said.rate_session(log, row.id, member.id, rating=rating, minutes=minutes, note="")


def test_the_worked_week_needs_its_days_of_rest_where_silent_days_are_not_rest(log, ana, squat):
    silent.count_silent_days(log, ana.id, MONDAY, as_rest=False)
    for day, (rating, minutes) in WEEK.items():
        trained(log, ana, squat, MONDAY + timedelta(days=day), rating, minutes)
    sunday = MONDAY + timedelta(days=6)
    week = load_report(log, ana.id, sunday, count=2).weeks[-1]
    assert week.words == "at least 1,570 so far; 1 day not known"
    assert (week.week.load, week.week.monotony()) == (None, None)
    say_rested_on_all(log, ana.id, [MONDAY + timedelta(days=1), sunday])
    week = load_report(log, ana.id, sunday, count=2).weeks[-1].week
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
    report = load_report(log, ana.id, MONDAY + timedelta(days=1), count=2)
    assert report.weeks[-1].words == "at least 360 so far; 1 session without a rating"
    assert [row.day for row in report.unrated] == [MONDAY + timedelta(days=1)]


def test_a_session_whose_sets_are_all_removed_is_no_session(log, ana, squat):
    row = log_set.log_set(log, ana.id, MONDAY, NewSet(squat.id, Mass(Decimal(80), "kg"), 5))
    log_set.remove_set(log, row.id, today=this_day())
    report = load_report(log, ana.id, MONDAY, count=2)
    assert (report.weeks[-1].week.sessions, report.unrated) == (0, ())


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
    trained(log, ana, squat, MONDAY - timedelta(days=3), 6, 60)
    assert load_report(log, ana.id, MONDAY).open_days == ()  # taken as rest
    silent.count_silent_days(log, ana.id, MONDAY, as_rest=False)
    assert load_report(log, ana.id, MONDAY).open_days == (MONDAY - timedelta(days=1), MONDAY - timedelta(days=2))


def test_the_worked_week_is_known_without_a_word_and_undone_with_one(log, ana, squat):
    for day, (rating, minutes) in WEEK.items():
        trained(log, ana, squat, MONDAY + timedelta(days=day), rating, minutes)
    after = MONDAY + timedelta(days=7)
    week = load_report(log, ana.id, after).weeks[-2]
    assert (week.words, week.week.load, week.week.assumed) == ("1,570", 1570, (1, 6))
    assert week.week.tells_monotony
    silent.count_silent_days(log, ana.id, after, as_rest=False)
    report = load_report(log, ana.id, after)
    assert (report.weeks[-2].words, report.silent_rests) == ("at least 1,570; 2 days not known", False)
    undo_newest(log, ana.id)
    assert load_report(log, ana.id, after).weeks[-2].week.load == 1570
    assert load_report(log, ana.id, after).silent_rests


def weeks_of(log, member, lift, loads, first=MONDAY):
    """A session on the Tuesday of each week, of so many minutes at a rating of 5; 0 for a silent week."""
    for number, minutes in enumerate(loads):
        if minutes:
            trained(log, member, lift, first + timedelta(weeks=number, days=1), 5, minutes)


def test_a_whole_week_is_set_beside_what_is_usual_and_silent_ones_are_left_out(log, ana, squat):
    weeks_of(log, ana, squat, [60, 70, 0, 80, 40])
    report = load_report(log, ana.id, MONDAY + timedelta(weeks=5))
    last = report.last_week
    assert (last.load, last.usual.low, last.usual.high, last.usual.weeks) == (200, 300, 400, 3)
    assert last.stand == "less"
    assert last.usual_rating.middle == 5
    whole = report.usual_of(lambda each: each.week.minutes)
    assert (whole.low, whole.middle, whole.high) == (40, 65, 80)


def test_a_week_that_is_on_is_set_beside_the_others_up_to_the_same_day(log, ana, squat):
    weeks_of(log, ana, squat, [60, 70, 80, 90])
    monday = MONDAY + timedelta(weeks=3)
    report = load_report(log, ana.id, monday)
    assert (report.this_week.days, report.this_week.load) == (0, 0)  # nothing is over yet
    report = load_report(log, ana.id, monday + timedelta(days=1))
    assert (report.this_week.days, report.this_week.load, report.this_week.stand) == (2, 450, "more")
    assert report.this_week.usual.high == 400
    trained(log, ana, squat, monday - timedelta(days=2), 5, 30)  # on a Saturday: of no weight on a Tuesday
    this_week = load_report(log, ana.id, monday + timedelta(days=1)).this_week
    assert (this_week.usual_sessions.low, this_week.usual_sessions.high) == (1, 1)
    assert (this_week.usual_minutes.low, this_week.usual_minutes.high) == (60, 80)


def test_silent_weeks_are_asked_about_once(log, ana, squat):
    weeks_of(log, ana, squat, [60, 0, 70, 0, 0, 80])
    today = MONDAY + timedelta(weeks=6)
    found = load_report(log, ana.id, today).silent_weeks
    assert (found.first, found.last, found.weeks) == (
        MONDAY + timedelta(weeks=3),
        MONDAY + timedelta(weeks=4, days=6),
        2,
    )
    silent.say_of_weeks(log, ana.id, found.first, found.last, today, rested=False)
    report = load_report(log, ana.id, today)
    assert [each.week.silent for each in report.weeks[-7:-1]] == [False, True, False, True, True, False]
    other = report.silent_weeks
    assert (other.first, other.weeks) == (MONDAY + timedelta(weeks=1), 1)
    silent.say_of_weeks(log, ana.id, other.first, other.last, today, rested=True)
    report = load_report(log, ana.id, today)
    assert report.silent_weeks is None
    assert report.weeks[-6].week.load == 0  # a week of rest is known, and counts
    undo_newest(log, ana.id)
    assert load_report(log, ana.id, today).silent_weeks == other


def test_weeks_before_the_first_day_or_that_were_told_of_on_today_are_not_asked_about(log, ana, squat):
    today = MONDAY + timedelta(weeks=4)
    assert load_report(log, ana.id, today).silent_weeks is None
    trained(log, ana, squat, MONDAY, 5, 60)
    assert load_report(log, ana.id, today).silent_weeks.weeks == 3
    back.trained_meanwhile(log, ana.id, MONDAY, today)
    assert load_report(log, ana.id, today).silent_weeks is None


def test_weeks_with_a_session_by_now_are_no_rest(log, ana, squat):
    trained(log, ana, squat, MONDAY, 5, 60)
    with pytest.raises(BadInputError, match="2026-03-02 has a session"):
        silent.say_of_weeks(log, ana.id, MONDAY, MONDAY + timedelta(days=6), MONDAY + timedelta(weeks=2), rested=True)
    with pytest.raises(BadInputError, match="end before they begin"):
        silent.say_of_weeks(log, ana.id, MONDAY, MONDAY - timedelta(days=1), MONDAY, rested=True)
    ahead = this_day() + timedelta(days=7)
    with pytest.raises(BadInputError, match="still to come"):
        silent.say_of_weeks(log, ana.id, ahead, ahead, this_day(), rested=True)


def test_the_first_session_after_a_break_is_said_neutrally(log, ana, squat):
    trained(log, ana, squat, MONDAY - timedelta(days=21), 6, 60)
    trained(log, ana, squat, MONDAY, 4, 30)
    assert load_report(log, ana.id, MONDAY).back == "first session after 20 days without one"


def test_tonnage_hard_sets_and_repetitions_stand_beside(log, ana, squat):
    pull = people.add_lift(log, "pull-up", "body")
    people.weigh(log, ana.id, MONDAY, Mass(Decimal(60), "kg"))
    bells = people.add_lift(log, "press", "dumbbells")
    log_set.log_set(log, ana.id, MONDAY, NewSet(squat.id, Mass(Decimal(80), "kg"), 5, rir=Decimal(2)))
    log_set.log_set(log, ana.id, MONDAY, NewSet(squat.id, Mass(Decimal(80), "kg"), 5))
    log_set.log_set(log, ana.id, MONDAY, NewSet(pull.id, Mass(Decimal(-10), "kg"), 8, rir=Decimal(5)))
    log_set.log_set(log, ana.id, MONDAY, NewSet(bells.id, Mass(Decimal(15), "kg"), 10, rir=Decimal(1)))
    week = load_report(log, ana.id, MONDAY, count=2).weeks[-1]
    assert week.tonnage_kg == 800 + 400 + 300  # (60 - 10) x 8; two dumbbells of 15 kg x 10
    assert (week.hard_sets.low, week.hard_sets.high) == (2, 3)
    assert {each.lift: each.reps for each in week.volume} == {
        "back squat, barbell": 10,
        "pull-up": 8,
        "press, dumbbells": 10,
    }


def test_what_is_planned_is_counted_for_what_is_left_of_the_week_and_the_next(log, ana, squat):
    weeks_of(log, ana, squat, [60, 60, 60])
    monday = MONDAY + timedelta(weeks=3)
    sets = (NewPlannedSet(squat.id, 3, 5, load=Mass(Decimal(70), "kg")),)
    steps = [NewStep(f"day {day}", day, sets) for day in (0, 2, 7, 9, 11)]
    with log.act("a wave", ana.id) as act:
        wave = log_waves.add_wave(act, "spring", steps, private_to=ana.id)
        log_waves.start_wave(act, ana.id, wave, monday)
    report = load_report(log, ana.id, monday + timedelta(days=1))
    assert (report.left.sessions, report.left.sets) == (1, 3)  # that of Monday is over
    assert (report.ahead.sessions, report.ahead.sets, report.ahead.load) == (3, 9, 900)
    assert report.usual_of(lambda each: each.sets).high == 1
