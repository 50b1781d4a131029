"""A lift that can't be made where somebody is says which of the coach's other ways can."""

from __future__ import annotations

from tests.day import this_day
from tests.desk.day.test_at_home import somebody_at, take
from tests.loads import kg
from tracker.desk.day import body_percent, log_set, today
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people, places
from tracker.log.records import KitItemRecord, PlaceRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log

SQUATS = "Back squat 3x5 @ 60 kg\nHome: goblet squat 3x12"
PULLS = "Pull-up 3x5 @ 60 % of 3RM\nHome: dumbbell row 3x12"


def notes(log: Log, member_id: str) -> str:
    line = today.day_plan(log, member_id, this_day()).next_line
    assert line is not None
    return " ".join(line.notes)


def test_one_that_was_begun_in_the_gym_says_what_home_can_do(log: Log):
    member = somebody_at(log, "Harbour Gym", bar=True)
    take(log, member, SQUATS)
    line = today.day_plan(log, member.id, this_day()).next_line
    assert line is not None
    new = NewSet(line.lift.id, kg(60), 5, planned_set_id=line.planned.id, planned_round=1, member_step_id=line.step_id)
    log_set.log_set(log, member.id, this_day(), new, sure=True)
    home = places.add_place(log, "Home", "kg", [KitItemRecord("", "dumbbell", "12.5", kg("12.5"), 1)])
    people.go_to_place(log, member.id, home.id)
    assert "Home has nothing for back squat, barbell." in notes(log, member.id)
    assert "Of your coach's other ways, goblet squat, kettlebell can be done here." in notes(log, member.id)


def test_help_is_offered_only_where_a_band_is_and_another_way_is_named(log: Log):
    member = somebody_at(log, "Loft", ("dumbbell", "15", 2))
    take(log, member, PULLS)
    pull = next(each for each in people.lifts(log) if each.name == "pull-up")
    people.weigh(log, member.id, this_day(), kg(70))
    rep_maxes.add_rep_max(log, member.id, pull.id, this_day(), 3, kg(10), tested=True)
    body_percent.say(log, member.id, pull.id, "whole", this_day())
    said = notes(log, member.id)
    assert "no band or machine is in the kit of Loft" in said
    assert "Of your coach's other ways, dumbbell row, dumbbell can be done here." in said
    place = places.place_of(log, people.members(log)[0])
    assert place is not None
    band = KitItemRecord("", "band", "green band", None, 1)
    places.change_place(log, PlaceRecord(place.id, place.name, place.unit, place.pins, (*place.items, band)))
    assert "other ways" not in notes(log, member.id)


def test_a_kit_of_bands_alone_names_no_way_that_is_not_there(log: Log):
    member = somebody_at(log, "Hotel")
    place = places.place_of(log, member)
    assert place is not None
    places.change_place(
        log, PlaceRecord(place.id, place.name, "kg", True, (KitItemRecord("", "band", "band", None, 1),))
    )
    take(log, member, "Back squat 3x5 @ 60 kg\nHome: dumbbell squat 3x12")
    assert "Hotel has nothing for back squat, barbell." in notes(log, member.id)
    assert "other ways" not in notes(log, member.id)
