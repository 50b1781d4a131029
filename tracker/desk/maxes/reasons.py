"""Why the estimate is what it is, and how near each formula came before each test; both are worked out when asked for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.maxes import estimates
from tracker.desk.maxes.words import set_words
from tracker.log.records import LiftRecord, MemberRecord
from tracker.log.unit_of_work import Log
from tracker.strength.hindcast import Hindcast, hindcast
from tracker.strength.personal import learnt_by, population
from tracker.strength.records import Band, SetRecord
from tracker.strength.why import why
from tracker.units import Unit, from_kg


@dataclass(frozen=True, slots=True)
class Moved:
    """A set or a day, and by how much the nRM stands higher (or lower) for it, in the unit of the view."""

    words: str
    amount: float
    note: str = ""  # what the set says, where that is less than all


@dataclass(frozen=True, slots=True)
class Why:
    """What moved an nRM on the last day with sets: expected before, after, and each share."""

    day: date
    expected: Band
    after: Band
    sets: tuple[Moved, ...]
    earlier: tuple[tuple[date, float], ...]  # the last days before it, the newest first, each with what it moved


@dataclass(frozen=True, slots=True)
class Suits:
    """How near each formula and the estimate came before each tested max, and the member's own curve beside most people's."""

    hindcast: Hindcast
    own_at_80: float  # repetitions that 80 % of the 1RM has in it, for this member and lift
    most_at_80: float  # and for somebody of whom nothing is known


@may("see")
@cached_until_write
def why_now(log: Log, member: MemberRecord, lift: LiftRecord, reps: int, unit: Unit) -> Why | None:
    """Say what moved the nRM on the last day with sets; None where nothing is known yet."""
    history = estimates.history(log, member.id, lift)
    if history.model is None:
        return None
    found = why(history.model, history.model.last_day, reps)
    after = history.bar(found.after, found.day, unit)
    moved_by = from_kg(found.after.estimate, unit) / 100  # one per cent of what is moved
    shares: list[Moved] = []
    for each in found.sets:
        words = _set_of(history, each.record)
        note = (
            "hardly counted: it contradicts the others"
            if each.doubted
            else "says only at least this"
            if each.only_bound
            else ""
        )
        shares.append(Moved(words, moved_by * each.moved_percent, note))
    earlier = tuple((each.day, moved_by * each.moved_percent) for each in reversed(found.earlier))
    return Why(found.day, history.bar(found.expected, found.day, unit), after, tuple(shares), earlier)


def _set_of(history: estimates.LiftHistory, record: SetRecord) -> str:
    """Say the set of the log that a record was made of; a tested max that was stated without its set is none."""
    row = history.sets[record.order] if record.order < len(history.sets) else None
    if row is None or (row.day, row.reps, row.kind) != (record.day, record.reps, record.kind):
        return f"tested {record.reps}RM"
    return set_words(row)


@may("see")
@cached_until_write
def which_suits(log: Log, member: MemberRecord, lift: LiftRecord) -> Suits | None:
    """Score each formula on the member's own tests of a lift; None where nothing is known yet."""
    history = estimates.history(log, member.id, lift)
    if history.model is None:
        return None
    own, most = learnt_by(history.model), population(history.model.parameters)
    return Suits(hindcast(history.model), own.at_80_percent, most.at_80_percent)
