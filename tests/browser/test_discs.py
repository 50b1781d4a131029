"""One end of the bar as every page draws it: each disc with its mass, told apart without a colour, read on the narrowest phone."""

from __future__ import annotations

import json
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import at_rest
from tests.browser.day_phone import Gym, opened, phone_of

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

DRAW = """async discs => {
  const card = await import(document.querySelector('link[href$="/card.js"]').href), box = document.querySelector('.bar-end').parentElement;
  const drawn = document.createElement('div');
  box.insertBefore(drawn, document.querySelector('.bar-end'));
  drawn.innerHTML = card.discs(discs);
  const svg = drawn.querySelector('svg'), size = each => { const at = each.getBoundingClientRect(); return [at.left, at.right, at.width, at.height]; };
  const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
  const found = {label: svg.getAttribute('aria-label'), letters: parseFloat(getComputedStyle(svg.querySelector('text')).fontSize) * scale, whole: size(svg),
    texts: [...svg.querySelectorAll('text')].map(each => [each.textContent, ...size(each)]), discs: [...svg.querySelectorAll('.disc')].map(size), grooves: svg.querySelectorAll('.groove').length};
  drawn.remove();
  return found;
}"""
KILOS = {"25": 25.0, "20": 20.0, "15": 15.0, "10": 10.0, "5": 5.0, "2.5": 2.5, "1.25": 1.25, "0.5": 0.5}


def kilos(*masses: str) -> list[list[Any]]:
    return [[mass, "kg", KILOS[mass]] for mass in masses]


def drawn(page: Page, discs: list[list[Any]]) -> dict[str, Any]:
    found = page.evaluate(DRAW, discs)
    words, left = found["texts"], found["whole"][0]
    assert found["letters"] >= 12, "figures that can be read"
    assert len(found["discs"]) == len(discs)
    assert all(before[2] <= after[1] + 0.5 for before, after in pairwise(words)), "no figure on another"
    assert all(each[0] >= left and each[1] <= found["whole"][1] + 0.5 for each in found["discs"])
    return found


@pytest.fixture
def narrow(gym: Gym, chromium: Browser):
    with phone_of(chromium, viewport={"width": 320, "height": 640}) as context:
        yield opened(context, gym.url)


def test_every_mass_stands_beneath_its_discs_and_can_be_read_at_320_px(narrow: Page):
    found = drawn(narrow, kilos("20", "2.5", "1.25"))
    assert [each[0] for each in found["texts"]] == ["20", "2.5", "1.25"]
    assert found["label"] == "One end of the bar: 20 + 2.5 + 1.25 kg a side"
    alike = drawn(narrow, kilos("25", "25", "25", "10"))
    assert [each[0] for each in alike["texts"]] == ["3×25", "10"]
    most = drawn(narrow, kilos("25", "25", "25", "20", "15", "10", "5", "2.5", "1.25"))
    assert len(most["texts"]) == 7


def test_twenty_and_twenty_five_are_told_apart_without_a_colour(narrow: Page):
    found = drawn(narrow, kilos("25", "20"))
    heavy, light = found["discs"]
    assert heavy[3] - light[3] >= 8, "taller"
    assert heavy[2] > light[2], "and thicker"
    assert found["grooves"] == 1
    assert drawn(narrow, kilos("25"))["grooves"] == 0
    assert drawn(narrow, kilos("20"))["grooves"] == 1
    sizes = [drawn(narrow, kilos(mass))["discs"][0] for mass in KILOS]
    assert sizes == sorted(sizes, key=lambda each: -each[3])


def test_discs_of_two_units_carry_their_unit(narrow: Page):
    found = drawn(narrow, [["45", "lb", 20.41], ["2.5", "kg", 2.5]])
    assert [each[0] for each in found["texts"]] == ["45 lb", "2.5 kg"]
    assert found["label"] == "One end of the bar: 45 lb + 2.5 kg a side"


def test_other_pages_draw_by_the_same_module(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        page.goto(f"{gym.url}/weights?member={gym.member('Wren')}")
        at_rest(page)
        boxes = page.locator(".discs[data-discs]")
        expect(boxes.first.locator("svg.bar-end")).to_be_visible()
        for box in boxes.all():
            masses = [each[0] for each in json.loads(box.get_attribute("data-discs") or "")]
            words = box.locator("svg").get_attribute("aria-label") or ""
            assert words.startswith(f"One end of the bar: {' + '.join(masses)} ")
