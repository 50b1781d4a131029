"""A prescribed percentage of a lift in which the body is lifted counts body mass."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

from tracker.desk.day import today, training
from tracker.desk.people import people
from tracker.log import waves as log_waves
from tracker.log.keeper import Log
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.units import Mass

DAY = date(2026, 3, 2)


def test_the_day_s_load_of_a_pull_up_is_a_share_of_what_is_moved(log: Log):
    member = people.add_member(log, "Wren")
    pull = people.add_lift(log, "pull-up", "body")
    people.weigh(log, member.id, DAY - timedelta(days=7), Mass(Decimal(70), "kg"))
    training.add_rep_max(log, member.id, pull.id, DAY - timedelta(days=7), 3, Mass(Decimal(20), "kg"), tested=True)
    with log.act("wrote a wave") as act:
        step = NewStep("Pull", 0, [NewPlannedSet(pull.id, 2, 5, Decimal(80), 3)])
        log_waves.start_wave(act, member.id, log_waves.add_wave(act, "Weir", [step]), DAY)
    line = today.day_plan(log, member.id, DAY).lines[0]
    assert line.made is not None
    assert str(line.made.load) == "2 kg"  # 80 % of 90 kg moved, less the body's 70
    assert line.percent is not None
    assert round(line.percent, 6) == 80
