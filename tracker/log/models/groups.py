"""Groups of members with their coaches, and classes: who is in them, when they are, and what was handed to them."""

from __future__ import annotations

from datetime import date, datetime

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from tracker.log.columns import Base, new_id, now


class Group(Base):
    """Members who train together, such as beginners; a coach may be given some groups alone."""

    __tablename__ = "gym_groups"
    __table_args__ = (UniqueConstraint("name"),)
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    name: Mapped[str]
    created_at: Mapped[datetime] = mapped_column(default=now)


class GroupMember(Base):
    """That a member is in a group."""

    __tablename__ = "group_members"
    __table_args__ = (UniqueConstraint("group_id", "member_id"), Index(None, "member_id"))
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    group_id: Mapped[str] = mapped_column(ForeignKey("gym_groups.id", ondelete="CASCADE"))
    member_id: Mapped[str] = mapped_column(ForeignKey("members.id", ondelete="CASCADE"))


class GroupCoach(Base):
    """That a group is one of those that a coach was given."""

    __tablename__ = "group_coaches"
    __table_args__ = (UniqueConstraint("group_id", "account_id"), Index(None, "account_id"))
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    group_id: Mapped[str] = mapped_column(ForeignKey("gym_groups.id", ondelete="CASCADE"))
    account_id: Mapped[str] = mapped_column(ForeignKey("accounts.id", ondelete="CASCADE"))


class GymClass(Base):
    """A class of the week: all of a group, or some members, or both; whoever leads it by name."""

    __tablename__ = "classes"
    __table_args__ = (UniqueConstraint("name"),)
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    name: Mapped[str]
    group_id: Mapped[str | None] = mapped_column(ForeignKey("gym_groups.id", ondelete="SET NULL"))
    place_id: Mapped[str | None] = mapped_column(ForeignKey("places.id", ondelete="SET NULL"))
    coach: Mapped[str] = mapped_column(default="")
    created_at: Mapped[datetime] = mapped_column(default=now)


class ClassMember(Base):
    """That a member is in a class by themselves, beside its group."""

    __tablename__ = "class_members"
    __table_args__ = (UniqueConstraint("class_id", "member_id"), Index(None, "member_id"))
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    class_id: Mapped[str] = mapped_column(ForeignKey("classes.id", ondelete="CASCADE"))
    member_id: Mapped[str] = mapped_column(ForeignKey("members.id", ondelete="CASCADE"))


class ClassTime(Base):
    """When a class is: a day of the week, 0 is Monday, and the time on the gym's clock ("18:00")."""

    __tablename__ = "class_times"
    __table_args__ = (
        CheckConstraint("weekday >= 0 AND weekday <= 6", name="weekday"),
        UniqueConstraint("class_id", "weekday", "starts"),
    )
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    class_id: Mapped[str] = mapped_column(ForeignKey("classes.id", ondelete="CASCADE"))
    weekday: Mapped[int]
    starts: Mapped[str] = mapped_column(String(5))


class ClassWave(Base):
    """That a wave was handed to a class, from which day on and by whom; to one group of it where that does otherwise."""

    __tablename__ = "class_waves"
    __table_args__ = (UniqueConstraint("class_id", "wave_id"), Index(None, "wave_id"))
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    class_id: Mapped[str] = mapped_column(ForeignKey("classes.id", ondelete="CASCADE"))
    wave_id: Mapped[str] = mapped_column(ForeignKey("waves.id", ondelete="CASCADE"))
    group_id: Mapped[str | None] = mapped_column(ForeignKey("gym_groups.id", ondelete="SET NULL"))
    started: Mapped[date]
    handed_by: Mapped[str] = mapped_column(default="")
    created_at: Mapped[datetime] = mapped_column(default=now)
