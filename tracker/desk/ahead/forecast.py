"""What may become of an nRM in the weeks to come, if its member trains on as they have: the fan of the trend."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.maxes import estimates
from tracker.desk.maxes.little import rests_on_little
from tracker.log.records import LiftRecord, MemberRecord
from tracker.log.unit_of_work import Log
from tracker.strength.forecast import forecast
from tracker.strength.forecast_record import Foretold as ForetoldOf
from tracker.strength.forecast_record import forecast_record
from tracker.strength.records import Band
from tracker.units import Unit

RESTED = 56  # days without the lift, from which on nobody goes on with it but takes it up again; own choice
EACH_WEEK, EACH_SECOND = 12, 26  # up to here every week has a point, every second one; beyond that every fourth
NO_PROMISE = "No promise, and it names no cause: which training makes stronger can't be told from a log."
NOTHING_YET = "Nothing of this lift could be foretold yet."


@dataclass(frozen=True, slots=True)
class Ahead:
    """One day to come, and what is believed today of the level then, in the unit of the view."""

    day: date
    band: Band


@dataclass(frozen=True, slots=True)
class Fan:
    """The weeks to come, the first point today; empty where too little is known. `words` say what it supposes."""

    points: tuple[Ahead, ...]
    words: str = ""


@dataclass(frozen=True, slots=True)
class Foretold:
    """A day that was foretold four weeks before, in the unit of the view, and what was found; `test` where one was made."""

    day: date
    band: Band
    found: float
    held: bool
    test: bool = False


@dataclass(frozen=True, slots=True)
class Record:
    """How often the forecast held for this member and lift: in words, and each time, oldest first."""

    words: str
    each: tuple[Foretold, ...] = ()


@may("see")
@cached_until_write
def fan(log: Log, member: MemberRecord, lift: LiftRecord, *, reps: int, unit: Unit, day: date, weeks: int) -> Fan:
    """Foretell an nRM of one lift for some weeks.

    Raises:
        BadInputError: if not from 1 to 104 weeks are asked for.
    """
    history = estimates.history(log, member.id, lift)
    model = history.model
    today = max(day, model.last_day) if model else day
    if model is None or rests_on_little(history, today):
        return Fan(())
    told = (model.estimate(today), *forecast(model, today, weeks, shown_weeks(weeks)))
    points = tuple(Ahead(each.day, history.bar(each.rep_max[reps], day, unit)) for each in told)
    rested = (today - model.last_day).days >= RESTED
    suppose = "if you take it up again and train as you did" if rested else "if you train on as you have"
    return Fan(points, f"Dashed, beyond today: what is believed now, 80 % sure, {suppose}. {NO_PROMISE}")


@may("see")
@cached_until_write
def record(log: Log, member: MemberRecord, lift: LiftRecord, *, reps: int, unit: Unit) -> Record:
    """Hold what would have been foretold of an nRM four weeks before against what was found."""
    history = estimates.history(log, member.id, lift)
    if history.model is None or rests_on_little(history, history.model.last_day):
        return Record(NOTHING_YET)
    found = forecast_record(history.model, reps)
    each = [
        _shown(one, history, unit, test=test)
        for some, test in ((found.weeks, False), (found.tests, True))
        for one in some
    ]
    return Record(found.words, tuple(sorted(each, key=lambda one: one.day)))


def _shown(each: ForetoldOf, history: estimates.LiftHistory, unit: Unit, *, test: bool) -> Foretold:
    found = history.bar(Band(each.found, each.found, each.found), each.day, unit).estimate
    return Foretold(each.day, history.bar(each.band, each.day, unit), found, each.held, test)


def shown_weeks(weeks: int) -> tuple[int, ...]:
    """Return the weeks that have a point of their own: fewer, the further off they are, and always the last."""
    near = [*range(1, EACH_WEEK + 1), *range(EACH_WEEK + 2, EACH_SECOND + 1, 2), *range(EACH_SECOND + 4, weeks + 1, 4)]
    return tuple(sorted({week for week in near if week <= weeks} | {weeks}))
