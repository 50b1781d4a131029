"""What was lifted: lifts, sessions, sets, rep-maxes known without a set."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from tracker.limits import (
    MOST_KEPT_REPS,
    MOST_MINUTES,
    MOST_RATING,
    MOST_RM,
)
from tracker.log.columns import Base, new_id, now
from tracker.log.models.shared import UNIT, of_all
from tracker.log.records import Implement, MaxSource
from tracker.strength.records import Kind, Outcome
from tracker.units import Unit


class Lift(Base):
    """A movement done for load, always with its implement; two implements are two histories."""

    __tablename__ = "lifts"
    __table_args__ = (
        CheckConstraint(
            "implement IN ('unasked', 'barbell', 'dumbbells', 'dumbbell', 'kettlebells', 'kettlebell', 'machine', 'body', 'other')",
            name="implement",
        ),
        CheckConstraint("implements >= 1", name="implements"),
        UniqueConstraint("private_to", "name", "implement"),
        of_all("lifts", "name", "implement"),
    )
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    name: Mapped[str]
    implement: Mapped[Implement] = mapped_column(default="unasked")
    implements: Mapped[int] = mapped_column(default=1)  # how many are held; the load is that of each
    per_side: Mapped[bool] = mapped_column(default=False)
    body: Mapped[bool] = mapped_column(default=False)  # the body is lifted; the load is added, or below zero assists
    spotted: Mapped[bool] = mapped_column(default=False)  # wants a spotter or pins: squats and presses under a bar
    private_to: Mapped[str | None] = mapped_column(String(32))  # the member whose alone it is; none: everybody's
    created_at: Mapped[datetime] = mapped_column(default=now)


class Session(Base):
    """One training session of one member."""

    __tablename__ = "sessions"
    __table_args__ = (
        CheckConstraint(f"minutes IS NULL OR (minutes > 0 AND minutes <= {MOST_MINUTES})", name="minutes"),
        CheckConstraint(f"rating IS NULL OR (rating >= 0 AND rating <= {MOST_RATING})", name="rating"),
        Index(None, "member_id", "day"),
    )
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    member_id: Mapped[str] = mapped_column(ForeignKey("members.id", ondelete="CASCADE"))
    day: Mapped[date]
    label: Mapped[str] = mapped_column(default="")
    place_id: Mapped[str | None] = mapped_column(ForeignKey("places.id", ondelete="SET NULL"))
    minutes: Mapped[int | None]
    rating: Mapped[int | None]  # CR-10, of the whole session
    rated_at: Mapped[datetime | None]
    note: Mapped[str] = mapped_column(Text, default="")
    import_id: Mapped[str | None] = mapped_column(String(32))
    created_at: Mapped[datetime] = mapped_column(default=now)


class LiftedSet(Base):
    """One set as it was done: load as typed, repetitions, outcome, effort."""

    __tablename__ = "sets"
    __table_args__ = (
        CheckConstraint(UNIT, name="unit"),
        CheckConstraint("outcome IN ('done', 'missed', 'cut')", name="outcome"),
        CheckConstraint("kind IN ('work', 'test', 'ramp')", name="kind"),
        CheckConstraint(f"reps >= 0 AND reps <= {MOST_KEPT_REPS}", name="reps"),
        CheckConstraint("outcome <> 'done' OR reps >= 1", name="done_has_reps"),
        UniqueConstraint("token"),
        Index(None, "session_id"),
        Index(None, "lift_id"),
    )
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    session_id: Mapped[str] = mapped_column(ForeignKey("sessions.id", ondelete="CASCADE"))
    lift_id: Mapped[str] = mapped_column(ForeignKey("lifts.id", ondelete="RESTRICT"))
    position: Mapped[int] = mapped_column(default=0)
    kind: Mapped[Kind] = mapped_column(default="work")
    load: Mapped[Decimal]
    unit: Mapped[Unit]
    reps: Mapped[int]
    rir: Mapped[Decimal | None]  # blank is not zero
    outcome: Mapped[Outcome] = mapped_column(default="done")
    body_mass: Mapped[Decimal | None]  # in `unit`, where the body is lifted
    implements: Mapped[int | None]  # where it differs from the lift's
    per_side: Mapped[bool | None]
    left_out: Mapped[str | None]  # why the estimate must not read it
    note: Mapped[str] = mapped_column(Text, default="")
    planned_set_id: Mapped[str | None] = mapped_column(ForeignKey("planned_sets.id", ondelete="SET NULL"))
    planned_round: Mapped[int | None]  # which of the planned sets it was, 1-based
    member_step_id: Mapped[str | None] = mapped_column(ForeignKey("member_steps.id", ondelete="SET NULL"))
    origin: Mapped[str] = mapped_column(String(64))  # what the row was when it first came: import recognises it by this
    token: Mapped[str | None] = mapped_column(String(64))  # made when the form is drawn: a second tap is the same act
    import_id: Mapped[str | None] = mapped_column(String(32))  # the import that brought it
    logged_at: Mapped[datetime] = mapped_column(default=now)
    removed_at: Mapped[datetime | None]


class RepMax(Base):
    """A rep-max known without its set: tested elsewhere, or declared. Tests done here are sets of kind test."""

    __tablename__ = "rep_maxes"
    __table_args__ = (
        CheckConstraint(UNIT, name="unit"),
        CheckConstraint(f"reps >= 1 AND reps <= {MOST_RM}", name="reps"),
        CheckConstraint("source IN ('tested', 'declared')", name="source"),
        Index(None, "member_id", "lift_id"),
    )
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    member_id: Mapped[str] = mapped_column(ForeignKey("members.id", ondelete="CASCADE"))
    lift_id: Mapped[str] = mapped_column(ForeignKey("lifts.id", ondelete="RESTRICT"))
    day: Mapped[date]
    reps: Mapped[int]
    load: Mapped[Decimal]
    unit: Mapped[Unit]
    source: Mapped[MaxSource] = mapped_column(default="tested")
    note: Mapped[str] = mapped_column(Text, default="")
    removed_at: Mapped[datetime | None]
