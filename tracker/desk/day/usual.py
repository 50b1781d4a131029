"""What a set begins with that nobody planned a load for: the newest set of the lift, else what its kind begins with."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from tracker.desk.base.roles import may
from tracker.desk.day.newest import newest_set
from tracker.desk.people import places
from tracker.log.records import LiftRecord, MemberRecord, PlaceRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.prescription.rounding import RoundingChoice, rounded
from tracker.units import Mass


@may("see")
def usual_set(
    log: Log, member: MemberRecord, lift: LiftRecord, place: PlaceRecord | None, day: date | None = None
) -> tuple[NewSet, bool]:
    """Return a free set to start from, and whether its load is known from an earlier set of the member.

    A load that only the kind of the lift says (the empty bar, the lightest dumbbell) is a hint, and nobody's set. One of
    `day` stays in its unit; one of another day is said in the unit of the place, see `in_unit_here`.
    """
    last = newest_set(log, member.id, lift.id)
    if last is not None:
        load = last.load if last.day == day else in_unit_here(last.load, lift, member, place)
        return NewSet(lift.id, load, max(last.reps, 1)), True
    return NewSet(lift.id, first_load(lift, member, place), 5), False


def in_unit_here(load: Mass, lift: LiftRecord, member: MemberRecord, place: PlaceRecord | None) -> Mass:
    """Return a load as it is loaded here: where nothing stands in its unit, what is made here and not heavier.

    A set of a visited gym, 95 lb, is so no load to start from in pounds at home.
    """
    here = place.unit if place else member.unit
    stamped = {item.mass.unit for item in place.items if item.mass} if place else {member.unit}
    if load.unit == here or load.unit in stamped:
        return load
    wanted = Mass(load.to(here), here)
    made = places.make_load(wanted, lift, member, place, RoundingChoice("down"))
    return made.load if made and 0 < made.load.kg <= wanted.kg else rounded(wanted)


def first_load(lift: LiftRecord, member: MemberRecord, place: PlaceRecord | None) -> Mass:
    """Return what a kind of lift begins with: no added load, the empty bar, the lightest that stands there."""
    if lift.body:
        return Mass(Decimal(0), member.unit)
    kit = places.bar_kit(member, place) if lift.implement in ("barbell", "unasked") else None
    if kit is not None:
        return kit.bar
    fixed = places.fixed_masses(place, lift) if place and lift.implement in places.FIXED else ()
    return fixed[0] if fixed else Mass(Decimal(10), member.unit)
