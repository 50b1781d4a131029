"""What is to be done now while the clock of a piece runs: this round, this minute, with its counts, and what follows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tracker.conditioning.asked import movement_lines, now_words, option_lines
from tracker.conditioning.pieces import IN_INTERVALS, Piece, Task


@dataclass(frozen=True, slots=True)
class Now:
    """What is on.

    `head` stands large: "Round 3: 9 of each", "Minute 4: 12 cal row"; `lines` are movements that it does not say,
    `options` what may be done instead, `then` what comes next; each may be empty.
    """

    head: str
    lines: tuple[str, ...] = ()
    options: tuple[str, ...] = ()
    then: str = ""

    @property
    def words(self) -> tuple[str, ...]:
        """All of it, a line each."""
        return tuple(each for each in (self.head, *self.lines, self.then) if each)


def now_in_round(piece: Piece, finished: int) -> Now:
    """Say what is on after so many finished rounds; of one stretch that is all of it."""
    if not piece.tasks:
        return Now("")
    if not piece.placed:
        return _all(piece)
    if piece.ladder.in_parts:
        return _in_parts(piece, finished)
    rounds = piece.ladder.rounds
    if rounds == 1:
        return _all(piece)
    if rounds is not None and finished >= rounds:
        return Now("All rounds are done")
    following = "" if rounds is not None and finished + 1 >= rounds else _counts(piece, finished + 1)
    return _round(piece, finished, f"Then {following}" if following else "")


def now_in_interval(piece: Piece, number: int) -> Now:
    """Say what the interval of a number, from 1, asks; and with movements in turn what the next one does."""
    name = "Minute" if piece.work_s == 60 and not piece.rest_s else "Interval"
    places = _of_interval(piece, number)
    follows = piece.in_turn and (piece.intervals is None or number < piece.intervals)
    then = f"Then {name.lower()} {number + 1}: {_said(piece, _of_interval(piece, number + 1))}" if follows else ""
    options = _options(piece, [piece.tasks[place] for place in places])
    return Now(f"{name} {number}: {_said(piece, places)}", (), options, then)


def intervals(piece: Piece) -> tuple[Now, ...]:
    """Say all intervals of a piece, from the first; none where it has none."""
    if piece.kind not in IN_INTERVALS or not piece.tasks:
        return ()
    return tuple(now_in_interval(piece, number) for number in range(1, (piece.intervals or 0) + 1))


def _round(piece: Piece, finished: int, then: str) -> Now:
    tasks = [task for task in piece.tasks if not task.part]
    same = _of_each(tasks, finished)
    if same and len(tasks) > 1:
        names = tuple(", ".join((task.movement, *task.marks())) for task in tasks)
        return Now(f"Round {finished + 1}: {same}", names, _options(piece, tasks), then)
    if len(tasks) == 1:
        return Now(f"Round {finished + 1}: {tasks[0].words(finished)}", (), _options(piece, tasks), then)
    return Now(f"Round {finished + 1}", tuple(task.words(finished) for task in tasks), _options(piece, tasks), then)


def _counts(piece: Piece, finished: int) -> str:
    """What the next round asks, where it is another number than this one's."""
    tasks = [task for task in piece.tasks if not task.part]
    after, before = _of_each(tasks, finished), _of_each(tasks, finished - 1)
    if not after or after == before:
        return ""
    return after if len(tasks) > 1 else tasks[0].words(finished)


def _of_each(tasks: Sequence[Task], finished: int) -> str:
    """Return "9 of each" where all movements of a round ask for the same repetitions; else an empty text."""
    counts = {(task.amount.at(finished), task.measure) for task in tasks}
    plainly = all(task.sides is None and not task.most and not task.no_amount for task in tasks)
    if len(counts) != 1 or not plainly or tasks[0].measure != "reps":
        return ""
    return f"{tasks[0].amount.at(finished):,} of each"


def _in_parts(piece: Piece, finished: int) -> Now:
    said = now_words(piece, finished).removeprefix("Now: ")
    return Now(f"{said[:1].upper()}{said[1:]}", (), _options(piece, piece.tasks))


def _all(piece: Piece) -> Now:
    lines = movement_lines(piece)
    if len(lines) == 1:
        return Now(f"{lines[0][:1].upper()}{lines[0][1:]}", (), _options(piece, piece.tasks))
    return Now("In this order", lines, _options(piece, piece.tasks))


def _of_interval(piece: Piece, number: int) -> Sequence[int]:
    """Return the places of the movements that an interval asks for."""
    return ((number - 1) % len(piece.tasks),) if piece.in_turn else range(len(piece.tasks))


def _said(piece: Piece, places: Sequence[int]) -> str:
    lines = movement_lines(piece)
    return "; ".join(lines[place] for place in places)


def _options(piece: Piece, tasks: Sequence[Task]) -> tuple[str, ...]:
    return tuple(line for task in tasks for line in option_lines(piece, task))
