"""Deleting a member: every set, session, score and line of history is gone from the file, for good."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from tracker.desk.base import backups
from tracker.desk.base.roles import may
from tracker.desk.people import devices
from tracker.desk.people.accounts import keep_an_owner
from tracker.desk.people.people import member as find_member
from tracker.errors import BadInputError, TidemarkError
from tracker.log import erase
from tracker.log.engine import file_of
from tracker.log.records import MemberRecord
from tracker.log.unit_of_work import Log
from tracker.log.who import who


@dataclass(frozen=True, slots=True)
class Deleted:
    """What was deleted, for the last sentence about it."""

    sets: int
    sessions: int
    named: tuple[str, ...]  # what belongs to all and still holds the name
    copies: tuple[Path, ...]  # that were made before and still hold the member
    compact: bool  # the file was written anew; without that its zeros stay in it
    refused: str = ""  # why the copies could not be let go of


@may("hand over")
def what_goes(log: Log, member_id: str) -> dict[str, int]:
    """Count the records that would be deleted, by table."""
    with log.reading() as session:
        return erase.count(session, member_id)


@may("hand over")
def delete_member(log: Log, member_id: str, typed_name: str, *, with_copies: bool = False) -> Deleted:
    """Delete a member with all that is theirs; nothing of it can be brought back from this file.

    Args:
        log: The log. Lifts, places and waves stay: they belong to all.
        member_id: Whose.
        typed_name: The name, typed as it stands in the log.
        with_copies: Delete the copies too that Tidemark keeps and that hold the member, once a fresh one was made.

    Raises:
        BadInputError: if the member is not in the log any more, or the name is another.
        TidemarkError: if the log is held by somebody, read-only, or has no room; nothing is deleted then.
    """
    found: MemberRecord | None = find_member(log, member_id)
    if found is None:
        raise BadInputError("This member is not in the log any more.", where="member", mend="Reload the page.")
    if " ".join(typed_name.split()) != found.name:
        raise BadInputError("The name typed is not the member's.", where="name", mend="Enter it as it stands above.")
    keep_an_owner(log, member_id)
    with_copies = with_copies and who().role in ("here", "owner")  # a copy holds all members: it is the owner's
    counts = what_goes(log, member_id)
    going = backups.named_by_us(log, copies_holding(log, member_id)) if with_copies else ()
    compact = erase.erase(log, member_id, found.name, [each.name for each in going])
    with log.reading() as session:
        named = erase.named(session, found.name)
    named += devices.named(log, found.name)
    copies, refused = copies_holding(log, member_id), ""
    if with_copies:
        try:
            copies = backups.let_go(log, copies)
        except TidemarkError as err:  # the member is deleted; that is not taken back
            refused = str(err)
    return Deleted(counts.get("sets", 0), counts.get("sessions", 0), named, copies, compact, refused)


@may("hand over")
def copies_holding(log: Log, member_id: str) -> tuple[Path, ...]:
    """Name the copies beside the log that hold a member."""
    return backups.holding(file_of(log.url), member_id)
