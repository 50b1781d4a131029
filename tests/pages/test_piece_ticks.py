"""Rounds that are not scored, on the day's own card: ticked one by one or a round at once, and over in a last touch."""

from __future__ import annotations

from tests.day import this_day
from tests.pages.conftest import Open, tap, words
from tracker.desk.day import session_said
from tracker.desk.day.next import whats_next
from tracker.desk.people import people
from tracker.desk.sheet import sheets
from tracker.log.unit_of_work import Log

ROUNDS = "2 rounds, not for time:\n10 walking lunges each leg\n12 ring rows"


def test_rounds_are_ticked_in_order_and_logged_without_a_score(log: Log, show: Open):
    member = people.add_member(log, "Greta")
    sheets.take_sheet(log, [member.id], ROUNDS, this_day())
    at = show(log)

    def rounds() -> list[list[int]]:
        return [list(each.value) for each in at.button_group if str(each.key).startswith("ticks_")]

    assert rounds() == [[], []]
    first = next(each for each in at.button_group if str(each.key).startswith("ticks_"))
    assert first.options == ["10 each side: walking lunges", "12 ring rows"]
    first.set_value([0]).run()
    assert rounds() == [[0], []]
    assert at.button(key="tick_round").label == "All of round 1"
    tap(at, "tick_round")
    assert rounds() == [[0, 1], []]
    tap(at, "frame_undo")
    assert rounds() == [[0], []]
    tap(at, "tick_round")
    tap(at, "tick_round")
    tap(at, "ticks_log")
    assert "Logged" in words(at)
    found = whats_next(log, member.id, this_day())
    assert (found.kind, len(found.plan.scores)) == ("rating", 1)
    assert found.plan.session is not None
    session_said.rate_session(log, found.plan.session.id, member.id, rating=4, minutes=None, note="knees good")
    said = words(show(log))
    assert "Rated 4 of 10." in said
    assert "You noted: knees good" in said
