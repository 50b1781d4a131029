"""A load that was changed goes on to the sets that follow without a connection too, as the log would say once it has them."""

from __future__ import annotations

import random
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect

from tests.browser.day_phone import Gym, act, done_today, kept, online, opened, phone_of
from tests.day import this_day
from tests.loads import kg
from tests.pocket import posts
from tracker.desk.base.opening import open_log
from tracker.desk.day import today
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.log import waves as log_waves
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.pocket.acts import take
from tracker.pocket.plan import plan_of
from tracker.units import plain

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

    from tracker.log.records import MemberRecord
    from tracker.log.unit_of_work import Log

STAND = """async ([plan, acts, today]) => {
  const at = [...document.querySelectorAll('link[rel=modulepreload]')].find(each => each.href.endsWith('/next.js')).href;
  const {stand} = await import(at), now = stand(plan, acts, today, new Set());
  return now.on.lines.filter(each => !each.done).map(each => [each.load, each.asked, each.made, JSON.stringify(each.discs)]);
}"""


@pytest.fixture
def log(gym: Gym) -> Iterator[Log]:
    made = open_log(gym.database)
    yield made
    made.close()


@pytest.fixture
def viggo(log: Log) -> MemberRecord:
    return strong(log, "Viggo")


def strong(log: Log, name: str) -> MemberRecord:
    """Two fives at 80 % of a tested 1RM of 130 kg, two threes at 90 %, a lighter five; then the press of another lift."""
    member = people.add_member(log, name)
    bench, press = (people.add_lift(log, f"{lift} of {name}", "barbell") for lift in ("bench press", "standing press"))
    for lift, load in ((bench, 130), (press, 70)):
        rep_maxes.add_rep_max(log, member.id, lift.id, this_day() - timedelta(days=9), 1, kg(load), tested=True)
    asked = ((bench, 2, 5, 80), (bench, 2, 3, 90), (bench, 1, 5, 60), (press, 2, 5, 70))
    with log.act("a wave", member.id) as made:
        rows = [NewPlannedSet(one.id, n, reps, percent=Decimal(p), of_reps=1) for one, n, reps, p in asked]
        wave = log_waves.add_wave(made, name, [NewStep("Friday", 0, rows)])
        log_waves.start_wave(made, member.id, wave, this_day())
    return member


def offers(page: Page, words: str) -> None:
    expect(page.locator("[data-act=done]")).to_have_text(words)


def lower(page: Page, times: int) -> None:
    act(page, "change")
    for _ in range(times):
        page.locator("#load_less").tap()
    act(page, "done")


def test_a_lighter_load_goes_on_and_as_asked_is_one_touch(gym: Gym, chromium: Browser, log: Log, viggo: MemberRecord):
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Viggo")
        context.set_offline(True)
        offers(page, "Done: 5 × 105 kg")
        lower(page, 3)
        done_today(page, 1)
        offers(page, "Done: 5 × 97.5 kg")
        expect(page.locator("[data-next]")).to_contain_text("105 kg was asked; you went on with 97.5 kg.")
        page.get_by_role("button", name="As asked: 105 kg").tap()
        offers(page, "Done: 5 × 105 kg")
        page.get_by_role("button", name="Go on with 97.5 kg").tap()
        act(page, "done")
        done_today(page, 2)
        expect(
            page.get_by_role("button", name="As asked: 117.5 kg")
        ).to_be_visible()  # what this set asks, not the last one
        # By hand: 117.5 x 97.5 / 105 = 109.1, down to 107.5.
        offers(page, "Done: 3 × 107.5 kg")
        page.reload()
        offers(page, "Done: 3 × 107.5 kg")
        online(context, page)
        kept(page, 0)
        page.reload()
        expect(page.locator("[data-act=done]")).to_have_text("Done: 3 × 107.5 kg")  # the log says the same
    plan = today.day_plan(log, viggo.id, this_day())
    assert [str(line.made.load) for line in plan.lines if line.open and line.made][:3] == [
        "107.5 kg",
        "107.5 kg",
        "77.5 kg",
    ]


def test_a_heavier_load_goes_on_where_somebody_says_so(gym: Gym, chromium: Browser, viggo: MemberRecord):
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Viggo")
        context.set_offline(True)
        act(page, "change")
        page.locator("#load_more").tap()
        act(page, "done")
        done_today(page, 1)
        offers(page, "Done: 5 × 105 kg")
        expect(page.locator(".ask")).to_contain_text(
            "The last set was 107.5 kg, and 105 kg was asked. And the next ones?"
        )
        page.get_by_role("button", name="Go on with 107.5 kg").tap()
        expect(page.locator(".ask")).to_have_count(0)
        offers(page, "Done: 5 × 107.5 kg")
        online(context, page)
        kept(page, 0)
        expect(page.locator("[data-act=done]")).to_have_text("Done: 5 × 107.5 kg")
        expect(page.locator(".ask")).to_have_count(0)


def said(line: dict[str, Any], step: str, load: str, outcome: str, at: datetime, seq: int) -> posts.Act:
    body = {**posts.set_of(line, step, reps=line["reps"] - (outcome == "missed"), outcome=outcome), "load": load}
    return posts.act("set", {**body, "said": "", "words": ""}, seq, at=at)


def test_the_phone_says_what_the_log_will_say(gym: Gym, chromium: Browser, log: Log):
    """Whatever is done, with a plan that is as old as the session's beginning or newer."""
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        for seed in (1, 3, 5):
            _trained(page, log, seed)


def _trained(page: Page, log: Log, seed: int) -> None:
    chance = random.Random(seed)
    member = strong(log, f"Viggo {seed}").id
    plan, acts = plan_of(log, member, this_day()), list[posts.Act]()
    for seq in range(1, 7):
        session = plan_of(log, member, this_day())["sessions"][0]
        line = next(each for each in session["lines"] if each["done"] is None)
        outcome = "missed" if chance.random() < 0.25 else "done"
        more = 0 if outcome == "missed" else chance.choice([0, 0, -1, -2, -4, 1, 2])
        load = plain(Decimal(line["load"]) + Decimal("2.5") * more)
        one = said(line, session["id"], load, outcome, datetime.now(UTC) - timedelta(minutes=60 - seq), seq)
        acts.append({**one, "user": member})
        (result,) = take(log, member, posts.post(one), datetime.now(UTC))
        assert result.how == "done"
        now = plan_of(log, member, this_day())
        here, there = (page.evaluate(STAND, [each, acts, this_day().isoformat()]) for each in (plan, now))
        lines = [each for each in now["sessions"][0]["lines"] if each["done"] is None]
        assert [each[0] for each in there] == [each["load"] for each in lines], (seed, seq)
        assert here == there, (seed, seq, [(each["body"]["load"], each["body"]["outcome"]) for each in acts])
        if chance.random() < 0.3:
            plan = now
