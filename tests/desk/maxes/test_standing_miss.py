"""A load that was missed and not made since is said, and nothing that was made, left out or is long ago."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.loads import kg
from tracker.desk.day import log_set
from tracker.desk.maxes import estimates
from tracker.desk.maxes.standing_miss import StandingMiss, standing_miss
from tracker.desk.people import people
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.strength.records import Band

FIVE = Band(40.2, 37.4, 42.6)  # as it would stand on a page: about 40 kg


def said(log: Log, *rows: tuple[int, str, int, str], now: Band = FIVE) -> StandingMiss | None:
    """Log sets (days ago, kg, repetitions, how it ended) and ask what stands against a 5RM."""
    member = people.add_member(log, "Bo")
    press = people.add_lift(log, "press", "barbell")
    for ago, load, reps, outcome in rows:
        new = NewSet(press.id, kg(load), reps, Decimal(1) if outcome == "done" else None, outcome)
        log_set.log_set(log, member.id, this_day() - timedelta(days=ago), new, sure=True)
    return standing_miss(estimates.history(log, member.id, press), 5, "kg", now, this_day())


def test_a_load_missed_on_two_days_is_said_with_its_days(log: Log):
    found = said(log, (60, "37.5", 5, "done"), (19, "40", 4, "missed"), (5, "40", 3, "missed"))
    assert found is not None
    assert found.short == "40 kg missed on 2 days"
    days = [this_day() - timedelta(days=ago) for ago in (19, 5)]
    assert found.days == tuple(days)
    names = [f"{day.day} {day:%b}{'' if day.year == this_day().year else f' {day.year}'}" for day in days]
    assert found.when(this_day()) == f"on {' and '.join(names)}"


@pytest.mark.parametrize(
    "rows",
    [
        ((19, "40", 4, "missed"), (5, "40", 5, "done")),  # made since
        ((5, "40", 4, "missed"), (5, "41", 5, "done")),  # made on the same day, later
        ((19, "40", 5, "missed"),),  # five were made, the sixth was missed
        ((19, "42.5", 4, "missed"),),  # more than is believed
        ((120, "40", 4, "missed"),),  # too long ago
        ((19, "40", 3, "cut"),),  # ended for another reason
    ],
)
def test_what_contradicts_nothing_is_not_said(log: Log, rows):
    assert said(log, *rows) is None


def test_the_lightest_load_that_was_missed_counts(log: Log):
    found = said(log, (19, "40", 4, "missed"), (12, "39", 3, "missed"), (5, "38", 4, "missed"), (2, "38", 5, "done"))
    assert found is not None
    assert found.short == "39 kg missed"
