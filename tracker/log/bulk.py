"""Many sets in one act: written past the ORM, with one entry in the history for each member, and taken back whole.

Noting 100,000 sets one by one would make the history larger than the log. An import's sets, sessions and body masses
carry its id instead; undoing deletes what carries it, and refuses where a later act changed one of its sets.
"""

from __future__ import annotations

import secrets
from collections import Counter
from collections.abc import Generator, Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from operator import itemgetter
from typing import Any, NamedTuple

from sqlalchemy import Connection, Table, delete, exists, func, insert, select
from sqlalchemy.orm import InstrumentedAttribute
from sqlalchemy.orm import Session as OrmSession

from tracker.log import held, row_access
from tracker.log.chain import FOUND
from tracker.log.columns import Base
from tracker.log.held import IMPORTS
from tracker.log.identity import identity_of
from tracker.log.models import MODELS, BodyMass, Change, Lift, LiftedSet, Member, PieceScore, Place, Session
from tracker.log.states import plain_value
from tracker.log.unit_of_work import Act, ChangedSinceError
from tracker.progress import tell
from tracker.units import plain

CACHE_KB = 131_072  # SQLite's page cache while many rows go in; its usual 2 MB would write each index page many times
AT_ONCE = 10_000  # rows between two tellings of how far it is
CREATED: dict[str, type[Any]] = {"members": Member, "lifts": Lift, "places": Place}


class SessionRow(NamedTuple):
    """A session as it goes into its table."""

    id: str
    member_id: str
    day: str
    label: str
    place_id: str | None


# A set as it goes into its table, in this order; decimals and the moment as text.
SET_COLUMNS = (
    "id", "session_id", "lift_id", "position", "kind", "load", "unit", "reps", "rir", "outcome", "body_mass", "implements",
    "per_side", "left_out", "note", "origin", "import_id", "logged_at",
)  # fmt: skip


def ids(number: int) -> Iterator[str]:
    """Yield fresh identifiers that rise, so that their index grows at its end and not everywhere."""
    head = secrets.token_hex(8)
    return (f"{head}{at:08x}" for at in range(number))


def times_known(session: OrmSession, member_ids: Iterable[str]) -> Counter[str]:
    """Count how often each identity is in the log: sets that have it now, and sets that had it when they came.

    A set that was mended counts for both, and one that was removed still counts: neither comes back unasked.
    """
    found: Counter[str] = Counter(session.scalars(select(LiftedSet.origin)))
    names = ("member_id", "lift_id", "day", "load", "unit", "body_mass", "reps", "rir", "outcome", "kind")
    columns: list[InstrumentedAttribute[Any]] = [
        Session.member_id, LiftedSet.lift_id, Session.day, *(getattr(LiftedSet, name) for name in names[3:]),
    ]  # fmt: skip
    query = select(*columns, LiftedSet.origin).join(Session, LiftedSet.session_id == Session.id)
    for member, lift, day, load, unit, body, reps, rir, outcome, kind, origin in session.execute(
        query.where(Session.member_id.in_(list(member_ids)))
    ):
        texts = (plain(load), unit, "" if body is None else plain(body), str(reps), "" if rir is None else plain(rir))
        current = identity_of((member, lift, day.isoformat(), *texts, outcome, kind))
        if current != origin:
            found[current] += 1
    return found


@dataclass
class Brought:
    """The sessions and sets of one import, as they went into their tables."""

    sessions: Sequence[SessionRow] = ()
    sets: Sequence[tuple[Any, ...]] = ()
    created_at: str = ""
    spans: Sequence[tuple[str, int]] = ()  # whose the sets are, in their order: member and how many in a row

    def sums(self, import_id: str) -> dict[str, dict[str, str]]:
        """Return a digest of what each member got, by table; ids rise as the rows do."""
        found: dict[str, dict[str, str]] = {}
        mine: dict[str, list[Any]] = {}
        for row in self.sessions:
            mine.setdefault(row.member_id, []).append((*row, import_id, _as_told(self.created_at)))
        for member, rows in mine.items():
            found.setdefault(member, {})["sessions"] = _sum(
                "sessions", (*SessionRow._fields, "import_id", "created_at"), rows
            )
        theirs: dict[str, list[Any]] = {}
        at = 0
        for member, number in self.spans:
            theirs.setdefault(member, []).extend(self.sets[at : at + number])
            at += number
        for member, rows in theirs.items():
            found.setdefault(member, {})["sets"] = _sum("sets", SET_COLUMNS, rows)
        return found


def _sum(table: str, names: Sequence[str], rows: list[Any]) -> str:
    columns = {name: list(map(itemgetter(at), rows)) for at, name in enumerate(names)}
    if "logged_at" in columns:
        columns["logged_at"] = [_as_told(rows[0][names.index("logged_at")])] * len(rows)  # one moment for all
        columns["per_side"] = [each if each is None else bool(each) for each in columns["per_side"]]
    return held.sum_of(table, columns, len(rows))


def _as_told(moment_kept: str) -> str:
    """Return a moment as the history has it."""
    return plain_value(datetime.fromisoformat(moment_kept).replace(tzinfo=UTC))


def insert_sessions(act: Act, import_id: str, rows: Sequence[SessionRow]) -> str:
    """Write sessions that an import needs; return the moment at which they were made."""
    row_access.hold(act.session, Session.__tablename__, {row.member_id for row in rows})
    columns, made_at = (*SessionRow._fields, "note", "import_id", "created_at"), moment()
    _insert(act, Session.__table__, columns, [(*row, "", import_id, made_at) for row in rows])
    return made_at


def insert_sets(act: Act, rows: list[tuple[Any, ...]]) -> None:
    """Write the sets of an import, each a tuple in the order of SET_COLUMNS."""
    _insert(act, LiftedSet.__table__, SET_COLUMNS, rows)


def _insert(act: Act, table: Any, columns: Sequence[str], rows: list[tuple[Any, ...]]) -> None:
    if not rows:
        return
    connection = act.session.connection()
    mark = "?" if connection.dialect.paramstyle == "qmark" else "%s"
    words = f"INSERT INTO {table.name} ({', '.join(columns)}) VALUES ({', '.join([mark] * len(columns))})"
    with _many_rows(connection):
        for at in range(0, len(rows), AT_ONCE):
            tell("writing", at, len(rows))
            connection.exec_driver_sql(words, rows[at : at + AT_ONCE])


@contextmanager
def _many_rows(connection: Connection) -> Generator[None]:
    """Set SQLite up for many rows: a page cache that holds the indexes, and no CHECKs.

    The checks cost a third of the time (measured); every row was held against stricter rules before it came here, and
    `tidemark check` holds the log against them again.
    """
    if connection.dialect.name != "sqlite":
        yield
        return
    connection.exec_driver_sql(f"PRAGMA cache_size=-{CACHE_KB}")
    connection.exec_driver_sql("PRAGMA ignore_check_constraints=ON")
    try:
        yield
    finally:
        connection.exec_driver_sql("PRAGMA ignore_check_constraints=OFF")
        connection.exec_driver_sql("PRAGMA cache_size=-2000")  # SQLite's own


def moment() -> str:
    """Return this moment as the log keeps it."""
    return datetime.now(UTC).strftime("%Y-%m-%d %H:%M:%S.%f")  # as UtcTime keeps it


def create(act: Act, kind: str, **values: Any) -> None:
    """Make a member, lift or place that an import needs; its entry in the history is the import's."""
    if kind == Member.__tablename__:
        row_access.hold(act.session, kind, [values["id"]])
    else:
        values.setdefault("private_to", row_access.private_to())
        row_access.hold(act.session, kind, [values["private_to"]])
    act.session.execute(insert(CREATED[kind]).values(**values), execution_options={row_access.WALLED: True})


def put_body_masses(act: Act, rows: Sequence[dict[str, Any]]) -> list[str]:
    """Write dated body masses and return their ids."""
    made = [{"id": new, **row} for new, row in zip(ids(len(rows)), rows, strict=True)]
    row_access.hold(act.session, BodyMass.__tablename__, {row["member_id"] for row in rows})
    if made:
        act.session.execute(insert(BodyMass), made, execution_options={row_access.WALLED: True})
    return [row["id"] for row in made]


def note_import(
    act: Act, import_id: str, brought: Brought, created: dict[str, list[str]], numbers: dict[str, int]
) -> None:
    """Write the history of an import: what it created, and for each member how many sets it brought.

    Args:
        act: The act of the import.
        import_id: What its sets and sessions carry.
        brought: Its sets and sessions as they went into their tables.
        created: Ids of members, lifts, places and body_masses that were made for it.
        numbers: Number of sets by member id.
    """
    row_access.hold(act.session, LiftedSet.__tablename__, numbers)
    connection = act.session.connection()
    act.member_id = None
    made = {kind: held.digests(connection, kind, records) for kind, records in created.items()}
    act.note(IMPORTS, import_id, before=None, after={"created": made})
    sums = brought.sums(import_id)
    for member_id, number in numbers.items():
        act.member_id = member_id
        act.note(IMPORTS, import_id, before=None, after={"sets": number, "sums": sums.get(member_id, {})})


def take_import_back(act: Act, change: Change) -> None:
    """Delete what an import brought to one member, or what was created for it and nothing else needs by now.

    Raises:
        ChangedSinceError: a later act changed one of its sets.
    """
    session, number, import_id = act.session, change.number, change.record_id
    stays: list[tuple[str, str]] = []
    if change.after and "created" in change.after:
        stays = _uncreate(session, number, change.after["created"])
    else:
        mine = select(Session.id).where(Session.member_id == change.member_id)
        its_sets = (LiftedSet.import_id == import_id, LiftedSet.session_id.in_(mine))
        if _touched(session, "sets", number, select(LiftedSet.id).where(LiftedSet.import_id == import_id)):
            raise ChangedSinceError("set")
        _note_gone(act, its_sets)
        session.execute(delete(LiftedSet).where(*its_sets).execution_options(synchronize_session=False, walled=True))
        _remove_sessions(session, number, import_id, change.member_id)
    act.note(IMPORTS, import_id, before=change.after, after=None)
    for kind, record_id in stays:  # from now on the history tells of it as of any other record
        (state,) = held.states(session.connection(), Base.metadata.tables[kind], [record_id])
        act.note(FOUND, record_id, before=None, after={"record": kind, "state": state})


def _note_gone(act: Act, which: tuple[Any, ...]) -> None:
    """Note of the sets that go those that the history tells of one by one: they were changed, and changed back."""
    told = select(Change.record_id).where(Change.record == LiftedSet.__tablename__)
    found = act.session.scalars(
        select(LiftedSet.id).where(*which, LiftedSet.id.in_(told)), execution_options={row_access.WALLED: True}
    ).all()
    for state in held.states(act.session.connection(), Base.metadata.tables[LiftedSet.__tablename__], found):
        act.note(LiftedSet.__tablename__, state["id"], before=state, after=None)


def _touched(session: OrmSession, record: str, number: int, which: Any) -> bool:
    """Tell whether a later act that still stands changed one of the records."""
    later = select(func.count()).where(
        Change.record == record, Change.number > number, Change.undone_by.is_(None),
        ~Change.act.startswith("undid"), Change.record_id.in_(which),
    )  # fmt: skip
    return bool(session.scalar(later))


def _remove_sessions(session: OrmSession, number: int, import_id: str, member_id: str | None) -> None:
    """Delete the sessions that came with an import, but for those that hold something else by now."""
    its = (Session.import_id == import_id, Session.member_id == member_id)
    later = select(Change.record_id).where(Change.record == "sessions", Change.number > number)
    empty = (
        ~exists().where(LiftedSet.session_id == Session.id),
        ~exists().where(PieceScore.session_id == Session.id),
        Session.id.not_in(later),
    )
    off = {"synchronize_session": False, row_access.WALLED: True}
    session.execute(delete(Session).where(*its, *empty).execution_options(**off))
    for left in session.scalars(select(Session).where(*its)).all():
        left.import_id = None
    session.flush()


def _uncreate(session: OrmSession, number: int, created: dict[str, Iterable[str]]) -> list[tuple[str, str]]:
    """Delete what was created for an import; return kind and id of what stays, because something needs it by now."""
    masses = list(created.get("body_masses", []))
    untouched = [each for each in masses if not _touched(session, "body_masses", number, [each])]
    for at in range(0, len(untouched), 500):  # SQLite takes a limited number of values at once
        part = untouched[at : at + 500]
        row_access.hold(
            session,
            BodyMass.__tablename__,
            {row_access.owner_of(session.connection(), "body_masses", each) for each in part},
        )
        session.execute(
            delete(BodyMass).where(BodyMass.id.in_(part)).execution_options(synchronize_session=False, walled=True)
        )
    stays = [(BodyMass.__tablename__, each) for each in set(masses) - set(untouched)]
    for kind, model in CREATED.items():
        for record_id in created.get(kind, []):
            if _needed(session, Base.metadata.tables[kind], record_id) or _touched(session, kind, number, [record_id]):
                stays.append((kind, record_id))
            else:
                row_access.hold(session, kind, [row_access.owner_of(session.connection(), kind, record_id)])
                session.execute(
                    delete(model).where(model.id == record_id).execution_options(synchronize_session=False, walled=True)
                )
    known = {(kind, record_id) for kind, record_id in stays if session.get(MODELS[kind], record_id) is not None}
    return [each for each in stays if each in known]


def _needed(session: OrmSession, table: Table, record_id: str) -> bool:
    """Tell whether any record of another table points to this one."""
    for other in Base.metadata.sorted_tables:
        for key in other.foreign_keys:
            if key.column.table is table and session.scalar(
                select(func.count()).select_from(other).where(key.parent == record_id),
                execution_options={row_access.WALLED: True},
            ):
                return True
    return False
