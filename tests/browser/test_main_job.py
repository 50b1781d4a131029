"""The job that the program is for, on a phone, with touch: log today's sets, see the max move, get the next loads."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser.conftest import Phone, Served, Serving, at_rest
from tests.day import this_day
from tracker.desk.day import today

if TYPE_CHECKING:
    from playwright.sync_api import Page

LAST_POINT = """name => {
  const plot = document.querySelector('.js-plotly-plot');
  const trace = plot._fullData.findIndex(each => each.name === name);
  const last = plot.calcdata[trace].at(-1);
  return {y: last.y, x: plot._fullLayout.xaxis.c2d ? new Date(last.x).toISOString().slice(0, 10) : last.x};
}"""


def tap(page: Page, name: str, within: str = "body") -> None:
    page.locator(within).get_by_role("button", name=name, exact=True).locator("visible=true").first.tap()
    at_rest(page)


def said(page: Page, text: str) -> None:
    expect(page.locator(".notice")).to_contain_text(text)


def last_point(page: Page, name: str) -> dict[str, object]:
    page.wait_for_selector(".js-plotly-plot .scatterlayer")
    return page.evaluate(LAST_POINT, name)


def sets_of(served: Served, member: str) -> list[str]:
    plan = today.day_plan(served.log, served.members[member], this_day())
    return [f"{row.outcome} {row.reps} x {row.load} rir {row.rir}" for row in plan.sets]


def squat(served: Served) -> str:
    from tracker.desk.people import people

    return next(each.id for each in people.lifts(served.log) if each.title == "front squat, barbell")


def test_line_and_band_stand_there_before_the_figure_and_go_when_it_comes(served: Served, phone: Phone):
    page = phone(f"{served.url}/trend?member={served.members['Wren']}&lift={squat(served)}&reps=3")
    last_point(page, "estimated 3RM")
    expect(page.locator(".sketch")).to_be_hidden()
    page.route("**/PlotlyChart*", lambda route: route.abort())  # the figure's script is still on its way
    page.reload()
    expect(page.locator(".sketch b")).to_be_visible()
    expect(page.locator(".sketch p").first).to_have_text(re.compile(r"^[\d.]+ kg$"))


def test_log_todays_squats_see_the_trend_move_and_get_next_weeks_loads(served: Served, phone: Phone):
    wren = served.members["Wren"]
    trend = f"{served.url}/trend?member={wren}&lift={squat(served)}&reps=3"
    page = phone(trend)
    before = last_point(page, "estimated 3RM")

    page.goto(f"{served.url}/?member={wren}")
    at_rest(page)
    expect(page.locator(".big")).to_have_text("4 × 60 kg")
    expect(page.get_by_role("img", name="One end of the bar: 20 kg a side").first).to_be_visible()
    tap(page, "Done: 4 × 60 kg")
    said(page, "Saved: 4 × 60 kg")

    tap(page, "Change it")
    tap(page, "+ 2.5", within=".st-key-next_set")
    page.locator(".st-key-next_set").get_by_role("radio", name="1", exact=True).or_(
        page.locator(".st-key-next_set [class*='_rir'] button", has_text=re.compile("^1$"))
    ).first.tap()
    at_rest(page)
    tap(page, "Log this set", within=".st-key-next_set")
    said(page, "Saved: 4 × 67.5 kg, 1 left")

    tap(page, "Missed")
    tap(page, "Log this set", within=".st-key-next_set")
    said(page, "Saved: 70 kg, 3 made, the 4th missed")
    assert sets_of(served, "Wren") == ["done 4 x 60 kg rir None", "done 4 x 67.5 kg rir 1", "missed 3 x 70 kg rir None"]

    page.goto(trend)
    at_rest(page)
    after = last_point(page, "estimated 3RM")
    assert after["x"] >= before["x"]  # the line reaches today, with sets of today or without
    assert after["y"] != before["y"]

    page.goto(f"{served.url}/weights?member={wren}")
    at_rest(page)
    page.locator(".st-key-weights_quick_box summary").tap()
    page.get_by_label("Sets", exact=True).fill("1x3@78, 1x3@85, 3x3@92")
    page.keyboard.press("Enter")
    at_rest(page)
    text = page.locator("[data-testid='stMain']").inner_text()
    for load, discs in (("65 kg", "20 + 2.5 kg a side"), ("70 kg", "25 kg a side"), ("75 kg", "25 + 2.5 kg a side")):
        assert load in text
        expect(page.get_by_role("img", name=f"One end of the bar: {discs}").first).to_be_visible()


def test_a_reload_in_the_middle_keeps_the_place_and_undo_takes_the_last_set_back(served: Served, phone: Phone):
    page = phone(f"{served.url}/?member={served.members['Tobin']}")
    tap(page, "Done: 4 × 180 lb")
    said(page, "Saved: 4 × 180 lb")
    page.reload()
    at_rest(page)
    expect(page.get_by_text("Set 2 of 5")).to_be_visible()
    said(page, "Last: logged front squat, barbell: 4 x 180 lb")
    tap(page, "Done: 4 × 195 lb")
    said(page, "Saved: 4 × 195 lb")
    tap(page, "Undo")
    said(page, "Taken back: logged front squat, barbell: 4 x 195 lb")
    expect(page.get_by_text("Set 2 of 5")).to_be_visible()
    assert sets_of(served, "Tobin") == ["done 4 x 180 lb rir None"]


def test_two_phones_on_one_log_log_a_planned_set_once(served: Served, phone: Phone):
    address = f"{served.url}/?member={served.members['Mirela']}"
    one, two = phone(address), phone(address)
    tap(one, "Done: 5 × 20 kg each")
    said(one, "Saved: 5 × 20 kg each")
    tap(two, "Done: 5 × 20 kg each")
    said(two, "Saved: 5 × 20 kg each")
    assert sets_of(served, "Mirela") == ["done 5 x 20 kg rir None"]
    expect(two.get_by_text("Set 2 of 3")).to_be_visible()


def test_the_member_is_switched_in_one_touch_on_every_page_and_the_address_follows(served: Served, phone: Phone):
    page = phone(f"{served.url}/trend?member={served.members['Wren']}")
    page.locator(".st-key-frame_member").get_by_text("Sunniva", exact=True).tap()
    at_rest(page)
    page.wait_for_url(f"**member={served.members['Sunniva']}*")
    page.reload()
    at_rest(page)
    assert (
        page.locator(".st-key-frame_member [aria-checked='true'], .st-key-frame_member [kind$='Active']").inner_text()
        == "Sunniva"
    )


def test_when_the_connection_drops_the_page_says_that_nothing_is_being_saved(
    serving: Serving, fresh: Callable[..., str], phone: Phone
):
    """The server ends while the page is open."""
    warning = "getComputedStyle(document.querySelector('[data-testid=\"stApp\"]'), '::before').content"
    with serving(fresh("demo")) as server:
        page = phone(server.url)
        assert page.evaluate(warning) == "none"
    page.wait_for_function(f"() => {warning}.includes('nothing is being saved')", timeout=60_000)
