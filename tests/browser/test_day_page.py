"""The day page in a phone's browser: a session from its first set to its rating, with a connection and without one."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect

from tests.browser import day_cuts
from tests.browser.conftest import PATIENCE, PHONE, elsewhere, free_port, well
from tests.browser.servers import Mother
from tests.day import this_day
from tests.stores import Store
from tracker.desk.base.opening import open_log
from tracker.desk.day import today, touches
from tracker.desk.files import demo
from tracker.desk.people import people

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page

STATE = """() => {
  const next = document.querySelectorAll('[data-next]'), kept = document.querySelectorAll('[data-kept]');
  return {count: next.length, next: next[0].dataset.next, title: next[0].dataset.title, lines: kept.length,
          kept: Number(kept[0].dataset.kept), state: kept[0].dataset.state};
}"""
WORKING = (
    """async () => { const held = await navigator.serviceWorker.ready; return held.active.state === 'activated'; }"""
)


@dataclass
class Gym:
    """A log of the demo with a server that can be killed and started again at the same address."""

    database: str
    mother: Mother
    port: int = field(default_factory=free_port)
    pid: int = 0

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def start(self) -> None:
        from tests.browser.servers import Forked

        self.pid = self.mother.ask(do="serve", database=self.database, port=self.port)
        well(Forked(self.mother, self.pid), self.url)

    def kill(self) -> None:
        """End it as a loss of power does."""
        import os
        import signal

        os.kill(self.pid, signal.SIGKILL)
        self.mother.ask(do="end", pid=self.pid)

    def member(self, name: str) -> str:
        log = open_log(self.database)
        try:
            return next(each.id for each in people.members(log) if each.name == name)
        finally:
            log.close()

    def day(self, name: str) -> Any:
        log = open_log(self.database)
        try:
            member = next(each.id for each in people.members(log) if each.name == name)
            return today.day_plan(log, member, this_day()), touches.touches(log, member)
        finally:
            log.close()


@pytest.fixture(scope="module")
def mother() -> Iterator[Mother]:
    made = Mother()
    yield made
    made.close()


@pytest.fixture
def gym(mother: Mother, store: Store, tmp_path: Path) -> Iterator[Gym]:
    made = Gym(str(store.copy("demo", lambda log: demo.fill(log, this_day()), tmp_path)), mother)
    made.start()
    yield made
    made.kill()
    store.drop(made.database)


@contextmanager
def phone_of(chromium: Browser, **options: Any) -> Iterator[BrowserContext]:
    expect.set_options(timeout=PATIENCE)
    context = chromium.new_context(**{**PHONE, **options})
    context.set_default_timeout(PATIENCE)
    asked: list[str] = []
    context.on("request", lambda request: asked.append(request.url))
    yield context
    context.close()
    assert asked
    assert elsewhere(asked) == set()


def opened(context: BrowserContext, url: str, member: str = "Wren", *, worker: bool = True) -> Page:
    page = context.new_page()
    page.goto(f"{url}/day?member={member}")
    page.wait_for_selector('[data-next]:not([data-next=""])')
    if worker:
        page.evaluate(WORKING)
    return page


def now(page: Page) -> dict[str, Any]:
    found = page.evaluate(STATE)
    assert (found.pop("count"), found.pop("lines")) == (1, 1)
    return found


def act(page: Page, kind: str) -> None:
    page.locator(f'[data-act="{kind}"]').first.tap()


def kept(page: Page, count: int) -> None:
    expect(page.locator("[data-kept]")).to_have_attribute("data-kept", str(count))


def state(page: Page, name: str) -> None:
    expect(page.locator("[data-kept]")).to_have_attribute("data-state", name)


def next_is(page: Page, kind: str) -> None:
    expect(page.locator("[data-next]")).to_have_attribute("data-next", kind)


def done_today(page: Page, count: int) -> None:
    expect(page.locator('section[aria-labelledby="done_head"] li')).to_have_count(count)


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
        context.set_offline(False)
        page.evaluate("dispatchEvent(new Event('online'))")
        kept(page, 0)
        next_is(page, "piece")
        act(page, "undo")
        next_is(page, "set")
        kept(page, 0)
        next_is(page, "set")
    assert [row.outcome for row in gym.day("Wren")[0].sets] == ["missed"]


def test_changed_before_it_is_logged_and_mended_after(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        act(page, "change")
        page.locator("#load_more").tap()
        page.locator("#reps_done_less").tap()
        page.locator('[data-rir="2"]').tap()
        act(page, "done")
        done_today(page, 1)
        page.get_by_role("button", name=re.compile("Mend")).first.tap()
        page.locator("#note").fill("knees in")
        page.get_by_role("button", name="Keep the change").tap()
        for _ in range(100):  # the line said "saved" of the set before as well
            (row,) = gym.day("Wren")[0].sets
            if row.note:
                break
            page.wait_for_timeout(100)
        kept(page, 0)
        state(page, "saved")
    assert (row.reps, row.rir, row.note) == (3, 2, "knees in")
    assert row.load.amount > 60


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
        context.set_offline(False)
        page.evaluate("dispatchEvent(new Event('online'))")
        kept(page, 0)
        done_today(page, 0)
    assert gym.day("Wren")[0].sets == ()


def test_two_phones_of_one_member_keep_both_and_ask_once(gym: Gym, chromium: Browser):
    with phone_of(chromium) as one, phone_of(chromium) as two:
        first, second = opened(one, gym.url), opened(two, gym.url)
        for context, page in ((one, first), (two, second)):
            context.set_offline(True)
            act(page, "done")
            kept(page, 1)
        for context, page in ((one, first), (two, second)):
            context.set_offline(False)
            page.evaluate("dispatchEvent(new Event('online'))")
            kept(page, 0)
        assert len(gym.day("Wren")[0].sets) == 2
        second.get_by_role("button", name="One set").tap()
        kept(second, 0)
        done_today(second, 1)
        first.reload()
        done_today(first, 1)
        expect(first.get_by_role("button", name="One set")).to_have_count(0)
        expect(first.locator(".over").first).to_have_text("Set 2 of 5")
    assert len(gym.day("Wren")[0].sets) == 1


REFUSALS = {
    "cannot be opened": "IDBFactory.prototype.open = () => { throw new DOMException('no', 'SecurityError'); };",
    "never answers": "IDBFactory.prototype.open = () => ({});",
}
FULL = {
    "put": "IDBObjectStore.prototype.put = () => { throw new DOMException('full', 'QuotaExceededError'); };",
    "abort": """const put = IDBObjectStore.prototype.put;
      IDBObjectStore.prototype.put = function (...given) {
        const asked = put.apply(this, given);
        if (this.name === 'outbox') asked.addEventListener('success', () => this.transaction.abort());
        return asked;
      };""",
}


@pytest.mark.parametrize("script", list(REFUSALS.values()), ids=list(REFUSALS))
def test_storage_that_is_refused_is_told_before_a_touch_and_it_counts_only_in_the_log(
    gym: Gym, chromium: Browser, script: str
):
    with phone_of(chromium, service_workers="block") as context:
        context.add_init_script(script)
        page = opened(context, gym.url, worker=False)
        state(page, "refused")
        expect(page.locator("#state")).to_contain_text("keeps nothing")
        act(page, "done")
        done_today(page, 1)
        context.set_offline(True)
        act(page, "done")
        expect(page.locator('[role="alert"]')).to_contain_text("Not kept, not logged")
        done_today(page, 1)
        context.set_offline(False)
        page.get_by_role("button", name="Try again").tap()
        done_today(page, 2)
    assert len(gym.day("Wren")[0].sets) == 2


@pytest.mark.parametrize("script", list(FULL.values()), ids=list(FULL))
def test_a_full_phone_says_that_a_touch_is_not_kept(gym: Gym, chromium: Browser, script: str):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        act(page, "done")
        done_today(page, 1)
        kept(page, 0)
        context.set_offline(True)
        page.evaluate(f"() => {{ {script} }}")
        act(page, "done")
        expect(page.locator('[role="alert"]')).to_contain_text("Not kept, not logged")
        state(page, "refused")
        done_today(page, 1)
    assert len(gym.day("Wren")[0].sets) == 1


def test_axe_keys_narrow_large_and_dark(gym: Gym, chromium: Browser):
    from axe_playwright_python.sync_playwright import Axe

    with phone_of(chromium, viewport={"width": 320, "height": 700}) as context:
        page = opened(context, gym.url)
        tell = Axe()

        def look() -> None:
            for scheme in ("light", "dark"):
                page.emulate_media(color_scheme=scheme, reduced_motion="reduce")  # type: ignore[arg-type]
                found = tell.run(page).response["violations"]
                assert [(each["id"], [node["html"] for node in each["nodes"]]) for each in found] == []
            assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), "it scrolls sideways"
            small = page.evaluate(SMALL)
            assert small == [], small

        look()
        page.locator("#menu").tap()
        look()
        page.locator("#menu").tap()
        act(page, "change")
        look()
        act(page, "missed")
        look()
        page.locator('[data-reps="2"]').tap()
        done_today(page, 1)
        look()
        for count in range(2, 6):
            act(page, "done")
            done_today(page, count)
        next_is(page, "piece")
        act(page, "start")
        page.locator('[data-finished="3"]').tap()
        look()
        act(page, "stop")
        act(page, "score")
        next_is(page, "rating")
        page.locator('[data-rating="6"]').tap()
        look()
        page.evaluate("document.documentElement.style.fontSize = '212.5%'")
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), "at 200 % it scrolls sideways"


SMALL = """() => [...document.querySelectorAll('button, a, input:not([type=file]), select, summary')]
  .filter(each => each.checkVisibility()).map(each => [each, each.getBoundingClientRect()])
  .filter(([each, box]) => box.height < 47.5 || (each.tagName === 'BUTTON' && box.width < 47.5)).map(([each]) => each.outerHTML)"""


def test_keys_alone_log_a_set_and_a_miss(gym: Gym, chromium: Browser):
    with phone_of(chromium, has_touch=False, is_mobile=False) as context:
        page = opened(context, gym.url)

        def to(found: Callable[[str], bool]) -> None:
            for _ in range(60):
                page.keyboard.press("Tab")
                html = page.evaluate("document.activeElement.outerHTML.slice(0, 200)")
                if found(html):
                    assert page.evaluate("getComputedStyle(document.activeElement).outlineStyle") != "none"
                    return
            raise AssertionError("no key leads there")

        to(lambda html: 'data-act="done"' in html)
        page.keyboard.press("Enter")
        done_today(page, 1)
        assert page.evaluate("document.activeElement.id") == "done"  # the hand stays where it was
        page.keyboard.press("Tab")
        page.keyboard.press("Space")
        page.keyboard.press("Enter")
        done_today(page, 2)
        kept(page, 0)
    assert [(row.outcome, row.reps) for row in gym.day("Wren")[0].sets] == [("done", 4), ("missed", 3)]


def test_nothing_planned_takes_a_set_beside_the_plan(gym: Gym, chromium: Browser):
    log = open_log(gym.database)
    people.add_member(log, "Isolde")
    log.close()
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Isolde")
        assert now(page) == {"next": "nothing", "title": "", "kept": 0, "state": "saved"}


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
        context.set_offline(False)
        page.evaluate("dispatchEvent(new Event('online'))")
        kept(page, 0)
        expect(page.locator("h1")).to_have_text("Press, week 2 of 3")
    day, _ = gym.day("Wren")
    assert (day.step.title, len(day.sets)) == ("Press, week 2 of 3", 1)


def test_ten_cuts_between_touches_lose_nothing_and_double_nothing(gym: Gym, chromium: Browser):
    told = day_cuts.run(gym, chromium, seed=20, cuts=10)
    assert day_cuts.held(gym, told).startswith("10 cuts")
