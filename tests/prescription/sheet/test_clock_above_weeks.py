"""A heading that puts a lift on a clock, and its sets week by week or day by day below it: the clock and all words are kept."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.prescription.sheet.test_mutations import kept_words, words_of
from tracker.prescription.sheet import read, said_back
from tracker.prescription.sheet.model import LiftBlock, Percent, SetGroup

WEEKS = ("wk1   5x5   70%\nwk2 5x4 75%", "Week 1: 5x5 @ 70%\nWeek 2: 5x4 @ 75%", "W1\t5x5\t70%\nW2\t5x4\t75%")
FIVES = ((5, (5,), Decimal(70)), (5, (4,), Decimal(75)))


def lifts_of(text: str) -> list[LiftBlock]:
    """All items of a text; each is a lift, and no word of the text is lost."""
    reading = read(text)
    assert words_of(text) <= kept_words(reading)
    items = [item for session in reading.sheet.sessions for item in session.items]
    assert items
    assert all(isinstance(item, LiftBlock) for item in items), items
    assert all(said_back(reading.sheet))
    return [item for item in items if isinstance(item, LiftBlock)]


def sets_of(lift: LiftBlock) -> tuple[int, tuple[int, ...], Decimal]:
    (group,) = lift.sets
    assert isinstance(group, SetGroup)
    assert isinstance(group.load, Percent)
    return group.sets, group.reps.parts, group.load.amount


@pytest.mark.parametrize("weeks", WEEKS)
@pytest.mark.parametrize(
    ("heading", "every", "kept"),
    [
        ("Jerk on the minute, 10 min:", 60, True),
        ("Jerk on the minute, 10 eks, Mondays", 60, True),  # "eks" is no word: the coach's words stay
        ("Jerk E2MOM", 120, False),
        ("E2MOM x 6: jerk", 120, True),
        ("EMOM 10\nJerk", 60, True),
        ("Jerk every 2:00 x 5", 120, True),
        ("Every 2:00 for 10:00\nJerk", 120, True),
        ("Jerk: every 2 min (belt on, no misses)", 120, True),
        ("Block B\nJerk every 2:00 x 5\nfocus: fast feet", 120, True),
        ("EMOM 10, odd: jerk", 120, True),  # every other minute
        ("EMOM 10\neven: jerk", 120, True),
        ("Jerk odd/even, 10 min EMOM", 60, True),
    ],
)
def test_sets_by_week_keep_the_clock_and_the_words_above_them(heading: str, every: int, kept: bool, weeks: str) -> None:
    lifts = lifts_of(f"{heading}\n{weeks}")
    assert [lift.names for lift in lifts] == [("Jerk",)] * 2
    assert tuple(map(sets_of, lifts)) == FIVES
    assert [lift.every_s for lift in lifts] == [every] * 2
    for lift in lifts:
        assert lift.text == (*[each for each in heading.split("\n") if each != "Block B"], *weeks.split("\n"))
        assert bool(lift.notes) is kept  # what the clock does not say stands in the notes
        assert not kept or words_of("\n".join(heading.removeprefix("Block B\n").split("\n"))) <= words_of(
            "\n".join(lift.notes)
        )


def test_one_week_alone_below_a_clock() -> None:
    (lift,) = lifts_of("Jerk on the minute, 10 eks, Mondays\nwk1   5x5   70%")
    assert (lift.every_s, sets_of(lift)) == (60, FIVES[0])
    assert lift.notes == ("Jerk on the minute, 10 eks, Mondays",)


@pytest.mark.parametrize(
    "days",
    [
        "Day 1: 5x5 70%\nDay 2: 5x4 75%",
        "Monday: 5x5 @ 70%\nWednesday: 5x4 @ 75%",
        "Week 1\n5x5 70%\nWeek 2\n5x4 75%",
    ],
)
@pytest.mark.parametrize(
    ("heading", "every"),
    [
        ("Jerk on the minute, 10 min:", 60),
        ("Jerk E2MOM", 120),
        ("Jerk every 2:00 x 5", 120),
        ("EMOM 10, odd: jerk", 120),
        ("Every 2:00 for 10:00\nJerk", 120),
    ],
)
def test_sets_by_day_keep_the_clock_and_the_words_above_them(heading: str, every: int, days: str) -> None:
    lifts = lifts_of(f"{heading}\n{days}")
    assert [lift.names for lift in lifts] == [("Jerk",)] * 2
    assert tuple(map(sets_of, lifts)) == FIVES
    assert [lift.every_s for lift in lifts] == [every] * 2
    assert all(lift.text[: heading.count("\n") + 1] == tuple(heading.split("\n")) for lift in lifts)
    (first, second) = read(f"{heading}\n{days}").sheet.sessions  # the clock is no session of its own
    assert first.place < second.place
    assert first.week in (None, 1)


def test_percentages_alone_by_week_are_of_as_many_sets_as_the_clock_asks() -> None:
    lifts = lifts_of("3 jerks, EMOM 10\nwk1 70%\nwk2 75%")
    assert [sets_of(lift) for lift in lifts] == [(10, (3,), Decimal(70)), (10, (3,), Decimal(75))]
    assert [lift.every_s for lift in lifts] == [60, 60]


def test_a_clock_of_something_else_stays_a_piece() -> None:
    text = "Jerk week by week\nEMOM 10: 8 burpees\nwk1 5x5 70%"
    reading = read(text)
    assert words_of(text) <= kept_words(reading)
    items = [item for session in reading.sheet.sessions for item in session.items]
    assert not any(isinstance(item, LiftBlock) and item.every_s for item in items)
    assert any("8 burpees" in line for item in items for line in getattr(item, "text", ()))


def test_a_clock_above_sets_is_no_piece_beside_them():
    for head in ("Every 2:00 for 5 sets", "Every 2 min x 5", "Every 2:00 for 10:00"):
        (lift,) = read(f"{head}\nPower clean 5x3 60 kg").sheet.sessions[0].items
        assert isinstance(lift, LiftBlock)
        assert (lift.every_s, lift.sets[0].sets, lift.text) == (120, 5, (head, "Power clean 5x3 60 kg"))
