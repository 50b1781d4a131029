"""Accounts: who signs in, as whom and as what; invitations; and what a member shares with the coach.

A person is known by the issuer and subject that their provider signed (OpenID Connect Core 1.0, section 2: the two together
never change and are never given to somebody else). An e-mail address may change hands, so it is no identity here.
"""

from __future__ import annotations

import hashlib
import secrets
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from tracker.desk.base.roles import may
from tracker.desk.people.people import clean_name, free_name
from tracker.errors import BadInputError
from tracker.log import accounts as log_accounts
from tracker.log import members as log_members
from tracker.log.accounts import AccountRow
from tracker.log.records import MemberRecord
from tracker.log.unit_of_work import Act, Log
from tracker.log.who import ALL, HERE, NOBODY, RefusedError, Role, Who, acting, who

ROLES: dict[Role, str] = {"member": "member", "coach": "coach", "owner": "owner"}
LETTERS = "ABCDEFGHJKMNPQRSTUVWXYZ23456789"  # none that is read as another
CODE_LETTERS, PART = 16, 4  # 31 ** 16 codes: about 79 bits, which nobody guesses
INVITED_DAYS = 7
MOST = 255  # letters of a subject (OpenID Connect Core 1.0, section 2), and of an issuer as we keep it


@dataclass(frozen=True, slots=True)
class Invitation:
    """An invitation with its code, which is shown once and kept nowhere."""

    code: str
    until: datetime


def who_is(log: Log, issuer: str, subject: str) -> Who:
    """Return who an identity is in this log; nobody, with that identity, where the log does not know it."""
    with acting(HERE), log.reading() as session:
        found = log_accounts.with_identity(session, issuer, subject)
    if found is None:
        return Who(NOBODY.role, identity=(issuer, subject))
    return Who(found.role, found.member_id, found.name, found.id, (issuer, subject), found.of_groups)


def accept(log: Log, code: str, *, shared: bool = False) -> str:
    """Take an invitation, as the person whom the provider says it is; return the role in words.

    Args:
        log: The log.
        code: The code of the invitation.
        shared: Whether they let the coach see their log; what was so before counts no more.

    Raises:
        BadInputError: if the code is wrong, spent or late, or the person has an account already.
    """
    person = who()
    if person.identity is None or person.role != NOBODY.role:
        raise RefusedError("An invitation is for somebody who has no account yet.", mend="Sign in first.")
    with acting(person, ALL), log.act("took an invitation") as act:
        found = log_accounts.with_code(act.session, digest(code))
        if found is None or not found.waits or found.until is None or found.until < datetime.now(UTC):
            raise BadInputError(
                "This code is not good, or not any more.", where="code", mend="Ask the owner for a new one."
            )
        log_accounts.bind(act, found.id, person.identity)
        if found.member_id:
            log_members.change_member(act, found.member_id, shared=shared)
    return ROLES[found.role]


@may("run")
def accounts(log: Log) -> tuple[AccountRow, ...]:
    """List accounts and invitations."""
    with log.reading() as session:
        return log_accounts.accounts(session)


@may("run")
def invite(log: Log, role: Role, member_id: str | None = None, *, new_member: str = "") -> Invitation:
    """Make an invitation, good once and for a week; for a new member of a name, who is added by the same act.

    Raises:
        BadInputError: if there is no such role or member, or a member's account is to have no log.
    """
    code = new_code()
    until = datetime.now(UTC) + timedelta(days=INVITED_DAYS)
    name = _checked(log, role, member_id, new_member)
    with log.act(f"invited {name} as {ROLES[role]}") as act:
        log_accounts.add(act, role, member_id or _added(act, new_member), code=digest(code), until=until)
    return Invitation(code, until)


@may("run")
def enter(
    log: Log, issuer: str, subject: str, role: Role, member_id: str | None = None, *, new_member: str = ""
) -> None:
    """Give an identity an account; for a new member of a name, who is added by the same act.

    Raises:
        BadInputError: if it has one already, is none, or role and member can't be.
    """
    issuer, subject = issuer.strip(), subject.strip()
    if not (0 < len(issuer) <= MOST and 0 < len(subject) <= MOST and (issuer + subject).isprintable()):
        raise BadInputError(
            "That is no identity.", where="identity", mend="Copy issuer and subject from the page that the person sees."
        )
    name = _checked(log, role, member_id, new_member)
    with log.act(f"entered {name} as {ROLES[role]}") as act:
        if log_accounts.with_identity(act.session, issuer, subject):
            raise BadInputError("This identity has an account.", where="identity", mend="Change that account.")
        log_accounts.add(act, role, member_id or _added(act, new_member), identity=(issuer, subject))


@may("run")
def change_account(log: Log, account_id: str, role: Role, member_id: str | None, *, new_member: str = "") -> None:
    """Give an account another role or log, or a new log; it counts from the next touch of that person on.

    Raises:
        BadInputError: if the account is gone, role and member can't be, or no owner would be left.
    """
    found, name = _account(log, account_id), _checked(log, role, member_id, new_member)
    if role != "owner":
        _leave_an_owner(log, found)
    with log.act(f"made {name} {ROLES[role]}") as act:
        log_accounts.change(act, account_id, role, member_id or _added(act, new_member))


@may("run")
def remove_account(log: Log, account_id: str) -> None:
    """Take an account or invitation away at once; the member's log stays.

    Raises:
        BadInputError: if it is gone already, or no owner would be left.
    """
    found = _account(log, account_id)
    _leave_an_owner(log, found)
    with log.act(f"removed the account of {found.name or ROLES[found.role]}") as act:
        log_accounts.remove(act, account_id)


@may("hand over")
def keep_an_owner(log: Log, member_id: str) -> None:
    """Refuse to go on where the only owner's account would go with a member.

    Raises:
        BadInputError: if it is so.
    """
    with log.reading() as session:
        known = log_accounts.accounts(session)
    owners = [each for each in known if each.role == "owner" and not each.waits]
    if owners and all(each.member_id == member_id for each in owners):
        raise BadInputError("The only owner would be gone.", where="account", mend="Make somebody else an owner first.")


@may("change")
def share(log: Log, member_id: str, shared: bool) -> MemberRecord:
    """Let the coach see a member's log, or not any more."""
    with log.act("shares the log with the coach" if shared else "keeps the log to themselves", member_id) as act:
        return log_members.change_member(act, member_id, shared=shared)


def _checked(log: Log, role: Role, member_id: str | None, new_member: str = "") -> str:
    """Return how the person is called; refuse a role or a member that can't be."""
    if new_member and member_id is None:
        new_member = free_name(log, new_member)
    if role not in ROLES:
        raise BadInputError(f"There is no role {role}.", where="role", mend=f"Choose one of {', '.join(ROLES)}.")
    with log.reading() as session:
        found = log_members.member(session, member_id) if member_id else None
    if member_id and found is None:
        raise BadInputError("This member is not in the log any more.", where="member", mend="Choose one from the list.")
    if role == "member" and found is None and not new_member:
        raise BadInputError("A member's account needs a log.", where="member", mend="Choose whose log it is.")
    return found.name if found else new_member or "somebody"


def _added(act: Act, name: str) -> str | None:
    """Add the member whose log it is to be; None where there is to be none."""
    return log_members.add_member(act, clean_name(name, "member"), "kg").id if name else None


def _account(log: Log, account_id: str) -> AccountRow:
    with log.reading() as session:
        found = next((each for each in log_accounts.accounts(session) if each.id == account_id), None)
    if found is None:
        raise BadInputError("This account is not there any more.", where="account", mend="Reload the page.")
    return found


def _leave_an_owner(log: Log, gone: AccountRow) -> None:
    """Refuse to take the last owner away; from the shell of the server it can be done."""
    with log.reading() as session:
        owners = [each for each in log_accounts.accounts(session) if each.role == "owner" and not each.waits]
    if who().role != HERE.role and [each.id for each in owners] == [gone.id]:
        raise BadInputError(
            "Then nobody would be the owner.", where="account", mend="Make somebody else an owner first."
        )


def new_code() -> str:
    """Make a code in parts of four letters, none of which is read as another."""
    letters = "".join(secrets.choice(LETTERS) for _ in range(CODE_LETTERS))
    return "-".join(letters[at : at + PART] for at in range(0, CODE_LETTERS, PART))


def digest(code: str) -> str:
    """Return what is kept of a code, however it is typed."""
    letters = "".join(each for each in code.upper() if each in LETTERS)
    return hashlib.sha256(letters.encode()).hexdigest()
