"""A position in a ladder said in full: the numbers, and the words that people call across a gym."""

from __future__ import annotations

import re
from dataclasses import dataclass

from tracker.conditioning.ladder import BUY_IN, Ladder, Position, Steady
from tracker.wording import counted


@dataclass(frozen=True, slots=True)
class Standing:
    """Where a member stands in a ladder; `rounds` are those finished.

    `open_round` is what the open round asks of each movement, empty when nothing is left; `open_round_reps` is that
    number where it is the same for all, else None. `words`: such as "through the 15s, plus 25 (1 movement and 7)".
    """

    total_reps: int
    rounds: int
    done: int
    reps: int
    open_round: tuple[int, ...]
    into_round: int
    words: str

    @property
    def open_round_reps(self) -> int | None:
        return self.open_round[0] if len(set(self.open_round)) == 1 else None

    @property
    def record(self) -> dict[str, object]:
        """The standing as plain values, for JSON."""
        return {
            "total_reps": self.total_reps, "rounds": self.rounds, "done": self.done, "reps": self.reps,
            "open_round_reps": self.open_round_reps, "open_round": list(self.open_round),
            "into_round": self.into_round, "words": self.words,
        }  # fmt: skip


def standing(ladder: Ladder, where: Position | int) -> Standing:
    """Return the full record of a position, or of a total of repetitions.

    Raises:
        ImpossiblePositionError: if the ladder doesn't have it; the error carries the position probably meant.
    """
    place = ladder.position(where) if isinstance(where, int) else where
    total = ladder.total(place)
    into = total - ladder.through(place.rounds)
    words = _words(ladder, place, into)
    rounds = max(0, place.rounds if ladder.rounds is None else min(place.rounds, ladder.rounds))
    return Standing(total, rounds, place.done, place.reps, ladder.at(place.rounds), into, words)


def through_words(ladder: Ladder, rounds: int) -> str:
    """Say which rounds are finished, rounds > 0: "through the 15s", "7 rounds", "through round 5 (15, 15 and 10)".

    A number that a ladder comes to more than once says which time.
    """
    if ladder.last is not None and rounds > (ladder.rounds or 0):
        return "all of it"
    last = ladder.at(rounds - 1)
    if _same_every_round(ladder):
        return f"{rounds:,} round{'' if rounds == 1 else 's'}"
    if len(set(last)) > 1:
        return f"through round {rounds:,} ({', '.join(map(str, last[:-1]))} and {last[-1]})"
    time = _which_time(ladder, rounds)
    return f"through the {last[0]:,}s" + (f" for the {_ordinal(time)} time" if time else "")


def rounds_words(ladder: Ladder, rounds: int) -> str:
    """Name the last of the finished rounds, rounds > 0: "round of 15", "7 rounds", "round 5 (15, 15 and 10)"."""
    return re.sub(r"^the ([\d,]+)s", r"round of \1", through_words(ladder, rounds).removeprefix("through "))


def _words(ladder: Ladder, place: Position, into: int) -> str:
    if not ladder.at(place.rounds):
        return f"all of it, {counted(ladder.through(place.rounds), 'rep')}"
    detail = ""
    if place.done:
        detail = f" ({place.done} movement{'' if place.done == 1 else 's'}" + (
            f" and {place.reps})" if place.reps else ")"
        )
    if place.rounds == BUY_IN:
        return f"in the buy-in, {into:,} rep{'' if into == 1 else 's'}{detail}"
    if place.rounds == ladder.rounds:
        return _after_words(ladder, place, into)
    if place.rounds == 0:
        return f"in the first round, {into:,} rep{'' if into == 1 else 's'}{detail}"
    return through_words(ladder, place.rounds) + (f", plus {into:,}{detail}" if into else "")


def _after_words(ladder: Ladder, place: Position, into: int) -> str:
    """Say a place after the rounds: in a cash-out, or in what is done for as long as there is time."""
    if place.done == len(ladder.after) and ladder.open_end:
        return f"{counted(ladder.total(place), 'rep')} ({place.reps:,} in the time left)"
    through = through_words(ladder, place.rounds) if place.rounds else "all of the buy-in"
    return through + (f", plus {into:,} (cash-out)" if into else "")


def _which_time(ladder: Ladder, rounds: int) -> int:
    """The how-manieth time round `rounds` is of its number; 0 where the ladder comes by it only once."""
    if _is_steady(ladder):  # with a step, each number comes by but once
        return 0
    same = [index for index in range(ladder.rounds or 0) if ladder.at(index) == ladder.at(rounds - 1)]
    return same.index(rounds - 1) + 1 if len(same) > 1 else 0


def _same_every_round(ladder: Ladder) -> bool:
    if _is_steady(ladder):
        return all(isinstance(run, Steady) and run.step == 0 for run in ladder.runs)
    return len({ladder.at(i) for i in range(ladder.rounds or 0)}) == 1


def _is_steady(ladder: Ladder) -> bool:
    """No written list in it: such a ladder can have more rounds than one would count."""
    return all(isinstance(run, Steady) for run in ladder.runs)


def _ordinal(number: int) -> str:
    ending = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return {1: "first", 2: "second", 3: "third"}.get(number, f"{number}{ending}")
