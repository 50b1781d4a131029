"""Many invitations at once: for all members who have none, as links and as a page to print, a strip for each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from tracker.desk.base.roles import may
from tracker.desk.people.accounts import digest, new_code
from tracker.door import picture
from tracker.errors import BadInputError
from tracker.exchange.invitation_page import Strip, invitation_page
from tracker.log import accounts as log_accounts
from tracker.log import groups as log_groups
from tracker.log import members as log_members
from tracker.log.unit_of_work import Log
from tracker.wording import counted

DAYS = 28  # a strip of paper lies in a bag for a while; nobody guesses its code (accounts.CODE_LETTERS)
ASKED = "invitation"  # in the address of a link


@dataclass(frozen=True, slots=True)
class Invited:
    """A member's invitation; its code is shown now and kept nowhere."""

    name: str
    code: str
    until: datetime
    groups: tuple[str, ...] = ()

    def link(self, address: str) -> str:
        """Return the link that brings the code along; `address` is what members type."""
        return f"{address.rstrip('/')}/?{ASKED}={self.code}"


@may("run")
def uninvited(log: Log) -> tuple[str, ...]:
    """Return the ids of members who don't sign in and have no invitation that is still good, by name."""
    with log.reading() as session:
        now = datetime.now(UTC)
        known = log_accounts.accounts(session)
        have = {each.member_id for each in known if not each.waits or (each.until and each.until > now)}
        return tuple(each.id for each in log_members.members(session) if each.id not in have)


@may("run")
def invite_all(log: Log, member_ids: Sequence[str]) -> tuple[Invited, ...]:
    """Make an invitation for each of these members, in one act, good once and for four weeks; by name.

    Who has one that waits gets another, and the former one is good no more.

    Raises:
        BadInputError: if one of them signs in already, is gone, or there is nobody.
    """
    until = datetime.now(UTC) + timedelta(days=DAYS)
    made: list[Invited] = []
    with log.act(f"invited {counted(len(member_ids), 'member')}") as act:
        members = {each.id: each for each in log_members.members(act.session)}
        known = {each.member_id: each for each in log_accounts.accounts(act.session) if each.member_id}
        groups = log_groups.groups(act.session)
        wanted = [members.get(each) for each in dict.fromkeys(member_ids)]
        found = sorted((each for each in wanted if each), key=lambda each: each.name.casefold())
        if not found or len(found) < len(wanted):
            raise BadInputError("Nobody is chosen who could be invited.", where="members", mend="Choose from the list.")
        for each in found:
            before = known.get(each.id)
            if before and not before.waits:
                raise BadInputError(f"{each.name} signs in already.", where="members", mend="Leave them out.")
            if before:
                log_accounts.remove(act, before.id)
            code = new_code()
            log_accounts.add(act, "member", each.id, code=digest(code), until=until)
            made.append(Invited(each.name, code, until, tuple(one.name for one in groups if each.id in one.member_ids)))
    return tuple(made)


def page_of(made: Sequence[Invited], address: str) -> str:
    """Return invitations as one HTML file to print, a strip for each; `address` is what members type."""
    strips = [
        Strip(
            each.name, ", ".join(each.groups), address, each.code, f"{each.until.astimezone():%Y-%m-%d}",
            picture.of_page(each.link(address)),
        )
        for each in made
    ]  # fmt: skip
    return invitation_page(strips)
