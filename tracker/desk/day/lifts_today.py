"""Which lifts a member's session of a day has, for pages that begin with what is on."""

from __future__ import annotations

from datetime import date
from itertools import groupby

from tracker.desk.base.roles import may
from tracker.desk.day.next import whats_next
from tracker.log.records import LiftRecord
from tracker.log.unit_of_work import Log
from tracker.units import plain


@may("see")
def lifts_today(log: Log, member_id: str, day: date, *, member_step_id: str | None = None) -> tuple[LiftRecord, ...]:
    """List the lifts of the session that is on, the one of the next set first; none where none is on."""
    found = whats_next(log, member_id, day, member_step_id=member_step_id)
    lifts = [line.lift for line in found.plan.lines]
    first = [found.line.lift] if found.line else []
    return tuple(dict.fromkeys((*first, *lifts)))


@may("see")
def waves_today(
    log: Log, member_id: str, day: date, *, member_step_id: str | None = None
) -> dict[str, tuple[int, str]]:
    """Return of each lift of the session that is on, by its id, which rep-max its percentages are of and its sets as a wave.

    `1x4@74, 1x4@80, 3x4@86`; lifts whose sets are of no percentage, or of another lift's, are left out.
    """
    found = whats_next(log, member_id, day, member_step_id=member_step_id)
    rows = (
        [row for row in found.plan.step.sets if row.percent and row.of_reps and not row.of_lift]
        if found.plan.step
        else []
    )
    waves: dict[str, tuple[int, str]] = {}
    for (lift_id, reps), sets in groupby(rows, key=lambda row: (row.lift.id, row.of_reps)):
        said = ", ".join(f"{row.sets}x{row.reps}@{plain(row.percent)}" for row in sets if row.percent)
        if reps is not None and lift_id not in waves:
            waves[lift_id] = reps, said
    return waves
