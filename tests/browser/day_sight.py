"""How long until the next set is on a phone's screen, and until a touch is answered:
`python -m tests.browser.day_sight [RUNS] [SLOWED]`.

Chromium's processor is slowed four times, or as often as is said (1 leaves it as it is), and its line held to 10 Mbit/s with
20 ms each way. Once from an empty phone, with the connection, and once from what the phone keeps: with the service worker, and
the server killed. The moment is that of the frame after the card of the next set stands in the page; a touch counts from the
finger's leaving to the frame that says it is kept. Turn by turn with it: Today of the pages, and an empty page, which says
what the machine itself takes just then. Over the air is what the browser counts, headings included; how busy the machine was
stands in the first line and the last.
"""

from __future__ import annotations

import os
import statistics
import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tests.browser.conftest import PHONE, RESTING
from tests.browser.day_phone import WORKING

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, CDPSession, Page

slowed_by = 4
LINE = {"offline": False, "latency": 20, "downloadThroughput": 1_250_000, "uploadThroughput": 1_250_000}
WATCH = """(() => {
  const look = () => requestAnimationFrame(() => {
    const found = document.querySelector('[data-act="done"], .st-key-log_as_asked button, #bare');
    if (found && found.getBoundingClientRect().height) requestAnimationFrame(now => { self.onScreen = now; });
    else look();
  });
  look();
})()"""
ANSWERED = """where => {
  self.answered = undefined;
  const text = () => document.querySelector(where)?.textContent;
  addEventListener('click', event => {
    if (where === '#said') document.querySelector(where).textContent = '';
    const before = text(), told = new MutationObserver(() => {
      if (!text() || text() === before) return;
      told.disconnect();
      const drawn = performance.now() - event.timeStamp, after = new MessageChannel();
      after.port1.onmessage = () => { self.answered = {'on the screen': performance.now() - event.timeStamp, drawn}; };
      requestAnimationFrame(() => after.port2.postMessage(0));
    });
    told.observe(document.body, {subtree: true, childList: true, characterData: true});
  }, {capture: true, once: true});
}"""
FOUND = """() => {
  const marks = Object.fromEntries(performance.getEntriesByType('mark').map(each => [each.name, each.startTime]));
  const files = performance.getEntriesByType('resource'), plan = files.find(each => each.name.includes('/day/api/plan'));
  const page = performance.getEntriesByType('navigation')[0], all = [page, ...files];
  return {
    'on the screen': self.onScreen, ...marks, 'shell begins': page.responseStart,
    'plan begins': plan ? plan.responseStart : null, 'plan is there': plan ? plan.responseEnd : null,
    'paint': (performance.getEntriesByName('first-contentful-paint')[0] || {}).startTime,
    requests: all.filter(each => each.transferSize > 0).length, bytes: all.reduce((sum, each) => sum + each.transferSize, 0),
  };
}"""
PLAN_KEPT = """() => new Promise(resolve => {
  const asked = indexedDB.open('day');
  asked.onsuccess = () => {
    const plans = asked.result.transaction(['snap'], 'readonly').objectStore('snap').count();
    plans.onsuccess = () => { asked.result.close(); resolve(plans.result > 0); };
  };
})"""
TOUCHES = {"touch": '[data-act="done"]', "back": '[data-act="undo"]', "where": "#said"}
ON_TODAY = {
    "touch": ".st-key-log_as_asked button", "back": "", "where": '[data-testid="stMain"]', "rests": RESTING,
}  # fmt: skip
BARE = "data:text/html,<meta name=viewport content='width=device-width'><p id=bare>Bare"


def slowed(page: Page) -> CDPSession:
    """Make the page's phone slow, and its line."""
    tools = page.context.new_cdp_session(page)
    tools.send("Performance.enable", {"timeDomain": "threadTicks"})
    tools.send("Emulation.setCPUThrottlingRate", {"rate": slowed_by})
    tools.send("Network.enable")
    tools.send("Network.emulateNetworkConditions", LINE)
    return tools


def seen(context: BrowserContext, address: str) -> dict[str, Any]:
    """Open an address, and tell when the next set was on the screen, in ms."""
    page = context.new_page()
    page.add_init_script(WATCH)
    tools = slowed(page)
    page.goto(address, wait_until="commit")
    page.wait_for_function("self.onScreen !== undefined", timeout=60_000)
    metrics = {each["name"]: each["value"] * 1000 for each in tools.send("Performance.getMetrics")["metrics"]}
    found: dict[str, Any] = page.evaluate(FOUND)
    found["processor of the page"] = metrics["TaskDuration"]
    page.close()
    return found


def answers(
    context: BrowserContext, address: str, count: int, *, touch: str, back: str, where: str, rests: str
) -> list[dict[str, Any]]:
    """Touch so many times, and tell when each was answered, in ms; where it is taken `back`, that is counted as well.

    `where` changes when it is answered, and `rests` is there when all is done that a touch brings along.
    """
    page = context.new_page()
    page.goto(address)
    page.wait_for_selector(touch)
    slowed(page)
    found: list[dict[str, Any]] = []
    for _ in range(count):
        for each in filter(None, (touch, back)):
            page.wait_for_selector(each)
            page.evaluate(ANSWERED, where)
            page.locator(each).first.tap()
            page.wait_for_function("self.answered", timeout=60_000)
            found.append(page.evaluate("self.answered"))
            page.wait_for_selector(rests)
    page.close()
    return found


def busy() -> str:
    """Say how busy the machine is: tasks that run or wait, of the last minute and of the last five."""
    now, five, _ = os.getloadavg()
    return f"Load of the machine with {os.cpu_count()} processors: {now:.1f} in the last minute, {five:.1f} in the last five"


def kept(context: BrowserContext, address: str) -> None:
    """Have the page open on a phone until it holds it and a plan."""
    page = context.new_page()
    page.goto(address)
    page.wait_for_selector('[data-next="set"]')
    page.evaluate(WORKING)
    page.wait_for_function(PLAN_KEPT)
    page.close()


def told(name: str, rows: list[dict[str, Any]]) -> str:
    """Say what was found, in the median, with the best and the worst of what counts."""
    words = []
    for each in rows[0]:
        values = [row[each] for row in rows if row[each] is not None]
        if values:
            words.append(f"{each} {statistics.median(values):,.0f}")
    shown = sorted(row["on the screen"] for row in rows)
    return f"{name} ({len(rows)} times): {shown[0]:,.0f} to {shown[-1]:,.0f} ms; in the median: {', '.join(words)}"


def main(count: int) -> None:
    from playwright.sync_api import sync_playwright

    from tests import day
    from tests.browser.day_phone import Gym
    from tests.browser.servers import Mother
    from tests.conftest import FLAGS, where_chromium_is
    from tracker.desk.base.opening import open_log
    from tracker.desk.files import demo

    day.begin()
    print(f"{busy()}. A phone's processor is slowed {slowed_by} times", flush=True)
    mother = Mother()
    with (
        tempfile.TemporaryDirectory(dir="/dev/shm" if Path("/dev/shm").is_dir() else None) as folder,
        sync_playwright() as playwright,
    ):
        flags = [each for each in FLAGS if not each.startswith("--js-flags")]  # a phone optimises its scripts
        chromium = playwright.chromium.launch(executable_path=where_chromium_is(), args=flags)
        database = str(Path(folder) / "log.db")
        log = open_log(database)
        demo.fill(log, day.this_day())
        log.close()
        gym = Gym(database, mother)
        gym.start()
        address, today = f"{gym.url}/day/?member=Wren", f"{gym.url}/?member=Wren"
        first = chromium.new_context(**PHONE)  # type: ignore[arg-type]
        print(told("an empty phone, and a server just begun", [seen(first, address)]), flush=True)
        seen(first, today)
        first.close()
        keeping = chromium.new_context(**PHONE)  # type: ignore[arg-type]
        kept(keeping, address)
        seen(keeping, today)
        rows: dict[str, list[dict[str, Any]]] = {}
        for _ in range(count):
            empty = chromium.new_context(**PHONE)  # type: ignore[arg-type]
            rows.setdefault("a bare page", []).append(seen(empty, BARE))
            rows.setdefault("an empty phone", []).append(seen(empty, address))
            empty.close()
            rows.setdefault("a phone that was here, with a connection", []).append(seen(keeping, address))
            other = chromium.new_context(**PHONE)  # type: ignore[arg-type]
            rows.setdefault("Today on an empty phone", []).append(seen(other, today))
            other.close()
            rows.setdefault("Today on a phone that was here", []).append(seen(keeping, today))
        half = (count + 1) // 2
        rows["a touch"] = answers(keeping, address, half, **TOUCHES, rests='[data-kept="0"]')
        gym.kill()
        for _ in range(count):
            rows.setdefault("what the phone keeps, and no connection", []).append(seen(keeping, address))
        rows["a touch without a connection"] = answers(keeping, address, half, **TOUCHES, rests="#said")
        gym.start()
        rows["a touch on Today"] = answers(keeping, today, min(half, 4), **ON_TODAY)  # as many as the session has sets
        keeping.close()
        chromium.close()
    mother.close()
    for name, found in rows.items():
        print(told(name, found))
    print(busy())


if __name__ == "__main__":
    slowed_by = int(sys.argv[2]) if len(sys.argv) > 2 else slowed_by
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10)
