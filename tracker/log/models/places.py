"""Places and their kit."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column, relationship

from tracker.log.columns import Base, new_id
from tracker.log.models.shared import UNIT, of_all
from tracker.log.records import KitKind
from tracker.units import Unit


class Place(Base):
    """Where kit stands."""

    __tablename__ = "places"
    __table_args__ = (
        CheckConstraint(UNIT, name="unit"),
        UniqueConstraint("private_to", "name"),
        of_all("places", "name"),
    )
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    name: Mapped[str]
    unit: Mapped[Unit] = mapped_column(default="kg")
    pins: Mapped[bool] = mapped_column(default=True)  # safety pins or a rack with arms
    private_to: Mapped[str | None] = mapped_column(String(32))  # the member whose alone it is; none: everybody's
    items: Mapped[list[KitItem]] = relationship(
        back_populates="place", order_by="KitItem.position", cascade="all, delete-orphan"
    )
    removed_at: Mapped[datetime | None]


class KitItem(Base):
    """A bar, a pair of collars, pairs of one disc, a fixed weight, with the mass it really has, a band or a machine."""

    __tablename__ = "kit_items"
    __table_args__ = (
        CheckConstraint(UNIT, name="unit"),
        CheckConstraint(
            "kind IN ('bar', 'collars', 'disc', 'dumbbell', 'kettlebell', 'ball', 'band', 'machine')", name="kind"
        ),
        CheckConstraint("number IS NULL OR number >= 0", name="number"),
        Index(None, "place_id"),
    )
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    place_id: Mapped[str] = mapped_column(ForeignKey("places.id", ondelete="CASCADE"))
    kind: Mapped[KitKind]
    label: Mapped[str]
    mass: Mapped[Decimal | None]  # measured or stamped, of a machine the smallest step of its stack; bands have none
    unit: Mapped[Unit] = mapped_column(default="kg")
    number: Mapped[int | None]  # pairs of a disc, pieces of a fixed weight; none = as many as needed
    position: Mapped[int] = mapped_column(default=0)
    place: Mapped[Place] = relationship(back_populates="items")
