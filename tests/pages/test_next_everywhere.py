"""The same answer to what is next on every page that says it, in every situation of a training day."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from html import unescape
from typing import TYPE_CHECKING, Any
from urllib.parse import parse_qs, urlsplit

import pytest
from streamlit.testing.v1 import AppTest

from tests.browser.conftest import PHONE
from tests.pages.conftest import Open, cards
from tests.situations import SITUATIONS, Gym, Situation
from tracker.pocket.plan import plan_of
from tracker.pocket.routes import served

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Route

MARK = re.compile(r'<div data-next="([a-z]+)" data-title="([^"]*)">')
AT = "http://day.test"  # nothing answers there: the test itself does
SAID = """name => document.querySelector('.who')?.textContent === name && (() => {
  const next = [...document.querySelectorAll('[data-next]')].map(each => [each.dataset.next, each.dataset.title]);
  const listed = name => [...document.querySelectorAll(`section[aria-labelledby="${name}_head"] .session b`)].map(each => each.textContent);
  return {next, head: document.querySelector('.head h1').textContent, missed: listed('missed'), ahead: listed('ahead')};
})()"""


def said(at: AppTest) -> list[tuple[str, str]]:
    """All that a page marks as what is next."""
    texts = [each.proto.body for each in at.get("html")]
    drawn = [(each["next"], each["title"]) for each in cards(at)]
    return [*drawn, *((kind, unescape(title)) for text in texts for kind, title in MARK.findall(text))]


@pytest.mark.parametrize("situation", SITUATIONS, ids=lambda each: each.name)
def test_each_page_says_once_what_is_next(in_situation: Callable[[Situation], Gym], show: Open, situation: Situation):
    gym = in_situation(situation)
    for page in ("today", "conditioning", "weights"):
        assert said(show(gym.log, page, gym.who)) == [(situation.kind, situation.title)], page


def test_the_day_page_says_once_what_is_next(in_situation: Callable[[Situation], Gym], chromium: Browser):
    files = served('<svg viewBox="0 0 1 1"></svg>')
    now: dict[str, Any] = {}

    def answer(route: Route) -> None:
        at = urlsplit(route.request.url)
        name = at.path.removeprefix("/day/")
        if name == "api/plan":
            day = date.fromisoformat(parse_qs(at.query)["day"][0])
            gym, situation = now["gym"], now["situation"]
            said = plan_of(gym.log, gym.who, day)
            # One phone, one member: the name alone says which situation the page has drawn.
            route.fulfill(
                json={
                    **said,
                    "member": {**said["member"], "id": "ana", "name": situation.name},
                    "members": [],
                    "sign_in": False,
                }
            )
        elif name in files:
            kind, body, _ = files[name]
            route.fulfill(body=body, content_type=kind)
        else:
            route.abort()

    with chromium.new_context(**PHONE) as context:
        context.route("**/*", answer)
        page = context.new_page()
        differ: list[tuple[str, Any, Any]] = []
        for situation in SITUATIONS:
            now.update(gym=in_situation(situation), situation=situation)
            if page.url == "about:blank":
                page.goto(f"{AT}/day/")
            else:
                page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
            said = page.wait_for_function(SAID, arg=situation.name).json_value()
            wanted = {
                "next": [[situation.kind, situation.title]],
                "head": situation.session or said["head"],
                "missed": list(situation.missed),
                "ahead": [situation.planned] if situation.planned else [],
            }
            if said != wanted:
                differ.append((situation.name, said, wanted))
        assert differ == []
