"""Lifts as coaches jot them down beside much else: warm-ups, levels, rests and maxes in other words; beside them what must stay.

How coaches type them is common practice of the trade; the texts are invented.
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.prescription.sheet.test_sets_told_in_parts import items, sets_of
from tracker.prescription.sheet import as_json, read


def lifts(text: str) -> list[dict[str, Any]]:
    return [each for each in items(text) if each["kind"] == "lift"]


@pytest.mark.parametrize(
    "head",
    [
        "w/u 3rds\n200m jog / 10 air sq / 5 inchworm",
        "w/up: 500 row, 2 x (8 push ups, 5 scap pull ups), empty bar x10",
        "W-up 8 min: alternate 1 min row / 1 min mobility",
        "Warm up\nemom 6 easy: 1 bike, 2 spiderman stretch, 3 empty bar",
        "Warm-up\nEMOM 8\n1. 10 cal row\n2. 10 goblet squats",
        "Warm-up 3 rounds\n10 squats\n10 push-ups",
        "2 rds easy\n200 row\n10 air sq",
        "wake up: 400m jog + wiggle",
        "Loosen up, 2 rounds: 10 squats, 10 push-ups",
    ],
)
def test_a_warm_up_by_another_heading_is_no_piece(head: str) -> None:
    found = items(f"{head}\n\nDeadlift 5x3 @ 80%")
    assert [each["kind"] for each in found] == ["warm-up", "lift"]


@pytest.mark.parametrize(
    "text", ["Prep 5 min: arm bars\nTurkish get-up 3x2 each side, 20 kg", "Warm-up 5 min: jog\nStrict press 3x5 60 kg"]
)
def test_a_warm_up_that_is_told_on_its_line_ends_there(text: str) -> None:
    assert [each["kind"] for each in items(text)] == ["warm-up", "lift"]


def test_a_clock_behind_a_warm_up_that_each_knows_is_work() -> None:
    assert [each["kind"] for each in items("Warm up\nAMRAP 12\n10 burpees\n10 squats")][-1] == "piece"


@pytest.mark.parametrize(
    ("line", "lift", "sets"),
    [
        ("(Beginners: goblet squat 3x10 and talk to me)", "Goblet squat", [(3, 10, None)]),
        ("Level 1: box squat, 4x10", "Box squat", [(4, 10, None)]),
        ("Foundation - goblet squat 4x8", "Goblet squat", [(4, 8, None)]),
        ("New? Goblet squat 3x10.", "Goblet squat", [(3, 10, None)]),
        ("bad knees -> box squat 4x8", "Box squat", [(4, 8, None)]),
        ("Beginners do goblet squats 3x10 instead", "Goblet squat", [(3, 10, None)]),
        ("int: 60-65%", None, [(5, 5, [60, 65])]),
    ],
)
def test_a_level_below_a_lift_is_another_way_of_it(line: str, lift: str | None, sets: list[tuple[Any, ...]]) -> None:
    (found,) = lifts(f"Back squat 5x5 @ 75% 1RM\n{line}")
    assert sets_of(found) == [(5, 5, 75)]
    (way,) = found["alternatives"]
    assert (way.get("lift"), sets_of(way)) == (lift, sets)


@pytest.mark.parametrize("line", ["Blue: as written", "no press out of the feet!!", "Level 2+3: barbell"])
def test_words_of_a_level_or_a_warning_are_words(line: str) -> None:
    (found,) = lifts(f"Power clean 5x2 @ 70% 1RM\n{line}")
    assert line in found["notes"]
    assert sets_of(found) == [(5, 2, 70)]
    assert "alternatives" not in found


@pytest.mark.parametrize(
    ("words", "rest"),
    [
        ("take your time between sets, 3 minutes is fine", 180), ("3 min naps between", 180), ("r. 2'", 120), ("2 min breather", 120),
        ("rest as needed, at least 2 min", 120), ("take a full 3 min", 180), ("catch your breath 2 min", 120), ("long rests (3 min)", 180),
        ("you get 2 minutes between sets", 120), ("2 min to recover", 120),
    ],
)  # fmt: skip
def test_a_rest_by_other_words_is_a_rest(words: str, rest: int) -> None:
    for text in (f"Back squat 5x3 @ 80% 1RM, {words}", f"Back squat 5x3 @ 80% 1RM\n{words}"):
        reading = read(text)
        (found,) = lifts(text)
        assert found.get("rest_s") or found["sets"][0].get("rest_s") == rest
        assert not reading.asks


@pytest.mark.parametrize(
    ("text", "right"),
    [
        ("sn 70/2 75/2 80/1x3", [(1, 2, 70), (1, 2, 75), (3, 1, 80)]),
        ("fs 80/3x3", [(3, 3, 80)]),  # once a pair of loads
        ("cj 70/1+1 80/1+1x2", [(1, [1, 1], 70), (2, [1, 1], 80)]),
        ("Snatch 3 attempts: 90 / 95 / 100 %", [(1, 1, 90), (1, 1, 95), (1, 1, 100)]),
        ("Front squat\nwave one 1x3 @72% / 1x3 @76%\nwave two 1x3 @74% / 1x3+ @78%", [(1, 3, 72), (1, 3, 76), (1, 3, 74), (1, 3, 78)]),
        ("PC E2M x 6\n2 TnG @ 70%", [(6, 2, 70)]),  # once one set
        ("Front squat 5 @ 70 / 5 @ 75 / 5 @ 80 %", [(1, 5, 70), (1, 5, 75), (1, 5, 80)]),  # once the last alone
        ("OHP 5/3/1: 65% x5, 75% x3, 85% x1+", [(1, 5, 65), (1, 3, 75), (1, 1, 85)]),  # once nine sets
        ("Front squat 5x3, last 2 sets @ 85%", [(3, 3, None), (2, 3, 85)]),  # once all five
        ("Bench 5-5-3-3-3, build up, last 3 about @85%", [(2, 5, None), (3, 3, 85)]),  # once six sets
        ("Front squat 5-5-5-5-5, first three at 70%, last two at 80%", [(3, 5, 70), (2, 5, 80)]),
        ("Front squat 5x3 @ 70%, last set at 80%", [(4, 3, 70), (1, 3, 80)]),
        ("Strict press 5,5,5+ at 65,75,85 of TM", [(1, 5, 65), (1, 5, 75), (1, 5, 85)]),  # once 65 % for all
        ("Bench 3x8. Last week 60 kg was good so try 62.5", [(3, 8, "62.5")]),
        ("Tempo squat 4x4, 3 sec down, 1 sec pause, 65%", [(4, 4, 65)]),
        ("Max effort: find a 3RM bench", [(None, 3, None)]),  # once a set of as many as possible before it
        ("Jerk from blocks - work to a heavy single, not a max", [(None, 1, None)]),  # the same
        ("Front squat 4x3 @ 80%\nthen 1x3+ same %", [(4, 3, 80), (1, 3, 80)]),
        ("E2MOM x 6\nBench press 4 reps @ 75%\nsame weight on all six sets", [(6, 4, 75)]),  # once twelve sets
        ("lift 1: push jerk, 75% x3, 80% x2, 90% x1", [(1, 3, 75), (1, 2, 80), (1, 1, 90)]),  # once "1 push jerk"
        ("1) Back squat\na. 5 @ 60%\nb. 5 @ 70%", [(1, 5, 60), (1, 5, 70)]),  # once words
        ("Back squat | 5 | 5 | 75%", [(5, 5, 75)]),
        ("Back squat: sets 5, reps 4, 75%", [(5, 4, 75)]),
        ("Back squat. You do 5 sets. Each set is 4 reps. Load is 75% of your 5RM.", [(5, 4, 75)]),
        ("Power clean + 2 hang power cleans + jerk: 5 sets @ 70%", [(5, [1, 2, 1], 70)]),
        ("Press 5x5 @ 50 kg, add 2.5 kg each week", [(5, 5, "50")]),
        ("Kniebeuge / Back Squat: 3x5 @ 72.5%", [(3, 5, 72.5)]),  # once two lifts
        ("Bench: last week you did seventy for five so this week take 72.5 kg for four sets of five", [(4, 5, "72.5")]),
    ],
)  # fmt: skip
def test_what_lifters_jot_down_is_as_meant(text: str, right: list[tuple[Any, ...]]) -> None:
    assert [sets_of(each) for each in lifts(text)] == [right]


def test_calories_and_balls_for_two_groups_are_no_jotted_sets() -> None:
    (piece,) = items("AMRAP 10\n10 wall balls 9/6\nbike 50/40 cal")
    assert [move.get("load") or move.get("sides") for move in piece["piece"]["movement"]] == [["9", "6"], [50, 40]]


@pytest.mark.parametrize(
    ("text", "reps"),
    [
        ("THURSDAY wk 3 of 5 (percent are of your 3RM tested in week 0, not the one from last year!)\nFront squat 3x3 @ 80%", 3),
        ("Thursday, all percentages from your 5RM\nFront squat 3x3 @ 80%", 5),
        ("We go by your 3-rep max today\nFront squat 3x3 @ 80%", 3),
        ("Monday\nWe use your tested 5RM for all percentages today.\nFront squat 3x3 @ 80%", 5),
        ("Front squat 3x3 @ 80% of last week's 3RM", 3),
        ("Front squat 3x3 @ 80%\n(3RM = the one from September)", 3),  # once a test as well
        ("Front squat 3x3 at 80 percent of your best 3", 3),
    ],
)  # fmt: skip
def test_what_percentages_go_by_is_heard_wherever_it_is_said(text: str, reps: int) -> None:
    (lift,) = lifts(text)
    assert lift["of"] == {"reps": reps}
    assert sets_of(lift) == [(3, 3, 80)]
    assert not read(text).asks


def test_sets_before_several_lifts_are_of_each() -> None:
    found = lifts("3 x 8-12 @ RPE 8: DB bench, DB row, lateral raise")
    assert [each["lift"] for each in found] == ["Dumbbell bench press", "Dumbbell row", "Lateral raise"]
    assert all(sets_of(each) == [(3, 8, None)] for each in found)


def test_percentages_of_your_max_name_no_other_lift() -> None:
    (lift,) = lifts("Back squat 3 x 5 (70/75/80)\n% of your 5RM")
    assert lift["of"] == {"reps": 5}  # once of a lift called "your"


def test_what_a_day_goes_by_is_of_that_day() -> None:
    text = "Thursday (% = 5RM)\nFront squat 3x3 @ 80%\n\nFriday\nBench press 3x3 @ 80%"
    assert [each["of"] for each in lifts(text)] == [{"reps": 5}, {"reps": 1}]
    assert [ask.question for ask in read(text).asks] == ["Per cent of what?"]


def test_a_later_day_told_in_a_sentence_is_a_day() -> None:
    text = "Saturday: power cleans 5x2 at 75%.\n\nSunday is short. Front squats, 4 sets of 4 at 70%."
    reading = read(text)
    assert [session.weekday for session in reading.sheet.sessions] == [5, 6]
    same = read("Saturday: power cleans 5x2 at 75%.\n\nSunday is open gym, see you then.")
    assert [session.weekday for session in same.sheet.sessions] == [5]


def test_a_tempo_that_names_one_of_two_lifts_is_that_lifts() -> None:
    one, two = lifts("A1. DB bench press 3x10, RPE 7\nA2. DB row 3x10, 2 RIR\n60 sec between, tempo on the row 2111")
    assert (one.get("tempo"), two["tempo"]) == (None, "2-1-1-1")
    assert (one["rest_s"], two["rest_s"]) == (60, 60)


def test_the_words_stay_as_they_were_typed() -> None:
    text = "w/up: 500 row\n\nsn 70/2 75/2\nr. 2'\nBlue: as written"
    reading = read(text)
    said = [
        line
        for day in as_json(reading.sheet, reading.asks)["sessions"]
        for item in day["items"]
        for line in item["text"]
    ]
    assert {"sn 70/2 75/2", "r. 2'", "Blue: as written"} <= set(said)
