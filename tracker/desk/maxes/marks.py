"""Best marks of a lift: the most load for 1 to 12 repetitions, done and estimated; and its repetition curve."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from tracker.desk.base.roles import may
from tracker.desk.maxes import estimates
from tracker.desk.maxes.estimates import LiftHistory
from tracker.log.keeper import Log
from tracker.log.records import LiftRecord, MemberRecord
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
    the highest that the estimate ever was, seen from now where hindsight tells.
    """
    history = estimates.history(log, member.id, lift)
    shown: Unit = unit or member.unit
    done = _done(history, until)
    points = history.model.trend() if history.model else ()
    points = tuple(point for point in points if until is None or point.day <= until)
    return tuple(_mark(reps, done, points, history, shown) for reps in REP_MAXES)


def _done(history: LiftHistory, until: date | None) -> tuple[tuple[int, Mass, date], ...]:
    sets = [(row.reps, row.load, row.day) for row in history.sets if row.reps and not row.left_out]
    sets += [(row.reps, row.load, row.day) for row in history.rep_maxes if row.source == "tested"]
    return tuple(each for each in sets if until is None or each[2] <= until)


def _mark(
    reps: int,
    done: tuple[tuple[int, Mass, date], ...],
    points: tuple[TrendPoint, ...],
    history: LiftHistory,
    unit: Unit,
) -> BestMark:
    fit = [each for each in done if each[0] >= reps]
    best = max(fit, key=lambda each: (each[1].kg, each[0], -each[2].toordinal())) if fit else None
    band, day = None, None
    for point in points:
        now = history.bar((point.smoothed or point.filtered).rep_max[reps], point.day, unit)
        if band is None or now.estimate > band.estimate:
            band, day = now, point.day
    return BestMark(reps, best[1] if best else None, best[0] if best else None, best[2] if best else None, band, day)


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
