"""When to stop: one touch away where something is logged, open at tests, in first sessions and coming back, nowhere else."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.loads import kg
from tests.pages.conftest import Open, words
from tracker.app import OF_OWNER, PAGES
from tracker.desk.day import log_set
from tracker.desk.people import people
from tracker.log import waves as log_waves
from tracker.log.records import MemberRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.safety import Person, shows_stop_signs

LOGS = {"today", "conditioning"}


def box(at):
    found = [each for each in at.expander if each.label == "When to stop"]
    assert len(found) <= 1
    return found[0] if found else None


@pytest.mark.parametrize("page", [name for name, _ in PAGES if name not in (*OF_OWNER, "sheet")])
def test_they_stand_on_pages_that_log_and_on_no_other(log: Log, anna: MemberRecord, show: Open, page: str):
    at = show(log, "" if page == PAGES[0][0] else page, anna.id)
    assert (box(at) is not None) is (page in LOGS)


def trained(log: Log, member: str, *ago: int) -> str:
    squat = people.add_lift(log, "back squat", "barbell", member_id=member)
    for days in ago:
        log_set.log_set(log, member, this_day() - timedelta(days=days), NewSet(squat.id, kg("80"), 3, Decimal(2)))
    return squat.id


@pytest.mark.parametrize(
    ("ago", "test", "opened"),
    [((), False, True), ((3,), False, True), ((30, 20, 10, 3), False, False), ((30, 20, 10, 3), True, True), ((40, 30), False, True)],
)  # fmt: skip
def test_they_lie_open_at_a_test_in_the_first_week_and_after_a_break(
    log: Log, anna: MemberRecord, show: Open, ago: tuple[int, ...], test: bool, opened: bool
):
    squat = trained(log, anna.id, *ago)
    with log.act("a wave") as act:
        planned = NewPlannedSet(squat, 1, 1, test=True) if test else NewPlannedSet(squat, 1, 5, load=kg("60"))
        log_waves.start_wave(act, anna.id, log_waves.add_wave(act, "Quay", [NewStep("Quay", 0, [planned])]), this_day())
    at = show(log, "", anna.id)
    signs = box(at)
    assert signs is not None
    assert signs.proto.expanded is opened
    assert "Call emergency help at once" in words(at)


@pytest.mark.parametrize(
    ("person", "opened"),
    [(Person(), True), (Person(days_since_first=6), True), (Person(days_since_first=7, days_off=2), False),
     (Person(days_since_first=90, days_off=14), True), (Person(days_since_first=90, days_off=1, days_back=6), True),
     (Person(days_since_first=90, days_off=1, days_back=7), False)],
)  # fmt: skip
def test_first_sessions_and_returns_last_a_week(person: Person, opened: bool):
    """Common sense of ours, from no study."""
    assert shows_stop_signs(person) is opened
    assert shows_stop_signs(person, test=True)
