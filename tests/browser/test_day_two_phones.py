"""Two phones of one member: what both touched is kept, and asked about once."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser.day_phone import Gym, act, done_today, kept, online, opened, phone_of

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Route


def test_two_phones_of_one_member_keep_both_and_ask_once(gym: Gym, chromium: Browser):
    with phone_of(chromium) as one, phone_of(chromium) as two:
        first, second = opened(one, gym.url), opened(two, gym.url)
        for context, page in ((one, first), (two, second)):
            context.set_offline(True)
            act(page, "done")
            kept(page, 1)
        for context, page in ((one, first), (two, second)):
            online(context, page)
            kept(page, 0)
        assert len(gym.day("Wren")[0].sets) == 2
        second.get_by_role("button", name="One set").tap()
        kept(second, 0)
        done_today(second, 1)
        first.reload()
        done_today(first, 1)
        expect(first.get_by_role("button", name="One set")).to_have_count(0)
        expect(first.locator(".over").first).to_have_text("Set 2 of 5")
    assert len(gym.day("Wren")[0].sets) == 1


def test_a_set_whose_session_was_changed_meanwhile_is_logged_and_the_page_says_so_until_it_is_read(
    gym: Gym, chromium: Browser
):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        planned = re.compile(r'"planned":"[0-9a-f]+"')  # as after a sheet was taken in anew: the set has another number

        def changed(route: Route) -> None:
            route.continue_(post_data=planned.sub(f'"planned":"{"f" * 32}"', route.request.post_data or ""))

        page.route("**/day/api/acts", changed)
        act(page, "done")
        kept(page, 0)
        done_today(page, 1)
        said = page.get_by_text("The session was changed meanwhile")
        expect(said).to_contain_text("front squat, barbell: 4 × ")
        page.reload()
        expect(said).to_be_visible()
        page.get_by_role("button", name="Seen").tap()
        expect(said).to_have_count(0)
        page.reload()
        done_today(page, 1)
        expect(said).to_have_count(0)
    (row,) = gym.day("Wren")[0].sets
    assert row.planned_set_id is None
