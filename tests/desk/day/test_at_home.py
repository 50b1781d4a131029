"""At home the coach's option for home comes first, where the kit can do it; in the gym the gym's."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.day import this_day
from tracker.conditioning.told import told_words
from tracker.desk.day.next import whats_next
from tracker.desk.day.piece_at_place import swaps_here
from tracker.desk.people import people, places
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.conditioning import Said
from tracker.desk.sheet import sheets
from tracker.log.records import KitItemRecord, MemberRecord, PlaceRecord
from tracker.log.unit_of_work import Log
from tracker.pocket.plan import plan_of
from tracker.units import Mass

PIECE = """Naptime
15 min AMRAP
9 barbell thrusters 40 kg (home: 12 dumbbell thrusters 2x15 kg)
6 pull-ups (home: 12 dumbbell rows)"""


def somebody_at(log: Log, name: str, *bells: tuple[str, str, int], bar: bool = False) -> MemberRecord:
    place = places.add_place(log, name, "kg")
    items = [KitItemRecord("", kind, mass, Mass(Decimal(mass), "kg"), number) for kind, mass, number in bells]  # type: ignore[arg-type]
    items += [KitItemRecord("", "bar", "bar", Mass(Decimal(20), "kg"), 1)] if bar else []
    places.change_place(log, PlaceRecord(place.id, name, "kg", False, tuple(items)))
    return people.go_to_place(log, people.add_member(log, "Tobiah").id, place.id)


def take(log: Log, member: MemberRecord, text: str) -> None:
    sheets.take_sheet(log, [member.id], text, this_day())


def test_at_home_the_dumbbells_come_first_and_the_score_is_kept_as_that(log: Log):
    member = somebody_at(log, "Home", ("dumbbell", "15", 2))
    take(log, member, PIECE)
    found = whats_next(log, member.id, this_day())
    assert found.piece is not None
    first, second = found.piece.movements
    assert first.words == "12 dumbbell thrusters, 2 x 15 kg"
    assert second.words == "12 dumbbell rows"
    assert "9 barbell thruster" in first.options[0]  # and what the gym does stays in sight
    swaps = swaps_here(found.piece.row.piece, found.plan.place)
    score = conditioning.log_score(
        log, member.id, found.piece.piece_id, this_day(), Said("5 rounds and 4 reps", swaps), member_step_id=found.plan.step.id
    )  # fmt: skip
    assert "dumbbell thruster" in told_words(score.score)
    assert "home version" in told_words(score.score)
    assert [(each.task.implements, str(each.task.load)) for each in score.score.swaps] == [(2, "15 kg"), (1, "None")]


def test_a_phone_has_them_first_too(log: Log):
    member = somebody_at(log, "Home", ("dumbbell", "15", 2))
    take(log, member, PIECE)
    (piece,) = plan_of(log, member.id, this_day())["sessions"][0]["pieces"]
    assert [each["here"] for each in piece["movements"]] == ["dumbbell thruster", "dumbbell row"]
    assert piece["movements"][0]["words"].startswith("12 dumbbell thruster")
    assert piece["rounds"][0]["reps"][0] == [12, "dumbbell thrusters", "dumbbell thruster"]


@pytest.mark.parametrize("name", ["Harbour Gym", "Loft"])
def test_where_the_bar_stands_the_coach_s_first_way_comes_first(log: Log, name: str):
    member = somebody_at(log, name, ("dumbbell", "15", 2), bar=True)
    take(log, member, PIECE)
    found = whats_next(log, member.id, this_day())
    assert found.piece is not None
    assert found.piece.movements[0].words.startswith("9 barbell thruster")
    assert swaps_here(found.piece.row.piece, found.plan.place) == ""


def test_a_garage_with_a_bar_is_at_home_as_well(log: Log):
    member = somebody_at(log, "Garage", ("dumbbell", "15", 2), bar=True)
    take(log, member, PIECE)
    found = whats_next(log, member.id, this_day())
    assert found.piece is not None
    assert found.piece.movements[0].words.startswith("12 dumbbell thruster")


def test_an_option_that_home_can_t_do_does_not_come_first(log: Log):
    member = somebody_at(log, "Home", ("kettlebell", "16", 1))
    take(log, member, PIECE)
    found = whats_next(log, member.id, this_day())
    assert found.piece is not None
    assert found.piece.movements[1].words == "6 pull-ups"


def test_one_dumbbell_makes_a_goblet_squat_and_the_way_for_home_comes_first(log: Log):
    member = somebody_at(log, "Home", ("dumbbell", "12.5", 1))
    take(log, member, "Back squat 4x5 @ 70 % of 5RM\nHome: goblet squat 4x12")
    (line, *rest) = whats_next(log, member.id, this_day()).plan.lines
    assert line.lift.name == "goblet squat"
    assert (line.reps, len(rest)) == (12, 3)


def test_pull_ups_give_way_at_home_where_the_coach_has_written_one(log: Log):
    text = "Pull-up 4x5\nHome: dumbbell row 4x12"
    member = somebody_at(log, "Home", ("dumbbell", "15", 2))
    take(log, member, text)
    assert whats_next(log, member.id, this_day()).plan.lines[0].lift.name == "dumbbell row"
    place = places.add_place(log, "Harbour Gym", "kg")
    people.go_to_place(log, member.id, place.id)
    assert whats_next(log, member.id, this_day()).plan.lines[0].lift.name == "pull-up"


def notes_of(log: Log, *bells: tuple[str, str, int], text: str = PIECE) -> tuple[str, ...]:
    member = somebody_at(log, "Home", *bells)
    take(log, member, text)
    piece = whats_next(log, member.id, this_day()).piece
    assert piece is not None
    return piece.notes


def test_with_one_dumbbell_the_two_that_are_asked_are_done_with_one(log: Log):
    (words, *_) = notes_of(log, ("dumbbell", "15", 1))
    assert words.startswith("dumbbell thruster: one dumbbell only (15 kg) here, and two are asked: do it with one")


def test_two_single_dumbbells_are_no_pair(log: Log):
    (words, *_) = notes_of(log, ("dumbbell", "15", 1), ("dumbbell", "20", 1))
    assert "no two dumbbells alike (15 kg, 20 kg) here" in words


def test_with_a_pair_nothing_is_said_of_it_and_a_way_without_a_load_names_what_stands_here(log: Log):
    assert notes_of(log, ("dumbbell", "15", 2)) == ("dumbbell row: 2 x 15 kg here.",)


def test_of_the_only_pair_that_stands_here_the_load_is_said_and_kept(log: Log):
    member = somebody_at(log, "Home", ("dumbbell", "15", 2))
    take(
        log,
        member,
        "5 rounds for time:\n5 power cleans @ 50 kg\n10 toes to bar\nHome: 5 double dumbbell power cleans, 10 sit-ups",
    )
    found = whats_next(log, member.id, this_day())
    assert found.piece is not None
    assert found.plan.step is not None
    assert found.piece.movements[0].words == "5 double dumbbell power cleans, 15 kg"
    swaps = swaps_here(found.piece.row.piece, found.plan.place)
    score = conditioning.log_score(
        log, member.id, found.piece.piece_id, this_day(), Said("14:20", swaps), member_step_id=found.plan.step.id
    )  # fmt: skip
    assert [(each.task.movement, str(each.task.load)) for each in score.score.swaps] == [
        ("double dumbbell power clean", "15 kg"), ("sit-up", "None"),
    ]  # fmt: skip
    assert told_words(score.score) == "14:20, home version"


def test_a_movement_for_two_by_its_name_says_that_only_one_stands_here(log: Log):
    member = somebody_at(log, "Barn", ("dumbbell", "17.5", 1))
    take(log, member, "AMRAP 15:\n12 double dumbbell thrusters\n30 rope turns")
    found = whats_next(log, member.id, this_day())
    assert found.piece is not None
    assert "one dumbbell only (17.5 kg) here, and two are asked" in found.piece.notes[0]
