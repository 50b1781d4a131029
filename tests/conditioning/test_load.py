"""Training load: the worked week, both standard deviations, days that nobody knows of, and how much was lifted."""

from datetime import date, timedelta
from math import sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.conditioning.counts import Count
from tracker.conditioning.load import (
    ANCHORS,
    Rated,
    Usual,
    back_words,
    days_off_before,
    monotony,
    usual,
    week_words,
    weeks,
)
from tracker.conditioning.volume import Lifted, volume_by_lift
from tracker.errors import BadInputError

MONDAY = date(2026, 2, 23)
WORKED = ((6, 60), None, (8, 50), (3, 40), (7, 60), (9, 30), None)  # rating and minutes; computed, not from the paper


def week_of(days, first=MONDAY):
    sessions = [Rated(first + timedelta(n), day[1], day[0]) for n, day in enumerate(days) if day]
    rest = [first + timedelta(n) for n, day in enumerate(days) if day is None]
    return sessions, rest


def test_the_worked_week_with_both_standard_deviations():
    """Definitions: Foster 1998 (abstract): monotony is mean over SD, strain is load x monotony. Figures computed."""
    (week,) = weeks(*week_of(WORKED)[:1], MONDAY, 1, week_of(WORKED)[1])
    assert week.days == (360, 0, 400, 120, 420, 270, 0)
    assert week.load == 1570
    assert week.monotony("sample") == pytest.approx(224.29 / 183.11, abs=5e-5)
    assert round(week.monotony("sample"), 2) == 1.22
    assert round(week.load_x_monotony("sample")) == 1923
    assert round(week.monotony("population"), 2) == 1.32
    assert round(week.load_x_monotony("population")) == 2077
    assert week.monotony() == week.monotony("sample")
    assert week.hard_sessions == 3
    assert week_words(week) == "1,570"
    assert week.rest_days == 2


def test_an_even_week_of_less_load_has_more_monotony():
    days = (250, 260, 240, 250, 255, 245, 0)
    assert sum(days) == 1500
    assert round(monotony(days), 2) == 2.26
    assert round(sum(days) * monotony(days)) == 3394


@given(st.lists(st.integers(0, 900), min_size=7, max_size=7).filter(lambda days: len(set(days)) > 1))
@settings(max_examples=60, deadline=None)
def test_the_two_conventions_differ_by_a_fixed_factor_and_agree_with_numpy(days):
    assert monotony(days, "population") / monotony(days) == pytest.approx(sqrt(7 / 6)) if sum(days) else True
    assert monotony(days) == pytest.approx(np.mean(days) / np.std(days, ddof=1))


def test_seven_equal_days_have_no_monotony():
    assert monotony([100.0] * 7) is None
    assert monotony([0.0] * 7) is None


def test_an_unknown_day_is_not_a_rest_day():
    sessions, rest = week_of(WORKED)
    (week,) = weeks(sessions, MONDAY, 1, rest[:1])  # Sunday: nobody said
    assert week.days[6] is None
    assert week.unknown_days == 1
    assert week.load is None
    assert week.monotony() is None
    assert week.load_x_monotony() is None
    assert week.known_load == 1570


def test_a_missing_rating_is_said_and_leaves_the_week_open():
    sessions, rest = week_of(WORKED)
    sessions[0] = Rated(MONDAY, 60, None)
    (week,) = weeks(sessions, MONDAY, 1, rest)
    assert (week.unrated, week.sessions, week.load) == (1, 5, None)
    assert week.minutes == 240
    assert week.known_load == 1210
    assert week_words(week) == "at least 1,210; 1 session without a rating"
    (vague,) = weeks(sessions, MONDAY, 1)
    assert week_words(vague) == "at least 1,210; 1 session without a rating, 2 days not known"


@pytest.mark.parametrize(
    ("over", "said"),
    [
        (7, "at least 360; 1 session without a rating, 4 days not known"),
        (3, "at least 360 so far; 1 session without a rating"),
        (0, "at least 360 so far; 1 session without a rating"),
    ],
)
def test_days_to_come_are_not_missing(over, said):
    sessions = [Rated(MONDAY, 60, 6), Rated(MONDAY + timedelta(days=1), 60, None)]
    (week,) = weeks(sessions, MONDAY, 1, [MONDAY + timedelta(days=2)])
    assert week_words(week, over=over) == said


def test_a_week_that_is_on_and_has_nothing_missing_says_so():
    (week,) = weeks([Rated(MONDAY, 60, 6)], MONDAY, 1)
    assert week_words(week, over=1) == "360 so far"


def test_two_sessions_on_a_day_add_up():
    (week,) = weeks([Rated(MONDAY, 30, 5), Rated(MONDAY, 20, 4)], MONDAY, 1)
    assert week.days[0] == 230


@pytest.mark.parametrize(
    ("trained", "before", "known", "assumed"),
    [
        ({0, 2, 4}, 7, (60, 0, 60, 0, 60, 0, 0), (1, 3, 5, 6)),
        ({0, 2}, 4, (60, 0, 60, 0, None, None, None), (1, 3)),  # Friday: what is still to come is nothing yet
        ({3}, 4, (0, 0, 0, 60, None, None, None), (0, 1, 2)),
        (set(), 7, (None,) * 7, ()),  # nobody knows what a week without any entry was
    ],
)
def test_silent_days_are_rest_in_a_week_with_a_session_alone(trained, before, known, assumed):
    """Our choice, without a source."""
    sessions = [Rated(MONDAY + timedelta(n), 20, 3) for n in trained]
    (week,) = weeks(sessions, MONDAY, 1, rests_before=MONDAY + timedelta(before))
    assert (week.days, week.assumed) == (known, assumed)
    assert week.silent == (not trained)
    assert week.load == (None if None in known else 20 * 3 * len(trained))


@given(
    st.sets(st.integers(0, 27)),
    st.sets(st.integers(0, 27)),
    st.integers(0, 28),
)
@settings(max_examples=80, deadline=None)
def test_what_is_taken_as_rest_changes_no_sum_and_is_never_a_day_that_is_known(trained, said, before):
    sessions = [Rated(MONDAY + timedelta(n), 30, 4) for n in trained]
    rest = [MONDAY + timedelta(n) for n in said - trained]
    plain = weeks(sessions, MONDAY, 4, rest)
    ruled = weeks(sessions, MONDAY, 4, rest, rests_before=MONDAY + timedelta(before))
    for one, other in zip(plain, ruled, strict=True):
        assert (one.known_load, one.minutes, one.sessions) == (other.known_load, other.minutes, other.sessions)
        changed = [n for n in range(7) if one.days[n] != other.days[n]]
        assert tuple(changed) == other.assumed
        assert all(one.days[n] is None and other.days[n] == 0 for n in changed)
        assert all((other.first - MONDAY).days + n < before for n in changed)
        assert not changed or other.sessions


def test_an_unrated_session_is_no_rest():
    (week,) = weeks([Rated(MONDAY, 60, None)], MONDAY, 1, rests_before=MONDAY + timedelta(7))
    assert (week.days[0], week.load, week.trained_days) == (None, None, 1)
    assert week_words(week) == "at least 0; 1 session without a rating"


def test_a_silent_week_is_said_to_be_one():
    (week,) = weeks([], MONDAY, 1, rests_before=MONDAY + timedelta(7))
    assert (week_words(week), week_words(week, over=3)) == ("nothing logged", "nothing logged yet")
    (rested,) = weeks([], MONDAY, 1, [MONDAY + timedelta(n) for n in range(7)])
    assert (rested.silent, week_words(rested)) == (False, "0")


def test_what_is_usual_leaves_out_what_is_not_known():
    assert usual([300, None, 320, 640]) == Usual(300, 320, 640, 3)
    assert usual([300, None, None, 640]) is None  # two are too few
    assert usual([9000, 1, 2, 3, 4, 5, 6]) == Usual(1, 3.5, 6, 6)  # the last six
    assert usual([1, 2, 3, *[None] * 9]) is None  # too long ago
    found = usual([300, 320, 640])
    assert [found.stand(amount) for amount in (299, 300, 640, 641)] == ["less", "as usual", "as usual", "more"]


def test_a_week_up_to_a_day():
    (week,) = weeks([Rated(MONDAY, 60, 5), Rated(MONDAY + timedelta(2), 60, None)], MONDAY, 1, [MONDAY + timedelta(1)])
    assert [week.up_to(days) for days in (0, 1, 2, 3)] == [0, 300, 300, None]


def test_monotony_is_told_where_most_days_were_trained_on():
    sessions, rest = week_of(WORKED)
    (five,) = weeks(sessions, MONDAY, 1, rest)
    assert (five.trained_days, five.tells_monotony) == (5, True)
    (three,) = weeks(sessions[:3], MONDAY, 1, rests_before=MONDAY + timedelta(7))
    assert (three.trained_days, three.tells_monotony) == (3, False)
    assert three.monotony() is not None  # it can be worked out, and says little
    (open_,) = weeks(sessions, MONDAY, 1)
    assert not open_.tells_monotony


def test_days_off():
    days = [date(2026, 1, 1), date(2026, 1, 16)]
    assert days_off_before(days, date(2026, 1, 16)) == 14
    assert days_off_before(days, date(2026, 1, 1)) is None
    assert back_words(14) == "first session after 14 days without one"
    assert back_words(13) == back_words(None) == ""


@pytest.mark.parametrize(
    ("minutes", "rating"), [(60, 11), (60, -1), (0, 5), (1500, 5), (float("nan"), 5), (60, float("nan"))]
)
def test_impossible_sessions_are_refused(minutes, rating):
    with pytest.raises(BadInputError):
        Rated(MONDAY, minutes, rating)


def test_a_day_cannot_be_both_rest_and_training():
    with pytest.raises(BadInputError, match="no rest day"):
        weeks([Rated(MONDAY, 30, 5)], MONDAY, 1, [MONDAY])


def test_anchors_of_the_rating():
    """Foster et al. 2001, modified CR-10, as quoted in a text that reports it."""
    assert (ANCHORS[0], ANCHORS[3], ANCHORS[5], ANCHORS[7], ANCHORS[10]) == (
        "Rest",
        "Moderate",
        "Hard",
        "Very hard",
        "Maximal",
    )
    assert not {6, 8, 9} & set(ANCHORS)


def test_tonnage_hard_sets_and_repetitions_by_lift():
    """By hand: 5 x 100 + 4 x 100 + 3 x 60 kg; dumbbells 2 x 20 kg x 8 on each side."""
    squat, split = "front squat", "split squat"
    done = [
        Lifted(squat, 60, 3, kind="ramp"),
        Lifted(squat, 100, 5, rir=2),
        Lifted(squat, 100, 4, outcome="missed"),
        Lifted(split, 20, 8, implements=2, per_side=True),
        Lifted(split, 20, 8, rir=5, implements=2, per_side=True),
    ]
    first, second = volume_by_lift(done)
    assert (first.lift, first.tonnage_kg, first.sets, first.reps) == (squat, 1080, 3, 12)
    assert first.hard_sets == Count(2, 2)
    assert (second.tonnage_kg, second.reps) == (2 * 20 * 16 * 2, 32)
    assert second.hard_sets == Count(0, 1)  # one of unknown reserve
