"""A real server over a log of its own, and a real Chromium as a phone with touch."""

from __future__ import annotations

import json
import os
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Iterable, Iterator
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import urlsplit

import pytest
from streamlit.proto.BackMsg_pb2 import BackMsg
from streamlit.proto.ForwardMsg_pb2 import ForwardMsg

from tests import kept, selection
from tests.browser.servers import Forked, Mother, forked
from tests.day import this_day
from tests.stores import Store, one_at_a_time
from tracker.desk.base.opening import open_log
from tracker.desk.files import demo
from tracker.desk.people import people, places
from tracker.log.unit_of_work import Log

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page

    from tests.browser.day_phone import Gym

PHONE = {"viewport": {"width": 390, "height": 844}, "is_mobile": True, "has_touch": True, "reduced_motion": "reduce"}
PATIENCE = 20_000  # ms for something to appear: the machine may be busy with other tests
LOOK_MS = 30  # between two looks: else a page that waits is drawn anew sixty times a second
RESTING = '[data-testid="stApp"][data-test-script-state="notRunning"]'
OWN_HOST = "127.0.0.1"
ANSWERS = ForwardMsg.DESCRIPTOR.fields_by_name
NUMBERS = {  # of messages, as Streamlit has them
    "RERUN": BackMsg.DESCRIPTOR.fields_by_name["rerun_script"].number,
    "HEADS": max(ANSWERS[name].number for name in ("hash", "metadata")),
    "NEW_SESSION": ANSWERS["new_session"].number,
    "SCRIPT_FINISHED": ANSWERS["script_finished"].number,
    "EARLY": ForwardMsg.ScriptFinishedStatus.Value("FINISHED_EARLY_FOR_RERUN"),
}
WATCHED = """(({RERUN, HEADS, NEW_SESSION, SCRIPT_FINISHED, EARLY}) => {
  // What was done last, what of it the socket sent, and what the server made of that.
  const now = () => performance.now();
  const seen = window.tidemarkSeen = {acted: 0, last: 0, runs: 0, owed: 0, running: false, idle: 0, looking: false};
  for (const kind of ['pointerdown', 'mousedown', 'touchstart', 'keydown', 'click', 'input', 'change'])
    addEventListener(kind, () => { seen.acted = now(); }, {capture: true, passive: true});
  // Both ways a message is one field of Streamlit's, and its number comes first, but for hash and metadata of an answer.
  const number = (bytes, at) => {
    let value = 0, shift = 0;
    do { value += (bytes[at] & 127) * 2 ** shift; shift += 7; } while (bytes[at++] & 128);
    return [value, at];
  };
  const told = (data, skipped) => {
    const bytes = data instanceof ArrayBuffer ? new Uint8Array(data) : data;
    let at = 0, key, value;
    while (at < bytes.length) {
      [key, at] = number(bytes, at);
      [value, at] = number(bytes, at);
      if (key >> 3 > skipped) return [key >> 3, value];
      if ((key & 7) === 2) at += value;
    }
    return [0, 0];
  };
  window.WebSocket = class extends WebSocket {
    constructor(...given) {
      super(...given);
      this.addEventListener('message', event => {
        const [kind, value] = typeof event.data === 'string' ? [0, 0] : told(event.data, HEADS);
        if (kind === NEW_SESSION) { seen.runs += 1; seen.owed = 0; seen.running = true; }
        if (kind === SCRIPT_FINISHED) { seen.running = false; if (value === EARLY) seen.owed = now(); }
        seen.last = now();
      });
      this.addEventListener('close', () => { seen.owed = 0; seen.running = false; });
    }
    send(data) {
      if (typeof data !== 'string' && told(data, 0)[0] === RERUN) seen.owed = now();
      seen.last = now();
      super.send(data);
    }
  };
})(NUMBERS)""".replace("NUMBERS", json.dumps(NUMBERS))
AT_REST = """() => {
  const app = document.querySelector('[data-testid="stApp"][data-test-script-state="notRunning"]');
  if (!app || document.querySelector('[data-stale="true"], [data-testid="stSkeleton"]')) return false;
  const seen = window.tidemarkSeen, now = performance.now();
  if (!seen) return now - window.tidemarkAsked > 150;
  if (!seen.runs || seen.running || (seen.owed && now - seen.owed < 10000)) return false;
  const since = Math.max(seen.acted, seen.last, window.tidemarkAsked);
  if (seen.idle >= since) return true;
  if (!seen.looking) {  // what an act has yet to send, and an answer to draw, comes before what is asked of an idle browser
    const idle = next => scheduler.postTask(next, {priority: 'background'});
    seen.looking = true;
    idle(() => setTimeout(() => idle(() => { seen.looking = false; seen.idle = now; })));
  }
  return false;
}"""
STILL = """() => new Promise(resolve => {
  const began = performance.now();
  let changed = began, before = '';
  const watch = new MutationObserver(() => { changed = performance.now(); });
  watch.observe(document, {subtree: true, childList: true, attributes: true, characterData: true});
  const look = () => {
    const now = performance.now(), main = document.querySelector('[data-testid="stMain"]') || document.body;
    const boxes = [...main.querySelectorAll('*')].map(each => each.getBoundingClientRect());
    const said = boxes.map(box => `${box.x},${box.y},${box.width},${box.height}`).join();
    if (said !== before || document.getAnimations().some(each => each.playState === 'running')) changed = now;
    before = said;
    if (now - changed > 120 || now - began > 3000) { watch.disconnect(); resolve(); } else setTimeout(look, 30);
  };
  look();
})"""
Phone = Callable[..., "Page"]
Serving = Callable[[str], AbstractContextManager["Running"]]


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if Path(__file__).parent in item.path.parents:
            item.add_marker(pytest.mark.browser)


@dataclass(frozen=True)
class Served:
    """A server, the log that it serves (opened here as well), and who is in it."""

    url: str
    log: Log
    members: dict[str, str]
    process: int = 0


@dataclass(frozen=True)
class Running:
    """A server: its address, and the number of its process."""

    url: str
    process: int


@dataclass
class Browsing:
    """What a person has open on one device, and all that its pages have asked for."""

    context: BrowserContext
    options: str
    asked: list[str] = field(default_factory=list)
    anchor: Page | None = None

    def page(self, url: str) -> Page:
        """Return an empty page for this server.

        It comes from a page that stays, so that the browser gives both one process, which keeps what it has compiled.
        """
        origin = "{0.scheme}://{0.netloc}".format(urlsplit(url))
        anchor = self.anchor
        if anchor and not anchor.url.startswith(f"{origin}/"):
            anchor.close()
            anchor = None
        if anchor is None:
            anchor = self.anchor = self.context.new_page()
            anchor.goto(f"{origin}/_stcore/health")
        with self.context.expect_page() as opened:
            anchor.evaluate("() => { window.open('about:blank').opener = null; }")
        return opened.value


class Phones:
    """Browsers that have nothing in them but the program's scripts.

    The next test gets one that another has put back, emptied of cookies and of all that pages keep: a new one would
    fetch and compile the program's scripts once more, which takes longer than most tests.
    """

    def __init__(self, chromium: Browser) -> None:
        self.chromium = chromium
        self.idle: list[Browsing] = []

    def take(self, options: dict[str, object]) -> Browsing:
        wanted = {**PHONE, **options}
        name = repr(sorted(wanted.items(), key=lambda each: each[0]))
        found = next((each for each in self.idle if each.options == name), None)
        if found:
            self.idle.remove(found)
            return found
        context = self.chromium.new_context(**wanted)  # type: ignore[arg-type]
        context.set_default_timeout(30_000)
        context.add_init_script(WATCHED)
        made = Browsing(context, name)
        context.on("request", lambda request: made.asked.append(request.url))
        return made

    def put_back(self, used: Browsing) -> None:
        origins = {f"{each.scheme}://{each.netloc}" for each in map(urlsplit, used.asked) if each.netloc}
        kept = used.anchor or used.context.new_page()
        for page in used.context.pages:
            if page is not kept:
                page.close()
        cleaner = used.context.new_cdp_session(kept)
        for origin in origins:
            cleaner.send("Storage.clearDataForOrigin", {"origin": origin, "storageTypes": "all"})
        used.context.clear_cookies()
        used.context.clear_permissions()
        cleaner.detach()
        used.anchor = kept
        used.asked.clear()
        self.idle.append(used)

    def close(self) -> None:
        for each in self.idle:
            each.context.close()


def elsewhere(asked: Iterable[str]) -> set[str]:
    """Return what was asked of another machine than this one."""
    parts = {url: urlsplit(url) for url in asked}
    return {url for url, each in parts.items() if each.scheme not in ("data", "blob") and each.hostname != OWN_HOST}


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def is_free(port: int) -> bool:
    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)  # as a server does
        try:
            probe.bind(("127.0.0.1", port))
        except OSError:
            return False
    return True


def well(process: subprocess.Popen[bytes] | Forked, url: str) -> str:
    """Wait until a server that was started is well, and return its address."""
    latest = time.monotonic() + 60
    while time.monotonic() < latest:
        try:
            urllib.request.urlopen(f"{url}/_stcore/health", timeout=2).read()
            break
        except (urllib.error.URLError, OSError):
            assert process.poll() is None, "the server ended before it began"
            time.sleep(0.05)
    return url


def serve(database: str | Path) -> Iterator[str]:
    """Start a server in a process of its own, wait until it is well, and stop it at the end."""
    port = free_port()
    code = f"from tracker.app import run; run({str(database)!r}, port={port}, browser=False)"
    process = subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        yield well(process, f"http://127.0.0.1:{port}")
    finally:
        process.terminate()
        process.wait(timeout=20)


@pytest.fixture(scope="session")
def mother(store: Store, shared_folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Mother | None]:
    """The process that servers are forked from, one for all processes of a run: importing everything takes seconds."""
    if not hasattr(os, "fork"):
        yield None
        return
    if kept.NOTHING:
        made = Mother()
    else:
        with one_at_a_time(shared_folder / "mother.making"):
            made = Mother.of_all(shared_folder)
            if not (selection.ON_SERVER or made.ask(do="is warm")):
                shown = store.copy("demo", lambda log: demo.fill(log, this_day()), tmp_path_factory.mktemp("shown"))
                assert made.ask(do="warm", database=shown) == 1, "threads that a fork would lose"
    yield made
    made.close()


@pytest.fixture(scope="session")
def serving(mother: Mother | None) -> Serving:
    """Serve a log: `with serving(database) as server`; see tests/browser/servers.py for the process."""
    ports: list[int] = []  # that are free again: a browser still has the scripts that it got from there

    @contextmanager
    def forks(database: str) -> Iterator[Running]:
        assert mother
        port = next((each for each in ports if is_free(each)), 0)
        if port:
            ports.remove(port)
        port = port or free_port()
        with forked(mother, str(database), port) as server:
            yield Running(well(server, f"http://127.0.0.1:{port}"), server.pid)
        ports.insert(0, port)

    @contextmanager
    def starts(database: str) -> Iterator[Running]:
        for url in serve(database):
            yield Running(url, 0)

    return forks if mother else starts


@contextmanager
def opened_and_served(serving: Serving, database: str) -> Iterator[Served]:
    """Serve a log that is opened here as well."""
    log = open_log(database)
    members = {each.name: each.id for each in people.members(log)}
    with serving(database) as server:
        yield Served(server.url, log, members, server.process)
    log.close()


@pytest.fixture(scope="module")
def served(
    chromium: Browser, serving: Serving, store: Store, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Served]:
    """The demo, served; one copy for each file of tests."""
    database = store.copy("demo", lambda log: demo.fill(log, this_day()), tmp_path_factory.mktemp("served"))
    with opened_and_served(serving, database) as found:
        yield found
    store.drop(database)


@pytest.fixture
def own(chromium: Browser, serving: Serving, fresh: Callable[..., str]) -> Iterator[Served]:
    """The demo for one test alone."""
    with opened_and_served(serving, fresh("demo")) as found:
        yield found


@pytest.fixture
def empty(chromium: Browser, serving: Serving, fresh: Callable[..., str]) -> Iterator[Served]:
    """An empty log, served."""
    with opened_and_served(serving, fresh()) as found:
        yield found


@pytest.fixture
def alone(empty: Served) -> Served:
    """A log with one member and a place, and nothing else in it."""
    member = people.add_member(empty.log, "Noa")
    people.go_to_place(empty.log, member.id, places.add_place(empty.log, "Loft", "kg").id)
    return replace(empty, members={"Noa": member.id})


@pytest.fixture
def gym(mother: Mother, store: Store, tmp_path: Path) -> Iterator[Gym]:
    from tests.browser.day_phone import Gym

    made = Gym(str(store.copy("demo", lambda log: demo.fill(log, this_day()), tmp_path)), mother)
    made.start()
    yield made
    made.kill()
    store.drop(made.database)


@pytest.fixture
def log(gym: Gym) -> Iterator[Log]:
    """The log of the gym, opened here beside its server."""
    made = open_log(gym.database)
    yield made
    made.close()


@pytest.fixture(scope="session")
def phones(chromium: Browser) -> Iterator[Phones]:
    """The phones of this process of the run."""
    made = Phones(chromium)
    yield made
    made.close()


@pytest.fixture
def phone(phones: Phones) -> Iterator[Phone]:
    """Open a page as a phone would: `phone(url)`; a second call is a second phone.

    Whatever its pages do, they ask nothing of another machine: each test that has a phone holds that.
    """
    from playwright.sync_api import expect

    expect.set_options(timeout=PATIENCE)
    taken: list[Browsing] = []

    def opened(url: str, **options: object) -> Page:
        taken.append(phones.take(options))
        page = taken[-1].page(url)
        page.goto(url)
        at_rest(page)
        return page

    yield opened
    asked = [url for each in taken for url in each.asked]
    for each in taken:
        phones.put_back(each)
    assert not taken or asked, "nothing was noticed of what the pages asked for"
    assert elsewhere(asked) == set()


def at_rest(page: Page) -> None:
    """Wait until the script has run for what was done last, and nothing is stale.

    What is done on a page reaches the server a little later, and until its answer begins the page seems at rest. No length
    of time would do for that on a busy machine: once the browser is idle nothing is on its way out, each run that was
    asked for has begun and ended by what the socket heard, and what came of it is drawn once the browser is idle again.
    """
    page.wait_for_selector(RESTING, timeout=60_000)
    page.evaluate("() => { window.tidemarkAsked = performance.now(); }")
    page.wait_for_function(AT_REST, timeout=60_000, polling=LOOK_MS)


def still(page: Page) -> None:
    """Wait until nothing of the page is made, moved or resized any more."""
    page.evaluate(STILL)


def violations(page: Page, **options: object) -> list[dict[str, Any]]:
    """Return the rules that axe-core finds broken; a page is given it once, and of what it says only these come back."""
    from axe_playwright_python.sync_playwright import Axe

    if not page.evaluate("() => 'axe' in window"):
        page.evaluate(Axe().axe_script)
    return page.evaluate(
        "options => axe.run(options).then(found => found.violations)", {"resultTypes": ["violations"], **options}
    )
