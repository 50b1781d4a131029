"""What a member got in a piece: total, splits, cap, tie-break, what was swapped; a lost count stays a range."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from itertools import pairwise
from typing import Literal

from tracker.conditioning.counts import NOTHING, Count, exactly
from tracker.conditioning.ladder import Ladder, Position
from tracker.conditioning.pieces import IN_INTERVALS, IN_ROUNDS, LONGEST_S, Piece, Task
from tracker.conditioning.times import Seconds
from tracker.errors import BadInputError
from tracker.units import Mass, check_load
from tracker.wording import counted

# finished: all of it, or the whole time; capped: time ran out on a piece for time; stopped: ended before either
Ended = Literal["finished", "capped", "stopped"]
UNIT = {"distance": "m", "calories": "cal"}  # what the count of a piece is of; repetitions elsewhere


@dataclass(frozen=True, slots=True)
class Swap:
    """Another movement, or another load, in place of a prescribed one; `index` is that of the piece's task."""

    index: int
    task: Task


@dataclass(frozen=True, slots=True)
class Score:
    """The score of one piece on one day.

    `count`: repetitions (metres, calories) in all, also of a capped piece. `time_s`: seconds that it took (with a tenth where it was given), or after
    which it was stopped; `about` where that is only about so. A piece for time that was finished may be without: then nobody
    knows it. `each`: the result of each interval; `each_s`: the seconds of each, where they are timed one by one, 0 where nobody timed it; `kept`: intervals done in full; `short`: of those that were not the number, from 1, and how much was
    done in it, where somebody says. `partner` is a name that the member typed, and stays with them as a note does. `splits_s`: seconds from
    the start at which rounds were finished. A tie-break is kept and shown, and decides nothing in a member's own
    history. No swaps means as prescribed. Where repetitions say no place in the piece, the count is only a number, and may
    be missing. `piece` is the one that this member did (`for_side`).
    """

    piece: Piece
    day: date
    count: Count | None = None
    time_s: Seconds | None = None
    ended: Ended = "finished"
    load: Mass | None = None
    each: tuple[Count, ...] = ()
    kept: int | None = None
    tie_break_s: int | None = None
    splits_s: tuple[int, ...] = ()
    swaps: tuple[Swap, ...] = ()
    note: str = ""
    about: bool = False
    each_s: tuple[Seconds, ...] = ()
    short: tuple[tuple[int, int], ...] = ()
    partner: str = ""

    def __post_init__(self) -> None:
        _check_swaps(self)
        _check_result(self)
        _check_splits(self)
        _check_short(self)

    @property
    def tasks(self) -> tuple[Task, ...]:
        """The movements as they were really done."""
        done = {swap.index: swap.task for swap in self.swaps}
        return tuple(done.get(index, task) for index, task in enumerate(self.piece.tasks))

    @property
    def done(self) -> Piece:
        """The piece as it was really done."""
        return replace(self.piece, tasks=self.tasks) if self.swaps else self.piece

    @property
    def as_prescribed(self) -> bool:
        return self.tasks == self.piece.tasks

    @property
    def ladder(self) -> Ladder:
        """The repetitions as they were really asked, with what was swapped."""
        return self.done.ladder

    @property
    def unit(self) -> str:
        """What the result counts: reps, m or cal; without places in rounds, what its one number is measured in."""
        if len(self.tasks) == 1 and self.piece.kind in IN_INTERVALS:
            return self.tasks[0].measure
        if self.piece.kind in IN_ROUNDS and not self.done.placed:
            return self.done.one_number_in
        return UNIT.get(self.piece.kind, "reps")

    @property
    def total(self) -> Count | None:
        """All that was done, in `unit`; of a finished piece for time, all of its repetitions; None without a count."""
        if self.count is not None:
            return self.count
        if self.each:
            return sum(self.each, NOTHING)
        whole = self._whole
        return exactly(whole) if whole is not None and self.ended == "finished" else None

    @property
    def missing(self) -> Count | None:
        """Repetitions that a piece for time still wanted; None where the whole is not known."""
        whole = self._whole
        return self.total.taken_from(whole) if whole is not None and self.total is not None else None

    @property
    def _whole(self) -> int | None:
        """All repetitions of a piece for time; None of another one, or where nobody knows."""
        return self.ladder.all_reps if self.piece.kind == "for time" and self.done.placed else None

    @property
    def positions(self) -> tuple[Position, Position] | None:
        """The first and the last position that the count allows; the same one where it is known."""
        if self.total is None or not self.done.placed:
            return None
        return self.ladder.position(self.total.low), self.ladder.position(self.total.high)

    @property
    def lasted_s(self) -> Seconds | None:
        """Seconds that it lasted: as noted, or the time to fill; None where nothing says."""
        if self.time_s is not None or self.ended == "stopped" or self.time_unknown:
            return self.time_s
        return self.piece.length_s

    @property
    def time_unknown(self) -> bool:
        """Whether a piece for time was finished and nobody knows when."""
        return self.piece.kind == "for time" and self.ended == "finished" and self.time_s is None

    def asked_in(self, number: int) -> int | None:
        """How much an interval, from 1, asks for; None where it asks for several movements, or for no fixed amount."""
        task = self.tasks[(number - 1) % len(self.tasks)] if self.piece.in_turn or len(self.tasks) == 1 else None
        return None if task is None or task.most or task.no_amount else task.amount.at(0)

    @property
    def all_intervals_s(self) -> tuple[Seconds, ...]:
        """Seconds of the intervals, where those of all are known; else empty."""
        return self.each_s if len(self.each_s) == self.piece.intervals and all(self.each_s) else ()

    @property
    def timed_s(self) -> tuple[Seconds, ...]:
        """Seconds of those intervals that somebody timed."""
        return tuple(each for each in self.each_s if each)

    def per_movement(self) -> tuple[Count, ...]:
        """Repetitions of each movement as done, in order; a range where the count was lost; empty without a count."""
        if self.positions is None or self.total is None:
            return ()
        low, high = self.ladder.per_movement(self.total.low), self.ladder.per_movement(self.total.high)
        return tuple(Count(fewest, most) for fewest, most in zip(low, high, strict=True))


def reached(piece: Piece, day: date, where: Position | int | Count, *, swaps: tuple[Swap, ...] = ()) -> Score:
    """Score a piece by where its time ended: a position, a total, or a range for a lost count.

    A piece for time is capped, or finished if that was all of it and its time is added.

    Raises:
        ImpossiblePositionError: if the piece has no such position; it carries the one probably meant.
    """
    asked = replace(piece, tasks=tuple({s.index: s.task for s in swaps}.get(i, t) for i, t in enumerate(piece.tasks)))
    total = asked.ladder.total(where) if isinstance(where, Position) else where
    count = exactly(total) if isinstance(total, int) else total
    return Score(piece, day, count=count, ended="capped" if piece.kind == "for time" else "finished", swaps=swaps)


def capped(piece: Piece, day: date, missing: Count | int, *, swaps: tuple[Swap, ...] = ()) -> Score:
    """Score a piece for time that ran into its cap with so many repetitions still to do ("CAP + 13")."""
    left = exactly(missing) if isinstance(missing, int) else missing
    whole = piece.all_reps
    if whole is None or left.high > whole:
        raise BadInputError(f"The whole piece is {whole} repetitions, so {left} missing can't be.", mend="Count again.")
    return Score(piece, day, count=left.taken_from(whole), ended="capped", swaps=swaps)


def _check_swaps(score: Score) -> None:
    places = [swap.index for swap in score.swaps]
    if len(set(places)) < len(places) or any(not 0 <= at < len(score.piece.tasks) for at in places):
        raise BadInputError(
            f"{score.piece.title}: a swap for no movement of it, or two for one.", mend="Swap each once."
        )


def _check_result(score: Score) -> None:
    piece, title = score.piece, score.piece.title
    if score.ended == "capped" and (piece.kind != "for time" or piece.cap_s is None):
        raise BadInputError(
            f"{title} has no cap to run into.", mend="Say stopped, with the time, or give the piece a cap."
        )
    if score.time_s is not None and score.time_s < 1:
        raise BadInputError(f"{title}: a time of {score.time_s} seconds can't be.", mend="Write such as 8:41.")
    if score.about and score.time_s is None:
        raise BadInputError(f"{title}: nothing says about what time.", mend="Write such as about 11:00.")
    known = bool(score.each_s) and bool(score.each_s[-1]) and all(0 <= each <= LONGEST_S for each in score.each_s)
    if score.each_s and not (piece.timed_intervals and known):
        raise BadInputError(f"{title}: no such times of intervals can be.", mend="Write such as 1:52, 1:50, 1:55.")
    if score.count is not None and score.done.placed:
        for total in (score.count.low, score.count.high):
            score.ladder.position(total)  # refuses what can't be
    if score.load is not None:
        check_load(score.load, where=title, least=Decimal(0))  # what is typed is held to more at the desk
    wants = {
        "as many as possible": (
            score.count is not None or bool(score.done.uncounted),
            "a count",
            "Write such as 7 + 12, or between 150 and 160.",
        ),
        "distance": (score.count is not None, "a distance in metres", "Write such as 2,310 m."),
        "calories": (score.count is not None, "calories", "Write such as 148 cal."),
        "heaviest": (score.load is not None or score.ended == "stopped", "a load", "Write such as 92.5 kg."),
        "for time": (_time_is_whole(score), "a time, or how far it went", "Write such as 8:41 or CAP + 13."),
        "every minute": (
            _intervals_are_whole(score),
            "intervals",
            f"Write such as {piece.intervals}/{piece.intervals}.",
        ),
        "work and rest": (
            _intervals_are_whole(score),
            "a result for each interval",
            f"Write such as {'1:52, 1:50, 1:55' if piece.timed_intervals else '577, 570, 564 m'}, and at most {piece.intervals}.",
        ),
        "unscored": (score.total is None and score.load is None, "no score", "Leave it out."),
    }
    fits, what, mend = wants[piece.kind]
    if not fits:
        raise BadInputError(f"{title} wants {what}.", mend=mend)
    if score.tie_break_s is not None and not (
        piece.tie_break and 0 < score.tie_break_s <= (score.lasted_s or LONGEST_S)
    ):
        raise BadInputError(
            f"{title}: no such tie-break time can be.", mend="Name a checkpoint, and a time within the piece."
        )
    if piece.cap_s is not None and (score.time_s or 0) > piece.cap_s:
        raise BadInputError(
            f"{title}: its time is over at {piece.cap_s} seconds.", mend="Write CAP + what was missing."
        )


def _time_is_whole(score: Score) -> bool:
    if not score.done.placed:
        return True
    if score.ended == "finished":
        return score.count is None or score.count.known == score.ladder.all_reps
    unfinished = score.count is not None and score.count.high < (score.ladder.all_reps or 0)
    return unfinished and (score.ended == "stopped" or score.time_s in (None, score.piece.cap_s))


def _intervals_are_whole(score: Score) -> bool:
    most = score.piece.intervals or 0
    if score.kept is not None and not 0 <= score.kept <= most:
        return False
    some = score.kept is not None or bool(score.each or score.each_s)
    return some and max(len(score.each), len(score.each_s)) <= most and not (score.each and score.piece.timed_intervals)


def _check_short(score: Score) -> None:
    if not score.short:
        return
    title, piece = score.piece.title, score.piece
    numbers = [number for number, _ in score.short]
    missing = (piece.intervals or 0) - (score.kept or 0)
    if (
        score.kept is None
        or numbers != sorted(set(numbers))
        or not all(1 <= n <= (piece.intervals or 0) for n in numbers)
    ):
        raise BadInputError(
            f"{title}: no such minutes or intervals can be.", mend="Write such as 10/12, minute 8: 0, minute 10: 6."
        )
    if len(numbers) > missing:
        what = f"{title}: {counted(len(numbers), 'interval')} fell short, and {missing:,} were not done in full."
        raise BadInputError(what, mend="Count again.")
    for number, done in score.short:
        asked = score.asked_in(number)
        if done < 0 or (asked is not None and done >= asked):
            what = (
                f"{title}: {done:,} of the {asked or 0:,} that number {number:,} asks for is not less than all of it."
            )
            raise BadInputError(what, mend="Leave out what was done in full.")


def _check_splits(score: Score) -> None:
    title = score.piece.title
    if any(later <= earlier for earlier, later in pairwise((0, *score.splits_s))):
        raise BadInputError(
            f"{title}: each round ends after the one before it.", mend="Write times from the start, rising."
        )
    if score.splits_s and score.lasted_s is not None and score.splits_s[-1] > score.lasted_s:
        raise BadInputError(f"{title}: a round can't end after the piece.", mend="Check the last split.")
    finished = max(0, score.positions[1].rounds) if score.positions else 0
    if score.splits_s and score.positions and len(score.splits_s) > min(finished, score.ladder.rounds or finished):
        times, rounds = counted(len(score.splits_s), "round"), counted(finished, "round")
        what = f"{title}: times of {times} are written, and {rounds} finished."
        raise BadInputError(what, mend="Leave out the times of rounds that were not finished.")
