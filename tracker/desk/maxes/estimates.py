"""The estimate of a member's lift, from the log: kept in memory while it fits, made anew when it does not."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from operator import attrgetter

from tracker.desk.base.last_used import LastUsed
from tracker.desk.base.roles import may
from tracker.desk.people.people import body_mass_on
from tracker.log import members as log_members
from tracker.log import rep_maxes as log_rep_maxes
from tracker.log import sessions as log_sessions
from tracker.log import sets as log_sets
from tracker.log.changes_since import Stamp, days_of, stamp, touched_sets
from tracker.log.records import LiftRecord, RepMaxRow, SetRow
from tracker.log.unit_of_work import Log, Reader
from tracker.strength.estimator import LiftModel
from tracker.strength.filtering import Day
from tracker.strength.lift_curves import parameters_of
from tracker.strength.parameters import Parameters
from tracker.strength.records import Band, Estimate, SetRecord
from tracker.units import Mass, Unit, from_kg

Key = tuple[str, str, str]  # log, member, lift
KEPT = 64  # histories kept in memory, about 5 MB each for three years; each can be made again from the log
_kept: LastUsed[Key, tuple[tuple[SetRecord, ...], LiftModel]] = LastUsed(KEPT)
MOST_DAYS = 5  # days of which the sets are read again one by one
Read = tuple[SetRecord | None, ...]  # what the estimator reads of each set; None of one that is left out
_seen: LastUsed[Key, tuple[Stamp, LiftHistory, Read]] = LastUsed(KEPT)


_then: LastUsed[Key, dict[date, tuple[Day, Estimate]]] = LastUsed(16)  # what was known on each day, of so many trends


@dataclass(frozen=True, slots=True)
class LiftHistory:
    """All that the log knows of one lift of one member, and what is made of it."""

    lift: LiftRecord
    sets: tuple[SetRow, ...]
    rep_maxes: tuple[RepMaxRow, ...]
    body_masses: tuple[tuple[date, Mass], ...]
    model: LiftModel | None  # None where no set says anything yet

    def bar(self, moved: Band, day: date, unit: Unit) -> Band:
        """Turn a band of what is moved (kg) into what goes on the bar, or is added to the body, in `unit`."""
        body = body_mass_on(self.body_masses, day) if self.lift.body else None
        less = float(body.kg) if body else 0.0
        return Band(*(from_kg(value - less, unit) for value in (moved.estimate, moved.low80, moved.high80)))

    def share(self, load: Mass, share: Decimal, day: date) -> Mass:
        """Return the load that is a share of what is moved with `load`: where the body is lifted, body mass counts too.

        So 80 % of a pull-up with 20 kg at a body mass of 70 kg is 72 kg moved, 2 kg added; less than the body is assistance.
        """
        body = body_mass_on(self.body_masses, day) if self.lift.body else None
        also = body.to(load.unit) if body else Decimal(0)
        return Mass((load.amount + also) * share - also, load.unit)

    def moved_kg(self, load: Mass, day: date) -> float:
        """Return what is moved in kilograms when `load` is on the bar or added to the body."""
        body = body_mass_on(self.body_masses, day) if self.lift.body else None
        return float(load.kg) + (float(body.kg) if body else 0.0)

    def supposing(self, rows: Iterable[SetRow]) -> LiftHistory:
        """Return the history as it would be with these sets, in place of those of the same ids; nothing of it is kept."""
        others = {row.id: row for row in rows}
        sets = (*(others.pop(row.id, row) for row in self.sets), *others.values())
        if self.model is None:
            return replace(self, sets=sets)
        model = self.model.renewed(_in_order(_read(sets), self.rep_maxes, self.body_masses))
        return replace(self, sets=sets, model=model)


@dataclass(frozen=True, slots=True)
class Stored:
    """What the log holds of one lift of one member at one moment; `worked_out` makes a history of it."""

    key: Key
    lift: LiftRecord
    at: Stamp | None
    sets: tuple[SetRow, ...] = ()
    rep_maxes: tuple[RepMaxRow, ...] = ()
    body_masses: tuple[tuple[date, Mass], ...] = ()
    trained: tuple[date, ...] = ()  # days with a session of the member, of any kind
    known: LiftHistory | None = None  # nothing was written since that was made


@may("see")
def history(log: Log, member_id: str, lift: LiftRecord) -> LiftHistory:
    """Read one lift of one member, with its model; not again as long as nothing at all was written since."""
    with log.reading() as session:
        stored = read_lift(session, log.name, member_id, lift)
    return worked_out(stored)


def read_lift(session: Reader, log_name: str, member_id: str, lift: LiftRecord) -> Stored:
    """Read one lift of one member in a reading of whoever asks.

    Nothing is worked out of it here: that may take seconds, and an act of another process would wait so long for the
    reading to end.
    """
    key, now = (log_name, member_id, lift.id), stamp(session)
    seen = _seen.get(key)
    if seen and log_members.member(session, member_id) is None:
        seen = None  # what others brought into memory stands behind the same wall as the rows that it came from
    same = seen is not None and seen[1].lift == lift
    if seen and same and seen[0] == now:
        return Stored(key, lift, now, known=seen[1])
    sets = _mended(session, seen[0], seen[1].sets, key) if seen and same else None
    if sets is None:
        sets = log_sets.sets_of(session, member_id, lift_id=lift.id)
    rep_maxes = log_rep_maxes.rep_maxes(session, member_id, lift.id)
    body = log_members.body_masses(session, member_id) if lift.body else ()
    return Stored(key, lift, now, sets, rep_maxes, body, log_sessions.session_days(session, member_id))


def worked_out(stored: Stored) -> LiftHistory:
    """Make the history of a lift, with its model, of what was read."""
    if stored.known:
        return stored.known
    seen = _seen.get(stored.key)
    read = _read(stored.sets, *((seen[1].sets, seen[2]) if seen else ((), ())))
    records = _in_order(read, stored.rep_maxes, stored.body_masses)
    model = _model(stored.key, records, stored.trained, parameters_of(stored.lift.title))
    found = LiftHistory(stored.lift, stored.sets, stored.rep_maxes, stored.body_masses, model)
    if stored.at is not None:
        _seen.keep(stored.key, (stored.at, found, read))
    return found


def _mended(session: Reader, since: Stamp, sets: tuple[SetRow, ...], key: Key) -> tuple[SetRow, ...] | None:
    """Bring sets up to date by reading only the days that were written on; None where all must be read.

    A set logged between two others takes as long after ten years as on the first day.
    """
    touched = touched_sets(session, since)
    if touched is None:
        return None
    if not touched:
        return sets
    days = days_of(session, touched, key[1], key[2]) | {row.day for row in sets if row.id in touched}
    if len(days) > MOST_DAYS:
        return None
    again = [row for day in days for row in log_sets.sets_of(session, key[1], lift_id=key[2], since=day, until=day)]
    return tuple(sorted((*(row for row in sets if row.day not in days), *again), key=lambda row: row.day))


def strength_records(
    sets: tuple[SetRow, ...], rep_maxes: tuple[RepMaxRow, ...], body: tuple[tuple[date, Mass], ...]
) -> tuple[SetRecord, ...]:
    """Turn rows of the log into what the estimator reads: sets left out stay out, declared maxes too."""
    return _in_order(_read(sets), rep_maxes, body)


def _read(sets: tuple[SetRow, ...], before: tuple[SetRow, ...] = (), known: Read = ()) -> Read:
    """Turn sets into what the estimator reads; of those that stood at the same place `before` it is known."""
    old = len(before)
    return tuple(
        known[place] if place < old and before[place] is row else _record(row, place) for place, row in enumerate(sets)
    )


def _record(row: SetRow, place: int) -> SetRecord | None:
    moved = 0.0 if row.left_out else row.moved_kg
    if moved <= 0:
        return None
    rir = None if row.rir is None else float(row.rir)
    return SetRecord(row.day, moved, row.reps, rir, row.outcome, row.kind, place)


def _in_order(
    read: Read, rep_maxes: tuple[RepMaxRow, ...], body: tuple[tuple[date, Mass], ...]
) -> tuple[SetRecord, ...]:
    """Add the tested maxes that are no sets, each before the sets of its day."""
    records = [each for each in read if each is not None]
    for entry in rep_maxes:
        if entry.source == "tested":
            extra = body_mass_on(body, entry.day) if entry.lift.body else None
            moved = float(entry.load.kg + (extra.kg if extra else Decimal(0)))
            if moved > 0:
                records.append(SetRecord(day=entry.day, load_kg=moved, reps=entry.reps, kind="test", order=-1))
    ordered = sorted(records, key=attrgetter("day", "order"))
    return tuple(replace(record, order=0) if record.order == -1 else record for record in ordered)


def _model(
    key: Key, records: tuple[SetRecord, ...], trained: tuple[date, ...], parameters: Parameters
) -> LiftModel | None:
    """Make the model, for which a lift that rests while the member trains (on days `trained`) loses nothing."""
    if not records:
        return None
    kept = _kept.get(key)
    if kept and kept[1].parameters is not parameters:  # the lift has another name now
        kept = None
    if kept and kept[0] == records and kept[1].elsewhere == trained:
        return kept[1]
    # A set at the end costs one step; a mended one, the days from there on.
    model = kept[1].renewed(records, trained) if kept else LiftModel.of(records, parameters, trained)
    _kept.keep(key, (records, model))
    return model


def known_then(key: Key, model: LiftModel, since: date) -> dict[date, Estimate]:
    """Return what was known on each day with sets from `since` on; it holds while the day stays as it is."""
    made = _then.get(key) or {}
    found: dict[date, tuple[Day, Estimate]] = {}
    for each in model.days:
        if each.day >= since:
            known = made.get(each.day)
            found[each.day] = known if known and known[0] is each else (each, model.estimate(each.day))
    _then.keep(key, made | found)
    return {day: estimate for day, (_, estimate) in found.items()}


@may("see")
def is_kept(log: Log, member_id: str, lift: LiftRecord) -> bool:
    """Tell whether a lift's estimate is in memory, or is brought up to date from there."""
    return _seen.get((log.name, member_id, lift.id)) is not None
