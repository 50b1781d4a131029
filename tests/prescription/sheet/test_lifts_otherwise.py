"""Sets, loads, days and corrections in hands that mean something else by a sign than others do: one production of each class.

What is right is what the line says to a coach; common practice.
"""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from tracker.prescription.sheet import as_json, read


def _read(text: str) -> dict[str, Any]:
    reading = read(text, today=date(2026, 11, 27))
    return as_json(reading.sheet, reading.asks)


def _items(text: str, kind: str) -> list[dict[str, Any]]:
    return [item for session in _read(text)["sessions"] for item in session["items"] if item["kind"] == kind]


def _row(lift: dict[str, Any]) -> list[tuple[Any, ...]]:
    """Sets, repetitions and percentage or load of each group."""
    return [
        (each.get("sets"), each.get("reps"), each.get("percent", each.get("load")))
        if "find" not in each
        else each["find"]
        for each in lift["sets"]
    ]


@pytest.mark.parametrize(
    ("text", "name", "sets"),
    [
        ("Power Snatch + Snatch  60%/1+1 x2, 70%/1+1 x2, 75%/1+1 x3", "Power snatch + snatch", [(2, [1, 1], 60.0), (2, [1, 1], 70.0), (3, [1, 1], 75.0)]),
        ("Standumsetzen + Ausstoßen 65 %/2+1 70 %/2+1 75 %/1+1/4", "Power clean + jerk", [(1, [2, 1], 65.0), (1, [2, 1], 70.0), (4, [1, 1], 75.0)]),
        ("Kniebeuge hinten 75 %/4 80 %/3 85 %/2/3", "Back squat", [(1, 4, 75.0), (1, 3, 80.0), (3, 2, 85.0)]),
        ("girata + slancio 70x1+1x3, 75x1+1x2 %", "Clean + jerk", [(3, [1, 1], 70.0), (2, [1, 1], 75.0)]),
        ("every 90\" x 8 sets: 1 clean + 1 split jerk\n1-2 @ 65 %, 3-5 @ 72 %, 6-8 @ 78 %", "Clean + split jerk", [(2, [1, 1], 65.0), (3, [1, 1], 72.0), (3, [1, 1], 78.0)]),
        ("Snatch, every 90\" x 10\n\n| Sets | Reps | % |\n|---|---|---|\n| 1–3 | 2 | 65 |\n| 4–6 | 2 | 70 |\n| 7–10 | 1 | 80 |", "Snatch", [(3, 2, 65.0), (3, 2, 70.0), (4, 1, 80.0)]),
        ("Front squat, 8 sets on the 2:00 -> 3 reps. 70,70,75,75,80,80,82,82%", "Front squat", [(2, 3, 70.0), (2, 3, 75.0), (2, 3, 80.0), (2, 3, 82.0)]),
        ("C&J e90s x 10, singles 75–88%", "Clean and jerk", [(10, 1, [75.0, 88.0])]),
        ("Squat 1x1 @8, minus 12% → 4 x 4", "Squat", [(1, 1, None), (4, 4, 88.0)]),
        ("C+J to heavy single of the day (HSOD)\n-10% x 2 singles", "Clean and jerk", ["heavy 1", (2, 1, 90.0)]),
        ("Deadlift: last week's 5RM = X\n set 1: 0.80X × 5\n set 2: 0.95X × 3", "Deadlift", [(1, 5, 80.0), (1, 3, 95.0)]),
        ("Bench: 135x10, 185x5, 225x3, 265 x AMRAP", "Bench press", [(1, 10, "135"), (1, 5, "185"), (1, 3, "225"), (1, None, "265")]),
        ("FS 90/3 95/3 95/3", "Front squat", [(1, 3, 90.0), (1, 3, 95.0), (1, 3, 95.0)]),
        ("BS 3x10 @ 135 / 95 (lb i think)", "Back squat", [(3, 10, ["135", "95"])]),
        ("Pause bench 5x4 @ 105", "Pause bench press", [(5, 4, "105")]),
        ("DL every 2 min x5, 5 reps, start 60%, add each", "Deadlift", [(1, 5, 60.0), (4, 5, None)]),
        ("Tomorrow: 5x3 front squat. Actually no, all are tired, make it 4x3 at 72 %", "Front squat", [(4, 3, 72.0)]),
        ("strict press five sets of five at seventy five percent no sorry seventy percent", "Strict press", [(5, 5, 70.0)]),
        ("no jerk -> push press 5x4 60 kg", "Push press", [(5, 4, "60")]),
    ],
)  # fmt: skip
def test_sets_in_other_hands(text: str, name: str, sets: list[Any]) -> None:
    lift = _items(text, "lift")[-1]
    assert lift["lift"] == name
    assert _row(lift) == sets


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("Nordics        3x4    band assist ok\nSeated calf    3x15", ["Nordic curl", "Seated calf"]),
        ("-lift-\n-sumo DL 6x3-\n-hamstring slider 3x8-\n-engine-", ["Sumo deadlift", "Hamstring slider"]),
        ("Deadlift 5x3 @ 80%\nHalf-kneel landmine, 21X1, 4 x 10", ["Deadlift", "Half kneeling landmine"]),
        ("1  Ankle hops 3 x 20\n2  Push-up 3 x near failure\n3  Pull-down 3 x 10", ["Ankle hops", "Push-up", "Pull-down"]),
    ],
)  # fmt: skip
def test_a_name_that_is_not_known_keeps_its_sets_from_the_lift_above(text: str, names: list[str]) -> None:
    assert [lift["lift"] for lift in _items(text, "lift")] == names


@pytest.mark.parametrize(
    "below",
    [
        "Juniors: same but stop at 70% and do 3 more sets there",
        "NEXT: 90 3x4 if sleep > 7",
        "Abs: pick one, 3 sets",
        "Post your top single in the thread before 9pm",
        "not max",
        "clean your blood off the bar",
    ],
)
def test_what_is_said_to_others_or_of_another_day_adds_no_set(below: str) -> None:
    text = f"Back squat 3x3 @ 80% of 1RM\n{below}"
    (lift,) = _items(text, "lift")
    assert _row(lift) == [(3, 3, 80.0)]
    assert not _items(text, "piece")


def test_a_correction_that_cannot_be_told_is_asked_and_is_no_lift() -> None:
    text = "Squat 5x3 @ 80% of 1RM\nsorry 5x3 at 85, no. look at the sheet"
    (lift,) = _items(text, "lift")
    assert _row(lift) == [(5, 3, 80.0)]
    assert "Does this change what stands above?" in [each["question"] for each in _read(text)["asks"]]
    assert _row(_items("Squat 5x5 @ 80% of 1RM\nsorry, 3x5 not 5x5", "lift")[0]) == [(3, 5, 80.0)]


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("DAY 1 (gym)\nHack squat 3x10\n\nDAY 2 (home, 2 x 10 kg DBs)\nFloor press 3x15", ["week 1, day 1", "week 1, day 2"]),
        ("M\nsquat 3x5 @ 80 %\nT\nrest or 40' easy\nW\nbench 4x6", ["Monday", "Tuesday", "Wednesday"]),
        ("Week 1\n Mo bench 4x8 @ 65 %\n Th bench 6x3 @ 75 %\nWeek 2\n Mo bench 4x7 @ 70 %", ["week 1, Monday", "week 1, Thursday", "week 2, Monday"]),
        ("SQUAT CYCLE\n\nwk1  M 70% 5x5 (107)  W 75% 4x4 (115)\nwk2  M 72% 5x5 (110)  W 77% 4x4 (117)", ["week 1, Monday", "week 1, Wednesday", "week 2, Monday", "week 2, Wednesday"]),
    ],
)  # fmt: skip
def test_days_told_by_letters(text: str, days: list[str]) -> None:
    assert [session["day"] for session in _read(text)["sessions"]] == days


def test_a_row_of_weeks_keeps_the_percentages_of_each_day() -> None:
    text = "SQUAT CYCLE max = 152.5\n\nwk1  M 70% 5x5 (107)  W 75% 4x4 (115)  F 80% 3x3 (122)"
    assert [_row(lift) for lift in _items(text, "lift")] == [[(5, 5, 70.0)], [(4, 4, 75.0)], [(3, 3, 80.0)]]


def test_the_lift_of_the_title_is_that_of_a_days_sets() -> None:
    text = "Bench Only Crew – Mon/Thu\n\nMon (volume): 5 x 6 @ 72.5%, 1 s pause\nThu (intensity): single @ 8, minus 12% → 3 x 3"
    assert [(lift["lift"], _row(lift)) for lift in _items(text, "lift")] == [
        ("Bench press", [(5, 6, 72.5)]),
        ("Bench press", [(1, 1, None), (3, 3, 88.0)]),
    ]


@pytest.mark.parametrize(
    ("text", "movement", "key", "value"),
    [
        ("12min amrap 8 burpees / 10 pwr cln 60/40 / 12 ttb", 2, "first", 12),
        ("AMRAP 9\n70' bear crawl\n10 push-ups", 0, "measure", None),
        ("5 rounds for time\nrow 20/15\n20 lunges", 0, "sides", [20, 15]),
        ("swing 10x10 24kg on the min", 0, "first", 10),
        ("2h swing 10x10 otm w/ 32 (ladies 20)", 0, "load", ["32", "20"]),
        ("4 rounds\n12 hang cleans 50/35... no 40/30", 0, "load", ["40", "30"]),
        ("14' AMRAP 12 push-up, 10 hang DB clean 20/12.5", 1, "name", "dumbbell hang clean"),
    ],
)  # fmt: skip
def test_signs_that_mean_something_else_in_a_piece(text: str, movement: int, key: str, value: Any) -> None:
    (piece,) = _items(text, "piece")
    assert piece["piece"]["movement"][movement].get(key) == value
