"""What is typed short, or told around a corner, in its variants, and what looks like it and says something else. All lines are our own."""

from __future__ import annotations

from typing import Any

import pytest

from tracker.prescription.sheet import as_json, read


def sessions(text: str) -> list[dict[str, Any]]:
    return as_json(read(text).sheet)["sessions"]


def items(text: str) -> list[dict[str, Any]]:
    return [item for session in sessions(text) for item in session["items"] if item["kind"] in ("lift", "piece")]


def sets(text: str) -> list[dict[str, Any]]:
    return [each for item in items(text) for each in item["sets"]]


def lifts(text: str) -> list[tuple[str, list[tuple[Any, ...]]]]:
    """Each lift with its sets: how many, repetitions, and their load or percentage."""
    return [
        (
            item["lift"],
            [(each.get("sets"), each.get("reps"), each.get("load", each.get("percent"))) for each in item["sets"]],
        )
        for item in items(text)
        if item["kind"] == "lift"
    ]


def moves(text: str) -> list[list[dict[str, Any]]]:
    return [item["piece"]["movement"] for item in items(text) if item["kind"] == "piece"]


@pytest.mark.parametrize("typed", ["Bench press  4 x 6  75%  T: 3110  R: 90s", "Bench press 4x6 @ 75% T:31X0, R: 1:30", "Bench 4x6 75 % R: 90 T: 3-1-1-0"])  # fmt: skip
def test_letters_behind_sets_are_tempo_and_rest(typed: str) -> None:
    (found,) = sets(typed)
    assert (found["sets"], found["reps"], found["rest_s"]) == (4, 6, 90)
    assert found["tempo"].startswith("3-1-")


@pytest.mark.parametrize(
    "typed",
    [
        "Épaulé-jeté 8x1, monter de 70 à 85 %",
        "Stoßen 8x1, steigern von 70 auf 85 %",
        "Clean and jerk 8x1, building from 70 up to 85%",
        "Clean and jerk 8x1, from 70% to 85%",
        "Cargada y envión 8x1, subiendo del 70 al 85 %",
        "Clean and jerk 8x1 70 → 85%",
        "Clean and jerk 8x1 @ 70% -> 85%",
    ],
)
def test_from_one_percentage_to_another_is_anywhere_between(typed: str) -> None:
    (found,) = sets(typed)
    assert (found["sets"], found["reps"], found["percent"]) == (8, 1, [70.0, 85.0])


def test_three_percentages_in_a_row_stay_three() -> None:
    assert [each["percent"] for each in sets("Squat 3x5 @ 70 → 75 → 80 %")] == [70.0, 75.0, 80.0]


def test_what_is_crossed_out_does_not_count() -> None:
    (found,) = items("For time:\n21-15-9 thrusters 43/30 kg, pull-ups\n~~cap 8~~ cap 10 min")
    assert found["piece"]["cap"] == "10:00"


@pytest.mark.parametrize(
    ("line", "count", "each_side"),
    [
        ("16 lunges (8 each side)", 16, False),
        ("16 Ausfallschritte (je Seite 8)", 16, False),
        ("20 step-ups, 10 per leg", 20, False),
        ("8 lunges each side", 8, True),
    ],
)
def test_half_of_them_on_each_side_are_as_many_as_are_told(line: str, count: int, each_side: bool) -> None:
    ((move, _),) = moves(f"AMRAP 10\n{line}\n10 burpees")
    assert (move["first"], move.get("each_side", False)) == (count, each_side)


@pytest.mark.parametrize("head", ["On the 3:00 x 4", "on the 3 min x 4 sets:", "On the 3 min, for 4 rounds", "Every 3:00 x 4"])  # fmt: skip
def test_on_the_three_minutes_is_every_three_minutes(head: str) -> None:
    (found,) = items(f"{head}\n12 cal ski\n10 burpees")
    assert (found["piece"]["kind"], found["piece"]["interval"], found["piece"]["intervals"]) == (
        "every minute",
        "3:00",
        4,
    )


@pytest.mark.parametrize(
    "typed", ["B. Jerk every 2:00 x 5 @ 70%", "Jerk, every 2 min x 5 @ 70%", "Jerk E2MOM x 5 @ 70%"]
)
def test_a_clock_before_a_load_says_how_many_sets(typed: str) -> None:
    assert lifts(typed) == [("Jerk", [(5, 1, 70.0)])]


@pytest.mark.parametrize(
    ("line", "load"),
    [
        ("8 lunges holding two 12s", "12"),
        ("8 lunges with the 17.5 kgs", "17.5"),
        ("8 lunges with an 8 kg in each hand", "8"),
        ("8 lunges, 16 kg kettlebells in each hand", "16"),
    ],
)
def test_what_each_hand_holds(line: str, load: str) -> None:
    ((move, _),) = moves(f"3 rounds for time\n{line}\n10 burpees")
    assert (move["first"], move["load"], move["implements"]) == (8, load, 2)


def test_the_heavy_ones_are_asked_in_which_unit() -> None:
    reading = read("curls with the 35s 4x12")
    assert [ask.question for ask in reading.asks if "35" in ask.question] == ["35 kg or lb?"]


@pytest.mark.parametrize("mark", ["Station 1 - {}", "Station 1: {}", "Stn 1 – {}", "Station 1. {}"])
def test_stations_by_a_dash_are_no_counts(mark: str) -> None:
    text = "\n".join(mark.replace("1", str(at)).format(what) for at, what in enumerate(("row", "skipping", "bike"), 1))
    (found,) = items(f"3 stations, 3 min each, 1 min to change\n{text}")
    assert (found["piece"]["interval"], found["piece"]["rest"]) == ("3:00", "1:00")
    assert [move.get("first") for move in found["piece"]["movement"]] == [None, None, None]


@pytest.mark.parametrize(
    ("typed", "loads"),
    [
        (
            "Meet day attempts: squat 150/157.5/162.5, bench 95/100/102.5",
            [["150", "157.5", "162.5"], ["95", "100", "102.5"]],
        ),
        ("Attempts\nSquat attempts: 150, 157.5, 162.5 kg", [["150", "157.5", "162.5"]]),
    ],
)
def test_attempts_are_singles_one_after_the_other(typed: str, loads: list[list[str]]) -> None:
    assert [[each[2] for each in found] for _, found in lifts(typed)] == loads
    assert all((each["sets"], each["reps"]) == (1, 1) for each in sets(typed))


@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        ("Press: 40 kg 5x5", [("Press", [(5, 5, "40")])]),
        ("Snatch 1x80kg, clean and jerk 1x100kg.", [("Snatch", [(1, 1, "80")]), ("Clean and jerk", [(1, 1, "100")])]),
        ("Deadlift 140kg for 5, 5, 5", [("Deadlift", [(3, 5, "140")])]),
        ("Snatch up to 75% singles, squat 3x3 @ 80%", [("Snatch", [(1, 1, 75.0)]), ("Squat", [(3, 3, 80.0)])]),
        ("Front squat 2 back-off triples @ 75%", [("Front squat", [(2, 3, 75.0)])]),
        ("Pause squat 4x3 with a 2 sec pause at 70%", [("Pause squat", [(4, 3, 70.0)])]),
        ("Everything 60%, 3x5: squat, bench and press", [(name, [(3, 5, 60.0)]) for name in ("Squat", "Bench press", "Press")]),
        ("Bench 3x8 @ 60 kg, 3x12 triceps", [("Bench press", [(3, 8, "60")]), ("Triceps", [(3, 12, None)])]),
        ("Squat 3x5 @ 80 kg. Then 3 sets of hams", [("Squat", [(3, 5, "80")])]),
    ],
)  # fmt: skip
def test_sets_told_otherwise(typed: str, wanted: list[Any]) -> None:
    assert lifts(typed) == wanted


@pytest.mark.parametrize(
    "typed",
    ["Bench: bar x 10, 3x5 @ 60 kg", "Bench: 10 @ empty bar, 3x5 @ 60 kg", "Bench: empty bar x 10, 3x5 @ 60 kg"],
)
def test_the_empty_bar_takes_no_load_of_other_sets(typed: str) -> None:
    assert lifts(typed) == [("Bench press", [(1, 10, None), (3, 5, "60")])]


def test_the_last_set_said_in_a_sentence_of_its_own_is_the_last_of_them() -> None:
    first, last = sets("Deadlift 140kg for 5, 5, 5. Last set amrap.")
    assert (first["sets"], last["sets"], last["or_more"], last["load"]) == (2, 1, True, "140")


@pytest.mark.parametrize(
    "typed",
    [
        "Week 1 | Week 2\nSquat 5x5 @70% | 5x4 @75%\nBench 4x8 @65% | 4x6 @70%",
        "W1 | W2\nSquat: 5x5 @70% | 5x4 @75%\nBench: 4x8 @65% | 4x6 @70%",
    ],
)
def test_a_row_of_weeks_above_rows_that_begin_with_their_lift(typed: str) -> None:
    assert [[(i["lift"], i["sets"][0]["reps"], i["sets"][0]["percent"]) for i in each["items"]] for each in sessions(typed)] == [
        [("Squat", 5, 70.0), ("Bench press", 8, 65.0)],
        [("Squat", 4, 75.0), ("Bench press", 6, 70.0)],
    ]  # fmt: skip


def test_letters_before_the_work_of_a_week_are_its_days() -> None:
    text = "M - Clean 6x1 @ 80%\nT - Snatch 6x1 @ 80%\nW - off\nT - Power clean 5x2 @ 70%\nF - Press 3x5 @ 75%"
    assert [each["day"] for each in sessions(text)] == ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday"]


def test_windows_on_one_line_are_parts_of_their_own() -> None:
    first, second, third = items("0-5 min: 5 power cleans @ 60% emom. 5-10: 10 burpees emom. 10-15 max cal row")
    assert (first["sets"][0]["sets"], first["sets"][0]["percent"]) == (5, 60.0)
    assert (second["piece"]["kind"], second["piece"]["intervals"]) == ("every minute", 5)
    assert (third["piece"]["kind"], third["piece"]["cap"]) == ("calories", "5:00")


def test_when_each_part_begins_is_no_length_of_it() -> None:
    found = moves("at 0:00 run 800m\nat 6:00 50 wall balls 9/6\nat 12:00 row 1k")
    assert [[(move["name"], move["first"]) for move in each] for each in found] == [
        [("run", 800)],
        [("wall ball", 50)],
        [("row", 1000)],
    ]


@pytest.mark.parametrize(
    "typed",
    [
        "EMOM 10: odd: 12 cals, even: 8 burpees",
        "EMOM 10, 12 cals one minute and 8 burpees the next",
        "EMOM 10\nodd: 12 cal\neven: 8 burpees",
    ],
)
def test_calories_of_no_machine_are_not_those_of_the_next_station(typed: str) -> None:
    ((first, second),) = moves(typed)
    assert (first["first"], first["measure"], second["name"], second["first"]) == (12, "cal", "burpee", 8)
    assert "measure" not in second


def test_as_many_sets_as_odd_minutes_are_those_of_the_odd_minutes() -> None:
    first, second = items("EMOM 10, odd: jerk 5x2 70%\neven: 8 T2B")
    assert [(each["sets"], each["reps"], each.get("percent")) for each in first["sets"]] == [(5, 2, 70.0)]
    assert [(each["sets"], each["reps"]) for each in second["sets"]] == [(5, 8)]


def test_a_height_before_the_next_movement_is_no_time() -> None:
    ((first, second),) = moves('10-8-6 burpee box jump over 20" & DB thruster 22.5/15 kg')
    assert (first["reps"], second["reps"]) == ([10, 8, 6], [10, 8, 6])


@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        ("Snatch to max", ["Snatch"]),
        ("Snatch + C&J to max", ["Snatch", "Clean and jerk"]),
        ("Squat, up to a max", ["Squat"]),
    ],
)
def test_up_to_a_max_is_a_test_of_each(typed: str, wanted: list[str]) -> None:
    assert [name for name, _ in lifts(typed)] == wanted
    assert [each["find"] for each in sets(typed)] == ["1RM"] * len(wanted)


def test_the_load_of_a_bell_told_ahead_is_not_that_of_the_run() -> None:
    ((run, swing, pull),) = moves("Today with a 20kg kb, 3 rounds for time 400 run 21 swings 12 pull ups")
    assert (run.get("load"), swing["load"], pull.get("load")) == (None, "20", None)


def test_minutes_of_rest_behind_a_test() -> None:
    assert [item.get("rest_s") for item in items("1RM back squat\nRest 15\n3RM bench")] == [900, None]


def test_a_day_of_words_stays() -> None:
    text = "Mon: squat 5x5 @ 70%\nTue: mobility only\nWed: bench 5x5 @ 70%"
    assert [each["items"][0].get("text", [""])[-1] for each in sessions(text)][1] == "Tue: mobility only"
    assert not [ask for ask in read(text).asks if ask.line == 2]


@pytest.mark.parametrize("name", ["Chest press machine", "Machine chest press"])
def test_a_machine_behind_the_name_is_what_it_is_done_with(name: str) -> None:
    (found,) = items(f"{name} 3x10 25kg")
    assert found["implement"] == "machine"


def test_speed_pulls_are_no_box_squats() -> None:
    assert lifts("Box squat 8x2 @ 55%\nspeed pulls 6x1 @ 60%") == [
        ("Box squat", [(8, 2, 55.0)]),
        ("Deadlift", [(6, 1, 60.0)]),
    ]


def test_taking_time_is_not_against_the_clock() -> None:
    (found,) = items("Everything twice round, take your time\n10 chair squats\n10 wall press ups")
    assert (found["piece"]["kind"], found["piece"]["rounds"]) == ("unscored", 2)
