"""At home the piece's card, its clock and its form begin with what the coach wrote for home."""

from __future__ import annotations

from tests.desk.day.test_at_home import PIECE, somebody_at, take
from tests.pages.conftest import Open, tap, words
from tracker.desk.people import people, places
from tracker.log.unit_of_work import Log


def test_the_form_begins_with_the_option_for_home_and_one_touch_goes_back(log: Log, show: Open):
    take(log, somebody_at(log, "Home", ("dumbbell", "15", 2)), PIECE)
    assert "12 dumbbell thruster" in words(show(log))
    at = show(log, "conditioning")
    text = words(at)
    assert text.index("12 dumbbell thruster") < text.index("9 barbell thruster")
    swaps = [each for each in at.selectbox if "_swap_" in each.key]
    assert [each.value for each in swaps] == ["dumbbell thruster", "dumbbell row"]
    (back,) = [each for each in at.button if each.key.endswith("_as_asked")]
    tap(at, back.key)
    assert {each.value for each in at.selectbox if "_swap_" in each.key} == {"as prescribed"}
    tap(at, "clock_start")
    assert "12 dumbbell thruster" in words(at)


def test_a_place_is_for_the_day_unless_it_is_kept(log: Log, show: Open):
    member = somebody_at(log, "Home", ("dumbbell", "15", 2))
    gym = places.add_place(log, "Harbour Gym", "kg")
    at = show(log)
    at.radio(key="where_place_id").set_value(gym.id).run()
    assert "Harbour Gym is for today alone." in words(at)
    (kept,) = [each for each in people.members(log) if each.id == member.id]
    assert kept.place_id == member.place_id
    tap(at, "where_place_keep")
    (kept,) = [each for each in people.members(log) if each.id == member.id]
    assert kept.place_id == gym.id
    assert "for today alone" not in words(at)
