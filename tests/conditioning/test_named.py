"""Movements after a count, in plain English."""

from __future__ import annotations

import pytest

from tracker.conditioning.named import after_count, many, measured


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("goblet squat", "10 goblet squats"),
        ("box step-over", "10 box step-overs"),
        ("push-up, hands on a box", "10 push-ups, hands on a box"),
        ("push-up from the knees", "10 push-ups from the knees"),
        ("burpee over the bar", "10 burpees over the bar"),
        ("bench press", "10 bench presses"),
        ("power snatch", "10 power snatches"),
        ("clean and jerk", "10 clean and jerks"),
        ("fly", "10 flies"),
        ("toes-to-bar", "10 toes-to-bar"),
        ("line hops", "10 line hops"),
    ],
)
def test_a_movement_stands_in_the_plural_after_a_count(name, said):
    assert many(name, 10) == said
    assert many(name, 1) == f"1 {name}"


def test_what_is_counted_in_metres_or_calories_stays_one():
    assert many(measured("row", "cal"), 12) == "12 cal row"
    assert many(measured("run", "m"), 200) == "200 m run"
    assert after_count(measured("burpee", "reps")) == "burpees"
