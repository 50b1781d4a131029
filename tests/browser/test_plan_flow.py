"""On a phone: a wave planned backward from a date, taken, its first session begun on the day page, and seen as done."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Phone, Served, Serving, at_rest
from tests.desk.doing import did, somebody
from tests.stores import Store
from tracker.desk.base.opening import open_log
from tracker.desk.people import people

if TYPE_CHECKING:
    from playwright.sync_api import Browser


@pytest.fixture(scope="module")
def squatter(
    chromium: Browser, serving: Serving, store: Store, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Served]:
    """Wren, with eight weeks of back squats."""
    database = store.copy("empty", None, tmp_path_factory.mktemp("plan"))
    log = open_log(database)
    wren = somebody(log, "Wren")
    squat = people.add_lift(log, "back squat", "barbell")
    for week in range(8, 0, -1):
        did(log, wren, squat, 7 * week, 80, 5, rir=Decimal(2))
    with serving(database) as server:
        yield Served(server.url, log, {"Wren": wren.id})
    log.close()


def test_from_a_date_backward_to_the_first_set_that_is_done(squatter: Served, phone: Phone) -> None:
    wren = squatter.members["Wren"]
    page = phone(f"{squatter.url}/sheet?member={wren}")
    page.get_by_text("Plan a wave", exact=True).tap()
    expect(page.get_by_text("are likely on their day.")).to_be_visible()
    expect(page.locator(".st-key-plan_figure .js-plotly-plot .trace").first).to_be_visible()
    at_rest(page)
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
    page.get_by_text("In waves", exact=True).tap()
    at_rest(page)
    page.get_by_role("button", name="Make it a sheet").tap()
    expect(page.locator(".plan-sets tr").first).to_contain_text("70 % of your")
    at_rest(page)
    page.get_by_role("button", name="Put it in the calendar").tap()
    expect(page.locator(".notice")).to_contain_text("Saved: taken for Wren")

    page.goto(f"{squatter.url}/day?member={wren}")
    if not page.locator('[data-next="set"]').count():
        page.locator('[data-act="begin"]').first.tap()
    expect(page.locator('[data-next="set"]')).to_have_attribute("data-title", "back squat, barbell")
    page.locator('[data-act="done"]').first.tap()
    expect(page.locator('[data-kept="0"][data-state="saved"]')).to_be_attached()

    page.goto(f"{squatter.url}/trend?member={wren}")
    page.get_by_text("Planned and done", exact=True).tap()
    expect(page.get_by_text("1 is done.")).to_be_visible()
