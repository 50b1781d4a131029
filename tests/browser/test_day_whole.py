"""The day page has what Today's has: the way up to a heavy set, effort as RPE, each side, ticks; and keeps what is typed of a score."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser.day_phone import Gym, act, done_today, kept, next_is, online, opened, phone_of
from tests.day import this_day
from tracker.desk.day import today
from tracker.desk.people import people
from tracker.desk.sheet import sheets

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

    from tracker.log.unit_of_work import Log


def picture(page: Page, name: str) -> None:
    """Keep a picture for whoever looks at pages, where TIDEMARK_PICTURES names a folder."""
    if folder := os.environ.get("TIDEMARK_PICTURES"):
        page.screenshot(path=Path(folder) / f"day-whole-{name}.png", full_page=True)


SHEET = """Warm-up
2 rounds of 10 air squats

Split squat 1x8 each leg, 2 x 16 kg dumbbells @ RPE 8

Build to a heavy single clean

2 rounds not for time
10 ring rows
8 walking lunges each leg

3 x 500 m row, rest 2:00
"""


def test_a_session_of_all_kinds_without_a_connection_and_a_reload_in_its_middle(gym: Gym, log: Log, chromium: Browser):
    someone = people.add_member(log, "Odalys")
    sheets.take_sheet(log, [someone.id], SHEET, this_day())
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Odalys")
        context.set_offline(True)
        page.locator("#warm_out").tap()
        expect(page.locator("#warm_below summary")).to_have_text("Warm-up: left out")
        expect(page.locator("#done")).to_have_text("Done: 8 each side × 16 kg each")
        expect(page.locator("#with_left")).to_have_text("Done, at an RPE of")
        picture(page, "rpe")
        page.locator("#done_1_5").tap()  # RPE 8.5
        done_today(page, 1)
        for load in ("50", "60"):  # on the way up: none of them ends it
            page.locator("#load").fill(load)
            page.locator("#on_the_way").tap()
            expect(page.locator("#done_head + ul")).to_contain_text(f"1 × {load} kg")
            expect(page.locator("[data-next]")).to_have_attribute("data-title", "clean, barbell")
        picture(page, "build-up")
        page.locator("#load").fill("70")
        act(page, "done")
        done_today(page, 4)
        next_is(page, "piece")
        page.locator("#tick_round").tap()
        page.locator("#tick_1_0").tap()
        expect(page.locator("#tick_1_0")).to_have_attribute("aria-pressed", "true")
        expect(page.locator("#time")).to_have_count(0)
        picture(page, "ticks")
        page.locator("#tick_round").tap()
        expect(page.locator("#score")).to_have_text("All done: log it")
        act(page, "score")
        page.locator("#each_0").fill("1:58")
        page.locator("#each_1").fill("2:01")
        online(context, page)
        kept(page, 0)
        page.reload()
        expect(page.locator("#each_0")).to_have_value("1:58")
        expect(page.locator("#each_1")).to_have_value("2:01")
        act(page, "score")
        next_is(page, "rating")
        kept(page, 0)
    plan = today.day_plan(log, someone.id, this_day())
    first, *ups = sorted(plan.sets, key=lambda row: row.position)
    assert (first.each_side, str(first.rir)) == (True, "1.5")
    assert [str(row.load) for row in ups] == ["50 kg", "60 kg", "70 kg"]
    assert plan.scores[-1].score.each_s[:2] == (118, 121)
