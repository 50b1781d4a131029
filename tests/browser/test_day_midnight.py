"""A session that runs over midnight is of the day on which it began, without a connection too; the next day comes by itself."""

from __future__ import annotations

import re
from datetime import datetime, time, timedelta
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser.day_phone import Gym, act, done_today, kept, next_is, online, opened, phone_of
from tests.day import this_day

if TYPE_CHECKING:
    from playwright.sync_api import Browser


def at(days: int, hour: int, minute: int) -> datetime:
    return datetime.combine(this_day() + timedelta(days=days), time(hour, minute))


def test_a_session_over_midnight_stays_on_the_day_on_which_it_began(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        context.clock.install(time=at(0, 23, 40))
        page = opened(context, gym.url)
        title = page.locator("h1").inner_text()
        context.set_offline(True)
        for count in (1, 2, 3):
            act(page, "done")
            kept(page, count)
        context.clock.set_system_time(
            at(1, 0, 0)
        )  # the page stands open over midnight; its own patience runs on as it is
        expect(page.locator("#still")).to_contain_text("Still ")
        done_today(page, 3)
        expect(page.locator("h1")).to_have_text(title)
        act(page, "done")
        kept(page, 4)
        page.reload()
        kept(page, 4)
        done_today(page, 4)
        act(page, "done")
        next_is(page, "piece")
        act(page, "start")
        page.locator("#clock_face").wait_for()
        context.clock.set_system_time(at(1, 0, 3))
        expect(page.locator("#clock_face")).to_have_text(re.compile("^2:"))
        act(page, "stop")
        page.locator('[data-finished="3"]').tap()
        act(page, "score")
        next_is(page, "rating")
        page.locator('[data-rating="8"]').tap()
        act(page, "rate")
        next_is(page, "nothing")
        kept(page, 9)
        expect(page.locator("#still")).to_be_visible()
        page.locator("#new_day").tap()  # whoever is done goes on to the day that it is
        expect(page.locator("#still")).to_have_count(0)
        expect(page.locator("#missed_head")).to_have_count(0)  # a finished session is no missed one
        done_today(page, 0)
        context.clock.set_system_time(at(1, 8, 0))
        page.reload()
        kept(page, 9)
        next_is(page, "nothing")
        expect(page.locator("#missed_head")).to_have_count(0)
        context.clock.set_system_time(datetime.now().astimezone())
        online(context, page)
        kept(page, 0)
    day, known = gym.day("Wren")
    assert [row.outcome for row in day.sets] == ["done"] * 5
    assert (len(day.scores), day.session.rating) == (1, 8)
    assert {each.said["day"] for each in known} == {this_day().isoformat()}


def test_what_was_begun_yesterday_does_not_stand_in_the_way_of_today(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        context.clock.install(time=at(-1, 18, 0))
        page = opened(context, gym.url)
        context.set_offline(True)
        page.locator('[data-act="begin"]').last.tap()  # one of a later day, begun and not finished
        kept(page, 1)
        begun = page.locator("h1").inner_text()
        act(page, "done")
        kept(page, 2)
        context.clock.set_system_time(at(0, 9, 0))
        page.reload()
        kept(page, 2)
        expect(page.locator("h1")).to_have_text("Front squat, week 2 of 3")  # the one of this day, as it was planned
        done_today(page, 0)
        expect(page.locator('section[aria-labelledby="missed_head"]')).to_contain_text(begun)
        context.clock.set_system_time(datetime.now().astimezone())
        online(context, page)
        kept(page, 0)
        expect(page.locator("h1")).to_have_text("Front squat, week 2 of 3")
