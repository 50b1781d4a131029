"""The day page without a connection, with the server killed, and cut at any moment: nothing is lost and nothing is twice."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from decimal import Decimal
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser import day_cuts
from tests.browser.day_phone import Gym, act, done_today, kept, next_is, online, opened, phone_of, state

if TYPE_CHECKING:
    from playwright.sync_api import Browser


def test_without_a_connection_and_with_the_server_killed_nothing_is_lost(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        act(page, "done")
        done_today(page, 1)
        kept(page, 0)
        context.set_offline(True)
        began = datetime.now(UTC)
        for count in (1, 2):
            act(page, "done")
            kept(page, count)
        state(page, "kept")
        page.reload()
        kept(page, 2)
        done_today(page, 3)
        page.close()
        page = context.new_page()
        page.goto(f"{gym.url}/day/?member=Wren&z=3")  # the same page under another query
        kept(page, 2)
        act(page, "missed")
        page.locator('[data-reps="1"]').tap()
        act(page, "done")
        kept(page, 4)
        next_is(page, "piece")
        page.locator('[data-finished="3"]').tap()
        act(page, "score")
        next_is(page, "rating")
        page.locator('[data-rating="8"]').tap()
        act(page, "rate")
        kept(page, 6)
        next_is(page, "nothing")
        ended = datetime.now(UTC)
        gym.kill()
        context.set_offline(False)
        page.reload()
        kept(page, 6)
        next_is(page, "nothing")
        assert len(gym.day("Wren")[0].sets) == 1
        gym.start()
        page.evaluate("dispatchEvent(new Event('online'))")
        kept(page, 0)
        state(page, "saved")
        next_is(page, "nothing")
    day, known = gym.day("Wren")
    assert [row.outcome for row in day.sets] == ["done", "done", "done", "missed", "done"]
    assert all(began <= row.logged_at <= ended for row in day.sets[1:])
    assert [row.logged_at for row in day.sets] == sorted(row.logged_at for row in day.sets)
    assert (len(day.scores), day.session.rating, len(known)) == (1, 8, 7)
    assert [each.said["seq"] for each in reversed(known)] == list(range(1, 8))


def test_what_is_kept_is_undone_without_a_connection(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        act(page, "done")
        done_today(page, 1)
        kept(page, 0)
        context.set_offline(True)
        act(page, "done")
        kept(page, 1)
        act(page, "undo")
        done_today(page, 1)
        act(page, "undo")  # the saved one
        done_today(page, 0)
        expect(page.locator(".over").first).to_have_text("Set 1 of 5")
        online(context, page)
        kept(page, 0)
        done_today(page, 0)
    assert gym.day("Wren")[0].sets == ()


def test_without_a_connection_nothing_heavier_than_a_missed_load_is_offered(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        context.set_offline(True)
        missed = Decimal(re.search(r"× ([\d.]+)", page.locator(".big").inner_text())[1])
        act(page, "missed")
        page.locator('[data-reps="2"]').tap()
        kept(page, 1)
        next_is(page, "set")
        said = page.locator("[data-next]").inner_text()
        assert f"× {missed} kg" in page.locator("[data-act=done]").inner_text()
        offered = page.locator("[data-next] button").all_inner_texts()
        loads = [Decimal(found) for each in offered for found in re.findall(r"([\d.]+) kg", each)]
        assert loads, said
        assert max(loads) <= missed, said
        less = page.get_by_role("button", name=re.compile("^Less: "))
        expect(less).to_have_count(2)  # of the loads that the plan brought
        less.first.tap()
        assert page.locator("[data-act=done]").inner_text() in {
            f"Done: 4 × {missed - step} kg" for step in (Decimal("2.5"), 5)
        }
        assert "Nothing heavier than what was missed." in said


def test_after_a_miss_the_lift_can_be_ended(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        context.set_offline(True)
        act(page, "missed")
        page.locator('[data-reps="2"]').tap()
        page.get_by_role("button", name="Enough of this lift today").tap()
        next_is(page, "piece")
        kept(page, 2)
        online(context, page)
        kept(page, 0)
        next_is(page, "piece")
        act(page, "undo")
        next_is(page, "set")
        kept(page, 0)
        next_is(page, "set")
    assert [row.outcome for row in gym.day("Wren")[0].sets] == ["missed"]


def test_a_planned_session_is_begun_without_a_connection(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        context.set_offline(True)
        act(page, "begin")
        kept(page, 1)
        expect(page.locator("h1")).to_have_text("Press, week 2 of 3")
        next_is(page, "set")
        act(page, "done")
        kept(page, 2)
        online(context, page)
        kept(page, 0)
        expect(page.locator("h1")).to_have_text("Press, week 2 of 3")
    day, _ = gym.day("Wren")
    assert (day.step.title, len(day.sets)) == ("Press, week 2 of 3", 1)


def test_ten_cuts_between_touches_lose_nothing_and_double_nothing(gym: Gym, chromium: Browser):
    told = day_cuts.run(gym, chromium, seed=20, cuts=10)
    assert day_cuts.held(gym, told).startswith("10 cuts")
