"""A wave planned on Sheet: by touches to a sheet in the field, its weeks and chances in sight, and into the calendar."""

from __future__ import annotations

import re
from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.desk.doing import did
from tests.pages.conftest import Open, opened
from tests.pages.conftest import words as all_words
from tracker.desk.day import today
from tracker.desk.people import people, places
from tracker.log.records import MemberRecord
from tracker.log.unit_of_work import Log


@pytest.fixture
def wren(log: Log) -> MemberRecord:
    """Ten weeks of squats, and a press that nobody has done."""
    place = places.add_place(log, "Loft", "kg")
    member = people.go_to_place(log, people.add_member(log, "Wren").id, place.id)
    squat = people.add_lift(log, "back squat", "barbell")
    people.add_lift(log, "press", "barbell")
    for week in range(10, 0, -1):
        did(log, member, squat, 7 * week, 80, 5, rir=Decimal(2))
    return member


def test_a_wave_by_touches_becomes_a_sheet_and_stands_in_the_calendar(log: Log, show: Open, wren: MemberRecord) -> None:
    at = opened(show(log, "sheet", wren.id), "plan_wave")
    text = all_words(at)
    assert re.search(r"Of \d\d sets \d\d are likely on their day", text)
    assert "about half, as published tapers have it" in text
    opened(at, "plan_sets")
    assert "Easy: as likely as not 6 or more repetitions would be left" in all_words(at)
    at.selectbox(key="plan_to_70").set_value(120).run()
    assert "probably too heavy: first back squat" in all_words(at)
    at.pills(key="plan_days").set_value([]).run()
    assert "Choose the days of the week." in all_words(at)
    at.pills(key="plan_days").set_value([0]).run()
    at.multiselect(key="plan_lifts").set_value([each.id for each in people.lifts(log)]).run()
    at.button(key="plan_make").click().run()
    assert not at.exception
    assert at.text_area(key="sheet_text").value.startswith("Title: Back squat and Press, test ")
    assert "sheet_session_1" not in at.session_state
    opened(at, "sheet_week_1")
    assert "Week 2 of 8" in all_words(at)
    opened(at, "ahead_of_sheet")
    assert "No 1RM of press, barbell is known yet." in all_words(at)
    at.button(key="sheet_take").click().run()
    assert not at.exception
    steps = today.steps(log, wren.id)
    assert steps[-1].due == this_day() + timedelta(weeks=8)
    assert steps[-1].title == "Test day"
    assert all(each.due.weekday() == 0 for each in steps[:-1])


def test_each_lift_may_have_numbers_of_its_own(log: Log, show: Open, wren: MemberRecord) -> None:
    at = opened(show(log, "sheet", wren.id), "plan_wave")
    squat, press = (next(each for each in people.lifts(log) if each.name == name) for name in ("back squat", "press"))
    at.multiselect(key="plan_lifts").set_value([squat.id, press.id]).run()
    at.toggle(key="plan_alike").set_value(False).run()
    at.selectbox(key=f"plan_sets_of_{press.id}").set_value(3).run()
    at.selectbox(key=f"plan_from_{press.id}").set_value(60).run()
    at.button(key="plan_make").click().run()
    assert not at.exception
    text = at.text_area(key="sheet_text").value
    assert re.search(r"press, barbell.*\n(?:.*\n)*?.*3 ?[x×] ?5 @ 60", text, re.IGNORECASE)
    assert re.search(r"4 ?[x×] ?5 @ 70", text)


def test_what_stands_in_the_calendar_is_foretold_behind_a_touch_on_the_day(
    log: Log, show: Open, wren: MemberRecord
) -> None:
    assert "weeks_ahead" not in show(log, "", wren.id).session_state
    at = opened(show(log, "sheet", wren.id), "plan_wave")
    at.button(key="plan_make").click().run()
    at.button(key="sheet_take").click().run()
    at = opened(show(log, "", wren.id), "weeks_ahead")
    assert not at.exception
    text = all_words(at)
    assert re.search(r"\d\d sessions up to .*: Test day\.", text)
    assert re.search(r"Of \d\d sets \d\d are likely on their day", text)
    opened(at, "weeks_ahead_sets")
    assert "Easy: as likely as not 6 or more repetitions would be left" in all_words(at)
