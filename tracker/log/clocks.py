"""The clocks of pieces: moments of start, taps and stop, so that a locked phone or a reload loses nothing."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime

from sqlalchemy import select
from sqlalchemy.orm import Session as OrmSession

from tracker.conditioning.clock import Clock, clock_from, clock_record
from tracker.log.columns import now
from tracker.log.models import PieceClock, PieceScore
from tracker.log.unit_of_work import Act


@dataclass(frozen=True, slots=True)
class ClockRow:
    """The clock of a member's piece, as far as it has run."""

    id: str
    member_id: str
    piece_id: str
    day: date
    clock: Clock


def moment() -> float:
    """Return the present moment as clocks keep it: seconds since 1970."""
    return now().timestamp()


def clock_row(row: PieceClock) -> ClockRow:
    record = {
        **row.plan,
        "started": row.started_at.timestamp(),
        "taps": row.taps,
        "stopped": None if row.stopped_at is None else row.stopped_at.timestamp(),
    }
    return ClockRow(row.id, row.member_id, row.piece_id, row.day, clock_from(record))


def clock(session: OrmSession, clock_id: str) -> ClockRow | None:
    row = session.get(PieceClock, clock_id)
    return clock_row(row) if row and row.removed_at is None else None


def newest_clock(session: OrmSession, member_id: str, since: datetime) -> ClockRow | None:
    """Return the member's newest clock started at `since` or later whose result is not in the log yet."""
    scored = select(PieceScore.clock_id).where(PieceScore.clock_id.is_not(None), PieceScore.removed_at.is_(None))
    row = session.scalars(
        select(PieceClock)
        .where(PieceClock.member_id == member_id, PieceClock.removed_at.is_(None), PieceClock.started_at >= since)
        .where(PieceClock.id.not_in(scored))
        .order_by(PieceClock.started_at.desc())
        .limit(1)
    ).first()
    return clock_row(row) if row else None


def add_clock(act: Act, member_id: str, piece_id: str, day: date, clock: Clock) -> str:
    """Keep a clock that was just started."""
    row = PieceClock(member_id=member_id, piece_id=piece_id, day=day)
    _fill_clock(row, clock)
    act.session.add(row)
    act.session.flush()
    return row.id


def put_clock(act: Act, clock_id: str, clock: Clock) -> None:
    """Keep the taps and the stop of a clock."""
    _fill_clock(act.session.get_one(PieceClock, clock_id), clock)
    act.session.flush()


def remove_clock(act: Act, clock_id: str) -> None:
    act.session.get_one(PieceClock, clock_id).removed_at = now()
    act.session.flush()


def _fill_clock(row: PieceClock, clock: Clock) -> None:
    record = clock_record(clock)
    row.started_at = datetime.fromtimestamp(record.pop("started"), UTC)
    stopped = record.pop("stopped")
    row.stopped_at = None if stopped is None else datetime.fromtimestamp(stopped, UTC)
    row.taps = record.pop("taps")
    row.plan = record
