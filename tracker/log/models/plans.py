"""What is prescribed: waves, their sessions and sets, and a member's calendar of them."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column, relationship

from tracker.limits import (
    MOST_PLANNED_REPS,
    MOST_PLANNED_SETS,
    MOST_RM,
    MOST_TEMPO,
)
from tracker.log.columns import Base, new_id, now
from tracker.log.models.shared import of_all
from tracker.log.records import StepState, WayRule
from tracker.units import Unit


class Wave(Base):
    """Prescribed sets over one or more weeks."""

    __tablename__ = "waves"
    __table_args__ = (UniqueConstraint("private_to", "name"), of_all("waves", "name"))
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    name: Mapped[str]
    text: Mapped[str] = mapped_column(Text, default="")  # the coach's own words
    private_to: Mapped[str | None] = mapped_column(String(32))  # the member whose alone it is; none: everybody's
    created_at: Mapped[datetime] = mapped_column(default=now)
    removed_at: Mapped[datetime | None]
    steps: Mapped[list[WaveStep]] = relationship(order_by="WaveStep.position", cascade="all, delete-orphan")


class WaveStep(Base):
    """One session of a wave."""

    __tablename__ = "wave_steps"
    __table_args__ = (UniqueConstraint("wave_id", "position"),)
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    wave_id: Mapped[str] = mapped_column(ForeignKey("waves.id", ondelete="CASCADE"))
    position: Mapped[int]
    title: Mapped[str] = mapped_column(default="")
    day_offset: Mapped[int] = mapped_column(default=0)  # days after the wave's first session
    text: Mapped[str] = mapped_column(Text, default="")  # of the coach: warm-up, notes, cool-down
    replaced_at: Mapped[datetime | None]  # a later sheet put another step in its place; who has done it keeps it
    sets: Mapped[list[PlannedSet]] = relationship(order_by="PlannedSet.position", cascade="all, delete-orphan")


class PlannedSet(Base):
    """So many sets of one lift at a percentage of a reference max, at a load, with a reserve, or by feel.

    Sets of one `block` are one lift of the session. `way` 0 is the coach's first; a higher one is what to do instead of
    all sets of the block where its implement is not at hand.
    """

    __tablename__ = "planned_sets"
    __table_args__ = (
        CheckConstraint(f"sets >= 1 AND sets <= {MOST_PLANNED_SETS}", name="sets"),
        CheckConstraint(f"reps >= 1 AND reps <= {MOST_PLANNED_REPS}", name="reps"),
        CheckConstraint(f"of_reps IS NULL OR (of_reps >= 1 AND of_reps <= {MOST_RM})", name="of_reps"),
        CheckConstraint("unit IS NULL OR unit IN ('kg', 'lb')", name="unit"),
        CheckConstraint("high_reps IS NULL OR high_reps > reps", name="high_reps"),
        UniqueConstraint("step_id", "position"),
    )
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    step_id: Mapped[str] = mapped_column(ForeignKey("wave_steps.id", ondelete="CASCADE"))
    lift_id: Mapped[str] = mapped_column(ForeignKey("lifts.id", ondelete="RESTRICT"))
    position: Mapped[int]
    sets: Mapped[int]
    reps: Mapped[int]
    percent: Mapped[Decimal | None]
    of_reps: Mapped[int | None]  # percent of which nRM
    rep_out: Mapped[bool] = mapped_column(default=False)
    test: Mapped[bool] = mapped_column(default=False)
    rest_s: Mapped[int | None]
    tempo: Mapped[str] = mapped_column(String(MOST_TEMPO), default="")
    block: Mapped[int] = mapped_column(default=0, server_default="0")
    way: Mapped[int] = mapped_column(default=0, server_default="0")
    rule: Mapped[WayRule] = mapped_column(default="", server_default="")  # of a way: repetitions same or doubled
    of_lift_id: Mapped[str | None] = mapped_column(ForeignKey("lifts.id"))  # none: of the lift itself
    load: Mapped[Decimal | None]  # a fixed load, as the coach typed it
    unit: Mapped[Unit | None]
    reserve: Mapped[Decimal | None]  # repetitions to be left
    high_reps: Mapped[int | None]  # the upper end of a range of repetitions
    words: Mapped[str] = mapped_column(Text, default="", server_default="")  # what the columns can't say


class MemberWave(Base):
    """A member doing a wave."""

    __tablename__ = "member_waves"
    __table_args__ = (Index(None, "member_id"),)
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    member_id: Mapped[str] = mapped_column(ForeignKey("members.id", ondelete="CASCADE"))
    wave_id: Mapped[str] = mapped_column(ForeignKey("waves.id", ondelete="CASCADE"))
    started: Mapped[date]
    ended: Mapped[date | None]


class MemberStep(Base):
    """A step of a wave with a place of its own in one member's calendar."""

    __tablename__ = "member_steps"
    __table_args__ = (
        CheckConstraint("state IN ('planned', 'done', 'skipped')", name="state"),
        Index(None, "member_wave_id"),
    )
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    member_wave_id: Mapped[str] = mapped_column(ForeignKey("member_waves.id", ondelete="CASCADE"))
    step_id: Mapped[str] = mapped_column(ForeignKey("wave_steps.id", ondelete="CASCADE"))
    due: Mapped[date]
    planned_due: Mapped[date]  # the day it had first; a later `due` means postponed
    state: Mapped[StepState] = mapped_column(default="planned")
    repeat: Mapped[int] = mapped_column(default=0)  # 1 for the second time of the same step
    ease: Mapped[Decimal | None]  # percent taken off the loads of this step


class StepPiece(Base):
    """A piece that belongs to one session of a wave."""

    __tablename__ = "step_pieces"
    __table_args__ = (UniqueConstraint("step_id", "position"),)
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    step_id: Mapped[str] = mapped_column(ForeignKey("wave_steps.id", ondelete="CASCADE"))
    piece_id: Mapped[str] = mapped_column(ForeignKey("pieces.id", ondelete="CASCADE"))
    position: Mapped[int] = mapped_column(default=0)
