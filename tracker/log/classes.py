"""Classes of the week, and which waves were handed to them."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import select
from sqlalchemy.orm import Session as OrmSession

from tracker.log import groups as log_groups
from tracker.log.models import ClassMember, ClassTime, ClassWave, Group, GymClass, Member, MemberWave, Wave
from tracker.log.row_access import WALLED
from tracker.log.unit_of_work import Act

PAST = {WALLED: True}


@dataclass(frozen=True, slots=True)
class ClassRecord:
    """A class: its group, whoever is in it beside that and is seen, and when it is."""

    id: str
    name: str
    group_id: str | None
    group: str
    place_id: str | None
    coach: str
    times: tuple[tuple[int, str], ...]  # day of the week, 0 is Monday, and the time of the day
    alone_ids: tuple[str, ...]  # in it by themselves; those whom the one who asks sees
    total: int  # all who are in it


@dataclass(frozen=True, slots=True)
class Handed:
    """A wave that was handed to a class."""

    id: str
    class_id: str
    wave_id: str
    wave: str
    group: str  # where it is for one group of the class alone
    started: date
    handed_by: str
    at: datetime


def classes(session: OrmSession) -> tuple[ClassRecord, ...]:
    """List the classes by name."""
    times: dict[str, list[tuple[int, str]]] = {}
    for row in session.scalars(select(ClassTime).order_by(ClassTime.weekday, ClassTime.starts)):
        times.setdefault(row.class_id, []).append((row.weekday, row.starts))
    alone: dict[str, list[str]] = {}
    asked = select(ClassMember.class_id, Member.id).join(Member, ClassMember.member_id == Member.id)
    for class_id, member_id in session.execute(asked.where(Member.removed_at.is_(None)).order_by(Member.name)):
        alone.setdefault(class_id, []).append(member_id)
    found = session.execute(
        select(GymClass, Group.name).outerjoin(Group, GymClass.group_id == Group.id).order_by(GymClass.name)
    )
    return tuple(
        ClassRecord(
            row.id, row.name, row.group_id, group or "", row.place_id, row.coach, tuple(times.get(row.id, ())),
            tuple(alone.get(row.id, ())), len(everybody(session, row.id)),
        )
        for row, group in found.all()
    )  # fmt: skip


def everybody(session: OrmSession, class_id: str) -> frozenset[str]:
    """Return all members of a class, whoever asks: for a count, or to hand them something."""
    row = session.get(GymClass, class_id)
    asked = select(ClassMember.member_id).join(Member, ClassMember.member_id == Member.id)
    alone = session.scalars(
        asked.where(ClassMember.class_id == class_id, Member.removed_at.is_(None)), execution_options=PAST
    )
    of_group = log_groups.everybody(session, row.group_id) if row and row.group_id else frozenset[str]()
    return frozenset(alone) | of_group


def add(act: Act, name: str, *, group_id: str | None, place_id: str | None, coach: str) -> str:
    row = GymClass(name=name, group_id=group_id, place_id=place_id, coach=coach)
    act.session.add(row)
    act.session.flush()
    return row.id


def change(act: Act, class_id: str, **values: str | None) -> None:
    row = act.session.get_one(GymClass, class_id)
    for key, value in values.items():
        setattr(row, key, value)
    act.session.flush()


def remove(act: Act, class_id: str) -> None:
    """Take a class away; what was handed to it stays in the calendars."""
    act.session.delete(act.session.get_one(GymClass, class_id))
    act.session.flush()


def set_times(act: Act, class_id: str, times: Iterable[tuple[int, str]]) -> None:
    """Say when a class is, anew."""
    wanted = set(times)
    for row in act.session.scalars(select(ClassTime).where(ClassTime.class_id == class_id)).all():
        if (row.weekday, row.starts) in wanted:
            wanted.discard((row.weekday, row.starts))
        else:
            act.session.delete(row)
    act.session.add_all(ClassTime(class_id=class_id, weekday=day, starts=starts) for day, starts in sorted(wanted))
    act.session.flush()


def set_members(act: Act, class_id: str, member_ids: Collection[str]) -> None:
    """Say who is in a class by themselves, of those whom the one who acts sees: the others stay."""
    wanted = set(member_ids)
    for row in act.session.scalars(select(ClassMember).where(ClassMember.class_id == class_id)).all():
        if row.member_id in wanted:
            wanted.discard(row.member_id)
        else:
            act.session.delete(row)
    act.session.add_all(ClassMember(class_id=class_id, member_id=each) for each in sorted(wanted))
    act.session.flush()


def hand(act: Act, class_id: str, wave_id: str, started: date, handed_by: str, group_id: str | None = None) -> None:
    """Note that a wave was handed to a class; a second time nothing is added."""
    asked = select(ClassWave).where(ClassWave.class_id == class_id, ClassWave.wave_id == wave_id)
    if act.session.scalars(asked).first() is None:
        act.session.add(
            ClassWave(class_id=class_id, wave_id=wave_id, started=started, handed_by=handed_by, group_id=group_id)
        )
        act.session.flush()


def handed(session: OrmSession, class_id: str) -> tuple[Handed, ...]:
    """List what was handed to a class, the newest first."""
    asked = (
        select(ClassWave, Wave.name, Group.name)
        .join(Wave, ClassWave.wave_id == Wave.id)
        .outerjoin(Group, ClassWave.group_id == Group.id)
        .where(ClassWave.class_id == class_id, Wave.removed_at.is_(None))
        .order_by(ClassWave.started.desc(), ClassWave.created_at.desc(), ClassWave.id)
    )
    return tuple(
        Handed(row.id, class_id, row.wave_id, wave, group or "", row.started, row.handed_by, row.created_at)
        for row, wave, group in session.execute(asked).all()
    )


def have(session: OrmSession, wave_id: str) -> frozenset[str]:
    """Return all who were given a wave and go on with it, whoever asks."""
    asked = select(MemberWave.member_id).join(Member, MemberWave.member_id == Member.id)
    asked = asked.where(MemberWave.wave_id == wave_id, MemberWave.ended.is_(None), Member.removed_at.is_(None))
    return frozenset(session.scalars(asked, execution_options=PAST))


def end_for(act: Act, wave_id: str, member_ids: Collection[str], day: date) -> None:
    """End a wave for some members, whoever acts: they are given something else in its place."""
    asked = select(MemberWave).where(MemberWave.wave_id == wave_id, MemberWave.ended.is_(None))
    for row in act.session.scalars(asked.where(MemberWave.member_id.in_(member_ids)), execution_options=PAST).all():
        row.ended = day
    act.session.flush()
