"""Script, markup and addresses in every text field: shown as they were typed, run by nothing, asking nobody."""

from __future__ import annotations

import threading
import urllib.request
from collections.abc import Iterator
from decimal import Decimal
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import TYPE_CHECKING

import pytest

from tests.browser.conftest import Phone, Served, Serving, at_rest
from tests.day import this_day
from tests.stores import Store
from tracker.app import PAGES
from tracker.desk.base.opening import open_log
from tracker.desk.day import log_set, session_said
from tracker.desk.history import journal
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import kit, people, places
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.conditioning import Said
from tracker.desk.sheet import sheets
from tracker.log.sets import NewSet
from tracker.units import Mass

if TYPE_CHECKING:
    from playwright.sync_api import Browser

ELEMENT = '<img src=x onerror="owned=1">'
SCRIPT = "<script>window.owned=1</script>'; DROP TABLE sets; --"
LINK = "[tap](javascript:owned=1)"
PROBE = """() => ({
  owned: window.owned === undefined ? null : window.owned,
  images: [...document.images].map(e => e.src).filter(s => s.endsWith('/x')),
  links: [...document.links].map(e => e.href).filter(h => h.startsWith('javascript:')),
  scripts: [...document.scripts].filter(e => e.textContent.includes('owned')).length,
  errors: [...document.querySelectorAll('[data-testid="stException"]')].map(e => e.innerText),
})"""
SHEET_LINE = "Front squat, barbell, % of 3RM, rest 3:00\n1 x 5 @ 70 %\n"
CLEAN = {"owned": None, "images": [], "links": [], "scripts": 0, "errors": []}


class Elsewhere:
    """Another server, which counts who asks it for anything."""

    def __init__(self) -> None:
        self.asked: list[str] = []
        asked = self.asked

        class Answer(BaseHTTPRequestHandler):
            def do_GET(self) -> None:
                asked.append(self.path)
                self.send_response(200)
                self.end_headers()
                self.wfile.write(b"noticed")

            def log_message(self, format: str, *args: object) -> None:  # noqa: A002 - its name in http.server
                """Say nothing."""

        self.server = ThreadingHTTPServer(("127.0.0.1", 0), Answer)
        threading.Thread(target=self.server.serve_forever, daemon=True).start()

    def image(self, name: str) -> str:
        """Write an image of this server in markdown."""
        return f"![a](http://127.0.0.1:{self.server.server_port}/{name}.png)"


@pytest.fixture(scope="module")
def elsewhere() -> Iterator[Elsewhere]:
    made = Elsewhere()
    yield made
    made.server.shutdown()


@pytest.fixture(scope="module")
def hostile(
    chromium: Browser,
    elsewhere: Elsewhere,
    serving: Serving,
    store: Store,
    tmp_path_factory: pytest.TempPathFactory,
) -> Iterator[Served]:
    """A log whose every text is an attack, served."""
    database, image = store.copy("empty", None, tmp_path_factory.mktemp("hostile")), elsewhere.image
    log = open_log(database)
    member = people.add_member(log, image("member"))
    people.add_member(log, ELEMENT)
    place = places.add_place(log, image("place"), "kg")
    people.go_to_place(log, member.id, place.id)
    lifts = [people.add_lift(log, text, "barbell") for text in (image("lift"), SCRIPT[:60], LINK)]
    people.add_lift(log, ELEMENT, "unasked")
    today, row = this_day(), None
    for number, lift in enumerate(lifts):
        for reps in (3, 5):
            load, note = Mass(Decimal(60 + number), "kg"), f"{image('note')} {SCRIPT} {ELEMENT}"
            row = log_set.log_set(log, member.id, today, NewSet(lift.id, load, reps, rir=Decimal(2), note=note))
        rep_maxes.add_rep_max(log, member.id, lift.id, today, 3, Mass(Decimal(80), "kg"), tested=True)
    assert row is not None
    journal.leave_out(log, row.id, f"{image('reason')} {ELEMENT}")
    session_said.rate_session(log, row.session_id, member.id, rating=6, minutes=60, note=f"{image('day')} {SCRIPT}")
    piece = f"Piece: {image('piece')}\nas many reps as possible in 12:00\n10 kettlebell swing"
    scored = conditioning.add_piece_in_words(log, piece, member.id)
    said = Said("40", note=f"{image('score')} {SCRIPT} {ELEMENT}")
    conditioning.log_score(log, member.id, scored.id, today, said)
    item = kit.read_item("disc", "5", "4", ELEMENT, "kg")
    kit.put_item(log, place.id, item, member.id)
    sheet = f"Title: {ELEMENT}\nWeek 1, day 1: {LINK}\nWarm-up: {image('sheet')} {ELEMENT}\n\n{SHEET_LINE}"
    sheets.take_sheet(log, [member.id], sheet, today)
    with serving(database) as server:
        yield Served(server.url, log, {"member": member.id})
    log.close()


def test_attacks_in_texts_are_shown_and_do_nothing(hostile: Served, elsewhere: Elsewhere, phone: Phone):
    opened = phone(hostile.url)
    for page, _ in PAGES:
        opened.goto(f"{hostile.url}/{page}?member={hostile.members['member']}")
        at_rest(opened)
        opened.get_by_text(elsewhere.image("member"), exact=True).first.wait_for()  # shown sign by sign
        at_rest(opened)
        assert opened.evaluate(PROBE) == CLEAN, page
    assert elsewhere.asked == []
    opened.goto(f"http://127.0.0.1:{elsewhere.server.server_port}/noticed")
    assert elsewhere.asked[0] == "/noticed"  # it would have noticed


def test_attacks_in_a_file_that_is_brought_are_shown_as_they_stand(hostile: Served, elsewhere: Elsewhere, phone: Phone):
    opened = phone(f"{hostile.url}/files?member={hostile.members['member']}")
    heading, cell = elsewhere.image("heading"), elsewhere.image("cell")
    rows = "".join(f'2026-03-0{day},"{LINK}",40,kg,5,"{cell}"\n' for day in (2, 4, 6))
    content = f'date,lift,load,unit,reps,"{heading}"\n{rows}'.encode()
    opened.set_input_files("input[type=file]", {"name": "<b>x</b>.csv", "mimeType": "text/csv", "buffer": content})
    opened.get_by_text("Which column is which").wait_for()
    at_rest(opened)
    opened.get_by_text(LINK, exact=True).first.wait_for()
    assert opened.evaluate(PROBE) == CLEAN
    assert not [asked for asked in elsewhere.asked if "heading" in asked or "cell" in asked]


def test_the_browser_may_load_from_this_server_only(hostile: Served, elsewhere: Elsewhere, phone: Phone):
    opened = phone(hostile.url)
    address = f"http://127.0.0.1:{elsewhere.server.server_port}/fetched"
    assert opened.evaluate("a => fetch(a, {mode: 'no-cors'}).then(() => 'sent', () => 'refused')", address) == "refused"
    with urllib.request.urlopen(hostile.url) as answer:
        assert "default-src 'self'" in answer.headers["content-security-policy"]
        assert answer.headers["referrer-policy"] == "no-referrer"
    assert "/fetched" not in elsewhere.asked


def test_a_forged_member_in_the_address_shows_nobody_else(hostile: Served, phone: Phone):
    opened = phone(hostile.url)
    for forged in ("' OR 1=1 --", "<script>owned=1</script>" + "0" * 5000):
        opened.goto(f"{hostile.url}/journal?member={forged}")
        at_rest(opened)
        assert opened.evaluate(PROBE) == CLEAN
        assert opened.locator("h1").inner_text() == "Journal"
