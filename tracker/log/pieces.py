"""Conditioning pieces, their options, and the sessions of waves that they belong to."""

from __future__ import annotations

from dataclasses import dataclass, replace

from sqlalchemy import Select, func, select
from sqlalchemy.orm import Session as OrmSession

from tracker.conditioning.piece_record import piece_from, record_of, task_from, task_record
from tracker.conditioning.pieces import Piece, Side, Task
from tracker.conditioning.sides import for_side
from tracker.log import models, sides
from tracker.log.columns import now
from tracker.log.models import PieceOption, StepPiece
from tracker.log.row_access import belongs
from tracker.log.unit_of_work import Act


@dataclass(frozen=True, slots=True)
class PieceRow:
    """A piece of the log; `piece` carries the options that were added later, after the coach's own.

    `own` names those that are the member's: the place of the movement, and the option. Read for a member who has said
    which of two numbers is theirs, `piece` is the one that they do, and `given` the one with the pairs.
    """

    id: str
    piece: Piece
    own: frozenset[tuple[int, str]] = frozenset()
    given: Piece | None = None

    @property
    def written(self) -> Piece:
        """The piece as it was given out, with its pairs."""
        return self.given or self.piece


def pieces(session: OrmSession, member_id: str | None = None) -> tuple[PieceRow, ...]:
    """List the pieces by title, of one title the newest first; with a member, their own options come after the coach's."""
    query = select(models.Piece).where(models.Piece.removed_at.is_(None))
    query = query.order_by(models.Piece.title, models.Piece.created_at.desc())
    return _piece_rows(session, query, member_id)


def pieces_for(session: OrmSession, member_id: str | None) -> tuple[PieceRow, ...]:
    """List the pieces that a record can hang on: the gym's, and those of the member whose it is (None: of the gym alone)."""
    query = select(models.Piece).where(models.Piece.removed_at.is_(None), belongs(models.Piece, member_id))
    return _piece_rows(session, query.order_by(models.Piece.title, models.Piece.created_at.desc()), None)


def piece(session: OrmSession, piece_id: str, member_id: str | None = None) -> PieceRow | None:
    """Return one piece, also one that is no longer given out: its scores refer to it."""
    found = _piece_rows(session, select(models.Piece).where(models.Piece.id == piece_id), member_id)
    return found[0] if found else None


def pieces_of_step(session: OrmSession, step_id: str, member_id: str | None = None) -> tuple[PieceRow, ...]:
    """List the pieces of one session of a wave, in the coach's order."""
    query = (
        select(models.Piece)
        .join(StepPiece, StepPiece.piece_id == models.Piece.id)
        .where(StepPiece.step_id == step_id, models.Piece.removed_at.is_(None))
        .order_by(StepPiece.position)
    )
    return _piece_rows(session, query, member_id)


def _piece_rows(session: OrmSession, query: Select[models.Piece], member_id: str | None) -> tuple[PieceRow, ...]:
    rows = session.scalars(query).all()
    added: dict[str, list[PieceOption]] = {}
    wanted = select(PieceOption).where(
        PieceOption.piece_id.in_([row.id for row in rows]),
        PieceOption.removed_at.is_(None),
        PieceOption.member_id.is_(None) | (PieceOption.member_id == member_id),
    )
    for option in session.scalars(wanted.order_by(PieceOption.member_id.is_not(None), PieceOption.position)):
        added.setdefault(option.piece_id, []).append(option)
    found = [_piece_row(row, added.get(row.id, [])) for row in rows]
    if member_id is None or not any(row.piece.paired for row in found):
        return tuple(found)
    mine = sides.chosen(session, member_id)
    return tuple(_of_side(row, mine.side(row.id)) for row in found)


def _of_side(row: PieceRow, side: Side | None) -> PieceRow:
    if side is None or not row.piece.paired:
        return row
    return replace(row, piece=for_side(row.piece, side), given=row.piece)


def _piece_row(row: models.Piece, added: list[PieceOption]) -> PieceRow:
    found = piece_from(row.definition)
    tasks, own = list(found.tasks), set[tuple[int, str]]()
    for option in added:
        if option.task < len(tasks):
            task = tasks[option.task]
            more = task_from(option.definition, where=found.title, of=task)
            tasks[option.task] = replace(task, options=(*task.options, more))
            if option.member_id:
                own.add((option.task, more.movement))
    return PieceRow(row.id, replace(found, tasks=tuple(tasks)), frozenset(own))


def add_piece(act: Act, piece: Piece, *, private_to: str | None = None) -> str:
    """Add a piece and return its id: the gym's where a coach makes it, a member's own where they do, or as it is said."""
    row = models.Piece(title=piece.title, kind=piece.kind, cap_s=piece.cap_s, definition=record_of(piece))
    row.private_to = private_to
    act.session.add(row)
    act.session.flush()
    return row.id


def remove_piece(act: Act, piece_id: str) -> None:
    """Stop giving a piece out; its scores stay."""
    act.session.get_one(models.Piece, piece_id).removed_at = now()
    act.session.flush()


def put_piece_into_step(act: Act, step_id: str, piece_id: str) -> None:
    """Let a piece belong to a session of a wave, after those that do already."""
    last = act.session.scalar(select(func.max(StepPiece.position)).where(StepPiece.step_id == step_id))
    act.session.add(StepPiece(step_id=step_id, piece_id=piece_id, position=0 if last is None else last + 1))
    act.session.flush()


def add_option(act: Act, piece_id: str, task: int, option: Task, member_id: str | None = None) -> str:
    """Add an alternative to one movement of a piece: the coach's for all, or one member's own."""
    of_task = select(func.count()).where(PieceOption.piece_id == piece_id, PieceOption.task == task)
    row = PieceOption(
        piece_id=piece_id,
        task=task,
        position=act.session.scalar(of_task) or 0,
        member_id=member_id,
        definition=task_record(option),
    )
    act.session.add(row)
    act.session.flush()
    return row.id
