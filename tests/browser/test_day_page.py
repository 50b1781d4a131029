"""The day page in a phone's browser: a session from its first set to its rating."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser.day_phone import Gym, act, done_today, kept, next_is, now, opened, phone_of, state
from tracker.desk.base.opening import open_log
from tracker.desk.people import people

if TYPE_CHECKING:
    from playwright.sync_api import Browser


def test_a_session_from_the_first_set_to_the_rating(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        assert page.url == f"{gym.url}/day/?member=Wren"
        assert now(page) == {"next": "set", "title": "front squat, barbell", "kept": 0, "state": "saved"}
        for count in range(1, 6):
            act(page, "done")  # one touch for each set
            done_today(page, count)
        next_is(page, "piece")
        act(page, "start")
        expect(page.locator("#clock_face")).to_be_visible()
        act(page, "stop")
        page.locator('[data-finished="4"]').tap()
        act(page, "score")
        next_is(page, "rating")
        page.locator('[data-rating="7"]').tap()
        act(page, "rate")
        next_is(page, "nothing")
        kept(page, 0)
        state(page, "saved")
    day, known = gym.day("Wren")
    assert [row.planned_round for row in day.sets] == [1, 1, 1, 2, 3]
    assert [row.outcome for row in day.sets] == ["done"] * 5
    assert len(day.scores) == 1
    assert day.session.rating == 7
    assert len({each.id for each in known}) == len(known) == 9


UNTOUCHED = """async member => {
  const at = name => import(`/day/v/${document.body.dataset.version}/${name}.js`), {dayOf, stand} = await at("next"), {dayWords} = await at("view");
  const fixed = of => { if (of && typeof of === "object") { Object.freeze(of); Object.values(of).forEach(fixed); } return of; };
  const today = dayOf(), plan = fixed(await (await fetch(`/day/api/plan?member=${member}&day=${today}`)).json());
  const session = plan.sessions.find(each => each.id === plan.on), [first, second] = session.lines, piece = session.pieces[0], acts = [];
  const act = (kind, body) => acts.push({id: `act ${acts.length}`, seq: acts.length, user: plan.member.id, kind, at: Date.now(), date: today, body: {step: session.id, words: "", said: "", ...body}});
  const set = (line, more) => act("set", {lift: line.lift, load: line.load, unit: line.unit, reps: line.reps, outcome: "done", key: line.key, ...more});
  act("warm", {how: "done"}); set(first, {load: String(Number(first.load) + 5)}); act("change", {of: "act 1", rir: "2"}); set(second, {outcome: "missed"});
  act("tick", {piece: piece.id, done: [[0, 0]]}); act("after", {lift: first.lift, how: "hurt"}); act("score", {piece: piece.id}); act("rate", {rating: 7});
  act("undo", {of: "act 3"}); act("skip", {}); act("undo", {of: "act 9"}); act("move", {to: today}); act("end", {});
  stand(plan, acts, today, new Set([second.key]));
  const days = Array.from({length: 366}, (_, n) => dayOf(new Date(2028, 0, n + 1, 12)));
  const words = day => new Date(`${day}T12:00`).toLocaleDateString("en-GB", {weekday: "long", day: "numeric", month: "long"}).replace(",", "");
  return days.filter(each => dayWords(each) !== words(each));
}"""


def test_what_is_next_is_worked_out_without_a_change_to_the_plan(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        assert page.evaluate(UNTOUCHED, gym.member("Wren")) == []  # a write into a record that is fixed is thrown


def test_missed_asks_how_many_and_the_next_planned_set_stays_next(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        act(page, "done")
        done_today(page, 1)
        act(page, "missed")
        page.locator('[data-reps="3"]').tap()
        done_today(page, 2)
        assert now(page)["next"] == "set"
        expect(page.locator(".over").first).to_have_text("Set 3 of 5")
        expect(page.locator("[data-do=pick]").first).to_contain_text("Less: ")
        act(page, "done")
        done_today(page, 3)
        act(page, "undo")
        done_today(page, 2)
        kept(page, 0)
    day, _ = gym.day("Wren")
    assert [(row.outcome, row.reps) for row in day.sets] == [("done", 4), ("missed", 3)]


def test_changed_before_it_is_logged_and_mended_after(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        act(page, "change")
        page.locator("#load_more").tap()
        page.locator("#reps_done_less").tap()
        page.locator('[data-rir="2"]').tap()
        act(page, "done")
        done_today(page, 1)
        page.get_by_role("button", name=re.compile("Edit")).first.tap()
        page.locator("#note").fill("knees in")
        page.get_by_role("button", name="Keep the change").tap()
        for _ in range(100):  # the line said "saved" of the set before as well, and either may still be on its way
            if any(row.note for row in gym.day("Wren")[0].sets):
                break
            page.wait_for_timeout(100)
        kept(page, 0)
        state(page, "saved")
    (row,) = gym.day("Wren")[0].sets
    assert (row.reps, row.rir, row.note) == (3, 2, "knees in")
    assert row.load.amount > 60


def test_nothing_planned_takes_a_set_beside_the_plan(gym: Gym, chromium: Browser):
    log = open_log(gym.database)
    people.add_member(log, "Isolde")
    log.close()
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Isolde")
        assert now(page) == {"next": "nothing", "title": "", "kept": 0, "state": "saved"}
