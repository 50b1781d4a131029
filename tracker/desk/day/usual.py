"""What a set begins with that nobody planned a load for: the newest set of the lift, else what its kind begins with."""

from __future__ import annotations

from decimal import Decimal

from tracker.desk.base.roles import may
from tracker.desk.day.newest import newest_set
from tracker.desk.people import places
from tracker.log.records import LiftRecord, MemberRecord, PlaceRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.units import Mass


@may("see")
def usual_set(log: Log, member: MemberRecord, lift: LiftRecord, place: PlaceRecord | None) -> tuple[NewSet, bool]:
    """Return a free set to start from, and whether its load is known from an earlier set of the member.

    A load that only the kind of the lift says (the empty bar, the lightest dumbbell) is a hint, and nobody's set.
    """
    last = newest_set(log, member.id, lift.id)
    if last is not None:
        return NewSet(lift.id, last.load, max(last.reps, 1)), True
    return NewSet(lift.id, first_load(lift, member, place), 5), False


def first_load(lift: LiftRecord, member: MemberRecord, place: PlaceRecord | None) -> Mass:
    """Return what a kind of lift begins with: no added load, the empty bar, the lightest that stands there."""
    if lift.body:
        return Mass(Decimal(0), member.unit)
    kit = places.bar_kit(member, place) if lift.implement in ("barbell", "unasked") else None
    if kit is not None:
        return kit.bar
    fixed = places.fixed_masses(place, lift) if place and lift.implement in places.FIXED else ()
    return fixed[0] if fixed else Mass(Decimal(10), member.unit)
