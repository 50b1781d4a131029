"""Conditioning pieces, their clocks and scores."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from tracker.log.columns import Base, Plain, new_id, now


class Piece(Base):
    """A conditioning piece as it was given out. What was scored stays as it was: a changed piece is a row of its own."""

    __tablename__ = "pieces"
    __table_args__ = (Index(None, "title"),)
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    title: Mapped[str]  # scores of equal titles stand side by side, like or unlike
    kind: Mapped[str] = mapped_column(String(20))
    cap_s: Mapped[int | None]
    definition: Mapped[dict[str, Any]]  # all of it, as plain keys and values
    private_to: Mapped[str | None] = mapped_column(String(32))  # the member whose alone it is; none: everybody's
    created_at: Mapped[datetime] = mapped_column(default=now)
    removed_at: Mapped[datetime | None]


class PieceOption(Base):
    """An alternative to one movement of a piece, added after it was given out: by the coach, or a member's own."""

    __tablename__ = "piece_options"
    __table_args__ = (CheckConstraint("task >= 0", name="task"), Index(None, "piece_id"))
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    piece_id: Mapped[str] = mapped_column(ForeignKey("pieces.id", ondelete="CASCADE"))
    task: Mapped[int]  # which movement of the piece, from 0
    position: Mapped[int] = mapped_column(default=0)  # easiest first
    member_id: Mapped[str | None] = mapped_column(ForeignKey("members.id", ondelete="CASCADE"))  # none: the coach's
    definition: Mapped[dict[str, Any]]
    removed_at: Mapped[datetime | None]


class PieceClock(Base):
    """The clock of a piece: the moments of its start, its round taps and its stop. What it shows follows from these."""

    __tablename__ = "piece_clocks"
    __table_args__ = (Index(None, "member_id", "started_at"),)
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    member_id: Mapped[str] = mapped_column(ForeignKey("members.id", ondelete="CASCADE"))
    piece_id: Mapped[str] = mapped_column(ForeignKey("pieces.id", ondelete="CASCADE"))
    day: Mapped[date]
    started_at: Mapped[datetime]  # of the count-in
    stopped_at: Mapped[datetime | None]
    plan: Mapped[dict[str, Any]]  # count-in, cap or intervals, in seconds
    taps: Mapped[list[float]] = mapped_column(Plain)  # seconds since 1970, rising
    removed_at: Mapped[datetime | None]


class PieceScore(Base):
    """What a member got in a piece; as prescribed, or with what was done instead, which stands in the result."""

    __tablename__ = "scores"
    __table_args__ = (
        CheckConstraint("ended IN ('finished', 'capped', 'stopped')", name="ended"),
        CheckConstraint("low IS NULL OR (low >= 0 AND low <= high)", name="range"),
        UniqueConstraint("token"),
        Index(None, "member_id", "day"),
        Index(None, "piece_id"),
        Index(None, "origin"),
    )
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    member_id: Mapped[str] = mapped_column(ForeignKey("members.id", ondelete="CASCADE"))
    piece_id: Mapped[str] = mapped_column(ForeignKey("pieces.id", ondelete="RESTRICT"))
    session_id: Mapped[str | None] = mapped_column(ForeignKey("sessions.id", ondelete="SET NULL"))
    clock_id: Mapped[str | None] = mapped_column(ForeignKey("piece_clocks.id", ondelete="SET NULL"))
    member_step_id: Mapped[str | None] = mapped_column(ForeignKey("member_steps.id", ondelete="SET NULL"))
    day: Mapped[date]
    result: Mapped[dict[str, Any]]  # all of it, as plain keys and values; the columns below repeat what is asked for
    low: Mapped[int | None]  # repetitions, metres or calories in all; below `high` where the count was lost
    high: Mapped[int | None]
    time_s: Mapped[int | None]
    ended: Mapped[str] = mapped_column(String(8), default="finished")
    tie_break_s: Mapped[int | None]
    as_prescribed: Mapped[bool] = mapped_column(default=True)
    note: Mapped[str] = mapped_column(Text, default="")
    origin: Mapped[str] = mapped_column(String(64), default="")  # what an import recognises it by
    token: Mapped[str | None] = mapped_column(String(64))  # made when the form is drawn: a second tap is the same act
    import_id: Mapped[str | None] = mapped_column(String(32))
    logged_at: Mapped[datetime] = mapped_column(default=now)
    removed_at: Mapped[datetime | None]
