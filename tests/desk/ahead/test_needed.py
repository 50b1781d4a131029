"""Which load, and how many, from the log: what the kit makes, with the chance that Weights says of it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.desk.doing import did, somebody
from tests.loads import kg
from tracker.desk.ahead.needed import asked_load, load_needed, reps_possible
from tracker.desk.day import sore
from tracker.desk.maxes import estimates
from tracker.desk.people import people
from tracker.errors import BadInputError
from tracker.prescription import illness


def test_the_load_is_the_heaviest_that_the_kit_makes_with_that_chance(squatted):
    log, member, lift = squatted
    model = estimates.history(log, member.id, lift).model
    found = load_needed(log, member, lift, 3, 0.8, this_day())
    assert found.made.load.amount % Decimal("2.5") == 0
    assert found.chance == pytest.approx(model.chance(float(found.made.load.kg), 3, day=this_day()))
    heavier, less = found.heavier
    assert less < 0.8 <= found.chance
    assert heavier.kg > found.made.load.kg
    assert load_needed(log, member, lift, 3, 0.95, this_day()).made.load.kg < found.made.load.kg
    back = reps_possible(log, member, lift, found.made.load, 0.8, this_day())
    assert back.reps == 3
    assert back.chance == pytest.approx(found.chance)
    assert back.one_more < 0.8
    assert reps_possible(log, member, lift, kg(20), 0.8, this_day()).reps == 12
    assert reps_possible(log, member, lift, kg(300), 0.8, this_day()).reps == 0


def test_where_the_body_is_lifted_the_answer_is_what_is_added(log):
    member, lift = somebody(log, "Bo"), people.add_lift(log, "pull-up", "body")
    people.weigh(log, member.id, this_day(), kg(80))
    for week in range(6, 0, -1):
        did(log, member, lift, 7 * week, 10, 5, rir=Decimal(1))
    found = load_needed(log, member, lift, 5, 0.8, this_day())
    model = estimates.history(log, member.id, lift).model
    assert -5 <= found.made.load.amount < 20
    assert found.chance == pytest.approx(model.chance(80 + float(found.made.load.kg), 5, day=this_day()))


def test_where_nothing_is_offered_it_says_why(squatted, log):
    _, member, lift = squatted
    press = people.add_lift(log, "press", "barbell")
    assert "too little" in load_needed(log, member, press, 3, 0.8, this_day()).why
    assert "too little" in reps_possible(log, member, press, kg(20), 0.8, this_day()).why
    light = replace(member, no_heavy=True)
    assert load_needed(log, light, lift, 1, 0.8, this_day()).made is None
    sore.mark_painful(log, member.id, lift.id)
    assert "painful" in load_needed(log, member, lift, 3, 0.8, this_day()).why
    assert "painful" in reps_possible(log, member, lift, kg(20), 0.8, this_day()).why
    sore.begin(log, member.id, "ill", this_day())
    assert load_needed(log, member, press, 3, 0.8, this_day()).why == illness.OFFERED


def test_after_weeks_away_the_load_comes_back_by_steps(log):
    member, lift = somebody(log, "Bo"), people.add_lift(log, "back squat", "barbell")
    for week in range(16, 10, -1):
        did(log, member, lift, 7 * week, 80, 5, rir=Decimal(2))
    found = load_needed(log, member, lift, 3, 0.8, this_day())
    assert found.note
    assert found.chance > 0.8


def test_what_cannot_be_asked_is_refused(squatted):
    log, member, lift = squatted
    for text in ("", "many", "0", "-5", "5000"):
        with pytest.raises(BadInputError):
            asked_load(text, lift, "kg")
    assert asked_load("60,5", lift, "kg") == kg("60.5")
    with pytest.raises(BadInputError):
        load_needed(log, member, lift, 3, 0.999, this_day())
