"""Building to a heavy single: each single is logged with its load, and the heaviest ends it and may become the max."""

from __future__ import annotations

from datetime import timedelta

from tests.day import this_day
from tests.loads import kg
from tests.pages.conftest import Open, field, tap, words
from tracker.desk.day import today
from tracker.desk.day.next import whats_next
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.desk.sheet import sheets
from tracker.log.unit_of_work import Log


def test_singles_on_the_way_leave_the_heavy_one_next(log: Log, show: Open):
    member = people.add_member(log, "Birgit")
    lift = people.add_lift(log, "front squat", "barbell")
    rep_maxes.add_rep_max(log, member.id, lift.id, this_day() - timedelta(days=90), 1, kg("82.5"), tested=True)
    sheets.take_sheet(log, [member.id], "Front squat: build to a heavy single", this_day())
    at = show(log)
    for load in ("60", "77.5"):
        field(at, "text_input", "_load", "line_").set_value(load)
        tap(at, field(at, "button", "_first", "line_").key)
        assert whats_next(log, member.id, this_day()).kind == "set"
    assert field(at, "text_input", "_load", "line_").value == "77.5"  # from where one goes on
    field(at, "text_input", "_load", "line_").set_value("85")
    tap(at, field(at, "button", "_log", "line_").key)
    found = whats_next(log, member.id, this_day())
    assert found.kind == "rating"
    assert [str(row.load) for row in today.day_plan(log, member.id, this_day()).sets] == ["60 kg", "77.5 kg", "85 kg"]
    assert "Is 85 kg your 1RM from now on?" in words(at)
