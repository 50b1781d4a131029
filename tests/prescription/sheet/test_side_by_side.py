"""What stands side by side in one text and is not all to be done: levels, other ways, several names in one breath, a diary.

What is right is what the text says to a careful coach; common practice. Where it can't be told, one reading stands and is
asked about, or the words stay words.
"""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from tracker.prescription.sheet import as_json, read


def _read(text: str, answers: dict[str, str] | None = None) -> dict[str, Any]:
    reading = read(text, today=date(2026, 11, 27), answers=answers)
    return as_json(reading.sheet, reading.asks)


def _items(read_: dict[str, Any], kind: str) -> list[dict[str, Any]]:
    return [item for session in read_["sessions"] for item in session["items"] if item["kind"] == kind]


def _sets(lift: dict[str, Any]) -> list[tuple[Any, ...]]:
    return [(each.get("sets"), each.get("reps"), each.get("percent", each.get("load"))) for each in lift["sets"]]


def _questions(read_: dict[str, Any]) -> list[str]:
    return [each["question"] for each in read_["asks"]]


LEVELS = "Levels stand side by side: which one is read for all?"
COLUMNS = """WED                 L1                  L2
Strength            Goblet 4x10         Back squat 4x6 @ 74%
Metcon AMRAP 12     150 m run           200 m run
                    8 KBS 12/16         12 KBS 16/24
                    6 up-downs          8 burpees"""
COLOURS = """5 rounds for time (22 min limit)

        GREEN          BLUE            BLACK
Row     250 m          350 m           400 m
Squat   12 air         12 goblet 16/12 12 front 60/40
Pull    8 ring rows    8 pull-ups      8 chest to bar"""
ON_A_LINE = "Trap bar DL\n  starter: 4x6 @ 60kg | mid: 4x6 @ 80 | strong: 4x5 @ 110"


@pytest.mark.parametrize(
    ("taken", "lift", "sets", "moves"),
    [
        ("l1", "Goblet squat", [(4, 10, None)], [("run", 150), ("kettlebell swing", 8), ("up-down", 6)]),
        ("l2", "Back squat", [(4, 6, 74.0)], [("run", 200), ("kettlebell swing", 12), ("burpee", 8)]),
    ],
)
def test_of_columns_of_levels_one_is_read_and_asked(
    taken: str, lift: str, sets: list[Any], moves: list[tuple[str, int]]
) -> None:
    found = _read(COLUMNS)
    assert LEVELS in _questions(found)
    found = _read(COLUMNS, {"level of l1, l2": taken})
    assert LEVELS not in _questions(found)
    (first,) = _items(found, "lift")
    assert (first["lift"], _sets(first)) == (lift, sets)
    (piece,) = _items(found, "piece")
    assert [(each["name"], each["first"]) for each in piece["piece"]["movement"]] == moves
    other = "L2: 200 m run" if taken == "l1" else "L1: 150 m run"
    assert other in piece["piece"]["note"]


def test_a_column_of_names_goes_before_the_counts_of_the_level_that_is_read() -> None:
    found = _read(COLOURS)
    assert LEVELS in _questions(found)
    (piece,) = _items(found, "piece")
    moves = piece["piece"]["movement"]
    assert [(each["name"], each.get("first"), each.get("load")) for each in moves] == [
        ("row", 250, None),
        ("air squat", 12, None),
        ("ring row", 8, None),
    ]
    assert "BLACK: 12 front 60/40" in piece["piece"]["note"]


@pytest.mark.parametrize(("taken", "load"), [("starter", "60"), ("mid", "80"), ("strong", "110")])
def test_levels_on_one_line_are_no_lifts_of_their_own(taken: str, load: str) -> None:
    assert LEVELS in _questions(_read(ON_A_LINE))
    (lift,) = _items(_read(ON_A_LINE, {"level of starter, mid, strong": taken}), "lift")
    assert (lift["lift"], [each[2] for each in _sets(lift)]) == ("Trap bar deadlift", [load])


def test_the_level_of_everybody_is_read_unasked() -> None:
    found = _read(
        "RED (comp): C&J e90s x 10, singles 75-88%\nBLUE (everyone): power clean 5x3 @ 70%\nGREEN (new): DB press 5x6"
    )
    assert LEVELS not in _questions(found)
    lines = read("RED (comp): C&J 5x1 @ 80%\nBLUE (everyone): power clean 5x3 @ 70%\nGREEN (new): DB press 5x6").lines
    assert [line.number for line in lines] == [1, 2, 3]
    assert [(each["lift"], _sets(each)) for each in _items(found, "lift")] == [("Power clean", [(5, 3, 70.0)])]


def test_columns_of_easier_and_harder_ways_are_words_beside_the_sets() -> None:
    found = _read(
        "Exercise ; Sets x reps ; Load ; Easier ; Harder\nChair stand ; 3 x 8 ; none ; hands on thighs ; hold 4-8 kg"
    )
    (lift,) = _items(found, "lift")
    assert _sets(lift) == [(3, 8, None)]
    assert lift["notes"] == ["Easier: hands on thighs", "Harder: hold 4-8 kg"]


@pytest.mark.parametrize(
    ("text", "sets"),
    [
        ("Strict Pull-up 5x3 mit Gewicht (sonst Band / negativ 3x4)", [(5, 3, None)]),
        ("Back squat 5x5 @ 80% (otherwise goblet 3x10)", [(5, 5, 80.0)]),
        ("Back squat 5x5 @ 80% (or goblet 3x10)", [(5, 5, 80.0)]),
        ("before that we squat, 5x3, if the 17.30 group runs over then 4x3", [(5, 3, None)]),
        ("squat 65% x2 and eighty for one one one three singles", [(1, 2, 65.0), (3, 1, 80.0)]),
    ],
)
def test_other_sets_in_passing_are_none_of_the_lift(text: str, sets: list[Any]) -> None:
    (lift,) = _items(_read(text), "lift")
    assert _sets(lift) == sets


@pytest.mark.parametrize(("taken", "loads"), [("", ["82.5"]), ("session", ["82.5"]), ("set", ["82.5", "85", "87.5"])])
def test_what_rises_each_time_rises_from_one_session_to_the_next_until_it_is_said(taken: str, loads: list[str]) -> None:
    found = _read("Squat 3x5 (start 82.5, +2.5 each time)", {"rise each time": taken} if taken else None)
    (lift,) = _items(found, "lift")
    assert [each[2] for each in _sets(lift)] == loads
    assert ("When does the load rise?" in _questions(found)) is not bool(taken)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("5 rounds of ring dips kb swings lunges, squat, 5x3 around 80", "squat"),
        ("rowing, then a plank, planned 5x5 squat", "squat"),
    ],
)
def test_of_several_names_in_one_breath_the_nearest_has_the_sets(text: str, name: str) -> None:
    (lift,) = _items(_read(text), "lift")
    assert lift["lift"].lower() == name


def test_it_is_asked_which_lift_the_sets_are_of_where_several_stand_before_them() -> None:
    text = "today lunges and some plank and the squat 5x5"
    found = _read(text)
    (ask,) = [each for each in found["asks"] if each["question"].startswith("Several lifts stand in this line")]
    assert ask["taken"] == "squat"
    assert set(ask["others"]) == {"plank", "lunge"}


@pytest.mark.parametrize(
    "text",
    [
        "snatch up to 57 (!!)",
        "Back squat up to 120 today",
        "planned 5 rds of 15 cal / 10 c2b, did 3 rds (9:40) grip gone",
    ],
)
def test_what_a_diary_tells_is_words_and_asked(text: str) -> None:
    found = _read(text)
    assert not _items(found, "lift")
    assert not _items(found, "piece")
    assert "Is this work to be done?" in _questions(found)


def test_weeks_with_labelled_days_are_days_whose_lift_the_first_row_names() -> None:
    found = _read(
        "5 WEEK BLOCK // 2 RUN + 2 LIFT\n\nW1  R1 6x400 m | L1 BS 4x6@70% | L2 DL 4x5@70%\nW2  R1 5x600 m | L1 4x5@75% | L2 4x4@75%"
    )
    assert [(each["lift"], _sets(each)) for each in _items(found, "lift")] == [
        ("Back squat", [(4, 6, 70.0)]),
        ("Deadlift", [(4, 5, 70.0)]),
        ("Back squat", [(4, 5, 75.0)]),
        ("Deadlift", [(4, 4, 75.0)]),
    ]
    assert len(found["sessions"]) == 6


def test_what_one_of_a_team_holds_is_no_swing_and_no_load_of_the_row() -> None:
    found = _read(
        "teams of three\n25 min:\nA rows 250m, B holds 2 kbs in rack (20/14), C does as many burpees as possible"
    )
    (piece,) = _items(found, "piece")
    moves = piece["piece"]["movement"]
    assert [(each["name"], each.get("load")) for each in moves] == [("row", None), ("burpee", None)]
    assert moves[1]["most"] is True


def test_sets_behind_an_unknown_name_are_not_those_of_the_next_lift() -> None:
    found = _read("pogo hops 3x20, DL")
    assert [each["lift"] for each in _items(found, "lift")] == ["Pogo hops"]
    assert any(each.startswith("Several lifts stand in this line") for each in _questions(found))


@pytest.mark.parametrize(
    ("text", "sets"),
    [
        ("Clean + 2 jerks 5 sets @ 60-65%", [(5, [1, 2], [60.0, 65.0])]),
        ("Snatch - work to 90% in your comp jumps. 3 attempts max above 85.", [(1, 1, 90.0)]),
        ("biceps curl eight times three goes", [(3, 8, None)]),
        ("Squat 3x5, last set 8+", [(2, 5, None), (1, 8, None)]),
        ("Deadlift 5 x 3, 100 - 110 - 120 - 120 - 120", [(1, 3, "100"), (1, 3, "110"), (3, 3, "120")]),
        ("Squat 5x5 80 kg, deload people 3x5 60 kg", [(5, 5, "80")]),
        (
            "clean técnico ocho series de dos cada minuto y medio al 70 % y el wod es 21 15 9 de kettlebell swing",
            [(8, 2, 70.0)],
        ),
    ],
)
def test_numbers_beside_sets_are_what_they_are(text: str, sets: list[Any]) -> None:
    lift = _items(_read(text), "lift")[0]
    assert _sets(lift) == sets


def test_a_minute_and_a_half_is_no_minute() -> None:
    (lift,) = _items(_read("clean ocho series de dos cada minuto y medio al 70 %"), "lift")
    assert lift["every_s"] == 90


def test_minutes_on_a_machine_are_no_load() -> None:
    found = _read("Cardio ; 10x1' bike / 1' rest")
    assert not _items(found, "lift")
    (piece,) = _items(found, "piece")
    assert (piece["piece"]["interval"], piece["piece"]["intervals"]) == ("1:00", 10)


def test_lengths_of_a_pool_are_no_lift() -> None:
    found = _read("Squat 3x5 @ 70% of 1RM\npool: 8x100 on 2:00 @ 80%, 4x50 kick")
    assert [_sets(each) for each in _items(found, "lift")] == [[(3, 5, 70.0)]]
    assert "Is this work to be done?" in _questions(found)


def test_dated_rows_below_a_lift_are_days_of_it_and_keep_what_their_percentages_are_of() -> None:
    found = _read(
        "NOVEMBER, squat track (% of your October 3RM, not 1RM)\n06.11   4x6      72/76/80/80\n13.11   3x4      80"
    )
    assert [session["day"] for session in found["sessions"]] == ["2026-11-06", "2026-11-13"]
    lifts = _items(found, "lift")
    assert [each["of"] for each in lifts] == [{"reps": 3}, {"reps": 3}]
    assert [_sets(each) for each in lifts] == [[(1, 6, 72.0), (1, 6, 76.0), (2, 6, 80.0)], [(3, 4, 80.0)]]


def test_rows_that_begin_with_the_same_weekday_are_of_one_day() -> None:
    found = _read(
        "LUNDI ; Force ; deadlift ; 5x3 ; 85 %\nLUNDI ; bench ; 4x6 ; 72 %\nJEUDI ; Force ; press ; 4x6 ; 72 %\nJEUDI ; squat ; 5x5"
    )
    assert [session["day"] for session in found["sessions"]] == ["Monday", "Thursday"]
    assert [len(session["items"]) for session in found["sessions"]] == [2, 2]


@pytest.mark.parametrize(
    ("text", "sets", "asked"),
    [
        ("Deadlift 5x5: beginners 60 kg, intermediate 80 kg, advanced 100 kg", [(5, 5, "60")], True),
        ("Back squat 5x5 - L1 60%, L2 70%, L3 80%", [(5, 5, 60.0)], True),
        ("Strength: L1 goblet squat 3x10, L2 front squat 5x5 @ 70%, L3 front squat 5x5 @ 80%", [(3, 10, None)], True),
        ("Level 1 / Level 2 / Level 3\nSquat 3x8 40 kg / 3x8 60 kg / 3x8 80 kg", [(3, 8, "40")], True),
        ("Back squat\nBeginner: 3x8 @ 60%\nIntermediate: 4x6 @ 70%\nAdvanced: 5x5 @ 80%", [(3, 8, 60.0)], True),
        ("Easy\tMedium\tHard\n3x5 bench @ 60%\t4x5 bench @ 70%\t5x5 bench @ 80%", [(3, 5, 60.0)], True),
        ("Squats today! newbies 3x8 with the empty bar, everyone else 5x5 @ 75 %", [(5, 5, 75.0)], False),
        ("Bench 4x8, advanced add 10 kg, beginners use 20 kg dumbbells", [(4, 8, None)], False),
        ("Back squat: men 5x5 @ 80 kg, women 5x5 @ 50 kg", [(5, 5, ["80", "50"])], False),
    ],
)
def test_levels_in_passing_are_not_sets_one_after_the_other(text: str, sets: list[Any], asked: bool) -> None:
    found = _read(text)
    (lift,) = _items(found, "lift")
    assert _sets(lift) == sets
    assert (LEVELS in _questions(found)) is asked


def test_levels_below_the_clock_of_a_piece_are_that_piece_once_each() -> None:
    found = _read("For time: 21-15-9\nL1: thruster 20 kg, ring rows\nL2: thruster 30 kg, pull-ups")
    (piece,) = _items(found, "piece")
    assert [(each["name"], each.get("load")) for each in piece["piece"]["movement"]] == [
        ("thruster", "20"),
        ("ring row", None),
    ]
    assert LEVELS in _questions(found)


@pytest.mark.parametrize(
    ("text", "sets"),
    [
        ("Back squat 5x5 @ 75 %, last time we did 5x5 @ 70 %", [(5, 5, 75.0)]),
        ("Back squat 4x8 @ 60 kg, next week 4x8 @ 62.5 kg", [(4, 8, "60")]),
        ("Deadlift 3x5. My best is 180 kg.", [(3, 5, None)]),
        ("Deadlift 3x5 @ 80 % (my current 1RM is 180 kg)", [(3, 5, 80.0)]),
        ("Press 5x5 or 3x8 @ 70 %", [(5, 5, 70.0)]),
        ("Squat 5x5 @ 80% or 5x3 @ 85% if you feel good", [(5, 5, 80.0)]),
    ],
)
def test_sets_and_loads_of_another_day_are_none_of_this_one(text: str, sets: list[Any]) -> None:
    (lift,) = _items(_read(text), "lift")
    assert _sets(lift) == sets


def test_what_was_done_yesterday_is_not_to_be_done() -> None:
    found = _read("yesterday: squat 5x5 100 kg. today: bench 3x5 @ 70 %")
    assert [(each["lift"], _sets(each)) for each in _items(found, "lift")] == [("Bench press", [(3, 5, 70.0)])]


@pytest.mark.parametrize("text", ["Deadlift 5x3 120", "Press 3 x 5, weight 40, rest 90"])
def test_a_number_alone_behind_the_sets_is_asked_about(text: str) -> None:
    assert any("only said beside the sets" in each for each in _questions(_read(text)))


def test_the_result_of_another_year_is_no_number_of_rounds() -> None:
    (piece,) = _items(_read("AMRAP 12: 10 burpees, 10 pull-ups (last year: 5 rounds)"), "piece")
    assert "rounds" not in piece["piece"]
