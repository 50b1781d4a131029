"""Days, paces, ages, clocks by a letter and tables typed short, and what looks like them. All lines are our own."""

from __future__ import annotations

from typing import Any

import pytest

from tests.prescription.sheet.test_written_out import items, lifts, moves, sessions, sets
from tracker.prescription.sheet import read


def test_a_deload_behind_weeks_is_the_next_week() -> None:
    text = "Lift | Wk1 | Wk2 | Deload\nSquat | 5x5@70% | 5x4@75% | 3x5@60%\nBench | 4x8@65% | 4x6@70% | 3x5@55%"
    assert [[(item["lift"], item["sets"][0]["percent"]) for item in each["items"]] for each in sessions(text)] == [
        [("Squat", 70.0), ("Bench press", 65.0)],
        [("Squat", 75.0), ("Bench press", 70.0)],
        [("Squat", 60.0), ("Bench press", 55.0)],
    ]


def test_what_is_done_besides_has_a_column_of_its_own() -> None:
    text = "Day | Main lift | Sets x reps | % 1RM | Accessory\nMon | Squat | 5x5 | 72 | RDL 3x10\nWed | Bench | 5x5 | 72 | Dips 3x10"
    assert lifts(text) == [
        ("Squat", [(5, 5, 72.0)]),
        ("Romanian deadlift", [(3, 10, None)]),
        ("Bench press", [(5, 5, 72.0)]),
        ("Dip", [(3, 10, None)]),
    ]


@pytest.mark.parametrize("last", ["Lift: front squat", "all front squat", "Exercise: front squat"])
def test_the_lift_may_stand_below_its_weeks(last: str) -> None:
    text = f"Week 1 - 3x10 @ 60%\nWeek 2 - 3x8 @ 67.5%\nWeek 3 - 3x6 @ 72.5%\n{last}"
    assert [name for name, _ in lifts(text)] == ["Front squat"] * 3
    assert [each["percent"] for each in sets(text)] == [60.0, 67.5, 72.5]


@pytest.mark.parametrize("typed", ["Reißen 6x1 zwischen 75 und 85 %", "Snatch 6x1, between 75 and 85%", "Arraché 6x1 entre 75 et 85 %", "Arrancada 6x1 entre 75% y 85%"])  # fmt: skip
def test_between_two_percentages(typed: str) -> None:
    assert [(each["sets"], each["percent"]) for each in sets(typed)] == [(6, [75.0, 85.0])]


@pytest.mark.parametrize("pace", ["@ 5:00/km", "at 4:45-5:00 per km", "@1:50/500m"])
def test_a_pace_is_no_load(pace: str) -> None:
    (found,) = items(f"5x1k run {pace}, rest 2 min")
    (move,) = found["piece"]["movement"]
    assert (move["first"], found["piece"]["rest"], move.get("load")) == (1000, "2:00", None)


def test_weekdays_with_the_day_of_the_month() -> None:
    text = "Mon 7: squat 5x5 @ 70%\nTue 8: row 30:20 x 10 rounds\nThu 10: bench 5x5 @ 70%"
    assert [each["day"] for each in sessions(text)] == ["Monday", "Tuesday", "Thursday"]
    piece = sessions(text)[1]["items"][0]["piece"]
    assert (piece["interval"], piece["rest"], piece["intervals"]) == ("0:30", "0:20", 10)


@pytest.mark.parametrize("typed", ["Mon 5: burpees\nTue 5: squats", "Row 7: easy\nSat 8x3 squat @ 70%"])
def test_other_numbers_behind_words_are_no_days_of_the_month(typed: str) -> None:
    assert [line.typed for line in read(typed).lines] == typed.splitlines()


def test_dates_before_sets_are_days_of_the_lift_above() -> None:
    text = "Next 3 Mondays - back squat\n30/11 5x5 72%\n7/12 5x4 77%\n14/12 5x3 82%"
    assert lifts(text) == [
        ("Back squat", [(5, 5, 72.0)]),
        ("Back squat", [(5, 4, 77.0)]),
        ("Back squat", [(5, 3, 82.0)]),
    ]
    assert lifts("Power clean\n1.1 2 x 3 @ 60 %\n1.2 6 x 2 @ 72.5 %") == [("Power clean", [(2, 3, 60.0), (6, 2, 72.5)])]


@pytest.mark.parametrize("clock", ["E90 x 8", "E90s x 8", "E90 for 8", "every 90 s x 8"])
def test_a_letter_before_seconds_is_a_clock(clock: str) -> None:
    (found,) = items(f"{clock}: 2 hang cleans + 1 jerk @ 70%")
    assert [(each["sets"], each["reps"], each["percent"]) for each in found["sets"]] == [(8, [2, 1], 70.0)]


def test_windows_behind_a_head_on_one_line() -> None:
    first, second, third = items(
        "15 min clock: 0-5 build to a heavy single clean, 5-10 30 clean & jerks 43/30, 10-15 max burpees"
    )
    assert first["sets"] == [{"find": "heavy 1", "reps": 1}]
    assert second["piece"]["movement"][0]["first"] == 30
    assert third["piece"]["cap"] == "5:00"


def test_each_round_so_long_and_a_rest_between() -> None:
    (found,) = items("3 rounds, each round 3 min: 10 cal row, 10 thrusters 35kg. 2 min between rounds")
    assert (found["piece"]["interval"], found["piece"]["rest"], found["piece"]["intervals"]) == ("3:00", "2:00", 3)


def test_metres_without_their_sign() -> None:
    found = moves("Row 2k. Rest 5. Row 500 all out.")
    assert [move["first"] for each in found for move in each] == [2000, 500]


@pytest.mark.parametrize("typed", ["chins bw+10 4x5", "chins 4x5 bw + 10kg", "Chins bodyweight +10 kg 4x5"])
def test_more_than_the_body(typed: str) -> None:
    assert lifts(typed) == [("Chin-up", [(4, 5, "10")])]


def test_more_than_another_day_is_no_load() -> None:
    assert lifts("Squat 3x5 same as monday +2.5kg") == [("Squat", [(3, 5, None)])]


def test_all_but_what_is_told_before_is_no_buy_in() -> None:
    (found,) = items("Buy in 1k row then 3 rounds 15 pullups 20 pushups then cash out 1k row. cap 25")
    assert [move.get("part") for move in found["piece"]["movement"]] == ["buy-in", None, None, "cash-out"]


def test_boxes_to_tick_and_sets_of_several_movements() -> None:
    (lift, piece) = items("- [ ] Snatch balance 4x2 @ 70%\n- [x] 3 sets: 12 GHD sit-ups, 20m handstand walk")
    assert lift["lift"] == "Snatch balance"
    assert [move["first"] for move in piece["piece"]["movement"]] == [12, 20]
    assert piece["piece"]["rounds"] == 3


def test_a_french_day_has_room_before_its_sign() -> None:
    assert [each["day"] for each in sessions("Ven : squat 4x8 60kg\nSam : bench 4x8 50kg")] == ["Friday", "Saturday"]


def test_ages_are_no_seconds_and_strokes_part_stations() -> None:
    text = "Over 50s: 30 sec on 30 sec off x 4 rounds\nsquat to box / wall press / step up / row"
    (found,) = items(text)
    assert [move["name"] for move in found["piece"]["movement"]] == ["air squat", "wall press", "step-up", "row"]
    assert all("options" not in move for move in found["piece"]["movement"])


def test_counts_behind_names_are_those_of_each() -> None:
    ((sit, heel, march, band),) = moves(
        "Sit to stand x 10, heel raises x 15, marching 1 min, band rows x 12. Three times through."
    )
    found: list[Any] = [each["first"] for each in (sit, heel, march, band)]
    assert found == [10, 15, 60, 12]


def test_two_rows_of_counts_are_two_movements_of_one_piece() -> None:
    (found,) = items("For time (20 cap)\n50-40-30 DU\n10-8-6 power snatch 50/35 kg")
    first, second = found["piece"]["movement"]
    assert (first["reps"], second["reps"], second["load"]) == ([50, 40, 30], [10, 8, 6], ["50", "35"])


def test_the_same_row_above_two_movements_stays_theirs() -> None:
    (found,) = items("For time\n21-15-9 thrusters 43/30 kg\n21-15-9 pull-ups")
    assert [move["reps"] for move in found["piece"]["movement"]] == [[21, 15, 9], [21, 15, 9]]


def test_parts_of_a_run_have_their_own_distances() -> None:
    found = moves("Run: 2k easy, 6 x 400 at 5k pace w/ 60s, 1k easy")
    assert [[move["first"] for move in each] for each in found] == [[2000], [400], [1000]]


def test_how_hard_a_run_is_takes_nothing_of_it() -> None:
    ((run, walk),) = moves("8 rounds: 200m run @ 80%, 100m walk")
    assert (run["first"], walk["first"]) == (200, 100)


def test_a_day_to_max_out_is_no_set_of_as_many_as_there_are() -> None:
    assert [each.get("find") for each in sets("Max out day: back squat 1RM, then 3x3 @ 80% of it")] == ["1RM", None]


def test_a_word_of_the_sentence_is_no_title() -> None:
    (_, piece) = items("Back squats 5x3 at 80%. Then a 14 min amrap: 14 cal bike, 12 t2b")
    assert not piece["piece"].get("title")
