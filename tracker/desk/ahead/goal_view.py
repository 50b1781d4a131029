"""What is said of a goal: how likely, from when as likely as not, what it takes each week, on course or not; and reached.

It is worked out of the estimate, so that it says what the trend says; whoever rests is told nothing new. That a goal is
reached is said from what was done alone.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from tracker.conditioning.goal import next_go
from tracker.desk.ahead.forecast import NO_PROMISE
from tracker.desk.ahead.goal_reached import Reached, reached, read_reached
from tracker.desk.ahead.goal_words import by_words, what_words
from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.last_used import LastUsed
from tracker.desk.base.roles import may
from tracker.desk.maxes import estimates
from tracker.desk.maxes.estimates import LiftHistory
from tracker.desk.maxes.little import TREND, rests_on_little
from tracker.desk.maxes.words import full_day
from tracker.log import goals as log_goals
from tracker.log import scores as log_scores
from tracker.log import sessions as log_sessions
from tracker.log.goals import GoalRow, LiftAim, PieceAim
from tracker.log.records import LiftRecord, MemberRecord
from tracker.log.unit_of_work import Log
from tracker.safety import LAY_OFF_DAYS, Person, held_back
from tracker.strength.course import Course, Judged, asked_days, course_of, is_hard, is_rest
from tracker.strength.estimator import LiftModel
from tracker.strength.filtering import Day
from tracker.strength.forecast import MOST_WEEKS
from tracker.strength.gains import PUBLISHED, needed_each_week
from tracker.strength.goal import chance_by, outlook
from tracker.strength.holds import percent
from tracker.units import Mass, Unit, from_kg

REMINDER = "A goal is no reason to test: your coach's word goes first."
OVER = "The day is over. Set another day, or give the goal up; what was done stays."
UNJUDGED = Course()
_judged: LastUsed[Hashable, dict[date, tuple[Day, bool, float | None]]] = LastUsed(64)


@dataclass(frozen=True, slots=True)
class GoalView:
    """A goal and all that is said of it; numbers are missing where too little is known.

    `chance` is that the nRM comes to the load in some week up to the day, or that the next go at a piece is as good; `test`
    that one test on that day makes it; `even` the first day by which the nRM is as likely as not there.
    """

    row: GoalRow
    title: str
    reached: Reached | None
    over: bool = False
    chance: float | None = None
    test: float | None = None
    even: date | None = None
    course: Course = UNJUDGED
    lines: tuple[str, ...] = ()
    why: tuple[str, ...] = ()


@may("see")
@cached_until_write
def lift_goals(log: Log, member: MemberRecord, lift: LiftRecord, *, unit: Unit, day: date) -> tuple[GoalView, ...]:
    """Say what there is to say of the open goals in a lift, in a unit, on a day."""
    with log.reading() as session:
        rows = [each for each in log_goals.goals(session, member.id, lift_id=lift.id) if each.ended is None]
        trained = log_sessions.training_days(session, member.id, day) if rows else ()
    if not rows:
        return ()
    history = estimates.history(log, member.id, lift)
    return tuple(_lift_goal(log, member, row, history, trained, unit, day) for row in rows)


@may("see")
@cached_until_write
def piece_goals(log: Log, member_id: str, title: str, *, day: date) -> tuple[GoalView, ...]:
    """Say what there is to say of the open goals in pieces of one title."""
    with log.reading() as session:
        rows = [each for each in log_goals.goals(session, member_id, piece_title=title) if each.ended is None]
        scores = log_scores.scores_of(session, member_id, title=title, until=day) if rows else ()
        done = {each.id: read_reached(session, member_id, each) for each in rows}
    found: list[GoalView] = []
    for row in rows:
        assert isinstance(row.aim, PieceAim)
        title_words, over = _title(row), row.by is not None and row.by < day
        if done[row.id] is not None:
            found.append(GoalView(row, title_words, done[row.id]))
            continue
        go = next_go(row.aim.score, [each.score for each in scores])
        said = go.words if go.chance is None else f"{percent(go.chance)} likely in the next go. {go.words}"
        found.append(GoalView(row, title_words, None, over, go.chance, lines=((OVER,) if over else ()) + (said,)))
    return tuple(found)


@may("see")
@cached_until_write
def reached_on(log: Log, member_id: str, day: date) -> tuple[GoalView, ...]:
    """Return the open goals that were reached on a day, by what was done on it."""
    with log.reading() as session:
        rows = [each for each in log_goals.goals(session, member_id) if each.ended is None]
        done = [(row, read_reached(session, member_id, row)) for row in rows]
    return tuple(GoalView(row, _title(row), what) for row, what in done if what is not None and what.day == day)


@may("see")
def view_of(log: Log, member: MemberRecord, row: GoalRow, *, day: date) -> GoalView:
    """Say what there is to say of one goal, in the member's own unit; of an ended one what it was."""
    if row.ended is not None:
        return GoalView(row, _title(row), reached(log, member.id, row) if row.ended == "reached" else None)
    if isinstance(row.aim, LiftAim):
        found = lift_goals(log, member, row.aim.lift, unit=member.unit, day=day)
    else:
        found = piece_goals(log, member.id, row.aim.score.piece.title, day=day)
    return next(each for each in found if each.row.id == row.id)


@may("see")
@cached_until_write
def preview(
    log: Log, member: MemberRecord, lift: LiftRecord, *, reps: int, load: Mass, by: date | None, day: date
) -> str:
    """Say how likely a goal would be, before it is set; empty where nothing can be said."""
    history = estimates.history(log, member.id, lift)
    model, moved = history.model, history.moved_kg(load, day)
    today = max(day, model.last_day) if model else day
    if model is None or rests_on_little(history, today) or moved <= 0:
        return TREND
    if by is not None and not today < by <= today + timedelta(weeks=MOST_WEEKS):
        return ""
    seen = outlook(model, moved, reps, today)
    if by is not None:
        return f"{percent(seen.by((by - today).days / 7))} likely by then, if you train on as you have."
    return _even(None if seen.even is None else today + timedelta(weeks=seen.even), today)


def _title(row: GoalRow) -> str:
    return f"{what_words(row.aim)}, {by_words(row.by)}"


def _lift_goal(
    log: Log, member: MemberRecord, row: GoalRow, history: LiftHistory, trained: Sequence[date], unit: Unit, day: date
) -> GoalView:
    assert isinstance(row.aim, LiftAim)
    title, done = _title(row), reached(log, member.id, row)
    if done is not None:
        return GoalView(row, title, done)
    model, reps = history.model, row.aim.reps
    if row.by is not None and row.by < day:
        return GoalView(row, title, None, over=True, lines=(OVER,))
    today = max(day, model.last_day) if model else day
    if model is None or rests_on_little(history, today):
        return GoalView(row, title, None, lines=(TREND,))
    load = history.moved_kg(row.aim.load, day)
    if load <= 0:
        return GoalView(row, title, None, lines=("Nothing is moved with that much help: no chance can be told.",))
    seen = outlook(model, load, reps, today, by=max(row.by, today) if row.by else None)
    weeks = (row.by - today).days / 7 if row.by else None
    even = None if seen.even is None else today + timedelta(weeks=seen.even)
    course = UNJUDGED
    if row.by is not None:
        key = (log.name, member.id, row.id, reps, load, row.by, row.made_on)
        course = _course(key, model, load, reps, row, day, sorted({*trained, *(each.day for each in model.days)}))
    person = Person(
        days_off=(day - trained[-1]).days if trained else None, minor=member.minor, nothing_heavy=member.no_heavy
    )
    test = seen.test if held_back(person, test=True) is None else None
    chance = None if weeks is None else seen.by(weeks)
    now = model.estimate(today).rep_max[reps].estimate
    ahead = weeks if weeks is not None else float(seen.even if seen.even is not None else MOST_WEEKS)
    needs = needed_each_week(now, load, ahead)
    lines = (_chance(chance, row), _even(even, today), _needs(needs.kg, needs.percent, needs.words, unit, row))
    away = (day - trained[-1]).days if trained else 0
    why = (
        _test(test, row),
        "It supposes that you train on as you have." if away < LAY_OFF_DAYS else BACK,
        PUBLISHED,
        NO_PROMISE,
        REMINDER,
    )
    return GoalView(
        row, title, None, False, chance, test, even, course, tuple(filter(None, (*lines, course_words(course, row, day)))),
        tuple(filter(None, why)),
    )  # fmt: skip


BACK = "It supposes that you take it up again and train as you did."


def _course(
    key: Hashable, model: LiftModel, load: float, reps: int, row: GoalRow, day: date, trained: list[date]
) -> Course:
    """Judge the weeks since the goal was set; a day that stays as it was is not judged twice."""
    assert row.by is not None
    made = _judged.get(key) or {}
    known: dict[date, tuple[Day, bool, float | None]] = {}
    for each in model.days:
        if each.day >= row.made_on:
            before = made.get(each.day)
            known[each.day] = before if before and before[0] is each else (each, is_hard(each, model, reps), None)
    hard = [when for when, (_, is_one, _) in known.items() if is_one]
    judged: list[Judged] = []
    for when in asked_days(hard, trained, since=row.made_on, by=row.by, today=day):
        if model.days[0].day > when:
            continue
        last = known.get(when)
        chance = last[2] if last and last[2] is not None else chance_by(model, load, reps, when, row.by)
        if last:
            known[when] = (last[0], last[1], chance)
        judged.append(Judged(when, chance))
    _judged.keep(key, known)
    return course_of(judged, resting=is_rest(trained, day))


def course_words(course: Course, row: GoalRow, day: date) -> str:
    """Say whether somebody is on course, since when, and that a rest is not judged."""
    if row.by is None:
        return ""
    if not course.state or course.since is None:
        return (
            "Whether you are on course shows after the next hard set."
            if not course.resting
            else "On a rest nothing is judged."
        )
    since = "since today" if course.since == day else f"since {full_day(course.since)}"
    more = " At present nothing is judged: a rest and the weeks after it change nothing." if course.resting else ""
    if course.state == "on course":
        return f"On course {since}.{more}"
    return f"Not on course yet ({since}): another day or load may suit it better.{more}"


def _chance(chance: float | None, row: GoalRow) -> str:
    if chance is None or row.by is None:
        return ""
    assert isinstance(row.aim, LiftAim)
    return f"{percent(chance)} likely: your {row.aim.reps}RM is there in some week up to {full_day(row.by)}."


def _even(even: date | None, today: date) -> str:
    if even is None:
        return f"One in two: not within {MOST_WEEKS} weeks."
    return "One in two: today already." if even == today else f"One in two: from about {full_day(even)} on."


def _needs(kg: float, share: float, words: str, unit: Unit, row: GoalRow) -> str:
    if kg <= 0:
        return words
    amount = from_kg(kg, unit)
    until = "by then" if row.by else "until then"
    return f"It takes about {amount:.1g} {unit} a week {until} ({share:.2g} % a week). {words}" if amount < 1 else (
        f"It takes about {amount:.1f} {unit} a week {until} ({share:.2g} % a week). {words}"
    )  # fmt: skip


def _test(test: float | None, row: GoalRow) -> str:
    if test is None or row.by is None:
        return ""
    return f"One test on {full_day(row.by)} itself would make it with {percent(test)}: that day's form counts, and no other day does."
