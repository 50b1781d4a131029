"""A machine in a kit: a stack with its smallest step, or just that there is one; loads go by it, and it is offered instead."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.loads import kg
from tests.undoing import undo_newest
from tracker.desk.day import sore
from tracker.desk.people import kit, people, places
from tracker.errors import BadInputError
from tracker.log.records import KitItemRecord
from tracker.units import Mass


@pytest.fixture
def wren(log):
    member = people.add_member(log, "Wren")
    place = places.add_place(log, "Hall", "kg", [KitItemRecord("", "bar", "bar", kg(20), 1)])
    return people.go_to_place(log, member.id, place.id)


def put(log, wren, mass: str, label: str = ""):
    return kit.put_item(log, wren.place_id, kit.read_item("machine", mass, "1", label, "kg"), wren.id)


def press(log):
    return people.add_lift(log, "leg press", "machine")


def test_a_machine_is_kept_with_or_without_its_step_and_taken_back(log, wren):
    here = put(log, wren, "")
    assert [(each.label, each.mass) for each in here.of_kind("machine")] == [("machine", None)]
    here = put(log, wren, "7,5", "leg press")
    assert [(each.label, str(each.mass)) for each in here.of_kind("machine")][1] == ("leg press", "7.5 kg")
    with pytest.raises(BadInputError, match="there already"):
        put(log, wren, "5", "Leg press")
    undo_newest(log, wren.id)
    assert len(places.place_of(log, wren).of_kind("machine")) == 1


@pytest.mark.parametrize("mass", ["0", "-5", "nan", "2000", "five"])
def test_a_step_that_can_t_be_is_refused(log, wren, mass):
    with pytest.raises(BadInputError):
        put(log, wren, mass)
    assert places.place_of(log, wren).of_kind("machine") == ()


def test_loads_go_by_the_step_of_the_machine_of_that_name(log, wren):
    lift = press(log)
    put(log, wren, "5")
    assert str(places.make_load(kg("62.4"), lift, wren, places.place_of(log, wren)).load) == "60 kg"
    here = put(log, wren, "7.5", "leg press")
    made = places.make_load(kg("62.4"), lift, wren, here)
    assert (str(made.load), made.words) == ("60 kg", "the stack goes by 7.5 kg")
    assert [str(each) for each in places.next_loads(made.load, lift, wren, here)] == ["52.5 kg", "67.5 kg"]
    assert [str(each) for each in places.next_loads(kg(61), lift, wren, here)] == ["60 kg", "67.5 kg"]
    assert str(places.least_load(lift, wren, here)) == "7.5 kg"
    assert str(places.make_load(kg(1), lift, wren, here).load) == "7.5 kg"  # no stack makes nothing
    pounds = places.make_load(Mass(Decimal(100), "lb"), lift, wren, here)
    assert str(pounds.load) == "45 kg"


def test_a_machine_without_a_step_leaves_loads_as_they_were(log, wren):
    lift, here = press(log), put(log, wren, "", "leg press")
    assert str(places.make_load(kg("62.4"), lift, wren, here).load) == "62.5 kg"
    assert str(places.make_load(kg("62.4"), lift, wren, None).load) == "62.5 kg"


def test_it_is_offered_instead_where_the_kit_says_so(log, wren):
    assert "machine" not in sore.at_hand_in(wren, places.place_of(log, wren))
    here = put(log, wren, "", "leg press")
    assert "machine" in sore.at_hand_in(wren, here)


def test_only_one_that_assists_takes_a_part_of_the_body(log, wren):
    assert not places.takes_of_body(put(log, wren, "5", "leg press"))
    assert places.takes_of_body(put(log, wren, "5", "assisted pull-up"))
