"""The plan names a movement as it stands after any count, so that a phone alone can say how many of it were done."""

from tests.desk.ladders import LADDER
from tracker.pocket.piece_plan import way


def test_each_movement_of_a_round_has_its_name_after_many_and_after_one():
    (first, second, *_), *_ = (each["reps"] for each in way(LADDER)["rounds"])
    for asked, many, one in (first, second):
        assert asked > 1
        assert many != one
        assert many.startswith(one[:4])
