"""Many lifts to be estimated at once: stopped in the middle, what was done is kept, and going on ends it."""

from __future__ import annotations

from decimal import Decimal

import pytest
from streamlit.testing.v1 import AppTest

from tests.day import this_day
from tests.pages.conftest import Open, words
from tests.readings import forget_estimates
from tracker.components.maxes import estimate_many as component
from tracker.desk.day import log_set
from tracker.desk.maxes import estimate_many
from tracker.desk.people import people
from tracker.desk.sheet import sheets
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.units import Mass


@pytest.fixture
def squad(log: Log, monkeypatch) -> list[str]:
    """Seven members with one set each of a lift that today's session asks for."""
    lift = people.add_lift(log, "front squat", "barbell")
    members = [people.add_member(log, f"Member {n}").id for n in range(7)]
    for member in members:
        log_set.log_set(log, member, this_day(), NewSet(lift.id, Mass(Decimal(60), "kg"), 5))
    sheets.take_sheet(log, members, "Title: Weir\nFront squat, barbell, % of 3RM\n2 x 3 @ 80 %\n", this_day())
    forget_estimates(monkeypatch)
    return members


def last_here(at: AppTest) -> bool:
    return any(each.label.startswith("Last here") for each in at.expander)


def test_stopped_in_the_middle_it_goes_on_where_it_ended(log: Log, show: Open, squad, monkeypatch):
    assert len(estimate_many.not_estimated(log, squad)) == 7
    real, done = estimate_many.estimate, []

    def until_stopped(of: Log, member_ids, lift) -> None:
        real(of, member_ids, lift)
        done.append(member_ids)
        if len(done) == 2:  # a touch on Stop ends the run of the script at its next word to the browser
            component.st.session_state[component.STOPPED] = True
            component.st.rerun()

    monkeypatch.setattr(estimate_many, "estimate", until_stopped)
    at = show(log, "coach", squad[0], after="today", part="whom")
    assert "Stopped: 4 lifts not estimated yet" in words(at)
    assert not last_here(at)
    at.button(key="estimating_on").click().run()
    assert last_here(at)
    assert "Stopped" not in words(at)
    assert len(done) == 6  # the day of the first member had estimated one already
    assert estimate_many.not_estimated(log, squad) == ()
