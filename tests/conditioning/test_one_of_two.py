"""One bell where two are asked is another version: said, kept, and like only what was done with one as well."""

from __future__ import annotations

from datetime import date

import pytest

from tracker.conditioning.compare import differences, like_key
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.swaps import parse_swaps, swap_words, swaps_text
from tracker.conditioning.words import parse_score
from tracker.units import parse_mass

DAY = date(2026, 3, 2)
THRUSTER = Task("dumbbell thruster", Steady(10), load=parse_mass("22.5 kg"), implements=2)
SQUAT = Task("double kettlebell front squat", Steady(8))
PIECE = Piece("Harbour pairs", "for time", (THRUSTER, SQUAT), rounds=3)


def score(swaps: str = ""):
    return parse_score(PIECE, DAY, "9:30", swaps=swaps)


@pytest.mark.parametrize(
    ("mark", "load"),
    [("one", "22.5 kg"), ("with one", "22.5 kg"), ("just one", "22.5 kg"), ("1 x 20 kg", "20 kg"), ("one of 20 kg", "20 kg"), ("20 kg, one", "20 kg")],
)  # fmt: skip
def test_one_is_read_as_people_type_it_and_said_back(mark: str, load: str) -> None:
    got = score(f"dumbbell thruster -> dumbbell thruster, {mark}")
    (swap,) = got.swaps
    assert (swap.task.implements, str(swap.task.load)) == (1, load)
    assert swap_words(got) == (f"dumbbell thruster with one of {load} instead of 2 x 22.5 kg",)
    assert parse_swaps(PIECE, swaps_text(PIECE, got.swaps)) == got.swaps


def test_without_a_load_one_is_kept_as_such() -> None:
    got = score("double kettlebell front squat -> double kettlebell front squat, one")
    assert swap_words(got) == ("double kettlebell front squat with one, each side in turn, instead of two",)
    assert parse_swaps(PIECE, swaps_text(PIECE, got.swaps)) == got.swaps


def test_it_is_like_only_what_was_done_with_one_of_the_same() -> None:
    one, other, two = (
        score("dumbbell thruster -> dumbbell thruster, one"),
        score("dumbbell thruster -> dumbbell thruster, one, 20 kg"),
        score(),
    )
    assert like_key(one) == like_key(score("dumbbell thruster -> dumbbell thruster, 1 x 22.5 kg"))
    assert len({like_key(one), like_key(other), like_key(two)}) == 3
    assert differences(two, one)
