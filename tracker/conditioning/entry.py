"""The three touches of an entry form for a timed piece: which round, which movements of the next, how many of the one after.

Choices carry the words that a member would call out, so that the page has nothing to work out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tracker.conditioning.ladder import BUY_IN, ENDLESS, Ladder, Position
from tracker.conditioning.named import many, measured
from tracker.conditioning.pieces import Piece
from tracker.conditioning.standing import rounds_words

MOST_ROUNDS = 200  # a list to touch is no longer than that; more is typed


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing to touch: the number it stands for, and its words."""

    number: int
    words: str


def names_in(piece: Piece) -> list[str]:
    """Name all movements of a piece for the touches below, each with what it is counted in, where that is not repetitions."""
    return [measured(task.movement, task.measure) for task in piece.tasks]


def round_choices(ladder: Ladder, *, around: int | None = None, reach: int = 5) -> tuple[Choice, ...]:
    """Rounds that may be finished, `reach` either way of `around` (the last time, or the taps of the clock).

    A buy-in that is not finished is a choice of its own, and so is the end of a cash-out.
    """
    end = ladder.rounds if ladder.open_end else ladder.last
    most = MOST_ROUNDS if end is None else min(end, MOST_ROUNDS)
    low, high = (0, most) if around is None else (max(0, around - reach), min(most, max(around, 0) + reach))
    first = (Choice(BUY_IN, "not all of the buy-in"),) if ladder.before and not low else ()
    none = "all of the buy-in" if ladder.before else "no round yet"
    return first + tuple(Choice(n, rounds_words(ladder, n) if n else none) for n in range(min(low, most), high + 1))


def movement_choices(names: Sequence[str], ladder: Ladder, rounds: int) -> tuple[Choice, ...]:
    """Movements of the open round, named in order, that are finished: none, the first, the first two; never all.

    `names` are those of all movements, of what comes before and after the rounds too.
    """
    asked, first = ladder.at(rounds), ladder.first_of(rounds)
    done = [Choice(n, f"{many(names[first + n - 1], asked[n - 1])} done") for n in range(1, len(asked))]
    return (Choice(0, "none yet"), *done) if asked else ()


def rep_label(names: Sequence[str], ladder: Ladder, rounds: int, done: int) -> str:
    """Ask for repetitions of the movement under way: "And of the 15 push-ups"."""
    asked, name = ladder.at(rounds)[done], names[ladder.first_of(rounds) + done]
    return f"And of {name}, in the time left" if asked == ENDLESS else f"And of the {many(name, asked)}"


def rep_choices(ladder: Ladder, rounds: int, done: int) -> range:
    """Repetitions of the movement under way that leave it unfinished: 0 to one fewer than asked."""
    asked = ladder.at(rounds)
    ladder.check(Position(rounds, done))
    return range(asked[done]) if asked else range(1)
