"""Facts about the log itself, and its history."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import Index, String
from sqlalchemy.orm import Mapped, mapped_column

from tracker.log.columns import Base, Plain, now


class Meta(Base):
    """Facts about the log itself: its identity and its revision."""

    __tablename__ = "log_facts"
    key: Mapped[str] = mapped_column(primary_key=True)
    value: Mapped[str]


class Change(Base):
    """The former and the new state of one record in one act; undo reads it backwards."""

    __tablename__ = "changes"
    __table_args__ = (Index(None, "act_id"), Index(None, "member_id", "number"))
    number: Mapped[int] = mapped_column(primary_key=True)
    act_id: Mapped[str] = mapped_column(String(32))
    act: Mapped[str]
    member_id: Mapped[str | None] = mapped_column(String(32))
    at: Mapped[datetime] = mapped_column(default=now)
    record: Mapped[str] = mapped_column(String(40))
    record_id: Mapped[str] = mapped_column(String(64))
    before: Mapped[dict[str, Any] | None] = mapped_column(Plain)
    after: Mapped[dict[str, Any] | None] = mapped_column(Plain)
    undone_by: Mapped[str | None] = mapped_column(String(32))  # the act that took this one back
    undoes: Mapped[str | None] = mapped_column(String(32))  # the act that this one takes back
    seal: Mapped[str | None] = mapped_column(String(64))  # over all of this but `undone_by`, and the seal before it
