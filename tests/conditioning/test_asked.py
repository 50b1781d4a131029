"""A piece as it would stand on the board."""

import tomllib
from dataclasses import replace

import pytest

from tracker import asset_folder
from tracker.conditioning.asked import movement_lines, run_words, scheme_words
from tracker.conditioning.ladder import Listed, Steady
from tracker.conditioning.piece_record import piece_from
from tracker.conditioning.pieces import Piece, Task

PIECES = {
    record["title"]: piece_from(record)
    for record in tomllib.loads((asset_folder("demo_data") / "pieces.toml").read_text(encoding="utf-8"))["piece"]
}


@pytest.mark.parametrize(
    ("title", "scheme", "first"),
    [
        ("Lantern ladder", "as many reps as possible in 12:00: 3, then 3 more each round, indoors", "kettlebell swing, 16 kg, to eye height"),
        ("Mill wheel", "4 rounds for time, cap 14:00", "200 m run"),
        ("Downhill", "for time, cap 9:00: 18-15-12-9-6", "deadlift, 60 kg, barbell"),
        ("Sluice gate", "every 1:00, 12 times, one movement each time, in turn, intervals done in full count", "12 cal row"),
        ("Weir", "5 times 2:00 of work, 1:00 of rest", "row"),
        ("Ten minutes on the rower", "as many calories as possible in 10:00", "row"),
        ("Heavy clean in twelve minutes", "the heaviest load in 12:00", "power clean, barbell"),
        ("Kitchen rounds", "as many reps as possible in 10:00, at home", "10 goblet squats, 16 kg, kettlebell"),
        ("Easy half hour", "no score", None),
    ],
)  # fmt: skip
def test_every_kind_is_said(title, scheme, first):
    assert scheme_words(PIECES[title]) == scheme
    assert next(iter(movement_lines(PIECES[title])), None) == first


def test_a_piece_without_a_score_says_how_long_it_goes():
    ride = Piece("Ride", "unscored", (Task("bike"),), cap_s=600)
    assert scheme_words(ride) == "10 min, no score"


def test_unequal_runs_are_said_with_their_movement(rounds_piece):
    tasks = (replace(rounds_piece.tasks[0], run=Steady(3, 3)), replace(rounds_piece.tasks[1], run=Steady(10)))
    lines = movement_lines(replace(rounds_piece, tasks=tasks, partners=2, scored_by="lowest", tie_break="round 2"))
    assert lines == ("3, then 3 more each round: goblet squats", "10 push-ups")
    assert scheme_words(replace(rounds_piece, partners=2, tie_break="round 2")).endswith(
        "2 together, tie-break at round 2"
    )


@pytest.mark.parametrize(
    ("run", "said"),
    [(Listed((21, 15, 9)), "21-15-9"), (Listed((9, 9)), "9"), (Steady(10, -2), "10, then 2 fewer each round")],
)
def test_runs(run, said):
    assert run_words(run) == said
