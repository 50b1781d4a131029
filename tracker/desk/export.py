"""The whole log as files: sets in the columns that an import reads, a CSV of every other kind of record, and all as JSON.

Each has its description beside it: csv-metadata.json (W3C, Metadata Vocabulary for Tabular Data) and log.schema.json.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy import Table, select
from sqlalchemy.orm import Session as OrmSession

from tracker.desk import csv_metadata
from tracker.desk.files_json import write_json
from tracker.desk.roles import may
from tracker.exchange.csv_out import Outbox, outbox
from tracker.log.keeper import Log
from tracker.log.members import lift_record
from tracker.log.models import MODELS, Lift, LiftedSet, Member, Piece, Place, Session, Wave
from tracker.log.open_format import SCHEMA, tables

SET_COLUMNS = (
    "member", "date", "lift", "load", "unit", "body_mass", "reps", "rir", "outcome", "kind", "order", "session", "place",
    "implement", "implements", "per_side", "left_out", "note",
)  # fmt: skip
SETS = LiftedSet.__tablename__


@dataclass(frozen=True, slots=True)
class Exported:
    """The folder, and how many records each of its files has."""

    folder: Path
    files: dict[str, int]


@may("run")
def export(log: Log, folder: Path) -> Exported:
    """Write the whole log into a folder, as one moment saw it.

    `sets.csv` holds the sets as they stand, `removed_sets.csv` those that were removed; every other table has a file of
    its own name with all of its columns, and the names of what its ids stand for. `log.json` holds every record with
    nothing left out but who signs in, and comes back without loss.

    Raises:
        TidemarkError: if the folder can't be written; files that were there stay as they were.
    """
    with log.reading() as session, outbox(folder) as box:
        _tables(session, box)
        box.write_text("csv-metadata.json", lambda file: csv_metadata.write(file, SET_COLUMNS, _heading))
        box.write_text("log.json", lambda file: write_json(session, file, log.schema))
        box.write_text("log.schema.json", lambda file: file.write(SCHEMA.read_text(encoding="utf-8")))
    return Exported(folder, dict(box.rows))


@may("common")
def export_seen(log: Log, folder: Path) -> Exported:
    """Write the CSV files of all that the one who asks sees."""
    with log.reading() as session, outbox(folder) as box:
        _tables(session, box)
    return Exported(folder, dict(box.rows))


def _tables(session: OrmSession, box: Outbox) -> None:
    box.write("sets.csv", SET_COLUMNS, _sets(session, removed=False))
    box.write("removed_sets.csv", SET_COLUMNS, _sets(session, removed=True))
    names = _names(session)
    for table in tables():
        if table.name != SETS:
            heading = [word for column in table.columns for word in _heading(column.name)]
            box.write(f"{table.name}.csv", heading, _records(session, table, names))


def _sets(session: OrmSession, *, removed: bool) -> Iterator[tuple[Any, ...]]:
    """Yield the sets session by session, each with its place in the session counted from 1."""
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


def _set(row: LiftedSet, sitting: Session, lift: Lift, member: str, place: str | None, order: int) -> tuple[Any, ...]:
    per_side = row.per_side if row.per_side is not None else (True if lift.per_side else None)
    implement = "" if lift.implement == "unasked" else lift.implement
    return (
        member, sitting.day, lift.name, row.load, row.unit, row.body_mass, row.reps, row.rir, row.outcome, row.kind, order,
        sitting.label, place, implement, row.implements, per_side, row.left_out, row.note,
    )  # fmt: skip


def _names(session: OrmSession) -> dict[str, dict[Any, Any]]:
    """Names by id, for every kind of record that has one."""
    kinds = {"member_id": Member.name, "place_id": Place.name, "wave_id": Wave.name, "piece_id": Piece.title}
    found: dict[str, dict[Any, Any]] = {
        key: dict(iter(session.execute(select(column.class_.id, column)))) for key, column in kinds.items()
    }
    return found | {"lift_id": {lift.id: lift_record(lift).title for lift in session.scalars(select(Lift))}}


def _heading(column: str) -> tuple[str, ...]:
    named = ("member_id", "place_id", "wave_id", "piece_id", "lift_id")
    return (column, column.removesuffix("_id")) if column in named else (column,)


def _records(session: OrmSession, table: Table, names: dict[str, dict[Any, Any]]) -> Iterator[list[Any]]:
    import json

    columns = [getattr(MODELS[table.name], column.key) for column in table.columns]  # of the model: the wall knows it
    for row in session.execute(select(*columns).order_by(*table.primary_key.columns)):
        cells: list[Any] = []
        for column, value in row._mapping.items():
            cells.append(json.dumps(value, ensure_ascii=False) if isinstance(value, dict | list) else value)
            if column in names:
                cells.append(names[column].get(value))
        yield cells
