"""Groups of members, kept by the owner; and which of them a coach is given."""

from __future__ import annotations

from collections.abc import Sequence

from tracker.desk.base.roles import may
from tracker.desk.people.people import clean_name
from tracker.errors import BadInputError
from tracker.log import accounts as log_accounts
from tracker.log import groups as log_groups
from tracker.log.groups import GroupRecord
from tracker.log.unit_of_work import Log, Reader
from tracker.wording import counted


@may("lead")
def groups(log: Log) -> tuple[GroupRecord, ...]:
    """List the groups by name, each with how many are in it and those of them whom the one who asks sees."""
    with log.reading() as session:
        return log_groups.groups(session)


@may("run")
def groups_whole(log: Log) -> tuple[GroupRecord, ...]:
    """List the groups with all who are in them, for the owner who says who is."""
    with log.reading() as session:
        return log_groups.groups(session)


@may("run")
def add_group(log: Log, name: str) -> str:
    """Add a group and return its id.

    Raises:
        BadInputError: if the name is empty, too long, or a group's.
    """
    name = clean_name(name, "group")
    with log.act(f"added the group {name}") as act:
        _free(act.session, name)
        return log_groups.add(act, name)


@may("run")
def rename_group(log: Log, group_id: str, name: str) -> None:
    """Give a group another name.

    Raises:
        BadInputError: as `add_group`, or if the group is gone.
    """
    name = clean_name(name, "group")
    with log.act(f"renamed a group: {name}") as act:
        _there(act.session, group_id)
        _free(act.session, name, but=group_id)
        log_groups.rename(act, group_id, name)


@may("run")
def remove_group(log: Log, group_id: str) -> str:
    """Take a group away and return its name; its members stay in the log. A class of it has only who is in it by themselves."""
    with log.act("removed a group") as act:
        found = _there(act.session, group_id)
        act.words = f"removed the group {found.name}"
        log_groups.remove(act, group_id)
    return found.name


@may("run")
def put_in_group(log: Log, group_id: str, member_ids: Sequence[str]) -> str:
    """Say who is in a group, anew; return it in words.

    Raises:
        BadInputError: if the group is gone, or nothing changes.
    """
    with log.act("changed a group") as act:
        found = _there(act.session, group_id)
        wanted, there = set(member_ids), set(found.member_ids)
        gone, new = there - wanted, wanted - there
        if not gone and not new:
            raise BadInputError(
                "Nobody else is in it than before.", where="group", mend="Choose whoever comes or goes."
            )
        log_groups.leave(act, group_id, gone)
        log_groups.join(act, group_id, sorted(new))
        act.words = f"changed the group {found.name}: {counted(len(wanted), 'member')}"
    return act.words


@may("run")
def given(log: Log) -> dict[str, tuple[str, ...]]:
    """Return the ids of the groups that each account was given."""
    with log.reading() as session:
        return log_groups.led(session)


@may("run")
def give_groups(log: Log, account_id: str, group_ids: Sequence[str] | None) -> None:
    """Let a coach see what members of these groups share, and of no others; None: of all who share.

    Raises:
        BadInputError: if the account is gone or is no coach's, or a group is gone.
    """
    with log.act("gave a coach groups") as act:
        found = next((each for each in log_accounts.accounts(act.session) if each.id == account_id), None)
        if found is None or found.role != "coach":
            raise BadInputError("This is no coach's account.", where="account", mend="Make them a coach first.")
        for each in group_ids or ():
            _there(act.session, each)
        name = found.name or "a coach"
        what = "all groups" if group_ids is None else counted(len(group_ids), "group")
        act.words = f"let {name} see {what}"
        log_groups.give(act, account_id, group_ids)


def _there(session: Reader, group_id: str) -> GroupRecord:
    found = next((each for each in log_groups.groups(session) if each.id == group_id), None)
    if found is None:
        raise BadInputError("This group is not in the log any more.", where="group", mend="Choose one from the list.")
    return found


def _free(session: Reader, name: str, but: str = "") -> None:
    if any(each.name.casefold() == name.casefold() and each.id != but for each in log_groups.groups(session)):
        raise BadInputError(f"There is a group {name} already.", where="group", mend="Use another name.")
