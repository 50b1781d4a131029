"""`tidemark goal`: what a member trains for: set, listed with how likely it is, changed, put away as reached, given up."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

import click

from tracker.cli.options import DAY, database_option, json_option, lift_named, member_named, with_log
from tracker.cli.output import say_json
from tracker.errors import BadInputError

if TYPE_CHECKING:
    from tracker.conditioning.scores import Score
    from tracker.desk.ahead.goal_view import GoalView
    from tracker.log.goals import GoalRow
    from tracker.log.records import MemberRecord
    from tracker.log.unit_of_work import Log

MEMBER = click.option("--member", metavar="NAME", help="Whose goal; needed where the log has several members.")
LIFT = click.option("--lift", metavar="NAME", help="Of which lift.")
REPS = click.option("--reps", type=int, default=1, show_default=True, metavar="N", help="Of which rep-max, 1 to 12.")
PIECE = click.option("--piece", metavar="TITLE", help="Of which piece, in place of a lift.")
LOAD = click.option(
    "--load", metavar="LOAD", help="The load that is wanted: 110, 225lb; of a lift of the body what is added."
)
SCORE = click.option("--score", metavar="SCORE", help="The score that is wanted: 7:30, 7 + 12.")
BY = click.option("--by", type=DAY, metavar="YYYY-MM-DD", help="By which day, up to 104 weeks off.")
TODAY = click.option(
    "--day", "day", type=DAY, metavar="YYYY-MM-DD", help="The day on which it is said; without it today."
)


@click.group()
def goal() -> None:
    """Say what a member trains for, and how likely it is.

    A goal is a load for so many repetitions of a lift, or a score in a piece; by a day, or some day. It is reached by what was
    done, never by an estimate, and is no reason to test: your coach's word goes first.
    """


@goal.command("list")
@MEMBER
@TODAY
@click.option("--all", "ended", is_flag=True, help="Ended ones too.")
@database_option
@json_option
def listed(member: str | None, day: date | None, ended: bool, as_json: bool) -> None:
    """List the goals that are open, with the chance, from when one in two, and whether they are on course."""
    log = with_log()
    whose, today = member_named(log, member), day or date.today()
    rows = [each for each in _goals(log, whose) if ended or each.ended is None]
    _answer(log, whose, rows, today, as_json=as_json)


@goal.command("set")
@MEMBER
@LIFT
@REPS
@LOAD
@PIECE
@SCORE
@BY
@TODAY
@database_option
@json_option
def set_goal(
    member: str | None, lift: str | None, reps: int, load: str | None, piece: str | None, score: str | None,
    by: date | None, day: date | None, as_json: bool,
) -> None:  # fmt: skip
    """Set a goal; without --by it is for some day."""
    from tracker.desk.ahead import goal_choices, goals

    log = with_log()
    whose, today = member_named(log, member), day or date.today()
    _one_of_two(lift, piece)
    if lift is not None:
        found = lift_named(log, lift)
        if load is None:
            raise BadInputError("No load was said.", where="--load", mend="Give one, such as --load 110.")
        mass = goal_choices.load_of(load, found, whose.unit)
        made = goals.set_lift_goal(log, whose.id, found.id, reps=reps, load=mass, by=by, day=today)
    else:
        piece_id, wanted = _score_of(log, whose, piece or "", score, today)
        made = goals.set_piece_goal(log, whose.id, piece_id, score=wanted, by=by, day=today)
    _answer(log, whose, [each for each in _goals(log, whose) if each.id == made], today, as_json=as_json)


@goal.command("change")
@MEMBER
@LIFT
@REPS
@LOAD
@PIECE
@SCORE
@BY
@click.option("--some-day", is_flag=True, help="By no day any more.")
@TODAY
@database_option
@json_option
def change(
    member: str | None, lift: str | None, reps: int, load: str | None, piece: str | None, score: str | None,
    by: date | None, some_day: bool, day: date | None, as_json: bool,
) -> None:  # fmt: skip
    """Give an open goal another load, score or day; what isn't said stays."""
    from tracker.desk.ahead import goal_choices, goals
    from tracker.log.goals import LiftAim

    log = with_log()
    whose, today = member_named(log, member), day or date.today()
    row = _open(log, whose, lift, reps, piece)
    until = None if some_day else by or row.by
    if isinstance(row.aim, LiftAim):
        mass = None if load is None else goal_choices.load_of(load, row.aim.lift, whose.unit)
        goals.change_goal(log, whose.id, row.id, by=until, day=today, load=mass)
    else:
        wanted = None if score is None else _score_of(log, whose, piece or "", score, today)[1]
        goals.change_goal(log, whose.id, row.id, by=until, day=today, score=wanted)
    _answer(log, whose, [each for each in _goals(log, whose) if each.id == row.id], today, as_json=as_json)


@goal.command("reached")
@MEMBER
@LIFT
@REPS
@PIECE
@TODAY
@database_option
@json_option
def put_away(
    member: str | None, lift: str | None, reps: int, piece: str | None, day: date | None, as_json: bool
) -> None:
    """Put a goal away that was reached by what was done."""
    from tracker.desk.ahead import goals

    log = with_log()
    whose, today = member_named(log, member), day or date.today()
    row = _open(log, whose, lift, reps, piece)
    goals.put_away(log, whose.id, row.id, today)
    _answer(log, whose, [each for each in _goals(log, whose) if each.id == row.id], today, as_json=as_json)


@goal.command("give-up")
@MEMBER
@LIFT
@REPS
@PIECE
@TODAY
@database_option
@json_option
def give_up(
    member: str | None, lift: str | None, reps: int, piece: str | None, day: date | None, as_json: bool
) -> None:
    """Give a goal up; it stays in the history."""
    from tracker.desk.ahead import goals

    log = with_log()
    whose, today = member_named(log, member), day or date.today()
    row = _open(log, whose, lift, reps, piece)
    goals.give_up(log, whose.id, row.id, today)
    _answer(log, whose, [each for each in _goals(log, whose) if each.id == row.id], today, as_json=as_json)


def _one_of_two(lift: str | None, piece: str | None) -> None:
    if (lift is None) == (piece is None):
        raise BadInputError("A goal is of a lift or of a piece.", where="--lift", mend="Name one: --lift or --piece.")


def _goals(log: Log, member: MemberRecord) -> tuple[GoalRow, ...]:
    from tracker.desk.ahead import goals

    return goals.goals(log, member.id)


def _open(log: Log, member: MemberRecord, lift: str | None, reps: int, piece: str | None) -> GoalRow:
    from tracker.desk.ahead.goal_words import aim_words
    from tracker.log.goals import LiftAim

    _one_of_two(lift, piece)
    lift_id = lift_named(log, lift).id if lift is not None else ""
    rows = [each for each in _goals(log, member) if each.ended is None]
    for each in rows:
        aim = each.aim
        if isinstance(aim, LiftAim) and (aim.lift.id, aim.reps) == (lift_id, reps):
            return each
        if not isinstance(aim, LiftAim) and piece is not None and aim.score.piece.title.casefold() == piece.casefold():
            return each
    known = "; ".join(aim_words(each.aim, each.by) for each in rows) or "none"
    raise BadInputError("There is no such open goal.", where="goal", mend=f"Open are: {known}.")


def _score_of(log: Log, member: MemberRecord, title: str, text: str | None, day: date) -> tuple[str, Score]:
    """Read a score of the version in which the piece was done last."""
    from tracker.desk.ahead import goal_piece
    from tracker.desk.pieces.piece_history import piece_history

    if text is None:
        raise BadInputError("No score was said.", where="--score", mend="Give one, such as --score 7:30.")
    history = piece_history(log, member.id, title)
    best = goal_piece.best_of([line.row.score for line in history.like])
    if history.against is None or best is None:
        raise BadInputError(
            f"There is no result of a piece {title} yet.", where="--piece", mend="Score it once: the goal is of that version."
        )  # fmt: skip
    return history.against.piece_id, goal_piece.typed_score(best, text, member.unit, day)


def _answer(log: Log, member: MemberRecord, rows: list[GoalRow], day: date, *, as_json: bool) -> None:
    from tracker.desk.ahead.goal_view import view_of

    found = [view_of(log, member, row, day=day) for row in rows]
    if as_json:
        say_json([_record(each, member) for each in found])
        return
    if not found:
        click.echo(f"No goal of {member.name}.")
    for each in found:
        _say(each)


def _say(each: GoalView) -> None:
    from tracker.desk.ahead.goal_words import aim_words

    click.echo(aim_words(each.row.aim, each.row.by))
    if each.reached:
        click.echo(f"  Reached on {each.reached.day}: {each.reached.words}.")
    elif each.row.ended:
        click.echo(f"  {each.row.ended.capitalize()} on {each.row.ended_on}.")
    for line in (*each.lines, *each.why):
        click.echo(f"  {line}")


def _record(each: GoalView, member: MemberRecord) -> dict[str, Any]:
    from tracker.desk.ahead.goal_words import what_words
    from tracker.log.goals import LiftAim

    row = each.row
    of: dict[str, Any]
    if isinstance(row.aim, LiftAim):
        load = row.aim.load
        of = {"lift": row.aim.lift.title, "reps": row.aim.reps, "load": float(load.amount), "unit": load.unit}
    else:
        of = {"piece": row.aim.score.piece.title, "score": what_words(row.aim)}
    done = each.reached
    return {
        "member": member.name, **of, "by": row.by and row.by.isoformat(), "made_on": row.made_on.isoformat(),
        "ended": row.ended, "ended_on": row.ended_on and row.ended_on.isoformat(),
        "reached": done and {"date": done.day.isoformat(), "words": done.words},
        "chance": each.chance, "test_chance": each.test, "one_in_two": each.even and each.even.isoformat(),
        "course": each.course.state or None, "since": each.course.since and each.course.since.isoformat(),
        "words": [*each.lines, *each.why],
    }  # fmt: skip
