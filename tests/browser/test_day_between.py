"""Between the sets: the screen stays on, intervals are timed by a touch each, and a set beside the plan is logged by nobody's slip."""

from __future__ import annotations

from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser.day_phone import Gym, act, done_today, kept, next_is, online, opened, phone_of
from tests.day import this_day
from tests.loads import kg
from tracker.conditioning.times import time_words
from tracker.desk.base.opening import open_log
from tracker.desk.day import today
from tracker.desk.people import people
from tracker.desk.sheet import sheets

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext

WAKE = """
self.lit = 0;
const lock = {request: async () => { self.lit += 1; const held = new EventTarget();
  held.release = async () => { self.lit -= 1; held.dispatchEvent(new Event('release')); }; return held; }};
Object.defineProperty(navigator, 'wakeLock', {get: () => lock});
"""


def lit(context: BrowserContext, count: int) -> None:
    context.pages[0].wait_for_function("count => self.lit === count", arg=count)


def test_the_screen_stays_on_from_the_first_set_on_and_the_choice_is_remembered(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        context.add_init_script(WAKE)
        page = opened(context, gym.url)
        lit(context, 0)
        act(page, "done")
        done_today(page, 1)
        lit(context, 1)
        page.locator("#menu").tap()
        page.locator("#lit").tap()
        lit(context, 0)
        page.reload()
        next_is(page, "set")
        act(page, "done")
        done_today(page, 2)
        lit(context, 0)
        page.locator("#menu").tap()
        page.locator("#lit").tap()
        lit(context, 1)


def test_each_interval_is_timed_by_a_touch_with_its_rest_between(gym: Gym, chromium: Browser):
    log = open_log(gym.database)
    someone = people.add_member(log, "Odalys")
    sheets.take_sheet(log, [someone.id], "2 x 100 m row\nRest 0:04 between", this_day())
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Odalys")
        context.set_offline(True)
        page.locator('[data-count="0"]').tap()
        act(page, "start")
        expect(page.locator("#tap")).to_have_text("Interval 1 done")
        page.wait_for_timeout(2500)
        page.locator("#tap").tap()
        expect(page.locator("#clock_phase")).to_have_text("rest")
        expect(page.locator("#tap")).to_have_count(0)  # nothing to be touched before the rest is over
        expect(page.locator("#tap")).to_have_text("Interval 2 done")
        page.wait_for_timeout(1500)
        page.locator("#tap").tap()
        expect(page.locator("#clock_phase")).to_have_text("stopped")  # after the last one by itself
        shown = ", ".join(page.locator(f"#each_{number}").input_value() for number in (0, 1))
        act(page, "score")
        next_is(page, "rating")
        online(context, page)
        kept(page, 0)
    (row,) = today.day_plan(log, someone.id, this_day()).scores
    log.close()
    assert ", ".join(time_words(each) for each in row.score.each_s) == shown
    assert len(row.score.each_s) == 2
    assert row.score.each_s[0] >= 2


def test_a_partner_is_named_with_the_score(gym: Gym, chromium: Browser):
    log = open_log(gym.database)
    someone = people.add_member(log, "Odalys")
    text = "With a partner, for time\n3 rounds\n20 burpees\n20 air squats"
    sheets.take_sheet(log, [someone.id], text, this_day())
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Odalys")
        next_is(page, "piece")
        context.set_offline(True)
        page.locator("#time").fill("9:41")
        page.locator("#partner").fill("Isolde")
        act(page, "score")
        next_is(page, "rating")
        online(context, page)
        kept(page, 0)
    (row,) = today.day_plan(log, someone.id, this_day()).scores
    log.close()
    assert (row.score.partner, row.score.time_s) == ("Isolde", 581)


def test_a_set_beside_the_plan_starts_from_a_load_and_is_logged_by_no_stray_touch(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        page.locator("#free summary").tap()
        load = page.locator("#free_load").input_value()
        assert float(load) > 0
        page.locator("#free_log").dblclick()  # a finger that bounces
        expect(page.locator("#free_log")).to_contain_text("Yes, log")
        kept(page, 0)
        done_today(page, 0)
        page.wait_for_timeout(700)
        page.locator("#free_log").tap()
        done_today(page, 1)
        page.locator("#free_note").fill("after work")
        page.locator("#free_load").fill("42,5")
        page.locator("#free_log").tap()  # somebody has said it: one touch
        done_today(page, 2)
        kept(page, 0)
    sets = gym.day("Wren")[0].sets
    assert [(row.load, row.note) for row in sets][1] == (kg("42.5"), "after work")


def test_what_is_typed_while_a_touch_is_being_kept_stays_for_the_next_one(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        page.evaluate("""() => {
            const type = load => { const f = document.querySelector('#free_load'); f.value = load;
              f.dispatchEvent(new Event('input', {bubbles: true})); };
            document.querySelector('#free_log').closest('details').open = true;
            type('22.5');
            document.querySelector('#free_log').click();
            type('24.5');
        }""")
        done_today(page, 1)
        expect(page.locator("#free_load")).to_have_value("24.5")
        page.locator("#free_log").tap()
        done_today(page, 2)
