"""Best marks of a lift: the most load for 1 to 12 repetitions, done and estimated; and its repetition curve."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.maxes import estimates
from tracker.desk.maxes.estimates import LiftHistory
from tracker.log.records import LiftRecord, MemberRecord, RepMaxRow, SetRow
from tracker.log.unit_of_work import Log
from tracker.strength.estimator import TrendPoint
from tracker.strength.records import REP_MAXES, Band
from tracker.units import Mass, Unit

# Per cent of the 1RM that an nRM represents: NSCA Training Load Chart, which has no 11. Published; the chart was seen.
COMMON_CHART = {1: 100, 2: 95, 3: 93, 4: 90, 5: 87, 6: 85, 7: 83, 8: 80, 9: 77, 10: 75, 12: 70}
CHART_SOURCE = "National Strength and Conditioning Association, Training Load Chart"


@dataclass(frozen=True, slots=True)
class BestMark:
    """The most load for `reps` repetitions: what was done, as typed, and what was estimated, in the unit of the view."""

    reps: int
    done: Mass | None
    done_reps: int | None
    done_on: date | None
    estimated: Band | None
    estimated_on: date | None
    before: Mass | None = None  # what it beat: the most that was done on days before; nothing where it was the first
    before_on: date | None = None


@dataclass(frozen=True, slots=True)
class Beaten:
    """A best mark that beat another one: so many repetitions, the load and its day, and what stood there before."""

    lift: LiftRecord
    reps: int
    load: Mass
    day: date
    before: Mass
    before_on: date


@dataclass(frozen=True, slots=True)
class CurveView:
    """One nRM on one day: the member's, and what the common chart makes of the one that is known best."""

    reps: int
    own: Band
    common: float | None


@may("see")
def best_marks(
    log: Log, member: MemberRecord, lift: LiftRecord, *, unit: Unit | None = None, until: date | None = None
) -> tuple[BestMark, ...]:
    """List the best marks of a lift with its implement, for 1 to 12 repetitions.

    A set of five also counts for four and fewer. Sets left out of the estimate count for nothing. The estimated mark is
    the highest that the estimate ever was, seen from now where hindsight tells, the day `until` itself among its days.
    """
    history = estimates.history(log, member.id, lift)
    shown: Unit = unit or member.unit
    done = _done(history.sets, history.rep_maxes, until)
    points = history.model.trend() if history.model else ()
    points = tuple(point for point in points if until is None or point.day <= until)
    if history.model is not None and until is not None and points and until > history.model.last_day:
        now = history.model.estimate(until)  # as on the trend: what is believed today, also without a set today
        points = (*points, TrendPoint(until, now, None))
    return tuple(_mark(reps, done, points, history, shown) for reps in REP_MAXES)


@may("see")
@cached_until_write
def last_beaten(log: Log, member_id: str, lift: LiftRecord, until: date) -> Beaten | None:
    """Return the best mark of a lift that was set last, for the most repetitions that it counts for; None where none beat another.

    No estimate is made for it.
    """
    with log.reading() as session:
        stored = estimates.read_lift(session, log.name, member_id, lift)
    known = stored.known or stored
    done = _done(known.sets, known.rep_maxes, until)
    found = [
        (*best, *before, reps)
        for reps in REP_MAXES
        if (best := _best(done, reps)) and (before := _before(done, reps, best))
    ]
    if not found:
        return None
    _, load, day, _, old, old_day, reps = max(found, key=lambda each: (each[2], each[-1]))
    return Beaten(lift, reps, load, day, old, old_day)


Done = tuple[int, Mass, date]  # repetitions, load, day


def _done(sets: Sequence[SetRow], rep_maxes: Sequence[RepMaxRow], until: date | None) -> tuple[Done, ...]:
    found = [(row.reps, row.load, row.day) for row in sets if row.reps and not row.left_out]
    found += [(row.reps, row.load, row.day) for row in rep_maxes if row.source == "tested"]
    return tuple(each for each in found if until is None or each[2] <= until)


def _best(done: Sequence[Done], reps: int) -> Done | None:
    """Return the most load for so many repetitions or more; of equal ones the first, and of a day's the most repetitions."""
    fit = [each for each in done if each[0] >= reps]
    return max(fit, key=lambda each: (each[1].kg, -each[2].toordinal(), each[0])) if fit else None


def _before(done: Sequence[Done], reps: int, best: Done) -> Done | None:
    """Return what a best mark beat: the best of earlier days, where that is less."""
    before = _best([each for each in done if each[2] < best[2]], reps)
    return before if before and before[1].kg < best[1].kg else None


def _mark(
    reps: int, done: Sequence[Done], points: tuple[TrendPoint, ...], history: LiftHistory, unit: Unit
) -> BestMark:
    best = _best(done, reps)
    before = _before(done, reps, best) if best else None
    band, day = None, None
    for point in points:
        now = history.bar((point.smoothed or point.filtered).rep_max[reps], point.day, unit)
        if band is None or now.estimate > band.estimate:
            band, day = now, point.day
    done_reps, load, done_on = best or (None, None, None)
    return BestMark(
        reps, load, done_reps, done_on, band, day, before[1] if before else None, before[2] if before else None
    )


@may("see")
def curve(
    log: Log, member: MemberRecord, lift: LiftRecord, day: date, *, unit: Unit | None = None
) -> tuple[CurveView, ...]:
    """Return the member's curve on a day beside the common chart; empty where nothing is known yet.

    The chart is hung on the repetitions at which the member's own estimate is surest, so that the two are compared where
    they can be. Where the body is lifted the chart, which is of the whole load, is left out.
    """
    history = estimates.history(log, member.id, lift)
    if history.model is None or (history.sets and history.sets[0].day > day):
        return ()
    shown: Unit = unit or member.unit
    known = history.model.estimate(max(day, history.model.trend()[0].day)).rep_max
    surest = min(COMMON_CHART, key=lambda reps: known[reps].high80 / known[reps].low80)
    one = known[surest].estimate / COMMON_CHART[surest]
    return tuple(
        CurveView(
            reps,
            history.bar(band, day, shown),
            None
            if lift.body or reps not in COMMON_CHART
            else history.bar(Band(*(one * COMMON_CHART[reps],) * 3), day, shown).estimate,
        )
        for reps, band in sorted(known.items())
    )
