"""Looking at a wave before it is done: loads as Weights makes them, chances as the model foretells, and nothing of others' pain."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.desk.doing import did, somebody
from tests.loads import kg
from tracker.desk.ahead import plan
from tracker.desk.day import log_set, sore, today, weights
from tracker.desk.maxes import estimates, rep_maxes
from tracker.desk.people import people
from tracker.desk.sheet import sheets
from tracker.errors import BadInputError
from tracker.log.sets import NewSet
from tracker.prescription.plan import PlanAsk, PlanLift, plan_sheet, plan_text
from tracker.strength.forecast import chance_then


def eight_weeks(end: int = 95, **more) -> PlanAsk:
    """Squats each Monday's weekday of today, from 70 % of the 5RM on, test in eight weeks."""
    lift = PlanLift("back squat", 5, Decimal(70), Decimal(end), 3, 5)
    test = this_day() + timedelta(weeks=8)
    return PlanAsk((lift,), test, 8, ((test.weekday() + 3) % 7,), taper_weeks=1, **more)


def test_loads_and_chances_are_those_of_weights_and_of_the_forecast(squatted):
    log, member, lift = squatted
    rep_maxes.add_rep_max(log, member.id, lift.id, this_day(), 5, kg("87.5"), tested=True)
    found = plan.foresee(log, member, plan_sheet(eight_weeks()), this_day())
    reference = weights.options(log, member, lift, 5, this_day())[0]
    model = estimates.history(log, member.id, lift).model
    assert len(found.sessions) == 9
    for session in found.sessions[:-1]:
        each = session.sets[0]
        lines = weights.weights(log, member, lift, reference, f"{each.sets}x{each.reps}@{each.percent}", this_day())
        assert {line.made.load for line in lines} == {each.made.load}
        assert each.now == pytest.approx(min(line.chance for line in lines))
        days = (session.day - this_day()).days
        if days % 7 == 0:
            moved = float(each.made.load.kg)
            then = chance_then(model, moved, each.reps, day=this_day(), weeks=days // 7, sets_before=each.sets - 1)
            assert each.then == pytest.approx(then[-1])
    assert found.sessions[-1].sets[0].test
    assert found.sessions[-1].sets[0].then is None
    assert [week.number for week in found.weeks] == list(range(1, 9))
    assert found.weeks[-1].test
    assert found.weeks[0].percents == (70, 70)
    assert found.words[0].startswith("Of ")


def test_what_is_too_heavy_and_what_is_easy_is_said_and_stays_as_asked(squatted):
    log, member, _ = squatted
    heavy = plan.foresee(log, member, plan_sheet(eight_weeks(end=120)), this_day())
    asked = [session.sets[0].percent for session in heavy.sessions[:-1]]
    assert max(asked) == 120  # the coach's percentage stays
    assert heavy.sessions[-3].sets[0].verdict == "unlikely"
    assert any("probably too heavy: first back squat" in each for each in heavy.words)
    assert heavy.sessions[-3].sets[0].hard > 0
    low = replace(eight_weeks().lifts[0], start=Decimal(40), end=Decimal(45))
    easy = plan.foresee(log, member, plan_sheet(replace(eight_weeks(), lifts=(low,))), this_day())
    assert easy.sessions[0].sets[0].verdict == "easy"
    assert easy.hard_sets == 1  # the test alone
    assert any("would be easy; your coach may mean it so" in each for each in easy.words)


def test_a_taken_plan_stands_in_the_calendar_and_says_the_same(squatted):
    log, member, _ = squatted
    ask = eight_weeks()
    before = plan.foresee(log, member, plan_sheet(ask), this_day())
    sheets.take_sheet(log, [member.id], plan_text(ask), by=member.id, today=this_day())
    steps = today.steps(log, member.id)
    assert [each.due for each in steps] == [each.day for each in before.sessions]
    after = plan.coming(log, member, this_day())
    assert [each.sets[0].made for each in after.sessions] == [each.sets[0].made for each in before.sessions]
    assert [each.sets[0].then for each in after.sessions] == [each.sets[0].then for each in before.sessions]
    assert after.weeks == before.weeks


def test_of_a_lift_that_nobody_knows_nothing_is_foretold(log):
    member = somebody(log, "Bo")
    found = plan.foresee(log, member, plan_sheet(eight_weeks()), this_day())
    assert {each.sets[0].verdict for each in found.sessions} == {""}
    assert "no chance is said. No 5RM of back squat, barbell is known yet." in found.words[0]
    assert plan.coming(log, member, this_day()).sessions == ()


def test_what_hurts_is_left_out_for_its_member_and_not_told_to_a_class(squatted):
    log, member, lift = squatted
    sheet = plan_sheet(eight_weeks())
    told = plan.of_class(log, [member.id], sheet, this_day())
    sore.mark_painful(log, member.id, lift.id)
    mine = plan.foresee(log, member, sheet, this_day())
    assert {each.sets[0].made for each in mine.sessions} == {None}
    assert plan.of_class(log, [member.id], sheet, this_day()) == told
    with pytest.raises(BadInputError, match="class of 0"):
        plan.of_class(log, [], sheet, this_day())


def test_who_is_on_the_way_back_is_foretold_the_loads_as_asked(log):
    member, lift = somebody(log, "Ada"), people.add_lift(log, "back squat", "barbell")
    for week in range(12, 5, -1):
        did(log, member, lift, 7 * week, 80, 5, rir=Decimal(2))
    log_set.log_set(log, member.id, this_day(), NewSet(lift.id, kg(60), 5))
    found = plan.foresee(log, member, plan_sheet(eight_weeks()), this_day())
    known = weights.options(log, member, lift, 5, this_day())[0]
    assert float(found.sessions[0].sets[0].made.load.kg) == pytest.approx(float(known.load.kg) * 0.7, abs=2.6)
