"""Where a phone lands that opens the bare address, and how it gets to all other pages and stays there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser.conftest import at_rest
from tests.browser.day_phone import Gym, next_is, phone_of

if TYPE_CHECKING:
    from playwright.sync_api import Browser

MOBILE = "Browser/1.0 (A phone) Mobile Safari/1.0"


def test_a_phone_lands_on_the_day_and_all_pages_are_remembered_once_chosen(gym: Gym, chromium: Browser):
    with phone_of(chromium, user_agent=MOBILE) as context:
        page = context.new_page()
        page.goto(gym.url)
        assert page.url == f"{gym.url}/day/"
        next_is(page, "set")
        page.goto(f"{gym.url}/trend")
        at_rest(page)
        assert page.url.startswith(f"{gym.url}/trend")  # a deep link is meant as it is
        page.goto(gym.url)
        page.locator("#all_pages").tap()
        at_rest(page)
        assert page.url.startswith(f"{gym.url}/?member=")
        page.goto(gym.url)
        at_rest(page)
        assert page.url.startswith(f"{gym.url}/")
        assert "/day" not in page.url
        page.goto(f"{gym.url}/day/")
        next_is(page, "set")
        page.locator("#menu").tap()
        expect(page.locator("#first")).to_have_attribute("aria-pressed", "false")
        page.locator("#first").tap()
        expect(page.locator("#first")).to_have_attribute("aria-pressed", "true")
        page.goto(gym.url)
        assert page.url == f"{gym.url}/day/"


def test_a_desk_stays_on_the_pages(gym: Gym, chromium: Browser):
    with phone_of(chromium, is_mobile=False, has_touch=False, viewport={"width": 1280, "height": 800}) as context:
        page = context.new_page()
        page.goto(gym.url)
        at_rest(page)
        assert "/day" not in page.url
