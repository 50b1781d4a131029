"""Rep-maxes that are known without a set: tested or stated."""

from __future__ import annotations

from datetime import date

from sqlalchemy import select
from sqlalchemy.orm import Session as OrmSession

from tracker.log.choices import choices, choose
from tracker.log.columns import now
from tracker.log.members import lift_record
from tracker.log.models import Change, Lift, RepMax
from tracker.log.records import MaxSource, RepMaxRow
from tracker.log.unit_of_work import Act
from tracker.units import Mass


def rep_maxes(
    session: OrmSession, member_id: str, lift_id: str | None = None, *, also_aside: bool = False
) -> tuple[RepMaxRow, ...]:
    """List the rep-maxes that are known without a set, oldest first; those that were set aside only where they are asked for."""
    query = (
        select(RepMax, Lift)
        .join(Lift, RepMax.lift_id == Lift.id)
        .where(RepMax.member_id == member_id, RepMax.removed_at.is_(None))
    )
    if lift_id:
        query = query.where(RepMax.lift_id == lift_id)
    rows = session.execute(query.order_by(RepMax.day)).all()
    aside = _aside(session, member_id) if rows else frozenset[str]()
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
            row.id in aside,
        )
        for row, lift in rows
        if also_aside or row.id not in aside
    )


def _aside(session: OrmSession, member_id: str) -> frozenset[str]:
    """Return the rep-maxes that their member set aside, by the newest word on each."""
    newest: dict[str, bool] = {}
    for each in choices(session, member_id):
        if each.what == "set aside":
            newest.setdefault(each.get("max"), each.get("how") == "aside")
    return frozenset(one for one, aside in newest.items() if aside)


def set_aside(act: Act, member_id: str, rep_max_id: str, day: date, *, aside: bool) -> None:
    """Note that a rep-max is used no more, or again; it stays in the log."""
    choose(act, member_id, "set aside", day, max=rep_max_id, how="aside" if aside else "used")


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


def made_in(session: OrmSession, act_id: str) -> frozenset[str]:
    """Return the ids of the rep-maxes that an act made."""
    made = select(Change.record_id).where(
        Change.act_id == act_id, Change.record == RepMax.__tablename__, Change.before.is_(None)
    )
    return frozenset(session.scalars(made))


def move_rep_max(act: Act, rep_max_id: str, day: date) -> None:
    act.session.get_one(RepMax, rep_max_id).day = day
