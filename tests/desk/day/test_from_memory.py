"""A session logged afterwards: all as planned in one act, on the day on which it was done, with no rest to wait for."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.situations import BENCH, SQUAT, Gym
from tracker.desk.day import from_memory, log_set, today
from tracker.desk.day.next import whats_next
from tracker.desk.history import journal
from tracker.errors import BadInputError
from tracker.log.sets import NewSet


@pytest.fixture
def gym(log) -> Gym:
    return Gym(log)


def test_all_of_it_is_logged_in_one_act_and_taken_back_in_one(gym: Gym):
    gym.plan("Now", sets=3, lifts=(SQUAT, BENCH))
    gym.do("Now", 1)
    logged = from_memory.log_as_planned(gym.log, gym.who, gym.day)
    assert (logged.sets, logged.left, logged.words) == (5, 0, "Logged Now as planned: 5 sets")
    found = whats_next(gym.log, gym.who, gym.day)
    assert (found.kind, len(found.plan.sets), gym.step("Now").state) == ("rating", 6, "done")
    assert {(row.reps, str(row.load), row.rir) for row in found.plan.sets} == {(3, "80 kg", None)}
    gym.undo()
    assert len(today.day_plan(gym.log, gym.who, gym.day).sets) == 1
    assert gym.step("Now").state == "planned"


def test_what_only_the_member_can_say_stays_open(gym: Gym):
    gym.plan("Test", sets=1, test=True)
    with pytest.raises(BadInputError, match="as planned"):
        from_memory.log_as_planned(gym.log, gym.who, gym.day)


def test_nothing_is_logged_where_nothing_is_on_and_nothing_twice(gym: Gym):
    with pytest.raises(BadInputError, match="No session"):
        from_memory.log_as_planned(gym.log, gym.who, gym.day)
    gym.plan("Now")
    from_memory.log_as_planned(gym.log, gym.who, gym.day)
    with pytest.raises(BadInputError):
        from_memory.log_as_planned(gym.log, gym.who, gym.day)
    assert len(today.day_plan(gym.log, gym.who, gym.day).sets) == 2


def test_done_yesterday_as_written_leaves_today_in_peace(gym: Gym):
    gym.plan("Saturday", pieces=("Quay",))
    yesterday = gym.day - timedelta(days=1)
    from_memory.log_as_planned(gym.log, gym.who, gym.day, member_step_id=gym.step("Saturday").id, done_on=yesterday)
    there = whats_next(gym.log, gym.who, yesterday, member_step_id=gym.step("Saturday").id)
    assert (there.kind, there.title, len(there.plan.sets)) == ("piece", "Quay", 2)
    assert "moved from" in there.session.words
    gym.score("Quay", "Saturday", "4:10", -1)
    found = whats_next(gym.log, gym.who, gym.day)
    assert (found.kind, found.session, found.missed, found.planned) == ("nothing", None, (), None)
    (entry,) = journal.sessions(gym.log, gym.who)
    assert (entry.session.day, len(entry.sets), len(entry.scores)) == (yesterday, 2, 1)


def test_a_session_of_a_piece_alone_was_done_yesterday(gym: Gym):
    gym.plan("Saturday", 0, 0, pieces=("Quay",))
    yesterday = gym.day - timedelta(days=1)
    from_memory.log_as_planned(gym.log, gym.who, gym.day, done_on=yesterday)
    there = whats_next(gym.log, gym.who, yesterday)
    assert (there.kind, there.title) == ("piece", "Quay")
    gym.score("Quay", "Saturday", "4:10", -1)
    assert whats_next(gym.log, gym.who, gym.day).missed == ()


def test_nobody_waits_for_a_rest_who_writes_down_from_memory(gym: Gym):
    gym.plan("Now", sets=5, pieces=("Quay",))
    gym.do("Now", 1)
    assert today.day_plan(gym.log, gym.who, gym.day).rest is not None
    from_memory.log_as_planned(gym.log, gym.who, gym.day)
    assert today.day_plan(gym.log, gym.who, gym.day).rest is None


def test_a_body_lift_wants_a_body_mass_before_anything_is_written(gym: Gym):
    from tests.situations import kg
    from tracker.desk.people import people
    from tracker.log import waves as log_waves
    from tracker.log.waves import NewPlannedSet, NewStep

    pull = people.add_lift(gym.log, "weighted pull-up", "body")
    with gym.log.act("a wave", gym.who) as act:
        wave = log_waves.add_wave(act, "Pulls", [NewStep("Pulls", 0, [NewPlannedSet(pull.id, 3, 3, load=kg(10))])])
        log_waves.start_wave(act, gym.who, wave, gym.day)
    with pytest.raises(BadInputError, match="no body mass is known"):
        from_memory.log_as_planned(gym.log, gym.who, gym.day)
    log_set.log_set(gym.log, gym.who, gym.day, NewSet(gym.lifts[BENCH].id, kg(50), 5))
    assert len(today.day_plan(gym.log, gym.who, gym.day).sets) == 1
