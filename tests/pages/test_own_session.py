"""A day without a sheet on the page: begun in one touch as a former one, touched off, kept under a name."""

from __future__ import annotations

from datetime import timedelta

from tests.day import this_day
from tests.pages.conftest import Open, opened, tap, words
from tracker.desk.day import own_session, today
from tracker.desk.people import people
from tracker.log.records import MemberRecord
from tracker.log.unit_of_work import Log


def test_three_touches_from_an_empty_day_to_all_sets_of_last_week_done(log: Log, noa: MemberRecord, show: Open):
    at = show(log)
    (source,) = own_session.sources(log, noa.id, this_day())
    tap(at, f"own_{source.session_id}")
    text = words(at)
    assert f"{source.title}: 2 sets laid out" in text
    assert "5 × 60 kg" in text
    assert "Last time, " in text
    tap(at, "log_as_asked")
    tap(at, "log_as_asked")
    plan = today.day_plan(log, noa.id, this_day())
    assert [(row.reps, str(row.load)) for row in plan.sets] == [(5, "60 kg")] * 2
    assert plan.whole
    assert "is over. What next?" not in words(at)  # no wave of a coach's


def test_a_session_is_kept_under_a_name_and_offered_first(log: Log, noa: MemberRecord, show: Open):
    at = show(log)
    tap(at, f"own_{own_session.sources(log, noa.id, this_day())[0].session_id}")
    tap(at, "log_as_asked")
    opened(at, "own_save")
    at.text_input(key="own_name").set_value("Leg day")
    at.session_state["own_save"] = True
    next(each for each in at.button if each.label == "Keep it").click().run()
    assert "Kept as Leg day" in words(at)
    tomorrow = this_day() + timedelta(days=1)
    assert own_session.sources(log, noa.id, tomorrow)[0].title == "Leg day"


def test_whoever_never_trained_is_offered_nothing(log: Log, show: Open):
    people.add_member(log, "Ola")
    assert "Begin from" not in words(show(log))
