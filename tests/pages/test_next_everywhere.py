"""The same answer to what is next on every page that says it, in every situation of a training day."""

from __future__ import annotations

import re
from collections.abc import Callable
from html import unescape

import pytest
from streamlit.testing.v1 import AppTest

from tests.pages.conftest import Open, cards
from tests.situations import SITUATIONS, Gym, Situation

MARK = re.compile(r'<div data-next="([a-z]+)" data-title="([^"]*)">')


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
