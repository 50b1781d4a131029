"""After a wave: sets planned and done, and what was foretold before it began against what was found."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.desk.doing import did, somebody
from tests.loads import kg
from tracker.desk.ahead.plan_done import plan_done
from tracker.desk.day import log_set, today
from tracker.desk.maxes import estimates
from tracker.desk.people import people
from tracker.desk.sheet import sheets
from tracker.log.sets import NewSet
from tracker.strength.chance import AskedSet, chances_of
from tracker.strength.forecast import beliefs_on

SHEET = "Title: Spring\nWeek 1, day 1\nBack squat, barbell, % of 5RM\n3 x 5 @ 80 %\n\nWeek 2, day 1\nBack squat, barbell, % of 5RM\n2 x 5 @ 85 %\n"


@pytest.fixture
def done(log):
    """Ten weeks of squats before it; of the wave's first session two sets made and one missed, of its second none."""
    member, lift = somebody(log, "Wren"), people.add_lift(log, "back squat", "barbell")
    for week in range(14, 2, -1):
        did(log, member, lift, 7 * week, 80, 5, rir=Decimal(2))
    first = this_day() - timedelta(days=10)
    sheets.take_sheet(log, [member.id], SHEET, first, by=member.id, today=first)
    step = today.steps(log, member.id)[0]
    row = step.sets[0]
    for number, reps in enumerate((5, 5, 3), 1):
        new = NewSet(
            lift.id, kg(85), reps, outcome="missed" if reps < 5 else "done", planned_set_id=row.id, planned_round=number
        )
        log_set.log_set(log, member.id, first, replace(new, member_step_id=step.id), sure=True)
    return log, member, lift, first


def test_planned_done_foretold_and_found(done):
    log, member, lift, first = done
    found = plan_done(log, member, lift, this_day())
    assert sum(week.planned for week in found.weeks) == 5
    assert found.weeks[0].done == 3
    model = estimates.history(log, member.id, lift).model
    before = first - timedelta(days=1)
    ((_, belief),) = beliefs_on(model, before, [first])
    chances = chances_of(belief, model.known(before).told, [AskedSet(85, 5, each) for each in range(3)])
    assert found.weeks[0].foretold == pytest.approx(sum(chances))
    assert (found.weeks[0].asked, found.weeks[0].made) == (3, 2)
    assert found.words.startswith("Of 5 planned sets 3 are done. Of 3 sets as lifted, ")
    assert found.words.endswith("and 2 were. They are too few to judge by.")


def test_without_a_sheet_it_says_so(done):
    log, member, _, _ = done
    press = people.add_lift(log, "press", "barbell")
    assert (
        plan_done(log, member, press, this_day()).words == "No session of a sheet had this lift in the last half year."
    )
