"""With reduced motion asked for, nothing of the page's style moves; what a script of Streamlit's moves is named here."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.browser.conftest import Phone, Served, at_rest
from tests.browser.test_main_job import tap

if TYPE_CHECKING:
    from playwright.sync_api import Page

# Streamlit opens an expander by a script of its own (element.animate), which no style sheet reaches.
UPSTREAM = {"script on stExpander"}
WATCH = """() => {
  window.moved = new Set();
  const look = () => {
    const ours = document.querySelector('.st-key-frame_member');  // until then Streamlit's own page stands there
    for (const each of ours ? document.getAnimations() : []) {
      const target = each.effect?.target;
      const what = each.animationName || each.transitionProperty || 'script';
      if (each.playState === 'running') window.moved.add(`${what} on ${target?.closest('[data-testid]')?.dataset.testid}`);
    }
    requestAnimationFrame(look);
  };
  look();
}"""


def moved(page: Page) -> set[str]:
    """Touch what moves most, and return what moved."""
    page.evaluate(WATCH)
    tap(page, "Change it")
    page.locator("summary").first.tap()
    page.wait_for_timeout(500)
    page.get_by_role("button", name="More", exact=True).tap()
    page.wait_for_timeout(700)
    return set(page.evaluate("[...window.moved]"))


@pytest.mark.parametrize("asked", ["reduce", "no-preference"])
def test_nothing_moves_for_those_who_ask_for_that(served: Served, phone: Phone, asked: str):
    page = phone(f"{served.url}/?member={served.members['Wren']}", reduced_motion=asked)
    at_rest(page)
    seen = moved(page)
    if asked == "reduce":
        assert seen - UPSTREAM == set()
    else:
        assert seen - UPSTREAM, "the test would not see a thing that moves"
