"""Whole sessions on the day page, from warm-up to rating, without leaving it; the touches are counted.

`TIDEMARK_PICTURES=FOLDER` keeps a picture of each step.
"""

from __future__ import annotations

import os
from dataclasses import dataclass, field
from datetime import timedelta
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser.day_phone import Gym, kept, next_is, online, opened, phone_of
from tests.day import this_day
from tests.loads import kg
from tracker.desk.day import log_set
from tracker.desk.people import people, places
from tracker.desk.sheet import sheets
from tracker.log.records import KitItemRecord
from tracker.log.sets import NewSet

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

    from tracker.log.unit_of_work import Log


@dataclass
class Walk:
    """A member with a phone in one hand: touches, and what they are after."""

    page: Page
    name: str
    touches: int = 0
    shown: int = field(default=0)

    def picture(self) -> None:
        if folder := os.environ.get("TIDEMARK_PICTURES"):
            self.shown += 1
            self.page.screenshot(path=Path(folder) / f"dayw-{self.name}-{self.shown:02}.png")

    def touch(self, at: str) -> None:
        self.picture()
        self.page.locator(at).first.tap()
        self.touches += 1

    def sets(self, count: int) -> None:
        for _ in range(count):
            done = self.page.locator('section[aria-labelledby="done_head"] li')
            before = done.count()
            self.touch('[data-act="done"]')
            expect(done).to_have_count(before + 1)

    def starts(self, count_in: int = 0) -> None:
        """Start the clock, and let it run for as long as it shows a second; while it counts in no round can be done."""
        self.touch(f'[data-count="{count_in}"]')
        self.touch('[data-act="start"]')
        if count_in:
            expect(self.page.locator("#clock_phase")).to_have_text("get ready")
            expect(self.page.locator("#tap")).to_have_count(0)
            expect(self.page.locator("#tap")).to_be_visible()
        expect(self.page.locator("#clock_face")).not_to_have_text("0:00")

    def rate(self, number: int) -> None:
        next_is(self.page, "rating")
        self.touch(f'[data-rating="{number}"]')


SESSION = """Warm-up: 500 m easy row

Back squat 3x5 @ 60 kg, rest 2:00

For time, cap 8:00
3 rounds
10/8 cal row
12 push-ups
or push-up from the knees
"""
HOME = """2 x 8 goblet squat, 15 kg dumbbell

2 rounds for time
5 double dumbbell power cleans, 15 kg (or 10 kettlebell swings, 16 kg)
10 toes-to-bar (home: 10 sit-ups)
"""


def test_a_session_of_the_demo_from_warm_up_to_rating(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        walk = Walk(opened(context, gym.url), "demo")
        walk.touch("#warm")
        walk.sets(5)
        next_is(walk.page, "piece")
        walk.starts()
        for number in (1, 2):
            expect(walk.page.locator("#tap")).to_have_text(f"Round {number} done")
            walk.touch("#tap")
        walk.touch('[data-act="stop"]')
        walk.touch("#moves_1")
        walk.touch('[data-act="score"]')
        walk.rate(7)
        walk.touch('[data-act="rate"]')
        next_is(walk.page, "nothing")
        kept(walk.page, 0)
        walk.picture()
    day, _ = gym.day("Wren")
    assert (len(day.sets), day.scores[0].score.count.low, day.session.rating) == (5, 36, 7)
    assert walk.touches == 15


def test_a_pasted_session_with_a_pair_of_amounts(gym: Gym, log: Log, chromium: Browser):
    ada = people.add_member(log, "Ada")
    sheets.take_sheet(log, [ada.id], SESSION, this_day())
    with phone_of(chromium) as context:
        walk = Walk(opened(context, gym.url, "Ada"), "pasted")
        walk.touch("#warm")
        walk.sets(3)
        next_is(walk.page, "piece")
        walk.touch('[data-side="larger"]')
        walk.starts(count_in=3)
        for number in (1, 2, 3):
            expect(walk.page.locator("#tap")).to_have_text(f"Round {number} done")
            walk.touch("#tap")
        expect(walk.page.locator("#clock_now")).to_have_text("All rounds are done")
        walk.touch('[data-act="stop"]')
        walk.touch('[data-act="score"]')
        walk.rate(5)
        walk.touch('[data-act="rate"]')
        next_is(walk.page, "nothing")
        kept(walk.page, 0)
        walk.picture()
    day, _ = gym.day("Ada")
    (score,) = day.scores
    assert (len(day.sets), score.score.piece.side, score.score.ended, day.session.rating) == (
        3,
        "larger",
        "finished",
        5,
    )
    assert walk.touches == 14


def test_a_session_at_home_with_its_options(gym: Gym, log: Log, chromium: Browser):
    pair = KitItemRecord("", "dumbbell", "15 kg", kg(15), 2)
    home = places.add_place(log, "Home of Kwame", "kg", (pair,))
    member = people.go_to_place(log, people.add_member(log, "Kwame").id, home.id)
    sheets.take_sheet(log, [member.id], HOME, this_day())
    with phone_of(chromium) as context:
        walk = Walk(opened(context, gym.url, "Kwame"), "home")
        walk.sets(2)
        next_is(walk.page, "piece")
        expect(walk.page.locator("[data-next]")).to_contain_text("10 sit-ups")  # what he does at home, without asking
        walk.touch("#ones_0_one")
        walk.touch("#swap_1 summary")
        walk.touch('#swap_1 [aria-pressed="false"]')
        walk.touch('#swap_1 [aria-pressed="false"]')
        walk.starts()
        for _ in range(2):
            walk.touch("#tap")
        walk.touch('[data-act="stop"]')
        walk.touch('[data-act="score"]')
        walk.rate(6)
        walk.touch('[data-act="rate"]')
        next_is(walk.page, "nothing")
        kept(walk.page, 0)
        walk.picture()
    (score,) = gym.day("Kwame")[0].scores
    swaps = {each.task.movement: each.task.implements for each in score.score.swaps}
    assert swaps == {"double dumbbell power clean": 1, "sit-up": 1}
    assert walk.touches == 14


def test_a_test_with_four_attempts(gym: Gym, log: Log, chromium: Browser):
    tova = people.add_member(log, "Tova")
    squat = people.add_lift(log, "low bar squat", "barbell", member_id=tova.id)
    log_set.log_set(log, tova.id, this_day() - timedelta(days=3), NewSet(squat.id, kg("90"), 3, Decimal(2)))
    sheets.take_sheet(log, [tova.id], "Low bar squat: find a 1RM within 20 min", this_day())
    with phone_of(chromium) as context:
        walk = Walk(opened(context, gym.url, "Tova"), "test")
        page = walk.page
        context.set_offline(True)
        expect(page.locator('[data-act="done"]')).to_have_count(0)  # nothing to lift before it is said who stands by
        walk.touch("#safety_2")
        expect(page.locator("[data-next]")).to_contain_text("Without either no attempt is proposed.")
        walk.touch("#safety_0")
        expect(page.locator("[data-next]")).to_contain_text("Safety arms: just below the lowest point of the bar")
        loads: list[Decimal] = []
        for number, made in enumerate((True, True, False, False), 1):
            expect(page.locator(".over").first).to_have_text(f"Attempt {number}")
            loads.append(Decimal(page.locator("#done").inner_text().removeprefix("Made: 1 × ").removesuffix(" kg")))
            if made:
                walk.touch('[data-act="done"]')
            else:
                walk.touch('[data-act="missed"]')
                walk.touch('[data-reps="0"]')
        expect(page.locator("[data-next]")).to_contain_text("Two attempts missed: a good place to end")
        walk.touch("#end_test")
        walk.rate(8)
        walk.touch('[data-act="rate"]')
        next_is(page, "nothing")
        walk.picture()
        online(context, page)
        kept(page, 0)
        expect(page.locator("[data-state]")).to_have_attribute("data-state", "saved")
    assert loads[0] < loads[1] < loads[2] >= loads[3]
    tried = sorted(gym.day("Tova")[0].sets, key=lambda row: row.position)
    assert [(row.load.amount, row.outcome) for row in tried] == [
        (loads[0], "done"), (loads[1], "done"), (loads[2], "missed"), (loads[3], "missed"),
    ]  # fmt: skip
    assert walk.touches == 11
