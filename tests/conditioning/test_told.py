"""A score as it is told across a gym: where in the ladder, how many of all."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.told import place_words, told_words
from tracker.conditioning.words import parse_score


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("160", "through the 15s, plus 25 (in the 18s: 7 box step-overs)"),
        ("through the 15s, plus 18", "through the 15s, plus 18 (in the 18s: kettlebell swing done)"),
        ("143", "through the 15s, plus 8 (in the 18s: 8 kettlebell swings)"),
        ("through the 15s", "through the 15s"),
        ("in the first round, 2 reps", "in the first round, 2 reps (in the 3s: 2 kettlebell swings)"),
        ("between 150 and 160", "between 150 and 160 reps"),
    ],
)
def test_a_place_in_a_ladder_is_told_by_its_rung_and_movement(ladder_piece, day, text, said):
    assert told_words(parse_score(ladder_piece, day, text)) == said


def test_equal_rounds_are_told_by_their_number(rounds_piece, day):
    assert told_words(parse_score(rounds_piece, day, "7 + 12")) == "7 rounds, plus 12 (in round 8: 2 push-ups)"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("CAP + 13", "CAP + 13 (77 of 90; in the 9s: 5 deadlifts)"),
        ("8:00", "8:00"),
        ("stopped at 6:30, through the 21s, plus 8", "stopped at 6:30, through the 21s, plus 8 (50 of 90; in the 15s: 8 deadlifts)"),
        ("CAP + 30", "CAP + 30 (60 of 90; in the 15s: 3 burpees)"),
        ("CAP + 90", "CAP + 90 (0 of 90)"),
    ],
)  # fmt: skip
def test_what_ended_before_its_end_is_told_out_of_the_whole(timed_piece, day, text, said):
    """Worked: 21-15-9 of two movements are 90; after the 21s (42) and 15 deadlifts 57 are done, so 60 are 3 burpees in."""
    assert told_words(parse_score(timed_piece, day, text)) == said


def test_what_was_done_instead_is_what_is_told(timed_piece, day):
    score = parse_score(timed_piece, day, "CAP + 30", swaps="burpee -> push-up")
    assert told_words(score) == "CAP + 30 (60 of 90; in the 15s: 3 push-ups)"


def test_parts_calories_and_names_that_have_no_other_plural(day):
    parts = Piece(
        "Sluice", "for time",
        (Task("run", Steady(400), "m", part="buy-in"), Task("toes-to-bar", Steady(10)), Task("row", Steady(12), "cal"),
         Task("burpee over the bar", Steady(20), part="cash-out")), rounds=3, cap_s=600,
    )  # fmt: skip
    assert place_words(parse_score(parts, day, "4 at the cap")) == "in round 1: 3 toes-to-bar"
    assert place_words(parse_score(parts, day, "15 at the cap")) == "in round 1: 4 cal row"
    assert place_words(parse_score(parts, day, "70 at the cap")) == "in the cash-out: 3 burpee over the bar"
    assert told_words(parse_score(replace(parts, rounds=1), day, "11 at the cap")) == "CAP + 32 (11 of 43; toes-to-bar done)"


def test_scores_without_places_are_told_as_they_are(interval_piece, minute_piece, day):
    assert told_words(parse_score(minute_piece, day, "10/12")) == "10/12"
    assert told_words(parse_score(interval_piece, day, "577, 570, 564, 554, 548")) == "577, 570, 564, 554, 548 m"


def test_a_home_version_is_told_beside_the_score(timed_piece, day):
    tasks = tuple(replace(task, options=(Task("dumbbell deadlift", task.run, when="home"),)) for task in timed_piece.tasks)
    piece = replace(timed_piece, tasks=tasks[:1] + timed_piece.tasks[1:])
    assert told_words(parse_score(piece, day, "7:10", swaps="deadlift -> dumbbell deadlift")) == "7:10, home version"
    assert told_words(parse_score(piece, day, "7:10")) == "7:10"
