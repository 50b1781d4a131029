"""`tidemark score`: where a count of repetitions ends in a conditioning piece, and what a place in it counts."""

from __future__ import annotations

from datetime import date
from typing import Any

import click

from tracker.cli.options import json_option
from tracker.cli.output import say_json
from tracker.conditioning.counts import Count
from tracker.conditioning.ladder import (
    ImpossiblePositionError,
    Ladder,
    Listed,
    Position,
    Steady,
    equal_ladder,
    listed_ladder,
    unequal_ladder,
)
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.score_record import score_record
from tracker.conditioning.scores import Score
from tracker.conditioning.standing import Standing, standing
from tracker.conditioning.times import parse_time, seconds_words
from tracker.errors import BadInputError
from tracker.wording import counted

MOST_MOVEMENTS = 50  # in one round; more is a slip of the finger
WHOLE = click.IntRange(min=0)


class Numbers(click.ParamType):
    """Whole numbers with commas between, one for each movement or round: 3 or 3,3,10."""

    name = "numbers"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> tuple[int, ...]:
        where = param.opts[0] if param else ""
        try:
            numbers = tuple(int(part) for part in str(value).split(","))
        except ValueError as err:
            raise BadInputError(
                f"{value!r} is not a list of whole numbers.", where=where, mend="Write such as 3 or 3,3,10."
            ) from err
        if len(numbers) > 1000:
            raise BadInputError("That is more than 1,000 numbers.", where=where, mend="Write a shorter list.")
        return numbers


NUMBERS = Numbers()


@click.group()
def score() -> None:
    """Score a conditioning piece: a place in it into repetitions, or repetitions into a place."""


def place_options(command: Any) -> Any:
    """Add the place reached, or the total that it counts."""
    for option in (
        click.option("--total", type=WHOLE, help="All repetitions, in place of the last three."),
        click.option("--reps", type=int, help="Repetitions of the next movement."),
        click.option("--done", type=int, help="Movements finished in the open round."),
        click.option("--rounds", type=int, help="Rounds finished."),
    ):
        command = option(command)
    return command


@score.command()
@click.option("--from", "first", type=NUMBERS, help="Repetitions of the first round: 3, or 3,3,10 for each movement.")
@click.option("--step", type=NUMBERS, help="How many more each round: 3, or 3,3,0; below zero goes down.")
@click.option("--list", "listed", type=NUMBERS, help="In place of both: every round written out, such as 21,15,9.")
@click.option("--movements", type=click.IntRange(1, MOST_MOVEMENTS), help="Movements in a round.")
@click.option("--most", type=click.IntRange(min=1), help="Rounds that the ladder has, where it has an end.")
@place_options
@json_option
def ladder(
    first: tuple[int, ...] | None,
    step: tuple[int, ...] | None,
    listed: tuple[int, ...] | None,
    movements: int | None,
    most: int | None,
    rounds: int | None,
    done: int | None,
    reps: int | None,
    total: int | None,
    as_json: bool,
) -> None:
    """A ladder: rounds that ask for more, or fewer, repetitions each time.

    A round just finished is one round more with nothing done in the next. A place that can't be is refused with the
    one that was probably meant.
    """
    asked = _ladder(first, step, listed, movements, most)
    _answer(_standing(asked, rounds, done, reps, total), as_json)


@score.command()
@click.option("--each", type=NUMBERS, required=True, help="Repetitions of each movement in every round: 5,10,15.")
@place_options
@json_option
def rounds(
    each: tuple[int, ...], rounds: int | None, done: int | None, reps: int | None, total: int | None, as_json: bool
) -> None:
    """As many rounds as possible of the same movements in a given time."""
    asked = Ladder(tuple(Steady(number) for number in each))
    _answer(_standing(asked, rounds, done, reps, total), as_json)


@score.command("time")
@click.option("--list", "listed", type=NUMBERS, required=True, help="Repetitions round by round: 21,15,9.")
@click.option("--movements", type=click.IntRange(1, MOST_MOVEMENTS), default=1, show_default=True)
@click.option("--cap", metavar="TIME", help="The time at which everybody stops: 12:00.")
@click.option(
    "--said", required=True, help='What was got: "8:41", "CAP + 13", "stopped at 6:30, through the 15s, plus 8".'
)
@json_option
def for_time(listed: tuple[int, ...], movements: int, cap: str | None, said: str, as_json: bool) -> None:
    """A piece for time, finished or stopped by its cap."""
    tasks = tuple(Task(f"movement {number}", Listed(listed)) for number in range(1, movements + 1))
    piece = Piece("the piece", "for time", tasks, cap_s=parse_time(cap, where="--cap") if cap else None)
    _answer_score(piece, said, as_json)


@score.command()
@click.option("--every", metavar="TIME", required=True, help="Length of an interval's work: 1:00.")
@click.option("--rest", metavar="TIME", help="Rest between intervals, where there is any: 0:30.")
@click.option("--times", type=click.IntRange(min=1), required=True, help="How many intervals.")
@click.option("--measure", type=click.Choice(["reps", "cal", "m"]), default="reps", show_default=True)
@click.option("--said", required=True, help='What was got: intervals kept "9/10", or each of them "577, 570, 564".')
@json_option
def intervals(every: str, rest: str | None, times: int, measure: Any, said: str, as_json: bool) -> None:
    """Work in intervals: how many were kept, or what each one brought."""
    rest_s = parse_time(rest, where="--rest") if rest else 0
    kind = "work and rest" if rest_s else "every minute"
    work_s = parse_time(every, where="--every")
    piece = Piece(
        "the piece", kind, (Task("the work", measure=measure),), work_s=work_s, rest_s=rest_s, intervals=times
    )
    _answer_score(piece, said, as_json)


def _ladder(
    first: tuple[int, ...] | None,
    step: tuple[int, ...] | None,
    listed: tuple[int, ...] | None,
    movements: int | None,
    most: int | None,
) -> Ladder:
    if listed is not None:
        if first or step or most:
            raise BadInputError(
                "The rounds are given twice.", where="--list", mend="Leave out --from, --step and --most, or --list."
            )
        return listed_ladder(listed, movements or 1)
    if first is None or step is None:
        raise BadInputError(
            "Nothing says what the rounds ask.", where="--from", mend="Give --from and --step, or --list."
        )
    if len(first) == len(step) == 1:
        if movements is None:
            raise BadInputError("How many movements has a round?", where="--movements", mend="Give --movements 3.")
        return equal_ladder(first[0], step[0], movements, most)
    if movements not in (None, len(first)):
        what = f"{movements} movements and {len(first)} numbers don't belong together."
        raise BadInputError(what, where="--movements", mend="Give one number for each movement.")
    return unequal_ladder(first, step, most)


def _standing(asked: Ladder, rounds: int | None, done: int | None, reps: int | None, total: int | None) -> Standing:
    given = (rounds, done, reps)
    if total is not None and given != (None, None, None):
        mend = "Leave out --rounds, --done and --reps, or --total."
        raise BadInputError("The place is given twice.", where="--total", mend=mend)
    if total is None and rounds is None:
        mend = "Give --rounds, --done and --reps, or --total."
        raise BadInputError("Nothing says how far it went.", where="--rounds", mend=mend)
    try:
        return standing(asked, Position(rounds or 0, done or 0, reps or 0) if total is None else total)
    except ImpossiblePositionError as err:
        where = "--total" if total is not None else "--rounds, --done, --reps"
        raise BadInputError(err.what, where=where, mend=err.mend) from err


def _answer(found: Standing, as_json: bool) -> None:
    if as_json:
        say_json(found.record)
        return
    click.echo(f"{counted(found.total_reps, 'repetition')}: {found.words}")
    if found.open_round:
        asks = f"{found.open_round[0]:,} of each" if found.open_round_reps else ", ".join(map(str, found.open_round))
        click.echo(f"rounds finished: {found.rounds:,}; the open round asks {asks}")
        click.echo(f"movements done in it: {found.done:,}; repetitions of the next: {found.reps:,}")


def _answer_score(piece: Piece, said: str, as_json: bool) -> None:
    from tracker.conditioning.words import parse_score, position_words, score_words

    found = parse_score(piece, date.today(), said)
    record = _record(found) | {"words": score_words(found), "places": list(position_words(found))}
    if as_json:
        say_json(record)
        return
    click.echo(str(record["words"]))
    for name in ("total_reps", "missing", "kept"):
        if record[name] is not None:
            click.echo(f"{name.replace('_', ' ')}: {record[name]}")


def _record(found: Score) -> dict[str, Any]:
    return {
        "ended": found.ended, "time_s": score_record(found).get("time_s"),
        "time": seconds_words(found.time_s) if found.time_s else None,
        "total_reps": _whole(found.total), "missing": _whole(found.missing), "kept": found.kept,
        "each": [_whole(each) for each in found.each],
    }  # fmt: skip


def _whole(count: Count | None) -> int | dict[str, int] | None:
    """A count as a number, or as its range where it was lost."""
    if count is None or not count.lost:
        return None if count is None else count.known
    return {"low": count.low, "high": count.high}
