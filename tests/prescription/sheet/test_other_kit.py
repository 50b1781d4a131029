"""What is done with other kit: a load alone, one bell instead of a bar, kit at home; beside them what must stay.

How coaches type them is common practice of the trade; the texts are invented.
"""

from __future__ import annotations

from typing import Any

import pytest

from tracker.prescription.sheet import as_json, read


def moves(text: str) -> list[dict[str, Any]]:
    reading = read(text)
    days = as_json(reading.sheet, reading.asks)["sessions"]
    (piece,) = [each["piece"] for day in days for each in day["items"] if each["kind"] == "piece"]
    return piece["movement"]


@pytest.mark.parametrize(
    "line",
    [
        "NO BAR - DB 2X20/2X12.5",
        "no barbell: two dumbbells 20/12.5 kg",  # once two push-ups with dumbbells
        "No bar? 2 DBs 20/12.5kg",
        "Dumbbells instead of the bar: 2x20/2x12.5kg",
        "DBs only: 2x20/2x12.5kg",
        "No barbell at home -> pair of DBs 20/12.5 kg",
        "only dumbbells? 2x20/2x12.5kg for the cleans",
        "Just got dumbbells: 2x20/2x12.5kg",
        "Kit at home? DB power clean 2x20/2x12.5 kg",
        "home people: DB power clean 2x20/2x12.5 kg, knee push-ups",
    ],
)
def test_dumbbells_take_the_place_of_the_bar(line: str) -> None:
    clean, push_up, *_ = moves(f"10 min AMRAP\n5 power cleans 60/40kg\n10 push-ups\n15 double unders\n{line}")
    (option,) = clean["options"]
    assert (option["name"], option["load"], option["unit"]) == ("dumbbell power clean", ["20", "12.5"], "kg")
    assert all(each["name"] != "dumbbell push-up" for each in push_up.get("options", []))


@pytest.mark.parametrize(
    ("main", "line", "name", "load"),
    [
        ("12 KB swings 24/16 kg", "Home: swings with one DB 22.5/15 kg", "dumbbell swing", ["22.5", "15"]),
        ("9 power snatches 35/25 kg", "Remote: snatch with one DB 22.5/15 kg", "dumbbell snatch", ["22.5", "15"]),
        ("10 deadlifts 100/70 kg", "one kettlebell instead of the barbell: 24/16 kg", "kettlebell deadlift", ["24", "16"]),
        ("21 KBS 53/35#", "home kit: sub DB swing 50/35# for KBS", "dumbbell swing", ["50", "35"]),
        ("8 shoulder to overhead 42.5/30 kg", "home people: DB push press 2x15/2x10 kg, 1 min plank instead of the row", "dumbbell push press", ["15", "10"]),
    ],
)  # fmt: skip
def test_another_implement_has_its_name_and_load(main: str, line: str, name: str, load: list[str]) -> None:
    (option,) = moves(f"AMRAP 12\n{main}\n10 burpees\n12 cal row\n{line}")[0]["options"]
    assert (option["name"], option["load"]) == (name, load)


@pytest.mark.parametrize(
    ("main", "line", "name", "count"),
    [
        ("15/12 cal row", "NO ROWER - 60 SU", "single under", 60),
        ("400 m run", "no space to run = 50 high knees per round", "high knees", 50),
        ("8 box jump overs", "Home: box jump over = DB hop over", "dumbbell hop over", None),
        ("8 box jumps", "Home: 8 jump over the DB", "dumbbell hop over", 8),
        ("10 toes to bar", "home: 12 leg raises", "leg raise", 12),
        ("10 sit-ups", "no kit: 12 SU", "sit-up", None),
    ],
)
def test_what_is_done_without_kit(main: str, line: str, name: str, count: int | None) -> None:
    first = moves(f"AMRAP 12\n{main}\n10 burpees\n{line}")[0]
    options = first.get("options", [])
    assert [each["name"] for each in options if each["name"] != first["name"]] == ([name] if name != "sit-up" else [])
    assert count is None or options[0]["first"] == count


@pytest.mark.parametrize(
    "head",
    ["3 rounds 1 min each station, no rest between", "WOD: 3 rounds, 1 min per station", "3 rounds of 1 minute at each station"],
)  # fmt: skip
def test_a_time_at_each_station_is_work(head: str) -> None:
    reading = read(f"{head}\nwall ball 9/6kg\nKB swing 24/16kg\nrow cal")
    (day,) = as_json(reading.sheet, reading.asks)["sessions"]
    piece = day["items"][0]["piece"]
    assert (piece["kind"], piece["interval"], piece["rounds"]) == ("work and rest", "1:00", 3)
    assert [each["name"] for each in piece["movement"]] == ["wall ball", "kettlebell swing", "row"]


def test_metres_in_a_time_are_a_distance() -> None:
    reading = read("4 min max metres row")
    (day,) = as_json(reading.sheet, reading.asks)["sessions"]
    assert (day["items"][0]["piece"]["kind"], day["items"][0]["piece"]["cap"]) == ("distance", "4:00")
