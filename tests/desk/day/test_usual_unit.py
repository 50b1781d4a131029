"""A set of a visited gym in pounds: on its day in pounds, at home as it is loaded there."""

from __future__ import annotations

from datetime import timedelta

from tests.day import this_day
from tests.loads import kg
from tracker.desk.day import last_time, log_set
from tracker.desk.day.usual import usual_set
from tracker.desk.people import people, places
from tracker.desk.people.beginning import gym
from tracker.log.sets import NewSet
from tracker.pocket.plan import plan_of
from tracker.units import parse_mass


def test_next_week_at_home_it_starts_in_kilograms_and_never_heavier(log):
    first = gym("kg")
    place = places.add_place(log, "Home gym", "kg", first.items)
    member = people.go_to_place(log, people.add_member(log, "Hanne").id, place.id)
    lift = people.add_lift(log, "push press", "barbell", member_id=member.id)
    then = this_day() - timedelta(days=7)
    log_set.log_set(log, member.id, then, NewSet(lift.id, parse_mass("95 lb"), 3), sure=True)
    # 95 lb are 43.09 kg; on a 20 kg bar with discs from 1.25 kg a side, 42.5 kg is the next that is not heavier
    new, known = usual_set(log, member, lift, place, this_day())
    assert (new.load, new.reps, known) == (kg("42.5"), 3, True)
    assert str(usual_set(log, member, lift, place, then)[0].load) == "95 lb"
    (said, *_) = last_time.free_words(log, member.id, lift, this_day(), unit="kg")
    assert said.endswith("3 × 95 lb (about 43 kg).")
    (there,) = [each for each in plan_of(log, member.id, this_day())["lifts"] if each["id"] == lift.id]
    assert (there["load"], there["unit"]) == ("42.5", "kg")


def test_a_dumbbell_that_stands_here_in_pounds_stays_one(log):
    items = [each for each in gym("lb").items if each.kind == "dumbbell"]
    place = places.add_place(log, "Cellar", "kg", [*gym("kg").items[:3], *items])
    member = people.go_to_place(log, people.add_member(log, "Hanne").id, place.id)
    lift = people.add_lift(log, "bent over row", "dumbbells", member_id=member.id)
    log_set.log_set(log, member.id, this_day() - timedelta(days=7), NewSet(lift.id, parse_mass("35 lb"), 8), sure=True)
    assert str(usual_set(log, member, lift, place, this_day())[0].load) == "35 lb"
