"""How a piece is done, told in everyday words instead of the trade's short forms. All lines are our own."""

from __future__ import annotations

from typing import Any

import pytest

from tracker.prescription.sheet import as_json, read
from tracker.prescription.sheet.written.said_back import said_back


def items_of(text: str) -> list[dict[str, Any]]:
    return [
        item
        for session in as_json(read(text).sheet)["sessions"]
        for item in session["items"]
        if item["kind"] in ("lift", "piece")
    ]


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("9 minutes, count your rounds:\n5 burpees\n10 air squats", {"kind": "as many as possible", "cap": "9:00"}),
        ("18 min: 5 pull-ups, 10 dips, 15 squats, keep going", {"kind": "as many as possible", "cap": "18:00"}),
        ("6 minutes of burpees, score = total", {"kind": "as many as possible", "cap": "6:00"}),
        ("10 min ascending ladder: 3-6-9-12...\nkb swing 24/16\nburpees", {"kind": "as many as possible", "cap": "10:00"}),
        ("3 rounds, clock running:\n12 thrusters 40/30 kg\n9 pull-ups", {"kind": "for time", "rounds": 3}),
        ("Test: 2000 m row", {"kind": "for time"}),
        ("8 min to find a heavy complex: 1 clean + 1 front squat", {"kind": "heaviest", "cap": "8:00"}),
        ("4 stations, 30 seconds work and 15 seconds to change, 3 rounds\nrow (calories)\nstep-ups", {"kind": "work and rest", "interval": "0:30", "rest": "0:15", "intervals": 12}),
        ("Bike erg\n12 x 15/45", {"kind": "work and rest", "interval": "0:15", "rest": "0:45", "intervals": 12}),
        ("Event 2 - 4 rounds for time\n10 thrusters 95/65 lb\n200 m run", {"kind": "for time", "rounds": 4}),
    ],
)  # fmt: skip
def test_how_a_piece_is_done_in_everyday_words(typed: str, expected: dict[str, Any]) -> None:
    piece = items_of(f"Monday\n{typed}")[-1]["piece"]
    assert {key: piece.get(key) for key in expected} == expected


def test_a_share_of_rest_is_no_clock_time() -> None:
    (item,) = items_of("Monday\n3 rounds, each for time, 1:1 rest\n12 thrusters 95/65 lb\n200 m run")
    assert "rest" not in item["piece"]


def test_a_stroke_parts_sets_from_the_clock_behind_them() -> None:
    lift, piece = items_of("Monday\nFront squat 4x5 @ 75% / 4 rounds for time: 15 cal bike, 12 kb swings 24/16 kg")
    assert (lift["lift"], lift["sets"][0]["percent"]) == ("Front squat", 75)
    assert [move["name"] for move in piece["piece"]["movement"]] == ["bike", "kettlebell swing"]


def test_a_pair_of_loads_for_two_implements_stays_in_the_chipper() -> None:
    (item,) = items_of("Monday\nFor time\n60 double unders\n30 db box step-ups 2x50/35lb\n20 front squats 155/105 lb")
    move = item["piece"]["movement"][1]
    assert (move["first"], move["load"], move["unit"]) == (30, ["50", "35"], "lb")


@pytest.mark.parametrize("typed", ["3 x 43/30", "10 x 40/20", "2 x 24/16"])
def test_a_larger_number_first_is_no_work_and_rest(typed: str) -> None:
    assert all(item.get("piece", {}).get("kind") != "work and rest" for item in items_of(f"Kettlebell swing\n{typed}"))


@pytest.mark.parametrize("typed", ["Warm up, 10 min\n2 rounds: 10 air squats, 5 wall walks", "Échauffement 10' : 200 m run, 10 air squats", "First we will warm up together: 10 slow squats"])  # fmt: skip
def test_a_warm_up_is_no_piece(typed: str) -> None:
    assert [item["kind"] for item in items_of(f"Monday\n{typed}\n\nStrength\nBack squat 5x5 @ 70%")] == ["lift"]


@pytest.mark.parametrize(
    ("typed", "day"),
    [("Tue pyramid on the track\nBack squat 5x5 @ 70%", "Tuesday"), ("friday bench 4x8 @ 70%", "Friday"), ("saturday team workout\nFor time\n20 burpees", "Saturday")],
)  # fmt: skip
def test_a_weekday_before_the_work_is_a_heading(typed: str, day: str) -> None:
    (session,) = as_json(read(typed).sheet)["sessions"]
    assert session["day"] == day


@pytest.mark.parametrize("typed", ["Saturday workout starts at nine", "Fri we are closed", "wed is a holiday"])
def test_a_weekday_in_a_sentence_is_no_heading(typed: str) -> None:
    days = [session["day"] for session in as_json(read(f"Back squat 5x5 @ 70%\n{typed}").sheet)["sessions"]]
    assert days == [""]


def test_two_loads_with_or_between_are_both_kept() -> None:
    (item,) = items_of("Monday\nFor time\n12 slam balls 9 or 6 kg\n10 kettlebell deadlifts, 16 kg or 12 kg")
    assert [move["load"] for move in item["piece"]["movement"]] == [["9", "6"], ["16", "12"]]


def test_a_pair_of_loads_on_a_line_of_its_own_can_be_said_back():
    """Its numbers were no decimals, so that the page ended in a fault."""
    reading = read("For time\n21-15-9\nthruster\nburpee\n50/35 bar\n")
    assert "50/35 kg" in " ".join(said_back(reading.sheet))


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("Activation:\nbanded walks", ("Activation", "banded walks")),
        ("Activation: banded walks", ("Activation: banded walks",)),
        ("Retour au calme: marche", ("Retour au calme: marche",)),
        ("Warm up: row", ("row",)),
        ("Wup: row", ("row",)),
    ],
)
def test_a_heading_that_says_more_than_its_kind_keeps_its_words(typed, kept):
    """Its words were nowhere in what was read."""
    first = read(f"{typed}\n\nBack squat 5x5 @ 70%").sheet.sessions[0].items[0]
    assert first.lines == kept


def test_two_notes_of_a_piece_are_said_back_apart() -> None:
    """Together they would read as one sentence that nobody wrote."""
    text = "For time, cap 12 min\n3 rounds:\n12 cal row\n9 thrusters 40 kg\nNote: break the thrusters early\nNote: nose breathing in round one\n"
    said = "\n".join(said_back(read(text).sheet))
    assert "break the thrusters early / nose breathing in round one" in said


def test_a_date_in_a_sentence_says_the_day_and_not_the_weekday_beside_it():
    """It was taken for the next Thursday, a week later, without a word."""
    reading = read("Thursday engine 2026-11-27\nBack squat 5x5 @ 60 kg")
    assert [each["day"] for each in as_json(reading.sheet, reading.asks)["sessions"]] == ["2026-11-27"]
