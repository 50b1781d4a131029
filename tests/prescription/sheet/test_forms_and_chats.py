"""Sessions out of a chat, filled into a form, or put right by a later line; written for this test, in an invented gym."""

from __future__ import annotations

import pytest

from tracker.prescription.sheet import as_json, read


def items(text: str) -> list[dict]:
    reading = read(text)
    return [item for session in as_json(reading.sheet, reading.asks)["sessions"] for item in session["items"]]


def of_kind(text: str, kind: str) -> list[dict]:
    return [item for item in items(text) if item["kind"] == kind]


CHAT = """[23/11, 19:02] Orla: Tuesday
[23/11, 19:03] Orla: Front squat 3x5 @ 72% of 5RM
[23/11, 19:04] Orla: AMRAP 9: 9 burpees, 9 cal row
[23/11, 19:05] Pim: 5x5 at 100 kg for me then
"""


def test_the_time_and_sender_of_a_chat_are_no_part_of_the_session():
    (lift,), (piece,) = of_kind(CHAT, "lift"), of_kind(CHAT, "piece")
    assert lift["sets"] == [{"sets": 3, "reps": 5, "percent": 72.0}]
    assert [each["name"] for each in piece["piece"]["movement"]] == ["burpee", "row"]


def test_what_others_wrote_between_stays_as_words():
    said = str(items(CHAT))
    assert "Pim: 5x5 at 100 kg for me then" in said
    assert "100" not in str([each["sets"] for each in of_kind(CHAT, "lift")])


def test_one_time_with_a_name_behind_it_is_no_chat():
    (lift,) = of_kind("6:30 Tom: class is full\nBack squat 5x5 @ 75%\n", "lift")
    assert lift["lift"] == "Back squat"


@pytest.mark.parametrize("rows", [2, 3, 4, 5])
def test_a_max_in_brackets_is_what_the_rows_below_are_of(rows: int):
    text = "Deadlift (3RM)\n" + "".join(f"{6 - n} @ {65 + 5 * n}%\n" for n in range(rows))
    (lift,) = of_kind(text, "lift")
    assert lift["of"] == {"reps": 3}
    assert [each["percent"] for each in lift["sets"]] == [65.0 + 5 * n for n in range(rows)]
    assert not [each for each in lift["sets"] if "find" in each]


@pytest.mark.parametrize("rest", ["Rest: 3 min", "*Rest: 3 min*", "rest 180 s between sets", "Rest 3:00"])
def test_a_rest_below_a_gap_is_that_of_the_sets_above(rest: str):
    (lift,) = of_kind(f"Back squat\n5x3 @ 82% of 3RM\n\n{rest}\n\nAMRAP 9: 9 burpees\n", "lift")
    assert lift["rest_s"] == 180


def test_a_remark_behind_a_rest_is_no_part_of_it():
    (lift,) = of_kind("Strict press\n3x5 @ 70% of 5RM\nRest 2 min. Nobody goes to failure today.\n", "lift")
    assert lift["rest_s"] == 120
    assert lift["sets"] == [{"sets": 3, "reps": 5, "percent": 70.0}]


@pytest.mark.parametrize(("told", "sets"), [("three times", 3), ("twice", 2), ("4 times", 4)])
def test_a_count_behind_its_load(told: str, sets: int):
    (lift,) = of_kind(f"Bench press, % of 4RM: 4 @ 70 %, then 4 @ 80 % {told}\n", "lift")
    assert lift["sets"] == [{"sets": 1, "reps": 4, "percent": 70.0}, {"sets": sets, "reps": 4, "percent": 80.0}]


FORM = "PIECE: AMRAP\nCAP: 9 min\nWORK: 7 power cleans; 7 burpees; 7 toes-to-bar\nWEIGHTS: power clean 60 / 40 kg\n"


def test_a_piece_that_is_filled_in_as_a_form():
    (piece,) = of_kind(FORM, "piece")
    assert piece["piece"]["kind"] == "as many as possible"
    assert piece["piece"]["cap"] == "9:00"
    first, *others = piece["piece"]["movement"]
    assert (first["name"], first["load"], first["unit"]) == ("power clean", ["60", "40"], "kg")
    assert [each["name"] for each in others] == ["burpee", "toes to bar"]


def test_loads_below_the_work_whose_movement_is_not_there_are_left_as_words_or_asked():
    (piece,) = of_kind("3 rounds for time\n20 wall balls\n15 sit-ups\nLoads: thruster 43/30 kg\n", "piece")
    assert "load" not in piece["piece"]["movement"][0]


def test_a_count_that_is_put_right_below():
    text = "3 rounds for time\n12 deadlifts 90/60kg\n9 pull ups\n15 cal row\n\npull ups are 12 not 9 sorry\n"
    (piece,) = of_kind(text, "piece")
    assert [each.get("first") for each in piece["piece"]["movement"]] == [12, 12, 15]


def test_the_movements_behind_rx_are_the_piece():
    (piece,) = of_kind(
        "21-15-9 for time\nRx: thruster 43/30 kg, pull-up\nScaled: thruster 30/20 kg, ring row\n", "piece"
    )
    first, second = piece["piece"]["movement"]
    assert (first["name"], first["reps"], first["load"]) == ("thruster", [21, 15, 9], ["43", "30"])
    assert (second["name"], second["reps"]) == ("pull-up", [21, 15, 9])


TABLE = (
    "Block\tExercise\tSets\tReps\tIntensity\tRest\nB\tDeadlift\t3\t3\t81%\t2:00\n\tNote: % of 3RM (wk 0)\t\t\t\t\n"
    "C\tAMRAP 12:00\t\t\t\t\nC\tWall ball\t\t15\t9/6 kg\t\nC\tCal row\t\t12/9\t\t\n"
)


def test_a_table_with_the_movements_of_a_piece_below_its_heading():
    (lift,), (piece,) = of_kind(TABLE, "lift"), of_kind(TABLE, "piece")
    assert lift["of"] == {"reps": 3}
    ball, row = piece["piece"]["movement"]
    assert (ball["name"], ball["first"], ball["load"]) == ("wall ball", 15, ["9", "6"])
    assert (row["name"], row["sides"], row["measure"]) == ("row", [12, 9], "cal")
