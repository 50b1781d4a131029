"""The trend of a lift: estimate with its band over time, tested maxes as facts, published formulas beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from tracker.desk.base.roles import may
from tracker.desk.maxes import estimates
from tracker.desk.maxes.attempts_made import tests_of, usual_of
from tracker.desk.maxes.estimates import LiftHistory
from tracker.desk.maxes.gain import Gain, gain_since
from tracker.desk.maxes.little import TREND, rests_on_little
from tracker.desk.maxes.references import references
from tracker.desk.maxes.standing_miss import StandingMiss, standing_miss
from tracker.log import rep_maxes as log_rep_maxes
from tracker.log import sessions as log_sessions
from tracker.log import sets as log_sets
from tracker.log import waves as log_waves
from tracker.log.records import LiftRecord, MemberRecord, RepMaxRow, SetRow
from tracker.log.unit_of_work import Log
from tracker.prescription.rounding import rounded
from tracker.strength.formulas import WINDOW_DAYS, FormulaValue, best_values
from tracker.strength.records import Band, SetRecord
from tracker.units import Mass, Unit


@dataclass(frozen=True, slots=True)
class TrendPoint:
    """One day: what could be known then, and what is known of it now (hindsight)."""

    day: date
    band: Band
    smoothed: Band | None


@dataclass(frozen=True, slots=True)
class Fact:
    """A tested or declared rep-max, in the unit of the view; or one that was `set aside`."""

    day: date
    reps: int
    load: float
    source: str


@dataclass(frozen=True, slots=True)
class TrendView:
    """All that the trend page shows of one lift, in one unit and for one nRM."""

    lift: LiftRecord
    unit: Unit
    reps: int
    points: tuple[TrendPoint, ...]
    facts: tuple[Fact, ...]
    sets: tuple[SetRow, ...]
    now: Band | None
    all_now: tuple[tuple[int, Band], ...]  # nRM for each n, today
    formulas: tuple[FormulaValue, ...]
    flags: tuple[str, ...]
    trained: tuple[date, ...] = ()  # days with training of any kind, so that only real lay-offs look like ones
    would_narrow: str = ""  # what would narrow a wide band, in words
    missed: tuple[Fact, ...] = ()  # attempts at this nRM in tests that were not made
    contradicts: str = ""  # where the newest test lies outside the estimate's band: that it does, and what that means
    gain: Gain | None = None  # what became of it since the first day that was asked for
    miss: StandingMiss | None = None  # what was missed lately at no more than the estimate, and not made since
    little: str = ""  # that nothing is said of a max, because a few easy sets are all that is known


@may("see")
def lifts_done(log: Log, member_id: str) -> tuple[tuple[LiftRecord, int, date], ...]:
    """List the member's lifts with how many sets and the newest day, the most lately done first."""
    with log.reading() as session:
        return log_sets.lifts_done(session, member_id)


@may("see")
def usual_reps(log: Log, member_id: str, lift: LiftRecord) -> int:
    """Return for how many repetitions the newest rep-max of a lift is known, since that is what one looks for; else 1."""
    return usual_of(estimates.history(log, member_id, lift))


@may("see")
def trend(
    log: Log,
    member: MemberRecord,
    lift: LiftRecord,
    *,
    day: date,
    reps: int = 1,
    unit: Unit | None = None,
    since: date = date.min,
    hindsight: bool = True,
) -> TrendView:
    """Read the trend of the nRM of one lift.

    Args:
        log: The log.
        member: Whose trend.
        lift: Of which lift.
        day: The day that is today where the reader is.
        reps: Which nRM.
        unit: The unit of every load; without it the member's own.
        since: The first day of which a point is wanted.
        hindsight: Whether to say of each day what is known of it now; that costs a pass over all days after each act.
    """
    shown: Unit = unit or member.unit
    history = estimates.history(log, member.id, lift)
    facts = _facts(history, shown, _set_aside(log, member.id, lift))
    if history.model is None or rests_on_little(history, max(day, history.model.last_day)):
        little = TREND if history.model else ""
        return TrendView(lift, shown, reps, (), facts, history.sets, None, (), (), (), little=little)
    points = (
        _seen_later(history, reps, shown, since) if hindsight else _seen_then(log, history, member, reps, shown, since)
    )
    now = history.model.estimate(max(day, history.model.last_day))
    every = tuple((n, history.bar(band, day, shown)) for n, band in sorted(now.rep_max.items()))
    known = history.bar(now.rep_max[reps], day, shown)
    recent = [record for each in reversed(history.model.days[-WINDOW_DAYS - 1 :]) for record in each.records]
    return TrendView(
        lift,
        shown,
        reps,
        points,
        facts,
        history.sets,
        known,
        every,
        _formulas(recent, day),
        _flags(history),
        _trained(log, member.id, day),
        history.model.would_narrow,
        _missed(history, reps, shown, since),
        _contradicts(history, reps, shown, known, day),
        gain_since(history, reps, shown, since, day),
        standing_miss(history, reps, shown, known, day),
    )


def _seen_later(history: LiftHistory, reps: int, unit: Unit, since: date) -> tuple[TrendPoint, ...]:
    """Return the days with sets, each as it was known then and as it is known now."""
    points = history.model.trend() if history.model else ()
    return tuple(
        TrendPoint(
            point.day,
            history.bar(point.filtered.rep_max[reps], point.day, unit),
            history.bar(point.smoothed.rep_max[reps], point.day, unit) if point.smoothed else None,
        )
        for point in points
        if point.day >= since
    )


def _seen_then(
    log: Log, history: LiftHistory, member: MemberRecord, reps: int, unit: Unit, since: date
) -> tuple[TrendPoint, ...]:
    """Return the days with sets, each as it was known then: see `estimates.known_then`."""
    if history.model is None:
        return ()
    then = estimates.known_then((log.name, member.id, history.lift.id), history.model, since)
    return tuple(
        TrendPoint(day, history.bar(estimate.rep_max[reps], day, unit), None) for day, estimate in then.items()
    )


def _trained(log: Log, member_id: str, today: date) -> tuple[date, ...]:
    with log.reading() as session:
        return log_sessions.training_days(session, member_id, today)


@may("see")
def waves(log: Log, member_id: str) -> tuple[tuple[str, date, date], ...]:
    """List name, first and last day of each wave that a member does or did."""
    with log.reading() as session:
        return log_waves.wave_spans(session, member_id)


def _set_aside(log: Log, member_id: str, lift: LiftRecord) -> tuple[RepMaxRow, ...]:
    with log.reading() as session:
        known = log_rep_maxes.rep_maxes(session, member_id, lift.id, also_aside=True)
    return tuple(row for row in known if row.aside)


def _facts(history: estimates.LiftHistory, unit: Unit, aside: Sequence[RepMaxRow] = ()) -> tuple[Fact, ...]:
    tests = [
        Fact(row.day, row.reps, float(row.load.to(unit)), "set aside" if row.left_out else "tested")
        for row in history.sets
        if row.kind == "test" and row.reps >= 1 and row.outcome == "done"
    ]
    tests += [Fact(row.day, row.reps, float(row.load.to(unit)), "set aside") for row in aside]
    stated = [Fact(row.day, row.reps, float(row.load.to(unit)), row.source) for row in history.rep_maxes]
    return tuple(sorted(tests + stated, key=lambda fact: fact.day))


def _missed(history: estimates.LiftHistory, reps: int, unit: Unit, since: date) -> tuple[Fact, ...]:
    """List the attempts at an nRM that failed."""
    tries = tests_of(history, reps, unit)
    return tuple(Fact(each.day, reps, each.load, "missed") for each in tries if not each.made and each.day >= since)


def _contradicts(history: estimates.LiftHistory, reps: int, unit: Unit, band: Band, today: date) -> str:
    """Say it where what was tested lies outside the band of the estimate: neither is hidden behind the other."""
    tested = next((each for each in references(history, reps, today, unit) if each.source == "tested"), None)
    if tested is None:
        return ""
    load = float(tested.load.to(unit))
    if band.low80 <= load <= band.high80:
        return ""
    side = "above" if load > band.high80 else "below"
    return (
        f"The tested {reps}RM lies {side} what the estimate is 80 % sure of. The test is a fact of its day; "
        f"all other sets speak for {'less' if side == 'above' else 'more'}. A new test would settle it."
    )


def _formulas(records: Sequence[SetRecord], today: date) -> tuple[FormulaValue, ...]:
    return tuple(best_values(records, today).values())


def _flags(history: estimates.LiftHistory) -> tuple[str, ...]:
    return tuple(flag.words for flag in history.model.flags) if history.model else ()


def as_mass(amount: float, unit: Unit) -> Mass:
    """Make a mass of an estimate, to the half kilogram or the pound."""
    from decimal import Decimal

    return rounded(Mass(Decimal(repr(amount)), unit))
