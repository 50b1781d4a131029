"""A prescribed percentage of a lift in which the body is lifted counts body mass."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

from tracker.desk.day import body_percent, line_words, today
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people, places
from tracker.log import waves as log_waves
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.units import Mass

DAY = date(2026, 3, 2)


def test_the_day_s_load_of_a_pull_up_is_a_share_of_what_is_moved(log: Log):
    member = people.add_member(log, "Wren")
    pull = people.add_lift(log, "pull-up", "body")
    people.weigh(log, member.id, DAY - timedelta(days=7), Mass(Decimal(70), "kg"))
    rep_maxes.add_rep_max(log, member.id, pull.id, DAY - timedelta(days=7), 3, Mass(Decimal(20), "kg"), tested=True)
    with log.act("wrote a wave") as act:
        step = NewStep("Pull", 0, [NewPlannedSet(pull.id, 2, 5, Decimal(80), 3)])
        log_waves.start_wave(act, member.id, log_waves.add_wave(act, "Weir", [step]), DAY)
    body_percent.say(log, member.id, pull.id, "whole", DAY)
    line = today.day_plan(log, member.id, DAY).lines[0]
    assert line.made is not None
    assert str(line.made.load) == "2 kg"  # 80 % of 90 kg moved, less the body's 70
    assert line.percent is not None
    assert round(line.percent, 6) == 80
    assert line_words.part_of(line, DAY).startswith(
        "80 % of your 3RM, body and load together, as you said, = body + 2 kg."
    )


def test_without_a_body_mass_no_percentage_of_a_pull_up_becomes_a_load(log: Log):
    member = people.add_member(log, "Wren")
    pull = people.add_lift(log, "pull-up", "body")
    rep_maxes.add_rep_max(log, member.id, pull.id, DAY - timedelta(days=7), 3, Mass(Decimal(20), "kg"), tested=True)
    with log.act("wrote a wave") as act:
        step = NewStep("Pull", 0, [NewPlannedSet(pull.id, 2, 5, Decimal(80), 3)])
        log_waves.start_wave(act, member.id, log_waves.add_wave(act, "Weir", [step]), DAY)
    body_percent.say(log, member.id, pull.id, "whole", DAY)
    plan = today.day_plan(log, member.id, DAY)
    assert plan.lines[0].made is None  # 16 kg would be 80 % of what hangs on the belt, and of nothing that is moved
    assert "type your body mass first" in " ".join(plan.lines[0].notes)
    assert plan.ask_body
    people.weigh(log, member.id, DAY, Mass(Decimal(70), "kg"))
    assert str(today.day_plan(log, member.id, DAY).lines[0].made.load) == "2 kg"


def test_with_discs_in_pounds_kilograms_stand_beside_where_the_max_is_in_them(log: Log):
    place = places.add_place(log, "Away", "lb")
    member = people.go_to_place(log, people.add_member(log, "Ravi").id, place.id)
    squat = people.add_lift(log, "back squat", "barbell")
    rep_maxes.add_rep_max(log, member.id, squat.id, DAY - timedelta(days=7), 1, Mass(Decimal(110), "kg"), tested=True)
    with log.act("wrote a wave") as act:
        step = NewStep("Board", 0, [NewPlannedSet(squat.id, 5, 3, Decimal(70), 1)])
        log_waves.start_wave(act, member.id, log_waves.add_wave(act, "Weir", [step]), DAY)
    line = today.day_plan(log, member.id, DAY).lines[0]
    # By hand: 77 kg are 169.8 lb, 170 with discs of 2.5 lb, which are 77.1 kg.
    assert line_words.asked(line) == "3 × 170 lb (77 kg)"
    assert line_words.part_of(line, DAY).startswith("70 % of your 1RM = 77 kg, loaded 170 lb")
