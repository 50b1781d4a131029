"""The same thing told in several ways, and what looks like it and means something else. All lines are our own."""

from __future__ import annotations

from typing import Any

import pytest

from tracker.prescription.sheet import as_json, read


def sessions(text: str) -> list[dict[str, Any]]:
    return as_json(read(text).sheet)["sessions"]


def items(text: str) -> list[dict[str, Any]]:
    return [item for session in sessions(text) for item in session["items"] if item["kind"] in ("lift", "piece")]


def piece(text: str) -> dict[str, Any]:
    (item,) = items(text)
    return item["piece"]


BELOW = "\n6 burpees\n8 pull-ups"


@pytest.mark.parametrize("head", ["3 x AMRAP 4, 2 min rest", "Three AMRAPs of 4 minutes, rest 2 min between", "4 min amrap x3 (r2min)", "3x(4 min AMRAP + 2 min rest)", "3 x 4' AMRAP / 2' rest", "3 rounds of: 4 min AMRAP, 2 min rest", "3 separate 4-min AMRAPs, rest 2 min"])  # fmt: skip
def test_amraps_of_one_length_with_a_rest_are_intervals(head: str) -> None:
    found = piece(head + BELOW)
    assert (found["kind"], found["cap"], found["intervals"], found["rest"]) == (
        "as many as possible",
        "4:00",
        3,
        "2:00",
    )


@pytest.mark.parametrize(
    ("head", "cap"), [("AMRAP 12" + BELOW, "12:00"), ("12 min AMRAP: 3 burpees, 6 pull-ups", "12:00")]
)
def test_one_amrap_stays_one(head: str, cap: str) -> None:
    found = piece(head)
    assert found["cap"] == cap
    assert "intervals" not in found


@pytest.mark.parametrize("typed", ["8 min easy AMRAP: 6 ring rows, 8 step-ups", "8 min nice, steady amrap: 6 ring rows, 8 step-ups", "8mi n amrap 6 ring rows, 8 step-ups", "8 m in AMRAP: 6 ring rows, 8 step-ups"])  # fmt: skip
def test_how_it_feels_or_a_slip_takes_nothing_from_the_length(typed: str) -> None:
    found = piece(typed)
    assert found["cap"] == "8:00"
    assert [(move["name"], move["first"]) for move in found["movement"]] == [("ring row", 6), ("step-up", 8)]


@pytest.mark.parametrize("typed", ["tabata air squats, 1 min rest, tabata push-ups. score is your lowest round of each", "2 tabatas: air squats, push-ups, 1 min between, lowest round counts"])  # fmt: skip
def test_one_tabata_after_the_other_are_two(typed: str) -> None:
    one, two = (item["piece"] for item in items(typed))
    assert one["scored_by"] == two["scored_by"] == "lowest"
    assert (one["movement"][0]["name"], two["movement"][0]["name"]) == ("air squat", "push-up")
    assert "first" not in one["movement"][0]


def test_one_tabata_of_two_movements_stays_one() -> None:
    assert len(items("tabata: air squats, push-ups")) == 1


@pytest.mark.parametrize("typed", ["You go I go with a partner, 10 rounds each: 10 cal bike, as fast as possible.", "I go you go, 10 rounds each, 10 cal bike", "IGYG 10 rounds each\n10 cal bike", "In pairs, I go you go: 10 rounds each of 10 cal bike for time"])  # fmt: skip
def test_rounds_each_of_partners_in_turn(typed: str) -> None:
    found = piece(typed)
    assert (found["rounds"], found["partners"]) == (10, 2)
    assert (found["movement"][0]["name"], found["movement"][0]["first"]) == ("bike", 10)


@pytest.mark.parametrize("typed", ["10 min to find heaviest single of power clean + push jerk", "In 10 min build to the heaviest complex of 1 power clean + 1 push jerk", "Heaviest complex in 10 min: 1 power clean + 1 push jerk", "10 minutes: find your heaviest power clean + push jerk", "Heavy complex, 10 min cap\n1 power clean + 1 push jerk"])  # fmt: skip
def test_the_heaviest_of_a_complex_in_a_time(typed: str) -> None:
    found = piece(typed)
    assert (found["kind"], found["cap"]) == ("heaviest", "10:00")
    assert [(move["name"], move["first"]) for move in found["movement"]] == [("power clean", 1), ("push jerk", 1)]


@pytest.mark.parametrize("head", ["Bench, training max = 90% of your 1RM, all % off that", "Bench (TM = 90% 1RM), percentages are of that", "Bench. Take 90 % of your max as training max, percentages are from that."])  # fmt: skip
def test_a_training_max_that_is_told_once_holds_for_all_weeks(head: str) -> None:
    found = read(f"{head}\nWeek 1: 65% x5, 75% x5\nWeek 2: 70% x3, 80% x3")
    for session in as_json(found.sheet)["sessions"]:
        assert session["items"][0]["of"] == {"reps": 1, "percent": 90.0}


def test_all_of_that_behind_a_heavy_single_is_of_the_day() -> None:
    (lift,) = items("Squat heavy single\nthen 3x1 @ 90% of that")
    assert lift["sets"][1]["of"] == {"reps": 1, "heavy": True}


@pytest.mark.parametrize("typed", ["E90S x 8: 1 power clean + 1 push jerk, 60/40kg", "every 90 sec x 8, 1 power clean + 1 push jerk @ 60/40 kg", "E90S x 8\n1 power clean + 1 push jerk (60/40kg)"])  # fmt: skip
def test_one_bar_has_one_load_and_is_asked_about(typed: str) -> None:
    found = read(typed)
    (item,) = as_json(found.sheet)["sessions"][0]["items"]
    assert [move["load"] for move in item["piece"]["movement"]] == [["60", "40"], ["60", "40"]]
    assert len(found.asks) == 1


def test_a_load_behind_other_movements_is_of_the_last_alone() -> None:
    first, second = piece("EMOM 8: 5 burpees + 3 power cleans 60/40kg")["movement"]
    assert "load" not in first
    assert second["load"] == ["60", "40"]
    first, second = piece("EMOM 8: 3 deadlifts, 3 power cleans 60/40kg")["movement"]
    assert "load" not in first
    assert second["load"] == ["60", "40"]


@pytest.mark.parametrize("typed", ["5x3 back squat @ 70%\nCool down 10 min jog", "5x3 back squat @ 70%\nthen 10 min easy jog to cool down", "5x3 back squat @ 70%\nSpin out 5 min on the bike", "5x3 back squat @ 70%\n\nWalk home.", "Warm werden: 5 min Rad locker\n\n5x3 back squat @ 70%"])  # fmt: skip
def test_what_is_easy_before_and_after_is_no_piece(typed: str) -> None:
    assert [item["kind"] for item in items(typed)] == ["lift"]


@pytest.mark.parametrize("typed", ["20 min easy row", "Row 5 km home straight"])
def test_easy_work_by_itself_stays_a_piece(typed: str) -> None:
    assert [item["kind"] for item in items(typed)] == ["piece"]


@pytest.mark.parametrize("typed", ["pull-ups 5x6 between bench sets", "between sets 5x6 pull-ups", "in between sets: 6 pull-ups"])  # fmt: skip
def test_what_is_done_between_sets_is_a_superset(typed: str) -> None:
    one, two = items(f"bench 5x5 80 kg\n{typed}")
    assert two["superset"]
    assert "superset" not in one


def test_a_rest_between_sets_joins_nothing() -> None:
    _, two = items("bench 5x5 80 kg\npull-ups 5x6, rest 2 min between sets")
    assert "superset" not in two


@pytest.mark.parametrize("typed", ["Death by power cleans 50/35kg: 1 in min 1, 2 in min 2 and so on, max 15 min", "Death by power cleans 50/35 kg to 15", "Death by power cleans 50/35 kg, cap 15 min"])  # fmt: skip
def test_death_by_says_how_many_minutes_at_most(typed: str) -> None:
    found = piece(typed)
    assert found["intervals"] == 15
    assert not found.get("in_turn")
    assert (found["movement"][0]["first"], found["movement"][0]["step"]) == (1, 1)


def test_death_by_counts_lengths_not_metres() -> None:
    (move,) = piece("death by 10 m shuttle run, up to 20 min")["movement"]
    assert (move["first"], move["step"]) == (1, 1)
    assert "measure" not in move


@pytest.mark.parametrize("typed", ["60 cm / 50 cm", "60cm/50cm", "60 & 50 cm", "60/50 cm", "(60 cm or 50 cm)"])
def test_heights_of_two_groups(typed: str) -> None:
    (move,) = piece(f"AMRAP 9: 9 box jumps {typed}")["movement"]
    assert move["height_cm"] == [60.0, 50.0]


@pytest.mark.parametrize(("typed", "lift", "load"), [("Upright row NO, we do face pulls with the band 3x15", "Face pull", None), ("no deadlifts today, instead hip thrust 3x15 60kg", "Hip thrust", "60"), ("instead of bench we do floor press 3x15 60kg", "Floor press", "60"), ("Bent row out, face pull in: 3x15 band", "Face pull", None)])  # fmt: skip
def test_what_is_not_done_today_takes_no_sets(typed: str, lift: str, load: str | None) -> None:
    (found,) = items(typed)
    assert found["lift"] == lift
    assert (found["sets"][0]["sets"], found["sets"][0]["reps"], found["sets"][0].get("load")) == (3, 15, load)


@pytest.mark.parametrize(("typed", "lift"), [("No rest bench 3x15 60kg", "Bench press"), ("Front squat (not back squat!) 3x15 60kg", "Front squat")])  # fmt: skip
def test_another_no_takes_nothing_away(typed: str, lift: str) -> None:
    (found,) = items(typed)
    assert found["lift"].endswith(lift)
    assert found["sets"][0]["load"] == "60"


@pytest.mark.parametrize("typed", ["goblet squats with the same bell", "goblet squats, same weight", "goblet squats same kb"])  # fmt: skip
def test_the_same_bell_has_the_same_load(typed: str) -> None:
    found = piece(f"AMRAP 8\n8 kb swings 24/16 kg\n8 {typed}")
    assert [move["load"] for move in found["movement"]] == [["24", "16"], ["24", "16"]]


@pytest.mark.parametrize("typed", ["8 x 60s hill run, walk down", "8 x 60 sec hill sprints, jog back", "Hills: 8 times 1 min up, jog down"])  # fmt: skip
def test_hills_are_intervals(typed: str) -> None:
    found = piece(typed)
    assert (found["kind"], found["interval"], found["intervals"]) == ("work and rest", "1:00", 8)
    assert len(found["movement"]) == 1


@pytest.mark.parametrize("typed", ["Lower (Tue)", "Masters Tuesday", "and on Tuesday", "then tuesday, if you come:"])
def test_a_day_behind_what_it_is_for_begins_a_session(typed: str) -> None:
    first, second = sessions(f"Monday\nBack squat 5x5 80kg\n\n{typed}\nBench 5x5 60kg")
    assert (first["day"], second["day"]) == ("Monday", "Tuesday")


@pytest.mark.parametrize("typed", ["see you on Tuesday", "and Tuesday the gym is closed", "deload on (maybe) Tuesday"])
def test_a_day_in_a_sentence_begins_none(typed: str) -> None:
    assert len(sessions(f"Monday\nBack squat 5x5 80kg\n{typed}\nBench 5x5 60kg")) == 1


def test_a_day_behind_a_lift_keeps_the_lift() -> None:
    one, two = sessions("Bench (Mon)\n5x5 80 kg\n\nSquat day (Thu)\n5x5 100kg")
    assert (one["day"], one["items"][0]["lift"]) == ("Monday", "Bench press")
    assert (two["day"], two["items"][0]["lift"]) == ("Thursday", "Squat")


def test_an_easier_load_alone_is_of_the_only_heavier_movement() -> None:
    found = piece("For time\n60 double unders\n40 kb swings 24/16 kg\n20 toes to bar\n10 squat cleans 70/50 kg\nScaled: 120 singles, hanging knee raises, 50/35 kg")  # fmt: skip
    (option,) = found["movement"][3]["options"]
    assert (option["name"], option["load"]) == ("squat clean", ["50", "35"])
    assert "options" not in found["movement"][1]


def test_rounds_of_a_scaled_block_are_no_piece() -> None:
    found = piece("10 rounds for time:\n3 power cleans 60/40 kg\n9 pull-ups\n\nSCALED\n7 rounds\npower cleans 40/30 kg\nring rows")  # fmt: skip
    assert found["rounds"] == 10
    assert "7 rounds" in str(found["note"])


def test_what_a_sore_back_does_is_no_movement_for_all() -> None:
    found = piece("3 rounds for time\n10 deadlifts 100/70 kg\n10 pull-ups\nSore back? KB deadlift 24/16 kg")
    assert [move["name"] for move in found["movement"]] == ["deadlift", "pull-up"]


@pytest.mark.parametrize(("typed", "lift", "of"), [("CP 4x3 @ 90% of clean", "Clean pull", "clean"), ("SP 4x3 @ 90% of 1RM snatch", "Snatch pull", "snatch"), ("SN pull 4x3 @90%, same max", "Snatch pull", "snatch")])  # fmt: skip
def test_pulls_by_their_letters(typed: str, lift: str, of: str) -> None:
    (found,) = items(typed)
    assert (found["lift"], found["of"]["lift"], len(found["sets"])) == (lift, of, 1)


def test_two_letters_of_a_press_stay_a_press() -> None:
    (found,) = items("SP 4x3 @ 80% of 1RM")
    assert found["lift"] == "Strict press"


@pytest.mark.parametrize("typed", ["1 shuttle run of 40 m", "2 shuttle runs of 20 m", "40 m shuttle run"])
def test_so_far_each_time(typed: str) -> None:
    found = piece(f"AMRAP 8\n5 burpees\n{typed}\n10 air squats")
    assert (found["movement"][1]["first"], found["movement"][1]["measure"]) == (40, "m")
    assert "measure" not in found["movement"][2]


@pytest.mark.parametrize("typed", ["Standing calf raise on the machine 4x15", "calf raises on a machine 4x15"])
def test_a_machine_behind_the_name(typed: str) -> None:
    (found,) = items(typed)
    assert found["implement"] == "machine"


@pytest.mark.parametrize("typed", ["1k row easy to warm up. bench 4x8 @ 60kg", "10 min bike, bench 4x8 @ 60kg", "500 m row easy, then bench 4x8 @ 60kg", "warm up 5 min row. Bench 4x8 60kg", "Warm up: 5 min row. Then bench 4x8 60kg", "wu 400m run + 10 squats. bench 4x8 60kg"])  # fmt: skip
def test_a_machine_before_a_lift_takes_no_sets_of_it(typed: str) -> None:
    lifts = [item for item in items(typed) if item["kind"] == "lift"]
    assert [(lift["lift"], lift["sets"][0]["load"]) for lift in lifts] == [("Bench press", "60")]


@pytest.mark.parametrize("typed", ["Barbell row 4x8 @ 60kg", "Pendlay row: 4x8 60kg", "row 4x8 60kg barbell"])
def test_a_row_with_a_bar_stays_a_lift(typed: str) -> None:
    (lift,) = items(typed)
    assert lift["lift"].lower().endswith("row")
    assert lift["sets"][0]["load"] == "60"


@pytest.mark.parametrize(
    "typed", ["easy bike 5 min to finish", "easy 400 m walk after", "then 5 min easy row at the end"]
)
def test_what_is_easy_behind_a_piece_is_no_movement_of_it(typed: str) -> None:
    found = piece(f"AMRAP 10\n6 burpees\n9 pull-ups\n{typed}")
    assert [move["name"] for move in found["movement"]] == ["burpee", "pull-up"]


def test_what_comes_last_in_a_chipper_stays_in_it() -> None:
    found = piece("For time\n60 burpees\n40 pull-ups\nfinish with 400 m run")
    assert [move["name"] for move in found["movement"]] == ["burpee", "pull-up", "run"]


@pytest.mark.parametrize("typed", ["Straight into 5 min max cal row", "Then 5 min max cal row", "Immediately into 5 min max cal row"])  # fmt: skip
def test_a_time_of_its_own_is_no_part_of_a_clock(typed: str) -> None:
    one, two = (item["piece"] for item in items(f"emom 10: 3 power cleans 70/50 kg, 4 burpees. {typed}"))
    assert [move["name"] for move in one["movement"]] == ["power clean", "burpee"]
    assert (two["kind"], two["cap"]) == ("calories", "5:00")


@pytest.mark.parametrize("typed", ["Cash in 800 m run, then 3 rounds of 15 power snatch 35/25 & 15 burpees, cash out 800 m run. For time, 20 cap", "Buy-in 800 m run, 3 rounds of 15 power snatch 35/25 and 15 burpees, cash-out 800 m run. For time, 20 cap", "For time, 20 cap: buy in 800 m run. 3 rounds: 15 power snatch 35/25, 15 burpees. Cash out 800 m run"])  # fmt: skip
def test_what_is_done_before_and_after_the_rounds(typed: str) -> None:
    found = piece(typed)
    assert (found["kind"], found["rounds"], found["cap"]) == ("for time", 3, "20:00")
    assert [(move["name"], move.get("part", "")) for move in found["movement"]] == [("run", "buy-in"), ("power snatch", ""), ("burpee", ""), ("run", "cash-out")]  # fmt: skip


def test_amraps_that_are_numbered_are_a_piece_each() -> None:
    text = "3 AMRAPs x 5 min, rest 3:\n1) 10 pull-ups 10 push-ups\n2) 10 kb swing 24/16 10 goblet squats\n3) 10 cal row 10 burpees"
    found = [item["piece"] for item in items(text)]
    assert [each["cap"] for each in found] == ["5:00"] * 3
    assert [each["movement"][0]["name"] for each in found] == ["pull-up", "kettlebell swing", "row"]


def test_numbered_movements_of_one_amrap_stay_together() -> None:
    assert len(piece("12 min AMRAP\n1) 10 pull-ups\n2) 10 kb swings 24/16\n3) 10 burpees")["movement"]) == 3


@pytest.mark.parametrize("typed", ["3x12 each: barbell hip thrust 80kg, leg curl, face pulls", "3 x 12 of each: barbell hip thrust 80kg, leg curl and face pulls", "Accessory, 3x12 each - barbell hip thrust 80 kg, leg curl, face pulls"])  # fmt: skip
def test_sets_of_each_are_of_all_that_follow(typed: str) -> None:
    found = items(typed)
    assert [item["lift"] for item in found] == ["Hip thrust", "Leg curl", "Face pull"]
    assert all((item["sets"][0]["sets"], item["sets"][0]["reps"]) == (3, 12) for item in found)
    assert [item["sets"][0].get("load") for item in found] == ["80", None, None]


def test_each_leg_is_no_row_of_lifts() -> None:
    (lift,) = items("Split squat, dumbbells: 3x8 each leg, 20kg")
    assert lift["each_side"]


@pytest.mark.parametrize("typed", ["3 x 15 banded face pulls ss 3 x 12 db curls 12.5kg", "3x15 face pulls s/s 3x12 db curls 12.5kg", "face pulls 3x15 ss w/ db curls 3x12 12.5kg"])  # fmt: skip
def test_two_letters_between_two_lifts_are_a_superset(typed: str) -> None:
    one, two = items(typed)
    assert (one["sets"][0]["reps"], one["sets"][0].get("load")) == (15, None)
    assert (two["sets"][0]["reps"], two["sets"][0]["load"], two["superset"]) == (12, "12.5", True)


def test_a_drop_set_in_brackets_gives_the_sets_no_loads() -> None:
    (lift,) = items("bench 3x10 60kg (last set drop: 60-50-40kg max reps)")
    assert [(each["sets"], each["load"]) for each in lift["sets"]] == [(3, "60")]


@pytest.mark.parametrize("typed", ["12 cal row (w: 9)", "12 cal row (women 9)", "12/9 cal row"])
def test_the_other_groups_calories_in_brackets(typed: str) -> None:
    first, _ = piece(f"AMRAP 12\n{typed}\n10 burpees")["movement"]
    assert first["sides"] == [12, 9]


def test_two_loads_of_two_bells_behind_an_at() -> None:
    (move,) = piece("farmers carry 4 x 40m @ 2x32/24")["movement"]
    assert (move["load"], move["implements"]) == (["32", "24"], 2)


def test_sets_behind_a_test_are_kept_before_what_comes_after() -> None:
    lift, after = items("Front squat: find a 3RM in 20 min, then 2 sets of 3 at 90% of that. after: 4 rounds for time, 12 thrusters 43/30, 12 pull-ups")  # fmt: skip
    assert lift["sets"][1]["percent"] == 90.0
    assert "standard" not in after["piece"]["movement"][0]


def test_a_count_behind_an_amrap_is_no_length() -> None:
    found = items("3 rounds, 3 min each, 1 min rest: 30 double unders then amrap of 5 pull-ups + 10 kb swings 24/16")
    moves = [(move["name"], move.get("first")) for item in found for move in item["piece"]["movement"]]
    assert moves == [("double under", 30), ("pull-up", 5), ("kettlebell swing", 10)]
    assert all(item["piece"].get("cap") != "5:00" for item in found)


@pytest.mark.parametrize(
    "typed", ["amrap of 12: 5 pull-ups", "amrap of 12 min: 5 pull-ups", "AMRAP of 12 minutes 5 pull-ups"]
)
def test_a_length_behind_of_is_one(typed: str) -> None:
    found = piece(typed)
    assert (found["cap"], found["movement"][0]["first"]) == ("12:00", 5)


@pytest.mark.parametrize("typed", ["6 rounds - 1 round every 2:30 -", "every 2:30 x 6:", "6 rounds, one every 2:30:"])
def test_so_many_rounds_one_every_so_often(typed: str) -> None:
    found = piece(f"{typed} 6 deadlifts 100/70, 9 box jumps")
    assert (found["kind"], found["interval"], found["intervals"]) == ("every minute", "2:30", 6)


def test_a_semicolon_parts_sets_from_a_clock() -> None:
    lift, after = items("deadlift 3-3-3 heavy but smooth; 8 min amrap 8 box jumps + 8 burpees")
    assert (lift["lift"], lift["sets"][0]["reps"]) == ("Deadlift", 3)
    assert [move["name"] for move in after["piece"]["movement"]] == ["box jump", "burpee"]
