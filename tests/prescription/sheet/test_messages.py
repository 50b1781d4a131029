"""Every message that whoever types a sheet can still get, in a table: what is said, and what can be done about it.

A text is refused only where there is nothing in it (see test_typed.py). All else that a reader says is a question: one
reading stands until somebody answers, the others are touches beside it, and every line stays with what was read of it.
"""

from __future__ import annotations

import ast
import json
from pathlib import Path

import pytest

from tracker.prescription.sheet import as_json, read

ROOM = Path(__file__).parents[3] / "tracker" / "prescription" / "sheet"
# What a text is asked about: its key, a text, the question, the reading that stands, and those that a touch would take
TABLE = [
    ("order of a date", "03/04/2026\nBack squat 5x5", "Which day is 03/04/2026?", "day 3, month 4", ["month 3, day 4"]),
    ("per cent of what", "Back squat 5x5 @ 80%", "Per cent of what?", "of the 1RM", ["of a training max of 90 % of the 1RM", "of the 3RM", "of the 5RM"]),
    ("implement of calf raise", "Calf raise 3x15", "Calf raise with what?", "not known yet", ["barbell", "dumbbells", "dumbbell", "kettlebell", "machine", "no load"]),
    ("share of a training max", "Press\n5 @ 65%\n5+ @ 85%\n(% of training max)", "A training max of how much?", "90 % of the 1RM", ["85 % of the 1RM", "95 % of the 1RM", "100 % of the 1RM"]),
    ("number behind every few minutes", "E2MOM 10\n5 pull-ups", "10 minutes or 10 times?", "10 minutes, 5 times", ["10 times"]),
    ("loads on a clock", "Every 2:00 x 5: 3 power cleans @ 70 kg", "Sets of a lift, or a piece?", "a piece on the clock", ["sets of a lift"]),
    ("strength on a clock", "Every 2:00 x 5: 3 back squats @ 78% of 1RM", "Sets of a lift, or a piece?", "sets of a lift", ["a piece on the clock"]),
    ("time above movements", "10 min:\n10 burpees\n15 sit-ups", "10 min: how is it scored?", "as many rounds as possible in it", ["for time, with that cap", "not scored"]),
    ("distance without a name", "5 x 400 m, rest 90 s", "5 x 400 m of what?", "run", ["row", "bike", "ski"]),
    ("unit of loads", "AMRAP 12\n10 DB snatches 50/35", "50/35 of what?", "pounds", ["kilograms"]),
    ("unit of dumbbells", "DB curls 30s 3x12", "30 kg or lb?", "30 kg", ["30 lb"]),
    ("put right in line 2", "Back squat 5x3 @ 80% of 1RM\nsorry 5x3 at 85, no", "Does this change what stands above?", "no, what stands above is meant", ["yes: to be typed in its place"]),
    ("fewer loads than sets", "Back squat 5x5 @ 70/75/80% of 1RM", "3 loads for 5 sets?", "one after the other, the last one for the rest: 70 %, 75 %, 80 %", ["each set anywhere within 70 %, 75 %, 80 %"]),
    ("level of beg, adv", "Back squat\nbeg: 3x8 @ 40 kg | adv: 5x5 @ 80 kg", "Levels stand side by side: which one is read for all?", "beg; the others stay as words", ["adv; the others stay as words"]),
    ("sets of one lift of several: squat, plank, lunge", "today lunges and some plank and the squat 5x5", "Several lifts stand in this line: which one is 5x5 of?", "squat", ["plank", "lunge"]),
    ("metres without a name: pool: 8x100 on 2:00", "Squat 3x5\npool: 8x100 on 2:00", "Is this work to be done?", "no, words of the coach", ["yes: to be typed with what is done"]),
    ("sets among words: Wk1 4x8 @ 62.5", "Wk1 4x8 @ 62.5\nall of one lift, as told", "Is this work to be done?", "no, words of the coach", ["yes: to be typed with its lift"]),
    ("a day of words: Wed: tempo 20 min", "Mon: squat 5x5 @ 80 kg\nWed: tempo 20 min", "Is this work to be done?", "no, words of the coach", ["yes: to be typed with what is done"]),
    ("whose sets: speed thingies", "Squat 3x5 @ 80 kg\nspeed thingies 3x5 @ 60 kg", "Are these sets of the lift above?", "yes: more sets of squat", ["no, of another lift: to be typed with its name"]),
    ("beside jerk: @ 70%", "EMOM 10\nodd - 2 jerks @ 70%\neven - 8 toes to bar", "Is '@ 70%' only said beside it?", "words of the coach, no load", ["a load: to be typed as sets of a lift, or in kg"]),
    ("order of an amrap", "AMRAP 4 x 3\n10 burpees\n8 pull-ups\nrest 1 min between", "4 min or 3 min each?", "3 times 4 min", ["4 times 3 min"]),
    ("one of two: 5x5 @ 70 %, 3x8 @ 70 %", "Press 5x5 or 3x8 @ 70 %", "Which of the two is done?", "5x5 @ 70 %; the other stays as words", ["3x8 @ 70 %; the other stays as words"]),
    ("rise each time", "Squat 3x5 (start 82.5, +2.5 each time)", "When does the load rise?", "from one session to the next", ["from one set to the next"]),
    ("told of what was done: snatch up to 57", "snatch up to 57", "Is this work to be done?", "no, words of the coach", ["yes: to be typed with its sets or its score"]),
]  # fmt: skip
# Asked as well, of which the texts stand in ambiguous/ or in the tests of lifts
ELSEWHERE = {
    "put right in line ",
    "number behind a complex",
    "loads without a sign",
    "left beside sets: ",
    "not read: ",
    "number behind ",
}


@pytest.mark.parametrize(("key", "text", "question", "taken", "others"), TABLE, ids=[row[0] for row in TABLE])
def test_a_question_has_a_reading_that_stands_and_touches_beside_it(
    key: str, text: str, question: str, taken: str, others: list[str]
) -> None:
    reading = read(text)
    (ask,) = [each for each in reading.asks if each.key == key]
    assert (ask.question, ask.taken.words, [each.words for each in ask.others]) == (question, taken, others)
    assert ask.question.endswith("?")


@pytest.mark.parametrize(("key", "text"), [row[:2] for row in TABLE], ids=[row[0] for row in TABLE])
def test_a_question_takes_nothing_away_and_each_answer_ends_it(key: str, text: str) -> None:
    reading = read(text)
    (ask,) = [each for each in reading.asks if each.key == key]
    said = json.dumps(as_json(reading.sheet, reading.asks))
    assert [line.typed for line in reading.lines] == text.splitlines()
    for line in text.splitlines():
        assert json.dumps(line.strip())[1:-1] in said
    for choice in (ask.taken, *ask.others):
        answered = read(text, answers={key: choice.code})
        assert key not in {each.key for each in answered.asks}
        assert [line.typed for line in answered.lines] == [line.typed for line in reading.lines]


def keys_of_source() -> set[str]:
    """The keys of all questions that the reader's modules ask, up to the first part that is made while reading."""
    found: set[str] = set()
    for path in ROOM.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute)):
                continue
            if node.func.attr not in ("choose", "_ask") or not node.args:
                continue
            first = node.args[0]
            if isinstance(first, ast.Constant) and isinstance(first.value, str):
                found.add(first.value)
            elif isinstance(first, ast.JoinedStr) and isinstance(first.values[0], ast.Constant):
                found.add(str(first.values[0].value))
    return found


def test_no_question_is_missing_from_the_table() -> None:
    told = {row[0] for row in TABLE} | ELSEWHERE
    missing = {key for key in keys_of_source() if not any(each.startswith(key) for each in told)}
    assert missing == set()


def test_a_number_beside_a_lift_that_nothing_was_read_of_is_asked_about():
    (ask,) = read("Bench press 5x5, this time we add 2.5 kg to it").asks
    assert (ask.key, ask.question) == ("not read: 2.5 kg", "Is '2.5 kg' only said beside it?")
    assert [each.code for each in (ask.taken, *ask.others)] == ["words", "work"]
