"""Last time at the card of a piece."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.day import this_day
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk.people import people
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.last_piece import LastPiece, last_piece
from tracker.desk.pieces.piece_entry import Said

PIECE = Piece("Harbour", "for time", (Task("burpee", Steady(20)), Task("pull-up", Steady(10))), rounds=3)


@pytest.fixture
def score(log):
    member = people.add_member(log, "Ivo")
    row = conditioning.add_piece(log, PIECE)

    def scored(days_ago: int, text: str, **more) -> None:
        conditioning.log_score(log, member.id, row.id, this_day() - timedelta(days=days_ago), Said(text, **more))

    def last(**more) -> LastPiece | None:
        return last_piece(log, member.id, PIECE, this_day(), **more)

    scored.last = last  # type: ignore[attr-defined]
    return scored


def test_it_says_the_score_the_day_what_was_swapped_and_the_note(score):
    assert score.last() is None
    score(20, "8:41")
    score(1, "9:30", swaps="pull-up -> ring row", note="grip went")
    score(0, "1:00")  # of today
    assert score.last().lines(this_day()) == (
        "Last time, yesterday: 9:30, with ring row instead of pull-up.",
        "You noted: grip went",
        "To beat the last go as asked: faster than 8:41.",
    )


def test_what_beats_it_is_said_while_it_is_learnt_and_where_a_better_one_was_before(score):
    score(40, "8:41")
    assert score.last().to_beat == "To beat last time: faster than 8:41."
    assert score.last(easy=True).to_beat == ""
    score(30, "8:30")
    score(20, "8:20")
    score(10, "8:10")
    assert score.last().to_beat == ""  # the best of four: nothing says that it is within reach
    score(5, "8:35")
    assert score.last().to_beat == "To beat last time: faster than 8:35."


@pytest.mark.parametrize(
    ("scored_by", "said"),
    [
        ("total", "To beat last time: faster than 3:46 in all."),
        ("lowest", "To beat last time: no interval slower than 1:54."),
    ],
)
def test_what_beats_intervals_that_are_timed_is_less(log, scored_by, said):
    ana = people.add_member(log, "Ana")
    piece = Piece(
        "Rows", "work and rest", (Task("row", Steady(500), "m"),), rest_s=120, intervals=2, scored_by=scored_by
    )
    row = conditioning.add_piece(log, piece)
    conditioning.log_score(log, ana.id, row.id, this_day() - timedelta(days=3), Said("1:52, 1:54"))
    found = last_piece(log, ana.id, piece, this_day())
    assert found is not None
    assert (found.said, found.to_beat) == ("1:52, 1:54", said)
