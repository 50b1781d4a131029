"""Which lift a file's rows are of: one of the log, or a new one.

A lift in our own words ("push press, barbell") is that lift with that implement. One without an implement in the file is
the lift of that name whose implement was not asked yet. Where there is none, because it was said since, it is the one that
has the file's sets already; else the one that we write without its implement; else a new one, about which the pages ask
once.
"""

from __future__ import annotations

from collections.abc import Container, Sequence
from typing import NamedTuple

from tracker.exchange.lift_title import named
from tracker.exchange.sets_csv import FileSet
from tracker.log.columns import new_id
from tracker.log.identity import identity_of
from tracker.log.known_names import KnownLift, KnownNames
from tracker.log.row_access import private_to
from tracker.log.who import who
from tracker.units import plain


class NewLift(NamedTuple):
    """A lift that a file names first; `private_to` is whose alone it will be (None: everybody's)."""

    id: str
    name: str
    implement: str
    private_to: str | None


class LiftFinder:
    """The lifts of the log by name, and those that a file adds to them; `times` has the identities of the log."""

    def __init__(self, known: KnownNames, times: Container[str]) -> None:
        self.lifts = {(each.private_to, each.name.casefold(), each.implement): each for each in known.lifts}
        self.weighed = known.weighed  # without a body mass, a body lift takes no set
        self.times = times
        self.new: dict[tuple[str | None, str, str], NewLift] = {}  # by whose it is, name and implement

    def lift_id(self, member_id: str, rows: Sequence[FileSet]) -> str:
        """Return which lift a member's rows are of, all with one name and implement."""
        name, implement = rows[0].lift, rows[0].implement
        read, with_what = named(name, implement)
        key, as_written = (read.casefold(), with_what or "unasked"), (name.casefold(), implement or "unasked")
        found = [lift.id for each in dict.fromkeys((key, as_written)) if (lift := self._there(member_id, each))]
        if len(found) > 1:  # a log may also have the name as it stands, from when our own words were not read
            return self._with_most(member_id, found, rows)[0]
        if found:
            return found[0]
        if not with_what and (said_since := self._said_since(member_id, key[0], rows)):
            return said_since
        whose = _whose(member_id)
        return self.new.setdefault((whose, *key), NewLift(new_id(), read, key[1], whose)).id

    def _there(self, member_id: str, key: tuple[str, str]) -> KnownLift | None:
        """Return the lift of that name and implement: the member's own, else the gym's."""
        return self.lifts.get((member_id, *key)) or self.lifts.get((None, *key))

    def _said_since(self, member_id: str, name: str, rows: Sequence[FileSet]) -> str | None:
        """Return the lift of that name that rows without an implement are of, if its implement was said since."""
        same = [lift for (owner, known, _), lift in self.lifts.items() if known == name and owner in (None, member_id)]
        best, there = self._with_most(member_id, [lift.id for lift in same], rows)
        if there:
            return best
        weighed = member_id in self.weighed or all(row.body_mass is not None for row in rows)
        written_so = {
            lift.implement: self._there(member_id, (name, lift.implement)) or lift
            for lift in same
            if lift.implement in ("body", "other") and (weighed or not lift.body)
        }
        return next(iter(written_so.values())).id if len(written_so) == 1 else None

    def _with_most(self, member_id: str, lift_ids: Sequence[str], rows: Sequence[FileSet]) -> tuple[str, int]:
        """Return the lift that has most of these sets already, the first of equal ones, and how many those are."""
        there = {
            lift_id: sum(row_identity(row, member_id, lift_id, in_reserve(row)) in self.times for row in rows)
            for lift_id in lift_ids
        }
        best = max(there, key=lambda lift_id: there[lift_id], default="")
        return best, there.get(best, 0)


def _whose(member_id: str) -> str | None:
    """Return whose a lift is that a file names first: a member's own, also where the owner brings it for them."""
    person = who()
    return member_id if person.role == "owner" and member_id != person.member_id else private_to()


def in_reserve(row: FileSet) -> str:
    """Write repetitions in reserve as identities have them."""
    return "" if row.rir is None else plain(row.rir)


def row_identity(row: FileSet, member_id: str, lift_id: str, rir: str) -> str:
    """Return the identity of a row as that member's set of that lift; `rir` as `in_reserve` writes it."""
    facts = (member_id, lift_id, row.day.isoformat(), row.lifted.facts, str(row.reps), rir, row.outcome, row.kind)
    return identity_of(facts)
