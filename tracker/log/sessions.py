"""Sessions as a whole: found, begun, and what was said of one taken along when its sets move."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date
from typing import Any, NamedTuple

from sqlalchemy import ColumnElement, bindparam, func, or_, select
from sqlalchemy.orm import Session as OrmSession

from tracker.log.models import Lift, LiftedSet, MemberStep, Piece, PieceScore, Session, WaveStep
from tracker.log.records import SessionRow
from tracker.log.unit_of_work import Act

# What is asked with each set is built once: building it takes longer than asking it.
_THEIRS = Session.member_id == bindparam("member"), Session.day == bindparam("day")
_OF_DAY = select(Session).where(*_THEIRS).order_by(Session.created_at)
_LIFTED = (
    select(LiftedSet.session_id, LiftedSet.member_step_id)
    .join(Session, LiftedSet.session_id == Session.id)
    .where(*_THEIRS, LiftedSet.removed_at.is_(None))
    .distinct()
)
_SCORED = (
    select(PieceScore.session_id, PieceScore.member_step_id)
    .where(PieceScore.member_id == bindparam("member"), PieceScore.day == bindparam("day"))
    .where(PieceScore.removed_at.is_(None))
    .distinct()
)


def session_row(row: Session) -> SessionRow:
    return SessionRow(row.id, row.member_id, row.day, row.label, row.place_id, row.minutes, row.rating, row.note)


def one_session(session: OrmSession, session_id: str) -> SessionRow | None:
    found = session.get(Session, session_id)
    return session_row(found) if found else None


def sessions_on(session: OrmSession, member_id: str, day: date) -> tuple[SessionRow, ...]:
    """List a member's sessions of one day."""
    return tuple(session_row(row) for row in session.scalars(_OF_DAY, {"member": member_id, "day": day}))


def sessions_of(
    session: OrmSession, member_id: str, *, limit: int | None = None, text: str = "", until: date | None = None
) -> tuple[SessionRow, ...]:
    """List a member's sessions, newest first; `text` searches notes, labels and lifts."""
    query = select(Session).where(Session.member_id == member_id)
    if until:
        query = query.where(Session.day <= until)
    if text:
        within = (
            select(LiftedSet.session_id)
            .join(Lift, LiftedSet.lift_id == Lift.id)
            .where(or_(_holds(Lift.name, text), _holds(LiftedSet.note, text)))
        )
        in_pieces = (
            select(PieceScore.session_id)
            .join(Piece, PieceScore.piece_id == Piece.id)
            .where(PieceScore.session_id.is_not(None))
            .where(or_(_holds(Piece.title, text), _holds(PieceScore.note, text)))
        )
        of_session = or_(_holds(Session.note, text), _holds(Session.label, text))
        query = query.where(or_(of_session, Session.id.in_(within), Session.id.in_(in_pieces)))
    query = query.order_by(Session.day.desc(), Session.created_at.desc())
    return tuple(session_row(row) for row in session.scalars(query.limit(limit) if limit else query))


def _holds(column: Any, text: str) -> ColumnElement[bool]:
    """Match a text anywhere, in any case where the database knows it: SQLite lowers the letters A to Z only."""
    return or_(func.lower(column).contains(text.lower(), autoescape=True), column.contains(text, autoescape=True))


def training_days(session: OrmSession, member_id: str, until: date) -> tuple[date, ...]:
    """List the days up to `until` on which a member did a set or a piece or rated a session, oldest first."""
    with_sets = select(LiftedSet.session_id).where(LiftedSet.removed_at.is_(None))
    with_scores = select(PieceScore.session_id).where(PieceScore.removed_at.is_(None))
    query = (
        select(Session.day)
        .where(Session.member_id == member_id, Session.day <= until)
        .where(
            or_(
                Session.id.in_(with_sets),
                Session.id.in_(with_scores),
                Session.rating.is_not(None),
                Session.minutes.is_not(None),
            )
        )
        .distinct()
        .order_by(Session.day)
    )
    return tuple(session.scalars(query))


def session_days(session: OrmSession, member_id: str) -> tuple[date, ...]:
    """List the days of a member's sessions of any kind, oldest first; read from the index alone, whatever they hold."""
    return tuple(
        session.scalars(select(Session.day).where(Session.member_id == member_id).distinct().order_by(Session.day))
    )


def session_on(act: Act, member_id: str, day: date, *, label: str = "", place_id: str | None = None) -> Session:
    """Return the member's session of that day, or begin one."""
    found = act.session.scalars(
        select(Session)
        .where(Session.member_id == member_id, Session.day == day, Session.label == label)
        .order_by(Session.created_at)
    ).first()
    return _begun(act, member_id, day, label, place_id) if found is None else found


def _begun(act: Act, member_id: str, day: date, label: str, place_id: str | None) -> Session:
    found = Session(member_id=member_id, day=day, label=label, place_id=place_id, note="")
    act.session.add(found)
    act.session.flush()
    return found


def session_of_step(
    act: Act, member_id: str, day: date, member_step_id: str | None, *, place_id: str | None = None
) -> Session:
    """Return the session of a day in which a planned one is done: each planned one of a day has its own, and its rating.

    The first takes the day's session; where that holds another planned one, or was rated before this one began, a second
    one is begun that bears the title of the plan. What belongs to no plan goes into the day's.
    """
    there = list(act.session.scalars(_OF_DAY, {"member": member_id, "day": day})) if member_step_id else []
    held = _steps_done(act.session, member_id, day) if there else {}
    mine = next((row for row in there if member_step_id in held.get(row.id, ())), None)
    if mine is not None:
        return mine
    plain = next((row for row in there if not row.label), None)
    if plain is not None and plain.id not in held and plain.rating is None:
        return plain
    if plain is None:
        return (
            _begun(act, member_id, day, "", place_id)
            if member_step_id
            else session_on(act, member_id, day, place_id=place_id)
        )
    step = act.session.get_one(MemberStep, member_step_id)
    title = act.session.get_one(WaveStep, step.step_id).title or "second session"
    taken = {row.label for row in there if row.id in held}
    labels = (title if number == 1 else f"{title} ({number})" for number in range(1, len(there) + 2))
    label = next(each for each in labels if each not in taken)
    return session_on(act, member_id, day, label=label, place_id=place_id)


def _steps_done(session: OrmSession, member_id: str, day: date) -> dict[str, set[str]]:
    """Return for each session of a day that holds something of planned ones which these are."""
    found: dict[str, set[str]] = {}
    for query in (_LIFTED, _SCORED):
        for session_id, step in session.execute(query, {"member": member_id, "day": day}):
            if session_id is not None and step is not None:
                found.setdefault(session_id, set()).add(step)
    return found


def change_session(act: Act, session_id: str, **values: object) -> None:
    found = act.session.get_one(Session, session_id)
    for key, value in values.items():
        setattr(found, key, value)
    act.session.flush()


class LastPlace(NamedTuple):
    """A session, and the position of its last set; -1 where it has none."""

    id: str
    member_id: str
    day: date
    label: str
    place_id: str | None
    last: int


def last_places(session: OrmSession, member_ids: Collection[str], first: date, last: date) -> Iterator[LastPlace]:
    """Yield the sessions of some members from `first` to `last`, the oldest made first, each with where its sets end."""
    ends = func.coalesce(func.max(LiftedSet.position), -1)
    query = (
        select(Session.id, Session.member_id, Session.day, Session.label, Session.place_id, ends)
        .outerjoin(LiftedSet, LiftedSet.session_id == Session.id)
        .where(Session.member_id.in_(member_ids), Session.day >= first, Session.day <= last)
        .group_by(Session.id)
        .order_by(Session.created_at)
    )
    return (LastPlace(*row) for row in session.execute(query))


def carry_over(act: Act, from_id: str, to_id: str) -> None:
    """Take place, rating, minutes and note of one session to another, where that one has none of its own."""
    source, target = act.session.get_one(Session, from_id), act.session.get_one(Session, to_id)
    if source is target or target.rating is not None or target.minutes is not None or target.note:
        return
    target.place_id = target.place_id or source.place_id
    target.rating, target.minutes, target.note = source.rating, source.minutes, source.note
    target.rated_at = source.rated_at
    source.rating = source.minutes = source.rated_at = None
    source.note = ""
    act.session.flush()
