"""The day page as tests hold it: a server that can be killed, a phone of its own, and what the page says of itself."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from playwright.sync_api import expect

from tests.browser.conftest import PATIENCE, PHONE, elsewhere, free_port, well
from tests.browser.servers import Forked, Mother
from tests.day import this_day
from tracker.desk.base.opening import open_log
from tracker.desk.day import today, touches
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
        self.pid = self.mother.ask(do="serve", database=self.database, port=self.port)
        well(Forked(self.mother, self.pid), self.url)

    def kill(self) -> None:
        """End it as a loss of power does."""
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


def online(context: BrowserContext, page: Page) -> None:
    """Give the connection back, and let the page know as a browser does."""
    context.set_offline(False)
    page.evaluate("dispatchEvent(new Event('online'))")


def done_today(page: Page, count: int) -> None:
    expect(page.locator('section[aria-labelledby="done_head"] li')).to_have_count(count)
