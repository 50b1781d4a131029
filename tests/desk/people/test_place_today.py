"""A place that is chosen for a day is for that day; it is kept only where somebody says so."""

from __future__ import annotations

from datetime import timedelta

from tests.day import this_day
from tests.undoing import undo_newest
from tracker.desk.day import today
from tracker.desk.people import people, places
from tracker.log.unit_of_work import Log


def at(log: Log, member_id: str, days: int = 0) -> str:
    place = today.day_plan(log, member_id, this_day() + timedelta(days=days)).place
    return place.name if place else ""


def test_it_holds_for_the_day_alone(log: Log):
    gym, home = places.add_place(log, "Harbour Gym", "kg"), places.add_place(log, "Home", "kg")
    member = people.go_to_place(log, people.add_member(log, "Ilse").id, gym.id)
    places.go_today(log, member.id, home.id, this_day())
    assert at(log, member.id) == "Home"
    assert (at(log, member.id, -1), at(log, member.id, 1)) == ("Harbour Gym", "Harbour Gym")
    places.go_today(log, member.id, gym.id, this_day())
    assert at(log, member.id) == "Harbour Gym"
    undo_newest(log, member.id)
    undo_newest(log, member.id)
    assert at(log, member.id) == "Harbour Gym"


def test_one_that_is_kept_holds_tomorrow(log: Log):
    gym, home = places.add_place(log, "Harbour Gym", "kg"), places.add_place(log, "Home", "kg")
    member = people.go_to_place(log, people.add_member(log, "Ilse").id, gym.id)
    places.go_today(log, member.id, home.id, this_day())
    people.go_to_place(log, member.id, home.id)
    assert (at(log, member.id), at(log, member.id, 1)) == ("Home", "Home")
    people.go_to_place(log, member.id, gym.id)
    assert (at(log, member.id), at(log, member.id, 1)) == ("Harbour Gym", "Harbour Gym")


def test_a_place_that_goes_leaves_the_member_where_they_were(log: Log):
    gym, home = places.add_place(log, "Harbour Gym", "kg"), places.add_place(log, "Home", "kg")
    member = people.go_to_place(log, people.add_member(log, "Ilse").id, gym.id)
    places.go_today(log, member.id, home.id, this_day())
    places.remove_place(log, home.id)
    assert at(log, member.id) == "Harbour Gym"
