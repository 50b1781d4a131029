"""Scores: entry, total and back, caps, splits, lost counts, swaps, and the words for all of them."""

import json
from contextlib import suppress
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.conditioning.calls import parse_count
from tracker.conditioning.change import measured
from tracker.conditioning.compare import beside, sorting_span
from tracker.conditioning.counts import Count, exactly
from tracker.conditioning.entry import movement_choices, rep_choices, round_choices
from tracker.conditioning.ladder import Ladder, Listed, Position, Steady, equal_ladder, listed_ladder
from tracker.conditioning.pace import pace_of
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.score_record import score_from, score_record
from tracker.conditioning.scores import Score, Swap, capped, reached
from tracker.conditioning.standing import standing
from tracker.conditioning.swaps import swaps_text
from tracker.conditioning.words import parse_score, parse_swaps, position_words, score_words, swap_words
from tracker.errors import BadInputError


def test_position_to_total_and_back(ladder_piece, day):
    score = reached(ladder_piece, day, Position(5, 1, 7))
    assert score.total == exactly(160)
    assert score.positions == (Position(5, 1, 7), Position(5, 1, 7))
    assert score.per_movement() == (exactly(45 + 18), exactly(45 + 7), exactly(45))
    assert score.as_prescribed


def test_a_lost_count_is_a_range_in_all_that_follows(ladder_piece, day):
    score = reached(ladder_piece, day, Count(150, 160))
    assert score.total == Count(150, 160)
    assert score.positions == (Position(5, 0, 15), Position(5, 1, 7))
    assert score.per_movement() == (Count(60, 63), Count(45, 52), exactly(45))
    assert score_words(score) == "between 150 and 160 reps"
    assert position_words(score) == ("through the 15s, plus 15", "through the 15s, plus 25 (1 movement and 7)")


def test_a_cap_counts_what_was_missing(timed_piece, day):
    """Worked: 21-15-9 of two movements are 90 repetitions; 77 done leave 13."""
    score = parse_score(timed_piece, day, "CAP + 13")
    assert (score.total, score.missing, score.ended) == (exactly(77), exactly(13), "capped")
    assert score == capped(timed_piece, day, 13) == reached(timed_piece, day, 77)
    assert score_words(score) == "CAP + 13"
    assert score.positions == (Position(2, 0, 5), Position(2, 0, 5))


@pytest.mark.parametrize(
    ("text", "total", "said"),
    [
        ("through the 15s, plus 8", 143, "through the 15s, plus 8"),
        ("Through the 15s plus 8.", 143, "through the 15s, plus 8"),
        ("the 15s + 8", 143, "through the 15s, plus 8"),
        ("through the 15s, plus 25 (1 movement and 7)", 160, "through the 15s, plus 25 (1 movement and 7)"),
        ("5 + 8", 143, "through the 15s, plus 8"),
        ("5 rounds and 8 reps", 143, "through the 15s, plus 8"),
        ("160", 160, "through the 15s, plus 25 (1 movement and 7)"),
        ("1,000 reps", 1000, "through the 42s, plus 55 (1 movement and 10)"),
        ("in the first round, 2 reps", 2, "in the first round, 2 reps"),
        ("0", 0, "in the first round, 0 reps"),
    ],
)
def test_what_is_called_across_a_gym_is_read_and_said_back(ladder_piece, day, text, total, said):
    score = parse_score(ladder_piece, day, text)
    assert score.total == exactly(total)
    assert score_words(score) == said


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("between 150 and 160", 150, 160),
        ("150-160", 150, 160),
        ("150 to 160 reps", 150, 160),
        ("between through the 15s and through the 15s, plus 8", 135, 143),
        ("between 5 rounds and 5 rounds plus 20", 135, 155),
    ],
)
def test_a_lost_count_is_read(ladder_piece, day, text, low, high):
    assert parse_score(ladder_piece, day, text).total == Count(low, high)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("15 + 8", "through the 15s, plus 8, or 15 rounds, plus 8"),  # two readings: asked
        ("3 + 4", "through the 3s, plus 4, or 3 rounds, plus 4"),
        ("through the 14s", "No round of this piece is of 14s"),
        ("through the 15s plus 54", "Round 6 has 54 reps"),
        ("through the 15s, plus 60", "Probably meant: through the 18s, plus 6"),
        ("160-150", "between 150 and 160"),
        ("lots", "says no place"),
        ("-4", "says no place"),
        ("nan", "says no place"),
        ("", "says nothing yet"),
        ("12.5", "says no place"),
    ],
)
def test_what_cannot_be_or_could_mean_two_things_is_asked(ladder_piece, day, text, said):
    with pytest.raises(BadInputError) as refused:
        parse_score(ladder_piece, day, text)
    assert said in str(refused.value)
    assert refused.value.mend


def test_rounds_of_equal_work_read_plain_sums(rounds_piece, day):
    score = parse_score(rounds_piece, day, "7 + 12")
    assert score.total == exactly(222)
    assert score_words(score) == "7 rounds, plus 12 (1 movement and 2)"


def test_a_number_met_twice_has_to_say_which_time():
    ladder = listed_ladder((2, 4, 6, 4, 2), 1)
    with pytest.raises(BadInputError, match="come by 2 times"):
        parse_count(ladder, "through the 4s")
    assert parse_count(ladder, "through the 4s for the second time, plus 1") == exactly(17)


OPEN = [equal_ladder(3, 3, 3), equal_ladder(1, 1, 2), equal_ladder(10, 0, 3), Ladder((Steady(3, 3), Steady(10)))]
ENDING = [
    listed_ladder((21, 15, 9), 2),
    listed_ladder((*range(1, 8), *range(8, 0, -1)), 2),
    equal_ladder(10, -1, 1),
    Ladder((Steady(7), Listed((5, 1, 5, 1)))),
]


@given(st.sampled_from(OPEN + ENDING), st.integers(0, 10**6))
@settings(max_examples=300, deadline=None)
def test_every_standing_in_words_is_read_back(ladder, total):
    total = total if ladder.all_reps is None else total % (ladder.all_reps + 1)
    assert parse_count(ladder, standing(ladder, total).words) == exactly(total)


@given(
    st.sampled_from(OPEN + ENDING),
    st.text(st.sampled_from("through the 15s, plus 8+-between and 0123456789round"), max_size=30),
)
@settings(max_examples=300, deadline=None)
def test_any_text_is_read_or_refused_in_words(ladder, text):
    with suppress(BadInputError):  # any other error fails the test
        count = parse_count(ladder, text)
        assert 0 <= count.low <= count.high


def test_times_and_stops(timed_piece, day):
    assert parse_score(timed_piece, day, "6:41").time_s == 401
    assert score_words(parse_score(timed_piece, day, "6:41")) == "6:41"
    stopped = parse_score(timed_piece, day, "stopped at 6:30, 50")
    assert (stopped.ended, stopped.time_s, stopped.total) == ("stopped", 390, exactly(50))
    assert score_words(stopped) == "stopped at 6:30, through the 21s, plus 8"
    assert parse_score(timed_piece, day, score_words(stopped)) == stopped


@pytest.mark.parametrize("text", ["9:00", "CAP + 91", "CAP + 0", "90", "CAP", "0:00"])
def test_times_and_caps_that_cannot_be(timed_piece, day, text):
    with pytest.raises(BadInputError) as refused:
        parse_score(timed_piece, day, text)
    assert refused.value.mend


def test_a_piece_without_a_cap_has_none_to_run_into(timed_piece, day):
    with pytest.raises(BadInputError, match="no cap"):
        parse_score(replace(timed_piece, cap_s=None), day, "CAP + 13")


def test_intervals(interval_piece, minute_piece, day):
    rows = parse_score(interval_piece, day, "577, 570, 560-565, 554, 1,048 m")
    assert rows.each == (exactly(577), exactly(570), Count(560, 565), exactly(554), exactly(1048))
    assert rows.total == Count(3309, 3314)
    assert score_words(rows) == "577, 570, between 560 and 565, 554, 1,048 m"
    assert parse_score(interval_piece, day, score_words(rows)) == rows
    assert score_words(parse_score(minute_piece, day, "10/12")) == "10/12"
    for wrong in ("13/12", "10/11", "1, 2, 3, 4, 5, 6 m", "577 cal", "fast"):
        with pytest.raises(BadInputError):
            parse_score(interval_piece if "/" not in wrong else minute_piece, day, wrong)


def test_distance_calories_load_and_unscored(day):
    row = Task("row", measure="m")
    assert score_words(parse_score(Piece("A", "distance", (row,), cap_s=600), day, "2,310 m")) == "2,310 m"
    assert score_words(parse_score(Piece("A", "calories", (row,), cap_s=600), day, "148")) == "148 cal"
    clean = Piece("A", "heaviest", (Task("clean"),), cap_s=720)
    assert score_words(parse_score(clean, day, "92.5", unit="kg")) == "92.5 kg"
    assert score_words(parse_score(clean, day, "205 lb")) == "205 lb"
    for wrong in ("92.5", "0 kg", "1200 kg", "nan kg"):
        with pytest.raises(BadInputError):
            parse_score(clean, day, wrong)
    easy = Piece("A", "unscored")
    assert score_words(parse_score(easy, day, "done")) == "done"
    with pytest.raises(BadInputError):
        parse_score(easy, day, "12")


def test_splits_rise_and_fit(ladder_piece, day):
    score = parse_score(ladder_piece, day, "through the 15s, plus 8", splits="0:34 1:43 3:28 5:51 8:55")
    assert score.splits_s == (34, 103, 208, 351, 535)
    for wrong in ("1:43 0:34", "0:34 0:34", "13:00", "0:10 0:20 0:30 0:40 0:50 1:00", "0:34 soon"):
        with pytest.raises(BadInputError):
            parse_score(ladder_piece, day, "through the 15s, plus 8", splits=wrong)


def test_swaps_take_the_coachs_option_or_keep_the_count(ladder_piece, day):
    swaps = "hand-release push-up -> push-up from the knees; kettlebell swing -> kettlebell swing, 12 kg; box step-over → lunge"
    score = parse_score(ladder_piece, day, "160", swaps=swaps)
    assert not score.as_prescribed
    assert [task.movement for task in score.tasks] == ["kettlebell swing", "lunge", "push-up from the knees"]
    assert swap_words(score) == (
        "push-up from the knees instead of hand-release push-up",
        "kettlebell swing, 12 kg instead of 16 kg",
        "lunge instead of box step-over",
    )
    with pytest.raises(BadInputError, match="swaps no movement"):
        parse_swaps(ladder_piece, "bench press -> push-up")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            "hand-release push-up -> push-up, hands on a box",
            "push-up, hands on a box, 60 cm high instead of hand-release push-up",
        ),
        (
            "hand-release push-up -> push-up, hands on a box, 75 cm",
            "push-up, hands on a box, 75 cm high instead of hand-release push-up",
        ),
        ("box step-over -> box step-over, 40,5 cm high", "box step-over, 40.5 cm high, which was not prescribed"),
        ("kettlebell swing -> dumbbell swing,12,5 kg", "dumbbell swing, 12.5 kg instead of kettlebell swing"),
        (
            "box step-over -> wall ball shot, 4 kg, to 250 cm",
            "wall ball shot, 4 kg, to 250 cm instead of box step-over",
        ),
        (
            "hand-release push-up -> push-up, with a green band",
            "push-up, with a green band instead of hand-release push-up",
        ),
    ],
)
def test_a_swap_says_height_target_load_and_help(ladder_piece, day, text, said):
    raised = replace(ladder_piece.tasks[2], movement="push-up, hands on a box", height_cm=Decimal(60), options=())
    tasks = (*ladder_piece.tasks[:2], replace(ladder_piece.tasks[2], options=(raised,)))
    piece = replace(ladder_piece, tasks=tasks)
    score = parse_score(piece, day, "160", swaps=text)
    assert swap_words(score) == (said,)
    assert parse_swaps(piece, swaps_text(piece, score.swaps)) == score.swaps


def test_a_swap_with_a_mark_that_says_nothing_is_refused(ladder_piece, day):
    with pytest.raises(BadInputError, match="says nothing"):
        parse_score(ladder_piece, day, "160", swaps="box step-over -> lunge, quickly")


def test_a_swap_with_other_repetitions_changes_the_arithmetic(rounds_piece, day):
    double = Swap(2, Task("tuck-up", Steady(24)))
    assert reached(rounds_piece, day, Position(2), swaps=(double,)).total == exactly(2 * (10 + 8 + 24))


def test_two_swaps_for_one_movement_are_refused(rounds_piece, day):
    swap = Swap(0, Task("air squat", Steady(10)))
    with pytest.raises(BadInputError, match="two for one"):
        Score(rounds_piece, day, count=exactly(5), swaps=(swap, swap))


def test_three_touches_of_an_entry_form(ladder_piece, day):
    ladder, names = ladder_piece.ladder, tuple(task.movement for task in ladder_piece.tasks)
    first = round_choices(ladder, around=5, reach=1)
    assert [choice.words for choice in first] == ["round of 12", "round of 15", "round of 18"]
    second = movement_choices(names, ladder, 5)
    assert [choice.words for choice in second] == ["none yet", "18 kettlebell swings done", "18 box step-overs done"]
    assert list(rep_choices(ladder, 5, 1)) == list(range(18))
    assert round_choices(ladder)[0].words == "no round yet"


@given(st.sampled_from(OPEN + ENDING), st.integers(0, 12))
@settings(max_examples=60, deadline=None)
def test_every_touch_of_the_form_is_a_position_that_the_piece_has(ladder, around):
    names = tuple(f"movement {n}" for n in range(9))
    for rounds in round_choices(ladder, around=around, reach=2):
        for done in movement_choices(names, ladder, rounds.number):
            for reps in rep_choices(ladder, rounds.number, done.number):
                ladder.check(Position(rounds.number, done.number, reps))


def test_scores_come_back_from_their_record(ladder_piece, timed_piece, interval_piece, minute_piece, day):
    swaps = "kettlebell swing -> kettlebell swing, 12 kg; hand-release push-up -> push-up from the knees"
    clean = Piece("A", "heaviest", (Task("clean"),), cap_s=720)
    scores = [
        parse_score(ladder_piece, day, "between 150 and 160", swaps=swaps, splits="0:34 1:43", note="hot"),
        parse_score(timed_piece, day, "stopped at 6:30, 50"),
        parse_score(timed_piece, day, "CAP + 13"),
        parse_score(replace(timed_piece, tie_break="end of the 21s"), day, "6:41", tie_break="3:20"),
        parse_score(interval_piece, day, "577, 560-570 m"),
        parse_score(minute_piece, day, "0/12"),
        parse_score(clean, day, "92.5 kg"),
        parse_score(Piece("B", "unscored"), day, "done"),
    ]
    for score in scores:
        assert score_from(score.piece, json.loads(json.dumps(score_record(score)))) == score
    good = score_record(scores[0])
    for spoilt in (
        {"day": "soon"},
        {"count": [5]},
        {"count": [9, 5]},
        {"count": None},
        {"swaps": [{}]},
        {"ended": "capped"},
    ):
        with pytest.raises(BadInputError):
            score_from(ladder_piece, {**good, **spoilt})


def test_a_tie_break_needs_its_checkpoint_and_lies_within_the_piece(timed_piece, day):
    with pytest.raises(BadInputError, match="tie-break"):
        parse_score(timed_piece, day, "6:41", tie_break="3:20")
    with pytest.raises(BadInputError, match="tie-break"):
        parse_score(replace(timed_piece, tie_break="end of the 21s"), day, "6:41", tie_break="6:50")


def test_a_time_that_is_only_about_so_is_said_so_and_beats_nothing(timed_piece, day):
    about = parse_score(timed_piece, day, "about 7:00")
    assert (about.time_s, about.about, score_words(about)) == (420, True, "about 7:00")
    assert parse_score(timed_piece, day, score_words(about)) == about
    assert parse_score(timed_piece, day, "~7:00") == about == score_from(timed_piece, score_record(about))
    exact = parse_score(timed_piece, day, "7:41")
    assert [mark.best for mark in beside(about, [exact, about])] == ["", ""]
    assert (measured(about), sorting_span(about), pace_of(about).overall) == (None, None, None)
    with pytest.raises(BadInputError, match="about what time"):
        Score(timed_piece, day, about=True, count=exactly(60), ended="capped")


def test_finished_without_a_time_is_done_and_beats_nothing(timed_piece, day):
    done = parse_score(timed_piece, day, "done")
    assert (done.ended, done.time_s, done.lasted_s, score_words(done)) == (
        "finished",
        None,
        None,
        "done, time not known",
    )
    assert done.total == exactly(90)
    for text in ("finished", "done, time not known", "Finished, time not known"):
        assert parse_score(timed_piece, day, text) == done
    assert score_from(timed_piece, score_record(done)) == done
    exact = parse_score(timed_piece, day, "7:41")
    assert [mark.best for mark in beside(done, [exact, done])] == ["", ""]
    assert (measured(done), sorting_span(done)) == (None, None)


def test_what_is_exact_is_recorded_as_it_always_was(timed_piece, day):
    """Digests of scores are kept in logs and results."""
    assert set(score_record(parse_score(timed_piece, day, "7:41"))) == {"day", "time_s", "ended"}
