"""What the clock of a piece says is on: the round, the minute, the movements with their counts, what may be done instead."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tracker.conditioning.ladder import Listed, Steady
from tracker.conditioning.now import intervals, now_in_interval, now_in_round
from tracker.conditioning.pieces import Piece, Task
from tracker.units import Mass

ROW = Task("row", Steady(12), "cal")
SWING = Task("kettlebell swing", Steady(3, 3), load=Mass(Decimal(16), "kg"))
PUSH_UP = Task("push-up", Steady(3, 3), options=(Task("push-up from the knees", Steady(3, 3)),))
LADDER = Piece("Ladder", "as many as possible", (SWING, PUSH_UP), cap_s=720)
FEWER = (Task("burpee", Listed((21, 15, 9))), Task("air squat", Listed((21, 15, 9))))


@pytest.mark.parametrize(
    ("piece", "finished", "head", "then"),
    [
        (LADDER, 0, "Round 1: 3 of each", "Then 6 of each"),
        (LADDER, 2, "Round 3: 9 of each", "Then 12 of each"),
        (Piece("A", "for time", FEWER), 1, "Round 2: 15 of each", "Then 9 of each"),
        (Piece("A", "for time", FEWER), 2, "Round 3: 9 of each", ""),
        (Piece("A", "for time", FEWER), 3, "All rounds are done", ""),
        (Piece("A", "for time", (Task("burpee", Listed((10, 8))),)), 0, "Round 1: 10 burpees", "Then 8 burpees"),
        (Piece("A", "for time", (Task("burpee", Steady(5)), ROW), rounds=3), 1, "Round 2", ""),
        (Piece("A", "for time", (Task("row", Listed((2000,)), "m"),), rounds=1), 0, "2,000 m row", ""),
        (Piece("A", "for time", (Task("run", Steady(400), "m"), ROW), rounds=1), 0, "In this order", ""),
        (Piece("A", "distance", (Task("row", measure="m"),), cap_s=600), 0, "Row", ""),
        (Piece("A", "as many as possible", (Task("burpee", most=True),), cap_s=60), 0, "Max burpees", ""),
        (Piece("A", "unscored"), 0, "", ""),
    ],
)  # fmt: skip
def test_in_rounds(piece: Piece, finished: int, head: str, then: str):
    now = now_in_round(piece, finished)
    assert (now.head, now.then) == (head, then)


def test_movements_and_options_stand_beneath():
    now = now_in_round(LADDER, 1)
    assert now.lines == ("kettlebell swing, 16 kg", "push-up")
    assert now.options == ("or push-up from the knees",)
    assert now_in_round(Piece("A", "for time", (Task("burpee", Steady(5)), ROW), rounds=3), 1).lines == (
        "5 burpees",
        "12 cal row",
    )


def test_minutes_in_turn_say_this_one_and_the_next():
    cleans = Task("power clean", Steady(3), load=Mass(Decimal(65), "kg"))
    piece = Piece("A", "every minute", (cleans, ROW), work_s=60, intervals=12, in_turn=True)
    assert now_in_interval(piece, 4).words == ("Minute 4: 12 cal row", "Then minute 5: 3 power cleans, 65 kg")
    assert now_in_interval(piece, 12).words == ("Minute 12: 12 cal row",)
    assert len(intervals(piece)) == 12


def test_each_minute_the_same_and_intervals_with_rest():
    piece = Piece("A", "every minute", (Task("burpee", Steady(5)), ROW), work_s=60, intervals=3)
    assert now_in_interval(piece, 2).words == ("Minute 2: 5 burpees; 12 cal row",)
    turns = Piece("Weir", "work and rest", (Task("row", measure="m"),), work_s=120, rest_s=60, intervals=5)
    assert now_in_interval(turns, 3).head == "Interval 3: row"
    two = Piece("A", "every minute", (Task("burpee", Steady(5)),), work_s=120, intervals=3)
    assert now_in_interval(two, 1).head == "Interval 1: 5 burpees"
    assert intervals(LADDER) == ()


def test_a_pair_whose_side_nobody_chose_stays_a_pair():
    piece = Piece("A", "for time", (Task("row", sides=(12, 9), measure="cal"), Task("burpee", Steady(5))), rounds=3)
    assert now_in_round(piece, 0).lines == ("12/9 cal row", "5 burpees")


def test_a_buy_in_and_a_cash_out_are_said_in_their_place():
    run, out = Task("run", Steady(400), "m", part="buy-in"), Task("burpee", Steady(20), part="cash-out")
    piece = Piece("A", "for time", (run, ROW, out), rounds=2)
    assert now_in_round(piece, 0).head == "Buy-in: 400 m run; then round 1: 12 cal row"
    assert now_in_round(piece, 2).head == "Cash-out: 20 burpees"
