"""`tidemark score`: the contract's ladder, other kinds of piece, and places that can't be."""

import pytest

LADDER = ("score", "ladder", "--from", 3, "--step", 3, "--movements", 3)


def test_the_contracts_example(tidemark):
    answer = tidemark(*LADDER, "--rounds", 5, "--done", 1, "--reps", 7, "--json").json
    assert (answer["total_reps"], answer["rounds"], answer["open_round_reps"]) == (160, 5, 18)


def test_a_total_gives_the_place_back(tidemark):
    answer = tidemark(*LADDER, "--total", 160, "--json").json
    assert (answer["rounds"], answer["done"], answer["reps"]) == (5, 1, 7)


def test_a_round_just_finished_is_the_start_of_the_next(tidemark):
    # By hand: 3 x (3 + 6 + 9 + 12 + 15) = 135.
    answer = tidemark(*LADDER, "--total", 135, "--json").json
    assert (answer["rounds"], answer["done"], answer["reps"]) == (5, 0, 0)


@pytest.mark.parametrize(
    ("place", "meant"),
    [
        ((5, 3, 0), "6 rounds, 0 movements and 0 repetitions"),
        ((5, 0, 18), "5 rounds, 1 movement and 0 repetitions"),
        ((5, 1, 25), "5 rounds, 1 movement and 7 repetitions"),
    ],
)
def test_a_place_that_can_not_be_is_refused_with_the_one_probably_meant(refused, place, meant):
    rounds, done, reps = place
    said = refused(*LADDER, "--rounds", rounds, "--done", done, "--reps", reps)
    assert meant in said
    assert "--rounds, --done, --reps" in said


@pytest.mark.parametrize(
    "bad",
    [
        ("--total", -1), ("--total", "nan"), ("--rounds", "five"), ("--rounds", 5, "--total", 160), (), ("--rounds", -1),
        ("--rounds", 5, "--done", -1), ("--rounds", 5, "--reps", 1e9), ("--total", "9" * 5000),
    ],
)  # fmt: skip
def test_counts_that_can_not_be_are_refused(refused, bad):
    assert refused(*LADDER, *bad)


@pytest.mark.parametrize(
    "bad", [("--from", 0), ("--from", "x"), ("--movements", 0), ("--movements", 10**9), ("--list", "21,15,9")]
)
def test_a_ladder_that_can_not_be_is_refused(refused, bad):
    assert refused("score", "ladder", "--from", 3, "--step", 3, "--movements", 3, *bad, "--total", 10)


def test_each_movement_may_have_its_own_numbers(tidemark):
    # By hand: rounds of 3, 3, 10 and 6, 6, 10: 16 + 22 = 38.
    answer = tidemark("score", "ladder", "--from", "3,3,10", "--step", "3,3,0", "--total", 38, "--json").json
    assert (answer["rounds"], answer["open_round"], answer["open_round_reps"]) == (2, [9, 9, 10], None)


def test_a_written_list_ends(tidemark, refused):
    answer = tidemark("score", "ladder", "--list", "21,15,9", "--movements", 2, "--total", 90, "--json").json
    assert answer["words"] == "all of it, 90 reps"
    assert "90" in refused("score", "ladder", "--list", "21,15,9", "--movements", 2, "--total", 91)


def test_as_many_rounds_as_possible(tidemark):
    answer = tidemark("score", "rounds", "--each", "5,10,15", "--rounds", 7, "--done", 1, "--reps", 3, "--json").json
    assert answer["total_reps"] == 7 * 30 + 5 + 3


def test_a_piece_for_time(tidemark, refused):
    piece = ("score", "time", "--list", "21,15,9", "--movements", 2, "--cap", "8:00")
    assert tidemark(*piece, "--said", "7:41", "--json").json["time_s"] == 461
    capped = tidemark(*piece, "--said", "CAP + 13", "--json").json
    assert (capped["total_reps"], capped["missing"]) == (77, 13)
    assert "cap" in refused(*piece, "--said", "9:10") or "over" in refused(*piece, "--said", "9:10")
    assert refused(*piece, "--said", "quick")
    assert "--cap" in refused(*piece[:-1], "soon", "--said", "7:41")


def test_intervals(tidemark, refused):
    piece = ("score", "intervals", "--every", "1:00", "--times", 3)
    assert tidemark(*piece, "--said", "2/3", "--json").json["kept"] == 2
    rows = tidemark(*piece, "--measure", "m", "--rest", "0:30", "--said", "200, 199, 198", "--json").json
    assert (rows["each"], rows["total_reps"]) == ([200, 199, 198], 597)
    assert refused(*piece, "--said", "4/3")


def test_the_answer_in_words(tidemark):
    said = tidemark(*LADDER, "--total", 160).out
    assert "160 repetitions: through the 15s, plus 25" in said
