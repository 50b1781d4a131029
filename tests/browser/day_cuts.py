"""Cuts between touches: the network off, the server killed, the page reloaded or closed, each by a seed; nothing is lost.

`python -m tests.browser.day_cuts 200 [FIRST SEED]` makes so many cuts and prints what became of the touches.
"""

from __future__ import annotations

import random
import sys
import tempfile
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tests.browser.conftest import PHONE

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

MEMBERS = ("Wren", "Sunniva", "Tobin", "Ondrej", "Mirela")
CUTS = ("off", "on", "kill", "start", "reload", "close", "kill at once", "reload at once")
KEPT = "document.querySelector('[data-kept]')"
TOUCH = """() => {
  const one = document.querySelector('#free_log');
  one.closest('details').open = true;
  one.click();
}"""


@dataclass
class Told:
    """What was touched, as the phone said it was kept or saved, and what was cut."""

    shown: int = 0
    at_once: int = 0  # touched, and cut before anything was said
    cuts: Counter[str] = field(default_factory=Counter[str])


def run(gym: Any, chromium: Browser, seed: int, cuts: int, member: str = "Wren") -> Told:
    """Touch and cut; at the end all is handed over.

    A touch counts as shown when the page has said `Kept` or `Saved` of it. One that is cut at once may be kept or not,
    and is in the log at most once.
    """
    chance, told = random.Random(seed), Told()
    context = chromium.new_context(**PHONE)  # type: ignore[arg-type]
    context.set_default_timeout(30_000)
    address, up = f"{gym.url}/day/?member={member}", True

    def opened() -> Page:
        page = context.new_page()
        page.goto(address)
        page.wait_for_selector("#free_log", state="attached")
        page.evaluate("async () => { await navigator.serviceWorker.ready; }")
        return page

    page = opened()
    while told.cuts.total() < cuts:
        load = 20 + 0.5 * (told.shown % 12)  # lighter than what the page asks about first
        page.evaluate(
            f"() => {{ const f = document.querySelector('#free_load'); f.value = '{load}'; f.dispatchEvent(new Event('input', {{bubbles: true}})); }}"
        )
        cut = chance.choice(CUTS)
        if cut.endswith("at once"):
            page.evaluate(TOUCH)
            told.at_once += 1
        else:
            page.evaluate("document.querySelector('#said').textContent = ''")
            page.evaluate(TOUCH)
            page.wait_for_function("/^(Kept|Saved|All saved)/.test(document.querySelector('#said').textContent)")
            told.shown += 1
        if cut == "off":
            context.set_offline(True)
        elif cut == "on":
            context.set_offline(False)
        elif cut.startswith("kill") and up:
            gym.kill()
            up = False
        elif cut == "start" and not up:
            gym.start()
            up = True
        elif cut.startswith("reload"):
            page.reload()
            page.wait_for_selector("#free_log", state="attached")
        elif cut == "close":
            page.close()
            page = opened()
        else:
            continue
        told.cuts[cut] += 1
    context.set_offline(False)
    if not up:
        gym.start()
    page.evaluate("dispatchEvent(new Event('online'))")
    page.wait_for_function(f"{KEPT}.dataset.kept === '0' && {KEPT}.dataset.state === 'saved'", timeout=60_000)
    context.close()
    return told


def held(gym: Any, told: Told, member: str = "Wren") -> str:
    """Say what the log has of it.

    Raises:
        AssertionError: if a touch that was shown is lost, one is there twice, or they are in another order than touched.
    """
    day, known = gym.day(member)
    ids, seqs = [each.id for each in known], [each.said["seq"] for each in reversed(known)]
    assert len(set(ids)) == len(ids), "a touch is in the log twice"
    assert len(day.sets) == len(known), (len(day.sets), len(known))
    assert told.shown <= len(known) <= told.shown + told.at_once, (told, len(known))
    assert seqs == sorted(seqs), "not in the order of the touches"
    times = [row.logged_at for row in sorted(day.sets, key=lambda row: row.position)]
    assert times == sorted(times), "not with the times of the touches"
    return f"{told.cuts.total()} cuts {dict(told.cuts)}: {told.shown} touches shown, {told.at_once} cut at once, {len(known)} in the log"


def main(count: int, seed: int) -> None:
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
        for number, at in enumerate(range(0, count, 20)):
            database = str(Path(folder) / f"{number}.db")
            log = open_log(database)
            demo.fill(log, day.this_day())
            log.close()
            gym = Gym(database, mother)
            gym.start()
            told = run(gym, chromium, seed + number, min(20, count - at), MEMBERS[number % len(MEMBERS)])
            print(f"seed {seed + number}:", held(gym, told, MEMBERS[number % len(MEMBERS)]), flush=True)
            gym.kill()
        chromium.close()
    mother.close()


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 200, int(sys.argv[2]) if len(sys.argv) > 2 else 1)
