"""A goal on a phone: from nothing by touches, on course, reached by a set on the day page of the log, the next one, and given up."""

from __future__ import annotations

import os
from datetime import timedelta
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser.conftest import Phone, Served, at_rest
from tests.browser.test_main_job import said, tap
from tests.day import this_day
from tests.loads import kg
from tracker.desk.ahead import goals
from tracker.desk.day import log_set
from tracker.desk.people import people
from tracker.log.sets import NewSet

if TYPE_CHECKING:
    from playwright.sync_api import Page

PICTURES = os.environ.get("TIDEMARK_PICTURES", "")


def taken(page: Page, name: str) -> None:
    """Keep a picture, where somebody asked for them."""
    if PICTURES:
        page.screenshot(path=str(Path(PICTURES) / f"goal-{name}.png"), full_page=True)


def test_from_nothing_to_a_goal_on_course_reached_the_next_and_given_up(served: Served, phone: Phone):
    log, wren = served.log, served.members["Wren"]
    lift = next(each for each in people.lifts(log) if each.title == "front squat, barbell")
    trend = f"{served.url}/trend?member={wren}&lift={lift.id}&reps=3"
    page = phone(trend)
    at_rest(page)
    page.locator("summary", has_text="Set a goal").tap()
    at_rest(page)
    expect(page.get_by_text("likely by then, if you train on as you have")).to_be_visible()
    taken(page, "1-asked")
    page.get_by_label("Another load, in kg").fill("82.5")
    page.keyboard.press("Enter")
    at_rest(page)
    tap(page, "Set this goal")
    said(page, "Goal set: 3RM 82.5 kg.")
    card = page.locator("[class*='st-key-goal_']", has_text="3RM 82.5 kg, by").last
    expect(card).to_contain_text("On course since today")
    expect(card).to_contain_text("in some week up to")
    page.wait_for_selector(".js-plotly-plot .scatterlayer")
    assert page.evaluate("() => document.querySelector('.js-plotly-plot')._fullData.some(each => each.name === 'goal')")
    taken(page, "2-on-course")

    log_set.log_set(log, wren, this_day(), NewSet(lift.id, kg("82.5"), 3, Decimal(1)), sure=True)
    page.goto(f"{served.url}/?member={wren}")
    at_rest(page)
    expect(page.get_by_text("Goal reached:")).to_be_visible()
    page.goto(trend)
    at_rest(page)
    expect(page.get_by_text("Goal reached", exact=True)).to_be_visible()
    expect(page.get_by_text("3 × 82.5 kg, 1 left")).to_be_visible()
    taken(page, "3-reached")
    page.locator("summary", has_text="Set the next goal").tap()
    at_rest(page)
    tap(page, "Set this goal")
    said(page, "Goal set")
    expect(page.get_by_text("Goal reached", exact=True)).to_have_count(0)
    taken(page, "4-next")

    page.locator("summary", has_text="Change or give up").tap()
    at_rest(page)
    taken(page, "5-change")
    page.get_by_text("Some day", exact=True).tap()
    at_rest(page)
    tap(page, "Change it")
    said(page, "Goal changed.")
    expect(page.get_by_text("some day").first).to_be_visible()
    tap(page, "Undo")
    expect(page.get_by_text("some day")).to_have_count(0)
    page.locator("summary", has_text="Change or give up").tap()
    at_rest(page)
    tap(page, "Give it up")
    said(page, "Goal given up.")
    expect(page.locator("summary", has_text="Set a goal")).to_be_visible()
    ended = [each.ended for each in goals.goals(log, wren)]
    assert ended == ["reached", "given up"]
    assert goals.goals(log, wren)[1].by == this_day() + timedelta(weeks=12)
    taken(page, "6-given-up")
