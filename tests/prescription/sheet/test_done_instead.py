"""What others do instead, what stands under a running clock, easy distances, pairs and slips: classes of writing, each with its opposite.

How coaches write these is common practice; the texts are invented.
"""

from __future__ import annotations

from typing import Any

import pytest

from tracker.prescription.sheet import as_json, read
from tracker.prescription.sheet.words.slips import mended
from tracker.prescription.sheet.words.who import who_of

PIECE = "AMRAP 12\n10 pull-ups\n20 double unders\n400 m run\n12 thrusters 43/30 kg"


def items(text: str) -> list[dict[str, Any]]:
    reading = read(text)
    return [item for session in as_json(reading.sheet, reading.asks)["sessions"] for item in session["items"]]


def piece_of(text: str) -> dict[str, Any]:
    (piece,) = [item["piece"] for item in items(text) if item["kind"] == "piece"]
    return piece


def options(text: str) -> list[list[tuple[Any, ...]]]:
    return [
        [(each["name"], each.get("first"), each.get("load")) for each in move.get("options", [])]
        for move in piece_of(text)["movement"]
    ]


@pytest.mark.parametrize(
    ("words", "place", "option"),
    [
        ("people at home do 15 ring rows instead of pull-ups", 0, ("ring row", 15, None)),
        ("If you're at home without a bar: 15 ring rows", 0, ("ring row", 15, None)),
        ("Beginners: ring rows", 0, ("ring row", None, None)),
        ("singles x2", 1, ("single under", 40, None)),
        ("No double unders? Times two singles.", 1, ("single under", 40, None)),
        ("If it rains row 500 m", 2, ("row", 500, None)),
        ("if it rains we swap the run for 15 calories on the bike", 2, ("bike", 15, None)),
        ("Scaled: 30/20 kg", 3, ("thruster", None, ["30", "20"])),
        ("can't run? 500 m row", 2, ("row", 500, None)),
        ("pull-ups too hard? 15 ring rows", 0, ("ring row", 15, None)),
    ],
)
def test_what_others_do_stands_with_the_movement_that_it_is_for(words, place, option):
    text = f"{PIECE}\nHome: {words}" if words == "singles x2" else f"{PIECE}\n{words}"
    found = options(text)
    assert found[place] == [option]
    assert [len(each) for at, each in enumerate(found) if at != place] == [0, 0, 0]


@pytest.mark.parametrize(
    "behind",
    [
        "(sc: ring rows)",
        "(sc ring rows)",
        "(beginners: ring rows)",
        "(home: ring rows)",
        "(or ring rows)",
        "(easier: ring rows)",
    ],
)
def test_another_way_in_brackets_is_the_movement_s_before_it(behind):
    assert options(f"AMRAP 9\n10 pull-ups {behind}\n10 burpees") == [[("ring row", None, None)], []]


@pytest.mark.parametrize("behind", ["(5 each side)", "(2 tries)", "(strict 5)", "(24/20)", "(2 min)"])
def test_numbers_in_brackets_that_name_nothing_else_are_no_other_way(behind):
    assert options(f"AMRAP 9\n10 pull-ups {behind}\n10 burpees") == [[], []]


@pytest.mark.parametrize(
    "words",
    ["If it rains bring a towel", "New here? Come 10 minutes early", "Beginners meet at 18:00", "Easier parking behind the hall 10 m", "Home on Friday, we are closed"],
)  # fmt: skip
def test_words_for_some_people_are_no_movement(words):
    piece = piece_of(f"{PIECE}\n{words}")
    assert len(piece["movement"]) == 4
    assert options(f"{PIECE}\n{words}") == [[], [], [], []]


def test_for_whom_a_sentence_is_and_what_they_lack():
    who = who_of("if you're at home without a kettlebell do jump squats instead")
    assert who is not None
    assert (who.section, who.lacks, who.rest) == ("home", "kettlebell", "jump squats instead")
    assert who_of("homework is due") is None


def test_lines_under_a_running_clock_have_the_time_between_their_marks():
    text = "Teams of 3\n0:00-8:00 AMRAP: 10 burpees, 10 sit-ups\n8:00-10:00 rest\n10:00-20:00 max cal bike"
    found = [item["piece"] for item in items(text) if item["kind"] == "piece"]
    assert [(each["kind"], each["cap"], each["partners"]) for each in found] == [
        ("as many as possible", "8:00", 3),
        ("calories", "10:00", 3),
    ]


def test_opening_hours_are_no_running_clock():
    text = "Open 17:00-18:30\nAMRAP 8\n10 burpees\n18:30-19:00 open gym"
    assert piece_of(text)["cap"] == "8:00"


@pytest.mark.parametrize(
    ("text", "kind", "cap", "asked"),
    [
        ("12 min:\n10 burpees\n10 sit-ups", "as many as possible", "12:00", 1),
        ("12 min: 10 burpees, 10 sit-ups", "as many as possible", "12:00", 1),
        ("Finisher (8 min, no score)\n10 burpees\n10 sit-ups", "unscored", "8:00", 0),
        ("10 minutes at talking pace, go round and round:\n10 burpees\n10 sit-ups\nNo score.", "unscored", "10:00", 0),
    ],
)
def test_a_bare_time_above_movements_is_asked_but_for_easy_ones(text, kind, cap, asked):
    piece = piece_of(text)
    assert (piece["kind"], piece["cap"], len(piece["movement"])) == (kind, cap, 2)
    assert len(read(text).asks) == asked


@pytest.mark.parametrize("text", ["We have 20 minutes for this:\nBack squat 5x3 @ 80 % of 1RM", "Rest 5 min\n10 burpees", "Doors open 15 min before class\n10 burpees"])  # fmt: skip
def test_other_times_are_no_piece_s(text):
    assert not any(item["piece"].get("cap") for item in items(text) if item["kind"] == "piece")


@pytest.mark.parametrize(
    ("text", "facts", "move"),
    [
        ("Long run\n16 km easy", {"kind": "unscored"}, ("run", 16000, "m")),
        ("Track\n8 x 400 m, 90 s rest", {"kind": "work and rest", "intervals": 8, "rest": "1:30"}, ("run", 400, "m")),
        ("Erg\n4 x 1000m, 3' off", {"kind": "work and rest", "intervals": 4, "rest": "3:00"}, ("row", 1000, "m")),
        ("row 3 x 500 @ 2k pace, rest 2 min", {"kind": "work and rest", "intervals": 3, "rest": "2:00"}, ("row", 500, "m")),
        ("3 x 1 min max power cleans 60/40, 1 min rest", {"kind": "work and rest", "interval": "1:00", "intervals": 3}, ("power clean", None, None)),
    ],
)  # fmt: skip
def test_distances_and_times_are_of_what_stands_above(text, facts, move):
    piece = piece_of(text)
    assert {key: piece.get(key) for key in facts} == facts
    (found,) = piece["movement"]
    assert (found["name"], found.get("first"), found.get("measure")) == move


def test_a_distance_of_nothing_is_asked():
    assert [ask.question for ask in read("8 x 400 m\n2 min rest").asks] == ["8 x 400 m of what?"]


def test_watts_are_no_load():
    (move,) = piece_of("60 min bike @ 150 watts")["movement"]
    assert move.get("load") is None


@pytest.mark.parametrize(
    ("typed", "load", "unit"),
    [
        ("10 swings, 24 kilos for the men, 16 for the women", ["24", "16"], "kg"),
        ("10 thrusters at seventy kilos for the guys and fifty for the girls", ["70", "50"], "kg"),
        ("10 thrusters 43/30 (95/65 lb)", ["43", "30"], "kg"),
        ("10 deadlifts 225/155 (100/70 kg)", ["225", "155"], "lb"),
        ("10 devil press with the 20s or the 12.5s", ["20", "12.5"], "kg"),
    ],
)
def test_loads_of_two_groups_are_a_pair(typed, load, unit):
    move = piece_of(f"AMRAP 9\n{typed}\n10 burpees")["movement"][0]
    assert (move["load"], move["unit"]) == (load, unit)


def test_amounts_of_two_groups_are_a_pair_behind_a_comma_too():
    assert piece_of("AMRAP 9\n20 cal row, 15 for the women")["movement"][0]["sides"] == [20, 15]


def test_slips_in_words_of_a_session_are_mended():
    assert mended("3 ronds for tiem, cap 12 mni, tuseday") == "3 rounds for time, cap 12 min, tuesday"


@pytest.mark.parametrize("word", ["times", "test", "second", "runden", "ronda", "ever", "said", "items", "heaven", "resting", "partners'"])  # fmt: skip
def test_words_of_their_own_are_no_slips(word):
    assert mended(word) == word
