"""Who and what the rows of a file speak of: the members, lifts and places of the log, and those that are new.

A lift in our own words ("push press, barbell") is that lift with that implement. One without an implement in the file is
the lift of that name whose implement was not asked yet. Where there is none, because it was said since, it is the one that
has the file's sets already; else the one that we write without its implement; else a new one, about which the pages ask
once.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from decimal import Decimal
from typing import NamedTuple

from tracker.desk.people.people import check_free, facts_of
from tracker.errors import BadInputError
from tracker.exchange.lift_title import named
from tracker.exchange.sets_csv import FileSet
from tracker.log import bulk
from tracker.log.columns import new_id
from tracker.log.identity import identity_of
from tracker.log.known_names import KnownLift, known_names, lift_the_body
from tracker.log.row_access import private_to
from tracker.log.unit_of_work import Act, Reader
from tracker.log.who import who
from tracker.units import plain


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
    """A row with its identity, and whose and which lift it is."""

    origin: str
    member_id: str
    lift_id: str
    row: FileSet


class NameResolver:
    """Turns the names in a file's rows into ids of the log."""

    def __init__(self, session: Reader, nobody: str, file: str) -> None:
        self.file = file
        self.nobody = " ".join(nobody.split())
        known = known_names(session)
        self.removed = {each.name.casefold() for each in known.members if each.removed}
        self._names = [each.name for each in known.members if not each.removed]
        self.members = Names((each.id, each.name) for each in known.members)
        self.weighed = known.weighed  # without a body mass, a body lift takes no set
        self.places = Names(known.places)
        self.lifts = {(each.private_to, each.name.casefold(), each.implement): each for each in known.lifts}
        # id and name as written, by whose it will be (None: everybody's), name and implement
        self.new_lifts: dict[tuple[str | None, str, str], tuple[str, str]] = {}
        self._lift_ids: dict[tuple[str, str, str], str] = {}  # by member: one may have a lift of their own
        self._member_ids: dict[str, str] = {}
        self._reserves: dict[Decimal | None, str] = {}

    def member_id(self, row: FileSet) -> str:
        """Return whose set it is."""
        found = self._member_ids.get(row.member)
        if found is None:
            name = row.member or self.nobody
            if name.casefold() in self.removed:
                mend = "Use another name, or take the rows out."
                raise BadInputError(
                    f"{name} was removed from this log.", where=f"{self.file}, line {row.line}, member", mend=mend
                )
            if name.casefold() not in self.members.by_name:
                self._check_new(name, row.line)
            found = self._member_ids[row.member] = self.members.id_of(name)
        return found

    def _check_new(self, name: str, line: int) -> None:
        known = [*self._names, *self.members.new.values()]
        try:
            check_free(name, known)
        except BadInputError as err:
            raise BadInputError(err.what, where=f"{self.file}, line {line}, member", mend=err.mend) from err

    def lift_id(self, row: FileSet) -> str:
        """Return which lift it is; `settle` was called before."""
        return self._lift_ids[self.member_id(row), row.lift, row.implement]

    def settle(self, rows: Sequence[FileSet], known: Counter[str]) -> None:
        """Decide which lift each name is; `known` counts the identities of the log."""
        groups: dict[tuple[str, str, str], list[FileSet]] = {}
        for row in rows:
            groups.setdefault((self.member_id(row), row.lift, row.implement), []).append(row)
        for (member_id, name, implement), group in groups.items():
            self._lift_ids[member_id, name, implement] = self._settled(member_id, name, implement, group, known)

    def _settled(self, member_id: str, name: str, implement: str, rows: Sequence[FileSet], known: Counter[str]) -> str:
        read, with_what = named(name, implement)
        key, as_written = (read.casefold(), with_what or "unasked"), (name.casefold(), implement or "unasked")
        found = [lift.id for each in dict.fromkeys((key, as_written)) if (lift := self._there(member_id, each))]
        if len(found) == 1:
            return found[0]
        if found:  # a log may also have the name as it stands, from when our own words were not read
            return self._with_most(member_id, found, rows, known)[0]
        if not with_what:
            same = [
                lift
                for (owner, known_name, _), lift in self.lifts.items()
                if known_name == read.casefold() and owner in (None, member_id)
            ]
            best, there = self._with_most(member_id, [lift.id for lift in same], rows, known)
            if there:
                return best
            weighed = member_id in self.weighed or all(row.body_mass is not None for row in rows)
            written_so = {
                lift.implement: self._there(member_id, (read.casefold(), lift.implement)) or lift
                for lift in same
                if lift.implement in ("body", "other") and (weighed or not lift.body)
            }
            if len(written_so) == 1:
                return next(iter(written_so.values())).id
        return self.new_lifts.setdefault((_whose(member_id), *key), (new_id(), read))[0]

    def _there(self, member_id: str, key: tuple[str, str]) -> KnownLift | None:
        """Return the lift of that name and implement: the member's own, else the gym's."""
        return self.lifts.get((member_id, *key)) or self.lifts.get((None, *key))

    def _with_most(
        self, member_id: str, lift_ids: Sequence[str], rows: Sequence[FileSet], known: Counter[str]
    ) -> tuple[str, int]:
        """Return the lift that has most of these sets already, the first of equal ones, and how many those are."""
        there = {
            lift_id: sum(_identity(row, member_id, lift_id, self.reserve(row.rir)) in known for row in rows)
            for lift_id in lift_ids
        }
        best = max(there, key=lambda lift_id: there[lift_id], default="")
        return best, there.get(best, 0)

    def reserve(self, rir: Decimal | None) -> str:
        """Write repetitions in reserve as identities have them, each number once."""
        found = self._reserves.get(rir)
        if found is None:
            found = self._reserves[rir] = "" if rir is None else plain(rir)
        return found

    def resolved(self, rows: Sequence[FileSet]) -> list[ResolvedRow]:
        """Resolve every row, all its names known by now: `settle` was called before."""
        members, lifts, reserve = self._member_ids, self._lift_ids, self.reserve
        found: list[ResolvedRow] = []
        for row in rows:
            member_id = members[row.member]
            lift_id = lifts[member_id, row.lift, row.implement]
            found.append(ResolvedRow(_identity(row, member_id, lift_id, reserve(row.rir)), member_id, lift_id, row))
        return found

    def create(self, act: Act, rows: Sequence[FileSet]) -> dict[str, list[str]]:
        """Make the members, lifts and places that `rows` need and the log lacks; return their ids by kind."""
        members = self._first_rows(rows, self.member_id, self.members.new)
        for record_id, row in members.items():
            name = self.members.new[record_id]
            flags = {"no_heavy": False, "minor": False, "alone": False}
            bulk.create(act, "members", id=record_id, name=name, unit=row.unit, **flags)
        lifts = self._create_lifts(act, rows)
        places = self._first_rows([row for row in rows if row.place], self.place_id, self.places.new)
        for record_id, row in places.items():
            bulk.create(act, "places", id=record_id, name=self.places.new[record_id], unit=row.unit, pins=False)
        return {"members": list(members), "lifts": lifts, "places": list(places)}

    def place_id(self, row: FileSet) -> str:
        return self.places.id_of(row.place)

    @staticmethod
    def _first_rows(
        rows: Sequence[FileSet], id_of: Callable[[FileSet], str], new: dict[str, str]
    ) -> dict[str, FileSet]:
        """The first row that speaks of each new record."""
        found: dict[str, FileSet] = {}
        for row in rows:
            record_id = id_of(row)
            if record_id in new:
                found.setdefault(record_id, row)
        return found

    def _create_lifts(self, act: Act, rows: Sequence[FileSet]) -> list[str]:
        body = {self.lift_id(row) for row in rows if row.body_mass is not None}
        sides = {self.lift_id(row) for row in rows if row.per_side}
        made: list[str] = []
        for (owner, _, implement), (record_id, name) in self.new_lifts.items():
            facts = facts_of(name, implement)
            facts["body"] = facts["body"] or record_id in body
            bulk.create(
                act, "lifts", id=record_id, name=name, implement=implement, per_side=record_id in sides,
                private_to=owner, **facts,
            )  # fmt: skip
            made.append(record_id)
        for lift in self.lifts.values():
            if lift.id in body and not lift.body:
                lift_the_body(act, lift.id)  # the file says that it is
        return made

    def new_names(self, fresh: Sequence[ResolvedRow]) -> tuple[tuple[str, ...], tuple[str, ...], tuple[str, ...]]:
        """Return the names of members, lifts and places that are new in the log with these rows."""
        members = dict.fromkeys(self.members.new.get(each.member_id, "") for each in fresh)
        places = dict.fromkeys(self.places.new.get(self.place_id(each.row), "") for each in fresh if each.row.place)
        lifts = tuple(dict.fromkeys(name for _, name in self.new_lifts.values()))
        return tuple(filter(None, members)), lifts, tuple(filter(None, places))


def _whose(member_id: str) -> str | None:
    """Return whose a lift is that a file names first: a member's own, also where the owner brings it for them."""
    person = who()
    return member_id if person.role == "owner" and member_id != person.member_id else private_to()


def _identity(row: FileSet, member_id: str, lift_id: str, rir: str) -> str:
    facts = (member_id, lift_id, row.day.isoformat(), row.lifted.facts, str(row.reps), rir, row.outcome, row.kind)
    return identity_of(facts)
