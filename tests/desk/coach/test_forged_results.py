"""Result files that somebody made by hand, with a check that fits: each is told by itself, and those behind it are taken."""

from __future__ import annotations

import copy
import json
from datetime import date
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.stores import address_of
from tracker.conditioning.counts import exactly
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.scores import Score
from tracker.desk.coach.take_results import NEW, take_file, take_files
from tracker.desk.files.check import check_log
from tracker.desk.people import people
from tracker.exchange.result import Result, ResultMax, ResultSet, check_of
from tracker.exchange.result_file import CHECK_DIGITS, write_file
from tracker.log.columns import now
from tracker.units import Mass

SWINGS = Piece(
    "Swings", "as many as possible", (Task("kettlebell swing", Steady(10), load=Mass(Decimal(16), "kg")),), cap_s=600
)
SETS = (ResultSet("front squat", "barbell", Mass(Decimal(60), "kg"), 5, Decimal(2)),)
HUGE = 10**40
NASTY = (
    "x", "", "\ud800", "a\x00b", "a\nb", "x" * 20_000, HUGE, -HUGE, -1, 0, 2**63, 1.5, 1e308, True, False, None, [], {}, [[]],
    {"a": 1}, [HUGE, HUGE], ["x", "y"], [1, 2, 3], {"implement": "barbell"}, "9999-12-31", "1e99999", "NaN", "٣",
)  # fmt: skip


def forged(record) -> str:
    """Write a record as a file whose check fits."""
    record = {key: value for key, value in record.items() if key != "check"}
    text = json.dumps(record, sort_keys=True, ensure_ascii=False)
    return json.dumps(record | {"check": check_of(text, CHECK_DIGITS)})


def places(value, path=()):
    """All places of a record, inner ones too."""
    yield path
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, inner in items:
        yield from places(inner, (*path, key))


def of_day(day: date) -> Result:
    best = ResultMax("front squat", "barbell", 3, Mass(Decimal(80), "kg"), "tested", day)
    return Result("Ana", day, now(), SETS, (Score(SWINGS, day, count=exactly(120)),), 6, 50, (best,))


def whole(day: date | None = None) -> dict:
    record = json.loads(write_file(of_day(day or this_day())))
    record["scores"][0]["score"] |= {"time_s": 600, "splits_s": [30, 60], "kept": 1}
    record["scores"][0]["score"]["swaps"] = [{"index": 0, "task": {"name": "row", "reps": 5, "measure": "cal"}}]
    record["scores"][0]["piece"] |= {"tie_break": "a", "setting": "b", "partners": 1, "rest": "1:00"}
    record["scores"][0]["piece"]["movement"][0] |= {"implement": "kettlebell", "height_cm": "60", "per_side": False}
    record["scores"][0]["piece"] |= {"side": "larger", "yours": "16 kg"}
    record["scores"][0]["score"]["side"] = "larger"
    buy_in = {
        "name": "row",
        "sides": [12, 9],
        "load": ["20", "15"],
        "unit": "kg",
        "height_cm": ["61", "51"],
        "part": "buy-in",
    }
    buy_in |= {
        "options": [
            {"name": "run", "most": True, "no_amount": False, "when": "for the first weeks", "each_side": False}
        ]
    }
    record["scores"][0]["piece"]["movement"].append(buy_in)
    record["sets"][0] |= {"body_mass": "70", "kind": "work", "outcome": "done", "per_side": False}
    return record


@pytest.fixture
def gym(log):
    for name in ("Ana", "Bea"):
        people.add_member(log, name)
    return log


@pytest.mark.parametrize(
    "at", [path for path in places(whole(date(2026, 3, 2))) if path], ids=lambda path: "-".join(map(str, path))
)
def test_any_value_anywhere_is_told_or_taken_and_never_ends_in_a_fault(gym, at):
    files, one = [], whole()
    for nasty in NASTY:
        record = copy.deepcopy(one)
        inner = record
        for key in at[:-1]:
            inner = inner[key]
        inner[at[-1]] = nasty
        files.append((f"{nasty!a:.20}", forged(record)))
    behind = ("whole.json", write_file(Result("Bea", this_day(), now(), SETS)))
    takings = take_files(gym, [*files, behind])
    assert "Bea" in {each.member for each in takings.taken}
    assert all(each.mend for each in takings.broken)
    assert check_log(address_of(gym)).problems == ()


def test_the_record_that_is_forged_is_itself_taken(gym):
    assert take_file(gym, "whole.json", forged(whole())).broken == ()


@pytest.mark.parametrize(
    ("at", "value", "told"),
    [
        (("scores", 0, "score", "ended"), "x", "not known"),
        (("scores", 0, "score", "ended"), HUGE, "not known"),
        (("scores", 0, "score", "count"), [HUGE, HUGE], "far too large"),
        (("scores", 0, "score", "count"), [5_000_000, 5_000_000], "more than anyone"),
        (("scores", 0, "score", "day"), "2020-01-01", "A score is of"),
        (("scores", 0, "piece", "movement", 0, "implement"), {"barbell": 1}, "is no text"),
        (("scores", 0, "piece", "title"), "half \ud800", "half of a sign"),
        (("scores", 0, "piece", "side"), "middle", "not known"),
        (("scores", 0, "piece", "yours"), 16, "is no text"),
        (("scores", 0, "score", "side"), "middle", "not known"),
        (("scores", 0, "score", "side"), ["larger"], "not known"),
        (("scores", 0, "piece", "movement", 1, "sides"), [12, 9, 6], "is no pair"),
        (("scores", 0, "piece", "movement", 1, "sides"), [HUGE, 9], "far too large"),
        (("scores", 0, "piece", "movement", 1, "sides"), ["12", "9"], "not a whole number"),
        (("scores", 0, "piece", "movement", 1, "load"), ["20", {}], "not a number"),
        (("scores", 0, "piece", "movement", 1, "height_cm"), [True, "51"], "not a number"),
        (("scores", 0, "piece", "movement", 1, "part"), "middle", "not known"),
        (("scores", 0, "piece", "movement", 1, "options", 0, "most"), "yes", "neither true nor false"),
        (("scores", 0, "piece", "movement", 1, "options", 0, "no_amount"), 1, "neither true nor false"),
        (("scores", 0, "piece", "movement", 1, "options", 0, "each_side"), [1], "neither true nor false"),
        (("scores", 0, "piece", "movement", 1, "options", 0, "when"), 1, "is no text"),
        (("sets", 0, "lift"), "\ud800", "can't be shown"),
        (("sets", 0, "outcome"), {"done": 1}, "no text"),
        (("sets", 0, "per_side"), "yes", "neither true nor false"),
        (("sets", 0, "reps"), HUGE, "no number that can be"),
        (("sets", 0, "rir"), "1000", "in reserve"),
        (("minutes",), HUGE, "no number that can be"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_said(gym, at, value, told):
    record = whole()
    inner = record
    for key in at[:-1]:
        inner = inner[key]
    inner[at[-1]] = value
    takings = take_file(gym, "forged.json", forged(record))
    assert told in takings.broken[0].what
    assert takings.taken == ()


@pytest.mark.parametrize(
    "text", ['{"tidemark_result": ' + "9" * 5000 + "}", '{"a": ' * 5000, '{"\\ud800": 1}', "{\ud800}", "[" * 100_000]
)
def test_what_is_no_record_is_told(gym, text):
    takings = take_files(
        gym, [("forged.json", text), ("whole.json", write_file(of_day(this_day())))], whom={"Ana": NEW}
    )
    assert len(takings.broken) == 1
    assert len(takings.taken) == 1


def test_alternatives_within_alternatives_end(gym):
    record = whole()
    task = record["scores"][0]["piece"]["movement"][0]
    for _ in range(300):
        task["options"] = [{"name": "row", "reps": 1}]
        task = task["options"][0]
    assert "alternatives of its own" in take_file(gym, "forged.json", forged(record)).broken[0].what


@pytest.mark.parametrize("sign", ["\udfff", "\x00", "\u202e", "\x1b[31m"])
@pytest.mark.parametrize("at", ["title", "name"])
def test_what_can_not_be_shown_stands_in_no_message(gym, sign, at):
    record = whole()
    piece = record["scores"][0]["piece"]
    (piece if at == "title" else piece["movement"][0])[at] = sign
    piece["movement"][0]["measure"] = "x"
    (broken,) = take_file(gym, "forged.json", forged(record)).broken
    assert f"{broken}".isprintable()


def test_a_unit_of_thousands_of_letters_is_told_in_short(gym):
    record = whole()
    record["sets"][0]["unit"] = "x" * 20_000
    (broken,) = take_file(gym, "forged.json", forged(record)).broken
    assert len(f"{broken}") < 300
