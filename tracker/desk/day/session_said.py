"""What a member says of a session beside its sets: that the warm-up is done, how hard it was, or that nobody will say."""

from __future__ import annotations

from datetime import date

from tracker.desk.base.roles import may
from tracker.desk.day.log_set import check_note
from tracker.desk.day.step_state import finish_if_done
from tracker.errors import BadInputError, together
from tracker.limits import MOST_MINUTES, MOST_RATING
from tracker.log import day_marks
from tracker.log import sessions as log_sessions
from tracker.log.columns import now
from tracker.log.records import MemberStepRow
from tracker.log.touches import touched_at
from tracker.log.undo import undo
from tracker.log.unit_of_work import Log, Reader

WARM_UP = "ticked the warm-up off"


@may("change")
def tick_warm_up(log: Log, member_id: str, step: MemberStepRow, day: date) -> None:
    """Note that the warm-up of a session is done; a second touch is the same."""
    with log.act(f"{WARM_UP}: {step.title}", member_id, own=True) as act:
        if not _ticked(act.session, member_id, step, day):
            day_marks.put(act, member_id, day, step.id, "warm-up")


@may("change")
def leave_out_warm_up(log: Log, member_id: str, step: MemberStepRow, day: date) -> None:
    """Note that the warm-up of a session is left out; a second touch is the same."""
    with log.act(f"left the warm-up out: {step.title}", member_id, own=True) as act:
        if not _ticked(act.session, member_id, step, day):
            day_marks.put(act, member_id, day, step.id, "no warm-up")


@may("change")
def untick_warm_up(log: Log, member_id: str, step: MemberStepRow, day: date) -> None:
    """Take it back that a warm-up is done, or left out."""
    with log.reading() as session:
        ticked = _ticked(session, member_id, step, day)
    for act_id in ticked:
        undo(log, act_id)


def _ticked(session: Reader, member_id: str, step: MemberStepRow, day: date) -> list[str]:
    marks = day_marks.marks_on(session, member_id, day)
    return [mark.act_id for mark in marks if mark.step_id == step.id and mark.said in ("warm-up", "no warm-up")]


@may("change")
def rate(
    log: Log, member_id: str, day: date, step: MemberStepRow, rating: int, *, minutes: int | None = None, note: str = ""
) -> None:
    """Record how hard a planned session was, 0 to 10; minutes and a note that were said before stay where none are given.

    Raises:
        BadInputError: if rating, minutes or note can't be.
    """
    check_ending(rating, minutes, note)
    with log.act("rated a session", member_id, own=True) as act:
        row = log_sessions.session_of_step(act, member_id, day, step.id)
        log_sessions.change_session(
            act,
            row.id,
            rating=rating,
            minutes=minutes or row.minutes,
            note=note.strip() or row.note,
            rated_at=touched_at(),
        )
        day_marks.put(act, member_id, day, step.id, "answered")
        finish_if_done(act, member_id, step.id)  # its pieces may have been done without it


@may("change")
def leave_unrated(log: Log, member_id: str, day: date, step: MemberStepRow) -> None:
    """Let a session go without a rating: it is not asked about any more on that day, and can still be rated."""
    with log.act(f"left {step.title} without a rating", member_id, own=True) as act:
        day_marks.put(act, member_id, day, step.id, "answered")


@may("change")
def rate_session(
    log: Log, session_id: str, member_id: str, *, rating: int | None, minutes: int | None, note: str
) -> None:
    """Record how hard the whole session was (0 to 10), how long it took, and a note."""
    check_ending(rating, minutes, note)
    with log.act("rated a session", member_id, own=True) as act:
        log_sessions.change_session(
            act,
            session_id,
            rating=rating,
            minutes=minutes,
            note=note.strip(),
            rated_at=now() if rating is not None else None,
        )


def check_ending(rating: int | None, minutes: int | None, note: str) -> None:
    """Hold what is said of a whole session to what can be.

    Raises:
        BadInputError: with all that can't be, and the way to mend it.
    """
    together(
        lambda: _check_rating(rating),
        lambda: _check_minutes(minutes),
        lambda: check_note(note.strip()),
    )


def _check_rating(rating: int | None) -> None:
    if rating is not None and not 0 <= rating <= MOST_RATING:
        raise BadInputError(
            f"A rating of {rating} can't be.", where="rating", mend="Choose 0 to 10, or leave it blank."
        )


def _check_minutes(minutes: int | None) -> None:
    if minutes is not None and not 0 < minutes <= MOST_MINUTES:
        raise BadInputError(
            f"{minutes} minutes can't be.", where="minutes", mend=f"Write 1 to {MOST_MINUTES}, or leave it blank."
        )
