"""Sessions as coaches type them: what is read of them, what is asked, and what must be left alone."""

from __future__ import annotations

import json
import re
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.prescription.sheet.golden import reading_of
from tests.prescription.sheet.score import figures, scores
from tracker.prescription.sheet import SheetErrors, as_json, read
from tracker.prescription.sheet.words.names import full_name, known

HERE = Path(__file__).parent
TEXTS = sorted(HERE.joinpath("texts").glob("*.txt"))
GOLDEN = sorted([*HERE.joinpath("ambiguous").glob("*.txt"), *HERE.joinpath("prose").glob("*.txt")])


def facts_of(text: str) -> str:
    """All that was understood, but for lines, typed texts, notes and what is said."""
    document = as_json(read(text).sheet)
    items = [item for session in document["sessions"] for item in session["items"] if item["kind"] in ("lift", "piece")]
    for item in items:
        for key in ("line", "text", "notes"):
            item.pop(key, None)
        for group in item.get("sets", ()):
            group.pop("note", None)
        if "piece" in item:
            item["piece"].pop("note", None)
    return json.dumps([[session["day"] for session in document["sessions"]], items]).lower()


@pytest.fixture(scope="module")
def found() -> dict[str, float]:
    return figures(scores(HERE / "texts"))


def test_texts_of_many_hands_are_read_as_a_person_reads_them(found: dict[str, float]) -> None:
    """The facts were written from the texts by somebody who knew nothing of the reader: see `score.py`."""
    assert found["facts"] > 2000
    assert found["facts right"] >= 0.97
    assert found["sessions wholly right"] >= 0.88
    assert found["silent misreadings"] <= 1
    assert found["asks a session, median"] <= 2
    assert found["numbers in notes"] < 0.16


@pytest.mark.parametrize("path", GOLDEN, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_a_golden_text_is_read_as_before(path: Path) -> None:
    """Written by `python -m tests.prescription.sheet.golden`, and looked at as a change of these files."""
    assert reading_of(path) == json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("path", sorted(HERE.joinpath("prose").glob("*.txt")), ids=lambda path: path.stem)
def test_words_of_no_session_stay_words(path: Path) -> None:
    document = as_json(read(path.read_text(encoding="utf-8")).sheet)
    assert [item["kind"] for session in document["sessions"] for item in session["items"]] in ([], ["note"])
    assert not [item for session in document["sessions"] for item in session["items"] if item["kind"] != "note"]


CHANGES = {
    "capitals": lambda text: text.upper(),
    "bullets": lambda text: re.sub(r"(?m)^(?=\d+ [a-z])", "- ", text),
    "spaces behind": lambda text: re.sub(r"(?m)$", "  ", text),
    "crosses": lambda text: re.sub(r"(?<=\d)x(?=\d)", "×", text),
    "quotes": lambda text: text.replace("'", "’").replace('"', "”"),
    "emoji": lambda text: re.sub(r"(?m)(?<=\w)$", " 🔥", text),
    "commas": lambda text: re.sub(r"(\d)\.(\d) ?(kg|%)", r"\1,\2 \3", text),
    "crlf": lambda text: text.replace("\n", "\r\n"),
    "spaces that do not break": lambda text: re.sub(r"(?<=\d) (?=kg|%|m\b)", "\u00a0", text),
}
PLAIN = """Monday
Back squat 5x5 @ 72.5 %
rest 3 min

AMRAP 12
10 thrusters 42.5/30 kg
12 pull-ups
400 m run

Bench press
3x8 @ 60 kg
3x5 @ 70 kg

EMOM 10
odd: 12 cal row
even: 10 burpees
"""


@pytest.mark.parametrize("change", sorted(CHANGES))
def test_what_a_keyboard_changes_changes_no_fact(change: str) -> None:
    assert facts_of(CHANGES[change](PLAIN)) == facts_of(PLAIN)


def test_a_line_of_prose_between_blocks_adds_a_note_and_nothing_else() -> None:
    more = PLAIN.replace("\n\nBench", "\n\nSee you all on the 12th, and bring a friend if you like.\n\nBench")
    assert facts_of(more) == facts_of(PLAIN)


@settings(max_examples=150, deadline=None)
@given(
    st.text(max_size=200)
    | st.lists(
        st.sampled_from(
            [*"0123456789x@%+-/:()., \n", "kg ", "squat ", "row ", "AMRAP ", "rest ", "or ", "min ", "burpees "]
        ),
        max_size=60,
    ).map("".join)
)
def test_any_text_is_read_the_same_way_twice_and_its_lines_give_the_text_back(text: str) -> None:
    try:
        one = read(text)
    except SheetErrors:
        assert not any(sign.isalnum() for sign in text)
        return
    assert read(text) == one
    typed = re.split(r"\r\n|\r|\n", text.removeprefix("\ufeff"))
    assert len(one.lines) == len(typed)
    assert all(line.typed == row or not row.isprintable() for line, row in zip(one.lines, typed, strict=True))


@pytest.mark.parametrize(
    ("typed", "changed"),
    [
        ("75 %", "85 %"),
        ("5x5", "4x5"),
        ("AMRAP 12", "AMRAP 15"),
        ("43/30", "50/35"),
        ("10 thr", "15 thr"),
        ("400 m", "200 m"),
    ],
)
def test_another_number_is_another_fact(typed: str, changed: str) -> None:
    text = "Back squat 5x5 @ 75 %\n\nAMRAP 12\n10 thrusters 43/30 kg\n400 m run\n"
    assert facts_of(text.replace(typed, changed)) != facts_of(text)


@pytest.mark.parametrize("sign", ["%", " kg"])
def test_a_sign_that_is_left_out_is_asked_for(sign: str) -> None:
    text = f"Back squat 5x5 @ 75{sign}\n"
    bare = read(text.replace(sign, ""))
    assert "loads without a sign" in {ask.key for ask in bare.asks} - {ask.key for ask in read(text).asks}


# asks and their answers


@pytest.mark.parametrize(
    ("text", "key", "answer", "before", "after"),
    [
        ("Back squat\n3x5 @ 75\n", "loads without a sign", "mass", '"percent": 75.0', '"load": "75", "unit": "kg"'),
        ("Back squat 5x5 @ 75%\n", "per cent of what", "5RM", '"of": {"reps": 1}', '"of": {"reps": 5}'),
        ("Press 3x5 @ 70% of training max\n", "share of a training max", "85", '"percent": 90.0', '"percent": 85.0'),
        ("03/04/2026\nBack squat 5x5\n", "order of a date", "month first", '["2026-04-03"]', '["2026-03-04"]'),
        ("Deadlift 12x3 @ 60 kg\n", "order of sets and repetitions", "reps first", '"sets": 12, "reps": 3', '"sets": 3, "reps": 12'),
        ("Every 2:00 x 5: 3 power cleans @ 70 kg\n", "loads on a clock", "lift", '"kind": "every minute"', '"sets": 5, "reps": 3, "load": "70"'),
        ("Every 2:00 x 5: 3 back squats @ 78%\n", "strength on a clock", "piece", '"sets": 5, "reps": 3', '"kind": "every minute"'),
        ("E2MOM 10\n5 pull-ups\n", "number behind every few minutes", "times", '"intervals": 5', '"intervals": 10'),
        ("Calf raise 3x15\n", "implement of calf raise", "machine", '"implement": "unasked"', '"implement": "machine"'),
        ("AMRAP 12\n10 DB snatches 50/35\n", "unit of loads", "kg", '"unit": "lb"', '"unit": "kg"'),
    ],
)  # fmt: skip
def test_an_answer_gives_the_other_reading_and_is_not_asked_again(
    text: str, key: str, answer: str, before: str, after: str
) -> None:
    asked = read(text)
    (ask,) = [each for each in asked.asks if each.key == key]
    assert answer in [choice.code for choice in ask.others]
    answered = read(text, answers={key: answer})
    assert key not in {each.key for each in answered.asks}
    assert answered.answered[key] == answer
    flat = (
        facts_of(text),
        json.dumps(
            [
                [s["day"] for s in as_json(answered.sheet)["sessions"]],
                [i for s in as_json(answered.sheet)["sessions"] for i in s["items"]],
            ]
        ).lower(),
    )
    assert before.lower() in flat[0]
    assert after.lower() in flat[1]
    assert after.lower() not in flat[0]


def test_one_cause_is_asked_once_with_all_its_lines() -> None:
    asks = read("Monday\nSnatch 5x2 @ 75%\nBack squat 5x5 @ 80%\nTuesday\nDeadlift 3x3 @ 85%\n").asks
    assert [(ask.key, ask.line, ask.lines) for ask in asks] == [("per cent of what", 2, (2, 3, 5))]


def test_a_date_without_a_year_is_the_next_such_day() -> None:
    assert read("12 March\nDeadlift 3x3", today=date(2026, 11, 27)).sheet.sessions[0].on == date(2027, 3, 12)
    assert read("20/11\nDeadlift 3x3", today=date(2026, 11, 27)).sheet.sessions[0].on == date(2026, 11, 20)
    assert read("12 March\nDeadlift 3x3").sheet.sessions[0].title == "12 March"


# what must not be read wrongly


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("1k row for time", '{"name": "row", "first": 1000, "step": 0, "measure": "m"}'),
        ("1 mile run for time", '{"name": "run", "first": 1609, "step": 0, "measure": "m"}'),
        ("For time\n500 m row or run\n20 burpees", '{"name": "row", "first": 500, "step": 0, "measure": "m", "options": [{"name": "run"'),
        ("Back squat 5x5 @ 75 %\n3 min rest", '"rest_s": 180'),
        ("Deadlift 5x5 100 kg for men or 70 kg for women", '"load": ["100", "70"], "unit": "kg"'),
        ("15.12.2026\nDeadlift 5x5", '["2026-12-15"]'),
        ("30/11/2026\nDeadlift 5x5", '["2026-11-30"]'),
        ("Press 3x5 @ 70 % of training max", '"of": {"reps": 1, "percent": 90.0}'),
        ("Front squat, build to a heavy 3", '{"find": "heavy 3", "reps": 3}'),
        ("Pallof press 3x10", '"lift": "pallof press"'),
        ("AMRAP 10\n10 hr push-ups", '{"name": "hand-release push-up", "first": 10, "step": 0}'),
        ("Bench press\n80x5", '{"sets": 1, "reps": 5, "load": "80", "unit": "kg"}'),
        ("Back squat 3x5 @ 31X1", '"tempo": "3-1-x-1"'),
        ("Every 2:00 x 5: 3 power cleans @ 70 kg", '"kind": "every minute"'),
        ("5 rounds for time, cap 15\n12/9 cal bike\n10 box jumps 24/20\"", '"cap": "15:00", "rounds": 5'),
        ("five sets of three back squats at 80 %", '"sets": 5, "reps": 3, "percent": 80.0'),
        ("Bench 4 sätze à 8 wdh, rpe 7-8", '"sets": 4, "reps": 8, "rpe": [7.0, 8.0]'),
    ],
)  # fmt: skip
def test_what_was_read_wrongly_once_is_read_rightly(text: str, wanted: str) -> None:
    assert wanted.lower() in facts_of(text)


# names


def test_the_table_has_the_names_of_the_trade() -> None:
    rows = [
        line
        for line in HERE.parents[2]
        .joinpath("tracker/prescription/sheet/words/names.txt")
        .read_text(encoding="utf-8")
        .splitlines()
        if line and not line.startswith("#")
    ]
    assert len(rows) >= 150
    assert all(line.count("|") == 3 for line in rows)


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("T2B", "toes to bar"), ("C2B", "chest to bar pull-up"), ("DU", "double under"), ("HSPU", "handstand push-up"), ("HR push-ups", "hand-release push-up"),
        ("RDL", "romanian deadlift"), ("SDHP", "sumo deadlift high pull"), ("OHS", "overhead squat"), ("KBS", "kettlebell swing"), ("DB snatches", "dumbbell snatch"),
        ("strict ring rows", "strict ring row"), ("trusters", "thruster"), ("burpes", "burpee"), ("deadlfits", "deadlift"), ("toes-to-bar", "toes to bar"),
        ("dumbbell swings", "dumbbell swing"), ("Klimmzüge", "pull-up"), ("dominadas", "pull-up"), ("soulevé de terre", "deadlift"),
    ],
)  # fmt: skip
def test_short_forms_and_slips_are_written_out(typed: str, name: str) -> None:
    assert full_name(typed)[0] == name


@pytest.mark.parametrize(
    "typed", ["svend press", "jefferson curl", "beach", "planks of wood", "snitch", "brow", "press conference", "bunch"]
)
def test_a_name_that_the_table_does_not_have_stays_as_typed(typed: str) -> None:
    assert full_name(typed)[0] == typed
    assert known(typed) is None


# every message that a reader can still get


@pytest.mark.parametrize("text", ["", " ", "\n\n", "...", "🔥🔥", "\ufeff", "-- \n", "|---|\n"])
def test_the_one_message_is_that_there_is_nothing_in_it(text: str) -> None:
    with pytest.raises(SheetErrors) as caught:
        read(text, name="week.txt")
    (problem,) = caught.value.problems
    assert (
        str(problem)
        == 'line 1, column 1: There is nothing in it. Expected a session as it is typed in a message. Write such as "Back squat 5x5 @ 75 %".'
    )
    assert "week.txt" in str(caught.value)
