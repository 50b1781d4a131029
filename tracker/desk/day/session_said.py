"""What a member says of a session beside its sets: that the warm-up is done, how hard it was, or that nobody will say."""

from __future__ import annotations

from datetime import date

from tracker.desk.base.roles import may
from tracker.desk.day.step_state import finish_if_done
from tracker.desk.day.training import check_ending
from tracker.log import day_marks
from tracker.log import sessions as log_sessions
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
