"""A time to the tenth goes into the log, out as a result and into another log, and the check finds nothing."""

from __future__ import annotations

from tests.day import this_day
from tests.undoing import undo_newest
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.words import score_words
from tracker.desk.coach import send_result, take_results
from tracker.desk.day import today
from tracker.desk.people import people
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.conditioning import Said
from tracker.log.scores import ScoreRow
from tracker.log.unit_of_work import Log

ROWS = Piece("Rows", "work and rest", (Task("row", Steady(500), "m"),), rest_s=120, intervals=3)


def kept(log: Log, member_id: str) -> ScoreRow:
    (row,) = today.day_plan(log, member_id, this_day()).scores
    return row


def test_it_is_kept_and_travels(log: Log):
    member = people.add_member(log, "Desmond")
    row = conditioning.add_piece(log, ROWS)
    conditioning.log_score(log, member.id, row.id, this_day(), Said("1:51.8, 1:52.4, 1:52"))
    got = kept(log, member.id)
    assert score_words(got.score) == "1:51.8, 1:52.4, 1:52"
    line = send_result.result_line(log, member.id, this_day())
    undo_newest(log, member.id)
    assert not today.day_plan(log, member.id, this_day()).scores
    take_results.take_results(log, line)
    assert score_words(kept(log, member.id).score) == "1:51.8, 1:52.4, 1:52"
