"""The load: more or less than usual, what is planned, what is missing and asked, and never "not known" over and over."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.day import this_day
from tests.loads import kg
from tests.pages.conftest import Open, words
from tracker.desk.day import log_set, session_said
from tracker.desk.history import training_load
from tracker.desk.people import people
from tracker.log import waves as log_waves
from tracker.log.records import MemberRecord
from tracker.log.sessions import sessions_on
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewPlannedSet, NewStep


def monday(weeks_ago: int = 0):
    return this_day() - timedelta(days=this_day().weekday(), weeks=weeks_ago)


def trained(log: Log, member: MemberRecord, day, minutes: int | None = 60, rating: int | None = 5) -> None:
    squat = people.add_lift(log, "front squat", "barbell")
    log_set.log_set(log, member.id, day, NewSet(squat.id, kg(60), 5), sure=True)
    with log.reading() as session:
        (row,) = sessions_on(session, member.id, day)
    session_said.rate_session(log, row.id, member.id, rating=rating, minutes=minutes, note="")


def last_week(at):
    return at.pills(key="kept_of").set_value("last").run()


def test_somebody_who_trains_twice_a_week_reads_how_it_stands(show: Open, log: Log, anna: MemberRecord):
    for week, minutes in ((4, 60), (3, 65), (2, 70), (1, 40)):
        trained(log, anna, monday(week), minutes)
        trained(log, anna, monday(week) + timedelta(days=3), minutes)
    at = last_week(show(log, "load", anna.id))
    text = words(at)
    assert "Less than usual" in text
    assert "<dd>400 <span>points</span></dd><dd>below: usually 600 to 700</dd>" in text
    assert "<dd>80 <span>min</span></dd><dd>below: usually 120 to 140</dd>" in text
    assert "<dd>5 <span>of 10</span></dd><dd>hard, usually 5</dd>" in text
    assert "Load and time are below your usual range, the rest in it." in text
    assert "not known" not in text
    assert "Next week:</b> nothing is planned yet." in text


@pytest.mark.parametrize(
    ("minutes", "head"), [(61, "About as usual"), (90, "More than usual"), (30, "Less than usual")]
)
def test_the_headline_says_more_or_less_or_as_usual(show: Open, log: Log, anna: MemberRecord, minutes, head):
    for week, usually in ((4, 60), (3, 62), (2, 64)):
        trained(log, anna, monday(week), usually)
    trained(log, anna, monday(1), minutes)
    assert head in words(last_week(show(log, "load", anna.id)))


def test_a_silent_week_is_asked_about_once_and_drawn_as_such(show: Open, log: Log, anna: MemberRecord):
    trained(log, anna, monday(3))
    trained(log, anna, monday(1))
    at = show(log, "load", anna.id)
    assert "A week without an entry" in words(at)
    assert "nothing logged that week" in words(at)
    at.button(key="load_weeks_trained").click().run()
    assert not at.exception
    assert "A week without an entry" not in words(at)
    assert "nothing logged that week" in words(at)
    at.button(key="frame_undo").click().run()
    at.button(key="load_weeks_rest").click().run()
    assert "nothing logged that week" not in words(at)


def test_silent_days_are_asked_about_where_they_are_not_rest(show: Open, log: Log, anna: MemberRecord):
    trained(log, anna, monday(1))
    at = show(log, "load", anna.id)
    assert not [each.label for each in at.expander if "without an entry" in each.label]
    at.toggle(key="load_silent").set_value(False).run()
    assert [each.label for each in at.expander if "without an entry" in each.label]
    assert "at least" in words(last_week(at))
    at.button(key="frame_undo").click().run()
    assert at.toggle(key="load_silent").value is True


def test_a_missing_rating_is_asked_for_where_it_stands_in_the_way(show: Open, log: Log, anna: MemberRecord):
    trained(log, anna, monday(1), rating=None)
    at = last_week(show(log, "load", anna.id))
    assert "Rate 1 session to compare" in words(at)
    next(each for each in at.get("button_group") if each.key.startswith("load_rating_")).set_value(7)
    next(each for each in at.button if each.label == "Save").click().run()
    assert not at.exception
    assert training_load.load_report(log, anna.id, this_day()).weeks[-2].week.load == 420


def test_the_weeks_are_drawn_by_any_of_four_sums_and_stand_in_a_table(show: Open, demo_log: Log):
    for member in people.members(demo_log):
        at = show(demo_log, "load", member.id)
        assert not at.exception
        assert "not known" not in words(at)
        for by in ("load", "time", "sets", "moved"):
            at.pills(key="kept_by").set_value(by).run()
            assert not at.exception
            assert len(at.get("plotly_chart")) == 1
        assert "randomised trial" in words(at)
        assert len(at.dataframe[0].value) > 8


def test_load_of_an_empty_log_says_so(show: Open, log: Log, anna: MemberRecord):
    assert "Nothing is logged yet" in words(show(log, "load", anna.id))


def test_a_jump_that_is_planned_is_said_with_what_is_usual(show: Open, log: Log, anna: MemberRecord):
    for week in (3, 2, 1):
        trained(log, anna, monday(week))
    squat = people.add_lift(log, "front squat", "barbell")
    steps = [NewStep(f"day {n}", n, (NewPlannedSet(squat.id, sets, 5, load=kg(60)),)) for n, sets in ((0, 1), (8, 5))]
    with log.act("a wave", anna.id) as act:
        wave = log_waves.add_wave(act, "spring", steps, private_to=anna.id)
        log_waves.start_wave(act, anna.id, wave, monday(-1))
    text = words(show(log, "load", anna.id))
    assert "<b>No jump coming.</b> Next week: 1 session, 1 set; usually 1 set a week." in text
    with log.act("a wave", anna.id) as act:
        wave = log_waves.add_wave(act, "summer", steps[1:], private_to=anna.id)
        log_waves.start_wave(act, anna.id, wave, monday())
    text = words(show(log, "load", anna.id))
    assert "<b>A jump is coming.</b> Next week: 2 sessions, 6 sets; usually 1 set a week." in text
