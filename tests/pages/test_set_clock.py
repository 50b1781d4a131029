"""Strength on a clock: the interval is offered at the set, and once it runs the page says when the next set begins."""

from __future__ import annotations

from datetime import timedelta

from tests.day import this_day
from tests.loads import kg
from tests.pages.conftest import Open, tap, words
from tracker.desk.day import today
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.desk.sheet import sheets
from tracker.log.unit_of_work import Log


def test_the_coach_s_interval_is_started_at_the_set_and_shown(log: Log, show: Open):
    member = people.add_member(log, "Jorunn")
    lift = people.add_lift(log, "deadlift", "barbell")
    rep_maxes.add_rep_max(log, member.id, lift.id, this_day() - timedelta(days=7), 2, kg("130"), tested=True)
    sheets.take_sheet(log, [member.id], "Deadlift every 2:00 x 5: 2 @ 85 % of 2RM", this_day())
    at = show(log)
    assert at.button(key="start_set_clock").label == "Start the clock with this set: every 2:00, 5 sets"
    tap(at, "start_set_clock")
    assert not [each for each in at.button if each.key == "start_set_clock"]
    assert "Next set in 2:00" in words(at) or "Next set in 1:5" in words(at)
    tap(at, "log_as_asked")
    assert "Next set in" in words(at)
    assert "what the clock leaves of every 2:00" in str(at.expander)
    several = next(each for each in at.button_group if str(each.key).startswith("several_"))
    assert [str(each) for each in several.options] == [
        "2",
        "3",
    ]  # of four that are left; all of them have a touch of their own
    several.set_value(3).run()
    assert "Logged as planned: 3 sets" in words(at)
    assert len(today.day_plan(log, member.id, this_day()).sets) == 4
    assert at.button(key="log_as_asked")
    assert not [each for each in at.button_group if str(each.key).startswith("several_")]
