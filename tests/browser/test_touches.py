"""Touches, counted as the browser sees them: a set as prescribed, a set with other numbers, the score of a ladder."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Phone, Served, at_rest
from tests.browser.test_main_job import said, sets_of, tap
from tests.browser.test_piece_flow import part, scores, touch

if TYPE_CHECKING:
    from playwright.sync_api import Page

COUNTING = """() => {
  window.touches = 0;
  addEventListener('touchstart', event => { if (event.isTrusted) window.touches += event.touches.length; }, true);
  addEventListener('keydown', event => { if (event.isTrusted) window.touches += 1; }, true);
}"""


def counting(page: Page) -> Page:
    """Count from now on every finger that comes down, and every key."""
    page.evaluate(COUNTING)
    return page


def touches(page: Page) -> int:
    return page.evaluate("window.touches")


def test_a_finger_is_counted(served: Served, phone: Phone):
    page = counting(phone(f"{served.url}/?member={served.members['Wren']}"))
    page.locator(".big").tap()
    page.locator("h1").tap()
    assert touches(page) == 2


def test_a_set_as_prescribed_takes_one_touch_and_another_one_four(served: Served, phone: Phone):
    page = counting(phone(f"{served.url}/?member={served.members['Wren']}"))
    tap(page, "Done: 4 × 60 kg")
    said(page, "Saved: 4 × 60 kg")
    assert touches(page) == 1
    assert sets_of(served, "Wren") == ["done 4 x 60 kg rir None"]

    page.evaluate("window.touches = 0")
    tap(page, "Change it")
    card = page.locator(".st-key-next_set")
    card.get_by_test_id("stNumberInputStepDown").tap()
    at_rest(page)
    card.locator("[class*='_rir']").get_by_text("2", exact=True).tap()
    at_rest(page)
    tap(page, "Log this set")
    said(page, "Saved: 3 × 65 kg, 2 left")
    assert touches(page) <= 4
    assert sets_of(served, "Wren") == ["done 4 x 60 kg rir None", "done 3 x 65 kg rir 2"]


def test_how_many_were_left_is_one_touch_more_after_a_set_as_prescribed(served: Served, phone: Phone):
    page = counting(phone(f"{served.url}/?member={served.members['Mirela']}"))
    tap(page, "Done: 5 × 20 kg each")
    page.locator("[class*='st-key-left_']").get_by_text("3", exact=True).tap()
    said(page, "Saved: 5 × 20 kg each, 3 left")
    assert touches(page) == 2
    assert sets_of(served, "Mirela") == ["done 5 x 20 kg rir 3"]


@pytest.mark.parametrize("way", ["score at once", "from the day's page"])
def test_a_ladder_is_scored_in_five_touches_at_most(served: Served, phone: Phone, way: str):
    member = "Sunniva"
    at_once = "conditioning" if way == "score at once" else ""
    page = counting(phone(f"{served.url}/{at_once}?member={served.members[member]}"))
    before = len(scores(served, member))
    if not at_once:
        page.get_by_role("link", name="Score alone").tap()
        at_rest(page)
        expect(page.locator("h1")).to_have_text("Pieces")
    else:
        part(page, "Score")
    touch(page, "_rounds", "round of 9")
    touch(page, "_done_3", "12 kettlebell swings done")
    touch(page, "_reps_3_1", "4")
    tap(page, "Log 70 reps")
    expect(page.locator(".notice")).to_contain_text("Logged Lantern ladder: 70 reps")
    assert touches(page) <= 5
    assert len(scores(served, member)) == before + 1
    assert scores(served, member)[-1].score.total.known == 70
