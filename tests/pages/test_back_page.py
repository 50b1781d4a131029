"""Back after weeks without an entry: lower loads are asked about on the card, and who trained meanwhile says how."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.day import this_day
from tests.loads import kg
from tests.pages.conftest import Open, tap, words
from tests.pages.squats import squatting
from tracker.desk.day import log_set, today
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.log.records import MemberRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log


@pytest.fixture
def viggo(log: Log) -> MemberRecord:
    return squatting(log, "Viggo")


def away(log: Log, member: MemberRecord, days: int) -> None:
    """Let the max be from before so many whole days without an entry."""
    for known in rep_maxes.rep_maxes(log, member.id):
        rep_maxes.remove_rep_max(log, member.id, known.id)
    lift, day = people.lifts(log)[0], this_day() - timedelta(days=days + 1)
    rep_maxes.add_rep_max(log, member.id, lift.id, day, 5, kg(100), tested=True)
    log_set.log_set(log, member.id, day, NewSet(lift.id, kg(60), 5))


def keys(at) -> set[str]:
    return {each.key for each in at.button if each.key}


def test_after_a_month_nothing_is_lowered_before_it_is_asked(log: Log, viggo: MemberRecord, show: Open):
    away(log, viggo, 31)
    at = show(log)
    assert "log_as_asked" not in keys(at)
    assert at.button(key="start_lower").label == "10 % lower: 62.5 kg"
    assert at.button(key="start_as_asked").label == "As asked: 70 kg"
    tap(at, "start_as_asked")
    assert at.button(key="log_as_asked").label == "Done: 5 × 70 kg"
    assert "start_lower" not in keys(at)


def test_after_nine_months_the_load_as_asked_is_not_one_touch_away(log: Log, viggo: MemberRecord, show: Open):
    away(log, viggo, 271)
    at = show(log)
    assert "step 1 of 4" in words(at)
    assert "start_as_asked" not in keys(at)
    tap(at, "trained_meanwhile")
    assert "How did you train meanwhile?" in words(at)
    assert today.day_plan(log, viggo.id, this_day()).back is not None  # not yet
    tap(at, "meanwhile_lighter")
    assert "10 % lower" in words(at)
    tap(at, "start_lower")
    assert at.button(key="log_as_asked").label == "Done: 5 × 62.5 kg"


def test_whoever_trained_the_same_is_asked_once_how_and_then_has_loads_as_asked(
    log: Log, viggo: MemberRecord, show: Open
):
    away(log, viggo, 271)
    at = tap(tap(show(log), "trained_meanwhile"), "meanwhile_same")
    assert at.button(key="log_as_asked").label == "Done: 5 × 70 kg"


def test_an_old_max_is_asked_about_unprompted(log: Log, viggo: MemberRecord, show: Open):
    away(log, viggo, 31)
    lift = people.lifts(log)[0]
    at = show(log)
    assert "Tested 5RM of back squat, barbell, 100 kg</b>, is from before the break (4 weeks ago)" in words(at)
    tap(at, f"old_holds_{lift.id}_5")
    assert "Does it still hold?" not in words(at)
    assert today.day_plan(log, viggo.id, this_day()).old_maxes == ()


def test_one_that_holds_no_more_is_set_aside_there_and_used_for_no_load(log: Log, viggo: MemberRecord, show: Open):
    away(log, viggo, 31)
    lift = people.lifts(log)[0]
    tap(show(log), f"old_aside_{lift.id}_5")
    (row,) = rep_maxes.rep_maxes(log, viggo.id)
    assert row.aside
    assert all(
        line.reference is None or line.reference.source != "tested"
        for line in today.day_plan(log, viggo.id, this_day()).lines
    )
