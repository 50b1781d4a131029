"""What a mended fact does to the loads that are still to come."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest

from tracker.desk.day.effects import changed_words, coming_loads
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.log import waves as log_waves
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.units import Mass

DAY = date(2026, 3, 2)


@pytest.fixture
def wren(log: Log):
    member = people.add_member(log, "Wren")
    lift = people.add_lift(log, "front squat", "barbell")
    rep_maxes.add_rep_max(log, member.id, lift.id, DAY - timedelta(days=7), 3, Mass(Decimal(100), "kg"), tested=True)
    with log.act("wrote a wave") as act:
        steps = [
            NewStep(f"Squat, week {week}", 7 * week, [NewPlannedSet(lift.id, 3, 4, Decimal(percent), 3)])
            for week, percent in ((1, 80), (2, 85))
        ]
        log_waves.start_wave(act, member.id, log_waves.add_wave(act, "Millrace", steps), DAY)
    return member


def test_the_coming_loads_are_those_of_the_planned_steps(log, wren):
    assert {where.step: str(load) for where, load in coming_loads(log, wren.id, DAY).items()} == {
        "Squat, week 1": "80 kg", "Squat, week 2": "85 kg",
    }  # fmt: skip


def test_a_removed_max_says_which_loads_it_changed(log, wren):
    before = coming_loads(log, wren.id, DAY)
    lift = people.lifts(log)[0]
    rep_maxes.add_rep_max(log, wren.id, lift.id, DAY, 3, Mass(Decimal(90), "kg"), tested=True)
    after = coming_loads(log, wren.id, DAY)
    assert changed_words(before, after) == (
        "Changes 2 coming loads: Squat, week 1: 72.5 kg, was 80 kg; Squat, week 2: 77.5 kg, was 85 kg."
    )
    rep_maxes.remove_rep_max(log, wren.id, rep_maxes.rep_maxes(log, wren.id)[0].id)
    assert changed_words(before, coming_loads(log, wren.id, DAY)) == "No coming load changes."


def test_without_a_wave_there_is_nothing_to_change(log):
    other = people.add_member(log, "Tobin")
    assert changed_words(coming_loads(log, other.id, DAY), {}) == ""


def test_many_changes_are_counted_and_two_are_told(log, wren):
    before = coming_loads(log, wren.id, DAY)
    words = changed_words(before, dict.fromkeys(before), most=1)
    assert words == "Changes 2 coming loads: Squat, week 1: no load, was 80 kg and 1 more."
