"""Two touches so quick that the page has not drawn the first yet: what is logged is what the hand asked for."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Phone, Served, at_rest
from tests.browser.test_main_job import tap
from tests.day import this_day
from tests.loads import kg
from tracker.desk.day import log_set, today
from tracker.desk.people import people
from tracker.log import waves as log_waves
from tracker.log.sets import NewSet
from tracker.log.waves import NewPlannedSet, NewStep

if TYPE_CHECKING:
    from playwright.sync_api import Page

QUICKLY = """async ([names, apart]) => {
  const seen = [...document.querySelectorAll('button')].filter(each => each.offsetParent);
  for (const button of names.map(name => seen.find(each => each.innerText.trim() === name))) {
    button.click();
    await new Promise(done => setTimeout(done, apart));
  }
}"""


@pytest.fixture
def squat(alone: Served, phone: Phone) -> Page:
    """A set of 5 x 60 kg that only waits to be logged."""
    page = phone(f"{alone.url}/?member={alone.members['Noa']}")
    page.get_by_label("Name of the lift").fill("back squat")
    tap(page, "Take this lift")
    page.get_by_label("Load, kg").fill("60")
    page.keyboard.press("Enter")
    at_rest(page)
    return page


def loads(served: Served) -> list[str]:
    return [str(row.load) for row in today.day_plan(served.log, served.members["Noa"], this_day()).sets]


def touched(page: Page, names: list[str], apart: int) -> None:
    for name in names[-2:]:  # reserve is a pill
        page.get_by_role("button", name=name, exact=True).locator("visible=true").first.wait_for()
    page.evaluate(QUICKLY, [names, apart])


def test_a_heavier_load_and_log_right_after_it(alone: Served, squat: Page):
    wanted: list[str] = []
    for apart in (0, 10, 20, 30, 40, 60, 100):  # milliseconds: before, while and after the answer to the first comes
        shown = Decimal(squat.get_by_label("Load, kg").input_value())
        touched(squat, ["+ 2.5", "Log this set"], apart)
        wanted.append(f"{shown + Decimal('2.5'):f} kg".replace(".0 kg", " kg"))
        expect(squat.locator(".notice")).to_contain_text(f"Saved: 5 × {wanted[-1]}")
        at_rest(squat)
        assert loads(alone) == wanted


def test_a_touch_before_the_first_answer_while_the_page_is_busy(alone: Served, squat: Page):
    touched(squat, ["2", "+ 2.5", "Log this set"], 0)  # the run for what was left is going on when the others come
    expect(squat.locator(".notice")).to_contain_text("Saved: 5 × 62.5 kg")
    at_rest(squat)
    assert loads(alone) == ["62.5 kg"]


def test_an_attempt_missed_and_logged_right_after_it(alone: Served, phone: Phone):
    log, member = alone.log, alone.members["Noa"]
    squat = people.add_lift(log, "back squat", "barbell", member_id=member)
    for ago in (17, 10):
        log_set.log_set(log, member, this_day() - timedelta(days=ago), NewSet(squat.id, kg("80"), 5), sure=True)
    with log.act("a wave") as act:
        step = NewStep("Test day", 0, [NewPlannedSet(squat.id, 1, 3, test=True)])
        log_waves.start_wave(act, member, log_waves.add_wave(act, "Test week", [step]), this_day())
    page = phone(f"{alone.url}/?member={member}")
    page.locator(".st-key-safety_arms button").last.tap()
    at_rest(page)
    for logged, apart in enumerate((0, 20, 60), 1):
        if page.get_by_role("button", name="Another load", exact=True).is_visible():
            tap(page, "Another load")
        else:
            page.get_by_role("button", name="Log this attempt").wait_for()
        page.get_by_label("Load, kg").fill("85")
        page.keyboard.press("Enter")
        at_rest(page)
        expect(page.get_by_label("Repetitions", exact=True)).to_have_value("3")
        page.get_by_role("radio", name="Missed", exact=True).wait_for()
        page.evaluate(QUICKLY, [["Missed", "Log this attempt"], apart])
        expect(page.locator(".notice")).to_contain_text("Saved: ")
        at_rest(page)
        sets = today.day_plan(log, member, this_day()).sets
        assert [(row.outcome, row.reps) for row in sets] == [("missed", 2)] * logged
