"""Who stands at which bar in a class: those who could share one together, light bars first."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from tracker.desk.coach.class_sheet import ClassRow, ClassSheet
from tracker.desk.coach.partners import Partners


@dataclass(frozen=True, slots=True)
class AtOneBar:
    """Rows at one bar; `number` counts the bars from 1, and is 0 for a row that has none for the lift."""

    number: int
    rows: tuple[ClassRow, ...]
    partners: Partners | None = None  # where two share it


def bars_of(sheet: ClassSheet) -> tuple[AtOneBar, ...]:
    """Group the rows of a class by the bar of the first lift for which anybody could share one.

    Without such a lift every row is for itself, in the order of the names.
    """
    lift = _shared_lift(sheet)
    if lift is None:
        return tuple(AtOneBar(0, (row,)) for row in sheet.rows)
    pairs = {name: pair for pair in sheet.partners if pair.lift == lift for name in (pair.first, pair.second)}
    by_name = {row.member.name: row for row in sheet.rows}
    groups: list[tuple[tuple[ClassRow, ...], Partners | None]] = []
    for row in sheet.rows:
        pair = pairs.get(row.member.name)
        if pair is None:
            groups.append(((row,), None))
        elif row.member.name == pair.first:
            groups.append(((row, by_name[pair.second]), pair))
    groups.sort(key=lambda group: max(_heaviest(row, lift) for row in group[0]))
    at_bar = [group for group in groups if max(_heaviest(row, lift) for row in group[0]) > 0]
    without = [group for group in groups if group not in at_bar]
    return (
        *(AtOneBar(number, rows, pair) for number, (rows, pair) in enumerate(at_bar, start=1)),
        *(AtOneBar(0, rows, pair) for rows, pair in without),
    )


def other_partners(sheet: ClassSheet) -> tuple[Partners, ...]:
    """List who could share a bar for the other lifts of the session, by which the rows are not grouped."""
    lift = _shared_lift(sheet)
    return tuple(pair for pair in sheet.partners if pair.lift != lift)


def _shared_lift(sheet: ClassSheet) -> str | None:
    shared = {pair.lift for pair in sheet.partners}
    return next((each.lift.title for each in sheet.step.sets if each.lift.title in shared), None)


def _heaviest(row: ClassRow, lift: str) -> Decimal:
    loads = [line.made.load.kg for line in row.lines if line.made and line.planned.lift.title == lift]
    return max(loads, default=Decimal(0))
