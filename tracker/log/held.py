"""Holds every record of the log against the newest state that the history has of it, and the history against its seals.

What came with an import has no entry of its own: the import's entries carry digests of it. A record that the history does
not tell of, in a log that is older than its seals or where a member was deleted, has an entry FOUND: how it was found.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from typing import Any, NamedTuple

from sqlalchemy import Connection, Table, case, insert, inspect, select
from sqlalchemy.sql.schema import ScalarElementColumnDefault

from tracker.log import chain, row_access
from tracker.log.chain import CHANGES, FOUND, NOBODY, TOLD
from tracker.log.columns import Base, new_id, now
from tracker.log.open_format import STAYS
from tracker.log.states import plain_value
from tracker.narrow import is_keyed
from tracker.progress import through

IMPORTS = "imports"  # the one entry in the history that stands for all sets of an import
SUMMED = ("sets", "sessions")  # what an import brings too much of to keep a digest of each
UNTRACKED = frozenset({"changes", "log_facts"})
BEGUN = "sealed the history"
AT_ONCE = 1000
_encode = json.JSONEncoder(sort_keys=True, separators=(",", ":")).encode

Key = tuple[str, str]  # table and id
State = Mapping[str, Any]


class Group(NamedTuple):
    """What an import brought one member of one kind of record."""

    import_id: str
    member_id: str | None
    table: str


def tables() -> list[Table]:
    """Return the tables whose records stand in the history."""
    return [table for table in Base.metadata.sorted_tables if table.name not in UNTRACKED]


@cache
def _usual(table: str) -> dict[str, Any]:
    """Return what a column holds where nobody said anything: a later version may add one, and no state has it."""
    usual: dict[str, Any] = {}
    for column in Base.metadata.tables[table].columns:
        usual[column.name] = column.default.arg if isinstance(column.default, ScalarElementColumnDefault) else None
    return usual


def digest(table: str, state: State) -> str:
    """Return a digest of a record's state as the history keeps it; what is as usual is no part of it."""
    usual = _usual(table)
    said = {key: value for key, value in state.items() if value is not None and key in usual and value != usual[key]}
    return hashlib.blake2b(_encode([table, said]).encode(), digest_size=16).hexdigest()


def states(connection: Connection, table: Table, ids: Iterable[str] | None = None) -> Iterator[dict[str, Any]]:
    """Yield the records of a table as the history would keep them, all of them or those of some ids."""
    names = [column.name for column in table.columns]
    parts: list[Sequence[str] | None] = [None]
    if ids is not None:
        known = sorted(ids)
        parts = [known[at : at + 500] for at in range(0, len(known), 500)]
    for part in parts:
        query = select(table) if part is None else select(table).where(table.c.id.in_(part))
        for row in connection.execute(query.execution_options(yield_per=AT_ONCE)):
            yield dict(zip(names, map(plain_value, row), strict=True))


def digests(connection: Connection, table: str, ids: Iterable[str]) -> dict[str, str]:
    """Return the digest of each record of these ids."""
    found = states(connection, Base.metadata.tables[table], ids)
    return {state["id"]: digest(table, state) for state in found}


def sum_of(table: str, columns: Mapping[str, Sequence[Any]], number: int) -> str:
    """Return one digest of many records, given column by column in the order of their ids.

    It is made of whole columns, since a digest for each of 100,000 sets would cost a quarter of their import.
    """
    usual, whole = _usual(table), hashlib.blake2b(digest_size=16)
    for name in sorted(columns):
        values = columns[name]
        first = values[0]
        if values[-1] == first and values.count(first) == number:
            if first is None or first == usual.get(name):
                continue
            part = _encode([name, number, first])
        else:
            try:
                part = f"{name}\x1e{chr(0x1F).join(values)}"
            except TypeError:  # numbers, or not said each time
                part = _encode([name, list(values)])
        whole.update(part.encode("utf-8", "surrogatepass"))
    return f"{number}:{whole.hexdigest()}"


def _sum_of_states(table: str, found: list[State]) -> str:
    found.sort(key=lambda state: state["id"])
    names = {name for state in found for name in state}
    return sum_of(table, {name: [state.get(name) for state in found] for name in names}, len(found))


def _said(side: dict[str, Any] | None) -> dict[str, Any]:
    """Return what one side of an entry says, nothing where it has none."""
    return side or {}


@dataclass
class History:
    """What the history says of every record, read once from its first entry to its last."""

    newest: dict[Key, str | None] = field(default_factory=dict[Key, str | None])  # digest, or None where it was deleted
    # before the first entry, of what an import brought
    first: dict[Key, State] = field(default_factory=dict[Key, State])
    sums: dict[Group, str] = field(default_factory=dict[Group, str])
    owner: dict[str, str | None] = field(default_factory=dict[str, str | None])  # of sessions that are gone
    problems: list[str] = field(default_factory=list[str])
    redacted: frozenset[int] = frozenset()  # entries from which a deleted member was taken out
    undone: set[str] = field(default_factory=set[str])  # imports that were taken back
    begun: int = 0  # entries up to this one are older than their seals; -1 before there is any seal

    def read(self, connection: Connection) -> None:
        """Read all entries.

        Raises:
            DamagedValueError: if one can't be read.
        """
        walk = chain.Walk()
        if self.begun == 0:
            first = select(CHANGES.c.number).where(CHANGES.c.record == FOUND, CHANGES.c.record_id == NOBODY)
            self.begun = connection.scalar(first.order_by(CHANGES.c.number).limit(1)) or 0
        told = select(CHANGES.c.after).where(CHANGES.c.record == "members", CHANGES.c.record_id == NOBODY)
        self.redacted = frozenset(
            number for after in connection.scalars(told) for number in _said(after).get("redacted", ())
        )
        undone: dict[str, set[str | None]] = {}
        undoing: dict[str, str] = {}
        settled: dict[str, str] = {}
        rows = connection.execute(select(CHANGES).order_by(CHANGES.c.number).execution_options(yield_per=AT_ONCE))
        for entry in through("reading the history", rows, 0):
            if not walk.holds(entry) and self.begun >= 0:
                self.problems.append(f"changes, {entry.number}: not as it was written, or one before it is missing")
            # What a member is told of another's act is taken back with that act.
            undone.setdefault(entry.record_id if entry.record == TOLD else entry.act_id, set()).add(entry.undone_by)
            if entry.undoes:
                undoing[entry.act_id] = entry.undoes
            settled.update(_said(entry.after).get("undone", {}) if entry.record_id == NOBODY else {})
            self._broken_then(entry)
            if entry.record == FOUND:
                self._found(entry)
            elif entry.record == IMPORTS:
                self._import(entry)
            elif entry.record in Base.metadata.tables and entry.record not in UNTRACKED and entry.record_id != NOBODY:
                self._record(entry)
        self._pairs(undone, undoing, settled)

    def _pairs(self, undone: dict[str, set[str | None]], undoing: dict[str, str], settled: dict[str, str]) -> None:
        for act, by in undone.items():
            told = {each for each in by if each and undoing.get(each) != act and settled.get(act) != each}
            if told:
                self.problems.append(f"changes, act {act}: said to be undone by an act that did not undo it")
        for by, act in undoing.items():
            if undone.get(act, {by}) != {by}:  # where its member was deleted there is nothing left of it
                self.problems.append(f"changes, act {by}: undid an act that does not say so")

    def _broken_then(self, entry: Any) -> None:
        """Tell of damage that was there already when a member was deleted, and that the new seals hide."""
        if entry.record_id == NOBODY:
            for number in _said(entry.after).get("broken", ()):
                self.problems.append(f"changes, {number}: was not as it was written when a member was deleted")

    def _found(self, entry: Any) -> None:
        what = _said(entry.after)
        if "record" in what:
            state = what.get("state")
            self.newest[what["record"], entry.record_id] = state and digest(what["record"], state)
        if "digest" in what:
            self.newest[what["of"], entry.record_id] = what["digest"]
        for table, value in what.get("sums", {}).items():
            self.sums[Group(entry.record_id, entry.member_id, table)] = value

    def _import(self, entry: Any) -> None:
        if entry.after is None:  # it was taken back: what stays of it has entries of its own
            self.undone.add(entry.record_id)
            for group in [each for each in self.sums if each.import_id == entry.record_id]:
                del self.sums[group]
            for table, made in _said(entry.before).get("created", {}).items():
                self.newest |= {(table, each): None for each in made}
            return
        for table, value in entry.after.get("sums", {}).items():
            self.sums[Group(entry.record_id, entry.member_id, table)] = value
        for table, made in entry.after.get("created", {}).items():
            if is_keyed(made):  # before there were seals it was a list of ids
                self.newest |= {(table, each): value for each, value in made.items()}

    def _record(self, entry: Any) -> None:
        key = (entry.record, entry.record_id)
        for state in (entry.before, entry.after):
            if entry.record == "sessions" and state:
                self.owner[entry.record_id] = state.get("member_id")
        if entry.number > self.begun and self.begun >= 0:
            if key in self.newest:
                before = None if entry.before is None else digest(entry.record, entry.before)
                if before != self.newest[key] and entry.number not in self.redacted:
                    self.problems.append(f"{entry.record}, {entry.record_id}: had changed before entry {entry.number}")
            elif entry.before is not None:
                self.first[key] = entry.before
        self.newest[key] = None if entry.after is None else digest(entry.record, entry.after)


@dataclass
class Loose:
    """What of the log no entry of the history holds."""

    # records without an entry, by table
    unknown: list[tuple[str, State]] = field(default_factory=list[tuple[str, State]])
    # records that are not as their newest entry says
    changed: list[tuple[str, State]] = field(default_factory=list[tuple[str, State]])
    missing: list[Key] = field(default_factory=list[Key])  # records that the history has and the log has not
    # what imports brought, as it came
    groups: dict[Group, list[State]] = field(default_factory=dict[Group, list[State]])


def compare(connection: Connection, history: History) -> Loose:
    """Hold all records against what the history says of them."""
    loose, left = Loose(), dict(history.newest)
    owner = dict(history.owner)
    brought: list[tuple[str, State, bool]] = []  # table, state, and whether the history told of it
    for table in tables():
        name = table.name
        for state in through(f"comparing with the history: {name.replace('_', ' ')}", states(connection, table), 0):
            key = (name, state["id"])
            if name == "sessions":
                owner[state["id"]] = state["member_id"]
            if key in left:
                if left.pop(key) != digest(name, state):
                    loose.changed.append((name, state))
                if key in history.first:
                    brought.append((name, history.first[key], True))
            elif name in SUMMED and state["import_id"]:
                brought.append((name, state, False))
            else:
                loose.unknown.append((name, state))
    brought += [(key[0], state, True) for key, state in history.first.items() if key in left]
    loose.missing = [key for key, value in left.items() if value is not None and key[0] not in STAYS]
    for name, state, told in brought:
        if name not in SUMMED or not state.get("import_id") or (told and state["import_id"] in history.undone):
            continue
        member = state["member_id"] if name == "sessions" else owner.get(state["session_id"])
        loose.groups.setdefault(Group(state["import_id"], member, name), []).append(state)
    return loose


class Audit:
    """The history, and what of the log it does not hold."""

    def __init__(self, connection: Connection, history: History | None = None) -> None:
        self.history = history or History()
        self.history.read(connection)
        self.loose = compare(connection, self.history)
        self.records = {(name, state["id"]): state for name, state in (*self.loose.unknown, *self.loose.changed)}
        self.groups: dict[Group, str] = {}  # what an import brought that is not as its digest says, and how it is
        for group, found in self.loose.groups.items():
            value = _sum_of_states(group.table, found)
            if value != self.history.sums.get(group):
                self.groups[group] = value

    def since(self, connection: Connection, before: Audit) -> Iterator[dict[str, Any]]:
        """Yield entries for all that was in order before and is not now; only digests, for states may name somebody."""
        for name, record_id in self.records.keys() - before.records.keys():
            state = self.records[name, record_id]
            owner = row_access.owner_of(connection, name, record_id)
            yield found_entry(owner, record_id, {"of": name, "digest": digest(name, state)})
        for name, record_id in set(self.loose.missing) - set(before.loose.missing):
            yield found_entry(None, record_id, {"of": name, "digest": None})
        for group in self.groups.keys() - before.groups.keys():
            yield found_entry(group.member_id, group.import_id, {"sums": {group.table: self.groups[group]}})


def problems(connection: Connection) -> Iterator[str]:
    """Say of each record and each entry of the history what is not as it was written."""
    audit = Audit(connection)
    yield from audit.history.problems
    try:
        if lacking := chain.missing(connection):
            yield f"changes: {lacking:,} that the log held {'is' if lacking == 1 else 'are'} missing"
    except ValueError:
        yield f"log_facts, {chain.HEAD}: a value that can't be read"
    for name, state in audit.loose.changed:
        yield f"{name}, {state['id']}: not as the history says it is"
    for name, state in audit.loose.unknown:
        yield f"{name}, {state['id']}: the history does not tell of it"
    for name, record_id in audit.loose.missing:
        yield f"{name}, {record_id}: the history tells of it, and it is not there"
    for group in audit.groups:
        found = audit.loose.groups[group]
        if group in audit.history.sums:
            what = f"{group.table}: of {len(found):,} that import {group.import_id} added at least one"
            yield f"{what} is not as it came, or is missing"
        else:
            yield from (f"{group.table}, {state['id']}: the history does not tell of it" for state in found)
    for group in audit.history.sums.keys() - audit.loose.groups.keys():
        yield f"{group.table}: what import {group.import_id} added is not there"


def fits(connection: Connection) -> bool:
    """Tell whether a database has all columns of this version, so that it can be held to its history."""
    found = inspect(connection)
    known = set(found.get_table_names())
    return all(
        table.name in known and {each["name"] for each in found.get_columns(table.name)} >= set(table.columns.keys())
        for table in Base.metadata.sorted_tables
    )


def begin(connection: Connection) -> None:
    """Seal the history of an older log as it stands, and note each record that it does not tell of as it is found.

    It is done once, after the migrations and in their transaction.
    """
    if chain.count(connection, sealed=True):
        return
    # None of its entries is held to the one before it: nothing promised that they fit.
    audit = Audit(connection, History(begun=-1))
    entries = [
        found_entry(row_access.owner_of(connection, *key), key[1], {"record": key[0], "state": state})
        for key, state in audit.records.items()
    ]
    entries += [found_entry(None, each, {"record": name, "state": None}) for name, each in audit.loose.missing]
    sums: dict[tuple[str, str | None], dict[str, str]] = {}
    for group, value in audit.groups.items():
        sums.setdefault((group.import_id, group.member_id), {})[group.table] = value
    entries += [found_entry(member, import_id, {"sums": each}) for (import_id, member), each in sums.items()]
    undone = undone_by_nothing(connection)
    number = chain.count(connection, sealed=False)
    if number or entries:
        entries.insert(0, found_entry(None, NOBODY, {"begun": True, "entries": number, "undone": undone}))
        write(connection, entries, BEGUN)
        chain.seal_anew(connection)


def undone_by_nothing(connection: Connection) -> dict[str, str]:
    """Return the acts that were taken back by one that left no entry, which nothing else tells of."""
    acts = set(connection.scalars(select(CHANGES.c.act_id).distinct()))
    act = case((CHANGES.c.record == TOLD, CHANGES.c.record_id), else_=CHANGES.c.act_id)
    undone = connection.execute(select(act, CHANGES.c.undone_by).where(CHANGES.c.undone_by.is_not(None)))
    return {act: by for act, by in undone if by not in acts}


def found_entry(member_id: str | None, record_id: str, after: dict[str, Any]) -> dict[str, Any]:
    return {"member_id": member_id, "record": FOUND, "record_id": record_id, "after": after}


def write(connection: Connection, entries: Sequence[dict[str, Any]], words: str, *, after: int = 0) -> None:
    """Write entries by hand as one act, past the unit of work and without seals, numbered above `after` at least."""
    act_id, moment = new_id(), now()
    number = max(chain.ends_at(connection), after)
    rows = [
        {"number": number + at, "act_id": act_id, "act": words, "at": moment, "before": None} | entry
        for at, entry in enumerate(entries, start=1)
    ]
    for at in range(0, len(rows), AT_ONCE):
        connection.execute(insert(CHANGES), rows[at : at + AT_ONCE])
