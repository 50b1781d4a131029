"""How a value stands in a column of the log, and what all its tables have in common."""

from __future__ import annotations

import uuid
from datetime import UTC, date, datetime
from decimal import Decimal
from typing import Any, ClassVar

from sqlalchemy import (
    JSON,
    Date,
    DateTime,
    MetaData,
    String,
)
from sqlalchemy.engine import Dialect
from sqlalchemy.orm import DeclarativeBase
from sqlalchemy.types import TypeDecorator

from tracker.limits import MOST_NAME
from tracker.log.records import GoalEnd, Implement, KitKind, MaxSource, StepState, WayRule
from tracker.log.who import Role
from tracker.strength.records import Kind, Outcome
from tracker.units import Unit

NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}


class DamagedValueError(ValueError):
    """A value that nobody can have written: bytes of the file are no longer what they were."""


class Checked(TypeDecorator[Any]):
    """A column whose values are told as damaged where they can't be read."""

    __abstract__ = True
    kind: ClassVar[str] = "value"

    def result_processor(self, dialect: Dialect, coltype: object) -> Any:
        read = super().result_processor(dialect, coltype)

        def checked(value: Any) -> Any:
            try:
                return value if read is None else read(value)
            except (ValueError, ArithmeticError, TypeError) as err:  # the value itself may be private: it is not shown
                raise DamagedValueError(f"a {self.kind} in it can't be read") from err

        return checked


class TypedDecimal(Checked):
    """A decimal kept as the text that was typed, so that 92.5 never becomes 92.49999."""

    impl = String(32)
    cache_ok = True
    kind = "number"

    def process_bind_param(self, value: Decimal | None, dialect: Dialect) -> str | None:
        if value is None:
            return None
        if not value.is_finite():
            raise ValueError(f"{value} is not a finite number")
        return format(value, "f")

    def process_result_value(self, value: str | None, dialect: Dialect) -> Decimal | None:
        if value is None:
            return None
        number = Decimal(value)
        if not number.is_finite():
            raise ValueError("not a finite number")
        return number


class Day(Checked):
    """A day of the calendar."""

    impl = Date
    cache_ok = True
    kind = "date"


class UtcTime(Checked):
    """A moment, kept in UTC without an offset and handed out with one."""

    impl = DateTime
    cache_ok = True
    kind = "moment"

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        return None if value is None else value.astimezone(UTC).replace(tzinfo=None)

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        return None if value is None else value.replace(tzinfo=UTC)


class Plain(Checked):
    """Plain keys, lists and values, as JSON; None is no value at all."""

    impl = JSON(none_as_null=True)
    cache_ok = True
    kind = "record"


def new_id() -> str:
    """Return a fresh identifier, made by the program and not by the database, so that an act can be sent twice."""
    return uuid.uuid4().hex


def now() -> datetime:
    return datetime.now(UTC)


def cut(words: str) -> str:
    """Cut a short text that a column could not hold, at a word where there is one, so that it is seen to go on."""
    if len(words) <= MOST_NAME:
        return words
    kept = words[: MOST_NAME - 1]
    return f"{kept.rpartition(' ')[0].rstrip(' ,;:') or kept}…"


class Base(DeclarativeBase):
    metadata = MetaData(naming_convention=NAMES)
    type_annotation_map: ClassVar[dict[Any, Any]] = {
        str: String(MOST_NAME),  # names and other short texts
        Decimal: TypedDecimal,
        datetime: UtcTime,
        date: Day,
        dict[str, Any]: Plain,
        # Words of which each column lists its own in a constraint; how long they can be is part of the tables.
        Unit: String(2),
        Kind: String(4),
        Outcome: String(6),
        Role: String(6),
        MaxSource: String(8),
        GoalEnd: String(8),
        StepState: String(8),
        WayRule: String(8),
        Implement: String(12),
        KitKind: String(12),
    }
