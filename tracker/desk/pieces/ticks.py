"""Rounds that are not scored, ticked movement by movement: what is ticked, and what comes next."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from tracker.conditioning.asked import movement_lines
from tracker.conditioning.pieces import Piece
from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.people.people import check_day
from tracker.errors import BadInputError
from tracker.log import piece_ticks
from tracker.log import pieces as log_pieces
from tracker.log.piece_ticks import Tick
from tracker.log.unit_of_work import Log


@dataclass(frozen=True, slots=True)
class Ticks:
    """The rounds of a piece without a score: how many, the movements of each in their order, and what is ticked."""

    rounds: int
    movements: tuple[str, ...]
    done: frozenset[Tick]

    def of_round(self, number: int) -> tuple[int, ...]:
        """Return which movements of a round, from 0, are ticked."""
        return tuple(task for task in range(len(self.movements)) if (number, task) in self.done)

    def is_whole(self, number: int) -> bool:
        return len(self.of_round(number)) == len(self.movements)

    @property
    def on(self) -> int | None:
        """The first round that is not whole; None where all are."""
        return next((number for number in range(self.rounds) if not self.is_whole(number)), None)

    def with_round(self, number: int) -> frozenset[Tick]:
        """Return what is ticked once all of a round is."""
        return self.done | {(number, task) for task in range(len(self.movements))}

    def with_only(self, number: int, tasks: Iterable[int]) -> frozenset[Tick]:
        """Return what is ticked once these and no others of a round are."""
        return frozenset(each for each in self.done if each[0] != number) | {(number, task) for task in tasks}


def has_ticks(piece: Piece) -> bool:
    """Whether a piece is ticked rather than scored: several movements or rounds, and no score."""
    return piece.kind == "unscored" and bool(piece.tasks) and ((piece.rounds or 1) > 1 or len(piece.tasks) > 1)


@may("see")
@cached_until_write
def ticks(log: Log, member_id: str, piece_id: str, piece: Piece, day: date, member_step_id: str | None = None) -> Ticks:
    """Read what is ticked of a piece on a day; `piece` is as it is done here."""
    with log.reading() as session:
        done = piece_ticks.ticked(session, member_id, day, member_step_id or "", piece_id)
    lines = tuple(line.split(", ")[0] for line in movement_lines(piece))
    return Ticks(piece.rounds or 1, lines, done)


@may("change")
def tick(
    log: Log, member_id: str, piece_id: str, day: date, done: Iterable[Tick], member_step_id: str | None = None
) -> None:
    """Keep what is ticked of a piece; when this returns, it is on the disk, and undo takes the touch back.

    Raises:
        BadInputError: if there is no such piece, round or movement, or the day can't be.
    """
    check_day(day)
    with log.reading() as session:
        row = log_pieces.piece(session, piece_id, member_id)
    wanted = frozenset(done)
    if row is None or not all(
        0 <= at < (row.piece.rounds or 1) and 0 <= task < len(row.piece.tasks) for at, task in wanted
    ):
        raise BadInputError("The piece has no such round or movement.", where="piece", mend="Reload the page.")
    most = (row.piece.rounds or 1) * len(row.piece.tasks)
    with log.act(f"ticked {row.piece.title}: {len(wanted)} of {most}", member_id, own=True) as act:
        piece_ticks.put(act, member_id, day, member_step_id or "", piece_id, wanted)
