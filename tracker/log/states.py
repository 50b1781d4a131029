"""A record as the history keeps it: its columns as plain values, and back again; and whose it is."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, date, datetime
from decimal import Decimal
from typing import Any

from sqlalchemy import Column, inspect
from sqlalchemy.orm import Session as OrmSession
from sqlalchemy.orm import class_mapper
from sqlalchemy.types import Date, DateTime

from tracker.log.columns import Base, Day, TypedDecimal, UtcTime
from tracker.log.models import LiftedSet, Member, MemberStep, MemberWave, Session

# What belongs to one member, by a foreign key of its own or of what it hangs on.
OWN = (
    "members", "sessions", "sets", "body_masses", "rep_maxes", "member_waves", "member_steps", "piece_clocks", "scores",
    "rest_days", "piece_options", "goals",
)  # fmt: skip


def whose(session: OrmSession, item: Any) -> str | None:
    """Return the member whom a record of one of the tables in OWN belongs to."""
    if isinstance(item, Member):
        return item.id
    if isinstance(item, LiftedSet | MemberStep):
        above = (Session, item.session_id) if isinstance(item, LiftedSet) else (MemberWave, item.member_wave_id)
        with session.no_autoflush:
            return session.get_one(*above).member_id
    return item.member_id


def state(item: Base) -> dict[str, Any]:
    """Return a record's columns as JSON values."""
    return {column.key: plain_value(getattr(item, column.key)) for column in _columns(type(item))}


def former_state(item: Base) -> dict[str, Any]:
    """Return a record's columns as they were when it was loaded."""
    inspected = inspect(item)
    values: dict[str, Any] = {}
    for column in _columns(type(item)):
        history = inspected.attrs[column.key].history
        values[column.key] = plain_value(history.deleted[0] if history.deleted else getattr(item, column.key))
    return values


def _columns(model: type[Any]) -> Iterable[Column[Any]]:
    return class_mapper(model).columns


def plain_value(value: Any) -> Any:
    """Return a value of a column as JSON has it."""
    if isinstance(value, Decimal):
        return format(value, "f")
    if isinstance(value, datetime):
        return value.astimezone(UTC).isoformat()
    return value.isoformat() if isinstance(value, date) else value


def from_plain(model: type[Any], values: dict[str, Any]) -> dict[str, Any]:
    result: dict[str, Any] = {}
    for column in _columns(model):
        if column.key not in values:  # added by a later version: left as it is, or to its default
            continue
        value = values[column.key]
        if value is not None and isinstance(column.type, TypedDecimal):
            value = Decimal(value)
        elif value is not None and isinstance(column.type, UtcTime | DateTime):
            value = datetime.fromisoformat(value)
        elif value is not None and isinstance(column.type, Day | Date):
            value = date.fromisoformat(value)
        result[column.key] = value
    return result
