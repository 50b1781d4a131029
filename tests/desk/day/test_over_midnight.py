"""Shortly after midnight a session goes on with the day on which it began; both limits are choices of ours."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

import pytest

from tests.day import this_day
from tests.loads import kg
from tracker.desk.day import log_set, over_midnight
from tracker.desk.people import people
from tracker.log.sets import NewSet
from tracker.log.touches import Touch, touching


def at(day: date, hour: int, minute: int) -> datetime:
    return datetime.combine(day, time(hour, minute)).astimezone()


@pytest.fixture
def trained(log):
    """Log a set of a day, touched at a moment."""
    member = people.add_member(log, "Wren").id
    lift = people.add_lift(log, "front squat", "barbell", member_id=member)

    def one(day: date, moment: datetime) -> str:
        with touching(Touch(f"touch-{moment:%d%H%M}", member, "set", "", "phone", 1, day, moment)):
            log_set.log_set(log, member, day, NewSet(lift.id, kg("60"), 4))
        return member

    return one


def test_who_trains_over_midnight_stays_on_the_day_on_which_they_began(log, trained):
    day = this_day() - timedelta(days=2)
    member = trained(day, at(day, 23, 40))
    after = day + timedelta(days=1)
    assert over_midnight.day_on(log, member, at(after, 0, 20)) == day
    assert over_midnight.day_on(log, member, at(after, 1, 41)) == after, "long over"
    assert over_midnight.day_on(log, member, at(day, 23, 50)) == day
    trained(day, at(after, 0, 30))
    assert over_midnight.day_on(log, member, at(after, 2, 20)) == day, "it goes on from the newest set"
    trained(after, at(after, 0, 40))
    assert over_midnight.day_on(log, member, at(after, 0, 41)) == after, "the new day was begun by hand"


def test_a_set_written_down_a_day_later_is_no_session_that_goes_on(log, trained):
    day = this_day() - timedelta(days=2)
    member = trained(day, at(day + timedelta(days=1), 9, 0))
    assert over_midnight.day_on(log, member, at(day + timedelta(days=1), 9, 5)) == day + timedelta(days=1)
