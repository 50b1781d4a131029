"""Lines of lifts that were once misread, most of them without an ask: a load or a number of sets that nobody meant.

How coaches type them is common practice of the trade; the texts are invented.
"""

from __future__ import annotations

import json
from typing import Any

import pytest

from tracker.prescription.sheet import as_json, read


def lifts(text: str) -> list[dict[str, Any]]:
    reading = read(text)
    document = json.loads(json.dumps(as_json(reading.sheet, reading.asks)))
    return [item for session in document["sessions"] for item in session["items"] if item["kind"] == "lift"]


def sets_of(item: dict[str, Any]) -> list[tuple[Any, ...]]:
    """Each group as sets, repetitions and what it is done with."""
    return [
        (each["sets"] if "find" not in each else each["find"], each.get("reps") if "find" not in each else None,
         each.get("percent") or each.get("load") or each.get("rpe") or each.get("in_reserve") or ("more" if each.get("or_more") else None),
        )
        for each in item["sets"]
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "right"),
    [
        ("Back squat 70% x 5, 75% (3), 2 @ 80%", [(1, 5, 70), (1, 3, 75), (1, 2, 80)]),
        ("Back squat: 61 % - 8, 66 % - 5, 71 % - 2", [(1, 8, 61), (1, 5, 66), (1, 2, 71)]),  # once 8 % for two
        ("Back squat 5-3-2 @ 40kg, 50kg, 60kg", [(1, 5, "40"), (1, 3, "50"), (1, 2, "60")]),  # once all with 40 kg
        ("Deadlift 5-5-3 @ 40/52.5/60kg", [(1, 5, "40"), (1, 5, "52.5"), (1, 3, "60")]),
        ("Front squat 3x6 75,79,83%", [(1, 6, 75), (1, 6, 79), (1, 6, 83)]),  # once 75.79 %
        ("Incline DB press — 4 x 8-10 — 2 RIR", [(4, 8, 2)]),  # once three sets of 8, 10 and 2
        ("Bench press 4 x 8 — 2 reps in reserve", [(4, 8, 2)]),  # once eight to two
        ("Snatch: 6x1, sets 1-3 @ 60%, 4-5 @ 65%, 6 @ 70%", [(3, 1, 60), (2, 1, 65), (1, 1, 70)]),
        ("Snatch: 6x1, 60% (1-3), 65% (4-5), 70% (6)", [(3, 1, 60), (2, 1, 65), (1, 1, 70)]),
        ("Bench press\n1) 5 @ 60%\n2-3) 3 @ 70%", [(1, 5, 60), (2, 3, 70)]),
        ("Front squat heavy triple, then 4×2 -20%", [("heavy 3", None, None), (4, 2, 80)]),  # once at 20 %
        ("Press: build to 5RM for the day", [("heavy 5", None, None)]),  # once a test
        ("Deadlift: 225x5, 275x5, 315x3x3", [(1, 5, "225"), (1, 5, "275"), (3, 3, "315")]),
        ("5 x 3 front squat, last one @ RPE 9", [(4, 3, None), (1, 3, 9)]),  # once all of them
        ("DB bench press 4x10 @ RIR 1 - 3 min break", [(4, 10, 1)]),  # once 1 to 3 in reserve
        ("3 sets of 3 - 70/50 kg barbell row", [(3, 3, ["70", "50"])]),  # once 3 to 70 repetitions of 50 kg
        ("Deadlift 5x140 3x160 1x180", [(1, 5, "140"), (1, 3, "160"), (1, 1, "180")]),  # once 140 repetitions
        ("Hang snatch 2-2-2-2-2\nStart light, finish around 80%", [(4, 2, None), (1, 2, 80)]),  # once all at 80 %
        ("Front squat 6 x 2, start at 70% and go up 3% each set", [(1, 2, n) for n in (70, 73, 76, 79, 82, 85)]),
        ("Front squat\n4 sets:\n5 reps @ 75%", [(4, 5, 75)]),
        ("Back squat 3-3-2-2-1-1 top single near 90%", [(2, 3, None), (2, 2, None), (1, 1, None), (1, 1, 90)]),
        ("Dips 3x8\nlast set: as many as you can", [(2, 8, None), (1, 8, "more")]),
        ("deadlift tonight five by five at 75 percent no wait four by five at 75 percent", [(4, 5, 75)]),
        ("Bench\nWarm-up: 10 @ bar, 5 @ 50%\nWork sets: 4 x 5 @ 75%", [(4, 5, 75)]),
        ("Kniebeuge 4 Sätze zu 3 mit 70% vom 1RM", [(4, 3, 70)]),  # once a set of four as well
        ("Lift\tSets\tReps\t%\tRest\nFront squat\t4\t3\t77.5\t3 min", [(4, 3, 77.5)]),
    ],
)
def test_the_sets_are_those_that_were_meant(text, right):
    found = lifts(text)
    assert len(found) == 1
    merged: list[tuple[Any, ...]] = []
    for each in sets_of(found[0]):
        if merged and merged[-1][1:] == each[1:] and isinstance(each[0], int):
            merged[-1] = (merged[-1][0] + each[0], *each[1:])
        else:
            merged.append(each)
    assert merged == right


@pytest.mark.parametrize(
    ("text", "of"),
    [
        ("sq day\n%s off TM (90% of 1RM)\n65x5 75x5 85x5+", {"reps": 1, "percent": 90}),  # once of the 1RM: too heavy
        ("Sentadilla trasera: 4x5 al 85% de tu 5RM", {"reps": 5}),
        ("Squat cycle, one heavy night a week. % off your 5RM from last week\nWeek 1: 5x5 @ 80", {"reps": 5}),
        ("Snatch pulls 3x3 @ 110% of your snatch, clean 3x1 @ 80%", {"reps": 1, "lift": "snatch"}),
    ],
)
def test_what_percentages_are_of(text, of):
    assert lifts(text)[0]["of"] == of


def test_percentages_of_a_training_max_below_several_lifts_are_those_of_all():
    text = "Squat 3x5 @ 50%\nBench 3x5 @ 50%\n% of TM not max"
    assert [item["of"]["percent"] for item in lifts(text)] == [90, 90]


def test_a_ramp_to_a_test_comes_before_it():
    found = sets_of(lifts("1RM front squat, 20' to build. 50% x 5, 65% x 3, 75% x 2, 85% x 1")[0])
    assert [each[0] for each in found] == [1, 1, 1, 1, "1RM"]


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("Front squat 4x6 @ 70%\nafter each set 8 strict chin-ups", ["Front squat", "Strict chin-up"]),
        ("Bench 10-10-8-8, superset w/ DB row 10/side", ["Bench press", "Dumbbell row"]),
        ("Superset x4:\n6 bench press @ 75%\n8 bent over rows", ["Bench press", "Bent over row"]),
    ],
)
def test_a_lift_in_turn_with_another_has_as_many_sets(text, names):
    first, second = lifts(text)
    assert [first["lift"], second["lift"]] == names
    assert second["superset"] is True
    assert sum(each["sets"] for each in second["sets"]) == sum(each["sets"] for each in first["sets"]) == 4


def test_each_week_of_a_table_has_its_own_sets():
    text = "\tW1\tW2\tW3\nBench\t4x6 70%\t4x5 75%\t-\nBarbell row\t4x10\t4x8\t2x10\n"
    reading = read(text)
    document = json.loads(json.dumps(as_json(reading.sheet, reading.asks)))
    assert [[(item["lift"], item["sets"][0]["sets"], item["sets"][0]["reps"]) for item in session["items"]] for session in document["sessions"]] == [
        [("Bench press", 4, 6), ("Bent over row", 4, 10)], [("Bench press", 4, 5), ("Bent over row", 4, 8)], [("Bent over row", 2, 10)],
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("Morning team, Monday is snatch day.\nSnatch 5x2 @ 70%", "Monday"),
        ("[Wednesday]\nSnatch 5x2 @ 70%", "Wednesday"),
        ("L: Sentadilla 4x5 75%\nX: Press banca 5x5 72,5%\nV: Peso muerto 3x3 80%", "Monday"),
        ("Snatch 5x2 @ 70%\nthe gym is closed on Friday", ""),
        ("Gym is shut until Friday, so here at home\nSquat 5x10", ""),
    ],
)
def test_the_day_is_the_one_that_is_trained_on(text, day):
    reading = read(text)
    assert json.loads(json.dumps(as_json(reading.sheet, reading.asks)))["sessions"][0]["day"] == day


def test_loads_that_plates_in_pounds_make_are_no_kilograms_without_a_question():
    several = lifts("Deadlift: 225x5, 275x5, 315x3")
    assert {each["unit"] for each in several[0]["sets"]} == {"lb"}
    assert [ask.key for ask in read("Deadlift: 225x5").asks] == ["unit of loads"]
    assert [ask.key for ask in read("Deadlift: 220x5").asks] == []


def test_days_on_one_line_are_days_of_their_own_in_small_letters_too():
    reading = read("mon squat 5x5 @ 75%, wed bench 5x5 @ 75%, fri deads 3x3 @ 80%")
    assert [session.weekday for session in reading.sheet.sessions] == [0, 2, 4]
