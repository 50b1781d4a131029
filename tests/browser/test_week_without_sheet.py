"""A week without a coach's sheet, on a phone and by touches: a first day, the same again, a piece, and a sore knee.

`TIDEMARK_PICTURES=FOLDER` keeps a picture of every step, for whoever looks at pages.
"""

from __future__ import annotations

import os
from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser.conftest import Phone, Served, at_rest
from tests.browser.test_main_job import said, tap
from tests.day import this_day
from tracker.desk.day import today
from tracker.desk.pieces import conditioning

if TYPE_CHECKING:
    from playwright.sync_api import Page


def picture(page: Page, name: str) -> None:
    if folder := os.environ.get("TIDEMARK_PICTURES"):
        tall = page.evaluate("document.querySelector('[data-testid=stMain]').scrollHeight")
        page.set_viewport_size({"width": 390, "height": min(max(tall, 844), 3000)})
        at_rest(page)
        page.screenshot(path=Path(folder) / f"week-{name}.png")
        page.emulate_media(color_scheme="dark")
        at_rest(page)
        page.screenshot(path=Path(folder) / f"week-{name}-dark.png")
        page.emulate_media(color_scheme="light")
        page.set_viewport_size({"width": 390, "height": 844})
        at_rest(page)


def whole(page: Page) -> None:
    """Hold that nothing of the page is wider than the phone, and that what is touched is large enough for a finger."""
    assert page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth") <= 0
    small = page.evaluate("""() => [...document.querySelectorAll('[data-testid="stMain"] button')]
        .filter(each => each.offsetParent && each.innerText.trim())
        .map(each => [each.innerText, each.getBoundingClientRect()])
        .filter(([, box]) => box.height < 43.5).map(([text, box]) => `${text}: ${box.height}`)""")
    assert small == []


def sets_on(served: Served, days_ago: int) -> list[str]:
    plan = today.day_plan(served.log, served.members["Noa"], this_day() - timedelta(days=days_ago))
    return [f"{row.reps} x {row.load} {row.lift.name}" for row in plan.sets]


def test_a_week_without_a_sheet(alone: Served, phone: Phone):
    noa = alone.members["Noa"]

    def day(days_ago: int) -> str:
        return f"{alone.url}/?member={noa}&day={this_day() - timedelta(days=days_ago)}"

    # The first day: a lift that the log does not know yet, two sets, and the session is kept under a name.
    page = phone(day(6))
    page.get_by_label("Name of the lift").fill("back squat")
    tap(page, "Take this lift")
    page.get_by_label("Load, kg").fill("60")
    page.keyboard.press("Enter")
    at_rest(page)
    tap(page, "Log this set")
    said(page, "Saved: 5 × 60 kg")
    expect(page.locator(".rest")).to_have_count(0)  # another day is written from memory: nobody rests
    whole(page)
    picture(page, "1-first-set")
    tap(page, "Log this set")
    assert sets_on(alone, 6) == ["5 x 60 kg back squat"] * 2
    page.get_by_text("Keep this session for another day").tap()
    at_rest(page)
    page.get_by_label("What to call it").fill("Leg day")
    tap(page, "Keep it")
    said(page, "Kept as Leg day")

    # Two days on: one touch lays it out, one touch each logs it.
    page.goto(day(4))
    at_rest(page)
    whole(page)
    picture(page, "2-begin-from")
    tap(page, "Leg day")
    said(page, "Leg day: 2 sets laid out")
    expect(page.locator(".before").first).to_contain_text("Last time, ")
    whole(page)
    picture(page, "3-laid-out")
    tap(page, "Done: 5 × 60 kg")
    tap(page, "Done: 5 × 60 kg")
    assert sets_on(alone, 4) == ["5 x 60 kg back squat"] * 2

    # A piece by touches: kind, movement, how much.
    page.goto(f"{alone.url}/conditioning?member={noa}")
    at_rest(page)
    page.get_by_role("radio", name="For time").or_(page.get_by_role("button", name="For time", exact=True)).first.tap()
    at_rest(page)
    page.get_by_role("combobox", name="Movement").tap()
    page.keyboard.type("burpee")
    page.get_by_role("option", name="burpee", exact=True).first.tap()
    at_rest(page)
    tap(page, "Add the movement")
    whole(page)
    picture(page, "4-piece-by-touches")
    tap(page, "Take this piece")
    said(page, "Added: For time: 10 burpees")
    assert [row.piece.title for row in conditioning.pieces(alone.log, noa)] == ["For time: 10 burpees"]

    # Today the knee is sore: the day offers, and does nothing until it is touched; then a heavier set is a best mark.
    page.goto(f"{alone.url}/?member={noa}")
    at_rest(page)
    tap(page, "Leg day")
    page.get_by_text("Something hurts, muscles ache, ill, or a limited day").tap()
    at_rest(page)
    tap(page, "Knee")
    expect(page.locator(".st-key-sore")).to_contain_text("Back squat loads the knee.")
    expect(page.locator(".st-key-sore")).to_contain_text("See a clinician")
    expect(page.locator(".big").first).to_have_text("5 × 60 kg")
    whole(page)
    picture(page, "5-sore-knee")
    tap(page, "It hurts: no load for it")
    expect(page.locator(".st-key-next_set")).to_contain_text("no load is proposed")
    expect(page.get_by_role("button", name="Done: 5 × 60 kg")).to_have_count(0)
    whole(page)
    picture(page, "6-painful")
    tap(page, "It hurts no more", within=".st-key-next_set")
    tap(page, "It is good again")
    tap(page, "Change it")
    tap(page, "+ 2.5", within=".st-key-next_set")
    tap(page, "Log this set", within=".st-key-next_set")
    said(page, "Best for 5 and fewer: 62.5 kg. Before: 60 kg on ")
    whole(page)
    picture(page, "7-best-mark")
    assert sets_on(alone, 0) == ["5 x 62.5 kg back squat"]
