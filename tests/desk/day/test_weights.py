"""Weights: any lift, any reference, any wave, at the member's place."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest

from tests.loads import kg
from tracker.desk.day import log_set, weights
from tracker.desk.people import people, places
from tracker.errors import BadInputError
from tracker.log.records import KitItemRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.units import Mass

DAY = date(2026, 3, 2)


@pytest.fixture
def squat(log: Log):
    return people.add_lift(log, "front squat", "barbell")


def at(log: Log, member, *items: KitItemRecord, pins: bool = True):
    place = places.add_place(log, "Shed", "kg", items, pins=pins)
    return people.go_to_place(log, member.id, place.id)


def bar(mass: str = "20") -> KitItemRecord:
    return KitItemRecord("", "bar", "bar", kg(mass), 1)


def disc(mass: str, pairs: int | None = None) -> KitItemRecord:
    return KitItemRecord("", "disc", mass, kg(mass), pairs)


def test_percentages_of_a_typed_reference_become_loads_with_discs(log, wren, squat):
    reference = weights.typed_reference("92,5", 3, "kg", DAY)
    lines = weights.weights(log, wren, squat, reference, "1x4@72, 3x4@82", DAY)
    # 72 % of 92.5 is 66.6, 82 % is 75.85; with the common kit 67.5 and 75 are the nearest
    assert [(line.number, line.reps, str(line.made.load)) for line in lines] == [
        (1, 4, "67.5 kg"), (2, 4, "75 kg"), (3, 4, "75 kg"), (4, 4, "75 kg"),
    ]  # fmt: skip
    assert lines[1].made.words == "25 + 2.5 kg a side"
    assert lines[1].true_percent == pytest.approx(75 / 92.5 * 100)


def test_rounding_down_is_never_heavier_than_asked(log, wren, squat):
    reference = weights.typed_reference("92.5", 3, "kg", DAY)
    line = weights.weights(log, wren, squat, reference, "1x4@72", DAY, rounding="down")[0]
    assert line.made.load == kg(65)
    assert line.made.load.kg <= line.target.kg


def test_a_typed_reference_may_have_its_own_unit(log, wren):
    assert weights.typed_reference("205 lb", 1, "kg", DAY).load == Mass(Decimal(205), "lb")
    assert weights.typed_reference("205 lb", 1, "kg", DAY).words(DAY) == "1RM 205 lb, typed by hand"


@pytest.mark.parametrize("text", ["", "abc", "nan", "inf", "-5", "0", "1001", "50 stone"])
def test_what_is_no_reference_max_is_refused_in_words(text):
    with pytest.raises(BadInputError) as caught:
        weights.typed_reference(text, 3, "kg", DAY)
    assert caught.value.where == "reference max"
    assert caught.value.mend


@pytest.mark.parametrize("reps", [0, -1, 31])
def test_no_rep_max_has_such_repetitions(reps):
    with pytest.raises(BadInputError):
        weights.typed_reference("90", reps, "kg", DAY)


def test_too_many_sets_are_told(log, wren, squat):
    with pytest.raises(BadInputError, match="60 sets"):
        weights.weights(log, wren, squat, weights.typed_reference("90", 3, "kg", DAY), "61x1@50", DAY)


def test_a_bar_that_is_too_heavy_gets_a_word_and_the_bar(log, wren, squat):
    member = at(log, wren, bar(), disc("5", 1))
    line = weights.weights(log, member, squat, weights.typed_reference("25", 3, "kg", DAY), "1x5@60", DAY)[0]
    assert line.made.load == kg(20)
    assert line.note == "15 kg is below the empty bar of 20 kg."


def test_too_few_discs_get_a_word_and_the_closest(log, wren, squat):
    member = at(log, wren, bar(), disc("10", 1))
    line = weights.weights(log, member, squat, weights.typed_reference("100", 1, "kg", DAY), "1x5@80", DAY)[0]
    assert line.made.load == kg(40)
    assert line.note == "Too few discs for 80 kg: the closest is 40 kg."


def test_a_dumbbell_that_was_rounded_down_is_not_called_the_closest(log, wren):
    """10 kg was called the closest to 14 kg beside a 15."""
    press = people.add_lift(log, "dumbbell press", "dumbbells")
    member = at(log, wren, *(KitItemRecord("", "dumbbell", mass, kg(mass), 2) for mass in ("10", "15")))
    reference = weights.typed_reference("20", 5, "kg", DAY)
    near, down = (
        weights.weights(log, member, press, reference, "1x5@70", DAY, rounding=how)[0] for how in ("nearest", "down")
    )
    assert (near.made.load, near.note) == (kg(15), "The closest here to 14 kg is 15 kg.")
    assert down.made.load == kg(10)
    assert down.note == "Rounded down: 10 kg here, where 15 kg is nearer to the 14 kg asked."
    lightest = weights.weights(log, member, press, reference, "1x5@40", DAY, rounding="down")[0]
    assert (lightest.made.load, lightest.note) == (kg(10), "The closest here to 8 kg is 10 kg.")


def test_a_bar_that_was_rounded_down_says_why(log, wren, squat):
    """35 kg was said to be what rounding makes of 36.905 kg, where 37.5 kg can be made."""
    alone = people.prefer(log, wren.id, name="Wren", unit="kg", place_id=None, no_heavy=False, minor=False, alone=True)
    reference = weights.typed_reference("73.81", 3, "kg", DAY)
    line = weights.weights(log, alone, squat, reference, "1x5@50", DAY)[0]
    assert line.made.load == kg(35)
    assert line.note == "Rounded down (training alone): 35 kg is 5.2 % less than the 36.9 kg asked."
    near = weights.weights(log, alone, squat, reference, "1x5@50", DAY, rounding="nearest")[0]
    assert (near.made.load, near.note) == (kg("37.5"), None)


def test_a_place_without_a_bar_says_so(log, wren, squat):
    member = at(log, wren, KitItemRecord("", "dumbbell", "20", kg(20), 2))
    line = weights.weights(log, member, squat, weights.typed_reference("100", 1, "kg", DAY), "1x5@80", DAY)[0]
    assert line.made is None
    assert line.note.startswith("Shed has nothing for front squat, barbell.")


def test_nothing_heavy_holds_back_loads_over_80_per_cent_and_offers_the_lighter(log, wren, squat):
    member = people.prefer(log, wren.id, name="Wren", unit="kg", place_id=None, no_heavy=True, minor=False, alone=False)
    lines = weights.weights(log, member, squat, weights.typed_reference("100", 1, "kg", DAY), "1x5@70, 1x2@90", DAY)
    assert lines[0].made.load == kg(70)
    assert (lines[1].made, lines[1].chance) == (None, None)
    assert lines[1].held.key == "own switch"


def test_the_way_to_round_comes_with_its_reasons(log, wren, squat):
    old = weights.Reference(3, kg(90), "tested", DAY - timedelta(weeks=13))
    choice = weights.rounding_choice(log, wren, old, DAY)
    assert (choice.rounding, choice.reasons) == ("down", ("the max is 13 weeks old",))
    fresh = weights.typed_reference("90", 3, "kg", DAY)
    assert weights.rounding_choice(log, wren, fresh, DAY).rounding == "nearest"


def test_a_later_set_is_never_likelier_than_the_same_one_before(log, wren, squat):
    for back in (28, 21, 14, 7):
        log_set.log_set(
            log, wren.id, DAY - timedelta(days=back), NewSet(squat.id, kg(80), 5, rir=Decimal(1)), sure=True
        )
    reference = next(each for each in weights.options(log, wren, squat, 5, DAY) if each.source == "estimated")
    chances = [line.chance for line in weights.weights(log, wren, squat, reference, "4x5@95", DAY)]
    assert all(0 < chance < 1 for chance in chances)
    assert chances == sorted(chances, reverse=True)


def test_lifts_done_last_stand_first_and_the_others_after_them(log, wren, squat):
    press = people.add_lift(log, "press", "barbell")
    people.add_lift(log, "bench press", "barbell")
    log_set.log_set(log, wren.id, DAY, NewSet(squat.id, kg(80), 5))
    log_set.log_set(log, wren.id, DAY + timedelta(days=1), NewSet(press.id, kg(40), 5))
    assert [lift.name for lift in weights.lift_choices(log, wren)] == ["press", "front squat", "bench press"]


@pytest.fixture
def pull(log: Log, wren):
    people.weigh(log, wren.id, DAY, kg(70))
    return people.add_lift(log, "pull-up", "body")


def test_where_the_body_is_lifted_its_mass_is_part_of_the_percentage(log, wren, pull):
    reference = weights.typed_reference("20", 3, "kg", DAY)
    lines = weights.weights(log, wren, pull, reference, "1x5@80, 1x5@90", DAY, rounding="nearest")
    # 80 % of 90 kg moved is 72 kg: 2 kg added; 90 % is 81 kg: 11 kg added
    assert [str(line.made.load) for line in lines] == ["2 kg", "11 kg"]
    assert [line.true_percent for line in lines] == pytest.approx([80, 90])


def test_less_than_the_body_is_help_and_rounding_down_is_more_of_it(log, wren, pull):
    reference = weights.typed_reference("20", 3, "kg", DAY)
    line = weights.weights(log, wren, pull, reference, "1x5@70.1", DAY, rounding="down")[0]
    # 70.1 % of 90 kg is 63.09 kg, 6.91 kg less than the body: down is 7 kg of help, not 6.5
    assert str(line.made.load) == "-7 kg"
