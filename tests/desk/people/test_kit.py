"""What stands at a place: each thing put, changed, removed and brought back; nothing half written."""

from __future__ import annotations

from decimal import Decimal

import pytest
from sqlalchemy import func, select

from tests.loads import kg
from tracker.desk.day import training
from tracker.desk.people import kit, people, places
from tracker.desk.people.kit import READY, put_fixed, put_item, read_item, remove_item, take_ready_kit
from tracker.errors import BadInputError
from tracker.log.models import Change, KitItem
from tracker.log.records import KitItemRecord
from tracker.log.unit_of_work import Log
from tracker.prescription.floor import is_asked, lightest_from_floor
from tracker.units import Mass


@pytest.fixture
def shed(log: Log):
    return places.add_place(
        log, "Shed", "kg", [KitItemRecord("", "bar", "bar", kg(20), 1), KitItemRecord("", "disc", "10", kg(10), 2)]
    )


def rows(log: Log) -> tuple[int, ...]:
    with log.reading() as session:
        return tuple(session.scalar(select(func.count()).select_from(table)) or 0 for table in (Change, KitItem))


def said(place) -> list[str]:
    return [f"{item.kind} {item.mass or item.label} x {item.number}" for item in place.items]


def test_a_measured_disc_is_kept_as_it_was_weighed(log, wren, shed):
    place = put_item(log, shed.id, read_item("disc", "19,87", "1", "", "kg"), wren.id)
    assert said(place) == ["bar 20 kg x 1", "disc 19.87 kg x 1", "disc 10 kg x 2"]


def test_any_bar_can_be_put_and_used(log, wren, shed):
    place = put_item(log, shed.id, read_item("bar", "17.3", "1", "thick bar", "kg"), wren.id)
    bar = next(item for item in place.items if item.label == "thick bar")
    member = people.go_to_place(log, wren.id, shed.id)
    member = people.take_bar(log, member.id, bar.id)
    assert places.bar_kit(member, place).bar == kg("17.3")


def test_a_thing_is_changed_in_its_place_and_keeps_its_id(log, wren, shed):
    disc = shed.items[1]
    place = put_item(log, shed.id, read_item("disc", "9.9", "3", "", "kg", item_id=disc.id), wren.id)
    assert said(place) == ["bar 20 kg x 1", "disc 9.9 kg x 3"]
    assert place.items[1].id == disc.id
    training.undo_last(log, wren.id)
    assert said(places.places(log)[0]) == ["bar 20 kg x 1", "disc 10 kg x 2"]


def test_a_removed_bar_comes_back_with_undo(log, wren, shed):
    assert said(remove_item(log, shed.id, shed.items[0], wren.id)) == ["disc 10 kg x 2"]
    training.undo_last(log, wren.id)
    assert said(places.places(log)[0]) == ["bar 20 kg x 1", "disc 10 kg x 2"]


def test_a_row_of_dumbbells_is_put_at_once_and_none_twice(log, wren, shed):
    put_fixed(log, shed.id, "dumbbell", [kg(10), kg("12.5")], 2, wren.id)
    place = put_fixed(log, shed.id, "dumbbell", [kg("7.5"), kg(10)], 2, wren.id)
    assert [str(item.mass) for item in place.of_kind("dumbbell")] == ["7.5 kg", "10 kg", "12.5 kg"]


@pytest.mark.parametrize("ready", READY, ids=lambda each: each.name)
def test_a_ready_kit_takes_the_place_of_bar_and_discs_and_leaves_the_rest(log, wren, shed, ready):
    put_fixed(log, shed.id, "kettlebell", [kg(16)], 1, wren.id)
    place = take_ready_kit(log, shed.id, ready, wren.id)
    assert [item.mass for item in place.of_kind("bar")] == [ready.kit.bar]
    assert [item.mass for item in place.of_kind("disc")] == [disc.mass for disc in ready.kit.discs]
    assert len(place.of_kind("kettlebell")) == 1
    training.undo_last(log, wren.id)
    assert said(places.places(log)[0])[:2] == ["bar 20 kg x 1", "disc 10 kg x 2"]


def test_facts_of_a_place_change_and_come_back(log, wren, shed):
    place = kit.change_facts(log, shed, wren.id, name="Barn", unit="lb", pins=False)
    assert (place.name, place.unit, place.pins) == ("Barn", "lb", False)
    assert said(place) == said(shed)
    training.undo_last(log, wren.id)
    assert places.places(log)[0].name == "Shed"


@pytest.mark.parametrize(
    ("kind", "mass", "number", "label", "where"),
    [
        ("disc", "", "1", "", "mass"),
        ("disc", "ten", "1", "", "mass"),
        ("disc", "-5", "1", "", "mass"),
        ("disc", "0", "1", "", "mass"),
        ("bar", "nan", "1", "", "mass"),
        ("bar", "1001", "1", "", "mass"),
        ("bar", "20 stone", "1", "", "mass"),
        ("disc", "1.00001", "1", "", "mass"),
        ("collars", "-1", "1", "", "mass"),
        ("collars", "500", "1", "", "mass"),
        ("disc", "10", "-1", "", "how many"),
        ("disc", "10", "1.5", "", "how many"),
        ("disc", "10", "9999", "", "how many"),
        ("bar", "20", "1", "x" * 61, "name"),
        ("band", "", "1", "", "name"),
    ],
)
def test_what_can_t_be_is_refused_with_its_field(kind, mass, number, label, where):
    with pytest.raises(BadInputError) as caught:
        read_item(kind, mass, number, label, "kg")
    assert caught.value.where == where
    assert caught.value.mend


def test_blank_means_as_many_as_needed_and_the_mass_is_the_name():
    item = read_item("disc", "45 lb", "", "", "kg")
    assert (item.number, item.label, item.mass) == (None, "45", Mass(Decimal(45), "lb"))
    assert read_item("bar", "20", "1", "", "kg").label == "20 kg bar"


def test_the_same_disc_twice_is_refused_and_nothing_is_written(log, wren, shed):
    before = rows(log)
    with pytest.raises(BadInputError, match="already"):
        put_item(log, shed.id, read_item("disc", "10", "1", "", "kg"), wren.id)
    with pytest.raises(BadInputError):
        put_item(log, "nowhere", read_item("disc", "15", "1", "", "kg"), wren.id)
    with pytest.raises(BadInputError):
        put_item(log, shed.id, read_item("disc", "15", "1", "", "kg", item_id="gone"), wren.id)
    with pytest.raises(BadInputError):
        put_fixed(log, shed.id, "dumbbell", [], 2, wren.id)
    assert rows(log) == before


def test_a_removed_place_comes_back_and_its_name_is_free_meanwhile(log, wren, shed):
    places.remove_place(log, shed.id, wren.id)
    assert places.places(log) == ()
    again = kit.begin_place(log, "Shed", "kg", wren.id, empty=True)
    assert again.items == ()
    training.undo_last(log, wren.id)  # the second one
    training.undo_last(log, wren.id)  # the removal
    assert said(places.places(log)[0]) == ["bar 20 kg x 1", "disc 10 kg x 2"]
    assert places.places(log)[0].name == "Shed"


def test_a_place_s_name_is_its_own(log, wren, shed):
    before = rows(log)
    for name in ("shed", "  SHED ", "", "x" * 201):
        with pytest.raises(BadInputError):
            kit.begin_place(log, name, "kg", wren.id)
    assert rows(log) == before


def test_which_discs_have_the_full_diameter_is_said_once_and_kept_with_the_kit(log, wren):
    place = places.add_place(log, "Cellar", "kg")
    member = people.go_to_place(log, wren.id, place.id)
    assert is_asked(places.bar_kit(member, place))
    said = kit.say_full(log, place.id, Mass(Decimal(5), "kg"), wren.id)
    loaded = places.bar_kit(member, said)
    assert not is_asked(loaded)
    assert str(lightest_from_floor(loaded)) == "30 kg"  # the bar and 5 kg a side
    again = kit.say_full(log, place.id, None, wren.id)
    assert lightest_from_floor(places.bar_kit(member, again)) is None
    assert {item.label for item in again.of_kind("disc")} == {
        f"{each}, small diameter" for each in ("25", "20", "15", "10", "5", "2.5", "1.25")
    }
