"""Sets: what was done."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import NamedTuple

from sqlalchemy import Row, Select, bindparam, func, select
from sqlalchemy.orm import Session as OrmSession

from tracker.log.columns import now
from tracker.log.identity import identity
from tracker.log.members import lift_record
from tracker.log.models import Lift, LiftedSet, PlannedSet, Session
from tracker.log.records import EACH_SIDE, LiftRecord, SetRow
from tracker.log.sessions import session_of_step, session_on
from tracker.log.touches import touched_at
from tracker.log.unit_of_work import Act
from tracker.strength.records import Kind, Outcome
from tracker.units import Mass

GOES_ON = timedelta(weeks=4)  # a session that was left half done is gone on with for so long; design choice


@dataclass(frozen=True, slots=True)
class NewSet:
    """What a person says of one set."""

    lift_id: str
    load: Mass
    reps: int
    rir: Decimal | None = None
    outcome: Outcome = "done"
    kind: Kind = "work"
    body_mass: Decimal | None = None  # in the load's unit
    left_out: str | None = None
    note: str = ""
    planned_set_id: str | None = None
    planned_round: int | None = None
    member_step_id: str | None = None
    per_side: bool | None = None  # where it says so by itself; else as its lift is done


def set_row(row: LiftedSet, session: Session, lift: LiftRecord) -> SetRow:
    unit = row.unit
    return SetRow(
        id=row.id,
        member_id=session.member_id,
        session_id=session.id,
        day=session.day,
        lift=lift,
        position=row.position,
        kind=row.kind,
        load=Mass(row.load, unit),
        reps=row.reps,
        rir=row.rir,
        outcome=row.outcome,
        body_mass=None if row.body_mass is None else Mass(row.body_mass, unit),
        left_out=row.left_out,
        note=row.note,
        planned_set_id=row.planned_set_id,
        planned_round=row.planned_round,
        member_step_id=row.member_step_id,
        logged_at=row.logged_at,
        removed_at=row.removed_at,
        per_side=row.per_side,
    )


# What is asked with each set is built once: building it takes longer than asking it.
_ALL: Select[LiftedSet, Session, Lift] = (
    select(LiftedSet, Session, Lift)
    .join(Session, LiftedSet.session_id == Session.id)
    .join(Lift, LiftedSet.lift_id == Lift.id)
    .order_by(Session.day, Session.created_at, LiftedSet.position, LiftedSet.logged_at)
)
_ONE = _ALL.where(LiftedSet.id == bindparam("which"))
_TAPPED = _ALL.where(LiftedSet.token == bindparam("token"))
_LOADS = (
    select(LiftedSet.load, LiftedSet.unit)
    .join(Session, LiftedSet.session_id == Session.id)
    .where(Session.member_id == bindparam("member"), LiftedSet.lift_id == bindparam("lift"))
    .where(LiftedSet.removed_at.is_(None), LiftedSet.kind != "ramp", Session.day <= bindparam("until"))
    .where(LiftedSet.id != bindparam("but"))
    .order_by(Session.day.desc(), LiftedSet.position.desc())
    .limit(bindparam("most"))
)
_ROUNDS = select(LiftedSet.planned_set_id, LiftedSet.planned_round).where(
    LiftedSet.member_step_id == bindparam("step"), LiftedSet.removed_at.is_(None), LiftedSet.planned_set_id.is_not(None)
)
_ROUNDS_DONE = (
    select(func.count(LiftedSet.planned_round.distinct()))
    .where(LiftedSet.member_step_id == bindparam("step"), LiftedSet.planned_set_id == bindparam("which"))
    .where(LiftedSet.removed_at.is_(None), LiftedSet.planned_round.between(1, PlannedSet.sets))
    .correlate(PlannedSet)
    .scalar_subquery()
)
_HAS_OPEN = select(PlannedSet.sets > _ROUNDS_DONE).where(PlannedSet.id == bindparam("which"))
_IS_TEST = select(PlannedSet.test).where(PlannedSet.id == bindparam("which"))
_OF_EACH_SIDE = select(PlannedSet.words).where(
    PlannedSet.id == bindparam("which"), PlannedSet.words.contains(EACH_SIDE)
)
_LAST = select(func.max(LiftedSet.position)).where(LiftedSet.session_id == bindparam("session"))


def _rows(
    session: OrmSession, query: Select[LiftedSet, Session, Lift], asked: dict[str, str] | None = None
) -> tuple[SetRow, ...]:
    lifts: dict[str, LiftRecord] = {}
    rows: Sequence[Row[LiftedSet, Session, Lift]] = session.execute(query, asked).all()
    return tuple(set_row(row, of, lifts.setdefault(lift.id, lift_record(lift))) for row, of, lift in rows)


def sets_of(
    session: OrmSession,
    member_id: str,
    *,
    lift_id: str | None = None,
    since: date | None = None,
    until: date | None = None,
    removed: bool = False,
) -> tuple[SetRow, ...]:
    """List a member's sets in the order they were done."""
    query = _ALL.where(Session.member_id == member_id)
    if not removed:
        query = query.where(LiftedSet.removed_at.is_(None))
    if lift_id:
        query = query.where(LiftedSet.lift_id == lift_id)
    if since:
        query = query.where(Session.day >= since)
    if until:
        query = query.where(Session.day <= until)
    return _rows(session, query)


def sets_of_step(session: OrmSession, member_id: str, member_step_id: str, until: date) -> tuple[SetRow, ...]:
    """List the sets that were done of one planned session, of the weeks up to `until`: what is older is not gone on with."""
    query = _ALL.where(LiftedSet.member_step_id == member_step_id, LiftedSet.removed_at.is_(None))
    query = query.where(Session.member_id == member_id, Session.day > until - GOES_ON, Session.day <= until)
    return _rows(session, query)


def working_loads(
    session: OrmSession, member_id: str, lift_id: str, until: date, *, limit: int = 200, but: str = ""
) -> tuple[Mass, ...]:
    """List the loads of the newest sets of a lift, ramp sets left aside, oldest first."""
    asked = {"member": member_id, "lift": lift_id, "until": until, "but": but, "most": limit}
    return tuple(Mass(load, unit) for load, unit in reversed(session.execute(_LOADS, asked).all()))


class LoadMade(NamedTuple):
    """A set that counts as a mark, without its other values."""

    reps: int
    load: Mass
    day: date
    logged_at: datetime
    set_id: str


def loads_made(session: OrmSession, member_id: str, lift_id: str, until: date) -> tuple[LoadMade, ...]:
    """List the sets of a lift that count as a mark."""
    query = (
        select(LiftedSet.reps, LiftedSet.load, LiftedSet.unit, Session.day, LiftedSet.logged_at, LiftedSet.id)
        .join(Session, LiftedSet.session_id == Session.id)
        .where(Session.member_id == member_id, LiftedSet.lift_id == lift_id, Session.day <= until)
        .where(LiftedSet.removed_at.is_(None), LiftedSet.left_out.is_(None), LiftedSet.reps > 0)
    )
    return tuple(
        LoadMade(reps, Mass(load, unit), day, at, set_id)
        for reps, load, unit, day, at, set_id in session.execute(query)
    )


def planned_rounds_done(session: OrmSession, member_step_id: str) -> frozenset[tuple[str, int]]:
    """Return which rounds of which planned sets of a member's step are logged."""
    found = session.execute(_ROUNDS, {"step": member_step_id})
    return frozenset((planned or "", number or 0) for planned, number in found)


def has_open_rounds(session: OrmSession, member_step_id: str, planned_set_id: str) -> bool:
    """Tell whether a planned set of a member's step was not done as often as it is asked for."""
    return bool(session.scalar(_HAS_OPEN, {"step": member_step_id, "which": planned_set_id}))


def one_set(session: OrmSession, set_id: str) -> SetRow | None:
    found = _rows(session, _ONE, {"which": set_id})
    return found[0] if found else None


def set_written(act: Act, set_id: str, lift: LiftRecord) -> SetRow:
    """Return a set of `lift` as this act leaves it, without asking the database again."""
    row = act.session.get_one(LiftedSet, set_id)
    return set_row(row, act.session.get_one(Session, row.session_id), lift)


def set_with_token(session: OrmSession, token: str) -> SetRow | None:
    """Find the set that the same tap logged before."""
    found = _rows(session, _TAPPED, {"token": token})
    return found[0] if found else None


def lifts_done(session: OrmSession, member_id: str) -> tuple[tuple[LiftRecord, int, date], ...]:
    """List a member's lifts with how many sets and the newest day, the most lately done first."""
    newest = func.max(Session.day)
    query = (
        select(Lift, func.count(), newest)
        .join(LiftedSet, LiftedSet.lift_id == Lift.id)
        .join(Session, LiftedSet.session_id == Session.id)
        .where(Session.member_id == member_id, LiftedSet.removed_at.is_(None))
        .group_by(Lift.id)
        .order_by(newest.desc(), Lift.name)
    )
    return tuple((lift_record(lift), count, day) for lift, count, day in session.execute(query))


def newest_days(session: OrmSession, member_id: str, lift_ids: Collection[str], *, before: date) -> dict[str, date]:
    """Return for each lift the last day before `before` on which a member did a set of it that was no ramp set."""
    query = (
        select(LiftedSet.lift_id, func.max(Session.day).label("day"))
        .join(Session, LiftedSet.session_id == Session.id)
        .where(Session.member_id == member_id, Session.day < before, LiftedSet.lift_id.in_(list(lift_ids)))
        .where(LiftedSet.removed_at.is_(None), LiftedSet.kind != "ramp")
        .group_by(LiftedSet.lift_id)
    )
    return {row.lift_id: row.day for row in session.execute(query)} if lift_ids else {}


def add_set(
    act: Act, member_id: str, day: date, new: NewSet, *, token: str | None = None, place_id: str | None = None
) -> str:
    """Add a set at the end of the day's session and return its id."""
    session = session_of_step(act, member_id, day, new.member_step_id, place_id=place_id)
    act.keep(session)
    last = act.session.scalar(_LAST, {"session": session.id})
    row = LiftedSet(session_id=session.id, position=0 if last is None else last + 1, token=token)
    _fill(row, new)
    if row.per_side is None and new.planned_set_id:
        row.per_side = act.session.scalar(_OF_EACH_SIDE, {"which": new.planned_set_id}) is not None or None
    row.origin, row.logged_at = _identity(row, member_id, day), touched_at()
    act.session.add(row)
    act.session.flush()
    return row.id


def add_sets(act: Act, member_id: str, rows: Iterable[tuple[date, NewSet, str | None]]) -> None:
    """Add many sets, each with its day and place, in this order; written at once, each with its entry in the history."""
    begun: dict[date, tuple[str, int]] = {}  # session, and the position of the next set in it
    for day, new, place_id in rows:
        if day not in begun:
            session = session_on(act, member_id, day, place_id=place_id)
            last = act.session.scalar(_LAST, {"session": session.id})
            begun[day] = session.id, 0 if last is None else last + 1
        session_id, position = begun[day]
        row = LiftedSet(session_id=session_id, position=position)
        _fill(row, new)
        row.origin = _identity(row, member_id, day)
        begun[day] = session_id, position + 1
        act.session.add(row)
    act.session.flush()


def change_set(act: Act, set_id: str, new: NewSet) -> None:
    """Give a set other values; its origin stays what it was."""
    _fill(act.session.get_one(LiftedSet, set_id), new)
    act.session.flush()


def put_round(act: Act, set_id: str, number: int) -> None:
    """Say which round of its planned set a set was."""
    act.session.get_one(LiftedSet, set_id).planned_round = number
    act.session.flush()


def put_plan(act: Act, set_id: str, planned_set_id: str, number: int, member_step_id: str) -> None:
    """Say which planned set, and which of its rounds, a set was that came without saying so."""
    row = act.session.get_one(LiftedSet, set_id)
    row.planned_set_id, row.planned_round, row.member_step_id = planned_set_id, number, member_step_id
    act.session.flush()


def settle_attempts_with(act: Act, set_id: str) -> None:
    """Settle the attempts that a set is one of, as it is now."""
    row = act.session.get_one(LiftedSet, set_id)
    if row.planned_set_id is None or row.member_step_id is None:
        return
    is_test = act.session.scalar(_IS_TEST, {"which": row.planned_set_id})
    of = one_set(act.session, set_id) if is_test else None
    if of is not None:
        settle_attempts(act, of)


def settle_attempts(act: Act, of: SetRow) -> None:
    """Say of the attempts of a planned test which of them is it, after one of them came, went or was changed.

    Only the heaviest that was made was all that the member had; the others made are sets. A missed one stays a test.
    """
    planned = act.session.get(PlannedSet, of.planned_set_id) if of.planned_set_id else None
    if planned is None or not planned.test or of.member_step_id is None:
        return
    rows = sets_of(act.session, of.member_id, since=of.day, until=of.day)
    tried = [row for row in rows if (row.planned_set_id, row.member_step_id) == (of.planned_set_id, of.member_step_id)]
    made = [row for row in tried if row.outcome != "cut" and row.reps >= planned.reps]
    best = max(made, key=lambda row: (row.moved_kg, -row.position), default=None)
    for row in tried:
        is_best = row.id == best.id if best else row.outcome == "done"  # short of what was asked, and yet all there was
        is_test = row.outcome == "missed" or is_best
        act.session.get_one(LiftedSet, row.id).kind = "test" if is_test else "work"
    act.session.flush()


def move_set(act: Act, set_id: str, member_id: str, day: date) -> None:
    """Move a set to the session of a member on a day."""
    row = act.session.get_one(LiftedSet, set_id)
    target = session_on(act, member_id, day)
    last = act.session.scalar(_LAST, {"session": target.id})
    row.session_id, row.position = target.id, 0 if last is None else last + 1
    row.planned_set_id = row.planned_round = row.member_step_id = None
    act.session.flush()


def remove_set(act: Act, set_id: str) -> None:
    """Take a set out of everything; it stays in the history."""
    act.session.get_one(LiftedSet, set_id).removed_at = now()
    act.session.flush()


def _fill(row: LiftedSet, new: NewSet) -> None:
    row.lift_id, row.kind, row.outcome = new.lift_id, new.kind, new.outcome
    row.load, row.unit, row.reps, row.rir = new.load.amount, new.load.unit, new.reps, new.rir
    row.body_mass, row.left_out, row.note = new.body_mass, new.left_out, new.note
    row.per_side = new.per_side
    row.planned_set_id, row.planned_round, row.member_step_id = (
        new.planned_set_id,
        new.planned_round,
        new.member_step_id,
    )


def _identity(row: LiftedSet, member_id: str, day: date) -> str:
    return identity(
        member_id=member_id,
        lift_id=row.lift_id,
        day=day,
        load=Mass(row.load, row.unit),
        body_mass=row.body_mass,
        reps=row.reps,
        rir=row.rir,
        outcome=row.outcome,
        kind=row.kind,
    )
