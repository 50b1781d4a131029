"""The places at the foot of a phone: reached by a thumb, marked, opened without a new load, and nothing hidden behind them."""

from __future__ import annotations

from playwright.sync_api import expect

from tests.browser.conftest import Phone, Served, at_rest, still

BOXES = """() => [...document.querySelectorAll('.places > *')].map(each => {
  const {x, y, width, height, bottom} = each.getBoundingClientRect();
  return {x, y, width, height, bottom};
})"""
LAST = """() => {  // the lowest of what can be touched on the page, scrolled to its end
  const main = document.querySelector('[data-testid="stMain"]');
  main.scrollTo(0, main.scrollHeight);
  const all = [...main.querySelectorAll('summary, button, a')].filter(each => !each.closest('.places') && each.checkVisibility());
  return Math.max(...all.map(each => each.getBoundingClientRect().bottom));
}"""


def test_places_are_within_reach_marked_and_opened_without_a_new_load(served: Served, phone: Phone):
    page = phone(f"{served.url}/?member={served.members['Wren']}")
    bar = page.get_by_role("navigation", name="Main pages")
    expect(bar.get_by_role("link")).to_have_count(5)
    for width in (390, 320):
        page.set_viewport_size({"width": width, "height": 700})
        still(page)
        boxes = page.evaluate(BOXES)
        assert len(boxes) == 6
        assert all(each["width"] >= 44 and each["height"] >= 44 and each["bottom"] <= 700 for each in boxes), boxes
        assert min(each["y"] for each in boxes) > 700 * 0.85
        assert page.evaluate(LAST) <= min(each["y"] for each in boxes) + 0.5, f"hidden behind the places at {width} px"
    expect(bar.get_by_role("link", name="Today")).to_have_attribute("aria-current", "page")
    page.evaluate("window.still = true")
    bar.get_by_role("link", name="Journal").tap()
    expect(page.locator("h1")).to_have_text("Journal")
    at_rest(page)
    expect(bar.get_by_role("link", name="Journal")).to_have_attribute("aria-current", "page")
    expect(bar.locator("[aria-current]")).to_have_count(1)
    assert page.evaluate("window.still") is True
    assert f"member={served.members['Wren']}" in page.url


def test_more_opens_all_pages_and_keys_do_the_same(served: Served, phone: Phone):
    page = phone(f"{served.url}/journal?member={served.members['Wren']}")
    more = page.get_by_role("button", name="More", exact=True)
    more.focus()
    page.keyboard.press("Enter")
    side = page.get_by_role("navigation", name="App pages")
    expect(side.get_by_role("link", name="Kit")).to_be_visible()
    page.wait_for_function("document.activeElement?.dataset.testid === 'stSidebarNavLink'")
    side.get_by_role("link", name="Kit").focus()
    page.keyboard.press("Enter")
    expect(page.locator("h1")).to_have_text("Kit")
    expect(more).to_have_attribute("aria-current", "page")  # Kit stands behind it


def test_on_a_desk_the_pages_stand_at_the_side_in_groups(served: Served, phone: Phone):
    page = phone(f"{served.url}/?member={served.members['Wren']}")
    page.set_viewport_size({"width": 1280, "height": 900})
    page.reload()
    at_rest(page)
    expect(page.locator(".places")).to_be_hidden()
    side = page.get_by_role("navigation", name="App pages")
    for name in ("Train", "Look back", "With the coach", "Set up"):
        expect(side.get_by_role("group", name=name)).to_be_visible()
    expect(side.get_by_role("link", name="Today")).to_have_attribute("aria-current", "page")
    side.get_by_role("link", name="Trend").click()
    expect(page.locator("h1")).to_have_text("Trend")
