"""A set that no session asks for, on the day's page: any lift, a new one, one of the body, and on a past day."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.pages.conftest import Open, field, tap, words
from tests.pages.squats import done, squatting
from tracker.desk.day import log_set, today
from tracker.desk.people import people
from tracker.log.records import MemberRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.units import Mass


@pytest.fixture
def anna(log: Log) -> MemberRecord:
    return squatting(log, "Anna")


def test_without_a_wave_any_lift_is_logged_in_two_touches(log: Log, show: Open):
    """A load that only the kind of a lift says is a hint: a stray touch logs nothing."""
    member = people.add_member(log, "Bo")
    lift = people.add_lift(log, "row", "machine")
    at = show(log)
    assert "No session is planned" in words(at)
    tap(at, field(at, "button", "_log", "free_").key)
    assert "is not a number" in words(at)
    assert not done(log, member.id)
    tap(at, field(at, "button", "_hint", "free_").key)
    tap(at, field(at, "button", "_log", "free_").key)
    (row,) = done(log, member.id)
    assert (row.lift.id, row.planned_set_id, str(row.load)) == (lift.id, None, "10 kg")
    tap(at, field(at, "button", "_log", "free_").key)  # from now on the load is the member's own
    assert len(done(log, member.id)) == 2


def test_a_new_lift_is_named_with_its_implement_and_then_chosen(log: Log, show: Open):
    member = people.add_member(log, "Bo")
    at = show(log)
    take = next(each for each in at.button if each.label == "Take this lift")
    take.click().run()
    assert "has no name" in words(at)
    at.text_input(key="free_new_name").set_value("Front squat")
    at.selectbox(key="free_new_implement").set_value("dumbbells")
    next(each for each in at.button if each.label == "Take this lift").click().run()
    tap(at, field(at, "button", "_hint", "free_").key)
    tap(at, field(at, "button", "_log", "free_").key)
    assert done(log, member.id)[0].lift.title == "front squat, dumbbells"


def test_a_lift_of_the_body_asks_for_its_mass_once(log: Log, show: Open):
    member = people.add_member(log, "Bo")
    people.add_lift(log, "pull-up", "body")
    at = show(log)
    assert field(at, "button", "_hint", "free_").label == "body mass"
    tap(at, field(at, "button", "_hint", "free_").key)
    tap(at, field(at, "button", "_log", "free_").key)
    assert "no body mass is known" in words(at)
    assert not done(log, member.id)
    field(at, "text_input", "_body", "free_").set_value("81,5").run()
    tap(at, field(at, "button", "_log", "free_").key)
    assert str(done(log, member.id)[0].body_mass) == "81.5 kg"
    tap(at, field(at, "button", "_log", "free_").key)
    assert len(done(log, member.id)) == 2


def test_a_past_day_is_written_on_and_an_impossible_one_is_not(log: Log, anna: MemberRecord, show: Open):
    past = this_day() - timedelta(days=30)
    at = show(log)
    at.date_input(key="where_date").set_value(past).run()
    assert "Date: **" in words(at)
    at.session_state["free"] = True
    at.run()
    tap(at, field(at, "button", "_hint", "free_").key)
    tap(at, field(at, "button", "_log", "free_").key)
    assert len(today.day_plan(log, anna.id, past).sets) == 1
    assert not done(log, anna.id)
    at.query_params["day"] = "2999-01-01"
    assert "Date: **" not in words(at.run())


def test_a_free_set_starts_from_the_newest_one_of_the_lift(log: Log, anna: MemberRecord, show: Open):
    lift = people.lifts(log)[0]
    for ago, load in ((9, "60"), (2, "62.5"), (5, "80")):
        new = NewSet(lift.id, Mass(Decimal(load), "kg"), 4)
        log_set.log_set(log, anna.id, this_day() - timedelta(days=ago), new)
    at = show(log)
    at.session_state["free"] = True
    at.run()
    assert field(at, "text_input", "_load", "free_").value == "62.5"
    assert field(at, "number_input", "_reps", "free_").value == 4
