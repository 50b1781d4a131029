"""A piece put together on the page of pieces without a word written."""

from __future__ import annotations

import pytest

from tests.pages.conftest import Open, words
from tracker.desk.people import people
from tracker.desk.pieces import conditioning
from tracker.log.records import MemberRecord
from tracker.log.unit_of_work import Log


@pytest.fixture
def ivo(log: Log) -> MemberRecord:
    return people.add_member(log, "Ivo")


def test_kind_time_and_two_movements_make_a_piece_with_clock_and_score(log: Log, ivo: MemberRecord, show: Open):
    at = show(log, "conditioning", ivo.id)
    at.number_input(key="touched_minutes").set_value(12).run()
    at.selectbox(key="touched_movement").set_value("burpee").run()
    at.button(key="touched_more").click().run()
    at.selectbox(key="touched_movement").set_value("run").run()
    assert at.session_state["touched_measure"] == "m"  # what it is usually counted in
    at.number_input(key="touched_amount").set_value(200).run()
    at.button(key="touched_more").click().run()
    assert "10 burpees" in words(at)
    at.button(key="touched_add").click().run()
    assert not at.exception
    (row,) = conditioning.pieces(log, ivo.id)
    assert row.piece.title == "12 min: 10 burpees and 200 m run"
    assert "Added: 12 min: 10 burpees and 200 m run" in words(at)
    assert "200 m run" in words(at)


def test_a_movement_is_left_out_again_and_what_is_missing_is_told(log: Log, ivo: MemberRecord, show: Open):
    at = show(log, "conditioning", ivo.id)
    assert at.button(key="touched_add").disabled
    at.selectbox(key="touched_movement").set_value("burpee").run()
    at.button(key="touched_more").click().run()
    at.button(key="touched_add").click().run()
    assert "Nothing says how long it takes." in words(at)
    assert conditioning.pieces(log, ivo.id) == ()
    at.button(key="touched_out_0").click().run()
    assert at.button(key="touched_add").disabled
