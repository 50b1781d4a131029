"""The history as chains: each entry carries a seal over all that it says and over the seal before it.

There is one chain for each member and one for what belongs to nobody in particular, so that a member who is deleted takes
a whole chain along and leaves no hole in another. `undone_by` is written later and is no part of a seal: the act that
undoes says in its own entries (`undoes`) which act it was.

A seal shows that bytes changed by themselves or by a slip. It is no signature: who can write the file can write all seals
anew. That entries are missing shows in their numbers, which follow one upon the other: a fact of the log, the head, keeps
the newest number, and how many below it went with members who were deleted.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Sequence
from datetime import UTC, datetime
from typing import Any, NamedTuple

from sqlalchemy import Connection, Table, bindparam, func, insert, select, update

from tracker.log.columns import Base, now
from tracker.log.models import Change, Member, Meta

FOUND = "found"  # entries of history by hand: how a record was found that the history did not tell of
NOBODY = "-"  # the record of an entry that tells of no record in particular
RESTORED = "restored"  # the record of an entry FOUND that tells of a copy put in place
ACTS = "acts"  # the entry of an undoing that found nothing to write
TOLD = "told"  # what another's act did to a member's log, as they are told of it; `record_id` is that act
FIELDS = ("number", "act_id", "act", "member_id", "at", "record", "record_id", "before", "after", "undoes")
AT_ONCE = 1000  # seals in one statement
HEAD = "history"  # the key of the fact that keeps the head
CHANGES: Table = Base.metadata.tables[Change.__tablename__]
FACTS: Table = Base.metadata.tables[Meta.__tablename__]
_encode = json.JSONEncoder(sort_keys=True, separators=(",", ":")).encode
# What every act asks, some of it more than once, is built once or is plain SQL: building it took a third of an act.
_BACKWARDS = CHANGES.c.number.desc()
_NEWEST = select(CHANGES.c.number, CHANGES.c.seal, CHANGES.c.at).order_by(_BACKWARDS).limit(1)
_SEALS = select(CHANGES.c.seal).order_by(_BACKWARDS).limit(1)
_LAST_OF_ALL = _SEALS.where(CHANGES.c.member_id.is_(None))
_LAST_OF_MEMBER = _SEALS.where(CHANGES.c.member_id == bindparam("whose"))
_KEPT_AND_NEWEST = (
    f"SELECT (SELECT value FROM {FACTS.name} WHERE key = '{HEAD}'), (SELECT max(number) FROM {CHANGES.name})"
)
_ERASED = (
    f"SELECT 1 FROM {CHANGES.name} WHERE record = '{Member.__tablename__}' AND record_id = '{NOBODY}' AND number > "
)


def seal_of(former: str, entry: Any) -> str:
    """Return the seal of an entry that follows one with the seal `former`, or begins its chain where that is empty."""
    values = [_plain(getattr(entry, field)) for field in FIELDS]
    return hashlib.sha256(_encode([former, *values]).encode()).hexdigest()


def _plain(value: Any) -> Any:
    return value.astimezone(UTC).isoformat(timespec="microseconds") if isinstance(value, datetime) else value


class Entry(NamedTuple):
    """An entry that was seen in the log, and must be there later."""

    number: int
    seal: str
    at: datetime


def row_of(entry: Change) -> dict[str, Any]:
    """Return an entry as its row is written."""
    return {**{field: getattr(entry, field) for field in FIELDS}, "seal": entry.seal}


def entry_of(row: Any) -> Entry:
    return Entry(row.number, row.seal or "", row.at)


def newest(connection: Connection) -> Entry | None:
    """Return the newest entry of all chains."""
    found = connection.execute(_NEWEST).first()
    return entry_of(found) if found else None


class Head(NamedTuple):
    """Where the history ends, kept beside it."""

    number: int  # of its newest entry
    gone: int  # numbers below it that have no entry any more

    @property
    def value(self) -> str:
        return f"{self.number}x{self.gone}"  # one word, in which nobody's name is found


def kept_head(connection: Connection) -> Head | None:
    """Return the head as it is kept; None where none is, or a program that knew of none deleted a member since.

    Raises:
        ValueError: if it can't be read.
    """
    return _read_head(connection, *_kept(connection))


def _kept(connection: Connection) -> tuple[str | None, int]:
    """Return the head as it is written, and the highest number of an entry that is there."""
    value, number = connection.exec_driver_sql(_KEPT_AND_NEWEST).one()
    return value, number or 0


def _read_head(connection: Connection, value: str | None, number: int) -> Head | None:
    if value is None:
        return None
    parts = str(value).split("x")
    if len(parts) != 2 or not all(each.isascii() and each.isdecimal() for each in parts):
        raise ValueError(value)
    head = Head(*map(int, parts))
    if number <= head.number:
        return head  # no entry lies beyond it
    return None if connection.exec_driver_sql(f"{_ERASED}{head.number} LIMIT 1").first() else head


def missing(connection: Connection) -> int:
    """Count the entries that the log held and that are not there; of an older log nothing is known.

    Raises:
        ValueError: if the head can't be read.
    """
    head = kept_head(connection)
    if head is None:
        return 0
    number, found = _extent(connection)
    return max(0, max(number, head.number) - head.gone - found)


def _extent(connection: Connection) -> tuple[int, int]:
    """Return the highest number and how many entries there are."""
    number, found = connection.execute(select(func.max(CHANGES.c.number), func.count())).one()
    return number or 0, found


def ends_at(connection: Connection) -> int:
    """Return the highest number that was ever given, as far as the log knows."""
    return _end(connection)[1]


def _end(connection: Connection) -> tuple[Head | None, int]:
    """Return the head, where it can be read, and the highest number that was ever given."""
    value, number = _kept(connection)
    try:
        head = _read_head(connection, value, number)
    except ValueError:
        return None, number
    return head, max(number, head.number) if head else number


def move_head(connection: Connection, former: Head | None, made: Sequence[Change]) -> None:
    """Keep that the history ends with entries that were just written, of which `join` told the former head.

    Both stand in one transaction, so what was read for the numbers need not be read again.
    """
    if former is None or any(each.record == Member.__tablename__ and each.record_id == NOBODY for each in made):
        keep_head(connection)
    else:
        _write_head(connection, Head(made[-1].number, former.gone))


def keep_head(connection: Connection, *, lacking: int | None = None) -> None:
    """Keep where the history ends, after entries were written.

    Args:
        connection: That of the act.
        lacking: After entries were taken out: how many were missing before. Else the former head says what had gone.
    """
    head, number = _end(connection)
    # Without a former head, or after entries were taken out, as it is found.
    gone = head.gone if head and lacking is None else number - _extent(connection)[1] - (lacking or 0)
    _write_head(connection, Head(number, gone))


def _write_head(connection: Connection, head: Head) -> None:
    value = head.value  # digits and a letter, as its words say
    kept = connection.exec_driver_sql(f"UPDATE {FACTS.name} SET value = '{value}' WHERE key = '{HEAD}'")
    if not kept.rowcount:
        connection.execute(insert(FACTS).values(key=HEAD, value=value))


def is_there(connection: Connection, seen: Entry) -> bool:
    """Tell whether an entry is still in the log as it was seen."""
    found = connection.exec_driver_sql(f"SELECT seal FROM changes WHERE number = {int(seen.number)}").scalar()
    return (found or "") == seen.seal and found is not None


def explained(connection: Connection, seen: Entry) -> bool:
    """Tell whether the log itself says why an entry is not there: a copy was put in place since, or a member deleted."""
    erased = select(CHANGES.c.number).where(
        CHANGES.c.record == Member.__tablename__, CHANGES.c.record_id == NOBODY, CHANGES.c.number > seen.number
    )
    restored = select(CHANGES.c.number).where(
        CHANGES.c.record == FOUND, CHANGES.c.record_id == RESTORED, CHANGES.c.at >= seen.at
    )
    return any(connection.scalar(query.limit(1)) is not None for query in (erased, restored))


def join(connection: Connection, entries: Sequence[Change], undoes: str | None = None) -> Head | None:
    """Give new entries their numbers, their moment and their seals; whoever calls this is alone with the history.

    Returns:
        The head of the history as it was kept before, for `move_head`.
    """
    head, number = _end(connection)
    heads: dict[str | None, str] = {}
    moment = now()
    for at, entry in enumerate(entries, start=1):
        entry.number, entry.at, entry.undoes = number + at, moment, undoes
        # As it will be read again: a key is a text, a pair is a list.
        entry.before, entry.after = (
            each if each is None else json.loads(json.dumps(each)) for each in (entry.before, entry.after)
        )
        former = heads.get(entry.member_id)
        if former is None:
            former = _head(connection, entry.member_id)
        entry.seal = heads[entry.member_id] = seal_of(former, entry)
    return head


def _head(connection: Connection, member_id: str | None) -> str:
    if member_id is None:
        return connection.scalar(_LAST_OF_ALL) or ""
    return connection.scalar(_LAST_OF_MEMBER, {"whose": member_id}) or ""


class Walk:
    """Follows the chains entry by entry, in the order of their numbers, and says where one is not as it was written."""

    def __init__(self) -> None:
        self.heads: dict[str | None, str] = {}

    def holds(self, entry: Any) -> bool:
        """Tell whether an entry is sealed as it stands; the next one is held to the seal that is written there."""
        former = self.heads.get(entry.member_id, "")
        self.heads[entry.member_id] = entry.seal or ""
        return bool(entry.seal == seal_of(former, entry))


def broken(connection: Connection) -> frozenset[int]:
    """Return the numbers of the entries that are not as they were sealed."""
    walk = Walk()
    return frozenset(entry.number for entry in _entries(connection) if not walk.holds(entry))


def seal_anew(connection: Connection, chains: Iterable[str | None] | None = None) -> int:
    """Write the seals of whole chains as their entries stand, of all where none are named; return how many entries.

    An entry that carries the seal already that it should have is left alone.
    """
    named = None if chains is None else set(chains)
    heads: dict[str | None, str] = {}
    waiting: list[dict[str, Any]] = []
    number = 0
    for entry in _entries(connection):
        if named is not None and entry.member_id not in named:
            continue
        heads[entry.member_id] = seal = seal_of(heads.get(entry.member_id, ""), entry)
        number += 1
        if seal != entry.seal:
            waiting.append({"which": entry.number, "new": seal})
    words = update(CHANGES).where(CHANGES.c.number == bindparam("which")).values(seal=bindparam("new"))
    for at in range(0, len(waiting), AT_ONCE):
        connection.execute(words, waiting[at : at + AT_ONCE])
    return number


def _entries(connection: Connection) -> Iterable[Any]:
    return connection.execute(select(CHANGES).order_by(CHANGES.c.number).execution_options(yield_per=AT_ONCE))


def count(connection: Connection, *, sealed: bool) -> int:
    """Count the entries with a seal, or without one."""
    which = CHANGES.c.seal.is_not(None) if sealed else CHANGES.c.seal.is_(None)
    return connection.scalar(select(func.count()).select_from(CHANGES).where(which)) or 0
