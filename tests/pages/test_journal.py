"""The journal: sessions in words, each set mended, moved, left out, removed and brought back; month, weeks, acts."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest
from sqlalchemy import func, select

from tests.day import this_day
from tests.loads import kg
from tests.pages.conftest import Open, words
from tracker.components.history.session_list import STEP
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk.day import log_set, session_said
from tracker.desk.history import journal
from tracker.desk.people import people
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.conditioning import Said
from tracker.log.models import Change
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.units import Mass


def that_day():
    return this_day() - timedelta(days=3)


def changes(log: Log) -> int:
    with log.reading() as session:
        return session.scalar(select(func.count()).select_from(Change)) or 0


@pytest.fixture
def rows(log: Log, wren):
    squat = people.add_lift(log, "front squat", "barbell")
    news = (NewSet(squat.id, kg(60), 5), NewSet(squat.id, kg(80), 5), NewSet(squat.id, kg(80), 5))
    return [log_set.log_set(log, wren.id, that_day(), new) for new in news]


def sets_of(log: Log, member):
    return [row for entry in journal.sessions(log, member.id) for row in entry.sets]


def opened(log: Log, show: Open, row, member: str = ""):
    at = show(log, "journal", member)
    at.button(key=f"journal_open_{row.session_id}").click().run()
    return at.pills(key=f"journal_set_{row.session_id}").set_value(row.id).run()


def submit(at, label: str):
    return next(button for button in at.button if button.label == label).click().run()


def view(at, name: str):
    return at.pills(key="kept_view").set_value(name).run()


def test_an_empty_journal_says_what_to_do_next(log: Log, show: Open, wren):
    at = show(log, "journal")
    assert "Nothing is logged yet." in words(at)
    assert len(at.get("page_link")) == 2
    for name in ("month", "acts"):
        assert not view(at, name).exception


def test_a_session_is_told_in_words_with_equal_sets_together(log: Log, show: Open, wren, rows):
    session_said.rate_session(log, rows[0].session_id, wren.id, rating=6, minutes=50, note="windy")
    text = words(show(log, "journal"))
    first, then = text.split('<th scope="row">80 kg</th>')
    assert "<b>Front squat, barbell</b>" in first
    assert '<th scope="row">60 kg</th>' in first
    assert "reps in each set" in first
    assert (first.count("<b>5</b>"), then.count("<b>5</b>")) == (1, 2)
    assert "50 min · rated 6 of 10" in text
    assert "windy" in text


def test_a_set_is_mended_in_place_and_the_change_taken_back(log: Log, show: Open, wren, rows):
    at = opened(log, show, rows[1])
    at.text_input(key=f"journal_mend_{rows[1].id}_load").set_value("82,5")
    at.number_input(key=f"journal_mend_{rows[1].id}_reps").set_value(4)
    at = at.button(key=f"journal_mend_{rows[1].id}_log").click().run()
    assert [str(row.load) for row in sets_of(log, wren)] == ["60 kg", "82.5 kg", "80 kg"]
    assert "Saved: 4 × 82.5 kg." in words(at)
    at.button(key="frame_undo").click().run()
    assert sets_of(log, wren)[1].load == kg(80)


def test_a_set_that_another_phone_mended_meanwhile_is_not_written_over(log: Log, show: Open, wren, rows):
    at = opened(log, show, rows[1])
    log_set.mend_set(log, rows[1].id, NewSet(rows[1].lift.id, kg(85), 5))
    at.text_input(key=f"journal_mend_{rows[1].id}_load").set_value("82.5")
    at = at.button(key=f"journal_mend_{rows[1].id}_log").click().run()
    assert words(at).count("Not saved.") == 1
    assert sets_of(log, wren)[1].load == kg(85)


def test_bad_values_get_one_message_each_and_nothing_is_written(log: Log, show: Open, wren, rows):
    at = opened(log, show, rows[1])
    before = changes(log)
    for load in ("", "heavy", "-5", "0", "1001", "nan", "inf", "1e3"):
        at.text_input(key=f"journal_mend_{rows[1].id}_load").set_value(load).run()
        at = at.button(key=f"journal_mend_{rows[1].id}_log").click().run()
        assert words(at).count("Not saved.") == 1, load
    at = submit(at, "Leave it out")
    assert "A set is left out for a reason." in words(at)
    assert changes(log) == before


def test_a_load_that_looks_like_the_other_unit_is_asked_about(log: Log, show: Open, wren, rows):
    at = opened(log, show, rows[1])
    before = changes(log)
    at.text_input(key=f"journal_mend_{rows[1].id}_load").set_value("176").run()
    at = at.button(key=f"journal_mend_{rows[1].id}_log").click().run()
    assert "Not saved yet." in words(at)
    assert changes(log) == before
    at.button(key="frame_other").click().run()
    assert sets_of(log, wren)[1].load == Mass(Decimal(176), "lb")


def test_a_set_is_left_out_with_a_reason_and_taken_in_again(log: Log, show: Open, wren, rows):
    at = opened(log, show, rows[1])
    at.text_input(key=f"journal_why_{rows[1].id}").set_value("wrong bar")
    at = submit(at, "Leave it out")
    assert sets_of(log, wren)[1].left_out == "wrong bar"
    assert "left out: wrong bar" in words(at)
    at.button(key=f"journal_in_{rows[1].id}").click().run()
    assert sets_of(log, wren)[1].left_out is None


def test_a_set_goes_to_the_member_and_day_it_belongs_to(log: Log, show: Open, wren, rows):
    tobin = people.add_member(log, "Tobin")
    at = opened(log, show, rows[1], wren.id)
    at.selectbox(key=f"journal_move_{rows[1].id}_who").set_value(tobin.id)
    at.date_input(key=f"journal_move_{rows[1].id}_day").set_value(that_day() - timedelta(days=1))
    at = submit(at, "Move it")
    assert len(sets_of(log, wren)) == 2
    assert [(str(row.load), row.day) for row in sets_of(log, tobin)] == [("80 kg", that_day() - timedelta(days=1))]
    at.button(key="frame_undo").click().run()
    assert len(sets_of(log, wren)) == 3


def test_a_set_of_the_wrong_lift_becomes_one_of_the_right_lift(log: Log, show: Open, wren, rows):
    press = people.add_lift(log, "press", "barbell")
    at = opened(log, show, rows[0])
    at.selectbox(key=f"journal_move_{rows[0].id}_lift").set_value(press.id)
    submit(at, "Move it")
    assert [row.lift.name for row in sets_of(log, wren)] == ["press", "front squat", "front squat"]


def test_a_move_to_where_it_is_says_so(log: Log, show: Open, wren, rows):
    before = changes(log)
    at = submit(opened(log, show, rows[0]), "Move it")
    assert "It is there already." in words(at)
    assert changes(log) == before


def test_a_set_is_removed_and_brought_back(log: Log, show: Open, wren, rows):
    at = opened(log, show, rows[2])
    at.button(key=f"journal_remove_{rows[2].id}").click().run()
    assert len(sets_of(log, wren)) == 2
    at.button(key="frame_undo").click().run()
    assert len(sets_of(log, wren)) == 3


def test_a_session_is_rated_and_moved_as_a_whole(log: Log, show: Open, wren, rows):
    tobin = people.add_member(log, "Tobin")
    at = show(log, "journal", wren.id)
    session = rows[0].session_id
    at.button(key=f"journal_open_{session}").click().run()
    at.session_state["session_end"] = True  # its box is opened
    at.run()
    at.pills(key=f"end_{session}_rating").set_value(7)
    at = submit(at, "Save")
    assert journal.sessions(log, wren.id)[0].session.rating == 7
    at.selectbox(key=f"journal_session_{session}_who").set_value(tobin.id)
    at = submit(at, "Move all its sets")
    assert "Moved 3 sets to Tobin" in words(at)
    assert (len(sets_of(log, wren)), len(sets_of(log, tobin))) == (0, 3)


def test_search_finds_lifts_and_notes_and_says_where_there_is_none(log: Log, show: Open, wren, rows):
    press = people.add_lift(log, "press", "barbell")
    log_set.log_set(log, wren.id, that_day() - timedelta(days=1), NewSet(press.id, kg(40), 5))
    at = show(log, "journal")
    at = at.text_input(key="journal_search").set_value("press").run()
    assert "press, barbell" in words(at)
    assert "front squat" not in words(at)
    assert "No session has" in words(at.text_input(key="journal_search").set_value("zercher").run())


def test_any_act_can_be_taken_back_from_the_history(log: Log, show: Open, wren, rows):
    at = view(show(log, "journal"), "acts")
    first = journal.acts(log, wren.id)[-2]  # the newest stand first; the last one is the member
    assert "60 kg" in first.words
    at.button(key=f"act_{first.act_id}").click().run()
    assert [str(row.load) for row in sets_of(log, wren)] == ["80 kg", "80 kg"]
    assert "(taken back)" in words(at)


def test_a_month_at_a_glance_marks_days_tests_and_misses(log: Log, show: Open, wren, rows):
    at = view(show(log, "journal"), "month")
    if that_day().month != this_day().month:
        at.button(key="month_back").click().run()
    assert "1 day with training, 3 sets." in words(at)
    day = at.button(key=f"month_day_{that_day().isoformat()}")
    assert day.label == f"{that_day().day} :small[3]"
    assert "60 kg" not in words(at)
    day.click().run()
    assert ">60 kg</th>" in words(at)  # the day is open, and can be edited
    assert at.button(key=f"journal_open_{rows[0].session_id}").label == "Edit"
    at.button(key=f"month_day_{that_day().isoformat()}").click().run()
    assert "60 kg" not in words(at)
    at.button(key="month_back").click().run()
    assert "0 days with training" in words(at)


def test_a_miss_says_what_was_made_before_it(log: Log, show: Open, wren):
    squat = people.add_lift(log, "front squat", "barbell")
    log_set.log_set(log, wren.id, that_day(), NewSet(squat.id, kg("107.5"), 4, outcome="missed"))
    text = words(show(log, "journal"))
    assert ">107.5 kg</th>" in text
    assert '<li class="missed work"><b>4 ✗</b><small>then missed</small></li>' in text


def test_search_finds_pieces_and_words_of_any_note(log: Log, show: Open, wren, rows):
    piece = conditioning.add_piece(log, Piece("Quay", "for time", (Task("burpee", Steady(5)),), rounds=3))
    conditioning.log_score(log, wren.id, piece.id, that_day() - timedelta(days=2), Said("8:41", note="slippery floor"))
    session_said.rate_session(log, rows[0].session_id, wren.id, rating=6, minutes=50, note="windy")
    at = show(log, "journal")
    for text, there, other in (("quay", "Quay", "60 kg"), ("slippery", "Quay", "60 kg"), ("WINDY", "60 kg", "Quay")):
        at = at.text_input(key="journal_search").set_value(text).run()
        assert there in words(at), text
        assert other not in words(at), text


def test_the_demo_s_journal_stands_for_everybody(demo_log: Log, show: Open):
    for member in people.members(demo_log):
        at = show(demo_log, "journal", member.id)
        assert not at.error
        for name in ("month", "acts"):
            assert not view(at, name).exception


def test_ten_years_are_shown_a_few_sessions_at_a_time(ten_years: Log, show: Open):
    at = show(ten_years, "journal")
    assert sum(1 for button in at.button if button.label == "Edit") == STEP
    at = at.button(key="journal_more").click().run()
    assert sum(1 for button in at.button if button.label == "Edit") == 2 * STEP
    for name in ("month", "acts"):
        assert not view(at, name).exception


def test_a_score_its_time_and_its_note_are_mended_from_the_journal(log: Log, show: Open, wren):
    piece = conditioning.add_piece(log, Piece("Quay", "for time", (Task("burpee", Steady(5)),), rounds=3))
    row = conditioning.log_score(log, wren.id, piece.id, that_day(), Said("8:41"))
    at = show(log, "journal")
    at.button(key=f"journal_open_{row.session_id}").click().run()
    at.pills(key=f"journal_score_{row.session_id}").set_value(row.id).run()
    at.text_input(key=f"mending_{row.id}_text").set_value("8:14")
    at.text_area(key=f"mending_{row.id}_note").set_value("typed it the wrong way round")
    submit(at, "Save the change")
    assert not at.exception
    ((mended,),) = [entry.scores for entry in journal.sessions(log, wren.id)]
    assert (mended.score.time_s, mended.score.note) == (494, "typed it the wrong way round")
    assert "8:14; “typed it the wrong way round”" in words(at)
    at.button(key=f"mending_{row.id}_remove").click().run()
    assert not at.exception
    assert not [score for entry in journal.sessions(log, wren.id) for score in entry.scores]
