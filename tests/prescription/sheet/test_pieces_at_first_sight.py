"""Classes of writing that strangers' texts showed at first sight: warm-ups, second pieces, stations, loads of two groups, levels."""

from __future__ import annotations

import json
from typing import Any

import pytest

from tests.prescription.sheet.test_ordinary_pieces import holds, moves, pieces
from tracker.prescription.sheet import as_json, read


def items(text: str) -> list[dict[str, Any]]:
    return json.loads(json.dumps(as_json(read(text).sheet)))["sessions"][0]["items"]


def kinds(text: str) -> list[str]:
    return [item["kind"] for item in items(text)]


WORK = "\n\nBack squat 5x5 @ 75 % 1RM"


@pytest.mark.parametrize(
    "text",
    [
        "w/up: 500 row, 2 x (10 band pull-aparts, 8 push-ups)",
        "w/u 3rds\n200 m jog / 10 air squats / 5 inchworms",
        "W-up 8 min: alternate 1 min row / 1 min mobility",
        "warmy: 3' skip, 10 push-ups, 10 squats, x2",
        "wake up: 400 m jog",
        "Get warm:\n400 m run, 20 lunges",
        "General warm-up 3 rds: 1 min bike, 10 push-ups",
        "Warm-up 2 rounds\n10 cal row\n10 goblet squats",
        "Warm up\nemom 6 easy: 1 bike, 2 spiderman stretch, 3 hollow hold",
        "Warm-up (10 min)\n2 rounds:\n250 m row\n10 air squats",
        "2 rds easy\n200 row\n10 air squats",
    ],
)
def test_a_warm_up_under_any_heading_is_no_piece(text: str) -> None:
    assert kinds(text + WORK) == ["warm-up", "lift"]


@pytest.mark.parametrize(
    "text",
    [
        "Bells only\nPrep 5 min: arm bars, halos\nTurkish get-up 3 x 2 each side, 20 kg, rest 60 s",
        "3 rounds of easy pace for time\n200 m row\n10 air squats",
        "Get-ups 3x3 @ 16 kg",
    ],
)
def test_work_is_no_warm_up(text: str) -> None:
    assert kinds(text)[-1] in ("lift", "piece")


@pytest.mark.parametrize(
    "between",
    [
        "\n-- rest 3 min, change your weights --\n\nWOD 2\nFor time, 10 min cap",
        '\nchill 3 mins\n\nPart two - "Second Helping"\nfor time\ncap 10',
        "rest 3 min\nFor time, cap 10 min",
        "\n3 min break\n\nthen for time, 10 min cap:",
    ],
)
def test_a_second_piece_begins_at_its_own_clock(between: str) -> None:
    found = pieces(f"AMRAP 7\n7 power cleans 60/40 kg\n7 burpees\n{between}\n30 cal row\n40 wall balls 9/6 kg")
    assert [each["kind"] for each in found] == ["as many as possible", "for time"]
    assert [len(each["movement"]) for each in found] == [2, 2]


@pytest.mark.parametrize(
    "head",
    [
        "work/rest: 40 sec on 20 sec off, 3 times round",
        "work/rest 40/20 x 3 rounds",
        "work 40, rest 20, 3 times around",
        "40:20 x 3 rounds",
        "stations: 40 sec on, 20 sec to switch, 3x through",
    ],
)
def test_stations_in_work_and_rest(head: str) -> None:
    (piece,) = pieces(f"Strict press 5x3 @ 75 % 1RM\n{head}\nrow\nstep-ups\nplank")
    holds(piece, {"kind": "work and rest", "interval": "0:40", "rest": "0:20", "rounds": 3})
    assert [move["name"] for move in piece["movement"]] == ["row", "step-up", "plank"]


def test_the_rest_of_a_lift_is_not_taken_from_the_stations_below_it() -> None:
    lift = items("Strict press 5x3 @ 75 % 1RM\nwork/rest: 40 sec on 20 sec off, 3 rounds\nrow\nplank")[0]
    assert "rest_s" not in lift


@pytest.mark.parametrize(
    "typed",
    ["w 16 / m 24 kg", "(m 24, w 16)", "m: 24kg, f: 16kg", "24kg (m) / 16kg (f)", "♂ 24 / ♀ 16 kg", "H 24 F 16"],
)
def test_the_load_of_each_group_by_its_letter(typed: str) -> None:
    holds(moves(f"AMRAP 12\n8 swings, {typed}\n8 burpees")[0], {"first": 8, "load": ["24", "16"], "unit": "kg"})


def test_minutes_by_their_letter_are_no_loads() -> None:
    assert [move["first"] for move in moves("EMOM 8\nm1 16 burpees\nm2 12 swings")] == [16, 12]


@pytest.mark.parametrize(
    ("typed", "name", "load"),
    [
        ("30 KBS 24", "kettlebell swing", "24"),
        ("10 wall balls 9", "wall ball", "9"),
        ("8 deadlifts 100", "deadlift", "100"),
        ("10 step-ups with one dumbbell 12.5/7.5kg", "step-up", ["12.5", "7.5"]),
        ("20 DB step-ups 22.5/15", "dumbbell step-up", ["22.5", "15"]),
        ("10 goblet squats with one kb 24/16", "goblet squat", ["24", "16"]),
        ("10 thrusters with 15/10 kg dumbbells and box jumps", "thruster", ["15", "10"]),
    ],
)
def test_a_load_behind_its_movement(typed: str, name: str, load: Any) -> None:
    holds(moves(f"AMRAP 12\n{typed}\n8 burpees")[0], {"name": name, "load": load, "unit": "kg"})


@pytest.mark.parametrize("typed", ["12 box jumps 24", "10 burpees 5", "12 swings 200"])
def test_a_number_that_is_no_load(typed: str) -> None:
    assert "load" not in moves(f"AMRAP 12\n{typed}\n8 sit-ups")[0]


@pytest.mark.parametrize(
    "text", ["21-15-9 cals on the bike\n+ thrusters 43/30", "21-15-9\ncalories on the bike\nthrusters 43/30"]
)
def test_calories_on_a_machine(text: str) -> None:
    holds(moves(text)[0], {"name": "bike", "reps": [21, 15, 9], "measure": "cal"})


@pytest.mark.parametrize("typed", ["burp o bar", "burpees o/bar", "burpees over the bar"])
def test_burpees_over_the_bar(typed: str) -> None:
    assert moves(f"4 RFT\n400 run\n10 {typed}")[1]["name"] == "burpee over bar"


def test_a_clock_behind_the_key_says_how_and_is_no_title() -> None:
    text = "Piece: every minute for 15 min, 5 times through\nmin 1: 10 cal bike\nmin 2: 10 sit-ups\nmin 3: 30 s plank"
    holds(pieces(text)[0], {"title": "", "kind": "every minute", "intervals": 15})
    holds(pieces("Piece: Twelve\nas many as possible in 12:00\n10 burpee")[0], {"title": "Twelve", "cap": "12:00"})
    holds(pieces("Piece: AMRAP 12\nas many as possible in 9:00\n10 burpee")[0], {"title": "AMRAP 12", "cap": "9:00"})


def test_a_unit_cut_short_by_a_dot_ends_no_sentence() -> None:
    holds(moves("EMOM 12 min\n1. 15 cal Row\n2. 30 Sek. Plank")[1], {"name": "plank", "first": 30, "measure": "s"})


@pytest.mark.parametrize(
    "level",
    [
        "(Beginners: goblet squat 3x10 and talk to me)",
        "Level 1: goblet squat, 3x10",
        "Rookies do goblet squats, 3x10",
        "- beginner option: goblet squat 3x10",
        "Intermediate & below: goblet squat 3 x 10",
    ],
)
def test_what_a_level_does_instead_of_a_lift_is_another_way_of_it(level: str) -> None:
    (lift,) = items(f"Back squat 3x5 @ 77 % 5RM\n{level}")
    holds(lift["alternatives"][0], {"lift": "Goblet squat", "sets": [{"sets": 3, "reps": 10}]})
    assert len(lift["sets"]) == 1


def test_a_level_without_sets_adds_none() -> None:
    (lift,) = items("Bench press 4x8 @ 65 % 1RM\nLevel 1: DB bench, 4x10\nLevel 2+3: barbell")
    assert lift["sets"] == [{"sets": 4, "reps": 8, "percent": 65.0}]
    (lift,) = items("Strict press 5x5 @ 70 % 1RM (scaled: seated DB press 3x10)")
    assert lift["sets"] == [{"sets": 5, "reps": 5, "percent": 70.0}]


@pytest.mark.parametrize(
    "text", ["SATURDAY EMOM-FEST", "For time 30-20-10\nwall balls 9/6\ncal row\nunbroken on the 10s"]
)
def test_a_word_of_a_clock_makes_no_piece(text: str) -> None:
    assert all(piece["movement"] for piece in pieces(text))
    assert len(pieces(text)) <= 1


@pytest.mark.parametrize(
    "words",
    ["Just two of you? 600 m runs and 2/3 of the reps", "Every time you break the wall balls: 5 burpees"],
)
def test_what_holds_for_some_or_for_a_slip_is_no_movement(words: str) -> None:
    (piece,) = pieces(f"For time, 30' cap\n800 m run\n80 wall balls 9/6 kg\n{words}")
    assert [move["name"] for move in piece["movement"]] == ["run", "wall ball"]


@pytest.mark.parametrize(
    "text", ["10-1 deadlifts 100/70 and burpees over bar, for time", "For time 10 to 1\ndeadlifts 100/70"]
)
def test_counting_down_to_one(text: str) -> None:
    holds(moves(text)[0], {"name": "deadlift", "reps": list(range(10, 0, -1)), "load": ["100", "70"]})


def test_a_day_is_no_countdown() -> None:
    assert kinds("Mon 10-1 strength\nBench press 5x5 @ 75 % 1RM") == ["lift"]


def test_a_row_of_counts_that_goes_on_within_a_time() -> None:
    text = "3-6-9-12-... 10 min: KB swings (24/16), box jumps"
    holds(pieces(text)[0], {"kind": "as many as possible", "cap": "10:00"})
    assert [(move["first"], move["step"]) for move in moves(text)] == [(3, 3), (3, 3)]
