"""A set of as many repetitions as there are: nothing is logged until the member has said how many those were."""

from __future__ import annotations

import pytest

from tests.day import this_day
from tests.pages.conftest import Open, tap, words
from tests.pages.squats import done
from tracker.desk.people import people
from tracker.desk.sheet import sheets
from tracker.log.unit_of_work import Log


@pytest.mark.parametrize("asked", ["Bench press 2 x max reps", "Back squat 1 x AMRAP @ 60 kg"])
def test_nothing_is_logged_before_a_number_was_said(log: Log, show: Open, asked: str):
    member = people.add_member(log, "Agathe")
    sheets.take_sheet(log, [member.id], asked, this_day())
    at = show(log)
    (reps,) = [each for each in at.number_input if each.key.endswith("_reps") and each.key.startswith("line_")]
    assert reps.value is None
    for load in at.text_input:
        if load.key.endswith("_load") and load.key.startswith("line_"):
            load.set_value("60").run()
    (log_it,) = [each for each in at.button if each.label == "Log this set" and each.key.startswith("line_")]
    tap(at, log_it.key)
    assert not done(log, member.id)
    assert "Nothing says how many repetitions it was" in words(at) + " ".join(each.value for each in at.error)
    (reps,) = [each for each in at.number_input if each.key.endswith("_reps") and each.key.startswith("line_")]
    reps.set_value(13).run()
    tap(at, log_it.key)
    assert [row.reps for row in done(log, member.id)] == [13]
