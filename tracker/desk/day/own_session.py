"""A day without a coach's sheet: one's own session, begun from what was done on a day before or under a name of one's own.

What was done is laid out as a plan for the day, to be touched off set by set as a coach's is; nothing of it has to be done.
Each set has the load of the newest set of its lift in which at least so many repetitions were made, for the loads of a day
weeks ago are not today's, and a load of fewer repetitions is not one for more.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby

from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.day.more_words import listed
from tracker.desk.maxes.words import day_words, first_up
from tracker.desk.people.people import check_day, clean_name
from tracker.errors import BadInputError
from tracker.limits import MOST_PLANNED_REPS, MOST_PLANNED_SETS
from tracker.log import by_hand
from tracker.log import members as log_members
from tracker.log import pieces as log_pieces
from tracker.log import scores as log_scores
from tracker.log import sessions as log_sessions
from tracker.log import sets as log_sets
from tracker.log import waves as log_waves
from tracker.log.records import SessionRow, SetRow
from tracker.log.scores import ScoreRow
from tracker.log.unit_of_work import SAVED, Act, Log, Reader
from tracker.log.waves import OWN, NewPlannedSet, NewStep
from tracker.units import Mass
from tracker.wording import counted

RECENT = 6  # sessions that are offered without a name of their own
WEEKS = 26  # so long ago a set still says what the lift weighs; design choice


@dataclass(frozen=True, slots=True)
class Source:
    """A session that can be begun from: whose name it is, when it was done, and what is in it."""

    session_id: str
    name: str  # what the member called it; empty where it has none
    day: date
    title: str  # what the plan will be called, such as "As Tue 24 Nov"
    said: str  # its lifts and pieces in a row


@dataclass(frozen=True, slots=True)
class Begun:
    """A plan that was laid out."""

    member_step_id: str
    title: str
    sets: int


@may("see")
@cached_until_write
def sources(log: Log, member_id: str, day: date) -> tuple[Source, ...]:
    """List what a day can be begun from: what has a name first, then the sessions done last, the newest first."""
    with log.reading() as session:
        named = _named(session, member_id)
        rows = log_sessions.sessions_of(session, member_id, until=day - timedelta(days=1), limit=4 * RECENT)
        by_id = {row.id: row for row in rows}
        for session_id in named:
            if session_id not in by_id and (row := log_sessions.one_session(session, session_id)):
                by_id[session_id] = row
        found = [
            source
            for row in by_id.values()
            if row.member_id == member_id and (source := _source(session, row, named.get(row.id, ""), day))
        ]
    saved = [each for each in found if each.name]
    newest = sorted((each for each in found if not each.name), key=lambda each: each.day, reverse=True)
    return (*sorted(saved, key=lambda each: each.name.casefold()), *newest[:RECENT])


def _named(session: Reader, member_id: str) -> dict[str, str]:
    """Return the names that a member gave to sessions; of one name the newest session, and none that was forgotten."""
    by_name: dict[str, tuple[str, str]] = {}
    for entry in by_hand.said(session, member_id, [SAVED]):
        name, session_id = str(entry.said.get("name", "")), str(entry.said.get("session", ""))
        by_name.pop(name.casefold(), None)
        if session_id:
            by_name[name.casefold()] = (session_id, name)
    return dict(by_name.values())


def _done(session: Reader, row: SessionRow) -> tuple[list[SetRow], list[ScoreRow]]:
    sets = log_sets.sets_of(session, row.member_id, since=row.day, until=row.day)
    scores = log_scores.scores_of(session, row.member_id, since=row.day, until=row.day)
    mine = [each for each in sets if each.session_id == row.id and each.kind != "ramp" and each.reps]
    return mine, [each for each in scores if each.session_id == row.id]


def _source(session: Reader, row: SessionRow, name: str, day: date) -> Source | None:
    sets, scores = _done(session, row)
    if not sets and not scores:
        return None
    parts = [each.lift.title for each in sets] + [each.score.piece.title for each in scores]
    title = first_up(name) if name else f"As {day_words(row.day, day)}"
    return Source(row.id, name, row.day, title, listed(list(dict.fromkeys(parts))))


@may("change")
def begin(log: Log, member_id: str, session_id: str, day: date) -> Begun:
    """Lay out as a plan for `day` what was done in a session, with loads as they were lifted last.

    A plan of one's own that was begun from before ends with it; what was done of that stays.

    Raises:
        BadInputError: if the session is not in the log any more, or nothing was done in it.
    """
    check_day(day)
    with log.reading() as session:
        row = log_sessions.one_session(session, session_id)
        member = log_members.member(session, member_id)
        if row is None or member is None or row.member_id != member_id:
            raise BadInputError("This session is not in the log any more.", where="session", mend="Choose another one.")
        source = _source(session, row, _named(session, member_id).get(session_id, ""), day)
        sets, scores = _done(session, row)
        planned = _planned(session, sets, day)
        pieces = [each for each in dict.fromkeys(one.piece_id for one in scores) if log_pieces.piece(session, each)]
    if source is None or not (planned or pieces):
        raise BadInputError("Nothing was done in this session.", where="session", mend="Choose another one.")
    with log.act(f"began a session: {source.title}", member_id) as act:
        _end_former(act, member_id, day)
        name = _free_name(act, f"{OWN}{day.isoformat()}")
        step = NewStep(source.title, 0, planned)
        wave_id = log_waves.add_wave(act, name, [step], private_to=member_id)
        log_waves.start_wave(act, member_id, wave_id, day)
        mine = next(each for each in log_waves.member_steps(act.session, member_id) if each.wave_id == wave_id)
        for piece_id in pieces:
            log_pieces.put_piece_into_step(act, mine.step_id, piece_id)
    return Begun(mine.id, source.title, sum(each.sets for each in planned))


def words(begun: Begun) -> str:
    """Say what was laid out: `As Tue 24 Nov: 7 sets to be touched off`."""
    return f"{begun.title}: {counted(begun.sets, 'set')} laid out" if begun.sets else f"{begun.title} is laid out"


def _planned(session: Reader, sets: Sequence[SetRow], day: date) -> list[NewPlannedSet]:
    """Turn sets into planned ones, equal ones that follow one another into one; a lift after another is a block."""
    since = day - timedelta(weeks=WEEKS)
    lifted = {
        lift_id: log_sets.sets_of(session, sets[0].member_id, lift_id=lift_id, since=since, until=day)
        for lift_id in dict.fromkeys(row.lift.id for row in sets)
    }
    counts: dict[str, int] = {}
    found: list[tuple[str, int, Mass]] = []
    for row in sets:
        place = counts.get(row.lift.id, 0)
        counts[row.lift.id] = place + 1
        found.append((row.lift.id, min(row.reps, MOST_PLANNED_REPS), newest_load(row, place, lifted[row.lift.id])))
    planned: list[NewPlannedSet] = []
    block, before = -1, ""
    for (lift_id, reps, load), group in groupby(found):
        block, before = block + (lift_id != before), lift_id
        planned.append(NewPlannedSet(lift_id, min(len(list(group)), MOST_PLANNED_SETS), reps, block=block, load=load))
    return planned


def newest_load(row: SetRow, place: int, lifted: Sequence[SetRow]) -> Mass:
    """Return the load to begin with for a set as `row`, the one at `place` of its lift.

    That of the newest day on which sets of at least so many repetitions were made and none of them missed: the set at the
    same place among these, else the last of them. Where there is no such day, what it was.
    """
    fit = [each for each in lifted if each.kind == "work" and each.outcome == "done" and each.reps >= row.reps]
    if not fit:
        return row.load
    newest = max(each.day for each in fit)
    of_day = [each for each in fit if each.day == newest]
    return of_day[min(place, len(of_day) - 1)].load


def _end_former(act: Act, member_id: str, day: date) -> None:
    for step in log_waves.member_steps(act.session, member_id):
        if step.own and (step.due < day or step.state == "planned"):
            log_waves.end_wave(act, member_id, step.wave_id, day - timedelta(days=1))


def _free_name(act: Act, name: str) -> str:
    taken = log_waves.titles(act.session)
    return next(text for n in range(1, 1000) if (text := name if n == 1 else f"{name} ({n})") not in taken)


@may("change")
def save_as(log: Log, member_id: str, session_id: str, name: str) -> str:
    """Give a session a name, under which it is offered from now on; an older one of that name is not any more.

    Returns:
        The name as it is kept.

    Raises:
        BadInputError: if the name is empty or too long, or nothing was done in the session.
    """
    kept = clean_name(name, "name")
    with log.reading() as session:
        row = log_sessions.one_session(session, session_id)
        if row is None or row.member_id != member_id or _source(session, row, kept, row.day) is None:
            raise BadInputError("Nothing was done in this session yet.", where="session", mend="Log a set first.")
    with log.act(f"saved a session as {kept}", member_id, own=True) as act:
        by_hand.say(act, SAVED, member_id, {"name": kept, "session": session_id})
    return kept


@may("change")
def forget_saved(log: Log, member_id: str, name: str) -> None:
    """Offer a session no longer under its name; what was done in it stays."""
    with log.act(f"no longer keeps a session as {name}", member_id, own=True) as act:
        by_hand.say(act, SAVED, member_id, {"name": name, "session": ""})
