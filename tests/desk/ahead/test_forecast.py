"""The fan of the trend, from the log: today first, wider further off, in the unit asked, and no word of a cause."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.day import this_day
from tests.desk.doing import did, somebody
from tracker.desk.ahead.forecast import fan, record, shown_weeks
from tracker.desk.maxes import estimates
from tracker.desk.people import people
from tracker.errors import BadInputError


def test_a_fan_begins_today_with_the_estimate_and_widens(squatted):
    log, member, lift = squatted
    told = fan(log, member, lift, reps=3, unit="kg", day=this_day(), weeks=12)
    assert [each.day for each in told.points] == [this_day() + timedelta(weeks=week) for week in range(13)]
    now = estimates.history(log, member.id, lift).model.estimate(this_day()).rep_max[3]
    assert told.points[0].band.estimate == pytest.approx(now.estimate)
    assert told.points[12].band.high80 - told.points[12].band.low80 > now.high80 - now.low80
    assert "if you train on as you have. No promise, and it names no cause" in told.words
    pounds = fan(log, member, lift, reps=3, unit="lb", day=this_day(), weeks=4)
    assert pounds.points[4].band.estimate == pytest.approx(told.points[4].band.estimate / 0.45359237)
    with pytest.raises(BadInputError, match="1 to 104"):
        fan(log, member, lift, reps=3, unit="kg", day=this_day(), weeks=105)
    later = this_day() + timedelta(days=70)
    assert "if you take it up again" in fan(log, member, lift, reps=3, unit="kg", day=later, weeks=4).words


def test_of_a_few_easy_sets_nothing_is_foretold(log):
    member, lift = somebody(log, "Bo"), people.add_lift(log, "press", "barbell")
    assert fan(log, member, lift, reps=1, unit="kg", day=this_day(), weeks=4).points == ()
    did(log, member, lift, 3, 40, 5)
    assert fan(log, member, lift, reps=1, unit="kg", day=this_day(), weeks=4).words == ""


def test_far_weeks_have_fewer_points_and_the_last_always_has_one():
    assert shown_weeks(12) == tuple(range(1, 13))
    assert shown_weeks(26)[-1] == 26
    assert shown_weeks(52)[-2:] == (50, 52)
    assert len(shown_weeks(104)) < 45


def test_the_record_says_how_often_it_held_in_the_unit_of_the_view(squatted, log):
    _, member, lift = squatted
    found = record(log, member, lift, reps=5, unit="kg")
    assert found.words.startswith("Of 2 weeks foretold four weeks ahead with 80 %, ")
    assert [each.test for each in found.each] == [False, False]
    pounds = record(log, member, lift, reps=5, unit="lb")
    assert pounds.each[0].found == pytest.approx(found.each[0].found / 0.45359237)
    press = people.add_lift(log, "press", "barbell")
    assert record(log, member, press, reps=5, unit="kg").words == "Nothing of this lift could be foretold yet."
