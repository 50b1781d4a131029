"""Who is in the log, and who signs in."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, UniqueConstraint, false
from sqlalchemy.orm import Mapped, mapped_column

from tracker.log.columns import Base, new_id, now
from tracker.log.models.shared import UNIT
from tracker.log.who import Role
from tracker.units import Unit


class Member(Base):
    """Whose log it is."""

    __tablename__ = "members"
    __table_args__ = (CheckConstraint(UNIT, name="unit"), UniqueConstraint("name"))
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    name: Mapped[str]
    unit: Mapped[Unit] = mapped_column(default="kg")
    place_id: Mapped[str | None] = mapped_column(ForeignKey("places.id", ondelete="SET NULL"))
    bar_id: Mapped[str | None] = mapped_column(ForeignKey("kit_items.id", ondelete="SET NULL"))
    no_heavy: Mapped[bool] = mapped_column(default=False)  # "no tests, nothing heavy": the member's own switch
    minor: Mapped[bool] = mapped_column(default=False)
    alone: Mapped[bool] = mapped_column(default=False)  # usually trains without anyone near
    shared: Mapped[bool] = mapped_column(default=False, server_default=false())  # with the coach: their own switch
    created_at: Mapped[datetime] = mapped_column(default=now)
    removed_at: Mapped[datetime | None]


class Account(Base):
    """Who signs in, and as what: known by the provider's issuer and subject, never by an e-mail address.

    Until somebody has taken an invitation there is no identity, but the digest of its code and the time that it ends.
    """

    __tablename__ = "accounts"
    __table_args__ = (
        CheckConstraint("role IN ('member', 'coach', 'owner')", name="role"),
        CheckConstraint("role <> 'member' OR member_id IS NOT NULL", name="member_has_log"),
        CheckConstraint("(issuer IS NULL) = (subject IS NULL)", name="identity"),
        CheckConstraint("(issuer IS NULL) = (code IS NOT NULL)", name="code"),
        UniqueConstraint("issuer", "subject"),
        UniqueConstraint("code"),
        Index(None, "member_id"),
    )
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    issuer: Mapped[str | None] = mapped_column(String(255))
    subject: Mapped[str | None] = mapped_column(String(255))
    role: Mapped[Role]
    member_id: Mapped[str | None] = mapped_column(ForeignKey("members.id", ondelete="CASCADE"))
    code: Mapped[str | None] = mapped_column(String(64))
    until: Mapped[datetime | None]
    of_groups: Mapped[bool] = mapped_column(default=False, server_default=false())  # a coach who sees theirs alone
    created_at: Mapped[datetime] = mapped_column(default=now)


class BodyMass(Base):
    """A member's body mass on a day."""

    __tablename__ = "body_masses"
    __table_args__ = (CheckConstraint(UNIT, name="unit"), UniqueConstraint("member_id", "day"))
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    member_id: Mapped[str] = mapped_column(ForeignKey("members.id", ondelete="CASCADE"))
    day: Mapped[date]
    mass: Mapped[Decimal]
    unit: Mapped[Unit]


class RestDay(Base):
    """A day on which a member says that they rested; a day without any entry is not known to be one."""

    __tablename__ = "rest_days"
    __table_args__ = (UniqueConstraint("member_id", "day"),)
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    member_id: Mapped[str] = mapped_column(ForeignKey("members.id", ondelete="CASCADE"))
    day: Mapped[date]
