"""What is typed for something else, by its class: each row is one way, with what is read of it; beside it what only looks like it."""

from __future__ import annotations

import json
from typing import Any

import pytest

from tracker.prescription.sheet import as_json, read
from tracker.prescription.sheet.lines.as_meant import as_meant, days_by_number


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("AMRAP 1O'", "AMRAP 10'"),
        ("1O DB SN (22,5 / l5)", "10 DB SN (22,5 / 15)"),
        ("THUR5DAY", "THURSDAY"),
        ("E5MOM X 4", "E5MOM X 4"),
        ("Event 1 (9:30) - clean", "Event 1 - clean"),
        ("squats 0630/0930/1730", "squats o'clock"),
        ("run 800/600/400 m", "run 800/600/400 m"),
        ("Squat 10:00 / Bench 11:15 / DL 12:15", "timetable"),
        ("10 kb swing 24 / 10 pushup / 10 situp", "10 kb swing 24, 10 pushup, 10 situp"),
        ("20 min amrap 400m/20 kbs/10 pull ups", "20 min amrap 400 m run, 20 kbs, 10 pull ups"),
        ("50 chin / 50 dip / 50 leg raise", "50 chin, 50 dip, 50 leg raise"),
        ("400 m run / 500 m row / 1 km bike", "400 m run / 500 m row / 1 km bike"),
        ("12/9 cal row / 10 box jumps 24/20", "12/9 cal row / 10 box jumps 24/20"),
        ("10 thrusters 43 / 30 kg", "10 thrusters 43 / 30 kg"),
        ("10 MIN 10 KB SWINGS 10 BURPEES", "10 min: 10 KB SWINGS 10 BURPEES"),
        ("10 min 8 x 3 snatch", "10 min 8 x 3 snatch"),
        ("30 squat cleans, 95 lb. (65 lb.)", "30 squat cleans, 95/65 lb"),
        ("clean 95 lb (43 kg)", "clean 95 lb (43 kg)"),
        ("double kb clean (2x16)", "double kb clean 2 x 16 kg"),
        ("press (2x5)", "press (2x5)"),
        ("20>18>16...>2: cal row", "20-18-16...-2: cal row"),
        ("ladder 5 to 1", "ladder 5-4-3-2-1"),
        ("1-1-1-1-1 power clean", "power clean 1-1-1-1-1"),
        ("21-15-9 clean", "21-15-9 clean"),
        ("Strength, 20 min: back squat", "Strength: back squat"),
        ("2) 3x: 6 inchworms", "2) 3 rounds: 6 inchworms"),
        ("50 synchro sit-ups (2 work 1 holds plank)", "50 synchro sit-ups"),
        ("7' ascending: 2-4-6-8 box jumps", "AMRAP 7: 2-4-6-8 box jumps"),
        ("Row 750 m, then 3 rounds of 12 lunges, then row 750 m", "buy-in: Row 750 m; 3 rounds of 12 lunges; cash-out: row 750 m"),
        ("2.0 Strength [12:00-32:00]", "Strength"),
        ("2.5 kg more than last week", "2.5 kg more than last week"),
        ("10-20-30 cal bike. women 8-16-24", "10-20-30 cal bike"),
        ("Week 4 of 6 - Mon/Wed/Fri", "Week 4 of 6"),
        ("bike @ 85 % of 20' power", "bike @ 85 % of power"),
    ],
)  # fmt: skip
def test_a_line_is_put_into_the_form_that_is_meant(typed: str, meant: str) -> None:
    assert as_meant(typed) == meant


def test_days_by_their_number_count_up_from_one() -> None:
    assert days_by_number(["D1", "squat", "D2"]) == ["Day 1", "squat", "Day 2"]
    assert days_by_number(["D1", "squat", "D3"]) == ["D1", "squat", "D3"]
    assert days_by_number(["D1", "squat"]) == ["D1", "squat"]


def piece_of(text: str) -> dict[str, Any]:
    reading = read(text)
    items = json.loads(json.dumps(as_json(reading.sheet, reading.asks)))["sessions"][0]["items"]
    return next(item["piece"] for item in items if item["kind"] == "piece")


def lift_of(text: str) -> dict[str, Any]:
    reading = read(text)
    items = json.loads(json.dumps(as_json(reading.sheet, reading.asks)))["sessions"][0]["items"]
    return next(item for item in items if item["kind"] == "lift")


@pytest.mark.parametrize(
    "head",
    [
        "ALL AT 24/16 KG\n5 rounds for time",
        "5 rounds for time, 24/16 kg for everything",
        "5 rounds for time, all with one 24/16 kg bell",
    ],
)
def test_a_load_told_in_a_heading_is_that_of_all_that_take_one(head: str) -> None:
    moves = piece_of(f"{head}\n10 kb swings\n10 sit-ups\n10 goblet squats")["movement"]
    assert [move.get("load") for move in moves] == [["24", "16"], None, ["24", "16"]]


@pytest.mark.parametrize(
    ("below", "loads"),
    [
        ("Wall ball is 9kg boys 6kg girls, kettlebell 24 or 16", [["9", "6"], ["24", "16"], None]),
        ("kb 24 / 16 kg or what you have", [None, ["24", "16"], None]),
        ("the ball is 9/6 kg", [["9", "6"], None, None]),
        ("score is 15", [None, None, None]),
        ("kettlebell 24, rest as you like", [None, None, None]),
    ],
)
def test_loads_told_below_are_those_of_the_movements_they_name(below: str, loads: list[Any]) -> None:
    moves = piece_of(f"AMRAP 20\n100 wall balls\n60 kettlebell swings\n40 burpees\n{below}")["movement"]
    assert [move.get("load") for move in moves[:3]] == loads


def test_parts_of_a_piece_on_one_line_are_told_apart() -> None:
    piece = piece_of(
        "For time, cap 20: buy-in 1 km row, 4 rounds of 10 thrusters 40/30 and 10 pull-ups, cash-out 1 km row"
    )
    assert (piece["kind"], piece["cap"], piece["rounds"]) == ("for time", "20:00", 4)
    assert [move.get("part") for move in piece["movement"]] == ["buy-in", None, None, "cash-out"]


def test_as_many_as_the_time_leaves_room_for_is_a_movement() -> None:
    piece = piece_of("12 min: 1 km row, 40 wall balls 9/6, then as many burpees as possible in what's left")
    assert [(move["name"], move.get("most")) for move in piece["movement"]][-1] == ("burpee", True)


def test_sets_told_again_with_their_load_are_the_same_sets() -> None:
    assert lift_of("Bench 4x8\nsorry sent too soon\n4x8 @ 65%")["sets"] == [{"sets": 4, "reps": 8, "percent": 65.0}]
    assert len(lift_of("Bench 3x8\n4x8 @ 65%")["sets"]) == 2


@pytest.mark.parametrize(
    "aside",
    [
        "Text me if your dumbbells only go up to 10 kg",
        "Hold a 4 kg ball if that was easy last week",
        "No number yet? Use RPE 6 and write it down",
        "If you're under 6 months here: 5x3 light",
    ],
)
def test_what_is_said_beside_the_sets_changes_none_of_them(aside: str) -> None:
    assert lift_of(f"Back squat 3x8\n{aside}")["sets"] == [{"sets": 3, "reps": 8}]


def test_a_column_for_home_is_another_way() -> None:
    table = "| Day | Conditioning | Home |\n|---|---|---|\n| Mon | E3MOM x5: 300m row + 10 DB snatch 22.5/15 | 60 jumping jacks + 10 backpack snatch |"
    moves = piece_of(table)["movement"]
    assert [move["name"] for move in moves] == ["row", "dumbbell snatch"]
    assert [option["name"] for move in moves for option in move["options"]] == ["jumping jack", "backpack snatch"]


@pytest.mark.parametrize(
    ("line", "field", "value"), [("edit: 3 rounds", "rounds", 3), ("edit 2: 30 min cap", "cap", "30:00")]
)
def test_an_edit_that_is_understood_is_done(line: str, field: str, value: Any) -> None:
    assert piece_of(f"4 rounds for time, cap 20\n20 wall balls\n{line}")[field] == value


def test_an_edit_that_is_not_understood_is_asked_about_and_no_movement() -> None:
    text = "4 rounds for time\n20 wall balls\nedit 3: DB 2x20 m, 2x12.5 f"
    assert [move["name"] for move in piece_of(text)["movement"]] == ["wall ball"]
    assert [ask.line for ask in read(text).asks if "change" in ask.question] == [3]


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("5 varv på tid: 400 m löpning", "run"),
        ("AMRAP 12: 10 pompek", "push-up"),
        ("AMRAP 12: 10 armhävningar", "push-up"),
    ],
)
def test_movements_of_the_north_and_east(typed: str, name: str) -> None:
    assert piece_of(typed)["movement"][0]["name"] == name
