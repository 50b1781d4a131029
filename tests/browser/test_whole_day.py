"""A whole session on a phone, from the warm-up to the rating and one step beyond, with its touches counted.

`TIDEMARK_PICTURES=FOLDER` keeps a picture of every step, for whoever looks at pages.
"""

from __future__ import annotations

import os
import re
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser.conftest import Phone, Served, at_rest, still
from tests.browser.test_piece_flow import deadlifts_today
from tests.browser.test_touches import counting, touches
from tests.day import this_day
from tracker.desk.day.next import Next, whats_next
from tracker.desk.people import people, places
from tracker.desk.sheet import sheets
from tracker.log.records import KitItemRecord
from tracker.units import Mass

if TYPE_CHECKING:
    from playwright.sync_api import Page

SHEET = """\
Warm-up: 500 m easy row
Back squat 3x5 @ 60 kg, rest 2:00
For time, cap 8:00
3 rounds
10/8 cal row
12 push-up
or push-up from the knees
"""
HOME = """\
Back squat 2x8 @ 60 kg

2 rounds for time:
5 power cleans @ 50 kg
10 toes to bar
Home: 5 double dumbbell power cleans, 10 sit-ups
"""


class Walk:
    """A phone on its way through a day: every step is a touch, and leaves a picture where somebody wants one."""

    def __init__(self, page: Page, served: Served, member: str, name: str) -> None:
        self.page, self.served, self.member, self.name = counting(page), served, member, name
        self.step = self.counted = 0
        self.picture("begins")

    def touch(self, name: str | re.Pattern[str], role: str = "button") -> None:
        exact = isinstance(name, str)
        self.page.get_by_role(role, name=name, exact=exact).locator("visible=true").first.tap()  # type: ignore[arg-type]
        self.rests(str(name))

    def pill(self, key: str, words: str) -> None:
        self.page.locator(f"[class*='{key}']").get_by_text(words, exact=True).first.tap()
        self.rests(f"{key} {words}")

    def rests(self, words: str) -> None:
        at_rest(self.page)
        self.picture(words)

    def picture(self, words: str) -> None:
        self.step += 1
        if folder := os.environ.get("TIDEMARK_PICTURES"):
            still(self.page)
            slug = re.sub(r"[^a-z0-9]+", "-", words.lower()).strip("-")[:40]
            self.page.screenshot(path=Path(folder) / f"{self.name}-{self.step:02}-{slug}.png")

    @property
    def next(self) -> Next:
        return whats_next(self.served.log, self.member, this_day())

    def shows(self, kind: str, title: str = "") -> None:
        """Hold that the page says what the desk says, in one place and above the fold."""
        mark = self.page.locator("[data-next]").locator("visible=true")
        expect(mark).to_have_count(1)
        expect(mark).to_have_attribute("data-next", kind)
        assert self.next.kind == kind
        if title:
            expect(mark).to_have_attribute("data-title", title)
        assert self.page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")

    def rates_it_hard(self) -> None:
        """Go from the score back to the day and rate the session, in two touches; nothing is left then."""
        self.touch("Back to the day: how was the session?", "link")
        self.shows("rating")
        self.page.locator("[class*='st-key-rate_']").get_by_text("5 hard", exact=True).tap()
        self.rests("rated")
        self.shows("nothing")
        assert self.gone("the rating") == 2

    def gone(self, said: str) -> int:
        """Return the touches since the last time, and print them."""
        made = touches(self.page)
        print(f"{self.name}, {said}: {made} touches")
        self.page.evaluate("window.touches = 0")
        self.counted += made
        return made


def test_a_session_of_the_demo_from_warm_up_to_rating(served: Served, phone: Phone):
    member = served.members["Wren"]
    walk = Walk(phone(f"{served.url}/?member={member}"), served, member, "demo")
    page = walk.page
    walk.shows("set", "front squat, barbell")
    expect(page.get_by_text("4 min easy row, then 10 air squats")).to_be_in_viewport()
    assert page.get_by_text("4 min easy row").bounding_box()["y"] < page.locator(".big").first.bounding_box()["y"]  # type: ignore[index]
    walk.touch("Warm-up done")
    expect(page.locator(".st-key-warm_up")).to_have_count(0)
    for number, done in enumerate(("4 × 60 kg", "4 × 65 kg", *(["4 × 70 kg"] * 3)), 1):
        expect(page.locator(".set-card").get_by_text(f"Set {number} of 5")).to_be_in_viewport()
        walk.touch(f"Done: {done}")
    assert walk.gone("warm-up and five sets") == 6

    walk.shows("piece", "Lantern ladder")
    expect(page.get_by_text("or push-up from the knees")).to_be_in_viewport()
    walk.touch("Clock and score", "link")
    expect(page.get_by_role("button", name="Start the clock")).to_be_visible()
    walk.pill("st-key-clock_count_in", "none")
    walk.touch("Start the clock")
    expect(page.locator(".clock-now")).to_contain_text("Round 1: 3 of each")
    page.wait_for_timeout(1200)
    walk.touch("Round 1 done")
    expect(page.locator(".clock-now")).to_contain_text("Round 2: 6 of each")
    page.wait_for_timeout(1200)
    walk.touch("Round 2 done")
    walk.touch("Stop")
    walk.pill("_done_2", "9 kettlebell swings done")
    walk.touch("Log 36 reps")
    assert walk.gone("the piece, its clock and its score") <= 8
    walk.shows("rating", "Front squat, week 2 of 3")
    walk.touch("Back to the day: how was the session?", "link")
    walk.shows("rating", "Front squat, week 2 of 3")
    page.locator("[class*='st-key-rate_']").get_by_text("7 very hard", exact=True).tap()
    walk.rests("rated")
    assert walk.gone("the rating") == 2
    walk.shows("nothing")
    expect(page.get_by_text("Next session: Press, week 2 of 3")).to_be_visible()
    assert walk.next.plan.session.rating == 7  # type: ignore[union-attr]
    assert walk.counted <= 16


def test_a_pasted_session_in_a_log_that_began_empty(empty: Served, phone: Phone):
    page = phone(empty.url)
    page.get_by_role("textbox", name="Your name").first.fill("Ada")
    page.keyboard.press("Tab")
    at_rest(page)
    for answer in ("Kilograms", "Gym", "Skip", "Begin"):
        page.get_by_role("button", name=answer).first.tap()
        at_rest(page)
    (ada,) = people.members(empty.log)
    page.goto(f"{empty.url}/sheet?member={ada.id}")
    at_rest(page)
    page.get_by_label("The coach's sheet", exact=True).fill(SHEET)
    walk = Walk(page, empty, ada.id, "empty")
    walk.touch("Show the session")
    walk.touch("Put it in the calendar")
    walk.touch("See today's loads", "link")
    walk.shows("set", "back squat, barbell")
    expect(page.locator("h1")).to_have_text("Back squat")  # nobody gave a title
    expect(page.get_by_text("Warm-up: 500 m easy row")).to_be_in_viewport()
    walk.touch("Warm-up done")
    assert walk.gone("the sheet, to the first set") == 4
    for number in (1, 2, 3):
        expect(page.locator(".set-card").get_by_text(f"Set {number} of 3")).to_be_in_viewport()
        walk.touch("Done: 5 × 60 kg")
    assert walk.gone("three sets") == 3

    walk.shows("piece")
    expect(page.get_by_text("or push-up from the knees").first).to_be_in_viewport()
    walk.touch("10 cal")  # which of the two numbers is mine is asked once
    walk.touch("Clock and score", "link")
    expect(page.get_by_role("button", name="Start the clock", exact=True)).to_be_visible()
    walk.pill("st-key-clock_count_in", "none")
    walk.touch("Start the clock")
    expect(page.locator(".clock-now")).to_contain_text("10 cal row")
    for number in (1, 2, 3):
        expect(page.locator(".now-head")).to_have_text(f"Round {number}")
        page.wait_for_timeout(1200)
        walk.touch(f"Round {number} done")
    walk.touch("Stop")
    walk.touch(re.compile("^Log 0:"))
    assert walk.gone("the piece, its clock and its score") <= 9
    walk.rates_it_hard()
    assert walk.next.plan.session.rating == 5  # type: ignore[union-attr]
    (score,) = walk.next.plan.scores
    assert (score.score.piece.side, len(score.score.splits_s)) == ("larger", 3)


def test_a_session_at_home_with_what_stands_there(empty: Served, phone: Phone):
    pair = KitItemRecord("", "dumbbell", "15 kg", Mass(Decimal(15), "kg"), 2)
    home = places.add_place(empty.log, "Home", "kg", (pair,))
    member = people.go_to_place(empty.log, people.add_member(empty.log, "Kwame").id, home.id)
    sheets.take_sheet(empty.log, [member.id], HOME, this_day())
    walk = Walk(phone(f"{empty.url}/?member={member.id}"), empty, member.id, "home")
    page = walk.page
    walk.shows("set", "back squat, barbell")
    expect(page.get_by_text("Home has nothing for back squat, barbell.").first).to_be_visible()
    walk.touch("Goblet squat instead")
    walk.shows("set", "goblet squat, dumbbell")
    walk.touch("15 kg")  # what stands there is a hint, and nobody's load before it is touched
    walk.touch("Log this set")
    log_it = page.get_by_role("button", name="Log this set", exact=True)
    log_it.evaluate("each => each.scrollIntoView({block: 'center'})")  # what is done may lie below what is next
    walk.touch("Log this set")
    assert walk.gone("another lift and two sets of it") == 4

    walk.shows("piece")
    expect(page.get_by_text("5 double dumbbell power cleans, 15 kg")).to_be_in_viewport()
    expect(page.get_by_text("or, as first written: power clean, 50 kg")).to_be_in_viewport()
    walk.touch("Clock and score", "link")
    walk.pill("st-key-clock_count_in", "none")
    walk.touch("Start the clock")
    expect(page.locator(".clock-now")).to_contain_text("double dumbbell power clean")
    for number in (1, 2):
        page.wait_for_timeout(1200)
        walk.touch(f"Round {number} done")
    walk.touch("Stop")
    walk.touch(re.compile("^Log 0:"))
    assert walk.gone("the piece, its clock and its score") <= 7
    walk.rates_it_hard()
    (score,) = walk.next.plan.scores
    assert [(each.task.movement, str(each.task.load)) for each in score.score.swaps] == [
        ("double dumbbell power clean", "15 kg"), ("sit-up", "None"),
    ]  # fmt: skip
    assert [row.lift.title for row in walk.next.plan.sets] == ["goblet squat, dumbbell"] * 2


def test_a_clock_that_is_put_away_comes_back_to_the_day(own: Served, phone: Phone):
    deadlifts_today(own, "Ondrej")
    member = own.members["Ondrej"]
    walk = Walk(phone(f"{own.url}/?member={member}"), own, member, "away")
    page = walk.page
    walk.touch(re.compile("^As asked: "))  # he comes back after weeks away
    for _ in range(4):
        walk.touch(re.compile("^Done: 4"))
    walk.shows("piece", "Weir")
    walk.touch("Clock and score", "link")
    walk.pill("st-key-clock_count_in", "none")
    walk.touch("Start the clock")
    expect(page.locator(".now-head")).to_have_text("Interval 1: row")
    assert page.get_by_role("button", name=re.compile("Round . done")).count() == 0  # nothing to tap
    page.locator("summary", has_text="Beep, a late start, or no clock").tap()
    walk.rests("opened")
    walk.touch("Put the clock away")
    walk.shows("piece", "Weir")
    expect(page.locator("h1")).to_have_text("Deadlift, week 2 of 3")
