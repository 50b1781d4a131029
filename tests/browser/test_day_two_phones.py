"""Two phones of one member: what both touched is kept, and asked about once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser.day_phone import Gym, act, done_today, kept, online, opened, phone_of

if TYPE_CHECKING:
    from playwright.sync_api import Browser


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
