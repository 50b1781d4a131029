"""Rep-maxes that are known without a set: tested or stated."""

from __future__ import annotations

from datetime import date

from sqlalchemy import select
from sqlalchemy.orm import Session as OrmSession

from tracker.log.columns import now
from tracker.log.members import lift_record
from tracker.log.models import Lift, RepMax
from tracker.log.records import MaxSource, RepMaxRow
from tracker.log.unit_of_work import Act
from tracker.units import Mass


def rep_maxes(session: OrmSession, member_id: str, lift_id: str | None = None) -> tuple[RepMaxRow, ...]:
    """List the rep-maxes that are known without a set, oldest first."""
    query = (
        select(RepMax, Lift)
        .join(Lift, RepMax.lift_id == Lift.id)
        .where(RepMax.member_id == member_id, RepMax.removed_at.is_(None))
    )
    if lift_id:
        query = query.where(RepMax.lift_id == lift_id)
    return tuple(
        RepMaxRow(
            row.id,
            row.member_id,
            lift_record(lift),
            row.day,
            row.reps,
            Mass(row.load, row.unit),
            row.source,
            row.note,
        )
        for row, lift in session.execute(query.order_by(RepMax.day))
    )


def add_rep_max(
    act: Act, member_id: str, lift_id: str, day: date, reps: int, load: Mass, source: MaxSource, note: str = ""
) -> str:
    row = RepMax(
        member_id=member_id,
        lift_id=lift_id,
        day=day,
        reps=reps,
        load=load.amount,
        unit=load.unit,
        source=source,
        note=note,
    )
    act.session.add(row)
    act.session.flush()
    return row.id


def remove_rep_max(act: Act, rep_max_id: str) -> None:
    act.session.get_one(RepMax, rep_max_id).removed_at = now()
