"""A clock that is set back, a night without an hour, a traveller: order, undo and days stay what they were."""

from datetime import date, datetime
from decimal import Decimal
from pathlib import Path

import pytest
import time_machine

from tests.faults.whole import faults_of
from tests.readings import newest
from tests.undoing import newest_act, undo_newest
from tracker.desk.day import log_set
from tracker.desk.history import journal
from tracker.log.engine import database_url
from tracker.log.sets import NewSet, sets_of
from tracker.log.unit_of_work import Log
from tracker.units import Mass


def of(squat, load):
    return NewSet(squat.id, Mass(Decimal(load), "kg"), 5)


def loads(log, ana):
    with log.reading() as session:
        return [int(row.load.amount) for row in sets_of(session, ana.id)]


def test_a_clock_set_back_a_year_neither_loses_nor_reorders_sets(log, ana, squat):
    day = date(2026, 3, 2)
    with time_machine.travel("2026-03-02T18:00:00Z"):
        log_set.log_set(log, ana.id, day, of(squat, 60))
    before = newest(log)
    with time_machine.travel("2025-03-02T18:00:00Z"):
        assert loads(log, ana) == [60]
        log_set.log_set(log, ana.id, date(2025, 3, 2), of(squat, 61))
        assert newest(log) > before  # what is kept in memory hangs on it, not on the clock
        assert "61 kg" in newest_act(log, ana.id).words
        assert "61 kg" in undo_newest(log, ana.id)
        assert "60 kg" in newest_act(log, ana.id).words
    with time_machine.travel("2026-03-02T18:05:00Z"):
        log_set.log_set(log, ana.id, day, of(squat, 62))
    with time_machine.travel("2026-03-02T17:00:00Z"):  # an hour back, the same evening
        log_set.log_set(log, ana.id, day, of(squat, 63))
    assert loads(log, ana) == [60, 62, 63]
    assert faults_of(Path(log.url.database)) == []


def test_history_is_in_the_order_of_the_acts_whatever_the_clock_said(log, ana, squat):
    for moment, load in (("2026-03-02T18:00:00Z", 60), ("2026-03-01T18:00:00Z", 61), ("2026-03-03T18:00:00Z", 62)):
        with time_machine.travel(moment):
            log_set.log_set(log, ana.id, date(2026, 3, 1), of(squat, load))
    words = [entry.words for entry in journal.acts(log, ana.id)]
    assert [word.split(" x ")[1] for word in words[:3]] == ["62 kg", "61 kg", "60 kg"]


@pytest.mark.parametrize(
    "moment",
    [
        "2026-03-29T00:59:59Z",
        "2026-03-29T01:30:00Z",
        "2026-10-25T00:30:00Z",
        "2026-10-25T01:30:00Z",
        "2028-02-29T23:59:59Z",
    ],
    ids=["before the lost hour", "in it", "in the doubled hour", "in it again", "leap day"],
)
def test_a_day_is_kept_as_it_was_said(log, ana, squat, moment, monkeypatch):
    monkeypatch.setenv("TZ", "Europe/Berlin")
    with time_machine.travel(moment):
        day = datetime.now().astimezone().date()  # the day of that clock
        row = log_set.log_set(log, ana.id, day, of(squat, 60))
    log.close()
    again = Log(database_url(str(log.url.database)))
    with again.reading() as session, time_machine.travel("2030-01-01T00:00:00Z"):
        kept = sets_of(session, ana.id)
    again.close()
    assert [(each.id, each.day) for each in kept] == [(row.id, day)]
    assert kept[0].logged_at.isoformat()[:19] == moment[:19]


def test_a_set_of_the_day_ahead_is_taken_for_travellers_and_no_later_one(log, ana, squat):
    from tracker.errors import BadInputError

    with time_machine.travel("2026-03-02T10:30:00Z"):
        log_set.log_set(log, ana.id, date(2026, 3, 3), of(squat, 60))  # west of here it is still yesterday
        with pytest.raises(BadInputError, match="still to come"):
            log_set.log_set(log, ana.id, date(2026, 3, 4), of(squat, 60))
    assert loads(log, ana) == [60]
