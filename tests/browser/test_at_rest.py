"""Waiting until a page is at rest, by a socket that says what it is told to."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest
from streamlit.proto.BackMsg_pb2 import BackMsg
from streamlit.proto.ForwardMsg_pb2 import ForwardMsg

from tests.browser.conftest import WATCHED, at_rest

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

PAGE = '<div data-testid="stApp" data-test-script-state="notRunning"><button>Done</button></div>'
SOCKET = "() => { window.WebSocket = class extends EventTarget { send() {} }; }"
PLUGGED = """() => {
  window.socket = new WebSocket();
  window.said = name => {
    if (name === 'asked') return socket.send(new Uint8Array(messages.asked));
    const data = new Uint8Array(messages[name]).buffer;
    socket.dispatchEvent(new MessageEvent('message', {data}));
  };
}"""


def messages() -> dict[str, list[int]]:
    asked, begun, drawn = BackMsg(), ForwardMsg(hash="a" * 200), ForwardMsg(hash="b")
    asked.rerun_script.query_string = "member=1"
    begun.metadata.cacheable = True
    begun.new_session.name = "today"
    drawn.delta.new_element.text.body = "Done"
    ended = {name: ForwardMsg(script_finished=value) for name, value in ForwardMsg.ScriptFinishedStatus.items()}
    made = {"asked": asked, "begun": begun, "drawn": drawn, **ended}
    return {name: list(each.SerializeToString()) for name, each in made.items()}


@pytest.fixture
def page(chromium: Browser) -> Iterator[Page]:
    """A page whose first run has ended."""
    page = chromium.new_page()
    page.set_content(PAGE)
    page.evaluate(SOCKET)
    page.evaluate(WATCHED)
    page.evaluate("given => { window.messages = given; }", messages())
    page.evaluate(PLUGGED)
    page.evaluate("() => ['asked', 'begun', 'drawn', 'FINISHED_SUCCESSFULLY'].forEach(said)")
    at_rest(page)
    yield page
    page.close()


def test_a_run_is_waited_for_though_the_end_of_the_one_before_is_heard_after_it_was_asked_for(page: Page):
    page.evaluate("() => { said('begun'); said('asked'); said('drawn'); said('FINISHED_EARLY_FOR_RERUN'); }")
    page.evaluate(
        "() => { setTimeout(() => { window.came = true; said('begun'); said('FINISHED_SUCCESSFULLY'); }, 600); }"
    )
    at_rest(page)
    assert page.evaluate("() => window.came") is True


def test_a_run_is_waited_for_until_it_has_ended(page: Page):
    page.evaluate("() => { said('asked'); said('begun'); said('drawn'); }")
    page.evaluate(
        "() => { setTimeout(() => { window.came = true; said('FINISHED_FRAGMENT_RUN_SUCCESSFULLY'); }, 600); }"
    )
    at_rest(page)
    assert page.evaluate("() => window.came") is True


def test_what_a_busy_browser_has_yet_to_send_is_waited_for(page: Page):
    page.evaluate("""() => document.querySelector('button').addEventListener('click', () => setTimeout(() => {
      for (const until = performance.now() + 500; performance.now() < until;);
      setTimeout(() => { window.sent = true; said('asked'); said('begun'); said('FINISHED_SUCCESSFULLY'); });
    }))""")
    page.get_by_role("button").click()
    at_rest(page)
    assert page.evaluate("() => window.sent") is True


def test_what_asks_for_no_run_is_not_waited_for(page: Page):
    page.get_by_role("button").click()
    page.evaluate("() => socket.send('ping')")
    at_rest(page)
    assert page.evaluate("() => tidemarkSeen.owed") == 0


def test_a_run_that_was_asked_of_a_lost_server_is_not_waited_for(page: Page):
    page.evaluate("() => { said('asked'); socket.dispatchEvent(new Event('close')); }")
    at_rest(page)
    assert page.evaluate("() => tidemarkSeen.owed") == 0
