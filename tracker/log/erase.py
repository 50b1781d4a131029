"""Erasing a member: no act and no history, but rows and words that are no longer in the file.

SQLite overwrites what is deleted with zeros (`secure_delete`) and then writes the file anew (VACUUM), so that neither a
free page nor the rest of a page keeps it (sqlite.org/pragma.html#pragma_secure_delete). PostgreSQL keeps deleted rows in
its tables until they are written anew (VACUUM FULL); its write-ahead log and its dumps are its keeper's to remove.
"""

from __future__ import annotations

import hashlib
import re
import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from sqlalchemy import ColumnElement, Connection, Table, and_, delete, func, insert, select, update
from sqlalchemy.orm import Session as OrmSession
from sqlalchemy.types import String

from tracker.limits import MOST_NAME
from tracker.log import chain, held, server
from tracker.log.columns import Base, cut
from tracker.log.facts import of_member
from tracker.log.faults import told_in_words
from tracker.log.models import Change, Member, Meta
from tracker.log.unit_of_work import Log
from tracker.narrow import is_keyed, is_list

AT_ONCE = 500  # values in one statement; SQLite takes a limited number
SOMEBODY = "a former member"  # in the history of others, in place of the name
DELETED = "deleted a member"
GOING = "letting go of "  # begins the keys of facts that name copies which are to go
AN_ID = re.compile(rb"(?=([0-9a-f]{32}))")  # wherever it begins: values of a record stand side by side
OF_SOMEBODY = "changed a record of a former member"
FACTS: Table = Base.metadata.tables[Meta.__tablename__]
CHANGES: Table = Base.metadata.tables[Change.__tablename__]


def erase(log: Log, member_id: str, name: str, going: Iterable[str] = ()) -> bool:
    """Delete a member and every trace of them; return whether the file or the tables were written anew as well.

    Args:
        log: The log.
        member_id: Whose.
        name: The member's.
        going: Names of copies that hold the member and are to go next. They are kept in the same transaction, so that
            whoever opens the log next lets go of them if this process is ended before it does.

    Raises:
        TidemarkError: if the log is held, read-only or without room; nothing is deleted then.
    """
    with told_in_words(log.name), log.engine.connect() as connection:
        sqlite = connection.dialect.name == "sqlite"
        if sqlite:
            connection.exec_driver_sql("PRAGMA secure_delete=ON")  # begins no write, so the act below can
            connection.rollback()
        with connection.begin():
            if not sqlite:
                server.take_all(connection)
            _erase_rows(connection, member_id, name)
            for each in going:
                connection.execute(delete(FACTS).where(FACTS.c.key == GOING + each))
                connection.execute(insert(FACTS).values(key=GOING + each, value=_unsaid(member_id)))
        log.written += 1
        return _write_anew(connection) if sqlite else server.write_anew(log.engine, list(Base.metadata.tables))


def still_going(session: OrmSession) -> dict[str, str]:
    """Return the names of copies that are to go, each with what tells a copy that holds the member."""
    query = select(FACTS.c.key, FACTS.c.value).where(FACTS.c.key.startswith(GOING, autoescape=True))
    return {key.removeprefix(GOING): value for key, value in session.connection().execute(query)}


def went(session: OrmSession, names: Iterable[str]) -> None:
    """Forget copies that have gone."""
    for part in _parts(names):
        session.connection().execute(delete(FACTS).where(FACTS.c.key.in_([GOING + each for each in part])))


def holds(content: Any, unsaid: str) -> bool:
    """Tell whether bytes hold the id of a deleted member, of which only a digest is kept."""
    found = {match[1] for match in AN_ID.finditer(content)}
    return any(_unsaid(each.decode()) == unsaid for each in found)


def _unsaid(member_id: str) -> str:
    return hashlib.sha256(member_id.encode()).hexdigest()


def count(session: OrmSession, member_id: str) -> dict[str, int]:
    """Count what belongs to a member, by table."""
    return {table: len(ids) for table, ids in _theirs(session.connection(), member_id).items() if ids}


def count_beside(session: OrmSession, member_id: str) -> tuple[int, int]:
    """Count what goes with a member beside their records: entries of the history, and facts about them."""
    entries = select(func.count()).select_from(CHANGES).where(CHANGES.c.member_id == member_id)
    facts = select(func.count()).select_from(FACTS).where(FACTS.c.key.startswith(of_member(member_id), autoescape=True))
    return session.scalar(entries) or 0, session.scalar(facts) or 0


def named(session: OrmSession, name: str) -> tuple[str, ...]:
    """List what belongs to all and holds the name: a place, a wave, a coach's text."""
    found: list[str] = []
    for table in Base.metadata.sorted_tables:
        if table is CHANGES or "member_id" in table.columns or table.name == Member.__tablename__:
            continue
        for column in table.columns:
            if isinstance(column.type, String) and not column.foreign_keys and not column.primary_key:
                texts = session.scalars(
                    select(column).where(func.lower(column).contains(name.lower(), autoescape=True))
                )
                found += [f"{table.name.replace('_', ' ')}: {text[:60]}" for text in texts if _word(name).search(text)]
    return tuple(dict.fromkeys(found))


def _theirs(connection: Connection, member_id: str) -> dict[str, set[str]]:
    """Find the ids of all records that go with a member: those that point to one of them and would be deleted with it."""
    found: dict[str, set[str]] = {Member.__tablename__: {member_id}}
    for table in Base.metadata.sorted_tables:  # what is pointed to comes first
        for key in table.foreign_keys:
            parents = found.get(key.column.table.name)
            if parents and key.ondelete == "CASCADE":
                for part in _parts(parents):
                    query = select(table.c.id).where(key.parent.in_(part))
                    found.setdefault(table.name, set()).update(connection.scalars(query))
        if (
            "private_to" in table.columns
        ):  # without a foreign key: members point to places, and would go round in a circle
            private = connection.scalars(select(table.c.id).where(table.c.private_to == member_id))
            found.setdefault(table.name, set()).update(private)
    return found


def _erase_rows(connection: Connection, member_id: str, name: str) -> None:
    theirs = _theirs(connection, member_id)
    newest = chain.ends_at(connection)  # it must rise: what is kept in memory hangs on it
    lacking = _lacking(connection)
    broken, before = chain.broken(connection), held.Audit(connection)
    gone = _Gone(connection)
    gone.forget(CHANGES.c.member_id == member_id)
    for table, ids in theirs.items():
        for part in _parts(ids):
            gone.forget(and_(CHANGES.c.record == table, CHANGES.c.record_id.in_(part)))
    for part in _parts(gone.acts):  # what is left of an act on somebody else's records: its words may tell of the set
        gone.change(CHANGES.c.act_id.in_(part), act=OF_SOMEBODY)
    connection.execute(delete(FACTS).where(FACTS.c.key.startswith(of_member(member_id), autoescape=True)))
    redacted = _clean_history(connection, {each for ids in theirs.values() for each in ids}, name, gone.chains)
    connection.execute(delete(Member.__table__).where(Member.__table__.c.id == member_id))  # type: ignore[arg-type]  # a Table
    for table in reversed(Base.metadata.sorted_tables):  # waves before the lifts that stand in them
        if "private_to" in table.columns:  # after the member's scores, which hold on to their pieces
            connection.execute(delete(table).where(table.c.private_to == member_id))
    # The chain of the member is gone whole; in others is sealed anew what was taken out, and it is said here.
    chains = gone.chains - {member_id}
    words = {"sealed_anew": sorted(each or "" for each in chains)}
    left: Sequence[int] = ()
    if broken:
        left = connection.scalars(select(CHANGES.c.number).where(CHANGES.c.number.in_(broken))).all()
    words |= {"undone": held.undone_by_nothing(connection), "broken": sorted(left), "redacted": redacted}
    entry = {"record": Member.__tablename__, "record_id": chain.NOBODY, "member_id": None, "after": words}
    held.write(connection, [entry], DELETED, after=newest)
    found = list(held.Audit(connection).since(connection, before))
    held.write(connection, found, DELETED)
    chain.seal_anew(connection, {*chains, None, *(each["member_id"] for each in found)})
    chain.keep_head(connection, lacking=lacking)


def _lacking(connection: Connection) -> int:
    """Count the entries that were missing already, which stay missing."""
    try:
        return chain.missing(connection)
    except ValueError:
        return 0


class _Gone:
    """Entries of the history that are taken out, and which acts and chains they were of."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection
        self.acts: set[str] = set()
        self.chains: set[str | None] = set()

    def forget(self, which: ColumnElement[bool]) -> None:
        for act_id, member_id in self.connection.execute(select(CHANGES.c.act_id, CHANGES.c.member_id).where(which)):
            self.acts.add(act_id)
            self.chains.add(member_id)
        self.connection.execute(delete(CHANGES).where(which))

    def change(self, which: ColumnElement[bool], **values: Any) -> None:
        self.chains |= set(self.connection.scalars(select(CHANGES.c.member_id).where(which)))
        self.connection.execute(update(CHANGES).where(which).values(**values))


def _clean_history(connection: Connection, ids: set[str], name: str, chains: set[str | None]) -> list[int]:
    """Take the name out of the words, and the ids out of the former states, in the history of others; return where."""
    redacted: list[int] = []
    for row in connection.execute(select(CHANGES)).all():
        words = _cut_off(_word(name).sub(SOMEBODY, row.act), name, unseen=len(row.act) == MOST_NAME)
        states = {side: _without(getattr(row, side), ids, name) for side in ("before", "after")}
        if words != row.act or any(states[side] != getattr(row, side) for side in states):
            chains.add(row.member_id)
            redacted.append(row.number)
            connection.execute(update(CHANGES).where(CHANGES.c.number == row.number).values(act=cut(words), **states))
    return redacted


def _cut_off(words: str, name: str, *, unseen: bool) -> str:
    """Take the beginning of a name out of words that were cut within it, `unseen` as earlier versions did: with no sign."""
    end = "…?" if unseen else "…"
    for at in range(len(name) - 1, 0, -1):
        begun = rf"(?<!\w){re.escape(name[:at].rstrip())}{end}\s*\Z"
        if found := re.search(begun, words, re.IGNORECASE):
            return f"{words[: found.start()]}{SOMEBODY}…"
    return words


def _without(value: Any, ids: set[str], name: str) -> Any:
    if is_keyed(value):
        return {key: _without(each, ids, name) for key, each in value.items() if key not in ids}
    if is_list(value):
        return [_without(each, ids, name) for each in value if not (isinstance(each, str) and each in ids)]
    if isinstance(value, str):
        return None if value in ids else _word(name).sub(SOMEBODY, value)
    return value


def _word(name: str) -> re.Pattern[str]:
    return re.compile(rf"(?<!\w){re.escape(name)}(?!\w)", re.IGNORECASE)


def _write_anew(connection: Connection) -> bool:
    """Write the file anew; where another program reads it or there is no room, its zeros have to do."""
    driver: Any = connection.connection.driver_connection  # neither of the two can be done within a transaction
    try:
        driver.execute("VACUUM")
        driver.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    except sqlite3.OperationalError:
        return False
    return True


def _parts(ids: Iterable[str]) -> Iterator[Sequence[str]]:
    known = sorted(ids)
    return (known[at : at + AT_ONCE] for at in range(0, len(known), AT_ONCE))
