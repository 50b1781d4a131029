"""Like with like: what makes two scores comparable, what is said of the others, and which is the best."""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.conditioning.compare import beside, best_mark, best_marks, differences, like_key, sorting_span
from tracker.conditioning.counts import Count, exactly
from tracker.conditioning.ladder import Listed, Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.scores import Score, reached
from tracker.conditioning.words import parse_score
from tracker.units import parse_mass

SWING = Task("kettlebell swing", Steady(10), load=parse_mass("16kg"), implement="kettlebell")
BALL = Task("wall ball shot", Steady(12), load=parse_mass("6kg"), target_cm=Decimal(300))
BASE = Piece("A", "as many as possible", (SWING, BALL), cap_s=720)
OTHERS = [
    replace(BASE, cap_s=600),
    replace(BASE, tasks=(BALL, SWING)),  # the order
    replace(BASE, tasks=(SWING,)),
    replace(BASE, tasks=(replace(SWING, load=parse_mass("12kg")), BALL)),
    replace(BASE, tasks=(replace(SWING, load=parse_mass("35lb")), BALL)),  # 15.88 kg, near and not equal
    replace(BASE, tasks=(replace(SWING, implement="dumbbell"), BALL)),
    replace(BASE, tasks=(replace(SWING, implements=2), BALL)),
    replace(BASE, tasks=(replace(SWING, standard="overhead"), BALL)),
    replace(BASE, tasks=(replace(SWING, per_side=True), BALL)),
    replace(BASE, tasks=(replace(SWING, assistance="thin band"), BALL)),
    replace(BASE, tasks=(SWING, replace(BALL, target_cm=Decimal(275)))),
    replace(BASE, tasks=(replace(SWING, run=Steady(10, 1)), BALL)),
    replace(BASE, tasks=(replace(SWING, run=Steady(12)), BALL)),
    replace(BASE, setting="outdoors"),
    replace(BASE, partners=2),
    replace(BASE, rounds=20),
]


@pytest.mark.parametrize("other", OTHERS)
def test_anything_that_makes_it_another_test_makes_it_unlike_and_is_said(day, other):
    ours, theirs = reached(BASE, day, 100), reached(other, day, 100)
    assert like_key(ours) != like_key(theirs)
    assert differences(ours, theirs)


def test_title_case_and_unused_options_do_not_matter(day):
    option = Task("air squat", Steady(12))
    same = replace(
        BASE, title="B", tasks=(replace(SWING, movement="Kettlebell Swing"), replace(BALL, options=(option,)))
    )
    assert differences(reached(BASE, day, 100), reached(same, day, 90)) == ()


def test_the_same_mass_in_either_unit_is_the_same(day):
    pound = replace(BASE, tasks=(replace(SWING, load=parse_mass("20lb")), BALL))
    kilos = replace(BASE, tasks=(replace(SWING, load=parse_mass("9.0718474kg")), BALL))
    assert like_key(reached(pound, day, 1)) == like_key(reached(kilos, day, 1))


pieces = st.sampled_from([BASE, *OTHERS])


@given(pieces, pieces, st.booleans())
@settings(max_examples=150, deadline=None)
def test_no_difference_is_said_exactly_where_the_keys_agree(one, two, swapped):
    from datetime import date

    ours = reached(one, date(2026, 3, 2), 5)
    theirs = parse_score(two, date(2026, 3, 2), "5", swaps=f"{two.tasks[-1].movement} -> sit-up" if swapped else "")
    assert (like_key(ours) == like_key(theirs)) == (differences(ours, theirs) == ())


def test_history_shows_unlike_beside_like_and_a_best_only_among_like(ladder_piece, day):
    texts = [("150", ""), ("200", "kettlebell swing -> kettlebell swing, 12 kg"), ("160", ""), ("155", "")]
    history = [parse_score(ladder_piece, day + timedelta(n), text, swaps=swap) for n, (text, swap) in enumerate(texts)]
    shown = beside(history[-1], history)
    assert [row.like for row in shown] == [True, False, True, True]
    assert [row.best for row in shown] == ["", "", "best", ""]
    assert shown[1].differs == ("kettlebell swing: 12 kg instead of 16 kg",)
    assert [row.best for row in beside(history[1], history)] == [""] * 4  # alone among like: no best


@pytest.mark.parametrize(
    ("counts", "marks"),
    [
        ([exactly(160), Count(172, 187), exactly(170)], ["", "best", ""]),
        ([exactly(160), Count(172, 187), exactly(180), exactly(170)], ["", "perhaps best", "perhaps best", ""]),
        ([exactly(160), Count(172, 187), Count(160, 173), exactly(171)], ["", "perhaps best", "perhaps best", ""]),
        ([exactly(160), exactly(180), exactly(180)], ["", "best", "best"]),
        ([exactly(190), exactly(180), exactly(170)], ["", "", ""]),  # a first beat nothing: it is no best that fell
        ([exactly(190), exactly(190)], ["", "best"]),
        ([exactly(180)], [""]),
    ],
)
def test_a_lost_count_may_be_the_best(ladder_piece, day, counts, marks):
    history = [reached(ladder_piece, day + timedelta(n), count) for n, count in enumerate(counts)]
    assert [row.best for row in beside(history[0], history)] == marks


def test_a_capped_piece_sorts_behind_its_cap_by_what_was_missing(timed_piece, day):
    """Worked, common practice: cap 8:00 and 13 of 90 missing sort as 8:13."""
    assert sorting_span(parse_score(timed_piece, day, "CAP + 13")).low == -(8 * 60 + 13)
    order = ["CAP + 20", "CAP + 13", "CAP + 1", "7:59", "6:41"]
    spans = [sorting_span(parse_score(timed_piece, day, text)).low for text in order]
    assert spans == sorted(spans)


def test_a_stopped_piece_is_shown_and_never_ranked(timed_piece, day):
    stopped, done = parse_score(timed_piece, day, "stopped at 6:30, 50"), parse_score(timed_piece, day, "6:41")
    assert sorting_span(stopped) is None
    assert differences(done, stopped) == ("stopped early",)


def test_intervals_sort_by_what_the_piece_counts(minute_piece, day):
    total = replace(minute_piece, scored_by="total")
    lowest = replace(minute_piece, scored_by="lowest")
    text = "12, 15, 11, 14"
    assert sorting_span(parse_score(total, day, text)).low == 52
    assert sorting_span(parse_score(lowest, day, text)).low == 11
    assert sorting_span(parse_score(minute_piece, day, "10/12")).low == 10


def test_a_listed_and_a_steady_scheme_are_not_alike(day):
    steady = Piece("A", "for time", (Task("burpee", Steady(10)),), rounds=2)
    listed = Piece("A", "for time", (Task("burpee", Listed((10, 8))),))
    assert differences(Score(steady, day, time_s=60), Score(listed, day, time_s=60))


@given(st.lists(st.tuples(st.integers(0, 12), st.integers(0, 3)), max_size=7))
def test_marking_all_at_once_agrees_with_marking_each(spans):
    like = [reached(BASE, date(2026, 3, 2), Count(low, low + more)) for low, more in spans]
    assert best_marks(like) == [best_mark(score, like) for score in like]
