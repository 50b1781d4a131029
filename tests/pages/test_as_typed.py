"""Markdown in a name shows as it was typed, on every page and in every label."""

from __future__ import annotations

import re
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.pages.conftest import Open
from tracker.app import OF_OWNER, PAGES
from tracker.desk.day import log_set
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people, places
from tracker.desk.sheet import sheets
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.units import Mass

NAMES = {"member": "**Ann**", "lift": "**lunge**", "place": "**Attic**", "wave": "**Tide**", "bar": "**old bar**"}
BARE = re.compile(r"(?<!\\)\*\*(Ann|lunge|Attic|Tide|old bar)\*\*")  # not written sign by sign
SHEET = "Title: **Tide**\n**lunge**, barbell, % of 3RM\n2 x 3 @ 80 %\n"


@pytest.fixture
def marked(log: Log) -> str:
    """A log whose every name is Markdown, with sets of yesterday and a session of today."""
    ann = people.add_member(log, NAMES["member"])
    lift = people.add_lift(log, NAMES["lift"], "barbell", member_id=ann.id)
    place = places.add_place(log, NAMES["place"], "kg")
    people.go_to_place(log, ann.id, place.id)
    rep_maxes.add_rep_max(log, ann.id, lift.id, this_day(), 3, Mass(Decimal(60), "kg"), tested=True)
    log_set.log_set(log, ann.id, this_day(), NewSet(lift.id, Mass(Decimal(50), "kg"), 3))
    sheets.take_sheet(log, [ann.id], SHEET.replace("**lunge**", NAMES["lift"].replace("*", "")), this_day())
    return ann.id


@pytest.mark.parametrize("page", [name for name, _ in PAGES if name not in OF_OWNER])
def test_a_name_is_shown_sign_by_sign(log: Log, show: Open, marked: str, page: str):
    at = show(log, "" if page == PAGES[0][0] else page, marked)
    told = []
    for element in at:
        proto = getattr(element, "proto", None)
        if element.type in ("html", "selectbox", "multiselect"):
            continue  # written by us with escape(), or not read as Markdown by Streamlit
        told += [str(getattr(proto, part, "")) for part in ("body", "label", "help")]
        told += [str(option) for option in getattr(proto, "options", ())]
    assert page not in ("today", "kit", "preferences") or any(r"\*\*" in each for each in told)
    assert [each for each in told if BARE.search(each)] == []
