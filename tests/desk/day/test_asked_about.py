"""What is said beforehand to be asked about is what logging a set asks about."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.day import this_day
from tests.loads import kg
from tracker.desk.day import log_set
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.log.sets import NewSet


@pytest.mark.parametrize("earlier", [(), ("97.5",), ("60", "97.5", "110", "97.5"), ("20",)])
@pytest.mark.parametrize("known_max", [False, True])
def test_the_same_loads_are_asked_about_before_and_when_a_set_is_logged(log, earlier, known_max):
    member = people.add_member(log, "Tova")
    lift = people.add_lift(log, "low bar squat", "barbell", member_id=member.id)
    if known_max:
        rep_maxes.add_rep_max(log, member.id, lift.id, this_day() - timedelta(days=99), 1, kg("120"), tested=True)
    for ago, load in enumerate(earlier):
        day = this_day() - timedelta(days=9 - ago)
        log_set.log_set(log, member.id, day, NewSet(lift.id, kg(load), 5), sure=True)
    found = log_set.asked_about(log, member.id, lift.id, this_day())
    assert bool(found) == bool(earlier or known_max)
    asked_of = 0
    for load in range(7, 1000, 17):
        said = found is not None and any(low <= load and (high is None or load <= high) for low, high in found.spans)
        try:
            row = log_set.log_set(log, member.id, this_day(), NewSet(lift.id, kg(str(load)), 3))
        except log_set.UnitSlipError:
            asked = True
        else:
            asked = False
            log_set.remove_set(log, row.id, today=this_day())
        assert asked == said, load
        asked_of += asked
    assert bool(asked_of) == bool(found)
