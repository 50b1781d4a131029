"""A load that was changed goes on to the sets that follow: at once where it is less, asked where it is more."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.desk.doing import lift_named, somebody, squats_and_presses
from tests.loads import kg
from tests.undoing import undo_newest
from tracker.desk.day import after_miss, carried, log_set, today
from tracker.desk.day.next import whats_next
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.log import waves as log_waves
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewPlannedSet, NewStep


@pytest.fixture
def viggo(log: Log):
    """Three fives at 85 %, a heavier three at 90 %, then a lighter five, of a tested 1RM of 130 kg."""
    member = somebody(log, "Viggo")
    bench = people.add_lift(log, "bench press", "barbell")
    rep_maxes.add_rep_max(log, member.id, bench.id, this_day() - timedelta(days=9), 1, kg(130), tested=True)
    with log.act("a wave", member.id) as act:
        rows = [NewPlannedSet(bench.id, n, 3, percent=Decimal(p), of_reps=1) for n, p in ((3, 85), (1, 90), (1, 60))]
        wave = log_waves.add_wave(act, "Strong", [NewStep("Friday", 0, rows)])
        log_waves.start_wave(act, member.id, wave, this_day())
    return member


def lines(log, member):
    return today.day_plan(log, member.id, this_day()).lines


def loads(log, member):
    return [str(line.made.load) for line in lines(log, member) if line.open]


def do(log, member, load, outcome="done", reps=3):
    line = next(each for each in lines(log, member) if each.open)
    new = NewSet(
        line.lift.id, kg(load), reps, outcome=outcome, planned_set_id=line.planned.id, planned_round=line.number,
        member_step_id=line.step_id,
    )  # fmt: skip
    return log_set.log_set(log, member.id, this_day(), new, sure=True)


def test_a_lighter_load_goes_on_at_once(log, viggo):
    assert loads(log, viggo) == ["110 kg", "110 kg", "110 kg", "117.5 kg", "77.5 kg"]
    do(log, viggo, 100)
    # By hand: 117.5 x 100 / 110 = 106.8, down to 105; the set that asks for less stays.
    assert loads(log, viggo) == ["100 kg", "100 kg", "105 kg", "77.5 kg"]
    line = next(each for each in lines(log, viggo) if each.open)
    assert "110 kg was asked; you went on with 100 kg." in line.notes
    assert line.chance > 0
    undo_newest(log, viggo.id)
    assert loads(log, viggo)[0] == "110 kg"


def test_what_was_asked_is_one_touch_away(log, viggo):
    row = do(log, viggo, 100)
    step = lines(log, viggo)[0].step_id
    carried.carry_on(log, viggo.id, step, row.lift.id, row.load, this_day(), "as asked")
    assert loads(log, viggo)[0] == "110 kg"
    undo_newest(log, viggo.id)
    assert loads(log, viggo)[0] == "100 kg"


def test_a_heavier_load_is_asked_about_and_asked_once(log, viggo):
    row = do(log, viggo, "112.5")
    assert loads(log, viggo)[:3] == ["110 kg", "110 kg", "117.5 kg"]
    line = next(each for each in lines(log, viggo) if each.open)
    assert (line.change.taken, line.change.down, str(line.change.done)) == (False, False, "112.5 kg")
    carried.carry_on(log, viggo.id, line.step_id, row.lift.id, row.load, this_day(), "take")
    assert loads(log, viggo) == ["112.5 kg", "112.5 kg", "117.5 kg", "77.5 kg"]
    do(log, viggo, "112.5")
    assert loads(log, viggo)[0] == "112.5 kg"


def test_after_a_miss_the_ceiling_holds_and_nothing_else_is_carried(log, viggo):
    do(log, viggo, 100, outcome="missed", reps=2)
    assert loads(log, viggo)[0] == "100 kg"
    assert next(each for each in lines(log, viggo) if each.open).change is None


def test_a_pull_up_goes_on_with_less_on_the_belt(log):
    member = somebody(log, "Henrike")
    pull = people.add_lift(log, "pull-up", "body")
    people.weigh(log, member.id, this_day(), kg(70))
    with log.act("a wave", member.id) as act:
        wave = log_waves.add_wave(act, "Belt", [NewStep("Friday", 0, [NewPlannedSet(pull.id, 3, 3, load=kg(16))])])
        log_waves.start_wave(act, member.id, wave, this_day())
    do(log, member, 15)
    assert loads(log, member) == ["15 kg", "15 kg"]
    do(log, member, 0)
    assert loads(log, member) == ["0 kg"]  # without the belt, said as the body alone


def test_enough_of_a_lift_stands_at_each_set_without_a_miss(log):
    tova = squats_and_presses(log, "Tova")
    plan = today.day_plan(log, tova.id, this_day())
    squat = lift_named(log, "back squat")
    after_miss.enough(log, tova.id, plan.step.id, squat.id, this_day())
    found = today.day_plan(log, tova.id, this_day())
    assert found.next_line.lift.name == "strict press"
    (stopped,) = after_miss.stopped(found)
    assert stopped.words == "Back squat is ended for today. Left out: 2 sets of it."
    after_miss.enough(log, tova.id, plan.step.id, squat.id, this_day(), ended=False)
    assert today.day_plan(log, tova.id, this_day()).next_line.lift.name == "back squat"
    after_miss.enough(log, tova.id, plan.step.id, squat.id, this_day())
    after_miss.enough(log, tova.id, plan.step.id, lift_named(log, "strict press").id, this_day())
    assert today.day_plan(log, tova.id, this_day()).step is None or whats_next(log, tova.id, this_day()).kind != "set"


def test_after_a_lower_load_nothing_is_called_as_asked(log, viggo):
    bench = lift_named(log, "bench press")
    day = this_day() - timedelta(days=3)
    for load, reps in ((120, 2), (100, 2), (100, 2)):
        log_set.log_set(log, viggo.id, day, NewSet(bench.id, kg(load), reps), sure=True)
    plan = today.day_plan(log, viggo.id, this_day())
    line = plan.next_line
    assert "Done as asked, it is more than last time." in plan.last_words(line, this_day())
    do(log, viggo, 100)
    plan = today.day_plan(log, viggo.id, this_day())
    line = plan.next_line
    assert str(line.made.load) == "100 kg"
    assert not any("as asked" in each for each in plan.last_words(line, this_day()))
    assert "Done with this load, it is more than last time." in plan.last_words(line, this_day())


def test_the_way_back_says_what_that_set_asks_for(log, viggo):
    for load in (100, 100, 100):
        do(log, viggo, load)
    line = today.day_plan(log, viggo.id, this_day()).next_line
    assert (str(line.made.load), str(line.change.asked), str(line.unchanged)) == ("105 kg", "110 kg", "117.5 kg")
