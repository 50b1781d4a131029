"""How a set that did not go up is said: what was made, and which repetition failed."""

import pytest

from tracker.strength.outcomes import ended_words, ordinal


@pytest.mark.parametrize(
    ("number", "words"),
    [(1, "1st"), (2, "2nd"), (3, "3rd"), (4, "4th"), (10, "10th"), (11, "11th"), (12, "12th"), (13, "13th"), (21, "21st"),
     (22, "22nd"), (101, "101st"), (111, "111th")],
)  # fmt: skip
def test_ordinals_are_english_ones(number, words):
    assert ordinal(number) == words


@pytest.mark.parametrize(
    ("reps", "outcome", "words"),
    [(4, "missed", "4 made, the 5th missed"), (0, "missed", "the 1st missed"), (3, "cut", "cut short after 3"), (5, "done", "")],
)  # fmt: skip
def test_a_miss_says_what_was_made_and_which_one_failed(reps, outcome, words):
    assert ended_words(reps, outcome) == words
