"""A member with a wave of squats, for tests of the day's page, and what they have done of it."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

from tests.day import this_day
from tracker.desk.day import today
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people, places
from tracker.log import waves as log_waves
from tracker.log.records import MemberRecord, SetRow
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.units import Mass


def squatting(log: Log, name: str) -> MemberRecord:
    """A member with a place, a tested 5RM of 100 kg, and a wave: today 2 x 5 at 70 %, in a week 3 x 3 at 80 %."""
    place = places.add_place(log, "Shed", "kg")
    member = people.add_member(log, name)
    people.go_to_place(log, member.id, place.id)
    lift = people.add_lift(log, "back squat", "barbell")
    rep_maxes.add_rep_max(
        log, member.id, lift.id, this_day() - timedelta(days=20), 5, Mass(Decimal(100), "kg"), tested=True
    )
    with log.act("a wave", member.id) as act:
        steps = [
            NewStep("Squat, week 1", 0, [NewPlannedSet(lift.id, 2, 5, percent=Decimal(70), of_reps=5, rest_s=180)]),
            NewStep("Squat, week 2", 7, [NewPlannedSet(lift.id, 3, 3, percent=Decimal(80), of_reps=5)]),
        ]
        log_waves.start_wave(act, member.id, log_waves.add_wave(act, "Spring", steps), this_day())
    return next(each for each in people.members(log) if each.id == member.id)


def done(log: Log, member: str) -> tuple[SetRow, ...]:
    return today.day_plan(log, member, this_day()).sets
