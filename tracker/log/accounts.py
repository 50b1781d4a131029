"""Who signs in: accounts by the provider's issuer and subject, and invitations that wait for somebody."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session as OrmSession

from tracker.log.models import Account, Member
from tracker.log.unit_of_work import Act
from tracker.log.who import Role


@dataclass(frozen=True, slots=True)
class AccountRow:
    """An account, or an invitation as long as it has no identity."""

    id: str
    role: Role
    member_id: str | None
    name: str  # of the member; empty where there is none
    issuer: str | None
    subject: str | None
    until: datetime | None  # when the invitation ends
    of_groups: bool = False  # a coach who sees their own groups alone

    @property
    def waits(self) -> bool:
        return self.issuer is None


def accounts(session: OrmSession) -> tuple[AccountRow, ...]:
    """List all accounts and invitations, by name."""
    query = select(Account, Member.name).outerjoin(Member, Account.member_id == Member.id)
    return tuple(_row(row, name) for row, name in session.execute(query.order_by(Member.name, Account.created_at)))


def with_identity(session: OrmSession, issuer: str, subject: str) -> AccountRow | None:
    """Find the account of an identity; none where its member was removed."""
    query = select(Account, Member.name).outerjoin(Member, Account.member_id == Member.id)
    found = session.execute(
        query.where(Account.issuer == issuer, Account.subject == subject, Member.removed_at.is_(None))
    ).first()
    return _row(*found) if found else None


def with_code(session: OrmSession, digest: str) -> AccountRow | None:
    """Find an invitation by the digest of its code, whether it has ended or not."""
    query = select(Account, Member.name).outerjoin(Member, Account.member_id == Member.id)
    found = session.execute(query.where(Account.code == digest)).first()
    return _row(*found) if found else None


def add(
    act: Act,
    role: Role,
    member_id: str | None,
    *,
    identity: tuple[str, str] | None = None,
    code: str | None = None,
    until: datetime | None = None,
) -> str:
    """Add an account with its identity, or an invitation with the digest of its code."""
    issuer, subject = identity or (None, None)
    row = Account(issuer=issuer, subject=subject, role=role, member_id=member_id, code=code, until=until)
    act.session.add(row)
    act.session.flush()
    return row.id


def bind(act: Act, account_id: str, identity: tuple[str, str]) -> None:
    """Give an invitation to whoever took it; its code is spent."""
    row = act.session.get_one(Account, account_id)
    row.issuer, row.subject = identity
    row.code = row.until = None
    act.session.flush()


def change(act: Act, account_id: str, role: Role, member_id: str | None) -> None:
    row = act.session.get_one(Account, account_id)
    row.role, row.member_id = role, member_id
    act.session.flush()


def remove(act: Act, account_id: str) -> None:
    act.session.delete(act.session.get_one(Account, account_id))
    act.session.flush()


def _row(row: Account, name: str | None) -> AccountRow:
    return AccountRow(row.id, row.role, row.member_id, name or "", row.issuer, row.subject, row.until, row.of_groups)
