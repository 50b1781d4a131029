"""On a phone, with touch: from nothing to a first set; a set mended, and one given to the member who did it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Phone, Served, at_rest
from tests.browser.test_access import CONTRAST, findings, fits, look, open_all
from tests.browser.test_main_job import last_point, said, squat, tap
from tests.day import this_day
from tracker.desk.day import today
from tracker.desk.history import journal
from tracker.desk.people import people
from tracker.log.records import SetRow

if TYPE_CHECKING:
    from playwright.sync_api import Page


def fill(page: Page, label: str, text: str) -> None:
    page.get_by_role("textbox", name=label).first.fill(text)
    page.keyboard.press("Tab")
    at_rest(page)


def readable(page: Page) -> None:
    """Nothing serious for axe-core in either look, and nothing wider than the smallest phone."""
    open_all(page)
    assert findings(page) == []
    look(page, "dark")
    assert findings(page, CONTRAST) == []
    look(page, "light")
    page.set_viewport_size({"width": 320, "height": 700})
    fits(page, "320 px")
    page.set_viewport_size({"width": 390, "height": 844})


def choose(page: Page, *names: str) -> None:
    """Touch the choices of the first run, one question after the other; each is a button with a picture."""
    for name in names:
        page.get_by_role("button", name=name).locator("visible=true").first.tap()
        at_rest(page)


def test_from_an_empty_log_to_loads_and_a_first_set(empty: Served, phone: Phone):
    page = phone(empty.url)
    readable(page)
    fill(page, "Your name", "Ada")
    choose(page, "Kilograms")
    readable(page)
    choose(page, "Gym")
    readable(page)
    choose(page, "Front squat", "Next")
    page.get_by_text("3", exact=True).tap()
    at_rest(page)
    fill(page, "Load, kg", "92,5")
    readable(page)
    choose(page, "Next")
    readable(page)
    choose(page, "It is a guess")
    expect(page.locator("h1")).to_have_text("Your first session")
    readable(page)
    expect(page.get_by_role("img", name="One end of the bar: 25 + 1.25 kg a side").first).to_be_visible()
    choose(page, "Start")
    expect(page.locator("h1")).to_have_text("First session")
    said(page, "Ada's log is begun.")
    tap(page, "Done: 5 × 72.5 kg")
    said(page, "Saved: 5 × 72.5 kg")
    ada = people.members(empty.log)[0]
    assert len(today.day_plan(empty.log, ada.id, this_day()).sets) == 1


def test_someone_who_knows_no_max_finds_one_by_rising_sets(empty: Served, phone: Phone):
    page = phone(empty.url)
    choose(page, "Kilograms", "Gym", "Front squat", "Next")
    choose(page, "I don't know")
    readable(page)
    choose(page, "Start")
    tap(page, "Done: 5 × 20 kg")
    said(page, "Saved: 5 × 20 kg")
    tap(page, "Done: 5 × 22.5 kg")
    said(page, "Saved: 5 × 22.5 kg")
    ada = people.members(empty.log)[0]
    assert [str(row.load) for row in today.day_plan(empty.log, ada.id, this_day()).sets] == ["20 kg", "22.5 kg"]


def open_set(page: Page, served: Served, row: SetRow) -> None:
    """Open a session in the journal, and in it a set."""
    page.locator(f".st-key-journal_open_{row.session_id} button").locator("visible=true").first.tap()
    at_rest(page)
    entry = next(each for each in journal.sessions(served.log, row.member_id) if each.session.id == row.session_id)
    place = [each.id for each in entry.sets].index(row.id)
    page.locator(f".st-key-journal_set_{row.session_id}").get_by_role("radio").nth(place).or_(
        page.locator(f".st-key-journal_set_{row.session_id} button").nth(place)
    ).first.tap()
    at_rest(page)


def squat_set(served: Served, member: str) -> SetRow:
    """The heaviest front squat of the newest day on which a member did some."""
    rows = [
        row
        for entry in journal.sessions(served.log, served.members[member], limit=10)
        for row in entry.sets
        if row.lift.title == "front squat, barbell" and row.kind == "work"
    ]
    return max(rows, key=lambda row: (row.day, row.load.kg))


def test_a_set_of_an_earlier_session_is_mended_and_the_trend_follows(own: Served, phone: Phone):
    wren = own.members["Wren"]
    trend = f"{own.url}/trend?member={wren}&lift={squat(own)}&reps=3"
    page = phone(trend)
    before = last_point(page, "estimated 3RM")
    row = squat_set(own, "Wren")
    page.goto(f"{own.url}/journal?member={wren}")
    at_rest(page)
    open_set(page, own, row)
    field = f".st-key-journal_mend_{row.id}_load input"
    page.locator(field).fill(str(row.load.amount + 10))
    page.keyboard.press("Tab")
    at_rest(page)
    tap(page, "Save the change")
    said(page, "Saved:")
    page.goto(trend)
    at_rest(page)
    assert last_point(page, "estimated 3RM")["y"] > before["y"]
    tap(page, "Undo")
    said(page, "Taken back: edited")
    page.goto(trend)
    at_rest(page)
    assert last_point(page, "estimated 3RM")["y"] == pytest.approx(before["y"])


def test_a_set_logged_for_the_wrong_member_goes_to_the_right_one(own: Served, phone: Phone):
    wren, tobin = own.members["Wren"], own.members["Tobin"]
    row = squat_set(own, "Wren")
    page = phone(f"{own.url}/journal?member={wren}")
    open_set(page, own, row)
    page.get_by_text("Another member, day or lift").tap()
    who = page.locator(f".st-key-journal_move_{row.id}_who input")
    who.click()
    page.wait_for_timeout(500)  # the list is drawn anew while it opens
    page.keyboard.type("Tobin", delay=60)
    page.wait_for_timeout(500)
    page.keyboard.press("Enter")
    expect(who).to_have_value("Tobin")
    at_rest(page)
    tap(page, "Move it")
    said(page, "Moved to Tobin")
    mine = [each.id for entry in journal.sessions(own.log, wren) for each in entry.sets]
    theirs = [each.id for entry in journal.sessions(own.log, tobin) for each in entry.sets]
    assert row.id not in mine
    assert row.id in theirs


VIEWS = (
    "journal?view=month", "journal?view=acts", "load",
    "preferences?part=body", "preferences?part=lifts", "preferences?part=maxes", "preferences?part=members",
)  # fmt: skip


def test_every_part_of_journal_and_preferences_can_be_read_by_everybody(own: Served, phone: Phone):
    page = phone(own.url)
    for view in VIEWS:
        page.goto(f"{own.url}/{view}&member={own.members['Wren']}")
        at_rest(page)
        readable(page)
