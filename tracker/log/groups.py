"""Groups of members and their coaches, as the log holds them.

Who is in a group is read by the wall as any record of a member; `everybody` reads past it, for a count or for an act that
reaches all of a group and hands nothing out.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from sqlalchemy import func, select
from sqlalchemy.orm import Session as OrmSession

from tracker.log.models import Account, Group, GroupCoach, GroupMember, Member
from tracker.log.row_access import WALLED
from tracker.log.unit_of_work import Act

PAST = {WALLED: True}


@dataclass(frozen=True, slots=True)
class GroupRecord:
    """A group, how many are in it, and those of them whom the one who asks sees."""

    id: str
    name: str
    total: int
    member_ids: tuple[str, ...]


def groups(session: OrmSession) -> tuple[GroupRecord, ...]:
    """List the groups by name."""
    alive = select(GroupMember.group_id, func.count()).join(Member, GroupMember.member_id == Member.id)
    totals = dict(
        session.execute(
            alive.where(Member.removed_at.is_(None)).group_by(GroupMember.group_id), execution_options=PAST
        ).all()
    )
    seen: dict[str, list[str]] = {}
    asked = select(GroupMember.group_id, Member.id).join(Member, GroupMember.member_id == Member.id)
    for group_id, member_id in session.execute(asked.where(Member.removed_at.is_(None)).order_by(Member.name)):
        seen.setdefault(group_id, []).append(member_id)
    found = session.scalars(select(Group).order_by(Group.name))
    return tuple(
        GroupRecord(each.id, each.name, totals.get(each.id, 0), tuple(seen.get(each.id, ()))) for each in found
    )


def everybody(session: OrmSession, group_id: str) -> frozenset[str]:
    """Return all members of a group, whoever asks."""
    asked = select(GroupMember.member_id).join(Member, GroupMember.member_id == Member.id)
    asked = asked.where(GroupMember.group_id == group_id, Member.removed_at.is_(None))
    return frozenset(session.scalars(asked, execution_options=PAST))


def add(act: Act, name: str) -> str:
    row = Group(name=name)
    act.session.add(row)
    act.session.flush()
    return row.id


def rename(act: Act, group_id: str, name: str) -> None:
    act.session.get_one(Group, group_id).name = name
    act.session.flush()


def remove(act: Act, group_id: str) -> None:
    """Take a group away; its members stay, and a coach who had it has one less."""
    act.session.delete(act.session.get_one(Group, group_id))
    act.session.flush()


def join(act: Act, group_id: str, member_ids: Iterable[str]) -> int:
    """Put members into a group; return how many were not in it."""
    there = everybody(act.session, group_id)
    new = [each for each in dict.fromkeys(member_ids) if each not in there]
    act.session.add_all(GroupMember(group_id=group_id, member_id=each) for each in new)
    act.session.flush()
    return len(new)


def leave(act: Act, group_id: str, member_ids: Collection[str]) -> None:
    """Take members out of a group."""
    asked = select(GroupMember).where(GroupMember.group_id == group_id, GroupMember.member_id.in_(member_ids))
    for row in act.session.scalars(asked).all():
        act.session.delete(row)
    act.session.flush()


def led(session: OrmSession) -> dict[str, tuple[str, ...]]:
    """Return the groups that each account was given, for the owner."""
    found: dict[str, list[str]] = {}
    for account_id, group_id in session.execute(select(GroupCoach.account_id, GroupCoach.group_id)):
        found.setdefault(account_id, []).append(group_id)
    return {account_id: tuple(sorted(each)) for account_id, each in found.items()}


def led_by(session: OrmSession, account_id: str) -> frozenset[str]:
    """Return the groups of one coach, for themselves."""
    asked = select(GroupCoach.group_id).where(GroupCoach.account_id == account_id)
    return frozenset(session.scalars(asked, execution_options=PAST))


def give(act: Act, account_id: str, group_ids: Collection[str] | None) -> None:
    """Let a coach see these groups alone; None: all members who share."""
    act.session.get_one(Account, account_id).of_groups = group_ids is not None
    known = {
        row.group_id: row for row in act.session.scalars(select(GroupCoach).where(GroupCoach.account_id == account_id))
    }
    wanted = set(group_ids or ())
    for group_id, row in known.items():
        if group_id not in wanted:
            act.session.delete(row)
    act.session.add_all(GroupCoach(group_id=each, account_id=account_id) for each in sorted(wanted - set(known)))
    act.session.flush()
