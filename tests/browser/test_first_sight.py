"""The next set stands there before the scripts of the page have come, where the page will have it, and then makes way."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import PHONE, Phone, Served, at_rest
from tests.browser.test_access import findings
from tests.day import this_day
from tracker.desk.day import today

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Locator, Page

PLACE = "where => document.querySelector(where).getBoundingClientRect().top"
GROUND = "() => getComputedStyle(document.querySelector('[data-testid=\"stApp\"]')).backgroundColor"
LOUD = '[data-testid="stApp"][data-test-connection-state="DISCONNECTED_FOREVER"], [data-test-connection-state="PINGING_SERVER"]'


@pytest.fixture
def starting(chromium: Browser) -> Iterator[Callable[..., Page]]:
    """A phone that has opened nothing yet."""
    contexts = []

    def new(**options: object) -> Page:
        contexts.append(chromium.new_context(**{**PHONE, **options}))
        return contexts[-1].new_page()

    yield new
    for each in contexts:
        each.close()


def held_back(page: Page, address: str) -> Locator:
    """Open a page whose own socket is held back, as on a phone that is still starting it; return what it shows."""
    page.route_web_socket("**/*", lambda _socket: None)
    page.goto(address)
    early = page.locator(".first-sight")
    early.wait_for()
    page.wait_for_selector('[data-testid="stApp"]')
    return early


@pytest.mark.parametrize("look", ["light", "dark"])
def test_it_is_read_where_the_page_will_say_it_and_then_it_is_gone(served: Served, phone: Phone, starting, look: str):
    address = f"{served.url}/?member={served.members['Mirela']}"
    page = starting(color_scheme=look)
    early = held_back(page, address)
    said = early.locator("section p").all_inner_texts()
    tops = {name: page.evaluate(PLACE, f".first-sight .{name}") for name in ("big", "chance")}
    height = early.locator(".done").bounding_box()["height"]  # type: ignore[index]
    ground = early.evaluate("box => getComputedStyle(box).backgroundColor")
    assert early.evaluate("box => box.scrollWidth <= box.clientWidth")
    assert findings(page) == []

    whole = phone(address, color_scheme=look)
    expect(whole.locator(".first-sight")).to_have_count(0)  # a page at rest may still be drawing its card
    card = whole.locator(".st-key-next_set")
    assert card.locator("[data-next] p").all_inner_texts() == said[:-1]
    button = card.locator(".st-key-log_as_asked button")
    assert button.bounding_box()["height"] == pytest.approx(height, abs=2)  # type: ignore[index]
    for name, top in tops.items():
        assert abs(whole.evaluate(PLACE, f".st-key-next_set .{name}") - top) <= 3, name
    assert whole.evaluate(GROUND) == ground


def test_between_two_sets_the_rest_goes_on_and_what_was_done_last_is_said(served: Served, phone: Phone, starting):
    address = f"{served.url}/?member={served.members['Tobin']}"
    whole = phone(address)
    whole.locator(".st-key-log_as_asked button").tap()
    expect(whole.locator(".rest")).to_be_visible()
    page = starting()
    early = held_back(page, address)
    expect(early.get_by_text("Last: logged")).to_be_visible()
    first = early.locator(".rest").inner_text()
    expect(early.locator(".rest")).not_to_have_text(first)  # it counts down

    whole.reload()
    at_rest(whole)
    for name in ("rest", "big"):
        assert abs(whole.evaluate(PLACE, f".{name}") - page.evaluate(PLACE, f".first-sight .{name}")) <= 3, name


def sets_of(served: Served, name: str) -> list[str]:
    plan = today.day_plan(served.log, served.members[name], this_day())
    return [f"{row.reps} x {row.load}" for row in plan.sets]


def touched_early(page: Page, address: str) -> Callable[[], None]:
    """Touch the button while the page's own scripts wait for the server; return what lets them go on."""
    page.route("**/_stcore/health", lambda _route: None)
    page.goto(address)
    page.locator(".first-sight .done").tap()
    expect(page.locator(".first-sight .soon")).to_contain_text("Not saved yet")
    expect(page.locator(".first-sight .done")).to_be_disabled()

    def let_go() -> None:
        page.unroute("**/_stcore/health")  # lets those go on that wait
        page.locator(".st-key-next_set").wait_for()
        at_rest(page)

    return let_go


def test_a_touch_before_the_page_has_come_logs_the_set_as_soon_as_it_has(served: Served, starting):
    page = starting()
    go_on = touched_early(page, f"{served.url}/?member={served.members['Wren']}")
    assert sets_of(served, "Wren") == []
    go_on()
    expect(page.locator(".notice")).to_contain_text("Saved: 4 × 60 kg")
    expect(page.locator(".st-key-next_set .over")).to_contain_text("Set 2 of")
    assert sets_of(served, "Wren") == ["4 x 60 kg"]


def test_an_early_touch_on_a_set_that_another_device_has_done_since_logs_no_other(
    served: Served, phone: Phone, starting
):
    address = f"{served.url}/?member={served.members['Ondrej']}"
    page = starting()
    go_on = touched_early(page, address)
    other = phone(address)
    other.locator(".st-key-log_as_asked button").tap()
    expect(other.locator(".st-key-next_set .over")).to_contain_text("Set 2 of 4")
    go_on()
    expect(page.locator(".st-key-next_set .over")).to_contain_text("Set 2 of 4")  # the same load, and another set
    page.wait_for_timeout(500)
    at_rest(page)
    assert sets_of(served, "Ondrej") == ["5 x 115 kg"]
    note = page.locator(".early-touch-note")
    expect(note).to_have_text("Your early touch logged nothing. See what is next, and touch again.")
    in_front = "() => document.elementFromPoint(innerWidth / 2, innerHeight - 40).className"
    assert page.evaluate(in_front) == "early-touch-note"
    expect(note).not_to_have_css("background-color", "rgba(0, 0, 0, 0)")
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    page.locator("h1").first.tap()
    expect(note).to_have_count(0)


def test_where_the_connection_is_gone_the_set_stays_and_the_warning_stands_over_it(served: Served, starting):
    page = starting()
    page.route("**/_stcore/health", lambda route: route.abort())
    page.route("**/_stcore/host-config", lambda route: route.abort())
    page.goto(served.url)
    page.locator(".first-sight .big").wait_for()
    page.wait_for_selector(LOUD, state="attached")
    over = (
        "() => document.elementFromPoint(innerWidth / 2, innerHeight - 8).closest('[data-testid=\"stApp\"]') !== null"
    )
    assert page.evaluate(over)


def test_whoever_has_no_set_to_do_sees_nothing_of_it(served: Served, phone: Phone):
    page = phone(f"{served.url}/?member={served.members['Mirela']}&day=2020-01-01")
    assert page.locator(".first-sight").count() == 0
    assert page.get_by_text("Opening the log").count() == 0
