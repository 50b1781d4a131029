"""The frame: who it is, what came of an act, and what happens where there is no log to open."""

from __future__ import annotations

import ast
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from tests.day import this_day
from tests.pages.conftest import Open, words
from tests.stores import address_of
from tracker import asset_folder
from tracker.app import PAGES, SETTINGS
from tracker.components.frame import frame
from tracker.components.frame.frame import MEMBER
from tracker.desk.day import log_set
from tracker.desk.people import people
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.units import Mass


@dataclass
class Two:
    log: Log
    anna: str
    bo: str
    squat: str


@pytest.fixture
def two(log: Log) -> Two:
    lift = people.add_lift(log, "squat", "barbell")
    return Two(log, people.add_member(log, "Anna").id, people.add_member(log, "Bo", "lb").id, lift.id)


def new_set(two: Two, load: str = "100", unit: str = "kg") -> NewSet:
    return NewSet(two.squat, Mass(Decimal(load), unit), 5)


def acting(page: str) -> str:
    """Turn lines of a page into a script that draws the frame and then them."""
    return f"""
import streamlit as st
from tracker.components.frame import frame
from tracker.components.frame.acts import do
from tracker.components.frame.opened import of_this_server
frame.draw(of_this_server())
now = frame.here()
{page}
"""


@pytest.fixture
def script(two: Two, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("TIDEMARK_DATABASE", address_of(two.log))
    return lambda page: AppTest.from_string(acting(page), default_timeout=120).run()


LOG_ONE = """
from datetime import date
from decimal import Decimal
from tracker.desk.day import log_set
from tracker.desk.people import people
from tracker.log.sets import NewSet
from tracker.units import Mass
lift = people.lifts(now.log)[0]
load = st.text_input("Load", "100")
def tap(token, load):
    do(log_set.log_set, now.log, now.member.id, now.today, NewSet(lift.id, Mass(Decimal(load), "kg"), 5), token=token,
       said=lambda row: f"Saved: {row.reps} x {row.load}")
st.button("Log", key="log", on_click=tap, args=(frame.token("free"), load))
"""


def sets_of(two: Two, member: str):
    from tracker.desk.history import journal

    return [each for entry in journal.sessions(two.log, member) for each in entry.sets]


def test_the_address_keeps_the_member_and_one_touch_switches(two: Two, show: Open):
    at = show(two.log, member=two.bo)
    assert at.button_group(key="frame_member").value == two.bo
    at.button_group(key="frame_member").set_value(two.anna).run()
    assert at.query_params[MEMBER] in (two.anna, [two.anna])
    assert at.button_group(key="frame_member").value == two.anna


def test_a_member_that_is_not_in_the_log_is_nobody(two: Two, show: Open):
    at = show(two.log, member="of another log")
    assert at.button_group(key="frame_member").value == two.anna


def test_a_single_member_is_named_and_needs_no_switch(log: Log, show: Open):
    people.add_member(log, "Solo <b>Lifter</b>")
    at = show(log)
    assert any("Solo &lt;b&gt;Lifter&lt;/b&gt;" in each.proto.body for each in at.get("html"))
    assert not at.get("button_group")


def test_many_members_are_chosen_from_a_list(log: Log, show: Open):
    for name in "ABCDEFGH":
        people.add_member(log, name)
    assert len(show(log).selectbox(key="frame_member").options) == 8


def test_an_empty_log_asks_who_it_is_for_and_then_shows_the_page(log: Log, show: Open):
    at = show(log)
    assert not people.members(log)
    assert "Who is training?" in words(at)


def test_undo_takes_back_one_act_after_the_other_until_none_is_left(two: Two, script):
    """Four that were taken back left eight entries, and the button was gone while there was more."""
    for number in range(1, 8):
        log_set.log_set(two.log, two.anna, this_day(), new_set(two, str(100 + number)))
    at = script("")
    for number in range(7, 0, -1):
        at.button(key="frame_undo").click().run()
        assert f"{100 + number} kg" in words(at)
    assert not any(each.key == "frame_undo" for each in at.button)


def test_saved_is_said_with_what_the_log_holds_and_undo_takes_it_back(two: Two, script):
    at = script(LOG_ONE)
    at.button(key="log").click().run()
    assert "Saved: 5 x 100 kg" in words(at)
    assert len(sets_of(two, two.anna)) == 1
    at.button(key="frame_undo").click().run()
    assert "Taken back: logged squat, barbell: 5 x 100 kg" in words(at)
    assert not sets_of(two, two.anna)


def test_what_is_refused_is_told_once_with_place_and_way_out_and_nothing_is_written(two: Two, script):
    at = script(LOG_ONE)
    at.text_input[0].set_value("1200").run()
    at.button(key="log").click().run()
    assert "Not saved. Load: 1200 kg is more than anyone lifts." in words(at)
    assert "check the number and its unit" in words(at)
    assert not sets_of(two, two.anna)
    assert "1200 kg" not in words(at.run())


@pytest.mark.parametrize(("button", "logged"), [("other", "225 lb"), ("as_is", "225 kg"), ("leave", None)])
def test_a_load_that_looks_like_the_other_unit_waits_for_an_answer(two: Two, script, button: str, logged: str | None):
    for _ in range(3):
        log_set.log_set(two.log, two.anna, this_day(), new_set(two))
    at = script(LOG_ONE)
    at.text_input[0].set_value("225").run()
    at.button(key="log").click().run()
    assert len(sets_of(two, two.anna)) == 3
    at.run()  # a look elsewhere does not lose the question
    at.button(key=f"frame_{button}").click().run()
    assert [str(row.load) for row in sets_of(two, two.anna)][3:] == ([logged] if logged else [])
    assert "Not saved yet" not in words(at)


def test_a_second_tap_on_the_same_button_is_the_same_set(two: Two):
    from tracker.components.frame.acts import token

    drawn = token(two.log, two.anna, "line", shared=True)
    for _ in range(2):
        log_set.log_set(two.log, two.anna, this_day(), new_set(two), token=drawn)
    assert len(sets_of(two, two.anna)) == 1
    assert token(two.log, two.anna, "line", shared=True) != drawn


@pytest.mark.sqlite("are about a file that is none of ours")
def test_a_file_that_is_no_log_gives_one_clear_message(show: Open, tmp_path: Path):
    path = tmp_path / "letter.db"
    path.write_text("Dear diary, " * 300)
    at = show(str(path))
    assert len(at.error) == 1
    assert str(path) in at.error[0].value
    assert path.read_text().startswith("Dear diary")


@pytest.mark.sqlite("are about a file that is none of ours")
def test_a_log_that_cannot_be_reached_gives_one_clear_message(show: Open, tmp_path: Path):
    at = show(str(tmp_path))  # a folder, where a file should be
    assert len(at.error) == 1
    assert str(tmp_path) in at.error[0].value
    assert "postgresql" not in at.error[0].value


def test_a_log_of_a_newer_version_is_left_untouched(two: Two, show: Open):
    from sqlalchemy import text

    with two.log.engine.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '9999'"))
    at = show(two.log)
    assert len(at.error) == 1
    assert "newer" in at.error[0].value


def test_the_settings_carry_the_whole_theme_and_stay_on_this_machine():
    from streamlit import config

    from tracker import app

    settings = {**app.SETTINGS, **app.theme()}
    assert settings["server.address"] == "127.0.0.1"
    assert settings["browser.gatherUsageStats"] is False
    assert {"theme.light.primaryColor", "theme.dark.primaryColor", "theme.font"} <= settings.keys()
    unknown = [name for name in settings if name not in config._config_options_template]
    assert not unknown


def test_a_fault_of_the_program_is_told_in_our_words_and_its_details_stay_in_the_terminal(
    caplog: pytest.LogCaptureFixture,
):
    def script() -> None:
        from tracker.app import fault

        assert fault(RuntimeError("what only the log may hold"))

    at = AppTest.from_function(script).run()
    assert [each.value[:45] for each in at.error] == ["The program has a fault here (RuntimeError). "]
    assert "what only the log may hold" not in words(at)
    assert "what only the log may hold" in caplog.text


def test_no_notice_for_developers_is_put_over_the_page_of_whoever_opens_a_browser(monkeypatch: pytest.MonkeyPatch):
    from streamlit import config
    from streamlit.web import skills

    given = {"server.headless": False, "logger.hideWelcomeMessage": SETTINGS["logger.hideWelcomeMessage"]}
    monkeypatch.setattr(config, "get_option", given.get)
    assert skills.nudge_suppression_reason() not in ("", "check_failed", "headless")


def test_no_page_ends_with_streamlits_own_stop():
    """After it nothing more is sent to a browser, the navigation neither; a page ends with `frame.end`."""
    sources = [*asset_folder("pages").glob("*.py"), *Path(frame.__file__).parent.glob("*.py")]
    assert len(sources) > len(PAGES)
    calls = [
        f"{path.name}:{node.lineno}"
        for path in sources
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Attribute) and ast.unparse(node) == "st.stop"
    ]
    assert calls == []
