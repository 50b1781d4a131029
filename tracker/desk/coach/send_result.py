"""A member's result of a day, made on the member's own act: one line to paste, or a file for the coach's log."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import replace
from datetime import UTC, date, datetime

from tracker.conditioning.words import score_words
from tracker.desk.base.roles import may
from tracker.desk.history import journal
from tracker.errors import BadInputError
from tracker.exchange.result import Result, ResultMax, ResultSet
from tracker.exchange.result_file import write_file
from tracker.exchange.result_line import sets_words, write_line
from tracker.log import members as log_members
from tracker.log import rep_maxes as log_rep_maxes
from tracker.log import scores as log_scores
from tracker.log import sessions as log_sessions
from tracker.log import sets as log_sets
from tracker.log.records import SetRow
from tracker.log.unit_of_work import Log
from tracker.strength.records import REP_MAXES
from tracker.units import plain
from tracker.wording import counted


@may("change")
def days_to_send(log: Log, member_id: str, *, limit: int = 14) -> tuple[date, ...]:
    """List the newest days with something to send, newest first."""
    with log.reading() as session:
        sessions = log_sessions.sessions_of(session, member_id, limit=limit * 2)
        scores = log_scores.scores_of(session, member_id)
        worked = {row.day for row in log_sets.sets_of(session, member_id) if row.kind != "ramp"}
    days = {row.day for row in sessions if row.day in worked} | {row.score.day for row in scores}
    return tuple(sorted(days, reverse=True)[:limit])


@may("change")
def result_of(log: Log, member_id: str, day: date, *, with_body_mass: bool = False, with_maxes: bool = False) -> Result:
    """Gather what a member did on a day. Ramp sets and notes stay at home; body mass and maxes too, unless asked for.

    Raises:
        BadInputError: if there is no such member, or nothing to send of that day.
    """
    with log.reading() as session:
        member = log_members.member(session, member_id)
        rows = log_sets.sets_of(session, member_id, since=day, until=day)
        scores = log_scores.scores_of(session, member_id, since=day, until=day)
        sessions = [row for row in log_sessions.sessions_of(session, member_id, until=day) if row.day == day]
    if member is None:
        raise BadInputError("This member is not in the log.", where="member", mend="Choose one from the list.")
    sets = tuple(result_set(row, with_body_mass=with_body_mass) for row in rows if row.kind != "ramp")
    if not sets and not scores:
        raise BadInputError(
            "Nothing is logged on this day.", where=day.isoformat(), mend="Choose a day with a session."
        )
    rated = next((row for row in sessions if row.rating is not None or row.minutes is not None), None)
    return Result(
        member.name, day, _as_of(log, member_id), sets, tuple(replace(row.score, note="", partner="") for row in scores),
        rated.rating if rated else None, rated.minutes if rated else None,
        maxes_of(log, member_id) if with_maxes else (),
    )  # fmt: skip


@may("change")
def maxes_of(log: Log, member_id: str) -> tuple[ResultMax, ...]:
    """List the newest rep-max of each lift and number of repetitions: the tested one, or a declared one without a test."""
    with log.reading() as session:
        tests = [row for row in log_sets.sets_of(session, member_id) if row.kind == "test" and not row.left_out]
        stated = log_rep_maxes.rep_maxes(session, member_id)
    facts = [(row.lift, row.reps, row.load, "tested", row.day) for row in tests if row.reps in REP_MAXES]
    facts += [(row.lift, row.reps, row.load, row.source, row.day) for row in stated]
    newest: dict[tuple[str, int], ResultMax] = {}
    for lift, reps, load, source, day in sorted(facts, key=lambda fact: (fact[3] == "tested", fact[4], fact[2].kg)):
        newest[lift.id, reps] = ResultMax(
            lift.name, lift.implement, reps, load, "tested" if source == "tested" else "declared", day, lift.per_side
        )
    return tuple(sorted(newest.values(), key=lambda each: (each.lift, each.implement, each.reps)))


@may("change")
def result_line(log: Log, member_id: str, day: date, *, with_body_mass: bool = False, with_maxes: bool = False) -> str:
    """Return a member's result of a day as one line to paste; the same log gives the same line."""
    return write_line(result_of(log, member_id, day, with_body_mass=with_body_mass, with_maxes=with_maxes))


@may("change")
def result_file(
    log: Log, member_id: str, day: date, *, with_body_mass: bool = False, with_maxes: bool = False
) -> tuple[str, str]:
    """Return a name for a member's result file of a day, and its text."""
    result = result_of(log, member_id, day, with_body_mass=with_body_mass, with_maxes=with_maxes)
    return f"tidemark-result-{file_word(result.member)}-{day.isoformat()}.json", write_file(result)


def file_word(name: str) -> str:
    """Turn a name into a word that every file system takes."""
    plainly = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plainly).strip("-") or "member"


def _as_of(log: Log, member_id: str) -> datetime:
    newest = journal.acts(log, member_id, limit=1)
    return (newest[0].at if newest else datetime.now(UTC)).replace(microsecond=0)


def result_set(row: SetRow, *, with_body_mass: bool = False) -> ResultSet:
    """Return a set of the log as it travels."""
    body = row.body_mass.amount if row.body_mass and with_body_mass else None
    return ResultSet(
        row.lift.name, row.lift.implement, row.load, row.reps, row.rir, row.outcome, row.kind, body,
        row.each_side, row.left_out is not None,
    )  # fmt: skip


def said_plainly(result: Result) -> str:
    """Say in a few words what is in a result, for whoever sends it."""
    parts = [f"{len(result.sets)} set{'' if len(result.sets) == 1 else 's'}"] if result.sets else []
    parts += [f"{score.piece.title}" for score in result.scores]
    parts += [f"rated {result.rating} of 10"] if result.rating is not None else []
    parts += [f"{counted(result.minutes, 'minute')}"] if result.minutes is not None else []
    parts += [f"{len(result.maxes)} rep-max{'' if len(result.maxes) == 1 else 'es'}"] if result.maxes else []
    bodies = {f"{plain(one.body_mass)} {one.load.unit}" for one in result.sets if one.body_mass is not None}
    return ", ".join([*parts, *(f"body mass {each}" for each in sorted(bodies))])


def said_by_part(result: Result) -> tuple[tuple[str, str], ...]:
    """Say what is in a result part by part, for whoever sends it: each lift with its sets, each piece with its score."""
    lifts: dict[tuple[str, str, bool], list[ResultSet]] = {}
    for one in result.sets:
        lifts.setdefault((one.lift, one.implement, one.per_side), []).append(one)
    sets = [(f"{lift}, {held}", sets_words(ones)) for (lift, held, _), ones in lifts.items()]
    maxes = [
        (f"{each.reps}RM {each.lift}, {each.implement}", f"{each.load}, {each.source} {each.day.day} {each.day:%b %Y}")
        for each in result.maxes
    ]
    return (*sets, *((score.piece.title, score_words(score)) for score in result.scores), *maxes)
