"""Every page opens without a fault: on a log with nobody, with somebody new, with the demo, and with ten years."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from streamlit.proto.Navigation_pb2 import Navigation
from streamlit.runtime.scriptrunner_utils.script_run_context import ScriptRunContext

from tests.pages.conftest import Open, words
from tests.plain_words import never
from tracker.app import OF_OWNER, PAGES
from tracker.desk.people import people
from tracker.log.unit_of_work import Log

NAMES = [name for name, _ in PAGES if name not in OF_OWNER]  # a household has these


@pytest.fixture(autouse=True)
def _the_way_to_the_other_pages(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """However a page ends, the navigation is shown after it."""
    shown, enqueue = [], ScriptRunContext.enqueue

    def noted(self, message):
        enqueue(self, message)
        if message.WhichOneof("type") == "navigation":
            shown.append(message.navigation.position)

    monkeypatch.setattr(ScriptRunContext, "enqueue", noted)
    yield
    assert shown[-1] == Navigation.Position.SIDEBAR


def opens(at) -> None:
    assert not at.exception
    assert words(at).strip()


def labels(at) -> str:
    """Everything that a field, a button or a box is called, and what is said when it is pointed at."""
    kinds = (
        "button",
        "text_input",
        "text_area",
        "selectbox",
        "button_group",
        "checkbox",
        "toggle",
        "radio",
        "expander",
    )
    drawn = [each.proto for kind in kinds for each in at.get(kind)]
    return "\n".join(f"{getattr(each, part, '')}" for each in drawn for part in ("label", "help", "placeholder"))


@pytest.mark.parametrize("page", NAMES)
def test_with_nobody_in_the_log_the_way_to_begin_is_shown(page: str, show: Open, log: Log):
    opens(show(log, page))


@pytest.mark.parametrize("page", NAMES)
def test_with_a_member_who_has_done_nothing_yet(page: str, show: Open, log: Log):
    opens(show(log, page, people.add_member(log, "Ana").id))


@pytest.mark.parametrize("page", NAMES)
def test_with_each_member_of_the_demo(page: str, show: Open, demo_log: Log):
    for member in people.members(demo_log):
        at = show(demo_log, page, member.id, after="today")
        opens(at)
        assert never(words(at) + labels(at)) == []


@pytest.mark.sqlite("open every page over ten years; the tests of a page do it on a server where it matters")
@pytest.mark.parametrize("page", NAMES)
def test_with_ten_years(page: str, show: Open, ten_years: Log):
    opens(show(ten_years, page, people.members(ten_years)[0].id))
