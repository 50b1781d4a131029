"""The figure of a piece: like and unlike told apart by more than colour, a lost count as a range, a cap never as a time."""

from datetime import date, timedelta

import pytest

from tracker.charts.piece import (
    CAPPED,
    JOINED,
    LIKE,
    LOST,
    LOST_UNLIKE,
    UNLIKE,
    USUAL,
    ResultMark,
    Usual,
    piece_figure,
    piece_words,
)

DAY = date(2026, 3, 2)


def mark(days, low, high=None, **more):
    return ResultMark(
        DAY + timedelta(days=days), low, low if high is None else high, more.pop("like", True), f"{low} reps", **more
    )


def trace(figure, name):
    return next(each for each in figure.data if each.name == name)


def test_a_lost_count_is_drawn_from_end_to_end_with_no_point_in_it():
    made = piece_figure([mark(0, 160), mark(7, 150, 170, best="perhaps")], quantity="repetitions", unit="reps")
    assert list(trace(made, LIKE).y) == [160]
    lost = trace(made, LOST)
    assert list(lost.y) == [150, 170, None]
    assert (lost.mode, lost.connectgaps, list(lost.text)) == ("lines+markers+text", False, ["", "perhaps", ""])


def test_results_of_the_same_version_are_joined_by_day_and_others_stand_apart_by_shape():
    made = piece_figure(
        [mark(0, 160), mark(7, 200, like=False), mark(9, 180, 190, like=False)], quantity="repetitions", unit="reps"
    )
    assert (trace(made, LIKE).marker.symbol, trace(made, UNLIKE).marker.symbol) == ("circle", "diamond-open")
    assert {trace(made, name).mode for name in (LIKE, UNLIKE)} == {"markers+text"}
    assert JOINED not in [each.name for each in made.data]  # a single one is joined with nothing
    marks = [mark(14, 170, 180), mark(0, 160), mark(7, 200, like=False)]
    joined = trace(piece_figure(marks, quantity="repetitions", unit="reps"), JOINED)
    assert (list(joined.x), list(joined.y)) == ([DAY, DAY + timedelta(days=14)], [160, 175])
    assert (joined.mode, joined.showlegend) == ("lines", False)
    assert list(trace(made, LOST_UNLIKE).y) == [180, 190, None]


@pytest.mark.parametrize(("less", "symbol"), [(True, "triangle-down"), (False, "triangle-up")])
def test_the_cap_is_marked_as_where_it_cut_off(less, symbol):
    made = piece_figure([mark(0, 281), mark(7, 300, beyond=True)], quantity="time", unit="s", less_is_better=less)
    assert trace(made, CAPPED).marker.symbol == symbol
    assert len(trace(made, LIKE).x) == 1


def test_times_are_minutes_and_seconds_and_faster_is_higher():
    made = piece_figure([mark(0, 501), mark(7, 560)], quantity="time", unit="s", less_is_better=True)
    assert made.layout.yaxis.autorange == "reversed"
    assert list(made.layout.yaxis.ticktext) == ["8:15", "8:30", "8:45", "9:00", "9:15", "9:30"]
    assert made.layout.yaxis.title.text == "time, min:s; faster is higher"


def test_what_varies_by_itself_is_a_band_from_the_result_before():
    usual = Usual(DAY, DAY + timedelta(days=20), 140.0, 180.0)
    made = piece_figure([mark(0, 160), mark(20, 170)], quantity="repetitions", unit="reps", usual=usual)
    band = trace(made, USUAL)
    assert (min(band.y), max(band.y), band.x[0]) == (140, 180, DAY)


def test_it_is_told_in_a_sentence():
    told = piece_words([mark(0, 160), mark(7, 200, like=False), mark(9, 165)], title="Lantern ladder")
    assert told == "Lantern ladder: 2 results of the same version and 1 of another; the newest, 11 Mar 2026: 165 reps."
    assert piece_words([], title="Weir") == "Weir: no result yet."
