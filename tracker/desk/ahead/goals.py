"""Setting, changing and ending goals: a load for so many repetitions of a lift, or a score in a piece, by a day or some day."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from tracker.conditioning.compare import sorting_span
from tracker.conditioning.scores import Score
from tracker.desk.ahead.goal_reached import reached
from tracker.desk.ahead.goal_words import aim_words
from tracker.desk.base.roles import may
from tracker.desk.people.people import check_day
from tracker.errors import BadInputError
from tracker.log import goals as log_goals
from tracker.log import members as log_members
from tracker.log import pieces as log_pieces
from tracker.log.goals import GoalRow, LiftAim, PieceAim
from tracker.log.unit_of_work import Log
from tracker.strength.forecast import MOST_WEEKS
from tracker.strength.records import REP_MAXES
from tracker.units import Mass, check_load
from tracker.wording import counted


@may("see")
def goals(log: Log, member_id: str) -> tuple[GoalRow, ...]:
    """List a member's goals in the order they were set, ended ones too."""
    with log.reading() as session:
        return log_goals.goals(session, member_id)


@may("change")
def set_lift_goal(log: Log, member_id: str, lift_id: str, *, reps: int, load: Mass, by: date | None, day: date) -> str:
    """Set a goal in a lift on a day and return its id; one of the same nRM that is reached is put away with it.

    Raises:
        BadInputError: if it can't be, or the same nRM has a goal that is open.
    """
    with log.reading() as session:
        lift = log_members.lift(session, lift_id)
    if lift is None:
        raise BadInputError("This lift is not in the log.", where="lift", mend="Choose one from the list.")
    return _set(log, member_id, LiftAim(lift, reps, load), by, day)


@may("change")
def set_piece_goal(log: Log, member_id: str, piece_id: str, *, score: Score, by: date | None, day: date) -> str:
    """Set a goal in a piece on a day: a score of it as it is to be done, with the same swaps.

    Raises:
        BadInputError: if it can't be, or the same piece has a goal that is open.
    """
    with log.reading() as session:
        piece = log_pieces.piece(session, piece_id, member_id)
    if piece is None:
        raise BadInputError("This piece is not in the log.", where="piece", mend="Choose one from the list.")
    return _set(log, member_id, PieceAim(piece_id, _as_goal(score, day)), by, day)


@may("change")
def change_goal(
    log: Log, member_id: str, goal_id: str, *, by: date | None, day: date, reps: int | None = None,
    load: Mass | None = None, score: Score | None = None,
) -> None:  # fmt: skip
    """Give an open goal another day, repetitions, load or score; its history keeps what it was.

    Raises:
        BadInputError: if it is not open, or can't be.
    """
    row = _open(log, member_id, goal_id)
    aim = row.aim
    if isinstance(aim, LiftAim):
        aim = replace(aim, reps=aim.reps if reps is None else reps, load=load or aim.load)
    elif score is not None:
        aim = replace(aim, score=_as_goal(score, day))
    if (aim, by) == (row.aim, row.by):
        return
    _check(aim, by, day, kept=row.by)
    others = [each for each in goals(log, member_id) if each.id != goal_id]
    _check_single(log, member_id, others, aim)
    with log.act(f"changed a goal to {aim_words(aim, by)}", member_id, own=True) as act:
        log_goals.change_goal(act, goal_id, aim, by)


@may("change")
def give_up(log: Log, member_id: str, goal_id: str, day: date) -> None:
    """End a goal without its being reached; it stays in the history, and undo opens it again.

    Raises:
        BadInputError: if it is not open.
    """
    row = _open(log, member_id, goal_id)
    check_day(day)
    with log.act(f"gave up a goal: {aim_words(row.aim, row.by)}", member_id, own=True) as act:
        log_goals.end_goal(act, goal_id, "given up", day)


@may("change")
def put_away(log: Log, member_id: str, goal_id: str, day: date) -> None:
    """End a goal that was reached by what was done.

    Raises:
        BadInputError: if it is not open, or nothing that was done reaches it.
    """
    row = _open(log, member_id, goal_id)
    check_day(day)
    done = reached(log, member_id, row)
    if done is None:
        raise BadInputError(
            "Nothing that was done reaches this goal yet.",
            where="goal",
            mend="Log the set, the test or the score first.",
        )
    with log.act(f"reached a goal: {aim_words(row.aim, row.by)}", member_id, own=True) as act:
        log_goals.end_goal(act, goal_id, "reached", done.day)


def _set(log: Log, member_id: str, aim: LiftAim | PieceAim, by: date | None, day: date) -> str:
    check_day(day)
    _check(aim, by, day)
    done = _check_single(log, member_id, goals(log, member_id), aim)
    with log.act(f"set a goal: {aim_words(aim, by)}", member_id, own=True) as act:
        for row, when in done:
            log_goals.end_goal(act, row.id, "reached", when)
        return log_goals.add_goal(act, member_id, aim, by, day)


def _check(aim: LiftAim | PieceAim, by: date | None, day: date, *, kept: date | None = None) -> None:
    if isinstance(aim, LiftAim):
        if aim.reps not in REP_MAXES:
            raise BadInputError(
                f"A goal of {counted(aim.reps, 'repetition')} can't be foretold.", where="repetitions",
                mend=f"Choose 1 to {REP_MAXES[-1]}.",
            )  # fmt: skip
        check_load(aim.load, where="load", assistance=aim.lift.body)
    elif sorting_span(aim.score) is None:
        raise BadInputError(
            "This score has nothing to compare by.", where="score", mend="Give a time, a count or a load."
        )
    if by is None or by == kept:
        return
    if by <= day:
        raise BadInputError(f"{by} is no day to come.", where="day", mend="Choose a later day, or none.")
    if by > day + timedelta(weeks=MOST_WEEKS):
        raise BadInputError(
            f"{by} is more than {MOST_WEEKS} weeks away.", where="day", mend="Choose a nearer day, or none."
        )


def _check_single(
    log: Log, member_id: str, rows: tuple[GoalRow, ...] | list[GoalRow], aim: LiftAim | PieceAim
) -> list[tuple[GoalRow, date]]:
    """Hold that each nRM and each piece has one open goal; return those of the same that are reached, with the day."""
    done: list[tuple[GoalRow, date]] = []
    for row in rows:
        if row.ended is None and _same(row.aim, aim):
            found = reached(log, member_id, row)
            if found is None:
                raise BadInputError(
                    f"There is a goal already: {aim_words(row.aim, row.by)}.", where="goal", mend="Change it, or give it up first."
                )  # fmt: skip
            done.append((row, found.day))
    return done


def _same(one: LiftAim | PieceAim, other: LiftAim | PieceAim) -> bool:
    if isinstance(one, LiftAim) and isinstance(other, LiftAim):
        return (one.lift.id, one.reps) == (other.lift.id, other.reps)
    if isinstance(one, PieceAim) and isinstance(other, PieceAim):
        return one.score.piece.title.casefold() == other.score.piece.title.casefold()
    return False


def _as_goal(score: Score, day: date) -> Score:
    """Return a score with nothing but what is wanted: no rounds, notes and partners of some former go."""
    return replace(score, day=day, splits_s=(), short=(), note="", partner="", tie_break_s=None, about=False)


def _open(log: Log, member_id: str, goal_id: str) -> GoalRow:
    row = next((each for each in goals(log, member_id) if each.id == goal_id), None)
    if row is None:
        raise BadInputError("This goal is not in the log any more.", where="goal", mend="Reload the page.")
    if row.ended is not None:
        raise BadInputError(
            f"This goal was {row.ended} already.", where="goal", mend="Take that back, or set another one."
        )
    return row
