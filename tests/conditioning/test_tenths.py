"""A time to the tenth is taken and kept to the tenth; one without stays without."""

from __future__ import annotations

import json
from decimal import Decimal

import pytest

from tracker.conditioning.compare import sorting_span
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.score_record import score_from, score_record
from tracker.conditioning.told import told_words
from tracker.conditioning.words import parse_score, score_words
from tracker.errors import BadInputError

ROWS = Piece("Rows", "work and rest", (Task("row", Steady(500), "m"),), rest_s=120, intervals=6)
ROW = Piece("Two thousand", "for time", (Task("row", Steady(2000), "m"),), rounds=1)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("1:51.8, 1:52.4", "1:51.8, 1:52.4"),
        ("1:51.8 1:52.4", "1:51.8, 1:52.4"),
        ("1:51,8, 1:52,4", "1:51.8, 1:52.4"),
        ("1:51,8; 1:52,4", "1:51.8, 1:52.4"),
        ("1:51.8, 1:52", "1:51.8, 1:52"),
        ("1:52,1:50", "1:52, 1:50"),
        ("52.4 s, 51.0 s", "0:52.4, 0:51.0"),
    ],
)
def test_times_of_intervals(day, typed: str, said: str):
    score = parse_score(ROWS, day, typed.replace(" s", "s"))
    assert score_words(score) == said
    kept = json.loads(json.dumps(score_record(score)))
    assert score_from(ROWS, kept) == score
    assert parse_score(ROWS, day, score_words(score)).each_s == score.each_s


@pytest.mark.parametrize(("typed", "said"), [("7:42.6", "7:42.6"), ("7:42,6", "7:42.6"), ("about 7:42.6", "about 7:42.6"), ("7:42", "7:42")])  # fmt: skip
def test_a_time(day, typed: str, said: str):
    score = parse_score(ROW, day, typed)
    assert score_words(score) == said
    assert said in told_words(score)
    assert score_from(ROW, json.loads(json.dumps(score_record(score)))) == score


def test_a_tenth_tells_which_is_faster(day):
    slower, faster = (parse_score(ROW, day, each) for each in ("7:42.6", "7:42.5"))
    assert sorting_span(slower).high < sorting_span(faster).low


@pytest.mark.parametrize("wrong", ["1:72.4", "1:52.44", "1:52.", "7:42.6.1"])
def test_what_is_no_time_is_told(day, wrong: str):
    with pytest.raises(BadInputError):
        parse_score(ROWS, day, wrong)


@pytest.mark.parametrize("wrong", [102.66, float("nan"), float("inf"), 1e300, True, "102.6"])
def test_a_record_holds_no_finer_time(wrong: object):
    with pytest.raises(BadInputError):
        score_from(ROW, {"day": "2026-03-02", "time_s": wrong})


def test_the_record_of_a_whole_second_is_as_ever(day):
    assert score_record(parse_score(ROW, day, "7:42"))["time_s"] == 462
    assert score_record(parse_score(ROW, day, "7:42.0"))["time_s"] == Decimal("462.0")
