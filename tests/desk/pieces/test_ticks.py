"""Rounds without a score are ticked in the order in which they are done: a movement, or a whole round, in a touch."""

from __future__ import annotations

import pytest

from tests.day import this_day
from tests.undoing import undo_newest
from tracker.desk.day.next import whats_next
from tracker.desk.pieces import ticks
from tracker.desk.sheet import sheets
from tracker.errors import BadInputError

ROUNDS = (
    "3 rounds, not for time:\n10 walking lunges each leg, 2 x 10 kg dumbbells\n12 ring rows\n30 s side plank each side"
)


def test_a_movement_or_a_round_is_ticked_and_undone(log, ana):
    sheets.take_sheet(log, [ana.id], ROUNDS, this_day())
    found = whats_next(log, ana.id, this_day())
    assert found.piece is not None
    assert found.session is not None
    piece, step = found.piece, found.session.step_id
    assert ticks.has_ticks(piece.row.piece)

    def now():
        return ticks.ticks(log, ana.id, piece.piece_id, piece.shown, this_day(), member_step_id=step)

    assert now().movements == ("10 each side: walking lunges", "12 ring rows", "30 s each side: side plank")
    assert (now().rounds, now().on) == (3, 0)
    ticks.tick(log, ana.id, piece.piece_id, this_day(), now().with_only(0, [0, 1]), member_step_id=step)
    assert (now().of_round(0), now().on) == ((0, 1), 0)
    ticks.tick(log, ana.id, piece.piece_id, this_day(), now().with_round(0), member_step_id=step)
    assert now().on == 1
    undo_newest(log, ana.id)
    assert now().of_round(0) == (0, 1)
    ticks.tick(
        log,
        ana.id,
        piece.piece_id,
        this_day(),
        {(at, task) for at in range(3) for task in range(3)},
        member_step_id=step,
    )
    assert now().on is None
    assert whats_next(log, ana.id, this_day()).kind == "piece"  # ticked is not yet said to be over
    with pytest.raises(BadInputError):
        ticks.tick(log, ana.id, piece.piece_id, this_day(), {(3, 0)}, member_step_id=step)
