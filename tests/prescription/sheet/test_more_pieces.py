"""More ordinary ways of writing pieces, by what they say; beside some stands what looks like them and means something else."""

from __future__ import annotations

import json

import pytest

from tests.prescription.sheet.test_ordinary_pieces import holds, moves, pieces
from tracker.prescription.sheet import as_json, read


def names(text: str) -> list[str]:
    return [move["name"] for move in moves(text)]


# stations told by their minute


@pytest.mark.parametrize(
    "text",
    [
        "EMOM 9 min: min 1 – 12 cal row; min 2 – 40 s plank; min 3 – 10 box jumps",
        "EMOM 9: min 1: 12 cal row, min 2: 40 sec plank, min 3: 10 box jumps",
        'EMOM 9: min 1: 12 cal row; min 2: 40" plank; min 3: 10 box jumps',
        "emom 9 rotating 1. 12 cal row 2. 40s plank 3. 10 box jumps",
    ],
)
def test_stations_by_their_minute_do_not_rise(text: str) -> None:
    found = moves(text)
    assert [(move["name"], move.get("first"), move.get("step")) for move in found] == [
        ("row", 12, 0),
        ("plank", 40, 0),
        ("box jump", 10, 0),
    ]


def test_the_same_movement_with_more_each_minute_rises() -> None:
    holds(moves("Every minute: min 1 2 burpees, min 2 4, min 3 6")[0], {"name": "burpee", "first": 2, "step": 2})


@pytest.mark.parametrize(
    "words",
    [
        ("odd", "even"),
        ("dispari", "pari"),
        ("ungerade", "gerade"),
        ("oneven", "even"),
        ("impair", "pair"),
        ("impares", "pares"),
        ("ímpares", "pares"),
    ],
)
def test_odd_and_even_minutes_in_six_languages(words: tuple[str, str]) -> None:
    odd, even = words
    text = f"EMOM 10: {odd} 12 cal row, {even} 10 burpees"
    assert names(text) == ["row", "burpee"]
    assert pieces(text)[0]["in_turn"] is True


# rounds told by the first two and the last


@pytest.mark.parametrize(
    ("text", "reps"),
    [
        ("Start with ten deadlifts and ten burpees, then nine and nine, all the way to one.", [10, 9, 8, 7, 6, 5, 4, 3, 2, 1]),
        ("For time: 10 deadlifts and 10 burpees, then 8 and 8, then 6 and 6, down to 2", [10, 8, 6, 4, 2]),
        ("2 deadlifts, 2 burpees, then 4 and 4, up to 10", [2, 4, 6, 8, 10]),
    ],
)  # fmt: skip
def test_a_ladder_told_by_its_first_rounds_is_one_row(text: str, reps: list[int]) -> None:
    assert [(move["name"], move["reps"]) for move in moves(text)] == [("deadlift", reps), ("burpee", reps)]


# a table with a column for each way


def test_a_table_of_ways_gives_each_movement_its_options() -> None:
    text = """AMRAP 14

| # | Rx | Scaled | Home |
|---|----|--------|------|
| 12 | wall balls 9/6 kg | wall balls 6/4 kg | air squats |
| 9 | toes to bar | knee raises | - |
"""
    first, second = moves(text)
    holds(first, {"name": "wall ball", "first": 12, "load": ["9", "6"]})
    assert [(each["when"], each["name"], each.get("load")) for each in first["options"]] == [
        ("scaled", "wall ball", ["6", "4"]),
        ("home", "air squat", None),
    ]
    holds(second, {"name": "toes to bar", "first": 9})
    assert [(each["when"], each["name"]) for each in second["options"]] == [("scaled", "hanging knee raise")]


def test_a_table_of_ways_whose_cells_are_loads_alone() -> None:
    found = moves("AMRAP 10\nmovement | Rx | Scaled\n10 thrusters | 43/30 kg | 30/20 kg\n10 pull-ups | - | ring rows")
    assert [(move["name"], move.get("load"), move["options"][0].get("load")) for move in found] == [
        ("thruster", ["43", "30"], ["30", "20"]),
        ("pull-up", None, None),
    ]


# one movement after the other


@pytest.mark.parametrize(
    "head", ["TABATA (20/10 x 8 each, 1 min between moves)", "Tabata each:", "Tabata, 8 rounds of each"]
)
def test_intervals_of_one_movement_after_the_other_are_a_piece_each(head: str) -> None:
    found = pieces(f"{head}\n- KB swings 24/16kg\n- hollow hold\nlowest round counts")
    assert [[move["name"] for move in piece["movement"]] for piece in found] == [["kettlebell swing"], ["hollow hold"]]
    for piece in found:
        holds(piece, {"kind": "work and rest", "interval": "0:20", "intervals": 8, "scored_by": "lowest"})


def test_intervals_that_say_nothing_of_each_stay_one_piece() -> None:
    assert len(pieces("Tabata: KB swings 24/16kg, hollow hold each side")) == 1


# easier ways


@pytest.mark.parametrize(
    ("text", "option"),
    [
        ("12 Klimmzüge (skaliert: Ringrudern)", "ring row"),
        ("12 dominadas (o remo en anillas)", "ring row"),
        ("12 trazioni (facile: con elastico)", "banded pull-up"),
        ("12 tractions (ou avec élastique)", "banded pull-up"),
        ("12 pull-ups (easy: banded)", "banded pull-up"),
        ("12 pull-ups. Who has no bar at home makes ring rows.", "ring row"),
        ("12 pull-ups. if you dont have a bar do ring rows", "ring row"),
        ("12 pull-ups. If you don't have a bar, do ring rows.", "ring row"),
    ],
)
def test_an_easier_way_is_an_option_and_no_movement_of_its_own(text: str, option: str) -> None:
    found = moves(f"AMRAP 12: 10 burpees, {text}")
    assert [move["name"] for move in found] == ["burpee", "pull-up"]
    assert [each["name"] for each in found[1]["options"]] == [option]


# loads


@pytest.mark.parametrize(
    ("text", "load"),
    [
        ("DB thrusters 22.5kg, 3 rounds of 12", "22.5"),
        ("SA farmer carry 50lb DB, 4 trips of 40m/side", "50"),
        ("farmer carry 50lb, 4 x 40m", "50"),
        ("sled push 90 kg, 4 rounds of 20m", "90"),
    ],
)
def test_a_load_before_how_often_is_kept(text: str, load: str) -> None:
    assert [move.get("load") for move in moves(text)] == [load]


def test_movements_that_come_back_keep_their_load() -> None:
    found = moves("For time\n40 wall balls 20/14 lb\n30 box jumps\nThen back up: 30 box jumps, 40 wall balls")
    assert [move.get("load") for move in found] == [["20", "14"], None, None, ["20", "14"]]


def test_the_same_movement_without_such_words_gets_no_load() -> None:
    found = moves("For time\n40 wall balls 20/14 lb\n30 box jumps\n40 wall balls")
    assert [move.get("load") for move in found] == [["20", "14"], None, None]


# lengths, distances


def test_a_pause_in_a_lift_is_no_rest_between_sets() -> None:
    reading = read("goblet squat 4x10, 2 sec pause at the bottom")
    sheet = json.loads(json.dumps(as_json(reading.sheet, reading.asks)))
    assert "rest_s" not in sheet["sessions"][0]["items"][0]["sets"][0]


def test_one_piece_may_stand_between_strokes() -> None:
    (piece,) = pieces("Teams of 3 | 24 min | max metres on the rower, swap whenever")
    holds(piece, {"kind": "distance", "cap": "24:00"})


@pytest.mark.parametrize(
    "text", ["Run 6x400m, rest 90s, then 1 mile at threshold", "Track: 6x400 w/ 90s rest, then 1 mile at threshold"]
)
def test_an_easy_distance_after_intervals_is_a_piece_of_its_own(text: str) -> None:
    first, second = pieces(text)
    holds(first, {"kind": "work and rest", "intervals": 6, "rest": "1:30"})
    holds(second["movement"][0], {"name": "run", "first": 1609, "measure": "m"})


def test_an_unscored_time_of_several_movements_says_how_long() -> None:
    (piece,) = pieces("15 min easy: 250m row, 10 ring rows, 10 hollow rocks, keep moving no score")
    holds(piece, {"kind": "unscored", "cap": "15:00"})


def test_the_minutes_of_a_class_are_no_part_of_the_work() -> None:
    text = "0-10 warm-up\n  2 rounds: 200 m jog, 10 air squats\n\n10-28 strength\n  Squat 5x5 @ 75%\n\n30-45 workout\n  AMRAP 12: 10 burpees"
    reading = read(text)
    sheet = json.loads(json.dumps(as_json(reading.sheet, reading.asks)))
    assert [item["kind"] for item in sheet["sessions"][0]["items"]] == ["warm-up", "lift", "piece"]


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("Track Thurs: 6x400 rest 90s\n\nSun: 16k easy with whoever turns up", 2),
        (
            "Wed: Bench pull 4x8 @ 45kg\nCore: 3 rds - 15 leg raises, 30s hollow\nSat erg: 30 min for max metres, rate 20",
            2,
        ),
    ],
)
def test_a_day_with_one_distance_is_a_session_of_its_own(text: str, days: int) -> None:
    reading = read(text)
    sheet = json.loads(json.dumps(as_json(reading.sheet, reading.asks)))
    assert len(sheet["sessions"]) == days
    piece = sheet["sessions"][-1]["items"][0]["piece"]
    assert piece["movement"][0]["name"] in ("run", "row")
    assert piece["movement"][0]["measure"] == "m"


def test_partners_are_kept_where_the_most_of_something_is_wanted() -> None:
    holds(pieces("Teams of 3, 24 min, max metres on the rower, swap whenever")[0], {"kind": "distance", "partners": 3})


def test_stations_of_seconds_called_hollow_are_hollow_holds() -> None:
    assert names("3 rounds: 15 leg raises, 30s hollow") == ["leg raise", "hollow hold"]


def test_a_cell_with_a_count_of_its_own_keeps_it() -> None:
    text = "AMRAP 10\n| # | Rx | Scaled |\n|---|---|---|\n| 12 | toes to bar | 8 knee raises |\n| 10 | thrusters 43/30 kg | 30/20 kg thrusters |"
    first, second = moves(text)
    assert (first["first"], first["options"][0]["first"]) == (12, 8)
    assert (second["load"], second["options"][0]["load"]) == (["43", "30"], ["30", "20"])


def test_a_tabata_that_partners_share_stays_one_piece() -> None:
    assert len(pieces("Tabata, 8 rounds each partner: air squats, push-ups")) == 1


def test_minutes_after_which_all_stop_are_a_cap() -> None:
    text = (
        "Start with ten deadlifts and ten burpees, then nine and nine, all the way to one. 15 minutes and then we stop."
    )
    assert pieces(text)[0]["cap"] == "15:00"
