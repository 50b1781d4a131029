"""How sets and days are said: the desk's words, for what pages draw."""

from __future__ import annotations

from tracker.desk.maxes.words import (
    KINDS,
    OUTCOMES,
    day_words,
    done_words,
    first_up,
    full_day,
    holds_words,
    in_unit_words,
    load_words,
    reference_words,
    reps_words,
    rir_words,
    set_words,
    weekday_words,
)

__all__ = [
    "KINDS", "OUTCOMES", "day_words", "done_words", "first_up", "full_day", "holds_words", "in_unit_words", "load_words", "reference_words",
    "reps_words", "rir_words", "set_words", "weekday_words",
]  # fmt: skip
