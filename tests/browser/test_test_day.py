"""A test of a max on a phone: asked about safety, four attempts made or missed in a touch each, and its end.

`TIDEMARK_PICTURES=FOLDER` keeps a picture of each step.
"""

from __future__ import annotations

import os
from datetime import timedelta
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.browser.conftest import Phone, Served, at_rest
from tests.browser.test_main_job import said, tap
from tests.day import this_day
from tests.loads import kg
from tracker.desk.day import log_set, today
from tracker.desk.people import people
from tracker.log import waves as log_waves
from tracker.log.sets import NewSet
from tracker.log.waves import NewPlannedSet, NewStep

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tracker.log.records import MemberRecord

PICTURES = os.environ.get("TIDEMARK_PICTURES", "")


@pytest.fixture
def testing(served: Served) -> MemberRecord:
    """Somebody who squats, with a test of the 1RM today, within twenty minutes."""
    log = served.log
    member = people.add_member(log, "Tova")
    squat = people.add_lift(log, "back squat", "barbell", member_id=member.id)
    for ago, load in ((17, "80"), (10, "85"), (3, "90")):
        new = NewSet(squat.id, kg(load), 3, Decimal(2))
        log_set.log_set(log, member.id, this_day() - timedelta(days=ago), new, sure=True)
    with log.act("a wave") as act:
        step = NewStep("Test day", 0, [NewPlannedSet(squat.id, 1, 1, test=True, words="within 20:00")])
        log_waves.start_wave(act, member.id, log_waves.add_wave(act, "Test week", [step]), this_day())
    return member


def keep(page: Page, name: str) -> None:
    wide = page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")
    assert wide, f"{name} is wider than the phone"
    if PICTURES:
        page.screenshot(path=Path(PICTURES) / f"test_day_{name}.png", full_page=True)


def touch(page: Page, key: str) -> None:
    page.locator(f".st-key-{key} button").last.tap()  # the first is the small sign that explains it
    at_rest(page)


def attempt_load(page: Page) -> Decimal:
    label = page.locator(".st-key-attempt_made button").inner_text()
    return Decimal(label.removeprefix("Made: 1 × ").removesuffix(" kg"))


def test_a_test_day_with_four_attempts(served: Served, phone: Phone, testing: MemberRecord):
    page = phone(f"{served.url}/?member={testing.id}")
    keep(page, "1_asked")
    touch(page, "safety_arms")
    touch(page, "start_test_clock")
    assert "left for the test" in page.locator("p.clock").inner_text()
    keep(page, "2_first")
    loads: list[Decimal] = []
    for number, made in enumerate((True, True, False, False), 3):
        loads.append(attempt_load(page))
        touch(page, "attempt_made" if made else "attempt_missed_0")
        keep(page, f"{number}_{'made' if made else 'missed'}")
    first, second, third, fourth = loads
    assert first < second < third, "made ones go up"
    assert fourth <= third, "and never after a miss"
    heights = page.locator(".st-key-next_set button").evaluate_all(
        "all => all.map(one => one.getBoundingClientRect().height)"
    )
    assert min(height for height in heights if height) >= 44
    tap(page, "End the test")
    said(page, "The test is ended.")
    keep(page, "7_ended")
    rows = today.day_plan(served.log, testing.id, this_day()).sets
    assert [(row.load.amount, row.outcome, row.kind) for row in rows] == [
        (first, "done", "work"), (second, "done", "test"), (third, "missed", "test"), (fourth, "missed", "test"),
    ]  # fmt: skip
    trend = phone(f"{served.url}/trend?member={testing.id}&reps=1")
    assert "Tested 1RM" in trend.locator('[data-testid="stMain"]').inner_text()
    keep(trend, "8_trend")
