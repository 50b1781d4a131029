"""Two browsers as laptop and phone, at addresses of their own: paired, used, removed and refused at once."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import PATIENCE, Browsing, Phones, at_rest, free_port, well
from tests.browser.test_access import CONTRAST, NAMELESS, SMALL, findings, fits
from tests.day import this_day
from tests.door.serving import Reached, nearby
from tests.stores import Files
from tracker.desk.base.opening import open_log
from tracker.desk.day import today
from tracker.desk.files import demo
from tracker.desk.people import people
from tracker.door.doorway import pair_link
from tracker.door.pairing import Code
from tracker.door.picture import of_page

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tracker.log.unit_of_work import Log

TINY = """() => [...document.querySelectorAll('a, button, input')].map(each => each.getBoundingClientRect())
  .filter(box => box.height < 43.5 || box.width < 44).length"""
LISTEN = """address => new Promise(resolve => {
  const socket = new WebSocket(address, ['streamlit']);
  socket.onopen = () => resolve('open');
  socket.onclose = socket.onerror = () => resolve('closed');
})"""


class Gym:
    """The demo's log, the server that phones reach, and browsers that come and go."""

    def __init__(self, phones: Phones, served: Reached, log: Log) -> None:
        self.phones, self.served, self.log = phones, served, log
        self.wren = next(each.id for each in people.members(log) if each.name == "Wren")
        self.taken: list[Browsing] = []

    def browser(self, address: str, **options: Any) -> Page:
        """Open an address in a browser with nothing in it."""
        self.taken.append(self.phones.take(options))
        page = self.taken[-1].page(address)
        page.goto(address)
        return page

    def laptop(self) -> Page:
        """Open the laptop's link, go to the devices and let it show a code."""
        link = self.served.link.partition("=")[0]
        page = self.browser(f"{link}={self.served.pairing.new_code('laptop').text}")
        at_rest(page)
        page.goto(f"http://127.0.0.1:{self.served.port}/preferences?member={self.wren}&part=devices")
        at_rest(page)
        return page

    def code(self, laptop: Page) -> str:
        laptop.get_by_role("button", name="Pair a phone").tap()
        expect(laptop.get_by_alt_text("QR picture of the link with the code")).to_be_visible()
        at_rest(laptop)  # what stood there before fades, and text on what fades has no contrast
        return laptop.locator(".st-key-pair_code .big").inner_text()

    def phone(self, address: str = "") -> Page:
        return self.browser(address or self.served.origin)

    def sets(self) -> int:
        return len(today.day_plan(self.log, self.wren, this_day()).sets)


@pytest.fixture(scope="module")
def gym_of_all(phones: Phones, shared_folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Gym]:
    expect.set_options(timeout=PATIENCE)
    database = Path(
        Files(shared_folder).copy("demo", lambda log: demo.fill(log, this_day()), tmp_path_factory.mktemp("nearby"))
    )
    log = open_log(str(database))
    with nearby(database) as served:
        yield Gym(phones, served, log)
    log.close()


@pytest.fixture
def gym(gym_of_all: Gym) -> Iterator[Gym]:
    yield gym_of_all
    while gym_of_all.taken:
        gym_of_all.phones.put_back(gym_of_all.taken.pop())
    for each in gym_of_all.served.pairing.devices():
        gym_of_all.served.pairing.remove(each.id)


def send(phone: Page, code: str, name: str = "Wren's phone") -> None:
    """Type the code and the name, and send them."""
    phone.get_by_label("Code on the laptop's screen").fill(code)
    phone.get_by_label("Name of this phone").fill(name)
    phone.get_by_role("button", name="Pair this phone").tap()


def test_pair_log_a_set_remove_and_be_refused_at_once(gym: Gym):
    laptop, phone = gym.laptop(), gym.phone()
    expect(phone.get_by_role("heading", name="Pair this phone")).to_be_visible()
    send(phone, gym.code(laptop))
    at_rest(phone)
    expect(laptop.get_by_text("Paired: Wren's phone.")).to_be_visible()  # by itself: nobody touched the laptop
    before = gym.sets()
    phone.goto(f"{gym.served.origin}/?member={gym.wren}")
    at_rest(phone)
    done = phone.get_by_role("button", name="Done: ").first
    done.tap()
    expect(phone.locator(".notice")).to_contain_text("Saved")
    assert gym.sets() == before + 1
    assert "code" not in phone.url
    (cookie,) = [each for each in phone.context.cookies() if each["name"] == gym.served.pairing.cookie]
    assert (cookie["httpOnly"], cookie["sameSite"], cookie["secure"]) == (True, "Strict", False)

    laptop.get_by_role("button", name="Remove", exact=True).first.tap()
    expect(laptop.locator(".notice")).to_contain_text("Removed: Wren's phone")
    expect(phone.get_by_role("alert")).to_contain_text("good no more")  # the open page went to the gate's by itself
    answer = phone.goto(f"{gym.served.origin}/journal?member={gym.wren}")
    assert answer is not None
    assert answer.status == 401
    assert gym.sets() == before + 1
    expect(laptop.get_by_role("button", name="Remove", exact=True)).to_have_count(0)


READABLE = """() => new Promise((resolve, reject) => {
  const asked = indexedDB.open('day', 1);
  asked.onerror = () => reject(asked.error);
  asked.onsuccess = () => {
    const found = {}, tx = asked.result.transaction(['outbox', 'sent', 'snap'], 'readonly');
    for (const name of ['outbox', 'sent', 'snap'])
      tx.objectStore(name).count().onsuccess = event => { found[name] = event.target.result; };
    tx.oncomplete = () => { asked.result.close(); resolve(found); };
  };
})"""


def test_a_phone_that_was_removed_keeps_nothing_readable_and_says_what_it_can_promise(gym: Gym):
    phone, pairing = gym.phone(), gym.served.pairing
    send(phone, pairing.new_code("phone").text)
    at_rest(phone)
    before = gym.sets()
    phone.goto(f"{gym.served.origin}/day/?member={gym.wren}")
    phone.wait_for_selector('[data-next="set"]')
    title = phone.locator("[data-next]").get_attribute("data-title") or ""
    phone.locator('[data-act="done"]').tap()
    expect(phone.locator('section[aria-labelledby="done_head"] li')).to_have_count(before + 1)
    phone.wait_for_selector('[data-kept="0"][data-state="saved"]')
    phone.context.set_offline(True)
    phone.locator('[data-act="done"]').tap()
    phone.wait_for_selector('[data-kept="1"]')
    (device,) = [each for each in pairing.devices() if each.kind == "phone"]
    pairing.remove(device.id)
    assert title in phone.inner_text("body")  # without a connection it has its plan still: nobody can take it
    phone.context.set_offline(False)
    phone.evaluate("dispatchEvent(new Event('online'))")
    expect(phone.get_by_role("heading", name="Not paired any more")).to_be_visible()
    text = phone.inner_text("body")
    assert title not in text
    assert "1 touch waits here still" in text
    assert "it had its plan still" in text
    assert phone.evaluate(READABLE) == {"outbox": 1, "sent": 0, "snap": 0}
    assert gym.sets() == before + 1
    phone.goto(gym.served.origin)
    send(phone, pairing.new_code("phone").text)
    at_rest(phone)
    phone.goto(f"{gym.served.origin}/day/?member={gym.wren}")
    phone.wait_for_selector('[data-kept="0"][data-state="saved"]')
    assert gym.sets() == before + 2  # what waited is in the log


def test_the_picture_holds_the_link_and_the_link_pairs_once(gym: Gym):
    laptop = gym.laptop()
    code = gym.code(laptop).replace(" ", "")
    link = pair_link(gym.served.origin, Code(code, gym.served.pairing.clock()))
    assert laptop.get_by_alt_text("QR picture of the link with the code").get_attribute("src") == of_page(link)
    phone, second = gym.phone(link), gym.phone(link)  # both scanned it
    expect(phone.get_by_label("Code on the laptop's screen")).to_have_value(code)
    phone.get_by_role("button", name="Pair this phone").tap()
    at_rest(phone)
    assert phone.url.startswith(f"{gym.served.origin}/?member=")  # without the code
    second.get_by_role("button", name="Pair this phone").tap()
    expect(second.get_by_role("alert")).to_contain_text("it was used")
    second.goto(gym.served.origin)
    expect(second.get_by_role("heading", name="Pair this phone")).to_be_visible()
    assert [each.name for each in gym.served.pairing.devices() if each.kind == "phone"] == ["Phone"]


def test_ten_wrong_codes_end_the_pairing_and_the_laptop_says_so(gym: Gym):
    laptop, phone = gym.laptop(), gym.phone()
    code = gym.code(laptop)
    wrong = f"{(int(code.replace(' ', '')) + 1) % 10**8:08d}"
    for left in (*range(9, 1, -1), "one"):
        send(phone, wrong)
        expect(phone.get_by_role("alert")).to_contain_text(f"{left} tr")
    send(phone, wrong)
    expect(phone.get_by_role("alert")).to_contain_text("No code is good now")
    expect(laptop.get_by_text("Ten wrong codes ended this one")).to_be_visible()
    send(phone, code)
    expect(phone.get_by_role("alert")).to_contain_text("No code is good now")
    send(phone, gym.code(laptop))
    at_rest(phone)
    expect(laptop.get_by_text("Paired: Wren's phone.")).to_be_visible()


def test_a_page_of_another_server_can_not_use_the_phones_key(gym: Gym):
    """Another port of the laptop is the same site to a browser, so that the cookie goes along: the Origin stops it."""
    phone = gym.phone()
    send(phone, gym.served.pairing.new_code("phone").shown)
    at_rest(phone)
    stream = f"ws://{gym.served.address}:{gym.served.port}/_stcore/stream"
    assert phone.evaluate(LISTEN, stream) == "open"  # from our own page it works

    class Other(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            self.send_response(200)
            self.send_header("Content-Type", "text/html")
            self.end_headers()
            self.wfile.write(b"<!doctype html><title>another</title>")

        def log_message(self, format: str, *args: object) -> None:  # noqa: A002 - its name in http.server
            """Say nothing."""

    other = ThreadingHTTPServer((gym.served.address, 0), Other)
    threading.Thread(target=other.serve_forever, daemon=True).start()
    phone.goto(f"http://{gym.served.address}:{other.server_port}/")
    assert phone.evaluate(LISTEN, stream) == "closed"
    read = "a => fetch(a, {credentials: 'include'}).then(answer => answer.text(), () => 'refused')"
    assert phone.evaluate(read, f"{gym.served.origin}/_stcore/health") == "refused"
    other.shutdown()


def test_a_phone_sees_the_list_and_no_code(gym: Gym):
    phone = gym.phone()
    send(phone, gym.served.pairing.new_code("phone").shown, "<b>Wren's</b> [x](y)")
    at_rest(phone)
    phone.goto(f"{gym.served.origin}/preferences?member={gym.wren}&part=devices")
    at_rest(phone)
    expect(phone.get_by_text("paired on the laptop's own screen")).to_be_visible()
    expect(phone.get_by_text("<b>Wren's</b> [x](y) (this one)")).to_be_visible()
    expect(phone.get_by_role("button", name="Pair a phone")).to_have_count(0)
    assert findings(phone) == []


def look_over(page: Page, small: str) -> None:
    """Look a page over in both looks and at the sizes of small phones."""
    assert findings(page) == []
    assert page.evaluate(NAMELESS) == []
    assert not page.evaluate(small)
    page.emulate_media(color_scheme="dark")
    page.wait_for_timeout(600)
    assert findings(page, CONTRAST) == [], "dark"
    for width in (390, 320):
        page.set_viewport_size({"width": width, "height": 700})
        fits(page, f"{width} px")


def test_the_gates_pages_are_read_by_everybody(gym: Gym):
    phone = gym.phone()
    look_over(phone, TINY)
    send(phone, "1234")
    expect(phone.get_by_role("alert")).to_contain_text("8 digits")
    look_over(phone, TINY)
    look_over(gym.browser(gym.served.link), TINY)  # used up or too old: it says so


def test_the_laptops_code_and_list_are_read_by_everybody_and_a_code_can_be_put_away(gym: Gym):
    laptop = gym.laptop()
    gym.code(laptop)
    look_over(laptop, SMALL)
    laptop.get_by_role("button", name="Put it away").tap()
    expect(laptop.get_by_role("button", name="Pair a phone")).to_be_visible()
    assert gym.served.pairing.code_state() is None


@pytest.fixture
def open_to_all(gym: Gym, tmp_path: Path) -> Iterator[str]:
    """A server that was started past the program, on every address."""
    port, script = free_port(), tmp_path / "past.py"
    script.write_text("from tracker.app import main\n\nmain()\n")
    settings = {
        "server.address": "0.0.0.0", "server.port": port, "server.headless": "true", "browser.gatherUsageStats": "false",
        "server.fileWatcherType": "none", "logger.hideWelcomeMessage": "true",
    }  # fmt: skip
    command = [
        sys.executable,
        "-m",
        "streamlit",
        "run",
        script,
        *(f"--{key}={value}" for key, value in settings.items()),
    ]
    given = os.environ | {"TIDEMARK_DATABASE": str(gym.log.url.database)}
    process = subprocess.Popen(command, env=given, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        yield well(process, f"http://{gym.served.address}:{port}")
    finally:
        process.terminate()
        process.wait(timeout=20)


def test_a_server_that_was_started_past_the_gate_shows_other_machines_nothing(gym: Gym, open_to_all: str):
    page = gym.browser(open_to_all, extra_http_headers={"tidemark-visitor": f"{'0' * 32} laptop x -"})
    expect(page.get_by_text("lets other machines in without a key")).to_be_visible()
    at_rest(page)
    assert "Wren" not in page.inner_text("body")
    here = gym.browser(
        open_to_all.replace(gym.served.address, "127.0.0.1")
    )  # else nothing would have been shown at all
    expect(here.get_by_text("Wren").first).to_be_visible()
