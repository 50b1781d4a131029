"""Somebody with a place, and what they did some days ago, as tests of the desk begin."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

from tests.day import this_day
from tests.loads import kg
from tracker.desk.day import log_set
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people, places
from tracker.log import waves as log_waves
from tracker.log.records import LiftRecord, MemberRecord, SetRow
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewPlannedSet, NewStep


def somebody(log: Log, name: str) -> MemberRecord:
    """A member who trains in kilograms at a place with a bar."""
    place = places.add_place(log, "Loft", "kg")
    return people.go_to_place(log, people.add_member(log, name).id, place.id)


def squats_and_presses(log: Log, name: str) -> MemberRecord:
    """Somebody with a wave: today two sets of squats, then two of presses, each five at 70 % of a tested 5RM."""
    member = somebody(log, name)
    squat, press = people.add_lift(log, "back squat", "barbell"), people.add_lift(log, "strict press", "barbell")
    for lift, load in ((squat, 100), (press, 50)):
        rep_maxes.add_rep_max(log, member.id, lift.id, this_day() - timedelta(days=9), 5, kg(load), tested=True)
    with log.act("a wave", member.id) as act:
        sets = [
            NewPlannedSet(lift.id, 2, 5, percent=Decimal(70), of_reps=5, block=n)
            for n, lift in enumerate((squat, press))
        ]
        log_waves.start_wave(act, member.id, log_waves.add_wave(act, "Tide", [NewStep("Monday", 0, sets)]), this_day())
    return member


def lift_named(log: Log, name: str) -> LiftRecord:
    return next(each for each in people.lifts(log) if each.name == name)


def did(log: Log, member: MemberRecord, lift: LiftRecord, days_ago: int, load: float, reps: int, **more) -> SetRow:
    """Log a set of some days ago, in kilograms."""
    day = this_day() - timedelta(days=days_ago)
    return log_set.log_set(log, member.id, day, NewSet(lift.id, kg(load), reps, **more), sure=True)
