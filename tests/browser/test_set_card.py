"""One drawing of the card of a set: the day page and the day of the pages draw it by the same module from the same values."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser.day_phone import Gym, act, done_today, kept, opened, phone_of
from tests.day import this_day
from tests.loads import kg
from tracker.desk.day import attempts, log_set, today
from tracker.desk.people import people
from tracker.log import waves as log_waves
from tracker.log.sets import NewSet
from tracker.log.waves import NewPlannedSet, NewStep

if TYPE_CHECKING:
    from playwright.sync_api import Browser

    from tracker.log.unit_of_work import Log

PARTS = ".over, .lift, .big, .bar-end, .made, .chance, .plain.small, .plain.note"
DRAWN = f"""each => [...each.querySelectorAll('{PARTS}')].filter(one => !one.closest('.after') && !one.matches('.before')).map(one => one.outerHTML)"""


def test_both_pages_draw_the_same_card(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        here = page.locator("[data-next]").evaluate(DRAWN)
        page.goto(f"{gym.url}/?member={gym.member('Wren')}")
        expect(page.locator(".set-card .big")).to_have_text("4 × 60 kg")
        there = page.locator(".set-card")
        assert there.evaluate(DRAWN) == here
        assert any("One end of the bar: 20 kg" in each for each in here)
        assert there.get_attribute("data-next") == "set"
        assert there.get_attribute("data-title") == "front squat, barbell"
        for width in (320, 640):  # 640 CSS px with letters of twice the size
            page.set_viewport_size({"width": width, "height": 800})
            if width == 640:
                page.evaluate("document.documentElement.style.fontSize = '200%'")
            box = "each => each.scrollWidth <= each.clientWidth && each.getBoundingClientRect().right <= innerWidth"
            assert there.evaluate(box), width
        page.emulate_media(media="print")
        assert there.locator(".bar-end .disc").first.is_visible()


def test_both_pages_draw_the_attempts_of_a_test_and_its_cautions_the_same(gym: Gym, chromium: Browser, log: Log):
    member = people.add_member(log, "Tova").id
    squat = people.add_lift(log, "low bar squat", "barbell", member_id=member)
    for ago in (10, 3):
        log_set.log_set(log, member, this_day() - timedelta(days=ago), NewSet(squat.id, kg("90"), 3, Decimal(2)))
    with log.act("a wave") as made:
        steps = [NewStep("Quay", 0, [NewPlannedSet(squat.id, 1, 1, test=True)])]
        log_waves.start_wave(made, member, log_waves.add_wave(made, "Quay", steps), this_day())
    line = today.day_plan(log, member, this_day()).next_line
    assert line is not None
    attempts.say_safety(log, member, line.step_id, line.planned.id, "arms", this_day())
    parts = ".over, .lift, .big, .bar-end, .made, .chance, .plain.note, .care"
    drawn = DRAWN.replace(PARTS, parts).replace(" && !one.matches('.before')", "")
    with phone_of(chromium) as context:
        for attempt in (1, 2):
            page = opened(context, gym.url, "Tova")
            expect(page.locator("[data-next] .over").first).to_have_text(f"Attempt {attempt}")
            here = page.locator("[data-next]").evaluate(drawn)
            other = context.new_page()
            other.goto(f"{gym.url}/?member={member}")
            expect(other.locator(".set-card .over").first).to_have_text(f"Attempt {attempt}")
            there = other.locator(".set-card").evaluate(drawn)
            assert [each for each in there if "So far: " not in each] == here
            assert any('class="care"' in each and "Why" in each for each in here)
            assert any('class="bar-end"' in each for each in here)
            other.close()
            act(page, "done")
            done_today(page, attempt)
            kept(page, 0)
            page.close()


def test_where_the_module_cannot_be_loaded_the_words_are_there(gym: Gym, chromium: Browser):
    with phone_of(chromium, service_workers="block") as context:
        context.route("**/card.js", lambda route: route.abort())
        page = context.new_page()
        page.goto(f"{gym.url}/?member={gym.member('Wren')}")
        expect(page.locator(".set-card")).to_contain_text("4 × 60 kg")
        said = page.locator(".set-card").inner_text()
        assert "Set 1 of 5: front squat, barbell" in said
        assert "20 kg a side" in said
        expect(page.locator(".set-card .bar-end")).to_have_count(0)
        expect(page.locator(".st-key-log_as_asked button")).to_have_text("Done: 4 × 60 kg")
