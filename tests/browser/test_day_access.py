"""The day page for everybody: axe, keys alone, narrow, large and dark."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import violations
from tests.browser.day_phone import Gym, act, done_today, kept, next_is, opened, phone_of

if TYPE_CHECKING:
    from playwright.sync_api import Browser


def test_axe_keys_narrow_large_and_dark(gym: Gym, chromium: Browser):
    with phone_of(chromium, viewport={"width": 320, "height": 700}) as context:
        page = opened(context, gym.url)

        def look() -> None:
            for scheme in ("light", "dark"):
                page.emulate_media(color_scheme=scheme, reduced_motion="reduce")  # type: ignore[arg-type]
                found = violations(page)
                assert [(each["id"], [node["html"] for node in each["nodes"]]) for each in found] == []
            assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), "it scrolls sideways"
            small = page.evaluate(SMALL)
            assert small == [], small

        look()
        page.locator("#menu").tap()
        look()
        page.locator("#menu").tap()
        act(page, "change")
        look()
        page.locator("#load_less").tap()
        act(page, "done")
        done_today(page, 1)
        expect(page.locator("#carry")).to_be_visible()  # the way back from a load that was lowered
        look()
        page.locator("#free summary").tap()
        page.locator("#free_lift").select_option(index=1)  # of the lift just done the same again takes one touch
        page.locator("#free_log").tap()
        expect(page.locator("#free_log")).to_contain_text("Yes, log")
        look()
        page.locator("#free summary").tap()
        act(page, "undo")
        done_today(page, 0)
        act(page, "change")
        act(page, "missed")
        look()
        page.locator('[data-reps="2"]').tap()
        done_today(page, 1)
        look()
        for count in range(2, 6):
            act(page, "done")
            done_today(page, count)
        next_is(page, "piece")
        act(page, "start")
        page.locator('[data-finished="3"]').tap()
        look()
        act(page, "stop")
        act(page, "score")
        next_is(page, "rating")
        page.locator('[data-rating="6"]').tap()
        look()


SMALL = """() => [...document.querySelectorAll('button, a, input:not([type=file]), select, summary')]
  .filter(each => each.checkVisibility()).map(each => [each, each.getBoundingClientRect()])
  .filter(([each, box]) => box.height < 47.5 || (each.tagName === 'BUTTON' && box.width < 47.5)).map(([each]) => each.outerHTML)"""


def test_keys_alone_log_a_set_and_a_miss(gym: Gym, chromium: Browser):
    with phone_of(chromium, has_touch=False, is_mobile=False) as context:
        page = opened(context, gym.url)

        def to(found: Callable[[str], bool]) -> None:
            for _ in range(60):
                page.keyboard.press("Tab")
                html = page.evaluate("document.activeElement.outerHTML.slice(0, 200)")
                if found(html):
                    assert page.evaluate("getComputedStyle(document.activeElement).outlineStyle") != "none"
                    return
            raise AssertionError("no key leads there")

        to(lambda html: 'data-act="done"' in html)
        page.keyboard.press("Enter")
        done_today(page, 1)
        assert page.evaluate("document.activeElement.id") == "done"  # the hand stays where it was
        to(lambda html: 'data-act="missed"' in html)
        page.keyboard.press("Space")
        page.keyboard.press("Enter")
        done_today(page, 2)
        kept(page, 0)
    assert [(row.outcome, row.reps) for row in gym.day("Wren")[0].sets] == [("done", 4), ("missed", 3)]


# A phone makes its window as wide as what is drawn: what is too wide is found by that, not by a scroll bar.
TOO_WIDE = """() => innerWidth > screen.width ? [...document.querySelectorAll('#top *, main *')]
  .filter(each => each.getBoundingClientRect().right > screen.width + 1).map(each => each.outerHTML.slice(0, 120)) : []"""
IN_SIGHT = """() => {
  scrollTo(0, 0);
  const done = document.querySelector('#done'), box = done.getBoundingClientRect();
  return box.bottom <= innerHeight && done.contains(document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2));
}"""


@pytest.mark.parametrize("wide", [390, 320])
def test_text_of_twice_the_size_fits_and_what_is_next_is_done_in_the_first_screen(
    gym: Gym, chromium: Browser, wide: int
):
    with phone_of(chromium, viewport={"width": wide, "height": 844}, screen={"width": wide, "height": 844}) as context:
        context.add_init_script(
            "addEventListener('DOMContentLoaded', () => { document.documentElement.style.fontSize = '212.5%'; })"
        )
        page = opened(context, gym.url)
        assert page.evaluate(IN_SIGHT)
        expect(page.locator("#warm")).to_be_hidden()
        page.locator("#warm_box summary").tap()
        expect(page.locator("#warm")).to_be_visible()
        act(page, "change")
        assert page.evaluate(TOO_WIDE) == []
        page.locator("#close").tap()
        for count in range(1, 6):
            act(page, "done")
            done_today(page, count)
            assert count == 5 or page.evaluate(IN_SIGHT)
            assert page.evaluate(TOO_WIDE) == []
        act(page, "start")
        expect(page.locator("#clock_face")).to_be_visible()
        act(page, "stop")
        expect(page.locator("#back")).to_be_visible()
        assert page.evaluate(TOO_WIDE) == []
