"""Pictures of every state of the day page, at 390 and 320 px, light and dark: `python -m tests.browser.day_pictures FOLDER`."""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page

    from tests.browser.day_phone import Gym

SIZES = ((390, 844), (320, 640))
REFUSED = """async () => {
  const open = indexedDB.open('day');
  const base = await new Promise(resolve => { open.onsuccess = () => resolve(open.result); });
  const tx = base.transaction(['sent'], 'readwrite'), user = new URL(document.querySelector('#all_pages').href).searchParams.get('member');
  tx.objectStore('sent').put({f: 1, id: 'f'.repeat(32), seq: 900, user, kind: 'set', at: Date.now(), date: new Date().toISOString().slice(0, 10), tz: 0,
    body: {words: 'front squat, barbell: 4 × 135 kg', said: '4 × 135 kg', load: '135', unit: 'kg', reps: 4},
    result: {id: 'f'.repeat(32), r: 'parked', slip: true, words: '135 kg looks like pounds: 61 kg were lifted last time. Log it as it is, or put it away.'}});
  await new Promise(resolve => { tx.oncomplete = resolve; });
}"""


def states(gym: Gym, context: BrowserContext) -> Iterator[tuple[str, Page]]:
    """Go through a day, and stop at each state that is to be looked at."""
    from tests.browser.day_phone import act, done_today, kept, next_is, online, opened

    page = opened(context, gym.url)
    yield "01 next", page
    act(page, "done")
    done_today(page, 1)
    kept(page, 0)
    yield "02 saved", page
    context.set_offline(True)
    act(page, "change")
    yield "03 changing", page
    page.locator("#load_less").tap()
    page.locator("#load_less").tap()
    act(page, "done")
    kept(page, 1)
    page.wait_for_timeout(1500)
    yield "04 kept, lowered load", page
    act(page, "missed")
    yield "05 missed, how many", page
    page.locator("[data-reps]").nth(1).tap()
    kept(page, 2)
    yield "06 after a miss", page
    page.locator("#more summary").tap()
    page.locator("#free summary").tap()
    yield "07 other ways, a free set", page
    page.locator("#menu").tap()
    yield "08 menu", page
    page.locator("#menu").tap()
    online(context, page)
    kept(page, 0)
    page.evaluate(REFUSED)
    page.reload()
    next_is(page, "set")
    yield "09 refused", page
    page.get_by_role("button", name="Put away").tap()
    while page.locator("[data-next]").get_attribute("data-next") == "set":
        count = page.locator('section[aria-labelledby="done_head"] li').count()
        act(page, "done")
        done_today(page, count + 1)
    yield "10 piece", page
    page.locator('[data-count="0"]').tap()
    act(page, "start")
    page.locator("#clock_face").wait_for()
    page.wait_for_timeout(1200)
    yield "11 clock", page
    act(page, "stop")
    page.locator('[data-finished="3"]').tap()
    yield "12 score", page
    act(page, "score")
    next_is(page, "rating")
    page.locator('[data-rating="7"]').tap()
    yield "13 rating", page
    act(page, "rate")
    next_is(page, "nothing")
    yield "14 all done", page
    page.close()


def long_away(gym: Gym, context: BrowserContext) -> Iterator[tuple[str, Page]]:
    """Two days later on the same phone, with nothing reached."""
    from tests.browser.day_phone import opened

    opened(context, gym.url, "Sunniva").close()
    page = context.new_page()
    context.set_offline(True)
    page.clock.install()
    page.clock.fast_forward(2 * 86_400_000)
    page.goto(f"{gym.url}/day/?member=Sunniva")
    page.wait_for_selector("[data-next]")
    page.clock.run_for(3000)
    yield "15 long without a connection", page
    page.close()


def nobody(gym: Gym, context: BrowserContext) -> Iterator[tuple[str, Page]]:
    from tests.browser.day_phone import opened
    from tracker.desk.base.opening import open_log
    from tracker.desk.people import people

    log = open_log(gym.database)
    if all(each.name != "Isolde" for each in people.members(log)):
        people.add_member(log, "Isolde")
    log.close()
    page = opened(context, gym.url, "Isolde")
    yield "16 nothing planned", page
    page.close()


def taken(gym: Gym, chromium: Browser, folder: Path, size: tuple[int, int], scheme: Any) -> None:
    from tests.browser.day_phone import phone_of

    of_day: tuple[Callable[[Gym, BrowserContext], Iterator[tuple[str, Page]]], ...] = (states, long_away, nobody)
    for each in of_day:
        options = {"viewport": {"width": size[0], "height": size[1]}, "color_scheme": scheme, "device_scale_factor": 1}
        with phone_of(chromium, **options) as context:
            for name, page in each(gym, context):
                page.screenshot(path=folder / f"{name}, {size[0]} {scheme}.png", full_page=True)


def main(folder: Path) -> None:
    from playwright.sync_api import sync_playwright

    from tests import day
    from tests.browser.day_phone import Gym
    from tests.browser.servers import Mother
    from tests.conftest import FLAGS, where_chromium_is
    from tracker.desk.base.opening import open_log
    from tracker.desk.files import demo

    day.begin()
    folder.mkdir(parents=True, exist_ok=True)
    mother = Mother()
    with tempfile.TemporaryDirectory() as logs, sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=where_chromium_is(), args=FLAGS)
        for size in SIZES:
            for scheme in ("light", "dark"):
                gym = Gym(str(Path(logs) / f"{size[0]} {scheme}.db"), mother)
                log = open_log(gym.database)
                demo.fill(log, day.this_day())
                log.close()
                gym.start()
                taken(gym, chromium, folder, size, scheme)
                gym.kill()
        chromium.close()
    mother.close()


if __name__ == "__main__":
    main(Path(sys.argv[1]))
