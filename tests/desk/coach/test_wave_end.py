"""Where a class's wave ends: who stands where, whose max is old by then, and the day that suits most for a test."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.desk.doing import did, somebody
from tests.loads import kg
from tracker.desk.coach.wave_end import wave_end
from tracker.desk.maxes import estimates, rep_maxes
from tracker.desk.people import people, places
from tracker.desk.sheet import sheets
from tracker.prescription.plan import PlanAsk, PlanLift, plan_text
from tracker.prescription.sheet.model import WEEKDAYS
from tracker.strength.forecast import forecast


@pytest.fixture
def three(log):
    """Two who train on this weekday and one on the next; all do eight weeks that end in three days' weekday."""
    wren, lift = somebody(log, "Wren"), people.add_lift(log, "back squat", "barbell")
    place = places.places(log)[0]
    tova, bo = (people.go_to_place(log, people.add_member(log, name).id, place.id) for name in ("Tova", "Bo"))
    for member, more in ((wren, 0), (tova, 0), (bo, -1)):
        for week in range(7, 0, -1):
            did(log, member, lift, 7 * week + more, 80, 5, rir=Decimal(2))
    rep_maxes.add_rep_max(log, wren.id, lift.id, this_day() - timedelta(weeks=7), 5, kg(90), tested=True)
    squat = PlanLift("back squat", 5, Decimal(70), Decimal(85), 3, 5)
    ends = this_day() + timedelta(days=7 * 8 + 3)
    ask = PlanAsk((squat,), ends, 8, (ends.weekday(),), test=False)
    sheets.take_sheet(log, [wren.id, tova.id, bo.id], plan_text(ask), by=wren.id, today=this_day())
    return log, lift, ends, (wren, tova, bo)


def test_each_stands_where_the_forecast_says_and_old_maxes_are_named(three):
    log, lift, ends, members = three
    found = wave_end(log, tuple(each.id for each in members), this_day())
    assert found.ends == ends
    assert [each.member.name for each in found.stands] == ["Bo", "Tova", "Wren"]
    wren = found.stands[2]
    assert (wren.lift.id, wren.reps) == (lift.id, 5)
    model = estimates.history(log, members[0].id, lift).model
    assert wren.now.estimate == pytest.approx(model.estimate(this_day()).rep_max[5].estimate)
    told = forecast(model, this_day(), 9)
    low, high = sorted((told[7].rep_max[5].high80, told[8].rep_max[5].high80))
    assert low <= wren.then.high80 <= high
    assert wren.stale == "tested 5RM 90 kg, by then 4 months ago"  # 15 weeks and 3 days
    assert found.stands[0].stale == "no 5RM was tested or declared"


def test_the_day_that_suits_most_is_near_the_end_and_says_why(three):
    log, _, ends, members = three
    found = wave_end(log, tuple(each.id for each in members), this_day())
    weekday = WEEKDAYS[this_day().weekday()]
    assert found.test_day.weekday() == this_day().weekday()
    assert abs((found.test_day - ends).days) <= 3
    assert f"suits most: 2 of 3 members usually train on a {weekday}." in found.words[0]
    assert found.words[1] == "Not usual for Bo: ask them."
    tova = members[1]
    people.prefer(log, tova.id, name="Tova", unit="kg", place_id=tova.place_id, no_heavy=True, minor=False, alone=False)
    held = wave_end(log, tuple(each.id for each in members), this_day())
    assert held.words[-1] == "Tests are held back from Tova: their coach and they know why."


def test_a_wave_that_tests_names_no_old_max_and_without_a_plan_there_is_no_end(three, log):
    _, _, ends, members = three
    squat = PlanLift("back squat", 5, Decimal(70), Decimal(85), 3, 5)
    ask = PlanAsk((squat,), ends + timedelta(days=7), 2, (0, 3))
    sheets.take_sheet(log, [members[0].id], plan_text(ask), by=members[0].id, today=this_day())
    found = wave_end(log, (members[0].id,), this_day())
    assert found.ends == ends + timedelta(days=7)
    assert [each.stale for each in found.stands] == [""]
    nobody = people.add_member(log, "Ada")
    assert wave_end(log, (nobody.id,), this_day()) is None
