"""Which of two written numbers is a member's: kept with the member, and whatever they see or score is on that side."""

from __future__ import annotations

import json
from datetime import timedelta

import pytest
from sqlalchemy import update

from tests.day import this_day
from tests.desk.ladders import all_scores, scored
from tests.stores import address_of
from tests.undoing import newest_act
from tests.with_pieces import put_into_step
from tracker.conditioning.asked import movement_lines
from tracker.conditioning.piece_record import piece_from
from tracker.conditioning.words import score_words
from tracker.desk.base.opening import open_log
from tracker.desk.coach import class_sheet, send_result, take_results
from tracker.desk.coach.class_print import page_of
from tracker.desk.day import dismissed_cautions as seen
from tracker.desk.files import deletion
from tracker.desk.files.check import check_log
from tracker.desk.files.export import export
from tracker.desk.history import journal
from tracker.desk.people import people
from tracker.desk.pieces import clocks, conditioning, piece_history
from tracker.desk.pieces.conditioning import Said
from tracker.desk.pieces.piece_side import SideUnknownError, choose_side, side_of
from tracker.errors import BadInputError
from tracker.log import waves as log_waves
from tracker.log.models import Change
from tracker.log.undo import undo
from tracker.log.waves import NewStep

HARBOUR = piece_from({
    "title": "Harbour wall", "kind": "for time", "rounds": 3, "cap": "15:00",
    "movement": [
        {"name": "row", "sides": [12, 9], "measure": "cal"},
        {"name": "thruster", "first": 10, "load": ["43", "30"], "unit": "kg",
         "options": [{"name": "dumbbell thruster", "load": ["15", "10"], "unit": "kg", "when": "home"}]},
    ],
})  # fmt: skip
QUAY = piece_from({
    "title": "Quay", "kind": "as many as possible", "cap": "10:00",
    "movement": [{"name": "wall ball", "first": 10, "load": ["9", "6"], "unit": "kg"}],
})  # fmt: skip


@pytest.fixture
def harbour(log):
    return conditioning.add_piece(log, HARBOUR)


@pytest.fixture
def quay(log):
    return conditioning.add_piece(log, QUAY)


def shown(log, member, row):
    rows = conditioning.piece_day(log, member.id, this_day()).pieces
    return movement_lines(next(each for each in rows if each.id == row.id).piece)


def test_nothing_is_assumed_until_the_member_has_said_it(log, ana, harbour):
    assert side_of(log, ana.id) is None
    assert shown(log, ana, harbour) == ("12/9 cal row", "10 thrusters, 43/30 kg")
    with pytest.raises(SideUnknownError, match="Which of the two numbers is yours") as refused:
        scored(log, ana, harbour, "9:30")
    assert "12 cal, 43 kg or 9 cal, 30 kg" in str(refused.value)
    assert all_scores(log, ana) == ()


def test_it_is_said_once_and_holds_for_later_pieces_of_this_member_alone(log, ana, harbour, quay):
    ben = people.add_member(log, "Ben")
    choose_side(log, ana.id, "smaller", harbour.id)
    assert shown(log, ana, harbour) == ("9 cal row", "10 thrusters, 30 kg")
    assert shown(log, ana, quay) == ("10 wall balls, 6 kg",)
    assert shown(log, ben, harbour) == ("12/9 cal row", "10 thrusters, 43/30 kg")
    assert [movement_lines(row.piece) for row in conditioning.pieces(log)] == [
        ("12/9 cal row", "10 thrusters, 43/30 kg"), ("10 wall balls, 9/6 kg",)
    ]  # fmt: skip  # what the gym gave out stays a pair


def test_a_piece_may_differ_and_the_last_choice_is_the_rule_for_others(log, ana, harbour, quay):
    choose_side(log, ana.id, "smaller", harbour.id)
    choose_side(log, ana.id, "larger", quay.id)
    assert (side_of(log, ana.id, harbour.id), side_of(log, ana.id, quay.id)) == ("smaller", "larger")
    assert side_of(log, ana.id, "another piece") == "larger"
    choose_side(log, ana.id, "smaller")  # in the preferences: for all
    assert {side_of(log, ana.id, each) for each in (harbour.id, quay.id, "")} == {"smaller"}


def test_a_choice_can_be_taken_back_as_any_act(log, ana, harbour):
    choose_side(log, ana.id, "smaller", harbour.id)
    choose_side(log, ana.id, "larger", harbour.id)
    last = newest_act(log, ana.id)
    assert last.words == "took 12 cal, 43 kg in Harbour wall"
    undo(log, last.act_id)
    assert side_of(log, ana.id, harbour.id) == "smaller"
    undo(log, newest_act(log, ana.id).act_id)
    assert side_of(log, ana.id, harbour.id) is None


@pytest.mark.parametrize("wrong", ["middle", "", "Larger"])
def test_there_are_two_sides(log, ana, wrong):
    with pytest.raises(BadInputError, match="none of the two"):
        choose_side(log, ana.id, wrong)


def test_a_score_keeps_its_side_whatever_is_chosen_later(log, ana, harbour):
    choose_side(log, ana.id, "smaller", harbour.id)
    row = scored(log, ana, harbour, "CAP + 13", days_ago=1)
    assert row.score.total.known == 3 * (9 + 10) - 13
    assert (row.score.piece.side, row.score.piece.yours) == ("smaller", "9 cal, 30 kg")
    choose_side(log, ana.id, "larger", harbour.id)
    assert score_words(all_scores(log, ana)[0].score) == "CAP + 13"
    mended = conditioning.mend_score(log, row.id, Said("CAP + 12"))
    assert (mended.score.piece.side, mended.score.total.known) == ("smaller", 3 * 19 - 12)
    once = scored(log, ana, harbour, "CAP + 13", side="larger")
    assert once.score.total.known == 3 * (12 + 10) - 13


def test_history_shows_the_other_side_beside_and_says_what_was_done(log, ana, harbour):
    choose_side(log, ana.id, "smaller", harbour.id)
    scored(log, ana, harbour, "9:30", days_ago=14)
    scored(log, ana, harbour, "10:10", days_ago=7, side="larger")
    scored(log, ana, harbour, "9:10")
    history = piece_history.piece_history(log, ana.id, "Harbour wall")
    assert [line.said for line in history.like] == ["9:10", "9:30"]
    assert [line.swaps for line in history.lines][:2] == [("with 9 cal, 30 kg",), ("with 12 cal, 43 kg",)]
    assert "thruster: 43 kg instead of 30 kg" in history.unlike[0].differs
    assert [words for _, words in history.variants] == ["with 9 cal, 30 kg", "with 12 cal, 43 kg"]


def test_the_clock_runs_before_anything_was_said(log, ana, harbour):
    assert clocks.start_clock(log, ana.id, harbour.id, this_day()).piece_id == harbour.id


def test_the_result_says_the_load_and_comes_into_the_coachs_log_on_its_side(log, ana, harbour, fresh):
    choose_side(log, ana.id, "smaller", harbour.id)
    scored(log, ana, harbour, "9:30")
    line, content = (
        send_result.result_line(log, ana.id, this_day()),
        send_result.result_file(log, ana.id, this_day())[1],
    )
    assert "| with 9 cal, 30 kg |" in line
    assert "30" in json.dumps(json.loads(content)["scores"][0]["piece"])
    coach = open_log(str(fresh()))
    try:
        people.add_member(coach, "Ana")
        conditioning.add_piece(coach, HARBOUR)
        assert not take_results.take_results(coach, line).broken
        again = take_results.take_file(coach, "result", content)
        assert not again.broken
        assert again.taken[0].new == 0
        member = people.members(coach)[0]
        (row,) = all_scores(coach, member)
        assert (row.score.piece.yours, score_words(row.score)) == ("9 cal, 30 kg", "9:30")
        assert len(conditioning.pieces(coach)) == 1
    finally:
        coach.close()


def test_a_result_brings_a_piece_along_that_the_coach_does_not_have(log, ana, harbour, fresh):
    choose_side(log, ana.id, "smaller", harbour.id)
    scored(log, ana, harbour, "9:30")
    _, content = send_result.result_file(log, ana.id, this_day())
    coach = open_log(str(fresh()))
    try:
        people.add_member(coach, "Ana")
        for new in (1, 0):
            taken = take_results.take_file(coach, "result", content)
            assert not taken.broken
            assert taken.taken[0].new == new
        (row,) = all_scores(coach, people.members(coach)[0])
        assert movement_lines(row.score.piece) == ("9 cal row", "10 thrusters, 30 kg")
    finally:
        coach.close()


def test_the_class_sees_the_pair(log, ana, harbour):
    choose_side(log, ana.id, "smaller", harbour.id)
    with log.act("wave") as act:
        wave_id = log_waves.add_wave(act, "Tide", [NewStep("Tide 1", 0, [])])
        step = next(each for each in log_waves.wave_steps(act.session) if each.wave_id == wave_id)
    put_into_step(log, step.id, harbour.id)
    sheet = class_sheet.class_sheet(log, step.id, [ana.id], this_day())
    ((title, words),) = page_of(sheet).pieces
    assert title == "Harbour wall"
    assert "12/9 cal row" in words
    assert "43/30 kg" in words


def test_it_is_in_the_export_and_goes_with_the_member(log, ana, harbour, tmp_path):
    choose_side(log, ana.id, "smaller", harbour.id)
    export(log, tmp_path / "out")
    assert '""side"": ""smaller""' in (tmp_path / "out" / "changes.csv").read_text(encoding="utf-8")
    assert '"smaller"' in (tmp_path / "out" / "log.json").read_text(encoding="utf-8")
    deletion.delete_member(log, ana.id, "Ana")
    with log.reading() as session:
        assert not [each for each in session.query(Change) if each.record == "sides"]
    assert side_of(log, ana.id) is None


def test_the_history_tells_it_and_the_log_is_whole(log, ana, harbour):
    choose_side(log, ana.id, "smaller", harbour.id)
    assert journal.acts(log, ana.id)[0].words == "took 9 cal, 30 kg in Harbour wall"
    assert check_log(address_of(log)).problems == ()


def test_a_choice_is_sealed_as_any_entry_and_so_is_its_undoing(log, ana, harbour):
    choose_side(log, ana.id, "smaller", harbour.id)
    undo(log, newest_act(log, ana.id).act_id)
    choose_side(log, ana.id, "larger")
    assert check_log(address_of(log)).problems == ()
    with log.engine.begin() as connection:
        connection.execute(update(Change).where(Change.record == "sides").values(after={"side": "larger", "piece": ""}))
    assert check_log(address_of(log)).problems != ()


def test_days_do_not_matter(log, ana, harbour):
    choose_side(log, ana.id, "smaller")
    ahead = conditioning.piece_day(log, ana.id, this_day() + timedelta(days=40))
    assert ahead.pieces[0].piece.side == "smaller"


def test_cautions_put_away_are_no_problem_of_the_log_either(log, ana):
    seen.put_away(log, ana.id, ["pins"], this_day())
    assert check_log(address_of(log)).problems == ()
