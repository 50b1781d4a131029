"""Ordinary ways of writing pieces, by what they say: each row is one way, with what must be read of it.

Beside each class stands what looks like it and means something else.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tests.prescription.sheet.hands.pieces.names import short_names
from tests.prescription.sheet.score import plain_name
from tracker.prescription.sheet import as_json, read
from tracker.prescription.sheet.words.names import known
from tracker.prescription.sheet.words.slips import mended

TABLES = Path(__file__).parents[3] / "tracker" / "prescription" / "sheet"


def pieces(text: str) -> list[dict[str, Any]]:
    reading = read(text)
    sheet = json.loads(json.dumps(as_json(reading.sheet, reading.asks)))
    return [item["piece"] for each in sheet["sessions"] for item in each["items"] if item["kind"] == "piece"]


def moves(text: str) -> list[dict[str, Any]]:
    (piece,) = pieces(text)
    return piece["movement"]


def names(text: str) -> list[str]:
    return [plain_name(move["name"]) for move in moves(text)]


def holds(found: dict[str, Any], facts: dict[str, Any]) -> None:
    assert {key: found.get(key) for key in facts} == facts


# names


@pytest.mark.parametrize(("typed", "name"), short_names())
def test_a_short_or_odd_name_is_the_movement_it_stands_for(typed: str, name: str) -> None:
    assert names(f"AMRAP 12\n10 {typed}\n10 devil press") == [plain_name(name), "devil press"]


def abroad() -> list[tuple[str, str]]:
    lines = (TABLES / "words" / "names_abroad.txt").read_text(encoding="utf-8").splitlines()
    rows = [line.split(" | ") for line in lines if " | " in line and not line.startswith("#")]
    return [(name, alias) for name, aliases in rows for alias in aliases.split(", ") if not alias.startswith("!")]


def test_every_name_of_the_table_abroad_is_read_as_its_movement() -> None:
    """One text of all: small words that are read first must leave each way of writing whole."""
    wrong = [
        alias
        for name, alias in abroad()
        if names(f"AMRAP 12\n10 {alias.lstrip('~')}\n10 devil press") != [plain_name(name), "devil press"]
    ]
    assert wrong == []


def test_the_table_abroad_has_the_commonest_names_in_six_languages() -> None:
    rows = {name for name, _ in abroad()}
    assert len(rows) >= 100
    assert all(known(name) is not None for name in rows)


@pytest.mark.parametrize(
    ("typed", "right"),
    [
        ("bakc sqaut", "back squat"),
        ("deadlfits 100/70kg", "deadlifts 100/70kg"),
        ("handstnad puhsups", "handstand pushups"),
        ("kb swigns", "kb swings"),
        ("dumbell thursters", "dumbbell thrusters"),
        ("10 cal bkie", "10 cal bike"),
    ],
)
def test_a_slip_in_the_word_of_a_name_is_mended(typed: str, right: str) -> None:
    assert mended(typed) == right


@pytest.mark.parametrize(
    "typed",
    ["makes it", "steep hill", "trust me", "lunes", "open the lungs", "bride", "weighed", "erst", "Grund", "incliné"],
)
def test_a_word_of_its_own_is_no_slip_of_a_movement(typed: str) -> None:
    assert mended(typed) == typed


# how it is done


@pytest.mark.parametrize(
    ("typed", "facts"),
    [
        ("12 min row for max distance", {"kind": "distance", "cap": "12:00"}),
        ("12 min row, max metres", {"kind": "distance", "cap": "12:00"}),
        ("Engine 1: 10 min row for max metres", {"kind": "distance", "cap": "10:00"}),
        ("30 min on the erg, as many metres as you can with the rate at 20 or under.", {"kind": "distance", "cap": "30:00"}),
        ("how far can you row in 10 minutes", {"kind": "distance", "cap": "10:00"}),
        ("Engine 2: 5 min bike for max calories", {"kind": "calories", "cap": "5:00"}),
        ("10 min row, as many calories as you can", {"kind": "calories", "cap": "10:00"}),
        ("35 min, get through as much as you can of 60 cal bike, 60 box jumps, 60 push ups", {"kind": "as many as possible", "cap": "35:00"}),
        ("a seven minute m wrap five burpees nine air squats", {"kind": "as many as possible", "cap": "7:00"}),
        ("E3MOM 5 rds: 15/12 cal row + 10 TTB", {"kind": "every minute", "interval": "3:00", "intervals": 5}),
        ("the workout is every two minutes for ten minutes do ten box jumps and ten kettlebell swings", {"interval": "2:00", "intervals": 5}),
        ("Push jerk: E2MOM x 6, 3 reps @ 60kg", {"kind": "every minute", "intervals": 6}),
        ("every 90 sec x 8: 2 push jerks @ 50/35 kg, add if it feels easy", {"kind": "every minute", "interval": "1:30", "intervals": 8}),
        ("Finish: 4 min of 20 s jumping jacks / 10 s rest", {"kind": "work and rest", "interval": "0:20", "rest": "0:10", "intervals": 8}),
        ("10 rounds: 30s assault bike sprint, 90s easy spin", {"kind": "work and rest", "interval": "0:30", "rest": "1:30", "intervals": 10}),
        ("bike sprint intervals 15/45 x 12", {"kind": "work and rest", "interval": "0:15", "rest": "0:45", "intervals": 12}),
        ("tabata mash up: air squats & hollow rocks alternate, 16 intervals", {"kind": "work and rest", "intervals": 16}),
        ("Erg 3x2k, 5min rest", {"kind": "work and rest", "intervals": 3, "rest": "5:00"}),
        ("row 5x1k, 2 min rest", {"kind": "work and rest", "intervals": 5, "rest": "2:00"}),
        ("Track\n8 x 400 @ 5k pace, 90s standing rest", {"kind": "work and rest", "intervals": 8, "rest": "1:30"}),
        ("three cycles of: 3 min amrap - 3 power cleans 60/42.5, 6 push-ups. rest a minute after each", {"kind": "as many as possible", "intervals": 3, "rest": "1:00"}),
        ("Zirkel, 4 Durchgänge, 45 Sek Arbeit / 15 Sek Pause:\n- Rudern\n- Kettlebell Swings", {"kind": "work and rest", "rounds": 4, "interval": "0:45"}),
        ("3 rondes, niet op tijd: 10 dips, 15 keer opdrukken", {"kind": "unscored", "rounds": 3}),
        ("Year 10 circuit. 7 stations, 40 sec on 20 sec off, 2 times round:\npress ups\nsquats", {"rounds": 2, "interval": "0:40"}),
        ("Buy in 800m run, then 5 rounds of 12 hang cleans 50kg 9 burpees, cash out 800m run. 25 min cut", {"cap": "25:00", "rounds": 5}),
        ("7 rounds - for time. 10 med ball cleans, 20 devil press", {"kind": "for time", "rounds": 7}),
    ],
)  # fmt: skip
def test_how_it_is_done_is_read_in_ordinary_words(typed: str, facts: dict[str, Any]) -> None:
    (piece,) = pieces(typed)
    holds(piece, facts)


@pytest.mark.parametrize(
    ("typed", "first", "step"),
    [
        ("emom till u cant. min one 1 db thruster min two 2 min three 3 and so on", 1, 1),
        ("every minute: minute 1 = 4 DB thrusters, minute 2 = 5, minute 3 = 6", 4, 1),
        ("every minute one more burpee. 1 in the first minute, 2 in the second, 3 in the third", 1, 1),
        ("amrap 9 min 2 hpc 2 lateral burpees over bar then 4 4 then 6 6 keep going up by 2", 2, 2),
        ("amrap 7: 3 thrusters, 3 pull ups, then 6 and 6, then 9 and 9, etc", 3, 3),
    ],
)
def test_counts_that_rise_are_read_as_they_are_told(typed: str, first: int, step: int) -> None:
    assert {(move["first"], move["step"]) for move in moves(typed)} == {(first, step)}


def test_counts_that_do_not_rise_alike_rise_not_at_all() -> None:
    assert [move["step"] for move in moves("AMRAP 10\n10 burpees then 20 squats then 30")] == [0, 0]


def test_counts_down_by_ones_are_written_out() -> None:
    assert moves("15 down to 5 by 1s: devil press & toes to bar")[0]["reps"] == list(range(15, 4, -1))


@pytest.mark.parametrize(
    ("typed", "place", "facts"),
    [
        ("3 rounds for time\n400m run\n20 swings w/ the 24", 1, {"load": "24", "unit": "kg"}),
        ("AMRAP 9: 10 deadlifts at 80 kg (women 55), 10 push-ups", 0, {"load": ["80", "55"]}),
        ("AMRAP 9\n10 thrusters 43 kg (women 30)\n10 pull-ups", 0, {"load": ["43", "30"]}),
        ("12-9-6 @ 70/50 kg squat cleans & ring dips", 0, {"reps": [12, 9, 6]}),
        ("100m carry with 2 KBs (16 kg each, ladies 12)\n8 step ups", 0, {"name": "farmers carry", "first": 100}),
    ],
)
def test_loads_are_read_where_they_are_pointed_at(typed: str, place: int, facts: dict[str, Any]) -> None:
    holds(moves(typed)[place], facts)


def test_kettlebells_that_are_carried_are_no_swings() -> None:
    text = "12 min for quality:\n100m carry with 2 KBs (16 kg each, ladies 12)\n8 step ups each leg"
    assert "kettlebell swing" not in names(text)


def test_a_clock_of_stations_with_one_in_per_cent_is_one_piece() -> None:
    (piece,) = pieces("EMOM 16\nm1 3 DL @ 70%\nm2 8 HSPU (or 10 db press)\nm3 40 DU (or 60 singles)\nm4 rest")
    assert (piece["intervals"], piece["in_turn"]) == (16, True)
    assert [move["name"] for move in piece["movement"]] == ["deadlift", "handstand push-up", "double under", "rest"]


def test_two_lifts_in_turn_on_a_clock_stay_lifts() -> None:
    text = "Every 75 sec, 12 sets, alternate:\nodd  strict press 4 @ 75%\neven weighted pull-up 3, +10/+5 kg"
    assert pieces(text) == []


# what is done instead, and what is put right


@pytest.mark.parametrize(
    ("typed", "options"),
    [
        ("home: row = 12 burpees / WB = 15 goblet squats 16/12kg", [["burpee"], ["goblet squat"], []]),
        ("beg: 8 wall balls / 20 double unders", [[], ["wall ball"], ["double under"]]),
        (
            "Newer folks: single unders instead of double unders and 6/4 kg on the wall balls",
            [[], ["wall ball"], ["single under"]],
        ),
        ("No rope? Scale double unders to 80 singles", [[], [], ["single under"]]),
        ("home: 12 cal row = 200 m run", [["run"], [], []]),
        ("home: row >> 200 m run, double unders >> 80 singles", [["run"], [], ["single under"]]),
        ("and if you are home do 15 burpees instead of the row", [["burpee"], [], []]),
        ("Casa: mancuernas 15/10 kg para las wall balls", [[], ["dumbbell wall ball"], []]),
    ],
)
def test_what_is_done_instead_finds_its_movement_in_any_order(typed: str, options: list[list[str]]) -> None:
    found = moves(f"AMRAP 10\n12 cal row\n12 wall balls 9/6kg\n40 double unders\n{typed}")
    assert [[each["name"] for each in move.get("options", [])] for move in found] == options


@pytest.mark.parametrize(
    "typed",
    ["home: one dumbbell does all of it", "At home with one heavy dumbbell.", "home: use a dumbbell for everything"],
)
def test_one_bell_for_all_takes_the_place_of_what_is_held(typed: str) -> None:
    found = moves(f"AMRAP 12\n12 KB swings 20/16 kg\n8 push-ups\n{typed}")
    assert [[each["name"] for each in move.get("options", [])] for move in found] == [["dumbbell swing"], []]


def test_a_level_in_brackets_behind_all_is_of_each() -> None:
    found = moves("AMRAP 9: 9 burpees, 9 KBS 24/16kg, 9 TTB (home: DB swing, v-up)")
    assert [[each["name"] for each in move.get("options", [])] for move in found] == [[], ["dumbbell swing"], ["v-up"]]


def test_fewer_calories_and_fewer_thrusters_are_two() -> None:
    text = "EMOM 14\nodd: 10 cal bike\neven: 8 thrusters 40/30 kg\nScale to 8 cal / 6 thrusters if you can't finish"
    found = moves(text)
    assert [[(each["name"], each["first"]) for each in move.get("options", [])] for move in found] == [
        [("bike", 8)],
        [("thruster", 6)],
    ]


@pytest.mark.parametrize(
    ("typed", "place", "facts"),
    [
        ("EDIT its 12 snatches not 15 sorry", 0, {"first": 12}),
        ("sorry, power snatches are 35/25 not 40/30", 0, {"load": ["35", "25"]}),
        ("typo: row 15 not 12", 1, {"sides": None, "first": 15}),
        ("Correction: not 12 cal row but 20", 1, {"first": 20}),
    ],
)
def test_a_number_that_is_put_right_later_is_followed(typed: str, place: int, facts: dict[str, Any]) -> None:
    holds(moves(f"3 rounds for time\n15 pwr snatch 40/30kg\n12 cal row\n{typed}")[place], facts)


@pytest.mark.parametrize("typed", ["EDIT its 12 snatches not 14", "sorry, no coffee today, 12 of you were late"])
def test_a_number_that_was_not_there_is_not_put_right(typed: str) -> None:
    found = moves(f"3 rounds for time\n15 pwr snatch 40/30kg\n12 cal row\n{typed}")
    assert [move["first"] for move in found[:2]] == [15, 12]


def test_a_word_that_a_star_puts_right_is_the_right_one() -> None:
    assert names("AMRAP 10\n10 ring toes\n*rows\n10 burpees") == ["ring row", "burpee"]


def test_stars_of_a_list_put_nothing_right() -> None:
    assert names("AMRAP 10, 10 each:\n*rows\n*runs") != ["run", "run"]
