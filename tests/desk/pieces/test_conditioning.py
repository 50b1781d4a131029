"""Pieces at the desk: a score in the words of the gym, its entry, the piece of the day, and cautions."""

from dataclasses import replace
from datetime import timedelta

import pytest
from sqlalchemy import text

from tests.day import this_day
from tests.desk.ladders import KNEES, LADDER, RUN, TIMED, all_scores, scored
from tests.readings import newest
from tests.situations import Gym
from tests.undoing import undo_newest
from tests.with_pieces import put_into_step
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk.people import people
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.conditioning import Said
from tracker.desk.pieces.piece_care import cautions
from tracker.desk.pieces.piece_entry import as_said, asked_ladder, swap_choices, swap_text, touched
from tracker.desk.pieces.piece_history import piece_history
from tracker.errors import BadInputError
from tracker.log import pieces as log_pieces
from tracker.log import waves as log_waves
from tracker.log.scores import one_score
from tracker.log.sessions import training_days
from tracker.log.waves import NewStep
from tracker.safety import ECCENTRIC, RETURN, WATCH

# scores


def test_a_score_called_across_the_gym_is_in_the_log_in_full(log, ana, ladder):
    said = Said("through the 15s, plus 25", KNEES, "0:35 1:48 3:39 6:10 9:24", note=" hot ")
    row = scored(log, ana, ladder, said, token="tap-1")
    assert (row.score.total.known, row.score.splits_s, row.score.note) == (160, (35, 108, 219, 370, 564), "hot")
    assert [task.movement for task in row.score.tasks][2] == "push-up from the knees"
    with log.reading() as session:
        columns = session.execute(text("SELECT low, high, ended, as_prescribed, note, token FROM scores")).one()
        assert columns == (160, 160, "finished", 0, "hot", "tap-1")
        assert training_days(session, ana.id, this_day()) == (this_day(),)


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
    before = newest(log)
    with pytest.raises(BadInputError, match=complaint):
        scored(log, ana, ladder, said)
    assert newest(log) == before


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
    mended = conditioning.mend_score(
        log, row.id, Said("170", said.swaps, note=said.note), this_day() - timedelta(days=1)
    )
    assert (mended.score.total.known, mended.score.day) == (170, this_day() - timedelta(days=1))
    assert (mended.score.swaps, mended.score.note) == (row.score.swaps, "hot")
    undo_newest(log, ana.id)
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
    assert undo_newest(log, ana.id) == "removed Lantern ladder: through the 15s, plus 25 (1 movement and 7)"
    assert all_scores(log, ana) == (row,)


def test_undo_of_a_score_takes_the_session_that_it_began_away_too(log, ana, ladder):
    scored(log, ana, ladder, "160")
    undo_newest(log, ana.id)
    with log.reading() as session:
        assert session.execute(text("SELECT (SELECT count(*) FROM scores), (SELECT count(*) FROM sessions)")).one() == (
            0,
            0,
        )


def test_a_piece_that_is_put_away_keeps_its_scores(log, ana, ladder):
    scored(log, ana, ladder, "160")
    conditioning.remove_piece(log, ladder.id, ana.id)
    assert conditioning.pieces(log) == ()
    assert piece_history(log, ana.id, "lantern LADDER").lines[0].said.startswith("160 reps")


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


def test_a_piece_in_words_keeps_its_pairs_for_each_member_to_take_a_side(log, ana):
    text = "Mill race\n3 rounds for time\n15/12 cal row\n21 thruster, 43/30 kg\n5 lunge, each side"
    row, thruster, lunge = conditioning.add_piece_in_words(log, text).piece.tasks
    assert row.sides == (15, 12)
    assert [str(each) for each in thruster.load] == ["43 kg", "30 kg"]
    assert (lunge.run, lunge.per_side) == (Steady(10), True)


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
    before = newest(log)
    with pytest.raises(BadInputError, match=complaint):
        conditioning.add_piece_in_words(log, text, ana.id)
    assert newest(log) == before


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
    undo_newest(log, ana.id)
    undo_newest(log, ana.id)
    assert swap_choices(conditioning.pieces(log, ana.id)[0], 1) == ()


# today


def test_the_step_of_the_wave_brings_its_piece_and_is_done_with_it(log, ana, ladder):
    other = conditioning.add_piece(log, TIMED)
    with log.act("wave") as act:
        wave = log_waves.add_wave(act, "Tide", [NewStep("piece only", 0, ()), NewStep("later", 7, ())])
        log_waves.start_wave(act, ana.id, wave, this_day())
        step = log_waves.member_steps(act.session, ana.id)[0]
    put_into_step(log, step.step_id, other.id)
    found = conditioning.piece_day(log, ana.id, this_day())
    assert ([row.id for row in found.planned], [row.id for row in found.others]) == ([other.id], [ladder.id])
    scored(log, ana, other, "4:41", member_step_id=step.id)
    found = conditioning.piece_day(log, ana.id, this_day())
    assert (found.step.id, found.step.state, len(found.scores)) == (step.id, "done", 1)
    undo_newest(log, ana.id)
    assert conditioning.piece_day(log, ana.id, this_day()).step.state == "planned"


def test_without_a_step_the_most_lately_done_piece_is_offered_first(log, ana, ladder):
    other = conditioning.add_piece(log, TIMED)
    scored(log, ana, other, "4:41", 3)
    scored(log, ana, ladder, "160", 1)
    found = conditioning.piece_day(log, ana.id, this_day())
    assert (found.step, [row.id for row in found.pieces]) == (None, [ladder.id, other.id])


def test_of_one_title_the_newest_piece_is_offered_and_one_put_away_is_not(log, ana, ladder):
    newer = conditioning.add_piece(log, replace(LADDER, cap_s=900))
    assert [row.id for row in conditioning.piece_day(log, ana.id, this_day()).pieces] == [newer.id]
    with log.act("wave") as act:
        wave = log_waves.add_wave(act, "Tide", [NewStep("piece only", 0, ())])
        log_waves.start_wave(act, ana.id, wave, this_day())
        step = log_waves.member_steps(act.session, ana.id)[0]
    put_into_step(log, step.step_id, ladder.id)
    assert [row.id for row in conditioning.piece_day(log, ana.id, this_day()).pieces] == [ladder.id]
    conditioning.remove_piece(log, ladder.id, ana.id)
    assert [row.id for row in conditioning.piece_day(log, ana.id, this_day()).pieces] == [newer.id]


# cautions


def test_a_piece_that_lowers_the_body_often_is_warned_of_after_two_weeks_off_and_on_the_days_after(log, ana, ladder):
    scored(log, ana, ladder, "160", 60)
    scored(log, ana, ladder, "160", 45)
    scored(log, ana, ladder, "160", 2)
    scene_then = conditioning.piece_day(log, ana.id, this_day())
    assert scene_then.watch == (WATCH,)
    then = conditioning.piece_day(log, ana.id, this_day() + timedelta(days=5))
    assert then.watch == ()


def test_cautions_before_the_piece_follow_the_last_go_and_the_days_off(log, ana, ladder):
    scored(log, ana, ladder, "160", 60)
    back = cautions(log, ana, ladder.piece, this_day())
    assert ECCENTRIC in back
    assert WATCH in back
    assert RETURN in back
    few = conditioning.add_piece(log, Piece("Weir", "distance", (Task("row", Steady(1), "m"),), cap_s=600))
    assert ECCENTRIC not in cautions(log, ana, few.piece, this_day())


def test_a_piece_that_was_given_out_gets_one_more_option(log, ana, ladder):
    before = scored(log, ana, ladder, "160")
    conditioning.add_option(log, ladder.id, 2, "or  push-up from the knees", ana.id)
    asked = next(row for row in conditioning.pieces(log) if row.id == ladder.id).piece.tasks[2]
    assert asked.options[-1].movement == "push-up from the knees"
    assert asked.options[-1].run == asked.run
    newest = scored(log, ana, ladder, Said("150", swaps=KNEES))
    assert newest.score.tasks[2].movement == "push-up from the knees"
    assert all_scores(log, ana)[0].score == before.score
    with pytest.raises(BadInputError, match="is an option already"):
        conditioning.add_option(log, ladder.id, 2, "Push-up from the knees")
    with pytest.raises(BadInputError, match="says nothing yet"):
        conditioning.add_option(log, ladder.id, 2, " ")
    with pytest.raises(BadInputError, match="no such movement"):
        conditioning.add_option(log, ladder.id, 7, "push-up")


def test_the_rating_of_any_session_of_the_day_is_known(log):
    """Three of a day: it is the first that was rated."""
    gym = Gym(log)
    for title in ("Morning", "Noon", "Evening"):
        gym.plan(title)
        gym.do(title)
        if title == "Morning":
            gym.rate("Morning")
        else:
            gym.leave_unrated(title)
    assert conditioning.piece_day(log, gym.who, gym.day).rated
