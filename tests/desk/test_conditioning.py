"""Pieces at the desk: a score in the words of the gym, a clock that nothing stops, like beside unlike, and load by week."""

from contextlib import suppress
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal

import pytest
from sqlalchemy import text

from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk import clocks, conditioning, journal, people, training
from tracker.desk.conditioning import Said
from tracker.desk.piece_care import cautions
from tracker.desk.piece_entry import as_said, asked_ladder, splits_text, swap_choices, swap_text, touched
from tracker.desk.piece_history import piece_history, titles
from tracker.errors import BadInputError
from tracker.log import pieces as log_pieces
from tracker.log import waves as log_waves
from tracker.log.keeper import ChangedSinceError, undo
from tracker.log.scores import one_score, scores_of
from tracker.log.sets import NewSet, training_days
from tracker.log.waves import NewStep
from tracker.safety import ECCENTRIC, RETURN, WATCH
from tracker.units import Mass, parse_mass

TODAY = date.today()
RUN = Steady(3, 3)
LADDER = Piece(
    "Lantern ladder",
    "as many as possible",
    (
        Task("kettlebell swing", RUN, load=parse_mass("16kg"), implement="kettlebell", standard="to eye height"),
        Task("box step-over", RUN, height_cm=Decimal(50)),
        Task("hand-release push-up", RUN, options=(Task("push-up, hands on a box", RUN, height_cm=Decimal(60)),)),
    ),
    cap_s=720,
)
TIMED = Piece(
    "Downhill",
    "for time",
    (Task("deadlift", Steady(10), load=parse_mass("60kg")),),
    rounds=3,
    cap_s=300,
    tie_break="round 2",
)
KNEES = "hand-release push-up -> push-up from the knees"


@pytest.fixture
def ana(log):
    return people.add_member(log, "Ana")


@pytest.fixture
def ladder(log):
    return conditioning.add_piece(log, LADDER)


def scored(log, member, piece, said, days_ago=0, **named):
    words = said if isinstance(said, Said) else Said(said)
    return conditioning.log_score(log, member.id, piece.id, TODAY - timedelta(days=days_ago), words, **named)


def all_scores(log, member, **named):
    with log.reading() as session:
        return scores_of(session, member.id, **named)


# scores


def test_a_score_called_across_the_gym_is_in_the_log_in_full(log, ana, ladder):
    said = Said("through the 15s, plus 25", KNEES, "0:35 1:48 3:39 6:10 9:24", note=" hot ")
    row = scored(log, ana, ladder, said, token="tap-1")
    assert (row.score.total.known, row.score.splits_s, row.score.note) == (160, (35, 108, 219, 370, 564), "hot")
    assert [task.movement for task in row.score.tasks][2] == "push-up from the knees"
    with log.reading() as session:
        columns = session.execute(text("SELECT low, high, ended, as_prescribed, note, token FROM scores")).one()
        assert columns == (160, 160, "finished", 0, "hot", "tap-1")
        assert training_days(session, ana.id, TODAY) == (TODAY,)


def test_a_lost_count_is_kept_as_a_range(log, ana, ladder):
    row = scored(log, ana, ladder, "between 150 and 160")
    assert (row.score.total.low, row.score.total.high) == (150, 160)
    with log.reading() as session:
        assert session.execute(text("SELECT low, high FROM scores")).one() == (150, 160)


@pytest.mark.parametrize(
    ("said", "complaint"),
    [
        (Said("rather a lot"), "no place in the piece"),
        (Said("through the 15s, plus 60"), "would have finished"),
        (Said("15 + 3"), "two things"),
        (Said("160", "rowing -> running"), "swaps no movement"),
        (Said("160", splits="3:00 2:00"), "ends after"),
        (Said("160", note="x" * 2001), "too long"),
    ],
)
def test_what_can_not_be_is_refused_and_nothing_is_written(log, ana, ladder, said, complaint):
    before = log.revision()
    with pytest.raises(BadInputError, match=complaint):
        scored(log, ana, ladder, said)
    assert log.revision() == before


def test_a_second_tap_is_the_same_score(log, ana, ladder):
    assert scored(log, ana, ladder, "160", token="t") == scored(log, ana, ladder, "160", token="t")
    assert len(all_scores(log, ana)) == 1


def test_every_kind_of_piece_is_logged(log, ana):
    row = Task("row", Steady(1), "m")
    kinds = [
        (TIMED, "4:41"),
        (Piece("Weir", "work and rest", (row,), work_s=120, rest_s=60, intervals=5), "577, 570, 564, 554, 548 m"),
        (Piece("Sluice", "every minute", (Task("sit-up", Steady(15)),), work_s=60, intervals=12), "11/12"),
        (Piece("Rower", "calories", (Task("row", Steady(1), "cal"),), cap_s=600), "148 cal"),
        (Piece("Far", "distance", (row,), cap_s=600), "2,310 m"),
        (Piece("Heavy", "heaviest", (Task("power clean"),), cap_s=720), "92.5 kg"),
        (Piece("Easy", "unscored"), "done"),
    ]
    for piece, said in kinds:
        scored(log, ana, conditioning.add_piece(log, piece), said)
    assert [as_said(each.score).text for each in all_scores(log, ana)] == [said for _, said in kinds]


def test_a_cap_and_a_tie_break_are_kept_in_columns_of_their_own(log, ana):
    piece = conditioning.add_piece(log, TIMED)
    scored(log, ana, piece, Said("CAP + 7", tie_break="3:10"))
    with log.reading() as session:
        assert session.execute(text("SELECT ended, low, time_s, tie_break_s FROM scores")).one() == (
            "capped",
            23,
            None,
            190,
        )


def test_mending_changes_what_is_said_and_leaves_the_rest(log, ana, ladder):
    row = scored(log, ana, ladder, Said("160", f"{KNEES}; kettlebell swing -> kettlebell swing, 12 kg", note="hot"), 2)
    said = as_said(row.score)
    assert said.swaps == f"{KNEES}; kettlebell swing -> kettlebell swing, 12 kg"
    mended = conditioning.mend_score(log, row.id, Said("170", said.swaps, note=said.note), TODAY - timedelta(days=1))
    assert (mended.score.total.known, mended.score.day) == (170, TODAY - timedelta(days=1))
    assert (mended.score.swaps, mended.score.note) == (row.score.swaps, "hot")
    training.undo_last(log, ana.id)
    with log.reading() as session:
        assert one_score(session, row.id) == row


def test_mending_in_the_same_words_changes_nothing(log, ana, ladder):
    row = scored(
        log, ana, ladder, Said("between 150 and 160", "hand-release push-up -> push-up, hands on a box, 75 cm")
    )
    assert conditioning.mend_score(log, row.id, as_said(row.score)).score == row.score


def test_a_removed_score_is_gone_everywhere_and_comes_back(log, ana, ladder):
    row = scored(log, ana, ladder, "160")
    conditioning.remove_score(log, row.id)
    assert all_scores(log, ana) == ()
    assert all_scores(log, ana, removed=True)[0].removed_at is not None
    with pytest.raises(BadInputError, match="not in the log any more"):
        conditioning.remove_score(log, row.id)
    assert training.undo_last(log, ana.id) == "removed Lantern ladder: through the 15s, plus 25 (1 movement and 7)"
    assert all_scores(log, ana) == (row,)


def test_undo_of_a_score_takes_the_session_that_it_began_away_too(log, ana, ladder):
    scored(log, ana, ladder, "160")
    training.undo_last(log, ana.id)
    with log.reading() as session:
        assert session.execute(text("SELECT (SELECT count(*) FROM scores), (SELECT count(*) FROM sessions)")).one() == (
            0,
            0,
        )


def test_a_piece_that_is_put_away_keeps_its_scores(log, ana, ladder):
    scored(log, ana, ladder, "160")
    conditioning.remove_piece(log, ladder.id, ana.id)
    assert conditioning.pieces(log) == ()
    assert piece_history(log, ana.id, "lantern LADDER").lines[0].said.startswith("through the 15s")


# entry


def test_three_touches_and_what_was_swapped_make_the_words(log, ana, ladder):
    swapped = asked_ladder(ladder.piece, KNEES)
    assert touched(swapped, 5, 1, 7) == "through the 15s, plus 25 (1 movement and 7)"
    with pytest.raises(BadInputError, match="Probably meant"):
        touched(swapped, 5, 3, 0)


def test_the_coachs_alternatives_come_first_and_a_members_own_after_them(log, ana, ladder):
    bo = people.add_member(log, "Bo")
    with log.act("own", ana.id) as act:
        log_pieces.add_option(act, ladder.id, 2, Task("push-up on rings", RUN), ana.id)
    with log.act("coach") as act:
        log_pieces.add_option(act, ladder.id, 2, Task("push-up against a wall", RUN))
    mine, theirs = (conditioning.pieces(log, each.id)[0] for each in (ana, bo))
    assert [option.movement for option in mine.piece.tasks[2].options] == [
        "push-up, hands on a box", "push-up against a wall", "push-up on rings",
    ]  # fmt: skip
    assert "push-up on rings" not in [choice.name for choice in swap_choices(theirs, 2)]
    choices = swap_choices(theirs, 2)
    assert [choice.source for choice in choices] == ["coach", "coach", *[""] * (len(choices) - 2)]
    assert [choice.source for choice in swap_choices(mine, 2)][:3] == ["coach", "coach", "own"]
    assert swap_text("row", "run") == "row -> run"
    assert swap_text("swing", mark="12 kg") == "swing -> swing, 12 kg"
    assert swap_text("row") == ""


def test_a_piece_is_added_as_a_coach_writes_it(log, ana):
    text = "Lantern\nas many reps as possible in 12:00, 3 up by 3\nkettlebell swing, 16 kg kettlebell\nhand-release push-up\nor push-up from the knees"
    row = conditioning.add_piece_in_words(log, text, ana.id)
    assert (row.piece.title, row.piece.cap_s, row.piece.ladder.at(2)) == ("Lantern", 720, (9, 9))
    assert [option.movement for option in row.piece.tasks[1].options] == ["push-up from the knees"]
    assert conditioning.pieces(log) == (row,)


@pytest.mark.parametrize(
    ("text", "complaint"),
    [
        ("", "says nothing yet"),
        ("Lantern", "says nothing yet"),
        ("\u0007\nfor time\nrow", "says nothing|can't be shown"),
        ("Lantern\nrubbish", "line 2"),
        ("A\n3 rounds for time\n10 row\n\nPiece: B\n3 rounds for time\n10 row", "more than one"),
    ],
)
def test_a_piece_that_can_not_be_read_is_refused_with_the_line(log, ana, text, complaint):
    before = log.revision()
    with pytest.raises(BadInputError, match=complaint):
        conditioning.add_piece_in_words(log, text, ana.id)
    assert log.revision() == before


def test_a_movement_that_nobody_offered_is_one_touch_the_next_time(log, ana, ladder):
    scored(
        log,
        ana,
        ladder,
        Said("160", "box step-over -> stair climb; hand-release push-up -> push-up, hands on a box"),
        3,
    )
    row = conditioning.pieces(log, ana.id)[0]
    assert [(choice.name, choice.source) for choice in swap_choices(row, 1)] == [("stair climb", "own")]
    scored(log, ana, row, Said("165", "box step-over -> stair climb"))
    assert len(swap_choices(conditioning.pieces(log, ana.id)[0], 1)) == 1
    history = piece_history(log, ana.id, "Lantern ladder")
    assert [line.like for line in history.lines] == [True, False]  # the push-ups were another form
    training.undo_last(log, ana.id)
    training.undo_last(log, ana.id)
    assert swap_choices(conditioning.pieces(log, ana.id)[0], 1) == ()


# today


def test_the_step_of_the_wave_brings_its_piece_and_is_done_with_it(log, ana, ladder):
    other = conditioning.add_piece(log, TIMED)
    with log.act("wave") as act:
        wave = log_waves.add_wave(act, "Tide", [NewStep("piece only", 0, ()), NewStep("later", 7, ())])
        log_waves.start_wave(act, ana.id, wave, TODAY)
        step = log_waves.member_steps(act.session, ana.id)[0]
    conditioning.put_into_step(log, step.step_id, other.id)
    found = conditioning.piece_day(log, ana.id, TODAY)
    assert ([row.id for row in found.planned], [row.id for row in found.others]) == ([other.id], [ladder.id])
    scored(log, ana, other, "4:41", member_step_id=step.id)
    found = conditioning.piece_day(log, ana.id, TODAY)
    assert (found.step.id, found.step.state, len(found.scores)) == (step.id, "done", 1)
    training.undo_last(log, ana.id)
    assert conditioning.piece_day(log, ana.id, TODAY).step.state == "planned"


def test_without_a_step_the_most_lately_done_piece_is_offered_first(log, ana, ladder):
    other = conditioning.add_piece(log, TIMED)
    scored(log, ana, other, "4:41", 3)
    scored(log, ana, ladder, "160", 1)
    found = conditioning.piece_day(log, ana.id, TODAY)
    assert (found.step, [row.id for row in found.pieces]) == (None, [ladder.id, other.id])


def test_of_one_title_the_newest_piece_is_offered_and_one_put_away_is_not(log, ana, ladder):
    newer = conditioning.add_piece(log, replace(LADDER, cap_s=900))
    assert [row.id for row in conditioning.piece_day(log, ana.id, TODAY).pieces] == [newer.id]
    with log.act("wave") as act:
        wave = log_waves.add_wave(act, "Tide", [NewStep("piece only", 0, ())])
        log_waves.start_wave(act, ana.id, wave, TODAY)
        step = log_waves.member_steps(act.session, ana.id)[0]
    conditioning.put_into_step(log, step.step_id, ladder.id)
    assert [row.id for row in conditioning.piece_day(log, ana.id, TODAY).pieces] == [ladder.id]
    conditioning.remove_piece(log, ladder.id, ana.id)
    assert [row.id for row in conditioning.piece_day(log, ana.id, TODAY).pieces] == [newer.id]


# cautions


def test_a_piece_that_lowers_the_body_often_is_warned_of_after_two_weeks_off_and_on_the_days_after(log, ana, ladder):
    scored(log, ana, ladder, "160", 60)
    scored(log, ana, ladder, "160", 45)
    scored(log, ana, ladder, "160", 2)
    scene_then = conditioning.piece_day(log, ana.id, TODAY)
    assert scene_then.watch == (WATCH,)
    then = conditioning.piece_day(log, ana.id, TODAY + timedelta(days=5))
    assert then.watch == ()


def test_cautions_before_the_piece_follow_the_last_go_and_the_days_off(log, ana, ladder):
    scored(log, ana, ladder, "160", 60)
    back = cautions(log, ana, ladder.piece, TODAY)
    assert ECCENTRIC in back
    assert WATCH in back
    assert RETURN in back
    few = conditioning.add_piece(log, Piece("Weir", "distance", (Task("row", Steady(1), "m"),), cap_s=600))
    assert ECCENTRIC not in cautions(log, ana, few.piece, TODAY)


# the clock


def test_a_clock_goes_on_through_a_locked_phone_and_its_taps_are_the_splits(log, ana, ladder):
    now = datetime.now(UTC).timestamp() - 400
    clock = clocks.start_clock(log, ana.id, ladder.id, TODAY, at=now)
    for after in (45, 118, 229):
        clocks.tap_round(log, clock.id, at=now + after)
    seen = clocks.open_clock(log, ana.id)  # as another device, or the same one after a reload
    assert seen.id == clock.id
    assert seen.clock.splits_s == (35, 108, 219)
    assert seen.clock.reading(now + 400).phase == "work"
    stopped = clocks.stop_clock(log, clock.id, at=now + 400)
    assert stopped.clock.stopped == pytest.approx(now + 400, abs=1e-3)
    row = scored(log, ana, ladder, Said("through the 9s, plus 5", splits=splits_text(stopped.clock)), clock_id=clock.id)
    assert (row.score.splits_s, row.clock_id) == ((35, 108, 219), clock.id)
    assert clocks.open_clock(log, ana.id) is None


def test_touching_start_twice_starts_one_clock_and_two_pieces_have_not_both_a_clock(log, ana, ladder):
    other = conditioning.add_piece(log, TIMED)
    first = clocks.start_clock(log, ana.id, ladder.id, TODAY)
    assert clocks.start_clock(log, ana.id, ladder.id, TODAY).id == first.id
    with pytest.raises(BadInputError, match="another piece"):
        clocks.start_clock(log, ana.id, other.id, TODAY)
    clocks.put_clock_away(log, first.id)
    assert clocks.start_clock(log, ana.id, other.id, TODAY).piece_id == other.id
    with pytest.raises(BadInputError, match="put away"):
        clocks.tap_round(log, first.id)


def test_a_tap_is_taken_back_by_hand_or_by_undo(log, ana, ladder):
    now = datetime.now(UTC).timestamp() - 300
    clock = clocks.start_clock(log, ana.id, ladder.id, TODAY, at=now)
    for after in (45, 118, 119, 229):
        clocks.tap_round(log, clock.id, at=now + after)
    assert clocks.untap_round(log, clock.id).clock.splits_s == (35, 108, 109)
    clocks.untap_round(log, clock.id)
    assert training.undo_last(log, ana.id) == "took a tap back"
    assert clocks.open_clock(log, ana.id).clock.splits_s == (35, 108, 109)


def test_taps_from_two_phones_at_once_are_both_kept(log, ana, ladder):
    now = datetime.now(UTC).timestamp() - 300
    clock = clocks.start_clock(log, ana.id, ladder.id, TODAY, at=now)
    clocks.tap_round(log, clock.id, at=now + 45)
    clocks.tap_round(log, clock.id, at=now + 118)  # the second phone's page never saw the first tap
    assert clocks.open_clock(log, ana.id).clock.splits_s == (35, 108)


def test_a_bounce_and_a_tap_after_the_end_are_no_acts(log, ana, ladder):
    now = datetime.now(UTC).timestamp() - 2000
    clock = clocks.start_clock(log, ana.id, ladder.id, TODAY, at=now)
    clocks.tap_round(log, clock.id, at=now + 45)
    before = log.revision()
    clocks.tap_round(log, clock.id, at=now + 45.3)
    clocks.tap_round(log, clock.id, at=now + 1999)
    assert log.revision() == before


def test_logging_stops_a_clock_that_still_runs(log, ana, ladder):
    clock = clocks.start_clock(log, ana.id, ladder.id, TODAY, at=datetime.now(UTC).timestamp() - 60)
    scored(log, ana, ladder, "20", clock_id=clock.id)
    with log.reading() as session:
        assert session.execute(text("SELECT stopped_at IS NOT NULL FROM piece_clocks")).scalar() == 1
    training.undo_last(log, ana.id)
    assert clocks.open_clock(log, ana.id).clock.stopped is None


# history


def test_like_results_stand_together_and_unlike_ones_beside_marked(log, ana, ladder):
    for days_ago, said in ((30, "150"), (20, Said("200", KNEES)), (10, "between 155 and 165"), (0, "160")):
        scored(log, ana, ladder, said, days_ago)
    found = piece_history(log, ana.id, "Lantern ladder")
    assert [line.said for line in found.like] == [
        "through the 15s, plus 25 (1 movement and 7)",
        "between 155 and 165 reps",
        "through the 15s, plus 15",
    ]
    (other,) = found.unlike
    assert other.differs == ("push-up from the knees instead of hand-release push-up",)
    assert (other.best, other.amount) == ("", (200, 200))
    assert [line.best for line in found.like] == ["perhaps best", "perhaps best", ""]
    assert [line.amount for line in found.like] == [(160, 160), (155, 165), (150, 150)]
    assert (
        found.like[1].where
        == "through the 15s, plus 20 (1 movement and 2) to through the 15s, plus 30 (1 movement and 12)"
    )


def test_seen_from_the_unlike_one_the_others_are_unlike(log, ana, ladder):
    scored(log, ana, ladder, "150", 30)
    row = scored(log, ana, ladder, Said("200", KNEES), 20)
    found = piece_history(log, ana.id, "Lantern ladder", score_id=row.id)
    assert [line.row.id for line in found.like] == [row.id]
    assert found.change is None


def test_a_change_is_told_in_one_sentence_and_early_goes_are_learning(log, ana, ladder):
    for days_ago, said in ((40, "150"), (30, "158"), (20, "166")):
        scored(log, ana, ladder, said, days_ago)
    early = piece_history(log, ana.id, "Lantern ladder")
    assert early.change.verdict == "learning"
    assert [line.learning[:4] for line in early.lines] == ["go 3", "go 2", "go 1"]
    scored(log, ana, ladder, "172", 10)
    later = piece_history(log, ana.id, "Lantern ladder").change
    assert (later.verdict, later.exposure) == ("within", 4)
    assert later.sentence.startswith("6 reps more (+3.6 %): inside what it varies by from test to test")
    assert "Engel et al. 2019" in later.sentence


def test_a_capped_result_is_never_a_time(log, ana):
    piece = conditioning.add_piece(log, TIMED)
    scored(log, ana, piece, "4:41", 10)
    scored(log, ana, piece, "CAP + 7")
    found = piece_history(log, ana.id, "Downhill")
    newest, first = found.lines
    assert (newest.beyond, newest.amount, first.beyond, first.amount) == (True, (300, 300), False, (281, 281))
    assert (first.best, newest.best, found.less_is_better, found.change) == ("best", "", True, None)


def test_a_changed_piece_of_the_same_title_is_beside_as_unlike(log, ana, ladder):
    scored(log, ana, ladder, "150", 10)
    longer = conditioning.add_piece(log, replace(LADDER, cap_s=900))
    scored(log, ana, longer, "190")
    found = piece_history(log, ana.id, "Lantern ladder")
    assert [(line.like, line.differs) for line in found.lines] == [(True, ()), (False, ("cap 12:00 instead of 15:00",))]
    assert titles(log, ana.id) == ("Lantern ladder",)


def test_the_mean_of_the_three_before_needs_six_goes(log, ana, ladder):
    for days_ago, total in enumerate((170, 168, 166, 164, 158, 150, 140)):
        scored(log, ana, ladder, str(total), days_ago)
    assert piece_history(log, ana.id, "Lantern ladder").mean_before == "Mean of the 3 like results before: 166 reps."


def test_a_load_is_shown_in_the_unit_of_the_member(log):
    bo = people.add_member(log, "Bo", "lb")
    piece = conditioning.add_piece(log, Piece("Heavy", "heaviest", (Task("power clean"),), cap_s=720))
    scored(log, bo, piece, "190", 3)
    scored(log, bo, piece, "90 kg")
    found = piece_history(log, bo.id, "Heavy")
    assert (found.unit, found.lines[1].said) == ("lb", "190 lb")
    assert found.lines[0].amount[0] == pytest.approx(
        198.416, abs=1e-3
    )  # 90 / 0.45359237, exact by definition (NIST SP 811)


def test_nothing_known_is_an_empty_history(log, ana):
    assert piece_history(log, ana.id, "Lantern ladder").lines == ()


# what an act may not lose


def test_undoing_the_act_that_began_the_session_does_not_lose_a_score(log, ana, ladder):
    squat = people.add_lift(log, "back squat", "barbell")
    training.log_set(log, ana.id, TODAY, NewSet(squat.id, Mass(Decimal(80), "kg"), 5))
    with log.reading() as session:
        first = session.execute(text("SELECT act_id FROM changes WHERE record = 'sets'")).scalar()
    scored(log, ana, ladder, "160")
    with suppress(ChangedSinceError):
        undo(log, first)
    assert len(all_scores(log, ana)) == 1


def test_the_journal_has_sessions_with_nothing_but_a_piece_and_finds_them(log, ana, ladder):
    row = scored(log, ana, ladder, Said("160", note="slippery floor"), 3)
    (entry,) = journal.sessions(log, ana.id)
    assert (entry.sets, entry.scores) == ((), (row,))
    assert [len(journal.sessions(log, ana.id, text=text)) for text in ("lantern", "slippery", "squat")] == [1, 1, 0]
    conditioning.remove_score(log, row.id)
    assert journal.sessions(log, ana.id) == ()
