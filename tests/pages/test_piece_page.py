"""The page of pieces: entry and history hang together, and what is refused loses nothing; the clock: test_piece_clock.py."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import timedelta

import pytest

from tests.day import this_day
from tests.pages.conftest import Open, tap, words
from tests.pages.pieces import LADDER, ROW, field, scores
from tracker.components.pieces import piece_parts
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.words import parse_score
from tracker.desk.people import people
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.conditioning import Said
from tracker.log import scores as log_scores
from tracker.log.pieces import PieceRow
from tracker.log.records import MemberRecord
from tracker.log.scores import ScoreRow
from tracker.log.unit_of_work import Log


@pytest.fixture
def ladder(log: Log) -> PieceRow:
    return conditioning.add_piece(log, LADDER)


# open


def test_with_no_piece_it_says_what_to_do_and_a_piece_is_written_down_as_a_coach_would(
    show: Open, log: Log, anna: MemberRecord
):
    at = show(log, "conditioning", anna.id)
    assert "No piece is in the log yet" in words(at)
    at.text_area(key="piece_typed").set_value("Weir\nas far as possible in 10:00\nrow")
    next(each for each in at.button if each.label == "Add the piece").click().run()
    assert not at.exception
    assert "As far as possible in 10:00" in words(at)
    assert [row.piece.title for row in conditioning.pieces(log)] == ["Weir"]


def test_a_piece_that_can_not_be_read_says_the_line_and_stays_in_the_field(show: Open, log: Log, anna: MemberRecord):
    at = show(log, "conditioning", anna.id)
    at.text_area(key="piece_typed").set_value("Weir\nsomehow")
    next(each for each in at.button if each.label == "Add the piece").click().run()
    assert "line 2" in words(at)
    assert at.text_area(key="piece_typed").value == "Weir\nsomehow"
    assert conditioning.pieces(log) == ()


def test_every_member_of_the_demo_sees_the_piece_of_today(show: Open, demo_log: Log):
    for member in people.members(demo_log):
        at = show(demo_log, "conditioning", member.id)
        plan = conditioning.piece_day(demo_log, member.id, this_day())
        assert at.selectbox(key="kept_piece").options[0] == f"{plan.planned[0].piece.title} · today"
        assert [each.label for each in at.tabs] == [piece_parts.DO, piece_parts.SCORE, piece_parts.HISTORY]


def test_every_piece_of_the_demo_opens_with_its_form(show: Open, demo_log: Log):
    wren = next(each for each in people.members(demo_log) if each.name == "Wren")
    at = show(demo_log, "conditioning", wren.id)
    for row in conditioning.piece_day(demo_log, wren.id, this_day()).pieces:
        at.selectbox(key="kept_piece").set_value(row.id).run()
        assert not at.exception, row.piece.title
        assert at.button(key="score_log").label.startswith("Log")


def test_ten_years_of_scores_open(show: Open, ten_years: Log):
    member = people.members(ten_years)[0]
    row = conditioning.add_piece(ten_years, LADDER)
    with ten_years.act("ten years") as act:
        for week in range(520):
            score = parse_score(LADDER, this_day() - timedelta(weeks=week), str(120 + week % 60))
            log_scores.add_score(act, member.id, row.id, score)
    at = show(ten_years, "conditioning", member.id)
    assert "Same version (520)" in words(at)
    at = show(ten_years, "load", member.id)
    assert "Every week" in [each.label for each in at.expander]


# a score


def test_three_touches_log_a_score(show: Open, log: Log, anna: MemberRecord, ladder: PieceRow):
    at = show(log, "conditioning", anna.id)
    field(at, "button_group", "_rounds").set_value(5).run()
    field(at, "button_group", "_done_5").set_value(1).run()
    field(at, "button_group", "_reps_5_1").set_value(7).run()
    assert at.button(key="score_log").label == "Log 160 reps"
    tap(at, "score_log")
    assert [row.score.total.known for row in scores(log, anna)] == [160]
    assert "Logged Lantern ladder: 160 reps (in the round of 18: 7 box step-overs)" in words(at)
    assert "160 reps" in words(at)


def test_after_a_score_the_form_is_another_one(show: Open, log: Log, anna: MemberRecord, ladder: PieceRow):
    at = show(log, "conditioning", anna.id)
    before = {each.key for each in at.get("button_group") if each.key and each.key.startswith("score_")}
    field(at, "button_group", "_way").set_value("In words").run()
    field(at, "text_input", "_words").set_value("through the 9s").run()
    tap(at, "score_log")
    after = {each.key for each in at.get("button_group") if each.key and each.key.startswith("score_")}
    assert not before & after  # in the browser a field of the same name would still show what was touched
    assert field(at, "button_group", "_way").value == "How far"


def test_a_lost_count_is_logged_as_a_range_and_shown_as_one(show: Open, log: Log, anna: MemberRecord, ladder: PieceRow):
    conditioning.log_score(log, anna.id, ladder.id, this_day() - timedelta(days=9), Said("150"))
    at = show(log, "conditioning", anna.id)
    field(at, "button_group", "_way").set_value("Lost count").run()
    field(at, "number_input", "_low").set_value(150).run()
    field(at, "number_input", "_high").set_value(165).run()
    tap(at, "score_log")
    assert scores(log, anna)[1].score.total.lost
    assert "between 150 and 165 reps" in words(at)
    figure = json.loads(at.get("plotly_chart")[0].proto.spec)
    lost = next(trace for trace in figure["data"] if trace.get("name") == "count lost")
    assert lost["y"] == [150, 165, None]


def test_what_was_done_instead_is_said_and_stands_beside_not_among(
    show: Open, log: Log, anna: MemberRecord, ladder: PieceRow
):
    conditioning.log_score(log, anna.id, ladder.id, this_day() - timedelta(days=9), Said("150"))
    at = show(log, "conditioning", anna.id)
    field(at, "selectbox", "_swap_2").set_value("push-up from the knees").run()
    field(at, "text_input", "_mark_0").set_value("12 kg").run()
    field(at, "button_group", "_rounds").set_value(3).run()
    tap(at, "score_log")
    newest = scores(log, anna)[1].score
    assert [task.movement for task in newest.tasks] == ["kettlebell swing", "box step-over", "push-up from the knees"]
    assert str(newest.tasks[0].load) == "12 kg"
    assert "Other versions: not compared" in words(at)
    assert "hand-release push-up instead of push-up from the knees" in words(at)


def test_the_history_is_seen_from_any_way_in_which_the_piece_was_done(
    show: Open, log: Log, anna: MemberRecord, ladder: PieceRow
):
    swaps = "hand-release push-up -> push-up from the knees"
    for days_ago, said in ((20, Said("150")), (10, Said("156")), (1, Said("200", swaps))):
        conditioning.log_score(log, anna.id, ladder.id, this_day() - timedelta(days=days_ago), said)
    at = show(log, "conditioning", anna.id)
    assert "Same version (1)" in words(at)
    way = next(each for each in at.selectbox if each.label == "Compare the results done")
    assert way.options == ["push-up from the knees instead of hand-release push-up", "as prescribed"]
    way.set_value(scores(log, anna)[1].id).run()
    assert not at.exception
    assert "Same version (2)" in words(at)
    assert "6 reps more (+4.0 %)" in words(at)


def test_last_times_swaps_are_one_touch(show: Open, log: Log, anna: MemberRecord, ladder: PieceRow):
    swaps = "hand-release push-up -> push-up from the knees"
    conditioning.log_score(log, anna.id, ladder.id, this_day() - timedelta(days=9), Said("150", swaps))
    at = show(log, "conditioning", anna.id)
    at.button(key=next(each.key for each in at.button if each.key.endswith("_as_before"))).click().run()
    field(at, "button_group", "_rounds").set_value(6).run()
    tap(at, "score_log")
    assert [len(row.score.swaps) for row in scores(log, anna)] == [1, 1]


@pytest.mark.parametrize(
    ("typed", "told"),
    [("lots", "no place in the piece"), ("15 + 3", "two things"), ("through the 15s, plus 60", "would have finished")],
)
def test_words_that_can_not_be_read_are_told_and_stay(
    show: Open, log: Log, anna: MemberRecord, ladder: PieceRow, typed: str, told: str
):
    at = show(log, "conditioning", anna.id)
    field(at, "button_group", "_way").set_value("In words").run()
    field(at, "text_input", "_words").set_value(typed).run()
    tap(at, "score_log")
    assert told in words(at)
    assert field(at, "text_input", "_words").value == typed
    assert scores(log, anna) == ()


def test_a_swap_that_says_nothing_is_told_in_place(show: Open, log: Log, anna: MemberRecord, ladder: PieceRow):
    at = show(log, "conditioning", anna.id)
    field(at, "text_input", "_mark_0").set_value("quickly").run()
    assert "says nothing of kettlebell swing" in words(at)
    assert "score_log" not in [each.key for each in at.button]
    field(at, "text_input", "_mark_0").set_value("12 kg").run()
    field(at, "button_group", "_rounds").set_value(3).run()
    tap(at, "score_log")
    assert len(scores(log, anna)) == 1


KINDS = [
    (Piece("A", "for time", (Task("deadlift", Steady(10)), Task("row", Steady(5))), rounds=3, cap_s=480), {"text_input:_time": "6:41"}, "6:41"),
    (Piece("A", "for time", (Task("deadlift", Steady(10)), Task("row", Steady(5))), rounds=3, cap_s=480), {"button_group:_way": "Ran into the cap", "button_group:_rounds": 2, "button_group:_reps_2_0": 4}, "CAP + 11"),
    (Piece("A", "for time", (Task("deadlift", Steady(10)), Task("row", Steady(5))), rounds=3, cap_s=480), {"button_group:_way": "Stopped early", "text_input:_time": "4:00", "button_group:_rounds": 1}, "stopped at 4:00, 1 round"),
    (Piece("A", "every minute", (Task("row", Steady(12), "cal"),), work_s=60, intervals=12, scored_by="completed"), {"button_group:_kept": 11}, "11/12"),
    (Piece("A", "work and rest", (ROW,), work_s=120, rest_s=60, intervals=3), {"text_input:_words": "577, 570, 564"}, "577, 570, 564 m"),
    (Piece("A", "distance", (ROW,), cap_s=600), {"number_input:_amount": 2310}, "2,310 m"),
    (Piece("A", "calories", (Task("row", Steady(1), "cal"),), cap_s=600), {"number_input:_amount": 148}, "148 cal"),
    (Piece("A", "heaviest", (Task("power clean"),), cap_s=720), {"text_input:_words": "92.5"}, "92.5 kg"),
    (Piece("A", "unscored"), {}, "done"),
]  # fmt: skip


@pytest.mark.parametrize(("piece", "touches", "said"), KINDS, ids=[f"{piece.kind}, {said}" for piece, _, said in KINDS])
def test_each_kind_of_piece_has_its_own_form(
    show: Open, log: Log, anna: MemberRecord, piece: Piece, touches: dict[str, object], said: str
):
    conditioning.add_piece(log, piece)
    at = show(log, "conditioning", anna.id)
    for place, value in touches.items():
        kind, ending = place.split(":")
        field(at, kind, ending).set_value(value).run()
    tap(at, "score_log")
    assert f"Logged A: {said}" in words(at)
    assert len(scores(log, anna)) == 1


def test_a_second_touch_of_log_is_no_second_score(show: Open, log: Log, anna: MemberRecord, ladder: PieceRow):
    from tracker.components.pieces import score_entry

    seen: list[str | None] = []
    whole = conditioning.log_score

    def twice(*args: object, **named: object) -> ScoreRow:
        seen.append(named["token"])
        whole(*args, **named)
        return whole(*args, **named)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(score_entry.conditioning, "log_score", twice)
        at = show(log, "conditioning", anna.id)
        field(at, "button_group", "_rounds").set_value(3).run()
        tap(at, "score_log")
    assert seen[0]
    assert len(scores(log, anna)) == 1


# mending


def test_a_score_is_mended_removed_and_brought_back(show: Open, log: Log, anna: MemberRecord, ladder: PieceRow):
    row = conditioning.log_score(log, anna.id, ladder.id, this_day(), Said("160"))
    at = show(log, "conditioning", anna.id)
    tap(at, f"mend_score_{row.id}")
    at.text_input(key=f"mending_{row.id}_text").set_value("through the 15s, plus 26")
    next(each for each in at.button if each.label == "Save the change").click().run()
    assert scores(log, anna)[0].score.total.known == 161
    tap(at, f"mend_score_{row.id}")
    tap(at, f"mending_{row.id}_remove")
    assert scores(log, anna) == ()
    tap(at, "frame_undo")
    assert scores(log, anna)[0].score.total.known == 161


def test_no_result_is_chosen_that_nobody_gave_and_a_stray_touch_logs_none(show: Open, log: Log, anna: MemberRecord):
    for kind in dict.fromkeys(piece.kind for piece, _, _ in KINDS if piece.kind != "unscored"):
        piece = next(each for each, _, _ in KINDS if each.kind == kind)
        row = conditioning.add_piece(log, replace(piece, title=f"Of {kind}"))
        at = show(log, "conditioning", anna.id, piece=row.id)
        ways = [each.key for each in at.get("button_group") if each.key and each.key.endswith("_way")]
        offered = at.button_group(key=ways[0]).options if ways else [""]
        for way in offered:
            if ways:
                at.button_group(key=ways[0]).set_value(way).run()
            assert at.button(key="score_log").label == "Log it", (kind, way)
            tap(at, "score_log")
            assert "Not saved." in words(at), (kind, way)
    assert scores(log, anna) == ()


def test_the_last_score_offers_its_place_but_is_not_taken_for_the_new_one(
    show: Open, log: Log, anna: MemberRecord, ladder: PieceRow
):
    conditioning.log_score(log, anna.id, ladder.id, this_day() - timedelta(days=9), Said("through the 24s"))
    at = show(log, "conditioning", anna.id)
    rounds = field(at, "button_group", "_rounds")
    assert rounds.value is None
    assert "round of 24" in {each.content for each in rounds.proto.options}
    assert at.button(key="score_log").label == "Log it"


def test_two_notes_of_a_piece_stand_apart(show: Open, log: Log, anna: MemberRecord):
    text = "Mill wheel\n3 rounds for time\n5 burpee\nNote: partners wait outside\nNote: no dropping"
    row = conditioning.add_piece_in_words(log, text)
    at = show(log, "conditioning", anna.id, piece=row.id)
    assert [each.value for each in at.caption if "o" in each.value][:2] == ["partners wait outside", "no dropping"]


# cautions


def test_after_weeks_off_the_caution_stands_before_the_piece_and_is_put_away_for_the_day(
    show: Open, log: Log, anna: MemberRecord, ladder: PieceRow
):
    conditioning.log_score(log, anna.id, ladder.id, this_day() - timedelta(days=40), Said("160"))
    at = show(log, "conditioning", anna.id)
    assert "Exercise that one is not used to can, rarely, harm muscle badly." in words(at)
    assert "Very dark urine" in words(at)
    tap(at, "cautions_seen")
    assert "harm muscle badly" not in words(at)
    assert "When to stop" in [each.label for each in at.expander]


def test_the_page_of_the_day_names_the_piece_of_its_step_and_then_what_was_got(show: Open, demo_log: Log):
    wren = next(each for each in people.members(demo_log) if each.name == "Wren")
    assert "Piece: Lantern ladder.</b> As many reps as possible in 12:00" in words(show(demo_log, "", wren.id))
    row = conditioning.piece_day(demo_log, wren.id, this_day()).planned[0]
    conditioning.log_score(demo_log, wren.id, row.id, this_day(), Said("through the 15s"))
    assert "Piece: Lantern ladder.</b> 135 reps (round of 15 done)" in words(show(demo_log, "", wren.id))
