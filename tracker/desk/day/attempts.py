"""A test of a max: attempts one after the other, each in the log as what it was, until the member ends it.

The heaviest attempt that was made is the test; those made before it said "at least this" and no more, so they are sets.
A missed one says exactly how far it went, so it stays a test. Attempts are numbered behind the planned set (whose one
round is the end of the test), so that a test is over when somebody says so and not before.
"""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from tracker.desk.base.roles import may
from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.step_state import finish_if_done
from tracker.desk.people import places
from tracker.errors import BadInputError
from tracker.log import sets as log_sets
from tracker.log.keeper import Log
from tracker.log.records import MemberRecord, PlaceRecord
from tracker.log.sets import NewSet
from tracker.units import Mass

LEAST_STEP = Decimal("1.02")  # from one made attempt to the next; small steps near a max are common practice
MISSES = 2  # after so many it is time to end; common practice


def as_attempt(line: PlannedLine, member: MemberRecord, place: PlaceRecord | None, usual: Mass) -> NewSet:
    """Propose the next attempt of a test; `usual` is the load to begin with.

    After a made one the next load that is clearly heavier; after a miss never a heavier one than the last.
    """
    return NewSet(
        line.lift.id, _proposed(line, member, place, usual), line.planned.reps, kind="test", planned_set_id=line.planned.id,
        planned_round=line.planned.sets + len(line.attempts) + 1, member_step_id=line.step_id,
    )  # fmt: skip


def _proposed(line: PlannedLine, member: MemberRecord, place: PlaceRecord | None, usual: Mass) -> Mass:
    if not line.attempts:
        return usual
    last = line.attempts[-1].load
    if misses(line):
        return last
    load: Mass | None = last
    while load is not None and load.kg < last.kg * LEAST_STEP:
        load = places.next_loads(load, line.lift, member, place)[1]
    return load or last


def misses(line: PlannedLine) -> int:
    """Count the attempts of a test that were missed."""
    return sum(row.outcome == "missed" for row in line.attempts)


def end_is_due(line: PlannedLine) -> bool:
    """Whether it is time to offer the end of a test; the member decides."""
    return misses(line) >= MISSES


@may("change")
def end_test(log: Log, member_id: str, member_step_id: str, planned_set_id: str, day: date) -> None:
    """End a test with the attempts that were made; the session goes on behind it.

    Raises:
        BadInputError: if nothing was tried yet.
    """
    with log.act("ended a test", member_id, own=True) as act:
        rows = log_sets.sets_of(act.session, member_id, since=day, until=day)
        tried = [row for row in rows if (row.member_step_id, row.planned_set_id) == (member_step_id, planned_set_id)]
        if not tried:
            mend = "Log an attempt, or leave the session out."
            raise BadInputError("Nothing was tried yet.", where="test", mend=mend)
        act.words = f"ended the test of {tried[-1].lift.title}"
        log_sets.put_round(act, tried[-1].id, 1)
        finish_if_done(act, member_id, member_step_id)
