"""A log table by table for files: what the columns hold, in plain words, the rows, and the names that ids stand for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any, Literal, NamedTuple

from sqlalchemy import Boolean, Column, Integer, Table, select
from sqlalchemy.orm import Session as OrmSession

from tracker.log.columns import Base, Day, Plain, TypedDecimal, UtcTime
from tracker.log.members import lift_record
from tracker.log.models import MODELS, Lift, LiftedSet, Member, Piece, Place, Session, Wave
from tracker.log.open_format import tables

Holds = Literal["text", "decimal", "moment", "day", "record", "yes or no", "whole number"]
TYPES: tuple[tuple[type[Any], Holds], ...] = (
    (TypedDecimal, "decimal"), (UtcTime, "moment"), (Day, "day"), (Plain, "record"), (Boolean, "yes or no"), (Integer, "whole number"),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class ColumnShape:
    """A column: what it holds, whether it may be empty, and whether it says which record is meant."""

    name: str
    holds: Holds
    optional: bool
    identifies: bool  # the record itself, or one that it points to


@dataclass(frozen=True, slots=True)
class TableShape:
    """A table, what it is in words, and the columns that a record is known by."""

    name: str
    words: str
    columns: tuple[ColumnShape, ...]
    key: tuple[str, ...]


class DumpedSet(NamedTuple):
    """A set as a file has it: with names in place of ids, and its place in the session counted from 1."""

    member: str
    date: date
    lift: str
    load: Decimal
    unit: str
    body_mass: Decimal | None
    reps: int
    rir: Decimal | None
    outcome: str
    kind: str
    order: int
    session: str
    place: str | None
    implement: str
    implements: int | None
    per_side: bool | None
    left_out: str | None
    note: str


def shapes() -> tuple[TableShape, ...]:
    """Describe the tables that go into an export, all but the sets."""
    return tuple(_shape(table) for table in tables() if table.name != LiftedSet.__tablename__)


def _shape(table: Table) -> TableShape:
    columns = tuple(
        ColumnShape(each.name, _holds(each), bool(each.nullable), bool(each.primary_key or each.foreign_keys))
        for each in table.columns
    )
    words = " ".join((MODELS[table.name].__doc__ or "").split())
    return TableShape(table.name, words, columns, tuple(each.name for each in table.primary_key.columns))


def _holds(column: Column[Any]) -> Holds:
    for kind, word in TYPES:
        if isinstance(column.type, kind):
            return word
    return "text"


def rows(session: OrmSession, name: str) -> Iterator[Sequence[Any]]:
    """Yield the rows of a table by their key, each in the order of its columns."""
    table: Table = Base.metadata.tables[name]
    columns = [getattr(MODELS[name], column.key) for column in table.columns]  # of the model: the wall knows it
    return iter(session.execute(select(*columns).order_by(*table.primary_key.columns)))


def names(session: OrmSession) -> dict[str, dict[Any, Any]]:
    """Return names by id, for every kind of record that has one, under the column that points to it."""
    kinds = {"member_id": Member.name, "place_id": Place.name, "wave_id": Wave.name, "piece_id": Piece.title}
    found: dict[str, dict[Any, Any]] = {
        key: dict(iter(session.execute(select(column.class_.id, column)))) for key, column in kinds.items()
    }
    return found | {"lift_id": {lift.id: lift_record(lift).title for lift in session.scalars(select(Lift))}}


def sets(session: OrmSession, *, removed: bool) -> Iterator[DumpedSet]:
    """Yield the sets as they stand, or those that were removed, session by session."""
    query = (
        select(LiftedSet, Session, Lift, Member.name, Place.name)
        .join(Session, LiftedSet.session_id == Session.id)
        .join(Member, Session.member_id == Member.id)
        .join(Lift, LiftedSet.lift_id == Lift.id)
        .outerjoin(Place, Session.place_id == Place.id)
        .where(LiftedSet.removed_at.is_not(None) if removed else LiftedSet.removed_at.is_(None))
        .where(Member.removed_at.is_(None))
        .order_by(
            Member.name, Session.day, Session.label, Place.name, Session.created_at, LiftedSet.position, LiftedSet.id
        )
        .execution_options(yield_per=1000)
    )
    group, order = None, 0
    for row, sitting, lift, member, place in session.execute(query):
        here = (member, sitting.day, sitting.label, place)
        group, order = here, order + 1 if here == group else 1
        yield _set(row, sitting, lift, member, place, order)


def _set(row: LiftedSet, sitting: Session, lift: Lift, member: str, place: str | None, order: int) -> DumpedSet:
    per_side = row.per_side if row.per_side is not None else (True if lift.per_side else None)
    implement = "" if lift.implement == "unasked" else lift.implement
    return DumpedSet(
        member, sitting.day, lift.name, row.load, row.unit, row.body_mass, row.reps, row.rir, row.outcome, row.kind, order,
        sitting.label, place, implement, row.implements, per_side, row.left_out, row.note,
    )  # fmt: skip
