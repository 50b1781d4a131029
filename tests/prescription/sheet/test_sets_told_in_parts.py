"""Sheets whose sets are told in parts, put right or meant for some, as they were once misread; beside them what must stay.

How coaches type them is common practice of the trade; the texts are invented.
"""

from __future__ import annotations

from typing import Any

import pytest

from tracker.prescription.sheet import as_json, read


def items(text: str) -> list[dict[str, Any]]:
    reading = read(text)
    return [each for day in as_json(reading.sheet, reading.asks)["sessions"] for each in day["items"]]


def sets_of(item: dict[str, Any]) -> list[tuple[Any, ...]]:
    return [(each.get("sets"), each.get("reps"), each.get("percent") or each.get("load")) for each in item["sets"]]


@pytest.mark.parametrize(
    ("text", "right"),
    [
        ("Snatch: EMOM 6\n1-3: 2 reps @ 65%\n4-6: 1 @ 75%, only if the others were clean", [(3, 2, 65), (3, 1, 75)]),
        ("Deadlift, every 2:00 for 2 sets\nSet 1: 5 @ 65%\nSet 2: 3 @ 75%", [(1, 5, 65), (1, 3, 75)]),  # once a piece
        ("Press 6 sets of 2, first two at 70%, next two at 75%, last two at 80%", [(2, 2, 70), (2, 2, 75), (2, 2, 80)]),
        ("Front squat 5x3 @ 80% -> now 4x2 @ 85%", [(4, 2, 85)]),  # once both
        ("Bench 3x8 @ 65% of 1RM, then 2x8 -20%", [(3, 8, 65), (2, 8, 52)]),  # once 80 %
        ("Front squat E2MOM 8 min, 3 reps, start 70 and add 3% each set", [(1, 3, n) for n in (70, 73, 76, 79)]),  # once 3 %
        ("Bench 4x5 @ 4-1-1, 68% of 1RM", [(4, 5, 68)]),  # once one set of one as well
        ("Squat 70%x5 80x3x3", [(1, 5, 70), (3, 3, 80)]),  # once 80 kg
        ("Strict press\n5-3-1\n70/80/90\n% of 1RM", [(1, 5, 70), (1, 3, 80), (1, 1, 90)]),
        ("DB row 3 x 10/10", [(3, 10, None)]),  # a pair a side is no work and rest
        ("Deadlift 3x3 @ 60 -> 70 -> 80%", [(1, 3, 60), (1, 3, 70), (1, 3, 80)]),  # nothing was put right here
    ],
)  # fmt: skip
def test_sets_are_those_that_were_meant(text: str, right: list[tuple[Any, ...]]) -> None:
    assert [sets_of(each) for each in items(text) if each["kind"] == "lift"] == [right]


@pytest.mark.parametrize("line", ["10 burpees for each min late", "dont have a 1RM? strict 1RM + 20% is near enough", "Last week we did 5x5 at 75%"])  # fmt: skip
def test_what_is_owed_or_was_done_is_no_work_of_today(line: str) -> None:
    found = [each for each in items(f"Push press 5x3 @ 80%\n{line}") if each["kind"] in ("lift", "piece")]
    assert [sets_of(each) for each in found] == [[(5, 3, 80)]]


def test_what_percentages_are_not_of_is_not_taken() -> None:
    (lift,) = items("Back squat 3x5 @ 80%\n% of your tested 3RM, not of your one-rep max")
    assert lift["of"] == {"reps": 3}


def test_the_exception_of_one_lift_leaves_the_others() -> None:
    lifts = items(
        "Kreuzheben 3x3 @ 85%\nKniebeuge 5x5 @ 75%\n\nAlle % vom 1RM. Ausnahme Kreuzheben: da nehmen wir das 2RM."
    )
    assert [each["of"] for each in lifts if each["kind"] == "lift"] == [{"reps": 2}, {"reps": 1}]


def test_a_second_group_has_a_lift_of_its_own() -> None:
    one, two = items("Back squat, group A: 4x3 @ 70%\ngroup B: 5x3 @ 80%")
    assert (one["lift"], sets_of(one)) == ("Back squat", [(4, 3, 70)])
    assert (two["lift"], sets_of(two)) == ("Back squat", [(5, 3, 80)])


def test_days_of_two_letters_are_days() -> None:
    reading = read("MO Kniebeuge 5x5 75%\nDI Bankdrücken 4x4 80%\nDO Kreuzheben 3x3 85%")
    assert [session.weekday for session in reading.sheet.sessions] == [0, 1, 3]


def test_intervals_on_a_send_off_are_no_sets_of_a_lift() -> None:
    (piece,) = items("4 x 500 row on 3:00")
    assert piece["piece"]["kind"] == "every minute"
    assert (piece["piece"]["interval"], piece["piece"]["intervals"]) == ("3:00", 4)
    assert piece["piece"]["movement"][0]["first"] == 500
