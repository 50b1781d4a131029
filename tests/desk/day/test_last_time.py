"""Last time at the card of a set: what was done, what was noted, and what beats it where that is within reach."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.desk.doing import did, somebody
from tests.loads import kg
from tracker.desk.day import last_time, today
from tracker.desk.maxes import estimates
from tracker.desk.people import people
from tracker.log import waves as log_waves
from tracker.log.records import LiftRecord, MemberRecord
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewPlannedSet, NewStep


@pytest.fixture
def mila(log: Log) -> MemberRecord:
    return somebody(log, "Mila")


@pytest.fixture
def squat(log: Log, mila: MemberRecord) -> LiftRecord:
    return people.add_lift(log, "back squat", "barbell")


def plan(log: Log, member: MemberRecord, lift: LiftRecord, *, load: float, reps: int = 5, title: str = "Squat") -> None:
    with log.act("a wave", member.id) as act:
        step = NewStep(title, 0, [NewPlannedSet(lift.id, 3, reps, load=kg(load))])
        log_waves.start_wave(act, member.id, log_waves.add_wave(act, f"Tide {title}", [step]), this_day())


def lines(log: Log, member: MemberRecord) -> tuple[str, ...]:
    day = today.day_plan(log, member.id, this_day())
    assert day.next_line is not None
    return day.last_words(day.next_line, this_day())


def test_equal_sets_are_said_once_with_what_was_left_and_the_note_and_the_day(log, mila, squat):
    did(log, mila, squat, 7, 60, 5, rir=Decimal(2), note="belt on")
    did(log, mila, squat, 7, 60, 5, rir=Decimal(2))
    did(log, mila, squat, 7, 62.5, 4, rir=Decimal(0))
    did(log, mila, squat, 7, 40, 5, kind="ramp")
    did(log, mila, squat, 20, 100, 5)  # not the last time
    plan(log, mila, squat, load=60)
    day = this_day() - timedelta(days=7)
    said = lines(log, mila)
    assert said[0] == (f"Last time, {day:%a} {day.day} {day:%b}: 2 sets of 5 × 60 kg, 2 left; 4 × 62.5 kg, none left.")
    assert said[1] == "You noted: belt on"


def test_what_beats_last_time_is_one_repetition_more_with_todays_load_and_its_chance(log, mila, squat):
    for days in (21, 14, 7):
        did(log, mila, squat, days, 60, 5, rir=Decimal(3))
    plan(log, mila, squat, load=60)
    (beaten,) = [each for each in lines(log, mila) if each.startswith("To beat")]
    assert beaten.startswith("To beat last time: 6 × 60 kg, ")
    day = today.day_plan(log, mila.id, this_day())
    assert day.next_line is not None
    one = day.beats[day.next_line.key]
    assert (one.reps, one.as_asked) == (6, False)
    assert one.chance >= last_time.WITHIN_REACH
    assert f"{min(round(one.chance * 100), 99)} % likely" in beaten


def test_a_heavier_set_for_as_many_is_more_as_it_is_asked(log, mila, squat):
    for days in (14, 7):
        did(log, mila, squat, days, 60, 5, rir=Decimal(3))
    plan(log, mila, squat, load=62.5)
    assert "Done as asked, it is more than last time." in lines(log, mila)


@pytest.mark.parametrize(
    "why",
    ["out of reach", "a deload", "an easy day by name", "eased off", "after a lay-off", "far above what is asked"],
)
def test_nothing_is_to_be_beaten_on_an_easy_day_or_out_of_reach(log, mila, squat, why):
    ago = 20 if why == "after a lay-off" else 7
    hard = why == "out of reach"
    did(log, mila, squat, ago + 7, 60, 5, rir=Decimal(0 if hard else 3))
    did(log, mila, squat, ago, 60, 5, rir=None if hard else Decimal(3), outcome="missed" if hard else "done")
    titles = {"a deload": "Deload, day 1", "an easy day by name": "Easy Thursday"}
    plan(log, mila, squat, load=60, title=titles.get(why, "Squat"), reps=1 if why == "far above what is asked" else 5)
    if why == "eased off":
        (step,) = today.steps(log, mila.id)
        today.ease_off(log, mila.id, step, Decimal(10))
    assert not [each for each in lines(log, mila) if "beat" in each or "more than last time" in each]
    assert lines(log, mila)[0].startswith("Last time, ")


def test_the_first_time_of_a_lift_says_nothing(log, mila, squat):
    plan(log, mila, squat, load=60)
    assert lines(log, mila) == ()


def test_a_free_set_says_last_time_as_well(log, mila, squat):
    did(log, mila, squat, 1, 60, 5, rir=Decimal(2))
    assert last_time.free_words(log, mila.id, squat, this_day())[0] == "Last time, yesterday: 5 × 60 kg, 2 left."
    did(log, mila, squat, 0, 65, 5)  # of today: not last time
    assert last_time.free_words(log, mila.id, squat, this_day())[0] == "Last time, yesterday: 5 × 60 kg, 2 left."


def test_what_beats_last_time_without_a_plan_needs_no_estimate_in_memory(log):
    member = somebody(log, "Kaja")
    bench = people.add_lift(log, "bench press", "barbell")
    for days in (21, 18, 14, 11, 7, 4):
        for load, reps in ((80, 5), (80, 5), (85, 3)):
            did(log, member, bench, days, load, reps, rir=Decimal(2))
    assert not estimates.is_kept(log, member.id, bench)
    words = last_time.free_words(log, member.id, bench, this_day())
    assert any(each.startswith("To beat last time:") for each in words)
