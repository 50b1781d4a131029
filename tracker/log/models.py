"""The tables of the log, as typed SQLAlchemy models.

A load is kept as it was typed: decimal text and unit. Nothing here knows what a page or a file looks like.
"""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal
from typing import Any

from sqlalchemy import (
    CheckConstraint,
    ForeignKey,
    Index,
    String,
    Text,
    UniqueConstraint,
    false,
    text,
)
from sqlalchemy.orm import Mapped, mapped_column, relationship

from tracker.limits import (
    MOST_KEPT_REPS,
    MOST_MINUTES,
    MOST_PLANNED_REPS,
    MOST_PLANNED_SETS,
    MOST_RATING,
    MOST_RM,
    MOST_TEMPO,
)
from tracker.log.columns import Base, Plain, new_id, now
from tracker.log.records import Implement, KitKind, MaxSource, StepState, WayRule
from tracker.log.who import Role
from tracker.strength.records import Kind, Outcome
from tracker.units import Unit

UNIT = "unit IN ('kg', 'lb')"


def _of_all(table: str, *columns: str) -> Index:
    """Hold that of what belongs to all each name is given once; what is private to somebody may have it as well."""
    everybody_s = text("private_to IS NULL")
    return Index(f"ix_{table}_of_all", *columns, unique=True, sqlite_where=everybody_s, postgresql_where=everybody_s)


class Meta(Base):
    """Facts about the log itself: its identity and its revision."""

    __tablename__ = "log_facts"
    key: Mapped[str] = mapped_column(primary_key=True)
    value: Mapped[str]


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
        _of_all("lifts", "name", "implement"),
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


class Place(Base):
    """Where kit stands."""

    __tablename__ = "places"
    __table_args__ = (
        CheckConstraint(UNIT, name="unit"),
        UniqueConstraint("private_to", "name"),
        _of_all("places", "name"),
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
    """A bar, a pair of collars, pairs of one disc, or a fixed weight, with the mass it really has."""

    __tablename__ = "kit_items"
    __table_args__ = (
        CheckConstraint(UNIT, name="unit"),
        CheckConstraint("kind IN ('bar', 'collars', 'disc', 'dumbbell', 'kettlebell', 'ball', 'band')", name="kind"),
        CheckConstraint("number IS NULL OR number >= 0", name="number"),
        Index(None, "place_id"),
    )
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    place_id: Mapped[str] = mapped_column(ForeignKey("places.id", ondelete="CASCADE"))
    kind: Mapped[KitKind]
    label: Mapped[str]
    mass: Mapped[Decimal | None]  # measured or stamped; bands have none
    unit: Mapped[Unit] = mapped_column(default="kg")
    number: Mapped[int | None]  # pairs of a disc, pieces of a fixed weight; none = as many as needed
    position: Mapped[int] = mapped_column(default=0)
    place: Mapped[Place] = relationship(back_populates="items")


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


class BodyMass(Base):
    """A member's body mass on a day."""

    __tablename__ = "body_masses"
    __table_args__ = (CheckConstraint(UNIT, name="unit"), UniqueConstraint("member_id", "day"))
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    member_id: Mapped[str] = mapped_column(ForeignKey("members.id", ondelete="CASCADE"))
    day: Mapped[date]
    mass: Mapped[Decimal]
    unit: Mapped[Unit]


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


class Wave(Base):
    """Prescribed sets over one or more weeks."""

    __tablename__ = "waves"
    __table_args__ = (UniqueConstraint("private_to", "name"), _of_all("waves", "name"))
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


class StepPiece(Base):
    """A piece that belongs to one session of a wave."""

    __tablename__ = "step_pieces"
    __table_args__ = (UniqueConstraint("step_id", "position"),)
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    step_id: Mapped[str] = mapped_column(ForeignKey("wave_steps.id", ondelete="CASCADE"))
    piece_id: Mapped[str] = mapped_column(ForeignKey("pieces.id", ondelete="CASCADE"))
    position: Mapped[int] = mapped_column(default=0)


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


class RestDay(Base):
    """A day on which a member says that they rested; a day without any entry is not known to be one."""

    __tablename__ = "rest_days"
    __table_args__ = (UniqueConstraint("member_id", "day"),)
    id: Mapped[str] = mapped_column(String(32), primary_key=True, default=new_id)
    member_id: Mapped[str] = mapped_column(ForeignKey("members.id", ondelete="CASCADE"))
    day: Mapped[date]


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
    created_at: Mapped[datetime] = mapped_column(default=now)


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


MODELS: dict[str, type[Any]] = {mapper.class_.__tablename__: mapper.class_ for mapper in Base.registry.mappers}
