"""Preferences: what a member wants, body mass, lifts, rep-maxes, members; bad input writes nothing."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from sqlalchemy import func, select

from tests.day import this_day
from tests.pages.conftest import Open, words
from tests.undoing import undo_newest
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people, places
from tracker.log import members as log_members
from tracker.log.models import Change
from tracker.log.unit_of_work import Log
from tracker.units import Mass


def changes(log: Log) -> int:
    with log.reading() as session:
        return session.scalar(select(func.count()).select_from(Change)) or 0


def part(log: Log, show: Open, name: str):
    at = show(log, "preferences")
    return at.pills(key="kept_part").set_value(name).run()


def submit(at, label: str):
    return next(button for button in at.button if button.label == label).click().run()


def test_preferences_are_saved_and_taken_back(log: Log, show: Open, wren):
    at = show(log, "preferences")
    key = f"about_{wren.id}"
    assert "Each change is saved at once." in words(at)
    at.toggle(key=f"{key}_no_heavy").set_value(True).run()
    at = at.toggle(key=f"{key}_alone").set_value(True).run()
    assert "Saved: I mostly train alone, on" in words(at)
    changed = people.member(log, wren.id)
    assert (changed.no_heavy, changed.alone, changed.unit, changed.minor) == (True, True, wren.unit, False)
    at.button(key="frame_undo").click().run()
    assert people.member(log, wren.id) == replace(wren, no_heavy=True)


def test_unit_and_place_are_kept_with_one_touch_each(log: Log, show: Open, wren):
    place = places.add_place(log, "Loft", "kg")
    at = show(log, "preferences", wren.id)
    key = f"about_{wren.id}"
    at = at.button_group(key=f"{key}_unit").set_value("lb").run()
    at = at.selectbox(key=f"{key}_place").set_value(place.id).run()
    changed = people.member(log, wren.id)
    assert (changed.unit, changed.place_id, changed.name) == ("lb", place.id, wren.name)
    at.button(key="frame_undo").click().run()
    assert people.member(log, wren.id) == replace(changed, place_id=wren.place_id)


def test_files_are_reached_from_here(log: Log, show: Open, wren):
    at = show(log, "preferences", wren.id)
    assert "Files: import, export, back up" in [each.proto.label for each in at.get("page_link")]


def test_the_switch_for_nothing_heavy_asks_no_reason(log: Log, show: Open, wren):
    at = show(log, "preferences")
    asked = " ".join(field.label for field in (*at.text_input, *at.text_area)).lower()
    assert "reason" not in asked
    assert "why" not in asked


def test_a_bad_name_gets_one_message_and_nothing_is_written(log: Log, show: Open, wren):
    people.add_member(log, "Tobin")
    before = changes(log)
    at = show(log, "preferences", wren.id)
    assert not at.text_input(key=f"about_{wren.id}_name").proto.max_chars  # it would cut a paste without a word
    for name in ("", "  ", "tobin", "W" * 201):
        at.text_input(key=f"about_{wren.id}_name").set_value(name).run()
        assert words(at).count("Not saved.") == 1, name
    assert changes(log) == before
    at.text_input(key=f"about_{wren.id}_name").set_value("Wrenna").run()
    assert people.member(log, wren.id).name == "Wrenna"


def test_a_body_mass_is_dated_listed_and_removed(log: Log, show: Open, wren):
    at = part(log, show, "body")
    at.text_input(key="body_mass_amount").set_value("65,1")
    at = submit(at, "Save")
    assert people.body_masses(log, wren.id) == ((this_day(), Mass(Decimal("65.1"), "kg")),)
    assert "65.1 kg" in words(at)
    at.button(key=f"unweigh_{this_day()}").click().run()
    assert people.body_masses(log, wren.id) == ()


def test_a_bad_body_mass_gets_one_message_and_nothing_is_written(log: Log, show: Open, wren):
    before = changes(log)
    at = part(log, show, "body")
    for mass in ("", "heavy", "-60", "5", "nan", "inf", "700"):
        at.text_input(key="body_mass_amount").set_value(mass)
        at = submit(at, "Save")
        assert words(at).count("Not saved.") == 1, mass
    assert changes(log) == before


def test_a_lift_is_added_with_its_implement(log: Log, show: Open, wren):
    at = part(log, show, "lifts")
    at.text_input(key="add_lift_name").set_value("Split squat")
    at.selectbox(key="add_lift_with").set_value("dumbbells")
    at.checkbox(key="add_lift_sides").set_value(True)
    at = submit(at, "Add the lift")
    assert [(lift.title, lift.per_side) for lift in people.lifts(log)] == [("split squat, dumbbells", True)]
    assert "split squat: two dumbbells, each side" in words(at)


def test_an_imported_lift_asks_once_what_it_is_done_with(log: Log, show: Open, wren):
    with log.act("brought a file") as act:
        lift = log_members.add_lift(act, "press", "unasked")
    at = show(log, "preferences")
    assert "came from a file" in words(at)
    at.selectbox(key=f"implement_{lift.id}").set_value("barbell").run()
    at.button(key=f"implement_{lift.id}_save").click().run()
    assert people.lifts(log)[0].implement == "barbell"
    assert "came from a file" not in words(at)


def test_a_rep_max_is_recorded_as_tested_or_declared_and_removed(log: Log, show: Open, wren):
    people.add_lift(log, "deadlift", "barbell")
    at = part(log, show, "maxes")
    at.number_input(key="add_max_reps").set_value(5)
    at.text_input(key="add_max_load").set_value("140")
    at.radio(key="add_max_how").set_value("declared")
    at = submit(at, "Save the rep-max")
    row = rep_maxes.rep_maxes(log, wren.id)[0]
    assert (row.reps, str(row.load), row.source, row.day) == (5, "140 kg", "declared", this_day())
    assert "deadlift, barbell: declared 5RM 140 kg" in words(at)
    at.button(key=f"max_remove_{row.id}").click().run()
    assert rep_maxes.rep_maxes(log, wren.id) == ()
    undo_newest(log, wren.id)
    assert len(rep_maxes.rep_maxes(log, wren.id)) == 1


def test_a_bad_rep_max_gets_one_message_and_nothing_is_written(log: Log, show: Open, wren):
    people.add_lift(log, "deadlift", "barbell")
    before = changes(log)
    at = part(log, show, "maxes")
    for load in ("", "much", "-100", "0", "1001", "nan"):
        at.text_input(key="add_max_load").set_value(load)
        at = submit(at, "Save the rep-max")
        assert words(at).count("Not saved.") == 1, load
    assert changes(log) == before


def test_a_member_is_added_and_a_taken_name_is_told(log: Log, show: Open, wren):
    at = part(log, show, "members")
    at.text_input(key="add_member_name").set_value("Tobin")
    at.radio(key="add_member_unit").set_value("lb")
    at = submit(at, "Add the member")
    assert [(member.name, member.unit) for member in people.members(log)] == [("Tobin", "lb"), ("Wren", "kg")]
    before = changes(log)
    at.text_input(key="add_member_name").set_value("wren")
    at = submit(at, "Add the member")
    assert "There is a member wren already." in words(at)
    assert changes(log) == before


def test_signs_to_stop_at_stand_where_something_is_logged_and_not_here(log: Log, show: Open, wren):
    assert "Call emergency help" not in words(show(log, "preferences"))


@pytest.mark.sqlite("open every page over ten years; the tests of a page do it on a server where it matters")
def test_every_part_stands_over_the_demo_and_over_ten_years(demo_log: Log, ten_years: Log, show: Open):
    for log in (demo_log, ten_years):
        at = show(log, "preferences")
        for name in ("me", "body", "lifts", "maxes", "members"):
            at = at.pills(key="kept_part").set_value(name).run()
            assert not at.exception
            assert not at.error


def test_a_new_test_says_which_coming_loads_it_changes(demo_log: Log, show: Open):
    wren = next(member for member in people.members(demo_log) if member.name == "Wren")
    squat = next(lift for lift in people.lifts(demo_log) if lift.title == "front squat, barbell")
    at = show(demo_log, "preferences", wren.id)
    at = at.pills(key="kept_part").set_value("maxes").run()
    at.selectbox(key="add_max_lift").set_value(squat.id)
    at.text_input(key="add_max_load").set_value("120")
    at.number_input(key="add_max_reps").set_value(3)
    at.radio(key="add_max_how").set_value("tested")
    at = submit(at, "Save the rep-max")
    assert "A test was on a day." in words(at)  # nobody said that it was today
    at.date_input(key="add_max_day").set_value(this_day())
    at = submit(at, "Save the rep-max")
    assert "Saved: tested 3RM of 120 kg. Changes" in words(at)
    assert "coming load" in words(at)
