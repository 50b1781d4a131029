"""Every page by the rules of WCAG 2.2 AA that a machine can check, light and dark, and at the sizes of small phones."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.browser.conftest import Phone, Served, at_rest
from tracker import app, asset_folder

if TYPE_CHECKING:
    from playwright.sync_api import Page

PAGES = [name for name, _ in app.PAGES if (asset_folder("pages") / f"{name}.py").is_file()]
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
CONTRAST: dict[str, object] = {"type": "rule", "values": ["color-contrast"]}
UPSTREAM: dict[str, str] = {  # rule -> why it is Streamlit's own and can't be mended here
    "scrollable-region-focusable": "the box around st.table takes no focus of its own; touch and screen readers reach it",
}

WIDE = """() => {
  const main = document.querySelector('[data-testid="stMain"]');
  return Math.max(main.scrollWidth - main.clientWidth, document.documentElement.scrollWidth - innerWidth);
}"""
SMALL = """() => [...document.querySelectorAll('[data-testid="stMain"] button')].filter(button => {
  const box = button.getBoundingClientRect();
  const own = button.closest('[data-testid="stButton"], [data-testid="stFormSubmitButton"], [data-testid="stButtonGroup"]');
  return own && button.innerText && box.width > 0 && (box.height < 43.5 || box.width < 32);
}).map(button => button.innerText)"""
NAMELESS = """() => [...document.querySelectorAll('[data-testid="stMain"] :is(input, textarea, select)')].filter(each =>
  each.type !== 'hidden' && !each.labels?.length && !each.getAttribute('aria-label') && !each.getAttribute('aria-labelledby')
).map(each => each.outerHTML.slice(0, 120))"""
OPEN_ALL = "() => document.querySelectorAll('[data-testid=\"stMain\"] summary').forEach(each => each.click())"


def findings(page: Page, only: dict[str, object] | None = None) -> list[str]:
    """Return what axe-core finds serious or critical, with the element and the reason."""
    from axe_playwright_python.sync_playwright import Axe

    found = Axe().run(page, options={"resultTypes": ["violations"], "runOnly": only or TAGS}).response["violations"]
    return [
        f"{rule['id']}: {node['html'][:140]} {[each['message'] for each in node['any'][:1] + node['all'][:1]]}"
        for rule in found
        if rule["impact"] in ("serious", "critical") and rule["id"] not in UPSTREAM
        for node in rule["nodes"]
    ]


@pytest.mark.parametrize("name", PAGES)
def test_a_page_is_read_by_everybody_and_fits_a_small_phone(served: Served, phone: Phone, name: str):
    path = "" if name == PAGES[0] else name
    page = phone(f"{served.url}/{path}?member={served.members['Wren']}")
    page.evaluate(OPEN_ALL)
    page.wait_for_timeout(600)
    at_rest(page)
    assert findings(page) == []
    assert page.locator("h1").count() == 1
    assert page.evaluate(NAMELESS) == []
    assert page.evaluate(SMALL) == []
    page.emulate_media(color_scheme="dark")
    page.wait_for_timeout(600)
    at_rest(page)
    assert findings(page, CONTRAST) == [], "dark"
    for width in (390, 320):
        page.set_viewport_size({"width": width, "height": 700})
        page.wait_for_timeout(300)
        assert page.evaluate(WIDE) <= 1, f"{width} px"
