"""Where a wave ends for a class: who is believed to stand where, whose max will be old by then, and one day to test on for all.

No promise, and nobody is urged to test: from whom tests are held back is named, and coach and member have the last word.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.day.scene import read_scene
from tracker.desk.maxes import estimates
from tracker.desk.maxes.little import rests_on_little
from tracker.desk.maxes.references import ago, references, shown_load
from tracker.desk.maxes.words import full_day
from tracker.errors import BadInputError
from tracker.log import members as log_members
from tracker.log import sessions as log_sessions
from tracker.log import waves as log_waves
from tracker.log.records import LiftRecord, MemberRecord, MemberStepRow
from tracker.log.unit_of_work import Log
from tracker.prescription.rounding import OLD_WEEKS
from tracker.prescription.sheet.model import WEEKDAYS
from tracker.safety import held_back
from tracker.strength.forecast import MOST_WEEKS, forecast_on
from tracker.strength.records import REP_MAXES, Band
from tracker.wording import counted

LOOKED_BACK = timedelta(weeks=8)  # on which weekdays somebody trained
USUALLY = 3  # times in them at least; own choice
AROUND = range(-6, 8)  # days around the wave's end that are looked at
MOST_NAMED = 6


@dataclass(frozen=True, slots=True)
class StandsThen:
    """One member and lift at the wave's end: what is believed of its nRM now and then, in the member's unit.

    `stale` says why the max in use will not do by then; empty where it will, or where the wave ends with a test of it.
    """

    member: MemberRecord
    lift: LiftRecord
    reps: int
    now: Band | None
    then: Band | None
    stale: str


@dataclass(frozen=True, slots=True)
class WaveEnd:
    """The last day that a class has planned, who stands where, and which day suits most for a test."""

    ends: date
    stands: tuple[StandsThen, ...]
    test_day: date | None
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Of:
    """What is known of one member's coming weeks."""

    member: MemberRecord
    steps: tuple[MemberStepRow, ...]
    weekdays: frozenset[int]
    held: str


@may("lead")
@cached_until_write
def wave_end(log: Log, member_ids: Sequence[str], day: date) -> WaveEnd | None:
    """Look at the end of what the members have planned; None where nobody has anything planned.

    Raises:
        BadInputError: if a member is not in the log any more.
    """
    known = [_read(log, each, day) for each in dict.fromkeys(member_ids)]
    planned = sorted((each for each in known if each.steps), key=lambda each: each.member.name.casefold())
    if not planned:
        return None
    ends = max(step.due for each in planned for step in each.steps)
    stands = tuple(one for each in planned for one in _stands(log, each, day, ends))
    test_day, words = _one_day(planned, day, ends)
    return WaveEnd(ends, stands, test_day, words)


def _read(log: Log, member_id: str, day: date) -> _Of:
    with log.reading() as session:
        member = log_members.member(session, member_id)
        if member is None:
            raise BadInputError("A member is not in the log any more.", where="class", mend="Choose again.")
        scene = read_scene(session, log.name, member, None, day)
        steps = log_waves.member_steps(session, member_id)
        days = log_sessions.training_days(session, member_id, day)
    coming = tuple(each for each in steps if each.state == "planned" and not each.own and each.due > day)
    lately = [each.weekday() for each in days if each >= day - LOOKED_BACK]
    usual = frozenset(each for each in lately if lately.count(each) >= USUALLY)
    held = held_back(scene.person, test=True)
    return _Of(member, coming, usual, held.text if held else "")


def _stands(log: Log, of: _Of, day: date, ends: date) -> Iterator[StandsThen]:
    wanted: dict[tuple[str, int], LiftRecord] = {}
    for row in (row for step in of.steps for row in step.sets):
        reps = row.reps if row.test else row.of_reps
        if reps in REP_MAXES:
            lift = row.lift if row.test else row.of_lift or row.lift
            wanted.setdefault((lift.id, reps), lift)
    tested = {(row.lift.id, row.reps) for step in of.steps for row in step.sets if row.test}
    for (_, reps), lift in wanted.items():
        history = estimates.history(log, of.member.id, lift)
        now = then = None
        if history.model is not None and not rests_on_little(history, day) and (ends - day).days <= 7 * MOST_WEEKS:
            told = (history.model.estimate(day), forecast_on(history.model, day, (ends,))[0])
            now, then = (history.bar(each.rep_max[reps], day, of.member.unit) for each in told)
        stale = "" if (lift.id, reps) in tested else _stale(history, reps, day, ends, of.member)
        yield StandsThen(of.member, lift, reps, now, then, stale)


def _stale(history: estimates.LiftHistory, reps: int, day: date, ends: date, member: MemberRecord) -> str:
    """Say why the max in use will not do at the wave's end; empty where it will."""
    found = next(
        (each for each in references(history, reps, day, member.unit) if each.source in ("tested", "declared")), None
    )
    if found is None:
        return f"no {reps}RM was tested or declared"
    if found.age_days(ends) <= OLD_WEEKS * 7:
        return ""
    return f"{found.source} {reps}RM {shown_load(found.load)}, by then {ago(found.age_days(ends))}"


def _one_day(planned: Sequence[_Of], day: date, ends: date) -> tuple[date | None, tuple[str, ...]]:
    """Choose the day around the wave's end on which most usually train, the nearest of several, and say why."""
    may_test = [each for each in planned if not each.held]
    held = [each.member.name for each in planned if each.held]
    words = [f"Tests are held back from {_names(held)}: their coach and they know why."] if held else []
    days = [ends + timedelta(days=each) for each in AROUND if ends + timedelta(days=each) > day]
    if not may_test or not any(each.weekdays for each in may_test):
        return None, (*words, "Nobody has a usual day of the week yet, so none can be said to suit most.")
    best = max(
        days, key=lambda each: (sum(each.weekday() in one.weekdays for one in may_test), -abs((each - ends).days))
    )
    there = [each for each in may_test if best.weekday() in each.weekdays]
    weekday = WEEKDAYS[best.weekday()]
    said = (
        f"{full_day(best)} suits most: {len(there)} of {counted(len(may_test), 'member')} usually train on a {weekday}."
    )
    others = [each.member.name for each in may_test if each not in there]
    more = [f"Not usual for {_names(others)}: ask them."] if others else []
    return best, (said, *more, *words)


def _names(names: Sequence[str]) -> str:
    shown = list(names[:MOST_NAMED]) + ([counted(len(names) - MOST_NAMED, "other")] if len(names) > MOST_NAMED else [])
    return f"{', '.join(shown[:-1])} and {shown[-1]}" if len(shown) > 1 else shown[0]
