"""All lifts of a member at a glance: the nRM of each, what became of it in three months, and what was tested."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.maxes import estimates
from tracker.desk.maxes.attempts_made import Attempt, tests_of, usual_of
from tracker.desk.maxes.gain import Gain, gain_since
from tracker.desk.maxes.little import rests_on_little
from tracker.desk.maxes.references import Reference, references
from tracker.desk.maxes.standing_miss import StandingMiss, standing_miss
from tracker.log.records import LiftRecord, MemberRecord
from tracker.log.unit_of_work import Log
from tracker.strength.records import Band
from tracker.units import Unit

GLANCE_DAYS = 91  # three months, as the shortest period of the trend


@dataclass(frozen=True, slots=True)
class LiftGlance:
    """One lift in three months, in one unit: the estimate day by day, its change, and tests apart."""

    lift: LiftRecord
    reps: int
    unit: Unit
    first: date  # the first day of the picture
    points: tuple[tuple[date, Band], ...]  # oldest first, the last of today; none where too little is known
    gain: Gain | None
    tests: tuple[Attempt, ...]  # of this nRM in these months, made and missed
    tested: Reference | None  # the newest tested nRM, however old
    miss: StandingMiss | None = None  # what was missed lately at no more than the estimate, and not made since

    @property
    def now(self) -> Band | None:
        return self.points[-1][1] if self.points else None


@may("see")
@cached_until_write
def glance(log: Log, member: MemberRecord, lift: LiftRecord, day: date) -> LiftGlance:
    """Read one lift as it stands in the list of all."""
    history = estimates.history(log, member.id, lift)
    reps, first = usual_of(history), day - timedelta(days=GLANCE_DAYS)
    tested = next((each for each in references(history, reps, day, member.unit) if each.source == "tested"), None)
    attempts = tuple(each for each in tests_of(history, reps, member.unit) if first <= each.day <= day)
    if history.model is None or rests_on_little(history, max(day, history.model.last_day)):
        return LiftGlance(lift, reps, member.unit, first, (), None, attempts, tested)
    model = history.model
    begin, end = max(first, model.days[0].day), max(day, model.last_day)
    then = estimates.known_then((log.name, member.id, lift.id), model, begin)
    known = {begin: model.estimate(begin)} | then | {end: model.estimate(end)}
    points = tuple((when, history.bar(known[when].rep_max[reps], when, member.unit)) for when in sorted(known))
    gain = gain_since(history, reps, member.unit, first, day)
    miss = standing_miss(history, reps, member.unit, points[-1][1], day)
    return LiftGlance(lift, reps, member.unit, first, points, gain, attempts, tested, miss)


def today_first(lifts: Sequence[LiftRecord], today: Sequence[LiftRecord]) -> tuple[LiftRecord, ...]:
    """Order lifts: those of today's session first, in its order, then the others as they came."""
    known = {lift.id: lift for lift in lifts}
    first = [known[each] for each in dict.fromkeys(lift.id for lift in today) if each in known]
    return (*first, *(lift for lift in lifts if lift not in first))
