"""What members train for."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal
from typing import Any

from sqlalchemy import CheckConstraint, ForeignKey, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from tracker.limits import MOST_RM
from tracker.log.columns import Base, Plain, new_id, now
from tracker.log.models.shared import UNIT
from tracker.log.records import GoalEnd
from tracker.units import Unit


class Goal(Base):
    """What a member wants to come to: a load for so many repetitions of a lift, or a score in a piece; by a day, or some day."""

    __tablename__ = "goals"
    __table_args__ = (
        CheckConstraint(
            "(lift_id IS NOT NULL AND reps IS NOT NULL AND load IS NOT NULL AND unit IS NOT NULL AND piece_id IS NULL AND result IS NULL)"
            " OR (lift_id IS NULL AND reps IS NULL AND load IS NULL AND unit IS NULL AND piece_id IS NOT NULL AND result IS NOT NULL)",
            name="one_of_two",
        ),
        CheckConstraint(f"unit IS NULL OR {UNIT}", name="unit"),
        CheckConstraint(f"reps IS NULL OR (reps >= 1 AND reps <= {MOST_RM})", name="reps"),
        CheckConstraint("ended IS NULL OR ended IN ('reached', 'given up')", name="ended"),
        CheckConstraint("(ended IS NULL) = (ended_on IS NULL)", name="ended_on"),
        Index(None, "member_id", "lift_id"),
    )
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    member_id: Mapped[str] = mapped_column(ForeignKey("members.id", ondelete="CASCADE"))
    lift_id: Mapped[str | None] = mapped_column(ForeignKey("lifts.id", ondelete="RESTRICT"))
    reps: Mapped[int | None]
    load: Mapped[Decimal | None]  # as typed; where the body is lifted what is added
    unit: Mapped[Unit | None]
    piece_id: Mapped[str | None] = mapped_column(ForeignKey("pieces.id", ondelete="RESTRICT"))
    result: Mapped[dict[str, Any] | None] = mapped_column(Plain)  # the score that is wanted, as a score is kept
    by_day: Mapped[date | None]  # none: some day
    made_on: Mapped[date]
    made_at: Mapped[datetime] = mapped_column(default=now)  # what was logged before it does not reach it
    ended: Mapped[GoalEnd | None]
    ended_on: Mapped[date | None]
