"""The rows of a file that the log does not have, with ids in place of names: whose, which lift, which place; and what is new."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import NamedTuple

from tracker.desk.files.which_lift import LiftFinder, NewLift, in_reserve, row_identity
from tracker.desk.people.people import check_free
from tracker.errors import BadInputError
from tracker.exchange.sets_csv import FileSet, SetsFile
from tracker.log import bulk
from tracker.log.columns import new_id
from tracker.log.known_names import KnownNames, known_names
from tracker.log.unit_of_work import Reader
from tracker.progress import tell, through


class Names:
    """Records of one kind by name, letters of either case alike; a name that is not known is new and gets an id."""

    def __init__(self, known: Iterable[tuple[str, str]]) -> None:
        self.by_name = {name.casefold(): record_id for record_id, name in known}
        self.new: dict[str, str] = {}  # name as written, by id

    def id_of(self, name: str) -> str:
        found = self.by_name.get(name.casefold())
        if found is None:
            found = self.by_name[name.casefold()] = new_id()
            self.new[found] = name
        return found


class ResolvedRow(NamedTuple):
    """A row that the log does not have; `rir` as identities have it, "" where it is not said."""

    identity: str
    member_id: str
    lift_id: str
    place_id: str | None
    rir: str
    row: FileSet


@dataclass(frozen=True, slots=True)
class Resolved:
    """What a file has more than the log, and what of it is new there: members and places as written, by id."""

    rows: Sequence[ResolvedRow]
    members: dict[str, str]
    lifts: Sequence[NewLift]
    places: dict[str, str]


def resolve(session: Reader, file: SetsFile, nobody: str) -> Resolved:
    """Say of every row whose and which lift it is, and choose those to add: of equal ones the last.

    Args:
        session: The log as it is.
        file: What was read.
        nobody: Whose rows those are that name nobody.

    Raises:
        BadInputError: if a name can't be a member's.
    """
    known = known_names(session)
    members, places = Names((each.id, each.name) for each in known.members), Names(known.places)
    whose = _whose(file, nobody, known, members)
    tell("comparing with the log")
    times = bulk.times_known(session, set(whose.values()))
    tell("comparing with the log")
    finder = LiftFinder(known, times)
    lifts = _lifts(file.rows, whose, finder)
    fresh: list[ResolvedRow] = []
    written: dict[Decimal | None, str] = {}  # each number of repetitions in reserve once
    for row in through("comparing with the log", file.rows, len(file.rows)):
        member_id = whose[row.member]
        lift_id = lifts[member_id, row.lift, row.implement]
        rir = written.get(row.rir)
        if rir is None:
            rir = written[row.rir] = in_reserve(row)
        identity = row_identity(row, member_id, lift_id, rir)
        if left := times.get(identity, 0):
            times[identity] = left - 1
        else:
            place_id = places.id_of(row.place) if row.place else None
            fresh.append(ResolvedRow(identity, member_id, lift_id, place_id, rir, row))
    return Resolved(fresh, members.new, list(finder.new.values()), places.new)


def _whose(file: SetsFile, nobody: str, known: KnownNames, members: Names) -> dict[str, str]:
    """Return the member's id for each name that stands in a row."""
    removed = {each.name.casefold() for each in known.members if each.removed}
    there = [each.name for each in known.members if not each.removed]
    nobody = " ".join(nobody.split())
    found: dict[str, str] = {}
    for row in file.rows:
        if row.member in found:
            continue
        name = row.member or nobody
        try:
            if name.casefold() in removed:
                mend = "Use another name, or take the rows out."
                raise BadInputError(f"{name} was removed from this log.", mend=mend)
            if name.casefold() not in members.by_name:
                check_free(name, [*there, *members.new.values()])
        except BadInputError as err:
            raise BadInputError(err.what, where=f"{file.name}, line {row.line}, member", mend=err.mend) from err
        found[row.member] = members.id_of(name)
    return found


def _lifts(rows: Sequence[FileSet], whose: dict[str, str], finder: LiftFinder) -> dict[tuple[str, str, str], str]:
    """Return the lift's id by member, name and implement: one may have a lift of their own."""
    groups: dict[tuple[str, str, str], list[FileSet]] = {}
    for row in rows:
        groups.setdefault((whose[row.member], row.lift, row.implement), []).append(row)
    return {key: finder.lift_id(key[0], group) for key, group in groups.items()}
