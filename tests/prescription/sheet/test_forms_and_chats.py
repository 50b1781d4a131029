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


@pytest.mark.parametrize(
    ("text", "sets"),
    [
        ("Back squat, 3 reps\n60%\n70%\n80%\n", [(1, 3, 60), (1, 3, 70), (1, 3, 80)]),
        ("Back squat x 3\n60%  2 sets\n70%  2 sets\n", [(2, 3, 60), (2, 3, 70)]),
        ("Clean pull + power clean + hang clean 1+1+1\n60%\n65%\n", [(1, [1, 1, 1], 60), (1, [1, 1, 1], 65)]),
        (
            "Clean complex\n1 clean pull + 1 power clean + 1 hang clean\n60%\n65%\n",
            [(1, [1, 1, 1], 60), (1, [1, 1, 1], 65)],
        ),
        ("Hang power snatch + OHS, 2+1\n60%  3 sets\n68%  3 sets\n", [(3, [2, 1], 60), (3, [2, 1], 68)]),
    ],
)
def test_percentages_a_line_each_have_the_repetitions_above_them(text: str, sets: list[tuple]):
    (lift,) = of_kind(text, "lift")
    assert [(each["sets"], each["reps"], each["percent"]) for each in lift["sets"]] == sets


@pytest.mark.parametrize("typed", ["back offs: 4x5 @ 75%", "Backoff sets 4x5 @ 75%", "Back off: same squat 4x5 @ 75%"])
def test_back_off_sets_are_of_the_lift_above(typed: str):
    (lift,) = of_kind(f"Back squat 1x3 @ 90% of 1RM\n{typed}\n", "lift")
    assert [(each["sets"], each["reps"], each["percent"]) for each in lift["sets"]] == [(1, 3, 90), (4, 5, 75)]


@pytest.mark.parametrize(
    ("rounds", "clock"), [("5 rounds", "3:00 on / 1:30 off"), ("10 rounds", "1:00 hard / 1:00 easy")]
)
def test_rounds_above_their_clock_are_how_often_it_goes(rounds: str, clock: str):
    (piece,) = of_kind(f"{rounds}\n{clock}\n20/16 cal bike\n15 burpees\n", "piece")
    assert piece["piece"]["intervals"] == int(rounds.split(maxsplit=1)[0])


def test_a_lift_with_what_its_sets_are_of_told_at_length():
    text = "Front squat, working from your 1RM in the autumn test week:\n1 x 5 at 60%\n3 x 3 at 80%\nPlease rest two minutes.\n"
    (lift,) = of_kind(text, "lift")
    assert (lift["of"], lift["rest_s"]) == ({"reps": 1}, 120)
    assert [(each["sets"], each["reps"], each["percent"]) for each in lift["sets"]] == [(1, 5, 60), (3, 3, 80)]


WEEK = (
    "Day\tPart\tWhat\tScheme\tLoad\tRest / notes\nMon\tWU\trow easy + banded walks\t8 min\t\t\n"
    "Mon\tStr\tFront squat\t4x4\t78% of 3RM\t2:00\nMon\tWOD\tEMOM 12\t\t\t\n\t\tmin 1: cal row\t12/10\t\t\n"
    "\t\tmin 2: KB swing\t15\t24/16 kg\t\n\t\t\t\t\t\nWed\tStr\tStrict press\t5x5\t70% of 1RM\t90 s\n"
    "Wed\tWOD\t4 rounds for time\tTC 16\t\t\n\t\tRun\t400 m\t\t\n\t\tPull up\t12\t\t\n"
)


def test_a_week_in_a_table_with_pieces_and_an_empty_row():
    reading = read(WEEK)
    first, second = as_json(reading.sheet, reading.asks)["sessions"]
    assert (first["day"], second["day"]) == ("Monday", "Wednesday")
    kinds = [[each["kind"] for each in session["items"]] for session in (first, second)]
    assert kinds == [["warm-up", "lift", "piece"], ["lift", "piece"]]
    assert first["items"][1]["sets"][0]["rest_s"] == 120
    row, swing = first["items"][2]["piece"]["movement"]
    assert (row["sides"], row["measure"]) == ([12, 10], "cal")
    assert (swing["first"], swing["load"]) == (15, ["24", "16"])
    assert second["items"][1]["piece"]["cap"] == "16:00"
