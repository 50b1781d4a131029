"""Current maxes of every member and lift, from a file of sets or from the log, as plain values for a document.

Where the body is lifted, every load here is what is added to the body (or, below zero, takes from it), as in the load
column: the model works with what is moved, and the newest body mass known on the day is taken off again.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from tracker.desk.base.roles import may
from tracker.desk.maxes import estimates
from tracker.desk.people.people import body_mass_on
from tracker.exchange.sets_csv import FileSet
from tracker.log import rep_maxes as log_rep_maxes
from tracker.log import sets as log_sets
from tracker.log.records import LiftRecord, MemberRecord
from tracker.log.unit_of_work import Log
from tracker.strength.estimator import LiftModel
from tracker.strength.forecast import check_weeks, forecast
from tracker.strength.formulas import FormulaValue, best_values
from tracker.strength.lift_curves import parameters_of
from tracker.strength.records import Band, Estimate, SetRecord
from tracker.units import Mass, Unit, from_kg

ME = "me"  # the member of rows that name none


@dataclass(frozen=True, slots=True)
class History:
    """All sets of one member's lift, oldest first, with the unit that each day was written in."""

    member: str
    lift: str
    records: tuple[SetRecord, ...]
    units: tuple[tuple[date, Unit], ...]
    body_masses: tuple[tuple[date, Mass], ...] = ()
    trained: tuple[date, ...] = ()  # days on which the member trained anything, so that a lift that rests loses nothing

    def unit_on(self, day: date) -> Unit:
        """Return the unit of the newest set up to a day."""
        earlier: list[Unit] = [unit for when, unit in self.units if when <= day]
        return earlier[-1] if earlier else self.units[0][1]

    def body_kg(self, day: date) -> float:
        body = body_mass_on(self.body_masses, day)
        return float(body.kg) if body else 0.0


def histories_of_file(rows: Iterable[FileSet], *, member: str = ME) -> tuple[History, ...]:
    """Group the rows of a file by member and lift; letters of either case are the same name.

    Args:
        rows: The rows as they were read.
        member: Whose rows those are that name nobody.
    """
    groups: dict[tuple[str, str], list[tuple[int, FileSet]]] = {}
    for index, row in enumerate(rows):
        key = ((row.member or member).casefold(), title(row.lift, row.implement).casefold())
        groups.setdefault(key, []).append((index, row))
    trained: dict[str, set[date]] = {}
    for (whose, _), group in groups.items():
        trained.setdefault(whose, set()).update(row.day for _, row in group)
    return tuple(_of_rows(group, member, tuple(sorted(trained[key[0]]))) for key, group in groups.items())


def title(lift: str, implement: str) -> str:
    """Name a lift with its implement, as the log does."""
    return f"{lift}, {implement}" if implement not in ("", "body", "other") else lift


def _of_rows(group: Sequence[tuple[int, FileSet]], member: str, trained: tuple[date, ...]) -> History:
    ordered = sorted(
        group, key=lambda entry: (entry[1].day, entry[0] if entry[1].order is None else entry[1].order, entry[0])
    )
    rows = [row for _, row in ordered]
    masses = tuple((row.day, Mass(row.body_mass, row.unit)) for row in rows if row.body_mass is not None)
    records = tuple(_record(row, at, masses) for at, row in enumerate(rows) if not row.left_out)
    first = group[0][1]
    units: tuple[tuple[date, Unit], ...] = tuple((row.day, row.unit) for row in rows)
    return History(first.member or member, title(first.lift, first.implement), records, units, masses, trained)


def _record(row: FileSet, order: int, masses: tuple[tuple[date, Mass], ...]) -> SetRecord:
    moved = row.moved_kg
    if row.body_mass is None and masses:  # a row without it in a lift of the body: what was known on its day
        body = body_mass_on(masses, row.day)
        moved += float(body.kg) if body else 0.0
    rir = None if row.rir is None else float(row.rir)
    return SetRecord(row.day, moved, row.reps, rir, row.outcome, row.kind, order)


@may("see")
def histories_of_log(log: Log, members: Iterable[MemberRecord], lift: LiftRecord | None = None) -> tuple[History, ...]:
    """Read the histories of members from the log, of one lift or of all."""
    found: list[History] = []
    for member in members:
        with log.reading() as session:
            done = [entry[0] for entry in log_sets.lifts_done(session, member.id)]
            stated = [row.lift for row in log_rep_maxes.rep_maxes(session, member.id) if row.source == "tested"]
        for each in {each.id: each for each in (*done, *stated)}.values():
            if lift is None or each.id == lift.id:
                found += _of_log(log, member, each)
    return tuple(found)


def _of_log(log: Log, member: MemberRecord, lift: LiftRecord) -> list[History]:
    known = estimates.history(log, member.id, lift)
    records = estimates.strength_records(known.sets, known.rep_maxes, known.body_masses)
    units: list[tuple[date, Unit]] = [(row.day, row.load.unit) for row in known.sets or known.rep_maxes]
    body = known.body_masses if lift.body else ()
    trained = known.model.elsewhere if known.model else ()
    return [History(member.name, lift.title, records, tuple(units), body, trained)] if records else []


def answer(history: History, *, as_of: date | None = None, trend: bool = False, ahead: int = 0) -> dict[str, Any]:
    """Return what is believed of one lift of one member on a day, from the sets up to it.

    Args:
        history: All that is known.
        as_of: The day; the day of the newest set where it is not given.
        trend: Also what could be known on each earlier day with sets, and what is known of it on `as_of`.
        ahead: For so many weeks after that day also what is believed on it of the level then, if training goes on as it has.

    Raises:
        BadInputError: if more weeks are asked for than can be foretold.
    """
    if ahead:
        check_weeks(ahead)
    day = as_of or history.units[-1][0]
    records = [record for record in history.records if record.day <= day]
    unit = history.unit_on(day)
    head = {"member": history.member, "lift": history.lift, "as_of": day.isoformat(), "unit": unit}
    if not records:
        reason = {"reason": "No set up to that day says anything of a max."}
        none: dict[str, Any] = {"sets_used": 0, "one_rm": None, "rep_max": None, **reason}
        if ahead:
            none["ahead"] = []
        return head | none | _formulas(history, [], day, unit)
    model = LiftModel.of(records, parameters_of(history.lift), history.trained)
    now = model.estimate(day)
    entry = head | {"sets_used": now.sets_used} | _bands(now, history, day, unit)
    entry |= _formulas(history, records, day, unit)
    entry["flags"] = [{"date": flag.day.isoformat(), "words": flag.words} for flag in model.flags]
    if ahead:
        entry["ahead"] = [
            {"date": then.day.isoformat()} | _bands(then, history, day, unit) for then in forecast(model, day, ahead)
        ]
    return entry | ({"trend": _trend(model, history, unit)} if trend else {})


def _trend(model: LiftModel, history: History, unit: Unit) -> list[dict[str, Any]]:
    points: list[dict[str, Any]] = []
    for point in model.trend():
        entry = {"date": point.day.isoformat()} | _bands(point.filtered, history, point.day, unit)
        if point.smoothed is not None:
            entry["smoothed"] = _bands(point.smoothed, history, point.day, unit)
        points.append(entry)
    return points


def _bands(estimate: Estimate, history: History, day: date, unit: Unit) -> dict[str, Any]:
    body = history.body_kg(day)
    bands = {str(reps): _band(band, body, unit) for reps, band in sorted(estimate.rep_max.items())}
    return {"one_rm": bands["1"], "rep_max": bands}


def _band(band: Band, body_kg: float, unit: Unit) -> dict[str, float]:
    return {name: from_kg(getattr(band, name) - body_kg, unit) for name in ("estimate", "low80", "high80")}


def _formulas(history: History, records: Sequence[SetRecord], day: date, unit: Unit) -> dict[str, Any]:
    values: Mapping[str, FormulaValue] = best_values(records, day)
    return {"formulas": {key: _formula(value, history, day, unit) for key, value in values.items()}}


def _formula(value: FormulaValue, history: History, day: date, unit: Unit) -> dict[str, Any]:
    if value.one_rm_kg is None or value.load_kg is None or value.day is None or value.reps is None:
        return {"one_rm": None, "reps": None, "load": None, "date": None, "in_range": False, "reason": value.reason}
    return {
        "one_rm": from_kg(value.one_rm_kg - history.body_kg(day), unit),
        "reps": int(value.reps) if value.reps == int(value.reps) else value.reps,
        "load": from_kg(value.load_kg - history.body_kg(value.day), unit),
        "date": value.day.isoformat(),
        "in_range": True,
    }
