"""Lifts whose sets are said twice, told by their repetitions, or stand below what they come before; beside them what must stay.

How coaches type them is common practice of the trade; the texts are invented.
"""

from __future__ import annotations

from typing import Any

import pytest

from tracker.prescription.sheet import as_json, read


def sheet_of(text: str) -> dict[str, Any]:
    reading = read(text)
    return as_json(reading.sheet, reading.asks)


def items(text: str) -> list[dict[str, Any]]:
    return [item for day in sheet_of(text)["sessions"] for item in day["items"]]


def sets_of(lift: dict[str, Any]) -> list[tuple[Any, ...]]:
    return [(each.get("sets"), each.get("reps"), each.get("percent") or each.get("load")) for each in lift["sets"]]


def lifts(text: str) -> list[tuple[str, list[tuple[Any, ...]]]]:
    return [(each["lift"], sets_of(each)) for each in items(text) if each["kind"] == "lift"]


@pytest.mark.parametrize(
    "again", ["", " (three triples)", " (3 triples)", " (3 sets of 3)", " (three sets of three)", " triples"]
)
def test_sets_said_again_in_words_are_done_once(again: str) -> None:
    assert lifts(f"Bench 80kg x5, 90kg x3x3{again}") == [("Bench press", [(1, 5, "80"), (3, 3, "90")])]


@pytest.mark.parametrize("more", [" (then 2 doubles @ 95kg)", ", 2x2 @ 95kg", " (2x2 @ 95kg)"])
def test_other_sets_behind_them_are_more_sets(more: str) -> None:
    assert lifts(f"Bench 80kg x5, 90kg x3x3{more}") == [("Bench press", [(1, 5, "80"), (3, 3, "90"), (2, 2, "95")])]


@pytest.mark.parametrize(
    "told",
    ["70% on the 5s, 80 on the 3s", "70% on the first 5s, 80% on the 3s", "70% for the 5s, 80% for the 3s", "5s at 70%, 3s at 80%", "about 70% of 1RM on the 5s, 80 on the 3s"],
)  # fmt: skip
def test_percentages_are_told_by_repetitions(told: str) -> None:
    assert lifts(f"Front squat 5-5-3-3, {told}") == [("Front squat", [(2, 5, 70.0), (2, 3, 80.0)])]


def test_percentages_for_so_many_are_sets_of_their_own() -> None:
    text = "Power snatch: 2 @ 60%, 3x2 @ 70%.\nSnatch: 70% for 2, 80% for 1"
    assert lifts(text)[0] == ("Power snatch", [(1, 2, 60.0), (3, 2, 70.0)])


@pytest.mark.parametrize("sign", [", ", " + ", " and ", ", then "])
def test_a_test_and_the_most_of_another_are_two_lifts(sign: str) -> None:
    found = [each for each in items(f"1RM bench{sign}max strict pull-ups 1 set") if each["kind"] == "lift"]
    assert [each["lift"] for each in found] == ["Bench press", "Strict pull-up"]
    assert found[0]["sets"] == [{"find": "1RM", "reps": 1}]


@pytest.mark.parametrize(
    ("text", "right"),
    [
        ("Squat 70/80/90% x 3", [(1, 3, 70.0), (1, 3, 80.0), (1, 3, 90.0)]),
        ("Squat 100/120/140 x 3", [(1, 3, "100"), (1, 3, "120"), (1, 3, "140")]),
        ("Squat 60/65/70kg x 5", [(1, 5, "60"), (1, 5, "65"), (1, 5, "70")]),
        ("Squat 135/185/225 lb x 5", [(1, 5, "135"), (1, 5, "185"), (1, 5, "225")]),
    ],
)
def test_loads_before_one_number_of_repetitions_are_a_set_each(text: str, right: list[tuple[Any, ...]]) -> None:
    assert lifts(text) == [("Squat", right)]


@pytest.mark.parametrize(
    ("text", "load", "unit"),
    [
        ("Everything lbs.\nDB curls 30s 3x12", "30", "lb"),
        ("All loads in kg\nDB curls 30s 3x12", "30", "kg"),
        ("DB curls 3x12 @ 22.5s (kg)", "22.5", "kg"),
        ("Squat 225 lb 5x5\nDB curls 30s 3x12", "30", "lb"),
    ],
)
def test_what_dumbbells_weigh_is_no_time_and_has_the_unit_of_the_sheet(text: str, load: str, unit: str) -> None:
    (curl,) = [each for each in items(text) if each["kind"] == "lift" and "curl" in each["lift"].lower()]
    assert [(each["load"], each["unit"]) for each in curl["sets"]] == [(load, unit)]
    assert sheet_of(text)["asks"] == []


@pytest.mark.parametrize("text", ["DB rows 3x10, 30s rest", "DB rows 3x10, rest 30s"])
def test_a_time_of_rest_is_no_load(text: str) -> None:
    (row,) = items(text)
    assert (row["sets"][0]["rest_s"], row["sets"][0].get("load")) == (30, None)


@pytest.mark.parametrize(
    "below",
    ["Before: front squat 4x4 @ 75%", "Before that: front squat 4x4 @ 75%", "Davor: front squat 4x4 @ 75%", "Front squat 4x4 @ 75%, do it first"],
)  # fmt: skip
def test_what_comes_before_stands_before(below: str) -> None:
    found = items(f"AMRAP 10\n7 burpees\n10 cal row\n{below}")
    assert [each["kind"] for each in found] == ["lift", "piece"]
    assert sets_of(found[0]) == [(4, 4, 75.0)]


def test_what_is_told_below_comes_after() -> None:
    found = items("AMRAP 10\n7 burpees\n10 cal row\n\nFront squat 4x4 @ 75%")
    assert [each["kind"] for each in found] == ["piece", "lift"]


@pytest.mark.parametrize("head", ["Snatch, Thursdays, every 90 sec", "Snatch, every 90 sec", "Snatch on Thursdays"])
def test_weeks_below_a_lift_are_sets_of_it(head: str) -> None:
    text = f"{head}\nWk 1: 8 x 2 @ 65\nWk 2: 6 x 1 @ 77\nall % of 1RM snatch"
    assert lifts(text) == [("Snatch", [(8, 2, 65.0)]), ("Snatch", [(6, 1, 77.0)])]
    assert sheet_of(text)["asks"] == []


def test_percentages_of_a_training_max_ask_nothing() -> None:
    text = "Squat cycle, % of training max (TM = 90% of 1RM)\nW1 3x5 65/75/85\nW4 deload 40/50/60 x5"
    assert lifts(text)[1] == ("Squat", [(1, 5, 40.0), (1, 5, 50.0), (1, 5, 60.0)])
    assert sheet_of(text)["asks"] == []


@pytest.mark.parametrize(
    "text",
    ["Squats, sets of 3, six of them, 80%", "Squat sets of 3, 6 of them @ 80%", "Squat, sets of 3, 6 sets in all, 80%"],
)
def test_sets_are_counted_behind_their_repetitions(text: str) -> None:
    assert lifts(text) == [("Squat", [(6, 3, 80.0)])]


@pytest.mark.parametrize(
    ("text", "implement"),
    [
        ("Home people, 1 kettlebell:\nSingle arm press 4x6 each", "kettlebell"),
        ("Single arm press 4x6 each", "unasked"),
        ("Single arm DB press 4x6 each", "dumbbell"),
    ],
)
def test_a_press_with_one_arm_is_done_with_what_there_is(text: str, implement: str) -> None:
    (lift,) = [each for each in items(text) if each["kind"] == "lift"]
    assert lift["implement"] == implement


def test_a_pause_at_the_bottom_is_no_rest() -> None:
    (lift,) = items("Goblet squat 4x10, 2 sec pause at the bottom")
    assert lift["sets"] == [{"sets": 4, "reps": 10}]


@pytest.mark.parametrize(
    "text", ["Stoßen: schwere Einzelwiederholung, in 15 min", "Slancio: singola pesante in 15 minuti", "Jerk: single pesado, 15 min"]
)  # fmt: skip
def test_a_heavy_single_in_other_tongues(text: str) -> None:
    (lift,) = items(text)
    assert [(each["find"], each["reps"], each["within_s"]) for each in lift["sets"]] == [("heavy 1", 1, 900)]


def test_same_again_takes_the_sets_of_the_lift_before() -> None:
    sets = [(3, 5, 60.0)]
    assert lifts("Back squat 3x5 at 60%, bench the same") == [("Back squat", sets), ("Bench press", sets)]


def test_percentages_are_told_for_so_many_after_so_many() -> None:
    right = [(2, 6, 75.0), (2, 6, 80.0)]
    assert lifts("Bench 4 x 6, 75% first two, 80% last two") == [("Bench press", right)]
    assert lifts("Bench 4 x 6 - 75% for the first 2, 80% for the last 2") == [("Bench press", right)]


def test_so_many_of_each_are_sets_of_their_own() -> None:
    right = [(2, 5, 70.0), (2, 3, 80.0)]
    assert lifts("Deadlift 5s at 70%, 3s at 80%, two sets of each") == [("Deadlift", right)]


def test_a_second_load_that_is_told_of_no_set_is_asked() -> None:
    asks = sheet_of("Bench 5 x 6, 75% first two, 80% last two")["asks"]
    assert "Is '80 %' only said beside the sets?" in [each["question"] for each in asks]
