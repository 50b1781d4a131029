"""Whether what was done reaches a goal: a set, a test, a score; never an estimate.

It is read off the log each time and kept in no column, so that a set that is mended, taken back, imported or sent late by a
phone says the same at once.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from tracker.conditioning.goal import is_reached
from tracker.conditioning.told import told_words
from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.maxes.words import load_words, set_words
from tracker.log import rep_maxes as log_rep_maxes
from tracker.log import scores as log_scores
from tracker.log import sets as log_sets
from tracker.log.goals import GoalRow, LiftAim, PieceAim
from tracker.log.records import RepMaxRow, SetRow
from tracker.log.unit_of_work import Log, Reader


@dataclass(frozen=True, slots=True)
class Reached:
    """The day on which a goal was reached, and what was done, in words."""

    day: date
    words: str


@may("see")
@cached_until_write
def reached(log: Log, member_id: str, goal: GoalRow) -> Reached | None:
    """Return what reached a goal first, of all that was done since it was set; None where nothing does."""
    with log.reading() as session:
        return read_reached(session, member_id, goal)


def read_reached(session: Reader, member_id: str, goal: GoalRow) -> Reached | None:
    """Do the same in a reading of whoever asks."""
    if isinstance(goal.aim, PieceAim):
        return _by_score(session, member_id, goal, goal.aim)
    return _by_set(session, member_id, goal, goal.aim)


def _by_score(session: Reader, member_id: str, goal: GoalRow, aim: PieceAim) -> Reached | None:
    rows = log_scores.scores_of(session, member_id, title=aim.score.piece.title, since=goal.made_on)
    found = next((row for row in rows if _after(row, row.score.day, goal) and is_reached(aim.score, row.score)), None)
    return found and Reached(found.score.day, told_words(found.score))


def _by_set(session: Reader, member_id: str, goal: GoalRow, aim: LiftAim) -> Reached | None:
    rows = log_sets.sets_of(session, member_id, lift_id=aim.lift.id, since=goal.made_on)
    done = next((row for row in rows if _after(row, row.day, goal) and not row.left_out and _is_there(row, aim)), None)
    tested = next(
        (
            row
            for row in log_rep_maxes.rep_maxes(session, member_id, aim.lift.id)
            if row.source == "tested" and row.day > goal.made_on and _is_there(row, aim)
        ),
        None,
    )
    if tested is not None and (done is None or tested.day < done.day):
        return Reached(tested.day, f"tested {tested.reps}RM {load_words(tested.load, tested.lift)}")
    return done and Reached(done.day, set_words(done))


def _is_there(row: SetRow | RepMaxRow, aim: LiftAim) -> bool:
    """Whether as many repetitions were completed with as much, before a miss too."""
    return row.reps >= aim.reps and row.load.kg >= aim.load.kg


def _after(row: SetRow | log_scores.ScoreRow, day: date, goal: GoalRow) -> bool:
    return day > goal.made_on or (day == goal.made_on and row.logged_at >= goal.made_at)
