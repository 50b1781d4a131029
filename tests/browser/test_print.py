"""A page on paper: dark letters on white whatever the screen shows, nothing cut, and nothing that only a finger can use."""

from __future__ import annotations

from tests.browser.conftest import Phone, Served, at_rest

ON_PAPER = """() => {
  const light = text => (text.match(/[\\d.]+/g) || []).slice(0, 3).every(each => Number(each) > 200);
  const main = document.querySelector('[data-testid="stMain"]'), seen = each => each.checkVisibility();
  const ground = [document.body, document.querySelector('[data-testid="stApp"]')].map(each => getComputedStyle(each).backgroundColor);
  const pale = [...main.querySelectorAll('p, b, th, td, small, span')].filter(each => seen(each) && each.innerText.trim() && light(getComputedStyle(each).color));
  return {
    ground, pale: pale.map(each => each.innerText.slice(0, 30)), wide: document.documentElement.scrollWidth - innerWidth,
    touched: [...main.querySelectorAll('[data-testid="stButton"], [data-testid="stTextInput"]')].filter(seen).length,
    rows: [...main.querySelectorAll('.session tr')].filter(seen).length,
    clipped: ['stMain', 'stApp'].filter(each => getComputedStyle(document.querySelector(`[data-testid="${each}"]`)).overflowY !== 'visible'),
  };
}"""


def test_a_dark_journal_is_printed_dark_on_white_whole_and_without_buttons(served: Served, phone: Phone):
    page = phone(f"{served.url}/journal?member={served.members['Wren']}")
    page.emulate_media(color_scheme="dark")
    page.set_viewport_size({"width": 700, "height": 990})  # the writing of an A4 sheet
    page.reload()
    at_rest(page)
    page.emulate_media(color_scheme="dark", media="print")
    found = page.evaluate(ON_PAPER)
    assert set(found["ground"]) == {"rgb(255, 255, 255)"}
    assert (found["pale"], found["touched"], found["clipped"]) == ([], 0, [])
    assert found["wide"] <= 0
    assert found["rows"] > 5
