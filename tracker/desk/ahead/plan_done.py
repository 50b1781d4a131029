"""After it: what a wave planned and what was done of it, what was foretold before it began and what was found; of one lift.

Nothing that was foretold is kept: it is worked out again from what was known on the day before the wave's first session,
with the load that was lifted in the end.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.maxes import estimates
from tracker.desk.maxes.estimates import LiftHistory
from tracker.desk.maxes.little import rests_on_little
from tracker.log import waves as log_waves
from tracker.log.records import LiftRecord, MemberRecord, MemberStepRow, PlannedSetRow, SetRow
from tracker.log.unit_of_work import Log
from tracker.strength.belief import Belief
from tracker.strength.chance import AskedSet, chances_of
from tracker.strength.forecast import MOST_WEEKS, beliefs_on
from tracker.wording import counted

LOOKED_BACK = timedelta(weeks=26)
ENOUGH = 20  # sets; with fewer nothing is said of how well it was foretold; own choice


@dataclass(frozen=True, slots=True)
class WeekDone:
    """One week: sets that were planned for it, that were done in it of any plan, and of those foretold how many were to be made, and were."""

    monday: date
    planned: int = 0
    done: int = 0
    foretold: float = 0.0
    asked: int = 0  # of the done ones: those of which something was foretold
    made: int = 0


@dataclass(frozen=True, slots=True)
class PlanDone:
    """What was planned, done, foretold and found of one lift, week by week, and in words."""

    weeks: tuple[WeekDone, ...]
    words: str


@dataclass(frozen=True, slots=True)
class _Told:
    """One set that was done of a plan: its day, how likely it was said to be (None: nothing was), and whether it was made."""

    day: date
    chance: float | None
    made: bool


@may("see")
@cached_until_write
def plan_done(log: Log, member: MemberRecord, lift: LiftRecord, day: date) -> PlanDone:
    """Lay what was done of the last half year's waves against what they planned, and what was foretold against what was found."""
    since = day - LOOKED_BACK
    with log.reading() as session:
        steps = log_waves.member_steps(session, member.id)
    history = estimates.history(log, member.id, lift)
    mine = [each for each in steps if not each.own and since <= each.due <= day]
    planned = {(step.id, row.id): row for step in mine for row in step.sets if row.lift.id == lift.id}
    began = {wave: min(each.due for each in steps if each.wave_id == wave) for wave in {each.wave_id for each in mine}}
    told = [
        one
        for wave, first in began.items()
        for one in _told(history, [s for s in mine if s.wave_id == wave], planned, first)
    ]
    weeks = _weeks(mine, planned, told)
    return PlanDone(weeks, _words(weeks))


def _told(
    history: LiftHistory, steps: Sequence[MemberStepRow], planned: Mapping[tuple[str, str], PlannedSetRow], first: date
) -> Iterator[_Told]:
    """Foretell the sets that were done of a wave from what was known before its first session."""
    ids = {step.id for step in steps}
    done = [
        row for row in history.sets if row.member_step_id in ids and (row.member_step_id, row.planned_set_id) in planned
    ]
    by_day: dict[date, list[SetRow]] = {}
    for row in sorted(done, key=lambda row: (row.day, row.position)):
        by_day.setdefault(row.day, []).append(row)
    known = first - timedelta(days=1)
    beliefs = _beliefs(history, known, by_day)
    for day, rows in by_day.items():
        counted_in = [
            (before, row)
            for before, row in enumerate(rows)
            if _counts(planned[row.member_step_id or "", row.planned_set_id or ""], row)
        ]
        asked = [AskedSet(row.moved_kg, _reps(planned, row), before) for before, row in counted_in]
        chances = chances_of(*beliefs[day], asked) if day in beliefs else ()
        by_row = {row.id: chance for (_, row), chance in zip(counted_in, chances, strict=False)}
        for row in rows:
            yield _Told(day, by_row.get(row.id), row.outcome == "done" and row.reps >= _reps(planned, row))


def _reps(planned: Mapping[tuple[str, str], PlannedSetRow], row: SetRow) -> int:
    return planned[row.member_step_id or "", row.planned_set_id or ""].reps


def _counts(planned: PlannedSetRow, row: SetRow) -> bool:
    """Whether a set says something of a forecast: not of a test, of as many as there are, or one ended for another reason."""
    return not (planned.test or planned.rep_out or row.left_out or row.outcome == "cut") and row.moved_kg > 0


def _beliefs(
    history: LiftHistory, known: date, days: Iterable[date]
) -> Mapping[date, tuple[Belief, tuple[int, int] | None]]:
    model = history.model
    if model is None or model.days[0].day > known or rests_on_little(history, known):
        return {}
    ahead = sorted(day for day in days if known < day <= known + timedelta(weeks=MOST_WEEKS))
    told = model.known(known).told
    return {day: (belief, told) for day, belief in beliefs_on(model, known, ahead)}


def _weeks(
    steps: Sequence[MemberStepRow], planned: Mapping[tuple[str, str], PlannedSetRow], told: Sequence[_Told]
) -> tuple[WeekDone, ...]:
    asked = [(_monday(step.due), row.sets) for step in steps for row in step.sets if (step.id, row.id) in planned]
    mondays = sorted({monday for monday, _ in asked} | {_monday(each.day) for each in told})
    if not mondays:
        return ()
    every = [mondays[0] + timedelta(weeks=week) for week in range((mondays[-1] - mondays[0]).days // 7 + 1)]
    return tuple(
        _week(
            monday, [sets for at, sets in asked if at == monday], [each for each in told if _monday(each.day) == monday]
        )
        for monday in every
    )


def _week(monday: date, planned: Sequence[int], told: Sequence[_Told]) -> WeekDone:
    known = [each for each in told if each.chance is not None]
    return WeekDone(
        monday,
        sum(planned),
        len(told),
        sum(each.chance or 0 for each in known),
        len(known),
        sum(each.made for each in known),
    )


def _monday(day: date) -> date:
    return day - timedelta(days=day.weekday())


def _words(weeks: Sequence[WeekDone]) -> str:
    planned, done, asked = (sum(getattr(week, part) for week in weeks) for part in ("planned", "done", "asked"))
    if not planned:
        return "No session of a sheet had this lift in the last half year."
    said = f"Of {counted(planned, 'planned set')} {done} {'is' if done == 1 else 'are'} done."
    if not asked:
        return f"{said} Too little was known before to foretell them."
    foretold, made = sum(week.foretold for week in weeks), sum(week.made for week in weeks)
    few = " They are too few to judge by." if asked < ENOUGH else ""
    return (
        f"{said} Of {counted(asked, 'set')} as lifted, {foretold:.0f} were foretold to be made before the wave began, and {made} "
        f"{'was' if made == 1 else 'were'}.{few}"
    )
