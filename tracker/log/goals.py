"""What members train for, as it was set, changed and ended."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import select
from sqlalchemy.orm import Session as OrmSession

from tracker.conditioning.piece_record import piece_from
from tracker.conditioning.score_record import score_from, score_record
from tracker.conditioning.scores import Score
from tracker.log import models
from tracker.log.members import lift_record
from tracker.log.models import Goal
from tracker.log.records import GoalEnd, LiftRecord
from tracker.log.unit_of_work import Act
from tracker.units import Mass


@dataclass(frozen=True, slots=True)
class LiftAim:
    """A load for so many repetitions of a lift."""

    lift: LiftRecord
    reps: int
    load: Mass


@dataclass(frozen=True, slots=True)
class PieceAim:
    """A score in a piece."""

    piece_id: str
    score: Score


@dataclass(frozen=True, slots=True)
class GoalRow:
    """One goal as it stands in the log; `by` is none where no day was set."""

    id: str
    member_id: str
    aim: LiftAim | PieceAim
    by: date | None
    made_on: date
    made_at: datetime
    ended: GoalEnd | None
    ended_on: date | None


def goals(
    session: OrmSession, member_id: str, *, lift_id: str | None = None, piece_title: str | None = None
) -> tuple[GoalRow, ...]:
    """List a member's goals in the order they were set, ended ones too; those of one lift, or of pieces of one title."""
    query = (
        select(Goal, models.Lift, models.Piece)
        .outerjoin(models.Lift, Goal.lift_id == models.Lift.id)
        .outerjoin(models.Piece, Goal.piece_id == models.Piece.id)
        .where(Goal.member_id == member_id)
        .order_by(Goal.made_at, Goal.id)
    )
    if lift_id is not None:
        query = query.where(Goal.lift_id == lift_id)
    if piece_title is not None:
        query = query.where(Goal.piece_id.is_not(None))
    found = tuple(_row(*each) for each in session.execute(query))
    if piece_title is None:
        return found
    title = piece_title.casefold()
    return tuple(
        each for each in found if isinstance(each.aim, PieceAim) and each.aim.score.piece.title.casefold() == title
    )


def _row(row: Goal, lift: models.Lift | None, piece: models.Piece | None) -> GoalRow:
    aim: LiftAim | PieceAim
    if lift is not None and row.reps is not None and row.load is not None and row.unit is not None:
        aim = LiftAim(lift_record(lift), row.reps, Mass(row.load, row.unit))
    else:
        assert piece is not None  # a constraint holds that it is one of the two
        assert row.result is not None
        aim = PieceAim(piece.id, score_from(piece_from(piece.definition), row.result))
    return GoalRow(row.id, row.member_id, aim, row.by_day, row.made_on, row.made_at, row.ended, row.ended_on)


def add_goal(act: Act, member_id: str, aim: LiftAim | PieceAim, by: date | None, made_on: date) -> str:
    row = Goal(member_id=member_id, by_day=by, made_on=made_on)
    _aim(row, aim)
    act.session.add(row)
    act.session.flush()
    return row.id


def change_goal(act: Act, goal_id: str, aim: LiftAim | PieceAim, by: date | None) -> None:
    row = act.session.get_one(Goal, goal_id)
    _aim(row, aim)
    row.by_day = by


def end_goal(act: Act, goal_id: str, ended: GoalEnd, day: date) -> None:
    row = act.session.get_one(Goal, goal_id)
    row.ended, row.ended_on = ended, day


def _aim(row: Goal, aim: LiftAim | PieceAim) -> None:
    if isinstance(aim, LiftAim):
        row.lift_id, row.reps, row.load, row.unit = aim.lift.id, aim.reps, aim.load.amount, aim.load.unit
    else:
        row.piece_id, row.result = aim.piece_id, score_record(aim.score)
