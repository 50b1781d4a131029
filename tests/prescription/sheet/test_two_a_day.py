"""Two sessions of one day, as coaches write them, are of that day, and are told apart by their titles."""

from __future__ import annotations

import re

import pytest

from tracker.prescription.sheet.days.parts_of_day import rank
from tracker.prescription.sheet.reading import read
from tracker.prescription.sheet.written.printing import print_sheet

SQUAT, BENCH, PULL = "back squat 5x5 @ 75 % of 1RM", "bench press 5x5 @ 70 % of 1RM", "deadlift 3x5 @ 70 % of 1RM"
TWO = {
    "words behind the day": (f"Monday morning\n{SQUAT}\n\nMonday evening\n{BENCH}", ["Morning", "Evening"]),
    "lines of their own": (f"Monday\nAM:\n{SQUAT}\n\nPM:\n{BENCH}", ["AM", "PM"]),
    "before the work": (f"Mon AM: {SQUAT}\nMon PM: {BENCH}", ["AM", "PM"]),
    "in brackets": (f"Mon (am)\n{SQUAT}\n\nMon (pm)\n{BENCH}", ["AM", "PM"]),
    "with points": (f"Monday a.m.\n{SQUAT}\n\nMonday p.m.\n{BENCH}", ["AM", "PM"]),
    "behind a stroke": (f"Monday - AM\n{SQUAT}\n\nMonday - PM\n{BENCH}", ["AM", "PM"]),
    "counted": (f"Monday\nSession 1\n{SQUAT}\n\nSession 2\n{BENCH}", ["Session 1", "Session 2"]),
    "counted behind the day": (f"Mon (1)\n{SQUAT}\n\nMon (2)\n{BENCH}", ["Session 1", "Session 2"]),
    "counted in words": (f"Monday session 1\n{SQUAT}\n\nMonday session 2\n{BENCH}", ["Session 1", "Session 2"]),
    "by the hour": (f"Monday 6:30\n{SQUAT}\n\nMonday 18:00\n{BENCH}", ["6:30", "18:00"]),
    "sessions": (f"Monday\nMorning session\n{SQUAT}\n\nEvening session\n{BENCH}", ["Morning", "Evening"]),
    "in German": (f"Montag früh\n{SQUAT}\n\nMontag Abend\n{BENCH}", ["Früh", "Abend"]),
}


@pytest.mark.parametrize("name", TWO)
def test_both_are_of_the_day_and_what_follows_keeps_its_own(name: str) -> None:
    text, titles = TWO[name]
    sheet = read(f"{text}\n\nWednesday\n{PULL}").sheet
    assert sheet.offsets == (0, 0, 2)
    assert [each.title for each in sheet.sessions] == [*titles, ""]
    assert [each.day_words.rpartition(", ")[2] for each in sheet.sessions] == ["Monday", "Monday", "Wednesday"]


@pytest.mark.parametrize("name", TWO)
def test_what_is_printed_of_it_reads_back_to_the_same(name: str) -> None:
    sheet = read(TWO[name][0]).sheet
    assert read(print_sheet(sheet)).sheet == sheet


@pytest.mark.parametrize("parts", [("AM", "PM"), ("(am)", "(pm)"), ("morning:", "evening:"), ("AM: ", "PM: ")])
def test_a_date_that_is_said_twice_with_parts_of_the_day_is_two_sessions(parts: tuple[str, str]) -> None:
    gap = "" if parts[0].endswith(" ") else "\n"  # the work on the line of the date, or below it
    sheet = read(
        "\n".join(f"2026-11-30 {part}{gap}{work}" for part, work in zip(parts, (SQUAT, BENCH), strict=True))
    ).sheet
    said = [re.sub(r"\W", "", part).lower() for part in parts]
    assert [(each.title.lower(), len(each.items)) for each in sheet.sessions] == [(part, 1) for part in said]
    assert sheet.offsets == (0, 0)
    assert read(print_sheet(sheet)).sheet == sheet


def test_the_weekday_may_stand_before_one_of_the_two_dates_alone() -> None:
    sheet = read(f"Monday 2026-11-30 AM\n{SQUAT}\n2026-11-30 PM\n{BENCH}").sheet
    assert [each.title for each in sheet.sessions] == ["AM", "PM"]


def test_a_date_before_each_row_of_it_is_one_session_still() -> None:
    sheet = read(f"2026-11-30 {SQUAT}\n2026-11-30 {BENCH}").sheet
    assert [len(each.items) for each in sheet.sessions] == [2]


@pytest.mark.parametrize(
    ("days", "offsets"),
    [
        (("2026-11-30", "Wednesday", "Friday"), (0, 2, 4)),
        (("Wednesday", "2026-11-30", "Monday"), (0, 5, 12)),
        (("30.11.2026", "Thursday", "2026-12-05"), (0, 3, 5)),
    ],
)
def test_a_weekday_beside_a_date_is_the_nearest_such_day(days: tuple[str, ...], offsets: tuple[int, ...]) -> None:
    sheet = read("\n\n".join(f"{day}\n{SQUAT}" for day in days)).sheet
    assert sheet.offsets == offsets
    assert read(print_sheet(sheet)).sheet == sheet


def test_a_weekday_that_comes_round_again_is_a_week_later_still() -> None:
    assert read(f"Monday\n{SQUAT}\n\nMonday\n{BENCH}").sheet.offsets == (0, 7)
    assert read(f"Monday evening\n{SQUAT}\n\nMonday evening\n{BENCH}").sheet.offsets == (0, 7)
    assert read(f"Monday evening\n{SQUAT}\n\nMonday morning\n{BENCH}").sheet.offsets == (0, 7)


def test_a_part_of_a_day_alone_is_no_title() -> None:
    assert [each.title for each in read(f"Monday evening\n{SQUAT}\n\nTuesday evening\n{BENCH}").sheet.sessions] == [
        "",
        "",
    ]


def test_parts_are_in_the_order_of_the_day() -> None:
    said = ["Session 1", "Session 2", "6 am", "AM", "8:00", "noon", "afternoon", "18:00", "18:30"]
    assert sorted(said, key=rank) == said
    assert rank("Heavy day") == rank("5 x 5") == rank("Nightmare") == 0
