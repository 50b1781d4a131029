"""The navigation: groups for a desk, five places for a thumb, at most twelve in all, and every page still to be reached."""

from __future__ import annotations

import json

import pytest
from streamlit.runtime.scriptrunner_utils.script_run_context import ScriptRunContext

import tracker
from tests.pages.conftest import Open
from tracker.app import OF_COACH, OF_OWNER, PAGES
from tracker.components.frame import places
from tracker.desk.people import people
from tracker.log.unit_of_work import Log

FOLDER = tracker.asset_folder("pages")


def bar(at) -> dict:
    drawn = [json.loads(each.proto.json) for each in at.get("bidi_component")]
    return next(each for each in drawn if "places" in each)


@pytest.mark.parametrize(
    "left_out", [set(), OF_OWNER, OF_COACH | OF_OWNER], ids=["owner", "household or coach", "member who signs in"]
)
def test_at_most_twelve_pages_stand_in_the_navigation(left_out):
    names = {*dict(PAGES), "best_marks"} - left_out
    assert len(names - places.BEHIND) <= 12
    assert names <= places.ICONS.keys()
    assert {*places.WITHIN_REACH, *places.WITHOUT_A_LOG} & places.BEHIND == set()


def test_all_pages_stand_in_groups_with_an_icon(show: Open, log: Log, monkeypatch: pytest.MonkeyPatch):
    sent, enqueue = [], ScriptRunContext.enqueue

    def noted(self, message):
        enqueue(self, message)
        if message.WhichOneof("type") == "navigation":
            sent.append(message.navigation)

    monkeypatch.setattr(ScriptRunContext, "enqueue", noted)
    show(log, "", people.add_member(log, "Ana").id)
    newest = sent[-1]
    assert list(newest.sections) == list(places.GROUPS)
    groups = {heading: [] for heading in newest.sections}
    for page in newest.app_pages:
        groups[page.section_header].append(page.url_pathname or places.FIRST)
    there = {name for name, _ in PAGES if (FOLDER / f"{name}.py").is_file()} - {"accounts"}
    assert {name for names in groups.values() for name in names} == there
    for heading, names in groups.items():
        wanted = [name for name in places.GROUPS[heading] if name in there]
        assert names[: len(wanted)] == wanted
    assert all(page.icon.startswith(":material/") for page in newest.app_pages)
    assert {page.url_pathname for page in newest.app_pages if page.is_hidden} == places.BEHIND & there


def test_the_bar_has_five_places_and_marks_the_open_one(show: Open, log: Log):
    member = people.add_member(log, "Ana")
    drawn = bar(show(log, "trend", member.id))
    assert [each["title"] for each in drawn["places"]] == ["Today", "Pieces", "Weights", "Trend", "Journal"]
    assert [each["path"] for each in drawn["places"]] == ["", "conditioning", "weights", "trend", "journal"]
    assert drawn["here"] == "trend"
    assert bar(show(log, "", member.id))["here"] == "today"


def test_what_is_touched_in_the_bar_is_opened_before_anything_else_is_drawn(show: Open, log: Log):
    member = people.add_member(log, "Ana")
    at = show(log, "", member.id)
    at.session_state[places.WANTED] = "journal"
    at.run()
    assert not at.exception
    assert [each.value for each in at.title] == ["Journal"]
    assert bar(at)["here"] == "journal"
    at.session_state[places.WANTED] = "no such page"
    assert [each.value for each in at.run().title] == ["Journal"]


@pytest.mark.parametrize(
    ("headers", "phone"),
    [
        ({"Sec-Ch-Ua-Mobile": "?1"}, True),
        ({"User-Agent": "Browser/5.0 (Phone) Mobile Safari"}, True),
        ({"Sec-Ch-Ua-Mobile": "?0", "User-Agent": "Browser/5.0 (X11; Linux)"}, False),
        ({}, False),
    ],
)
def test_a_phone_is_known_by_what_its_browser_says(monkeypatch: pytest.MonkeyPatch, headers, phone):
    class Context:
        def __init__(self):
            self.headers = headers

    monkeypatch.setattr(places.st, "context", Context())
    assert places.on_a_phone() is phone
