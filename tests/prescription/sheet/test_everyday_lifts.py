"""Lifts as coaches type them every day that were once lost, or misread without a word; beside them what must stay.

How coaches type them is common practice of the trade; the texts are invented.
"""

from __future__ import annotations

from typing import Any

import pytest

from tracker.prescription.sheet import as_json, read
from tracker.prescription.sheet.lines.timetable import timetable_of


def items(text: str, kind: str) -> list[dict[str, Any]]:
    reading = read(text)
    days = as_json(reading.sheet, reading.asks)["sessions"]
    return [each for day in days for each in day["items"] if each["kind"] == kind]


def sets_of(text: str) -> list[tuple[Any, ...]]:
    (lift,) = items(text, "lift")
    return [(each.get("sets"), each.get("reps"), each.get("percent") or each.get("load")) for each in lift["sets"]]


def of(text: str) -> dict[str, Any] | None:
    (lift,) = items(text, "lift")
    return lift.get("of")


@pytest.mark.parametrize(
    "warm_up", ["WARM UP: 2 ROUNDS 200M SKI, 10 PUSH UPS", "Warm-up: row", "WU 5 MIN", "Warm up 10 min", "w/u: 3 rds 10 lunges", "Prep: 10 min coach led"]
)  # fmt: skip
@pytest.mark.parametrize(
    ("lift", "right"),
    [
        ("BENCH PRESS - % OF 1RM\n5 @ 60%\n3 @ 75%", [(1, 5, 60), (1, 3, 75)]),
        ("Bench press\n5 @ 60%\n3 @ 75%", [(1, 5, 60), (1, 3, 75)]),
        ("Front squat\n3x5 @ 70%", [(3, 5, 70)]),
        ("Snatch\n60% x 3, 70% x 2", [(1, 3, 60), (1, 2, 70)]),
        ("FS 4X4 @ 78", [(4, 4, 78)]),
        ("Deadlift, % of 3RM\n8 @ 60%, 3 x 5 @ 80%", [(1, 8, 60), (3, 5, 80)]),
    ],
)
def test_a_heavy_lift_ends_a_warm_up(warm_up: str, lift: str, right: list[tuple[Any, ...]]) -> None:
    assert sets_of(f"{warm_up}\n{lift}") == right


@pytest.mark.parametrize(
    "line", ["Front squat", "10 front squats", "Bench press\n2x10 @ 40%", "Deadlift x 10, empty bar", "3 rounds: 5 deadlift, 5 clean"]
)  # fmt: skip
def test_what_is_light_goes_on_with_the_warm_up(line: str) -> None:
    assert items(f"Warm up: bike\n{line}\n\nSquat 5x5 @ 80%", "lift")[0]["lift"] == "Squat"


@pytest.mark.parametrize(
    "words", ["1RM percentages", "percentages of 1RM", "1RM %", "% of 1RM", "1RM based", "work off 1RM", "all numbers off your 1RM", "basis: 1RM", "based on the 1RM"]
)  # fmt: skip
def test_what_percentages_are_of_is_no_test(words: str) -> None:
    text = f"Sumo deadlift, {words}\n5 @ 65%, 3 x 3 @ 77%"
    assert (sets_of(text), of(text)) == ([(1, 5, 65), (3, 3, 77)], {"reps": 1})


def test_a_bare_load_behind_a_rep_max_is_of_it() -> None:
    assert sets_of("Deadlift 3RM based, 5@70 5@75 3@80 and then 3 again @80") == [(1, 5, 70), (1, 5, 75), (1, 3, 80), (1, 3, 80)]  # fmt: skip
    assert not read("Push press: 1RM %\n4 x 3 @ 80, rest 2 min").asks


@pytest.mark.parametrize("test", ["Back squat 1RM test", "Back squat: find your 1RM", "Back squat (1RM)"])
def test_a_test_stays_a_test(test: str) -> None:
    (lift,) = items(test, "lift")
    assert lift["sets"][0].get("find") == "1RM"


LABELS = [(2, 3, 70), (2, 3, 75), (2, 3, 80)]


@pytest.mark.parametrize(
    "text",
    [
        "Every 2:00 x 6\nBack squat x 3\nsets 1-2 @ 70%, 3-4 @ 75%, 5-6 @ 80% (1RM)",  # once a test of the 1RM
        "Every 2:00 x 6\nBack squat x 3, sets 1-2 @ 70%, 3-4 @ 75%, 5-6 @ 80%",  # once 6 sets at 70 %
        "Every 2:00 x 6\n3 back squats\nsets 1-2 @ 70%, 3-4 @ 75%, 5-6 @ 80%",
        "EMOM 6\nBack squat x 3\nfirst two @ 70%, next two @ 75%, last two @ 80%",
        "EMOM 6\n3 back squats\nsets 1-2: 70%\nsets 3-4: 75%\nsets 5-6: 80%",
        "Back squat 6x3\nfirst 2 sets 70%, next 2 sets 75%, last 2 sets 80%",  # once 12 sets
        "Every 90 s for 6 sets: 3 back squats\nsets 1-2 70%\nsets 3-4 75%\nsets 5-6 80%",
        "Back squat 6x3. Sets 1, 2: 70%. Sets 3, 4: 75%. Sets 5, 6: 80%.",
        "Back squat 6 sets of 3\nsets 1-2: 70%\nsets 3-4: 75%\nsets 5-6: 80%",
    ],
)
def test_sets_by_their_numbers_have_each_their_load(text: str) -> None:
    assert sets_of(text) == LABELS


@pytest.mark.parametrize("head", ["complex, 6 sets, rest 2:00", "6 sets, rest 2:00"])
def test_a_complex_has_the_sets_of_the_line_above(head: str) -> None:
    text = f"{head}\n1 power clean + 1 hang clean + 2 jerks\n% of your clean & jerk 1RM\nsets 1-4: 65%\nsets 5-6: 70%"
    assert sets_of(text) == [(4, [1, 1, 2], 65), (2, [1, 1, 2], 70)]
    (lift,) = items(text, "lift")
    assert (lift["rest_s"], lift["of"]["reps"]) == (120, 1)


def test_labels_that_do_not_go_on_take_nothing() -> None:
    text = "Back squat 6 sets of 3\nsets 3-4: 75%"  # once all six at 75 %
    assert sets_of(text) == [(6, 3, None)]
    assert items(text, "lift")[0]["notes"] == ["sets 3-4: 75%"]


@pytest.mark.parametrize(
    "text",
    [
        "Front squat first set 5 at 60% then 5 at 65% and then 4 sets of 3 at 75%",  # once without its first set
        "front squats, first set five at sixty then five at sixty five and then four sets of three at seventy five percent",
        "okay so for thursday we warm up on the bike five minutes easy then some lunges and then front squats we do percent of your one rep max so first set five at sixty then five at sixty five and then four sets of three at seventy five percent",
        "Warm up 5 min, then front squat 1x5 @ 60%, 1x5 @ 65%, 4x3 @ 75%",
    ],
)
def test_sets_that_are_spoken(text: str) -> None:
    assert sets_of(text) == [(1, 5, 60), (1, 5, 65), (4, 3, 75)]


def test_words_before_a_spoken_warm_up_are_kept() -> None:
    text = "1RM test front squa.t. Warm up: 5400M RU, 04.03."
    sheet = read(text).sheet
    kept = " ".join(line for day in sheet.sessions for each in day.items for line in getattr(each, "lines", ()))
    assert "1RM test front squa.t" in " ".join([kept, *sheet.notes])


def test_hours_of_a_class_are_no_work() -> None:
    reading = read(
        "18:00 to 19:00, Tuesday\n18:00 warm up, 10 lunges\n18:12 Back squat 5x3 @ 80% of 1RM\n18:35 set up\n18:40 AMRAP 12\n9 burpees\n18:55 clean up"
    )
    (day,) = as_json(reading.sheet, reading.asks)["sessions"]
    assert [each["kind"] for each in day["items"]] == ["warm-up", "lift", "piece"]
    assert day["day"] == "Tuesday"
    assert [each["name"] for each in day["items"][2]["piece"]["movement"]] == ["burpee"]


@pytest.mark.parametrize(
    "rows",
    [("5:00 row", "10:00 bike", "15:00 ski"), ("12:00 AMRAP", "12:00 AMRAP", "12:00 AMRAP"), ("18:30 yoga", "19:30 class"), ("0:00 row", "8:00 rest", "10:00 run")],
)  # fmt: skip
def test_marks_of_a_running_clock_are_no_hours(rows: tuple[str, ...]) -> None:
    assert timetable_of(list(enumerate(rows, 1))) == {}


def test_each_row_of_sets_has_its_own_rest() -> None:
    (lift,) = items("Bench 5 @ 70%\n3x3 @ 80%\nrest 2 min / 3 min", "lift")
    assert [each["rest_s"] for each in lift["sets"]] == [120, 180]
    (lift,) = items("Bench 5x5 @ 70%\nrest 2 min / 3 min", "lift")  # not told of what: the words stand
    assert "rest_s" not in lift
    assert lift["notes"] == ["rest 2 min / 3 min"]


def test_weeks_are_of_what_their_title_says() -> None:
    lifts = items(
        "Tuesday back squat, next weeks (everything from your 5RM of last Tuesday)\nWeek 1: 4x6 @ 70%\nWeek 2: 4x5 @ 77%",
        "lift",
    )
    assert [each["of"] for each in lifts] == [{"reps": 5}, {"reps": 5}]


@pytest.mark.parametrize(
    ("typed", "name"),
    [("Barbell RDL", "Romanian deadlift"), ("GHD or sit ups", "Ghd sit-up"), ("Leg raise", "Leg raise"), ("Lying leg raises", "Lying leg raise"), ("HLR", "Hanging leg raise")],
)  # fmt: skip
def test_names(typed: str, name: str) -> None:
    assert items(f"{typed} 3x8", "lift")[0]["lift"] == name
