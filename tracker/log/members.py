"""Members, their body mass, and the lifts of the log."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from sqlalchemy import bindparam, select
from sqlalchemy.orm import Session as OrmSession

from tracker.log import twins
from tracker.log.models import BodyMass, Lift, Member
from tracker.log.records import Implement, LiftRecord, MemberRecord
from tracker.log.row_access import WALLED, belongs, private_to
from tracker.log.unit_of_work import Act
from tracker.log.who import who
from tracker.units import Mass, Unit


def member_record(member: Member) -> MemberRecord:
    return MemberRecord(
        member.id,
        member.name,
        member.unit,
        member.place_id,
        member.bar_id,
        member.no_heavy,
        member.minor,
        member.alone,
        member.shared,
        member.created_at,
    )


def lift_record(lift: Lift) -> LiftRecord:
    return LiftRecord(lift.id, lift.name, lift.implement, lift.implements, lift.per_side, lift.body, lift.spotted)


def members(session: OrmSession) -> tuple[MemberRecord, ...]:
    """List the members by name."""
    found = session.scalars(select(Member).where(Member.removed_at.is_(None)).order_by(Member.name))
    return tuple(member_record(member) for member in found)


def names(session: OrmSession) -> tuple[tuple[str, str], ...]:
    """List ids and names of all members, also of those whom the one who asks does not see: a name is given once."""
    query = select(Member.id, Member.name).where(Member.removed_at.is_(None))
    return tuple((found, name) for found, name in session.execute(query, execution_options={WALLED: True}))


def member(session: OrmSession, member_id: str) -> MemberRecord | None:
    found = session.get(Member, member_id)
    return member_record(found) if found and found.removed_at is None else None


def add_member(act: Act, name: str, unit: Unit) -> MemberRecord:
    """Add a member; the name was checked to be free."""
    new = Member(name=name, unit=unit, no_heavy=False, minor=False, alone=False)
    act.session.add(new)
    act.session.flush()
    return member_record(new)


def change_member(act: Act, member_id: str, **values: str | bool | None) -> MemberRecord:
    """Change columns of a member."""
    found = act.session.get_one(Member, member_id)
    for key, value in values.items():
        setattr(found, key, value)
    act.session.flush()
    return member_record(found)


def lifts(session: OrmSession, of: str | None = None) -> tuple[LiftRecord, ...]:
    """List by name and implement the lifts that one can choose from: the gym's, and those of `of`, else one's own.

    Not those of members who share their log with whoever asks: these are seen in that log and belong into no other.
    """
    query = select(Lift).where(belongs(Lift, of or who().member_id))
    return tuple(lift_record(lift) for lift in session.scalars(query.order_by(Lift.name, Lift.implement)))


def lifts_of_new(session: OrmSession) -> tuple[LiftRecord, ...]:
    """List the lifts that a wave which is made now can hang on: the gym's, and for a member's own wave their own."""
    return tuple(lift_record(each) for each in session.scalars(select(Lift).where(belongs(Lift, private_to()))))


def lift(session: OrmSession, lift_id: str) -> LiftRecord | None:
    found = session.get(Lift, lift_id)
    return lift_record(found) if found else None


def add_lift(
    act: Act,
    name: str,
    implement: Implement,
    *,
    implements: int = 1,
    per_side: bool = False,
    body: bool = False,
    spotted: bool = False,
    private_to: str | None = None,
) -> LiftRecord:
    """Add a lift: the gym's where a coach makes it, a member's own where they do, or where it is said whose."""
    new = Lift(name=name, implement=implement, implements=implements, per_side=per_side, body=body, spotted=spotted)
    new.private_to = private_to
    act.session.add(new)
    act.session.flush()
    twins.take_in(act.session, new.id)
    return lift_record(new)


def change_lift(act: Act, lift_id: str, **values: str | int | bool) -> LiftRecord:
    found = act.session.get_one(Lift, lift_id)
    for key, value in values.items():
        setattr(found, key, value)
    act.session.flush()
    twins.take_in(act.session, found.id)
    return lift_record(found)


def body_masses(session: OrmSession, member_id: str) -> tuple[tuple[date, Mass], ...]:
    """List dated body masses, oldest first."""
    found = session.execute(_BODY_MASSES, {"member": member_id})
    return tuple((day, Mass(mass, unit)) for day, mass, unit in found)


_BODY_MASSES = (  # built once: it is asked with each set
    select(BodyMass.day, BodyMass.mass, BodyMass.unit)
    .where(BodyMass.member_id == bindparam("member"))
    .order_by(BodyMass.day)
)


def put_body_mass(act: Act, member_id: str, day: date, mass: Mass) -> None:
    """Record body mass on a day; a second value on the same day replaces the first (the former one stays in the history)."""
    found = act.session.scalars(select(BodyMass).where(BodyMass.member_id == member_id, BodyMass.day == day)).first()
    if found is None:
        act.session.add(BodyMass(member_id=member_id, day=day, mass=mass.amount, unit=mass.unit))
    else:
        found.mass, found.unit = Decimal(mass.amount), mass.unit
    act.session.flush()


def remove_body_mass(act: Act, member_id: str, day: date) -> bool:
    """Take the body mass of a day away (it stays in the history); tell whether there was one."""
    found = act.session.scalars(select(BodyMass).where(BodyMass.member_id == member_id, BodyMass.day == day)).first()
    if found is None:
        return False
    act.session.delete(found)
    act.session.flush()
    return True
