"""A beginner: no kilograms of a percentage, no chance and no max from one or two easy sets; a way to start by feel instead."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.day import this_day
from tests.desk.doing import did, somebody
from tracker.desk.day import today
from tracker.desk.maxes import trend
from tracker.desk.people import people
from tracker.log import waves as log_waves
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewPlannedSet, NewStep


@pytest.fixture
def bench(log: Log):
    return people.add_lift(log, "bench press", "barbell")


@pytest.fixture
def cosima(log: Log, bench):
    """Today five fives at 70 % of a 1RM that she does not have."""
    member = somebody(log, "Cosima")
    with log.act("a wave", member.id) as act:
        step = NewStep("Friday", 0, [NewPlannedSet(bench.id, 5, 5, percent=Decimal(70), of_reps=1)])
        log_waves.start_wave(act, member.id, log_waves.add_wave(act, "Class", [step]), this_day())
    return member


def first(log, member):
    plan = today.day_plan(log, member.id, this_day())
    return plan, plan.lines[0]


def test_who_never_did_it_starts_by_feel(log, cosima):
    _, line = first(log, cosima)
    assert (line.made, line.reference, line.percent) == (None, None, None)
    assert line.notes[0].startswith("No 1RM of bench press, barbell is known yet.")
    assert "stop with 3 or more left" in line.notes[0]


@pytest.mark.parametrize("left", [None, Decimal(4), Decimal(6)])
def test_one_easy_set_makes_no_kilograms_no_chance_and_no_max(log, cosima, bench, left):
    did(log, cosima, bench, 7, 30, 5, rir=left)
    plan, line = first(log, cosima)
    assert (line.made, line.reference, line.chance) == (None, None, None)
    assert "Log a set at which you know what was left, or ask your coach" in line.notes[0]
    assert plan.beats == {}
    assert "30 kg" in " ".join(plan.last_words(line, this_day()))  # what she did is shown
    view = trend.trend(log, cosima, bench, day=this_day(), reps=1)
    assert (view.now, view.points, view.all_now) == (None, (), ())
    assert "too little of a max" in view.little


def test_a_set_at_which_it_is_known_what_was_left_says_enough(log, cosima, bench):
    did(log, cosima, bench, 7, 30, 5)
    did(log, cosima, bench, 3, 35, 5, rir=Decimal(2))
    _, line = first(log, cosima)
    assert line.reference is not None
    assert line.reference.source == "estimated"
    assert line.made is not None


def test_so_do_four_days_whose_effort_nobody_said(log, cosima, bench):
    for ago in (9, 7, 5):
        did(log, cosima, bench, ago, 40, 5)
    assert first(log, cosima)[1].reference is None
    did(log, cosima, bench, 3, 40, 5)
    assert first(log, cosima)[1].reference is not None
