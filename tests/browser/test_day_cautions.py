"""What is sore, or not answered yet, on the day page: no load and no Done, the words of Today, and the way there."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.day_phone import Gym, act, done_today, kept, next_is, now, opened, phone_of
from tests.day import this_day
from tests.loads import kg
from tests.with_pieces import put_into_step
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk.day import attempts, log_set, sore, today
from tracker.desk.people import people
from tracker.desk.pieces import conditioning
from tracker.log import waves as log_waves
from tracker.log.sets import NewSet
from tracker.log.waves import NewPlannedSet, NewStep

if TYPE_CHECKING:
    from playwright.sync_api import Browser

    from tracker.log.unit_of_work import Log


def tova(log: Log, *, test: bool) -> str:
    """Add Tova, who has a squat today (or a test of it), then a press and a piece with wall balls."""
    member = people.add_member(log, "Tova").id
    squat = people.add_lift(log, "low bar squat", "barbell", member_id=member)
    press = people.add_lift(log, "seated press", "barbell", member_id=member)
    log_set.log_set(log, member, this_day() - timedelta(days=3), NewSet(squat.id, kg("90"), 3, Decimal(2)))
    first = NewPlannedSet(squat.id, 1, 1, test=True) if test else NewPlannedSet(squat.id, 2, 5, load=kg("80"))
    with log.act("a wave") as made:
        steps = [NewStep("Quay", 0, [first, NewPlannedSet(press.id, 1, 5, load=kg("40"), block=1)])]
        log_waves.start_wave(made, member, log_waves.add_wave(made, "Quay", steps), this_day())
    row = conditioning.add_piece(
        log, Piece("Swell", "as many as possible", (Task("wall ball", Steady(10)),), cap_s=600)
    )
    put_into_step(log, today.steps(log, member)[0].step_id, row.id)
    return member


def nothing_to_log(page) -> None:
    expect(page.locator("[data-act=done], [data-act=missed], [data-act=change], #load")).to_have_count(0)
    assert "kg" not in page.locator("[data-next]").inner_text()


@pytest.mark.parametrize("painful", [True, False])
def test_what_hurts_offers_no_load_and_no_done_and_leads_to_today(gym: Gym, chromium: Browser, log: Log, painful: bool):
    member = tova(log, test=False)
    sore.begin(log, member, "knee", this_day())
    if painful:
        squat = next(each for each in people.lifts(log) if each.name == "low bar squat")
        sore.mark_painful(log, member, squat.id)
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Tova")
        assert now(page) == {"next": "set", "title": "low bar squat, barbell", "kept": 0, "state": "saved"}
        nothing_to_log(page)
        card = page.locator("[data-next]")
        expect(card).to_contain_text(sore.PAINFUL if painful else "Low bar squat loads the knee.")
        expect(page.get_by_role("link", name="Go to Today's page")).to_have_attribute("href", f"/?member={member}")
        page.get_by_role("button", name="Go on without it").tap()  # the rest of the day is not held up
        expect(card).to_have_attribute("data-title", "seated press, barbell")
        act(page, "done")
        done_today(page, 1)
        next_is(page, "piece")
        expect(card).to_contain_text("Wall ball loads the knee: leave it out")
        before = card.inner_text()
        assert before.index("loads the knee") < before.index("Start the clock")
        kept(page, 0)
    assert [row.lift.name for row in gym.day("Tova")[0].sets] == ["seated press"]


def test_an_attempt_is_offered_once_safety_is_answered_on_today(gym: Gym, chromium: Browser, log: Log):
    member = tova(log, test=True)
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Tova")
        nothing_to_log(page)
        card = page.locator("[data-next]")
        expect(card).to_contain_text(attempts.ASK_SAFETY)
        for answer in attempts.SAFETY.values():  # here as well: `test_day_walk.py` answers on the card
            expect(card.get_by_role("button", name=answer, exact=True)).to_be_visible()
        line = today.day_plan(log, member, this_day()).next_line
        assert line
        attempts.say_safety(log, member, line.step_id, line.planned.id, "spotter", this_day())
        page.reload()
        expect(card).to_contain_text(attempts.SAFETY_SAID["spotter"])
        page.get_by_role("button", name="Another load").tap()
        page.locator("#load").fill("100")
        act(page, "done")
        done_today(page, 1)
        kept(page, 0)
    assert [(row.kind, row.load.amount) for row in gym.day("Tova")[0].sets] == [("test", 100)]
