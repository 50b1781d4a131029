"""The kit page: places, anything that can be loaded, ready kits; bad input writes nothing, everything can be undone."""

from __future__ import annotations

import re

import pytest
from sqlalchemy import func, select

from tests.loads import kg
from tests.pages.conftest import Open, words
from tracker.desk.day import sore
from tracker.desk.people import first_session, people, places
from tracker.log.models import Change, KitItem, Place
from tracker.log.records import KitItemRecord
from tracker.log.unit_of_work import Log


def rows(log: Log) -> int:
    with log.reading() as session:
        return sum(session.scalar(select(func.count()).select_from(table)) or 0 for table in (Change, KitItem, Place))


@pytest.fixture
def wren(log: Log):
    member = people.add_member(log, "Wren")
    place = places.add_place(
        log, "Shed", "kg", [KitItemRecord("", "bar", "bar", kg(20), 1), KitItemRecord("", "disc", "10", kg(10), 2)]
    )
    return people.go_to_place(log, member.id, place.id)


def shed(log: Log):
    return places.places(log)[0]


def makes(at) -> list[str]:
    """The tiles that say what the kit makes, each as one line."""
    drawn = next(line for line in words(at).splitlines() if line.startswith('<dl class="kit-makes">'))
    return [" ".join(re.sub(r"<[^>]+>", " ", tile).split()) for tile in drawn.split("</div>")[:-1]]


def open_kind(at, log: Log, kind: str, item: str = "new"):
    if shed(log).of_kind(kind):
        return at.pills(key=f"kit_{shed(log).id}_{kind}").set_value(item).run()
    return at.pills(key=f"kit_{shed(log).id}_more").set_value(kind).run()


def shut_kind(at, log: Log, kind: str):
    field = kind if shed(log).of_kind(kind) else "more"
    return at.pills(key=f"kit_{shed(log).id}_{field}").set_value(None).run()


def submit(at, label: str):
    return next(button for button in at.button if button.label == label).click().run()


def test_without_a_place_it_asks_for_one_and_makes_it(log: Log, show: Open):
    people.add_member(log, "Wren")
    at = show(log, "kit")
    assert "Add where you train" in words(at)
    at.text_input(key="kit_new_name").set_value("Barn")
    at.button(key="kit_new_rack").click().run()
    assert [place.name for place in places.places(log)] == ["Barn"]
    assert len(places.places(log)[0].of_kind("disc")) == 6
    assert places.places(log)[0].pins


def test_what_stands_there_is_listed_with_mass_and_number(log: Log, show: Open, wren):
    at = show(log, "kit")
    assert "Wren trains here." in words(at)
    assert "**10 kg**  \n2 pairs" in at.pills(key=f"kit_{shed(log).id}_disc").options
    assert "bar, 20 kg" in at.pills(key=f"kit_{shed(log).id}_bar").options


def test_a_measured_disc_is_added_changed_removed_and_brought_back(log: Log, show: Open, wren):
    at = open_kind(show(log, "kit"), log, "disc")
    at.text_input(key="kit_add_disc_masses").set_value("19,87 2.5")
    at.text_input(key="kit_add_disc_number").set_value("1")
    submit(at, "Add")
    assert [str(item.mass) for item in shed(log).of_kind("disc")] == ["19.87 kg", "10 kg", "2.5 kg"]
    heavy = shed(log).of_kind("disc")[0]
    at = open_kind(at, log, "disc", heavy.id)
    at.text_input(key=f"kit_item_{heavy.id}_number").set_value("3")
    submit(at, "Save")
    assert shed(log).of_kind("disc")[0].number == 3
    at = open_kind(at, log, "disc", heavy.id)
    at.button(key=f"kit_item_{heavy.id}_remove").click().run()
    assert len(shed(log).of_kind("disc")) == 2
    at.button(key="frame_undo").click().run()
    assert shed(log).of_kind("disc")[0].number == 3


BAD = (
    ("disc", "masses", "ten"), ("disc", "masses", "-5"), ("disc", "masses", ""), ("disc", "masses", "nan"),
    ("disc", "number", "-1"), ("disc", "number", "lots"), ("dumbbell", "masses", "2000"),
    ("bar", "mass", ""), ("bar", "mass", "inf"), ("bar", "mass", "0"), ("band", "label", ""), ("collars", "mass", "-2"),
)  # fmt: skip


def test_bad_kit_gets_one_message_and_nothing_is_written(log: Log, show: Open, wren):
    before = rows(log)
    at = show(log, "kit")
    for kind, field, value in BAD:
        at = open_kind(at, log, kind)
        if field == "number":
            at.text_input(key=f"kit_add_{kind}_masses").set_value("5")
        at.text_input(key=f"kit_add_{kind}_{field}").set_value(value)
        at = submit(at, "Add")
        assert words(at).count("Not saved.") == 1, (kind, field, value)
        at = shut_kind(at, log, kind)
    assert rows(log) == before


def test_what_the_kit_makes_is_said_and_follows_what_is_there(log: Log, show: Open, wren):
    at = show(log, "kit")
    assert makes(at) == ["Bar 20 to 60 kg by 20 kg"]
    at = open_kind(at, log, "disc")
    at.text_input(key="kit_add_disc_masses").set_value("1.25")
    at = submit(at, "Add")
    assert makes(at) == ["Bar 20 to 62.5 kg by 2.5 kg or more"]


def test_empty_kinds_are_one_row_and_one_touch(log: Log, show: Open, wren):
    at = show(log, "kit")
    more = at.pills(key=f"kit_{shed(log).id}_more")
    assert more.options == ["+ Collars", "+ Dumbbells", "+ Kettlebells", "+ Balls", "+ Bands", "+ Machines"]
    at = open_kind(at, log, "machine")
    at.text_input(key="kit_add_machine_mass").set_value("7,5")
    at.text_input(key="kit_add_machine_label").set_value("leg press")
    at = submit(at, "Add")
    assert [(item.label, str(item.mass)) for item in shed(log).of_kind("machine")] == [("leg press", "7.5 kg")]
    assert "Leg press, by 7.5 kg" in at.pills(key=f"kit_{shed(log).id}_machine").options
    assert makes(at)[1] == "Leg press from 7.5 kg by 7.5 kg"
    at = open_kind(at, log, "machine")
    at = submit(at, "Add")  # just that there is one
    assert {item.label for item in shed(log).of_kind("machine")} == {"leg press", "machine"}


def test_a_whole_ready_kit_takes_the_place_of_its_kinds_and_leaves_the_rest(log: Log, show: Open, wren):
    at = open_kind(show(log, "kit"), log, "band")
    at.text_input(key="kit_add_band_label").set_value("thin")
    at = submit(at, "Add")
    at.button(key="kit_whole_dumbbells").click().run()
    kinds = {item.kind for item in shed(log).items}
    assert kinds == {"bar", "disc", "band", "dumbbell"}
    at.button(key="kit_whole_gym").click().run()
    assert [str(bar.mass) for bar in shed(log).of_kind("bar")] == ["20 kg", "15 kg"]
    assert [item.label for item in shed(log).of_kind("band")] == ["thin"]
    at.button(key="frame_undo").click().run()
    assert [item.label for item in shed(log).of_kind("bar")] == ["bar"]


def test_an_empty_place_begins_with_the_ready_kits(log: Log, show: Open, wren):
    at = show(log, "kit")
    at.pills(key="kit_place").set_value("new place").run()
    at.text_input(key="kit_new_name").set_value("Loft")
    at.button(key="kit_new_floor").click().run()
    assert "**Start from a ready kit**" in words(at)  # open, and no box of many words that is closed
    at.button(key="kit_whole_rack").click().run()
    assert "20 to 137.5 kg" in words(at)


def test_a_ready_kit_shows_its_source_and_status_and_is_taken(log: Log, show: Open, wren):
    at = show(log, "kit")
    at.selectbox(key="kit_ready_name").set_value("weightlifting, women's bar with collars").run()
    assert "International Weightlifting Federation" in words(at)
    assert "Read in a text that cites it." in words(at)
    at.button(key="kit_ready_use").click().run()
    assert str(shed(log).of_kind("bar")[0].mass) == "15 kg"
    assert str(shed(log).of_kind("collars")[0].mass) == "5 kg"


def test_another_place_is_one_touch_away(log: Log, show: Open, wren):
    garage = places.add_place(log, "Garage", "lb")
    at = show(log, "kit")
    at.pills(key="kit_place").set_value(garage.id).run()
    at.button(key="kit_go").click().run()
    assert people.member(log, wren.id).place_id == garage.id


def test_a_taken_name_is_told_and_nothing_written(log: Log, show: Open, wren):
    before = rows(log)
    at = show(log, "kit")
    at.pills(key="kit_place").set_value("new place").run()
    at.text_input(key="kit_new_name").set_value("shed")
    at.button(key="kit_new_gym").click().run()
    assert "There is a place shed already." in words(at)
    assert rows(log) == before


def test_a_place_is_removed_and_brought_back(log: Log, show: Open, wren):
    at = show(log, "kit")
    at.button(key="kit_remove_place").click().run()
    assert places.places(log) == ()
    at.button(key="frame_undo").click().run()
    assert shed(log).name == "Shed"


def test_the_demo_s_places_are_all_there(demo_log: Log, show: Open):
    at = show(demo_log, "kit")
    assert {"Lanternmill", "Garage", "Kitchen", "Spare room"} <= set(at.pills(key="kit_place").options)
    for place in places.places(demo_log):
        at.pills(key="kit_place").set_value(place.id).run()
        assert not at.exception


def test_the_kit_stands_over_a_ten_year_log(ten_years: Log, show: Open):
    at = show(ten_years, "kit")
    assert not at.exception
    assert not at.error


def test_what_makes_no_load_is_put_there_by_name_in_one_touch_and_is_no_machine_of_a_lift(log: Log, show: Open, wren):
    at = show(log, "kit")
    field = f"kit_{shed(log).id}_standing"
    assert {"Rower", "Bike", "Box", "Pull-up bar"} <= set(at.pills(key=field).options)
    at.pills(key=field).set_value(["rower", "box"]).run()
    assert not at.exception
    assert sorted(item.label for item in shed(log).of_kind("machine")) == ["box", "rower"]
    assert "+ Machines" in at.pills(key=f"kit_{shed(log).id}_more").options
    assert "machine" not in sore.at_hand_in(
        people.members(log)[0], shed(log)
    )  # no leg press because a rower stands there
    assert "machine" not in first_session.at_hand(shed(log))
    at.pills(key=field).set_value(["box"]).run()
    assert [item.label for item in shed(log).of_kind("machine")] == ["box"]
    at.button(key="frame_undo").click().run()
    assert sorted(at.pills(key=field).value) == ["box", "rower"]
