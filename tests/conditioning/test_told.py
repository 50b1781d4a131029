"""A score as it is told across a gym: where in the ladder, how many of all."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.score_record import score_from, score_record
from tracker.conditioning.told import place_words, told_words
from tracker.conditioning.words import parse_score, score_words
from tracker.errors import BadInputError
from tracker.units import parse_mass


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("160", "160 reps (in the round of 18: 7 box step-overs)"),
        ("through the 15s, plus 18", "153 reps (in the round of 18: kettlebell swing done)"),
        ("143", "143 reps (in the round of 18: 8 kettlebell swings)"),
        ("through the 15s", "135 reps (round of 15 done)"),
        ("in the first round, 2 reps", "in the first round, 2 reps (in the round of 3: 2 kettlebell swings)"),
        ("between 150 and 160", "between 150 and 160 reps"),
    ],
)
def test_a_place_in_a_ladder_is_told_by_its_repetitions_round_and_movement(ladder_piece, day, text, said):
    assert told_words(parse_score(ladder_piece, day, text)) == said


def test_equal_rounds_are_told_by_their_number(rounds_piece, day):
    assert told_words(parse_score(rounds_piece, day, "7 + 12")) == "7 rounds, plus 12 (in round 8: 2 push-ups)"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("CAP + 13", "CAP + 13 (77 of 90; in the round of 9: 5 deadlifts)"),
        ("8:00", "8:00"),
        ("stopped at 6:30, through the 21s, plus 8", "stopped at 6:30, 50 of 90 reps (in the round of 15: 8 deadlifts)"),
        ("CAP + 30", "CAP + 30 (60 of 90; in the round of 15: 3 burpees)"),
        ("CAP + 90", "CAP + 90 (0 of 90)"),
    ],
)  # fmt: skip
def test_what_ended_before_its_end_is_told_out_of_the_whole(timed_piece, day, text, said):
    """Worked: 21-15-9 of two movements are 90; after the 21s (42) and 15 deadlifts 57 are done, so 60 are 3 burpees in."""
    assert told_words(parse_score(timed_piece, day, text)) == said


def test_what_was_done_instead_is_what_is_told(timed_piece, day):
    score = parse_score(timed_piece, day, "CAP + 30", swaps="burpee -> push-up")
    assert told_words(score) == "CAP + 30 (60 of 90; in the round of 15: 3 push-ups)"


def test_parts_calories_and_names_that_have_no_other_plural(day):
    parts = Piece(
        "Sluice", "for time",
        (Task("run", Steady(400), "m", part="buy-in"), Task("toes-to-bar", Steady(10)), Task("row", Steady(12), "cal"),
         Task("burpee over the bar", Steady(20), part="cash-out")), rounds=3, cap_s=600,
    )  # fmt: skip
    assert place_words(parse_score(parts, day, "4 at the cap")) == "in round 1: 3 toes-to-bar"
    assert place_words(parse_score(parts, day, "15 at the cap")) == "in round 1: 4 cal row"
    assert place_words(parse_score(parts, day, "70 at the cap")) == "in the cash-out: 3 burpees over the bar"
    assert (
        told_words(parse_score(replace(parts, rounds=1), day, "11 at the cap"))
        == "CAP + 32 (11 of 43; toes-to-bar done)"
    )


def test_scores_without_places_are_told_as_they_are(interval_piece, minute_piece, day):
    assert told_words(parse_score(minute_piece, day, "10/12")) == "10/12"
    assert told_words(parse_score(interval_piece, day, "577, 570, 564, 554, 548")) == "577, 570, 564, 554, 548 m"


def test_a_home_version_is_told_beside_the_score(timed_piece, day):
    tasks = tuple(
        replace(task, options=(Task("dumbbell deadlift", task.run, when="home"),)) for task in timed_piece.tasks
    )
    piece = replace(timed_piece, tasks=tasks[:1] + timed_piece.tasks[1:])
    assert told_words(parse_score(piece, day, "7:10", swaps="deadlift -> dumbbell deadlift")) == "7:10, home version"
    assert told_words(parse_score(piece, day, "7:10")) == "7:10"


def test_what_a_member_changed_of_a_home_version_is_none_of_it(day):
    bells = Task("dumbbell thruster", Steady(9), load=parse_mass("15kg"), implements=2, when="home")
    tasks = (
        Task("thruster", Steady(9), options=(bells,)),
        Task("pull-up", Steady(6), options=(Task("dumbbell row", Steady(6), when="home"),)),
    )
    piece = Piece("Naptime", "for time", tasks, rounds=5)

    def told(swaps: str) -> str:
        return told_words(parse_score(piece, day, "7:10", swaps=swaps))

    assert told("thruster -> dumbbell thruster; pull-up -> dumbbell row") == "7:10, home version"
    assert told("pull-up -> dumbbell row, 12 kg") == "7:10, home version"  # the coach says no load for it
    assert told("pull-up -> dumbbell row; thruster -> goblet squat") == (
        "7:10, home version, goblet squat instead of thruster"
    )
    lighter = told("thruster -> dumbbell thruster, 10 kg")
    assert "home version" not in lighter
    assert "dumbbell thruster, 2 x 10 kg instead of thruster" in lighter


BY_MINUTE = Piece(
    "Lighthouse", "every minute", (Task("power clean", Steady(3), load=parse_mass("65kg")), Task("bike", Steady(12), "cal")),
    work_s=60, intervals=12, in_turn=True, scored_by="completed",
)  # fmt: skip


def test_single_minutes_that_fell_short_are_said_and_summed_up(day):
    """Worked: six minutes of 3 cleans; of six minutes of 12 calories one was left out and one had 10: 12 x 4 + 10."""
    score = parse_score(BY_MINUTE, day, "10/12, minute 8: 0, minute 10: 10")
    assert (score.kept, score.short) == (10, ((8, 0), (10, 10)))
    assert parse_score(BY_MINUTE, day, score_words(score)) == score == score_from(BY_MINUTE, score_record(score))
    assert told_words(score) == "10/12 (18 power cleans at 65 kg, 58 cal bike; minute 8: none; minute 10: 10)"
    assert told_words(parse_score(BY_MINUTE, day, "10/12")) == "10/12"  # which ones nobody said
    assert told_words(parse_score(BY_MINUTE, day, "12/12")) == "12/12 (18 power cleans at 65 kg, 72 cal bike)"


@pytest.mark.parametrize(
    "wrong",
    [
        "11/12, minute 8: 0, minute 10: 10",
        "10/12, minute 13: 0",
        "10/12, minute 8: 12",
        "10/12, minute 8: 0, minute 8: 1",
    ],
)
def test_minutes_that_can_not_have_fallen_short_so_are_refused(day, wrong):
    with pytest.raises(BadInputError):
        parse_score(BY_MINUTE, day, wrong)


def test_who_did_it_together_stands_beside_the_score(rounds_piece, day):
    pair = replace(rounds_piece, partners=2)
    assert told_words(parse_score(pair, day, "8 rounds")) == "8 rounds, 2 together"
    score = parse_score(pair, day, "8 rounds", partner="Juno")
    assert told_words(score) == "8 rounds, with Juno"
    assert score_from(pair, score_record(score)) == score
    assert "Juno" not in score_words(score)
