"""What the fields of a free set say at first: the newest set of the lift, else the empty bar."""

from __future__ import annotations

from decimal import Decimal

from tracker.components.frame.frame import here
from tracker.desk.day.newest import newest_set
from tracker.desk.people import places
from tracker.log.records import LiftRecord, MemberRecord, PlaceRecord
from tracker.log.sets import NewSet
from tracker.units import Mass


def usual_set(lift: LiftRecord, member: MemberRecord, place: PlaceRecord | None) -> NewSet:
    """Return a free set to start from; nothing of an earlier one stays but its load and repetitions."""
    last = newest_set(here().log, member.id, lift.id)
    if last is not None:
        return NewSet(lift.id, last.load, max(last.reps, 1))
    return NewSet(lift.id, _first_load(lift, member, place), 5)


def _first_load(lift: LiftRecord, member: MemberRecord, place: PlaceRecord | None) -> Mass:
    if lift.body:
        return Mass(Decimal(0), member.unit)
    kit = places.bar_kit(member, place) if lift.implement in ("barbell", "unasked") else None
    if kit is not None:
        return kit.bar
    fixed = places.fixed_masses(place, lift) if place and lift.implement in places.FIXED else ()
    return fixed[0] if fixed else Mass(Decimal(10), member.unit)
