"""Every page by the rules of WCAG 2.2 AA that a machine can check, light and dark, and at the sizes of small phones."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

import pytest
from playwright.sync_api import TimeoutError as Timeout
from playwright.sync_api import expect

from tests.browser.conftest import Phone, Served, at_rest, still, violations
from tracker import app

if TYPE_CHECKING:
    from playwright.sync_api import Page

PAGES = [name for name, _ in app.PAGES if name not in app.OF_OWNER]  # a household has these
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
CONTRAST: dict[str, object] = {"type": "rule", "values": ["color-contrast"]}
UPSTREAM: dict[str, str] = {  # rule -> why it is Streamlit's own and can't be mended here
    "scrollable-region-focusable": "the box around st.table takes no focus of its own; touch and screen readers reach it",
    "presentation-role-conflict": "the drop zone of st.file_uploader is marked as presentation and yet has a name (minor)",
}

FITS = """() => {  // nothing is wider than the window
  const main = document.querySelector('[data-testid="stMain"]');  // the gate's pages have none
  const over = document.documentElement.scrollWidth - innerWidth;
  return Math.max(over, main ? main.scrollWidth - main.clientWidth : 0) <= 1;
}"""
SMALL = """() => [...document.querySelectorAll('[data-testid="stMain"] button')].filter(button => {
  const box = button.getBoundingClientRect();
  const own = button.closest('[data-testid="stButton"], [data-testid="stFormSubmitButton"], [data-testid="stButtonGroup"]');
  return own && button.innerText && box.width > 0 && (box.height < 43.5 || box.width < 32);
}).map(button => button.innerText)"""
NAMELESS = """() => [...document.querySelectorAll('[data-testid="stMain"] :is(input, textarea, select)')].filter(each =>
  each.type !== 'hidden' && !each.closest('[aria-hidden="true"]') && !each.labels?.length && !each.getAttribute('aria-label') && !each.getAttribute('aria-labelledby')
).map(each => each.outerHTML.slice(0, 120))"""
SIZES = (  # CSS px
    (390, 700), (320, 640),  # phones
    (640, 450),  # a desk of 1280 x 900 at 200 % (WCAG 1.4.4)
    (320, 256),  # a desk of 1280 x 1024 at 400 % (WCAG 1.4.10, reflow)
)  # fmt: skip
CUT = """() => {  // words that a box around them cuts off, or that stand outside the window
  const main = document.querySelector('[data-testid="stMain"]'), found = [];
  const walker = document.createTreeWalker(main, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const text = walker.currentNode, around = text.parentElement;
    if (!text.data.trim() || !around.checkVisibility({checkOpacity: true, checkVisibilityCSS: true})) continue;
    if (around.closest('svg, style, script, [data-testid="stIconMaterial"], [data-testid="stDataFrame"]')) continue;
    const range = document.createRange();
    range.selectNodeContents(text);
    const box = range.getBoundingClientRect();
    if (box.width < 2 || box.height < 2) continue;
    for (let e = around; e && e !== main; e = e.parentElement) {
      const style = getComputedStyle(e), own = e.getBoundingClientRect();
      if (own.width < 2 || own.height < 2) break;  // for screen readers alone
      if (['auto', 'scroll'].includes(style.overflowX)) break;  // it can be scrolled to
      const hides = style.overflowX !== 'visible' || style.overflowY !== 'visible';
      if (hides && (box.right > own.right + 2 || box.left < own.left - 2 || box.bottom > own.bottom + 4)) {
        found.push(text.data.trim().slice(0, 40));
        break;
      }
      if (e.parentElement === main && box.right > innerWidth + 1) found.push(text.data.trim().slice(0, 40));
    }
  }
  return found;
}"""
LARGE_TEXT = """() => {
  const root = document.documentElement;
  root.style.fontSize = `${2 * parseFloat(getComputedStyle(root).fontSize)}px`;
}"""
REDRAWN = """() => !document.querySelector('.st-key-look')  // figures are drawn anew for the other look
  || window.tidemarkGround === getComputedStyle(document.querySelector('[data-testid="stApp"]')).backgroundColor"""
IN_LOOK = """scheme => {  // the page, or what stands in its place, has the ground of this look
  const ground = getComputedStyle(document.querySelector('[data-testid="stApp"]') || document.body).backgroundColor;
  const [red, green, blue] = ground.match(/[0-9.]+/g).map(Number);
  return (red + green + blue < 384) === (scheme === 'dark');
}"""
STUCK = """() => {
  const head = document.querySelector('[data-testid="stHeader"]').getBoundingClientRect();
  const name = document.querySelector('[data-testid="stLayoutWrapper"]:has(> .st-key-frame_head)');
  const sticks = getComputedStyle(name).position === 'sticky';
  return head.height + (sticks ? name.getBoundingClientRect().height : 0);
}"""
OPEN_ALL = "() => document.querySelectorAll('[data-testid=\"stMain\"] summary').forEach(each => each.click())"


def findings(page: Page, only: dict[str, object] | None = None) -> list[str]:
    """Return what axe-core finds, minor or critical, with the element and the reason."""
    still(page)  # a button that fades in has the contrast of that moment
    return [
        f"{rule['id']}: {node['html'][:140]} {[each['message'] for each in node['any'][:1] + node['all'][:1]]}"
        for rule in violations(page, runOnly=only or TAGS)
        if rule["id"] not in UPSTREAM
        for node in rule["nodes"]
    ]


def open_all(page: Page) -> None:
    """Open every box, and wait until it is open and what is in it stands there."""
    page.evaluate(OPEN_ALL)
    at_rest(page)
    still(page)
    at_rest(page)


def look(page: Page, scheme: Literal["dark", "light"]) -> None:
    """Change between light and dark, and wait until figures are drawn for it."""
    page.emulate_media(color_scheme=scheme)
    page.wait_for_function(IN_LOOK, arg=scheme)
    at_rest(page)
    page.wait_for_function(REDRAWN)
    at_rest(page)
    still(page)


def fits(page: Page, size: str) -> None:
    """Fail where something stays wider than the window: a figure follows the window late on a busy machine."""
    try:
        page.wait_for_function(FITS, timeout=10_000)
    except Timeout:
        pytest.fail(f"something is wider than the window: {size}")


@pytest.mark.parametrize("name", PAGES)
def test_a_page_is_read_by_everybody_and_fits_a_small_phone(served: Served, phone: Phone, name: str):
    path = "" if name == PAGES[0] else name
    page = phone(f"{served.url}/{path}?member={served.members['Wren']}")
    open_all(page)
    assert findings(page) == []
    expect(page.locator("h1")).to_have_count(1)
    expect(page.get_by_role("navigation", name="Main pages").get_by_role("button", name="More")).to_be_visible()
    assert page.evaluate(NAMELESS) == []
    assert page.evaluate(SMALL) == []
    look(page, "dark")
    assert findings(page, CONTRAST) == [], "dark"
    for width, height in SIZES:
        page.set_viewport_size({"width": width, "height": height})
        still(page)
        fits(page, f"{width} x {height} px")
        assert page.evaluate(CUT) == [], f"{width} x {height} px"
        assert page.evaluate(STUCK) <= height / 2, f"{width} x {height} px: half of it is taken by what stays in sight"
    page.set_viewport_size({"width": 1280, "height": 900})
    page.evaluate(LARGE_TEXT)
    still(page)
    fits(page, "text alone at 200 %")
    assert page.evaluate(CUT) == [], "text alone at 200 %"
