"""The pages in seconds, with ten years in the log, beside a bare app of two widgets: in one run, turn by turn. Never asserted.

Run with: python -m pytest tests/benchmarks/test_pages.py --benchmark-only -n 0 -o addopts="" -s
"""

from __future__ import annotations

import csv
import random
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path
from statistics import median
from typing import TYPE_CHECKING

import pytest

from tests.browser.conftest import PHONE, at_rest, free_port, serve, well
from tests.taking_in import import_sets
from tracker.desk.base.opening import open_log
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.desk.sheet.sheets import take_sheet
from tracker.units import Mass

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page

YEARS, TURNS = 10, 9  # a set is logged in each turn
LIFTS = ("front squat", "back squat", "bench press", "deadlift", "press")
SHEET = "Title: Long haul\nFront squat, barbell, % of 3RM, rest 2:00\n14 x 3 @ 70 %\n"
BARE = """\
import streamlit as st
st.text_input("Name", key="name")
st.button("Count", key="count", on_click=lambda: st.session_state.update(n=st.session_state.get("n", 0) + 1))
st.html(f'<p class="counted">{st.session_state.get("n", 0)}</p>')
"""
LINE = ".st-key-trend_drawing:has(.js-plotly-plot .trace), .sketch b"  # the figure itself, or what stands in its place
SEEN = """() => { window.seen = null; const look = () => {
  const found = document.querySelector(%r);
  if (found && found.getBoundingClientRect().height) window.seen = performance.now();
  else requestAnimationFrame(look);
}; look(); }"""
ANSWER = """([button, answer]) => new Promise(resolve => {
  const before = document.querySelector(answer)?.innerText;
  const began = performance.now();
  const look = () => {
    const now = document.querySelector(answer)?.innerText;
    if (now && now !== before) resolve(performance.now() - began); else requestAnimationFrame(look);
  };
  document.querySelector(button).click();
  look();
})"""


@pytest.fixture(scope="module")
def ten_years(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One member, ten years, three sessions a week of three lifts with four sets: about 18,700 sets, and a session today."""
    folder, chance = tmp_path_factory.mktemp("years"), random.Random(20261126)
    first, sets = date.today() - timedelta(days=365 * YEARS), folder / "sets.csv"
    with sets.open("w", newline="") as file:
        out = csv.writer(file)
        out.writerow(["member", "date", "lift", "load", "unit", "reps", "rir", "outcome", "kind", "order"])
        for number in range(YEARS * 52 * 3):
            day = first + timedelta(days=number * 7 // 3)
            for order in range(12):
                lift = LIFTS[(number + order // 4) % len(LIFTS)]
                load = 2.5 * round((60 + 40 * number / (YEARS * 156) + chance.uniform(-8, 8)) / 2.5)
                rir = chance.choice(["", 0, 1, 2, 3])
                out.writerow(["Wren", day, lift, load, "kg", chance.randint(2, 6), rir, "done", "work", order])
    log = open_log(str(folder / "log.db"))
    import_sets(log, sets)
    wren = people.members(log)[0]
    for lift in [each for each in people.lifts(log) if each.implement == "unasked"]:
        people.say_implement(log, lift.id, "barbell")
    squat = next(each for each in people.lifts(log) if each.title == "front squat, barbell")
    tested = date.today() - timedelta(days=20)
    rep_maxes.add_rep_max(log, wren.id, squat.id, tested, 3, Mass(Decimal(100), "kg"), tested=True)
    take_sheet(log, [wren.id], SHEET, date.today())
    log.close()
    return folder / "log.db"


@contextmanager
def bare(folder: Path) -> Iterator[str]:
    """Serve the two widgets as Streamlit does by itself, with no theme and nothing around them."""
    (folder / "bare.py").write_text(BARE)
    port = free_port()
    options = ["--server.headless=true", "--browser.gatherUsageStats=false", "--server.fileWatcherType=none"]
    command = [sys.executable, "-m", "streamlit", "run", "bare.py", f"--server.port={port}", *options]
    process = subprocess.Popen(command, cwd=folder, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        yield well(process, f"http://127.0.0.1:{port}")
    finally:
        process.terminate()
        process.wait(timeout=20)


def painted(context: BrowserContext, url: str, useful: str) -> float:
    """Milliseconds from asking for a page until `useful` stands on it; the browser has the scripts from before."""
    page = context.new_page()
    page.add_init_script(f"({SEEN % useful})()")
    page.goto(url)
    page.wait_for_function("window.seen", timeout=120_000)
    took = page.evaluate("window.seen")
    at_rest(page)
    page.close()
    return took


def answered(page: Page, button: str, answer: str) -> float:
    """Milliseconds from a touch until the page says what came of it."""
    took = page.evaluate(ANSWER, [button, answer])
    at_rest(page)
    return took


def test_pages_beside_a_bare_app(benchmark, ten_years, chromium, tmp_path, capsys):
    ours = serve(str(shutil.copy(ten_years, tmp_path / "log.db")))
    url = next(ours)
    with bare(tmp_path) as bare_url:
        context, other = chromium.new_context(**PHONE), chromium.new_context(**PHONE)
        today, counting = context.new_page(), other.new_page()
        for page, where in ((today, url), (counting, bare_url)):
            page.goto(where)
            at_rest(page)
        count, done = ".st-key-count button", ".st-key-log_as_asked button"
        every: dict[str, Callable[[], float]] = {
            "bare app, first paint": lambda: painted(other, bare_url, count),
            "the day page, first paint: the next set with its button": lambda: painted(
                context, f"{url}/day/", "[data-act=done]"
            ),
            "today, first paint: the next set with its button": lambda: painted(context, url, done),
            "trend, first paint: the estimate": lambda: painted(context, f"{url}/trend", ".big"),
            "trend, first paint: line and band": lambda: painted(context, f"{url}/trend", LINE),
            "trend, first paint: the whole figure": lambda: painted(context, f"{url}/trend", ".js-plotly-plot .trace"),
            "bare app, a touch": lambda: answered(counting, count, ".counted"),
            "a set, touched until saved": lambda: answered(today, done, ".over"),  # the next set
        }
        took: dict[str, list[float]] = {name: [] for name in every}

        def turn():
            for name, measure in every.items():
                took[name].append(measure())

        benchmark.pedantic(turn, rounds=TURNS, warmup_rounds=1)
        context.close()
        other.close()
    ours.close()
    middle = {name: median(values[1:]) for name, values in took.items()}
    with capsys.disabled():
        for name, found in middle.items():
            beside = middle["bare app, a touch" if "touch" in name else "bare app, first paint"]
            print(f"\n{name}: {found:.0f} ms, {found / beside:.2f} times the bare app", end="")
        print()
