"""The three touches of an entry form for a timed piece: which round, which movements of the next, how many of the one after.

Choices carry the words that a member would call out, so that the page has nothing to work out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tracker.conditioning.ladder import Ladder, Position
from tracker.conditioning.standing import through_words

MOST_ROUNDS = 200  # a list to touch is no longer than that; more is typed


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing to touch: the number it stands for, and its words."""

    number: int
    words: str


def round_choices(ladder: Ladder, *, around: int | None = None, reach: int = 5) -> tuple[Choice, ...]:
    """Rounds that may be finished, `reach` either way of `around` (the last time, or the taps of the clock)."""
    most = MOST_ROUNDS if ladder.rounds is None else min(ladder.rounds, MOST_ROUNDS)
    low, high = (0, most) if around is None else (max(0, around - reach), min(most, around + reach))
    return tuple(Choice(n, through_words(ladder, n) if n else "no round yet") for n in range(min(low, most), high + 1))


def movement_choices(names: Sequence[str], ladder: Ladder, rounds: int) -> tuple[Choice, ...]:
    """Movements of the open round, named in order, that are finished: none, the first, the first two; never all."""
    asked = ladder.at(rounds)
    done = [Choice(n, f"{asked[n - 1]:,} {names[n - 1]} done") for n in range(1, len(asked))]
    return (Choice(0, "none yet"), *done) if asked else ()


def rep_choices(ladder: Ladder, rounds: int, done: int) -> range:
    """Repetitions of the movement under way that leave it unfinished: 0 to one fewer than asked."""
    asked = ladder.at(rounds)
    ladder.check(Position(rounds, done))
    return range(asked[done]) if asked else range(1)
