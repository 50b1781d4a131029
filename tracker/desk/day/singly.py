"""One lift of a session that is left out or replaced, sore or not: no bar is free, or nothing stands there for it."""

from __future__ import annotations

from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.other_ways import can_make
from tracker.desk.day.sore import NOTHING_SORE, SoreState, Way, at_hand_in
from tracker.desk.day.today import DayPlan
from tracker.desk.people import places
from tracker.log.records import LiftRecord, MemberRecord, PlaceRecord
from tracker.prescription.body_parts import ONE_AT_A_TIME, Other, instead_of


def nothing_for(plan: DayPlan, line: PlannedLine) -> bool:
    """Whether the place has nothing for the lift of a set."""
    return not can_make(line.lift, plan.member, plan.place)


def one_at_a_time(plan: DayPlan, line: PlannedLine) -> Other | None:
    """Return the lift with one of what two are asked of, each side in turn, where the place has just one; else None."""
    lift, single = line.lift, places.SINGLE.get(line.lift.implement)
    if plan.place is None or single is None or not places.lone_masses(plan.place, lift):
        return None
    return Other(lift.name, single, ONE_AT_A_TIME)


def others(plan: DayPlan, line: PlannedLine) -> tuple[Other, ...]:
    """List what could be done instead of the lift of a set with what stands there, without what is sore."""
    first = one_at_a_time(plan, line)
    found = others_at(line.lift, plan.member, plan.place, plan.sore)
    return (*((first,) if first else ()), *found)


def others_at(
    lift: LiftRecord, member: MemberRecord, place: PlaceRecord | None, sore: SoreState = NOTHING_SORE
) -> tuple[Other, ...]:
    """List what could be done instead of a lift with what stands at a place: the one exchange, of the day and of a class."""
    at_hand = at_hand_in(member, place)
    if not can_make(lift, member, place):
        at_hand -= {lift.implement}
    return instead_of(lift.name, sore.parts, at_hand, never=sore.painful)


def chosen(plan: DayPlan) -> tuple[tuple[LiftRecord, Way], ...]:
    """List the lifts of the session on a day that are left out of it or replaced, each with what was chosen."""
    if plan.step is None:
        return ()
    lifts = dict.fromkeys(row.lift for row in (*plan.step.sets, *plan.step.ways))
    ways = ((lift, plan.sore.in_step.get((plan.step.id, lift.name.casefold()))) for lift in lifts)
    return tuple((lift, way) for lift, way in ways if way is not None and way.how != "keep")
