"""The day page says what was left out and what was missed, and counts neither as done."""

from __future__ import annotations

from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser.day_phone import Gym, act, kept, next_is, online, opened, phone_of
from tests.day import this_day
from tests.loads import kg
from tracker.desk.people import people
from tracker.desk.sheet import sheets
from tracker.log import waves as log_waves
from tracker.log.waves import NewPlannedSet, NewStep

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

    from tracker.log.unit_of_work import Log


def more(page: Page, name: str) -> None:
    page.locator("#more summary").tap()
    page.locator("#more").get_by_role("button", name=name).tap()


def test_what_was_left_out_is_named_and_a_miss_is_no_set_done(gym: Gym, log: Log, chromium: Browser):
    member = people.add_member(log, "Tova").id
    lifts = [people.add_lift(log, name, "barbell", member_id=member) for name in ("low bar squat", "seated press")]
    sets = [NewPlannedSet(one.id, 3, 5, load=kg("60"), block=at) for at, one in enumerate(lifts)]
    with log.act("a wave") as made:
        log_waves.start_wave(made, member, log_waves.add_wave(made, "Quay", [NewStep("Quay", 0, sets)]), this_day())
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Tova")
        context.set_offline(True)
        act(page, "done")
        act(page, "missed")
        page.locator('[data-reps="2"]').tap()
        expect(page.locator(".ticks")).to_have_attribute("aria-label", "1 of 6 sets done, 1 missed")
        page.locator("#more summary").tap()
        expect(page.locator("#move_label")).to_have_text("Move the session to another day; only this one moves")
        page.locator("#more").get_by_role("button", name="End the session here").tap()
        next_is(page, "rating")
        page.locator("#leave").tap()
        for where in ("on the phone", "by the log"):
            next_is(page, "nothing")
            expect(page.locator("[data-next] h2"), where).to_have_text("This session is ended.")
            words = "Left out: 1 set of low bar squat, barbell; 3 sets of seated press, barbell."
            expect(page.locator("[data-next] .left-out"), where).to_have_text(words)
            online(context, page)
            kept(page, 0)
            page.reload()


def test_a_lift_that_was_enough_and_a_piece_are_named_too(gym: Gym, log: Log, chromium: Browser):
    someone = people.add_member(log, "Odalys")
    sheets.take_sheet(log, [someone.id], "Deadlift 3 x 5 @ 80 kg\n\nAMRAP 12 min\n10 burpees", this_day())
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Odalys")
        context.set_offline(True)
        act(page, "done")
        more(page, "Enough of deadlift today")
        next_is(page, "piece")
        page.locator('[data-finished="3"]').tap()
        act(page, "score")
        page.locator("#leave").tap()
        expect(page.locator("[data-next] .left-out")).to_have_text("Left out: 2 sets of deadlift, barbell.")
        expect(page.locator("[data-next]")).not_to_contain_text("All of it is done")
