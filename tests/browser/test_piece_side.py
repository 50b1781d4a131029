"""A piece with pairs on a phone: the question, the member's own numbers, the way to the other ones; nothing is cut off."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser.conftest import Phone, Served, at_rest
from tests.day import this_day
from tests.desk.pieces.test_piece_side import HARBOUR
from tracker.conditioning.piece_record import piece_from
from tracker.desk.people.people import members
from tracker.desk.pieces import clocks, conditioning

if TYPE_CHECKING:
    from playwright.sync_api import Page

LONG = piece_from({
    "title": "Breakwater", "kind": "for time", "rounds": 3, "cap": "20:00",
    "movement": [
        {"name": "run", "first": 400, "measure": "m", "part": "buy-in"},
        {"name": "wall ball", "first": 20, "load": ["9", "6"], "unit": "kg", "target_cm": [305, 274],
         "options": [{"name": "goblet squat", "load": ["24", "16"], "unit": "kg", "when": "no wall at home"}]},
        {"name": "box jump", "first": 12, "height_cm": [61, 51]},
        {"name": "row", "sides": [20, 15], "measure": "cal", "part": "cash-out"},
    ],
})  # fmt: skip


def keep(page: Page, name: str) -> None:
    """Keep a picture for whoever looks at pages; see TIDEMARK_PICTURES."""
    if folder := os.environ.get("TIDEMARK_PICTURES"):
        page.screenshot(path=f"{folder}/{name}.png", full_page=True)


def wide(page: Page) -> int:
    return page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")


def touch(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).locator("visible=true").first.tap()
    at_rest(page)


def test_the_question_the_own_numbers_and_the_other_ones(served: Served, phone: Phone):
    member = next(each for each in members(served.log) if each.name == "Wren")
    row, other = conditioning.add_piece(served.log, HARBOUR), conditioning.add_piece(served.log, LONG)
    page = phone(f"{served.url}/conditioning?member={member.id}&piece={row.id}")
    expect(page.get_by_text("Which of the two numbers is yours?")).to_be_visible()
    expect(page.get_by_text("12/9 cal row")).to_be_visible()
    assert wide(page) <= 0
    keep(page, "side-asked")
    touch(page, "9 cal, 30 kg")
    expect(page.get_by_text("Which of the two numbers is yours?")).to_have_count(0)
    expect(page.get_by_text("9 cal row", exact=True)).to_be_visible()
    keep(page, "side-kept")

    clock = clocks.start_clock(served.log, member.id, other.id, this_day(), count_in_s=0)
    page.goto(f"{served.url}/conditioning?member={member.id}&piece={other.id}")
    at_rest(page)
    expect(page.get_by_text("Buy-in: 400 m run; then round 1:")).to_be_visible()
    expect(page.get_by_text("no wall at home: goblet squat, 16 kg", exact=True)).to_be_visible()
    assert wide(page) <= 0
    keep(page, "side-clock")
    touch(page, "Stop")
    page.locator("[class*='st-key-score_'][class*='_way']").get_by_text("Stopped early", exact=True).tap()
    at_rest(page)
    page.locator("[class*='st-key-score_'][class*='_part']").get_by_text("not all of the buy-in", exact=True).tap()
    at_rest(page)
    assert wide(page) <= 0
    keep(page, "side-parts")
    clocks.put_clock_away(served.log, clock.id)

    page.goto(f"{served.url}/preferences?member={member.id}")
    at_rest(page)
    said = page.get_by_text("Where a coach writes two, such as 43/30 kg, I take")
    expect(said).to_be_visible()
    said.scroll_into_view_if_needed()
    assert wide(page) <= 0
    keep(page, "side-preferences")

    page.goto(f"{served.url}/?member={member.id}")
    at_rest(page)
    words = page.get_by_text("Piece: ").first
    words.scroll_into_view_if_needed()
    assert wide(page) <= 0
    keep(page, "side-today")
