"""On a phone: a pasted sheet becomes today's loads, at the gym, at home, on another bar; and it is done."""

from __future__ import annotations

import re
import time
from collections.abc import Iterator
from datetime import timedelta
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Phone, Served, Serving, at_rest
from tests.day import this_day
from tests.stores import Store
from tracker.desk.base.opening import open_log
from tracker.desk.day import today
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people, places
from tracker.log.records import KitItemRecord, KitKind
from tracker.units import Mass

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

SHEET = """\
Title: Slack water
Warm-up: 500 m easy row
Front squat, barbell, % of 3RM, rest 3:00
1 x 5 @ 70 %
1 x 3 @ 82 % (stay tall)
or dumbbells, twice the repetitions
"""


def item(kind: KitKind, label: str, mass: str, unit: str, number: int | None = None) -> KitItemRecord:
    return KitItemRecord("", kind, label, Mass(Decimal(mass), unit), number)  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def shed(
    chromium: Browser, serving: Serving, store: Store, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Served]:
    """One member with a tested 3RM of 92.5 kg; a gym with kilograms, a home with a pound bar and a short one."""
    database = store.copy("empty", None, tmp_path_factory.mktemp("sheet"))
    log = open_log(database)
    gym = places.add_place(log, "Gym", "kg")
    discs = [item("disc", each, each, "lb", 2) for each in ("45", "25", "10", "5", "2.5")]
    places.add_place(
        log, "Home", "lb", [item("bar", "long bar", "45", "lb"), item("bar", "short bar", "15", "kg"), *discs]
    )
    wren = people.add_member(log, "Wren")
    people.go_to_place(log, wren.id, gym.id)
    squat = people.add_lift(log, "front squat", "barbell")
    tested = this_day() - timedelta(days=10)
    rep_maxes.add_rep_max(log, wren.id, squat.id, tested, 3, Mass(Decimal("92.5"), "kg"), tested=True)
    with serving(database) as server:
        yield Served(server.url, log, {"Wren": wren.id})
    log.close()


def tap(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).locator("visible=true").first.tap()
    at_rest(page)


def choose(page: Page, name: str) -> None:
    """Open the place of the day and choose one of its radio buttons."""
    page.locator(".st-key-where_place button").first.tap()
    at_rest(page)
    page.get_by_text(name, exact=True).locator("visible=true").last.tap()
    at_rest(page)
    page.keyboard.press("Escape")
    at_rest(page)


def test_a_pasted_sheet_becomes_loads_that_follow_place_and_bar_and_is_done(shed: Served, phone: Phone) -> None:
    """By hand, 3RM 92.5 kg: 70 % is 64.75 kg, 82 % is 75.85 kg.

    Gym, 20 kg bar: 65 kg (20 + 2.5 a side), 75 kg (25 + 2.5). Home, 45 lb bar: 64.75 kg is 142.7 lb, 140 lb (45 + 2.5) is
    2.7 off and 145 lb (45 + 5) 2.3, so 145 lb; on the short bar of 15 kg with 45 + 10 lb a side
    15 + 49.895 = 64.895 kg, shown as 64.9.
    """
    page = phone(f"{shed.url}/sheet?member={shed.members['Wren']}")
    page.get_by_label("The coach's sheet", exact=True).fill("Front squat\n3x5@80")
    tap(page, "Show the session")
    expect(page.get_by_text("80 of what?")).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")

    page.get_by_label("The coach's sheet", exact=True).fill(SHEET)
    tap(page, "Show the session")
    expect(page.locator(".plan-sets tr").first).to_have_text("1 × 570 % of your 3RM")
    tap(page, "Put it in the calendar")
    expect(page.locator(".notice")).to_contain_text("Saved: taken for Wren")
    page.get_by_role("link", name="See today's loads").first.tap()
    at_rest(page)
    expect(page.locator(".big")).to_have_text("5 × 65 kg")
    expect(page.get_by_text("Warm-up: 500 m easy row")).to_be_visible()

    choose(page, "Home")
    expect(page.locator(".big")).to_have_text(re.compile(r"^5 × 145 lb \(66 kg\)"))
    choose(page, "short bar of 15 kg")
    expect(page.locator(".big")).to_have_text("5 × 64.9 kg")

    tap(page, "Done: 5 × 64.9 kg")
    expect(page.locator(".notice")).to_contain_text("Saved: 5 × 64.9 kg")
    expect(page.get_by_text("Stay tall.")).to_be_visible()
    plan = today.day_plan(shed.log, shed.members["Wren"], this_day())
    assert [row.load for row in plan.sets] == [Mass(Decimal("64.8951607"), "kg")]  # 15 kg and 110 lb
    assert plan.lines[0].done == plan.sets[0]


MESSY = """\
Hi all, see you soon :)
front squat 3x5 @ 80
then AMRAP 8
10 wall balls
8 burpees
bring chalk!
"""


@pytest.fixture(scope="module")
def alone(
    chromium: Browser, serving: Serving, store: Store, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Served]:
    """One member whose log has no lift yet."""
    database = store.copy("empty", None, tmp_path_factory.mktemp("alone"))
    log = open_log(database)
    rowan = people.add_member(log, "Rowan")
    with serving(database) as server:
        yield Served(server.url, log, {"Rowan": rowan.id})
    log.close()


def test_a_messy_message_is_read_answered_taken_and_its_first_load_is_there(alone: Served, phone: Phone) -> None:
    """At 390 px: paste, one touch to read, one to answer, one to take. Touches and seconds are printed, never asserted."""
    page = phone(f"{alone.url}/sheet?member={alone.members['Rowan']}")
    touches, began = 0, time.monotonic()
    page.get_by_label("The coach's sheet", exact=True).fill(MESSY)
    tap(page, "Show the session")
    touches += 1
    expect(page.get_by_text("80 of what?")).to_be_visible()
    page.get_by_text("How each line was read").locator("visible=true").first.tap()
    at_rest(page)
    lines = page.locator(".sheet-line")
    expect(lines).to_have_count(6)
    expect(lines.nth(0)).to_contain_text("Kept as the coach's words")
    expect(lines.nth(1).locator(".sheet-typed")).to_have_text("front squat 3x5 @ 80")
    expect(lines.nth(1).locator(".sheet-became")).to_contain_text("3 sets of 5 repetitions at 80 %")
    expect(lines.nth(1).locator(".sheet-taken").first).to_have_text("barbell")
    typed, became = (
        lines.nth(1).locator(".sheet-typed").bounding_box(),
        lines.nth(1).locator(".sheet-became").bounding_box(),
    )
    assert typed is not None
    assert became is not None
    assert became["y"] >= typed["y"] + typed["height"] - 1  # one under the other
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")

    tap(page, "80 kg")
    touches += 1
    expect(lines.nth(1).locator(".sheet-became")).to_contain_text("3 sets of 5 repetitions at 80 kg")
    expect(page.get_by_text("as you answered", exact=True)).to_be_visible()
    tap(page, "Put it in the calendar")
    touches += 1
    expect(page.get_by_text("First today: front squat, barbell")).to_be_visible()
    expect(page.get_by_text("5 × 80 kg", exact=True)).to_be_visible()
    seconds = time.monotonic() - began
    print(f"\n{touches} touches and {seconds:.1f} s from the message to its first load at 390 px")
    page.get_by_role("link", name="See today's loads").first.tap()
    at_rest(page)
    expect(page.locator(".big").first).to_have_text("5 × 80 kg")


def test_a_line_is_made_words_by_one_touch_and_read_again_by_another(alone: Served, phone: Phone) -> None:
    page = phone(f"{alone.url}/sheet?member={alone.members['Rowan']}")
    field = page.get_by_label("The coach's sheet", exact=True)
    field.fill("Press, barbell\n3 x 5 @ 40 kg\n3 x 3 @ 45 kg")
    tap(page, "Show the session")
    page.get_by_text("How each line was read").locator("visible=true").first.tap()
    at_rest(page)
    page.locator(".st-key-sheet_words_3 button").locator("visible=true").first.tap()
    at_rest(page)
    expect(page.locator(".sheet-line").nth(2)).to_contain_text("Kept as the coach's words")
    expect(field).to_have_value("Press, barbell\n3 x 5 @ 40 kg\nNote: 3 x 3 @ 45 kg")
    page.locator(".st-key-sheet_again_3 button").locator("visible=true").first.tap()
    at_rest(page)
    expect(page.locator(".sheet-line").nth(2)).to_contain_text("3 sets of 3 repetitions at 45 kg")


def test_what_is_pasted_is_shown_as_a_session_without_one_touch_more(alone: Served, phone: Phone) -> None:
    page = phone(f"{alone.url}/sheet?member={alone.members['Rowan']}")
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.evaluate("text => navigator.clipboard.writeText(text)", MESSY.replace("3x5 @ 80", "4x6 @ 70 %"))
    page.get_by_label("The coach's sheet", exact=True).focus()
    page.keyboard.press("Control+V")
    expect(page.locator(".plan h3").first).to_contain_text("Front squat")
    expect(page.locator(".plan-moves li")).to_have_text(["10 wall balls", "8 burpees"])
    expect(page.get_by_role("button", name="Put it in the calendar")).to_be_visible()
    assert page.evaluate("document.querySelector('[data-testid=stMain]').scrollHeight") <= 2500
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
