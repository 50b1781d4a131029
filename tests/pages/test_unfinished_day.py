"""A day that was left half done is unfinished, not missed: how much of it is done, and what is left."""

from __future__ import annotations

from datetime import timedelta

from tests.day import this_day
from tests.pages.conftest import Open, opened, tap, words
from tracker.desk.day import log_set, today
from tracker.desk.day.next import whats_next
from tracker.desk.people import people
from tracker.desk.sheet import sheets
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.units import parse_mass


def test_what_is_done_and_what_is_left_is_said(log: Log, show: Open):
    member = people.add_member(log, "Agathe")
    before = this_day() - timedelta(days=2)
    sheets.take_sheet(log, [member.id], "Back squat 3x5 @ 60 kg\nBench press 2x5 @ 40 kg\nFor time: 50 burpees", before)
    sheets.take_sheet(log, [member.id], "Deadlift 2x5 @ 80 kg", this_day())
    for line in today.day_plan(log, member.id, before).lines[:2]:
        new = NewSet(
            line.lift.id, parse_mass("60kg"), 5, planned_set_id=line.planned.id, planned_round=line.number,
            member_step_id=line.step_id,
        )  # fmt: skip
        log_set.log_set(log, member.id, before, new)
    at = show(log)
    assert "Unfinished" in [each.value for each in at.header]
    assert (
        "unfinished: 2 of 5 sets done, 1 set of back squat, 2 sets of bench press, the piece For time: burpee left"
        in words(at)
    )
    (old,) = today.day_plan(log, member.id, this_day()).missed
    assert at.button(key=f"missed_now_{old.id}").label == "Finish it now"
    assert whats_next(log, member.id, this_day()).missed[0].words.endswith("the piece For time: burpee left")
    tap(at, f"missed_skip_{old.id}")
    assert not today.day_plan(log, member.id, this_day()).missed


def test_what_was_done_yesterday_is_written_on_yesterday_in_two_touches(log: Log, show: Open):
    member = people.add_member(log, "Roland")
    before = this_day() - timedelta(days=1)
    sheets.take_sheet(log, [member.id], "Bench press 5x5 @ 60 kg", before)
    at = show(log)
    assert at.button(key="done_then").label == "It was done yesterday"
    tap(at, "done_then")
    tap(at, "all_as_planned")
    assert len(today.day_plan(log, member.id, before).sets) == 5
    assert not today.day_plan(log, member.id, this_day()).sets
    sheets.take_sheet(log, [member.id], "Deadlift 2x5 @ 80 kg", before)
    sheets.take_sheet(log, [member.id], "Squat 2x5 @ 80 kg", this_day())
    at = show(log)
    (old,) = today.day_plan(log, member.id, this_day()).missed
    assert at.button(key=f"missed_then_{old.id}").label == "Done yesterday"
    tap(at, f"missed_then_{old.id}")
    tap(at, "all_as_planned")
    assert len(today.day_plan(log, member.id, before).sets) == 7
    at = tap(show(log), "where_yesterday")
    assert "Date: **yesterday**" in words(at)


def test_a_session_is_moved_to_any_day_of_the_week_by_its_name(log: Log, show: Open):
    member = people.add_member(log, "Hanne")
    sheets.take_sheet(log, [member.id], "Deadlift 3x5 @ 80 kg", this_day())
    at = opened(show(log), "session_menu")
    days = next(each for each in at.button_group if str(each.key).startswith("menu_day_"))
    third = this_day() + timedelta(days=3)
    assert days.options[0] == f"{third:%a} {third.day} {third:%b}"
    days.set_value(3).run()
    (step,) = today.steps(log, member.id)
    assert step.due == third
    assert not whats_next(log, member.id, this_day()).missed
