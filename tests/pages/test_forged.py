"""Forged addresses, and SQL and script in every text field of every page: refused or taken as text, and the log stays whole."""

from __future__ import annotations

import itertools

import pytest
from sqlalchemy import func, select
from streamlit.testing.v1 import AppTest

from tests.pages.conftest import Open, words
from tracker.app import OF_OWNER, PAGES
from tracker.desk.files.check import check_log
from tracker.desk.people import people
from tracker.log.open_format import tables
from tracker.log.unit_of_work import Log

ATTACK = "x'); DROP TABLE sets; --<script>alert(1)</script>"
LEAVE = (  # buttons that are not there for a text
    "Delete for good", "Undo", "Stop", "Remove", "Put", "Check the log", "Make the report",
    "**Home", "**Gym", "Use it at",  # a ready kit takes the place of what is there
)  # fmt: skip
FORGED = {
    "sql": "' OR 1=1 --", "script": "<script>owned=1</script>", "nobody": "0" * 32, "long": "9" * 20_000, "empty": " ",
    "path": "../../etc/passwd", "format": "{0.__class__}%s%n",
}  # fmt: skip
OPEN = [page for page, _ in PAGES if page not in OF_OWNER]  # a household has these
KEYS = ("member", "day", "piece", "part", "lift", "reps", "weeks", "span", "frame_member", "kept_part", "frame_here")


def held(log: Log) -> dict[str, int]:
    with log.reading() as session:
        return {table.name: session.execute(select(func.count()).select_from(table)).scalar_one() for table in tables()}


@pytest.mark.parametrize(("page", "forged"), list(zip(OPEN, itertools.cycle(FORGED), strict=False)))
def test_a_forged_address_shows_a_page_of_ones_own_and_changes_nothing(
    demo_log: Log, show: Open, page: str, forged: str
):
    before, known = held(demo_log), {each.name for each in people.members(demo_log)}
    at = show(demo_log, page)
    for value in {FORGED["sql"], FORGED[forged]}:
        for key in KEYS:
            at.query_params[key] = value
        at = at.run()
        assert not at.exception, (value[:30], at.exception)
        assert at.title or at.error
        assert at.session_state["frame_here"].member.name in known  # never what the address says it is
    assert held(demo_log) == before


def test_a_member_who_was_removed_is_not_shown_by_the_old_address(demo_log: Log, show: Open):
    from tracker.desk.files import deletion

    gone = people.members(demo_log)[0]
    deletion.delete_member(demo_log, gone.id, gone.name)
    at = show(demo_log, "journal", gone.id)
    assert gone.name not in words(at)
    assert at.session_state["frame_here"].member.id != gone.id


def filled(at: AppTest) -> list[str]:
    """Type the attack into every text field there is; return their labels."""
    fields = [*at.text_input, *at.text_area]
    for each in fields:
        if not each.disabled:
            each.set_value(ATTACK)
    return [each.label for each in fields]


@pytest.mark.parametrize("page", OPEN)
def test_sql_and_script_in_every_text_field_is_text(demo_log: Log, show: Open, page: str):
    before = held(demo_log)
    at = show(demo_log, page)
    labels, touched = filled(at), set()
    for _ in range(5):
        button = next((each for each in at.button if _for_texts(each, touched)), None)
        if not labels or button is None:
            break
        touched.add(button.key)
        at = button.click().run()
        assert not at.exception, (button.label, at.exception)
        labels += filled(at)
    at = at.run()
    assert not at.exception
    after = held(demo_log)
    assert {kind: after[kind] for kind in ("sets", "sessions", "scores")} == {
        kind: before[kind] for kind in ("sets", "sessions", "scores")
    }, labels  # such a text is no load, no time and no score
    assert [kind for kind in before if after[kind] < before[kind]] == []
    assert check_log(demo_log.url.render_as_string(hide_password=False)).ok


def _for_texts(button: object, touched: set[str]) -> bool:
    label, key = str(getattr(button, "label", "")), getattr(button, "key", None)
    disabled = getattr(button, "disabled", False)
    return bool(key) and key not in touched and not disabled and not label.startswith(LEAVE)
