"""Ladders: rounds that ask for more, or fewer, repetitions each time, and where in one a count of repetitions lies.

A round asks each movement, in order, for so many repetitions. Each movement has its own run of numbers: a steady one
(first, first + step, ...; step 0 for a station that stays the same) or a written list (21, 15, 9). A position is what
a member can say when time is up: rounds finished, movements finished in the open round, repetitions of the next.
What is done once before the rounds (a buy-in) or after them (a cash-out) is a stage of its own, in places as in totals.
Whole numbers throughout: the round is found by halving, never by a square root that could be off by one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate

from tracker.errors import BadInputError
from tracker.wording import counted

BUY_IN = -2  # in place of a number of finished rounds: what comes before them is still being done
ENDLESS = 1_000_000  # repetitions that nobody does in a piece: what a movement without an end asks


@dataclass(frozen=True, slots=True)
class Steady:
    """Repetitions of one movement that change by the same step each round: first, first + step, ..."""

    first: int
    step: int = 0

    def __post_init__(self) -> None:
        if self.first < 1:
            raise BadInputError(f"A ladder can't start at {self.first} repetitions.", mend="Start at 1 or more.")

    @property
    def rounds(self) -> int | None:
        """Rounds until fewer than one repetition would be asked; None where that never comes."""
        return None if self.step >= 0 else (self.first - 1) // -self.step + 1

    def at(self, index: int) -> int:
        """Repetitions that round `index` (from 0) asks."""
        return self.first + index * self.step

    def through(self, count: int) -> int:
        """Repetitions of the first `count` rounds together."""
        return count * self.first + self.step * count * (count - 1) // 2


@dataclass(frozen=True)
class Listed:
    """Repetitions of one movement written out round by round, such as 21, 15, 9 or 1, 2, 3, 2, 1."""

    reps: tuple[int, ...]

    def __post_init__(self) -> None:
        if not self.reps or min(self.reps) < 1:
            raise BadInputError("Every round of a ladder needs at least one repetition.", mend="Write such as 21-15-9.")

    @property
    def rounds(self) -> int:
        return len(self.reps)

    @cached_property
    def _sums(self) -> tuple[int, ...]:
        return (0, *accumulate(self.reps))

    def at(self, index: int) -> int:
        """Repetitions that round `index` (from 0) asks."""
        return self.reps[index]

    def through(self, count: int) -> int:
        """Repetitions of the first `count` rounds together."""
        return self._sums[count]


Run = Steady | Listed


@dataclass(frozen=True, slots=True)
class Position:
    """Where a member is: rounds finished, movements finished in the open round, repetitions of the next movement.

    `rounds` is BUY_IN before the first round can begin; with a cash-out it is all rounds during it, one more after it.
    """

    rounds: int
    done: int = 0
    reps: int = 0


class ImpossiblePositionError(BadInputError):
    """A position or total that the ladder doesn't have; `meant` is the one that was probably meant, or None."""

    def __init__(self, what: str, meant: Position | None = None, mend: str = "") -> None:
        self.meant = meant
        super().__init__(what, mend=f"Probably meant: {_spoken(meant)}." if meant else mend)


@dataclass(frozen=True, slots=True)
class Ladder:
    """The repetitions of a piece, movement by movement and round by round.

    `most_rounds` ends the ladder after so many rounds; None goes on for as long as its runs do. `before` and `after` are
    repetitions done once, movement by movement; with `open_end` one more movement comes last, for as many as there is
    time for.
    """

    runs: tuple[Run, ...]
    most_rounds: int | None = None
    before: tuple[int, ...] = ()
    after: tuple[int, ...] = ()
    open_end: bool = False

    def __post_init__(self) -> None:
        if not (self.runs or self.before or self.after or self.open_end):
            raise BadInputError("A ladder needs at least one movement.", mend="Name the movements of the round.")
        if self.most_rounds is not None and self.most_rounds < 1:
            raise BadInputError(f"{self.most_rounds} rounds can't be.", mend="Ask for 1 round or more.")

    @property
    def rounds(self) -> int | None:
        """Rounds that the ladder has; None where only time ends it."""
        if not self.runs:
            return 0
        ends = [run.rounds for run in self.runs] + [self.most_rounds]
        return min((end for end in ends if end is not None), default=None)

    @property
    def all_reps(self) -> int | None:
        """Repetitions of the whole ladder; None where only time ends it."""
        return None if self.last is None or self.open_end else self.through(self.last)

    @property
    def last(self) -> int | None:
        """The number of the end: that of all rounds, and one more where something comes after them; None without an end."""
        return self.rounds if self.rounds is None else self.rounds + (1 if self.after or self.open_end else 0)

    @property
    def in_parts(self) -> bool:
        """Whether there is more to it than rounds."""
        return bool(self.before or self.after or self.open_end)

    @property
    def alike(self) -> bool:
        """Whether each round asks the same."""
        return all(run.step == 0 if isinstance(run, Steady) else len(set(run.reps)) == 1 for run in self.runs)

    @property
    def stages(self) -> tuple[int, ...]:
        """Positions of the first movement of what comes before, of a round, and of what comes after, among all of them."""
        return 0, len(self.before), len(self.before) + len(self.runs)

    def at(self, index: int) -> tuple[int, ...]:
        """Repetitions that round `index` (from 0) asks, movement by movement; empty past the end.

        BUY_IN asks what comes before, the number of all rounds what comes after them.
        """
        if index == BUY_IN:
            return self.before
        if self.rounds is None or index < self.rounds:
            return tuple(run.at(index) for run in self.runs)
        return (*self.after, *([ENDLESS] if self.open_end else ())) if index == self.rounds else ()

    def first_of(self, index: int) -> int:
        """The place, among all movements, of the first one that `at(index)` asks."""
        before, rounds, after = self.stages
        return before if index == BUY_IN else rounds if self.rounds is None or index < self.rounds else after

    def through(self, count: int) -> int:
        """Repetitions of the first `count` rounds, all movements together, with what comes before them.

        One more than all rounds is with what comes after, too.
        """
        if count == BUY_IN:
            return 0
        rounds = count if self.rounds is None else min(count, self.rounds)
        after = sum(self.after) if count > rounds else 0
        return sum(self.before) + sum(run.through(rounds) for run in self.runs) + after

    def total(self, where: Position) -> int:
        """Repetitions done by the time `where` is reached.

        Raises:
            ImpossiblePositionError: if the ladder has no such position.
        """
        self.check(where)
        return self.through(where.rounds) + sum(self.at(where.rounds)[: where.done]) + where.reps

    def position(self, total: int) -> Position:
        """Where `total` repetitions end. A round just finished is the start of the next.

        Raises:
            ImpossiblePositionError: if `total` is below zero or more than the whole ladder.
        """
        if total < 0:
            raise ImpossiblePositionError(f"{total} repetitions can't be.", mend="Count from 0.")
        if self.all_reps is not None and total > self.all_reps:
            what = f"The whole piece is {self.all_reps:,} repetitions, so {total:,} can't be."
            raise ImpossiblePositionError(what, Position(self.last or 0))
        if self.open_end and total >= ENDLESS:
            raise ImpossiblePositionError(f"{total:,} repetitions can't be.", mend="Count again.")
        rounds = BUY_IN if total < sum(self.before) else self._rounds_within(total)
        return self._within(rounds, total - self.through(rounds))

    def check(self, where: Position) -> None:
        """Raise ImpossiblePositionError, with the position probably meant, unless the ladder has `where`."""
        rounds = 0 if where.rounds == BUY_IN and self.before else where.rounds
        if min(rounds, where.done, where.reps) < 0:
            what = (
                f"A count below zero can't be: {where.rounds} rounds, {where.done} movements, {where.reps} repetitions."
            )
            raise ImpossiblePositionError(what, mend="Count from 0.")
        if self.rounds is not None and self.last is not None and where.rounds > self.last:
            what = f"The piece has {_many(self.rounds, 'round')}, so {where.rounds:,} can't be."
            raise ImpossiblePositionError(what, Position(self.rounds))
        asked = self.at(where.rounds)
        if not asked and (where.done or where.reps):
            raise ImpossiblePositionError("Nothing is left to do after the last round.", Position(where.rounds))
        if asked and where.done >= len(asked):
            what = f"A round has {_many(len(asked), 'movement')}, so {where.done:,} finished in the open one can't be."
            raise ImpossiblePositionError(what, self._meant(where))
        if asked and where.reps >= asked[where.done]:
            what = f"The next movement asks {counted(asked[where.done], 'repetition')}, so {where.reps:,} would have finished it."
            raise ImpossiblePositionError(what, self._meant(where))

    def per_movement(self, total: int) -> tuple[int, ...]:
        """Repetitions of each movement in the first `total` of the ladder; their sum is `total`."""
        where = self.position(total)
        asked = self.at(where.rounds)
        inside = [*asked[: where.done], *([where.reps] if asked else [])]
        rounds = max(0, where.rounds if self.rounds is None else min(where.rounds, self.rounds))
        before = [0] * len(self.before) if where.rounds == BUY_IN else list(self.before)
        after = list(self.after) if where.rounds > rounds else [0] * (len(self.after) + self.open_end)
        found = [*before, *(run.through(rounds) for run in self.runs), *after]
        for place, reps in enumerate(inside, self.first_of(where.rounds)):
            found[place] += reps
        return tuple(found)

    def _rounds_within(self, total: int) -> int:
        """The most rounds that `total` repetitions finish: `through` rises with every round, so halve."""
        end = self.rounds if self.open_end else self.last
        high = 1
        while (end is None or high < end) and self.through(high) <= total:
            high *= 2
        high = high if end is None else min(high, end)
        low = 0
        while low < high:
            middle = (low + high + 1) // 2
            low, high = (middle, high) if self.through(middle) <= total else (low, middle - 1)
        return low

    def _within(self, rounds: int, left: int) -> Position:
        """Walk `left` repetitions into the open round after `rounds` finished ones."""
        done = 0
        for reps in self.at(rounds):
            if left < reps:
                break
            left, done = left - reps, done + 1
        return Position(rounds, done, left)

    def _meant(self, where: Position) -> Position | None:
        """The position that someone probably meant who said `where`.

        "One movement and 25" in a round of 18s is most often 25 counted from the start of the round: one movement and
        7. Only where that does not fit does the surplus run on into the next movement or round.
        """
        asked = self.at(where.rounds)
        if where.done < len(asked):
            counted_from_round = self._within(where.rounds, where.reps)
            if counted_from_round.done == where.done and counted_from_round.reps < asked[where.done]:
                return counted_from_round
        if where.rounds in (BUY_IN, self.rounds):
            total = self.through(where.rounds) + sum(asked[: where.done]) + where.reps
            return self.position(total if self.all_reps is None else min(total, self.all_reps))
        rounds, done = where.rounds + where.done // len(asked), where.done % len(asked)
        if self.rounds is not None and rounds >= self.rounds:
            return Position(self.rounds)
        total = self.through(rounds) + sum(self.at(rounds)[:done]) + where.reps
        return self.position(total if self.all_reps is None else min(total, self.all_reps))


def equal_ladder(first: int, step: int, movements: int, rounds: int | None = None) -> Ladder:
    """Return a ladder in which each of `movements` asks the same: first, first + step, ... repetitions."""
    if movements < 1:
        raise BadInputError(f"{movements} movements can't be.", mend="A ladder has 1 movement or more.")
    return Ladder((Steady(first, step),) * movements, rounds)


def unequal_ladder(firsts: Sequence[int], steps: Sequence[int], rounds: int | None = None) -> Ladder:
    """Return a ladder in which each movement has its own first round and step, such as 3, 3, 10 and 3, 3, 0."""
    if len(firsts) != len(steps):
        what = f"{len(firsts)} first rounds and {len(steps)} steps don't belong together."
        raise BadInputError(what, mend="Give each movement one of each, such as 3,3,10 and 3,3,0.")
    return Ladder(tuple(Steady(first, step) for first, step in zip(firsts, steps, strict=True)), rounds)


def listed_ladder(reps: Sequence[int], movements: int) -> Ladder:
    """Return a ladder written out round by round, the same for each of `movements`, such as 21-15-9."""
    if movements < 1:
        raise BadInputError(f"{movements} movements can't be.", mend="A ladder has 1 movement or more.")
    return Ladder((Listed(tuple(reps)),) * movements)


def _many(count: int, noun: str) -> str:
    return f"{count:,} {noun}{'' if count == 1 else 's'}"


def _spoken(where: Position) -> str:
    return f"{_many(where.rounds, 'round')}, {_many(where.done, 'movement')} and {_many(where.reps, 'repetition')}"
