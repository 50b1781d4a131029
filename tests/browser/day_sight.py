"""How long until the next set is on a phone's screen: `python -m tests.browser.day_sight [RUNS]`.

Chromium's processor is slowed four times and its line held to 10 Mbit/s with 20 ms each way. Once from an empty phone, with
the connection, and once from what the phone keeps: with the service worker, and the server killed. The moment is that of the
frame after the card of the next set stands in the page. What the server took, what came over the air and what a bare page of
the same server takes on this machine at the same time stand beside it.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tests.browser.conftest import PHONE

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, CDPSession, Page

SLOWED = 4
LINE = {"offline": False, "latency": 20, "downloadThroughput": 1_250_000, "uploadThroughput": 1_250_000}
WATCH = """(() => {
  const look = () => requestAnimationFrame(() => {
    if (document.querySelector('[data-next="set"]')) requestAnimationFrame(now => { self.onScreen = now; });
    else look();
  });
  look();
})()"""
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
BARE = "data:text/html,<meta name=viewport content='width=device-width'><p data-next=set>Bare"


def slowed(page: Page) -> CDPSession:
    """Make the page's phone slow, and its line."""
    tools = page.context.new_cdp_session(page)
    tools.send("Performance.enable", {"timeDomain": "threadTicks"})
    tools.send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
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


def kept(chromium: Browser, address: str) -> BrowserContext:
    """Return a phone that has had the page open, and holds it and a plan."""
    context = chromium.new_context(**PHONE)  # type: ignore[arg-type]
    page = context.new_page()
    page.goto(address)
    page.wait_for_selector('[data-next="set"]')
    page.evaluate("async () => { await navigator.serviceWorker.ready; }")
    page.wait_for_timeout(1500)
    page.close()
    return context


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
    mother = Mother()
    with (
        tempfile.TemporaryDirectory(dir="/dev/shm" if Path("/dev/shm").is_dir() else None) as folder,
        sync_playwright() as playwright,
    ):
        chromium = playwright.chromium.launch(executable_path=where_chromium_is(), args=FLAGS)
        database = str(Path(folder) / "log.db")
        log = open_log(database)
        demo.fill(log, day.this_day())
        log.close()
        gym = Gym(database, mother)
        gym.start()
        address = f"{gym.url}/day/?member=Wren"
        rows: dict[str, list[dict[str, Any]]] = {"a bare page": [], "an empty phone": [], "what the phone keeps": []}
        for number in range(count):
            empty = chromium.new_context(**PHONE)  # type: ignore[arg-type]
            found = seen(empty, address)
            if number == 0:  # this process of the server has worked out nothing yet
                print(told("an empty phone, and a server just begun", [found]), flush=True)
            else:
                rows["an empty phone"].append(found)
            rows["a bare page"].append(seen(empty, BARE))
            empty.close()
        keeping = kept(chromium, address)
        gym.kill()
        for _ in range(count - 1):
            rows["what the phone keeps"].append(seen(keeping, address))
        keeping.close()
        chromium.close()
    mother.close()
    for name, found in rows.items():
        if found:
            print(told(name, found))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 8)
